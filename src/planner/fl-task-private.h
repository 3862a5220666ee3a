/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the parts of a task share: the search over stances (fl-task.c), the judging of what it finds (fl-task-judge.c), and the search for what
 * clears the cautions that only the judge sees (fl-task-clear.c). Private to planner. */
#ifndef FL_TASK_PRIVATE_H
#define FL_TASK_PRIVATE_H

#include "fl-task.h"

G_BEGIN_DECLS

enum { FL_MAX_DRAFTS = 24, FL_OFF_PLACES = 4 };

/* What is asked of every load in one pass of the search: later passes ask for less, or take what is less liked. */
typedef struct { gboolean singles, straps, spread, all_ways, sections, implements; double aggregate; } FlPass;

/* Beyond the pass: what the search for clear plans asks too. */
typedef struct { double ways[FL_STANCE_MAX_LOADS][FL_N_WAYS], sums[FL_STANCE_MAX_LOADS][FL_N_WAYS]; gboolean steady; } FlAim;

typedef struct { FlScore score; FlStance stance; FlChosen chosen; } FlCandidate;

typedef struct
{
  FlTask *task;
  FlPool *pool;
  FlGround ground;
  const FlMachine *machines[FL_STANCE_MAX_LOADS];
  double weights[FL_STANCE_MAX_LOADS];
  FlStances stances;
  GHashTable *rigs;             /* found before: fl-match.h */
  FlCandidate *kept; guint n_kept;
  gint32 most;                  /* kinds of caution beyond which nothing is of interest */
  FlPass served;                /* the pass that has the best so far */
} FlRun;

/* ── fl-task.c ── */

gboolean fl_run_heavy (const FlRun *run, guint load);

/* The best drafts for a stance with cautions of these kinds only (mask of FL_LEG_CAUTIONS); more than one only where there is one load. `drafts` has
 * room for FL_MAX_DRAFTS. aim NULL: nothing beyond the pass. Returns how many. */
guint fl_run_drafts (FlRun *run, const FlPass *pass, const FlAim *aim, const FlStance *stance, guint mask, FlDraft *drafts, guint max);

/* The score that the judge is to be expected to find: without the kinds of caution that only he sees (force, placement). */
FlScore fl_run_score (const FlRun *run, const FlStance *stance, const FlDraft *draft);

/* The masks of caution kinds in order of how many they allow; room for 16. Returns how many there are. */
guint fl_caution_masks (guint *masks);

/* ── fl-task-judge.c ── */

/* Judges a plan and makes it the best if it is better. Only what may be the best is judged at rest; `looked` (may be NULL) gets the judgement as deep as
 * the search goes (transfer full). FALSE with an error. */
gboolean fl_run_consider (const FlRun *run, FlTaskResult *result, FlPlan *plan, FlAssessment **looked, GError **error);

/* Judges what was kept, best first, and thins out the best of them. Where none stands, the first of them is the nearest. FALSE with an error. */
gboolean fl_run_judge_kept (FlRun *run, FlTaskResult *result, GError **error);

/* Couples come two by two: where a heavy load needs an odd number of tie-downs, one is left out of the best again. (A light one keeps its couples: the
 * rule asks so few of it that three would be left of four corners.) FALSE with an error. */
gboolean fl_run_thin_out (const FlRun *run, FlTaskResult *result, GError **error);

/* ── fl-task-clear.c ── */

/* Looks for a plan without the cautions of force, placement and all-directions that the best one has. FALSE with an error. */
gboolean fl_run_clear (FlRun *run, FlTaskResult *result, GError **error);

G_END_DECLS
#endif
