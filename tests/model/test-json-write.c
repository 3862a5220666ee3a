/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The JSON writer: its layout literally, and json-glib (another's parser) reads back what went in. */
#include <json-glib/json-glib.h>
#include <math.h>
#include <string.h>

#include "fl-json-write.h"

static char *
ended (FlJsonWriter *writer)
{
  g_autoptr(GBytes) bytes = fl_json_writer_end (writer);
  gsize length;
  const char *data = g_bytes_get_data (bytes, &length);

  return g_strndup (data, length);
}

static void
test_layout (void)
{
  static const char *const texts[] = { "a", "b", NULL };
  g_autoptr(FlJsonWriter) writer = fl_json_writer_new ();
  g_autofree char *text = NULL;

  fl_json_writer_begin_object (writer, NULL);
  fl_json_writer_text (writer, "text", "P1L");
  fl_json_writer_text (writer, "no_text", NULL);
  fl_json_writer_bool (writer, "yes", TRUE);
  fl_json_writer_bool (writer, "no", FALSE);
  fl_json_writer_null (writer, "null");
  fl_json_writer_begin_list (writer, "list");
  fl_json_writer_number (writer, NULL, 1.0);
  fl_json_writer_begin_object (writer, NULL);
  fl_json_writer_end_object (writer);
  fl_json_writer_begin_list (writer, NULL);
  fl_json_writer_end_list (writer);
  fl_json_writer_end_list (writer);
  fl_json_writer_texts (writer, "texts", texts);
  fl_json_writer_texts (writer, "absent", NULL);
  fl_json_writer_optional (writer, "absent", NULL);
  fl_json_writer_flag (writer, "absent", FALSE);
  fl_json_writer_flag (writer, "flag", TRUE);
  fl_json_writer_raw (writer, "raw", "{ \"id\":\"R-03\" }", strlen ("{ \"id\":\"R-03\" }"));
  fl_json_writer_end_object (writer);
  text = ended (writer);
  g_assert_cmpstr (text, ==,
                   "{\n \"text\": \"P1L\",\n \"no_text\": null,\n \"yes\": true,\n \"no\": false,\n \"null\": null,\n"
                   " \"list\": [\n  1,\n  {},\n  []\n ],\n \"texts\": [\n  \"a\",\n  \"b\"\n ],\n \"flag\": true,\n"
                   " \"raw\": { \"id\":\"R-03\" }\n}\n");
}

static void
test_quantities (void)
{
  g_autoptr(FlJsonWriter) writer = fl_json_writer_new ();
  g_autofree char *text = NULL;

  fl_json_writer_begin_object (writer, NULL);
  fl_json_writer_quantity (writer, "rear", FL_IN (44.3));
  fl_json_writer_quantity (writer, "weight", FL_KG (9979));
  fl_json_writer_quantity (writer, "deck_angle", FL_DEG (42.7));
  fl_json_writer_quantity (writer, "demand", FL_GEES (0.435));
  fl_json_writer_quantity (writer, "absent", FL_NOT_MEASURED);
  fl_json_writer_quantity (writer, "none", (FlQuantity) { 0.0, FL_UNIT_NULL });
  fl_json_writer_end_object (writer);
  text = ended (writer);
  g_assert_cmpstr (text, ==,
                   "{\n \"rear_in\": 44.3,\n \"weight_kg\": 9979,\n \"deck_angle_deg\": 42.7,\n \"demand_g\": 0.435\n}\n");
}

/* What went in, as json-glib reads it. */
static JsonNode *
read_back (FlJsonWriter *writer)
{
  g_autofree char *text = ended (writer);
  g_autoptr(GError) error = NULL;
  JsonNode *node = json_from_string (text, &error);

  g_assert_no_error (error);
  g_assert_nonnull (node);
  return node;
}

static void
test_numbers (void)
{
  static const double values[] = {
    0.0, -1.0, 0.1, 0.30000000000000004, 1.0 / 3.0, 44.3, 1e-300, 1.7976931348623157e308, 5e-324, 123456789012345.0,
    9007199254740992.0, -600.0, 2.5e20
  };

  for (gsize i = 0; i < G_N_ELEMENTS (values); i++)
    {
      g_autoptr(FlJsonWriter) writer = fl_json_writer_new ();
      g_autoptr(JsonNode) node = NULL;

      fl_json_writer_begin_list (writer, NULL);
      fl_json_writer_number (writer, NULL, values[i]);
      fl_json_writer_end_list (writer);
      node = read_back (writer);
      g_assert_true (json_array_get_double_element (json_node_get_array (node), 0) == values[i]);
    }
}

static void
test_not_finite (void)
{
  g_autoptr(FlJsonWriter) writer = fl_json_writer_new ();
  g_autofree char *text = NULL;

  fl_json_writer_begin_list (writer, NULL);
  fl_json_writer_number (writer, NULL, NAN);
  fl_json_writer_number (writer, NULL, INFINITY);
  fl_json_writer_end_list (writer);
  text = ended (writer);
  g_assert_cmpstr (text, ==, "[\n null,\n null\n]\n");
}

/* RFC 8259, section 7: quotation mark, reverse solidus and U+0000 to U+001F must be escaped. */
static void
test_texts (void)
{
  g_autoptr(FlJsonWriter) writer = fl_json_writer_new ();
  g_autoptr(JsonNode) node = NULL;
  g_autoptr(GString) every = g_string_new (NULL);
  JsonObject *object;

  for (guint c = 1; c < 0x80; c++)
    g_string_append_c (every, (char) c);
  g_string_append (every, "42.7° — señal — 链");
  fl_json_writer_begin_object (writer, NULL);
  fl_json_writer_text (writer, every->str, every->str);
  fl_json_writer_end_object (writer);
  node = read_back (writer);
  object = json_node_get_object (node);
  g_assert_cmpuint (json_object_get_size (object), ==, 1);
  g_assert_cmpstr (json_object_get_string_member (object, every->str), ==, every->str);
}

static void
test_escapes (void)
{
  g_autoptr(FlJsonWriter) writer = fl_json_writer_new ();
  g_autofree char *text = NULL;

  fl_json_writer_text (writer, NULL, "\"\\\b\f\n\r\t\001\037/°");
  text = ended (writer);
  g_assert_cmpstr (text, ==, "\"\\\"\\\\\\b\\f\\n\\r\\t\\u0001\\u001f/°\"\n");
}

static void
test_again (void)
{
  g_autoptr(FlJsonWriter) writer = fl_json_writer_new ();

  for (guint i = 0; i < 2; i++)
    {
      g_autofree char *text = NULL;

      fl_json_writer_begin_list (writer, NULL);
      fl_json_writer_end_list (writer);
      text = ended (writer);
      g_assert_cmpstr (text, ==, "[]\n");
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/json-write/layout", test_layout);
  g_test_add_func ("/json-write/quantities", test_quantities);
  g_test_add_func ("/json-write/numbers", test_numbers);
  g_test_add_func ("/json-write/not-finite", test_not_finite);
  g_test_add_func ("/json-write/texts", test_texts);
  g_test_add_func ("/json-write/escapes", test_escapes);
  g_test_add_func ("/json-write/again", test_again);
  return g_test_run ();
}
