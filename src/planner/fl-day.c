/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Ranking trailers for a move, and a day's moves one after the other against what the earlier ones left. */
#include "fl-planner.h"

#include <math.h>
#include <string.h>

#include "fl-plan-as.h"
#include "fl-score.h"

static FlProposal *
plan_on (const FlBook *book, const FlFleet *fleet, const FlMove *move, const char *trailer, const FlSearch *search, gboolean plain, const FlHost *host,
         GError **error)
{
  const FlRecord *record = fl_fleet_find (fleet, FL_KIND_TRAILER, trailer);
  const char *truck = record != NULL && !fl_record_trailer (record)->coupling.present ? NULL : move->truck;
  g_autoptr(FlPlan) start = fl_plan_for_move (fleet, move, trailer, truck);

  return fl_plan_move_as (book, fleet, start, search, plain, host, error);
}

static int
by_worth (gconstpointer a, gconstpointer b)
{
  const FlProposal *x = *(const FlProposal *const *) a, *y = *(const FlProposal *const *) b;

  if ((x->best != NULL) != (y->best != NULL))
    return x->best != NULL ? -1 : 1;
  if (x->best != NULL)
    {
      int order = fl_score_compare (&x->score, &y->score);

      if (order != 0)
        return order;
    }
  return strcmp (x->trailer, y->trailer);
}

static void
report (const FlHost *host, double fraction, const char *message, const char *key, const char *text)
{
  FlFact fact = FL_FACT_TEXT (key, text);

  if (host != NULL && host->progress != NULL)
    host->progress (host->self, fraction, message, &fact, 1);
}

GPtrArray *
fl_rank_trailers (const FlBook *book, const FlFleet *fleet, const FlMove *move, const FlSearch *search, const FlHost *host,
                  void (*row) (gpointer self, const FlProposal *proposal), gpointer self, GError **error)
{
  g_autoptr(GPtrArray) rows = g_ptr_array_new_with_free_func ((GDestroyNotify) fl_proposal_free);
  gsize n = fl_fleet_count (fleet, FL_KIND_TRAILER);

  for (gsize i = 0; i < n && (host == NULL || !g_cancellable_is_cancelled (host->cancel)); i++)
    {
      const char *id = fl_record_id (fl_fleet_at (fleet, FL_KIND_TRAILER, i));
      FlProposal *proposal = plan_on (book, fleet, move, id, search, FALSE, host, error);

      if (proposal == NULL)
        return NULL;
      g_ptr_array_add (rows, proposal);
      if (row != NULL)
        row (self, proposal);
      report (host, (double) (i + 1) / (double) n, N_("Trailer {trailer}"), "trailer", id);
    }
  g_ptr_array_sort (rows, by_worth);
  return g_steal_pointer (&rows);
}

/* ── a day ── */

typedef struct
{
  const FlBook *book;
  const FlFleet *fleet;
  const FlPlan *const *kept; gsize n_kept;
  FlSearch search;
  const FlHost *host;
  GPtrArray *ids;               /* of the day's moves, in order of departure */
  FlProposal **done;            /* by index of ids; NULL: not yet */
  gboolean plain;               /* the first round */
} Day;

void
fl_day_plan_free (FlDayPlan *day)
{
  if (day == NULL)
    return;
  g_ptr_array_unref (day->proposals);
  g_free (day);
}

static const FlMove *
move_at (const Day *day, guint i)
{
  return fl_record_move (fl_fleet_find (day->fleet, FL_KIND_MOVE, g_ptr_array_index (day->ids, i)));
}

static void
take_text (GPtrArray *taken, const char *id)
{
  if (id != NULL)
    g_ptr_array_add (taken, (gpointer) id);
}

/* Everything a plan holds: gear, trailer, truck. */
static void
take_plan (GPtrArray *taken, const FlPlan *plan)
{
  const FlPlanChoices *c = fl_plan_choices (plan);

  take_text (taken, c->trailer);
  take_text (taken, c->truck);
  for (gsize i = 0; i < c->n_tie_downs; i++)
    {
      take_text (taken, c->tie_downs[i].chain);
      take_text (taken, c->tie_downs[i].binder);
      take_text (taken, c->tie_downs[i].strap);
      for (guint k = 0; k < c->tie_downs[i].n_connectors; k++)
        take_text (taken, c->tie_downs[i].connectors[k].id);
    }
}

static const FlPlan *
kept_plan (const Day *day, const char *move)
{
  for (gsize i = 0; i < day->n_kept; i++)
    if (g_strcmp0 (fl_plan_choices (day->kept[i])->move, move) == 0)
      return day->kept[i];
  return NULL;
}

static const FlPlan *
plan_of (const Day *day, guint i)
{
  const FlPlan *kept = kept_plan (day, g_ptr_array_index (day->ids, i));

  if (kept != NULL)
    return kept;
  return day->done[i] != NULL && day->done[i]->best != NULL ? fl_assessment_plan (day->done[i]->best) : NULL;
}

/* What the other moves of that time hold: by their plans, and the trailer and truck that an unplanned one asks for. */
static GPtrArray *
taken_by_others (const Day *day, guint i)
{
  GPtrArray *taken = g_ptr_array_new ();
  const FlMove *move = move_at (day, i);

  for (guint k = 0; k < day->ids->len; k++)
    {
      const FlMove *other = move_at (day, k);

      if (k == i || !fl_moves_clash (move, other, fl_fleet_turnaround (day->fleet)))
        continue;
      if (plan_of (day, k) != NULL)
        take_plan (taken, plan_of (day, k));
      else if (day->done[k] == NULL)
        {
          take_text (taken, other->trailer);
          take_text (taken, other->truck);
        }
    }
  g_ptr_array_add (taken, NULL);
  return taken;
}

static FlProposal *
none_because (const char *move, const char *trailer, const char *message, const char *what, const char *other)
{
  FlProposal *p = g_new0 (FlProposal, 1);
  FlMessage *reason;
  FlFact *facts;

  p->arena = fl_arena_new ();
  p->state = FL_RUN_DONE;
  p->quality = FL_NONE_FOUND;
  p->move = fl_arena_text (p->arena, move);
  p->trailer = fl_arena_text (p->arena, trailer);
  facts = fl_arena_new0 (p->arena, FlFact, 2);
  facts[0] = FL_FACT_TEXT ("what", fl_arena_text (p->arena, what));
  facts[1] = FL_FACT_TEXT ("other", fl_arena_text (p->arena, other));
  reason = fl_arena_new0 (p->arena, FlMessage, 1);
  *reason = (FlMessage) { message, facts, 2 };
  p->because = reason;
  p->n_because = 1;
  return p;
}

static gboolean
same_load (const FlMove *a, const FlMove *b, const char **which)
{
  for (gsize i = 0; i < a->n_loads; i++)
    for (gsize k = 0; k < b->n_loads; k++)
      if (a->loads[i].article == b->loads[k].article && strcmp (a->loads[i].id, b->loads[k].id) == 0)
        {
          *which = a->loads[i].id;
          return TRUE;
        }
  return FALSE;
}

/* A machine, driver, trailer or truck that an earlier plan of the same time holds already: the move cannot be. NULL: free. */
static FlProposal *
held_by_another (const Day *day, guint i)
{
  const FlMove *move = move_at (day, i);

  for (guint k = 0; k < day->ids->len; k++)
    {
      const FlMove *other = move_at (day, k);
      const FlPlan *plan = k != i ? plan_of (day, k) : NULL;
      const char *what = NULL;

      if (plan == NULL || !fl_moves_clash (move, other, fl_fleet_turnaround (day->fleet)))
        continue;
      if (!same_load (move, other, &what))
        what = move->driver != NULL && g_strcmp0 (move->driver, other->driver) == 0 ? move->driver
               : move->trailer != NULL && g_strcmp0 (move->trailer, fl_plan_choices (plan)->trailer) == 0 ? move->trailer
               : move->truck != NULL && g_strcmp0 (move->truck, fl_plan_choices (plan)->truck) == 0 ? move->truck : NULL;
      if (what != NULL)
        return none_because (move->id, move->trailer, N_("{what} is away at that time with move {other}: change the time, or take another."), what,
                             other->id);
    }
  return NULL;
}

static gboolean
among (const GPtrArray *taken, const char *id)
{
  return g_strv_contains ((const char *const *) taken->pdata, id);
}

/* Plans on one more trailer and keeps the better of the two. FALSE with an error. */
static gboolean
try_trailer (const Day *day, const FlMove *move, const char *id, const GPtrArray *taken, FlProposal **best, GError **error)
{
  FlSearch search = { day->search.work, FALSE, (const char *const *) taken->pdata };
  FlProposal *next = plan_on (day->book, day->fleet, move, id, &search, day->plain, day->host, error);

  if (next == NULL)
    return FALSE;
  if (*best == NULL || by_worth (&(const FlProposal *) { next }, &(const FlProposal *) { *best }) < 0)
    {
      fl_proposal_free (*best);
      *best = next;
    }
  else
    fl_proposal_free (next);
  return TRUE;
}

/* The best of the trailers that are free. Where the move names a truck, those that it pulls come first: one that needs no truck only
 * where none of them will do. */
static FlProposal *
best_trailer (const Day *day, const FlMove *move, const GPtrArray *taken, GError **error)
{
  g_autoptr(FlProposal) best = NULL;

  for (guint turn = 0; turn < 2 && (best == NULL || best->best == NULL); turn++)
    for (gsize i = 0; i < fl_fleet_count (day->fleet, FL_KIND_TRAILER); i++)
      {
        const FlTrailer *trailer = fl_record_trailer (fl_fleet_at (day->fleet, FL_KIND_TRAILER, i));
        guint its_turn = move->truck != NULL && !trailer->coupling.present ? 1 : 0;

        if (its_turn == turn && !among (taken, trailer->id) && !try_trailer (day, move, trailer->id, taken, &best, error))
          return NULL;
      }
  return best != NULL ? g_steal_pointer (&best) : none_because (move->id, NULL, N_("Every trailer is away at that time."), NULL, NULL);
}

static FlProposal *
keep_as_is (const Day *day, const FlPlan *plan, GError **error)
{
  FlProposal *p = g_new0 (FlProposal, 1);

  p->arena = fl_arena_new ();
  p->state = FL_RUN_DONE;
  p->quality = FL_BEST_FOUND;
  p->move = fl_arena_text (p->arena, fl_plan_choices (plan)->move);
  p->trailer = fl_arena_text (p->arena, fl_plan_choices (plan)->trailer);
  p->truck = fl_arena_text (p->arena, fl_plan_choices (plan)->truck);
  p->best = fl_judge_plan (day->book, day->fleet, plan, error);
  if (p->best == NULL)
    g_clear_pointer (&p, fl_proposal_free);
  else
    p->score = fl_score_of (p->best, day->book);
  return p;
}

static FlProposal *
plan_one (const Day *day, guint i, GError **error)
{
  const FlMove *move = move_at (day, i);
  const FlPlan *kept = kept_plan (day, move->id);
  g_autoptr(GPtrArray) taken = NULL;
  FlProposal *held;
  FlSearch search = day->search;

  if (kept != NULL)
    return keep_as_is (day, kept, error);
  held = held_by_another (day, i);
  if (held != NULL)
    return held;
  taken = taken_by_others (day, i);
  search.taken = (const char *const *) taken->pdata;
  if (move->trailer == NULL)
    return best_trailer (day, move, taken, error);
  return plan_on (day->book, day->fleet, move, move->trailer, &search, day->plain, day->host, error);
}

/* ── the second round: what clears more cautions, with what all the others leave ── */

static gboolean
may_clear (const Day *day, guint i)
{
  const FlProposal *p = day->done[i];

  return kept_plan (day, p->move) == NULL && p->best != NULL
         && (fl_score_cautioned (p->best, FL_SCORE_FORCE) || fl_score_cautioned (p->best, FL_SCORE_PLACEMENT)
             || fl_score_cautioned (p->best, FL_SCORE_ALL_DIRECTIONS));
}

/* Plans it once more, in full. What the move has now stays where it finds nothing better. */
static gboolean
plan_again (const Day *day, guint i, GError **error)
{
  FlProposal *next;

  if (!may_clear (day, i))
    return TRUE;
  next = plan_one (day, i, error);
  if (next == NULL)
    return FALSE;
  if (by_worth (&(const FlProposal *) { next }, &(const FlProposal *) { day->done[i] }) < 0)
    {
      fl_proposal_free (day->done[i]);
      day->done[i] = next;
    }
  else
    fl_proposal_free (next);
  return TRUE;
}

/* By priority, then departure (the order of ids). */
static guint *
turns (const Day *day)
{
  guint *order = g_new (guint, day->ids->len + 1);

  for (guint i = 0; i < day->ids->len; i++)
    {
      guint at = i;

      for (; at > 0 && move_at (day, order[at - 1])->priority > move_at (day, i)->priority; at--)
        order[at] = order[at - 1];
      order[at] = i;
    }
  return order;
}

static gboolean
plan_first (Day *day, guint i, GError **error)
{
  day->done[i] = plan_one (day, i, error);
  return day->done[i] != NULL;
}

/* One round over all moves in turn. FALSE with an error. */
static gboolean
go_round (Day *day, const guint *order, FlRunState *state, GError **error)
{
  guint n = day->ids->len;

  for (guint i = 0; i < n && *state != FL_RUN_CANCELLED; i++)
    {
      if (day->host != NULL && g_cancellable_is_cancelled (day->host->cancel))
        {
          *state = FL_RUN_CANCELLED;
          break;
        }
      report (day->host, (double) (day->plain ? i : n + i) / (2.0 * n), N_("Move {move}"), "move", g_ptr_array_index (day->ids, order[i]));
      if (!(day->plain ? plan_first (day, order[i], error) : plan_again (day, order[i], error)))
        return FALSE;
      if (day->done[order[i]]->state == FL_RUN_CANCELLED)
        *state = FL_RUN_CANCELLED;
    }
  return TRUE;
}

FlDayPlan *
fl_plan_day (const FlBook *book, const FlFleet *fleet, const char *date, const FlPlan *const *kept, gsize n_kept, const FlSearch *search,
             const FlHost *host, GError **error)
{
  Day day = { book, fleet, kept, n_kept, search != NULL ? *search : (FlSearch) { 0 }, host, fl_fleet_moves_of (fleet, date), NULL, TRUE };
  g_autoptr(GPtrArray) ids = day.ids;
  g_autofree guint *order = turns (&day);
  g_autoptr(FlDayPlan) plan = g_new0 (FlDayPlan, 1);
  gboolean ok;

  day.done = g_new0 (FlProposal *, ids->len + 1);
  plan->proposals = g_ptr_array_new_with_free_func ((GDestroyNotify) fl_proposal_free);
  ok = go_round (&day, order, &plan->state, error);
  day.plain = FALSE;
  ok = ok && go_round (&day, order, &plan->state, error);
  for (guint i = 0; i < ids->len; i++)
    if (day.done[i] != NULL)
      g_ptr_array_add (plan->proposals, day.done[i]);
  g_free (day.done);
  return ok ? g_steal_pointer (&plan) : NULL;
}
