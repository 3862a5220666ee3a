/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 49 CFR 393.106(d), what counts toward the aggregate working load limit; 393.110, how many tie-downs; 393.130 and 392.9, the threshold,
 * the four, the times to look again. Source: the paragraphs as quoted on public pages (393.106(d) on two independent ones), read;
 * 393.130 from a verbatim copy of 2009; 392.9 from the driver's handbook. */
#include "fl-test-book.h"

/* (d)(1) direct: one half; (d)(2) to the same side: one half; (d)(3) to the other side: in full. */
static void
test_shares (void)
{
  g_autoptr(FlBook) book = test_book ();

  g_assert_cmpfloat (fl_book_share (book, FALSE, 'L', 0), ==, 0.5);
  g_assert_cmpfloat (fl_book_share (book, FALSE, 'R', 0), ==, 0.5);
  g_assert_cmpfloat (fl_book_share (book, TRUE, 'L', 'L'), ==, 0.5);
  g_assert_cmpfloat (fl_book_share (book, TRUE, 'R', 'R'), ==, 0.5);
  g_assert_cmpfloat (fl_book_share (book, TRUE, 'L', 'R'), ==, 1.0);
  g_assert_cmpfloat (fl_book_share (book, TRUE, 'R', 'L'), ==, 1.0);
}

/* (d): the sum must be at least one half of the weight. */
static void
test_aggregate (void)
{
  g_autoptr(FlBook) book = test_book ();

  g_assert_cmpfloat (fl_book_data (book)->aggregate_share, ==, 0.5);
}

/* 393.110(b), not blocked against forward movement. */
static void
test_not_blocked (void)
{
  static const struct { double feet, lb; gint count; } cases[] = {
    { 3, 500, 1 }, { 5, 1100, 1 },                          /* 5 ft or less and 1,100 lb or less */
    { 5, 1100.1, 2 }, { 3, 40000, 2 },                      /* 5 ft or less, heavier */
    { 5.01, 200, 2 }, { 8, 20000, 2 }, { 10, 50000, 2 },    /* over 5 to 10 ft, whatever the weight */
    { 10.01, 200, 3 }, { 15, 9000, 3 }, { 20, 9000, 3 },    /* two, and one for each further 10 ft or part of it */
    { 20.01, 9000, 4 }, { 25, 9000, 4 }, { 30, 9000, 4 }, { 30.5, 9000, 5 }, { 40, 9000, 5 }, { 48, 9000, 6 },
  };
  g_autoptr(FlBook) book = test_book ();

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    g_assert_cmpint (fl_book_count (book, cases[i].feet, cases[i].lb, FALSE), ==, cases[i].count);
}

/* 393.110(c), blocked forward: one for each 10 ft or part of it. */
static void
test_blocked (void)
{
  static const struct { double feet; gint count; } cases[] = {
    { 3, 1 }, { 10, 1 }, { 10.01, 2 }, { 20, 2 }, { 20.5, 3 }, { 30, 3 }, { 40, 4 }, { 48, 5 },
  };
  g_autoptr(FlBook) book = test_book ();

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    g_assert_cmpint (fl_book_count (book, cases[i].feet, 9000, TRUE), ==, cases[i].count);
}

/* 393.130(a), (c)(1): 10,000 lb (4,536 kg) or more, at least four. */
static void
test_heavy (void)
{
  g_autoptr(FlBook) book = test_book ();
  const FlBookData *data = fl_book_data (book);

  g_assert_cmpint (data->heavy_count, ==, 4);
  g_assert_true (fl_reaches (10000, data->heavy_weight));
  g_assert_false (fl_reaches (9999.9, data->heavy_weight));
  g_assert_cmpfloat_with_epsilon (data->heavy_weight * FL_KG_PER_LB, 4536, 0.5);
}

/* 392.9: within the first 50 miles; then at a change of duty status, 3 hours or 150 miles, whichever comes first. */
static void
test_recheck (void)
{
  g_autoptr(FlBook) book = test_book ();
  const FlRecheck *recheck = &fl_book_data (book)->recheck;

  g_assert_cmpfloat_with_epsilon (fl_quantity_in (recheck->within, FL_UNIT_MI), 50, 1e-9);
  g_assert_cmpfloat_with_epsilon (fl_quantity_in (recheck->then_distance, FL_UNIT_MI), 150, 1e-9);
  g_assert_cmpfloat_with_epsilon (fl_quantity_in (recheck->then_time, FL_UNIT_H), 3, 1e-9);
  g_assert_true (recheck->duty_change);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/49cfr393.106/shares", test_shares);
  g_test_add_func ("/49cfr393.106/aggregate", test_aggregate);
  g_test_add_func ("/49cfr393.110/not-blocked", test_not_blocked);
  g_test_add_func ("/49cfr393.110/blocked", test_blocked);
  g_test_add_func ("/49cfr393.130/heavy", test_heavy);
  g_test_add_func ("/49cfr392.9/recheck", test_recheck);
  return test_done (g_test_run ());
}
