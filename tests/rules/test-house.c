/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The house's policy on top of a book: what tightens is taken, what loosens or makes no sense is refused at its path. */
#include "fl-test-judge.h"

#include <math.h>

/* Tightens by one rule; the one problem is checked. `path` NULL: none, and the book is made. */
static void
check (const FlHouseRule *rule, const char *path)
{
  g_autoptr(FlBook) book = test_book ();
  g_autoptr(FlProblems) problems = fl_problems_new ();
  FlPolicy policy = { rule, 1 };
  g_autoptr(FlBook) tightened = fl_book_tighten (book, &policy, problems);

  test_print_problems (problems);
  g_assert_cmpuint (fl_problems_count (problems), ==, path == NULL ? 0 : 1);
  if (path != NULL)
    {
      g_assert_cmpstr (fl_problems_at (problems, 0)->path, ==, path);
      g_assert_true (fl_problems_at (problems, 0)->severity == FL_SEVERITY_ERROR);
    }
  g_assert_true ((tightened == NULL) == (path != NULL));
}

/* All rules there are: each is taken without a word. */
static void
test_taken (void)
{
  const FlHouseRule rules[] = {
    { .rule = FL_HOUSE_MIN_WLL_EACH, .wll = FL_LB (5000) },
    { .rule = FL_HOUSE_MIN_CHAIN, .size_text = "3/8", .size_in = 0.375, .grade = "70" },
    { .rule = FL_HOUSE_NO_STRAPS_ON_MACHINES },
    { .rule = FL_HOUSE_CHAIN_ALLOWANCE, .length = FL_IN (12) },
    { .rule = FL_HOUSE_FOUR_BELOW_THRESHOLD },
    { .rule = FL_HOUSE_LENGTH_COUNT_TOO },
    { .rule = FL_HOUSE_RATCHET_ONLY },
    { .rule = FL_HOUSE_INBOARD_OF_RUB_RAIL },
    { .rule = FL_HOUSE_DECK_ANGLE_BAND, .lo_deg = 25, .hi_deg = 50 },
    { .rule = FL_HOUSE_STAND_IN_RATING, .fitting = "stake_pocket", .wll = FL_LB (5000) },
    { .rule = FL_HOUSE_OVER_WIDE_BLADE_REAR, .width = FL_IN (126) },
    { .rule = FL_HOUSE_EXTRA_AGGREGATE_PCT, .pct = 10 },
    { .rule = FL_HOUSE_WEIGHT_MARGIN_PCT, .pct = 5 },
    { .rule = FL_HOUSE_IMPLEMENT_LOCK_SUFFICES },
    { .rule = FL_HOUSE_HEIGHT_MARGIN, .length = FL_IN (3) },
  };

  g_assert_cmpuint (G_N_ELEMENTS (rules), ==, FL_N_HOUSE_RULES);
  for (gsize i = 0; i < G_N_ELEMENTS (rules); i++)
    check (&rules[i], NULL);
}

static void
test_refused (void)
{
  const struct { FlHouseRule rule; const char *path; } cases[] = {
    { { .rule = FL_HOUSE_MIN_WLL_EACH, .wll = FL_NOT_MEASURED }, "house_rules[0].wll_lb" },
    { { .rule = FL_HOUSE_MIN_WLL_EACH, .wll = FL_LB (-5) }, "house_rules[0].wll_lb" },
    { { .rule = FL_HOUSE_MIN_WLL_EACH, .wll = FL_IN (5) }, "house_rules[0].wll_lb" },
    { { .rule = FL_HOUSE_MIN_CHAIN, .size_text = "3/4", .size_in = 0.75, .grade = "70" }, "house_rules[0].size_in" },
    { { .rule = FL_HOUSE_MIN_CHAIN, .size_text = "3/8", .size_in = 0.375, .grade = "71" }, "house_rules[0].grade" },
    { { .rule = FL_HOUSE_MIN_CHAIN, .size_text = "3/8", .size_in = 0.375, .grade = NULL }, "house_rules[0].grade" },
    { { .rule = FL_HOUSE_CHAIN_ALLOWANCE, .length = FL_IN (-1) }, "house_rules[0].length_in" },
    { { .rule = FL_HOUSE_MIN_WLL_EACH, .wll = FL_KG (0) }, "house_rules[0].wll_kg" },
    { { .rule = FL_HOUSE_MIN_CHAIN, .size_text = "9 mm", .size_in = 9 / 25.4, .grade = "70" }, "house_rules[0].size_mm" },
    { { .rule = FL_HOUSE_HEIGHT_MARGIN, .length = { -10, FL_UNIT_MM } }, "house_rules[0].length_mm" },
    { { .rule = FL_N_HOUSE_RULES }, "house_rules[0].rule" },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    check (&cases[i].rule, cases[i].path);
}

/* These loosen: refused at their path, and the book is not made. */
static void
test_loosening (void)
{
  const struct { FlHouseRule rule; const char *path; } cases[] = {
    { { .rule = FL_HOUSE_DECK_ANGLE_BAND, .lo_deg = 15, .hi_deg = 50 }, "house_rules[0].lo_deg" },
    { { .rule = FL_HOUSE_DECK_ANGLE_BAND, .lo_deg = 25, .hi_deg = 70 }, "house_rules[0].hi_deg" },
    { { .rule = FL_HOUSE_DECK_ANGLE_BAND, .lo_deg = 45, .hi_deg = 40 }, "house_rules[0].hi_deg" },
    { { .rule = FL_HOUSE_DECK_ANGLE_BAND, .lo_deg = NAN, .hi_deg = 40 }, "house_rules[0].lo_deg" },
    { { .rule = FL_HOUSE_EXTRA_AGGREGATE_PCT, .pct = -10 }, "house_rules[0].pct" },
    { { .rule = FL_HOUSE_WEIGHT_MARGIN_PCT, .pct = NAN }, "house_rules[0].pct" },
    { { .rule = FL_HOUSE_HEIGHT_MARGIN, .length = FL_IN (-3) }, "house_rules[0].length_in" },
    { { .rule = FL_HOUSE_OVER_WIDE_BLADE_REAR, .width = FL_IN (0) }, "house_rules[0].over_in" },
    { { .rule = FL_HOUSE_STAND_IN_RATING, .fitting = "string", .wll = FL_LB (5000) }, "house_rules[0].fitting" },
    { { .rule = FL_HOUSE_STAND_IN_RATING, .fitting = "lug", .wll = FL_LB (0) }, "house_rules[0].wll_lb" },
  };
  g_autoptr(FlBook) book = test_book ();

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr(FlProblems) problems = fl_problems_new ();
      FlPolicy policy = { &cases[i].rule, 1 };
      g_autoptr(FlBook) tightened = fl_book_tighten (book, &policy, problems);
      gboolean found = FALSE;

      g_assert_null (tightened);
      for (guint j = 0; j < fl_problems_count (problems); j++)
        found |= strcmp (fl_problems_at (problems, j)->path, cases[i].path) == 0
                 && fl_problems_at (problems, j)->severity == FL_SEVERITY_ERROR;
      g_assert_true (found);
      g_assert_null (fl_book_tighten (book, &policy, NULL));
    }
}

/* Of two alike only the first would be looked at; stand-in ratings go by fitting. */
static void
test_twice (void)
{
  const FlHouseRule twice[] = {
    { .rule = FL_HOUSE_MIN_WLL_EACH, .wll = FL_LB (5000) }, { .rule = FL_HOUSE_MIN_WLL_EACH, .wll = FL_LB (6000) },
  };
  const FlHouseRule fittings[] = {
    { .rule = FL_HOUSE_STAND_IN_RATING, .fitting = "lug", .wll = FL_LB (5000) },
    { .rule = FL_HOUSE_STAND_IN_RATING, .fitting = "loop", .wll = FL_LB (6000) },
  };
  g_autoptr(FlBook) book = test_book ();
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(FlBook) refused = fl_book_tighten (book, &(FlPolicy) { twice, 2 }, problems);
  g_autoptr(FlBook) taken = fl_book_tighten (book, &(FlPolicy) { fittings, 2 }, NULL);

  g_assert_null (refused);
  g_assert_cmpstr (fl_problems_at (problems, 0)->path, ==, "house_rules[1].rule");
  g_assert_nonnull (taken);
}

/* The tightened book outlives the policy and the book it was made from, and keeps its stamp. */
static void
test_outlives (void)
{
  g_autofree char *text = test_book_text ();
  g_autoptr(GBytes) bytes = g_bytes_new (text, strlen (text));
  FlBook *book = fl_book_new_from_json (bytes, NULL);   /* its own, so that its last reference goes below */
  g_autofree char *sha256 = g_strdup (fl_book_stamp (book).sha256), *grade = g_strdup ("70");
  FlHouseRule rule = { .rule = FL_HOUSE_MIN_CHAIN, .size_text = "3/8", .size_in = 0.375, .grade = grade };
  g_autoptr(FlBook) tightened = fl_book_tighten (book, &(FlPolicy) { &rule, 1 }, NULL);

  fl_book_unref (book);
  memset (&rule, 0, sizeof rule);
  *grade = 'x';
  g_assert_cmpstr (fl_book_stamp (tightened).sha256, ==, sha256);
  g_assert_cmpstr (fl_policy_rule (fl_book_policy (tightened), FL_HOUSE_MIN_CHAIN)->grade, ==, "70");
  g_assert_cmpfloat (fl_book_data (tightened)->heavy_weight, ==, 10000);
}

/* The chain allowance lengthens what a chain needs; a strap's need it leaves alone. */
static void
test_allowance (void)
{
  g_autoptr(FlBook) book = test_book ();
  FlHouseRule rule = { .rule = FL_HOUSE_CHAIN_ALLOWANCE, .length = { 1, FL_UNIT_FT } };
  g_autoptr(FlBook) tightened = fl_book_tighten (book, &(FlPolicy) { &rule, 1 }, NULL);
  FlEnd ends[2] = { { FL_HOOK_GRAB, FL_NOT_MEASURED, FL_NOT_MEASURED }, { FL_HOOK_GRAB, FL_NOT_MEASURED, FL_NOT_MEASURED } };

  g_assert_cmpfloat_with_epsilon (fl_chain_needs (tightened, 44.3, ends, NULL), fl_chain_needs (book, 44.3, ends, NULL) + 12, 1e-9);
  g_assert_cmpfloat_with_epsilon (fl_chain_needs (tightened, 44.3, NULL, NULL), fl_chain_needs (book, 44.3, NULL, NULL), 1e-9);
}

/* What nobody rated is not taken for stronger than the weakest of its kind that somebody did: the demo's weakest stake pocket has 5,000 lb
 * (T-01), its weakest eye 12,000 (LD-26); of its lugs none is rated. */
static void
test_stand_in_of_fleet (void)
{
  static const struct { const char *fitting; const char *wll; const char *path; } cases[] = {
    { "stake_pocket", "'wll_lb': 5000", NULL }, { "stake_pocket", "'wll_lb': 5001", "house_rules[0].wll_lb" },
    { "stake_pocket", "'wll_kg': 2268.1", "house_rules[0].wll_kg" }, { "eye", "'wll_lb': 12500", "house_rules[0].wll_lb" },
    { "lug", "'wll_lb': 50000", NULL },
  };
  g_autofree char *path = g_build_filename (g_getenv ("FAIRLEAD_DATA"), "demo", "fleet.json", NULL);

  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr(JsonNode) tree = tree_of_file (path);
      g_autofree char *rules = g_strdup_printf ("[{'rule': 'stand_in_rating', 'fitting': '%s', %s}]", cases[i].fitting, cases[i].wll);
      g_autoptr(FlBook) book = test_book ();
      g_autoptr(FlProblems) problems = fl_problems_new ();
      g_autoptr(GBytes) bytes = NULL;
      g_autoptr(FlFleet) fleet = NULL;

      tree_set (tree, "house_rules", rules);
      bytes = tree_bytes (tree);
      fleet = fl_fleet_new_from_json (bytes, problems);
      g_assert_nonnull (fleet);
      fl_book_survey (book, fleet, problems);
      test_print_problems (problems);
      g_assert_cmpuint (fl_problems_errors (problems), ==, cases[i].path == NULL ? 0 : 1);
      for (guint k = 0; k < fl_problems_count (problems); k++)
        if (fl_problems_at (problems, k)->severity == FL_SEVERITY_ERROR)
          g_assert_cmpstr (fl_problems_at (problems, k)->path, ==, cases[i].path);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/house/taken", test_taken);
  g_test_add_func ("/house/refused", test_refused);
  g_test_add_func ("/house/loosening", test_loosening);
  g_test_add_func ("/house/twice", test_twice);
  g_test_add_func ("/house/stand-in-of-fleet", test_stand_in_of_fleet);
  g_test_add_func ("/house/outlives", test_outlives);
  g_test_add_func ("/house/allowance", test_allowance);
  return test_done (g_test_run ());
}
