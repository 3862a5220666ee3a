/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The day's moves at a glance: when, what, with what, how it stands and what is missing. */
#ifndef FL_MOVES_VIEW_H
#define FL_MOVES_VIEW_H

#include <gtk/gtk.h>

#include "fl-desk.h"

G_BEGIN_DECLS

#define FL_TYPE_MOVES_VIEW (fl_moves_view_get_type ())
G_DECLARE_FINAL_TYPE (FlMovesView, fl_moves_view, FL, MOVES_VIEW, GtkBox)

/* Shows the day of a desk, from now on. Called once. */
void fl_moves_view_show (FlMovesView *view, FlDesk *desk);
/* Puts the keyboard on the list. */
void fl_moves_view_focus (FlMovesView *view);

G_END_DECLS
#endif
