/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Escapes and numbers as the guard sees them. */
#include "fl-json-token.h"

#include <math.h>
#include <string.h>

enum
{
  EXACT_DIGITS = 16,            /* 2^53 has 16 digits */
  SURE_DIGITS = 300             /* a number without exponent is finite up to 308 */
};

static const guint64 max_integer = G_GUINT64_CONSTANT (1) << 53;

static gint
hex4 (const char *at, const char *end)
{
  gint value = 0;

  if (end - at < 4)
    return -1;
  for (guint i = 0; i < 4; i++)
    {
      if (!g_ascii_isxdigit (at[i]))
        return -1;
      value = value * 16 + g_ascii_xdigit_value (at[i]);
    }
  return value;
}

/* `at` is behind \u. What is wrong with it, or NULL; *at moves behind the escape. */
static const char *
check_unicode (const char **at, const char *end)
{
  gint c = hex4 (*at, end), low;

  if (c < 0)
    return "four hexadecimal digits after \\u";
  *at += 4;
  if (c == 0)
    return "a text without the character \\u0000";
  if (c < 0xD800 || c > 0xDFFF)
    return NULL;
  low = c <= 0xDBFF && end - *at >= 6 && (*at)[0] == '\\' && (*at)[1] == 'u' ? hex4 (*at + 2, end) : -1;
  if (low < 0xDC00 || low > 0xDFFF)
    return "surrogates in pairs: \\uD800 to \\uDBFF, then \\uDC00 to \\uDFFF";
  *at += 6;
  return NULL;
}

const char *
fl_json_check_escape (const char **at, const char *end)
{
  char c = (*at)[1];

  if (c == '\n')                /* the line's end is the caller's matter */
    {
      *at += 1;
      return "a backslash inside a text is written \\\\";
    }
  *at += 2;
  if (c == 'u')
    return check_unicode (at, end);
  if (c != '\0' && strchr ("\"\\/bfnrt", c) != NULL)
    return NULL;
  *at += (guchar) c >= 0x80 ? g_utf8_skip[(guchar) c] - 1 : 0;
  return "one of the escapes \\\" \\\\ \\/ \\b \\f \\n \\r \\t \\uXXXX; a backslash itself is written \\\\";
}

static gsize
digits (const char **at, const char *end)
{
  const char *from = *at;

  while (*at < end && g_ascii_isdigit (**at))
    (*at)++;
  return (gsize) (*at - from);
}

FlJsonNumber
fl_json_read_number (const char *at, const char *end)
{
  FlJsonNumber number = { .from = at };
  const char *integer;

  number.negative = *at == '-';
  at += number.negative;
  integer = at;
  number.integer_digits = digits (&at, end);
  number.bad = number.integer_digits == 0 || (number.integer_digits > 1 && *integer == '0');
  number.fraction = at < end && *at == '.';
  if (number.fraction)
    {
      at++;
      number.bad |= digits (&at, end) == 0;
    }
  number.exponent = at < end && (*at == 'e' || *at == 'E');
  if (number.exponent)
    {
      at++;
      at += at < end && (*at == '+' || *at == '-');
      number.bad |= digits (&at, end) == 0;
    }
  number.end = at;
  return number;
}

static gboolean
has_digit_but_zero (const FlJsonNumber *number)
{
  for (const char *at = number->from; at < number->end && *at != 'e' && *at != 'E'; at++)
    if (*at >= '1' && *at <= '9')
      return TRUE;
  return FALSE;
}

/* The digits of a number without fraction and exponent. */
static gboolean
is_exact_integer (const FlJsonNumber *number)
{
  guint64 integer = 0;

  if (number->integer_digits > EXACT_DIGITS)
    return FALSE;
  for (const char *at = number->end - number->integer_digits; at < number->end; at++)
    integer = integer * 10 + (guint64) (*at - '0');
  return integer <= max_integer;
}

const char *
fl_json_check_number (const FlJsonNumber *number)
{
  g_autofree char *text = NULL;
  double value;

  if (!number->fraction && !number->exponent)
    return is_exact_integer (number) ? NULL : "a whole number between -9007199254740992 and 9007199254740992 (2^53)";
  if (!number->exponent && number->end - number->from < SURE_DIGITS)
    return NULL;
  text = g_strndup (number->from, (gsize) (number->end - number->from));
  value = g_ascii_strtod (text, NULL);
  if (!isfinite (value))
    return "a number that can be held, below 1.8e308";
  return value == 0.0 && has_digit_but_zero (number) ? "a number that can be held: this one is so small that it would become 0" : NULL;
}
