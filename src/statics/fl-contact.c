/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-contact.c: contact patches on the lengths of a deck. */
#include "fl-contact.h"

#include "fl-statics-tolerances.h"

FlRect
fl_contact_rect (FlPose pose, double x, double y, double length, double width)
{
  FlVec half = { length > 0.0 ? length / 2.0 : 0.0, width > 0.0 ? width / 2.0 : 0.0, 0.0 };
  FlVec middle = fl_pose_to_trailer (pose, (FlVec) { x, y, 0.0 });

  return (FlRect) { middle.x - half.x, middle.x + half.x, middle.y - half.y, middle.y + half.y };
}

gboolean
fl_rect_is_valid (FlRect rect)
{
  return isfinite (rect.x_min) && isfinite (rect.x_max) && isfinite (rect.y_min) && isfinite (rect.y_max)
         && rect.x_min <= rect.x_max && rect.y_min <= rect.y_max;
}

/* A stretch may reach to infinity; one with an end that nobody knows is no stretch. */
static gboolean
can_compare (FlRect rect, double x0, double x1)
{
  return fl_rect_is_valid (rect) && !isnan (x0) && !isnan (x1);
}

double
fl_rect_overlap_x (FlRect rect, double x0, double x1)
{
  double overlap = MIN (rect.x_max, MAX (x0, x1)) - MAX (rect.x_min, MIN (x0, x1));

  return can_compare (rect, x0, x1) && overlap > 0.0 ? overlap : 0.0;
}

double
fl_rect_share_x (FlRect rect, double x0, double x1)
{
  double length = rect.x_max - rect.x_min;

  if (!can_compare (rect, x0, x1))
    return 0.0;
  if (length > FL_STATICS_POINT)
    return fl_rect_overlap_x (rect, x0, x1) / length;
  return MIN (x0, x1) <= rect.x_max && rect.x_min <= MAX (x0, x1) ? 1.0 : 0.0;
}

gboolean
fl_rect_within_x (FlRect rect, double x0, double x1)
{
  return can_compare (rect, x0, x1) && rect.x_min >= MIN (x0, x1) - FL_STATICS_GRAZE
         && rect.x_max <= MAX (x0, x1) + FL_STATICS_GRAZE;
}

gboolean
fl_rects_extent_x (const FlRect *rects, gsize n, double *first, double *last)
{
  double least = INFINITY, most = -INFINITY;

  for (gsize i = 0; i < n; i++)
    {
      if (!fl_rect_is_valid (rects[i]))
        return FALSE;
      least = MIN (least, rects[i].x_min);
      most = MAX (most, rects[i].x_max);
    }
  if (n == 0)
    return FALSE;
  *first = least;
  *last = most;
  return TRUE;
}
