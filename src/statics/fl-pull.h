/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-pull.h: a tie-down as the force answers see it, and the ways in which a load may move. */
#ifndef FL_PULL_H
#define FL_PULL_H

#include "fl-vec-ops.h"

G_BEGIN_DECLS

/* No plan has more (32 tie-downs of two legs; 8 loads are answered one by one). */
enum { FL_MAX_PULLS = 64, FL_MAX_SHARED = 64 };

/* One leg of a tie-down. at: where it pulls on the machine, m, trailer frame. along: unit vector away from the machine, towards
 * the anchor (fl_run_pull). limit: the greatest tension it may have, N. ea: force at 100 percent strain, N; length: of its run,
 * m; pretension: N. give: what binder, anchor and machine point yield in series with it, m/N (0: nothing). tie: legs with the
 * same number over 0 are one tie-down that runs freely over the load and has one tension, one limit (the least of theirs) and one
 * stretch (the sum of its legs' shortenings, over the sum of their lengths and gives); 0: a tie-down by itself. A stop in front of a
 * load is a pull too: it pushes along `along`, up to its rating. The component sums use along and limit alone. */
typedef struct { FlVec at, along; double limit, ea, length, pretension, give; guint tie; } FlPull;

/* What several legs hang on together: the plain sum of their tensions may not go over limit, N. legs: bit i is pull i. */
typedef struct { double limit; guint64 legs; } FlSharedLimit;

/* All that holds one load; borrowed. n at most FL_MAX_PULLS, n_shared at most FL_MAX_SHARED: what is beyond is not looked at. */
typedef struct { const FlPull *pulls; gsize n; const FlSharedLimit *shared; gsize n_shared; } FlPulls;

/* The way in which the load tends to move; braking is FL_MOVES_FORWARD. */
typedef enum { FL_MOVES_FORWARD, FL_MOVES_REARWARD, FL_MOVES_LEFT, FL_MOVES_RIGHT, FL_MOVES_UP, FL_N_MOVEMENTS } FlMovement;

/* Its unit vector in the trailer frame; the zero vector for a number that is none of them. */
FlVec fl_movement_direction (FlMovement movement);

/* The movement that a direction is nearest to by more than half; FL_N_MOVEMENTS where none is. */
FlMovement fl_movement_of (FlVec direction);

G_END_DECLS

#endif
