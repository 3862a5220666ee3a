/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What must not change how tie-downs share a load, on 10,000 random rigs, and that nothing it calls held is over the upper bound. No value here is
 * anybody's: the laws are. */
#include "fl-equilibrium.h"
#include "fl-test-sharing-rigs.h"

enum { EACH = 2500, MANY = 10000 };

/* Of the weight: what two ways of rounding leave of a tension. The steps are settled to 1e-9, and the weak spring holds 1e-7 a metre. */
#define SAME 1e-6

/* Turns the rig and its answer into another; place[i]: where pull i is now. */
typedef struct { double force, length; gsize place[FL_MAX_PULLS]; FlVec (*turn) (FlVec v); double turns; } Twin;

static FlVec
as_it_is (FlVec v)
{
  return v;
}

static Twin
mirror (SharingRig *out)
{
  test_rig_turn (&out->rig, mirrored);
  return (Twin) { 1, 1, { 0 }, mirrored, -1 };
}

static Twin
half_turn (SharingRig *out)
{
  test_rig_turn (&out->rig, half_turned);
  return (Twin) { 1, 1, { 0 }, half_turned, 1 };
}

/* Pounds-force, and feet: everything in other units, as if the numbers were still SI. */
static Twin
units (SharingRig *out)
{
  const double force = 1 / 4.4482216152605, length = 1 / 0.3048;
  TestRig *rig = &out->rig;

  rig->body.mass *= force;
  rig->body.cg = fl_vec_scale (rig->body.cg, length);
  for (gsize j = 0; j < rig->body.n_contacts; j++)
    {
      rig->contacts[j].at = fl_vec_scale (rig->contacts[j].at, length);
      rig->contacts[j].stiffness *= force / length;
      rig->contacts[j].shear *= force / length;
    }
  for (gsize i = 0; i < rig->held.n; i++)
    {
      FlPull *pull = &rig->pulls[i];

      pull->at = fl_vec_scale (pull->at, length);
      pull->limit *= force;
      pull->ea *= force;
      pull->length *= length;
      pull->pretension *= force;
      pull->give *= length / force;
    }
  rig->shared[0].limit *= force;
  return (Twin) { force, length, { 0 }, as_it_is, 1 };
}

static guint64
moved_bits (guint64 legs, const gsize *place, gsize n)
{
  guint64 moved = 0;

  for (gsize i = 0; i < n; i++)
    if (legs >> i & 1)
      moved |= G_GUINT64_CONSTANT (1) << place[i];
  return moved;
}

/* Pulls and contacts the other way round. */
static Twin
order (SharingRig *out)
{
  Twin twin = { 1, 1, { 0 }, as_it_is, 1 };
  TestRig *rig = &out->rig, before = *rig;

  for (gsize i = 0; i < rig->held.n; i++)
    {
      twin.place[i] = rig->held.n - 1 - i;
      rig->pulls[twin.place[i]] = before.pulls[i];
    }
  for (gsize j = 0; j < rig->body.n_contacts; j++)
    rig->contacts[j] = before.contacts[rig->body.n_contacts - 1 - j];
  rig->shared[0].legs = moved_bits (before.shared[0].legs, twin.place, rig->held.n);
  return twin;
}

static void
compare (guint number, const SharingRig *rig, const FlSharing *one, const FlSharing *other, const Twin *twin)
{
  double weight = rig->rig.body.mass * rig->rig.body.g;
  FlVec moved = fl_vec_scale (fl_vec_sub (fl_vec_scale (other->moved, 1 / twin->length), twin->turn (one->moved)), 1);
  FlVec turned = fl_vec_sub (fl_vec_scale (other->turned, twin->turns), twin->turn (one->turned));

  for (gsize i = 0; i < rig->rig.held.n; i++)
    if (!(fabs (other->tension[twin->place[i]] / twin->force - one->tension[i]) <= SAME * weight))
      g_error ("rig %u, pull %" G_GSIZE_FORMAT ": %.9g and %.9g", number, i, one->tension[i], other->tension[twin->place[i]] / twin->force);
  if (!(fabs (one->use - other->use) <= 1e-4 * (1 + one->use)))
    g_error ("rig %u: use %.9g and %.9g", number, one->use, other->use);
  if (isinf (one->holds) != isinf (other->holds) || (isfinite (one->holds) && !(fabs (one->holds - other->holds) <= 1e-5)))
    g_error ("rig %u: holds %.9g and %.9g", number, one->holds, other->holds);
  if (!(fl_vec_norm (moved) <= 1e-4) || !(fl_vec_norm (turned) <= 1e-4))
    g_error ("rig %u: moved %g otherwise, turned %g", number, fl_vec_norm (moved), fl_vec_norm (turned));
}

/* Where it has nearly gone, one may go and the other not: at feet, a third of the way. */
static gboolean
is_going (const FlSharing *s)
{
  return fl_vec_norm (s->moved) > 0.25 || fl_vec_norm (s->turned) > 0.05;
}

static void
assert_same (guint first, Twin (*change) (SharingRig *))
{
  guint settled = 0;

  for (guint number = first; number < first + EACH; number++)
    {
      SharingRig rig, changed;
      FlSharing one, other;
      Twin twin;

      sharing_rig (number, number % 4 != 0, &rig);
      changed = rig;
      test_rig_own (&changed.rig);
      twin = change (&changed);
      for (gsize i = 0; i < rig.rig.held.n && change != order; i++)
        twin.place[i] = i;
      one = sharing_solve (&rig, rig.demand);
      other = sharing_solve (&changed, rig.demand);
      if (is_going (&one) || is_going (&other))
        continue;
      if (one.converged != other.converged)
        g_error ("rig %u: settles once, and not its twin", number);
      if (!one.converged)
        continue;
      settled++;
      compare (number, &rig, &one, &other, &twin);
    }
  g_assert_cmpuint (settled, >, EACH / 2);
}

static void
test_mirror (void)
{
  assert_same (10000, mirror);
}

static void
test_half_turn (void)
{
  assert_same (20000, half_turn);
}

static void
test_units (void)
{
  assert_same (30000, units);
}

static void
test_order (void)
{
  assert_same (40000, order);
}

/* Limit analysis, lower bound theorem (any text on plasticity): a state that balances within limits and cones is under the greatest such. */
static void
test_never_above (void)
{
  guint limited = 0;

  for (guint number = 50000; number < 50000 + MANY; number++)
    {
      SharingRig rig;
      FlSharing s;
      FlCapacity capacity;

      sharing_rig (number, number % 4 != 0, &rig);
      s = sharing_solve (&rig, 2 * rig.demand);
      capacity = fl_equilibrium_capacity (&rig.rig.body, &rig.rig.held, rig.rig.direction);
      if (isfinite (s.holds) && !(s.holds <= capacity.bound + 1e-5))
        g_error ("rig %u holds %.9g, and none holds more than %.9g", number, s.holds, capacity.bound);
      if (isinf (s.holds) && !(capacity.bound >= rig.demand))
        g_error ("rig %u is said to hold %.9g at least, and none holds more than %.9g", number, rig.demand, capacity.bound);
      limited += isfinite (s.holds) && s.holds > 0;
    }
  g_assert_cmpuint (limited, >, MANY / 2);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/statics/sharing-properties/mirror", test_mirror);
  g_test_add_func ("/statics/sharing-properties/half-turn", test_half_turn);
  g_test_add_func ("/statics/sharing-properties/units", test_units);
  g_test_add_func ("/statics/sharing-properties/order", test_order);
  g_test_add_func ("/statics/sharing-properties/never-above", test_never_above);
  return g_test_run ();
}
