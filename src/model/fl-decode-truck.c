/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Trucks, and what trucks and trailers have in common: axles and couplings. */
#include "fl-decode.h"

#include <math.h>

static const char *const TRUCK_COUPLINGS[] = { "pintle", "ball", "gooseneck_ball", "fifth_wheel", NULL };
static const char *const TRAILER_COUPLINGS[] = { "lunette", "ball_coupler", "gooseneck_coupler", "kingpin", NULL };

enum { MOST_GROUPS = 20 };

/* How far the shares of a group may add up beside 1: three times what rounding to two places can do to one of them. */
#define SHARE_SLACK 0.015

static FlAxle
decode_axle (FlReader *reader)
{
  FlAxle axle = { 0 };

  axle.x = fl_decode_quantity (reader, "x", FL_BOUND_X, TRUE);
  axle.tare = fl_decode_quantity (reader, "tare", FL_BOUND_PART_TARE, TRUE);
  axle.rated = fl_decode_quantity (reader, "rated", FL_BOUND_AXLE_RATED, FALSE);
  axle.steer = fl_reader_bool (reader, "steer", FALSE);
  axle.group = fl_reader_int (reader, "group", 1, MOST_GROUPS, 0);
  axle.share = fl_reader_number (reader, "share", 0, 1, NAN);
  return axle;
}

/* In each group either no axle has a share, or all have one and the shares are the whole. */
static void
check_shares (FlReader *reader, const FlAxle *axles, gsize n)
{
  for (gint group = 1; group <= MOST_GROUPS; group++)
    {
      double sum = 0.0;
      guint members = 0, with = 0;

      for (gsize i = 0; i < n; i++)
        if (axles[i].group == group)
          {
            members++;
            with += !isnan (axles[i].share);
            sum += isnan (axles[i].share) ? 0.0 : axles[i].share;
          }
      if (with > 0 && (with < members || fabs (sum - 1.0) > SHARE_SLACK))
        fl_reader_problem (reader, FL_SEVERITY_ERROR, "axles",
                           "in axle group %d a share for every axle, 1 in all, or for none", group);
    }
}

const FlAxle *
fl_decode_axles (FlReader *reader, gsize *n)
{
  gsize given = fl_reader_list (reader, "axles", TRUE);
  FlAxle *axles = fl_arena_new0 (fl_reader_arena (reader), FlAxle, given);

  *n = 0;
  for (gsize i = 0; i < given; i++)
    {
      FlReader *item = fl_reader_item (reader, "axles", i);

      if (item != NULL)
        axles[(*n)++] = decode_axle (item);
    }
  if (given == 0 && fl_reader_has (reader, "axles"))
    fl_reader_problem (reader, FL_SEVERITY_ERROR, "axles", "at least one axle");
  check_shares (reader, axles, *n);
  return axles;
}

FlCoupling
fl_decode_coupling (FlReader *reader, gboolean trailer)
{
  FlReader *from = fl_reader_object (reader, "coupling", FALSE);
  FlCoupling coupling = { .share_lo = NAN, .share_hi = NAN };

  if (from == NULL)
    return coupling;
  coupling.present = TRUE;
  coupling.kind = fl_decode_word (from, "kind", trailer ? TRAILER_COUPLINGS : TRUCK_COUPLINGS, TRUE);
  coupling.x = fl_decode_quantity (from, "x", FL_BOUND_X, TRUE);
  coupling.rated_vertical = fl_decode_quantity (from, "rated_vertical", FL_BOUND_VERTICAL, FALSE);
  coupling.rated_trailed = fl_decode_quantity (from, "rated_trailed", FL_BOUND_TRAILED, FALSE);
  if (!trailer)
    return coupling;
  coupling.tare = fl_decode_quantity (from, "tare", FL_BOUND_PART_TARE, FALSE);
  fl_decode_band (from, "share_pct", 0, 100, &coupling.share_lo, &coupling.share_hi);
  return coupling;
}

gconstpointer
fl_decode_truck (FlReader *reader)
{
  FlTruck *truck = fl_arena_new0 (fl_reader_arena (reader), FlTruck, 1);

  truck->id = fl_decode_id (reader);
  truck->name = fl_reader_text (reader, "name", FALSE);
  truck->yard = fl_reader_text (reader, "yard", TRUE);
  truck->gvwr = fl_decode_quantity (reader, "gvwr", FL_BOUND_GROSS, FALSE);
  truck->gcwr = fl_decode_quantity (reader, "gcwr", FL_BOUND_GROSS, FALSE);
  truck->front_x = fl_decode_quantity (reader, "front_x", FL_BOUND_X, FALSE);
  truck->coupling = fl_decode_coupling (reader, FALSE);
  truck->axles = fl_decode_axles (reader, &truck->n_axles);
  truck->basis = fl_decode_bases (reader);
  return truck;
}
