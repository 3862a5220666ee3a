/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The guard against the grammar of RFC 8259, against json-glib, and against Python's json module as a second judge. */
#include <gio/gio.h>
#include <string.h>

#include "fl-json.h"
#include "json-chance.h"

/* What is being read, in ASCII: TAP wants one line of UTF-8. */
static void
note (const char *text)
{
  g_autofree char *escaped = g_strescape (text, NULL);

  g_test_message ("%s", escaped);
}

static GBytes *
bytes_of (const char *text)
{
  return g_bytes_new (text, strlen (text));
}

static gboolean
guard_text (const char *text, gsize length, FlProblems *problems)
{
  /* a copy of exactly this size, so that a sanitizer sees every step beyond it */
  g_autoptr(GBytes) bytes = g_bytes_new (text, length);
  g_autofree char *exact = g_memdup2 (text, length);
  g_autoptr(GBytes) tight = g_bytes_new_static (exact, length);

  g_assert_cmpint (fl_json_guard (bytes, NULL), ==, fl_json_guard (tight, problems));
  return fl_json_guard (tight, NULL);
}

/* RFC 8259, sections 2 to 8. */
static void
test_accepted (void)
{
  static const char *const texts[] = {
    "{}", "[]", "null", "true", "false", "0", "-0", "\"\"", " [ ] ", "\t\n\r {}\n", "[1,2]", "{\"a\":1}", "{\"a\":{\"a\":[{\"a\":1}]}}",
    "[0,-1,12,0.5,-0.5,1e3,1E3,1e+3,1e-3,1.25E-2,0e0,0e5,-0e-1,123456789012345]", "[9007199254740992,-9007199254740992]", "[1.7976931348623157e308]",
    "[5e-324]", "[0.0e-999]", "[9007199254740993.0]", "[0.1234567890123456789012345678901234567890]",
    "\"\\\"\\\\\\/\\b\\f\\n\\r\\t\\u00e9\\u00E9\"", "\"\\ud83d\\ude00\"", "\"é漢😀\x7f\"", "\"\\u2028\"", "{\"\":1}", "{\"a\":1,\"A\":2}", "{\"a b\":1,\"a\\u0020c\":2}",
    "\xEF\xBB\xBF{}", "[[],{},[[]]]", "[\"[\",\"}\",\",\"]",
  };

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autoptr(FlProblems) problems = fl_problems_new ();

      note (texts[i]);
      g_assert_true (guard_text (texts[i], strlen (texts[i]), problems));
      g_assert_cmpuint (fl_problems_count (problems), ==, 0);
    }
}

/* RFC 8259 forbids the first part; the rest is what the guard refuses beyond it. */
static void
test_refused (void)
{
  static const char *const texts[] = {
    "", " ", "\n", "\xEF\xBB\xBF", "{", "}", "[", "]", "[1", "[1,", "[1,]", "[,1]", "[1 2]", "[1,,2]", "{\"a\"}", "{\"a\":}", "{\"a\":1,}", "{,\"a\":1}",
    "{a:1}", "{'a':1}", "{\"a\" 1}", "{\"a\":1 \"b\":2}", "{1:1}", "{\"a\":1]", "[1}", "[\"a\":1]", "{}{}", "{} x", "[] []", "1 2", "\"a", "\"a\\", "\"\\\"",
    "\"\\x\"", "\"\\u12\"", "\"\\u12g4\"", "\"\\", "\"\\u", "'a'", "\"a\nb\"", "\"a\tb\"", "\"\x01\"", "tru", "True", "nul", "nulll", "truefalse",
    "01", "-01", "00", "1.", ".5", "-.5", "+1", "1e", "1e+", "-", "--1", "1.e3", "0x10", "1_000", "1,000", "1e3.5", "NaN", "nan", "Infinity", "-Infinity", "inf",
    "// c\n{}", "/* c */{}", "{} // c", "# c\n{}", "{\"a\":1;}", "[1]\xff", "\xff", "\"\xc3\"", "\"\xed\xa0\x80\"", "\"\xf5\x80\x80\x80\"", "\"\xc0\xaf\"", "\f{}", "\v{}",
    "{\xC2\xA0}", "\xC2\xA0{}",
    "{\"a\":1,\"a\":1}", "{\"a\":1,\"b\":2,\"\\u0061\":3}", "{\"\":1,\"\":2}", "[1e999]", "[-1e999]", "[1e-999]", "[9007199254740993]", "[-9007199254740993]",
    "[18446744073709551617]", "[99999999999999999999999]", "\"\\ud800\"", "\"\\udc00\"", "\"\\ud800\\u0041\"", "\"\\ud800x\"", "\"\\u0000\"", "{\"\\u0000\":1}",
  };

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autoptr(FlProblems) problems = fl_problems_new ();

      note (texts[i]);
      g_assert_false (guard_text (texts[i], strlen (texts[i]), problems));
      g_assert_cmpuint (fl_problems_errors (problems), ==, 1);
    }
}

static void
test_bytes_of_zero (void)
{
  g_assert_false (guard_text ("{}\0", 3, NULL));
  g_assert_false (guard_text ("{\"a\0b\":1}", 9, NULL));
  g_assert_false (guard_text ("\0{}", 3, NULL));
}

typedef struct { const char *text, *path; guint line; const char *value, *says; } Complaint;

static void
assert_complaint (const FlProblem *problem, const Complaint *complaint)
{
  g_autofree char *line = fl_problem_text (problem, "f");

  note (line);
  g_assert_cmpstr (problem->path, ==, complaint->path);
  g_assert_cmpuint (problem->line, ==, complaint->line);
  g_assert_cmpstr (problem->value, ==, complaint->value);
  g_assert_nonnull (strstr (problem->expected, complaint->says));
}

static void
test_complaints (void)
{
  static const Complaint complaints[] = {
    { "", "", 0, NULL, "an empty document" },
    { "\n \n", "", 0, NULL, "an empty document" },
    { "\x7f" "ELF", "", 1, "\uFFFD" "ELF", "a value" },
    { "PK\x03\x04", "", 0, NULL, "binary" },
    { "\xFF\xFE{", "", 0, NULL, "UTF-16" },
    { "{\n \"a\": [1,\n  2,\n  x]\n}", "a[2]", 4, "x]", "a value" },
    { "{\n \"a\": [1,\n  {\"b\":\n  tru}]\n}", "a[1].b", 4, "tru}]", "a value" },
    { "{\"a\": NaN}", "a", 1, "NaN}", "no NaN" },
    { "{\"a\": -Infinity}", "a", 1, "-Infinity}", "no NaN" },
    { "{\"a\": 5 ft}", "a", 1, "ft}", "a comma and the next key" },
    { "{\"a\": 5ft}", "a", 1, "5ft}", "without unit" },
    { "{\"a\": 'x'}", "a", 1, "'x'}", "double quotes" },
    { "{\"a\": 1 // c\n}", "a", 1, "// c", "a comma and the next key" },
    { "{\"a\": // c\n1}", "a", 1, "// c", "no comments" },
    { "{\"a\": 1,\n}", "a", 2, "}", "no comma after the last" },
    { "[1,\n2", "[1]", 2, NULL, "inside this list" },
    { "{\"m\": {\"a\": 1", "m.a", 1, NULL, "inside this object" },
    { "{\"m\": \"abc", "m", 1, NULL, "inside this object" },
    { "{\"m\": \"abc\n\"}", "m", 1, "\"abc", "closing quote" },
    { "{}\n\n{}", "", 3, "{}", "nothing after" },
    { "{\"a\": 1,\n \"b\": {\"c\": 1,\n \"c\": [2]}}", "b.c", 3, "[2]", "on line 2" },
    { "{\"a.b\": 1,\n \"a.b\": 2}", "[\"a.b\"]", 2, "2", "each key once" },
    { "{\"a\": [1e999]}", "a[0]", 1, "1e999", "below 1.8e308" },
    { "{\"a\": 1e-999}", "a", 1, "1e-999", "become 0" },
    { "{\"a\": 9007199254740993}", "a", 1, "9007199254740993", "2^53" },
    { "{\"a\": 007}", "a", 1, "007", "leading zeros" },
    { "{\"a\": \"C:\\x\"}", "a", 1, "\"C:\\x\"", "\\\\" },
    { "{\"a\": \"\\ud800\"}", "a", 1, "\"\\ud800\"", "in pairs" },
    { "{\"a\":\n\"\xff\"}", "a", 2, NULL, "byte 0xff" },
    { "[1, 2]\n\xC3\x28", "", 2, NULL, "byte 0xc3" },
    { "\xEF\xBB\xBF\n[x]", "[0]", 2, "x]", "a value" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (complaints); i++)
    {
      g_autoptr(FlProblems) problems = fl_problems_new ();

      note (complaints[i].text);
      g_assert_false (guard_text (complaints[i].text, strlen (complaints[i].text), problems));
      g_assert_cmpuint (fl_problems_count (problems), ==, 1);
      assert_complaint (fl_problems_at (problems, 0), &complaints[i]);
    }
}

/* It goes on after what it can follow, and says all of it in order of line. */
static void
test_all_at_once (void)
{
  static const char text[] = "{\n\"a\": 1e999,\n\"b\": 01,\n\"c\": [\"\\q\"],\n\"a\": 99999999999999999999,\n\"d\": x }";
  static const Complaint expected[] = {
    { NULL, "a", 2, "1e999", "1.8e308" },
    { NULL, "b", 3, "01", "leading" },
    { NULL, "c[0]", 4, "\"\\q\"", "escapes" },
    { NULL, "a", 5, "99999999999999999999", "2^53" },
    { NULL, "a", 5, "99999999999999999999", "on line 2" },
    { NULL, "d", 6, "x }", "a value" },
  };
  g_autoptr(FlProblems) problems = fl_problems_new ();

  g_assert_false (guard_text (text, strlen (text), problems));
  g_assert_cmpuint (fl_problems_count (problems), ==, G_N_ELEMENTS (expected));
  for (guint i = 0; i < G_N_ELEMENTS (expected); i++)
    assert_complaint (fl_problems_at (problems, i), &expected[i]);
}

static char *
nested (guint depth, const char *open, const char *close)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < depth; i++)
    g_string_append (text, open);
  for (guint i = 0; close != NULL && i < depth; i++)
    g_string_append (text, close);
  return g_string_free (text, FALSE);
}

static void
test_depth (void)
{
  g_autofree char *deepest = nested (64, "[", "]"), *deeper = nested (65, "[", "]"), *bomb = nested (80000, "[", NULL),
                  *closed_bomb = nested (80000, "[", "]"), *object_bomb = nested (80000, "{\"a\":", NULL);
  const char *bombs[] = { deeper, bomb, closed_bomb, object_bomb };

  g_assert_true (guard_text (deepest, strlen (deepest), NULL));
  for (guint i = 0; i < G_N_ELEMENTS (bombs); i++)
    {
      g_autoptr(FlProblems) problems = fl_problems_new ();
      g_autoptr(GBytes) bytes = bytes_of (bombs[i]);

      g_assert_null (fl_json_parse (bytes, problems));
      g_assert_cmpuint (fl_problems_count (problems), ==, 1);
      g_assert_nonnull (strstr (fl_problems_at (problems, 0)->expected, "64 deep"));
    }
}

/* An object of many members, the last of them a repetition: found, and not by comparing each with each. */
static void
test_many_keys (void)
{
  GString *text = g_string_new ("{");
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(GBytes) bytes = NULL;

  for (guint i = 0; i < 300000; i++)
    g_string_append_printf (text, "\"key %u\": %u,\n", i, i);
  g_string_append (text, "\"key\\u0020777\": 1, \"key 777\": 2}");
  bytes = g_string_free_to_bytes (text);
  g_assert_false (fl_json_guard (bytes, problems));
  g_assert_cmpuint (fl_problems_count (problems), ==, 2);
  g_assert_cmpstr (fl_problems_at (problems, 0)->path, ==, "key 777");
  g_assert_cmpuint (fl_problems_at (problems, 0)->line, ==, 300001);
  g_assert_nonnull (strstr (fl_problems_at (problems, 0)->expected, "on line 778"));
}

static void
test_long_number (void)
{
  g_autofree char *digits = g_strnfill (100000, '1');
  g_autofree char *integer = g_strdup_printf ("[%s]", digits), *fraction = g_strdup_printf ("[0.%s]", digits), *large = g_strdup_printf ("[%s.5]", digits);

  g_assert_false (guard_text (integer, strlen (integer), NULL));
  g_assert_true (guard_text (fraction, strlen (fraction), NULL));
  g_assert_false (guard_text (large, strlen (large), NULL));
}

static void
test_too_large (void)
{
  const gsize size = (gsize) FL_JSON_MAX_BYTES + 1;
  g_autofree char *text = g_malloc (size);
  g_autoptr(GBytes) bytes = NULL;
  g_autoptr(FlProblems) problems = fl_problems_new ();

  memset (text, ' ', size);
  text[0] = '1';
  bytes = g_bytes_new_static (text, size);
  g_assert_false (fl_json_guard (bytes, problems));
  g_assert_cmpuint (fl_problems_count (problems), ==, 1);
  g_assert_nonnull (strstr (fl_problems_at (problems, 0)->expected, "256 MB"));
}

static void
test_parse (void)
{
  g_autoptr(GBytes) good = bytes_of ("\xEF\xBB\xBF {\"a\": [1, 2.5, \"x\"]}\n");
  g_autoptr(GBytes) list = bytes_of ("[{}]");
  g_autoptr(GBytes) text = bytes_of ("\"{}\"");
  g_autoptr(GBytes) bad = bytes_of ("{");
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(JsonNode) root = fl_json_parse (good, problems);

  g_assert_nonnull (root);
  g_assert_cmpfloat (json_array_get_double_element (json_object_get_array_member (json_node_get_object (root), "a"), 1), ==, 2.5);
  g_assert_cmpuint (fl_problems_count (problems), ==, 0);
  g_assert_null (fl_json_parse (list, problems));
  g_assert_cmpuint (fl_problems_count (problems), ==, 1);
  g_assert_cmpstr (fl_problems_at (problems, 0)->value, ==, "[{}]");
  g_assert_null (fl_json_parse (text, problems));
  g_assert_null (fl_json_parse (bad, problems));
  g_assert_cmpuint (fl_problems_count (problems), ==, 3);
  g_assert_null (fl_json_parse (bad, NULL));
}

/* What json-glib writes is accepted and comes back as the same tree. */
static void
test_round_trip (void)
{
  g_autoptr(GRand) chance = g_rand_new_with_seed (8);

  for (guint i = 0; i < 400; i++)
    {
      g_autoptr(JsonNode) tree = chance_tree (chance, 1 + i % 8);
      g_autofree char *text = chance_document (chance, tree);
      g_autoptr(GBytes) bytes = bytes_of (text);
      g_autoptr(FlProblems) problems = fl_problems_new ();
      g_autoptr(JsonNode) back = NULL;

      g_assert_true (fl_json_guard (bytes, problems));
      g_assert_cmpuint (fl_problems_count (problems), ==, 0);
      back = json_from_string (text, NULL);
      g_assert_nonnull (back);
      g_assert_true (json_node_equal (tree, back));
      if (JSON_NODE_HOLDS_OBJECT (tree))
        {
          g_autoptr(JsonNode) parsed = fl_json_parse (bytes, problems);

          g_assert_nonnull (parsed);
          g_assert_true (json_node_equal (tree, parsed));
        }
    }
}

/* Damaged texts: no crash; what the guard accepts, json-glib reads. */
static void
test_damage (void)
{
  g_autoptr(GRand) chance = g_rand_new_with_seed (9);
  guint accepted = 0, refused = 0;

  for (guint i = 0; i < 20000; i++)
    {
      g_autoptr(JsonNode) tree = chance_tree (chance, 1 + i % 4);
      g_autofree char *text = chance_document (chance, tree);
      g_autoptr(GString) damaged = chance_damage (chance, text);
      g_autoptr(FlProblems) problems = fl_problems_new ();

      if (guard_text (damaged->str, damaged->len, problems))
        {
          g_autoptr(JsonParser) parser = json_parser_new ();
          g_autoptr(GError) error = NULL;

          g_assert_cmpuint (fl_problems_count (problems), ==, 0);
          json_parser_load_from_data (parser, damaged->str, (gssize) damaged->len, &error);
          if (error != NULL)
            note (damaged->str);
          g_assert_no_error (error);
          accepted++;
        }
      else
        {
          g_assert_cmpuint (fl_problems_errors (problems), >, 0);
          refused++;
        }
    }
  g_assert_cmpuint (accepted, >, 500);
  g_assert_cmpuint (refused, >, 5000);
}

static void
append_document (GByteArray *all, GString *verdicts, const char *text, gsize length)
{
  guint64 size = GUINT64_TO_LE ((guint64) length);

  g_byte_array_append (all, (const guint8 *) &size, sizeof size);
  g_byte_array_append (all, (const guint8 *) text, (guint) length);
  g_string_append_c (verdicts, guard_text (text, length, NULL) ? '1' : '0');
}

/* Python's json module (CPython's own scanner) says the same of 10,000 whole and damaged texts. */
static void
test_second_judge (void)
{
  enum { N = 10000 };
  g_autoptr(GRand) chance = g_rand_new_with_seed (10);
  g_autoptr(GByteArray) all = g_byte_array_new ();
  g_autoptr(GPtrArray) texts = g_ptr_array_new_with_free_func (g_free);
  g_autoptr(GString) ours = g_string_new (NULL);
  g_autoptr(GBytes) input = NULL, output = NULL;
  g_autoptr(GError) error = NULL;
  g_autofree char *script = g_test_build_filename (G_TEST_DIST, "model", "judge-json.py", NULL);
  g_autoptr(GSubprocess) python = g_subprocess_new (G_SUBPROCESS_FLAGS_STDIN_PIPE | G_SUBPROCESS_FLAGS_STDOUT_PIPE, &error,
                                                    "/usr/bin/python3", script, NULL);
  const char *theirs;
  gsize size;

  g_assert_no_error (error);
  for (guint i = 0; i < N; i++)
    {
      g_autoptr(JsonNode) tree = chance_tree (chance, 1 + i % 4);
      g_autofree char *text = chance_document (chance, tree);
      g_autoptr(GString) damaged = i % 4 == 0 ? g_string_new (text) : chance_damage (chance, text);

      append_document (all, ours, damaged->str, damaged->len);
      g_ptr_array_add (texts, g_strndup (damaged->str, damaged->len));
    }
  input = g_byte_array_free_to_bytes (g_steal_pointer (&all));
  g_assert_true (g_subprocess_communicate (python, input, NULL, &output, NULL, &error));
  g_assert_no_error (error);
  g_assert_true (g_subprocess_get_successful (python));
  theirs = g_bytes_get_data (output, &size);
  g_assert_cmpuint (size, ==, N);
  for (guint i = 0; i < N; i++)
    {
      if (theirs[i] != ours->str[i])
        note (texts->pdata[i]);
      g_assert_cmpint (theirs[i], ==, ours->str[i]);
    }
}

static void
test_example (void)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "data", "example-fleet.json", NULL), *text = NULL;
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(GError) error = NULL;
  gsize length;

  g_file_get_contents (path, &text, &length, &error);
  g_assert_no_error (error);
  g_assert_true (guard_text (text, length, problems));
  /* every shorter text of it is refused as cut off, and nothing is read past its end */
  for (gsize cut = 1; cut < length - 2; cut += 97)
    g_assert_false (guard_text (text, cut, NULL));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/json/accepted", test_accepted);
  g_test_add_func ("/json/refused", test_refused);
  g_test_add_func ("/json/bytes-of-zero", test_bytes_of_zero);
  g_test_add_func ("/json/complaints", test_complaints);
  g_test_add_func ("/json/all-at-once", test_all_at_once);
  g_test_add_func ("/json/depth", test_depth);
  g_test_add_func ("/json/many-keys", test_many_keys);
  g_test_add_func ("/json/long-number", test_long_number);
  g_test_add_func ("/json/too-large", test_too_large);
  g_test_add_func ("/json/parse", test_parse);
  g_test_add_func ("/json/round-trip", test_round_trip);
  g_test_add_func ("/json/damage", test_damage);
  g_test_add_func ("/json/second-judge", test_second_judge);
  g_test_add_func ("/json/example", test_example);
  return g_test_run ();
}
