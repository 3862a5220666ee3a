/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Fit of hooks, connectors and binders, lengths, shares and counts. Fit and lengths: common practice, no source. */
#include "fl-test-book.h"

#include <math.h>

#define NOT FL_NOT_MEASURED

static FlFitAnswer
end_fits (FlQuantity needs, FlQuantity opening)
{
  FlEnd end = { FL_HOOK_GRAB, needs, FL_NOT_MEASURED };
  FlFit fit = fl_fit_end (&end, opening, NOT, NULL);
  g_autofree char *text = fl_words_message (NULL, fit.message, fit.facts, fit.n_facts, FALSE);

  g_assert_null (strchr (text, '{'));
  return fit.answer;
}

static void
test_hook (void)
{
  FlEnd none = { FL_HOOK_NONE, NOT, NOT };

  g_assert_true (end_fits (FL_IN (2.4), FL_IN (2.5)) == FL_FITS);
  g_assert_true (end_fits (FL_IN (2.4), FL_IN (2.4)) == FL_FITS);
  g_assert_true (end_fits (FL_IN (2.4), FL_IN (2.3)) == FL_FIT_NOT);
  g_assert_true (end_fits (FL_IN (2.0), (FlQuantity) { 50.8, FL_UNIT_MM }) == FL_FITS);   /* the same size in the other unit */
  g_assert_true (end_fits (NOT, FL_IN (2.4)) == FL_FIT_UNMEASURED);
  g_assert_true (end_fits (FL_IN (2.4), NOT) == FL_FIT_UNMEASURED);
  g_assert_true (fl_fit_end (&none, FL_IN (9), FL_IN (1), NULL).answer == FL_FIT_NOT);
}

/* A shackle: its pin through the eye, its jaw over the bar, the hook into it. */
static FlFitAnswer
through (FlConnectorKind kind, double needs, double opening, double bar, double pin, double jaw, double bow)
{
  FlEnd end = { FL_HOOK_GRAB, FL_IN (needs), NOT };
  FlConnector connector = { .kind = kind, .pin = FL_IN (pin), .jaw = FL_IN (jaw), .opening = FL_IN (bow) };

  return fl_fit_end (&end, FL_IN (opening), FL_IN (bar), &connector).answer;
}

static void
test_connector (void)
{
  FlEnd end = { FL_HOOK_GRAB, FL_IN (2.4), NOT };
  FlConnector unmeasured = { .kind = FL_CONNECTOR_SHACKLE, .pin = NOT, .jaw = FL_IN (1.2), .opening = FL_IN (2.5) };

  /* A hook too big for the eye, cured by a shackle. */
  g_assert_true (end_fits (FL_IN (2.4), FL_IN (1.5)) == FL_FIT_NOT);
  g_assert_true (through (FL_CONNECTOR_SHACKLE, 2.4, 1.5, 1.0, 0.9, 1.2, 2.5) == FL_FITS);
  g_assert_true (through (FL_CONNECTOR_SHACKLE, 2.4, 0.8, 1.0, 0.9, 1.2, 2.5) == FL_FIT_NOT);   /* pin */
  g_assert_true (through (FL_CONNECTOR_SHACKLE, 2.4, 1.5, 1.3, 0.9, 1.2, 2.5) == FL_FIT_NOT);   /* bar */
  g_assert_true (through (FL_CONNECTOR_SHACKLE, 2.6, 1.5, 1.0, 0.9, 1.2, 2.5) == FL_FIT_NOT);   /* bow */
  g_assert_true (through (FL_CONNECTOR_CLEVIS_LINK, 2.4, 0.8, 1.0, 0.9, 1.2, 2.5) == FL_FIT_NOT);
  g_assert_true (through (FL_CONNECTOR_SOFT_LOOP, 2.4, 0.1, 9.0, 9.0, 0.1, 2.5) == FL_FITS);    /* goes round */
  g_assert_true (through (FL_CONNECTOR_SOFT_LOOP, 2.6, 0.1, 9.0, 9.0, 0.1, 2.5) == FL_FIT_NOT);
  g_assert_true (fl_fit_end (&end, FL_IN (1.5), FL_IN (1), &unmeasured).answer == FL_FIT_UNMEASURED);
  /* What is known not to fit is not hidden by what nobody measured. */
  g_assert_true (fl_fit_end (&end, FL_IN (1.5), FL_IN (2), &unmeasured).answer == FL_FIT_NOT);
}

static FlFitAnswer
binder_fits (const char *sizes, const char *size)
{
  g_autofree char *binder = g_strdup_printf ("{'id': 'B', 'kept_at': 'Y', 'wll_lb': 5400, 'chain_sizes': [%s]}", sizes);
  g_autofree char *chain = g_strdup_printf ("{'id': 'C', 'kept_at': 'Y', %s, 'length_ft': 20}", size);
  FlFit fit = fl_fit_binder (fl_record_binder (test_record (FL_KIND_BINDER, binder)), fl_record_chain (test_record (FL_KIND_CHAIN, chain)));
  g_autofree char *text = fl_words_message (NULL, fit.message, fit.facts, fit.n_facts, FALSE);

  g_assert_null (strchr (text, '{'));
  return fit.answer;
}

static void
test_binder (void)
{
  FlBinder nothing = { .n_sizes = 0 };
  FlChain chain = { .size_in = 0.375, .size_text = "3/8" };

  g_assert_true (binder_fits ("'5/16', '3/8'", "'size_in': '3/8'") == FL_FITS);
  g_assert_true (binder_fits ("'5/16', '3/8'", "'size_in': '0.375'") == FL_FITS);
  g_assert_true (binder_fits ("'5/16', '3/8'", "'size_in': '1/2'") == FL_FIT_NOT);
  g_assert_true (binder_fits ("'5/16', '3/8'", "'size_in': '1/4'") == FL_FIT_NOT);
  /* The metric names as the table of 393.108 sets them beside the inch sizes. */
  g_assert_true (binder_fits ("'5/16', '3/8'", "'size_mm': 10") == FL_FITS);
  g_assert_true (binder_fits ("'5/16', '3/8'", "'size_mm': 8") == FL_FITS);
  g_assert_true (binder_fits ("'5/16', '3/8'", "'size_mm': 13") == FL_FIT_NOT);
  g_assert_true (binder_fits ("'10 mm'", "'size_in': '3/8'") == FL_FITS);
  g_assert_true (binder_fits ("'10 mm'", "'size_mm': 10") == FL_FITS);
  g_assert_true (binder_fits ("'10 mm'", "'size_mm': 11") == FL_FIT_NOT);
  g_assert_true (fl_fit_binder (&nothing, &chain).answer == FL_FIT_UNMEASURED);
}

/* 44.3 in of run + 12 in for each of two grab hooks + 8 in of take-up + 12 in of tail = 88.3 in: the example plan's first tie-down. */
static void
test_needs (void)
{
  g_autoptr(FlBook) book = test_book ();
  FlEnd grabs[2] = { { FL_HOOK_GRAB, NOT, NOT }, { FL_HOOK_CLEVIS_GRAB, NOT, NOT } };
  FlEnd slips[2] = { { FL_HOOK_SLIP, NOT, NOT }, { FL_HOOK_NONE, NOT, NOT } };
  FlEnd unseen[2] = { { FL_HOOK_UNKNOWN, NOT, NOT }, { FL_HOOK_CLEVIS_SLIP, NOT, NOT } };
  FlBinder measured = { .kind = FL_BINDER_RATCHET, .take_up = FL_IN (8) };
  FlBinder ratchet = { .kind = FL_BINDER_RATCHET }, lever = { .kind = FL_BINDER_LEVER }, unknown = { .kind = FL_BINDER_UNKNOWN };

  g_assert_cmpfloat_with_epsilon (fl_chain_needs (book, 44.3, grabs, &measured), 88.3, 1e-9);
  g_assert_cmpfloat_with_epsilon (fl_chain_needs (book, 44.3, slips, &measured), 64.3, 1e-9);
  g_assert_cmpfloat_with_epsilon (fl_chain_needs (book, 44.3, unseen, NULL), 68.3, 1e-9);   /* a hook nobody looked at may be a grab hook */
  g_assert_cmpfloat_with_epsilon (fl_chain_needs (book, 100, NULL, NULL), 112, 1e-9);       /* a strap */
  /* No take-up noted: makers' tables, 8 in for a ratchet, 4-1/2 in for a lever; of an unknown kind the longer. */
  g_assert_cmpfloat_with_epsilon (fl_chain_needs (book, 44.3, grabs, &ratchet), 88.3, 1e-9);
  g_assert_cmpfloat_with_epsilon (fl_chain_needs (book, 44.3, grabs, &lever), 84.8, 1e-9);
  g_assert_cmpfloat_with_epsilon (fl_chain_needs (book, 44.3, grabs, &unknown), 88.3, 1e-9);
}

/* Ratchet 30 in, lever 24 in where its record gives none: from memory. */
static void
test_run (void)
{
  g_autoptr(FlBook) book = test_book ();
  FlBinder own = { .kind = FL_BINDER_LEVER, .needs_run = { 500, FL_UNIT_MM } };
  FlBinder ratchet = { .kind = FL_BINDER_RATCHET }, lever = { .kind = FL_BINDER_LEVER }, unknown = { .kind = FL_BINDER_UNKNOWN };

  g_assert_cmpfloat_with_epsilon (fl_binder_run (book, &own), 500 / 25.4, 1e-9);
  g_assert_cmpfloat (fl_binder_run (book, &ratchet), ==, 30);
  g_assert_cmpfloat (fl_binder_run (book, &lever), ==, 24);
  g_assert_cmpfloat (fl_binder_run (book, &unknown), ==, 30);
}

/* The centreline is no other side. 393.106(d) itself: tests/published. */
static void
test_centre (void)
{
  g_autoptr(FlBook) book = test_book ();

  g_assert_cmpfloat (fl_book_share (book, TRUE, 'C', 'L'), ==, 0.5);
  g_assert_cmpfloat (fl_book_share (book, TRUE, 'R', 'C'), ==, 0.5);
  g_assert_cmpfloat (fl_book_share (book, TRUE, 'C', 'C'), ==, 0.5);
  g_assert_cmpfloat (fl_book_share (book, FALSE, 'L', 0), ==, 0.5);
}

/* The last digits of a converted length make no further tie-down; what is unknown makes no fewer. 393.110 itself: tests/published. */
static void
test_count (void)
{
  g_autoptr(FlBook) book = test_book ();
  double feet = fl_quantity_in (FL_M (6.096), FL_UNIT_FT);

  g_assert_cmpfloat_with_epsilon (feet, 20.0, 1e-9);
  g_assert_cmpint (fl_book_count (book, feet, 5000, FALSE), ==, 3);
  g_assert_cmpint (fl_book_count (book, feet, 5000, TRUE), ==, 2);
  g_assert_cmpint (fl_book_count (book, nextafter (20.0, 30.0), 5000, FALSE), ==, 3);
  g_assert_cmpint (fl_book_count (book, 20.001, 5000, FALSE), ==, 4);
  g_assert_cmpint (fl_book_count (book, 5, NAN, FALSE), ==, 2);
  g_assert_cmpint (fl_book_count (book, NAN, 5000, FALSE), ==, G_MAXINT);
  g_assert_cmpint (fl_book_count (book, 0, 0, TRUE), ==, 1);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/fit/hook", test_hook);
  g_test_add_func ("/fit/connector", test_connector);
  g_test_add_func ("/fit/binder", test_binder);
  g_test_add_func ("/fit/needs", test_needs);
  g_test_add_func ("/fit/run", test_run);
  g_test_add_func ("/fit/share-centre", test_centre);
  g_test_add_func ("/fit/count", test_count);
  return test_done (g_test_run ());
}
