/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A point or direction in the trailer frame: x forward, y to the left, z up, origin on the centreline at the rear edge
 * and level of the main deck. Metres for places, newtons for forces, no unit for directions. The arithmetic is in statics. */
#ifndef FL_VEC_H
#define FL_VEC_H

typedef struct
{
  double x, y, z;
} FlVec;

/* An axis-aligned box; min <= max in each axis. */
typedef struct
{
  FlVec min, max;
} FlBox;

#endif
