/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Documents that are none, documents that lack what one would expect and are valid all the same, several slips at once, and bytes and
 * values changed at random: nothing crashes, nothing is taken in silence, and what is accepted comes back byte for byte. */
#include "fl-json-scan.h"
#include "fl-test-example.h"

static void
refused (const char *text, gsize length, const char *path, guint line)
{
  g_autoptr(GBytes) bytes = g_bytes_new (text, length);
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(FlFleet) fleet = fl_fleet_new_from_json (bytes, problems);

  g_assert_null (fleet);
  g_assert_cmpuint (fl_problems_errors (problems), >=, 1);
  g_assert_cmpstr (fl_problems_at (problems, 0)->path, ==, path);
  g_assert_cmpuint (fl_problems_at (problems, 0)->line, ==, line);
}

#define refused_text(text, path, line) refused ((text), strlen (text), (path), (line))

static void
test_no_document (void)
{
  static const char binary[] = "\x7f" "ELF\x02\x01\x01\x00\x00\x00\xff\xfe";
  g_autofree char *deep = g_strnfill (80000, '[');

  refused ("", 0, "", 0);
  refused (binary, sizeof binary, "", 0);
  refused_text (" \n\n ", "", 0);
  refused_text ("[]", "", 1);
  refused_text ("\n\"fleet\"", "", 1);
  refused_text ("{\"format\": \"fairlead-fleet/1\",\n \"name\": \"x\"}\n}", "", 3);
  refused_text ("{\"format\": \"fairlead-fleet/1\",\n \"name\": \"x\",\n \"name\": \"y\"}", "name", 3);
  refused_text ("{\"format\": \"fairlead-fleet/1\",\n \"name\": \"x\xff\"}", "name", 2);
  refused_text ("{\"format\": \"fairlead-fleet/1\",\n \"name\": \"x\", \"turnaround_min\": 1e999}", "turnaround_min", 2);
  refused_text ("{}", "format", 1);
  refused_text ("{\"plans\":\n [{}]}", "format", 1);
  g_assert_nonnull (deep);
  {
    g_autoptr(GBytes) bytes = g_bytes_new (deep, 80000);
    g_autoptr(FlProblems) problems = fl_problems_new ();

    g_assert_null (fl_fleet_new_from_json (bytes, problems));
    g_assert_nonnull (strstr (fl_problems_at (problems, 0)->expected, "64 deep"));
  }
}

static void
test_truncated (void)
{
  g_autofree char *text = test_data ("example-fleet.json");

  for (gsize length = strlen (text) - 2; length > 0; length -= MIN (length, g_test_slow () ? 53 : 997))
    {
      g_autoptr(GBytes) bytes = g_bytes_new (text, length);
      g_autoptr(FlProblems) problems = fl_problems_new ();

      g_assert_null (fl_fleet_new_from_json (bytes, problems));
      g_assert_cmpuint (fl_problems_errors (problems), >=, 1);
    }
}

/* No tie points, no anchors, no gear: valid, and said. */
static void
test_sparse (void)
{
  static const char text[] =
    "{\"format\": \"fairlead-fleet/1\", \"name\": \"Sparse\",\n"
    " \"yards\": [{\"id\": \"N\"}],\n"
    " \"machines\": [{\"id\": \"M\", \"kind\": \"loader\", \"weight_kg\": 5000, \"length_m\": 4, \"width_mm\": 2000, \"height_ft\": 9}],\n"
    " \"trailers\": [{\"id\": \"T\", \"yard\": \"N\", \"kind\": \"tag\", \"deck\": {\"length_m\": 6, \"width_mm\": 2400, \"height_mm\": 900},\n"
    "  \"axles\": [{\"x_m\": 2, \"tare_kg\": 900}]}]}";
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(FlFleet) fleet = fleet_of (text, problems);

  g_assert_nonnull (fleet);
  g_assert_cmpuint (fl_problems_errors (problems), ==, 0);
  g_assert_cmpuint (fl_problems_count (problems), ==, 2);
  g_assert_nonnull (problem_at (problems, "machines[0].tie_points"));
  g_assert_cmpuint (problem_at (problems, "machines[0].tie_points")->line, ==, 3);
  g_assert_nonnull (problem_at (problems, "trailers[0].anchors"));
  g_assert_cmpuint (fl_record_trailer (fl_fleet_at (fleet, FL_KIND_TRAILER, 0))->n_anchors, ==, 0);
}

/* All problems of a document, in order of line, and none twice. */
static void
test_many (void)
{
  static const char text[] =
    "{\"format\": \"fairlead-fleet/1\",\n"
    " \"yards\": [{\"id\": \"N\"}, {\"id\": \"N\"}],\n"
    " \"articles\": [{\"id\": \"A\", \"weight_lb\": 0, \"length_in\": 20,\n"
    "  \"width_in\": 20, \"yard\": \"Q\"}],\n"
    " \"chains\": [{\"id\": \"N\", \"kept_at\": \"N\", \"size_in\": \"3/8\", \"length_ft\": -3},\n"
    "  3, {\"id\": \"N\", \"kept_at\": \"Z\", \"size_in\": \"3/8\", \"length_ft\": 20}],\n"
    " \"name\": \"Many\"}";
  static const struct { const char *path; guint line; } expected[] = {
    { "yards[1].id", 2 }, { "articles[0].weight_lb", 3 }, { "articles[0].height", 3 }, { "articles[0].yard", 4 },
    { "chains[0].length_ft", 5 }, { "chains[1]", 6 }, { "chains[2].id", 6 }, { "chains[2].kept_at", 6 },
  };
  g_autoptr(FlProblems) problems = fl_problems_new ();

  g_assert_null (fleet_of (text, problems));
  g_assert_cmpuint (fl_problems_count (problems), ==, G_N_ELEMENTS (expected));
  for (guint i = 0; i < G_N_ELEMENTS (expected); i++)
    {
      g_assert_cmpstr (fl_problems_at (problems, i)->path, ==, expected[i].path);
      g_assert_cmpuint (fl_problems_at (problems, i)->line, ==, expected[i].line);
    }
  g_assert_null (fleet_of (text, NULL));        /* nobody listens: the answer is the same */
}

/* Yards and trailers share one namespace, gear another; a machine and an article may have the same number. */
static void
test_namespaces (void)
{
  g_autofree char *text = test_data ("example-fleet.json"), *trailer = NULL, *article = NULL;
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(FlFleet) fleet = NULL;

  trailer = with_change (text, "\"id\": \"NORTH\"", "\"id\": \"T-3\"}, {\"id\": \"NORTH\"", NULL);
  g_assert_null (fleet_of (trailer, problems));
  g_assert_nonnull (problem_at (problems, "trailers[0].id"));
  g_assert_nonnull (strstr (problem_at (problems, "trailers[0].id")->expected, "yard or trailer"));
  article = with_change (text, "\"id\": \"A-1\"", "\"id\": \"R-03\"", NULL);
  fleet = good_fleet (article);
  g_assert_false (fl_fleet_find_load (fleet, "R-03", TRUE) == fl_fleet_find_load (fleet, "R-03", FALSE));
}

/* ── at random ── */

/* Reads a spoilt document; what is accepted is used and written back. */
static void
survive (const char *text, gsize length)
{
  g_autoptr(GBytes) bytes = g_bytes_new (text, length);
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(FlFleet) fleet = fl_fleet_new_from_json (bytes, problems);
  g_autoptr(GBytes) back = NULL;

  g_assert_true ((fleet == NULL) == (fl_problems_errors (problems) > 0));
  for (guint i = 0; i < fl_problems_count (problems); i++)
    g_assert_true (g_utf8_validate (fl_problems_at (problems, i)->path, -1, NULL));
  if (fleet == NULL)
    return;
  back = fl_fleet_to_json (fleet);
  g_assert_true (g_bytes_equal (back, bytes));
  for (gsize i = 0; i < fl_fleet_count (fleet, FL_KIND_MOVE); i++)
    g_ptr_array_unref (fl_fleet_on_hand (fleet, fl_record_move (fl_fleet_at (fleet, FL_KIND_MOVE, i)), "T-3"));
}

static void
spoil (GString *text, GRand *rand)
{
  static const char signs[] = "{}[]\",:0123456789.-eE\\ntfu \n#";
  gsize at = (gsize) g_rand_int_range (rand, 0, (gint32) text->len), length = (gsize) g_rand_int_range (rand, 1, 30);

  switch (g_rand_int_range (rand, 0, 4))
    {
    case 0:
      text->str[at] = (char) g_rand_int_range (rand, 0, 256);
      break;
    case 1:
      text->str[at] = signs[g_rand_int_range (rand, 0, (gint32) sizeof signs - 1)];
      break;
    case 2:
      g_string_erase (text, (gssize) at, (gssize) MIN (length, text->len - at));
      break;
    default:
      {
        g_autofree char *piece = g_strndup (text->str + at, MIN (length, text->len - at));

        g_string_insert (text, g_rand_int_range (rand, 0, (gint32) text->len), piece);
      }
    }
}

static void
test_bytes_at_random (void)
{
  g_autofree char *text = test_data ("example-fleet.json");
  GRand *rand = g_rand_new_with_seed (393);

  for (guint i = 0; i < (g_test_slow () ? 5000 : 100); i++)
    {
      g_autoptr(GString) spoilt = g_string_new (text);

      for (gint n = g_rand_int_range (rand, 1, 4); n > 0; n--)
        spoil (spoilt, rand);
      survive (spoilt->str, spoilt->len);
    }
  g_rand_free (rand);
}

/* Each value of the example in turn (of the short run: every third) becomes another one: every decoder meets every type. */
static void
test_values_at_random (void)
{
  static const char *const others[] = { "null", "-1", "1e300", "0", "\"\"", "[]", "{}", "true", "[null]", "[{}]", "\"x\"", "[[1, 2], \"a\"]" };
  g_autofree char *text = test_data ("example-fleet.json");
  gsize length = strlen (text);
  GRand *rand = g_rand_new_with_seed (17);
  guint values = 0;

  for (const char *at = strstr (text, "\": "); at != NULL; at = strstr (at + 3, "\": "))
    {
      gsize offset = (gsize) (at + 3 - text);
      FlScan scan = fl_scan (text + offset, length - offset);
      FlJsonSpan span;
      g_autoptr(GString) spoilt = g_string_new_len (text, (gssize) offset);

      if (values++ % 3 != 0 && !g_test_slow ())
        continue;
      g_assert_true (fl_scan_value (&scan, &span));
      g_string_append (spoilt, others[g_rand_int_range (rand, 0, G_N_ELEMENTS (others))]);
      g_string_append (spoilt, text + offset + span.length);
      survive (spoilt->str, spoilt->len);
    }
  g_assert_cmpuint (values, >=, 400);
  g_rand_free (rand);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/fleet-bad/no-document", test_no_document);
  g_test_add_func ("/fleet-bad/truncated", test_truncated);
  g_test_add_func ("/fleet-bad/sparse", test_sparse);
  g_test_add_func ("/fleet-bad/many", test_many);
  g_test_add_func ("/fleet-bad/namespaces", test_namespaces);
  g_test_add_func ("/fleet-bad/bytes-at-random", test_bytes_at_random);
  g_test_add_func ("/fleet-bad/values-at-random", test_values_at_random);
  return g_test_run ();
}
