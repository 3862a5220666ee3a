/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-bearing.c: a rigid load on the springs of its contacts, and a window that slides over them. */
#include "fl-bearing.h"

#include <math.h>
#include <stdlib.h>

#include "fl-statics-tolerances.h"

/* Rounds of taking away what would be pulled at; each is a Newton step, and a footing takes five. */
enum { MAX_ROUNDS = 60 };

/* ── the line of pressure ── */

/* p (x) = level + slope (x - about): load of a contact of the full length, N; only between from and to does the deck push. */
typedef struct { double about, level, slope, from, to; } Line;

static double
pressure (const Line *line, double x)
{
  return line->level + line->slope * (x - line->about);
}

/* The part of a patch that bears, as a share of it, its middle and its length; a share of 0 for none. */
static double
bearing_part (const FlRect *rect, const Line *line, double *middle, double *length)
{
  double x0 = MAX (rect->x_min, line->from), x1 = MIN (rect->x_max, line->to), whole = rect->x_max - rect->x_min;

  if (x1 < x0)
    return 0.0;
  *middle = (x0 + x1) / 2;
  *length = x1 - x0;
  return whole > FL_STATICS_POINT ? *length / whole : 1.0;
}

/* Level and slope that carry the weight at its place on what bears. FALSE where all of that stands on one line across. */
static gboolean
solve (const FlRect *rects, gsize n, double weight, Line *line)
{
  double s0 = 0.0, s1 = 0.0, s2 = 0.0, det;

  for (gsize i = 0; i < n; i++)
    {
      double middle = 0.0, length = 0.0, share = bearing_part (&rects[i], line, &middle, &length), arm = middle - line->about;

      s0 += share;
      s1 += share * arm;
      s2 += share * (arm * arm + length * length / 12.0);
    }
  det = s0 * s2 - s1 * s1;
  if (!(det > FL_STATICS_POINT * FL_STATICS_POINT * s0 * s0))
    return FALSE;
  line->level = weight * s2 / det;
  line->slope = -weight * s1 / det;
  return TRUE;
}

/* Takes away what lies beyond the point where the pressure is nought. TRUE if that changed nothing. */
static gboolean
clip (double first, double last, Line *line)
{
  double from = first, to = last, zero = line->about - line->level / line->slope;
  gboolean settled;

  if (pressure (line, first) < 0.0)
    from = zero;
  if (pressure (line, last) < 0.0)
    to = zero;
  settled = fabs (from - line->from) < FL_STATICS_POINT && fabs (to - line->to) < FL_STATICS_POINT;
  line->from = from;
  line->to = to;
  return settled;
}

static void
put (const FlRect *rects, gsize n, const Line *line, FlBearing *out)
{
  for (gsize i = 0; i < n; i++)
    {
      double x0 = MAX (rects[i].x_min, line->from), x1 = MIN (rects[i].x_max, line->to), whole = rects[i].x_max - rects[i].x_min;
      double per = whole > FL_STATICS_POINT ? whole : 1.0;

      out[i] = (FlBearing) { rects[i].x_min, rects[i].x_min, 0.0, 0.0 };
      if (x1 >= x0)
        out[i] = (FlBearing) { x0, x1, MAX (0.0, pressure (line, x0)) / per, MAX (0.0, pressure (line, x1)) / per };
    }
}

/* All of it at one place: beyond an edge, or where nothing but a line across bears. It goes to the patches that are there, alike. */
static void
put_at (const FlRect *rects, gsize n, double weight, double x, FlBearing *out)
{
  guint there = 0;

  for (gsize i = 0; i < n; i++)
    there += rects[i].x_min <= x + FL_STATICS_POINT && rects[i].x_max >= x - FL_STATICS_POINT;
  for (gsize i = 0; i < n; i++)
    if (rects[i].x_min <= x + FL_STATICS_POINT && rects[i].x_max >= x - FL_STATICS_POINT)
      out[i] = (FlBearing) { x, x, weight / there, weight / there };
    else
      out[i] = (FlBearing) { rects[i].x_min, rects[i].x_min, 0.0, 0.0 };
}

gboolean
fl_bearing_share (const FlRect *rects, gsize n, double weight, double cg_x, FlBearing *out)
{
  double first, last;
  Line line;

  if (!isfinite (weight) || weight < 0.0 || !isfinite (cg_x) || !fl_rects_extent_x (rects, n, &first, &last))
    return FALSE;
  if (cg_x <= first + FL_STATICS_POINT || cg_x >= last - FL_STATICS_POINT)
    {
      put_at (rects, n, weight, cg_x <= first + FL_STATICS_POINT ? first : last, out);
      return TRUE;
    }
  line = (Line) { .about = cg_x, .from = first, .to = last };
  for (guint round = 0; round < MAX_ROUNDS; round++)
    {
      if (!solve (rects, n, weight, &line))
        break;
      if (clip (first, last, &line))
        {
          put (rects, n, &line, out);
          return TRUE;
        }
    }
  /* Not reached by anything that stands. Everything at its center of gravity is the worst that a stretch could be asked to carry. */
  for (gsize i = 0; i < n; i++)
    out[i] = (FlBearing) { cg_x, cg_x, weight / (double) n, weight / (double) n };
  return TRUE;
}

/* ── the window ── */

double
fl_bearing_between (const FlBearing *bearings, gsize n, double x0, double x1)
{
  double sum = 0.0;

  for (gsize i = 0; i < n; i++)
    {
      const FlBearing *b = &bearings[i];
      double from = MAX (b->x0, x0), to = MIN (b->x1, x1), length = b->x1 - b->x0, slope;

      if (length <= FL_STATICS_POINT)
        sum += b->x0 >= x0 - FL_STATICS_POINT && b->x0 <= x1 + FL_STATICS_POINT
                 ? length > 0.0 ? (b->at0 + b->at1) / 2 * length : b->at0 : 0.0;
      else if (to > from)
        {
          slope = (b->at1 - b->at0) / length;
          sum += (to - from) * (b->at0 + slope * ((from + to) / 2 - b->x0));
        }
    }
  return sum;
}

typedef struct { const FlBearing *bearings; gsize n; double length, most, x0; } Window;

static void
try_at (Window *w, double x0)
{
  double load = fl_bearing_between (w->bearings, w->n, x0, x0 + w->length);

  if (load > w->most)
    {
      w->most = load;
      w->x0 = x0;
    }
}

/* Between two beginnings at which an end of the window meets an end of a bearing the load is a parabola: its top is tried. */
static void
try_top (Window *w, double a, double b)
{
  double h = (b - a) / 4, load[3], bend;

  for (guint i = 0; i < 3; i++)
    load[i] = fl_bearing_between (w->bearings, w->n, a + (i + 1) * h, a + (i + 1) * h + w->length);
  bend = load[0] - 2 * load[1] + load[2];
  if (bend < 0.0)
    try_at (w, CLAMP ((a + b) / 2 + h * (load[0] - load[2]) / (2 * bend), a, b));
}

static int
by_value (gconstpointer a, gconstpointer b)
{
  const double *x = a, *y = b;

  return *x < *y ? -1 : *x > *y;
}

double
fl_bearing_most (const FlBearing *bearings, gsize n, double length, double *x0)
{
  Window w = { bearings, n, length, 0.0, 0.0 };
  g_autofree double *at = NULL;

  if (!(length > 0.0) || n == 0)
    return 0.0;
  at = g_new (double, 4 * n);
  for (gsize i = 0; i < n; i++)
    {
      at[4 * i] = bearings[i].x0;
      at[4 * i + 1] = bearings[i].x1;
      at[4 * i + 2] = bearings[i].x0 - length;
      at[4 * i + 3] = bearings[i].x1 - length;
    }
  qsort (at, 4 * n, sizeof *at, by_value);
  for (gsize i = 0; i < 4 * n; i++)
    {
      try_at (&w, at[i]);
      if (i > 0 && at[i] - at[i - 1] > FL_STATICS_POINT)
        try_top (&w, at[i - 1], at[i]);
    }
  if (x0 != NULL)
    *x0 = w.x0;
  return w.most;
}
