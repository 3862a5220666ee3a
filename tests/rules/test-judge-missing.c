/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is missing: each member of the example's records and plan is taken out by itself, and each of its numbers is made nought, huge
 * and negative. Each time the document is refused with a problem, or it is judged: then the result is JSON without anything that is no
 * number, and every finding speaks in whole sentences. */
#include "fl-test-judge.h"

/* ── going through all members ── */

typedef void (*Visit) (const char *path, JsonNode *node, gpointer data);

static void
walk (JsonNode *node, const char *path, Visit visit, gpointer data)
{
  if (JSON_NODE_HOLDS_OBJECT (node))
    {
      g_autoptr(GList) names = json_object_get_members (json_node_get_object (node));

      for (GList *l = names; l != NULL; l = l->next)
        {
          g_autofree char *below = *path != '\0' ? g_strconcat (path, ".", l->data, NULL) : g_strdup (l->data);
          JsonNode *member = json_object_get_member (json_node_get_object (node), l->data);

          visit (below, member, data);
          walk (member, below, visit, data);
        }
    }
  else if (JSON_NODE_HOLDS_ARRAY (node))
    for (guint i = 0; i < json_array_get_length (json_node_get_array (node)); i++)
      {
        g_autofree char *below = g_strdup_printf ("%s[%u]", path, i);

        walk (json_array_get_element (json_node_get_array (node), i), below, visit, data);
      }
}

static void
add_path (const char *path, JsonNode *node G_GNUC_UNUSED, gpointer data)
{
  g_ptr_array_add (data, g_strdup (path));
}

static void
add_number (const char *path, JsonNode *node, gpointer data)
{
  if (JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) != G_TYPE_STRING && json_node_get_value_type (node) != G_TYPE_BOOLEAN)
    g_ptr_array_add (data, g_strdup (path));
}

static GPtrArray *
paths_of (JsonNode *root, Visit visit)
{
  GPtrArray *paths = g_ptr_array_new_with_free_func (g_free);

  walk (root, "", visit, paths);
  g_assert_cmpuint (paths->len, >, 10);
  return paths;
}

/* ── what a result must be ── */

static void
no_nulls (const char *path, JsonNode *node, gpointer data)
{
  if (JSON_NODE_HOLDS_NULL (node) && !g_str_has_suffix (path, ".need") && !g_str_has_suffix (path, ".have") && strstr (path, ".records.") == NULL)
    g_error ("%s: %s is null", (const char *) data, path);
}

static void
check_result (const Case *c, const char *what)
{
  g_autofree char *text = result_text (c->judged);
  g_autoptr(GError) error = NULL;
  g_autoptr(JsonNode) root = json_from_string (text, &error);
  JsonNode *findings;

  g_assert_no_error (error);
  walk (root, "", no_nulls, (gpointer) what);
  if (strstr (text, ": nan") != NULL || strstr (text, ": inf") != NULL || strstr (text, ": -inf") != NULL || strstr (text, ": -nan") != NULL)
    g_error ("%s: not a number in the result", what);
  findings = tree_at (root, "results.findings");
  g_assert_cmpuint (json_array_get_length (json_node_get_array (findings)), >, 5);
  for (guint i = 0; i < json_array_get_length (json_node_get_array (findings)); i++)
    {
      JsonObject *finding = json_array_get_object_element (json_node_get_array (findings), i);
      const char *words = json_object_get_string_member (finding, "text");

      if (*words == '\0' || strchr (words, '{') != NULL || strstr (words, "nan") != NULL || strstr (words, "inf ") != NULL)
        g_error ("%s: a finding says \"%s\"", what, words);
    }
}

/* Judged, refused by a problem, or an error that names what is not there. */
static gboolean
judged_well (Case *c, const char *what)
{
  g_autoptr(GError) error = NULL;

  if (!case_read (c))
    return FALSE;
  c->judged = fl_judge_plan (c->book, c->fleet, c->plan, &error);
  if (c->judged == NULL)
    {
      g_assert_nonnull (error);
      g_assert_cmpstr (error->message, !=, "");
      return FALSE;
    }
  check_result (c, what);
  return TRUE;
}

/* ── taken out ── */

static void
put_back (Case *c, JsonNode **kept, gboolean fleet)
{
  JsonNode **where = fleet ? &c->fleet_json : &c->plan_json;

  json_node_unref (*where);
  *where = g_steal_pointer (kept);
}

static guint
take_each_out (gboolean fleet)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(GPtrArray) paths = paths_of (fleet ? c->fleet_json : c->plan_json, add_path);
  guint judged = 0;

  c->quiet = TRUE;
  for (guint i = 0; i < paths->len; i++)
    {
      const char *path = g_ptr_array_index (paths, i);
      JsonNode *kept = tree_copy (fleet ? c->fleet_json : c->plan_json);

      tree_drop (fleet ? c->fleet_json : c->plan_json, path);
      judged += judged_well (c, path);
      put_back (c, &kept, fleet);
    }
  g_test_message ("%u of %u judged", judged, paths->len);
  return judged;
}

static void
test_fleet_members (void)
{
  g_assert_cmpuint (take_each_out (TRUE), >, 100);
}

static void
test_plan_members (void)
{
  g_assert_cmpuint (take_each_out (FALSE), >, 10);
}

/* ── other numbers ── */

static void
test_numbers (void)
{
  static const char *const values[] = { "0", "1e7", "-1", "0.001" };
  g_autoptr(Case) c = case_new ();
  g_autoptr(GPtrArray) paths = paths_of (c->fleet_json, add_number);
  guint judged = 0, refused = 0;

  c->quiet = TRUE;
  for (guint i = 0; i < paths->len; i++)
    for (guint k = 0; k < G_N_ELEMENTS (values); k++)
      {
        const char *path = g_ptr_array_index (paths, i);
        g_autofree char *kept = g_strdup_printf ("%.17g", json_node_get_double (tree_at (c->fleet_json, path)));
        g_autofree char *what = g_strdup_printf ("%s = %s", path, values[k]);

        if (g_str_has_suffix (path, "]"))
          continue;
        tree_set (c->fleet_json, path, values[k]);
        if (judged_well (c, what))
          judged++;
        else
          refused++;
        tree_set (c->fleet_json, path, kept);
      }
  g_test_message ("%u judged, %u refused", judged, refused);
  g_assert_cmpuint (judged, >, 100);
  g_assert_cmpuint (refused, >, 100);
}

/* ── a missing measurement in words ── */

/* What is said of it is `unknown`, and never that it is met. */
static void
test_words (void)
{
  static const struct { const char *path, *rule, *about, *words; } cases[] = {
    { "machines[0].center_of_gravity", "axle_rating", "trailer axles", "center of gravity" },
    { "trailers[0].axles[1].rated_lb", "axle_rating", "trailer axle 2", "not known" },
    { "trailers[0].gvwr_lb", NULL, NULL, NULL },                /* its capacity still stands */
    { "trailers[0].coupling.rated_vertical_lb", NULL, NULL, NULL },     /* the truck's still stands */
    { "trucks[0].gvwr_lb", "gvwr", "truck gross weight", "look at the plate" },
    { "machines[0].locks[0].fitted", "articulation", "R-03", "Nobody recorded" },
    { "binders[0].wll_lb", "gear_rating", "B-11", "not looked at" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr(Case) c = case_new ();
      const FlFinding *f;

      fleet_drop (c, cases[i].path);
      judge (c);
      if (cases[i].rule == NULL)
        {
          g_assert_true (fl_assessment_stands (c->judged));
          continue;
        }
      f = found (c, cases[i].rule, cases[i].about);
      g_assert_nonnull (f);
      g_assert_cmpstr (fl_verdict_id (f->verdict), ==, "unknown");
      expect_words (f, cases[i].words);
    }
}

/* Without contacts or running gear the whole length must be over deck that carries; else nobody knows where it touches. */
static void
test_no_contacts (void)
{
  g_autoptr(Case) c = case_new ();

  fleet_drop (c, "machines[0].contacts");
  judge (c);
  expect (c, "stands_on_deck", "R-03", FL_BY_RATING, FL_MET);
  plan_set (c, "loads[0].rear_in", "-20");
  judge (c);
  expect_words (expect (c, "stands_on_deck", "R-03", FL_BY_RATING, FL_UNKNOWN), "was not measured");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/judge/missing/fleet-members", test_fleet_members);
  g_test_add_func ("/judge/missing/plan-members", test_plan_members);
  g_test_add_func ("/judge/missing/numbers", test_numbers);
  g_test_add_func ("/judge/missing/words", test_words);
  g_test_add_func ("/judge/missing/no-contacts", test_no_contacts);
  return test_done (g_test_run ());
}
