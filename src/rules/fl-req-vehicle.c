/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the makers' plates allow: axles, coupling, gross weights. Makers' and plate limits are of standing `rating`. */
#include <math.h>

#include "fl-vehicle.h"

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

/* ── axles ── */

/* A vehicle's axles as findings speak of them. */
typedef struct { const char *name; const FlAxle *axles; gsize n; const double *loads; gboolean of_truck; } Axles;

/* Axles are numbered from the front. */
static guint
number_from_front (const FlAxle *axles, gsize n, gsize index)
{
  guint number = 1;

  for (gsize i = 0; i < n; i++)
    {
      double x = fl_quantity_in (axles[i].x, FL_UNIT_M), own = fl_quantity_in (axles[index].x, FL_UNIT_M);

      number += i != index && (x > own || (x == own && i < index));
    }
  return number;
}

static const char *
axle_subject (FlFindings *findings, const Axles *a, gsize i)
{
  return fl_arena_printf (fl_findings_arena (findings), "%s %u", a->name, number_from_front (a->axles, a->n, i));
}

static const char *
axle_message (double load, FlVerdict verdict, const FlNearest *nearest)
{
  if (load < 0.0)
    return fl_nearest_text (nearest, N_("The load lifts {subject} off the road: set {load} {distance} {way_word}."),
                            N_("The load lifts {subject} off the road, and no other place of it on this deck cures that."),
                            N_("The load lifts {subject} off the road: move it."));
  if (verdict == FL_MET)
    return N_("{subject} carries {need}, rated {have}.");
  if (verdict == FL_UNKNOWN)
    return N_("What {subject} carries or may carry is not known: weigh it, or enter its rating.");
  return fl_nearest_text (nearest, N_("{subject} would carry {need}, more than its rating of {have}: set {load} {distance} {way_word}."),
                          N_("{subject} would carry {need}, more than its rating of {have}, and no other place of the load on this deck cures that."),
                          N_("{subject} would carry {need}, more than its rating of {have}: move the load."));
}

static void
check_axle (const FlScene *scene, FlFindings *findings, const Axles *a, gsize i)
{
  double load = a->loads[i];
  FlVerdict verdict = load < 0.0 ? FL_SHORT : against (load, a->axles[i].rated, fl_book_data (scene->book)->unit, FL_UNKNOWN);
  FlNearest nearest = { .distance = FL_NOT_MEASURED };
  FlSteps steps = FL_STEPS (findings);

  if (verdict == FL_SHORT)
    nearest = fl_nearest_cure (scene, a->of_truck ? FL_CURE_TRUCK_AXLE : FL_CURE_TRAILER_AXLE, i);
  fl_steps_axle (scene, &steps, a->of_truck, i);
  fl_say (scene, findings, &(FlSaying) {
    .rule = "axle_rating", .standing = FL_BY_RATING, .verdict = verdict, .subject = axle_subject (findings, a, i), .need = fl_weight (scene, load),
    .have = a->axles[i].rated, .message = axle_message (load, verdict, &nearest), .steps = &steps, .facts = { FL_NEAREST_FACTS (scene, nearest) } });
}

/* A steering axle that its load makes lighter than empty keeps at least the book's part of what stands on the wheels. */
static void
check_steering (const FlScene *scene, FlFindings *findings, const Axles *a)
{
  double least = fl_book_data (scene->book)->steer_least_pct, sum = 0.0, share;
  gsize i = fl_steering_axle (a->axles, a->n);
  FlQuantity tare = a->axles[i].tare;
  FlNearest nearest = { .distance = FL_NOT_MEASURED };
  FlSteps steps = FL_STEPS (findings);
  gboolean well;

  for (gsize k = 0; k < a->n; k++)
    sum += a->loads[k];
  share = 100.0 * a->loads[i] / sum;
  if (a->loads[i] < 0.0 || !isfinite (share) || fl_reaches (a->loads[i], fl_quantity_in (tare, fl_book_data (scene->book)->unit)))
    return;                     /* lifted: said already; not lighter than empty: as its maker built it */
  well = fl_reaches (share, least);
  if (!well)
    nearest = fl_nearest_cure (scene, FL_CURE_STEER, i);
  fl_steps_axle (scene, &steps, a->of_truck, i);
  fl_step (&steps, N_("{load} of {sum} on all its wheels = {share}; empty {tare}."), FL_FACT_QUANTITY ("load", fl_weight (scene, a->loads[i])),
           FL_FACT_QUANTITY ("sum", fl_weight (scene, sum)), FL_FACT_QUANTITY ("share", FL_PCT (share)), FL_FACT_QUANTITY ("tare", tare));
  fl_say (scene, findings, &(FlSaying) {
    .rule = "steer_axle", .standing = FL_BY_PRACTICE, .verdict = well ? FL_MET : FL_CAUTION, .subject = axle_subject (findings, a, i),
    .need = FL_PCT (least), .have = FL_PCT (share), .steps = &steps,
    .message = well ? N_("The steering axle is lighter than empty and keeps {have} of the weight on the wheels, of {need} wanted.")
                    : fl_nearest_text (&nearest, N_("The load takes weight off the steering axle: {have} of the weight on the wheels is left on it, less than {need}. It steers badly: set {load} {distance} {way_word}."),
                                       N_("The load takes weight off the steering axle: {have} of the weight on the wheels is left on it, less than {need}. It steers badly, and no other place of the load on this deck cures that."),
                                       N_("The load takes weight off the steering axle: {have} of the weight on the wheels is left on it, less than {need}. It steers badly: move the load.")),
    .facts = { FL_NEAREST_FACTS (scene, nearest) } });
}

static void
check_vehicle (const FlScene *scene, FlFindings *findings, const Axles *a)
{
  for (gsize i = 0; i < a->n; i++)
    check_axle (scene, findings, a, i);
  if (a->n > 0 && (a->of_truck || !scene->trailer->coupling.present))
    check_steering (scene, findings, a);
}

/* Why a trailer (or a rollback) is no beam that statics can solve. */
static const char *
why_no_trailer (const FlScene *scene)
{
  const FlTrailer *trailer = scene->trailer;

  if (trailer->n_axles == 0)
    return N_("Axle loads are not known: the trailer has no axles on record.");
  switch (scene->axles.status)
    {
    case FL_BEAM_ONE_SUPPORT:
      return N_("Axle loads are not known: the record has one axle group and nothing else to stand on; enter the coupling, or the steering axle.");
    case FL_BEAM_COINCIDENT:
      return N_("Axle loads are not known: by the record what carries it stands at one and the same place; measure axles and coupling again.");
    case FL_BEAM_INDETERMINATE:
      return N_("Axle loads are not known: it stands on more than two supports (a jeep, a booster, or axles that are not equalized), and how those share cannot be worked out: weigh it. Axles on one equalized suspension have one group number.");
    case FL_BEAM_BAD_SHARES:
      return N_("Axle loads are not known: the shares of an axle group do not add up; give each of its axles a share, or none.");
    case FL_BEAM_OK:
    case FL_BEAM_NOT_FINITE:
    default:
      break;
    }
  return !scene->axles.cg_known ? N_("Axle loads are not known: the place or the center of gravity of a load is missing.")
                                : N_("Axle loads are not known: places or empty weights of the trailer's axles or coupling are missing, or a load's weight.");
}

static const char *
why_no_truck (const FlScene *scene)
{
  if (!scene->trailer->coupling.present)
    return N_("This vehicle has no coupling and carries its load itself: take the truck off the plan.");
  switch (scene->axles.truck_status)
    {
    case FL_BEAM_ONE_SUPPORT:
      return N_("The truck's axle loads are not known: its record has fewer than two axle groups; enter the steering axle and the rear axles.");
    case FL_BEAM_COINCIDENT:
      return N_("The truck's axle loads are not known: by the record its axle groups stand at one and the same place; measure them again.");
    case FL_BEAM_INDETERMINATE:
      return N_("The truck's axle loads are not known: it stands on more than two axle groups, and how those share cannot be worked out: weigh it. Axles on one equalized suspension have one group number.");
    case FL_BEAM_BAD_SHARES:
      return N_("The truck's axle loads are not known: the shares of an axle group do not add up; give each of its axles a share, or none.");
    case FL_BEAM_OK:
    case FL_BEAM_NOT_FINITE:
    default:
      return N_("The truck's axle loads are not known: its axles, their empty weights or its coupling's place are missing.");
    }
}

static void
say_unknown (const FlScene *scene, FlFindings *findings, const char *subject, const char *message)
{
  fl_say (scene, findings, &(FlSaying) { .rule = "axle_rating", .standing = FL_BY_RATING, .verdict = FL_UNKNOWN, .subject = subject, .message = message });
}

void
fl_check_axles (const FlScene *scene, FlFindings *findings)
{
  const FlSceneAxles *a = &scene->axles;

  if (a->status != FL_BEAM_OK)
    {
      say_unknown (scene, findings, "trailer axles", why_no_trailer (scene));
      return;
    }
  check_vehicle (scene, findings, &(Axles) { "trailer axle", scene->trailer->axles, scene->trailer->n_axles, a->trailer, FALSE });
  if (scene->truck == NULL)
    return;
  if (a->truck_status != FL_BEAM_OK)
    say_unknown (scene, findings, "truck axles", why_no_truck (scene));
  else
    check_vehicle (scene, findings, &(Axles) { "truck axle", scene->truck->axles, scene->truck->n_axles, a->truck, TRUE });
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

static const char *
share_message (gboolean floor, gboolean band, const FlNearest *nearest)
{
  if (floor)
    return fl_nearest_text (nearest, N_("Only {have} of the trailer's gross weight rests on the coupling, less than {need}: it sways and may lift. Set {load} {distance} {way_word}."),
                            N_("Only {have} of the trailer's gross weight rests on the coupling, less than {need}: it sways and may lift, and no other place of the load on this deck cures that."),
                            N_("Only {have} of the trailer's gross weight rests on the coupling, less than {need}: it sways and may lift. Move the load forward."));
  if (!band)
    return N_("{have} of the trailer's gross weight rests on the coupling, of {lo} to {hi} wanted.");
  return fl_nearest_text (nearest, N_("{have} of the trailer's gross weight rests on the coupling, outside the {lo} to {hi} wanted: set {load} {distance} {way_word}."),
                          N_("{have} of the trailer's gross weight rests on the coupling, outside the {lo} to {hi} wanted; no other place of the load on this deck cures that."),
                          N_("{have} of the trailer's gross weight rests on the coupling, outside the {lo} to {hi} wanted."));
}

static void
check_share (const FlScene *scene, FlFindings *findings)
{
  double share = 100.0 * scene->axles.coupling / scene->axles.trailer_gross, floor = fl_book_data (scene->book)->coupling_floor_pct, lo, hi;
  FlNearest nearest = { .distance = FL_NOT_MEASURED };
  FlSteps steps = FL_STEPS (findings);
  gboolean under, out;

  fl_book_band (scene->book, scene->trailer, &lo, &hi);
  if (!isfinite (share))
    return;
  under = !fl_reaches (share, floor);
  out = !under && !isnan (lo) && (!fl_reaches (share, lo) || !fl_reaches (hi, share));
  if (under || out)
    nearest = fl_nearest_cure (scene, under ? FL_CURE_SHARE : FL_CURE_BAND, 0);
  fl_steps_coupling (scene, &steps);
  fl_step (&steps, N_("{load} / trailer and load {gross} = {share}."), FL_FACT_QUANTITY ("load", fl_weight (scene, scene->axles.coupling)),
           FL_FACT_QUANTITY ("gross", fl_weight (scene, scene->axles.trailer_gross)), FL_FACT_QUANTITY ("share", FL_PCT (share)));
  fl_say (scene, findings, &(FlSaying) {
    .rule = "coupling_share", .standing = FL_BY_RATING, .verdict = under ? FL_SHORT : out ? FL_CAUTION : FL_MET, .subject = "coupling",
    .need = FL_PCT (floor), .have = FL_PCT (share), .message = share_message (under, out, &nearest), .steps = &steps,
    .facts = { FL_FACT_QUANTITY ("lo", FL_PCT (lo)), FL_FACT_QUANTITY ("hi", FL_PCT (hi)), FL_NEAREST_FACTS (scene, nearest) } });
}

typedef struct { const char *rule, *subject; double have; FlQuantity limit; const char *met, *over; } Limit;

static void
check_limit (const FlScene *scene, FlFindings *findings, const Limit *l, const FlSteps *steps, const FlNearest *nearest)
{
  FlVerdict verdict = against (l->have, l->limit, fl_book_data (scene->book)->unit, FL_UNKNOWN);
  gboolean known = verdict != FL_UNKNOWN;
  FlNearest none = { .distance = FL_NOT_MEASURED };

  if (nearest == NULL)
    nearest = &none;
  /* A plate that nobody read is said as advice: the axles' and the trailer's other limits still stand. */
  fl_say (scene, findings, &(FlSaying) {
    .rule = l->rule, .standing = known ? FL_BY_RATING : FL_BY_ADVICE, .verdict = verdict, .subject = l->subject, .need = fl_weight (scene, l->have),
    .have = l->limit, .steps = steps, .facts = { FL_NEAREST_FACTS (scene, *nearest) },
    .message = verdict == FL_MET ? l->met : verdict == FL_SHORT ? l->over : N_("The rating or a weight for this is not on record: look at the plate.") });
}

static void
check_coupling_load (const FlScene *scene, FlFindings *findings)
{
  FlQuantity limit = fl_lesser_rating (scene->trailer->coupling.rated_vertical, scene->truck->coupling.rated_vertical);
  FlVerdict verdict = against (scene->axles.coupling, limit, fl_book_data (scene->book)->unit, FL_UNKNOWN);
  FlNearest nearest = { .distance = FL_NOT_MEASURED };
  FlSteps steps = FL_STEPS (findings);

  if (verdict == FL_SHORT)
    nearest = fl_nearest_cure (scene, FL_CURE_COUPLING, 0);
  fl_steps_coupling (scene, &steps);
  check_limit (scene, findings, &(Limit) {
    "coupling_rating", "coupling", scene->axles.coupling, limit, N_("The coupling carries {need}, rated {have}."),
    fl_nearest_text (&nearest, N_("The coupling would carry {need}, more than its {have}: set {load} {distance} {way_word}."),
                     N_("The coupling would carry {need}, more than its {have}, and no other place of the load on this deck cures that."),
                     N_("The coupling would carry {need}, more than its {have}: move the load rearward.")) }, &steps, &nearest);
}

void
fl_check_coupling (const FlScene *scene, FlFindings *findings)
{
  const FlCoupling *own = &scene->trailer->coupling;
  FlSteps steps = FL_STEPS (findings);

  if (!own->present)
    return;
  if (scene->truck == NULL)
    {
      fl_say (scene, findings, &(FlSaying) { .rule = "coupling_kind", .standing = FL_BY_PRACTICE, .verdict = FL_UNKNOWN,
                                             .subject = "coupling", .message = N_("No truck is chosen for this trailer.") });
      return;
    }
  check_kinds (scene, findings);
  fl_steps_gross (scene, &steps, FALSE);
  check_limit (scene, findings, &(Limit) {
    "coupling_rating", "trailed weight", scene->axles.trailer_gross, fl_lesser_rating (own->rated_trailed, scene->truck->coupling.rated_trailed),
    N_("Trailer and load weigh {need}, the coupling is rated to pull {have}."),
    N_("Trailer and load weigh {need}, more than the {have} that the coupling is rated to pull.") }, &steps, NULL);
  if (scene->axles.status != FL_BEAM_OK)
    return;
  check_coupling_load (scene, findings);
  check_share (scene, findings);
}

/* ── gross weights ── */

static void
check_truck_gross (const FlScene *scene, FlFindings *findings)
{
  const FlSceneAxles *a = &scene->axles;
  FlSteps own = FL_STEPS (findings), whole = FL_STEPS (findings);

  fl_step (&own, N_("Truck empty {tare} + coupling {coupling} = {gross}."), FL_FACT_QUANTITY ("tare", fl_weight (scene, a->truck_gross - a->coupling)),
           FL_FACT_QUANTITY ("coupling", fl_weight (scene, a->coupling)), FL_FACT_QUANTITY ("gross", fl_weight (scene, a->truck_gross)));
  if (a->truck_status == FL_BEAM_OK)
    check_limit (scene, findings, &(Limit) {
      "gvwr", "truck gross weight", a->truck_gross, scene->truck->gvwr, N_("The truck weighs {need} with the coupling's load, rated {have}."),
      N_("The truck weighs {need} with the coupling's load, more than its rating of {have}.") }, &own, NULL);
  fl_steps_gross (scene, &whole, TRUE);
  check_limit (scene, findings, &(Limit) {
    "gcwr", "combination gross weight", a->gross, scene->truck->gcwr, N_("The combination weighs {need}, the truck is rated for {have}."),
    N_("The combination weighs {need}, more than the {have} the truck is rated for.") }, &whole, NULL);
}

void
fl_check_gross (const FlScene *scene, FlFindings *findings)
{
  const FlSceneAxles *a = &scene->axles;
  const FlTrailer *trailer = scene->trailer;
  FlSteps loads = FL_STEPS (findings), gross = FL_STEPS (findings);

  fl_steps_weights (scene, &loads);
  fl_steps_gross (scene, &gross, FALSE);
  if (fl_quantity_known (trailer->capacity) || !fl_quantity_known (trailer->gvwr))
    check_limit (scene, findings, &(Limit) {
      "capacity", "trailer capacity", a->payload, trailer->capacity, N_("The load weighs {need}, the trailer may carry {have}."),
      N_("The load weighs {need}, more than the {have} the trailer may carry.") }, &loads, NULL);
  if (fl_quantity_known (trailer->gvwr))
    check_limit (scene, findings, &(Limit) {
      "gvwr", "trailer gross weight", a->trailer_gross, trailer->gvwr, N_("The loaded trailer weighs {need}, rated {have}."),
      N_("The loaded trailer weighs {need}, more than its rating of {have}.") }, &gross, NULL);
  if (scene->truck != NULL && trailer->coupling.present)
    check_truck_gross (scene, findings);
}
