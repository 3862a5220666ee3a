/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Legal weights of axle groups: see fl-legal.h. */
#include "fl-legal.h"

#include <math.h>

/* What a conversion to metres and back may leave behind, in steps: no half is missed by it and none is made. */
#define NOISE 1e-9

double
fl_legal_nearest (double value, double step)
{
  return ceil (value / step - 0.5 - NOISE) * step;
}

double
fl_legal_formula (const FlBookData *book, guint n, double steps, double *exact)
{
  const FlBookBridge *b = &book->bridge;
  double w = b->factor * (steps * n / (n - 1.0) + b->per_axle * n + b->constant);

  if (exact != NULL)
    *exact = w;
  return fl_legal_nearest (w, b->round);
}

gboolean
fl_legal_is_near (FlLegalKind kind)
{
  return kind == FL_LEGAL_SINGLE || kind == FL_LEGAL_TANDEM;
}

static double
spread_of (const double *x, guint n)
{
  return (x[0] - x[n - 1]) / FL_M_PER_IN;
}

static FlLegalKind
kind_of (const FlBookBridge *b, double spread)
{
  if (fl_reaches (b->single_within, spread))
    return FL_LEGAL_SINGLE;
  if (fl_reaches (b->tandem_within, spread))
    return FL_LEGAL_TANDEM;
  return fl_reaches (spread, b->formula_from) ? FL_LEGAL_BRIDGE : FL_LEGAL_BETWEEN;
}

/* Two tandems one behind the other, and nothing else, with their outer axles far enough apart. */
static gboolean
is_pair (const FlBookBridge *b, const double *x, guint n)
{
  if (!fl_reaches (spread_of (x, n), b->tandem_pair_from))
    return FALSE;
  for (guint k = 2; k + 2 <= n; k++)
    if (kind_of (b, spread_of (x, k)) == FL_LEGAL_TANDEM && kind_of (b, spread_of (x + k, n - k)) == FL_LEGAL_TANDEM)
      return TRUE;
  return FALSE;
}

static void
by_formula (const FlBookData *book, const double *x, guint n, FlLegalLimit *limit)
{
  limit->steps = fl_legal_nearest (limit->spread, book->bridge.spread_step) / book->bridge.spread_step;
  limit->limit = fl_legal_formula (book, n, limit->steps, &limit->exact);
  if (n == 2)
    limit->limit = fmin (limit->limit, 2 * book->legal_single);
  if (limit->limit < 2 * book->legal_tandem && is_pair (&book->bridge, x, n))
    {
      limit->kind = FL_LEGAL_PAIR;
      limit->limit = 2 * book->legal_tandem;
    }
}

FlLegalLimit
fl_legal_limit (const FlBookData *book, const double *x, guint n)
{
  double spread = spread_of (x, n);
  FlLegalLimit limit = { kind_of (&book->bridge, spread), spread, NAN, NAN, NAN };

  switch (limit.kind)
    {
    case FL_LEGAL_SINGLE:
      limit.limit = book->legal_single;
      break;
    case FL_LEGAL_TANDEM:
      limit.limit = book->legal_tandem;
      break;
    case FL_LEGAL_BETWEEN:
      /* The printed tables have two and three axles here; more in so short a space have no row, and get no more than three. */
      limit.limit = n == 2 ? book->bridge.between_two : book->bridge.between_more;
      break;
    case FL_LEGAL_BRIDGE:
    case FL_LEGAL_PAIR:
    default:
      by_formula (book, x, n, &limit);
      break;
    }
  return limit;
}
