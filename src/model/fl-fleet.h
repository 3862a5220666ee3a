/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A fleet: one immutable snapshot of all records, and the changes that lead from one snapshot to the next.
 * Tables are sorted by unit number, cut into chunks and shared between neighbouring snapshots, so that a change costs little. */
#ifndef FL_FLEET_H
#define FL_FLEET_H

#include "fl-record.h"

G_BEGIN_DECLS

typedef struct _FlFleet FlFleet;
typedef struct _FlChange FlChange;

#define FL_FLEET_ERROR (fl_fleet_error_quark ())
typedef enum { FL_FLEET_ERROR_MOVED_ON, FL_FLEET_ERROR_DANGLING, FL_FLEET_ERROR_DUPLICATE, FL_FLEET_ERROR_BAD_RECORD } FlFleetError;
GQuark fl_fleet_error_quark (void);

/* Reads a fleet document: guard and split, then record by record, then references (every dangling one is an error). NULL if anything is
 * wrong; all of it is in `problems`, warnings too. (transfer full) */
FlFleet *fl_fleet_new_from_json (GBytes *text, FlProblems *problems);
FlFleet *fl_fleet_ref (const FlFleet *fleet);
void fl_fleet_unref (FlFleet *fleet);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FlFleet, fl_fleet_unref)

/* Writes it back: a fleet that was read and not changed byte for byte; after a change untouched records byte for byte, changed ones
 * with their own text, unknown keys and lists kept. (transfer full) */
GBytes *fl_fleet_to_json (const FlFleet *fleet);

const char *fl_fleet_name (const FlFleet *fleet);
gboolean fl_fleet_metric (const FlFleet *fleet);         /* "units": "metric" */
const char *fl_fleet_rule_book (const FlFleet *fleet);   /* "us-49cfr393" where none is named */
gint fl_fleet_turnaround (const FlFleet *fleet);         /* minutes; 30 where not given */
const FlPolicy *fl_fleet_policy (const FlFleet *fleet);  /* never NULL; empty where there are no house rules */

gsize fl_fleet_count (const FlFleet *fleet, FlKind kind);
const FlRecord *fl_fleet_at (const FlFleet *fleet, FlKind kind, gsize index);              /* in order of unit number */
const FlRecord *fl_fleet_find (const FlFleet *fleet, FlKind kind, const char *id);         /* NULL if there is none */

/* One piece of gear by "C-041" or "C-3/8-20 #3"; *piece is 1-based, 0 where the record is one piece. NULL if there is no such record
 * or the number exceeds its count, or it is a counted record named without a number. `piece` may be NULL. */
const FlRecord *fl_fleet_find_gear (const FlFleet *fleet, const char *id, guint *piece);

/* A load of a move or plan: machine or article. */
const FlRecord *fl_fleet_find_load (const FlFleet *fleet, const char *id, gboolean article);

/* Unit numbers of all pieces of gear on hand for a move by `trailer` (may be NULL: any trailer's own gear is left out): kept on that
 * trailer, at that trailer's yard, at the move's `from` or its `gear_yard`. Chains, then binders, straps, connectors; each sorted; counted
 * records piece by piece. (transfer full) array of char*. */
GPtrArray *fl_fleet_on_hand (const FlFleet *fleet, const FlMove *move, const char *trailer);

/* The ids of the moves of a day in order of departure, then priority, then id. (transfer full) */
GPtrArray *fl_fleet_moves_of (const FlFleet *fleet, const char *date);
/* All dates that have moves, ascending. (transfer full) */
GPtrArray *fl_fleet_dates (const FlFleet *fleet);

/* One named change: n pairs; before NULL: a new record, after NULL: a removed one. Records are referenced. (transfer full) */
FlChange *fl_change_new (const char *name, const FlRecord *const *before, const FlRecord *const *after, gsize n);
FlChange *fl_change_ref (FlChange *change);
void fl_change_unref (FlChange *change);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FlChange, fl_change_unref)
FlChange *fl_change_inverse (FlChange *change);
const char *fl_change_name (const FlChange *change);
gsize fl_change_size (const FlChange *change);
const FlRecord *fl_change_before (const FlChange *change, gsize index);
const FlRecord *fl_change_after (const FlChange *change, gsize index);

/* The next snapshot. Fails, and says which record, when a `before` is not what the fleet holds, a new id is taken or a reference would
 * dangle. (transfer full) */
FlFleet *fl_fleet_apply (const FlFleet *fleet, const FlChange *change, GError **error);

G_END_DECLS
#endif
