/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The name of a part of a tie-down, "chain C-041", in any language: its kind is a word, its number stays. */
#ifndef FL_PART_WORDS_H
#define FL_PART_WORDS_H

#include "fl-words.h"

G_BEGIN_DECLS

/* "cadena C-041" for "chain C-041"; "clevis link CL-1" is of two words. A kind that is not known stays as it is; NULL: the word for not known.
 * `pieces` FALSE leaves the piece of a counted record out, "C-H38-16" for "C-H38-16 #2": nobody can tell one from its like. (transfer full) */
char *fl_part_words (const FlWords *words, const char *part, gboolean pieces);

G_END_DECLS
#endif
