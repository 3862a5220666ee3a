/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-cone.h: the friction cone of one contact, for the upper bound's simplex: the columns of its rim, what a motion says of it. mu: along and across;
 * at: from the center of gravity. Forces over weight, lengths over reach. A motion y is the velocity of the center of gravity and the turning,
 * and so is a column a force and its moment: their product is work. */
#ifndef FL_CONE_H
#define FL_CONE_H

#include "fl-vec-ops.h"

G_BEGIN_DECLS

/* Velocity of the place `at` in the motion y[6]. */
static inline FlVec
fl_cone_velocity (const double *y, FlVec at)
{
  return (FlVec) { y[0] + y[4] * at.z - y[5] * at.y, y[1] + y[5] * at.x - y[3] * at.z, y[2] + y[3] * at.y - y[4] * at.x };
}

/* The most work that a force of the cone with N = 1 has against the velocity: |(mu_x v.x, mu_y v.y)| - v.z. Over 0: the motion is against the
 * cone. */
static inline double
fl_cone_rate (const double *mu, FlVec velocity)
{
  double sx = mu[0] * velocity.x, sy = mu[1] * velocity.y;

  return sqrt (sx * sx + sy * sy) - velocity.z;
}

/* column[6]: the force with N = 1 on the rim, straight against the sliding but for half a step of the grid, that is `grid` slopes between level
 * and 45 degrees; upright where nothing slides. Directions are a grid so that two columns of one cone never come so close to each other that
 * a basis has no inverse, and so that there is an end of them; it costs half the square of half a step, as a share of the friction. */
void fl_cone_column (const double *mu, FlVec at, FlVec velocity, double grid, double *column);

/* f, or where it is outside of the cone the force of the same N on its rim; nothing where it pulls. */
FlVec fl_cone_clip (const double *mu, FlVec f);

G_END_DECLS

#endif
