/* SPDX-License-Identifier: GPL-3.0-or-later */
/* JSON text with the shortest numbers that read back; see the header for why json-glib's generator does not serve. */
#include "fl-json-write.h"

#include <math.h>
#include <string.h>

/* What is open, from the root down: '{' or '['. `empty`: nothing was written into the innermost yet. */
struct _FlJsonWriter
{
  GString *text;
  GString *open;
  gboolean empty;
};

FlJsonWriter *
fl_json_writer_new (void)
{
  FlJsonWriter *writer = g_new0 (FlJsonWriter, 1);

  writer->text = g_string_new (NULL);
  writer->open = g_string_new (NULL);
  writer->empty = TRUE;
  return writer;
}

void
fl_json_writer_free (FlJsonWriter *writer)
{
  if (writer == NULL)
    return;
  g_string_free (writer->text, TRUE);
  g_string_free (writer->open, TRUE);
  g_free (writer);
}

static void
add_escaped (GString *text, char c)
{
  switch (c)
    {
    case '"':  g_string_append (text, "\\\""); break;
    case '\\': g_string_append (text, "\\\\"); break;
    case '\b': g_string_append (text, "\\b"); break;
    case '\f': g_string_append (text, "\\f"); break;
    case '\n': g_string_append (text, "\\n"); break;
    case '\r': g_string_append (text, "\\r"); break;
    case '\t': g_string_append (text, "\\t"); break;
    default:
      if ((guchar) c < 0x20)
        g_string_append_printf (text, "\\u%04x", (guint) (guchar) c);
      else
        g_string_append_c (text, c);
    }
}

static void
add_text (GString *text, const char *value)
{
  g_string_append_c (text, '"');
  for (; *value != '\0'; value++)
    add_escaped (text, *value);
  g_string_append_c (text, '"');
}

static void
add_line (FlJsonWriter *writer)
{
  g_string_append_c (writer->text, '\n');
  for (gsize level = 0; level < writer->open->len; level++)
    g_string_append_c (writer->text, ' ');
}

/* What stands before a value: the comma, the line, the key. */
static void
begin_value (FlJsonWriter *writer, const char *key)
{
  const gboolean root = writer->open->len == 0;
  const gboolean object = !root && writer->open->str[writer->open->len - 1] == '{';

  g_assert (object == (key != NULL));
  g_assert (!root || writer->text->len == 0);
  if (!writer->empty)
    g_string_append_c (writer->text, ',');
  if (!root)
    add_line (writer);
  if (object)
    {
      add_text (writer->text, key);
      g_string_append (writer->text, ": ");
    }
  writer->empty = FALSE;
}

static void
begin (FlJsonWriter *writer, const char *key, char bracket)
{
  begin_value (writer, key);
  g_string_append_c (writer->text, bracket);
  g_string_append_c (writer->open, bracket);
  writer->empty = TRUE;
}

static void
end (FlJsonWriter *writer, char opened, char bracket)
{
  g_assert (writer->open->len > 0 && writer->open->str[writer->open->len - 1] == opened);
  g_string_truncate (writer->open, writer->open->len - 1);
  if (!writer->empty)
    add_line (writer);
  g_string_append_c (writer->text, bracket);
  writer->empty = FALSE;
}

void
fl_json_writer_begin_object (FlJsonWriter *writer, const char *key)
{
  begin (writer, key, '{');
}

void
fl_json_writer_end_object (FlJsonWriter *writer)
{
  end (writer, '{', '}');
}

void
fl_json_writer_begin_list (FlJsonWriter *writer, const char *key)
{
  begin (writer, key, '[');
}

void
fl_json_writer_end_list (FlJsonWriter *writer)
{
  end (writer, '[', ']');
}

void
fl_json_writer_text (FlJsonWriter *writer, const char *key, const char *text)
{
  if (text == NULL)
    {
      fl_json_writer_null (writer, key);
      return;
    }
  begin_value (writer, key);
  add_text (writer->text, text);
}

void
fl_json_writer_number (FlJsonWriter *writer, const char *key, double value)
{
  char buffer[G_ASCII_DTOSTR_BUF_SIZE];

  if (!isfinite (value))
    {
      fl_json_writer_null (writer, key);
      return;
    }
  begin_value (writer, key);
  g_string_append (writer->text, fl_number_text (value, buffer));
}

void
fl_json_writer_bool (FlJsonWriter *writer, const char *key, gboolean value)
{
  begin_value (writer, key);
  g_string_append (writer->text, value ? "true" : "false");
}

void
fl_json_writer_null (FlJsonWriter *writer, const char *key)
{
  begin_value (writer, key);
  g_string_append (writer->text, "null");
}

void
fl_json_writer_quantity (FlJsonWriter *writer, const char *key, FlQuantity quantity)
{
  const char *suffix = fl_unit_suffix (quantity.unit);
  g_autofree char *whole = NULL;

  if (!fl_quantity_known (quantity))
    return;
  whole = *suffix != '\0' ? g_strconcat (key, "_", suffix, NULL) : g_strdup (key);
  fl_json_writer_number (writer, whole, quantity.value);
}

void
fl_json_writer_optional (FlJsonWriter *writer, const char *key, const char *text)
{
  if (text != NULL)
    fl_json_writer_text (writer, key, text);
}

void
fl_json_writer_flag (FlJsonWriter *writer, const char *key, gboolean value)
{
  if (value)
    fl_json_writer_bool (writer, key, TRUE);
}

void
fl_json_writer_texts (FlJsonWriter *writer, const char *key, const char *const *texts)
{
  if (texts == NULL)
    return;
  fl_json_writer_begin_list (writer, key);
  for (; *texts != NULL; texts++)
    fl_json_writer_text (writer, NULL, *texts);
  fl_json_writer_end_list (writer);
}

void
fl_json_writer_raw (FlJsonWriter *writer, const char *key, const char *json, gsize length)
{
  begin_value (writer, key);
  g_string_append_len (writer->text, json, (gssize) length);
}

GBytes *
fl_json_writer_end (FlJsonWriter *writer)
{
  GBytes *bytes;

  g_assert (writer->open->len == 0 && !writer->empty);
  g_string_append_c (writer->text, '\n');
  bytes = g_string_free_to_bytes (g_steal_pointer (&writer->text));
  writer->text = g_string_new (NULL);
  writer->empty = TRUE;
  return bytes;
}
