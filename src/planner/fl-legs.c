/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Legs and couples: see fl-legs.h. */
#include "fl-legs.h"

#include <math.h>
#include <string.h>

#include "fl-house.h"
#include "fl-pairing.h"
#include "fl-run.h"

/* Couples kept of each pair of points and direction. */
enum { KEEP = 5 };

gboolean
fl_hung_free (const FlHung *hung, const FlTrailer *trailer, const FlAnchor *anchor)
{
  gsize i = (gsize) (anchor - trailer->anchors);

  return i < G_N_ELEMENTS (hung->hung) && hung->hung[i] < anchor->takes;
}

void
fl_hung_add (FlHung *hung, const FlTrailer *trailer, const FlAnchor *anchor)
{
  gsize i = (gsize) (anchor - trailer->anchors);

  if (i < G_N_ELEMENTS (hung->hung))
    hung->hung[i]++;
}

/* ── which points and anchors ── */

static gboolean
anchor_aside (const FlSite *site, const FlAnchor *anchor)
{
  return site->choices->aside_anchors != NULL && g_strv_contains (site->choices->aside_anchors, anchor->id);
}

static gboolean
point_aside (const FlSite *site, const FlTiePoint *point)
{
  for (gsize i = 0; i < site->choices->n_aside_points; i++)
    if (site->choices->aside_points[i].load == site->load && strcmp (site->choices->aside_points[i].point, point->id) == 0)
      return TRUE;
  return FALSE;
}

static gboolean
belongs_to (const FlImplement *implement, const char *point)
{
  return implement->tie_points != NULL && g_strv_contains (implement->tie_points, point);
}

/* A point is an implement's if one of them lists it; such a point holds the implement and not the machine. */
static gboolean
is_implements (const FlMachine *machine, const FlTiePoint *point)
{
  if (g_strcmp0 (point->section, "implement") == 0)
    return TRUE;
  for (gsize i = 0; i < machine->n_implements; i++)
    if (belongs_to (&machine->implements[i], point->id))
      return TRUE;
  return FALSE;
}

/* ── legs ── */

static double
squared (double x)
{
  return x * x;
}

static double
penalty_of (const FlLay *lay, const FlBookData *data)
{
  double off = MAX (0.0, MAX (data->deck_best_lo - lay->deck, lay->deck - data->deck_best_hi));

  /* The maker's window is no kind of its own in the score: outside it a leg is only taken when there is no other. */
  return squared (off) + squared (lay->plan - data->plan_best) + ((lay->flags & FL_LAY_WINDOW) != 0 ? 4000.0 : 0.0);
}

static guint
holds_of (const FlLay *lay)
{
  guint holds = 0;

  for (guint k = 0; k < FL_N_MOVEMENTS; k++)
    if (fl_run_holds (lay->pull, fl_movement_direction (k)) > 0.02
        || ((lay->flags & FL_LAY_OVER) != 0 && fl_run_holds (lay->pull_b, fl_movement_direction (k)) > 0.02))
      holds |= 1u << k;
  return holds;
}

static void
add_leg (FlLegs *legs, FlLeg leg, const FlSite *site)
{
  if ((leg.lay.flags & FL_LAY_FORBIDS) != 0 || legs->n == FL_MAX_LEGS || !fl_house_allows_lay (site->book, site->ground, &leg.lay, leg.anchors))
    return;
  leg.cautions = leg.lay.flags & FL_LEG_CAUTIONS;
  leg.penalty = penalty_of (&leg.lay, fl_book_data (site->book));
  leg.holds = holds_of (&leg.lay);
  legs->legs[legs->n++] = leg;
}

static void
add_direct (FlLegs *legs, const FlSite *site, const FlTiePoint *point, const FlHung *hung)
{
  const FlTrailer *trailer = site->ground->trailer;

  for (gsize i = 0; i < trailer->n_anchors; i++)
    {
      FlLeg leg = { .point = point, .anchors = { &trailer->anchors[i], NULL } };

      if (anchor_aside (site, leg.anchors[0]) || !fl_hung_free (hung, trailer, leg.anchors[0]))
        continue;
      fl_lay_direct (&leg.lay, site->book, site->ground, site->stand, point, leg.anchors[0]);
      add_leg (legs, leg, site);
    }
}

static gboolean
across (const FlAnchor *a, const FlAnchor *b)
{
  FlVec p = fl_anchor_place (a), q = fl_anchor_place (b);

  return a->side != b->side && fabs (p.x - q.x) < FL_MIRROR;
}

static void
add_over (FlLegs *legs, const FlSite *site, const FlOverPath *path, const FlHung *hung)
{
  const FlTrailer *trailer = site->ground->trailer;

  for (gsize i = 0; i < trailer->n_anchors; i++)
    for (gsize k = 0; k < trailer->n_anchors; k++)
      {
        FlLeg leg = { .path = path, .anchors = { &trailer->anchors[i], &trailer->anchors[k] } };

        if (!across (leg.anchors[0], leg.anchors[1]) || anchor_aside (site, leg.anchors[0]) || anchor_aside (site, leg.anchors[1])
            || !fl_hung_free (hung, trailer, leg.anchors[0]) || !fl_hung_free (hung, trailer, leg.anchors[1]))
          continue;
        fl_lay_over (&leg.lay, site->book, site->ground, site->stand, path->points, path->n_points, path->edge, leg.anchors[0],
                     leg.anchors[1]);
        add_leg (legs, leg, site);
      }
}

void
fl_legs_find (FlLegs *legs, const FlSite *site, const FlImplement *implement, const FlHung *hung)
{
  const FlMachine *machine = site->stand->machine;

  legs->n = 0;
  for (gsize i = 0; i < machine->n_tie_points; i++)
    {
      const FlTiePoint *point = &machine->tie_points[i];
      gboolean wanted = implement != NULL ? belongs_to (implement, point->id) : !is_implements (machine, point);

      if (wanted && !point_aside (site, point))
        add_direct (legs, site, point, hung);
    }
  if (implement != NULL)
    for (gsize i = 0; i < implement->n_over_paths; i++)
      add_over (legs, site, &implement->over_paths[i], hung);
}

/* ── couples ── */

static gboolean
mirror (const FlLeg *a, const FlLeg *b)
{
  return a->point != NULL && b->point != NULL && a->point != b->point && a->anchors[0] != b->anchors[0]
         && fl_mirror_images (a->lay.path[0], b->lay.path[0]) && fl_mirror_images (fl_anchor_place (a->anchors[0]), fl_anchor_place (b->anchors[0]));
}

static guint
along (guint holds)
{
  return holds & ((1u << FL_MOVES_FORWARD) | (1u << FL_MOVES_REARWARD));
}

static gboolean
same_kind (const FlCouple *a, const FlCouple *b)
{
  return a->n == b->n && a->legs[0]->point == b->legs[0]->point && a->legs[0]->path == b->legs[0]->path
         && along (a->holds) == along (b->holds);
}

/* Puts a couple in its place by penalty, unless KEEP better ones of its kind stand there already. */
static void
insert_couple (FlCouples *couples, FlCouple couple)
{
  guint better = 0, at = couples->n;

  for (guint i = couples->n; i > 0; i--)
    {
      const FlCouple *other = &couples->couples[i - 1];

      if (other->penalty <= couple.penalty)
        better += same_kind (other, &couple);
      else
        at = i - 1;
    }
  if (better >= KEEP || at == FL_MAX_COUPLES)
    return;
  if (couples->n == FL_MAX_COUPLES)
    couples->n--;
  memmove (&couples->couples[at + 1], &couples->couples[at], (couples->n - at) * sizeof (FlCouple));
  couples->couples[at] = couple;
  couples->n++;
}

static void
add_to_couple (FlCouple *c, const FlLeg *leg)
{
  const char *section = leg->point != NULL ? leg->point->section : NULL;

  c->legs[c->n++] = leg;
  c->cautions |= leg->cautions;
  c->holds |= leg->holds;
  c->penalty += leg->penalty;
  c->front += g_strcmp0 (section, "front") == 0;
  c->rear += g_strcmp0 (section, "rear") == 0;
}

static FlCouple
couple_of (const FlLeg *a, const FlLeg *b)
{
  FlCouple c = { .n = 0 };

  add_to_couple (&c, a);
  if (b != NULL)
    add_to_couple (&c, b);
  return c;
}

void
fl_couples_find (FlCouples *couples, const FlLegs *legs, const FlTrailer *trailer G_GNUC_UNUSED, guint mask, gboolean singles)
{
  couples->n = 0;
  for (guint i = 0; i < legs->n; i++)
    {
      const FlLeg *a = &legs->legs[i];

      if ((a->cautions & ~mask) != 0)
        continue;
      if (singles || a->point == NULL)
        insert_couple (couples, couple_of (a, NULL));
      for (guint k = i + 1; k < legs->n && !singles; k++)
        if ((legs->legs[k].cautions & ~mask) == 0 && mirror (a, &legs->legs[k]))
          insert_couple (couples, couple_of (a, &legs->legs[k]));
    }
}
