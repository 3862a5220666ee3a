/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How certain the answer is: weight margins by how the weight is known, and a few inches off the place. The margins and tolerances are ours
 * (common practice, no source); what they do to the example is worked out by hand beside each check. The example: 22,000 lb from a scale
 * ticket, four chains that count 3,300 lb each (13,200 lb, good for 26,400 lb), the blade's chain on a lever binder that needs a run of 24 in. */
#include "fl-test-judge.h"

static const FlFinding *
weighs (Case *c, const char *weight, const char *basis, FlVerdict verdict)
{
  fleet_set (c, "machines[0].weight_lb", weight);
  fleet_set (c, "machines[0].basis.weight", basis);
  judge (c);
  return expect (c, "weight_margin", "R-03", FL_BY_ADVICE, verdict);
}

/* 25,000 lb needs 12,500 lb of the 13,200 there are. 5 percent more: 26,250 lb, 13,125 lb needed, holds. 10 percent more: 27,500 lb, 13,750 lb, does not. */
static void
test_margin_by_basis (void)
{
  static const struct { const char *basis; FlVerdict verdict; } cases[] = {
    { "'scale ticket 2026-03-02'", FL_MET }, { "'plate'", FL_MET }, { "'manual'", FL_MET }, { "'typical'", FL_CAUTION }
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr(Case) c = case_new ();

      weighs (c, "25000", cases[i].basis, cases[i].verdict);
      expect (c, "aggregate_wll", "R-03", FL_BY_LAW, FL_MET);
    }
}

/* 26,000 lb by its plate: 27,300 lb is 13,650 lb, more than 13,200. From a scale it stands. */
static void
test_margin_of_plate (void)
{
  g_autoptr(Case) c = case_new ();
  const FlFinding *f = weighs (c, "26000", "'plate'", FL_CAUTION);

  expect_words (f, "5 % more than is known");
  expect_words (f, "load R-03");
  g_assert_true (step_says (f, "27,300 lb"));
  g_assert_true (step_says (f, "13,650 lb"));
  weighs (c, "26000", "'scale ticket'", FL_MET);
}

/* A plan that is short already is not said to be uncertain on that score. */
static void
test_short_is_not_uncertain (void)
{
  g_autoptr(Case) c = case_new ();

  weighs (c, "30000", "'typical'", FL_MET);
  expect (c, "aggregate_wll", "R-03", FL_BY_LAW, FL_SHORT);
}

/* A machine of 9,500 lb with three chains is light; at 10,450 lb it would need four. */
static void
test_margin_over_the_threshold (void)
{
  g_autoptr(Case) c = case_new ();

  plan_drop (c, "tie_downs[3]");
  plan_set (c, "tie_downs[3].no", "4");
  weighs (c, "9500", "'typical'", FL_CAUTION);
  g_assert_true (step_says (found (c, "weight_margin", NULL), "at least 4 tie-downs"));
}

/* From its point the blade's chain goes 18 in along, 20 in across, 10 in down. 6 in along and 2 in across nearer: square root of 12^2 + 18^2 + 10^2 =
 * 23.8 in, less than the 24 in of its binder. */
static void
test_placement_flips (void)
{
  g_autoptr(Case) c = case_new ();
  const FlFinding *f;

  judge (c);
  f = expect (c, "placement", "R-03", FL_BY_ADVICE, FL_CAUTION);
  expect_words (f, "tie-down 5");
  g_assert_true (step_says (f, "here are 23.8 in"));
}

static void
test_placement_holds (void)
{
  g_autoptr(Case) c = case_new ();

  for (guint i = 0; i < 5; i++)
    {
      g_autofree char *path = g_strdup_printf ("binders[%u].needs_run_in", i);

      if (tree_at (c->fleet_json, path) != NULL || i < json_array_get_length (json_node_get_array (tree_at (c->fleet_json, "binders"))))
        fleet_set (c, path, "20");
    }
  judge (c);
  expect (c, "placement", "R-03", FL_BY_ADVICE, FL_MET);
}

/* While it is dragged nobody asks; at rest every requirement is asked. */
static void
test_only_at_rest (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(GError) error = NULL;
  g_autoptr(FlScene) scene = NULL;
  g_autoptr(FlAssessment) moving = NULL;

  judge (c);
  scene = fl_scene_new (c->book, c->fleet, c->plan, &error);
  g_assert_no_error (error);
  moving = fl_judge_at (scene, FL_JUDGE_MOVING);
  g_assert_nonnull (found (c, "placement", NULL));
  g_clear_pointer (&c->judged, fl_assessment_unref);
  c->judged = fl_assessment_ref (moving);
  g_assert_null (found (c, "placement", NULL));
  g_assert_null (found (c, "weight_margin", NULL));
  g_assert_nonnull (found (c, "force", NULL));
}

/* The judgement of a scene does not move it: judged twice, the same bytes. */
static void
test_leaves_the_scene_alone (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(GError) error = NULL;
  g_autoptr(FlScene) scene = NULL;
  g_autofree char *first = NULL, *second = NULL;

  judge (c);
  scene = fl_scene_new (c->book, c->fleet, c->plan, &error);
  g_assert_no_error (error);
  for (guint i = 0; i < 2; i++)
    {
      g_autoptr(FlAssessment) judged = fl_judge (scene);

      *(i == 0 ? &first : &second) = result_text (judged);
    }
  g_assert_cmpstr (first, ==, second);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/certain/margin/by-basis", test_margin_by_basis);
  g_test_add_func ("/certain/margin/of-plate", test_margin_of_plate);
  g_test_add_func ("/certain/margin/short-is-not-uncertain", test_short_is_not_uncertain);
  g_test_add_func ("/certain/margin/over-the-threshold", test_margin_over_the_threshold);
  g_test_add_func ("/certain/placement/flips", test_placement_flips);
  g_test_add_func ("/certain/placement/holds", test_placement_holds);
  g_test_add_func ("/certain/only-at-rest", test_only_at_rest);
  g_test_add_func ("/certain/leaves-the-scene-alone", test_leaves_the_scene_alone);
  return g_test_run ();
}
