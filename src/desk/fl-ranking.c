/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Trailers compared in another thread, on snapshots taken at the start. */
#include <glib/gi18n.h>

#include "fl-ranking.h"

typedef struct
{
  FlBook *book;
  FlFleet *fleet;
  FlMove move;                  /* its texts live as long as the fleet */
  char **taken;                 /* gear that other moves hold */
  GPtrArray *away;              /* trailers that other moves hold */
  FlOfficeProgress progress;
  gpointer progress_self;
  GMutex lock;
  double fraction;              /* these three under the lock */
  char *text;
  gboolean waiting;
} Ranking;

static void
ranking_free (gpointer data)
{
  Ranking *ranking = data;

  fl_book_unref (ranking->book);
  fl_fleet_unref (ranking->fleet);
  g_strfreev (ranking->taken);
  g_ptr_array_unref (ranking->away);
  g_mutex_clear (&ranking->lock);
  g_free (ranking->text);
  g_free (ranking);
}

/* On the main loop. */
static gboolean
pass_word (gpointer data)
{
  GTask *task = data;
  Ranking *ranking = g_task_get_task_data (task);
  g_autofree char *text = NULL;
  double fraction;

  g_mutex_lock (&ranking->lock);
  fraction = ranking->fraction;
  text = g_steal_pointer (&ranking->text);
  ranking->waiting = FALSE;
  g_mutex_unlock (&ranking->lock);
  if (!g_task_get_completed (task))
    ranking->progress (ranking->progress_self, fraction, text);
  return G_SOURCE_REMOVE;
}

/* In the thread that works: the newest word waits for the main loop, never more than one. */
static void
on_progress (gpointer self, double fraction, const char *message, const FlFact *facts, gsize n_facts)
{
  GTask *task = self;
  Ranking *ranking = g_task_get_task_data (task);
  gboolean wake;

  if (ranking->progress == NULL)
    return;
  g_mutex_lock (&ranking->lock);
  ranking->fraction = fraction;
  g_free (ranking->text);
  ranking->text = fl_words_message (NULL, message, facts, n_facts, fl_fleet_metric (ranking->fleet));
  wake = !ranking->waiting;
  ranking->waiting = TRUE;
  g_mutex_unlock (&ranking->lock);
  if (wake)
    g_main_context_invoke_full (g_task_get_context (task), G_PRIORITY_DEFAULT, pass_word, g_object_ref (task), g_object_unref);
}

static gboolean
is_away (const GPtrArray *away, const char *trailer)
{
  return trailer != NULL && g_ptr_array_find_with_equal_func ((GPtrArray *) away, trailer, g_str_equal, NULL);
}

static void
work (GTask *task, gpointer source, gpointer data, GCancellable *cancel)
{
  const Ranking *ranking = data;
  const FlSearch search = { 0, FALSE, (const char *const *) ranking->taken };
  const FlHost host = { on_progress, task, cancel };
  GError *error = NULL;
  GPtrArray *all = fl_rank_trailers (ranking->book, ranking->fleet, &ranking->move, &search, &host, NULL, NULL, &error);

  (void) source;
  if (all == NULL)
    {
      g_task_return_error (task, error);
      return;
    }
  for (guint i = all->len; i > 0; i--)
    if (is_away (ranking->away, ((const FlProposal *) g_ptr_array_index (all, i - 1))->trailer))
      g_ptr_array_remove_index (all, i - 1);
  if (!g_task_return_error_if_cancelled (task))
    g_task_return_pointer (task, all, (GDestroyNotify) g_ptr_array_unref);
  else
    g_ptr_array_unref (all);
}

/* Trailers that a plan of another move holds while this one is on its way. */
static GPtrArray *
trailers_away (FlOffice *office, const FlMove *move)
{
  const FlFleet *fleet = fl_office_fleet (office);
  GPtrArray *away = g_ptr_array_new_with_free_func (g_free);

  for (gsize i = 0; i < fl_fleet_count (fleet, FL_KIND_MOVE); i++)
    {
      const FlMove *other = fl_record_move (fl_fleet_at (fleet, FL_KIND_MOVE, i));
      const FlPlan *plan = other != NULL ? fl_office_plan (office, other->id) : NULL;

      if (plan != NULL && g_strcmp0 (other->id, move->id) != 0 && fl_moves_clash (move, other, fl_fleet_turnaround (fleet))
          && fl_plan_choices (plan)->trailer != NULL)
        g_ptr_array_add (away, g_strdup (fl_plan_choices (plan)->trailer));
    }
  return away;
}

void
fl_ranking_async (FlOffice *office, const char *move, GCancellable *cancel, FlOfficeProgress progress, gpointer progress_self,
                  GAsyncReadyCallback done, gpointer data)
{
  g_autoptr(GTask) task = g_task_new (NULL, cancel, done, data);
  const FlMove *view = fl_office_move (office, move);
  Ranking *ranking;

  if (view == NULL)
    {
      g_task_return_new_error (task, FL_OFFICE_ERROR, FL_OFFICE_ERROR_NO_MOVE, _("%s: the fleet has no such move"), move);
      return;
    }
  ranking = g_new0 (Ranking, 1);
  g_mutex_init (&ranking->lock);
  ranking->book = fl_book_ref (fl_office_book (office));
  ranking->fleet = fl_fleet_ref (fl_office_fleet (office));
  ranking->move = *view;
  ranking->taken = fl_office_taken (office, move);
  ranking->away = trailers_away (office, view);
  ranking->progress = progress;
  ranking->progress_self = progress_self;
  g_task_set_task_data (task, ranking, ranking_free);
  g_task_run_in_thread (task, work);
}

GPtrArray *
fl_ranking_finish (GAsyncResult *result, GError **error)
{
  return g_task_propagate_pointer (G_TASK (result), error);
}
