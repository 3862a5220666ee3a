/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The load on the deck: what it stands on, what it runs into, how strong the deck is under it, the ramps. */
#include <math.h>

#include "fl-bearing.h"
#include "fl-vehicle.h"

static double
in_m (FlQuantity q)
{
  return fl_quantity_in (q, FL_UNIT_M);
}

/* ── what it stands on ── */

static void
say_load (const FlScene *scene, FlFindings *findings, guint i, const char *rule, FlStanding standing, FlVerdict verdict, const char *message,
          const char *name)
{
  fl_say (scene, findings, &(FlSaying) { .rule = rule, .standing = standing, .verdict = verdict, .subject = scene->loads[i].subject,
                                         .load = i + 1, .message = message, .facts = { FL_FACT_TEXT ("name", name != NULL ? name : "-") } });
}

static gboolean
on_carrying_zones (const FlTrailer *trailer, FlRect rect)
{
  double length = rect.x_max - rect.x_min, carried = 0.0;

  for (gsize k = 0; k < trailer->n_zones; k++)
    {
      const FlZone *zone = &trailer->zones[k];

      if (zone->carries)
        carried += length > 0.0 ? fl_rect_overlap_x (rect, in_m (zone->x0), in_m (zone->x1))
                                : fl_rect_share_x (rect, in_m (zone->x0), in_m (zone->x1));
    }
  return fl_reaches (carried + FL_STATICS_GRAZE, length > 0.0 ? length : 1.0);
}

static FlRect
patch_rect (const FlContactPatch *c, FlPose pose)
{
  return fl_contact_rect (pose, in_m (c->x), in_m (c->y), in_m (c->length), in_m (c->width));
}

/* How the patches lie: off what carries, their middles beside the deck, their edges over its side. */
typedef struct { gboolean off_zone, off_side, over_side; } Footing;

static Footing
footing_of (const FlScene *scene, const FlStand *stand)
{
  double half = scene->ground.half_width;
  Footing footing = { FALSE, FALSE, FALSE };

  for (gsize k = 0; k < stand->machine->n_contacts; k++)
    {
      FlRect rect = patch_rect (&stand->machine->contacts[k], stand->pose);

      footing.off_zone = footing.off_zone || !on_carrying_zones (scene->trailer, rect);
      footing.off_side = footing.off_side || fabs (rect.y_min + rect.y_max) / 2 > half;
      footing.over_side = footing.over_side || fmax (-rect.y_min, rect.y_max) > half + FL_STATICS_GRAZE;
    }
  return footing;
}

static void
check_patches (const FlScene *scene, FlFindings *findings, guint i)
{
  Footing footing = footing_of (scene, &scene->loads[i].stand);

  if (footing.off_zone)
    say_load (scene, findings, i, "stands_on_deck", FL_BY_RATING, FL_SHORT,
              N_("A wheel, track or drum stands where the deck does not carry: move the load."), NULL);
  else if (footing.off_side)
    say_load (scene, findings, i, "stands_on_deck", FL_BY_RATING, FL_SHORT, N_("A wheel, track or drum stands beside the deck."), NULL);
  else
    say_load (scene, findings, i, "stands_on_deck", FL_BY_RATING, FL_MET, N_("It stands wholly on deck that carries."), NULL);
  if (footing.over_side && !footing.off_side)
    say_load (scene, findings, i, "stands_on_deck", FL_BY_PRACTICE, FL_CAUTION,
              N_("A track or wheel hangs over the side of the deck: a competent person must look at it."), NULL);
}

static gboolean
outline_on_deck (const FlScene *scene, const FlStand *stand)
{
  const FlBox *box = &stand->outline;

  return on_carrying_zones (scene->trailer, (FlRect) { box->min.x, box->max.x, box->min.y, box->max.y });
}

/* Without contacts on record the whole length must stand on deck that carries. */
static void
check_outline_on_deck (const FlScene *scene, FlFindings *findings, guint i)
{
  gboolean on = outline_on_deck (scene, &scene->loads[i].stand);

  say_load (scene, findings, i, "stands_on_deck", FL_BY_RATING, on ? FL_MET : scene->loads[i].machine->article ? FL_SHORT : FL_UNKNOWN,
            on ? N_("Its whole length is over deck that carries.")
               : N_("It reaches beyond the deck that carries, and where it touches the deck was not measured."), NULL);
}

/* The raised part of the trailer (a neck) that a body of the machine would go through. */
static const char *
body_meets (const FlScene *scene, const FlStand *s)
{
  for (guint k = 0; k < s->n_solids; k++)
    for (guint d = 0; d < scene->ground.n_decks; d++)
      {
        const FlBox *a = &s->solids[k], *b = &scene->ground.decks[d];
        const double g = FL_STATICS_GRAZE;

        if (a->min.x + g < b->max.x && a->max.x - g > b->min.x && a->min.y + g < b->max.y && a->max.y - g > b->min.y
            && a->min.z + g < b->max.z)
          return s->solid_names[k] != NULL ? s->solid_names[k] : "body";
      }
  return NULL;
}

static gboolean
meets_load (const FlScene *scene, guint i, const FlStand *stand, guint k)
{
  const FlBox *a = &stand->outline, *b = &scene->loads[k].stand.outline;

  return scene->loads[k].stand.placed && a->min.x + FL_STATICS_GRAZE < b->max.x && a->max.x - FL_STATICS_GRAZE > b->min.x
         && a->min.y + FL_STATICS_GRAZE < b->max.y && a->max.y - FL_STATICS_GRAZE > b->min.y
         && fl_quantity_known (scene->loads[i].machine->width) && fl_quantity_known (scene->loads[k].machine->width);
}

static void
check_neighbours (const FlScene *scene, FlFindings *findings, guint i)
{
  for (guint k = i + 1; k < scene->n_loads; k++)
    if (meets_load (scene, i, &scene->loads[i].stand, k))
      say_load (scene, findings, i, "stands_on_deck", FL_BY_PRACTICE, FL_SHORT, N_("It stands where {name} stands: move one of them."),
                scene->loads[k].subject);
}

gboolean
fl_stands_well (const FlScene *scene, guint i, const FlStand *stand)
{
  Footing footing;

  if (!stand->placed)
    return FALSE;
  footing = footing_of (scene, stand);
  if (footing.off_zone || footing.off_side || (stand->machine->n_contacts == 0 && !outline_on_deck (scene, stand)) || body_meets (scene, stand) != NULL)
    return FALSE;
  for (guint k = 0; k < scene->n_loads; k++)
    if (k != i && meets_load (scene, i, stand, k))
      return FALSE;
  return TRUE;
}

static void
check_clear_width (const FlScene *scene, FlFindings *findings, guint i)
{
  const FlMachine *machine = scene->loads[i].machine;
  double have = in_m (scene->trailer->clear_width), need = machine->n_contacts > 0 ? 0.0 : in_m (machine->width);

  for (gsize k = 0; k < machine->n_contacts; k++)
    need = fmax (need, 2 * fabs (in_m (machine->contacts[k].y)) + in_m (machine->contacts[k].width));
  if (isnan (have) || isnan (need) || fl_reaches (have, need))
    return;
  fl_say (scene, findings, &(FlSaying) {
    .rule = "stands_on_deck", .standing = FL_BY_PRACTICE, .verdict = FL_SHORT, .subject = scene->loads[i].subject, .load = i + 1,
    .need = fl_inches (need), .have = fl_inches (have),
    .message = N_("It does not fit between the fenders: it is {need} wide on the ground, there are {have}.") });
}

void
fl_check_stands (const FlScene *scene, FlFindings *findings)
{
  for (guint i = 0; i < scene->n_loads; i++)
    {
      const FlSceneLoad *load = &scene->loads[i];
      const char *met;

      if (!load->stand.placed)
        {
          say_load (scene, findings, i, "stands_on_deck", FL_BY_PRACTICE, FL_UNKNOWN,
                    N_("It has no place on the deck yet, or its length was not measured."), NULL);
          continue;
        }
      if (load->machine->n_contacts > 0)
        check_patches (scene, findings, i);
      else
        check_outline_on_deck (scene, findings, i);
      met = body_meets (scene, &load->stand);
      if (met != NULL)
        say_load (scene, findings, i, "stands_on_deck", FL_BY_PRACTICE, FL_SHORT,
                  N_("A part of it ({name}) would go through the raised part of the trailer: move it back or turn it round."), met);
      check_neighbours (scene, findings, i);
      check_clear_width (scene, findings, i);
    }
}

/* ── how strong the deck is under it ── */

enum { MAX_BEARINGS = 128 };

/* All loads on the deck as they bear on it. `first`, `last`: the outermost edges of what touches it. */
typedef struct { FlBearing bearings[MAX_BEARINGS]; gsize n; double first, last; gboolean known; } Bearings;

/* Where the load touches the deck: its contacts; an article lies on its whole length. */
static gsize
rects_of (const FlSceneLoad *load, FlRect *rects, gsize room)
{
  const FlMachine *machine = load->machine;
  const FlBox *box = &load->stand.outline;

  if (!load->stand.placed || machine->n_contacts > room || room == 0)
    return 0;
  for (gsize k = 0; k < machine->n_contacts; k++)
    rects[k] = patch_rect (&machine->contacts[k], load->stand.pose);
  if (machine->n_contacts > 0 || !machine->article)
    return machine->n_contacts;
  rects[0] = (FlRect) { box->min.x, box->max.x, 0.0, 0.0 };
  return 1;
}

static void
bear (const FlScene *scene, Bearings *out)
{
  FlRect rects[MAX_BEARINGS];

  *out = (Bearings) { .first = INFINITY, .last = -INFINITY, .known = TRUE };
  for (guint i = 0; i < scene->n_loads && out->known; i++)
    {
      const FlSceneLoad *load = &scene->loads[i];
      gsize n = rects_of (load, rects, MAX_BEARINGS - out->n);
      double first, last;

      out->known = n > 0 && fl_bearing_share (rects, n, load->weight, fl_scene_acts_at (load), &out->bearings[out->n])
                   && fl_rects_extent_x (rects, n, &first, &last);
      if (!out->known)
        return;
      out->n += n;
      out->first = fmin (out->first, first);
      out->last = fmax (out->last, last);
    }
}

static void
step_bearings (const FlScene *scene, FlSteps *steps)
{
  fl_step (steps, N_("Each load as a rigid body on equal springs under its contacts: weight and center of gravity give one line of pressure."), FL_FACT_TEXT ("-", "-"));
  for (guint i = 0; i < scene->n_loads; i++)
    fl_step (steps, N_("{name}: weight {weight}, center of gravity {x} from the deck's rear edge."), FL_FACT_TEXT ("name", scene->loads[i].subject),
             FL_FACT_QUANTITY ("weight", fl_weight (scene, scene->loads[i].weight)),
             FL_FACT_QUANTITY ("x", fl_inches (fl_scene_acts_at (&scene->loads[i]))));
}

/* The window of one rated span. Where all the loads together weigh no more than it may carry there is nothing to look for. */
static void
check_span (const FlScene *scene, FlFindings *findings, const FlSpan *span, const Bearings *b)
{
  FlUnit unit = fl_book_data (scene->book)->unit;
  double length = in_m (span->span), may = fl_quantity_in (span->capacity, unit), from = NAN;
  double most = b->known ? fl_bearing_most (b->bearings, b->n, length, &from) : scene->axles.payload;
  gboolean within = fl_reaches (may, most), known = b->known || within;
  FlSteps steps = FL_STEPS (findings);

  if (b->known)
    step_bearings (scene, &steps);
  if (b->known)
    fl_step (&steps, N_("The worst {span} of deck, from {from} to {to}, carries {most} of {payload}; rated {may}."),
             FL_FACT_QUANTITY ("span", span->span), FL_FACT_QUANTITY ("from", fl_inches (from)), FL_FACT_QUANTITY ("to", fl_inches (from + length)),
             FL_FACT_QUANTITY ("most", fl_weight (scene, most)), FL_FACT_QUANTITY ("payload", fl_weight (scene, scene->axles.payload)),
             FL_FACT_QUANTITY ("may", span->capacity));
  else if (within)
    fl_step (&steps, N_("How it bears on the deck is not known; all of it, {payload}, is within {may}."),
             FL_FACT_QUANTITY ("payload", fl_weight (scene, scene->axles.payload)), FL_FACT_QUANTITY ("may", span->capacity));
  fl_say (scene, findings, &(FlSaying) {
    .rule = "concentrated", .standing = known ? FL_BY_RATING : FL_BY_ADVICE, .verdict = !known ? FL_UNKNOWN : within ? FL_MET : FL_SHORT,
    .subject = "deck", .need = fl_weight (scene, known ? most : NAN), .have = span->capacity, .steps = &steps,
    .facts = { FL_FACT_QUANTITY ("span", span->span) },
    .message = !known ? N_("How the load bears on the deck is not known: enter its contacts and center of gravity. Any {span} of deck may carry {have}.")
               : within ? N_("At most {need} on any {span} of deck, rated {have}.")
                        : N_("{need} on {span} of deck, rated {have}: spread the load, or take a stronger trailer.") });
}

/* A load shorter than the rated span: its weight over its own length against the rating over the span. A rating for ten feet says nothing of
 * two; makers differ, so it is advice. */
static void
check_short_load (const FlScene *scene, FlFindings *findings, const FlSpan *span, guint i)
{
  const FlSceneLoad *load = &scene->loads[i];
  FlRect rects[MAX_BEARINGS];
  gsize n = rects_of (load, rects, MAX_BEARINGS);
  double first, last, per_foot = 12 * FL_M_PER_IN, have, need;
  FlSteps steps = FL_STEPS (findings);

  if (n == 0 || !fl_rects_extent_x (rects, n, &first, &last) || fl_reaches (last - first, in_m (span->span)) || !(last - first > FL_STATICS_ARM)
      || isnan (load->weight))
    return;
  need = load->weight / (last - first) * per_foot;
  have = fl_quantity_in (span->capacity, fl_book_data (scene->book)->unit) / in_m (span->span) * per_foot;
  if (fl_reaches (have, need))
    return;
  fl_step (&steps, N_("{weight} over {length} from its first to its last contact = {need} for each foot; {may} over {span} = {have} for each foot."),
           FL_FACT_QUANTITY ("weight", fl_weight (scene, load->weight)), FL_FACT_QUANTITY ("length", fl_inches (last - first)),
           FL_FACT_QUANTITY ("need", fl_weight (scene, need)), FL_FACT_QUANTITY ("may", span->capacity), FL_FACT_QUANTITY ("span", span->span),
           FL_FACT_QUANTITY ("have", fl_weight (scene, have)));
  fl_say (scene, findings, &(FlSaying) {
    .rule = "concentrated", .standing = FL_BY_ADVICE, .verdict = FL_CAUTION, .subject = load->subject, .load = i + 1,
    .need = fl_weight (scene, need), .have = fl_weight (scene, have), .steps = &steps, .facts = { FL_FACT_QUANTITY ("length", fl_inches (last - first)) },
    .message = N_("It stands on {length} only: {need} for each foot, where the rating comes to {have}. Ask the trailer's maker, or spread it on timber.") });
}

/* The span that is used the most speaks for all. */
static const FlSpan *
tightest (const FlScene *scene, const Bearings *b)
{
  FlUnit unit = fl_book_data (scene->book)->unit;
  const FlSpan *tightest = NULL;
  double most = -1.0;

  for (gsize i = 0; i < scene->trailer->n_concentrated; i++)
    {
      const FlSpan *span = &scene->trailer->concentrated[i];
      double on = b->known ? fl_bearing_most (b->bearings, b->n, in_m (span->span), NULL) : scene->axles.payload;
      double use = on / fl_quantity_in (span->capacity, unit);

      if (fl_quantity_known (span->span) && fl_quantity_known (span->capacity) && !(use <= most))
        {
          tightest = span;
          most = use;
        }
    }
  return tightest;
}

void
fl_check_concentrated (const FlScene *scene, FlFindings *findings)
{
  Bearings b;
  const FlSpan *span;

  if (scene->n_loads == 0)
    return;
  bear (scene, &b);
  span = tightest (scene, &b);
  if (span == NULL)
    {
      fl_say (scene, findings, &(FlSaying) {
        .rule = "concentrated", .standing = FL_BY_ADVICE, .verdict = FL_UNKNOWN, .subject = "deck",
        .message = N_("How much a short length of this deck carries is not on record: look at the plate, or ask the maker.") });
      return;
    }
  check_span (scene, findings, span, &b);
  for (guint i = 0; i < scene->n_loads; i++)
    check_short_load (scene, findings, span, i);
}

/* ── ramps ── */

void
fl_check_ramp (const FlScene *scene, FlFindings *findings)
{
  for (guint i = 0; i < scene->n_loads; i++)
    {
      FlQuantity may = scene->loads[i].machine->max_ramp, is = scene->trailer->load_angle;
      FlSteps steps = FL_STEPS (findings);

      if (!fl_quantity_known (may) || !fl_quantity_known (is))
        continue;
      fl_step (&steps, N_("Trailer's ramps {is}; the machine may climb {may}."), FL_FACT_QUANTITY ("is", is), FL_FACT_QUANTITY ("may", may));
      fl_say (scene, findings, &(FlSaying) {
        .rule = "ramp", .standing = FL_BY_RATING, .verdict = fl_quantity_reaches (may, is) ? FL_MET : FL_SHORT,
        .subject = scene->loads[i].subject, .load = i + 1, .need = is, .have = may, .steps = &steps,
        .message = fl_quantity_reaches (may, is) ? N_("The ramps rise {need}, the machine may climb {have}.")
                                                 : N_("The ramps rise {need}, steeper than the {have} the machine may climb.") });
    }
}
