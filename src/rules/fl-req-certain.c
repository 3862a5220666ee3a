/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How certain the answer is: would the plan still stand if the load weighed what it well may (weight_margin), and if it were set down a few
 * inches off its place (placement)? Every requirement is asked again of a scene that differs by that much. Looked at when at rest only. */
#include <math.h>
#include <string.h>

#include "fl-say.h"

/* What else would stand against the plan: the findings that the plan as it is does not have. nominal: what the requirements before these two
 * have found of it; all: of its variations; new_ones: FlFinding of `all`. */
typedef struct { FlFindings *nominal, *all; GPtrArray *new_ones; } Flips;

static Flips
flips_new (FlFindings *nominal)
{
  return (Flips) { nominal, fl_findings_new_brief (), g_ptr_array_new () };
}

static gboolean
same (const FlFinding *a, const FlFinding *b)
{
  return strcmp (a->rule, b->rule) == 0 && g_strcmp0 (a->subject, b->subject) == 0;
}

static gboolean
among (const FlFinding *finding, FlFindings *findings)
{
  for (gsize i = 0; i < fl_findings_count (findings); i++)
    if (fl_finding_stands_against (fl_findings_at (findings, i)) && same (fl_findings_at (findings, i), finding))
      return TRUE;
  return FALSE;
}

static gboolean
noted (const Flips *flips, const FlFinding *finding)
{
  for (guint i = 0; i < flips->new_ones->len; i++)
    if (same (g_ptr_array_index (flips->new_ones, i), finding))
      return TRUE;
  return FALSE;
}

static void
gather (Flips *flips, const FlScene *varied)
{
  gsize n, from = fl_findings_count (flips->all);
  const FlRequirement *requirements = fl_requirements (&n);

  for (gsize i = 0; i < n; i++)
    requirements[i].check (varied, flips->all);
  for (gsize i = from; i < fl_findings_count (flips->all); i++)
    {
      const FlFinding *finding = fl_findings_at (flips->all, i);

      if (fl_finding_stands_against (finding) && !among (finding, flips->nominal) && !noted (flips, finding))
        g_ptr_array_add (flips->new_ones, (gpointer) finding);
    }
}

static void
flips_clear (Flips *flips)
{
  g_ptr_array_unref (flips->new_ones);
  fl_findings_free (flips->all);
}

/* The sentence of what would fail, with all that its holes ask for. */
static void
step_flip (FlSteps *steps, const FlFinding *finding)
{
  FlFact facts[FL_SAY_MAX_FACTS + 4];
  gsize n = 0;

  for (gsize i = 0; i < finding->n_facts && n < FL_SAY_MAX_FACTS; i++)
    facts[n++] = finding->facts[i];
  facts[n++] = FL_FACT_QUANTITY ("need", finding->need);
  facts[n++] = FL_FACT_QUANTITY ("have", finding->have);
  facts[n++] = FL_FACT_TEXT ("subject", finding->subject != NULL ? finding->subject : "-");
  facts[n++] = FL_FACT_TEXT ("basis", finding->basis != NULL ? finding->basis : "-");
  fl_step (steps, "{subject}:", FL_FACT_TEXT ("subject", finding->subject != NULL ? finding->subject : "-"));
  fl_steps_add (steps, finding->message, facts, n);
}

/* Of those that speak of this load, or of the vehicle as a whole (ALL_LOADS: of any): their subjects, and their sentences as steps. */
#define ALL_LOADS G_MAXUINT
static guint
list_flips (const Flips *flips, guint load, FlNames *names, FlSteps *steps)
{
  guint n = 0;

  for (guint i = 0; i < flips->new_ones->len; i++)
    {
      const FlFinding *finding = g_ptr_array_index (flips->new_ones, i);

      if (load != ALL_LOADS && finding->load >= 0 && (guint) finding->load != load)
        continue;
      n++;
      fl_names_add (names, finding->subject != NULL ? finding->subject : finding->rule);
      step_flip (steps, finding);
    }
  return n;
}

/* ── weight ── */

static double
margin_of (const FlScene *scene, guint load)
{
  return fl_book_data (scene->book)->margin_pct[fl_basis_of (&scene->loads[load].machine->basis, "weight").kind];
}

static void
say_margin (const FlScene *scene, FlFindings *findings, const Flips *flips, guint i)
{
  const FlSceneLoad *load = &scene->loads[i];
  g_auto(FlNames) names = { NULL, 0 };
  FlSteps steps = FL_STEPS (findings);
  FlBasis basis = fl_basis_of (&load->machine->basis, "weight");
  double pct = margin_of (scene, i);
  guint n;

  fl_step (&steps, N_("Weight {weight} known from: {basis}; a margin of {margin} is asked: {heavier}."),
           FL_FACT_QUANTITY ("weight", load->machine->weight), FL_FACT_TEXT ("basis", basis.text), FL_FACT_QUANTITY ("margin", FL_PCT (pct)),
           FL_FACT_QUANTITY ("heavier", fl_weight (scene, load->weight * (1.0 + pct / 100.0))));
  n = pct > 0.0 ? list_flips (flips, i, &names, &steps) : 0;    /* what fails then is another load's weight */
  fl_say (scene, findings, &(FlSaying) {
    .rule = "weight_margin", .standing = FL_BY_ADVICE, .verdict = n > 0 ? FL_CAUTION : FL_MET, .subject = load->subject, .load = i + 1,
    .basis = basis.text, .steps = &steps,
    .message = n > 0 ? N_("Its weight may well be {margin} more than is known; then something would fail at: {subjects}. Weigh it with its tool and mud.")
               : pct > 0.0 ? N_("The plan would hold if it weighed {margin} more.") : N_("Its weight comes from a scale; no margin is asked for."),
    .facts = { FL_FACT_QUANTITY ("margin", FL_PCT (pct)), FL_FACT_TEXT ("subjects", fl_names_text (&names)) } });
}

/* All loads as heavy as they well may be, at once: that is the worst for the axles. */
void
fl_check_weight_margin (const FlScene *scene, FlFindings *findings)
{
  g_autofree FlScene *heavier = NULL;
  FlMachine machines[FL_SCENE_MAX_LOADS];
  double factors[FL_SCENE_MAX_LOADS];
  Flips flips;

  if (scene->depth != FL_JUDGE_SETTLED)
    return;
  for (guint i = 0; i < scene->n_loads; i++)
    factors[i] = 1.0 + margin_of (scene, i) / 100.0;
  heavier = fl_scene_variation (scene);
  fl_scene_make_heavier (heavier, machines, factors);
  flips = flips_new (findings);
  gather (&flips, heavier);
  for (guint i = 0; i < scene->n_loads; i++)
    if (scene->loads[i].weight > 0.0)
      say_margin (scene, findings, &flips, i);
  flips_clear (&flips);
}

/* ── place ── */

/* One load off its place by so much, m. Against a stop it is driven until it touches: then it is only ever off sideways. */
static void
set_down_off (Flips *flips, const FlScene *scene, guint load, double lengthwise, double sideways)
{
  g_autofree FlScene *off = fl_scene_variation (scene);

  off->loads[load].left += sideways;
  fl_scene_place (off, load, off->loads[load].facing, off->loads[load].rear + lengthwise);
  gather (flips, off);
}

static void
check_placement_of (const FlScene *scene, FlFindings *findings, guint i)
{
  const FlBookData *data = fl_book_data (scene->book);
  g_auto(FlNames) names = { NULL, 0 };
  Flips flips = flips_new (findings);
  double rated, along = fl_scene_blocked (scene, i, &rated) ? 0.0 : data->off_lengthwise * FL_M_PER_IN;
  FlSteps steps = FL_STEPS (findings);
  guint n;

  for (gint x = along > 0.0 ? -1 : 0; x <= (along > 0.0 ? 1 : 0); x++)
    for (gint y = -1; y <= 1; y++)
      if (x != 0 || y != 0)
        set_down_off (&flips, scene, i, x * along, y * data->off_sideways * FL_M_PER_IN);
  fl_step (&steps, N_("Set down up to {lengthwise} forward or rearward and {sideways} to either side, each requirement is asked again."),
           FL_FACT_QUANTITY ("lengthwise", fl_inches (along)), FL_FACT_QUANTITY ("sideways", FL_IN (data->off_sideways)));
  n = list_flips (&flips, ALL_LOADS, &names, &steps);   /* off its place it may be in another's way */
  fl_say (scene, findings, &(FlSaying) {
    .rule = "placement", .standing = FL_BY_ADVICE, .verdict = n > 0 ? FL_CAUTION : FL_MET, .subject = scene->loads[i].subject, .load = i + 1,
    .steps = &steps,
    .message = n > 0 ? N_("Set down up to {lengthwise} lengthwise or {sideways} sideways off its place, something would fail at: {subjects}. Mark the place on the deck, and measure before tying down.")
                     : N_("It may be set down {lengthwise} lengthwise and {sideways} sideways off its place."),
    .facts = { FL_FACT_QUANTITY ("lengthwise", fl_inches (along)), FL_FACT_QUANTITY ("sideways", FL_IN (data->off_sideways)),
               FL_FACT_TEXT ("subjects", fl_names_text (&names)) } });
  flips_clear (&flips);
}

void
fl_check_placement (const FlScene *scene, FlFindings *findings)
{
  for (guint i = 0; scene->depth == FL_JUDGE_SETTLED && i < scene->n_loads; i++)
    if (scene->loads[i].stand.placed)
      check_placement_of (scene, findings, i);
}
