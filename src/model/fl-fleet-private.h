/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Private to the model: what a snapshot is made of, and the references between its records. */
#ifndef FL_FLEET_PRIVATE_H
#define FL_FLEET_PRIVATE_H

#include "fl-fleet.h"
#include "fl-json.h"
#include "fl-table.h"

G_BEGIN_DECLS

/* Where a record stood in the document that was read. */
typedef struct
{
  FlJsonSpan span;
  FlRecord *record;             /* as it was read */
} FlOriginItem;

/* One list of that document. */
typedef struct
{
  gboolean present;
  FlJsonSpan span;              /* with its brackets */
  GArray *items;                /* FlOriginItem, in the order of the document */
} FlOriginList;

/* The document that was read: what all snapshots that descend from it share. */
typedef struct
{
  gatomicrefcount refs;
  GBytes *bytes;
  char *name, *rule_book;
  gboolean metric;
  gint turnaround;
  FlOriginList lists[FL_N_KINDS];
  FlTable *tables[FL_N_KINDS];
} FlOrigin;

FlOrigin *fl_origin_new (GBytes *bytes);
FlOrigin *fl_origin_ref (FlOrigin *origin);
void fl_origin_unref (FlOrigin *origin);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FlOrigin, fl_origin_unref)

struct _FlFleet
{
  gatomicrefcount refs;
  FlOrigin *origin;
  FlTable *tables[FL_N_KINDS];
};

/* A snapshot of these tables; origin and tables are referenced. (transfer full) */
FlFleet *fl_fleet_of (FlOrigin *origin, FlTable *const tables[FL_N_KINDS]);

/* The kinds that share one namespace with `kind` are told by one of them: FL_KIND_CHAIN for gear, FL_KIND_YARD for yards and trailers. */
FlKind fl_kind_namespace (FlKind kind);

/* ── references ── */

typedef enum { FL_REF_RECORD, FL_REF_HOME, FL_REF_GEAR } FlRefTarget;   /* a record of `kind`; a yard or trailer; one piece of gear */

typedef struct
{
  char path[64];                /* in its record: "kept_at", "loads[0].machine" */
  FlRefTarget target;
  FlKind kind;                  /* of FL_REF_RECORD */
  const char *id;
  gboolean soft;                /* of a plan's gear: left to whoever judges the plan, a warning in a document */
} FlRef;

/* What a record names: array of FlRef, whose ids the record owns. (transfer full) */
GArray *fl_refs_of (const FlRecord *record);
/* TRUE if what it names is in the fleet. */
gboolean fl_ref_holds (const FlFleet *fleet, const FlRef *ref);
/* TRUE if what it names is the record of this kind and id. */
gboolean fl_ref_means (const FlRef *ref, FlKind kind, const char *id);
/* "yard or trailer", "machine": what it should name. Static text. */
const char *fl_ref_what (const FlRef *ref);

/* "C-3/8-20 #3" into the record's id and the number of the piece; 0 and the id where there is no number. FALSE where what follows "#" is
 * no number. *record is newly allocated. */
gboolean fl_piece_split (const char *id, char **record, guint *piece);

G_END_DECLS
#endif
