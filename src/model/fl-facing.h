/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-facing.h: which way a load stands on the deck. Alone in its header, because records, plans and geometry all use it. */
#ifndef FL_FACING_H
#define FL_FACING_H

/* FL_FORWARD: the machine's x axis points as the trailer's does, towards the truck. FL_REARWARD: a half turn about the vertical. */
typedef enum { FL_FORWARD, FL_REARWARD } FlFacing;

#endif
