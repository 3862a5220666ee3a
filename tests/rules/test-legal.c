/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Legal weights and sizes, the nearest cure, the deck's strength, kinds of vehicle, and records that make no sense. Worked out by hand beside
 * each check: beams by force and moment (any textbook of statics), weights by 23 CFR 658.17 (fl-legal.h, tests/published). The example's
 * axle group stands at 85.5 in, its coupling at 366, 280.5 apart; its center of gravity at 117, 31.5 ahead of the group. */
#include "fl-test-judge.h"

/* The example as tractor and semitrailer: fifth wheel over the middle of the drives (26 in), kingpin at 366; no band of its own. In the trailer's
 * frame the truck's axles stand at 540, 392 and 340. */
static Case *
semitrailer (const char *weight)
{
  Case *c = case_new ();

  fleet_set (c, "trucks[0].coupling.kind", "'fifth_wheel'");
  fleet_set (c, "trucks[0].coupling.x_in", "26");
  fleet_set (c, "trucks[0].coupling.rated_vertical_lb", "40000");
  fleet_set (c, "trailers[0].coupling.kind", "'kingpin'");
  fleet_set (c, "trailers[0].coupling.rated_vertical_lb", "40000");
  fleet_drop (c, "trailers[0].coupling.share_pct");
  fleet_set (c, "machines[0].weight_lb", weight);
  return c;
}

/* ── kinds of vehicle ── */

/* 22,000 * 31.5 / 280.5 = 2,470.6 on the kingpin and 1,500 empty; over the middle of the drives: steer axle as empty. */
static void
test_semitrailer (void)
{
  g_autoptr(Case) c = semitrailer ("22000");
  const double pin = 1500 + 22000 * 31.5 / 280.5;

  judge (c);
  g_assert_cmpfloat_with_epsilon (axle_load (c, "coupling"), pin, 0.01);
  g_assert_cmpfloat_with_epsilon (axle_load (c, "truck 1"), 11000, 0.01);
  g_assert_cmpfloat_with_epsilon (axle_load (c, "truck 2"), 5500 + pin / 2, 0.01);
  g_assert_cmpfloat_with_epsilon (axle_load (c, "truck 3"), 5500 + pin / 2, 0.01);
  g_assert_null (found (c, "steer_axle", NULL));        /* not lighter than empty */
}

/* A ball 8 in ahead of the rear axle's middle: 34 in; the drives 26: 3,970.6 * 8 / 174 on the steer axle. Shares 3 to 1 in the trailer's group:
 * the group stands at (3 * 110 + 61) / 4 = 97.75. */
static void
test_gooseneck (void)
{
  g_autoptr(Case) c = case_new ();
  const double on = 22000 * (117 - 97.75) / (366 - 97.75), ball = 1500 + on;

  fleet_set (c, "trucks[0].coupling.kind", "'gooseneck_ball'");
  fleet_set (c, "trucks[0].coupling.x_in", "34");
  fleet_set (c, "trailers[0].coupling.kind", "'gooseneck_coupler'");
  fleet_set (c, "trailers[0].axles[0].share", "0.75");
  fleet_set (c, "trailers[0].axles[1].share", "0.25");
  judge (c);
  expect (c, "coupling_kind", "coupling", FL_BY_RATING, FL_MET);
  g_assert_cmpfloat_with_epsilon (axle_load (c, "coupling"), ball, 0.01);
  g_assert_cmpfloat_with_epsilon (axle_load (c, "truck 1"), 11000 + ball * 8 / 174, 0.01);
  g_assert_cmpfloat_with_epsilon (axle_load (c, "trailer 1"), 4350 + 0.75 * (22000 - on), 0.01);
  g_assert_cmpfloat_with_epsilon (axle_load (c, "trailer 2"), 4350 + 0.25 * (22000 - on), 0.01);
}

/* A truck that carries the load itself: steer axle at 300, two rear axles about 85.5; 22,000 * 31.5 / 214.5 on the steer axle. */
static Case *
rollback (void)
{
  Case *c = case_new ();

  fleet_drop (c, "trailers[0].coupling");
  fleet_drop (c, "moves[0].truck");
  fleet_set (c, "trailers[0].axles[2]", "{'x_in': 300, 'tare_lb': 9000, 'rated_lb': 20000, 'steer': true, 'group': 2}");
  fleet_set (c, "trailers[0].tare_lb", "17700");
  plan_drop (c, "truck");
  return c;
}

static void
test_rollback (void)
{
  g_autoptr(Case) c = rollback ();
  const double on = 22000 * 31.5 / 214.5;

  judge (c);
  g_assert_cmpfloat_with_epsilon (axle_load (c, "trailer 1"), 9000 + on, 0.01);
  g_assert_cmpfloat_with_epsilon (axle_load (c, "trailer 2"), 4350 + (22000 - on) / 2, 0.01);
  g_assert_null (found (c, "coupling_share", NULL));
  g_assert_null (found (c, "coupling_kind", NULL));
  expect_figures (expect (c, "gross_legal", "gross weight", FL_BY_LAW, FL_MET), FL_LB (39700), FL_LB (80000));
  expect (c, "axle_legal", "axles 2-3", FL_BY_LAW, FL_MET);
  g_assert_true (step_says (expect (c, "axle_rating", "trailer axle 1", FL_BY_RATING, FL_MET), "31.5 in ahead of the rear axle group"));
  plan_set (c, "truck", "'K-2'");
  judge (c);
  expect_words (expect (c, "axle_rating", "truck axles", FL_BY_RATING, FL_UNKNOWN), "no coupling");
}

/* Its load behind the rear axles takes weight off the steering axle: 22,000 at 57 is 28.5 behind; 9,000 - 22,000 * 28.5 / 214.5 = 6,077, of
 * 39,700 only 15.3 percent. For a fifth, 7,940, the load stands 10.34 behind at most: 18.2 in forward, in whole inches 19. */
static void
test_rollback_steering (void)
{
  g_autoptr(Case) c = rollback ();
  const FlFinding *f;

  plan_set (c, "loads[0].rear_in", "-50");
  judge (c);
  f = expect (c, "steer_axle", "trailer axle 1", FL_BY_PRACTICE, FL_CAUTION);
  expect_figures (f, FL_PCT (20), FL_PCT (100 * (9000 - 22000 * 28.5 / 214.5) / 39700));
  expect_words (f, "set load R-03 19 in further forward");
  expect_words (f, "15.3 %");
}

/* ── axle groups ── */

static void
test_groups (void)
{
  g_autoptr(Case) c = case_new ();
  const FlFinding *f;

  judge (c);
  f = expect (c, "axle_legal", "axles 4-5", FL_BY_LAW, FL_MET);
  expect_figures (f, FL_LB (8700 + 22000 * (1 - 31.5 / 280.5)), FL_LB (34000));
  g_assert_true (step_says (f, "axle 1: carries 8,992 lb, may carry 20,000 lb"));
  g_assert_true (step_says (f, "axles 2-3: 2 axles, spread 52 in"));
  /* All five over 567 in = 47.25 ft, 47: 500 * (47 * 5 / 4 + 60 + 36) = 77,375, 77,500. */
  f = expect (c, "bridge_formula", "axles 1-5", FL_BY_LAW, FL_MET);
  expect_figures (f, FL_LB (54200), FL_LB (77500));
  g_assert_true (step_says (f, "L = 47 (spread 47 ft 3 in"));
  g_assert_true (step_says (f, "77,375 lb"));
  g_assert_cmpuint (count_of (c, "axle_legal", FL_MET), ==, 1);
  g_assert_cmpuint (count_of (c, "bridge_formula", FL_MET), ==, 1);
}

/* Axles 98 in apart are no tandem any more and no row of the formula yet: 38,000. At 96 in 34,000. */
static void
test_special_row (void)
{
  g_autoptr(Case) c = semitrailer ("34000");
  const double on = 8700 + 34000 * (1 - (117 - 61.0) / (366 - 61.0));

  fleet_set (c, "trailers[0].axles[1].x_in", "12");     /* group at 61 */
  judge (c);
  g_assert_cmpfloat_with_epsilon (axle_load (c, "trailer 1") + axle_load (c, "trailer 2"), on, 0.01);
  g_assert_true (step_says (expect (c, "bridge_formula", NULL, FL_BY_LAW, FL_MET), "axles 4-5: 2 axles, spread 8 ft 2 in: carries 36,457 lb, may carry 38,000 lb"));
  fleet_set (c, "trailers[0].axles[1].x_in", "14");
  judge (c);
  expect_figures (expect (c, "axle_legal", "axles 4-5", FL_BY_LAW, FL_CAUTION), FL_LB (8700 + 34000 * (1 - 55 / 304.0)), FL_LB (34000));
}

/* Without a truck only the trailer's own axles are looked at, and it is said. */
static void
test_without_truck (void)
{
  g_autoptr(Case) c = case_new ();

  plan_drop (c, "truck");
  judge (c);
  expect_words (expect (c, "axle_legal", "trailer axles 1-2", FL_BY_LAW, FL_NOTE), "only the trailer's");
  g_assert_null (found (c, "bridge_formula", NULL));    /* two axles 49 in apart are no group for it */
  expect_words (expect (c, "gross_legal", "gross weight", FL_BY_LAW, FL_NOTE), "without the truck");
}

/* Two tandems with 36 ft between their outer axles: drives at 392 and 340, trailer's at -40 and 9: 432 in. 2 * 34,000 where 500 * (36 * 4 / 3 +
 * 48 + 36) = 66,000. An inch less: 66,000. */
static void
test_pair (void)
{
  g_autoptr(Case) c = semitrailer ("45000");

  fleet_set (c, "trailers[0].axles[0].x_in", "9");
  fleet_set (c, "trailers[0].axles[1].x_in", "-40");
  judge (c);
  g_assert_true (step_says (expect (c, "bridge_formula", NULL, FL_BY_LAW, FL_MET), "axles 2-5: 4 axles, spread 36 ft: carries 66,200 lb, may carry 68,000 lb"));
  fleet_set (c, "trailers[0].axles[1].x_in", "-39");
  judge (c);
  g_assert_true (step_says (expect (c, "bridge_formula", NULL, FL_BY_LAW, FL_CAUTION), "axles 2-5: 4 axles, spread 35 ft 11 in: carries 66,200 lb, may carry 66,000 lb"));
}

static void
test_gross (void)
{
  g_autoptr(Case) c = semitrailer ("47801");
  const FlFinding *f;

  judge (c);
  f = expect (c, "gross_legal", "gross weight", FL_BY_LAW, FL_CAUTION);
  expect_figures (f, FL_LB (80001), FL_LB (80000));
  g_assert_true (step_says (f, "Trailer empty 10,200 lb + load 47,801 lb = 58,001 lb"));
  fleet_set (c, "machines[0].weight_lb", "47800");
  judge (c);
  expect (c, "gross_legal", "gross weight", FL_BY_LAW, FL_MET);
  fleet_drop (c, "trailers[0].tare_lb");
  fleet_drop (c, "trailers[0].coupling.tare_lb");
  judge (c);
  expect (c, "gross_legal", "gross weight", FL_BY_ADVICE, FL_UNKNOWN);
  expect (c, "axle_legal", "axles", FL_BY_ADVICE, FL_UNKNOWN);
}

/* ── the nearest cure ── */

/* 4,350 + 22,000 * (1 - d / 280.5) / 2 <= 14,000: d >= 34.43, which is 2.93 in further forward than 31.5. */
static void
test_cure_axle (void)
{
  g_autoptr(Case) c = case_new ();
  const FlFinding *f;

  fleet_set (c, "trailers[0].axles[0].rated_lb", "14000");
  judge (c);
  f = expect (c, "axle_rating", "trailer axle 1", FL_BY_RATING, FL_SHORT);
  expect_words (f, "set load R-03 3 in further forward");
  g_assert_true (step_says (f, "31.5 in ahead of the axle group"));
  plan_set (c, "loads[0].rear_in", "13");
  judge (c);
  expect (c, "axle_rating", "trailer axle 1", FL_BY_RATING, FL_MET);
  plan_set (c, "loads[0].rear_in", "12");       /* an inch less would not do */
  judge (c);
  expect_words (expect (c, "axle_rating", "trailer axle 1", FL_BY_RATING, FL_SHORT), "1 in further forward");
  /* 13,000 would want 28.4 in, and then 19 percent on the coupling, where 15 are wanted. */
  fleet_set (c, "trailers[0].axles[0].rated_lb", "13000");
  judge (c);
  expect_words (expect (c, "axle_rating", "trailer axle 1", FL_BY_RATING, FL_SHORT), "no other place");
}

/* 8,700 + 40,000 * (1 - d / 280.5) <= 34,000: d >= 103.08, 71.6 in further forward: 72. The four axles 2-5 have 61,200 wherever it stands,
 * over 331 in = 27.6 ft, 28: 60,500. */
static void
test_cure_tandem (void)
{
  g_autoptr(Case) c = semitrailer ("40000");
  const FlFinding *f;

  judge (c);
  f = expect (c, "axle_legal", "axles 4-5", FL_BY_LAW, FL_CAUTION);
  expect_figures (f, FL_LB (8700 + 40000 * (1 - 31.5 / 280.5)), FL_LB (34000));
  expect_words (f, "10,208 lb over");
  expect_words (f, "set load R-03 6 ft further forward");
  f = expect (c, "bridge_formula", "axles 2-5", FL_BY_LAW, FL_CAUTION);
  expect_figures (f, FL_LB (61200), FL_LB (60500));
  expect_words (f, "no other place");
  plan_set (c, "loads[0].rear_in", "82");
  judge (c);
  expect (c, "axle_legal", NULL, FL_BY_LAW, FL_MET);
  plan_set (c, "loads[0].rear_in", "81");
  judge (c);
  expect_words (expect (c, "axle_legal", "axles 4-5", FL_BY_LAW, FL_CAUTION), "1 in further forward");
}

/* The same place, but the deck does not carry there: no cure. */
static void
test_cure_stands (void)
{
  g_autoptr(Case) c = semitrailer ("40000");

  fleet_set (c, "trailers[0].deck.zones[1]", "{'id': 'main', 'x0_in': 0, 'x1_in': 255, 'z_in': 0}");
  fleet_set (c, "trailers[0].deck.zones[2]", "{'id': 'end', 'x0_in': 255, 'x1_in': 288, 'z_in': 0, 'carries': false}");
  judge (c);
  expect_words (expect (c, "axle_legal", "axles 4-5", FL_BY_LAW, FL_CAUTION), "no other place");
}

/* Coupling: 1,500 + 22,000 * d / 280.5 <= 3,800 for d <= 29.3: 2.2 in further back, 3. Share of at least 5 percent, 1,610: d >= 1.40; from -0.5 1.9, 2. Out of
 * its band of 8, 2,576: d >= 13.72; from 11.5 2.2, 3. */
static void
test_cure_coupling (void)
{
  g_autoptr(Case) c = case_new ();

  fleet_set (c, "trucks[0].coupling.rated_vertical_lb", "3800");
  judge (c);
  expect_words (expect (c, "coupling_rating", "coupling", FL_BY_RATING, FL_SHORT), "set load R-03 3 in further back");
  fleet_set (c, "trucks[0].coupling.rated_vertical_lb", "10000");
  plan_set (c, "loads[0].rear_in", "-22");
  judge (c);
  expect_words (expect (c, "coupling_share", "coupling", FL_BY_RATING, FL_SHORT), "Set load R-03 2 in further forward");
  plan_set (c, "loads[0].rear_in", "-10");
  judge (c);
  expect_words (expect (c, "coupling_share", "coupling", FL_BY_RATING, FL_CAUTION), "set load R-03 3 in further forward");
}

/* 12,470.6 lb behind the truck leave 11,000 - 12,470.6 * 88 / 174 = 4,693 on the steering axle, 13.6 percent of 34,470.6. A fifth is left where
 * the coupling has 9,352: the load 8.26 behind the group, 39.8 in back, 40. */
static void
test_cure_steering (void)
{
  g_autoptr(Case) c = case_new ();
  const FlFinding *f;

  fleet_set (c, "trailers[0].coupling.tare_lb", "10000");
  fleet_set (c, "trailers[0].tare_lb", "18700");
  judge (c);
  f = expect (c, "steer_axle", "truck axle 1", FL_BY_PRACTICE, FL_CAUTION);
  expect_figures (f, FL_PCT (20), FL_PCT (100 * (11000 - 12470.588 * 88 / 174) / 34470.588));
  expect_words (f, "set load R-03 40 in further back");
  g_assert_true (step_says (f, "7 ft 4 in behind the rear axle group"));
}

/* Two loads: the one that has to move less. The bucket of 1,400 lb would have to go far; the roller's inches do. */
static void
test_cure_of_two (void)
{
  g_autoptr(Case) c = case_new ();
  const FlFinding *f;

  fleet_drop (c, "moves[0].machine");
  fleet_set (c, "moves[0].loads", "[{'machine': 'R-03'}, {'article': 'A-1'}]");
  plan_set (c, "loads[0].rear_in", "-40");
  plan_set (c, "loads[1]", "{'article': 'A-1', 'facing': 'forward', 'rear_in': 214}");
  judge (c);
  /* (1500 + 22000 * (67 - 85.5) / 280.5 + 1400 * (244 - 85.5) / 280.5) / 33600 = 2.5 percent; 5 want 839.9 lb more: 10.7 in of 22,000 lb. */
  f = expect (c, "coupling_share", "coupling", FL_BY_RATING, FL_SHORT);
  expect_words (f, "Set load R-03 11 in further forward");
  /* With the bucket 10 in ahead of it there is no room for that. */
  plan_set (c, "loads[1].rear_in", "204");
  judge (c);
  expect_words (expect (c, "coupling_share", "coupling", FL_BY_RATING, FL_SHORT), "no other place");
}

/* ── the deck ── */

/* Lines across instead of patches: 22,000 lb at 117 on a drum at 64 and tires at 179: 22,000 * 62 / 115 on the drum. */
static void
test_concentrated (void)
{
  g_autoptr(Case) c = case_new ();
  const double drum = 22000 * 62 / 115.0;
  const FlFinding *f;

  for (guint i = 0; i < 3; i++)
    {
      g_autofree char *path = g_strdup_printf ("machines[0].contacts[%u].length_in", i);

      fleet_drop (c, path);
    }
  fleet_set (c, "trailers[0].concentrated", "[{'span_in': 60, 'capacity_lb': 11800}]");
  judge (c);
  f = expect (c, "concentrated", "deck", FL_BY_RATING, FL_SHORT);
  expect_figures (f, FL_LB (drum), FL_LB (11800));
  g_assert_true (step_says (f, "carries 11,861 lb of 22,000 lb"));
  expect_whole (c, FL_NOT_COMPLIANT, FL_HOUSE_MET);
  fleet_set (c, "trailers[0].concentrated[0].capacity_lb", "11900");
  judge (c);
  expect (c, "concentrated", "deck", FL_BY_RATING, FL_MET);
  fleet_set (c, "trailers[0].concentrated", "[{'span_in': 60, 'capacity_lb': 12000}, {'span_in': 115, 'capacity_lb': 20000}]");
  judge (c);                    /* 115 in reach from one to the other: all of it */
  expect_figures (expect (c, "concentrated", "deck", FL_BY_RATING, FL_SHORT), FL_LB (22000), FL_LB (20000));
}

/* From 61 to 186, 125 in, under a span of 144: 22,000 / 125 * 12 = 2,112 lb for each foot, 24,000 / 144 * 12 = 2,000 by the rating. */
static void
test_short_load (void)
{
  g_autoptr(Case) c = case_new ();

  fleet_set (c, "trailers[0].concentrated", "[{'span_in': 144, 'capacity_lb': 24000}]");
  judge (c);
  expect (c, "concentrated", "deck", FL_BY_RATING, FL_MET);
  expect_figures (expect (c, "concentrated", "R-03", FL_BY_ADVICE, FL_CAUTION), FL_LB (2112), FL_LB (2000));
  expect_whole (c, FL_COMPLIANT, FL_HOUSE_MET);
  fleet_set (c, "trailers[0].concentrated[0].capacity_lb", "25344");
  judge (c);
  g_assert_cmpuint (count_of (c, "concentrated", FL_CAUTION), ==, 0);
}

static void
test_deck_unknown (void)
{
  g_autoptr(Case) c = case_new ();

  fleet_drop (c, "machines[0].contacts");
  judge (c);                    /* 22,000 lb are within 40,000 however they bear */
  expect (c, "concentrated", "deck", FL_BY_RATING, FL_MET);
  fleet_set (c, "trailers[0].concentrated[0].capacity_lb", "21000");
  judge (c);
  expect_words (expect (c, "concentrated", "deck", FL_BY_ADVICE, FL_UNKNOWN), "contacts");
  fleet_drop (c, "trailers[0].concentrated");
  judge (c);
  expect_words (expect (c, "concentrated", "deck", FL_BY_ADVICE, FL_UNKNOWN), "not on record");
}

/* ── sizes ── */

static void
test_size_steps (void)
{
  g_autoptr(Case) c = case_new ();

  judge (c);
  g_assert_true (step_says (expect (c, "size_height", "loaded height", FL_BY_PRACTICE, FL_MET), "deck 35 in + load 10 ft = 12 ft 11 in"));
  g_assert_true (step_says (expect (c, "size_width", "loaded width", FL_BY_LAW, FL_MET), "46.5 in to the left"));
  /* A blade drawn wider than the machine: 60 in to its left; facing rearward that is to the right. And a mast higher than its height. */
  fleet_set (c, "machines[0].solids[1]", "{'name': 'blade', 'min': {'x_in': 215, 'y_in': -50, 'z_in': 5}, 'max': {'x_in': 230, 'y_in': 60, 'z_in': 125}}");
  judge (c);
  expect_figures (expect (c, "size_width", "loaded width", FL_BY_LAW, FL_CAUTION), FL_IN (111), FL_IN (102));
  expect_figures (expect (c, "size_height", "loaded height", FL_BY_PRACTICE, FL_MET), FL_IN (160), FL_IN (162));
}

/* Flags of 49 CFR 393.87 (from memory): more than 4 ft behind, more than 4 in beside. The tail reaches to -72. */
static void
test_overhang (void)
{
  g_autoptr(Case) c = case_new ();

  judge (c);
  expect (c, "size_overhang", "overhang", FL_BY_LAW, FL_MET);
  plan_set (c, "loads[0].rear_in", "-119");     /* 47 behind the tail */
  judge (c);
  expect_words (expect (c, "size_overhang", "overhang", FL_BY_LAW, FL_NOTE), "47 in behind");
  plan_set (c, "loads[0].rear_in", "-121");
  judge (c);
  expect_words (expect (c, "size_overhang", "overhang", FL_BY_LAW, FL_CAUTION), "49 in behind");
  plan_set (c, "loads[0].rear_in", "60");       /* to 294 of 288 */
  judge (c);
  expect_words (expect (c, "size_overhang", "overhang", FL_BY_LAW, FL_NOTE), "6 in ahead");
  plan_set (c, "loads[0].rear_in", "10");
  fleet_set (c, "machines[0].width_in", "110");
  judge (c);
  expect (c, "size_overhang", "overhang", FL_BY_LAW, FL_MET);    /* 4 in on each side */
  fleet_set (c, "machines[0].width_in", "111");
  judge (c);
  expect_words (expect (c, "size_overhang", "overhang", FL_BY_LAW, FL_CAUTION), "4.5 in beside");
}

/* A permit is for what cannot be divided (23 CFR 658.5, from memory). */
static void
test_divisible (void)
{
  g_autoptr(Case) c = semitrailer ("46600");

  fleet_set (c, "moves[0].attachments", "['ditching bucket', 'ballast']");
  judge (c);                    /* axles over, gross not */
  expect_words (expect (c, "divisible", "permit", FL_BY_LAW, FL_CAUTION), "ditching bucket, ballast");
  fleet_set (c, "machines[0].weight_lb", "15000");
  judge (c);
  g_assert_null (found (c, "divisible", NULL));
  fleet_drop (c, "moves[0].attachments");
  fleet_drop (c, "moves[0].machine");
  fleet_set (c, "machines[0].weight_lb", "46600");
  fleet_set (c, "moves[0].loads", "[{'machine': 'R-03'}, {'article': 'A-1'}]");
  plan_set (c, "loads[1]", "{'article': 'A-1', 'facing': 'forward', 'rear_in': 225}");
  judge (c);
  expect_words (expect (c, "divisible", "permit", FL_BY_LAW, FL_CAUTION), "Several loads");
}

/* ── records that make no sense ── */

static void
expect_no_nan (const Case *c)
{
  g_autofree char *text = result_text (c->judged), *small = g_ascii_strdown (text, -1);

  g_assert_null (strstr (small, "nan"));
  g_assert_null (strstr (small, "inf,"));
  g_assert_null (strstr (small, "∞"));
}

static void
test_bad_vehicles (void)
{
  static const struct { const char *path, *json, *subject, *words; } cases[] = {
    { "trailers[0].coupling.x_in", "85.5", "trailer axles", "one and the same place" },
    { "trailers[0].axles[1].group", "2", "trailer axles", "more than two supports" },
    { "trucks[0].axles[1].group", "3", "truck axles", "more than two axle groups" },
    { "trucks[0].axles[0].group", "2", "truck axles", "fewer than two" },
    { "trucks[0].axles[0].x_in", "26", "truck axles", "one and the same place" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr(Case) c = case_new ();

      fleet_set (c, cases[i].path, cases[i].json);
      judge (c);
      expect_words (expect (c, "axle_rating", cases[i].subject, FL_BY_RATING, FL_UNKNOWN), cases[i].words);
      expect_whole (c, FL_INCOMPLETE, FL_HOUSE_MET);
      expect_no_nan (c);
    }
}

/* A coupling ahead of nothing: no axles at all, if the fleet is taken with them. One axle group and no coupling. */
static void
test_nothing_to_stand_on (void)
{
  g_autoptr(Case) c = case_new ();

  c->quiet = TRUE;
  fleet_set (c, "trailers[0].axles", "[]");
  if (case_read (c))
    {
      judge (c);
      expect_words (expect (c, "axle_rating", "trailer axles", FL_BY_RATING, FL_UNKNOWN), "no axles");
      expect_no_nan (c);
    }
  fleet_set (c, "trailers[0].axles", "[{'x_in': 85, 'tare_lb': 8700, 'rated_lb': 40000}]");
  fleet_drop (c, "trailers[0].coupling");
  plan_drop (c, "truck");
  judge (c);
  expect_words (expect (c, "axle_rating", "trailer axles", FL_BY_RATING, FL_UNKNOWN), "nothing else to stand on");
  expect_no_nan (c);
}

/* No place, no weight that acts anywhere: said, and no figure is made up. */
static void
test_no_place (void)
{
  g_autoptr(Case) c = case_new ();

  fleet_drop (c, "machines[0].center_of_gravity");
  plan_set (c, "loads[0].rear_in", "1200");
  judge (c);
  expect_no_nan (c);
  plan_drop (c, "loads[0].rear_in");
  c->quiet = TRUE;
  if (case_read (c))
    {
      judge (c);
      expect_no_nan (c);
      g_assert_null (found (c, "size_overhang", NULL));
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/legal/kinds/semitrailer", test_semitrailer);
  g_test_add_func ("/legal/kinds/gooseneck", test_gooseneck);
  g_test_add_func ("/legal/kinds/rollback", test_rollback);
  g_test_add_func ("/legal/kinds/rollback-steering", test_rollback_steering);
  g_test_add_func ("/legal/weights/groups", test_groups);
  g_test_add_func ("/legal/weights/special-row", test_special_row);
  g_test_add_func ("/legal/weights/without-truck", test_without_truck);
  g_test_add_func ("/legal/weights/two-tandems", test_pair);
  g_test_add_func ("/legal/weights/gross", test_gross);
  g_test_add_func ("/legal/cure/axle", test_cure_axle);
  g_test_add_func ("/legal/cure/tandem", test_cure_tandem);
  g_test_add_func ("/legal/cure/stands-on-deck", test_cure_stands);
  g_test_add_func ("/legal/cure/coupling", test_cure_coupling);
  g_test_add_func ("/legal/cure/steering", test_cure_steering);
  g_test_add_func ("/legal/cure/two-loads", test_cure_of_two);
  g_test_add_func ("/legal/deck/concentrated", test_concentrated);
  g_test_add_func ("/legal/deck/short-load", test_short_load);
  g_test_add_func ("/legal/deck/unknown", test_deck_unknown);
  g_test_add_func ("/legal/sizes/steps", test_size_steps);
  g_test_add_func ("/legal/sizes/overhang", test_overhang);
  g_test_add_func ("/legal/divisible", test_divisible);
  g_test_add_func ("/legal/bad/vehicles", test_bad_vehicles);
  g_test_add_func ("/legal/bad/nothing-to-stand-on", test_nothing_to_stand_on);
  g_test_add_func ("/legal/bad/no-place", test_no_place);
  return test_done (g_test_run ());
}
