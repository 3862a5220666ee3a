/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The Australian load restraint guides: NTC 2018 and NHVR 2025. Direct method: angle effect = tie-point separation along the wanted
 * direction over the chain's length, a direction cosine; no friction. Tie-down method: friction under lashings over the top. Masses in kg stand for
 * forces in kgf, as the guides have it.
 *
 * seen: read in a public copy. computed: worked out from the method by another program. */
#include "fl-run.h"
#include "fl-sums.h"
#include "fl-test-lashing.h"

/* Capacity that each of n alike chains needs, by the sum of one of them at a limit of 1. */
static double
capacity_needed (FlVec along, guint n, FlVec direction, double a, double mass)
{
  const FlPull pull = { .along = along, .limit = 1 };

  return a * mass / (n * fl_paper_sliding (&pull, 1, direction, mass, (FlPaperDemand) { a, 1, 0, 1 }).ties);
}

/* AU-NHVR-LOADER15, seen: a 15 t loader; the chain is 3,500 mm long, 3,400 along and 300 across: angle effects 0.97 and 0.086. Sideways 7,500 kg fall
 * on two chains, 3,750 each; each would need 43,750 kg: no chain has it. */
static void
test_loader (void)
{
  FlVec u = fl_run_pull ((FlVec) { 0, 0, 0 }, (FlVec) { -3.4, 0.3, -sqrt (3.5 * 3.5 - 3.4 * 3.4 - 0.3 * 0.3) });
  const FlPull two[] = { { .along = u, .limit = 43750 }, { .along = { -u.x, u.y, u.z }, .limit = 43750 } };

  assert_prints (-u.x, 0.97, 0.01);
  assert_prints (u.y, 0.086, 0.001);
  assert_prints (capacity_needed (u, 2, (FlVec) { 0, -1, 0 }, 0.5, 15000), 43750, 1);
  assert_prints (fl_sums_component (two, 2, 15000).g[FL_MOVES_RIGHT], 0.5, 0.001);
  g_assert_cmpfloat (fl_sums_component (two, 2, 15000).g[FL_MOVES_LEFT], ==, 0);
  assert_prints (capacity_needed (u, 2, ALONG, 0.8, 15000), 6176, 1);       /* forward; computed */
}

/* AU-ROLLER8, both guides: an 8 t roller, 1.5 m along and 2.0 m of chain: angle effect 0.75, seen; 0.8 of it on two chains, 4,267 kg, and 4,571 by the table's
 * next lower column of 0.70, computed. */
static void
test_roller (void)
{
  FlVec u = fl_run_pull ((FlVec) { 0, 0, 0 }, (FlVec) { -1.5, 0, -sqrt (2.0 * 2.0 - 1.5 * 1.5) });
  const FlPull two[] = { { .along = u, .limit = 4267 }, { .along = u, .limit = 4267 } };

  assert_prints (-u.x, 0.75, 0.01);
  assert_prints (capacity_needed (u, 2, ALONG, 0.8, 8000), 4267, 1);
  assert_prints (capacity_needed ((FlVec) { -0.7, 0, -sqrt (1 - 0.49) }, 2, ALONG, 0.8, 8000), 4571, 1);
  assert_prints (fl_sums_component (two, 2, 8000).g[FL_MOVES_FORWARD], 0.8, 0.001);
}

typedef struct { const char *id, *from; double effect, forward, sideways; } Direct;

/* 10 t on two chains. */
static const Direct direct[] = {
  { "AU-DIRECT-AE25", "computed", 0.25, 16000, 10000 }, { "AU-DIRECT-AE50", "computed", 0.50, 8000, 5000 },
  { "AU-DIRECT-AE70", "computed", 0.70, 5714, 3571 },   { "AU-DIRECT-AE85", "computed", 0.85, 4706, 2941 },
};

static void
test_direct (gconstpointer data)
{
  const Direct *row = data;
  double rest = sqrt (1 - row->effect * row->effect);

  assert_prints (capacity_needed ((FlVec) { -row->effect, 0, -rest }, 2, ALONG, 0.8, 10000), row->forward, 1);
  assert_prints (capacity_needed ((FlVec) { row->effect, 0, -rest }, 2, (FlVec) { -1, 0, 0 }, 0.5, 10000), row->sideways, 1);
  assert_prints (capacity_needed ((FlVec) { 0, -row->effect, -rest }, 2, ACROSS, 0.5, 10000), row->sideways, 1);
}

typedef struct { const char *id, *from; double mu, tension, effect, exact, number; } TieDown;

/* 10 t, 0.8 forward: mu (W + 2 n T AE) >= a W. The tensions 750 and 300 kgf are minima of the guides, seen. */
static const TieDown tie_down[] = {
  { "AU-TIEDOWN-4-750-100", "computed", 0.4, 750, 1.0, 6.67, 7 },  { "AU-TIEDOWN-4-750-70", "computed", 0.4, 750, 0.7, 9.52, 10 },
  { "AU-TIEDOWN-2-750-100", "computed", 0.2, 750, 1.0, 20.0, 20 }, { "AU-TIEDOWN-6-300-100", "computed", 0.6, 300, 1.0, 5.56, 6 },
};

static void
test_tie_down (gconstpointer data)
{
  const TieDown *row = data;
  double exact = fl_paper_over_sliding (10000, row->effect, row->tension, (FlPaperDemand) { 0.8, 1, row->mu, 1 });

  assert_prints (exact, row->exact, 0.01);
  g_assert_cmpfloat (whole (exact), ==, row->number);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/australia/seen/AU-NHVR-LOADER15", test_loader);
  g_test_add_func ("/australia/seen/AU-ROLLER8", test_roller);
  add_rows ("australia/direct", direct, test_direct);
  add_rows ("australia/tie-down", tie_down, test_tie_down);
  return g_test_run ();
}
