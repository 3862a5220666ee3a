/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The table of the tie-downs. */
#include <glib/gi18n.h>

#include "fl-ties-view.h"

#include "fl-columns.h"
#include "fl-part-words.h"
#include "fl-phrases.h"

struct _FlTiesView
{
  GtkScrolledWindow parent_instance;
  FlDesk *desk;
  GtkTreeView *tree;
  GtkListStore *store;
  gboolean filling;
};

G_DEFINE_FINAL_TYPE (FlTiesView, fl_ties_view, GTK_TYPE_SCROLLED_WINDOW)

enum
{
  COLUMN_NO, COLUMN_FROM, COLUMN_TO, COLUMN_GEAR, COLUMN_BINDER, COLUMN_RUN, COLUMN_ANGLES, COLUMN_LIMIT, COLUMN_COUNTS, COLUMN_WEAKEST, COLUMN_TIP
};

/* "C-H38-16 #1" and what hangs between. (transfer full) */
static char *
gear_text (const FlTieDown *tie)
{
  g_autoptr(GString) text = g_string_new (tie->chain != NULL ? tie->chain : tie->strap != NULL ? tie->strap : "–");

  for (guint i = 0; i < tie->n_connectors; i++)
    g_string_append_printf (text, " + %s", tie->connectors[i].id);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* "38° / 44°": off the deck, and seen from above off the trailer's length. (transfer full) */
static char *
angles_text (const FlTieResult *result)
{
  if (!fl_quantity_known (result->deck_angle) || !fl_quantity_known (result->plan_angle))
    return g_strdup ("–");
  return g_strdup_printf ("%.0f° / %.0f°", fl_quantity_in (result->deck_angle, FL_UNIT_DEG), fl_quantity_in (result->plan_angle, FL_UNIT_DEG));
}

static char *
length_text (FlQuantity length, gboolean metric)
{
  return fl_quantity_known (length) ? fl_quantity_format (length, metric, TRUE, FL_ROUND_NEAREST) : g_strdup ("–");
}

static char *
from_text (const FlAssessment *assessment, const FlTieDown *tie)
{
  const FlPlanChoices *choices = fl_plan_choices (fl_assessment_plan (assessment));
  g_autofree char *from = fl_phrase_from (assessment, tie);

  if (choices->n_loads > 1 && tie->load < choices->n_loads)
    return g_strdup_printf ("%s: %s", choices->loads[tie->load].id, from);
  return g_steal_pointer (&from);
}

static void
fill_row (FlTiesView *view, GtkTreeIter *iter, const FlAssessment *assessment, gsize index)
{
  const gboolean metric = fl_desk_metric (view->desk);
  const FlTieDown *tie = &fl_plan_choices (fl_assessment_plan (assessment))->tie_downs[index];
  const FlTieResult *result = &fl_assessment_parts (assessment)->ties[index];
  g_autofree char *from = from_text (assessment, tie);
  g_autofree char *to = fl_phrase_to (tie);
  g_autofree char *gear = gear_text (tie);
  g_autofree char *run = length_text (result->run, metric);
  g_autofree char *angles = angles_text (result);
  g_autofree char *limit = fl_phrase_weight (result->wll, metric, FL_ROUND_DOWN);
  g_autofree char *counts = tie->purpose == FL_FOR_IMPLEMENT ? g_strdup (_("tool")) : fl_phrase_weight (result->counts, metric, FL_ROUND_DOWN);
  g_autofree char *weakest = fl_part_words (fl_desk_words (view->desk), result->limited_by, TRUE);
  g_autofree char *tip = g_markup_printf_escaped (_("%s to %s\n%s\nWeakest part: %s"), from, to, result->gear_text != NULL ? result->gear_text : gear,
                                                  weakest);

  gtk_list_store_set (view->store, iter, COLUMN_NO, tie->no, COLUMN_FROM, from, COLUMN_TO, to, COLUMN_GEAR, gear, COLUMN_BINDER,
                      tie->binder != NULL ? tie->binder : "–", COLUMN_RUN, run, COLUMN_ANGLES, angles, COLUMN_LIMIT, limit, COLUMN_COUNTS, counts,
                      COLUMN_WEAKEST, weakest, COLUMN_TIP, tip, -1);
}

static void
show_tie (FlTiesView *view)
{
  const gint tie = fl_desk_tie (view->desk);

  if (view->filling)
    return;
  view->filling = TRUE;
  if (tie < 0)
    gtk_tree_selection_unselect_all (gtk_tree_view_get_selection (view->tree));
  else
    {
      g_autoptr(GtkTreePath) path = gtk_tree_path_new_from_indices (tie, -1);

      gtk_tree_view_set_cursor (view->tree, path, NULL, FALSE);
    }
  view->filling = FALSE;
}

static void
show (FlTiesView *view)
{
  const FlOutcome *outcome = fl_desk_selected_outcome (view->desk);
  const FlAssessment *assessment = outcome != NULL ? fl_outcome_shown (outcome) : NULL;
  const gsize n = assessment != NULL ? fl_assessment_parts (assessment)->n_ties : 0;

  view->filling = TRUE;
  gtk_list_store_clear (view->store);
  for (gsize i = 0; i < n; i++)
    {
      GtkTreeIter iter;

      gtk_list_store_append (view->store, &iter);
      fill_row (view, &iter, assessment, i);
    }
  view->filling = FALSE;
  show_tie (view);
}

static void
show_outcome (FlTiesView *view, const char *move)
{
  const FlMove *selected = fl_desk_move (view->desk);

  if (selected != NULL && g_strcmp0 (selected->id, move) == 0)
    show (view);
}

static void
on_selection_changed (GtkTreeSelection *selection, FlTiesView *view)
{
  GtkTreeModel *model;
  GtkTreeIter iter;

  if (view->filling || view->desk == NULL || !gtk_tree_selection_get_selected (selection, &model, &iter))
    return;
  {
    g_autoptr(GtkTreePath) path = gtk_tree_model_get_path (model, &iter);

    view->filling = TRUE;
    fl_desk_choose_tie (view->desk, gtk_tree_path_get_indices (path)[0]);
    view->filling = FALSE;
  }
}

void
fl_ties_view_show (FlTiesView *view, FlDesk *desk)
{
  view->desk = g_object_ref (desk);
  g_signal_connect_object (desk, "day", G_CALLBACK (show), view, G_CONNECT_SWAPPED);
  g_signal_connect_object (desk, "move", G_CALLBACK (show), view, G_CONNECT_SWAPPED);
  g_signal_connect_object (desk, "outcome", G_CALLBACK (show_outcome), view, G_CONNECT_SWAPPED);
  g_signal_connect_object (desk, "tie", G_CALLBACK (show_tie), view, G_CONNECT_SWAPPED);
  g_signal_connect_object (desk, "units", G_CALLBACK (show), view, G_CONNECT_SWAPPED);
}

void
fl_ties_view_focus (FlTiesView *view)
{
  gtk_widget_grab_focus (GTK_WIDGET (view->tree));
}

static void
fl_ties_view_dispose (GObject *object)
{
  g_clear_object (&FL_TIES_VIEW (object)->desk);
  G_OBJECT_CLASS (fl_ties_view_parent_class)->dispose (object);
}

static void
fl_ties_view_class_init (FlTiesViewClass *klass)
{
  GtkWidgetClass *widget = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = fl_ties_view_dispose;
  gtk_widget_class_set_template_from_resource (widget, "/org/fairlead/Fairlead/fl-ties-view.ui");
  gtk_widget_class_bind_template_child (widget, FlTiesView, tree);
  gtk_widget_class_bind_template_child (widget, FlTiesView, store);
  gtk_widget_class_bind_template_callback (widget, on_selection_changed);
}

static void
fl_ties_view_init (FlTiesView *view)
{
  gtk_widget_init_template (GTK_WIDGET (view));
  fl_columns_follow_text (view->tree, 9.0);
}
