/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether the tie-downs work at all: cannot loosen and can be tightened (393.104(f), .112), edges protected, hooks, lengths and runs fit
 * (common practice), angles, chains that touch, points and anchors that take so many, gear that is on hand and used once. */
#include "fl-say.h"

#include <math.h>
#include <string.h>

#include "fl-run.h"

typedef struct { guint flag; FlVerdict verdict; const char *message; } Remark;

static FlChainNeeds
needs_of (const FlScene *scene, const FlSceneTie *tie)
{
  const FlBinder *binder = tie->parts.binder != NULL ? fl_record_binder (tie->parts.binder->record) : NULL;
  const FlEnd *ends = tie->parts.chain != NULL ? fl_record_chain (tie->parts.chain->record)->ends : NULL;

  return fl_chain_needs_of (scene->book, tie->parts.run_in, ends, binder);
}

/* What of a chain or strap a run takes, to be added up by hand. */
static void
step_length (const FlScene *scene, FlSteps *steps, const FlSceneTie *tie)
{
  const FlRated *gear = tie->parts.chain != NULL ? tie->parts.chain : tie->parts.strap;
  FlChainNeeds needs = needs_of (scene, tie);

  if (gear == NULL || isnan (needs.total))
    return;
  fl_step (steps, N_("Tie-down {no}: run {run} + hooking back {hooks} + take-up {take_up} + tail {tail} + the house's allowance {allowance} = {needs}; it has {length}."),
           FL_FACT_QUANTITY ("no", FL_COUNT (tie->choice->no)), FL_FACT_QUANTITY ("run", FL_IN (needs.run)),
           FL_FACT_QUANTITY ("hooks", FL_IN (needs.hooks)), FL_FACT_QUANTITY ("take_up", FL_IN (needs.take_up)),
           FL_FACT_QUANTITY ("tail", FL_IN (needs.tail)), FL_FACT_QUANTITY ("allowance", FL_IN (needs.allowance)),
           FL_FACT_QUANTITY ("needs", FL_IN (needs.total)),
           FL_FACT_QUANTITY ("length", isnan (tie->assembly.have_in) ? FL_NOT_MEASURED : FL_IN (tie->assembly.have_in)));
}

/* A run from end to end, to be measured after. */
static void
step_run (FlSteps *steps, const FlSceneTie *tie)
{
  gsize end = tie->choice->over ? 1 : 0;
  FlVec along;

  if (tie->lay.n_path < 2 || isnan (tie->lay.deck))
    return;
  along = fl_vec_sub (tie->lay.path[end == 1 ? 0 : 1], tie->lay.path[end]);
  fl_step (steps, N_("Tie-down {no}: from its point {along} along, {across} across, {down} down: deck angle {deck} (arc sine of down over length), plan angle {plan}; whole run {run}."),
           FL_FACT_QUANTITY ("no", FL_COUNT (tie->choice->no)), FL_FACT_QUANTITY ("along", fl_inches (fabs (along.x))),
           FL_FACT_QUANTITY ("across", fl_inches (fabs (along.y))), FL_FACT_QUANTITY ("down", fl_inches (-along.z)),
           FL_FACT_QUANTITY ("deck", FL_DEG (tie->lay.deck)), FL_FACT_QUANTITY ("plan", FL_DEG (tie->lay.plan)),
           FL_FACT_QUANTITY ("run", fl_inches (tie->lay.run)));
}

/* Its lengths and its run, for whoever wants to check them. */
static FlSteps
steps_of (const FlScene *scene, FlFindings *findings, const FlSceneTie *tie)
{
  FlSteps steps = FL_STEPS (findings);

  step_run (&steps, tie);
  step_length (scene, &steps, tie);
  return steps;
}

static void
say_tie (const FlScene *scene, FlFindings *findings, guint i, const char *rule, FlStanding standing, FlVerdict verdict, const char *message,
         FlQuantity need, FlQuantity have, const char *word)
{
  const FlSceneTie *tie = &scene->ties[i];
  gboolean of_run = strcmp (rule, "fit") == 0 || strstr (rule, "_angle") != NULL || strcmp (rule, "pull_window") == 0;
  FlSteps steps = of_run ? steps_of (scene, findings, tie) : FL_STEPS (findings);

  fl_say (scene, findings, &(FlSaying) {
    .rule = rule, .standing = standing, .verdict = verdict, .subject = tie->subject, .tie = i + 1, .load = tie->load + 1, .need = need,
    .have = have, .message = message, .steps = &steps, .facts = { FL_FACT_TEXT ("name", word != NULL ? word : "-") } });
}

/* ── tightened, edges ── */

void
fl_check_cannot_loosen (const FlScene *scene, FlFindings *findings)
{
  guint bad = 0;

  for (guint i = 0; i < scene->n_ties; i++)
    {
      guint flags = scene->ties[i].assembly.flags;

      if ((flags & FL_ASM_NO_GEAR) != 0)
        say_tie (scene, findings, i, "cannot_loosen", FL_BY_LAW, FL_SHORT, N_("Choose one chain or one strap for it."), FL_NOT_MEASURED,
                 FL_NOT_MEASURED, NULL);
      else if ((flags & FL_ASM_NO_TENSIONER) != 0)
        say_tie (scene, findings, i, "cannot_loosen", FL_BY_LAW, FL_SHORT,
                 N_("It has no binder or tensioner: the driver must be able to tighten it on the road."), FL_NOT_MEASURED, FL_NOT_MEASURED, NULL);
      else
        continue;
      bad++;
    }
  if (bad == 0 && scene->n_ties > 0)
    fl_say_met (scene, findings, "cannot_loosen", FL_BY_LAW, "tie-downs", 0,
                N_("Each tie-down has a binder or tensioner; tie the handles and wrap the loose chain."));
}

void
fl_check_edges (const FlScene *scene, FlFindings *findings)
{
  for (guint i = 0; i < scene->n_ties; i++)
    {
      const FlSceneTie *tie = &scene->ties[i];

      if ((tie->lay.flags & FL_LAY_EDGE) == 0)
        continue;
      if (tie->choice->edge_protected)
        say_tie (scene, findings, i, "edge_protection", FL_BY_PRACTICE, FL_CAUTION,
                 N_("It bears on an edge: put the edge protector there and look that it stays."), FL_NOT_MEASURED, FL_NOT_MEASURED, NULL);
      else
        say_tie (scene, findings, i, "edge_protection", FL_BY_LAW, FL_SHORT,
                 N_("It bears on an edge and nothing protects it: use an edge protector, or another anchor."), FL_NOT_MEASURED,
                 FL_NOT_MEASURED, NULL);
    }
}

/* ── fit ── */

static const Remark run_remarks[] = {
  { FL_LAY_NOT_DOWN, FL_SHORT, N_("It does not pull the load down: take an anchor below the point.") },
  { FL_LAY_SOLID, FL_SHORT, N_("Its straight run goes through the machine ({name}): take another anchor or point.") },
  { FL_LAY_KEEP_CLEAR, FL_SHORT, N_("It would lie on what must be kept clear ({name}): take another anchor or point.") },
  { FL_LAY_TRAILER_SOLID, FL_SHORT, N_("Its straight run goes through a part of the trailer ({name}): take another anchor.") },
  { FL_LAY_HINGE, FL_SHORT, N_("It crosses the hinge of the tilting deck: take an anchor on the same part of the deck.") },
  { FL_LAY_BLOCKED, FL_SHORT, N_("The deck is in its way: take another anchor.") },
};

static const Remark part_remarks[] = {
  { FL_ASM_HOOK_POINT, FL_SHORT, N_("The hook does not go into the point on the machine: use a shackle, or chain with a smaller hook.") },
  { FL_ASM_HOOK_ANCHOR, FL_SHORT, N_("The hook does not go into the anchor: use a shackle, or chain with a smaller hook.") },
  { FL_ASM_BINDER_SIZE, FL_SHORT, N_("The binder is not made for this size of chain: take one that is.") },
};

static void
check_lengths (const FlScene *scene, FlFindings *findings, guint i)
{
  const FlAssembly *a = &scene->ties[i].assembly;
  FlChainNeeds needs = needs_of (scene, &scene->ties[i]);
  FlQuantity trade = FL_IN (needs.total - needs.allowance);     /* the house's allowance is the house's finding */

  if ((a->flags & FL_ASM_TOO_SHORT) != 0)
    say_tie (scene, findings, i, "fit", FL_BY_PRACTICE, FL_SHORT,
             N_("Too short: the run, hooking back, take-up and tail need {need}, it has {have}. Take a longer one."), trade,
             FL_IN (a->have_in), NULL);
  if ((a->flags & FL_ASM_RUN_SHORT) != 0)
    say_tie (scene, findings, i, "fit", FL_BY_PRACTICE, FL_SHORT,
             N_("The binder needs a run of {need}, here are {have}: take a farther anchor or a shorter binder."), FL_IN (a->binder_run_in),
             FL_IN (scene->ties[i].parts.run_in), NULL);
  if ((a->flags & FL_ASM_LENGTH_UNKNOWN) != 0)
    say_tie (scene, findings, i, "fit", FL_BY_PRACTICE, FL_UNKNOWN, N_("Its length is not recorded; {need} are needed."), trade,
             FL_NOT_MEASURED, NULL);
}

static void
check_fit_of (const FlScene *scene, FlFindings *findings, guint i)
{
  const FlSceneTie *tie = &scene->ties[i];

  if ((tie->lay.flags & FL_LAY_NOT_KNOWN) != 0)
    say_tie (scene, findings, i, "fit", FL_BY_PRACTICE, FL_UNKNOWN,
             N_("Its run is not known: the load has no place yet, or the point or anchor was not measured."), FL_NOT_MEASURED, FL_NOT_MEASURED,
             NULL);
  for (guint k = 0; k < G_N_ELEMENTS (run_remarks); k++)
    if ((tie->lay.flags & run_remarks[k].flag) != 0)
      say_tie (scene, findings, i, "fit", FL_BY_PRACTICE, run_remarks[k].verdict, run_remarks[k].message, FL_NOT_MEASURED, FL_NOT_MEASURED,
               tie->lay.hit);
  for (guint k = 0; k < G_N_ELEMENTS (part_remarks); k++)
    if ((tie->assembly.flags & part_remarks[k].flag) != 0)
      say_tie (scene, findings, i, "fit", FL_BY_PRACTICE, part_remarks[k].verdict, part_remarks[k].message, FL_NOT_MEASURED, FL_NOT_MEASURED,
               NULL);
  check_lengths (scene, findings, i);
}

void
fl_check_fit (const FlScene *scene, FlFindings *findings)
{
  gsize before = fl_findings_count (findings);
  FlSteps steps = FL_STEPS (findings);

  for (guint i = 0; i < scene->n_ties; i++)
    {
      check_fit_of (scene, findings, i);
      step_length (scene, &steps, &scene->ties[i]);
    }
  if (fl_findings_count (findings) == before && scene->n_ties > 0)
    fl_say (scene, findings, &(FlSaying) {
      .rule = "fit", .standing = FL_BY_PRACTICE, .verdict = FL_MET, .subject = "tie-downs", .steps = &steps,
      .message = N_("As far as measured, hooks go in, binders suit the chains, chains are long enough and runs are clear.") });
}

/* ── angles ── */

static void
check_angles_of (const FlScene *scene, FlFindings *findings, guint i)
{
  const FlBookData *data = fl_book_data (scene->book);
  const FlLay *lay = &scene->ties[i].lay;

  if ((lay->flags & FL_LAY_DECK_ANGLE) != 0)
    say_tie (scene, findings, i, "deck_angle", FL_BY_PRACTICE, FL_CAUTION,
             lay->deck < data->deck_lo ? N_("Very flat to the deck: {have}, at least {need} is better. It holds down little.")
                                       : N_("Very steep to the deck: {have}, at most {need} is better. It holds little along and across."),
             FL_DEG (lay->deck < data->deck_lo ? data->deck_lo : data->deck_hi), FL_DEG (lay->deck), NULL);
  if ((lay->flags & FL_LAY_PLAN_ANGLE) != 0)
    say_tie (scene, findings, i, "plan_angle", FL_BY_PRACTICE, FL_CAUTION,
             N_("Seen from above it runs nearly straight along ({have}): it holds little sideways."), FL_DEG (data->plan_min), FL_DEG (lay->plan),
             NULL);
  if ((lay->flags & FL_LAY_WINDOW) != 0)
    say_tie (scene, findings, i, "pull_window", FL_BY_PRACTICE, FL_CAUTION,
             N_("Outside the direction or run that the maker gives for this point."), FL_NOT_MEASURED, FL_DEG (lay->deck), NULL);
}

void
fl_check_angles (const FlScene *scene, FlFindings *findings)
{
  const FlBookData *data = fl_book_data (scene->book);
  gsize before = fl_findings_count (findings);
  FlSteps steps = FL_STEPS (findings);

  for (guint i = 0; i < scene->n_ties; i++)
    {
      check_angles_of (scene, findings, i);
      step_run (&steps, &scene->ties[i]);
    }
  if (fl_findings_count (findings) == before && steps.n > 0)
    fl_say (scene, findings, &(FlSaying) {
      .rule = "angles", .standing = FL_BY_PRACTICE, .verdict = FL_MET, .subject = "tie-downs", .steps = &steps,
      .message = N_("All runs lie {lo} to {hi} to the deck and at least {plan} off the trailer's length."),
      .facts = { FL_FACT_QUANTITY ("lo", FL_DEG (data->deck_lo)), FL_FACT_QUANTITY ("hi", FL_DEG (data->deck_hi)),
                 FL_FACT_QUANTITY ("plan", FL_DEG (data->plan_min)) } });
}

/* ── chains that touch ── */

static gboolean
share_an_end (const FlSceneTie *a, const FlSceneTie *b)
{
  if (a->point != NULL && b->point != NULL && a->load == b->load && strcmp (a->point->id, b->point->id) == 0)
    return TRUE;
  for (guint i = 0; i < 2; i++)
    for (guint k = 0; k < 2; k++)
      if (a->anchors[i] != NULL && a->anchors[i] == b->anchors[k])
        return TRUE;
  return FALSE;
}

static double
apart (const FlSceneTie *a, const FlSceneTie *b)
{
  if (a->lay.n_path < 2 || b->lay.n_path < 2)
    return INFINITY;
  return fl_run_distance (a->lay.path, a->lay.n_path, b->lay.path, b->lay.n_path, share_an_end (a, b) ? FL_LAY_LEAVES : 0.0);
}

void
fl_check_chains_apart (const FlScene *scene, FlFindings *findings)
{
  double need = fl_book_data (scene->book)->apart * FL_M_PER_IN;

  for (guint i = 0; i < scene->n_ties; i++)
    for (guint k = i + 1; k < scene->n_ties; k++)
      {
        double have = apart (&scene->ties[i], &scene->ties[k]);

        if (fl_reaches (have, need))
          continue;
        say_tie (scene, findings, i, "chains_apart", FL_BY_PRACTICE, FL_CAUTION, N_("It comes within {have} of {name}: keep them apart."),
                 FL_IN (fl_book_data (scene->book)->apart), fl_inches (have), scene->ties[k].subject);
      }
}

/* ── points ── */

static gboolean
all_provided (const FlScene *scene, guint load)
{
  for (guint i = 0; i < scene->n_ties; i++)
    {
      const FlSceneTie *tie = &scene->ties[i];

      if (tie->load == load && fl_scene_own (tie) && (tie->point == NULL || !tie->point->maker_provided))
        return FALSE;
    }
  return TRUE;
}

/* Machine points in the front and the rear part (`near_share` of its extent) that its own tie-downs use. */
static void
count_near (const FlScene *scene, guint load, guint *front, guint *rear)
{
  const FlStand *stand = &scene->loads[load].stand;
  double near_ = fl_book_data (scene->book)->near_share * (stand->outline.max.x - stand->outline.min.x);

  *front = *rear = 0;
  for (guint i = 0; i < scene->n_ties; i++)
    {
      const FlSceneTie *tie = &scene->ties[i];
      double x;

      if (tie->load != load || !fl_scene_own (tie) || tie->lay.n_path < 2)
        continue;
      x = tie->lay.path[tie->choice->over ? 1 : 0].x;
      *front += x >= stand->outline.max.x - near_;
      *rear += x <= stand->outline.min.x + near_;
    }
}

static void
check_near_ends (const FlScene *scene, FlFindings *findings, guint i)
{
  const FlSceneLoad *load = &scene->loads[i];
  gboolean provided = all_provided (scene, i);
  guint front, rear;

  count_near (scene, i, &front, &rear);
  if (!load->stand.placed)
    return;
  fl_say (scene, findings, &(FlSaying) {
    .rule = "near_ends", .standing = fl_heavy_standing (load), .verdict = provided || (front >= 2 && rear >= 2) ? FL_MET : FL_CAUTION,
    .subject = load->subject, .load = i + 1,
    .message = provided ? N_("Tied down at points that its maker provides.")
                        : N_("Points near the front: {front}, near the rear: {rear}; two each, or the maker's points, are wanted."),
    .facts = { FL_FACT_QUANTITY ("front", FL_COUNT (front)), FL_FACT_QUANTITY ("rear", FL_COUNT (rear)) } });
}

void
fl_check_points (const FlScene *scene, FlFindings *findings)
{
  for (guint i = 0; i < scene->n_ties; i++)
    {
      const FlSceneTie *tie = &scene->ties[i];
      gboolean axle = tie->point != NULL && g_strcmp0 (tie->point->fitting, "axle") == 0;

      if ((tie->lay.flags & FL_LAY_POINT) != 0)
        say_tie (scene, findings, i, "point_choice", FL_BY_PRACTICE, FL_CAUTION,
                 axle ? N_("It is tied to an axle: no brake hose or line may be near the chain.")
                      : N_("Its point ({name}) is not one that the maker provides for tying down."),
                 FL_NOT_MEASURED, FL_NOT_MEASURED, fl_name_or_id (tie->point->name, tie->point->id));
      if (tie->point != NULL && tie->point->caution != NULL)
        say_tie (scene, findings, i, "point_choice", FL_BY_PRACTICE, FL_NOTE, N_("At this point: {name}"), FL_NOT_MEASURED, FL_NOT_MEASURED,
                 tie->point->caution);
    }
  for (guint i = 0; i < scene->n_loads; i++)
    check_near_ends (scene, findings, i);
}

/* ── how many a point or an anchor takes ── */

static void
count_taken (GHashTable *taken, const char *key, gint takes, guint tie, const FlScene *scene, FlFindings *findings, const char *message,
             const char *name)
{
  guint n = GPOINTER_TO_UINT (g_hash_table_lookup (taken, key)) + 1;

  g_hash_table_insert (taken, g_strdup (key), GUINT_TO_POINTER (n));
  if ((gint) n == takes + 1)
    say_tie (scene, findings, tie, "fit", FL_BY_PRACTICE, FL_SHORT, message, FL_COUNT (takes), FL_COUNT (n), name);
}

void
fl_check_takes (const FlScene *scene, FlFindings *findings)
{
  g_autoptr(GHashTable) taken = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);

  for (guint i = 0; i < scene->n_ties; i++)
    {
      const FlSceneTie *tie = &scene->ties[i];

      if (tie->point != NULL)
        {
          g_autofree char *key = g_strdup_printf ("%u/%s", tie->load, tie->point->id);

          count_taken (taken, key, tie->point->takes, i, scene, findings,
                       N_("More tie-downs hang on the point {name} than it takes ({need}): take another."), tie->point->id);
        }
      for (guint k = 0; k < 2; k++)
        if (tie->anchors[k] != NULL)
          {
            g_autofree char *key = g_strdup_printf ("@%s", tie->anchors[k]->id);

            count_taken (taken, key, tie->anchors[k]->takes, i, scene, findings,
                         N_("More tie-downs hang on the anchor {name} than it takes ({need}): take another."), tie->anchors[k]->id);
          }
    }
}

/* ── mixed, over ── */

static void
check_mixed_of (const FlScene *scene, FlFindings *findings, guint load)
{
  guint chains = 0, straps = 0;

  for (guint i = 0; i < scene->n_ties; i++)
    if (scene->ties[i].load == load && fl_scene_own (&scene->ties[i]))
      {
        chains += scene->ties[i].parts.chain != NULL;
        straps += scene->ties[i].parts.strap != NULL;
      }
  if (chains > 0 && straps > 0)
    fl_say (scene, findings, &(FlSaying) {
      .rule = "mixed_gear", .standing = FL_BY_PRACTICE, .verdict = FL_CAUTION, .subject = scene->loads[load].subject, .load = load + 1,
      .message = N_("Chains and straps together: a strap stretches far more, so the chains take nearly all of the load.") });
}

void
fl_check_mixed (const FlScene *scene, FlFindings *findings)
{
  for (guint i = 0; i < scene->n_loads; i++)
    check_mixed_of (scene, findings, i);
  for (guint i = 0; i < scene->n_ties; i++)
    if (scene->ties[i].choice->over && fl_scene_own (&scene->ties[i]) && !scene->loads[scene->ties[i].load].machine->article)
      say_tie (scene, findings, i, "over_body", FL_BY_PRACTICE, FL_CAUTION,
               N_("It goes over the machine and holds by friction: tie a machine down directly where you can."), FL_NOT_MEASURED, FL_NOT_MEASURED,
               NULL);
}

/* ── gear on hand, used once ── */

static void
check_one_piece (const FlScene *scene, FlFindings *findings, guint i, const FlRated *gear, GHashTable *used)
{
  if (gear == NULL)
    return;
  if (!g_hash_table_contains (scene->on_hand, gear->id))
    say_tie (scene, findings, i, "gear_on_hand", FL_BY_PRACTICE, FL_SHORT,
             N_("{name} is not on hand: it is not kept at this trailer, its yard or where the move starts."), FL_NOT_MEASURED, FL_NOT_MEASURED,
             gear->id);
  if (scene->choices->aside_gear != NULL && g_strv_contains (scene->choices->aside_gear, gear->id))
    say_tie (scene, findings, i, "set_aside", FL_BY_PRACTICE, FL_SHORT, N_("{name} is set aside on this plan: take another piece."), FL_NOT_MEASURED,
             FL_NOT_MEASURED, gear->id);
  if (!g_hash_table_add (used, (gpointer) gear->id))
    say_tie (scene, findings, i, "double_use", FL_BY_PRACTICE, FL_SHORT, N_("{name} is used already in another tie-down of this move."),
             FL_NOT_MEASURED, FL_NOT_MEASURED, gear->id);
}

void
fl_check_gear_at_hand (const FlScene *scene, FlFindings *findings)
{
  g_autoptr(GHashTable) used = g_hash_table_new (g_str_hash, g_str_equal);
  gsize before = fl_findings_count (findings);

  for (guint i = 0; i < scene->n_ties; i++)
    {
      const FlAssemblyParts *parts = &scene->ties[i].parts;

      check_one_piece (scene, findings, i, parts->chain, used);
      check_one_piece (scene, findings, i, parts->strap, used);
      check_one_piece (scene, findings, i, parts->binder, used);
      for (guint k = 0; k < parts->n_connectors; k++)
        check_one_piece (scene, findings, i, parts->connectors[k], used);
    }
  if (fl_findings_count (findings) == before && scene->n_ties > 0)
    fl_say_met (scene, findings, "gear_on_hand", FL_BY_PRACTICE, "tie-downs", 0, N_("All gear is on hand and used once."));
}
