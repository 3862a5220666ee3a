/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-test-judge.h: for the tests of judge and planner: a case is a fleet and a plan as JSON trees (the example's, or the demo's), a
 * few members of which a test changes before it has the plan judged. The trees are json-glib's own and share nothing with the
 * program's reader. Header only. */
#ifndef FL_TEST_JUDGE_H
#define FL_TEST_JUDGE_H

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "fl-judge.h"
#include "fl-test-book.h"

typedef struct
{
  JsonNode *fleet_json, *plan_json;
  FlBook *book;                 /* tightened by the fleet's house rules */
  FlFleet *fleet;
  FlPlan *plan;
  FlAssessment *judged;
  gboolean quiet;               /* a refused document is not told of */
} Case;

/* ── JSON trees ── */

/* The tree of a JSON text with ' for ". (transfer full) */
static inline JsonNode *
tree_of (const char *json)
{
  g_autofree char *text = g_strdelimit (g_strdup (json), "'", '"');
  g_autoptr(GError) error = NULL;
  JsonNode *node = json_from_string (text, &error);

  g_assert_no_error (error);
  g_assert_nonnull (node);
  return node;
}

static inline JsonNode *
tree_of_file (const char *path)
{
  g_autoptr(JsonParser) parser = json_parser_new ();
  g_autoptr(GError) error = NULL;

  json_parser_load_from_file (parser, path, &error);
  g_assert_no_error (error);
  return json_parser_steal_root (parser);
}

/* The node at "machines[0].tie_points[1]"; NULL if there is none. */
static inline JsonNode *
tree_at (JsonNode *root, const char *path)
{
  g_auto(GStrv) steps = g_strsplit_set (path, ".[", -1);
  JsonNode *at = root;

  for (guint i = 0; steps[i] != NULL && at != NULL; i++)
    {
      guint index = (guint) strtoul (steps[i], NULL, 10);

      if (*steps[i] == '\0')
        continue;
      if (g_str_has_suffix (steps[i], "]"))
        at = index < json_array_get_length (json_node_get_array (at)) ? json_array_get_element (json_node_get_array (at), index) : NULL;
      else
        at = json_object_get_member (json_node_get_object (at), steps[i]);
    }
  return at;
}

static inline JsonNode *
tree_parent (JsonNode *root, const char *path, char **last)
{
  const char *point = strrchr (path, '.'), *bracket = strrchr (path, '['), *dot = point == NULL || bracket > point ? bracket : point;
  g_autofree char *above = dot != NULL ? g_strndup (path, (gsize) (dot - path)) : g_strdup ("");
  JsonNode *parent = tree_at (root, above);

  *last = g_strdup (dot != NULL ? dot + 1 : path);
  g_assert_nonnull (parent);
  return parent;
}

/* Sets a member, or appends an element to a list (index = its length). */
static inline void
tree_set (JsonNode *root, const char *path, const char *json)
{
  g_autofree char *last = NULL;
  JsonNode *parent = tree_parent (root, path, &last), *value = tree_of (json);
  guint index;

  if (JSON_NODE_HOLDS_OBJECT (parent))
    {
      json_object_set_member (json_node_get_object (parent), last, value);
      return;
    }
  index = (guint) strtoul (last, NULL, 10);
  g_assert_cmpuint (index, ==, json_array_get_length (json_node_get_array (parent)));
  json_array_add_element (json_node_get_array (parent), value);
}

/* Takes out a member or an element; it must be there. */
static inline void
tree_drop (JsonNode *root, const char *path)
{
  g_autofree char *last = NULL;
  JsonNode *parent = tree_parent (root, path, &last);

  g_assert_nonnull (tree_at (root, path));
  if (JSON_NODE_HOLDS_OBJECT (parent))
    json_object_remove_member (json_node_get_object (parent), last);
  else
    json_array_remove_element (json_node_get_array (parent), (guint) strtoul (last, NULL, 10));
}

/* A copy that shares nothing. (transfer full) */
static inline JsonNode *
tree_copy (JsonNode *root)
{
  g_autofree char *text = json_to_string (root, FALSE);
  g_autoptr(GError) error = NULL;
  JsonNode *copy = json_from_string (text, &error);

  g_assert_no_error (error);
  return copy;
}

static inline GBytes *
tree_bytes (JsonNode *root)
{
  char *text = json_to_string (root, FALSE);

  return g_bytes_new_take (text, strlen (text));
}

/* ── cases ── */

static inline char *
test_file (const char *name)
{
  return g_test_build_filename (G_TEST_DIST, "data", name, NULL);
}

static inline Case *
case_new (void)
{
  g_autofree char *fleet = test_file ("example-fleet.json"), *plan = test_file ("example-plan.json");
  Case *c = g_new0 (Case, 1);

  c->fleet_json = tree_of_file (fleet);
  c->plan_json = tree_of_file (plan);
  tree_drop (c->plan_json, "results");
  return c;
}

static inline void
case_forget (Case *c)
{
  g_clear_pointer (&c->judged, fl_assessment_unref);
  g_clear_pointer (&c->plan, fl_plan_unref);
  g_clear_pointer (&c->fleet, fl_fleet_unref);
  g_clear_pointer (&c->book, fl_book_unref);
}

static inline void
case_free (Case *c)
{
  case_forget (c);
  json_node_unref (c->fleet_json);
  json_node_unref (c->plan_json);
  g_free (c);
}
G_DEFINE_AUTOPTR_CLEANUP_FUNC (Case, case_free)

/* The shipped book with the fleet's house rules. (transfer full) */
static inline FlBook *
book_for (const FlFleet *fleet)
{
  g_autoptr(FlBook) book = test_book ();
  g_autoptr(FlProblems) problems = fl_problems_new ();
  FlBook *tightened = fl_book_tighten (book, fl_fleet_policy (fleet), problems);

  test_print_problems (problems);
  g_assert_nonnull (tightened);
  return tightened;
}

/* Reads the trees anew; FALSE where the fleet or the plan is refused. */
static inline gboolean
case_read (Case *c)
{
  g_autoptr(GBytes) fleet = tree_bytes (c->fleet_json);
  g_autoptr(GBytes) plan = tree_bytes (c->plan_json);
  g_autoptr(FlProblems) problems = fl_problems_new ();

  case_forget (c);
  c->fleet = fl_fleet_new_from_json (fleet, problems);
  c->plan = fl_plan_new_from_json (plan, problems);
  if (c->fleet == NULL || c->plan == NULL)
    {
      if (!c->quiet)
        test_print_problems (problems);
      g_assert_cmpuint (fl_problems_count (problems), >, 0);
      return FALSE;
    }
  c->book = book_for (c->fleet);
  return TRUE;
}

/* Reads and judges; the plan must be one that can be judged. */
static inline void
judge (Case *c)
{
  g_autoptr(GError) error = NULL;

  g_assert_true (case_read (c));
  c->judged = fl_judge_plan (c->book, c->fleet, c->plan, &error);
  g_assert_no_error (error);
  g_assert_nonnull (c->judged);
}

#define fleet_set(c, path, json) tree_set ((c)->fleet_json, (path), (json))
#define fleet_drop(c, path) tree_drop ((c)->fleet_json, (path))
#define plan_set(c, path, json) tree_set ((c)->plan_json, (path), (json))
#define plan_drop(c, path) tree_drop ((c)->plan_json, (path))

/* ── what was found ── */

/* The worst finding of a rule; `about` (NULL: any): what its subject ends in. NULL if there is none. */
static inline const FlFinding *
found (const Case *c, const char *rule, const char *about)
{
  gsize n;
  const FlFinding *findings = fl_assessment_findings (c->judged, &n);

  for (gsize i = 0; i < n; i++)
    if (strcmp (findings[i].rule, rule) == 0 && (about == NULL || g_str_has_suffix (findings[i].subject, about)))
      return &findings[i];
  return NULL;
}

/* The text that people read. (transfer full) */
static inline char *
text_of (const FlFinding *finding)
{
  return fl_words_finding (NULL, finding, FALSE);
}

/* One of its steps has these words, and none an open hole. */
static inline gboolean
step_says (const FlFinding *f, const char *words)
{
  gboolean there = FALSE;

  for (gsize i = 0; i < f->n_steps; i++)
    {
      g_autofree char *text = fl_words_message (NULL, f->steps[i].message, f->steps[i].facts, f->steps[i].n_facts, FALSE);

      g_assert_null (strchr (text, '{'));
      there = there || strstr (text, words) != NULL;
      g_test_message ("step: %s", text);
    }
  return there;
}

/* What the axle of that name carries, pounds; NaN if there is none. */
static inline double
axle_load (const Case *c, const char *name)
{
  const FlAssessmentParts *parts = fl_assessment_parts (c->judged);

  for (gsize i = 0; i < parts->n_axles; i++)
    if (strcmp (parts->axles[i].axle, name) == 0)
      return fl_quantity_in (parts->axles[i].load, FL_UNIT_LB);
  return NAN;
}

/* How many findings of a rule have a verdict. */
static inline guint
count_of (const Case *c, const char *rule, FlVerdict verdict)
{
  gsize n;
  guint count = 0;
  const FlFinding *findings = fl_assessment_findings (c->judged, &n);

  for (gsize i = 0; i < n; i++)
    count += strcmp (findings[i].rule, rule) == 0 && findings[i].verdict == verdict;
  return count;
}

static inline void
print_findings (const Case *c)
{
  gsize n;
  const FlFinding *findings = fl_assessment_findings (c->judged, &n);

  for (gsize i = 0; i < n; i++)
    {
      g_autofree char *text = text_of (&findings[i]);

      g_test_message ("%-8s %-8s %-16s %-18s %s", fl_verdict_id (findings[i].verdict), fl_standing_id (findings[i].standing), findings[i].rule,
                      findings[i].subject, text);
    }
}

/* The worst finding of the rule about it has this standing and this verdict, a text without open holes, and a citation. */
static inline const FlFinding *
expect (const Case *c, const char *rule, const char *about, FlStanding standing, FlVerdict verdict)
{
  const FlFinding *f = found (c, rule, about);
  g_autofree char *text = f != NULL ? text_of (f) : NULL;

  if (f == NULL || f->verdict != verdict || f->standing != standing)
    print_findings (c);
  g_assert_nonnull (f);
  g_test_message ("%s", text);
  g_assert_cmpstr (fl_verdict_id (f->verdict), ==, fl_verdict_id (verdict));
  g_assert_cmpstr (fl_standing_id (f->standing), ==, fl_standing_id (standing));
  g_assert_null (strchr (text, '{'));
  g_assert_nonnull (f->citation);
  g_assert_cmpstr (f->citation, !=, "");
  return f;
}

/* Its need and have, each in its unit, to a tenth. FL_UNIT_NONE: that side is not known. */
static inline void
expect_figures (const FlFinding *f, FlQuantity need, FlQuantity have)
{
  g_assert_true (fl_quantity_known (f->need) == fl_quantity_known (need));
  g_assert_true (fl_quantity_known (f->have) == fl_quantity_known (have));
  if (fl_quantity_known (need))
    g_assert_cmpfloat_with_epsilon (fl_quantity_in (f->need, need.unit), need.value, 0.06);
  if (fl_quantity_known (have))
    g_assert_cmpfloat_with_epsilon (fl_quantity_in (f->have, have.unit), have.value, 0.06);
}

static inline void
expect_words (const FlFinding *f, const char *words)
{
  g_autofree char *text = text_of (f);

  if (strstr (text, words) == NULL)
    g_test_message ("not there: \"%s\" in \"%s\"", words, text);
  g_assert_nonnull (strstr (text, words));
}

/* Verdict of the whole plan and of the house. */
static inline void
expect_whole (const Case *c, FlPlanVerdict verdict, FlHouseVerdict house)
{
  if (fl_assessment_verdict (c->judged) != verdict || fl_assessment_house (c->judged) != house)
    print_findings (c);
  g_assert_cmpstr (fl_plan_verdict_id (fl_assessment_verdict (c->judged)), ==, fl_plan_verdict_id (verdict));
  g_assert_cmpstr (fl_house_verdict_id (fl_assessment_house (c->judged)), ==, fl_house_verdict_id (house));
}

static inline char *
result_text (const FlAssessment *assessment)
{
  g_autoptr(GBytes) bytes = fl_assessment_to_json (assessment, TRUE);
  gsize n;
  const char *data = g_bytes_get_data (bytes, &n);

  return g_strndup (data, n);
}

#endif
