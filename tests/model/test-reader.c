/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Checked reading: values, problems with their path, line and value, and warnings of keys that nobody asked for.
 * The families of keys are those of docs/formats.md. */
#include <math.h>
#include <string.h>

#include "fl-reader.h"

typedef struct
{
  char *text;
  JsonNode *root;
  FlArena *arena;
  FlProblems *problems;
  FlReader *reader;
} Fixture;

/* Stands in a document as machines[3] from line 10. */
static Fixture
open_text (const char *text)
{
  g_autoptr(GBytes) bytes = g_bytes_new (text, strlen (text));
  Fixture f = { .text = g_strdup (text), .arena = fl_arena_new (), .problems = fl_problems_new () };

  f.root = fl_json_parse (bytes, f.problems);
  g_assert_nonnull (f.root);
  f.reader = fl_reader_new (f.text, strlen (f.text), f.root, "machines[3]", 10, f.arena, f.problems);
  g_assert_nonnull (f.reader);
  return f;
}

static void
close_reader (Fixture *f)
{
  g_clear_pointer (&f->reader, fl_reader_free);
}

static void
close_all (Fixture *f)
{
  close_reader (f);
  fl_problems_free (f->problems);
  fl_arena_free (f->arena);
  json_node_unref (f->root);
  g_free (f->text);
}

/* The problem `index` in order of line; `value` NULL: none. */
static void
assert_problem (Fixture *f, guint index, const char *path, guint line, const char *value, const char *expected)
{
  const FlProblem *problem;
  g_autofree char *text = NULL;

  g_assert_cmpuint (fl_problems_count (f->problems), >, index);
  problem = fl_problems_at (f->problems, index);
  text = fl_problem_text (problem, "f.json");
  g_test_message ("%s", text);
  g_assert_cmpstr (problem->path, ==, path);
  g_assert_cmpuint (problem->line, ==, line);
  g_assert_cmpstr (problem->value, ==, value);
  g_assert_cmpstr (problem->expected, ==, expected);
}

static void
assert_count (Fixture *f, guint count)
{
  for (guint i = count; i < fl_problems_count (f->problems); i++)
    {
      g_autofree char *text = fl_problem_text (fl_problems_at (f->problems, i), "f.json");

      g_test_message ("unexpected: %s", text);
    }
  g_assert_cmpuint (fl_problems_count (f->problems), ==, count);
}

static void
test_values (void)
{
  Fixture f = open_text ("{\"id\": \"R-03\", \"lower\": true, \"count\": 6, \"whole\": 4.0, \"miles\": 12.5, \"surface\": \"steel\", \"mark\": null,"
                         " \"names\": [\"a\", \"b\"], \"pair\": [1, 2.5]}");
  static const char *const surfaces[] = { "wood", "steel", NULL };
  const char *id = fl_reader_text (f.reader, "id", TRUE);
  const char *const *names = fl_reader_texts (f.reader, "names", TRUE);

  g_assert_true (fl_reader_bool (f.reader, "lower", FALSE));
  g_assert_cmpint (fl_reader_int (f.reader, "count", 1, 100, 1), ==, 6);
  g_assert_cmpint (fl_reader_int (f.reader, "whole", 1, 100, 1), ==, 4);
  g_assert_cmpfloat (fl_reader_number (f.reader, "miles", 0, NAN, -1), ==, 12.5);
  g_assert_cmpint (fl_reader_choice (f.reader, "surface", surfaces, TRUE, 7), ==, 1);
  g_assert_null (fl_reader_text (f.reader, "mark", FALSE));
  g_assert_true (fl_reader_is_null (f.reader, "mark"));
  g_assert_true (fl_reader_has (f.reader, "mark"));
  g_assert_cmpuint (fl_reader_list (f.reader, "pair", TRUE), ==, 2);
  g_assert_cmpfloat (fl_reader_item_number (f.reader, "pair", 0), ==, 1);
  g_assert_cmpfloat (fl_reader_item_number (f.reader, "pair", 1), ==, 2.5);
  g_assert_cmpstr (fl_reader_item_text (f.reader, "names", 1), ==, "b");
  g_assert_true (fl_reader_arena (f.reader) == f.arena);
  close_reader (&f);
  g_assert_cmpstr (id, ==, "R-03");     /* in the arena: it outlives the reader and the tree */
  g_assert_cmpstr (names[0], ==, "a");
  g_assert_cmpstr (names[1], ==, "b");
  g_assert_null (names[2]);
  assert_count (&f, 0);
  close_all (&f);
}

static void
test_absent (void)
{
  Fixture f = open_text ("{}");
  static const char *const surfaces[] = { "wood", NULL };

  g_assert_false (fl_reader_has (f.reader, "x"));
  g_assert_false (fl_reader_is_null (f.reader, "x"));
  g_assert_null (fl_reader_text (f.reader, "x", FALSE));
  g_assert_true (fl_reader_bool (f.reader, "x", TRUE));
  g_assert_cmpint (fl_reader_int (f.reader, "x", 1, 2, 77), ==, 77);
  g_assert_cmpfloat (fl_reader_number (f.reader, "x", 1, 2, 77), ==, 77);
  g_assert_cmpint (fl_reader_choice (f.reader, "x", surfaces, FALSE, 7), ==, 7);
  g_assert_null (fl_reader_object (f.reader, "x", FALSE));
  g_assert_cmpuint (fl_reader_list (f.reader, "x", FALSE), ==, 0);
  g_assert_null (fl_reader_item (f.reader, "x", 0));
  g_assert_null (fl_reader_item_text (f.reader, "x", 0));
  g_assert_true (isnan (fl_reader_item_number (f.reader, "x", 0)));
  g_assert_null (fl_reader_texts (f.reader, "x", FALSE));
  g_assert_cmpint (fl_reader_quantity (f.reader, "x", FL_DIM_WEIGHT, FALSE, NAN, NAN).unit, ==, FL_UNIT_NONE);
  assert_count (&f, 0);
  close_all (&f);
}

static void
test_required (void)
{
  Fixture f = open_text ("\n{\"empty\": \"\", \"none\": null}");
  static const char *const surfaces[] = { "wood", "steel", NULL };

  fl_reader_text (f.reader, "id", TRUE);
  fl_reader_object (f.reader, "deck", TRUE);
  fl_reader_list (f.reader, "axles", TRUE);
  fl_reader_choice (f.reader, "surface", surfaces, TRUE, 0);
  fl_reader_quantity (f.reader, "weight", FL_DIM_WEIGHT, TRUE, NAN, NAN);
  fl_reader_quantity (f.reader, "length", FL_DIM_LENGTH, TRUE, NAN, NAN);
  fl_reader_quantity (f.reader, "rated_wll", FL_DIM_WEIGHT, TRUE, NAN, NAN);
  fl_reader_text (f.reader, "empty", TRUE);
  fl_reader_text (f.reader, "none", TRUE);
  assert_problem (&f, 0, "machines[3].id", 11, NULL, "the key is missing: expected a text in double quotes");
  assert_problem (&f, 1, "machines[3].deck", 11, NULL, "the key is missing: expected an object in { }");
  assert_problem (&f, 2, "machines[3].axles", 11, NULL, "the key is missing: expected a list in [ ]");
  assert_problem (&f, 3, "machines[3].surface", 11, NULL, "the key is missing: expected one of wood, steel");
  assert_problem (&f, 4, "machines[3].weight", 11, NULL, "the key is missing: expected weight_lb or weight_kg");
  assert_problem (&f, 5, "machines[3].length", 11, NULL, "the key is missing: expected length_in or length_ft or length_mm or length_m");
  assert_problem (&f, 6, "machines[3].rated_wll", 11, NULL, "the key is missing: expected rated_wll_lb or rated_wll_kg or rated_lc_dan");
  assert_problem (&f, 7, "machines[3].empty", 11, "\"\"", "a text that is not empty");
  assert_problem (&f, 8, "machines[3].none", 11, "null", "a text in double quotes; null says that there is none");
  assert_count (&f, 9);
  close_all (&f);
}

static void
test_wrong_types (void)
{
  Fixture f = open_text ("{\n\"id\": 3,\n\"lower\": \"yes\",\n\"count\": 2.5,\n\"takes\": 0,\n\"miles\": -1,\n\"surface\": \"mud\",\n\"deck\": [],\n"
                         "\"axles\": {},\n\"names\": [\"a\", 5, \"c\"],\n\"pair\": [1, \"2\"],\n\"points\": [{}, 7],\n\"null_count\": null,\n\"null_flag\": null,\n\"big\": 3000000000\n}");
  static const char *const surfaces[] = { "wood", "steel", NULL };
  const char *const *names;

  g_assert_null (fl_reader_text (f.reader, "id", TRUE));
  g_assert_true (fl_reader_bool (f.reader, "lower", TRUE));
  g_assert_cmpint (fl_reader_int (f.reader, "count", 1, 99, 8), ==, 8);
  g_assert_cmpint (fl_reader_int (f.reader, "takes", 1, 99, 8), ==, 8);
  g_assert_cmpfloat (fl_reader_number (f.reader, "miles", 0, NAN, 8), ==, 8);
  g_assert_cmpint (fl_reader_choice (f.reader, "surface", surfaces, FALSE, 8), ==, 8);
  g_assert_null (fl_reader_object (f.reader, "deck", FALSE));
  g_assert_cmpuint (fl_reader_list (f.reader, "axles", FALSE), ==, 0);
  names = fl_reader_texts (f.reader, "names", FALSE);
  g_assert_cmpstr (names[0], ==, "a");
  g_assert_cmpstr (names[1], ==, "c");
  g_assert_null (names[2]);
  g_assert_true (isnan (fl_reader_item_number (f.reader, "pair", 1)));
  g_assert_nonnull (fl_reader_item (f.reader, "points", 0));
  g_assert_null (fl_reader_item (f.reader, "points", 1));
  g_assert_cmpint (fl_reader_int (f.reader, "null_count", 1, 9, 8), ==, 8);
  g_assert_true (fl_reader_bool (f.reader, "null_flag", TRUE));
  g_assert_cmpint (fl_reader_int (f.reader, "big", 1, G_MAXINT, 8), ==, 8);
  assert_problem (&f, 0, "machines[3].id", 11, "3", "a text in double quotes");
  assert_problem (&f, 1, "machines[3].lower", 12, "\"yes\"", "true or false");
  assert_problem (&f, 2, "machines[3].count", 13, "2.5", "a whole number between 1 and 99");
  assert_problem (&f, 3, "machines[3].takes", 14, "0", "a whole number between 1 and 99");
  assert_problem (&f, 4, "machines[3].miles", 15, "-1", "a number of at least 0");
  assert_problem (&f, 5, "machines[3].surface", 16, "\"mud\"", "one of wood, steel");
  assert_problem (&f, 6, "machines[3].deck", 17, "[]", "an object in { }");
  assert_problem (&f, 7, "machines[3].axles", 18, "{}", "a list in [ ]");
  assert_problem (&f, 8, "machines[3].names[1]", 19, "5", "a text in double quotes");
  assert_problem (&f, 9, "machines[3].pair[1]", 20, "\"2\"", "a number");
  assert_problem (&f, 10, "machines[3].points[1]", 21, "7", "an object in { }");
  assert_problem (&f, 11, "machines[3].null_count", 22, "null", "a whole number between 1 and 9");
  assert_problem (&f, 12, "machines[3].null_flag", 23, "null", "true or false");
  assert_problem (&f, 13, "machines[3].big", 24, "3000000000", "a whole number between 1 and 2147483647");
  assert_count (&f, 14);
  close_all (&f);
}

static void
assert_quantity (FlQuantity q, double value, FlUnit unit)
{
  g_assert_cmpfloat (q.value, ==, value);
  g_assert_cmpint (q.unit, ==, unit);
}

static void
test_quantities (void)
{
  Fixture f = open_text ("{\"weight_lb\": 33500, \"tare_kg\": 900.5, \"length_ft\": 16, \"height_mm\": 1680, \"x_m\": -1.5, \"width_in\": 0.25, \"load_angle_deg\": 12,"
                         " \"tag_lc_dan\": 5000, \"rated_wll_lb\": 6600, \"hook_wll_lb\": null, \"share\": 0.5, \"margin_pct\": 10, \"pull_g\": 0.8, \"count\": 3,"
                         " \"turn_min\": 30, \"drive_h\": 1.5}");

  assert_quantity (fl_reader_quantity (f.reader, "weight", FL_DIM_WEIGHT, TRUE, NAN, NAN), 33500, FL_UNIT_LB);
  assert_quantity (fl_reader_quantity (f.reader, "tare", FL_DIM_WEIGHT, TRUE, 0, NAN), 900.5, FL_UNIT_KG);
  assert_quantity (fl_reader_quantity (f.reader, "length", FL_DIM_LENGTH, TRUE, 0, NAN), 16, FL_UNIT_FT);
  assert_quantity (fl_reader_quantity (f.reader, "height", FL_DIM_LENGTH, TRUE, 0, NAN), 1680, FL_UNIT_MM);
  assert_quantity (fl_reader_quantity (f.reader, "x", FL_DIM_LENGTH, TRUE, NAN, NAN), -1.5, FL_UNIT_M);
  assert_quantity (fl_reader_quantity (f.reader, "width", FL_DIM_LENGTH, TRUE, NAN, NAN), 0.25, FL_UNIT_IN);
  assert_quantity (fl_reader_quantity (f.reader, "load_angle", FL_DIM_ANGLE, TRUE, NAN, NAN), 12, FL_UNIT_DEG);
  assert_quantity (fl_reader_quantity (f.reader, "tag_wll", FL_DIM_WEIGHT, TRUE, NAN, NAN), 5000, FL_UNIT_DAN);
  assert_quantity (fl_reader_quantity (f.reader, "rated_wll", FL_DIM_WEIGHT, TRUE, NAN, NAN), 6600, FL_UNIT_LB);
  assert_quantity (fl_reader_quantity (f.reader, "hook_wll", FL_DIM_WEIGHT, FALSE, NAN, NAN), 0, FL_UNIT_NULL);
  assert_quantity (fl_reader_quantity (f.reader, "share", FL_DIM_SHARE, FALSE, 0, 100), 0.5, FL_UNIT_SHARE);
  assert_quantity (fl_reader_quantity (f.reader, "margin", FL_DIM_SHARE, FALSE, 0, 100), 10, FL_UNIT_PCT);
  assert_quantity (fl_reader_quantity (f.reader, "pull", FL_DIM_ACCELERATION, FALSE, 0, 2), 0.8, FL_UNIT_G);
  assert_quantity (fl_reader_quantity (f.reader, "count", FL_DIM_COUNT, FALSE, 0, 10), 3, FL_UNIT_COUNT);
  assert_quantity (fl_reader_quantity (f.reader, "turn", FL_DIM_TIME, FALSE, 0, 60), 30, FL_UNIT_MIN);
  assert_quantity (fl_reader_quantity (f.reader, "drive", FL_DIM_TIME, FALSE, 0, 90), 1.5, FL_UNIT_H);
  close_reader (&f);
  assert_count (&f, 0);
  close_all (&f);
}

static void
test_quantity_bounds (void)
{
  Fixture f = open_text ("{\n\"a_kg\": 45359.237,\n\"b_kg\": 45360,\n\"c_lb\": -1,\n\"d_ft\": 101,\n\"e_lb\": \"5\",\n\"f_lb\": 1, \"f_kg\": 1,\n\"g_in\": null,\n\"h_dan\": 5\n}");
  static const FlQuantity absent = { 0, FL_UNIT_NONE };

  /* the bound is in lb, and exactly reached in kg (1 lb = 0.45359237 kg) */
  assert_quantity (fl_reader_quantity (f.reader, "a", FL_DIM_WEIGHT, TRUE, 0, 100000), 45359.237, FL_UNIT_KG);
  assert_quantity (fl_reader_quantity (f.reader, "b", FL_DIM_WEIGHT, TRUE, 0, 100000), absent.value, absent.unit);
  assert_quantity (fl_reader_quantity (f.reader, "c", FL_DIM_WEIGHT, TRUE, 0, 100000), absent.value, absent.unit);
  assert_quantity (fl_reader_quantity (f.reader, "d", FL_DIM_LENGTH, TRUE, NAN, 1200), absent.value, absent.unit);
  assert_quantity (fl_reader_quantity (f.reader, "e", FL_DIM_WEIGHT, FALSE, 0, NAN), absent.value, absent.unit);
  assert_quantity (fl_reader_quantity (f.reader, "f", FL_DIM_WEIGHT, FALSE, 0, NAN), absent.value, absent.unit);
  assert_quantity (fl_reader_quantity (f.reader, "g", FL_DIM_LENGTH, TRUE, 0, NAN), absent.value, absent.unit);
  assert_quantity (fl_reader_quantity (f.reader, "h", FL_DIM_WEIGHT, FALSE, 0, NAN), absent.value, absent.unit);
  close_reader (&f);
  assert_problem (&f, 0, "machines[3].b_kg", 12, "45360", "a number between 0 and 45359.2 kg");
  assert_problem (&f, 1, "machines[3].c_lb", 13, "-1", "a number between 0 and 100000 lb");
  assert_problem (&f, 2, "machines[3].d_ft", 14, "101", "a number of at most 100 ft");
  assert_problem (&f, 3, "machines[3].e_lb", 15, "\"5\"", "a number");
  assert_problem (&f, 4, "machines[3].f_kg", 16, "1", "only one of f_lb or f_kg");
  assert_problem (&f, 5, "machines[3].g_in", 17, "null", "a number; null says that there is none");
  assert_problem (&f, 6, "machines[3].h_dan", 18, "5", "an unknown key: nothing reads it (is it misspelled?)");
  assert_count (&f, 7);
  close_all (&f);
}

static void
test_children (void)
{
  Fixture f = open_text ("{\n\"cg\": {\"x_in\": 80},\n\"tie_points\": [\n  {\"id\": \"FL\", \"pull\": {\"lo\": \"x\"}},\n  {\"id\": 7}\n]}");
  FlReader *cg = fl_reader_object (f.reader, "cg", TRUE), *first, *second, *pull;

  g_assert_true (fl_reader_object (f.reader, "cg", TRUE) == cg);
  assert_quantity (fl_reader_quantity (cg, "x", FL_DIM_LENGTH, TRUE, NAN, NAN), 80, FL_UNIT_IN);
  g_assert_cmpuint (fl_reader_list (f.reader, "tie_points", TRUE), ==, 2);
  first = fl_reader_item (f.reader, "tie_points", 0);
  second = fl_reader_item (f.reader, "tie_points", 1);
  g_assert_true (fl_reader_item (f.reader, "tie_points", 0) == first);
  g_assert_true (first != second);
  g_assert_null (fl_reader_item (f.reader, "tie_points", 2));
  g_assert_cmpstr (fl_reader_path (f.reader), ==, "machines[3]");
  g_assert_cmpstr (fl_reader_path (second), ==, "machines[3].tie_points[1]");
  pull = fl_reader_object (first, "pull", TRUE);
  g_assert_cmpstr (fl_reader_path (pull), ==, "machines[3].tie_points[0].pull");
  g_assert_cmpstr (fl_reader_text (first, "id", TRUE), ==, "FL");
  fl_reader_number (pull, "lo", NAN, NAN, 0);
  fl_reader_text (second, "id", TRUE);
  close_reader (&f);
  assert_problem (&f, 0, "machines[3].tie_points[0].pull.lo", 13, "\"x\"", "a number");
  assert_problem (&f, 1, "machines[3].tie_points[1].id", 14, "7", "a text in double quotes");
  assert_count (&f, 2);
  close_all (&f);
}

static void
test_unknown_keys (void)
{
  Fixture f = open_text ("{\n\"id\": \"X\",\n\"weigth_lb\": 33500,\n\"cg\": {\"x_in\": 1,\n\"q\": [1,\n2]},\n\"our.own\": {\"anything\": 1}\n}");
  FlReader *cg = fl_reader_object (f.reader, "cg", FALSE);

  fl_reader_text (f.reader, "id", TRUE);
  fl_reader_text (f.reader, "id", TRUE);        /* twice is once */
  fl_reader_quantity (cg, "x", FL_DIM_LENGTH, TRUE, NAN, NAN);
  close_reader (&f);
  assert_problem (&f, 0, "machines[3].weigth_lb", 12, "33500", "an unknown key: nothing reads it (is it misspelled?)");
  assert_problem (&f, 1, "machines[3].cg.q", 14, "[1, 2]", "an unknown key: nothing reads it (is it misspelled?)");
  assert_problem (&f, 2, "machines[3][\"our.own\"]", 16, "{\"anything\": 1}", "an unknown key: nothing reads it (is it misspelled?)");
  assert_count (&f, 3);
  g_assert_cmpuint (fl_problems_errors (f.problems), ==, 0);
  close_all (&f);
}

static void
test_ignore_rest (void)
{
  Fixture f = open_text ("{\"id\": \"X\", \"other\": 1, \"cg\": {\"y\": 1}}");

  fl_reader_ignore_rest (f.reader);
  fl_reader_ignore_rest (fl_reader_object (f.reader, "cg", TRUE));
  close_reader (&f);
  assert_count (&f, 0);
  close_all (&f);
}

static void
test_keys (void)
{
  Fixture f = open_text ("{\"b\": 1, \"a\": 2, \"c\": 3}");
  g_autoptr(GPtrArray) keys = fl_reader_keys (f.reader);

  g_assert_cmpuint (keys->len, ==, 3);
  g_assert_cmpstr (keys->pdata[0], ==, "b");
  g_assert_cmpstr (keys->pdata[1], ==, "a");
  g_assert_cmpstr (keys->pdata[2], ==, "c");
  fl_reader_ignore_rest (f.reader);
  close_all (&f);
}

static void
test_problem_anywhere (void)
{
  Fixture f = open_text ("{\n\"ends\": [{\"hook\": \"grab\"},\n {\"hook\": \"slip\"}]\n}");

  fl_reader_problem (f.reader, FL_SEVERITY_ERROR, "ends[1].hook", "a hook that is %s", "grab");
  fl_reader_problem (f.reader, FL_SEVERITY_WARNING, "", "something else");
  fl_reader_problem (f.reader, FL_SEVERITY_WARNING, "size_in", "a size");
  fl_reader_ignore_rest (f.reader);
  close_reader (&f);
  assert_problem (&f, 0, "machines[3]", 10, "{ \"ends\": [{\"hook\": \"grab\"}, {\"hook\": \"slip\"}] }", "something else");
  assert_problem (&f, 1, "machines[3].size_in", 10, NULL, "a size");
  assert_problem (&f, 2, "machines[3].ends[1].hook", 12, "\"slip\"", "a hook that is grab");
  close_all (&f);
}

static void
test_top_of_document (void)
{
  static const char text[] = "{\n\"format\": 1}";
  g_autoptr(JsonNode) root = json_from_string (text, NULL);
  g_autoptr(FlArena) arena = fl_arena_new ();
  g_autoptr(FlProblems) problems = fl_problems_new ();
  FlReader *reader = fl_reader_new (text, strlen (text), root, "", 1, arena, problems);

  fl_reader_text (reader, "format", TRUE);
  fl_reader_text (reader, "name", TRUE);
  fl_reader_free (reader);
  g_assert_cmpstr (fl_problems_at (problems, 0)->path, ==, "name");
  g_assert_cmpuint (fl_problems_at (problems, 0)->line, ==, 1);
  g_assert_cmpstr (fl_problems_at (problems, 1)->path, ==, "format");
  g_assert_cmpuint (fl_problems_at (problems, 1)->line, ==, 2);
}

static void
test_no_object (void)
{
  g_autoptr(JsonNode) root = json_from_string ("[1]", NULL);
  g_autoptr(FlArena) arena = fl_arena_new ();
  g_autoptr(FlProblems) problems = fl_problems_new ();

  g_assert_null (fl_reader_new ("[1]", 3, root, "machines[0]", 5, arena, problems));
  g_assert_null (fl_reader_new ("", 0, NULL, "machines[1]", 6, arena, problems));
  g_assert_cmpuint (fl_problems_count (problems), ==, 2);
  g_assert_cmpstr (fl_problems_at (problems, 0)->path, ==, "machines[0]");
  g_assert_cmpstr (fl_problems_at (problems, 0)->value, ==, "[1]");
  g_assert_cmpuint (fl_problems_at (problems, 0)->line, ==, 5);
}

static void
test_without_problems (void)
{
  static const char text[] = "{\"id\": 3, \"x\": 1, \"list\": [1]}";
  g_autoptr(JsonNode) root = json_from_string (text, NULL);
  g_autoptr(FlArena) arena = fl_arena_new ();
  FlReader *reader = fl_reader_new (text, strlen (text), root, "", 1, arena, NULL);

  g_assert_null (fl_reader_text (reader, "id", TRUE));
  g_assert_null (fl_reader_item (reader, "list", 0));
  g_assert_null (fl_reader_object (reader, "missing", TRUE));
  fl_reader_free (reader);
  fl_reader_free (NULL);
}

/* A long list with a problem in every element: each line is right, and the text is walked once, not once for each. */
static void
test_many_problems (void)
{
  enum { N = 9000 };
  GString *text = g_string_new ("{\"list\": [");
  Fixture f;

  for (guint i = 0; i < N; i++)
    g_string_append_printf (text, "%s\n{\"id\": %u, \"pad\": \"%0200u\"}", i == 0 ? "" : ",", i, i);
  g_string_append (text, "]}");
  f = open_text (text->str);
  g_string_free (text, TRUE);
  for (guint i = 0; i < fl_reader_list (f.reader, "list", TRUE); i++)
    {
      FlReader *item = fl_reader_item (f.reader, "list", i);

      fl_reader_text (item, "id", TRUE);
      fl_reader_text (item, "pad", TRUE);
    }
  close_reader (&f);
  assert_count (&f, N);
  for (guint i = 0; i < N; i++)
    {
      g_assert_cmpuint (fl_problems_at (f.problems, i)->line, ==, 11 + i);
      g_assert_cmpint (atoi (fl_problems_at (f.problems, i)->value), ==, (int) i);
    }
  close_all (&f);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/reader/values", test_values);
  g_test_add_func ("/reader/absent", test_absent);
  g_test_add_func ("/reader/required", test_required);
  g_test_add_func ("/reader/wrong-types", test_wrong_types);
  g_test_add_func ("/reader/quantities", test_quantities);
  g_test_add_func ("/reader/quantity-bounds", test_quantity_bounds);
  g_test_add_func ("/reader/children", test_children);
  g_test_add_func ("/reader/unknown-keys", test_unknown_keys);
  g_test_add_func ("/reader/ignore-rest", test_ignore_rest);
  g_test_add_func ("/reader/keys", test_keys);
  g_test_add_func ("/reader/problem-anywhere", test_problem_anywhere);
  g_test_add_func ("/reader/top-of-document", test_top_of_document);
  g_test_add_func ("/reader/no-object", test_no_object);
  g_test_add_func ("/reader/without-problems", test_without_problems);
  g_test_add_func ("/reader/many-problems", test_many_problems);
  return g_test_run ();
}
