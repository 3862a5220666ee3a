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
  GtkExpander *how;
  GtkBox *steps;
  gint tie;
  FlAssessment *assessment;     /* whose finding it is */
  const FlFinding *finding;
  const FlWords *words;
  gboolean metric, told;        /* its steps are there */
};

G_DEFINE_FINAL_TYPE (FlFindingRow, fl_finding_row, GTK_TYPE_LIST_BOX_ROW)

static void
set_or_hide (GtkLabel *label, const char *text)
{
  gtk_label_set_text (label, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (label), text != NULL && *text != '\0');
}

static void
add_step (FlFindingRow *row, const FlMessage *step, const FlWords *words, gboolean metric)
{
  g_autofree char *text = fl_phrase_message (words, step, metric);
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0.0f);
  gtk_label_set_line_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_line_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_width_chars (GTK_LABEL (label), 20);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 60);
  gtk_widget_show (label);
  gtk_container_add (GTK_CONTAINER (row->steps), label);
}

/* How its figures come about, put into words when somebody asks: a list of fifty closed rows is light to build and to read aloud. The first line is
 * there from the beginning: the toolkit measures an expander with nothing in it wrongly. */
static void
on_asked (FlFindingRow *row)
{
  if (row->told || row->finding == NULL || !gtk_expander_get_expanded (row->how))
    return;
  row->told = TRUE;
  for (gsize i = 1; i < row->finding->n_steps; i++)
    add_step (row, &row->finding->steps[i], row->words, row->metric);
}

static void
offer_steps (FlFindingRow *row)
{
  g_autofree char *name = NULL;

  if (row->finding->n_steps == 0)
    return;
  name = g_strdup_printf (_("How it comes about: %s: %s"), row->finding->subject != NULL ? row->finding->subject : "",
                          gtk_label_get_text (row->sentence));
  atk_object_set_name (gtk_widget_get_accessible (GTK_WIDGET (row->how)), name);
  add_step (row, &row->finding->steps[0], row->words, row->metric);
  gtk_widget_show (GTK_WIDGET (row->how));
}

FlFindingRow *
fl_finding_row_new (const FlAssessment *assessment, const FlFinding *finding, const FlWords *words, gboolean metric)
{
  FlFindingRow *row = g_object_new (FL_TYPE_FINDING_ROW, NULL);
  g_autofree char *sentence = fl_phrase_finding (words, finding, metric);
  g_autofree char *figures = fl_phrase_need_have (finding, metric);
  g_autofree char *source = g_strdup_printf ("%s · %s", fl_words_standing (words, finding->standing), fl_phrase_citation (finding));
  const char *verdict = fl_words_verdict (words, finding->verdict);
  g_autofree char *name = NULL;

  row->tie = finding->tie_down;
  row->assessment = fl_assessment_ref (assessment);
  row->finding = finding;
  row->words = words != NULL ? fl_words_ref (words) : NULL;
  row->metric = metric;
  gtk_image_set_from_icon_name (row->icon, fl_verdict_icon (finding->verdict), GTK_ICON_SIZE_MENU);
  gtk_label_set_text (row->verdict, verdict);
  set_or_hide (row->subject, finding->subject);
  gtk_label_set_text (row->sentence, sentence);
  set_or_hide (row->figures, figures);
  gtk_label_set_text (row->source, source);
  offer_steps (row);
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

void
fl_finding_row_toggle (FlFindingRow *row)
{
  if (gtk_widget_get_visible (GTK_WIDGET (row->how)))
    gtk_expander_set_expanded (row->how, !gtk_expander_get_expanded (row->how));
}

static void
fl_finding_row_dispose (GObject *object)
{
  FlFindingRow *row = FL_FINDING_ROW (object);

  row->finding = NULL;          /* the assessment's own */
  g_clear_pointer (&row->assessment, fl_assessment_unref);
  g_clear_pointer ((FlWords **) &row->words, fl_words_unref);
  G_OBJECT_CLASS (fl_finding_row_parent_class)->dispose (object);
}

static void
fl_finding_row_class_init (FlFindingRowClass *klass)
{
  GtkWidgetClass *widget = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = fl_finding_row_dispose;
  gtk_widget_class_set_template_from_resource (widget, "/org/fairlead/Fairlead/fl-finding-row.ui");
  gtk_widget_class_bind_template_child (widget, FlFindingRow, icon);
  gtk_widget_class_bind_template_child (widget, FlFindingRow, verdict);
  gtk_widget_class_bind_template_child (widget, FlFindingRow, subject);
  gtk_widget_class_bind_template_child (widget, FlFindingRow, sentence);
  gtk_widget_class_bind_template_child (widget, FlFindingRow, figures);
  gtk_widget_class_bind_template_child (widget, FlFindingRow, source);
  gtk_widget_class_bind_template_child (widget, FlFindingRow, how);
  gtk_widget_class_bind_template_child (widget, FlFindingRow, steps);
}

static void
fl_finding_row_init (FlFindingRow *row)
{
  row->tie = -1;
  gtk_widget_init_template (GTK_WIDGET (row));
  /* The toolkit tells screen readers that the content of a closed expander is seen. */
  g_signal_connect_object (row->how, "notify::expanded", G_CALLBACK (on_asked), row, G_CONNECT_SWAPPED);
  g_object_bind_property (row->how, "expanded", row->steps, "visible", G_BINDING_SYNC_CREATE);
}
