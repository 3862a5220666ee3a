/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-test-sharing-rigs.h: random loads on springs by number, the same on every machine and in sharing_oracle.py, which draws in the same order.
 * A machine on four wheels, or two tracks of four or eight contacts, tied down to its corners in turn, by chains of 8, 10 and 13 mm and web
 * straps, some over the load, some tightened, some with a stop before them. Sizes and weights are invented, stiffness is of the
 * order of intl. handbooks' (chain 45 GPa on both legs; web 7 percent at its limit). */
#ifndef FL_TEST_SHARING_RIGS_H
#define FL_TEST_SHARING_RIGS_H

#include "fl-sharing.h"
#include "fl-test-rigs.h"

typedef struct { TestRig rig; double demand; } SharingRig;

static inline void
draw_springy_body (guint64 *s, SharingRig *out, double *length, double *width)
{
  TestRig *rig = &out->rig;
  double kind = draw (s), soft;

  *length = between (s, 0.8, 3.0);
  *width = between (s, 0.7, 1.3);
  rig->body = (FlBody) { .mass = between (s, 3000.0, 35000.0), .g = 9.80665, .n_contacts = kind < 0.5 ? 4 : kind < 0.9 ? 8 : 16 };
  rig->body.cg.x = between (s, -0.25, 0.25) * *length;
  rig->body.cg.y = between (s, -0.1, 0.1);
  rig->body.cg.z = between (s, 0.5, 1.6);
  soft = kind < 0.5 ? between (s, 0.5e6, 3e6) : between (s, 5e6, 50e6);
  for (guint j = 0; j < rig->body.n_contacts; j++)
    {
      FlContact *contact = &rig->contacts[j];

      contact->at.x = (j & 1 ? *length : -*length) * (1.0 - 0.25 * (j >> 3 & 1)) + between (s, -0.1, 0.1);
      contact->at.y = (j & 2 ? *width : -*width) * (j & 4 ? 0.6 : 1.0);
      contact->stiffness = soft * between (s, 0.8, 1.2);
      contact->shear = contact->stiffness * between (s, 0.3, 1.0);
    }
}

static inline void
draw_springy_pull (guint64 *s, SharingRig *out, guint i, double length, double width)
{
  FlPull *pull = &out->rig.pulls[i];
  double sx = i & 1 ? 1.0 : -1.0, sy = i & 2 ? 1.0 : -1.0, kind;
  FlVec anchor;

  pull->at.x = sx * between (s, 0.3, 1.1) * length;
  pull->at.y = sy * between (s, 0.4, 1.0) * width;
  pull->at.z = between (s, 0.4, 1.3);
  anchor.x = pull->at.x + sx * between (s, -0.2, 1.6);
  anchor.y = sy * between (s, 0.9, 1.3);
  anchor.z = between (s, -0.2, 0.0);
  pull->length = fl_vec_norm (fl_vec_sub (anchor, pull->at));
  pull->along = fl_vec_scale (fl_vec_sub (anchor, pull->at), 1.0 / pull->length);
  kind = draw (s);
  pull->ea = kind < 0.1 ? 357e3 : kind < 0.4 ? 4.52e6 : kind < 0.8 ? 7.07e6 : 11.95e6;
  pull->limit = kind < 0.1 ? 25e3 : kind < 0.4 ? 40e3 : kind < 0.8 ? 63e3 : 100e3;
  pull->pretension = draw (s) < 0.5 ? 0.0 : between (s, 0.0, 8e3);
  pull->give = draw (s) < 0.5 ? 0.0 : 1.0 / between (s, 20e6, 50e6);
}

/* A stop against the direction, at the height of the deck. */
static inline void
draw_stop (guint64 *s, SharingRig *out)
{
  TestRig *rig = &out->rig;
  FlPull *stop = &rig->pulls[rig->held.n++];

  stop->at = fl_vec_sub (rig->body.cg, fl_vec_scale (rig->direction, -0.5));
  stop->at.z = 0.2;
  stop->along = fl_vec_scale (rig->direction, -1.0);
  stop->limit = between (s, 0.2, 1.0) * rig->body.mass * rig->body.g;
  stop->give = 1.0 / between (s, 1e7, 1e8);
  stop->pretension = -0.01 * draw (s) / stop->give;     /* up to a centimetre away */
}

static inline void
draw_way (guint64 *s, SharingRig *out)
{
  static const double ways[5][2] = { { 1, 0 }, { -1, 0 }, { 0, 1 }, { 0, -1 }, { 0.6, 0.8 } };
  const double *way = ways[(guint) (draw (s) * 5.0)];

  out->rig.direction = (FlVec) { way[0], way[1], 0.0 };
  out->demand = between (s, 0.2, 0.9);
}

/* Rig `number`, with friction as drawn or without any. */
static inline void
sharing_rig (guint number, gboolean rough, SharingRig *out)
{
  guint64 s = G_GUINT64_CONSTANT (7000003) * number;
  double length, width, mu, along, over, shared, stop;
  TestRig *rig = &out->rig;

  *out = (SharingRig) { 0 };
  draw_springy_body (&s, out, &length, &width);
  mu = between (&s, 0.05, 0.6);
  along = draw (&s) < 0.3 ? 0.02 : mu;
  for (guint j = 0; j < rig->body.n_contacts && rough; j++)
    {
      rig->contacts[j].mu_across = mu;
      rig->contacts[j].mu_along = along;
    }
  rig->held.n = 4 + (gsize) (draw (&s) * 9.0);
  for (guint i = 0; i < rig->held.n; i++)
    draw_springy_pull (&s, out, i, length, width);
  over = draw (&s);
  if (over < 0.2)
    rig->pulls[1].tie = rig->pulls[3].tie = 1;
  shared = draw (&s);
  rig->held.n_shared = shared < 0.3 ? 1 : 0;
  rig->shared[0] = (FlSharedLimit) { .limit = 70e3, .legs = 0x5 };
  draw_way (&s, out);
  stop = draw (&s);
  if (stop < 0.15)
    draw_stop (&s, out);
  test_rig_own (rig);
}

static inline FlSharing
sharing_solve (const SharingRig *rig, double upto)
{
  return fl_sharing_solve (&rig->rig.body, &rig->rig.held, rig->rig.direction, rig->demand, upto, 20);
}

#endif
