/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The card: its pages read back with pdftotext, its bytes compared. Paper sizes: ISO 216 (A4 210 x 297 mm), ANSI/ASME Y14.1 (Letter 8.5 x 11 in). */
#include <glib/gstdio.h>
#include <string.h>

#include "sample.h"

static const FlSignature signature = { "A. Dispatcher", "2026-11-25 05:41", "K7Q2-19XD" };
static const char *const spanish[] = {    /* in ascending order of the ids, as a .mo file has them */
  "Before the first chain", "Antes de la primera cadena",
  "Deck swept of rock, mud and ice", "Plataforma barrida de piedras, lodo y hielo",
  "Gear to take", "Equipo que llevar",
  "Loaded height", "Altura cargada",
  "Machine", "Máquina",
  "Signature", "Firma",
  "Tie-downs, in this order", "Amarres, en este orden",
  "chain", "cadena",
  "{load}: weight {weight}, need {need}, have {have}; weakest part {weakest}", "{load}: peso {weight}, hace falta {need}, hay {have}; parte más débil {weakest}",
};

static FlCard *
card_of (const Sample *sample, const FlCardOptions *options)
{
  g_autoptr(FlAssessment) assessment = sample_assessment (sample);
  g_autoptr(FlCardFont) font = sample_font ();

  return fl_card_new (assessment, font, options);
}

static void
write_card (FlCard *card, const char *path)
{
  g_autoptr(GError) error = NULL;
  const gboolean written = fl_cards_write_pdf (&card, 1, path, &error);

  g_assert_no_error (error);
  g_assert_true (written);
}

/* The words of a PDF's page (0: all) in the order in which they were set, each space single. NULL: there is no pdftotext. */
static char *
text_of (const char *path, guint page)
{
  g_autofree char *tool = g_find_program_in_path ("pdftotext"), *number = g_strdup_printf ("%u", page);
  char *whole[] = { tool, (char *) "-raw", (char *) "-enc", (char *) "UTF-8", (char *) path, (char *) "-", NULL };
  char *one[] = { tool, (char *) "-raw", (char *) "-enc", (char *) "UTF-8", (char *) "-f", number, (char *) "-l", number, (char *) path, (char *) "-", NULL };
  g_autoptr(GError) error = NULL;
  g_autofree char *out = NULL;
  GString *words;
  gint status;

  if (tool == NULL)
    return NULL;
  g_assert_true (g_spawn_sync (NULL, page > 0 ? one : whole, NULL, 0, NULL, NULL, &out, NULL, &status, &error));
  g_assert_no_error (error);
  g_assert_true (g_spawn_check_wait_status (status, NULL));
  words = g_string_new (NULL);
  for (const char *c = out; *c != '\0'; c++)
    if (!g_ascii_isspace (*c))
      g_string_append_c (words, *c);
    else if (words->len > 0 && words->str[words->len - 1] != ' ')
      g_string_append_c (words, ' ');
  return g_string_free (words, FALSE);
}

/* The words of all pages of a card; skips the test where they cannot be read. */
static char *
words_of (const Sample *sample, const FlCardOptions *options, guint page)
{
  g_autoptr(FlCard) card = card_of (sample, options);
  g_autofree char *path = sample_path ("words.pdf");
  char *words;

  write_card (card, path);
  words = text_of (path, page);
  if (words == NULL)
    g_test_skip ("pdftotext (poppler-utils) is not installed");
  return words;
}

static void
assert_has (const char *words, const char *part)
{
  if (strstr (words, part) == NULL)
    g_error ("\"%s\" does not stand in: %s", part, words);
}

static void
assert_lacks (const char *words, const char *part)
{
  if (strstr (words, part) != NULL)
    g_error ("\"%s\" stands in: %s", part, words);
}

/* ── pages and bytes ── */

static void
test_paper (void)
{
  g_autoptr(FlCard) letter = card_of (&(Sample) { 0 }, &(FlCardOptions) { .paper = FL_PAPER_LETTER }), a4 = card_of (&(Sample) { 0 }, &(FlCardOptions) { .paper = FL_PAPER_A4 });
  double width, height;

  g_assert_cmpuint (fl_card_pages (letter), ==, 2);
  g_assert_cmpuint (fl_card_pages (a4), ==, 2);
  fl_card_page_size (letter, &width, &height);
  g_assert_cmpfloat_with_epsilon (width, 612, 1e-9);
  g_assert_cmpfloat_with_epsilon (height, 792, 1e-9);
  fl_card_page_size (a4, &width, &height);
  g_assert_cmpfloat_with_epsilon (width, 210 / 25.4 * 72, 1e-9);
  g_assert_cmpfloat_with_epsilon (height, 297 / 25.4 * 72, 1e-9);
}

static void
test_same_bytes (void)
{
  char *paths[] = { sample_path ("one.pdf"), sample_path ("two.pdf") }, *bytes[2];
  gsize lengths[2];
  FlCardOptions options = { .signature = &signature };

  for (guint i = 0; i < 2; i++)
    {
      g_autoptr(FlCard) card = card_of (&(Sample) { .cautions = 2 }, &options);

      write_card (card, paths[i]);
      g_assert_true (g_file_get_contents (paths[i], &bytes[i], &lengths[i], NULL));
    }
  g_assert_cmpmem (bytes[0], lengths[0], bytes[1], lengths[1]);
  g_assert_cmpint (strncmp (bytes[0], "%PDF-1.", 7), ==, 0);
  assert_has (bytes[0] + lengths[0] - 8, "%%EOF");
  for (guint i = 0; i < 2; i++)
    {
      g_free (paths[i]);
      g_free (bytes[i]);
    }
}

/* The margins stay white and something of every page is black, however much has to go on the card. */
static void
assert_pages_good (const FlCard *card)
{
  for (guint page = 0; page < fl_card_pages (card); page++)
    {
      cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 612, 792);
      cairo_t *cr = cairo_create (surface);
      guint margin = 0, black = 0;

      cairo_set_source_rgb (cr, 1, 1, 1);
      cairo_paint (cr);
      fl_card_draw_page (card, page, cr);
      g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
      cairo_destroy (cr);
      cairo_surface_flush (surface);
      for (gint y = 0; y < 792; y++)
        for (gint x = 0; x < 612; x++)
          {
            const guchar *at = cairo_image_surface_get_data (surface) + y * cairo_image_surface_get_stride (surface) + 4 * x;

            margin += (x < 20 || x >= 592 || y < 20 || y >= 772) && at[0] < 250 ? 1 : 0;
            black += at[0] < 40 ? 1 : 0;
          }
      cairo_surface_destroy (surface);
      g_assert_cmpuint (margin, ==, 0);
      g_assert_cmpuint (black, >, 500);
    }
}

static void
test_draws_every_page (void)
{
  static const Sample samples[] = {
    { 0 }, { .tie_downs = 32 }, { .articles = 3 }, { .articles = 9, .tie_downs = 32, .shortfalls = 40, .cautions = 30 }, { .unplaced = TRUE }, { .no_trailer = TRUE },
    { .articles = 30, .tie_downs = 9 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (samples); i++)
    {
      g_autoptr(FlCard) card = card_of (&samples[i], &(FlCardOptions) { 0 });

      assert_pages_good (card);
    }
}

/* ── what stands on it ── */

static void
test_example (void)
{
  g_autofree char *words = words_of (&(Sample) { 0 }, &(FlCardOptions) { 0 }, 0);
  static const char *const parts[] = {
    "R-03", "T-3", "K-2", "12 ft 11 in", "computed, measure:", "DRAFT", "2026-11-25 06:30", "A. Driver", "North yard", "Tern Lane culvert",
    "R-03: weight 22,000 lb, need 11,000 lb, have 13,200 lb; weakest part chain C-041", "C-041", "C-045", "B-11", "B-15", "5 × chain 3/8 grade 70, 16 ft",
    "pocket 11 from the rear, right", "rear frame loop, left", "for the leveling blade", "half 3,300", "no count", "10 in of deck behind it, 3 ft 8 in of deck ahead of it",
    "8 ft 6 in", "60 ft 8 in", "54,200 lb", "14,115", "Articulation lock bar and pin in place, its pin and keeper too", "Leveling blade down and held by no. 5",
    "Stop and look within 50 mi, then at each change of duty, every 3 h or 150 mi", "Signature", "A competent person at the truck decides",
    "US federal cargo securement, 49 CFR part 393 subpart I, edition 2026-10", "page 1 of 2", "page 2 of 2",
  };

  for (gsize i = 0; words != NULL && i < G_N_ELEMENTS (parts); i++)
    assert_has (words, parts[i]);
}

static void
test_signed (void)
{
  g_autofree char *words = words_of (&(Sample) { .measured = TRUE }, &(FlCardOptions) { .signature = &signature }, 0);

  if (words == NULL)
    return;
  assert_lacks (words, "DRAFT");
  assert_lacks (words, "computed, measure:");
  assert_has (words, "Signed by A. Dispatcher, 2026-11-25 05:41, code K7Q2-19XD");
}

/* What may not be driven by never looks signed, whatever signature is handed in, and says first why. */
static void
test_not_to_be_used (void)
{
  static const struct { Sample sample; const char *state, *why; } cards[] = {
    { { .shortfalls = 2 }, "DRAFT - NOT COMPLIANT", "Shortfall 2: 11,000 lb are needed for load R-03, there are 9,900 lb." },
    { { .unknown = TRUE }, "DRAFT - INCOMPLETE", "The axle loads are not known" },
    { { .house_short = TRUE }, "DRAFT - HOUSE RULE NOT MET", "The house asks for more than tie-down 5 has." },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (cards); i++)
    {
      g_autofree char *front = words_of (&cards[i].sample, &(FlCardOptions) { .signature = &signature }, 1);
      g_autofree char *back = words_of (&cards[i].sample, &(FlCardOptions) { .signature = &signature }, 2);

      if (front == NULL || back == NULL)
        return;
      assert_has (front, cards[i].state);
      assert_has (back, cards[i].state);
      assert_has (front, "Do not load or drive by this sheet.");
      assert_has (front, cards[i].why);
      assert_lacks (front, "Signed by");
      g_assert_true (strstr (front, cards[i].why) < strstr (front, "Gear to take"));
    }
}

static void
test_many_shortfalls (void)
{
  g_autofree char *words = words_of (&(Sample) { .shortfalls = 120 }, &(FlCardOptions) { 0 }, 0);

  for (guint i = 1; words != NULL && i <= 120; i++)
    {
      g_autofree char *part = g_strdup_printf ("Shortfall %u:", i);

      assert_has (words, part);
    }
}

static void
test_cautions (void)
{
  g_autofree char *words = words_of (&(Sample) { .cautions = 3, .acknowledged = 1 }, &(FlCardOptions) { 0 }, 0);

  if (words == NULL)
    return;
  assert_has (words, "Look at before you drive");
  assert_has (words, "anchor row 1");
  assert_has (words, "Acknowledged: looked at in the yard, all hooks seat");
  assert_has (words, "anchor row 3");
}

/* Cautions that do not fit on the front are pointed to from there. */
static void
test_pointer (void)
{
  g_autofree char *front = words_of (&(Sample) { .cautions = 20 }, &(FlCardOptions) { 0 }, 1), *all = words_of (&(Sample) { .cautions = 20 }, &(FlCardOptions) { 0 }, 0);

  if (front == NULL || all == NULL)
    return;
  assert_has (front, "20 to look at before you drive: see the other side");
  assert_has (all, "anchor row 20");
}

static void
test_many_tie_downs (void)
{
  const Sample sample = { .tie_downs = 32 };
  g_autoptr(FlCard) card = card_of (&sample, &(FlCardOptions) { 0 });
  g_autofree char *words = words_of (&sample, &(FlCardOptions) { 0 }, 0), *third = words_of (&sample, &(FlCardOptions) { 0 }, 3);

  g_assert_cmpuint (fl_card_pages (card), >, 2);
  if (words == NULL || third == NULL)
    return;
  assert_has (words, "to 32 stand on page 3 and after.");
  assert_has (third, "C-120");
  assert_has (third, "DRAFT");
  for (guint i = 105; i < 132; i++)
    {
      g_autofree char *chain = g_strdup_printf ("C-%u", i), *binder = g_strdup_printf ("B-%u", i);

      assert_has (words, chain);
      assert_has (words, binder);
    }
}

/* Eight tie-downs still are one sheet. */
static void
test_one_sheet (void)
{
  for (gint n = -1; n <= 8; n++)
    {
      g_autoptr(FlCard) card = card_of (&(Sample) { .tie_downs = n }, &(FlCardOptions) { 0 });

      g_assert_cmpuint (fl_card_pages (card), ==, 2);
    }
}

static void
test_odd_plans (void)
{
  g_autofree char *unplaced = words_of (&(Sample) { .unplaced = TRUE }, &(FlCardOptions) { 0 }, 0);
  g_autofree char *none = words_of (&(Sample) { .tie_downs = -1 }, &(FlCardOptions) { 0 }, 0);
  g_autofree char *lost = words_of (&(Sample) { .no_trailer = TRUE }, &(FlCardOptions) { 0 }, 0);
  g_autofree char *two = words_of (&(Sample) { .articles = 1 }, &(FlCardOptions) { 0 }, 0);
  g_autofree char *any = words_of (&(Sample) { .counted_chain = TRUE }, &(FlCardOptions) { 0 }, 0);
  g_autofree char *metric = words_of (&(Sample) { .metric = TRUE }, &(FlCardOptions) { 0 }, 0);

  if (unplaced == NULL)
    return;
  assert_has (unplaced, "no place on the deck yet");
  assert_has (none, "No tie-downs are chosen yet.");
  assert_has (lost, "T-99");
  assert_has (two, "R-03 + A-1");
  assert_has (two, "A-1: weight 1,400 lb, need 700 lb, have 0 lb");
  assert_has (any, "any 3/8 x 20 unmarked");
  assert_has (any, "1 × any 3/8 x 20 unmarked C-3/8-20");
  assert_has (metric, "3.94 m");
}

static void
test_second_language (void)
{
  g_autoptr(FlWords) words = sample_words (spanish, G_N_ELEMENTS (spanish) / 2);
  g_autofree char *both = words_of (&(Sample) { 0 }, &(FlCardOptions) { .second = words }, 0);
  g_autofree char *spanish_alone = words_of (&(Sample) { 0 }, &(FlCardOptions) { .words = words }, 0);
  g_autofree char *english = words_of (&(Sample) { 0 }, &(FlCardOptions) { 0 }, 0);

  if (both == NULL)
    return;
  for (gsize i = 0; i < G_N_ELEMENTS (spanish) - 2; i += 2)
    {
      assert_has (both, spanish[i]);
      assert_has (both, spanish[i + 1]);
      assert_lacks (english, spanish[i + 1]);
      assert_has (spanish_alone, spanish[i + 1]);
    }
  assert_has (both, "R-03: peso 22,000 lb, hace falta 11,000 lb, hay 13,200 lb; parte más débil cadena C-041");
}

static void
test_several_cards (void)
{
  g_autoptr(FlCard) first = card_of (&(Sample) { 0 }, &(FlCardOptions) { 0 }), second = card_of (&(Sample) { .articles = 1 }, &(FlCardOptions) { .paper = FL_PAPER_A4 });
  FlCard *const cards[] = { first, second };
  g_autofree char *path = sample_path ("both.pdf"), *words = NULL;
  g_autoptr(GError) error = NULL;

  g_assert_true (fl_cards_write_pdf (cards, 2, path, &error));
  g_assert_no_error (error);
  words = text_of (path, 0);
  if (words == NULL)
    return;
  assert_has (words, "R-03: weight");
  assert_has (words, "A-1: weight");
}

/* ── what goes wrong ── */

static void
test_not_written (void)
{
  g_autoptr(FlCard) card = card_of (&(Sample) { 0 }, &(FlCardOptions) { 0 });
  g_autofree char *folder = sample_path ("taken.pdf"), *inside = g_build_filename (folder, "card.pdf", NULL), *nowhere = sample_path ("no/such/card.pdf");
  const char *const paths[] = { folder, nowhere };

  g_assert_cmpint (g_mkdir (folder, 0700), ==, 0);
  for (gsize i = 0; i < G_N_ELEMENTS (paths); i++)
    {
      g_autoptr(GError) error = NULL;

      g_assert_false (fl_cards_write_pdf (&card, 1, paths[i], &error));
      g_assert_error (error, FL_CARD_ERROR, FL_CARD_ERROR_WRITE);
      assert_has (error->message, paths[i]);
    }
  write_card (card, inside);                  /* nothing was left half done */
}

static void
test_fonts (void)
{
  g_autofree char *empty = sample_path ("empty"), *broken = sample_path ("broken"), *file = g_build_filename (broken, "Font.otf", NULL), *missing = sample_path ("missing");
  const char *const folders[] = { missing, empty, broken };

  g_assert_cmpint (g_mkdir (empty, 0700), ==, 0);
  g_assert_cmpint (g_mkdir (broken, 0700), ==, 0);
  g_assert_true (g_file_set_contents (file, "no font", -1, NULL));
  for (gsize i = 0; i < G_N_ELEMENTS (folders); i++)
    {
      g_autoptr(GError) error = NULL;

      g_assert_null (fl_card_font_load (folders[i], &error));
      g_assert_error (error, FL_CARD_ERROR, FL_CARD_ERROR_FONT);
      assert_has (error->message, folders[i]);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/card/paper", test_paper);
  g_test_add_func ("/card/same-bytes", test_same_bytes);
  g_test_add_func ("/card/draws-every-page", test_draws_every_page);
  g_test_add_func ("/card/example", test_example);
  g_test_add_func ("/card/signed", test_signed);
  g_test_add_func ("/card/not-to-be-used", test_not_to_be_used);
  g_test_add_func ("/card/many-shortfalls", test_many_shortfalls);
  g_test_add_func ("/card/cautions", test_cautions);
  g_test_add_func ("/card/pointer", test_pointer);
  g_test_add_func ("/card/many-tie-downs", test_many_tie_downs);
  g_test_add_func ("/card/one-sheet", test_one_sheet);
  g_test_add_func ("/card/odd-plans", test_odd_plans);
  g_test_add_func ("/card/second-language", test_second_language);
  g_test_add_func ("/card/several-cards", test_several_cards);
  g_test_add_func ("/card/not-written", test_not_written);
  g_test_add_func ("/card/fonts", test_fonts);
  return g_test_run ();
}
