/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The force answers of the selected move as a table: the answers of all methods, or what each tie-down carries. */
#ifndef FL_FORCES_VIEW_H
#define FL_FORCES_VIEW_H

#include <gtk/gtk.h>

#include "fl-desk.h"

G_BEGIN_DECLS

#define FL_TYPE_FORCES_VIEW (fl_forces_view_get_type ())
G_DECLARE_FINAL_TYPE (FlForcesView, fl_forces_view, FL, FORCES_VIEW, GtkBox)

/* Shows the selected move of a desk, from now on: the tensions of its tie-downs, or the answers. Called once. */
void fl_forces_view_show (FlForcesView *view, FlDesk *desk, gboolean tensions);
/* Puts the keyboard on the table; FALSE where there is none to show. */
gboolean fl_forces_view_focus (FlForcesView *view);

G_END_DECLS
#endif
