/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Legal weights of axle groups (23 USC 127, 23 CFR 658.17): what a group of consecutive axles may carry by its spread, and the groups of a
 * whole vehicle. Pure functions of the book's numbers. A weight over the law's is a matter for a permit, not for the plates of the maker. */
#ifndef FL_LEGAL_H
#define FL_LEGAL_H

#include "fl-book.h"

G_BEGIN_DECLS

/* How the limit of a group comes about. SINGLE: axles so near that they are one; TANDEM; BETWEEN: wider than a tandem, under the formula's
 * first row; BRIDGE: the formula; PAIR: two tandems far enough apart, which have twice a tandem's where the formula would give less. */
typedef enum { FL_LEGAL_SINGLE, FL_LEGAL_TANDEM, FL_LEGAL_BETWEEN, FL_LEGAL_BRIDGE, FL_LEGAL_PAIR } FlLegalKind;

/* TRUE for what the limits of single axles and tandems cover; the rest is the bridge formula's. */
gboolean fl_legal_is_near (FlLegalKind kind);

/* spread: from the first to the last axle, inches; steps: that in whole steps of the book (feet); exact: what the formula gives before it is
 * rounded, NaN where the formula plays no part; limit: book's unit. */
typedef struct { FlLegalKind kind; double spread, steps, exact, limit; } FlLegalLimit;

/* The limit of n axles (1 or more) at x, m, from the front: x falls. Two axles never have more than two single ones. */
FlLegalLimit fl_legal_limit (const FlBookData *book, const double *x, guint n);

/* The formula alone: n axles (2 or more), spread in steps; *exact (NULL allowed) before rounding. Book's unit. */
double fl_legal_formula (const FlBookData *book, guint n, double steps, double *exact);

/* A number to the nearest step, exact halves down. */
double fl_legal_nearest (double value, double step);

G_END_DECLS
#endif
