/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Runs by themselves: length, angles, signs, the plane of a hinge. */
#include "fl-run.h"
#include "fl-test-random.h"

#include "fl-statics-tolerances.h"

static const double degree = G_PI / 180.0;

static const FlVec zero = { 0, 0, 0 };

/* Rectangular boxes with whole edges and a whole diagonal: 1-2-2 (3), 2-3-6 (7), 1-4-8 (9). */
static void
test_length (void)
{
  const FlVec path[] = { { 0, 0, 0 }, { 1, 2, -2 }, { 3, -1, 4 }, { 4, 3, -4 } };

  g_assert_cmpfloat (fl_run_length (path, 2), ==, 3.0);
  g_assert_cmpfloat (fl_run_length (path, 3), ==, 10.0);
  g_assert_cmpfloat (fl_run_length (path, 4), ==, 19.0);
  g_assert_cmpfloat (fl_run_length (path + 1, 2), ==, 7.0);
}

/* Direction cosines by hand: 2-3-6 over 7; and the pull goes from the machine to the anchor, here back, left and down. */
static void
test_pull (void)
{
  FlVec u = fl_run_pull ((FlVec) { 5, 1, 0.9 }, (FlVec) { 3, 4, -5.1 });

  assert_vec_near (u, ((FlVec) { -2.0 / 7.0, 3.0 / 7.0, -6.0 / 7.0 }), 1e-15);
  assert_near (fl_run_deck_angle (u), asin (6.0 / 7.0), 1e-15);
  assert_near (fl_run_plan_angle (u), atan (1.5), 1e-15);
  g_assert_true (fl_run_pulls_down (u));
  assert_near (fl_run_holds (u, (FlVec) { 1, 0, 0 }), 2.0 / 7.0, 1e-15);   /* its anchor is behind: it holds forward */
  g_assert_cmpfloat (fl_run_holds (u, (FlVec) { -1, 0, 0 }), ==, 0.0);
  g_assert_cmpfloat (fl_run_holds (u, (FlVec) { 0, 1, 0 }), ==, 0.0);
  assert_near (fl_run_holds (u, (FlVec) { 0, -1, 0 }), 3.0 / 7.0, 1e-15);  /* its anchor is left: it holds to the right */
  assert_near (fl_run_holds (u, (FlVec) { 0, 0, 1 }), 6.0 / 7.0, 1e-15);
}

/* NHVR load restraint guide (2025), case study of a 15 t loader: chains of 3500 mm, tie points 3400 mm apart along and 300 mm
 * across: angle effects 0.97 forward (rounded) and 0.086 sideways. NTC Load Restraint Guide 2018, roller: 1.5 m over a chain of
 * 2.0 m is 0.75. Both read in public copies. The height follows from the length. */
static void
test_published_angle_effects (void)
{
  double across = 0.3, along = 3.4, length = 3.5;
  FlVec loader = { -along, -across, -sqrt (length * length - along * along - across * across) };
  FlVec u = fl_run_pull (zero, loader), roller = fl_run_pull (zero, (FlVec) { -1.5, 0, -sqrt (2.0 * 2.0 - 1.5 * 1.5) });

  assert_near (fl_run_length ((FlVec[]) { zero, loader }, 2), 3.5, 1e-12);
  assert_near (fl_run_holds (u, (FlVec) { 1, 0, 0 }), 0.97, 0.005);
  assert_near (fl_run_holds (u, (FlVec) { 0, 1, 0 }), 0.086, 0.0005);
  assert_near (fl_run_holds (roller, (FlVec) { 1, 0, 0 }), 0.75, 1e-12);
}

/* The angles of a direction that was built from them, by the definition of EN 12195-1: vertical angle alpha to the load
 * platform, longitudinal angle beta_x to the long axis, cosines cos a cos b, cos a sin b, sin a. */
static void
test_angles (void)
{
  for (int a = -90; a <= 90; a += 5)
    for (int b = 0; b < 360; b += 5)
      {
        double deck = a * degree, plan = b * degree;
        FlVec u = { cos (deck) * cos (plan), cos (deck) * sin (plan), sin (deck) };
        int folded = b % 180 > 90 ? 180 - b % 180 : b % 180;

        assert_near (fl_run_deck_angle (u), ABS (a) * degree, 1e-12);
        assert_near (fl_run_deck_angle (u), asin (MIN (fabs (u.z), 1.0)), 1e-7);
        if (ABS (a) < 90)
          assert_near (fl_run_plan_angle (u), folded * degree, 1e-12);
        g_assert_cmpint (fl_run_pulls_down (u), ==, a < 0);
      }
  g_assert_cmpfloat (fl_run_plan_angle ((FlVec) { 0, 0, -1 }), ==, 0.0);
  g_assert_cmpfloat (fl_run_deck_angle ((FlVec) { 0, 0, -1 }), ==, G_PI / 2);
}

/* Level but for rounding is level. */
static void
test_level (void)
{
  g_assert_false (fl_run_pulls_down ((FlVec) { 1, 0, -1e-16 }));
  g_assert_false (fl_run_pulls_down ((FlVec) { 1, 0, 0 }));
  g_assert_true (fl_run_pulls_down ((FlVec) { 1, 0, -1e-6 }));
}

static void
test_mirror_and_half_turn (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (301);
  const FlVec d = { 1, 0, 0 }, left = { 0, 1, 0 };

  for (guint i = 0; i < 2000; i++)
    {
      FlVec p = random_place (rand, 5.0), a = random_place (rand, 5.0);
      FlVec u = fl_run_pull (p, a), m = fl_run_pull (mirrored (p), mirrored (a));
      FlVec t = fl_run_pull (half_turned (p), half_turned (a));

      assert_vec_same (m, mirrored (u));
      assert_vec_same (t, half_turned (u));
      assert_vec_near (fl_run_pull (a, p), fl_vec_scale (u, -1.0), 1e-15);
      g_assert_cmpfloat (fl_run_deck_angle (m), ==, fl_run_deck_angle (u));
      g_assert_cmpfloat (fl_run_plan_angle (t), ==, fl_run_plan_angle (u));
      g_assert_cmpfloat (fl_run_holds (m, d), ==, fl_run_holds (u, d));
      g_assert_cmpfloat (fl_run_holds (m, left), ==, fl_run_holds (u, fl_vec_scale (left, -1.0)));
      g_assert_cmpfloat (fl_run_holds (t, d), ==, fl_run_holds (u, fl_vec_scale (d, -1.0)));
    }
}

/* Inches for metres: lengths by the factor, directions as they were. Places moved together: nothing changes. */
static void
test_scale_and_shift (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (302);

  for (guint i = 0; i < 1000; i++)
    {
      const FlVec path[] = { random_place (rand, 5.0), random_place (rand, 5.0), random_place (rand, 5.0) };
      FlVec by = random_place (rand, 10.0), scaled[3], shifted[3], reversed[3];

      for (guint j = 0; j < 3; j++)
        {
          scaled[j] = fl_vec_scale (path[j], 1.0 / 0.0254);
          shifted[j] = fl_vec_add (path[j], by);
          reversed[j] = path[2 - j];
        }
      assert_near (fl_run_length (scaled, 3) * 0.0254, fl_run_length (path, 3), 1e-12);
      assert_near (fl_run_length (shifted, 3), fl_run_length (path, 3), 1e-12);
      assert_near (fl_run_length (reversed, 3), fl_run_length (path, 3), 1e-12);
      assert_vec_near (fl_run_pull (scaled[0], scaled[1]), fl_run_pull (path[0], path[1]), 1e-12);
      g_assert_cmpfloat (fl_run_length (path, 3), >=, fl_run_length ((FlVec[]) { path[0], path[2] }, 2));
    }
}

static void
test_hinge (void)
{
  const FlVec path[] = { { 3.0, 0, 1 }, { 2.5, 0.5, 0.5 }, { 2.0, 1, 0 } };

  g_assert_true (fl_run_crosses_plane (path, 3, 2.2));
  g_assert_true (fl_run_crosses_plane (path, 3, 2.5));
  g_assert_false (fl_run_crosses_plane (path, 3, 1.9));
  g_assert_false (fl_run_crosses_plane (path, 3, 3.1));
  g_assert_false (fl_run_crosses_plane (path, 3, 2.0));     /* from the hinge itself */
  g_assert_false (fl_run_crosses_plane (path, 3, 2.0009));  /* a tape measure does not tell it from the hinge */
  g_assert_true (fl_run_crosses_plane (path, 3, 2.0011));
  g_assert_false (fl_run_crosses_plane (path, 3, 2.9991));
  g_assert_true (fl_run_crosses_plane (path, 3, 2.9989));
  g_assert_true (fl_run_crosses_plane (path, 3, NAN));
  g_assert_true (fl_run_crosses_plane (path, 1, 9.0));
}

/* No NaN comes out, and what cannot be told passes for nothing good. */
static void
test_not_a_run (void)
{
  const FlVec bad[] = { { NAN, 0, 0 }, { 0, INFINITY, 0 }, { 0, 0, -INFINITY }, { 1e300, 0, 0 } };
  const FlVec here = { 1, 1, 1 };

  g_assert_cmpfloat (fl_run_length (&here, 1), ==, 0.0);
  g_assert_cmpfloat (fl_run_length (NULL, 0), ==, 0.0);
  g_assert_cmpfloat (fl_run_length ((FlVec[]) { here, here }, 2), ==, 0.0);
  assert_vec_same (fl_run_pull (here, here), zero);
  assert_vec_same (fl_run_pull (here, (FlVec) { 1, 1, 1 + FL_STATICS_POINT / 2 }), zero);
  assert_near (fl_vec_norm (fl_run_pull (here, (FlVec) { 1, 1, 1 - FL_STATICS_POINT * 2 })), 1.0, 1e-12);
  g_assert_cmpfloat (fl_run_deck_angle (zero), ==, 0.0);
  g_assert_cmpfloat (fl_run_plan_angle (zero), ==, 0.0);
  g_assert_false (fl_run_pulls_down (zero));
  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_assert_false (fl_run_is_valid ((FlVec[]) { here, bad[i] }, 2));
      g_assert_cmpfloat (fl_run_length ((FlVec[]) { here, bad[i], here }, 3), ==, 0.0);
      assert_vec_same (fl_run_pull (here, bad[i]), zero);
      assert_vec_same (fl_run_pull (bad[i], here), zero);
      g_assert_true (fl_run_crosses_plane ((FlVec[]) { here, bad[i] }, 2, 5.0));
    }
  for (guint i = 0; i < 3; i++)
    {
      g_assert_cmpfloat (fl_run_deck_angle (bad[i]), ==, 0.0);
      g_assert_cmpfloat (fl_run_plan_angle (bad[i]), ==, 0.0);
      g_assert_cmpfloat (fl_run_holds (bad[i], (FlVec) { -1, -1, 1 }), ==, 0.0);
    }
  g_assert_false (fl_run_pulls_down (bad[0]));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/statics/run/length", test_length);
  g_test_add_func ("/statics/run/pull", test_pull);
  g_test_add_func ("/statics/run/published-angle-effects", test_published_angle_effects);
  g_test_add_func ("/statics/run/angles", test_angles);
  g_test_add_func ("/statics/run/level", test_level);
  g_test_add_func ("/statics/run/mirror-and-half-turn", test_mirror_and_half_turn);
  g_test_add_func ("/statics/run/scale-and-shift", test_scale_and_shift);
  g_test_add_func ("/statics/run/hinge", test_hinge);
  g_test_add_func ("/statics/run/not-a-run", test_not_a_run);
  return g_test_run ();
}
