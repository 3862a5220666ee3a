/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-test-rigs.h: random rigs by number, the same on every machine and in equilibrium_oracle.py, which draws in the same order: so the
 * records of other solvers hold answers alone. Four wheels or two tracks, up to twelve tie-downs, a fifth without friction, a third with wheels
 * that roll, a twentieth with the center of gravity outside of its contacts, a fifth symmetric; over tie-downs and shared limits.
 * Sizes and weights are invented. */
#ifndef FL_TEST_RIGS_H
#define FL_TEST_RIGS_H

#include "fl-equilibrium.h"
#include "fl-test-random.h"

typedef struct
{
  FlBody        body;
  FlContact     contacts[FL_MAX_CONTACTS];
  FlPull        pulls[FL_MAX_PULLS];
  FlSharedLimit shared[2];
  FlPulls       held;
  FlVec         direction;
} TestRig;

/* SplitMix64 (Steele, Lea and Flood, "Fast splittable pseudorandom number generators", 2014): in [0, 1). */
static inline double
draw (guint64 *state)
{
  guint64 z = *state += G_GUINT64_CONSTANT (0x9E3779B97F4A7C15);

  z = (z ^ (z >> 30)) * G_GUINT64_CONSTANT (0xBF58476D1CE4E5B9);
  z = (z ^ (z >> 27)) * G_GUINT64_CONSTANT (0x94D049BB133111EB);
  return (double) ((z ^ (z >> 31)) >> 11) * 0x1p-53;
}

static inline double
between (guint64 *state, double a, double b)
{
  return a + (b - a) * draw (state);
}

/* The copy's own arrays, after the struct was copied. */
static inline void
test_rig_own (TestRig *rig)
{
  rig->body.contacts = rig->contacts;
  rig->held.pulls = rig->pulls;
  rig->held.shared = rig->shared;
}

/* Every place and direction of it. */
static inline void
test_rig_turn (TestRig *rig, FlVec (*turn) (FlVec v))
{
  rig->body.cg = turn (rig->body.cg);
  rig->direction = turn (rig->direction);
  for (gsize j = 0; j < rig->body.n_contacts; j++)
    rig->contacts[j].at = turn (rig->contacts[j].at);
  for (gsize i = 0; i < rig->held.n; i++)
    {
      rig->pulls[i].at = turn (rig->pulls[i].at);
      rig->pulls[i].along = turn (rig->pulls[i].along);
    }
}

static inline void
draw_body (guint64 *s, TestRig *rig, double *length, double *width)
{
  gboolean tracks;

  *length = between (s, 1.5, 6.0);
  *width = between (s, 1.0, 2.6);
  tracks = draw (s) < 0.4;
  rig->body = (FlBody) { .mass = between (s, 2000.0, 40000.0), .g = 9.80665, .n_contacts = tracks ? 8 : 4 };
  rig->body.cg.x = between (s, 0.25, 0.75) * *length;
  rig->body.cg.y = between (s, -0.2, 0.2) * *width;
  rig->body.cg.z = between (s, 0.3, 1.8);
  if (draw (s) < 0.05)
    rig->body.cg.x = *length + between (s, 0.0, 0.3);
}

static inline void
draw_contacts (guint64 *s, TestRig *rig, double length, double width)
{
  double mu = draw (s) < 0.2 ? 0.0 : between (s, 0.02, 0.7), along = draw (s) < 0.3 ? MIN (0.02, mu) : mu;

  for (guint j = 0; j < rig->body.n_contacts; j++)
    {
      double side = j & 2 ? 1.0 : -1.0, y = side * (j & 4 ? width / 2.0 - 0.4 : width / 2.0);

      rig->contacts[j] = (FlContact) { .at = { j & 1 ? length : 0.0, y, between (s, 0.0, 0.1) }, .mu_along = along, .mu_across = mu };
    }
}

static inline void
draw_pulls (guint64 *s, TestRig *rig, double length, double width)
{
  rig->held.n = (gsize) (draw (s) * 13.0);
  for (gsize i = 0; i < rig->held.n; i++)
    {
      FlVec at, anchor;

      at.x = between (s, 0.0, length);
      at.y = between (s, -0.5, 0.5) * width;
      at.z = between (s, 0.2, 1.2);
      anchor.x = between (s, -1.0, length + 1.0);
      anchor.y = draw (s) < 0.5 ? 1.25 : -1.25;
      anchor.z = between (s, -0.2, 0.0);
      rig->pulls[i] = (FlPull) { .at = at, .along = fl_vec_unit (fl_vec_sub (anchor, at)) };
      rig->pulls[i].limit = between (s, 0.02, 0.5) * rig->body.mass * rig->body.g;
    }
}

static inline void
make_symmetric (TestRig *rig)
{
  rig->body.cg.y = 0.0;
  for (gsize j = 0; j < rig->body.n_contacts; j++)
    rig->contacts[j].at.z = 0.0;
  for (gsize i = 1; i < rig->held.n; i += 2)
    {
      rig->pulls[i] = rig->pulls[i - 1];
      rig->pulls[i].at.y = -rig->pulls[i].at.y;
      rig->pulls[i].along.y = -rig->pulls[i].along.y;
    }
}

static inline void
draw_direction (guint64 *s, TestRig *rig)
{
  double x, y;

  rig->direction = fl_movement_direction ((FlMovement) (draw (s) * 6.0));
  x = between (s, -1.0, 1.0);
  y = between (s, -1.0, 1.0);
  if (fl_vec_norm (rig->direction) < 0.5)
    rig->direction = fl_vec_unit ((FlVec) { x, y, 0.0 });
}

/* Rig number `number` of this program and of equilibrium_oracle.py. */
static inline void
test_rig (guint number, TestRig *rig)
{
  guint64 s = G_GUINT64_CONSTANT (1000003) * number;
  double length, width, weight;
  gboolean over, shared;

  *rig = (TestRig) { 0 };
  draw_body (&s, rig, &length, &width);
  draw_contacts (&s, rig, length, width);
  draw_pulls (&s, rig, length, width);
  weight = rig->body.mass * rig->body.g;
  if (draw (&s) < 0.2)
    make_symmetric (rig);
  over = draw (&s) < 0.3;
  if (over && rig->held.n >= 4)
    rig->pulls[0].tie = rig->pulls[1].tie = 1;
  shared = draw (&s) < 0.5;
  rig->held.n_shared = shared && rig->held.n >= 6 ? 2 : 0;
  for (guint i = 0; i < 2; i++)
    rig->shared[i] = (FlSharedLimit) { .limit = between (&s, 0.05, 0.6) * weight, .legs = i == 0 ? 0x0c : 0x30 };
  draw_direction (&s, rig);
  test_rig_own (rig);
}

static inline FlCapacity
test_rig_capacity (const TestRig *rig)
{
  return fl_equilibrium_capacity (&rig->body, &rig->held, rig->direction);
}

#endif
