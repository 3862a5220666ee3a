/* SPDX-License-Identifier: GPL-3.0-or-later */
/* For tests that numbers never follow the locale: one with a decimal comma, built for the test where the system has none. */
#ifndef COMMA_LOCALE_H
#define COMMA_LOCALE_H

#include <glib/gstdio.h>
#include <locale.h>

/* Builds de_DE.UTF-8 from the system's locale sources; its folder, or NULL where there are no sources. (transfer full) */
static inline char *
comma_locale_build (void)
{
  g_autofree char *folder = g_dir_make_tmp ("comma-locale-XXXXXX", NULL), *target = NULL;
  const char *command[] = { "localedef", "-i", "de_DE", "-f", "UTF-8", NULL, NULL };

  if (folder == NULL)
    return NULL;
  target = g_build_filename (folder, "de_DE.UTF-8", NULL);
  command[5] = target;
  if (g_spawn_sync (NULL, (char **) command, NULL, G_SPAWN_SEARCH_PATH | G_SPAWN_STDOUT_TO_DEV_NULL | G_SPAWN_STDERR_TO_DEV_NULL,
                    NULL, NULL, NULL, NULL, NULL, NULL)
      && g_file_test (target, G_FILE_TEST_IS_DIR))
    return g_steal_pointer (&folder);
  g_rmdir (folder);
  return NULL;
}

static inline void
comma_locale_remove (const char *folder)
{
  const char *command[] = { "rm", "-rf", "--", folder, NULL };

  g_spawn_sync (NULL, (char **) command, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, NULL, NULL, NULL, NULL);
}

/* Runs `check` under such a locale; skips the test where there is none to be had. */
static inline void
under_comma_locale (void (*check) (void))
{
  g_autofree char *folder = NULL;

  if (setlocale (LC_ALL, "de_DE.UTF-8") == NULL && (folder = comma_locale_build ()) != NULL)
    {
      g_setenv ("LOCPATH", folder, TRUE);
      setlocale (LC_ALL, "de_DE.UTF-8");
    }
  if (g_strcmp0 (localeconv ()->decimal_point, ",") == 0)
    check ();
  else
    g_test_skip ("no locale with a decimal comma can be had");
  setlocale (LC_ALL, "C");
  g_unsetenv ("LOCPATH");
  if (folder != NULL)
    comma_locale_remove (folder);
}

#endif
