/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Private to the model: records as the reader of a fleet document needs them. */
#ifndef FL_RECORD_PRIVATE_H
#define FL_RECORD_PRIVATE_H

#include "fl-plan.h"
#include "fl-record.h"

G_BEGIN_DECLS

/* Like fl_record_new, but also gives a record that has errors (*bad), so that its id and references can be looked at with the others'; NULL
 * only where the text is no JSON object or has no view. Such a record must not get into a fleet that is handed out. (transfer full) */
FlRecord *fl_record_read (FlKind kind, const char *text, gsize length, const char *path, guint line, FlProblems *problems, gboolean *bad);

/* The plan of a record of that kind; NULL for another kind. */
const FlPlan *fl_record_plan_view (const FlRecord *record);

/* "machines[3]" + "yard": "machines[3].yard". (transfer full) */
char *fl_path_join (const char *path, const char *below);

G_END_DECLS
#endif
