/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Planning off the main loop: a task's snapshots, its thread, its progress told where the office lives. */
#include "fl-office-private.h"

#include "fl-words.h"

/* ── progress ── */

/* Shared by the thread that works and the loop that waits. The thread may report thousands of times a second; the loop hears
 * the newest word only, and never more than one at a time waits for it. */
typedef struct
{
  gatomicrefcount refs;
  GMainContext *context;
  FlOfficeProgress progress;
  gpointer self;
  gboolean metric;
  GMutex lock;
  double fraction;              /* these three under the lock */
  char *text;
  gboolean waiting;
} Relay;

static Relay *
relay_new (FlOfficeProgress progress, gpointer self, gboolean metric)
{
  Relay *relay = g_new0 (Relay, 1);

  g_atomic_ref_count_init (&relay->refs);
  relay->context = g_main_context_ref_thread_default ();
  relay->progress = progress;
  relay->self = self;
  relay->metric = metric;
  g_mutex_init (&relay->lock);
  return relay;
}

static void
relay_unref (gpointer data)
{
  Relay *relay = data;

  if (!g_atomic_ref_count_dec (&relay->refs))
    return;
  g_main_context_unref (relay->context);
  g_mutex_clear (&relay->lock);
  g_free (relay->text);
  g_free (relay);
}

static gboolean
relay_tell (gpointer data)
{
  Relay *relay = data;
  g_autofree char *text = NULL;
  double fraction;

  g_mutex_lock (&relay->lock);
  fraction = relay->fraction;
  text = g_steal_pointer (&relay->text);
  relay->waiting = FALSE;
  g_mutex_unlock (&relay->lock);
  relay->progress (relay->self, fraction, text);
  return G_SOURCE_REMOVE;
}

/* Attached before the task returns and of the same priority as its answer: it is told before the answer is. */
static void
relay_wake (Relay *relay)
{
  GSource *source = g_idle_source_new ();

  g_atomic_ref_count_inc (&relay->refs);
  g_source_set_priority (source, G_PRIORITY_DEFAULT);
  g_source_set_callback (source, relay_tell, relay, relay_unref);
  g_source_attach (source, relay->context);
  g_source_unref (source);
}

/* In the thread that works. */
static void
relay_hear (gpointer self, double fraction, const char *message, const FlFact *facts, gsize n_facts)
{
  Relay *relay = self;
  gboolean wake;

  if (relay->progress == NULL)
    return;
  g_mutex_lock (&relay->lock);
  relay->fraction = fraction;
  g_free (relay->text);
  relay->text = fl_words_message (NULL, message, facts, n_facts, relay->metric);
  wake = !relay->waiting;
  relay->waiting = TRUE;
  g_mutex_unlock (&relay->lock);
  if (wake)
    relay_wake (relay);
}

/* ── jobs ── */

/* Which call a result belongs to. */
static char move_tag, day_tag;

typedef struct
{
  Relay *relay;
  FlMoveTask *move;             /* one of the two */
  FlDayTask *day;
} Job;

static void
job_free (gpointer data)
{
  Job *job = data;

  relay_unref (job->relay);
  fl_move_task_free (job->move);
  fl_day_task_free (job->day);
  g_free (job);
}

static void
run_job (GTask *task, gpointer source, gpointer data, GCancellable *cancel)
{
  Job *job = data;
  const FlHost host = { relay_hear, job->relay, cancel };
  GError *error = NULL;
  gpointer answer;
  GDestroyNotify release;

  (void) source;
  if (job->move != NULL)
    {
      answer = fl_move_task_run (job->move, &host, &error);
      release = (GDestroyNotify) fl_proposal_free;
    }
  else
    {
      answer = fl_day_task_run (job->day, &host, &error);
      release = (GDestroyNotify) fl_day_plan_free;
    }
  if (answer != NULL)
    g_task_return_pointer (task, answer, release);
  else
    g_task_return_error (task, error);
}

/* What was found before a cancel is an answer too, and says that it is cut short: so the task does not look at the cancellable itself. */
static void
start_job (Job *job, GCancellable *cancel, gpointer tag, GAsyncReadyCallback done, gpointer data)
{
  g_autoptr(GTask) task = g_task_new (NULL, cancel, done, data);

  g_task_set_source_tag (task, tag);
  g_task_set_check_cancellable (task, FALSE);
  g_task_set_task_data (task, job, job_free);
  g_task_run_in_thread (task, run_job);
}

void
fl_office_plan_move_async (FlOffice *office, const FlPlan *start, GCancellable *cancel, FlOfficeProgress progress, gpointer progress_self,
                           GAsyncReadyCallback done, gpointer data)
{
  GError *error = NULL;
  Job *job;

  if (!fl_office_check_move (office, fl_plan_choices (start)->move, &error))
    {
      g_task_report_error (NULL, done, data, &move_tag, error);
      return;
    }
  job = g_new0 (Job, 1);
  job->relay = relay_new (progress, progress_self, fl_fleet_metric (office->fleet));
  job->move = fl_move_task_new (office, start);
  start_job (job, cancel, &move_tag, done, data);
}

FlProposal *
fl_office_plan_move_finish (FlOffice *office, GAsyncResult *result, GError **error)
{
  (void) office;
  g_return_val_if_fail (g_async_result_is_tagged (result, &move_tag), NULL);
  return g_task_propagate_pointer (G_TASK (result), error);
}

void
fl_office_plan_day_async (FlOffice *office, const char *date, GCancellable *cancel, FlOfficeProgress progress, gpointer progress_self,
                          GAsyncReadyCallback done, gpointer data)
{
  Job *job = g_new0 (Job, 1);

  job->relay = relay_new (progress, progress_self, fl_fleet_metric (office->fleet));
  job->day = fl_day_task_new (office, date);
  start_job (job, cancel, &day_tag, done, data);
}

FlDayPlan *
fl_office_plan_day_finish (FlOffice *office, GAsyncResult *result, GError **error)
{
  (void) office;
  g_return_val_if_fail (g_async_result_is_tagged (result, &day_tag), NULL);
  return g_task_propagate_pointer (G_TASK (result), error);
}
