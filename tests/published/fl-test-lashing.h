/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-test-lashing.h: for the published examples of lashings: pulls by the angles that the standards use, and a printed figure. Header only. */
#ifndef FL_TEST_LASHING_H
#define FL_TEST_LASHING_H

#include "fl-paper.h"

#define KN 1000.0
#define ALONG ((FlVec) { 1, 0, 0 })
#define ACROSS ((FlVec) { 0, 1, 0 })

static inline double
radians (double degrees)
{
  return degrees * G_PI / 180.0;
}

/* alpha to the deck, beta to the long axis of the vehicle; forward and left are 1 or -1: to which corner it goes. */
static inline FlPull
lashing (double alpha_deg, double beta_deg, int forward, int left, double limit)
{
  double a = radians (alpha_deg), b = radians (beta_deg);

  return (FlPull) { .along = { forward * cos (a) * cos (b), left * cos (a) * sin (b), -sin (a) }, .limit = limit };
}

/* The four of them, to all corners. */
static inline void
four_lashings (FlPull *pulls, double alpha_deg, double beta_deg, double limit)
{
  for (guint i = 0; i < 4; i++)
    pulls[i] = lashing (alpha_deg, beta_deg, i & 1 ? 1 : -1, i & 2 ? 1 : -1, limit);
}

/* The figure rounds to what is printed; unit: one in its last printed place. Never true for a NaN. */
#define assert_prints(value, printed, unit) g_assert_cmpfloat_with_epsilon ((value), (printed), 0.5 * (unit) * (1 + 1e-9))

/* Number to be used of an exact one. */
static inline double
whole (double exact)
{
  return ceil (exact - 1e-9);
}

/* Registers a check for each row of a table whose first members are an id and where it comes from: /standard/seen/ID. */
#define add_rows(standard, rows, check) G_STMT_START { \
  for (gsize i_ = 0; i_ < G_N_ELEMENTS (rows); i_++) \
    { \
      g_autofree char *name_ = g_strdup_printf ("/%s/%s/%s", (standard), (rows)[i_].from, (rows)[i_].id); \
      g_test_add_data_func (name_, &(rows)[i_], (check)); \
    } \
} G_STMT_END

#endif
