/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The findings of the selected move. */
#include <glib/gi18n.h>

#include "fl-why-view.h"

#include "fl-finding-row.h"
#include "fl-phrases.h"
#include "fl-reasons-view.h"
#include "fl-sums-view.h"

struct _FlWhyView
{
  GtkBox parent_instance;
  FlDesk *desk;
  FlSumsView *sums;
  FlReasonsView *reasons;
  GtkScrolledWindow *scrolled;
  GtkWidget *findings, *book;
  GtkLabel *count;
  GtkListBox *list;
  GtkLabel *placeholder;
  gboolean attention, filling;
};

G_DEFINE_FINAL_TYPE (FlWhyView, fl_why_view, GTK_TYPE_BOX)

static void
show_count (FlWhyView *view, const FlFinding *findings, gsize n)
{
  guint wanting = 0;
  g_autofree char *text = NULL;

  for (gsize i = 0; i < n; i++)
    wanting += fl_finding_wants_attention (&findings[i]);
  text = wanting == 0 ? g_strdup_printf (_("%u requirements, none needs attention"), (guint) n)
                      : g_strdup_printf (ngettext ("%u requirements, %u needs attention", "%u requirements, %u need attention", wanting), (guint) n,
                                         wanting);
  gtk_label_set_text (view->count, text);
}

static void
show_book (FlWhyView *view, const FlBookStamp *book)
{
  g_autofree char *text = g_strdup_printf (_("Judged by %s, edition %s"), book->title != NULL ? book->title : book->id,
                                           book->edition != NULL ? book->edition : "–");

  gtk_label_set_text (GTK_LABEL (view->book), text);
  gtk_widget_set_tooltip_text (view->book, text);
}

static void
fill_list (FlWhyView *view, const FlAssessment *assessment)
{
  gsize n;
  const FlFinding *findings = fl_assessment_findings (assessment, &n);

  for (gsize i = 0; i < n; i++)
    if (!view->attention || fl_finding_wants_attention (&findings[i]))
      gtk_container_add (GTK_CONTAINER (view->list),
                         GTK_WIDGET (fl_finding_row_new (assessment, &findings[i], fl_desk_words (view->desk), fl_desk_metric (view->desk))));
  show_count (view, findings, n);
  show_book (view, &fl_assessment_parts (assessment)->book);
}

static void
show (FlWhyView *view)
{
  const FlOutcome *outcome = fl_desk_selected_outcome (view->desk);
  const FlAssessment *assessment = outcome != NULL ? fl_outcome_shown (outcome) : NULL;

  view->filling = TRUE;
  gtk_container_foreach (GTK_CONTAINER (view->list), (GtkCallback) (void (*) (void)) gtk_widget_destroy, NULL);
  if (assessment != NULL)
    fill_list (view, assessment);
  view->filling = FALSE;
  gtk_widget_set_visible (view->findings, assessment != NULL);
  gtk_widget_set_visible (view->book, assessment != NULL);
  gtk_widget_set_visible (GTK_WIDGET (view->reasons), outcome != NULL && outcome->assessment == NULL);
}

static void
show_outcome (FlWhyView *view, const char *move)
{
  const FlMove *selected = fl_desk_move (view->desk);

  if (selected != NULL && g_strcmp0 (selected->id, move) == 0)
    show (view);
}

void
fl_why_view_set_attention (FlWhyView *view, gboolean attention)
{
  view->attention = attention;
  if (view->desk != NULL)
    show (view);
}

/* A finding that speaks of a tie-down shows which. */
static void
on_row_selected (GtkListBox *list, GtkListBoxRow *row, FlWhyView *view)
{
  (void) list;
  if (row != NULL && !view->filling && fl_finding_row_tie (FL_FINDING_ROW (row)) >= 0)
    fl_desk_choose_tie (view->desk, fl_finding_row_tie (FL_FINDING_ROW (row)));
}

/* What was opened is seen, from its beginning. */
static gboolean
bring_into_view (gpointer data)
{
  FlWhyView *view = data;
  GtkListBoxRow *row = gtk_list_box_get_selected_row (view->list);
  GtkAdjustment *adjustment = gtk_scrolled_window_get_vadjustment (view->scrolled);
  GtkWidget *content = gtk_bin_get_child (GTK_BIN (gtk_bin_get_child (GTK_BIN (view->scrolled))));
  gint x, y;

  if (row != NULL && gtk_widget_translate_coordinates (GTK_WIDGET (row), content, 0, 0, &x, &y))
    gtk_adjustment_clamp_page (adjustment, y, y + MIN (gtk_widget_get_allocated_height (GTK_WIDGET (row)), gtk_adjustment_get_page_size (adjustment)));
  return G_SOURCE_REMOVE;
}

/* Return or a double click; a single one on the line itself does the same. */
static void
on_row_activated (GtkListBox *list, GtkListBoxRow *row, FlWhyView *view)
{
  (void) list;
  fl_finding_row_toggle (FL_FINDING_ROW (row));
  g_idle_add_full (G_PRIORITY_LOW, bring_into_view, g_object_ref (view), g_object_unref);
}

void
fl_why_view_show (FlWhyView *view, FlDesk *desk)
{
  view->desk = g_object_ref (desk);
  fl_sums_view_show (view->sums, desk);
  fl_reasons_view_show (view->reasons, desk);
  g_signal_connect_object (desk, "day", G_CALLBACK (show), view, G_CONNECT_SWAPPED);
  g_signal_connect_object (desk, "move", G_CALLBACK (show), view, G_CONNECT_SWAPPED);
  g_signal_connect_object (desk, "outcome", G_CALLBACK (show_outcome), view, G_CONNECT_SWAPPED);
  g_signal_connect_object (desk, "units", G_CALLBACK (show), view, G_CONNECT_SWAPPED);
}

void
fl_why_view_focus (FlWhyView *view)
{
  GtkListBoxRow *row = gtk_list_box_get_selected_row (view->list);

  if (row == NULL)
    row = gtk_list_box_get_row_at_index (view->list, 0);
  if (row == NULL || !gtk_widget_get_visible (view->findings))
    gtk_widget_child_focus (GTK_WIDGET (view), GTK_DIR_TAB_FORWARD);
  else
    gtk_widget_grab_focus (GTK_WIDGET (row));
}

static void
fl_why_view_dispose (GObject *object)
{
  g_clear_object (&FL_WHY_VIEW (object)->desk);
  G_OBJECT_CLASS (fl_why_view_parent_class)->dispose (object);
}

static void
fl_why_view_class_init (FlWhyViewClass *klass)
{
  GtkWidgetClass *widget = GTK_WIDGET_CLASS (klass);

  g_type_ensure (FL_TYPE_SUMS_VIEW);
  g_type_ensure (FL_TYPE_REASONS_VIEW);
  G_OBJECT_CLASS (klass)->dispose = fl_why_view_dispose;
  gtk_widget_class_set_template_from_resource (widget, "/org/fairlead/Fairlead/fl-why-view.ui");
  gtk_widget_class_bind_template_child (widget, FlWhyView, scrolled);
  gtk_widget_class_bind_template_child (widget, FlWhyView, sums);
  gtk_widget_class_bind_template_child (widget, FlWhyView, reasons);
  gtk_widget_class_bind_template_child (widget, FlWhyView, findings);
  gtk_widget_class_bind_template_child (widget, FlWhyView, book);
  gtk_widget_class_bind_template_child (widget, FlWhyView, count);
  gtk_widget_class_bind_template_child (widget, FlWhyView, list);
  gtk_widget_class_bind_template_child (widget, FlWhyView, placeholder);
  gtk_widget_class_bind_template_callback (widget, on_row_selected);
  gtk_widget_class_bind_template_callback (widget, on_row_activated);
}

static void
fl_why_view_init (FlWhyView *view)
{
  gtk_widget_init_template (GTK_WIDGET (view));
  gtk_list_box_set_placeholder (view->list, GTK_WIDGET (view->placeholder));
}
