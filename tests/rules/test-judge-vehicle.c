/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The load on its vehicle: what it stands on, axles, coupling, plates, sizes, ramp; the move as a whole, and how well figures are
 * known. Axle loads are worked out by hand beside each check as a beam (any textbook of statics). The example's axle group stands at
 * 85.5 in, its coupling at 366, its center of gravity at 10 + 234 - 127 = 117. */
#include "fl-test-judge.h"

/* ── where it stands ── */

/* The drum's middle is at 10 + 234 - 180 = 64 less what the load moves back; the tail does not carry. */
static void
test_carrying_zone (void)
{
  g_autoptr(Case) c = case_new ();

  plan_set (c, "loads[0].rear_in", "-51");      /* its patch from 0 to 6 */
  judge (c);
  expect (c, "stands_on_deck", "R-03", FL_BY_RATING, FL_MET);
  plan_set (c, "loads[0].rear_in", "-52");
  judge (c);
  expect_words (expect (c, "stands_on_deck", "R-03", FL_BY_RATING, FL_SHORT), "does not carry");
  fleet_set (c, "trailers[0].deck.zones[0].carries", "true");
  judge (c);
  expect (c, "stands_on_deck", "R-03", FL_BY_RATING, FL_MET);
}

/* Tires at 36 in, 20 in wide: the outer edge at 46, on a deck of half width 51. */
static void
test_sideways (void)
{
  g_autoptr(Case) c = case_new ();

  plan_set (c, "loads[0].left_in", "6");
  judge (c);
  expect (c, "stands_on_deck", "R-03", FL_BY_PRACTICE, FL_CAUTION);
  g_assert_cmpuint (count_of (c, "stands_on_deck", FL_SHORT), ==, 0);
  plan_set (c, "loads[0].left_in", "16");       /* a tire's middle at 52 */
  judge (c);
  expect_words (expect (c, "stands_on_deck", "R-03", FL_BY_RATING, FL_SHORT), "beside the deck");
}

static void
test_clear_width (void)
{
  g_autoptr(Case) c = case_new ();
  const FlFinding *f;

  fleet_set (c, "trailers[0].clear_width_in", "92");    /* 2 * 36 + 20 on the ground */
  judge (c);
  expect (c, "stands_on_deck", "R-03", FL_BY_RATING, FL_MET);
  fleet_set (c, "trailers[0].clear_width_in", "91");
  judge (c);
  f = expect (c, "stands_on_deck", "R-03", FL_BY_PRACTICE, FL_SHORT);
  expect_figures (f, FL_IN (92), FL_IN (91));
}

/* Its engine bay, 40 to 80 high, reaches from 144 to 224; a raised zone of 45 in would be in it. */
static void
test_body_and_neck (void)
{
  g_autoptr(Case) c = case_new ();

  fleet_set (c, "trailers[0].deck.zones[1]", "{'id': 'main', 'x0_in': 0, 'x1_in': 200, 'z_in': 0}");
  fleet_set (c, "trailers[0].deck.zones[2]", "{'id': 'neck', 'x0_in': 200, 'x1_in': 288, 'z_in': 45}");
  judge (c);
  expect_words (expect (c, "stands_on_deck", "R-03", FL_BY_PRACTICE, FL_SHORT), "engine bay");
  fleet_set (c, "trailers[0].deck.zones[2].z_in", "39");
  judge (c);
  g_assert_cmpuint (count_of (c, "stands_on_deck", FL_SHORT), ==, 0);
}

/* The bucket of the example as a second load: 60 in long, 40 wide. */
static void
add_article (Case *c, const char *rear)
{
  g_autofree char *json = g_strdup_printf ("{'article': 'A-1', 'facing': 'forward', 'rear_in': %s}", rear);

  fleet_drop (c, "moves[0].machine");
  fleet_set (c, "moves[0].loads", "[{'machine': 'R-03'}, {'article': 'A-1'}]");
  plan_set (c, "loads[1]", json);
}

static void
test_two_loads (void)
{
  g_autoptr(Case) c = case_new ();
  const FlFinding *f;

  add_article (c, "243");       /* the roller ends at 244 */
  judge (c);
  f = expect (c, "stands_on_deck", "R-03", FL_BY_PRACTICE, FL_SHORT);
  expect_words (f, "load A-1");
  expect (c, "stands_on_deck", "A-1", FL_BY_RATING, FL_SHORT);  /* and beyond the deck: 303 of 288 */
  plan_set (c, "loads[0].rear_in", "-20");
  plan_set (c, "loads[1].rear_in", "214");
  judge (c);
  expect (c, "stands_on_deck", "A-1", FL_BY_RATING, FL_MET);
  g_assert_cmpuint (count_of (c, "stands_on_deck", FL_SHORT), ==, 0);
  expect_figures (expect (c, "aggregate_wll", "A-1", FL_BY_LAW, FL_SHORT), FL_LB (700), FL_LB (0));
  expect_figures (expect (c, "capacity", "trailer capacity", FL_BY_RATING, FL_MET), FL_LB (23400), FL_LB (39800));
}

/* ── axles ── */

/* Both loads add: the bucket's middle at 244, (22000 * (87 - 85.5) + 1400 * (244 - 85.5)) / 280.5 on the coupling. */
static void
test_loads_add (void)
{
  g_autoptr(Case) c = case_new ();
  const double on_coupling = (22000 * 1.5 + 1400 * 158.5) / 280.5;

  add_article (c, "214");
  plan_set (c, "loads[0].rear_in", "-20");
  judge (c);
  g_assert_cmpfloat_with_epsilon (axle_load (c, "coupling"), 1500 + on_coupling, 0.01);
  g_assert_cmpfloat_with_epsilon (axle_load (c, "trailer 1"), 4350 + (23400 - on_coupling) / 2, 0.01);
}

static void
test_axle_over (void)
{
  g_autoptr(Case) c = case_new ();
  const double on_axle = 4350 + 22000 * (1 - 31.5 / 280.5) / 2;
  const FlFinding *f;

  fleet_set (c, "trailers[0].axles[0].rated_lb", "14000");
  judge (c);
  f = expect (c, "axle_rating", "trailer axle 1", FL_BY_RATING, FL_SHORT);
  expect_figures (f, FL_LB (on_axle), FL_LB (14000));
  expect_whole (c, FL_NOT_COMPLIANT, FL_HOUSE_MET);
  fleet_drop (c, "trailers[0].axles[0].rated_lb");
  judge (c);
  expect (c, "axle_rating", "trailer axle 1", FL_BY_RATING, FL_UNKNOWN);
  expect_whole (c, FL_INCOMPLETE, FL_HOUSE_MET);
}

/* The coupling hangs 62 in behind the truck's last axle. 3,970.6 lb there lift the steer axle by 3970.6 * (62 + 26) / 174 = 2,008 lb;
 * a trailer loaded far forward lifts it off the road. */
static void
test_steer_axle (void)
{
  g_autoptr(Case) c = case_new ();

  judge (c);
  g_assert_cmpfloat_with_epsilon (axle_load (c, "truck 1"), 11000 - axle_load (c, "coupling") * 88 / 174, 0.01);
  fleet_set (c, "trucks[0].axles[0].tare_lb", "2000");
  judge (c);
  expect_words (expect (c, "axle_rating", "truck axle 1", FL_BY_RATING, FL_SHORT), "lifts");
}

static void
test_axles_unknown (void)
{
  static const char *const missing[] = { "machines[0].center_of_gravity", "trailers[0].coupling.tare_lb" };

  for (guint i = 0; i < G_N_ELEMENTS (missing); i++)
    {
      g_autoptr(Case) c = case_new ();

      fleet_drop (c, missing[i]);
      judge (c);
      expect (c, "axle_rating", "trailer axles", FL_BY_RATING, FL_UNKNOWN);
      g_assert_true (isnan (axle_load (c, "trailer 1")));
      expect_whole (c, FL_INCOMPLETE, FL_HOUSE_MET);
    }
}

/* ── coupling ── */

static void
test_coupling_kind (void)
{
  g_autoptr(Case) c = case_new ();

  fleet_set (c, "trucks[0].coupling.kind", "'ball'");
  judge (c);
  expect_words (expect (c, "coupling_kind", "coupling", FL_BY_RATING, FL_SHORT), "ball");
  fleet_set (c, "trailers[0].coupling.kind", "'ball_coupler'");
  judge (c);
  expect (c, "coupling_kind", "coupling", FL_BY_RATING, FL_MET);
}

static void
test_no_truck (void)
{
  g_autoptr(Case) c = case_new ();

  plan_drop (c, "truck");
  judge (c);
  expect (c, "coupling_kind", "coupling", FL_BY_PRACTICE, FL_UNKNOWN);
  expect_whole (c, FL_INCOMPLETE, FL_HOUSE_MET);
  g_assert_false (fl_quantity_known (fl_assessment_parts (c->judged)->sizes.length));   /* where the truck ends nobody knows */
}

/* The lesser of truck and trailer holds. */
static void
test_coupling_ratings (void)
{
  g_autoptr(Case) c = case_new ();
  const double down = 1500 + 22000 * 31.5 / 280.5;

  fleet_set (c, "trucks[0].coupling.rated_vertical_lb", "3900");
  judge (c);
  expect_figures (expect (c, "coupling_rating", "coupling", FL_BY_RATING, FL_SHORT), FL_LB (down), FL_LB (3900));
  fleet_set (c, "trucks[0].coupling.rated_vertical_lb", "10000");
  fleet_set (c, "trailers[0].coupling.rated_trailed_lb", "32000");
  judge (c);
  expect_figures (expect (c, "coupling_rating", "trailed weight", FL_BY_RATING, FL_SHORT), FL_LB (32200), FL_LB (32000));
}

/* Share of 32,200 lb: 8 to 15 percent wanted, under 5 not to be driven. 1500 + 22000 * (cg - 85.5) / 280.5. */
static void
test_coupling_share (void)
{
  static const struct { const char *rear; double cg; FlVerdict verdict; } cases[] = {
    { "10", 117, FL_MET }, { "30", 137, FL_CAUTION }, { "-10", 97, FL_CAUTION }, { "-22", 85, FL_SHORT }, { "-40", 67, FL_SHORT },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr(Case) c = case_new ();
      const FlFinding *f;

      plan_set (c, "loads[0].rear_in", cases[i].rear);
      judge (c);
      f = expect (c, "coupling_share", "coupling", FL_BY_RATING, cases[i].verdict);
      g_assert_cmpfloat_with_epsilon (f->have.value, 100 * (1500 + 22000 * (cases[i].cg - 85.5) / 280.5) / 32200, 1e-6);
      g_assert_cmpfloat (f->need.value, ==, 5);
    }
}

/* Without a band of its own the trailer has that of its kind: 10 to 15 for a lunette. */
static void
test_band_of_kind (void)
{
  g_autoptr(Case) c = case_new ();

  plan_set (c, "loads[0].rear_in", "0");        /* 1500 + 22000 * 21.5 / 280.5 = 3,186 lb: 9.9 percent */
  judge (c);
  expect (c, "coupling_share", "coupling", FL_BY_RATING, FL_MET);
  fleet_drop (c, "trailers[0].coupling.share_pct");
  judge (c);
  expect_words (expect (c, "coupling_share", "coupling", FL_BY_RATING, FL_CAUTION), "10 % to 15 %");
}

/* ── plates ── */

static void
test_plates (void)
{
  static const struct { const char *path, *limit, *rule, *subject; double need, have; } cases[] = {
    { "trailers[0].capacity_lb", "21999", "capacity", "trailer capacity", 22000, 21999 },
    { "trailers[0].gvwr_lb", "32199", "gvwr", "trailer gross weight", 32200, 32199 },
    { "trucks[0].gvwr_lb", "25970", "gvwr", "truck gross weight", 22000 + 1500 + 22000 * 31.5 / 280.5, 25970 },
    { "trucks[0].gcwr_lb", "54199", "gcwr", "combination gross weight", 54200, 54199 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr(Case) c = case_new ();
      g_autofree char *just = g_strdup_printf ("%.1f", ceil (cases[i].need));

      fleet_set (c, cases[i].path, cases[i].limit);
      judge (c);
      expect_figures (expect (c, cases[i].rule, cases[i].subject, FL_BY_RATING, FL_SHORT), FL_LB (cases[i].need), FL_LB (cases[i].have));
      expect_whole (c, FL_NOT_COMPLIANT, FL_HOUSE_MET);
      fleet_set (c, cases[i].path, just);
      judge (c);
      expect (c, cases[i].rule, cases[i].subject, FL_BY_RATING, FL_MET);
    }
}

/* A plate that nobody read: said, as advice. */
static void
test_plate_unread (void)
{
  g_autoptr(Case) c = case_new ();

  fleet_drop (c, "trucks[0].gcwr_lb");
  judge (c);
  expect_words (expect (c, "gcwr", "combination gross weight", FL_BY_ADVICE, FL_UNKNOWN), "look at the plate");
  expect_whole (c, FL_COMPLIANT, FL_HOUSE_MET);
}

/* ── sizes, ramp ── */

/* 35 deck + 120 machine. Over the move's own limit: not to be driven; without one a permit is needed over 13 ft 6 in. */
static void
test_height (void)
{
  g_autoptr(Case) c = case_new ();

  fleet_set (c, "moves[0].height_limit_in", "155");
  judge (c);
  expect_figures (expect (c, "size_height", "loaded height", FL_BY_PRACTICE, FL_MET), FL_IN (155), FL_IN (155));
  fleet_set (c, "moves[0].height_limit_in", "154");
  judge (c);
  expect_figures (expect (c, "size_height", "loaded height", FL_BY_PRACTICE, FL_SHORT), FL_IN (155), FL_IN (154));
  plan_set (c, "loads[0].position", "'folded'");        /* 98 in */
  judge (c);
  expect_figures (expect (c, "size_height", "loaded height", FL_BY_PRACTICE, FL_MET), FL_IN (133), FL_IN (154));
  plan_drop (c, "loads[0].position");
  fleet_drop (c, "moves[0].height_limit_in");
  judge (c);
  expect (c, "size_height", "loaded height", FL_BY_LAW, FL_MET);
  fleet_set (c, "machines[0].height_in", "128");
  judge (c);
  expect_figures (expect (c, "size_height", "loaded height", FL_BY_LAW, FL_CAUTION), FL_IN (163), FL_IN (162));
  expect_whole (c, FL_COMPLIANT, FL_HOUSE_MET);
}

/* 102 in, 23 CFR 658.15; from the outermost left to the outermost right. */
static void
test_width (void)
{
  g_autoptr(Case) c = case_new ();

  fleet_set (c, "machines[0].width_in", "104");
  judge (c);
  expect_figures (expect (c, "size_width", "loaded width", FL_BY_LAW, FL_CAUTION), FL_IN (104), FL_IN (102));
  expect_whole (c, FL_COMPLIANT, FL_HOUSE_MET);
  fleet_set (c, "machines[0].width_in", "93");
  plan_set (c, "loads[0].left_in", "9");        /* its left side at 55.5, the deck's right at 51 */
  judge (c);
  expect_figures (expect (c, "size_width", "loaded width", FL_BY_LAW, FL_CAUTION), FL_IN (106.5), FL_IN (102));
}

static void
test_ramp (void)
{
  g_autoptr(Case) c = case_new ();

  fleet_set (c, "machines[0].max_ramp_deg", "13");
  judge (c);
  expect (c, "ramp", "R-03", FL_BY_RATING, FL_MET);
  fleet_set (c, "machines[0].max_ramp_deg", "12");
  judge (c);
  expect_figures (expect (c, "ramp", "R-03", FL_BY_RATING, FL_SHORT), FL_DEG (13), FL_DEG (12));
  fleet_drop (c, "machines[0].max_ramp_deg");
  judge (c);
  g_assert_null (found (c, "ramp", NULL));
}

/* ── the move, the basis ── */

static void
test_move (void)
{
  g_autoptr(Case) c = case_new ();

  fleet_drop (c, "moves[0].machine");
  fleet_set (c, "moves[0].loads", "[{'article': 'A-1'}]");
  judge (c);
  g_assert_cmpuint (count_of (c, "move", FL_SHORT), ==, 2);     /* one missing, one too many */
  expect (c, "move", "move", FL_BY_PRACTICE, FL_SHORT);
  fleet_set (c, "moves[0].loads", "[{'machine': 'R-03'}]");
  fleet_set (c, "trucks[1]", "{'id': 'K-9', 'yard': 'NORTH', 'axles': [{'x_in': 0, 'tare_lb': 4000}]}");
  fleet_set (c, "moves[0].truck", "'K-9'");
  judge (c);
  expect_words (expect (c, "move", "move", FL_BY_PRACTICE, FL_NOTE), "K-9");
  expect_whole (c, FL_COMPLIANT, FL_HOUSE_MET);
}

static void
test_basis (void)
{
  g_autoptr(Case) c = case_new ();
  const FlFinding *f;

  judge (c);
  f = expect (c, "weight_basis", "R-03", FL_BY_ADVICE, FL_MET);
  g_assert_cmpstr (f->basis, ==, "scale ticket 2026-03-02");
  fleet_set (c, "machines[0].basis.weight", "'typical of its class'");
  judge (c);
  expect (c, "weight_basis", "R-03", FL_BY_ADVICE, FL_CAUTION);
  fleet_drop (c, "machines[0].basis");
  judge (c);
  f = expect (c, "weight_basis", "R-03", FL_BY_ADVICE, FL_CAUTION);
  expect_words (f, "22,000 lb");
  expect_whole (c, FL_COMPLIANT, FL_HOUSE_MET);
}

static void
test_unrated (void)
{
  g_autoptr(Case) c = case_new ();

  judge (c);
  expect_words (expect (c, "unmeasured", "R-03", FL_BY_PRACTICE, FL_NOTE), "RL, RR, FL, FR, BL");
  fleet_drop (c, "trailers[0].anchor_rows[0].rated_wll_lb");
  judge (c);
  expect (c, "unmeasured", "T-3", FL_BY_PRACTICE, FL_CAUTION);
  g_assert_cmpuint (count_of (c, "unmeasured", FL_CAUTION), ==, 1);
  expect_whole (c, FL_COMPLIANT, FL_HOUSE_MET);
}

/* 49 CFR 392.9 as read in the handbook's table: 50 miles; then change of duty, 3 hours or 150 miles. */
static void
test_recheck (void)
{
  g_autoptr(Case) c = case_new ();
  const FlFinding *f;

  judge (c);
  f = expect (c, "recheck", "driver", FL_BY_LAW, FL_NOTE);
  expect_words (f, "50 mi");
  expect_words (f, "change of duty");
  expect_words (f, "3 h or 150 mi");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/judge/stands/carrying-zone", test_carrying_zone);
  g_test_add_func ("/judge/stands/sideways", test_sideways);
  g_test_add_func ("/judge/stands/clear-width", test_clear_width);
  g_test_add_func ("/judge/stands/body-and-neck", test_body_and_neck);
  g_test_add_func ("/judge/stands/two-loads", test_two_loads);
  g_test_add_func ("/judge/axles/loads-add", test_loads_add);
  g_test_add_func ("/judge/axles/over", test_axle_over);
  g_test_add_func ("/judge/axles/steer", test_steer_axle);
  g_test_add_func ("/judge/axles/unknown", test_axles_unknown);
  g_test_add_func ("/judge/coupling/kind", test_coupling_kind);
  g_test_add_func ("/judge/coupling/no-truck", test_no_truck);
  g_test_add_func ("/judge/coupling/ratings", test_coupling_ratings);
  g_test_add_func ("/judge/coupling/share", test_coupling_share);
  g_test_add_func ("/judge/coupling/band-of-kind", test_band_of_kind);
  g_test_add_func ("/judge/plates/over", test_plates);
  g_test_add_func ("/judge/plates/unread", test_plate_unread);
  g_test_add_func ("/judge/sizes/height", test_height);
  g_test_add_func ("/judge/sizes/width", test_width);
  g_test_add_func ("/judge/ramp", test_ramp);
  g_test_add_func ("/judge/move", test_move);
  g_test_add_func ("/judge/basis", test_basis);
  g_test_add_func ("/judge/unrated", test_unrated);
  g_test_add_func ("/judge/recheck", test_recheck);
  return test_done (g_test_run ());
}
