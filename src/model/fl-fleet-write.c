/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From a snapshot back to its document: what was not touched byte for byte as it was read. */
#include "fl-fleet-private.h"

#include <string.h>

#include "fl-splice.h"

/* TRUE if the records are those of the document: never changed, or changed and changed back. */
static gboolean
untouched (const FlFleet *fleet, FlKind kind)
{
  const FlOriginList *list = &fleet->origin->lists[kind];

  if (fleet->tables[kind] == fleet->origin->tables[kind])
    return TRUE;
  if (fl_fleet_count (fleet, kind) != list->items->len)
    return FALSE;
  for (guint i = 0; i < list->items->len; i++)
    {
      const FlRecord *was = g_array_index (list->items, FlOriginItem, i).record;
      const FlRecord *now = fl_fleet_find (fleet, kind, fl_record_id (was));

      if (now == NULL || !fl_record_equal (now, was))
        return FALSE;
    }
  return TRUE;
}

static gsize
end_of (FlJsonSpan span)
{
  return span.offset + span.length;
}

static gboolean
is_space (char c)
{
  return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

/* ── the style of the document ── */

/* The white space before the value or key at `at`, as far as it goes back. (transfer full) */
static char *
lead_of (const char *text, gsize at)
{
  gsize from = at;

  while (from > 0 && is_space (text[from - 1]))
    from--;
  return g_strndup (text + from, at - from);
}

/* The indentation that follows the last line end in some white space; NULL if there is no line end. */
static const char *
indent_of (const char *lead)
{
  const char *newline = strrchr (lead, '\n');

  return newline == NULL ? NULL : newline + 1;
}

/* The white space before the first member of the document: a line end and one step of indentation, or less. (transfer full) */
static char *
first_lead (const char *text, gsize length)
{
  g_autoptr(GArray) members = fl_json_members (text, length, "");

  return members == NULL || members->len == 0 ? g_strdup ("") : lead_of (text, g_array_index (members, FlJsonMember, 0).key.offset);
}

/* ── lists ── */

typedef struct
{
  const FlFleet *fleet;
  FlKind kind;
  const char *text;             /* of the document */
  gsize length;
  GString *out;
  gboolean any;                 /* an element was written */
  FlJsonSpan gap;               /* the white space after it, up to its comma */
} Writing;

static void
write_record (Writing *writing, const char *lead, const FlRecord *record, gboolean fit)
{
  gsize length;
  const char *text = fl_record_text (record, &length);
  g_autofree char *fitted = fit ? fl_splice_indented (text, length, indent_of (lead)) : NULL;

  if (writing->any)
    {
      g_string_append_len (writing->out, writing->text + writing->gap.offset, (gssize) writing->gap.length);
      g_string_append_c (writing->out, ',');
    }
  writing->any = TRUE;
  writing->gap.length = 0;
  g_string_append (writing->out, lead);
  g_string_append_len (writing->out, fit ? fitted : text, fit ? (gssize) strlen (fitted) : (gssize) length);
}

/* The white space from `at` to a comma; nothing where something else follows it. */
static FlJsonSpan
gap_after (const char *text, gsize at)
{
  FlJsonSpan gap = { .offset = at };

  while (is_space (text[at + gap.length]))      /* a guarded list ends in a bracket */
    gap.length++;
  if (text[at + gap.length] != ',')
    gap.length = 0;
  return gap;
}

/* Those of the document that are still there, in its order. */
static void
write_kept (Writing *writing, const FlOriginList *list, GHashTable *written)
{
  for (guint i = 0; i < list->items->len; i++)
    {
      const FlOriginItem *item = &g_array_index (list->items, FlOriginItem, i);
      const FlRecord *now = fl_fleet_find (writing->fleet, writing->kind, fl_record_id (item->record));
      g_autofree char *lead = NULL;

      if (now == NULL)
        continue;
      lead = lead_of (writing->text, item->span.offset);
      write_record (writing, lead, now, FALSE);
      writing->gap = gap_after (writing->text, end_of (item->span));
      g_hash_table_add (written, (gpointer) fl_record_id (now));
    }
}

/* Those that the document did not have, in order of their ids. */
static void
write_added (Writing *writing, const char *lead, GHashTable *written)
{
  for (gsize i = 0; i < fl_fleet_count (writing->fleet, writing->kind); i++)
    {
      const FlRecord *record = fl_fleet_at (writing->fleet, writing->kind, i);

      if (!g_hash_table_contains (written, fl_record_id (record)))
        write_record (writing, *lead == '\0' && writing->any ? " " : lead, record, TRUE);
    }
}

/* The white space before an element of the list, and before its closing bracket. */
static void
style_of (const Writing *writing, const FlOriginList *list, char **lead, char **tail)
{
  const char *text = writing->text;
  g_autofree char *step = NULL;

  *tail = lead_of (text, end_of (list->span) - 1);
  if (list->items->len > 0)
    {
      *lead = lead_of (text, g_array_index (list->items, FlOriginItem, list->items->len - 1).span.offset);
      return;
    }
  step = first_lead (text, writing->length);    /* the list stands one step in, its elements two */
  *lead = indent_of (step) == NULL ? g_strdup ("") : g_strconcat (step, indent_of (step), NULL);
  g_free (*tail);
  *tail = g_strdup (indent_of (step) == NULL ? "" : step);
}

static void
write_list (Writing *writing, const FlOriginList *list)
{
  g_autoptr(GHashTable) written = g_hash_table_new (g_str_hash, g_str_equal);
  g_autofree char *lead = NULL, *tail = NULL;

  style_of (writing, list, &lead, &tail);
  writing->any = FALSE;
  g_string_append_c (writing->out, '[');
  write_kept (writing, list, written);
  write_added (writing, lead, written);
  g_string_append (writing->out, writing->any ? tail : "");
  g_string_append_c (writing->out, ']');
}

/* The list in a policy's text; "[]" where there is none. (transfer full) */
static char *
rules_of (const FlFleet *fleet)
{
  const FlRecord *policy = fl_fleet_at (fleet, FL_KIND_POLICY, 0);
  gsize length = 0;
  const char *text = policy == NULL ? "" : fl_record_text (policy, &length);
  FlJsonSpan span;

  if (policy == NULL || !fl_json_find (text, length, fl_kind_list (FL_KIND_POLICY), &span))
    return g_strdup ("[]");
  return g_strndup (text + span.offset, span.length);
}

/* ── the document ── */

static gint
compare_places (gconstpointer a, gconstpointer b)
{
  const FlOriginList *one = *(const FlOriginList *const *) a, *two = *(const FlOriginList *const *) b;

  return one->span.offset < two->span.offset ? -1 : 1;
}

/* The document with each list that was touched written anew. */
static void
write_present (Writing *writing)
{
  const FlOrigin *origin = writing->fleet->origin;
  g_autoptr(GPtrArray) touched = g_ptr_array_new ();
  gsize at = 0;

  for (guint kind = 0; kind < FL_N_KINDS; kind++)
    if (origin->lists[kind].present && !untouched (writing->fleet, (FlKind) kind))
      g_ptr_array_add (touched, (gpointer) &origin->lists[kind]);
  g_ptr_array_sort (touched, compare_places);
  for (guint i = 0; i < touched->len; i++)
    {
      const FlOriginList *list = touched->pdata[i];

      g_string_append_len (writing->out, writing->text + at, (gssize) (list->span.offset - at));
      at = end_of (list->span);
      writing->kind = (FlKind) (list - origin->lists);
      if (writing->kind == FL_KIND_POLICY)
        {
          g_autofree char *rules = rules_of (writing->fleet);

          g_string_append (writing->out, rules);
        }
      else
        write_list (writing, list);
    }
  g_string_append_len (writing->out, writing->text + at, (gssize) (writing->length - at));
}

/* A list that the document did not have, as a new member. */
static void
add_list (Writing *writing, FlKind kind)
{
  g_autoptr(GString) list = g_string_new (NULL);
  g_autoptr(GHashTable) none = g_hash_table_new (g_str_hash, g_str_equal);
  g_autofree char *rules = NULL, *first = NULL, *lead = NULL;
  Writing inner = *writing;

  if (kind == FL_KIND_POLICY)
    {
      rules = rules_of (writing->fleet);
      fl_splice_set (writing->out, fl_kind_list (kind), rules);
      return;
    }
  inner.kind = kind;
  inner.out = list;
  inner.any = FALSE;
  first = first_lead (writing->text, writing->length);
  lead = g_strconcat ("\n", indent_of (first) == NULL ? " " : indent_of (first), NULL);
  g_string_append_c (list, '[');
  write_added (&inner, lead, none);
  g_string_append (list, "\n]");
  fl_splice_set (writing->out, fl_kind_list (kind), list->str);
}

GBytes *
fl_fleet_to_json (const FlFleet *fleet)
{
  Writing writing = { .fleet = fleet };
  gboolean same = TRUE;
  gsize length;

  for (guint kind = 0; kind < FL_N_KINDS; kind++)
    same = same && untouched (fleet, (FlKind) kind);
  if (same)
    return g_bytes_ref (fleet->origin->bytes);
  writing.text = g_bytes_get_data (fleet->origin->bytes, &writing.length);
  writing.out = g_string_sized_new (writing.length + writing.length / 8);
  write_present (&writing);
  for (guint kind = 0; kind < FL_N_KINDS; kind++)
    if (!fleet->origin->lists[kind].present && fl_fleet_count (fleet, (FlKind) kind) > 0)
      add_list (&writing, (FlKind) kind);
  length = writing.out->len;
  return g_bytes_new_take (g_string_free (writing.out, FALSE), length);
}
