/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-paper.h: the published formulas for lashings with friction, as an engineer works them out on paper: those of EN 12195-1, of the
 * CTU Code, of Annex 13 of the CSS Code and of the Australian load restraint guides are one set with different numbers. SI.
 *
 * They take every tie-down to be what is wanted of it at the same moment and the load to hold together in one way of failing at a time.
 * They hold for symmetrical tie-downs (EN 12195-1 says so of its own); for others fl-equilibrium.h and fl-sharing.h answer. No plan
 * passes by them. Numbers of the formulas in brackets: from memory of EN 12195-1:2010, clause 5; the lever form of (9) and the formulas of
 * Annex 13 as read in public copies. */
#ifndef FL_PAPER_H
#define FL_PAPER_H

#include "fl-pull.h"

G_BEGIN_DECLS

/* A weight, coefficient or length that is not a number gives an answer that is none, never a zero that looks like "nothing needed". */

/* What a standard asks of one direction, and with what it reckons.
 *   c      acceleration along the deck, g (EN: c_x, c_y; CSS: external force over weight).
 *   c_z    share of the weight that presses on the deck meanwhile (1 on the road; CSS lengthwise: less what the ship's heave takes off).
 *   mu     design friction factor; for direct lashings EN and CTU put mu * f_mu here (f_mu 0.75), CSS and the Australian guides mu.
 *   factor tie-downs count for their limit over this (EN over-top: f_s 1.25 forward, 1.1 otherwise; CSS: 1.5 or 1.35 from MSL to
 *          calculated strength, 1/0.9 where it counts nine tenths of the moments). Direct lashings of EN: 1. Not over 0: taken as 1. */
typedef struct { double c, c_z, mu, factor; } FlPaperDemand;

/* need, N: c * weight. weight, N: mu * c_z * weight. ties, N: what the tie-downs add. g: (weight + ties) over the load's weight, to
 * compare with c; 0 where the weight is not known. holding: tie-downs that tighten; skipped: those of which something is not finite
 * or a limit negative. */
typedef struct { double need, weight, ties, g; guint holding, skipped; } FlPaperSliding;

/* Direct lashings against sliding along the horizontal unit vector d, (2), (7), (8):
 *   c m g <= mu c_z m g + sum limit_i / factor * (-u_i.d + mu * -u_i.z)
 * over the tie-downs that tighten (-u.d over FL_STATICS_COSINE). For one at alpha to the deck and beta to d that is
 * cos alpha cos beta + mu sin alpha: CSS Annex 13, f (beta 0), f_y and f_x. Legs of one tie are one tie-down with the least of their limits.
 * One that pulls up lessens what friction has. With n = 0: the load not tied down at all, (2). weight: of the load, N. */
FlPaperSliding fl_paper_sliding (const FlPull *pulls, gsize n, FlVec direction, double weight, FlPaperDemand demand);

/* overturning, weight, ties: moments, Nm. g: the acceleration at which they balance, to compare with c; INFINITY for a center of gravity not
 * above the edge. */
typedef struct { double overturning, weight, ties, g; guint holding, skipped; } FlPaperTipping;

/* Tipping over an edge that lies across d through the place `edge`, (1), (4), (9); CSS Annex 13, F_y * a <= b m g + 0.9 sum CS * c:
 *   c m g * d_cg <= c_z m g * b_cg + sum limit_i / factor * (-u_i.d * h_i - u_i.z * s_i)
 * d_cg, h_i: heights of center of gravity and of each place of pull over the edge; b_cg, s_i: their distances behind it. The bracket
 * is the lever of a tie-down about the edge; those with a lever not over 0 are left out. Legs of one tie are taken together. With n = 0:
 * stability of the load not tied down, b >= c / c_z * d, (1). */
FlPaperTipping fl_paper_tipping (const FlPull *pulls, gsize n, FlVec direction, double weight, FlVec cg, FlVec edge, FlPaperDemand demand);

/* N: what friction leaves to be held, (c - mu c_z) m g; never under 0. The blocking force of (3) where nothing else holds. */
double fl_paper_left_over (double weight, FlPaperDemand demand);

/* N: what one over-top lashing adds by friction, 2 mu sin (alpha) F_T / factor; sine: of its angle to the deck (Australian guides: the angle
 * effect, height over length); tension: F_T in each of its two legs. */
double fl_paper_over_friction (double sine, double tension, FlPaperDemand demand);

/* How many over-top lashings keep it from sliding, exactly, to be rounded up: the one over the other, (5). 0 where none is needed, INFINITY
 * where none helps. */
double fl_paper_over_sliding (double weight, double sine, double tension, FlPaperDemand demand);

/* How many keep one rigid body from tipping sideways: factor * m g (c d - c_z b) / (w sin (alpha) F_T): the leg on the far side pulls down on
 * the arm w, the width, the near one on none, and their horizontal parts cancel. Plain statics; the form of the standard for several rows of
 * goods is another. height: d, behind: b, m. */
double fl_paper_over_tipping (double weight, double height, double behind, double width, double sine, double tension, FlPaperDemand demand);

G_END_DECLS

#endif
