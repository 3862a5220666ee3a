/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The judge: the table of requirements, and the freezing of a scene into an assessment. */
#include "fl-judge.h"

#include <math.h>

#include "fl-contact.h"
#include "fl-force.h"
#include "fl-vehicle.h"

static const FlRequirement requirements[] = {
  { "move", fl_check_move, TRUE },
  { "stands_on_deck", fl_check_stands, TRUE },
  { "gear_on_hand", fl_check_gear_at_hand, FALSE },
  { "gear_rating", fl_check_gear_rating, FALSE },
  { "aggregate_wll", fl_check_aggregate, FALSE },
  { "tie_down_count", fl_check_count, FALSE },
  { "all_directions", fl_check_all_directions, FALSE },
  { "rolling", fl_check_rolling, FALSE },
  { "implements", fl_check_implements, FALSE },
  { "articulation", fl_check_articulation, FALSE },
  { "locks", fl_check_locks, FALSE },
  { "force", fl_check_force, FALSE },
  { "held_down", fl_check_held_down, FALSE },
  { "cannot_loosen", fl_check_cannot_loosen, FALSE },
  { "edge_protection", fl_check_edges, FALSE },
  { "fit", fl_check_fit, FALSE },
  { "takes", fl_check_takes, FALSE },
  { "angles", fl_check_angles, FALSE },
  { "chains_apart", fl_check_chains_apart, FALSE },
  { "point_choice", fl_check_points, FALSE },
  { "mixed_gear", fl_check_mixed, FALSE },
  { "house_gear", fl_check_house_gear, FALSE },
  { "house_loads", fl_check_house_loads, FALSE },
  { "house_place", fl_check_house_place, TRUE },
  { "axle_rating", fl_check_axles, TRUE },
  { "coupling", fl_check_coupling, TRUE },
  { "gross", fl_check_gross, TRUE },
  { "sizes", fl_check_sizes, TRUE },
  { "concentrated", fl_check_concentrated, TRUE },
  { "axle_legal", fl_check_permit, FALSE },         /* a permit is no reason against a place */
  { "ramp", fl_check_ramp, TRUE },
  { "unmeasured", fl_check_unmeasured, FALSE },
  { "weight_basis", fl_check_weight_basis, FALSE },
  /* These two compare with what all before them have found. */
  { "weight_margin", fl_check_weight_margin, FALSE },
  { "placement", fl_check_placement, FALSE },
  { "recheck", fl_check_recheck, FALSE },
};

const FlRequirement *
fl_requirements (gsize *n)
{
  *n = G_N_ELEMENTS (requirements);
  return requirements;
}

void
fl_judge_place (const FlScene *scene, FlFindings *findings)
{
  fl_judge_place_at (scene, FL_JUDGE_SETTLED, findings);
}

void
fl_judge_place_at (const FlScene *scene, FlJudgeDepth depth, FlFindings *findings)
{
  ((FlScene *) scene)->depth = depth;
  for (gsize i = 0; i < G_N_ELEMENTS (requirements); i++)
    if (requirements[i].of_place)
      requirements[i].check (scene, findings);
}

gboolean
fl_finding_stands_against (const FlFinding *finding)
{
  return finding->verdict >= FL_UNKNOWN && finding->standing != FL_BY_ADVICE;
}

/* ── tie-downs ── */

static const char *
length_text (FlQuantity length, gboolean metric, FlArena *arena)
{
  g_autofree char *text = NULL;

  if (!fl_quantity_known (length))
    return "?";
  if (!metric && length.unit == FL_UNIT_FT)
    text = g_strdup_printf ("%d ft", (int) floor (length.value));
  else
    text = fl_quantity_format (length, metric, TRUE, FL_ROUND_NEAREST);
  return fl_arena_text (arena, text);
}

static const char *
chain_text (const FlSceneTie *tie, gboolean metric, FlArena *arena)
{
  const FlChain *chain = fl_record_chain (tie->parts.chain->record);
  const char *length = length_text (chain->length, metric, arena), *grade = tie->parts.chain->rating.grade;

  if (chain->mark_seen != FL_IS)
    return fl_arena_printf (arena, "%s unmarked, %s", chain->size_text, length);
  return fl_arena_printf (arena, "%s grade %s, %s", chain->size_text, grade != NULL ? grade : chain->mark, length);
}

static const char *
gear_text (const FlSceneTie *tie, gboolean metric, FlArena *arena)
{
  if (tie->parts.chain != NULL)
    return chain_text (tie, metric, arena);
  if (tie->parts.strap != NULL)
    {
      const FlStrap *strap = fl_record_strap (tie->parts.strap->record);

      return fl_arena_printf (arena, "%s strap, %s", strap->width_text, length_text (strap->length, metric, arena));
    }
  return NULL;
}

static FlQuantity
if_known (double value, FlUnit unit)
{
  return isfinite (value) ? (FlQuantity) { value, unit } : FL_NOT_MEASURED;
}

static const FlTieResult *
freeze_ties (const FlScene *scene, FlArena *arena)
{
  FlTieResult *out = fl_arena_new0 (arena, FlTieResult, scene->n_ties);
  gboolean metric = fl_fleet_metric (scene->fleet);
  FlUnit unit = fl_book_data (scene->book)->unit;

  for (guint i = 0; i < scene->n_ties; i++)
    {
      const FlSceneTie *tie = &scene->ties[i];

      out[i] = (FlTieResult) {
        .no = tie->choice->no, .path = tie->lay.path, .n_path = tie->lay.n_path, .run = if_known (tie->lay.run / FL_M_PER_IN, FL_UNIT_IN),
        .needs = if_known (tie->assembly.needs_in, FL_UNIT_IN), .deck_angle = if_known (tie->lay.deck, FL_UNIT_DEG),
        .plan_angle = if_known (tie->lay.plan, FL_UNIT_DEG), .wll = if_known (tie->assembly.wll, unit),
        .counts = fl_scene_own (tie) && isnan (tie->assembly.wll) ? FL_NOT_MEASURED : (FlQuantity) { fl_tie_counts (tie), unit }, .limited_by = fl_assembly_limit_text (&tie->assembly, arena),
        .gear_text = gear_text (tie, metric, arena), .pull = tie->lay.pull };
    }
  return out;
}

/* ── loads ── */

static const FlPlacedBox *
freeze_boxes (const FlBox *boxes, const char *const *names, guint n, FlArena *arena)
{
  FlPlacedBox *out = fl_arena_new0 (arena, FlPlacedBox, n);

  for (guint i = 0; i < n; i++)
    out[i] = (FlPlacedBox) { names[i], boxes[i] };
  return out;
}

static void
freeze_contacts (const FlSceneLoad *load, FlLoadResult *out, FlArena *arena)
{
  const FlMachine *machine = load->machine;
  FlPlacedBox *boxes = fl_arena_new0 (arena, FlPlacedBox, machine->n_contacts);
  gsize n = 0;

  for (gsize i = 0; i < machine->n_contacts; i++)
    {
      const FlContactPatch *c = &machine->contacts[i];
      FlRect rect = fl_contact_rect (load->stand.pose, fl_quantity_in (c->x, FL_UNIT_M), fl_quantity_in (c->y, FL_UNIT_M),
                                     fl_quantity_in (c->length, FL_UNIT_M), fl_quantity_in (c->width, FL_UNIT_M));

      if (fl_rect_is_valid (rect))
        boxes[n++] = (FlPlacedBox) { fl_running_gear_id (c->gear),
                                     { { rect.x_min, rect.y_min, load->stand.pose.z }, { rect.x_max, rect.y_max, load->stand.pose.z } } };
    }
  out->contacts = boxes;
  out->n_contacts = n;
}

static void
freeze_points (const FlSceneLoad *load, FlLoadResult *out, FlArena *arena)
{
  const FlMachine *machine = load->machine;
  FlPlacedPoint *points = fl_arena_new0 (arena, FlPlacedPoint, machine->n_tie_points);
  gsize n = 0;

  for (gsize i = 0; i < machine->n_tie_points; i++)
    {
      const FlTiePoint *p = &machine->tie_points[i];
      FlVec at = fl_stand_point (&load->stand, (FlPlace) { p->x, p->y, p->z });

      if (fl_vec_is_place (at))
        points[n++] = (FlPlacedPoint) { p->id, p->name, at };
    }
  out->points = points;
  out->n_points = n;
}

static void
freeze_place (const FlSceneLoad *load, FlLoadResult *out, FlArena *arena)
{
  const FlStand *s = &load->stand;
  FlVec cg = fl_stand_point (s, load->machine->cg);
  FlVec joint = fl_stand_point (s, (FlPlace) { load->machine->joint_x, FL_M (0), FL_M (0) });

  out->rear = load->rear;
  out->outline = s->outline;
  if (!isfinite (out->outline.min.y))
    out->outline.min.y = out->outline.max.y = load->left;
  if (!isfinite (out->outline.max.z))
    out->outline.max.z = out->outline.min.z;
  freeze_contacts (load, out, arena);
  freeze_points (load, out, arena);
  out->solids = freeze_boxes (s->solids, s->solid_names, s->n_solids, arena);
  out->n_solids = s->n_solids;
  out->keep_clear = freeze_boxes (s->keep_clear, s->keep_names, s->n_keep_clear, arena);
  out->n_keep_clear = s->n_keep_clear;
  out->has_cg = fl_vec_is_place (cg);
  if (out->has_cg)
    out->cg = cg;
  out->has_joint = load->machine->articulated && isfinite (joint.x);
  out->joint_x = out->has_joint ? joint.x : 0.0;
}

static void
freeze_sum (const FlScene *scene, guint i, FlLoadResult *out, FlArena *arena)
{
  FlAggregate a = fl_scene_aggregate (scene, i);
  FlUnit unit = fl_book_data (scene->book)->unit;

  out->own_tie_downs = a.n;
  out->weakest = a.weakest != NULL ? fl_assembly_limit_text (a.weakest, arena) : NULL;
  out->have = (FlQuantity) { a.have, unit };
  out->need = if_known (a.need, unit);
}

static const FlLoadResult *
freeze_loads (const FlScene *scene, FlArena *arena)
{
  FlLoadResult *out = fl_arena_new0 (arena, FlLoadResult, scene->n_loads);

  for (guint i = 0; i < scene->n_loads; i++)
    {
      const FlSceneLoad *load = &scene->loads[i];
      const FlMachine *machine = load->machine;

      out[i] = (FlLoadResult) { .id = machine->id, .name = machine->name, .kind = machine->kind, .position = machine->position_name,
                                .article = machine->article, .facing = load->facing, .placed = load->stand.placed,
                                .weight = machine->weight, .weight_basis = fl_basis_of (&machine->basis, "weight").text };
      if (machine->position != NULL && out[i].position == NULL)
        out[i].position = machine->position;
      if (load->stand.placed)
        freeze_place (load, &out[i], arena);
      freeze_sum (scene, i, &out[i], arena);
    }
  return out;
}

/* ── axles ── */

typedef struct { FlAxleResult *out; gsize n; } Axles;

static void
add_axles (const FlScene *scene, Axles *a, const char *vehicle, const FlAxle *axles, gsize n, const double *loads, gboolean on_trailer, FlArena *arena)
{
  FlUnit unit = fl_book_data (scene->book)->unit;
  gboolean done[FL_SCENE_MAX_AXLES] = { FALSE };

  for (gsize number = 1; number <= n; number++)
    {
      gsize next = n;

      for (gsize i = 0; i < n; i++)
        if (!done[i] && (next == n || fl_quantity_in (axles[i].x, FL_UNIT_M) > fl_quantity_in (axles[next].x, FL_UNIT_M)))
          next = i;
      done[next] = TRUE;
      a->out[a->n++] = (FlAxleResult) { fl_arena_printf (arena, "%s %u", vehicle, (guint) number), if_known (loads[next], unit), axles[next].rated,
                                        NAN, on_trailer ? fl_quantity_in (axles[next].x, FL_UNIT_M) : NAN };
    }
}

static void
add_coupling (const FlScene *scene, Axles *a)
{
  const FlSceneAxles *w = &scene->axles;
  FlQuantity own = scene->trailer->coupling.rated_vertical;
  FlQuantity rated = scene->truck != NULL ? fl_lesser_rating (own, scene->truck->coupling.rated_vertical) : own;

  a->out[a->n++] = (FlAxleResult) { "coupling", if_known (w->coupling, fl_book_data (scene->book)->unit), rated,
                                    100.0 * w->coupling / w->trailer_gross, fl_quantity_in (scene->trailer->coupling.x, FL_UNIT_M) };
}

static void
freeze_axles (const FlScene *scene, FlAssessmentParts *parts, FlArena *arena)
{
  const FlSceneAxles *w = &scene->axles;
  Axles a = { fl_arena_new0 (arena, FlAxleResult, 2 * FL_SCENE_MAX_AXLES + 1), 0 };

  if (w->status == FL_BEAM_OK)
    {
      if (scene->truck != NULL && w->truck_status == FL_BEAM_OK)
        add_axles (scene, &a, "truck", scene->truck->axles, scene->truck->n_axles, w->truck, FALSE, arena);
      if (scene->trailer->coupling.present)
        add_coupling (scene, &a);
      add_axles (scene, &a, "trailer", scene->trailer->axles, scene->trailer->n_axles, w->trailer, TRUE, arena);
    }
  parts->axles = a.out;
  parts->n_axles = a.n;
}

static FlSizes
freeze_sizes (const FlScene *scene)
{
  FlSceneSizes s = fl_scene_sizes (scene);
  gboolean metric = fl_fleet_metric (scene->fleet);
  FlUnit unit = fl_unit_house (FL_DIM_LENGTH, metric);

  return (FlSizes) { if_known (fl_quantity_in (FL_M (s.height), unit), unit), if_known (fl_quantity_in (FL_M (s.width), unit), unit),
                     if_known (fl_quantity_in (FL_M (s.length), unit), unit),
                     if_known (scene->axles.gross, fl_book_data (scene->book)->unit), s.height_measured };
}

/* ── texts and records ── */

static const FlMessage *
freeze_texts (const FlBookText *texts, gsize n, FlArena *arena)
{
  FlMessage *out = fl_arena_new0 (arena, FlMessage, n);

  for (gsize i = 0; i < n; i++)
    out[i] = (FlMessage) { texts[i].text, NULL, 0 };
  return out;
}

static void
add_record (GPtrArray *records, const FlRecord *record)
{
  if (record != NULL && !g_ptr_array_find (records, record, NULL))
    g_ptr_array_add (records, (gpointer) record);
}

static void
add_gear (GPtrArray *records, const FlRated *gear)
{
  if (gear != NULL)
    add_record (records, gear->record);
}

static GPtrArray *
gather_records (const FlScene *scene)
{
  GPtrArray *records = g_ptr_array_new ();

  if (fl_fleet_count (scene->fleet, FL_KIND_POLICY) > 0)
    add_record (records, fl_fleet_at (scene->fleet, FL_KIND_POLICY, 0));
  add_record (records, scene->move_record);
  add_record (records, scene->trailer_record);
  add_record (records, scene->truck_record);
  if (scene->move->driver != NULL)
    add_record (records, fl_fleet_find (scene->fleet, FL_KIND_PERSON, scene->move->driver));
  if (scene->move->from != NULL)
    add_record (records, fl_fleet_find (scene->fleet, FL_KIND_YARD, scene->move->from));
  if (scene->move->gear_yard != NULL)
    add_record (records, fl_fleet_find (scene->fleet, FL_KIND_YARD, scene->move->gear_yard));
  for (guint i = 0; i < scene->n_loads; i++)
    add_record (records, scene->loads[i].record);
  for (guint i = 0; i < scene->n_ties; i++)
    {
      const FlAssemblyParts *p = &scene->ties[i].parts;

      add_gear (records, p->chain);
      add_gear (records, p->strap);
      add_gear (records, p->binder);
      for (guint k = 0; k < p->n_connectors; k++)
        add_gear (records, p->connectors[k]);
    }
  return records;
}

FlAssessment *
fl_judge_at (const FlScene *scene, FlJudgeDepth depth)
{
  const FlBookData *data = fl_book_data (scene->book);
  g_autoptr(FlFindings) findings = fl_findings_new ();
  g_autoptr(FlArena) arena = fl_arena_new ();
  g_autoptr(GPtrArray) records = gather_records (scene);
  FlAssessmentParts parts = {
    .plan = fl_scene_plan (scene), .fleet_name = fl_fleet_name (scene->fleet), .metric = fl_fleet_metric (scene->fleet),
    .book = fl_book_stamp (scene->book), .findings = findings, .recheck = data->recheck, .n_ties = scene->n_ties, .n_loads = scene->n_loads,
    .n_cautions = data->n_cautions, .n_walk_round = data->n_walk_round, .records = (const FlRecord *const *) records->pdata,
    .n_records = records->len };

  ((FlScene *) scene)->depth = depth;
  fl_scene_work_forces ((FlScene *) scene);
  for (gsize i = 0; i < G_N_ELEMENTS (requirements); i++)
    requirements[i].check (scene, findings);
  parts.ties = freeze_ties (scene, arena);
  parts.loads = freeze_loads (scene, arena);
  fl_judge_freeze_forces (scene, &parts, arena);
  freeze_axles (scene, &parts, arena);
  parts.sizes = freeze_sizes (scene);
  parts.cautions = freeze_texts (data->cautions, data->n_cautions, arena);
  parts.walk_round = freeze_texts (data->walk_round, data->n_walk_round, arena);
  return fl_assessment_new (&parts);
}

FlAssessment *
fl_judge (const FlScene *scene)
{
  return fl_judge_at (scene, FL_JUDGE_SETTLED);
}

FlAssessment *
fl_judge_plan (const FlBook *book, const FlFleet *fleet, const FlPlan *plan, GError **error)
{
  g_autoptr(FlScene) scene = fl_scene_new (book, fleet, plan, error);

  return scene != NULL ? fl_judge (scene) : NULL;
}
