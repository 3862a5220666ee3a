/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Checked reading of one JSON object, key by key. What is wrong goes to the list of problems with path, line and value; a reader
 * never stops at the first. Texts are copied into the arena, so that nothing read points into the JSON tree. */
#ifndef FL_READER_H
#define FL_READER_H

#include "fl-arena.h"
#include "fl-json.h"
#include "fl-quantity.h"

G_BEGIN_DECLS

typedef struct _FlReader FlReader;

/* A reader of the root object of a guarded text. `path_prefix` ("machines[3]") and `first_line` place it in the whole document.
 * `problems` may be NULL. `text` and `arena` must outlive it. NULL (and a problem) if the root is no object. (transfer full) */
FlReader *fl_reader_new (const char *text, gsize length, JsonNode *root, const char *path_prefix, guint first_line,
                         FlArena *arena, FlProblems *problems);
/* Frees it and its children; warns of keys that nobody asked for ("unknown key"), unless fl_reader_ignore_rest was called. */
void fl_reader_free (FlReader *reader);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FlReader, fl_reader_free)
void fl_reader_ignore_rest (FlReader *reader);

gboolean fl_reader_has (FlReader *reader, const char *key);          /* asking is enough: the key is then a known one */
gboolean fl_reader_is_null (FlReader *reader, const char *key);
gboolean fl_reader_is_list (FlReader *reader, const char *key);     /* for keys that take one value or a list of them */

/* Children are owned by their parent; asked for again, the same child comes. null counts as absent. NULL where absent (a problem when required) or of another type (always a problem). */
FlReader *fl_reader_object (FlReader *reader, const char *key, gboolean required);
gsize fl_reader_list (FlReader *reader, const char *key, gboolean required);           /* its length; 0 if absent */
FlReader *fl_reader_item (FlReader *reader, const char *key, gsize index);              /* list of objects */
const char *fl_reader_item_text (FlReader *reader, const char *key, gsize index);       /* list of texts */
double fl_reader_item_number (FlReader *reader, const char *key, gsize index);          /* list of numbers; NaN after a problem */
const char *const *fl_reader_texts (FlReader *reader, const char *key, gboolean required); /* NULL-terminated; NULL if absent */
GPtrArray *fl_reader_keys (FlReader *reader);                                           /* member names; (transfer container) */

const char *fl_reader_text (FlReader *reader, const char *key, gboolean required);      /* NULL if absent or null */
/* `fallback` where absent or after a problem; null is a problem: none of these can be "looked at, and there is none". Bounds are inclusive;
 * NaN: no bound. A whole number may be written 4 or 4.0. */
gboolean fl_reader_bool (FlReader *reader, const char *key, gboolean fallback);
gint fl_reader_int (FlReader *reader, const char *key, gint min, gint max, gint fallback);
double fl_reader_number (FlReader *reader, const char *key, double min, double max, double fallback);

/* Index into the NULL-terminated `values`; `fallback` if absent; a problem naming the values if it is another text. */
gint fl_reader_choice (FlReader *reader, const char *key, const char *const *values, gboolean required, gint fallback);

/* key + "_lb", "_kg", ... of the dimension: exactly one of the family. For weights "..wll" also reads "..lc_dan". Absent, or after a
 * problem: FL_NOT_MEASURED; null: FL_UNIT_NULL, a problem where required. Out of [min, max] (in lb, in, deg, g, percent, minutes;
 * NaN: no bound; FL_TOLERANCE is allowed): a problem. Suffixes: _lb _kg; _in _ft _mm _m; _deg; _g; _pct or none (share); _min _h; none (count). */
FlQuantity fl_reader_quantity (FlReader *reader, const char *key, FlDimension dimension, gboolean required, double min, double max);

/* A problem at `key` of this reader: a member, one that is missing, "" for the object itself, or a path from it ("tie_points[2].x_in"). */
void fl_reader_problem (FlReader *reader, FlSeverity severity, const char *key, const char *expected, ...) G_GNUC_PRINTF (4, 5);
FlArena *fl_reader_arena (FlReader *reader);
/* "machines[3].tie_points[0]"; lives as long as the reader. */
const char *fl_reader_path (FlReader *reader);

G_END_DECLS
#endif
