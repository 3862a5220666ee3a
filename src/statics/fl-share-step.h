/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-share-step.h: one step of load sharing: where a body on springs and sliding contacts comes to rest under a given force. Private to
 * fl-sharing.c.
 *
 * Six unknowns in metres: the translation of the center of gravity, and the turn times `reach`, so that moments count as forces. */
#ifndef FL_SHARE_STEP_H
#define FL_SHARE_STEP_H

#include "fl-body.h"
#include "fl-pull.h"

G_BEGIN_DECLS

enum { FL_SHARE_N = 6 };

/* A tie: pulls with max (0, pull + k * (b . q)). b: how much it stretches for each unknown. */
typedef struct { double b[FL_SHARE_N], k, pull; } FlShareSpring;

/* r: from the center of gravity, over reach. normal, shear: N/m. mu: along and across. slip: where the deck holds it without force. */
typedef struct { double r[3], normal, shear, mu[2], slip[2]; } FlShareFoot;

/* rest: a spring so weak that it holds nothing (N/m), to `from`: where the last step ended; without it what nothing holds would have no
 * place. way: from there, in the last step. force: what acts from outside, N, and its moments over reach. enough: residual at which a step has settled, N. most: iterations
 * after which it gives up. */
typedef struct
{
  FlShareSpring springs[FL_MAX_PULLS];
  FlShareFoot   feet[FL_MAX_CONTACTS];
  gsize  n_springs, n_feet;
  double rest, from[FL_SHARE_N], way[FL_SHARE_N], force[FL_SHARE_N], enough;
  guint  iterations, most;
} FlShareRig;

/* Stretch of the spring at q, m. */
double fl_share_stretch (const FlShareSpring *spring, const double q[FL_SHARE_N]);

/* Tension of the spring at q, N. */
double fl_share_tension (const FlShareSpring *spring, const double q[FL_SHARE_N]);

/* Force of the deck on the load at the foot at q, N: friction inside its ellipse, and the push. */
FlVec fl_share_push (const FlShareFoot *foot, const double q[FL_SHARE_N]);

/* Moves q, where the last step ended, to where all is in balance, and counts its iterations; it first looks as far again as the last step went. FALSE: it did not settle, and q is anywhere. */
gboolean fl_share_settle (FlShareRig *rig, double q[FL_SHARE_N]);

/* What is left of the six equations at q without the weak spring, the greatest, N. */
double fl_share_residual (const FlShareRig *rig, const double q[FL_SHARE_N]);

/* What has slipped at q has slipped. */
void fl_share_keep_slip (FlShareRig *rig, const double q[FL_SHARE_N]);

G_END_DECLS

#endif
