/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The guard that stands before json-glib, and the scanner that finds a value's place in a text.
 *
 * json-glib 1.6 crashes on very deep nesting, turns 1e999 into infinity, wraps large integers, keeps the last of two equal
 * keys and accepts text after the document; the guard refuses all of that first. */
#ifndef FL_JSON_H
#define FL_JSON_H

#include <json-glib/json-glib.h>
#include "fl-problem.h"

G_BEGIN_DECLS

#define FL_JSON_MAX_BYTES (256u * 1024 * 1024)
#define FL_JSON_MAX_DEPTH 64

/* TRUE if `text` is one well-formed JSON value (RFC 8259): size, UTF-8 (a leading byte order mark is allowed), depth, no duplicate
 * members, nothing after it, finite numbers that do not vanish to zero, integers within 2^53, no \u0000. Every problem found before the
 * text can no longer be followed is added. */
gboolean fl_json_guard (GBytes *text, FlProblems *problems);

/* Guards and parses; NULL after problems. The root is an object. (transfer full) */
JsonNode *fl_json_parse (GBytes *text, FlProblems *problems);

/* `line` is 1-based and counted from the start of the text. */
typedef struct { gsize offset, length; guint line; } FlJsonSpan;

/* Where the value of `path` ("tie_points[2].x_in"; "" the whole) stands in a guarded text. FALSE if there is none. Linear in the text,
 * allocates nothing. A key that holds one of . [ ] " \ or a control character, or is empty, is written ["..."] with JSON's escapes. */
gboolean fl_json_find (const char *text, gsize length, const char *path, FlJsonSpan *span);

/* The spans of an array's elements. (transfer full) array of FlJsonSpan; NULL if `path` is no array. */
GArray *fl_json_elements (const char *text, gsize length, const char *path);

/* The members of an object, in their order: `key` spans the name with its quotes. (transfer full) array of FlJsonMember; NULL if `path`
 * is no object. */
typedef struct { FlJsonSpan key, value; } FlJsonMember;
GArray *fl_json_members (const char *text, gsize length, const char *path);

/* The text that a JSON string of a guarded text stands for; `length` with its quotes. (transfer full) */
char *fl_json_unquote (const char *string, gsize length);

/* Appends a member's name to a path, with a point before it or in the ["..."] form where it must be. */
void fl_json_path_key (GString *path, const char *key);

G_END_DECLS
#endif
