/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The loader of rule books: the shipped one is whole, each kind of broken one is refused where it is broken; and the look-ups. */
#include "fl-test-book.h"

#include <math.h>

/* The blocks without which nothing can be judged; typed here, not read from the loader. */
static const char *const blocks[] = {
  "gravity", "chain", "webbing", "webbing_damage", "damage", "breaking", "shares", "heavy", "sections", "count", "load_cases", "up",
  "all_directions", "near", "friction", "rolling", "mats", "angles", "lengths", "binders", "couplings", "coupling_shares", "legal",
  "bridge", "projecting", "steering", "height", "recheck", "cautions", "walk_round", "citations",
};

static FlBook *
load (const char *text, FlProblems *problems)
{
  g_autoptr(GBytes) bytes = g_bytes_new (text, strlen (text));

  return fl_book_new_from_json (bytes, problems);
}

/* The first error at a path; NULL if there is none. */
static const FlProblem *
error_at (const FlProblems *problems, const char *path)
{
  for (guint i = 0; i < fl_problems_count (problems); i++)
    {
      const FlProblem *problem = fl_problems_at (problems, i);

      if (problem->severity == FL_SEVERITY_ERROR && strcmp (problem->path, path) == 0)
        return problem;
    }
  return NULL;
}

/* Line of the first place of `part` in `text`, 1-based. */
static guint
line_of (const char *text, const char *part)
{
  const char *end = strstr (text, part);
  guint line = 1;

  for (const char *at = text; at < end; at++)
    line += *at == '\n';
  return line;
}

/* ── whole ── */

static void
test_whole (void)
{
  g_autoptr(FlBook) book = test_book ();
  const FlBookData *data = fl_book_data (book);
  FlBookStamp stamp = fl_book_stamp (book);

  g_assert_cmpstr (stamp.id, ==, "us-49cfr393");
  g_assert_cmpuint (strlen (stamp.sha256), ==, 64);
  g_assert_true (data->unit == FL_UNIT_LB);
  g_assert_cmpuint (data->n_grades, ==, 5);
  g_assert_cmpuint (data->n_chain, ==, 6);
  g_assert_cmpuint (data->n_webbing, ==, 4);
  g_assert_cmpuint (data->n_cases, ==, 4);
  g_assert_cmpuint (data->n_friction, ==, 4 * 4 * 3);   /* running gear, surfaces, states: complete */
  g_assert_cmpuint (data->n_pairs, ==, 4);
  g_assert_cmpuint (data->n_bands, ==, 4);
  g_assert_cmpuint (fl_book_policy (book)->n_rules, ==, 0);
}

/* SHA-256 of the bytes "{}" is not the book's, and one more blank gives another stamp. */
static void
test_stamp (void)
{
  g_autoptr(FlBook) book = test_book ();
  g_autofree char *text = test_book_text (), *longer = g_strconcat (text, " ", NULL);
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(FlBook) other = load (longer, problems);

  g_assert_nonnull (other);
  g_assert_cmpstr (fl_book_stamp (book).sha256, !=, fl_book_stamp (other).sha256);
}

/* Everything says where it comes from; what is ours says why. */
static void
test_sources (void)
{
  g_autoptr(FlBook) book = test_book ();
  const FlBookData *data = fl_book_data (book);

  g_assert_cmpuint (data->n_blocks, >=, G_N_ELEMENTS (blocks) + 5 + 4 - 2);   /* damage and breaking have no source of their own but 5 and 4 inside */
  for (gsize i = 0; i < data->n_blocks; i++)
    {
      const FlSource *source = &data->blocks[i].source;

      g_assert_true (*source->source != '\0');
      if (g_str_has_prefix (source->source, "ours"))
        g_assert_true (!source->seen && *source->why != '\0');
    }
  for (gsize i = 0; i < data->n_cautions; i++)
    g_assert_nonnull (data->cautions[i].source.source);
  for (gsize i = 0; i < data->n_walk_round; i++)
    g_assert_nonnull (data->walk_round[i].source.source);
  for (gsize i = 0; i < data->n_citations; i++)
    if (strcmp (data->citations[i].citation, "ours") == 0)
      g_assert_nonnull (data->citations[i].source.why);
}

/* The paragraphs that the requirements rest on, as the text of part 393 numbers them. */
static void
test_citations (void)
{
  static const char *const expected[][2] = {
    { "gear_rating", "49 CFR 393.104(b), 393.108" }, { "aggregate_wll", "49 CFR 393.106(d)" },
    { "tie_down_count", "49 CFR 393.130(c), 393.110" }, { "all_directions", "49 CFR 393.130(c)(1)" },
    { "rolling", "49 CFR 393.106(c)(1)" }, { "implements", "49 CFR 393.130(b)(1)" }, { "articulation", "49 CFR 393.130(b)(2)" },
    { "cannot_loosen", "49 CFR 393.104(f), 393.112" }, { "edge_protection", "49 CFR 393.104(f)" },
    { "point_choice", "49 CFR 393.130(c)(2)" }, { "recheck", "49 CFR 392.9" }, { "gear_unmarked", "49 CFR 393.108(d)" },
    { "locks", "ours" }, { "fit", "ours" }, { "angles", "ours" }, { "chains_apart", "ours" }, { "coupling_kind", "ours" },
    { "coupling_share", "ours" }, { "size_height", "state limits" }, { "size_length", "state limits" }, { "weight_basis", "ours" },
    { "unmeasured", "ours" }, { "gear_on_hand", "ours" }, { "double_use", "ours" }, { "axle_rating", "maker's rating" },
    { "capacity", "maker's rating" }, { "gvwr", "maker's rating" }, { "coupling_rating", "maker's rating" }, { "near_ends", "49 CFR 393.130(c)(2)" }, { "gcwr", "maker's rating" },
    { "a rule that nobody has written", "ours" },
  };
  g_autoptr(FlBook) book = test_book ();

  for (gsize i = 0; i < G_N_ELEMENTS (expected); i++)
    g_assert_cmpstr (fl_book_citation (book, expected[i][0]), ==, expected[i][1]);
  for (gint rule = 0; rule < FL_N_HOUSE_RULES; rule++)
    g_assert_cmpstr (fl_book_citation (book, fl_house_rule_name ((FlHouseRuleId) rule)), ==, "house rule");
}

/* ── broken ── */

typedef struct { const char *name, *from, *to, *path; } Broken;

static const Broken broken[] = {
  { "another format", "fairlead-rules/1", "fairlead-rules/2", "format" },
  { "no id", "\"id\": \"us-49cfr393\"", "\"id\": \"\"", "id" },
  { "an unknown unit", "\"unit\": \"lb\"", "\"unit\": \"stone\"", "unit" },
  { "a length as unit", "\"unit\": \"lb\"", "\"unit\": \"ft\"", "unit" },
  { "no date", "2026-11-25", "2026-13-25", "date" },
  { "weak gravity", "9.80665", "1.62", "gravity.m_s2" },
  { "a source nobody gave", "\"source\": \"49 CFR 393.108, table of working load limits, synthetic webbing\",\n", "", "webbing.source" },
  { "seen left out", "synthetic webbing\",\n  \"seen\": true", "synthetic webbing\",\n  \"why\": \"\"", "webbing.seen" },
  { "ours without a reason", "\"why\": \"the federal text has no friction table", "\"reason\": \"", "friction.why" },
  { "a negative value", "\"30\": 1300", "\"30\": -1300", "chain.rows[0].wll_lb.30" },
  { "a value of nought", "\"30\": 1300", "\"30\": 0", "chain.rows[0].wll_lb.30" },
  { "a value in words", "\"30\": 1300", "\"30\": \"1300\"", "chain.rows[0].wll_lb.30" },
  { "a grade of no book", "\"30\": 1300", "\"31\": 1300", "chain.rows[0].wll_lb.31" },
  { "a larger size weaker", "\"30\": 1900", "\"30\": 190", "chain.rows[1].wll_lb.30" },
  { "sizes that fall", "\"size_in\": \"5/16\"", "\"size_in\": \"3/16\"", "chain.rows[1].size_in" },
  { "a size that is none", "\"size_in\": \"5/16\"", "\"size_in\": \"thin\"", "chain.rows[1].size_in" },
  { "metric sizes that fall", "\"size_mm\": 8", "\"size_mm\": 6", "chain.rows[1].size_mm" },
  { "a table in kilograms", "\"wll_lb\": {\"30\": 1300", "\"wll_kg\": {\"30\": 1300", "chain.rows[0].wll_lb" },
  { "a mark of two grades", "[\"4\", \"43\", \"430\"]", "[\"4\", \"43\", \"30\"]", "chain.grades[1].marks" },
  { "a mark twice", "[\"4\", \"43\", \"430\"]", "[\"4\", \"4\"]", "chain.grades[1].marks" },
  { "a grade twice", "{\"grade\": \"43\"", "{\"grade\": \"30\"", "chain.grades[1].grade" },
  { "an unmarked grade of no book", "\"unmarked_grade\": \"30\"", "\"unmarked_grade\": \"25\"", "chain.unmarked_grade" },
  { "no rows", "\"bands\": [\n", "\"bands\": [], \"b\": [\n", "coupling_shares.bands" },
  { "a width twice", "\"size_in\": \"2\", \"size_mm\": 50", "\"size_in\": \"1-3/4\", \"size_mm\": 50", "webbing.rows[1].size_in" },
  { "damage of an unknown width", "\"size_in\": \"4\", \"over_in\"", "\"size_in\": \"5\", \"over_in\"", "webbing_damage.rows[3].size_in" },
  { "a repair both ways", "\"accepted\": [\"clevis\"", "\"accepted\": [\"bolt\"", "damage.repairs.refused" },
  { "no factor for a grade", "\"43\": 3, \"70\"", "\"70\"", "breaking.chain.factors.43" },
  { "breaks below its limit", "\"factor\": 3\n", "\"factor\": 0.5\n", "breaking.webbing.factor" },
  { "counts double", "\"direct\": 0.5", "\"direct\": 2", "shares.direct" },
  { "no weight at all", "\"weight_lb\": 10000", "\"weight_lb\": 0", "heavy.weight_lb" },
  { "weight in two units", "\"weight_lb\": 10000", "\"weight_lb\": 10000, \"weight_kg\": 4536", "heavy.weight_kg" },
  { "lengths that fall", "\"mid_length_ft\": 10", "\"mid_length_ft\": 4", "count.mid_length_ft" },
  { "a direction up", "\"direction\": [1, 0, 0]", "\"direction\": [0, 0, 1]", "load_cases.cases[0].direction" },
  { "half a direction", "\"direction\": [1, 0, 0]", "\"direction\": [1, 0]", "load_cases.cases[0].direction" },
  { "breaks before it works", "\"breaking_g\": 0.8", "\"breaking_g\": 0.4", "load_cases.cases[0].breaking_g" },
  { "a case twice", "\"id\": \"rearward\"", "\"id\": \"forward\"", "load_cases.cases" },
  { "more friction than there is", "\"dry\": 0.25", "\"dry\": 2.5", "friction.rows[12].dry" },
  { "a cell twice", "\"steel_drum\", \"surface\": \"steel\"", "\"steel_drum\", \"surface\": \"wood\"", "friction.rows[13].surface" },
  { "a surface of no deck", "\"steel_drum\", \"surface\": \"steel\"", "\"steel_drum\", \"surface\": \"ice\"", "friction.rows[13].surface" },
  { "angles that cross", "\"deck_best_lo_deg\": 30", "\"deck_best_lo_deg\": 50", "angles.deck_best_hi_deg" },
  { "a band upside down", "\"lo_pct\": 20, \"hi_pct\": 25", "\"lo_pct\": 25, \"hi_pct\": 20", "coupling_shares.bands[2].hi_pct" },
  { "a band twice", "\"trailer\": \"kingpin\", \"lo_pct\"", "\"trailer\": \"lunette\", \"lo_pct\"", "coupling_shares.bands[3].trailer" },
  { "a tandem narrower than an axle", "\"tandem_within_in\": 96", "\"tandem_within_in\": 39", "bridge.tandem_within_in" },
  { "a formula within the tandem", "\"formula_from_in\": 108", "\"formula_from_in\": 95", "bridge.formula_from_in" },
  { "a formula without a factor", "\"factor_lb\": 500", "\"factor_lb\": 0", "bridge.factor_lb" },
  { "never again", "\"then_h\": 3", "\"then_h\": 0", "recheck.then_h" },
  { "a caution twice", "\"id\": \"manuals\"", "\"id\": \"local_rules\"", "cautions.items[1].id" },
  { "a rule cited twice", "\"rule\": \"gvwr\"", "\"rule\": \"capacity\"", "citations.items[25].rule" },
};

static void
test_broken (gconstpointer user_data)
{
  const Broken *which = user_data;
  g_autofree char *sound = test_book_text ();
  g_autoptr(GString) text = g_string_new (sound);
  g_autoptr(FlProblems) problems = fl_problems_new ();
  guint times = g_string_replace (text, which->from, which->to, 1);
  g_autoptr(FlBook) book = load (text->str, problems);

  g_assert_cmpuint (times, ==, 1);
  test_print_problems (problems);
  g_assert_null (book);
  g_assert_nonnull (error_at (problems, which->path));
  g_assert_cmpuint (error_at (problems, which->path)->line, >, 0);
  g_assert_true (*error_at (problems, which->path)->expected != '\0');
}

/* A problem stands on the line of what is wrong. */
static void
test_line (void)
{
  g_autofree char *sound = test_book_text ();
  g_autoptr(GString) text = g_string_new (sound);
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(FlBook) book = NULL;

  g_string_replace (text, "\"factor\": 2.1", "\"factor\": -2.1", 1);
  book = load (text->str, problems);
  g_assert_null (book);
  g_assert_cmpuint (error_at (problems, "breaking.binder.factor")->line, ==, line_of (text->str, "-2.1"));
  g_assert_cmpstr (error_at (problems, "breaking.binder.factor")->value, ==, "-2.1");
}

/* Each block that is missing is reported, all at once; and, alone, those that others lean on. */
static void
test_missing (void)
{
  static const char *const leaned_on[] = { "chain", "webbing", "count", "citations", NULL };
  g_autofree char *sound = test_book_text ();
  g_autoptr(GString) all = g_string_new (sound);
  g_autoptr(FlProblems) together = fl_problems_new ();
  g_autoptr(FlBook) none = NULL;

  for (gsize i = 0; i < G_N_ELEMENTS (blocks); i++)
    {
      gboolean alone = g_strv_contains (leaned_on, blocks[i]);
      g_autofree char *key = g_strdup_printf ("\n \"%s\": {", blocks[i]), *other = g_strdup_printf ("\n \"no_%s\": {", blocks[i]);
      g_autoptr(GString) text = g_string_new (sound);
      g_autoptr(FlProblems) problems = fl_problems_new ();
      g_autoptr(FlBook) book = NULL;

      g_assert_cmpuint (g_string_replace (text, key, other, 0), ==, 1);
      g_string_replace (all, key, other, 0);
      book = alone ? load (text->str, problems) : NULL;
      g_assert_null (book);
      g_assert_true (!alone || error_at (problems, blocks[i]) != NULL);
    }
  none = load (all->str, together);
  g_assert_null (none);
  for (gsize i = 0; i < G_N_ELEMENTS (blocks); i++)
    g_assert_nonnull (error_at (together, blocks[i]));
}

/* A misspelled key is a warning by its path, and the book still serves. */
static void
test_unknown_key (void)
{
  g_autofree char *sound = test_book_text ();
  g_autoptr(GString) text = g_string_new (sound);
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(FlBook) book = NULL;

  g_string_replace (text, "\"floor_pct\": 5,", "\"floor_pct\": 5, \"florr_pct\": 6,", 1);
  book = load (text->str, problems);
  g_assert_nonnull (book);
  g_assert_cmpuint (fl_problems_errors (problems), ==, 0);
  g_assert_cmpuint (fl_problems_count (problems), ==, 1);
  g_assert_cmpstr (fl_problems_at (problems, 0)->path, ==, "coupling_shares.florr_pct");
}

static void
test_no_json (void)
{
  static const char *const texts[] = { "", "{", "[]", "{} {}", "{\"id\": 1, \"id\": 2}", "\x01", "null", "{}" };

  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autoptr(FlProblems) problems = fl_problems_new ();
      g_autoptr(FlBook) book = load (texts[i], problems), silent = load (texts[i], NULL);

      g_assert_null (book);
      g_assert_null (silent);
      g_assert_cmpuint (fl_problems_errors (problems), >, 0);
    }
}

/* ── look-ups ── */

static void
test_rows (void)
{
  g_autoptr(FlBook) book = test_book ();

  g_assert_cmpstr (fl_book_chain_row (book, 0.375)->size_text, ==, "3/8");
  g_assert_cmpstr (fl_book_chain_row (book, 10 / 25.4)->size_text, ==, "3/8");
  g_assert_cmpstr (fl_book_chain_row (book, 16 / 25.4)->size_text, ==, "5/8");
  g_assert_null (fl_book_chain_row (book, 0.75));
  g_assert_null (fl_book_chain_row (book, 9 / 25.4));
  g_assert_null (fl_book_chain_row (book, NAN));
  g_assert_cmpstr (fl_book_web_row (book, 50 / 25.4)->size_text, ==, "2");
  g_assert_null (fl_book_web_row (book, 1.0));
  g_assert_true (isnan (fl_book_chain_wll (book, 0.375, -1)));
  g_assert_true (isnan (fl_book_chain_wll (book, 0.375, 5)));
  g_assert_cmpint (fl_book_grade (book, " 70 "), ==, fl_book_grade (book, "7"));
  g_assert_cmpint (fl_book_grade (book, "G70"), ==, -1);
  g_assert_cmpint (fl_book_grade (book, NULL), ==, -1);
}

static void
test_friction (void)
{
  static const char *const gears[] = { "rubber_tires", "rubber_tracks", "steel_tracks", "steel_drum" };
  static const char *const surfaces[] = { "wood", "steel", "aluminum", "rubber_mat" };
  g_autoptr(FlBook) book = test_book ();

  /* EN 12195-1 annex B (a public page): 0.30 for steel tracks on rough timber, at most 0.15 on dirty wet steel, at most 0.20 with frost. */
  g_assert_cmpfloat (fl_book_friction (book, "steel_tracks", "wood", "dry"), <=, 0.30);
  g_assert_cmpfloat (fl_book_friction (book, "steel_tracks", "steel", "wet"), <=, 0.15);
  for (gsize g = 0; g < G_N_ELEMENTS (gears); g++)
    for (gsize s = 0; s < G_N_ELEMENTS (surfaces); s++)
      {
        double dry = fl_book_friction (book, gears[g], surfaces[s], "dry"), wet = fl_book_friction (book, gears[g], surfaces[s], "wet");
        double frost = fl_book_friction (book, gears[g], surfaces[s], "frost");

        g_assert_true (dry >= wet && wet >= frost && frost > 0.0 && frost <= 0.10);
      }
  /* Not known: the lowest there is for the state; a state nobody named: the lowest of the running gear's row. */
  g_assert_cmpfloat (fl_book_friction (book, NULL, "wood", "wet"), ==, 0.10);
  g_assert_cmpfloat (fl_book_friction (book, "rubber_tires", NULL, "wet"), ==, 0.10);
  g_assert_cmpfloat (fl_book_friction (book, "rubber_tires", "wood", NULL), ==, 0.10);
  g_assert_cmpfloat (fl_book_friction (book, "steel_drum", "wood", NULL), ==, 0.05);
  g_assert_cmpfloat (fl_book_friction (book, NULL, NULL, NULL), ==, 0.05);
}

/* A cell that is missing takes the lowest of its running gear in that state. */
static void
test_friction_gap (void)
{
  g_autofree char *sound = test_book_text ();
  g_autoptr(GString) text = g_string_new (sound);
  g_autoptr(FlBook) book = NULL;

  g_string_replace (text, "\"surface\": \"wood\", \"dry\": 0.3, \"wet\": 0.25, \"frost\"", "\"surface\": \"wood\", \"dry\": 0.3, \"frost\"", 1);
  book = load (text->str, NULL);
  g_assert_nonnull (book);
  g_assert_cmpfloat (fl_book_friction (book, "steel_tracks", "wood", "wet"), ==, 0.12);   /* as on steel */
  g_assert_cmpfloat (fl_book_friction (book, "steel_tracks", "wood", "dry"), ==, 0.3);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/book/whole", test_whole);
  g_test_add_func ("/book/stamp", test_stamp);
  g_test_add_func ("/book/sources", test_sources);
  g_test_add_func ("/book/citations", test_citations);
  for (gsize i = 0; i < G_N_ELEMENTS (broken); i++)
    {
      g_autofree char *name = g_strdup_printf ("/book/broken/%s", broken[i].name);

      g_test_add_data_func (name, &broken[i], test_broken);
    }
  g_test_add_func ("/book/line", test_line);
  g_test_add_func ("/book/missing", test_missing);
  g_test_add_func ("/book/unknown-key", test_unknown_key);
  g_test_add_func ("/book/no-json", test_no_json);
  g_test_add_func ("/book/rows", test_rows);
  g_test_add_func ("/book/friction", test_friction);
  g_test_add_func ("/book/friction-gap", test_friction_gap);
  return test_done (g_test_run ());
}
