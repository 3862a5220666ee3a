/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The trailers for a move, each planned: those that work first, best first, the others with their reasons. */
#ifndef FL_TRAILERS_DIALOG_H
#define FL_TRAILERS_DIALOG_H

#include <gtk/gtk.h>

#include "fl-planning.h"

G_BEGIN_DECLS

#define FL_TYPE_TRAILERS_DIALOG (fl_trailers_dialog_get_type ())
G_DECLARE_FINAL_TYPE (FlTrailersDialog, fl_trailers_dialog, FL, TRAILERS_DIALOG, GtkDialog)

/* A dialog over `parent` that compares the trailers, unless that was done already. Destroys itself when it is closed. */
GtkWidget *fl_trailers_dialog_new (GtkWindow *parent, FlDesk *desk, FlPlanning *planning, const char *move);

G_END_DECLS
#endif
