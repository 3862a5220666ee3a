/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 49 CFR 393.108, working load limits: every cell for chain and synthetic webbing in pounds, the marks, unmarked and unreadable.
 * Source: the tables of 393.108 as printed in public copies of 2024, read; the metric names of the sizes stand in the same rows.
 * Breaking strengths: the chart of the NACM Welded Steel Chain Specifications (2003), a vendor's copy, read. */
#include "fl-test-book.h"

#include <math.h>

enum { N_GRADES = 5, N_SIZES = 6, N_MARKS = 3 };

static const char *const grade_names[N_GRADES] = { "30", "43", "70", "80", "100" };

/* The mark examples of the table. */
static const char *const marks[N_GRADES][N_MARKS] = {
  { "3", "30", "300" }, { "4", "43", "430" }, { "7", "70", "700" }, { "8", "80", "800" }, { "10", "100", "1000" },
};

/* Pounds; 0: the table has no cell. */
static const struct { const char *size; double inches, mm, lb[N_GRADES]; } chain[N_SIZES] = {
  { "1/4", 0.25, 7, { 1300, 2600, 3150, 3500, 4300 } },
  { "5/16", 0.3125, 8, { 1900, 3900, 4700, 4500, 5700 } },
  { "3/8", 0.375, 10, { 2650, 5400, 6600, 7100, 8800 } },
  { "7/16", 0.4375, 11, { 3700, 7200, 8750, 0, 0 } },
  { "1/2", 0.5, 13, { 4500, 9200, 11300, 12000, 15000 } },
  { "5/8", 0.625, 16, { 6900, 13000, 15800, 18100, 22600 } },
};

static const struct { const char *size; double inches, mm, lb; } webbing[] = {
  { "1-3/4", 1.75, 45, 1750 }, { "2", 2.0, 50, 2000 }, { "3", 3.0, 75, 3000 }, { "4", 4.0, 100, 4000 },
};

/* Each cell by each mark of its grade: what a chain so marked is worth. */
static void
test_cells (void)
{
  g_autoptr(FlBook) book = test_book ();

  for (gsize s = 0; s < N_SIZES; s++)
    for (gsize g = 0; g < N_GRADES; g++)
      for (gsize m = 0; m < N_MARKS; m++)
        {
          g_autofree char *more = g_strdup_printf ("'mark': '%s'", marks[g][m]);
          FlRating rating = rated_chain (book, chain[s].size, more);

          if (chain[s].lb[g] == 0)
            {
              test_unknown (rating);
              continue;
            }
          test_worth (rating, chain[s].lb[g]);
          g_assert_cmpstr (rating.grade, ==, grade_names[g]);
        }
}

/* The book holds these cells and no other. */
static void
test_table (void)
{
  g_autoptr(FlBook) book = test_book ();
  const FlBookData *data = fl_book_data (book);

  g_assert_cmpuint (data->n_chain, ==, N_SIZES);
  g_assert_cmpuint (data->n_grades, ==, N_GRADES);
  for (gsize s = 0; s < N_SIZES; s++)
    for (gsize g = 0; g < N_GRADES; g++)
      {
        double by_inch = fl_book_chain_wll (book, chain[s].inches, (gint) g), by_mm = fl_book_chain_wll (book, chain[s].mm / 25.4, (gint) g);

        g_assert_cmpstr (data->grades[g].grade, ==, grade_names[g]);
        g_assert_true (chain[s].lb[g] == 0 ? isnan (by_inch) && isnan (by_mm) : by_inch == chain[s].lb[g] && by_mm == chain[s].lb[g]);
      }
}

static void
test_marks (void)
{
  static const char *const none[] = { "0", "1", "35", "40", "7000", "G70", "70 HT", "" };
  g_autoptr(FlBook) book = test_book ();

  for (gsize g = 0; g < N_GRADES; g++)
    for (gsize m = 0; m < N_MARKS; m++)
      g_assert_cmpint (fl_book_grade (book, marks[g][m]), ==, (gint) g);
  for (gsize i = 0; i < G_N_ELEMENTS (none); i++)
    g_assert_cmpint (fl_book_grade (book, none[i]), ==, -1);
}

/* 393.108(d): unmarked welded chain is grade 30 proof coil. A mark that cannot be read is no mark. */
static void
test_unmarked (void)
{
  g_autoptr(FlBook) book = test_book ();

  for (gsize s = 0; s < N_SIZES; s++)
    {
      FlRating rating = rated_chain (book, chain[s].size, "'mark': null");

      test_worth (rating, chain[s].lb[0]);
      g_assert_cmpstr (rating.grade, ==, "30");
      test_worth (rated_chain (book, chain[s].size, "'mark': null, 'tag_wll_lb': 9999, 'tag_legible': false"), chain[s].lb[0]);
    }
}

/* 393.108(b): a maker's marking that differs from the table takes its place, up or down. */
static void
test_marking_wins (void)
{
  g_autoptr(FlBook) book = test_book ();

  test_worth (rated_chain (book, "3/8", "'mark': '70', 'tag_wll_lb': 7000, 'tag_legible': true"), 7000);
  test_worth (rated_chain (book, "3/8", "'mark': '70', 'tag_wll_lb': 6000, 'tag_legible': true"), 6000);
  test_worth (rated_chain (book, "7/16", "'mark': '80', 'tag_wll_lb': 9750, 'tag_legible': true"), 9750);
  test_worth (rated_strap (book, "'width_in': 4", "'tag_wll_lb': 5400, 'tag_legible': true"), 5400);
  test_worth (rated_strap (book, "'width_in': 4", "'tag_wll_lb': 3300, 'tag_legible': true"), 3300);
}

/* 5/16 in grade 80 is below 5/16 in grade 70, as printed: 4,500 and 4,700. */
static void
test_trap (void)
{
  g_autoptr(FlBook) book = test_book ();

  g_assert_cmpfloat (rated_chain (book, "5/16", "'mark': '80'").wll.value, <, rated_chain (book, "5/16", "'mark': '70'").wll.value);
}

static void
test_webbing (void)
{
  g_autoptr(FlBook) book = test_book ();

  g_assert_cmpuint (fl_book_data (book)->n_webbing, ==, G_N_ELEMENTS (webbing));
  for (gsize i = 0; i < G_N_ELEMENTS (webbing); i++)
    {
      g_autofree char *in = g_strdup_printf ("'width_in': %s", i == 0 ? "1.75" : webbing[i].size);
      g_autofree char *mm = g_strdup_printf ("'width_mm': %d", (int) webbing[i].mm);

      test_worth (rated_strap (book, in, NULL), webbing[i].lb);
      test_worth (rated_strap (book, mm, NULL), webbing[i].lb);
      test_worth (rated_strap (book, in, "'tag_wll_lb': 9999, 'tag_legible': false"), webbing[i].lb);
      g_assert_cmpfloat (fl_book_web_row (book, webbing[i].inches)->wll, ==, webbing[i].lb);
    }
}

/* 393.108(a): the lowest of any component: here chain, hook and repair link inside one piece. */
static void
test_weakest (void)
{
  g_autoptr(FlBook) book = test_book ();

  test_worth (rated_chain (book, "1/2", "'mark': '70', 'hook_wll_lb': 9200"), 9200);
  test_worth (rated_chain (book, "1/2", "'mark': '70', 'hook_wll_lb': 12000"), 11300);
  test_worth (rated_chain (book, "1/2", "'mark': '70', 'hook_wll_lb': 9200, 'inspections': [{'date': '2026-03-02', 'findings': "
                           "[{'kind': 'repair', 'repair_link': 'clevis', 'wll_lb': 6600}]}]"), 6600);
}

/* 393.108(g): an unmarked friction mat resists with half the weight that rests on it. */
static void
test_mat (void)
{
  g_autoptr(FlBook) book = test_book ();

  g_assert_cmpfloat (fl_book_data (book)->mat_default_mu, ==, 0.5);
}

/* NACM: grade 70 breaks at 18,800, 26,400 and 45,200 lb in 5/16, 3/8 and 1/2 in; grade 43 at three times its limit. */
static void
test_breaking (void)
{
  static const struct { const char *size, *mark; double lb; } cases[] = {
    { "5/16", "'mark': '70'", 18800 }, { "3/8", "'mark': '70'", 26400 }, { "1/2", "'mark': '70'", 45200 },
    { "3/8", "'mark': '43'", 3 * 5400 }, { "3/8", "'mark': '30'", 4 * 2650 }, { "3/8", "'mark': '100'", 4 * 8800 },
  };
  g_autoptr(FlBook) book = test_book ();

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    g_assert_cmpfloat (rated_chain (book, cases[i].size, cases[i].mark).breaking, ==, cases[i].lb);
}

/* 393.102(a): 0.8 g forward, 0.5 rearward, 0.5 sideways at breaking strength; 0.435, 0.5 and 0.25 at the working load limit. (b): 0.2 down. */
static void
test_performance (void)
{
  static const struct { const char *id; double x, y, working, breaking; } cases[] = {
    { "forward", 1, 0, 0.435, 0.8 }, { "rearward", -1, 0, 0.5, 0.5 }, { "left", 0, 1, 0.25, 0.5 }, { "right", 0, -1, 0.25, 0.5 },
  };
  g_autoptr(FlBook) book = test_book ();
  const FlBookData *data = fl_book_data (book);

  g_assert_cmpuint (data->n_cases, ==, G_N_ELEMENTS (cases));
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_assert_cmpstr (data->cases[i].id, ==, cases[i].id);
      g_assert_cmpfloat (data->cases[i].direction.x, ==, cases[i].x);
      g_assert_cmpfloat (data->cases[i].direction.y, ==, cases[i].y);
      g_assert_cmpfloat (data->cases[i].working, ==, cases[i].working);
      g_assert_cmpfloat (data->cases[i].breaking, ==, cases[i].breaking);
    }
  g_assert_cmpfloat (data->up_share, ==, 0.2);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/49cfr393.108/chain/cells-by-mark", test_cells);
  g_test_add_func ("/49cfr393.108/chain/table", test_table);
  g_test_add_func ("/49cfr393.108/chain/marks", test_marks);
  g_test_add_func ("/49cfr393.108/chain/unmarked", test_unmarked);
  g_test_add_func ("/49cfr393.108/chain/five-sixteenths-trap", test_trap);
  g_test_add_func ("/49cfr393.108/marking-wins", test_marking_wins);
  g_test_add_func ("/49cfr393.108/webbing", test_webbing);
  g_test_add_func ("/49cfr393.108/weakest", test_weakest);
  g_test_add_func ("/49cfr393.108/mat", test_mat);
  g_test_add_func ("/nacm/breaking", test_breaking);
  g_test_add_func ("/49cfr393.102/performance", test_performance);
  return test_done (g_test_run ());
}
