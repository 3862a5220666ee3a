/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-bearing.h: how a load bears on the deck, lengthwise, and the most of it that any stretch of the deck has to carry.
 *
 * A rigid load on equal springs: each contact (a wheel, an end of a drum, a track) is as stiff as every other, a patch evenly along its
 * length; the deck pushes and does not pull. Weight and center of gravity then give one straight line of pressure, as under a footing
 * (Winkler's foundation; any textbook of soil mechanics: even under the middle, a trapezoid to a sixth of the length, beyond it a
 * triangle of three times the distance to the edge). With two places to stand on, it is the lever rule whatever the springs. How the
 * load divides across the deck is left out: a stretch has the whole width. */
#ifndef FL_BEARING_H
#define FL_BEARING_H

#include "fl-contact.h"

G_BEGIN_DECLS

/* A straight line of pressure from x0 to x1, m: at0 and at1 in N/m. x0 == x1: a line across the deck with all of `at0`, N. */
typedef struct { double x0, x1, at0, at1; } FlBearing;

/* What `weight`, N, with its center of gravity at cg_x, m, does to n patches; out[n], in the order of rects; what bears nothing comes out
 * with no load. A center of gravity beyond the outermost edge puts everything on that edge. FALSE, and nothing written, for no patches,
 * patches that are not valid, or a weight or place that is not finite. */
gboolean fl_bearing_share (const FlRect *rects, gsize n, double weight, double cg_x, FlBearing *out);

/* N on the stretch from x0 to x1, ends included. */
double fl_bearing_between (const FlBearing *bearings, gsize n, double x0, double x1);

/* The most on any stretch of this length, m; *x0 (NULL allowed) where that stretch begins. 0 for none, or a length that is not over 0. */
double fl_bearing_most (const FlBearing *bearings, gsize n, double length, double *x0);

G_END_DECLS

#endif
