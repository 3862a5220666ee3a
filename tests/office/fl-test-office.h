/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Small steps of the office's tests: the example fleet, changed in one place, in a folder of its own. */
#ifndef FL_TEST_OFFICE_H
#define FL_TEST_OFFICE_H

#include <glib/gstdio.h>
#include <string.h>

#include "fl-office.h"

/* The path of tests/data/NAME. (transfer full) */
static inline char *
data_path (const char *name)
{
  return g_test_build_filename (G_TEST_DIST, "data", name, NULL);
}

/* The text of tests/data/NAME. (transfer full) */
static inline char *
data_text (const char *name)
{
  g_autofree char *path = data_path (name);
  g_autoptr(GError) error = NULL;
  g_autoptr(GMappedFile) file = g_mapped_file_new (path, FALSE, &error);

  g_assert_no_error (error);
  return g_strndup (g_mapped_file_get_contents (file), g_mapped_file_get_length (file));
}

/* `text` with its only or first `from` replaced by `to`; *line (may be NULL) is the line on which it stands. (transfer full) */
static inline char *
replaced (const char *text, const char *from, const char *to, guint *line)
{
  const char *at = strstr (text, from);
  GString *out;

  g_assert_nonnull (at);
  out = g_string_new_len (text, at - text);
  for (gsize i = 0, n = 1; line != NULL && i <= out->len; i++)
    {
      *line = (guint) n;
      n += i < out->len && out->str[i] == '\n' ? 1 : 0;
    }
  g_string_append (out, to);
  g_string_append (out, at + strlen (from));
  return g_string_free (out, FALSE);
}

/* A folder that is emptied and removed with folder_free. (transfer full) */
static inline char *
folder_new (void)
{
  g_autoptr(GError) error = NULL;
  char *folder = g_dir_make_tmp ("fairlead-office-XXXXXX", &error);

  g_assert_no_error (error);
  return folder;
}

static inline void
folder_free (char *folder)
{
  g_autoptr(GDir) dir = g_dir_open (folder, 0, NULL);

  for (const char *name = g_dir_read_name (dir); name != NULL; name = g_dir_read_name (dir))
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      g_assert_cmpint (g_remove (path), ==, 0);
    }
  g_assert_cmpint (g_rmdir (folder), ==, 0);
  g_free (folder);
}
typedef char TestFolder;
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TestFolder, folder_free)

/* A file in it; length -1: a text. (transfer full) its path */
static inline char *
write_file (const char *folder, const char *name, const char *content, gssize length)
{
  char *path = g_build_filename (folder, name, NULL);
  g_autoptr(GError) error = NULL;

  g_file_set_contents (path, content, length, &error);
  g_assert_no_error (error);
  return path;
}

/* Opens a document that holds; all its lines are shown where it does not. (transfer full) */
static inline FlOffice *
open_text (const char *text)
{
  g_autoptr(TestFolder) folder = folder_new ();
  g_autofree char *path = write_file (folder, "fleet.json", text, -1);
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(GError) error = NULL;
  FlOffice *office = fl_office_open (path, problems, &error);

  for (guint i = 0; i < fl_problems_count (problems); i++)
    {
      g_autofree char *line = fl_problem_text (fl_problems_at (problems, i), path);

      g_test_message ("%s", line);
    }
  g_assert_no_error (error);
  g_assert_nonnull (office);
  return office;
}

static inline FlOffice *
open_example (void)
{
  g_autofree char *text = data_text ("example-fleet.json");

  return open_text (text);
}

static inline FlPlan *
plan_of_text (const char *text)
{
  g_autoptr(GBytes) bytes = g_bytes_new (text, strlen (text));
  FlPlan *plan = fl_plan_new_from_json (bytes, NULL);

  g_assert_nonnull (plan);
  return plan;
}

static inline FlPlan *
example_plan (void)
{
  g_autofree char *text = data_text ("example-plan.json");

  return plan_of_text (text);
}

static inline char *
plan_text (const FlPlan *plan)
{
  g_autoptr(GBytes) bytes = fl_plan_to_json (plan);
  gsize length;
  const char *data = g_bytes_get_data (bytes, &length);

  return g_strndup (data, length);
}

/* The last lines of the example's only move and of its list. */
#define END_OF_MOVES "\"gear_yard\": \"NORTH\"\n  }"

/* The example with further moves, each a JSON object with a comma before it. (transfer full) */
static inline char *
text_with_moves (const char *moves)
{
  g_autofree char *text = data_text ("example-fleet.json");
  g_autofree char *end = g_strconcat (END_OF_MOVES, moves, NULL);

  return replaced (text, END_OF_MOVES, end, NULL);
}

#endif
