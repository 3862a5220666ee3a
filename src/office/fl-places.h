/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where the program's own files stand: rule books, schemas, templates' data, the card's font, languages. The only place
 * that knows, in the build tree and installed. Everything below office gets what it needs passed in.
 *
 * The data folder is, in this order:
 *   the folder named by FAIRLEAD_DATA, if that is set and not empty;
 *   data/ of the source tree, while the running program stands in its build folder;
 *   <datadir>/fairlead of the installation.
 * It holds rules/, schema/, fonts/ and demo/. Nothing here checks that a file exists: whoever reads it says so best. */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct
{
  char *data;     /* folder of rules/, schema/, fonts/, demo/ */
  char *locale;   /* folder of <language>/LC_MESSAGES/fairlead.mo */
  char *settings; /* folder of a compiled settings schema; NULL: the system's own */
} FlPlaces;

/* fl_places_new:
 * @data_override: (nullable): a data folder that outranks the others; NULL or "" for none
 * @program: (nullable): absolute path of the running program; NULL: not known, taken as installed
 *
 * Decides where everything stands. Reads neither the environment nor the disk: the same answer for the same arguments.
 * An override moves the data folder alone, and is made absolute against the current folder.
 *
 * Returns: (transfer full): free with fl_places_free () */
FlPlaces *fl_places_new (const char *data_override, const char *program);

/* Releases @places; NULL is let pass. */
void fl_places_free (FlPlaces *places);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FlPlaces, fl_places_free)

/* fl_places_get:
 *
 * The places of this process, decided on the first call from FAIRLEAD_DATA and the path of the running program. Any thread.
 *
 * Returns: (transfer none): lives as long as the process */
const FlPlaces *fl_places_get (void);

/* fl_places_data_dir:
 *
 * Returns: (transfer none): the data folder of this process, an absolute path */
const char *fl_places_data_dir (void);

/* fl_places_file:
 * @folder: folder in the data folder: "rules", "schema", "fonts", "demo"
 * @name: (nullable): file in it; NULL for the folder itself
 *
 * fl_places_file ("rules", "us-49cfr393.json") is the US rule book; fl_places_file ("fonts", NULL) is what the card wants.
 *
 * Returns: (transfer full): the path, whether or not anything stands there */
char *fl_places_file (const char *folder, const char *name);

/* fl_places_list:
 * @folder: folder in the data folder
 * @suffix: ending of the wanted names, ".json"
 * @error: GFileError of g_dir_open () when the folder cannot be read
 *
 * Names of all files of one ending, in byte order: the rule books to choose from, the schemas.
 *
 * Returns: (transfer full): names without @suffix, NULL-terminated, perhaps empty; NULL with @error set */
char **fl_places_list (const char *folder, const char *suffix, GError **error);

/* fl_places_locale_dir:
 *
 * Returns: (transfer none): folder of the languages, for bindtextdomain () and fl_places_words_file () */
const char *fl_places_locale_dir (void);

/* fl_places_words_file:
 * @language: language as the catalogs are named: "es", "pt_BR"
 *
 * Returns: (transfer full): path of that language's compiled catalog, whether or not there is one */
char *fl_places_words_file (const char *language);

/* fl_places_settings_dir:
 *
 * Returns: (transfer none) (nullable): folder that holds gschemas.compiled while run from the build folder, for
 *   g_settings_schema_source_new_from_directory (); NULL: use the default source */
const char *fl_places_settings_dir (void);

G_END_DECLS
