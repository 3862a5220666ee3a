/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The upper bound against other people's solvers: GLPK here and now, HiGHS (by SciPy) as recorded in equilibrium-oracle.inc, and without any
 * solver by weak duality: a state that balances and a motion that no state can outdo, with the same figure, are a proof. */
#include "fl-test-glpk.h"

#include "equilibrium-oracle.inc"

enum { WITH_GLPK = 300, PROVEN = 10000 };

/* Between the polygon within the cone and the one around it; 1e-6 for the solvers' own tolerances and ours. */
static void
assert_between (guint number, FlCapacity ours, double least, double most)
{
  double slack = 1e-6 * (1.0 + fabs (most));

  if (most < 0.0 && ours.mode != FL_UNSTABLE_AT_REST)
    g_error ("rig %u: stands here (%s), and not even on wider cones there", number, fl_mode_id (ours.mode));
  if (least >= 0.0 && ours.mode == FL_UNSTABLE_AT_REST)
    g_error ("rig %u: does not stand here, and does on narrower cones there", number);
  if (ours.mode != FL_UNSTABLE_AT_REST && (ours.g < least - slack || ours.g > most + slack))
    g_error ("rig %u: %.9f, and should be from %.9f to %.9f", number, ours.g, least, most);
}

static void
test_glpk (void)
{
  guint standing = 0;

  for (guint number = 5000; number < 5000 + WITH_GLPK; number++)
    {
      TestRig rig;
      double least;

      test_rig (number, &rig);
      least = glpk_capacity (&rig, 1.0);
      standing += least >= 0.0;
      assert_between (number, test_rig_capacity (&rig), least, glpk_capacity (&rig, CONE_AROUND));
    }
  g_assert_cmpuint (standing, >, WITH_GLPK * 3 / 4);
  g_assert_cmpuint (standing, <, WITH_GLPK);
}

static void
test_highs (void)
{
  g_assert_cmpuint (G_N_ELEMENTS (equilibrium_oracle), ==, 1000);
  for (guint number = 0; number < G_N_ELEMENTS (equilibrium_oracle); number++)
    {
      TestRig rig;

      test_rig (number, &rig);
      assert_between (number, test_rig_capacity (&rig), equilibrium_oracle[number][0], equilibrium_oracle[number][1]);
    }
}

/* The six equations once more, about the origin and not about the center of gravity; cone, limits, ties. */
static void
assert_state (guint number, const TestRig *rig, const FlCapacity *c)
{
  double weight = rig->body.mass * rig->body.g;
  FlVec force = fl_vec_scale (fl_vec_sub (fl_vec_scale (rig->direction, c->g), (FlVec) { 0, 0, 1 }), weight);
  FlVec moment = fl_vec_cross (rig->body.cg, force);

  for (gsize i = 0; i < rig->held.n; i++)
    {
      FlVec f = fl_vec_scale (rig->pulls[i].along, c->tension[i]);

      g_assert_true (c->tension[i] >= 0.0 && c->tension[i] <= rig->pulls[i].limit);
      force = fl_vec_add (force, f);
      moment = fl_vec_add (moment, fl_vec_cross (rig->pulls[i].at, f));
    }
  for (gsize j = 0; j < rig->body.n_contacts; j++)
    {
      FlVec f = c->force[j];
      double mx = rig->contacts[j].mu_along, my = rig->contacts[j].mu_across;

      g_assert_true (f.z >= 0.0 && hypot (my * f.x, mx * f.y) <= mx * my * f.z + 1e-9 * weight);
      g_assert_true (fabs (f.x) <= mx * f.z + 1e-9 * weight && fabs (f.y) <= my * f.z + 1e-9 * weight);
      force = fl_vec_add (force, f);
      moment = fl_vec_add (moment, fl_vec_cross (rig->contacts[j].at, f));
    }
  if (!(fl_vec_norm (force) < 1e-6 * weight && fl_vec_norm (moment) < 1e-6 * weight))
    g_error ("rig %u: %g and %g of the weight are unbalanced", number, fl_vec_norm (force) / weight, fl_vec_norm (moment) / weight);
}

static void
assert_shares (const TestRig *rig, const FlCapacity *c)
{
  for (gsize s = 0; s < rig->held.n_shared; s++)
    {
      double sum = 0.0;

      for (gsize i = 0; i < rig->held.n; i++)
        sum += rig->shared[s].legs >> i & 1 ? c->tension[i] : 0.0;
      g_assert_cmpfloat (sum, <=, rig->shared[s].limit + 1e-9 * rig->body.mass * rig->body.g);
    }
  if (rig->held.n > 1 && rig->pulls[0].tie > 0)
    assert_near (c->tension[0], c->tension[1], 0.0 + 1e-9);
}

static double
pull_power (const FlPull *pull, const FlCapacity *c, FlVec cg)
{
  FlVec velocity = fl_vec_add (c->moves, fl_vec_cross (c->turns, fl_vec_sub (pull->at, cg)));

  return -fl_vec_dot (pull->along, velocity);
}

/* The most that tie-downs can work against the motion, over the weight. A shared limit pays the better of its two legs first; no leg of
 * these rigs hangs on two. */
static double
most_power (const TestRig *rig, const FlCapacity *c)
{
  double weight = rig->body.mass * rig->body.g, sum = 0.0, power[FL_MAX_PULLS];

  for (gsize i = 0; i < rig->held.n; i++)
    power[i] = pull_power (&rig->pulls[i], c, rig->body.cg);
  if (rig->held.n > 1 && rig->pulls[0].tie > 0)
    {
      sum += MAX (0.0, power[0] + power[1]) * MIN (rig->pulls[0].limit, rig->pulls[1].limit);
      power[0] = power[1] = 0.0;
    }
  for (gsize s = 0; s < rig->held.n_shared; s++)
    {
      gsize a = 2 + 2 * s, b = a + 1, better = power[a] > power[b] ? a : b, other = a + b - better;
      double first = MIN (rig->pulls[better].limit, rig->shared[s].limit);

      sum += MAX (0.0, power[better]) * first + MAX (0.0, power[other]) * MIN (rig->pulls[other].limit, rig->shared[s].limit - first);
      power[a] = power[b] = 0.0;
    }
  for (gsize i = 0; i < rig->held.n; i++)
    sum += MAX (0.0, power[i]) * rig->pulls[i].limit;
  return sum / weight;
}

/* Work of any state in the motion: c (moves.d) <= rise of the weight + tie-downs, where no contact force within its cone can work
 * against it. That is so for velocity v where v.z >= |(mu_x v.x, mu_y v.y)|. */
static void
assert_motion (guint number, const TestRig *rig, const FlCapacity *c)
{
  double bound = c->moves.z + most_power (rig, c);

  assert_near (fl_vec_dot (c->moves, rig->direction), 1.0, 1e-9);
  for (gsize j = 0; j < rig->body.n_contacts; j++)
    {
      FlVec v = fl_vec_add (c->moves, fl_vec_cross (c->turns, fl_vec_sub (rig->contacts[j].at, rig->body.cg)));

      g_assert_cmpfloat (v.z, >=, hypot (rig->contacts[j].mu_along * v.x, rig->contacts[j].mu_across * v.y) - 1e-9 * (1.0 + fl_vec_norm (v)));
    }
  if (!(bound <= c->g + FL_STATICS_GAP + 1e-8 * bound && bound >= c->g - 1e-6))
    g_error ("rig %u: %.9f is reached and %.9f proven", number, c->g, bound);
  g_assert_cmpfloat (c->bound, >=, c->g);
  g_assert_cmpfloat (c->bound, <=, c->g + FL_STATICS_GAP);
  assert_near (c->bound, bound, 1e-6);
}

/* What is at its limit is there, or what it hangs on is, and it gives way with a power over nothing. */
static void
assert_at_limit (guint number, const TestRig *rig, const FlCapacity *c)
{
  for (gsize i = 0; i < rig->held.n; i++)
    {
      gsize s = i / 2 - 1;
      gboolean shares = i >= 2 && s < rig->held.n_shared, reached = c->tension[i] >= rig->pulls[i].limit * 0.999;

      if (!(c->at_limit >> i & 1) || rig->pulls[i].tie > 0)
        continue;
      if (shares && c->tension[2 + 2 * s] + c->tension[3 + 2 * s] >= rig->shared[s].limit * 0.999)
        reached = TRUE;
      if (!reached || !(pull_power (&rig->pulls[i], c, rig->body.cg) > 0.0))
        g_error ("rig %u: pull %zu is not short with %.9g N", number, i, c->tension[i]);
    }
}

static void
test_proof (void)
{
  guint modes[FL_N_MODES] = { 0 };

  for (guint number = 10000; number < 10000 + PROVEN; number++)
    {
      TestRig rig;
      FlCapacity c;

      test_rig (number, &rig);
      c = test_rig_capacity (&rig);
      g_assert_cmpuint (c.iterations, <, FL_STATICS_ITERATIONS);
      g_assert_true (c.mode < FL_N_MODES);
      modes[c.mode]++;
      if (c.mode == FL_UNSTABLE_AT_REST)
        continue;
      assert_state (number, &rig, &c);
      assert_shares (&rig, &c);
      assert_motion (number, &rig, &c);
      assert_at_limit (number, &rig, &c);
    }
  for (guint m = 0; m < FL_NOT_JUDGED; m++)
    g_assert_cmpuint (modes[m], >, 20);
  g_assert_cmpuint (modes[FL_NOT_JUDGED], ==, 0);
}

int
main (int argc, char **argv)
{
  int result;

  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/statics/equilibrium/glpk", test_glpk);
  g_test_add_func ("/statics/equilibrium/highs-recorded", test_highs);
  g_test_add_func ("/statics/equilibrium/proof", test_proof);
  result = g_test_run ();
  glp_free_env ();
  return result;
}
