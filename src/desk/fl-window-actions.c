/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every command of the window: one table of actions, one of keys, one function that says what can be done now. */
#include <glib/gi18n.h>

#include "fl-window-private.h"

#include "fl-help-window.h"
#include "fl-places.h"
#include "fl-settings.h"
#include "fl-trailers-dialog.h"

#define FL_KEYS(...) (const char *const[]) { __VA_ARGS__, NULL }

const FlAccelerator FL_WINDOW_ACCELERATORS[] = {
  { "win.open", FL_KEYS ("<Primary>o") },
  { "win.reload", FL_KEYS ("<Primary>r", "F5") },
  { "win.save-plans", FL_KEYS ("<Primary>s", "<Shift><Primary>s") },
  { "win.close", FL_KEYS ("<Primary>w") },
  { "win.undo", FL_KEYS ("<Primary>z") },
  { "win.redo", FL_KEYS ("<Shift><Primary>z") },
  { "win.plan-day", FL_KEYS ("<Shift><Primary>Return") },
  { "win.cancel", FL_KEYS ("Escape") },
  { "win.export-day", FL_KEYS ("<Shift><Primary>e") },
  { "win.print-day", FL_KEYS ("<Shift><Primary>p") },
  { "win.previous-day", FL_KEYS ("<Primary>Page_Up") },
  { "win.next-day", FL_KEYS ("<Primary>Page_Down") },
  { "win.find", FL_KEYS ("<Primary>f") },
  { "win.plan", FL_KEYS ("<Primary>Return") },
  { "win.trailers", FL_KEYS ("<Primary>t") },
  { "win.print", FL_KEYS ("<Primary>p") },
  { "win.export", FL_KEYS ("<Primary>e") },
  { "win.previous-move", FL_KEYS ("<Primary>Up") },
  { "win.next-move", FL_KEYS ("<Primary>Down") },
  { "win.previous-tie", FL_KEYS ("<Primary>Left") },
  { "win.next-tie", FL_KEYS ("<Primary>Right") },
  { "win.attention", FL_KEYS ("<Primary>j") },
  { "win.table::ties", FL_KEYS ("<Primary>1") },
  { "win.table::forces", FL_KEYS ("<Primary>2") },
  { "win.table::tensions", FL_KEYS ("<Primary>3") },
  { "win.zoom-in", FL_KEYS ("<Primary>plus", "<Primary>equal", "<Primary>KP_Add") },
  { "win.zoom-out", FL_KEYS ("<Primary>minus", "<Primary>KP_Subtract") },
  { "win.zoom-fit", FL_KEYS ("<Primary>0", "<Primary>KP_0") },
  { "win.next-pane", FL_KEYS ("F6") },
  { "win.previous-pane", FL_KEYS ("<Shift>F6") },
  { "win.fullscreen", FL_KEYS ("F11") },
  { "win.help", FL_KEYS ("F1") },
  { "win.show-help-overlay", FL_KEYS ("<Primary>question") },
  { NULL, NULL },
};

/* A handler without a parameter. */
#define FL_HANDLER(name, ...)                                                        \
  static void name (GSimpleAction *action, GVariant *parameter, gpointer data)       \
  {                                                                                  \
    FlWindow *window = data;                                                         \
                                                                                     \
    (void) action;                                                                   \
    (void) parameter;                                                                \
    __VA_ARGS__;                                                                     \
  }

static void
open_demo (FlWindow *window)
{
  g_autofree char *path = fl_places_file ("demo", "fleet.json");

  fl_window_open (window, path);
}

static void
step_move (FlWindow *window, gint step)
{
  const FlMove *selected = fl_desk_move (window->desk);

  for (guint i = 0; selected != NULL && i < fl_desk_n_moves (window->desk); i++)
    if (g_strcmp0 (fl_desk_move_at (window->desk, i)->id, selected->id) == 0)
      {
        const FlMove *next = fl_desk_move_at (window->desk, (guint) ((gint) i + step));

        if (next != NULL)
          fl_desk_select (window->desk, next->id);
        return;
      }
}

static void
plan_selected (FlWindow *window)
{
  const FlMove *move = fl_desk_move (window->desk);

  gtk_info_bar_set_revealed (window->news, FALSE);
  if (move != NULL)
    fl_planning_move (window->planning, move->id);
}

static void
plan_day (FlWindow *window)
{
  gtk_info_bar_set_revealed (window->news, FALSE);
  fl_planning_day (window->planning);
}

static void
compare_trailers (FlWindow *window)
{
  const FlMove *move = fl_desk_move (window->desk);

  if (move != NULL)
    gtk_window_present (GTK_WINDOW (fl_trailers_dialog_new (GTK_WINDOW (window), window->desk, window->planning, move->id)));
}

static void
drop_plan (FlWindow *window)
{
  const FlMove *move = fl_desk_move (window->desk);
  g_autofree char *name = move != NULL ? g_strdup_printf (_("Take Away the Plan of %s"), move->id) : NULL;

  if (move != NULL)
    fl_desk_take_plan (window->desk, name, move->id, NULL);
}

static void
step_history (FlWindow *window, gboolean back)
{
  g_autofree char *name = g_strdup (back ? fl_desk_undo_name (window->desk) : fl_desk_redo_name (window->desk));
  g_autofree char *text = NULL;

  if (name == NULL)
    return;
  if (back)
    fl_desk_undo (window->desk);
  else
    fl_desk_redo (window->desk);
  text = g_strdup_printf (back ? _("Undone: %s") : _("Done again: %s"), name);
  fl_window_tell (window, GTK_MESSAGE_INFO, text, NULL);
}

static void
find_move (FlWindow *window)
{
  gboolean begun = FALSE;

  fl_moves_view_focus (window->moves);
  g_signal_emit_by_name (gtk_window_get_focus (GTK_WINDOW (window)), "start-interactive-search", &begun);
}

static void
show_help (FlWindow *window)
{
  gtk_window_present (GTK_WINDOW (fl_help_window_new (GTK_WINDOW (window))));
}

static void
turn_full_screen (FlWindow *window)
{
  const GdkWindowState state = gdk_window_get_state (gtk_widget_get_window (GTK_WIDGET (window)));

  if ((state & GDK_WINDOW_STATE_FULLSCREEN) != 0)
    gtk_window_unfullscreen (GTK_WINDOW (window));
  else
    gtk_window_fullscreen (GTK_WINDOW (window));
}

FL_HANDLER (on_open, fl_window_choose_fleet (window))
FL_HANDLER (on_open_demo, open_demo (window))
FL_HANDLER (on_reload, fl_window_open_now (window, fl_office_path (fl_desk_office (window->desk))))
FL_HANDLER (on_save_plans, fl_window_save_plans (window))
FL_HANDLER (on_read_plans, fl_window_choose_plans (window))
FL_HANDLER (on_page_setup, fl_window_page_setup (window))
FL_HANDLER (on_close, fl_window_ask_before (window, FL_AFTER_CLOSE, NULL))
FL_HANDLER (on_undo, step_history (window, TRUE))
FL_HANDLER (on_redo, step_history (window, FALSE))
FL_HANDLER (on_plan_day, plan_day (window))
FL_HANDLER (on_cancel, fl_planning_cancel (window->planning))
FL_HANDLER (on_print_day, fl_window_print_day (window))
FL_HANDLER (on_export_day, fl_window_export_day (window))
FL_HANDLER (on_previous_day, fl_desk_step_day (window->desk, -1))
FL_HANDLER (on_next_day, fl_desk_step_day (window->desk, 1))
FL_HANDLER (on_find, find_move (window))
FL_HANDLER (on_plan, plan_selected (window))
FL_HANDLER (on_trailers, compare_trailers (window))
FL_HANDLER (on_drop_plan, drop_plan (window))
FL_HANDLER (on_print, fl_window_print_card (window))
FL_HANDLER (on_export, fl_window_export_card (window))
FL_HANDLER (on_previous_move, step_move (window, -1))
FL_HANDLER (on_next_move, step_move (window, 1))
FL_HANDLER (on_previous_tie, fl_desk_step_tie (window->desk, -1))
FL_HANDLER (on_next_tie, fl_desk_step_tie (window->desk, 1))
FL_HANDLER (on_zoom_in, fl_deck_canvas_zoom (fl_deck_view_canvas (window->deck), 1))
FL_HANDLER (on_zoom_out, fl_deck_canvas_zoom (fl_deck_view_canvas (window->deck), -1))
FL_HANDLER (on_zoom_fit, fl_deck_canvas_zoom (fl_deck_view_canvas (window->deck), 0))
FL_HANDLER (on_next_pane, fl_window_step_pane (window, 1))
FL_HANDLER (on_previous_pane, fl_window_step_pane (window, -1))
FL_HANDLER (on_fullscreen, turn_full_screen (window))
FL_HANDLER (on_help, show_help (window))

static void
on_attention (GSimpleAction *action, GVariant *value, gpointer data)
{
  FlWindow *window = data;

  g_simple_action_set_state (action, value);
  fl_why_view_set_attention (window->why, g_variant_get_boolean (value));
}

static void
on_table (GSimpleAction *action, GVariant *value, gpointer data)
{
  g_simple_action_set_state (action, value);
  fl_window_show_table (data, g_variant_get_string (value, NULL));
}

static void
on_units (GSimpleAction *action, GVariant *value, gpointer data)
{
  FlWindow *window = data;

  g_simple_action_set_state (action, value);
  fl_settings_keep (fl_settings_get (), "units", g_variant_new_string (g_variant_get_string (value, NULL)));
  fl_desk_set_units (window->desk, g_variant_get_string (value, NULL));
}

static const GActionEntry entries[] = {
  { .name = "open", .activate = on_open },
  { .name = "open-demo", .activate = on_open_demo },
  { .name = "reload", .activate = on_reload },
  { .name = "save-plans", .activate = on_save_plans },
  { .name = "read-plans", .activate = on_read_plans },
  { .name = "page-setup", .activate = on_page_setup },
  { .name = "close", .activate = on_close },
  { .name = "undo", .activate = on_undo },
  { .name = "redo", .activate = on_redo },
  { .name = "plan-day", .activate = on_plan_day },
  { .name = "cancel", .activate = on_cancel },
  { .name = "print-day", .activate = on_print_day },
  { .name = "export-day", .activate = on_export_day },
  { .name = "previous-day", .activate = on_previous_day },
  { .name = "next-day", .activate = on_next_day },
  { .name = "find", .activate = on_find },
  { .name = "plan", .activate = on_plan },
  { .name = "trailers", .activate = on_trailers },
  { .name = "drop-plan", .activate = on_drop_plan },
  { .name = "print", .activate = on_print },
  { .name = "export", .activate = on_export },
  { .name = "previous-move", .activate = on_previous_move },
  { .name = "next-move", .activate = on_next_move },
  { .name = "previous-tie", .activate = on_previous_tie },
  { .name = "next-tie", .activate = on_next_tie },
  { .name = "attention", .state = "false", .change_state = on_attention },
  { .name = "table", .parameter_type = "s", .state = "'ties'", .change_state = on_table },
  { .name = "zoom-in", .activate = on_zoom_in },
  { .name = "zoom-out", .activate = on_zoom_out },
  { .name = "zoom-fit", .activate = on_zoom_fit },
  { .name = "units", .parameter_type = "s", .state = "'fleet'", .change_state = on_units },
  { .name = "next-pane", .activate = on_next_pane },
  { .name = "previous-pane", .activate = on_previous_pane },
  { .name = "fullscreen", .activate = on_fullscreen },
  { .name = "help", .activate = on_help },
};

void
fl_window_add_actions (FlWindow *window)
{
  g_autofree char *units = fl_settings_text (fl_settings_get (), "units");

  g_action_map_add_action_entries (G_ACTION_MAP (window), entries, G_N_ELEMENTS (entries), window);
  g_simple_action_set_state (G_SIMPLE_ACTION (g_action_map_lookup_action (G_ACTION_MAP (window), "units")), g_variant_new_string (units));
}

static void
enable (FlWindow *window, const char *name, gboolean enabled)
{
  g_simple_action_set_enabled (G_SIMPLE_ACTION (g_action_map_lookup_action (G_ACTION_MAP (window), name)), enabled);
}

static gboolean
day_has_plan (FlWindow *window)
{
  for (guint i = 0; i < fl_desk_n_moves (window->desk); i++)
    if (fl_office_plan (fl_desk_office (window->desk), fl_desk_move_at (window->desk, i)->id) != NULL)
      return TRUE;
  return FALSE;
}

void
fl_window_update_actions (FlWindow *window)
{
  const gboolean open = fl_desk_office (window->desk) != NULL;
  const gboolean busy = fl_planning_busy (window->planning);
  const gboolean moves = open && fl_desk_n_moves (window->desk) > 0;
  const gboolean selected = fl_desk_move (window->desk) != NULL;
  const FlOutcome *outcome = fl_desk_selected_outcome (window->desk);
  const gboolean judged = outcome != NULL && outcome->assessment != NULL;
  const gboolean any = open && day_has_plan (window);
  const gboolean ties = fl_desk_n_ties (window->desk) > 0;
  const struct { const char *name; gboolean enabled; } now[] = {
    { "reload", open && !busy },
    { "save-plans", any },
    { "read-plans", open && !busy },
    { "undo", !busy && fl_desk_undo_name (window->desk) != NULL },
    { "redo", !busy && fl_desk_redo_name (window->desk) != NULL },
    { "plan-day", moves && !busy },
    { "plan", selected && !busy },
    { "trailers", selected && !busy },
    { "cancel", busy },
    { "drop-plan", selected && !busy && fl_office_plan (fl_desk_office (window->desk), fl_desk_move (window->desk)->id) != NULL },
    { "print", judged },
    { "export", judged },
    { "print-day", any },
    { "export-day", any },
    { "previous-day", open && fl_desk_has_day (window->desk, -1) },
    { "next-day", open && fl_desk_has_day (window->desk, 1) },
    { "find", moves },
    { "previous-move", selected },
    { "next-move", selected },
    { "previous-tie", ties },
    { "next-tie", ties },
    { "attention", open },
    { "table", open },
    { "zoom-in", ties },
    { "zoom-out", ties },
    { "zoom-fit", ties },
    { "next-pane", open },
    { "previous-pane", open },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (now); i++)
    enable (window, now[i].name, now[i].enabled);
}
