/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Asking the force answers of every load, case, level and friction: see fl-force.h. */
#include "fl-force.h"

#include <math.h>

#include "fl-say.h"

const FlForceAnswer *
fl_force_answer (const FlSceneForce *force, gsize case_index, FlForceLevel level, guint friction)
{
  return &force->answers[(case_index * FL_N_LEVELS + level) * FL_N_FRICTIONS + friction];
}

gboolean
fl_force_clear (const FlForceAnswer *answer, double demand)
{
  return answer->bound_done && answer->sharing_done && answer->settled && fl_reaches (answer->bound, demand) && fl_reaches (1.0, answer->use);
}

static void
note_limits (FlForceAnswer *answer, const FlForceBody *body, guint64 at_limit)
{
  for (gsize k = 0; k < body->n_pulls; k++)
    {
      gboolean there = (at_limit >> k & 1) != 0 && body->tie_of[k] != FL_FORCE_STOP;

      /* Both legs of an `over` tie-down stand at it together; it is named once. */
      if (there && (answer->n_at_limit == 0 || answer->at_limit[answer->n_at_limit - 1] != body->tie_of[k]))
        answer->at_limit[answer->n_at_limit++] = body->tie_of[k];
    }
}

static void
ask_bound (FlForceAnswer *answer, const FlForceBody *body, const FlPulls *pulls, FlVec direction)
{
  FlCapacity capacity = fl_equilibrium_capacity (&body->body, pulls, direction);

  answer->bound_done = capacity.mode != FL_NOT_JUDGED;
  answer->left_out = body->left_out || capacity.skipped > 0;
  answer->bound = capacity.g;
  answer->mode = capacity.mode;
  note_limits (answer, body, capacity.at_limit);
}

/* Looked at up to twice the demand: further the answer is "at least that". */
static void
ask_sharing (FlForceAnswer *answer, const FlForceBody *body, const FlPulls *pulls, FlVec direction, double demand, guint steps)
{
  FlSharing sharing;

  answer->upto = fmax (demand, fmin (2.0 * demand, answer->bound));
  sharing = fl_sharing_solve (&body->body, pulls, direction, demand, answer->upto, steps);
  answer->sharing_done = TRUE;
  answer->left_out = answer->left_out || sharing.skipped > 0;
  answer->settled = sharing.converged;
  answer->holds = sharing.holds;
  answer->use = sharing.use;
  answer->worst = sharing.worst < body->n_pulls ? body->tie_of[sharing.worst] : FL_FORCE_STOP;
  answer->moved = fl_vec_norm (sharing.moved);
  answer->turned = fl_vec_norm (sharing.turned);
  for (gsize k = 0; k < body->n_pulls; k++)
    if (body->tie_of[k] != FL_FORCE_STOP)
      {
        guint tie = body->tie_of[k];

        answer->tension[tie] = fmax (answer->tension[tie], sharing.tension[k]);
        answer->tie_use[tie] = answer->tension[tie] / body->pulls[k].limit;
      }
}

typedef struct { FlScene *scene; guint load; FlSceneForce *force; } Asked;

static void
ask_level (const Asked *a, FlForceBody *body, FlForceLevel level, guint friction)
{
  const FlBookData *data = fl_book_data (a->scene->book);
  FlPulls pulls;

  fl_force_body_fill (body, a->scene, a->load, level, friction == FL_FRICTION_NONE ? NULL : a->force->state);
  pulls = (FlPulls) { body->pulls, body->n_pulls, body->shared, body->n_shared };
  for (gsize k = 0; k < data->n_cases; k++)
    {
      FlForceAnswer *answer = (FlForceAnswer *) fl_force_answer (a->force, k, level, friction);
      double demand = level == FL_LEVEL_WORKING ? data->cases[k].working : data->cases[k].breaking;

      ask_bound (answer, body, &pulls, data->cases[k].direction);
      if (a->scene->depth == FL_JUDGE_SETTLED || friction == FL_FRICTION_OF_DECK)
        ask_sharing (answer, body, &pulls, data->cases[k].direction, demand, (guint) data->force_steps);
    }
}

/* With nothing on it but its weight: does it stand on what it stands on? */
static gboolean
falls (const FlForceBody *body)
{
  const FlPulls none = { NULL, 0, NULL, 0 };

  return fl_equilibrium_capacity (&body->body, &none, (FlVec) { 1.0, 0.0, 0.0 }).mode == FL_UNSTABLE_AT_REST;
}

static void
work_load (FlScene *scene, guint load, FlSceneForce *force)
{
  Asked asked = { scene, load, force };
  g_autofree FlForceBody *body = g_new (FlForceBody, 1);
  guint levels = scene->depth == FL_JUDGE_SETTLED ? FL_N_LEVELS : 1;

  force->given = scene->move->deck_state != NULL;
  force->state = force->given ? scene->move->deck_state : fl_book_data (scene->book)->state_when_not_given;
  fl_force_body_fill (body, scene, load, FL_LEVEL_WORKING, force->state);
  force->why = body->why;
  force->mu = body->mu;
  if (force->why == FL_FORCE_JUDGED && falls (body))
    force->why = FL_FORCE_FALLS;
  if (force->why != FL_FORCE_JUDGED)
    return;
  force->answers = g_new0 (FlForceAnswer, fl_book_data (scene->book)->n_cases * FL_N_LEVELS * FL_N_FRICTIONS);
  for (guint level = 0; level < levels; level++)
    for (guint friction = 0; friction < FL_N_FRICTIONS; friction++)
      ask_level (&asked, body, level, friction);
}

void
fl_scene_work_forces (FlScene *scene)
{
  fl_scene_forget_forces (scene);
  scene->force = g_new0 (FlSceneForce, scene->n_loads + 1);
  for (guint i = 0; i < scene->n_loads; i++)
    work_load (scene, i, &scene->force[i]);
}

void
fl_scene_forget_forces (FlScene *scene)
{
  for (guint i = 0; scene->force != NULL && i < scene->n_loads; i++)
    g_free (scene->force[i].answers);
  g_clear_pointer (&scene->force, g_free);
}
