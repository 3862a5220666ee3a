/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The nearest cure: how far a load would have to move so that what is over its limit comes within it. Every figure that counts (axles,
 * coupling, share of the gross, groups of axles) is linear in a load's place, so each limit is an interval of the way moved; the way out is the
 * nearest end of what all intervals leave. It is then rounded away from here and proved: weighed anew, and set down on the deck. */
#include <math.h>

#include "fl-vehicle.h"

enum { MAX_BOUNDS = FL_MAX_COMBINATION * (FL_MAX_COMBINATION + 3) / 2 + 16 };

/* now + slope * way is to be at most `limit` (at_least: at least). m; of the cure that was asked for: wanted. */
typedef struct { double now, slope, limit; gboolean at_least, wanted; } Bound;

typedef struct
{
  const FlScene *scene;
  FlCure cure;
  gsize index;
  const FlCombination *all;
  const FlSceneAxles *now, *moved;      /* moved: by a metre forward */
  Bound bounds[MAX_BOUNDS]; gsize n;
} Bounds;

static void
bind (Bounds *b, gboolean wanted, double now, double moved, double limit, gboolean at_least)
{
  if (isfinite (now) && isfinite (moved) && isfinite (limit) && b->n < MAX_BOUNDS)
    b->bounds[b->n++] = (Bound) { now, moved - now, limit, at_least, wanted };
}

static void
bind_axles (Bounds *b, FlCure cure, const FlAxle *axles, gsize n, const double *now, const double *moved)
{
  FlUnit unit = fl_book_data (b->scene->book)->unit;

  for (gsize i = 0; i < n; i++)
    {
      gboolean wanted = b->cure == cure && b->index == i;

      bind (b, wanted, now[i], moved[i], fl_quantity_in (axles[i].rated, unit), FALSE);
      bind (b, wanted, now[i], moved[i], 0.0, TRUE);
    }
}

/* A steering axle keeps its part of what stands on the wheels. */
static void
bind_steering (Bounds *b, const FlAxle *axles, gsize n, const double *now, const double *moved)
{
  double part = fl_book_data (b->scene->book)->steer_least_pct / 100.0, sum = 0.0, sum_moved = 0.0;
  gsize steer = fl_steering_axle (axles, n);

  for (gsize i = 0; i < n; i++)
    {
      sum += now[i];
      sum_moved += moved[i];
    }
  bind (b, b->cure == FL_CURE_STEER, now[steer] - part * sum, moved[steer] - part * sum_moved, 0.0, TRUE);
}

static void
bind_coupling (Bounds *b)
{
  const FlScene *scene = b->scene;
  FlUnit unit = fl_book_data (scene->book)->unit;
  FlQuantity own = scene->trailer->coupling.rated_vertical;
  FlQuantity rated = scene->truck != NULL ? fl_lesser_rating (own, scene->truck->coupling.rated_vertical) : own;
  double gross = b->now->trailer_gross / 100.0, lo, hi;

  fl_book_band (scene->book, scene->trailer, &lo, &hi);
  bind (b, b->cure == FL_CURE_COUPLING, b->now->coupling, b->moved->coupling, fl_quantity_in (rated, unit), FALSE);
  bind (b, b->cure == FL_CURE_SHARE, b->now->coupling, b->moved->coupling, fl_book_data (scene->book)->coupling_floor_pct * gross, TRUE);
  bind (b, b->cure == FL_CURE_BAND, b->now->coupling, b->moved->coupling, lo * gross, TRUE);
  bind (b, b->cure == FL_CURE_BAND, b->now->coupling, b->moved->coupling, hi * gross, FALSE);
}

static void
bind_groups (Bounds *b)
{
  const FlBookData *book = fl_book_data (b->scene->book);

  for (guint i = 0; i < b->all->n; i++)
    {
      double now = 0.0, moved = 0.0;

      for (guint k = i; k < b->all->n; k++)
        {
          FlLegalLimit limit = fl_legal_limit (book, &b->all->x[i], k - i + 1);

          now += fl_combination_load (b->all, b->now, k);
          moved += fl_combination_load (b->all, b->moved, k);
          bind (b, b->cure == (fl_legal_is_near (limit.kind) ? FL_CURE_AXLE_LEGAL : FL_CURE_BRIDGE), now, moved, limit.limit, FALSE);
        }
    }
}

static void
bind_all (Bounds *b)
{
  const FlScene *scene = b->scene;
  const FlTrailer *trailer = scene->trailer;

  b->n = 0;
  bind_axles (b, FL_CURE_TRAILER_AXLE, trailer->axles, trailer->n_axles, b->now->trailer, b->moved->trailer);
  if (trailer->coupling.present)
    bind_coupling (b);
  else if (trailer->n_axles > 0)
    bind_steering (b, trailer->axles, trailer->n_axles, b->now->trailer, b->moved->trailer);
  if (b->all->with_truck)
    {
      bind_axles (b, FL_CURE_TRUCK_AXLE, scene->truck->axles, scene->truck->n_axles, b->now->truck, b->moved->truck);
      bind_steering (b, scene->truck->axles, scene->truck->n_axles, b->now->truck, b->moved->truck);
    }
  bind_groups (b);
}

/* ── the way ── */

/* What is over its limit and was not asked about may stay as it is, and get no worse. */
static double
limit_of (const Bound *bound)
{
  if (bound->wanted)
    return bound->limit;
  return bound->at_least ? fmin (bound->limit, bound->now) : fmax (bound->limit, bound->now);
}

/* The way, m, that all bounds leave. FALSE: none. */
static gboolean
way_left (const Bounds *b, double *lo, double *hi)
{
  *lo = -INFINITY;
  *hi = INFINITY;
  for (gsize i = 0; i < b->n; i++)
    {
      const Bound *bound = &b->bounds[i];
      double room = limit_of (bound) - bound->now, way = room / bound->slope;
      gboolean upper = (bound->slope > 0.0) != bound->at_least;

      if (fabs (bound->slope) <= FL_TOLERANCE * fabs (bound->limit) || bound->slope == 0.0)
        {
          if (bound->wanted && (bound->at_least ? room > 0.0 : room < 0.0))
            return FALSE;
          continue;
        }
      if (upper)
        *hi = fmin (*hi, way);
      else
        *lo = fmax (*lo, way);
    }
  return *lo <= *hi && (*lo > 0.0 || *hi < 0.0);
}

static gboolean
holds (const Bounds *b)
{
  for (gsize i = 0; i < b->n; i++)
    {
      const Bound *bound = &b->bounds[i];
      double limit = limit_of (bound), then = bound->now + bound->slope;

      /* `moved` is now the place itself, so that now + slope is what was weighed there. */
      if (bound->at_least ? then < limit - FL_TOLERANCE * fabs (limit) - FL_TOLERANCE : then > limit + FL_TOLERANCE * fabs (limit) + FL_TOLERANCE)
        return FALSE;
    }
  return TRUE;
}

/* Weighed anew with the load there, every bound holds, and it stands well and no higher than it may. */
static gboolean
proved (const Bounds *from, guint load, double way)
{
  const FlScene *scene = from->scene;
  const FlSceneLoad *l = &scene->loads[load];
  g_autofree Bounds *there = g_memdup2 (from, sizeof *from);
  FlSceneAxles moved;
  FlStand stand;

  fl_stand_fill (&stand, &scene->ground, l->machine, l->facing, l->rear + way, l->left);
  if (!fl_stands_well (scene, load, &stand) || stand.pose.z > l->stand.pose.z + FL_STATICS_GRAZE)
    return FALSE;
  fl_scene_weigh_moved (scene, load, way, &moved);
  there->moved = &moved;
  bind_all (there);
  return holds (there);
}

/* How far the load may move before it leaves the trailer, m. */
static void
within_trailer (const FlScene *scene, guint load, double *lo, double *hi)
{
  const FlBox *box = &scene->loads[load].stand.outline;
  double rear, front;

  fl_trailer_reach (scene->trailer, &rear, &front);
  *lo = fmax (*lo, rear - box->max.x);
  *hi = fmin (*hi, front - box->min.x);
}

/* The nearest whole step from lo to hi, both on one side of nought, that is proved; 0: none. */
static gint
nearest_step (const Bounds *b, guint load, double lo, double hi, double step)
{
  gint sign = lo > 0.0 ? 1 : -1;
  double near = sign > 0 ? lo : -hi, far = sign > 0 ? hi : -lo;

  if (!isfinite (near) || !isfinite (far))
    return 0;
  for (gint k = (gint) ceil (near / step - FL_TOLERANCE); k <= far / step + FL_TOLERANCE; k++)
    if (k > 0 && proved (b, load, sign * k * step))
      return sign * k;
  return 0;
}

FlNearest
fl_nearest_cure (const FlScene *scene, FlCure cure, gsize index)
{
  gboolean metric = fl_fleet_metric (scene->fleet);
  double step = metric ? 0.01 : FL_M_PER_IN;
  FlNearest nearest = { .distance = FL_NOT_MEASURED };
  g_autofree Bounds *b = g_new0 (Bounds, 1);
  FlCombination all;
  gint best = 0;

  if (scene->depth != FL_JUDGE_SETTLED || !fl_scene_combination (scene, &all))
    return nearest;
  nearest.asked = TRUE;
  for (guint i = 0; i < scene->n_loads; i++)
    {
      FlSceneAxles moved;
      double lo, hi;
      gint steps;

      if (!scene->loads[i].stand.placed)
        continue;
      fl_scene_weigh_moved (scene, i, 1.0, &moved);
      *b = (Bounds) { .scene = scene, .cure = cure, .index = index, .all = &all, .now = &scene->axles, .moved = &moved };
      bind_all (b);
      if (!way_left (b, &lo, &hi))
        continue;
      within_trailer (scene, i, &lo, &hi);
      steps = nearest_step (b, i, lo, hi, step);
      if (steps != 0 && (best == 0 || ABS (steps) < ABS (best)))
        {
          best = steps;
          nearest = (FlNearest) { TRUE, TRUE, i, steps > 0, metric ? FL_M (ABS (steps) * step) : FL_IN (ABS (steps)) };
        }
    }
  return nearest;
}

const char *
fl_nearest_text (const FlNearest *nearest, const char *cured, const char *none, const char *not_asked)
{
  return nearest->found ? cured : nearest->asked ? none : not_asked;
}

const char *
fl_nearest_word (const FlNearest *nearest)
{
  return nearest->forward ? N_("further forward") : N_("further back");
}
