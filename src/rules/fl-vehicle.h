/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The load on its vehicle, as the requirements of axles, deck and permit see it: private to rules. Metres in the trailer frame, weights in
 * the book's unit. */
#ifndef FL_VEHICLE_H
#define FL_VEHICLE_H

#include "fl-legal.h"
#include "fl-say.h"

G_BEGIN_DECLS

/* ── axles (fl-scene-axles.c) ── */

/* What axles and coupling would carry with one load `by` further forward, m. Deck and neighbours are not looked at. */
void fl_scene_weigh_moved (const FlScene *scene, guint load, double by, FlSceneAxles *out);

/* Where a load's weight acts, m; an article without a center of gravity on record in the middle of its length. NaN: not known. */
double fl_scene_acts_at (const FlSceneLoad *load);

enum { FL_MAX_COMBINATION = 2 * FL_SCENE_MAX_AXLES };

/* All axles from the front, truck and trailer in one frame as their coupling points coincide. */
typedef struct
{
  guint n;
  gboolean with_truck;          /* FALSE: the trailer's (or a rollback's) own only */
  double x[FL_MAX_COMBINATION];
  const FlAxle *axles[FL_MAX_COMBINATION];
  gboolean of_truck[FL_MAX_COMBINATION]; gsize index[FL_MAX_COMBINATION];  /* where its load stands in FlSceneAxles */
} FlCombination;

/* FALSE, and n 0, where the trailer's axle loads are not known. */
gboolean fl_scene_combination (const FlScene *scene, FlCombination *out);
/* What axle i of it carries. */
double fl_combination_load (const FlCombination *combination, const FlSceneAxles *axles, guint i);

/* The axle by which a truck or a rollback steers: the one that says so, else the foremost. */
gsize fl_steering_axle (const FlAxle *axles, gsize n);

/* The lesser of two ratings; unknown ones do not bind. */
FlQuantity fl_lesser_rating (FlQuantity a, FlQuantity b);

/* ── sizes (fl-scene-axles.c) ── */

/* From where to where the trailer's deck reaches, neck and tail too, m. */
void fl_trailer_reach (const FlTrailer *trailer, double *rear, double *front);

/* How far a load reaches to the left and to the right (under 0) of the trailer's centerline: the machine, what is drawn of it, and what it
 * stands on. NaN: width not known. */
typedef struct { double left, right; } FlSides;
FlSides fl_load_sides (const FlSceneLoad *load);
/* Its highest point over the main deck. NaN: height not known. */
double fl_load_height (const FlSceneLoad *load);

/* ── deck (fl-req-deck.c) ── */

/* TRUE if nothing of standing stands against this stand of load i: it is on deck that carries, runs into nothing and into no other load. */
gboolean fl_stands_well (const FlScene *scene, guint i, const FlStand *stand);

/* ── the nearest cure (fl-nearest.c) ── */

/* What is to come within its limit: an axle's rating (and it must not lift), the coupling's rating, the share on it at least the floor, the
 * share within its band, all single and tandem weights, all weights by the bridge formula. */
typedef enum { FL_CURE_TRAILER_AXLE, FL_CURE_TRUCK_AXLE, FL_CURE_COUPLING, FL_CURE_SHARE, FL_CURE_BAND, FL_CURE_STEER, FL_CURE_AXLE_LEGAL,
               FL_CURE_BRIDGE } FlCure;

/* asked: looked for at all, which is done at rest only (FL_JUDGE_SETTLED); load: which is to be moved; distance: how far, in whole inches (metric houses: centimetres), rounded to the safe side; forward or back. */
typedef struct { gboolean asked, found; guint load; gboolean forward; FlQuantity distance; } FlNearest;

/* The shortest way to move one load that brings `cure` (of axle `index`, where it is of one) within its limit, on deck that carries, clear of
 * all else, and with none of the other limits of axles and coupling over, or further over than it is. Loads are linear in the place, so the
 * way is worked out and then proved. Only at rest: in the search and in a drag (FL_JUDGE_MOVING) none is looked for. */
FlNearest fl_nearest_cure (const FlScene *scene, FlCure cure, gsize index);

/* The text that fits: a place cures it, none does, or nobody looked. */
const char *fl_nearest_text (const FlNearest *nearest, const char *cured, const char *none, const char *not_asked);
/* "further forward" or "further back", a message id. */
const char *fl_nearest_word (const FlNearest *nearest);

/* Facts of a message that says it: {load}, {distance}, {way_word}. */
#define FL_NEAREST_FACTS(scene, nearest) \
  FL_FACT_TEXT ("load", (nearest).found ? (scene)->loads[(nearest).load].subject : "-"), FL_FACT_QUANTITY ("distance", (nearest).distance), \
  FL_FACT_TEXT ("way_word", fl_nearest_word (&(nearest)))

/* ── arithmetic (fl-vehicle-steps.c) ── */

/* How a load on axle i of trailer (or rollback) or truck comes about, from the weights to the axle. */
void fl_steps_axle (const FlScene *scene, FlSteps *steps, gboolean of_truck, gsize i);
/* How the load on the coupling comes about. */
void fl_steps_coupling (const FlScene *scene, FlSteps *steps);
/* Weight of each load, with its basis. */
void fl_steps_weights (const FlScene *scene, FlSteps *steps);
/* The trailer's gross weight, and (whole) the combination's. */
void fl_steps_gross (const FlScene *scene, FlSteps *steps, gboolean whole);
/* A number without a unit: "0.5". Static with the steps. */
FlFact fl_fact_number (const FlSteps *steps, const char *key, double value);

G_END_DECLS
#endif
