/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Units, conversion, comparison, rounding, text.
 * Factors: international yard and pound agreement of 1959; NIST Special Publication 811 (2008), appendix B.8; standard acceleration
 * of gravity 9.80665 m/s2, 3rd CGPM (1901). */
#include <math.h>
#include <string.h>

#include "fl-json.h"
#include "fl-quantity.h"

static FlQuantity
quantity (double value, FlUnit unit)
{
  return (FlQuantity) { value, unit };
}

/* NIST SP 811, appendix B.8; the factors in bold there are exact. */
static void
test_exact_factors (void)
{
  static const struct { double from; FlUnit from_unit; double to; FlUnit to_unit; } facts[] = {
    { 1, FL_UNIT_LB, 0.45359237, FL_UNIT_KG },
    { 1, FL_UNIT_IN, 25.4, FL_UNIT_MM },
    { 1, FL_UNIT_IN, 0.0254, FL_UNIT_M },
    { 1, FL_UNIT_FT, 0.3048, FL_UNIT_M },
    { 1, FL_UNIT_FT, 304.8, FL_UNIT_MM },
    { 1, FL_UNIT_FT, 12, FL_UNIT_IN },
    { 1, FL_UNIT_MI, 5280, FL_UNIT_FT },
    { 1, FL_UNIT_MI, 63360, FL_UNIT_IN },
    { 1, FL_UNIT_MI, 1609.344, FL_UNIT_M },
    { 1, FL_UNIT_MI, 1.609344, FL_UNIT_KM },
    { 1, FL_UNIT_KM, 1000, FL_UNIT_M },
    { 1, FL_UNIT_M, 1000, FL_UNIT_MM },
    { 0.45359237, FL_UNIT_KG, 1, FL_UNIT_LB },
    { 25.4, FL_UNIT_MM, 1, FL_UNIT_IN },
    { 980665, FL_UNIT_DAN, 1000000, FL_UNIT_KG },     /* 10 N / 9.80665 m/s2 */
    { 1, FL_UNIT_H, 60, FL_UNIT_MIN },
    { 1, FL_UNIT_SHARE, 100, FL_UNIT_PCT },
    { 50, FL_UNIT_PCT, 0.5, FL_UNIT_SHARE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (facts); i++)
    g_assert_cmpfloat (fl_quantity_in (quantity (facts[i].from, facts[i].from_unit), facts[i].to_unit), ==, facts[i].to);
}

/* Feet as they are typed are exact in inches: no rounding creeps in between the two. */
static void
test_feet_are_exact (void)
{
  for (gint eighths = -8 * 200; eighths <= 8 * 200; eighths++)
    {
      double feet = eighths / 8.0;

      g_assert_cmpfloat (fl_quantity_in (quantity (feet, FL_UNIT_FT), FL_UNIT_IN), ==, feet * 12);
      g_assert_cmpfloat (fl_quantity_in (quantity (feet * 12, FL_UNIT_IN), FL_UNIT_FT), ==, feet);
    }
}

static void
test_same_unit_is_untouched (void)
{
  const double odd = 0.1 + 0.2;

  for (guint unit = FL_UNIT_LB; unit < FL_N_UNITS; unit++)
    g_assert_cmpfloat (fl_quantity_in (quantity (odd, (FlUnit) unit), (FlUnit) unit), ==, odd);
}

static void
test_there_and_back (void)
{
  g_autoptr(GRand) chance = g_rand_new_with_seed (3);

  for (guint i = 0; i < 20000; i++)
    {
      FlUnit from = (FlUnit) g_rand_int_range (chance, FL_UNIT_LB, FL_N_UNITS), to = (FlUnit) g_rand_int_range (chance, FL_UNIT_LB, FL_N_UNITS);
      double value = g_rand_double_range (chance, -1e6, 1e6);
      FlQuantity there = fl_quantity_as (quantity (value, from), to);

      g_assert_cmpint (there.unit, ==, to);
      if (fl_unit_dimension (from) == fl_unit_dimension (to))
        g_assert_cmpfloat_with_epsilon (fl_quantity_in (there, from), value, 1e-15 * fabs (value) * 4);
      else
        g_assert_true (isnan (there.value));
    }
}

static void
test_unknown (void)
{
  FlQuantity none = quantity (0, FL_UNIT_NULL);

  g_assert_false (fl_quantity_known (FL_NOT_MEASURED));
  g_assert_false (fl_quantity_known (none));
  g_assert_true (fl_quantity_known (FL_LB (0)));
  g_assert_true (fl_quantity_is_none (none));
  g_assert_false (fl_quantity_is_none (FL_NOT_MEASURED));
  g_assert_false (fl_quantity_is_none (FL_LB (0)));
  g_assert_true (isnan (fl_quantity_in (FL_NOT_MEASURED, FL_UNIT_LB)));
  g_assert_true (isnan (fl_quantity_in (none, FL_UNIT_LB)));
  g_assert_true (isnan (fl_quantity_in (FL_LB (1), FL_UNIT_IN)));
  g_assert_true (isnan (fl_quantity_in (FL_LB (1), FL_UNIT_NONE)));
  g_assert_cmpint (fl_quantity_as (FL_NOT_MEASURED, FL_UNIT_KG).unit, ==, FL_UNIT_NONE);
  g_assert_cmpint (fl_quantity_as (none, FL_UNIT_KG).unit, ==, FL_UNIT_NULL);
  g_assert_cmpint (fl_quantity_rounded (none, TRUE, FL_ROUND_UP).unit, ==, FL_UNIT_NULL);
  g_assert_cmpint (fl_quantity_rounded (FL_NOT_MEASURED, TRUE, FL_ROUND_UP).unit, ==, FL_UNIT_NONE);
}

static void
test_suffixes (void)
{
  static const char *const expected[FL_N_UNITS] = { "", "", "lb", "kg", "dan", "in", "ft", "mm", "m", "mi", "km", "deg", "g", "", "", "pct",
                                                    "min", "h" };

  for (guint unit = 0; unit < FL_N_UNITS; unit++)
    {
      g_assert_cmpstr (fl_unit_suffix ((FlUnit) unit), ==, expected[unit]);
      if (*expected[unit] != '\0')
        g_assert_cmpint (fl_unit_from_suffix (expected[unit]), ==, (FlUnit) unit);
    }
  g_assert_cmpint (fl_unit_from_suffix (""), ==, FL_UNIT_NONE);
  g_assert_cmpint (fl_unit_from_suffix ("stone"), ==, FL_UNIT_NONE);
  g_assert_cmpint (fl_unit_from_suffix (NULL), ==, FL_UNIT_NONE);
}

static void
test_house_units (void)
{
  g_assert_cmpint (fl_unit_house (FL_DIM_WEIGHT, FALSE), ==, FL_UNIT_LB);
  g_assert_cmpint (fl_unit_house (FL_DIM_WEIGHT, TRUE), ==, FL_UNIT_KG);
  g_assert_cmpint (fl_unit_house (FL_DIM_LENGTH, FALSE), ==, FL_UNIT_IN);
  g_assert_cmpint (fl_unit_house (FL_DIM_LENGTH, TRUE), ==, FL_UNIT_MM);
  g_assert_cmpint (fl_unit_house (FL_DIM_ANGLE, TRUE), ==, FL_UNIT_DEG);
  g_assert_cmpint (fl_unit_house (FL_DIM_NONE, TRUE), ==, FL_UNIT_NONE);
}

static void
test_reaches (void)
{
  g_assert_true (fl_reaches (16750, 16750));
  g_assert_true (fl_reaches (16750 * (1 - 0.9e-9), 16750));
  g_assert_false (fl_reaches (16750 * (1 - 1.1e-9), 16750));
  g_assert_true (fl_reaches (0, 0));
  g_assert_false (fl_reaches (-1e-12, 0));
  g_assert_true (fl_reaches (-5, -5));
  g_assert_false (fl_reaches (-5.1, -5));
  g_assert_false (fl_reaches (NAN, 1));
  g_assert_false (fl_reaches (1, NAN));
  g_assert_true (fl_quantity_reaches (FL_KG (0.45359237 * 33500), FL_LB (33500)));
  g_assert_false (fl_quantity_reaches (FL_KG (0.45359237 * 33499.9), FL_LB (33500)));
  g_assert_true (fl_quantity_reaches (FL_IN (72), quantity (6, FL_UNIT_FT)));
  g_assert_false (fl_quantity_reaches (FL_NOT_MEASURED, FL_LB (1)));
  g_assert_false (fl_quantity_reaches (FL_LB (1), FL_NOT_MEASURED));
  g_assert_false (fl_quantity_reaches (FL_LB (1), quantity (0, FL_UNIT_NULL)));
  g_assert_false (fl_quantity_reaches (FL_LB (1), FL_IN (1)));
}

static void
test_rounding (void)
{
  static const struct { double value; FlUnit unit; gboolean metric; FlRounding rounding; double expected; FlUnit expected_unit; } cases[] = {
    { 16750.04, FL_UNIT_LB, FALSE, FL_ROUND_NEAREST, 16750, FL_UNIT_LB },
    { 16750.06, FL_UNIT_LB, FALSE, FL_ROUND_NEAREST, 16750.1, FL_UNIT_LB },
    { 16750.01, FL_UNIT_LB, FALSE, FL_ROUND_UP, 16750.1, FL_UNIT_LB },
    { 16750.0000001, FL_UNIT_LB, FALSE, FL_ROUND_UP, 16750, FL_UNIT_LB },
    { 16749.9999999, FL_UNIT_LB, FALSE, FL_ROUND_DOWN, 16750, FL_UNIT_LB },
    { 16749.99, FL_UNIT_LB, FALSE, FL_ROUND_DOWN, 16749.9, FL_UNIT_LB },
    { 100, FL_UNIT_LB, TRUE, FL_ROUND_NEAREST, 45, FL_UNIT_KG },
    { 100, FL_UNIT_LB, TRUE, FL_ROUND_UP, 46, FL_UNIT_KG },
    { 1, FL_UNIT_M, FALSE, FL_ROUND_NEAREST, 39.4, FL_UNIT_IN },
    { 1, FL_UNIT_M, FALSE, FL_ROUND_DOWN, 39.3, FL_UNIT_IN },
    { 44.3, FL_UNIT_IN, FALSE, FL_ROUND_UP, 44.3, FL_UNIT_IN },
    { 1, FL_UNIT_IN, TRUE, FL_ROUND_NEAREST, 25, FL_UNIT_MM },
    { 42.74, FL_UNIT_DEG, FALSE, FL_ROUND_NEAREST, 42.7, FL_UNIT_DEG },
    { 0.43549, FL_UNIT_G, FALSE, FL_ROUND_NEAREST, 0.435, FL_UNIT_G },
    { -12.34, FL_UNIT_IN, FALSE, FL_ROUND_UP, -12.3, FL_UNIT_IN },
    { -12.34, FL_UNIT_IN, FALSE, FL_ROUND_DOWN, -12.4, FL_UNIT_IN },
    { 12.34567, FL_UNIT_PCT, FALSE, FL_ROUND_NEAREST, 12.346, FL_UNIT_PCT },
    { 1, FL_UNIT_MI, TRUE, FL_ROUND_NEAREST, 1.609, FL_UNIT_KM },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      FlQuantity rounded = fl_quantity_rounded (quantity (cases[i].value, cases[i].unit), cases[i].metric, cases[i].rounding);

      g_assert_cmpfloat (rounded.value, ==, cases[i].expected);
      g_assert_cmpint (rounded.unit, ==, cases[i].expected_unit);
    }
  g_assert_false (signbit (fl_quantity_rounded (FL_IN (-0.01), FALSE, FL_ROUND_NEAREST).value));
}

/* Rounding twice changes nothing, and up is never below, down never above. */
static void
test_rounding_is_stable (void)
{
  g_autoptr(GRand) chance = g_rand_new_with_seed (4);

  for (guint i = 0; i < 20000; i++)
    {
      FlQuantity q = quantity (g_rand_double_range (chance, -1e5, 1e5), (FlUnit) g_rand_int_range (chance, FL_UNIT_LB, FL_N_UNITS));
      gboolean metric = g_rand_boolean (chance);
      FlQuantity up = fl_quantity_rounded (q, metric, FL_ROUND_UP), down = fl_quantity_rounded (q, metric, FL_ROUND_DOWN);

      g_assert_true (fl_reaches (up.value, fl_quantity_in (q, up.unit)));
      g_assert_true (fl_reaches (fl_quantity_in (q, down.unit), down.value));
      g_assert_cmpfloat (fl_quantity_rounded (up, metric, FL_ROUND_UP).value, ==, up.value);
      g_assert_cmpfloat (fl_quantity_rounded (down, metric, FL_ROUND_DOWN).value, ==, down.value);
    }
}

static void
assert_format (FlQuantity q, gboolean metric, gboolean feet, FlRounding rounding, const char *expected)
{
  g_autofree char *text = fl_quantity_format (q, metric, feet, rounding);

  g_assert_cmpstr (text, ==, expected);
}

static void
test_format_us (void)
{
  assert_format (FL_LB (16750), FALSE, FALSE, FL_ROUND_NEAREST, "16,750 lb");
  assert_format (FL_LB (999), FALSE, FALSE, FL_ROUND_NEAREST, "999 lb");
  assert_format (FL_LB (1234567.4), FALSE, FALSE, FL_ROUND_NEAREST, "1,234,567 lb");
  assert_format (FL_LB (16750.2), FALSE, FALSE, FL_ROUND_UP, "16,751 lb");
  assert_format (FL_LB (16750.9), FALSE, FALSE, FL_ROUND_DOWN, "16,750 lb");
  assert_format (FL_LB (-1000), FALSE, FALSE, FL_ROUND_NEAREST, "-1,000 lb");
  assert_format (FL_IN (44.3), FALSE, FALSE, FL_ROUND_NEAREST, "44.3 in");
  assert_format (FL_IN (44), FALSE, FALSE, FL_ROUND_NEAREST, "44 in");
  assert_format (FL_IN (44.3), FALSE, FALSE, FL_ROUND_UP, "45 in");
  assert_format (FL_IN (44.3), FALSE, FALSE, FL_ROUND_DOWN, "44 in");
  assert_format (FL_IN (155), FALSE, TRUE, FL_ROUND_NEAREST, "12 ft 11 in");
  assert_format (FL_IN (155.25), FALSE, TRUE, FL_ROUND_NEAREST, "12 ft 11.3 in");
  assert_format (FL_IN (155.97), FALSE, TRUE, FL_ROUND_NEAREST, "13 ft");
  assert_format (FL_IN (144), FALSE, TRUE, FL_ROUND_UP, "12 ft");
  assert_format (FL_IN (161.2), FALSE, TRUE, FL_ROUND_UP, "13 ft 6 in");
  assert_format (FL_IN (-75), FALSE, TRUE, FL_ROUND_NEAREST, "-6 ft 3 in");
  assert_format (FL_IN (71.9), FALSE, TRUE, FL_ROUND_NEAREST, "71.9 in");
  assert_format (FL_IN (155), FALSE, FALSE, FL_ROUND_NEAREST, "155 in");
  assert_format (FL_KG (0.45359237 * 6600), FALSE, FALSE, FL_ROUND_DOWN, "6,600 lb");
  assert_format (quantity (12.5, FL_UNIT_MI), FALSE, FALSE, FL_ROUND_NEAREST, "12.5 mi");
}

static void
test_format_metric (void)
{
  assert_format (quantity (3.94, FL_UNIT_M), TRUE, FALSE, FL_ROUND_NEAREST, "3\u202F940 mm");
  assert_format (FL_IN (155), TRUE, TRUE, FL_ROUND_NEAREST, "3\u202F937 mm");
  assert_format (FL_LB (33500), TRUE, FALSE, FL_ROUND_UP, "15\u202F196 kg");
  assert_format (quantity (1, FL_UNIT_MI), TRUE, FALSE, FL_ROUND_NEAREST, "1.6 km");
}

static void
test_format_others (void)
{
  assert_format (FL_DEG (42.68), FALSE, FALSE, FL_ROUND_NEAREST, "42.7°");
  assert_format (FL_DEG (45), FALSE, FALSE, FL_ROUND_NEAREST, "45°");
  assert_format (FL_GEES (0.435), FALSE, FALSE, FL_ROUND_NEAREST, "0.435 g");
  assert_format (FL_GEES (0.5), FALSE, FALSE, FL_ROUND_NEAREST, "0.5 g");
  assert_format (FL_PCT (50), FALSE, FALSE, FL_ROUND_NEAREST, "50 %");
  assert_format (quantity (0.125, FL_UNIT_SHARE), FALSE, FALSE, FL_ROUND_NEAREST, "12.5 %");
  assert_format (FL_COUNT (4), FALSE, FALSE, FL_ROUND_NEAREST, "4");
  assert_format (quantity (30, FL_UNIT_MIN), FALSE, FALSE, FL_ROUND_NEAREST, "30 min");
  assert_format (quantity (1.5, FL_UNIT_H), FALSE, FALSE, FL_ROUND_NEAREST, "1.5 h");
  assert_format (FL_NOT_MEASURED, FALSE, FALSE, FL_ROUND_NEAREST, "not measured");
  assert_format (quantity (0, FL_UNIT_NULL), FALSE, FALSE, FL_ROUND_NEAREST, "none");
  assert_format (FL_LB (NAN), FALSE, FALSE, FL_ROUND_NEAREST, "not measured");
  assert_format (FL_GEES (INFINITY), FALSE, FALSE, FL_ROUND_NEAREST, "∞ g");
}

static void
test_number_text (void)
{
  static const struct { double value; const char *text; } cases[] = {
    { 0, "0" }, { -0.0, "0" }, { 1, "1" }, { -12, "-12" }, { 0.1, "0.1" }, { 12.5, "12.5" }, { 0.1 + 0.2, "0.30000000000000004" },
    { 1e15, "1000000000000000" }, { 9007199254740992.0, "9007199254740992" }, { 1e20, "1e20" }, { 1e-7, "1e-7" }, { 1.5e300, "1.5e300" },
    { -2.5e-10, "-2.5e-10" }, { 1.0 / 3.0, "0.3333333333333333" }, { 9007199254740994.0, "9007199254740994.0" }, { 69873469618284408.0, "6.987346961828441e16" }, { 5e-324, "4.94065645841247e-324" },
    { NAN, "null" }, { INFINITY, "null" }, { -INFINITY, "null" },
  };
  char buffer[G_ASCII_DTOSTR_BUF_SIZE];

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    g_assert_cmpstr (fl_number_text (cases[i].value, buffer), ==, cases[i].text);
}

/* Every double, whatever its bits, reads back as itself, with the C library and with json-glib, and passes the guard. */
static void
test_number_text_reads_back (void)
{
  g_autoptr(GRand) chance = g_rand_new_with_seed (5);
  char buffer[G_ASCII_DTOSTR_BUF_SIZE];

  for (guint i = 0; i < 100000; i++)
    {
      union { guint64 bits; double value; } any;
      g_autofree char *document = NULL;

      any.bits = (guint64) g_rand_int (chance) << 32 | g_rand_int (chance);
      if (i % 2 == 0)
        any.value = g_rand_double_range (chance, -1e5, 1e5);
      if (!isfinite (any.value))
        continue;
      g_assert_cmpfloat (strtod (fl_number_text (any.value, buffer), NULL), ==, any.value);
      g_assert_cmpuint (strlen (buffer), <=, 24);       /* sign, 17 digits, point, e-324 */
      document = g_strdup_printf ("[%s]", buffer);
      if (i % 20 == 0)
        {
          g_autoptr(GBytes) bytes = g_bytes_new_static (document, strlen (document));
          g_autoptr(JsonNode) root = json_from_string (document, NULL);

          g_assert_true (fl_json_guard (bytes, NULL));
          g_assert_nonnull (root);
          g_assert_cmpfloat (json_array_get_double_element (json_node_get_array (root), 0), ==, any.value);
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/quantity/exact-factors", test_exact_factors);
  g_test_add_func ("/quantity/feet-are-exact", test_feet_are_exact);
  g_test_add_func ("/quantity/same-unit-is-untouched", test_same_unit_is_untouched);
  g_test_add_func ("/quantity/there-and-back", test_there_and_back);
  g_test_add_func ("/quantity/unknown", test_unknown);
  g_test_add_func ("/quantity/suffixes", test_suffixes);
  g_test_add_func ("/quantity/house-units", test_house_units);
  g_test_add_func ("/quantity/reaches", test_reaches);
  g_test_add_func ("/quantity/rounding", test_rounding);
  g_test_add_func ("/quantity/rounding-is-stable", test_rounding_is_stable);
  g_test_add_func ("/quantity/format-us", test_format_us);
  g_test_add_func ("/quantity/format-metric", test_format_metric);
  g_test_add_func ("/quantity/format-others", test_format_others);
  g_test_add_func ("/quantity/number-text", test_number_text);
  g_test_add_func ("/quantity/number-text-reads-back", test_number_text_reads_back);
  return g_test_run ();
}
