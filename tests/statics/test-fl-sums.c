/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Component sums: four symmetric chains by hand, the diagonal lashings of a standard, and what must not change the answer. Other
 * published examples stand in tests/published. */
#include "fl-run.h"
#include "fl-sums.h"
#include "fl-test-random.h"

enum { MANY = 8 };

static FlPull
pull_along (FlVec u, double limit)
{
  return (FlPull) { .along = u, .limit = limit };
}

/* By the angles of EN 12195-1: alpha to the deck, beta to the long axis; the signs say to which corner it goes. */
static FlPull
corner (double alpha_deg, double beta_deg, int forward, int left, double limit)
{
  double a = alpha_deg * G_PI / 180.0, b = beta_deg * G_PI / 180.0;

  return pull_along ((FlVec) { forward * cos (a) * cos (b), left * cos (a) * sin (b), -sin (a) }, limit);
}

/* Four chains of limit T at 45 degrees both ways: each has components T/2, T/2 and T/sqrt 2 (cos 45 squared is one half), two
 * hold each way: T; all four hold down: 4 T / sqrt 2. With T = 1000 N on 4000 N: a quarter g each way. */
static void
test_four_symmetric (void)
{
  FlPull pulls[4];
  FlSums sums;

  for (guint i = 0; i < 4; i++)
    pulls[i] = corner (45, 45, i & 1 ? 1 : -1, i & 2 ? 1 : -1, 1000.0);
  sums = fl_sums_component (pulls, 4, 4000.0);
  for (guint m = FL_MOVES_FORWARD; m <= FL_MOVES_RIGHT; m++)
    {
      assert_near (sums.force[m], 1000.0, 1e-9);
      assert_near (sums.g[m], 0.25, 1e-12);
      g_assert_cmpuint (sums.holding[m], ==, 2);
    }
  assert_near (sums.force[FL_MOVES_UP], 4000.0 / sqrt (2.0), 1e-9);
  assert_near (sums.g[FL_MOVES_UP], 1.0 / sqrt (2.0), 1e-12);
  g_assert_cmpuint (sums.holding[FL_MOVES_UP], ==, 4);
  g_assert_cmpuint (sums.skipped, ==, 0);
}

/* One chain to the rear: it holds against braking and against nothing else along the deck. */
static void
test_signs (void)
{
  FlVec u = fl_run_pull ((FlVec) { 5, 0, 0.3 }, (FlVec) { 4.6, 0, 0 });  /* 3-4-5 */
  FlPull pull = pull_along (u, 500.0);
  FlSums sums = fl_sums_component (&pull, 1, 1000.0);

  assert_near (sums.force[FL_MOVES_FORWARD], 400.0, 1e-9);
  assert_near (sums.force[FL_MOVES_UP], 300.0, 1e-9);
  g_assert_cmpfloat (sums.force[FL_MOVES_REARWARD] + sums.force[FL_MOVES_LEFT] + sums.force[FL_MOVES_RIGHT], ==, 0.0);
  g_assert_cmpuint (sums.holding[FL_MOVES_FORWARD], ==, 1);
  g_assert_cmpuint (sums.holding[FL_MOVES_REARWARD] + sums.holding[FL_MOVES_LEFT] + sums.holding[FL_MOVES_RIGHT], ==, 0);
}

/* EN 12195-1:2010, diagonal lashing (the formula from memory): n identical lashings hold c without friction where
 * n LC cos alpha cos beta_x = m g c forward and with sin beta_x sideways. Limits from the formula must give back c. */
static void
test_published_diagonal (void)
{
  const struct { double m, alpha, beta; } cases[] = { { 20000, 35, 45 }, { 12000, 30, 30 }, { 30000, 45, 40 }, { 8000, 20, 20 } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      double weight = cases[i].m * 9.81, a = cases[i].alpha * G_PI / 180.0, b = cases[i].beta * G_PI / 180.0;
      double forward = weight * 0.8 / (2.0 * cos (a) * cos (b)), sideways = weight * 0.5 / (2.0 * cos (a) * sin (b));
      FlPull pulls[4];

      for (guint k = 0; k < 4; k++)
        pulls[k] = corner (cases[i].alpha, cases[i].beta, k & 1 ? 1 : -1, k & 2 ? 1 : -1, forward);
      assert_near (fl_sums_component (pulls, 4, weight).g[FL_MOVES_FORWARD], 0.8, 1e-12);
      assert_near (fl_sums_component (pulls, 4, weight).g[FL_MOVES_REARWARD], 0.8, 1e-12);
      for (guint k = 0; k < 4; k++)
        pulls[k].limit = sideways;
      assert_near (fl_sums_component (pulls, 4, weight).g[FL_MOVES_LEFT], 0.5, 1e-12);
      assert_near (fl_sums_component (pulls, 4, weight).g[FL_MOVES_RIGHT], 0.5, 1e-12);
    }
}

static void
random_pulls (GRand *rand, FlPull *pulls)
{
  for (guint i = 0; i < MANY; i++)
    pulls[i] = pull_along (random_unit (rand), g_rand_double_range (rand, 0.0, 60e3));
}

static void
assert_same_sums (FlSums a, FlSums b, const guint *as)
{
  for (guint m = 0; m < FL_N_MOVEMENTS; m++)
    {
      assert_near (a.force[m], b.force[as[m]], 1e-8);
      assert_near (a.g[m], b.g[as[m]], 1e-12);
      g_assert_cmpuint (a.holding[m], ==, b.holding[as[m]]);
    }
}

static void
test_symmetries (void)
{
  const guint same[] = { 0, 1, 2, 3, 4 }, mirror[] = { 0, 1, 3, 2, 4 }, turn[] = { 1, 0, 3, 2, 4 };
  g_autoptr(GRand) rand = g_rand_new_with_seed (501);

  for (guint i = 0; i < 500; i++)
    {
      FlPull pulls[MANY], reversed[MANY], in_mirror[MANY], turned[MANY];
      FlSums sums;

      random_pulls (rand, pulls);
      for (guint k = 0; k < MANY; k++)
        {
          reversed[k] = pulls[MANY - 1 - k];
          in_mirror[k] = pull_along (mirrored (pulls[k].along), pulls[k].limit);
          turned[k] = pull_along (half_turned (pulls[k].along), pulls[k].limit);
        }
      sums = fl_sums_component (pulls, MANY, 2e5);
      assert_same_sums (fl_sums_component (reversed, MANY, 2e5), sums, same);
      assert_same_sums (fl_sums_component (in_mirror, MANY, 2e5), sums, mirror);
      assert_same_sums (fl_sums_component (turned, MANY, 2e5), sums, turn);
    }
}

/* Limits and weight in pounds for newtons: forces by the factor, g as it was. And one more never holds less. */
static void
test_scale_and_more (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (502);
  const double pound = 4.4482216152605;

  for (guint i = 0; i < 500; i++)
    {
      FlPull pulls[MANY], scaled[MANY];
      FlSums sums, fewer, pounds;

      random_pulls (rand, pulls);
      for (guint k = 0; k < MANY; k++)
        scaled[k] = pull_along (pulls[k].along, pulls[k].limit / pound);
      sums = fl_sums_component (pulls, MANY, 2e5);
      fewer = fl_sums_component (pulls, MANY - 1, 2e5);
      pounds = fl_sums_component (scaled, MANY, 2e5 / pound);
      for (guint m = 0; m < FL_N_MOVEMENTS; m++)
        {
          assert_near (pounds.force[m] * pound, sums.force[m], 1e-8);
          assert_near (pounds.g[m], sums.g[m], 1e-12);
          g_assert_cmpfloat (sums.force[m], >=, fewer.force[m]);
        }
    }
}

/* What each way holds, taken together, is the whole: forward less rearward is minus the sum of the x components. */
static void
test_against_plain_sum (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (503);

  for (guint i = 0; i < 500; i++)
    {
      FlPull pulls[MANY];
      FlVec total = { 0, 0, 0 };
      FlSums sums;

      random_pulls (rand, pulls);
      for (guint k = 0; k < MANY; k++)
        total = fl_vec_add (total, fl_vec_scale (pulls[k].along, pulls[k].limit));
      sums = fl_sums_component (pulls, MANY, NAN);
      assert_near (sums.force[FL_MOVES_FORWARD] - sums.force[FL_MOVES_REARWARD], -total.x, 1e-8);
      assert_near (sums.force[FL_MOVES_LEFT] - sums.force[FL_MOVES_RIGHT], -total.y, 1e-8);
      g_assert_cmpfloat (sums.force[FL_MOVES_UP], >=, -total.z - 1e-8);
    }
}

static void
test_counts_for_nothing (void)
{
  const FlVec down = { 0, 0, -1 };
  const FlPull pulls[] = {
    pull_along ((FlVec) { NAN, 0, -1 }, 100), pull_along (down, NAN),   pull_along (down, INFINITY), pull_along (down, -1),
    pull_along ((FlVec) { 0, 0, 0 }, 100),    pull_along (down, 0),     pull_along ((FlVec) { -6e-17, 0, -1 }, 100),
  };
  const FlPull feather = pull_along (down, 0.01);
  const double unknown[] = { NAN, INFINITY, 0.0, -5.0 };
  FlSums sums = fl_sums_component (pulls, G_N_ELEMENTS (pulls), 200.0);

  g_assert_cmpuint (sums.skipped, ==, 4);
  g_assert_cmpuint (sums.holding[FL_MOVES_UP], ==, 1);       /* the last alone: no direction, no limit */
  g_assert_cmpuint (sums.holding[FL_MOVES_FORWARD], ==, 0);  /* cos 90 degrees in doubles is no forward pull */
  g_assert_cmpfloat (sums.force[FL_MOVES_UP], ==, 100.0);
  g_assert_cmpfloat (sums.g[FL_MOVES_UP], ==, 0.5);
  g_assert_cmpuint (fl_sums_component (&feather, 1, 1.0).holding[FL_MOVES_UP], ==, 1);
  for (guint i = 0; i < G_N_ELEMENTS (unknown); i++)
    g_assert_cmpfloat (fl_sums_component (pulls, G_N_ELEMENTS (pulls), unknown[i]).g[FL_MOVES_UP], ==, 0.0);
  g_assert_cmpfloat (fl_sums_component (NULL, 0, 200.0).force[FL_MOVES_UP], ==, 0.0);
}

static void
test_directions (void)
{
  assert_vec_same (fl_movement_direction (FL_MOVES_FORWARD), ((FlVec) { 1, 0, 0 }));
  assert_vec_same (fl_movement_direction (FL_MOVES_REARWARD), ((FlVec) { -1, 0, 0 }));
  assert_vec_same (fl_movement_direction (FL_MOVES_LEFT), ((FlVec) { 0, 1, 0 }));
  assert_vec_same (fl_movement_direction (FL_MOVES_RIGHT), ((FlVec) { 0, -1, 0 }));
  assert_vec_same (fl_movement_direction (FL_MOVES_UP), ((FlVec) { 0, 0, 1 }));
  assert_vec_same (fl_movement_direction (FL_N_MOVEMENTS), ((FlVec) { 0, 0, 0 }));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/statics/sums/four-symmetric", test_four_symmetric);
  g_test_add_func ("/statics/sums/signs", test_signs);
  g_test_add_func ("/statics/sums/published-diagonal", test_published_diagonal);
  g_test_add_func ("/statics/sums/symmetries", test_symmetries);
  g_test_add_func ("/statics/sums/scale-and-more", test_scale_and_more);
  g_test_add_func ("/statics/sums/against-plain-sum", test_against_plain_sum);
  g_test_add_func ("/statics/sums/counts-for-nothing", test_counts_for_nothing);
  g_test_add_func ("/statics/sums/directions", test_directions);
  return g_test_run ();
}
