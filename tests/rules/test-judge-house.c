/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The house's rules over the judge: each one met, short and, where a document can leave it open, unknown; the law's own findings stay as they
 * are. House rules are a fleet's own policy (no source); every figure is worked out by hand from the example: 22,000 lb on four direct
 * tie-downs of 6,600 lb, runs 44.27 and 44.69 in, 42.7 and 38.8 degrees, blade on top by a lever binder, 155 in high. */
#include "fl-house.h"
#include "fl-test-judge.h"

static Case *
house_case (const char *rules)
{
  Case *c = case_new ();

  fleet_set (c, "house_rules", rules);
  return c;
}

/* The judged house is short in this many findings of the rule, and compliant by all else. */
static void
expect_shorts (const Case *c, const char *rule, guint n)
{
  g_assert_cmpuint (count_of (c, rule, FL_SHORT), ==, n);
  expect_whole (c, FL_COMPLIANT, n > 0 ? FL_HOUSE_SHORT : FL_HOUSE_MET);
}

/* ── of each tie-down ── */

/* Long enough for the run (88.3 and 88.7 of 192 in) is the trade's; 103.5 in over, the house's: 191.8 and 192.2. */
static void
test_chain_allowance (void)
{
  g_autoptr(Case) c = house_case ("[{'rule': 'chain_allowance', 'length_in': 103.5}]");
  const FlFinding *f;

  judge (c);
  f = expect (c, "chain_allowance", "tie-down 3", FL_BY_HOUSE, FL_SHORT);
  expect_figures (f, FL_IN (192.19), FL_IN (192));
  g_assert_true (step_says (f, "the run takes"));
  g_assert_null (found (c, "chain_allowance", "tie-down 1"));
  expect_shorts (c, "chain_allowance", 2);
  expect (c, "fit", "tie-downs", FL_BY_PRACTICE, FL_MET);
  fleet_set (c, "house_rules", "[{'rule': 'chain_allowance', 'length_in': 103}]");
  judge (c);
  expect (c, "chain_allowance", "tie-downs", FL_BY_HOUSE, FL_MET);
}

/* Where the length of the chain or of the run is not known; a strap needs no allowance. */
static void
test_chain_allowance_bare (void)
{
  static const FlRated chain = { .id = "C" };
  FlAssemblyParts parts = { .chain = &chain };

  g_assert_cmpint (fl_house_length (&parts, &(FlAssembly) { .flags = 0 }), ==, FL_MET);
  g_assert_cmpint (fl_house_length (&parts, &(FlAssembly) { .flags = FL_ASM_NO_ALLOWANCE }), ==, FL_SHORT);
  g_assert_cmpint (fl_house_length (&parts, &(FlAssembly) { .flags = FL_ASM_TOO_SHORT }), ==, FL_SHORT);
  g_assert_cmpint (fl_house_length (&parts, &(FlAssembly) { .flags = FL_ASM_LENGTH_UNKNOWN }), ==, FL_UNKNOWN);
  g_assert_cmpint (fl_house_length (&parts, &(FlAssembly) { .flags = FL_ASM_NO_LENGTH }), ==, FL_UNKNOWN);
  parts.chain = NULL;
  g_assert_cmpint (fl_house_length (&parts, &(FlAssembly) { .flags = FL_ASM_NO_LENGTH }), ==, FL_MET);
}

static void
test_ratchet_only (void)
{
  g_autoptr(Case) c = house_case ("[{'rule': 'ratchet_only'}]");

  judge (c);                    /* the blade's too */
  expect (c, "ratchet_only", "B-15", FL_BY_HOUSE, FL_SHORT);
  expect_shorts (c, "ratchet_only", 1);
  fleet_drop (c, "binders[4].kind");
  judge (c);
  expect (c, "ratchet_only", "B-15", FL_BY_HOUSE, FL_UNKNOWN);
  expect_whole (c, FL_COMPLIANT, FL_HOUSE_SHORT);
  fleet_set (c, "binders[4].kind", "'ratchet'");
  fleet_set (c, "binders[4].needs_run_in", "24");
  judge (c);
  expect (c, "ratchet_only", "tie-downs", FL_BY_HOUSE, FL_MET);
}

/* A deck 102 in wide: pockets at 50 in are inside its edge at 51, at 51 they are not; below the edge the run bends over it. */
static void
test_inboard (void)
{
  g_autoptr(Case) c = house_case ("[{'rule': 'inboard_of_rub_rail'}]");

  judge (c);
  expect (c, "inboard_of_rub_rail", "tie-downs", FL_BY_HOUSE, FL_MET);
  fleet_set (c, "trailers[0].anchor_rows[0].y_in", "51");
  judge (c);
  g_assert_true (step_says (expect (c, "inboard_of_rub_rail", "tie-down 1", FL_BY_HOUSE, FL_SHORT), "51 in off the centerline"));
  expect_shorts (c, "inboard_of_rub_rail", 5);
  fleet_set (c, "trailers[0].anchor_rows[0].y_in", "50");
  fleet_set (c, "trailers[0].anchor_rows[0].fitting", "'rub_rail'");
  judge (c);
  expect_shorts (c, "inboard_of_rub_rail", 5);
}

/* What a document cannot leave open: the width of the deck, and a bend over the side before an anchor that lies further in. */
static void
test_inboard_bare (void)
{
  FlAnchor anchor = { .id = "A", .fitting = "d_ring", .x = FL_IN (0), .y = FL_IN (40), .z = FL_IN (0) };
  const FlAnchor *anchors[2] = { &anchor, NULL };
  FlGround ground = { .half_width = 51 * FL_M_PER_IN };
  FlLay lay = { .path = { { 0, 0.5, 1 }, { 0, 0.2, 0 }, { 0, 0.1, 0 } }, .n_path = 3 };

  g_assert_cmpint (fl_house_inboard (&ground, &lay, anchors), ==, FL_MET);
  lay.path[1].y = -51 * FL_M_PER_IN;
  g_assert_cmpint (fl_house_inboard (&ground, &lay, anchors), ==, FL_SHORT);
  lay.n_path = 2;
  g_assert_cmpint (fl_house_inboard (&ground, &lay, anchors), ==, FL_MET);
  ground.half_width = NAN;
  g_assert_cmpint (fl_house_inboard (&ground, &lay, anchors), ==, FL_UNKNOWN);
}

static void
test_band (void)
{
  g_autoptr(Case) c = house_case ("[{'rule': 'deck_angle_band', 'lo_deg': 25, 'hi_deg': 45}]");
  const double front = asin (28 / hypot (hypot (27, 22), 28)) * 180 / G_PI;

  judge (c);                    /* the blade's chain lies at 20.4 degrees */
  expect_figures (expect (c, "deck_angle_band", "tie-down 5", FL_BY_HOUSE, FL_SHORT), FL_DEG (25), FL_DEG (20.4));
  expect_shorts (c, "deck_angle_band", 1);
  fleet_set (c, "house_rules", "[{'rule': 'deck_angle_band', 'lo_deg': 20, 'hi_deg': 40}]");
  judge (c);                    /* the rear ones at 42.7 */
  expect_figures (expect (c, "deck_angle_band", "tie-down 1", FL_BY_HOUSE, FL_SHORT), FL_DEG (40), FL_DEG (asin (30 / hypot (hypot (22, 24), 30)) * 180 / G_PI));
  expect_shorts (c, "deck_angle_band", 2);
  fleet_set (c, "house_rules", "[{'rule': 'deck_angle_band', 'lo_deg': 20, 'hi_deg': 60}]");
  judge (c);
  g_assert_true (step_says (expect (c, "deck_angle_band", "tie-downs", FL_BY_HOUSE, FL_MET), "38.8"));
  g_assert_cmpfloat_with_epsilon (front, 38.8, 0.05);
}

/* Of an `over` the worse leg is asked; of a run that is not known nothing can be said. */
static void
test_band_bare (void)
{
  const FlHouseRule band = { .rule = FL_HOUSE_DECK_ANGLE_BAND, .lo_deg = 30, .hi_deg = 60 };
  const double low = sin (G_PI / 9), flat = cos (G_PI / 9), half = sqrt (0.5);
  FlLay lay = { .deck = 45, .pull = { half, 0, -half }, .pull_b = { flat, 0, -low } };
  double deck;

  g_assert_cmpint (fl_house_band (&band, &lay, &deck), ==, FL_MET);
  g_assert_cmpfloat_with_epsilon (deck, 45, 1e-9);
  lay.flags = FL_LAY_OVER;
  g_assert_cmpint (fl_house_band (&band, &lay, &deck), ==, FL_SHORT);
  g_assert_cmpfloat_with_epsilon (deck, 20, 1e-9);
  lay.deck = NAN;
  g_assert_cmpint (fl_house_band (&band, &lay, &deck), ==, FL_UNKNOWN);
  g_assert_true (isnan (deck));
}

/* 5/16 of grade 80 is worth 4,500 lb, of grade 70 4,700 (393.108, as read): no "at least grade 70". A mark nobody looked at is no mark yet. */
static void
test_min_chain (void)
{
  static const struct { const char *mark; FlVerdict verdict; } cases[] = {
    { "'70'", FL_MET }, { "'80'", FL_SHORT }, { "'100'", FL_MET }, { "'43'", FL_SHORT }, { "null", FL_SHORT }, { NULL, FL_UNKNOWN },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr(Case) c = house_case ("[{'rule': 'min_chain', 'size_in': '5/16', 'grade': '70'}]");

      fleet_set (c, "chains[1].size_in", "'5/16'");
      if (cases[i].mark != NULL)
        fleet_set (c, "chains[1].mark", cases[i].mark);
      else
        fleet_drop (c, "chains[1].mark");
      judge (c);
      expect (c, "min_chain", cases[i].verdict == FL_MET ? "tie-downs" : "C-042", FL_BY_HOUSE, cases[i].verdict);
    }
}

/* ── sums ── */

/* Loops that nobody rated, at 5,500 lb: 4 x 0.5 x 5,500 = 11,000 of 11,000. The law's sum stays 13,200. */
static void
test_stand_in (void)
{
  static const struct { const char *wll; double have; } cases[] = { { "5500", 11000 }, { "5499", 10998 }, { "9000", 13200 } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *rules = g_strdup_printf ("[{'rule': 'stand_in_rating', 'fitting': 'loop', 'wll_lb': %s}]", cases[i].wll);
      g_autoptr(Case) c = house_case (rules);
      const FlFinding *f;

      judge (c);
      f = expect (c, "stand_in_rating", "R-03", FL_BY_HOUSE, cases[i].have >= 11000 ? FL_MET : FL_SHORT);
      expect_figures (f, FL_LB (11000), FL_LB (cases[i].have));
      g_assert_true (step_says (f, "Their sum"));
      expect_figures (expect (c, "aggregate_wll", "R-03", FL_BY_LAW, FL_MET), FL_LB (11000), FL_LB (13200));
      expect_shorts (c, "stand_in_rating", cases[i].have >= 11000 ? 0 : 1);
    }
}

/* Two on one loop have the stand-in between them; two to one anchor nobody rated too. A limit nobody knows leaves the sum open. */
static void
test_stand_in_shared (void)
{
  g_autoptr(Case) c = house_case ("[{'rule': 'stand_in_rating', 'fitting': 'loop', 'wll_lb': 8000}]");

  fleet_set (c, "machines[0].tie_points[2].takes", "2");
  plan_set (c, "tie_downs[3].machine_point", "'FL'");
  judge (c);                    /* 3,300 + 3,300 + 2 x 2,000 */
  expect_figures (expect (c, "stand_in_rating", "R-03", FL_BY_HOUSE, FL_SHORT), FL_LB (11000), FL_LB (10600));
  fleet_set (c, "machines[0].tie_points[2].rating_is", "'each'");
  judge (c);
  expect_figures (expect (c, "stand_in_rating", "R-03", FL_BY_HOUSE, FL_MET), FL_LB (11000), FL_LB (13200));
  fleet_set (c, "machines[0].tie_points[2].rated_wll_lb", "20000");     /* rated: no stand-in */
  fleet_set (c, "chains[0].size_in", "'3/4'");
  fleet_set (c, "binders[0].chain_sizes", "['3/4']");
  judge (c);
  expect (c, "stand_in_rating", "R-03", FL_BY_HOUSE, FL_UNKNOWN);
}

/* min_wll_each asks of what the house takes it for. */
static void
test_stand_in_each (void)
{
  g_autoptr(Case) c = house_case ("[{'rule': 'stand_in_rating', 'fitting': 'loop', 'wll_lb': 5600}, {'rule': 'min_wll_each', 'wll_lb': 5700}]");

  judge (c);
  expect_figures (expect (c, "min_wll_each", "tie-down 1", FL_BY_HOUSE, FL_SHORT), FL_LB (5700), FL_LB (5600));
  g_assert_cmpuint (count_of (c, "min_wll_each", FL_SHORT), ==, 4);
}

/* 20 percent on 11,000 are 13,200, what there is. */
static void
test_extra (void)
{
  g_autoptr(Case) c = house_case ("[{'rule': 'extra_aggregate_pct', 'pct': 20}]");
  const FlFinding *f;

  judge (c);
  f = expect (c, "extra_aggregate_pct", "R-03", FL_BY_HOUSE, FL_MET);
  expect_figures (f, FL_LB (13200), FL_LB (13200));
  g_assert_true (step_says (f, "0.5 x weight 22,000 lb (scale ticket 2026-03-02) and 20 % on top = 13,200 lb"));
  fleet_set (c, "house_rules", "[{'rule': 'extra_aggregate_pct', 'pct': 20.1}]");
  judge (c);
  expect_figures (expect (c, "extra_aggregate_pct", "R-03", FL_BY_HOUSE, FL_SHORT), FL_LB (13211), FL_LB (13200));
  expect_shorts (c, "extra_aggregate_pct", 1);
  fleet_set (c, "chains[0].size_in", "'3/4'");
  fleet_set (c, "binders[0].chain_sizes", "['3/4']");
  judge (c);
  expect (c, "extra_aggregate_pct", "R-03", FL_BY_HOUSE, FL_UNKNOWN);
}

/* ── weight margin ── */

static void
test_margin (void)
{
  g_autoptr(Case) c = house_case ("[{'rule': 'weight_margin_pct', 'pct': 20}]");
  const FlFinding *f;

  judge (c);
  g_assert_true (step_says (expect (c, "weight_margin_pct", "tie-downs", FL_BY_HOUSE, FL_MET), "26,400 lb"));
  expect (c, "weight_margin_pct", "gross weight", FL_BY_HOUSE, FL_MET);
  fleet_set (c, "house_rules", "[{'rule': 'weight_margin_pct', 'pct': 21}]");
  judge (c);                    /* half of 26,620 */
  f = expect (c, "weight_margin_pct", "R-03", FL_BY_HOUSE, FL_SHORT);
  expect_figures (f, FL_LB (13310), FL_LB (13200));
  expect_shorts (c, "weight_margin_pct", 1);
  fleet_set (c, "chains[0].size_in", "'3/4'");
  fleet_set (c, "binders[0].chain_sizes", "['3/4']");
  judge (c);
  expect (c, "weight_margin_pct", "R-03", FL_BY_HOUSE, FL_UNKNOWN);
}

/* The house's own sum must hold with the margin too: 11,000 x 1.1 x 1.1 = 13,310. */
static void
test_margin_and_extra (void)
{
  g_autoptr(Case) c = house_case ("[{'rule': 'weight_margin_pct', 'pct': 10}, {'rule': 'extra_aggregate_pct', 'pct': 10}]");

  judge (c);
  expect (c, "extra_aggregate_pct", "R-03", FL_BY_HOUSE, FL_MET);
  expect_figures (expect (c, "weight_margin_pct", "R-03", FL_BY_HOUSE, FL_SHORT), FL_LB (13310), FL_LB (13200));
}

/* Lever arms do not hang on the weight: 5 percent more load puts 5 percent more on each axle, the trailer's own weight there (4,350 lb) aside. */
static void
test_margin_axles (void)
{
  g_autoptr(Case) c = house_case ("[{'rule': 'weight_margin_pct', 'pct': 5}]");
  const FlAssessmentParts *parts;
  const double tare = 4350;
  double load = NAN, more;
  g_autofree char *under = NULL, *over = NULL;

  judge (c);
  parts = fl_assessment_parts (c->judged);
  for (gsize i = 0; i < parts->n_axles; i++)
    if (strcmp (parts->axles[i].axle, "trailer 1") == 0)
      load = fl_quantity_in (parts->axles[i].load, FL_UNIT_LB);
  more = tare + 1.05 * (load - tare);
  under = g_strdup_printf ("%.0f", ceil (more));
  over = g_strdup_printf ("%.0f", floor (more) - 1);
  fleet_set (c, "trailers[0].axles[0].rated_lb", under);
  judge (c);
  expect (c, "weight_margin_pct", "gross weight", FL_BY_HOUSE, FL_MET);
  fleet_set (c, "trailers[0].axles[0].rated_lb", over);
  judge (c);
  expect_figures (expect (c, "weight_margin_pct", "axle 1", FL_BY_HOUSE, FL_SHORT), FL_LB (more), FL_LB (floor (more) - 1));
  expect (c, "axle_rating", "trailer axle 1", FL_BY_RATING, FL_MET);
  fleet_drop (c, "trailers[0].axles[0].rated_lb");
  judge (c);
  expect (c, "weight_margin_pct", "axle 1", FL_BY_HOUSE, FL_UNKNOWN);
}

/* 9,800 lb and 5 percent are 10,290: heavy, and four are asked. */
static void
test_margin_makes_heavy (void)
{
  g_autoptr(Case) c = house_case ("[{'rule': 'weight_margin_pct', 'pct': 5}]");

  fleet_set (c, "machines[0].weight_lb", "9800");
  judge (c);
  g_assert_cmpuint (count_of (c, "weight_margin_pct", FL_SHORT), ==, 0);
  plan_drop (c, "tie_downs[3]");
  judge (c);
  expect (c, "tie_down_count", "R-03", FL_BY_LAW, FL_MET);
  expect_figures (expect (c, "weight_margin_pct", "R-03", FL_BY_HOUSE, FL_SHORT), FL_COUNT (4), FL_COUNT (3));
  fleet_set (c, "house_rules", "[{'rule': 'weight_margin_pct', 'pct': 2}]");    /* 9,996 */
  judge (c);
  g_assert_cmpuint (count_of (c, "weight_margin_pct", FL_SHORT), ==, 0);
}

/* ── counts ── */

static void
test_four_below (void)
{
  g_autoptr(Case) c = house_case ("[{'rule': 'four_below_threshold'}]");

  judge (c);
  g_assert_null (found (c, "four_below_threshold", NULL));      /* 22,000 lb: the rule itself asks */
  fleet_set (c, "machines[0].weight_lb", "9000");
  judge (c);
  expect (c, "four_below_threshold", "R-03", FL_BY_HOUSE, FL_MET);
  fleet_set (c, "machines[0].locks[0].fitted", "false");
  judge (c);                    /* two on each section where four are asked */
  expect_words (expect (c, "four_below_threshold", "R-03", FL_BY_HOUSE, FL_SHORT), "No articulation lock");
  expect_shorts (c, "four_below_threshold", 1);
  fleet_drop (c, "machines[0].locks[0].fitted");
  judge (c);
  expect (c, "four_below_threshold", "R-03", FL_BY_HOUSE, FL_UNKNOWN);
  fleet_set (c, "machines[0].locks[0].fitted", "true");
  plan_drop (c, "tie_downs[4]");
  judge (c);
  expect_words (expect (c, "four_below_threshold", "R-03", FL_BY_HOUSE, FL_SHORT), "tie-down of its own");
  expect_shorts (c, "four_below_threshold", 1);
}

static void
test_four_below_count (void)
{
  g_autoptr(Case) c = house_case ("[{'rule': 'four_below_threshold'}]");

  fleet_set (c, "machines[0].weight_lb", "9000");
  plan_drop (c, "tie_downs[0]");
  judge (c);
  expect (c, "tie_down_count", "R-03", FL_BY_LAW, FL_MET);      /* 19.5 ft: three */
  expect_figures (expect (c, "four_below_threshold", "R-03", FL_BY_HOUSE, FL_SHORT), FL_COUNT (4), FL_COUNT (3));
  plan_drop (c, "tie_downs[0]");
  judge (c);                    /* nothing holds it rearward any more */
  g_assert_cmpuint (count_of (c, "four_below_threshold", FL_SHORT), ==, 2);
}

static void
test_length_count (void)
{
  g_autoptr(Case) c = house_case ("[{'rule': 'length_count_too'}]");
  FlMachine machine = { .weight = FL_LB (20000), .length = FL_NOT_MEASURED };

  judge (c);                    /* 19.5 ft, not blocked: three */
  expect_figures (expect (c, "length_count_too", "R-03", FL_BY_HOUSE, FL_MET), FL_COUNT (3), FL_COUNT (4));
  g_assert_cmpint (fl_house_count (c->book, &machine, FALSE), ==, G_MAXINT);
  fleet_set (c, "machines[0].length_in", "450");
  judge (c);                    /* A9 of the reference list: 37.5 ft, five */
  expect_figures (expect (c, "length_count_too", "R-03", FL_BY_HOUSE, FL_SHORT), FL_COUNT (5), FL_COUNT (4));
  fleet_set (c, "machines[0].weight_lb", "9000");
  judge (c);
  g_assert_null (found (c, "length_count_too", NULL));
}

/* ── places ── */

/* The blade is at the front of the machine, its lugs 60 in apart, the machine 93 in wide. */
static void
test_blade (void)
{
  static const struct { const char *facing, *over, *width; FlVerdict verdict; } cases[] = {
    { "'rearward'", "90", NULL, FL_MET },  { "'forward'", "93", NULL, FL_MET },    { "'forward'", "90", NULL, FL_UNKNOWN },
    { "'forward'", "90", "91", FL_SHORT }, { "'forward'", "90", "90", FL_MET },    { "'forward'", "59", NULL, FL_SHORT },
    { "'rearward'", "59", NULL, FL_MET },  { "'forward'", "100", "120", FL_SHORT },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *rules = g_strdup_printf ("[{'rule': 'over_wide_blade_rear', 'over_in': %s}]", cases[i].over);
      g_autoptr(Case) c = house_case (rules);

      plan_set (c, "loads[0].facing", cases[i].facing);
      if (cases[i].width != NULL)
        fleet_set (c, "machines[0].implements[0].width_in", cases[i].width);
      judge (c);
      expect (c, "over_wide_blade_rear", NULL, FL_BY_HOUSE, cases[i].verdict);
    }
}

/* Behind all else: another load behind the machine stands behind its blade too. */
static void
test_blade_behind (void)
{
  g_autoptr(Case) c = house_case ("[{'rule': 'over_wide_blade_rear', 'over_in': 59}]");

  fleet_set (c, "articles", "[{'id': 'BX', 'weight_lb': 300, 'length_in': 40, 'width_in': 40, 'height_in': 40}]");
  plan_set (c, "loads[1]", "{'article': 'BX', 'facing': 'forward', 'rear_in': -30}");
  judge (c);
  expect_words (expect (c, "over_wide_blade_rear", "R-03", FL_BY_HOUSE, FL_SHORT), "load BX stands behind it");
}

/* 35 + 120 = 155 in on a limit of 162: seven to spare. */
static void
test_height (void)
{
  g_autoptr(Case) c = house_case ("[{'rule': 'height_margin', 'length_in': 7}]");

  fleet_set (c, "moves[0].height_limit_in", "162");
  judge (c);
  expect_figures (expect (c, "height_margin", "loaded height", FL_BY_HOUSE, FL_MET), FL_IN (155), FL_IN (155));
  fleet_set (c, "house_rules", "[{'rule': 'height_margin', 'length_in': 7.5}]");
  judge (c);
  expect_figures (expect (c, "height_margin", "loaded height", FL_BY_HOUSE, FL_SHORT), FL_IN (155), FL_IN (154.5));
  expect (c, "size_height", "loaded height", FL_BY_PRACTICE, FL_MET);
  expect_shorts (c, "height_margin", 1);
  fleet_drop (c, "moves[0].height_limit_in");   /* then from 13 ft 6 in, 162 in */
  judge (c);
  expect (c, "height_margin", "loaded height", FL_BY_HOUSE, FL_SHORT);
}

/* ── the implement's own lock ── */

static void
test_lock (void)
{
  static const struct { const char *rules, *lock; gboolean met; } cases[] = {
    { "[{'rule': 'implement_lock_suffices'}]", "{'id': 'BLK', 'kind': 'other', 'on_machine': true, 'fitted': true}", TRUE },
    { "[]", "{'id': 'BLK', 'kind': 'other', 'on_machine': true, 'fitted': true}", FALSE },
    { "[{'rule': 'implement_lock_suffices'}]", "{'id': 'BLK', 'kind': 'other', 'on_machine': true}", FALSE },
    { "[{'rule': 'implement_lock_suffices'}]", "{'id': 'BLK', 'kind': 'other', 'on_machine': true, 'fitted': false}", FALSE },
    { "[{'rule': 'implement_lock_suffices'}]", "{'id': 'BLK', 'kind': 'other', 'fitted': true}", FALSE },
    { "[{'rule': 'implement_lock_suffices'}]", "{'id': 'OTH', 'kind': 'other', 'on_machine': true, 'fitted': true}", FALSE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr(Case) c = house_case (cases[i].rules);

      fleet_set (c, "machines[0].locks[1]", cases[i].lock);
      if (strstr (cases[i].lock, "BLK") != NULL)
        fleet_set (c, "machines[0].implements[0].lock", "'BLK'");
      plan_drop (c, "tie_downs[4]");
      judge (c);
      expect (c, "implements", "R-03", FL_BY_LAW, cases[i].met ? FL_MET : FL_SHORT);
      g_assert_true ((found (c, "implement_lock_suffices", "R-03") != NULL) == cases[i].met);
      if (cases[i].met)
        expect (c, "implement_lock_suffices", "R-03", FL_BY_HOUSE, FL_NOTE);
    }
}

/* ── strength, with both ends ── */

/* A chain that runs through eyes pulls on each with two legs: 8,000 lb count by half; two such chains have that between them. */
static void
test_through_eyes (void)
{
  g_autoptr(Case) c = house_case ("[]");
  const FlTieResult *ties;

  fleet_set (c, "machines[0].tie_points[0].rated_wll_lb", "8000");
  plan_set (c, "tie_downs", "[{'no': 1, 'load': 0, 'purpose': 'machine', 'kind': 'over', 'anchors': ['P10R', 'P10L'], 'through': ['RL', 'RR'], "
                            "'chain': 'C-041', 'binder': 'B-11', 'edge_protected': true}]");
  judge (c);
  ties = fl_assessment_parts (c->judged)->ties;
  g_assert_cmpfloat (fl_quantity_in (ties[0].wll, FL_UNIT_LB), ==, 4000);
  g_assert_cmpfloat (fl_quantity_in (ties[0].counts, FL_UNIT_LB), ==, 4000);    /* over to the other side: whole */
  g_assert_cmpstr (ties[0].limited_by, ==, "point RL");
  g_assert_true (step_says (expect (c, "aggregate_wll", "R-03", FL_BY_LAW, FL_SHORT), "over to the other side: 1 x 4,000 lb (point RL) = 4,000 lb"));
  g_assert_true (step_says (expect (c, "tie_down_count", "R-03", FL_BY_LAW, FL_SHORT), "each counts once"));
  plan_set (c, "tie_downs[1]", "{'no': 2, 'load': 0, 'purpose': 'machine', 'kind': 'over', 'anchors': ['P11R', 'P11L'], 'through': ['RL', 'RR'], "
                               "'chain': 'C-042', 'binder': 'B-12', 'edge_protected': true}");
  judge (c);
  g_assert_cmpfloat (fl_quantity_in (fl_assessment_parts (c->judged)->ties[1].wll, FL_UNIT_LB), ==, 2000);
}

/* Gear that is out of use makes no tie-down: three are left of four. */
static void
test_count_in_use (void)
{
  g_autoptr(Case) c = house_case ("[]");
  const FlFinding *f;

  fleet_set (c, "chains[0].inspections", "[{'date': '2026-11-20', 'findings': [{'kind': 'bent'}]}]");
  judge (c);
  f = expect (c, "tie_down_count", "R-03", FL_BY_LAW, FL_SHORT);
  expect_figures (f, FL_COUNT (4), FL_COUNT (3));
  g_assert_true (step_says (f, "1 without gear that may be used"));
}

static void
test_steps (void)
{
  g_autoptr(Case) c = house_case ("[]");
  const FlFinding *f;

  fleet_set (c, "machines[0].tie_points[0].rated_wll_lb", "3000");
  judge (c);
  f = expect (c, "gear_rating", "tie-down 1", FL_BY_LAW, FL_MET);
  g_assert_true (step_says (f, "chain C-041: 3/8, grade 70, limited by its mark: 6,600 lb"));
  g_assert_true (step_says (f, "point RL: rated 3,000 lb"));
  g_assert_true (step_says (f, "anchor P11R: rated 8,000 lb"));
  g_assert_true (step_says (f, "The least of these: point RL, 3,000 lb"));
  f = expect (c, "aggregate_wll", "R-03", FL_BY_LAW, FL_MET);
  g_assert_true (step_says (f, "Tie-down 1, direct: 0.5 x 3,000 lb (point RL) = 1,500 lb"));
  g_assert_true (step_says (f, "Their sum: 11,400 lb"));
  g_assert_true (step_says (f, "0.5 x weight 22,000 lb (scale ticket 2026-03-02) = 11,000 lb needed"));
  f = expect (c, "tie_down_count", "R-03", FL_BY_LAW, FL_MET);
  g_assert_true (step_says (f, "10,000 lb or more: 4"));
  g_assert_true (step_says (f, "4 hold the load itself; 1 for implements are not counted"));
}

/* Every house finding bears the fleet's own name for a source. */
static void
test_citation (void)
{
  g_autoptr(Case) c = house_case ("[{'rule': 'ratchet_only'}, {'rule': 'extra_aggregate_pct', 'pct': 1}, {'rule': 'height_margin', 'length_in': 1}, "
                                  "{'rule': 'weight_margin_pct', 'pct': 1}, {'rule': 'over_wide_blade_rear', 'over_in': 120}, "
                                  "{'rule': 'stand_in_rating', 'fitting': 'lug', 'wll_lb': 5000}, {'rule': 'inboard_of_rub_rail'}]");
  gsize n;
  guint house = 0;
  const FlFinding *findings;

  judge (c);
  findings = fl_assessment_findings (c->judged, &n);
  for (gsize i = 0; i < n; i++)
    if (findings[i].standing == FL_BY_HOUSE)
      {
        g_assert_cmpstr (findings[i].citation, ==, "house rule");
        house++;
      }
  g_assert_cmpuint (house, ==, 8);      /* one each, the margin of tie-downs and of the vehicle */
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/judge-house/chain-allowance", test_chain_allowance);
  g_test_add_func ("/judge-house/chain-allowance/bare", test_chain_allowance_bare);
  g_test_add_func ("/judge-house/ratchet-only", test_ratchet_only);
  g_test_add_func ("/judge-house/inboard", test_inboard);
  g_test_add_func ("/judge-house/inboard/bare", test_inboard_bare);
  g_test_add_func ("/judge-house/band", test_band);
  g_test_add_func ("/judge-house/band/bare", test_band_bare);
  g_test_add_func ("/judge-house/min-chain", test_min_chain);
  g_test_add_func ("/judge-house/stand-in", test_stand_in);
  g_test_add_func ("/judge-house/stand-in/shared", test_stand_in_shared);
  g_test_add_func ("/judge-house/stand-in/each", test_stand_in_each);
  g_test_add_func ("/judge-house/extra", test_extra);
  g_test_add_func ("/judge-house/margin", test_margin);
  g_test_add_func ("/judge-house/margin/extra", test_margin_and_extra);
  g_test_add_func ("/judge-house/margin/axles", test_margin_axles);
  g_test_add_func ("/judge-house/margin/heavy", test_margin_makes_heavy);
  g_test_add_func ("/judge-house/four-below", test_four_below);
  g_test_add_func ("/judge-house/four-below/count", test_four_below_count);
  g_test_add_func ("/judge-house/length-count", test_length_count);
  g_test_add_func ("/judge-house/blade", test_blade);
  g_test_add_func ("/judge-house/blade/behind", test_blade_behind);
  g_test_add_func ("/judge-house/height", test_height);
  g_test_add_func ("/judge-house/lock", test_lock);
  g_test_add_func ("/judge-house/through-eyes", test_through_eyes);
  g_test_add_func ("/judge-house/count-in-use", test_count_in_use);
  g_test_add_func ("/judge-house/steps", test_steps);
  g_test_add_func ("/judge-house/citation", test_citation);
  return test_done (g_test_run ());
}
