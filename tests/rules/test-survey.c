/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What only the rule book can see wrong in a fleet: at its path, on its line, error or warning. */
#include "fl-test-book.h"

static const char head[] =
  "{\n"
  " 'format': 'fairlead-fleet/1',\n"
  " 'name': 'Survey',\n"
  " 'yards': [{'id': 'Y', 'name': 'Yard'}],\n";

/* The survey of a fleet with these further members (' for "). (transfer full) */
static FlProblems *
survey (const char *members)
{
  g_autoptr(FlBook) book = test_book ();
  g_autofree char *text = g_strdelimit (g_strconcat (head, members, "\n}\n", NULL), "'", '"');
  g_autoptr(GBytes) bytes = g_bytes_new (text, strlen (text));
  g_autoptr(FlProblems) read = fl_problems_new ();
  g_autoptr(FlFleet) fleet = fl_fleet_new_from_json (bytes, read);
  FlProblems *problems = fl_problems_new ();

  test_print_problems (read);
  g_assert_nonnull (fleet);
  fl_book_survey (book, fleet, problems);
  test_print_problems (problems);
  return problems;
}

/* One chain; exactly this problem, NULL for none. */
static void
chain (const char *more, const char *path, FlSeverity severity)
{
  g_autofree char *members = g_strdup_printf (" 'chains': [{'id': 'C-1', 'kept_at': 'Y', 'length_ft': 20, %s}]", more);
  g_autoptr(FlProblems) problems = survey (members);

  g_assert_cmpuint (fl_problems_count (problems), ==, path == NULL ? 0 : 1);
  if (path == NULL)
    return;
  g_assert_cmpstr (fl_problems_at (problems, 0)->path, ==, path);
  g_assert_true (fl_problems_at (problems, 0)->severity == severity);
}

static void
test_chain (void)
{
  chain ("'size_in': '3/8', 'mark': '700'", NULL, FL_SEVERITY_ERROR);
  chain ("'size_mm': 10, 'mark': null", NULL, FL_SEVERITY_ERROR);
  chain ("'size_in': '3/8', 'mark': '77'", "chains[0].mark", FL_SEVERITY_ERROR);
  chain ("'size_in': '3/8', 'mark': '77', 'tag_wll_lb': 7000, 'tag_legible': true", "chains[0].mark", FL_SEVERITY_WARNING);
  chain ("'size_in': '3/8', 'mark': '77', 'tag_wll_lb': 7000, 'tag_legible': false", "chains[0].mark", FL_SEVERITY_ERROR);
  chain ("'size_in': '3/4', 'mark': '70'", "chains[0].size_in", FL_SEVERITY_ERROR);
  chain ("'size_mm': 9, 'mark': '70'", "chains[0].size_mm", FL_SEVERITY_ERROR);
  chain ("'size_in': '3/4', 'mark': '70', 'tag_wll_lb': 24700, 'tag_legible': true", "chains[0].size_in", FL_SEVERITY_WARNING);
  chain ("'size_in': '7/16', 'mark': '80'", "chains[0].mark", FL_SEVERITY_WARNING);   /* a real chain; the table has no cell for it */
}

static void
test_repair (void)
{
  static const char sound[] = "'size_in': '3/8', 'mark': '70', 'inspections': [{'date': '2026-03-02', 'findings': [{'kind': 'repair', 'repair_link': '%s'}]}]";
  static const struct { const char *link; gboolean known; } links[] = {
    { "clevis", TRUE }, { "bolt", TRUE }, { "clevvis", FALSE }, { "baling wire", FALSE },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (links); i++)
    {
      g_autoptr(GString) more = g_string_new (sound);

      g_string_replace (more, "%s", links[i].link, 1);
      chain (more->str, links[i].known ? NULL : "chains[0].inspections[0].findings[0]", FL_SEVERITY_WARNING);
    }
}

/* Records are sorted by unit number, the problem is at the place in the document; its line too. */
static void
test_place (void)
{
  g_autoptr(FlProblems) problems = survey (
    " 'chains': [\n"
    "  {'id': 'C-9', 'kept_at': 'Y', 'length_ft': 20, 'size_in': '3/8', 'mark': '70'},\n"
    "  {'id': 'C-1', 'kept_at': 'Y', 'length_ft': 20, 'size_in': '3/8',\n"
    "   'mark': '12'}]");
  const FlProblem *problem;

  g_assert_cmpuint (fl_problems_count (problems), ==, 1);
  problem = fl_problems_at (problems, 0);
  g_assert_cmpstr (problem->path, ==, "chains[1].mark");
  g_assert_cmpuint (problem->line, ==, 8);
  g_assert_cmpstr (problem->value, ==, "\"12\"");
  g_assert_nonnull (strstr (problem->expected, "C-1"));
  g_assert_nonnull (strstr (problem->expected, "1000"));   /* the way out: the marks that there are */
}

static void
test_other_gear (void)
{
  g_autoptr(FlProblems) problems = survey (
    " 'binders': [{'id': 'B-1', 'kept_at': 'Y', 'wll_lb': 5400, 'chain_sizes': ['3/4']},\n"
    "  {'id': 'B-2', 'kept_at': 'Y', 'wll_lb': 5400, 'chain_sizes': ['3/8', '3/4']}],\n"
    " 'straps': [{'id': 'S-1', 'kept_at': 'Y', 'width_in': 1, 'length_ft': 10},\n"
    "  {'id': 'S-2', 'kept_at': 'Y', 'width_in': 1, 'length_ft': 10, 'tag_wll_lb': 500, 'tag_legible': true},\n"
    "  {'id': 'S-3', 'kept_at': 'Y', 'width_mm': 50, 'length_ft': 10}]");

  g_assert_cmpuint (fl_problems_count (problems), ==, 2);
  g_assert_cmpuint (fl_problems_errors (problems), ==, 0);
  g_assert_cmpstr (fl_problems_at (problems, 0)->path, ==, "binders[0].chain_sizes");
  g_assert_cmpstr (fl_problems_at (problems, 1)->path, ==, "straps[0].width_in");
}

/* The example of the formats has nothing that the book does not know. */
static void
test_example (void)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "data", "example-fleet.json", NULL), *text = NULL;
  g_autoptr(FlBook) book = test_book (), tightened = NULL;
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(FlFleet) fleet = NULL;
  g_autoptr(GBytes) bytes = NULL;
  gsize length;

  g_assert_true (g_file_get_contents (path, &text, &length, NULL));
  bytes = g_bytes_new (text, length);
  fleet = fl_fleet_new_from_json (bytes, problems);
  g_assert_nonnull (fleet);
  fl_book_survey (book, fleet, problems);
  tightened = fl_book_tighten (book, fl_fleet_policy (fleet), problems);
  test_print_problems (problems);
  g_assert_nonnull (tightened);
  g_assert_cmpuint (fl_problems_count (problems), ==, 0);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/survey/chain", test_chain);
  g_test_add_func ("/survey/repair", test_repair);
  g_test_add_func ("/survey/place", test_place);
  g_test_add_func ("/survey/other-gear", test_other_gear);
  g_test_add_func ("/survey/example", test_example);
  return test_done (g_test_run ());
}
