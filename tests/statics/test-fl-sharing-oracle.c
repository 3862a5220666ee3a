/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Load sharing against an independent solver: the answers of sharing_oracle.py (SciPy: least complementary energy without friction, MINPACK step by
 * step with it) as recorded in sharing-oracle.inc; and without any solver, that what it answers balances and slips by Coulomb's law. */
#include "fl-test-sharing-rigs.h"

/* far: how far it went, m, 0 if it stayed; holds: g. */
typedef struct { double far, holds; guint n_rough; double smooth[FL_MAX_PULLS], rough[FL_MAX_PULLS]; } SharingOracle;

#include "sharing-oracle.inc"

enum { MANY = 10000 };

/* Between these it went just about as far as a load may: the answers may differ on whether it stayed. */
#define STAYS (0.9 * FL_STATICS_GONE)
#define GOES (1.1 * FL_STATICS_GONE)

/* A tenth of a percent; a newton where that is nothing. */
static void
assert_tension (guint number, guint i, double ours, double theirs)
{
  if (!(fabs (ours - theirs) <= 0.001 * fabs (theirs) + 1.0))
    g_error ("rig %u, pull %u: %.1f N, and should be %.1f", number, i, ours, theirs);
}

static void
test_smooth (void)
{
  guint stayed = 0, went = 0, limits = 0;

  g_assert_cmpuint (G_N_ELEMENTS (sharing_oracle), ==, 1000);
  for (guint number = 0; number < G_N_ELEMENTS (sharing_oracle); number++)
    {
      const SharingOracle *theirs = &sharing_oracle[number];
      SharingRig rig;
      FlSharing s;

      sharing_rig (number, FALSE, &rig);
      s = sharing_solve (&rig, 2 * rig.demand);
      if (theirs->far >= GOES && s.converged)
        g_error ("rig %u stays, and should go", number);
      if (theirs->far == 0 && !s.converged)
        g_error ("rig %u does not settle, and should", number);
      went += theirs->far >= GOES;
      if (theirs->far > 0)
        continue;
      stayed++;
      for (guint i = 0; i < rig.rig.held.n; i++)
        assert_tension (number, i, s.tension[i], theirs->smooth[i]);
      if (isnan (theirs->holds) || isinf (s.holds) == isinf (theirs->holds))
        limits += isfinite (theirs->holds);
      else
        g_error ("rig %u holds %g, and should hold %g", number, s.holds, theirs->holds);
      if (isfinite (theirs->holds))
        assert_near (s.holds, theirs->holds, 0.001 * theirs->holds + 1e-4);
    }
  g_assert_cmpuint (stayed, >, 500);
  g_assert_cmpuint (limits, >, 400);
  g_assert_cmpuint (went, >, 50);
}

/* Coulomb's law need not have one answer alone; that it has the same here is more than is asked, and nearly always so. */
static void
test_rough (void)
{
  guint compared = 0;

  for (guint number = 0; number < G_N_ELEMENTS (sharing_oracle); number++)
    {
      const SharingOracle *theirs = &sharing_oracle[number];
      SharingRig rig;
      FlSharing s;

      if (theirs->n_rough == 0)
        continue;
      sharing_rig (number, TRUE, &rig);
      g_assert_cmpuint (theirs->n_rough, ==, rig.rig.held.n);
      s = sharing_solve (&rig, rig.demand);
      g_assert_true (s.converged);
      for (guint i = 0; i < rig.rig.held.n; i++)
        assert_tension (number, i, s.tension[i], theirs->rough[i]);
      compared++;
    }
  g_assert_cmpuint (compared, >=, 20);
}

/* ── laws ── */

/* Forces and moments about the origin, of the answer alone. */
static double
left_over (const SharingRig *rig, const FlSharing *s)
{
  const FlBody *body = &rig->rig.body;
  double weight = body->mass * body->g, reach = 0;
  FlVec force = fl_vec_scale (fl_vec_sub (fl_vec_scale (rig->rig.direction, s->reached), (FlVec) { 0, 0, 1 }), weight);
  FlVec moment = fl_vec_cross (body->cg, force);

  for (guint i = 0; i < rig->rig.held.n; i++)
    {
      FlVec f = fl_vec_scale (rig->rig.pulls[i].along, s->tension[i]);

      force = fl_vec_add (force, f);
      moment = fl_vec_add (moment, fl_vec_cross (rig->rig.pulls[i].at, f));
      reach = MAX (reach, fl_vec_norm (fl_vec_sub (rig->rig.pulls[i].at, body->cg)));
    }
  for (guint j = 0; j < body->n_contacts; j++)
    {
      force = fl_vec_add (force, s->force[j]);
      moment = fl_vec_add (moment, fl_vec_cross (rig->rig.contacts[j].at, s->force[j]));
      reach = MAX (reach, fl_vec_norm (fl_vec_sub (rig->rig.contacts[j].at, body->cg)));
    }
  return MAX (fl_vec_norm (force), fl_vec_norm (moment) / reach) / weight;
}

/* Inside its ellipse, and pushing. */
static void
assert_cones (guint number, const SharingRig *rig, const FlSharing *s)
{
  for (guint j = 0; j < rig->rig.body.n_contacts; j++)
    {
      FlVec f = s->force[j];
      double a = rig->rig.contacts[j].mu_along * f.z, b = rig->rig.contacts[j].mu_across * f.z;

      if (!(f.z >= 0) || !(hypot (f.x * b, f.y * a) <= a * b * (1 + 1e-9)) || (a * b == 0 && (f.x != 0 || f.y != 0)))
        g_error ("rig %u, contact %u: %g %g under %g", number, j, f.x, f.y, f.z);
    }
}

/* Stretch of a leg in the motion since the load stood: tension rises by k times it where it pulled before and pulls now. */
static double
stretched (const SharingRig *rig, const FlSharing *s, guint i)
{
  const FlPull *pull = &rig->rig.pulls[i];
  FlVec w = fl_vec_add (s->moved, fl_vec_cross (s->turned, fl_vec_sub (pull->at, rig->rig.body.cg)));

  return -fl_vec_dot (pull->along, w);
}

static void
assert_springs (guint number, const SharingRig *rig, const FlSharing *rest, const FlSharing *s)
{
  for (guint i = 0; i < rig->rig.held.n; i++)
    {
      const FlPull *pull = &rig->rig.pulls[i];
      double k = 1 / ((pull->length > 0 ? pull->length / pull->ea : 0) + pull->give);
      double should = rest->tension[i] + k * stretched (rig, s, i), weight = rig->rig.body.mass * rig->rig.body.g;

      if (pull->tie == 0 && rest->tension[i] > 1 && s->tension[i] > 1 && !(fabs (should - s->tension[i]) <= 1e-6 * weight))
        g_error ("rig %u, pull %u: %g, and its stretch makes %g", number, i, s->tension[i], should);
    }
}

static void
test_laws (void)
{
  guint settled = 0;

  for (guint number = 0; number < (g_test_slow () ? 10 * MANY : MANY); number++)
    {
      SharingRig rig;
      FlSharing s, rest;

      sharing_rig (number, number % 4 != 0, &rig);
      s = sharing_solve (&rig, rig.demand);
      settled += s.converged;
      if (s.holds == 0 && s.steps == 0 && !s.converged)
        continue;
      g_assert_cmpfloat (s.residual, <, 1e-6);
      if (!(left_over (&rig, &s) < 2e-6))
        g_error ("rig %u: %g of the weight is not balanced", number, left_over (&rig, &s));
      assert_cones (number, &rig, &s);
      rest = fl_sharing_solve (&rig.rig.body, &rig.rig.held, rig.rig.direction, 0, 0, 1);
      assert_springs (number, &rig, &rest, &s);
    }
  g_assert_cmpuint (settled, >, MANY / 2);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/statics/sharing-oracle/smooth", test_smooth);
  g_test_add_func ("/statics/sharing-oracle/rough", test_rough);
  g_test_add_func ("/statics/sharing-oracle/laws", test_laws);
  return g_test_run ();
}
