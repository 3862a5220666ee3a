/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What people type: every spelling of one length and one weight, and all that must be refused.
 * Short ton 2000 lb, metric ton (tonne) 1000 kg: NIST SP 811 (2008), appendix B.8. The spellings 10-6 for 10 ft 6 in, # for pounds and
 * T for short tons: common practice, no source. */
#include <math.h>
#include <string.h>

#include "fl-quantity.h"

typedef struct { const char *text; double value; FlUnit unit; } Reading;

/* What is being read, in ASCII: TAP wants one line of UTF-8. */
static void
note (const char *text)
{
  g_autofree char *escaped = g_strescape (text, NULL);

  g_test_message ("%s", escaped);
}

static void
assert_readings (const Reading *readings, gsize n, FlUnit bare)
{
  for (gsize i = 0; i < n; i++)
    {
      g_autoptr(GError) error = NULL;
      FlQuantity q = FL_NOT_MEASURED;

      note (readings[i].text);
      fl_quantity_parse (readings[i].text, bare, &q, &error);
      g_assert_no_error (error);
      g_assert_cmpint (q.unit, ==, readings[i].unit);
      g_assert_cmpfloat (q.value, ==, readings[i].value);
    }
}

static void
test_five_feet_six (void)
{
  static const char *const spellings[] = {
    "5'6\"", "5' 6\"", "5'6", "5' 6", "5 ' 6 \"", "5-6", "5'-6\"", "5' - 6\"", "5 ft 6 in", "5ft6", "5ft6in", "5 ft. 6 in.",
    "5 feet 6 inches", "5 foot 6", "5 FT 6 IN", "5’6”", "5′6″", "5′ 6″", "66\"", "66 in", "66in", "66", "66''", "66”",
    "66.0 inches", " 66 ", "\t66\u202Fin", "5’ 6’’", "5–6", "+5'6\"",
  };

  for (guint i = 0; i < G_N_ELEMENTS (spellings); i++)
    {
      FlQuantity q = FL_NOT_MEASURED;

      note (spellings[i]);
      g_assert_true (fl_quantity_parse (spellings[i], FL_UNIT_IN, &q, NULL));
      g_assert_cmpint (q.unit, ==, FL_UNIT_IN);
      g_assert_cmpfloat (q.value, ==, 66);
    }
}

static void
test_lengths (void)
{
  static const Reading readings[] = {
    { "5' 6 1/2\"", 66.5, FL_UNIT_IN }, { "5'6-1/2\"", 66.5, FL_UNIT_IN }, { "5-6 1/2", 66.5, FL_UNIT_IN }, { "5-6-1/2", 66.5, FL_UNIT_IN },
    { "5'6½\"", 66.5, FL_UNIT_IN }, { "5'6.5", 66.5, FL_UNIT_IN }, { "10-6", 126, FL_UNIT_IN }, { "10-0", 120, FL_UNIT_IN },
    { "10 ft 6", 126, FL_UNIT_IN }, { "5'", 5, FL_UNIT_FT }, { "5 ft", 5, FL_UNIT_FT }, { "5.5 ft", 5.5, FL_UNIT_FT }, { "5½ ft", 5.5, FL_UNIT_FT },
    { "3/8", 0.375, FL_UNIT_IN }, { "12 1/2", 12.5, FL_UNIT_IN }, { "12-1/2", 12.5, FL_UNIT_IN }, { "12½", 12.5, FL_UNIT_IN },
    { "½", 0.5, FL_UNIT_IN }, { "3⁄8 in", 0.375, FL_UNIT_IN }, { ".5", 0.5, FL_UNIT_IN }, { "0.375\"", 0.375, FL_UNIT_IN },
    { "1.68 m", 1.68, FL_UNIT_M }, { "1.68m", 1.68, FL_UNIT_M }, { "1680 mm", 1680, FL_UNIT_MM }, { "1,680 mm", 1680, FL_UNIT_MM },
    { "1 680 mm", 1680, FL_UNIT_MM }, { "1\u202F680 mm", 1680, FL_UNIT_MM }, { "1'680 mm", 1680, FL_UNIT_MM }, { "168 cm", 1680, FL_UNIT_MM },
    { "2 meters", 2, FL_UNIT_M }, { "12 mi", 12, FL_UNIT_MI }, { "12 miles", 12, FL_UNIT_MI }, { "20 km", 20, FL_UNIT_KM },
    { "-12", -12, FL_UNIT_IN }, { "−12 in", -12, FL_UNIT_IN }, { "- 12", -12, FL_UNIT_IN }, { "-2'6\"", -30, FL_UNIT_IN }, { "-½", -0.5, FL_UNIT_IN },
    { "0", 0, FL_UNIT_IN }, { "-0", 0, FL_UNIT_IN }, { "1,234.5", 1234.5, FL_UNIT_IN }, { "1 234 1/2", 1234.5, FL_UNIT_IN },
  };
  static const Reading bare_feet[] = { { "16", 16, FL_UNIT_FT }, { "16 1/2", 16.5, FL_UNIT_FT }, { "16-6", 198, FL_UNIT_IN }, { "66 in", 66, FL_UNIT_IN } };
  static const Reading bare_mm[] = { { "1680", 1680, FL_UNIT_MM }, { "5'6\"", 66, FL_UNIT_IN }, { "1.68 m", 1.68, FL_UNIT_M } };

  assert_readings (readings, G_N_ELEMENTS (readings), FL_UNIT_IN);
  assert_readings (bare_feet, G_N_ELEMENTS (bare_feet), FL_UNIT_FT);
  assert_readings (bare_mm, G_N_ELEMENTS (bare_mm), FL_UNIT_MM);
}

static void
test_weights (void)
{
  static const Reading pounds[] = {
    { "44500", 44500, FL_UNIT_LB }, { "44,500", 44500, FL_UNIT_LB }, { "44 500", 44500, FL_UNIT_LB }, { "44'500", 44500, FL_UNIT_LB },
    { "44’500", 44500, FL_UNIT_LB }, { "44\u00A0500 lb", 44500, FL_UNIT_LB }, { "44,500#", 44500, FL_UNIT_LB }, { "44,500 #", 44500, FL_UNIT_LB },
    { "44,500 lb", 44500, FL_UNIT_LB }, { "44,500lbs", 44500, FL_UNIT_LB }, { "44,500 LBS.", 44500, FL_UNIT_LB }, { "44500 pounds", 44500, FL_UNIT_LB },
    { "44.5k", 44500, FL_UNIT_LB }, { "44.5 K", 44500, FL_UNIT_LB }, { "44.5k lb", 44500, FL_UNIT_LB }, { "44.5 klb", 44500, FL_UNIT_LB },
    { "44.5 kip", 44500, FL_UNIT_LB }, { "22 T", 44000, FL_UNIT_LB }, { "22T", 44000, FL_UNIT_LB }, { "22 ton", 44000, FL_UNIT_LB },
    { "22 tons", 44000, FL_UNIT_LB }, { "22 short tons", 44000, FL_UNIT_LB }, { "22.25 T", 44500, FL_UNIT_LB },
    { "20 t", 20000, FL_UNIT_KG }, { "20 tonnes", 20000, FL_UNIT_KG }, { "20 metric tons", 20000, FL_UNIT_KG },
    { "20,000 kg", 20000, FL_UNIT_KG }, { "20000 KG", 20000, FL_UNIT_KG }, { "5000 daN", 5000, FL_UNIT_DAN }, { "50 kN", 5000, FL_UNIT_DAN },
    { "1,234,567.5", 1234567.5, FL_UNIT_LB }, { "0", 0, FL_UNIT_LB },
  };
  static const Reading kilograms[] = { { "20000", 20000, FL_UNIT_KG }, { "20k", 20000, FL_UNIT_KG }, { "20 t", 20000, FL_UNIT_KG }, { "44,500 lb", 44500, FL_UNIT_LB } };

  assert_readings (pounds, G_N_ELEMENTS (pounds), FL_UNIT_LB);
  assert_readings (kilograms, G_N_ELEMENTS (kilograms), FL_UNIT_KG);
}

static void
test_other_dimensions (void)
{
  static const Reading degrees[] = { { "45", 45, FL_UNIT_DEG }, { "45°", 45, FL_UNIT_DEG }, { "12.5 deg", 12.5, FL_UNIT_DEG }, { "-8 degrees", -8, FL_UNIT_DEG } };
  static const Reading shares[] = { { "50 %", 50, FL_UNIT_PCT }, { "12.5%", 12.5, FL_UNIT_PCT }, { "10 percent", 10, FL_UNIT_PCT } };
  static const Reading counts[] = { { "4", 4, FL_UNIT_COUNT }, { "1,000", 1000, FL_UNIT_COUNT } };
  static const Reading gees[] = { { "0.8", 0.8, FL_UNIT_G }, { "0.5 g", 0.5, FL_UNIT_G } };
  static const Reading times[] = { { "30", 30, FL_UNIT_MIN }, { "45 min", 45, FL_UNIT_MIN }, { "1.5 h", 1.5, FL_UNIT_H }, { "2 hrs", 2, FL_UNIT_H } };

  assert_readings (degrees, G_N_ELEMENTS (degrees), FL_UNIT_DEG);
  assert_readings (shares, G_N_ELEMENTS (shares), FL_UNIT_PCT);
  assert_readings (counts, G_N_ELEMENTS (counts), FL_UNIT_COUNT);
  assert_readings (gees, G_N_ELEMENTS (gees), FL_UNIT_G);
  assert_readings (times, G_N_ELEMENTS (times), FL_UNIT_MIN);
}

typedef struct { const char *text; FlUnit bare; FlQuantityError code; const char *says; } Refusal;

static const Refusal refusals[] = {
  { "", FL_UNIT_IN, FL_QUANTITY_ERROR_NOT_A_NUMBER, "nothing was entered" },
  { "   ", FL_UNIT_IN, FL_QUANTITY_ERROR_NOT_A_NUMBER, "nothing was entered" },
  { "abc", FL_UNIT_IN, FL_QUANTITY_ERROR_NOT_A_NUMBER, "no number" },
  { "nan", FL_UNIT_IN, FL_QUANTITY_ERROR_NOT_A_NUMBER, "no number" },
  { "NaN", FL_UNIT_LB, FL_QUANTITY_ERROR_NOT_A_NUMBER, "no number" },
  { "inf", FL_UNIT_LB, FL_QUANTITY_ERROR_NOT_A_NUMBER, "no number" },
  { "-inf", FL_UNIT_IN, FL_QUANTITY_ERROR_NOT_A_NUMBER, "no number" },
  { "0x10", FL_UNIT_LB, FL_QUANTITY_ERROR_NOT_A_NUMBER, "understood 0 lb" },
  { "1e3", FL_UNIT_LB, FL_QUANTITY_ERROR_NOT_A_NUMBER, "understood 1 lb, but not “e3”" },
  { "1e999", FL_UNIT_IN, FL_QUANTITY_ERROR_NOT_A_NUMBER, "understood 1 in" },
  { "5 ft abc", FL_UNIT_IN, FL_QUANTITY_ERROR_NOT_A_NUMBER, "understood 5 ft, but not “abc”" },
  { "5'6\"x", FL_UNIT_IN, FL_QUANTITY_ERROR_NOT_A_NUMBER, "understood 66 in, but not “x”" },
  { "5 6", FL_UNIT_IN, FL_QUANTITY_ERROR_NOT_A_NUMBER, "understood 5 in, but not “6”" },
  { "5.", FL_UNIT_IN, FL_QUANTITY_ERROR_NOT_A_NUMBER, NULL },
  { ".", FL_UNIT_IN, FL_QUANTITY_ERROR_NOT_A_NUMBER, NULL },
  { "-", FL_UNIT_IN, FL_QUANTITY_ERROR_NOT_A_NUMBER, NULL },
  { "--5", FL_UNIT_IN, FL_QUANTITY_ERROR_NOT_A_NUMBER, NULL },
  { "5-", FL_UNIT_IN, FL_QUANTITY_ERROR_NOT_A_NUMBER, "but not “-”" },
  { "5 - 6", FL_UNIT_IN, FL_QUANTITY_ERROR_NOT_A_NUMBER, "but not “- 6”" },
  { "5''6", FL_UNIT_IN, FL_QUANTITY_ERROR_NOT_A_NUMBER, "understood 5 in, but not “6”" },
  { "5' 5 2/2\"", FL_UNIT_IN, FL_QUANTITY_ERROR_NOT_A_NUMBER, NULL },
  { "5/0", FL_UNIT_IN, FL_QUANTITY_ERROR_NOT_A_NUMBER, NULL },
  { "5 8/4", FL_UNIT_IN, FL_QUANTITY_ERROR_NOT_A_NUMBER, NULL },
  { "1.5 1/2", FL_UNIT_IN, FL_QUANTITY_ERROR_NOT_A_NUMBER, NULL },
  { "1.2.3", FL_UNIT_IN, FL_QUANTITY_ERROR_NOT_A_NUMBER, NULL },
  { "1,68 m", FL_UNIT_IN, FL_QUANTITY_ERROR_NOT_A_NUMBER, "a point" },
  { "0,500", FL_UNIT_LB, FL_QUANTITY_ERROR_NOT_A_NUMBER, "a point" },
  { "44,50", FL_UNIT_LB, FL_QUANTITY_ERROR_NOT_A_NUMBER, "a point" },
  { "4,4500", FL_UNIT_LB, FL_QUANTITY_ERROR_NOT_A_NUMBER, "a point" },
  { "1234,567", FL_UNIT_LB, FL_QUANTITY_ERROR_NOT_A_NUMBER, "a point" },
  { "1,234 567", FL_UNIT_LB, FL_QUANTITY_ERROR_NOT_A_NUMBER, "understood 1234 lb" },
  { "1 234,567", FL_UNIT_LB, FL_QUANTITY_ERROR_NOT_A_NUMBER, "a point" },
  { "44 50", FL_UNIT_LB, FL_QUANTITY_ERROR_NOT_A_NUMBER, NULL },
  { "5 ft 12 in", FL_UNIT_IN, FL_QUANTITY_ERROR_RANGE, "inches after feet" },
  { "10-14", FL_UNIT_IN, FL_QUANTITY_ERROR_RANGE, "inches after feet" },
  { "5.5' 6\"", FL_UNIT_IN, FL_QUANTITY_ERROR_NOT_A_NUMBER, "whole feet" },
  { "5 ft 6 mm", FL_UNIT_IN, FL_QUANTITY_ERROR_WRONG_UNIT, "only inches" },
  { "5 ft 6 ft", FL_UNIT_IN, FL_QUANTITY_ERROR_WRONG_UNIT, "only inches" },
  { "5'600", FL_UNIT_IN, FL_QUANTITY_ERROR_RANGE, NULL },
  { "1'680", FL_UNIT_MM, FL_QUANTITY_ERROR_RANGE, NULL },
  { "66 kg", FL_UNIT_IN, FL_QUANTITY_ERROR_WRONG_UNIT, "“kg”" },
  { "66 in", FL_UNIT_LB, FL_QUANTITY_ERROR_WRONG_UNIT, "“in”" },
  { "5'6\"", FL_UNIT_LB, FL_QUANTITY_ERROR_WRONG_UNIT, NULL },
  { "4 in", FL_UNIT_COUNT, FL_QUANTITY_ERROR_WRONG_UNIT, NULL },
  { "10 %", FL_UNIT_DEG, FL_QUANTITY_ERROR_WRONG_UNIT, NULL },
  { "22 T", FL_UNIT_KG, FL_QUANTITY_ERROR_WRONG_UNIT, "tonnes" },
  { "22 tons", FL_UNIT_DAN, FL_QUANTITY_ERROR_WRONG_UNIT, "tonnes" },
  { "22 long tons", FL_UNIT_LB, FL_QUANTITY_ERROR_NOT_A_NUMBER, "understood 22 lb" },
  { "-44,500", FL_UNIT_LB, FL_QUANTITY_ERROR_RANGE, "negative" },
  { "-50 %", FL_UNIT_PCT, FL_QUANTITY_ERROR_RANGE, "negative" },
  { "-4", FL_UNIT_COUNT, FL_QUANTITY_ERROR_RANGE, "negative" },
  { "4.5", FL_UNIT_COUNT, FL_QUANTITY_ERROR_RANGE, "whole number" },
  { "99999999999", FL_UNIT_LB, FL_QUANTITY_ERROR_RANGE, "too large" },
  { "9999999999999999999999999999999999999999", FL_UNIT_LB, FL_QUANTITY_ERROR_NOT_A_NUMBER, NULL },
  { "66 ин", FL_UNIT_IN, FL_QUANTITY_ERROR_NOT_A_NUMBER, "no number" },
  { "66\n67", FL_UNIT_IN, FL_QUANTITY_ERROR_NOT_A_NUMBER, "no number" },
  { "\xff" "66", FL_UNIT_IN, FL_QUANTITY_ERROR_NOT_A_NUMBER, "no number" },
  { "٦٦", FL_UNIT_IN, FL_QUANTITY_ERROR_NOT_A_NUMBER, "no number" },
};

static void
test_refused (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (refusals); i++)
    {
      const Refusal *refusal = &refusals[i];
      g_autoptr(GError) error = NULL;
      FlQuantity q = FL_LB (12345);

      note (refusal->text);
      g_assert_false (fl_quantity_parse (refusal->text, refusal->bare, &q, &error));
      note (error == NULL ? "no error" : error->message);
      g_assert_error (error, FL_QUANTITY_ERROR, (gint) refusal->code);
      g_assert_null (strchr (error->message, '\n'));
      g_assert_true (g_utf8_validate (error->message, -1, NULL));
      g_assert_nonnull (strstr (error->message, "expected a "));
      if (refusal->says != NULL)
        g_assert_nonnull (strstr (error->message, refusal->says));
      g_assert_cmpfloat (q.value, ==, 12345);   /* a refusal leaves what was there */
      g_assert_cmpint (q.unit, ==, FL_UNIT_LB);
    }
}

/* What format writes, parse reads: the desk shows a value and takes it back. */
static void
test_formatted_reads_back (void)
{
  static const FlUnit units[] = { FL_UNIT_LB, FL_UNIT_KG, FL_UNIT_IN, FL_UNIT_MM, FL_UNIT_DEG, FL_UNIT_G, FL_UNIT_PCT, FL_UNIT_COUNT, FL_UNIT_MIN };
  g_autoptr(GRand) chance = g_rand_new_with_seed (6);

  for (guint i = 0; i < 20000; i++)
    {
      FlUnit unit = units[i % G_N_ELEMENTS (units)];
      gboolean metric = unit == FL_UNIT_KG || unit == FL_UNIT_MM;
      double step = unit == FL_UNIT_IN || unit == FL_UNIT_DEG || unit == FL_UNIT_PCT || unit == FL_UNIT_MIN ? 10 : unit == FL_UNIT_G ? 1000 : 1;
      double value = g_rand_int_range (chance, unit == FL_UNIT_IN || unit == FL_UNIT_DEG ? -100000 : 0, 2000000) / step;
      g_autofree char *text = fl_quantity_format ((FlQuantity) { value, unit }, metric, g_rand_boolean (chance), FL_ROUND_NEAREST);
      g_autoptr(GError) error = NULL;
      FlQuantity q;

      fl_quantity_parse (text, unit, &q, &error);
      g_assert_no_error (error);
      g_assert_cmpfloat_with_epsilon (fl_quantity_in (q, unit), value, 1e-9);
    }
}

/* Random junk from the alphabet of quantities: refused with one line, or a finite number of the dimension. */
static void
test_junk (void)
{
  static const char *const pieces[] = { "0", "1", "12", "500", "000", ".", ",", "'", "\"", " ", "-", "/", "ft", "in", "mm", "m", "k", "lb", "T", "t", "#", "%",
                                        "½", "−", "’", "\u202F", "e", "nan", "inf", "\xff", "(", "short ", "+" };
  static const FlUnit bares[] = { FL_UNIT_IN, FL_UNIT_LB, FL_UNIT_MM, FL_UNIT_KG, FL_UNIT_COUNT, FL_UNIT_DEG };
  g_autoptr(GRand) chance = g_rand_new_with_seed (7);
  guint read = 0, refused = 0;

  for (guint i = 0; i < 100000; i++)
    {
      g_autoptr(GString) text = g_string_new (NULL);
      FlUnit bare = bares[i % G_N_ELEMENTS (bares)];
      g_autoptr(GError) error = NULL;
      FlQuantity q;

      for (gint n = g_rand_int_range (chance, 0, 9); n > 0; n--)
        g_string_append (text, pieces[g_rand_int_range (chance, 0, G_N_ELEMENTS (pieces))]);
      if (fl_quantity_parse (text->str, bare, &q, &error))
        {
          g_assert_no_error (error);
          g_assert_true (isfinite (q.value));
          g_assert_cmpint (fl_unit_dimension (q.unit), ==, fl_unit_dimension (bare));
          read++;
        }
      else
        {
          g_assert_nonnull (error);
          g_assert_null (strchr (error->message, '\n'));
          refused++;
        }
    }
  g_assert_cmpuint (read, >, 1000);
  g_assert_cmpuint (refused, >, 1000);
}

static void
test_sizes (void)
{
  static const struct { const char *text; double inches; } sizes[] = {
    { "3/8", 0.375 }, { "5/16", 0.3125 }, { "1/2", 0.5 }, { "1-3/4", 1.75 }, { "1 3/4", 1.75 }, { "1¾", 1.75 }, { "0.375", 0.375 }, { ".375", 0.375 },
    { "2", 2 }, { "3/8\"", 0.375 }, { "3/8 in", 0.375 }, { "3⁄8", 0.375 }, { " 3/8 ", 0.375 }, { "4", 4 },
  };
  static const char *const refused[] = { "", "x", "0", "-3/8", "3/0", "3/", "/8", "3/8/2", "10 mm", "G70", "3/8 70", "101", "nan", "\xff", "3-8" };
  double inches;

  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    {
      note (sizes[i].text);
      g_assert_true (fl_size_parse (sizes[i].text, &inches));
      g_assert_cmpfloat (inches, ==, sizes[i].inches);
    }
  for (guint i = 0; i < G_N_ELEMENTS (refused); i++)
    {
      inches = 7;
      note (refused[i]);
      g_assert_false (fl_size_parse (refused[i], &inches));
      g_assert_cmpfloat (inches, ==, 7);
    }
  g_assert_false (fl_size_parse (NULL, &inches));
}

static void
test_size_equal (void)
{
  g_assert_true (fl_size_equal (0.375, 3.0 / 8));
  g_assert_true (fl_size_equal (0.375, 0.376));
  g_assert_true (fl_size_equal (0.3125, 0.313));
  g_assert_false (fl_size_equal (0.375, 0.3771));
  g_assert_false (fl_size_equal (0.375, 0.3125));
  g_assert_false (fl_size_equal (0.375, NAN));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/quantity-parse/five-feet-six", test_five_feet_six);
  g_test_add_func ("/quantity-parse/lengths", test_lengths);
  g_test_add_func ("/quantity-parse/weights", test_weights);
  g_test_add_func ("/quantity-parse/other-dimensions", test_other_dimensions);
  g_test_add_func ("/quantity-parse/refused", test_refused);
  g_test_add_func ("/quantity-parse/formatted-reads-back", test_formatted_reads_back);
  g_test_add_func ("/quantity-parse/junk", test_junk);
  g_test_add_func ("/quantity-parse/sizes", test_sizes);
  g_test_add_func ("/quantity-parse/size-equal", test_size_equal);
  return g_test_run ();
}
