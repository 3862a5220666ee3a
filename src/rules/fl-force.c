/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A load of a scene as a body with pulls: see fl-force.h. */
#include "fl-force.h"

#include <math.h>

#include "fl-contact.h"
#include "fl-say.h"
#include "fl-spring.h"

/* ── friction ── */

/* Of a running gear under a load, in a state of the deck. */
static double
friction_of (const FlScene *scene, guint load, FlRunningGear gear, const char *state)
{
  const FlSceneLoad *l = &scene->loads[load];
  const FlPlanLoad *choice = &scene->choices->loads[load];
  const char *surface = l->stand.zone != NULL && l->stand.zone->surface != NULL ? l->stand.zone->surface : scene->trailer->surface;

  if (choice->mat != NULL)      /* as certified, else what an unmarked mat counts, 393.108(g) */
    return isnan (choice->mat_mu) ? fl_book_data (scene->book)->mat_default_mu : choice->mat_mu;
  return fl_book_friction (scene->book, fl_running_gear_id (gear), surface, state);
}

static FlRunningGear
gear_of (const FlMachine *machine, const FlContactPatch *patch)
{
  return patch->gear != FL_GEAR_UNKNOWN ? patch->gear : machine->running_gear;
}

/* A wheel or drum that is neither braked nor chocked rolls; tracks are braked unless somebody says that they are not. */
static gboolean
may_roll (const FlScene *scene, guint load, const FlContactPatch *patch, FlRunningGear gear)
{
  gboolean track = gear == FL_RUBBER_TRACKS || gear == FL_STEEL_TRACKS;

  if (scene->choices->loads[load].chocked || scene->loads[load].machine->article)
    return FALSE;
  return track ? patch->braked == FL_IS_NOT : patch->braked != FL_IS;
}

/* What one contact holds along the trailer, or across it. */
static double
friction_along (const FlScene *scene, guint load, const FlContactPatch *patch, const char *state)
{
  FlRunningGear gear = gear_of (scene->loads[load].machine, patch);
  double mu = friction_of (scene, load, gear, state);

  return may_roll (scene, load, patch, gear) ? fmin (mu, fl_book_data (scene->book)->friction_rolling) : mu;
}

double
fl_force_least_friction (const FlScene *scene, guint load, const char *state, gboolean lengthwise)
{
  const FlMachine *machine = scene->loads[load].machine;
  const FlContactPatch whole = { .gear = machine->running_gear, .braked = FL_NOT_LOOKED };
  double least = INFINITY;

  for (gsize i = 0; i < machine->n_contacts; i++)
    least = fmin (least, lengthwise ? friction_along (scene, load, &machine->contacts[i], state)
                                    : friction_of (scene, load, gear_of (machine, &machine->contacts[i]), state));
  if (machine->n_contacts == 0 && machine->running_gear != FL_GEAR_UNKNOWN)
    least = lengthwise ? friction_along (scene, load, &whole, state) : friction_of (scene, load, machine->running_gear, state);
  return isfinite (least) ? least : NAN;
}

/* ── contacts ── */

static void
add_contact (FlForceBody *out, FlContact contact)
{
  if (out->body.n_contacts < FL_MAX_CONTACTS)
    out->contacts[out->body.n_contacts++] = contact;
}

/* A wheel is one point, a drum its two ends, a track the corners of its rectangle. */
static void
add_patch (FlForceBody *out, const FlScene *scene, guint load, const FlContactPatch *patch, const char *state)
{
  const FlSceneLoad *l = &scene->loads[load];
  FlRunningGear gear = gear_of (l->machine, patch);
  FlRect r = fl_contact_rect (l->stand.pose, fl_quantity_in (patch->x, FL_UNIT_M), fl_quantity_in (patch->y, FL_UNIT_M),
                              fl_quantity_in (patch->length, FL_UNIT_M), fl_quantity_in (patch->width, FL_UNIT_M));
  FlBookContact stiff = fl_book_contact (scene->book, fl_running_gear_id (gear));
  double mu = state != NULL ? friction_of (scene, load, gear, state) : 0.0;
  double along = state != NULL ? friction_along (scene, load, patch, state) : 0.0;
  FlContact c = { { (r.x_min + r.x_max) / 2, (r.y_min + r.y_max) / 2, l->stand.pose.z }, along, mu, stiff.up, stiff.sideways };
  gboolean track = gear == FL_RUBBER_TRACKS || gear == FL_STEEL_TRACKS;

  if (!fl_rect_is_valid (r))
    {
      out->why = FL_FORCE_NO_CONTACTS;
      return;
    }
  out->mu = fmin (out->mu, mu);
  for (guint i = 0; i < (track ? 4u : gear == FL_STEEL_DRUM ? 2u : 1u); i++)
    {
      FlContact corner = c;

      if (track)
        corner.at.x = i < 2 ? r.x_min : r.x_max;
      if (track || gear == FL_STEEL_DRUM)
        corner.at.y = i % 2 == 0 ? r.y_min : r.y_max;
      add_contact (out, corner);
    }
}

/* ── tie-downs ── */

/* The assembly without a division of what it shares with others: the force answers limit the sum instead. */
static FlAssembly
undivided (const FlScene *scene, const FlSceneTie *tie)
{
  FlAssemblyParts parts = tie->parts;
  FlAssembly assembly;

  if (parts.point == tie->point && parts.anchors[0] == tie->anchors[0] && parts.anchors[1] == tie->anchors[1])
    return tie->assembly;
  parts.point = tie->point;
  parts.anchors[0] = tie->anchors[0];
  parts.anchors[1] = tie->anchors[1];
  fl_assemble (&assembly, scene->book, &parts);
  return assembly;
}

static double
newtons (const FlScene *scene, double weight)
{
  const FlBookData *data = fl_book_data (scene->book);

  return fl_quantity_in ((FlQuantity) { weight, data->unit }, FL_UNIT_KG) * data->g;
}

FlQuantity
fl_force_as_weight (const FlScene *scene, double force)
{
  const FlBookData *data = fl_book_data (scene->book);

  return (FlQuantity) { fl_quantity_in (FL_KG (force / data->g), data->unit), data->unit };
}

static void
add_pull (FlForceBody *out, guint tie, FlPull pull)
{
  if (out->n_pulls == FL_MAX_PULLS)
    {
      out->left_out = TRUE;
      return;
    }
  out->tie_of[out->n_pulls] = tie;
  out->pulls[out->n_pulls++] = pull;
}

static void
add_tie (FlForceBody *out, const FlScene *scene, guint i, FlForceLevel level)
{
  const FlSceneTie *tie = &scene->ties[i];
  FlAssembly assembly = undivided (scene, tie);
  double limit = level == FL_LEVEL_WORKING ? assembly.wll : assembly.breaking;
  gboolean over = tie->choice->over;
  FlPull pull = { .along = tie->lay.pull, .limit = newtons (scene, limit), .tie = over ? i + 1 : 0 };

  if (!isfinite (limit) || limit <= 0.0 || (assembly.flags & FL_ASM_WLL_UNKNOWN) != 0 || tie->lay.n_path < 2)
    {
      out->left_out = TRUE;
      return;
    }
  pull.ea = fl_spring_ea (scene->book, &tie->parts);
  pull.length = over ? tie->lay.run / 2 : tie->lay.run;
  pull.give = fl_spring_give (scene->book, &tie->parts) / (over ? 2 : 1);
  pull.at = tie->lay.path[over ? 1 : 0];
  add_pull (out, i, pull);
  if (!over)
    return;
  pull.at = tie->lay.path[tie->lay.n_path - 2];
  pull.along = tie->lay.pull_b;
  add_pull (out, i, pull);
}

/* What several legs hang on: the sum of their tensions is limited by its rating. */
static void
add_shared (FlForceBody *out, double limit, guint64 legs)
{
  if ((legs & (legs - 1)) != 0 && isfinite (limit) && out->n_shared < FL_MAX_SHARED)
    out->shared[out->n_shared++] = (FlSharedLimit) { limit, legs };
}

static guint64
legs_on (const FlForceBody *out, const FlScene *scene, const FlTiePoint *point, const FlAnchor *anchor)
{
  guint64 legs = 0;

  for (gsize k = 0; k < out->n_pulls; k++)
    {
      const FlSceneTie *tie = out->tie_of[k] != FL_FORCE_STOP ? &scene->ties[out->tie_of[k]] : NULL;
      gboolean second = k > 0 && out->tie_of[k - 1] == out->tie_of[k];

      if (tie != NULL && ((point != NULL && tie->point == point) || (anchor != NULL && tie->anchors[second ? 1 : 0] == anchor)))
        legs |= G_GUINT64_CONSTANT (1) << k;
    }
  return legs;
}

/* At the breaking level nobody knows what a point or an anchor bears: its rating is then not counted. */
static void
add_all_shared (FlForceBody *out, const FlScene *scene)
{
  FlUnit unit = fl_book_data (scene->book)->unit;

  for (gsize k = 0; k < out->n_pulls; k++)
    {
      const FlSceneTie *tie = out->tie_of[k] != FL_FORCE_STOP ? &scene->ties[out->tie_of[k]] : NULL;
      guint64 own = G_GUINT64_CONSTANT (1) << k, legs;
      const FlAnchor *anchor;

      if (tie == NULL)
        continue;
      legs = tie->point != NULL && !tie->point->rated_each ? legs_on (out, scene, tie->point, NULL) : 0;
      if (legs != 0 && (legs & -legs) == own)           /* said once, by the first of them */
        add_shared (out, newtons (scene, fl_quantity_in (tie->point->rated, unit)), legs);
      anchor = tie->anchors[k > 0 && out->tie_of[k - 1] == out->tie_of[k] ? 1 : 0];
      legs = legs_on (out, scene, NULL, anchor);
      if ((legs & -legs) == own)
        add_shared (out, newtons (scene, fl_quantity_in (anchor->rated, unit)), legs);
    }
}

/* A stop or blocking in front pushes back at the level of the deck, at both sides of the load, with its rating in all. */
static void
add_stop (FlForceBody *out, const FlScene *scene, guint load)
{
  const FlSceneLoad *l = &scene->loads[load];
  double rated, half = fl_quantity_in (l->machine->width, FL_UNIT_M) / 2;
  FlPull pull = { .along = { -1.0, 0.0, 0.0 }, .give = 1 / fl_book_data (scene->book)->stop_stiffness };
  guint64 first = G_GUINT64_CONSTANT (1) << out->n_pulls;

  if (!fl_scene_blocked (scene, load, &rated) || !isfinite (rated) || out->n_pulls + 2 > FL_MAX_PULLS)
    return;
  pull.limit = newtons (scene, rated);
  pull.at = (FlVec) { l->stand.outline.max.x, l->left - (isfinite (half) ? half : 0.0), l->stand.pose.z };
  add_pull (out, FL_FORCE_STOP, pull);
  pull.at.y = 2 * l->left - pull.at.y;
  add_pull (out, FL_FORCE_STOP, pull);
  add_shared (out, pull.limit, first | first << 1);
}

/* ── the whole ── */

static FlForceWhy
why_not (const FlSceneLoad *load, FlVec cg)
{
  if (!load->stand.placed)
    return FL_FORCE_NO_PLACE;
  if (!(load->weight > 0.0))
    return FL_FORCE_NO_WEIGHT;
  if (fl_machine_joint_free (load->machine))
    return FL_FORCE_JOINT_FREE;
  if (!fl_vec_is_place (cg))
    return FL_FORCE_NO_CG;
  return load->machine->n_contacts == 0 ? FL_FORCE_NO_CONTACTS : FL_FORCE_JUDGED;
}

void
fl_force_body_fill (FlForceBody *out, const FlScene *scene, guint load, FlForceLevel level, const char *state)
{
  const FlSceneLoad *l = &scene->loads[load];
  FlPlace place = l->machine->cg;
  FlVec cg;

  if (!fl_quantity_known (place.y))     /* a machine that nobody says leans to one side does not */
    place.y = FL_M (0.0);
  cg = fl_stand_point (&l->stand, place);
  out->why = why_not (l, cg);
  out->n_pulls = out->n_shared = out->body.n_contacts = 0;
  out->left_out = FALSE;
  out->mu = INFINITY;
  if (out->why != FL_FORCE_JUDGED)
    return;
  out->body.mass = fl_quantity_in ((FlQuantity) { l->weight, fl_book_data (scene->book)->unit }, FL_UNIT_KG);
  out->body.g = fl_book_data (scene->book)->g;
  out->body.cg = cg;
  out->body.contacts = out->contacts;
  for (gsize i = 0; i < l->machine->n_contacts; i++)
    add_patch (out, scene, load, &l->machine->contacts[i], state);
  for (guint i = 0; i < scene->n_ties; i++)
    if (scene->ties[i].load == load && fl_scene_own (&scene->ties[i]) && fl_scene_holds (&scene->ties[i]))
      add_tie (out, scene, i, level);
  if (level == FL_LEVEL_WORKING)
    add_all_shared (out, scene);
  add_stop (out, scene, load);
}
