/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One record of a fleet: its kind, its unit number and its JSON text as entered; the typed view is decoded on first use.
 * Immutable, atomically reference-counted; any thread may read it. */
#ifndef FL_RECORD_H
#define FL_RECORD_H

#include <json-glib/json-glib.h>
#include "fl-problem.h"
#include "fl-records.h"

G_BEGIN_DECLS

typedef struct _FlRecord FlRecord;

#define FL_RECORD_ERROR (fl_record_error_quark ())
typedef enum { FL_RECORD_ERROR_BAD_TEXT, FL_RECORD_ERROR_NO_MEMBER, FL_RECORD_ERROR_BAD_VALUE } FlRecordError;
GQuark fl_record_error_quark (void);

/* A record from its JSON text (one object, already guarded or not: it is guarded here). All that is wrong with it goes to
 * `problems`; NULL if any of it is an error. `path` and `line` say where it stands in a document ("machines[3]", 1-based). (transfer full) */
FlRecord *fl_record_new (FlKind kind, const char *text, gssize length, const char *path, guint line, FlProblems *problems);
/* A record from a text that fl_record_new has accepted before (a store's own): nothing is decoded until its view is asked for. A text that
 * was spoilt since gives no view: the accessors below return NULL. `uid` may be NULL. (transfer full) */
FlRecord *fl_record_new_kept (FlKind kind, const char *id, const char *uid, const char *text, gssize length);
FlRecord *fl_record_ref (const FlRecord *record);
void fl_record_unref (FlRecord *record);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FlRecord, fl_record_unref)

FlKind fl_record_kind (const FlRecord *record);
const char *fl_record_id (const FlRecord *record);       /* the unit number; "policy" for the policy; a plan's move id */
const char *fl_record_uid (const FlRecord *record);      /* NULL: none given yet */
const char *fl_record_text (const FlRecord *record, gsize *length);
gboolean fl_record_equal (const FlRecord *a, const FlRecord *b);   /* same kind and same text */

/* The typed view; NULL if the record is of another kind. fl_record_machine serves machines and articles. */
const FlYard *fl_record_yard (const FlRecord *record);
const FlPerson *fl_record_person (const FlRecord *record);
const FlTruck *fl_record_truck (const FlRecord *record);
const FlMachine *fl_record_machine (const FlRecord *record);
const FlTrailer *fl_record_trailer (const FlRecord *record);
const FlChain *fl_record_chain (const FlRecord *record);
const FlBinder *fl_record_binder (const FlRecord *record);
const FlStrap *fl_record_strap (const FlRecord *record);
const FlConnector *fl_record_connector (const FlRecord *record);
const FlMove *fl_record_move (const FlRecord *record);
const FlPolicy *fl_record_policy (const FlRecord *record);
const FlPiece *fl_record_piece (const FlRecord *record); /* of the four kinds of gear */

/* A copy with one member replaced, `path` as in problems ("tie_points[2].x_in"), added when its parent exists, removed for a NULL value;
 * every other byte of the text stays. The result is checked like any record. (transfer full) */
FlRecord *fl_record_with (const FlRecord *record, const char *path, JsonNode *value, GError **error);

G_END_DECLS
#endif
