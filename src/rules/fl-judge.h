/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The judge: all requirements over a scene. A requirement is one function and one line of the table; adding one is no more. */
#ifndef FL_JUDGE_H
#define FL_JUDGE_H

#include "fl-scene.h"

G_BEGIN_DECLS

/* One requirement: appends what it has to say, one finding a subject; says "met" as well, so that nothing is silently left out. Its
 * numbers come from the scene's book; its citation is the book's for `id`. */
typedef struct
{
  const char *id;
  void (*check) (const FlScene *scene, FlFindings *findings);
  gboolean of_place;            /* rests on where the loads stand alone, not on their tie-downs */
} FlRequirement;

/* The table. Static. */
const FlRequirement *fl_requirements (gsize *n);

/* All of them over the scene, as deep as asked, frozen with copies of what they read. The only maker of assessments. (transfer full) */
FlAssessment *fl_judge_at (const FlScene *scene, FlJudgeDepth depth);
/* At rest: FL_JUDGE_SETTLED. Whatever is shown as the answer, printed or signed comes from here. (transfer full) */
FlAssessment *fl_judge (const FlScene *scene);

/* The requirements that rest on the places alone: what the search asks before it looks for tie-downs. Appends to `findings`. Where depth is
 * FL_JUDGE_MOVING the nearest cures are not worked out; verdicts are the same. */
void fl_judge_place_at (const FlScene *scene, FlJudgeDepth depth, FlFindings *findings);
/* At rest: FL_JUDGE_SETTLED. */
void fl_judge_place (const FlScene *scene, FlFindings *findings);

/* TRUE if the finding alone keeps a plan from standing: short or unknown by law, rating, practice or house. */
gboolean fl_finding_stands_against (const FlFinding *finding);

/* TRUE if the machine articulates and no lock is there, usable and fitted: its sections must each be held on their own. */
gboolean fl_machine_joint_free (const FlMachine *machine);

/* A plan judged at once: fl_scene_new, fl_judge. NULL with an error. (transfer full) */
FlAssessment *fl_judge_plan (const FlBook *book, const FlFleet *fleet, const FlPlan *plan, GError **error);

G_END_DECLS
#endif
