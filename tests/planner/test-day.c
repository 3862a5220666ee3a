/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fl-test-plan.h"
static void
test_dump (void)
{
  g_autoptr(Case) c = case_demo ();
  g_autoptr(FlDayPlan) day = NULL;
  g_autoptr(GError) error = NULL;
  g_assert_true (case_read (c));
  FlSearch search = { 0, TRUE, NULL };
  gint64 t = g_get_monotonic_time ();
  day = fl_plan_day (c->book, c->fleet, "2026-11-25", NULL, 0, &search, NULL, &error);
  g_assert_no_error (error);
  g_test_message ("%.2f s", (g_get_monotonic_time () - t) / 1e6);
  for (guint i = 0; i < day->proposals->len; i++)
    {
      FlProposal *p = day->proposals->pdata[i];
      g_test_message ("%s %s %s best %d state %d score %d %d %d %d %ld %ld %ld", p->move, p->trailer, p->truck, p->best != NULL, p->state, p->score.cautions, p->score.pairs, p->score.tie_downs, p->score.unmirrored, (long) p->score.strength_lb, (long) p->score.angle_mdeg2, (long) p->score.coupling_off_lb);
      print_reasons (p);
    }
}
int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/day/dump", test_dump);
  return test_done (g_test_run ());
}
