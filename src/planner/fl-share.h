/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A guess at what the tie-downs of a load hold as they share it, cheap enough to be asked of thousands of choices. The load is taken to
 * move straight along, without turning; friction and what it stands against are left out. It guides the search; the judge's force answers decide.
 * Private to planner. */
#ifndef FL_SHARE_H
#define FL_SHARE_H

#include "fl-lay.h"
#include "fl-pull.h"

G_BEGIN_DECLS

enum { FL_N_WAYS = FL_MOVES_UP };      /* forward, rearward, left, right: FlMovement without up */

/* cosine: how squarely it holds each way. limit: book's unit. stiffness: N/m; only its ratio to that of the others matters. */
typedef struct { double cosine[FL_N_WAYS], limit, stiffness; } FlStretch;

FlStretch fl_stretch_of (const FlLay *lay, double limit, double stiffness);

/* What they hold along one way when the first of them is at its limit: each is stretched by its cosine of the same movement. The sum of limits
 * times cosines, the most that it could be, where all are alike. Book's unit; 0 where none holds that way. */
double fl_share_holds (const FlStretch *ties, guint n, guint way);

G_END_DECLS
#endif
