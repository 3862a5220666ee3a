/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The judge on the example of the formats: its results are those that example-plan.json prints (computed by a script that shares
 * nothing with the program); the same plan has the same bytes; the table of requirements is kept whole. */
#include "fl-test-judge.h"

/* ── the example's own results ── */

static gboolean
same_number (JsonNode *a, JsonNode *b)
{
  return fabs (json_node_get_double (a) - json_node_get_double (b)) < 1e-9;
}

static gboolean
is_number (JsonNode *node)
{
  return JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) != G_TYPE_STRING && json_node_get_value_type (node) != G_TYPE_BOOLEAN;
}

/* All that `want` has stands in `have` as well, lists in the same order and of the same length. */
static void
assert_holds (JsonNode *want, JsonNode *have, const char *where)
{
  g_assert_nonnull (have);
  if (JSON_NODE_HOLDS_OBJECT (want))
    {
      JsonObjectIter iter;
      const char *name;
      JsonNode *member;

      json_object_iter_init (&iter, json_node_get_object (want));
      while (json_object_iter_next (&iter, &name, &member))
        assert_holds (member, json_object_get_member (json_node_get_object (have), name), name);
    }
  else if (JSON_NODE_HOLDS_ARRAY (want))
    {
      JsonArray *a = json_node_get_array (want), *b = json_node_get_array (have);

      g_assert_cmpuint (json_array_get_length (a), ==, json_array_get_length (b));
      for (guint i = 0; i < json_array_get_length (a); i++)
        assert_holds (json_array_get_element (a, i), json_array_get_element (b, i), where);
    }
  else if (is_number (want) ? !same_number (want, have) : !json_node_equal (want, have))
    g_error ("%s: %s, not %s", where, json_to_string (have, FALSE), json_to_string (want, FALSE));
}

static JsonNode *
judged_tree (const Case *c)
{
  g_autofree char *text = result_text (c->judged);
  g_autoptr(GError) error = NULL;
  JsonNode *tree = json_from_string (text, &error);

  g_assert_no_error (error);
  return tree;
}

static void
test_example_results (void)
{
  static const char *const parts[] = { "tie_downs", "sums", "axles", "sizes", "verdict", "house" };
  g_autoptr(Case) c = case_new ();
  g_autofree char *path = test_file ("example-plan.json");
  g_autoptr(JsonNode) printed = tree_of_file (path), judged = NULL;

  judge (c);
  judged = judged_tree (c);
  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    {
      g_autofree char *at = g_strdup_printf ("results.%s", parts[i]);

      assert_holds (tree_at (printed, at), tree_at (judged, at), parts[i]);
    }
  g_assert_cmpstr (json_node_get_string (tree_at (judged, "results.rule_book.id")), ==, "us-49cfr393");
}

/* The one finding that the document prints, but for its text. */
static void
test_example_finding (void)
{
  g_autoptr(Case) c = case_new ();
  const FlFinding *f;

  judge (c);
  f = expect (c, "aggregate_wll", "R-03", FL_BY_LAW, FL_MET);
  expect_figures (f, FL_LB (11000), FL_LB (13200));
  g_assert_cmpstr (f->citation, ==, "49 CFR 393.106(d)");
  g_assert_cmpstr (f->subject, ==, "load R-03");
  g_assert_cmpstr (f->basis, ==, "scale ticket 2026-03-02");
  expect_whole (c, FL_COMPLIANT, FL_HOUSE_MET);
  g_assert_true (fl_assessment_stands (c->judged));
}

/* The choices come back as they were given: results are added, nothing else changed. */
static void
test_choices_kept (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(JsonNode) judged = NULL;

  judge (c);
  judged = judged_tree (c);
  assert_holds (c->plan_json, judged, "plan");
}

/* A signed assessment rests on copies of all that it read: the house's rules too. */
static void
test_records (void)
{
  static const char *const lists[] = { "house_rules", "people", "trucks", "machines", "trailers", "chains", "binders", "moves" };
  g_autoptr(Case) c = case_new ();
  g_autoptr(JsonNode) judged = NULL;

  judge (c);
  judged = judged_tree (c);
  for (guint i = 0; i < G_N_ELEMENTS (lists); i++)
    {
      g_autofree char *at = g_strdup_printf ("results.records.%s", lists[i]);

      g_assert_nonnull (tree_at (judged, at));
    }
  assert_holds (tree_at (c->fleet_json, "house_rules"), tree_at (judged, "results.records.house_rules"), "house_rules");
  assert_holds (tree_at (c->fleet_json, "trailers[0]"), tree_at (judged, "results.records.trailers[0]"), "trailers");
}

/* ── the table ── */

/* Every line of the table has something to say of the example, but those that speak only where something is amiss or the house asks. */
static void
test_requirements (void)
{
  static const char *const silent[] = { "locks", "edge_protection", "angles", "chains_apart", "mixed_gear", "move", "takes", "point_choice",
                                        "house_loads", "house_place" };
  static const char *const other_names[][2] = { { "coupling", "coupling_share" }, { "gross", "gvwr" }, { "sizes", "size_height" },
                                                { "house_gear", "min_wll_each" } };
  g_autoptr(Case) c = case_new ();
  gsize n;
  const FlRequirement *table = fl_requirements (&n);

  judge (c);
  g_assert_cmpuint (n, >, 20);
  for (gsize i = 0; i < n; i++)
    {
      const char *name = table[i].id;
      gboolean may_be_silent = FALSE;

      g_assert_nonnull (table[i].check);
      for (gsize k = 0; k < i; k++)
        g_assert_cmpstr (table[k].id, !=, table[i].id);
      for (guint k = 0; k < G_N_ELEMENTS (silent); k++)
        may_be_silent = may_be_silent || strcmp (silent[k], name) == 0;
      for (guint k = 0; k < G_N_ELEMENTS (other_names); k++)
        if (strcmp (other_names[k][0], name) == 0)
          name = other_names[k][1];
      if (found (c, name, NULL) == NULL && !may_be_silent)
        g_error ("%s says nothing of the example", name);
    }
}

/* What the search asks about a place is what the judge says of it. */
static void
test_place_alone (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(FlFindings) findings = fl_findings_new ();
  g_autoptr(FlScene) scene = NULL;

  plan_set (c, "loads[0].rear_in", "-60");      /* its drum on the tail */
  judge (c);
  scene = fl_scene_new (c->book, c->fleet, c->plan, NULL);
  fl_judge_place (scene, findings);
  g_assert_cmpuint (fl_findings_count (findings), >, 5);
  for (gsize i = 0; i < fl_findings_count (findings); i++)
    {
      const FlFinding *alone = fl_findings_at (findings, i);
      gsize n, same = 0;
      const FlFinding *whole = fl_assessment_findings (c->judged, &n);

      for (gsize k = 0; k < n; k++)
        same += strcmp (whole[k].rule, alone->rule) == 0 && strcmp (whole[k].subject, alone->subject) == 0
                && whole[k].verdict == alone->verdict && strcmp (whole[k].message, alone->message) == 0;
      g_assert_cmpuint (same, >=, 1);
    }
  expect (c, "stands_on_deck", "R-03", FL_BY_RATING, FL_SHORT);
}

static void
test_stands_against (void)
{
  FlFinding f = { .standing = FL_BY_LAW, .verdict = FL_SHORT };

  g_assert_true (fl_finding_stands_against (&f));
  f.verdict = FL_UNKNOWN;
  g_assert_true (fl_finding_stands_against (&f));
  f.verdict = FL_CAUTION;
  g_assert_false (fl_finding_stands_against (&f));
  f.verdict = FL_SHORT;
  f.standing = FL_BY_HOUSE;
  g_assert_true (fl_finding_stands_against (&f));
  f.standing = FL_BY_ADVICE;
  g_assert_false (fl_finding_stands_against (&f));
}

/* ── same plan, same bytes ── */

static void
test_same_bytes (void)
{
  g_autoptr(Case) a = case_new ();
  g_autoptr(Case) b = case_new ();
  g_autofree char *first = NULL, *again = NULL, *other = NULL;
  g_autoptr(FlAssessment) second = NULL;

  judge (a);
  judge (b);
  first = result_text (a->judged);
  second = fl_judge_plan (a->book, a->fleet, a->plan, NULL);
  again = result_text (second);
  other = result_text (b->judged);
  g_assert_cmpstr (first, ==, again);
  g_assert_cmpstr (first, ==, other);
}

/* A plan written with its results, read back and judged again, says the same. */
static void
test_round_trip (void)
{
  g_autoptr(Case) c = case_new ();
  g_autofree char *first = NULL, *second = NULL;
  g_autoptr(GBytes) bytes = NULL;
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(FlPlan) plan = NULL;
  g_autoptr(FlAssessment) judged = NULL;

  judge (c);
  first = result_text (c->judged);
  bytes = g_bytes_new (first, strlen (first));
  plan = fl_plan_new_from_json (bytes, problems);
  g_assert_nonnull (plan);
  judged = fl_judge_plan (c->book, c->fleet, plan, NULL);
  second = result_text (judged);
  g_assert_cmpstr (first, ==, second);
}

/* ── component sums, by hand ── */

static double
capacity (const Case *c, guint load, const char *way, const char *friction)
{
  const FlAssessmentParts *parts = fl_assessment_parts (c->judged);

  for (gsize i = 0; i < parts->n_forces; i++)
    if (parts->forces[i].load == load && strcmp (parts->forces[i].case_id, way) == 0 && strcmp (parts->forces[i].friction, friction) == 0
        && strcmp (parts->forces[i].method, "component_sum") == 0)
      return fl_quantity_in (parts->forces[i].capacity, FL_UNIT_G);
  return NAN;
}

/* The example's four tie-downs by hand: run (dx, dy, dz) in inches from point to anchor, 6,600 lb each, 22,000 lb. */
static void
test_sums_by_hand (void)
{
  const double rear = hypot (hypot (22, 24), 30), front = hypot (hypot (27, 22), 28);
  g_autoptr(Case) c = case_new ();

  judge (c);
  g_assert_cmpfloat_with_epsilon (capacity (c, 0, "forward", "none"), 2 * 6600 * 27 / front / 22000, 1e-9);
  g_assert_cmpfloat_with_epsilon (capacity (c, 0, "rearward", "none"), 2 * 6600 * 22 / rear / 22000, 1e-9);
  g_assert_cmpfloat_with_epsilon (capacity (c, 0, "left", "none"), 6600 * (24 / rear + 22 / front) / 22000, 1e-9);
  g_assert_cmpfloat_with_epsilon (capacity (c, 0, "right", "none"), capacity (c, 0, "left", "none"), 1e-12);
}

/* Friction is shown beside the answer without it: the least of what the load stands on; a steel drum on wet wood 0.20 (the project's
 * own conservative table); lengthwise its drum is not braked and rolls, 0.02. A move that says nothing of its deck is taken as wet. */
static void
test_friction_beside (void)
{
  g_autoptr(Case) c = case_new ();

  judge (c);
  g_assert_cmpfloat_with_epsilon (capacity (c, 0, "left", "wet") - capacity (c, 0, "left", "none"), 0.20, 1e-9);
  g_assert_cmpfloat_with_epsilon (capacity (c, 0, "forward", "wet") - capacity (c, 0, "forward", "none"), 0.02, 1e-9);
  fleet_drop (c, "moves[0].deck_state");
  judge (c);
  g_assert_cmpfloat_with_epsilon (capacity (c, 0, "left", "wet") - capacity (c, 0, "left", "none"), 0.20, 1e-9);
  fleet_set (c, "moves[0].deck_state", "'frost'");
  judge (c);
  g_assert_true (isnan (capacity (c, 0, "left", "wet")));
  g_assert_cmpfloat_with_epsilon (capacity (c, 0, "left", "frost") - capacity (c, 0, "left", "none"), 0.10, 1e-9);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/judge/example/results", test_example_results);
  g_test_add_func ("/judge/example/finding", test_example_finding);
  g_test_add_func ("/judge/example/choices-kept", test_choices_kept);
  g_test_add_func ("/judge/example/records", test_records);
  g_test_add_func ("/judge/requirements", test_requirements);
  g_test_add_func ("/judge/place-alone", test_place_alone);
  g_test_add_func ("/judge/stands-against", test_stands_against);
  g_test_add_func ("/judge/same-bytes", test_same_bytes);
  g_test_add_func ("/judge/round-trip", test_round_trip);
  g_test_add_func ("/judge/sums-by-hand", test_sums_by_hand);
  g_test_add_func ("/judge/friction", test_friction_beside);
  return test_done (g_test_run ());
}
