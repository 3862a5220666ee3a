/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-simplex.h: the linear program over cones behind the upper bound, in pure numbers; for fl-equilibrium.c alone.
 *
 *   most c with  sum t_k tie_k + sum force_j + c d = z,  0 <= t_k <= most_k,  force_j in the friction cone of contact j,
 *                sum share_sk t_k <= shared_s
 *
 * Six rows: three of force over weight, three of moment about the center of gravity over weight times reach, so that the
 * acceleration is a pure force. A bounded revised simplex with an explicit inverse. A cone has a column for each direction of its
 * rim; the best one for given prices is known in closed form, so that none is stored but those in the basis.
 *
 * The prices y of the six rows are a motion: y[0..2] of the center of gravity, y[3..5] the turning times the reach. A column enters where
 * its force does negative work in it. */
#ifndef FL_SIMPLEX_H
#define FL_SIMPLEX_H

#include "fl-body.h"
#include "fl-pull.h"

G_BEGIN_DECLS

enum { FL_SIMPLEX_BALANCE = 6, FL_SIMPLEX_MOST_ROWS = FL_SIMPLEX_BALANCE + FL_MAX_SHARED };

/* What is known, all over weight and reach. tie: force, then moment, of one unit of its tension. at: from the center of gravity. share:
 * how many legs of the tie hang on the shared limit. cap: c goes no higher. */
typedef struct
{
  guint  n_ties, n_contacts, n_shared;
  double tie[FL_MAX_PULLS][FL_SIMPLEX_BALANCE], most[FL_MAX_PULLS];
  FlVec  at[FL_MAX_CONTACTS];
  double mu[FL_MAX_CONTACTS][2];
  double shared[FL_MAX_SHARED], share[FL_MAX_SHARED][FL_MAX_PULLS];
  FlVec  direction;
  double cap;
} FlSimplexProblem;

/* stands: forces were found that hold the weight at rest. c and the forces that go with it; y, and y_shared >= 0, prices of the shared
 * limits. y is scaled so that y.d = 1, and proves the bound: no cone and no tie's sign is against it. capped: c is the cap, and y is zero. */
typedef struct
{
  gboolean stands, capped;
  double   c, bound;
  double   tension[FL_MAX_PULLS];
  FlVec    force[FL_MAX_CONTACTS];
  double   y[FL_SIMPLEX_BALANCE], y_shared[FL_MAX_SHARED];
  guint    iterations;
} FlSimplexAnswer;

/* Solves problem into answer. At most FL_STATICS_ITERATIONS pivots. */
void fl_simplex_solve (const FlSimplexProblem *problem, FlSimplexAnswer *answer);

/* The bound that the motion y proves with these prices (>= 0) of the shared limits. y is lifted by what the cones want more, and both are
 * scaled to y.d = 1. INFINITY where the motion is not along d: both are then worth nothing. */
double fl_simplex_proves (const FlSimplexProblem *problem, double y[FL_SIMPLEX_BALANCE], double *y_shared);

G_END_DECLS

#endif
