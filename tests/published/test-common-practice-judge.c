/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What people in the trade take for granted about tying a machine down, asked of the judge and of the search. Every check here: common
 * practice, no source, unless it says otherwise. The machine is the example's roller; figures beside each check are worked out by hand. */
#include "fl-test-plan.h"

static FlProposal *
planned (Case *c)
{
  g_assert_true (case_read (c));
  return plan_from (c, c->plan, NULL);
}

/* Common practice, no source: two chains may not be joined into a longer one. With chains too short for any run there is no plan, though
 * two of them would reach; one tie-down has one chain, in every plan and in the document. */
static void
test_no_joined_chains (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(FlProposal) none = NULL;
  g_autoptr(FlProposal) enough = NULL;

  plan_set (c, "tie_downs", "[]");
  for (guint i = 0; i < 6; i++)
    {
      g_autofree char *path = g_strdup_printf ("chains[%u].length_ft", i);

      fleet_set (c, path, "5");
    }
  none = planned (c);
  assert_none (none);
  for (guint i = 0; i < 6; i++)
    {
      g_autofree char *path = g_strdup_printf ("chains[%u].length_ft", i);

      fleet_set (c, path, "10");
    }
  enough = planned (c);
  assert_stands (c, enough);
  c->quiet = TRUE;
  plan_set (c, "tie_downs", "[{'no': 1, 'load': 0, 'purpose': 'machine', 'kind': 'direct', 'machine_point': 'RL', 'anchors': ['P11R'], "
                            "'chain': ['C-041', 'C-042'], 'binder': 'B-11'}]");
  g_assert_false (case_read (c));
}

static const FlTieResult *
tie (const Case *c, guint index)
{
  return &fl_assessment_parts (c->judged)->ties[index];
}

/* Common practice, no source: about 45 degrees both ways is what a direct tie-down should look like. From RL (30 in up) to an anchor
 * 21.2 in along and 21.2 across it is 45 and 45: nothing is said of it, and nothing is better in the score. */
static void
test_forty_five (void)
{
  const double side = 30 / G_SQRT2;
  g_autoptr(Case) c = case_new ();
  g_autofree char *anchor = g_strdup_printf ("{'id': 'X', 'fitting': 'd_ring', 'x_in': %.6f, 'y_in': %.6f, 'z_in': 0, 'rated_wll_lb': 12000, 'opening_in': 3}",
                                             230 + side, -26 - side);
  FlScore with, without;

  judge (c);
  without = fl_score_of (c->judged, c->book);
  fleet_set (c, "trailers[0].anchors[1]", anchor);
  plan_set (c, "tie_downs[0].anchors", "['X']");
  judge (c);
  g_assert_cmpfloat_with_epsilon (fl_quantity_in (tie (c, 0)->deck_angle, FL_UNIT_DEG), 45, 1e-4);
  g_assert_cmpfloat_with_epsilon (fl_quantity_in (tie (c, 0)->plan_angle, FL_UNIT_DEG), 45, 1e-4);
  g_assert_null (found (c, "deck_angle", NULL));
  g_assert_null (found (c, "plan_angle", NULL));
  with = fl_score_of (c->judged, c->book);
  g_assert_cmpint (with.angle_mdeg2, <, without.angle_mdeg2);
}

/* Common practice, no source: over 10,000 lb four tie-downs, and the bucket or blade lowered and chained. The search gives just that. */
static void
test_four_and_the_blade (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(FlProposal) p = NULL;
  const FlPlanChoices *best;
  guint blade = 0;

  fleet_set (c, "machines[0].weight_lb", "10001");
  p = planned (c);
  assert_stands (c, p);
  best = fl_plan_choices (fl_assessment_plan (p->best));
  g_assert_cmpuint (own_ties (best), ==, 4);
  for (gsize i = 0; i < best->n_tie_downs; i++)
    blade += best->tie_downs[i].purpose == FL_FOR_IMPLEMENT && strcmp (best->tie_downs[i].implement, "BLD") == 0;
  g_assert_cmpuint (blade, ==, 1);
  plan_drop (c, "tie_downs[4]");
  judge (c);
  expect_words (expect (c, "implements", "R-03", FL_BY_LAW, FL_SHORT), "must be lowered and held");
  plan_drop (c, "tie_downs[3]");
  judge (c);
  expect_figures (expect (c, "tie_down_count", "R-03", FL_BY_LAW, FL_SHORT), FL_COUNT (4), FL_COUNT (3));
}

/* Common practice, no source: an articulated machine without its lock takes four in front and four behind; the search finds them where
 * points, anchors, chains and binders are there for it. */
static void
test_eight_without_lock (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(FlProposal) p = NULL;
  const FlPlanChoices *best;
  guint front = 0, rear = 0;

  fleet_set (c, "machines[0].locks[0].fitted", "false");
  fleet_set (c, "house_rules", "[]");
  for (guint i = 0; i < 4; i++)
    {
      g_autofree char *path = g_strdup_printf ("machines[0].tie_points[%u].takes", i);

      fleet_set (c, path, "2");
    }
  fleet_set (c, "binders[5]", "{'id': 'B-20', 'kept_at': 'T-3', 'kind': 'lever', 'wll_lb': 5400, 'chain_sizes': ['3/8'], 'count': 6}");
  p = planned (c);
  assert_stands (c, p);
  best = fl_plan_choices (fl_assessment_plan (p->best));
  for (gsize i = 0; i < best->n_tie_downs; i++)
    if (best->tie_downs[i].purpose == FL_FOR_LOAD)
      {
        front += best->tie_downs[i].point[0] == 'F';
        rear += best->tie_downs[i].point[0] == 'R';
      }
  g_assert_cmpuint (front, ==, 4);
  g_assert_cmpuint (rear, ==, 4);
  case_forget (c);
  c->judged = fl_assessment_ref (p->best);
  expect (c, "articulation", "R-03", FL_BY_PRACTICE, FL_CAUTION);
}

/* Common practice, no source: an axle will do where no brake hose or line can be hurt: allowed, with the caution that says so, and only
 * where the maker's points do not serve. */
static void
test_axle (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(FlProposal) p = NULL;
  g_autoptr(FlProposal) only = NULL;

  fleet_set (c, "machines[0].tie_points[6]", "{'id': 'AX', 'name': 'rear axle', 'fitting': 'axle', 'section': 'rear', 'maker_provided': false, "
                                             "'x_in': 30, 'y_in': 26, 'z_in': 30, 'opening_in': 3, 'bar_in': 1}");
  p = planned (c);
  assert_stands (c, p);
  g_assert_false (hooks_to (fl_plan_choices (fl_assessment_plan (p->best)), "AX"));
  plan_set (c, "set_aside", "{'points': [{'load': 0, 'point': 'RL'}]}");
  only = planned (c);
  assert_stands (c, only);
  g_assert_true (hooks_to (fl_plan_choices (fl_assessment_plan (only->best)), "AX"));
  case_forget (c);
  c->judged = fl_assessment_ref (only->best);
  expect_words (expect (c, "point_choice", NULL, FL_BY_PRACTICE, FL_CAUTION), "brake hose or line");
}

/* Common practice, no source: one chain to a lug, but where it is made for two. */
static void
test_one_to_a_lug (void)
{
  g_autoptr(Case) c = case_new ();

  plan_set (c, "tie_downs[3].machine_point", "'FL'");
  judge (c);
  expect (c, "fit", "tie-down 4", FL_BY_PRACTICE, FL_SHORT);
}

/* Common practice, no source: a rub rail without damage may hold a binder hook. Nobody rated it: somebody must look that it is sound. */
static void
test_rub_rail (void)
{
  g_autoptr(Case) c = case_new ();

  fleet_set (c, "trailers[0].anchor_rows[0].fitting", "'rub_rail'");
  fleet_drop (c, "trailers[0].anchor_rows[0].rated_wll_lb");
  judge (c);
  expect_words (expect (c, "unmeasured", "T-3", FL_BY_PRACTICE, FL_CAUTION), "Look that they are sound");
  expect_whole (c, FL_COMPLIANT, FL_HOUSE_MET);
}

/* Common practice, no source: the binder's handle is tied, the loose chain wrapped; deck swept of rock and dirt. Said on every plan. */
static void
test_said_on_every_plan (void)
{
  static const char *const words[] = { "swept", "handles turned down", "Loose chain wrapped and tied", "brake lines" };
  g_autoptr(Case) c = case_new ();
  const FlAssessmentParts *parts;

  judge (c);
  expect_words (expect (c, "cannot_loosen", "tie-downs", FL_BY_LAW, FL_MET), "tie the handles and wrap the loose chain");
  parts = fl_assessment_parts (c->judged);
  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    {
      gboolean said = FALSE;

      for (gsize k = 0; k < parts->n_walk_round; k++)
        said = said || strstr (parts->walk_round[k].message, words[i]) != NULL;
      g_assert_true (said);
    }
}

/* Common practice, no source: a hook too big for the eye, and a shackle at hand: the search puts the shackle in. */
static void
test_shackle (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(FlProposal) p = NULL;
  const FlPlanChoices *best;

  fleet_set (c, "machines[0].tie_points[0].opening_in", "1.5");
  p = planned (c);
  assert_stands (c, p);
  best = fl_plan_choices (fl_assessment_plan (p->best));
  for (gsize i = 0; i < best->n_tie_downs; i++)
    if (g_strcmp0 (best->tie_downs[i].point, "RL") == 0)
      {
        g_assert_cmpuint (best->tie_downs[i].n_connectors, ==, 1);
        g_assert_true (g_str_has_prefix (best->tie_downs[i].connectors[0].id, "SH-01 #"));
        g_assert_false (best->tie_downs[i].connectors[0].at_anchor);
      }
}

/* ── statics by hand ── */

static double
capacity (const Case *c, const char *way)
{
  const FlAssessmentParts *parts = fl_assessment_parts (c->judged);

  for (gsize i = 0; i < parts->n_forces; i++)
    if (strcmp (parts->forces[i].case_id, way) == 0 && strcmp (parts->forces[i].friction, "none") == 0
        && strcmp (parts->forces[i].method, "component_sum") == 0)
      return fl_quantity_in (parts->forces[i].capacity, FL_UNIT_G);
  return NAN;
}

/* Four alike chains, 30 in along, 30 across and 30 down from their points, two ahead and two behind: direction cosines 1 / sqrt (3) each way. Of four
 * times 6,600 lb two chains hold each way: 2 * 6,600 / sqrt (3) = 7,621 lb of 22,000: 0.346 g forward, rearward, left and right. (Any textbook of
 * statics; the method of direction cosines is that of EN 12195-1, from memory.) */
static void
test_four_symmetric (void)
{
  static const struct { double x, y; const char *anchor; } corners[] = { { 260, -56, "X0" }, { 260, 56, "X1" }, { 9, -58, "X2" }, { 9, 58, "X3" } };
  g_autoptr(Case) c = case_new ();
  const double hand = 2 * 6600 / sqrt (3) / 22000;

  fleet_set (c, "trailers[0].deck.width_in", "120");
  fleet_set (c, "machines[0].tie_points[2].z_in", "30");        /* FL, FR at x 39, y 28 */
  fleet_set (c, "machines[0].tie_points[3].z_in", "30");
  for (guint i = 0; i < 4; i++)
    {
      g_autofree char *at = g_strdup_printf ("trailers[0].anchors[%u]", 1 + i), *list = g_strdup_printf ("['%s']", corners[i].anchor);
      g_autofree char *path = g_strdup_printf ("tie_downs[%u].anchors", i), *json = NULL;

      json = g_strdup_printf ("{'id': '%s', 'fitting': 'd_ring', 'x_in': %.0f, 'y_in': %.0f, 'z_in': 0, 'opening_in': 3, 'rated_wll_lb': 12000}",
                              corners[i].anchor, corners[i].x, corners[i].y);
      fleet_set (c, at, json);
      plan_set (c, path, list);
    }
  judge (c);
  g_assert_cmpfloat_with_epsilon (capacity (c, "forward"), hand, 1e-9);
  g_assert_cmpfloat_with_epsilon (capacity (c, "rearward"), hand, 1e-9);
  g_assert_cmpfloat_with_epsilon (capacity (c, "left"), hand, 1e-9);
  g_assert_cmpfloat_with_epsilon (capacity (c, "right"), hand, 1e-9);
  g_assert_cmpfloat_with_epsilon (fl_quantity_in (tie (c, 0)->deck_angle, FL_UNIT_DEG), asin (1 / sqrt (3)) * 180 / G_PI, 1e-6);
  g_assert_cmpfloat_with_epsilon (fl_quantity_in (tie (c, 0)->plan_angle, FL_UNIT_DEG), 45, 1e-6);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/practice/no-joined-chains", test_no_joined_chains);
  g_test_add_func ("/practice/forty-five", test_forty_five);
  g_test_add_func ("/practice/four-and-the-blade", test_four_and_the_blade);
  g_test_add_func ("/practice/eight-without-lock", test_eight_without_lock);
  g_test_add_func ("/practice/axle", test_axle);
  g_test_add_func ("/practice/one-to-a-lug", test_one_to_a_lug);
  g_test_add_func ("/practice/rub-rail", test_rub_rail);
  g_test_add_func ("/practice/said-on-every-plan", test_said_on_every_plan);
  g_test_add_func ("/practice/shackle", test_shackle);
  g_test_add_func ("/practice/four-symmetric", test_four_symmetric);
  return test_done (g_test_run ());
}
