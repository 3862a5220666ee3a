/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-box.h: a box with its faces along the axes: a solid of a machine or a trailer, a space to be kept clear, a deck.
 *
 * FlBox is the model's: metres, min at most max on each axis. A face may lie at infinity: a deck of unknown thickness has
 * min.z = -INFINITY. A box without thickness is a plate. */
#ifndef FL_BOX_H
#define FL_BOX_H

#include "fl-vec-ops.h"

G_BEGIN_DECLS

/* The box that has a and b as opposite corners, whichever they are. m, same frame. A NaN stays, and makes the box not valid. */
FlBox    fl_box_spanning (FlVec a, FlVec b);

/* TRUE if min <= max on each axis; FALSE with any NaN. */
gboolean fl_box_is_valid (FlBox box);

/* The box with each face moved inwards by `by` m, but no further than to its middle: a plate stays a plate. */
FlBox    fl_box_shrunk (FlBox box, double by);

/* TRUE if some point of the straight segment a..b (ends included) lies in the box (faces included). Exact but for rounding: no
 * tolerance in it. Kay and Kajiya's slabs (Ray Tracing Complex Scenes, SIGGRAPH 1986; from memory). FALSE if an end is no
 * place (fl_vec_is_place) or the box not valid: look before you ask. */
gboolean fl_box_meets_segment (FlBox box, FlVec a, FlVec b);

G_END_DECLS

#endif
