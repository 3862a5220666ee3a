/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The upper bound by hand: values that textbooks and standards give, each with its source, and answers to bad input. */
#include <float.h>
#include <string.h>

#include "fl-equilibrium.h"
#include "fl-test-random.h"

static const double gravity = 9.80665;
static const FlVec forward = { 1, 0, 0 }, rearward = { -1, 0, 0 }, left = { 0, 1, 0 }, right = { 0, -1, 0 }, up = { 0, 0, 1 };

/* A load on four corners, length by width about the origin, its center of gravity h over them. */
typedef struct { FlBody body; FlContact contacts[4]; FlPull pulls[FL_MAX_PULLS]; FlPulls held; FlSharedLimit shared[2]; } Block;

static void
block (Block *b, double mass, double length, double width, double h, double mu)
{
  *b = (Block) { .body = { .mass = mass, .g = gravity, .cg = { 0, 0, h }, .n_contacts = 4 } };
  for (guint j = 0; j < 4; j++)
    b->contacts[j] = (FlContact) { .at = { (j & 1 ? 0.5 : -0.5) * length, (j & 2 ? 0.5 : -0.5) * width, 0 }, .mu_along = mu, .mu_across = mu };
  b->body.contacts = b->contacts;
  b->held = (FlPulls) { .pulls = b->pulls, .shared = b->shared };
}

static void
add_pull (Block *b, FlVec at, FlVec along, double limit)
{
  b->pulls[b->held.n++] = (FlPull) { .at = at, .along = fl_vec_unit (along), .limit = limit };
}

/* Four corners at height z, each pulling outward by the angles of EN 12195-1: alpha to the deck, beta to the long axis. */
static void
add_corners (Block *b, double x, double y, double z, double alpha_deg, double beta_deg, double limit)
{
  double a = alpha_deg * G_PI / 180.0, beta = beta_deg * G_PI / 180.0;

  for (guint k = 0; k < 4; k++)
    {
      int sx = k & 1 ? 1 : -1, sy = k & 2 ? 1 : -1;

      add_pull (b, (FlVec) { sx * x, sy * y, z }, (FlVec) { sx * cos (a) * cos (beta), sy * cos (a) * sin (beta), -sin (a) }, limit);
    }
}

static FlCapacity
capacity (const Block *b, FlVec direction)
{
  FlCapacity c = fl_equilibrium_capacity (&b->body, &b->held, direction);

  g_assert_cmpfloat (c.residual, <, 1e-6);
  g_assert_cmpfloat (c.bound, >=, c.g);
  g_assert_cmpfloat (c.bound - c.g, <=, FL_STATICS_GAP);
  return c;
}

static void
assert_holds (const Block *b, FlVec direction, double g, FlMode mode)
{
  FlCapacity c = capacity (b, direction);

  assert_near (c.g, g, 1e-6);
  g_assert_cmpstr (fl_mode_id (c.mode), ==, fl_mode_id (mode));
}

/* A block on a rough plane slides at c = mu, whatever it weighs: Coulomb, in every textbook of statics (Meriam and Kraige,
 * "Engineering Mechanics: Statics", chapter 6, friction; from memory). In every direction alike, for the cone is round. */
static void
test_sliding_block (void)
{
  const double mus[] = { 0.0, 0.1, 0.3, 0.6 };

  for (guint i = 0; i < G_N_ELEMENTS (mus); i++)
    for (guint k = 0; k < 12; k++)
      {
        double angle = 0.1 + k * G_PI / 6.0;
        Block b;
        FlCapacity c;

        block (&b, 1000.0 * (k + 1), 4.0, 3.0, 0.4, mus[i]);
        assert_holds (&b, (FlVec) { cos (angle), sin (angle), 0 }, mus[i], FL_SLIDES);
        c = capacity (&b, forward);
        assert_near (c.moves.x, 1.0, 1e-9);
        assert_near (c.moves.y, 0.0, 1e-9);
        assert_near (fl_vec_norm (c.turns), 0.0, 1e-9);
      }
}

/* Friction that differs along and across: mu_along forward, mu_across sideways, and between them the ellipse: the friction force that
 * acts straight against d = (cos a, sin a) is N / sqrt ((cos a / mu_along)^2 + (sin a / mu_across)^2) by the ellipse's equation. */
static void
test_ellipse (void)
{
  Block b;

  block (&b, 5000, 4.0, 3.0, 0.2, 0.3);
  for (guint j = 0; j < 4; j++)
    b.contacts[j].mu_along = 0.1;
  assert_holds (&b, forward, 0.1, FL_SLIDES);
  assert_holds (&b, left, 0.3, FL_SLIDES);
  for (guint k = 1; k < 9; k++)
    {
      double a = k * G_PI / 18.0;

      assert_near (capacity (&b, (FlVec) { cos (a), sin (a), 0 }).g, 1.0 / hypot (cos (a) / 0.1, sin (a) / 0.3), 1e-6);
    }
}

/* A block that does not slide tips at c = b / h: arm of the weight over height of the center of gravity (EN 12195-1:2010, stability of
 * an unlashed load, b >= c d, from memory; the same in Meriam and Kraige). */
static void
test_tipping_block (void)
{
  FlCapacity c;
  Block b;

  block (&b, 8000, 2.0, 1.0, 1.25, 2.0);
  assert_holds (&b, forward, 1.0 / 1.25, FL_TIPS);
  assert_holds (&b, left, 0.5 / 1.25, FL_TIPS);
  c = capacity (&b, forward);
  assert_near (c.turns.y, 1.0 / 1.25, 1e-6);  /* braking: nose down, by the right hand about left */
  assert_near (c.turns.x, 0.0, 1e-6);
  assert_near (c.turns.z, 0.0, 1e-6);
  b.body.cg.x = 0.5;
  assert_holds (&b, forward, 0.5 / 1.25, FL_TIPS);
  assert_holds (&b, rearward, 1.5 / 1.25, FL_TIPS);
}

/* Four chains of limit T, 45 degrees both ways, no friction, center of gravity where they pull: two hold each way, 2 T / 2. */
static void
test_four_symmetric (void)
{
  const FlVec ways[] = { forward, rearward, left, right };
  const guint64 holding[] = { 0x5, 0xa, 0x3, 0xc };
  Block b;

  block (&b, 4000 / gravity, 4.0, 2.0, 0.0, 0.0);
  add_corners (&b, 1.5, 0.8, 0.0, 45, 45, 1000.0);
  for (guint w = 0; w < G_N_ELEMENTS (ways); w++)
    {
      FlCapacity c = capacity (&b, ways[w]);

      assert_holds (&b, ways[w], 0.25, FL_SLIDES);
      g_assert_cmphex (c.at_limit, ==, holding[w]);
      for (guint i = 0; i < 4; i++)
        assert_near (c.tension[i], holding[w] >> i & 1 ? 1000.0 : 0.0, 1e-3);
    }
  /* Upward: its own weight first, 1 g, then all four: 4 T sin 45. */
  assert_holds (&b, up, 1.0 + 1.0 / sqrt (2.0), FL_LIFTS);
  g_assert_cmphex (capacity (&b, up).at_limit, ==, 0xf);
}

/* EN 12195-1:2010, direct lashing, formula (8) from memory: n m g (c - mu f_mu) = n lashings (cos alpha cos beta + mu f_mu sin alpha), two of
 * four effective; the needed LC are computed there from the formula, mu f_mu with f_mu = 0.75. With the center of gravity as low
 * as the lashings nothing can tip, and the upper bound is the formula. */
static void
test_direct_lashing (void)
{
  const struct { double m, mu, alpha, beta, forward, sideways; } cases[] = {
    { 20000, 0.3, 35, 45, 79.64, 38.09 }, { 12000, 0.2, 30, 30, 46.37, 40.55 },
    { 30000, 0.6, 45, 40, 59.90, 9.52 },  { 8000, 0.1, 20, 20, 31.31, 48.05 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    for (guint way = 0; way < 2; way++)
      {
        Block b;
        FlCapacity c;

        block (&b, cases[i].m, 6.0, 2.5, 0.0, cases[i].mu * 0.75);
        b.body.g = 9.81;
        add_corners (&b, 2.0, 1.0, 0.0, cases[i].alpha, cases[i].beta, 1e3 * (way == 0 ? cases[i].forward : cases[i].sideways));
        c = capacity (&b, way == 0 ? forward : left);
        assert_near (c.g, way == 0 ? 0.8 : 0.5, 2e-4);  /* LC to four figures */
        g_assert_cmpint (c.mode, ==, FL_SLIDES);
      }
}

/* Tipping with lashings, lever form (Container Handbook of the German insurers, GDV, 3.4.5, as read in a public copy; EN 12195-1
 * formula (9)): F (cos alpha cos beta h + sin alpha s) of each effective lashing = m g (c d - b), h and s its levers on the tipping edge. */
static void
test_tipping_levers (void)
{
  double alpha = 40.0, beta = 60.0, limit = 20e3, h = 0.9, y = 0.5, width = 1.2, d = 2.0, mass = 6000;
  double ca = cos (alpha * G_PI / 180.0), sa = sin (alpha * G_PI / 180.0), cb = sin (beta * G_PI / 180.0);
  double weight = mass * gravity, lever = ca * cb * h + sa * (width / 2.0 + y);
  Block b;

  block (&b, mass, 4.0, width, d, 5.0);
  add_corners (&b, 1.0, -y, h, alpha, beta, limit);
  for (guint i = 0; i < 4; i++)        /* on the near side, pulling outward over that side; the far side's are slack */
    b.pulls[i].at.y = -b.pulls[i].at.y;
  /* To the left about the left edge: those at the right, that pull right and down, at s = width / 2 + y from it. */
  assert_holds (&b, left, (width / 2.0 + 2.0 * limit * lever / weight) / d, FL_TIPS);
  assert_holds (&b, right, (width / 2.0 + 2.0 * limit * lever / weight) / d, FL_TIPS);
}

/* One chain straight back from one corner, no friction, center of gravity in the middle: nothing balances its moment about the upright
 * axis, so it holds nothing. A stop across the front at the same side neither; a second chain at the other side makes it 2 T. */
static void
test_yaw (void)
{
  FlCapacity c;
  Block b;

  block (&b, 1000, 4.0, 2.0, 0.0, 0.0);
  add_pull (&b, (FlVec) { -2, 1, 0 }, rearward, 3000);
  assert_holds (&b, forward, 0.0, FL_YAWS);
  add_pull (&b, (FlVec) { 2, 1, 0 }, rearward, 500);
  assert_holds (&b, forward, 0.0, FL_YAWS);
  b.held.n = 1;
  add_pull (&b, (FlVec) { -2, -1, 0 }, rearward, 2000);
  /* The weaker one sets the moment: 2000 each. By hand: moments about the upright axis through the center of gravity, 1 m each. */
  c = capacity (&b, forward);
  assert_near (c.g, 4000 / (1000 * gravity), 1e-6);
  g_assert_cmphex (c.at_limit, ==, 0x2);
  /* Off center by 0.5 m to the left (1.5 m from the right chain, 0.5 m from the left one): T_left / T_right = 1.5 / 0.5. */
  b.body.cg.y = 0.5;
  c = capacity (&b, forward);
  assert_near (c.tension[0], 3000, 1e-3);
  assert_near (c.tension[1], 1000, 1e-3);
  assert_near (c.g, 4000 / (1000 * gravity), 1e-6);
  g_assert_cmphex (c.at_limit, ==, 0x1);
}

/* Over tie-down: one chain over the load, two legs straight down, one tension: friction mu (W + 2 T) (EN 12195-1:2010, over-top, both
 * legs count, k = 2; from memory). Each leg alone has the chain's limit; the weaker leg is the limit of both. */
static void
test_over (void)
{
  FlCapacity c;
  Block b;

  block (&b, 2000, 4.0, 2.0, 0.1, 0.4);
  add_pull (&b, (FlVec) { 0, 1, 1 }, (FlVec) { 0, 0, -1 }, 9000);
  add_pull (&b, (FlVec) { 0, -1, 1 }, (FlVec) { 0, 0, -1 }, 5000);
  b.pulls[0].tie = b.pulls[1].tie = 7;
  assert_holds (&b, forward, 0.4 * (1.0 + 10000 / (2000 * gravity)), FL_SLIDES);
  c = capacity (&b, forward);
  assert_near (c.tension[0], 5000, 1e-6);
  assert_near (c.tension[1], 5000, 1e-6);
  g_assert_cmphex (c.at_limit, ==, 0x3);
  /* As two tie-downs each has its own limit: with both in the middle plane the plain sum; at the sides less, for then the friction
   * lies to the left of the center of gravity and the load turns. */
  b.pulls[0].tie = b.pulls[1].tie = 0;
  g_assert_cmpfloat (capacity (&b, forward).g, >, 0.4 * (1.0 + 10000 / (2000 * gravity)) + 1e-3);
  g_assert_cmpfloat (capacity (&b, forward).g, <, 0.4 * (1.0 + 14000 / (2000 * gravity)) - 1e-3);
  b.pulls[0].at.y = b.pulls[1].at.y = 0.0;
  assert_near (capacity (&b, forward).g, 0.4 * (1.0 + 14000 / (2000 * gravity)), 1e-6);
}

/* Two chains that hang on one point hold together what the point holds: by hand, the plain sum is the limit. */
static void
test_shared_limit (void)
{
  double weight = 1000 * gravity;
  FlCapacity c;
  Block b;

  block (&b, 1000, 4.0, 2.0, 0.0, 0.0);
  add_pull (&b, (FlVec) { -2, 0, 0 }, (FlVec) { -4, 3, 0 }, 2000);
  add_pull (&b, (FlVec) { -2, 0, 0 }, (FlVec) { -4, -3, 0 }, 2000);
  assert_near (capacity (&b, forward).g, 2 * 2000 * 0.8 / weight, 1e-6);
  b.shared[0] = (FlSharedLimit) { .limit = 2500, .legs = 0x3 };
  b.held.n_shared = 1;
  c = capacity (&b, forward);
  assert_near (c.g, 2500 * 0.8 / weight, 1e-6);
  assert_near (c.tension[0], 1250, 1e-3);
  g_assert_cmphex (c.at_limit, ==, 0x3);
  /* Wide enough it is nothing; on one leg alone it is that leg's; at nothing it holds nothing; an over tie-down hangs there twice. */
  b.shared[0].limit = 4000;
  assert_near (capacity (&b, forward).g, 2 * 2000 * 0.8 / weight, 1e-6);
  b.shared[0] = (FlSharedLimit) { .limit = 600, .legs = 0x1 };
  assert_near (capacity (&b, forward).g, 2 * 600 * 0.8 / weight, 1e-6);
  b.shared[0] = (FlSharedLimit) { .limit = 0, .legs = 0x3 };
  assert_near (capacity (&b, forward).g, 0.0, 1e-6);
  b.shared[0] = (FlSharedLimit) { .limit = 3000, .legs = 0x3 };
  b.pulls[0].tie = b.pulls[1].tie = 1;
  assert_near (capacity (&b, forward).g, 2 * 1500 * 0.8 / weight, 1e-6);
  b.shared[0].legs = G_GUINT64_CONSTANT (0xf0);        /* on nothing that is there */
  assert_near (capacity (&b, forward).g, 2 * 2000 * 0.8 / weight, 1e-6);
}

/* A stop in front, by hand: pushes rearward up to its rating, low enough not to tip over. */
static void
test_stop (void)
{
  Block b;

  block (&b, 1000, 4.0, 2.0, 0.5, 0.2);
  add_pull (&b, (FlVec) { 2, 0, 0.3 }, rearward, 0.3 * 1000 * gravity);
  assert_holds (&b, forward, 0.2 + 0.3, FL_SLIDES);
  assert_holds (&b, rearward, 0.2, FL_SLIDES);
  b.pulls[0].limit = INFINITY;         /* then it tips over it: c (h - 0.3) = b */
  b.body.cg.z = 2.3;
  for (guint j = 0; j < 4; j++)
    b.contacts[j].mu_along = b.contacts[j].mu_across = 0.0;
  assert_near (capacity (&b, forward).g, 2.0 / 2.0, 1e-6);
}

/* Nothing but weight holds it down: 1 g upward, whatever it stands on. */
static void
test_up (void)
{
  Block b;

  block (&b, 1000, 4.0, 2.0, 1.0, 0.5);
  assert_holds (&b, up, 1.0, FL_LIFTS);
  add_pull (&b, (FlVec) { 0, 0, 1 }, (FlVec) { 0, 0, -1 }, 500 * gravity);
  assert_holds (&b, up, 1.5, FL_LIFTS);
}

static void
assert_answer (const FlCapacity *c)
{
  g_assert_true (isfinite (c->g) && isfinite (c->bound) && isfinite (c->residual));
  g_assert_true (fl_vec_is_finite (c->moves) && fl_vec_is_finite (c->turns));
  g_assert_true (c->g >= 0.0 && c->residual < 1e-6);
  g_assert_cmpuint (c->mode, <, FL_N_MODES);
  for (guint i = 0; i < FL_MAX_PULLS; i++)
    g_assert_true (isfinite (c->tension[i]) && c->tension[i] >= 0.0);
  for (guint j = 0; j < FL_MAX_CONTACTS; j++)
    g_assert_true (fl_vec_is_finite (c->force[j]) && c->force[j].z >= 0.0);
}

static void
assert_mode (const Block *b, FlVec direction, FlMode mode)
{
  FlCapacity c = fl_equilibrium_capacity (&b->body, &b->held, direction);

  assert_answer (&c);
  g_assert_cmpstr (fl_mode_id (c.mode), ==, fl_mode_id (mode));
  if (mode == FL_UNSTABLE_AT_REST || mode == FL_NOT_JUDGED)
    g_assert_cmpfloat (c.g + c.bound, ==, 0.0);
}

static void
test_cannot_stand (void)
{
  Block b;

  block (&b, 1000, 4.0, 2.0, 1.0, 0.5);
  b.body.n_contacts = 0;
  assert_mode (&b, forward, FL_UNSTABLE_AT_REST);
  assert_mode (&b, up, FL_UNSTABLE_AT_REST);
  add_corners (&b, 1, 1, 1, 45, 45, 1e5);      /* chains that pull down hold nothing up */
  assert_mode (&b, forward, FL_UNSTABLE_AT_REST);
  b.body.n_contacts = 4;
  assert_mode (&b, forward, FL_SLIDES);
  b.held.n = 0;
  b.body.cg.x = 2.1;                            /* outside of its contacts */
  assert_mode (&b, forward, FL_UNSTABLE_AT_REST);
  assert_mode (&b, rearward, FL_UNSTABLE_AT_REST);
  add_pull (&b, (FlVec) { -2, 0, 0.5 }, (FlVec) { 0, 0, -1 }, 51 * gravity);     /* 100 mm x 1000 kg on 4 m: 25 kg hold it */
  assert_near (capacity (&b, rearward).g, 0.5 * (1 + 51.0 / 1000), 1e-6);
  b.pulls[0].limit = 24 * gravity;
  assert_mode (&b, forward, FL_UNSTABLE_AT_REST);
  b.pulls[0].limit = 26 * gravity;
  assert_near (capacity (&b, forward).g, (26.0 * 4.0 - 100.0) / 1000, 1e-6);     /* what is left over 25 kg, about the front edge, h = 1 */
  /* Right over its edge it stands, and nothing more. */
  block (&b, 1000, 4.0, 2.0, 1.0, 0.5);
  b.body.cg.x = 2.0;
  assert_holds (&b, forward, 0.0, FL_TIPS);
}

static void
test_coincident (void)
{
  Block b;

  block (&b, 1000, 0.0, 0.0, 0.0, 0.3);         /* a point, and it is there four times */
  assert_near (capacity (&b, forward).g, 0.3, 1e-6);
  b.body.cg.z = 1.0;
  assert_holds (&b, forward, 0.0, FL_TIPS);
  block (&b, 1000, 4.0, 2.0, 0.5, 0.3);
  for (guint i = 0; i < FL_MAX_PULLS; i++)
    add_pull (&b, (FlVec) { -1, 0, 0.5 }, (FlVec) { -1, 0, -1 }, 100.0);
  assert_near (capacity (&b, forward).g, 0.3 + 64 * 100.0 * (sqrt (0.5) + 0.3 * sqrt (0.5)) / (1000 * gravity), 1e-6);
  for (guint i = 0; i < FL_MAX_PULLS; i++)
    b.pulls[i].tie = 3;
  assert_near (capacity (&b, forward).g, 0.3 + 64 * 100.0 * (sqrt (0.5) + 0.3 * sqrt (0.5)) / (1000 * gravity), 1e-6);
}

static void
test_one_side (void)
{
  Block b;

  block (&b, 1000, 4.0, 2.0, 0.5, 0.0);
  for (guint i = 0; i < 4; i++)
    add_pull (&b, (FlVec) { i - 1.5, 1, 0.5 }, (FlVec) { 0, 1, -1 }, 2000.0);
  assert_near (capacity (&b, left).g, 0.0, 1e-6);
  g_assert_cmpfloat (capacity (&b, right).g, >, 0.3);
  assert_near (capacity (&b, forward).g, 0.0, 1e-6);
}

static void
test_not_judged (void)
{
  const FlVec directions[] = { { 0, 0, 0 }, { NAN, 0, 0 }, { 1, 1, 0 }, { INFINITY, 0, 0 }, { 1e300, 0, 0 } };
  const double numbers[] = { NAN, INFINITY, -INFINITY, 0.0, -1.0, DBL_MAX, DBL_MIN };
  Block b;

  block (&b, 1000, 4.0, 2.0, 0.5, 0.3);
  for (guint i = 0; i < G_N_ELEMENTS (directions); i++)
    assert_mode (&b, directions[i], FL_NOT_JUDGED);
  for (guint i = 0; i < 5; i++)
    {
      block (&b, numbers[i], 4.0, 2.0, 0.5, 0.3);
      assert_mode (&b, forward, FL_NOT_JUDGED);
      block (&b, 1000, 4.0, 2.0, 0.5, 0.3);
      b.body.g = numbers[i];
      assert_mode (&b, forward, FL_NOT_JUDGED);
    }
  for (guint i = 0; i < 3; i++)
    {
      block (&b, 1000, 4.0, 2.0, 0.5, 0.3);
      b.body.cg.y = numbers[i];
      assert_mode (&b, forward, FL_NOT_JUDGED);
    }
  block (&b, DBL_MAX, 4.0, 2.0, 0.5, 0.3);
  b.body.g = 2.0;
  assert_mode (&b, forward, FL_NOT_JUDGED);
}

/* What is not known of a pull or contact leaves it out, with all that hangs on it, and is counted. */
static void
test_left_out (void)
{
  const double bad[] = { NAN, -1.0, -INFINITY };
  Block b;

  for (guint what = 0; what < 6; what++)
    for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
      {
        FlCapacity c;

        block (&b, 1000, 4.0, 2.0, 0.0, 0.3);
        add_pull (&b, (FlVec) { -2, 1, 0 }, rearward, 1000);
        add_pull (&b, (FlVec) { -2, -1, 0 }, rearward, 1000);
        b.pulls[0].tie = b.pulls[1].tie = what == 5 ? 0 : 9;
        b.shared[0] = (FlSharedLimit) { .limit = 1e9, .legs = 0x3 };
        b.held.n_shared = 1;
        switch (what)
          {
          case 0: b.pulls[0].limit = bad[i]; break;
          case 1: b.pulls[1].at.z = NAN; break;
          case 2: b.pulls[1].along = (FlVec) { 0, 0, 0 }; break;
          case 3: b.pulls[0].along.x = 1.001; break;
          case 4: b.pulls[0].at.x = 1e200; break;
          default: b.shared[0].limit = bad[i]; break;
          }
        c = capacity (&b, forward);
        assert_answer (&c);
        assert_near (c.g, 0.3, 1e-6);
        g_assert_cmpuint (c.skipped, ==, 2);
        g_assert_cmpfloat (c.tension[0] + c.tension[1], ==, 0.0);
      }
  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      block (&b, 1000, 4.0, 2.0, 0.0, 0.3);
      b.contacts[0].mu_along = bad[i];
      b.contacts[1].mu_across = INFINITY;
      g_assert_cmpuint (fl_equilibrium_capacity (&b.body, &b.held, left).skipped, ==, 2);
      b.contacts[2].at.x = NAN;
      b.contacts[3].at.y = INFINITY;
      assert_mode (&b, left, FL_UNSTABLE_AT_REST);
    }
}

/* No end: a thousand weights hold a thousand g, what presses the load onto the deck can press as it likes, and friction has its own end. */
static void
test_endless (void)
{
  FlCapacity c;
  Block b;

  block (&b, 1000, 4.0, 2.0, 0.0, 0.0);
  add_pull (&b, (FlVec) { 0, 0, 0 }, rearward, INFINITY);
  c = capacity (&b, forward);
  assert_near (c.g, 1000.0, 1e-3);
  assert_near (c.tension[0], 1000.0 * 1000 * gravity, 1.0);
  c = fl_equilibrium_capacity (&b.body, &b.held, (FlVec) { 0, 0, -1 });
  assert_answer (&c);
  assert_near (c.g, 1000.0, 1e-9);
  assert_near (c.bound, 1000.0, 1e-9);
  g_assert_cmpfloat (fl_vec_norm (c.moves) + fl_vec_norm (c.turns), ==, 0.0);
  b.pulls[0].limit = 0.0;
  assert_holds (&b, forward, 0.0, FL_SLIDES);
  for (guint j = 0; j < 4; j++)
    b.contacts[j].mu_along = b.contacts[j].mu_across = DBL_MAX;
  c = capacity (&b, forward);
  assert_answer (&c);
  assert_near (c.g, FL_STATICS_GRIP, 1e-3);
}

/* As many as there may be, and more: what is beyond is not looked at. */
static void
test_full (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (99);

  for (guint round = 0; round < 40; round++)
    {
      FlContact contacts[FL_MAX_CONTACTS + 1];
      FlPull pulls[FL_MAX_PULLS + 1];
      FlSharedLimit shared[FL_MAX_SHARED + 1];
      FlBody body = { .mass = 20000, .g = gravity, .cg = { 0, 0, 1 }, .contacts = contacts, .n_contacts = FL_MAX_CONTACTS };
      FlPulls held = { .pulls = pulls, .n = FL_MAX_PULLS, .shared = shared, .n_shared = FL_MAX_SHARED };
      FlCapacity c, more;

      for (guint j = 0; j <= FL_MAX_CONTACTS; j++)
        contacts[j] = (FlContact) { .at = random_place (rand, 2.0), .mu_along = g_rand_double (rand), .mu_across = g_rand_double (rand) };
      for (guint i = 0; i <= FL_MAX_PULLS; i++)
        {
          pulls[i] = (FlPull) { .at = random_place (rand, 2.0), .along = random_unit (rand), .tie = g_rand_int_range (rand, 0, 40) };
          pulls[i].limit = g_rand_double_range (rand, 0.0, 40e3);
        }
      for (guint s = 0; s <= FL_MAX_SHARED; s++)
        shared[s] = (FlSharedLimit) { g_rand_double_range (rand, 0.0, 60e3), G_GUINT64_CONSTANT (0x8000000180000001) << (s % 31) };
      c = fl_equilibrium_capacity (&body, &held, random_unit (rand));
      assert_answer (&c);
      g_assert_cmpfloat (c.bound - c.g, <=, FL_STATICS_GAP * (1.0 + c.g));
      c = fl_equilibrium_capacity (&body, &held, forward);
      body.n_contacts++;
      held.n++;
      held.n_shared++;
      more = fl_equilibrium_capacity (&body, &held, forward);
      g_assert_cmpmem (&c, sizeof c, &more, sizeof more);
    }
}

static void
test_mode_ids (void)
{
  const char *const ids[] = { "slides", "tips", "yaws", "lifts", "unstable_at_rest", "not_judged" };

  for (guint m = 0; m < FL_N_MODES; m++)
    g_assert_cmpstr (fl_mode_id ((FlMode) m), ==, ids[m]);
  g_assert_cmpstr (fl_mode_id (FL_N_MODES), ==, "not_judged");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/statics/equilibrium/sliding-block", test_sliding_block);
  g_test_add_func ("/statics/equilibrium/ellipse", test_ellipse);
  g_test_add_func ("/statics/equilibrium/tipping-block", test_tipping_block);
  g_test_add_func ("/statics/equilibrium/four-symmetric", test_four_symmetric);
  g_test_add_func ("/statics/equilibrium/direct-lashing", test_direct_lashing);
  g_test_add_func ("/statics/equilibrium/tipping-levers", test_tipping_levers);
  g_test_add_func ("/statics/equilibrium/yaw", test_yaw);
  g_test_add_func ("/statics/equilibrium/over", test_over);
  g_test_add_func ("/statics/equilibrium/shared-limit", test_shared_limit);
  g_test_add_func ("/statics/equilibrium/stop", test_stop);
  g_test_add_func ("/statics/equilibrium/up", test_up);
  g_test_add_func ("/statics/equilibrium/cannot-stand", test_cannot_stand);
  g_test_add_func ("/statics/equilibrium/coincident", test_coincident);
  g_test_add_func ("/statics/equilibrium/one-side", test_one_side);
  g_test_add_func ("/statics/equilibrium/not-judged", test_not_judged);
  g_test_add_func ("/statics/equilibrium/left-out", test_left_out);
  g_test_add_func ("/statics/equilibrium/endless", test_endless);
  g_test_add_func ("/statics/equilibrium/full", test_full);
  g_test_add_func ("/statics/equilibrium/mode-ids", test_mode_ids);
  return g_test_run ();
}
