/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The trailer in the deck drawing: zones, wheels, coupling, anchors. What no record holds (the depth of the frame, the size of a wheel, the
 * height of a drawbar) is sketched light, so that nobody measures it off the sheet. */
#include "fl-deck-private.h"

#include <math.h>

#define FRAME_DEPTH 0.18        /* metres, a sketch */
#define WHEEL_RADIUS 0.42
#define WHEEL_WIDTH 0.24
#define HATCH_EM 0.55

static const FlStroke outline = { .stroke = FL_TONE_INK, .fill = FL_TONE_NONE, .width = 1.1 };
static const FlStroke thin = { .stroke = FL_TONE_INK, .fill = FL_TONE_NONE, .width = 0.6 };
static const FlStroke sketch = { .stroke = FL_TONE_FAINT, .fill = FL_TONE_NONE, .width = 0.5 };
static const FlStroke hidden = { .stroke = FL_TONE_FAINT, .fill = FL_TONE_NONE, .width = 0.5, .dash = FL_DASH_DASHED };

static FlHit
trailer_hit (const FlDeckDrawing *d)
{
  return (FlHit) { FL_HIT_TRAILER, d->trailer->id, -1, -1 };
}

/* Lines at 45 degrees inside a box: deck that does not carry. */
static void
hatch (FlDeckDrawing *d, FlSpot box)
{
  const double step = fmax (3.0, HATCH_EM * d->em);

  for (double c = step; c < box.width + box.height; c += step)
    {
      const double x0 = fmax (0.0, c - box.height), x1 = fmin (box.width, c);

      fl_marks_line (d->marks, box.x + x0, box.y + c - x0, box.x + x1, box.y + c - x1, sketch);
    }
}

/* ── plan view ── */

static void
plan_zone (FlDeckDrawing *d, const FlZone *zone, double half)
{
  const FlBox box = { { fl_metres (zone->x0), -half, 0.0 }, { fl_metres (zone->x1), half, 0.0 } };
  const FlSpot spot = fl_deck_box_spot (d, FL_VIEW_PLAN, &box);

  if (!(box.max.x > box.min.x))
    return;
  if (!zone->carries)
    hatch (d, spot);
  fl_marks_rect (d->marks, spot.x, spot.y, spot.width, spot.height, outline);
  fl_deck_add_box (d, trailer_hit (d), spot);
}

static void
plan_wheels (FlDeckDrawing *d, double half)
{
  for (gsize i = 0; i < d->trailer->n_axles; i++)
    for (gint side = -1; side <= 1; side += 2)
      {
        const double x = fl_metres (d->trailer->axles[i].x), y = side * (half - 0.5 * WHEEL_WIDTH - 0.05);
        const FlBox box = { { x - WHEEL_RADIUS, y - 0.5 * WHEEL_WIDTH, 0.0 }, { x + WHEEL_RADIUS, y + 0.5 * WHEEL_WIDTH, 0.0 } };

        if (isfinite (x) && isfinite (y))
          fl_deck_box (d, FL_VIEW_PLAN, &box, hidden);
      }
}

/* How far forward deck and neck reach; the level of the part that does. */
static double
front_end (const FlTrailer *trailer, double *level)
{
  double front = fl_metres (trailer->deck_length);

  *level = 0.0;
  for (gsize i = 0; i < trailer->n_zones; i++)
    if (fl_metres (trailer->zones[i].x1) > front)
      {
        front = fl_metres (trailer->zones[i].x1);
        *level = fl_metres (trailer->zones[i].z);
      }
  return front;
}

/* A drawbar to a coupling in front of the deck, the coupling itself as an eye, its centre line. */
static void
plan_coupling (FlDeckDrawing *d, double half)
{
  double level, front = front_end (d->trailer, &level), x = fl_metres (d->trailer->coupling.x);
  const double y0 = fl_deck_up (d, FL_VIEW_PLAN, 0.0), r = fmax (2.2, 0.08 * d->scale);

  if (!isfinite (x) || !isfinite (front))
    return;
  if (x > front)
    for (gint side = -1; side <= 1; side += 2)
      fl_marks_line (d->marks, fl_deck_x (d, front), fl_deck_up (d, FL_VIEW_PLAN, side * 0.45 * half), fl_deck_x (d, x) - r, y0, outline);
  fl_marks_circle (d->marks, fl_deck_x (d, x), y0, r, (FlStroke) { .stroke = FL_TONE_INK, .fill = FL_TONE_PAPER, .width = 1.1 });
  fl_marks_circle (d->marks, fl_deck_x (d, x), y0, 0.35 * r, FL_FILLED (FL_TONE_INK));
  fl_labels_take (d->labels, fl_spot_about (fl_deck_x (d, x), y0, 2.0 * r, 2.0 * r), FALSE);
}

void
fl_deck_anchor_symbol (FlDeckDrawing *d, const FlAnchor *anchor, gboolean used)
{
  const double x = fl_deck_x (d, fl_metres (anchor->x)), y = fl_deck_up (d, FL_VIEW_PLAN, fl_metres (anchor->y));
  const double unit = fmax (1.6, 0.11 * d->em) * (used ? 1.35 : 1.0);
  const FlTone tone = used ? FL_TONE_INK : FL_TONE_FAINT;
  const FlStroke style = { .stroke = tone, .fill = used ? FL_TONE_INK : FL_TONE_PAPER, .width = used ? 1.0 : 0.6 };

  if (!isfinite (x) || !isfinite (y))
    return;
  if (g_strcmp0 (anchor->fitting, "stake_pocket") == 0)
    fl_marks_rect (d->marks, x - 1.6 * unit, y - unit, 3.2 * unit, 2.0 * unit, style);
  else if (g_strcmp0 (anchor->fitting, "rub_rail") == 0)
    fl_marks_line (d->marks, x - 2.4 * unit, y, x + 2.4 * unit, y, FL_LINE (tone, used ? 2.4 : 1.4));
  else if (g_strcmp0 (anchor->fitting, "chain_slot") == 0)
    fl_marks_round_rect (d->marks, x - 0.6 * unit, y - 1.8 * unit, 1.2 * unit, 3.6 * unit, unit, style);
  else if (g_strcmp0 (anchor->fitting, "bracket") == 0)
    {
      const double xy[] = { x - 1.5 * unit, y + 1.2 * unit, x, y - 1.4 * unit, x + 1.5 * unit, y + 1.2 * unit };

      fl_marks_polygon (d->marks, xy, 3, TRUE, style);
    }
  else
    fl_marks_circle (d->marks, x, y, 1.4 * unit, (FlStroke) { tone, used ? FL_TONE_INK : FL_TONE_PAPER, used ? 1.0 : 0.8, FL_DASH_SOLID });
}

static void
plan_anchors (FlDeckDrawing *d)
{
  for (gsize i = 0; i < d->trailer->n_anchors; i++)
    {
      const FlAnchor *anchor = &d->trailer->anchors[i];
      const double x = fl_deck_x (d, fl_metres (anchor->x)), y = fl_deck_up (d, FL_VIEW_PLAN, fl_metres (anchor->y));

      fl_deck_anchor_symbol (d, anchor, FALSE);
      fl_deck_add_segment (d, (FlHit) { FL_HIT_ANCHOR, anchor->id, -1, -1 }, x, y, x, y, 1.0);
    }
}

static FlBox
solid_box (const FlSolid *solid)
{
  return (FlBox) { { fl_metres (solid->min.x), fl_metres (solid->min.y), fl_metres (solid->min.z) },
                   { fl_metres (solid->max.x), fl_metres (solid->max.y), fl_metres (solid->max.z) } };
}

static void
lay_plan (FlDeckDrawing *d)
{
  const double half = 0.5 * fl_metres (d->trailer->deck_width), hinge = fl_metres (d->trailer->hinge_x);

  if (!isfinite (half))
    return;
  plan_wheels (d, half);
  for (gsize i = 0; i < d->trailer->n_zones; i++)
    plan_zone (d, &d->trailer->zones[i], half);
  if (isfinite (hinge))
    fl_marks_line (d->marks, fl_deck_x (d, hinge), fl_deck_up (d, FL_VIEW_PLAN, half) - 3.0, fl_deck_x (d, hinge),
                   fl_deck_up (d, FL_VIEW_PLAN, -half) + 3.0, (FlStroke) { FL_TONE_INK, FL_TONE_NONE, 0.6, FL_DASH_CENTER });
  if (d->trailer->coupling.present)
    plan_coupling (d, half);
  for (gsize i = 0; i < d->trailer->n_solids; i++)
    {
      const FlBox box = solid_box (&d->trailer->solids[i]);

      fl_deck_box (d, FL_VIEW_PLAN, &box, (FlStroke) { FL_TONE_INK, FL_TONE_PAPER, 0.8, FL_DASH_SOLID });
    }
  plan_anchors (d);
}

/* ── side elevation ── */

/* A sloped zone has its level at the end that meets the main deck. */
static void
side_zone (FlDeckDrawing *d, const FlZone *zone)
{
  const double x0 = fl_metres (zone->x0), x1 = fl_metres (zone->x1), z = fl_metres (zone->z);
  const double rise = tan (zone->slope * G_PI / 180.0) * (x1 - x0);
  const gboolean behind = x1 <= 1e-6;
  const double z0 = behind ? z - rise : z, z1 = behind ? z : z + rise;
  const double xy[] = { fl_deck_x (d, x0), fl_deck_up (d, FL_VIEW_SIDE, z0), fl_deck_x (d, x1), fl_deck_up (d, FL_VIEW_SIDE, z1),
                        fl_deck_x (d, x1), fl_deck_up (d, FL_VIEW_SIDE, z1 - FRAME_DEPTH), fl_deck_x (d, x0),
                        fl_deck_up (d, FL_VIEW_SIDE, z0 - FRAME_DEPTH) };

  if (!(x1 > x0))
    return;
  fl_marks_polygon (d->marks, xy, 4, TRUE, (FlStroke) { FL_TONE_FAINT, FL_TONE_PAPER, 0.6, FL_DASH_SOLID });
  if (!zone->carries)           /* hatched within the frame, as in the plan */
    for (double t = 0.0; t < 1.0; t += fmax (3.0, 0.4 * d->em) / (xy[2] - xy[0]))
      fl_marks_line (d->marks, xy[0] + t * (xy[2] - xy[0]), xy[7] + t * (xy[5] - xy[7]), xy[0] + t * (xy[2] - xy[0]) + FRAME_DEPTH * d->scale,
                     xy[1] + t * (xy[3] - xy[1]), sketch);
  fl_marks_line (d->marks, xy[0], xy[1], xy[2], xy[3], zone->carries ? FL_LINE (FL_TONE_INK, 1.8) : outline);
  fl_deck_add_box (d, trailer_hit (d), (FlSpot) { xy[0], fmin (xy[1], xy[3]), xy[2] - xy[0], FRAME_DEPTH * d->scale + fabs (xy[1] - xy[3]) });
}

/* Where a zone lies over an axle, its level leaves more or less room for the wheel. */
static double
wheel_radius (const FlDeckDrawing *d, double x)
{
  double level = 0.0;

  for (gsize i = 0; i < d->trailer->n_zones; i++)
    if (x >= fl_metres (d->trailer->zones[i].x0) && x <= fl_metres (d->trailer->zones[i].x1))
      level = fl_metres (d->trailer->zones[i].z);
  return fmin (WHEEL_RADIUS, 0.46 * (level - d->ground));
}

static void
side_wheels (FlDeckDrawing *d)
{
  for (gsize i = 0; i < d->trailer->n_axles; i++)
    {
      const double x = fl_metres (d->trailer->axles[i].x), r = wheel_radius (d, x);

      if (!isfinite (x) || !(r > 0.0))
        continue;
      fl_marks_circle (d->marks, fl_deck_x (d, x), fl_deck_up (d, FL_VIEW_SIDE, d->ground + r), r * d->scale,
                       (FlStroke) { FL_TONE_INK, FL_TONE_PAPER, 0.7, FL_DASH_SOLID });
      fl_marks_circle (d->marks, fl_deck_x (d, x), fl_deck_up (d, FL_VIEW_SIDE, d->ground + r), 0.25 * r * d->scale, sketch);
    }
}

static void
side_coupling (FlDeckDrawing *d)
{
  double level, front = front_end (d->trailer, &level), x = fl_metres (d->trailer->coupling.x);
  const double drop = level - 0.5 * FRAME_DEPTH, r = fmax (1.8, 0.07 * d->scale);

  if (!isfinite (x) || !isfinite (front))
    return;
  if (x > front)
    fl_marks_line (d->marks, fl_deck_x (d, front), fl_deck_up (d, FL_VIEW_SIDE, drop), fl_deck_x (d, x) - r, fl_deck_up (d, FL_VIEW_SIDE, drop), outline);
  else                          /* a kingpin or ball socket under the neck */
    fl_marks_line (d->marks, fl_deck_x (d, x), fl_deck_up (d, FL_VIEW_SIDE, level - FRAME_DEPTH), fl_deck_x (d, x),
                   fl_deck_up (d, FL_VIEW_SIDE, level - 2.2 * FRAME_DEPTH), FL_LINE (FL_TONE_INK, 2.2));
  fl_marks_circle (d->marks, fl_deck_x (d, x), fl_deck_up (d, FL_VIEW_SIDE, drop), r, (FlStroke) { FL_TONE_INK, FL_TONE_PAPER, 1.1, FL_DASH_SOLID });
}

static void
lay_side (FlDeckDrawing *d)
{
  const double stop = fl_metres (d->trailer->front_stop_x);

  if (isfinite (d->ground))
    {
      fl_marks_line (d->marks, fl_deck_x (d, d->span.x0) - d->em, fl_deck_up (d, FL_VIEW_SIDE, d->ground), fl_deck_x (d, d->span.x1) + d->em,
                     fl_deck_up (d, FL_VIEW_SIDE, d->ground), thin);
      side_wheels (d);
    }
  for (gsize i = 0; i < d->trailer->n_zones; i++)
    side_zone (d, &d->trailer->zones[i]);
  if (d->trailer->coupling.present)
    side_coupling (d);
  for (gsize i = 0; i < d->trailer->n_solids; i++)
    {
      const FlBox box = solid_box (&d->trailer->solids[i]);

      fl_deck_box (d, FL_VIEW_SIDE, &box, (FlStroke) { FL_TONE_INK, FL_TONE_PAPER, 0.8, FL_DASH_SOLID });
    }
  if (d->trailer->has_front_stop && isfinite (stop))
    fl_marks_line (d->marks, fl_deck_x (d, stop), fl_deck_up (d, FL_VIEW_SIDE, 0.0), fl_deck_x (d, stop), fl_deck_up (d, FL_VIEW_SIDE, 0.35),
                   FL_LINE (FL_TONE_INK, 2.4));
}

void
fl_deck_lay_trailer (FlDeckDrawing *d)
{
  if (d->trailer == NULL)
    return;
  lay_plan (d);
  lay_side (d);
}
