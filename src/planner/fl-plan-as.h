/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Planning a move plainly or in full. Private to planner. */
#ifndef FL_PLAN_AS_H
#define FL_PLAN_AS_H

#include "fl-planner.h"

G_BEGIN_DECLS

/* fl_plan_move; plain: the best that the written requirements ask for, without looking for what would clear its cautions of force, placement and all-directions: quick,
 * and it takes no more of the gear than it must. */
FlProposal *fl_plan_move_as (const FlBook *book, const FlFleet *fleet, const FlPlan *start, const FlSearch *search, gboolean plain, const FlHost *host,
                             GError **error);

G_END_DECLS
#endif
