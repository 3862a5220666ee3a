/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Plan documents as texts, for the tests of the plan document. */
#ifndef PLAN_TEXT_H
#define PLAN_TEXT_H

#include <string.h>

#include "fl-plan.h"

static inline GBytes *
bytes_of (const char *text)
{
  return g_bytes_new (text, strlen (text));
}

static inline char *
text_of (const FlPlan *plan)
{
  g_autoptr(GBytes) bytes = fl_plan_to_json (plan);
  gsize length;
  const char *data = g_bytes_get_data (bytes, &length);

  return g_strndup (data, length);
}

static inline void
show (const FlProblems *problems)
{
  for (guint i = 0; i < fl_problems_count (problems); i++)
    {
      g_autofree char *text = fl_problem_text (fl_problems_at (problems, i), "plan");

      g_test_message ("%s", text);
    }
}

static inline FlPlan *
read_good (const char *text)
{
  g_autoptr(GBytes) bytes = bytes_of (text);
  g_autoptr(FlProblems) problems = fl_problems_new ();
  FlPlan *plan = fl_plan_new_from_json (bytes, problems);

  show (problems);
  g_assert_cmpuint (fl_problems_count (problems), ==, 0);
  g_assert_nonnull (plan);
  return plan;
}

static inline char *
read_data (const char *name)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "data", name, NULL);
  g_autoptr(GError) error = NULL;
  char *text;

  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  return text;
}

/* `text` with its first `from` replaced; it must be there. */
static inline char *
edited (const char *text, const char *from, const char *to)
{
  const char *at = strstr (text, from);

  g_assert_nonnull (at);
  return g_strdup_printf ("%.*s%s%s", (int) (at - text), text, to, at + strlen (from));
}

#endif
