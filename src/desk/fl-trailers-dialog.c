/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Trailers side by side. */
#include <glib/gi18n.h>

#include "fl-trailers-dialog.h"

#include "fl-columns.h"
#include "fl-phrases.h"
#include "fl-verdict-cell.h"

struct _FlTrailersDialog
{
  GtkDialog parent_instance;
  FlDesk *desk;
  FlPlanning *planning;
  char *move;
  GPtrArray *ranking;           /* of FlProposal, a row each; NULL: not known yet */
  GtkLabel *title;
  GtkProgressBar *bar;
  GtkTreeView *tree;
  GtkListStore *store;
};

G_DEFINE_FINAL_TYPE (FlTrailersDialog, fl_trailers_dialog, GTK_TYPE_DIALOG)

enum { COLUMN_TRAILER, COLUMN_ICON, COLUMN_VERDICT, COLUMN_WHY };
enum { RESPONSE_TAKE = 1 };

static char *
trailer_markup (FlDesk *desk, const char *id)
{
  const FlRecord *record = id != NULL ? fl_fleet_find (fl_desk_fleet (desk), FL_KIND_TRAILER, id) : NULL;
  const FlTrailer *trailer = record != NULL ? fl_record_trailer (record) : NULL;

  return g_markup_printf_escaped ("<b>%s</b>\n<small>%s</small>", id != NULL ? id : "–",
                                  trailer != NULL && trailer->name != NULL ? trailer->name : "");
}

static char *
why_text (FlDesk *desk, const FlProposal *proposal)
{
  if (proposal->best != NULL)
    {
      const FlAssessmentParts *parts = fl_assessment_parts (proposal->best);
      g_autofree char *count = fl_phrase_tie_count (parts->n_ties);
      g_autofree char *height = fl_phrase_tape (parts->sizes.height, fl_desk_metric (desk), FL_ROUND_UP);

      return g_strdup_printf (_("%s, loaded height %s, truck %s"), count, height, proposal->truck != NULL ? proposal->truck : _("none needed"));
    }
  if (proposal->n_because == 0)
    return g_strdup ("");
  return fl_phrase_message (fl_desk_words (desk), &proposal->because[0], fl_desk_metric (desk));
}

static void
add_row (FlTrailersDialog *dialog, const FlProposal *proposal)
{
  g_autoptr(FlOutcome) outcome = proposal->best != NULL ? fl_outcome_new_judged (fl_assessment_ref (proposal->best)) : NULL;
  g_autofree char *words = outcome != NULL ? fl_outcome_words (outcome) : g_strdup (_("Does not do"));
  g_autofree char *trailer = trailer_markup (dialog->desk, proposal->trailer);
  g_autofree char *why = why_text (dialog->desk, proposal);
  GtkTreeIter iter;

  gtk_list_store_append (dialog->store, &iter);
  gtk_list_store_set (dialog->store, &iter, COLUMN_TRAILER, trailer, COLUMN_ICON, outcome != NULL ? fl_outcome_icon (outcome) : "fl-cannot-symbolic",
                      COLUMN_VERDICT, words, COLUMN_WHY, why, -1);
}

static void
show_ranking (FlTrailersDialog *dialog)
{
  GPtrArray *ranking = fl_planning_ranking (dialog->planning, dialog->move);
  g_autofree char *title = NULL;

  if (ranking == NULL || ranking == dialog->ranking)
    return;
  dialog->ranking = g_ptr_array_ref (ranking);
  for (guint i = 0; i < ranking->len; i++)
    add_row (dialog, g_ptr_array_index (ranking, i));
  title = g_strdup_printf (ngettext ("Trailers for %s: %u is free at that time", "Trailers for %s: %u are free at that time", ranking->len), dialog->move,
                           ranking->len);
  gtk_label_set_text (dialog->title, title);
  gtk_widget_hide (GTK_WIDGET (dialog->bar));
  gtk_widget_grab_focus (GTK_WIDGET (dialog->tree));
}

static void
show_progress (FlTrailersDialog *dialog)
{
  if (dialog->ranking != NULL)
    return;
  if (!fl_planning_busy (dialog->planning))
    gtk_widget_hide (GTK_WIDGET (dialog->bar));
  gtk_progress_bar_set_fraction (dialog->bar, CLAMP (fl_planning_fraction (dialog->planning), 0.0, 1.0));
  gtk_progress_bar_set_text (dialog->bar, fl_planning_text (dialog->planning));
}

/* The proposal of the selected row; NULL for none. */
static const FlProposal *
selected (FlTrailersDialog *dialog)
{
  GtkTreeModel *model;
  GtkTreeIter iter;
  g_autoptr(GtkTreePath) path = NULL;

  if (dialog->ranking == NULL || !gtk_tree_selection_get_selected (gtk_tree_view_get_selection (dialog->tree), &model, &iter))
    return NULL;
  path = gtk_tree_model_get_path (model, &iter);
  return g_ptr_array_index (dialog->ranking, (guint) gtk_tree_path_get_indices (path)[0]);
}

static void
on_selection_changed (GtkTreeSelection *selection, FlTrailersDialog *dialog)
{
  const FlProposal *proposal = selected (dialog);

  (void) selection;
  gtk_dialog_set_response_sensitive (GTK_DIALOG (dialog), RESPONSE_TAKE, proposal != NULL && proposal->best != NULL);
}

static void
on_row_activated (FlTrailersDialog *dialog)
{
  const FlProposal *proposal = selected (dialog);

  if (proposal != NULL && proposal->best != NULL)
    gtk_dialog_response (GTK_DIALOG (dialog), RESPONSE_TAKE);
}

static void
on_response (FlTrailersDialog *dialog, gint response)
{
  const FlProposal *proposal = selected (dialog);
  g_autofree char *name = NULL;

  if (response == RESPONSE_TAKE && proposal != NULL && proposal->best != NULL)
    {
      g_autoptr(FlPlan) plan = fl_plan_ref (fl_assessment_plan (proposal->best));

      name = g_strdup_printf (_("Trailer %s for %s"), proposal->trailer, dialog->move);
      fl_desk_take_plan (dialog->desk, name, dialog->move, plan);
    }
  else if (dialog->ranking == NULL)
    fl_planning_cancel (dialog->planning);
  gtk_widget_destroy (GTK_WIDGET (dialog));
}

GtkWidget *
fl_trailers_dialog_new (GtkWindow *parent, FlDesk *desk, FlPlanning *planning, const char *move)
{
  FlTrailersDialog *dialog = g_object_new (FL_TYPE_TRAILERS_DIALOG, "transient-for", parent, "modal", TRUE, "use-header-bar", FALSE, NULL);
  g_autofree char *title = g_strdup_printf (_("Trailers for %s"), move);

  dialog->desk = g_object_ref (desk);
  dialog->planning = g_object_ref (planning);
  dialog->move = g_strdup (move);
  gtk_label_set_text (dialog->title, title);
  g_signal_connect_object (planning, "changed", G_CALLBACK (show_progress), dialog, G_CONNECT_SWAPPED);
  g_signal_connect_object (planning, "ranked", G_CALLBACK (show_ranking), dialog, G_CONNECT_SWAPPED);
  show_ranking (dialog);
  if (dialog->ranking == NULL)
    fl_planning_trailers (planning, move);
  return GTK_WIDGET (dialog);
}

static void
fl_trailers_dialog_dispose (GObject *object)
{
  FlTrailersDialog *dialog = FL_TRAILERS_DIALOG (object);

  g_clear_pointer (&dialog->ranking, g_ptr_array_unref);
  g_clear_pointer (&dialog->move, g_free);
  g_clear_object (&dialog->desk);
  g_clear_object (&dialog->planning);
  G_OBJECT_CLASS (fl_trailers_dialog_parent_class)->dispose (object);
}

static void
fl_trailers_dialog_class_init (FlTrailersDialogClass *klass)
{
  GtkWidgetClass *widget = GTK_WIDGET_CLASS (klass);

  g_type_ensure (FL_TYPE_VERDICT_CELL);
  G_OBJECT_CLASS (klass)->dispose = fl_trailers_dialog_dispose;
  gtk_widget_class_set_template_from_resource (widget, "/org/fairlead/Fairlead/fl-trailers-dialog.ui");
  gtk_widget_class_bind_template_child (widget, FlTrailersDialog, title);
  gtk_widget_class_bind_template_child (widget, FlTrailersDialog, bar);
  gtk_widget_class_bind_template_child (widget, FlTrailersDialog, tree);
  gtk_widget_class_bind_template_child (widget, FlTrailersDialog, store);
  gtk_widget_class_bind_template_callback (widget, on_response);
  gtk_widget_class_bind_template_callback (widget, on_row_activated);
  gtk_widget_class_bind_template_callback (widget, on_selection_changed);
}

static void
fl_trailers_dialog_init (FlTrailersDialog *dialog)
{
  gtk_widget_init_template (GTK_WIDGET (dialog));
  fl_columns_follow_text (dialog->tree, 10.0);
  gtk_dialog_set_response_sensitive (GTK_DIALOG (dialog), RESPONSE_TAKE, FALSE);
}
