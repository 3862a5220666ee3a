/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The window as a whole: it puts the views together, tells the news and shows what is under way. */
#include <glib/gi18n.h>

#include "fl-window-private.h"

#include "fl-phrases.h"
#include "fl-problems-dialog.h"
#include "fl-settings.h"

G_DEFINE_FINAL_TYPE (FlWindow, fl_window, GTK_TYPE_APPLICATION_WINDOW)

enum { RESPONSE_SHOW = 1 };

#define LEAST_WHY_WIDTH 300     /* pixels */
#define DEFAULT_MOVES_WIDTH 380 /* pixels; the defaults in the settings schema */
#define DEFAULT_DRAWING_HEIGHT 430

/* ── news ── */

void
fl_window_tell (FlWindow *window, GtkMessageType type, const char *text, const char *move)
{
  gtk_info_bar_set_message_type (window->news, type);
  gtk_label_set_text (window->news_label, text);
  g_free (window->news_move);
  window->news_move = g_strdup (move);
  gtk_widget_set_visible (GTK_WIDGET (window->news_button), move != NULL);
  gtk_info_bar_set_revealed (window->news, TRUE);
}

static void
on_news_response (GtkInfoBar *bar, gint response, FlWindow *window)
{
  if (response == RESPONSE_SHOW && window->news_move != NULL)
    {
      fl_desk_select (window->desk, window->news_move);
      fl_moves_view_focus (window->moves);
    }
  gtk_info_bar_set_revealed (bar, FALSE);
}

/* The toolkit's own button has a picture and no name. */
static void
name_close_button (GtkInfoBar *bar)
{
  GObject *button = gtk_widget_get_template_child (GTK_WIDGET (bar), GTK_TYPE_INFO_BAR, "close_button");

  if (button == NULL)
    return;
  atk_object_set_name (gtk_widget_get_accessible (GTK_WIDGET (button)), _("Close this message"));
  gtk_widget_set_tooltip_text (GTK_WIDGET (button), _("Close this message"));
}

/* What two plans of one time both hold is a lasting state, told as long as it lasts. */
static void
show_clashes (FlWindow *window)
{
  const char *day = fl_desk_day (window->desk);
  g_autoptr(GPtrArray) clashes = day != NULL ? fl_office_clashes (fl_desk_office (window->desk), day) : NULL;
  g_autofree char *text = NULL;

  gtk_info_bar_set_revealed (window->clashes, clashes != NULL && clashes->len > 0);
  if (clashes == NULL || clashes->len == 0)
    return;
  text = clashes->len == 1
           ? g_strdup_printf (_("Needed twice at one time: %s"), (const char *) g_ptr_array_index (clashes, 0))
           : g_strdup_printf (ngettext ("Needed twice at one time: %s, and %u more", "Needed twice at one time: %s, and %u more", clashes->len - 1),
                              (const char *) g_ptr_array_index (clashes, 0), clashes->len - 1);
  gtk_label_set_text (window->clashes_label, text);
}

/* ── what is under way ── */

static void
show_busy (FlWindow *window)
{
  const gboolean busy = fl_planning_busy (window->planning);

  gtk_widget_set_visible (window->busy, busy);
  if (busy)
    {
      gtk_label_set_text (window->busy_label, fl_planning_text (window->planning));
      gtk_progress_bar_set_fraction (window->busy_bar, CLAMP (fl_planning_fraction (window->planning), 0.0, 1.0));
    }
  fl_window_update_actions (window);
}

static void
on_planned (FlWindow *window, gboolean trouble, const char *text, const char *move)
{
  const FlMove *selected = fl_desk_move (window->desk);
  const gboolean elsewhere = move != NULL && (selected == NULL || g_strcmp0 (selected->id, move) != 0);

  fl_window_tell (window, trouble ? GTK_MESSAGE_WARNING : GTK_MESSAGE_INFO, text, elsewhere ? move : NULL);
}

/* ── opening ── */

char *
fl_window_today (void)
{
  g_autoptr(GDateTime) now = g_date_time_new_now_local ();

  return g_date_time_format (now, "%Y-%m-%d");
}

static void
show_fleet (FlWindow *window)
{
  g_autofree char *title = g_strdup_printf (_("%s – Fairlead"), fl_fleet_name (fl_desk_fleet (window->desk)));

  gtk_window_set_title (GTK_WINDOW (window), title);
  gtk_stack_set_visible_child_name (window->stack, "fleet");
  gtk_info_bar_set_revealed (window->news, FALSE);
}

static void
remember_fleet (const char *path)
{
  g_autoptr(GFile) file = g_file_new_for_path (path);

  fl_settings_keep (fl_settings_get (), "last-fleet", g_variant_new_take_string (g_file_get_uri (file)));
}

static void
show_problems (FlWindow *window, const char *path, const FlProblems *problems, const GError *error)
{
  GtkWidget *dialog = fl_problems_dialog_new (GTK_WINDOW (window), path, problems, error != NULL ? error->message : NULL,
                                              fl_desk_office (window->desk) != NULL);

  gtk_window_present (GTK_WINDOW (dialog));
}

void
fl_window_open_now (FlWindow *window, const char *path)
{
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(GError) error = NULL;
  g_autofree char *today = fl_window_today ();
  g_autofree char *own = g_strdup (path);

  if (!fl_desk_open (window->desk, own, today, problems, &error))
    {
      show_problems (window, own, problems, error);
      return;
    }
  fl_planning_cancel (window->planning);   /* what it finds is for the fleet that was open */
  remember_fleet (own);
  fl_moves_view_focus (window->moves);
  if (fl_problems_count (problems) > 0)
    {
      const guint n = fl_problems_count (problems);
      g_autofree char *first = fl_problem_text (fl_problems_at (problems, 0), NULL);
      g_autofree char *text = g_strdup_printf (ngettext ("Opened with %u warning: %s", "Opened with %u warnings; the first: %s", n), n, first);

      fl_window_tell (window, GTK_MESSAGE_WARNING, text, NULL);
    }
}

void
fl_window_go_on (FlWindow *window)
{
  const FlAfter after = window->after;
  g_autofree char *path = g_steal_pointer (&window->after_path);

  window->after = FL_AFTER_NOTHING;
  if (after == FL_AFTER_OPEN)
    fl_window_open_now (window, path);
  else if (after == FL_AFTER_CLOSE)
    gtk_widget_destroy (GTK_WIDGET (window));
}

static void
on_ask_response (GtkDialog *dialog, gint response, FlWindow *window)
{
  gtk_widget_destroy (GTK_WIDGET (dialog));
  window->dialog = NULL;
  if (response == GTK_RESPONSE_ACCEPT)
    fl_window_save_plans (window);
  else if (response == GTK_RESPONSE_NO)
    fl_window_go_on (window);
  else
    window->after = FL_AFTER_NOTHING;
}

void
fl_window_ask_before (FlWindow *window, FlAfter after, const char *path)
{
  window->after = after;
  g_free (window->after_path);
  window->after_path = g_strdup (path);
  if (!fl_desk_unsaved (window->desk))
    {
      fl_window_go_on (window);
      return;
    }
  if (window->dialog != NULL)
    return;
  window->dialog = gtk_message_dialog_new (GTK_WINDOW (window), GTK_DIALOG_MODAL, GTK_MESSAGE_QUESTION, GTK_BUTTONS_NONE, "%s",
                                           _("Save the plans first?"));
  gtk_message_dialog_format_secondary_text (GTK_MESSAGE_DIALOG (window->dialog), "%s",
                                            _("Plans were made or changed in this window and are in no file yet."));
  gtk_dialog_add_buttons (GTK_DIALOG (window->dialog), after == FL_AFTER_CLOSE ? _("Close _Without Saving") : _("Open _Without Saving"),
                          GTK_RESPONSE_NO, _("_Cancel"), GTK_RESPONSE_CANCEL, _("_Save Plans As…"), GTK_RESPONSE_ACCEPT, NULL);
  gtk_dialog_set_default_response (GTK_DIALOG (window->dialog), GTK_RESPONSE_ACCEPT);
  g_signal_connect (window->dialog, "response", G_CALLBACK (on_ask_response), window);
  gtk_window_present (GTK_WINDOW (window->dialog));
}

void
fl_window_open (FlWindow *window, const char *path)
{
  fl_window_ask_before (window, FL_AFTER_OPEN, path);
}

void
fl_window_show_day (FlWindow *window, const char *date)
{
  if (fl_desk_office (window->desk) == NULL || fl_desk_show_day (window->desk, date))
    return;
  {
    g_autofree char *text = g_strdup_printf (_("This fleet has no moves on %s."), date);

    fl_window_tell (window, GTK_MESSAGE_INFO, text, NULL);
  }
}

/* ── panes ── */

static gboolean
holds_focus (GtkWidget *pane, GtkWidget *focus)
{
  return focus != NULL && (focus == pane || gtk_widget_is_ancestor (focus, pane));
}

static void
focus_table (FlWindow *window)
{
  GtkWidget *shown = gtk_stack_get_visible_child (window->table_stack);

  if (FL_IS_FORCES_VIEW (shown) && !fl_forces_view_focus (FL_FORCES_VIEW (shown)))
    gtk_widget_child_focus (window->tables, GTK_DIR_TAB_FORWARD);
  else if (!FL_IS_FORCES_VIEW (shown))
    fl_ties_view_focus (window->ties);
}

void
fl_window_show_table (FlWindow *window, const char *name)
{
  gtk_stack_set_visible_child_name (window->table_stack, name);
  focus_table (window);
}

/* The command shows which table is seen. */
static void
on_table_changed (FlWindow *window)
{
  const char *name = gtk_stack_get_visible_child_name (window->table_stack);
  GAction *action = gtk_widget_in_destruction (GTK_WIDGET (window)) ? NULL : g_action_map_lookup_action (G_ACTION_MAP (window), "table");

  if (action != NULL && name != NULL)
    g_simple_action_set_state (G_SIMPLE_ACTION (action), g_variant_new_string (name));
}

void
fl_window_step_pane (FlWindow *window, gint step)
{
  GtkWidget *const panes[] = { GTK_WIDGET (window->moves), GTK_WIDGET (window->deck), window->tables, GTK_WIDGET (window->why) };
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (window));
  gint at = step > 0 ? -1 : 0;

  for (gint i = 0; i < (gint) G_N_ELEMENTS (panes); i++)
    if (holds_focus (panes[i], focus))
      at = i;
  at = (at + step + (gint) G_N_ELEMENTS (panes)) % (gint) G_N_ELEMENTS (panes);
  if (at == 0)
    fl_moves_view_focus (window->moves);
  else if (at == 1)
    fl_deck_view_focus (window->deck);
  else if (at == 2)
    focus_table (window);
  else
    fl_why_view_focus (window->why);
}

/* ── from day to day ── */

/* From its first place on the divider is the person's: the width asked for at the start no longer holds it. */
static gboolean
free_divider (gpointer data)
{
  FlWindow *window = data;

  gtk_paned_set_position (window->why_pane, gtk_paned_get_position (window->why_pane));
  gtk_widget_set_size_request (GTK_WIDGET (window->why), LEAST_WHY_WIDTH, -1);
  return G_SOURCE_REMOVE;
}

static void
on_first_allocation (GtkWidget *pane, GdkRectangle *allocation, FlWindow *window)
{
  (void) allocation;
  g_clear_signal_handler (&window->first_allocation, pane);
  g_idle_add_full (G_PRIORITY_DEFAULT_IDLE, free_divider, g_object_ref (window), g_object_unref);
}

/* No larger than what is free of the screen: the size may have been kept on another. */
static void
set_size (FlWindow *window, gint width, gint height)
{
  GdkMonitor *monitor = gdk_display_get_monitor (gtk_widget_get_display (GTK_WIDGET (window)), 0);
  GdkRectangle area = { 0, 0, width, height };

  if (monitor != NULL)
    gdk_monitor_get_workarea (monitor, &area);
  gtk_window_set_default_size (GTK_WINDOW (window), MIN (MAX (width, 800), area.width), MIN (MAX (height, 560), area.height));
}

static void
restore_size (FlWindow *window)
{
  FlSettings *settings = fl_settings_get ();
  g_autoptr(GVariant) size = fl_settings_value (settings, "window-size");
  g_autofree char *units = fl_settings_text (settings, "units");
  gint width, height, moves_width, drawing_height;

  g_variant_get (size, "(ii)", &width, &height);
  set_size (window, width, height);
  if (fl_settings_flag (settings, "window-maximized"))
    gtk_window_maximize (GTK_WINDOW (window));
  /* As long as nobody moved the divider, a wide window gives the list a quarter. */
  moves_width = fl_settings_int (settings, "moves-width");
  gtk_paned_set_position (window->moves_pane, moves_width == DEFAULT_MOVES_WIDTH ? MAX (moves_width, width / 4) : moves_width);
  /* And a low one leaves the tables below the drawing some rows. */
  drawing_height = fl_settings_int (settings, "drawing-height");
  gtk_paned_set_position (window->deck_pane, drawing_height == DEFAULT_DRAWING_HEIGHT ? MIN (drawing_height, height / 2) : drawing_height);
  gtk_widget_set_size_request (GTK_WIDGET (window->why), MAX (fl_settings_int (settings, "why-width"), LEAST_WHY_WIDTH), -1);
  window->first_allocation = g_signal_connect (window->why_pane, "size-allocate", G_CALLBACK (on_first_allocation), window);
  fl_desk_set_units (window->desk, units);
}

static void
keep_size (FlWindow *window)
{
  FlSettings *settings = fl_settings_get ();
  const gboolean maximized = gtk_window_is_maximized (GTK_WINDOW (window));
  gint width, height;

  gtk_window_get_size (GTK_WINDOW (window), &width, &height);
  if (!maximized)
    fl_settings_keep (settings, "window-size", g_variant_new ("(ii)", width, height));
  fl_settings_keep (settings, "window-maximized", g_variant_new_boolean (maximized));
  if (g_strcmp0 (gtk_stack_get_visible_child_name (window->stack), "fleet") != 0)
    return;
  if (gtk_paned_get_position (window->moves_pane) != MAX (DEFAULT_MOVES_WIDTH, width / 4))
    fl_settings_keep (settings, "moves-width", g_variant_new_int32 (gtk_paned_get_position (window->moves_pane)));
  fl_settings_keep (settings, "why-width", g_variant_new_int32 (gtk_widget_get_allocated_width (GTK_WIDGET (window->why))));
  if (gtk_paned_get_position (window->deck_pane) != MIN (DEFAULT_DRAWING_HEIGHT, height / 2))
    fl_settings_keep (settings, "drawing-height", g_variant_new_int32 (gtk_paned_get_position (window->deck_pane)));
}

static gboolean
on_delete_event (FlWindow *window)
{
  fl_window_ask_before (window, FL_AFTER_CLOSE, NULL);
  return GDK_EVENT_STOP;
}

static void
fl_window_unmap (GtkWidget *widget)
{
  keep_size (FL_WINDOW (widget));
  GTK_WIDGET_CLASS (fl_window_parent_class)->unmap (widget);
}

FlWindow *
fl_window_new (GtkApplication *application)
{
  return g_object_new (FL_TYPE_WINDOW, "application", application, NULL);
}

static void
fl_window_dispose (GObject *object)
{
  FlWindow *window = FL_WINDOW (object);

  if (window->planning != NULL)
    fl_planning_cancel (window->planning);
  g_clear_object (&window->chooser);
  g_clear_object (&window->planning);
  g_clear_object (&window->desk);
  g_clear_object (&window->page_setup);
  g_clear_pointer (&window->news_move, g_free);
  g_clear_pointer (&window->after_path, g_free);
  G_OBJECT_CLASS (fl_window_parent_class)->dispose (object);
}

static void
fl_window_class_init (FlWindowClass *klass)
{
  GtkWidgetClass *widget = GTK_WIDGET_CLASS (klass);

  g_type_ensure (FL_TYPE_MOVES_VIEW);
  g_type_ensure (FL_TYPE_DECK_VIEW);
  g_type_ensure (FL_TYPE_TIES_VIEW);
  g_type_ensure (FL_TYPE_FORCES_VIEW);
  g_type_ensure (FL_TYPE_WHY_VIEW);
  G_OBJECT_CLASS (klass)->dispose = fl_window_dispose;
  widget->unmap = fl_window_unmap;
  gtk_widget_class_set_template_from_resource (widget, "/org/fairlead/Fairlead/fl-window.ui");
  gtk_widget_class_bind_template_child (widget, FlWindow, stack);
  gtk_widget_class_bind_template_child (widget, FlWindow, moves);
  gtk_widget_class_bind_template_child (widget, FlWindow, deck);
  gtk_widget_class_bind_template_child (widget, FlWindow, ties);
  gtk_widget_class_bind_template_child (widget, FlWindow, forces);
  gtk_widget_class_bind_template_child (widget, FlWindow, tensions);
  gtk_widget_class_bind_template_child (widget, FlWindow, tables);
  gtk_widget_class_bind_template_child (widget, FlWindow, table_stack);
  gtk_widget_class_bind_template_child (widget, FlWindow, why);
  gtk_widget_class_bind_template_child (widget, FlWindow, moves_pane);
  gtk_widget_class_bind_template_child (widget, FlWindow, why_pane);
  gtk_widget_class_bind_template_child (widget, FlWindow, deck_pane);
  gtk_widget_class_bind_template_child (widget, FlWindow, news);
  gtk_widget_class_bind_template_child (widget, FlWindow, news_label);
  gtk_widget_class_bind_template_child (widget, FlWindow, news_button);
  gtk_widget_class_bind_template_child (widget, FlWindow, clashes);
  gtk_widget_class_bind_template_child (widget, FlWindow, clashes_label);
  gtk_widget_class_bind_template_child (widget, FlWindow, busy);
  gtk_widget_class_bind_template_child (widget, FlWindow, busy_label);
  gtk_widget_class_bind_template_child (widget, FlWindow, busy_bar);
  gtk_widget_class_bind_template_child (widget, FlWindow, welcome_open);
  gtk_widget_class_bind_template_callback (widget, on_news_response);
  gtk_widget_class_bind_template_callback (widget, on_delete_event);
  gtk_widget_class_bind_template_callback (widget, on_table_changed);
}

/* The views come first: what is told in the bars rests on what they show. */
static void
connect_views (FlWindow *window)
{
  fl_moves_view_show (window->moves, window->desk);
  fl_deck_view_show (window->deck, window->desk);
  fl_ties_view_show (window->ties, window->desk);
  fl_forces_view_show (window->forces, window->desk, FALSE);
  fl_forces_view_show (window->tensions, window->desk, TRUE);
  fl_why_view_show (window->why, window->desk);
  g_signal_connect_object (window->desk, "fleet", G_CALLBACK (show_fleet), window, G_CONNECT_SWAPPED);
  g_signal_connect_object (window->desk, "day", G_CALLBACK (show_clashes), window, G_CONNECT_SWAPPED);
  g_signal_connect_object (window->desk, "history", G_CALLBACK (show_clashes), window, G_CONNECT_SWAPPED);
  g_signal_connect_object (window->desk, "day", G_CALLBACK (fl_window_update_actions), window, G_CONNECT_SWAPPED);
  g_signal_connect_object (window->desk, "move", G_CALLBACK (fl_window_update_actions), window, G_CONNECT_SWAPPED);
  g_signal_connect_object (window->desk, "outcome", G_CALLBACK (fl_window_update_actions), window, G_CONNECT_SWAPPED);
  g_signal_connect_object (window->desk, "history", G_CALLBACK (fl_window_update_actions), window, G_CONNECT_SWAPPED);
  g_signal_connect_object (window->planning, "changed", G_CALLBACK (show_busy), window, G_CONNECT_SWAPPED);
  g_signal_connect_object (window->planning, "done", G_CALLBACK (on_planned), window, G_CONNECT_SWAPPED);
}

static void
fl_window_init (FlWindow *window)
{
  window->desk = fl_desk_new ();
  window->planning = fl_planning_new (window->desk);
  gtk_widget_init_template (GTK_WIDGET (window));
  name_close_button (window->news);
  name_close_button (window->clashes);
  fl_window_add_actions (window);
  connect_views (window);
  restore_size (window);
  fl_window_update_actions (window);
}
