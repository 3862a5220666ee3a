/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Placing of labels: plain plane geometry, checked by hand. */
#include "fl-labels.h"

static const FlSpot area = { 0.0, 0.0, 100.0, 50.0 };

static gboolean
apart (FlSpot a, FlSpot b)
{
  return a.x + a.width <= b.x || b.x + b.width <= a.x || a.y + a.height <= b.y || b.y + b.height <= a.y;
}

static void
test_first_free_wins (void)
{
  g_autoptr(FlLabels) labels = fl_labels_new (area);
  const FlSpot candidates[] = { { 95, 5, 10, 10 }, { 10, 5, 10, 10 }, { 40, 5, 10, 10 } };
  FlSpot taken;

  g_assert_true (fl_labels_place (labels, candidates, 3, &taken));    /* the first sticks out of the area */
  g_assert_cmpfloat (taken.x, ==, 10);
  g_assert_true (fl_labels_place (labels, candidates, 3, &taken));
  g_assert_cmpfloat (taken.x, ==, 40);
  g_assert_false (fl_labels_place (labels, candidates, 3, &taken));
  g_assert_cmpuint (fl_labels_count (labels), ==, 2);
}

static void
test_runs_are_spared (void)
{
  g_autoptr(FlLabels) labels = fl_labels_new (area);
  const FlSpot candidates[] = { { 10, 10, 10, 10 }, { 40, 10, 10, 10 } };
  FlSpot taken;

  fl_labels_spare (labels, 0, 0, 30, 30);     /* through the first */
  g_assert_true (fl_labels_place (labels, candidates, 2, &taken));
  g_assert_cmpfloat (taken.x, ==, 40);
}

static void
test_segment_meets_box (void)
{
  const FlSpot box = fl_spot_about (10, 10, 4, 4);

  g_assert_true (fl_spot_meets (box, 0, 10, 20, 10));
  g_assert_true (fl_spot_meets (box, 10, 10, 10, 10));
  g_assert_true (fl_spot_meets (box, 0, 0, 20, 20));
  g_assert_false (fl_spot_meets (box, 0, 0, 20, 0));
  g_assert_false (fl_spot_meets (box, 0, 10, 7.9, 10));
  g_assert_false (fl_spot_meets (box, 0, 13, 7, 20));      /* its line misses the corner */
}

static void
test_near_until_full (void)
{
  g_autoptr(FlLabels) labels = fl_labels_new (area);
  FlSpot taken;
  guint n = 0;

  while (n < 100 && fl_labels_near (labels, 50, 25, 10, 10, &taken))
    n++;
  g_assert_cmpuint (n, >=, 15);               /* 50 would be a perfect packing */
  g_assert_cmpuint (n, <=, 50);
  for (gsize i = 0; i < fl_labels_count (labels); i++)
    for (gsize k = 0; k < i; k++)
      g_assert_true (apart (fl_labels_at (labels, i), fl_labels_at (labels, k)));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/labels/first-free-wins", test_first_free_wins);
  g_test_add_func ("/labels/runs-are-spared", test_runs_are_spared);
  g_test_add_func ("/labels/segment-meets-box", test_segment_meets_box);
  g_test_add_func ("/labels/near-until-full", test_near_until_full);
  return g_test_run ();
}
