/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The order of plans and the arithmetic of the score, worked out by hand on the example. */
#include "fl-test-plan.h"

/* ── order ── */

/* Each member decides before all that follow it. */
static void
test_order (void)
{
  static const FlScore base = { 5, 5, 5, 5, 5, 5, 5 };

  for (guint i = 0; i < 7; i++)
    {
      FlScore less = base;
      gint64 *wide[] = { &less.strength_lb, &less.angle_mdeg2, &less.coupling_off_lb };
      gint32 *narrow[] = { &less.cautions, &less.pairs, &less.tie_downs, &less.unmirrored };

      for (guint k = i + 1; k < 7; k++)         /* all that follow are worse */
        if (k < 4)
          *narrow[k] = 9;
        else
          *wide[k - 4] = G_MAXINT64;
      if (i < 4)
        *narrow[i] = 4;
      else
        *wide[i - 4] = 4;
      g_assert_cmpint (fl_score_compare (&less, &base), <, 0);
      g_assert_cmpint (fl_score_compare (&base, &less), >, 0);
      g_assert_cmpint (fl_score_compare (&less, &less), ==, 0);
    }
}

/* ── the example ── */

static FlScore
score_of (Case *c)
{
  judge (c);
  return fl_score_of (c->judged, c->book);
}

static gint64
thousandths (double off)
{
  gint64 m = (gint64) llround (off * 1000);

  return m * m;
}

/* Off the 30 to 45 degrees to the deck, and off 45 in plan, of a run by its three sides in inches. */
static gint64
angle_by_hand (double dx, double dy, double dz)
{
  double deck = atan2 (dz, hypot (dx, dy)) * 180 / G_PI, plan = atan2 (dy, dx) * 180 / G_PI;

  return thousandths (MAX (0, MAX (30 - deck, deck - 45))) + thousandths (plan - 45);
}

/* One kind of caution: set down 6 in and 2 in off, the blade's run is shorter than its binder needs. Two on each side; five in all; each of the
 * four has its mirror image; 4 * (6,600 + 6,600) + 6,600 + 5,400 lb; the coupling carries 1500 + 22000 * 31.5 / 280.5 of the 11.5 percent of
 * 32,200 in the middle of its band. */
static void
test_example (void)
{
  g_autoptr(Case) c = case_new ();
  FlScore s = score_of (c);

  g_assert_cmpint (s.cautions, ==, 1);
  g_assert_cmpint (s.pairs, ==, 4);
  g_assert_cmpint (s.tie_downs, ==, 5);
  g_assert_cmpint (s.unmirrored, ==, 0);
  g_assert_cmpint (s.strength_lb, ==, 64800);
  g_assert_cmpint (s.angle_mdeg2, ==, 2 * angle_by_hand (22, 24, 30) + 2 * angle_by_hand (27, 22, 28) + angle_by_hand (18, 20, 10));
  g_assert_cmpint (s.coupling_off_lb, ==, llround (fabs (1500 + 22000 * 31.5 / 280.5 - 0.115 * 32200)));
}

/* One more on the left: pairs go by the fuller side. Its anchor has no mirror partner, nor has the other half of a broken pair. */
static void
test_sides (void)
{
  g_autoptr(Case) c = case_new ();
  FlScore s;

  plan_set (c, "tie_downs[0].anchors", "['P12R']");     /* 24 in off its partner's image */
  s = score_of (c);
  g_assert_cmpint (s.pairs, ==, 4);
  g_assert_cmpint (s.unmirrored, ==, 2);
  plan_set (c, "tie_downs[1].anchors", "['P12R']");
  fleet_set (c, "trailers[0].anchor_rows[0].takes", "2");
  s = score_of (c);
  g_assert_cmpint (s.pairs, ==, 6);                     /* three on the right */
}

/* Gear of a counted record counts too, and a shackle. */
static void
test_strength (void)
{
  g_autoptr(Case) c = case_new ();

  plan_set (c, "tie_downs[0].chain", "'C-3/8-20 #3'");
  plan_set (c, "tie_downs[0].connectors", "[{'id': 'SH-01 #1', 'at': 'point'}]");
  g_assert_cmpint (score_of (c).strength_lb, ==, 64800 - 6600 + 2650 + 17000);
}

/* ── kinds of caution, each once ── */

/* The example with a shorter binder at the blade, so that a few inches off its place make no difference. */
static Case *
case_without_caution (void)
{
  Case *c = case_new ();

  fleet_set (c, "binders[4].needs_run_in", "20");
  g_assert_cmpint (score_of (c).cautions, ==, 0);
  return c;
}

/* The documented kinds, by the rules that say them. */
static const char *const kinds[] = { "force", "all_directions", "point_choice", "deck_angle", "plan_angle", "edge_protection", "chains_apart",
                                     "mixed_gear", "over_body", "coupling_share", "placement" };

static gint32
counted (const Case *c)
{
  gint32 n = 0;

  for (guint k = 0; k < G_N_ELEMENTS (kinds); k++)
    n += count_of (c, kinds[k], FL_CAUTION) > 0;
  return n;
}

/* The example brought into each of them, if need be several at once; each has that one among its cautions, and the score counts as above. */
static void
test_each_kind (void)
{
  static const struct { const char *rule, *fleet, *json, *plan, *choice; } cases[] = {
    { "force", "moves[0].deck_state", "'frost'", NULL, NULL },
    { "point_choice", "machines[0].tie_points[0].maker_provided", "false", NULL, NULL },
    { "deck_angle", NULL, NULL, "tie_downs[4].anchors", "['P4R']" },
    { "plan_angle", "machines[0].tie_points[0].y_in", "48", NULL, NULL },
    { "all_directions", "machines[0].weight_lb", "90000", NULL, NULL },
    { "mixed_gear", NULL, NULL, "tie_downs",
      "[{'no': 1, 'load': 0, 'purpose': 'machine', 'kind': 'direct', 'machine_point': 'FR', 'anchors': ['P1L'], 'strap': 'S-04'}, {'no': 2, 'load': 0, "
      "'purpose': 'machine', 'kind': 'direct', 'machine_point': 'FL', 'anchors': ['P1R'], 'chain': 'C-043', 'binder': 'B-13'}]" },
    { "chains_apart", NULL, NULL, "tie_downs",
      "[{'no': 1, 'load': 0, 'purpose': 'machine', 'kind': 'direct', 'machine_point': 'RL', 'anchors': ['P11L'], 'chain': 'C-041', 'binder': 'B-11'}, "
      "{'no': 2, 'load': 0, 'purpose': 'machine', 'kind': 'direct', 'machine_point': 'RR', 'anchors': ['P11R'], 'chain': 'C-042', 'binder': 'B-12'}]" },
    { "coupling_share", NULL, NULL, "loads[0].rear_in", "40" },
    { "placement", NULL, NULL, NULL, NULL },             /* as it is: the run of the blade's chain */
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr(Case) c = case_new ();
      FlScore s;

      if (cases[i].fleet != NULL)
        fleet_set (c, cases[i].fleet, cases[i].json);
      if (cases[i].plan != NULL)
        plan_set (c, cases[i].plan, cases[i].choice);
      s = score_of (c);
      g_test_message ("%s: %d kinds, %u times", cases[i].rule, s.cautions, count_of (c, cases[i].rule, FL_CAUTION));
      g_assert_cmpuint (count_of (c, cases[i].rule, FL_CAUTION), >, 0);
      g_assert_cmpint (s.cautions, ==, counted (c));
    }
}

/* The quick judgement looks at no tolerance: it never finds more kinds than the one at rest. */
static void
test_at_rest (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(FlScene) scene = NULL;
  g_autoptr(FlAssessment) quick = NULL;
  FlScore rest;

  rest = score_of (c);
  scene = fl_scene_new (c->book, c->fleet, c->plan, NULL);
  quick = fl_judge_at (scene, FL_JUDGE_MOVING);
  g_assert_cmpuint (count_of (c, "placement", FL_CAUTION), ==, 1);
  g_assert_cmpint (fl_score_of (quick, c->book).cautions, ==, rest.cautions - 1);
}

static void
test_kinds (void)
{
  g_autoptr(Case) c = case_without_caution ();

  fleet_set (c, "machines[0].tie_points[0].maker_provided", "false");
  g_assert_cmpint (score_of (c).cautions, ==, 1);
  fleet_set (c, "machines[0].tie_points[1].maker_provided", "false");   /* of the same kind */
  g_assert_cmpint (score_of (c).cautions, ==, 1);
  plan_set (c, "tie_downs[0].anchors", "['P11L']");     /* two that cross, and hold less lengthwise: chains apart, force */
  plan_set (c, "tie_downs[1].anchors", "['P11R']");
  g_assert_cmpint (score_of (c).cautions, ==, 3);
  plan_set (c, "tie_downs[4].anchors", "['P4R']");      /* flat */
  g_assert_cmpint (score_of (c).cautions, ==, 4);
  plan_set (c, "loads[0].rear_in", "40");               /* coupling out of its band */
  g_assert_cmpint (score_of (c).cautions, >=, 5);
}

/* The force caution in whatever direction is one kind: on frost nothing but the chains holds. Placement is another, as in the example. */
static void
test_force_and_placement (void)
{
  g_autoptr(Case) c = case_without_caution ();

  fleet_set (c, "moves[0].deck_state", "'frost'");
  g_assert_cmpint (score_of (c).cautions, ==, 1);
  g_assert_cmpuint (count_of (c, "force", FL_CAUTION), >=, 2);
  fleet_set (c, "binders[4].needs_run_in", "24");
  g_assert_cmpint (score_of (c).cautions, ==, 2);
  fleet_drop (c, "machines[0].center_of_gravity");      /* not judged is not a caution */
  g_assert_cmpint (score_of (c).cautions, ==, 1);
}

/* What no choice can change does not count: weight by class, permit width, openings that nobody measured, locks. */
static void
test_not_counted (void)
{
  g_autoptr(Case) c = case_without_caution ();

  fleet_drop (c, "machines[0].basis");
  fleet_set (c, "machines[0].width_in", "104");
  fleet_drop (c, "machines[0].tie_points[0].opening_in");
  fleet_set (c, "machines[0].locks[1]", "{'id': 'X', 'kind': 'oscillation', 'fitted': false}");
  g_assert_cmpint (score_of (c).cautions, ==, 0);
  g_assert_cmpuint (count_of (c, "weight_basis", FL_CAUTION), ==, 1);
  g_assert_cmpuint (count_of (c, "size_width", FL_CAUTION), ==, 1);
  g_assert_cmpuint (count_of (c, "locks", FL_CAUTION), ==, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/score/order", test_order);
  g_test_add_func ("/score/example", test_example);
  g_test_add_func ("/score/sides", test_sides);
  g_test_add_func ("/score/strength", test_strength);
  g_test_add_func ("/score/each-kind", test_each_kind);
  g_test_add_func ("/score/at-rest", test_at_rest);
  g_test_add_func ("/score/kinds", test_kinds);
  g_test_add_func ("/score/force-and-placement", test_force_and_placement);
  g_test_add_func ("/score/not-counted", test_not_counted);
  return test_done (g_test_run ());
}
