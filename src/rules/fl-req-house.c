/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the house asks of each tie-down: its worth, its chain, no straps, ratchet binders, rub rail, angles, length. One finding for each
 * tie-down that falls short, one for all that are met. */
#include "fl-req-house.h"

#include <math.h>

/* A rule asked of one tie-down: fills in need, have, message, facts (and the subject, where it is a piece of gear) and answers. */
typedef FlVerdict (*AskTie) (const FlScene *scene, const FlHouseRule *rule, const FlSceneTie *tie, FlSaying *saying, FlSteps *steps);

static FlVerdict
pick (FlVerdict verdict, FlSaying *saying, const char *not_met, const char *unknown)
{
  saying->message = verdict == FL_UNKNOWN ? unknown : not_met;
  return verdict;
}

static FlQuantity
count_no (const FlSceneTie *tie)
{
  return FL_COUNT (tie->choice->no);
}

/* ── min_wll_each ── */

FlHouseWorth
fl_scene_house_worth (const FlScene *scene, const FlSceneTie *tie)
{
  const guint hang[3] = { tie->point != NULL ? fl_scene_hang_on_point (scene, tie->load, tie->point) : 0,
                          fl_scene_hang_on_anchor (scene, tie->anchors[0]), fl_scene_hang_on_anchor (scene, tie->anchors[1]) };

  return fl_house_worth (scene->book, &tie->parts, tie->assembly.wll, hang);
}

static FlVerdict
ask_each (const FlScene *scene, const FlHouseRule *rule, const FlSceneTie *tie, FlSaying *saying, FlSteps *steps)
{
  FlHouseWorth worth = fl_scene_house_worth (scene, tie);
  const char *part = fl_assembly_limit_text (&tie->assembly, steps->arena);
  gboolean met = fl_reaches (worth.wll, fl_quantity_in (rule->wll, fl_book_data (scene->book)->unit));

  if (!fl_scene_own (tie))
    return FL_MET;
  if (worth.id != NULL)
    fl_step (steps, N_("Tie-down {no}: nobody rated {part_word} {id}; the house's stand-in makes it {wll}, less than its weakest known part."),
             FL_FACT_QUANTITY ("no", count_no (tie)), FL_FACT_TEXT ("part_word", worth.what), FL_FACT_TEXT ("id", worth.id),
             FL_FACT_QUANTITY ("wll", fl_weight (scene, worth.wll)));
  else
    fl_step (steps, N_("Tie-down {no}: its weakest part, {part}, makes it {wll}."), FL_FACT_QUANTITY ("no", count_no (tie)),
             FL_FACT_TEXT ("part", part != NULL ? part : "-"), FL_FACT_QUANTITY ("wll", fl_weight (scene, worth.wll)));
  saying->need = rule->wll;
  saying->have = fl_weight (scene, worth.wll);
  return pick (met ? FL_MET : isnan (worth.wll) ? FL_UNKNOWN : FL_SHORT, saying,
               N_("The house asks for {need} working load limit of each tie-down; this one has {have}."),
               N_("The house asks for {need} working load limit of each tie-down; what this one has is not known."));
}

/* ── chain, strap, binder ── */

static const char *
asked_chain (const FlHouseRule *rule, FlArena *arena)
{
  return rule->grade != NULL ? fl_arena_printf (arena, "%s in, grade %s", rule->size_text, rule->grade) : fl_arena_printf (arena, "%s in", rule->size_text);
}

static FlVerdict
ask_chain (const FlScene *scene, const FlHouseRule *rule, const FlSceneTie *tie, FlSaying *saying, FlSteps *steps)
{
  const FlRated *gear = tie->parts.chain;
  const FlChain *chain = gear != NULL ? fl_record_chain (gear->record) : NULL;
  const char *mark = chain == NULL ? NULL : chain->mark_seen == FL_IS ? chain->mark : chain->mark_seen == FL_IS_NOT ? N_("unmarked") : N_("not looked at");

  if (chain == NULL || !fl_scene_own (tie))
    return FL_MET;
  fl_step (steps, N_("Chain {id}: size {size}, mark {mark_word}; by the table {wll}."), FL_FACT_TEXT ("id", gear->id),
           FL_FACT_TEXT ("size", chain->size_text), FL_FACT_TEXT ("mark_word", mark),
           FL_FACT_QUANTITY ("wll", fl_weight (scene, fl_book_chain_wll (scene->book, chain->size_in, chain->mark_seen == FL_IS
                                                                         ? fl_book_grade (scene->book, chain->mark)
                                                                         : (gint) fl_book_data (scene->book)->unmarked_grade))));
  saying->subject = fl_arena_printf (steps->arena, "chain %s", gear->id);
  saying->facts[0] = FL_FACT_TEXT ("asked", asked_chain (rule, steps->arena));
  return pick (fl_house_chain (scene->book, rule, chain), saying, N_("The house asks for chain of at least {asked}."),
               N_("The house asks for chain of at least {asked}; nobody has looked for the mark of this one."));
}

static FlVerdict
ask_strap (const FlScene *scene, const FlHouseRule *rule G_GNUC_UNUSED, const FlSceneTie *tie, FlSaying *saying, FlSteps *steps G_GNUC_UNUSED)
{
  return pick (fl_house_strap (&tie->parts, scene->loads[tie->load].machine->article), saying,
               N_("The house allows no straps on machines: use chain."), NULL);
}

static FlVerdict
ask_binder (const FlScene *scene G_GNUC_UNUSED, const FlHouseRule *rule G_GNUC_UNUSED, const FlSceneTie *tie, FlSaying *saying, FlSteps *steps)
{
  if (tie->parts.binder != NULL)
    saying->subject = fl_arena_printf (steps->arena, "binder %s", tie->parts.binder->id);
  return pick (fl_house_binder (&tie->parts), saying, N_("The house allows ratchet binders only; this is a lever binder."),
               N_("The house allows ratchet binders only; nobody recorded of what kind this one is."));
}

/* ── rub rail, angles, length ── */

static void
step_rail (const FlScene *scene, const FlSceneTie *tie, FlSteps *steps)
{
  for (guint i = 0; i < 2; i++)
    if (tie->anchors[i] != NULL)
      fl_step (steps, N_("Tie-down {no}: anchor {id} ({fitting}) is {out} off the centerline, the edge of the deck {edge}."),
               FL_FACT_QUANTITY ("no", count_no (tie)), FL_FACT_TEXT ("id", tie->anchors[i]->id),
               FL_FACT_TEXT ("fitting", tie->anchors[i]->fitting != NULL ? tie->anchors[i]->fitting : "-"),
               FL_FACT_QUANTITY ("out", fl_inches (fabs (fl_anchor_place (tie->anchors[i]).y))),
               FL_FACT_QUANTITY ("edge", fl_inches (scene->ground.half_width)));
}

static FlVerdict
ask_rail (const FlScene *scene, const FlHouseRule *rule G_GNUC_UNUSED, const FlSceneTie *tie, FlSaying *saying, FlSteps *steps)
{
  step_rail (scene, tie, steps);
  return pick (fl_house_inboard (&scene->ground, &tie->lay, tie->anchors), saying,
               N_("The house wants tie-downs inside the rub rail; this one goes to the rail, past it or over the deck's side: take an anchor further in."),
               N_("The house wants tie-downs inside the rub rail; the deck's width or this anchor's place is not on record."));
}

static FlVerdict
ask_band (const FlScene *scene G_GNUC_UNUSED, const FlHouseRule *rule, const FlSceneTie *tie, FlSaying *saying, FlSteps *steps)
{
  double deck;
  FlVerdict verdict = fl_house_band (rule, &tie->lay, &deck);

  fl_step (steps, N_("Tie-down {no}: {deck} to the deck, {lo} to {hi} asked."), FL_FACT_QUANTITY ("no", count_no (tie)),
           FL_FACT_QUANTITY ("deck", isnan (deck) ? FL_NOT_MEASURED : FL_DEG (deck)), FL_FACT_QUANTITY ("lo", FL_DEG (rule->lo_deg)),
           FL_FACT_QUANTITY ("hi", FL_DEG (rule->hi_deg)));
  saying->need = FL_DEG (deck > rule->hi_deg ? rule->hi_deg : rule->lo_deg);
  saying->have = isnan (deck) ? FL_NOT_MEASURED : FL_DEG (deck);
  saying->facts[0] = FL_FACT_QUANTITY ("lo", FL_DEG (rule->lo_deg));
  saying->facts[1] = FL_FACT_QUANTITY ("hi", FL_DEG (rule->hi_deg));
  return pick (verdict, saying, N_("The house wants {lo} to {hi} between tie-down and deck; here are {have}."),
               N_("The house wants {lo} to {hi} between tie-down and deck; how this one runs is not known."));
}

static FlVerdict
ask_length (const FlScene *scene, const FlHouseRule *rule, const FlSceneTie *tie, FlSaying *saying, FlSteps *steps)
{
  const FlAssembly *a = &tie->assembly;
  double allowance = fl_quantity_in (rule->length, FL_UNIT_IN);

  (void) scene;
  if (tie->parts.chain == NULL)
    return FL_MET;
  saying->need = isnan (a->needs_in) ? FL_NOT_MEASURED : FL_IN (a->needs_in);
  saying->have = isnan (a->have_in) ? FL_NOT_MEASURED : FL_IN (a->have_in);
  fl_step (steps, N_("Tie-down {no}: the run takes {bare}, with {allowance} more {needs}; the chain has {have}."),
           FL_FACT_QUANTITY ("no", count_no (tie)), FL_FACT_QUANTITY ("bare", isnan (a->needs_in) ? FL_NOT_MEASURED : FL_IN (a->needs_in - allowance)),
           FL_FACT_QUANTITY ("allowance", rule->length), FL_FACT_QUANTITY ("needs", saying->need), FL_FACT_QUANTITY ("have", saying->have));
  saying->facts[0] = FL_FACT_QUANTITY ("allowance", rule->length);
  return pick (fl_house_length (&tie->parts, a), saying,
               N_("With the {allowance} more that the house wants in every chain it takes {need}; it has {have}. Take a longer one."),
               N_("The house wants {allowance} more in every chain than the run takes; the run or the chain's length is not known."));
}

/* ── all of them ── */

static const struct { FlHouseRuleId rule; AskTie ask; const char *met; } rules[] = {
  { FL_HOUSE_MIN_WLL_EACH, ask_each, N_("Each tie-down has the {need} that the house asks for.") },
  { FL_HOUSE_MIN_CHAIN, ask_chain, N_("Every chain is at least {asked}, as the house asks.") },
  { FL_HOUSE_NO_STRAPS_ON_MACHINES, ask_strap, N_("No strap on a machine, as the house asks.") },
  { FL_HOUSE_RATCHET_ONLY, ask_binder, N_("All binders are ratchet binders, as the house asks.") },
  { FL_HOUSE_INBOARD_OF_RUB_RAIL, ask_rail, N_("All tie-downs stay inside the rub rail, as the house asks.") },
  { FL_HOUSE_DECK_ANGLE_BAND, ask_band, N_("All tie-downs lie {lo} to {hi} to the deck, as the house asks.") },
  { FL_HOUSE_CHAIN_ALLOWANCE, ask_length, N_("Every chain is long enough with the {allowance} that the house wants over.") },
};

static void
say_all_met (const FlScene *scene, FlFindings *findings, const FlHouseRule *rule, const char *message, const FlSteps *steps)
{
  FlSaying saying = { .rule = fl_house_rule_name (rule->rule), .standing = FL_BY_HOUSE, .verdict = FL_MET, .subject = "tie-downs",
                      .message = message, .steps = steps };

  switch (rule->rule)
    {
    case FL_HOUSE_MIN_WLL_EACH:
      saying.need = rule->wll;
      break;
    case FL_HOUSE_MIN_CHAIN:
      saying.facts[0] = FL_FACT_TEXT ("asked", asked_chain (rule, fl_findings_arena (findings)));
      break;
    case FL_HOUSE_DECK_ANGLE_BAND:
      saying.facts[0] = FL_FACT_QUANTITY ("lo", FL_DEG (rule->lo_deg));
      saying.facts[1] = FL_FACT_QUANTITY ("hi", FL_DEG (rule->hi_deg));
      break;
    case FL_HOUSE_CHAIN_ALLOWANCE:
      saying.facts[0] = FL_FACT_QUANTITY ("allowance", rule->length);
      break;
    default:
      break;
    }
  fl_say (scene, findings, &saying);
}

static void
check_rule (const FlScene *scene, FlFindings *findings, const FlHouseRule *rule, AskTie ask, const char *met)
{
  FlSteps all = FL_STEPS (findings);
  gboolean all_met = TRUE;

  for (guint i = 0; i < scene->n_ties; i++)
    {
      const FlSceneTie *tie = &scene->ties[i];
      FlSteps steps = FL_STEPS (findings);
      FlSaying saying = { .rule = fl_house_rule_name (rule->rule), .standing = FL_BY_HOUSE, .subject = tie->subject, .tie = i + 1,
                          .load = tie->load + 1, .steps = &steps };

      saying.verdict = ask (scene, rule, tie, &saying, &steps);
      for (gsize k = 0; k < steps.n; k++)
        fl_steps_add (&all, steps.lines[k].message, steps.lines[k].facts, steps.lines[k].n_facts);
      if (saying.verdict == FL_MET)
        continue;
      all_met = FALSE;
      fl_say (scene, findings, &saying);
    }
  if (all_met)
    say_all_met (scene, findings, rule, met, &all);
}

void
fl_check_house_gear (const FlScene *scene, FlFindings *findings)
{
  for (gsize i = 0; i < G_N_ELEMENTS (rules); i++)
    {
      const FlHouseRule *rule = fl_house_rule (scene->book, rules[i].rule);

      if (rule != NULL)
        check_rule (scene, findings, rule, rules[i].ask, rules[i].met);
    }
}
