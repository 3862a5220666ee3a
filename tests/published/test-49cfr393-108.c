/* SPDX-License-Identifier: GPL-3.0-or-later */
/* 49 CFR 393.108, working load limits: every cell for chain and synthetic webbing in pounds, the marks, unmarked and unreadable.
 * Source: the tables of 393.108 as printed in public copies of 2024, read; the metric names of the sizes and the kilograms stand in the same
 * rows. The tables for wire rope, fiber rope and steel strapping are not here: this program has no such tie-downs.
 * Breaking strengths: the chart of the NACM Welded Steel Chain Specifications (2003), a vendor's copy, read. */
#include "fl-test-book.h"

#include <math.h>

enum { N_GRADES = 5, N_SIZES = 6, N_MARKS = 3 };

static const char *const grade_names[N_GRADES] = { "30", "43", "70", "80", "100" };

/* The mark examples of the table. */
static const char *const marks[N_GRADES][N_MARKS] = {
  { "3", "30", "300" }, { "4", "43", "430" }, { "7", "70", "700" }, { "8", "80", "800" }, { "10", "100", "1000" },
};

/* Pounds, and kilograms as printed beside them; 0: the table has no cell. */
static const struct { const char *size; double inches, mm, lb[N_GRADES], kg[N_GRADES]; } chain[N_SIZES] = {
  { "1/4", 0.25, 7, { 1300, 2600, 3150, 3500, 4300 }, { 580, 1180, 1430, 1570, 1950 } },
  { "5/16", 0.3125, 8, { 1900, 3900, 4700, 4500, 5700 }, { 860, 1770, 2130, 2000, 2600 } },
  { "3/8", 0.375, 10, { 2650, 5400, 6600, 7100, 8800 }, { 1200, 2450, 2990, 3200, 4000 } },
  { "7/16", 0.4375, 11, { 3700, 7200, 8750, 0, 0 }, { 1680, 3270, 3970, 0, 0 } },
  { "1/2", 0.5, 13, { 4500, 9200, 11300, 12000, 15000 }, { 2030, 4170, 5130, 5400, 6800 } },
  { "5/8", 0.625, 16, { 6900, 13000, 15800, 18100, 22600 }, { 3130, 5910, 7170, 8200, 10300 } },
};

static const struct { const char *size; double inches, mm, lb, kg; } webbing[] = {
  { "1-3/4", 1.75, 45, 1750, 790 }, { "2", 2.0, 50, 2000, 910 }, { "3", 3.0, 75, 3000, 1360 }, { "4", 4.0, 100, 4000, 1810 },
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

/* A chain on record by its metric name counts by the same row. The kilograms that the table prints are not exactly its pounds: they agree within 2.5
 * percent. The book counts the pounds. */
static void
test_metric (void)
{
  g_autoptr(FlBook) book = test_book ();

  for (gsize s = 0; s < N_SIZES; s++)
    for (gsize g = 0; g < N_GRADES; g++)
      {
        g_autofree char *json = g_strdup_printf ("{'id': 'C-1', 'kept_at': 'Y', 'size_mm': %g, 'length_m': 6, 'hook': 'grab', 'mark': '%s'}",
                                                 chain[s].mm, marks[g][1]);
        FlRating rating = fl_rate_record (book, test_record (FL_KIND_CHAIN, json));

        if (chain[s].lb[g] == 0)
          {
            test_unknown (rating);
            continue;
          }
        test_worth (rating, chain[s].lb[g]);
        g_assert_cmpfloat_with_epsilon (fl_quantity_in (rating.wll, FL_UNIT_KG) / chain[s].kg[g], 1, 0.025);
      }
  for (gsize i = 0; i < G_N_ELEMENTS (webbing); i++)
    {
      g_autofree char *mm = g_strdup_printf ("'width_mm': %g", webbing[i].mm);

      g_assert_cmpfloat_with_epsilon (fl_quantity_in (rated_strap (book, mm, NULL).wll, FL_UNIT_KG) / webbing[i].kg, 1, 0.025);
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
    { "3/8", "'mark': '43'", 3 * 5400 }, { "3/8", "'mark': '30'", 4 * 2650 }, { "3/8", "'mark': '80'", 4 * 7100 },
    { "3/8", "'mark': '100'", 4 * 8800 },
  };
  g_autoptr(FlBook) book = test_book ();

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    g_assert_cmpfloat (rated_chain (book, cases[i].size, cases[i].mark).breaking, ==, cases[i].lb);
}

/* The NACM chart's working load limits (vendor's copy, read), all sizes and grades of it that 393.108 has too: the same pounds. It has grades 80 and
 * 100 as 9/32 in where the rule says 1/4, both 7 mm, and no 5/16 in grade 100. */
static void
test_nacm (void)
{
  static const struct { double inches; gint grade; double lb; } cells[] = {
    { 0.25, 0, 1300 },   { 0.25, 1, 2600 },    { 0.25, 2, 3150 },   { 7 / 25.4, 3, 3500 }, { 7 / 25.4, 4, 4300 },
    { 0.3125, 0, 1900 }, { 0.3125, 1, 3900 },  { 0.3125, 2, 4700 }, { 0.3125, 3, 4500 },
    { 0.375, 0, 2650 },  { 0.375, 1, 5400 },   { 0.375, 2, 6600 },  { 0.375, 3, 7100 },    { 0.375, 4, 8800 },
    { 0.4375, 0, 3700 }, { 0.4375, 1, 7200 },  { 0.4375, 2, 8750 },
    { 0.5, 0, 4500 },    { 0.5, 1, 9200 },     { 0.5, 2, 11300 },   { 0.5, 3, 12000 },     { 0.5, 4, 15000 },
    { 0.625, 0, 6900 },  { 0.625, 1, 13000 },  { 0.625, 2, 15800 }, { 0.625, 3, 18100 },   { 0.625, 4, 22600 },
  };
  static const char *const beyond[] = { "1/8", "3/16", "7/32", "3/4", "7/8", "1", "1-1/4" };
  g_autoptr(FlBook) book = test_book ();

  for (gsize i = 0; i < G_N_ELEMENTS (cells); i++)
    g_assert_cmpfloat (fl_book_chain_wll (book, cells[i].inches, cells[i].grade), ==, cells[i].lb);
  /* Sizes that the rule's table lacks: a mark is not enough, a tag is. */
  for (gsize i = 0; i < G_N_ELEMENTS (beyond); i++)
    test_unknown (rated_chain (book, beyond[i], "'mark': '70'"));
  test_worth (rated_chain (book, "3/4", "'mark': '70', 'tag_wll_lb': 24700, 'tag_legible': true"), 24700);
}

/* Binder makers' tables: working load limit and ultimate strength, read; where no ultimate is given, from memory. A binder is worth its mark, and the
 * book's factor to breaking is under that of each of them. */
static void
test_binders (void)
{
  static const struct { const char *sizes; double wll, ultimate; } rows[] = {
    { "['5/16', '3/8']", 5400, 16000 }, { "['3/8', '1/2']", 9200, 20000 }, { "['1/2']", 9200, 33000 }, { "['3/8', '1/2']", 16000, 48000 },
    { "['1/4', '5/16']", 2600, 0 },     { "['5/16', '3/8']", 6600, 0 },    { "['5/16', '3/8']", 7100, 0 }, { "['3/8', '1/2']", 12000, 0 },
    { "['1/2', '5/8']", 13000, 0 },
  };
  g_autoptr(FlBook) book = test_book ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *json = g_strdup_printf ("{'id': 'B', 'kept_at': 'Y', 'wll_lb': %g, 'chain_sizes': %s}", rows[i].wll, rows[i].sizes);
      FlRating rating = fl_rate_record (book, test_record (FL_KIND_BINDER, json));

      test_worth (rating, rows[i].wll);
      g_assert_true (rows[i].ultimate == 0 || rating.breaking <= rows[i].ultimate);
    }
}

/* The same tables: 4.25 and 4.5 in of take-up for levers, 8 in for ratchets; the book takes no less. */
static void
test_take_up (void)
{
  g_autoptr(FlBook) book = test_book ();

  g_assert_cmpfloat (fl_book_data (book)->lever_take_up, >=, 4.5);
  g_assert_cmpfloat (fl_book_data (book)->ratchet_take_up, >=, 8);
}

/* CHAIN-STRAIN-MINING: a specification of round-link mining chain: under its test force it gives 1.6 percent at most, 1.4 of them elastic, read. The stress of
 * that force, 640 MPa on both legs of a link, is from memory: 40.0 and 45.7 GPa, computed. The book's modulus lies between. */
static void
test_modulus (void)
{
  g_autoptr(FlBook) book = test_book ();
  double modulus = fl_book_data (book)->chain_modulus;

  g_assert_cmpfloat (modulus, >=, 640e6 / 0.016);
  g_assert_cmpfloat (modulus, <=, 640e6 / 0.014);
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
  g_test_add_func ("/49cfr393.108/metric", test_metric);
  g_test_add_func ("/49cfr393.108/chain/table", test_table);
  g_test_add_func ("/49cfr393.108/chain/marks", test_marks);
  g_test_add_func ("/49cfr393.108/chain/unmarked", test_unmarked);
  g_test_add_func ("/49cfr393.108/chain/five-sixteenths-trap", test_trap);
  g_test_add_func ("/49cfr393.108/marking-wins", test_marking_wins);
  g_test_add_func ("/49cfr393.108/webbing", test_webbing);
  g_test_add_func ("/49cfr393.108/weakest", test_weakest);
  g_test_add_func ("/49cfr393.108/mat", test_mat);
  g_test_add_func ("/nacm/breaking", test_breaking);
  g_test_add_func ("/nacm/working-load-limits", test_nacm);
  g_test_add_func ("/binders/strength", test_binders);
  g_test_add_func ("/chain/seen/CHAIN-STRAIN-MINING", test_modulus);
  g_test_add_func ("/binders/take-up", test_take_up);
  g_test_add_func ("/49cfr393.102/performance", test_performance);
  return test_done (g_test_run ());
}
