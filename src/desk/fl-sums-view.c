/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The sums of the selected move, large enough to be read from where one stands with a phone. */
#include <glib/gi18n.h>

#include "fl-sums-view.h"

#include "fl-part-words.h"
#include "fl-phrases.h"

struct _FlSumsView
{
  GtkBox parent_instance;
  FlDesk *desk;
  GtkImage *icon;
  GtkLabel *verdict, *height, *height_note, *gross, *width, *length, *weakest;
  GtkGrid *loads, *axles;
  GtkWidget *figures, *axles_box;
};

G_DEFINE_FINAL_TYPE (FlSumsView, fl_sums_view, GTK_TYPE_BOX)

static void
empty_grid (GtkGrid *grid)
{
  gtk_container_foreach (GTK_CONTAINER (grid), (GtkCallback) (void (*) (void)) gtk_widget_destroy, NULL);
}

static void
put_label (GtkGrid *grid, const char *text, gfloat xalign, const char *class_name, gint column, gint row)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), xalign);
  if (class_name != NULL)
    gtk_style_context_add_class (gtk_widget_get_style_context (label), class_name);
  gtk_widget_show (label);
  gtk_grid_attach (grid, label, column, row, 1, 1);
}

/* One line a load: weight, need, have. */
static void
show_loads (FlSumsView *view, const FlAssessmentParts *parts, gboolean metric)
{
  empty_grid (view->loads);
  put_label (view->loads, _("Weight"), 1.0, "dim-label", 1, 0);
  put_label (view->loads, _("Need"), 1.0, "dim-label", 2, 0);
  put_label (view->loads, _("Have"), 1.0, "dim-label", 3, 0);
  for (gsize i = 0; i < parts->n_loads; i++)
    {
      const FlLoadResult *load = &parts->loads[i];
      g_autofree char *weight = fl_phrase_weight (load->weight, metric, FL_ROUND_UP);
      g_autofree char *need = fl_phrase_weight (load->need, metric, FL_ROUND_UP);
      g_autofree char *have = fl_phrase_weight (load->have, metric, FL_ROUND_DOWN);

      put_label (view->loads, load->id, 0.0, "dim-label", 0, (gint) i + 1);
      put_label (view->loads, weight, 1.0, "fl-figure", 1, (gint) i + 1);
      put_label (view->loads, need, 1.0, "fl-figure", 2, (gint) i + 1);
      put_label (view->loads, have, 1.0, "fl-figure", 3, (gint) i + 1);
    }
}

static void
show_weakest (FlSumsView *view, const FlAssessmentParts *parts)
{
  g_autoptr(GString) text = g_string_new (NULL);

  for (gsize i = 0; i < parts->n_loads; i++)
    if (parts->loads[i].weakest != NULL)
      {
        g_autofree char *part = fl_part_words (fl_desk_words (view->desk), parts->loads[i].weakest, TRUE);

        g_string_append_printf (text, "%s%s", text->len > 0 ? "; " : "", part);
      }
  {
    g_autofree char *line = g_strdup_printf (_("Weakest part: %s"), text->len > 0 ? text->str : _("not known"));

    gtk_label_set_text (view->weakest, line);
  }
}

/* How well the height is known, and what the way allows. */
static void
show_height_note (FlSumsView *view, gboolean measured, gboolean metric)
{
  const FlMove *move = fl_desk_move (view->desk);
  const char *known = measured ? _("loaded height, measured") : _("loaded height, computed: measure it");

  if (move != NULL && fl_quantity_known (move->height_limit))
    {
      g_autofree char *limit = fl_phrase_tape (move->height_limit, metric, FL_ROUND_DOWN);
      g_autofree char *text = g_strdup_printf (_("%s\nthe way allows %s"), known, limit);

      gtk_label_set_text (view->height_note, text);
    }
  else
    gtk_label_set_text (view->height_note, known);
}

static void
show_sizes (FlSumsView *view, const FlAssessmentParts *parts, gboolean metric)
{
  g_autofree char *height = fl_phrase_tape (parts->sizes.height, metric, FL_ROUND_UP);
  g_autofree char *width = fl_phrase_tape (parts->sizes.width, metric, FL_ROUND_UP);
  g_autofree char *length = fl_phrase_tape (parts->sizes.length, metric, FL_ROUND_UP);
  g_autofree char *gross = fl_phrase_weight (parts->sizes.gross, metric, FL_ROUND_UP);

  gtk_label_set_text (view->height, height);
  show_height_note (view, parts->sizes.height_measured, metric);
  gtk_label_set_text (view->gross, gross);
  gtk_label_set_text (view->width, width);
  gtk_label_set_text (view->length, length);
}

/* "truck 1" of the assessment in the language of the screen. (transfer full) */
static char *
axle_name (const char *axle)
{
  if (g_str_has_prefix (axle, "truck "))
    return g_strdup_printf (_("Truck axle %s"), axle + 6);
  if (g_str_has_prefix (axle, "trailer "))
    return g_strdup_printf (_("Trailer axle %s"), axle + 8);
  if (g_str_equal (axle, "coupling"))
    return g_strdup (_("Coupling"));
  return g_strdup (axle);
}

static char *
share_text (const FlAxleResult *axle)
{
  const double load = fl_quantity_in (axle->load, FL_UNIT_LB), rated = fl_quantity_in (axle->rated, FL_UNIT_LB);

  return fl_quantity_known (axle->load) && fl_quantity_known (axle->rated) && rated > 0.0 ? g_strdup_printf ("%.0f %%", 100.0 * load / rated)
                                                                                          : g_strdup ("–");
}

static void
show_axles (FlSumsView *view, const FlAssessmentParts *parts, gboolean metric)
{
  empty_grid (view->axles);
  gtk_widget_set_visible (view->axles_box, parts->n_axles > 0);
  put_label (view->axles, _("Load"), 1.0, "dim-label", 1, 0);
  put_label (view->axles, _("Rated"), 1.0, "dim-label", 2, 0);
  put_label (view->axles, _("Used"), 1.0, "dim-label", 3, 0);
  for (gsize i = 0; i < parts->n_axles; i++)
    {
      const FlAxleResult *axle = &parts->axles[i];
      g_autofree char *name = axle_name (axle->axle);
      g_autofree char *load = fl_phrase_weight (axle->load, metric, FL_ROUND_UP);
      g_autofree char *rated = fl_phrase_weight (axle->rated, metric, FL_ROUND_DOWN);
      g_autofree char *share = share_text (axle);

      put_label (view->axles, name, 0.0, NULL, 0, (gint) i + 1);
      put_label (view->axles, load, 1.0, NULL, 1, (gint) i + 1);
      put_label (view->axles, rated, 1.0, NULL, 2, (gint) i + 1);
      put_label (view->axles, share, 1.0, NULL, 3, (gint) i + 1);
    }
}

static void
show (FlSumsView *view)
{
  const FlOutcome *outcome = fl_desk_selected_outcome (view->desk);
  const FlAssessment *assessment = outcome != NULL ? outcome->assessment : NULL;
  const gboolean metric = fl_desk_metric (view->desk);
  g_autofree char *words = outcome != NULL ? fl_outcome_words (outcome) : g_strdup ("");

  gtk_label_set_text (view->verdict, words);
  gtk_image_set_from_icon_name (view->icon, outcome != NULL ? fl_outcome_icon (outcome) : NULL, GTK_ICON_SIZE_LARGE_TOOLBAR);
  gtk_widget_set_visible (view->figures, assessment != NULL);
  gtk_widget_set_visible (view->axles_box, assessment != NULL);
  if (assessment == NULL)
    return;
  show_loads (view, fl_assessment_parts (assessment), metric);
  show_weakest (view, fl_assessment_parts (assessment));
  show_sizes (view, fl_assessment_parts (assessment), metric);
  show_axles (view, fl_assessment_parts (assessment), metric);
}

static void
show_outcome (FlSumsView *view, const char *move)
{
  const FlMove *selected = fl_desk_move (view->desk);

  if (selected != NULL && g_strcmp0 (selected->id, move) == 0)
    show (view);
}

void
fl_sums_view_show (FlSumsView *view, FlDesk *desk)
{
  view->desk = g_object_ref (desk);
  g_signal_connect_object (desk, "day", G_CALLBACK (show), view, G_CONNECT_SWAPPED);
  g_signal_connect_object (desk, "move", G_CALLBACK (show), view, G_CONNECT_SWAPPED);
  g_signal_connect_object (desk, "outcome", G_CALLBACK (show_outcome), view, G_CONNECT_SWAPPED);
  g_signal_connect_object (desk, "units", G_CALLBACK (show), view, G_CONNECT_SWAPPED);
}

static void
fl_sums_view_dispose (GObject *object)
{
  g_clear_object (&FL_SUMS_VIEW (object)->desk);
  G_OBJECT_CLASS (fl_sums_view_parent_class)->dispose (object);
}

static void
fl_sums_view_class_init (FlSumsViewClass *klass)
{
  GtkWidgetClass *widget = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = fl_sums_view_dispose;
  gtk_widget_class_set_template_from_resource (widget, "/org/fairlead/Fairlead/fl-sums-view.ui");
  gtk_widget_class_bind_template_child (widget, FlSumsView, icon);
  gtk_widget_class_bind_template_child (widget, FlSumsView, verdict);
  gtk_widget_class_bind_template_child (widget, FlSumsView, figures);
  gtk_widget_class_bind_template_child (widget, FlSumsView, loads);
  gtk_widget_class_bind_template_child (widget, FlSumsView, weakest);
  gtk_widget_class_bind_template_child (widget, FlSumsView, height);
  gtk_widget_class_bind_template_child (widget, FlSumsView, height_note);
  gtk_widget_class_bind_template_child (widget, FlSumsView, gross);
  gtk_widget_class_bind_template_child (widget, FlSumsView, width);
  gtk_widget_class_bind_template_child (widget, FlSumsView, length);
  gtk_widget_class_bind_template_child (widget, FlSumsView, axles_box);
  gtk_widget_class_bind_template_child (widget, FlSumsView, axles);
}

static void
fl_sums_view_init (FlSumsView *view)
{
  gtk_widget_init_template (GTK_WIDGET (view));
}
