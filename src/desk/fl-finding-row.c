/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A row of the list of findings. */
#include <glib/gi18n.h>

#include "fl-finding-row.h"

#include "fl-phrases.h"

struct _FlFindingRow
{
  GtkListBoxRow parent_instance;
  GtkImage *icon;
  GtkLabel *verdict, *subject, *sentence, *figures, *source;
  gint tie;
};

G_DEFINE_FINAL_TYPE (FlFindingRow, fl_finding_row, GTK_TYPE_LIST_BOX_ROW)

static void
set_or_hide (GtkLabel *label, const char *text)
{
  gtk_label_set_text (label, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (label), text != NULL && *text != '\0');
}

FlFindingRow *
fl_finding_row_new (const FlFinding *finding, const FlWords *words, gboolean metric)
{
  FlFindingRow *row = g_object_new (FL_TYPE_FINDING_ROW, NULL);
  g_autofree char *sentence = fl_phrase_finding (words, finding, metric);
  g_autofree char *figures = fl_phrase_need_have (finding, metric);
  g_autofree char *source = g_strdup_printf ("%s · %s", fl_words_standing (words, finding->standing), fl_phrase_citation (finding));
  const char *verdict = fl_words_verdict (words, finding->verdict);
  g_autofree char *name = NULL;

  row->tie = finding->tie_down;
  gtk_image_set_from_icon_name (row->icon, fl_verdict_icon (finding->verdict), GTK_ICON_SIZE_MENU);
  gtk_label_set_text (row->verdict, verdict);
  set_or_hide (row->subject, finding->subject);
  gtk_label_set_text (row->sentence, sentence);
  set_or_hide (row->figures, figures);
  gtk_label_set_text (row->source, source);
  name = g_strdup_printf ("%s: %s: %s %s%s%s", verdict, finding->subject != NULL ? finding->subject : "", sentence,
                          figures != NULL ? figures : "", figures != NULL ? ", " : "", source);
  atk_object_set_name (gtk_widget_get_accessible (GTK_WIDGET (row)), name);
  if (!fl_finding_wants_attention (finding))
    gtk_style_context_add_class (gtk_widget_get_style_context (GTK_WIDGET (row)), "fl-quiet");
  return row;
}

gint
fl_finding_row_tie (FlFindingRow *row)
{
  return row->tie;
}

static void
fl_finding_row_class_init (FlFindingRowClass *klass)
{
  GtkWidgetClass *widget = GTK_WIDGET_CLASS (klass);

  gtk_widget_class_set_template_from_resource (widget, "/org/fairlead/Fairlead/fl-finding-row.ui");
  gtk_widget_class_bind_template_child (widget, FlFindingRow, icon);
  gtk_widget_class_bind_template_child (widget, FlFindingRow, verdict);
  gtk_widget_class_bind_template_child (widget, FlFindingRow, subject);
  gtk_widget_class_bind_template_child (widget, FlFindingRow, sentence);
  gtk_widget_class_bind_template_child (widget, FlFindingRow, figures);
  gtk_widget_class_bind_template_child (widget, FlFindingRow, source);
}

static void
fl_finding_row_init (FlFindingRow *row)
{
  row->tie = -1;
  gtk_widget_init_template (GTK_WIDGET (row));
}
