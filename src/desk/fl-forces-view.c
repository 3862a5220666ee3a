/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tables of forces and tensions. Their columns follow the assessment, so they are made here and not in the template. */
#include <glib/gi18n.h>

#include "fl-forces-view.h"

#include "fl-columns.h"
#include "fl-force-table.h"

/* Text columns of the store, then the tie-down's number, then the row in full sentences. */
enum { N_TEXTS = FL_FORCE_N_COLUMNS, STORE_NO = N_TEXTS, STORE_TIP, N_STORE };
enum { TENSION_LOAD, TENSION_LEVEL, TENSION_FRICTION, TENSION_NO, TENSION_CASES };

struct _FlForcesView
{
  GtkBox parent_instance;
  FlDesk *desk;
  GtkLabel *advice, *none;
  GtkWidget *scrolled;
  GtkTreeView *tree;
  GtkListStore *store;
  gboolean tensions, filling;
};

G_DEFINE_FINAL_TYPE (FlForcesView, fl_forces_view, GTK_TYPE_BOX)

/* ── columns ── */

/* Pixels at the usual size of text. */
static const gint force_widths[N_TEXTS] = { 64, 60, 76, 76, 62, 108, 98, 116, 116, 110, 90, 104 };
static const gint tension_widths[N_TEXTS] = { 64, 64, 84, 40, 118, 118, 118, 118, 118, 118, 118, 118 };

static gboolean
is_number (const FlForcesView *view, guint column)
{
  return view->tensions ? column >= TENSION_NO : column == FL_FORCE_DEMAND || column == FL_FORCE_SUM || column == FL_FORCE_BOUND || column == FL_FORCE_SHARED;
}

static void
make_columns (FlForcesView *view)
{
  for (guint i = 0; i < N_TEXTS; i++)
    {
      const gfloat xalign = is_number (view, i) ? 1.0f : 0.0f;
      GtkCellRenderer *cell = gtk_cell_renderer_text_new ();
      GtkTreeViewColumn *column = gtk_tree_view_column_new_with_attributes ("", cell, "text", i, NULL);

      g_object_set (cell, "xalign", xalign, "xpad", 6, "ypad", 3, NULL);
      g_object_set (column, "alignment", xalign, "sizing", GTK_TREE_VIEW_COLUMN_FIXED, "resizable", TRUE, "fixed-width",
                    view->tensions ? tension_widths[i] : force_widths[i], NULL);
      gtk_tree_view_append_column (view->tree, column);
    }
  gtk_tree_view_set_fixed_height_mode (view->tree, TRUE);
  fl_columns_follow_text (view->tree, 9.0);
}

static void
head_column (FlForcesView *view, guint i, const char *title, gboolean visible)
{
  GtkTreeViewColumn *column = gtk_tree_view_get_column (view->tree, (gint) i);

  gtk_tree_view_column_set_title (column, title);
  gtk_tree_view_column_set_visible (column, visible);
}

/* ── rows ── */

static const char *
load_id (const FlAssessmentParts *parts, guint load)
{
  return load < parts->n_loads ? parts->loads[load].id : NULL;
}

static void
set_text (FlForcesView *view, GtkTreeIter *iter, guint column, char *text)
{
  gtk_list_store_set (view->store, iter, column, text, -1);
  g_free (text);
}

/* The load has a column where there are several. */
static guint
show_forces (FlForcesView *view, const FlAssessmentParts *parts)
{
  const FlWords *words = fl_desk_words (view->desk);
  g_autoptr(GArray) rows = fl_force_rows (parts);

  for (guint column = 0; column < N_TEXTS; column++)
    head_column (view, column, fl_force_head (words, column), column != FL_FORCE_LOAD || parts->n_loads > 1);
  for (guint i = 0; i < rows->len; i++)
    {
      const FlForceRow *row = &g_array_index (rows, FlForceRow, i);
      GtkTreeIter iter;

      gtk_list_store_append (view->store, &iter);
      for (guint column = 0; column < N_TEXTS; column++)
        set_text (view, &iter, column, fl_force_cell (words, row, load_id (parts, row->load), column, fl_desk_metric (view->desk)));
      set_text (view, &iter, STORE_TIP, fl_force_sentence (words, row, fl_desk_metric (view->desk)));
      gtk_list_store_set (view->store, &iter, STORE_NO, row->most_used, -1);
    }
  return rows->len;
}

static void
head_tensions (FlForcesView *view, const FlAssessmentParts *parts, const GPtrArray *cases)
{
  const FlWords *words = fl_desk_words (view->desk);

  head_column (view, TENSION_LOAD, fl_force_head (words, FL_FORCE_LOAD), parts->n_loads > 1);
  head_column (view, TENSION_LEVEL, fl_force_head (words, FL_FORCE_LEVEL), TRUE);
  head_column (view, TENSION_FRICTION, fl_force_head (words, FL_FORCE_FRICTION), TRUE);
  head_column (view, TENSION_NO, _("No"), TRUE);
  for (guint k = 0; TENSION_CASES + k < N_TEXTS; k++)
    head_column (view, TENSION_CASES + k, k < cases->len ? fl_force_case_word (words, g_ptr_array_index (cases, k)) : "", k < cases->len);
}

static void
fill_tension (FlForcesView *view, const FlAssessmentParts *parts, const FlTensionRow *row, const GPtrArray *cases)
{
  const FlWords *words = fl_desk_words (view->desk);
  g_autofree char *tip = g_strdup_printf (_("Tie-down %u: what it carries by load sharing at what is wanted, and the share of its limit"), row->no);
  GtkTreeIter iter;

  gtk_list_store_append (view->store, &iter);
  gtk_list_store_set (view->store, &iter, TENSION_LOAD, load_id (parts, row->load), TENSION_LEVEL, fl_force_level_word (words, row->level),
                      TENSION_FRICTION, fl_force_friction_word (words, row->friction), STORE_NO, row->no, STORE_TIP, tip, -1);
  set_text (view, &iter, TENSION_NO, g_strdup_printf ("%u", row->no));
  for (guint k = 0; k < cases->len; k++)
    set_text (view, &iter, TENSION_CASES + k, fl_tension_cell (row->of[k], fl_desk_metric (view->desk)));
}

static guint
show_tensions (FlForcesView *view, const FlAssessmentParts *parts)
{
  g_autoptr(GPtrArray) cases = fl_force_cases (parts);
  g_autoptr(GArray) rows = fl_tension_rows (parts);

  head_tensions (view, parts, cases);
  for (guint i = 0; i < rows->len; i++)
    fill_tension (view, parts, &g_array_index (rows, FlTensionRow, i), cases);
  return rows->len;
}

static void
show (FlForcesView *view)
{
  const FlOutcome *outcome = fl_desk_selected_outcome (view->desk);
  const FlAssessment *assessment = outcome != NULL ? fl_outcome_shown (outcome) : NULL;
  guint n = 0;

  view->filling = TRUE;
  gtk_list_store_clear (view->store);
  if (assessment != NULL)
    n = view->tensions ? show_tensions (view, fl_assessment_parts (assessment)) : show_forces (view, fl_assessment_parts (assessment));
  view->filling = FALSE;
  gtk_widget_set_visible (view->scrolled, n > 0);
  gtk_widget_set_visible (GTK_WIDGET (view->advice), n > 0);
  gtk_widget_set_visible (GTK_WIDGET (view->none), n == 0);
  gtk_label_set_text (view->none, assessment == NULL ? _("Forces are worked out for a plan.") : _("No forces are worked out for this plan: the findings say what is missing."));
}

static void
show_outcome (FlForcesView *view, const char *move)
{
  const FlMove *selected = fl_desk_move (view->desk);

  if (selected != NULL && g_strcmp0 (selected->id, move) == 0)
    show (view);
}

/* ── selecting ── */

/* A row selects the tie-down that it speaks of: its own, or the one most used. */
static void
on_selection_changed (GtkTreeSelection *selection, FlForcesView *view)
{
  const FlOutcome *outcome = view->desk != NULL ? fl_desk_selected_outcome (view->desk) : NULL;
  const FlAssessment *assessment = outcome != NULL ? fl_outcome_shown (outcome) : NULL;
  GtkTreeModel *model;
  GtkTreeIter iter;
  guint no;

  if (view->filling || assessment == NULL || !gtk_tree_selection_get_selected (selection, &model, &iter))
    return;
  gtk_tree_model_get (model, &iter, STORE_NO, &no, -1);
  for (gsize i = 0; i < fl_assessment_parts (assessment)->n_ties; i++)
    if (fl_assessment_parts (assessment)->ties[i].no == no)
      fl_desk_choose_tie (view->desk, (gint) i);
}

/* ── the view ── */

void
fl_forces_view_show (FlForcesView *view, FlDesk *desk, gboolean tensions)
{
  AtkObject *accessible = gtk_widget_get_accessible (GTK_WIDGET (view->tree));

  view->desk = g_object_ref (desk);
  view->tensions = tensions;
  make_columns (view);
  gtk_label_set_text (view->advice, fl_force_advice (fl_desk_words (desk)));
  atk_object_set_name (accessible, tensions ? _("Tensions") : _("Forces"));
  atk_object_set_description (accessible, tensions ? _("Each row is a tie-down: what it carries in each direction, and the share of its limit.")
                                                   : _("Each row is a direction: what is wanted, and what the tie-downs hold by each method."));
  g_signal_connect_object (desk, "day", G_CALLBACK (show), view, G_CONNECT_SWAPPED);
  g_signal_connect_object (desk, "move", G_CALLBACK (show), view, G_CONNECT_SWAPPED);
  g_signal_connect_object (desk, "outcome", G_CALLBACK (show_outcome), view, G_CONNECT_SWAPPED);
  g_signal_connect_object (desk, "units", G_CALLBACK (show), view, G_CONNECT_SWAPPED);
}

gboolean
fl_forces_view_focus (FlForcesView *view)
{
  if (gtk_widget_get_visible (view->scrolled))
    gtk_widget_grab_focus (GTK_WIDGET (view->tree));
  return gtk_widget_get_visible (view->scrolled);
}

static void
fl_forces_view_dispose (GObject *object)
{
  g_clear_object (&FL_FORCES_VIEW (object)->desk);
  G_OBJECT_CLASS (fl_forces_view_parent_class)->dispose (object);
}

static void
fl_forces_view_class_init (FlForcesViewClass *klass)
{
  GtkWidgetClass *widget = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = fl_forces_view_dispose;
  gtk_widget_class_set_template_from_resource (widget, "/org/fairlead/Fairlead/fl-forces-view.ui");
  gtk_widget_class_bind_template_child (widget, FlForcesView, advice);
  gtk_widget_class_bind_template_child (widget, FlForcesView, none);
  gtk_widget_class_bind_template_child (widget, FlForcesView, scrolled);
  gtk_widget_class_bind_template_child (widget, FlForcesView, tree);
  gtk_widget_class_bind_template_callback (widget, on_selection_changed);
}

static void
fl_forces_view_init (FlForcesView *view)
{
  GType types[N_STORE];

  for (guint i = 0; i < N_STORE; i++)
    types[i] = i == STORE_NO ? G_TYPE_UINT : G_TYPE_STRING;
  gtk_widget_init_template (GTK_WIDGET (view));
  view->store = gtk_list_store_newv (N_STORE, types);
  gtk_tree_view_set_model (view->tree, GTK_TREE_MODEL (view->store));
  g_object_unref (view->store);
  gtk_tree_view_set_tooltip_column (view->tree, STORE_TIP);
}
