/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where the program's own files stand; see the header. */
#include "fl-places.h"

#include "fl-config.h"

#include <string.h>

/* TRUE if @path is @folder or stands below it; both absolute. */
static gboolean
stands_in (const char *path, const char *folder)
{
  g_autofree char *clean = g_canonicalize_filename (path, "/");
  gsize n = strlen (folder);
  return strncmp (clean, folder, n) == 0 && (clean[n] == '\0' || clean[n] == '/');
}

FlPlaces *
fl_places_new (const char *data_override, const char *program)
{
  FlPlaces *places = g_new0 (FlPlaces, 1);
  if (program != NULL && stands_in (program, FL_BUILD_ROOT))
    {
      places->data = g_build_filename (FL_SOURCE_ROOT, "data", NULL);
      places->locale = g_build_filename (FL_BUILD_ROOT, "po", NULL);
      places->settings = g_build_filename (FL_BUILD_ROOT, "data", NULL);
    }
  else
    {
      places->data = g_strdup (FL_INSTALLED_DATA);
      places->locale = g_strdup (FL_INSTALLED_LOCALE);
    }
  if (data_override != NULL && *data_override != '\0')
    {
      g_free (places->data);
      places->data = g_canonicalize_filename (data_override, NULL);
    }
  return places;
}

void
fl_places_free (FlPlaces *places)
{
  if (places == NULL)
    return;
  g_free (places->data);
  g_free (places->locale);
  g_free (places->settings);
  g_free (places);
}

const FlPlaces *
fl_places_get (void)
{
  static const FlPlaces *places;
  if (g_once_init_enter (&places))
    {
      g_autofree char *program = g_file_read_link ("/proc/self/exe", NULL);
      g_once_init_leave (&places, fl_places_new (g_getenv ("FAIRLEAD_DATA"), program));
    }
  return places;
}

const char *
fl_places_data_dir (void)
{
  return fl_places_get ()->data;
}

char *
fl_places_file (const char *folder, const char *name)
{
  g_return_val_if_fail (folder != NULL, NULL);
  return g_build_filename (fl_places_data_dir (), folder, name, NULL);
}

static int
compare_names (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

char **
fl_places_list (const char *folder, const char *suffix, GError **error)
{
  g_return_val_if_fail (folder != NULL && suffix != NULL, NULL);
  g_autofree char *path = fl_places_file (folder, NULL);
  g_autoptr (GDir) dir = g_dir_open (path, 0, error);
  if (dir == NULL)
    return NULL;

  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);
  for (const char *name = g_dir_read_name (dir); name != NULL; name = g_dir_read_name (dir))
    if (g_str_has_suffix (name, suffix))
      g_ptr_array_add (names, g_strndup (name, strlen (name) - strlen (suffix)));
  g_ptr_array_sort (names, compare_names);
  g_ptr_array_add (names, NULL);
  return (char **) g_ptr_array_steal (names, NULL);
}

const char *
fl_places_locale_dir (void)
{
  return fl_places_get ()->locale;
}

char *
fl_places_words_file (const char *language)
{
  g_return_val_if_fail (language != NULL, NULL);
  return g_build_filename (fl_places_locale_dir (), language, "LC_MESSAGES", GETTEXT_PACKAGE ".mo", NULL);
}

const char *
fl_places_settings_dir (void)
{
  return fl_places_get ()->settings;
}
