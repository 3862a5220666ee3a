/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Weights by axle groups, 23 USC 127 and 23 CFR 658.17; widths, 23 CFR 658.15. Each row says where its figure was read:
 *   SEEN      a state's printed table (RCW 46.44.041) of the federal bridge formula
 *   EXAMPLE   a worked example on a public page about the formula
 *   RANGE     the page gave the ends of a range of spreads
 *   MEMORY    recalled, and worked out from the formula by another program
 *   COMPUTED  worked out from the formula by another program, no printed cell at hand
 * Left out are the cells in which the printed table and its own rounding differ: 4 axles at 11 ft, 5 at 15, 6 at 18 and 19, 8 at 25 to 27, 9 at 29
 * to 31. */
#include "fl-legal.h"
#include "fl-test-book.h"

enum { SEEN, EXAMPLE, RANGE, MEMORY, COMPUTED };

static const struct { guint axles; double feet, lb; int from; } bridge[] = {
  { 2, 4, 34000, SEEN }, { 2, 8, 34000, SEEN }, { 2, 9, 39000, SEEN }, { 2, 10, 40000, SEEN }, { 2, 11, 40000, SEEN }, { 2, 20, 40000, SEEN },
  { 3, 8, 34000, SEEN }, { 3, 9, 42500, SEEN }, { 3, 10, 43500, SEEN }, { 3, 11, 44000, SEEN }, { 3, 12, 45000, SEEN }, { 3, 13, 45500, SEEN },
  { 3, 16, 48000, SEEN }, { 3, 20, 51000, SEEN }, { 3, 24, 54000, SEEN }, { 3, 32, 60000, SEEN },
  { 4, 12, 50000, SEEN }, { 4, 14, 51500, SEEN }, { 4, 16, 52500, SEEN }, { 4, 20, 55500, SEEN }, { 4, 24, 58000, SEEN }, { 4, 28, 60500, SEEN },
  { 4, 32, 63500, SEEN }, { 4, 35, 65500, MEMORY }, { 4, 36, 66000, COMPUTED }, { 4, 38, 67500, RANGE }, { 4, 39, 68000, COMPUTED },
  { 4, 57, 80000, COMPUTED },
  { 5, 16, 58000, SEEN }, { 5, 18, 59000, SEEN }, { 5, 20, 60500, SEEN }, { 5, 24, 63000, SEEN }, { 5, 28, 65500, SEEN }, { 5, 32, 68000, SEEN },
  { 5, 36, 70500, COMPUTED }, { 5, 40, 73000, COMPUTED }, { 5, 45, 76000, COMPUTED }, { 5, 48, 78000, EXAMPLE }, { 5, 50, 79000, COMPUTED },
  { 5, 51, 80000, MEMORY },
  { 6, 20, 66000, SEEN }, { 6, 24, 68500, SEEN }, { 6, 28, 71000, SEEN }, { 6, 32, 73000, SEEN }, { 6, 36, 75500, COMPUTED },
  { 6, 42, 79000, COMPUTED }, { 6, 43, 80000, MEMORY },
  { 7, 24, 74000, SEEN }, { 7, 28, 76500, SEEN }, { 7, 32, 78500, SEEN }, { 7, 33, 79000, COMPUTED }, { 7, 34, 80000, COMPUTED },
  { 8, 28, 82000, SEEN },       /* by the formula; the gross limit of 80,000 is another rule */
};

/* Axles evenly spaced over so many inches; the limit of them all. */
static FlLegalLimit
even (const FlBook *book, guint n, double inches)
{
  double x[9];

  for (guint i = 0; i < n; i++)
    x[i] = 7.31 - 0.0254 * inches * i / (n - 1.0);
  return fl_legal_limit (fl_book_data (book), x, n);
}

static void
test_bridge (void)
{
  g_autoptr(FlBook) book = test_book ();

  for (gsize i = 0; i < G_N_ELEMENTS (bridge); i++)
    {
      g_test_message ("%u axles, %g ft", bridge[i].axles, bridge[i].feet);
      g_assert_cmpfloat (even (book, bridge[i].axles, 12 * bridge[i].feet).limit, ==, bridge[i].lb);
    }
}

/* The same table between its rows of 8 and 9 ft, SEEN: "over 8 under 9". */
static void
test_between (void)
{
  g_autoptr(FlBook) book = test_book ();
  const double inches[] = { 96.5, 98, 102, 107.9 };

  for (gsize i = 0; i < G_N_ELEMENTS (inches); i++)
    {
      g_assert_cmpfloat (even (book, 2, inches[i]).limit, ==, 38000);
      g_assert_cmpfloat (even (book, 3, inches[i]).limit, ==, 42000);
      g_assert_cmpint (even (book, 3, inches[i]).kind, ==, FL_LEGAL_BETWEEN);
    }
  g_assert_cmpfloat (even (book, 2, 96).limit, ==, 34000);
  g_assert_cmpfloat (even (book, 3, 96).limit, ==, 34000);
  g_assert_cmpfloat (even (book, 3, 108).limit, ==, 42500);
}

/* E32, a public page's example: five axles, 78,000 at 48 ft; at 51 ft it prints 79,875, the formula before the table's rounding. */
static void
test_example (void)
{
  g_autoptr(FlBook) book = test_book ();
  double exact;

  g_assert_cmpfloat (fl_legal_formula (fl_book_data (book), 5, 48, &exact), ==, 78000);
  g_assert_cmpfloat (exact, ==, 78000);
  g_assert_cmpfloat (fl_legal_formula (fl_book_data (book), 5, 51, &exact), ==, 80000);
  g_assert_cmpfloat (exact, ==, 79875);
}

/* Exact halves go down: the printed cells whose formula ends in 250 or 750 (SEEN), 3 axles at 9, 11 and 13 ft and 5 at 18. */
static void
test_halves (void)
{
  g_autoptr(FlBook) book = test_book ();
  static const struct { guint n; double feet, exact, lb; } halves[] = {
    { 3, 9, 42750, 42500 }, { 3, 11, 44250, 44000 }, { 3, 13, 45750, 45500 }, { 5, 18, 59250, 59000 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (halves); i++)
    {
      double exact;

      g_assert_cmpfloat (fl_legal_formula (fl_book_data (book), halves[i].n, halves[i].feet, &exact), ==, halves[i].lb);
      g_assert_cmpfloat (exact, ==, halves[i].exact);
    }
}

/* The formula's unrounded values for the same cells, worked out by another program from W = 500 (L N / (N - 1) + 12 N + 36) (COMPUTED). */
static void
test_unrounded (void)
{
  g_autoptr(FlBook) book = test_book ();
  static const struct { guint n; double feet, lb; } exact[] = {
    { 4, 14, 51333.33 }, { 4, 16, 52666.67 }, { 4, 28, 60666.67 }, { 6, 24, 68400 }, { 6, 32, 73200 }, { 7, 32, 78666.67 }, { 4, 38, 67333.33 },
    { 4, 35, 65333.33 }, { 5, 45, 76125 }, { 6, 36, 75600 }, { 6, 43, 79800 }, { 7, 33, 79250 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (exact); i++)
    {
      double value;

      fl_legal_formula (fl_book_data (book), exact[i].n, exact[i].feet, &value);
      g_assert_cmpfloat_with_epsilon (value, exact[i].lb, 0.005);
    }
}

/* 23 CFR 658.17 (SEEN): axles up to 40 in apart are one, up to 96 in a tandem, three axles within that still one; and the exception of two
 * tandems with 36 ft or more between their outer axles, which have 34,000 each where the formula gives 66,000 to 67,500. */
static void
test_classes (void)
{
  g_autoptr(FlBook) book = test_book ();
  double pair[] = { 20.0, 20.0 - 1.22, 0, 0 };

  g_assert_cmpfloat (even (book, 2, 40).limit, ==, 20000);
  g_assert_cmpfloat (even (book, 2, 40.1).limit, ==, 34000);
  g_assert_cmpint (even (book, 3, 90).kind, ==, FL_LEGAL_TANDEM);
  for (double feet = 34; feet <= 40; feet += 0.5)
    {
      FlLegalLimit limit;

      pair[3] = 20.0 - feet * 0.3048;
      pair[2] = pair[3] + 1.22;
      limit = fl_legal_limit (fl_book_data (book), pair, 4);
      g_test_message ("%g ft: %g lb", feet, limit.limit);
      g_assert_true ((limit.limit >= 68000) == (feet >= 36));
      g_assert_true ((limit.kind == FL_LEGAL_PAIR) == (feet >= 36 && feet < 39));
    }
}

/* The Federal Highway Administration's booklet (from memory; its arithmetic worked out by another program): 12,000 + 4 x 17,000; axles 1-3
 * over 20 ft, 2-5 over 35 ft, 1-5 over 51 ft. Axles 2-5 fail by 2,500, and pass by the exception at 36 ft. */
static void
test_booklet (void)
{
  g_autoptr(FlBook) book = test_book ();
  const double feet[] = { 51, 35, 31, 4, 0 }, stretched[] = { 51, 36, 32, 4, 0 };
  double x[5], y[5];

  for (guint i = 0; i < 5; i++)
    {
      x[i] = feet[i] * 0.3048;
      y[i] = stretched[i] * 0.3048;
    }
  g_assert_cmpfloat (fl_legal_limit (fl_book_data (book), x, 3).limit, ==, 51000);      /* 46,000 on them */
  g_assert_cmpfloat (fl_legal_limit (fl_book_data (book), x, 5).limit, ==, 80000);      /* 80,000 on them */
  g_assert_cmpfloat (fl_legal_limit (fl_book_data (book), x + 1, 4).limit, ==, 65500);  /* 68,000 on them */
  g_assert_cmpfloat (fl_legal_limit (fl_book_data (book), y + 1, 4).limit, ==, 68000);
}

/* 23 USC 127, 23 CFR 658.15 and 658.17, SEEN: 102 in, 20,000, 34,000, 80,000 lb. */
static void
test_legal (void)
{
  g_autoptr(FlBook) book = test_book ();
  const FlBookData *data = fl_book_data (book);

  g_assert_cmpfloat (data->legal_width, ==, 102);
  g_assert_cmpfloat (data->legal_single, ==, 20000);
  g_assert_cmpfloat (data->legal_tandem, ==, 34000);
  g_assert_cmpfloat (data->legal_gross, ==, 80000);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/23cfr658/bridge", test_bridge);
  g_test_add_func ("/23cfr658/bridge/between-8-and-9-ft", test_between);
  g_test_add_func ("/23cfr658/bridge/example-E32", test_example);
  g_test_add_func ("/23cfr658/bridge/halves-down", test_halves);
  g_test_add_func ("/23cfr658/bridge/unrounded", test_unrounded);
  g_test_add_func ("/23cfr658/bridge/booklet", test_booklet);
  g_test_add_func ("/23cfr658/classes", test_classes);
  g_test_add_func ("/23cfr658/legal", test_legal);
  return test_done (g_test_run ());
}
