/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From chosen tie-downs to a plan: see fl-draft.h. */
#include "fl-draft.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "fl-match.h"
#include "fl-spring.h"

/* ── pinned tie-downs ── */

static const FlMachine *
machine_of (const FlStand *stands, guint load)
{
  return stands[load].machine;
}

static gboolean
lay_fixed (FlChosenTie *tie, const FlTask *task, const FlGround *ground, const FlStand *stands)
{
  const FlTieDown *t = tie->fixed;
  const FlMachine *machine = machine_of (stands, t->load);
  const FlImplement *implement = t->purpose == FL_FOR_IMPLEMENT && t->implement != NULL ? fl_machine_implement (machine, t->implement) : NULL;

  tie->implement = implement;
  tie->anchors[0] = t->anchors[0] != NULL ? fl_trailer_anchor (task->trailer, t->anchors[0]) : NULL;
  tie->anchors[1] = t->anchors[1] != NULL ? fl_trailer_anchor (task->trailer, t->anchors[1]) : NULL;
  if (tie->anchors[0] == NULL || (t->over && (tie->anchors[1] == NULL || t->through == NULL)))
    return FALSE;
  if (!t->over)
    {
      tie->point = t->point != NULL ? fl_machine_point (machine, t->point) : NULL;
      if (tie->point == NULL)
        return FALSE;
      fl_lay_direct (&tie->lay, task->book, ground, &stands[t->load], tie->point, tie->anchors[0]);
    }
  else
    {
      tie->path = implement != NULL ? fl_implement_over_path (implement, t->through[0]) : NULL;
      if (tie->path == NULL)
        return TRUE;            /* over machine points: laid by the judge */
      fl_lay_over (&tie->lay, task->book, ground, &stands[t->load], tie->path->points, tie->path->n_points, tie->path->edge, tie->anchors[0],
                   tie->anchors[1]);
    }
  return (tie->lay.flags & FL_LAY_FORBIDS) == 0;
}

static gboolean
measure_fixed (FlChosenTie *tie, const FlTask *task)
{
  const FlTieDown *t = tie->fixed;
  FlRated rated[3 + FL_MAX_CONNECTORS];
  FlAssemblyParts parts = { .point = tie->point, .anchors = { tie->anchors[0], tie->anchors[1] }, .run_in = tie->lay.run / FL_M_PER_IN };
  FlAssembly assembly;

#define FIND(member, id, i) if ((id) != NULL) { if (!fl_rated_find (&rated[i], task->book, task->fleet, (id))) return FALSE; parts.member = &rated[i]; }
  FIND (chain, t->chain, 0)
  FIND (binder, t->binder, 1)
  FIND (strap, t->strap, 2)
  for (guint k = 0; k < t->n_connectors; k++)
    {
      FIND (connectors[k], t->connectors[k].id, 3 + k)
      parts.connector_at_anchor[k] = t->connectors[k].at_anchor;
    }
#undef FIND
  parts.n_connectors = t->n_connectors;
  fl_assemble (&assembly, task->book, &parts);
  tie->wll = assembly.wll;
  tie->stiffness = t->over || (t->chain == NULL && t->strap == NULL) ? 0.0 : 1.0 / fl_spring_yield (task->book, &parts);
  tie->strap = t->strap != NULL;
  return !isnan (assembly.wll);
}

/* Gear for a pinned place without gear: the cheapest rig that serves its leg. */
static gboolean
rig_fixed (FlChosenTie *tie, FlDraft *draft, const FlTask *task, const FlPool *pool)
{
  g_autofree FlRigs *rigs = g_new (FlRigs, 1);
  FlLeg leg = { .point = tie->point, .path = tie->path, .anchors = { tie->anchors[0], tie->anchors[1] }, .lay = tie->lay };
  FlCouple couple = { .legs = { &leg, NULL }, .n = 1 };
  FlRigFor what = { tie->implement == NULL, FALSE, FALSE };

  fl_rigs_find (rigs, task->book, pool, &couple, &what);
  for (guint i = 0; i < rigs->n; i++)
    if (fl_left_take (&draft->left, &rigs->rigs[i], 1))
      {
        tie->rig = rigs->rigs[i];
        tie->wll = rigs->rigs[i].wll[0];
        tie->strength = rigs->rigs[i].cost;
        tie->stiffness = fl_rig_stiffness (task->book, pool, &tie->rig, &leg);
        return TRUE;
      }
  return FALSE;
}

gboolean
fl_draft_pin (FlDraft *draft, const FlTask *task, const FlPool *pool, const FlGround *ground, const FlStand *stands)
{
  for (gsize i = 0; i < task->choices->n_tie_downs; i++)
    {
      FlChosenTie tie = { .load = task->choices->tie_downs[i].load, .rig = { -1, -1, -1, -1, -1, { NAN, NAN }, 0.0, 0.0 },
                          .fixed = &task->choices->tie_downs[i] };
      gboolean bare = tie.fixed->chain == NULL && tie.fixed->strap == NULL;

      if (tie.load >= task->choices->n_loads || draft->chosen.n == FL_MAX_CHOSEN || !lay_fixed (&tie, task, ground, stands))
        return FALSE;
      if (bare ? !rig_fixed (&tie, draft, task, pool) : !measure_fixed (&tie, task))
        return FALSE;
      for (guint k = 0; k < 2; k++)
        if (tie.anchors[k] != NULL)
          fl_hung_add (&draft->hung, task->trailer, tie.anchors[k]);
      draft->cautions |= tie.lay.flags & FL_LEG_CAUTIONS;
      draft->chosen.ties[draft->chosen.n++] = tie;
    }
  return TRUE;
}

/* ── the plan ── */

/* Hands out the next unit number of each class. */
typedef struct { const FlPool *pool; guint chains[FL_POOL_MAX_CLASSES], binders[FL_POOL_MAX_CLASSES], straps[FL_POOL_MAX_CLASSES],
                 connectors[FL_POOL_MAX_CLASSES]; } Hand;

static const char *
hand_out (const FlPoolShelf *shelf, guint *next, gint class)
{
  return class >= 0 ? g_ptr_array_index (shelf->classes[class].ids, next[class]++) : NULL;
}

static void
write_gear (FlTieDown *out, const FlRig *rig, Hand *hand)
{
  out->chain = hand_out (&hand->pool->chains, hand->chains, rig->chain);
  out->binder = hand_out (&hand->pool->binders, hand->binders, rig->binder);
  out->strap = hand_out (&hand->pool->straps, hand->straps, rig->strap);
  if (rig->at_point >= 0)
    out->connectors[out->n_connectors++] = (FlConnectorUse) { hand_out (&hand->pool->connectors, hand->connectors, rig->at_point), FALSE };
  if (rig->at_anchor >= 0)
    out->connectors[out->n_connectors++] = (FlConnectorUse) { hand_out (&hand->pool->connectors, hand->connectors, rig->at_anchor), TRUE };
}

static void
write_tie (FlTieDown *out, const FlChosenTie *tie, Hand *hand, const char **through)
{
  if (tie->fixed != NULL)
    {
      *out = *tie->fixed;
      if (out->chain == NULL && out->strap == NULL)
        {
          out->n_connectors = 0;
          write_gear (out, &tie->rig, hand);
        }
    }
  else
    {
      *out = (FlTieDown) { .load = tie->load, .purpose = tie->implement != NULL ? FL_FOR_IMPLEMENT : FL_FOR_LOAD,
                           .implement = tie->implement != NULL ? tie->implement->id : NULL, .over = tie->path != NULL,
                           .point = tie->point != NULL ? tie->point->id : NULL, .anchors = { tie->anchors[0]->id, NULL } };
      if (tie->path != NULL)
        {
          through[0] = tie->path->id;
          out->through = through;
          out->anchors[1] = tie->anchors[1]->id;
        }
      write_gear (out, &tie->rig, hand);
    }
  if ((tie->lay.flags & FL_LAY_EDGE) != 0)
    out->edge_protected = TRUE;
}

/* The order in which they are put on: load by load, its own before its implements', from the front, left before right. */
static int
by_turn (gconstpointer a, gconstpointer b)
{
  const FlChosenTie *x = a, *y = b;
  double x_at = x->anchors[0] != NULL ? fl_anchor_place (x->anchors[0]).x : 0.0, y_at = y->anchors[0] != NULL ? fl_anchor_place (y->anchors[0]).x : 0.0;

  if (x->load != y->load)
    return x->load < y->load ? -1 : 1;
  if ((x->implement != NULL) != (y->implement != NULL))
    return x->implement != NULL ? 1 : -1;
  if (fabs (x_at - y_at) > 1e-9)
    return x_at > y_at ? -1 : 1;
  return fl_anchor_place (x->anchors[0]).y > fl_anchor_place (y->anchors[0]).y ? -1 : 1;
}

static void
number (FlTieDown *ties, const FlChosen *chosen)
{
  for (guint i = 0, next = 1; i < chosen->n; i++)
    {
      gboolean taken = TRUE;

      if (chosen->ties[i].fixed != NULL && chosen->ties[i].fixed->no > 0)
        continue;
      while (taken)
        {
          taken = FALSE;
          for (guint k = 0; k < chosen->n; k++)
            taken = taken || ties[k].no == next;
          next += taken;
        }
      ties[i].no = next++;
    }
}

FlPlan *
fl_draft_plan (const FlTask *task, const FlPool *pool, const FlStance *stance, const FlChosen *chosen)
{
  FlPlanChoices choices = *task->choices;
  FlPlanLoad loads[FL_STANCE_MAX_LOADS];
  FlTieDown ties[FL_MAX_CHOSEN];
  const char *through[FL_MAX_CHOSEN][2] = { { NULL } };
  FlChosen sorted = *chosen;
  Hand hand = { .pool = pool };
  FlUnit unit = fl_unit_house (FL_DIM_LENGTH, fl_fleet_metric (task->fleet));

  qsort (sorted.ties, sorted.n, sizeof sorted.ties[0], by_turn);
  for (gsize i = 0; i < choices.n_loads; i++)
    {
      loads[i] = task->choices->loads[i];
      loads[i].facing = stance->facing[i];
      if ((loads[i].pinned & FL_PIN_REAR) == 0)
        loads[i].rear = fl_quantity_rounded (fl_quantity_as (FL_M (stance->rear[i]), unit), unit == FL_UNIT_MM, FL_ROUND_NEAREST);
      loads[i].blocked_forward = loads[i].blocked_forward || stance->snug[i];
    }
  for (guint i = 0; i < sorted.n; i++)
    write_tie (&ties[i], &sorted.ties[i], &hand, through[i]);
  number (ties, &sorted);
  choices.loads = loads;
  choices.tie_downs = ties;
  choices.n_tie_downs = sorted.n;
  return fl_plan_new (&choices);
}
