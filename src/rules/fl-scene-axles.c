/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What stands on the axles and the coupling, and how large the whole is. Weights in the book's unit: a beam does not mind. */
#include "fl-scene-private.h"

#include <math.h>

/* Where a load's weight acts: its center of gravity; an article, which has none on record, in the middle of its length. NaN: not known. */
static double
acts_at (const FlSceneLoad *load)
{
  const FlMachine *machine = load->machine;

  if (!load->stand.placed)
    return NAN;
  if (machine->article && !fl_quantity_known (machine->cg.x))
    return (load->stand.outline.min.x + load->stand.outline.max.x) / 2;
  return fl_stand_point (&load->stand, (FlPlace) { machine->cg.x, FL_M (0), FL_M (0) }).x;
}

static void
take_axles (FlBeamAxle *out, const FlAxle *axles, gsize n, FlUnit unit, gboolean *tares_known)
{
  *tares_known = TRUE;
  for (gsize i = 0; i < n; i++)
    {
      double tare = fl_quantity_in (axles[i].tare, unit);

      *tares_known = *tares_known && !isnan (tare);
      out[i] = (FlBeamAxle) { fl_quantity_in (axles[i].x, FL_UNIT_M), tare, axles[i].share, (guint) MAX (0, axles[i].group) };
    }
}

static void
weigh_trailer (FlScene *scene)
{
  FlSceneAxles *a = &scene->axles;
  const FlTrailer *trailer = scene->trailer;
  FlUnit unit = fl_book_data (scene->book)->unit;
  FlBeamAxle axles[FL_SCENE_MAX_AXLES];
  FlBeamLoad loads[FL_SCENE_MAX_LOADS];
  FlBeamCoupling coupling = { fl_quantity_in (trailer->coupling.x, FL_UNIT_M), fl_quantity_in (trailer->coupling.tare, unit) };

  take_axles (axles, trailer->axles, trailer->n_axles, unit, &a->tares_known);
  a->tares_known = a->tares_known && (!trailer->coupling.present || !isnan (coupling.own));
  a->cg_known = TRUE;
  for (guint i = 0; i < scene->n_loads; i++)
    {
      loads[i] = (FlBeamLoad) { acts_at (&scene->loads[i]), scene->loads[i].weight };
      a->cg_known = a->cg_known && !isnan (loads[i].x);
    }
  a->status = fl_beam_axles (loads, scene->n_loads, trailer->coupling.present ? &coupling : NULL, axles, trailer->n_axles,
                             a->trailer, &a->coupling);
}

static void
weigh_truck (FlScene *scene)
{
  FlSceneAxles *a = &scene->axles;
  FlUnit unit = fl_book_data (scene->book)->unit;
  FlBeamAxle axles[FL_SCENE_MAX_AXLES];
  FlBeamLoad load;

  if (scene->truck == NULL)
    return;
  load = (FlBeamLoad) { fl_quantity_in (scene->truck->coupling.x, FL_UNIT_M), a->coupling };
  take_axles (axles, scene->truck->axles, scene->truck->n_axles, unit, &a->truck_tares_known);
  a->truck_status = a->status == FL_BEAM_OK
                      ? fl_beam_axles (&load, 1, NULL, axles, scene->truck->n_axles, a->truck, NULL) : FL_BEAM_NOT_FINITE;
}

static double
sum_of_tares (const FlAxle *axles, gsize n, FlUnit unit)
{
  double sum = n > 0 ? 0.0 : NAN;

  for (gsize i = 0; i < n; i++)
    sum += fl_quantity_in (axles[i].tare, unit);
  return sum;
}

static double
trailer_tare (const FlTrailer *trailer, FlUnit unit)
{
  double own = trailer->coupling.present ? fl_quantity_in (trailer->coupling.tare, unit) : 0.0;

  if (fl_quantity_known (trailer->tare))
    return fl_quantity_in (trailer->tare, unit);
  return sum_of_tares (trailer->axles, trailer->n_axles, unit) + own;
}

void
fl_scene_weigh (FlScene *scene)
{
  FlSceneAxles *a = &scene->axles;
  FlUnit unit = fl_book_data (scene->book)->unit;
  double truck_tare = scene->truck != NULL ? sum_of_tares (scene->truck->axles, scene->truck->n_axles, unit) : 0.0;

  memset (a, 0, sizeof *a);
  weigh_trailer (scene);
  weigh_truck (scene);
  for (guint i = 0; i < scene->n_loads; i++)
    a->payload += scene->loads[i].weight;
  a->trailer_gross = trailer_tare (scene->trailer, unit) + a->payload;
  a->truck_gross = truck_tare + a->coupling;
  a->gross = a->trailer_gross + truck_tare;
}

/* ── sizes ── */

typedef struct { double front, rear; } Extent;

static void
reach (Extent *e, double x)
{
  if (isnan (x))
    return;
  e->front = fmax (e->front, x);
  e->rear = fmin (e->rear, x);
}

/* The truck's front bumper in the trailer frame: coupling points coincide. */
static double
bumper (const FlScene *scene)
{
  const FlTruck *truck = scene->truck;

  if (truck == NULL || !scene->trailer->coupling.present)
    return NAN;
  return fl_quantity_in (scene->trailer->coupling.x, FL_UNIT_M) + fl_quantity_in (truck->front_x, FL_UNIT_M)
         - fl_quantity_in (truck->coupling.x, FL_UNIT_M);
}

static Extent
length_of (const FlScene *scene)
{
  const FlTrailer *trailer = scene->trailer;
  Extent e = { -INFINITY, INFINITY };

  reach (&e, 0.0);
  reach (&e, fl_quantity_in (trailer->deck_length, FL_UNIT_M));
  for (gsize i = 0; i < trailer->n_zones; i++)
    {
      reach (&e, fl_quantity_in (trailer->zones[i].x0, FL_UNIT_M));
      reach (&e, fl_quantity_in (trailer->zones[i].x1, FL_UNIT_M));
    }
  for (gsize i = 0; i < trailer->n_axles; i++)
    reach (&e, fl_quantity_in (trailer->axles[i].x, FL_UNIT_M));
  for (guint i = 0; i < scene->n_loads; i++)
    if (scene->loads[i].stand.placed)
      {
        reach (&e, scene->loads[i].stand.outline.min.x);
        reach (&e, scene->loads[i].stand.outline.max.x);
      }
  reach (&e, bumper (scene));
  return e;
}

/* From the outermost left to the outermost right of deck and loads. NaN where a width is not known. */
static double
widest (const FlScene *scene)
{
  double half = scene->ground.half_width, left = half, right = -half;

  for (guint i = 0; i < scene->n_loads; i++)
    {
      const FlSceneLoad *load = &scene->loads[i];
      double own = fl_quantity_in (load->machine->width, FL_UNIT_M) / 2;

      left = isnan (own) ? NAN : fmax (left, load->left + own);
      right = fmin (right, load->left - own);
      if (isnan (left))
        return NAN;
    }
  return left - right;
}

static gboolean
is_measured (const FlMachine *machine)
{
  FlBasisKind kind = fl_basis_of (&machine->basis, "height").kind;

  return kind == FL_BASIS_TAPE;
}

FlSceneSizes
fl_scene_sizes (const FlScene *scene)
{
  Extent e = length_of (scene);
  FlSceneSizes s = { scene->n_loads > 0 ? -INFINITY : NAN, widest (scene), e.front - e.rear, scene->n_loads > 0 };

  for (guint i = 0; i < scene->n_loads; i++)
    {
      const FlSceneLoad *load = &scene->loads[i];
      double z = load->stand.placed ? load->stand.pose.z : 0.0;
      double top = scene->ground.deck_height + z + fl_quantity_in (load->machine->height, FL_UNIT_M);

      s.height = isnan (top) || isnan (s.height) ? NAN : fmax (s.height, top);
      s.height_measured = s.height_measured && is_measured (load->machine);
    }
  if (scene->trailer->coupling.present && isnan (bumper (scene)))
    s.length = NAN;             /* no truck yet, or its front was not measured */
  return s;
}
