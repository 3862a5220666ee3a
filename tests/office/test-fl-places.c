/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where the program's own files are looked for: in the tree, installed, and where FAIRLEAD_DATA says. */
#include "fl-places.h"

#include "fl-config.h"

#include <gio/gio.h>

static void
from_the_build_folder (void)
{
  g_autoptr (FlPlaces) places = fl_places_new (NULL, FL_BUILD_ROOT "/src/cli/fairlead-cli");
  g_assert_cmpstr (places->data, ==, FL_SOURCE_ROOT "/data");
  g_assert_cmpstr (places->locale, ==, FL_BUILD_ROOT "/po");
  g_assert_cmpstr (places->settings, ==, FL_BUILD_ROOT "/data");
}

static void
installed (void)
{
  const char *const programs[] = { "/usr/bin/fairlead", FL_BUILD_ROOT "-other/fairlead", FL_BUILD_ROOT "/../fairlead", NULL };
  for (gsize i = 0; i < G_N_ELEMENTS (programs); i++)
    {
      g_autoptr (FlPlaces) places = fl_places_new ("", programs[i]);
      g_assert_cmpstr (places->data, ==, FL_INSTALLED_DATA);
      g_assert_cmpstr (places->locale, ==, FL_INSTALLED_LOCALE);
      g_assert_null (places->settings);
    }
}

static void
override_moves_the_data_alone (void)
{
  g_autoptr (FlPlaces) places = fl_places_new ("/srv/yard/", FL_BUILD_ROOT "/fairlead");
  g_assert_cmpstr (places->data, ==, "/srv/yard");
  g_assert_cmpstr (places->locale, ==, FL_BUILD_ROOT "/po");

  g_autoptr (FlPlaces) relative = fl_places_new ("yard", NULL);
  g_autofree char *here = g_get_current_dir ();
  g_autofree char *expected = g_build_filename (here, "yard", NULL);
  g_assert_cmpstr (relative->data, ==, expected);
}

/* The font is shipped with its license, and can be found where the tests look for data. */
static void
the_font_is_found (void)
{
  g_autoptr (GError) error = NULL;
  g_auto (GStrv) fonts = fl_places_list ("fonts", ".otf", &error);
  g_assert_no_error (error);
  g_assert_cmpuint (g_strv_length (fonts), ==, 2);
  g_assert_cmpstr (fonts[0], ==, "Inter-Bold");
  g_assert_cmpstr (fonts[1], ==, "Inter-Regular");
  g_autofree char *license = fl_places_file ("fonts", "OFL.txt");
  g_assert_true (g_file_test (license, G_FILE_TEST_IS_REGULAR));
}

static void
a_missing_folder_is_an_error (void)
{
  g_autoptr (GError) error = NULL;
  g_assert_null (fl_places_list ("no-such-folder", ".json", &error));
  g_assert_error (error, G_FILE_ERROR, G_FILE_ERROR_NOENT);
}

static void
words_of_a_language (void)
{
  g_autofree char *path = fl_places_words_file ("pt_BR");
  g_assert_true (g_str_has_prefix (path, fl_places_locale_dir ()));
  g_assert_true (g_str_has_suffix (path, "/pt_BR/LC_MESSAGES/fairlead.mo"));
}

/* The window's settings: the schema that the tree compiles has the keys the window reads, with their types. */
static void
settings_of_the_window (void)
{
  g_assert_nonnull (fl_places_settings_dir ());
  g_autoptr (GError) error = NULL;
  g_autoptr (GSettingsSchemaSource) source
    = g_settings_schema_source_new_from_directory (fl_places_settings_dir (), NULL, TRUE, &error);
  g_assert_no_error (error);
  g_autoptr (GSettingsSchema) schema = g_settings_schema_source_lookup (source, "org.fairlead.Fairlead", FALSE);
  g_assert_nonnull (schema);
  g_autoptr (GSettings) settings = g_settings_new_full (schema, NULL, NULL);
  int width = 0, height = 0;
  g_settings_get (settings, "window-size", "(ii)", &width, &height);
  g_assert_cmpint (width, >, 0);
  g_assert_cmpint (height, >, 0);
  g_autofree char *units = g_settings_get_string (settings, "units");
  g_assert_cmpstr (units, ==, "fleet");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/places/from-the-build-folder", from_the_build_folder);
  g_test_add_func ("/places/installed", installed);
  g_test_add_func ("/places/override-moves-the-data-alone", override_moves_the_data_alone);
  g_test_add_func ("/places/the-font-is-found", the_font_is_found);
  g_test_add_func ("/places/a-missing-folder-is-an-error", a_missing_folder_is_an_error);
  g_test_add_func ("/places/words-of-a-language", words_of_a_language);
  g_test_add_func ("/places/settings-of-the-window", settings_of_the_window);
  return g_test_run ();
}
