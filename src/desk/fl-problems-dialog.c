/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A document's problems as a list that can be taken to an editor. */
#include <glib/gi18n.h>

#include "fl-problems-dialog.h"

#include "fl-columns.h"

struct _FlProblemsDialog
{
  GtkDialog parent_instance;
  GtkLabel *title, *text;
  GtkWidget *scroller;
  GtkTreeView *tree;
  GtkListStore *store;
  GString *lines;               /* all of it as text */
};

G_DEFINE_FINAL_TYPE (FlProblemsDialog, fl_problems_dialog, GTK_TYPE_DIALOG)

enum { COLUMN_WORD, COLUMN_LINE, COLUMN_PATH, COLUMN_VALUE, COLUMN_EXPECTED, COLUMN_TIP };
enum { RESPONSE_COPY = 1 };

static void
add_problem (FlProblemsDialog *dialog, const char *file, const FlProblem *problem)
{
  const gboolean error = problem->severity == FL_SEVERITY_ERROR;
  g_autofree char *line = problem->line > 0 ? g_strdup_printf ("%u", problem->line) : g_strdup ("");
  g_autofree char *text = fl_problem_text (problem, file);
  g_autofree char *tip = g_markup_escape_text (text, -1);
  GtkTreeIter iter;

  gtk_list_store_append (dialog->store, &iter);
  gtk_list_store_set (dialog->store, &iter, COLUMN_WORD, error ? _("Error") : _("Warning"), COLUMN_LINE, line, COLUMN_PATH, problem->path,
                      COLUMN_VALUE, problem->value != NULL ? problem->value : "", COLUMN_EXPECTED, problem->expected, COLUMN_TIP, tip, -1);
  g_string_append_printf (dialog->lines, "%s\n", text);
}

static void
say (FlProblemsDialog *dialog, const char *path, guint n, const char *error, gboolean stays)
{
  g_autofree char *name = g_path_get_basename (path);
  g_autofree char *title = g_strdup_printf (_("%s cannot be opened"), name);
  g_autofree char *found = n > 0 ? g_strdup_printf (ngettext ("%u problem was found; it is listed below.", "%u problems were found; all are listed below.", n), n)
                                 : g_strdup (error != NULL ? error : "");
  g_autofree char *text = g_strdup_printf ("%s%s%s", found, stays ? "\n" : "", stays ? _("Nothing has changed: the fleet that was open stays open.") : "");

  gtk_label_set_text (dialog->title, title);
  gtk_label_set_text (dialog->text, text);
}

GtkWidget *
fl_problems_dialog_new (GtkWindow *parent, const char *path, const FlProblems *problems, const char *error, gboolean stays)
{
  FlProblemsDialog *dialog = g_object_new (FL_TYPE_PROBLEMS_DIALOG, "transient-for", parent, "use-header-bar", FALSE, NULL);
  const guint n = fl_problems_count (problems);

  say (dialog, path, n, error, stays);
  for (guint i = 0; i < n; i++)
    add_problem (dialog, path, fl_problems_at (problems, i));
  if (n == 0 && error != NULL)
    g_string_append_printf (dialog->lines, "%s\n", error);
  gtk_widget_set_visible (dialog->scroller, n > 0);
  gtk_window_set_default_size (GTK_WINDOW (dialog), n > 0 ? 900 : 480, n > 0 ? 420 : -1);
  return GTK_WIDGET (dialog);
}

static void
on_response (FlProblemsDialog *dialog, gint response)
{
  if (response == RESPONSE_COPY)
    gtk_clipboard_set_text (gtk_widget_get_clipboard (GTK_WIDGET (dialog), GDK_SELECTION_CLIPBOARD), dialog->lines->str, -1);
  else
    gtk_widget_destroy (GTK_WIDGET (dialog));
}

static void
fl_problems_dialog_finalize (GObject *object)
{
  g_string_free (FL_PROBLEMS_DIALOG (object)->lines, TRUE);
  G_OBJECT_CLASS (fl_problems_dialog_parent_class)->finalize (object);
}

static void
fl_problems_dialog_class_init (FlProblemsDialogClass *klass)
{
  GtkWidgetClass *widget = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = fl_problems_dialog_finalize;
  gtk_widget_class_set_template_from_resource (widget, "/org/fairlead/Fairlead/fl-problems-dialog.ui");
  gtk_widget_class_bind_template_child (widget, FlProblemsDialog, title);
  gtk_widget_class_bind_template_child (widget, FlProblemsDialog, text);
  gtk_widget_class_bind_template_child (widget, FlProblemsDialog, scroller);
  gtk_widget_class_bind_template_child (widget, FlProblemsDialog, tree);
  gtk_widget_class_bind_template_child (widget, FlProblemsDialog, store);
  gtk_widget_class_bind_template_callback (widget, on_response);
}

static void
fl_problems_dialog_init (FlProblemsDialog *dialog)
{
  dialog->lines = g_string_new (NULL);
  gtk_widget_init_template (GTK_WIDGET (dialog));
  fl_columns_follow_text (dialog->tree, 10.0);
}
