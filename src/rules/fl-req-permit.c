/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the law allows on the road without a permit: weights by axles, axle groups and gross, and sizes. Over it is a caution that names the
 * figure: a permit may be had. The height that a move's own route allows is another matter: over it the move does not pass. */
#include <math.h>

#include "fl-vehicle.h"

/* ── axle groups ── */

typedef struct { guint first, n; FlLegalLimit limit; double load; const char *name; } Group;
typedef struct { const FlScene *scene; FlFindings *findings; FlCombination all; Group worst; guint n, over; FlSteps steps; } Groups;

/* "axles 3-5" of the whole combination; of a trailer alone "trailer axles 1-2". */
static const char *
name_of (Groups *g, guint first, guint n)
{
  const char *whose = g->all.with_truck || !g->scene->trailer->coupling.present ? "" : "trailer ";

  if (n == 1)
    return fl_arena_printf (fl_findings_arena (g->findings), "%saxle %u", whose, first + 1);
  return fl_arena_printf (fl_findings_arena (g->findings), "%saxles %u-%u", whose, first + 1, first + n);
}

static Group
group_at (Groups *g, guint first, guint n)
{
  Group group = { first, n, fl_legal_limit (fl_book_data (g->scene->book), &g->all.x[first], n), 0.0, name_of (g, first, n) };

  for (guint i = first; i < first + n; i++)
    group.load += fl_combination_load (&g->all, &g->scene->axles, i);
  return group;
}

/* The one that is most over; among those within, the one that is used most. */
static gboolean
worse (const Group *a, const Group *b)
{
  double over_a = a->load - a->limit.limit, over_b = b->load - b->limit.limit;

  if (fmax (over_a, over_b) > 0.0)
    return over_a > over_b;
  return a->load / a->limit.limit > b->load / b->limit.limit;
}

static void
take_group (Groups *g, const Group *group)
{
  g->over += !fl_reaches (group->limit.limit, group->load);
  if (g->n++ == 0 || worse (group, &g->worst))
    g->worst = *group;
  if (group->n == 1)
    fl_step (&g->steps, N_("{group}: carries {load}, may carry {limit}."), FL_FACT_TEXT ("group", group->name),
             FL_FACT_QUANTITY ("load", fl_weight (g->scene, group->load)), FL_FACT_QUANTITY ("limit", fl_weight (g->scene, group->limit.limit)));
  else
    fl_step (&g->steps, N_("{group}: {n} axles, spread {spread}: carries {load}, may carry {limit}."), FL_FACT_TEXT ("group", group->name),
             FL_FACT_QUANTITY ("n", FL_COUNT (group->n)), FL_FACT_QUANTITY ("spread", FL_IN (group->limit.spread)),
             FL_FACT_QUANTITY ("load", fl_weight (g->scene, group->load)), FL_FACT_QUANTITY ("limit", fl_weight (g->scene, group->limit.limit)));
}

/* All groups of the near or of the far kind. */
static void
gather (Groups *g, gboolean near)
{
  g->n = g->over = 0;
  g->steps = FL_STEPS (g->findings);
  for (guint n = 1; n <= g->all.n; n++)
    for (guint first = 0; first + n <= g->all.n; first++)
      {
        Group group = group_at (g, first, n);

        if (fl_legal_is_near (group.limit.kind) == near)
          take_group (g, &group);
      }
}

static void
step_formula (Groups *g)
{
  const FlBookBridge *b = &fl_book_data (g->scene->book)->bridge;
  const Group *w = &g->worst;

  fl_step (&g->steps, N_("{group}: W = {factor} x (L x N / (N - 1) + {per_axle} x N + {constant}), N = {n}, L = {l} (spread {spread} in steps of {step}, halves down): {exact}, to the nearest {round}, halves down: {rounded}."),
           FL_FACT_TEXT ("group", w->name), FL_FACT_QUANTITY ("factor", fl_weight (g->scene, b->factor)), fl_fact_number (&g->steps, "per_axle", b->per_axle),
           fl_fact_number (&g->steps, "constant", b->constant), FL_FACT_QUANTITY ("n", FL_COUNT (w->n)), fl_fact_number (&g->steps, "l", w->limit.steps),
           FL_FACT_QUANTITY ("spread", FL_IN (w->limit.spread)), FL_FACT_QUANTITY ("step", FL_IN (b->spread_step)),
           FL_FACT_QUANTITY ("exact", fl_weight (g->scene, w->limit.exact)), FL_FACT_QUANTITY ("round", fl_weight (g->scene, b->round)),
           FL_FACT_QUANTITY ("rounded", fl_weight (g->scene, fl_legal_nearest (w->limit.exact, b->round))));
  if (w->n == 2 && fl_legal_nearest (w->limit.exact, b->round) > w->limit.limit)
    fl_step (&g->steps, N_("Two axles never have more than two single ones: {limit}."), FL_FACT_QUANTITY ("limit", fl_weight (g->scene, w->limit.limit)));
}

/* How the limit of the worst group comes about. */
static void
step_limit (Groups *g)
{
  const FlBookData *data = fl_book_data (g->scene->book);
  const Group *w = &g->worst;
  FlQuantity limit = fl_weight (g->scene, w->limit.limit);
  FlFact name = FL_FACT_TEXT ("group", w->name), spread = FL_FACT_QUANTITY ("spread", FL_IN (w->limit.spread)), is = FL_FACT_QUANTITY ("limit", limit);

  switch (w->limit.kind)
    {
    case FL_LEGAL_SINGLE:
      fl_step (&g->steps, N_("{group}: spread {spread}, up to {within} counts as one axle: {limit}."), name, spread, is,
               FL_FACT_QUANTITY ("within", FL_IN (data->bridge.single_within)));
      break;
    case FL_LEGAL_TANDEM:
      fl_step (&g->steps, N_("{group}: spread {spread}, up to {within} a tandem: {limit}."), name, spread, is,
               FL_FACT_QUANTITY ("within", FL_IN (data->bridge.tandem_within)));
      break;
    case FL_LEGAL_BETWEEN:
      fl_step (&g->steps, N_("{group}: spread {spread}, more than a tandem's {within} and under {from}: {limit}."), name, spread, is,
               FL_FACT_QUANTITY ("within", FL_IN (data->bridge.tandem_within)), FL_FACT_QUANTITY ("from", FL_IN (data->bridge.formula_from)));
      break;
    case FL_LEGAL_BRIDGE:
    case FL_LEGAL_PAIR:
    default:
      step_formula (g);
      break;
    }
  if (w->limit.kind == FL_LEGAL_PAIR)
    fl_step (&g->steps, N_("Two tandems with {from} or more between their outer axles: 2 x {tandem} = {limit}."), is,
             FL_FACT_QUANTITY ("from", FL_IN (data->bridge.tandem_pair_from)), FL_FACT_QUANTITY ("tandem", fl_weight (g->scene, data->legal_tandem)));
}

static const char *
near_message (gboolean over, const FlNearest *nearest, gboolean alone)
{
  if (over)
    return fl_nearest_text (nearest, N_("{need} on {subject}, {over} over the legal {have}: permit needed, or set {load} {distance} {way_word}."),
                            N_("{need} on {subject}, {over} over the legal {have}: permit needed; no other place of the load on this deck cures that."),
                            N_("{need} on {subject}, {over} over the legal {have}: permit needed."));
  return alone ? N_("{need} on {subject}, legal {have}; the truck's axles are not known, so only the trailer's are looked at.") : N_("{need} on {subject}, legal {have}.");
}

static const char *
far_message (gboolean over, const FlNearest *nearest, gboolean alone)
{
  if (over)
    return fl_nearest_text (nearest, N_("{need} on {subject} together, {over} over the {have} of the bridge formula: permit needed, or set {load} {distance} {way_word}."),
                            N_("{need} on {subject} together, {over} over the {have} of the bridge formula: permit needed; no other place of the load on this deck cures that."),
                            N_("{need} on {subject} together, {over} over the {have} of the bridge formula: permit needed."));
  return alone ? N_("{need} on {subject} together, the bridge formula allows {have}; the truck's axles are not known, so only the trailer's are looked at.")
               : N_("{need} on {subject} together, the bridge formula allows {have}.");
}

/* TRUE if over. */
static gboolean
check_groups (Groups *g, gboolean near)
{
  const FlScene *scene = g->scene;
  gboolean alone = !g->all.with_truck && scene->trailer->coupling.present;
  FlNearest nearest = { .distance = FL_NOT_MEASURED };
  gboolean over;

  gather (g, near);
  over = g->over > 0;
  if (g->n == 0)
    return FALSE;
  if (over)
    nearest = fl_nearest_cure (scene, near ? FL_CURE_AXLE_LEGAL : FL_CURE_BRIDGE, 0);
  step_limit (g);
  fl_say (scene, g->findings, &(FlSaying) {
    .rule = near ? "axle_legal" : "bridge_formula", .standing = FL_BY_LAW, .verdict = over ? FL_CAUTION : alone ? FL_NOTE : FL_MET,
    .subject = g->worst.name, .need = fl_weight (scene, g->worst.load), .have = fl_weight (scene, g->worst.limit.limit), .steps = &g->steps,
    .message = near ? near_message (over, &nearest, alone) : far_message (over, &nearest, alone),
    .facts = { FL_FACT_QUANTITY ("over", fl_weight (scene, g->worst.load - g->worst.limit.limit)), FL_NEAREST_FACTS (scene, nearest) } });
  return over;
}

/* ── gross ── */

static gboolean
check_gross_legal (const FlScene *scene, FlFindings *findings)
{
  double gross = scene->axles.gross, legal = fl_book_data (scene->book)->legal_gross;
  gboolean alone = scene->truck == NULL && scene->trailer->coupling.present, known = isfinite (gross), over = known && !fl_reaches (legal, gross);
  FlSteps steps = FL_STEPS (findings);

  if (known)
    fl_steps_gross (scene, &steps, !alone);
  fl_say (scene, findings, &(FlSaying) {
    .rule = "gross_legal", .standing = known ? FL_BY_LAW : FL_BY_ADVICE, .verdict = !known ? FL_UNKNOWN : over ? FL_CAUTION : alone ? FL_NOTE : FL_MET,
    .subject = "gross weight", .need = fl_weight (scene, gross), .have = fl_weight (scene, legal), .steps = &steps,
    .facts = { FL_FACT_QUANTITY ("over", fl_weight (scene, gross - legal)) },
    .message = !known ? N_("The gross weight is not known: an empty weight is missing. The legal limit is {have}.")
               : over ? N_("{need} in all, {over} over the legal {have}: permit needed, or a lighter load.")
               : alone ? N_("{need} without the truck, the legal limit with it is {have}.") : N_("{need} in all, the legal limit is {have}.") });
  return over;
}

/* A permit is for what cannot be divided. */
static void
check_divisible (const FlScene *scene, FlFindings *findings, gboolean weight, gboolean size)
{
  const char *const *attachments = scene->move->attachments;
  gboolean several = weight && scene->n_loads > 1, removable = (weight || size) && attachments != NULL && attachments[0] != NULL;
  g_autofree char *names = removable ? g_strjoinv (", ", (char **) attachments) : NULL;

  if (!several && !removable)
    return;
  fl_say (scene, findings, &(FlSaying) {
    .rule = "divisible", .standing = FL_BY_LAW, .verdict = FL_CAUTION, .subject = "permit",
    .facts = { FL_FACT_TEXT ("names", names != NULL ? fl_arena_text (fl_findings_arena (findings), names) : "-") },
    .message = several ? N_("Several loads on one trailer can be divided, and a permit is for a load that cannot: carry them apart, or ask the permit office.")
                       : N_("What can be taken off ({names}) makes this load divisible, and a permit is for a load that cannot be divided: carry it apart, or ask the permit office.") });
}

/* ── what stands out ── */

/* m beyond the trailer's rear and front, beyond its sides, and behind its last axle; under 0: within. */
typedef struct { double rear, front, side, axle; gboolean known; } Overhang;

static void
stand_out (const FlScene *scene, const FlSceneLoad *load, Overhang *o)
{
  const FlTrailer *trailer = scene->trailer;
  double rear, front, axle = INFINITY, half = scene->ground.half_width;
  FlSides sides = fl_load_sides (load);

  fl_trailer_reach (trailer, &rear, &front);
  for (gsize i = 0; i < trailer->n_axles; i++)
    axle = fmin (axle, fl_quantity_in (trailer->axles[i].x, FL_UNIT_M));
  o->rear = fmax (o->rear, rear - load->stand.outline.min.x);
  o->front = fmax (o->front, load->stand.outline.max.x - front);
  o->axle = fmax (o->axle, axle - load->stand.outline.min.x);
  o->side = fmax (o->side, fmax (sides.left - half, -half - sides.right));
  o->known = TRUE;
}

static void
step_overhang (FlSteps *steps, const Overhang *o, const FlBookData *data)
{
  fl_step (steps, N_("Beyond the rear of the deck {rear}, beyond its front {front}, beyond its side {side}; behind the last axle {axle} (under 0: within)."),
           FL_FACT_QUANTITY ("rear", fl_inches (o->rear)), FL_FACT_QUANTITY ("front", fl_inches (o->front)), FL_FACT_QUANTITY ("side", fl_inches (o->side)),
           FL_FACT_QUANTITY ("axle", fl_inches (o->axle)));
  fl_step (steps, N_("Flags from more than {flag_rear} behind and more than {flag_side} beside."), FL_FACT_QUANTITY ("flag_rear", FL_IN (data->flag_rear)),
           FL_FACT_QUANTITY ("flag_side", FL_IN (data->flag_side)));
}

/* Where there are no more than so many inches. */
static gboolean
beyond (double m, double may_in)
{
  return isfinite (m) && m > may_in * FL_M_PER_IN + FL_STATICS_GRAZE;
}

static void
check_overhang (const FlScene *scene, FlFindings *findings)
{
  const FlBookData *data = fl_book_data (scene->book);
  Overhang o = { -INFINITY, -INFINITY, -INFINITY, -INFINITY, FALSE };
  FlSteps steps = FL_STEPS (findings);
  gboolean flags, out;

  for (guint i = 0; i < scene->n_loads; i++)
    if (scene->loads[i].stand.placed)
      stand_out (scene, &scene->loads[i], &o);
  if (!o.known)
    return;                     /* no load has a place: said elsewhere */
  flags = beyond (o.rear, data->flag_rear) || beyond (o.side, data->flag_side);
  out = beyond (o.rear, 0.0) || beyond (o.front, 0.0);
  step_overhang (&steps, &o, data);
  fl_say (scene, findings, &(FlSaying) {
    .rule = "size_overhang", .standing = FL_BY_LAW, .verdict = flags ? FL_CAUTION : out ? FL_NOTE : FL_MET, .subject = "overhang",
    .need = fl_inches (o.rear), .have = FL_IN (data->flag_rear), .steps = &steps,
    .facts = { FL_FACT_QUANTITY ("rear", fl_inches (fmax (0.0, o.rear))), FL_FACT_QUANTITY ("front", fl_inches (fmax (0.0, o.front))),
               FL_FACT_QUANTITY ("side", fl_inches (fmax (0.0, o.side))) },
    .message = flags ? N_("It stands out {rear} behind and {side} beside the trailer: flags on it, and the state's limits to be looked up.")
               : out ? N_("It stands out {rear} behind the trailer and {front} ahead of its deck: limits are the state's, and it must clear the truck in a turn.")
                     : N_("It does not stand out behind the trailer or ahead of its deck.") });
}

/* ── sizes ── */

static FlVerdict
against (double have, FlQuantity limit)
{
  if (isnan (have))
    return FL_UNKNOWN;
  return fl_reaches (fl_quantity_in (limit, FL_UNIT_M), have) ? FL_MET : FL_SHORT;
}

static void
check_height (const FlScene *scene, FlFindings *findings, double height)
{
  FlQuantity given = scene->move->height_limit, limit = fl_quantity_known (given) ? given : FL_IN (fl_book_data (scene->book)->height_warn);
  FlVerdict verdict = against (height, limit);
  gboolean route = fl_quantity_known (given);
  FlSteps steps = FL_STEPS (findings);

  for (guint i = 0; i < scene->n_loads; i++)
    fl_step (&steps, N_("{name}: deck {deck} + load {height} = {top}."), FL_FACT_TEXT ("name", scene->loads[i].subject),
             FL_FACT_QUANTITY ("deck", fl_inches (scene->ground.deck_height)), FL_FACT_QUANTITY ("height", fl_inches (fl_load_height (&scene->loads[i]))),
             FL_FACT_QUANTITY ("top", fl_inches (scene->ground.deck_height + fl_load_height (&scene->loads[i]))));
  if (verdict == FL_SHORT && !route)
    verdict = FL_CAUTION;
  fl_say (scene, findings, &(FlSaying) {
    .rule = "size_height", .standing = route ? FL_BY_PRACTICE : FL_BY_LAW, .verdict = verdict, .subject = "loaded height",
    .need = fl_inches (height), .have = limit, .steps = &steps,
    .message = isnan (height) ? N_("The loaded height is not known: measure the deck and the load.")
               : verdict == FL_MET ? N_("{need} high, the limit is {have}; measure before leaving.")
               : route ? N_("{need} high, over the limit of {have} set for this move: lower or fold it, or take a lower trailer.")
                       : N_("{need} high, over {have}: permit and route needed.") });
}

static void
step_sides (const FlScene *scene, FlSteps *steps)
{
  fl_step (steps, N_("Deck {deck} wide; what reaches furthest to each side counts."), FL_FACT_QUANTITY ("deck", scene->trailer->deck_width));
  for (guint i = 0; i < scene->n_loads; i++)
    {
      FlSides sides = fl_load_sides (&scene->loads[i]);

      fl_step (steps, N_("{name}: {left} to the left of the centerline, {right} to the right."), FL_FACT_TEXT ("name", scene->loads[i].subject),
               FL_FACT_QUANTITY ("left", fl_inches (sides.left)), FL_FACT_QUANTITY ("right", fl_inches (-sides.right)));
    }
}

static void
check_width (const FlScene *scene, FlFindings *findings, double width)
{
  FlQuantity limit = FL_IN (fl_book_data (scene->book)->legal_width);
  FlVerdict verdict = against (width, limit);
  FlSteps steps = FL_STEPS (findings);

  step_sides (scene, &steps);
  fl_say (scene, findings, &(FlSaying) {
    .rule = "size_width", .standing = FL_BY_LAW, .verdict = verdict == FL_SHORT ? FL_CAUTION : verdict, .subject = "loaded width",
    .need = fl_inches (width), .have = limit, .steps = &steps,
    .message = isnan (width) ? N_("The loaded width is not known: measure the deck and the load.")
               : verdict == FL_MET ? N_("{need} wide, the limit is {have}.") : N_("{need} wide, over {have}: permit needed.") });
}

/* There is no federal limit for the length of the whole, and the states differ: the figure is for whoever plans the route. */
static void
say_length (const FlScene *scene, FlFindings *findings, double length)
{
  FlSteps steps = FL_STEPS (findings);

  fl_step (&steps, N_("From the foremost to the rearmost of truck, deck, tail and load: {length}."), FL_FACT_QUANTITY ("length", fl_inches (length)));
  fl_say (scene, findings, &(FlSaying) {
    .rule = "size_length", .standing = FL_BY_LAW, .verdict = isnan (length) ? FL_NOTE : FL_MET, .subject = "overall length",
    .have = fl_inches (length), .steps = &steps,
    .message = isnan (length) ? N_("The overall length is not known: measure the truck and the trailer.")
                              : N_("{have} long over all; limits of length and overhang are the state's.") });
}

void
fl_check_sizes (const FlScene *scene, FlFindings *findings)
{
  FlSceneSizes sizes = fl_scene_sizes (scene);

  check_height (scene, findings, sizes.height);
  check_width (scene, findings, sizes.width);
  say_length (scene, findings, sizes.length);
  check_overhang (scene, findings);
}

/* ── the whole ── */

static gboolean
too_large (const FlScene *scene)
{
  const FlBookData *data = fl_book_data (scene->book);
  FlSceneSizes sizes = fl_scene_sizes (scene);

  return beyond (sizes.width, data->legal_width) || (!fl_quantity_known (scene->move->height_limit) && beyond (sizes.height, data->height_warn));
}

void
fl_check_permit (const FlScene *scene, FlFindings *findings)
{
  g_autofree Groups *g = g_new0 (Groups, 1);
  gboolean over = FALSE;

  g->scene = scene;
  g->findings = findings;
  if (fl_scene_combination (scene, &g->all))
    {
      over = check_groups (g, TRUE);
      over = check_groups (g, FALSE) || over;
    }
  else
    fl_say (scene, findings, &(FlSaying) {
      .rule = "axle_legal", .standing = FL_BY_ADVICE, .verdict = FL_UNKNOWN, .subject = "axles",
      .message = N_("Legal axle weights are not looked at, as the axle loads are not known.") });
  over = check_gross_legal (scene, findings) || over;
  check_divisible (scene, findings, over, too_large (scene));
}
