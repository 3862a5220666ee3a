/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Private to model: the smallest parts of a JSON text, checked by RFC 8259 and for what a double can hold. */
#ifndef FL_JSON_TOKEN_H
#define FL_JSON_TOKEN_H

#include <glib.h>

G_BEGIN_DECLS

/* One escape; *at is on the backslash, something follows it, and *at moves behind the escape (not over a line's end).
 * What is wrong with it, as an "expected" text; NULL if nothing is. */
const char *fl_json_check_escape (const char **at, const char *end);

typedef struct
{
  const char *from, *end;
  gsize integer_digits;
  gboolean negative, fraction, exponent;
  gboolean bad;                 /* not by the grammar: leading zero, no digit where one must be */
} FlJsonNumber;

/* The number that begins with the digit or minus sign at `at`. */
FlJsonNumber fl_json_read_number (const char *at, const char *end);

/* What is wrong with the size of a number that is not bad, as an "expected" text; NULL if nothing is. */
const char *fl_json_check_number (const FlJsonNumber *number);

G_END_DECLS
#endif
