/* SPDX-License-Identifier: GPL-3.0-or-later */
/* EN 12195-1:2010 (with AC:2014), securing of loads on road vehicles: its formulas for direct lashings, over-top lashings, blocking, stability
 * and tipping. The formulas are from memory of clauses 5.2 to 5.5 and 6.1; the standard itself is sold and was not at hand.
 *
 * Where a figure comes from stands in its row and in the name of its check:
 *   memory    a value of the European quick lashing guide, recalled before it was computed
 *   computed  worked out from the formula by another program; it checks our arithmetic and not the standard
 * The bracketed numbers are those of fl-paper.h. */
#include "fl-test-lashing.h"

static const double g = 9.81;          /* m/s2, as the standard has it */
static const double f_mu = 0.75;       /* direct lashings, 6.1 */

/* ── direct: (7), (8) ── */

typedef struct { const char *id, *from; double tonnes, c, mu, alpha, beta_x; FlVec direction; double kn; } Direct;

/* Four identical lashings, two of which work: the lashing capacity that each needs. */
static const Direct direct[] = {
  { "EN-DIAG-A", "computed", 20, 0.8, 0.3, 35, 45, { 1, 0, 0 }, 79.64 }, { "EN-DIAG-B", "computed", 20, 0.5, 0.3, 35, 45, { 0, 1, 0 }, 38.09 },
  { "EN-DIAG-C", "computed", 12, 0.8, 0.2, 30, 30, { 1, 0, 0 }, 46.37 }, { "EN-DIAG-D", "computed", 12, 0.5, 0.2, 30, 30, { 0, 1, 0 }, 40.55 },
  { "EN-DIAG-E", "computed", 30, 0.8, 0.6, 45, 40, { 1, 0, 0 }, 59.90 }, { "EN-DIAG-F", "computed", 30, 0.5, 0.6, 45, 40, { 0, 1, 0 }, 9.52 },
  { "EN-DIAG-G", "computed", 8, 0.8, 0.1, 20, 20, { 1, 0, 0 }, 31.31 },  { "EN-DIAG-H", "computed", 8, 0.5, 0.1, 20, 20, { 0, 1, 0 }, 48.05 },
};

static void
test_direct (gconstpointer data)
{
  const Direct *row = data;
  const FlPaperDemand demand = { row->c, 1, row->mu * f_mu, 1 };
  FlPaperSliding one, all;
  FlPull pulls[4];

  four_lashings (pulls, row->alpha, row->beta_x, 1);
  one = fl_paper_sliding (pulls, 4, row->direction, row->tonnes * 1000 * g, demand);
  g_assert_cmpuint (one.holding, ==, 2);
  assert_prints (fl_paper_left_over (row->tonnes * 1000 * g, demand) / one.ties / KN, row->kn, 0.01);
  four_lashings (pulls, row->alpha, row->beta_x, row->kn * KN);
  all = fl_paper_sliding (pulls, 4, row->direction, row->tonnes * 1000 * g, demand);
  assert_prints (all.g, row->c, 0.001);          /* with just that capacity they hold just that acceleration */
}

/* Tonnes that four lashings of a capacity hold. */
static double
holds_tonnes (double lc, double alpha, double beta_x, FlVec direction, FlPaperDemand demand)
{
  FlPull pulls[4];

  four_lashings (pulls, alpha, beta_x, lc);
  return fl_paper_sliding (pulls, 4, direction, 1, demand).ties / (demand.c - demand.mu * demand.c_z) / g / 1000;
}

/* EN-DIAG-CAP, computed: four chains 10 mm of grade 8, LC 63 kN, mu 0.3, alpha 35, beta 45: 15.82 t forward, 33.08 t sideways. */
static void
test_capacity (void)
{
  assert_prints (holds_tonnes (63 * KN, 35, 45, ALONG, (FlPaperDemand) { 0.8, 1, 0.3 * f_mu, 1 }), 15.82, 0.01);
  assert_prints (holds_tonnes (63 * KN, 35, 45, ACROSS, (FlPaperDemand) { 0.5, 1, 0.3 * f_mu, 1 }), 33.08, 0.01);
}

/* EN-DIAG-CAP, computed: forward governs from beta about 21 degrees. */
static void
test_crossing (void)
{
  const FlPaperDemand forward = { 0.8, 1, 0.3 * f_mu, 1 }, sideways = { 0.5, 1, 0.3 * f_mu, 1 };

  g_assert_cmpfloat (holds_tonnes (KN, 35, 21, ALONG, forward), >, holds_tonnes (KN, 35, 21, ACROSS, sideways));
  g_assert_cmpfloat (holds_tonnes (KN, 35, 22, ALONG, forward), <, holds_tonnes (KN, 35, 22, ACROSS, sideways));
}

/* Identity (plain calculus): a lashing straight along holds most against sliding at tan alpha = mu * f_mu. */
static void
test_best_angle (void)
{
  const double mu = 0.3 * f_mu, best = atan (mu) * 180 / G_PI;

  for (int step = -10; step <= 10; step++)
    {
      FlPull pull = lashing (best + step, 0, -1, 1, 1), top = lashing (best, 0, -1, 1, 1);

      g_assert_cmpfloat (fl_paper_sliding (&pull, 1, ALONG, 1, (FlPaperDemand) { 0.8, 1, mu, 1 }).ties, <=,
                         fl_paper_sliding (&top, 1, ALONG, 1, (FlPaperDemand) { 0.8, 1, mu, 1 }).ties);
    }
}

/* ── over-top: (5) ── */

typedef struct { const char *id, *from; double c, mu, factor, tonnes, unit; } OverTop;

/* Tonnes that one over-top lashing holds: STF 400 daN, 75 degrees. */
static const OverTop over_top[] = {
  { "TOPOVER-SIDE-15", "memory", 0.5, 0.15, 1.1, 0.31, 0.01 },     { "TOPOVER-SIDE-20", "memory", 0.5, 0.20, 1.1, 0.48, 0.01 },
  { "TOPOVER-SIDE-25", "memory", 0.5, 0.25, 1.1, 0.72, 0.01 },     { "TOPOVER-SIDE-30", "memory", 0.5, 0.30, 1.1, 1.1, 0.1 },
  { "TOPOVER-SIDE-35", "memory", 0.5, 0.35, 1.1, 1.7, 0.1 },       { "TOPOVER-SIDE-40", "memory", 0.5, 0.40, 1.1, 2.9, 0.1 },
  { "TOPOVER-SIDE-45", "memory", 0.5, 0.45, 1.1, 6.4, 0.1 },
  { "TOPOVER-SIDE-15", "computed", 0.5, 0.15, 1.1, 0.307, 0.001 }, { "TOPOVER-SIDE-20", "computed", 0.5, 0.20, 1.1, 0.477, 0.001 },
  { "TOPOVER-SIDE-25", "computed", 0.5, 0.25, 1.1, 0.716, 0.001 }, { "TOPOVER-SIDE-30", "computed", 0.5, 0.30, 1.1, 1.074, 0.001 },
  { "TOPOVER-SIDE-35", "computed", 0.5, 0.35, 1.1, 1.671, 0.001 }, { "TOPOVER-SIDE-40", "computed", 0.5, 0.40, 1.1, 2.864, 0.001 },
  { "TOPOVER-SIDE-45", "computed", 0.5, 0.45, 1.1, 6.445, 0.001 },
  { "TOPOVER-FWD-15", "computed", 0.8, 0.15, 1.25, 0.145, 0.001 }, { "TOPOVER-FWD-20", "computed", 0.8, 0.20, 1.25, 0.210, 0.001 },
  { "TOPOVER-FWD-25", "computed", 0.8, 0.25, 1.25, 0.286, 0.001 }, { "TOPOVER-FWD-30", "computed", 0.8, 0.30, 1.25, 0.378, 0.001 },
  { "TOPOVER-FWD-35", "computed", 0.8, 0.35, 1.25, 0.490, 0.001 }, { "TOPOVER-FWD-40", "computed", 0.8, 0.40, 1.25, 0.630, 0.001 },
  { "TOPOVER-FWD-45", "computed", 0.8, 0.45, 1.25, 0.810, 0.001 }, { "TOPOVER-FWD-50", "computed", 0.8, 0.50, 1.25, 1.050, 0.001 },
  { "TOPOVER-FWD-55", "computed", 0.8, 0.55, 1.25, 1.386, 0.001 }, { "TOPOVER-FWD-60", "computed", 0.8, 0.60, 1.25, 1.890, 0.001 },
  { "TOPOVER-FWD-65", "computed", 0.8, 0.65, 1.25, 2.731, 0.001 }, { "TOPOVER-FWD-70", "computed", 0.8, 0.70, 1.25, 4.411, 0.001 },
};

static void
test_over_top (gconstpointer data)
{
  const OverTop *row = data;
  const FlPaperDemand demand = { row->c, 1, row->mu, row->factor };
  double tonnes = fl_paper_over_friction (sin (radians (75)), 4 * KN, demand) / (row->c - row->mu) / g / 1000;

  assert_prints (tonnes, row->tonnes, row->unit);
  /* For that weight just one is needed. */
  g_assert_cmpfloat_with_epsilon (fl_paper_over_sliding (tonnes * 1000 * g, sin (radians (75)), 4 * KN, demand), 1, 1e-9);
}

typedef struct { const char *id, *from; double c, factor, exact, number; } Number;

/* 5 t, mu 0.3, F_T 5 kN, 80 degrees. */
static const Number numbers[] = {
  { "EN-TOPOVER-N", "computed", 0.8, 1.25, 10.38, 11 },
  { "EN-TOPOVER-N-SIDE", "computed", 0.5, 1.1, 3.65, 4 },
};

static void
test_number (gconstpointer data)
{
  const Number *row = data;
  double exact = fl_paper_over_sliding (5000 * g, sin (radians (80)), 5 * KN, (FlPaperDemand) { row->c, 1, 0.3, row->factor });

  assert_prints (exact, row->exact, 0.01);
  g_assert_cmpfloat (whole (exact), ==, row->number);
}

/* ── blocking: (3) ── */

/* EN-BLOCK, computed: 20 t against a gooseneck or headboard, mu 0.3, 0.8 g: 98.1 kN. */
static void
test_blocking (void)
{
  assert_prints (fl_paper_left_over (20000 * g, (FlPaperDemand) { 0.8, 1, 0.3, 1 }) / KN, 98.1, 0.1);
}

/* ── stability and tipping: (1), (6), (9) ── */

/* The acceleration at which a body tips that is not tied down. */
static double
stands_to (double d, double b)
{
  return fl_paper_tipping (NULL, 0, ACROSS, 1000, (FlVec) { 0, -b, d }, (FlVec) { 0, 0, 0 }, (FlPaperDemand) { 0.5, 1, 0, 1 }).g;
}

/* EN-STAB-1, computed: d 1.5 m, b 1.1 m sideways and 1.4 m to the front: it stands at 0.5 and 0.8. EN-STAB-2, computed: d 2.2 m needs 1.1 m at 0.5
 * and 1.32 m at 0.6; with 1.2 m it stands the one and not the other. */
static void
test_stability (void)
{
  g_assert_cmpfloat (stands_to (1.5, 1.1), >=, 0.5);
  g_assert_cmpfloat (stands_to (1.5, 1.4), >=, 0.8);
  g_assert_cmpfloat_with_epsilon (stands_to (2.2, 1.1), 0.5, 1e-12);
  g_assert_cmpfloat_with_epsilon (stands_to (2.2, 1.32), 0.6, 1e-12);
  g_assert_cmpfloat (stands_to (2.2, 1.2), >=, 0.5);
  g_assert_cmpfloat (stands_to (2.2, 1.2), <, 0.6);
}

/* EN-TIP-OVERTOP, computed: 4 t, 1.2 m wide, d 1.6 m, b 0.6 m, 85 degrees, f_s 1.1: 1.81 at 0.5 g with F_T 4 kN, 1.62 at 0.6 with 8 kN. */
static void
test_tipping_over_top (void)
{
  const struct { double c, kn, number; } rows[] = { { 0.5, 4, 1.81 }, { 0.6, 8, 1.62 } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const FlPaperDemand demand = { rows[i].c, 1, 0, 1.1 };
      double a = radians (85), number = fl_paper_over_tipping (4000 * g, 1.6, 0.6, 1.2, sin (a), rows[i].kn * KN, demand);
      const FlPull legs[] = { { .at = { 0, 0.6, 2 }, .along = { 0, cos (a), -sin (a) }, .limit = number * rows[i].kn * KN, .tie = 1 },
                              { .at = { 0, -0.6, 2 }, .along = { 0, -cos (a), -sin (a) }, .limit = number * rows[i].kn * KN, .tie = 1 } };

      assert_prints (number, rows[i].number, 0.01);
      /* The same by levers, both legs of so many of them at once. */
      g_assert_cmpfloat_with_epsilon (fl_paper_tipping (legs, 2, ACROSS, 4000 * g, (FlVec) { 0, 0, 1.6 }, (FlVec) { 0, 0.6, 0 }, demand).g,
                                      rows[i].c, 1e-9);
    }
}

/* (9) against (1) and (6): a lashing whose lever is known by hand. 10 t, d 2 m, b 0.5 m; alpha 45 straight across from 1.5 m up, 1 m behind the
 * edge: lever (1.5 + 1) / sqrt 2 = 1.768 m. 0.5 g asks (0.5 * 2 - 0.5) * 98.1 = 49.05 kNm: 27.75 kN. Plain statics. */
static void
test_tipping_direct (void)
{
  const FlPull pull = { .at = { 0, -1, 1.5 }, .along = { 0, -G_SQRT2 / 2, -G_SQRT2 / 2 }, .limit = 1 };
  FlPaperTipping t = fl_paper_tipping (&pull, 1, ACROSS, 10000 * g, (FlVec) { 0, -0.5, 2 }, (FlVec) { 0, 0, 0 }, (FlPaperDemand) { 0.5, 1, 0, 1 });

  assert_prints (t.ties, 1.768, 0.001);
  assert_prints ((t.overturning - t.weight) / t.ties / KN, 27.75, 0.01);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  add_rows ("en12195-1/direct", direct, test_direct);
  g_test_add_func ("/en12195-1/direct/computed/EN-DIAG-CAP", test_capacity);
  g_test_add_func ("/en12195-1/direct/computed/EN-DIAG-CAP-crossing", test_crossing);
  g_test_add_func ("/en12195-1/direct/best-angle", test_best_angle);
  add_rows ("en12195-1/over-top", over_top, test_over_top);
  add_rows ("en12195-1/number", numbers, test_number);
  g_test_add_func ("/en12195-1/blocking/computed/EN-BLOCK", test_blocking);
  g_test_add_func ("/en12195-1/stability/computed/EN-STAB-1-2", test_stability);
  g_test_add_func ("/en12195-1/tipping/computed/EN-TIP-OVERTOP", test_tipping_over_top);
  g_test_add_func ("/en12195-1/tipping/direct", test_tipping_direct);
  return g_test_run ();
}
