/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Changes of a fleet: the next snapshot, its refusals, the inverse, and the document after a change, byte for byte where nothing was touched. */
#include "fl-test-example.h"

static FlChange *
one_change (const FlRecord *before, const FlRecord *after)
{
  return fl_change_new ("test", &before, &after, 1);
}

static FlFleet *
applied (const FlFleet *fleet, const FlRecord *before, const FlRecord *after)
{
  g_autoptr(FlChange) change = one_change (before, after);
  g_autoptr(GError) error = NULL;
  FlFleet *next = fl_fleet_apply (fleet, change, &error);

  g_assert_no_error (error);
  return next;
}

static void
not_applied (const FlFleet *fleet, const FlRecord *before, const FlRecord *after, FlFleetError code, const char *message)
{
  g_autoptr(FlChange) change = one_change (before, after);
  g_autoptr(GError) error = NULL;

  g_assert_null (fl_fleet_apply (fleet, change, &error));
  g_assert_error (error, FL_FLEET_ERROR, (gint) code);
  g_assert_cmpstr (error->message, ==, message);
}

static FlRecord *
with_member (const FlRecord *record, const char *path, const char *value)
{
  g_autoptr(GError) error = NULL;
  g_autoptr(JsonNode) node = value == NULL ? NULL : json_from_string (value, NULL);
  FlRecord *changed = fl_record_with (record, path, node, &error);

  g_assert_no_error (error);
  return changed;
}

static void
assert_json (const FlFleet *fleet, const char *expected)
{
  g_autofree char *text = json_of (fleet);
  g_autoptr(FlFleet) again = NULL;

  g_assert_cmpstr (text, ==, expected);
  again = good_fleet (text);            /* whatever is written can be read again, and holds the same */
  for (guint kind = 0; kind < FL_N_KINDS; kind++)
    g_assert_cmpuint (fl_fleet_count (again, (FlKind) kind), ==, fl_fleet_count (fleet, (FlKind) kind));
}

static const char SHACKLE[] = "{\"id\": \"SH-02\", \"kept_at\": \"NORTH\", \"wll_lb\": 9500}";

/* ── the change itself ── */

static void
test_change (void)
{
  g_autoptr(FlFleet) fleet = example_fleet ();
  g_autoptr(FlRecord) shackle = good_record (FL_KIND_CONNECTOR, SHACKLE);
  const FlRecord *chain = fl_fleet_find (fleet, FL_KIND_CHAIN, "C-041");
  const FlRecord *before[] = { NULL, chain }, *after[] = { shackle, NULL };
  g_autoptr(FlChange) change = fl_change_new ("swap", before, after, 2);
  g_autoptr(FlChange) inverse = fl_change_inverse (change);
  g_autoptr(FlChange) same = fl_change_ref (change);

  g_assert_cmpstr (fl_change_name (inverse), ==, "swap");
  g_assert_cmpuint (fl_change_size (same), ==, 2);
  g_assert_null (fl_change_before (change, 0));
  g_assert_true (fl_change_after (change, 0) == shackle);
  g_assert_true (fl_change_before (inverse, 0) == shackle);
  g_assert_null (fl_change_after (inverse, 0));
  g_assert_true (fl_change_after (inverse, 1) == chain);
}

/* A snapshot does not change: the next one does. */
static void
test_apply (void)
{
  g_autoptr(FlFleet) fleet = example_fleet ();
  const FlRecord *before = fl_fleet_find (fleet, FL_KIND_CHAIN, "C-042");
  g_autoptr(FlRecord) after = with_member (before, "length_ft", "20.5");
  g_autoptr(FlFleet) next = applied (fleet, before, after);

  assert_quantity (fl_record_chain (fl_fleet_find (fleet, FL_KIND_CHAIN, "C-042"))->length, 16, FL_UNIT_FT);
  assert_quantity (fl_record_chain (fl_fleet_find (next, FL_KIND_CHAIN, "C-042"))->length, 20.5, FL_UNIT_FT);
  g_assert_true (fl_fleet_find (fleet, FL_KIND_CHAIN, "C-041") == fl_fleet_find (next, FL_KIND_CHAIN, "C-041"));
  g_assert_cmpuint (fl_fleet_count (next, FL_KIND_CHAIN), ==, 6);
}

/* ── refusals ── */

static void
test_moved_on (void)
{
  g_autoptr(FlFleet) fleet = example_fleet ();
  const FlRecord *before = fl_fleet_find (fleet, FL_KIND_CHAIN, "C-042");
  g_autoptr(FlRecord) mine = with_member (before, "length_ft", "20");
  g_autoptr(FlRecord) theirs = with_member (before, "mark", "\"80\"");
  g_autoptr(FlFleet) next = applied (fleet, before, theirs);
  g_autoptr(FlFleet) without = applied (fleet, before, NULL);

  not_applied (next, before, mine, FL_FLEET_ERROR_MOVED_ON, "chain \"C-042\" has been changed in the meantime");
  not_applied (without, before, mine, FL_FLEET_ERROR_MOVED_ON, "chain \"C-042\" is no longer in the fleet");
}

static void
test_duplicate (void)
{
  g_autoptr(FlFleet) fleet = example_fleet ();
  g_autoptr(FlRecord) chain = good_record (FL_KIND_CHAIN, "{\"id\": \"C-041\", \"kept_at\": \"NORTH\", \"size_in\": \"3/8\", \"length_ft\": 20}");
  g_autoptr(FlRecord) binder = good_record (FL_KIND_BINDER, "{\"id\": \"C-041\", \"kept_at\": \"NORTH\", \"chain_sizes\": [\"3/8\"]}");
  g_autoptr(FlRecord) yard = good_record (FL_KIND_YARD, "{\"id\": \"T-3\"}");
  g_autoptr(FlRecord) article = good_record (FL_KIND_ARTICLE, "{\"id\": \"R-03\", \"weight_lb\": 9, \"length_in\": 9, \"width_in\": 9, \"height_in\": 9}");
  g_autoptr(FlFleet) next = NULL;

  not_applied (fleet, NULL, chain, FL_FLEET_ERROR_DUPLICATE, "chain \"C-041\": the id belongs to a chain already");
  not_applied (fleet, NULL, binder, FL_FLEET_ERROR_DUPLICATE, "binder \"C-041\": the id belongs to a chain already");
  not_applied (fleet, NULL, yard, FL_FLEET_ERROR_DUPLICATE, "yard \"T-3\": the id belongs to a trailer already");
  next = applied (fleet, NULL, article);
  g_assert_cmpuint (fl_fleet_count (next, FL_KIND_ARTICLE), ==, 2);
}

/* A new record that names nothing, and a removed one that is still named. */
static void
test_dangling (void)
{
  g_autoptr(FlFleet) fleet = example_fleet ();
  g_autoptr(FlRecord) stray = good_record (FL_KIND_CONNECTOR, "{\"id\": \"SH-02\", \"kept_at\": \"EAST\", \"wll_lb\": 9500}");
  g_autoptr(FlRecord) renamed = NULL;
  const FlRecord *move = fl_fleet_at (fleet, FL_KIND_MOVE, 0);
  g_autoptr(FlRecord) lost = with_member (move, "driver", "\"P-99\"");

  not_applied (fleet, NULL, stray, FL_FLEET_ERROR_DANGLING, "connector \"SH-02\": kept_at: there is no yard or trailer \"EAST\" in the fleet");
  not_applied (fleet, move, lost, FL_FLEET_ERROR_DANGLING, "move \"2026-11-25/01\": driver: there is no person \"P-99\" in the fleet");
  not_applied (fleet, fl_fleet_find (fleet, FL_KIND_YARD, "NORTH"), NULL, FL_FLEET_ERROR_DANGLING,
               "yard \"NORTH\" is still named by truck \"K-2\" (yard)");
  not_applied (fleet, fl_fleet_find (fleet, FL_KIND_TRAILER, "T-3"), NULL, FL_FLEET_ERROR_DANGLING,
               "trailer \"T-3\" is still named by binder \"B-11\" (kept_at)");
  not_applied (fleet, fl_fleet_find (fleet, FL_KIND_MACHINE, "R-03"), NULL, FL_FLEET_ERROR_DANGLING,
               "machine \"R-03\" is still named by move \"2026-11-25/01\" (loads[0].machine)");
  renamed = with_member (fl_fleet_find (fleet, FL_KIND_TRUCK, "K-2"), "id", "\"K-3\"");
  not_applied (fleet, fl_fleet_find (fleet, FL_KIND_TRUCK, "K-2"), renamed, FL_FLEET_ERROR_DANGLING,
               "truck \"K-2\" is still named by move \"2026-11-25/01\" (truck)");
}

/* What belongs together goes together: a truck renamed with the move that names it, a move removed with its machine. */
static void
test_together (void)
{
  g_autoptr(FlFleet) fleet = example_fleet ();
  const FlRecord *truck = fl_fleet_find (fleet, FL_KIND_TRUCK, "K-2"), *move = fl_fleet_at (fleet, FL_KIND_MOVE, 0);
  g_autoptr(FlRecord) new_truck = with_member (truck, "id", "\"K-3\"");
  g_autoptr(FlRecord) new_move = with_member (move, "truck", "\"K-3\"");
  const FlRecord *before[] = { truck, move }, *after[] = { new_truck, new_move }, *gone[] = { NULL, NULL };
  const FlRecord *both[] = { fl_fleet_find (fleet, FL_KIND_MACHINE, "R-03"), move };
  g_autoptr(FlChange) rename = fl_change_new ("rename", before, after, 2);
  g_autoptr(FlChange) removal = fl_change_new ("remove", both, gone, 2);
  g_autoptr(GError) error = NULL;
  g_autoptr(FlFleet) renamed = fl_fleet_apply (fleet, rename, &error);
  g_autoptr(FlFleet) removed = NULL;

  g_assert_no_error (error);
  g_assert_nonnull (fl_fleet_find (renamed, FL_KIND_TRUCK, "K-3"));
  g_assert_null (fl_fleet_find (renamed, FL_KIND_TRUCK, "K-2"));
  removed = fl_fleet_apply (fleet, removal, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (fl_fleet_count (removed, FL_KIND_MOVE), ==, 0);
}

static void
test_bad_change (void)
{
  g_autoptr(FlFleet) fleet = example_fleet ();
  g_autoptr(FlRecord) shackle = good_record (FL_KIND_CONNECTOR, SHACKLE);

  not_applied (fleet, NULL, NULL, FL_FLEET_ERROR_BAD_RECORD, "a change without a record");
  not_applied (fleet, fl_fleet_find (fleet, FL_KIND_CHAIN, "C-041"), shackle, FL_FLEET_ERROR_BAD_RECORD,
               "chain \"C-041\" cannot become connector \"SH-02\": they are of different kinds");
}

/* ── the document after a change ── */

static void
test_json_changed (void)
{
  g_autofree char *text = test_data ("example-fleet.json"), *expected = NULL;
  g_autoptr(FlFleet) fleet = good_fleet (text);
  const FlRecord *before = fl_fleet_find (fleet, FL_KIND_STRAP, "S-04");
  g_autoptr(FlRecord) after = with_member (before, "length_ft", "30");
  g_autoptr(FlFleet) next = applied (fleet, before, after);

  expected = with_change (text, "\"length_ft\": 27", "\"length_ft\": 30", NULL);
  assert_json (next, expected);
}

static void
test_json_removed (void)
{
  g_autofree char *text = test_data ("example-fleet.json"), *expected = NULL, *last = NULL, *only = NULL;
  g_autoptr(FlFleet) fleet = good_fleet (text);
  g_autoptr(FlFleet) first_gone = applied (fleet, fl_fleet_find (fleet, FL_KIND_BINDER, "B-11"), NULL);
  g_autoptr(FlFleet) last_gone = applied (fleet, fl_fleet_find (fleet, FL_KIND_BINDER, "B-15"), NULL);
  g_autoptr(FlFleet) only_gone = applied (fleet, fl_fleet_find (fleet, FL_KIND_ARTICLE, "A-1"), NULL);
  g_autofree char *binder = g_strdup_printf ("\n  %s,", fl_record_text (fl_fleet_find (fleet, FL_KIND_BINDER, "B-11"), NULL));
  g_autofree char *lever = g_strdup_printf (",\n  %s", fl_record_text (fl_fleet_find (fleet, FL_KIND_BINDER, "B-15"), NULL));
  g_autofree char *bucket = g_strdup_printf ("[\n  %s\n ]", fl_record_text (fl_fleet_find (fleet, FL_KIND_ARTICLE, "A-1"), NULL));

  expected = with_change (text, binder, "", NULL);
  assert_json (first_gone, expected);
  last = with_change (text, lever, "", NULL);
  assert_json (last_gone, last);
  only = with_change (text, bucket, "[]", NULL);
  assert_json (only_gone, only);
}

/* Added records follow the last of their list, in its indentation, in order of their ids. */
static void
test_json_added (void)
{
  g_autofree char *text = test_data ("example-fleet.json"), *expected = NULL;
  g_autoptr(FlFleet) fleet = good_fleet (text);
  g_autoptr(FlRecord) b = good_record (FL_KIND_CONNECTOR, "{\"id\": \"SH-00b\", \"kept_at\": \"NORTH\",\n \"wll_lb\": 9500\n}");
  g_autoptr(FlRecord) a = good_record (FL_KIND_CONNECTOR, "{\"id\": \"SH-00a\", \"kept_at\": \"NORTH\", \"wll_lb\": 9500}");
  const FlRecord *none[] = { NULL, NULL }, *both[] = { b, a };
  g_autoptr(FlChange) change = fl_change_new ("add", none, both, 2);
  g_autoptr(FlFleet) next = fl_fleet_apply (fleet, change, NULL);

  expected = with_change (text, "\"count\": 4\n  }",
                          "\"count\": 4\n  },\n  {\"id\": \"SH-00a\", \"kept_at\": \"NORTH\", \"wll_lb\": 9500},\n"
                          "  {\"id\": \"SH-00b\", \"kept_at\": \"NORTH\",\n   \"wll_lb\": 9500\n  }", NULL);
  assert_json (next, expected);
}

static void
test_json_new_list (void)
{
  static const char text[] = "{\n  \"format\": \"fairlead-fleet/1\",\n  \"name\": \"New\",\n  \"people\": []\n}\n";
  g_autoptr(FlFleet) fleet = good_fleet (text);
  g_autoptr(FlRecord) yard = good_record (FL_KIND_YARD, "{\n \"id\": \"N\"\n}");
  g_autoptr(FlRecord) person = good_record (FL_KIND_PERSON, "{\"id\": \"P\"}");
  g_autoptr(FlRecord) rules = good_record (FL_KIND_POLICY, "{\"house_rules\": [{\"rule\": \"ratchet_only\"}]}");
  g_autoptr(FlFleet) one = applied (fleet, NULL, yard);
  g_autoptr(FlFleet) two = applied (one, NULL, person);
  g_autoptr(FlFleet) three = applied (two, NULL, rules);

  assert_json (three, "{\n  \"format\": \"fairlead-fleet/1\",\n  \"name\": \"New\",\n  \"people\": [\n    {\"id\": \"P\"}\n  ],\n"
               "  \"yards\": [\n    {\n     \"id\": \"N\"\n    }\n  ],\n  \"house_rules\": [{\"rule\": \"ratchet_only\"}]\n}\n");
  g_assert_nonnull (fl_policy_rule (fl_fleet_policy (three), FL_HOUSE_RATCHET_ONLY));
  g_assert_null (fl_policy_rule (fl_fleet_policy (two), FL_HOUSE_RATCHET_ONLY));
}

static void
test_json_one_line (void)
{
  static const char text[] = "{\"format\":\"fairlead-fleet/1\",\"name\":\"Flat\",\"yards\":[{\"id\":\"A\"},{\"id\":\"B\"}],\"people\":[]}";
  g_autoptr(FlFleet) fleet = good_fleet (text);
  g_autoptr(FlRecord) yard = good_record (FL_KIND_YARD, "{\n \"id\": \"C\",\n \"name\": \"Third\"\n}");
  g_autoptr(FlRecord) person = good_record (FL_KIND_PERSON, "{\"id\": \"P\"}");
  g_autoptr(FlFleet) one = applied (fleet, NULL, yard);
  g_autoptr(FlFleet) two = applied (one, NULL, person);

  assert_json (two, "{\"format\":\"fairlead-fleet/1\",\"name\":\"Flat\",\"yards\":[{\"id\":\"A\"},{\"id\":\"B\"}, {\"id\": \"C\", \"name\": \"Third\"}],"
               "\"people\":[{\"id\": \"P\"}]}");
}

static void
test_json_policy (void)
{
  g_autofree char *text = test_data ("example-fleet.json"), *expected = NULL, *none = NULL;
  g_autoptr(FlFleet) fleet = good_fleet (text);
  const FlRecord *before = fl_fleet_at (fleet, FL_KIND_POLICY, 0);
  g_autoptr(FlRecord) after = with_member (before, "house_rules[0].wll_lb", "6600");
  g_autoptr(FlFleet) next = applied (fleet, before, after);
  g_autoptr(FlFleet) without = applied (fleet, before, NULL);

  expected = with_change (text, "\"wll_lb\": 5000", "\"wll_lb\": 6600", NULL);
  assert_json (next, expected);
  g_assert_cmpuint (fl_fleet_policy (without)->n_rules, ==, 0);
  none = json_of (without);
  g_assert_nonnull (strstr (none, "\"house_rules\": [],\n"));
}

/* Keys and lists of others stay where they are when their neighbours change. */
static void
test_json_foreign (void)
{
  static const char text[] =
    "{\"format\": \"fairlead-fleet/1\", \"x_list\": [ {\"id\": 1.0} , 2 ],\n"
    " \"yards\": [ {\"id\": \"A\", \"x\": 1.10} ,\n\n   {\"id\": \"B\",\"y\":[ ]}  ], \"name\": \"F\", \"z\": null}";
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(FlFleet) fleet = fleet_of (text, problems);
  const FlRecord *before = fl_fleet_find (fleet, FL_KIND_YARD, "B");
  g_autoptr(FlRecord) after = with_member (before, "name", "\"Bee\"");
  g_autoptr(FlFleet) next = applied (fleet, before, after);
  g_autofree char *back = json_of (next);

  g_assert_cmpuint (fl_problems_errors (problems), ==, 0);
  g_assert_cmpstr (back, ==, "{\"format\": \"fairlead-fleet/1\", \"x_list\": [ {\"id\": 1.0} , 2 ],\n"
                   " \"yards\": [ {\"id\": \"A\", \"x\": 1.10} ,\n\n   {\"id\": \"B\",\"y\":[ ], \"name\": \"Bee\"}  ], \"name\": \"F\", \"z\": null}");
}

/* The inverse leads back, to the byte. */
static void
test_inverse (void)
{
  g_autofree char *text = test_data ("example-fleet.json");
  g_autoptr(FlFleet) fleet = good_fleet (text);
  g_autoptr(FlRecord) shackle = good_record (FL_KIND_CONNECTOR, SHACKLE);
  const FlRecord *chain = fl_fleet_find (fleet, FL_KIND_CHAIN, "C-042"), *binder = fl_fleet_find (fleet, FL_KIND_BINDER, "B-13");
  g_autoptr(FlRecord) longer = with_member (chain, "length_ft", "20");
  const FlRecord *before[] = { chain, binder, NULL }, *after[] = { longer, NULL, shackle };
  g_autoptr(FlChange) change = fl_change_new ("mixed", before, after, 3);
  g_autoptr(FlChange) inverse = fl_change_inverse (change);
  g_autoptr(GError) error = NULL;
  g_autoptr(FlFleet) there = fl_fleet_apply (fleet, change, &error);
  g_autoptr(FlFleet) back = NULL;

  g_assert_no_error (error);
  g_assert_null (fl_fleet_find (there, FL_KIND_BINDER, "B-13"));
  g_assert_nonnull (fl_fleet_find (there, FL_KIND_CONNECTOR, "SH-02"));
  back = fl_fleet_apply (there, inverse, &error);
  g_assert_no_error (error);
  assert_json (back, text);
}

/* ── the table ── */

static FlRecord *
yard_of (guint number)
{
  g_autofree char *text = g_strdup_printf ("{\"id\": \"Y%u\"}", number);

  return good_record (FL_KIND_YARD, text);
}

static gint
compare_texts (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

/* The snapshot holds exactly the ids of the set, in order. */
static void
assert_holds (const FlFleet *fleet, GHashTable *set)
{
  g_autofree gpointer *keys = g_hash_table_get_keys_as_array (set, NULL);
  guint n = g_hash_table_size (set);

  qsort (keys, n, sizeof *keys, compare_texts);
  g_assert_cmpuint (fl_fleet_count (fleet, FL_KIND_YARD), ==, n);
  for (guint i = 0; i < n; i++)
    {
      g_assert_cmpstr (fl_record_id (fl_fleet_at (fleet, FL_KIND_YARD, i)), ==, keys[i]);
      g_assert_true (fl_fleet_find (fleet, FL_KIND_YARD, keys[i]) == fl_fleet_at (fleet, FL_KIND_YARD, i));
    }
  g_assert_null (fl_fleet_at (fleet, FL_KIND_YARD, n));
}

/* Yards come and go at random; each snapshot is compared with a plain set, and an old one is what it was. */
static void
test_table (void)
{
  g_autoptr(FlFleet) fleet = good_fleet ("{\"format\": \"fairlead-fleet/1\", \"name\": \"Table\"}");
  g_autoptr(FlFleet) old = NULL;
  g_autoptr(GHashTable) set = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  gsize old_count = 0;
  GRand *rand = g_rand_new_with_seed (64);

  for (guint step = 0; step < 900; step++)
    {
      g_autoptr(FlRecord) yard = yard_of ((guint) g_rand_int_range (rand, 0, step < 500 ? 1000 : 400));
      const FlRecord *there = fl_fleet_find (fleet, FL_KIND_YARD, fl_record_id (yard));
      FlFleet *next = applied (fleet, there, there == NULL ? yard : NULL);

      if (there == NULL)
        g_hash_table_add (set, g_strdup (fl_record_id (yard)));
      else
        g_hash_table_remove (set, fl_record_id (yard));
      fl_fleet_unref (fleet);
      fleet = next;
      if (step == 450)
        {
          old = fl_fleet_ref (fleet);
          old_count = fl_fleet_count (fleet, FL_KIND_YARD);
        }
      if (step % 50 == 0)
        assert_holds (fleet, set);
    }
  assert_holds (fleet, set);
  g_assert_cmpuint (fl_fleet_count (old, FL_KIND_YARD), ==, old_count);
  g_rand_free (rand);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/change/change", test_change);
  g_test_add_func ("/change/apply", test_apply);
  g_test_add_func ("/change/moved-on", test_moved_on);
  g_test_add_func ("/change/duplicate", test_duplicate);
  g_test_add_func ("/change/dangling", test_dangling);
  g_test_add_func ("/change/together", test_together);
  g_test_add_func ("/change/bad-change", test_bad_change);
  g_test_add_func ("/change/json-changed", test_json_changed);
  g_test_add_func ("/change/json-removed", test_json_removed);
  g_test_add_func ("/change/json-added", test_json_added);
  g_test_add_func ("/change/json-new-list", test_json_new_list);
  g_test_add_func ("/change/json-one-line", test_json_one_line);
  g_test_add_func ("/change/json-policy", test_json_policy);
  g_test_add_func ("/change/json-foreign", test_json_foreign);
  g_test_add_func ("/change/inverse", test_inverse);
  g_test_add_func ("/change/table", test_table);
  return g_test_run ();
}
