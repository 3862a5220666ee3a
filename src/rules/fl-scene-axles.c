/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What stands on the axles and the coupling, and how large the whole is. Weights in the book's unit: a beam does not mind. */
#include "fl-vehicle.h"

#include <math.h>

#include "fl-contact.h"

double
fl_scene_acts_at (const FlSceneLoad *load)
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
weigh_trailer (const FlScene *scene, guint moved, double by, FlSceneAxles *a)
{
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
      loads[i] = (FlBeamLoad) { fl_scene_acts_at (&scene->loads[i]) + (i == moved ? by : 0.0), scene->loads[i].weight };
      a->cg_known = a->cg_known && !isnan (loads[i].x);
    }
  a->status = fl_beam_axles (loads, scene->n_loads, trailer->coupling.present ? &coupling : NULL, axles, trailer->n_axles,
                             a->trailer, &a->coupling);
}

static void
weigh_truck (const FlScene *scene, FlSceneAxles *a)
{
  FlUnit unit = fl_book_data (scene->book)->unit;
  FlBeamAxle axles[FL_SCENE_MAX_AXLES];
  FlBeamLoad load;

  a->truck_status = FL_BEAM_NOT_FINITE;
  if (scene->truck == NULL || !scene->trailer->coupling.present)
    return;
  load = (FlBeamLoad) { fl_quantity_in (scene->truck->coupling.x, FL_UNIT_M), a->coupling };
  take_axles (axles, scene->truck->axles, scene->truck->n_axles, unit, &a->truck_tares_known);
  if (a->status == FL_BEAM_OK)
    a->truck_status = fl_beam_axles (&load, 1, NULL, axles, scene->truck->n_axles, a->truck, NULL);
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
fl_scene_weigh_moved (const FlScene *scene, guint load, double by, FlSceneAxles *a)
{
  FlUnit unit = fl_book_data (scene->book)->unit;
  double truck_tare = scene->truck != NULL ? sum_of_tares (scene->truck->axles, scene->truck->n_axles, unit) : 0.0;

  memset (a, 0, sizeof *a);
  weigh_trailer (scene, load, by, a);
  weigh_truck (scene, a);
  for (guint i = 0; i < scene->n_loads; i++)
    a->payload += scene->loads[i].weight;
  a->trailer_gross = trailer_tare (scene->trailer, unit) + a->payload;
  a->truck_gross = truck_tare + a->coupling;
  a->gross = a->trailer_gross + truck_tare;
}

void
fl_scene_weigh (FlScene *scene)
{
  fl_scene_weigh_moved (scene, 0, 0.0, &scene->axles);
}

/* ── all axles ── */

static void
add_axles (FlCombination *out, const FlAxle *axles, gsize n, gboolean of_truck, double shift)
{
  for (gsize i = 0; i < n; i++)
    {
      double x = fl_quantity_in (axles[i].x, FL_UNIT_M) + shift;
      guint at = out->n++;

      for (; at > 0 && out->x[at - 1] < x; at--)
        {
          out->x[at] = out->x[at - 1];
          out->axles[at] = out->axles[at - 1];
          out->of_truck[at] = out->of_truck[at - 1];
          out->index[at] = out->index[at - 1];
        }
      out->x[at] = x;
      out->axles[at] = &axles[i];
      out->of_truck[at] = of_truck;
      out->index[at] = i;
    }
}

gboolean
fl_scene_combination (const FlScene *scene, FlCombination *out)
{
  const FlSceneAxles *a = &scene->axles;

  out->n = 0;
  out->with_truck = FALSE;
  if (a->status != FL_BEAM_OK)
    return FALSE;
  add_axles (out, scene->trailer->axles, scene->trailer->n_axles, FALSE, 0.0);
  if (scene->truck == NULL || a->truck_status != FL_BEAM_OK)
    return TRUE;
  out->with_truck = TRUE;
  add_axles (out, scene->truck->axles, scene->truck->n_axles, TRUE,
             fl_quantity_in (scene->trailer->coupling.x, FL_UNIT_M) - fl_quantity_in (scene->truck->coupling.x, FL_UNIT_M));
  return TRUE;
}

double
fl_combination_load (const FlCombination *combination, const FlSceneAxles *axles, guint i)
{
  return combination->of_truck[i] ? axles->truck[combination->index[i]] : axles->trailer[combination->index[i]];
}

gsize
fl_steering_axle (const FlAxle *axles, gsize n)
{
  gsize foremost = 0;

  for (gsize i = 0; i < n; i++)
    {
      if (axles[i].steer)
        return i;
      if (fl_quantity_in (axles[i].x, FL_UNIT_M) > fl_quantity_in (axles[foremost].x, FL_UNIT_M))
        foremost = i;
    }
  return foremost;
}

FlQuantity
fl_lesser_rating (FlQuantity a, FlQuantity b)
{
  if (!fl_quantity_known (a) || !fl_quantity_known (b))
    return fl_quantity_known (a) ? a : b;
  return fl_quantity_in (a, FL_UNIT_LB) <= fl_quantity_in (b, FL_UNIT_LB) ? a : b;
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

void
fl_trailer_reach (const FlTrailer *trailer, double *rear, double *front)
{
  *rear = 0.0;
  *front = fl_quantity_in (trailer->deck_length, FL_UNIT_M);
  for (gsize i = 0; i < trailer->n_zones; i++)
    {
      *rear = fmin (*rear, fl_quantity_in (trailer->zones[i].x0, FL_UNIT_M));
      *front = fmax (*front, fl_quantity_in (trailer->zones[i].x1, FL_UNIT_M));
    }
}

static Extent
length_of (const FlScene *scene)
{
  const FlTrailer *trailer = scene->trailer;
  Extent e;

  fl_trailer_reach (trailer, &e.rear, &e.front);
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

FlSides
fl_load_sides (const FlSceneLoad *load)
{
  double own = fl_quantity_in (load->machine->width, FL_UNIT_M) / 2;
  FlSides sides = { load->left + own, load->left - own };

  /* A blade or a bucket drawn wider than the machine is as wide as it is drawn, and so are its tracks. */
  for (guint k = 0; k < load->stand.n_solids; k++)
    {
      sides.left = isnan (own) ? NAN : fmax (sides.left, load->stand.solids[k].max.y);
      sides.right = isnan (own) ? NAN : fmin (sides.right, load->stand.solids[k].min.y);
    }
  for (gsize k = 0; k < load->machine->n_contacts && load->stand.placed && !isnan (own); k++)
    {
      const FlContactPatch *c = &load->machine->contacts[k];
      FlRect rect = fl_contact_rect (load->stand.pose, fl_quantity_in (c->x, FL_UNIT_M), fl_quantity_in (c->y, FL_UNIT_M), 0.0,
                                     fl_quantity_in (c->width, FL_UNIT_M));

      sides.left = fmax (sides.left, rect.y_max);
      sides.right = fmin (sides.right, rect.y_min);
    }
  return sides;
}

double
fl_load_height (const FlSceneLoad *load)
{
  double z = load->stand.placed ? load->stand.pose.z : 0.0, top = z + fl_quantity_in (load->machine->height, FL_UNIT_M);

  for (guint k = 0; k < load->stand.n_solids && !isnan (top); k++)
    top = fmax (top, load->stand.solids[k].max.z);
  return top;
}

/* From the outermost left to the outermost right of deck and loads. NaN where a width is not known. */
static double
widest (const FlScene *scene)
{
  double half = scene->ground.half_width, left = half, right = -half;

  for (guint i = 0; i < scene->n_loads; i++)
    {
      FlSides sides = fl_load_sides (&scene->loads[i]);

      if (isnan (sides.left))
        return NAN;
      left = fmax (left, sides.left);
      right = fmin (right, sides.right);
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
      double top = scene->ground.deck_height + fl_load_height (load);

      s.height = isnan (top) || isnan (s.height) ? NAN : fmax (s.height, top);
      s.height_measured = s.height_measured && is_measured (load->machine);
    }
  if (scene->trailer->coupling.present && isnan (bumper (scene)))
    s.length = NAN;             /* no truck yet, or its front was not measured */
  return s;
}
