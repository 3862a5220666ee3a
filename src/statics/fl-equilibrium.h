/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-equilibrium.h: the upper bound: what a load's tie-downs could hold at the very best, all of them at their limit together.
 *
 * The largest acceleration c along a direction d for which some tensions 0 <= T_i <= limit_i and some contact forces (N_j >= 0, friction
 * inside the exact Coulomb cone) balance all six equations of the rigid body, its weight counted once:
 *
 *   sum T_i u_i + sum (f_j + N_j z) + m g (c d - z) = 0,  and the moments of the same forces about any point = 0.
 *
 * Limit analysis of a rigid-plastic body: a linear program over a cone. Less than the demand is a sure short; more proves nothing, for
 * tensions share as they please here (see fl-sharing.h). Its dual is the way in which the load gives way: the mode.
 *
 * Own revised simplex with bounded variables: six rows (one more for each shared limit that can be reached), and for each contact as many
 * columns of its cone as are wanted, the best one found in closed form. No allocation. What it gives out is checked against the exact cone:
 * g is a state, bound is proven by a motion, and no tolerance of the simplex stands between them. */
#ifndef FL_EQUILIBRIUM_H
#define FL_EQUILIBRIUM_H

#include "fl-body.h"
#include "fl-pull.h"

G_BEGIN_DECLS

/* The way it gives way, by the motion's greatest of: the slip of the foot (under the center of gravity at the contacts' mean height) along the
 * deck: slides; the turning about level axes times the height of the center of gravity over the contacts: tips; half of the turning about
 * the upright axis times the reach (of the furthest contact or pull): yaws; the least rise of a contact over what its friction makes it
 * rise: lifts. Equal ones: the first of these. */
typedef enum
{
  FL_SLIDES,
  FL_TIPS,
  FL_YAWS,
  FL_LIFTS,
  FL_UNSTABLE_AT_REST,          /* cannot even stand: nothing holds its weight up, or it falls over where it stands */
  FL_NOT_JUDGED,                /* a mass, place or direction is not finite, the mass or g not over 0, the direction of no unit length */
  FL_N_MODES
} FlMode;

/* "slides", "tips", "yaws", "lifts", "unstable_at_rest", "not_judged". Static. */
const char *fl_mode_id (FlMode mode);

/* g: the capacity in g, a state that balances within its limits (0 for the last two modes). bound: proven, no state holds more: a sure short is
 * one of the bound. The two differ by FL_STATICS_GAP at most; by more only where points or directions so nearly coincide that the
 * arithmetic ends before, and then by what they say. tension (N), force (N, of the deck on the load): that state, one of many in general.
 * at_limit: bit i, pull i (all legs of its tie) stands at its limit, or at a shared one, and more of it would help. moves (of the center
 * of gravity) and turns (1/m, by the right hand): how it gives way, scaled so that the acceleration does unit work per weight (moves.d =
 * 1). Friction's own lift is in it: a slide rises by mu. Of several motions that prove the same the plainest: straight along d without
 * turning, else in the upright plane of d, else without turning about the upright axis. residual: greatest of the six equations, forces
 * over weight and moments over weight times the reach. iterations: pivots. skipped: pulls and contacts left out because something of them is
 * not finite, or a limit or friction negative, or a direction not of unit length; with a pull all legs of its tie, and all that hang on a
 * shared limit that is not known or negative. */
typedef struct
{
  double g, bound;
  FlMode mode;
  double tension[FL_MAX_PULLS];
  FlVec  force[FL_MAX_CONTACTS];
  guint64 at_limit;
  FlVec  moves, turns;
  double residual;
  guint  iterations, skipped;
} FlCapacity;

/* Never fails, never loops without end: at most FL_STATICS_ITERATIONS steps, and what was reached by then is still a state that balances (if
 * not even one at rest: unstable). direction: a unit vector, any of them; FL_MOVES_UP asks how much upward acceleration the load stands
 * before it leaves the deck and pulls its tie-downs to their limits. A limit over FL_STATICS_ENDLESS weights is taken as that, infinity
 * too, and friction over FL_STATICS_GRIP as that. So is an answer: from FL_STATICS_ENDLESS g on nothing gives way, moves and turns are zero and
 * the mode says nothing. */
FlCapacity fl_equilibrium_capacity (const FlBody *body, const FlPulls *pulls, FlVec direction);

G_END_DECLS

#endif
