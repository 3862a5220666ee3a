/* SPDX-License-Identifier: GPL-3.0-or-later */
/* `fairlead [--day DATE] [FLEET]`. */
#include <glib/gi18n.h>

#include "fl-application.h"

#include "fl-config.h"
#include "fl-settings.h"
#include "fl-window.h"

struct _FlApplication
{
  GtkApplication parent_instance;
};

G_DEFINE_FINAL_TYPE (FlApplication, fl_application, GTK_TYPE_APPLICATION)

/* ── actions of the program ── */

static void
on_quit (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  g_autoptr(GList) windows = g_list_copy (gtk_application_get_windows (data));

  (void) action;
  (void) parameter;
  /* Each asks for its own plans. */
  for (GList *link = windows; link != NULL; link = link->next)
    gtk_window_close (link->data);
}

static void
on_about (GSimpleAction *action, GVariant *parameter, gpointer data)
{
  (void) action;
  (void) parameter;
  gtk_show_about_dialog (gtk_application_get_active_window (data), "program-name", _("Fairlead"), "version", FL_VERSION, "logo-icon-name",
                         "org.fairlead.Fairlead", "license-type", GTK_LICENSE_GPL_3_0, "comments",
                         _("Checks and plans the tie-down of heavy machines on trailers.\n\nLocal rules, the makers’ manuals and a competent "
                           "person at the truck come first."),
                         "copyright", _("The Fairlead authors"), NULL);
}

static const GActionEntry entries[] = {
  { .name = "quit", .activate = on_quit },
  { .name = "about", .activate = on_about },
};

/* ── command line ── */

static const GOptionEntry options[] = {
  { "day", 'd', 0, G_OPTION_ARG_STRING, NULL, N_("Show the moves of this day"), N_("YYYY-MM-DD") },
  { "version", 'v', 0, G_OPTION_ARG_NONE, NULL, N_("Print the version and exit"), NULL },
  { G_OPTION_REMAINING, 0, 0, G_OPTION_ARG_FILENAME_ARRAY, NULL, NULL, N_("[FLEET]") },
  { NULL, 0, 0, 0, NULL, NULL, NULL },
};

static gint
fl_application_handle_local_options (GApplication *application, GVariantDict *given)
{
  (void) application;
  if (!g_variant_dict_contains (given, "version"))
    return -1;
  g_print ("fairlead %s\n", FL_VERSION);
  return 0;
}

/* The fleet that was open last, if it is still there. (transfer full) */
static char *
last_fleet (void)
{
  g_autofree char *uri = fl_settings_text (fl_settings_get (), "last-fleet");
  g_autofree char *path = *uri != '\0' ? g_filename_from_uri (uri, NULL, NULL) : NULL;

  return path != NULL && g_file_test (path, G_FILE_TEST_IS_REGULAR) ? g_steal_pointer (&path) : NULL;
}

static void
open_window (GApplication *application, const char *path, const char *day)
{
  FlWindow *window = fl_window_new (GTK_APPLICATION (application));

  gtk_window_present (GTK_WINDOW (window));
  if (path != NULL)
    fl_window_open (window, path);
  if (day != NULL)
    fl_window_show_day (window, day);
}

static gint
fl_application_command_line (GApplication *application, GApplicationCommandLine *line)
{
  GVariantDict *given = g_application_command_line_get_options_dict (line);
  g_autofree const char **names = NULL;
  const char *day = NULL;

  g_variant_dict_lookup (given, "day", "&s", &day);
  if (g_variant_dict_lookup (given, G_OPTION_REMAINING, "^a&ay", &names) && names[0] != NULL)
    for (gsize i = 0; names[i] != NULL; i++)
      {
        g_autoptr(GFile) file = g_application_command_line_create_file_for_arg (line, names[i]);
        g_autofree char *path = g_file_get_path (file);

        open_window (application, path != NULL ? path : names[i], day);
      }
  else
    {
      g_autofree char *path = last_fleet ();

      open_window (application, path, day);
    }
  return 0;
}

static void
fl_application_activate (GApplication *application)
{
  GtkWindow *window = gtk_application_get_active_window (GTK_APPLICATION (application));

  if (window != NULL)
    gtk_window_present (window);
  else
    {
      g_autofree char *path = last_fleet ();

      open_window (application, path, NULL);
    }
}

/* ── starting ── */

static void
load_style (void)
{
  g_autoptr(GtkCssProvider) provider = gtk_css_provider_new ();

  gtk_css_provider_load_from_resource (provider, "/org/fairlead/Fairlead/fairlead.css");
  gtk_style_context_add_provider_for_screen (gdk_screen_get_default (), GTK_STYLE_PROVIDER (provider), GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
}

static void
fl_application_startup (GApplication *application)
{
  static const char *const quit_keys[] = { "<Primary>q", NULL };

  G_APPLICATION_CLASS (fl_application_parent_class)->startup (application);
  g_action_map_add_action_entries (G_ACTION_MAP (application), entries, G_N_ELEMENTS (entries), application);
  for (gsize i = 0; FL_WINDOW_ACCELERATORS[i].action != NULL; i++)
    gtk_application_set_accels_for_action (GTK_APPLICATION (application), FL_WINDOW_ACCELERATORS[i].action, FL_WINDOW_ACCELERATORS[i].keys);
  gtk_application_set_accels_for_action (GTK_APPLICATION (application), "app.quit", quit_keys);
  gtk_window_set_default_icon_name ("org.fairlead.Fairlead");
  load_style ();
}

FlApplication *
fl_application_new (void)
{
  return g_object_new (FL_TYPE_APPLICATION, "application-id", "org.fairlead.Fairlead", "resource-base-path", "/org/fairlead/Fairlead", "flags",
                       G_APPLICATION_HANDLES_COMMAND_LINE, NULL);
}

static void
fl_application_class_init (FlApplicationClass *klass)
{
  GApplicationClass *application = G_APPLICATION_CLASS (klass);

  application->startup = fl_application_startup;
  application->activate = fl_application_activate;
  application->command_line = fl_application_command_line;
  application->handle_local_options = fl_application_handle_local_options;
}

static void
fl_application_init (FlApplication *application)
{
  g_application_add_main_option_entries (G_APPLICATION (application), options);
  g_application_set_option_context_summary (G_APPLICATION (application), _("Checks and plans the tie-down of heavy machines on trailers."));
}
