/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How a tie-down lies: a trailer as ground, a load as it stands on it, and the run between a machine's point and an anchor with all
 * that can be said of its geometry. Pure functions of the book and the geometry: the scene, the planner and the lists of the desk that
 * say what fits all call them. Metres in the trailer frame, angles in degrees. */
#ifndef FL_LAY_H
#define FL_LAY_H

#include "fl-book.h"
#include "fl-pose.h"

G_BEGIN_DECLS

/* m. A box drawn round the steel that carries a lug or a pocket is not in the way of the chain that starts there: this much of a run at
 * its ends is not looked at. Half a foot: machine boxes are tape measure numbers, and lugs stand inside them by a few inches. */
#define FL_LAY_LEAVES 0.1524

enum { FL_LAY_MAX_PATH = 6, FL_LAY_MAX_BOXES = 32 };

/* A trailer as geometry. Zones that were not measured (no z, no extent) are left out and `unmeasured` says so. */
typedef struct
{
  const FlTrailer *trailer;
  FlBox decks[FL_LAY_MAX_BOXES]; const FlZone *deck_zones[FL_LAY_MAX_BOXES]; guint n_decks;   /* solid below each zone */
  FlBox solids[FL_LAY_MAX_BOXES]; const char *solid_names[FL_LAY_MAX_BOXES]; guint n_solids;
  double hinge_x;               /* NaN: no hinge */
  double half_width;            /* m; NaN: not measured */
  double deck_height;           /* m over the road; NaN: not measured */
  gboolean unmeasured;
} FlGround;

/* A load as it stands. */
typedef struct
{
  const FlMachine *machine;     /* in its position */
  FlPose pose;
  gboolean placed;              /* FALSE: no place chosen or extent not measured; boxes below are then empty */
  const FlZone *zone;           /* the zone that carries it: the one under its contacts (or its middle) */
  FlBox outline;
  FlBox solids[FL_LAY_MAX_BOXES]; const char *solid_names[FL_LAY_MAX_BOXES]; guint n_solids;
  FlBox keep_clear[FL_LAY_MAX_BOXES]; const char *keep_names[FL_LAY_MAX_BOXES]; guint n_keep_clear;
} FlStand;

/* What is to be said of a run. The first lot forbids it, the second wants a look. */
enum
{
  FL_LAY_NOT_KNOWN = 1 << 0,    /* a place was not measured, or the load has none yet */
  FL_LAY_NOT_DOWN = 1 << 1,     /* a direct tie-down that does not pull down */
  FL_LAY_SOLID = 1 << 2,        /* through the machine's body; `hit` names it */
  FL_LAY_KEEP_CLEAR = 1 << 3,   /* through a keep-clear space (hoses, brake lines) */
  FL_LAY_TRAILER_SOLID = 1 << 4,
  FL_LAY_HINGE = 1 << 5,        /* across a tilt hinge */
  FL_LAY_BLOCKED = 1 << 6,      /* no way round a single edge of the deck */
  FL_LAY_FORBIDS = (1 << 7) - 1,
  FL_LAY_EDGE = 1 << 8,         /* bends over an edge of the deck, or an over-path with an edge */
  FL_LAY_DECK_ANGLE = 1 << 9,   /* outside the book's band */
  FL_LAY_PLAN_ANGLE = 1 << 10,
  FL_LAY_WINDOW = 1 << 11,      /* outside the maker's pull window of the point */
  FL_LAY_POINT = 1 << 12,       /* the point is not provided by the maker (axle, drawbar, frame, track) */
  FL_LAY_OVER = 1 << 13         /* an `over` tie-down */
};

typedef struct
{
  FlVec path[FL_LAY_MAX_PATH]; guint n_path;  /* direct: point first; over: from anchor to anchor */
  double run;                   /* m */
  double deck, plan;            /* degrees, at the machine; over: of the worse leg */
  FlVec pull;                   /* unit vector of the pull on the machine; over: of the first leg */
  FlVec pull_b;                 /* over: of the second leg; zeros for direct */
  guint flags;
  const char *hit;              /* name of the body met; NULL */
} FlLay;

/* Fills the ground of a trailer; borrowed from the record. */
void fl_ground_fill (FlGround *ground, const FlTrailer *trailer);

/* Stands a load (already in its position) on the ground. rear and left in metres; NaN rear: not placed. The zone is found from where its
 * contacts (else its middle) come to stand. */
void fl_stand_fill (FlStand *stand, const FlGround *ground, const FlMachine *machine, FlFacing facing, double rear, double left);

/* The extent of a machine in its own frame, metres: x_min, x_max of its position, else 0 and its length. FALSE: not measured. */
gboolean fl_machine_extent (const FlMachine *machine, double *x_min, double *x_max);

/* A machine's place (a tie point, cg...) in the trailer frame; NaNs where not measured. */
FlVec fl_stand_point (const FlStand *stand, FlPlace place);
/* An anchor's place in the trailer frame, metres. */
FlVec fl_anchor_place (const FlAnchor *anchor);

/* Lays a direct tie-down. */
void fl_lay_direct (FlLay *lay, const FlBook *book, const FlGround *ground, const FlStand *stand, const FlTiePoint *point,
                    const FlAnchor *anchor);
/* Lays an `over` tie-down through n places of the machine (machine frame), in order from the first anchor; `edge`: it bears on an edge. */
void fl_lay_over (FlLay *lay, const FlBook *book, const FlGround *ground, const FlStand *stand, const FlPlace *through, gsize n,
                  gboolean edge, const FlAnchor *first, const FlAnchor *second);

G_END_DECLS
#endif
