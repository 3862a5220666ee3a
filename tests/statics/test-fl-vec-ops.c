/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Vector arithmetic: values by hand, and the identities of vector algebra over random vectors. */
#include "fl-test-random.h"

static void
test_by_hand (void)
{
  FlVec a = { 2.0, 3.0, 6.0 }, b = { 1.0, -1.0, 0.5 };
  FlVec sum = fl_vec_add (a, b), difference = fl_vec_sub (a, b), triple = fl_vec_scale (a, 3.0);

  g_assert_true (sum.x == 3.0 && sum.y == 2.0 && sum.z == 6.5);
  g_assert_true (difference.x == 1.0 && difference.y == 4.0 && difference.z == 5.5);
  g_assert_true (triple.x == 6.0 && triple.y == 9.0 && triple.z == 18.0);
  g_assert_cmpfloat (fl_vec_dot (a, b), ==, 2.0 - 3.0 + 3.0);
  g_assert_cmpfloat (fl_vec_norm (a), ==, 7.0);  /* 4 + 9 + 36 = 49 */
  assert_vec_near (fl_vec_unit (a), ((FlVec) { 2.0 / 7.0, 3.0 / 7.0, 6.0 / 7.0 }), 1e-15);
}

/* Forward x left = up, and round: the frame is right-handed. */
static void
test_right_handed (void)
{
  FlVec x = { 1, 0, 0 }, y = { 0, 1, 0 }, z = { 0, 0, 1 };

  assert_vec_same (fl_vec_cross (x, y), z);
  assert_vec_same (fl_vec_cross (y, z), x);
  assert_vec_same (fl_vec_cross (z, x), y);
}

static void
test_identities (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (101);

  for (guint i = 0; i < 2000; i++)
    {
      FlVec a = random_place (rand, 20.0), b = random_place (rand, 20.0), c = fl_vec_cross (a, b);
      double aa = fl_vec_dot (a, a), bb = fl_vec_dot (b, b), ab = fl_vec_dot (a, b);

      assert_near (fl_vec_dot (c, a), 0.0, 1e-9);
      assert_near (fl_vec_dot (c, b), 0.0, 1e-9);
      assert_near (fl_vec_dot (c, c), aa * bb - ab * ab, 1e-8);  /* Lagrange's identity */
      assert_near (fl_vec_norm (fl_vec_unit (a)), 1.0, 1e-15);
      assert_vec_near (fl_vec_scale (fl_vec_unit (a), fl_vec_norm (a)), a, 1e-13);
    }
}

/* The ends are themselves, to the last bit. */
static void
test_between (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (102);

  for (guint i = 0; i < 500; i++)
    {
      FlVec a = random_place (rand, 20.0), b = random_place (rand, 20.0), middle = fl_vec_between (a, b, 0.5);

      assert_vec_same (fl_vec_between (a, b, 0.0), a);
      assert_vec_same (fl_vec_between (a, b, -3.0), a);
      assert_vec_same (fl_vec_between (a, b, 1.0), b);
      assert_vec_same (fl_vec_between (a, b, 7.0), b);
      assert_vec_near (fl_vec_scale (middle, 2.0), fl_vec_add (a, b), 1e-14);
    }
}

static void
test_no_direction (void)
{
  const FlVec without[] = { { 0, 0, 0 },          { NAN, 1, 1 },     { 1, INFINITY, 1 }, { 1, 1, -INFINITY },
                            { 1e-200, 0, 1e-200 }, { 1e200, 1, 1e200 } };

  for (guint i = 0; i < G_N_ELEMENTS (without); i++)
    assert_vec_same (fl_vec_unit (without[i]), ((FlVec) { 0, 0, 0 }));
}

static void
test_guards (void)
{
  const double bad[] = { NAN, INFINITY, -INFINITY };

  g_assert_true (fl_vec_is_finite ((FlVec) { 1, -2, 1e300 }));
  g_assert_true (fl_vec_is_place ((FlVec) { 9.9e6, -9.9e6, 0 }));
  g_assert_false (fl_vec_is_place ((FlVec) { 0, 1e7, 0 }));
  g_assert_false (fl_vec_is_place ((FlVec) { -1e7, 0, 0 }));
  g_assert_false (fl_vec_is_place ((FlVec) { 0, 0, 1e7 }));
  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      const FlVec v[] = { { bad[i], 0, 0 }, { 0, bad[i], 0 }, { 0, 0, bad[i] } };

      for (guint j = 0; j < 3; j++)
        {
          g_assert_false (fl_vec_is_finite (v[j]));
          g_assert_false (fl_vec_is_place (v[j]));
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/statics/vec/by-hand", test_by_hand);
  g_test_add_func ("/statics/vec/right-handed", test_right_handed);
  g_test_add_func ("/statics/vec/identities", test_identities);
  g_test_add_func ("/statics/vec/between", test_between);
  g_test_add_func ("/statics/vec/no-direction", test_no_direction);
  g_test_add_func ("/statics/vec/guards", test_guards);
  return g_test_run ();
}
