/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The plan document with its results: to the letter, in both systems of units, and against the example that another program
 * computed. */
#include <json-glib/json-glib.h>
#include <string.h>

#include "small-plan.h"

/* ── a small one, to the letter ── */

static const char small_document[] =
  "{\n"
  " \"format\": \"fairlead-plan/1\",\n"
  " \"fleet\": \"Larkfield Drainage District\",\n"
  " \"move\": \"2026-11-25/01\",\n"
  " \"trailer\": \"T-3\",\n"
  " \"loads\": [\n"
  "  {\n"
  "   \"machine\": \"R-03\",\n"
  "   \"facing\": \"rearward\",\n"
  "   \"rear_in\": 10\n"
  "  }\n"
  " ],\n"
  " \"tie_downs\": [\n"
  "  {\n"
  "   \"no\": 1,\n"
  "   \"load\": 0,\n"
  "   \"purpose\": \"machine\",\n"
  "   \"kind\": \"direct\",\n"
  "   \"machine_point\": \"RL\",\n"
  "   \"anchors\": [\n"
  "    \"P11R\"\n"
  "   ],\n"
  "   \"chain\": \"C-041\",\n"
  "   \"binder\": \"B-11\"\n"
  "  }\n"
  " ],\n"
  " \"results\": {\n"
  "  \"rule_book\": {\n"
  "   \"id\": \"us-49cfr393\",\n"
  "   \"edition\": \"2026-10\",\n"
  "   \"sha256\": \"00ff\"\n"
  "  },\n"
  "  \"tie_downs\": [\n"
  "   {\n"
  "    \"no\": 1,\n"
  "    \"wll_lb\": 6600,\n"
  "    \"limited_by\": \"chain C-041\",\n"
  "    \"counts_lb\": 3300,\n"
  "    \"run_in\": 44.3,\n"
  "    \"needs_in\": 88.3,\n"
  "    \"deck_angle_deg\": 42.7\n"
  "   }\n"
  "  ],\n"
  "  \"sums\": [\n"
  "   {\n"
  "    \"load\": 0,\n"
  "    \"weight_lb\": 22000,\n"
  "    \"need_lb\": 11000,\n"
  "    \"have_lb\": 3300,\n"
  "    \"weakest\": \"chain C-041\"\n"
  "   }\n"
  "  ],\n"
  "  \"force\": [\n"
  "   {\n"
  "    \"load\": 0,\n"
  "    \"case\": \"forward\",\n"
  "    \"level\": \"working\",\n"
  "    \"friction\": \"none\",\n"
  "    \"method\": \"component_sum\",\n"
  "    \"demand_g\": 0.435,\n"
  "    \"capacity_g\": 0.123\n"
  "   },\n"
  "   {\n"
  "    \"load\": 0,\n"
  "    \"case\": \"forward\",\n"
  "    \"level\": \"working\",\n"
  "    \"friction\": \"wet\",\n"
  "    \"method\": \"upper_bound\",\n"
  "    \"demand_g\": 0.435,\n"
  "    \"capacity_g\": 0.323,\n"
  "    \"mode\": \"slides\",\n"
  "    \"at_limit\": [\n"
  "     1,\n"
  "     2\n"
  "    ]\n"
  "   },\n"
  "   {\n"
  "    \"load\": 0,\n"
  "    \"case\": \"forward\",\n"
  "    \"level\": \"working\",\n"
  "    \"friction\": \"wet\",\n"
  "    \"method\": \"load_sharing\",\n"
  "    \"demand_g\": 0.435,\n"
  "    \"capacity_g\": 0.3,\n"
  "    \"moved_in\": 0.5,\n"
  "    \"turned_deg\": 1.3\n"
  "   }\n"
  "  ],\n"
  "  \"tensions\": [\n"
  "   {\n"
  "    \"load\": 0,\n"
  "    \"case\": \"forward\",\n"
  "    \"level\": \"working\",\n"
  "    \"friction\": \"wet\",\n"
  "    \"no\": 1,\n"
  "    \"tension_lb\": 3120.1,\n"
  "    \"use\": 0.473\n"
  "   },\n"
  "   {\n"
  "    \"load\": 0,\n"
  "    \"case\": \"forward\",\n"
  "    \"level\": \"working\",\n"
  "    \"friction\": \"wet\",\n"
  "    \"no\": 2,\n"
  "    \"tension_lb\": 0\n"
  "   }\n"
  "  ],\n"
  "  \"axles\": [\n"
  "   {\n"
  "    \"axle\": \"coupling\",\n"
  "    \"load_lb\": 3970.6,\n"
  "    \"rated_lb\": 10000,\n"
  "    \"share_pct\": 12.3\n"
  "   },\n"
  "   {\n"
  "    \"axle\": \"trailer 1\",\n"
  "    \"load_lb\": 14114.7\n"
  "   }\n"
  "  ],\n"
  "  \"sizes\": {\n"
  "   \"height_in\": 155,\n"
  "   \"gross_lb\": 54200\n"
  "  },\n"
  "  \"findings\": [\n"
  "   {\n"
  "    \"rule\": \"aggregate_wll\",\n"
  "    \"standing\": \"law\",\n"
  "    \"citation\": \"49 CFR 393.106(d)\",\n"
  "    \"subject\": \"load R-03\",\n"
  "    \"need\": 11000,\n"
  "    \"have\": 3300,\n"
  "    \"unit\": \"lb\",\n"
  "    \"verdict\": \"short\",\n"
  "    \"basis\": \"typical\",\n"
  "    \"text\": \"3,300 lb for 11,000 lb needed.\",\n"
  "    \"steps\": [\n"
  "     \"0.5 x weight 22,000 lb = 11,000 lb needed.\",\n"
  "     \"One counts.\"\n"
  "    ]\n"
  "   },\n"
  "   {\n"
  "    \"rule\": \"count\",\n"
  "    \"standing\": \"law\",\n"
  "    \"subject\": \"load R-03\",\n"
  "    \"need\": 4,\n"
  "    \"have\": 1,\n"
  "    \"unit\": \"count\",\n"
  "    \"verdict\": \"short\",\n"
  "    \"text\": \"Four are needed.\"\n"
  "   },\n"
  "   {\n"
  "    \"rule\": \"fit\",\n"
  "    \"standing\": \"practice\",\n"
  "    \"subject\": \"tie-down 1\",\n"
  "    \"need\": 1.1,\n"
  "    \"unit\": \"in\",\n"
  "    \"verdict\": \"caution\",\n"
  "    \"text\": \"The opening is not measured.\"\n"
  "   }\n"
  "  ],\n"
  "  \"recheck\": {\n"
  "   \"within_mi\": 50,\n"
  "   \"then_time_h\": 3,\n"
  "   \"then_distance_mi\": 150,\n"
  "   \"duty_change\": true\n"
  "  },\n"
  "  \"cautions\": [\n"
  "   \"A competent person decides at the truck.\"\n"
  "  ],\n"
  "  \"verdict\": \"not_compliant\",\n"
  "  \"house\": \"met\"\n"
  " }\n"
  "}\n";

static FlFindings *
small_findings (void)
{
  static const FlFact weights[] = { { "weight", NULL, { 22000, FL_UNIT_LB } }, { "need", NULL, { 11000, FL_UNIT_LB } } };
  static const FlMessage steps[] = { { "0.5 x weight {weight} = {need} needed.", weights, 2 }, { "One counts.", NULL, 0 } };
  static const FlFinding found[] = {
    { .rule = "fit", .subject = "tie-down 1", .standing = FL_BY_PRACTICE, .verdict = FL_CAUTION,
      .need = { 1.1, FL_UNIT_IN }, .message = "The opening is {have}." },
    { .rule = "aggregate_wll", .citation = "49 CFR 393.106(d)", .subject = "load R-03", .standing = FL_BY_LAW,
      .verdict = FL_SHORT, .need = { 11000, FL_UNIT_LB }, .have = { 3300, FL_UNIT_LB }, .basis = "typical",
      .message = "{have} for {need} needed.", .steps = steps, .n_steps = 2 },
    { .rule = "count", .subject = "load R-03", .standing = FL_BY_LAW, .verdict = FL_SHORT,
      .need = { 4, FL_UNIT_COUNT }, .have = { 1, FL_UNIT_COUNT }, .message = "Four are needed." },
  };
  FlFindings *findings = fl_findings_new ();

  for (gsize i = 0; i < G_N_ELEMENTS (found); i++)
    fl_findings_add (findings, &found[i]);
  return findings;
}

static FlAssessment *
small_assessment (gboolean metric, const FlRecord *const *records, gsize n_records)
{
  g_autoptr(FlPlan) plan = small_plan (NULL, 0);
  g_autoptr(FlFindings) findings = small_findings ();
  const FlVec path[] = { { 1, 0.5, 1 }, { 0.5, 1, 0 } };
  const FlTieResult ties[] = {
    { .no = 1, .path = path, .n_path = 2, .run = FL_IN (44.31), .needs = FL_IN (88.3), .deck_angle = FL_DEG (42.74),
      .wll = FL_LB (6600), .counts = FL_LB (3300), .limited_by = "chain C-041", .gear_text = "3/8 grade 70, 16 ft" },
  };
  const FlLoadResult loads[] = {
    { .id = "R-03", .name = "roller", .weight = FL_LB (22000), .need = FL_LB (11000), .have = FL_LB (3300),
      .weakest = "chain C-041" },
  };
  const guint at_limit[] = { 1, 2 };
  const FlForceResult forces[] = {
    { .case_id = "forward", .level = "working", .friction = "none", .method = "component_sum", .demand = FL_GEES (0.435),
      .capacity = FL_GEES (0.12345) },
    { .case_id = "forward", .level = "working", .friction = "wet", .method = "upper_bound", .demand = FL_GEES (0.435), .capacity = FL_GEES (0.32345),
      .mode = "slides", .at_limit = at_limit, .n_at_limit = 2 },
    { .case_id = "forward", .level = "working", .friction = "wet", .method = "load_sharing", .demand = FL_GEES (0.435), .capacity = FL_GEES (0.3),
      .moved = FL_IN (0.512), .turned = FL_DEG (1.26) },
  };
  const FlTensionResult tensions[] = {
    { .case_id = "forward", .level = "working", .friction = "wet", .no = 1, .tension = FL_LB (3120.12), .use = 0.47274 },
    { .case_id = "forward", .level = "working", .friction = "wet", .no = 2, .tension = FL_LB (0), .use = NAN },
  };
  const FlAxleResult axles[] = {
    { .axle = "coupling", .load = FL_LB (3970.58), .rated = FL_LB (10000), .share_pct = 12.345, .x = 5.0 },
    { .axle = "trailer 1", .load = FL_LB (14114.71), .share_pct = NAN, .x = NAN },
  };
  const FlFact facts[] = { FL_FACT_TEXT ("where", "at the truck") };
  const FlMessage cautions[] = { { "A competent person decides {where}.", facts, 1 } };
  const FlAssessmentParts parts = {
    .plan = plan, .fleet_name = "Larkfield Drainage District", .metric = metric,
    .book = { "us-49cfr393", "title", "2026-10", "00ff" }, .ties = ties, .n_ties = 1, .loads = loads, .n_loads = 1,
    .forces = forces, .n_forces = 3, .tensions = tensions, .n_tensions = 2, .axles = axles, .n_axles = 2,
    .sizes = { .height = FL_IN (155), .gross = FL_LB (54200) }, .findings = findings,
    .recheck = { { 50, FL_UNIT_MI }, { 3, FL_UNIT_H }, { 150, FL_UNIT_MI }, TRUE },
    .cautions = cautions, .n_cautions = 1, .records = records, .n_records = n_records,
  };

  return fl_assessment_new (&parts);
}

static void
test_document (void)
{
  g_autoptr(FlAssessment) assessment = small_assessment (FALSE, NULL, 0);
  g_autofree char *text = text_of (assessment, FALSE), *again = text_of (assessment, FALSE);

  g_assert_cmpstr (text, ==, small_document);
  g_assert_cmpstr (again, ==, text);
}

/* A number of the document's results, found by json-glib's own path language. */
static double
number_at (JsonNode *root, const char *path)
{
  g_autoptr(GError) error = NULL;
  g_autoptr(JsonNode) found = json_path_query (path, root, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (json_array_get_length (json_node_get_array (found)), ==, 1);
  return json_array_get_double_element (json_node_get_array (found), 0);
}

/* 6,600 lb x 0.45359237 = 2,993.7 kg; 44.31 in x 25.4 = 1,125.5 mm: to 1 kg and 1 mm. */
static void
test_metric (void)
{
  g_autoptr(FlAssessment) assessment = small_assessment (TRUE, NULL, 0);
  g_autofree char *text = text_of (assessment, FALSE);
  g_autoptr(JsonNode) root = json_from_string (text, NULL);

  g_assert_cmpfloat (number_at (root, "$.results.tie_downs[0].wll_kg"), ==, 2994.0);
  g_assert_cmpfloat (number_at (root, "$.results.tie_downs[0].run_mm"), ==, 1125.0);
  g_assert_cmpfloat (number_at (root, "$.results.tie_downs[0].deck_angle_deg"), ==, 42.7);
  g_assert_cmpfloat (number_at (root, "$.results.sums[0].weight_kg"), ==, 9979.0);
  g_assert_cmpfloat (number_at (root, "$.results.sizes.height_mm"), ==, 3937.0);
  g_assert_cmpfloat (number_at (root, "$.results.findings[0].need"), ==, 4990.0);
  g_assert_cmpfloat (number_at (root, "$.results.force[2].moved_mm"), ==, 13.0);        /* 0.512 in x 25.4 = 13.005 mm */
  g_assert_cmpfloat (number_at (root, "$.results.tensions[0].tension_kg"), ==, 1415.0); /* 3,120.12 lb = 1,415.26 kg */
  g_assert_cmpfloat (number_at (root, "$.results.recheck.within_mi"), ==, 50.0);
  g_assert_cmpfloat (number_at (root, "$.loads[0].rear_in"), ==, 10.0);   /* a choice stays as it was entered */
  g_assert_null (strstr (text, "_lb\""));
  g_assert_nonnull (strstr (text, "\"unit\": \"kg\""));
}

/* Need and have in different units of one dimension come out in one. */
static void
test_one_unit (void)
{
  static const FlFinding found[] = {
    { .rule = "a", .standing = FL_BY_LAW, .message = "", .need = { 1000, FL_UNIT_KG }, .have = { 3000, FL_UNIT_LB } },
    { .rule = "b", .standing = FL_BY_LAW, .message = "", .have = { 0, FL_UNIT_NULL }, .need = { 40, FL_UNIT_IN } },
    { .rule = "c", .standing = FL_BY_LAW, .message = "", .have = { 1, FL_UNIT_M } },
    { .rule = "d", .standing = FL_BY_LAW, .message = "" },
  };
  g_autoptr(FlFindings) findings = fl_findings_new ();
  g_autoptr(FlAssessment) assessment = NULL;
  g_autofree char *text = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (found); i++)
    fl_findings_add (findings, &found[i]);
  assessment = assess (findings, NULL, 0);
  text = text_of (assessment, FALSE);
  g_assert_nonnull (strstr (text, "\"standing\": \"law\",\n    \"need\": 2204.6,\n    \"have\": 3000,\n    \"unit\": \"lb\""));
  g_assert_nonnull (strstr (text, "\"standing\": \"law\",\n    \"need\": 40,\n    \"have\": null,\n    \"unit\": \"in\""));
  g_assert_nonnull (strstr (text, "\"standing\": \"law\",\n    \"have\": 39.4,\n    \"unit\": \"in\""));
  g_assert_nonnull (strstr (text, "\"rule\": \"d\",\n    \"standing\": \"law\",\n    \"verdict\": \"met\""));
}

/* ── the example: its results read in, judged by nobody, written out the same ── */

static char *
read_data (const char *name)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "data", name, NULL);
  g_autoptr(GError) error = NULL;
  char *text;

  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  return text;
}

static FlQuantity
quantity_of (JsonObject *object, const char *key, FlUnit unit)
{
  return json_object_has_member (object, key) ? (FlQuantity) { json_object_get_double_member (object, key), unit }
                                              : FL_NOT_MEASURED;
}

static GArray *
example_ties (JsonObject *results)
{
  JsonArray *list = json_object_get_array_member (results, "tie_downs");
  GArray *ties = g_array_new (FALSE, TRUE, sizeof (FlTieResult));

  for (guint i = 0; i < json_array_get_length (list); i++)
    {
      JsonObject *o = json_array_get_object_element (list, i);
      const FlTieResult tie = {
        .no = (guint) json_object_get_int_member (o, "no"), .run = quantity_of (o, "run_in", FL_UNIT_IN),
        .needs = quantity_of (o, "needs_in", FL_UNIT_IN), .deck_angle = quantity_of (o, "deck_angle_deg", FL_UNIT_DEG),
        .plan_angle = quantity_of (o, "plan_angle_deg", FL_UNIT_DEG), .wll = quantity_of (o, "wll_lb", FL_UNIT_LB),
        .counts = quantity_of (o, "counts_lb", FL_UNIT_LB), .limited_by = json_object_get_string_member (o, "limited_by"),
      };

      g_array_append_val (ties, tie);
    }
  return ties;
}

static GArray *
example_axles (JsonObject *results)
{
  JsonArray *list = json_object_get_array_member (results, "axles");
  GArray *axles = g_array_new (FALSE, TRUE, sizeof (FlAxleResult));

  for (guint i = 0; i < json_array_get_length (list); i++)
    {
      JsonObject *o = json_array_get_object_element (list, i);
      const FlAxleResult axle = {
        .axle = json_object_get_string_member (o, "axle"), .load = quantity_of (o, "load_lb", FL_UNIT_LB),
        .rated = quantity_of (o, "rated_lb", FL_UNIT_LB), .x = NAN,
        .share_pct = json_object_get_double_member_with_default (o, "share_pct", NAN),
      };

      g_array_append_val (axles, axle);
    }
  return axles;
}

static FlFindings *
example_findings (void)
{
  const FlFact facts[] = { FL_FACT_QUANTITY ("each", FL_LB (6600)) };
  const FlFinding finding = {
    .rule = "aggregate_wll", .citation = "49 CFR 393.106(d)", .subject = "load R-03", .tie_down = -1,
    .standing = FL_BY_LAW, .verdict = FL_MET, .need = FL_LB (11000), .have = FL_LB (13200),
    .basis = "scale ticket 2026-03-02", .facts = facts, .n_facts = 1,
    .message = "Four direct tie-downs count half of {each} each: {have} for {need} needed.",
  };
  FlFindings *findings = fl_findings_new ();

  fl_findings_add (findings, &finding);
  return findings;
}

static FlAssessment *
example_assessment (const char *text, JsonObject *results)
{
  g_autoptr(GBytes) bytes = g_bytes_new (text, strlen (text));
  g_autoptr(FlPlan) plan = fl_plan_new_from_json (bytes, NULL);
  g_autoptr(FlFindings) findings = example_findings ();
  g_autoptr(GArray) ties = example_ties (results), axles = example_axles (results);
  const FlLoadResult loads[] = {
    { .id = "R-03", .weight = FL_LB (22000), .need = FL_LB (11000), .have = FL_LB (13200), .weakest = "chain C-041" },
  };
  const FlAssessmentParts parts = {
    .plan = plan, .book = { "us-49cfr393", NULL, "(of the book used)", "(of its file)" },
    .ties = (const FlTieResult *) (gconstpointer) ties->data, .n_ties = ties->len, .loads = loads, .n_loads = 1,
    .axles = (const FlAxleResult *) (gconstpointer) axles->data, .n_axles = axles->len,
    .sizes = { FL_IN (155), FL_IN (102), FL_IN (728), FL_LB (54200), FALSE }, .findings = findings,
  };

  return fl_assessment_new (&parts);
}

static void assert_same (JsonNode *a, JsonNode *b);

static void
assert_same_objects (JsonObject *a, JsonObject *b)
{
  g_autoptr(GList) keys_a = json_object_get_members (a), keys_b = json_object_get_members (b);
  GList *k = keys_b;

  g_assert_cmpuint (json_object_get_size (a), ==, json_object_get_size (b));
  for (GList *i = keys_a; i != NULL; i = i->next, k = k->next)
    {
      g_assert_cmpstr (i->data, ==, k->data);     /* in the same order */
      assert_same (json_object_get_member (a, i->data), json_object_get_member (b, i->data));
    }
}

/* Equal trees, 3300 and 3300.0 being the same number. */
static void
assert_same (JsonNode *a, JsonNode *b)
{
  g_assert_cmpint (json_node_get_node_type (a), ==, json_node_get_node_type (b));
  if (JSON_NODE_HOLDS_OBJECT (a))
    assert_same_objects (json_node_get_object (a), json_node_get_object (b));
  else if (JSON_NODE_HOLDS_ARRAY (a))
    {
      JsonArray *x = json_node_get_array (a), *y = json_node_get_array (b);

      g_assert_cmpuint (json_array_get_length (x), ==, json_array_get_length (y));
      for (guint i = 0; i < json_array_get_length (x); i++)
        assert_same (json_array_get_element (x, i), json_array_get_element (y, i));
    }
  else if (json_node_get_value_type (a) == G_TYPE_STRING)
    g_assert_cmpstr (json_node_get_string (a), ==, json_node_get_string (b));
  else
    g_assert_cmpfloat (json_node_get_double (a), ==, json_node_get_double (b));
}

static void
test_example (void)
{
  g_autofree char *text = read_data ("example-plan.json"), *written = NULL;
  g_autoptr(JsonNode) root = json_from_string (text, NULL), ours = NULL;
  JsonObject *results = json_object_get_object_member (json_node_get_object (root), "results");
  g_autoptr(FlAssessment) assessment = example_assessment (text, results);

  written = text_of (assessment, FALSE);
  ours = json_from_string (written, NULL);
  assert_same (ours, root);
}

/* ── records ── */

static const char move_text[] =
  "{ \"id\": \"2026-11-25/01\",\n  \"date\": \"2026-11-25\", \"machine\": \"R-03\", \"note_of_ours\": 1.50 }";
static const char yard_text[] = "{\"id\":\"NORTH\"}";
static const char chain_text[] =
  "{\"id\": \"C-3/8-20\", \"kept_at\": \"NORTH\", \"size_in\": \"3/8\", \"length_ft\": 20, \"count\": 6}";
static const char policy_text[] = "{\"house_rules\": [ {\"rule\": \"no_straps_on_machines\"} ]}";

static FlRecord *
record_of (FlKind kind, const char *text)
{
  g_autoptr(FlProblems) problems = fl_problems_new ();
  FlRecord *record = fl_record_new (kind, text, -1, "", 1, problems);

  g_assert_nonnull (record);
  return record;
}

static void
test_records (void)
{
  FlRecord *records[] = { record_of (FL_KIND_MOVE, move_text), record_of (FL_KIND_CHAIN, chain_text),
                          record_of (FL_KIND_YARD, yard_text), record_of (FL_KIND_POLICY, policy_text) };
  g_autoptr(FlAssessment) assessment = small_assessment (FALSE, (const FlRecord *const *) records, G_N_ELEMENTS (records));
  g_autofree char *without = NULL, *with = NULL, *expected = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (records); i++)
    fl_record_unref (records[i]);         /* the assessment holds its own */
  without = text_of (assessment, FALSE);
  with = text_of (assessment, TRUE);
  g_assert_cmpstr (without, ==, small_document);
  expected = g_strdup_printf ("  ],\n  \"records\": {\n   \"house_rules\": [ {\"rule\": \"no_straps_on_machines\"} ],\n"
                              "   \"yards\": [\n    %s\n   ],\n   \"chains\": [\n    %s\n   ],\n"
                              "   \"moves\": [\n    %s\n   ]\n  },\n  \"verdict\"", yard_text, chain_text, move_text);
  g_assert_nonnull (strstr (with, expected));
  g_assert_cmpuint (strlen (with), >, strlen (without));
}

/* What nobody found out is left out, and the whole is still a plan document. */
static void
test_bare (void)
{
  g_autoptr(FlAssessment) assessment = assess (NULL, NULL, 0);
  g_autoptr(GBytes) bytes = fl_assessment_to_json (assessment, FALSE);
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(FlPlan) plan = fl_plan_new_from_json (bytes, problems);
  g_autofree char *text = text_of (assessment, FALSE);

  g_assert_nonnull (plan);
  g_assert_cmpuint (fl_problems_count (problems), ==, 0);
  g_assert_nonnull (strstr (text, " \"results\": {\n  \"rule_book\": {},\n  \"tie_downs\": [],\n  \"sums\": [],\n"
                                  "  \"findings\": [],\n  \"verdict\": \"compliant\",\n  \"house\": \"met\"\n }\n}\n"));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/assessment-json/document", test_document);
  g_test_add_func ("/assessment-json/metric", test_metric);
  g_test_add_func ("/assessment-json/one-unit", test_one_unit);
  g_test_add_func ("/assessment-json/example", test_example);
  g_test_add_func ("/assessment-json/records", test_records);
  g_test_add_func ("/assessment-json/bare", test_bare);
  return g_test_run ();
}
