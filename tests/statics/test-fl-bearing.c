/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How a load bears on the deck and the most on a stretch of it: the footings of the handbooks by hand, SciPy's answers (axle-oracle.inc), balance
 * over random machines, and what has no answer. */
#include "fl-bearing.h"
#include "fl-test-axles.h"
#include "fl-test-random.h"

static const FlRect track = { 0.0, 6.0, -0.3, 0.3 };

/* A footing of 6 m under 60 kN (any textbook of soil mechanics): even in the middle; a trapezoid 10 (1 +- 6 e / L) off it; at a sixth of the
 * length a triangle over all; beyond, a triangle of three times the distance to the edge with 2 P / (3 a) at its end. */
static void
test_footing (void)
{
  static const struct { double cg, x0, x1, at0, at1; } cases[] = {
    { 3.0, 0, 6, 10e3, 10e3 }, { 3.5, 0, 6, 5e3, 15e3 }, { 2.5, 0, 6, 15e3, 5e3 }, { 4.0, 0, 6, 0, 20e3 }, { 5.0, 3, 6, 0, 40e3 }, { 0.5, 0, 1.5, 80e3, 0 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      FlBearing b;

      g_assert_true (fl_bearing_share (&track, 1, 60e3, cases[i].cg, &b));
      assert_near (b.x0, cases[i].x0, 1e-6);
      assert_near (b.x1, cases[i].x1, 1e-6);
      assert_near (b.at0, cases[i].at0, 0.05);
      assert_near (b.at1, cases[i].at1, 0.05);
      assert_near (fl_bearing_between (&b, 1, -1, 7), 60e3, 1e-3);
    }
}

/* Two places to stand on: the lever rule, whatever stands at each. 120 kN at 1 m of 4: 90 and 30; two wheels and one drum. */
static void
test_lever (void)
{
  const FlRect wheels[] = { { 0, 0, 0.8, 1.2 }, { 0, 0, -1.2, -0.8 }, { 4, 4, -1, 1 } };
  FlBearing b[3];

  g_assert_true (fl_bearing_share (wheels, 3, 120e3, 1.0, b));
  assert_near (b[0].at0, 45e3, 1e-6);
  assert_near (b[1].at0, 45e3, 1e-6);
  assert_near (b[2].at0, 30e3, 1e-6);
  assert_near (fl_bearing_most (b, 3, 3.9, NULL), 90e3, 1e-6);
  assert_near (fl_bearing_most (b, 3, 4.0, NULL), 120e3, 1e-6);
}

/* Three axles alike at 0, 2 and 4 on equal springs, 90 kN at 2.5: a third each, and 90 * 0.5 / 8 for each metre from the middle. */
static void
test_three_axles (void)
{
  const FlRect wheels[] = { { 0, 0, 0, 0 }, { 2, 2, 0, 0 }, { 4, 4, 0, 0 } };
  FlBearing b[3];

  g_assert_true (fl_bearing_share (wheels, 3, 90e3, 2.5, b));
  assert_near (b[0].at0, 30e3 - 2 * 5.625e3, 1e-6);
  assert_near (b[1].at0, 30e3, 1e-6);
  assert_near (b[2].at0, 30e3 + 2 * 5.625e3, 1e-6);
  g_assert_true (fl_bearing_share (wheels, 3, 90e3, 3.9, b));    /* the first lifts; the lever rule is left */
  assert_near (b[0].at0, 0.0, 1e-6);
  assert_near (b[1].at0, 4.5e3, 1e-6);
  assert_near (b[2].at0, 85.5e3, 1e-6);
}

/* The window over 10 kN/m: its length; over a triangle from 0 to 20 kN/m the last 3 m, (10 + 20) / 2 * 3; a window longer than all: all. */
static void
test_window (void)
{
  FlBearing even = { 0, 6, 10e3, 10e3 }, triangle = { 0, 6, 0, 20e3 }, tent[] = { { 0, 3, 0, 20e3 }, { 3, 6, 20e3, 0 } };
  double x0 = NAN;

  assert_near (fl_bearing_most (&even, 1, 3.0, NULL), 30e3, 1e-6);
  assert_near (fl_bearing_most (&triangle, 1, 3.0, &x0), 45e3, 1e-6);
  assert_near (x0, 3.0, 1e-9);
  assert_near (fl_bearing_most (&triangle, 1, 8.0, NULL), 60e3, 1e-6);
  assert_near (fl_bearing_most (tent, 2, 3.0, &x0), 45e3, 1e-6); /* in the middle, where no end of it meets an edge: 60 less 2 * 7.5 */
  assert_near (x0, 1.5, 1e-6);
}

/* A center of gravity over or beyond the outermost edge puts all of it there. */
static void
test_beyond (void)
{
  const FlRect two[] = { { 0, 2, 0, 0 }, { 5, 6, 0, 0 } };
  FlBearing b[2];

  g_assert_true (fl_bearing_share (two, 2, 10e3, 7.5, b));
  assert_near (fl_bearing_between (b, 2, 6.0, 6.0), 10e3, 1e-9);
  assert_near (fl_bearing_most (b, 2, 0.01, NULL), 10e3, 1e-9);
  g_assert_true (fl_bearing_share (two, 2, 10e3, -0.1, b));
  assert_near (fl_bearing_between (b, 2, 0.0, 0.0), 10e3, 1e-9);
}

static void
test_oracle (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (bearing_cases); i++)
    {
      const BearingCase *c = &bearing_cases[i];
      FlBearing b[4];

      g_assert_true (fl_bearing_share (c->rects, c->n, c->weight, c->cg, b));
      for (gsize k = 0; k < c->n; k++)
        assert_near (fl_bearing_between (&b[k], 1, -100, 100), c->on[k], 1e-4 * c->weight);
      assert_near (fl_bearing_most (b, c->n, c->span, NULL), c->most, 1e-3 * c->weight);
    }
}

/* Force and moment, no pulling, and no stretch found by chance that carries more than the worst; the other way round the same. */
static void
test_balance (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (611);

  for (guint i = 0; i < 2000; i++)
    {
      FlRect rects[5], back[5];
      FlBearing b[5], c[5];
      gsize n = (gsize) g_rand_int_range (rand, 1, 6);
      double weight = g_rand_double_range (rand, 1e3, 3e5), cg = g_rand_double_range (rand, -1, 9), sum = 0, turn = 0, most, first, last, span;

      for (gsize k = 0; k < n; k++)
        {
          double x = g_rand_double_range (rand, 0, 7), length = g_rand_boolean (rand) ? g_rand_double_range (rand, 0.1, 3) : 0.0;

          rects[k] = (FlRect) { x, x + length, -0.5, 0.5 };
          back[k] = (FlRect) { -x - length, -x, -0.5, 0.5 };
        }
      g_assert_true (fl_bearing_share (rects, n, weight, cg, b) && fl_bearing_share (back, n, weight, -cg, c));
      fl_rects_extent_x (rects, n, &first, &last);
      for (gsize k = 0; k < n; k++)
        {
          double length = b[k].x1 - b[k].x0, load = length > 1e-6 ? (b[k].at0 + b[k].at1) / 2 * length : b[k].at0;

          g_assert_true (b[k].at0 >= 0.0 && b[k].at1 >= 0.0);
          sum += load;
          turn += load * b[k].x0 + (length > 1e-6 ? length * length * (b[k].at0 + 2 * b[k].at1) / 6 : 0.0);
        }
      assert_near (sum, weight, 1e-5 * weight);
      assert_near (turn, weight * CLAMP (cg, first, last), 2e-5 * weight * 10);
      span = g_rand_double_range (rand, 0.1, 8);
      most = fl_bearing_most (b, n, span, NULL);
      assert_near (fl_bearing_most (c, n, span, NULL), most, 1e-4 * weight);
      for (guint k = 0; k < 20; k++)
        {
          double x0 = g_rand_double_range (rand, -8, 9);

          g_assert_cmpfloat (fl_bearing_between (b, n, x0, x0 + span), <=, most + 1e-6 * weight);
        }
    }
}

static void
test_refused (void)
{
  FlRect bad = { NAN, 1, 0, 1 };
  FlBearing b = { 7, 7, 7, 7 };

  g_assert_false (fl_bearing_share (NULL, 0, 1e3, 1.0, &b));
  g_assert_false (fl_bearing_share (&bad, 1, 1e3, 1.0, &b));
  g_assert_false (fl_bearing_share (&track, 1, NAN, 1.0, &b));
  g_assert_false (fl_bearing_share (&track, 1, -1.0, 1.0, &b));
  g_assert_false (fl_bearing_share (&track, 1, 1e3, INFINITY, &b));
  g_assert_cmpfloat (b.x0, ==, 7);
  g_assert_cmpfloat (fl_bearing_most (NULL, 0, 1.0, NULL), ==, 0.0);
  g_assert_cmpfloat (fl_bearing_most (&b, 1, 0.0, NULL), ==, 0.0);
  g_assert_cmpfloat (fl_bearing_most (&b, 1, NAN, NULL), ==, 0.0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/statics/bearing/footing", test_footing);
  g_test_add_func ("/statics/bearing/lever", test_lever);
  g_test_add_func ("/statics/bearing/three-axles", test_three_axles);
  g_test_add_func ("/statics/bearing/window", test_window);
  g_test_add_func ("/statics/bearing/beyond-the-edge", test_beyond);
  g_test_add_func ("/statics/bearing/oracle", test_oracle);
  g_test_add_func ("/statics/bearing/balance", test_balance);
  g_test_add_func ("/statics/bearing/refused", test_refused);
  return g_test_run ();
}
