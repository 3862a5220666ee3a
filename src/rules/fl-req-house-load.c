/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the house asks of each load: how many tie-downs, what they come to, its weight margin, an implement's lock. What rests on the places
 * alone is in fl-req-house-place.c. */
#include "fl-req-house.h"

#include <math.h>

static FlSaying
saying_of (const FlScene *scene, FlHouseRuleId rule, FlVerdict verdict, guint i)
{
  return (FlSaying) { .rule = fl_house_rule_name (rule), .standing = FL_BY_HOUSE, .verdict = verdict, .subject = scene->loads[i].subject,
                      .load = i + 1 };
}

static void
say_load_met (const FlScene *scene, FlFindings *findings, FlHouseRuleId rule, guint i, const char *message, const FlSteps *steps)
{
  FlSaying saying = saying_of (scene, rule, FL_MET, i);

  saying.message = message;
  saying.steps = steps;
  fl_say (scene, findings, &saying);
}

/* ── another scene: the same tie-downs, the loads as the house takes them ── */

FlScene *
fl_house_heavier (const FlScene *scene, FlMachine *machines, const FlHouseRule *rule)
{
  FlScene *copy = fl_scene_variation (scene);
  double factors[FL_SCENE_MAX_LOADS];

  for (guint i = 0; i < scene->n_loads; i++)
    factors[i] = 1.0 + rule->pct / 100.0;
  fl_scene_make_heavier (copy, machines, factors);
  return copy;
}

static void
say_again (const FlScene *scene, FlFindings *findings, FlHouseRuleId rule, const FlFinding *found, const char *message, const FlSteps *before)
{
  FlSteps steps = *before;
  FlSaying saying = { .rule = fl_house_rule_name (rule), .standing = FL_BY_HOUSE, .verdict = found->verdict, .subject = found->subject,
                      .tie = (guint) (found->tie_down + 1), .load = (guint) (found->load + 1), .need = found->need, .have = found->have,
                      .basis = found->basis, .message = message != NULL ? message : found->message, .steps = &steps };

  for (gsize k = 0; k < found->n_facts && k < FL_SAY_MAX_FACTS; k++)
    saying.facts[k] = found->facts[k];
  for (gsize k = 0; k < found->n_steps; k++)
    fl_steps_add (&steps, found->steps[k].message, found->steps[k].facts, found->steps[k].n_facts);
  fl_say (scene, findings, &saying);
}

/* ── four_below_threshold ── */

/* What 4, 6 and 7 of the rule book ask of heavy machines, and four tie-downs, asked of a scene in which all machines are heavy. */
static void
ask_as_heavy (const FlScene *scene, FlFindings *found)
{
  fl_check_count (scene, found);
  fl_check_all_directions (scene, found);
  fl_check_implements (scene, found);
  fl_check_articulation (scene, found);
}

static guint
say_as_heavy (const FlScene *scene, FlFindings *findings, const FlFindings *found, guint i)
{
  FlSteps before = FL_STEPS (findings);
  guint n = 0;

  fl_step (&before, N_("The house asks of machines under {threshold} what the rule asks of heavier ones."),
           FL_FACT_QUANTITY ("threshold", fl_weight (scene, fl_book_data (scene->book)->heavy_weight)));
  for (gsize k = 0; k < fl_findings_count (found); k++)
    {
      const FlFinding *f = fl_findings_at (found, k);
      const char *message = strcmp (f->rule, "tie_down_count") == 0 ? N_("The house asks for at least {need} tie-downs of its own on a machine of any weight; it has {have}.")
                                                                    : NULL;

      if (f->load != (gint) i || !fl_finding_stands_against (f))
        continue;
      say_again (scene, findings, FL_HOUSE_FOUR_BELOW_THRESHOLD, f, message, &before);
      n++;
    }
  return n;
}

static void
check_four_below (const FlScene *scene, FlFindings *findings, const FlHouseRule *rule)
{
  g_autofree FlScene *copy = fl_scene_variation (scene);
  g_autoptr(FlFindings) found = fl_findings_new ();

  for (guint i = 0; i < copy->n_loads; i++)
    {
      FlSceneLoad *load = &copy->loads[i];

      load->heavy = !load->machine->article;
      if (load->heavy && isnan (load->weight))  /* the need does not hang on it any more */
        load->weight = fl_book_data (scene->book)->heavy_weight;
    }
  ask_as_heavy (copy, found);
  for (guint i = 0; i < scene->n_loads; i++)
    if (!scene->loads[i].machine->article && !scene->loads[i].heavy && say_as_heavy (scene, findings, found, i) == 0)
      say_load_met (scene, findings, rule->rule, i, N_("Tied down as the house asks of every machine: four tie-downs, all directions, implements and joint held."),
                    NULL);
}

/* ── length_count_too ── */

static void
check_length_count (const FlScene *scene, FlFindings *findings, const FlHouseRule *rule)
{
  for (guint i = 0; i < scene->n_loads; i++)
    {
      const FlSceneLoad *load = &scene->loads[i];
      double rated, length = fl_quantity_in (load->machine->length, FL_UNIT_FT);
      gboolean blocked = fl_scene_blocked (scene, i, &rated);
      gint need = load->heavy ? fl_book_count (scene->book, length, load->weight, blocked) : 0;
      guint have = fl_scene_count (scene, i);
      FlSaying saying = saying_of (scene, rule->rule, isnan (length) ? FL_UNKNOWN : (gint) have >= need ? FL_MET : FL_SHORT, i);
      FlSteps steps = FL_STEPS (findings);

      if (!load->heavy)         /* the rule itself counts these by length */
        continue;
      fl_step_count (&steps, scene, i, blocked, isnan (length) ? FL_NOT_MEASURED : FL_COUNT (need));
      saying.need = isnan (length) ? FL_NOT_MEASURED : FL_COUNT (need);
      saying.have = FL_COUNT (have);
      saying.steps = &steps;
      saying.message = isnan (length) ? N_("The house counts by length too, and the length is not on record.")
                       : (gint) have >= need ? N_("By length too, as the house counts, {need} tie-downs are enough; it has {have}.")
                                             : N_("The house counts by length too: at least {need} tie-downs of its own; it has {have}.");
      fl_say (scene, findings, &saying);
    }
}

/* ── sums ── */

typedef struct { double have; gboolean unknown; } Sum;

static Sum
house_sum (const FlScene *scene, guint load, FlSteps *steps)
{
  const guint none = FL_ASM_NO_GEAR | FL_ASM_OUT_OF_USE;
  Sum sum = { 0.0, FALSE };

  for (guint k = 0; k < scene->n_ties; k++)
    {
      const FlSceneTie *tie = &scene->ties[k];
      FlHouseWorth worth = fl_scene_house_worth (scene, tie);
      const char *part = worth.id != NULL ? fl_arena_printf (steps->arena, "%s %s*", worth.what, worth.id)
                                          : fl_assembly_limit_text (&tie->assembly, steps->arena);

      if (tie->load != load || !fl_scene_own (tie))
        continue;
      fl_step_share (steps, scene, tie, worth.wll, part);
      if ((tie->assembly.flags & none) != 0)
        continue;
      sum.unknown = sum.unknown || isnan (worth.wll);
      sum.have += isnan (worth.wll) ? 0.0 : tie->share * worth.wll;
    }
  return sum;
}

static FlVerdict
reach (Sum sum, double need)
{
  if (isnan (need))
    return FL_UNKNOWN;
  return fl_reaches (sum.have, need) ? FL_MET : sum.unknown ? FL_UNKNOWN : FL_SHORT;
}

typedef struct { const char *met, *less, *unknown; } SumWords;

static const SumWords stand_in_words = {
  N_("With the house's stand-in ratings: need {need}, have {have}."),
  N_("With the house's stand-in ratings: need {need}, have only {have}."),
  N_("With the house's stand-in ratings need and sum cannot be compared: a weight or a limit is not known.")
};
static const SumWords extra_words = {
  N_("The house asks for {extra} more than the rule: need {need}, have {have}."),
  N_("The house asks for {extra} more than the rule: need {need}, have only {have}."),
  N_("The house asks for {extra} more than the rule; a weight or a limit is not known.")
};

static void
step_stand_ins (const FlScene *scene, FlSteps *steps)
{
  const FlPolicy *policy = fl_book_policy (scene->book);

  for (gsize i = 0; i < policy->n_rules; i++)
    if (policy->rules[i].rule == FL_HOUSE_STAND_IN_RATING)
      fl_step (steps, N_("Stand-in for each {fitting} that nobody rated, marked *: {wll}."), FL_FACT_TEXT ("fitting", policy->rules[i].fitting),
               FL_FACT_QUANTITY ("wll", policy->rules[i].wll));
}

static void
say_sum (const FlScene *scene, FlFindings *findings, const FlHouseRule *rule, guint i, double extra, const SumWords *words)
{
  const FlSceneLoad *load = &scene->loads[i];
  double share = fl_book_data (scene->book)->aggregate_share, need = share * load->weight * extra;
  FlSteps steps = FL_STEPS (findings);
  FlSaying saying;
  Sum sum;
  char buffer[G_ASCII_DTOSTR_BUF_SIZE];

  step_stand_ins (scene, &steps);
  sum = house_sum (scene, i, &steps);
  fl_step (&steps, N_("Their sum: {have}."), FL_FACT_QUANTITY ("have", fl_weight (scene, sum.have)));
  fl_step (&steps, N_("{share} x weight {weight} ({basis}) and {extra} on top = {need} needed."),
           FL_FACT_TEXT ("share", fl_arena_text (steps.arena, fl_number_text (share, buffer))), FL_FACT_QUANTITY ("weight", load->machine->weight),
           FL_FACT_TEXT ("basis", fl_basis_of (&load->machine->basis, "weight").text), FL_FACT_QUANTITY ("extra", FL_PCT (100.0 * (extra - 1.0))),
           FL_FACT_QUANTITY ("need", fl_weight (scene, need)));
  saying = saying_of (scene, rule->rule, reach (sum, need), i);
  saying.need = fl_weight (scene, need);
  saying.have = fl_weight (scene, sum.have);
  saying.basis = fl_basis_of (&load->machine->basis, "weight").text;
  saying.steps = &steps;
  saying.facts[0] = FL_FACT_QUANTITY ("extra", FL_PCT (100.0 * (extra - 1.0)));
  saying.message = saying.verdict == FL_MET ? words->met : saying.verdict == FL_SHORT ? words->less : words->unknown;
  fl_say (scene, findings, &saying);
}

static void
check_sums (const FlScene *scene, FlFindings *findings)
{
  const FlHouseRule *stand_in = fl_house_rule (scene->book, FL_HOUSE_STAND_IN_RATING), *extra = fl_house_rule (scene->book, FL_HOUSE_EXTRA_AGGREGATE_PCT);

  for (guint i = 0; i < scene->n_loads; i++)
    {
      if (stand_in != NULL)
        say_sum (scene, findings, stand_in, i, 1.0, &stand_in_words);
      if (extra != NULL)
        say_sum (scene, findings, extra, i, fl_house_extra (scene->book), &extra_words);
    }
}

/* ── weight_margin_pct: of the tie-downs ── */

void
fl_step_margin (FlSteps *steps, const FlScene *scene, const FlHouseRule *rule)
{
  for (guint i = 0; i < scene->n_loads; i++)
    fl_step (steps, N_("{load}: weight {weight} ({basis}) and {margin} on top = {heavier}."), FL_FACT_TEXT ("load", scene->loads[i].subject),
             FL_FACT_QUANTITY ("weight", scene->loads[i].machine->weight),
             FL_FACT_TEXT ("basis", fl_basis_of (&scene->loads[i].machine->basis, "weight").text), FL_FACT_QUANTITY ("margin", FL_PCT (rule->pct)),
             FL_FACT_QUANTITY ("heavier", fl_weight (scene, scene->loads[i].weight * (1.0 + rule->pct / 100.0))));
}

guint
fl_say_margin (const FlScene *scene, FlFindings *findings, const FlHouseRule *rule, const FlFindings *found)
{
  FlSteps before = FL_STEPS (findings);
  guint n = 0;

  fl_step_margin (&before, scene, rule);
  for (gsize k = 0; k < fl_findings_count (found); k++)
    {
      const FlFinding *f = fl_findings_at (found, k);

      if (!fl_finding_stands_against (f))
        continue;
      say_again (scene, findings, rule->rule, f,
                    f->verdict == FL_UNKNOWN ? N_("{subject}: with the weight margin of the house this cannot be said, for something is not known.")
                                             : N_("{subject}: with the weight margin of the house this does not hold: need {need}, have {have}."), &before);
      n++;
    }
  return n;
}

static void
check_margin (const FlScene *scene, FlFindings *findings, const FlHouseRule *rule)
{
  FlMachine machines[FL_SCENE_MAX_LOADS];
  g_autofree FlScene *copy = fl_house_heavier (scene, machines, rule);
  g_autoptr(FlFindings) found = fl_findings_new ();
  gboolean heavier = FALSE;
  FlSteps steps = FL_STEPS (findings);

  fl_check_aggregate (copy, found);
  check_sums (copy, found);
  for (guint i = 0; i < scene->n_loads; i++)
    heavier = heavier || copy->loads[i].heavy != scene->loads[i].heavy;
  if (heavier)                  /* over the threshold with the margin: then all that is asked of heavy machines */
    ask_as_heavy (copy, found);
  if (fl_say_margin (scene, findings, rule, found) > 0)
    return;
  fl_step_margin (&steps, scene, rule);
  fl_say (scene, findings, &(FlSaying) {
    .rule = fl_house_rule_name (rule->rule), .standing = FL_BY_HOUSE, .verdict = FL_MET, .subject = "tie-downs", .steps = &steps,
    .message = N_("The tie-downs hold {margin} more weight too, as the house asks."), .facts = { FL_FACT_QUANTITY ("margin", FL_PCT (rule->pct)) } });
}

/* ── implement_lock_suffices ── */

static void
note_lock (const FlScene *scene, FlFindings *findings, guint i, const FlImplement *implement)
{
  const FlMachine *machine = scene->loads[i].machine;
  const FlLock *lock = fl_implement_lock (machine, implement);
  FlSaying saying = saying_of (scene, FL_HOUSE_IMPLEMENT_LOCK_SUFFICES, FL_NOTE, i);

  if (!fl_house_lock_suffices (scene->book, machine, implement))
    return;
  saying.message = N_("The house takes the {lock} for a tie-down on the {implement}. The rule asks that it be secured to the vehicle: an officer may ask for a chain.");
  saying.facts[0] = FL_FACT_TEXT ("lock", fl_name_or_id (lock->name, lock->id));
  saying.facts[1] = FL_FACT_TEXT ("implement", fl_name_or_id (implement->name, implement->id));
  fl_say (scene, findings, &saying);
}

static void
note_locks (const FlScene *scene, FlFindings *findings)
{
  for (guint i = 0; i < scene->n_loads; i++)
    for (gsize k = 0; k < scene->loads[i].machine->n_implements; k++)
      note_lock (scene, findings, i, &scene->loads[i].machine->implements[k]);
}

/* ── all of them ── */

void
fl_check_house_loads (const FlScene *scene, FlFindings *findings)
{
  const FlHouseRule *four = fl_house_rule (scene->book, FL_HOUSE_FOUR_BELOW_THRESHOLD), *by_length = fl_house_rule (scene->book, FL_HOUSE_LENGTH_COUNT_TOO),
                    *margin = fl_house_rule (scene->book, FL_HOUSE_WEIGHT_MARGIN_PCT);

  if (four != NULL)
    check_four_below (scene, findings, four);
  if (by_length != NULL)
    check_length_count (scene, findings, by_length);
  check_sums (scene, findings);
  if (margin != NULL)
    check_margin (scene, findings, margin);
  note_locks (scene, findings);
}
