/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-beam.c: loads on a beam over coupling and axle groups. */
#include "fl-beam.h"

#include <math.h>

#include "fl-statics-tolerances.h"

FlBeamStatus
fl_beam_loads (const FlBeamLoad *loads, gsize n, double first_x, double second_x, double out[2])
{
  double arm = second_x - first_x;
  double first = 0.0, second = 0.0;

  out[0] = out[1] = 0.0;
  if (!isfinite (arm))
    return FL_BEAM_NOT_FINITE;
  if (fabs (arm) < FL_STATICS_ARM)
    return FL_BEAM_COINCIDENT;
  for (gsize i = 0; i < n; i++)
    {
      first += loads[i].force * (second_x - loads[i].x) / arm;
      second += loads[i].force * (loads[i].x - first_x) / arm;
    }
  if (!isfinite (first) || !isfinite (second))
    return FL_BEAM_NOT_FINITE;
  out[0] = first;
  out[1] = second;
  return FL_BEAM_OK;
}

/* ── groups ── */

/* The axles of one suspension, met by the first of them in the list. */
typedef struct { gsize first; double x, share_sum; gboolean equal; } Group;

static gboolean
together (const FlBeamAxle *axles, gsize i, gsize j)
{
  return i == j || (axles[i].group != 0 && axles[i].group == axles[j].group);
}

/* The axle's share as a weight; the group's sum makes it a fraction. */
static double
weight_in (Group group, const FlBeamAxle *axle)
{
  return group.equal ? 1.0 : axle->share;
}

static FlBeamStatus
measure_group (const FlBeamAxle *axles, gsize n, gsize first, Group *group)
{
  *group = (Group) { .first = first, .equal = isnan (axles[first].share) };
  for (gsize i = first; i < n; i++)
    {
      double weight;

      if (!together (axles, first, i))
        continue;
      weight = weight_in (*group, &axles[i]);
      if (isnan (axles[i].share) != group->equal || !isfinite (weight) || weight < 0.0)
        return FL_BEAM_BAD_SHARES;
      group->share_sum += weight;
      group->x += weight * axles[i].x;
    }
  if (!isnormal (group->share_sum))
    return FL_BEAM_BAD_SHARES;
  group->x /= group->share_sum;
  return FL_BEAM_OK;
}

static gboolean
is_first_of_group (const FlBeamAxle *axles, gsize i)
{
  for (gsize j = 0; j < i; j++)
    if (together (axles, i, j))
      return FALSE;
  return TRUE;
}

/* Finds the groups, at most `room` of them; *n_groups is how many there are, which may be more. */
static FlBeamStatus
find_groups (const FlBeamAxle *axles, gsize n, Group *groups, gsize room, gsize *n_groups)
{
  *n_groups = 0;
  for (gsize i = 0; i < n; i++)
    {
      FlBeamStatus status;
      Group group;

      if (!isfinite (axles[i].x) || !isfinite (axles[i].own))
        return FL_BEAM_NOT_FINITE;
      if (!is_first_of_group (axles, i))
        continue;
      status = measure_group (axles, n, i, &group);
      if (status != FL_BEAM_OK)
        return status;
      if (*n_groups < room)
        groups[*n_groups] = group;
      ++*n_groups;
    }
  return FL_BEAM_OK;
}

/* Lays the group's load, N, on its axles. */
static void
share_out (const FlBeamAxle *axles, gsize n, Group group, double load, double *axle_out)
{
  for (gsize i = group.first; i < n; i++)
    if (together (axles, group.first, i))
      axle_out[i] = axles[i].own + load * weight_in (group, &axles[i]) / group.share_sum;
}

FlBeamStatus
fl_beam_group (const FlBeamAxle *axles, gsize n_axles, gsize index, double *x, double *part)
{
  gsize first = 0;
  FlBeamStatus status;
  Group group;

  while (first < index && !together (axles, first, index))
    first++;
  status = measure_group (axles, n_axles, first, &group);
  if (status == FL_BEAM_OK && !isfinite (group.x))
    status = FL_BEAM_NOT_FINITE;
  *x = status == FL_BEAM_OK ? group.x : 0.0;
  *part = status == FL_BEAM_OK ? weight_in (group, &axles[index]) / group.share_sum : 0.0;
  return status;
}

/* ── vehicles ── */

static FlBeamStatus
support_count (gsize n)
{
  return n < 2 ? FL_BEAM_ONE_SUPPORT : n > 2 ? FL_BEAM_INDETERMINATE : FL_BEAM_OK;
}

FlBeamStatus
fl_beam_axles (const FlBeamLoad *loads, gsize n_loads, const FlBeamCoupling *coupling, const FlBeamAxle *axles, gsize n_axles,
               double *axle_out, double *coupling_out)
{
  Group groups[2] = { { 0 } };
  gsize n_groups = 0;
  double on[2];
  FlBeamStatus status;

  for (gsize i = 0; i < n_axles; i++)
    axle_out[i] = 0.0;
  if (coupling_out != NULL)
    *coupling_out = 0.0;
  if (coupling != NULL && (!isfinite (coupling->x) || !isfinite (coupling->own)))
    return FL_BEAM_NOT_FINITE;
  status = find_groups (axles, n_axles, groups, G_N_ELEMENTS (groups), &n_groups);
  if (status == FL_BEAM_OK)
    status = support_count (n_groups + (coupling != NULL ? 1 : 0));
  if (status == FL_BEAM_OK)
    status = fl_beam_loads (loads, n_loads, groups[0].x, coupling != NULL ? coupling->x : groups[1].x, on);
  if (status != FL_BEAM_OK)
    return status;
  share_out (axles, n_axles, groups[0], on[0], axle_out);
  if (coupling == NULL)
    share_out (axles, n_axles, groups[1], on[1], axle_out);
  else if (coupling_out != NULL)
    *coupling_out = coupling->own + on[1];
  return FL_BEAM_OK;
}
