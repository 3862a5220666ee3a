/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One member or element of a JSON text put in, replaced or taken out, in the style of what stands around it. */
#include "fl-splice.h"

#include <string.h>

#include "fl-json-scan.h"
#include "fl-json-write.h"

/* ── text ── */

static gboolean
is_blank (char c)
{
  return c == ' ' || c == '\t';
}

static gboolean
is_space (char c)
{
  return is_blank (c) || c == '\n' || c == '\r';
}

/* The blanks at the start of the line in which `at` stands. */
static char *
line_indent (const char *text, gsize at)
{
  gsize from = at, end;

  while (from > 0 && text[from - 1] != '\n')
    from--;
  for (end = from; end < at && is_blank (text[end]); end++)
    ;
  return g_strndup (text + from, end - from);
}

/* Where the line end before `at` begins, a carriage return included; the comma of a one-line form gets a space after it. */
static void
join_line (GString *out)
{
  while (out->len > 0 && (out->str[out->len - 1] == '\r' || is_blank (out->str[out->len - 1])))
    g_string_truncate (out, out->len - 1);
  if (out->len > 0 && out->str[out->len - 1] == ',')
    g_string_append_c (out, ' ');
}

char *
fl_splice_indented (const char *text, gsize length, const char *indent)
{
  GString *out = g_string_sized_new (length);
  g_autofree char *own = line_indent (text, length == 0 ? 0 : length - 1);
  gsize own_length = strlen (own);

  for (gsize at = 0; at < length;)
    {
      gsize skipped = 0;

      if (text[at] != '\n')
        {
          g_string_append_c (out, text[at++]);
          continue;
        }
      at++;
      while (at < length && is_blank (text[at]) && (indent == NULL || skipped < own_length))
        {
          at++;
          skipped++;
        }
      if (indent == NULL)
        join_line (out);
      else
        g_string_append_printf (out, "\n%s", indent);
    }
  return g_string_free (out, FALSE);
}

/* ── values ── */

static void write_value (FlJsonWriter *writer, const char *key, JsonNode *value);

static void
write_object (FlJsonWriter *writer, const char *key, JsonObject *object)
{
  JsonObjectIter iter;
  const char *name;
  JsonNode *node;

  fl_json_writer_begin_object (writer, key);
  json_object_iter_init_ordered (&iter, object);
  while (json_object_iter_next_ordered (&iter, &name, &node))
    write_value (writer, name, node);
  fl_json_writer_end_object (writer);
}

static void
write_list (FlJsonWriter *writer, const char *key, JsonArray *array)
{
  fl_json_writer_begin_list (writer, key);
  for (guint i = 0; i < json_array_get_length (array); i++)
    write_value (writer, NULL, json_array_get_element (array, i));
  fl_json_writer_end_list (writer);
}

/* As deep as the value is nested; the guard refuses the result if that is too deep. */
static void
write_value (FlJsonWriter *writer, const char *key, JsonNode *value)
{
  if (JSON_NODE_HOLDS_OBJECT (value))
    write_object (writer, key, json_node_get_object (value));
  else if (JSON_NODE_HOLDS_ARRAY (value))
    write_list (writer, key, json_node_get_array (value));
  else if (JSON_NODE_HOLDS_NULL (value))
    fl_json_writer_null (writer, key);
  else if (json_node_get_value_type (value) == G_TYPE_STRING)
    fl_json_writer_text (writer, key, json_node_get_string (value));
  else if (json_node_get_value_type (value) == G_TYPE_BOOLEAN)
    fl_json_writer_bool (writer, key, json_node_get_boolean (value));
  else
    fl_json_writer_number (writer, key, json_node_get_double (value));
}

char *
fl_splice_value (JsonNode *value)
{
  g_autoptr(FlJsonWriter) writer = fl_json_writer_new ();
  g_autoptr(GBytes) bytes = NULL;
  gsize length;
  const char *data;

  write_value (writer, NULL, value);
  bytes = fl_json_writer_end (writer);
  data = g_bytes_get_data (bytes, &length);
  while (length > 0 && data[length - 1] == '\n')
    length--;
  return g_strndup (data, length);
}

/* ── places ── */

/* A path cut before its last step; the step as an index, or as a key in its JSON form with quotes. */
typedef struct
{
  char *parent;
  char *key;                    /* NULL: an index */
  gsize index;
} Place;

static const char *
after_brackets (const char *at)
{
  at++;
  if (*at == '"')
    for (at++; *at != '\0' && *at != '"'; at++)
      if (*at == '\\' && at[1] != '\0')
        at++;
  at += strcspn (at, "]");
  return *at == ']' ? at + 1 : at;
}

static gboolean
split_path (const char *path, Place *place)
{
  const char *last = path, *at = path;

  *place = (Place) { 0 };
  while (*at != '\0')
    {
      last = at;
      at = *at == '[' ? after_brackets (at) : at + 1 + strcspn (at + 1, ".[");
    }
  if (last == at)
    return FALSE;
  place->parent = g_strndup (path, (gsize) (last - path));
  if (*last != '[')
    place->key = g_strdup_printf ("\"%s\"", last + (*last == '.'));
  else if (last[1] == '"')
    place->key = g_strndup (last + 1, (gsize) (at - last) - 2);
  else
    place->index = (gsize) g_ascii_strtoull (last + 1, NULL, 10);
  return TRUE;
}

static void
place_clear (Place *place)
{
  g_free (place->parent);
  g_free (place->key);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Place, place_clear)

/* Members or elements of a parent: where each begins (its key, for a member), and where its value stands. */
typedef struct
{
  gsize begin;
  FlJsonSpan value;
} Part;

/* NULL where the parent is not there or of the wrong type. */
static GArray *
parts_of (const GString *text, const Place *place)
{
  GArray *parts = g_array_new (FALSE, FALSE, sizeof (Part));
  g_autoptr(GArray) spans = place->key != NULL ? fl_json_members (text->str, text->len, place->parent)
    : fl_json_elements (text->str, text->len, place->parent);

  for (guint i = 0; spans != NULL && i < spans->len; i++)
    {
      Part part;

      if (place->key != NULL)
        part = (Part) { g_array_index (spans, FlJsonMember, i).key.offset, g_array_index (spans, FlJsonMember, i).value };
      else
        part = (Part) { g_array_index (spans, FlJsonSpan, i).offset, g_array_index (spans, FlJsonSpan, i) };
      g_array_append_val (parts, part);
    }
  if (spans == NULL)
    g_clear_pointer (&parts, g_array_unref);
  return parts;
}

static gsize
end_of (FlJsonSpan span)
{
  return span.offset + span.length;
}

static void
replace (GString *text, gsize from, gsize to, const char *with)
{
  g_string_erase (text, (gssize) from, (gssize) (to - from));
  g_string_insert (text, (gssize) from, with);
}

/* ── changes ── */

static void
replace_value (GString *text, FlJsonSpan span, const char *value)
{
  g_autofree char *indent = line_indent (text->str, span.offset), *fitted = NULL;
  gboolean one_line = memchr (text->str, '\n', text->len) == NULL;

  fitted = fl_splice_indented (value, strlen (value), one_line ? NULL : indent);
  replace (text, span.offset, end_of (span), fitted);
}

/* Into { } or [ ] with nothing in it: on the same line. */
static void
fill_empty (GString *text, const Place *place, const char *value)
{
  FlJsonSpan parent;
  g_autofree char *fitted = fl_splice_indented (value, strlen (value), NULL), *inside = NULL;

  if (!fl_json_find (text->str, text->len, place->parent, &parent))
    return;
  inside = place->key == NULL ? g_steal_pointer (&fitted) : g_strdup_printf ("%s: %s", place->key, fitted);
  replace (text, parent.offset + 1, end_of (parent) - 1, inside);
}

static void
append_part (GString *text, const Place *place, const Part *last, const char *value)
{
  g_autoptr(GString) added = g_string_new (",");
  g_autofree char *indent = line_indent (text->str, last->begin), *fitted = NULL;
  gsize lead = last->begin;
  gboolean new_line;

  while (lead > 0 && is_space (text->str[lead - 1]))
    lead--;
  new_line = memchr (text->str + lead, '\n', last->begin - lead) != NULL;
  if (new_line)
    g_string_append_len (added, text->str + lead, (gssize) (last->begin - lead));
  else
    g_string_append_c (added, ' ');
  if (place->key != NULL)
    g_string_append_printf (added, "%s: ", place->key);
  fitted = fl_splice_indented (value, strlen (value), new_line ? indent : NULL);
  g_string_append (added, fitted);
  g_string_insert (text, (gssize) end_of (last->value), added->str);
}

gboolean
fl_splice_set (GString *text, const char *path, const char *value)
{
  g_auto(Place) place = { 0 };
  g_autoptr(GArray) parts = NULL;
  FlJsonSpan span;

  if (!split_path (path, &place))
    return FALSE;
  if (fl_json_find (text->str, text->len, path, &span))
    {
      replace_value (text, span, value);
      return TRUE;
    }
  parts = parts_of (text, &place);
  if (parts == NULL || (place.key == NULL && place.index != parts->len))
    return FALSE;
  if (parts->len == 0)
    fill_empty (text, &place, value);
  else
    append_part (text, &place, &g_array_index (parts, Part, parts->len - 1), value);
  return TRUE;
}

gboolean
fl_splice_remove (GString *text, const char *path)
{
  g_auto(Place) place = { 0 };
  g_autoptr(GArray) parts = NULL;
  FlJsonSpan span, parent;
  guint index = 0;
  const Part *part;

  if (!split_path (path, &place) || !fl_json_find (text->str, text->len, path, &span)
      || !fl_json_find (text->str, text->len, place.parent, &parent))
    return FALSE;
  parts = parts_of (text, &place);
  part = &g_array_index (parts, Part, 0);
  while (index < parts->len && part[index].value.offset != span.offset)
    index++;
  if (parts->len == 1)
    replace (text, parent.offset + 1, end_of (parent) - 1, "");
  else if (index > 0)
    replace (text, end_of (part[index - 1].value), end_of (span), "");
  else
    replace (text, part[0].begin, part[1].begin, "");
  return TRUE;
}
