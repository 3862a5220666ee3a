/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What tie-downs hold as they share it: see fl-share.h. */
#include "fl-share.h"

#include <math.h>

#include "fl-run.h"
#include "fl-statics-tolerances.h"

FlStretch
fl_stretch_of (const FlLay *lay, double limit, double stiffness)
{
  FlStretch s = { .limit = limit, .stiffness = stiffness };

  for (guint way = 0; way < FL_N_WAYS; way++)
    {
      double cosine = fl_run_holds (lay->pull, fl_movement_direction (way));

      s.cosine[way] = cosine > FL_STATICS_COSINE ? cosine : 0.0;
    }
  return s;
}

double
fl_share_holds (const FlStretch *ties, guint n, guint way)
{
  double moved = INFINITY, sum = 0.0;

  for (guint i = 0; i < n; i++)
    {
      double each = ties[i].stiffness * ties[i].cosine[way];

      if (each <= 0.0)
        continue;
      moved = fmin (moved, ties[i].limit / each);
      sum += each * ties[i].cosine[way];
    }
  return sum > 0.0 ? sum * moved : 0.0;
}
