/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The GTK program: language, resources, and into the application. */
#include <glib/gi18n.h>
#include <locale.h>

#include "fl-application.h"
#include "fl-desk-resources.h"
#include "fl-places.h"

int
main (int argc, char **argv)
{
  g_autoptr(FlApplication) application = NULL;

  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, fl_places_locale_dir ());
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
  g_resources_register (fl_desk_get_resource ());
  g_set_prgname ("org.fairlead.Fairlead");
  application = fl_application_new ();
  return g_application_run (G_APPLICATION (application), argc, argv);
}
