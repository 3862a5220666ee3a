/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The drawing of the selected move: the card's own drawing in the colors of the theme. A click or the arrow keys pick a tie-down; Ctrl and the wheel,
 * plus and minus make it larger; dragging, or Shift and the arrow keys, move what is seen. */
#ifndef FL_DECK_CANVAS_H
#define FL_DECK_CANVAS_H

#include <gtk/gtk.h>

#include "fl-desk.h"

G_BEGIN_DECLS

#define FL_TYPE_DECK_CANVAS (fl_deck_canvas_get_type ())
G_DECLARE_FINAL_TYPE (FlDeckCanvas, fl_deck_canvas, FL, DECK_CANVAS, GtkDrawingArea)

/* Shows the selected move of a desk, from now on. Called once. */
void fl_deck_canvas_show (FlDeckCanvas *canvas, FlDesk *desk);
/* One step larger (1), smaller (-1), all of it (0). */
void fl_deck_canvas_zoom (FlDeckCanvas *canvas, gint step);

G_END_DECLS
#endif
