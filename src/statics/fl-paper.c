/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-paper.c: published formulas for lashings with friction. */
#include "fl-paper.h"

#include "fl-statics-tolerances.h"

static double
factor_of (FlPaperDemand demand)
{
  return demand.factor > 0.0 && isfinite (demand.factor) ? demand.factor : 1.0;
}

static gboolean
is_sound (const FlPull *pull)
{
  return fl_vec_is_finite (pull->along) && isfinite (pull->limit) && pull->limit >= 0.0;
}

/* TRUE if an earlier pull is a leg of the same tie-down, which was counted there. */
static gboolean
is_later_leg (const FlPull *pulls, gsize i)
{
  for (gsize k = 0; k < i && pulls[i].tie != 0; k++)
    if (pulls[k].tie == pulls[i].tie)
      return TRUE;
  return FALSE;
}

/* One tie-down: its tension, its pulls added up, and the moment of a tension of one about the edge. */
typedef struct { double limit; FlVec along; double lever; } Tie;

static void
add_leg (Tie *tie, const FlPull *pull, FlVec direction, FlVec edge)
{
  FlVec r = fl_vec_sub (pull->at, edge);

  tie->limit = MIN (tie->limit, pull->limit);
  tie->along = fl_vec_add (tie->along, pull->along);
  tie->lever += -fl_vec_dot (pull->along, direction) * r.z + pull->along.z * fl_vec_dot (r, direction);
}

/* FALSE if some leg of it is not sound: the others alone would be another tie-down. */
static gboolean
tie_of (Tie *tie, const FlPull *pulls, gsize n, gsize i, FlVec direction, FlVec edge)
{
  gboolean sound = TRUE;

  *tie = (Tie) { .limit = pulls[i].limit };
  for (gsize k = i; k < n; k++)
    if (k == i || (pulls[i].tie != 0 && pulls[k].tie == pulls[i].tie))
      {
        sound = sound && is_sound (&pulls[k]);
        add_leg (tie, &pulls[k], direction, edge);
      }
  return sound;
}

FlPaperSliding
fl_paper_sliding (const FlPull *pulls, gsize n, FlVec direction, double weight, FlPaperDemand demand)
{
  FlPaperSliding out = { .need = demand.c * weight, .weight = demand.mu * demand.c_z * weight };

  for (gsize i = 0; i < n; i++)
    {
      Tie tie;
      double holds;

      if (is_later_leg (pulls, i))
        continue;
      if (!tie_of (&tie, pulls, n, i, direction, pulls[i].at))
        {
          out.skipped++;
          continue;
        }
      holds = -fl_vec_dot (tie.along, direction);
      if (holds <= FL_STATICS_COSINE || tie.limit <= 0.0)
        continue;
      out.ties += tie.limit / factor_of (demand) * (holds - demand.mu * tie.along.z);
      out.holding++;
    }
  if (isfinite (weight) && weight > 0.0)
    out.g = (out.weight + out.ties) / weight;
  return out;
}

FlPaperTipping
fl_paper_tipping (const FlPull *pulls, gsize n, FlVec direction, double weight, FlVec cg, FlVec edge, FlPaperDemand demand)
{
  FlVec r = fl_vec_sub (cg, edge);
  FlPaperTipping out = { .overturning = demand.c * weight * r.z, .weight = -demand.c_z * weight * fl_vec_dot (r, direction) };

  for (gsize i = 0; i < n; i++)
    {
      Tie tie;

      if (is_later_leg (pulls, i))
        continue;
      if (!tie_of (&tie, pulls, n, i, direction, edge) || isnan (tie.lever))
        {
          out.skipped++;
          continue;
        }
      if (!(tie.lever > FL_STATICS_POINT) || tie.limit <= 0.0)
        continue;
      out.ties += tie.limit / factor_of (demand) * tie.lever;
      out.holding++;
    }
  if (!(weight > 0.0) || !isfinite (weight))
    return out;
  out.g = r.z > FL_STATICS_POINT ? (out.weight + out.ties) / (weight * r.z) : INFINITY;
  return out;
}

double
fl_paper_left_over (double weight, FlPaperDemand demand)
{
  double left = (demand.c - demand.mu * demand.c_z) * weight;

  return left < 0.0 ? 0.0 : left;
}

double
fl_paper_over_friction (double sine, double tension, FlPaperDemand demand)
{
  return 2.0 * demand.mu * sine * tension / factor_of (demand);
}

/* How many of `each` make up `need`. */
static double
number_of (double need, double each)
{
  if (need <= 0.0)
    return 0.0;
  return each > 0.0 ? need / each : INFINITY;
}

double
fl_paper_over_sliding (double weight, double sine, double tension, FlPaperDemand demand)
{
  return number_of (fl_paper_left_over (weight, demand), fl_paper_over_friction (sine, tension, demand));
}

double
fl_paper_over_tipping (double weight, double height, double behind, double width, double sine, double tension, FlPaperDemand demand)
{
  return number_of (weight * (demand.c * height - demand.c_z * behind), width * sine * tension / factor_of (demand));
}
