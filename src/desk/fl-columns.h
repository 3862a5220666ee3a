/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Columns of a list with fixed widths (which long lists need) that grow with the text. */
#ifndef FL_COLUMNS_H
#define FL_COLUMNS_H

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Keeps the columns of a list as wide, in terms of its text, as they are in its template at a text of `points` and 96 dots an inch; never narrower.
 * A width that a person has set holds until the size of the text changes. Called once, when the list is made. */
void fl_columns_follow_text (GtkTreeView *tree, double points);

G_END_DECLS
#endif
