/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One planning task: a trailer, a truck, the loads in given positions; the search over stances, couples and gear. Private to planner. */
#ifndef FL_TASK_H
#define FL_TASK_H

#include "fl-choose.h"
#include "fl-stance.h"

G_BEGIN_DECLS

typedef struct
{
  const FlBook *book;
  const FlFleet *fleet;
  const FlPlan *start;          /* trailer, truck and positions set; tie-downs are the pinned ones only */
  const FlPlanChoices *choices; /* of start */
  const FlMove *move;
  const FlTrailer *trailer;
  const char *const *taken;
  GCancellable *cancel;
  guint64 work;                 /* choices left to look at */
  gboolean plain;               /* do not look for what clears cautions that only the judge sees (fl-task-clear.c) */
} FlTask;

typedef struct
{
  FlAssessment *best;           /* judged, stands; NULL: none */
  FlScore score;
  FlAssessment *nearest;        /* judged, does not stand; NULL */
  FlFindings *against;          /* where no stance stands: what stands against the nearest one */
  guint chains, binders, straps, out_of_use;    /* pieces there were to choose from, and those that may not be used */
  gboolean out_of_work;
} FlTaskResult;
void fl_task_result_clear (FlTaskResult *result);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (FlTaskResult, fl_task_result_clear)

/* FALSE with an error where the start names what is not there. */
gboolean fl_task_run (FlTask *task, FlTaskResult *result, GError **error);

G_END_DECLS
#endif
