/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The desk program: its command line, its windows, its keys, its look. */
#ifndef FL_APPLICATION_H
#define FL_APPLICATION_H

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define FL_TYPE_APPLICATION (fl_application_get_type ())
G_DECLARE_FINAL_TYPE (FlApplication, fl_application, FL, APPLICATION, GtkApplication)

/* (transfer full) */
FlApplication *fl_application_new (void);

G_END_DECLS
#endif
