/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What can be wrong with a plan document: each told once, with its path, line, value and what was expected. */
#include <string.h>

#include "plan-text.h"

/* One machine, a direct tie-down and one over the blade; the numbers are its lines. */
static const char base_plan[] =
  "{\n"                                                    /* 1 */
  " \"format\": \"fairlead-plan/1\",\n"
  " \"move\": \"2026-11-25/01\",\n"
  " \"trailer\": \"T-3\",\n"
  " \"loads\": [\n"                                        /* 5 */
  "  {\n"
  "   \"machine\": \"R-03\",\n"
  "   \"facing\": \"rearward\",\n"
  "   \"rear_in\": 10\n"
  "  }\n"                                                  /* 10 */
  " ],\n"
  " \"tie_downs\": [\n"
  "  {\n"
  "   \"no\": 1,\n"
  "   \"load\": 0,\n"                                      /* 15 */
  "   \"purpose\": \"machine\",\n"
  "   \"kind\": \"direct\",\n"
  "   \"machine_point\": \"RL\",\n"
  "   \"anchors\": [\"P11R\"],\n"
  "   \"chain\": \"C-041\",\n"                             /* 20 */
  "   \"binder\": \"B-11\"\n"
  "  },\n"
  "  {\n"
  "   \"no\": 2,\n"
  "   \"purpose\": \"implement:BLD\",\n"                   /* 25 */
  "   \"kind\": \"over\",\n"
  "   \"anchors\": [\"P2R\", \"P2L\"],\n"
  "   \"through\": [\"BL\", \"BR\"],\n"
  "   \"strap\": \"S-1\",\n"
  "   \"connectors\": [{\"id\": \"X-1\", \"at\": \"anchor\"}]\n"   /* 30 */
  "  }\n"
  " ],\n"
  " \"set_aside\": {},\n"
  " \"exceptions\": [{\"rule\": \"min_chain\", \"reason\": \"light\"}]\n"
  "}\n";

/* One edit of the base plan, and the one problem that it makes. */
typedef struct
{
  const char *name, *from, *to;
  const char *path; guint line;
  const char *value;            /* NULL: absent */
  const char *expected;         /* part of what is told */
} BadCase;

static const BadCase bad_cases[] = {
  { "no-format", " \"format\": \"fairlead-plan/1\",\n", "\n", "format", 1, NULL, "missing" },
  { "format-number", "\"fairlead-plan/1\"", "1", "format", 2, "1", "text" },
  { "other-format", "fairlead-plan/1", "fairlead-fleet/1", "format", 2, "\"fairlead-fleet/1\"", "fairlead-plan/1" },
  { "later-format", "fairlead-plan/1", "fairlead-plan/2", "format", 2, "\"fairlead-plan/2\"", "fairlead-plan/1" },
  { "no-move", " \"move\": \"2026-11-25/01\",\n", "\n", "move", 1, NULL, "missing" },
  { "empty-move", "2026-11-25/01", "", "move", 3, "\"\"", "not empty" },
  { "no-trailer", " \"trailer\": \"T-3\",\n", "\n", "trailer", 1, NULL, "missing" },
  { "trailer-list", "\"T-3\"", "[\"T-3\"]", "trailer", 4, "[\"T-3\"]", "text" },
  { "aside-list", "\"set_aside\": {}", "\"set_aside\": []", "set_aside", 33, "[]", "object" },
  { "no-loads", "{\n   \"machine\": \"R-03\",\n   \"facing\": \"rearward\",\n   \"rear_in\": 10\n  }", "", "loads", 5, "[ ]",
    "at least one" },
  { "load-twice", "   \"rear_in\": 10\n  }", "   \"rear_in\": 10\n  },\n"
    "{\"machine\": \"R-03\", \"facing\": \"forward\", \"rear_in\": 200}", "loads[1]", 11,
    "{\"machine\": \"R-03\", \"facing\": \"forward\", \"rear_in\": 200}", "once" },
  { "both-kinds", "\"machine\": \"R-03\",", "\"machine\": \"R-03\", \"article\": \"A-1\",", "loads[0].article", 7, "\"A-1\"",
    "not both" },
  { "neither-kind", "   \"machine\": \"R-03\",\n", "\n", "loads[0].machine", 6, NULL, "missing" },
  { "facing-word", "\"rearward\"", "\"sideways\"", "loads[0].facing", 8, "\"sideways\"", "forward" },
  { "no-facing", "   \"facing\": \"rearward\",\n", "\n", "loads[0].facing", 6, NULL, "missing" },
  { "rear-behind", "\"rear_in\": 10", "\"rear_in\": -600.5", "loads[0].rear_in", 9, "-600.5", "-600" },
  { "rear-ahead", "\"rear_in\": 10", "\"rear_ft\": 100.5", "loads[0].rear_ft", 9, "100.5", "1" },
  { "rear-unit", "\"rear_in\": 10", "\"rear_in\": 10, \"rear_mm\": 254", "loads[0].rear_mm", 9, "254", "only one" },
  { "rear-text", "\"rear_in\": 10", "\"rear_in\": \"10\"", "loads[0].rear_in", 9, "\"10\"", "number" },
  { "no-rear", ",\n   \"rear_in\": 10", "\n", "loads[0].rear", 6, NULL, "rear_in" },
  { "null-rear", "\"rear_in\": 10", "\"rear_in\": null", "loads[0].rear_in", 9, "null", "number" },
  { "left-far", "\"rear_in\": 10", "\"rear_in\": 10, \"left_in\": 121", "loads[0].left_in", 9, "121", "120" },
  { "load-pin", "\"rear_in\": 10", "\"rear_in\": 10, \"pinned\": [\"rear\", \"chain\"]", "loads[0].pinned[1]", 9, "\"chain\"",
    "position facing rear left" },
  { "mat-mu", "\"rear_in\": 10", "\"rear_in\": 10, \"mat\": {\"kind\": \"rubber\", \"mu\": -1}", "loads[0].mat.mu", 9, "-1",
    "0" },
  { "mat-kind", "\"rear_in\": 10", "\"rear_in\": 10, \"mat\": {\"mu\": 0.6}", "loads[0].mat.kind", 9, NULL, "missing" },
  { "no-no", "   \"no\": 1,\n", "\n", "tie_downs[0].no", 13, NULL, "999" },
  { "no-zero", "\"no\": 1,", "\"no\": 0,", "tie_downs[0].no", 14, "0", "999" },
  { "no-large", "\"no\": 1,", "\"no\": 1000,", "tie_downs[0].no", 14, "1000", "999" },
  { "no-part", "\"no\": 1,", "\"no\": 1.5,", "tie_downs[0].no", 14, "1.5", "whole" },
  { "no-twice", "\"no\": 2,", "\"no\": 1,", "tie_downs[1].no", 24, "1", "tie_downs[0]" },
  { "load-index", "\"load\": 0", "\"load\": 1", "tie_downs[0].load", 15, "1", "0" },
  { "load-negative", "\"load\": 0", "\"load\": -1", "tie_downs[0].load", 15, "-1", "0" },
  { "purpose-word", "\"purpose\": \"machine\"", "\"purpose\": \"blade\"", "tie_downs[0].purpose", 16, "\"blade\"", "implement" },
  { "purpose-empty", "implement:BLD", "implement:", "tie_downs[1].purpose", 25, "\"implement:\"", "id" },
  { "no-purpose", "   \"purpose\": \"machine\",\n", "\n", "tie_downs[0].purpose", 13, NULL, "missing" },
  { "kind-word", "\"direct\"", "\"loop\"", "tie_downs[0].kind", 17, "\"loop\"", "direct" },
  { "no-point", "   \"machine_point\": \"RL\",\n", "\n", "tie_downs[0].machine_point", 13, NULL, "missing" },
  { "no-anchors", "   \"anchors\": [\"P11R\"],\n", "\n", "tie_downs[0].anchors", 13, NULL, "missing" },
  { "two-anchors", "[\"P11R\"]", "[\"P11R\", \"P1R\"]", "tie_downs[0].anchors", 19, "[\"P11R\", \"P1R\"]", "one anchor" },
  { "one-anchor", "[\"P2R\", \"P2L\"]", "[\"P2R\"]", "tie_downs[1].anchors", 27, "[\"P2R\"]", "two anchors" },
  { "empty-anchor", "\"P2L\"", "\"\"", "tie_downs[1].anchors[1]", 27, "\"\"", "not empty" },
  { "anchor-number", "\"P2L\"", "7", "tie_downs[1].anchors[1]", 27, "7", "text" },
  { "no-through", "   \"through\": [\"BL\", \"BR\"],\n", "\n", "tie_downs[1].through", 23, NULL, "over-path" },
  { "empty-through", "[\"BL\", \"BR\"]", "[]", "tie_downs[1].through", 28, "[]", "at least one" },
  { "through-number", "[\"BL\", \"BR\"]", "3", "tie_downs[1].through", 28, "3", "text" },
  { "through-direct", "\"binder\": \"B-11\"", "\"through\": [\"FL\"]", "tie_downs[0].through", 21, "[\"FL\"]", "machine_point" },
  { "point-over", "\"strap\": \"S-1\"", "\"machine_point\": \"BL\"", "tie_downs[1].machine_point", 29, "\"BL\"", "through" },
  { "chain-and-strap", "\"strap\": \"S-1\"", "\"strap\": \"S-1\", \"chain\": \"C-1\"", "tie_downs[1].strap", 29, "\"S-1\"",
    "not both" },
  { "empty-chain", "\"C-041\"", "\"\"", "tie_downs[0].chain", 20, "\"\"", "not empty" },
  { "connector-at", "\"at\": \"anchor\"", "\"at\": \"deck\"", "tie_downs[1].connectors[0].at", 30, "\"deck\"", "point" },
  { "connector-id", "\"id\": \"X-1\", ", "", "tie_downs[1].connectors[0].id", 30, NULL, "missing" },
  { "tie-pin", "\"strap\": \"S-1\"", "\"pinned\": [\"rear\"]", "tie_downs[1].pinned[0]", 29, "\"rear\"", "machine_point" },
  { "aside-point-load", "\"set_aside\": {}", "\"set_aside\": {\"points\": [{\"load\": 3, \"point\": \"A\"}]}",
    "set_aside.points[0].load", 33, "3", "0" },
  { "aside-point", "\"set_aside\": {}", "\"set_aside\": {\"points\": [{\"load\": 0}]}",
    "set_aside.points[0].point", 33, NULL, "missing" },
  { "aside-gear", "\"set_aside\": {}", "\"set_aside\": {\"gear\": [\"C-1\", \"\"]}", "set_aside.gear[1]", 33, "\"\"",
    "not empty" },
  { "exception-rule", "\"rule\": \"min_chain\", ", "", "exceptions[0].rule", 34, NULL, "missing" },
  { "exception-reason", ", \"reason\": \"light\"", "", "exceptions[0].reason", 34, NULL, "missing" },
  { "empty-reason", "\"light\"", "\"\"", "exceptions[0].reason", 34, "\"\"", "not empty" },
  { "no-subjects", "\"reason\": \"light\"", "\"reason\": \"light\", \"subject\": []", "exceptions[0].subject", 34, "[]",
    "at least one" },
  { "flag-text", "\"binder\": \"B-11\"", "\"edge_protected\": \"yes\"", "tie_downs[0].edge_protected", 21, "\"yes\"", "true" },
};

static void
check_problem (const FlProblem *problem, const BadCase *bad)
{
  g_assert_cmpstr (problem->path, ==, bad->path);
  g_assert_cmpuint (problem->line, ==, bad->line);
  g_assert_cmpstr (problem->value, ==, bad->value);
  g_assert_cmpint (problem->severity, ==, FL_SEVERITY_ERROR);
  g_assert_nonnull (strstr (problem->expected, bad->expected));
  g_assert_cmpuint (strlen (problem->expected), >, 0);
}

static void
test_bad (gconstpointer data)
{
  const BadCase *bad = data;
  g_autofree char *text = edited (base_plan, bad->from, bad->to);
  g_autoptr(GBytes) bytes = bytes_of (text);
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(FlPlan) plan = fl_plan_new_from_json (bytes, problems);

  show (problems);
  g_assert_null (plan);
  g_assert_cmpuint (fl_problems_count (problems), ==, 1);
  check_problem (fl_problems_at (problems, 0), bad);
}

static void
test_base (void)
{
  g_autoptr(FlPlan) plan = read_good (base_plan);

  g_assert_cmpuint (fl_plan_choices (plan)->tie_downs[1].load, ==, 0);   /* the default */
}

/* All of it at once, in the order of the lines. */
static void
test_every_problem (void)
{
  g_autofree char *first = edited (base_plan, "\"T-3\"", "3");
  g_autofree char *second = edited (first, "\"rearward\"", "\"left\"");
  g_autofree char *third = edited (second, "\"no\": 2", "\"no\": 1");
  g_autofree char *text = edited (third, "\"S-1\"", "null, \"wight\": 3");
  g_autoptr(GBytes) bytes = bytes_of (text);
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(FlPlan) plan = fl_plan_new_from_json (bytes, problems);
  static const char *const paths[] = { "trailer", "loads[0].facing", "tie_downs[1].no", "tie_downs[1].wight" };

  show (problems);
  g_assert_null (plan);
  g_assert_cmpuint (fl_problems_count (problems), ==, G_N_ELEMENTS (paths));
  g_assert_cmpuint (fl_problems_errors (problems), ==, 3);
  for (guint i = 0; i < G_N_ELEMENTS (paths); i++)
    g_assert_cmpstr (fl_problems_at (problems, i)->path, ==, paths[i]);
}

static void
test_unknown_key (void)
{
  g_autofree char *text = edited (base_plan, "\"binder\": \"B-11\"", "\"bindr\": \"B-11\"");
  g_autoptr(GBytes) bytes = bytes_of (text);
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(FlPlan) plan = fl_plan_new_from_json (bytes, problems);

  g_assert_nonnull (plan);
  g_assert_cmpuint (fl_problems_count (problems), ==, 1);
  g_assert_cmpint (fl_problems_at (problems, 0)->severity, ==, FL_SEVERITY_WARNING);
  g_assert_cmpstr (fl_problems_at (problems, 0)->path, ==, "tie_downs[0].bindr");
  g_assert_cmpuint (fl_problems_at (problems, 0)->line, ==, 21);
}

/* Whatever stands in results: nobody reads it. */
static void
test_results_ignored (void)
{
  static const char *const results[] = { "{\"verdict\": 7, \"x\": [{}]}", "\"none\"", "[1, 2]", "null" };

  for (gsize i = 0; i < G_N_ELEMENTS (results); i++)
    {
      g_autofree char *with = g_strdup_printf ("\"uid\": \"a\", \"results\": %s,\n \"set_aside\": {}", results[i]);
      g_autofree char *text = edited (base_plan, "\"set_aside\": {}", with);
      g_autoptr(FlPlan) plan = read_good (text);
      g_autofree char *written = text_of (plan);

      g_assert_null (strstr (written, "results"));
    }
}

static char *
with_many (guint n)
{
  g_autoptr(GString) ties = g_string_new ("\"tie_downs\": [");

  for (guint i = 1; i <= n; i++)
    g_string_append_printf (ties, "%s{\"no\": %u, \"purpose\": \"machine\", \"kind\": \"direct\", \"machine_point\": \"A\","
                            " \"anchors\": [\"P1L\"]}", i > 1 ? ", " : "", i);
  g_string_append (ties, "], \"unknown\": [");
  return edited (base_plan, "\"tie_downs\": [", ties->str);
}

static void
test_counts (void)
{
  for (guint n = 32; n <= 33; n++)
    {
      g_autofree char *text = with_many (n);
      g_autoptr(GBytes) bytes = bytes_of (text);
      g_autoptr(FlProblems) problems = fl_problems_new ();
      g_autoptr(FlPlan) plan = fl_plan_new_from_json (bytes, problems);

      g_assert_cmpuint (fl_problems_errors (problems), ==, n - 32);
      g_assert_true ((plan != NULL) == (n == 32));
      if (n == 33)
        g_assert_cmpstr (fl_problems_at (problems, 0)->path, ==, "tie_downs");
    }
}

static void
test_connector_counts (void)
{
  static const char four[] = "{\"id\": \"A\", \"at\": \"point\"}, {\"id\": \"B\", \"at\": \"point\"}, "
                             "{\"id\": \"C\", \"at\": \"point\"}, {\"id\": \"D\", \"at\": \"anchor\"}";
  g_autofree char *five = g_strdup_printf ("{\"id\": \"X-1\", \"at\": \"anchor\"}, %s", four);
  g_autofree char *good = edited (base_plan, "{\"id\": \"X-1\", \"at\": \"anchor\"}", four);
  g_autofree char *bad = edited (base_plan, "{\"id\": \"X-1\", \"at\": \"anchor\"}", five);
  g_autoptr(FlPlan) plan = read_good (good);
  g_autoptr(GBytes) bytes = bytes_of (bad);
  g_autoptr(FlProblems) problems = fl_problems_new ();

  g_assert_cmpuint (fl_plan_choices (plan)->tie_downs[1].n_connectors, ==, 4);
  g_assert_null (fl_plan_new_from_json (bytes, problems));
  g_assert_cmpuint (fl_problems_count (problems), ==, 1);
  g_assert_cmpstr (fl_problems_at (problems, 0)->path, ==, "tie_downs[1].connectors");
  g_assert_cmpuint (fl_problems_at (problems, 0)->line, ==, 30);
}

static void
test_bad_plans (void)
{
  g_autofree char *bad = edited (base_plan, "\"no\": 2", "\"no\": 1");
  g_autofree char *text = g_strdup_printf ("{\"plans\": [\n%s,\n%s]}", base_plan, bad);
  g_autoptr(GBytes) bytes = bytes_of (text);
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(GPtrArray) plans = fl_plans_new_from_json (bytes, problems);

  show (problems);
  g_assert_null (plans);
  g_assert_cmpuint (fl_problems_count (problems), ==, 1);
  g_assert_cmpstr (fl_problems_at (problems, 0)->path, ==, "plans[1].tie_downs[1].no");
  g_assert_cmpuint (fl_problems_at (problems, 0)->line, ==, 1 + 36 + 24);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plan-problems/base", test_base);
  for (gsize i = 0; i < G_N_ELEMENTS (bad_cases); i++)
    {
      g_autofree char *path = g_strconcat ("/plan-problems/bad/", bad_cases[i].name, NULL);

      g_test_add_data_func (path, &bad_cases[i], test_bad);
    }
  g_test_add_func ("/plan-problems/every-problem", test_every_problem);
  g_test_add_func ("/plan-problems/unknown-key", test_unknown_key);
  g_test_add_func ("/plan-problems/results-ignored", test_results_ignored);
  g_test_add_func ("/plan-problems/counts", test_counts);
  g_test_add_func ("/plan-problems/connector-counts", test_connector_counts);
  g_test_add_func ("/plan-problems/bad-plans", test_bad_plans);
  return g_test_run ();
}
