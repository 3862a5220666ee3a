/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-beam.h: what the axles and the coupling carry: loads on a rigid beam over two supports.
 *
 * x in m along the vehicle, forward, in any one frame of it. Loads and answers in N, positive downwards on the ground or the
 * truck; a negative answer means that the support lifts. Force and moment balance of a beam on two supports (any textbook of
 * statics). A trailer is a beam over its coupling and its axle group; a truck, or a rollback that has no coupling below it, a
 * beam over two groups (steer axle and drive group). The load on a truck is what the trailer's coupling carries, at the truck's
 * coupling x: behind the last axle it comes out as a lighter steer axle.
 *
 * Axles of one group stand on an equalizing suspension: it shares the group's load by fixed shares wherever the load lies, so
 * the group is one support at the mean place of its axles, weighted by share. Two groups behind a coupling are three supports;
 * how they share depends on springs that nobody measures, and no number is given (FL_BEAM_INDETERMINATE). */
#ifndef FL_BEAM_H
#define FL_BEAM_H

#include <glib.h>

G_BEGIN_DECLS

typedef enum {
  FL_BEAM_OK,
  FL_BEAM_NOT_FINITE,          /* a place, load or own weight is NaN or infinite: not known */
  FL_BEAM_BAD_SHARES,          /* shares of a group negative, infinite, all zero, or given for some of its axles only */
  FL_BEAM_ONE_SUPPORT,         /* fewer than two supports: nothing holds the beam level */
  FL_BEAM_COINCIDENT,          /* the two supports stand at one place (FL_STATICS_ARM) */
  FL_BEAM_INDETERMINATE,       /* more than two supports: statics alone cannot tell */
} FlBeamStatus;

/* A load: x of its centre of gravity, m; its weight, N. */
typedef struct { double x, force; } FlBeamLoad;

/* x, m. own: what it carries of the empty vehicle, N, as weighed (tare); added to the answer. share: of its group's load, as a
 * fraction or any other weight (0.6 and 0.4, or 3 and 2); NaN in all axles of a group: equal shares. group: axles with the same
 * number stand on one equalizing suspension; 0: by itself. Axles of a group need not stand together in the list. */
typedef struct { double x, own, share; guint group; } FlBeamAxle;

/* x, m; own: its down load with the vehicle empty, N; added to the answer. */
typedef struct { double x, own; } FlBeamCoupling;

/* The bare beam: n loads over two supports at first_x and second_x. out[0], out[1]: what each carries, N, zeros unless
 * FL_BEAM_OK. No loads: zeros, and OK. */
FlBeamStatus fl_beam_loads (const FlBeamLoad *loads, gsize n, double first_x, double second_x, double out[2]);

/* A vehicle: its loads over coupling (NULL: it has none below it, as a truck or a rollback) and axles. axle_out[n_axles] gets
 * what each axle carries, own and load, in the order of axles; *coupling_out (NULL allowed) the coupling, 0 without one.
 * All zeros unless FL_BEAM_OK. */
FlBeamStatus fl_beam_axles (const FlBeamLoad *loads, gsize n_loads, const FlBeamCoupling *coupling, const FlBeamAxle *axles,
                            gsize n_axles, double *axle_out, double *coupling_out);

/* Where the group of axles[index] stands, m, and what part of the group's load that axle takes, 0 to 1. */
FlBeamStatus fl_beam_group (const FlBeamAxle *axles, gsize n_axles, gsize index, double *x, double *part);

G_END_DECLS

#endif
