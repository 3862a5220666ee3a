/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Standard output and standard error of the console program, and its tables. Plain stdio: g_print would convert to the locale's characters. */
#include "fl-cli-say.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>

#define NOTE_INDENT 6           /* blanks before a line beneath a row */

/* ── the two streams ── */

void
fl_cli_complain (const char *line)
{
  g_autofree char *valid = g_utf8_make_valid (line, -1);

  for (char *at = valid; *at != '\0'; at++)
    if (g_ascii_iscntrl (*at))
      *at = ' ';
  fputs (valid, stderr);
  fputc ('\n', stderr);
}

static int
put (const char *data, gsize length, int status)
{
  g_autofree char *line = NULL;

  if (fwrite (data, 1, length, stdout) == length && fflush (stdout) == 0)
    return status;
  line = g_strdup_printf ("standard output: cannot be written: %s", g_strerror (errno));
  fl_cli_complain (line);
  return FL_CLI_BAD;
}

int
fl_cli_answer (const GString *text, int status)
{
  g_autoptr(GString) plain = g_string_new (NULL);
  g_autofree char *valid = g_utf8_make_valid (text->str, (gssize) text->len);

  for (const char *at = valid; *at != '\0'; at = g_utf8_next_char (at))
    {
      gunichar c = g_utf8_get_char (at);

      g_string_append_unichar (plain, c != '\n' && g_unichar_iscntrl (c) ? 0xFFFD : c);
    }
  return put (plain->str, plain->len, status);
}

int
fl_cli_answer_json (GBytes *json, int status)
{
  gsize length;
  const char *data = g_bytes_get_data (json, &length);

  return put (data, length, status);
}

int
fl_cli_complain_all (const char *file, const FlProblems *problems, const GError *error)
{
  for (guint i = 0; i < fl_problems_count (problems); i++)
    {
      const FlProblem *problem = fl_problems_at (problems, i);
      g_autofree char *line = problem->severity == FL_SEVERITY_ERROR ? fl_problem_text (problem, file) : NULL;

      if (line != NULL)
        fl_cli_complain (line);
    }
  if (fl_problems_errors (problems) == 0 && error != NULL)
    fl_cli_complain (error->message);
  return FL_CLI_BAD;
}

FlOffice *
fl_cli_open (const char *path)
{
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(GError) error = NULL;
  FlOffice *office = fl_office_open (path, problems, &error);
  guint warnings = fl_problems_count (problems) - fl_problems_errors (problems);

  if (office == NULL)
    fl_cli_complain_all (path, problems, error);
  else if (warnings > 0)
    {
      g_autofree char *line = NULL;

      line = g_strdup_printf ("%s: %u %s; fairlead-cli check-fleet lists %s", path, warnings, warnings == 1 ? "warning" : "warnings",
                              warnings == 1 ? "it" : "them");
      fl_cli_complain (line);
    }
  return office;
}

/* ── tables ── */

struct _FlCliTable
{
  char *columns;
  GPtrArray *cells;             /* of char*, row after row */
  GArray *notes;                /* of Note, in the order of their rows */
};

typedef struct { gsize row; char *text; } Note;

static void
clear_note (gpointer note)
{
  g_free (((Note *) note)->text);
}

FlCliTable *
fl_cli_table_new (const char *columns)
{
  FlCliTable *table = g_new0 (FlCliTable, 1);

  table->columns = g_strdup (columns);
  table->cells = g_ptr_array_new_with_free_func (g_free);
  table->notes = g_array_new (FALSE, FALSE, sizeof (Note));
  g_array_set_clear_func (table->notes, clear_note);
  return table;
}

void
fl_cli_table_free (FlCliTable *table)
{
  if (table == NULL)
    return;
  g_free (table->columns);
  g_ptr_array_unref (table->cells);
  g_array_unref (table->notes);
  g_free (table);
}

void
fl_cli_table_take (FlCliTable *table, char *text)
{
  g_ptr_array_add (table->cells, text != NULL ? text : g_strdup (""));
}

void
fl_cli_table_add (FlCliTable *table, const char *text)
{
  fl_cli_table_take (table, g_strdup (text));
}

void
fl_cli_table_take_note (FlCliTable *table, char *text)
{
  const gsize n = strlen (table->columns), rows = (table->cells->len + n - 1) / n;
  Note note = { rows > 0 ? rows - 1 : 0, text };

  g_array_append_val (table->notes, note);
}

static const char *
cell_at (const FlCliTable *table, gsize row, gsize column)
{
  gsize index = row * strlen (table->columns) + column;

  return index < table->cells->len ? g_ptr_array_index (table->cells, index) : "";
}

static glong
width_of (const FlCliTable *table, gsize rows, gsize column)
{
  glong width = 0;

  for (gsize row = 0; row < rows; row++)
    width = MAX (width, g_utf8_strlen (cell_at (table, row, column), -1));
  return width;
}

static void
add_blanks (GString *out, glong n)
{
  for (glong i = 0; i < n; i++)
    g_string_append_c (out, ' ');
}

static void
print_row (const FlCliTable *table, gsize row, const glong *widths, guint indent, GString *out)
{
  add_blanks (out, indent);
  for (gsize column = 0; table->columns[column] != '\0'; column++)
    {
      const char *cell = cell_at (table, row, column);
      glong rest = widths[column] - g_utf8_strlen (cell, -1);

      if (column > 0)
        add_blanks (out, 2);
      add_blanks (out, table->columns[column] == 'r' ? rest : 0);
      g_string_append (out, cell);
      add_blanks (out, table->columns[column] == 'r' ? 0 : rest);
    }
  while (out->len > 0 && out->str[out->len - 1] == ' ')
    g_string_truncate (out, out->len - 1);
  g_string_append_c (out, '\n');
}

void
fl_cli_table_print (const FlCliTable *table, guint indent, GString *out)
{
  gsize n = strlen (table->columns), rows = (table->cells->len + n - 1) / n;
  g_autofree glong *widths = g_new0 (glong, n);
  guint note = 0;

  for (gsize column = 0; column < n; column++)
    widths[column] = width_of (table, rows, column);
  for (gsize row = 0; row < rows; row++)
    {
      print_row (table, row, widths, indent, out);
      for (; note < table->notes->len && g_array_index (table->notes, Note, note).row == row; note++)
        {
          add_blanks (out, indent + NOTE_INDENT);
          g_string_append_printf (out, "%s\n", g_array_index (table->notes, Note, note).text);
        }
    }
}
