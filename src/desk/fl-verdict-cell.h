/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A cell of a list that shows a verdict: its symbol and its words, in one, so that a screen reader meets no picture without words. */
#ifndef FL_VERDICT_CELL_H
#define FL_VERDICT_CELL_H

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define FL_TYPE_VERDICT_CELL (fl_verdict_cell_get_type ())
G_DECLARE_FINAL_TYPE (FlVerdictCell, fl_verdict_cell, FL, VERDICT_CELL, GtkCellRendererText)

/* Property "icon-name": the symbol before the text; the rest is GtkCellRendererText's. */

G_END_DECLS
#endif
