/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The search under house rules: what it proposes stands under each of them (the judge says so, and the choice shows it), and a rule that leaves
 * no plan leaves none. Moves of the demo's invented fleet, and of the example. */
#include "fl-test-plan.h"

/* Plans a move of the demo under these rules; `trailer` NULL: the move's own. (transfer full) */
static FlProposal *
plan_demo (Case *c, const char *rules, const char *move)
{
  g_autoptr(FlPlan) start = NULL;

  fleet_set (c, "house_rules", rules);
  g_assert_true (case_read (c));
  start = fl_plan_for_move (c->fleet, move_of (c->fleet, move), NULL, NULL);
  return plan_from (c, start, NULL);
}

/* Nothing of the house stands against it, and the rule has been looked at. */
static void
assert_house_met (const FlProposal *p, const char *rule)
{
  gsize n;
  gboolean said = FALSE;
  const FlFinding *findings;

  g_assert_nonnull (p->best);
  g_assert_true (fl_assessment_stands (p->best));
  g_assert_cmpint (fl_assessment_house (p->best), ==, FL_HOUSE_MET);
  findings = fl_assessment_findings (p->best, &n);
  for (gsize i = 0; i < n; i++)
    if (strcmp (findings[i].rule, rule) == 0)
      {
        said = TRUE;
        g_assert_cmpint (findings[i].standing, ==, FL_BY_HOUSE);
        g_assert_cmpint (findings[i].verdict, <, FL_UNKNOWN);
      }
  g_assert_true (said);
}

/* ── each rule on demo moves ── */

static void
test_each_rule (void)
{
  static const struct { const char *rule, *json, *move; } cases[] = {
    { "min_wll_each", "[{'rule': 'min_wll_each', 'wll_lb': 5500}]", "2026-11-25/07" },
    { "min_chain", "[{'rule': 'min_chain', 'size_in': '3/8', 'grade': '70'}]", "2026-11-25/02" },
    { "no_straps_on_machines", "[{'rule': 'no_straps_on_machines'}]", "2026-11-26/01" },
    { "four_below_threshold", "[{'rule': 'four_below_threshold'}]", "2026-11-25/03" },
    { "length_count_too", "[{'rule': 'length_count_too'}]", "2026-11-25/07" },
    { "ratchet_only", "[{'rule': 'ratchet_only'}]", "2026-11-25/07" },
    { "inboard_of_rub_rail", "[{'rule': 'inboard_of_rub_rail'}]", "2026-11-25/02" },
    { "deck_angle_band", "[{'rule': 'deck_angle_band', 'lo_deg': 22, 'hi_deg': 58}]", "2026-11-25/02" },
    { "stand_in_rating", "[{'rule': 'stand_in_rating', 'fitting': 'lug', 'wll_lb': 6000}, {'rule': 'stand_in_rating', 'fitting': 'eye', 'wll_lb': 6000}]",
      "2026-11-25/02" },
    { "over_wide_blade_rear", "[{'rule': 'over_wide_blade_rear', 'over_in': 89}]", "2026-11-25/02" },
    { "extra_aggregate_pct", "[{'rule': 'extra_aggregate_pct', 'pct': 25}]", "2026-11-25/02" },
    { "chain_allowance", "[{'rule': 'chain_allowance', 'length_ft': 4}]", "2026-11-25/02" },
    { "weight_margin_pct", "[{'rule': 'weight_margin_pct', 'pct': 8}]", "2026-11-25/02" },
    { "height_margin", "[{'rule': 'height_margin', 'length_in': 3}]", "2026-11-25/02" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr(Case) c = case_demo ();
      g_autoptr(FlProposal) p = plan_demo (c, cases[i].json, cases[i].move);

      g_test_message ("%s on %s", cases[i].rule, cases[i].move);
      if (p->best == NULL)
        print_reasons (p);
      assert_house_met (p, cases[i].rule);
    }
}

/* ── what the rules change ── */

static guint
lever_binders (const Case *c, const FlPlanChoices *choices)
{
  guint n = 0;

  for (gsize i = 0; i < choices->n_tie_downs; i++)
    {
      const FlRecord *record = choices->tie_downs[i].binder != NULL ? fl_fleet_find_gear (c->fleet, choices->tie_downs[i].binder, NULL) : NULL;

      n += record != NULL && fl_record_binder (record)->kind == FL_BINDER_LEVER;
    }
  return n;
}

/* The dozer's trailer has lever binders only: with ratchets asked for they come from the yard. */
static void
test_ratchets (void)
{
  g_autoptr(Case) c = case_demo ();
  g_autoptr(FlProposal) free_choice = plan_demo (c, "[]", "2026-11-25/02");

  g_assert_cmpuint (lever_binders (c, fl_plan_choices (fl_assessment_plan (free_choice->best))), >, 0);
  {
    g_autoptr(FlProposal) asked = plan_demo (c, "[{'rule': 'ratchet_only'}]", "2026-11-25/02");

    assert_house_met (asked, "ratchet_only");
    g_assert_cmpuint (lever_binders (c, fl_plan_choices (fl_assessment_plan (asked->best))), ==, 0);
  }
}

/* 22,000 lb on four 3/8 grade 70: enough for 20 percent over half the weight, not for 25. There is no more gear: no plan, and it says so. */
static void
test_sum_out_of_reach (void)
{
  static const struct { const char *rules; gboolean some; } cases[] = {
    { "[{'rule': 'extra_aggregate_pct', 'pct': 20}]", TRUE },
    { "[{'rule': 'weight_margin_pct', 'pct': 20}]", TRUE },
    { "[{'rule': 'stand_in_rating', 'fitting': 'loop', 'wll_lb': 5500}]", TRUE },
    { "[{'rule': 'stand_in_rating', 'fitting': 'loop', 'wll_lb': 4000}]", FALSE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr(Case) c = case_new ();
      g_autoptr(FlProposal) p = NULL;

      fleet_set (c, "house_rules", cases[i].rules);
      g_assert_true (case_read (c));
      p = plan_anew (c, NULL);
      g_test_message ("%s", cases[i].rules);
      if (cases[i].some)
        assert_stands (c, p);
      else
        assert_none (p);
    }
}

/* A light machine with four tie-downs, where the rule would be content with three of 19.5 ft. */
static void
test_four (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(FlProposal) p = NULL;

  fleet_set (c, "house_rules", "[{'rule': 'four_below_threshold'}]");
  fleet_set (c, "machines[0].weight_lb", "9000");
  g_assert_true (case_read (c));
  p = plan_anew (c, NULL);
  assert_stands (c, p);
  g_assert_cmpuint (own_ties (fl_plan_choices (fl_assessment_plan (p->best))), >=, 4);
}

/* The blade, at the front of the machine, comes to the rear of the trailer. */
static void
test_blade (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(FlProposal) p = NULL;

  fleet_set (c, "house_rules", "[{'rule': 'over_wide_blade_rear', 'over_in': 90}]");
  fleet_set (c, "machines[0].implements[0].width_in", "93");
  g_assert_true (case_read (c));
  p = plan_anew (c, NULL);
  assert_stands (c, p);
  g_assert_cmpint (fl_plan_choices (fl_assessment_plan (p->best))->loads[0].facing, ==, FL_REARWARD);
  fleet_set (c, "machines[0].facings", "['forward']");
  g_assert_true (case_read (c));
  g_clear_pointer (&p, fl_proposal_free);
  p = plan_anew (c, NULL);
  assert_none (p);
}

/* With its own lock and a house that takes it, the blade has no chain. */
static void
test_lock (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(FlProposal) p = NULL;

  fleet_set (c, "machines[0].locks[1]", "{'id': 'BLK', 'kind': 'other', 'on_machine': true, 'fitted': true}");
  fleet_set (c, "machines[0].implements[0].lock", "'BLK'");
  fleet_set (c, "house_rules", "[{'rule': 'implement_lock_suffices'}]");
  g_assert_true (case_read (c));
  p = plan_anew (c, NULL);
  assert_stands (c, p);
  g_assert_cmpuint (fl_plan_choices (fl_assessment_plan (p->best))->n_tie_downs, ==, own_ties (fl_plan_choices (fl_assessment_plan (p->best))));
}

/* Outside the rail there is nothing to hook to. */
static void
test_rail (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(FlProposal) p = NULL;

  fleet_set (c, "house_rules", "[{'rule': 'inboard_of_rub_rail'}]");
  fleet_set (c, "trailers[0].anchor_rows[0].fitting", "'rub_rail'");
  g_assert_true (case_read (c));
  p = plan_anew (c, NULL);
  assert_none (p);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan-house/each-rule", test_each_rule);
  g_test_add_func ("/plan-house/ratchets", test_ratchets);
  g_test_add_func ("/plan-house/sum-out-of-reach", test_sum_out_of_reach);
  g_test_add_func ("/plan-house/four", test_four);
  g_test_add_func ("/plan-house/blade", test_blade);
  g_test_add_func ("/plan-house/lock", test_lock);
  g_test_add_func ("/plan-house/rail", test_rail);
  return test_done (g_test_run ());
}
