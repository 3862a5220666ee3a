/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the loads could stand: facings and places on the grid that nothing of standing forbids. Private to planner. */
#ifndef FL_STANCE_H
#define FL_STANCE_H

#include "fl-planner.h"

G_BEGIN_DECLS

enum { FL_STANCE_MAX_LOADS = 8 };

typedef struct
{
  FlFacing facing[FL_STANCE_MAX_LOADS];
  double rear[FL_STANCE_MAX_LOADS];         /* m */
  gboolean snug[FL_STANCE_MAX_LOADS];       /* against a front stop or a zone that blocks */
  gint32 cautions;                          /* kinds of caution of the place itself: the coupling's share out of band */
  gint64 coupling_off;                      /* lb */
} FlStance;

typedef struct
{
  GArray *stances;              /* of FlStance, those that stand; fewest cautions first, then nearest to the middle of the coupling's band */
  FlStance nearest;             /* where none stands: the one with the fewest findings against it */
  FlFindings *against;          /* and those findings; NULL where some stance stands */
  guint tried;
} FlStances;

/* Looks at every place of the 3 in grid, 12 in and more for several loads, and the places snug against what blocks forward. A pinned facing or place of
 * the plan stays; a machine's own facings are kept to. The scene is of a plan without tie-downs and is moved about. */
void fl_stances_find (FlStances *out, FlScene *scene, const FlPlanChoices *choices, const FlTrailer *trailer, const FlMachine *const *machines);
void fl_stances_clear (FlStances *stances);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (FlStances, fl_stances_clear)

G_END_DECLS
#endif
