/* SPDX-License-Identifier: GPL-3.0-or-later */
/* check-fleet: every problem and warning of a fleet document, each with its path. */
#include "fl-cli-say.h"

#include <string.h>

static GBytes *
problems_json (const FlProblems *problems)
{
  g_autoptr(FlJsonWriter) writer = fl_json_writer_new ();

  fl_json_writer_begin_object (writer, NULL);
  fl_json_writer_begin_list (writer, "problems");
  for (guint i = 0; i < fl_problems_count (problems); i++)
    {
      const FlProblem *problem = fl_problems_at (problems, i);

      fl_json_writer_begin_object (writer, NULL);
      fl_json_writer_text (writer, "path", problem->path);
      if (problem->line > 0)
        fl_json_writer_number (writer, "line", problem->line);
      else
        fl_json_writer_null (writer, "line");
      fl_json_writer_text (writer, "value", problem->value);
      fl_json_writer_text (writer, "expected", problem->expected);
      fl_json_writer_text (writer, "severity", problem->severity == FL_SEVERITY_ERROR ? "error" : "warning");
      fl_json_writer_end_object (writer);
    }
  fl_json_writer_end_list (writer);
  fl_json_writer_end_object (writer);
  return fl_json_writer_end (writer);
}

/* Warnings belong to the answer; errors have their lines on standard error. */
static void
print_warnings (const char *path, const FlProblems *problems, GString *out)
{
  for (guint i = 0; i < fl_problems_count (problems); i++)
    {
      const FlProblem *problem = fl_problems_at (problems, i);
      g_autofree char *line = problem->severity == FL_SEVERITY_WARNING ? fl_problem_text (problem, path) : NULL;

      if (line != NULL)
        g_string_append_printf (out, "warning: %s\n", line);
    }
}

static void
print_count (GString *out, gsize n, const char *one, const char *many)
{
  g_string_append_printf (out, ", %" G_GSIZE_FORMAT " %s", n, n == 1 ? one : many);
}

/* What is in it, so that a list that was misspelt is missed. */
static void
print_contents (const FlOffice *office, GString *out)
{
  const FlFleet *fleet = fl_office_fleet (office);
  const FlBookData *book = fl_book_data (fl_office_book (office));

  g_string_append_printf (out, "%s: rule book %s, %s; house rules: %" G_GSIZE_FORMAT "\n  ", fl_fleet_name (fleet), book->id, book->edition,
                          fl_fleet_policy (fleet)->n_rules);
  for (int kind = 0; kind < FL_KIND_POLICY; kind++)
    {
      const gsize n = fl_fleet_count (fleet, (FlKind) kind);

      g_string_append_printf (out, "%s%" G_GSIZE_FORMAT " %s", kind == 0 ? "" : ", ", n,
                              n == 1 ? fl_kind_name ((FlKind) kind) : fl_kind_list ((FlKind) kind));
    }
  g_string_append_c (out, '\n');
}

static int
answer_people (const FlCliArgs *args, const FlOffice *office, const FlProblems *problems, int status)
{
  g_autoptr(GString) out = g_string_new (NULL);
  guint errors = fl_problems_errors (problems);

  print_warnings (args->words[0], problems, out);
  if (office != NULL)
    print_contents (office, out);
  g_string_append (out, args->words[0]);
  g_string_append_printf (out, ": %s", office != NULL ? "may be used" : "may not be used");
  print_count (out, errors, "error", "errors");
  print_count (out, fl_problems_count (problems) - MIN (errors, fl_problems_count (problems)), "warning", "warnings");
  g_string_append_c (out, '\n');
  return fl_cli_answer (out, status);
}

int
fl_cli_check_fleet (const FlCliArgs *args)
{
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(GError) error = NULL;
  g_autoptr(FlOffice) office = fl_office_open (args->words[0], problems, &error);
  int status = office != NULL ? FL_CLI_GOOD : fl_cli_complain_all (args->words[0], problems, error);
  g_autofree char *prefix = g_strconcat (args->words[0], ": ", NULL);
  g_autoptr(GBytes) json = NULL;

  /* What stands against the file itself belongs to the answer as well. */
  if (office == NULL && fl_problems_errors (problems) == 0)
    fl_problems_add (problems, FL_SEVERITY_ERROR, "", 0, NULL, "%s",
                     g_str_has_prefix (error->message, prefix) ? error->message + strlen (prefix) : error->message);
  if (!args->json)
    return answer_people (args, office, problems, status);
  json = problems_json (problems);
  return fl_cli_answer_json (json, status);
}
