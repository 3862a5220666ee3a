/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One language's texts, read from its .mo file; the process locale plays no part, so any number can be used at once.
 * A message id is the English text itself; NULL words are English. Immutable, atomically reference-counted. */
#ifndef FL_WORDS_H
#define FL_WORDS_H

#include "fl-finding.h"

G_BEGIN_DECLS

typedef struct _FlWords FlWords;

#define FL_WORDS_ERROR (fl_words_error_quark ())
typedef enum { FL_WORDS_ERROR_NOT_FOUND, FL_WORDS_ERROR_BAD_FILE } FlWordsError;
GQuark fl_words_error_quark (void);

/* Reads one .mo file (GNU gettext's format, both byte orders, every offset checked). `language` is its tag, "es". (transfer full) */
FlWords *fl_words_load (const char *path, const char *language, GError **error);
FlWords *fl_words_ref (const FlWords *words);
void fl_words_unref (FlWords *words);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FlWords, fl_words_unref)
const char *fl_words_language (const FlWords *words);     /* "en" for NULL */

/* The text for a message id; the id itself where there is no translation. */
const char *fl_words_text (const FlWords *words, const char *message);
/* With a context (msgctxt). */
const char *fl_words_text_in (const FlWords *words, const char *context, const char *message);

/* A message with its {holes} filled: quantities by fl_quantity_format in the house's units, texts as they are (a fact whose text is itself a
 * message id is translated when its key ends in "_word", e.g. {side_word}). A hole without a fact stays visible as "{key}". (transfer full) */
char *fl_words_message (const FlWords *words, const char *message, const FlFact *facts, gsize n_facts, gboolean metric);

/* A finding's sentence; {need}, {have}, {subject}, {basis} are there besides its own facts. (transfer full) */
char *fl_words_finding (const FlWords *words, const FlFinding *finding, gboolean metric);

/* "short", "not met", ... : the word of a verdict and of a standing, translated. */
const char *fl_words_verdict (const FlWords *words, FlVerdict verdict);
const char *fl_words_standing (const FlWords *words, FlStanding standing);

G_END_DECLS
#endif
