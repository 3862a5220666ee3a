/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Private to model: a cursor over a guarded JSON text, value by value. It allocates nothing and never leaves the text, whatever is in it;
 * only the guard judges whether the text is right. */
#ifndef FL_JSON_SCAN_H
#define FL_JSON_SCAN_H

#include "fl-json.h"

G_BEGIN_DECLS

typedef struct
{
  const char *start, *at, *end;
  guint line;
} FlScan;

/* A cursor at the start, behind a byte order mark. */
FlScan fl_scan (const char *text, gsize length);

void fl_scan_space (FlScan *scan);

/* Skips white space and then `sign`; FALSE (and only white space skipped) if another one stands there. */
gboolean fl_scan_take (FlScan *scan, char sign);

/* Skips one value; *span may be NULL. FALSE at the end of the text. */
gboolean fl_scan_value (FlScan *scan, FlJsonSpan *span);

/* In an array or object whose opening bracket was taken: TRUE if another element follows, its comma taken. *n counts them and starts at 0. */
gboolean fl_scan_more (FlScan *scan, gsize *n);

/* Takes a member's name with its quotes, and the colon. FALSE if none stands there. */
gboolean fl_scan_key (FlScan *scan, FlJsonSpan *key);

/* Skips what stands between quotes; `at` is on the opening one. */
void fl_scan_string (FlScan *scan);

/* The character at *at of a JSON string's inside, escapes resolved. */
gunichar fl_scan_char (const char **at, const char *end);

G_END_DECLS
#endif
