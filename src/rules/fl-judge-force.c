/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What an assessment keeps of the force answers: for each load, case, level and friction the component sum, the upper bound and the load
 * sharing with its tensions. */
#include "fl-force.h"

#include <math.h>

#include "fl-say.h"

static const char *const level_ids[FL_N_LEVELS] = { "working", "breaking" };

typedef struct { const FlScene *scene; FlArena *arena; FlForceResult *out; gsize n; FlTensionResult *tensions; gsize n_tensions; } Kept;
typedef struct { guint load; gsize k; FlForceLevel level; guint friction; const char *state; double demand; } Case;

static FlForceResult
head_of (const Kept *kept, const Case *c, const char *method)
{
  return (FlForceResult) { .load = c->load, .case_id = fl_book_data (kept->scene->book)->cases[c->k].id, .level = level_ids[c->level],
                           .friction = c->state, .method = method, .demand = FL_GEES (c->demand), .capacity = FL_NOT_MEASURED,
                           .moved = FL_NOT_MEASURED, .turned = FL_NOT_MEASURED };
}

/* Sums of the working limits; nobody has a component method for the breaking level. */
static void
keep_sum (Kept *kept, const Case *c, const FlSums *sums)
{
  const FlScene *scene = kept->scene;
  FlForceResult result = head_of (kept, c, "component_sum");
  FlMovement way = fl_movement_of (fl_book_data (scene->book)->cases[c->k].direction);
  double have = way < FL_N_MOVEMENTS ? sums->g[way] : NAN, rated;

  if (c->friction == FL_FRICTION_OF_DECK)
    have += fl_force_least_friction (scene, c->load, c->state, way == FL_MOVES_FORWARD || way == FL_MOVES_REARWARD);
  if (way == FL_MOVES_FORWARD && fl_scene_blocked (scene, c->load, &rated) && isfinite (rated) && scene->loads[c->load].weight > 0.0)
    have += rated / scene->loads[c->load].weight;
  if (!isfinite (have) || !(scene->loads[c->load].weight > 0.0))
    return;
  result.capacity = FL_GEES (have);
  kept->out[kept->n++] = result;
}

static void
keep_bound (Kept *kept, const Case *c, const FlForceAnswer *answer)
{
  FlForceResult result = head_of (kept, c, "upper_bound");
  guint *numbers = fl_arena_new0 (kept->arena, guint, MAX (1u, answer->n_at_limit));

  for (guint i = 0; i < answer->n_at_limit; i++)
    numbers[i] = kept->scene->ties[answer->at_limit[i]].choice->no;
  result.capacity = FL_GEES (answer->bound);
  result.mode = fl_mode_id (answer->mode);
  result.at_limit = numbers;
  result.n_at_limit = answer->n_at_limit;
  kept->out[kept->n++] = result;
}

static void
keep_tensions (Kept *kept, const Case *c, const FlForceAnswer *answer)
{
  const FlScene *scene = kept->scene;
  const FlBookData *data = fl_book_data (scene->book);

  for (guint i = 0; i < scene->n_ties; i++)
    if (scene->ties[i].load == c->load && fl_scene_own (&scene->ties[i]) && fl_scene_holds (&scene->ties[i]))
      kept->tensions[kept->n_tensions++] = (FlTensionResult) {
        .load = c->load, .case_id = data->cases[c->k].id, .level = level_ids[c->level], .friction = c->state,
        .no = scene->ties[i].choice->no, .use = answer->tie_use[i],
        .tension = fl_force_as_weight (scene, answer->tension[i]) };
}

static void
keep_sharing (Kept *kept, const Case *c, const FlForceAnswer *answer)
{
  FlForceResult result = head_of (kept, c, "load_sharing");

  if (answer->settled)
    {
      result.capacity = FL_GEES (isfinite (answer->holds) ? answer->holds : answer->upto);
      result.moved = fl_inches (answer->moved);
      result.turned = (FlQuantity) { answer->turned * 180.0 / G_PI, FL_UNIT_DEG };
      keep_tensions (kept, c, answer);
    }
  else
    result.mode = "not_settled";
  kept->out[kept->n++] = result;
}

static void
keep_level (Kept *kept, guint load, const FlSums *sums, FlForceLevel level)
{
  const FlSceneForce *force = &kept->scene->force[load];
  const FlBookData *data = fl_book_data (kept->scene->book);

  for (guint friction = 0; friction < FL_N_FRICTIONS; friction++)
    for (gsize k = 0; k < data->n_cases; k++)
      {
        Case c = { load, k, level, friction, friction == FL_FRICTION_NONE ? "none" : force->state,
                   level == FL_LEVEL_WORKING ? data->cases[k].working : data->cases[k].breaking };
        const FlForceAnswer *answer = force->answers != NULL ? fl_force_answer (force, k, level, friction) : NULL;

        if (level == FL_LEVEL_WORKING)
          keep_sum (kept, &c, sums);
        /* A tie-down whose breaking value nobody knows: the level is not judged, rather than judged without it. */
        if (answer == NULL || (level == FL_LEVEL_BREAKING && answer->left_out))
          continue;
        if (answer->bound_done)
          keep_bound (kept, &c, answer);
        if (answer->sharing_done)
          keep_sharing (kept, &c, answer);
      }
}

void
fl_judge_freeze_forces (const FlScene *scene, FlAssessmentParts *parts, FlArena *arena)
{
  gsize cases = scene->n_loads * fl_book_data (scene->book)->n_cases * FL_N_LEVELS * FL_N_FRICTIONS;
  Kept kept = { scene, arena, fl_arena_new0 (arena, FlForceResult, MAX (1u, 3 * cases)), 0,
                fl_arena_new0 (arena, FlTensionResult, MAX (1u, cases * scene->n_ties)), 0 };

  for (guint i = 0; i < scene->n_loads; i++)
    {
      FlSums sums = fl_scene_sums (scene, i);

      for (guint level = 0; level < FL_N_LEVELS; level++)
        keep_level (&kept, i, &sums, level);
    }
  parts->forces = kept.out;
  parts->n_forces = kept.n;
  parts->tensions = kept.tensions;
  parts->n_tensions = kept.n_tensions;
}
