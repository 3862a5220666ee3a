/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-edge.h: where a tie-down bends over the edge of the deck. */
#ifndef FL_EDGE_H
#define FL_EDGE_H

#include "fl-box.h"

G_BEGIN_DECLS

enum { FL_EDGE_MAX_BENDS = 2 };

typedef enum {
  FL_BEND_NONE,                /* the straight run keeps off the deck */
  FL_BEND_ONCE,                /* over the upper edge, down to an anchor on or beyond the side */
  FL_BEND_TWICE,               /* over the upper edge and under the lower one, to an anchor below the deck */
  FL_BEND_BLOCKED,             /* no way round a single side: an end within the deck, or the deck between the two */
} FlBend;

/* How a tight tie-down from `point` (on the machine) to `anchor` lies about the deck, a solid box (trailer frame, m): max.z its
 * upper face, min.z its underside or -INFINITY where nobody measured it; one call a zone, where zones differ in height.
 *
 * Where the straight run goes through the box (fl_run_clears, with its `leaves`: a ring in a recess or a pocket in the rail is
 * no bend), the shortest way over one of the four sides is found, the chain taken to slide along the edge without friction: a
 * straight line on the side unfolded (elementary geometry), held within the ends of the edge. via[] gets the places of the
 * bends, from the point to the anchor, and the answer is their number; each wants edge protection, and the pull on the machine
 * is towards the first. Left wins a tie, then right, front, rear. FL_BEND_BLOCKED leaves via[] alone; so do an end that is no
 * place and a box that is not valid, which are blocked too: the run cannot be said to be free. */
FlBend fl_edge_bend (FlVec point, FlVec anchor, FlBox deck, double leaves, FlVec via[FL_EDGE_MAX_BENDS]);

G_END_DECLS

#endif
