/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Worked examples of others, and what the rule says to them. Most are practitioners' or trade pages, recomputed by 393.106(d) and .110;
 * where a page contradicts the rule, the check is that this program follows the rule and not the page. Each names its kind of source.
 * The bridge formula's examples belong to the requirement that uses it. */
#include "fl-test-book.h"

typedef enum { DIRECT, SAME_SIDE, OTHER_SIDE } Path;

static double
credit (const FlBook *book, guint n, double wll, Path path)
{
  return n * wll * fl_book_share (book, path != DIRECT, 'L', path == OTHER_SIDE ? 'R' : 'L');
}

static double
required (const FlBook *book, double weight)
{
  return weight * fl_book_data (book)->aggregate_share;
}

/* The heaviest load that a credit holds. */
static double
holds (const FlBook *book, double sum)
{
  return sum / fl_book_data (book)->aggregate_share;
}

/* The fewest alike that reach the aggregate. */
static guint
needed (const FlBook *book, double weight, double wll, Path path)
{
  guint n = 0;

  while (!fl_reaches (credit (book, n, wll, path), required (book, weight)))
    n++;
  return n;
}

/* ── that agree with the rule ── */

typedef struct
{
  const char *id, *size, *more;    /* the chain as it stands in a fleet; size NULL: only its wll is given */
  double wll;
  guint n;
  Path path;
  double weight, credit, required; /* as the example or the rule has them */
} Example;

static const Example agreeing[] = {
  /* E01: owners' club forum: 14,000 lb tractor on four direct 3/8 in grade 70: 13,200 against 7,000. */
  { "E01", "3/8", "'mark': '70'", 6600, 4, DIRECT, 14000, 13200, 7000 },
  /* E02: the same with unmarked chain: 5,300, good to 10,600 lb. */
  { "E02", "3/8", "'mark': null", 2650, 4, DIRECT, 10600, 5300, 5300 },
  /* E03: practitioners' forum: 7,000 lb tractor, two 5/16 in grade 70 across through the frame, hooks 6,600: 9,400 against 3,500. */
  { "E03", "5/16", "'mark': '70', 'hook_wll_lb': 6600", 4700, 2, OTHER_SIDE, 7000, 9400, 3500 },
  /* E04: the same tractor by its four corners: 4 x 2,350 = 9,400. */
  { "E04", "5/16", "'mark': '70'", 4700, 4, DIRECT, 7000, 9400, 3500 },
  /* E05: practitioners' forum: 20,000 lb on four direct of 5,000: exactly half is enough. */
  { "E05", NULL, NULL, 5000, 4, DIRECT, 20000, 10000, 10000 },
  /* E07: trailer safety handout: 11,000 lb telehandler, four direct 3/8 in grade 70. */
  { "E07", "3/8", "'mark': '70'", 6600, 4, DIRECT, 11000, 13200, 5500 },
  /* E08: equipment hire safety note: 20,000 lb backhoe, four direct 3/8 in grade 70. */
  { "E08", "3/8", "'mark': '70'", 6600, 4, DIRECT, 20000, 13200, 10000 },
  /* E11: safety trainer's page: 50,000 lb on four 3/8 in grade 70 to the other side: 26,400. */
  { "E11", "3/8", "'mark': '70'", 6600, 4, OTHER_SIDE, 50000, 26400, 25000 },
  /* E18: owners' forum: 7,800 lb on four direct 1/4 in grade 70: 6,300 against 3,900. */
  { "E18", "1/4", "'mark': '70'", 3150, 4, DIRECT, 7800, 6300, 3900 },
};

static void
test_agreeing (gconstpointer user_data)
{
  const Example *e = user_data;
  g_autoptr(FlBook) book = test_book ();

  if (e->size != NULL)
    test_worth (rated_chain (book, e->size, e->more), e->wll);
  g_assert_cmpfloat_with_epsilon (credit (book, e->n, e->wll, e->path), e->credit, 1e-6);
  g_assert_cmpfloat_with_epsilon (required (book, e->weight), e->required, 1e-6);
  g_assert_true (fl_reaches (credit (book, e->n, e->wll, e->path), required (book, e->weight)));
}

/* E01, E02: good to 26,400 and 10,600 lb, and to no pound more. */
static void
test_holds (void)
{
  g_autoptr(FlBook) book = test_book ();

  g_assert_cmpfloat (holds (book, credit (book, 4, 6600, DIRECT)), ==, 26400);
  g_assert_cmpfloat (holds (book, credit (book, 4, 2650, DIRECT)), ==, 10600);
  g_assert_false (fl_reaches (credit (book, 4, 2650, DIRECT), required (book, 10601)));
}

/* E08: four of 3/8 in grade 70 for 20,000 lb. E09, same note, its answer not printed: 40,000 lb take 7, or 4 of 1/2 in grade 70 (recomputed). */
static void
test_needed (void)
{
  g_autoptr(FlBook) book = test_book ();

  g_assert_cmpuint (needed (book, 20000, 6600, DIRECT), ==, 4);
  g_assert_cmpuint (needed (book, 40000, 6600, DIRECT), ==, 7);
  g_assert_cmpuint (needed (book, 40000, 11300, DIRECT), ==, 4);
}

/* E03: a binder of 5,200 lb and hooks of 6,600 leave the chain's 4,700 the weakest part. */
static void
test_weakest (void)
{
  g_autoptr(FlBook) book = test_book ();
  FlRating chain = rated_chain (book, "5/16", "'mark': '70', 'hook_wll_lb': 6600");
  FlRating binder = fl_rate_record (book, test_record (FL_KIND_BINDER, "{'id': 'B', 'kept_at': 'Y', 'wll_lb': 5200, 'chain_sizes': ['5/16']}"));

  test_worth (chain, 4700);
  test_worth (binder, 5200);
}

/* NA-DIRECT-HALF: published quiz on the North American rule: a direct tie-down of 8,000 lb counts 4,000. */
static void
test_direct_half (void)
{
  g_autoptr(FlBook) book = test_book ();

  g_assert_cmpfloat (credit (book, 1, 8000, DIRECT), ==, 4000);
}

/* An excavator of 87,303 lb and 37.5 ft, computed: five by length, eight direct 1/2 in grade 70 by strength. */
static void
test_length_and_strength (void)
{
  g_autoptr(FlBook) book = test_book ();

  g_assert_cmpint (fl_book_count (book, 37.5, 87303, FALSE), ==, 5);
  g_assert_cmpuint (needed (book, 87303, 11300, DIRECT), ==, 8);
}

/* E20, E21: public pages: 15 and 25 ft not blocked take 3 and 4; 12 and 22 ft too. */
static void
test_length_count (void)
{
  g_autoptr(FlBook) book = test_book ();

  g_assert_cmpint (fl_book_count (book, 15, 9000, FALSE), ==, 3);
  g_assert_cmpint (fl_book_count (book, 25, 9000, FALSE), ==, 4);
  g_assert_cmpint (fl_book_count (book, 12, 9000, FALSE), ==, 3);
  g_assert_cmpint (fl_book_count (book, 22, 9000, FALSE), ==, 4);
}

/* E24: published quiz on the driver's handbook: a 37,000 lb load presses forward with 0.8 of its weight, 29,600 lb (breaking strength case). */
static void
test_forward (void)
{
  g_autoptr(FlBook) book = test_book ();

  g_assert_cmpfloat_with_epsilon (37000 * fl_book_data (book)->cases[0].breaking, 29600, 1e-6);
}

/* E26: trade press, tie-down inspection: a 5/16 in grade 70 chain whose mark cannot be read counts 1,900 lb and not 4,700. */
static void
test_unreadable (void)
{
  g_autoptr(FlBook) book = test_book ();

  test_worth (rated_chain (book, "5/16", "'mark': '70'"), 4700);
  test_worth (rated_chain (book, "5/16", "'mark': null"), 1900);
}

/* E28, BINDER-LEVER-CHEATER: trade press bench test: 12,901 lb in a leg of 3/8 in grade 70 by a lengthened lever handle, 1.95 times its limit. The book
 * warns of it. */
static void
test_handle (void)
{
  g_autoptr(FlBook) book = test_book ();
  const FlBookData *data = fl_book_data (book);
  gboolean warned = FALSE;

  g_assert_cmpfloat_with_epsilon (12901 / rated_chain (book, "3/8", "'mark': '70'").wll.value, 1.95, 0.005);
  for (gsize i = 0; i < data->n_cautions; i++)
    warned |= strcmp (data->cautions[i].id, "no_handle_extension") == 0;
  g_assert_true (warned);
}

/* ── that contradict the rule ── */

typedef struct { const char *id; double wll; guint n; Path path; double weight; gboolean passes; guint needs; } Claim;

static const Claim claims[] = {
  /* E14: operators' forum: six 3/8 in grade 80 (7,050) hooked to the machine hold 50,000 lb. Direct they count 21,150 of 25,000. */
  { "E14", 7050, 6, DIRECT, 50000, FALSE, 8 },
  /* E15: operators' forum: eight 1/2 in grade 80 hold 180,000 lb. Direct 48,000 of 90,000: fifteen are needed; to the other side eight do. */
  { "E15", 12000, 8, DIRECT, 180000, FALSE, 15 },
  { "E15 to the other side", 12000, 8, OTHER_SIDE, 180000, TRUE, 8 },
  /* E16: navy operator training: 55,000 x 1.5 on eight of 11,000. The rule asks 27,500 and the rig has 44,000: five would do. */
  { "E16", 11000, 8, DIRECT, 55000, TRUE, 5 },
  /* E19: practitioners' forum: 5 x 4,700 must equal 6,000 lb. Four direct count 9,400 of the 3,000 asked; two would by strength. */
  { "E19", 4700, 4, DIRECT, 6000, TRUE, 2 },
  /* E11 read otherwise: the four ending on their own side count half and do not hold 50,000 lb. */
  { "E11 to the same side", 6600, 4, SAME_SIDE, 50000, FALSE, 8 },
  /* E25: published quiz: one of 5,000 lb secures 10,000 lb. Only to the other side; direct it secures 5,000. */
  { "E25 direct", 5000, 1, DIRECT, 10000, FALSE, 2 },
  { "E25 to the other side", 5000, 1, OTHER_SIDE, 10000, TRUE, 1 },
  /* E29: training course page: more than half by a pound. Half is enough. */
  { "E29", 5000, 4, DIRECT, 20000, TRUE, 4 },
};

static void
test_claim (gconstpointer user_data)
{
  const Claim *claim = user_data;
  g_autoptr(FlBook) book = test_book ();

  g_assert_true (fl_reaches (credit (book, claim->n, claim->wll, claim->path), required (book, claim->weight)) == claim->passes);
  g_assert_cmpuint (needed (book, claim->weight, claim->path == DIRECT && claim->wll == 7050 ? 7100 : claim->wll, claim->path), ==,
                    claim->needs);
}

/* E17: insurer's bulletin: 15,000 for 30,000 lb is right, full credit for a return to the same side is not: (d)(2) counts half. */
static void
test_same_side (void)
{
  g_autoptr(FlBook) book = test_book ();

  g_assert_cmpfloat (required (book, 30000), ==, 15000);
  g_assert_cmpfloat (credit (book, 4, 6600, SAME_SIDE), ==, 13200);
  g_assert_false (fl_reaches (credit (book, 4, 6600, SAME_SIDE), required (book, 30000)));
}

/* E21 and E23: general pages: four for a 6,200 lb skid steer by its length; 2 and 4 for 20 and 40 ft whether blocked or not. */
static void
test_count_claims (void)
{
  g_autoptr(FlBook) book = test_book ();

  g_assert_true (6200 < fl_book_data (book)->heavy_weight);
  g_assert_cmpint (fl_book_count (book, 12, 6200, FALSE), ==, 3);
  g_assert_cmpint (fl_book_count (book, 20, 9000, FALSE), ==, 3);
  g_assert_cmpint (fl_book_count (book, 40, 9000, FALSE), ==, 5);
  g_assert_cmpint (fl_book_count (book, 20, 9000, TRUE), ==, 2);
  g_assert_cmpint (fl_book_count (book, 40, 9000, TRUE), ==, 4);
}

/* E30: how-to page: chain over 1,500 lb, grade 70 over 10,000. The rule names no material: straps and grade 43 count by their limits. */
static void
test_no_mandate (void)
{
  g_autoptr(FlBook) book = test_book ();

  test_worth (rated_strap (book, "'width_in': 4", "'tag_wll_lb': 5400, 'tag_legible': true"), 5400);
  test_worth (rated_chain (book, "1/2", "'mark': '43'"), 9200);
  g_assert_true (fl_reaches (credit (book, 4, 5400, DIRECT), required (book, 12000)));
  g_assert_true (fl_reaches (credit (book, 4, 9200, DIRECT), required (book, 36800)));
}

/* Old licence manuals and a state's text for metal and logs: breaking strength of 1.5 times the weight. 393.106(d) asks half the weight in working load
 * limits: for 30,000 lb 15,000, and not the 45,000 of breaking strength, which three direct 3/8 in grade 70 would pass and the rule does not. */
static void
test_old_breaking_rule (void)
{
  g_autoptr(FlBook) book = test_book ();
  double breaking = rated_chain (book, "3/8", "'mark': '70'").breaking;

  g_assert_true (fl_reaches (3 * breaking, 1.5 * 30000));
  g_assert_false (fl_reaches (credit (book, 3, 6600, DIRECT), required (book, 30000)));
  g_assert_cmpuint (needed (book, 30000, 6600, DIRECT), ==, 5);
}

/* Claimed for one state: five chains and no straps over 10,000 lb. 393.130 says four tie-downs, of whatever they are. */
static void
test_five_chains (void)
{
  g_autoptr(FlBook) book = test_book ();

  g_assert_cmpint (fl_book_data (book)->heavy_count, ==, 4);
  test_worth (rated_strap (book, "'width_in': 4", "'tag_wll_lb': 6600, 'tag_legible': true"), 6600);
  g_assert_true (fl_reaches (credit (book, 4, 6600, DIRECT), required (book, 26400)));
}

/* ── computed from the rule: largest weight by working load limit alone ── */

static void
test_vectors (void)
{
  static const struct { const char *size, *mark; double wll, direct4, direct6, direct8, cross4; } rows[] = {
    { "1/4", "70", 3150, 12600, 18900, 25200, 25200 },      { "1/4", "80", 3500, 14000, 21000, 28000, 28000 },
    { "1/4", "100", 4300, 17200, 25800, 34400, 34400 },     { "5/16", "70", 4700, 18800, 28200, 37600, 37600 },
    { "5/16", "80", 4500, 18000, 27000, 36000, 36000 },     { "5/16", "100", 5700, 22800, 34200, 45600, 45600 },
    { "3/8", "70", 6600, 26400, 39600, 52800, 52800 },      { "3/8", "80", 7100, 28400, 42600, 56800, 56800 },
    { "3/8", "100", 8800, 35200, 52800, 70400, 70400 },     { "7/16", "70", 8750, 35000, 52500, 70000, 70000 },
    { "1/2", "70", 11300, 45200, 67800, 90400, 90400 },     { "1/2", "80", 12000, 48000, 72000, 96000, 96000 },
    { "1/2", "100", 15000, 60000, 90000, 120000, 120000 },  { "5/8", "70", 15800, 63200, 94800, 126400, 126400 },
    { "5/8", "80", 18100, 72400, 108600, 144800, 144800 },  { "5/8", "100", 22600, 90400, 135600, 180800, 180800 },
  };
  g_autoptr(FlBook) book = test_book ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *more = g_strdup_printf ("'mark': '%s'", rows[i].mark);
      FlRating rating = rated_chain (book, rows[i].size, more);
      double wll = rating.wll.value;

      test_worth (rating, rows[i].wll);
      g_assert_cmpfloat (holds (book, credit (book, 4, wll, DIRECT)), ==, rows[i].direct4);
      g_assert_cmpfloat (holds (book, credit (book, 6, wll, DIRECT)), ==, rows[i].direct6);
      g_assert_cmpfloat (holds (book, credit (book, 8, wll, DIRECT)), ==, rows[i].direct8);
      g_assert_cmpfloat (holds (book, credit (book, 4, wll, OTHER_SIDE)), ==, rows[i].cross4);
    }
}

/* Direct chains for a machine's body, at least four, by the limit of the whole tie-down and the machine's weight; computed. */
static void
test_chains_needed (void)
{
  static const double weights[] = { 10000, 15000, 20000, 26000, 33500, 45000, 54500, 67500, 80500 };
  static const struct { double wll; guint n[G_N_ELEMENTS (weights)]; } rows[] = {
    { 4700, { 4, 4, 5, 6, 8, 10, 12, 15, 18 } }, { 5400, { 4, 4, 4, 5, 7, 9, 11, 13, 15 } }, { 6600, { 4, 4, 4, 4, 6, 7, 9, 11, 13 } },
    { 8800, { 4, 4, 4, 4, 4, 6, 7, 8, 10 } },    { 9200, { 4, 4, 4, 4, 4, 5, 6, 8, 9 } },    { 11300, { 4, 4, 4, 4, 4, 4, 5, 6, 8 } },
    { 15000, { 4, 4, 4, 4, 4, 4, 4, 5, 6 } },
  };
  g_autoptr(FlBook) book = test_book ();

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    for (gsize w = 0; w < G_N_ELEMENTS (weights); w++)
      g_assert_cmpuint (MAX ((guint) fl_book_data (book)->heavy_count, needed (book, weights[w], rows[i].wll, DIRECT)), ==, rows[i].n[w]);
}

/* Two direct 1/2 in grade 70 and two direct 3/8 in grade 70 on 5,400 lb binders: 16,700, good to 33,400 lb; computed. */
static void
test_mixed (void)
{
  g_autoptr(FlBook) book = test_book ();
  double sum = credit (book, 2, 11300, DIRECT) + credit (book, 2, 5400, DIRECT);

  g_assert_cmpfloat (sum, ==, 16700);
  g_assert_cmpfloat (holds (book, sum), ==, 33400);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  for (gsize i = 0; i < G_N_ELEMENTS (agreeing); i++)
    {
      g_autofree char *name = g_strdup_printf ("/examples/agrees/%s", agreeing[i].id);

      g_test_add_data_func (name, &agreeing[i], test_agreeing);
    }
  g_test_add_func ("/examples/agrees/E01-E02-holds", test_holds);
  g_test_add_func ("/examples/agrees/E03-weakest", test_weakest);
  g_test_add_func ("/examples/agrees/E08-E09-needed", test_needed);
  g_test_add_func ("/examples/agrees/NA-DIRECT-HALF", test_direct_half);
  g_test_add_func ("/examples/computed/length-and-strength", test_length_and_strength);
  g_test_add_func ("/examples/agrees/E20-E21-length", test_length_count);
  g_test_add_func ("/examples/agrees/E24-forward", test_forward);
  g_test_add_func ("/examples/agrees/E26-unreadable", test_unreadable);
  g_test_add_func ("/examples/agrees/E28-handle", test_handle);
  for (gsize i = 0; i < G_N_ELEMENTS (claims); i++)
    {
      g_autofree char *name = g_strdup_printf ("/examples/contradicts/%s", claims[i].id);

      g_test_add_data_func (name, &claims[i], test_claim);
    }
  g_test_add_func ("/examples/contradicts/E17-same-side", test_same_side);
  g_test_add_func ("/examples/contradicts/E21-E23-count", test_count_claims);
  g_test_add_func ("/examples/contradicts/E30-no-mandate", test_no_mandate);
  g_test_add_func ("/examples/contradicts/breaking-strength", test_old_breaking_rule);
  g_test_add_func ("/examples/contradicts/five-chains", test_five_chains);
  g_test_add_func ("/examples/computed/largest-weight", test_vectors);
  g_test_add_func ("/examples/computed/chains-needed", test_chains_needed);
  g_test_add_func ("/examples/computed/mixed", test_mixed);
  return test_done (g_test_run ());
}
