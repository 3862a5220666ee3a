/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Undo and redo of plans. */
#include "fl-history.h"

typedef struct { char *name; GPtrArray *pairs; } Step;

struct _FlHistory
{
  GPtrArray *steps;
  guint done;                   /* so many of them stand; the rest can be redone */
  gint saved;                   /* as many stood when last written; -1: that state is out of reach */
};

static void
pair_free (gpointer data)
{
  FlPlanStep *pair = data;

  g_free (pair->move);
  g_clear_pointer (&pair->before, fl_plan_unref);
  g_clear_pointer (&pair->after, fl_plan_unref);
  g_free (pair);
}

static void
step_free (gpointer data)
{
  Step *step = data;

  g_free (step->name);
  g_ptr_array_unref (step->pairs);
  g_free (step);
}

FlHistory *
fl_history_new (void)
{
  FlHistory *history = g_new0 (FlHistory, 1);

  history->steps = g_ptr_array_new_with_free_func (step_free);
  return history;
}

void
fl_history_free (FlHistory *history)
{
  if (history == NULL)
    return;
  g_ptr_array_unref (history->steps);
  g_free (history);
}

void
fl_history_clear (FlHistory *history)
{
  g_ptr_array_set_size (history->steps, 0);
  history->done = 0;
  history->saved = 0;
}

void
fl_history_begin (FlHistory *history, const char *name)
{
  Step *step = g_new0 (Step, 1);

  if (history->saved > (gint) history->done)
    history->saved = -1;
  g_ptr_array_set_size (history->steps, (gint) history->done);
  step->name = g_strdup (name);
  step->pairs = g_ptr_array_new_with_free_func (pair_free);
  g_ptr_array_add (history->steps, step);
  history->done++;
}

void
fl_history_add (FlHistory *history, const char *move, const FlPlan *before, const FlPlan *after)
{
  Step *step = g_ptr_array_index (history->steps, history->done - 1);
  FlPlanStep *pair = g_new0 (FlPlanStep, 1);

  pair->move = g_strdup (move);
  pair->before = before != NULL ? fl_plan_ref (before) : NULL;
  pair->after = after != NULL ? fl_plan_ref (after) : NULL;
  g_ptr_array_add (step->pairs, pair);
}

static const Step *
step_at (const FlHistory *history, guint index)
{
  return index < history->steps->len ? g_ptr_array_index (history->steps, index) : NULL;
}

const char *
fl_history_undo_name (const FlHistory *history)
{
  return history->done > 0 ? step_at (history, history->done - 1)->name : NULL;
}

const char *
fl_history_redo_name (const FlHistory *history)
{
  const Step *step = step_at (history, history->done);

  return step != NULL ? step->name : NULL;
}

const GPtrArray *
fl_history_undo (FlHistory *history)
{
  if (history->done == 0)
    return NULL;
  history->done--;
  return step_at (history, history->done)->pairs;
}

const GPtrArray *
fl_history_redo (FlHistory *history)
{
  const Step *step = step_at (history, history->done);

  if (step == NULL)
    return NULL;
  history->done++;
  return step->pairs;
}

void
fl_history_mark_saved (FlHistory *history)
{
  history->saved = (gint) history->done;
}

void
fl_history_mark_lost (FlHistory *history)
{
  history->saved = -1;
}

gboolean
fl_history_unsaved (const FlHistory *history)
{
  return history->saved != (gint) history->done;
}
