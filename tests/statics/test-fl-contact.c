/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Contact patches on the lengths of a deck: by hand, and shares of a cut deck that must add up to the whole patch. */
#include "fl-contact.h"
#include "fl-test-random.h"

static const FlRect patch = { 2.0, 4.0, -0.5, 0.5 };

static void
assert_rect (FlRect rect, double x_min, double x_max, double y_min, double y_max)
{
  assert_near (rect.x_min, x_min, 1e-12);
  assert_near (rect.x_max, x_max, 1e-12);
  assert_near (rect.y_min, y_min, 1e-12);
  assert_near (rect.y_max, y_max, 1e-12);
}

static void
test_placed (void)
{
  FlPose forward = { FL_FORWARD, 1.0, 0.1, 0.0, 6.0, 0.0 }, rearward = { FL_REARWARD, 1.0, 0.1, 0.0, 6.0, 0.0 };

  assert_rect (fl_contact_rect (forward, 1.5, 0.9, 0.4, 0.6), 2.3, 2.7, 0.7, 1.3);
  assert_rect (fl_contact_rect (rearward, 1.5, 0.9, 0.4, 0.6), 5.3, 5.7, -1.1, -0.5);
  assert_rect (fl_contact_rect (forward, 1.5, 0.9, NAN, -2.0), 2.5, 2.5, 1.0, 1.0);  /* nobody measured it */
  g_assert_true (fl_rect_is_valid (fl_contact_rect (forward, 1.5, 0.9, NAN, NAN)));
  g_assert_false (fl_rect_is_valid (fl_contact_rect (forward, NAN, 0.9, 0.4, 0.6)));
  g_assert_false (fl_rect_is_valid (fl_contact_rect (forward, 1.5, INFINITY, 0.4, 0.6)));
}

static void
test_by_hand (void)
{
  const FlRect line = { 3.0, 3.0, -1.0, 1.0 };

  assert_near (fl_rect_overlap_x (patch, 0.0, 3.0), 1.0, 1e-15);
  assert_near (fl_rect_overlap_x (patch, 3.5, 2.5), 1.0, 1e-15);
  assert_near (fl_rect_overlap_x (patch, 0.0, 9.0), 2.0, 1e-15);
  g_assert_cmpfloat (fl_rect_overlap_x (patch, 4.0, 9.0), ==, 0.0);
  g_assert_cmpfloat (fl_rect_overlap_x (patch, 5.0, 9.0), ==, 0.0);
  assert_near (fl_rect_overlap_x (patch, 3.5, INFINITY), 0.5, 1e-15);
  assert_near (fl_rect_share_x (patch, 0.0, 3.0), 0.5, 1e-15);
  assert_near (fl_rect_share_x (patch, 9.0, 3.5), 0.25, 1e-15);
  g_assert_cmpfloat (fl_rect_share_x (line, 3.0, 5.0), ==, 1.0);
  g_assert_cmpfloat (fl_rect_share_x (line, 5.0, 3.0), ==, 1.0);
  g_assert_cmpfloat (fl_rect_share_x (line, 3.1, 5.0), ==, 0.0);
  g_assert_cmpfloat (fl_rect_share_x (line, 1.0, 2.9), ==, 0.0);
  g_assert_cmpfloat (fl_rect_overlap_x (line, 0.0, 5.0), ==, 0.0);
}

static void
test_within (void)
{
  g_assert_true (fl_rect_within_x (patch, 2.0, 4.0));
  g_assert_true (fl_rect_within_x (patch, 4.0, 2.0));
  g_assert_true (fl_rect_within_x (patch, 2.0005, 3.9995));
  g_assert_false (fl_rect_within_x (patch, 2.0015, 5.0));
  g_assert_false (fl_rect_within_x (patch, 0.0, 3.9985));
  g_assert_false (fl_rect_within_x (patch, 5.0, 9.0));
}

/* A deck cut at random places, ends at infinity: the shares of its stretches add to 1, the overlaps to the length. */
static void
test_adds_up (void)
{
  g_autoptr(GRand) rand = g_rand_new_with_seed (701);

  for (guint i = 0; i < 1000; i++)
    {
      double from = g_rand_double_range (rand, -1, 5), length = g_rand_double_range (rand, 0.01, 4);
      FlRect rect = { from, from + length, 0, 1 };
      double cut = g_rand_double_range (rand, -2, 4), next = cut + g_rand_double_range (rand, 0, 5);
      const double at[] = { -INFINITY, cut, next, INFINITY };
      double shares = 0, overlaps = 0;

      for (guint k = 0; k < 3; k++)
        {
          shares += fl_rect_share_x (rect, at[k], at[k + 1]);
          overlaps += fl_rect_overlap_x (rect, at[k], at[k + 1]);
        }
      assert_near (shares, 1.0, 1e-9);
      assert_near (overlaps, length, 1e-12);
    }
}

static void
test_extent (void)
{
  const FlRect rects[] = { { 2, 4, 0, 1 }, { -1, 0.5, 0, 1 }, { 3, 3.5, 0, 1 } };
  const FlRect unknown[] = { { 2, 4, 0, 1 }, { NAN, 0.5, 0, 1 } };
  double first = 9, last = 9;

  g_assert_false (fl_rects_extent_x (rects, 0, &first, &last));
  g_assert_false (fl_rects_extent_x (unknown, 2, &first, &last));
  g_assert_true (first == 9.0 && last == 9.0);
  g_assert_true (fl_rects_extent_x (rects, 3, &first, &last));
  g_assert_true (first == -1.0 && last == 4.0);
  g_assert_true (fl_rects_extent_x (rects + 2, 1, &first, &last));
  g_assert_true (first == 3.0 && last == 3.5);
}

static void
test_unknown (void)
{
  const FlRect bad[] = { { NAN, 4, 0, 1 },       { 2, INFINITY, 0, 1 },  { 4, 2, 0, 1 },   { 2, 4, 1, 0 },  { -INFINITY, 4, 0, 1 },
                         { 2, 4, -INFINITY, 1 }, { 2, 4, 0, INFINITY }, { 2, 4, NAN, 1 }, { 2, 4, 0, NAN } };
  const FlRect line = { 1, 1, 0, 1 };

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_assert_false (fl_rect_is_valid (bad[i]));
      g_assert_cmpfloat (fl_rect_overlap_x (bad[i], -9, 9), ==, 0.0);
      g_assert_cmpfloat (fl_rect_share_x (bad[i], -9, 9), ==, 0.0);
      g_assert_false (fl_rect_within_x (bad[i], -9, 9));
    }
  g_assert_cmpfloat (fl_rect_overlap_x (patch, NAN, 3), ==, 0.0);
  g_assert_cmpfloat (fl_rect_overlap_x (patch, 3, NAN), ==, 0.0);
  g_assert_cmpfloat (fl_rect_share_x (line, NAN, 1), ==, 0.0);
  g_assert_cmpfloat (fl_rect_share_x (line, 1, NAN), ==, 0.0);
  g_assert_false (fl_rect_within_x (line, NAN, 1));
  g_assert_false (fl_rect_within_x (line, 1, NAN));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/statics/contact/placed", test_placed);
  g_test_add_func ("/statics/contact/by-hand", test_by_hand);
  g_test_add_func ("/statics/contact/within", test_within);
  g_test_add_func ("/statics/contact/adds-up", test_adds_up);
  g_test_add_func ("/statics/contact/extent", test_extent);
  g_test_add_func ("/statics/contact/unknown", test_unknown);
  return g_test_run ();
}
