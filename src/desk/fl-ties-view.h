/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tie-downs of the selected move as a table, in the order in which they are put on; selected together with the drawing. */
#ifndef FL_TIES_VIEW_H
#define FL_TIES_VIEW_H

#include <gtk/gtk.h>

#include "fl-desk.h"

G_BEGIN_DECLS

#define FL_TYPE_TIES_VIEW (fl_ties_view_get_type ())
G_DECLARE_FINAL_TYPE (FlTiesView, fl_ties_view, FL, TIES_VIEW, GtkScrolledWindow)

/* Shows the selected move of a desk, from now on. Called once. */
void fl_ties_view_show (FlTiesView *view, FlDesk *desk);
/* Puts the keyboard on the table. */
void fl_ties_view_focus (FlTiesView *view);

G_END_DECLS
#endif
