/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What must not change the upper bound, or only one way, on 10,000 random rigs. No value here is anybody's: the laws are. */
#include "fl-test-rigs.h"

enum { MANY = 10000 };

/* Two answers, each within the gap of the truth. */
#define TWICE_THE_GAP (2.0 * FL_STATICS_GAP)

typedef void (*Change) (TestRig *rig, guint number);

static gboolean
stands (const FlCapacity *c)
{
  return c->mode != FL_UNSTABLE_AT_REST;
}

/* What both assertions look at: how a rig stands as it is, and after the change. */
static FlCapacity
changed (Change change, guint number, FlCapacity *before)
{
  TestRig rig;

  test_rig (number, &rig);
  *before = test_rig_capacity (&rig);
  change (&rig, number);
  return test_rig_capacity (&rig);
}

static void
assert_unchanged (Change change)
{
  guint standing = 0;

  for (guint number = 0; number < MANY; number++)
    {
      FlCapacity before, after = changed (change, number, &before);

      if (stands (&before) != stands (&after) || !(fabs (before.g - after.g) <= TWICE_THE_GAP))
        g_error ("rig %u: %s at %.9f, then %s at %.9f", number, fl_mode_id (before.mode), before.g, fl_mode_id (after.mode), after.g);
      standing += stands (&before);
    }
  g_assert_cmpuint (standing, >, MANY * 3 / 4);
}

static void
assert_never_less (Change change)
{
  guint more = 0;

  for (guint number = 0; number < MANY; number++)
    {
      FlCapacity before, after = changed (change, number, &before);

      if ((stands (&before) && !stands (&after)) || !(after.g >= before.g - TWICE_THE_GAP))
        g_error ("rig %u: %s at %.9f, then %s at %.9f", number, fl_mode_id (before.mode), before.g, fl_mode_id (after.mode), after.g);
      more += after.g > before.g + 1e-3;
    }
  g_assert_cmpuint (more, >, MANY / 50);        /* and it is no idle change */
}

static void
mirror (TestRig *rig, guint number G_GNUC_UNUSED)
{
  test_rig_turn (rig, mirrored);
}

static void
half_turn (TestRig *rig, guint number G_GNUC_UNUSED)
{
  test_rig_turn (rig, half_turned);
}

/* As if the trailer frame began somewhere else. */
static void
move_origin (TestRig *rig, guint number)
{
  FlVec by = { number % 13 - 6.0, number % 7 - 3.0, number % 5 * 0.3 };

  rig->body.cg = fl_vec_add (rig->body.cg, by);
  for (gsize j = 0; j < rig->body.n_contacts; j++)
    rig->contacts[j].at = fl_vec_add (rig->contacts[j].at, by);
  for (gsize i = 0; i < rig->held.n; i++)
    rig->pulls[i].at = fl_vec_add (rig->pulls[i].at, by);
}

/* Lengths in feet for metres. */
static void
in_feet (TestRig *rig, guint number G_GNUC_UNUSED)
{
  const double foot = 0.3048;

  rig->body.cg = fl_vec_scale (rig->body.cg, 1.0 / foot);
  for (gsize j = 0; j < rig->body.n_contacts; j++)
    rig->contacts[j].at = fl_vec_scale (rig->contacts[j].at, 1.0 / foot);
  for (gsize i = 0; i < rig->held.n; i++)
    rig->pulls[i].at = fl_vec_scale (rig->pulls[i].at, 1.0 / foot);
}

/* Forces in pounds for newtons, by the mass. */
static void
in_pounds (TestRig *rig, guint number G_GNUC_UNUSED)
{
  const double pound = 4.4482216152605;

  rig->body.mass /= pound;
  for (gsize i = 0; i < rig->held.n; i++)
    rig->pulls[i].limit /= pound;
  for (gsize s = 0; s < rig->held.n_shared; s++)
    rig->shared[s].limit /= pound;
}

/* On a body of another attraction, by g: everything as many times its weight as before. */
static void
on_another_body (TestRig *rig, guint number G_GNUC_UNUSED)
{
  const double times = 1.62 / 9.80665;

  rig->body.g *= times;
  for (gsize i = 0; i < rig->held.n; i++)
    rig->pulls[i].limit *= times;
  for (gsize s = 0; s < rig->held.n_shared; s++)
    rig->shared[s].limit *= times;
}

static void
reverse_order (TestRig *rig, guint number G_GNUC_UNUSED)
{
  TestRig was = *rig;
  gsize n = rig->held.n, m = rig->body.n_contacts;

  for (gsize j = 0; j < m; j++)
    rig->contacts[j] = was.contacts[m - 1 - j];
  for (gsize i = 0; i < n; i++)
    rig->pulls[i] = was.pulls[n - 1 - i];
  for (gsize s = 0; s < rig->held.n_shared; s++)
    {
      rig->shared[s].limit = was.shared[1 - s].limit;
      rig->shared[s].legs = 0;
      for (gsize i = 0; i < n; i++)
        if (was.shared[1 - s].legs >> i & 1)
          rig->shared[s].legs |= G_GUINT64_CONSTANT (1) << (n - 1 - i);
    }
}

/* A pull that may have no tension. */
static void
add_nothing (TestRig *rig, guint number)
{
  rig->pulls[rig->held.n] = (FlPull) { .at = { number % 5, 0, 1 }, .along = { 0, 0, -1 }, .limit = 0.0 };
  rig->held.n++;
}

static void
stronger_chain (TestRig *rig, guint number)
{
  if (rig->held.n > 0)
    rig->pulls[number % rig->held.n].limit *= 1.5;
}

static void
stronger_point (TestRig *rig, guint number)
{
  if (rig->held.n_shared > 0)
    rig->shared[number % rig->held.n_shared].limit *= 2.0;
}

static void
one_chain_more (TestRig *rig, guint number)
{
  TestRig other;

  test_rig (number + 1, &other);
  if (other.held.n == 0)
    return;
  rig->pulls[rig->held.n] = other.pulls[0];
  rig->pulls[rig->held.n++].tie = 0;
}

static void
rougher_deck (TestRig *rig, guint number G_GNUC_UNUSED)
{
  for (gsize j = 0; j < rig->body.n_contacts; j++)
    {
      rig->contacts[j].mu_along += 0.05;
      rig->contacts[j].mu_across *= 1.3;
    }
}

/* One that runs freely over the load holds no more than the same two legs, each by itself. */
static void
legs_by_themselves (TestRig *rig, guint number G_GNUC_UNUSED)
{
  for (gsize i = 0; i < rig->held.n; i++)
    rig->pulls[i].tie = 0;
}

static double
one_of (GRand *rand, const double *numbers, guint n)
{
  return numbers[g_rand_int_range (rand, 0, (gint32) n)];
}

/* A rig on a lattice: points that coincide or nearly, lines of contacts, wheels that roll beside ones that do not, limits of all sizes. */
static void
lattice_rig (GRand *rand, TestRig *rig)
{
  const double places[] = { 0, 0, 1, -1, 2, 0.5, -0.5, 1e-5, 3 }, mus[] = { 0, 0, 0.02, 0.3, 0.3, 1, 10 }, limits[] = { 0, 0.1, 0.1, 0.5, 1, 1000, INFINITY };
  double weight = 1e5;

  *rig = (TestRig) { .body = { .mass = 1e4, .g = 10.0 } };
  rig->body.cg = (FlVec) { one_of (rand, places, 5), one_of (rand, places, 5), 1.0 };
  rig->body.n_contacts = (gsize) g_rand_int_range (rand, 1, 13);
  for (gsize j = 0; j < rig->body.n_contacts; j++)
    {
      rig->contacts[j].at = (FlVec) { 2.0 * one_of (rand, places, 9), 2.0 * one_of (rand, places, 9), one_of (rand, places, 2) };
      rig->contacts[j].mu_along = one_of (rand, mus, 7);
      rig->contacts[j].mu_across = one_of (rand, mus, 7);
    }
  rig->held.n = (gsize) g_rand_int_range (rand, 0, 17);
  for (gsize i = 0; i < rig->held.n; i++)
    {
      FlVec way = { one_of (rand, places, 7), one_of (rand, places, 7), -1.0 };

      rig->pulls[i] = (FlPull) { .along = fl_vec_unit (way), .tie = (guint) g_rand_int_range (rand, 0, 20) };
      rig->pulls[i].at = (FlVec) { one_of (rand, places, 9), one_of (rand, places, 9), one_of (rand, places, 9) };
      rig->pulls[i].limit = one_of (rand, limits, 7) * weight;
    }
  rig->held.n_shared = (gsize) g_rand_int_range (rand, 0, 3);
  for (gsize s = 0; s < rig->held.n_shared; s++)
    rig->shared[s] = (FlSharedLimit) { one_of (rand, limits, 7) * weight, g_rand_int (rand) & 0xffff };
  rig->direction = fl_movement_direction ((FlMovement) g_rand_int_range (rand, 0, FL_N_MOVEMENTS));
  test_rig_own (rig);
}

/* However skew, what comes out balances, the proof is over it, it ends, and they seldom differ by more than is said. */
static void
test_lattice (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (77);
  guint open = 0, standing = 0;

  for (guint number = 0; number < 2 * MANY; number++)
    {
      FlCapacity c;
      TestRig rig;

      lattice_rig (rand, &rig);
      c = test_rig_capacity (&rig);
      if (!(c.residual < 1e-6 && c.bound >= c.g && c.g >= 0.0 && isfinite (c.bound) && c.iterations < FL_STATICS_ITERATIONS))
        g_error ("rig %u: %s at %.9f, proven %.9f, residual %g, %u pivots", number, fl_mode_id (c.mode), c.g, c.bound, c.residual, c.iterations);
      g_assert_true (fl_vec_is_finite (c.moves) && fl_vec_is_finite (c.turns));
      standing += stands (&c);
      open += c.bound - c.g > FL_STATICS_GAP * MAX (1.0, c.g);
    }
  g_assert_cmpuint (standing, >, MANY);
  g_assert_cmpuint (open, <, 2 * MANY / 1000);
}

static void
unchanged (gconstpointer change)
{
  assert_unchanged (*(const Change *) change);
}

static void
never_less (gconstpointer change)
{
  assert_never_less (*(const Change *) change);
}

int
main (int argc, char **argv)
{
  static const struct { const char *path; Change change; } same[] = {
    { "/statics/equilibrium/mirror", mirror },         { "/statics/equilibrium/half-turn", half_turn },
    { "/statics/equilibrium/origin", move_origin },    { "/statics/equilibrium/feet", in_feet },
    { "/statics/equilibrium/pounds", in_pounds },      { "/statics/equilibrium/another-body", on_another_body },
    { "/statics/equilibrium/order", reverse_order },   { "/statics/equilibrium/nothing-more", add_nothing },
  }, more[] = {
    { "/statics/equilibrium/stronger-chain", stronger_chain }, { "/statics/equilibrium/stronger-point", stronger_point },
    { "/statics/equilibrium/chain-more", one_chain_more },     { "/statics/equilibrium/rougher", rougher_deck },
    { "/statics/equilibrium/legs", legs_by_themselves },
  };

  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (same); i++)
    g_test_add_data_func (same[i].path, &same[i].change, unchanged);
  for (gsize i = 0; i < G_N_ELEMENTS (more); i++)
    g_test_add_data_func (more[i].path, &more[i].change, never_less);
  g_test_add_func ("/statics/equilibrium/lattice", test_lattice);
  return g_test_run ();
}
