/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the force answers are asked about: a load of a scene as a body on its contacts, its own tie-downs as pulls, and the answers for each
 * case of the book at the working and the breaking level, with the deck's friction and at zero. Private to rules. */
#ifndef FL_FORCE_H
#define FL_FORCE_H

#include "fl-equilibrium.h"
#include "fl-scene-private.h"
#include "fl-sharing.h"

G_BEGIN_DECLS

/* Why there is no answer for a load. */
typedef enum
{
  FL_FORCE_JUDGED,
  FL_FORCE_NO_PLACE,            /* no place yet, or its extent was not measured */
  FL_FORCE_NO_WEIGHT,
  FL_FORCE_NO_CG,               /* center of gravity not on record */
  FL_FORCE_NO_CONTACTS,         /* nobody entered what it stands on */
  FL_FORCE_JOINT_FREE,          /* it bends in the middle: not one rigid body */
  FL_FORCE_FALLS                /* its center of gravity lies outside what it stands on */
} FlForceWhy;

typedef enum { FL_LEVEL_WORKING, FL_LEVEL_BREAKING, FL_N_LEVELS } FlForceLevel;
enum { FL_FRICTION_NONE, FL_FRICTION_OF_DECK, FL_N_FRICTIONS };

/* A load as a body. tie_of: the scene's tie-down that a pull belongs to; FL_FORCE_STOP for what it stands against in front. left_out: some
 * tie-down's limit at this level is not known, and it is not among the pulls. mu: the least friction among its contacts, across. */
#define FL_FORCE_STOP G_MAXUINT
typedef struct
{
  FlForceWhy why;
  FlBody body;
  FlContact contacts[FL_MAX_CONTACTS];
  FlPull pulls[FL_MAX_PULLS]; guint tie_of[FL_MAX_PULLS]; gsize n_pulls;
  FlSharedLimit shared[FL_MAX_SHARED]; gsize n_shared;
  gboolean left_out;
  double mu;
} FlForceBody;

/* Fills it from the scene as it stands. state: of the deck; NULL: no friction at all. */
void fl_force_body_fill (FlForceBody *out, const FlScene *scene, guint load, FlForceLevel level, const char *state);

/* One case at one level with one friction. bound_done, sharing_done: looked at (the breaking level and the sharing without friction only at
 * rest). holds: g at which the first limit is reached, INFINITY where none is up to `upto`. tension: N, by the scene's tie-downs. */
typedef struct
{
  gboolean bound_done, sharing_done, left_out, settled;
  double bound, holds, upto, use;
  FlMode mode;
  guint at_limit[FL_SCENE_MAX_TIES]; guint n_at_limit;   /* indices of the scene's tie-downs, of the bound */
  guint worst;                  /* index of the tie-down with the greatest use; FL_FORCE_STOP: the stop */
  double moved, turned;         /* m, rad */
  double tension[FL_SCENE_MAX_TIES], tie_use[FL_SCENE_MAX_TIES];
} FlForceAnswer;

/* The answers for one load. state: the deck's state that was taken; given: the move says it. floor: upper bound without friction for the cases of
 * the book, g; NaN where not judged. */
typedef struct _FlSceneForce
{
  FlForceWhy why;
  const char *state; gboolean given;
  double mu;
  FlForceAnswer *answers;       /* n_cases x FL_N_LEVELS x FL_N_FRICTIONS; NULL unless judged */
} FlSceneForce;

const FlForceAnswer *fl_force_answer (const FlSceneForce *force, gsize case_index, FlForceLevel level, guint friction);

/* Works out scene->force for all loads, as deep as scene->depth asks. */
void fl_scene_work_forces (FlScene *scene);
void fl_scene_forget_forces (FlScene *scene);

/* TRUE if upper bound and load sharing both hold the book's working demand with the deck's friction. */
gboolean fl_force_clear (const FlForceAnswer *answer, double demand);

/* What the assessment keeps of them: parts->forces and parts->tensions, in the arena. */
void fl_judge_freeze_forces (const FlScene *scene, FlAssessmentParts *parts, FlArena *arena);

/* A force (N) as the weight that has it, in the book's unit. */
FlQuantity fl_force_as_weight (const FlScene *scene, double force);

/* The least over its contacts, across the trailer or lengthwise (where a wheel or drum neither braked nor chocked rolls); NaN where nobody
 * entered what it runs on. */
double fl_force_least_friction (const FlScene *scene, guint load, const char *state, gboolean lengthwise);

G_END_DECLS
#endif
