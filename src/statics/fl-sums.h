/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-sums.h: the engineer's paper method: what the tie-downs hold each way, every one at its limit at once, without friction.
 * It takes the tensions to be what is wanted of them; whether they can be so at the same time is not asked here. */
#ifndef FL_SUMS_H
#define FL_SUMS_H

#include "fl-pull.h"

G_BEGIN_DECLS

/* For each FlMovement: force, N, the sum of limit * max (0, -along.d); g, that force over the weight; holding, how many pulls
 * hold at all: a limit over 0, a cosine over FL_STATICS_COSINE. FL_MOVES_UP counts the downward components, gravity not among them.
 * skipped: pulls that count nowhere because along or limit is not finite or the limit negative. */
typedef struct {
  double force[FL_N_MOVEMENTS];
  double g[FL_N_MOVEMENTS];
  guint  holding[FL_N_MOVEMENTS];
  guint  skipped;
} FlSums;

/* Adds up n pulls. weight: of the load, N (mass times g); where it is not known (NaN, infinite, not over 0) every g is 0. The
 * component method of statics: direction cosines; the "angle effect" of the Australian load restraint guides (tie-point
 * separation along the wanted direction over lashing length) and the cosines of EN 12195-1 are the same number. */
FlSums fl_sums_component (const FlPull *pulls, gsize n, double weight);

G_END_DECLS

#endif
