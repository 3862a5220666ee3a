/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-pull.h: a tie-down as the force answers see it, and the ways in which a load may move. */
#ifndef FL_PULL_H
#define FL_PULL_H

#include "fl-vec-ops.h"

G_BEGIN_DECLS

/* One leg of a tie-down. at: where it pulls on the machine, m, trailer frame. along: unit vector away from the machine, towards
 * the anchor (fl_run_pull). limit: the greatest tension it may have, N. ea: force at 100 percent strain, N; length: of its run,
 * m; pretension: N. The component sums use along and limit alone. */
typedef struct { FlVec at, along; double limit, ea, length, pretension; } FlPull;

/* The way in which the load tends to move; braking is FL_MOVES_FORWARD. */
typedef enum { FL_MOVES_FORWARD, FL_MOVES_REARWARD, FL_MOVES_LEFT, FL_MOVES_RIGHT, FL_MOVES_UP, FL_N_MOVEMENTS } FlMovement;

/* Its unit vector in the trailer frame; the zero vector for a number that is none of them. */
FlVec fl_movement_direction (FlMovement movement);

G_END_DECLS

#endif
