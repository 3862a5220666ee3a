/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What runs touch: distances between runs, boxes in the way, bends over the deck's edge. Values by hand, brute force by
 * sampling, and the answers of SciPy's general solvers (oracle.inc). */
#include "fl-edge.h"
#include "fl-run.h"
#include "fl-statics-tolerances.h"
#include "fl-test-oracle.h"
#include "fl-test-random.h"

enum { SAMPLES = 60 };

/* ── distances ── */

/* Two crossing lines a unit apart in height; side by side; in one line with a gap of 2; end against side (3-4-5); crossing. */
static void
test_distance_by_hand (void)
{
  const struct { FlVec a0, a1, b0, b1; double distance; } cases[] = {
    { { -1, 0, 0 }, { 1, 0, 0 }, { 0, -1, 1 }, { 0, 1, 1 }, 1.0 },
    { { 0, 0, 0 }, { 4, 0, 0 }, { 1, 2, 0 }, { 3, 2, 0 }, 2.0 },
    { { 0, 0, 0 }, { 1, 0, 0 }, { 3, 0, 0 }, { 5, 0, 0 }, 2.0 },
    { { 0, 0, 0 }, { 1, 0, 0 }, { 4, 4, 0 }, { 4, 9, 0 }, 5.0 },
    { { -1, -1, 0 }, { 1, 1, 0 }, { -1, 1, 0 }, { 1, -1, 0 }, 0.0 },
    { { 0, 0, 0 }, { 4, 0, 0 }, { 2, 0, 0 }, { 6, 0, 0 }, 0.0 },
    { { 1, 2, 2 }, { 1, 2, 2 }, { 0, 0, 0 }, { 0, 0, 0 }, 3.0 },
    { { 0, 0, 0 }, { 10, 0, 0 }, { 5, 3, 4 }, { 5, 3, 4 }, 5.0 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      assert_near (fl_segment_distance (cases[i].a0, cases[i].a1, cases[i].b0, cases[i].b1), cases[i].distance, 1e-15);
      assert_near (fl_segment_distance (cases[i].b1, cases[i].b0, cases[i].a0, cases[i].a1), cases[i].distance, 1e-15);
    }
}

static void
test_distance_oracle (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (segment_cases); i++)
    {
      const SegmentCase *c = &segment_cases[i];

      assert_near (fl_segment_distance (c->a0, c->a1, c->b0, c->b1), c->distance, 1e-7);
    }
}

/* No pair of sampled places is nearer, and the nearest sample is nearer than the answer plus what the grid can miss. */
static void
test_distance_sampled (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (401);

  for (guint i = 0; i < 200; i++)
    {
      FlVec a0 = random_place (rand, 2.0), a1 = random_place (rand, 2.0), b0 = random_place (rand, 2.0), b1;
      double distance, nearest = INFINITY, missed;

      b1 = i % 3 == 0 ? fl_vec_add (b0, fl_vec_sub (a1, a0)) : random_place (rand, 2.0);  /* some parallel */
      distance = fl_segment_distance (a0, a1, b0, b1);
      missed = (fl_vec_norm (fl_vec_sub (a1, a0)) + fl_vec_norm (fl_vec_sub (b1, b0))) / (2.0 * SAMPLES);
      for (guint s = 0; s <= SAMPLES; s++)
        for (guint t = 0; t <= SAMPLES; t++)
          {
            FlVec p = fl_vec_between (a0, a1, s / (double) SAMPLES), q = fl_vec_between (b0, b1, t / (double) SAMPLES);

            nearest = MIN (nearest, fl_vec_norm (fl_vec_sub (p, q)));
          }
      g_assert_cmpfloat (nearest, >=, distance - 1e-12);
      g_assert_cmpfloat (nearest, <=, distance + missed);
    }
}

/* Cuts a path by hand, for comparison: two pieces of equal length with a bend in the middle. */
static void
test_run_distance (void)
{
  const FlVec a[] = { { 0, 0, 0 }, { 3, 0, 0 }, { 3, 3, 0 } };       /* an angle */
  const FlVec b[] = { { 0, 0, 0 }, { 0, 4, 0 } };                     /* from the same anchor, straight */
  const FlVec c[] = { { 1, 1, 2 }, { 5, 1, 2 } };                     /* over it, 2 higher */
  const FlVec d[] = { { 3, 3, 1 }, { 3, 9, 1 } }, e[] = { { -5, 0, 0 }, { 1, 0, 0 } };  /* beyond its last and first place */

  g_assert_cmpfloat (fl_run_distance (a, 3, b, 2, 0.0), ==, 0.0);
  assert_near (fl_run_distance (a, 3, b, 2, 0.5), sqrt (0.5), 1e-15);  /* (0.5, 0, 0) and (0, 0.5, 0) */
  assert_near (fl_run_distance (a, 3, b, 2, 1.0), sqrt (2.0), 1e-15);
  assert_near (fl_run_distance (a, 3, c, 2, 0.0), 2.0, 1e-15);
  assert_near (fl_run_distance (c, 2, a, 3, 0.0), 2.0, 1e-15);
  g_assert_true (isinf (fl_run_distance (a, 3, b, 2, 2.5)));           /* nothing left of b */
  assert_near (fl_run_distance (a, 3, b, 2, 2.0), sqrt (8.0), 1e-15);  /* its middle alone: (0, 2, 0) and (2, 0, 0) */
  assert_near (fl_run_distance (a, 3, d, 2, 1.0), sqrt (5.0), 1e-15);  /* (3, 2, 0) and (3, 4, 1) */
  assert_near (fl_run_distance (a, 3, e, 2, 1.0), 1.0, 1e-15);         /* (1, 0, 0) and (0, 0, 0) */
  g_assert_cmpfloat (fl_run_distance (a, 3, b, 2, -1.0), ==, 0.0);
  g_assert_cmpfloat (fl_run_distance (a, 3, b, 2, NAN), ==, 0.0);
}

static void
test_distance_unknown (void)
{
  const FlVec far[] = { { 50, 0, 0 }, { 60, 0, 0 } }, near[] = { { 0, 0, 0 }, { 1, 0, 0 } };
  const FlVec unknown[] = { { 0, 0, 0 }, { 0, NAN, 0 } };

  assert_near (fl_run_distance (far, 2, near, 2, 0.0), 49.0, 1e-12);
  g_assert_cmpfloat (fl_run_distance (far, 2, unknown, 2, 0.0), ==, 0.0);
  g_assert_cmpfloat (fl_run_distance (unknown, 2, far, 2, 0.0), ==, 0.0);
  g_assert_cmpfloat (fl_run_distance (far, 1, near, 2, 0.0), ==, 0.0);
  g_assert_cmpfloat (fl_segment_distance (far[0], far[1], unknown[0], unknown[1]), ==, 0.0);
  g_assert_cmpfloat (fl_segment_distance (unknown[1], far[1], near[0], near[1]), ==, 0.0);
  g_assert_cmpfloat (fl_segment_distance (near[0], near[1], unknown[1], far[1]), ==, 0.0);
  g_assert_cmpfloat (fl_segment_distance (near[0], unknown[1], far[0], far[1]), ==, 0.0);
}

/* ── boxes ── */

static const FlBox cube = { { 1, -1, 0 }, { 2, 1, 1 } };

static gboolean
clears (FlVec a, FlVec b, double leaves)
{
  return fl_run_clears ((FlVec[]) { a, b }, 2, leaves, &cube, 1, NULL);
}

static void
test_box_by_hand (void)
{
  g_assert_false (clears ((FlVec) { 0, 0, 0.5 }, (FlVec) { 3, 0, 0.5 }, 0));      /* through the middle */
  g_assert_true (clears ((FlVec) { 0, 0, 0.5 }, (FlVec) { 0.9, 0, 0.5 }, 0));     /* ends before it */
  g_assert_true (clears ((FlVec) { 0, 0, 1.1 }, (FlVec) { 3, 0, 1.1 }, 0));       /* over it */
  g_assert_true (clears ((FlVec) { 0, 0, 1.0 }, (FlVec) { 3, 0, 1.0 }, 0));       /* along its upper face */
  g_assert_true (clears ((FlVec) { 0, 0, 0.9995 }, (FlVec) { 3, 0, 0.9995 }, 0)); /* half a millimetre in it */
  g_assert_false (clears ((FlVec) { 0, 0, 0.9985 }, (FlVec) { 3, 0, 0.9985 }, 0));
  g_assert_true (clears ((FlVec) { 0, 0, 0.6 }, (FlVec) { 1.2, 0, 1.8 }, 0));     /* past the edge x = 1, z = 1.6 */
  g_assert_false (clears ((FlVec) { 1.5, 0, 0.5 }, (FlVec) { 1.6, 0, 0.5 }, 0));  /* inside altogether */
  g_assert_false (clears ((FlVec) { 1.5, 0, 0.5 }, (FlVec) { 1.5, 0, 0.5 }, 0));  /* a place inside */
  g_assert_true (clears ((FlVec) { 0.5, 0, 0.5 }, (FlVec) { 0.5, 0, 0.5 }, 0));
}

/* A lug on the face of the solid it is welded to, or drawn 5 cm deep in it. */
static void
test_box_leaves (void)
{
  FlVec on = { 1.0, 0, 0.5 }, in = { 1.05, 0, 0.5 }, away = { -1, 0, 0 }, across = { 3, 0, 0.5 };

  g_assert_true (clears (on, away, 0));
  g_assert_false (clears (in, away, 0));
  g_assert_true (clears (in, away, 0.06));
  g_assert_true (clears (away, in, 0.06));
  g_assert_false (clears (in, across, 0.06));        /* it leaves on the other side: the solid is in the way */
  g_assert_false (clears (on, across, 0.06));
  g_assert_true (clears (in, across, 1.0));          /* cut to nothing */
  g_assert_false (clears (in, away, -5.0));
  g_assert_false (clears (in, away, NAN));
}

/* Which of several; a path of three pieces of which the last is in the way. */
static void
test_box_which (void)
{
  const FlBox boxes[] = { { { 10, 10, 10 }, { 11, 11, 11 } }, { { 1, -1, 0 }, { 2, 1, 1 } }, { { 0, -1, 0 }, { 2, 1, 1 } } };
  const FlVec path[] = { { 0, 5, 0.5 }, { 1, 5, 0.5 }, { 1.5, 5, 0.5 }, { 1.5, 0.5, 0.5 } };
  gsize hit = 77;

  g_assert_true (fl_run_clears (path, 4, 0, boxes, 1, &hit));
  g_assert_true (fl_run_clears (path, 3, 0, boxes, 3, &hit));
  g_assert_true (fl_run_clears (path, 4, 0, NULL, 0, &hit));
  g_assert_cmpuint (hit, ==, 77);
  g_assert_false (fl_run_clears (path, 4, 0, boxes, 3, &hit));
  g_assert_cmpuint (hit, ==, 1);
  g_assert_false (fl_run_clears (path, 4, 0, boxes + 2, 1, &hit));
  g_assert_cmpuint (hit, ==, 0);
}

static void
test_box_unknown (void)
{
  const FlVec path[] = { { 0, 0, 5 }, { 3, 0, 5 } }, unknown[] = { { 0, 0, 5 }, { NAN, 0, 5 } };
  const FlBox boxes[] = { cube, { { 1, -1, 0 }, { 2, NAN, 1 } }, { { 2, 0, 0 }, { 1, 1, 1 } } };
  gsize hit = 77;

  g_assert_false (fl_run_clears (path, 2, 0, boxes, 3, &hit));
  g_assert_cmpuint (hit, ==, 1);
  g_assert_false (fl_run_clears (path, 2, 0, boxes + 2, 1, &hit));
  g_assert_cmpuint (hit, ==, 0);
  g_assert_false (fl_run_clears (unknown, 2, 0, boxes, 3, &hit));
  g_assert_cmpuint (hit, ==, 3);
  g_assert_false (fl_run_clears (unknown, 2, 0, NULL, 0, &hit));
  g_assert_cmpuint (hit, ==, 0);
  g_assert_false (fl_run_clears (path, 1, 0, NULL, 0, NULL));
  g_assert_false (fl_box_meets_segment (cube, unknown[0], unknown[1]));
  g_assert_false (fl_box_meets_segment (cube, unknown[1], unknown[0]));
  g_assert_false (fl_box_meets_segment (boxes[1], path[0], path[1]));
  for (guint axis = 0; axis < 3; axis++)
    {
      FlVec min = { axis == 0, axis == 1, axis == 2 };

      g_assert_false (fl_box_is_valid ((FlBox) { min, fl_vec_sub ((FlVec) { 1, 1, 1 }, min) }));
    }
}

/* The bare box has its faces in it, edges and corners too; a place or a plate is a box. */
static void
test_box_faces (void)
{
  const FlBox box = { { 1, 2, 3 }, { 4, 5, 6 } };

  for (guint side = 0; side < 2; side++)
    {
      FlVec corner = side ? box.max : box.min, out = side ? (FlVec) { 9, 9, 9 } : (FlVec) { 0, 0, 0 };
      FlVec along_x = { 9, corner.y, corner.z }, along_y = { corner.x, 9, corner.z }, along_z = { corner.x, corner.y, 9 };

      g_assert_true (fl_box_meets_segment (box, corner, corner));
      g_assert_true (fl_box_meets_segment (box, corner, out));
      g_assert_true (fl_box_meets_segment (box, along_x, corner));
      g_assert_true (fl_box_meets_segment (box, along_y, corner));
      g_assert_true (fl_box_meets_segment (box, along_z, corner));
      g_assert_true (fl_box_is_valid ((FlBox) { corner, corner }));
    }
}

/* What is no place meets nothing, though the half-space reaches that far. */
static void
test_box_far (void)
{
  const FlBox below = { { -INFINITY, -INFINITY, -INFINITY }, { INFINITY, INFINITY, 0 } };

  g_assert_true (fl_box_meets_segment (below, (FlVec) { 0, 0, -9e6 }, (FlVec) { 0, 0, -1 }));
  g_assert_false (fl_box_meets_segment (below, (FlVec) { 0, 0, -2e7 }, (FlVec) { 0, 0, -1 }));
  g_assert_false (fl_box_meets_segment (below, (FlVec) { 0, 0, -1 }, (FlVec) { 0, 0, -2e7 }));
}

/* Plates, half-spaces, and corners in any order. */
static void
test_box_shapes (void)
{
  FlBox plate = { { 1, -1, 0.5 }, { 2, 1, 0.5 } }, below = { { -INFINITY, -INFINITY, -INFINITY }, { INFINITY, INFINITY, 0 } };
  FlBox thin = fl_box_shrunk ((FlBox) { { 0, 0, 0 }, { 1, 0.001, 4 } }, 0.01);
  FlBox spanned = fl_box_spanning ((FlVec) { 1, -2, 3 }, (FlVec) { -1, 2, 0 });
  const FlVec through[] = { { 1.5, 0, 1 }, { 1.5, 0, 0 } }, beside[] = { { 2.5, 0, 1 }, { 2.5, 0, 0 } };

  g_assert_false (fl_run_clears (through, 2, 0, &plate, 1, NULL));
  g_assert_true (fl_run_clears (beside, 2, 0, &plate, 1, NULL));
  g_assert_true (fl_run_clears (through, 2, 0, &below, 1, NULL));
  g_assert_false (fl_run_clears ((FlVec[]) { { 9, 9, 1 }, { 5, 5, -1 } }, 2, 0, &below, 1, NULL));
  assert_vec_near (thin.min, ((FlVec) { 0.01, 0.0005, 0.01 }), 1e-15);
  assert_vec_near (thin.max, ((FlVec) { 0.99, 0.0005, 3.99 }), 1e-15);
  assert_vec_same (spanned.min, ((FlVec) { -1, -2, 0 }));
  assert_vec_same (spanned.max, ((FlVec) { 1, 2, 3 }));
  g_assert_false (fl_box_is_valid (fl_box_spanning ((FlVec) { NAN, 0, 0 }, (FlVec) { 1, 1, 1 })));
  g_assert_false (fl_box_is_valid (fl_box_spanning ((FlVec) { 0, 0, 0 }, (FlVec) { 1, 1, NAN })));
}

static void
test_box_oracle (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (box_cases); i++)
    {
      const BoxCase *c = &box_cases[i];

      g_assert_cmpint (fl_box_meets_segment (c->box, c->a, c->b), ==, c->meets);
      g_assert_cmpint (fl_run_clears (&c->a, 2, 0, &c->box, 1, NULL), ==, !c->meets);  /* a and b stand side by side */
    }
}

static double
off (double v, double min, double max)
{
  return MAX (MAX (min - v, v - max), 0.0);
}

static double
distance_to_box (FlVec p, FlBox box)
{
  FlVec way = { off (p.x, box.min.x, box.max.x), off (p.y, box.min.y, box.max.y), off (p.z, box.min.z, box.max.z) };

  return fl_vec_norm (way);
}

/* A clear run has no sample inside; one that is not has a sample at least as near as the grid is fine. */
static void
test_box_sampled (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (402);
  guint hits = 0;

  for (guint i = 0; i < 2000; i++)
    {
      FlVec a = random_place (rand, 2.0), b = random_place (rand, 2.0);
      FlBox box = random_box (rand, 1.5), inner = fl_box_shrunk (box, FL_STATICS_GRAZE);
      gboolean clear = fl_run_clears ((FlVec[]) { a, b }, 2, 0, &box, 1, NULL);
      double nearest = INFINITY;

      for (guint s = 0; s <= SAMPLES; s++)
        nearest = MIN (nearest, distance_to_box (fl_vec_between (a, b, s / (double) SAMPLES), inner));
      if (clear)
        g_assert_cmpfloat (nearest, >, 0.0);
      else
        g_assert_cmpfloat (nearest, <=, fl_vec_norm (fl_vec_sub (b, a)) / (2.0 * SAMPLES) + 1e-12);
      hits += !clear;
    }
  g_assert_cmpuint (hits, >, 200);
  g_assert_cmpuint (hits, <, 1800);
}

static FlBox
turned_box (FlBox box, FlVec (*turn) (FlVec))
{
  return fl_box_spanning (turn (box.min), turn (box.max));
}

static void
test_symmetries (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (403);
  FlVec (*const turns[]) (FlVec) = { mirrored, half_turned };

  for (guint i = 0; i < 1000; i++)
    {
      FlVec p[2] = { random_place (rand, 2.0), random_place (rand, 2.0) };
      FlVec q[2] = { random_place (rand, 2.0), random_place (rand, 2.0) };
      FlBox box = random_box (rand, 1.5);
      gboolean clear = fl_run_clears (p, 2, 0.1, &box, 1, NULL);
      double distance = fl_run_distance (p, 2, q, 2, 0.1);

      if (isinf (distance))  /* one of them shorter than what is left out */
        continue;
      for (guint t = 0; t < 2; t++)
        {
          FlVec pt[2] = { turns[t](p[0]), turns[t](p[1]) }, qt[2] = { turns[t](q[0]), turns[t](q[1]) };
          FlBox box_t = turned_box (box, turns[t]);

          g_assert_cmpint (fl_run_clears (pt, 2, 0.1, &box_t, 1, NULL), ==, clear);
          assert_near (fl_run_distance (pt, 2, qt, 2, 0.1), distance, 1e-12);
        }
      assert_near (fl_run_distance ((FlVec[]) { q[1], q[0] }, 2, (FlVec[]) { p[1], p[0] }, 2, 0.1), distance, 1e-12);
    }
}

/* ── bends over the deck's edge ── */

static const FlBox deck = { { 0, -1.3, -0.2 }, { 7, 1.3, 0 } };

/* Anchor plumb below the edge, machine point 0.4 in and 0.3 up (0.5 from the edge), anchor 0.1 down: bends 5/6 of the way along. */
static void
test_edge_by_hand (void)
{
  FlVec via[FL_EDGE_MAX_BENDS];
  FlVec point = { 3.0, 0.9, 0.3 };

  g_assert_cmpint (fl_edge_bend (point, (FlVec) { 3.6, 1.3, -0.1 }, deck, 0, via), ==, FL_BEND_ONCE);
  assert_vec_near (via[0], ((FlVec) { 3.5, 1.3, 0 }), 1e-12);
  g_assert_cmpint (fl_edge_bend (mirrored (point), (FlVec) { 3.6, -1.3, -0.1 }, deck, 0, via), ==, FL_BEND_ONCE);
  assert_vec_near (via[0], ((FlVec) { 3.5, -1.3, 0 }), 1e-12);
  /* Under the deck: 0.5 to the upper edge, 0.2 down the side, 0.5 on from the lower edge; 1.2 along in all. */
  g_assert_cmpint (fl_edge_bend (point, (FlVec) { 4.2, 0.9, -0.5 }, deck, 0, via), ==, FL_BEND_TWICE);
  assert_vec_near (via[0], ((FlVec) { 3.5, 1.3, 0 }), 1e-12);
  assert_vec_near (via[1], ((FlVec) { 3.7, 1.3, -0.2 }), 1e-12);
  /* Over the rear edge, plumb. */
  g_assert_cmpint (fl_edge_bend ((FlVec) { 0.4, 0, 0.3 }, (FlVec) { 0, 0.6, -0.1 }, deck, 0, via), ==, FL_BEND_ONCE);
  assert_vec_near (via[0], ((FlVec) { 0, 0.5, 0 }), 1e-12);
  /* And the front one. */
  g_assert_cmpint (fl_edge_bend ((FlVec) { 6.6, 0, 0.3 }, (FlVec) { 7, -0.6, -0.1 }, deck, 0, via), ==, FL_BEND_ONCE);
  assert_vec_near (via[0], ((FlVec) { 7, -0.5, 0 }), 1e-12);
}

static void
test_edge_none (void)
{
  FlVec via[FL_EDGE_MAX_BENDS] = { { 9, 9, 9 }, { 9, 9, 9 } };
  FlVec point = { 3.0, 0.9, 0.3 }, wide = { 3.0, 1.5, 0.5 };

  g_assert_cmpint (fl_edge_bend (point, (FlVec) { 3.6, 1.25, 0 }, deck, 0, via), ==, FL_BEND_NONE);      /* a pocket's mouth */
  g_assert_cmpint (fl_edge_bend (point, (FlVec) { 3.6, 1.3, 0 }, deck, 0, via), ==, FL_BEND_NONE);       /* on the edge */
  g_assert_cmpint (fl_edge_bend (wide, (FlVec) { 3, 1.3, -0.1 }, deck, 0, via), ==, FL_BEND_NONE);
  g_assert_cmpint (fl_edge_bend (point, (FlVec) { 3.6, 1.2, -0.03 }, deck, 0.1, via), ==, FL_BEND_NONE); /* a ring in a recess */
  g_assert_cmpfloat (via[0].x + via[1].x, ==, 18.0);
}

static void
test_edge_blocked (void)
{
  FlVec via[FL_EDGE_MAX_BENDS] = { { 9, 9, 9 }, { 9, 9, 9 } };
  FlVec point = { 3.0, 0.9, 0.3 }, under = { 3.0, 0.9, -0.5 };
  FlBox endless = deck;

  endless.min.z = -INFINITY;
  g_assert_cmpint (fl_edge_bend (point, (FlVec) { 3.6, 1.2, -0.1 }, deck, 0, via), ==, FL_BEND_BLOCKED);  /* within the deck */
  g_assert_cmpint (fl_edge_bend (point, under, endless, 0, via), ==, FL_BEND_BLOCKED);                     /* how thick is it? */
  g_assert_cmpint (fl_edge_bend (point, (FlVec) { NAN, 1.3, -0.1 }, deck, 0, via), ==, FL_BEND_BLOCKED);
  g_assert_cmpint (fl_edge_bend (point, under, (FlBox) { { 0, NAN, -1 }, { 7, 1.3, 0 } }, 0, via), ==, FL_BEND_BLOCKED);
  g_assert_cmpfloat (via[0].x + via[1].x, ==, 18.0);
  g_assert_cmpint (fl_edge_bend (point, (FlVec) { 3.6, 1.3, -0.1 }, endless, 0, via), ==, FL_BEND_ONCE);
}

static double
bent_length (FlVec point, FlVec anchor, const FlVec *via, guint bends)
{
  const FlVec path[] = { point, via[0], bends == 2 ? via[1] : anchor, anchor };

  return fl_run_length (path, bends + 2);
}

static void
test_edge_oracle (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (edge_cases); i++)
    {
      const EdgeCase *c = &edge_cases[i];
      FlVec via[FL_EDGE_MAX_BENDS];

      g_assert_cmpint (fl_edge_bend (c->point, c->anchor, c->deck, 0, via), ==, c->bends);
      assert_near (bent_length (c->point, c->anchor, via, c->bends), c->length, 1e-7);
    }
}

/* At a corner of the deck of the properties below; and at which distance along which of its sides. */
static gboolean
at_corner (FlVec v)
{
  return fabs (v.x) == 2.0 && fabs (v.y) == 1.0;
}

static FlVec
on_side (FlVec like, gboolean lengthwise, double share, double z)
{
  return lengthwise ? (FlVec) { -2.0 + 4.0 * share, like.y, z } : (FlVec) { like.x, -1.0 + 2.0 * share, z };
}

/* No pair of places on a grid along the two edges of the side makes a shorter way than the two bends do. */
static void
assert_no_shorter_pair (FlVec point, FlVec anchor, const FlVec *via)
{
  const guint n = 40;
  FlVec sure = at_corner (via[0]) ? via[1] : via[0];
  gboolean lengthwise = fabs (sure.y) == 1.0;
  double length = bent_length (point, anchor, via, 2);

  if (at_corner (sure))  /* both at a corner: on which of its two sides? */
    return;
  for (guint i = 0; i <= n; i++)
    for (guint j = 0; j <= n; j++)
      {
        const FlVec pair[2] = {
          on_side (sure, lengthwise, i / (double) n, via[0].z),
          on_side (sure, lengthwise, j / (double) n, via[1].z),
        };

        g_assert_cmpfloat (bent_length (point, anchor, pair, 2), >=, length - 1e-12);
      }
}

/* Anywhere about the deck: no bend exactly where the straight run is clear; a bent run is clear, is longer than the straight one
 * and gets no shorter when its first bend is pushed along its edge; mirrored and turned cases bend in the mirrored place. */
static void
test_edge_properties (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (404);
  const FlBox box = { { -2, -1, -0.3 }, { 2, 1, 0 } };  /* its own mirror image and its own half turn */
  guint seen[4] = { 0 };

  for (guint i = 0; i < 4000; i++)
    {
      FlVec path[4] = { random_place (rand, 3.0), random_place (rand, 3.0) }, point = path[0], anchor = path[1];
      FlVec via[FL_EDGE_MAX_BENDS], other[FL_EDGE_MAX_BENDS];
      FlBend bend = fl_edge_bend (point, anchor, box, 0, via);
      gboolean clear = fl_run_clears (path, 2, 0, &box, 1, NULL);

      seen[bend]++;
      g_assert_cmpint (bend == FL_BEND_NONE, ==, clear);
      g_assert_cmpint (fl_edge_bend (mirrored (point), mirrored (anchor), box, 0, other), ==, bend);
      if (bend != FL_BEND_ONCE && bend != FL_BEND_TWICE)
        continue;
      assert_vec_near (other[0], mirrored (via[0]), 1e-9);
      g_assert_cmpint (fl_edge_bend (half_turned (point), half_turned (anchor), box, 0, other), ==, bend);
      assert_vec_near (other[0], half_turned (via[0]), 1e-9);
      memcpy (path + 1, via, sizeof via);
      path[bend + 1] = anchor;
      g_assert_true (fl_run_clears (path, bend + 2, 0, &box, 1, NULL));
      g_assert_cmpfloat (fl_run_length (path, bend + 2), >, fl_vec_norm (fl_vec_sub (anchor, point)));
      if (bend == FL_BEND_TWICE)
        assert_no_shorter_pair (point, anchor, via);
      if (at_corner (via[0]))
        continue;
      for (int push = -1; push <= 1; push += 2)
        {
          FlVec pushed[2] = { via[0], via[1] };

          if (fabs (via[0].y) == 1.0)
            pushed[0].x = CLAMP (pushed[0].x + push * 0.01, box.min.x, box.max.x);
          else
            pushed[0].y = CLAMP (pushed[0].y + push * 0.01, box.min.y, box.max.y);
          g_assert_cmpfloat (bent_length (point, anchor, pushed, bend), >=, fl_run_length (path, bend + 2) - 1e-12);
        }
    }
  for (guint i = 0; i < 4; i++)
    g_assert_cmpuint (seen[i], >, 20);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/statics/distance/by-hand", test_distance_by_hand);
  g_test_add_func ("/statics/distance/oracle", test_distance_oracle);
  g_test_add_func ("/statics/distance/sampled", test_distance_sampled);
  g_test_add_func ("/statics/distance/runs", test_run_distance);
  g_test_add_func ("/statics/distance/unknown", test_distance_unknown);
  g_test_add_func ("/statics/box/by-hand", test_box_by_hand);
  g_test_add_func ("/statics/box/leaves", test_box_leaves);
  g_test_add_func ("/statics/box/which", test_box_which);
  g_test_add_func ("/statics/box/unknown", test_box_unknown);
  g_test_add_func ("/statics/box/faces", test_box_faces);
  g_test_add_func ("/statics/box/far", test_box_far);
  g_test_add_func ("/statics/box/shapes", test_box_shapes);
  g_test_add_func ("/statics/box/oracle", test_box_oracle);
  g_test_add_func ("/statics/box/sampled", test_box_sampled);
  g_test_add_func ("/statics/box/symmetries", test_symmetries);
  g_test_add_func ("/statics/edge/by-hand", test_edge_by_hand);
  g_test_add_func ("/statics/edge/none", test_edge_none);
  g_test_add_func ("/statics/edge/blocked", test_edge_blocked);
  g_test_add_func ("/statics/edge/oracle", test_edge_oracle);
  g_test_add_func ("/statics/edge/properties", test_edge_properties);
  return g_test_run ();
}
