/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The plans of an open fleet's moves; what two of them both hold; what is taken. A move holds all of it from depart to back plus the fleet's
 * turnaround (30 minutes in the example), as the format's description says. */
#include "fl-test-office.h"

/* A second move of the example, by other times and other things. */
static char *
second_move (const char *date, const char *depart, const char *back, const char *rest)
{
  g_autofree char *move = g_strdup_printf (", {\"id\": \"%s/02\", \"date\": \"%s\", \"depart\": \"%s\", \"back\": \"%s\", \"machine\": \"R-03\"%s}", date,
                                           date, depart, back, rest);

  return text_with_moves (move);
}

/* The example's plan for another move, with some of its words replaced (pairs, NULL-terminated). */
static FlPlan *
plan_for (const char *move, ...)
{
  g_autofree char *quoted = g_strdup_printf ("\"move\": \"%s\"", move);
  g_autofree char *first = data_text ("example-plan.json");
  char *text = replaced (first, "\"move\": \"2026-11-25/01\"", quoted, NULL);
  FlPlan *plan;
  va_list args;

  va_start (args, move);
  for (const char *from = va_arg (args, const char *); from != NULL; from = va_arg (args, const char *))
    {
      char *next = replaced (text, from, va_arg (args, const char *), NULL);

      g_free (text);
      text = next;
    }
  va_end (args);
  plan = plan_of_text (text);
  g_free (text);
  return plan;
}

/* ── plans and starts ── */

static void
a_move_without_a_plan (void)
{
  g_autoptr(FlOffice) office = open_example ();
  g_autoptr(GError) error = NULL;
  g_autoptr(FlPlan) start = fl_office_start (office, "2026-11-25/01", &error);

  g_assert_no_error (error);
  g_assert_null (fl_office_plan (office, "2026-11-25/01"));
  g_assert_cmpstr (fl_plan_choices (start)->trailer, ==, "T-3");
  g_assert_cmpstr (fl_plan_choices (start)->truck, ==, "K-2");
  g_assert_cmpuint (fl_plan_choices (start)->n_tie_downs, ==, 0);
  g_assert_false (fl_quantity_known (fl_plan_choices (start)->loads[0].rear));
  g_assert_null (fl_office_assess (office, "2026-11-25/01", &error));
  g_assert_error (error, FL_OFFICE_ERROR, FL_OFFICE_ERROR_NO_MOVE);
  g_assert_nonnull (strstr (error->message, "plan it first"));
}

static void
a_move_that_is_not_there (void)
{
  g_autoptr(FlOffice) office = open_example ();
  g_autoptr(FlPlan) plan = plan_for ("2026-11-25/07", NULL);
  g_autoptr(GError) start = NULL, judge = NULL, propose = NULL;

  g_assert_null (fl_office_start (office, "2026-11-25/07", &start));
  g_assert_null (fl_office_assess (office, "2026-11-25/07", &judge));
  g_assert_null (fl_office_plan_move (office, plan, NULL, &propose));
  g_assert_error (start, FL_OFFICE_ERROR, FL_OFFICE_ERROR_NO_MOVE);
  g_assert_error (judge, FL_OFFICE_ERROR, FL_OFFICE_ERROR_NO_MOVE);
  g_assert_error (propose, FL_OFFICE_ERROR, FL_OFFICE_ERROR_NO_MOVE);
  g_assert_nonnull (strstr (start->message, "it has 2026-11-25/01"));   /* the way out */
}

/* The example plan is compliant; its results were computed by a script outside the program. */
static void
a_plan_is_kept_and_judged (void)
{
  g_autoptr(FlOffice) office = open_example ();
  g_autoptr(FlPlan) plan = example_plan ();
  g_autoptr(GError) error = NULL;
  g_autoptr(FlAssessment) assessment = NULL;
  g_autoptr(FlPlan) start = NULL;

  fl_office_set_plan (office, "2026-11-25/01", plan);
  g_assert_true (fl_office_plan (office, "2026-11-25/01") == plan);
  start = fl_office_start (office, "2026-11-25/01", &error);
  g_assert_true (start == plan);
  assessment = fl_office_assess (office, "2026-11-25/01", &error);
  g_assert_no_error (error);
  g_assert_cmpint (fl_assessment_verdict (assessment), ==, FL_COMPLIANT);
  g_assert_true (fl_assessment_stands (assessment));
  fl_office_set_plan (office, "2026-11-25/01", NULL);
  g_assert_null (fl_office_plan (office, "2026-11-25/01"));
}

static void
a_plan_that_names_what_is_not_there (void)
{
  g_autoptr(FlOffice) office = open_example ();
  g_autoptr(FlPlan) plan = plan_for ("2026-11-25/01", "C-041", "C-999", NULL);
  g_autoptr(GError) error = NULL;

  fl_office_set_plan (office, "2026-11-25/01", plan);
  g_assert_null (fl_office_assess (office, "2026-11-25/01", &error));
  g_assert_nonnull (error);
  g_assert_nonnull (strstr (error->message, "C-999"));
}

/* All of it is told, with its place in the document; a plan that holds has nothing. */
static void
what_is_not_there_is_told (void)
{
  g_autoptr(FlOffice) office = open_example ();
  g_autofree char *text = data_text ("example-plan.json");
  guint chain, anchor, point;
  g_autofree char *first = replaced (text, "C-041", "C-3/8-20 #7", &chain);
  g_autofree char *second = replaced (first, "P11L", "P99L", &anchor);
  g_autofree char *third = replaced (second, "\"machine_point\": \"FR\"", "\"machine_point\": \"ZZ\"", &point);
  g_autoptr(FlPlan) good = plan_of_text (text), bad = plan_of_text (third);
  g_autoptr(GBytes) bytes = g_bytes_new_static (third, strlen (third)), good_bytes = g_bytes_new_static (text, strlen (text));
  g_autoptr(FlProblems) none = fl_problems_new (), problems = fl_problems_new ();

  fl_office_check_plan (office, good, good_bytes, "", none);
  g_assert_cmpuint (fl_problems_count (none), ==, 0);
  fl_office_check_plan (office, bad, bytes, "", problems);
  g_assert_cmpuint (fl_problems_errors (problems), ==, 3);
  g_assert_cmpstr (fl_problems_at (problems, 0)->path, ==, "tie_downs[0].chain");
  g_assert_cmpuint (fl_problems_at (problems, 0)->line, ==, chain);
  g_assert_cmpstr (fl_problems_at (problems, 0)->value, ==, "\"C-3/8-20 #7\"");
  g_assert_cmpstr (fl_problems_at (problems, 1)->path, ==, "tie_downs[1].anchors[0]");
  g_assert_cmpuint (fl_problems_at (problems, 1)->line, ==, anchor);
  g_assert_cmpstr (fl_problems_at (problems, 2)->path, ==, "tie_downs[3].machine_point");
  g_assert_cmpuint (fl_problems_at (problems, 2)->line, ==, point);
  g_assert_nonnull (strstr (fl_problems_at (problems, 2)->expected, "R-03: RL, RR, FL, FR"));
}

static void
the_fleets_own_plans_come_first (void)
{
  g_autofree char *text = data_text ("example-fleet.json"), *plan = data_text ("example-plan.json");
  g_autofree char *list = g_strdup_printf ("\"plans\": [%s],\n \"moves\": [", plan);
  g_autofree char *with = replaced (text, "\"moves\": [", list, NULL);
  g_autoptr(FlOffice) office = open_text (with);
  g_autoptr(GError) error = NULL;
  g_autoptr(FlAssessment) assessment = fl_office_assess (office, "2026-11-25/01", &error);

  g_assert_no_error (error);
  g_assert_true (fl_assessment_stands (assessment));
  g_assert_cmpuint (fl_assessment_parts (assessment)->n_ties, ==, 5);
}

/* ── clashes ── */

static void
expect_texts (char **texts, ...) G_GNUC_NULL_TERMINATED;

static void
expect_texts (char **texts, ...)
{
  g_autofree char *all = g_strjoinv ("; ", texts);
  va_list args;
  guint i = 0;

  g_test_message ("%s", all);
  va_start (args, texts);
  for (const char *expected = va_arg (args, const char *); expected != NULL; expected = va_arg (args, const char *))
    g_assert_cmpstr (texts[i++], ==, expected);
  va_end (args);
  g_assert_null (texts[i]);
}

/* The office with the example's plan and that of a second move. */
static FlOffice *
office_with (const char *text, const FlPlan *second)
{
  FlOffice *office = open_text (text);
  g_autoptr(FlPlan) first = example_plan ();

  fl_office_set_plan (office, "2026-11-25/01", first);
  fl_office_set_plan (office, fl_plan_choices (second)->move, second);
  return office;
}

static guint
count_clashes (const char *date, const char *depart, const char *back, const char *day)
{
  g_autofree char *text = second_move (date, depart, back, "");
  g_autofree char *id = g_strconcat (date, "/02", NULL);
  g_autoptr(FlPlan) second = plan_for (id, NULL);
  g_autoptr(FlOffice) office = office_with (text, second);
  g_autoptr(GPtrArray) clashes = fl_office_clashes (office, day);

  return clashes->len;
}

/* The first move is out from 06:30 to 11:00 and holds its things until 11:30. All of the plan is held twice: the machine, the trailer, the truck, five
 * chains, five binders. */
static void
clashes_depend_on_time (void)
{
  g_assert_cmpuint (count_clashes ("2026-11-25", "11:29", "12:00", "2026-11-25"), ==, 13);
  g_assert_cmpuint (count_clashes ("2026-11-25", "05:00", "06:01", "2026-11-25"), ==, 13);
  g_assert_cmpuint (count_clashes ("2026-11-25", "12:00", "13:00", "2026-11-25"), ==, 0);
  g_assert_cmpuint (count_clashes ("2026-11-25", "04:00", "05:00", "2026-11-25"), ==, 0);
  g_assert_cmpuint (count_clashes ("2026-11-26", "06:30", "11:00", "2026-11-25"), ==, 0);
}

/* Back earlier than depart is the next day. Both days see the clash, others do not. */
static void
clashes_over_midnight (void)
{
  g_assert_cmpuint (count_clashes ("2026-11-24", "20:00", "06:40", "2026-11-25"), ==, 13);
  g_assert_cmpuint (count_clashes ("2026-11-24", "20:00", "06:40", "2026-11-24"), ==, 13);
  g_assert_cmpuint (count_clashes ("2026-11-24", "20:00", "06:40", "2026-11-26"), ==, 0);
  g_assert_cmpuint (count_clashes ("2026-11-24", "20:00", "23:00", "2026-11-25"), ==, 0);
}

static char **
clash_texts (const char *rest, const FlPlan *second)
{
  g_autofree char *text = second_move ("2026-11-25", "10:00", "12:00", rest);
  g_autoptr(FlOffice) office = office_with (text, second);
  g_autoptr(GPtrArray) clashes = fl_office_clashes (office, "2026-11-25");

  g_ptr_array_add (clashes, NULL);
  return g_strdupv ((char **) clashes->pdata);
}

/* Different pieces of one counted record are different things; one piece is held once, however often a plan names it. */
static void
clashes_name_the_piece (void)
{
  g_autoptr(FlPlan) second = plan_for ("2026-11-25/02", "\"truck\": \"K-2\",\n", "", "C-041", "C-3/8-20 #1", "C-042", "C-3/8-20 #2", "C-043",
                                       "C-3/8-20 #3", "C-044", "C-044", "C-045", "C-044", "B-12", "B-11", "B-13", "B-11", "B-14", "B-11", "B-15", "B-11",
                                       NULL);
  g_auto(GStrv) texts = clash_texts (", \"driver\": \"P-02\"", second);

  expect_texts (texts, "machine R-03: 2026-11-25/01 and 2026-11-25/02", "trailer T-3: 2026-11-25/01 and 2026-11-25/02",
                "driver P-02: 2026-11-25/01 and 2026-11-25/02", "binder B-11: 2026-11-25/01 and 2026-11-25/02",
                "chain C-044: 2026-11-25/01 and 2026-11-25/02", NULL);
}

static void
no_plans_no_clashes (void)
{
  g_autofree char *text = second_move ("2026-11-25", "10:00", "12:00", "");
  g_autoptr(FlOffice) office = open_text (text);
  g_autoptr(FlPlan) only = example_plan ();
  g_autoptr(GPtrArray) none = fl_office_clashes (office, "2026-11-25"), one = NULL;

  g_assert_cmpuint (none->len, ==, 0);
  fl_office_set_plan (office, "2026-11-25/01", only);
  one = fl_office_clashes (office, "2026-11-25");
  g_assert_cmpuint (one->len, ==, 0);
}

/* ── what is taken ── */

static void
gear_of_other_moves_is_taken (void)
{
  g_autofree char *text = second_move ("2026-11-25", "10:00", "12:00", "");
  g_autoptr(FlPlan) second = plan_for ("2026-11-25/02", "C-041", "C-3/8-20 #1", NULL);
  g_autoptr(FlOffice) office = office_with (text, second);
  g_auto(GStrv) from_first = fl_office_taken (office, "2026-11-25/02");
  g_auto(GStrv) from_second = fl_office_taken (office, "2026-11-25/01");

  expect_texts (from_first, "C-041", "B-11", "C-042", "B-12", "C-043", "B-13", "C-044", "B-14", "C-045", "B-15", NULL);
  expect_texts (from_second, "C-3/8-20 #1", "B-11", "C-042", "B-12", "C-043", "B-13", "C-044", "B-14", "C-045", "B-15", NULL);
}

static void
nothing_is_taken_at_other_times (void)
{
  g_autofree char *text = second_move ("2026-11-25", "13:00", "14:00", "");
  g_autoptr(FlPlan) second = plan_for ("2026-11-25/02", NULL);
  g_autoptr(FlOffice) office = office_with (text, second);
  g_auto(GStrv) taken = fl_office_taken (office, "2026-11-25/01");
  g_auto(GStrv) unknown = fl_office_taken (office, "2026-11-25/99");

  expect_texts (taken, NULL);
  expect_texts (unknown, NULL);
}

/* The one trailer of the fleet is away: there is no plan, and not that trailer all the same. */
static void
a_trailer_that_is_away_is_not_proposed (void)
{
  g_autofree char *text = second_move ("2026-11-25", "10:00", "12:00", "");
  g_autoptr(FlOffice) office = open_text (text);
  g_autoptr(FlPlan) first = example_plan ();
  g_autoptr(GError) error = NULL;
  g_autoptr(FlPlan) start = fl_office_start (office, "2026-11-25/02", &error);
  g_autoptr(FlProposal) alone = fl_office_plan_move (office, start, NULL, &error), beside = NULL;

  g_assert_no_error (error);
  g_assert_cmpstr (alone->trailer, ==, "T-3");
  fl_office_set_plan (office, "2026-11-25/01", first);
  beside = fl_office_plan_move (office, start, NULL, &error);
  g_assert_no_error (error);
  g_assert_null (beside->best);
  g_assert_null (beside->trailer);
  g_assert_cmpuint (beside->n_because, ==, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/office-plans/a-move-without-a-plan", a_move_without_a_plan);
  g_test_add_func ("/office-plans/a-move-that-is-not-there", a_move_that_is_not_there);
  g_test_add_func ("/office-plans/a-plan-is-kept-and-judged", a_plan_is_kept_and_judged);
  g_test_add_func ("/office-plans/a-plan-that-names-what-is-not-there", a_plan_that_names_what_is_not_there);
  g_test_add_func ("/office-plans/what-is-not-there-is-told", what_is_not_there_is_told);
  g_test_add_func ("/office-plans/the-fleets-own-plans-come-first", the_fleets_own_plans_come_first);
  g_test_add_func ("/office-plans/clashes-depend-on-time", clashes_depend_on_time);
  g_test_add_func ("/office-plans/clashes-over-midnight", clashes_over_midnight);
  g_test_add_func ("/office-plans/clashes-name-the-piece", clashes_name_the_piece);
  g_test_add_func ("/office-plans/no-plans-no-clashes", no_plans_no_clashes);
  g_test_add_func ("/office-plans/gear-of-other-moves-is-taken", gear_of_other_moves_is_taken);
  g_test_add_func ("/office-plans/nothing-is-taken-at-other-times", nothing_is_taken_at_other_times);
  g_test_add_func ("/office-plans/a-trailer-that-is-away-is-not-proposed", a_trailer_that_is_away_is_not_proposed);
  return g_test_run ();
}
