/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Units, exact conversion, the comparison of the house, rounding, and numbers as text for people and for JSON. */
#include "fl-quantity.h"

#include <math.h>
#include <string.h>

enum
{
  FEET_FROM_IN = 72             /* lengths from here on read better in feet and inches */
};

/* One of a unit is numerator / denominator of its dimension's base (kg, mm, deg, g, 1, 1, min). Both are whole numbers, and so are their
 * products below 2^53, so that a conversion rounds twice at most and 5.5 ft is 66 in exactly.
 * Sources: international yard and pound agreement of 1959 (1 yd = 0.9144 m, 1 lb = 0.45359237 kg); NIST SP 811 (2008), appendix B.8
 * (1 mi = 1609.344 m); standard acceleration of gravity 9.80665 m/s2 (3rd CGPM, 1901): 1 daN weighs 10/9.80665 kg. */
static const struct
{
  FlDimension dimension;
  double numerator, denominator;
  const char *suffix;
} units[FL_N_UNITS] = {
  [FL_UNIT_NONE] = { FL_DIM_NONE, 1, 1, "" },
  [FL_UNIT_NULL] = { FL_DIM_NONE, 1, 1, "" },
  [FL_UNIT_LB] = { FL_DIM_WEIGHT, 45359237, 100000000, "lb" },
  [FL_UNIT_KG] = { FL_DIM_WEIGHT, 1, 1, "kg" },
  [FL_UNIT_DAN] = { FL_DIM_WEIGHT, 1000000, 980665, "dan" },
  [FL_UNIT_IN] = { FL_DIM_LENGTH, 127, 5, "in" },
  [FL_UNIT_FT] = { FL_DIM_LENGTH, 1524, 5, "ft" },
  [FL_UNIT_MM] = { FL_DIM_LENGTH, 1, 1, "mm" },
  [FL_UNIT_M] = { FL_DIM_LENGTH, 1000, 1, "m" },
  [FL_UNIT_MI] = { FL_DIM_LENGTH, 1609344, 1, "mi" },
  [FL_UNIT_KM] = { FL_DIM_LENGTH, 1000000, 1, "km" },
  [FL_UNIT_DEG] = { FL_DIM_ANGLE, 1, 1, "deg" },
  [FL_UNIT_G] = { FL_DIM_ACCELERATION, 1, 1, "g" },
  [FL_UNIT_COUNT] = { FL_DIM_COUNT, 1, 1, "" },
  [FL_UNIT_SHARE] = { FL_DIM_SHARE, 1, 1, "" },
  [FL_UNIT_PCT] = { FL_DIM_SHARE, 1, 100, "pct" },
  [FL_UNIT_MIN] = { FL_DIM_TIME, 1, 1, "min" },
  [FL_UNIT_H] = { FL_DIM_TIME, 60, 1, "h" },
};

G_DEFINE_QUARK (fl-quantity-error-quark, fl_quantity_error)

gboolean
fl_quantity_known (FlQuantity q)
{
  return q.unit > FL_UNIT_NULL && q.unit < FL_N_UNITS;
}

gboolean
fl_quantity_is_none (FlQuantity q)
{
  return q.unit == FL_UNIT_NULL;
}

FlDimension
fl_unit_dimension (FlUnit unit)
{
  g_return_val_if_fail (unit < FL_N_UNITS, FL_DIM_NONE);
  return units[unit].dimension;
}

const char *
fl_unit_suffix (FlUnit unit)
{
  g_return_val_if_fail (unit < FL_N_UNITS, "");
  return units[unit].suffix;
}

FlUnit
fl_unit_from_suffix (const char *suffix)
{
  for (guint unit = 0; suffix != NULL && *suffix != '\0' && unit < FL_N_UNITS; unit++)
    if (strcmp (suffix, units[unit].suffix) == 0)
      return (FlUnit) unit;
  return FL_UNIT_NONE;
}

FlUnit
fl_unit_house (FlDimension dimension, gboolean metric)
{
  static const FlUnit house[][2] = {
    [FL_DIM_NONE] = { FL_UNIT_NONE, FL_UNIT_NONE },
    [FL_DIM_WEIGHT] = { FL_UNIT_LB, FL_UNIT_KG },
    [FL_DIM_LENGTH] = { FL_UNIT_IN, FL_UNIT_MM },
    [FL_DIM_ANGLE] = { FL_UNIT_DEG, FL_UNIT_DEG },
    [FL_DIM_ACCELERATION] = { FL_UNIT_G, FL_UNIT_G },
    [FL_DIM_COUNT] = { FL_UNIT_COUNT, FL_UNIT_COUNT },
    [FL_DIM_SHARE] = { FL_UNIT_PCT, FL_UNIT_PCT },
    [FL_DIM_TIME] = { FL_UNIT_MIN, FL_UNIT_MIN },
  };

  g_return_val_if_fail (dimension < G_N_ELEMENTS (house), FL_UNIT_NONE);
  return house[dimension][metric ? 1 : 0];
}

double
fl_quantity_in (FlQuantity q, FlUnit unit)
{
  double multiply, divide;

  g_return_val_if_fail (unit < FL_N_UNITS, NAN);
  if (!fl_quantity_known (q) || units[q.unit].dimension != units[unit].dimension)
    return NAN;
  if (q.unit == unit)
    return q.value;
  multiply = units[q.unit].numerator * units[unit].denominator;
  divide = units[q.unit].denominator * units[unit].numerator;
  if (fmod (multiply, divide) == 0.0)   /* 1 ft is 12 in: one rounding less */
    return q.value * (multiply / divide);
  if (fmod (divide, multiply) == 0.0)
    return q.value / (divide / multiply);
  return q.value * multiply / divide;
}

FlQuantity
fl_quantity_as (FlQuantity q, FlUnit unit)
{
  return fl_quantity_known (q) ? (FlQuantity) { fl_quantity_in (q, unit), unit } : q;
}

gboolean
fl_reaches (double have, double need)
{
  return have >= need - FL_TOLERANCE * fabs (need);
}

gboolean
fl_quantity_reaches (FlQuantity have, FlQuantity need)
{
  return fl_quantity_known (need) && fl_reaches (fl_quantity_in (have, need.unit), need.value);
}

/* ── rounding ── */

/* v to steps of 1/per_unit. What lies within FL_TOLERANCE of a step is that step, in every direction. */
static double
round_to (double v, double per_unit, FlRounding rounding)
{
  double scaled = v * per_unit, step = round (scaled);

  if (!isfinite (scaled) || fabs (scaled) >= 4503599627370496.0)  /* 2^52: no fraction is left */
    return v;
  if (rounding != FL_ROUND_NEAREST && fabs (scaled - step) > FL_TOLERANCE * MAX (1.0, fabs (scaled)))
    step = rounding == FL_ROUND_UP ? ceil (scaled) : floor (scaled);
  return step / per_unit + 0.0;  /* + 0.0: no minus zero */
}

/* Distances of a journey stay miles or kilometres; everything else goes to the house's unit. */
static FlUnit
house_unit (FlUnit unit, gboolean metric)
{
  switch (units[unit].dimension)
    {
    case FL_DIM_WEIGHT:
      return metric ? FL_UNIT_KG : FL_UNIT_LB;
    case FL_DIM_LENGTH:
      if (unit == FL_UNIT_MI || unit == FL_UNIT_KM)
        return metric ? FL_UNIT_KM : FL_UNIT_MI;
      return metric ? FL_UNIT_MM : FL_UNIT_IN;
    default:
      return unit;
    }
}

static double
steps_per_unit (FlUnit unit)
{
  switch (unit)
    {
    case FL_UNIT_KG:
    case FL_UNIT_MM:
      return 1;
    case FL_UNIT_LB:
    case FL_UNIT_IN:
    case FL_UNIT_DEG:
      return 10;
    default:
      return 1000;
    }
}

FlQuantity
fl_quantity_rounded (FlQuantity q, gboolean metric, FlRounding rounding)
{
  FlUnit unit;

  if (!fl_quantity_known (q))
    return q;
  unit = house_unit (q.unit, metric);
  return (FlQuantity) { round_to (fl_quantity_in (q, unit), steps_per_unit (unit), rounding), unit };
}

/* ── text ── */

/* "12.500" to "12.5", "12.000" to "12". */
static void
drop_trailing_zeros (char *decimal)
{
  char *end = decimal + strlen (decimal);

  while (end[-1] == '0')
    end--;
  if (end[-1] == '.')
    end--;
  *end = '\0';
}

/* Up to three decimals without trailing zeros, the whole part in groups of three. `separator` NULL: no groups. */
static void
append_number (GString *text, double value, const char *separator)
{
  char digits[G_ASCII_DTOSTR_BUF_SIZE + 320];   /* the largest double has 309 digits before the point */
  const char *at = digits, *point;

  g_ascii_formatd (digits, sizeof digits, "%.3f", value);
  drop_trailing_zeros (digits);
  if (*at == '-')
    g_string_append_c (text, *at++);
  point = at + strspn (at, "0123456789");
  for (; *at != '\0'; at++)
    {
      g_string_append_c (text, *at);
      if (separator != NULL && at + 1 < point && (point - at - 1) % 3 == 0)
        g_string_append (text, separator);
    }
}

static double
format_steps (FlUnit unit, FlRounding rounding)
{
  switch (unit)
    {
    case FL_UNIT_LB:
    case FL_UNIT_KG:
    case FL_UNIT_MM:
    case FL_UNIT_COUNT:
      return 1;
    case FL_UNIT_IN:
      return rounding == FL_ROUND_NEAREST ? 10 : 1;
    case FL_UNIT_DEG:
    case FL_UNIT_MI:
    case FL_UNIT_KM:
    case FL_UNIT_MIN:
    case FL_UNIT_PCT:
      return 10;
    default:
      return 1000;
    }
}

static void
append_feet (GString *text, double inches)
{
  double size = fabs (inches), feet = floor (size / 12), rest = round_to (size - feet * 12, 10, FL_ROUND_NEAREST);

  if (inches < 0)
    g_string_append_c (text, '-');
  append_number (text, feet, ",");
  g_string_append (text, " ft");
  if (rest == 0)
    return;
  g_string_append_c (text, ' ');
  append_number (text, rest, NULL);
  g_string_append (text, " in");
}

char *
fl_quantity_format (FlQuantity q, gboolean metric, gboolean feet, FlRounding rounding)
{
  static const char *const names[FL_N_UNITS] = {
    [FL_UNIT_LB] = " lb", [FL_UNIT_KG] = " kg", [FL_UNIT_IN] = " in", [FL_UNIT_MM] = " mm", [FL_UNIT_MI] = " mi", [FL_UNIT_KM] = " km",
    [FL_UNIT_DEG] = "°", [FL_UNIT_G] = " g", [FL_UNIT_COUNT] = "", [FL_UNIT_PCT] = " %", [FL_UNIT_MIN] = " min", [FL_UNIT_H] = " h",
  };
  GString *text;
  FlUnit unit;
  double value;

  if (!fl_quantity_known (q) || isnan (q.value))
    return g_strdup (fl_quantity_is_none (q) ? "none" : "not measured");
  unit = q.unit == FL_UNIT_SHARE ? FL_UNIT_PCT : house_unit (q.unit, metric);
  value = round_to (fl_quantity_in (q, unit), format_steps (unit, rounding), rounding);
  text = g_string_new (NULL);
  if (isinf (value))
    g_string_append (text, value < 0 ? "-∞" : "∞");
  else if (unit == FL_UNIT_IN && feet && fabs (value) >= FEET_FROM_IN)
    {
      append_feet (text, value);
      return g_string_free (text, FALSE);
    }
  else
    append_number (text, value, metric ? "\u202F" : ",");
  g_string_append (text, names[unit]);
  return g_string_free (text, FALSE);
}

/* "1e+20" is "1e20" and "1e-07" is "1e-7": both read back the same. */
static void
shorten_exponent (char *text)
{
  char *from = strchr (text, 'e'), *to;

  if (from == NULL)
    return;
  to = ++from;
  if (*from == '-')
    to++;
  from++;
  from += strspn (from, "0");
  memmove (to, from, strlen (from) + 1);
}

char *
fl_number_text (double value, char *buffer)
{
  char format[8];

  if (!isfinite (value))        /* JSON has neither infinity nor NaN */
    return strcpy (buffer, "null");
  if (value == 0.0)
    return strcpy (buffer, "0");
  if (value == floor (value) && fabs (value) <= 9007199254740992.0)
    return g_ascii_formatd (buffer, G_ASCII_DTOSTR_BUF_SIZE, "%.0f", value);
  for (guint digits = 15; digits <= 17; digits++)       /* 15 always fit into a double, 17 always tell it */
    {
      g_snprintf (format, sizeof format, "%%.%ug", digits);
      g_ascii_formatd (buffer, G_ASCII_DTOSTR_BUF_SIZE, format, value);
      if (g_ascii_strtod (buffer, NULL) == value)
        break;
    }
  shorten_exponent (buffer);
  if (strpbrk (buffer, ".e") == NULL)   /* whole, but over 2^53: as an integer of JSON it would be refused */
    g_strlcat (buffer, ".0", G_ASCII_DTOSTR_BUF_SIZE);
  return buffer;
}

gboolean
fl_size_equal (double inches_a, double inches_b)
{
  return fabs (inches_a - inches_b) <= 0.001 + 1e-12;   /* 1e-12: 0.375 and 0.376 are one thousandth apart, and a bit */
}
