/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Planning through the office, at once and off the main loop: the same answer both ways, progress on the loop's thread and never after the
 * answer, cancelling, and what a person has fixed in a day. */
#include "fl-test-office.h"

/* ── waiting for an answer ── */

typedef struct
{
  GMainLoop *loop;
  GThread *home;
  GAsyncResult *result;         /* NULL until the answer is there */
  guint words;
  double last;
} Wait;

static void
heard (gpointer self, double fraction, const char *text)
{
  Wait *wait = self;

  g_assert_true (g_thread_self () == wait->home);
  g_assert_null (wait->result);
  g_assert_cmpfloat (fraction, >=, 0.0);
  g_assert_cmpfloat (fraction, <=, 1.0);
  g_assert_nonnull (text);
  g_assert_null (strchr (text, '{'));   /* every hole is filled */
  wait->words++;
  wait->last = fraction;
}

static void
answered (GObject *source, GAsyncResult *result, gpointer data)
{
  Wait *wait = data;

  g_assert_null (source);
  g_assert_true (g_thread_self () == wait->home);
  wait->result = g_object_ref (result);
  g_main_loop_quit (wait->loop);
}

static gboolean
too_long (gpointer data)
{
  (void) data;
  g_error ("no answer came");
  return G_SOURCE_REMOVE;
}

static Wait
wait_new (void)
{
  return (Wait) { g_main_loop_new (NULL, FALSE), g_thread_self (), NULL, 0, 0.0 };
}

/* The guard is no measure of speed: it ends a test that would hang for ever. */
static void
wait_for (Wait *wait)
{
  guint guard = g_timeout_add_seconds (240, too_long, NULL);

  g_main_loop_run (wait->loop);
  g_source_remove (guard);
  while (g_main_context_iteration (NULL, FALSE))        /* a word after the answer would be heard here */
    ;
}

static void
wait_clear (Wait *wait)
{
  g_clear_object (&wait->result);
  g_main_loop_unref (wait->loop);
}

static char *
best_text (const FlProposal *proposal)
{
  g_autoptr(GBytes) bytes = NULL;

  if (proposal->best == NULL)
    return g_strdup ("none");
  bytes = fl_assessment_to_json (proposal->best, FALSE);
  return g_strndup (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes));
}

static void
same_answer (const FlProposal *a, const FlProposal *b)
{
  g_autofree char *text_a = best_text (a), *text_b = best_text (b);

  g_assert_cmpstr (text_a, ==, text_b);
}

/* ── a move ── */

static void
a_move_off_the_loop (void)
{
  g_autoptr(FlOffice) office = open_example ();
  g_autoptr(GError) error = NULL;
  g_autoptr(FlPlan) start = fl_office_start (office, "2026-11-25/01", &error);
  g_autoptr(FlProposal) here = fl_office_plan_move (office, start, NULL, &error), there = NULL;
  Wait wait = wait_new ();

  g_assert_no_error (error);
  fl_office_plan_move_async (office, start, NULL, heard, &wait, answered, &wait);
  g_assert_null (wait.result);
  wait_for (&wait);
  there = fl_office_plan_move_finish (office, wait.result, &error);
  g_assert_no_error (error);
  g_assert_nonnull (there->best);
  g_assert_true (fl_assessment_stands (there->best));
  g_assert_cmpint (there->state, ==, FL_RUN_DONE);
  same_answer (here, there);
  g_assert_null (fl_office_plan (office, "2026-11-25/01"));     /* it is proposed, not taken */
  wait_clear (&wait);
}

/* The office may be closed and its plans changed while the work is under way: the work is on snapshots. */
static void
the_office_may_go_on (void)
{
  FlOffice *office = open_example ();
  g_autoptr(GError) error = NULL;
  g_autoptr(FlPlan) start = fl_office_start (office, "2026-11-25/01", &error), plan = example_plan ();
  g_autoptr(FlProposal) first = NULL, second = NULL;
  Wait one = wait_new (), two = wait_new ();

  fl_office_plan_move_async (office, start, NULL, heard, &one, answered, &one);
  fl_office_plan_move_async (office, start, NULL, NULL, NULL, answered, &two);
  fl_office_set_plan (office, "2026-11-25/01", plan);
  fl_office_unref (office);
  if (one.result == NULL)
    wait_for (&one);
  if (two.result == NULL)
    wait_for (&two);
  first = fl_office_plan_move_finish (NULL, one.result, &error);
  second = fl_office_plan_move_finish (NULL, two.result, &error);
  g_assert_no_error (error);
  same_answer (first, second);
  g_assert_cmpuint (two.words, ==, 0);
  wait_clear (&one);
  wait_clear (&two);
}

static void
a_move_that_is_not_there (void)
{
  g_autoptr(FlOffice) office = open_example ();
  g_autofree char *text = data_text ("example-plan.json");
  g_autofree char *other = replaced (text, "2026-11-25/01", "2026-11-25/09", NULL);
  g_autoptr(FlPlan) start = plan_of_text (other);
  g_autoptr(GError) error = NULL;
  Wait wait = wait_new ();

  fl_office_plan_move_async (office, start, NULL, heard, &wait, answered, &wait);
  g_assert_null (wait.result);  /* never before the call returns */
  wait_for (&wait);
  g_assert_null (fl_office_plan_move_finish (office, wait.result, &error));
  g_assert_error (error, FL_OFFICE_ERROR, FL_OFFICE_ERROR_NO_MOVE);
  wait_clear (&wait);
}

/* Cancelled before it began: an answer all the same, that says so. */
static void
a_cancelled_move (void)
{
  g_autoptr(FlOffice) office = open_example ();
  g_autoptr(GError) error = NULL;
  g_autoptr(FlPlan) start = fl_office_start (office, "2026-11-25/01", &error);
  g_autoptr(GCancellable) cancel = g_cancellable_new ();
  g_autoptr(FlProposal) proposal = NULL;
  Wait wait = wait_new ();

  g_cancellable_cancel (cancel);
  fl_office_plan_move_async (office, start, cancel, heard, &wait, answered, &wait);
  wait_for (&wait);
  proposal = fl_office_plan_move_finish (office, wait.result, &error);
  g_assert_no_error (error);
  g_assert_cmpint (proposal->state, ==, FL_RUN_CANCELLED);
  wait_clear (&wait);
}

static void
without_a_trailer_the_best_is_taken (void)
{
  g_autofree char *text = data_text ("example-fleet.json");
  g_autofree char *open = replaced (text, "\"trailer\": \"T-3\",\n", "", NULL);
  g_autoptr(FlOffice) office = open_text (open);
  g_autoptr(GError) error = NULL;
  g_autoptr(FlPlan) start = fl_office_start (office, "2026-11-25/01", &error);
  g_autoptr(FlProposal) proposal = NULL;
  Wait wait = wait_new ();

  g_assert_no_error (error);
  g_assert_null (fl_plan_choices (start)->trailer);
  fl_office_plan_move_async (office, start, NULL, heard, &wait, answered, &wait);
  wait_for (&wait);
  proposal = fl_office_plan_move_finish (office, wait.result, &error);
  g_assert_no_error (error);
  g_assert_nonnull (proposal->best);
  g_assert_cmpstr (fl_plan_choices (fl_assessment_plan (proposal->best))->trailer, ==, "T-3");
  wait_clear (&wait);
}

/* The example's trailer made one that has all its axles itself; the move's truck does not go before it. */
static void
a_trailer_of_its_own_has_no_truck (void)
{
  g_autofree char *text = data_text ("example-fleet.json");
  g_autofree char *open = replaced (text, "\"trailer\": \"T-3\",\n", "", NULL);
  const char *coupling = strstr (strstr (open, "\"trailers\""), "\"coupling\": {"), *end = strchr (coupling, '}');
  g_autofree char *part = g_strndup (coupling, (gsize) (strchr (end, '\n') - coupling));
  g_autofree char *alone = replaced (open, part, "\"notes\": \"\",", NULL);
  g_autoptr(FlOffice) office = open_text (alone);
  g_autoptr(GError) error = NULL;
  g_autoptr(FlPlan) start = fl_office_start (office, "2026-11-25/01", &error);
  g_autoptr(FlProposal) proposal = fl_office_plan_move (office, start, NULL, &error);

  g_assert_no_error (error);
  g_assert_cmpstr (fl_plan_choices (start)->truck, ==, "K-2");
  g_assert_cmpstr (proposal->trailer, ==, "T-3");
  g_assert_null (proposal->truck);
}

/* A pin holds: the machine stands where the person has put it. */
static void
what_is_pinned_stays (void)
{
  g_autoptr(FlOffice) office = open_example ();
  g_autofree char *text = data_text ("example-plan.json");
  g_autofree char *pinned = replaced (text, "\"rear_in\": 10", "\"rear_in\": 13, \"pinned\": [\"rear\", \"facing\"]", NULL);
  g_autoptr(FlPlan) plan = plan_of_text (pinned);
  g_autoptr(GError) error = NULL;
  g_autoptr(FlProposal) proposal = fl_office_plan_move (office, plan, NULL, &error);

  g_assert_no_error (error);
  g_assert_nonnull (proposal->best);
  g_assert_cmpfloat (fl_plan_choices (fl_assessment_plan (proposal->best))->loads[0].rear.value, ==, 13.0);
}

/* ── a day ── */

/* The example with a later move of the same machine. */
static char *
two_moves (void)
{
  return text_with_moves (", {\"id\": \"2026-11-25/02\", \"date\": \"2026-11-25\", \"depart\": \"13:00\", \"back\": \"15:00\", \"machine\": \"R-03\","
                          " \"trailer\": \"T-3\", \"truck\": \"K-2\", \"from\": \"NORTH\"}");
}

static void
a_day_off_the_loop (void)
{
  g_autofree char *text = two_moves ();
  g_autoptr(FlOffice) office = open_text (text);
  g_autoptr(GError) error = NULL;
  g_autoptr(FlDayPlan) here = fl_office_plan_day (office, "2026-11-25", NULL, &error), there = NULL;
  Wait wait = wait_new ();

  g_assert_no_error (error);
  fl_office_plan_day_async (office, "2026-11-25", NULL, heard, &wait, answered, &wait);
  wait_for (&wait);
  there = fl_office_plan_day_finish (office, wait.result, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (there->proposals->len, ==, 2);
  g_assert_cmpuint (here->proposals->len, ==, 2);
  for (guint i = 0; i < 2; i++)
    {
      const FlProposal *proposal = g_ptr_array_index (there->proposals, i);

      g_assert_true (proposal->best != NULL && fl_assessment_stands (proposal->best));
      same_answer (g_ptr_array_index (here->proposals, i), proposal);
    }
  g_assert_cmpuint (wait.words, >, 0);
  wait_clear (&wait);
}

/* What there is of it is an answer, and says that it was cut short. */
static void
a_cancelled_day (void)
{
  g_autofree char *text = two_moves ();
  g_autoptr(FlOffice) office = open_text (text);
  g_autoptr(GError) error = NULL;
  g_autoptr(GCancellable) cancel = g_cancellable_new ();
  g_autoptr(FlDayPlan) day = NULL;
  Wait wait = wait_new ();

  g_cancellable_cancel (cancel);
  fl_office_plan_day_async (office, "2026-11-25", cancel, heard, &wait, answered, &wait);
  wait_for (&wait);
  day = fl_office_plan_day_finish (office, wait.result, &error);
  g_assert_no_error (error);
  g_assert_cmpint (day->state, ==, FL_RUN_CANCELLED);
  g_assert_cmpuint (day->proposals->len, <, 2);
  wait_clear (&wait);
}

static void
a_day_without_moves (void)
{
  g_autoptr(FlOffice) office = open_example ();
  g_autoptr(GError) error = NULL;
  g_autoptr(FlDayPlan) day = fl_office_plan_day (office, "2031-01-01", NULL, &error);

  g_assert_no_error (error);
  g_assert_cmpuint (day->proposals->len, ==, 0);
}

/* The plan of the day's first move after the office was given `plan` for it. */
static char *
planned_with (const FlPlan *plan)
{
  g_autoptr(FlOffice) office = open_example ();
  g_autoptr(GError) error = NULL;
  g_autoptr(FlDayPlan) day = NULL;
  const FlProposal *proposal;

  fl_office_set_plan (office, "2026-11-25/01", plan);
  day = fl_office_plan_day (office, "2026-11-25", NULL, &error);
  g_assert_no_error (error);
  proposal = g_ptr_array_index (day->proposals, 0);
  g_assert_nonnull (proposal->best);
  return plan_text (fl_assessment_plan (proposal->best));
}

/* A plan that stands and in which a person has fixed something is kept to the letter; one without is only an earlier answer. */
static void
a_day_keeps_what_was_decided (void)
{
  g_autofree char *text = data_text ("example-plan.json");
  g_autofree char *pinned = replaced (text, "\"rear_in\": 10", "\"rear_in\": 10, \"pinned\": [\"rear\"]", NULL);
  g_autoptr(FlPlan) decided = plan_of_text (pinned), loose = plan_of_text (text);
  g_autofree char *kept = planned_with (decided), *as_given = plan_text (decided);
  g_autofree char *anew = planned_with (loose), *from_nothing = planned_with (NULL);

  g_assert_cmpstr (kept, ==, as_given);
  g_assert_cmpstr (anew, ==, from_nothing);
}

/* A decided plan that does not stand yet, here one without a single tie-down, is completed round what is fixed. */
static void
a_day_completes_what_was_begun (void)
{
  g_autofree char *text = data_text ("example-plan.json");
  g_autofree char *pinned = replaced (text, "\"rear_in\": 10", "\"rear_in\": 13, \"pinned\": [\"rear\", \"facing\"]", NULL);
  g_autoptr(FlPlan) whole = plan_of_text (pinned);
  FlPlanChoices choices = *fl_plan_choices (whole);
  g_autoptr(FlPlan) begun = NULL, done = NULL;
  g_autofree char *after = NULL;

  choices.n_tie_downs = 0;
  begun = fl_plan_new (&choices);
  after = planned_with (begun);
  done = plan_of_text (after);
  g_assert_cmpfloat (fl_plan_choices (done)->loads[0].rear.value, ==, 13.0);
  g_assert_cmpuint (fl_plan_choices (done)->n_tie_downs, >=, 4);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/office-planning/a-move-off-the-loop", a_move_off_the_loop);
  g_test_add_func ("/office-planning/the-office-may-go-on", the_office_may_go_on);
  g_test_add_func ("/office-planning/a-move-that-is-not-there", a_move_that_is_not_there);
  g_test_add_func ("/office-planning/a-cancelled-move", a_cancelled_move);
  g_test_add_func ("/office-planning/without-a-trailer-the-best-is-taken", without_a_trailer_the_best_is_taken);
  g_test_add_func ("/office-planning/a-trailer-of-its-own-has-no-truck", a_trailer_of_its_own_has_no_truck);
  g_test_add_func ("/office-planning/what-is-pinned-stays", what_is_pinned_stays);
  g_test_add_func ("/office-planning/a-day-off-the-loop", a_day_off_the_loop);
  g_test_add_func ("/office-planning/a-cancelled-day", a_cancelled_day);
  g_test_add_func ("/office-planning/a-day-without-moves", a_day_without_moves);
  g_test_add_func ("/office-planning/a-day-keeps-what-was-decided", a_day_keeps_what_was_decided);
  g_test_add_func ("/office-planning/a-day-completes-what-was-begun", a_day_completes_what_was_begun);
  return g_test_run ();
}
