/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a piece of gear is worth today, and why. Pure: judge, planner, catalog form and `rate` call the same functions. */
#ifndef FL_RATING_H
#define FL_RATING_H

#include "fl-book.h"

G_BEGIN_DECLS

enum { FL_RATING_MAX_FACTS = 4 };
typedef struct
{
  gboolean in_use;              /* FALSE: out of use, `message` says why */
  FlQuantity wll;               /* in the unit of its tag or the book; FL_UNIT_NONE: cannot be known (a size the table lacks without a tag; not looked at) */
  const char *grade;            /* the grade read from the table ("30" for unmarked); NULL where a tag gives the value */
  const char *limited_by;       /* what inside the piece sets the value: "chain", "hook", "repair link", "tag", "mark", "width" */
  FlFact limit_word;            /* unused unless limited_by needs words */
  double breaking;              /* least of the parts' wll times their breaking factor, book's unit; NaN: not known (a tag without a mark) */
  gboolean assumed;             /* TRUE: something was not looked at and was taken (a hook as its chain): a note */
  const char *message;          /* message id with facts: "unmarked: counts as grade {grade}, {wll}" */
  FlFact facts[FL_RATING_MAX_FACTS]; guint n_facts;
  const char *citation;         /* borrowed from the book */
} FlRating;

/* 393.104(b), .108: a legible tag wins; else mark and size by the table; else grade 30 of its size (393.108(d); a mark nobody looked at too, assumed).
 * Weakest of chain, hooks (absent: as the chain, assumed; null: grade 30 of the chain's size) and accepted repair links with a wll. A mark, size or
 * cell that the table lacks: not known without a tag. Out of use: any finding of the newest inspection, listed or not, or a repair the book does not
 * accept. */
FlRating fl_rate_chain (const FlBook *book, const FlChain *chain);
/* wll; null (looked at, unmarked): grade 30 of the smallest size it fits; absent: unknown. Out of use: any finding of the newest inspection. */
FlRating fl_rate_binder (const FlBook *book, const FlBinder *binder);
/* A legible tag wins; else by width; cuts, wear and burns summed over the width against the limit ("over" is out, at the limit is in use; one without a
 * size is out). A weaker hook takes over; one without a rating is the strap's own. */
FlRating fl_rate_strap (const FlBook *book, const FlStrap *strap);
FlRating fl_rate_connector (const FlBook *book, const FlConnector *connector);
/* Whichever kind of gear the record is. */
FlRating fl_rate_record (const FlBook *book, const FlRecord *gear);

/* ── fit ── */

typedef enum { FL_FITS, FL_FIT_UNMEASURED, FL_FIT_NOT } FlFitAnswer;
enum { FL_FIT_MAX_FACTS = 4 };
typedef struct { FlFitAnswer answer; const char *message; FlFact facts[FL_FIT_MAX_FACTS]; guint n_facts; } FlFit;

/* Does this end attach to an eye of `opening` with a bar of `bar` thickness, through `connector` (may be NULL)? Without: needs <= opening. With: pin <= opening,
 * bar <= jaw, needs <= connector's opening. Anything of it not measured: FL_FIT_UNMEASURED, never a refusal. An end without a hook needs a connector.
 * A soft loop goes round: only needs <= its opening. */
FlFit fl_fit_end (const FlEnd *end, FlQuantity opening, FlQuantity bar, const FlConnector *connector);
/* Is the binder made for this size of chain? Metric and inch names of one size (10 mm, 3/8) are the same. */
FlFit fl_fit_binder (const FlBinder *binder, const FlChain *chain);

/* Length of chain that a run takes: run + hook_back for each grab end (a hook nobody looked at counts as one) + the binder's take-up (its own, else the
 * book's for its kind) + tail, plus the house's chain_allowance. Inches. Straps: run + tail, with `ends` NULL. `binder` may be NULL. */
typedef struct { double run, hooks, take_up, tail, allowance, total; } FlChainNeeds;
FlChainNeeds fl_chain_needs_of (const FlBook *book, double run_in, const FlEnd ends[2], const FlBinder *binder);
double fl_chain_needs (const FlBook *book, double run_in, const FlEnd ends[2], const FlBinder *binder);   /* its total */
/* The shortest run in which the binder still works: its own needs_run, else the book's for its kind. Inches. */
double fl_binder_run (const FlBook *book, const FlBinder *binder);

/* Share of a tie-down's limit that counts, 393.106(d): direct, over to the same side, over to the other side. Sides are the anchors' 'L', 'R', 'C'. */
double fl_book_share (const FlBook *book, gboolean over, char side_a, char side_b);
/* TRUE for what 393.130(a) speaks of: a machine (no article) of the book's threshold or more. weight: book's unit; NaN: FALSE. */
gboolean fl_book_heavy (const FlBook *book, const FlMachine *machine, double weight);
/* Percent of a trailer's gross wanted on its coupling: its own band, else the book's for its kind; NaN where neither says. */
void fl_book_band (const FlBook *book, const FlTrailer *trailer, double *lo, double *hi);
/* Least number of tie-downs by length and weight, 393.110. Feet and the book's unit. Weight NaN: as if heavy; length NaN: G_MAXINT. */
gint fl_book_count (const FlBook *book, double length_ft, double weight, gboolean blocked_forward);

G_END_DECLS
#endif
