/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Plans in memory: deep copies of choices, and the same plan with one thing changed. */
#include "fl-plan.h"

#include <math.h>

#include "fl-arena.h"

struct _FlPlan
{
  gatomicrefcount references;
  FlArena *arena;
  FlPlanChoices choices;
};

/* ── deep copies ── */

static const FlPlanLoad *
copy_loads (FlArena *arena, const FlPlanLoad *loads, gsize n)
{
  FlPlanLoad *copy = fl_arena_new0 (arena, FlPlanLoad, n);

  for (gsize i = 0; i < n; i++)
    {
      copy[i] = loads[i];
      copy[i].id = fl_arena_text (arena, loads[i].id);
      copy[i].position = fl_arena_text (arena, loads[i].position);
      copy[i].mat = fl_arena_text (arena, loads[i].mat);
    }
  return copy;
}

static void
copy_tie_down (FlArena *arena, FlTieDown *copy, const FlTieDown *tie)
{
  *copy = *tie;
  copy->implement = fl_arena_text (arena, tie->implement);
  copy->point = fl_arena_text (arena, tie->point);
  for (guint i = 0; i < G_N_ELEMENTS (tie->anchors); i++)
    copy->anchors[i] = fl_arena_text (arena, tie->anchors[i]);
  copy->through = fl_arena_texts (arena, tie->through);
  copy->chain = fl_arena_text (arena, tie->chain);
  copy->binder = fl_arena_text (arena, tie->binder);
  copy->strap = fl_arena_text (arena, tie->strap);
  copy->n_connectors = MIN (tie->n_connectors, (guint) FL_MAX_CONNECTORS);
  for (guint i = 0; i < copy->n_connectors; i++)
    copy->connectors[i].id = fl_arena_text (arena, tie->connectors[i].id);
}

static const FlTieDown *
copy_tie_downs (FlArena *arena, const FlTieDown *ties, gsize n)
{
  FlTieDown *copy = fl_arena_new0 (arena, FlTieDown, n);

  for (gsize i = 0; i < n; i++)
    copy_tie_down (arena, &copy[i], &ties[i]);
  return copy;
}

static const FlLoadPoint *
copy_points (FlArena *arena, const FlLoadPoint *points, gsize n)
{
  FlLoadPoint *copy = fl_arena_new0 (arena, FlLoadPoint, n);

  for (gsize i = 0; i < n; i++)
    copy[i] = (FlLoadPoint) { points[i].load, fl_arena_text (arena, points[i].point) };
  return copy;
}

static const FlReason *
copy_reasons (FlArena *arena, const FlReason *reasons, gsize n)
{
  FlReason *copy = fl_arena_new0 (arena, FlReason, n);

  for (gsize i = 0; i < n; i++)
    {
      copy[i].rule = fl_arena_text (arena, reasons[i].rule);
      copy[i].subject = fl_arena_text (arena, reasons[i].subject);
      copy[i].reason = fl_arena_text (arena, reasons[i].reason);
      copy[i].by = fl_arena_text (arena, reasons[i].by);
    }
  return copy;
}

static void
copy_choices (FlArena *arena, FlPlanChoices *copy, const FlPlanChoices *choices)
{
  *copy = *choices;
  copy->fleet = fl_arena_text (arena, choices->fleet);
  copy->move = fl_arena_text (arena, choices->move);
  copy->trailer = fl_arena_text (arena, choices->trailer);
  copy->truck = fl_arena_text (arena, choices->truck);
  copy->loads = copy_loads (arena, choices->loads, choices->n_loads);
  copy->tie_downs = copy_tie_downs (arena, choices->tie_downs, choices->n_tie_downs);
  copy->aside_gear = fl_arena_texts (arena, choices->aside_gear);
  copy->aside_anchors = fl_arena_texts (arena, choices->aside_anchors);
  copy->aside_points = copy_points (arena, choices->aside_points, choices->n_aside_points);
  copy->acknowledged = copy_reasons (arena, choices->acknowledged, choices->n_acknowledged);
  copy->exceptions = copy_reasons (arena, choices->exceptions, choices->n_exceptions);
}

/* ── life ── */

FlPlan *
fl_plan_new (const FlPlanChoices *choices)
{
  FlPlan *plan = g_new0 (FlPlan, 1);

  g_atomic_ref_count_init (&plan->references);
  plan->arena = fl_arena_new ();
  copy_choices (plan->arena, &plan->choices, choices);
  return plan;
}

FlPlan *
fl_plan_ref (const FlPlan *plan)
{
  FlPlan *self = (FlPlan *) plan;

  g_atomic_ref_count_inc (&self->references);
  return self;
}

void
fl_plan_unref (FlPlan *plan)
{
  if (plan == NULL || !g_atomic_ref_count_dec (&plan->references))
    return;
  fl_arena_free (plan->arena);
  g_free (plan);
}

const FlPlanChoices *
fl_plan_choices (const FlPlan *plan)
{
  return &plan->choices;
}

/* ── made from another thing ── */

FlPlan *
fl_plan_for_move (const FlFleet *fleet, const FlMove *move, const char *trailer, const char *truck)
{
  g_autofree FlPlanLoad *loads = g_new0 (FlPlanLoad, move->n_loads + 1);
  FlPlanChoices choices = {
    .fleet = fl_fleet_name (fleet),
    .move = move->id,
    .trailer = trailer != NULL ? trailer : move->trailer,
    .truck = truck != NULL ? truck : move->truck,
    .loads = loads,
    .n_loads = move->n_loads,
  };

  for (gsize i = 0; i < move->n_loads; i++)
    loads[i] = (FlPlanLoad) {
      .id = move->loads[i].id,
      .article = move->loads[i].article,
      .facing = FL_FORWARD,
      .rear = FL_NOT_MEASURED,
      .left = FL_NOT_MEASURED,
      .mat_mu = NAN,            /* no mat */
    };
  return fl_plan_new (&choices);
}

FlPlan *
fl_plan_with_place (const FlPlan *plan, guint load, FlFacing facing, FlQuantity rear)
{
  FlPlanChoices choices = plan->choices;
  g_autofree FlPlanLoad *loads = NULL;

  g_return_val_if_fail (load < choices.n_loads, NULL);
  loads = g_memdup2 (choices.loads, choices.n_loads * sizeof *loads);
  loads[load].facing = facing;
  loads[load].rear = rear;
  choices.loads = loads;
  return fl_plan_new (&choices);
}

FlPlan *
fl_plan_with_tie_down (const FlPlan *plan, gsize index, const FlTieDown *tie_down)
{
  FlPlanChoices choices = plan->choices;
  g_autoptr(GArray) ties = g_array_new (FALSE, FALSE, sizeof (FlTieDown));

  g_return_val_if_fail (index < choices.n_tie_downs || (index == choices.n_tie_downs && tie_down != NULL), NULL);
  g_array_append_vals (ties, choices.tie_downs, (guint) choices.n_tie_downs);
  if (index == choices.n_tie_downs)
    g_array_append_vals (ties, tie_down, 1);
  else if (tie_down != NULL)
    g_array_index (ties, FlTieDown, index) = *tie_down;
  else
    g_array_remove_index (ties, (guint) index);
  choices.tie_downs = (const FlTieDown *) (gconstpointer) ties->data;
  choices.n_tie_downs = ties->len;
  return fl_plan_new (&choices);
}

FlPlan *
fl_plan_with_trailer (const FlPlan *plan, const char *trailer, const char *truck)
{
  FlPlanChoices choices = plan->choices;

  choices.trailer = trailer;
  choices.truck = truck;
  return fl_plan_new (&choices);
}
