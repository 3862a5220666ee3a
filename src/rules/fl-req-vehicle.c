/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The load on its vehicle: what it stands on, axles, coupling, ratings, sizes. Makers' and plate limits are of standing `rating`. */
#include "fl-say.h"

#include <math.h>

#include "fl-contact.h"
#include "fl-run.h"

static double
in_m (FlQuantity q)
{
  return fl_quantity_in (q, FL_UNIT_M);
}

/* have against a limit that may be missing: met, short, or `absent`. */
static FlVerdict
against (double have, FlQuantity limit, FlUnit unit, FlVerdict absent)
{
  if (isnan (have))
    return FL_UNKNOWN;
  if (!fl_quantity_known (limit))
    return absent;
  return fl_reaches (fl_quantity_in (limit, unit), have) ? FL_MET : FL_SHORT;
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

static void
check_patches (const FlScene *scene, FlFindings *findings, guint i)
{
  const FlSceneLoad *load = &scene->loads[i];
  double half = scene->ground.half_width;
  gboolean off_zone = FALSE, off_side = FALSE, over_side = FALSE;

  for (gsize k = 0; k < load->machine->n_contacts; k++)
    {
      const FlContactPatch *c = &load->machine->contacts[k];
      FlRect rect = fl_contact_rect (load->stand.pose, in_m (c->x), in_m (c->y), in_m (c->length), in_m (c->width));
      double middle = fabs (rect.y_min + rect.y_max) / 2;

      off_zone = off_zone || !on_carrying_zones (scene->trailer, rect);
      off_side = off_side || middle > half;
      over_side = over_side || fmax (-rect.y_min, rect.y_max) > half + FL_STATICS_GRAZE;
    }
  if (off_zone)
    say_load (scene, findings, i, "stands_on_deck", FL_BY_RATING, FL_SHORT,
              N_("A wheel, track or drum stands where the deck does not carry: move the load."), NULL);
  else if (off_side)
    say_load (scene, findings, i, "stands_on_deck", FL_BY_RATING, FL_SHORT, N_("A wheel, track or drum stands beside the deck."), NULL);
  else
    say_load (scene, findings, i, "stands_on_deck", FL_BY_RATING, FL_MET, N_("It stands wholly on deck that carries."), NULL);
  if (over_side && !off_side)
    say_load (scene, findings, i, "stands_on_deck", FL_BY_PRACTICE, FL_CAUTION,
              N_("A track or wheel hangs over the side of the deck: a competent person must look at it."), NULL);
}

/* Without contacts on record the whole length must stand on deck that carries. */
static void
check_outline_on_deck (const FlScene *scene, FlFindings *findings, guint i)
{
  FlBox box = scene->loads[i].stand.outline;
  gboolean on = on_carrying_zones (scene->trailer, (FlRect) { box.min.x, box.max.x, box.min.y, box.max.y });

  say_load (scene, findings, i, "stands_on_deck", FL_BY_RATING, on ? FL_MET : scene->loads[i].machine->article ? FL_SHORT : FL_UNKNOWN,
            on ? N_("Its whole length is over deck that carries.")
               : N_("It reaches beyond the deck that carries, and where it touches the deck was not measured."), NULL);
}

/* The raised part of the trailer (a neck) that a body of the machine would go through. */
static const char *
body_meets (const FlScene *scene, const FlSceneLoad *load)
{
  const FlStand *s = &load->stand;

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

static void
check_neighbours (const FlScene *scene, FlFindings *findings, guint i)
{
  for (guint k = i + 1; k < scene->n_loads; k++)
    {
      const FlBox *a = &scene->loads[i].stand.outline, *b = &scene->loads[k].stand.outline;

      if (scene->loads[k].stand.placed && a->min.x + FL_STATICS_GRAZE < b->max.x && a->max.x - FL_STATICS_GRAZE > b->min.x
          && a->min.y + FL_STATICS_GRAZE < b->max.y && a->max.y - FL_STATICS_GRAZE > b->min.y
          && fl_quantity_known (scene->loads[i].machine->width) && fl_quantity_known (scene->loads[k].machine->width))
        say_load (scene, findings, i, "stands_on_deck", FL_BY_PRACTICE, FL_SHORT, N_("It stands where {name} stands: move one of them."),
                  scene->loads[k].subject);
    }
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
    .need = FL_IN (need / FL_M_PER_IN), .have = FL_IN (have / FL_M_PER_IN),
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
      met = body_meets (scene, load);
      if (met != NULL)
        say_load (scene, findings, i, "stands_on_deck", FL_BY_PRACTICE, FL_SHORT,
                  N_("A part of it ({name}) would go through the raised part of the trailer: move it back or turn it round."), met);
      check_neighbours (scene, findings, i);
      check_clear_width (scene, findings, i);
    }
}

/* ── axles ── */

/* Axles are numbered from the front. */
static guint
number_from_front (const FlAxle *axles, gsize n, gsize index)
{
  guint number = 1;

  for (gsize i = 0; i < n; i++)
    number += i != index && (in_m (axles[i].x) > in_m (axles[index].x) || (in_m (axles[i].x) == in_m (axles[index].x) && i < index));
  return number;
}

static void
check_axle (const FlScene *scene, FlFindings *findings, const char *vehicle, const FlAxle *axles, gsize n, gsize i, double load)
{
  FlUnit unit = fl_book_data (scene->book)->unit;
  FlVerdict verdict = load < 0.0 ? FL_SHORT : against (load, axles[i].rated, unit, FL_UNKNOWN);
  const char *subject = fl_arena_printf (fl_findings_arena (findings), "%s %u", vehicle, number_from_front (axles, n, i));

  fl_say (scene, findings, &(FlSaying) {
    .rule = "axle_rating", .standing = FL_BY_RATING, .verdict = verdict, .subject = subject, .need = fl_weight (scene, load),
    .have = axles[i].rated,
    .message = load < 0.0 ? N_("The load lifts {subject} off the road: move it.")
               : verdict == FL_MET ? N_("{subject} carries {need}, rated {have}.")
               : verdict == FL_SHORT ? N_("{subject} would carry {need}, more than its rating of {have}: move the load.")
                                     : N_("What {subject} carries or may carry is not known: weigh it, or enter its rating.") });
}

static const char *
why_unknown (const FlScene *scene)
{
  if (!scene->axles.cg_known)
    return N_("Axle loads are not known: the place or the center of gravity of a load is missing.");
  if (!scene->axles.tares_known || scene->trailer->n_axles == 0)
    return N_("Axle loads are not known: the trailer's axles or their empty weights are missing.");
  return N_("Axle loads are not known: the trailer's axle groups cannot be solved as a beam; give its axles one group.");
}

void
fl_check_axles (const FlScene *scene, FlFindings *findings)
{
  const FlSceneAxles *a = &scene->axles;

  if (a->status != FL_BEAM_OK)
    {
      fl_say (scene, findings, &(FlSaying) { .rule = "axle_rating", .standing = FL_BY_RATING, .verdict = FL_UNKNOWN,
                                             .subject = "trailer axles", .message = why_unknown (scene) });
      return;
    }
  for (gsize i = 0; i < scene->trailer->n_axles; i++)
    check_axle (scene, findings, "trailer axle", scene->trailer->axles, scene->trailer->n_axles, i, a->trailer[i]);
  if (scene->truck == NULL)
    return;
  if (a->truck_status != FL_BEAM_OK)
    fl_say (scene, findings, &(FlSaying) {
      .rule = "axle_rating", .standing = FL_BY_RATING, .verdict = FL_UNKNOWN, .subject = "truck axles",
      .message = N_("The truck's axle loads are not known: its axles, their empty weights or its coupling's place are missing.") });
  else
    for (gsize i = 0; i < scene->truck->n_axles; i++)
      check_axle (scene, findings, "truck axle", scene->truck->axles, scene->truck->n_axles, i, a->truck[i]);
}

/* ── coupling ── */

/* "fifth_wheel" as one says it. */
static const char *
plain (const char *id, FlArena *arena)
{
  g_autofree char *text = g_strdelimit (g_strdup (id != NULL ? id : "-"), "_", ' ');

  return fl_arena_text (arena, text);
}

static void
check_kinds (const FlScene *scene, FlFindings *findings)
{
  FlArena *arena = fl_findings_arena (findings);
  const FlBookData *data = fl_book_data (scene->book);
  const char *truck = scene->truck->coupling.kind, *trailer = scene->trailer->coupling.kind;
  gboolean pair = FALSE;

  for (gsize i = 0; i < data->n_pairs; i++)
    pair = pair || (g_strcmp0 (data->pairs[i].truck, truck) == 0 && g_strcmp0 (data->pairs[i].trailer, trailer) == 0);
  fl_say (scene, findings, &(FlSaying) {
    .rule = "coupling_kind", .standing = FL_BY_RATING, .verdict = pair ? FL_MET : FL_SHORT, .subject = "coupling",
    .message = pair ? N_("{truck} and {trailer} couple.") : N_("A {truck} and a {trailer} do not couple: take another truck."),
    .facts = { FL_FACT_TEXT ("truck", plain (truck, arena)), FL_FACT_TEXT ("trailer", plain (trailer, arena)) } });
}

static void
band_of (const FlScene *scene, double *lo, double *hi)
{
  const FlBookData *data = fl_book_data (scene->book);

  *lo = scene->trailer->coupling.share_lo;
  *hi = scene->trailer->coupling.share_hi;
  for (gsize i = 0; i < data->n_bands && isnan (*lo); i++)
    if (g_strcmp0 (data->bands[i].kind, scene->trailer->coupling.kind) == 0)
      {
        *lo = data->bands[i].lo;
        *hi = data->bands[i].hi;
      }
}

static void
check_share (const FlScene *scene, FlFindings *findings)
{
  double share = 100.0 * scene->axles.coupling / scene->axles.trailer_gross, floor = fl_book_data (scene->book)->coupling_floor_pct, lo, hi;
  FlVerdict verdict = FL_MET;
  const char *message = N_("{have} of the trailer's gross weight rests on the coupling, of {lo} to {hi} wanted.");

  band_of (scene, &lo, &hi);
  if (isnan (share))
    return;
  if (!fl_reaches (share, floor))
    {
      verdict = FL_SHORT;
      message = N_("Only {have} of the trailer's gross weight rests on the coupling, less than {need}: it sways and may lift. Move the load forward.");
    }
  else if (!isnan (lo) && (!fl_reaches (share, lo) || !fl_reaches (hi, share)))
    {
      verdict = FL_CAUTION;
      message = N_("{have} of the trailer's gross weight rests on the coupling, outside the {lo} to {hi} wanted.");
    }
  fl_say (scene, findings, &(FlSaying) {
    .rule = "coupling_share", .standing = FL_BY_RATING, .verdict = verdict, .subject = "coupling", .need = FL_PCT (floor),
    .have = FL_PCT (share), .message = message, .facts = { FL_FACT_QUANTITY ("lo", FL_PCT (lo)), FL_FACT_QUANTITY ("hi", FL_PCT (hi)) } });
}

/* The lesser of two ratings; unknown ones do not bind. */
static FlQuantity
lesser (FlQuantity a, FlQuantity b)
{
  if (!fl_quantity_known (a) || !fl_quantity_known (b))
    return fl_quantity_known (a) ? a : b;
  return fl_quantity_in (a, FL_UNIT_LB) <= fl_quantity_in (b, FL_UNIT_LB) ? a : b;
}

static void
check_limit (const FlScene *scene, FlFindings *findings, const char *rule, const char *subject, double have, FlQuantity limit,
             const char *met, const char *over)
{
  FlVerdict verdict = against (have, limit, fl_book_data (scene->book)->unit, FL_UNKNOWN);
  gboolean known = verdict != FL_UNKNOWN;

  /* A plate that nobody read is said as advice: the axles' and the trailer's other limits still stand. */
  fl_say (scene, findings, &(FlSaying) {
    .rule = rule, .standing = known ? FL_BY_RATING : FL_BY_ADVICE, .verdict = verdict, .subject = subject, .need = fl_weight (scene, have),
    .have = limit, .message = verdict == FL_MET ? met : verdict == FL_SHORT ? over : N_("The rating or a weight for this is not on record: look at the plate.") });
}

void
fl_check_coupling (const FlScene *scene, FlFindings *findings)
{
  const FlCoupling *own = &scene->trailer->coupling;

  if (!own->present)
    return;
  if (scene->truck == NULL)
    {
      fl_say (scene, findings, &(FlSaying) { .rule = "coupling_kind", .standing = FL_BY_PRACTICE, .verdict = FL_UNKNOWN,
                                             .subject = "coupling", .message = N_("No truck is chosen for this trailer.") });
      return;
    }
  check_kinds (scene, findings);
  check_limit (scene, findings, "coupling_rating", "trailed weight", scene->axles.trailer_gross,
               lesser (own->rated_trailed, scene->truck->coupling.rated_trailed), N_("Trailer and load weigh {need}, the coupling is rated to pull {have}."),
               N_("Trailer and load weigh {need}, more than the {have} that the coupling is rated to pull."));
  if (scene->axles.status != FL_BEAM_OK)
    return;
  check_limit (scene, findings, "coupling_rating", "coupling", scene->axles.coupling,
               lesser (own->rated_vertical, scene->truck->coupling.rated_vertical), N_("The coupling carries {need}, rated {have}."),
               N_("The coupling would carry {need}, more than its {have}: move the load rearward."));
  check_share (scene, findings);
}

void
fl_check_gross (const FlScene *scene, FlFindings *findings)
{
  const FlSceneAxles *a = &scene->axles;

  if (fl_quantity_known (scene->trailer->capacity) || !fl_quantity_known (scene->trailer->gvwr))
    check_limit (scene, findings, "capacity", "trailer capacity", a->payload, scene->trailer->capacity,
                 N_("The load weighs {need}, the trailer may carry {have}."), N_("The load weighs {need}, more than the {have} the trailer may carry."));
  if (fl_quantity_known (scene->trailer->gvwr))
    check_limit (scene, findings, "gvwr", "trailer gross weight", a->trailer_gross, scene->trailer->gvwr,
                 N_("The loaded trailer weighs {need}, rated {have}."), N_("The loaded trailer weighs {need}, more than its rating of {have}."));
  if (scene->truck == NULL)
    return;
  if (a->truck_status == FL_BEAM_OK)
    check_limit (scene, findings, "gvwr", "truck gross weight", a->truck_gross, scene->truck->gvwr,
                 N_("The truck weighs {need} with the coupling's load, rated {have}."),
                 N_("The truck weighs {need} with the coupling's load, more than its rating of {have}."));
  check_limit (scene, findings, "gcwr", "combination gross weight", a->gross, scene->truck->gcwr,
               N_("The combination weighs {need}, the truck is rated for {have}."),
               N_("The combination weighs {need}, more than the {have} the truck is rated for."));
}

/* ── sizes ── */

static void
check_height (const FlScene *scene, FlFindings *findings, double height)
{
  FlQuantity given = scene->move->height_limit, limit = fl_quantity_known (given) ? given : FL_IN (fl_book_data (scene->book)->height_warn);
  FlVerdict verdict = against (height, limit, FL_UNIT_M, FL_NOTE);
  gboolean route = fl_quantity_known (given);

  if (verdict == FL_SHORT && !route)
    verdict = FL_CAUTION;
  fl_say (scene, findings, &(FlSaying) {
    .rule = "size_height", .standing = route ? FL_BY_PRACTICE : FL_BY_LAW, .verdict = verdict, .subject = "loaded height",
    .need = isnan (height) ? FL_NOT_MEASURED : FL_IN (height / FL_M_PER_IN), .have = limit,
    .message = isnan (height) ? N_("The loaded height is not known: measure the deck and the load.")
               : verdict == FL_MET ? N_("{need} high, the limit is {have}; measure before leaving.")
               : route ? N_("{need} high, over the limit of {have} set for this move: lower or fold it, or take a lower trailer.")
                       : N_("{need} high, over {have}: permit and route needed.") });
}

static void
check_width (const FlScene *scene, FlFindings *findings, double width)
{
  FlQuantity limit = FL_IN (fl_book_data (scene->book)->legal_width);
  FlVerdict verdict = against (width, limit, FL_UNIT_M, FL_NOTE);

  fl_say (scene, findings, &(FlSaying) {
    .rule = "size_width", .standing = FL_BY_LAW, .verdict = verdict == FL_SHORT ? FL_CAUTION : verdict, .subject = "loaded width",
    .need = isnan (width) ? FL_NOT_MEASURED : FL_IN (width / FL_M_PER_IN), .have = limit,
    .message = isnan (width) ? N_("The loaded width is not known: measure the deck and the load.")
               : verdict == FL_MET ? N_("{need} wide, the limit is {have}.") : N_("{need} wide, over {have}: permit needed.") });
}

/* There is no federal limit for the length of the whole, and the states differ: the figure is for whoever plans the route. */
static void
say_length (const FlScene *scene, FlFindings *findings, double length)
{
  fl_say (scene, findings, &(FlSaying) {
    .rule = "size_length", .standing = FL_BY_LAW, .verdict = isnan (length) ? FL_NOTE : FL_MET, .subject = "overall length",
    .have = isnan (length) ? FL_NOT_MEASURED : FL_IN (length / FL_M_PER_IN),
    .message = isnan (length) ? N_("The overall length is not known: measure the truck and the trailer.")
                              : N_("{have} long over all; limits of length and overhang are the state's.") });
}

void
fl_check_sizes (const FlScene *scene, FlFindings *findings)
{
  FlSceneSizes sizes = fl_scene_sizes (scene);

  check_height (scene, findings, sizes.height);
  check_width (scene, findings, sizes.width);
  say_length (scene, findings, sizes.length);
}

void
fl_check_ramp (const FlScene *scene, FlFindings *findings)
{
  for (guint i = 0; i < scene->n_loads; i++)
    {
      FlQuantity may = scene->loads[i].machine->max_ramp, is = scene->trailer->load_angle;

      if (!fl_quantity_known (may) || !fl_quantity_known (is))
        continue;
      fl_say (scene, findings, &(FlSaying) {
        .rule = "ramp", .standing = FL_BY_RATING, .verdict = fl_quantity_reaches (may, is) ? FL_MET : FL_SHORT,
        .subject = scene->loads[i].subject, .load = i + 1, .need = is, .have = may,
        .message = fl_quantity_reaches (may, is) ? N_("The ramps rise {need}, the machine may climb {have}.")
                                                 : N_("The ramps rise {need}, steeper than the {have} the machine may climb.") });
    }
}
