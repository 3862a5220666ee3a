/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What could be hooked to what: the legs of a load as it stands, paired with their mirror images, and the rigs of gear that serve them.
 * Private to planner. */
#ifndef FL_LEGS_H
#define FL_LEGS_H

#include "fl-pool.h"
#include "fl-pull.h"

G_BEGIN_DECLS

/* The kinds of caution that a leg brings, as bits of a mask. */
#define FL_LEG_CAUTIONS (FL_LAY_DECK_ANGLE | FL_LAY_PLAN_ANGLE | FL_LAY_EDGE | FL_LAY_POINT)

enum { FL_MAX_LEGS = 512, FL_MAX_COUPLES = 96, FL_MAX_RIGS = 160 };

typedef struct
{
  const FlTiePoint *point;      /* NULL: over an implement by `path` */
  const FlOverPath *path;
  const FlAnchor *anchors[2];
  FlLay lay;
  guint cautions;               /* FL_LEG_CAUTIONS */
  double penalty;               /* degrees squared off the best angles */
  guint holds;                  /* bit for each FlMovement */
} FlLeg;

typedef struct { FlLeg legs[FL_MAX_LEGS]; guint n; } FlLegs;

/* One leg, or a leg and its mirror image. */
typedef struct
{
  const FlLeg *legs[2];
  guint n, cautions, holds;
  guint front, rear;            /* legs on points of the front and of the rear section */
  double penalty;
} FlCouple;
typedef struct { FlCouple couples[FL_MAX_COUPLES]; guint n; } FlCouples;

/* What others hold already: bits by index of anchor in the trailer. */
typedef struct { guint8 hung[512]; } FlHung;
gboolean fl_hung_free (const FlHung *hung, const FlTrailer *trailer, const FlAnchor *anchor);
void fl_hung_add (FlHung *hung, const FlTrailer *trailer, const FlAnchor *anchor);

typedef struct
{
  const FlBook *book;
  const FlGround *ground;
  const FlStand *stand;
  const FlPlanChoices *choices;     /* for what is set aside */
  guint load;
} FlSite;

/* All legs from the load's own points (implement NULL) or from an implement's points and over-paths, to free anchors, that nothing
 * forbids, neither the house's rules on runs. */
void fl_legs_find (FlLegs *legs, const FlSite *site, const FlImplement *implement, const FlHung *hung);

/* Pairs the legs with cautions within `mask`: mirrored couples first (singles only when `singles`), the best few of each pair of points and
 * direction, in order of penalty. */
void fl_couples_find (FlCouples *couples, const FlLegs *legs, const FlTrailer *trailer, guint mask, gboolean singles);

/* Gear for a couple: the same kind on each of its legs. */
typedef struct
{
  gint chain, binder, strap, at_point, at_anchor;   /* classes of the pool's shelves; -1: none */
  double wll[2];                /* of each leg, book's unit */
  double value;                 /* what the couple counts toward the aggregate, with the house's stand-ins */
  double cost;                  /* sum of the limits of the pieces it takes */
} FlRig;
typedef struct { FlRig rigs[FL_MAX_RIGS]; guint n; } FlRigs;

typedef struct { gboolean own, article, straps; } FlRigFor;

/* All rigs for a couple from the pool, cheapest first; a rig that costs as much and counts no more than one of the same classes is left out. */
void fl_rigs_find (FlRigs *rigs, const FlBook *book, const FlPool *pool, const FlCouple *couple, const FlRigFor *what);

G_END_DECLS
#endif
