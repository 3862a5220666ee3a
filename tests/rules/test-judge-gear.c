/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the tie-downs are worth and where they come from: 393.104 and .108 gear, 393.106(d) aggregate, 393.130(c) and .110 count,
 * 393.104(f) and .112 tightening and edges (as read or quoted in public copies), the house's rules, gear on hand. Small changes to the
 * example; worked examples keep the names of the project's reference list (E01...). */
#include "fl-test-judge.h"

static void
set_all (Case *c, const char *list, guint n, const char *member, const char *value)
{
  for (guint i = 0; i < n; i++)
    {
      g_autofree char *path = g_strdup_printf ("%s[%u].%s", list, i, member);

      fleet_set (c, path, value);
    }
}

static const FlTieResult *
tie (const Case *c, guint index)
{
  return &fl_assessment_parts (c->judged)->ties[index];
}

static void
expect_sum (const Case *c, double need, double have)
{
  const FlLoadResult *load = &fl_assessment_parts (c->judged)->loads[0];

  g_assert_cmpfloat_with_epsilon (fl_quantity_in (load->need, FL_UNIT_LB), need, 1e-6);
  g_assert_cmpfloat_with_epsilon (fl_quantity_in (load->have, FL_UNIT_LB), have, 1e-6);
}

/* ── rating ── */

/* 393.104(b): what is damaged is out of use; its tie-down is worth nothing and counts nothing. */
static void
test_out_of_use (void)
{
  static const struct { const char *list, *finding, *subject; } cases[] = {
    { "chains[0].inspections", "bent", "chain C-041" }, { "binders[0].inspections", "cracked", "binder B-11" },
    { "chains[0].inspections", "stretched", "chain C-041" }, { "binders[0].inspections", "hook_spread", "binder B-11" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr(Case) c = case_new ();
      g_autofree char *json = g_strdup_printf ("[{'date': '2026-11-20', 'findings': [{'kind': '%s'}]}]", cases[i].finding);
      const FlFinding *f;

      fleet_set (c, cases[i].list, json);
      judge (c);
      f = expect (c, "gear_rating", cases[i].subject, FL_BY_PRACTICE, FL_SHORT);
      expect_words (f, "out of use");
      expect_figures (f, FL_NOT_MEASURED, FL_NOT_MEASURED);
      g_assert_cmpfloat (fl_quantity_in (tie (c, 0)->wll, FL_UNIT_LB), ==, 0);
      g_assert_cmpstr (tie (c, 0)->limited_by, ==, cases[i].subject);
      expect_sum (c, 11000, 9900);      /* three of 3,300 */
      expect (c, "aggregate_wll", "R-03", FL_BY_LAW, FL_SHORT);
      expect (c, "min_wll_each", "tie-down 1", FL_BY_HOUSE, FL_SHORT);
      expect_whole (c, FL_NOT_COMPLIANT, FL_HOUSE_SHORT);
    }
}

static void
test_connector_out (void)
{
  g_autoptr(Case) c = case_new ();

  fleet_set (c, "connectors[0].inspections", "[{'date': '2026-11-20', 'findings': [{'kind': 'bent'}]}]");
  plan_set (c, "tie_downs[0].connectors", "[{'id': 'SH-01 #2', 'at': 'point'}]");
  judge (c);
  expect (c, "gear_rating", "connector SH-01 #2", FL_BY_PRACTICE, FL_SHORT);
  g_assert_cmpfloat (fl_quantity_in (tie (c, 0)->counts, FL_UNIT_LB), ==, 0);
}

/* A size that 393.108 lacks, without a tag: nobody can say what it is worth. */
static void
test_unknown_worth (void)
{
  g_autoptr(Case) c = case_new ();

  fleet_set (c, "chains[0].size_in", "'3/4'");
  fleet_set (c, "binders[0].chain_sizes", "['3/4']");
  judge (c);
  expect (c, "gear_rating", "chain C-041", FL_BY_LAW, FL_UNKNOWN);
  expect (c, "aggregate_wll", "R-03", FL_BY_LAW, FL_UNKNOWN);
  g_assert_false (fl_quantity_known (tie (c, 0)->wll));
  g_assert_false (fl_quantity_known (tie (c, 0)->counts));
  expect (c, "min_wll_each", "tie-down 1", FL_BY_HOUSE, FL_UNKNOWN);
  expect_whole (c, FL_INCOMPLETE, FL_HOUSE_SHORT);
  fleet_set (c, "machines[0].weight_lb", "19000");      /* the other three are enough for the sum */
  judge (c);
  expect (c, "aggregate_wll", "R-03", FL_BY_LAW, FL_MET);
  expect_whole (c, FL_INCOMPLETE, FL_HOUSE_SHORT);
  fleet_set (c, "chains[0].tag_wll_lb", "14000");
  fleet_set (c, "chains[0].tag_legible", "true");
  judge (c);
  expect_whole (c, FL_COMPLIANT, FL_HOUSE_MET);
}

/* A binder that nobody looked at is unknown; one that bears no mark counts as grade 30 of the smallest size it fits (5/16: 1,900 lb,
 * 393.108(b) as read; the reading for binders is ours). */
static void
test_binder_marks (void)
{
  g_autoptr(Case) c = case_new ();

  fleet_drop (c, "binders[0].wll_lb");
  judge (c);
  expect (c, "gear_rating", "binder B-11", FL_BY_LAW, FL_UNKNOWN);
  fleet_set (c, "binders[0].wll_lb", "null");
  judge (c);
  g_assert_cmpfloat (fl_quantity_in (tie (c, 0)->wll, FL_UNIT_LB), ==, 1900);
  g_assert_cmpstr (tie (c, 0)->limited_by, ==, "binder B-11");
}

/* 393.108(d): unmarked chain is grade 30, and the plan says so. */
static void
test_unmarked (void)
{
  g_autoptr(Case) c = case_new ();
  const FlFinding *f;

  fleet_set (c, "chains[0].mark", "null");
  judge (c);
  f = expect (c, "gear_rating", "chain C-041", FL_BY_LAW, FL_NOTE);
  expect_words (f, "2,650 lb");
  expect_figures (f, FL_NOT_MEASURED, FL_LB (2650));
  g_assert_cmpfloat (fl_quantity_in (tie (c, 0)->wll, FL_UNIT_LB), ==, 2650);
  fleet_drop (c, "chains[0].mark");     /* nobody looked: no better */
  judge (c);
  expect (c, "gear_rating", "chain C-041", FL_BY_LAW, FL_NOTE);
  g_assert_cmpfloat (fl_quantity_in (tie (c, 0)->wll, FL_UNIT_LB), ==, 2650);
}

static void
test_hooks_assumed (void)
{
  g_autoptr(Case) c = case_new ();
  const FlFinding *f;

  judge (c);
  f = expect (c, "gear_rating", "hooks", FL_BY_LAW, FL_NOTE);
  expect_words (f, "tie-downs 1, 2, 3, 4, 5");
  set_all (c, "chains", 5, "hook_wll_lb", "6600");
  judge (c);
  g_assert_null (found (c, "gear_rating", "hooks"));
}

/* ── aggregate ── */

/* E05: 20,000 lb on four direct tie-downs of 5,000: 10,000 for 10,000, and not a pound more (the rule is "at least half"). */
static void
test_exactly_half (void)
{
  g_autoptr(Case) c = case_new ();
  const FlFinding *f;

  set_all (c, "chains", 4, "tag_wll_lb", "5000");
  set_all (c, "chains", 4, "tag_legible", "true");
  fleet_set (c, "machines[0].weight_lb", "20000");
  judge (c);
  f = expect (c, "aggregate_wll", "R-03", FL_BY_LAW, FL_MET);
  expect_figures (f, FL_LB (10000), FL_LB (10000));
  expect_whole (c, FL_COMPLIANT, FL_HOUSE_MET);
  fleet_set (c, "machines[0].weight_lb", "20000.1");
  judge (c);
  f = expect (c, "aggregate_wll", "R-03", FL_BY_LAW, FL_SHORT);
  expect_words (f, "have only 10,000 lb");
  expect_whole (c, FL_NOT_COMPLIANT, FL_HOUSE_MET);
}

/* E01, E02 and the extra vectors of the reference list: what four direct chains carry, 393.106(d)(1). `most` lb is met, a pound more
 * is short. */
static void
test_what_four_carry (void)
{
  static const struct { const char *size, *mark; double most; } cases[] = {
    { "'3/8'", "'70'", 26400 }, { "'3/8'", "null", 10600 }, { "'5/16'", "'70'", 18800 }, { "'3/8'", "'80'", 28400 }, { "'1/2'", "'70'", 45200 },
    { "'1/2'", "'80'", 48000 }, { "'3/8'", "'100'", 35200 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr(Case) c = case_new ();
      g_autofree char *most = g_strdup_printf ("%.0f", cases[i].most), *over = g_strdup_printf ("%.0f", cases[i].most + 1);

      set_all (c, "chains", 4, "size_in", cases[i].size);
      set_all (c, "chains", 4, "mark", cases[i].mark);
      set_all (c, "binders", 4, "wll_lb", "20000");
      fleet_set (c, "trailers[0].anchor_rows[0].rated_wll_lb", "20000");
      fleet_set (c, "machines[0].weight_lb", most);
      judge (c);
      expect_sum (c, cases[i].most / 2, cases[i].most / 2);
      expect (c, "aggregate_wll", "R-03", FL_BY_LAW, FL_MET);
      fleet_set (c, "machines[0].weight_lb", over);
      judge (c);
      expect (c, "aggregate_wll", "R-03", FL_BY_LAW, FL_SHORT);
    }
}

/* The weakest part governs, 393.108(a): a 5,400 lb binder on 3/8 grade 70 (21,600 lb on four, arithmetic of the reference list),
 * anchors of 5,000 lb (20,000 lb on four), a machine's point of 3,000. */
static void
test_weakest_part (void)
{
  g_autoptr(Case) binder = case_new ();
  g_autoptr(Case) anchor = case_new ();
  g_autoptr(Case) point = case_new ();

  set_all (binder, "binders", 4, "wll_lb", "5400");
  fleet_set (binder, "machines[0].weight_lb", "21600");
  judge (binder);
  expect_sum (binder, 10800, 10800);
  g_assert_cmpstr (tie (binder, 1)->limited_by, ==, "binder B-12");
  expect_whole (binder, FL_COMPLIANT, FL_HOUSE_MET);
  fleet_set (anchor, "trailers[0].anchor_rows[0].rated_wll_lb", "5000");
  judge (anchor);
  expect_sum (anchor, 11000, 10000);
  g_assert_cmpstr (tie (anchor, 0)->limited_by, ==, "anchor P11R");
  fleet_set (point, "machines[0].tie_points[0].rated_wll_lb", "3000");
  judge (point);
  expect_sum (point, 11000, 3 * 3300 + 1500);
  g_assert_cmpstr (tie (point, 0)->limited_by, ==, "point RL");
}

/* Two on one anchor share its rating; on one machine's point too, unless its maker rates it for each. */
static void
test_shared_rating (void)
{
  g_autoptr(Case) c = case_new ();

  fleet_set (c, "trailers[0].anchor_rows[0].takes", "2");
  plan_set (c, "tie_downs[3].anchors", "['P1R']");
  judge (c);
  g_assert_cmpfloat (fl_quantity_in (tie (c, 2)->wll, FL_UNIT_LB), ==, 4000);
  g_assert_cmpfloat (fl_quantity_in (tie (c, 3)->wll, FL_UNIT_LB), ==, 4000);
  g_assert_cmpfloat (fl_quantity_in (tie (c, 0)->wll, FL_UNIT_LB), ==, 6600);
  fleet_set (c, "trailers[0].anchor_rows[0].rated_wll_lb", "20000");
  fleet_set (c, "machines[0].tie_points[2].rated_wll_lb", "9000");
  fleet_set (c, "machines[0].tie_points[2].takes", "2");
  plan_set (c, "tie_downs[3].machine_point", "'FL'");
  judge (c);
  g_assert_cmpfloat (fl_quantity_in (tie (c, 2)->wll, FL_UNIT_LB), ==, 4500);
  fleet_set (c, "machines[0].tie_points[2].rating_is", "'each'");
  judge (c);
  g_assert_cmpfloat (fl_quantity_in (tie (c, 2)->wll, FL_UNIT_LB), ==, 6600);
}

static void
over (Case *c, guint index, const char *first, const char *second, const char *through)
{
  g_autofree char *at = g_strdup_printf ("tie_downs[%u]", index), *json = NULL;

  json = g_strdup_printf ("{'no': %u, 'load': 0, 'purpose': 'machine', 'kind': 'over', 'anchors': ['%s', '%s'], 'through': [%s], "
                          "'chain': 'C-04%u', 'binder': 'B-1%u', 'edge_protected': true}", index + 1, first, second, through, index + 1, index + 1);
  plan_set (c, at, json);
}

/* E11: 50,000 lb on four indirect 3/8 grade 70: 26,400 for 25,000 where they go over to the other side, 393.106(d)(3); half of it
 * where they come back to their own, (d)(2). */
static void
test_over (void)
{
  g_autoptr(Case) other = case_new ();
  g_autoptr(Case) same = case_new ();

  fleet_set (other, "machines[0].weight_lb", "50000");
  plan_set (other, "tie_downs", "[]");
  over (other, 0, "P10R", "P10L", "'RL', 'RR'");
  over (other, 1, "P11R", "P11L", "'RL', 'RR'");
  over (other, 2, "P1R", "P1L", "'FL', 'FR'");
  over (other, 3, "P2R", "P2L", "'FL', 'FR'");
  judge (other);
  expect_sum (other, 25000, 26400);
  expect (other, "aggregate_wll", "R-03", FL_BY_LAW, FL_MET);
  g_assert_cmpuint (count_of (other, "over_body", FL_CAUTION), ==, 4);
  fleet_set (same, "machines[0].weight_lb", "50000");
  plan_set (same, "tie_downs", "[]");
  over (same, 0, "P10R", "P11R", "'RL'");
  over (same, 1, "P10L", "P11L", "'RR'");
  over (same, 2, "P1R", "P2R", "'FL'");
  over (same, 3, "P1L", "P2L", "'FR'");
  judge (same);
  expect_sum (same, 25000, 13200);
  expect (same, "aggregate_wll", "R-03", FL_BY_LAW, FL_SHORT);
}

/* The blade's chain is on top of the four: it counts in nothing. */
static void
test_implement_counts_nothing (void)
{
  g_autoptr(Case) c = case_new ();

  judge (c);
  g_assert_cmpfloat (fl_quantity_in (tie (c, 4)->counts, FL_UNIT_LB), ==, 0);
  g_assert_cmpuint (fl_assessment_parts (c->judged)->loads[0].own_tie_downs, ==, 4);
  plan_set (c, "tie_downs[3].purpose", "'implement:BLD'");
  judge (c);
  expect_sum (c, 11000, 9900);
  expect_figures (expect (c, "tie_down_count", "R-03", FL_BY_LAW, FL_SHORT), FL_COUNT (4), FL_COUNT (3));
}

/* ── count ── */

/* 393.130(a): four from 10,000 lb on (a machine of exactly that weight stands in both rules: the stricter). Below it 393.110(b): 19.5 ft
 * not blocked 3, blocked forward 2. */
static void
test_count (void)
{
  g_autoptr(Case) c = case_new ();

  plan_drop (c, "tie_downs[4]");
  plan_drop (c, "tie_downs[3]");
  fleet_set (c, "machines[0].weight_lb", "10000");
  judge (c);
  expect_figures (expect (c, "tie_down_count", "R-03", FL_BY_LAW, FL_SHORT), FL_COUNT (4), FL_COUNT (3));
  fleet_set (c, "machines[0].weight_lb", "9999");
  judge (c);
  expect_figures (expect (c, "tie_down_count", "R-03", FL_BY_LAW, FL_MET), FL_COUNT (3), FL_COUNT (3));
  plan_drop (c, "tie_downs[2]");
  judge (c);
  expect_figures (expect (c, "tie_down_count", "R-03", FL_BY_LAW, FL_SHORT), FL_COUNT (3), FL_COUNT (2));
  fleet_set (c, "trailers[0].deck.front_stop", "{'x_in': 244, 'rated_lb': 9000}");
  plan_set (c, "loads[0].blocked_forward", "true");
  judge (c);
  expect_figures (expect (c, "tie_down_count", "R-03", FL_BY_LAW, FL_MET), FL_COUNT (2), FL_COUNT (2));
}

/* 37.5 ft would be five by length; 393.110(d) exempts machinery fastened by special methods (from memory): a note. */
static void
test_count_by_length (void)
{
  g_autoptr(Case) c = case_new ();
  const FlFinding *f;

  fleet_set (c, "machines[0].length_in", "450");
  judge (c);
  f = expect (c, "tie_down_count", "R-03", FL_BY_ADVICE, FL_NOTE);
  expect_figures (f, FL_COUNT (5), FL_COUNT (4));
  g_assert_cmpuint (count_of (c, "tie_down_count", FL_MET), ==, 1);
}

/* ── house ── */

static void
test_house_each (void)
{
  g_autoptr(Case) c = case_new ();
  const FlFinding *f;

  fleet_set (c, "machines[0].tie_points[0].rated_wll_lb", "4900");
  judge (c);
  f = expect (c, "min_wll_each", "tie-down 1", FL_BY_HOUSE, FL_SHORT);
  expect_figures (f, FL_LB (5000), FL_LB (4900));
  g_assert_cmpuint (count_of (c, "min_wll_each", FL_SHORT), ==, 1);
  expect_whole (c, FL_COMPLIANT, FL_HOUSE_SHORT);
  g_assert_false (fl_assessment_stands (c->judged));
  plan_set (c, "exceptions", "[{'rule': 'min_wll_each', 'subject': 'tie-down 2', 'reason': 'other one', 'by': 'P-01'}]");
  judge (c);
  expect_whole (c, FL_COMPLIANT, FL_HOUSE_SHORT);
  plan_set (c, "exceptions", "[{'rule': 'min_wll_each', 'subject': 'tie-down 1', 'reason': 'loop known sound', 'by': 'P-01'}]");
  judge (c);
  expect_whole (c, FL_COMPLIANT, FL_HOUSE_EXCEPTED);
  g_assert_true (fl_assessment_stands (c->judged));
  fleet_set (c, "machines[0].tie_points[0].rated_wll_lb", "5000");
  judge (c);
  expect (c, "min_wll_each", "tie-downs", FL_BY_HOUSE, FL_MET);
}

/* The blade's chain, at 5,400 lb, is not one of "each". */
static void
test_house_each_is_own (void)
{
  g_autoptr(Case) c = case_new ();

  fleet_set (c, "house_rules", "[{'rule': 'min_wll_each', 'wll_lb': 6600}]");
  judge (c);
  expect (c, "min_wll_each", "tie-downs", FL_BY_HOUSE, FL_MET);
}

static void
test_house_chain (void)
{
  static const struct { const char *size, *mark; gboolean met; } cases[] = {
    { "'3/8'", "'70'", TRUE }, { "'3/8'", "'80'", TRUE }, { "'1/2'", "'70'", TRUE }, { "'5/16'", "'70'", FALSE }, { "'3/8'", "'43'", FALSE },
    { "'3/8'", "null", FALSE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr(Case) c = case_new ();

      fleet_set (c, "house_rules", "[{'rule': 'min_chain', 'size_in': '3/8', 'grade': '70'}]");
      fleet_set (c, "chains[1].size_in", cases[i].size);
      fleet_set (c, "chains[1].mark", cases[i].mark);
      judge (c);
      if (cases[i].met)
        expect (c, "min_chain", "tie-downs", FL_BY_HOUSE, FL_MET);
      else
        expect (c, "min_chain", "C-042", FL_BY_HOUSE, FL_SHORT);
      g_assert_cmpuint (count_of (c, "min_chain", FL_SHORT), ==, cases[i].met ? 0 : 1);
    }
}

static void
strap_instead (Case *c, guint index)
{
  g_autofree char *chain = g_strdup_printf ("tie_downs[%u].chain", index), *binder = g_strdup_printf ("tie_downs[%u].binder", index);
  g_autofree char *strap = g_strdup_printf ("tie_downs[%u].strap", index);

  plan_drop (c, chain);
  plan_drop (c, binder);
  plan_set (c, strap, "'S-04'");
}

static void
test_house_straps (void)
{
  g_autoptr(Case) c = case_new ();

  fleet_set (c, "house_rules", "[{'rule': 'no_straps_on_machines'}]");
  judge (c);
  expect (c, "no_straps_on_machines", "tie-downs", FL_BY_HOUSE, FL_MET);
  strap_instead (c, 1);
  judge (c);
  expect (c, "no_straps_on_machines", "tie-down 2", FL_BY_HOUSE, FL_SHORT);
  expect (c, "mixed_gear", "R-03", FL_BY_PRACTICE, FL_CAUTION);
}

/* ── tightened, edges ── */

static void
test_tightened (void)
{
  g_autoptr(Case) c = case_new ();

  judge (c);
  expect (c, "cannot_loosen", "tie-downs", FL_BY_LAW, FL_MET);
  plan_drop (c, "tie_downs[1].binder");
  judge (c);
  expect (c, "cannot_loosen", "tie-down 2", FL_BY_LAW, FL_SHORT);
  plan_drop (c, "tie_downs[1].chain");
  judge (c);
  expect_words (expect (c, "cannot_loosen", "tie-down 2", FL_BY_LAW, FL_SHORT), "Choose one chain or one strap");
  plan_set (c, "tie_downs[1].strap", "'S-04'");         /* it has its own ratchet */
  judge (c);
  expect (c, "cannot_loosen", "tie-downs", FL_BY_LAW, FL_MET);
  fleet_set (c, "straps[0].tensioner", "'none'");
  judge (c);
  expect (c, "cannot_loosen", "tie-down 2", FL_BY_LAW, FL_SHORT);
}

/* Anchors below the rail: every run bends over the deck's edge (half width 51). */
static void
test_edges (void)
{
  g_autoptr(Case) c = case_new ();

  fleet_set (c, "trailers[0].anchor_rows[0].y_in", "54");
  fleet_set (c, "trailers[0].anchor_rows[0].z_in", "-14");
  judge (c);
  g_assert_cmpuint (count_of (c, "edge_protection", FL_SHORT), ==, 5);
  expect (c, "edge_protection", "tie-down 1", FL_BY_LAW, FL_SHORT);
  for (guint i = 0; i < 5; i++)
    {
      g_autofree char *path = g_strdup_printf ("tie_downs[%u].edge_protected", i);

      plan_set (c, path, "true");
    }
  judge (c);
  expect (c, "edge_protection", "tie-down 1", FL_BY_PRACTICE, FL_CAUTION);
  g_assert_cmpuint (count_of (c, "edge_protection", FL_SHORT), ==, 0);
  expect_whole (c, FL_COMPLIANT, FL_HOUSE_MET);
}

/* ── on hand, used once ── */

static void
test_on_hand (void)
{
  g_autoptr(Case) c = case_new ();

  judge (c);
  expect (c, "gear_on_hand", "tie-downs", FL_BY_PRACTICE, FL_MET);
  fleet_set (c, "yards[1]", "{'id': 'FAR'}");
  fleet_set (c, "chains[0].kept_at", "'FAR'");
  judge (c);
  expect_words (expect (c, "gear_on_hand", "tie-down 1", FL_BY_PRACTICE, FL_SHORT), "C-041");
  expect_whole (c, FL_NOT_COMPLIANT, FL_HOUSE_MET);
  fleet_set (c, "moves[0].gear_yard", "'FAR'");         /* fetched from there */
  judge (c);
  expect (c, "gear_on_hand", "tie-downs", FL_BY_PRACTICE, FL_MET);
}

static void
test_used_once (void)
{
  g_autoptr(Case) c = case_new ();

  plan_set (c, "tie_downs[1].chain", "'C-041'");
  judge (c);
  expect_words (expect (c, "double_use", "tie-down 2", FL_BY_PRACTICE, FL_SHORT), "C-041");
  plan_set (c, "tie_downs[0].chain", "'C-3/8-20 #1'");
  plan_set (c, "tie_downs[1].chain", "'C-3/8-20 #2'");
  judge (c);
  g_assert_null (found (c, "double_use", NULL));
  plan_set (c, "tie_downs[1].chain", "'C-3/8-20 #1'");
  judge (c);
  expect (c, "double_use", "tie-down 2", FL_BY_PRACTICE, FL_SHORT);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/judge/gear/out-of-use", test_out_of_use);
  g_test_add_func ("/judge/gear/connector-out", test_connector_out);
  g_test_add_func ("/judge/gear/unknown-worth", test_unknown_worth);
  g_test_add_func ("/judge/gear/binder-marks", test_binder_marks);
  g_test_add_func ("/judge/gear/unmarked", test_unmarked);
  g_test_add_func ("/judge/gear/hooks-assumed", test_hooks_assumed);
  g_test_add_func ("/judge/aggregate/exactly-half", test_exactly_half);
  g_test_add_func ("/judge/aggregate/what-four-carry", test_what_four_carry);
  g_test_add_func ("/judge/aggregate/weakest-part", test_weakest_part);
  g_test_add_func ("/judge/aggregate/shared-rating", test_shared_rating);
  g_test_add_func ("/judge/aggregate/over", test_over);
  g_test_add_func ("/judge/aggregate/implement", test_implement_counts_nothing);
  g_test_add_func ("/judge/count/heavy-and-general", test_count);
  g_test_add_func ("/judge/count/by-length", test_count_by_length);
  g_test_add_func ("/judge/house/each", test_house_each);
  g_test_add_func ("/judge/house/each-is-own", test_house_each_is_own);
  g_test_add_func ("/judge/house/chain", test_house_chain);
  g_test_add_func ("/judge/house/straps", test_house_straps);
  g_test_add_func ("/judge/tightened", test_tightened);
  g_test_add_func ("/judge/edges", test_edges);
  g_test_add_func ("/judge/on-hand", test_on_hand);
  g_test_add_func ("/judge/used-once", test_used_once);
  return test_done (g_test_run ());
}
