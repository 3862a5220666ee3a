/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the choosing of a load's own tie-downs and that of its implements' share. Private to planner. */
#ifndef FL_CHOOSE_PRIVATE_H
#define FL_CHOOSE_PRIVATE_H

#include "fl-choose.h"

G_BEGIN_DECLS

/* Adds a couple with its rig to the draft, for the load itself (implement NULL) or for an implement: anchors hung, gear taken. */
void fl_draft_append (FlDraft *state, const FlWanted *w, const FlCouple *couple, const FlRig *rig, const FlImplement *implement);

/* How many tie-downs hang on a point already. */
guint fl_draft_hung_on (const FlDraft *state, guint load, const FlTiePoint *point);

/* TRUE if a leg of the couple comes too near to what is chosen already. */
gboolean fl_draft_near (const FlDraft *state, const FlWanted *w, const FlCouple *couple);

/* The wants of the book, raised to what the house asks: count, sum, and of a machine that it takes as heavy the sections of a free joint. What
 * was asked in part only, for the plan that comes nearest, is raised in proportion. */
FlWanted fl_wanted_by_house (const FlWanted *book_wants, const FlDraft *state);

/* Leaves out the legs that cannot be laid where the load is set down off its place (w->off), and gives the others the longest of their runs: gear for
 * it does at all of them. */
void fl_legs_settle (FlLegs *legs, const FlWanted *w);

/* Adds what is missing of an implement's own tie-downs. FALSE where that cannot be; the draft may then hold a part. */
gboolean fl_hold_implement (FlDraft *state, const FlWanted *w, const FlImplement *implement, guint mask);
/* That for all implements of the load; one that the house lets its own lock hold takes none. */
gboolean fl_hold_implements (FlDraft *state, const FlWanted *w, guint mask);

G_END_DECLS
#endif
