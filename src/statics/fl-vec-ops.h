/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-vec-ops.h: arithmetic on the model's FlVec, as values. Unless said otherwise in the trailer frame: right-handed, origin on
 * the centreline at the rear edge and the level of the main deck, x forward, y to the left, z up. Metres where it is a place,
 * newtons where a force, no unit where a direction. Inline: the search lays hundreds of thousands of runs. */
#ifndef FL_VEC_OPS_H
#define FL_VEC_OPS_H

#include <glib.h>
#include <math.h>

#include "fl-statics-tolerances.h"
#include "fl-vec.h"

G_BEGIN_DECLS

/* a + b, each component by itself. */
static inline FlVec
fl_vec_add (FlVec a, FlVec b)
{
  return (FlVec) { a.x + b.x, a.y + b.y, a.z + b.z };
}

/* a - b: from the place b to the place a. */
static inline FlVec
fl_vec_sub (FlVec a, FlVec b)
{
  return (FlVec) { a.x - b.x, a.y - b.y, a.z - b.z };
}

/* a times the number s. */
static inline FlVec
fl_vec_scale (FlVec a, double s)
{
  return (FlVec) { a.x * s, a.y * s, a.z * s };
}

/* The place the share t of the way from a (t = 0) to b (t = 1). Exactly b from t = 1 on and exactly a up to t = 0, so that a cut
 * of a run at its end is its end. */
static inline FlVec
fl_vec_between (FlVec a, FlVec b, double t)
{
  if (t <= 0.0)
    return a;
  if (t >= 1.0)
    return b;
  return fl_vec_add (a, fl_vec_scale (fl_vec_sub (b, a), t));
}

/* Scalar product: |a| |b| times the cosine between them. */
static inline double
fl_vec_dot (FlVec a, FlVec b)
{
  return a.x * b.x + a.y * b.y + a.z * b.z;
}

/* Vector product by the right hand: forward x left = up. A force f at r turns about the origin by r x f. */
static inline FlVec
fl_vec_cross (FlVec a, FlVec b)
{
  return (FlVec) { a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x };
}

/* Length, in the vector's own unit; never negative. */
static inline double
fl_vec_norm (FlVec a)
{
  return sqrt (fl_vec_dot (a, a));
}

/* TRUE if all three are numbers, neither infinite nor NaN. */
static inline gboolean
fl_vec_is_finite (FlVec a)
{
  return isfinite (a.x) && isfinite (a.y) && isfinite (a.z);
}

/* TRUE if v can be a place on or about a trailer: finite, and each coordinate under FL_STATICS_FAR. The guard at the door of all
 * that lays runs: behind it no square overflows and no NaN arises. */
static inline gboolean
fl_vec_is_place (FlVec v)
{
  return fabs (v.x) < FL_STATICS_FAR && fabs (v.y) < FL_STATICS_FAR && fabs (v.z) < FL_STATICS_FAR;
}

/* The vector of length 1 along a. The zero vector where there is no direction: a is zero, not finite, or so short or long that
 * its square is no normal number (under 1e-154 or over 1e154, which no place on a trailer is). */
static inline FlVec
fl_vec_unit (FlVec a)
{
  double square = fl_vec_dot (a, a);

  if (!isnormal (square))
    return (FlVec) { 0.0, 0.0, 0.0 };
  return fl_vec_scale (a, 1.0 / sqrt (square));
}

G_END_DECLS

#endif
