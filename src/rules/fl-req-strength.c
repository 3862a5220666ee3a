/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the tie-downs are worth: gear rating (393.104, .108), aggregate (393.106(d)), count (393.130(c), .110). */
#include "fl-req-house.h"

#include <math.h>

#include "fl-rate-steps.h"

static const char *
subject_of (const FlRated *gear, FlArena *arena)
{
  return fl_arena_printf (arena, "%s %s", fl_kind_name (gear->kind), gear->id);
}

/* ── how a limit comes about ── */

/* A piece of gear: what it bears, and so what it is worth. */
static void
step_piece (FlSteps *steps, const FlRated *gear)
{
  const FlChain *chain;
  const FlRating *rating;

  if (gear == NULL)
    return;
  chain = fl_record_chain (gear->record);
  rating = &gear->rating;
  if (!rating->in_use)
    fl_step (steps, N_("{piece}: out of use, worth nothing."), FL_FACT_TEXT ("piece", subject_of (gear, steps->arena)));
  else if (chain != NULL && rating->grade != NULL && rating->limited_by != NULL)
    fl_step (steps, N_("{piece}: {size}, grade {grade}, limited by its {part_word}: {wll}."),
             FL_FACT_TEXT ("piece", subject_of (gear, steps->arena)), FL_FACT_TEXT ("size", chain->size_text),
             FL_FACT_TEXT ("grade", rating->grade), FL_FACT_TEXT ("part_word", rating->limited_by), FL_FACT_QUANTITY ("wll", rating->wll));
  else
    fl_step (steps, N_("{piece}: limited by its {part_word}: {wll}."), FL_FACT_TEXT ("piece", subject_of (gear, steps->arena)),
             FL_FACT_TEXT ("part_word", rating->limited_by != NULL ? rating->limited_by : "-"), FL_FACT_QUANTITY ("wll", rating->wll));
}

/* An end that somebody may have rated; `rated` is its part where several share it or it is pulled by two legs. */
static void
step_end (FlSteps *steps, const char *what, const char *id, FlQuantity whole, FlQuantity rated)
{
  FlFact name = FL_FACT_TEXT ("end_word", what), of = FL_FACT_TEXT ("id", id), all = FL_FACT_QUANTITY ("whole", whole),
         part = FL_FACT_QUANTITY ("rated", rated);

  if (!fl_quantity_known (whole))
    fl_step (steps, N_("{end_word} {id}: nobody rated it, it sets no limit."), name, of);
  else if (rated.value < whole.value)
    fl_step (steps, N_("{end_word} {id}: rated {whole}; shared, or pulled by two legs: {rated} for this tie-down."), name, of, all, part);
  else
    fl_step (steps, N_("{end_word} {id}: rated {whole}."), name, of, all);
}

static void
step_ends (FlSteps *steps, const FlSceneTie *tie)
{
  if (tie->point != NULL)
    step_end (steps, N_("point"), tie->point->id, tie->point->rated, tie->parts.point->rated);
  for (gsize i = 0; i < tie->n_through; i++)
    if (tie->through_points[i] != NULL)
      {
        FlQuantity rated = tie->through_points[i]->rated;

        rated.value *= 0.5 / MAX (1, tie->parts.through_hang[i]);
        step_end (steps, N_("point"), tie->through_points[i]->id, tie->through_points[i]->rated, rated);
      }
  for (guint i = 0; i < 2; i++)
    if (tie->anchors[i] != NULL)
      step_end (steps, N_("anchor"), tie->anchors[i]->id, tie->anchors[i]->rated, tie->parts.anchors[i]->rated);
}

/* All that a tie-down consists of and is hooked to: the least is its limit. */
static FlSteps
steps_of_worth (const FlScene *scene, FlFindings *findings, const FlSceneTie *tie, const char *part)
{
  FlSteps steps = FL_STEPS (findings);

  step_piece (&steps, tie->parts.chain);
  step_piece (&steps, tie->parts.strap);
  step_piece (&steps, tie->parts.binder);
  for (guint k = 0; k < tie->parts.n_connectors; k++)
    step_piece (&steps, tie->parts.connectors[k]);
  step_ends (&steps, tie);
  fl_step (&steps, N_("The least of these: {part}, {wll}."), FL_FACT_TEXT ("part", part),
           FL_FACT_QUANTITY ("wll", fl_weight (scene, tie->assembly.wll)));
  return steps;
}

/* What the rating itself has to say, about this piece. */
static void
say_rating (const FlScene *scene, FlFindings *findings, guint tie, const FlRated *gear, FlStanding standing, FlVerdict verdict)
{
  FlSaying saying = { .rule = "gear_rating", .standing = standing, .verdict = verdict,
                      .subject = subject_of (gear, fl_findings_arena (findings)), .tie = tie + 1, .load = scene->ties[tie].load + 1,
                      .have = gear->rating.in_use ? gear->rating.wll : FL_NOT_MEASURED, .message = gear->rating.message };
  FlSteps steps = FL_STEPS (findings);
  gsize n;
  const FlMessage *lines = fl_rate_steps (scene->book, gear->record, steps.arena, &n);

  for (gsize i = 0; i < n; i++)
    fl_steps_add (&steps, lines[i].message, lines[i].facts, lines[i].n_facts);
  saying.steps = &steps;
  for (guint i = 0; i < gear->rating.n_facts; i++)
    saying.facts[i] = gear->rating.facts[i];
  fl_say (scene, findings, &saying);
}

static void
check_piece (const FlScene *scene, FlFindings *findings, guint tie, const FlRated *gear)
{
  const FlRating *rating;

  if (gear == NULL)
    return;
  rating = &gear->rating;
  if (!rating->in_use)
    say_rating (scene, findings, tie, gear, FL_BY_PRACTICE, FL_SHORT);
  else if (!fl_quantity_known (rating->wll))
    say_rating (scene, findings, tie, gear, FL_BY_LAW, FL_UNKNOWN);
}

static gboolean
counts_unmarked (const FlRated *gear)
{
  const FlChain *chain = gear != NULL ? fl_record_chain (gear->record) : NULL;

  return chain != NULL && gear->rating.in_use && gear->rating.grade != NULL && chain->mark_seen != FL_IS;
}

static void
say_worth (const FlScene *scene, FlFindings *findings, guint i)
{
  const FlSceneTie *tie = &scene->ties[i];
  const char *part = fl_assembly_limit_text (&tie->assembly, fl_findings_arena (findings));
  FlSteps steps;

  if ((tie->assembly.flags & (FL_ASM_OUT_OF_USE | FL_ASM_WLL_UNKNOWN | FL_ASM_NO_GEAR)) != 0 || part == NULL)
    return;
  steps = steps_of_worth (scene, findings, tie, part);
  fl_say (scene, findings, &(FlSaying) {
    .rule = "gear_rating", .standing = FL_BY_LAW, .verdict = FL_MET, .subject = tie->subject, .tie = i + 1, .load = tie->load + 1,
    .have = fl_weight (scene, tie->assembly.wll), .steps = &steps,
    .message = N_("The weakest part, {part}, sets the working load limit: {have}."), .facts = { FL_FACT_TEXT ("part", part) } });
}

static void
say_assumed (const FlScene *scene, FlFindings *findings)
{
  g_auto(FlNames) names = { NULL, 0 };

  for (guint i = 0; i < scene->n_ties; i++)
    if ((scene->ties[i].assembly.flags & FL_ASM_ASSUMED) != 0)
      {
        g_autofree char *no = g_strdup_printf ("%u", scene->ties[i].choice->no);

        fl_names_add (&names, no);
      }
  if (names.n == 0)
    return;
  fl_say (scene, findings, &(FlSaying) {
    .rule = "gear_rating", .standing = FL_BY_LAW, .verdict = FL_NOTE, .subject = "hooks",
    .message = N_("Hooks whose marking nobody recorded are taken at the limit of their chain: tie-downs {ties}."),
    .facts = { FL_FACT_TEXT ("ties", fl_names_text (&names)) } });
}

void
fl_check_gear_rating (const FlScene *scene, FlFindings *findings)
{
  for (guint i = 0; i < scene->n_ties; i++)
    {
      const FlSceneTie *tie = &scene->ties[i];

      check_piece (scene, findings, i, tie->parts.chain);
      check_piece (scene, findings, i, tie->parts.strap);
      check_piece (scene, findings, i, tie->parts.binder);
      for (guint k = 0; k < tie->parts.n_connectors; k++)
        check_piece (scene, findings, i, tie->parts.connectors[k]);
      if (counts_unmarked (tie->parts.chain))
        say_rating (scene, findings, i, tie->parts.chain, FL_BY_LAW, FL_NOTE);
      say_worth (scene, findings, i);
    }
  say_assumed (scene, findings);
}

/* ── aggregate ── */

FlAggregate
fl_scene_aggregate (const FlScene *scene, guint load)
{
  FlAggregate a = { .need = fl_book_data (scene->book)->aggregate_share * scene->loads[load].weight };

  for (guint i = 0; i < scene->n_ties; i++)
    {
      const FlSceneTie *tie = &scene->ties[i];

      if (tie->load != load || !fl_scene_own (tie))
        continue;
      a.n++;
      a.have += fl_tie_counts (tie);
      a.unknown = a.unknown || (tie->assembly.flags & FL_ASM_WLL_UNKNOWN) != 0;
      if (tie->assembly.wll < (a.weakest != NULL ? a.weakest->wll : INFINITY))
        a.weakest = &tie->assembly;
    }
  return a;
}

static FlVerdict
verdict_of_sum (double have, double need, gboolean unknown)
{
  if (isnan (need))
    return FL_UNKNOWN;
  if (fl_reaches (have, need))
    return FL_MET;
  return unknown ? FL_UNKNOWN : FL_SHORT;
}

/* A share as the book writes it: 0.5. */
static const char *
plain (double value, FlArena *arena)
{
  char buffer[G_ASCII_DTOSTR_BUF_SIZE];

  return fl_arena_text (arena, fl_number_text (value, buffer));
}

static const char *
way_of (const FlScene *scene, const FlSceneTie *tie)
{
  if (!tie->choice->over)
    return N_("direct");
  return tie->share == fl_book_data (scene->book)->share_other_side ? N_("over to the other side") : N_("over, back to the same side");
}

void
fl_step_share (FlSteps *steps, const FlScene *scene, const FlSceneTie *tie, double wll, const char *part)
{
  FlFact no = FL_FACT_QUANTITY ("no", FL_COUNT (tie->choice->no)), how = FL_FACT_TEXT ("how_word", way_of (scene, tie));

  if ((tie->assembly.flags & (FL_ASM_OUT_OF_USE | FL_ASM_NO_GEAR)) != 0)
    fl_step (steps, N_("Tie-down {no}, {how_word}: without gear that may be used it counts nothing."), no, how);
  else if (isnan (wll))
    fl_step (steps, N_("Tie-down {no}, {how_word}: what it is worth is not known; it counts nothing."), no, how);
  else
    fl_step (steps, N_("Tie-down {no}, {how_word}: {share} x {wll} ({part}) = {counts}."), no, how,
             FL_FACT_TEXT ("share", plain (tie->share, steps->arena)), FL_FACT_QUANTITY ("wll", fl_weight (scene, wll)),
             FL_FACT_TEXT ("part", part != NULL ? part : "-"), FL_FACT_QUANTITY ("counts", fl_weight (scene, tie->share * wll)));
}

/* Each tie-down's share, the sum, and what is needed. */
static FlSteps
steps_of_sum (const FlScene *scene, FlFindings *findings, guint i, double have, double need)
{
  const FlSceneLoad *load = &scene->loads[i];
  FlSteps steps = FL_STEPS (findings);

  for (guint k = 0; k < scene->n_ties; k++)
    if (scene->ties[k].load == i && fl_scene_own (&scene->ties[k]))
      fl_step_share (&steps, scene, &scene->ties[k], scene->ties[k].assembly.wll,
                     fl_assembly_limit_text (&scene->ties[k].assembly, steps.arena));
  fl_step (&steps, N_("Their sum: {have}."), FL_FACT_QUANTITY ("have", fl_weight (scene, have)));
  fl_step (&steps, N_("{share} x weight {weight} ({basis}) = {need} needed."),
           FL_FACT_TEXT ("share", plain (fl_book_data (scene->book)->aggregate_share, steps.arena)),
           FL_FACT_QUANTITY ("weight", load->machine->weight), FL_FACT_TEXT ("basis", fl_basis_of (&load->machine->basis, "weight").text),
           FL_FACT_QUANTITY ("need", fl_weight (scene, need)));
  return steps;
}

static void
check_aggregate_of (const FlScene *scene, FlFindings *findings, guint i)
{
  const FlSceneLoad *load = &scene->loads[i];
  FlAggregate a = fl_scene_aggregate (scene, i);
  FlVerdict verdict = verdict_of_sum (a.have, a.need, a.unknown);
  const char *part = a.weakest != NULL ? fl_assembly_limit_text (a.weakest, fl_findings_arena (findings)) : NULL;
  FlSteps steps = steps_of_sum (scene, findings, i, a.have, a.need);

  fl_say (scene, findings, &(FlSaying) {
    .rule = "aggregate_wll", .standing = FL_BY_LAW, .verdict = verdict, .subject = load->subject, .load = i + 1,
    .need = fl_weight (scene, a.need), .have = fl_weight (scene, a.have), .basis = fl_basis_of (&load->machine->basis, "weight").text,
    .steps = &steps,
    .message = verdict == FL_MET ? N_("Weight {weight}, need {need}, have {have}. Own tie-downs: {n}; weakest part: {part}.")
                                 : N_("Weight {weight}, need {need}, have only {have}. Own tie-downs: {n}; weakest part: {part}."),
    .facts = { FL_FACT_QUANTITY ("weight", load->machine->weight), FL_FACT_QUANTITY ("n", FL_COUNT (a.n)),
               FL_FACT_TEXT ("part", part != NULL ? part : "-") } });
}

void
fl_check_aggregate (const FlScene *scene, FlFindings *findings)
{
  for (guint i = 0; i < scene->n_loads; i++)
    check_aggregate_of (scene, findings, i);
}

/* ── count ── */

/* Tie-downs of the load itself; one that has no gear, or gear that is out of use, is none. A chain over the load counts once. */
guint
fl_scene_count (const FlScene *scene, guint load)
{
  const guint none = FL_ASM_NO_GEAR | FL_ASM_OUT_OF_USE;
  guint n = 0;

  for (guint i = 0; i < scene->n_ties; i++)
    n += scene->ties[i].load == load && fl_scene_own (&scene->ties[i]) && (scene->ties[i].assembly.flags & none) == 0;
  return n;
}

static void
step_have (const FlScene *scene, FlSteps *steps, guint load, guint have)
{
  guint held = 0, over = 0, useless = 0;

  for (guint i = 0; i < scene->n_ties; i++)
    {
      const FlSceneTie *tie = &scene->ties[i];

      held += tie->load == load && !fl_scene_own (tie);
      over += tie->load == load && fl_scene_own (tie) && tie->choice->over;
      useless += tie->load == load && fl_scene_own (tie) && (tie->assembly.flags & (FL_ASM_NO_GEAR | FL_ASM_OUT_OF_USE)) != 0;
    }
  fl_step (steps, N_("{have} hold the load itself; {held} for implements are not counted."), FL_FACT_QUANTITY ("have", FL_COUNT (have)),
           FL_FACT_QUANTITY ("held", FL_COUNT (held)));
  if (over > 0)
    fl_step (steps, N_("{over} go over the load, with both ends on the trailer: each counts once."), FL_FACT_QUANTITY ("over", FL_COUNT (over)));
  if (useless > 0)
    fl_step (steps, N_("{useless} without gear that may be used: none of the count."), FL_FACT_QUANTITY ("useless", FL_COUNT (useless)));
}

/* 393.110 in words, with the book's numbers. */
static void
step_by_length (const FlScene *scene, FlSteps *steps, const FlSceneLoad *load, gboolean blocked, FlQuantity need)
{
  const FlBookData *data = fl_book_data (scene->book);
  FlFact length = FL_FACT_QUANTITY ("length", load->machine->length), step = FL_FACT_QUANTITY ("step", ((FlQuantity) { data->count_step, FL_UNIT_FT }));

  if (blocked)
    fl_step (steps, N_("Length {length}, blocked forward: one for each {step} or part of it: {need}."), length, step, FL_FACT_QUANTITY ("need", need));
  else
    fl_step (steps, N_("Length {length}, weight {weight}, not blocked forward: one up to {short} and {light}, else two up to {middle}, and one more for each further {step} or part of it: {need}."),
             length, FL_FACT_QUANTITY ("weight", load->machine->weight),
             FL_FACT_QUANTITY ("short", ((FlQuantity) { data->count_short_length, FL_UNIT_FT })),
             FL_FACT_QUANTITY ("light", fl_weight (scene, data->count_short_weight)),
             FL_FACT_QUANTITY ("middle", ((FlQuantity) { data->count_mid_length, FL_UNIT_FT })), step, FL_FACT_QUANTITY ("need", need));
}

void
fl_step_count (FlSteps *steps, const FlScene *scene, guint load, gboolean blocked, FlQuantity need)
{
  step_by_length (scene, steps, &scene->loads[load], blocked, need);
  step_have (scene, steps, load, fl_scene_count (scene, load));
}

static FlSteps
steps_of_count (const FlScene *scene, FlFindings *findings, guint i, guint have, gboolean blocked, FlQuantity need)
{
  const FlSceneLoad *load = &scene->loads[i];
  FlSteps steps = FL_STEPS (findings);

  if (load->heavy)
    fl_step (&steps, N_("Weight {weight} ({basis}) on wheels or tracks, {threshold} or more: {need}."),
             FL_FACT_QUANTITY ("weight", load->machine->weight), FL_FACT_TEXT ("basis", fl_basis_of (&load->machine->basis, "weight").text),
             FL_FACT_QUANTITY ("threshold", fl_weight (scene, fl_book_data (scene->book)->heavy_weight)), FL_FACT_QUANTITY ("need", need));
  else
    step_by_length (scene, &steps, load, blocked, need);
  step_have (scene, &steps, i, have);
  return steps;
}

static void
note_length_count (const FlScene *scene, FlFindings *findings, guint i, guint have, gint by_length, gboolean blocked)
{
  FlSteps steps = FL_STEPS (findings);

  if ((gint) have >= by_length)
    return;
  step_by_length (scene, &steps, &scene->loads[i], blocked, FL_COUNT (by_length));
  fl_say (scene, findings, &(FlSaying) {
    .rule = "tie_down_count", .standing = FL_BY_ADVICE, .verdict = FL_NOTE, .subject = scene->loads[i].subject, .load = i + 1,
    .need = FL_COUNT (by_length), .have = FL_COUNT (have), .steps = &steps,
    .message = N_("By its length alone {need} tie-downs would be counted; machinery fastened by special methods is exempt, 393.110(d).") });
}

static void
check_count_of (const FlScene *scene, FlFindings *findings, guint i)
{
  const FlBookData *data = fl_book_data (scene->book);
  const FlSceneLoad *load = &scene->loads[i];
  guint have = fl_scene_count (scene, i);
  double rated, length = fl_quantity_in (load->machine->length, FL_UNIT_FT);
  gboolean blocked = fl_scene_blocked (scene, i, &rated), unknown = isnan (load->weight) || (!load->heavy && isnan (length));
  gint by_length = isnan (length) ? 0 : fl_book_count (scene->book, length, load->weight, blocked);
  gint need = load->heavy ? data->heavy_count : by_length;
  FlSteps steps = steps_of_count (scene, findings, i, have, blocked, unknown ? FL_NOT_MEASURED : FL_COUNT (need));

  fl_say (scene, findings, &(FlSaying) {
    .rule = "tie_down_count", .standing = FL_BY_LAW, .subject = load->subject, .load = i + 1,
    .verdict = unknown ? FL_UNKNOWN : (gint) have >= need ? FL_MET : FL_SHORT,
    .need = unknown ? FL_NOT_MEASURED : FL_COUNT (need), .have = FL_COUNT (have), .steps = &steps,
    .message = unknown ? N_("How many tie-downs are needed is not known, for its length or weight is not; it has {have}.")
               : load->heavy ? N_("A machine of this weight needs at least {need} tie-downs of its own; it has {have}.")
               : need == 1 ? N_("By length and weight at least one tie-down is needed; it has {have}.")
                           : N_("By length and weight at least {need} tie-downs are needed; it has {have}.") });
  if (load->heavy)
    note_length_count (scene, findings, i, have, by_length, blocked);
}

void
fl_check_count (const FlScene *scene, FlFindings *findings)
{
  for (guint i = 0; i < scene->n_loads; i++)
    check_count_of (scene, findings, i);
}
