/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A plan: what people and the planner choose for one move, and nothing computed. Immutable, atomically reference-counted. */
#ifndef FL_PLAN_H
#define FL_PLAN_H

#include "fl-fleet.h"
#include "fl-json-write.h"

G_BEGIN_DECLS

typedef enum { FL_FOR_LOAD, FL_FOR_IMPLEMENT } FlPurpose;

/* What a person has fixed in a tie-down or a load (the names of `pinned` in the document). */
enum
{
  FL_PIN_POINT = 1 << 0, FL_PIN_ANCHORS = 1 << 1, FL_PIN_CHAIN = 1 << 2, FL_PIN_BINDER = 1 << 3, FL_PIN_STRAP = 1 << 4,
  FL_PIN_CONNECTORS = 1 << 5, FL_PIN_FACING = 1 << 6, FL_PIN_REAR = 1 << 7, FL_PIN_POSITION = 1 << 8, FL_PIN_LEFT = 1 << 9,
  FL_PIN_PURPOSE = 1 << 10
};
#define FL_PIN_TIE_DOWN (FL_PIN_POINT | FL_PIN_ANCHORS | FL_PIN_CHAIN | FL_PIN_BINDER | FL_PIN_STRAP | FL_PIN_CONNECTORS | FL_PIN_PURPOSE)
#define FL_PIN_PLACE (FL_PIN_FACING | FL_PIN_REAR | FL_PIN_POSITION | FL_PIN_LEFT)

enum { FL_MAX_CONNECTORS = 4 };
typedef struct { const char *id; gboolean at_anchor; } FlConnectorUse;    /* at the machine's point, or at the anchor */

typedef struct
{
  guint no, load;
  FlPurpose purpose;
  const char *implement;        /* of FL_FOR_IMPLEMENT */
  gboolean over;                /* FALSE: direct, one anchor and `point` at the other end */
  const char *point;            /* direct: the machine point */
  const char *anchors[2];       /* [1] is NULL for a direct tie-down */
  const char *const *through;   /* over: NULL-terminated machine points, or one over-path's id; NULL for direct */
  const char *chain, *binder, *strap;   /* unit numbers; a piece of a counted record is "C-3/8-20 #3" */
  FlConnectorUse connectors[FL_MAX_CONNECTORS]; guint n_connectors;
  gboolean edge_protected;
  guint32 pinned;
} FlTieDown;

typedef struct
{
  const char *id; gboolean article;
  const char *position;         /* NULL: normal */
  FlFacing facing;
  FlQuantity rear, left;        /* rear unknown: still to be chosen (a start plan for the planner); left unknown: 0 */
  gboolean blocked_forward, chocked;
  const char *mat; double mat_mu;   /* mat NULL: none; mu NaN: unmarked */
  guint32 pinned;
} FlPlanLoad;

typedef struct { guint load; const char *point; } FlLoadPoint;
typedef struct { const char *rule, *subject, *reason, *by; } FlReason;    /* one acknowledged caution or named exception */

/* All of a plan as plain data. */
typedef struct
{
  const char *fleet, *move, *trailer, *truck;
  const FlPlanLoad *loads; gsize n_loads;
  const FlTieDown *tie_downs; gsize n_tie_downs;
  const char *const *aside_gear, *const *aside_anchors;      /* set aside; NULL-terminated or NULL */
  const FlLoadPoint *aside_points; gsize n_aside_points;
  const FlReason *acknowledged; gsize n_acknowledged;
  const FlReason *exceptions; gsize n_exceptions;
} FlPlanChoices;

typedef struct _FlPlan FlPlan;

/* A plan with a deep copy of the choices. (transfer full) */
FlPlan *fl_plan_new (const FlPlanChoices *choices);
FlPlan *fl_plan_ref (const FlPlan *plan);
void fl_plan_unref (FlPlan *plan);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FlPlan, fl_plan_unref)
const FlPlanChoices *fl_plan_choices (const FlPlan *plan);

/* An empty plan for a move: its loads in order, facing forward, their place unknown; the trailer and truck given, else the move's. (transfer full) */
FlPlan *fl_plan_for_move (const FlFleet *fleet, const FlMove *move, const char *trailer, const char *truck);

/* Reads one plan document; its `results` are ignored. NULL and problems if it is bad. (transfer full) */
FlPlan *fl_plan_new_from_json (GBytes *text, FlProblems *problems);
/* Reads a plan document or {"plans": [...]}. NULL and problems if any is bad. (transfer full) array of FlPlan. */
GPtrArray *fl_plans_new_from_json (GBytes *text, FlProblems *problems);
/* The plan document without results. (transfer full) */
GBytes *fl_plan_to_json (const FlPlan *plan);
/* Adds the choices as members to a writer that stands in an open object (the assessment's writer uses it). */
void fl_plan_build_json (const FlPlan *plan, FlJsonWriter *writer);

/* The same plan with one thing changed. (transfer full) */
FlPlan *fl_plan_with_place (const FlPlan *plan, guint load, FlFacing facing, FlQuantity rear);
FlPlan *fl_plan_with_tie_down (const FlPlan *plan, gsize index, const FlTieDown *tie_down);  /* NULL removes; index n appends */
FlPlan *fl_plan_with_trailer (const FlPlan *plan, const char *trailer, const char *truck);

G_END_DECLS
#endif
