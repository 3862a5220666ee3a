/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Opening a fleet: its document, its rule book, the house's policy on top. */
#include "fl-office-private.h"

#include <string.h>

#include "fl-json.h"
#include "fl-places.h"

G_DEFINE_QUARK (fl-office-error-quark, fl_office_error)

/* ── the rule book ── */

/* A book is named, never reached by a path. */
static gboolean
is_book_name (const char *name)
{
  if (*name == '.' || *name == '\0')
    return FALSE;
  for (; *name != '\0'; name++)
    if (!g_ascii_isalnum (*name) && strchr ("._-", *name) == NULL)
      return FALSE;
  return TRUE;
}

static void
no_such_book (const char *path, const char *name, GError **error)
{
  g_auto(GStrv) names = fl_places_list ("rules", ".json", NULL);
  g_autofree char *there = names != NULL && names[0] != NULL ? g_strjoinv (", ", names) : g_strdup ("none is installed");

  g_set_error (error, FL_OFFICE_ERROR, FL_OFFICE_ERROR_NO_BOOK, "%s: rule_book: \"%s\": the name of an installed rule book: %s", path, name, there);
}

static FlBook *
read_book (const char *path, const char *name, GError **error)
{
  g_autofree char *file_name = g_strconcat (name, ".json", NULL), *file = NULL, *first = NULL;
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(GBytes) text = NULL;
  FlBook *book;

  file = fl_places_file ("rules", file_name);
  if (!is_book_name (name) || !g_file_test (file, G_FILE_TEST_EXISTS))
    {
      no_such_book (path, name, error);
      return NULL;
    }
  text = fl_office_read_file (file, error);
  if (text == NULL)
    return NULL;
  book = fl_book_new_from_json (text, problems);
  if (book != NULL)
    return book;
  first = fl_problems_count (problems) > 0 ? fl_problem_text (fl_problems_at (problems, 0), file) : g_strdup (file);
  g_set_error (error, FL_OFFICE_ERROR, FL_OFFICE_ERROR_NO_BOOK, "%s (the rule book does not hold, %u problems; install it anew)", first,
               fl_problems_errors (problems));
  return NULL;
}

/* ── opening ── */

void
fl_office_set_bad_document (const char *path, const FlProblems *problems, const char *what, GError **error)
{
  const FlProblem *first = NULL;
  g_autofree char *text = NULL;

  for (guint i = 0; i < fl_problems_count (problems) && first == NULL; i++)
    if (fl_problems_at (problems, i)->severity == FL_SEVERITY_ERROR)
      first = fl_problems_at (problems, i);
  text = first != NULL ? fl_problem_text (first, path) : g_strdup_printf ("%s: %s", path, what);
  if (fl_problems_errors (problems) > 1)
    g_set_error (error, FL_OFFICE_ERROR, FL_OFFICE_ERROR_BAD_DOCUMENT, "%s (the first of %u problems)", text, fl_problems_errors (problems));
  else
    g_set_error_literal (error, FL_OFFICE_ERROR, FL_OFFICE_ERROR_BAD_DOCUMENT, text);
}

/* The plans that the document carries; they were checked with it. */
static void
take_fleet_plans (FlOffice *office)
{
  for (gsize i = 0; i < fl_fleet_count (office->fleet, FL_KIND_PLAN); i++)
    {
      gsize length;
      const char *text = fl_record_text (fl_fleet_at (office->fleet, FL_KIND_PLAN, i), &length);
      g_autoptr(GBytes) bytes = g_bytes_new_static (text, length);
      g_autoptr(FlPlan) plan = fl_plan_new_from_json (bytes, NULL);

      if (plan != NULL)
        fl_office_set_plan (office, fl_plan_choices (plan)->move, plan);
    }
}

static FlOffice *
office_new (const char *path, FlFleet *fleet, FlBook *book)
{
  FlOffice *office = g_new0 (FlOffice, 1);

  g_ref_count_init (&office->refs);
  office->path = g_strdup (path);
  office->fleet = fleet;
  office->book = book;
  office->plans = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify) fl_plan_unref);
  office->words = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, (GDestroyNotify) fl_words_unref);
  take_fleet_plans (office);
  return office;
}

/* The policy knows its paths and not its lines: `text` is the document, where they stand. */
static void
add_with_lines (GBytes *text, const FlProblems *found, FlProblems *problems)
{
  gsize length;
  const char *data = g_bytes_get_data (text, &length);

  for (guint i = 0; i < fl_problems_count (found); i++)
    {
      const FlProblem *problem = fl_problems_at (found, i);
      FlJsonSpan span = { 0, 0, 0 };

      fl_json_find (data, length, problem->path, &span);
      fl_problems_add (problems, problem->severity, problem->path, problem->line > 0 ? problem->line : span.line, problem->value, "%s",
                       problem->expected);
    }
}

static FlBook *
tightened (const FlBook *base, const FlFleet *fleet, GBytes *text, FlProblems *problems)
{
  g_autoptr(FlProblems) found = fl_problems_new ();
  FlBook *book = fl_book_tighten (base, fl_fleet_policy (fleet), found);

  add_with_lines (text, found, problems);
  return book;
}

/* The book in force for a fleet that was read from `text`; NULL with an error, or with problems. */
static FlBook *
book_of (const char *path, const FlFleet *fleet, GBytes *text, FlProblems *problems, GError **error)
{
  g_autoptr(FlBook) base = read_book (path, fl_fleet_rule_book (fleet), error);
  FlBook *book;

  if (base == NULL)
    return NULL;
  book = tightened (base, fleet, text, problems);
  fl_book_survey (book != NULL ? book : base, fleet, problems);
  if (book != NULL && fl_problems_errors (problems) == 0)
    return book;
  fl_book_unref (book);
  fl_office_set_bad_document (path, problems, "the house rules do not fit the rule book", error);
  return NULL;
}

FlOffice *
fl_office_open (const char *path, FlProblems *problems, GError **error)
{
  g_autoptr(FlProblems) own = problems == NULL ? fl_problems_new () : NULL;
  FlProblems *found = problems != NULL ? problems : own;
  g_autoptr(GBytes) text = fl_office_read_file (path, error);
  g_autoptr(FlFleet) fleet = NULL;
  FlBook *book;

  if (text == NULL)
    return NULL;
  fleet = fl_fleet_new_from_json (text, found);
  if (fleet == NULL)
    {
      fl_office_set_bad_document (path, found, "is no fleet document", error);
      return NULL;
    }
  book = book_of (path, fleet, text, found, error);
  return book != NULL ? office_new (path, g_steal_pointer (&fleet), book) : NULL;
}

FlOffice *
fl_office_ref (FlOffice *office)
{
  g_ref_count_inc (&office->refs);
  return office;
}

void
fl_office_unref (FlOffice *office)
{
  if (office == NULL || !g_ref_count_dec (&office->refs))
    return;
  g_free (office->path);
  fl_fleet_unref (office->fleet);
  fl_book_unref (office->book);
  g_hash_table_unref (office->plans);
  g_hash_table_unref (office->words);
  g_clear_pointer (&office->font, fl_card_font_unref);
  g_free (office);
}

/* ── what it holds ── */

const char *
fl_office_path (const FlOffice *office)
{
  return office->path;
}

const FlFleet *
fl_office_fleet (const FlOffice *office)
{
  return office->fleet;
}

const FlBook *
fl_office_book (const FlOffice *office)
{
  return office->book;
}

const FlMove *
fl_office_move (const FlOffice *office, const char *move)
{
  const FlRecord *record = move != NULL ? fl_fleet_find (office->fleet, FL_KIND_MOVE, move) : NULL;

  return record != NULL ? fl_record_move (record) : NULL;
}
