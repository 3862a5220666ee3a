/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the tie-downs are worth: gear rating (393.104, .108), aggregate (393.106(d)), count (393.130(c), .110), and the house's rules on
 * gear. */
#include "fl-say.h"

#include <math.h>

static const char *
subject_of (const FlRated *gear, FlArena *arena)
{
  return fl_arena_printf (arena, "%s %s", fl_kind_name (gear->kind), gear->id);
}

/* What the rating itself has to say, about this piece. */
static void
say_rating (const FlScene *scene, FlFindings *findings, guint tie, const FlRated *gear, FlStanding standing, FlVerdict verdict)
{
  FlSaying saying = { .rule = "gear_rating", .standing = standing, .verdict = verdict,
                      .subject = subject_of (gear, fl_findings_arena (findings)), .tie = tie + 1, .load = scene->ties[tie].load + 1,
                      .have = gear->rating.in_use ? gear->rating.wll : FL_NOT_MEASURED, .message = gear->rating.message };

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

  if ((tie->assembly.flags & (FL_ASM_OUT_OF_USE | FL_ASM_WLL_UNKNOWN | FL_ASM_NO_GEAR)) != 0 || part == NULL)
    return;
  fl_say (scene, findings, &(FlSaying) {
    .rule = "gear_rating", .standing = FL_BY_LAW, .verdict = FL_MET, .subject = tie->subject, .tie = i + 1, .load = tie->load + 1,
    .have = fl_weight (scene, tie->assembly.wll),
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

typedef struct { double have; guint n; gboolean unknown; double weakest; const FlAssembly *weakest_of; } Aggregate;

static Aggregate
add_up (const FlScene *scene, guint load)
{
  Aggregate a = { .weakest = INFINITY };

  for (guint i = 0; i < scene->n_ties; i++)
    {
      const FlSceneTie *tie = &scene->ties[i];

      if (tie->load != load || !fl_scene_own (tie))
        continue;
      a.n++;
      a.have += fl_tie_counts (tie);
      a.unknown = a.unknown || (tie->assembly.flags & FL_ASM_WLL_UNKNOWN) != 0;
      if (tie->assembly.wll < a.weakest)
        {
          a.weakest = tie->assembly.wll;
          a.weakest_of = &tie->assembly;
        }
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

static void
check_aggregate_of (const FlScene *scene, FlFindings *findings, guint i)
{
  const FlSceneLoad *load = &scene->loads[i];
  Aggregate a = add_up (scene, i);
  double need = fl_book_data (scene->book)->aggregate_share * load->weight;
  FlVerdict verdict = verdict_of_sum (a.have, need, a.unknown);
  const char *part = a.weakest_of != NULL ? fl_assembly_limit_text (a.weakest_of, fl_findings_arena (findings)) : NULL;

  fl_say (scene, findings, &(FlSaying) {
    .rule = "aggregate_wll", .standing = FL_BY_LAW, .verdict = verdict, .subject = load->subject, .load = i + 1,
    .need = fl_weight (scene, need), .have = fl_weight (scene, a.have), .basis = fl_basis_of (&load->machine->basis, "weight").text,
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

static guint
own_count (const FlScene *scene, guint load)
{
  guint n = 0;

  for (guint i = 0; i < scene->n_ties; i++)
    n += scene->ties[i].load == load && fl_scene_own (&scene->ties[i]);
  return n;
}

static void
note_length_count (const FlScene *scene, FlFindings *findings, guint i, guint have, gint by_length)
{
  if ((gint) have >= by_length)
    return;
  fl_say (scene, findings, &(FlSaying) {
    .rule = "tie_down_count", .standing = FL_BY_ADVICE, .verdict = FL_NOTE, .subject = scene->loads[i].subject, .load = i + 1,
    .need = FL_COUNT (by_length), .have = FL_COUNT (have),
    .message = N_("By its length alone {need} tie-downs would be counted; machinery fastened by special methods is exempt, 393.110(d).") });
}

static void
check_count_of (const FlScene *scene, FlFindings *findings, guint i)
{
  const FlBookData *data = fl_book_data (scene->book);
  const FlSceneLoad *load = &scene->loads[i];
  guint have = own_count (scene, i);
  double rated, length = fl_quantity_in (load->machine->length, FL_UNIT_FT);
  gboolean blocked = fl_scene_blocked (scene, i, &rated), unknown = isnan (load->weight) || (!load->heavy && isnan (length));
  gint by_length = isnan (length) ? 0 : fl_book_count (scene->book, length, load->weight, blocked);
  gint need = load->heavy ? data->heavy_count : by_length;

  fl_say (scene, findings, &(FlSaying) {
    .rule = "tie_down_count", .standing = FL_BY_LAW, .subject = load->subject, .load = i + 1,
    .verdict = unknown ? FL_UNKNOWN : (gint) have >= need ? FL_MET : FL_SHORT,
    .need = unknown ? FL_NOT_MEASURED : FL_COUNT (need), .have = FL_COUNT (have),
    .message = unknown ? N_("How many tie-downs are needed is not known, for its length or weight is not; it has {have}.")
               : load->heavy ? N_("A machine of this weight needs at least {need} tie-downs of its own; it has {have}.")
               : need == 1 ? N_("By length and weight at least one tie-down is needed; it has {have}.")
                           : N_("By length and weight at least {need} tie-downs are needed; it has {have}.") });
  if (load->heavy)
    note_length_count (scene, findings, i, have, by_length);
}

void
fl_check_count (const FlScene *scene, FlFindings *findings)
{
  for (guint i = 0; i < scene->n_loads; i++)
    check_count_of (scene, findings, i);
}

/* ── house rules on gear ── */

static void
house_min_wll (const FlScene *scene, FlFindings *findings, const FlHouseRule *rule)
{
  double need = fl_quantity_in (rule->wll, fl_book_data (scene->book)->unit);
  gboolean met = TRUE;

  for (guint i = 0; i < scene->n_ties; i++)
    {
      const FlSceneTie *tie = &scene->ties[i];

      if (!fl_scene_own (tie) || fl_reaches (tie->assembly.wll, need))
        continue;
      met = FALSE;
      fl_say (scene, findings, &(FlSaying) {
        .rule = fl_house_rule_name (rule->rule), .standing = FL_BY_HOUSE, .verdict = isnan (tie->assembly.wll) ? FL_UNKNOWN : FL_SHORT,
        .subject = tie->subject, .tie = i + 1, .load = tie->load + 1, .need = rule->wll, .have = fl_weight (scene, tie->assembly.wll),
        .message = isnan (tie->assembly.wll) ? N_("The house asks for {need} working load limit of each tie-down; what this one has is not known.")
                                             : N_("The house asks for {need} working load limit of each tie-down; this one has {have}.") });
    }
  if (met)
    fl_say (scene, findings, &(FlSaying) {
      .rule = fl_house_rule_name (rule->rule), .standing = FL_BY_HOUSE, .verdict = FL_MET, .subject = "tie-downs", .need = rule->wll,
      .message = N_("Each tie-down has the {need} that the house asks for.") });
}

/* At least the asked size, and at least the asked grade by the table value of the asked size. */
static gboolean
chain_reaches (const FlBook *book, const FlChain *chain, const FlHouseRule *rule)
{
  gint asked = fl_book_grade (book, rule->grade), has;

  if (chain->size_in < rule->size_in && !fl_size_equal (chain->size_in, rule->size_in))
    return FALSE;
  if (asked < 0)
    return TRUE;
  has = chain->mark_seen == FL_IS ? fl_book_grade (book, chain->mark) : (gint) fl_book_data (book)->unmarked_grade;
  return has >= asked;
}

static void
house_min_chain (const FlScene *scene, FlFindings *findings, const FlHouseRule *rule)
{
  FlArena *arena = fl_findings_arena (findings);
  const char *asked = rule->grade != NULL ? fl_arena_printf (arena, "%s in, grade %s", rule->size_text, rule->grade)
                                          : fl_arena_printf (arena, "%s in", rule->size_text);
  gboolean met = TRUE;

  for (guint i = 0; i < scene->n_ties; i++)
    {
      const FlRated *gear = scene->ties[i].parts.chain;

      if (gear == NULL || !fl_scene_own (&scene->ties[i]) || chain_reaches (scene->book, fl_record_chain (gear->record), rule))
        continue;
      met = FALSE;
      fl_say (scene, findings, &(FlSaying) {
        .rule = fl_house_rule_name (rule->rule), .standing = FL_BY_HOUSE, .verdict = FL_SHORT, .subject = subject_of (gear, arena),
        .tie = i + 1, .load = scene->ties[i].load + 1, .message = N_("The house asks for chain of at least {asked}."),
        .facts = { FL_FACT_TEXT ("asked", asked) } });
    }
  if (met)
    fl_say (scene, findings, &(FlSaying) {
      .rule = fl_house_rule_name (rule->rule), .standing = FL_BY_HOUSE, .verdict = FL_MET, .subject = "tie-downs",
      .message = N_("Every chain is at least {asked}, as the house asks."), .facts = { FL_FACT_TEXT ("asked", asked) } });
}

static void
house_no_straps (const FlScene *scene, FlFindings *findings, const FlHouseRule *rule)
{
  gboolean met = TRUE;

  for (guint i = 0; i < scene->n_ties; i++)
    {
      const FlSceneTie *tie = &scene->ties[i];

      if (tie->parts.strap == NULL || scene->loads[tie->load].machine->article)
        continue;
      met = FALSE;
      fl_say (scene, findings, &(FlSaying) {
        .rule = fl_house_rule_name (rule->rule), .standing = FL_BY_HOUSE, .verdict = FL_SHORT, .subject = tie->subject, .tie = i + 1,
        .load = tie->load + 1, .message = N_("The house allows no straps on machines: use chain.") });
    }
  if (met)
    fl_say_met (scene, findings, fl_house_rule_name (rule->rule), FL_BY_HOUSE, "tie-downs", 0,
                N_("No strap on a machine, as the house asks."));
}

static gboolean
rule_allows (const FlBook *book, const FlHouseRule *rule, const FlAssemblyParts *parts, double wll, gboolean own, gboolean article)
{
  switch (rule->rule)
    {
    case FL_HOUSE_MIN_WLL_EACH:
      return !own || fl_reaches (wll, fl_quantity_in (rule->wll, fl_book_data (book)->unit));
    case FL_HOUSE_MIN_CHAIN:
      return !own || parts->chain == NULL || chain_reaches (book, fl_record_chain (parts->chain->record), rule);
    case FL_HOUSE_NO_STRAPS_ON_MACHINES:
      return article || parts->strap == NULL;
    default:
      return TRUE;
    }
}

gboolean
fl_house_allows (const FlBook *book, const FlAssemblyParts *parts, double wll, gboolean own, gboolean article)
{
  const FlPolicy *policy = fl_book_policy (book);

  for (gsize i = 0; i < policy->n_rules; i++)
    if (!rule_allows (book, &policy->rules[i], parts, wll, own, article))
      return FALSE;
  return TRUE;
}

void
fl_check_house_gear (const FlScene *scene, FlFindings *findings)
{
  const FlPolicy *policy = fl_book_policy (scene->book);

  for (gsize i = 0; i < policy->n_rules; i++)
    switch (policy->rules[i].rule)
      {
      case FL_HOUSE_MIN_WLL_EACH:
        house_min_wll (scene, findings, &policy->rules[i]);
        break;
      case FL_HOUSE_MIN_CHAIN:
        house_min_chain (scene, findings, &policy->rules[i]);
        break;
      case FL_HOUSE_NO_STRAPS_ON_MACHINES:
        house_no_straps (scene, findings, &policy->rules[i]);
        break;
      default:                  /* the book has said already that it does not judge the others yet */
        break;
      }
}
