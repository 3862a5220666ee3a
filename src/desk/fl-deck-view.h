/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The selected move: what goes where, and its drawing; without a plan, what to do about it. */
#ifndef FL_DECK_VIEW_H
#define FL_DECK_VIEW_H

#include <gtk/gtk.h>

#include "fl-deck-canvas.h"

G_BEGIN_DECLS

#define FL_TYPE_DECK_VIEW (fl_deck_view_get_type ())
G_DECLARE_FINAL_TYPE (FlDeckView, fl_deck_view, FL, DECK_VIEW, GtkBox)

/* Shows the selected move of a desk, from now on. Called once. */
void fl_deck_view_show (FlDeckView *view, FlDesk *desk);
/* Puts the keyboard on the drawing, or on what stands in its place. */
void fl_deck_view_focus (FlDeckView *view);
FlDeckCanvas *fl_deck_view_canvas (FlDeckView *view);

G_END_DECLS
#endif
