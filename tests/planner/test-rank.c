/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The trailers for a move: each is planned, the best first, those that cannot carry it last and with their reasons. */
#include "fl-test-plan.h"

#define MOVE "2026-11-25/13"

typedef struct { GPtrArray *trailers; } Rows;

static void
add_row (gpointer self, const FlProposal *proposal)
{
  g_ptr_array_add (((Rows *) self)->trailers, g_strdup (proposal->trailer));
}

static GPtrArray *
rank (const Case *c, const FlHost *host, Rows *rows)
{
  g_autoptr(GError) error = NULL;
  GPtrArray *ranked = fl_rank_trailers (c->book, c->fleet, move_of (c->fleet, MOVE), NULL, host, rows != NULL ? add_row : NULL, rows, &error);

  g_assert_no_error (error);
  g_assert_nonnull (ranked);
  return ranked;
}

static const FlProposal *
at (const GPtrArray *ranked, guint i)
{
  return ranked->pdata[i];
}

static void
test_order (void)
{
  g_autoptr(Case) c = case_demo ();
  g_autoptr(GPtrArray) ranked = NULL;
  Rows rows = { g_ptr_array_new_with_free_func (g_free) };
  gsize trailers;
  guint carry = 0;

  g_assert_true (case_read (c));
  trailers = fl_fleet_count (c->fleet, FL_KIND_TRAILER);
  ranked = rank (c, NULL, &rows);
  g_assert_cmpuint (ranked->len, ==, trailers);
  g_assert_cmpuint (rows.trailers->len, ==, trailers);          /* each was told of once, as soon as it was known */
  for (guint i = 0; i < ranked->len; i++)
    {
      guint told = 0;

      for (guint k = 0; k < rows.trailers->len; k++)
        told += strcmp (rows.trailers->pdata[k], at (ranked, i)->trailer) == 0;
      g_assert_cmpuint (told, ==, 1);
      g_test_message ("%s %s %d", at (ranked, i)->trailer, at (ranked, i)->best != NULL ? "carries it" : "does not", at (ranked, i)->score.cautions);
      if (at (ranked, i)->best != NULL)
        {
          assert_stands (c, at (ranked, i));
          carry++;
        }
      else
        assert_none (at (ranked, i));
      if (i == 0 || at (ranked, i)->best == NULL)
        continue;
      g_assert_nonnull (at (ranked, i - 1)->best);              /* none that cannot comes before one that can */
      g_assert_cmpint (fl_score_compare (&at (ranked, i - 1)->score, &at (ranked, i)->score), <=, 0);
    }
  g_assert_cmpuint (carry, >=, 2);
  g_assert_cmpuint (carry, <, ranked->len);
  g_ptr_array_unref (rows.trailers);
}

/* The first of them is what planning on it by itself gives. */
static void
test_first (void)
{
  g_autoptr(Case) c = case_demo ();
  g_autoptr(GPtrArray) ranked = NULL;
  g_autoptr(FlPlan) start = NULL;
  g_autoptr(FlProposal) alone = NULL;
  g_autofree char *a = NULL, *b = NULL;

  g_assert_true (case_read (c));
  ranked = rank (c, NULL, NULL);
  start = fl_plan_for_move (c->fleet, move_of (c->fleet, MOVE), at (ranked, 0)->trailer, NULL);
  alone = plan_from (c, start, NULL);
  a = result_text (at (ranked, 0)->best);
  b = result_text (alone->best);
  g_assert_cmpstr (a, ==, b);
}

/* Cancelled at the first row: what is known so far. */
static void
cancel_it (gpointer self, double fraction G_GNUC_UNUSED, const char *message G_GNUC_UNUSED, const FlFact *facts G_GNUC_UNUSED, gsize n G_GNUC_UNUSED)
{
  g_cancellable_cancel (self);
}

static void
test_cancel (void)
{
  g_autoptr(Case) c = case_demo ();
  g_autoptr(GCancellable) cancel = g_cancellable_new ();
  g_autoptr(GPtrArray) ranked = NULL;
  FlHost host = { cancel_it, cancel, cancel };

  g_assert_true (case_read (c));
  ranked = rank (c, &host, NULL);
  g_assert_cmpuint (ranked->len, ==, 1);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/rank/order", test_order);
  g_test_add_func ("/rank/first", test_first);
  g_test_add_func ("/rank/cancel", test_cancel);
  return test_done (g_test_run ());
}
