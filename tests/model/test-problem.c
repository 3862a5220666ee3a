/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The list of problems: order, counts, and that foreign text stays one short line of UTF-8. */
#include <string.h>

#include "fl-problem.h"

static void
test_none (void)
{
  g_autoptr(FlProblems) problems = fl_problems_new ();

  g_assert_cmpuint (fl_problems_count (problems), ==, 0);
  g_assert_cmpuint (fl_problems_errors (problems), ==, 0);
  g_assert_cmpuint (fl_problems_count (NULL), ==, 0);
  g_assert_cmpuint (fl_problems_errors (NULL), ==, 0);
  fl_problems_add (NULL, FL_SEVERITY_ERROR, "a", 1, "b", "c");
  fl_problems_free (NULL);
}

static void
test_copied (void)
{
  g_autoptr(FlProblems) problems = fl_problems_new ();
  char path[] = "chains[2].length_ft", value[] = "-3";
  const FlProblem *problem;

  fl_problems_add (problems, FL_SEVERITY_ERROR, path, 12, value, "at least %d %s", 1, "ft");
  path[0] = value[0] = '?';
  problem = fl_problems_at (problems, 0);
  g_assert_cmpstr (problem->path, ==, "chains[2].length_ft");
  g_assert_cmpuint (problem->line, ==, 12);
  g_assert_cmpstr (problem->value, ==, "-3");
  g_assert_cmpstr (problem->expected, ==, "at least 1 ft");
  g_assert_cmpint (problem->severity, ==, FL_SEVERITY_ERROR);
}

/* In order of line; of one line in the order in which they were found. */
static void
test_order (void)
{
  static const guint lines[] = { 5, 3, 9, 3, 0, 9, 5, 1 };
  static const char *const sorted[] = { "4", "7", "1", "3", "0", "6", "2", "5" };
  g_autoptr(FlProblems) problems = fl_problems_new ();

  for (guint i = 0; i < G_N_ELEMENTS (lines); i++)
    {
      g_autofree char *path = g_strdup_printf ("%u", i);

      fl_problems_add (problems, i % 2 ? FL_SEVERITY_WARNING : FL_SEVERITY_ERROR, path, lines[i], NULL, "x");
    }
  for (guint i = 0; i < G_N_ELEMENTS (sorted); i++)
    g_assert_cmpstr (fl_problems_at (problems, i)->path, ==, sorted[i]);
  g_assert_cmpuint (fl_problems_count (problems), ==, 8);
  g_assert_cmpuint (fl_problems_errors (problems), ==, 4);
  fl_problems_add (problems, FL_SEVERITY_WARNING, "late", 1, NULL, "x");      /* after it was read */
  g_assert_cmpstr (fl_problems_at (problems, 2)->path, ==, "late");
}

static void
test_shortened (void)
{
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autofree char *sixty = g_strnfill (60, 'x'), *longer = g_strnfill (61, 'x');
  GString *umlauts = g_string_new (NULL);
  const char *value;

  for (guint i = 0; i < 100; i++)
    g_string_append (umlauts, "ü");
  fl_problems_add (problems, FL_SEVERITY_ERROR, "a", 1, sixty, "x");
  fl_problems_add (problems, FL_SEVERITY_ERROR, "b", 2, longer, "x");
  fl_problems_add (problems, FL_SEVERITY_ERROR, "c", 3, umlauts->str, "x");
  g_assert_cmpstr (fl_problems_at (problems, 0)->value, ==, sixty);
  value = fl_problems_at (problems, 1)->value;
  g_assert_cmpint (g_utf8_strlen (value, -1), ==, 60);
  g_assert_true (g_str_has_suffix (value, "x…"));
  value = fl_problems_at (problems, 2)->value;
  g_assert_true (g_utf8_validate (value, -1, NULL));
  g_assert_cmpint (g_utf8_strlen (value, -1), ==, 60);
  g_string_free (umlauts, TRUE);
}

static void
test_one_line (void)
{
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autofree char *line = NULL;

  fl_problems_add (problems, FL_SEVERITY_ERROR, "a\nb", 1, "{\n   \"x\":\t\r\n 1\x1b[31m\xff\xc3}", "one\ntwo");
  line = fl_problem_text (fl_problems_at (problems, 0), "f.json");
  g_assert_cmpstr (line, ==, "f.json:1: a b: { \"x\": 1\uFFFD[31m\uFFFD\uFFFD}: one two");
}

static void
assert_line (const char *path, guint line, const char *value, const char *file, const char *expected)
{
  FlProblem problem = { path, line, value, "a number", FL_SEVERITY_ERROR };
  g_autofree char *text = fl_problem_text (&problem, file);

  g_assert_cmpstr (text, ==, expected);
}

static void
test_text (void)
{
  assert_line ("machines[3].weight_lb", 17, "\"heavy\"", "fleet.json", "fleet.json:17: machines[3].weight_lb: \"heavy\": a number");
  assert_line ("machines[3].weight_lb", 17, NULL, "fleet.json", "fleet.json:17: machines[3].weight_lb: a number");
  assert_line ("", 0, NULL, "fleet.json", "fleet.json: a number");
  assert_line ("", 17, NULL, NULL, "line 17: a number");
  assert_line ("", 0, NULL, NULL, "a number");
}

static void
test_many (void)
{
  g_autoptr(FlProblems) problems = fl_problems_new ();

  for (guint i = 0; i < FL_PROBLEMS_MAX + 500; i++)
    fl_problems_add (problems, FL_SEVERITY_ERROR, "x", i + 1, NULL, "y");
  g_assert_cmpuint (fl_problems_count (problems), ==, FL_PROBLEMS_MAX + 1);
  g_assert_cmpuint (fl_problems_errors (problems), ==, FL_PROBLEMS_MAX + 500);
  g_assert_nonnull (strstr (fl_problems_at (problems, FL_PROBLEMS_MAX)->expected, "more problems"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/problem/none", test_none);
  g_test_add_func ("/problem/copied", test_copied);
  g_test_add_func ("/problem/order", test_order);
  g_test_add_func ("/problem/shortened", test_shortened);
  g_test_add_func ("/problem/one-line", test_one_line);
  g_test_add_func ("/problem/text", test_text);
  g_test_add_func ("/problem/many", test_many);
  return g_test_run ();
}
