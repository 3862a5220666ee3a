/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The example fleet of the format's description, and small steps of the tests that start from it. */
#ifndef FL_TEST_EXAMPLE_H
#define FL_TEST_EXAMPLE_H

#include <string.h>

#include "fl-fleet.h"

/* The text of tests/data/NAME. (transfer full) */
G_GNUC_UNUSED G_GNUC_NO_INLINE static char *   /* gcc 12, when it inlines this, takes what is returned for the variable's own place */
test_data (const char *name)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "data", name, NULL);
  g_autoptr(GError) error = NULL;
  char *text = NULL;

  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  return text;
}

/* `text` with the first `from` replaced; *line is that of an '@' in `to`, which is taken out, or of the start of `to`. (transfer full) */
static inline char *
with_change (const char *text, const char *from, const char *to, guint *line)
{
  const char *at = strstr (text, from), *mark = strchr (to, '@');
  GString *out;

  g_assert_nonnull (at);
  out = g_string_new_len (text, at - text);
  g_string_append_len (out, to, mark == NULL ? 0 : mark - to);
  if (line != NULL)
    {
      *line = 1;
      for (gsize i = 0; i < out->len; i++)
        *line += out->str[i] == '\n';
    }
  g_string_append (out, mark == NULL ? to : mark + 1);
  g_string_append (out, at + strlen (from));
  return g_string_free (out, FALSE);
}

static inline FlFleet *
fleet_of (const char *text, FlProblems *problems)
{
  g_autoptr(GBytes) bytes = g_bytes_new (text, strlen (text));

  return fl_fleet_new_from_json (bytes, problems);
}

/* A fleet without any problem. */
static inline FlFleet *
good_fleet (const char *text)
{
  g_autoptr(FlProblems) problems = fl_problems_new ();
  FlFleet *fleet = fleet_of (text, problems);

  for (guint i = 0; i < fl_problems_count (problems); i++)
    {
      g_autofree char *line = fl_problem_text (fl_problems_at (problems, i), NULL);

      g_test_message ("%s", line);
    }
  g_assert_nonnull (fleet);
  g_assert_cmpuint (fl_problems_count (problems), ==, 0);
  return fleet;
}

static inline FlFleet *
example_fleet (void)
{
  g_autofree char *text = test_data ("example-fleet.json");

  return good_fleet (text);
}

static inline char *
json_of (const FlFleet *fleet)
{
  g_autoptr(GBytes) bytes = fl_fleet_to_json (fleet);
  gsize length;
  const char *data = g_bytes_get_data (bytes, &length);

  return g_strndup (data, length);
}

/* A record without any problem. */
static inline FlRecord *
good_record (FlKind kind, const char *text)
{
  g_autoptr(FlProblems) problems = fl_problems_new ();
  FlRecord *record = fl_record_new (kind, text, -1, "", 1, problems);

  for (guint i = 0; i < fl_problems_count (problems); i++)
    {
      g_autofree char *line = fl_problem_text (fl_problems_at (problems, i), NULL);

      g_test_message ("%s", line);
    }
  g_assert_nonnull (record);
  g_assert_cmpuint (fl_problems_count (problems), ==, 0);
  return record;
}

/* The problem with this path; NULL if there is none. */
static inline const FlProblem *
problem_at (const FlProblems *problems, const char *path)
{
  for (guint i = 0; i < fl_problems_count (problems); i++)
    if (strcmp (fl_problems_at (problems, i)->path, path) == 0)
      return fl_problems_at (problems, i);
  return NULL;
}

#define assert_quantity(q, v, u) \
  G_STMT_START { \
    FlQuantity assert_q_ = (q); \
    g_assert_cmpint (assert_q_.unit, ==, (u)); \
    g_assert_cmpfloat (assert_q_.value, ==, (v)); \
  } G_STMT_END

#endif
