/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Opening a fleet: what it then holds, and one line for all that can be wrong with the file, the document, its rule book and its house rules.
 * The example is that of the format's description; what is wrong is put into it here. */
#include <unistd.h>

#include "fl-places.h"
#include "fl-test-office.h"

/* ── files ── */

static void
refuse_path (const char *path, const char *pattern)
{
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(GError) error = NULL;
  g_autofree char *whole = g_strconcat (path, ": ", pattern, NULL);
  FlOffice *office = fl_office_open (path, problems, &error);

  g_assert_null (office);
  g_assert_error (error, FL_OFFICE_ERROR, FL_OFFICE_ERROR_UNREADABLE);
  g_assert_true (g_pattern_match_simple (whole, error->message));
  g_assert_cmpuint (fl_problems_count (problems), ==, 0);
}

static void
files_that_cannot_be_read (void)
{
  g_autoptr(TestFolder) folder = folder_new ();
  g_autofree char *missing = g_build_filename (folder, "gone.json", NULL);
  g_autofree char *below = NULL;
  g_autofree char *file = write_file (folder, "fleet.json", "{}", -1);

  below = g_build_filename (file, "fleet.json", NULL);
  refuse_path (missing, "*no such file*check the name*");
  refuse_path (below, "*no such file*check the name*");
  refuse_path (folder, "*is a folder*name the document*");
  refuse_path ("/dev/zero", "*is a device*");
  refuse_path ("/dev/null", "*is a device*");
}

static void
a_file_without_permission (void)
{
  g_autoptr(TestFolder) folder = folder_new ();
  g_autofree char *file = write_file (folder, "fleet.json", "{}", -1);

  if (geteuid () == 0)
    {
      g_test_skip ("the superuser may read everything");
      return;
    }
  g_assert_cmpint (g_chmod (file, 0), ==, 0);
  refuse_path (file, "*may not read it*");
}

static void
an_empty_name (void)
{
  g_autoptr(GError) error = NULL;

  g_assert_null (fl_office_open ("", NULL, &error));
  g_assert_error (error, FL_OFFICE_ERROR, FL_OFFICE_ERROR_UNREADABLE);
  g_assert_true (g_str_has_prefix (error->message, "\"\": "));
}

/* ── documents ── */

/* A document that is refused: the problem of this path, on this line, is the first; NULL, 0: not asked for. Returns the number of errors. */
static guint
refuse_content (const char *content, gssize length, const char *at, guint line)
{
  g_autoptr(TestFolder) folder = folder_new ();
  g_autofree char *path = write_file (folder, "fleet.json", content, length);
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(GError) error = NULL;
  g_autofree char *text = NULL;

  g_assert_null (fl_office_open (path, problems, &error));
  g_assert_error (error, FL_OFFICE_ERROR, FL_OFFICE_ERROR_BAD_DOCUMENT);
  g_assert_cmpuint (fl_problems_errors (problems), >, 0);
  text = fl_problem_text (fl_problems_at (problems, 0), path);
  g_test_message ("%s", text);
  g_assert_true (g_str_has_prefix (error->message, text));
  g_assert_null (strchr (error->message, '\n'));
  if (at != NULL)
    g_assert_cmpstr (fl_problems_at (problems, 0)->path, ==, at);
  if (line > 0)
    g_assert_cmpuint (fl_problems_at (problems, 0)->line, ==, line);
  return fl_problems_errors (problems);
}

/* The line on which the character at `offset` stands. */
static guint
lines_of (const char *text, gsize offset)
{
  guint line = 1;

  for (gsize i = 0; i < offset; i++)
    line += text[i] == '\n' ? 1 : 0;
  return line;
}

static void
what_is_no_document (void)
{
  static const char binary[] = { 0x7f, 'E', 'L', 'F', 2, 1, 1, 0, 0, (char) 0xfe, (char) 0xff };
  g_autofree char *brackets = g_strnfill (80000, '[');
  g_autofree char *text = data_text ("example-fleet.json");
  g_autofree char *trailing = g_strconcat (text, "{}", NULL);
  gsize half = strlen (text) / 2;

  refuse_content ("", 0, "", 0);
  refuse_content (binary, sizeof binary, "", 0);
  refuse_content (brackets, -1, NULL, 1);
  refuse_content (text, (gssize) half, NULL, lines_of (text, half));
  refuse_content (trailing, -1, NULL, lines_of (text, strlen (text)));
  refuse_content ("[]", -1, "", 1);
}

static void
refuse_change (const char *from, const char *to, const char *at)
{
  g_autofree char *text = data_text ("example-fleet.json");
  guint line;
  g_autofree char *bad = replaced (text, from, to, &line);

  refuse_content (bad, -1, at, line);
}

static void
documents_that_do_not_hold (void)
{
  refuse_change ("\"fairlead-fleet/1\"", "\"fairlead-plan/1\"", "format");
  refuse_change ("\"id\": \"C-042\"", "\"id\": \"C-041\"", "chains[1].id");
  refuse_change ("\"driver\": \"P-02\"", "\"driver\": \"P-99\"", "moves[0].driver");
  refuse_change ("\"weight_lb\": 22000", "\"weight_lb\": -22000", "machines[0].weight_lb");
  refuse_change ("\"weight_lb\": 22000", "\"weight_lb\": 3", "machines[0].weight_lb");
}

/* Only the rule book knows marks. The example's book is that of 49 CFR 393.108, which has no grade 99. */
static void
a_mark_that_no_grade_has (void)
{
  refuse_change ("\"mark\": \"70\"", "\"mark\": \"99\"", "chains[0].mark");
}

/* A house rule may only ask for more: the book's own band of deck angles is 20 to 60 degrees (common practice, no source). */
static void
a_house_rule_that_loosens (void)
{
  refuse_change ("{\n   \"rule\": \"min_wll_each\",\n   \"wll_lb\": 5000",
                 "{\"rule\": \"deck_angle_band\", \"lo_deg\": 21, \"hi_deg\": 80", "house_rules[0].hi_deg");
}

static void
all_problems_are_told (void)
{
  g_autofree char *text = data_text ("example-fleet.json");
  g_autofree char *once = replaced (text, "\"weight_lb\": 22000", "\"weight_lb\": 3", NULL);
  g_autofree char *twice = replaced (once, "\"driver\": \"P-02\"", "\"driver\": 7", NULL);

  g_assert_cmpuint (refuse_content (twice, -1, "machines[0].weight_lb", 0), ==, 2);
}

static void
a_warning_does_not_refuse (void)
{
  g_autoptr(TestFolder) folder = folder_new ();
  g_autofree char *text = data_text ("example-fleet.json");
  g_autofree char *odd = replaced (text, "\"weight_lb\": 22000", "\"weigth_lb\": 1, \"weight_lb\": 22000", NULL);
  g_autofree char *path = write_file (folder, "fleet.json", odd, -1);
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(GError) error = NULL;
  g_autoptr(FlOffice) office = fl_office_open (path, problems, &error);

  g_assert_no_error (error);
  g_assert_nonnull (office);
  g_assert_cmpuint (fl_problems_count (problems), ==, 1);
  g_assert_cmpint (fl_problems_at (problems, 0)->severity, ==, FL_SEVERITY_WARNING);
  g_assert_cmpstr (fl_problems_at (problems, 0)->path, ==, "machines[0].weigth_lb");
}

/* ── the rule book ── */

static void
refuse_book (const char *name)
{
  g_autoptr(TestFolder) folder = folder_new ();
  g_autofree char *text = data_text ("example-fleet.json");
  g_autofree char *named = g_strdup_printf ("\"rule_book\": \"%s\"", name);
  g_autofree char *bad = replaced (text, "\"rule_book\": \"us-49cfr393\"", named, NULL);
  g_autofree char *path = write_file (folder, "fleet.json", bad, -1);
  g_autoptr(GError) error = NULL;

  g_assert_null (fl_office_open (path, NULL, &error));
  g_assert_error (error, FL_OFFICE_ERROR, FL_OFFICE_ERROR_NO_BOOK);
  g_assert_nonnull (strstr (error->message, name));
  g_assert_nonnull (strstr (error->message, "us-49cfr393"));     /* the way out: the books that there are */
}

/* A book is named and never reached by a path, even one that leads to it. */
static void
a_book_that_is_not_there (void)
{
  refuse_book ("atlantis-1");
  refuse_book ("../rules/us-49cfr393");
  refuse_book (".us-49cfr393");
  refuse_book ("us-49cfr393.json");
}

/* ── an open fleet ── */

static void
an_open_fleet (void)
{
  g_autofree char *path = data_path ("example-fleet.json");
  g_autoptr(GError) error = NULL;
  g_autoptr(FlOffice) office = fl_office_open (path, NULL, &error);
  g_autoptr(FlOffice) again = NULL;

  g_assert_no_error (error);
  again = fl_office_ref (office);
  g_assert_cmpstr (fl_office_path (again), ==, path);
  g_assert_cmpstr (fl_fleet_name (fl_office_fleet (office)), ==, "Larkfield Drainage District");
  g_assert_cmpstr (fl_book_data (fl_office_book (office))->id, ==, "us-49cfr393");
  g_assert_cmpint (fl_book_policy (fl_office_book (office))->rules[0].rule, ==, FL_HOUSE_MIN_WLL_EACH);
  g_assert_cmpstr (fl_office_move (office, "2026-11-25/01")->to, ==, "Tern Lane culvert");
  g_assert_null (fl_office_move (office, "2026-11-25/02"));
  g_assert_null (fl_office_move (office, NULL));
}

static void
the_demo_opens_without_a_word (void)
{
  g_autofree char *path = fl_places_file ("demo", "fleet.json");
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(GError) error = NULL;
  g_autoptr(FlOffice) office = fl_office_open (path, problems, &error);

  g_assert_no_error (error);
  g_assert_nonnull (office);
  g_assert_cmpuint (fl_problems_count (problems), ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/office-open/files-that-cannot-be-read", files_that_cannot_be_read);
  g_test_add_func ("/office-open/a-file-without-permission", a_file_without_permission);
  g_test_add_func ("/office-open/an-empty-name", an_empty_name);
  g_test_add_func ("/office-open/what-is-no-document", what_is_no_document);
  g_test_add_func ("/office-open/documents-that-do-not-hold", documents_that_do_not_hold);
  g_test_add_func ("/office-open/a-mark-that-no-grade-has", a_mark_that_no_grade_has);
  g_test_add_func ("/office-open/a-house-rule-that-loosens", a_house_rule_that_loosens);
  g_test_add_func ("/office-open/all-problems-are-told", all_problems_are_told);
  g_test_add_func ("/office-open/a-warning-does-not-refuse", a_warning_does_not_refuse);
  g_test_add_func ("/office-open/a-book-that-is-not-there", a_book_that_is_not_there);
  g_test_add_func ("/office-open/an-open-fleet", an_open_fleet);
  g_test_add_func ("/office-open/the-demo-opens-without-a-word", the_demo_opens_without_a_word);
  return g_test_run ();
}
