/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What keeps the load where it is: 393.130(c)(1) all directions, 393.106(c)(1) rolling, 393.130(b)(1) implements, 393.130(b)(2)
 * articulation (all as quoted in public copies), the other locks. Small changes to the example, whose figures are worked out beside
 * each check. The example stands facing rearward, rear at 10 in: RL and RR at x 230, FL and FR at x 39. */
#include "fl-test-judge.h"

/* How many findings say that nothing holds it this way. */
static guint
not_held (const Case *c, const char *way)
{
  gsize n;
  guint count = 0;
  const FlFinding *findings = fl_assessment_findings (c->judged, &n);

  for (gsize i = 0; i < n; i++)
    {
      g_autofree char *text = text_of (&findings[i]);

      count += strcmp (findings[i].rule, "all_directions") == 0 && g_str_has_prefix (text, "Nothing holds") && strstr (text, way) != NULL;
    }
  return count;
}

static void
hook_to (Case *c, guint tie, const char *anchor)
{
  g_autofree char *path = g_strdup_printf ("tie_downs[%u].anchors", tie), *list = g_strdup_printf ("['%s']", anchor);

  plan_set (c, path, list);
}

/* All that holds forward is hooked ahead of its point instead: P3 stands at x 60. */
static void
let_go_forward (Case *c)
{
  hook_to (c, 2, "P3R");
  hook_to (c, 3, "P3L");
}

/* ── all directions ── */

static void
test_each_direction (void)
{
  static const struct { const char *way; const char *anchors[4]; } cases[] = {
    { "forward", { "P11R", "P11L", "P3R", "P3L" } },
    { "rearward", { "P9R", "P9L", "P1R", "P1L" } },     /* x 204, behind 230 */
    { "to the left", { "P11L", "P12L", "P1L", "P2L" } },
    { "to the right", { "P11R", "P12R", "P1R", "P3R" } },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr(Case) c = case_new ();
      const FlFinding *f;

      for (guint k = 0; k < 4; k++)
        hook_to (c, k, cases[i].anchors[k]);
      judge (c);
      f = expect (c, "all_directions", "R-03", FL_BY_LAW, FL_SHORT);
      expect_figures (f, FL_NOT_MEASURED, FL_GEES (0));
      expect_words (f, cases[i].way);
      for (guint k = 0; k < G_N_ELEMENTS (cases); k++)
        g_assert_cmpuint (not_held (c, cases[k].way), ==, k == i ? 1 : 0);
      expect_whole (c, FL_NOT_COMPLIANT, FL_HOUSE_MET);
    }
}

/* Anchors over the points: no chain pulls down, so none is a tie-down that holds. */
static void
test_upward (void)
{
  g_autoptr(Case) c = case_new ();

  fleet_set (c, "trailers[0].anchor_rows[0].z_in", "40");
  judge (c);
  g_assert_cmpuint (count_of (c, "all_directions", FL_SHORT), ==, 5);
  g_assert_cmpuint (not_held (c, "upward"), ==, 1);
  g_assert_cmpuint (count_of (c, "fit", FL_SHORT), >=, 5);
}

/* Without a center of gravity the load cannot be judged as a body, and the component sums stand for the upper bound. */
static Case *
case_without_cg (void)
{
  Case *c = case_new ();

  fleet_drop (c, "machines[0].center_of_gravity");
  return c;
}

/* Rearward least: two chains of 6,600 lb at 22 / 44.27 hold 6,559.8 lb; a tenth of g of 65,598 lb. */
static void
test_floor (void)
{
  const double least = 2 * 6600 * 22 / hypot (hypot (22, 24), 30);
  g_autoptr(Case) c = case_without_cg ();
  g_autofree char *just = g_strdup_printf ("%d", (int) floor (least / 0.1)), *over = g_strdup_printf ("%d", (int) ceil (least / 0.1) + 1);
  const FlFinding *f;

  fleet_set (c, "machines[0].weight_lb", just);
  judge (c);
  f = expect (c, "all_directions", "R-03", FL_BY_LAW, FL_MET);
  expect_words (f, "least rearward");
  fleet_set (c, "machines[0].weight_lb", over);
  judge (c);
  f = expect (c, "all_directions", "R-03", FL_BY_LAW, FL_CAUTION);
  expect_figures (f, FL_GEES (0.1), FL_GEES (0.1));
  fleet_set (c, "machines[0].weight_lb", "100000");
  judge (c);
  f = expect (c, "all_directions", "R-03", FL_BY_LAW, FL_CAUTION);
  g_assert_cmpfloat_with_epsilon (f->have.value, least / 100000, 1e-6);
}

/* Blocking counts forward while the load stands against it (half a foot of timber), by its rating. */
static void
test_blocked (void)
{
  g_autoptr(Case) c = case_without_cg ();
  const FlFinding *f;

  let_go_forward (c);
  plan_set (c, "loads[0].blocked_forward", "true");
  judge (c);
  g_assert_cmpuint (not_held (c, "forward"), ==, 1);       /* nothing there that could block it */
  fleet_set (c, "trailers[0].deck.front_stop", "{'x_in': 250, 'rated_lb': 5000}");  /* its front stands at 244 */
  judge (c);
  g_assert_cmpuint (not_held (c, "forward"), ==, 0);
  f = expect (c, "all_directions", "R-03", FL_BY_LAW, FL_MET);
  expect_words (f, "forward");
  g_assert_cmpfloat_with_epsilon (f->have.value, 5000.0 / 22000, 1e-9);
  fleet_set (c, "trailers[0].deck.front_stop", "{'x_in': 251, 'rated_lb': 5000}");
  judge (c);
  g_assert_cmpuint (not_held (c, "forward"), ==, 1);
  fleet_set (c, "trailers[0].deck.front_stop", "{'x_in': 244}");
  judge (c);
  f = expect (c, "all_directions", "R-03", FL_BY_LAW, FL_CAUTION);   /* held by something that nobody rated */
  expect_figures (f, FL_GEES (0.1), FL_GEES (0));
  plan_drop (c, "loads[0].blocked_forward");
  judge (c);
  g_assert_cmpuint (not_held (c, "forward"), ==, 1);
}

static void
test_blocking_zone (void)
{
  g_autoptr(Case) c = case_without_cg ();
  const FlFinding *f;

  let_go_forward (c);
  plan_set (c, "loads[0].blocked_forward", "true");
  fleet_set (c, "trailers[0].deck.zones[1]", "{'id': 'main', 'x0_in': 0, 'x1_in': 246, 'z_in': 0}");
  fleet_set (c, "trailers[0].deck.zones[2]", "{'id': 'neck', 'x0_in': 246, 'x1_in': 288, 'z_in': 0, 'blocks_forward': true, 'block_rated_lb': 4400}");
  judge (c);
  f = expect (c, "all_directions", "R-03", FL_BY_LAW, FL_MET);
  g_assert_cmpfloat_with_epsilon (f->have.value, 0.2, 1e-9);
}

/* What may not be used, does not seat or holds the blade does not hold the machine. */
static void
test_what_does_not_hold (void)
{
  static const char *const bent = "[{'date': '2026-11-20', 'findings': [{'kind': 'bent'}]}]";
  g_autoptr(Case) out = case_new ();
  g_autoptr(Case) hook = case_new ();
  g_autoptr(Case) blade = case_new ();

  fleet_set (out, "chains[2].inspections", bent);
  fleet_set (out, "chains[3].inspections", bent);
  judge (out);
  g_assert_cmpuint (not_held (out, "forward"), ==, 1);
  fleet_set (hook, "machines[0].tie_points[2].opening_in", "2");
  fleet_set (hook, "machines[0].tie_points[3].opening_in", "2");
  judge (hook);
  g_assert_cmpuint (not_held (hook, "forward"), ==, 1);
  plan_set (blade, "tie_downs[2].purpose", "'implement:BLD'");
  plan_set (blade, "tie_downs[3].purpose", "'implement:BLD'");
  judge (blade);
  g_assert_cmpuint (not_held (blade, "forward"), ==, 1);
}

/* ── a light load: advice ── */

static void
test_light_directions (void)
{
  g_autoptr(Case) c = case_new ();
  const FlFinding *f;

  fleet_set (c, "machines[0].weight_lb", "9999");
  hook_to (c, 0, "P11L");       /* all to the left; the drum is chocked */
  hook_to (c, 1, "P12L");
  hook_to (c, 2, "P1L");
  hook_to (c, 3, "P2L");
  judge (c);
  f = expect (c, "all_directions", "R-03", FL_BY_ADVICE, FL_CAUTION);
  expect_words (f, "to the left: better add");
  g_assert_cmpuint (count_of (c, "all_directions", FL_SHORT), ==, 0);
  expect_whole (c, FL_COMPLIANT, FL_HOUSE_MET);
  fleet_set (c, "machines[0].weight_lb", "10000");      /* 10,000 lb or more is heavy */
  judge (c);
  expect (c, "all_directions", "R-03", FL_BY_LAW, FL_SHORT);
}

/* ── rolling ── */

static void
test_rolling (void)
{
  g_autoptr(Case) c = case_new ();

  let_go_forward (c);
  judge (c);
  expect (c, "rolling", "R-03", FL_BY_LAW, FL_SHORT);
  plan_set (c, "loads[0].chocked", "true");
  judge (c);
  expect_words (expect (c, "rolling", "R-03", FL_BY_LAW, FL_MET), "chocked");
  plan_set (c, "loads[0].chocked", "false");
  fleet_set (c, "machines[0].weight_lb", "9000");       /* the law asks it of light ones too */
  judge (c);
  expect (c, "rolling", "R-03", FL_BY_LAW, FL_SHORT);
  expect_whole (c, FL_NOT_COMPLIANT, FL_HOUSE_MET);
}

static void
test_what_rolls (void)
{
  g_autoptr(Case) c = case_new ();

  fleet_set (c, "machines[0].contacts", "[{'x_in': 100, 'y_in': 0, 'length_in': 90, 'width_in': 80, 'running_gear': 'steel_tracks'}]");
  judge (c);
  g_assert_null (found (c, "rolling", NULL));
  fleet_set (c, "machines[0].contacts[0].running_gear", "'rubber_tires'");
  judge (c);
  expect (c, "rolling", "R-03", FL_BY_LAW, FL_MET);
  fleet_drop (c, "machines[0].contacts");               /* nobody said what it runs on */
  let_go_forward (c);
  judge (c);
  expect (c, "rolling", "R-03", FL_BY_LAW, FL_SHORT);
  fleet_set (c, "machines[0].running_gear", "'rubber_tracks'");
  judge (c);
  g_assert_null (found (c, "rolling", NULL));
}

/* ── implements ── */

static void
test_implement (void)
{
  g_autoptr(Case) c = case_new ();
  const FlFinding *f;

  judge (c);
  f = expect (c, "implements", "R-03", FL_BY_LAW, FL_MET);
  expect_figures (f, FL_COUNT (1), FL_COUNT (1));
  expect_words (f, "a tie-down of its own holds it");
  fleet_set (c, "machines[0].implements[0].min_tie_downs", "2");
  judge (c);
  f = expect (c, "implements", "R-03", FL_BY_LAW, FL_SHORT);
  expect_figures (f, FL_COUNT (2), FL_COUNT (1));
  expect_words (f, "leveling blade");
  fleet_set (c, "machines[0].implements[0].min_tie_downs", "1");
  plan_drop (c, "tie_downs[4]");
  judge (c);
  f = expect (c, "implements", "R-03", FL_BY_LAW, FL_SHORT);
  expect_figures (f, FL_COUNT (1), FL_COUNT (0));
  expect_words (f, "by a tie-down of its own; it has none");
  expect_whole (c, FL_NOT_COMPLIANT, FL_HOUSE_MET);
}

/* Its own tie-down takes one of its points, may be used, and pulls down. */
static void
test_implements_own (void)
{
  g_autoptr(Case) point = case_new ();
  g_autoptr(Case) out = case_new ();
  g_autoptr(Case) up = case_new ();

  plan_set (point, "tie_downs[4].machine_point", "'FL'");
  judge (point);
  expect (point, "implements", "R-03", FL_BY_LAW, FL_SHORT);
  fleet_set (out, "binders[4].inspections", "[{'date': '2026-11-20', 'findings': [{'kind': 'hook_spread'}]}]");
  judge (out);
  expect (out, "implements", "R-03", FL_BY_LAW, FL_SHORT);
  fleet_set (up, "machines[0].tie_points[4].z_in", "0");
  judge (up);
  expect (up, "implements", "R-03", FL_BY_LAW, FL_SHORT);
}

static void
test_implement_over (void)
{
  g_autoptr(Case) c = case_new ();

  fleet_set (c, "machines[0].implements[0].over_paths",
             "[{'id': 'OV', 'points': [{'x_in': 208, 'y_in': 30, 'z_in': 12}, {'x_in': 208, 'y_in': -30, 'z_in': 12}]}]");
  plan_drop (c, "tie_downs[4]");
  plan_set (c, "tie_downs[4]", "{'no': 5, 'load': 0, 'purpose': 'implement:BLD', 'kind': 'over', 'anchors': ['P2L', 'P2R'], "
                               "'through': ['OV'], 'chain': 'C-045', 'binder': 'B-15'}");
  judge (c);
  expect (c, "implements", "R-03", FL_BY_LAW, FL_MET);
  g_assert_cmpuint (count_of (c, "over_body", FL_CAUTION), ==, 0);      /* that is said of the machine's own */
}

static void
test_cannot_lower (void)
{
  g_autoptr(Case) c = case_new ();
  const FlFinding *f;

  fleet_set (c, "machines[0].implements[0].can_lower", "false");
  judge (c);
  f = expect (c, "implements", "R-03", FL_BY_PRACTICE, FL_CAUTION);
  expect_words (f, "cannot be lowered");
  g_assert_cmpuint (count_of (c, "implements", FL_MET), ==, 1);
  expect_whole (c, FL_COMPLIANT, FL_HOUSE_MET);
}

/* 393.130 is for 10,000 lb and more: under it an implement that is not held is advice, and a caution. */
static void
test_light_implement (void)
{
  g_autoptr(Case) c = case_new ();
  const FlFinding *f;

  fleet_set (c, "machines[0].weight_lb", "9999");
  plan_drop (c, "tie_downs[4]");
  judge (c);
  f = expect (c, "implements", "R-03", FL_BY_ADVICE, FL_CAUTION);
  expect_figures (f, FL_COUNT (1), FL_COUNT (0));
  expect_words (f, "better lowered");
  expect_whole (c, FL_COMPLIANT, FL_HOUSE_MET);
}

/* ── articulation ── */

/* Four more: unmarked chain with binders of their own, two more on each end. RL to P12R (x 276), FL to P3R (x 60). */
static void
tie_twice (Case *c)
{
  static const char *const ends[][2] = { { "RL", "P12R" }, { "RR", "P12L" }, { "FL", "P3R" }, { "FR", "P3L" } };

  fleet_set (c, "binders[5]", "{'id': 'B-20', 'kept_at': 'T-3', 'kind': 'lever', 'wll_lb': 5400, 'chain_sizes': ['3/8'], 'take_up_in': 4.5, "
                              "'needs_run_in': 24, 'count': 6, 'inspections': []}");
  for (guint i = 0; i < 4; i++)
    {
      g_autofree char *path = g_strdup_printf ("tie_downs[%u]", 5 + i), *takes = g_strdup_printf ("machines[0].tie_points[%u].takes", i);
      g_autofree char *tie = g_strdup_printf ("{'no': %u, 'load': 0, 'purpose': 'machine', 'kind': 'direct', 'machine_point': '%s', 'anchors': ['%s'], "
                                              "'chain': 'C-3/8-20 #%u', 'binder': 'B-20 #%u'}", 6 + i, ends[i][0], ends[i][1], 1 + i, 1 + i);

      fleet_set (c, takes, "2");
      plan_set (c, path, tie);
    }
  fleet_set (c, "house_rules", "[]");   /* 2,650 lb each: the house of the example asks for 5,000 */
}

static void
test_lock (void)
{
  g_autoptr(Case) c = case_new ();
  const FlFinding *f;

  judge (c);
  expect_words (expect (c, "articulation", "R-03", FL_BY_LAW, FL_MET), "articulation lock bar and pin");
  fleet_drop (c, "machines[0].locks[0].fitted");
  judge (c);
  expect (c, "articulation", "R-03", FL_BY_LAW, FL_UNKNOWN);
  expect_whole (c, FL_INCOMPLETE, FL_HOUSE_MET);
  fleet_set (c, "machines[0].locks[0].fitted", "false");
  judge (c);
  f = expect (c, "articulation", "R-03", FL_BY_PRACTICE, FL_SHORT);
  expect_figures (f, FL_COUNT (8), FL_COUNT (4));
  fleet_drop (c, "machines[0].locks[0].fitted");
  fleet_set (c, "machines[0].locks[0].on_machine", "false");
  judge (c);
  expect (c, "articulation", "R-03", FL_BY_PRACTICE, FL_SHORT);
  fleet_drop (c, "machines[0].locks");
  judge (c);
  expect (c, "articulation", "R-03", FL_BY_PRACTICE, FL_SHORT);
  expect_whole (c, FL_NOT_COMPLIANT, FL_HOUSE_MET);
  fleet_drop (c, "machines[0].articulation");
  judge (c);
  g_assert_null (found (c, "articulation", NULL));
}

/* Common practice, no source: without its lock four in front and four behind. */
static void
test_without_lock (void)
{
  g_autoptr(Case) c = case_new ();
  const FlFinding *f;

  fleet_drop (c, "machines[0].locks");
  tie_twice (c);
  judge (c);
  f = expect (c, "articulation", "R-03", FL_BY_PRACTICE, FL_CAUTION);
  expect_figures (f, FL_COUNT (8), FL_COUNT (8));
  expect_words (f, "in front 4, in the rear 4");
  expect_whole (c, FL_COMPLIANT, FL_HOUSE_MET);
  plan_drop (c, "tie_downs[8]");
  judge (c);
  f = expect (c, "articulation", "R-03", FL_BY_PRACTICE, FL_SHORT);
  expect_figures (f, FL_COUNT (8), FL_COUNT (7));
  expect_whole (c, FL_NOT_COMPLIANT, FL_HOUSE_MET);
}

/* Eight, but the front section is pulled to one side only. */
static void
test_one_sided_section (void)
{
  g_autoptr(Case) c = case_new ();
  const FlFinding *f;

  fleet_drop (c, "machines[0].locks");
  tie_twice (c);
  hook_to (c, 2, "P1L");
  hook_to (c, 3, "P5L");
  hook_to (c, 7, "P3L");
  hook_to (c, 8, "P4L");
  judge (c);
  f = expect (c, "articulation", "R-03", FL_BY_PRACTICE, FL_SHORT);
  expect_figures (f, FL_COUNT (8), FL_COUNT (8));
}

static void
test_light_without_lock (void)
{
  g_autoptr(Case) c = case_new ();

  fleet_set (c, "machines[0].weight_lb", "9999");
  fleet_drop (c, "machines[0].locks");
  judge (c);
  expect (c, "articulation", "R-03", FL_BY_ADVICE, FL_CAUTION);
  expect_whole (c, FL_COMPLIANT, FL_HOUSE_MET);
}

static void
test_joint_free (void)
{
  static const struct { const char *lock; gboolean free_; } cases[] = {
    { "{'id': 'A', 'kind': 'articulation', 'on_machine': true, 'fitted': true}", FALSE },
    { "{'id': 'A', 'kind': 'articulation', 'fitted': true}", FALSE },
    { "{'id': 'A', 'kind': 'articulation'}", FALSE },   /* not looked at: unknown, not free */
    { "{'id': 'A', 'kind': 'articulation', 'fitted': false}", TRUE },
    { "{'id': 'A', 'kind': 'articulation', 'on_machine': false}", TRUE },
    { "{'id': 'A', 'kind': 'oscillation', 'fitted': true}", TRUE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *json = g_strdup_printf ("{'id': 'M', 'kind': 'loader', 'weight_lb': 20000, 'length_in': 200, 'width_in': 90, 'height_in': 100, "
                                               "'articulation': {'x_in': 90}, 'locks': [%s]}", cases[i].lock);

      g_assert_true (fl_machine_joint_free (fl_record_machine (test_record (FL_KIND_MACHINE, json))) == cases[i].free_);
    }
}

/* ── other locks ── */

static void
test_other_locks (void)
{
  static const struct { const char *lock; FlVerdict verdict; const char *words; } cases[] = {
    { "{'id': 'SW', 'name': 'swing lock pin', 'kind': 'swing', 'on_machine': true, 'fitted': true}", FL_MET, "Engage the swing lock pin" },
    { "{'id': 'SW', 'name': 'swing lock pin', 'kind': 'swing', 'on_machine': true, 'fitted': false}", FL_CAUTION, "missing or not fitted" },
    { "{'id': 'SW', 'name': 'swing lock pin', 'kind': 'swing', 'on_machine': false}", FL_CAUTION, "missing or not fitted" },
    { "{'id': 'SW', 'kind': 'swing', 'on_machine': true}", FL_CAUTION, "whether the SW is there" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr(Case) c = case_new ();

      fleet_set (c, "machines[0].locks[1]", cases[i].lock);
      judge (c);
      expect_words (expect (c, "locks", "R-03", FL_BY_PRACTICE, cases[i].verdict), cases[i].words);
      expect (c, "articulation", "R-03", FL_BY_LAW, FL_MET);
      expect_whole (c, FL_COMPLIANT, FL_HOUSE_MET);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/judge/directions/each", test_each_direction);
  g_test_add_func ("/judge/directions/upward", test_upward);
  g_test_add_func ("/judge/directions/floor", test_floor);
  g_test_add_func ("/judge/directions/blocked", test_blocked);
  g_test_add_func ("/judge/directions/blocking-zone", test_blocking_zone);
  g_test_add_func ("/judge/directions/what-does-not-hold", test_what_does_not_hold);
  g_test_add_func ("/judge/directions/light", test_light_directions);
  g_test_add_func ("/judge/rolling/held", test_rolling);
  g_test_add_func ("/judge/rolling/what-rolls", test_what_rolls);
  g_test_add_func ("/judge/implements/count", test_implement);
  g_test_add_func ("/judge/implements/own", test_implements_own);
  g_test_add_func ("/judge/implements/over", test_implement_over);
  g_test_add_func ("/judge/implements/cannot-lower", test_cannot_lower);
  g_test_add_func ("/judge/implements/light", test_light_implement);
  g_test_add_func ("/judge/articulation/lock", test_lock);
  g_test_add_func ("/judge/articulation/without", test_without_lock);
  g_test_add_func ("/judge/articulation/one-sided", test_one_sided_section);
  g_test_add_func ("/judge/articulation/light", test_light_without_lock);
  g_test_add_func ("/judge/articulation/joint-free", test_joint_free);
  g_test_add_func ("/judge/locks", test_other_locks);
  return test_done (g_test_run ());
}
