/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-statics-tolerances.h: every tolerance of the statics library, each with its unit and its reason (those inside one algorithm
 * stand with it). Nothing here is a regulation's number or a matter of taste about tie-downs: those stand in the rule book and are
 * arguments. */
#ifndef FL_STATICS_TOLERANCES_H
#define FL_STATICS_TOLERANCES_H

/* m. Two points nearer than this are one point. A micrometre: far under any measurement, far over rounding (1e-15 of 20 m). */
#define FL_STATICS_POINT 1e-6

/* m. A coordinate from here on is no place. Further than any road goes, and small enough that fourth powers do not overflow. */
#define FL_STATICS_FAR 1e7

/* m. Supports of a beam nearer than this are one support: nobody measures an axle closer than a millimetre, and the
 * reactions of a couple on so short an arm would mean nothing. */
#define FL_STATICS_ARM 1e-3

/* m. How deep a run must go into a box, or past a plane, before it counts. Boxes are tape measure numbers; a chain that lies
 * along a face touches and does not pass through. */
#define FL_STATICS_GRAZE 1e-3

/* Cosine. A component of a unit vector smaller than this is rounding and holds nothing (cos 90 degrees is 6e-17 in doubles,
 * a difference of two tape measure numbers in metres about 1e-16). */
#define FL_STATICS_COSINE 1e-9

/* g. How far the upper bound's own state and its proof may differ. A thousandth of what is printed (0.001 g). */
#define FL_STATICS_GAP 1e-6

/* Steps of the upper bound's simplex after which it stops with what it has. Random rigs take twenty-four on
 * average and seldom over eighty. */
#define FL_STATICS_ITERATIONS 400

/* No unit. A direction whose length is further from 1 than this is no unit vector: someone gave something else. */
#define FL_STATICS_UNIT 1e-6

/* Weights; for an answer, g. What has no end ends here: no tie-down and no road reaches it. */
#define FL_STATICS_ENDLESS 1e3

/* No unit. More friction than this is taken as this: nothing on a deck has a tenth of it, and beyond the numbers lose their meaning. */
#define FL_STATICS_GRIP 10.0

/* g per weight. What one more weight of tension must bring before a tie-down is said to be short. */
#define FL_STATICS_HELPS 1e-6

/* Share of a limit. So near a limit it is reached: the gap above leaves a tension about so free, and no rating is known as well. */
#define FL_STATICS_REACHED 1e-3

/* m. A load that moved further than this has gone: small displacements no longer mean anything, and no tie-down held it. */
#define FL_STATICS_GONE 1.0

#endif
