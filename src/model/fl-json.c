/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The guard: one pass over a text by the grammar of RFC 8259, before json-glib sees it. It goes on after a flaw as long as it knows where
 * the next value begins, so that a document's problems come together. */
#include "fl-json.h"

#include <string.h>

#include "fl-arena.h"
#include "fl-json-scan.h"
#include "fl-json-token.h"

enum
{
  VALUE_BYTES = 256,            /* of a value that are looked at for a message */
  FEW_KEYS = 16                 /* compared each with each; more are sorted first */
};

typedef struct
{
  const char *text;             /* between the quotes; decoded where it holds escapes */
  gsize length;
  const char *value;
  guint line;
} Key;

typedef struct
{
  gboolean array;
  gsize n;                      /* elements or members begun */
  guint first_key;
} Frame;

typedef struct
{
  const char *at, *end;         /* the end of what is UTF-8 */
  guint line;
  gboolean cut;                 /* what follows `end` is not UTF-8 */
  FlProblems *problems;
  guint errors;
  Frame frames[FL_JSON_MAX_DEPTH];
  guint depth;
  GArray *keys;                 /* of all open objects */
  FlArena *arena;               /* decoded keys */
} Guard;

/* ── where it is and what is wrong ── */

static char *
place (const Guard *guard, const Key *key)
{
  GString *path = g_string_new (NULL);

  for (guint i = 0; i < guard->depth; i++)
    {
      const Frame *frame = &guard->frames[i];
      guint keys_end = i + 1 < guard->depth ? guard->frames[i + 1].first_key : guard->keys->len;
      g_autofree char *name = NULL;

      if (frame->array)
        {
          if (frame->n > 0)
            g_string_append_printf (path, "[%" G_GSIZE_FORMAT "]", frame->n - 1);
          continue;
        }
      if (key != NULL && i + 1 == guard->depth)
        name = g_strndup (key->text, key->length);
      else if (keys_end > frame->first_key)
        {
          const Key *last = &g_array_index (guard->keys, Key, keys_end - 1);

          name = g_strndup (last->text, last->length);
        }
      if (name != NULL)
        fl_json_path_key (path, name);
    }
  return g_string_free (path, FALSE);
}

static void G_GNUC_PRINTF (5, 6)
complain (Guard *guard, guint line, const char *value, gsize length, const char *expected, ...)
{
  g_autofree char *path = place (guard, NULL), *sentence = NULL, *copy = NULL;
  va_list args;

  guard->errors++;
  va_start (args, expected);
  sentence = g_strdup_vprintf (expected, args);
  va_end (args);
  copy = value == NULL ? NULL : g_strndup (value, MIN (length, VALUE_BYTES));
  fl_problems_add (guard->problems, FL_SEVERITY_ERROR, path, line, copy, "%s", sentence);
}

/* The text ends where it should go on, or is no text from here. */
static void
complain_of_end (Guard *guard)
{
  if (guard->cut)
    complain (guard, guard->line, NULL, 0, "text in UTF-8; the byte 0x%02x here is none", (guint) (guchar) *guard->end);
  else if (guard->depth == 0)
    complain (guard, guard->line, NULL, 0, "a JSON value; the text ends before one");
  else
    complain (guard, guard->line, NULL, 0, "more text: it ends inside this %s, so a part is missing or a bracket or quote was not closed",
              guard->frames[guard->depth - 1].array ? "list" : "object");
}

/* The rest of the line shows what stands here. Always FALSE. */
static gboolean
give_up (Guard *guard, const char *expected)
{
  gsize left = (gsize) (guard->end - guard->at);
  const char *newline = memchr (guard->at, '\n', left);

  if (left == 0)
    complain_of_end (guard);
  else
    complain (guard, guard->line, guard->at, newline == NULL ? left : (gsize) (newline - guard->at), "%s", expected);
  return FALSE;
}

static void
skip_space (Guard *guard)
{
  for (; guard->at < guard->end; guard->at++)
    {
      if (*guard->at == '\n')
        guard->line++;
      else if (*guard->at != ' ' && *guard->at != '\t' && *guard->at != '\r')
        return;
    }
}

static gboolean
stands (const Guard *guard, char sign)
{
  return guard->at < guard->end && *guard->at == sign;
}

/* ── texts ── */

/* `at` is on the opening quote and is moved behind the closing one. *escaped may be NULL. */
static gboolean
check_string (Guard *guard, gboolean *escaped)
{
  const char *from = guard->at, *at = from + 1, *flaw = NULL, *found;
  gboolean any_escape = FALSE;

  while (at < guard->end && *at != '"' && *at != '\n')
    {
      found = NULL;
      if (*at == '\\' && guard->end - at > 1)
        {
          any_escape = TRUE;
          found = fl_json_check_escape (&at, guard->end);
        }
      else
        {
          if ((guchar) *at < 0x20)
            found = "a text without control characters; a tab is written \\t";
          at++;
        }
      flaw = flaw == NULL ? found : flaw;
    }
  if (at >= guard->end)
    {
      guard->at = guard->end;
      return give_up (guard, "");
    }
  if (*at == '\n')
    return give_up (guard, "a closing quote on the same line; a line break inside a text is written \\n");
  guard->at = at + 1;
  if (flaw != NULL)
    complain (guard, guard->line, from, (gsize) (guard->at - from), "%s", flaw);
  if (escaped != NULL)
    *escaped = any_escape;
  return TRUE;
}

/* ── numbers ── */

static gboolean
check_number (Guard *guard)
{
  FlJsonNumber number = fl_json_read_number (guard->at, guard->end);
  const char *flaw = NULL;

  if (number.end < guard->end && (g_ascii_isalnum (*number.end) || strchr ("_.+-", *number.end) != NULL))
    return give_up (guard, "a number such as 12, -3.5 or 1.2e3 (without unit; no NaN, no infinity)");
  if (number.end == guard->end && number.bad)
    {
      guard->at = guard->end;
      return give_up (guard, "");
    }
  if (number.bad)
    flaw = "a number such as 12, -3.5 or 0.25: no leading zeros, a digit before and after the point";
  else
    flaw = fl_json_check_number (&number);
  if (flaw != NULL)
    complain (guard, guard->line, number.from, (gsize) (number.end - number.from), "%s", flaw);
  guard->at = number.end;
  return TRUE;
}

/* ── objects and their keys ── */

static gint
compare_keys (gconstpointer a, gconstpointer b)
{
  const Key *key_a = a, *key_b = b;
  gint order;

  if (key_a->length != key_b->length)
    return key_a->length < key_b->length ? -1 : 1;
  order = memcmp (key_a->text, key_b->text, key_a->length);
  return order != 0 ? order : (key_a->value > key_b->value) - (key_a->value < key_b->value);
}

static gboolean
same_key (const Key *a, const Key *b)
{
  return a->length == b->length && memcmp (a->text, b->text, a->length) == 0;
}

static void
complain_of_key (Guard *guard, const Key *key, const Key *first)
{
  g_autofree char *path = place (guard, key), *value = NULL;
  FlScan scan = fl_scan (key->value, (gsize) (guard->end - key->value));
  FlJsonSpan span = { 0 };

  guard->errors++;
  if (fl_scan_value (&scan, &span))
    value = g_strndup (key->value + span.offset, MIN (span.length, VALUE_BYTES));
  fl_problems_add (guard->problems, FL_SEVERITY_ERROR, path, key->line, value,
                   "each key once in an object; this one stands on line %u already", first->line);
}

/* Finds equal keys of the innermost object. Sorting the many keeps an object of a million members from costing their square. */
static void
check_keys (Guard *guard)
{
  guint first = guard->frames[guard->depth - 1].first_key, n = guard->keys->len - first;
  Key *keys = n > 0 ? &g_array_index (guard->keys, Key, first) : NULL;    /* an empty array has no data to point into */

  if (n > FEW_KEYS)
    {
      qsort (keys, n, sizeof *keys, compare_keys);
      for (guint i = 1; i < n; i++)
        if (same_key (&keys[i], &keys[i - 1]))
          complain_of_key (guard, &keys[i], &keys[i - 1]);
      return;
    }
  for (guint i = 1; i < n; i++)
    for (guint j = i; j-- > 0;)
      if (same_key (&keys[i], &keys[j]))
        {
          complain_of_key (guard, &keys[i], &keys[j]);
          break;
        }
}

static gboolean
check_key (Guard *guard)
{
  Key key = { .line = guard->line };
  const char *from = guard->at;
  gboolean escaped;

  if (!stands (guard, '"'))
    return give_up (guard, "a key in double quotes");
  if (!check_string (guard, &escaped))
    return FALSE;
  key.text = from + 1;
  key.length = (gsize) (guard->at - from) - 2;
  if (escaped)
    {
      g_autofree char *text = fl_json_unquote (from, key.length + 2);

      key.text = fl_arena_text (guard->arena, text);
      key.length = strlen (text);
    }
  key.value = guard->at;
  g_array_append_val (guard->keys, key);
  skip_space (guard);
  if (!stands (guard, ':'))
    return give_up (guard, "a colon and a value after the key");
  guard->at++;
  skip_space (guard);
  g_array_index (guard->keys, Key, guard->keys->len - 1).value = guard->at;
  return TRUE;
}

/* ── values ── */

static const char *
expected_value (char c)
{
  switch (c)
    {
    case '\'':
      return "a value; texts stand in double quotes";
    case '/':
    case '#':
      return "a value; JSON has no comments";
    case ',':
    case '}':
    case ']':
    case ':':
      return "a value before this sign";
    case '+':
    case '.':
      return "a number that starts with a digit or a minus sign";
    case 'N':
    case 'I':
    case 'n':
    case 'i':
      return "a number, or null; JSON has no NaN and no infinity: leave out what is not known";
    default:
      return "a value: a text in double quotes, a number, true, false, null, a list in [ ] or an object in { }";
    }
}

static gboolean
check_word (Guard *guard, const char *word)
{
  gsize length = strlen (word);

  if ((gsize) (guard->end - guard->at) < length || memcmp (guard->at, word, length) != 0)
    return give_up (guard, expected_value (*guard->at));
  guard->at += length;
  return TRUE;
}

static gboolean
open_container (Guard *guard)
{
  if (guard->depth == FL_JSON_MAX_DEPTH)
    return give_up (guard, "lists and objects nested at most 64 deep");
  guard->frames[guard->depth++] = (Frame) { *guard->at == '[', 0, guard->keys->len };
  guard->at++;
  return TRUE;
}

/* A container is only opened here; check_next goes through it. FALSE where the text can no longer be followed. */
static gboolean
check_value (Guard *guard)
{
  skip_space (guard);
  if (guard->at >= guard->end)
    return give_up (guard, "");
  switch (*guard->at)
    {
    case '{':
    case '[':
      return open_container (guard);
    case '"':
      return check_string (guard, NULL);
    case 't':
      return check_word (guard, "true");
    case 'f':
      return check_word (guard, "false");
    case 'n':
      return check_word (guard, "null");
    default:
      if (g_ascii_isdigit (*guard->at) || *guard->at == '-')
        return check_number (guard);
      return give_up (guard, expected_value (*guard->at));
    }
}

static void
close_container (Guard *guard)
{
  Frame *frame = &guard->frames[guard->depth - 1];

  if (!frame->array)
    check_keys (guard);
  g_array_set_size (guard->keys, frame->first_key);
  guard->depth--;
}

/* The next element of the innermost container, or its end. */
static gboolean
check_next (Guard *guard)
{
  Frame *frame = &guard->frames[guard->depth - 1];
  char closing = frame->array ? ']' : '}';

  skip_space (guard);
  if (stands (guard, closing))
    {
      guard->at++;
      close_container (guard);
      return TRUE;
    }
  if (frame->n > 0)
    {
      if (!stands (guard, ','))
        return give_up (guard, frame->array ? "a comma and the next element, or ]" : "a comma and the next key, or }");
      guard->at++;
      skip_space (guard);
      if (stands (guard, closing))
        return give_up (guard, "no comma after the last element");
    }
  frame->n++;
  return (frame->array || check_key (guard)) && check_value (guard);
}

static void
check_document (Guard *guard)
{
  gboolean follows = check_value (guard);

  while (follows && guard->depth > 0)
    follows = check_next (guard);
  if (!follows)
    {
      while (guard->depth > 0)  /* equal keys of what was open */
        close_container (guard);
      return;
    }
  skip_space (guard);
  if (guard->at < guard->end || guard->cut)
    give_up (guard, "nothing after the end of the document");
}

/* ── the door ── */

static gboolean
refuse (FlProblems *problems, const char *expected)
{
  fl_problems_add (problems, FL_SEVERITY_ERROR, "", 0, NULL, "%s", expected);
  return FALSE;
}

/* What no text editor writes in the first bytes of a document, or UTF-16, which some do. NULL if there is nothing of the kind. */
static const char *
refusal (const char *text, gsize size)
{
  if (size > FL_JSON_MAX_BYTES)
    return "a document of at most 256 MB";
  if (size >= 2 && (memcmp (text, "\xFF\xFE", 2) == 0 || memcmp (text, "\xFE\xFF", 2) == 0))
    return "a document in UTF-8; this one is in UTF-16: save it as UTF-8";
  for (gsize i = 0; i < MIN (size, 8); i++)
    if ((guchar) text[i] < 0x20 && text[i] != '\t' && text[i] != '\n' && text[i] != '\r')
      return "a JSON document; this is a binary file";
  return NULL;
}

static gboolean
is_blank (const char *text, gsize size)
{
  FlScan scan = fl_scan (text, size);

  fl_scan_space (&scan);
  return scan.at == scan.end;
}

gboolean
fl_json_guard (GBytes *text, FlProblems *problems)
{
  gsize size;
  const char *data = g_bytes_get_data (text, &size), *reason;
  FlScan start;
  Guard guard;

  if (data == NULL || is_blank (data, size))
    return refuse (problems, "a JSON document; this is an empty document");
  reason = refusal (data, size);
  if (reason != NULL)
    return refuse (problems, reason);
  start = fl_scan (data, size);
  guard = (Guard) { .at = start.at, .end = start.end, .line = 1, .problems = problems };
  guard.cut = !g_utf8_validate_len (start.at, (gsize) (start.end - start.at), &guard.end);
  guard.keys = g_array_new (FALSE, FALSE, sizeof (Key));
  guard.arena = fl_arena_new ();
  check_document (&guard);
  g_array_unref (guard.keys);
  fl_arena_free (guard.arena);
  return guard.errors == 0;
}

JsonNode *
fl_json_parse (GBytes *text, FlProblems *problems)
{
  g_autoptr(JsonParser) parser = NULL;
  g_autoptr(GError) error = NULL;
  g_autoptr(JsonNode) root = NULL;
  FlScan start;
  gsize size;
  const char *data;

  if (!fl_json_guard (text, problems))
    return NULL;
  data = g_bytes_get_data (text, &size);
  start = fl_scan (data, size);
  parser = json_parser_new ();
  if (!json_parser_load_from_data (parser, start.at, start.end - start.at, &error))
    {
      fl_problems_add (problems, FL_SEVERITY_ERROR, "", json_parser_get_current_line (parser), NULL, "%s", error->message);
      return NULL;
    }
  root = json_parser_steal_root (parser);
  if (root == NULL || !JSON_NODE_HOLDS_OBJECT (root))
    {
      g_autofree char *value = g_strndup (start.at, MIN ((gsize) (start.end - start.at), VALUE_BYTES));

      fl_problems_add (problems, FL_SEVERITY_ERROR, "", 1, value, "an object in { } as the whole document");
      return NULL;
    }
  return g_steal_pointer (&root);
}
