/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-sharing.h: how the tie-downs of a load share it: each one's tension, its use of its limit, and how far the load moves.
 *
 * A rigid body, small displacements q = (translation, turn); tie-downs are springs that only pull, T = max (0, pretension + k * stretch), with
 * 1/k = length/ea + give; contacts are springs that only push; friction is elastic-perfectly plastic in each contact, its cap (the
 * ellipse of fl-body.h) mu N, iterated to a fixed point within the step; the weight first, then the acceleration in equal steps. Each step with its
 * caps held is one convex problem (a semismooth Newton with line search on six unknowns). So the short steep chain that carries everything
 * shows. Tensions are not cut off at their limits: going over is the answer. */
#ifndef FL_SHARING_H
#define FL_SHARING_H

#include "fl-body.h"
#include "fl-pull.h"

G_BEGIN_DECLS

/* At the demand, or where it stopped: reached, g, equals the demand if all went well. tension: N, of each leg; force: N, of the deck on the
 * load at each contact; use: the greatest of tension over limit and of sum over shared limit; worst: the pull where that is. moved: of the center of
 * gravity, m, since the weight alone stood on its contacts with its pretension; turned: radians. holds: g at which the first limit is reached,
 * linear between the steps; INFINITY where none is reached up to `upto`. residual as in fl-equilibrium.h. converged FALSE: some
 * step did not settle, or the load went away (moved over FL_STATICS_GONE): the figures are of the last step that did. */
typedef struct
{
  double reached, use, holds;
  guint  worst;
  double tension[FL_MAX_PULLS];
  FlVec  force[FL_MAX_CONTACTS];
  FlVec  moved, turned;
  double residual;
  guint  steps, iterations, skipped;
  gboolean converged;
} FlSharing;

/* demand, upto: g along the unit vector direction, upto at least demand: figures are of the demand, and steps of the same size go on
 * up to `upto` only to find `holds` (stopping there). n_steps: 20 in the house; at least 1. Never fails, never loops without end. A body without
 * contacts, mass or a finite center of gravity: converged FALSE, reached 0. */
FlSharing fl_sharing_solve (const FlBody *body, const FlPulls *pulls, FlVec direction, double demand, double upto, guint n_steps);

G_END_DECLS

#endif
