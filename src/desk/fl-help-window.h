/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A page of help beside the work: what the panes show, what the words mean, where the responsibility lies. */
#ifndef FL_HELP_WINDOW_H
#define FL_HELP_WINDOW_H

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define FL_TYPE_HELP_WINDOW (fl_help_window_get_type ())
G_DECLARE_FINAL_TYPE (FlHelpWindow, fl_help_window, FL, HELP_WINDOW, GtkWindow)

/* The help of a window; the one that is open already, if there is one. */
GtkWidget *fl_help_window_new (GtkWindow *parent);

G_END_DECLS
#endif
