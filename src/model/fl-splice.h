/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Private to the model: changes of a guarded JSON text that leave every byte that is not concerned. */
#ifndef FL_SPLICE_H
#define FL_SPLICE_H

#include "fl-json.h"

G_BEGIN_DECLS

/* `text` with the indentation of its last line taken from each of its lines but the first, and `indent` put there instead; on
 * one line for NULL. Line ends inside a JSON text are never part of a value. (transfer full) */
char *fl_splice_indented (const char *text, gsize length, const char *indent);

/* A value as JSON text, nested ones one space a level from column 0. (transfer full) */
char *fl_splice_value (JsonNode *value);

/* Puts `value` at `path`, in the place of what stands there, or as the last member or element of a parent that is there.
 * FALSE (and nothing changed) where there is no such parent. */
gboolean fl_splice_set (GString *text, const char *path, const char *value);

/* Takes the member or element at `path` out, with its comma. FALSE (and nothing changed) if there is none. */
gboolean fl_splice_remove (GString *text, const char *path);

G_END_DECLS
#endif
