/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The few numbers that matter: how the move stands, weight, need and have, weakest part, height, gross, axle loads. */
#ifndef FL_SUMS_VIEW_H
#define FL_SUMS_VIEW_H

#include <gtk/gtk.h>

#include "fl-desk.h"

G_BEGIN_DECLS

#define FL_TYPE_SUMS_VIEW (fl_sums_view_get_type ())
G_DECLARE_FINAL_TYPE (FlSumsView, fl_sums_view, FL, SUMS_VIEW, GtkBox)

/* Shows the selected move of a desk, from now on. Called once. */
void fl_sums_view_show (FlSumsView *view, FlDesk *desk);

G_END_DECLS
#endif
