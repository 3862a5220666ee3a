/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A move without a plan: what the move says, or why there is no plan and what would help. */
#ifndef FL_REASONS_VIEW_H
#define FL_REASONS_VIEW_H

#include <gtk/gtk.h>

#include "fl-desk.h"

G_BEGIN_DECLS

#define FL_TYPE_REASONS_VIEW (fl_reasons_view_get_type ())
G_DECLARE_FINAL_TYPE (FlReasonsView, fl_reasons_view, FL, REASONS_VIEW, GtkBox)

/* Shows the selected move of a desk, from now on. Called once. */
void fl_reasons_view_show (FlReasonsView *view, FlDesk *desk);

G_END_DECLS
#endif
