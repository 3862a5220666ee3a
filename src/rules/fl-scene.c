/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Resolving a plan against a fleet and a book: see fl-scene.h. */
#include "fl-force.h"

#include <math.h>

G_DEFINE_QUARK (fl-scene-error-quark, fl_scene_error)

static gboolean
fail (GError **error, FlSceneError code, const char *what, const char *id, const char *way_out)
{
  g_set_error (error, FL_SCENE_ERROR, code, "%s %s: %s", what, id != NULL ? id : "(none)", way_out);
  return FALSE;
}

/* ── records ── */

static gboolean
find_records (FlScene *scene, GError **error)
{
  const FlPlanChoices *c = scene->choices;

  scene->move_record = c->move != NULL ? fl_fleet_find (scene->fleet, FL_KIND_MOVE, c->move) : NULL;
  if (scene->move_record == NULL)
    return fail (error, FL_SCENE_ERROR_NO_RECORD, "move", c->move, "the fleet has no such move; name one of its moves");
  scene->trailer_record = c->trailer != NULL ? fl_fleet_find (scene->fleet, FL_KIND_TRAILER, c->trailer) : NULL;
  if (scene->trailer_record == NULL)
    return fail (error, FL_SCENE_ERROR_NO_RECORD, "trailer", c->trailer, "the fleet has no such trailer; name one of its trailers");
  scene->truck_record = c->truck != NULL ? fl_fleet_find (scene->fleet, FL_KIND_TRUCK, c->truck) : NULL;
  if (c->truck != NULL && scene->truck_record == NULL)
    return fail (error, FL_SCENE_ERROR_NO_RECORD, "truck", c->truck, "the fleet has no such truck; name one of its trucks");
  scene->move = fl_record_move (scene->move_record);
  scene->trailer = fl_record_trailer (scene->trailer_record);
  scene->truck = scene->truck_record != NULL ? fl_record_truck (scene->truck_record) : NULL;
  return TRUE;
}

static void
stand (FlScene *scene, FlSceneLoad *load)
{
  fl_stand_fill (&load->stand, &scene->ground, load->machine, load->facing, load->rear, load->left);
}

static gboolean
find_load (FlScene *scene, const FlPlanLoad *choice, GError **error)
{
  FlSceneLoad *load = &scene->loads[scene->n_loads];
  const FlBookData *data = fl_book_data (scene->book);

  load->record = fl_fleet_find_load (scene->fleet, choice->id, choice->article);
  if (load->record == NULL)
    return fail (error, FL_SCENE_ERROR_NO_RECORD, choice->article ? "article" : "machine", choice->id, "the fleet has no such load");
  load->machine = fl_machine_in_position (fl_record_machine (load->record), choice->position);
  if (load->machine == NULL)
    return fail (error, FL_SCENE_ERROR_NO_MEMBER, "position", choice->position, "the machine has no such position; name one of its own");
  load->subject = fl_arena_printf (scene->arena, "load %s", choice->id);
  load->weight = fl_quantity_in (load->machine->weight, data->unit);
  load->heavy = fl_book_heavy (scene->book, load->machine, load->weight);
  load->facing = choice->facing;
  load->rear = fl_quantity_in (choice->rear, FL_UNIT_M);
  load->left = fl_quantity_known (choice->left) ? fl_quantity_in (choice->left, FL_UNIT_M) : 0.0;
  stand (scene, load);
  scene->n_loads++;
  return TRUE;
}

/* ── tie-downs ── */

static gboolean
find_anchors (FlScene *scene, FlSceneTie *tie, GError **error)
{
  for (guint i = 0; i < 2; i++)
    {
      const char *id = tie->choice->anchors[i];

      tie->anchors[i] = id != NULL ? fl_trailer_anchor (scene->trailer, id) : NULL;
      if (id != NULL && tie->anchors[i] == NULL)
        return fail (error, FL_SCENE_ERROR_NO_MEMBER, "anchor", id, "the trailer has no such anchor; name one of its anchors");
    }
  if (tie->anchors[0] == NULL || (tie->choice->over && tie->anchors[1] == NULL))
    return fail (error, FL_SCENE_ERROR_NO_MEMBER, "anchor", NULL, "a direct tie-down needs one anchor, one over the load two");
  return TRUE;
}

static gboolean
names_point (const FlImplement *implement, const char *point)
{
  return implement->tie_points != NULL && point != NULL && g_strv_contains (implement->tie_points, point);
}

static gboolean
take_over_path (FlSceneTie *tie, const FlOverPath *path, GError **error)
{
  if (path->n_points == 0 || path->n_points > FL_SCENE_MAX_THROUGH)
    return fail (error, FL_SCENE_ERROR_TOO_MANY, "over-path", path->id, "it needs one to four points");
  for (gsize i = 0; i < path->n_points; i++)
    tie->through[i] = path->points[i];
  tie->n_through = path->n_points;
  tie->edge = path->edge;
  tie->of_implement = TRUE;
  return TRUE;
}

static gboolean
take_through_point (FlSceneTie *tie, const FlMachine *machine, const char *id, GError **error)
{
  const FlTiePoint *point = fl_machine_point (machine, id);

  if (point == NULL)
    return fail (error, FL_SCENE_ERROR_NO_MEMBER, "point", id, "the load has no such tie point or over-path; name one of its own");
  if (tie->n_through == FL_SCENE_MAX_THROUGH)
    return fail (error, FL_SCENE_ERROR_TOO_MANY, "tie-down", tie->subject, "at most four points on the way");
  tie->through_points[tie->n_through] = point;
  tie->through[tie->n_through++] = (FlPlace) { point->x, point->y, point->z };
  if (tie->implement != NULL && names_point (tie->implement, id))
    tie->of_implement = TRUE;
  return TRUE;
}

static gboolean
find_through (FlSceneTie *tie, const FlMachine *machine, GError **error)
{
  const char *const *through = tie->choice->through;

  if (through == NULL || through[0] == NULL)
    return fail (error, FL_SCENE_ERROR_NO_MEMBER, "tie-down", tie->subject, "a tie-down over the load needs what it passes (through)");
  if (tie->implement != NULL && through[1] == NULL)
    {
      const FlOverPath *path = fl_implement_over_path (tie->implement, through[0]);

      if (path != NULL)
        return take_over_path (tie, path, error);
    }
  for (guint i = 0; through[i] != NULL; i++)
    if (!take_through_point (tie, machine, through[i], error))
      return FALSE;
  return TRUE;
}

static gboolean
find_machine_end (FlSceneTie *tie, const FlMachine *machine, GError **error)
{
  const FlTieDown *choice = tie->choice;

  if (choice->purpose == FL_FOR_IMPLEMENT)
    {
      tie->implement = choice->implement != NULL ? fl_machine_implement (machine, choice->implement) : NULL;
      if (tie->implement == NULL)
        return fail (error, FL_SCENE_ERROR_NO_MEMBER, "implement", choice->implement, "the machine has no such implement; name one of its own");
    }
  if (choice->over)
    return find_through (tie, machine, error);
  tie->point = choice->point != NULL ? fl_machine_point (machine, choice->point) : NULL;
  if (tie->point == NULL)
    return fail (error, FL_SCENE_ERROR_NO_MEMBER, "point", choice->point, "the load has no such tie point; name one of its own");
  tie->of_implement = tie->implement != NULL && names_point (tie->implement, choice->point);
  return TRUE;
}

static gboolean
find_gear (FlScene *scene, FlRated *rated, const FlRated **part, const char *what, const char *id, FlKind kind, GError **error)
{
  *part = NULL;
  if (id == NULL)
    return TRUE;
  if (!fl_rated_find (rated, scene->book, scene->fleet, id) || rated->kind != kind)
    return fail (error, FL_SCENE_ERROR_NO_RECORD, what, id, "the fleet has no such piece; name one of its own, a counted one as \"ID #1\"");
  *part = rated;
  return TRUE;
}

static gboolean
find_parts (FlScene *scene, FlSceneTie *tie, GError **error)
{
  const FlTieDown *c = tie->choice;
  FlAssemblyParts *parts = &tie->parts;

  if (!find_gear (scene, &tie->chain, &parts->chain, "chain", c->chain, FL_KIND_CHAIN, error)
      || !find_gear (scene, &tie->binder, &parts->binder, "binder", c->binder, FL_KIND_BINDER, error)
      || !find_gear (scene, &tie->strap, &parts->strap, "strap", c->strap, FL_KIND_STRAP, error))
    return FALSE;
  for (guint i = 0; i < c->n_connectors; i++)
    {
      if (!find_gear (scene, &tie->connectors[i], &parts->connectors[i], "connector", c->connectors[i].id, FL_KIND_CONNECTOR, error))
        return FALSE;
      parts->connector_at_anchor[i] = c->connectors[i].at_anchor;
    }
  parts->n_connectors = c->n_connectors;
  parts->point = tie->point;
  parts->through = tie->through_points;
  parts->n_through = (guint) tie->n_through;
  parts->anchors[0] = tie->anchors[0];
  parts->anchors[1] = tie->anchors[1];
  return TRUE;
}

/* Lays one tie-down where its load now stands, and takes the assembly's measure over the run. */
static void
lay (FlScene *scene, FlSceneTie *tie)
{
  const FlStand *stand_ = &scene->loads[tie->load].stand;

  if (tie->choice->over)
    fl_lay_over (&tie->lay, scene->book, &scene->ground, stand_, tie->through, tie->n_through, tie->edge, tie->anchors[0], tie->anchors[1]);
  else
    fl_lay_direct (&tie->lay, scene->book, &scene->ground, stand_, tie->point, tie->anchors[0]);
  tie->parts.run_in = tie->lay.run / FL_M_PER_IN;
  fl_assemble (&tie->assembly, scene->book, &tie->parts);
}

static gboolean
find_tie (FlScene *scene, const FlTieDown *choice, GError **error)
{
  FlSceneTie *tie = &scene->ties[scene->n_ties];

  tie->choice = choice;
  tie->subject = fl_arena_printf (scene->arena, "tie-down %u", choice->no);
  tie->load = choice->load;
  if (choice->load >= scene->n_loads)
    return fail (error, FL_SCENE_ERROR_NO_MEMBER, "tie-down", tie->subject, "its load number is beyond the plan's loads");
  if (!find_anchors (scene, tie, error) || !find_machine_end (tie, scene->loads[choice->load].machine, error)
      || !find_parts (scene, tie, error))
    return FALSE;
  tie->share = fl_book_share (scene->book, choice->over, tie->anchors[0]->side, tie->anchors[1] != NULL ? tie->anchors[1]->side : 0);
  lay (scene, tie);
  scene->n_ties++;
  return TRUE;
}

/* ── ratings that several tie-downs share ── */

static FlQuantity
part_of (FlQuantity rated, guint n)
{
  if (fl_quantity_known (rated))
    rated.value /= n;
  return rated;
}

static gboolean
runs_through (const FlSceneTie *tie, const FlTiePoint *point)
{
  for (gsize i = 0; i < tie->n_through; i++)
    if (tie->through_points[i] == point)
      return TRUE;
  return FALSE;
}

guint
fl_scene_hang_on_point (const FlScene *scene, guint load, const FlTiePoint *point)
{
  guint n = 0;

  for (guint i = 0; i < scene->n_ties; i++)
    n += scene->ties[i].load == load && (scene->ties[i].point == point || runs_through (&scene->ties[i], point));
  return n;
}

guint
fl_scene_hang_on_anchor (const FlScene *scene, const FlAnchor *anchor)
{
  guint n = 0;

  for (guint i = 0; i < scene->n_ties && anchor != NULL; i++)
    n += (scene->ties[i].anchors[0] == anchor) + (scene->ties[i].anchors[1] == anchor);
  return n;
}

/* Two tie-downs on one point or anchor have its rating between them, unless the point's maker rates it for each. */
static void
share_ratings (FlScene *scene, FlSceneTie *tie)
{
  guint n = tie->point != NULL && !tie->point->rated_each ? fl_scene_hang_on_point (scene, tie->load, tie->point) : 1;
  gboolean shared = n > 1;

  if (n > 1)
    {
      tie->point_shared = *tie->point;
      tie->point_shared.rated = part_of (tie->point->rated, n);
      tie->parts.point = &tie->point_shared;
    }
  for (gsize i = 0; i < tie->n_through; i++)
    if (tie->through_points[i] != NULL && !tie->through_points[i]->rated_each)
      {
        tie->parts.through_hang[i] = fl_scene_hang_on_point (scene, tie->load, tie->through_points[i]);
        shared = shared || tie->parts.through_hang[i] > 1;
      }
  for (guint i = 0; i < 2; i++)
    if (tie->anchors[i] != NULL && (n = fl_scene_hang_on_anchor (scene, tie->anchors[i])) > 1)
      {
        tie->anchors_shared[i] = *tie->anchors[i];
        tie->anchors_shared[i].rated = part_of (tie->anchors[i]->rated, n);
        tie->parts.anchors[i] = &tie->anchors_shared[i];
        shared = TRUE;
      }
  if (shared)
    fl_assemble (&tie->assembly, scene->book, &tie->parts);
}

/* ── the whole ── */

static void
find_on_hand (FlScene *scene)
{
  g_autoptr(GPtrArray) ids = fl_fleet_on_hand (scene->fleet, scene->move, scene->choices->trailer);

  scene->on_hand = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  for (guint i = 0; i < ids->len; i++)
    g_hash_table_add (scene->on_hand, g_strdup (g_ptr_array_index (ids, i)));
}

static gboolean
resolve (FlScene *scene, GError **error)
{
  const FlPlanChoices *c = scene->choices;

  if (!find_records (scene, error))
    return FALSE;
  if (c->n_loads > FL_SCENE_MAX_LOADS || c->n_tie_downs > FL_SCENE_MAX_TIES || scene->trailer->n_axles > FL_SCENE_MAX_AXLES
      || (scene->truck != NULL && scene->truck->n_axles > FL_SCENE_MAX_AXLES))
    return fail (error, FL_SCENE_ERROR_TOO_MANY, "plan", c->move, "at most 8 loads, 32 tie-downs and 16 axles can be judged");
  fl_ground_fill (&scene->ground, scene->trailer);
  for (gsize i = 0; i < c->n_loads; i++)
    if (!find_load (scene, &c->loads[i], error))
      return FALSE;
  for (gsize i = 0; i < c->n_tie_downs; i++)
    if (!find_tie (scene, &c->tie_downs[i], error))
      return FALSE;
  for (guint i = 0; i < scene->n_ties; i++)
    share_ratings (scene, &scene->ties[i]);
  find_on_hand (scene);
  fl_scene_weigh (scene);
  return TRUE;
}

FlScene *
fl_scene_new (const FlBook *book, const FlFleet *fleet, const FlPlan *plan, GError **error)
{
  g_autoptr(FlScene) scene = g_new0 (FlScene, 1);

  scene->book = fl_book_ref ((FlBook *) book);
  scene->fleet = fl_fleet_ref (fleet);
  scene->origin = fl_plan_ref (plan);
  scene->plan = fl_plan_ref (plan);
  scene->choices = fl_plan_choices (plan);
  scene->arena = fl_arena_new ();
  return resolve (scene, error) ? g_steal_pointer (&scene) : NULL;
}

void
fl_scene_free (FlScene *scene)
{
  if (scene == NULL)
    return;
  fl_scene_forget_forces (scene);
  g_clear_pointer (&scene->on_hand, g_hash_table_unref);
  fl_arena_free (scene->arena);
  fl_plan_unref (scene->plan);
  fl_plan_unref (scene->origin);
  fl_fleet_unref (scene->fleet);
  fl_book_unref (scene->book);
  g_free (scene);
}

void
fl_scene_place (FlScene *scene, guint load, FlFacing facing, double rear)
{
  FlSceneLoad *moved = &scene->loads[load];

  g_return_if_fail (load < scene->n_loads);
  moved->facing = facing;
  moved->rear = rear;
  scene->moved = TRUE;
  stand (scene, moved);
  for (guint i = 0; i < scene->n_ties; i++)
    if (scene->ties[i].load == load)
      lay (scene, &scene->ties[i]);
  fl_scene_weigh (scene);
}

FlScene *
fl_scene_variation (const FlScene *scene)
{
  FlScene *copy = g_memdup2 (scene, sizeof *scene);

  copy->depth = FL_JUDGE_MOVING;
  copy->force = NULL;
  return copy;
}

void
fl_scene_make_heavier (FlScene *variation, FlMachine *machines, const double *factors)
{
  for (guint i = 0; i < variation->n_loads; i++)
    {
      FlSceneLoad *load = &variation->loads[i];

      machines[i] = *load->machine;
      machines[i].weight.value *= factors[i];
      load->machine = &machines[i];
      load->weight *= factors[i];
      load->heavy = fl_book_heavy (variation->book, load->machine, load->weight);
    }
  fl_scene_weigh (variation);
}

/* A place in metres as the plan says it: in the plan's own words where it is the plan's own place, else in the house's unit without
 * what the conversion leaves behind (a millionth of an inch or a millimetre). */
static FlQuantity
written_place (const FlScene *scene, double rear, FlQuantity own)
{
  FlUnit unit = fl_unit_house (FL_DIM_LENGTH, fl_fleet_metric (scene->fleet));

  if (!isfinite (rear))
    return FL_NOT_MEASURED;
  if (fl_quantity_in (own, FL_UNIT_M) == rear)
    return own;
  return (FlQuantity) { round (fl_quantity_in (FL_M (rear), unit) * 1e6) / 1e6, unit };
}

/* After a move the plan is written anew, and the choices that the tie-downs point to with it. */
static void
write_places (FlScene *scene)
{
  const FlPlanChoices *own = fl_plan_choices (scene->origin);

  for (guint i = 0; i < scene->n_loads; i++)
    {
      const FlSceneLoad *load = &scene->loads[i];
      FlPlan *next = fl_plan_with_place (scene->plan, i, load->facing, written_place (scene, load->rear, own->loads[i].rear));

      fl_plan_unref (scene->plan);
      scene->plan = next;
    }
  scene->choices = fl_plan_choices (scene->plan);
  for (guint i = 0; i < scene->n_ties; i++)
    scene->ties[i].choice = &scene->choices->tie_downs[i];
  scene->moved = FALSE;
}

const FlBook *
fl_scene_book (const FlScene *scene)
{
  return scene->book;
}

const FlFleet *
fl_scene_fleet (const FlScene *scene)
{
  return scene->fleet;
}

const FlPlan *
fl_scene_plan (const FlScene *scene)
{
  if (scene->moved)
    write_places ((FlScene *) scene);
  return scene->plan;
}

gboolean
fl_scene_own (const FlSceneTie *tie)
{
  return tie->implement == NULL;
}

gboolean
fl_scene_holds (const FlSceneTie *tie)
{
  return (tie->lay.flags & FL_LAY_FORBIDS) == 0
         && (tie->assembly.flags & (FL_ASM_NO_GEAR | FL_ASM_OUT_OF_USE | FL_ASM_HOOK_POINT | FL_ASM_HOOK_ANCHOR)) == 0;
}
