/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the loads could stand: see fl-stance.h. */
#include "fl-stance.h"

#include <math.h>
#include <string.h>

#include "fl-score.h"

/* The grid: 3 in, a hand's breadth, finer than anyone parks a machine. Several loads: coarser, or the places multiply. */
static const double grid_in[FL_STANCE_MAX_LOADS + 1] = { 3, 3, 9, 24, 36, 48, 60, 60, 60 };

/* Free deck between two loads: room for a person and a hook; m (6 in). */
#define BETWEEN 0.1524

typedef struct
{
  FlStances *out;
  FlScene *scene;
  const FlPlanChoices *choices;
  const FlTrailer *trailer;
  const FlMachine *const *machines;
  double from, to, step;        /* m */
  double length[FL_STANCE_MAX_LOADS];
  FlStance now;
  guint fewest;
} Standing;

static double
metres (FlQuantity q)
{
  return fl_quantity_in (q, FL_UNIT_M);
}

/* ── judging one stance ── */

static const FlFact *
fact (const FlFinding *finding, const char *key)
{
  for (gsize i = 0; i < finding->n_facts; i++)
    if (strcmp (finding->facts[i].key, key) == 0)
      return &finding->facts[i];
  return NULL;
}

static void
note_share (FlStance *stance, const FlFinding *finding, double coupling_lb)
{
  const FlFact *lo = fact (finding, "lo"), *hi = fact (finding, "hi");

  stance->cautions += finding->verdict == FL_CAUTION;
  if (lo != NULL && hi != NULL)
    stance->coupling_off = fl_score_coupling (coupling_lb, finding->have.value / 100.0, lo->quantity.value / 100.0, hi->quantity.value / 100.0);
}

static guint
weigh_findings (FlStance *stance, const FlFindings *findings)
{
  double coupling_lb = NAN;
  guint against = 0;

  for (gsize i = 0; i < fl_findings_count (findings); i++)
    {
      const FlFinding *f = fl_findings_at (findings, i);

      against += fl_finding_stands_against (f);
      if (strcmp (f->rule, "coupling_rating") == 0 && strcmp (f->subject, "coupling") == 0)
        coupling_lb = fl_quantity_in (f->need, FL_UNIT_LB);
    }
  for (gsize i = 0; i < fl_findings_count (findings); i++)
    if (strcmp (fl_findings_at (findings, i)->rule, "coupling_share") == 0)
      note_share (stance, fl_findings_at (findings, i), coupling_lb);
  return against;
}

static void
place_all (const Standing *s, const FlStance *stance)
{
  for (gsize i = 0; i < s->choices->n_loads; i++)
    fl_scene_place (s->scene, (guint) i, stance->facing[i], stance->rear[i]);
}

static void
judge_stance (Standing *s)
{
  g_autoptr(FlFindings) findings = fl_findings_new_brief ();
  guint against;

  place_all (s, &s->now);
  fl_judge_place_at (s->scene, FL_JUDGE_MOVING, findings);
  s->now.cautions = 0;
  s->now.coupling_off = 0;
  s->out->tried++;
  against = weigh_findings (&s->now, findings);
  if (against == 0)
    g_array_append_val (s->out->stances, s->now);
  else if (against < s->fewest)
    {
      s->fewest = against;
      s->out->nearest = s->now;
    }
}

/* ── going through the places ── */

static void place_load (Standing *s, gsize load, double front_limit);

static void
try_place (Standing *s, gsize load, double rear, gboolean snug, double front_limit)
{
  if (rear + s->length[load] > front_limit + 1e-9)
    return;
  s->now.rear[load] = rear;
  s->now.snug[load] = snug;
  if (load + 1 == s->choices->n_loads)
    judge_stance (s);
  else
    place_load (s, load + 1, rear - BETWEEN);
}

/* What the front of the load may be set against. */
static guint
stops_of (const FlTrailer *trailer, double *stops, guint max)
{
  guint n = 0;

  if (trailer->has_front_stop && n < max)
    stops[n++] = metres (trailer->front_stop_x);
  for (gsize i = 0; i < trailer->n_zones && n < max; i++)
    if (trailer->zones[i].blocks_forward)
      stops[n++] = metres (trailer->zones[i].x0);
  return n;
}

static void
try_facing (Standing *s, gsize load, FlFacing facing, double front_limit)
{
  const FlPlanLoad *choice = &s->choices->loads[load];
  double stops[4];
  guint n = load == 0 ? stops_of (s->trailer, stops, G_N_ELEMENTS (stops)) : 0;

  s->now.facing[load] = facing;
  if ((choice->pinned & FL_PIN_REAR) != 0)
    {
      try_place (s, load, metres (choice->rear), choice->blocked_forward, INFINITY);
      return;
    }
  for (guint i = 0; i < n; i++)
    if (isfinite (stops[i]))
      try_place (s, load, stops[i] - s->length[load], TRUE, front_limit);
  for (double rear = s->from; rear <= s->to; rear += s->step)
    try_place (s, load, rear, FALSE, front_limit);
}

static void
place_load (Standing *s, gsize load, double front_limit)
{
  const FlPlanLoad *choice = &s->choices->loads[load];
  guint may = s->machines[load]->facings;

  for (guint facing = FL_FORWARD; facing <= FL_REARWARD; facing++)
    {
      guint bit = facing == FL_FORWARD ? FL_MAY_FACE_FORWARD : FL_MAY_FACE_REARWARD;

      if ((choice->pinned & FL_PIN_FACING) != 0 ? facing == choice->facing : (may & bit) != 0)
        try_facing (s, load, facing, front_limit);
    }
}

static void
find_range (Standing *s)
{
  double lo = 0.0, hi = metres (s->trailer->deck_length);

  s->step = grid_in[MIN (s->choices->n_loads, FL_STANCE_MAX_LOADS)] * FL_M_PER_IN;
  for (gsize i = 0; i < s->trailer->n_zones; i++)
    {
      lo = fmin (lo, metres (s->trailer->zones[i].x0));
      hi = fmax (hi, metres (s->trailer->zones[i].x1));
    }
  s->from = floor (lo / s->step) * s->step;
  s->to = isfinite (hi) ? hi : s->from;
}

static int
by_place (gconstpointer a, gconstpointer b)
{
  const FlStance *x = a, *y = b;

  if (x->cautions != y->cautions)
    return x->cautions - y->cautions;
  return x->coupling_off < y->coupling_off ? -1 : x->coupling_off > y->coupling_off;
}

void
fl_stances_find (FlStances *out, FlScene *scene, const FlPlanChoices *choices, const FlTrailer *trailer, const FlMachine *const *machines)
{
  Standing s = { .out = out, .scene = scene, .choices = choices, .trailer = trailer, .machines = machines, .fewest = G_MAXUINT };

  *out = (FlStances) { .stances = g_array_new (FALSE, TRUE, sizeof (FlStance)) };
  if (choices->n_loads == 0 || choices->n_loads > FL_STANCE_MAX_LOADS)
    return;
  for (gsize i = 0; i < choices->n_loads; i++)
    {
      double lo, hi;

      s.length[i] = fl_machine_extent (machines[i], &lo, &hi) ? hi - lo : 0.0;
    }
  find_range (&s);
  place_load (&s, 0, INFINITY);
  g_array_sort (out->stances, by_place);
  if (out->stances->len > 0 || s.fewest == G_MAXUINT)
    return;
  out->against = fl_findings_new ();    /* in full: with what would cure it */
  place_all (&s, &out->nearest);
  fl_judge_place (s.scene, out->against);
}

void
fl_stances_clear (FlStances *stances)
{
  g_clear_pointer (&stances->stances, g_array_unref);
  g_clear_pointer (&stances->against, fl_findings_free);
}
