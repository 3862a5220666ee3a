/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How a move stands at the desk: what the judge says of its plan, or why it has none. */
#ifndef FL_OUTCOME_H
#define FL_OUTCOME_H

#include "fl-office.h"

G_BEGIN_DECLS

typedef enum
{
  FL_STATE_NO_PLAN,             /* nobody has planned it yet */
  FL_STATE_STANDS,
  FL_STATE_LOOK,                /* stands; a person must look at something */
  FL_STATE_NOT_KNOWN,           /* only missing measurements stand against it */
  FL_STATE_SHORT,
  FL_STATE_CANNOT,              /* looked for, none there is */
  FL_STATE_MISFIT,              /* its plan names what the fleet does not have */
  FL_N_STATES
} FlState;

typedef struct
{
  FlState state;
  FlAssessment *assessment;     /* of its plan; NULL without one */
  FlProposal *proposal;         /* FL_STATE_CANNOT: reasons, cures, what came nearest; else NULL */
  char *misfit;                 /* FL_STATE_MISFIT: what is wrong; else NULL */
  guint n_look, n_unknown, n_short;   /* findings of these verdicts, of any standing */
} FlOutcome;

/* A move without a plan. (transfer full) */
FlOutcome *fl_outcome_new_empty (void);
/* Takes the assessment. (transfer full) */
FlOutcome *fl_outcome_new_judged (FlAssessment *assessment);
/* Takes the proposal, which has no best. (transfer full) */
FlOutcome *fl_outcome_new_refused (FlProposal *proposal);
/* Copies the text. (transfer full) */
FlOutcome *fl_outcome_new_misfit (const char *why);
void fl_outcome_free (FlOutcome *outcome);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FlOutcome, fl_outcome_free)

/* What can be drawn and explained: the plan's assessment, else the nearest that was found; NULL for neither. */
const FlAssessment *fl_outcome_shown (const FlOutcome *outcome);

/* "Stands, look at 3". (transfer full) */
char *fl_outcome_words (const FlOutcome *outcome);
/* The name of its symbol in the icon theme. Static text. */
const char *fl_outcome_icon (const FlOutcome *outcome);

/* TRUE if a person should look: caution, unknown or short. */
gboolean fl_finding_wants_attention (const FlFinding *finding);
/* The name of a verdict's symbol in the icon theme. Static text. */
const char *fl_verdict_icon (FlVerdict verdict);

G_END_DECLS
#endif
