/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-sharing.h: how the tie-downs of a load share it: each one's tension, its use of its limit, and how far the load moves.
 *
 * A rigid body, small displacements q = (translation u, turn) of its center of gravity:
 *
 *   tie-down   T = max (0, pretension + k s), s = - sum over its legs of along . (u + turn x r), 1/k = sum of length/ea + give
 *              from where its weight alone brings the load (from unloaded contacts where it cannot stand without its tie-downs)
 *   contact    N = max (0, - stiffness w_z), w = u + turn x r; weight lies on it from nothing
 *   friction   f nearest to the elastic trial - shear (w - slip) in the ellipse (fx/mu_along)^2 + (fy/mu_across)^2 <= N^2
 *
 * "Nearest" in the plain metric, for the shear stiffness is the same all round: associated elastic-perfectly plastic flow, so that with its
 * caps held each step is one convex problem (Simo and Hughes, Computational Inelasticity, 1998, ch. 2, from memory). The caps are those of
 * the pushes N of the same step: a fixed point, as Coulomb's law is not associated (and need not have one answer alone: where a load snaps
 * round, coarse steps may pass what finer ones call gone). Slip is kept from step to step. Step zero is the weight, then the pretension
 * (which the load yields to as well: on soft tires some is lost); then the acceleration comes in equal steps. A step that does not settle
 * is taken in 4, then 16 parts. Newton, semismooth, with line search on six unknowns (fl-share-step.c). No allocation.
 *
 * So the short steep chain that carries everything shows. Tensions are not cut off at their limits: going over is the answer. What nothing
 * holds (a slack load on ice) is held by a spring of 1e-7 of the weight per metre to where the step began: it gives it a place, and no strength. Nothing
 * is stiffer than 1e6 weights per metre. */
#ifndef FL_SHARING_H
#define FL_SHARING_H

#include "fl-body.h"
#include "fl-pull.h"

G_BEGIN_DECLS

/* Steps after which it stops, before the demand and again past it. */
enum { FL_SHARING_MOST_STEPS = 1000 };

/* At the demand, or at the last step that settled before it.
 *
 * reached: g, equals the demand if all went well. tension: N, of each leg, 0 for a skipped one. force: N, of the deck on the load at each contact.
 * use: the greatest of tension over limit (the least of its tie's) and of sum over shared limit; over a limit of 0: INFINITY as soon
 * as there is tension. worst: the pull where that is, the hardest pulled leg of a shared limit; 0 where use is 0. moved: of the center of
 * gravity, m, since weight and pretension alone; turned: radians.
 * holds: g at which the first limit is reached, linear between the steps (what lies between two states that balance within limits and cones does so
 * too, so it is never over the upper bound); 0 where pretension alone does; the last step that settled where the load goes away first;
 * INFINITY where neither happens up to `upto`.
 * residual: greatest of the six equations, forces over weight, moments over weight times reach (greatest distance of a pull or contact from the
 * center of gravity). steps: that settled, up to the demand. iterations: of Newton, in all. skipped: pulls (all legs of a tie with one
 * that is not sound), contacts and shared limits left out. A pull is sound with a place, a unit vector, a limit of 0 or more, a finite pretension and
 * length/ea + give over 0 (length 0: ea does not matter, so a stop is length 0 and give = 1/stiffness; pretension under 0: a gap of -pretension/k
 * first); a contact with a place, stiffness over 0, friction and shear of 0 or more, all finite.
 * converged FALSE: some step up to the demand did not settle, or the load went away: the center of gravity, or the turn times reach, moved over
 * FL_STATICS_GONE. */
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

/* demand, upto: g along the unit vector direction; 0 or more. Figures are of the demand; steps of the same size go on up to `upto` only to find `holds`
 * (stopping there). n_steps: 20 in the house, taken as 1 to FL_SHARING_MOST_STEPS. The legs of one tie pull with the least of
 * their pretensions. Never fails, never loops without end. Nothing to stand on (no sound contact, no mass or center of gravity, cannot stand by its
 * weight and pretension), no unit vector, no finite demand: converged FALSE, all else 0 but iterations and skipped. */
FlSharing fl_sharing_solve (const FlBody *body, const FlPulls *pulls, FlVec direction, double demand, double upto, guint n_steps);

G_END_DECLS

#endif
