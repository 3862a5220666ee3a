/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The arithmetic of axle and coupling loads in words: the same beam as fl-beam.c, line by line, so that it can be checked with a pencil. */
#include <math.h>

#include "fl-vehicle.h"

static double
in_m (FlQuantity q)
{
  return fl_quantity_in (q, FL_UNIT_M);
}

FlFact
fl_fact_number (const FlSteps *steps, const char *key, double value)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];

  return FL_FACT_TEXT (key, fl_arena_text (steps->arena, g_ascii_formatd (text, sizeof text, "%.4g", value)));
}

void
fl_steps_weights (const FlScene *scene, FlSteps *steps)
{
  for (guint i = 0; i < scene->n_loads; i++)
    fl_step (steps, N_("{name}: weight {weight} ({basis})."), FL_FACT_TEXT ("name", scene->loads[i].subject),
             FL_FACT_QUANTITY ("weight", fl_weight (scene, scene->loads[i].weight)),
             FL_FACT_TEXT ("basis", fl_basis_of (&scene->loads[i].machine->basis, "weight").text));
}

void
fl_steps_gross (const FlScene *scene, FlSteps *steps, gboolean whole)
{
  const FlSceneAxles *a = &scene->axles;

  fl_steps_weights (scene, steps);
  fl_step (steps, N_("Trailer empty {tare} + load {payload} = {gross}."), FL_FACT_QUANTITY ("tare", fl_weight (scene, a->trailer_gross - a->payload)),
           FL_FACT_QUANTITY ("payload", fl_weight (scene, a->payload)), FL_FACT_QUANTITY ("gross", fl_weight (scene, a->trailer_gross)));
  if (whole && scene->truck != NULL)
    fl_step (steps, N_("{trailer} + truck empty {tare} = {gross}."), FL_FACT_QUANTITY ("trailer", fl_weight (scene, a->trailer_gross)),
             FL_FACT_QUANTITY ("tare", fl_weight (scene, a->gross - a->trailer_gross)), FL_FACT_QUANTITY ("gross", fl_weight (scene, a->gross)));
}

/* ── a vehicle as a beam ── */

/* The group that stands further back, and the other support: the coupling or the group in front. */
typedef struct
{
  const FlAxle *axles; gsize n;
  FlBeamAxle beam[FL_SCENE_MAX_AXLES];
  double x, other;              /* m, in the vehicle's own frame */
  gboolean coupled;
  double total, on_other;       /* of the loads */
} Beam;

static gboolean
take_beam (const FlScene *scene, gboolean of_truck, Beam *out)
{
  FlUnit unit = fl_book_data (scene->book)->unit;

  out->coupled = !of_truck && scene->trailer->coupling.present;
  out->axles = of_truck ? scene->truck->axles : scene->trailer->axles;
  out->n = of_truck ? scene->truck->n_axles : scene->trailer->n_axles;
  out->x = INFINITY;
  out->other = out->coupled ? in_m (scene->trailer->coupling.x) : -INFINITY;
  for (gsize i = 0; i < out->n; i++)
    out->beam[i] = (FlBeamAxle) { in_m (out->axles[i].x), fl_quantity_in (out->axles[i].tare, unit), out->axles[i].share,
                                  (guint) MAX (0, out->axles[i].group) };
  for (gsize i = 0; i < out->n; i++)
    {
      double x, part;

      if (fl_beam_group (out->beam, out->n, i, &x, &part) != FL_BEAM_OK)
        return FALSE;
      out->x = fmin (out->x, x);
      out->other = out->coupled ? out->other : fmax (out->other, x);
    }
  return isfinite (out->x) && isfinite (out->other);
}

static const char *
group_word (const Beam *beam)
{
  return beam->coupled ? N_("axle group") : N_("rear axle group");
}

static const char *
other_word (const Beam *beam)
{
  return beam->coupled ? N_("coupling") : N_("front axle group");
}

static void
step_load (const FlScene *scene, FlSteps *steps, Beam *beam, const char *name, double weight, double x)
{
  double arm = x - beam->x;

  beam->total += weight;
  beam->on_other += weight * arm / (beam->other - beam->x);
  fl_step (steps, arm >= 0.0 ? N_("{name}: {weight} acts {arm} ahead of the {group_word}.") : N_("{name}: {weight} acts {arm} behind the {group_word}."),
           FL_FACT_TEXT ("name", name), FL_FACT_QUANTITY ("weight", fl_weight (scene, weight)), FL_FACT_QUANTITY ("arm", fl_inches (fabs (arm))),
           FL_FACT_TEXT ("group_word", group_word (beam)));
}

static void
step_moments (const FlScene *scene, FlSteps *steps, gboolean of_truck, Beam *beam)
{
  beam->total = beam->on_other = 0.0;
  if (of_truck)
    step_load (scene, steps, beam, "coupling", scene->axles.coupling, in_m (scene->truck->coupling.x));
  else
    for (guint i = 0; i < scene->n_loads; i++)
      step_load (scene, steps, beam, scene->loads[i].subject, scene->loads[i].weight, fl_scene_acts_at (&scene->loads[i]));
  fl_step (steps, N_("Moments about the {group_word}: weight x distance / {span} (to the {other_word}), summed: {sum} on the {other_word}."),
           FL_FACT_TEXT ("group_word", group_word (beam)), FL_FACT_QUANTITY ("span", fl_inches (fabs (beam->other - beam->x))),
           FL_FACT_TEXT ("other_word", other_word (beam)), FL_FACT_QUANTITY ("sum", fl_weight (scene, beam->on_other)));
}

static void
step_own (const FlScene *scene, FlSteps *steps, const Beam *beam, gsize i, double part, double rest)
{
  fl_step (steps, N_("Axle's part {part} x {rest} = {load}, with its empty {tare}: {sum}."), fl_fact_number (steps, "part", part),
           FL_FACT_QUANTITY ("rest", fl_weight (scene, rest)), FL_FACT_QUANTITY ("load", fl_weight (scene, part * rest)),
           FL_FACT_QUANTITY ("tare", beam->axles[i].tare), FL_FACT_QUANTITY ("sum", fl_weight (scene, beam->beam[i].own + part * rest)));
}

void
fl_steps_axle (const FlScene *scene, FlSteps *steps, gboolean of_truck, gsize i)
{
  double x, part, rest;
  Beam beam;

  if (!take_beam (scene, of_truck, &beam) || fl_beam_group (beam.beam, beam.n, i, &x, &part) != FL_BEAM_OK)
    return;
  step_moments (scene, steps, of_truck, &beam);
  if (!beam.coupled && fabs (x - beam.other) < fabs (x - beam.x))
    {
      step_own (scene, steps, &beam, i, part, beam.on_other);
      return;
    }
  rest = beam.total - beam.on_other;
  fl_step (steps, N_("{total} - {sum} = {rest} on the {group_word}."), FL_FACT_QUANTITY ("total", fl_weight (scene, beam.total)),
           FL_FACT_QUANTITY ("sum", fl_weight (scene, beam.on_other)), FL_FACT_QUANTITY ("rest", fl_weight (scene, rest)),
           FL_FACT_TEXT ("group_word", group_word (&beam)));
  step_own (scene, steps, &beam, i, part, rest);
}

void
fl_steps_coupling (const FlScene *scene, FlSteps *steps)
{
  Beam beam;

  if (!scene->trailer->coupling.present || !take_beam (scene, FALSE, &beam))
    return;
  step_moments (scene, steps, FALSE, &beam);
  fl_step (steps, N_("With its empty {tare} the coupling carries {sum}."), FL_FACT_QUANTITY ("tare", scene->trailer->coupling.tare),
           FL_FACT_QUANTITY ("sum", fl_weight (scene, scene->axles.coupling)));
}
