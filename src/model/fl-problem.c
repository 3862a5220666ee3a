/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The list of problems of a document, kept in order of line; and their one-line form. */
#include "fl-problem.h"

#include <string.h>

#include "fl-arena.h"
#include "fl-excerpt.h"

enum
{
  PATH_CHARS = 400,             /* a path of 64 long keys is cut like a value */
  EXPECTED_CHARS = 1000
};

struct _FlProblems
{
  GArray *items;                /* FlProblem; sorted by line when first read */
  gboolean unsorted;
  FlArena *arena;
  guint errors;
};

FlProblems *
fl_problems_new (void)
{
  FlProblems *problems = g_new0 (FlProblems, 1);

  problems->items = g_array_new (FALSE, FALSE, sizeof (FlProblem));
  problems->arena = fl_arena_new ();
  return problems;
}

void
fl_problems_free (FlProblems *problems)
{
  if (problems == NULL)
    return;
  g_array_unref (problems->items);
  fl_arena_free (problems->arena);
  g_free (problems);
}

/* One character of foreign text: its length in bytes and what is shown for it; ' ' for all white space and 0xFFFD for junk. */
static gsize
read_char (const char *at, gsize left, gunichar *shown)
{
  gunichar c = g_utf8_get_char_validated (at, (gssize) MIN (left, 6));

  if (c == (gunichar) -1 || c == (gunichar) -2)
    {
      *shown = 0xFFFD;
      return 1;
    }
  if (c == ' ' || c == '\t' || c == '\n' || c == '\r')
    *shown = ' ';
  else if (g_unichar_iscntrl (c) || c == 0x2028 || c == 0x2029)
    *shown = 0xFFFD;
  else
    *shown = c;
  return (gsize) g_utf8_skip[*(const guchar *) at];
}

char *
fl_excerpt (const char *text, gssize length, guint max_chars)
{
  g_autoptr(GString) out = g_string_new (NULL);
  gsize size = length < 0 ? strlen (text) : (gsize) length;
  gsize before_last = 0;        /* where to cut if one character more than allowed turns up */
  guint chars = 0;
  gunichar c, previous = 0;

  for (gsize at = 0; at < size; previous = c)
    {
      at += read_char (text + at, size - at, &c);
      if (c == ' ' && previous == ' ')
        continue;
      if (chars == max_chars)
        {
          g_string_truncate (out, before_last);
          g_string_append (out, "…");
          break;
        }
      before_last = out->len;
      g_string_append_unichar (out, c);
      chars++;
    }
  return g_string_free (g_steal_pointer (&out), FALSE);
}

static const char *
keep (FlProblems *problems, const char *text, guint max_chars)
{
  g_autofree char *line = text == NULL ? NULL : fl_excerpt (text, -1, max_chars);

  return fl_arena_text (problems->arena, line);
}

static void
append (FlProblems *problems, const FlProblem *problem)
{
  if (problems->items->len > 0)
    problems->unsorted |= g_array_index (problems->items, FlProblem, problems->items->len - 1).line > problem->line;
  g_array_append_vals (problems->items, problem, 1);
}

/* A document with more problems than anyone reads must not fill the memory. */
static void
add_last (FlProblems *problems, guint line)
{
  const FlProblem problem = { "", line, NULL, "there are more problems than are listed: mend these first", FL_SEVERITY_ERROR };

  append (problems, &problem);
}

void
fl_problems_add (FlProblems *problems, FlSeverity severity, const char *path, guint line, const char *value,
                 const char *expected, ...)
{
  g_autofree char *sentence = NULL;
  FlProblem problem = { 0 };
  va_list args;

  if (problems == NULL)
    return;
  if (severity == FL_SEVERITY_ERROR)
    problems->errors++;
  if (problems->items->len > FL_PROBLEMS_MAX)
    return;
  if (problems->items->len == FL_PROBLEMS_MAX)
    {
      add_last (problems, line);
      return;
    }
  va_start (args, expected);
  sentence = g_strdup_vprintf (expected, args);
  va_end (args);
  problem.path = keep (problems, path == NULL ? "" : path, PATH_CHARS);
  problem.line = line;
  problem.value = keep (problems, value, FL_EXCERPT_CHARS);
  problem.expected = keep (problems, sentence, EXPECTED_CHARS);
  problem.severity = severity;
  append (problems, &problem);
}

guint
fl_problems_count (const FlProblems *problems)
{
  return problems == NULL ? 0 : problems->items->len;
}

guint
fl_problems_errors (const FlProblems *problems)
{
  return problems == NULL ? 0 : problems->errors;
}

static gint
by_line (gconstpointer a, gconstpointer b)
{
  guint line_a = ((const FlProblem *) a)->line, line_b = ((const FlProblem *) b)->line;

  return (line_a > line_b) - (line_a < line_b);
}

const FlProblem *
fl_problems_at (const FlProblems *problems, guint index)
{
  g_return_val_if_fail (problems != NULL && index < problems->items->len, NULL);
  if (problems->unsorted)
    {
      g_array_sort (problems->items, by_line);  /* stable: GLib's is a merge sort */
      ((FlProblems *) problems)->unsorted = FALSE;
    }
  return &g_array_index (problems->items, FlProblem, index);
}

static void
add_part (GString *text, const char *part)
{
  if (part == NULL || *part == '\0')
    return;
  if (text->len > 0)
    g_string_append (text, ": ");
  g_string_append (text, part);
}

char *
fl_problem_text (const FlProblem *problem, const char *file)
{
  GString *text = g_string_new (NULL);

  add_part (text, file);
  if (problem->line > 0)
    g_string_append_printf (text, text->len > 0 ? ":%u" : "line %u", problem->line);
  add_part (text, problem->path);
  add_part (text, problem->value);
  add_part (text, problem->expected);
  return g_string_free (text, FALSE);
}
