/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether the tie-downs work at all: hooks, binders, lengths, runs, angles, chains that touch, points. Common practice and the
 * project's own bands throughout; the law behind is 49 CFR 393.104 and .112. Small changes to the example.
 * Its first tie-down runs from RL (230, -26, 30) to P11R (252, -50, 0): 44.27 in. */
#include "fl-test-judge.h"

/* The worst finding of `fit` about this tie-down is short, by practice, and says so. */
static const FlFinding *
expect_short (Case *c, const char *about, const char *words)
{
  const FlFinding *f;

  judge (c);
  f = expect (c, "fit", about, FL_BY_PRACTICE, FL_SHORT);
  expect_words (f, words);
  expect_whole (c, FL_NOT_COMPLIANT, FL_HOUSE_MET);
  return f;
}

static void
expect_fits (Case *c)
{
  judge (c);
  expect (c, "fit", "tie-downs", FL_BY_PRACTICE, FL_MET);
  expect_whole (c, FL_COMPLIANT, FL_HOUSE_MET);
}

/* An anchor of one's own for the first tie-down. */
static void
hook_first_to (Case *c, const char *xyz)
{
  g_autofree char *json = g_strdup_printf ("{'id': 'X1', 'fitting': 'lashing_ring', %s, 'rated_wll_lb': 20000, 'opening_in': 3}", xyz);
  JsonNode *there = tree_at (c->fleet_json, "trailers[0].anchors[1]");

  if (there != NULL)
    fleet_drop (c, "trailers[0].anchors[1]");
  fleet_set (c, "trailers[0].anchors[1]", json);
  plan_set (c, "tie_downs[0].anchors", "['X1']");
}

/* ── hooks ── */

/* The hook needs 2.4 in; a shackle of 1.13 in pin, 1.4 in jaw and 2.7 in opening takes it. */
static void
test_hook_and_point (void)
{
  g_autoptr(Case) c = case_new ();

  fleet_set (c, "machines[0].tie_points[0].opening_in", "2.4");
  expect_fits (c);
  fleet_set (c, "machines[0].tie_points[0].opening_in", "2.3");
  expect_short (c, "tie-down 1", "point on the machine");
  plan_set (c, "tie_downs[0].connectors", "[{'id': 'SH-01 #1', 'at': 'point'}]");
  expect_fits (c);
  plan_set (c, "tie_downs[0].connectors", "[{'id': 'SH-01 #1', 'at': 'anchor'}]");      /* at the wrong end */
  expect_short (c, "tie-down 1", "point on the machine");
  plan_set (c, "tie_downs[0].connectors", "[{'id': 'SH-01 #1', 'at': 'point'}]");
  fleet_set (c, "machines[0].tie_points[0].opening_in", "1.1");         /* its pin does not go in */
  expect_short (c, "tie-down 1", "point on the machine");
  fleet_set (c, "machines[0].tie_points[0].opening_in", "2");
  fleet_set (c, "machines[0].tie_points[0].bar_in", "1.5");             /* it does not span the bar */
  expect_short (c, "tie-down 1", "point on the machine");
}

static void
test_hook_and_anchor (void)
{
  g_autoptr(Case) c = case_new ();

  fleet_set (c, "trailers[0].anchor_rows[0].opening_in", "2");
  expect_short (c, "tie-down 3", "into the anchor");
  g_assert_cmpuint (count_of (c, "fit", FL_SHORT), ==, 5);
}

/* An opening that nobody measured refuses nothing: one caution for the machine, one for the trailer. */
static void
test_unmeasured_openings (void)
{
  g_autoptr(Case) c = case_new ();
  const FlFinding *f;

  fleet_drop (c, "machines[0].tie_points[0].opening_in");
  fleet_drop (c, "machines[0].tie_points[2].opening_in");
  expect_fits (c);
  f = expect (c, "unmeasured", "R-03", FL_BY_PRACTICE, FL_CAUTION);
  expect_words (f, "RL, FL");
  g_assert_cmpuint (count_of (c, "unmeasured", FL_CAUTION), ==, 1);
  fleet_drop (c, "trailers[0].anchor_rows[0].opening_in");
  expect_fits (c);
  f = expect (c, "unmeasured", "T-3", FL_BY_PRACTICE, FL_CAUTION);
  expect_words (f, "P11R, P11L, P1R, P1L, P2R");
  g_assert_cmpuint (count_of (c, "unmeasured", FL_CAUTION), ==, 2);
  fleet_drop (c, "chains[0].hook_needs_in");
  expect_fits (c);
}

/* ── binders and lengths ── */

static void
test_binder_size (void)
{
  g_autoptr(Case) c = case_new ();

  fleet_set (c, "binders[0].chain_sizes", "['1/2']");
  expect_short (c, "tie-down 1", "not made for this size");
  fleet_set (c, "binders[0].chain_sizes", "['10 mm']");         /* 3/8 by its metric name */
  expect_fits (c);
}

/* 44.27 run + 12 for each of two grab hooks + 8 take-up + 12 tail = 88.27 in. */
static void
test_chain_length (void)
{
  const double need = hypot (hypot (22, 24), 30) + 24 + 8 + 12;
  g_autoptr(Case) c = case_new ();
  g_autofree char *inch_short = g_strdup_printf ("%.4f", need - 1), *just = g_strdup_printf ("%.4f", need + 0.0001);
  const FlFinding *f;

  fleet_drop (c, "chains[0].length_ft");
  fleet_set (c, "chains[0].length_in", inch_short);
  f = expect_short (c, "tie-down 1", "Too short");
  expect_figures (f, FL_IN (need), FL_IN (need - 1));
  fleet_set (c, "chains[0].length_in", just);
  expect_fits (c);
  fleet_set (c, "chains[0].hook", "'slip'");            /* hooked in, not back: a foot less at each end */
  fleet_set (c, "chains[0].length_in", "64.3");
  expect_fits (c);
  fleet_set (c, "chains[0].length_in", "64.2");
  expect_short (c, "tie-down 1", "Too short");
}

static void
test_binder_run (void)
{
  g_autoptr(Case) c = case_new ();
  const FlFinding *f;

  fleet_set (c, "binders[0].needs_run_in", "45");
  f = expect_short (c, "tie-down 1", "needs a run of 45 in");
  expect_figures (f, FL_IN (45), FL_IN (hypot (hypot (22, 24), 30)));
  fleet_set (c, "binders[0].needs_run_in", "44.2");
  expect_fits (c);
}

/* ── runs ── */

/* Half way from RL to P11R: (3, 38, 15) in the machine's frame, (241, -38, 15) in the trailer's. */
static void
test_in_the_way (void)
{
  static const char *const machine_box = "{'name': 'ballast', 'min': {'x_in': 0, 'y_in': 34, 'z_in': 10}, 'max': {'x_in': 6, 'y_in': 42, 'z_in': 20}}";
  static const char *const trailer_box = "[{'name': 'toolbox', 'min': {'x_in': 238, 'y_in': -42, 'z_in': 10}, 'max': {'x_in': 244, 'y_in': -34, 'z_in': 20}}]";
  g_autoptr(Case) body = case_new ();
  g_autoptr(Case) hose = case_new ();
  g_autoptr(Case) trailer = case_new ();

  fleet_set (body, "machines[0].solids[1]", machine_box);
  expect_short (body, "tie-down 1", "through the machine (ballast)");
  g_assert_cmpuint (count_of (body, "fit", FL_SHORT), ==, 1);
  fleet_set (hose, "machines[0].keep_clear[1]", machine_box);
  expect_short (hose, "tie-down 1", "kept clear (ballast)");
  fleet_set (trailer, "trailers[0].solids", trailer_box);
  expect_short (trailer, "tie-down 1", "part of the trailer (toolbox)");
}

static void
test_hinge (void)
{
  g_autoptr(Case) c = case_new ();

  fleet_set (c, "trailers[0].hinge_x_in", "240");       /* between 230 and 252 */
  expect_short (c, "tie-down 1", "hinge");
  g_assert_cmpuint (count_of (c, "fit", FL_SHORT), ==, 2);
  fleet_set (c, "trailers[0].hinge_x_in", "120");
  expect_fits (c);
}

static void
test_not_down (void)
{
  g_autoptr(Case) c = case_new ();

  hook_first_to (c, "'x_in': 260, 'y_in': -50, 'z_in': 31");
  expect_short (c, "tie-down 1", "does not pull the load down");
}

/* An anchor inside the steel of a raised deck. */
static void
test_deck_in_the_way (void)
{
  g_autoptr(Case) c = case_new ();

  fleet_set (c, "trailers[0].deck.zones[1]", "{'id': 'main', 'x0_in': 0, 'x1_in': 246, 'z_in': 0}");
  fleet_set (c, "trailers[0].deck.zones[2]", "{'id': 'neck', 'x0_in': 246, 'x1_in': 288, 'z_in': 20}");
  judge (c);
  expect_words (expect (c, "fit", "tie-down 1", FL_BY_PRACTICE, FL_SHORT), "deck is in its way");
}

static void
test_no_place_yet (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(FlPlan) plan = NULL;
  g_autofree char *text = NULL;

  judge (c);
  plan = fl_plan_with_place (c->plan, 0, FL_FORWARD, FL_NOT_MEASURED);
  fl_assessment_unref (c->judged);
  c->judged = fl_judge_plan (c->book, c->fleet, plan, NULL);
  text = result_text (c->judged);
  g_assert_null (strstr (text, "nan"));
  expect (c, "fit", "tie-down 1", FL_BY_PRACTICE, FL_UNKNOWN);
  expect (c, "stands_on_deck", "R-03", FL_BY_PRACTICE, FL_UNKNOWN);
  g_assert_cmpint (fl_assessment_verdict (c->judged), !=, FL_COMPLIANT);
}

/* ── how many ── */

static void
test_takes (void)
{
  g_autoptr(Case) anchor = case_new ();
  g_autoptr(Case) point = case_new ();

  plan_set (anchor, "tie_downs[4].anchors", "['P1R']");
  fleet_set (anchor, "binders[4].needs_run_in", "20");
  fleet_set (anchor, "trailers[0].anchor_rows[0].rated_wll_lb", "20000");
  expect_figures (expect_short (anchor, "tie-down 5", "anchor P1R than it takes"), FL_COUNT (1), FL_COUNT (2));
  fleet_set (anchor, "trailers[0].anchor_rows[0].takes", "2");
  judge (anchor);
  g_assert_cmpuint (count_of (anchor, "fit", FL_SHORT), ==, 0);
  plan_set (point, "tie_downs[3].machine_point", "'FL'");
  judge (point);
  expect_figures (expect (point, "fit", "tie-down 4", FL_BY_PRACTICE, FL_SHORT), FL_COUNT (1), FL_COUNT (2));
  fleet_set (point, "machines[0].tie_points[2].takes", "2");
  judge (point);
  g_assert_cmpuint (count_of (point, "fit", FL_SHORT), ==, 0);
}

/* ── angles ── */

/* An anchor at this angle to the deck, 45 degrees in plan, from RL 30 in over the deck. */
static void
hook_at_angle (Case *c, double deck)
{
  const double along = 30 / tan (deck * G_PI / 180) / G_SQRT2;
  g_autofree char *xyz = g_strdup_printf ("'x_in': %.6f, 'y_in': %.6f, 'z_in': 0", 230 + along, -26 - along);

  fleet_set (c, "trailers[0].deck.width_in", "400");    /* so that no edge bends it */
  hook_first_to (c, xyz);
}

static void
test_deck_angle (void)
{
  static const struct { double deck; FlVerdict verdict; double need; const char *words; } cases[] = {
    { 19.9, FL_CAUTION, 20, "flat" }, { 20.1, FL_MET, 0, NULL }, { 45, FL_MET, 0, NULL }, { 59.9, FL_MET, 0, NULL }, { 60.1, FL_CAUTION, 60, "steep" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr(Case) c = case_new ();
      const FlFinding *f;

      hook_at_angle (c, cases[i].deck);
      judge (c);
      f = found (c, "deck_angle", "tie-down 1");
      g_assert_true ((f != NULL) == (cases[i].verdict == FL_CAUTION));
      if (f == NULL)
        continue;
      expect (c, "deck_angle", "tie-down 1", FL_BY_PRACTICE, FL_CAUTION);
      expect_figures (f, FL_DEG (cases[i].need), FL_DEG (cases[i].deck));
      expect_words (f, cases[i].words);
    }
}

/* atan (5.25 / 50) is 5.994 degrees, atan (5.26 / 50) 6.005. */
static void
test_plan_angle (void)
{
  g_autoptr(Case) c = case_new ();

  hook_first_to (c, "'x_in': 280, 'y_in': -31.25, 'z_in': 0");
  judge (c);
  expect_figures (expect (c, "plan_angle", "tie-down 1", FL_BY_PRACTICE, FL_CAUTION), FL_DEG (6), FL_DEG (5.994));
  expect_whole (c, FL_COMPLIANT, FL_HOUSE_MET);
  hook_first_to (c, "'x_in': 280, 'y_in': -31.26, 'z_in': 0");
  judge (c);
  g_assert_null (found (c, "plan_angle", NULL));
}

/* 42.7 degrees to the deck, 47.5 in plan, 44.3 in. */
static void
test_pull_window (void)
{
  static const struct { const char *pull; gboolean inside; } cases[] = {
    { "{'deck_angle_deg': [30, 45]}", TRUE }, { "{'deck_angle_deg': [30, 42]}", FALSE }, { "{'deck_angle_deg': [43, 60]}", FALSE },
    { "{'plan_angle_deg': [0, 45]}", FALSE }, { "{'plan_angle_deg': [45, 90]}", TRUE },
    { "{'deck_angle_deg': [30, 45], 'plan_angle_deg': [30, 50]}", TRUE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr(Case) c = case_new ();

      fleet_set (c, "machines[0].tie_points[0].pull", cases[i].pull);
      judge (c);
      if (cases[i].inside)
        g_assert_null (found (c, "pull_window", NULL));
      else
        expect (c, "pull_window", "tie-down 1", FL_BY_PRACTICE, FL_CAUTION);
      expect_whole (c, FL_COMPLIANT, FL_HOUSE_MET);
    }
}

/* ── chains that touch ── */

/* RL and RR both across: they cross over the middle of the deck. */
static void
test_chains_apart (void)
{
  g_autoptr(Case) c = case_new ();
  const FlFinding *f;

  judge (c);
  g_assert_null (found (c, "chains_apart", NULL));
  plan_set (c, "tie_downs[0].anchors", "['P11L']");
  plan_set (c, "tie_downs[1].anchors", "['P11R']");
  judge (c);
  f = expect (c, "chains_apart", "tie-down 1", FL_BY_PRACTICE, FL_CAUTION);
  expect_figures (f, FL_IN (2), FL_IN (0));
  expect_words (f, "tie-down 2");
  g_assert_cmpuint (count_of (c, "chains_apart", FL_CAUTION), ==, 1);
  /* 2 in higher: (22, 76, -30) x (22, -76, -32) = (-4712, 44, -3344); (0, 52, 2) along it: 4400 / 5778.2 = 0.76 in. */
  fleet_set (c, "machines[0].tie_points[1].z_in", "32");
  judge (c);
  f = expect (c, "chains_apart", "tie-down 1", FL_BY_PRACTICE, FL_CAUTION);
  g_assert_cmpfloat_with_epsilon (f->have.value, 0.7615, 1e-4);
  fleet_set (c, "machines[0].tie_points[1].z_in", "36");        /* likewise 13200 / 6029.9 = 2.19 in */
  judge (c);
  g_assert_null (found (c, "chains_apart", NULL));
}

/* Two from one point meet there, of course. */
static void
test_meet_at_a_point (void)
{
  g_autoptr(Case) c = case_new ();

  fleet_set (c, "machines[0].tie_points[0].takes", "2");
  plan_set (c, "tie_downs[1].machine_point", "'RL'");
  judge (c);
  g_assert_null (found (c, "chains_apart", NULL));
}

/* ── points ── */

static void
test_axle (void)
{
  g_autoptr(Case) c = case_new ();
  const FlFinding *f;

  fleet_set (c, "machines[0].tie_points[0].maker_provided", "false");
  fleet_set (c, "machines[0].tie_points[0].fitting", "'axle'");
  judge (c);
  f = expect (c, "point_choice", "tie-down 1", FL_BY_PRACTICE, FL_CAUTION);
  expect_words (f, "axle");
  expect_words (f, "brake hose");
  expect (c, "near_ends", "R-03", FL_BY_LAW, FL_MET);           /* two in each outer third all the same */
  f = expect (c, "unmeasured", "R-03", FL_BY_PRACTICE, FL_CAUTION);
  expect_words (f, "RL");
  expect_whole (c, FL_COMPLIANT, FL_HOUSE_MET);
  fleet_set (c, "machines[0].tie_points[0].fitting", "'frame'");
  judge (c);
  expect_words (expect (c, "point_choice", "tie-down 1", FL_BY_PRACTICE, FL_CAUTION), "not one that the maker provides");
}

static void
test_point_caution (void)
{
  g_autoptr(Case) c = case_new ();

  fleet_set (c, "machines[0].tie_points[0].caution", "'keep off the grease line'");
  judge (c);
  expect_words (expect (c, "point_choice", "tie-down 1", FL_BY_PRACTICE, FL_NOTE), "keep off the grease line");
}

/* 393.130(c)(2): near front and rear, or the maker's points. */
static void
test_near_ends (void)
{
  g_autoptr(Case) c = case_new ();
  const FlFinding *f;

  fleet_set (c, "machines[0].tie_points[2].maker_provided", "false");
  fleet_set (c, "machines[0].tie_points[2].x_in", "155");       /* just behind the front third: 234 / 3 = 78 */
  judge (c);
  f = expect (c, "near_ends", "R-03", FL_BY_LAW, FL_CAUTION);
  expect_words (f, "near the rear: 1");                         /* it stands rearward: its front is the rear of the trailer */
  fleet_set (c, "machines[0].tie_points[2].x_in", "157");
  judge (c);
  expect (c, "near_ends", "R-03", FL_BY_LAW, FL_MET);
  fleet_set (c, "machines[0].weight_lb", "9000");
  fleet_set (c, "machines[0].tie_points[2].x_in", "155");
  judge (c);
  expect (c, "near_ends", "R-03", FL_BY_ADVICE, FL_CAUTION);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/judge/fit/hook-and-point", test_hook_and_point);
  g_test_add_func ("/judge/fit/hook-and-anchor", test_hook_and_anchor);
  g_test_add_func ("/judge/fit/unmeasured-openings", test_unmeasured_openings);
  g_test_add_func ("/judge/fit/binder-size", test_binder_size);
  g_test_add_func ("/judge/fit/chain-length", test_chain_length);
  g_test_add_func ("/judge/fit/binder-run", test_binder_run);
  g_test_add_func ("/judge/fit/in-the-way", test_in_the_way);
  g_test_add_func ("/judge/fit/hinge", test_hinge);
  g_test_add_func ("/judge/fit/not-down", test_not_down);
  g_test_add_func ("/judge/fit/deck-in-the-way", test_deck_in_the_way);
  g_test_add_func ("/judge/fit/no-place-yet", test_no_place_yet);
  g_test_add_func ("/judge/fit/takes", test_takes);
  g_test_add_func ("/judge/angles/deck", test_deck_angle);
  g_test_add_func ("/judge/angles/plan", test_plan_angle);
  g_test_add_func ("/judge/angles/pull-window", test_pull_window);
  g_test_add_func ("/judge/chains-apart/crossing", test_chains_apart);
  g_test_add_func ("/judge/chains-apart/one-point", test_meet_at_a_point);
  g_test_add_func ("/judge/points/axle", test_axle);
  g_test_add_func ("/judge/points/caution", test_point_caution);
  g_test_add_func ("/judge/points/near-ends", test_near_ends);
  return test_done (g_test_run ());
}
