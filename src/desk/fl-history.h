/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What was done to the plans, step by step, for undo and redo. A step holds what was there before and after for each of its moves. */
#ifndef FL_HISTORY_H
#define FL_HISTORY_H

#include "fl-plan.h"

G_BEGIN_DECLS

typedef struct _FlHistory FlHistory;
typedef struct { char *move; FlPlan *before, *after; } FlPlanStep;    /* NULL: no plan */

FlHistory *fl_history_new (void);
void fl_history_free (FlHistory *history);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FlHistory, fl_history_free)
/* Forgets all steps; the plans as they are count as saved. */
void fl_history_clear (FlHistory *history);

/* Opens a step; what was undone can no longer be redone. Moves are added to the step opened last; `before` and `after` are referenced. */
void fl_history_begin (FlHistory *history, const char *name);
void fl_history_add (FlHistory *history, const char *move, const FlPlan *before, const FlPlan *after);

/* The name of the step that undo or redo would take; NULL for none. */
const char *fl_history_undo_name (const FlHistory *history);
const char *fl_history_redo_name (const FlHistory *history);
/* Steps back or on: the pairs to put in place (`before` when undone, `after` when redone). NULL for none. (transfer none) array of FlPlanStep */
const GPtrArray *fl_history_undo (FlHistory *history);
const GPtrArray *fl_history_redo (FlHistory *history);

/* The plans as they are now have been written. */
void fl_history_mark_saved (FlHistory *history);
/* They were changed, and no step leads back to what was written (a fleet was read again under them). */
void fl_history_mark_lost (FlHistory *history);
/* TRUE if they differ from what was written last. */
gboolean fl_history_unsaved (const FlHistory *history);

G_END_DECLS
#endif
