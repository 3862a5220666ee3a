/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The scanner that finds a value's place in a guarded text: how a record's member is replaced and a problem gets its line. */
#include "fl-json-scan.h"

#include <string.h>

FlScan
fl_scan (const char *text, gsize length)
{
  FlScan scan = { text, text, text + length, 1 };

  if (length >= 3 && memcmp (text, "\xEF\xBB\xBF", 3) == 0)
    scan.at += 3;
  return scan;
}

void
fl_scan_space (FlScan *scan)
{
  for (; scan->at < scan->end; scan->at++)
    {
      if (*scan->at == '\n')
        scan->line++;
      else if (*scan->at != ' ' && *scan->at != '\t' && *scan->at != '\r')
        return;
    }
}

gboolean
fl_scan_take (FlScan *scan, char sign)
{
  fl_scan_space (scan);
  if (scan->at >= scan->end || *scan->at != sign)
    return FALSE;
  scan->at++;
  return TRUE;
}

void
fl_scan_string (FlScan *scan)
{
  scan->at++;
  while (scan->at < scan->end && *scan->at != '"')
    scan->at += (*scan->at == '\\' && scan->end - scan->at > 1) ? 2 : 1;
  if (scan->at < scan->end)
    scan->at++;
}

/* Brackets are counted, not stacked: the guard has seen that they match. */
static void
skip_container (FlScan *scan)
{
  gsize depth = 0;

  while (scan->at < scan->end)
    {
      switch (*scan->at)
        {
        case '"':
          fl_scan_string (scan);
          continue;
        case '\n':
          scan->line++;
          break;
        case '{':
        case '[':
          depth++;
          break;
        case '}':
        case ']':
          depth--;
          break;
        default:
          break;
        }
      scan->at++;
      if (depth == 0)
        return;
    }
}

static gboolean
ends_scalar (char c)
{
  return c == ',' || c == '}' || c == ']' || c == ':' || c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

gboolean
fl_scan_value (FlScan *scan, FlJsonSpan *span)
{
  const char *from;
  guint line;

  fl_scan_space (scan);
  from = scan->at;
  line = scan->line;
  if (from >= scan->end || *from == ',' || *from == '}' || *from == ']' || *from == ':')
    return FALSE;
  if (*from == '"')
    fl_scan_string (scan);
  else if (*from == '{' || *from == '[')
    skip_container (scan);
  else
    while (scan->at < scan->end && !ends_scalar (*scan->at))
      scan->at++;
  if (span != NULL)
    *span = (FlJsonSpan) { (gsize) (from - scan->start), (gsize) (scan->at - from), line };
  return TRUE;
}

gboolean
fl_scan_more (FlScan *scan, gsize *n)
{
  fl_scan_space (scan);
  if (scan->at >= scan->end || *scan->at == ']' || *scan->at == '}')
    return FALSE;
  if (*n > 0 && !fl_scan_take (scan, ','))
    return FALSE;
  (*n)++;
  return TRUE;
}

gboolean
fl_scan_key (FlScan *scan, FlJsonSpan *key)
{
  fl_scan_space (scan);
  return scan->at < scan->end && *scan->at == '"' && fl_scan_value (scan, key) && fl_scan_take (scan, ':');
}

static gunichar
hex4 (const char *at, const char *end)
{
  gunichar c = 0;

  if (end - at < 4)
    return 0xFFFD;
  for (guint i = 0; i < 4; i++)
    {
      gint digit = g_ascii_xdigit_value (at[i]);

      if (digit < 0)
        return 0xFFFD;
      c = c * 16 + (gunichar) digit;
    }
  return c;
}

static gunichar
escaped_unicode (const char **at, const char *end)
{
  gunichar c = hex4 (*at, end), low;

  *at += MIN (4, end - *at);
  if (c < 0xD800 || c > 0xDFFF)
    return c;
  if (c > 0xDBFF || end - *at < 6 || (*at)[0] != '\\' || (*at)[1] != 'u')
    return 0xFFFD;
  low = hex4 (*at + 2, end);
  if (low < 0xDC00 || low > 0xDFFF)
    return 0xFFFD;
  *at += 6;
  return 0x10000 + ((c - 0xD800) << 10) + (low - 0xDC00);
}

gunichar
fl_scan_char (const char **at, const char *end)
{
  static const char letters[] = "bfnrt", meant[] = "\b\f\n\r\t";
  const char *letter;
  gunichar c;

  if (**at != '\\' || end - *at < 2)
    {
      c = g_utf8_get_char_validated (*at, MIN (end - *at, 6));
      *at += c == (gunichar) -1 || c == (gunichar) -2 ? 1 : g_utf8_skip[*(const guchar *) *at];
      return c;
    }
  *at += 2;
  if ((*at)[-1] == 'u')
    return escaped_unicode (at, end);
  letter = memchr (letters, (*at)[-1], sizeof letters - 1);
  return letter != NULL ? (gunichar) (guchar) meant[letter - letters] : (gunichar) (guchar) (*at)[-1];
}

char *
fl_json_unquote (const char *string, gsize length)
{
  GString *text = g_string_sized_new (length);
  const char *at = string + MIN (length, 1), *end = string + length - (length > 1 ? 1 : 0);

  if (length > 0 && memchr (string, '\\', length) == NULL)
    g_string_append_len (text, at, end - at);
  else
    while (at < end)
      {
        gunichar c = fl_scan_char (&at, end);

        g_string_append_unichar (text, c <= 0x10FFFF ? c : 0xFFFD);
      }
  return g_string_free (text, FALSE);
}

/* ── paths ── */

/* One step of a path: an index, or a key, which is in JSON's escapes where it stood in quotes. */
typedef struct
{
  gboolean is_index;
  gsize index;
  const char *key, *key_end;
} Step;

static gboolean
read_index (const char **path, Step *step)
{
  char *end = NULL;
  guint64 index;

  if (!g_ascii_isdigit (**path))
    return FALSE;
  index = g_ascii_strtoull (*path, &end, 10);
  step->is_index = TRUE;
  step->index = (gsize) index;
  *path = end;
  return TRUE;
}

static gboolean
read_quoted (const char **path, Step *step)
{
  const char *at = *path + 1;

  step->key = at;
  while (*at != '\0' && *at != '"')
    at += (*at == '\\' && at[1] != '\0') ? 2 : 1;
  step->key_end = at;
  *path = at + 1;
  return *at == '"';
}

static gboolean
next_step (const char **path, gboolean first, Step *step)
{
  const char *at = *path;

  *step = (Step) { 0 };
  if (*at == '[')
    {
      at++;
      if (!(*at == '"' ? read_quoted (&at, step) : read_index (&at, step)) || *at != ']')
        return FALSE;
      *path = at + 1;
      return TRUE;
    }
  if (!first && *at++ != '.')
    return FALSE;
  step->key = at;
  step->key_end = at + strcspn (at, ".[");
  *path = step->key_end;
  return step->key_end > step->key;
}

static gboolean
same_key (const char *text, FlJsonSpan key, const Step *step)
{
  const char *a = text + key.offset + 1, *a_end = text + key.offset + key.length - 1;
  const char *b = step->key, *b_end = step->key_end;

  if (key.length < 2)
    return FALSE;
  if (memchr (a, '\\', (gsize) (a_end - a)) == NULL && memchr (b, '\\', (gsize) (b_end - b)) == NULL)
    return a_end - a == b_end - b && memcmp (a, b, (gsize) (a_end - a)) == 0;
  while (a < a_end && b < b_end)
    if (fl_scan_char (&a, a_end) != fl_scan_char (&b, b_end))
      return FALSE;
  return a == a_end && b == b_end;
}

/* Moves the cursor to the member or element that the step names. */
static gboolean
go (FlScan *scan, const Step *step)
{
  FlJsonSpan key;
  gsize n = 0;

  if (!fl_scan_take (scan, step->is_index ? '[' : '{'))
    return FALSE;
  while (fl_scan_more (scan, &n))
    {
      if (!step->is_index && !fl_scan_key (scan, &key))
        return FALSE;
      if (step->is_index ? n - 1 == step->index : same_key (scan->start, key, step))
        return TRUE;
      if (!fl_scan_value (scan, NULL))
        return FALSE;
    }
  return FALSE;
}

static gboolean
go_path (FlScan *scan, const char *path)
{
  Step step;

  for (gboolean first = TRUE; *path != '\0'; first = FALSE)
    if (!next_step (&path, first, &step) || !go (scan, &step))
      return FALSE;
  return TRUE;
}

gboolean
fl_json_find (const char *text, gsize length, const char *path, FlJsonSpan *span)
{
  FlScan scan = fl_scan (text, length);

  return go_path (&scan, path) && fl_scan_value (&scan, span);
}

GArray *
fl_json_elements (const char *text, gsize length, const char *path)
{
  g_autoptr(GArray) spans = g_array_new (FALSE, FALSE, sizeof (FlJsonSpan));
  FlScan scan = fl_scan (text, length);
  FlJsonSpan span;
  gsize n = 0;

  if (!go_path (&scan, path) || !fl_scan_take (&scan, '['))
    return NULL;
  while (fl_scan_more (&scan, &n) && fl_scan_value (&scan, &span))
    g_array_append_val (spans, span);
  return g_steal_pointer (&spans);
}

GArray *
fl_json_members (const char *text, gsize length, const char *path)
{
  g_autoptr(GArray) members = g_array_new (FALSE, FALSE, sizeof (FlJsonMember));
  FlScan scan = fl_scan (text, length);
  FlJsonMember member;
  gsize n = 0;

  if (!go_path (&scan, path) || !fl_scan_take (&scan, '{'))
    return NULL;
  while (fl_scan_more (&scan, &n) && fl_scan_key (&scan, &member.key) && fl_scan_value (&scan, &member.value))
    g_array_append_val (members, member);
  return g_steal_pointer (&members);
}

static gboolean
is_plain_key (const char *key)
{
  if (*key == '\0')
    return FALSE;
  for (; *key != '\0'; key++)
    if ((guchar) *key < 0x20 || strchr (".[]\"\\", *key) != NULL)
      return FALSE;
  return TRUE;
}

void
fl_json_path_key (GString *path, const char *key)
{
  if (is_plain_key (key))
    {
      if (path->len > 0)
        g_string_append_c (path, '.');
      g_string_append (path, key);
      return;
    }
  g_string_append (path, "[\"");
  for (; *key != '\0'; key++)
    {
      if ((guchar) *key < 0x20)
        g_string_append_printf (path, "\\u%04x", (guint) (guchar) *key);
      else if (*key == '"' || *key == '\\')
        g_string_append_printf (path, "\\%c", *key);
      else
        g_string_append_c (path, *key);
    }
  g_string_append (path, "\"]");
}
