/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The window: the day's moves, the drawing and its tie-downs, and why. It works on one fleet at a time. */
#ifndef FL_WINDOW_H
#define FL_WINDOW_H

#include <gtk/gtk.h>

#include "fl-desk.h"

G_BEGIN_DECLS

#define FL_TYPE_WINDOW (fl_window_get_type ())
G_DECLARE_FINAL_TYPE (FlWindow, fl_window, FL, WINDOW, GtkApplicationWindow)

FlWindow *fl_window_new (GtkApplication *application);

/* Opens a fleet in this window. Plans that were not saved are asked after first; a fleet that cannot be used is explained, and the one that is open stays. */
void fl_window_open (FlWindow *window, const char *path);
/* Shows a day, if the open fleet has moves on it. */
void fl_window_show_day (FlWindow *window, const char *date);

/* The accelerators of the window's actions: detailed action names and, after each, its keys; NULL at the end of all. */
typedef struct { const char *action; const char *const *keys; } FlAccelerator;
extern const FlAccelerator FL_WINDOW_ACCELERATORS[];

G_END_DECLS
#endif
