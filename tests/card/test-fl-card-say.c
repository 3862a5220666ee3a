/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Phrases. The inch is 25.4 mm exactly (international yard and pound agreement, 1959; NIST SP 811, appendix B). */
#include <math.h>

#include "fl-card-say.h"
#include "sample.h"

static void
assert_length (double metres, gboolean metric, FlRounding rounding, const char *expected)
{
  g_autofree char *said = fl_say_length (metres, metric, rounding);

  g_assert_cmpstr (said, ==, expected);
}

static void
test_lengths (void)
{
  assert_length (155 * 0.0254, FALSE, FL_ROUND_UP, "12 ft 11 in");
  assert_length (155.02 * 0.0254, FALSE, FL_ROUND_UP, "13 ft 0 in");
  assert_length (155.02 * 0.0254, FALSE, FL_ROUND_DOWN, "12 ft 11 in");
  assert_length (40 * 0.0254, FALSE, FL_ROUND_NEAREST, "3 ft 4 in");
  assert_length (10.4 * 0.0254, FALSE, FL_ROUND_NEAREST, "10 in");
  assert_length (11.6 * 0.0254, FALSE, FL_ROUND_NEAREST, "1 ft 0 in");
  assert_length (-6 * 0.0254, FALSE, FL_ROUND_NEAREST, "-6 in");
  assert_length (155 * 0.0254, TRUE, FL_ROUND_UP, "3.94 m");     /* 3.937 */
  assert_length (3.90, TRUE, FL_ROUND_UP, "3.90 m");
  assert_length (3.9001, TRUE, FL_ROUND_UP, "3.91 m");
  assert_length (NAN, FALSE, FL_ROUND_UP, "?");
  assert_length (1e30, FALSE, FL_ROUND_UP, "?");
}

static void
test_weights (void)
{
  g_autofree char *up = fl_say_weight (NULL, FL_LB (16750.2), FALSE, FL_ROUND_UP), *down = fl_say_weight (NULL, FL_LB (6600.9), FALSE, FL_ROUND_DOWN);
  g_autofree char *bare = fl_say_bare (FL_LB (6600), FALSE, FL_ROUND_DOWN), *unknown = fl_say_bare (FL_NOT_MEASURED, FALSE, FL_ROUND_DOWN);

  g_assert_cmpstr (up, ==, "16,751 lb");
  g_assert_cmpstr (down, ==, "6,600 lb");
  g_assert_cmpstr (bare, ==, "6,600");
  g_assert_cmpstr (unknown, ==, "?");
}

static void
assert_anchor (const FlTrailer *trailer, const char *id, const char *expected)
{
  g_autofree char *said = fl_say_anchor (NULL, trailer, id);

  g_assert_cmpstr (said, ==, expected);
}

/* Counted from the rear on each side, as formats.md names a row's anchors. */
static void
test_anchors (void)
{
  g_autoptr(FlAssessment) assessment = sample_assessment (&(Sample) { 0 });
  const FlTrailer *trailer = fl_assessment_trailer (assessment);

  assert_anchor (trailer, "P1R", "pocket 1 from the rear, right");
  assert_anchor (trailer, "P11L", "pocket 11 from the rear, left");
  assert_anchor (trailer, "D1L", "D-ring, left");
  assert_anchor (trailer, "P99L", "P99L");
  assert_anchor (NULL, "P1R", "P1R");
}

/* The machine faces the rear: its front points stand at the rear of the deck, its left ones on the right. */
static void
test_points (void)
{
  g_autoptr(FlAssessment) assessment = sample_assessment (&(Sample) { 0 });
  const FlAssessmentParts *parts = fl_assessment_parts (assessment);
  g_autofree char *rl = fl_say_where (NULL, &parts->loads[0], "RL"), *fr = fl_say_where (NULL, &parts->loads[0], "FR");
  g_autofree char *nothing = fl_say_where (NULL, &parts->loads[0], "ZZ"), *name = fl_say_point (NULL, fl_load_machine (assessment, 0), "RL");
  g_autofree char *lost = fl_say_point (NULL, fl_load_machine (assessment, 7), "RL");

  g_assert_cmpstr (rl, ==, "truck end, right");
  g_assert_cmpstr (fr, ==, "rear end, left");
  g_assert_cmpstr (nothing, ==, "");
  g_assert_cmpstr (name, ==, "rear frame loop, left");
  g_assert_cmpstr (lost, ==, "RL");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/card-say/lengths", test_lengths);
  g_test_add_func ("/card-say/weights", test_weights);
  g_test_add_func ("/card-say/anchors", test_anchors);
  g_test_add_func ("/card-say/points", test_points);
  return g_test_run ();
}
