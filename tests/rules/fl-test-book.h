/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-test-book.h: for the tests of rules and of published values: the shipped rule book, records from a line of JSON, and what gear
 * made of such a line is worth. Header only; each test program is one file. */
#ifndef FL_TEST_BOOK_H
#define FL_TEST_BOOK_H

#include "fl-rating.h"
#include "fl-words.h"

#include <string.h>

#define TEST_BOOK "us-49cfr393.json"

/* Records that ratings and fits borrow texts from, and the book, read once; freed by test_done (). */
static GPtrArray *test_kept;
static FlBook *test_shipped;

/* The text of the shipped book. (transfer full) */
static inline char *
test_book_text (void)
{
  g_autofree char *path = g_build_filename (g_getenv ("FAIRLEAD_DATA"), "rules", TEST_BOOK, NULL);
  g_autoptr(GError) error = NULL;
  char *text = NULL;

  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  return text;
}

static inline void
test_print_problems (const FlProblems *problems)
{
  for (guint i = 0; i < fl_problems_count (problems); i++)
    {
      g_autofree char *text = fl_problem_text (fl_problems_at (problems, i), TEST_BOOK);

      g_test_message ("%s", text);
    }
}

/* The shipped book, without a problem and without a warning. (transfer full) */
static inline FlBook *
test_book (void)
{
  g_autofree char *text = NULL;
  g_autoptr(GBytes) bytes = NULL;
  g_autoptr(FlProblems) problems = fl_problems_new ();

  if (test_shipped != NULL)
    return fl_book_ref (test_shipped);
  text = test_book_text ();
  bytes = g_bytes_new (text, strlen (text));
  test_shipped = fl_book_new_from_json (bytes, problems);
  test_print_problems (problems);
  g_assert_nonnull (test_shipped);
  g_assert_cmpuint (fl_problems_count (problems), ==, 0);
  return fl_book_ref (test_shipped);
}

/* A record from its JSON with ' for ", kept until test_done (). */
static inline const FlRecord *
test_record (FlKind kind, const char *json)
{
  g_autofree char *text = g_strdelimit (g_strdup (json), "'", '"');
  g_autoptr(FlProblems) problems = fl_problems_new ();
  FlRecord *record = fl_record_new (kind, text, -1, "", 1, problems);

  test_print_problems (problems);
  g_assert_nonnull (record);
  if (test_kept == NULL)
    test_kept = g_ptr_array_new_with_free_func ((GDestroyNotify) fl_record_unref);
  g_ptr_array_add (test_kept, record);
  return record;
}

/* A chain of 20 ft with grab hooks taken as the chain; `more` are further members, "'mark': '70'". */
static inline FlRating
rated_chain (const FlBook *book, const char *size_in, const char *more)
{
  g_autofree char *json = g_strdup_printf ("{'id': 'C-1', 'kept_at': 'Y', 'size_in': '%s', 'length_ft': 20, 'hook': 'grab'%s%s}", size_in,
                                           more == NULL ? "" : ", ", more == NULL ? "" : more);

  return fl_rate_record (book, test_record (FL_KIND_CHAIN, json));
}

/* A strap of 27 ft; `width` with its unit, "'width_in': 4". */
static inline FlRating
rated_strap (const FlBook *book, const char *width, const char *more)
{
  g_autofree char *json = g_strdup_printf ("{'id': 'S-1', 'kept_at': 'Y', %s, 'length_ft': 27, 'tensioner': 'ratchet'%s%s}", width,
                                           more == NULL ? "" : ", ", more == NULL ? "" : more);

  return fl_rate_record (book, test_record (FL_KIND_STRAP, json));
}

/* A newest inspection with one finding: "'kind': 'bent'". (transfer full) */
static inline char *
test_found (const char *finding)
{
  return g_strdup_printf ("'inspections': [{'date': '2026-03-02', 'findings': [{%s}]}]", finding);
}

/* In use and worth exactly this many pounds. */
#define test_worth(rating, lb) G_STMT_START { \
  FlRating rating_ = (rating); \
  g_assert_true (rating_.in_use); \
  g_assert_cmpfloat (fl_quantity_in (rating_.wll, FL_UNIT_LB), ==, (lb)); \
} G_STMT_END

/* In use, and its worth cannot be known. */
#define test_unknown(rating) G_STMT_START { \
  FlRating rating_ = (rating); \
  g_assert_true (rating_.in_use); \
  g_assert_false (fl_quantity_known (rating_.wll)); \
} G_STMT_END

/* Out of use, for a reason that has all its words. */
#define test_out(rating) G_STMT_START { \
  FlRating rating_ = (rating); \
  g_assert_false (rating_.in_use); \
  g_assert_nonnull (strstr (rating_.message, "out of use")); \
} G_STMT_END

/* Frees what was kept; returns the status of g_test_run (). */
static inline int
test_done (int status)
{
  g_clear_pointer (&test_kept, g_ptr_array_unref);
  g_clear_pointer (&test_shipped, fl_book_unref);
  return status;
}

#endif
