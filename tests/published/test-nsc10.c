/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Canada, National Safety Code Standard 10 (2013), and a province's manual for commercial drivers. There is no Canadian rule book here yet; what is
 * checked is what both countries share (the table by metric sizes, half the weight, the count by length) and where they differ.
 *
 * seen: read in a public copy. computed: what follows from it. */
#include "fl-test-book.h"

/* CA-BC-600, seen: 600 kg, 3.65 m, not blocked forward: three tie-downs and 300 kg; of 50 kg limit it takes six, of 200 still three. A tie-down counts
 * there with half of each end fixed to an anchor, the whole for one across. */
static void
test_six_hundred (void)
{
  g_autoptr(FlBook) book = test_book ();
  const double share = fl_book_share (book, TRUE, 'L', 'R'), need = 600 * fl_book_data (book)->aggregate_share;
  const double feet = 3.65 / 0.3048, pounds = 600 / FL_KG_PER_LB;

  g_assert_cmpfloat (need, ==, 300);
  g_assert_cmpint (fl_book_count (book, feet, pounds, FALSE), ==, 3);
  g_assert_true (fl_reaches (3 * 100 * share, need));
  g_assert_false (fl_reaches (5 * 50 * share, need));
  g_assert_true (fl_reaches (6 * 50 * share, need));
  g_assert_true (fl_reaches (2 * 200 * share, need));    /* by strength two: the count governs */
}

static FlRating
metric_chain (const FlBook *book, double mm, const char *mark)
{
  g_autofree char *json = g_strdup_printf ("{'id': 'C', 'kept_at': 'Y', 'size_mm': %g, 'length_m': 6, 'hook': 'grab', 'mark': '%s'}", mm, mark);

  return fl_rate_record (book, test_record (FL_KIND_CHAIN, json));
}

typedef struct { const char *id, *from; double mm; const char *mark; gboolean reaches; } Floor;

/* CA-HEAVY-MIN, seen (rule and table): over 4,500 kg at least four tie-downs of 2,268 kg (5,000 lb) each. That floor is no text of 393.130; a fleet may set
 * it as a house rule (min_wll_each). */
static const Floor floors[] = {
  { "8mm-grade-70", "seen", 8, "70", FALSE }, { "10mm-grade-70", "seen", 10, "70", TRUE }, { "8mm-grade-100", "seen", 8, "100", TRUE },
  { "8mm-grade-80", "seen", 8, "80", FALSE },
};

static void
test_floor (gconstpointer data)
{
  const Floor *row = data;
  g_autoptr(FlBook) book = test_book ();

  g_assert_true (fl_reaches (fl_quantity_in (metric_chain (book, row->mm, row->mark).wll, FL_UNIT_KG), 2268) == row->reaches);
}

/* CA-HEAVY-MIN, computed: a machine of 4,600 kg needs 2,300 kg in all and four; by the limit of 10,000 lb (4,536 kg) it is heavy in the States as well. */
static void
test_heavy (void)
{
  g_autoptr(FlBook) book = test_book ();
  const FlBookData *data = fl_book_data (book);

  g_assert_cmpfloat (4600 * data->aggregate_share, ==, 2300);
  g_assert_true (fl_reaches (4600 / FL_KG_PER_LB, data->heavy_weight));
  g_assert_cmpint (data->heavy_count, ==, 4);
}

typedef struct { const char *id, *from; double mm; const char *mark; guint number; } Excavator;

/* An excavator of 22,100 kg, direct chains that count half, computed from the kilograms of the table: 11,050 kg. The pounds of the book give the
 * same numbers. */
static const Excavator excavator[] = {
  { "10mm-grade-70", "computed", 10, "70", 8 },
  { "10mm-grade-100", "computed", 10, "100", 6 },
  { "13mm-grade-70", "computed", 13, "70", 5 },
  { "13mm-grade-100", "computed", 13, "100", 4 },
};

static void
test_excavator (gconstpointer data)
{
  const Excavator *row = data;
  g_autoptr(FlBook) book = test_book ();
  double each = fl_quantity_in (metric_chain (book, row->mm, row->mark).wll, FL_UNIT_KG) * fl_book_share (book, FALSE, 'L', 0);
  double need = 22100 * fl_book_data (book)->aggregate_share;

  g_assert_true (fl_reaches (row->number * each, need));
  g_assert_false (fl_reaches ((row->number - 1) * each, need));
}

/* Where they differ: a tie-down through the machine and back to its own side counts whole in Canada (two ends), half in the States (393.106(d)(2)).
 * Canada's reading: computed; the States': seen. */
static void
test_same_side (void)
{
  g_autoptr(FlBook) book = test_book ();

  g_assert_cmpfloat (fl_book_share (book, TRUE, 'L', 'L'), ==, 0.5);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/nsc10/seen/CA-BC-600", test_six_hundred);
  g_test_add_func ("/nsc10/computed/CA-HEAVY-MIN", test_heavy);
  for (gsize i = 0; i < G_N_ELEMENTS (floors); i++)
    {
      g_autofree char *name = g_strdup_printf ("/nsc10/%s/CA-HEAVY-MIN/%s", floors[i].from, floors[i].id);

      g_test_add_data_func (name, &floors[i], test_floor);
    }
  for (gsize i = 0; i < G_N_ELEMENTS (excavator); i++)
    {
      g_autofree char *name = g_strdup_printf ("/nsc10/%s/excavator/%s", excavator[i].from, excavator[i].id);

      g_test_add_data_func (name, &excavator[i], test_excavator);
    }
  g_test_add_func ("/nsc10/seen/same-side", test_same_side);
  return test_done (g_test_run ());
}
