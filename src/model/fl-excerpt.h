/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Private to model: foreign text made fit for a one-line message. */
#ifndef FL_EXCERPT_H
#define FL_EXCERPT_H

#include <glib.h>

G_BEGIN_DECLS

/* The characters of a value that a problem shows. */
#define FL_EXCERPT_CHARS 60

/* `text` as one line of valid UTF-8 of at most `max_chars` characters: white space of any length becomes one space, other control
 * characters and bytes that are no UTF-8 become U+FFFD, what is cut off is marked with an ellipsis. Reads no more than it needs.
 * length -1: up to its NUL. (transfer full) */
char *fl_excerpt (const char *text, gssize length, guint max_chars);

G_END_DECLS
#endif
