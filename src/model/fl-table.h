/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Private to the model: the records of one kind, sorted by unit number (by strcmp), cut into chunks that neighbouring snapshots share.
 * Immutable, atomically reference-counted; a change copies one chunk and the list of chunks. */
#ifndef FL_TABLE_H
#define FL_TABLE_H

#include "fl-record.h"

G_BEGIN_DECLS

typedef struct _FlTable FlTable;

/* Records in ascending order of id, each id once; they are referenced. (transfer full) */
FlTable *fl_table_new (const FlRecord *const *records, gsize n);
FlTable *fl_table_ref (FlTable *table);
void fl_table_unref (FlTable *table);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FlTable, fl_table_unref)

gsize fl_table_count (const FlTable *table);
const FlRecord *fl_table_at (const FlTable *table, gsize index);         /* NULL past the end */
const FlRecord *fl_table_find (const FlTable *table, const char *id);    /* NULL if there is none */

/* The table with the record in the place of the one that has its id, or added. (transfer full) */
FlTable *fl_table_with (const FlTable *table, const FlRecord *record);
/* The table without the record of that id; the same where there is none. (transfer full) */
FlTable *fl_table_without (const FlTable *table, const char *id);

G_END_DECLS
#endif
