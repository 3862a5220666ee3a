/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Why a move stands or does not: its sums, then every requirement as need, have and citation, shortfalls first. */
#ifndef FL_WHY_VIEW_H
#define FL_WHY_VIEW_H

#include <gtk/gtk.h>

#include "fl-desk.h"

G_BEGIN_DECLS

#define FL_TYPE_WHY_VIEW (fl_why_view_get_type ())
G_DECLARE_FINAL_TYPE (FlWhyView, fl_why_view, FL, WHY_VIEW, GtkBox)

/* Shows the selected move of a desk, from now on. Called once. */
void fl_why_view_show (FlWhyView *view, FlDesk *desk);
/* Only what needs attention, or all. */
void fl_why_view_set_attention (FlWhyView *view, gboolean attention);
/* Puts the keyboard on the findings, or on what can be done. */
void fl_why_view_focus (FlWhyView *view);

G_END_DECLS
#endif
