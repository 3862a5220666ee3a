/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What stands in the place of the sums while a move has no plan. */
#include <glib/gi18n.h>

#include "fl-reasons-view.h"

#include "fl-phrases.h"

struct _FlReasonsView
{
  GtkBox parent_instance;
  FlDesk *desk;
  GtkBox *facts, *reasons, *cures;
  GtkWidget *facts_title, *reasons_title, *cures_title;
};

G_DEFINE_FINAL_TYPE (FlReasonsView, fl_reasons_view, GTK_TYPE_BOX)

static void
empty_box (GtkBox *box)
{
  gtk_container_foreach (GTK_CONTAINER (box), (GtkCallback) (void (*) (void)) gtk_widget_destroy, NULL);
}

static GtkWidget *
wrapped_label (const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0.0f);
  gtk_label_set_line_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_selectable (GTK_LABEL (label), FALSE);
  gtk_widget_set_hexpand (label, TRUE);
  gtk_widget_show (label);
  return label;
}

/* A line with a symbol before it; the line, to which a button may be added. */
static GtkWidget *
add_line (GtkBox *box, const char *icon, const char *text)
{
  GtkWidget *line = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *image = gtk_image_new_from_icon_name (icon, GTK_ICON_SIZE_MENU);

  gtk_widget_set_valign (image, GTK_ALIGN_START);
  gtk_widget_set_margin_top (image, 1);
  gtk_widget_show (image);
  gtk_container_add (GTK_CONTAINER (line), image);
  gtk_container_add (GTK_CONTAINER (line), wrapped_label (text));
  gtk_widget_show (line);
  gtk_container_add (GTK_CONTAINER (box), line);
  return line;
}

/* ── before planning: what is known ── */

static void
add_load_facts (FlReasonsView *view, const FlMoveLoad *load, gboolean metric)
{
  const FlRecord *record = fl_fleet_find_load (fl_desk_fleet (view->desk), load->id, load->article);
  const FlMachine *machine = record != NULL ? fl_record_machine (record) : NULL;
  g_autofree char *weight = NULL;
  g_autofree char *height = NULL;
  g_autofree char *text = NULL;

  if (machine == NULL)
    return;
  weight = fl_phrase_weight (machine->weight, metric, FL_ROUND_NEAREST);
  height = fl_phrase_tape (machine->height, metric, FL_ROUND_NEAREST);
  text = g_strdup_printf (_("%s weighs %s and is %s high (%s)."), load->id, weight, height, fl_basis_of (&machine->basis, "weight").text);
  add_line (view->facts, "fl-note-symbolic", text);
}

static void
show_facts (FlReasonsView *view, const FlMove *move)
{
  const gboolean metric = fl_desk_metric (view->desk);
  g_autofree char *open = fl_phrase_open (move);

  for (gsize i = 0; i < move->n_loads; i++)
    add_load_facts (view, &move->loads[i], metric);
  if (open != NULL)
    {
      g_autofree char *text = g_strdup_printf (_("%s: planning takes the best that is free."), open);

      add_line (view->facts, "fl-note-symbolic", move->trailer == NULL ? text : open);
    }
  if (fl_quantity_known (move->height_limit))
    {
      g_autofree char *limit = fl_phrase_tape (move->height_limit, metric, FL_ROUND_NEAREST);
      g_autofree char *text = g_strdup_printf (_("The way allows a height of %s."), limit);

      add_line (view->facts, "fl-note-symbolic", text);
    }
  if (move->notes != NULL)
    add_line (view->facts, "fl-note-symbolic", move->notes);
}

/* ── after planning without success ── */

static void
on_take_clicked (GtkButton *button, FlReasonsView *view)
{
  const FlMove *move = fl_desk_move (view->desk);
  const FlPlan *plan = g_object_get_data (G_OBJECT (button), "plan");
  g_autofree char *name = NULL;

  if (move == NULL)
    return;
  name = g_strdup_printf (_("Other Plan for %s"), move->id);
  fl_desk_take_plan (view->desk, name, move->id, plan);
}

static void
plan_unref (gpointer data)
{
  fl_plan_unref (data);
}

static void
add_cure (FlReasonsView *view, const FlCure *cure)
{
  g_autofree char *text = fl_words_message (fl_desk_words (view->desk), cure->message, cure->facts, cure->n_facts, fl_desk_metric (view->desk));
  GtkWidget *line = add_line (view->cures, "fl-cure-symbolic", text);
  GtkWidget *button;
  g_autofree char *name = NULL;

  if (cure->plan == NULL)
    return;
  button = gtk_button_new_with_label (_("Take This"));
  name = g_strdup_printf (_("Take this: %s"), text);
  atk_object_set_name (gtk_widget_get_accessible (button), name);
  gtk_widget_set_tooltip_text (button, _("Makes the plan that goes with it the plan of this move"));
  gtk_widget_set_valign (button, GTK_ALIGN_START);
  g_object_set_data_full (G_OBJECT (button), "plan", fl_plan_ref (cure->plan), plan_unref);
  g_signal_connect (button, "clicked", G_CALLBACK (on_take_clicked), view);
  gtk_widget_show (button);
  gtk_container_add (GTK_CONTAINER (line), button);
}

static void
show_proposal (FlReasonsView *view, const FlProposal *proposal)
{
  for (gsize i = 0; i < proposal->n_because; i++)
    {
      g_autofree char *text = fl_phrase_message (fl_desk_words (view->desk), &proposal->because[i], fl_desk_metric (view->desk));

      add_line (view->reasons, "fl-short-symbolic", text);
    }
  for (gsize i = 0; i < proposal->n_cures; i++)
    add_cure (view, &proposal->cures[i]);
}

static gboolean
has_lines (GtkBox *box)
{
  g_autoptr(GList) children = gtk_container_get_children (GTK_CONTAINER (box));

  return children != NULL;
}

static void
show (FlReasonsView *view)
{
  const FlMove *move = fl_desk_move (view->desk);
  const FlOutcome *outcome = fl_desk_selected_outcome (view->desk);

  empty_box (view->facts);
  empty_box (view->reasons);
  empty_box (view->cures);
  if (outcome != NULL && outcome->state == FL_STATE_NO_PLAN)
    show_facts (view, move);
  if (outcome != NULL && outcome->state == FL_STATE_MISFIT)
    add_line (view->reasons, "fl-short-symbolic", outcome->misfit);
  if (outcome != NULL && outcome->proposal != NULL)
    show_proposal (view, outcome->proposal);
  gtk_widget_set_visible (view->facts_title, has_lines (view->facts));
  gtk_widget_set_visible (view->reasons_title, has_lines (view->reasons));
  gtk_widget_set_visible (view->cures_title, has_lines (view->cures));
}

static void
show_outcome (FlReasonsView *view, const char *move)
{
  const FlMove *selected = fl_desk_move (view->desk);

  if (selected != NULL && g_strcmp0 (selected->id, move) == 0)
    show (view);
}

void
fl_reasons_view_show (FlReasonsView *view, FlDesk *desk)
{
  view->desk = g_object_ref (desk);
  g_signal_connect_object (desk, "day", G_CALLBACK (show), view, G_CONNECT_SWAPPED);
  g_signal_connect_object (desk, "move", G_CALLBACK (show), view, G_CONNECT_SWAPPED);
  g_signal_connect_object (desk, "outcome", G_CALLBACK (show_outcome), view, G_CONNECT_SWAPPED);
  g_signal_connect_object (desk, "units", G_CALLBACK (show), view, G_CONNECT_SWAPPED);
}

static void
fl_reasons_view_dispose (GObject *object)
{
  g_clear_object (&FL_REASONS_VIEW (object)->desk);
  G_OBJECT_CLASS (fl_reasons_view_parent_class)->dispose (object);
}

static void
fl_reasons_view_class_init (FlReasonsViewClass *klass)
{
  GtkWidgetClass *widget = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = fl_reasons_view_dispose;
  gtk_widget_class_set_template_from_resource (widget, "/org/fairlead/Fairlead/fl-reasons-view.ui");
  gtk_widget_class_bind_template_child (widget, FlReasonsView, facts);
  gtk_widget_class_bind_template_child (widget, FlReasonsView, facts_title);
  gtk_widget_class_bind_template_child (widget, FlReasonsView, reasons);
  gtk_widget_class_bind_template_child (widget, FlReasonsView, reasons_title);
  gtk_widget_class_bind_template_child (widget, FlReasonsView, cures);
  gtk_widget_class_bind_template_child (widget, FlReasonsView, cures_title);
}

static void
fl_reasons_view_init (FlReasonsView *view)
{
  gtk_widget_init_template (GTK_WIDGET (view));
}
