/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Spans: every value of random documents is found where json-glib, reading the span alone, sees the same value. */
#include <string.h>

#include "fl-json.h"
#include "json-chance.h"

static const char sample[] =
  "\xEF\xBB\xBF{\n"
  "  \"id\": \"X-1\",\n"
  "  \"tie_points\": [ {\"id\": \"a\", \"x_in\": 1},\n"
  "    {\"id\": \"b}]\\\"\", \"x_in\": -2.5e1 } ],\n"
  "  \"a.b\": true, \"\": null, \"q\\\"[\": [], \"caf\\u00e9\": {\"deep\": [[1, [2, \"three\"]]]}\n"
  "}\n";

static void
assert_found (const char *path, const char *value, guint line)
{
  FlJsonSpan span;
  g_autofree char *found = NULL;

  g_test_message ("%s", path);
  g_assert_true (fl_json_find (sample, strlen (sample), path, &span));
  found = g_strndup (sample + span.offset, span.length);
  g_assert_cmpstr (found, ==, value);
  g_assert_cmpuint (span.line, ==, line);
}

static void
test_find (void)
{
  assert_found ("id", "\"X-1\"", 2);
  assert_found ("tie_points[0]", "{\"id\": \"a\", \"x_in\": 1}", 3);
  assert_found ("tie_points[0].x_in", "1", 3);
  assert_found ("tie_points[1].id", "\"b}]\\\"\"", 4);
  assert_found ("tie_points[1].x_in", "-2.5e1", 4);
  assert_found ("[\"a.b\"]", "true", 5);
  assert_found ("[\"\"]", "null", 5);
  assert_found ("[\"q\\\"[\"]", "[]", 5);
  assert_found ("café.deep[0][1][1]", "\"three\"", 5);
  assert_found ("[\"caf\\u00e9\"].deep[0][0]", "1", 5);
  assert_found ("[\"id\"]", "\"X-1\"", 2);
}

static void
test_whole (void)
{
  FlJsonSpan span;

  g_assert_true (fl_json_find (sample, strlen (sample), "", &span));
  g_assert_cmpuint (span.offset, ==, 3);        /* behind the byte order mark, and counted with it */
  g_assert_cmpuint (span.length, ==, strlen (sample) - 4);
  g_assert_cmpuint (span.line, ==, 1);
  g_assert_true (fl_json_find ("\n 17 ", 5, "", &span));
  g_assert_cmpuint (span.offset, ==, 2);
  g_assert_cmpuint (span.length, ==, 2);
  g_assert_cmpuint (span.line, ==, 2);
}

static void
test_not_found (void)
{
  static const char *const paths[] = {
    "x", "ID", "i", "id2", "id.x", "id[0]", "tie_points[2]", "tie_points[-1]", "tie_points[]", "tie_points[0", "tie_points[0]x_in", "tie_points.x_in",
    "tie_points[99999999999999999999]", ".id", "id.", "tie_points[0].", "tie_points..x", "[0]", "[\"id\"", "[\"id", "a.b", "café.deep[0][1][2]",
  };
  FlJsonSpan span;

  for (guint i = 0; i < G_N_ELEMENTS (paths); i++)
    {
      g_test_message ("%s", paths[i]);
      g_assert_false (fl_json_find (sample, strlen (sample), paths[i], &span));
    }
  g_assert_false (fl_json_find ("", 0, "", &span));
  g_assert_false (fl_json_find ("[", 1, "[0]", &span));
}

static void
test_elements (void)
{
  g_autoptr(GArray) points = fl_json_elements (sample, strlen (sample), "tie_points"), none = NULL;
  FlJsonSpan second, found;

  none = fl_json_elements (sample, strlen (sample), "[\"q\\\"[\"]");
  g_assert_cmpuint (points->len, ==, 2);
  second = g_array_index (points, FlJsonSpan, 1);
  g_assert_true (fl_json_find (sample, strlen (sample), "tie_points[1]", &found));
  g_assert_cmpuint (second.offset, ==, found.offset);
  g_assert_cmpuint (second.length, ==, found.length);
  g_assert_cmpuint (second.line, ==, 4);
  g_assert_cmpuint (none->len, ==, 0);
  g_assert_null (fl_json_elements (sample, strlen (sample), "id"));
  g_assert_null (fl_json_elements (sample, strlen (sample), ""));
  g_assert_null (fl_json_elements (sample, strlen (sample), "missing"));
}

static void
test_members (void)
{
  static const char *const names[] = { "id", "tie_points", "a.b", "", "q\"[", "café" };
  g_autoptr(GArray) members = fl_json_members (sample, strlen (sample), "");

  g_assert_cmpuint (members->len, ==, G_N_ELEMENTS (names));
  for (guint i = 0; i < members->len; i++)
    {
      const FlJsonMember *member = &g_array_index (members, FlJsonMember, i);
      g_autofree char *name = fl_json_unquote (sample + member->key.offset, member->key.length);
      g_autoptr(GString) path = g_string_new (NULL);
      FlJsonSpan span;

      g_assert_cmpstr (name, ==, names[i]);
      fl_json_path_key (path, name);
      g_assert_true (fl_json_find (sample, strlen (sample), path->str, &span));
      g_assert_cmpuint (span.offset, ==, member->value.offset);
      g_assert_cmpuint (span.length, ==, member->value.length);
    }
  g_assert_null (fl_json_members (sample, strlen (sample), "tie_points"));
}

static void
test_unquote (void)
{
  static const char *const pairs[][2] = {
    { "\"\"", "" }, { "\"a\"", "a" }, { "\"\\\"\\\\\\/\\b\\f\\n\\r\\t\"", "\"\\/\b\f\n\r\t" }, { "\"\\u00e9\\u6f22\\ud83d\\ude00\"", "é漢😀" }, { "\"é漢😀\"", "é漢😀" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (pairs); i++)
    {
      g_autofree char *text = fl_json_unquote (pairs[i][0], strlen (pairs[i][0]));

      g_assert_cmpstr (text, ==, pairs[i][1]);
    }
}

static guint
lines_before (const char *text, gsize offset)
{
  guint n = 1;

  for (gsize i = 0; i < offset; i++)
    n += text[i] == '\n';
  return n;
}

/* The value at `path` is that of `node`; then all below it. Returns how many were compared. */
static guint
compare_tree (const char *text, gsize length, const char *path, JsonNode *node)
{
  FlJsonSpan span;
  g_autofree char *value = NULL;
  g_autoptr(JsonNode) alone = NULL;
  guint n = 1;

  g_assert_true (fl_json_find (text, length, path, &span));
  g_assert_cmpuint (span.offset + span.length, <=, length);
  g_assert_cmpuint (span.line, ==, lines_before (text, span.offset));
  value = g_strndup (text + span.offset, span.length);
  alone = json_from_string (value, NULL);
  g_assert_nonnull (alone);
  g_assert_true (json_node_equal (alone, node));
  if (JSON_NODE_HOLDS_ARRAY (node))
    for (guint i = 0; i < json_array_get_length (json_node_get_array (node)); i++)
      {
        g_autofree char *below = g_strdup_printf ("%s[%u]", path, i);

        n += compare_tree (text, length, below, json_array_get_element (json_node_get_array (node), i));
      }
  if (JSON_NODE_HOLDS_OBJECT (node))
    {
      g_autoptr(GList) names = json_object_get_members (json_node_get_object (node));

      for (GList *name = names; name != NULL; name = name->next)
        {
          g_autoptr(GString) below = g_string_new (path);

          fl_json_path_key (below, name->data);
          n += compare_tree (text, length, below->str, json_object_get_member (json_node_get_object (node), name->data));
        }
    }
  return n;
}

static void
test_every_value (void)
{
  g_autoptr(GRand) chance = g_rand_new_with_seed (11);
  guint n = 0;

  for (guint i = 0; i < 200; i++)
    {
      g_autoptr(JsonNode) tree = chance_tree (chance, 1 + i % 6);
      g_autofree char *text = chance_document (chance, tree);

      n += compare_tree (text, strlen (text), "", tree);
    }
  g_assert_cmpuint (n, >, 2000);
}

/* On texts that no guard has seen it may find anything, but stays inside. */
static void
test_damage (void)
{
  static const char *const paths[] = { "", "a", "id.weight_lb", "[0]", "a[1].id", "[\"\\u0041\"]", "[\"a" };
  g_autoptr(GRand) chance = g_rand_new_with_seed (12);

  for (guint i = 0; i < 5000; i++)
    {
      g_autoptr(JsonNode) tree = chance_tree (chance, 3);
      g_autofree char *text = chance_document (chance, tree);
      g_autoptr(GString) damaged = chance_damage (chance, text);
      g_autofree char *exact = g_memdup2 (damaged->str, damaged->len);

      for (guint k = 0; k < G_N_ELEMENTS (paths); k++)
        {
          FlJsonSpan span;
          g_autoptr(GArray) elements = fl_json_elements (exact, damaged->len, paths[k]);
          g_autoptr(GArray) members = fl_json_members (exact, damaged->len, paths[k]);

          for (guint m = 0; elements != NULL && m < elements->len; m++)
            {
              span = g_array_index (elements, FlJsonSpan, m);
              g_assert_cmpuint (span.offset + span.length, <=, damaged->len);
            }
          if (fl_json_find (exact, damaged->len, paths[k], &span))
            g_assert_cmpuint (span.offset + span.length, <=, damaged->len);
          for (guint m = 0; members != NULL && m < members->len; m++)
            {
              FlJsonSpan key = g_array_index (members, FlJsonMember, m).key;
              g_autofree char *name = fl_json_unquote (exact + key.offset, key.length);

              g_assert_nonnull (name);
            }
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/json-find/find", test_find);
  g_test_add_func ("/json-find/whole", test_whole);
  g_test_add_func ("/json-find/not-found", test_not_found);
  g_test_add_func ("/json-find/elements", test_elements);
  g_test_add_func ("/json-find/members", test_members);
  g_test_add_func ("/json-find/unquote", test_unquote);
  g_test_add_func ("/json-find/every-value", test_every_value);
  g_test_add_func ("/json-find/damage", test_damage);
  return g_test_run ();
}
