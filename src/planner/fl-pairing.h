/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Mirror images, and how many bits a mask has. Private to planner. */
#ifndef FL_PAIRING_H
#define FL_PAIRING_H

#include <glib.h>
#include <math.h>

#include "fl-vec.h"

G_BEGIN_DECLS

/* Mirror partners lie within this of each other's image about the centreline; m (2 in: tape measure numbers). */
#define FL_MIRROR 0.0508

static inline gboolean
fl_mirror_images (FlVec a, FlVec b)
{
  return fabs (a.x - b.x) < FL_MIRROR && fabs (a.y + b.y) < FL_MIRROR && fabs (a.z - b.z) < FL_MIRROR;
}

static inline guint
fl_bits (guint mask)
{
  guint n = 0;

  for (; mask != 0; mask &= mask - 1)
    n++;
  return n;
}

G_END_DECLS
#endif
