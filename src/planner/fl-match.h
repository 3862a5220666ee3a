/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Gear for a set of couples: the cheapest that reaches the aggregate, and what must hold each way as it is shared. Private to planner. */
#ifndef FL_MATCH_H
#define FL_MATCH_H

#include "fl-choose.h"

G_BEGIN_DECLS

/* The rigs of a couple with what each holds: in all, and leg by leg for the sharing. */
typedef struct
{
  FlRigs rigs;
  double holds[FL_MAX_RIGS][FL_N_WAYS];         /* sum of limits times cosines, book's unit */
  FlStretch legs[FL_MAX_RIGS][2];
  double most, most_held[FL_N_WAYS];            /* the greatest value and holds among them */
} FlRigged;
/* Fills it for a couple; takes the rigs from w->rigs where they were found before for the same points, anchors and runs. */
void fl_rigged_fill (FlRigged *out, const FlWanted *w, const FlCouple *couple);

typedef struct
{
  const FlRigged *rigged[FL_MAX_COUPLES_CHOSEN];
  guint pieces[FL_MAX_COUPLES_CHOSEN], n, nodes;
  double cheapest_after[FL_MAX_COUPLES_CHOSEN + 1], most_after[FL_MAX_COUPLES_CHOSEN + 1];
  double holds_after[FL_MAX_COUPLES_CHOSEN + 1][FL_N_WAYS];
  double need, ways[FL_N_WAYS], sums[FL_N_WAYS];
  gboolean guided;              /* ways or sums ask for anything */
  FlLeft left;
  guint now[FL_MAX_COUPLES_CHOSEN], best[FL_MAX_COUPLES_CHOSEN];    /* indices of rigs */
  double best_cost;
} FlMatch;

/* Starts on couples whose rigged, pieces and n are set. FALSE: some couple has no rig at all, or the strongest of each are not enough. */
gboolean fl_match_start (FlMatch *match, const FlWanted *w, const FlLeft *left);

/* The cheapest match that costs less than `bound`: its rigs are in best, its cost in best_cost. FALSE: there is none, or too much to look at. */
gboolean fl_match_find (FlMatch *match, double bound);

/* A table for w->rigs. It holds for one pool, book and kind of load. (transfer full) */
GHashTable *fl_rigs_table_new (void);

/* N/m of a leg with that rig. */
double fl_rig_stiffness (const FlBook *book, const FlPool *pool, const FlRig *rig, const FlLeg *leg);

G_END_DECLS
#endif
