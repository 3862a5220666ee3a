/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The list of the day's moves and the chooser of the day. */
#include <glib/gi18n.h>

#include "fl-moves-view.h"

#include <string.h>

#include "fl-columns.h"
#include "fl-phrases.h"
#include "fl-verdict-cell.h"

struct _FlMovesView
{
  GtkBox parent_instance;
  FlDesk *desk;
  GtkLabel *day, *tally;
  GtkTreeView *tree;
  GtkListStore *store;
  gboolean filling;
  guint settle;                 /* idle: brings the selected row into view once the list has its size */
  gint height;
};

G_DEFINE_FINAL_TYPE (FlMovesView, fl_moves_view, GTK_TYPE_BOX)

enum { COLUMN_ID, COLUMN_DEPART, COLUMN_WHO, COLUMN_ICON, COLUMN_VERDICT, COLUMN_SEARCH, COLUMN_TIP };

/* ── a row's words ── */

static char *
who_markup (FlDesk *desk, const FlMove *move)
{
  const FlFleet *fleet = fl_desk_fleet (desk);
  g_autofree char *ids = fl_phrase_load_ids (move);
  g_autofree char *names = fl_phrase_load_names (fleet, move);
  g_autofree char *rig = fl_phrase_rig (fleet, move, fl_office_plan (fl_desk_office (desk), move->id));

  return g_markup_printf_escaped ("<b>%s</b>  %s\n<small>%s</small>", ids, names, rig);
}

/* The worst thing that a person should look at; NULL for none. (transfer full) */
static char *
first_attention (FlDesk *desk, const FlAssessment *assessment)
{
  gsize n;
  const FlFinding *findings = fl_assessment_findings (assessment, &n);

  if (n == 0 || !fl_finding_wants_attention (&findings[0]))
    return NULL;
  return fl_phrase_finding (fl_desk_words (desk), &findings[0], fl_desk_metric (desk));
}

static char *
missing_text (FlDesk *desk, const FlMove *move, const FlOutcome *outcome)
{
  char *text = NULL;

  if (outcome->state == FL_STATE_CANNOT && outcome->proposal->n_because > 0)
    text = fl_phrase_message (fl_desk_words (desk), &outcome->proposal->because[0], fl_desk_metric (desk));
  else if (outcome->state == FL_STATE_MISFIT)
    text = g_strdup (outcome->misfit);
  else if (outcome->assessment != NULL)
    text = first_attention (desk, outcome->assessment);
  else if (outcome->state == FL_STATE_NO_PLAN)
    text = fl_phrase_open (move);
  if (text == NULL && outcome->assessment != NULL)
    text = fl_phrase_tie_count (fl_assessment_parts (outcome->assessment)->n_ties);
  return text != NULL ? text : g_strdup (_("Ready to be planned"));
}

static char *
search_text (FlDesk *desk, const FlMove *move)
{
  g_autofree char *ids = fl_phrase_load_ids (move);
  g_autofree char *names = fl_phrase_load_names (fl_desk_fleet (desk), move);
  g_autofree char *rig = fl_phrase_rig (fl_desk_fleet (desk), move, fl_office_plan (fl_desk_office (desk), move->id));
  g_autofree char *all = g_strjoin (" ", ids, names, rig, move->depart_text, move->id, NULL);

  return g_utf8_casefold (all, -1);
}

static void
fill_row (FlMovesView *view, GtkTreeIter *iter, const FlMove *move)
{
  const FlOutcome *outcome = fl_desk_outcome (view->desk, move->id);
  g_autofree char *who = who_markup (view->desk, move);
  g_autofree char *words = fl_outcome_words (outcome);
  g_autofree char *missing = missing_text (view->desk, move, outcome);
  g_autofree char *verdict = g_markup_printf_escaped ("<b>%s</b>\n<small>%s</small>", words, missing);
  g_autofree char *search = search_text (view->desk, move);
  g_autofree char *tip = g_markup_printf_escaped (_("Move %s\n%s: %s"), move->id, words, missing);

  gtk_list_store_set (view->store, iter, COLUMN_ID, move->id, COLUMN_DEPART, move->depart_text != NULL ? move->depart_text : "–", COLUMN_WHO, who,
                      COLUMN_ICON, fl_outcome_icon (outcome), COLUMN_VERDICT, verdict, COLUMN_SEARCH, search, COLUMN_TIP, tip, -1);
}

/* ── the list ── */

static gboolean
find_row (FlMovesView *view, const char *move, GtkTreeIter *iter)
{
  GtkTreeModel *model = GTK_TREE_MODEL (view->store);
  gboolean more;

  for (more = gtk_tree_model_get_iter_first (model, iter); more; more = gtk_tree_model_iter_next (model, iter))
    {
      g_autofree char *id = NULL;

      gtk_tree_model_get (model, iter, COLUMN_ID, &id, -1);
      if (g_strcmp0 (id, move) == 0)
        return TRUE;
    }
  return FALSE;
}

/* "14 moves: 9 stand, 3 to look at, 1 cannot be planned". */
static char *
tally_text (FlDesk *desk)
{
  const guint n = fl_desk_n_moves (desk);
  guint count[FL_N_STATES] = { 0 }, stand, not;
  g_autoptr(GString) text = g_string_new (NULL);

  for (guint i = 0; i < n; i++)
    count[fl_desk_outcome (desk, fl_desk_move_at (desk, i)->id)->state]++;
  g_string_append_printf (text, ngettext ("%u move", "%u moves", n), n);
  stand = count[FL_STATE_STANDS] + count[FL_STATE_LOOK];
  not = count[FL_STATE_SHORT] + count[FL_STATE_NOT_KNOWN] + count[FL_STATE_MISFIT];
  if (count[FL_STATE_NO_PLAN] > 0)
    g_string_append_printf (text, _(" · %u without a plan"), count[FL_STATE_NO_PLAN]);
  if (stand > 0)
    g_string_append_printf (text, ngettext (" · %u stands", " · %u stand", stand), stand);
  if (not > 0)
    g_string_append_printf (text, ngettext (" · %u does not stand", " · %u do not stand", not), not);
  if (count[FL_STATE_CANNOT] > 0)
    g_string_append_printf (text, _(" · %u cannot be planned"), count[FL_STATE_CANNOT]);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static void
show_tally (FlMovesView *view)
{
  g_autofree char *text = tally_text (view->desk);

  gtk_label_set_text (view->tally, fl_desk_n_moves (view->desk) > 0 ? text : "");
}

static void
show_selected (FlMovesView *view)
{
  const FlMove *move = fl_desk_move (view->desk);
  GtkTreeIter iter;
  g_autoptr(GtkTreePath) path = NULL;

  if (view->filling || move == NULL || !find_row (view, move->id, &iter))
    return;
  path = gtk_tree_model_get_path (GTK_TREE_MODEL (view->store), &iter);
  if (!gtk_tree_selection_iter_is_selected (gtk_tree_view_get_selection (view->tree), &iter))
    gtk_tree_view_set_cursor (view->tree, path, NULL, FALSE);
}

static gboolean
settle (gpointer data)
{
  FlMovesView *view = data;
  GtkTreeIter iter;
  g_autoptr(GtkTreePath) path = NULL;

  view->settle = 0;
  if (!gtk_tree_selection_get_selected (gtk_tree_view_get_selection (view->tree), NULL, &iter))
    return G_SOURCE_REMOVE;
  path = gtk_tree_model_get_path (GTK_TREE_MODEL (view->store), &iter);
  gtk_tree_view_scroll_to_cell (view->tree, path, NULL, FALSE, 0.0f, 0.0f);
  return G_SOURCE_REMOVE;
}

static void
settle_later (FlMovesView *view)
{
  if (view->settle == 0)
    view->settle = g_idle_add_full (G_PRIORITY_LOW, settle, view, NULL);
}

static void
show_day (FlMovesView *view)
{
  g_autofree char *day = fl_phrase_day (fl_desk_day (view->desk));

  gtk_label_set_text (view->day, day != NULL ? day : _("No moves in this fleet"));
  view->filling = TRUE;
  gtk_list_store_clear (view->store);
  for (guint i = 0; i < fl_desk_n_moves (view->desk); i++)
    {
      GtkTreeIter iter;

      gtk_list_store_append (view->store, &iter);
      fill_row (view, &iter, fl_desk_move_at (view->desk, i));
    }
  view->filling = FALSE;
  show_selected (view);
  show_tally (view);
  settle_later (view);
}

/* A list that got lower has scrolled by itself: the selected row comes back into view. */
static void
on_tree_allocated (FlMovesView *view, GdkRectangle *allocation)
{
  if (allocation->height != view->height)
    settle_later (view);
  view->height = allocation->height;
}

static void
show_outcome (FlMovesView *view, const char *move)
{
  GtkTreeIter iter;

  if (find_row (view, move, &iter))
    fill_row (view, &iter, fl_office_move (fl_desk_office (view->desk), move));
  show_tally (view);
}

static void
show_units (FlMovesView *view)
{
  for (guint i = 0; i < fl_desk_n_moves (view->desk); i++)
    show_outcome (view, fl_desk_move_at (view->desk, i)->id);
}

/* ── what the person does ── */

static void
on_selection_changed (GtkTreeSelection *selection, FlMovesView *view)
{
  GtkTreeIter iter;
  g_autofree char *id = NULL;

  if (view->filling || !gtk_tree_selection_get_selected (selection, NULL, &iter))
    return;
  gtk_tree_model_get (GTK_TREE_MODEL (view->store), &iter, COLUMN_ID, &id, -1);
  fl_desk_select (view->desk, id);
}

/* Enter plans a move that has no plan. */
static void
on_row_activated (FlMovesView *view)
{
  const FlOutcome *outcome = fl_desk_selected_outcome (view->desk);

  if (outcome != NULL && outcome->assessment == NULL)
    {
      GActionGroup *actions = gtk_widget_get_action_group (GTK_WIDGET (view), "win");

      if (actions != NULL)
        g_action_group_activate_action (actions, "plan", NULL);
    }
}

/* Type-ahead finds any part of a row. FALSE where it matches: the toolkit's convention. */
static gboolean
search_misses (GtkTreeModel *model, gint column, const char *key, GtkTreeIter *iter, gpointer data)
{
  g_autofree char *wanted = g_utf8_casefold (key, -1);
  g_autofree char *text = NULL;

  (void) column;
  (void) data;
  gtk_tree_model_get (model, iter, COLUMN_SEARCH, &text, -1);
  return strstr (text, wanted) == NULL;
}

void
fl_moves_view_show (FlMovesView *view, FlDesk *desk)
{
  view->desk = g_object_ref (desk);
  g_signal_connect_object (desk, "day", G_CALLBACK (show_day), view, G_CONNECT_SWAPPED);
  g_signal_connect_object (desk, "move", G_CALLBACK (show_selected), view, G_CONNECT_SWAPPED);
  g_signal_connect_object (desk, "outcome", G_CALLBACK (show_outcome), view, G_CONNECT_SWAPPED);
  g_signal_connect_object (desk, "units", G_CALLBACK (show_units), view, G_CONNECT_SWAPPED);
}

void
fl_moves_view_focus (FlMovesView *view)
{
  gtk_widget_grab_focus (GTK_WIDGET (view->tree));
}

static void
fl_moves_view_dispose (GObject *object)
{
  g_clear_handle_id (&FL_MOVES_VIEW (object)->settle, g_source_remove);
  g_clear_object (&FL_MOVES_VIEW (object)->desk);
  G_OBJECT_CLASS (fl_moves_view_parent_class)->dispose (object);
}

static void
fl_moves_view_class_init (FlMovesViewClass *klass)
{
  GtkWidgetClass *widget = GTK_WIDGET_CLASS (klass);

  g_type_ensure (FL_TYPE_VERDICT_CELL);
  G_OBJECT_CLASS (klass)->dispose = fl_moves_view_dispose;
  gtk_widget_class_set_template_from_resource (widget, "/org/fairlead/Fairlead/fl-moves-view.ui");
  gtk_widget_class_bind_template_child (widget, FlMovesView, day);
  gtk_widget_class_bind_template_child (widget, FlMovesView, tally);
  gtk_widget_class_bind_template_child (widget, FlMovesView, tree);
  gtk_widget_class_bind_template_child (widget, FlMovesView, store);
  gtk_widget_class_bind_template_callback (widget, on_selection_changed);
  gtk_widget_class_bind_template_callback (widget, on_row_activated);
  gtk_widget_class_bind_template_callback (widget, on_tree_allocated);
}

static void
fl_moves_view_init (FlMovesView *view)
{
  gtk_widget_init_template (GTK_WIDGET (view));
  fl_columns_follow_text (view->tree, 10.0);
  gtk_tree_view_set_search_equal_func (view->tree, search_misses, NULL, NULL);
}
