/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Quantities of a record: the key carries the unit, and one key of a family is enough. */
#include "fl-reader.h"

#include <math.h>
#include <string.h>

#include "fl-range.h"

#define error_at(reader, key, ...) fl_reader_problem ((reader), FL_SEVERITY_ERROR, (key), __VA_ARGS__)

char *
fl_range_text (double min, double max, const char *unit)
{
  char low[G_ASCII_DTOSTR_BUF_SIZE], high[G_ASCII_DTOSTR_BUF_SIZE];
  const char *space = *unit == '\0' ? "" : " ";

  fl_number_text (g_ascii_strtod (g_ascii_formatd (low, sizeof low, "%.6g", min), NULL), low);
  fl_number_text (g_ascii_strtod (g_ascii_formatd (high, sizeof high, "%.6g", max), NULL), high);
  if (!isnan (min) && !isnan (max))
    return g_strdup_printf ("a number between %s and %s%s%s", low, high, space, unit);
  if (!isnan (min))
    return g_strdup_printf ("a number of at least %s%s%s", low, space, unit);
  if (!isnan (max))
    return g_strdup_printf ("a number of at most %s%s%s", high, space, unit);
  return g_strdup ("a number");
}

enum
{
  MAX_FAMILY = 4,
  KEY_BYTES = 96                /* of the format's own keys the longest has half of that */
};

/* The units in which a dimension may be entered, the first also being that of bounds. Ends with FL_UNIT_NONE. */
static const FlUnit families[][MAX_FAMILY + 1] = {
  [FL_DIM_NONE] = { FL_UNIT_NONE },
  [FL_DIM_WEIGHT] = { FL_UNIT_LB, FL_UNIT_KG, FL_UNIT_DAN, FL_UNIT_NONE },
  [FL_DIM_LENGTH] = { FL_UNIT_IN, FL_UNIT_FT, FL_UNIT_MM, FL_UNIT_M, FL_UNIT_NONE },
  [FL_DIM_ANGLE] = { FL_UNIT_DEG, FL_UNIT_NONE },
  [FL_DIM_ACCELERATION] = { FL_UNIT_G, FL_UNIT_NONE },
  [FL_DIM_COUNT] = { FL_UNIT_COUNT, FL_UNIT_NONE },
  [FL_DIM_SHARE] = { FL_UNIT_PCT, FL_UNIT_SHARE, FL_UNIT_NONE },
  [FL_DIM_TIME] = { FL_UNIT_MIN, FL_UNIT_H, FL_UNIT_NONE },
};

typedef struct
{
  const FlUnit *units;          /* in order; the first is that of bounds */
  char keys[MAX_FAMILY][KEY_BYTES];     /* "" where a unit does not go with the key */
  guint present[MAX_FAMILY], n_present;
} Family;

/* The key of a quantity in one unit; "" where the unit does not go with it. */
static void
write_key (char *out, const char *key, FlUnit unit)
{
  *out = '\0';
  if (unit == FL_UNIT_COUNT || unit == FL_UNIT_SHARE)
    g_strlcpy (out, key, KEY_BYTES);
  else if (unit != FL_UNIT_DAN)
    g_snprintf (out, KEY_BYTES, "%s_%s", key, fl_unit_suffix (unit));
  else if (g_str_has_suffix (key, "wll"))       /* tags in daN name it lashing capacity (EN 12195-2 and -3) */
    g_snprintf (out, KEY_BYTES, "%.*slc_dan", (int) (strlen (key) - 3), key);
}

static Family
look_up_family (FlReader *reader, const char *key, FlDimension dimension)
{
  Family family = { .units = families[dimension] };

  for (guint i = 0; family.units[i] != FL_UNIT_NONE; i++)
    {
      write_key (family.keys[i], key, family.units[i]);
      if (*family.keys[i] != '\0' && fl_reader_has (reader, family.keys[i]))
        family.present[family.n_present++] = i;
    }
  return family;
}

/* "weight_lb or weight_kg". (transfer full) */
static char *
family_text (const Family *family)
{
  g_autoptr(GStrvBuilder) keys = g_strv_builder_new ();
  g_auto(GStrv) names = NULL;

  for (guint i = 0; family->units[i] != FL_UNIT_NONE; i++)
    if (*family->keys[i] != '\0')
      g_strv_builder_add (keys, family->keys[i]);
  names = g_strv_builder_end (keys);
  return g_strjoinv (" or ", names);
}

static FlQuantity
quantity_value (FlReader *reader, const char *key, FlUnit unit, FlUnit bound_unit, double min, double max)
{
  FlQuantity quantity = { fl_reader_number (reader, key, NAN, NAN, NAN), unit };
  double low = fl_quantity_in ((FlQuantity) { min, bound_unit }, unit);
  double high = fl_quantity_in ((FlQuantity) { max, bound_unit }, unit);
  g_autofree char *range = NULL;

  if (isnan (quantity.value))
    return FL_NOT_MEASURED;
  if ((isnan (low) || fl_reaches (quantity.value, low)) && (isnan (high) || fl_reaches (high, quantity.value)))
    return quantity;
  range = fl_range_text (low, high, fl_unit_suffix (unit));
  error_at (reader, key, "%s", range);
  return FL_NOT_MEASURED;
}

static FlQuantity
quantity_of_family (FlReader *reader, const char *key, const Family *family, gboolean required, double min, double max)
{
  g_autofree char *keys = NULL;
  const char *name;

  if (family->n_present == 1)
    {
      name = family->keys[family->present[0]];
      if (!fl_reader_is_null (reader, name))
        return quantity_value (reader, name, family->units[family->present[0]], family->units[0], min, max);
      if (!required)
        return (FlQuantity) { 0.0, FL_UNIT_NULL };
      error_at (reader, name, "a number; null says that there is none");
      return FL_NOT_MEASURED;
    }
  if (family->n_present == 0 && !required)
    return FL_NOT_MEASURED;
  keys = family_text (family);
  if (family->n_present == 0)
    error_at (reader, key, "the key is missing: expected %s", keys);
  else
    error_at (reader, family->keys[family->present[1]], "only one of %s", keys);
  return FL_NOT_MEASURED;
}

FlQuantity
fl_reader_quantity (FlReader *reader, const char *key, FlDimension dimension, gboolean required, double min, double max)
{
  Family family;

  g_return_val_if_fail (dimension > FL_DIM_NONE && dimension <= FL_DIM_TIME, FL_NOT_MEASURED);
  g_return_val_if_fail (strlen (key) + sizeof "_dan" < KEY_BYTES, FL_NOT_MEASURED);
  family = look_up_family (reader, key, dimension);
  return quantity_of_family (reader, key, &family, required, min, max);
}
