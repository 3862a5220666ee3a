/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-edge.c: where a tie-down bends over the edge of the deck. */
#include "fl-edge.h"

#include "fl-run.h"
#include "fl-statics-tolerances.h"

/* One side of the deck. Its edges run along one axis, from lo to hi; its face stands at `face` on the other axis. */
typedef struct { gboolean lengthwise; double face, lo, hi; } Side;

static Side
side_at (FlBox deck, guint no)
{
  switch (no)
    {
    case 0:
      return (Side) { TRUE, deck.max.y, deck.min.x, deck.max.x };
    case 1:
      return (Side) { TRUE, deck.min.y, deck.min.x, deck.max.x };
    case 2:
      return (Side) { FALSE, deck.max.x, deck.min.y, deck.max.y };
    default:
      return (Side) { FALSE, deck.min.x, deck.min.y, deck.max.y };
    }
}

static double
along (Side side, FlVec v)
{
  return side.lengthwise ? v.x : v.y;
}

/* How far v is from the edge of the side at height z, looking along the edge. */
static double
off_edge (Side side, FlVec v, double z)
{
  return hypot ((side.lengthwise ? v.y : v.x) - side.face, v.z - z);
}

static FlVec
on_edge (Side side, double at, double z)
{
  return side.lengthwise ? (FlVec) { at, side.face, z } : (FlVec) { side.face, at, z };
}

/* Where a straight line from `from` to `to` along the edge crosses it, the edge lying `before` m after its start and `after` m
 * before its end on the unfolded side; held within the ends of the edge. */
static double
crossing (Side side, double from, double to, double before, double after)
{
  double at = before + after > 0.0 ? from + (to - from) * before / (before + after) : from;

  return CLAMP (at, side.lo, side.hi);
}

/* The way over the side's upper edge: point, bend, anchor. */
static void
lay_once (Side side, FlVec point, FlVec anchor, FlBox deck, FlVec path[3])
{
  double up = off_edge (side, point, deck.max.z), down = off_edge (side, anchor, deck.max.z);

  path[0] = point;
  path[1] = on_edge (side, crossing (side, along (side, point), along (side, anchor), up, down), deck.max.z);
  path[2] = anchor;
}

/* The way over the upper edge and under the lower one. Where an edge's end holds one bend, the other is laid straight again
 * between it and the run's end; once each suffices, since that moves it away from its own end of the edge. */
static void
lay_twice (Side side, FlVec point, FlVec anchor, FlBox deck, FlVec path[4])
{
  double from = along (side, point), to = along (side, anchor);
  double up = off_edge (side, point, deck.max.z), face = deck.max.z - deck.min.z;
  double down = off_edge (side, anchor, deck.min.z);
  double upper = crossing (side, from, to, up, face + down);
  double lower = crossing (side, upper, to, face, down);

  upper = crossing (side, from, lower, up, face);
  path[0] = point;
  path[1] = on_edge (side, upper, deck.max.z);
  path[2] = on_edge (side, lower, deck.min.z);
  path[3] = anchor;
}

FlBend
fl_edge_bend (FlVec point, FlVec anchor, FlBox deck, double leaves, FlVec via[FL_EDGE_MAX_BENDS])
{
  FlVec path[FL_EDGE_MAX_BENDS + 2] = { point, anchor };
  double least = INFINITY;
  FlBend bend = FL_BEND_BLOCKED;

  if (!fl_run_is_valid (path, 2) || !fl_box_is_valid (deck))
    return FL_BEND_BLOCKED;
  if (fl_run_clears (path, 2, leaves, &deck, 1, NULL))
    return FL_BEND_NONE;
  for (guint no = 0; no < 4; no++)
    for (gsize bends = 1; bends <= FL_EDGE_MAX_BENDS; bends++)
      {
        double length;

        if (bends == 1)
          lay_once (side_at (deck, no), point, anchor, deck, path);
        else
          lay_twice (side_at (deck, no), point, anchor, deck, path);
        length = fl_run_length (path, bends + 2);
        if (!fl_run_clears (path, bends + 2, leaves, &deck, 1, NULL) || length >= least)
          continue;
        least = length;
        bend = bends == 1 ? FL_BEND_ONCE : FL_BEND_TWICE;
        for (gsize i = 0; i < bends; i++)
          via[i] = path[i + 1];
      }
  return bend;
}
