/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From a fleet document to the first snapshot: the guard, the head, the lists record by record, then what holds between records. */
#include "fl-fleet-private.h"

#include <string.h>

#include "fl-reader.h"
#include "fl-record-private.h"

#define FORMAT "fairlead-fleet/1"
#define DEFAULT_BOOK "us-49cfr393"
#define DEFAULT_TURNAROUND 30
#define MOST_TURNAROUND 1440

/* One record while the document is read; it may have errors. */
typedef struct
{
  FlRecord *record;
  FlKind kind;
  char *path;                   /* "machines[3]" */
  guint line;
} Entry;

typedef struct
{
  FlOrigin *origin;
  const char *text;
  gsize length;
  FlProblems *problems;
  GArray *entries;              /* Entry, kind by kind in the order of the document */
} Reading;

static void
clear_entry (gpointer data)
{
  Entry *entry = data;

  fl_record_unref (entry->record);
  g_free (entry->path);
}

/* ── the lists, as text ── */

static void
find_lists (Reading *reading)
{
  for (guint kind = 0; kind < FL_N_KINDS; kind++)
    {
      FlOriginList *list = &reading->origin->lists[kind];

      list->present = fl_json_find (reading->text, reading->length, fl_kind_list ((FlKind) kind), &list->span)
        && reading->text[list->span.offset] == '[';
    }
}

/* The document with all its lists emptied, line ends kept: what json-glib is to read of it as a whole. (transfer full) */
static char *
skeleton (const Reading *reading)
{
  char *text = g_strndup (reading->text, reading->length);

  for (guint kind = 0; kind < FL_N_KINDS; kind++)
    {
      const FlOriginList *list = &reading->origin->lists[kind];

      for (gsize i = 1; list->present && i + 1 < list->span.length; i++)
        if (text[list->span.offset + i] != '\n')
          text[list->span.offset + i] = ' ';
    }
  return text;
}

/* ── the head ── */

/* FALSE where this is some other document, of which nothing more can be said. */
static gboolean
read_format (FlReader *reader)
{
  const char *format = fl_reader_text (reader, "format", TRUE);

  if (format == NULL && !fl_reader_has (reader, "format") && !fl_reader_has (reader, "name"))
    {
      fl_reader_ignore_rest (reader);
      return FALSE;
    }
  if (format == NULL || strcmp (format, FORMAT) == 0)
    return TRUE;
  if (g_str_has_prefix (format, "fairlead-fleet/"))
    fl_reader_problem (reader, FL_SEVERITY_ERROR, "format", "%s; a newer program wrote this document", FORMAT);
  else
    fl_reader_problem (reader, FL_SEVERITY_ERROR, "format", "%s: a fleet document", FORMAT);
  fl_reader_ignore_rest (reader);
  return FALSE;
}

static gboolean
read_head_keys (Reading *reading, FlReader *reader)
{
  static const char *const units[] = { "us", "metric", NULL };
  FlOrigin *origin = reading->origin;
  const char *book;

  if (!read_format (reader))
    return FALSE;
  origin->name = g_strdup (fl_reader_text (reader, "name", TRUE));
  origin->metric = fl_reader_choice (reader, "units", units, FALSE, 0) == 1;
  book = fl_reader_text (reader, "rule_book", FALSE);
  origin->rule_book = g_strdup (book == NULL ? DEFAULT_BOOK : book);
  if (book != NULL && *book == '\0')
    fl_reader_problem (reader, FL_SEVERITY_ERROR, "rule_book", "the id of a rule book; left out, it is %s", DEFAULT_BOOK);
  origin->turnaround = fl_reader_int (reader, "turnaround_min", 0, MOST_TURNAROUND, DEFAULT_TURNAROUND);
  fl_reader_text (reader, "uid", FALSE);
  for (guint kind = 0; kind < FL_N_KINDS; kind++)
    fl_reader_list (reader, fl_kind_list ((FlKind) kind), FALSE);
  return TRUE;
}

static gboolean
read_head (Reading *reading)
{
  g_autofree char *text = skeleton (reading);
  g_autoptr(GBytes) bytes = g_bytes_new_static (text, reading->length);
  g_autoptr(JsonNode) root = fl_json_parse (bytes, reading->problems);
  g_autoptr(FlArena) arena = fl_arena_new ();
  g_autoptr(FlReader) reader = NULL;

  if (root == NULL)
    return FALSE;
  reader = fl_reader_new (text, reading->length, root, "", 1, arena, reading->problems);
  return read_head_keys (reading, reader);
}

/* ── the records ── */

static void
add_entry (Reading *reading, FlKind kind, const char *text, FlJsonSpan span, char *path)
{
  Entry entry = { .kind = kind, .path = path, .line = span.line };
  FlOriginItem item = { .span = span };
  gboolean bad;

  /* A policy's own path is part of its text: the list has a key in it. */
  entry.record = fl_record_read (kind, text, kind == FL_KIND_POLICY ? strlen (text) : span.length, kind == FL_KIND_POLICY ? "" : path,
                                 span.line, reading->problems, &bad);
  if (entry.record == NULL)
    {
      g_free (path);
      return;
    }
  item.record = fl_record_ref (entry.record);
  g_array_append_val (reading->entries, entry);
  g_array_append_val (reading->origin->lists[kind].items, item);
}

static void
read_policy (Reading *reading)
{
  const FlOriginList *list = &reading->origin->lists[FL_KIND_POLICY];
  g_autofree char *text = NULL;

  if (!list->present)
    return;
  text = g_strdup_printf ("{\"%s\": %.*s}", fl_kind_list (FL_KIND_POLICY), (gint) list->span.length, reading->text + list->span.offset);
  add_entry (reading, FL_KIND_POLICY, text, list->span, g_strdup (fl_kind_list (FL_KIND_POLICY)));
}

static void
read_records (Reading *reading)
{
  for (guint kind = 0; kind < FL_N_KINDS; kind++)
    {
      const char *name = fl_kind_list ((FlKind) kind);
      g_autoptr(GArray) spans = NULL;

      if (kind == FL_KIND_POLICY || !reading->origin->lists[kind].present)
        continue;
      spans = fl_json_elements (reading->text, reading->length, name);
      for (guint i = 0; i < spans->len; i++)
        {
          FlJsonSpan span = g_array_index (spans, FlJsonSpan, i);

          add_entry (reading, (FlKind) kind, reading->text + span.offset, span, g_strdup_printf ("%s[%u]", name, i));
        }
    }
  read_policy (reading);
}

/* ── between the records ── */

static void G_GNUC_PRINTF (5, 6)
report (Reading *reading, const Entry *entry, FlSeverity severity, const char *below, const char *expected, ...)
{
  gsize length;
  const char *text = fl_record_text (entry->record, &length);
  g_autofree char *path = fl_path_join (entry->path, below), *sentence = NULL, *value = NULL;
  FlJsonSpan span = { 0, 0, 1 };
  va_list args;

  va_start (args, expected);
  sentence = g_strdup_vprintf (expected, args);
  va_end (args);
  if (fl_json_find (text, length, below, &span))
    value = g_strndup (text + span.offset, span.length);
  fl_problems_add (reading->problems, severity, path, entry->line + span.line - 1, value, "%s", sentence);
}

static const char *
names_of_namespace (FlKind kind)
{
  switch (fl_kind_namespace (kind))
    {
    case FL_KIND_YARD: return "yard or trailer";
    case FL_KIND_CHAIN: return "chain, binder, strap or connector";
    default: return fl_kind_name (kind);
    }
}

/* The records without those whose id was there before, which are reported. */
static void
sort_out_duplicates (Reading *reading, GPtrArray *sorted[FL_N_KINDS])
{
  GHashTable *seen[FL_N_KINDS];

  for (guint kind = 0; kind < FL_N_KINDS; kind++)
    seen[kind] = g_hash_table_new (g_str_hash, g_str_equal);
  for (guint i = 0; i < reading->entries->len; i++)
    {
      Entry *entry = &g_array_index (reading->entries, Entry, i);
      GHashTable *names = seen[fl_kind_namespace (entry->kind)];
      const char *id = fl_record_id (entry->record);
      const Entry *first = id == NULL ? NULL : g_hash_table_lookup (names, id);

      if (id == NULL)
        continue;
      if (first != NULL)
        {
          report (reading, entry, FL_SEVERITY_ERROR, entry->kind == FL_KIND_PLAN ? "move" : "id",
                  "an id that no other %s has; the one on line %u has it", names_of_namespace (entry->kind), first->line);
          continue;
        }
      g_hash_table_insert (names, (gpointer) id, entry);
      g_ptr_array_add (sorted[entry->kind], entry->record);
    }
  for (guint kind = 0; kind < FL_N_KINDS; kind++)
    g_hash_table_unref (seen[kind]);
}

static gint
compare_ids (gconstpointer a, gconstpointer b)
{
  return strcmp (fl_record_id (*(const FlRecord *const *) a), fl_record_id (*(const FlRecord *const *) b));
}

static FlFleet *
make_fleet (Reading *reading)
{
  GPtrArray *sorted[FL_N_KINDS];

  for (guint kind = 0; kind < FL_N_KINDS; kind++)
    sorted[kind] = g_ptr_array_new ();
  sort_out_duplicates (reading, sorted);
  for (guint kind = 0; kind < FL_N_KINDS; kind++)
    {
      g_ptr_array_sort (sorted[kind], compare_ids);
      reading->origin->tables[kind] = fl_table_new ((const FlRecord *const *) sorted[kind]->pdata, sorted[kind]->len);
      g_ptr_array_unref (sorted[kind]);
    }
  return fl_fleet_of (reading->origin, reading->origin->tables);
}

/* Where the reference stands in the text: `machine` of a move is short for its only load. */
static const char *
path_in_text (const Entry *entry, const FlRef *ref)
{
  gsize length;
  const char *text = fl_record_text (entry->record, &length);
  FlJsonSpan span;

  if (entry->kind == FL_KIND_MOVE && strcmp (ref->path, "loads[0].machine") == 0 && !fl_json_find (text, length, ref->path, &span))
    return "machine";
  return ref->path;
}

static void
check_references (Reading *reading, const FlFleet *fleet)
{
  for (guint i = 0; i < reading->entries->len; i++)
    {
      const Entry *entry = &g_array_index (reading->entries, Entry, i);
      g_autoptr(GArray) refs = fl_refs_of (entry->record);

      for (guint r = 0; r < refs->len; r++)
        {
          const FlRef *ref = &g_array_index (refs, FlRef, r);

          if (!fl_ref_holds (fleet, ref))
            report (reading, entry, ref->soft ? FL_SEVERITY_WARNING : FL_SEVERITY_ERROR, path_in_text (entry, ref),
                    "the id of %s %s of this document", *fl_ref_what (ref) == 'a' ? "an" : "a", fl_ref_what (ref));
        }
    }
}

static void
check_drivers (Reading *reading, const FlFleet *fleet)
{
  for (guint i = 0; i < reading->entries->len; i++)
    {
      const Entry *entry = &g_array_index (reading->entries, Entry, i);
      const FlMove *move = fl_record_move (entry->record);
      const FlRecord *driver = move == NULL ? NULL : fl_fleet_find (fleet, FL_KIND_PERSON, move->driver);

      if (driver != NULL && (fl_record_person (driver)->roles & FL_ROLE_DRIVER) == 0)
        report (reading, entry, FL_SEVERITY_WARNING, "driver", "a person with the role driver");
    }
}

FlFleet *
fl_fleet_new_from_json (GBytes *text, FlProblems *problems)
{
  g_autoptr(FlOrigin) origin = NULL;
  g_autoptr(FlFleet) fleet = NULL;
  g_autoptr(FlProblems) own = problems == NULL ? fl_problems_new () : NULL;
  Reading reading = { .problems = problems == NULL ? own : problems };
  guint before = fl_problems_errors (reading.problems);

  if (!fl_json_guard (text, reading.problems))
    return NULL;
  origin = reading.origin = fl_origin_new (text);
  reading.text = g_bytes_get_data (text, &reading.length);
  find_lists (&reading);
  if (!read_head (&reading))
    return NULL;
  reading.entries = g_array_new (FALSE, FALSE, sizeof (Entry));
  g_array_set_clear_func (reading.entries, clear_entry);
  read_records (&reading);
  fleet = make_fleet (&reading);
  check_references (&reading, fleet);
  check_drivers (&reading, fleet);
  g_array_unref (reading.entries);
  return fl_problems_errors (reading.problems) > before ? NULL : g_steal_pointer (&fleet);
}
