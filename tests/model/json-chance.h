/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Seeded random JSON for tests: trees by json-glib, texts with wild white space, and damage to texts. */
#ifndef JSON_CHANCE_H
#define JSON_CHANCE_H

#include <json-glib/json-glib.h>

/* A tree of at most `depth` levels whose root is an object (for depth > 0). (transfer full) */
static inline JsonNode *chance_tree (GRand *chance, guint depth);

static inline char *
chance_text (GRand *chance)
{
  static const char *const pieces[] = { "a", "id", "weight_lb", "\"", "\\", "/", "\n", "\t", "\x01", "é", "–", "漢", "😀", ".", "[", "]", "{", ",", ":", " ", "u0041" };
  GString *text = g_string_new (NULL);

  for (gint n = g_rand_int_range (chance, 0, 8); n > 0; n--)
    g_string_append (text, pieces[g_rand_int_range (chance, 0, G_N_ELEMENTS (pieces))]);
  return g_string_free (text, FALSE);
}

static inline JsonNode *
chance_scalar (GRand *chance)
{
  JsonNode *node = json_node_alloc ();
  g_autofree char *text = NULL;

  switch (g_rand_int_range (chance, 0, 6))
    {
    case 0:
      return json_node_init_null (node);
    case 1:
      return json_node_init_boolean (node, g_rand_boolean (chance));
    case 2:
      return json_node_init_int (node, g_rand_int_range (chance, -100000, 100000));
    case 3:
      return json_node_init_int (node, (gint64) g_rand_int (chance) << (guint) g_rand_int_range (chance, 0, 21));
    case 4:
      return json_node_init_double (node, g_rand_double_range (chance, -1e4, 1e4));
    default:
      text = chance_text (chance);
      return json_node_init_string (node, text);
    }
}

static inline JsonNode *
chance_tree (GRand *chance, guint depth)
{
  gint n = g_rand_int_range (chance, 0, 6);
  JsonNode *node;

  if (depth == 0)
    return chance_scalar (chance);
  node = json_node_alloc ();
  if (g_rand_int_range (chance, 0, 3) == 0)
    {
      JsonArray *array = json_array_new ();

      for (; n > 0; n--)
        json_array_add_element (array, chance_tree (chance, (guint) g_rand_int_range (chance, 0, (gint) depth)));
      json_node_init_array (node, array);
      json_array_unref (array);
      return node;
    }
  JsonObject *object = json_object_new ();

  for (n = g_rand_int_range (chance, 0, 12) == 0 ? 40 : n; n > 0; n--)
    {
      g_autofree char *key = chance_text (chance);

      json_object_set_member (object, key, chance_tree (chance, (guint) g_rand_int_range (chance, 0, (gint) depth)));
    }
  json_node_init_object (node, object);
  json_object_unref (object);
  return node;
}

/* json-glib's own text of the tree, sometimes with white space strewn in. (transfer full) */
static inline char *
chance_document (GRand *chance, JsonNode *root)
{
  static const char *const spaces[] = { "", "", " ", "\n", "\t", "\r\n", "  \n " };
  g_autofree char *plain = json_to_string (root, g_rand_boolean (chance));
  GString *text;
  gboolean inside = FALSE;

  if (g_rand_boolean (chance))
    return g_steal_pointer (&plain);
  text = g_string_new (spaces[g_rand_int_range (chance, 0, G_N_ELEMENTS (spaces))]);
  for (const char *at = plain; *at != '\0'; at++)
    {
      g_string_append_c (text, *at);
      if (*at == '\\' && inside)
        g_string_append_c (text, *++at);
      else if (*at == '"')
        inside = !inside;
      if (!inside && strchr ("{}[]:,\"", *at) != NULL)
        g_string_append (text, spaces[g_rand_int_range (chance, 0, G_N_ELEMENTS (spaces))]);
    }
  return g_string_free (text, FALSE);
}

/* Damages a few bytes: changed, removed, doubled, cut off. (transfer full) */
static inline GString *
chance_damage (GRand *chance, const char *document)
{
  static const char *const pieces[] = { "{", "}", "[", "]", ",", ":", "\"", "\\", "\\u12", "\\ud800", "0", "1e999", "-", ".", "e", "NaN", "\x80", "\xff", "\x01",
                                        "null", "true", " ", "\n", "/**/", "\"a\":1,", "\\u0000", "99999999999999999999", "1e-999", "+1", "01" };
  GString *text = g_string_new (document);

  for (gint n = g_rand_int_range (chance, 0, 4); n >= 0; n--)
    {
      gsize at = text->len == 0 ? 0 : (gsize) g_rand_int_range (chance, 0, (gint) text->len);
      gsize left = text->len - at;
      const char *piece = pieces[g_rand_int_range (chance, 0, G_N_ELEMENTS (pieces))];

      switch (g_rand_int_range (chance, 0, 6))
        {
        case 0:
          if (left > 0)
            text->str[at] = (char) g_rand_int_range (chance, 1, 256);
          break;
        case 1:
          g_string_erase (text, (gssize) at, (gssize) MIN (left, 3));
          break;
        case 2:
          g_string_truncate (text, g_rand_int_range (chance, 0, 4) == 0 ? at : text->len);
          break;
        default:
          g_string_insert (text, (gssize) at, piece);
          break;
        }
    }
  return text;
}

#endif
