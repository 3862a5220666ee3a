/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Axle and coupling loads: the beams of the handbooks by hand, NumPy's answers to the whole system (oracle.inc), balance of
 * forces and moments over random vehicles, and everything that has no answer. */
#include "fl-beam.h"
#include "fl-test-axles.h"
#include "fl-test-oracle.h"
#include "fl-test-random.h"

enum { MANY = 6 };

/* AISC Steel Construction Manual, beam diagrams (from memory): simple beam, load P at a from the first support and b from the
 * second, R1 = P b / l, R2 = P a / l; beam overhanging one support by a, R1 = -P a / l (it lifts), R2 = P (l + a) / l. */
static void
test_handbook (void)
{
  double out[2];
  FlBeamLoad load = { 3.0, 1000.0 };

  g_assert_cmpint (fl_beam_loads (&load, 1, 0.0, 10.0, out), ==, FL_BEAM_OK);
  assert_near (out[0], 700.0, 1e-9);
  assert_near (out[1], 300.0, 1e-9);
  load.x = 12.0;
  g_assert_cmpint (fl_beam_loads (&load, 1, 0.0, 10.0, out), ==, FL_BEAM_OK);
  assert_near (out[0], -200.0, 1e-9);
  assert_near (out[1], 1200.0, 1e-9);
  g_assert_cmpint (fl_beam_loads (&load, 1, 10.0, 0.0, out), ==, FL_BEAM_OK);  /* either order */
  assert_near (out[0], 1200.0, 1e-9);
  assert_near (out[1], -200.0, 1e-9);
  g_assert_cmpint (fl_beam_loads (NULL, 0, 0.0, 10.0, out), ==, FL_BEAM_OK);
  g_assert_true (out[0] == 0.0 && out[1] == 0.0);
}

/* Coupling at 10, tandem at 2 and 4 (mean 3), 70 kN at 5: coupling 70 * 2 / 7 = 20, group 50: 25 each, and the empty weights. */
static void
test_trailer (void)
{
  const FlBeamLoad load = { 5.0, 70e3 };
  const FlBeamCoupling coupling = { 10.0, 5e3 };
  const FlBeamAxle axles[] = { { 4.0, 8e3, NAN, 1 }, { 2.0, 9e3, NAN, 1 } };
  double on[2], hitch;

  g_assert_cmpint (fl_beam_axles (&load, 1, &coupling, axles, 2, on, &hitch), ==, FL_BEAM_OK);
  assert_near (hitch, 25e3, 1e-9);
  assert_near (on[0], 33e3, 1e-9);
  assert_near (on[1], 34e3, 1e-9);
}

/* The same with the tandem sharing 3 to 1: the group stands at (3 * 4 + 2) / 4 = 3.5; coupling 70 * 1.5 / 6.5. */
static void
test_uneven_shares (void)
{
  const FlBeamLoad load = { 5.0, 65e3 };
  const FlBeamCoupling coupling = { 10.0, 0.0 };
  const FlBeamAxle axles[] = { { 4.0, 0.0, 0.75, 7 }, { 2.0, 0.0, 0.25, 7 } }, ratio[] = { { 4.0, 0.0, 3, 7 }, { 2.0, 0.0, 1, 7 } };
  double on[2], hitch;

  g_assert_cmpint (fl_beam_axles (&load, 1, &coupling, axles, 2, on, &hitch), ==, FL_BEAM_OK);
  assert_near (hitch, 15e3, 1e-9);
  assert_near (on[0], 37.5e3, 1e-9);
  assert_near (on[1], 12.5e3, 1e-9);
  g_assert_cmpint (fl_beam_axles (&load, 1, &coupling, ratio, 2, on, NULL), ==, FL_BEAM_OK);
  assert_near (on[0], 37.5e3, 1e-9);
}

/* An axle with the share 0 is lifted: the other carries the group. */
static void
test_lifted_axle (void)
{
  const FlBeamLoad load = { 5.0, 70e3 };
  const FlBeamCoupling coupling = { 10.0, 0.0 };
  const FlBeamAxle axles[] = { { 3.0, 0.0, 1.0, 1 }, { 1.0, 2e3, 0.0, 1 } };
  double on[2], hitch;

  g_assert_cmpint (fl_beam_axles (&load, 1, &coupling, axles, 2, on, &hitch), ==, FL_BEAM_OK);
  assert_near (hitch, 20e3, 1e-9);
  assert_near (on[0], 50e3, 1e-9);
  assert_near (on[1], 2e3, 1e-9);
}

/* Truck, steer axle at 5, drives at 1 and 0. Coupling 1.5 behind the last axle with 9 kN: 9 * (0.5 + 1.5) / 4.5 = 4 off the
 * steer axle, 13 on the drives. The same over the drive group's middle leaves the steer axle alone. */
static void
test_truck (void)
{
  const FlBeamAxle axles[] = { { 5.0, 50e3, NAN, 0 }, { 1.0, 25e3, NAN, 2 }, { 0.0, 25e3, NAN, 2 } };
  FlBeamLoad hitch = { -1.5, 9e3 };
  double on[3], none = 7.0;

  g_assert_cmpint (fl_beam_axles (&hitch, 1, NULL, axles, 3, on, &none), ==, FL_BEAM_OK);
  assert_near (on[0], 46e3, 1e-9);
  assert_near (on[1], 31.5e3, 1e-9);
  assert_near (on[2], 31.5e3, 1e-9);
  g_assert_cmpfloat (none, ==, 0.0);
  hitch.x = 0.5;
  g_assert_cmpint (fl_beam_axles (&hitch, 1, NULL, axles, 3, on, NULL), ==, FL_BEAM_OK);
  assert_near (on[0], 50e3, 1e-9);
  hitch = (FlBeamLoad) { -1.5, 200e3 };
  g_assert_cmpint (fl_beam_axles (&hitch, 1, NULL, axles, 3, on, NULL), ==, FL_BEAM_OK);
  assert_near (on[0], 50e3 - 200e3 * 2.0 / 4.5, 1e-9);  /* it lifts: under zero, and said so */
}

/* A rollback carries its load itself, on two groups whose axles need not stand together in the list. */
static void
test_rollback (void)
{
  const FlBeamLoad loads[] = { { 3.0, 30e3 }, { 1.0, 10e3 } };
  const FlBeamAxle axles[] = { { 0.5, 20e3, NAN, 2 }, { 6.0, 40e3, NAN, 1 }, { -0.5, 20e3, NAN, 2 } };
  double on[3];

  g_assert_cmpint (fl_beam_axles (loads, 2, NULL, axles, 3, on, NULL), ==, FL_BEAM_OK);
  assert_near (on[1], 40e3 + (30e3 * 3 + 10e3) / 6.0, 1e-9);
  assert_near (on[0], 20e3 + (40e3 - 100e3 / 6.0) / 2.0, 1e-9);
  assert_near (on[2], on[0], 1e-9);
}

static void
test_oracle (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (beam_cases); i++)
    {
      const BeamCase *c = &beam_cases[i];
      double on[6], hitch;

      g_assert_cmpint (fl_beam_axles (c->loads, c->n_loads, c->coupled ? &c->coupling : NULL, c->axles, c->n_axles, on, &hitch), ==,
                       FL_BEAM_OK);
      for (gsize k = 0; k < c->n_axles; k++)
        assert_near (on[k], c->axle_loads[k], 1e-5);
      assert_near (hitch, c->coupling_load, 1e-5);
    }
}

/* Whole outfits as finite elements on stiff springs (axle_oracle.py): trailer, then the truck under the coupling's load. */
static void
test_outfits (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (outfit_cases); i++)
    {
      const OutfitCase *c = &outfit_cases[i];
      double on[4], hitch = 0.0;
      FlBeamLoad load = { c->hitch, 0.0 };

      g_assert_cmpint (fl_beam_axles (c->loads, c->n_loads, c->coupled ? &c->coupling : NULL, c->axles, c->n_axles, on, &hitch), ==, FL_BEAM_OK);
      for (gsize k = 0; k < c->n_axles; k++)
        assert_near (on[k], c->on_axles[k], 0.5);
      if (!c->coupled)
        continue;
      assert_near (hitch, c->on_coupling, 0.5);
      load.force = hitch;
      g_assert_cmpint (fl_beam_axles (&load, 1, NULL, c->truck, c->n_truck, on, NULL), ==, FL_BEAM_OK);
      for (gsize k = 0; k < c->n_truck; k++)
        assert_near (on[k], c->on_truck[k], 0.5);
    }
}

/* Where a group stands and what part an axle takes: 3 to 1 at 4 and 2 is at 3.5. */
static void
test_group (void)
{
  const FlBeamAxle axles[] = { { 4.0, 0, 3, 7 }, { 9.0, 0, NAN, 0 }, { 2.0, 0, 1, 7 } }, bad[] = { { 4.0, 0, NAN, 1 }, { 2.0, 0, 1, 1 } };
  double x, part;

  g_assert_cmpint (fl_beam_group (axles, 3, 2, &x, &part), ==, FL_BEAM_OK);
  assert_near (x, 3.5, 1e-12);
  assert_near (part, 0.25, 1e-12);
  g_assert_cmpint (fl_beam_group (axles, 3, 1, &x, &part), ==, FL_BEAM_OK);
  g_assert_true (x == 9.0 && part == 1.0);
  g_assert_cmpint (fl_beam_group (bad, 2, 0, &x, &part), ==, FL_BEAM_BAD_SHARES);
  g_assert_true (x == 0.0 && part == 0.0);
}

/* ── properties over random vehicles ── */

typedef struct {
  FlBeamLoad loads[MANY];
  FlBeamCoupling coupling;
  FlBeamAxle axles[MANY];
  double on[MANY], hitch;
} Vehicle;

static void
solve (Vehicle *v)
{
  g_assert_cmpint (fl_beam_axles (v->loads, MANY, &v->coupling, v->axles, MANY, v->on, &v->hitch), ==, FL_BEAM_OK);
}

static Vehicle
random_vehicle (GRand *rand)
{
  gboolean uneven = g_rand_boolean (rand);
  Vehicle v = { .coupling = { g_rand_double_range (rand, 8, 14), g_rand_double_range (rand, 0, 2e4) } };

  for (guint i = 0; i < MANY; i++)
    {
      v.loads[i] = (FlBeamLoad) { g_rand_double_range (rand, -2, 12), g_rand_double_range (rand, 0, 1e5) };
      v.axles[i] = (FlBeamAxle) { g_rand_double_range (rand, 0, 4), g_rand_double_range (rand, 0, 4e4),
                                  uneven ? g_rand_double_range (rand, 0.1, 1) : NAN, 3 };
    }
  solve (&v);
  return v;
}

/* Force balance, and moment balance about places that have nothing to do with the supports, from the answers alone. */
static void
test_balance (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (601);

  for (guint i = 0; i < 1000; i++)
    {
      Vehicle v = random_vehicle (rand);
      long double about = g_rand_double_range (rand, -50, 50), up = v.hitch - v.coupling.own;
      long double turn = up * (v.coupling.x - about), down = 0;

      for (guint k = 0; k < MANY; k++)
        {
          up += v.on[k] - v.axles[k].own;
          turn += (v.on[k] - v.axles[k].own) * (v.axles[k].x - about) - v.loads[k].force * (v.loads[k].x - about);
          down += v.loads[k].force;
        }
      assert_near ((double) up, (double) down, 1e-6);
      assert_near ((double) turn, 0.0, 1e-4);
    }
}

/* The other way round, moved, in inches, in pounds, loads and axles in another order: the same loads. */
static void
test_invariances (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (602);

  for (guint i = 0; i < 500; i++)
    {
      Vehicle v = random_vehicle (rand), w = v;
      double factor = i % 2 ? -1.0 : 1.0 / 0.0254, by = g_rand_double_range (rand, -20, 20), pound = 4.4482216152605;

      w.coupling = (FlBeamCoupling) { v.coupling.x * factor + by, v.coupling.own / pound };
      for (guint k = 0; k < MANY; k++)
        {
          w.loads[k] = (FlBeamLoad) { v.loads[(k + 2) % MANY].x * factor + by, v.loads[(k + 2) % MANY].force / pound };
          w.axles[k] = v.axles[MANY - 1 - k];
          w.axles[k].x = w.axles[k].x * factor + by;
          w.axles[k].own /= pound;
        }
      solve (&w);
      assert_near (w.hitch * pound, v.hitch, 1e-5);
      for (guint k = 0; k < MANY; k++)
        assert_near (w.on[k] * pound, v.on[MANY - 1 - k], 1e-5);
    }
}

/* Several loads add. */
static void
test_superposition (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (603);

  for (guint i = 0; i < 200; i++)
    {
      Vehicle v = random_vehicle (rand);
      double sum[MANY] = { 0 }, hitch = 0;

      for (guint k = 0; k < MANY; k++)
        {
          double on[MANY], alone;

          g_assert_cmpint (fl_beam_axles (&v.loads[k], 1, &v.coupling, v.axles, MANY, on, &alone), ==, FL_BEAM_OK);
          hitch += alone - v.coupling.own;
          for (guint j = 0; j < MANY; j++)
            sum[j] += on[j] - v.axles[j].own;
        }
      assert_near (hitch + v.coupling.own, v.hitch, 1e-6);
      for (guint j = 0; j < MANY; j++)
        assert_near (sum[j] + v.axles[j].own, v.on[j], 1e-6);
    }
}

/* ── no answer ── */

/* Asks for one load, and that a refusal leaves zeros, whatever stood there. */
static FlBeamStatus
ask (FlBeamLoad load, const FlBeamCoupling *coupling, const FlBeamAxle *axles, gsize n)
{
  double on[4] = { 7, 7, 7, 7 }, hitch = 7;
  FlBeamStatus status = fl_beam_axles (&load, 1, coupling, axles, n, on, &hitch);

  for (gsize i = 0; i < n && status != FL_BEAM_OK; i++)
    g_assert_cmpfloat (on[i], ==, 0.0);
  if (status != FL_BEAM_OK)
    g_assert_cmpfloat (hitch, ==, 0.0);
  return status;
}

static void
test_supports (void)
{
  const FlBeamLoad load = { 3, 1000 };
  const FlBeamCoupling coupling = { 10, 0 }, over = { 1, 0 }, close = { 1.0005, 0 };
  const FlBeamAxle apart[] = { { 0, 0, NAN, 1 }, { 2, 0, NAN, 2 }, { 4, 0, NAN, 3 } };
  const FlBeamAxle alone[] = { { 0, 0, NAN, 0 }, { 2, 0, NAN, 0 }, { 4, 0, NAN, 0 } };
  const FlBeamAxle tandem[] = { { 0, 0, NAN, 1 }, { 2, 0, NAN, 1 } };

  g_assert_cmpint (ask (load, &coupling, apart, 1), ==, FL_BEAM_OK);
  g_assert_cmpint (ask (load, &coupling, apart, 2), ==, FL_BEAM_INDETERMINATE);
  g_assert_cmpint (ask (load, NULL, apart, 2), ==, FL_BEAM_OK);
  g_assert_cmpint (ask (load, NULL, apart, 3), ==, FL_BEAM_INDETERMINATE);
  g_assert_cmpint (ask (load, NULL, alone, 2), ==, FL_BEAM_OK);              /* group 0: each by itself */
  g_assert_cmpint (ask (load, NULL, alone, 3), ==, FL_BEAM_INDETERMINATE);
  g_assert_cmpint (ask (load, NULL, tandem, 2), ==, FL_BEAM_ONE_SUPPORT);
  g_assert_cmpint (ask (load, &coupling, NULL, 0), ==, FL_BEAM_ONE_SUPPORT);
  g_assert_cmpint (ask (load, NULL, NULL, 0), ==, FL_BEAM_ONE_SUPPORT);
  g_assert_cmpint (ask (load, &over, tandem, 2), ==, FL_BEAM_COINCIDENT);    /* over the middle of the tandem */
  g_assert_cmpint (ask (load, &close, tandem, 2), ==, FL_BEAM_COINCIDENT);
}

static void
test_shares_refused (void)
{
  const FlBeamLoad load = { 3, 1000 };
  const FlBeamCoupling coupling = { 10, 0 };
  const double shares[][2] = {
    { 0.5, NAN }, { NAN, 0.5 }, { -0.5, 1.5 }, { 1.5, -0.5 }, { 0, 0 }, { INFINITY, 1 }, { 1, INFINITY },
  };

  for (guint i = 0; i < G_N_ELEMENTS (shares); i++)
    {
      const FlBeamAxle axles[] = { { 0, 0, shares[i][0], 1 }, { 2, 0, shares[i][1], 1 } };

      g_assert_cmpint (ask (load, &coupling, axles, 2), ==, FL_BEAM_BAD_SHARES);
    }
}

static void
test_not_finite (void)
{
  const double bad[] = { NAN, INFINITY, -INFINITY };
  const FlBeamCoupling coupling = { 10, 0 };
  const FlBeamAxle axle = { 0, 0, NAN, 1 };
  double out[2];

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      const FlBeamLoad place = { bad[i], 1000 }, weight = { 3, bad[i] }, load = { 3, 1000 };
      const FlBeamCoupling where = { bad[i], 0 }, own = { 10, bad[i] };
      const FlBeamAxle axle_where = { bad[i], 0, NAN, 1 }, axle_own = { 0, bad[i], NAN, 1 };

      g_assert_cmpint (ask (place, &coupling, &axle, 1), ==, FL_BEAM_NOT_FINITE);
      g_assert_cmpint (ask (weight, &coupling, &axle, 1), ==, FL_BEAM_NOT_FINITE);
      g_assert_cmpint (ask (load, &where, &axle, 1), ==, FL_BEAM_NOT_FINITE);
      g_assert_cmpint (ask (load, &own, &axle, 1), ==, FL_BEAM_NOT_FINITE);
      g_assert_cmpint (ask (load, &coupling, &axle_where, 1), ==, FL_BEAM_NOT_FINITE);
      g_assert_cmpint (ask (load, &coupling, &axle_own, 1), ==, FL_BEAM_NOT_FINITE);
      g_assert_cmpint (fl_beam_loads (&load, 1, bad[i], 1.0, out), ==, FL_BEAM_NOT_FINITE);
      g_assert_cmpint (fl_beam_loads (&load, 1, 1.0, bad[i], out), ==, FL_BEAM_NOT_FINITE);
      g_assert_true (out[0] == 0.0 && out[1] == 0.0);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/statics/beam/handbook", test_handbook);
  g_test_add_func ("/statics/beam/trailer", test_trailer);
  g_test_add_func ("/statics/beam/uneven-shares", test_uneven_shares);
  g_test_add_func ("/statics/beam/lifted-axle", test_lifted_axle);
  g_test_add_func ("/statics/beam/truck", test_truck);
  g_test_add_func ("/statics/beam/rollback", test_rollback);
  g_test_add_func ("/statics/beam/oracle", test_oracle);
  g_test_add_func ("/statics/beam/outfits", test_outfits);
  g_test_add_func ("/statics/beam/group", test_group);
  g_test_add_func ("/statics/beam/balance", test_balance);
  g_test_add_func ("/statics/beam/invariances", test_invariances);
  g_test_add_func ("/statics/beam/superposition", test_superposition);
  g_test_add_func ("/statics/beam/supports", test_supports);
  g_test_add_func ("/statics/beam/shares-refused", test_shares_refused);
  g_test_add_func ("/statics/beam/not-finite", test_not_finite);
  return g_test_run ();
}
