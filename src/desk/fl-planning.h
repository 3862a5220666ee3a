/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The one search that a window has under way at a time: off the main loop, with progress, to be cancelled. What it finds goes to the desk.
 *
 * Signals: "changed" it began, got on or ended; "done" (gboolean trouble, char *text, char *move) it ended: what to tell the person, and the
 * move that needs a look (NULL: none); "ranked" (char *move) trailers were compared for a move. */
#ifndef FL_PLANNING_H
#define FL_PLANNING_H

#include "fl-desk.h"

G_BEGIN_DECLS

#define FL_TYPE_PLANNING (fl_planning_get_type ())
G_DECLARE_FINAL_TYPE (FlPlanning, fl_planning, FL, PLANNING, GObject)

FlPlanning *fl_planning_new (FlDesk *desk);

/* Plans a move against what the other plans leave. One without a trailer gets the best of those that are free. */
void fl_planning_move (FlPlanning *planning, const char *move);
/* Plans all moves of the day that is shown. */
void fl_planning_day (FlPlanning *planning);
/* Compares all trailers that are free for a move and takes none. */
void fl_planning_trailers (FlPlanning *planning, const char *move);

void fl_planning_cancel (FlPlanning *planning);
gboolean fl_planning_busy (FlPlanning *planning);
double fl_planning_fraction (FlPlanning *planning);
const char *fl_planning_text (FlPlanning *planning);     /* "Planning the day: move 2026-11-25/03" */

/* What the last comparison of trailers for this move gave, best first; NULL where there is none. (transfer none) array of FlProposal */
GPtrArray *fl_planning_ranking (FlPlanning *planning, const char *move);

G_END_DECLS
#endif
