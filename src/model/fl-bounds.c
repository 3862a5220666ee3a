/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Between which bounds a figure can be true at all. The bounds are ours: wide enough for every machine, trailer and piece of gear
 * that runs on a road, narrow enough to catch a slipped digit or a wrong unit (a 3 lb loader, a 3 in trailer). They decide
 * whether a document is believed, nothing else; no requirement of a rule book stands here. */
#include "fl-decode.h"

#define WEIGHT FL_DIM_WEIGHT
#define LENGTH FL_DIM_LENGTH
#define ANGLE FL_DIM_ANGLE

static const FlBound BOUNDS[FL_N_BOUNDS] = {
  /* what is carried: lb and in */
  [FL_BOUND_MACHINE_WEIGHT] = { WEIGHT, 200, 400000, FALSE },  /* a plate tamper; twice the largest load on multiple axles */
  [FL_BOUND_MACHINE_LENGTH] = { LENGTH, 24, 1200, FALSE },
  [FL_BOUND_MACHINE_WIDTH] = { LENGTH, 20, 400, FALSE },
  [FL_BOUND_MACHINE_HEIGHT] = { LENGTH, 5, 300, FALSE },
  [FL_BOUND_ARTICLE_WEIGHT] = { WEIGHT, 1, 400000, FALSE },
  [FL_BOUND_ARTICLE_LENGTH] = { LENGTH, 1, 1200, FALSE },
  [FL_BOUND_ARTICLE_WIDTH] = { LENGTH, 1, 400, FALSE },
  [FL_BOUND_ARTICLE_HEIGHT] = { LENGTH, 1, 300, FALSE },

  /* what carries it */
  [FL_BOUND_DECK_LENGTH] = { LENGTH, 60, 900, FALSE },
  [FL_BOUND_DECK_WIDTH] = { LENGTH, 20, 400, FALSE },
  [FL_BOUND_DECK_HEIGHT] = { LENGTH, 5, 300, FALSE },

  /* places in a frame, and sizes of parts */
  [FL_BOUND_X] = { LENGTH, -1500, 1500, FALSE },
  [FL_BOUND_Y] = { LENGTH, -200, 200, FALSE },
  [FL_BOUND_Z] = { LENGTH, -60, 300, FALSE },                  /* the well of a lowboy lies under its main deck's level */
  [FL_BOUND_PATCH] = { LENGTH, 0.25, 600, FALSE },             /* a line of drum on the deck; a track */
  [FL_BOUND_EXTENT] = { LENGTH, -600, 1500, FALSE },
  [FL_BOUND_CLEAR_WIDTH] = { LENGTH, 10, 400, FALSE },
  [FL_BOUND_SPAN] = { LENGTH, 1, 900, FALSE },
  [FL_BOUND_ROW_Y] = { LENGTH, 1, 200, FALSE },                /* both sides of a row lie off the centreline */
  [FL_BOUND_ROW_SPACING] = { LENGTH, 1, 600, FALSE },

  /* weights and ratings of vehicles: lb */
  [FL_BOUND_TARE] = { WEIGHT, 100, 200000, FALSE },
  [FL_BOUND_PART_TARE] = { WEIGHT, 0, 60000, FALSE },          /* what of the tare one axle or the coupling bears */
  [FL_BOUND_AXLE_RATED] = { WEIGHT, 200, 100000, TRUE },       /* null: no plate, as with the two of a coupling */
  [FL_BOUND_GROSS] = { WEIGHT, 500, 600000, FALSE },
  [FL_BOUND_TRAILED] = { WEIGHT, 500, 600000, TRUE },
  [FL_BOUND_VERTICAL] = { WEIGHT, 50, 150000, TRUE },
  [FL_BOUND_CAPACITY] = { WEIGHT, 100, 500000, FALSE },
  [FL_BOUND_BLOCK] = { WEIGHT, 50, 500000, TRUE },

  /* gear: lb and in */
  [FL_BOUND_WLL] = { WEIGHT, 50, 200000, TRUE },
  [FL_BOUND_OPENING] = { LENGTH, 0.1, 60, TRUE },
  [FL_BOUND_BAR] = { LENGTH, 0.05, 36, TRUE },
  [FL_BOUND_RUN] = { LENGTH, 0, 2400, FALSE },
  [FL_BOUND_TAKE_UP] = { LENGTH, 0.5, 60, FALSE },
  [FL_BOUND_DAMAGE] = { LENGTH, 0, 120, TRUE },
  [FL_BOUND_CHAIN_LENGTH] = { LENGTH, 12, 2400, FALSE },       /* 1 to 200 ft */
  [FL_BOUND_STRAP_WIDTH] = { LENGTH, 0.5, 12, FALSE },
  [FL_BOUND_STRAP_LENGTH] = { LENGTH, 12, 2400, FALSE },

  /* moves and the house's policy */
  [FL_BOUND_HEIGHT_LIMIT] = { LENGTH, 48, 600, TRUE },
  [FL_BOUND_MARGIN] = { LENGTH, 0, 120, FALSE },
  [FL_BOUND_OVER_WIDTH] = { LENGTH, 20, 400, FALSE },
  [FL_BOUND_HOUSE_WLL] = { WEIGHT, 50, 200000, FALSE },

  /* degrees */
  [FL_BOUND_SLOPE] = { ANGLE, -45, 45, FALSE },
  [FL_BOUND_RAMP] = { ANGLE, 0, 45, TRUE },
};

const FlBound *
fl_bound (FlBoundId id)
{
  g_return_val_if_fail (id < FL_N_BOUNDS, &BOUNDS[0]);
  return &BOUNDS[id];
}
