/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Load sharing by hand: what statics and strength of materials say of springs, friction and blocks (each case names its rule), and
 * the answers to what has none. */
#include "fl-sharing.h"
#include "fl-test-random.h"

#define G 9.80665
#define WEIGHT (10000 * G)
#define FORWARD ((FlVec) { 1, 0, 0 })
#define LEFT ((FlVec) { 0, 1, 0 })
#define STIFF 1e11      /* N/m: a deck that does not give */

/* 10 t on four corners of 2 x length by 2 x width; what a case wants otherwise, it says. */
typedef struct { FlContact contacts[4]; FlBody body; FlPull pulls[8]; FlSharedLimit shared; FlPulls set; } Rig;

static void
stand_rig (Rig *rig, double length, double width, double height, double mu)
{
  *rig = (Rig) { 0 };
  for (guint i = 0; i < 4; i++)
    rig->contacts[i] = (FlContact) { { i & 1 ? length : -length, i & 2 ? width : -width, 0 }, mu, mu, STIFF, STIFF };
  rig->body = (FlBody) { 10000, G, { 0, 0, height }, rig->contacts, 4 };
  rig->set = (FlPulls) { rig->pulls, 0, &rig->shared, 0 };
}

/* One more pull, 1 MN at 100 percent strain and m of run, nothing else; along need not be of length 1. */
static FlPull *
hang (Rig *rig, FlVec at, FlVec along, double ea, double length)
{
  FlPull *pull = &rig->pulls[rig->set.n++];

  *pull = (FlPull) { .at = at, .along = fl_vec_unit (along), .limit = INFINITY, .ea = ea, .length = length };
  return pull;
}

static FlSharing
share (const Rig *rig, FlVec direction, double demand, double upto)
{
  return fl_sharing_solve (&rig->body, &rig->set, direction, demand, upto, 20);
}

#define assert_settled(s, g) G_STMT_START { \
  g_assert_true ((s).converged); \
  g_assert_cmpfloat ((s).reached, ==, g); \
  g_assert_cmpuint ((s).steps, ==, 20); \
  g_assert_cmpfloat ((s).residual, <, 1e-6); \
} G_STMT_END

/* ── springs ── */

/* Equilibrium of concurrent forces (any statics text): four chains to the corners, the two that hold bear c W / (2 cos a cos b) each, whatever they are
 * made of; the others go slack. It moves T L / EA / (cos a cos b). */
static void
test_four_chains (void)
{
  const double ux = 0.6, uy = 0.48, uz = 0.64;
  Rig rig;
  FlSharing s;

  stand_rig (&rig, 2, 1, 1, 0);
  for (guint i = 0; i < 4; i++)
    {
      double x = i & 1 ? 1 : -1, y = i & 2 ? 1 : -1;

      hang (&rig, (FlVec) { x, y, 1 }, (FlVec) { x * ux, y * uy, -uz }, 7e6, 2);
    }
  s = share (&rig, FORWARD, 0.8, 0.8);
  assert_settled (s, 0.8);
  for (guint i = 0; i < 4; i++)
    assert_near (s.tension[i], i & 1 ? 0 : 0.8 * WEIGHT / (2 * ux), 1e-2);
  assert_near (s.moved.x, 0.8 * WEIGHT / (2 * ux) * 2 / 7e6 / ux, 1e-4);
  s = share (&rig, LEFT, 0.5, 0.5);
  assert_settled (s, 0.5);
  for (guint i = 0; i < 4; i++)
    assert_near (s.tension[i], i & 2 ? 0 : 0.5 * WEIGHT / (2 * uy), 1e-2);
}

/* Springs in parallel: P k1 / (k1 + k2) and P k2 / (k1 + k2), moved P / (k1 + k2) (any physics text). A chain beside a web strap: the chain has it. */
static void
test_parallel (void)
{
  const double k1 = 4.52e6 / 2, k2 = 357e3 / 2, load = 0.5 * WEIGHT;
  Rig rig;
  FlSharing s;

  stand_rig (&rig, 2, 1, 1, 0);
  hang (&rig, (FlVec) { -2, 0, 1 }, (FlVec) { -1, 0, 0 }, 4.52e6, 2)->limit = 40e3;
  hang (&rig, (FlVec) { -2, 0, 1 }, (FlVec) { -1, 0, 0 }, 357e3, 2)->limit = 25e3;
  s = share (&rig, FORWARD, 0.5, 2);
  assert_settled (s, 0.5);
  assert_near (s.tension[0], load * k1 / (k1 + k2), 0.02);
  assert_near (s.tension[1], load * k2 / (k1 + k2), 0.02);
  assert_near (s.moved.x, load / (k1 + k2), 1e-8);
  assert_near (s.holds, 40e3 * (k1 + k2) / k1 / WEIGHT, 1e-6);
  assert_near (s.use, load * k1 / (k1 + k2) / 40e3, 1e-6);
  g_assert_cmpuint (s.worst, ==, 0);
}

/* Springs in series: 1/k = 1/k1 + 1/k2 (any physics text): chain and what binder, anchor and machine point give. And a run over the load: one
 * tension, the stretches add. */
static void
test_series (void)
{
  const double load = 0.4 * WEIGHT;
  Rig rig;
  FlSharing s;

  stand_rig (&rig, 2, 1, 1, 0);
  hang (&rig, (FlVec) { -2, 0, 1 }, (FlVec) { -1, 0, 0 }, 7.07e6, 3)->give = 1 / 30e6;
  s = share (&rig, FORWARD, 0.4, 0.4);
  assert_settled (s, 0.4);
  assert_near (s.tension[0], load, 0.02);
  assert_near (s.moved.x, load * (3 / 7.07e6 + 1 / 30e6), 1e-8);

  stand_rig (&rig, 2, 1, 1, 0);
  for (guint i = 0; i < 2; i++)
    {
      FlPull *leg = hang (&rig, (FlVec) { -2, i ? 1 : -1, 1 }, (FlVec) { -1, 0, 0 }, 7.07e6, i ? 3 : 1);

      leg->tie = 9;
      leg->give = 1 / 30e6;
      leg->limit = i ? 1e5 : 2e4;
    }
  s = share (&rig, FORWARD, 0.4, 2);
  assert_settled (s, 0.4);
  assert_near (s.tension[0], load / 2, 0.02);
  assert_near (s.tension[1], load / 2, 0.02);
  assert_near (s.moved.x, load / 2 * (4 / 7.07e6 + 2 / 30e6) / 2, 1e-8);
  assert_near (s.holds, 2 * 2e4 / WEIGHT, 1e-6);        /* the least limit of its legs */
}

/* Preloaded pair, as a bolted joint (VDI 2230 and any machine elements text, from memory): while both pull, each takes half of the load, +
 * and -; when one is slack, the other takes all. */
static void
test_pretension (void)
{
  const double k = 7e6 / 2, preload = 15e3;
  Rig rig;
  FlSharing s;

  stand_rig (&rig, 2, 1, 1, 0);
  for (guint i = 0; i < 2; i++)
    hang (&rig, (FlVec) { i ? 2 : -2, 0, 1 }, (FlVec) { i ? 1 : -1, 0, 0 }, 7e6, 2)->pretension = preload;
  s = share (&rig, FORWARD, 0.2, 0.2);
  assert_settled (s, 0.2);
  assert_near (s.tension[0], preload + 0.1 * WEIGHT, 0.02);
  assert_near (s.tension[1], preload - 0.1 * WEIGHT, 0.02);
  assert_near (s.moved.x, 0.1 * WEIGHT / k, 1e-8);
  s = share (&rig, FORWARD, 0.6, 0.6);
  assert_settled (s, 0.6);
  assert_near (s.tension[0], 0.6 * WEIGHT, 0.02);
  assert_near (s.tension[1], 0, 1e-9);
  assert_near (s.moved.x, (0.6 * WEIGHT - preload) / k, 1e-8);
}

/* A stop in front: a bar pushes along -x, stiff; a gap first is a pretension under zero. Springs in parallel again. */
static void
test_stop (void)
{
  const double stop = 1e8, chain = 3.5e6, load = 0.5 * WEIGHT, gap = 0.004;
  Rig rig;
  FlSharing s;

  stand_rig (&rig, 2, 1, 1, 0);
  rig.pulls[0] = (FlPull) { .at = { 2, 0, 1 }, .along = { -1, 0, 0 }, .limit = 60e3, .ea = NAN, .give = 1 / stop };
  rig.set.n = 1;
  hang (&rig, (FlVec) { -2, 0, 1 }, (FlVec) { -1, 0, 0 }, 7e6, 2);
  s = share (&rig, FORWARD, 0.5, 0.5);
  assert_settled (s, 0.5);
  g_assert_cmpuint (s.skipped, ==, 0);
  assert_near (s.tension[0], load * stop / (stop + chain), 0.05);
  assert_near (s.tension[1], load * chain / (stop + chain), 0.05);
  rig.pulls[0].pretension = -gap * stop;
  s = share (&rig, FORWARD, 0.5, 0.5);
  assert_settled (s, 0.5);
  assert_near (s.moved.x, (load + gap * stop) / (stop + chain), 1e-8);
  assert_near (s.tension[1], chain * (load + gap * stop) / (stop + chain), 0.05);
}

/* Compatibility, T = k_i u cos a_i (any strength of materials text): the short steep chain takes more than the long one that lies in the way, although
 * it holds a fifth as much lengthwise for each newton. The plain sum of what both may bear would be enough. */
static void
test_short_and_steep (void)
{
  const FlVec steep = { -0.173648, 0, -0.984808 }, flat = { -0.866025, 0, -0.5 };
  const double limit = 40e3, sum = limit * (0.173648 + 0.866025);
  double ratio = (7e6 / 0.5 * 0.173648) / (7e6 / 5 * 0.866025), both = 0.4 * WEIGHT / (0.866025 + 0.173648 * ratio);
  Rig rig;
  FlSharing s;

  stand_rig (&rig, 2, 1, 0.5, 0);
  hang (&rig, (FlVec) { 0, 0, 0.5 }, steep, 7e6, 0.5)->limit = limit;
  hang (&rig, (FlVec) { 0, 0, 0.5 }, flat, 7e6, 5)->limit = limit;
  s = share (&rig, FORWARD, 0.4, 0.4);
  assert_settled (s, 0.4);
  g_assert_cmpfloat (ratio, >, 2);
  assert_near (s.tension[1] / both, 1, 2e-3);
  assert_near (s.tension[0] / (ratio * both), 1, 2e-3);
  g_assert_cmpfloat (sum, >, 0.4 * WEIGHT);
  g_assert_cmpfloat (s.use, >, 1.5);
  g_assert_cmpuint (s.worst, ==, 0);
  assert_near (s.holds, 0.4 * limit / s.tension[0], 1e-3);
}

/* Two pulls on one point: their plain sum reaches the point's rating first. */
static void
test_shared_limit (void)
{
  Rig rig;
  FlSharing s;

  stand_rig (&rig, 2, 1, 1, 0);
  for (guint i = 0; i < 2; i++)
    hang (&rig, (FlVec) { -2, 0, 1 }, (FlVec) { -1, 0, 0 }, i ? 7e6 : 3.5e6, 2)->limit = 50e3;
  rig.shared = (FlSharedLimit) { 30e3, 3 };
  rig.set.n_shared = 1;
  s = share (&rig, FORWARD, 0.25, 1);
  assert_settled (s, 0.25);
  assert_near (s.holds, 30e3 / WEIGHT, 1e-6);
  assert_near (s.use, 0.25 * WEIGHT / 30e3, 1e-6);
  g_assert_cmpuint (s.worst, ==, 1);
}

/* ── friction and blocks ── */

/* Coulomb (1785; any statics text): a block on a level floor slides when c > mu; until then it only shears, c W / sum of shear. */
static void
test_sliding (void)
{
  Rig rig;
  FlSharing s;

  stand_rig (&rig, 2, 1, 0, 0.3);
  for (guint i = 0; i < 4; i++)
    rig.contacts[i].shear = 1e7;
  s = share (&rig, FORWARD, 0.29, 0.29);
  assert_settled (s, 0.29);
  assert_near (s.moved.x, 0.29 * WEIGHT / 4e7, 1e-7);
  g_assert_true (isinf (s.holds));
  s = share (&rig, FORWARD, 0.5, 1);
  g_assert_false (s.converged);
  assert_near (s.reached, 0.3, 0.025 + 1e-9);           /* the last step that stands, of 0.025 */
  g_assert_cmpfloat (s.holds, ==, s.reached);
  s = share (&rig, FORWARD, 0.2, 1);                    /* demand met; it goes away beyond it, no limit anywhere */
  assert_settled (s, 0.2);
  assert_near (s.holds, 0.3, 0.01 + 1e-9);
}

/* A block of 2 b by h tips about its edge when c > b / h (h: height of the center of gravity; any statics text); just before it the
 * other edge is free and all its weight stands on one. */
static void
test_tipping (void)
{
  Rig rig;
  FlSharing s;

  stand_rig (&rig, 2, 0.5, 1, 2);
  s = share (&rig, LEFT, 0.4999, 0.4999);
  assert_settled (s, 0.4999);
  for (guint i = 0; i < 4; i++)
    assert_near (s.force[i].z / WEIGHT, i & 2 ? 0.5 : 0, 1e-3);
  s = share (&rig, LEFT, 0.6, 1);
  g_assert_false (s.converged);
  assert_near (s.reached, 0.5, 0.03 + 1e-9);
  g_assert_cmpfloat (s.holds, ==, s.reached);
}

/* Past it a chain holds it: moments about the edge, T at height 1.5 straight across: T 1.5 = W (c 1 - 0.5). */
static void
test_tipping_held (void)
{
  Rig rig;
  FlSharing s;

  stand_rig (&rig, 2, 0.5, 1, 2);
  hang (&rig, (FlVec) { 0, -0.5, 1.5 }, (FlVec) { 0, -1, 0 }, 7e6, 1);
  s = share (&rig, LEFT, 0.8, 0.8);
  assert_settled (s, 0.8);
  assert_near (s.tension[0], WEIGHT * 0.3 / 1.5, 1);
  g_assert_cmpfloat (fabs (s.force[0].z) + fabs (s.force[1].z), <, 1e-9);
  g_assert_cmpfloat (s.turned.x, <, 0);                 /* its top goes left: about x by the left hand */
}

/* A wheel that may roll holds across and not along: the ellipse with axes 0.02 and 0.6; all four alike. */
static void
test_rolling (void)
{
  Rig rig;
  FlSharing s;

  stand_rig (&rig, 2, 1, 0, 0.6);
  for (guint i = 0; i < 4; i++)
    rig.contacts[i].mu_along = 0.02;
  g_assert_true (share (&rig, LEFT, 0.59, 0.59).converged);
  g_assert_false (share (&rig, LEFT, 0.61, 0.61).converged);
  g_assert_true (share (&rig, FORWARD, 0.019, 0.019).converged);
  g_assert_false (share (&rig, FORWARD, 0.021, 0.021).converged);
  s = share (&rig, (FlVec) { 0.6, 0.8, 0 }, 0.0332, 0.1);       /* 0.6 c / 0.02 and 0.8 c / 0.6: slides at c = 0.03330 */
  g_assert_true (s.converged);
  g_assert_cmpfloat (s.holds, <=, 0.0334);
}

/* ── no answer ── */

static void
assert_no_answer (FlSharing s)
{
  g_assert_false (s.converged);
  g_assert_true (s.reached == 0 && s.use == 0 && s.holds == 0 && s.worst == 0 && s.residual == 0 && s.steps == 0);
  for (guint i = 0; i < FL_MAX_PULLS; i++)
    g_assert_cmpfloat (s.tension[i], ==, 0);
  g_assert_true (fl_vec_norm (s.moved) == 0 && fl_vec_norm (s.turned) == 0);
}

static void
assert_sane (FlSharing s)
{
  g_assert_true (isfinite (s.reached) && s.reached >= 0 && s.use >= 0 && s.holds >= 0 && isfinite (s.residual));
  g_assert_true (fl_vec_is_finite (s.moved) && fl_vec_is_finite (s.turned));
  for (guint i = 0; i < FL_MAX_PULLS; i++)
    g_assert_true (isfinite (s.tension[i]) && s.tension[i] >= 0);
  for (guint i = 0; i < FL_MAX_CONTACTS; i++)
    g_assert_true (fl_vec_is_finite (s.force[i]) && s.force[i].z >= 0);
}

static void
usual_rig (Rig *rig)
{
  stand_rig (rig, 2, 1, 1, 0.3);
  for (guint i = 0; i < 4; i++)
    {
      rig->contacts[i].stiffness = 2e6;
      rig->contacts[i].shear = 1e6;
      hang (rig, (FlVec) { i & 1 ? 1 : -1, i & 2 ? 1 : -1, 1 }, (FlVec) { i & 1 ? 1 : -1, i & 2 ? 0.5 : -0.5, -1 }, 7e6, 1.5)->limit = 30e3;
    }
}

static void
test_nothing_to_stand_on (void)
{
  const double bad[] = { NAN, INFINITY, -INFINITY, 0, -1 };
  Rig rig;

  usual_rig (&rig);
  rig.body.n_contacts = 0;
  assert_no_answer (share (&rig, FORWARD, 0.5, 1));
  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      usual_rig (&rig);
      rig.body.mass = bad[i];
      assert_no_answer (share (&rig, FORWARD, 0.5, 1));
      usual_rig (&rig);
      rig.body.g = bad[i];
      assert_no_answer (share (&rig, FORWARD, 0.5, 1));
      usual_rig (&rig);
      for (guint k = 0; k < 4; k++)
        rig.contacts[k].stiffness = bad[i];
      assert_no_answer (share (&rig, FORWARD, 0.5, 1));
      g_assert_cmpuint (share (&rig, FORWARD, 0.5, 1).skipped, ==, 4);
      usual_rig (&rig);
      rig.body.cg.z = bad[i] == 0 || bad[i] == -1 ? NAN : bad[i];
      assert_no_answer (share (&rig, FORWARD, 0.5, 1));
    }
}

/* The center of gravity outside the contacts: it falls over where it stands. A chain that holds it back lets it stand. */
static void
test_outside (void)
{
  Rig rig;

  stand_rig (&rig, 2, 1, 1, 0.3);
  rig.body.cg.x = 2.5;
  assert_no_answer (share (&rig, FORWARD, 0.5, 1));
  hang (&rig, (FlVec) { -2, 0, 1 }, (FlVec) { 0, 0, -1 }, 7e6, 1);
  g_assert_true (share (&rig, FORWARD, 0.1, 0.1).converged);
  g_assert_cmpfloat (share (&rig, FORWARD, 0, 0).tension[0], >, WEIGHT * 0.5 / 4 * 0.99);
}

/* All on one side, without friction: nothing holds it the other way. */
static void
test_one_side (void)
{
  Rig rig;
  FlSharing s;

  stand_rig (&rig, 2, 1, 1, 0);
  hang (&rig, (FlVec) { -2, 1, 1 }, (FlVec) { -1, 0, -1 }, 7e6, 2);
  hang (&rig, (FlVec) { -2, -1, 1 }, (FlVec) { -1, 0, -1 }, 7e6, 2);
  g_assert_true (share (&rig, FORWARD, 0.5, 0.5).converged);
  s = share (&rig, (FlVec) { -1, 0, 0 }, 0.5, 0.5);
  g_assert_false (s.converged);
  g_assert_true (s.reached == 0 && s.holds == 0);
  assert_sane (s);
}

/* All in one place: no lever anywhere, and no NaN. */
static void
test_coincident (void)
{
  Rig rig;
  FlSharing s;

  usual_rig (&rig);
  for (guint i = 0; i < 4; i++)
    rig.contacts[i].at = rig.pulls[i].at = rig.body.cg;
  s = share (&rig, FORWARD, 0.2, 0.4);
  g_assert_true (s.converged);
  assert_sane (s);
  for (guint i = 0; i < 4; i++)
    rig.contacts[i].at = (FlVec) { 0, 0, 0 };   /* one foot under it: as the weight stands, upright; as soon as it is pushed, over */
  assert_sane (share (&rig, FORWARD, 0.2, 0.4));
}

static void
test_directions (void)
{
  const FlVec bad[] = { { 0, 0, 0 }, { 1, 1, 0 }, { NAN, 0, 0 }, { INFINITY, 0, 0 } };
  const double demands[] = { NAN, INFINITY, -0.1 };
  Rig rig;

  usual_rig (&rig);
  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    assert_no_answer (share (&rig, bad[i], 0.5, 1));
  for (guint i = 0; i < G_N_ELEMENTS (demands); i++)
    assert_no_answer (share (&rig, FORWARD, demands[i], 1));
}

/* Whatever upto is, it ends; not a number, or under the demand: nothing beyond the demand is looked at. */
static void
test_upto (void)
{
  const double none[] = { NAN, -1, 0, 0.3 };
  Rig rig;

  usual_rig (&rig);
  for (guint i = 0; i < G_N_ELEMENTS (none); i++)
    g_assert_true (isinf (share (&rig, FORWARD, 0.3, none[i]).holds));
  for (guint i = 0; i < 4; i++)
    rig.pulls[i].limit = INFINITY;
  g_assert_true (share (&rig, FORWARD, 0.3, INFINITY).converged);
  g_assert_true (share (&rig, FORWARD, 0, INFINITY).converged);
  assert_sane (share (&rig, FORWARD, 0, 0));
  g_assert_true (fl_sharing_solve (&rig.body, &rig.set, FORWARD, 0.3, 0.3, 0).converged);
  g_assert_cmpuint (fl_sharing_solve (&rig.body, &rig.set, FORWARD, 0.3, 0.3, G_MAXUINT).steps, ==, FL_SHARING_MOST_STEPS);
}

/* A limit of 0: use is infinite as soon as there is tension, and it holds until then. */
static void
test_no_limit_at_all (void)
{
  Rig rig;
  FlSharing s;

  usual_rig (&rig);
  rig.pulls[0].limit = 0;
  s = share (&rig, FORWARD, 0.8, 0.8);
  g_assert_true (isinf (s.use) && s.worst == 0 && s.holds == 0);
  s = share (&rig, (FlVec) { -1, 0, 0 }, 0.8, 0.8);     /* it goes slack this way */
  g_assert_true (isfinite (s.use) && s.worst != 0 && s.holds > 0);
  rig.pulls[0].pretension = 100;
  g_assert_true (share (&rig, FORWARD, 0.8, 0.8).holds == 0);
}

/* A pull that is not sound is left out and counted, and all others answer as if it were not there. */
static void
test_skipped_pulls (void)
{
  const FlPull good = { .at = { 0, 0, 1 }, .along = { -1, 0, 0 }, .limit = 1e4, .ea = 7e6, .length = 2 };
  FlPull bad[11];
  Rig rig;
  double without[4];

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    bad[i] = good;
  bad[0].at.x = NAN;
  bad[1].along.x = 0.5;
  bad[2].along.x = NAN;
  bad[3].limit = -1;
  bad[4].limit = NAN;
  bad[5].ea = 0;
  bad[6].ea = NAN;
  bad[7].length = 0;
  bad[8].give = -1;
  bad[9].pretension = INFINITY;
  bad[10].length = -2;
  usual_rig (&rig);
  memcpy (without, share (&rig, FORWARD, 0.5, 0.5).tension, sizeof without);
  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      FlSharing s;

      rig.pulls[4] = bad[i];
      rig.set.n = 5;
      s = share (&rig, FORWARD, 0.5, 0.5);
      g_assert_cmpuint (s.skipped, ==, 1);
      g_assert_cmpfloat (s.tension[4], ==, 0);
      for (guint k = 0; k < 4; k++)
        g_assert_cmpfloat (s.tension[k], ==, without[k]);
      rig.pulls[4].tie = rig.pulls[5].tie = 2;
      rig.pulls[5] = good;
      rig.pulls[5].tie = 2;
      rig.set.n = 6;
      g_assert_cmpuint (share (&rig, FORWARD, 0.5, 0.5).skipped, ==, 2);        /* one leg takes its tie with it */
    }
}

/* Wildly wrong numbers in every place: an answer without NaN, always. */
static void
test_wild (void)
{
  const double wild[] = { NAN, INFINITY, -INFINITY, 0, -1, 1e-300, 1e300, 1e-9, 1e9 };
  Rig rig;

  G_STATIC_ASSERT (sizeof (FlContact) == 7 * sizeof (double) && offsetof (FlPull, tie) == 11 * sizeof (double));
  for (gsize at = 0; at < offsetof (FlPull, tie) / sizeof (double); at++)
    for (guint i = 0; i < G_N_ELEMENTS (wild); i++)
      {
        usual_rig (&rig);
        ((double *) &rig.pulls[1])[at] = wild[i];
        assert_sane (share (&rig, FORWARD, 0.5, 1));
      }
  for (gsize at = 0; at < sizeof (FlContact) / sizeof (double); at++)
    for (guint i = 0; i < G_N_ELEMENTS (wild); i++)
      {
        usual_rig (&rig);
        ((double *) &rig.contacts[1])[at] = wild[i];
        assert_sane (share (&rig, FORWARD, 0.5, 1));
      }
  for (gsize at = 0; at < 5; at++)
    for (guint i = 0; i < G_N_ELEMENTS (wild); i++)
      {
        usual_rig (&rig);
        ((double *) &rig.body)[at] = wild[i];
        assert_sane (share (&rig, FORWARD, 0.5, 1));
      }
}

/* Several at once, at random places. */
static void
test_chaos (void)
{
  const double wild[] = { NAN, INFINITY, -INFINITY, 0, -1, 1e-300, 1e300, 1e-9, 1e9, 1e-3, 0.5, 2, 1e4 };
  g_autoptr(GRand) rand = g_rand_new_with_seed (611);

  for (guint i = 0; i < 3000; i++)
    {
      Rig rig;

      usual_rig (&rig);
      rig.set.n_shared = 1;
      rig.shared = (FlSharedLimit) { wild[g_rand_int_range (rand, 0, G_N_ELEMENTS (wild))], g_rand_int (rand) };
      for (guint k = 0; k < 6; k++)
        {
          double to = wild[g_rand_int_range (rand, 0, G_N_ELEMENTS (wild))];
          gint pull = g_rand_int_range (rand, 0, 4), contact = g_rand_int_range (rand, 0, 4);

          if (k & 1)
            ((double *) &rig.pulls[pull])[g_rand_int_range (rand, 0, 11)] = to;
          else
            ((double *) &rig.contacts[contact])[g_rand_int_range (rand, 0, 7)] = to;
          rig.pulls[pull].tie = (guint) g_rand_int_range (rand, 0, 3);
        }
      assert_sane (share (&rig, FORWARD, 0.5, wild[i % G_N_ELEMENTS (wild)]));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/statics/sharing/four-chains", test_four_chains);
  g_test_add_func ("/statics/sharing/parallel", test_parallel);
  g_test_add_func ("/statics/sharing/series", test_series);
  g_test_add_func ("/statics/sharing/pretension", test_pretension);
  g_test_add_func ("/statics/sharing/stop", test_stop);
  g_test_add_func ("/statics/sharing/short-and-steep", test_short_and_steep);
  g_test_add_func ("/statics/sharing/shared-limit", test_shared_limit);
  g_test_add_func ("/statics/sharing/sliding", test_sliding);
  g_test_add_func ("/statics/sharing/tipping", test_tipping);
  g_test_add_func ("/statics/sharing/tipping-held", test_tipping_held);
  g_test_add_func ("/statics/sharing/rolling", test_rolling);
  g_test_add_func ("/statics/sharing/bad/nothing-to-stand-on", test_nothing_to_stand_on);
  g_test_add_func ("/statics/sharing/bad/outside", test_outside);
  g_test_add_func ("/statics/sharing/bad/one-side", test_one_side);
  g_test_add_func ("/statics/sharing/bad/coincident", test_coincident);
  g_test_add_func ("/statics/sharing/bad/directions", test_directions);
  g_test_add_func ("/statics/sharing/bad/upto", test_upto);
  g_test_add_func ("/statics/sharing/bad/no-limit-at-all", test_no_limit_at_all);
  g_test_add_func ("/statics/sharing/bad/skipped-pulls", test_skipped_pulls);
  g_test_add_func ("/statics/sharing/bad/wild", test_wild);
  g_test_add_func ("/statics/sharing/bad/chaos", test_chaos);
  return g_test_run ();
}
