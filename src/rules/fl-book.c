/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-book.c: a rule book's life and the look-ups in its tables. */
#include "fl-book-private.h"

#include <math.h>
#include <string.h>

FlBook *
fl_book_alloc (void)
{
  FlBook *book = g_new0 (FlBook, 1);

  g_atomic_ref_count_init (&book->refs);
  book->arena = fl_arena_new ();
  return book;
}

FlBook *
fl_book_ref (const FlBook *book)
{
  FlBook *mine = (FlBook *) book;   /* the count is the only thing of a book that ever changes */

  g_return_val_if_fail (book != NULL, NULL);
  g_atomic_ref_count_inc (&mine->refs);
  return mine;
}

void
fl_book_unref (FlBook *book)
{
  if (book == NULL || !g_atomic_ref_count_dec (&book->refs))
    return;
  g_clear_pointer (&book->base, fl_book_unref);
  fl_arena_free (book->arena);
  g_free (book);
}

const FlBookData *
fl_book_data (const FlBook *book)
{
  return &book->data;
}

FlBookStamp
fl_book_stamp (const FlBook *book)
{
  return (FlBookStamp) { book->data.id, book->data.title, book->data.edition, book->data.sha256 };
}

const FlPolicy *
fl_book_policy (const FlBook *book)
{
  return &book->policy;
}

const char *
fl_book_citation (const FlBook *book, const char *rule)
{
  for (gsize i = 0; i < book->data.n_citations; i++)
    if (g_strcmp0 (book->data.citations[i].rule, rule) == 0)
      return book->data.citations[i].citation;
  return "ours";
}

gint
fl_book_grade (const FlBook *book, const char *mark)
{
  g_autofree char *plain = mark == NULL ? NULL : g_strstrip (g_strdup (mark));

  if (plain == NULL)
    return -1;
  for (gsize i = 0; i < book->data.n_grades; i++)
    if (g_strv_contains (book->data.grades[i].marks, plain))
      return (gint) i;
  return -1;
}

/* TRUE if a size is meant by this inch name or this metric name. No metric name of a size comes within the tolerance of another
 * size's inch name, so both may be asked of one number. */
static gboolean
same_size (double inches, double name_in, double name_mm)
{
  return fl_size_equal (inches, name_in) || fl_size_equal (inches, name_mm / 25.4);
}

const FlBookChainRow *
fl_book_chain_row (const FlBook *book, double size_in)
{
  for (gsize i = 0; i < book->data.n_chain; i++)
    if (same_size (size_in, book->data.chain[i].size_in, book->data.chain[i].size_mm))
      return &book->data.chain[i];
  return NULL;
}

const FlBookWebRow *
fl_book_web_row (const FlBook *book, double width_in)
{
  for (gsize i = 0; i < book->data.n_webbing; i++)
    if (same_size (width_in, book->data.webbing[i].width_in, book->data.webbing[i].width_mm))
      return &book->data.webbing[i];
  return NULL;
}

double
fl_book_chain_wll (const FlBook *book, double size_in, gint grade)
{
  const FlBookChainRow *row = fl_book_chain_row (book, size_in);

  if (row == NULL || grade < 0 || (gsize) grade >= book->data.n_grades)
    return NAN;
  return row->wll[grade];
}

/* The lowest friction of the state among the rows of `gear` (NULL: of all gear); NaN if there is none. A state nobody named: of all states. */
static double
lowest_friction (const FlBook *book, const char *gear, const char *state)
{
  double lowest = NAN;

  for (gsize i = 0; i < book->data.n_friction; i++)
    {
      const FlBookFriction *cell = &book->data.friction[i];

      if (gear != NULL && strcmp (cell->gear, gear) != 0)
        continue;
      if (state != NULL && strcmp (cell->state, state) != 0)
        continue;
      if (isnan (lowest) || cell->mu < lowest)
        lowest = cell->mu;
    }
  return lowest;
}

double
fl_book_friction (const FlBook *book, const char *gear, const char *surface, const char *state)
{
  gboolean gear_known = FALSE, surface_known = FALSE;
  double mu = NAN;

  for (gsize i = 0; i < book->data.n_friction; i++)
    {
      const FlBookFriction *cell = &book->data.friction[i];
      gboolean same_gear = g_strcmp0 (cell->gear, gear) == 0, same_surface = g_strcmp0 (cell->surface, surface) == 0;

      if (same_gear && same_surface && g_strcmp0 (cell->state, state) == 0)
        return cell->mu;
      gear_known |= same_gear;
      surface_known |= same_surface;
    }
  if (gear_known && surface_known)
    mu = lowest_friction (book, gear, state);
  if (isnan (mu))
    mu = lowest_friction (book, NULL, state);
  if (isnan (mu))
    mu = lowest_friction (book, NULL, NULL);
  return isnan (mu) ? 0.0 : mu;
}
