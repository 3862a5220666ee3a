/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Checked reading of JSON objects. Where a value stands is looked up only when there is something to say of it: then one pass pairs every
 * node of the tree with its span of the text. */
#include "fl-reader.h"

#include <math.h>
#include <string.h>

#include "fl-json-scan.h"
#include "fl-range.h"

enum
{
  VALUE_BYTES = 256             /* of a value that are looked at for a message */
};

/* What a root reader and all below it share. */
typedef struct
{
  const char *text;
  gsize length;
  char *prefix;
  guint first_line;
  FlArena *arena;
  FlArena *own;                 /* paths and keys of the readers themselves */
  FlProblems *problems;
  GHashTable *spans;            /* JsonNode -> FlJsonSpan in `own`; NULL until needed */
} Document;

struct _FlReader
{
  Document *document;
  FlReader *parent;             /* NULL: the root */
  const char *key;
  gssize index;                 /* in the list `key` of the parent; -1: `key` is the object itself */
  JsonNode *node;
  JsonObject *object;
  const char *path;             /* NULL until needed */
  GPtrArray *children;          /* in the order in which they were asked for */
  GHashTable *child_of;         /* JsonNode -> FlReader */
  GPtrArray *asked;             /* nodes of members that were asked for */
  gboolean ignore_rest;
};

/* ── where things stand ── */

static void pair (Document *document, FlScan *scan, JsonNode *node);

static void
pair_object (Document *document, FlScan *scan, JsonObject *object)
{
  FlJsonSpan key;
  gsize n = 0;

  fl_scan_take (scan, '{');
  while (fl_scan_more (scan, &n) && fl_scan_key (scan, &key))
    {
      g_autofree char *name = fl_json_unquote (scan->start + key.offset, key.length);

      pair (document, scan, json_object_get_member (object, name));
    }
  fl_scan_take (scan, '}');
}

static void
pair_array (Document *document, FlScan *scan, JsonArray *array)
{
  guint length = json_array_get_length (array);
  gsize n = 0;

  fl_scan_take (scan, '[');
  while (fl_scan_more (scan, &n))
    {
      const char *before = scan->at;

      pair (document, scan, n <= length ? json_array_get_element (array, (guint) n - 1) : NULL);
      if (scan->at == before)   /* not the text of this tree */
        break;
    }
  fl_scan_take (scan, ']');
}

/* Recursion is bounded by the guard's depth. */
static void
pair (Document *document, FlScan *scan, JsonNode *node)
{
  FlJsonSpan span = { 0 };

  fl_scan_space (scan);
  span.offset = (gsize) (scan->at - scan->start);
  span.line = scan->line;
  if (node != NULL && JSON_NODE_HOLDS_OBJECT (node) && scan->at < scan->end && *scan->at == '{')
    pair_object (document, scan, json_node_get_object (node));
  else if (node != NULL && JSON_NODE_HOLDS_ARRAY (node) && scan->at < scan->end && *scan->at == '[')
    pair_array (document, scan, json_node_get_array (node));
  else
    fl_scan_value (scan, NULL);
  span.length = (gsize) (scan->at - scan->start) - span.offset;
  if (node != NULL)
    g_hash_table_insert (document->spans, node, fl_arena_copy (document->own, &span, sizeof span));
}

static FlReader *
root_of (FlReader *reader)
{
  while (reader->parent != NULL)
    reader = reader->parent;
  return reader;
}

/* NULL for NULL. */
static const FlJsonSpan *
span_of (FlReader *reader, JsonNode *node)
{
  Document *document = reader->document;

  if (node == NULL)
    return NULL;
  if (document->spans == NULL)
    {
      FlScan scan = fl_scan (document->text, document->length);

      document->spans = g_hash_table_new (NULL, NULL);
      pair (document, &scan, root_of (reader)->node);
    }
  return g_hash_table_lookup (document->spans, node);
}

const char *
fl_reader_path (FlReader *reader)
{
  GString *path;

  if (reader->path != NULL)
    return reader->path;
  path = g_string_new (reader->parent != NULL ? fl_reader_path (reader->parent) : reader->document->prefix);
  if (reader->parent != NULL)
    fl_json_path_key (path, reader->key);
  if (reader->index >= 0)
    g_string_append_printf (path, "[%" G_GSSIZE_FORMAT "]", reader->index);
  reader->path = fl_arena_text (reader->document->own, path->str);
  g_string_free (path, TRUE);
  return reader->path;
}

/* The span of a path from this reader's object, in the document's offsets. */
static gboolean
find_below (FlReader *reader, const char *path, FlJsonSpan *span)
{
  const FlJsonSpan *object = span_of (reader, reader->node);

  if (object == NULL || !fl_json_find (reader->document->text + object->offset, object->length, path, span))
    return FALSE;
  span->offset += object->offset;
  span->line += object->line - 1;
  return TRUE;
}

/* Adds a problem at `path`; the value is that of `span`, the line its or, where it has none, the object's. */
static void
add_problem (FlReader *reader, FlSeverity severity, const char *path, const FlJsonSpan *span, const char *expected)
{
  Document *document = reader->document;
  const FlJsonSpan *line_span = span != NULL ? span : span_of (reader, reader->node);
  guint line = line_span != NULL ? document->first_line + line_span->line - 1 : document->first_line;
  g_autofree char *value = span == NULL ? NULL : g_strndup (document->text + span->offset, MIN (span->length, VALUE_BYTES));

  fl_problems_add (document->problems, severity, path, line, value, "%s", expected);
}

static void G_GNUC_PRINTF (3, 0)
problem_at_key (FlReader *reader, FlSeverity severity, const char *expected, va_list args, const char *key)
{
  g_autofree char *sentence = g_strdup_vprintf (expected, args);
  g_autoptr(GString) path = g_string_new (fl_reader_path (reader));
  FlJsonSpan below;

  if (*key == '\0')
    {
      add_problem (reader, severity, path->str, span_of (reader, reader->node), sentence);
      return;
    }
  if (!json_object_has_member (reader->object, key) && find_below (reader, key, &below))
    {
      g_string_append_printf (path, path->len > 0 && *key != '[' ? ".%s" : "%s", key);
      add_problem (reader, severity, path->str, &below, sentence);
      return;
    }
  fl_json_path_key (path, key);
  add_problem (reader, severity, path->str, span_of (reader, json_object_get_member (reader->object, key)), sentence);
}

void
fl_reader_problem (FlReader *reader, FlSeverity severity, const char *key, const char *expected, ...)
{
  va_list args;

  if (reader->document->problems == NULL)
    return;
  va_start (args, expected);
  problem_at_key (reader, severity, expected, args, key);
  va_end (args);
}

static void G_GNUC_PRINTF (4, 5)
problem_at_item (FlReader *reader, const char *key, gsize index, const char *expected, ...)
{
  g_autoptr(GString) path = NULL;
  g_autofree char *sentence = NULL;
  JsonArray *array = json_object_get_array_member (reader->object, key);
  va_list args;

  if (reader->document->problems == NULL)
    return;
  va_start (args, expected);
  sentence = g_strdup_vprintf (expected, args);
  va_end (args);
  path = g_string_new (fl_reader_path (reader));
  fl_json_path_key (path, key);
  g_string_append_printf (path, "[%" G_GSIZE_FORMAT "]", index);
  add_problem (reader, FL_SEVERITY_ERROR, path->str, span_of (reader, json_array_get_element (array, (guint) index)), sentence);
}

#define error_at(reader, key, ...) fl_reader_problem ((reader), FL_SEVERITY_ERROR, (key), __VA_ARGS__)

/* ── life ── */

static FlReader *
reader_new (Document *document, FlReader *parent, const char *key, gssize index, JsonNode *node)
{
  FlReader *reader = g_new0 (FlReader, 1);

  reader->document = document;
  reader->parent = parent;
  reader->key = fl_arena_text (document->own, key);
  reader->index = index;
  reader->node = node;
  reader->object = json_node_get_object (node);
  reader->asked = g_ptr_array_new ();
  return reader;
}

FlReader *
fl_reader_new (const char *text, gsize length, JsonNode *root, const char *path_prefix, guint first_line,
               FlArena *arena, FlProblems *problems)
{
  Document *document;

  if (root == NULL || !JSON_NODE_HOLDS_OBJECT (root))
    {
      g_autofree char *value = text == NULL ? NULL : g_strndup (text, MIN (length, VALUE_BYTES));

      fl_problems_add (problems, FL_SEVERITY_ERROR, path_prefix, first_line, value, "an object in { }");
      return NULL;
    }
  document = g_new0 (Document, 1);
  document->text = text;
  document->length = text == NULL ? 0 : length;
  document->prefix = g_strdup (path_prefix == NULL ? "" : path_prefix);
  document->first_line = first_line;
  document->arena = arena;
  document->own = fl_arena_new ();
  document->problems = problems;
  return reader_new (document, NULL, NULL, -1, root);
}

static void
document_free (Document *document)
{
  g_clear_pointer (&document->spans, g_hash_table_unref);
  fl_arena_free (document->own);
  g_free (document->prefix);
  g_free (document);
}

static void
warn_of_rest (FlReader *reader)
{
  JsonObjectIter iter;
  const char *key;
  JsonNode *node;

  if (reader->ignore_rest || reader->document->problems == NULL || reader->asked->len == json_object_get_size (reader->object))
    return;
  json_object_iter_init_ordered (&iter, reader->object);
  while (json_object_iter_next_ordered (&iter, &key, &node))
    if (!g_ptr_array_find (reader->asked, node, NULL))
      fl_reader_problem (reader, FL_SEVERITY_WARNING, key, "an unknown key: nothing reads it (is it misspelled?)");
}

void
fl_reader_free (FlReader *reader)
{
  if (reader == NULL)
    return;
  warn_of_rest (reader);
  for (guint i = 0; reader->children != NULL && i < reader->children->len; i++)
    fl_reader_free (reader->children->pdata[i]);
  if (reader->parent == NULL)
    document_free (reader->document);
  g_clear_pointer (&reader->children, g_ptr_array_unref);
  g_clear_pointer (&reader->child_of, g_hash_table_unref);
  g_ptr_array_unref (reader->asked);
  g_free (reader);
}

void
fl_reader_ignore_rest (FlReader *reader)
{
  reader->ignore_rest = TRUE;
}

FlArena *
fl_reader_arena (FlReader *reader)
{
  return reader->document->arena;
}

/* ── members ── */

/* The member's node, noted as asked for; NULL where absent. */
static JsonNode *
member (FlReader *reader, const char *key)
{
  JsonNode *node = json_object_get_member (reader->object, key);

  if (node != NULL && !g_ptr_array_find (reader->asked, node, NULL))
    g_ptr_array_add (reader->asked, node);
  return node;
}

/* The member's node where there is one that is not null; a missing one is a problem when required. */
static JsonNode *
value_member (FlReader *reader, const char *key, gboolean required, const char *expected)
{
  JsonNode *node = member (reader, key);

  if (node != NULL && !JSON_NODE_HOLDS_NULL (node))
    return node;
  if (required)
    error_at (reader, key, node == NULL ? "the key is missing: expected %s" : "%s; null says that there is none", expected);
  return NULL;
}

gboolean
fl_reader_has (FlReader *reader, const char *key)
{
  return member (reader, key) != NULL;
}

gboolean
fl_reader_is_null (FlReader *reader, const char *key)
{
  JsonNode *node = member (reader, key);

  return node != NULL && JSON_NODE_HOLDS_NULL (node);
}

gboolean
fl_reader_is_list (FlReader *reader, const char *key)
{
  JsonNode *node = member (reader, key);

  return node != NULL && JSON_NODE_HOLDS_ARRAY (node);
}

static FlReader *
child (FlReader *reader, const char *key, gssize index, JsonNode *node)
{
  FlReader *found;

  if (reader->child_of == NULL)
    {
      reader->child_of = g_hash_table_new (NULL, NULL);
      reader->children = g_ptr_array_new ();
    }
  found = g_hash_table_lookup (reader->child_of, node);
  if (found == NULL)
    {
      found = reader_new (reader->document, reader, key, index, node);
      g_hash_table_insert (reader->child_of, node, found);
      g_ptr_array_add (reader->children, found);
    }
  return found;
}

static const char an_object[] = "an object in { }", a_list[] = "a list in [ ]", a_text[] = "a text in double quotes";

FlReader *
fl_reader_object (FlReader *reader, const char *key, gboolean required)
{
  JsonNode *node = value_member (reader, key, required, an_object);

  if (node == NULL)
    return NULL;
  if (JSON_NODE_HOLDS_OBJECT (node))
    return child (reader, key, -1, node);
  error_at (reader, key, an_object);
  return NULL;
}

static JsonArray *
list (FlReader *reader, const char *key, gboolean required)
{
  JsonNode *node = value_member (reader, key, required, a_list);

  if (node == NULL)
    return NULL;
  if (JSON_NODE_HOLDS_ARRAY (node))
    return json_node_get_array (node);
  error_at (reader, key, a_list);
  return NULL;
}

gsize
fl_reader_list (FlReader *reader, const char *key, gboolean required)
{
  JsonArray *array = list (reader, key, required);

  return array == NULL ? 0 : json_array_get_length (array);
}

/* NULL past the end of the list or where there is none: fl_reader_list has said so already. */
static JsonNode *
item (FlReader *reader, const char *key, gsize index)
{
  JsonNode *node = member (reader, key);

  if (node == NULL || !JSON_NODE_HOLDS_ARRAY (node) || index >= json_array_get_length (json_node_get_array (node)))
    return NULL;
  return json_array_get_element (json_node_get_array (node), (guint) index);
}

FlReader *
fl_reader_item (FlReader *reader, const char *key, gsize index)
{
  JsonNode *node = item (reader, key, index);

  if (node == NULL)
    return NULL;
  if (JSON_NODE_HOLDS_OBJECT (node))
    return child (reader, key, (gssize) index, node);
  problem_at_item (reader, key, index, "%s", an_object);
  return NULL;
}

static gboolean
holds_text (JsonNode *node)
{
  return JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) == G_TYPE_STRING;
}

static gboolean
holds_number (JsonNode *node)
{
  return JSON_NODE_HOLDS_VALUE (node)
    && (json_node_get_value_type (node) == G_TYPE_INT64 || json_node_get_value_type (node) == G_TYPE_DOUBLE);
}

const char *
fl_reader_item_text (FlReader *reader, const char *key, gsize index)
{
  JsonNode *node = item (reader, key, index);

  if (node == NULL)
    return NULL;
  if (holds_text (node))
    return fl_arena_text (reader->document->arena, json_node_get_string (node));
  problem_at_item (reader, key, index, "%s", a_text);
  return NULL;
}

double
fl_reader_item_number (FlReader *reader, const char *key, gsize index)
{
  JsonNode *node = item (reader, key, index);

  if (node == NULL)
    return NAN;
  if (holds_number (node))
    return json_node_get_double (node);
  problem_at_item (reader, key, index, "a number");
  return NAN;
}

const char *const *
fl_reader_texts (FlReader *reader, const char *key, gboolean required)
{
  JsonArray *array = list (reader, key, required);
  const char **texts;
  gsize length, n = 0;

  if (array == NULL)
    return NULL;
  length = json_array_get_length (array);
  texts = fl_arena_new0 (reader->document->arena, const char *, length + 1);
  for (gsize i = 0; i < length; i++)
    {
      const char *text = fl_reader_item_text (reader, key, i);

      if (text != NULL)
        texts[n++] = text;
    }
  return texts;
}

GPtrArray *
fl_reader_keys (FlReader *reader)
{
  GPtrArray *keys = g_ptr_array_new ();
  JsonObjectIter iter;
  const char *key;

  json_object_iter_init_ordered (&iter, reader->object);
  while (json_object_iter_next_ordered (&iter, &key, NULL))
    g_ptr_array_add (keys, (gpointer) key);
  return keys;
}

/* ── plain values ── */

const char *
fl_reader_text (FlReader *reader, const char *key, gboolean required)
{
  JsonNode *node = value_member (reader, key, required, a_text);
  const char *text;

  if (node == NULL)
    return NULL;
  if (!holds_text (node))
    {
      error_at (reader, key, a_text);
      return NULL;
    }
  text = json_node_get_string (node);
  if (required && *text == '\0')
    {
      error_at (reader, key, "a text that is not empty");
      return NULL;
    }
  return fl_arena_text (reader->document->arena, text);
}

gboolean
fl_reader_bool (FlReader *reader, const char *key, gboolean fallback)
{
  JsonNode *node = member (reader, key);

  if (node == NULL)
    return fallback;
  if (JSON_NODE_HOLDS_VALUE (node) && json_node_get_value_type (node) == G_TYPE_BOOLEAN)
    return json_node_get_boolean (node);
  error_at (reader, key, "true or false");
  return fallback;
}

gint
fl_reader_int (FlReader *reader, const char *key, gint min, gint max, gint fallback)
{
  JsonNode *node = member (reader, key);
  double value;

  if (node == NULL)
    return fallback;
  value = holds_number (node) ? json_node_get_double (node) : NAN;
  if (value == floor (value) && value >= min && value <= max)
    return (gint) value;
  error_at (reader, key, "a whole number between %d and %d", min, max);
  return fallback;
}

double
fl_reader_number (FlReader *reader, const char *key, double min, double max, double fallback)
{
  JsonNode *node = member (reader, key);
  g_autofree char *range = NULL;
  double value;

  if (node == NULL)
    return fallback;
  value = holds_number (node) ? json_node_get_double (node) : NAN;
  if (!isnan (value) && !(value < min) && !(value > max))
    return value;
  range = fl_range_text (min, max, "");
  error_at (reader, key, "%s", range);
  return fallback;
}

gint
fl_reader_choice (FlReader *reader, const char *key, const char *const *values, gboolean required, gint fallback)
{
  JsonNode *node = member (reader, key);
  gboolean absent = node == NULL || JSON_NODE_HOLDS_NULL (node);
  g_autofree char *listed = NULL;

  if (absent && !required)
    return fallback;
  for (gint i = 0; !absent && holds_text (node) && values[i] != NULL; i++)
    if (strcmp (json_node_get_string (node), values[i]) == 0)
      return i;
  listed = g_strjoinv (", ", (char **) values);
  error_at (reader, key, node == NULL ? "the key is missing: expected one of %s" : "one of %s", listed);
  return fallback;
}
