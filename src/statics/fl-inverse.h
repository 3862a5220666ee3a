/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-inverse.h: the explicit inverse of a small dense basis, by rows, m x m, row i from i * m on. */
#ifndef FL_INVERSE_H
#define FL_INVERSE_H

#include <glib.h>

G_BEGIN_DECLS

/* The inverse after the column whose product with it is alpha took the place of column r. alpha[r] is not zero. */
void fl_inverse_update (double *inverse, guint m, const double *alpha, guint r);

/* inverse of a, by elimination with the greatest pivot of each column; a is spoilt. FALSE: a has none to rounding, and inverse is spoilt too. */
gboolean fl_inverse_of (double *a, double *inverse, guint m);

G_END_DECLS

#endif
