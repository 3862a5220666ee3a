/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Worked examples of others that need a whole plan: which tie-downs are one. */
#include "fl-test-judge.h"

/* One chain from the first anchor through the points of the machine to the second, as the n-th tie-down. */
static void
doubled (Case *c, guint n, const char *first, const char *second, const char *through)
{
  g_autofree char *at = g_strdup_printf ("tie_downs[%u]", n), *json = NULL;

  json = g_strdup_printf ("{'no': %u, 'load': 0, 'purpose': 'machine', 'kind': 'over', 'anchors': ['%s', '%s'], 'through': [%s], "
                          "'chain': 'C-04%u', 'binder': 'B-1%u', 'edge_protected': true}", n + 1, first, second, through, n + 1, n + 1);
  plan_set (c, at, json);
}

/* E27: a logistics note of the US Army (2007): an inspector would count six chains aft and six forward, and not ten, for those forward are doubled through
 * eyes and free to slide: such a chain counts once. Here: two chains doubled through the front eyes and two single ones behind, six ends on the
 * trailer, are four tie-downs. Two doubled ones alone, with four ends, are two, and 393.130(c)(1) asks for four. */
static void
test_sliding_chain_counts_once (void)
{
  g_autoptr(Case) four = case_new ();
  g_autoptr(Case) two = case_new ();

  plan_drop (four, "tie_downs[4]");
  plan_drop (four, "tie_downs[3]");
  plan_drop (four, "tie_downs[2]");
  doubled (four, 2, "P1R", "P1L", "'FL', 'FR'");
  doubled (four, 3, "P2R", "P2L", "'FL', 'FR'");
  judge (four);
  expect_figures (expect (four, "tie_down_count", "R-03", FL_BY_LAW, FL_MET), FL_COUNT (4), FL_COUNT (4));
  plan_set (two, "tie_downs", "[]");
  doubled (two, 0, "P10R", "P10L", "'RL', 'RR'");
  doubled (two, 1, "P1R", "P1L", "'FL', 'FR'");
  judge (two);
  expect_figures (expect (two, "tie_down_count", "R-03", FL_BY_LAW, FL_SHORT), FL_COUNT (4), FL_COUNT (2));
}

/* E03: a practitioners' forum adds the chain over the loader to the sum, 9,400 + 4,700. Contested; 393.130(c) says "in addition": here what holds an
 * implement counts neither in the sum nor among the four. */
static void
test_loader_chain_does_not_count (void)
{
  g_autoptr(Case) c = case_new ();
  double sum;

  judge (c);
  sum = fl_quantity_in (expect (c, "aggregate_wll", "R-03", FL_BY_LAW, FL_MET)->have, FL_UNIT_LB);
  plan_drop (c, "tie_downs[4]");
  judge (c);
  g_assert_cmpfloat (fl_quantity_in (expect (c, "aggregate_wll", "R-03", FL_BY_LAW, FL_MET)->have, FL_UNIT_LB), ==, sum);
  g_assert_cmpfloat (sum, ==, 4 * 6600 * 0.5);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/examples/agrees/E27", test_sliding_chain_counts_once);
  g_test_add_func ("/examples/contested/E03-loader-chain", test_loader_chain_does_not_count);
  return test_done (g_test_run ());
}
