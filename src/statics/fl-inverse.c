/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-inverse.c: the explicit inverse of a small dense basis. */
#include "fl-inverse.h"

#include <math.h>

/* A basis with a pivot under this has no inverse. */
#define SINGULAR 1e-14

void
fl_inverse_update (double *inverse, guint m, const double *alpha, guint r)
{
  double *pivot_row = inverse + r * m, by = 1.0 / alpha[r];

  for (guint k = 0; k < m; k++)
    pivot_row[k] *= by;
  for (guint i = 0; i < m; i++)
    {
      double *row = inverse + i * m, a = alpha[i];

      if (i == r || a == 0.0)
        continue;
      for (guint k = 0; k < m; k++)
        row[k] -= a * pivot_row[k];
    }
}

static void
swap_rows (double *a, double *inverse, guint m, guint i, guint k)
{
  for (guint c = 0; c < m && i != k; c++)
    {
      double x = a[i * m + c], y = inverse[i * m + c];

      a[i * m + c] = a[k * m + c];
      a[k * m + c] = x;
      inverse[i * m + c] = inverse[k * m + c];
      inverse[k * m + c] = y;
    }
}

/* Column k of a becomes that of the unit matrix. */
static void
eliminate (double *a, double *inverse, guint m, guint k)
{
  double by = 1.0 / a[k * m + k];

  for (guint c = 0; c < m; c++)
    {
      a[k * m + c] *= by;
      inverse[k * m + c] *= by;
    }
  for (guint i = 0; i < m; i++)
    {
      double times = a[i * m + k];

      for (guint c = 0; c < m && i != k && times != 0.0; c++)
        {
          a[i * m + c] -= times * a[k * m + c];
          inverse[i * m + c] -= times * inverse[k * m + c];
        }
    }
}

gboolean
fl_inverse_of (double *a, double *inverse, guint m)
{
  for (guint i = 0; i < m * m; i++)
    inverse[i] = i % (m + 1) == 0 ? 1.0 : 0.0;
  for (guint k = 0; k < m; k++)
    {
      guint best = k;

      for (guint i = k + 1; i < m; i++)
        if (fabs (a[i * m + k]) > fabs (a[best * m + k]))
          best = i;
      if (!(fabs (a[best * m + k]) >= SINGULAR))
        return FALSE;
      swap_rows (a, inverse, m, k, best);
      eliminate (a, inverse, m, k);
    }
  return TRUE;
}
