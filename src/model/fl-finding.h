/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A finding: what one requirement says of one subject. It carries a message and facts, not prose: words come later, in any language. */
#ifndef FL_FINDING_H
#define FL_FINDING_H

#include "fl-arena.h"
#include "fl-quantity.h"

G_BEGIN_DECLS

/* Marks a text for translation where it stands in a table; the text itself is the message id. */
#ifndef N_
#define N_(text) (text)
#endif

/* Ordered: the worst is the largest. */
typedef enum { FL_MET, FL_NOTE, FL_CAUTION, FL_UNKNOWN, FL_SHORT, FL_N_VERDICTS } FlVerdict;
typedef enum { FL_BY_LAW, FL_BY_RATING, FL_BY_PRACTICE, FL_BY_HOUSE, FL_BY_ADVICE, FL_N_STANDINGS } FlStanding;
const char *fl_verdict_id (FlVerdict verdict);           /* "met", ... as in the document */
const char *fl_standing_id (FlStanding standing);        /* "law", ... */
gboolean fl_verdict_from_id (const char *id, FlVerdict *verdict);
gboolean fl_standing_from_id (const char *id, FlStanding *standing);

/* An argument of a message: {key} in its text. A text, or (text NULL) a quantity. */
typedef struct { const char *key, *text; FlQuantity quantity; } FlFact;
#define FL_FACT_TEXT(k, t) ((FlFact) { (k), (t), { 0.0, FL_UNIT_NONE } })
#define FL_FACT_QUANTITY(k, q) ((FlFact) { (k), NULL, (q) })

/* A text with its facts, to be put into words later. */
typedef struct { const char *message; const FlFact *facts; gsize n_facts; } FlMessage;

typedef struct
{
  const char *rule;             /* the requirement's id: "aggregate_wll" */
  const char *citation;         /* "49 CFR 393.106(d)"; "ours" and the reason in the book where it is not the law's */
  const char *subject;          /* "load R-03", "tie-down 4", "chain C-041", "trailer T-3 axle 2" */
  gint tie_down;                /* index into the plan's tie-downs that it speaks of; -1: none in particular */
  gint load;                    /* index of the load; -1: none in particular */
  FlStanding standing;
  FlVerdict verdict;
  FlQuantity need, have;
  const char *basis;            /* how well the figures are known: "typical", "scale ticket 2026-03-02"; NULL nothing to say */
  const char *message;          /* message id: the English text with {named} holes */
  const FlFact *facts; gsize n_facts;   /* "need", "have", "subject" and "basis" are always there without being listed */
  const FlMessage *steps; gsize n_steps;   /* how the figures come about, line by line: formula, inputs with their basis, result */
} FlFinding;

/* Deep copies into an arena. n 0 gives NULL. */
const FlFact *fl_facts_copy (const FlFact *facts, gsize n, FlArena *arena);
const FlMessage *fl_messages_copy (const FlMessage *messages, gsize n, FlArena *arena);
FlFinding fl_finding_copy (const FlFinding *finding, FlArena *arena);

/* A growing list that owns its texts. */
typedef struct _FlFindings FlFindings;
FlFindings *fl_findings_new (void);
/* One that keeps no steps, for whoever asks for verdicts alone: a search, a comparison. */
FlFindings *fl_findings_new_brief (void);
gboolean fl_findings_brief (const FlFindings *findings);
void fl_findings_free (FlFindings *findings);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FlFindings, fl_findings_free)
/* Copies the finding and all its texts. */
void fl_findings_add (FlFindings *findings, const FlFinding *finding);
gsize fl_findings_count (const FlFindings *findings);
const FlFinding *fl_findings_at (const FlFindings *findings, gsize index);
FlArena *fl_findings_arena (FlFindings *findings);       /* for texts that are put together on the way */

G_END_DECLS
#endif
