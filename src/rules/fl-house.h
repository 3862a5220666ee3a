/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the house asks on top of the rule book: its rules (fl_book_policy) applied to gear, runs, counts and sums. Pure functions of the
 * book, the records and the geometry, so that the requirements and the search ask the very same questions. Weights in the book's unit.
 * Where a question can have no answer because something was not looked at, the answer is FL_UNKNOWN, and nothing is allowed by it. */
#ifndef FL_HOUSE_H
#define FL_HOUSE_H

#include "fl-assembly.h"

G_BEGIN_DECLS

/* The rule as the house asks it; NULL if it does not. */
const FlHouseRule *fl_house_rule (const FlBook *book, FlHouseRuleId id);

/* ── a tie-down ── */

/* min_chain: at least the size, at least the grade, and where the table has both, at least the table's value for what was asked (5/16 of
 * grade 80 is worth less than 5/16 of grade 70). A mark nobody looked at: FL_UNKNOWN where the grade hangs on it. */
FlVerdict fl_house_chain (const FlBook *book, const FlHouseRule *rule, const FlChain *chain);
/* ratchet_only: a tie-down with a binder has a ratchet binder; FL_UNKNOWN where its kind is not recorded. One without a binder is met. */
FlVerdict fl_house_binder (const FlAssemblyParts *parts);
/* no_straps_on_machines. */
FlVerdict fl_house_strap (const FlAssemblyParts *parts, gboolean article);
/* chain_allowance: the chain is as long as the run with the allowance takes; FL_UNKNOWN where a length is. Straps are met. */
FlVerdict fl_house_length (const FlAssemblyParts *parts, const FlAssembly *assembly);
/* inboard_of_rub_rail: anchors no rub rail themselves and nearer to the centerline than the deck's edge (where the rail is), and no bend over the
 * side of the deck. FL_UNKNOWN where the deck's width or an anchor's place is. */
FlVerdict fl_house_inboard (const FlGround *ground, const FlLay *lay, const FlAnchor *const anchors[2]);
/* deck_angle_band: every leg within the band; the worst angle in *deck (degrees, NaN not known). */
FlVerdict fl_house_band (const FlHouseRule *rule, const FlLay *lay, double *deck);

/* What a tie-down is worth with the house's stand-in ratings for points and anchors that nobody rated: never more than its weakest known
 * part, as the least of all counts. `hang`: how many tie-downs share the point, the first and the second anchor (NULL: each alone). An eye
 * that the tie-down runs through is pulled by both its legs and stands in by half. */
typedef struct { double wll; const char *what, *id; } FlHouseWorth;     /* what, id: of the stand-in that sets it; NULL: none does */
FlHouseWorth fl_house_worth (const FlBook *book, const FlAssemblyParts *parts, double wll, const guint hang[3]);

/* TRUE if the house's rules on gear (min_wll_each, min_chain, no_straps_on_machines, ratchet_only, chain_allowance) allow the tie-down.
 * `own`: it ties the load itself down, not an implement. */
gboolean fl_house_allows (const FlBook *book, const FlAssemblyParts *parts, const FlAssembly *assembly, gboolean own, gboolean article);
/* TRUE if its rules on runs (deck_angle_band, inboard_of_rub_rail) allow it. */
gboolean fl_house_allows_lay (const FlBook *book, const FlGround *ground, const FlLay *lay, const FlAnchor *const anchors[2]);

/* ── a load ── */

/* weight_margin_pct and extra_aggregate_pct as factors, 1 where not asked. */
double fl_house_margin (const FlBook *book);
double fl_house_extra (const FlBook *book);

/* TRUE for a machine that the rule book does not take as heavy, of which the house asks what is asked of heavy ones: four_below_threshold, or
 * because it is heavy with the weight margin. */
gboolean fl_house_as_heavy (const FlBook *book, const FlMachine *machine);
/* The least number of own tie-downs that the house asks for on top of the book; 0: no more than the book; G_MAXINT: by a length not known. */
gint fl_house_count (const FlBook *book, const FlMachine *machine, gboolean blocked_forward);

/* implement_lock_suffices: TRUE if the house takes the implement's own mechanical lock for its tie-downs, and that lock is on the machine and
 * fitted (both looked at). */
gboolean fl_house_lock_suffices (const FlBook *book, const FlMachine *machine, const FlImplement *implement);
/* The implement's own lock; NULL if it has none. */
const FlLock *fl_implement_lock (const FlMachine *machine, const FlImplement *implement);

G_END_DECLS
#endif
