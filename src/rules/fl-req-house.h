/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the house's findings on tie-downs and on loads share. Private to rules. */
#ifndef FL_REQ_HOUSE_H
#define FL_REQ_HOUSE_H

#include "fl-house.h"
#include "fl-say.h"

G_BEGIN_DECLS

/* What a tie-down of the scene is worth to the house: stand-ins shared among all that hang on the same point or anchor. */
FlHouseWorth fl_scene_house_worth (const FlScene *scene, const FlSceneTie *tie);

/* How one tie-down comes to what it counts: "0.5 x 6,600 lb (chain C-041) = 3,300 lb". `wll` and `part` (NULL: not known) set its worth. */
void fl_step_share (FlSteps *steps, const FlScene *scene, const FlSceneTie *tie, double wll, const char *part);

/* Tie-downs of the load itself that count, and how many are needed by its length (393.110), as a step. */
guint fl_scene_count (const FlScene *scene, guint load);
void fl_step_count (FlSteps *steps, const FlScene *scene, guint load, gboolean blocked, FlQuantity need);

/* The same scene with every load heavier by the rule's percentage (fl_scene_make_heavier). Free with g_free. (transfer full) */
FlScene *fl_house_heavier (const FlScene *scene, FlMachine *machines, const FlHouseRule *rule);

/* weight_margin_pct: the weights with it, line by line; and all findings of a heavier scene that stand against it, returns how many. */
void fl_step_margin (FlSteps *steps, const FlScene *scene, const FlHouseRule *rule);
guint fl_say_margin (const FlScene *scene, FlFindings *findings, const FlHouseRule *rule, const FlFindings *found);

G_END_DECLS
#endif
