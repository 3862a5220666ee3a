/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the worth of a piece of gear comes about, line by line: what was read of it, the row and the cell of the table, damage and repairs, its
 * hooks, the weakest of all. It explains what fl-rating.h decides, and decides nothing itself. */
#ifndef FL_RATE_STEPS_H
#define FL_RATE_STEPS_H

#include "fl-rating.h"

G_BEGIN_DECLS

/* A line each, in order; the last one is the result. All of it lives in the arena, texts of the record and the book are borrowed. *n is set;
 * never 0 for a piece of gear. */
const FlMessage *fl_rate_steps (const FlBook *book, const FlRecord *gear, FlArena *arena, gsize *n);

G_END_DECLS
#endif
