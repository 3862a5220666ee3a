/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From chosen tie-downs to a plan: pinned ones first, unit numbers handed out, numbered in the order in which they are put on.
 * Private to planner. */
#ifndef FL_DRAFT_H
#define FL_DRAFT_H

#include "fl-task.h"

G_BEGIN_DECLS

/* Puts a plan's pinned tie-downs into the draft, as its loads stand; what a pinned one lacks of gear is taken from the pool. FALSE where one
 * cannot be laid or completed here. */
gboolean fl_draft_pin (FlDraft *draft, const FlTask *task, const FlPool *pool, const FlGround *ground, const FlStand *stands);

/* The plan of a stance and its chosen tie-downs. (transfer full) */
FlPlan *fl_draft_plan (const FlTask *task, const FlPool *pool, const FlStance *stance, const FlChosen *chosen);

G_END_DECLS
#endif
