/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the house asks of the places of the loads, whatever their tie-downs: an over-wide blade at the rear, a margin below the height limit,
 * axles and couplings with the weight margin. */
#include "fl-req-house.h"

#include <math.h>

/* ── over_wide_blade_rear ──
 *
 * Some states want a blade that is wider than a limit to travel at the rear of the trailer (common practice). At the rear: behind the middle
 * of its own machine, and no other load behind that machine. */

typedef enum { NOT_WIDE, MAY_BE_WIDE, WIDE } Wide;

typedef struct { double x_sum, half_width; guint n; } Reach;

static void
reach_to (Reach *r, FlPlace place)
{
  double x = fl_quantity_in (place.x, FL_UNIT_M), y = fl_quantity_in (place.y, FL_UNIT_M);

  if (isnan (x) || isnan (y))
    return;
  r->x_sum += x;
  r->half_width = fmax (r->half_width, fabs (y));
  r->n++;
}

/* The places of an implement that are on record: the points and paths that hold it. */
static Reach
reach_of (const FlMachine *machine, const FlImplement *implement)
{
  Reach r = { 0.0, 0.0, 0 };

  for (gsize i = 0; implement->tie_points != NULL && implement->tie_points[i] != NULL; i++)
    {
      const FlTiePoint *point = fl_machine_point (machine, implement->tie_points[i]);

      if (point != NULL)
        reach_to (&r, (FlPlace) { point->x, point->y, point->z });
    }
  for (gsize i = 0; i < implement->n_over_paths; i++)
    for (gsize k = 0; k < implement->over_paths[i].n_points; k++)
      reach_to (&r, implement->over_paths[i].points[k]);
  return r;
}

/* By its own width; else it is no wider than its machine, and at least as wide as the places that hold it. */
static Wide
wide (const FlMachine *machine, const FlImplement *implement, FlQuantity over)
{
  double limit = fl_quantity_in (over, FL_UNIT_M), own = fl_quantity_in (implement->width, FL_UNIT_M);
  double whole = fl_quantity_in (machine->width, FL_UNIT_M);

  if (!isnan (own))
    return fl_reaches (limit, own) ? NOT_WIDE : WIDE;
  if (!fl_reaches (limit, 2.0 * reach_of (machine, implement).half_width))
    return WIDE;
  return !isnan (whole) && fl_reaches (limit, whole) ? NOT_WIDE : MAY_BE_WIDE;
}

/* Its place behind the middle of its machine, trailer frame, m; NaN: not known. Negative: ahead of it. */
static double
behind_middle (const FlSceneLoad *load, const FlImplement *implement)
{
  Reach r = reach_of (load->machine, implement);
  FlVec at;

  if (r.n == 0 || !load->stand.placed)
    return NAN;
  at = fl_stand_point (&load->stand, (FlPlace) { FL_M (r.x_sum / r.n), FL_M (0), FL_M (0) });
  return (load->stand.outline.min.x + load->stand.outline.max.x) / 2.0 - at.x;
}

static const FlSceneLoad *
load_behind (const FlScene *scene, guint i)
{
  for (guint k = 0; k < scene->n_loads; k++)
    if (k != i && scene->loads[k].stand.placed && scene->loads[k].stand.outline.max.x <= scene->loads[i].stand.outline.min.x + FL_STATICS_GRAZE)
      return &scene->loads[k];
  return NULL;
}

static void
check_blade (const FlScene *scene, FlFindings *findings, const FlHouseRule *rule, guint i, const FlImplement *implement, guint *n)
{
  const FlSceneLoad *load = &scene->loads[i];
  Wide is = wide (load->machine, implement, rule->width);
  double behind = behind_middle (load, implement);
  const FlSceneLoad *other = load_behind (scene, i);
  gboolean rear = behind > 0.0 && other == NULL;
  FlSteps steps = FL_STEPS (findings);

  if (is == NOT_WIDE)
    return;
  *n += 1;
  fl_step (&steps, N_("{implement}: width {width} (its machine {whole}), {over} allowed anywhere; its place is {behind} behind the middle of the machine."),
           FL_FACT_TEXT ("implement", fl_name_or_id (implement->name, implement->id)), FL_FACT_QUANTITY ("width", implement->width),
           FL_FACT_QUANTITY ("whole", load->machine->width), FL_FACT_QUANTITY ("over", rule->width),
           FL_FACT_QUANTITY ("behind", fl_inches (behind)));
  fl_say (scene, findings, &(FlSaying) {
    .rule = fl_house_rule_name (rule->rule), .standing = FL_BY_HOUSE, .subject = load->subject, .load = i + 1,
    .verdict = rear ? FL_MET : isnan (behind) || is == MAY_BE_WIDE ? FL_UNKNOWN : FL_SHORT, .need = rule->width, .have = implement->width, .steps = &steps,
    .message = rear ? N_("The {implement} travels at the rear, as the house asks of what is wider than {need}.")
               : isnan (behind) ? N_("The house wants a {implement} wider than {need} at the rear; where it comes to stand is not known.")
               : is == MAY_BE_WIDE ? N_("The house wants a {implement} wider than {need} at the rear, and nobody measured its width: enter it, or turn the machine round.")
               : behind > 0.0 ? N_("The house wants a {implement} wider than {need} at the rear of the trailer; {other} stands behind it.")
                              : N_("The house wants a {implement} wider than {need} at the rear of the trailer: turn the machine round."),
    .facts = { FL_FACT_TEXT ("implement", fl_name_or_id (implement->name, implement->id)),
               FL_FACT_TEXT ("other", other != NULL ? other->subject : "-") } });
}

static void
check_blades (const FlScene *scene, FlFindings *findings, const FlHouseRule *rule)
{
  guint n = 0;

  for (guint i = 0; i < scene->n_loads; i++)
    for (gsize k = 0; k < scene->loads[i].machine->n_implements; k++)
      check_blade (scene, findings, rule, i, &scene->loads[i].machine->implements[k], &n);
  if (n == 0)
    fl_say (scene, findings, &(FlSaying) { .rule = fl_house_rule_name (rule->rule), .standing = FL_BY_HOUSE, .verdict = FL_MET, .subject = "loads",
                                           .need = rule->width, .message = N_("No implement is wider than {need}.") });
}

/* ── height_margin ── */

static void
check_height (const FlScene *scene, FlFindings *findings, const FlHouseRule *rule)
{
  FlQuantity given = scene->move->height_limit, limit = fl_quantity_known (given) ? given : FL_IN (fl_book_data (scene->book)->height_warn);
  double height = fl_scene_sizes (scene).height, allowed = fl_quantity_in (limit, FL_UNIT_M) - fl_quantity_in (rule->length, FL_UNIT_M);
  FlVerdict verdict = isnan (height) ? FL_UNKNOWN : fl_reaches (allowed, height) ? FL_MET : FL_SHORT;
  FlSteps steps = FL_STEPS (findings);

  fl_step (&steps, fl_quantity_known (given) ? N_("Limit of the move {limit} less the house's {margin}: {allowed}.")
                                             : N_("No limit was given for the move; from {limit} on a permit is needed: less the house's {margin}, {allowed}."),
           FL_FACT_QUANTITY ("limit", limit), FL_FACT_QUANTITY ("margin", rule->length), FL_FACT_QUANTITY ("allowed", fl_inches (allowed)));
  fl_say (scene, findings, &(FlSaying) {
    .rule = fl_house_rule_name (rule->rule), .standing = FL_BY_HOUSE, .verdict = verdict, .subject = "loaded height",
    .need = fl_inches (height), .have = fl_inches (allowed), .steps = &steps,
    .message = verdict == FL_MET ? N_("{need} high, {have} are allowed with the {margin} that the house keeps below the limit.")
               : verdict == FL_SHORT ? N_("{need} high, over the {have} that are left with the {margin} that the house keeps below the limit.")
                                     : N_("The house keeps {margin} below the height limit; the loaded height is not known."),
    .facts = { FL_FACT_QUANTITY ("margin", rule->length) } });
}

/* ── weight_margin_pct: of the vehicle ── */

static void
check_margin (const FlScene *scene, FlFindings *findings, const FlHouseRule *rule)
{
  FlMachine machines[FL_SCENE_MAX_LOADS];
  g_autofree FlScene *copy = fl_house_heavier (scene, machines, rule);
  g_autoptr(FlFindings) all = fl_findings_new ();
  g_autoptr(FlFindings) found = fl_findings_new ();
  FlSteps steps = FL_STEPS (findings);

  fl_check_axles (copy, all);
  fl_check_coupling (copy, all);
  fl_check_gross (copy, all);
  for (gsize k = 0; k < fl_findings_count (all); k++)
    if (strcmp (fl_findings_at (all, k)->rule, "coupling_kind") != 0)   /* no matter of weight */
      fl_findings_add (found, fl_findings_at (all, k));
  if (fl_say_margin (scene, findings, rule, found) > 0)
    return;
  fl_step_margin (&steps, scene, rule);
  fl_say (scene, findings, &(FlSaying) {
    .rule = fl_house_rule_name (rule->rule), .standing = FL_BY_HOUSE, .verdict = FL_MET, .subject = "axles, coupling and gross weight", .steps = &steps,
    .message = N_("Axles, coupling and gross weight hold {margin} more load too, as the house asks."),
    .facts = { FL_FACT_QUANTITY ("margin", FL_PCT (rule->pct)) } });
}

void
fl_check_house_place (const FlScene *scene, FlFindings *findings)
{
  const FlHouseRule *blade = fl_house_rule (scene->book, FL_HOUSE_OVER_WIDE_BLADE_REAR), *height = fl_house_rule (scene->book, FL_HOUSE_HEIGHT_MARGIN),
                    *margin = fl_house_rule (scene->book, FL_HOUSE_WEIGHT_MARGIN_PCT);

  if (blade != NULL)
    check_blades (scene, findings, blade);
  if (height != NULL)
    check_height (scene, findings, height);
  if (margin != NULL)
    check_margin (scene, findings, margin);
}
