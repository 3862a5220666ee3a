/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Choosing the tie-downs of one load as it stands: which couples of legs, and which gear on each. Private to planner. */
#ifndef FL_CHOOSE_H
#define FL_CHOOSE_H

#include "fl-legs.h"
#include "fl-planner.h"
#include "fl-share.h"

G_BEGIN_DECLS

enum { FL_MAX_CHOSEN = 32, FL_MAX_COUPLES_CHOSEN = 8 };

/* Pieces left of each class. */
typedef struct { gint16 chains[FL_POOL_MAX_CLASSES], binders[FL_POOL_MAX_CLASSES], straps[FL_POOL_MAX_CLASSES], connectors[FL_POOL_MAX_CLASSES]; } FlLeft;
void fl_left_fill (FlLeft *left, const FlPool *pool);
/* Takes n pieces of each class of a rig; FALSE, and nothing taken, where there are not so many. A negative n gives back. */
gboolean fl_left_take (FlLeft *left, const FlRig *rig, gint n);

/* One tie-down as chosen; it points into the fleet's records only. */
typedef struct
{
  guint load;
  const FlImplement *implement;
  const FlTiePoint *point;
  const FlOverPath *path;
  const FlAnchor *anchors[2];
  FlLay lay;
  FlRig rig;
  double wll, strength;         /* of the tie-down; sum over the pieces it takes; book's unit */
  double stiffness;             /* N/m */
  gboolean strap;
  const FlTieDown *fixed;       /* a person's own choice, kept as it is; NULL: chosen here by `rig` */
} FlChosenTie;

typedef struct { FlChosenTie ties[FL_MAX_CHOSEN]; guint n; } FlChosen;

/* What must come out for one load. */
typedef struct
{
  const FlBook *book;
  const FlPool *pool;
  const FlSite *site;
  guint load;
  double need;                  /* what must yet count toward the aggregate, book's unit */
  double weight;                /* of the load, book's unit */
  guint count;                  /* least number of own tie-downs yet to be added */
  guint holds;                  /* movements against which something must yet hold, bits */
  double ways[FL_N_WAYS];       /* what must yet hold each way as the tie-downs share it (fl-share.h), book's unit; all 0: not asked */
  double sums[FL_N_WAYS];       /* sum of limits times cosines that is yet wanted each way, book's unit; all 0: not asked */
  guint section_count;          /* tie-downs on each of front and rear where the joint is free; 0 else */
  gboolean spread;              /* points toward both ends of the load: at least half as far apart as its own points are */
  gboolean straps, singles;
  gboolean implements;          /* FALSE: they are left out (a light load that has no legs for them) */
  GHashTable *rigs;             /* what was found before (fl-match.h); NULL: nothing is kept */
  const FlStand *off; guint n_off;      /* the load set down off its place: a leg must do there too; 0: not asked */
} FlWanted;

/* TRUE if ways or sums ask for anything. */
gboolean fl_is_guided (const FlWanted *wanted);

/* What stands before this load is looked at, and what it adds to. */
typedef struct
{
  FlHung hung;
  FlLeft left;
  FlChosen chosen;              /* earlier loads' and pinned ones */
  guint cautions;               /* mask of FL_LEG_CAUTIONS among them */
} FlDraft;

/* What of its limit counts toward the aggregate, book's unit. */
double fl_chosen_counts (const FlBook *book, const FlChosenTie *tie);

/* TRUE if the two come nearer to each other than `apart` (m), leaving out where they share a point or an anchor. */
gboolean fl_chosen_near (const FlChosenTie *a, const FlChosenTie *b, double apart);

/* The best few choices of the least number of tie-downs that serves, best first: `state` with each of them. `work` counts down choices looked at.
 * Returns how many, `max` at most; 0: none found. */
guint fl_choose_offers (FlDraft *offers, guint max, const FlDraft *state, const FlWanted *wanted, guint mask, guint64 *work);

G_END_DECLS
#endif
