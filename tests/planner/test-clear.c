/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Force cautions cleared where the trailer and the gear can, and the plain plan where they cannot. What the rule wants (393.102(a)(2): 0.435 g
 * forward, 0.5 g rearward, 0.25 g sideways) against the example on a frosty deck, where its four chains as they stand hold less: by hand
 * 2 x 6,600 lb x 22 / 44.27 / 22,000 lb = 0.298 g rearward without friction, and frost adds at most 0.1 of weight and pull. */
#include "fl-test-plan.h"

static guint
ties_of (const FlAssessment *judged)
{
  return own_ties (fl_plan_choices (fl_assessment_plan (judged)));
}

static gboolean
has_caution (const FlAssessment *judged, const char *rule)
{
  Case c = { .judged = (FlAssessment *) judged };

  return count_of (&c, rule, FL_CAUTION) > 0;
}

/* On frost; at the blade a binder that needs less run, so that the place does not matter. */
static Case *
case_on_frost (void)
{
  Case *c = case_new ();

  fleet_set (c, "moves[0].deck_state", "'frost'");
  fleet_set (c, "binders[4].needs_run_in", "20");
  return c;
}

/* Eight more chains and binders like the first of each. */
static void
add_gear (Case *c)
{
  g_autoptr(JsonNode) chain = tree_copy (tree_at (c->fleet_json, "chains[0]")), binder = tree_copy (tree_at (c->fleet_json, "binders[0]"));

  json_object_set_string_member (json_node_get_object (chain), "id", "C-X");
  json_object_set_int_member (json_node_get_object (chain), "count", 8);
  json_object_set_string_member (json_node_get_object (binder), "id", "B-X");
  json_object_set_int_member (json_node_get_object (binder), "count", 8);
  json_array_add_element (json_node_get_array (tree_at (c->fleet_json, "chains")), g_steal_pointer (&chain));
  json_array_add_element (json_node_get_array (tree_at (c->fleet_json, "binders")), g_steal_pointer (&binder));
}

/* A start that leaves only the outer anchors; pinned: at the example's own place. */
static FlProposal *
plan_with_few_anchors (Case *c, gboolean pinned)
{
  const FlSearch search = { .work = 0 };

  while (tree_at (c->plan_json, "tie_downs[0]") != NULL)
    plan_drop (c, "tie_downs[0]");
  if (pinned)
    plan_set (c, "loads[0].pinned", "['facing', 'rear']");
  plan_set (c, "set_aside", pinned ? "{'anchors': ['P3L', 'P3R', 'P4L', 'P4R', 'P5L', 'P5R', 'P6L', 'P6R', 'P7L', 'P7R', 'P8L', 'P8R', 'P9L', 'P9R', 'P10L', 'P10R']}"
                                   : "{'anchors': ['P5L', 'P5R', 'P6L', 'P6R', 'P7L', 'P7R', 'P8L', 'P8R']}");
  g_assert_true (case_read (c));
  return plan_from (c, c->plan, &search);
}

/* Other anchors, farther off, pull flatter: four chains are still enough. */
static void
test_by_geometry (void)
{
  const FlSearch search = { .work = 0 };
  g_autoptr(Case) c = case_on_frost ();
  g_autoptr(FlProposal) p = NULL;

  judge (c);
  g_assert_true (has_caution (c->judged, "force"));
  p = plan_anew (c, &search);
  g_assert_nonnull (p->best);
  print_assessment (p->best);
  g_assert_false (has_caution (p->best, "force"));
  g_assert_cmpuint (ties_of (p->best), ==, 4);
  g_assert_cmpint (p->score.cautions, ==, 0);
}

/* Few anchors, and no more chains than five: nothing clears it. The answer is the plain plan: four chains and the blade's, with the caution. */
static void
test_nothing_clears (void)
{
  g_autoptr(Case) c = case_on_frost ();
  g_autoptr(FlProposal) p = plan_with_few_anchors (c, TRUE);

  g_assert_nonnull (p->best);
  print_assessment (p->best);
  g_assert_true (has_caution (p->best, "force"));
  g_assert_cmpuint (ties_of (p->best), ==, 4);
}

/* Heavier, without the middle anchors, with chains and binders to spare and points that take two: more chains clear it. */
static void
test_by_more_chains (void)
{
  g_autoptr(Case) c = case_on_frost ();
  g_autoptr(FlProposal) p = NULL;

  add_gear (c);
  fleet_set (c, "machines[0].weight_lb", "26000");
  for (guint i = 0; i < 4; i++)
    {
      g_autofree char *path = g_strdup_printf ("machines[0].tie_points[%u].takes", i);

      fleet_set (c, path, "2");
    }
  p = plan_with_few_anchors (c, FALSE);
  g_assert_nonnull (p->best);
  print_assessment (p->best);
  g_assert_false (has_caution (p->best, "force"));
  g_assert_cmpuint (ties_of (p->best), >, 4);
  g_assert_true (fl_assessment_stands (p->best));
}

/* What was not judged cannot be cleared, and is no reason to take more chains. */
static void
test_not_judged (void)
{
  const FlSearch search = { .work = 0 };
  g_autoptr(Case) c = case_on_frost ();
  g_autoptr(FlProposal) p = NULL;

  fleet_drop (c, "machines[0].contacts");
  add_gear (c);
  g_assert_true (case_read (c));
  p = plan_anew (c, &search);
  g_assert_nonnull (p->best);
  g_assert_false (has_caution (p->best, "force"));
  g_assert_cmpuint (ties_of (p->best), ==, 4);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/clear/by-geometry", test_by_geometry);
  g_test_add_func ("/clear/nothing-clears", test_nothing_clears);
  g_test_add_func ("/clear/by-more-chains", test_by_more_chains);
  g_test_add_func ("/clear/not-judged", test_not_judged);
  return test_done (g_test_run ());
}
