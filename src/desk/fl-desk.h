/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What one window works on: an open fleet, the day and the move that are looked at, how each move stands, and what was done to the plans.
 * The views show it and never hold a truth of their own. Main loop only.
 *
 * Signals: "fleet" another fleet is open; "day" another day, and so other moves; "move" another move is selected; "outcome" (char *move)
 * a move stands differently; "tie" another tie-down is selected; "history" undo or redo changed; "units" other units are wanted. */
#ifndef FL_DESK_H
#define FL_DESK_H

#include <glib-object.h>

#include "fl-outcome.h"

G_BEGIN_DECLS

#define FL_TYPE_DESK (fl_desk_get_type ())
G_DECLARE_FINAL_TYPE (FlDesk, fl_desk, FL, DESK, GObject)

FlDesk *fl_desk_new (void);

/* Opens a fleet in the place of the one that is open; the day is the first from `today` on, or the busiest where all are past. FALSE with an error,
 * and all that is wrong in `problems`, when it cannot be used: then nothing has changed. Plans that were made here stay where the same
 * file is opened again and has their moves. */
gboolean fl_desk_open (FlDesk *desk, const char *path, const char *today, FlProblems *problems, GError **error);

FlOffice *fl_desk_office (FlDesk *desk);                 /* NULL: no fleet is open */
const FlFleet *fl_desk_fleet (FlDesk *desk);             /* NULL: no fleet is open */
const FlWords *fl_desk_words (FlDesk *desk);             /* NULL: English */
gboolean fl_desk_metric (FlDesk *desk);                  /* units on the screen */
void fl_desk_set_units (FlDesk *desk, const char *units);     /* "fleet", "us", "metric" */

/* ── the day ── */
const char *fl_desk_day (FlDesk *desk);                  /* NULL: the fleet has no moves */
gboolean fl_desk_has_day (FlDesk *desk, gint step);      /* is there an earlier (-1) or later (1) day with moves? */
gboolean fl_desk_step_day (FlDesk *desk, gint step);
gboolean fl_desk_show_day (FlDesk *desk, const char *date);   /* FALSE: it has no moves */

/* ── its moves, in order of departure ── */
guint fl_desk_n_moves (FlDesk *desk);
const FlMove *fl_desk_move_at (FlDesk *desk, guint index);
const FlMove *fl_desk_move (FlDesk *desk);               /* the selected one; NULL: none */
void fl_desk_select (FlDesk *desk, const char *move);
/* How a move stands; judged on first use. Borrowed until its next "outcome". */
const FlOutcome *fl_desk_outcome (FlDesk *desk, const char *move);
const FlOutcome *fl_desk_selected_outcome (FlDesk *desk);     /* NULL: no move is selected */

/* ── the selected move's tie-downs ── */
gsize fl_desk_n_ties (FlDesk *desk);
gint fl_desk_tie (FlDesk *desk);                         /* index; -1 none */
void fl_desk_choose_tie (FlDesk *desk, gint index);
void fl_desk_step_tie (FlDesk *desk, gint step);         /* the next or previous one, round */

/* ── changing plans: each call is one step of undo ── */
/* Gives moves the plans that came of a search (those with a best) and remembers why the rest have none (those proposals move to the desk, which
 * leaves NULL in the array). */
void fl_desk_take_proposals (FlDesk *desk, const char *name, GPtrArray *proposals);
/* Gives a move a plan; NULL takes it away. */
void fl_desk_take_plan (FlDesk *desk, const char *name, const char *move, const FlPlan *plan);
/* The plans of a file for moves of this fleet. Returns how many were taken; G_MAXUINT with an error. */
guint fl_desk_read_plans (FlDesk *desk, const char *name, const char *path, FlProblems *problems, GError **error);
const char *fl_desk_undo_name (FlDesk *desk);            /* NULL: nothing to undo */
const char *fl_desk_redo_name (FlDesk *desk);
void fl_desk_undo (FlDesk *desk);
void fl_desk_redo (FlDesk *desk);

/* ── keeping plans ── */
gboolean fl_desk_unsaved (FlDesk *desk);
/* All plans of the fleet as {"plans": [...]} with their results; written whole or not at all. */
gboolean fl_desk_write_plans (FlDesk *desk, const char *path, GError **error);

G_END_DECLS
#endif
