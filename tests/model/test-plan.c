/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The plan document and the plan in memory: what it holds is read and written whole, changed in one place. */
#include <json-glib/json-glib.h>
#include <math.h>
#include <string.h>

#include "plan-text.h"

/* ── a plan with every key, as the writer lays it out ── */

static const char full_plan[] =
  "{\n"
  " \"format\": \"fairlead-plan/1\",\n"
  " \"fleet\": \"Larkfield Drainage District\",\n"
  " \"move\": \"2026-11-25/07\",\n"
  " \"trailer\": \"T-3\",\n"
  " \"truck\": \"K-2\",\n"
  " \"loads\": [\n"
  "  {\n"
  "   \"machine\": \"L-02\",\n"
  "   \"position\": \"low\",\n"
  "   \"facing\": \"forward\",\n"
  "   \"rear_m\": 0.1,\n"
  "   \"left_mm\": -50,\n"
  "   \"blocked_forward\": true,\n"
  "   \"chocked\": true,\n"
  "   \"mat\": {\n"
  "    \"kind\": \"rubber\",\n"
  "    \"mu\": 0.6\n"
  "   },\n"
  "   \"pinned\": [\n"
  "    \"position\",\n"
  "    \"facing\",\n"
  "    \"rear\",\n"
  "    \"left\"\n"
  "   ]\n"
  "  },\n"
  "  {\n"
  "   \"article\": \"A-1\",\n"
  "   \"facing\": \"rearward\",\n"
  "   \"rear_ft\": 17.5,\n"
  "   \"mat\": {\n"
  "    \"kind\": \"unmarked\"\n"
  "   }\n"
  "  }\n"
  " ],\n"
  " \"set_aside\": {\n"
  "  \"gear\": [\n"
  "   \"C-3/8-20 #3\"\n"
  "  ],\n"
  "  \"anchors\": [\n"
  "   \"P4L\",\n"
  "   \"P4R\"\n"
  "  ],\n"
  "  \"points\": [\n"
  "   {\n"
  "    \"load\": 1,\n"
  "    \"point\": \"E1\"\n"
  "   }\n"
  "  ]\n"
  " },\n"
  " \"acknowledged\": [\n"
  "  {\n"
  "   \"rule\": \"unmeasured\",\n"
  "   \"subject\": [\n"
  "    \"trailer T-3\",\n"
  "    \"load L-02\"\n"
  "   ],\n"
  "   \"reason\": \"looked at, all pockets are sound\"\n"
  "  },\n"
  "  {\n"
  "   \"rule\": \"typical_weight\",\n"
  "   \"reason\": \"same model as on the ticket\"\n"
  "  }\n"
  " ],\n"
  " \"exceptions\": [\n"
  "  {\n"
  "   \"rule\": \"min_chain\",\n"
  "   \"subject\": \"tie-down 2\",\n"
  "   \"reason\": \"light article\",\n"
  "   \"by\": \"P-1\"\n"
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
  "   \"chain\": \"C-3/8-20 #1\",\n"
  "   \"binder\": \"B-11\",\n"
  "   \"connectors\": [\n"
  "    {\n"
  "     \"id\": \"X-1\",\n"
  "     \"at\": \"point\"\n"
  "    },\n"
  "    {\n"
  "     \"id\": \"X-2\",\n"
  "     \"at\": \"anchor\"\n"
  "    }\n"
  "   ],\n"
  "   \"pinned\": [\n"
  "    \"purpose\",\n"
  "    \"machine_point\",\n"
  "    \"anchors\",\n"
  "    \"chain\",\n"
  "    \"strap\",\n"
  "    \"binder\",\n"
  "    \"connectors\"\n"
  "   ]\n"
  "  },\n"
  "  {\n"
  "   \"no\": 999,\n"
  "   \"load\": 1,\n"
  "   \"purpose\": \"implement:BLD\",\n"
  "   \"kind\": \"over\",\n"
  "   \"anchors\": [\n"
  "    \"P2R\",\n"
  "    \"P2L\"\n"
  "   ],\n"
  "   \"through\": \"across\",\n"
  "   \"strap\": \"S-4\",\n"
  "   \"edge_protected\": true\n"
  "  },\n"
  "  {\n"
  "   \"no\": 3,\n"
  "   \"load\": 0,\n"
  "   \"purpose\": \"machine\",\n"
  "   \"kind\": \"over\",\n"
  "   \"anchors\": [\n"
  "    \"P6R\",\n"
  "    \"P6L\"\n"
  "   ],\n"
  "   \"through\": [\n"
  "    \"FL\",\n"
  "    \"FR\"\n"
  "   ],\n"
  "   \"chain\": \"C-050\"\n"
  "  }\n"
  " ]\n"
  "}\n";

static void
check_full_loads (const FlPlanChoices *choices)
{
  const FlPlanLoad *first = &choices->loads[0], *second = &choices->loads[1];

  g_assert_cmpuint (choices->n_loads, ==, 2);
  g_assert_cmpstr (first->id, ==, "L-02");
  g_assert_false (first->article);
  g_assert_cmpstr (first->position, ==, "low");
  g_assert_cmpint (first->facing, ==, FL_FORWARD);
  g_assert_true (first->rear.value == 0.1 && first->rear.unit == FL_UNIT_M);
  g_assert_true (first->left.value == -50.0 && first->left.unit == FL_UNIT_MM);
  g_assert_true (first->blocked_forward && first->chocked);
  g_assert_cmpstr (first->mat, ==, "rubber");
  g_assert_true (first->mat_mu == 0.6);
  g_assert_cmpuint (first->pinned, ==, FL_PIN_PLACE);
  g_assert_cmpstr (second->id, ==, "A-1");
  g_assert_true (second->article);
  g_assert_null (second->position);
  g_assert_cmpint (second->facing, ==, FL_REARWARD);
  g_assert_true (second->rear.value == 17.5 && second->rear.unit == FL_UNIT_FT);
  g_assert_cmpint (second->left.unit, ==, FL_UNIT_NONE);
  g_assert_false (second->blocked_forward || second->chocked);
  g_assert_cmpstr (second->mat, ==, "unmarked");
  g_assert_true (isnan (second->mat_mu));
  g_assert_cmpuint (second->pinned, ==, 0);
}

static void
check_full_tie_downs (const FlPlanChoices *choices)
{
  const FlTieDown *ties = choices->tie_downs;

  g_assert_cmpuint (choices->n_tie_downs, ==, 3);
  g_assert_cmpuint (ties[0].no, ==, 1);
  g_assert_cmpint (ties[0].purpose, ==, FL_FOR_LOAD);
  g_assert_false (ties[0].over);
  g_assert_cmpstr (ties[0].point, ==, "RL");
  g_assert_cmpstr (ties[0].anchors[0], ==, "P11R");
  g_assert_null (ties[0].anchors[1]);
  g_assert_cmpstr (ties[0].chain, ==, "C-3/8-20 #1");
  g_assert_cmpstr (ties[0].binder, ==, "B-11");
  g_assert_null (ties[0].strap);
  g_assert_cmpuint (ties[0].n_connectors, ==, 2);
  g_assert_cmpstr (ties[0].connectors[1].id, ==, "X-2");
  g_assert_false (ties[0].connectors[0].at_anchor);
  g_assert_true (ties[0].connectors[1].at_anchor);
  g_assert_cmpuint (ties[0].pinned, ==, FL_PIN_TIE_DOWN);
  g_assert_cmpuint (ties[1].no, ==, 999);
  g_assert_cmpuint (ties[1].load, ==, 1);
  g_assert_cmpint (ties[1].purpose, ==, FL_FOR_IMPLEMENT);
  g_assert_cmpstr (ties[1].implement, ==, "BLD");
  g_assert_true (ties[1].over && ties[1].edge_protected);
  g_assert_null (ties[1].point);
  g_assert_cmpstr (ties[1].anchors[1], ==, "P2L");
  g_assert_cmpstr (ties[1].through[0], ==, "across");
  g_assert_null (ties[1].through[1]);
  g_assert_cmpstr (ties[1].strap, ==, "S-4");
  g_assert_cmpstr (ties[2].through[1], ==, "FR");
}

static void
check_full_rest (const FlPlanChoices *choices)
{
  g_assert_cmpstr (choices->fleet, ==, "Larkfield Drainage District");
  g_assert_cmpstr (choices->move, ==, "2026-11-25/07");
  g_assert_cmpstr (choices->trailer, ==, "T-3");
  g_assert_cmpstr (choices->truck, ==, "K-2");
  g_assert_cmpstr (choices->aside_gear[0], ==, "C-3/8-20 #3");
  g_assert_null (choices->aside_gear[1]);
  g_assert_cmpstr (choices->aside_anchors[1], ==, "P4R");
  g_assert_cmpuint (choices->n_aside_points, ==, 1);
  g_assert_cmpuint (choices->aside_points[0].load, ==, 1);
  g_assert_cmpstr (choices->aside_points[0].point, ==, "E1");
  g_assert_cmpuint (choices->n_acknowledged, ==, 3);
  g_assert_cmpstr (choices->acknowledged[0].subject, ==, "trailer T-3");
  g_assert_cmpstr (choices->acknowledged[1].subject, ==, "load L-02");
  g_assert_cmpstr (choices->acknowledged[1].reason, ==, "looked at, all pockets are sound");
  g_assert_null (choices->acknowledged[2].subject);
  g_assert_cmpuint (choices->n_exceptions, ==, 1);
  g_assert_cmpstr (choices->exceptions[0].rule, ==, "min_chain");
  g_assert_cmpstr (choices->exceptions[0].by, ==, "P-1");
}

static void
test_full (void)
{
  g_autoptr(FlPlan) plan = read_good (full_plan);
  g_autofree char *written = text_of (plan);

  check_full_loads (fl_plan_choices (plan));
  check_full_tie_downs (fl_plan_choices (plan));
  check_full_rest (fl_plan_choices (plan));
  g_assert_cmpstr (written, ==, full_plan);
}

/* ── the design's example ── */

static void
test_example (void)
{
  g_autofree char *text = read_data ("example-plan.json");
  g_autoptr(FlPlan) plan = read_good (text);
  g_autofree char *written = text_of (plan);
  g_autoptr(FlPlan) again = read_good (written);
  g_autofree char *rewritten = text_of (again);
  g_autoptr(JsonNode) before = json_from_string (text, NULL), after = json_from_string (written, NULL);

  g_assert_cmpstr (written, ==, rewritten);
  json_object_remove_member (json_node_get_object (before), "results");
  g_assert_true (json_node_equal (before, after));
  /* The example was laid out by another program with one space a level: its choices are ours to the byte. */
  g_assert_cmpmem (written, strlen (written) - strlen ("\n}\n"), text, strlen (written) - strlen ("\n}\n"));
}

/* ── any other text ── */

/* A document that breaks off anywhere is refused with a problem; nothing crashes. A prime step meets every kind of place. */
static void
test_truncated (void)
{
  for (gsize length = 0; length < strlen (full_plan) - 1; length += 37)
    {
      g_autoptr(GBytes) bytes = g_bytes_new (full_plan, length);
      g_autoptr(FlProblems) problems = fl_problems_new ();

      g_assert_null (fl_plan_new_from_json (bytes, problems));
      g_assert_cmpuint (fl_problems_errors (problems), >, 0);
    }
}

/* A document is read or its problems are told, never both, never neither; and what is read can be written and read again. */
static void
read_any (JsonNode *root)
{
  g_autofree char *text = json_to_string (root, FALSE);
  g_autoptr(GBytes) bytes = bytes_of (text), written = NULL;
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(FlPlan) plan = fl_plan_new_from_json (bytes, problems), again = NULL;

  g_assert_true ((plan == NULL) == (fl_problems_errors (problems) > 0));
  if (plan == NULL)
    return;
  written = fl_plan_to_json (plan);
  again = fl_plan_new_from_json (written, NULL);
  g_assert_nonnull (again);
}

/* Each member of the tree in turn becomes another kind of value; which one changes from member to member. */
static void
mutate (JsonNode *root, JsonNode *node, guint *count)
{
  static const char *const values[] = { "null", "[]", "-1.5", "{}", "\"\"", "[null]", "[{}]", "true", "[7, \"a\"]" };
  g_autoptr(GList) keys = JSON_NODE_HOLDS_OBJECT (node) ? json_object_get_members (json_node_get_object (node)) : NULL;

  for (GList *key = keys; key != NULL; key = key->next)
    {
      JsonObject *object = json_node_get_object (node);
      g_autofree char *name = g_strdup (key->data);      /* json-glib frees its own with the value */
      JsonNode *before = json_node_copy (json_object_get_member (object, name));

      json_object_set_member (object, name, json_from_string (values[(*count)++ % G_N_ELEMENTS (values)], NULL));
      read_any (root);
      json_object_set_member (object, name, before);
      mutate (root, before, count);
    }
  for (guint i = 0; JSON_NODE_HOLDS_ARRAY (node) && i < json_array_get_length (json_node_get_array (node)); i++)
    mutate (root, json_array_get_element (json_node_get_array (node), i), count);
}

static void
test_other_types (void)
{
  g_autoptr(JsonNode) root = json_from_string (full_plan, NULL);
  guint count = 0;

  mutate (root, root, &count);
  g_assert_cmpuint (count, >, 60);
  read_any (root);
}

/* ── several plans ── */

static void
test_plans (void)
{
  g_autofree char *text = g_strdup_printf ("{\"plans\": [%s, %s],\n \"unplanned\": [{\"move\": \"x\"}]}", full_plan, full_plan);
  g_autoptr(GBytes) many = bytes_of (text), one = bytes_of (full_plan);
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(GPtrArray) plans = fl_plans_new_from_json (many, problems), single = fl_plans_new_from_json (one, problems);
  g_autofree char *second = NULL, *only = NULL;

  show (problems);
  g_assert_cmpuint (fl_problems_count (problems), ==, 0);
  g_assert_cmpuint (plans->len, ==, 2);
  g_assert_cmpuint (single->len, ==, 1);
  second = text_of (g_ptr_array_index (plans, 1));
  only = text_of (g_ptr_array_index (single, 0));
  g_assert_cmpstr (second, ==, full_plan);
  g_assert_cmpstr (only, ==, full_plan);
}

/* ── in memory ── */

static void
test_with_place (void)
{
  g_autoptr(FlPlan) plan = read_good (full_plan);
  g_autoptr(FlPlan) moved = fl_plan_with_place (plan, 1, FL_FORWARD, FL_IN (12));
  const FlPlanLoad *load = &fl_plan_choices (moved)->loads[1];
  g_autofree char *before = text_of (plan), *after = text_of (moved);
  g_autofree char *expected = edited (full_plan, "\"rearward\",\n   \"rear_ft\": 17.5", "\"forward\",\n   \"rear_in\": 12");

  g_assert_cmpint (load->facing, ==, FL_FORWARD);
  g_assert_cmpstr (before, ==, full_plan);
  g_assert_cmpstr (after, ==, expected);
}

static void
test_with_tie_down (void)
{
  g_autoptr(FlPlan) plan = read_good (full_plan);
  FlTieDown tie = { .no = 4, .point = "FR", .anchors = { "P1L", NULL }, .chain = "C-9" };
  g_autoptr(FlPlan) appended = fl_plan_with_tie_down (plan, 3, &tie);
  g_autoptr(FlPlan) replaced = fl_plan_with_tie_down (plan, 1, &tie);
  g_autoptr(FlPlan) removed = fl_plan_with_tie_down (plan, 0, NULL);
  g_autoptr(FlPlan) back = fl_plan_with_tie_down (appended, 3, NULL);
  g_autofree char *before = text_of (plan), *after = text_of (back);

  g_assert_cmpuint (fl_plan_choices (appended)->n_tie_downs, ==, 4);
  g_assert_cmpstr (fl_plan_choices (appended)->tie_downs[3].chain, ==, "C-9");
  g_assert_cmpuint (fl_plan_choices (replaced)->n_tie_downs, ==, 3);
  g_assert_cmpuint (fl_plan_choices (replaced)->tie_downs[1].no, ==, 4);
  g_assert_cmpuint (fl_plan_choices (replaced)->tie_downs[2].no, ==, 3);
  g_assert_cmpuint (fl_plan_choices (removed)->n_tie_downs, ==, 2);
  g_assert_cmpuint (fl_plan_choices (removed)->tie_downs[0].no, ==, 999);
  g_assert_cmpstr (before, ==, full_plan);
  g_assert_cmpstr (after, ==, full_plan);
}

static void
test_with_trailer (void)
{
  g_autoptr(FlPlan) plan = read_good (full_plan);
  g_autoptr(FlPlan) rollback = fl_plan_with_trailer (plan, "T-9", NULL);

  g_assert_cmpstr (fl_plan_choices (rollback)->trailer, ==, "T-9");
  g_assert_null (fl_plan_choices (rollback)->truck);
  g_assert_cmpstr (fl_plan_choices (plan)->trailer, ==, "T-3");
}

/* The copy is deep: what it was made from may go. */
static void
test_deep_copy (void)
{
  FlPlan *first = read_good (full_plan);
  g_autoptr(FlPlan) second = fl_plan_new (fl_plan_choices (first));
  FlPlan *third = fl_plan_ref (first);
  g_autofree char *text = NULL;

  fl_plan_unref (first);
  g_assert_cmpuint (fl_plan_choices (third)->n_loads, ==, 2);
  fl_plan_unref (third);
  text = text_of (second);
  g_assert_cmpstr (text, ==, full_plan);
}

static void
test_for_move (void)
{
  g_autofree char *text = read_data ("example-fleet.json");
  g_autoptr(GBytes) bytes = bytes_of (text);
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(FlFleet) fleet = fl_fleet_new_from_json (bytes, problems);
  const FlMove *move = fl_record_move (fl_fleet_find (fleet, FL_KIND_MOVE, "2026-11-25/01"));
  g_autoptr(FlPlan) plan = fl_plan_for_move (fleet, move, NULL, NULL);
  g_autoptr(FlPlan) other = fl_plan_for_move (fleet, move, "T-9", "K-9");
  const FlPlanChoices *choices = fl_plan_choices (plan);

  g_assert_cmpstr (choices->fleet, ==, "Larkfield Drainage District");
  g_assert_cmpstr (choices->move, ==, "2026-11-25/01");
  g_assert_cmpstr (choices->trailer, ==, move->trailer);
  g_assert_cmpstr (choices->truck, ==, move->truck);
  g_assert_cmpuint (choices->n_loads, ==, 1);
  g_assert_cmpstr (choices->loads[0].id, ==, "R-03");
  g_assert_cmpint (choices->loads[0].facing, ==, FL_FORWARD);
  g_assert_false (fl_quantity_known (choices->loads[0].rear));
  g_assert_cmpuint (choices->n_tie_downs, ==, 0);
  g_assert_cmpstr (fl_plan_choices (other)->trailer, ==, "T-9");
  g_assert_cmpstr (fl_plan_choices (other)->truck, ==, "K-9");
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan/full", test_full);
  g_test_add_func ("/plan/example", test_example);
  g_test_add_func ("/plan/truncated", test_truncated);
  g_test_add_func ("/plan/other-types", test_other_types);
  g_test_add_func ("/plan/plans", test_plans);
  g_test_add_func ("/plan/with-place", test_with_place);
  g_test_add_func ("/plan/with-tie-down", test_with_tie_down);
  g_test_add_func ("/plan/with-trailer", test_with_trailer);
  g_test_add_func ("/plan/deep-copy", test_deep_copy);
  g_test_add_func ("/plan/for-move", test_for_move);
  return g_test_run ();
}
