/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The force check of 393.102 and how far a load is held down, as findings and as results. The accelerations are the rule's (393.102(a)(1), (a)(2));
 * what the example's tie-downs hold is worked out by hand beside each check. The solvers have their own tests against GLPK and scipy. The
 * example stands facing rearward, rear at 10 in, so that its center of gravity lies at x 117, z 42; RL and RR (x 230, y -+26, z 30)
 * pull 22 in forward, 24 across, 30 down; FL and FR (x 39, y -+28, z 28) 27 rearward, 22 across, 28 down; 6,600 lb each. */
#include "fl-test-judge.h"

static const double rear_run = 44.271887, front_run = 44.687805;      /* square roots of 22^2 + 24^2 + 30^2, 27^2 + 22^2 + 28^2 */

static const FlForceResult *
result_of (const Case *c, const char *way, const char *level, const char *friction, const char *method)
{
  const FlAssessmentParts *parts = fl_assessment_parts (c->judged);

  for (gsize i = 0; i < parts->n_forces; i++)
    {
      const FlForceResult *r = &parts->forces[i];

      if (strcmp (r->case_id, way) == 0 && strcmp (r->level, level) == 0 && strcmp (r->friction, friction) == 0 && strcmp (r->method, method) == 0)
        return r;
    }
  return NULL;
}

static double
capacity (const Case *c, const char *way, const char *level, const char *friction, const char *method)
{
  const FlForceResult *r = result_of (c, way, level, friction, method);

  g_assert_nonnull (r);
  return fl_quantity_in (r->capacity, FL_UNIT_G);
}

static const FlTensionResult *
tension_of (const Case *c, const char *way, const char *level, const char *friction, guint no)
{
  const FlAssessmentParts *parts = fl_assessment_parts (c->judged);

  for (gsize i = 0; i < parts->n_tensions; i++)
    {
      const FlTensionResult *t = &parts->tensions[i];

      if (t->no == no && strcmp (t->case_id, way) == 0 && strcmp (t->level, level) == 0 && strcmp (t->friction, friction) == 0)
        return t;
    }
  return NULL;
}

/* Forward and rearward without friction the two chains that hold stand at their limit, the others are slack: 2 x 6,600 lb x cosine / 22,000 lb. The
 * chains of each side are mirror images, so nothing turns, and the contacts (drum at x 64, tires at 179) carry the rest of the moments. */
static void
test_bound_lengthwise (void)
{
  g_autoptr(Case) c = case_new ();
  const FlForceResult *r;

  judge (c);
  g_assert_cmpfloat_with_epsilon (capacity (c, "forward", "working", "none", "upper_bound"), 2 * 6600 * 27 / front_run / 22000, 1e-5);
  g_assert_cmpfloat_with_epsilon (capacity (c, "rearward", "working", "none", "upper_bound"), 2 * 6600 * 22 / rear_run / 22000, 1e-5);
  r = result_of (c, "forward", "working", "none", "upper_bound");
  g_assert_cmpstr (r->mode, ==, "slides");
  g_assert_cmpuint (r->n_at_limit, ==, 2);
  g_assert_cmpuint (r->at_limit[0] + r->at_limit[1], ==, 3 + 4);
  g_assert_cmpfloat (fl_quantity_in (r->demand, FL_UNIT_G), ==, 0.435);
}

/* Breaking values by the chart of NACM, 2003: grade 70 breaks at 4 times its limit; a binder by makers' tables at 2.1 times (least read). The
 * chain has 26,400 lb, its hooks the chain's, the binder 13,860 lb: that governs. */
static void
test_breaking_level (void)
{
  g_autoptr(Case) c = case_new ();

  judge (c);
  g_assert_cmpfloat_with_epsilon (capacity (c, "forward", "breaking", "none", "upper_bound"), 2.1 * 2 * 6600 * 27 / front_run / 22000, 1e-5);
  g_assert_cmpfloat (fl_quantity_in (result_of (c, "forward", "breaking", "none", "upper_bound")->demand, FL_UNIT_G), ==, 0.8);
  g_assert_null (result_of (c, "forward", "breaking", "none", "component_sum"));
}

/* Sideways the chains turn it as well as hold it: balance of the horizontal forces and of the turning moment about the center of gravity leaves less than
 * their sum. Against moving left 1 and 3 pull to the right, 24/44.27 and 22/44.69 of their tension. Along: 22/44.27 (T1 + T2) = 27/44.69 (T3 + T4).
 * Turning, arms from (117, 0), with right and rearward counted: T1 pulls at (113, -26), T3 at (-78, -28). 3 at its limit, 2 and 4 as they
 * must: scipy.optimize.linprog (HiGHS) over the four tensions, the pushes of drum ends and tires and the acceleration gives 0.219968 g. */
static void
test_bound_sideways (void)
{
  g_autoptr(Case) c = case_new ();
  double left, right;

  judge (c);
  left = capacity (c, "left", "working", "none", "upper_bound");
  right = capacity (c, "right", "working", "none", "upper_bound");
  g_assert_cmpfloat_with_epsilon (left, right, 1e-6);
  g_assert_cmpfloat (left, <, 6600 * (24 / rear_run + 22 / front_run) / 22000);
  g_assert_cmpfloat_with_epsilon (left, 0.219968, 2e-6);
}

/* Forward the two chains that hold are alike: each carries half of what is left of 0.435 g, for nothing else holds without friction:
 * 0.435 x 22,000 / 2 / (27 / 44.69) = 7,920 lb, 120 percent of 6,600 lb; the limit is reached where the upper bound is. */
static void
test_shared_alike (void)
{
  g_autoptr(Case) c = case_new ();

  judge (c);
  for (guint no = 3; no <= 4; no++)
    {
      const FlTensionResult *t = tension_of (c, "forward", "working", "none", no);

      g_assert_nonnull (t);
      g_assert_cmpfloat_with_epsilon (fl_quantity_in (t->tension, FL_UNIT_LB), 0.435 * 22000 / 2 * front_run / 27, 2.0);
      g_assert_cmpfloat_with_epsilon (t->use, 0.435 * 22000 / 2 * front_run / 27 / 6600, 1e-3);
    }
  g_assert_cmpfloat_with_epsilon (capacity (c, "forward", "working", "none", "load_sharing"), 2 * 6600 * 27 / front_run / 22000, 1e-4);
}

/* A strap beside a chain: it stretches so much more that the chain takes nearly all (EN 12195 chain and web, 12 to 20 times as soft). The sum of the two
 * is what it was. Friction keeps it from turning round the chain. */
static void
test_chain_beside_strap (void)
{
  g_autoptr(Case) c = case_new ();

  fleet_set (c, "straps", "[{'id': 'S-1', 'kept_at': 'T-3', 'width_in': 4, 'tag_wll_lb': 6600, 'tag_legible': true, 'length_ft': 27,"
                          " 'tensioner': 'ratchet', 'ends': [{'hook': 'slip', 'needs_in': 1}, {'hook': 'slip', 'needs_in': 1}], 'inspections': []}]");
  plan_drop (c, "tie_downs[3].chain");
  plan_drop (c, "tie_downs[3].binder");
  plan_set (c, "tie_downs[3].strap", "'S-1'");
  judge (c);
  g_assert_cmpfloat_with_epsilon (capacity (c, "forward", "working", "none", "component_sum"), 2 * 6600 * 27 / front_run / 22000, 1e-6);
  expect (c, "mixed_gear", NULL, FL_BY_PRACTICE, FL_CAUTION);
  g_assert_cmpfloat (tension_of (c, "forward", "working", "wet", 3)->use, >, 2 * tension_of (c, "forward", "working", "wet", 4)->use);
  g_assert_cmpfloat (capacity (c, "forward", "working", "wet", "load_sharing"), <, capacity (c, "forward", "working", "wet", "upper_bound"));
}

/* ── what is said ── */

static void
test_sure_short (void)
{
  g_autoptr(Case) c = case_new ();
  const FlFinding *f;

  fleet_set (c, "moves[0].deck_state", "'frost'");
  fleet_set (c, "machines[0].weight_lb", "26000");
  judge (c);
  f = expect (c, "force", "R-03", FL_BY_ADVICE, FL_CAUTION);
  expect_words (f, "all tie-downs together hold");
  expect_words (f, "frosty");
  g_assert_cmpuint (count_of (c, "force", FL_CAUTION) + count_of (c, "force", FL_MET), ==, 4);
  expect_whole (c, FL_COMPLIANT, FL_HOUSE_MET);      /* advice: it does not keep a plan from standing */
}

static void
test_not_judged (void)
{
  static const struct { const char *drop, *set, *json, *says; FlVerdict verdict; } cases[] = {
    { "machines[0].center_of_gravity", NULL, NULL, "center of gravity is not on record", FL_UNKNOWN },
    { "machines[0].contacts", NULL, NULL, "what it stands on is not on record", FL_UNKNOWN },
    { NULL, "machines[0].center_of_gravity", "{'x_in': 20, 'y_in': 0, 'z_in': 42}", "outside its wheels", FL_CAUTION },
    { NULL, "machines[0].center_of_gravity", "{'x_in': 127, 'y_in': 50, 'z_in': 42}", "outside its wheels", FL_CAUTION },
    { NULL, "machines[0].locks", "[]", "its joint is free", FL_UNKNOWN },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr(Case) c = case_new ();
      const FlAssessmentParts *parts;

      if (cases[i].drop != NULL)
        fleet_drop (c, cases[i].drop);
      else
        fleet_set (c, cases[i].set, cases[i].json);
      judge (c);
      expect_words (expect (c, "force", "R-03", FL_BY_ADVICE, cases[i].verdict), cases[i].says);
      parts = fl_assessment_parts (c->judged);
      g_assert_cmpuint (parts->n_tensions, ==, 0);
      for (gsize k = 0; k < parts->n_forces; k++)
        g_assert_cmpstr (parts->forces[k].method, ==, "component_sum");
    }
}

/* The move that says nothing of its deck is taken as wet, and that is said. */
static void
test_state_not_given (void)
{
  g_autoptr(Case) c = case_new ();

  if (tree_at (c->fleet_json, "moves[0].deck_state") != NULL)
    fleet_drop (c, "moves[0].deck_state");
  judge (c);
  g_assert_nonnull (result_of (c, "forward", "working", "wet", "upper_bound"));
  expect_words (found (c, "force", "R-03"), "taken as wet");
}

/* ── held down ── */

/* 2 x 6,600 x (30 / 44.27 + 28 / 44.69) = 17,216 lb; a fifth of 86,078 lb. 393.102(b). */
static void
test_held_down (void)
{
  const double have = 2 * 6600 * (30 / rear_run + 28 / front_run);
  g_autoptr(Case) c = case_new ();
  g_autofree char *over = g_strdup_printf ("%d", (int) ceil (have / 0.2) + 1);

  judge (c);
  expect_figures (expect (c, "held_down", "R-03", FL_BY_ADVICE, FL_MET), FL_LB (4400), FL_LB (have));
  fleet_set (c, "machines[0].weight_lb", over);
  judge (c);
  expect (c, "held_down", "R-03", FL_BY_ADVICE, FL_CAUTION);
}

/* Every number in the results is a number. */
static void
test_never_nan (void)
{
  static const char *const odd[][2] = {
    { "machines[0].center_of_gravity", "{'x_in': 127, 'y_in': 0, 'z_in': 4000}" },
    { "machines[0].weight_lb", "0.001" },
    { "machines[0].contacts", "[{'x_in': 127, 'y_in': 0, 'length_in': 1, 'width_in': 1, 'running_gear': 'rubber_tires'}]" },
    { "machines[0].contacts", "[{'x_in': 127, 'y_in': 0, 'length_in': 90, 'width_in': 20, 'running_gear': 'steel_tracks'},"
                               " {'x_in': 127, 'y_in': 0, 'length_in': 90, 'width_in': 20, 'running_gear': 'steel_tracks'}]" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (odd); i++)
    {
      g_autoptr(Case) c = case_new ();
      g_autofree char *text = NULL;

      fleet_set (c, odd[i][0], odd[i][1]);
      c->quiet = TRUE;
      if (!case_read (c))       /* refused with its path: as good */
        continue;
      judge (c);
      text = result_text (c->judged);
      g_assert_null (strcasestr (text, "nan"));
      g_assert_null (strcasestr (text, ": inf"));
      g_assert_nonnull (found (c, "force", NULL));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/force/bound/lengthwise", test_bound_lengthwise);
  g_test_add_func ("/force/bound/sideways", test_bound_sideways);
  g_test_add_func ("/force/bound/breaking-level", test_breaking_level);
  g_test_add_func ("/force/sharing/alike", test_shared_alike);
  g_test_add_func ("/force/sharing/chain-beside-strap", test_chain_beside_strap);
  g_test_add_func ("/force/says/sure-short", test_sure_short);
  g_test_add_func ("/force/says/not-judged", test_not_judged);
  g_test_add_func ("/force/says/state-not-given", test_state_not_given);
  g_test_add_func ("/force/held-down", test_held_down);
  g_test_add_func ("/force/never-nan", test_never_nan);
  return g_test_run ();
}
