/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Files of people: written whole or not at all, and what stands in the way; plans read from files. */
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include "fl-test-office.h"

static void
expect_content (const char *path, const char *content)
{
  g_autofree char *text = NULL;
  g_autoptr(GError) error = NULL;

  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (text, ==, content);
}

static guint
files_in (const char *folder)
{
  g_autoptr(GDir) dir = g_dir_open (folder, 0, NULL);
  guint n = 0;

  while (g_dir_read_name (dir) != NULL)
    n++;
  return n;
}

static void
a_file_is_written_and_replaced (void)
{
  g_autoptr(TestFolder) folder = folder_new ();
  g_autofree char *path = g_build_filename (folder, "plan.json", NULL);
  g_autoptr(GBytes) one = g_bytes_new_static ("first", 5), two = g_bytes_new_static ("2", 1);
  g_autoptr(GError) error = NULL;

  g_assert_true (fl_office_write_file (path, one, &error));
  expect_content (path, "first");
  g_assert_true (fl_office_write_file (path, two, &error));
  expect_content (path, "2");
  g_assert_no_error (error);
  g_assert_cmpuint (files_in (folder), ==, 1);  /* no temporary file is left */
}

static void
refuse_target (const char *path, const char *pattern)
{
  g_autoptr(GBytes) content = g_bytes_new_static ("x", 1);
  g_autoptr(GError) asked = NULL, written = NULL;

  g_assert_false (fl_office_may_write (path, &asked));
  g_assert_error (asked, FL_OFFICE_ERROR, FL_OFFICE_ERROR_WRITE);
  g_assert_false (fl_office_write_file (path, content, &written));
  g_assert_error (written, FL_OFFICE_ERROR, FL_OFFICE_ERROR_WRITE);
  g_assert_cmpstr (asked->message, ==, written->message);
  g_assert_true (g_pattern_match_simple (pattern, written->message));
}

static void
targets_that_are_refused (void)
{
  g_autoptr(TestFolder) folder = folder_new ();
  g_autofree char *below = g_build_filename (folder, "gone", "plan.json", NULL);
  g_autofree char *slash = g_strconcat (folder, "/", NULL);
  struct stat about;

  refuse_target (below, "*/gone/plan.json: *folder */gone is missing*");
  refuse_target (folder, "*is a folder*");
  refuse_target (slash, "*name of a file*");
  refuse_target ("", "\"\": *name of a file*");
  refuse_target ("/dev/null", "/dev/null: *left alone*");
  g_assert_cmpint (stat ("/dev/null", &about), ==, 0);
  g_assert_true (S_ISCHR (about.st_mode));      /* it is still the device */
  g_assert_cmpuint (files_in (folder), ==, 0);
}

/* A pipe ends, so a document may come from one. */
static void
a_pipe_is_read (void)
{
  int ends[2];
  g_autofree char *path = NULL;
  g_autoptr(GBytes) bytes = NULL;
  g_autoptr(GError) error = NULL;

  g_assert_cmpint (pipe (ends), ==, 0);
  g_assert_cmpint (write (ends[1], "{}", 2), ==, 2);
  close (ends[1]);
  path = g_strdup_printf ("/dev/fd/%d", ends[0]);
  bytes = fl_office_read_file (path, &error);
  close (ends[0]);
  g_assert_no_error (error);
  g_assert_cmpmem (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes), "{}", 2);
}

/* ── plans ── */

static GPtrArray *
read_plans_of (const char *text, FlProblems *problems, GError **error)
{
  g_autoptr(TestFolder) folder = folder_new ();
  g_autofree char *path = write_file (folder, "plan.json", text, -1);

  return fl_office_read_plans (path, problems, error);
}

static void
one_plan_or_a_list (void)
{
  g_autofree char *text = data_text ("example-plan.json");
  g_autofree char *list = g_strdup_printf ("{\"plans\": [%s, %s]}", text, text);
  g_autoptr(GError) error = NULL;
  g_autoptr(GPtrArray) one = read_plans_of (text, NULL, &error), two = read_plans_of (list, NULL, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (one->len, ==, 1);
  g_assert_cmpuint (two->len, ==, 2);
  g_assert_cmpstr (fl_plan_choices (g_ptr_array_index (two, 1))->move, ==, "2026-11-25/01");
}

static void
a_plan_that_does_not_hold (void)
{
  g_autofree char *text = data_text ("example-plan.json");
  guint line;
  g_autofree char *bad = replaced (text, "\"facing\": \"rearward\"", "\"facing\": \"sideways\"", &line);
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(GError) error = NULL;

  g_assert_null (read_plans_of (bad, problems, &error));
  g_assert_error (error, FL_OFFICE_ERROR, FL_OFFICE_ERROR_BAD_DOCUMENT);
  g_assert_cmpuint (fl_problems_errors (problems), ==, 1);
  g_assert_cmpstr (fl_problems_at (problems, 0)->path, ==, "loads[0].facing");
  g_assert_cmpuint (fl_problems_at (problems, 0)->line, ==, line);
}

static void
plans_that_cannot_be_read (void)
{
  g_autoptr(GError) missing = NULL, fleet = NULL;
  g_autofree char *path = data_path ("example-fleet.json");

  g_assert_null (fl_office_read_plans ("/nowhere/plan.json", NULL, &missing));
  g_assert_error (missing, FL_OFFICE_ERROR, FL_OFFICE_ERROR_UNREADABLE);
  g_assert_null (fl_office_read_plans (path, NULL, &fleet));
  g_assert_error (fleet, FL_OFFICE_ERROR, FL_OFFICE_ERROR_BAD_DOCUMENT);
  g_assert_nonnull (strstr (fleet->message, "fairlead-plan/1"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/office-file/a-file-is-written-and-replaced", a_file_is_written_and_replaced);
  g_test_add_func ("/office-file/targets-that-are-refused", targets_that_are_refused);
  g_test_add_func ("/office-file/a-pipe-is-read", a_pipe_is_read);
  g_test_add_func ("/office-file/one-plan-or-a-list", one_plan_or_a_list);
  g_test_add_func ("/office-file/a-plan-that-does-not-hold", a_plan_that_does_not_hold);
  g_test_add_func ("/office-file/plans-that-cannot-be-read", plans_that_cannot_be_read);
  return g_test_run ();
}
