/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-sums.c: component sums of tie-downs. */
#include "fl-sums.h"

#include "fl-run.h"
#include "fl-statics-tolerances.h"

static void
add_pull (FlSums *sums, const FlPull *pull)
{
  for (guint m = 0; m < FL_N_MOVEMENTS; m++)
    {
      double share = fl_run_holds (pull->along, fl_movement_direction (m));

      if (share <= FL_STATICS_COSINE || pull->limit <= 0.0)
        continue;
      sums->force[m] += pull->limit * share;
      sums->holding[m]++;
    }
}

FlSums
fl_sums_component (const FlPull *pulls, gsize n, double weight)
{
  FlSums sums = { 0 };

  for (gsize i = 0; i < n; i++)
    if (fl_vec_is_finite (pulls[i].along) && isfinite (pulls[i].limit) && pulls[i].limit >= 0.0)
      add_pull (&sums, &pulls[i]);
    else
      sums.skipped++;
  if (isfinite (weight) && weight > 0.0)
    for (guint m = 0; m < FL_N_MOVEMENTS; m++)
      sums.g[m] = sums.force[m] / weight;
  return sums;
}
