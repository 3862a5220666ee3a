/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How a tie-down lies: see fl-lay.h. */
#include "fl-lay.h"

#include "fl-contact.h"
#include "fl-edge.h"
#include "fl-run.h"

static double
metres (FlQuantity q)
{
  return fl_quantity_in (q, FL_UNIT_M);
}

static FlVec
place (FlPlace p)
{
  return (FlVec) { metres (p.x), metres (p.y), metres (p.z) };
}

static guint
fill_boxes (const FlSolid *solids, gsize n, const FlPose *pose, FlBox *boxes, const char **names)
{
  guint filled = 0;

  for (gsize i = 0; i < n && filled < FL_LAY_MAX_BOXES; i++)
    {
      FlBox box = fl_box_spanning (place (solids[i].min), place (solids[i].max));

      if (pose != NULL)
        box = fl_pose_box (*pose, box);
      if (!fl_box_is_valid (box))
        continue;
      boxes[filled] = box;
      names[filled++] = solids[i].name;
    }
  return filled;
}

/* The steel of a zone: solid below its surface, as deep as it may be. A sloped zone has no level surface over which a run could be
 * said to bend, and is left out. */
static void
add_deck (FlGround *ground, const FlZone *zone)
{
  FlBox box = { { metres (zone->x0), -ground->half_width, -INFINITY }, { metres (zone->x1), ground->half_width, metres (zone->z) } };

  if (zone->slope != 0.0)
    return;
  if (!fl_box_is_valid (box))
    {
      ground->unmeasured = TRUE;
      return;
    }
  if (ground->n_decks == FL_LAY_MAX_BOXES)
    return;
  ground->deck_zones[ground->n_decks] = zone;
  ground->decks[ground->n_decks++] = box;
}

void
fl_ground_fill (FlGround *ground, const FlTrailer *trailer)
{
  *ground = (FlGround) { .trailer = trailer, .hinge_x = metres (trailer->hinge_x), .half_width = metres (trailer->deck_width) / 2,
                         .deck_height = metres (trailer->deck_height) };
  for (gsize i = 0; i < trailer->n_zones; i++)
    add_deck (ground, &trailer->zones[i]);
  ground->n_solids = fill_boxes (trailer->solids, trailer->n_solids, NULL, ground->solids, ground->solid_names);
}

gboolean
fl_machine_extent (const FlMachine *machine, double *x_min, double *x_max)
{
  *x_min = fl_quantity_known (machine->x_min) ? metres (machine->x_min) : 0.0;
  *x_max = fl_quantity_known (machine->x_max) ? metres (machine->x_max) : *x_min + metres (machine->length);
  return isfinite (*x_min) && isfinite (*x_max) && *x_max > *x_min;
}

FlVec
fl_stand_point (const FlStand *stand, FlPlace p)
{
  return fl_pose_to_trailer (stand->pose, place (p));
}

FlVec
fl_anchor_place (const FlAnchor *anchor)
{
  return (FlVec) { metres (anchor->x), metres (anchor->y), metres (anchor->z) };
}

/* How much of the load stands between x0 and x1: of its contacts, else of its whole length; m. */
static double
standing_on (const FlStand *stand, double x0, double x1)
{
  const FlMachine *machine = stand->machine;
  double on = 0.0;

  for (gsize i = 0; i < machine->n_contacts; i++)
    {
      const FlContactPatch *c = &machine->contacts[i];

      on += fl_rect_share_x (fl_contact_rect (stand->pose, metres (c->x), metres (c->y), metres (c->length), metres (c->width)), x0, x1);
    }
  if (machine->n_contacts == 0)
    on = MAX (0.0, MIN (stand->outline.max.x, x1) - MAX (stand->outline.min.x, x0));
  return on;
}

/* The zone that carries most of it; the first of equals. */
static const FlZone *
zone_under (const FlStand *stand, const FlTrailer *trailer)
{
  const FlZone *best = trailer->n_zones > 0 ? &trailer->zones[0] : NULL;
  double most = 0.0;

  for (gsize i = 0; i < trailer->n_zones; i++)
    {
      double on = standing_on (stand, metres (trailer->zones[i].x0), metres (trailer->zones[i].x1));

      if (on > most + 1e-9)
        {
          most = on;
          best = &trailer->zones[i];
        }
    }
  return best;
}

static FlBox
outline_of (const FlMachine *machine, FlPose pose)
{
  double half = metres (machine->width) / 2, height = metres (machine->height);

  return fl_pose_box (pose, (FlBox) { { pose.x_min, -half, 0.0 }, { pose.x_max, half, height } });
}

void
fl_stand_fill (FlStand *stand, const FlGround *ground, const FlMachine *machine, FlFacing facing, double rear, double left)
{
  double x_min, x_max;
  gboolean measured = fl_machine_extent (machine, &x_min, &x_max);

  *stand = (FlStand) { .machine = machine, .pose = { facing, rear, left, x_min, x_max, 0.0 } };
  stand->placed = measured && isfinite (rear) && isfinite (left);
  if (!stand->placed)
    {
      stand->pose = (FlPose) { facing, NAN, NAN, NAN, NAN, NAN };
      return;
    }
  stand->outline = outline_of (machine, stand->pose);
  stand->zone = zone_under (stand, ground->trailer);
  if (stand->zone != NULL && fl_quantity_known (stand->zone->z))
    stand->pose.z = metres (stand->zone->z);
  stand->outline = outline_of (machine, stand->pose);
  stand->n_solids = fill_boxes (machine->solids, machine->n_solids, &stand->pose, stand->solids, stand->solid_names);
  stand->n_keep_clear = fill_boxes (machine->keep_clear, machine->n_keep_clear, &stand->pose, stand->keep_clear, stand->keep_names);
}

/* ── runs ── */

static double
degrees (double rad)
{
  return rad * 180.0 / G_PI;
}

static void
check_clear (FlLay *lay, const FlBox *boxes, guint n, const char *const *names, guint flag)
{
  gsize hit = 0;

  if (n == 0 || fl_run_clears (lay->path, lay->n_path, FL_LAY_LEAVES, boxes, n, &hit))
    return;
  lay->flags |= flag;
  if (lay->hit == NULL && hit < n)
    lay->hit = names[hit];
}

/* Outside a window of degrees, allowing the house's tolerance. NaN bounds do not bind. */
static gboolean
outside (double value, double lo, double hi)
{
  return (isfinite (lo) && value < lo - FL_TOLERANCE * 90.0) || (isfinite (hi) && value > hi + FL_TOLERANCE * 90.0);
}

static void
check_angles (FlLay *lay, const FlBookData *data)
{
  if (outside (lay->deck, data->deck_lo, data->deck_hi))
    lay->flags |= FL_LAY_DECK_ANGLE;
  if (outside (lay->plan, data->plan_min, NAN))
    lay->flags |= FL_LAY_PLAN_ANGLE;
}

static void
check_point (FlLay *lay, const FlTiePoint *point)
{
  double run = lay->run;

  if (!point->maker_provided)
    lay->flags |= FL_LAY_POINT;
  if (outside (lay->deck, point->pull_deck_lo, point->pull_deck_hi) || outside (lay->plan, point->pull_plan_lo, point->pull_plan_hi)
      || outside (run, metres (point->pull_run_lo), metres (point->pull_run_hi)))
    lay->flags |= FL_LAY_WINDOW;
}

/* Puts the bends over the edges of the decks between the machine's point and the anchor. */
static void
bend_over_decks (FlLay *lay, const FlGround *ground, FlVec point, FlVec anchor)
{
  lay->path[0] = point;
  lay->path[1] = anchor;
  lay->n_path = 2;
  for (guint i = 0; i < ground->n_decks; i++)
    {
      FlVec via[FL_EDGE_MAX_BENDS];
      FlBend bend = fl_edge_bend (point, anchor, ground->decks[i], FL_LAY_LEAVES, via);

      if (bend == FL_BEND_NONE)
        continue;
      if (bend == FL_BEND_BLOCKED)
        {
          lay->flags |= FL_LAY_BLOCKED;
          return;
        }
      lay->flags |= FL_LAY_EDGE;
      for (guint k = 0; k < (guint) bend; k++)
        lay->path[1 + k] = via[k];
      lay->path[1 + bend] = anchor;
      lay->n_path = 2 + bend;
      return;
    }
}

static void
check_surroundings (FlLay *lay, const FlGround *ground, const FlStand *stand, gboolean own_body)
{
  if (own_body)
    check_clear (lay, stand->solids, stand->n_solids, stand->solid_names, FL_LAY_SOLID);
  check_clear (lay, stand->keep_clear, stand->n_keep_clear, stand->keep_names, FL_LAY_KEEP_CLEAR);
  check_clear (lay, ground->solids, ground->n_solids, ground->solid_names, FL_LAY_TRAILER_SOLID);
  if (isfinite (ground->hinge_x) && fl_run_crosses_plane (lay->path, lay->n_path, ground->hinge_x))
    lay->flags |= FL_LAY_HINGE;
}

static void
lay_nothing (FlLay *lay)
{
  *lay = (FlLay) { .run = NAN, .deck = NAN, .plan = NAN, .flags = FL_LAY_NOT_KNOWN };
}

void
fl_lay_direct (FlLay *lay, const FlBook *book, const FlGround *ground, const FlStand *stand, const FlTiePoint *point,
               const FlAnchor *anchor)
{
  FlVec p = fl_stand_point (stand, (FlPlace) { point->x, point->y, point->z }), a = fl_anchor_place (anchor);

  lay_nothing (lay);
  if (!stand->placed || !fl_vec_is_place (p) || !fl_vec_is_place (a))
    return;
  lay->flags = 0;
  bend_over_decks (lay, ground, p, a);
  lay->run = fl_run_length (lay->path, lay->n_path);
  lay->pull = fl_run_pull (p, lay->path[1]);
  lay->deck = degrees (fl_run_deck_angle (lay->pull));
  lay->plan = degrees (fl_run_plan_angle (lay->pull));
  if (!fl_run_pulls_down (lay->pull))
    lay->flags |= FL_LAY_NOT_DOWN;
  check_surroundings (lay, ground, stand, TRUE);
  check_angles (lay, fl_book_data (book));
  check_point (lay, point);
}

/* Degrees away from the best band of deck angles. */
static double
off_band (const FlBookData *data, double deck)
{
  return MAX (0.0, MAX (data->deck_best_lo - deck, deck - data->deck_best_hi));
}

/* The worse leg gives the angles. */
static void
worse_leg (FlLay *lay, const FlBookData *data)
{
  double deck_a = degrees (fl_run_deck_angle (lay->pull)), deck_b = degrees (fl_run_deck_angle (lay->pull_b));
  gboolean second = off_band (data, deck_b) > off_band (data, deck_a);

  lay->deck = second ? deck_b : deck_a;
  lay->plan = degrees (fl_run_plan_angle (second ? lay->pull_b : lay->pull));
}

void
fl_lay_over (FlLay *lay, const FlBook *book, const FlGround *ground, const FlStand *stand, const FlPlace *through, gsize n,
             gboolean edge, const FlAnchor *first, const FlAnchor *second)
{
  FlVec path[FL_LAY_MAX_PATH];
  guint k = 0;

  lay_nothing (lay);
  if (!stand->placed || n == 0 || n + 2 > FL_LAY_MAX_PATH)
    return;
  path[k++] = fl_anchor_place (first);
  for (gsize i = 0; i < n; i++)
    path[k++] = fl_stand_point (stand, through[i]);
  path[k++] = fl_anchor_place (second);
  if (!fl_run_is_valid (path, k))
    return;
  lay->flags = FL_LAY_OVER | (edge ? FL_LAY_EDGE : 0);
  memcpy (lay->path, path, sizeof path);
  lay->n_path = k;
  lay->run = fl_run_length (path, k);
  lay->pull = fl_run_pull (path[1], path[0]);
  lay->pull_b = fl_run_pull (path[k - 2], path[k - 1]);
  worse_leg (lay, fl_book_data (book));
  if (!fl_run_pulls_down (lay->pull) || !fl_run_pulls_down (lay->pull_b))
    lay->flags |= FL_LAY_NOT_DOWN;
  check_surroundings (lay, ground, stand, FALSE);
  check_angles (lay, fl_book_data (book));
}
