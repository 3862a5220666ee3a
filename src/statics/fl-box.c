/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-box.c: boxes along the axes, and whether a straight segment meets one. */
#include "fl-box.h"

/* Not fmin and fmax: those drop a NaN, and a corner that is not known must not pass for one that is. */
static double
smaller (double a, double b)
{
  return a < b || isnan (a) ? a : b;
}

static double
larger (double a, double b)
{
  return a > b || isnan (a) ? a : b;
}

FlBox
fl_box_spanning (FlVec a, FlVec b)
{
  return (FlBox) {
    { smaller (a.x, b.x), smaller (a.y, b.y), smaller (a.z, b.z) },
    { larger (a.x, b.x), larger (a.y, b.y), larger (a.z, b.z) },
  };
}

gboolean
fl_box_is_valid (FlBox box)
{
  return box.min.x <= box.max.x && box.min.y <= box.max.y && box.min.z <= box.max.z;
}

static void
shrink_axis (double *min, double *max, double by)
{
  double half = (*max - *min) / 2.0;

  if (half > by)
    {
      *min += by;
      *max -= by;
    }
  else
    {
      *min += half;
      *max = *min;
    }
}

FlBox
fl_box_shrunk (FlBox box, double by)
{
  shrink_axis (&box.min.x, &box.max.x, by);
  shrink_axis (&box.min.y, &box.max.y, by);
  shrink_axis (&box.min.z, &box.max.z, by);
  return box;
}

/* Cuts the part [from, to] of the segment p + t (q - p) down to what lies between the planes min and max of one axis. */
static gboolean
cut_by_slab (double p, double q, double min, double max, double *from, double *to)
{
  double way = q - p;
  double enter, leave;

  if (way == 0.0)
    return min <= p && p <= max;
  enter = ((way > 0.0 ? min : max) - p) / way;
  leave = ((way > 0.0 ? max : min) - p) / way;
  *from = MAX (*from, enter);
  *to = MIN (*to, leave);
  return *from <= *to;
}

gboolean
fl_box_meets_segment (FlBox box, FlVec a, FlVec b)
{
  double from = 0.0, to = 1.0;

  if (!fl_vec_is_place (a) || !fl_vec_is_place (b) || !fl_box_is_valid (box))
    return FALSE;
  return cut_by_slab (a.x, b.x, box.min.x, box.max.x, &from, &to)
         && cut_by_slab (a.y, b.y, box.min.y, box.max.y, &from, &to)
         && cut_by_slab (a.z, b.z, box.min.z, box.max.z, &from, &to);
}
