/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How unlike tie-downs share a load: the method for statically indeterminate direct lashings of the German insurers' handbook (W. Kaps, in GDV, Load
 * Securing Handbook, 3.5.1), and what is published on how far lashing chain stretches.
 *
 * seen: read in a public copy. computed: follows from the published method and the inputs given, by our own arithmetic; it checks the engine
 * against the method, not against a printed figure. memory: not compared with a public copy.
 *
 * The method, seen: the load moves lengthwise by dX; lashing i (X, Y, Z its run's components, L its length, D its force at 100 percent strain) then
 * bears F0 + D X dX / L^2; dX = least of (LC - F0) L^2 / (D X): the most sensitive one reaches its LC; restraint = sum F (X + mu Z) / L, and mu m g
 * beside it. */
#include "fl-sharing.h"
#include "fl-test-lashing.h"

#define GRAVITY 9.81            /* m/s2; it cancels out */
#define MASS 30000.0            /* kg; it too */
#define HOUSE_STEPS 20

typedef struct { double x, y, z, limit, pretension, ea; } Lashing;      /* of a pair, one to each side; m, N */

typedef struct { FlContact feet[4]; FlPull pulls[8]; FlBody body; FlPulls set; } Load;

static double
run (const Lashing *l)
{
  return sqrt (l->x * l->x + l->y * l->y + l->z * l->z);
}

/* A load that cannot pitch: on four corners of a deck that does not give. All lashings hold it against going forward. */
static void
lash (Load *load, const Lashing *pairs, gsize n, double mu)
{
  *load = (Load) { 0 };
  for (guint i = 0; i < 4; i++)
    load->feet[i] = (FlContact) { { i & 1 ? 3 : -3, i & 2 ? 1.2 : -1.2, 0 }, mu, mu, 1e11, 1e11 };
  for (gsize i = 0; i < 2 * n; i++)
    {
      const Lashing *l = &pairs[i / 2];
      FlVec along = { -l->x, i & 1 ? l->y : -l->y, -l->z };

      load->pulls[i] = (FlPull) { .at = { 0, 0, 0.5 }, .along = fl_vec_unit (along), .limit = l->limit, .ea = l->ea, .length = run (l),
                                  .pretension = l->pretension };
    }
  load->body = (FlBody) { MASS, GRAVITY, { 0, 0, 0.5 }, load->feet, 4 };
  load->set = (FlPulls) { load->pulls, 2 * n, NULL, 0 };
}

/* How far it moves until the first lashing is at its limit: the answer at just that acceleration. */
static FlSharing
at_first_limit (const Load *load)
{
  double g = fl_sharing_solve (&load->body, &load->set, ALONG, 0.5, 3, HOUSE_STEPS).holds;

  g_assert_true (isfinite (g));
  return fl_sharing_solve (&load->body, &load->set, ALONG, g, g, HOUSE_STEPS);
}

/* KAPS-3TYPES-CHAIN, computed by the method (seen): three pairs of 10 mm chain, mu 0.3 x 0.75 = 0.225: dX 21.86 mm; 63.0, 51.4 and 42.8 kN each; restraint
 * 252.7 kN where all at LC would be 296.5: 85.2 percent. */
static void
test_three_pairs (void)
{
  const Lashing pairs[] = {
    { 1.5, 0.8, 1.2, 63 * KN, 10 * KN, 7000 * KN },
    { 3.0, 0.8, 1.2, 63 * KN, 10 * KN, 7000 * KN },
    { 0.6, 1.0, 1.2, 63 * KN, 10 * KN, 7000 * KN },
  };
  const double bears[] = { 63.0, 51.4, 42.8 };
  double restraint, naive = 0;
  FlSharing s;
  Load load;

  lash (&load, pairs, 3, 0.225);
  s = at_first_limit (&load);
  g_assert_true (s.converged);
  assert_prints (s.moved.x * 1000, 21.86, 0.01);
  for (guint i = 0; i < 6; i++)
    assert_prints (s.tension[i] / KN, bears[i / 2], 0.1);
  g_assert_cmpuint (s.worst / 2, ==, 0);
  restraint = (s.reached - 0.225) * MASS * GRAVITY;
  assert_prints (restraint / KN, 252.7, 0.1);
  for (guint i = 0; i < 3; i++)
    naive += 2 * pairs[i].limit * (pairs[i].x + 0.225 * pairs[i].z) / run (&pairs[i]);
  assert_prints (naive / KN, 296.5, 0.1);
  assert_prints (restraint / naive, 0.852, 0.001);
}

/* KAPS-PRETENSION-0 and -31.5, computed by the method (seen): a pair with LC 63 kN moves 27.36 mm to its LC when hand tight, 13.68 mm when tightened to half of
 * it: half as far (that it halves: seen). 15 kN: 20.85 mm, computed. */
static void
test_tightened (void)
{
  const struct { double pretension, moves, unit; } rows[] = { { 0, 27.36, 0.01 }, { 15 * KN, 20.85, 0.01 }, { 31.5 * KN, 13.68, 0.01 } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const Lashing pair = { 2.0, 0.8, 1.2, 63 * KN, rows[i].pretension, 7000 * KN };
      Load load;

      lash (&load, &pair, 1, 0.3);
      assert_prints (at_first_limit (&load).moved.x * 1000, rows[i].moves, rows[i].unit);
    }
}

/* Chain of 8 mm beside a web strap of 50 mm, computed by the method: the strap bears 5.5 of its 25 kN when the chain is at its LC, and both hold 70 percent of
 * their sum: never mix them. LC 40 and 25 kN, web 7 percent longer at LC (EN 12195-2 and -3, from memory), chain 4,520 kN; both tightened to 2.5 kN
 * and laid alike (which the figures imply). */
static void
test_chain_and_web (void)
{
  const Lashing pairs[] = {
    { 2.0, 0.8, 1.2, 40 * KN, 2.5 * KN, 4520 * KN },
    { 2.0, 0.8, 1.2, 25 * KN, 2.5 * KN, 357 * KN },
  };
  FlSharing s;
  Load load;

  lash (&load, pairs, 2, 0);
  s = at_first_limit (&load);
  assert_prints (s.tension[0] / KN, 40, 0.1);
  assert_prints (s.tension[2] / KN, 5.5, 0.1);
  g_assert_cmpuint (s.worst / 2, ==, 0);
  assert_prints (s.reached * MASS * GRAVITY / (2 * 65 * KN * 2.0 / run (&pairs[0])), 0.70, 0.01);
}

/* ── how far chain stretches ── */

/* E, Pa, on the metal of both legs. */
typedef struct { const char *id, *from; double d, e, ea, limit, stretch; } Chain;

/* CHAIN-EA-DNV: E = (5.40 - 0.0040 d) 1e10 N/m2 for studless R3 chain, d in mm (DNV-OS-E301, 2010 to 2015), seen, used far below the sizes it is made for; EA
 * from it, computed. CHAIN-EA-DEFAULT: 45 GPa, and 8.37 to 8.91 mm per metre at the LC of grade 8 (EN 12195-3: 40, 63, 100 and 160 kN, from
 * memory), computed. */
static const Chain chains[] = {
  { "CHAIN-EA-DNV-8", "computed", 8, (5.40 - 0.0040 * 8) * 1e10, 5397, 40, 0 },
  { "CHAIN-EA-DNV-10", "computed", 10, (5.40 - 0.0040 * 10) * 1e10, 8419, 63, 0 },
  { "CHAIN-EA-DNV-13", "computed", 13, (5.40 - 0.0040 * 13) * 1e10, 14197, 100, 0 },
  { "CHAIN-EA-DNV-16", "computed", 16, (5.40 - 0.0040 * 16) * 1e10, 21457, 160, 0 },
  { "CHAIN-EA-DEFAULT-8", "computed", 8, 45e9, 4524, 40, 8.84 },
  { "CHAIN-EA-DEFAULT-10", "computed", 10, 45e9, 7069, 63, 8.91 },
  { "CHAIN-EA-DEFAULT-13", "computed", 13, 45e9, 11946, 100, 8.37 },
  { "CHAIN-EA-DEFAULT-16", "computed", 16, 45e9, 18096, 160, 8.84 },
};

/* One chain straight against the load, one metre long, pulled to its LC: the load moves by the stretch. */
static void
test_chain (gconstpointer data)
{
  const Chain *chain = data;
  double ea = chain->e * 2 * G_PI / 4 * chain->d * chain->d * 1e-6, g = chain->limit * KN / (MASS * GRAVITY);
  const Lashing pair = { 1, 0, 0, chain->limit * KN, 0, ea };
  FlSharing s;
  Load load;

  assert_prints (ea / KN, chain->ea, 1);
  lash (&load, &pair, 1, 0);
  load.set.n = 1;
  s = fl_sharing_solve (&load.body, &load.set, ALONG, g, 2 * g, HOUSE_STEPS);
  g_assert_true (s.converged);
  assert_prints (s.moved.x * 1000, chain->limit / chain->ea * 1000, 0.01);
  assert_prints (s.holds, g, 1e-6);
  if (chain->stretch > 0)
    assert_prints (s.moved.x * 1000, chain->stretch, 0.01);
}

/* CHAIN-STRAIN-G12: a chain over a box 1.5 m high and 2.4 m wide, stretched 0.7 percent by half of its LC (seen): 37.8 mm of 5.4 m; the load settles 9 mm, and half
 * of the tension is gone (seen; 18 of 37.8 mm: 0.48, computed). Half of the LC is 30 kN for 8 mm chain of grade 12 (4,286 kN at 100 percent). */
static void
test_settlement (void)
{
  const double half = 30 * KN, ea = half / 0.007, spring = ea / 5.4, deck = 4e7, sinks = 0.009;
  double lost, g;
  FlSharing rest, s;
  Load load;

  assert_prints (ea / KN, 4286, 1);
  lash (&load, NULL, 0, 0);
  for (guint i = 0; i < 4; i++)
    load.feet[i].stiffness = deck / 4;
  for (guint i = 0; i < 2; i++)
    load.pulls[i] = (FlPull) { .at = { 0, i ? 1.2 : -1.2, 1.5 }, .along = { 0, 0, -1 }, .limit = INFINITY, .ea = ea, .length = 2.7, .tie = 1,
                               .pretension = half + 2 * spring * 2 * half / deck };        /* the deck yields to it too */
  load.set.n = 2;
  rest = fl_sharing_solve (&load.body, &load.set, ALONG, 0, 0, 1);
  assert_prints (rest.tension[0] / KN, 30, 1e-3);
  g = (deck * sinks + 2 * spring * 2 * sinks) / (MASS * GRAVITY);
  s = fl_sharing_solve (&load.body, &load.set, (FlVec) { 0, 0, -1 }, g, g, HOUSE_STEPS);
  assert_prints (s.moved.z * 1000, -9, 1e-3);
  lost = 1 - s.tension[0] / rest.tension[0];
  assert_prints (lost, 0.48, 0.01);
  assert_prints (lost, 0.5, 0.1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/share-method/computed/KAPS-3TYPES-CHAIN", test_three_pairs);
  g_test_add_func ("/share-method/computed/KAPS-PRETENSION", test_tightened);
  g_test_add_func ("/share-method/computed/chain-and-web", test_chain_and_web);
  add_rows ("share-method", chains, test_chain);
  g_test_add_func ("/share-method/seen/CHAIN-STRAIN-G12", test_settlement);
  return g_test_run ();
}
