/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is wrong with a document: a line for each problem, with its line, path, value and what was expected. */
#ifndef FL_PROBLEMS_DIALOG_H
#define FL_PROBLEMS_DIALOG_H

#include <gtk/gtk.h>

#include "fl-problem.h"

G_BEGIN_DECLS

#define FL_TYPE_PROBLEMS_DIALOG (fl_problems_dialog_get_type ())
G_DECLARE_FINAL_TYPE (FlProblemsDialog, fl_problems_dialog, FL, PROBLEMS_DIALOG, GtkDialog)

/* A dialog over `parent`. `error` (may be NULL) is said where there is no list. `stays`: say that what was open stays open. Copies all it shows;
 * destroys itself when it is closed. */
GtkWidget *fl_problems_dialog_new (GtkWindow *parent, const char *path, const FlProblems *problems, const char *error, gboolean stays);

G_END_DECLS
#endif
