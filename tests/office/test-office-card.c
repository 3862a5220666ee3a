/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words, card names, and a card through the office. */
#include "fl-places.h"
#include "fl-test-office.h"

static void
expect_name (const char *move, const char *name)
{
  g_autofree char *made = fl_office_card_name (move);

  g_assert_cmpstr (made, ==, name);
}

/* No separator of any system stays, and no name is hidden or climbs. */
static void
names_of_cards (void)
{
  expect_name ("2026-11-25/01", "2026-11-25-01.pdf");
  expect_name ("a\\b:c d", "a-b-c-d.pdf");
  expect_name ("../../x", "-.-..-x.pdf");
  expect_name (".x", "-x.pdf");
  expect_name ("caño 3", "caño-3.pdf");
}

static void
languages_without_a_catalog_are_english (void)
{
  static const char *const none[] = { NULL, "", "en", "en-GB", "en_US", "xx", "../es", "/etc", "e s", "-es" };
  g_autoptr(FlOffice) office = open_example ();

  for (gsize i = 0; i < G_N_ELEMENTS (none); i++)
    {
      g_assert_null (fl_office_words (office, none[i]));
      g_assert_null (fl_office_words (office, none[i]));        /* asked again, the same answer */
    }
}

static void
a_language_with_a_catalog (void)
{
  g_autoptr(FlOffice) office = open_example ();
  g_autofree char *catalog = fl_places_words_file ("es");

  if (!g_file_test (catalog, G_FILE_TEST_EXISTS))
    {
      g_test_skip ("no Spanish catalog is built");
      return;
    }
  g_assert_nonnull (fl_office_words (office, "es"));
  g_assert_true (fl_office_words (office, "es") == fl_office_words (office, "es"));
  g_assert_nonnull (fl_office_words (office, "es-MX"));         /* the land is not there, its language is */
}

/* The PDF of the example's card. */
static char *
card_bytes (FlPaper paper, gsize *length)
{
  g_autoptr(TestFolder) folder = folder_new ();
  g_autofree char *path = g_build_filename (folder, "card.pdf", NULL);
  g_autoptr(FlOffice) office = open_example ();
  g_autoptr(FlPlan) plan = example_plan ();
  g_autoptr(GError) error = NULL;
  g_autoptr(FlAssessment) assessment = NULL;
  g_autoptr(FlCard) card = NULL;
  double width, height;
  char *bytes = NULL;

  fl_office_set_plan (office, "2026-11-25/01", plan);
  assessment = fl_office_assess (office, "2026-11-25/01", &error);
  card = fl_office_card (office, assessment, paper, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (fl_card_pages (card), >=, 2);
  fl_card_page_size (card, &width, &height);
  /* 8.5 by 11 in and 210 by 297 mm (ISO 216) in points of 1/72 in, to the nearest. */
  g_assert_cmpfloat_with_epsilon (width, paper == FL_PAPER_A4 ? 595.0 : 612.0, 0.5);
  g_assert_cmpfloat_with_epsilon (height, paper == FL_PAPER_A4 ? 842.0 : 792.0, 0.5);
  g_assert_true (fl_cards_write_pdf (&card, 1, path, &error));
  g_assert_no_error (error);
  g_assert_true (g_file_get_contents (path, &bytes, length, &error));
  return bytes;
}

static void
a_card_is_the_same_twice (void)
{
  gsize length, again_length;
  g_autofree char *card = card_bytes (FL_PAPER_LETTER, &length), *again = card_bytes (FL_PAPER_LETTER, &again_length);

  g_assert_true (g_str_has_prefix (card, "%PDF-"));
  g_assert_cmpmem (card, length, again, again_length);
}

static void
a_card_on_the_other_paper (void)
{
  gsize length;
  g_autofree char *card = card_bytes (FL_PAPER_A4, &length);

  g_assert_true (g_str_has_prefix (card, "%PDF-"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/office-card/names-of-cards", names_of_cards);
  g_test_add_func ("/office-card/languages-without-a-catalog-are-english", languages_without_a_catalog_are_english);
  g_test_add_func ("/office-card/a-language-with-a-catalog", a_language_with_a_catalog);
  g_test_add_func ("/office-card/a-card-is-the-same-twice", a_card_is_the_same_twice);
  g_test_add_func ("/office-card/a-card-on-the-other-paper", a_card_on_the_other_paper);
  return g_test_run ();
}
