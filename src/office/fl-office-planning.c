/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Planning a move or a day: the questions that the office puts to the planner, at once or off the main loop. */
#include "fl-office-private.h"

#include <string.h>

#include "fl-words.h"

/* ── one move ── */

FlMoveTask *
fl_move_task_new (const FlOffice *office, const FlPlan *start)
{
  FlMoveTask *task = g_new0 (FlMoveTask, 1);

  task->book = fl_book_ref (office->book);
  task->fleet = fl_fleet_ref (office->fleet);
  task->start = fl_plan_ref (start);
  task->taken = fl_office_taken_all (office, fl_plan_choices (start)->move);
  return task;
}

void
fl_move_task_free (FlMoveTask *task)
{
  if (task == NULL)
    return;
  fl_book_unref (task->book);
  fl_fleet_unref (task->fleet);
  fl_plan_unref (task->start);
  g_strfreev (task->taken);
  g_free (task);
}

static FlProposal *
plan_from (const FlMoveTask *task, const FlPlan *start, const FlHost *host, GError **error)
{
  const FlSearch search = { 0, TRUE, (const char *const *) task->taken };

  return fl_plan_move (task->book, task->fleet, start, &search, host, error);
}

/* The start on a trailer that was chosen for it; what has all its axles itself has no truck before it. */
static FlProposal *
plan_on (const FlMoveTask *task, const char *trailer, const FlHost *host, GError **error)
{
  const FlTrailer *record = fl_record_trailer (fl_fleet_find (task->fleet, FL_KIND_TRAILER, trailer));
  g_autoptr(FlPlan) start = NULL;

  start = fl_plan_with_trailer (task->start, trailer, record->coupling.present ? fl_plan_choices (task->start)->truck : NULL);
  return plan_from (task, start, host, error);
}

/* How far a proposal is from a plan: what stands against its nearest; the most where nothing could be laid at all. */
static guint
distance (const FlProposal *proposal)
{
  const FlFinding *findings;
  gsize n;
  guint against = 0;

  if (proposal->best != NULL)
    return 0;
  if (proposal->nearest == NULL)
    return G_MAXUINT;
  findings = fl_assessment_findings (proposal->nearest, &n);
  for (gsize i = 0; i < n; i++)
    against += fl_finding_stands_against (&findings[i]) ? 1 : 0;
  return against;
}

/* The first of the best, or of those nearest to a plan; trailers that are away at that time are left out. */
static const FlProposal *
choose_row (const FlMoveTask *task, const GPtrArray *rows)
{
  const FlProposal *chosen = NULL;

  for (guint i = 0; i < rows->len; i++)
    {
      const FlProposal *row = g_ptr_array_index (rows, i);

      if (g_strv_contains ((const char *const *) task->taken, row->trailer))
        continue;
      if (chosen == NULL || distance (row) < distance (chosen))
        chosen = row;
    }
  return chosen;
}

static FlProposal *
none_free (const FlMoveTask *task, FlRunState state)
{
  static const FlMessage away = { N_("Every trailer is away at that time."), NULL, 0 };
  FlProposal *none = g_new0 (FlProposal, 1);

  none->arena = fl_arena_new ();
  none->state = state;
  none->quality = FL_NONE_FOUND;
  none->move = fl_arena_text (none->arena, fl_plan_choices (task->start)->move);
  none->because = &away;
  none->n_because = 1;
  return none;
}

static gboolean
cancelled (const FlHost *host)
{
  return host != NULL && g_cancellable_is_cancelled (host->cancel);
}

/* The best trailer for the move, planned once more so that its proposal stands alone and has its cures. */
static FlProposal *
plan_on_best (const FlMoveTask *task, const FlHost *host, GError **error)
{
  const FlRecord *move = fl_fleet_find (task->fleet, FL_KIND_MOVE, fl_plan_choices (task->start)->move);
  const FlSearch search = { 0, FALSE, (const char *const *) task->taken };
  g_autoptr(GPtrArray) rows = NULL;
  const FlProposal *chosen;

  rows = fl_rank_trailers (task->book, task->fleet, fl_record_move (move), &search, host, NULL, NULL, error);
  if (rows == NULL)
    return NULL;
  chosen = choose_row (task, rows);
  if (chosen == NULL || (cancelled (host) && chosen->best == NULL))
    return none_free (task, cancelled (host) ? FL_RUN_CANCELLED : FL_RUN_DONE);
  return plan_on (task, chosen->trailer, host, error);
}

FlProposal *
fl_move_task_run (const FlMoveTask *task, const FlHost *host, GError **error)
{
  const gboolean chosen = fl_plan_choices (task->start)->trailer != NULL;

  return chosen ? plan_from (task, task->start, host, error) : plan_on_best (task, host, error);
}

FlProposal *
fl_office_plan_move (const FlOffice *office, const FlPlan *start, const FlHost *host, GError **error)
{
  FlMoveTask *task;
  FlProposal *proposal;

  if (!fl_office_check_move (office, fl_plan_choices (start)->move, error))
    return NULL;
  task = fl_move_task_new (office, start);
  proposal = fl_move_task_run (task, host, error);
  fl_move_task_free (task);
  return proposal;
}

/* ── a day ── */

/* TRUE if a person has decided something in it: a plan without that is only an earlier answer, which may be bettered. */
static gboolean
is_decided (const FlPlan *plan)
{
  const FlPlanChoices *c = fl_plan_choices (plan);
  gboolean decided = c->n_acknowledged > 0 || c->n_exceptions > 0 || c->aside_gear != NULL || c->aside_anchors != NULL || c->n_aside_points > 0;

  for (gsize i = 0; i < c->n_loads; i++)
    decided = decided || c->loads[i].pinned != 0;
  for (gsize i = 0; i < c->n_tie_downs; i++)
    decided = decided || c->tie_downs[i].pinned != 0;
  return decided;
}

FlDayTask *
fl_day_task_new (const FlOffice *office, const char *date)
{
  FlDayTask *task = g_new0 (FlDayTask, 1);
  g_autoptr(GPtrArray) ids = fl_fleet_moves_of (office->fleet, date);

  task->book = fl_book_ref (office->book);
  task->fleet = fl_fleet_ref (office->fleet);
  task->date = g_strdup (date);
  task->kept = g_ptr_array_new_with_free_func ((GDestroyNotify) fl_plan_unref);
  for (guint i = 0; i < ids->len; i++)
    {
      const FlPlan *plan = fl_office_plan (office, g_ptr_array_index (ids, i));

      if (plan != NULL && is_decided (plan))
        g_ptr_array_add (task->kept, fl_plan_ref (plan));
    }
  return task;
}

void
fl_day_task_free (FlDayTask *task)
{
  if (task == NULL)
    return;
  fl_book_unref (task->book);
  fl_fleet_unref (task->fleet);
  g_free (task->date);
  g_ptr_array_unref (task->kept);
  g_free (task);
}

/* A decided plan that does not stand yet is completed around what is fixed in it; one that cannot be is kept as it is, so that
 * its judgement shows what is missing. (transfer full) */
static FlPlan *
completed (const FlDayTask *task, const FlPlan *plan, const FlHost *host, GError **error)
{
  g_autoptr(FlAssessment) as_it_is = fl_judge_plan (task->book, task->fleet, plan, error);
  g_autoptr(FlProposal) proposal = NULL;

  if (as_it_is == NULL)
    return NULL;
  if (fl_assessment_stands (as_it_is))
    return fl_plan_ref (plan);
  proposal = fl_plan_move (task->book, task->fleet, plan, NULL, host, error);
  if (proposal == NULL)
    return NULL;
  return fl_plan_ref (proposal->best != NULL ? fl_assessment_plan (proposal->best) : plan);
}

FlDayPlan *
fl_day_task_run (const FlDayTask *task, const FlHost *host, GError **error)
{
  g_autoptr(GPtrArray) kept = g_ptr_array_new_with_free_func ((GDestroyNotify) fl_plan_unref);
  const FlSearch search = { 0, TRUE, NULL };

  for (guint i = 0; i < task->kept->len; i++)
    {
      FlPlan *plan = completed (task, g_ptr_array_index (task->kept, i), host, error);

      if (plan == NULL)
        return NULL;
      g_ptr_array_add (kept, plan);
    }
  return fl_plan_day (task->book, task->fleet, task->date, (const FlPlan *const *) kept->pdata, kept->len, &search, host, error);
}

FlDayPlan *
fl_office_plan_day (const FlOffice *office, const char *date, const FlHost *host, GError **error)
{
  FlDayTask *task = fl_day_task_new (office, date);
  FlDayPlan *day = fl_day_task_run (task, host, error);

  fl_day_task_free (task);
  return day;
}
