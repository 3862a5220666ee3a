/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-test-random.h: seeded random places and directions for the property tests of statics. Same numbers on every run. */
#ifndef FL_TEST_RANDOM_H
#define FL_TEST_RANDOM_H

#include "fl-box.h"
#include "fl-vec-ops.h"

static inline FlVec
random_place (GRand *rand, double reach)
{
  double x = g_rand_double_range (rand, -reach, reach), y = g_rand_double_range (rand, -reach, reach);

  return (FlVec) { x, y, g_rand_double_range (rand, -reach, reach) };
}

static inline FlVec
random_unit (GRand *rand)
{
  FlVec v;

  do
    v = random_place (rand, 1.0);
  while (fl_vec_norm (v) > 1.0 || fl_vec_norm (v) < 0.1);
  return fl_vec_unit (v);
}

static inline FlBox
random_box (GRand *rand, double reach)
{
  FlVec a = random_place (rand, reach), b = random_place (rand, reach);

  return fl_box_spanning (a, b);
}

static inline FlVec
mirrored (FlVec v)
{
  return (FlVec) { v.x, -v.y, v.z };
}

static inline FlVec
half_turned (FlVec v)
{
  return (FlVec) { -v.x, -v.y, v.z };
}

/* Nearer than the tolerance; never true for a NaN. */
#define assert_near(a, b, tolerance) g_assert_cmpfloat_with_epsilon (a, b, tolerance)

/* To the last bit. */
#define assert_vec_same(a, b) \
  G_STMT_START { \
    g_assert_cmpfloat ((a).x, ==, (b).x); \
    g_assert_cmpfloat ((a).y, ==, (b).y); \
    g_assert_cmpfloat ((a).z, ==, (b).z); \
  } G_STMT_END

#define assert_vec_near(a, b, tolerance) \
  G_STMT_START { \
    assert_near ((a).x, (b).x, tolerance); \
    assert_near ((a).y, (b).y, tolerance); \
    assert_near ((a).z, (b).z, tolerance); \
  } G_STMT_END

#endif
