/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The state of one window: fleet, day, move, tie-down, plans. */
#include "fl-desk.h"

#include <string.h>

#include "fl-history.h"

struct _FlDesk
{
  GObject parent_instance;
  FlOffice *office;
  const FlWords *words;         /* the office's */
  gint units;                   /* 0 the fleet's, 1 US, 2 metric */
  GPtrArray *dates, *moves;     /* of char*; the moves of the day shown */
  char *day, *selected;
  gint tie;
  GHashTable *outcomes;         /* move id: FlOutcome */
  FlHistory *history;
};

G_DEFINE_FINAL_TYPE (FlDesk, fl_desk, G_TYPE_OBJECT)

enum { FLEET, DAY, MOVE, OUTCOME, TIE, HISTORY, UNITS, N_SIGNALS };
static guint signals[N_SIGNALS];

static void
forget_fleet (FlDesk *desk)
{
  g_clear_pointer (&desk->dates, g_ptr_array_unref);
  g_clear_pointer (&desk->moves, g_ptr_array_unref);
  g_clear_pointer (&desk->day, g_free);
  g_clear_pointer (&desk->selected, g_free);
  g_hash_table_remove_all (desk->outcomes);
  fl_history_clear (desk->history);
  desk->tie = -1;
  desk->words = NULL;
  g_clear_pointer (&desk->office, fl_office_unref);
}

static void
fl_desk_finalize (GObject *object)
{
  FlDesk *desk = FL_DESK (object);

  forget_fleet (desk);
  g_hash_table_unref (desk->outcomes);
  fl_history_free (desk->history);
  G_OBJECT_CLASS (fl_desk_parent_class)->finalize (object);
}

static void
fl_desk_class_init (FlDeskClass *klass)
{
  static const char *const names[N_SIGNALS] = { "fleet", "day", "move", "outcome", "tie", "history", "units" };

  G_OBJECT_CLASS (klass)->finalize = fl_desk_finalize;
  for (guint i = 0; i < N_SIGNALS; i++)
    signals[i] = i == OUTCOME
      ? g_signal_new (names[i], FL_TYPE_DESK, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING)
      : g_signal_new (names[i], FL_TYPE_DESK, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
fl_desk_init (FlDesk *desk)
{
  desk->outcomes = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify) fl_outcome_free);
  desk->history = fl_history_new ();
  desk->tie = -1;
}

FlDesk *
fl_desk_new (void)
{
  return g_object_new (FL_TYPE_DESK, NULL);
}

/* ── opening ── */

/* The first of the languages wished for that has a catalog; English where English comes first. */
static const FlWords *
words_of (FlOffice *office)
{
  const char *const *languages = g_get_language_names ();

  for (gsize i = 0; languages[i] != NULL; i++)
    {
      const FlWords *words;

      if (g_str_equal (languages[i], "C") || g_str_has_prefix (languages[i], "en"))
        return NULL;
      words = fl_office_words (office, languages[i]);
      if (words != NULL)
        return words;
    }
  return NULL;
}

static guint
moves_on (const FlDesk *desk, const char *date)
{
  g_autoptr(GPtrArray) moves = fl_fleet_moves_of (fl_office_fleet (desk->office), date);

  return moves->len;
}

/* Dates are written so that their order as text is their order in time. */
static const char *
first_day (const FlDesk *desk, const char *today)
{
  const char *busiest = NULL;
  guint most = 0;

  for (guint i = 0; i < desk->dates->len; i++)
    {
      const char *date = g_ptr_array_index (desk->dates, i);
      const guint n = moves_on (desk, date);

      if (today != NULL && strcmp (date, today) >= 0)
        return date;
      if (n >= most)
        busiest = date;
      most = MAX (most, n);
    }
  return busiest;
}

static void
set_day (FlDesk *desk, const char *date)
{
  char *day = g_strdup (date);

  g_free (desk->day);
  desk->day = day;
  g_clear_pointer (&desk->moves, g_ptr_array_unref);
  if (day != NULL)
    desk->moves = fl_fleet_moves_of (fl_office_fleet (desk->office), day);
  g_clear_pointer (&desk->selected, g_free);
  desk->tie = -1;
  if (desk->moves != NULL && desk->moves->len > 0)
    desk->selected = g_strdup (g_ptr_array_index (desk->moves, 0));
}

/* The plans made here go with the fleet when its file is read again: nothing is lost by a reload. */
static void
carry_plans (FlDesk *desk, FlOffice *next)
{
  const FlFleet *fleet = fl_office_fleet (desk->office);

  for (gsize i = 0; i < fl_fleet_count (fleet, FL_KIND_MOVE); i++)
    {
      const char *move = fl_record_id (fl_fleet_at (fleet, FL_KIND_MOVE, i));
      const FlPlan *plan = fl_office_plan (desk->office, move);

      if (plan != NULL && fl_office_move (next, move) != NULL)
        fl_office_set_plan (next, move, plan);
    }
}

gboolean
fl_desk_open (FlDesk *desk, const char *path, const char *today, FlProblems *problems, GError **error)
{
  FlOffice *next = fl_office_open (path, problems, error);
  const gboolean again = next != NULL && desk->office != NULL && g_strcmp0 (fl_office_path (desk->office), path) == 0;
  g_autofree char *day = NULL;
  g_autofree char *selected = NULL;
  gboolean unsaved;

  if (next == NULL)
    return FALSE;
  unsaved = again && fl_history_unsaved (desk->history);
  if (again)
    {
      carry_plans (desk, next);
      day = g_strdup (desk->day);
      selected = g_strdup (desk->selected);
    }
  forget_fleet (desk);
  desk->office = next;
  desk->words = words_of (next);
  desk->dates = fl_fleet_dates (fl_office_fleet (next));
  if (unsaved)
    fl_history_mark_lost (desk->history);
  set_day (desk, first_day (desk, today));
  g_signal_emit (desk, signals[FLEET], 0);
  if (day == NULL || !fl_desk_show_day (desk, day))
    g_signal_emit (desk, signals[DAY], 0);
  if (selected != NULL)
    fl_desk_select (desk, selected);
  return TRUE;
}

FlOffice *
fl_desk_office (FlDesk *desk)
{
  return desk->office;
}

const FlFleet *
fl_desk_fleet (FlDesk *desk)
{
  return desk->office != NULL ? fl_office_fleet (desk->office) : NULL;
}

const FlWords *
fl_desk_words (FlDesk *desk)
{
  return desk->words;
}

gboolean
fl_desk_metric (FlDesk *desk)
{
  if (desk->units != 0 || desk->office == NULL)
    return desk->units == 2;
  return fl_fleet_metric (fl_office_fleet (desk->office));
}

void
fl_desk_set_units (FlDesk *desk, const char *units)
{
  desk->units = g_strcmp0 (units, "metric") == 0 ? 2 : g_strcmp0 (units, "us") == 0 ? 1 : 0;
  g_signal_emit (desk, signals[UNITS], 0);
}

/* ── the day ── */

const char *
fl_desk_day (FlDesk *desk)
{
  return desk->day;
}

static const char *
day_beside (FlDesk *desk, gint step)
{
  guint index;

  if (desk->dates == NULL || desk->day == NULL
      || !g_ptr_array_find_with_equal_func (desk->dates, desk->day, g_str_equal, &index))
    return NULL;
  if ((gint) index + step < 0 || (gint) index + step >= (gint) desk->dates->len)
    return NULL;
  return g_ptr_array_index (desk->dates, (guint) ((gint) index + step));
}

gboolean
fl_desk_has_day (FlDesk *desk, gint step)
{
  return day_beside (desk, step) != NULL;
}

gboolean
fl_desk_step_day (FlDesk *desk, gint step)
{
  const char *date = day_beside (desk, step);

  return date != NULL && fl_desk_show_day (desk, date);
}

gboolean
fl_desk_show_day (FlDesk *desk, const char *date)
{
  if (desk->dates == NULL || !g_ptr_array_find_with_equal_func (desk->dates, date, g_str_equal, NULL))
    return FALSE;
  set_day (desk, date);
  g_signal_emit (desk, signals[DAY], 0);
  return TRUE;
}

/* ── moves ── */

guint
fl_desk_n_moves (FlDesk *desk)
{
  return desk->moves != NULL ? desk->moves->len : 0;
}

const FlMove *
fl_desk_move_at (FlDesk *desk, guint index)
{
  return index < fl_desk_n_moves (desk) ? fl_office_move (desk->office, g_ptr_array_index (desk->moves, index)) : NULL;
}

const FlMove *
fl_desk_move (FlDesk *desk)
{
  return desk->selected != NULL ? fl_office_move (desk->office, desk->selected) : NULL;
}

void
fl_desk_select (FlDesk *desk, const char *move)
{
  if (g_strcmp0 (desk->selected, move) == 0)
    return;
  if (desk->moves == NULL || !g_ptr_array_find_with_equal_func (desk->moves, move, g_str_equal, NULL))
    return;
  g_free (desk->selected);
  desk->selected = g_strdup (move);
  desk->tie = -1;
  g_signal_emit (desk, signals[MOVE], 0);
}

static FlOutcome *
judge_move (FlDesk *desk, const char *move)
{
  g_autoptr(GError) error = NULL;
  FlAssessment *assessment;

  if (fl_office_plan (desk->office, move) == NULL)
    return fl_outcome_new_empty ();
  assessment = fl_office_assess (desk->office, move, &error);
  return assessment != NULL ? fl_outcome_new_judged (assessment) : fl_outcome_new_misfit (error->message);
}

const FlOutcome *
fl_desk_outcome (FlDesk *desk, const char *move)
{
  FlOutcome *outcome = g_hash_table_lookup (desk->outcomes, move);

  if (outcome == NULL)
    {
      outcome = judge_move (desk, move);
      g_hash_table_insert (desk->outcomes, g_strdup (move), outcome);
    }
  return outcome;
}

const FlOutcome *
fl_desk_selected_outcome (FlDesk *desk)
{
  return desk->selected != NULL ? fl_desk_outcome (desk, desk->selected) : NULL;
}

/* ── tie-downs ── */

gsize
fl_desk_n_ties (FlDesk *desk)
{
  const FlOutcome *outcome = fl_desk_selected_outcome (desk);
  const FlAssessment *shown = outcome != NULL ? fl_outcome_shown (outcome) : NULL;

  return shown != NULL ? fl_assessment_parts (shown)->n_ties : 0;
}

gint
fl_desk_tie (FlDesk *desk)
{
  return desk->tie;
}

void
fl_desk_choose_tie (FlDesk *desk, gint index)
{
  const gint wanted = index >= 0 && index < (gint) fl_desk_n_ties (desk) ? index : -1;

  if (wanted == desk->tie)
    return;
  desk->tie = wanted;
  g_signal_emit (desk, signals[TIE], 0);
}

void
fl_desk_step_tie (FlDesk *desk, gint step)
{
  const gint n = (gint) fl_desk_n_ties (desk);

  if (n == 0)
    return;
  if (desk->tie < 0)
    fl_desk_choose_tie (desk, step > 0 ? 0 : n - 1);
  else
    fl_desk_choose_tie (desk, (desk->tie + step + n) % n);
}

/* ── changing plans ── */

static void
show_outcome (FlDesk *desk, const char *move, FlOutcome *outcome)
{
  g_autofree char *id = g_strdup (move);

  if (outcome != NULL)
    g_hash_table_replace (desk->outcomes, g_strdup (id), outcome);
  else
    g_hash_table_remove (desk->outcomes, id);
  if (g_strcmp0 (id, desk->selected) == 0)
    desk->tie = -1;
  g_signal_emit (desk, signals[OUTCOME], 0, id);
}

static void
put_plan (FlDesk *desk, const char *move, const FlPlan *plan)
{
  fl_history_add (desk->history, move, fl_office_plan (desk->office, move), plan);
  fl_office_set_plan (desk->office, move, plan);
}

void
fl_desk_take_plan (FlDesk *desk, const char *name, const char *move, const FlPlan *plan)
{
  fl_history_begin (desk->history, name);
  put_plan (desk, move, plan);
  show_outcome (desk, move, NULL);
  g_signal_emit (desk, signals[HISTORY], 0);
}

void
fl_desk_take_proposals (FlDesk *desk, const char *name, GPtrArray *proposals)
{
  gboolean begun = FALSE;

  for (guint i = 0; i < proposals->len; i++)
    {
      FlProposal *proposal = g_ptr_array_index (proposals, i);
      g_autofree char *move = g_strdup (proposal->move);

      if (fl_office_move (desk->office, move) == NULL)
        continue;
      if (!begun)
        fl_history_begin (desk->history, name);
      begun = TRUE;
      put_plan (desk, move, proposal->best != NULL ? fl_assessment_plan (proposal->best) : NULL);
      if (proposal->best != NULL)
        show_outcome (desk, move, fl_outcome_new_judged (fl_assessment_ref (proposal->best)));
      else
        {
          proposals->pdata[i] = NULL;
          show_outcome (desk, move, fl_outcome_new_refused (proposal));
        }
    }
  g_signal_emit (desk, signals[HISTORY], 0);
}

guint
fl_desk_read_plans (FlDesk *desk, const char *name, const char *path, FlProblems *problems, GError **error)
{
  g_autoptr(GPtrArray) plans = fl_office_read_plans (path, problems, error);
  guint taken = 0;

  if (plans == NULL)
    return G_MAXUINT;
  for (guint i = 0; i < plans->len; i++)
    {
      const FlPlan *plan = g_ptr_array_index (plans, i);
      const char *move = fl_plan_choices (plan)->move;

      if (fl_office_move (desk->office, move) == NULL)
        continue;
      if (taken == 0)
        fl_history_begin (desk->history, name);
      put_plan (desk, move, plan);
      show_outcome (desk, move, NULL);
      taken++;
    }
  g_signal_emit (desk, signals[HISTORY], 0);
  return taken;
}

const char *
fl_desk_undo_name (FlDesk *desk)
{
  return fl_history_undo_name (desk->history);
}

const char *
fl_desk_redo_name (FlDesk *desk)
{
  return fl_history_redo_name (desk->history);
}

static void
restore (FlDesk *desk, const GPtrArray *pairs, gboolean before)
{
  for (guint i = 0; pairs != NULL && i < pairs->len; i++)
    {
      const FlPlanStep *pair = g_ptr_array_index (pairs, i);

      fl_office_set_plan (desk->office, pair->move, before ? pair->before : pair->after);
      show_outcome (desk, pair->move, NULL);
    }
  g_signal_emit (desk, signals[HISTORY], 0);
}

void
fl_desk_undo (FlDesk *desk)
{
  restore (desk, fl_history_undo (desk->history), TRUE);
}

void
fl_desk_redo (FlDesk *desk)
{
  restore (desk, fl_history_redo (desk->history), FALSE);
}

/* ── keeping plans ── */

gboolean
fl_desk_unsaved (FlDesk *desk)
{
  return desk->office != NULL && fl_history_unsaved (desk->history);
}

/* A plan with its results; the choices alone where it cannot be judged here. */
static void
write_plan (FlDesk *desk, const char *move, FlJsonWriter *writer)
{
  g_autoptr(FlAssessment) assessment = fl_office_assess (desk->office, move, NULL);

  fl_json_writer_begin_object (writer, NULL);
  if (assessment != NULL)
    fl_assessment_build_json (assessment, writer, FALSE);
  else
    fl_plan_build_json (fl_office_plan (desk->office, move), writer);
  fl_json_writer_end_object (writer);
}

static GBytes *
plans_text (FlDesk *desk)
{
  const FlFleet *fleet = fl_office_fleet (desk->office);
  g_autoptr(FlJsonWriter) writer = fl_json_writer_new ();

  fl_json_writer_begin_object (writer, NULL);
  fl_json_writer_begin_list (writer, "plans");
  for (gsize i = 0; i < fl_fleet_count (fleet, FL_KIND_MOVE); i++)
    {
      const char *move = fl_record_id (fl_fleet_at (fleet, FL_KIND_MOVE, i));

      if (fl_office_plan (desk->office, move) != NULL)
        write_plan (desk, move, writer);
    }
  fl_json_writer_end_list (writer);
  fl_json_writer_end_object (writer);
  return fl_json_writer_end (writer);
}

gboolean
fl_desk_write_plans (FlDesk *desk, const char *path, GError **error)
{
  g_autoptr(GBytes) text = plans_text (desk);
  gsize length;
  const char *data = g_bytes_get_data (text, &length);

  if (!g_file_set_contents_full (path, data, (gssize) length, G_FILE_SET_CONTENTS_CONSISTENT | G_FILE_SET_CONTENTS_DURABLE, 0666, error))
    return FALSE;
  fl_history_mark_saved (desk->history);
  g_signal_emit (desk, signals[HISTORY], 0);
  return TRUE;
}
