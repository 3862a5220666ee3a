/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A scene: a plan resolved against a fleet and a book: records found, gear rated, loads placed, runs laid, limits taken. Cheap to move
 * (the drag, the search). The only mutable thing in the core; it belongs to one thread. */
#ifndef FL_SCENE_H
#define FL_SCENE_H

#include "fl-assembly.h"
#include "fl-sums.h"

G_BEGIN_DECLS

typedef struct _FlScene FlScene;

/* How deep a judgement goes. MOVING: as it stands, working level; for the frame of a drag and for the search. SETTLED: also the breaking
 * level, load sharing without friction, and what a few inches or a few percent of weight would change. */
typedef enum { FL_JUDGE_MOVING, FL_JUDGE_SETTLED } FlJudgeDepth;

#define FL_SCENE_ERROR (fl_scene_error_quark ())
typedef enum { FL_SCENE_ERROR_NO_RECORD, FL_SCENE_ERROR_NO_MEMBER, FL_SCENE_ERROR_TOO_MANY } FlSceneError;
GQuark fl_scene_error_quark (void);

/* Resolves the plan. An id of the plan that the fleet does not know is an error that names it. Keeps references to all three. (transfer full) */
FlScene *fl_scene_new (const FlBook *book, const FlFleet *fleet, const FlPlan *plan, GError **error);
void fl_scene_free (FlScene *scene);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FlScene, fl_scene_free)

/* Moves one load: relays its runs and, with them, lengths, angles, axle loads. `rear` in metres. The plan that the next judgement carries
 * has the new place, in inches or millimetres as the house counts. */
void fl_scene_place (FlScene *scene, guint load, FlFacing facing, double rear);

const FlBook *fl_scene_book (const FlScene *scene);
const FlFleet *fl_scene_fleet (const FlScene *scene);
const FlPlan *fl_scene_plan (const FlScene *scene);      /* with the places as they are now; borrowed until the next fl_scene_place */

G_END_DECLS
#endif
