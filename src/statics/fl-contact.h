/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-contact.h: the patches on which a load stands, seen from above, and how they lie on the lengths of a deck. */
#ifndef FL_CONTACT_H
#define FL_CONTACT_H

#include "fl-pose.h"

G_BEGIN_DECLS

/* A stretch x0..x1 below may be given from either end and may reach to infinity; with a NaN end it holds nothing. */

/* m, trailer frame; min at most max. A patch without length is a line across, as a drum or a wheel that nobody measured. */
typedef struct { double x_min, x_max, y_min, y_max; } FlRect;

/* The patch in the trailer frame: x, y its middle in the machine's frame, length along the machine, width across it; m. A length
 * or width not over 0, or NaN, is taken as 0. x or y not finite: a rectangle that is not valid. */
FlRect   fl_contact_rect (FlPose pose, double x, double y, double length, double width);

/* TRUE if all four are finite and ordered. */
gboolean fl_rect_is_valid (FlRect rect);

/* m: how much of the rectangle's length lies between x0 and x1. 0 for a line, beside it, or not valid. */
double   fl_rect_overlap_x (FlRect rect, double x0, double x1);

/* The same as a share of its length, 0 to 1; a line is 1 on the stretch (its ends included) or 0 off it. How the weight of a
 * patch divides, taken as even along it. */
double   fl_rect_share_x (FlRect rect, double x0, double x1);

/* TRUE if all of its length lies between x0 and x1, allowing FL_STATICS_GRAZE at each end. FALSE if not valid. */
gboolean fl_rect_within_x (FlRect rect, double x0, double x1);

/* From the rearmost to the foremost edge of n patches, m. FALSE, and both untouched, for none or with one that is not valid. */
gboolean fl_rects_extent_x (const FlRect *rects, gsize n, double *first, double *last);

G_END_DECLS

#endif
