/* SPDX-License-Identifier: GPL-3.0-or-later */
/* An assessment: what the judge found about one plan, frozen with copies of the records it rests on, the placed geometry and the
 * stamp of the rule book. The desk draws it, the card prints it, the ledger signs it; nothing else is ever shown as compliant.
 * Immutable, atomically reference-counted. Coordinates are metres in the trailer frame. */
#ifndef FL_ASSESSMENT_H
#define FL_ASSESSMENT_H

#include "fl-finding.h"
#include "fl-plan.h"
#include "fl-problem.h"
#include "fl-vec.h"

G_BEGIN_DECLS

typedef struct { const char *id, *title, *edition, *sha256; } FlBookStamp;

/* One for each tie-down of the plan, in its order. */
typedef struct
{
  guint no;
  const FlVec *path; gsize n_path;   /* from the machine's point (or the first anchor of an `over`) to the anchor; via points included */
  FlQuantity run, needs;        /* length in use; chain or strap length that it takes. Unknown where the ends are */
  FlQuantity deck_angle, plan_angle; /* at the machine's point; the worse leg of an `over` */
  FlQuantity wll, counts;       /* of the weakest part; what of it counts toward the aggregate (0 for an implement's) */
  const char *limited_by;       /* "chain C-041", "anchor P1L": the weakest part */
  const char *gear_text;        /* for the table of the card: "3/8 grade 70, 16 ft", "3/8 unmarked (grade 30), 20 ft", "4 in strap, 27 ft" */
  FlVec pull;                   /* unit vector along which it pulls the machine; zeros where the ends are unknown */
} FlTieResult;

/* A named box or point as it stands on the trailer. */
typedef struct { const char *name; FlBox box; } FlPlacedBox;
typedef struct { const char *id, *name; FlVec at; } FlPlacedPoint;

/* One for each load of the plan, in its order. */
typedef struct
{
  const char *id, *name, *kind, *position; gboolean article;
  FlFacing facing;
  gboolean placed;              /* FALSE: no place yet, or sizes unknown: the geometry below is empty */
  double rear;                  /* x of its rearward end */
  FlBox outline;                /* its whole extent: length, width, height */
  const FlPlacedBox *contacts; gsize n_contacts;
  const FlPlacedBox *solids; gsize n_solids;           /* its bodies, for the drawing and for runs to clear */
  const FlPlacedBox *keep_clear; gsize n_keep_clear;
  const FlPlacedPoint *points; gsize n_points;
  gboolean has_cg; FlVec cg;
  gboolean has_joint; double joint_x;                  /* articulation */
  FlQuantity weight; const char *weight_basis;
  FlQuantity need, have;        /* aggregate working load limit: half the weight; the sum of the shares */
  const char *weakest;          /* the weakest part of all its tie-downs */
  guint own_tie_downs;          /* that count for the load itself */
} FlLoadResult;

typedef struct
{
  guint load;
  const char *case_id;          /* forward, rearward, left, right, up, of the book's load cases */
  const char *level;            /* working, breaking */
  const char *friction;         /* dry, wet, frost, none */
  const char *method;           /* component_sum, upper_bound, load_sharing */
  FlQuantity demand, capacity;  /* g */
  const char *mode;             /* slides, tips, yaws, lifts, unstable_at_rest, not_judged, not_settled; NULL for component sums and for what settled */
  const guint *at_limit; gsize n_at_limit;   /* numbers (no) of the tie-downs that stand at their limit there; of the bound and of sharing */
  FlQuantity moved, turned;     /* of load sharing: how far the center of gravity moved, how far the load turned */
} FlForceResult;

/* Of load sharing: what one tie-down carries in a case at the demand. */
typedef struct
{
  guint load;
  const char *case_id, *level, *friction;      /* as above */
  guint no;                     /* the tie-down's number */
  FlQuantity tension;           /* a force as the weight that has it, in the book's unit */
  double use;                   /* of its limit at that level; NaN where that is not known */
} FlTensionResult;

typedef struct
{
  const char *axle;             /* "truck 1" from the front, "coupling", "trailer 1" from the front */
  FlQuantity load, rated;
  double share_pct;             /* of the coupling; NaN elsewhere */
  double x;                     /* trailer frame, metres; NaN for the truck's */
} FlAxleResult;

typedef struct { FlQuantity height, width, length, gross; gboolean height_measured; } FlSizes;

typedef struct { FlQuantity within; FlQuantity then_time, then_distance; gboolean duty_change; } FlRecheck;

/* What stands for or against the plan as a whole (formats.md). */
typedef enum { FL_COMPLIANT, FL_INCOMPLETE, FL_NOT_COMPLIANT } FlPlanVerdict;
typedef enum { FL_HOUSE_MET, FL_HOUSE_EXCEPTED, FL_HOUSE_SHORT } FlHouseVerdict;
const char *fl_plan_verdict_id (FlPlanVerdict verdict);   /* "compliant", "incomplete", "not_compliant" */
const char *fl_house_verdict_id (FlHouseVerdict verdict); /* "met", "excepted", "short" */

/* Everything an assessment holds, as plain data; the judge fills it, fl_assessment_new copies it. */
typedef struct
{
  const FlPlan *plan;
  const char *fleet_name; gboolean metric;
  FlBookStamp book;
  const FlTieResult *ties; gsize n_ties;
  const FlLoadResult *loads; gsize n_loads;
  const FlForceResult *forces; gsize n_forces;
  const FlTensionResult *tensions; gsize n_tensions;
  const FlAxleResult *axles; gsize n_axles;
  FlSizes sizes;
  FlFindings *findings;         /* copied; sorted by fl_assessment_new: shortfalls first, then by verdict, standing, order of finding */
  FlRecheck recheck;
  const FlMessage *cautions; gsize n_cautions;   /* as printed */
  const FlMessage *walk_round; gsize n_walk_round;   /* the book's lines of the walk-around before leaving; the card adds the machine's and trailer's own */
  const FlRecord *const *records; gsize n_records;  /* all it rests on: move, trailer, truck, loads, gear, people; referenced */
} FlAssessmentParts;

typedef struct _FlAssessment FlAssessment;

/* Only the judge (and the reader of signed ones) makes assessments. Sorts the findings and draws the verdicts: plan verdict = compliant when no
 * finding of standing law, rating or practice is short or unknown; incomplete when only unknowns stand against it; house = met, short, or
 * excepted when every house shortfall has an exception of the plan for its rule. (transfer full) */
FlAssessment *fl_assessment_new (const FlAssessmentParts *parts);
FlAssessment *fl_assessment_ref (const FlAssessment *assessment);
void fl_assessment_unref (FlAssessment *assessment);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FlAssessment, fl_assessment_unref)

/* All of it; borrowed. parts->findings is NULL here: use fl_assessment_findings. */
const FlAssessmentParts *fl_assessment_parts (const FlAssessment *assessment);
const FlPlan *fl_assessment_plan (const FlAssessment *assessment);
const FlFinding *fl_assessment_findings (const FlAssessment *assessment, gsize *n);      /* shortfalls first */
FlVerdict fl_assessment_worst (const FlAssessment *assessment, FlStanding standing);      /* FL_MET where there is none */
FlPlanVerdict fl_assessment_verdict (const FlAssessment *assessment);
FlHouseVerdict fl_assessment_house (const FlAssessment *assessment);
/* TRUE if nothing of law, rating, practice or (unexcepted) house is short or unknown: may be signed; exit status 0. */
gboolean fl_assessment_stands (const FlAssessment *assessment);
const FlRecord *fl_assessment_record (const FlAssessment *assessment, FlKind kind, const char *id);  /* as it was when judged */
const FlMove *fl_assessment_move (const FlAssessment *assessment);         /* NULL if the move was not found */
const FlTrailer *fl_assessment_trailer (const FlAssessment *assessment);   /* NULL if the trailer was not found */

/* The plan document with its results, numbers rounded as formats.md says, findings with English text: same input, same bytes. `records`:
 * with copies of the records (a signed assessment). (transfer full) */
GBytes *fl_assessment_to_json (const FlAssessment *assessment, gboolean records);
/* Adds the same members to a writer that stands in an open object. */
void fl_assessment_build_json (const FlAssessment *assessment, FlJsonWriter *writer, gboolean records);

/* Who signed, for the card; the store makes it from its ledger entry. */
typedef struct { const char *signer, *when, *code; } FlSignature;

G_END_DECLS
#endif
