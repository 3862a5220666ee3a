/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The heading of the selected move, its drawing, and what is shown where there is nothing to draw. */
#include <glib/gi18n.h>

#include "fl-deck-view.h"

#include "fl-phrases.h"

struct _FlDeckView
{
  GtkBox parent_instance;
  FlDesk *desk;
  GtkLabel *title, *subtitle, *place, *empty_title, *empty_text, *nearest;
  GtkImage *empty_icon;
  GtkStack *stack;
  FlDeckCanvas *canvas;
  GtkButton *plan;
};

G_DEFINE_FINAL_TYPE (FlDeckView, fl_deck_view, GTK_TYPE_BOX)

static void
show_heading (FlDeckView *view, const FlMove *move)
{
  const FlFleet *fleet = fl_desk_fleet (view->desk);
  g_autofree char *ids = fl_phrase_load_ids (move);
  g_autofree char *names = fl_phrase_load_names (fleet, move);
  g_autofree char *rig = fl_phrase_rig (fleet, move, fl_office_plan (fl_desk_office (view->desk), move->id));
  g_autofree char *journey = fl_phrase_journey (move, fl_desk_metric (view->desk));
  g_autofree char *title = g_markup_printf_escaped ("<b>%s</b>  %s", ids, names);
  g_autofree char *subtitle = g_strdup_printf ("%s%s%s · %s", move->depart_text != NULL ? move->depart_text : "",
                                               move->depart_text != NULL ? " " : "", journey, rig);

  gtk_label_set_markup (view->title, title);
  gtk_label_set_text (view->subtitle, subtitle);
}

/* "EX-33 faces forward, its rear end 4 ft from the rear of the deck." */
static char *
place_text (const FlAssessment *assessment, gboolean metric)
{
  const FlAssessmentParts *parts = fl_assessment_parts (assessment);
  const FlPlanChoices *choices = fl_plan_choices (parts->plan);
  g_autoptr(GString) text = g_string_new (NULL);

  for (gsize i = 0; i < parts->n_loads && i < choices->n_loads; i++)
    {
      const FlPlanLoad *load = &choices->loads[i];
      g_autofree char *rear = fl_phrase_tape ((FlQuantity) { ABS (load->rear.value), load->rear.unit }, metric, FL_ROUND_NEAREST);

      if (!parts->loads[i].placed)
        continue;
      g_string_append (text, text->len > 0 ? "  " : "");
      g_string_append_printf (text,
                              load->facing == FL_FORWARD
                                ? load->rear.value < 0.0 ? _("%s faces forward, %s behind the main deck's rear edge.")
                                                         : _("%s faces forward, %s from the main deck's rear edge.")
                              : load->rear.value < 0.0 ? _("%s faces rearward, %s behind the main deck's rear edge.")
                                                       : _("%s faces rearward, %s from the main deck's rear edge."),
                              load->id, rear);
      if (parts->loads[i].position != NULL)
        g_string_append_printf (text, _(" Position: %s."), parts->loads[i].position);
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static void
show_empty (FlDeckView *view, const FlOutcome *outcome)
{
  g_autofree char *words = fl_outcome_words (outcome);

  gtk_image_set_from_icon_name (view->empty_icon, fl_outcome_icon (outcome), GTK_ICON_SIZE_DIALOG);
  gtk_image_set_pixel_size (view->empty_icon, 48);
  gtk_label_set_text (view->empty_title, words);
  gtk_label_set_text (view->empty_text,
                      outcome->state == FL_STATE_MISFIT   ? outcome->misfit
                      : outcome->state == FL_STATE_CANNOT ? _("Nothing could be laid out. The reasons stand under Why.")
                                                          : _("Planning chooses the place on the deck, the points, the anchors and the gear "
                                                              "from what is on hand at that time."));
  gtk_stack_set_visible_child_name (view->stack, "empty");
}

static void
show (FlDeckView *view)
{
  const FlMove *move = fl_desk_move (view->desk);
  const FlOutcome *outcome = fl_desk_selected_outcome (view->desk);
  const FlAssessment *assessment = outcome != NULL ? fl_outcome_shown (outcome) : NULL;
  g_autofree char *place = assessment != NULL ? place_text (assessment, fl_desk_metric (view->desk)) : NULL;

  if (move == NULL)
    {
      gtk_label_set_text (view->title, "");
      gtk_label_set_text (view->subtitle, "");
      gtk_stack_set_visible_child_name (view->stack, "nothing");
    }
  else
    show_heading (view, move);
  gtk_label_set_text (view->place, place != NULL ? place : "");
  gtk_widget_set_visible (GTK_WIDGET (view->place), place != NULL && *place != '\0');
  gtk_widget_set_visible (GTK_WIDGET (view->nearest), outcome != NULL && outcome->assessment == NULL && assessment != NULL);
  if (assessment != NULL)
    gtk_stack_set_visible_child_name (view->stack, "drawing");
  else if (outcome != NULL)
    show_empty (view, outcome);
}

static void
show_outcome (FlDeckView *view, const char *move)
{
  const FlMove *selected = fl_desk_move (view->desk);

  if (selected != NULL && g_strcmp0 (selected->id, move) == 0)
    show (view);
}

void
fl_deck_view_show (FlDeckView *view, FlDesk *desk)
{
  view->desk = g_object_ref (desk);
  fl_deck_canvas_show (view->canvas, desk);
  g_signal_connect_object (desk, "day", G_CALLBACK (show), view, G_CONNECT_SWAPPED);
  g_signal_connect_object (desk, "move", G_CALLBACK (show), view, G_CONNECT_SWAPPED);
  g_signal_connect_object (desk, "outcome", G_CALLBACK (show_outcome), view, G_CONNECT_SWAPPED);
  g_signal_connect_object (desk, "units", G_CALLBACK (show), view, G_CONNECT_SWAPPED);
}

void
fl_deck_view_focus (FlDeckView *view)
{
  const gboolean drawn = g_strcmp0 (gtk_stack_get_visible_child_name (view->stack), "drawing") == 0;

  gtk_widget_grab_focus (drawn ? GTK_WIDGET (view->canvas) : GTK_WIDGET (view->plan));
}

FlDeckCanvas *
fl_deck_view_canvas (FlDeckView *view)
{
  return view->canvas;
}

static void
fl_deck_view_dispose (GObject *object)
{
  g_clear_object (&FL_DECK_VIEW (object)->desk);
  G_OBJECT_CLASS (fl_deck_view_parent_class)->dispose (object);
}

static void
fl_deck_view_class_init (FlDeckViewClass *klass)
{
  GtkWidgetClass *widget = GTK_WIDGET_CLASS (klass);

  g_type_ensure (FL_TYPE_DECK_CANVAS);
  G_OBJECT_CLASS (klass)->dispose = fl_deck_view_dispose;
  gtk_widget_class_set_template_from_resource (widget, "/org/fairlead/Fairlead/fl-deck-view.ui");
  gtk_widget_class_bind_template_child (widget, FlDeckView, title);
  gtk_widget_class_bind_template_child (widget, FlDeckView, subtitle);
  gtk_widget_class_bind_template_child (widget, FlDeckView, place);
  gtk_widget_class_bind_template_child (widget, FlDeckView, nearest);
  gtk_widget_class_bind_template_child (widget, FlDeckView, stack);
  gtk_widget_class_bind_template_child (widget, FlDeckView, canvas);
  gtk_widget_class_bind_template_child (widget, FlDeckView, empty_icon);
  gtk_widget_class_bind_template_child (widget, FlDeckView, empty_title);
  gtk_widget_class_bind_template_child (widget, FlDeckView, empty_text);
  gtk_widget_class_bind_template_child (widget, FlDeckView, plan);
}

static void
fl_deck_view_init (FlDeckView *view)
{
  gtk_widget_init_template (GTK_WIDGET (view));
}
