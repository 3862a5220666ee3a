/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Planning one move: which truck, which positions, and what to say when there is none. */
#include "fl-planner.h"

#include <string.h>

#include "fl-plan-as.h"
#include "fl-task.h"
#include "fl-words-of.h"

G_DEFINE_QUARK (fl-planner-error-quark, fl_planner_error)

/* Choices looked at before a task gives up; far over what a move of the demo takes. */
#define DEFAULT_WORK G_GUINT64_CONSTANT (400000)

enum { MAX_REASONS = 12 };

void
fl_proposal_free (FlProposal *proposal)
{
  if (proposal == NULL)
    return;
  g_clear_pointer (&proposal->best, fl_assessment_unref);
  g_clear_pointer (&proposal->nearest, fl_assessment_unref);
  for (gsize i = 0; i < proposal->n_cures; i++)
    g_clear_pointer ((FlPlan **) &proposal->cures[i].plan, fl_plan_unref);
  fl_arena_free (proposal->arena);
  g_free (proposal);
}

FlMessage
fl_message_copy (FlArena *arena, const char *message, const FlFact *facts, gsize n)
{
  FlFact *copy = fl_arena_new0 (arena, FlFact, n);

  for (gsize i = 0; i < n; i++)
    copy[i] = (FlFact) { fl_arena_text (arena, facts[i].key), fl_arena_text (arena, facts[i].text), facts[i].quantity };
  return (FlMessage) { fl_arena_text (arena, message), copy, n };
}

FlMessage
fl_message_of_finding (FlArena *arena, const FlFinding *finding)
{
  g_autofree FlFact *facts = g_new0 (FlFact, finding->n_facts + 4);
  gsize n = finding->n_facts;

  for (gsize i = 0; i < n; i++)
    facts[i] = finding->facts[i];
  facts[n++] = FL_FACT_QUANTITY ("need", finding->need);
  facts[n++] = FL_FACT_QUANTITY ("have", finding->have);
  facts[n++] = FL_FACT_TEXT ("subject", finding->subject);
  facts[n++] = FL_FACT_TEXT ("basis", finding->basis != NULL ? finding->basis : "-");
  return fl_message_copy (arena, finding->message, facts, n);
}

void
fl_messages_add (GArray *messages, FlMessage message)
{
  g_array_append_val (messages, message);
}

/* What is being asked, and what is answered so far. */
typedef struct
{
  const FlBook *book;
  const FlFleet *fleet;
  const FlPlanChoices *choices;
  const FlMove *move;
  const FlTrailer *trailer;
  const FlSearch *search;
  const FlHost *host;
  FlProposal *proposal;
  gboolean plain;
  GArray *because;              /* of the first task that had anything to say */
} Asking;

/* ── which trucks, which positions ── */

static gboolean
is_taken (const Asking *a, const char *id)
{
  return a->search != NULL && a->search->taken != NULL && g_strv_contains (a->search->taken, id);
}

static gboolean
couples_with (const FlBook *book, const FlTruck *truck, const FlTrailer *trailer)
{
  const FlBookData *data = fl_book_data (book);

  for (gsize i = 0; i < data->n_pairs; i++)
    if (g_strcmp0 (data->pairs[i].truck, truck->coupling.kind) == 0 && g_strcmp0 (data->pairs[i].trailer, trailer->coupling.kind) == 0)
      return TRUE;
  return FALSE;
}

/* The truck that was named, else all that couple with the trailer, those of its yard first. NULL in it: none is needed. */
static GPtrArray *
trucks_for (const Asking *a)
{
  const FlFleet *fleet = a->fleet;
  const FlPlanChoices *choices = a->choices;
  const FlMove *move = a->move;
  const FlTrailer *trailer = a->trailer;
  GPtrArray *trucks = g_ptr_array_new ();
  const char *named = choices->truck != NULL ? choices->truck : move->truck;

  if (named != NULL || !trailer->coupling.present)
    {
      g_ptr_array_add (trucks, (gpointer) (trailer->coupling.present ? named : NULL));
      return trucks;
    }
  for (guint away = 0; away < 2; away++)
    for (gsize i = 0; i < fl_fleet_count (fleet, FL_KIND_TRUCK); i++)
      {
        const FlTruck *truck = fl_record_truck (fl_fleet_at (fleet, FL_KIND_TRUCK, i));

        if ((g_strcmp0 (truck->yard, trailer->yard) != 0) == (away == 1) && couples_with (a->book, truck, trailer) && !is_taken (a, truck->id))
          g_ptr_array_add (trucks, (gpointer) truck->id);
      }
  return trucks;
}

typedef struct { const char *position[FL_STANCE_MAX_LOADS]; } Positions;

/* As chosen; then, load by load, the other positions that the machine can be brought into. */
static GArray *
positions_for (const FlFleet *fleet, const FlPlanChoices *choices)
{
  GArray *all = g_array_new (FALSE, TRUE, sizeof (Positions));
  Positions first = { { NULL } };

  for (gsize i = 0; i < choices->n_loads; i++)
    first.position[i] = choices->loads[i].position;
  g_array_append_val (all, first);
  for (gsize i = 0; i < choices->n_loads; i++)
    {
      const FlRecord *record = fl_fleet_find_load (fleet, choices->loads[i].id, choices->loads[i].article);
      const FlMachine *machine = record != NULL ? fl_record_machine (record) : NULL;

      for (gsize k = 0; machine != NULL && (choices->loads[i].pinned & FL_PIN_POSITION) == 0 && k < machine->n_positions; k++)
        {
          Positions next = first;

          next.position[i] = machine->positions[k]->position;
          if (g_strcmp0 (next.position[i], first.position[i]) != 0)
            g_array_append_val (all, next);
        }
    }
  return all;
}

/* ── one task ── */

static FlPlan *
start_of_task (const FlPlanChoices *choices, const char *truck, const Positions *positions)
{
  FlPlanChoices next = *choices;
  FlPlanLoad loads[FL_STANCE_MAX_LOADS];
  g_autofree FlTieDown *ties = g_new0 (FlTieDown, choices->n_tie_downs + 1);

  next.truck = truck;
  next.n_tie_downs = 0;
  for (gsize i = 0; i < choices->n_loads; i++)
    {
      loads[i] = choices->loads[i];
      loads[i].position = positions->position[i];
      if ((loads[i].pinned & FL_PIN_REAR) == 0)
        loads[i].blocked_forward = FALSE;
    }
  for (gsize i = 0; i < choices->n_tie_downs; i++)
    if ((choices->tie_downs[i].pinned & FL_PIN_TIE_DOWN) != 0)
      ties[next.n_tie_downs++] = choices->tie_downs[i];
  next.loads = loads;
  next.tie_downs = ties;
  return fl_plan_new (&next);
}

static void
take_nearest (FlProposal *p, FlTaskResult *result)
{
  if (p->nearest == NULL)
    p->nearest = g_steal_pointer (&result->nearest);
}

static void
say_why (GArray *because, FlArena *arena, const FlFinding *findings, gsize n)
{
  for (gsize i = 0; i < n && because->len < MAX_REASONS; i++)
    if (fl_finding_stands_against (&findings[i]))
      fl_messages_add (because, fl_message_of_finding (arena, &findings[i]));
}

static void
reasons_of (GArray *because, FlArena *arena, const FlTaskResult *result)
{
  gsize n;

  if (result->nearest != NULL)
    {
      const FlFinding *findings = fl_assessment_findings (result->nearest, &n);

      say_why (because, arena, findings, n);
    }
  else if (result->against != NULL)
    for (gsize i = 0; i < fl_findings_count (result->against); i++)
      say_why (because, arena, fl_findings_at (result->against, i), 1);
  if (because->len == 0)
    fl_messages_add (because, (FlMessage) { N_("No set of tie-downs was found that holds it with the gear and the anchors there are."), NULL, 0 });
  if (result->against == NULL)
    fl_messages_add (because, fl_message_copy (arena, N_("To choose from on hand: chains {chains}, binders {binders}, straps {straps}; out of use {out}."),
                                               (const FlFact[]) { FL_FACT_QUANTITY ("chains", FL_COUNT (result->chains)),
                                                                  FL_FACT_QUANTITY ("binders", FL_COUNT (result->binders)),
                                                                  FL_FACT_QUANTITY ("straps", FL_COUNT (result->straps)),
                                                                  FL_FACT_QUANTITY ("out", FL_COUNT (result->out_of_use)) }, 4));
}

static gboolean
ask (Asking *a, const char *truck, const Positions *positions, GError **error)
{
  g_autoptr(FlPlan) start = start_of_task (a->choices, truck, positions);
  g_auto(FlTaskResult) result = { .best = NULL };
  FlTask task = { a->book, a->fleet, start, fl_plan_choices (start), a->move, a->trailer, a->search != NULL ? a->search->taken : NULL,
                  a->host != NULL ? a->host->cancel : NULL, a->search != NULL && a->search->work > 0 ? a->search->work : DEFAULT_WORK,
                  a->plain };

  if (!fl_task_run (&task, &result, error))
    return FALSE;
  if (a->host != NULL && g_cancellable_is_cancelled (a->host->cancel))
    a->proposal->state = FL_RUN_CANCELLED;
  else if (result.out_of_work)
    a->proposal->state = FL_RUN_OUT_OF_WORK;
  if (result.best != NULL)
    {
      a->proposal->best = g_steal_pointer (&result.best);
      a->proposal->score = result.score;
      return TRUE;
    }
  if (a->because->len == 0)
    reasons_of (a->because, a->proposal->arena, &result);
  take_nearest (a->proposal, &result);
  return TRUE;
}

static gboolean
ask_all (Asking *a, GError **error)
{
  g_autoptr(GPtrArray) trucks = trucks_for (a);
  g_autoptr(GArray) positions = positions_for (a->fleet, a->choices);

  if (trucks->len == 0)
    fl_messages_add (a->because, (FlMessage) { N_("No truck that couples with this trailer is free."), NULL, 0 });
  for (guint p = 0; p < positions->len && a->proposal->best == NULL; p++)
    for (guint t = 0; t < trucks->len && a->proposal->best == NULL; t++)
      {
        if (a->host != NULL && g_cancellable_is_cancelled (a->host->cancel))
          {
            a->proposal->state = FL_RUN_CANCELLED;
            return TRUE;
          }
        if (!ask (a, g_ptr_array_index (trucks, t), &g_array_index (positions, Positions, p), error))
          return FALSE;
      }
  return TRUE;
}

/* What no search can make up for: nothing to hook to, or nothing to hook with. TRUE if there is such a thing; it is said. */
static gboolean
lacks_everything (Asking *a)
{
  g_autoptr(GPtrArray) gear = fl_fleet_on_hand (a->fleet, a->move, a->choices->trailer);
  FlArena *arena = a->proposal->arena;

  if (a->trailer->n_anchors == 0)
    fl_messages_add (a->because, fl_message_copy (arena, N_("Trailer {id} has no anchors on record: enter them."),
                                                  (const FlFact[]) { FL_FACT_TEXT ("id", a->trailer->id) }, 1));
  for (gsize i = 0; i < a->choices->n_loads; i++)
    if (fl_record_machine (fl_fleet_find_load (a->fleet, a->choices->loads[i].id, a->choices->loads[i].article))->n_tie_points == 0)
      fl_messages_add (a->because, fl_message_copy (arena, N_("{id} has no tie points on record: enter where it may be tied down."),
                                                    (const FlFact[]) { FL_FACT_TEXT ("id", a->choices->loads[i].id) }, 1));
  if (gear->len == 0)
    fl_messages_add (a->because, (FlMessage) { N_("No chain, binder or strap is on hand: none is kept at this trailer, its yard or where the move starts."), NULL, 0 });
  return a->because->len > 0;
}

static void
finish (Asking *a, const FlPlan *start)
{
  FlProposal *p = a->proposal;
  g_autoptr(GArray) cures = g_array_new (FALSE, TRUE, sizeof (FlCure));

  if (p->best != NULL)
    {
      const FlPlanChoices *c = fl_plan_choices (fl_assessment_plan (p->best));

      p->quality = FL_BEST_FOUND;
      p->truck = fl_arena_text (p->arena, c->truck);
      g_clear_pointer (&p->nearest, fl_assessment_unref);
      return;
    }
  p->quality = FL_NONE_FOUND;
  p->because = fl_arena_copy (p->arena, a->because->data, a->because->len * sizeof (FlMessage));
  p->n_because = a->because->len;
  if (a->search == NULL || !a->search->cures || p->state == FL_RUN_CANCELLED)
    return;
  fl_cures_find (cures, p->arena, a->book, a->fleet, start, a->search, a->host);
  p->cures = fl_arena_copy (p->arena, cures->data, cures->len * sizeof (FlCure));
  p->n_cures = cures->len;
}

static const FlRecord *
find (const FlFleet *fleet, FlKind kind, const char *id, const char *what, GError **error)
{
  const FlRecord *record = id != NULL ? fl_fleet_find (fleet, kind, id) : NULL;

  if (record == NULL)
    g_set_error (error, FL_PLANNER_ERROR, id == NULL ? FL_PLANNER_ERROR_BAD_START : FL_PLANNER_ERROR_NO_RECORD, "%s %s: the plan needs one of the fleet",
                 what, id != NULL ? id : "(none)");
  return record;
}

static gboolean
check_loads (const FlFleet *fleet, const FlPlanChoices *c, GError **error)
{
  if (c->n_loads == 0 || c->n_loads > FL_STANCE_MAX_LOADS)
    {
      g_set_error (error, FL_PLANNER_ERROR, FL_PLANNER_ERROR_BAD_START, "move %s: a plan carries one to eight loads", c->move);
      return FALSE;
    }
  for (gsize i = 0; i < c->n_loads; i++)
    if (fl_fleet_find_load (fleet, c->loads[i].id, c->loads[i].article) == NULL)
      return find (fleet, c->loads[i].article ? FL_KIND_ARTICLE : FL_KIND_MACHINE, c->loads[i].id, "load", error) != NULL;
  return TRUE;
}

FlProposal *
fl_plan_move_as (const FlBook *book, const FlFleet *fleet, const FlPlan *start, const FlSearch *search, gboolean plain, const FlHost *host,
                 GError **error)
{
  const FlPlanChoices *c = fl_plan_choices (start);
  const FlRecord *move = find (fleet, FL_KIND_MOVE, c->move, "move", error), *trailer;
  g_autoptr(GArray) because = g_array_new (FALSE, TRUE, sizeof (FlMessage));
  g_autoptr(FlProposal) proposal = NULL;
  Asking a;

  if (move == NULL || !check_loads (fleet, c, error))
    return NULL;
  trailer = find (fleet, FL_KIND_TRAILER, c->trailer, "trailer", error);
  if (trailer == NULL)
    return NULL;
  proposal = g_new0 (FlProposal, 1);
  proposal->arena = fl_arena_new ();
  proposal->state = FL_RUN_DONE;
  proposal->move = fl_arena_text (proposal->arena, c->move);
  proposal->trailer = fl_arena_text (proposal->arena, c->trailer);
  proposal->truck = fl_arena_text (proposal->arena, c->truck);
  a = (Asking) { book, fleet, c, fl_record_move (move), fl_record_trailer (trailer), search, host, proposal, plain, because };
  if (!lacks_everything (&a) && !ask_all (&a, error))
    return NULL;
  finish (&a, start);
  return g_steal_pointer (&proposal);
}

FlProposal *
fl_plan_move (const FlBook *book, const FlFleet *fleet, const FlPlan *start, const FlSearch *search, const FlHost *host, GError **error)
{
  return fl_plan_move_as (book, fleet, start, search, FALSE, host, error);
}
