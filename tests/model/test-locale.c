/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers never follow the locale: all that reads and writes them, under one with a decimal comma. */
#include <string.h>

#include "comma-locale.h"
#include "fl-json.h"
#include "fl-quantity.h"

static void
check_number_text (void)
{
  char buffer[G_ASCII_DTOSTR_BUF_SIZE];

  g_assert_cmpstr (fl_number_text (12.5, buffer), ==, "12.5");
  g_assert_cmpstr (fl_number_text (0.1 + 0.2, buffer), ==, "0.30000000000000004");
}

static void
check_format (void)
{
  g_autofree char *length = fl_quantity_format (FL_IN (44.3), FALSE, FALSE, FL_ROUND_NEAREST);
  g_autofree char *weight = fl_quantity_format (FL_LB (16750), FALSE, FALSE, FL_ROUND_NEAREST);

  g_assert_cmpstr (length, ==, "44.3 in");
  g_assert_cmpstr (weight, ==, "16,750 lb");
}

static void
check_parse (void)
{
  FlQuantity q = FL_NOT_MEASURED;
  double inches = 0;

  g_assert_true (fl_quantity_parse ("1.68 m", FL_UNIT_IN, &q, NULL));
  g_assert_cmpfloat (q.value, ==, 1.68);
  g_assert_true (fl_quantity_parse ("1,680 mm", FL_UNIT_IN, &q, NULL));
  g_assert_cmpfloat (q.value, ==, 1680);
  g_assert_false (fl_quantity_parse ("1,68 m", FL_UNIT_IN, &q, NULL));
  g_assert_true (fl_size_parse ("0.375", &inches));
  g_assert_cmpfloat (inches, ==, 0.375);
}

/* json-glib reads floats with g_strtod (), which knows the locale's comma too: not in our texts. */
static void
check_json (void)
{
  static const char text[] = "{\"a\": [12.5, -0.25, 1e-3, 1.5e2, 3]}";
  static const double expected[] = { 12.5, -0.25, 1e-3, 1.5e2, 3 };
  g_autoptr(GBytes) bytes = g_bytes_new_static (text, strlen (text));
  g_autoptr(JsonNode) root = fl_json_parse (bytes, NULL);
  JsonArray *array;

  g_assert_nonnull (root);
  array = json_object_get_array_member (json_node_get_object (root), "a");
  g_assert_cmpuint (json_array_get_length (array), ==, G_N_ELEMENTS (expected));
  for (guint i = 0; i < G_N_ELEMENTS (expected); i++)
    g_assert_cmpfloat (json_array_get_double_element (array, i), ==, expected[i]);
}

static void
check_all (void)
{
  check_number_text ();
  check_format ();
  check_parse ();
  check_json ();
}

static void
test_decimal_comma (void)
{
  under_comma_locale (check_all);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/locale/decimal-comma", test_decimal_comma);
  return g_test_run ();
}
