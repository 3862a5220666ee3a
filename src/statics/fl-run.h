/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-run.h: the way of a tie-down from the machine to the trailer: its length, its angles, what it holds, what it touches.
 *
 * A path is an array of at least two places in the trailer frame (m; fl-vec-ops.h):
 *   direct: the machine point first, the anchor last; between them the places where it bends over an edge (fl-edge.h);
 *   over:   the first anchor, the machine points it passes in order, the second anchor.
 * Between two places a run is straight: a tight chain, its sag left out.
 *
 * Signs. A tie-down pulls the machine along u = (A - P) / |A - P|, from the machine point P towards the anchor A. "Forward" as
 * a case means that the machine tends to move forward (braking), d = +x; a tie-down holds against it by -u.d where that is
 * positive, so its anchor lies behind its machine point. Likewise the other ways.
 *
 * What cannot be told. A coordinate that is no place (fl_vec_is_place: NaN, infinite, absurdly far) never becomes a NaN here.
 * Each function says what it answers instead: always the answer that lets nothing pass as good. */
#ifndef FL_RUN_H
#define FL_RUN_H

#include "fl-box.h"
#include "fl-vec-ops.h"

G_BEGIN_DECLS

/* TRUE if there are two or more places and all are places (fl_vec_is_place). */
gboolean fl_run_is_valid (const FlVec *path, gsize n);

/* m, along the path. 0, which is no run, where the path is not valid. */
double   fl_run_length (const FlVec *path, gsize n);

/* Unit vector from the machine point towards the next place of its run: the way the tie-down pulls the machine there. For an
 * `over` tie-down once for each leg: at its first machine point towards the first anchor, at its last towards the second.
 * The zero vector, which holds nothing, where the two are one place (FL_STATICS_POINT) or no places. */
FlVec    fl_run_pull (FlVec point, FlVec towards);

/* rad, 0 to pi/2: between the pull and the deck's plane; asin |u_z| for a unit vector, by atan2, which stays exact near a right
 * angle. Any length of u. 0 for the zero vector and for one that is not finite. */
double   fl_run_deck_angle (FlVec u);

/* rad, 0 to pi/2: between the pull seen from above and the trailer's long axis; atan2 (|u_y|, |u_x|). 0 lengthwise, pi/2
 * across. 0 for a vertical pull, which has none, and for one that is not finite. */
double   fl_run_plan_angle (FlVec u);

/* TRUE if a pull along u holds the machine down: u_z under -FL_STATICS_COSINE. A direct tie-down must. */
gboolean fl_run_pulls_down (FlVec u);

/* The share of the tension that holds against a movement along d: max (0, -u.d), 0 to 1; u and d unit vectors. For the upward
 * direction it is the downward component. 0 where not finite. */
double   fl_run_holds (FlVec u, FlVec d);

/* m: the least distance between two straight segments a0..a1 and b0..b1, each of which may be a point. Least of the distances
 * of the four ends to the other segment and of the feet of the common perpendicular (Ericson, Real-Time Collision Detection,
 * 5.1.9; from memory). 0, touching, where one of the four is no place. */
double   fl_segment_distance (FlVec a0, FlVec a1, FlVec b0, FlVec b1);

/* m: the least distance between two runs, leaving out the first and last `leaves` m (along the path) of each. Two tie-downs on
 * one point or anchor meet there, of course: ask with `leaves` where they share an end, with 0 where they do not.
 * INFINITY where `leaves` leaves nothing of one of them; 0, touching, where a path is not valid. `leaves` not over 0: all. */
double   fl_run_distance (const FlVec *a, gsize n_a, const FlVec *b, gsize n_b, double leaves);

/* TRUE if the run keeps out of all n_boxes boxes (trailer frame, m), leaving out its first and last `leaves` m along the path:
 * the lug is welded to the frame it holds, the pocket is part of the rail, and a box drawn round either is not in the way of
 * the chain that starts there. Along a face, or less than FL_STATICS_GRAZE inside it, is not through it; a plate thinner than
 * twice that is met in its middle plane.
 * FALSE: *hit (NULL allowed) is the first box met, in the order of boxes. What cannot be judged does not clear: a box that is
 * not valid is hit; a path that is not valid hits n_boxes, no box. A run shorter than twice `leaves` meets nothing. */
gboolean fl_run_clears (const FlVec *path, gsize n, double leaves, const FlBox *boxes, gsize n_boxes, gsize *hit);

/* TRUE if the run has places on both sides of the plane across the trailer at x (m), each more than FL_STATICS_GRAZE off it: a
 * run across the hinge of a tilting deck goes slack or breaks when the deck tilts. From the hinge itself is not across it.
 * TRUE as well where the path is not valid or x not finite: it cannot be said not to cross. */
gboolean fl_run_crosses_plane (const FlVec *path, gsize n, double x);

G_END_DECLS

#endif
