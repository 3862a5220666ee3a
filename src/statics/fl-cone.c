/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-cone.c: columns of the rim of a friction cone, and the way back into it. */
#include "fl-cone.h"

/* What sliding is none. */
#define STILL 1e-14

/* The unit vector along (x, y) whose slope is the nearest of the grid. */
static void
on_grid (double *x, double *y, double grid)
{
  double t, length;

  if (fabs (*x) >= fabs (*y))
    {
      t = rint (*y / *x * grid) / grid;
      length = copysign (sqrt (1.0 + t * t), *x);
      *x = 1.0 / length;
      *y = t / length;
    }
  else
    {
      t = rint (*x / *y * grid) / grid;
      length = copysign (sqrt (1.0 + t * t), *y);
      *x = t / length;
      *y = 1.0 / length;
    }
}

void
fl_cone_column (const double *mu, FlVec at, FlVec velocity, double grid, double *column)
{
  double sx = -mu[0] * velocity.x, sy = -mu[1] * velocity.y;
  FlVec f = { 0.0, 0.0, 1.0 };

  if (fabs (sx) + fabs (sy) > STILL)
    {
      on_grid (&sx, &sy, grid);
      f.x = mu[0] * sx;
      f.y = mu[1] * sy;
    }
  column[0] = f.x;
  column[1] = f.y;
  column[2] = f.z;
  column[3] = at.y * f.z - at.z * f.y;
  column[4] = at.z * f.x - at.x * f.z;
  column[5] = at.x * f.y - at.y * f.x;
}

FlVec
fl_cone_clip (const double *mu, FlVec f)
{
  double slide = hypot (mu[0] > 0.0 ? f.x / mu[0] : 0.0, mu[1] > 0.0 ? f.y / mu[1] : 0.0), by;

  if (f.z <= 0.0)
    return (FlVec) { 0.0, 0.0, 0.0 };
  by = slide > f.z ? f.z / slide : 1.0;
  return (FlVec) { mu[0] > 0.0 ? f.x * by : 0.0, mu[1] > 0.0 ? f.y * by : 0.0, f.z };
}
