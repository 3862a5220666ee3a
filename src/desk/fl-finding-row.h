/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One finding: symbol and word, the sentence, need and have, whose requirement it is and where it is written; on demand how
 * its figures come about. */
#ifndef FL_FINDING_ROW_H
#define FL_FINDING_ROW_H

#include <gtk/gtk.h>

#include "fl-office.h"

G_BEGIN_DECLS

#define FL_TYPE_FINDING_ROW (fl_finding_row_get_type ())
G_DECLARE_FINAL_TYPE (FlFindingRow, fl_finding_row, FL, FINDING_ROW, GtkListBoxRow)

/* A row for a finding; copies what it shows. */
FlFindingRow *fl_finding_row_new (const FlAssessment *assessment, const FlFinding *finding, const FlWords *words, gboolean metric);
/* Opens or closes how its figures come about; nothing where there is nothing to say. */
void fl_finding_row_toggle (FlFindingRow *row);
/* The tie-down it speaks of; -1: none in particular. */
gint fl_finding_row_tie (FlFindingRow *row);

G_END_DECLS
#endif
