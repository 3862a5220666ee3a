/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Undo, redo and what counts as saved. What is expected follows from what the words mean. */
#include "fl-history.h"

static FlPlan *
plan_on (const char *trailer)
{
  const FlPlanChoices choices = { .fleet = "F", .move = "M", .trailer = trailer };

  return fl_plan_new (&choices);
}

static const char *
trailer_of (const FlPlan *plan)
{
  return plan != NULL ? fl_plan_choices (plan)->trailer : NULL;
}

static const FlPlanStep *
only (const GPtrArray *pairs)
{
  g_assert_nonnull (pairs);
  g_assert_cmpuint (pairs->len, ==, 1);
  return g_ptr_array_index (pairs, 0);
}

static void
add_step (FlHistory *history, const char *name, const FlPlan *before, const FlPlan *after)
{
  fl_history_begin (history, name);
  fl_history_add (history, "M", before, after);
}

static void
test_back_and_on (void)
{
  g_autoptr(FlHistory) history = fl_history_new ();
  g_autoptr(FlPlan) first = plan_on ("T-1");
  g_autoptr(FlPlan) second = plan_on ("T-2");

  g_assert_null (fl_history_undo_name (history));
  g_assert_null (fl_history_undo (history));
  add_step (history, "one", NULL, first);
  add_step (history, "two", first, second);
  g_assert_cmpstr (fl_history_undo_name (history), ==, "two");
  g_assert_cmpstr (trailer_of (only (fl_history_undo (history))->before), ==, "T-1");
  g_assert_cmpstr (fl_history_undo_name (history), ==, "one");
  g_assert_cmpstr (fl_history_redo_name (history), ==, "two");
  g_assert_null (only (fl_history_undo (history))->before);
  g_assert_null (fl_history_undo (history));
  g_assert_cmpstr (trailer_of (only (fl_history_redo (history))->after), ==, "T-1");
  g_assert_cmpstr (trailer_of (only (fl_history_redo (history))->after), ==, "T-2");
  g_assert_null (fl_history_redo (history));
}

/* A new step after an undo: what was undone is gone for good. */
static void
test_new_way (void)
{
  g_autoptr(FlHistory) history = fl_history_new ();
  g_autoptr(FlPlan) first = plan_on ("T-1");
  g_autoptr(FlPlan) second = plan_on ("T-2");

  add_step (history, "one", NULL, first);
  fl_history_undo (history);
  add_step (history, "other", NULL, second);
  g_assert_null (fl_history_redo_name (history));
  g_assert_cmpstr (trailer_of (only (fl_history_undo (history))->after), ==, "T-2");
  g_assert_null (fl_history_undo (history));
}

static void
test_many_in_one_step (void)
{
  g_autoptr(FlHistory) history = fl_history_new ();
  g_autoptr(FlPlan) plan = plan_on ("T-1");
  const GPtrArray *pairs;

  fl_history_begin (history, "the day");
  fl_history_add (history, "A", NULL, plan);
  fl_history_add (history, "B", plan, NULL);
  pairs = fl_history_undo (history);
  g_assert_cmpuint (pairs->len, ==, 2);
  g_assert_cmpstr (((const FlPlanStep *) g_ptr_array_index (pairs, 0))->move, ==, "A");
  g_assert_cmpstr (trailer_of (((const FlPlanStep *) g_ptr_array_index (pairs, 1))->before), ==, "T-1");
}

static void
test_saved (void)
{
  g_autoptr(FlHistory) history = fl_history_new ();
  g_autoptr(FlPlan) plan = plan_on ("T-1");

  g_assert_false (fl_history_unsaved (history));
  add_step (history, "one", NULL, plan);
  g_assert_true (fl_history_unsaved (history));
  fl_history_mark_saved (history);
  g_assert_false (fl_history_unsaved (history));
  fl_history_undo (history);
  g_assert_true (fl_history_unsaved (history));
  fl_history_redo (history);
  g_assert_false (fl_history_unsaved (history));
}

/* The saved state was undone and another way was taken: no step leads back to it. */
static void
test_saved_out_of_reach (void)
{
  g_autoptr(FlHistory) history = fl_history_new ();
  g_autoptr(FlPlan) plan = plan_on ("T-1");

  add_step (history, "one", NULL, plan);
  fl_history_mark_saved (history);
  fl_history_undo (history);
  add_step (history, "other", NULL, plan);
  g_assert_true (fl_history_unsaved (history));
  fl_history_undo (history);
  g_assert_true (fl_history_unsaved (history));
  fl_history_clear (history);
  g_assert_false (fl_history_unsaved (history));
  fl_history_mark_lost (history);
  g_assert_true (fl_history_unsaved (history));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/history/back-and-on", test_back_and_on);
  g_test_add_func ("/history/new-way", test_new_way);
  g_test_add_func ("/history/many-in-one-step", test_many_in_one_step);
  g_test_add_func ("/history/saved", test_saved);
  g_test_add_func ("/history/saved-out-of-reach", test_saved_out_of_reach);
  return g_test_run ();
}
