/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The paper method with friction: hand calculations, what must not change the answer, what counts for nothing. The published examples stand
 * in tests/published. */
#include "fl-paper.h"
#include "fl-sums.h"
#include "fl-test-random.h"

enum { MANY = 8 };

static const FlVec forward = { 1, 0, 0 }, left = { 0, 1, 0 };

/* One chain 3-4-5 to the rear, limit 500: 400 back and 300 down. On 1000 N with mu 0.5 it holds 400 + 0.5 * 300, and the weight 500. */
static void
test_sliding_by_hand (void)
{
  const FlPull pull = { .along = { -0.8, 0, -0.6 }, .limit = 500 };
  FlPaperSliding s = fl_paper_sliding (&pull, 1, forward, 1000, (FlPaperDemand) { 0.8, 1, 0.5, 1 });

  assert_near (s.need, 800, 1e-9);
  assert_near (s.weight, 500, 1e-9);
  assert_near (s.ties, 550, 1e-9);
  assert_near (s.g, 1.05, 1e-12);
  g_assert_cmpuint (s.holding, ==, 1);
  s = fl_paper_sliding (&pull, 1, (FlVec) { -1, 0, 0 }, 1000, (FlPaperDemand) { 0.5, 1, 0.5, 1 });
  g_assert_cmpfloat (s.ties, ==, 0);    /* it goes slack: its downward part holds nothing either */
  g_assert_cmpuint (s.holding, ==, 0);
  s = fl_paper_sliding (&pull, 1, forward, 1000, (FlPaperDemand) { 0.8, 0.5, 0.5, 1.1 });
  assert_near (s.weight, 250, 1e-9);
  assert_near (s.ties, 500, 1e-9);
}

/* A chain that pulls up takes its part off what friction has: 400 - 0.5 * 300. */
static void
test_sliding_upward (void)
{
  const FlPull pull = { .along = { -0.8, 0, 0.6 }, .limit = 500 };

  assert_near (fl_paper_sliding (&pull, 1, forward, 1000, (FlPaperDemand) { 0.8, 1, 0.5, 1 }).ties, 250, 1e-9);
}

/* A strap straight over: its legs cancel along the deck, so as a direct tie-down it holds nothing. */
static void
test_legs_together (void)
{
  const FlPull legs[] = { { .along = { 0, 0.6, -0.8 }, .limit = 500, .tie = 3 }, { .along = { 0, -0.6, -0.8 }, .limit = 400, .tie = 3 } };
  FlPaperTipping t;

  g_assert_cmpuint (fl_paper_sliding (legs, 2, left, 1000, (FlPaperDemand) { 0.5, 1, 0.5, 1 }).holding, ==, 0);
  /* At y +1 and -1, 2 m up, the edge at y 1: the far leg on the arm 2 with 0.8, the horizontal parts cancel; the lesser limit. */
  t = fl_paper_tipping ((FlPull[]) { { .at = { 0, 1, 2 }, .along = legs[0].along, .limit = 500, .tie = 3 },
                                     { .at = { 0, -1, 2 }, .along = legs[1].along, .limit = 400, .tie = 3 } },
                        2, left, 1000, (FlVec) { 0, 0, 1 }, (FlVec) { 0, 1, 0 }, (FlPaperDemand) { 0.5, 1, 0, 1 });
  assert_near (t.ties, 400 * 0.8 * 2, 1e-9);
  g_assert_cmpuint (t.holding, ==, 1);
}

/* 1000 N, center of gravity 2 m up and 1 m behind the edge: 0.5 g alone. A chain 3-4-5 from 1.5 m up and 2 m behind it, limit 100:
 * lever 0.8 * 1.5 + 0.6 * 2 = 2.4 m. */
static void
test_tipping_by_hand (void)
{
  const FlPull pull = { .at = { -2, 0, 1.5 }, .along = { -0.8, 0, -0.6 }, .limit = 100 };
  const FlVec cg = { -1, 0, 2 }, edge = { 0, 0, 0 };
  FlPaperTipping t = fl_paper_tipping (NULL, 0, forward, 1000, cg, edge, (FlPaperDemand) { 0.8, 1, 0, 1 });

  assert_near (t.overturning, 1600, 1e-9);
  assert_near (t.weight, 1000, 1e-9);
  assert_near (t.g, 0.5, 1e-12);
  t = fl_paper_tipping (NULL, 0, forward, 1000, cg, edge, (FlPaperDemand) { 0.8, 0.7, 0, 1 });
  assert_near (t.weight, 700, 1e-9);    /* lifted by three tenths */
  assert_near (t.g, 0.35, 1e-12);
  t = fl_paper_tipping (&pull, 1, forward, 1000, cg, edge, (FlPaperDemand) { 0.8, 1, 0, 1 });
  assert_near (t.ties, 240, 1e-9);
  assert_near (t.g, 0.62, 1e-12);
  g_assert_cmpfloat (fl_paper_tipping (NULL, 0, forward, 1000, edge, edge, (FlPaperDemand) { 0.8, 1, 0, 1 }).g, ==, INFINITY);
  /* In front of the edge it would pull the load over. */
  t = fl_paper_tipping ((FlPull[]) { { .at = { -1, 0, 1 }, .along = { 0.8, 0, -0.6 }, .limit = 100 } }, 1, forward, 1000, cg, edge,
                        (FlPaperDemand) { 0.8, 1, 0, 1 });
  g_assert_cmpuint (t.holding, ==, 0);
}

/* 10,000 N, 0.5 wanted, mu 0.3: 2000 left. Each strap of 2500 upright adds 2 * 0.3 * 2500 = 1500; 1.1 times more are needed. */
static void
test_over_by_hand (void)
{
  const FlPaperDemand d = { 0.5, 1, 0.3, 1.1 };

  assert_near (fl_paper_left_over (10000, d), 2000, 1e-9);
  assert_near (fl_paper_over_friction (1, 2500, d), 1500 / 1.1, 1e-9);
  assert_near (fl_paper_over_sliding (10000, 1, 2500, d), 2000 * 1.1 / 1500, 1e-12);
  g_assert_cmpfloat (fl_paper_left_over (10000, (FlPaperDemand) { 0.3, 1, 0.4, 1 }), ==, 0);
  g_assert_cmpfloat (fl_paper_over_sliding (10000, 1, 2500, (FlPaperDemand) { 0.3, 1, 0.4, 1 }), ==, 0);
  g_assert_cmpfloat (fl_paper_over_sliding (10000, 1, 2500, (FlPaperDemand) { 0.3, 1, 0, 1 }), ==, INFINITY);
  /* 10,000 N, d 2, b 0.5, c 0.5: 5000 Nm over; a leg of 1000 on 2 m: 2.5 of them. */
  assert_near (fl_paper_over_tipping (10000, 2, 0.5, 2, 1, 1000, (FlPaperDemand) { 0.5, 1, 0, 1 }), 2.5, 1e-12);
  assert_near (fl_paper_over_tipping (10000, 2, 0.5, 2, 1, 1000, (FlPaperDemand) { 0.5, 0.6, 0, 1 }), 3.5, 1e-12);
  g_assert_cmpfloat (fl_paper_over_tipping (10000, 1, 0.5, 2, 1, 1000, (FlPaperDemand) { 0.5, 1, 0, 1 }), ==, 0);
}

static void
random_pulls (GRand *rand, FlPull *pulls)
{
  for (guint i = 0; i < MANY; i++)
    pulls[i] = (FlPull) { .at = random_place (rand, 3), .along = random_unit (rand), .limit = g_rand_double_range (rand, 0, 60e3),
                          .tie = (guint) g_rand_int_range (rand, 0, 4) };
}

/* Without friction it is the component sum, each pull by itself. */
static void
test_is_the_sum (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (601);

  for (guint i = 0; i < 500; i++)
    {
      FlPull pulls[MANY];
      FlSums sums;

      random_pulls (rand, pulls);
      for (guint k = 0; k < MANY; k++)
        pulls[k].tie = 0;
      sums = fl_sums_component (pulls, MANY, 2e5);
      for (guint m = 0; m < FL_MOVES_UP; m++)
        {
          FlPaperSliding s = fl_paper_sliding (pulls, MANY, fl_movement_direction (m), 2e5, (FlPaperDemand) { 0.5, 1, 0, 1 });

          assert_near (s.ties, sums.force[m], 1e-8);
          assert_near (s.g, sums.g[m], 1e-12);
          g_assert_cmpuint (s.holding, ==, sums.holding[m]);
        }
    }
}

/* Mirror, half turn, order, and twice the limits on twice the weight. */
static void
test_symmetries (void)
{
  const FlPaperDemand d = { 0.5, 1, 0.3, 1.1 };
  g_autoptr(GRand) rand = g_rand_new_with_seed (602);

  for (guint i = 0; i < 500; i++)
    {
      FlPull pulls[MANY], other[3][MANY];
      FlVec cg = random_place (rand, 2), edge = random_place (rand, 2), right = { 0, -1, 0 };
      FlPaperSliding s;
      FlPaperTipping t;

      random_pulls (rand, pulls);
      for (guint k = 0; k < MANY; k++)
        {
          other[0][k] = other[1][k] = pulls[k];
          other[2][k] = pulls[MANY - 1 - k];
          other[0][k].at = mirrored (pulls[k].at);
          other[0][k].along = mirrored (pulls[k].along);
          other[1][k].at = half_turned (pulls[k].at);
          other[1][k].along = half_turned (pulls[k].along);
        }
      s = fl_paper_sliding (pulls, MANY, left, 2e5, d);
      t = fl_paper_tipping (pulls, MANY, left, 2e5, cg, edge, d);
      assert_near (fl_paper_sliding (other[0], MANY, right, 2e5, d).g, s.g, 1e-9);
      assert_near (fl_paper_sliding (other[1], MANY, right, 2e5, d).g, s.g, 1e-9);
      assert_near (fl_paper_sliding (other[2], MANY, left, 2e5, d).g, s.g, 1e-9);
      assert_near (fl_paper_tipping (other[0], MANY, right, 2e5, mirrored (cg), mirrored (edge), d).ties, t.ties, 1e-6);
      assert_near (fl_paper_tipping (other[1], MANY, right, 2e5, half_turned (cg), half_turned (edge), d).ties, t.ties, 1e-6);
      assert_near (fl_paper_tipping (other[2], MANY, left, 2e5, cg, edge, d).ties, t.ties, 1e-6);
      for (guint k = 0; k < MANY; k++)
        other[2][k].limit *= 2;
      assert_near (fl_paper_sliding (other[2], MANY, left, 4e5, d).g, s.g, 1e-9);
    }
}

/* What is not finite is named and left out, with all its legs; nothing becomes a zero that means "nothing needed". */
static void
test_counts_for_nothing (void)
{
  const FlVec back = { -1, 0, 0 };
  const FlPull pulls[] = {
    { .along = { NAN, 0, -1 }, .limit = 100 }, { .along = back, .limit = NAN }, { .along = back, .limit = INFINITY },
    { .along = back, .limit = -1 }, { .along = back, .limit = 0 },
    { .along = back, .limit = 100, .tie = 7 }, { .along = { -1, 0, NAN }, .limit = 100, .tie = 7 },
  };
  const FlPaperDemand d = { 0.5, 1, 0.3, 1 }, bad = { 0.5, 1, NAN, 1 };
  FlPaperSliding s = fl_paper_sliding (pulls, G_N_ELEMENTS (pulls), forward, 1000, d);

  g_assert_cmpuint (s.skipped, ==, 5);
  g_assert_cmpuint (s.holding, ==, 0);
  g_assert_cmpfloat (s.ties, ==, 0);
  g_assert_cmpuint (fl_paper_tipping (pulls, G_N_ELEMENTS (pulls), forward, 1000, (FlVec) { 0, 0, 1 }, (FlVec) { 0, 0, 0 }, d).skipped, ==, 5);
  g_assert_cmpfloat (fl_paper_sliding (NULL, 0, forward, NAN, d).g, ==, 0);
  g_assert_true (isnan (fl_paper_left_over (1000, bad)));
  g_assert_true (isnan (fl_paper_left_over (NAN, d)));
  g_assert_false (fl_paper_over_sliding (1000, 1, 100, bad) <= 1e9);
  g_assert_false (fl_paper_over_sliding (1000, NAN, 100, d) <= 1e9);
  g_assert_false (fl_paper_over_tipping (1000, NAN, 1, 1, 1, 100, d) <= 1e9);
  assert_near (fl_paper_over_friction (1, 100, (FlPaperDemand) { 0.5, 1, 0.3, 0 }), 60, 1e-12);     /* no factor: one */
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/statics/paper/sliding-by-hand", test_sliding_by_hand);
  g_test_add_func ("/statics/paper/sliding-upward", test_sliding_upward);
  g_test_add_func ("/statics/paper/legs-together", test_legs_together);
  g_test_add_func ("/statics/paper/tipping-by-hand", test_tipping_by_hand);
  g_test_add_func ("/statics/paper/over-by-hand", test_over_by_hand);
  g_test_add_func ("/statics/paper/is-the-sum", test_is_the_sum);
  g_test_add_func ("/statics/paper/symmetries", test_symmetries);
  g_test_add_func ("/statics/paper/counts-for-nothing", test_counts_for_nothing);
  return g_test_run ();
}
