/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Judging what a task's search has found: see fl-task-private.h. */
#include "fl-draft.h"
#include "fl-score.h"
#include "fl-task-private.h"

static gboolean
is_better (const FlTaskResult *result, const FlScore *score)
{
  return result->best == NULL || fl_score_compare (score, &result->score) < 0;
}

static void
take (FlTaskResult *result, FlAssessment *judged, const FlScore *score)
{
  g_clear_pointer (&result->best, fl_assessment_unref);
  result->best = judged;
  result->score = *score;
}

/* A judgement at rest finds every caution that the quick one finds, and perhaps one more (placement): what is not better by the quick one is not
 * better at rest. */
gboolean
fl_run_consider (const FlRun *run, FlTaskResult *result, FlPlan *plan, FlAssessment **looked, GError **error)
{
  g_autoptr(FlScene) scene = fl_scene_new (run->task->book, run->task->fleet, plan, error);
  g_autoptr(FlAssessment) quick = NULL;
  FlScore score;

  if (scene == NULL)
    return FALSE;
  quick = fl_judge_at (scene, FL_JUDGE_MOVING);
  score = fl_score_of (quick, run->task->book);
  if (fl_assessment_stands (quick) && is_better (result, &score))
    {
      g_autoptr(FlAssessment) judged = fl_judge_at (scene, FL_JUDGE_SETTLED);

      score = fl_score_of (judged, run->task->book);
      if (fl_assessment_stands (judged) && is_better (result, &score))
        take (result, g_steal_pointer (&judged), &score);
    }
  if (looked != NULL)
    *looked = g_steal_pointer (&quick);
  return TRUE;
}

/* The plan without one of its tie-downs, the others numbered through. NULL where a person has fixed any. (transfer full) */
static FlPlan *
without (const FlPlan *plan, gsize index)
{
  FlPlanChoices next = *fl_plan_choices (plan);
  FlTieDown ties[FL_MAX_CHOSEN];
  gsize n = 0;

  for (gsize i = 0; i < next.n_tie_downs; i++)
    {
      if (next.tie_downs[i].pinned != 0)
        return NULL;
      if (i == index)
        continue;
      ties[n] = next.tie_downs[i];
      ties[n].no = (guint) n + 1;
      n++;
    }
  next.tie_downs = ties;
  next.n_tie_downs = n;
  return fl_plan_new (&next);
}

gboolean
fl_run_thin_out (const FlRun *run, FlTaskResult *result, GError **error)
{
  for (gsize i = 0; i < fl_plan_choices (fl_assessment_plan (result->best))->n_tie_downs; i++)
    {
      const FlTieDown *tie = &fl_plan_choices (fl_assessment_plan (result->best))->tie_downs[i];
      gboolean may = tie->purpose == FL_FOR_LOAD && fl_run_heavy (run, tie->load);
      g_autoptr(FlPlan) plan = may ? without (fl_assessment_plan (result->best), i) : NULL;
      const FlAssessment *before = result->best;

      if (plan == NULL)
        continue;
      if (!fl_run_consider (run, result, plan, NULL, error))
        return FALSE;
      if (result->best != before)
        i = (gsize) -1;         /* from the start with what is left */
    }
  return TRUE;
}

/* Shown as what comes nearest, so judged at rest. */
static gboolean
keep_nearest (const FlRun *run, FlTaskResult *result, const FlPlan *plan, GError **error)
{
  result->nearest = fl_judge_plan (run->task->book, run->task->fleet, plan, error);
  return result->nearest != NULL;
}

gboolean
fl_run_judge_kept (FlRun *run, FlTaskResult *result, GError **error)
{
  for (guint i = 0; i < run->n_kept; i++)
    {
      g_autoptr(FlPlan) plan = fl_draft_plan (run->task, run->pool, &run->kept[i].stance, &run->kept[i].chosen);
      g_autoptr(FlAssessment) looked = NULL;

      if (!fl_run_consider (run, result, plan, &looked, error))
        return FALSE;
      if (!fl_assessment_stands (looked) && result->nearest == NULL && !keep_nearest (run, result, plan, error))
        return FALSE;
    }
  return result->best == NULL || fl_run_thin_out (run, result, error);
}
