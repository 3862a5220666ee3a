/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The force check (393.102(a), advice: met by the rule when the written requirements are, 393.102(c)) and how far the load is held down
 * (393.102(b), advice). */
#include <math.h>

#include "fl-force.h"
#include "fl-force-table.h"
#include "fl-say.h"

/* The words of the tables of forces, as message ids. */
static const char *
way_word (const FlBookCase *c)
{
  return fl_force_case_word (NULL, c->id);
}

static const char *
mode_word (FlMode mode)
{
  return fl_force_mode_word (NULL, fl_mode_id (mode));
}

static const char *
state_word (const FlSceneForce *force)
{
  if (!force->given && g_str_equal (force->state, "wet"))
    return N_("taken as wet, for the move does not say");
  return fl_force_friction_word (NULL, force->state);
}

/* ── the arithmetic ── */

/* A number without a unit, as one types it into a pocket calculator. */
static const char *
bare_number (FlArena *arena, double value)
{
  char text[G_ASCII_DTOSTR_BUF_SIZE];

  return fl_arena_text (arena, g_ascii_formatd (text, sizeof text, "%.3f", value));
}

/* The paper method, a line for each tie-down that holds this way. */
static void
step_components (const FlScene *scene, FlSteps *steps, guint load, const FlBookCase *c)
{
  double sum = 0.0, weight = scene->loads[load].weight;

  for (guint i = 0; i < scene->n_ties; i++)
    {
      const FlSceneTie *tie = &scene->ties[i];
      double cosine = -fl_vec_dot (fl_vec_add (tie->lay.pull, tie->lay.pull_b), c->direction);

      if (tie->load != load || !fl_scene_own (tie) || !fl_scene_holds (tie) || !(cosine > FL_STATICS_COSINE) || isnan (tie->assembly.wll))
        continue;
      sum += cosine * tie->assembly.wll;
      fl_step (steps, N_("Tie-down {no}: limit {wll} x {cosine} (direction cosine) = {holds}."), FL_FACT_QUANTITY ("no", FL_COUNT (tie->choice->no)),
               FL_FACT_QUANTITY ("wll", fl_weight (scene, tie->assembly.wll)), FL_FACT_TEXT ("cosine", bare_number (steps->arena, cosine)),
               FL_FACT_QUANTITY ("holds", fl_weight (scene, cosine * tie->assembly.wll)));
    }
  fl_step (steps, N_("Component sum without friction: {sum} / weight {weight} = {g}."), FL_FACT_QUANTITY ("sum", fl_weight (scene, sum)),
           FL_FACT_QUANTITY ("weight", scene->loads[load].machine->weight), FL_FACT_QUANTITY ("g", FL_GEES (sum / weight)));
}

static const char *
tie_names (const FlScene *scene, const guint *ties, guint n, FlArena *arena)
{
  g_auto(FlNames) names = { NULL, 0 };

  for (guint i = 0; i < n; i++)
    {
      g_autofree char *no = g_strdup_printf ("%u", scene->ties[ties[i]].choice->no);

      fl_names_add (&names, no);
    }
  return n > 0 ? fl_arena_text (arena, fl_names_text (&names)) : "-";
}

static void
step_bound (const FlScene *scene, FlSteps *steps, const FlForceAnswer *bare, const FlForceAnswer *answer)
{
  fl_step (steps, N_("Upper bound, all at their limit together: {bound}, then {mode_word}; at their limit: tie-downs {ties}. Without friction {bare}."),
           FL_FACT_QUANTITY ("bound", FL_GEES (answer->bound)), FL_FACT_TEXT ("mode_word", mode_word (answer->mode)),
           FL_FACT_TEXT ("ties", tie_names (scene, answer->at_limit, answer->n_at_limit, steps->arena)),
           FL_FACT_QUANTITY ("bare", FL_GEES (bare->bound)));
}

static void
step_sharing (const FlScene *scene, FlSteps *steps, guint load, const FlForceAnswer *answer, double demand)
{
  for (guint i = 0; i < scene->n_ties && answer->sharing_done && answer->settled; i++)
    if (scene->ties[i].load == load && answer->tie_use[i] > 0.0005)
      fl_step (steps, N_("Shared as they stretch, at {demand}: tie-down {no} carries {tension}, {use} of its limit."),
               FL_FACT_QUANTITY ("demand", FL_GEES (demand)), FL_FACT_QUANTITY ("no", FL_COUNT (scene->ties[i].choice->no)),
               FL_FACT_QUANTITY ("tension", fl_force_as_weight (scene, answer->tension[i])), FL_FACT_QUANTITY ("use", FL_PCT (100.0 * answer->tie_use[i])));
  if (answer->sharing_done && answer->settled)
    fl_step (steps, N_("The load moves {moved} meanwhile; binders tight but no pretension counted."),
             FL_FACT_QUANTITY ("moved", fl_inches (answer->moved)));
}

static FlSteps
steps_of (const FlScene *scene, FlFindings *findings, guint load, gsize k)
{
  const FlBookCase *c = &fl_book_data (scene->book)->cases[k];
  const FlSceneForce *force = &scene->force[load];
  FlSteps steps = FL_STEPS (findings);

  fl_step (&steps, N_("Friction {mu} of the weight across, deck {state_word}; lengthwise a wheel or drum neither braked nor chocked counts {rolling}."),
           FL_FACT_TEXT ("mu", bare_number (steps.arena, force->mu)), FL_FACT_TEXT ("state_word", state_word (force)),
           FL_FACT_TEXT ("rolling", bare_number (steps.arena, fl_book_data (scene->book)->friction_rolling)));
  step_components (scene, &steps, load, c);
  step_bound (scene, &steps, fl_force_answer (force, k, FL_LEVEL_WORKING, FL_FRICTION_NONE),
              fl_force_answer (force, k, FL_LEVEL_WORKING, FL_FRICTION_OF_DECK));
  step_sharing (scene, &steps, load, fl_force_answer (force, k, FL_LEVEL_WORKING, FL_FRICTION_OF_DECK), c->working);
  return steps;
}

/* ── the cases ── */

static FlVerdict
verdict_of (const FlForceAnswer *answer, double demand)
{
  if (fl_force_clear (answer, demand))
    return FL_MET;
  return answer->left_out ? FL_UNKNOWN : FL_CAUTION;
}

static const char *
message_of (const FlForceAnswer *answer, double demand, FlVerdict verdict)
{
  if (verdict == FL_MET)
    return N_("Against moving {way_word} {need} is wanted: together the tie-downs hold {bound}, as they share it {have}. Deck {state_word}; without friction {bare}.");
  if (verdict == FL_UNKNOWN)
    return N_("Against moving {way_word} {need} is wanted; the tie-downs whose limit is known hold {have}, and what the others hold is not known.");
  if (!fl_reaches (answer->bound, demand))
    return N_("Against moving {way_word} {need} is wanted, but all tie-downs together hold {have} at most: then {mode_word}. Deck {state_word}; without friction {bare}.");
  if (!answer->settled)
    return N_("Against moving {way_word} {need} is wanted, and together they might hold {bound}; but the load moves too far before they take it, or how they share it cannot be worked out. Deck {state_word}.");
  return N_("Against moving {way_word} {need} is wanted, and together they might hold {bound}; but tie-down {no} takes more than its share and is at its limit at {have}. Deck {state_word}; without friction {bare}.");
}

/* What can be counted on: the lesser of the two. */
static double
counts_on (const FlForceAnswer *answer)
{
  if (!answer->settled)
    return 0.0;
  return fmin (answer->bound, isfinite (answer->holds) ? answer->holds : answer->upto);
}

static void
check_case (const FlScene *scene, FlFindings *findings, guint load, gsize k)
{
  const FlBookCase *c = &fl_book_data (scene->book)->cases[k];
  const FlSceneForce *force = &scene->force[load];
  const FlForceAnswer *answer = fl_force_answer (force, k, FL_LEVEL_WORKING, FL_FRICTION_OF_DECK);
  const FlForceAnswer *bare = fl_force_answer (force, k, FL_LEVEL_WORKING, FL_FRICTION_NONE);
  FlVerdict verdict = verdict_of (answer, c->working);
  double have = fl_reaches (answer->bound, c->working) ? counts_on (answer) : answer->bound;
  gint worst = answer->worst < scene->n_ties ? (gint) scene->ties[answer->worst].choice->no : 0;
  FlSteps steps = steps_of (scene, findings, load, k);

  fl_say (scene, findings, &(FlSaying) {
    .rule = "force", .standing = FL_BY_ADVICE, .verdict = verdict, .subject = scene->loads[load].subject, .load = load + 1,
    .need = FL_GEES (c->working), .have = FL_GEES (have), .message = message_of (answer, c->working, verdict), .steps = &steps,
    .facts = { FL_FACT_TEXT ("way_word", way_word (c)), FL_FACT_QUANTITY ("bound", FL_GEES (answer->bound)),
               FL_FACT_QUANTITY ("bare", FL_GEES (bare->bound)), FL_FACT_TEXT ("state_word", state_word (force)),
               FL_FACT_TEXT ("mode_word", mode_word (answer->mode)), FL_FACT_QUANTITY ("no", FL_COUNT (worst)) } });
}

static void
say_not_judged (const FlScene *scene, FlFindings *findings, guint load, FlForceWhy why)
{
  static const char *const texts[] = {
    [FL_FORCE_JUDGED] = "",
    [FL_FORCE_NO_PLACE] = N_("Forces not judged: it has no place yet, or its size is not on record."),
    [FL_FORCE_NO_WEIGHT] = N_("Forces not judged: its weight is not on record."),
    [FL_FORCE_NO_CG] = N_("Forces not judged: its center of gravity is not on record (center_of_gravity)."),
    [FL_FORCE_NO_CONTACTS] = N_("Forces not judged: what it stands on is not on record (contacts)."),
    [FL_FORCE_JOINT_FREE] = N_("Forces not judged: its joint is free."),
    [FL_FORCE_FALLS] = N_("Its center of gravity lies outside its wheels, tracks or drums: it falls over, or the record is wrong (center_of_gravity, contacts)."),
  };

  fl_say (scene, findings, &(FlSaying) {
    .rule = "force", .standing = FL_BY_ADVICE, .verdict = why == FL_FORCE_FALLS ? FL_CAUTION : FL_UNKNOWN,
    .subject = scene->loads[load].subject, .load = load + 1, .message = texts[why] });
}

void
fl_check_force (const FlScene *scene, FlFindings *findings)
{
  for (guint i = 0; i < scene->n_loads; i++)
    if (scene->force == NULL || scene->force[i].why != FL_FORCE_JUDGED)
      say_not_judged (scene, findings, i, scene->force != NULL ? scene->force[i].why : FL_FORCE_NO_PLACE);
    else
      for (gsize k = 0; k < fl_book_data (scene->book)->n_cases; k++)
        check_case (scene, findings, i, k);
}

/* ── held down ── */

static double
down_of (const FlSceneTie *tie)
{
  double down = -fl_vec_add (tie->lay.pull, tie->lay.pull_b).z;

  return fl_scene_own (tie) && fl_scene_holds (tie) && down > FL_STATICS_COSINE && !isnan (tie->assembly.wll) ? down : 0.0;
}

static void
check_down (const FlScene *scene, FlFindings *findings, guint load)
{
  const FlBookData *data = fl_book_data (scene->book);
  const FlSceneLoad *l = &scene->loads[load];
  double have = 0.0, need = data->up_share * l->weight;
  FlSteps steps = FL_STEPS (findings);

  for (guint i = 0; i < scene->n_ties; i++)
    {
      const FlSceneTie *tie = &scene->ties[i];
      double down = tie->load == load ? down_of (tie) : 0.0;

      if (down <= 0.0)
        continue;
      have += down * tie->assembly.wll;
      fl_step (&steps, N_("Tie-down {no}: limit {wll} x {cosine} (downward) = {holds}."), FL_FACT_QUANTITY ("no", FL_COUNT (tie->choice->no)),
               FL_FACT_QUANTITY ("wll", fl_weight (scene, tie->assembly.wll)), FL_FACT_TEXT ("cosine", bare_number (steps.arena, down)),
               FL_FACT_QUANTITY ("holds", fl_weight (scene, down * tie->assembly.wll)));
    }
  fl_step (&steps, N_("Wanted: {share} x weight {weight} = {wanted}; gravity not counted."), FL_FACT_TEXT ("share", bare_number (steps.arena, data->up_share)),
           FL_FACT_QUANTITY ("weight", l->machine->weight), FL_FACT_QUANTITY ("wanted", fl_weight (scene, need)));
  fl_say (scene, findings, &(FlSaying) {
    .rule = "held_down", .standing = FL_BY_ADVICE, .subject = l->subject, .load = load + 1,
    .verdict = isnan (need) ? FL_UNKNOWN : fl_reaches (have, need) ? FL_MET : FL_CAUTION,
    .need = fl_weight (scene, need), .have = fl_weight (scene, have), .steps = &steps,
    .message = isnan (need) ? N_("How far it is held down is not judged: its weight is not on record.")
               : fl_reaches (have, need) ? N_("The tie-downs hold it down with {have}; {need} is wanted.")
                                         : N_("The tie-downs hold it down with {have} only; {need} is wanted: steeper or more tie-downs.") });
}

void
fl_check_held_down (const FlScene *scene, FlFindings *findings)
{
  for (guint i = 0; i < scene->n_loads; i++)
    check_down (scene, findings, i);
}
