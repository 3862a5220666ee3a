/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The inside of a scene, for the requirements and the judge: read it, do not write it. */
#ifndef FL_SCENE_PRIVATE_H
#define FL_SCENE_PRIVATE_H

#include "fl-beam.h"
#include "fl-scene.h"

G_BEGIN_DECLS

enum { FL_SCENE_MAX_LOADS = 8, FL_SCENE_MAX_TIES = 32, FL_SCENE_MAX_AXLES = 16, FL_SCENE_MAX_THROUGH = FL_LAY_MAX_PATH - 2 };

typedef struct
{
  const FlTieDown *choice;
  const char *subject;                    /* "tie-down 4" */
  guint load;
  const FlImplement *implement;           /* of an implement's tie-down; NULL for the load's own */
  gboolean of_implement;                  /* its point or path belongs to that implement */
  const FlTiePoint *point;                /* direct */
  const FlTiePoint *through_points[FL_SCENE_MAX_THROUGH];   /* over: those of its places that are tie points */
  FlPlace through[FL_SCENE_MAX_THROUGH]; gsize n_through;
  gboolean edge;                          /* its over-path bears on an edge */
  const FlAnchor *anchors[2];
  FlRated chain, binder, strap, connectors[FL_MAX_CONNECTORS];
  FlTiePoint point_shared;                /* point and anchors with their rating divided among all that hang on them */
  FlAnchor anchors_shared[2];
  FlAssemblyParts parts;
  FlLay lay;
  FlAssembly assembly;
  double share;                           /* of its limit that counts, were it a load's own */
} FlSceneTie;

typedef struct
{
  const FlRecord *record;
  const FlMachine *machine;               /* in its position */
  const char *subject;                    /* "load R-03" */
  double weight;                          /* book's unit; NaN not known */
  gboolean heavy;                         /* runs on wheels or tracks and weighs the book's threshold or more */
  double rear, left;                      /* m */
  FlFacing facing;
  FlStand stand;
} FlSceneLoad;

/* What the axles carry, in the book's unit. `status` is of the trailer, truck_status of the truck. */
typedef struct
{
  FlBeamStatus status, truck_status;
  gboolean cg_known, tares_known, truck_tares_known;
  double trailer[FL_SCENE_MAX_AXLES], truck[FL_SCENE_MAX_AXLES];
  double coupling;
  double trailer_gross, truck_gross, gross, payload;   /* NaN not known */
} FlSceneAxles;

struct _FlScene
{
  FlBook *book;
  FlFleet *fleet;
  FlPlan *origin;                         /* as given: the ids of the tie-downs' gear are its texts */
  FlPlan *plan;                           /* with the places as they are, once asked for */
  gboolean moved;                         /* places differ from the plan's */
  FlArena *arena;
  const FlPlanChoices *choices;
  const FlRecord *move_record, *trailer_record, *truck_record;
  const FlMove *move;
  const FlTrailer *trailer;
  const FlTruck *truck;                   /* NULL: none */
  FlGround ground;
  FlSceneLoad loads[FL_SCENE_MAX_LOADS]; guint n_loads;
  FlSceneTie ties[FL_SCENE_MAX_TIES]; guint n_ties;
  FlSceneAxles axles;
  GHashTable *on_hand;                    /* set of unit numbers */
  FlJudgeDepth depth;                     /* how deep the judgement at hand goes */
  struct _FlSceneForce *force;            /* n_loads, worked out by the judge (fl-force.h); NULL before */
};

/* ── another scene: the same tie-downs, another place or weight ── */

/* A copy to be moved (left, fl_scene_place) or made heavier and asked again as it stands (FL_JUDGE_MOVING, without force answers); it
 * borrows all else from `scene`. Free with g_free. (transfer full) */
FlScene *fl_scene_variation (const FlScene *scene);
/* Multiplies the weight of each load of a variation by its factor, heavy or not as that makes it; the loads' records are then `machines`, both
 * FL_SCENE_MAX_LOADS. */
void fl_scene_make_heavier (FlScene *variation, FlMachine *machines, const double *factors);

/* How many tie-downs hook to a point of a load or run through it; how many legs hang on an anchor (NULL: none). */
guint fl_scene_hang_on_point (const FlScene *scene, guint load, const FlTiePoint *point);
guint fl_scene_hang_on_anchor (const FlScene *scene, const FlAnchor *anchor);

/* The arithmetic of fl-scene-axles.c: fills scene->axles from the places as they are. */
void fl_scene_weigh (FlScene *scene);

/* TRUE if the tie-down counts for the load itself (not for an implement). */
gboolean fl_scene_own (const FlSceneTie *tie);
/* TRUE if it is in use for what it is there for: its gear may be used and its run is not forbidden. */
gboolean fl_scene_holds (const FlSceneTie *tie);

/* Loaded height over the road, width, length, all m; NaN where not known. */
typedef struct { double height, width, length; gboolean height_measured; } FlSceneSizes;
FlSceneSizes fl_scene_sizes (const FlScene *scene);

G_END_DECLS
#endif
