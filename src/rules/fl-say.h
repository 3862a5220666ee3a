/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How a requirement speaks: private to rules. */
#ifndef FL_SAY_H
#define FL_SAY_H

#include "fl-judge.h"
#include "fl-scene-private.h"

G_BEGIN_DECLS

enum { FL_SAY_MAX_FACTS = 8, FL_SAY_MAX_STEPS = 40 };

/* How the figures of a finding come about, line by line, in the making. Starts as FL_STEPS (findings); lines beyond the room are dropped. */
typedef struct { FlMessage lines[FL_SAY_MAX_STEPS]; gsize n; FlArena *arena; gboolean brief; } FlSteps;    /* brief: takes none */
#define FL_STEPS(findings) ((FlSteps) { .arena = fl_findings_arena (findings), .brief = fl_findings_brief (findings) })
/* Adds a line: fl_step (&steps, N_("Half of the weight, {weight}, is {need}."), FL_FACT_QUANTITY ("weight", w), ...). Facts are copied. */
void fl_steps_add (FlSteps *steps, const char *message, const FlFact *facts, gsize n_facts);
#define fl_step(steps, message, ...) \
  fl_steps_add ((steps), (message), (const FlFact[]) { __VA_ARGS__ }, sizeof ((const FlFact[]) { __VA_ARGS__ }) / sizeof (FlFact))

/* A finding in the making. The citation is the book's for the rule. */
typedef struct
{
  const char *rule;
  FlStanding standing;
  FlVerdict verdict;
  const char *subject;
  guint tie, load;              /* index + 1; 0: none in particular */
  FlQuantity need, have;
  const char *basis, *message;
  FlFact facts[FL_SAY_MAX_FACTS];   /* up to the first without a key */
  const FlSteps *steps;         /* NULL: nothing to explain */
} FlSaying;

/* Adds it to the findings (all texts are copied). */
void fl_say (const FlScene *scene, FlFindings *findings, const FlSaying *saying);

/* Adds "met" for the rule and the subject. */
void fl_say_met (const FlScene *scene, FlFindings *findings, const char *rule, FlStanding standing, const char *subject, guint load,
                 const char *message);

/* A growing list of names: "1, 2, 5". */
typedef struct { GString *text; guint n; } FlNames;
void fl_names_add (FlNames *names, const char *name);
void fl_names_clear (FlNames *names);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (FlNames, fl_names_clear)
const char *fl_names_text (const FlNames *names);

/* The standing of what 393.130 asks of heavy machines: law for them, advice for lighter loads. */
FlStanding fl_heavy_standing (const FlSceneLoad *load);
/* The verdict where it is not so: short for them, for lighter loads a caution. */
FlVerdict fl_heavy_short (const FlSceneLoad *load);

/* A quantity in the book's unit. */
FlQuantity fl_weight (const FlScene *scene, double value);

/* A length in metres as a quantity; not measured where it is not finite. */
FlQuantity fl_inches (double m);
/* As one calls it: its name, else its id. */
const char *fl_name_or_id (const char *name, const char *id);

/* Component sums of a load's own tie-downs that hold; weights in the book's unit. */
FlSums fl_scene_sums (const FlScene *scene, guint load);
/* TRUE if the load stands against something that blocks it forward (front stop, blocking zone); *rated in the book's unit, NaN not known. */
gboolean fl_scene_blocked (const FlScene *scene, guint load, double *rated);

/* What of the aggregate one tie-down counts, book's unit; 0 for an implement's, for gear out of use and for an unknown limit. */
double fl_tie_counts (const FlSceneTie *tie);

/* What a load's own tie-downs come to (393.106(d)) and what it needs, book's unit. n: how many there are; unknown: a limit among them is; weakest:
 * the one with the least limit, NULL where none is known. */
typedef struct { double need, have; guint n; gboolean unknown; const FlAssembly *weakest; } FlAggregate;
FlAggregate fl_scene_aggregate (const FlScene *scene, guint load);

/* The requirements, by file. */
void fl_check_gear_rating (const FlScene *scene, FlFindings *findings);
void fl_check_aggregate (const FlScene *scene, FlFindings *findings);
void fl_check_count (const FlScene *scene, FlFindings *findings);
void fl_check_house_gear (const FlScene *scene, FlFindings *findings);
void fl_check_house_loads (const FlScene *scene, FlFindings *findings);
void fl_check_house_place (const FlScene *scene, FlFindings *findings);

void fl_check_all_directions (const FlScene *scene, FlFindings *findings);
void fl_check_rolling (const FlScene *scene, FlFindings *findings);
void fl_check_implements (const FlScene *scene, FlFindings *findings);
void fl_check_articulation (const FlScene *scene, FlFindings *findings);
void fl_check_locks (const FlScene *scene, FlFindings *findings);

void fl_check_force (const FlScene *scene, FlFindings *findings);
void fl_check_held_down (const FlScene *scene, FlFindings *findings);

void fl_check_cannot_loosen (const FlScene *scene, FlFindings *findings);
void fl_check_edges (const FlScene *scene, FlFindings *findings);
void fl_check_fit (const FlScene *scene, FlFindings *findings);
void fl_check_angles (const FlScene *scene, FlFindings *findings);
void fl_check_chains_apart (const FlScene *scene, FlFindings *findings);
void fl_check_points (const FlScene *scene, FlFindings *findings);
void fl_check_takes (const FlScene *scene, FlFindings *findings);
void fl_check_mixed (const FlScene *scene, FlFindings *findings);
void fl_check_gear_at_hand (const FlScene *scene, FlFindings *findings);

void fl_check_stands (const FlScene *scene, FlFindings *findings);
void fl_check_axles (const FlScene *scene, FlFindings *findings);
void fl_check_coupling (const FlScene *scene, FlFindings *findings);
void fl_check_gross (const FlScene *scene, FlFindings *findings);
void fl_check_sizes (const FlScene *scene, FlFindings *findings);
void fl_check_ramp (const FlScene *scene, FlFindings *findings);
void fl_check_concentrated (const FlScene *scene, FlFindings *findings);
void fl_check_permit (const FlScene *scene, FlFindings *findings);

void fl_check_move (const FlScene *scene, FlFindings *findings);
void fl_check_weight_basis (const FlScene *scene, FlFindings *findings);
void fl_check_unmeasured (const FlScene *scene, FlFindings *findings);
void fl_check_weight_margin (const FlScene *scene, FlFindings *findings);
void fl_check_placement (const FlScene *scene, FlFindings *findings);
void fl_check_recheck (const FlScene *scene, FlFindings *findings);

G_END_DECLS
#endif
