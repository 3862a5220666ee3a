/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every template is made into its widget, shown and thrown away, with warnings fatal; every command is where it belongs: an action for each name
 * that menus, templates and keys use, and each action of the window in the menu bar. */
#include <gtk/gtk.h>
#include <string.h>

#include "fl-application.h"
#include "fl-desk-resources.h"
#include "fl-finding-row.h"
#include "fl-forces-view.h"
#include "fl-help-window.h"
#include "fl-moves-view.h"
#include "fl-problems-dialog.h"
#include "fl-reasons-view.h"
#include "fl-sums-view.h"
#include "fl-ties-view.h"
#include "fl-trailers-dialog.h"
#include "fl-deck-view.h"
#include "fl-why-view.h"
#include "fl-window.h"

#define BASE "/org/fairlead/Fairlead/"

static const struct { const char *file; GType (*type) (void); } templates[] = {
  { "fl-deck-view.ui", fl_deck_view_get_type },
  { "fl-finding-row.ui", fl_finding_row_get_type },
  { "fl-forces-view.ui", fl_forces_view_get_type },
  { "fl-help-window.ui", fl_help_window_get_type },
  { "fl-moves-view.ui", fl_moves_view_get_type },
  { "fl-problems-dialog.ui", fl_problems_dialog_get_type },
  { "fl-reasons-view.ui", fl_reasons_view_get_type },
  { "fl-sums-view.ui", fl_sums_view_get_type },
  { "fl-ties-view.ui", fl_ties_view_get_type },
  { "fl-trailers-dialog.ui", fl_trailers_dialog_get_type },
  { "fl-why-view.ui", fl_why_view_get_type },
  { "fl-window.ui", fl_window_get_type },
};

static void
run_pending (void)
{
  while (gtk_events_pending ())
    gtk_main_iteration ();
}

static void
test_made (gconstpointer data)
{
  const gsize i = GPOINTER_TO_SIZE (data);
  const GType type = templates[i].type ();
  GtkWidget *widget = g_object_new (type, NULL);
  GtkWidget *top = widget;

  g_assert_true (GTK_IS_WIDGET (widget));
  if (!GTK_IS_WINDOW (widget))
    {
      top = gtk_window_new (GTK_WINDOW_TOPLEVEL);
      gtk_container_add (GTK_CONTAINER (top), widget);
    }
  gtk_widget_show (top);
  gtk_widget_show (widget);
  run_pending ();
  g_assert_true (gtk_widget_get_mapped (widget));
  gtk_widget_destroy (top);
  run_pending ();
}

/* No template is left out of the table above. */
static void
test_all_here (void)
{
  g_auto(GStrv) names = g_resources_enumerate_children (BASE, G_RESOURCE_LOOKUP_FLAGS_NONE, NULL);
  guint n = 0;

  g_assert_nonnull (names);
  for (gsize i = 0; names[i] != NULL; i++)
    {
      gboolean known = FALSE;

      if (!g_str_has_suffix (names[i], ".ui"))
        continue;
      for (gsize k = 0; k < G_N_ELEMENTS (templates); k++)
        known |= g_str_equal (templates[k].file, names[i]);
      if (!known)
        g_test_message ("%s is not tried", names[i]);
      g_assert_true (known);
      n++;
    }
  g_assert_cmpuint (n, ==, G_N_ELEMENTS (templates));
}

static char *
resource_text (const char *name)
{
  g_autofree char *path = g_strconcat (BASE, name, NULL);
  g_autoptr(GError) error = NULL;
  g_autoptr(GBytes) bytes = g_resources_lookup_data (path, G_RESOURCE_LOOKUP_FLAGS_NONE, &error);
  gsize length;
  const char *data;

  g_assert_no_error (error);
  data = g_bytes_get_data (bytes, &length);
  return g_strndup (data, length);
}

/* The names of the window's actions that a file uses. (transfer full) set of char* */
static GHashTable *
actions_used (const char *name)
{
  g_autofree char *text = resource_text (name);
  g_autoptr(GRegex) regex = g_regex_new (">win\\.([a-z-]+)<", 0, 0, NULL);
  g_autoptr(GMatchInfo) match = NULL;
  GHashTable *used = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (g_regex_match (regex, text, 0, &match); g_match_info_matches (match); g_match_info_next (match, NULL))
    g_hash_table_add (used, g_match_info_fetch (match, 1));
  return used;
}

/* The toolkit adds this one to a window when it finds gtk/help-overlay.ui. */
#define OVERLAY "show-help-overlay"

static void
assert_all_exist (GActionGroup *window, const char *file)
{
  g_autoptr(GHashTable) used = actions_used (file);
  GHashTableIter iter;
  gpointer name;

  g_hash_table_iter_init (&iter, used);
  while (g_hash_table_iter_next (&iter, &name, NULL))
    {
      if (!g_action_group_has_action (window, name) && !g_str_equal (name, OVERLAY))
        g_error ("%s: win.%s does nothing", file, (const char *) name);
    }
}

static void
test_actions_exist (void)
{
  GtkWidget *window = g_object_new (FL_TYPE_WINDOW, NULL);

  assert_all_exist (G_ACTION_GROUP (window), "gtk/menus.ui");
  for (gsize i = 0; i < G_N_ELEMENTS (templates); i++)
    assert_all_exist (G_ACTION_GROUP (window), templates[i].file);
  for (gsize i = 0; FL_WINDOW_ACCELERATORS[i].action != NULL; i++)
    {
      g_auto(GStrv) parts = g_strsplit (FL_WINDOW_ACCELERATORS[i].action, "::", 2);   /* an action, and its target */
      const char *name = parts[0] + strlen ("win.");

      g_assert_true (g_str_has_prefix (parts[0], "win."));
      g_assert_true (g_action_group_has_action (G_ACTION_GROUP (window), name) || g_str_equal (name, OVERLAY));
    }
  gtk_widget_destroy (window);
}

static void
test_menu_has_all (void)
{
  GtkWidget *window = g_object_new (FL_TYPE_WINDOW, NULL);
  g_auto(GStrv) actions = g_action_group_list_actions (G_ACTION_GROUP (window));
  g_autoptr(GHashTable) used = actions_used ("gtk/menus.ui");

  g_assert_cmpuint (g_strv_length (actions), >=, 30);
  for (gsize i = 0; actions[i] != NULL; i++)
    if (!g_hash_table_contains (used, actions[i]))
      g_error ("win.%s is not in the menu bar", actions[i]);
  gtk_widget_destroy (window);
}

/* No key is given twice, and each can be typed. */
static void
test_keys (void)
{
  g_autoptr(GHashTable) seen = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (gsize i = 0; FL_WINDOW_ACCELERATORS[i].action != NULL; i++)
    for (gsize k = 0; FL_WINDOW_ACCELERATORS[i].keys[k] != NULL; k++)
      {
        guint key;
        GdkModifierType modifiers;

        gtk_accelerator_parse (FL_WINDOW_ACCELERATORS[i].keys[k], &key, &modifiers);
        g_assert_cmpuint (key, !=, 0);
        g_assert_true (g_hash_table_add (seen, gtk_accelerator_name (key, modifiers)));
      }
  g_assert_cmpuint (g_hash_table_size (seen), >=, 25);
}

static void
test_symbols (void)
{
  static const char *const names[] = {
    "fl-stands-symbolic", "fl-look-symbolic", "fl-not-known-symbolic", "fl-short-symbolic", "fl-cannot-symbolic", "fl-no-plan-symbolic",
    "fl-note-symbolic", "fl-cure-symbolic", "fl-plan-symbolic", "fl-plan-day-symbolic", "fl-export-symbolic", "org.fairlead.Fairlead",
  };

  gtk_icon_theme_add_resource_path (gtk_icon_theme_get_default (), BASE "icons");
  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autoptr(GError) error = NULL;
      g_autoptr(GdkPixbuf) icon = gtk_icon_theme_load_icon (gtk_icon_theme_get_default (), names[i], 16, GTK_ICON_LOOKUP_FORCE_SIZE, &error);

      g_assert_no_error (error);
      g_assert_nonnull (icon);
    }
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_resources_register (fl_desk_get_resource ());
  for (gsize i = 0; i < G_N_ELEMENTS (templates); i++)
    {
      g_autofree char *path = g_strconcat ("/templates/made/", templates[i].file, NULL);

      g_test_add_data_func (path, GSIZE_TO_POINTER (i), test_made);
    }
  g_test_add_func ("/templates/all-here", test_all_here);
  g_test_add_func ("/commands/actions-exist", test_actions_exist);
  g_test_add_func ("/commands/menu-has-all", test_menu_has_all);
  g_test_add_func ("/commands/keys", test_keys);
  g_test_add_func ("/symbols", test_symbols);
  return g_test_run ();
}
