/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a piece of gear is worth: which of tag, mark, width and weakest part decides, and what puts it out of use. The table's own
 * values are checked in tests/published. */
#include "fl-test-book.h"

#include <math.h>


static FlRating
found_on_chain (const FlBook *book, const char *finding)
{
  g_autofree char *more = test_found (finding);

  return rated_chain (book, "3/8", more);
}

static FlRating
rate (const FlBook *book, FlKind kind, const char *json)
{
  return fl_rate_record (book, test_record (kind, json));
}

static const FlFact *
fact (const FlRating *rating, const char *key)
{
  for (guint i = 0; i < rating->n_facts; i++)
    if (strcmp (rating->facts[i].key, key) == 0)
      return &rating->facts[i];
  return NULL;
}

/* Every hole of the message has its fact. */
static void
check_words (FlRating rating)
{
  g_autofree char *text = fl_words_message (NULL, rating.message, rating.facts, rating.n_facts, FALSE);

  g_test_message ("%s", text);
  g_assert_true (*text != '\0');
  g_assert_null (strchr (text, '{'));
  g_assert_nonnull (rating.citation);
}

/* ── chain ── */

static void
test_tag (void)
{
  g_autoptr(FlBook) book = test_book ();
  FlRating rating = rated_chain (book, "3/8", "'mark': '70', 'tag_wll_lb': 7100, 'tag_legible': true");

  /* A marking that differs from the table wins either way: 49 CFR 393.108(b). */
  test_worth (rating, 7100);
  g_assert_cmpstr (rating.limited_by, ==, "tag");
  g_assert_cmpfloat (rating.breaking, ==, 4 * 7100.0);      /* NACM: grade 70 breaks at four times its limit */
  test_worth (rated_chain (book, "3/8", "'mark': '70', 'tag_wll_lb': 6000, 'tag_legible': true"), 6000);
  test_worth (rated_chain (book, "3/4", "'mark': '70', 'tag_wll_lb': 24700, 'tag_legible': true"), 24700);
  rating = rated_chain (book, "3/8", "'tag_lc_dan': 3000, 'tag_legible': true");
  g_assert_cmpfloat_with_epsilon (fl_quantity_in (rating.wll, FL_UNIT_LB), 3000 * 10 / 9.80665 / 0.45359237, 1e-9);
  g_assert_true (isnan (rating.breaking));                  /* nobody knows the grade */
  /* Not legible, or nobody looked: the mark; no mark: grade 30. */
  test_worth (rated_chain (book, "3/8", "'mark': '70', 'tag_wll_lb': 7100, 'tag_legible': false"), 6600);
  test_worth (rated_chain (book, "3/8", "'mark': '70', 'tag_wll_lb': 7100"), 6600);
  test_worth (rated_chain (book, "3/8", "'mark': null, 'tag_wll_lb': 7100, 'tag_legible': false"), 2650);
}

static void
test_mark (void)
{
  g_autoptr(FlBook) book = test_book ();
  FlRating marked = rated_chain (book, "3/8", "'mark': '70'"), unmarked = rated_chain (book, "3/8", "'mark': null");
  FlRating unseen = rated_chain (book, "3/8", NULL);

  test_worth (marked, 6600);
  g_assert_cmpstr (marked.grade, ==, "70");
  g_assert_cmpstr (marked.limited_by, ==, "mark");
  test_worth (unmarked, 2650);
  g_assert_cmpstr (unmarked.grade, ==, "30");
  g_assert_cmpstr (unmarked.citation, ==, "49 CFR 393.108(d)");
  test_worth (unseen, 2650);
  g_assert_true (unseen.assumed);
  g_assert_cmpfloat (rated_chain (book, "3/8", "'mark': '43'").breaking, ==, 3 * 5400.0);   /* NACM: grade 43 at three times */
}

/* No cell of the table and no tag: unknown, never a guess. */
static void
test_not_in_table (void)
{
  g_autoptr(FlBook) book = test_book ();

  test_unknown (rated_chain (book, "7/16", "'mark': '80'"));
  test_unknown (rated_chain (book, "3/4", "'mark': '70'"));
  test_unknown (rated_chain (book, "3/8", "'mark': '77'"));
  test_worth (rated_chain (book, "7/16", "'mark': '80', 'tag_wll_lb': 9000, 'tag_legible': true"), 9000);
  check_words (rated_chain (book, "7/16", "'mark': '80'"));
  check_words (rated_chain (book, "3/4", "'mark': null"));
  check_words (rated_chain (book, "3/8", "'mark': '77'"));
}

static void
test_hooks (void)
{
  g_autoptr(FlBook) book = test_book ();
  FlRating rating = rated_chain (book, "3/8", "'mark': '70', 'hook_wll_lb': 5400");

  test_worth (rating, 5400);
  g_assert_cmpstr (rating.limited_by, ==, "hook");
  g_assert_cmpfloat (fact (&rating, "chain_wll")->quantity.value, ==, 6600);
  test_worth (rated_chain (book, "3/8", "'mark': '70', 'hook_wll_lb': 9000"), 6600);
  rating = rated_chain (book, "3/8", "'mark': '70', 'hook_wll_lb': null");
  test_worth (rating, 2650);                                /* looked at, unmarked: grade 30 of the chain's size */
  check_words (rating);
  g_assert_true (rated_chain (book, "3/8", "'mark': '70'").assumed);
  g_assert_false (rated_chain (book, "3/8", "'mark': '70', 'hook_wll_lb': 6600").assumed);
  /* The weaker of two different ends; a weaker hook in kilograms. */
  test_worth (rated_chain (book, "3/8", "'mark': '70', 'ends': [{'hook': 'grab', 'wll_lb': 6600}, {'hook': 'slip', 'wll_lb': 6000}]"), 6000);
  rating = rated_chain (book, "3/8", "'mark': '70', 'hook_wll_kg': 1000");
  g_assert_true (rating.wll.unit == FL_UNIT_KG && rating.wll.value == 1000);
}

static void
test_damage (void)
{
  static const char *const out[] = { "cracked", "bent", "twisted", "stretched", "worn", "welded", "knotted" };
  static const char *const refused[] = { "clevis_pin_missing", "half_clevis", "bolt", "lap_link", "cold_shut", "quick_link", "wire" };
  g_autoptr(FlBook) book = test_book ();

  for (gsize i = 0; i < G_N_ELEMENTS (out); i++)
    {
      g_autofree char *finding = g_strdup_printf ("'kind': '%s'", out[i]);
      FlRating rating = found_on_chain (book, finding);

      test_out (rating);
      check_words (rating);
      g_assert_cmpstr (fact (&rating, "date")->text, ==, "2026-03-02");
      g_assert_cmpstr (rating.citation, ==, "49 CFR 393.104(b)");
    }
  for (gsize i = 0; i < G_N_ELEMENTS (refused); i++)
    {
      g_autofree char *finding = g_strdup_printf ("'kind': 'repair', 'repair_link': '%s'", refused[i]);
      FlRating rating = found_on_chain (book, finding);

      test_out (rating);
      check_words (rating);
      g_assert_cmpstr (rating.citation, ==, "49 CFR 393.104(f)(2)");
    }
}

static void
test_repair (void)
{
  g_autoptr(FlBook) book = test_book ();
  FlRating weak = rated_chain (book, "3/8", "'mark': '70', 'inspections': [{'date': '2026-03-02', 'findings': ["
                              "{'kind': 'repair', 'repair_link': 'clevis', 'wll_lb': 5000},"
                              "{'kind': 'repair', 'repair_link': 'double_clevis', 'wll_lb': 4000}]}]");

  test_worth (weak, 4000);
  g_assert_cmpstr (weak.limited_by, ==, "repair link");
  check_words (weak);
  test_worth (rated_chain (book, "3/8", "'mark': '70', 'inspections': [{'date': '2026-03-02', 'findings': ["
                          "{'kind': 'repair', 'repair_link': 'clevis'}]}]"), 6600);
  /* One accepted link does not cover a bent one. */
  test_out (rated_chain (book, "3/8", "'mark': '70', 'inspections': [{'date': '2026-03-02', 'findings': ["
                        "{'kind': 'repair', 'repair_link': 'clevis'}, {'kind': 'bent'}]}]"));
}

/* The newest inspection counts, whatever the order in the record. */
static void
test_newest (void)
{
  g_autoptr(FlBook) book = test_book ();

  test_worth (rated_chain (book, "3/8", "'mark': '70', 'inspections': [{'date': '2026-03-02', 'findings': []},"
                          "{'date': '2025-03-02', 'findings': [{'kind': 'bent'}]}]"), 6600);
  test_out (rated_chain (book, "3/8", "'mark': '70', 'inspections': [{'date': '2025-03-02', 'findings': []},"
                        "{'date': '2026-03-02', 'findings': [{'kind': 'bent'}]}]"));
}

static void
test_metric_chain (void)
{
  g_autoptr(FlBook) book = test_book ();

  test_worth (rate (book, FL_KIND_CHAIN, "{'id': 'C', 'kept_at': 'Y', 'size_mm': 10, 'length_m': 6, 'mark': '80'}"), 7100);
  test_unknown (rate (book, FL_KIND_CHAIN, "{'id': 'C', 'kept_at': 'Y', 'size_mm': 9, 'length_m': 6, 'mark': '80'}"));
}

/* Words for each way to a value. */
static void
test_words (void)
{
  g_autoptr(FlBook) book = test_book ();
  static const char *const more[] = {
    "'mark': '70'", "'mark': null", NULL, "'mark': '70', 'tag_wll_lb': 7100, 'tag_legible': true",
    "'mark': '70', 'tag_legible': false", "'mark': null, 'tag_wll_lb': 7100, 'tag_legible': false", "'mark': '70', 'hook_wll_lb': 5400",
  };
  g_autofree char *unmarked = NULL;
  FlRating rating;

  for (gsize i = 0; i < G_N_ELEMENTS (more); i++)
    check_words (rated_chain (book, "3/8", more[i]));
  rating = rated_chain (book, "3/8", "'mark': null");
  unmarked = fl_words_message (NULL, rating.message, rating.facts, rating.n_facts, FALSE);
  g_assert_cmpstr (unmarked, ==, "no mark: counts as grade 30, 2,650 lb");
}

/* ── binder ── */

static void
test_binder (void)
{
  g_autoptr(FlBook) book = test_book ();
  FlRating rating = rate (book, FL_KIND_BINDER, "{'id': 'B', 'kept_at': 'Y', 'wll_lb': 5400, 'chain_sizes': ['5/16', '3/8']}");

  test_worth (rating, 5400);
  check_words (rating);
  rating = rate (book, FL_KIND_BINDER, "{'id': 'B', 'kept_at': 'Y', 'wll_lb': null, 'chain_sizes': ['3/8', '5/16']}");
  test_worth (rating, 1900);                                /* grade 30 of the smallest size it fits */
  check_words (rating);
  test_unknown (rate (book, FL_KIND_BINDER, "{'id': 'B', 'kept_at': 'Y', 'chain_sizes': ['5/16', '3/8']}"));
  test_unknown (rate (book, FL_KIND_BINDER, "{'id': 'B', 'kept_at': 'Y', 'wll_lb': null, 'chain_sizes': ['3/4']}"));
}

static void
test_binder_damage (void)
{
  static const char *const kinds[] = { "bent", "cracked", "handle", "hook_spread" };
  g_autoptr(FlBook) book = test_book ();

  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      g_autofree char *finding = g_strdup_printf ("'kind': '%s'", kinds[i]), *found = test_found (finding);
      g_autofree char *json = g_strdup_printf ("{'id': 'B', 'kept_at': 'Y', 'wll_lb': 5400, 'chain_sizes': ['3/8'], %s}", found);
      FlRating rating = rate (book, FL_KIND_BINDER, json);

      test_out (rating);
      check_words (rating);
    }
}

/* ── strap ── */

static void
test_strap_value (void)
{
  g_autoptr(FlBook) book = test_book ();
  FlRating rating = rated_strap (book, "'width_in': 4", "'tag_wll_lb': 5400, 'tag_legible': true");

  test_worth (rating, 5400);
  g_assert_cmpfloat (rating.breaking, ==, 3 * 5400.0);      /* WSTDA-T1: at most a third of what breaks it */
  rating = rated_strap (book, "'width_in': 4", "'tag_wll_lb': 5400, 'tag_legible': false");
  test_worth (rating, 4000);
  g_assert_cmpstr (rating.limited_by, ==, "width");
  check_words (rating);
  test_worth (rated_strap (book, "'width_mm': 50", NULL), 2000);
  test_unknown (rated_strap (book, "'width_in': 1", NULL));
  check_words (rated_strap (book, "'width_in': 1", NULL));
  test_worth (rated_strap (book, "'width_in': 1", "'tag_wll_lb': 500, 'tag_legible': true"), 500);
  test_worth (rated_strap (book, "'width_in': 4", "'ends': [{'hook': 'slip', 'wll_lb': 3500}, {'hook': 'slip'}]"), 3500);
}

static FlRating
cut_strap (const FlBook *book, const char *findings)
{
  g_autofree char *more = g_strdup_printf ("'inspections': [{'date': '2026-03-02', 'findings': [%s]}]", findings);

  return rated_strap (book, "'width_in': 4", more);
}

/* At the limit in use, over it out; cuts, wear and burns add up across the width. State training slides: 4 in, over 3/4 in. */
static void
test_strap_damage (void)
{
  g_autoptr(FlBook) book = test_book ();
  FlRating rating = cut_strap (book, "{'kind': 'cut', 'size_in': 0.76}");

  test_out (rating);
  check_words (rating);
  test_worth (cut_strap (book, "{'kind': 'cut', 'size_in': 0.75}"), 4000);
  test_worth (cut_strap (book, "{'kind': 'cut', 'size_in': 0.25}, {'kind': 'worn', 'size_in': 0.25}, {'kind': 'burned', 'size_in': 0.25}"),
              4000);
  test_out (cut_strap (book, "{'kind': 'cut', 'size_in': 0.5}, {'kind': 'burned', 'size_mm': 7}"));
  test_out (cut_strap (book, "{'kind': 'cut'}"));           /* nobody measured it */
  check_words (cut_strap (book, "{'kind': 'cut'}"));
  test_out (cut_strap (book, "{'kind': 'knotted'}"));
  test_out (cut_strap (book, "{'kind': 'stitching'}"));
  test_out (cut_strap (book, "{'kind': 'fitting'}"));
  test_out (cut_strap (book, "{'kind': 'cut', 'size_in': 0.1}, {'kind': 'knotted'}"));
}

/* A width for which the book knows no limit: any damage is too much. */
static void
test_strap_no_limit (void)
{
  g_autoptr(FlBook) book = test_book ();

  test_out (rated_strap (book, "'width_in': 1", "'tag_wll_lb': 500, 'tag_legible': true, 'inspections': [{'date': '2026-03-02', "
                        "'findings': [{'kind': 'cut', 'size_in': 0.01}]}]"));
}

/* ── connectors ── */

static void
test_connector (void)
{
  g_autoptr(FlBook) book = test_book ();

  test_worth (rate (book, FL_KIND_CONNECTOR, "{'id': 'K', 'kept_at': 'Y', 'kind': 'shackle', 'wll_lb': 6500}"), 6500);
  test_out (rate (book, FL_KIND_CONNECTOR, "{'id': 'K', 'kept_at': 'Y', 'kind': 'shackle', 'wll_lb': 6500, "
                  "'inspections': [{'date': '2026-03-02', 'findings': [{'kind': 'bent'}]}]}"));
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/rating/chain/tag", test_tag);
  g_test_add_func ("/rating/chain/mark", test_mark);
  g_test_add_func ("/rating/chain/not-in-table", test_not_in_table);
  g_test_add_func ("/rating/chain/hooks", test_hooks);
  g_test_add_func ("/rating/chain/damage", test_damage);
  g_test_add_func ("/rating/chain/repair", test_repair);
  g_test_add_func ("/rating/chain/newest", test_newest);
  g_test_add_func ("/rating/chain/metric", test_metric_chain);
  g_test_add_func ("/rating/chain/words", test_words);
  g_test_add_func ("/rating/binder/value", test_binder);
  g_test_add_func ("/rating/binder/damage", test_binder_damage);
  g_test_add_func ("/rating/strap/value", test_strap_value);
  g_test_add_func ("/rating/strap/damage", test_strap_damage);
  g_test_add_func ("/rating/strap/no-limit", test_strap_no_limit);
  g_test_add_func ("/rating/connector", test_connector);
  return test_done (g_test_run ());
}
