/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-run.c: length, angles and signs of a tie-down's run; what it touches and crosses. */
#include "fl-run.h"

#include "fl-statics-tolerances.h"

gboolean
fl_run_is_valid (const FlVec *path, gsize n)
{
  if (n < 2)
    return FALSE;
  for (gsize i = 0; i < n; i++)
    if (!fl_vec_is_place (path[i]))
      return FALSE;
  return TRUE;
}

static double
path_length (const FlVec *path, gsize n)
{
  double length = 0.0;

  for (gsize i = 1; i < n; i++)
    length += fl_vec_norm (fl_vec_sub (path[i], path[i - 1]));
  return length;
}

double
fl_run_length (const FlVec *path, gsize n)
{
  return fl_run_is_valid (path, n) ? path_length (path, n) : 0.0;
}

FlVec
fl_run_pull (FlVec point, FlVec towards)
{
  FlVec way = fl_vec_sub (towards, point);

  if (!fl_vec_is_place (point) || !fl_vec_is_place (towards) || fl_vec_norm (way) < FL_STATICS_POINT)
    return (FlVec) { 0.0, 0.0, 0.0 };
  return fl_vec_unit (way);
}

double
fl_run_deck_angle (FlVec u)
{
  return fl_vec_is_finite (u) ? atan2 (fabs (u.z), hypot (u.x, u.y)) : 0.0;
}

double
fl_run_plan_angle (FlVec u)
{
  return fl_vec_is_finite (u) ? atan2 (fabs (u.y), fabs (u.x)) : 0.0;
}

gboolean
fl_run_pulls_down (FlVec u)
{
  return u.z < -FL_STATICS_COSINE;
}

double
fl_run_holds (FlVec u, FlVec d)
{
  double along = -fl_vec_dot (u, d);

  return along > 0.0 && isfinite (along) ? along : 0.0;
}

/* ── pieces of a path ── */

/* A walk over the straight pieces of a valid path without its first and last metres. */
typedef struct {
  const FlVec *path;
  gsize n, next;               /* the segment that comes next is path[next]..path[next + 1] */
  double from, to, at;         /* m along the path: what is kept, and where the next segment begins */
} Walk;

static Walk
walk_begin (const FlVec *path, gsize n, double leaves)
{
  double off = leaves > 0.0 ? leaves : 0.0;

  return (Walk) { .path = path, .n = n, .from = off, .to = path_length (path, n) - off };
}

/* The next piece; FALSE when there is none left. */
static gboolean
walk_on (Walk *walk, FlVec *a, FlVec *b)
{
  while (walk->next + 1 < walk->n)
    {
      FlVec p = walk->path[walk->next], q = walk->path[walk->next + 1];
      double length = fl_vec_norm (fl_vec_sub (q, p));
      double first = MAX (walk->from - walk->at, 0.0), last = MIN (walk->to - walk->at, length);

      walk->next++;
      walk->at += length;
      if (first > last)
        continue;
      /* A segment of no length is a place and is looked at as one. */
      *a = length > 0.0 ? fl_vec_between (p, q, first / length) : p;
      *b = length > 0.0 ? fl_vec_between (p, q, last / length) : q;
      return TRUE;
    }
  return FALSE;
}

/* ── distances ── */

static double
point_to_segment (FlVec p, FlVec a, FlVec b)
{
  FlVec way = fl_vec_sub (b, a);
  double square = fl_vec_dot (way, way);
  double t = square > 0.0 ? fl_vec_dot (fl_vec_sub (p, a), way) / square : 0.0;

  return fl_vec_norm (fl_vec_sub (p, fl_vec_between (a, b, t)));
}

/* Distance at the feet of the common perpendicular of the two lines, feet beyond an end pulled back to it; INFINITY for parallels.
 * Whatever rounding does to the feet of nearly parallel lines, they are places of the two segments: the answer is never too
 * small, and where it is too large one of the ends is nearer. */
static double
across (FlVec a0, FlVec a1, FlVec b0, FlVec b1)
{
  FlVec u = fl_vec_sub (a1, a0), v = fl_vec_sub (b1, b0), w = fl_vec_sub (a0, b0);
  double uu = fl_vec_dot (u, u), uv = fl_vec_dot (u, v), vv = fl_vec_dot (v, v);
  double uw = fl_vec_dot (u, w), vw = fl_vec_dot (v, w);
  double det = uu * vv - uv * uv;
  double s, t;

  if (!(det > 0.0))
    return INFINITY;
  s = (uv * vw - vv * uw) / det;
  t = (uu * vw - uv * uw) / det;
  return fl_vec_norm (fl_vec_sub (fl_vec_between (a0, a1, s), fl_vec_between (b0, b1, t)));
}

double
fl_segment_distance (FlVec a0, FlVec a1, FlVec b0, FlVec b1)
{
  double ends, starts;

  if (!fl_vec_is_place (a0) || !fl_vec_is_place (a1) || !fl_vec_is_place (b0) || !fl_vec_is_place (b1))
    return 0.0;
  starts = MIN (point_to_segment (a0, b0, b1), point_to_segment (b0, a0, a1));
  ends = MIN (point_to_segment (a1, b0, b1), point_to_segment (b1, a0, a1));
  return MIN (MIN (starts, ends), across (a0, a1, b0, b1));
}

double
fl_run_distance (const FlVec *a, gsize n_a, const FlVec *b, gsize n_b, double leaves)
{
  Walk walk_a;
  FlVec a0, a1, b0, b1;
  double least = INFINITY;

  if (!fl_run_is_valid (a, n_a) || !fl_run_is_valid (b, n_b))
    return 0.0;
  walk_a = walk_begin (a, n_a, leaves);
  while (walk_on (&walk_a, &a0, &a1))
    {
      Walk walk_b = walk_begin (b, n_b, leaves);

      while (walk_on (&walk_b, &b0, &b1))
        least = MIN (least, fl_segment_distance (a0, a1, b0, b1));
    }
  return least;
}

/* ── boxes and planes ── */

static gboolean
clears_box (const FlVec *path, gsize n, double leaves, FlBox box)
{
  Walk walk = walk_begin (path, n, leaves);
  FlBox inner = fl_box_shrunk (box, FL_STATICS_GRAZE);
  FlVec a, b;

  while (walk_on (&walk, &a, &b))
    if (fl_box_meets_segment (inner, a, b))
      return FALSE;
  return TRUE;
}

gboolean
fl_run_clears (const FlVec *path, gsize n, double leaves, const FlBox *boxes, gsize n_boxes, gsize *hit)
{
  gboolean valid = fl_run_is_valid (path, n);
  gsize i = valid ? 0 : n_boxes;

  while (i < n_boxes && fl_box_is_valid (boxes[i]) && clears_box (path, n, leaves, boxes[i]))
    i++;
  if (valid && i == n_boxes)
    return TRUE;
  if (hit != NULL)
    *hit = i;
  return FALSE;
}

gboolean
fl_run_crosses_plane (const FlVec *path, gsize n, double x)
{
  gboolean before = FALSE, behind = FALSE;

  if (!fl_run_is_valid (path, n) || !isfinite (x))
    return TRUE;
  for (gsize i = 0; i < n; i++)
    {
      before |= path[i].x > x + FL_STATICS_GRAZE;
      behind |= path[i].x < x - FL_STATICS_GRAZE;
    }
  return before && behind;
}
