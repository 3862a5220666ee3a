/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Searches off the main loop, one at a time, and what is told of them. */
#include <glib/gi18n.h>

#include "fl-planning.h"
#include "fl-ranking.h"

struct _FlPlanning
{
  GObject parent_instance;
  FlDesk *desk;                 /* its owner owns both */
  GCancellable *cancel;         /* NULL: nothing is under way */
  FlOffice *office;             /* that the search was begun on */
  char *subject;                /* "Planning the day" */
  char *move;                   /* the one that is planned or compared; NULL: a day */
  char *text;
  double fraction;
  GHashTable *rankings;         /* move: GPtrArray of FlProposal */
};

G_DEFINE_FINAL_TYPE (FlPlanning, fl_planning, G_TYPE_OBJECT)

enum { CHANGED, DONE, RANKED, N_SIGNALS };
static guint signals[N_SIGNALS];

static void
forget_rankings (FlPlanning *planning)
{
  g_hash_table_remove_all (planning->rankings);
}

static void
fl_planning_finalize (GObject *object)
{
  FlPlanning *planning = FL_PLANNING (object);

  g_clear_object (&planning->cancel);
  g_clear_pointer (&planning->office, fl_office_unref);
  g_clear_object (&planning->desk);
  g_free (planning->subject);
  g_free (planning->move);
  g_free (planning->text);
  g_hash_table_unref (planning->rankings);
  G_OBJECT_CLASS (fl_planning_parent_class)->finalize (object);
}

static void
fl_planning_class_init (FlPlanningClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = fl_planning_finalize;
  signals[CHANGED] = g_signal_new ("changed", FL_TYPE_PLANNING, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[DONE] = g_signal_new ("done", FL_TYPE_PLANNING, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 3, G_TYPE_BOOLEAN,
                                G_TYPE_STRING, G_TYPE_STRING);
  signals[RANKED] = g_signal_new ("ranked", FL_TYPE_PLANNING, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
}

static void
fl_planning_init (FlPlanning *planning)
{
  planning->rankings = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify) g_ptr_array_unref);
}

FlPlanning *
fl_planning_new (FlDesk *desk)
{
  FlPlanning *planning = g_object_new (FL_TYPE_PLANNING, NULL);

  planning->desk = g_object_ref (desk);
  g_signal_connect_object (desk, "fleet", G_CALLBACK (forget_rankings), planning, G_CONNECT_SWAPPED);
  g_signal_connect_object (desk, "history", G_CALLBACK (forget_rankings), planning, G_CONNECT_SWAPPED);
  return planning;
}

/* ── under way ── */

static void
on_progress (gpointer self, double fraction, const char *text)
{
  FlPlanning *planning = self;

  if (planning->cancel == NULL)
    return;
  g_free (planning->text);
  planning->fraction = fraction;
  planning->text = text != NULL && *text != '\0' ? g_strdup_printf ("%s: %s", planning->subject, text) : g_strdup (planning->subject);
  g_signal_emit (planning, signals[CHANGED], 0);
}

/* Takes the subject. FALSE: something is under way already. The search keeps the planning alive until it ends. */
static gboolean
begin (FlPlanning *planning, char *subject, const char *move)
{
  FlOffice *office = fl_desk_office (planning->desk);

  if (planning->cancel != NULL || office == NULL)
    {
      g_free (subject);
      return FALSE;
    }
  g_object_ref (planning);
  planning->cancel = g_cancellable_new ();
  planning->office = fl_office_ref (office);
  g_free (planning->subject);
  planning->subject = subject;
  g_free (planning->move);
  planning->move = g_strdup (move);
  on_progress (planning, 0.0, NULL);
  return TRUE;
}

/* The search is over. TRUE if its result still concerns the fleet that is open. */
static gboolean
end (FlPlanning *planning)
{
  const gboolean current = fl_desk_office (planning->desk) == planning->office;

  g_clear_object (&planning->cancel);
  g_clear_pointer (&planning->office, fl_office_unref);
  planning->fraction = 0.0;
  g_signal_emit (planning, signals[CHANGED], 0);
  return current;
}

static void
tell (FlPlanning *planning, gboolean trouble, const char *text, const char *move)
{
  g_signal_emit (planning, signals[DONE], 0, trouble, text, move);
}

static void
tell_stopped (FlPlanning *planning, const GError *error)
{
  if (error == NULL || g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    tell (planning, FALSE, _("Stopped. The plans are as they were."), NULL);
  else
    tell (planning, TRUE, error->message, NULL);
}

/* The first reason of a proposal that has no plan. (transfer full) */
static char *
first_reason (FlPlanning *planning, const FlProposal *proposal)
{
  if (proposal->n_because == 0)
    return g_strdup (_("no plan was found"));
  return fl_words_message (fl_desk_words (planning->desk), proposal->because[0].message, proposal->because[0].facts,
                           proposal->because[0].n_facts, fl_desk_metric (planning->desk));
}

/* ── one move ── */

static void
tell_of_move (FlPlanning *planning, const char *move)
{
  const FlOutcome *outcome = fl_desk_outcome (planning->desk, move);
  g_autofree char *words = fl_outcome_words (outcome);
  g_autofree char *text = NULL;

  if (outcome->state == FL_STATE_CANNOT)
    {
      g_autofree char *why = first_reason (planning, outcome->proposal);

      text = g_strdup_printf (_("%s cannot be planned: %s"), move, why);
    }
  else
    {
      const FlPlanChoices *choices = fl_plan_choices (fl_assessment_plan (outcome->assessment));
      g_autofree char *count = g_strdup_printf (ngettext ("%u tie-down", "%u tie-downs", (gulong) choices->n_tie_downs), (guint) choices->n_tie_downs);

      text = g_strdup_printf (_("%s is planned on %s with %s. %s."), move, choices->trailer, count, words);
    }
  tell (planning, outcome->state == FL_STATE_CANNOT, text, move);
}

/* Gives the desk one proposal; takes it. */
static void
take_one (FlPlanning *planning, FlProposal *proposal)
{
  g_autoptr(GPtrArray) one = g_ptr_array_new_with_free_func ((GDestroyNotify) fl_proposal_free);
  g_autofree char *name = g_strdup_printf (_("Plan %s"), proposal->move);
  g_autofree char *move = g_strdup (proposal->move);

  g_ptr_array_add (one, proposal);
  fl_desk_take_proposals (planning->desk, name, one);
  tell_of_move (planning, move);
}

static void
on_move_planned (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr(FlPlanning) planning = data;
  g_autoptr(FlOffice) office = fl_office_ref (planning->office);
  g_autoptr(GError) error = NULL;
  g_autoptr(FlProposal) proposal = fl_office_plan_move_finish (office, result, &error);

  (void) source;
  if (!end (planning))
    return;
  if (proposal == NULL || (proposal->state == FL_RUN_CANCELLED && proposal->best == NULL))
    tell_stopped (planning, error);
  else
    take_one (planning, g_steal_pointer (&proposal));
}

/* ── trailers ── */

static void
on_ranked (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr(FlPlanning) planning = data;
  g_autoptr(GError) error = NULL;
  g_autoptr(GPtrArray) ranking = fl_ranking_finish (result, &error);

  (void) source;
  if (!end (planning))
    return;
  if (ranking == NULL)
    {
      tell_stopped (planning, error);
      return;
    }
  g_hash_table_replace (planning->rankings, g_strdup (planning->move), g_ptr_array_ref (ranking));
  g_signal_emit (planning, signals[RANKED], 0, planning->move);
}

void
fl_planning_trailers (FlPlanning *planning, const char *move)
{
  if (begin (planning, g_strdup_printf (_("Comparing trailers for %s"), move), move))
    fl_ranking_async (planning->office, move, planning->cancel, on_progress, planning, on_ranked, planning);
}

void
fl_planning_move (FlPlanning *planning, const char *move)
{
  FlOffice *office = fl_desk_office (planning->desk);
  g_autoptr(GError) error = NULL;
  g_autoptr(FlPlan) start = office != NULL ? fl_office_start (office, move, &error) : NULL;

  if (error != NULL)
    {
      tell (planning, TRUE, error->message, move);
      return;
    }
  if (start == NULL)
    return;
  if (begin (planning, g_strdup_printf (_("Planning %s"), move), move))
    fl_office_plan_move_async (planning->office, start, planning->cancel, on_progress, planning, on_move_planned, planning);
}

/* ── the day ── */

/* "13 of 14 moves are planned. 2026-11-25/10 cannot be planned: ..." */
static void
tell_of_day (FlPlanning *planning, guint n_moves, gboolean stopped)
{
  g_autoptr(GString) text = g_string_new (NULL);
  g_autofree char *trouble = NULL;
  guint n_planned = 0, n_cannot = 0;

  for (guint i = 0; i < fl_desk_n_moves (planning->desk); i++)
    {
      const char *move = fl_desk_move_at (planning->desk, i)->id;
      const FlOutcome *outcome = fl_desk_outcome (planning->desk, move);

      n_planned += outcome->assessment != NULL;
      n_cannot += outcome->state == FL_STATE_CANNOT;
      if (outcome->state == FL_STATE_CANNOT && trouble == NULL)
        trouble = g_strdup (move);
    }
  if (stopped)
    g_string_append_printf (text, "%s ", _("Stopped; what was planned until then is kept."));
  g_string_append_printf (text, ngettext ("%u of %u move is planned.", "%u of %u moves are planned.", n_moves), n_planned, n_moves);
  if (n_cannot == 1)
    {
      g_autofree char *why = first_reason (planning, fl_desk_outcome (planning->desk, trouble)->proposal);

      g_string_append_c (text, ' ');
      g_string_append_printf (text, _("%s cannot be planned: %s"), trouble, why);
    }
  else if (n_cannot > 1)
    {
      g_string_append_c (text, ' ');
      g_string_append_printf (text, ngettext ("%u cannot be planned; the first is %s.", "%u cannot be planned; the first is %s.", n_cannot), n_cannot,
                              trouble);
    }
  tell (planning, n_cannot > 0, text->str, trouble);
}

/* What a stopped search left without an answer is not an answer. */
static void
drop_unanswered (GPtrArray *proposals)
{
  for (guint i = proposals->len; i > 0; i--)
    {
      const FlProposal *proposal = g_ptr_array_index (proposals, i - 1);

      if (proposal->best == NULL && proposal->state == FL_RUN_CANCELLED)
        g_ptr_array_remove_index (proposals, i - 1);
    }
}

static void
on_day_planned (GObject *source, GAsyncResult *result, gpointer data)
{
  g_autoptr(FlPlanning) planning = data;
  g_autoptr(FlOffice) office = fl_office_ref (planning->office);
  g_autoptr(GError) error = NULL;
  g_autoptr(FlDayPlan) day = fl_office_plan_day_finish (office, result, &error);

  (void) source;
  if (!end (planning))
    return;
  if (day != NULL)
    drop_unanswered (day->proposals);
  if (day == NULL || (day->state == FL_RUN_CANCELLED && day->proposals->len == 0))
    {
      tell_stopped (planning, error);
      return;
    }
  fl_desk_take_proposals (planning->desk, _("Plan the Day"), day->proposals);
  tell_of_day (planning, fl_desk_n_moves (planning->desk), day->state == FL_RUN_CANCELLED);
}

void
fl_planning_day (FlPlanning *planning)
{
  if (fl_desk_day (planning->desk) == NULL || !begin (planning, g_strdup (_("Planning the day")), NULL))
    return;
  fl_office_plan_day_async (planning->office, fl_desk_day (planning->desk), planning->cancel, on_progress, planning, on_day_planned, planning);
}

/* ── state ── */

void
fl_planning_cancel (FlPlanning *planning)
{
  if (planning->cancel != NULL)
    g_cancellable_cancel (planning->cancel);
}

gboolean
fl_planning_busy (FlPlanning *planning)
{
  return planning->cancel != NULL;
}

double
fl_planning_fraction (FlPlanning *planning)
{
  return planning->fraction;
}

const char *
fl_planning_text (FlPlanning *planning)
{
  return planning->text;
}

GPtrArray *
fl_planning_ranking (FlPlanning *planning, const char *move)
{
  return g_hash_table_lookup (planning->rankings, move);
}
