/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What keeps the load where it is: held in all directions (393.130(c)(1)), rolling (393.106(c)(1)), implements (393.130(b)(1)),
 * articulation (393.130(b)(2)) and the other locks. */
#include "fl-force.h"
#include "fl-house.h"
#include "fl-say.h"

#include <math.h>

static const char *const movement_words[FL_N_MOVEMENTS] = {
  N_("forward"), N_("rearward"), N_("to the left"), N_("to the right"), N_("upward")
};

/* ── all directions ── */

static void
add_blocking (const FlScene *scene, guint load, FlSums *sums)
{
  double rated, weight = scene->loads[load].weight;

  if (!fl_scene_blocked (scene, load, &rated))
    return;
  sums->holding[FL_MOVES_FORWARD]++;
  if (isfinite (rated) && weight > 0.0)
    sums->g[FL_MOVES_FORWARD] += rated / weight;
}

static void
say_not_held (const FlScene *scene, FlFindings *findings, guint i, FlMovement way)
{
  const FlSceneLoad *load = &scene->loads[i];

  fl_say (scene, findings, &(FlSaying) {
    .rule = "all_directions", .standing = fl_heavy_standing (load), .verdict = fl_heavy_short (load), .subject = load->subject, .load = i + 1,
    .have = FL_GEES (0.0),
    .message = load->heavy ? N_("Nothing holds it against moving {way_word}: a tie-down is needed that pulls the other way.")
                           : N_("Nothing holds it against moving {way_word}: better add a tie-down that pulls the other way."),
    .facts = { FL_FACT_TEXT ("way_word", movement_words[way]) } });
}

/* What is held each way without friction: the upper bound where the load can be judged as a body, else the component sum. */
static void
hold_each_way (const FlScene *scene, guint i, const FlSums *sums, double *held)
{
  const FlBookData *data = fl_book_data (scene->book);
  const FlSceneForce *force = scene->force != NULL ? &scene->force[i] : NULL;

  for (guint k = 0; k < FL_N_MOVEMENTS; k++)
    held[k] = sums->g[k];
  if (force == NULL || force->why != FL_FORCE_JUDGED)
    return;
  for (gsize c = 0; c < data->n_cases; c++)
    {
      FlMovement way = fl_movement_of (data->cases[c].direction);

      if (way < FL_N_MOVEMENTS)
        held[way] = fl_force_answer (force, c, FL_LEVEL_WORKING, FL_FRICTION_NONE)->bound;
    }
}

static void
check_floor (const FlScene *scene, FlFindings *findings, guint i, const FlSums *sums)
{
  const FlSceneLoad *load = &scene->loads[i];
  double floor = fl_book_data (scene->book)->all_directions_floor, held[FL_N_MOVEMENTS];
  FlSteps steps = FL_STEPS (findings);
  gboolean known = load->weight > 0.0;
  guint way = 0;

  hold_each_way (scene, i, sums, held);
  for (guint k = 0; k < FL_N_MOVEMENTS; k++)
    {
      way = held[k] < held[way] ? k : way;
      fl_step (&steps, N_("Against moving {way_word}: {held} (component sum {sum}), friction not counted."),
               FL_FACT_TEXT ("way_word", movement_words[k]), FL_FACT_QUANTITY ("held", FL_GEES (held[k])),
               FL_FACT_QUANTITY ("sum", FL_GEES (sums->g[k])));
    }
  fl_say (scene, findings, &(FlSaying) {
    .rule = "all_directions", .standing = fl_heavy_standing (load), .verdict = !known ? FL_UNKNOWN : fl_reaches (held[way], floor) ? FL_MET : FL_CAUTION,
    .subject = load->subject, .load = i + 1, .need = FL_GEES (floor), .have = known ? FL_GEES (held[way]) : FL_NOT_MEASURED,
    .steps = known ? &steps : NULL,
    .message = known ? N_("Held in all directions by the tie-downs alone, friction not counted; least {way_word}: {have} of its weight.")
                     : N_("Something holds it in each direction; how much is not known, for its weight is not on record."),
    .facts = { FL_FACT_TEXT ("way_word", movement_words[way]) } });
}

void
fl_check_all_directions (const FlScene *scene, FlFindings *findings)
{
  for (guint i = 0; i < scene->n_loads; i++)
    {
      FlSums sums = fl_scene_sums (scene, i);
      gboolean all = TRUE;

      add_blocking (scene, i, &sums);
      for (guint k = 0; k < FL_N_MOVEMENTS; k++)
        if (sums.holding[k] == 0)
          {
            say_not_held (scene, findings, i, k);
            all = FALSE;
          }
      if (all)
        check_floor (scene, findings, i, &sums);
    }
}

/* ── rolling ── */

/* On wheels or drums; a machine of which nobody said what it runs on may have them. */
static gboolean
may_roll (const FlMachine *machine)
{
  if (machine->running_gear == FL_RUBBER_TIRES || machine->running_gear == FL_STEEL_DRUM)
    return TRUE;
  if (machine->running_gear == FL_GEAR_UNKNOWN && machine->n_contacts == 0)
    return !machine->article;
  for (gsize i = 0; i < machine->n_contacts; i++)
    if (machine->contacts[i].gear == FL_RUBBER_TIRES || machine->contacts[i].gear == FL_STEEL_DRUM)
      return TRUE;
  return FALSE;
}

void
fl_check_rolling (const FlScene *scene, FlFindings *findings)
{
  for (guint i = 0; i < scene->n_loads; i++)
    {
      const FlSceneLoad *load = &scene->loads[i];
      FlSums sums = fl_scene_sums (scene, i);
      gboolean both = sums.holding[FL_MOVES_FORWARD] > 0 && sums.holding[FL_MOVES_REARWARD] > 0;

      if (!may_roll (load->machine))
        continue;
      fl_say (scene, findings, &(FlSaying) {
        .rule = "rolling", .standing = FL_BY_LAW, .verdict = both || scene->choices->loads[i].chocked ? FL_MET : FL_SHORT,
        .subject = load->subject, .load = i + 1,
        .message = scene->choices->loads[i].chocked ? N_("It is chocked against rolling.")
                   : both ? N_("Tie-downs keep it from rolling forward and rearward.")
                          : N_("It may roll: chock it, or tie it down both ways.") });
    }
}

/* ── implements ── */

static guint
count_for (const FlScene *scene, guint load, const FlImplement *implement)
{
  guint n = 0;

  for (guint i = 0; i < scene->n_ties; i++)
    {
      const FlSceneTie *tie = &scene->ties[i];

      n += tie->load == load && tie->implement != NULL && strcmp (tie->implement->id, implement->id) == 0 && tie->of_implement
           && fl_scene_holds (tie);
    }
  return n;
}

static const char *
implement_message (gboolean heavy, gboolean locked, gint need, gint have)
{
  if (locked && have < need)
    return N_("Lower the {implement} fully and engage its {lock}, which the house takes for a tie-down of its own.");
  if (have >= need)
    return have == 0 ? N_("Lower the {implement} fully; its record asks for no tie-down of its own: look whether it is secured to the trailer.")
           : have == 1 ? N_("Lower the {implement} fully; a tie-down of its own holds it.")
                       : N_("Lower the {implement} fully; {have} tie-downs of its own hold it.");
  if (need == 1)
    return heavy ? N_("The {implement} must be lowered and held by a tie-down of its own; it has none.")
                 : N_("The {implement} is better lowered and held by a tie-down of its own; it has none.");
  return heavy ? N_("The {implement} must be lowered and held by {need} tie-downs of its own; it has {have}.")
               : N_("The {implement} is better lowered and held by {need} tie-downs of its own; it has {have}.");
}

/* The rule wants it secured to the vehicle: a record that asks for no tie-down at all is at best something to look at. */
static FlVerdict
verdict_of_implement (const FlSceneLoad *load, gint need, gint have, gboolean locked)
{
  if (have < need && !locked)
    return fl_heavy_short (load);
  return have == 0 && !locked ? FL_CAUTION : FL_MET;
}

static void
check_implement (const FlScene *scene, FlFindings *findings, guint i, const FlImplement *implement)
{
  const FlSceneLoad *load = &scene->loads[i];
  gint have = (gint) count_for (scene, i, implement), need = implement->min_tie_downs;
  const char *name = fl_name_or_id (implement->name, implement->id);
  const FlLock *lock = fl_implement_lock (load->machine, implement);
  gboolean locked = fl_house_lock_suffices (scene->book, load->machine, implement);

  fl_say (scene, findings, &(FlSaying) {
    .rule = "implements", .standing = fl_heavy_standing (load), .verdict = verdict_of_implement (load, need, have, locked),
    .subject = load->subject, .load = i + 1, .need = FL_COUNT (need), .have = FL_COUNT (have),
    .message = implement_message (load->heavy, locked, need, have),
    .facts = { FL_FACT_TEXT ("implement", name), FL_FACT_TEXT ("lock", lock != NULL ? fl_name_or_id (lock->name, lock->id) : "-") } });
  if (!implement->can_lower)
    fl_say (scene, findings, &(FlSaying) {
      .rule = "implements", .standing = FL_BY_PRACTICE, .verdict = FL_CAUTION, .subject = load->subject, .load = i + 1,
      .message = N_("The {implement} cannot be lowered fully: a competent person must see how it is secured."),
      .facts = { FL_FACT_TEXT ("implement", name) } });
}

void
fl_check_implements (const FlScene *scene, FlFindings *findings)
{
  for (guint i = 0; i < scene->n_loads; i++)
    for (gsize k = 0; k < scene->loads[i].machine->n_implements; k++)
      check_implement (scene, findings, i, &scene->loads[i].machine->implements[k]);
}

/* ── articulation ── */

static const FlLock *
articulation_lock (const FlMachine *machine)
{
  for (gsize i = 0; i < machine->n_locks; i++)
    if (machine->locks[i].kind == FL_LOCK_ARTICULATION)
      return &machine->locks[i];
  return NULL;
}

gboolean
fl_machine_joint_free (const FlMachine *machine)
{
  const FlLock *lock = articulation_lock (machine);

  return machine->articulated && (lock == NULL || lock->on_machine == FL_IS_NOT || lock->fitted == FL_IS_NOT);
}

typedef struct { guint n, left, right; } Section;

/* A section is held by the tie-downs on its own points; left and right are the sides to which they pull it. */
static Section
held (const FlScene *scene, guint load, const char *section)
{
  Section s = { 0, 0, 0 };

  for (guint i = 0; i < scene->n_ties; i++)
    {
      const FlSceneTie *tie = &scene->ties[i];

      if (tie->load != load || !fl_scene_own (tie) || !fl_scene_holds (tie) || tie->point == NULL
          || g_strcmp0 (tie->point->section, section) != 0)
        continue;
      s.n++;
      s.left += tie->lay.pull.y > 0.0;
      s.right += tie->lay.pull.y < 0.0;
    }
  return s;
}

static void
check_free_joint (const FlScene *scene, FlFindings *findings, guint i)
{
  const FlSceneLoad *load = &scene->loads[i];
  guint need = (guint) fl_book_data (scene->book)->section_count;
  Section front = held (scene, i, "front"), rear = held (scene, i, "rear");
  gboolean enough = MIN (front.n, rear.n) >= need && MIN (MIN (front.left, front.right), MIN (rear.left, rear.right)) > 0;

  fl_say (scene, findings, &(FlSaying) {
    .rule = "articulation", .standing = load->heavy ? FL_BY_PRACTICE : FL_BY_ADVICE, .verdict = enough ? FL_CAUTION : fl_heavy_short (load),
    .subject = load->subject, .load = i + 1, .need = FL_COUNT (2 * need), .have = FL_COUNT (front.n + rear.n),
    .message = enough ? N_("No articulation lock: tie-downs in front {front}, in the rear {rear}; a competent person must look at it.")
                      : N_("No articulation lock: fit it, or hold front and rear each by {each} tie-downs, left and right; in front {front}, in the rear {rear}."),
    .facts = { FL_FACT_QUANTITY ("front", FL_COUNT (front.n)), FL_FACT_QUANTITY ("rear", FL_COUNT (rear.n)),
               FL_FACT_QUANTITY ("each", FL_COUNT (need)) } });
}

static void
check_articulation_of (const FlScene *scene, FlFindings *findings, guint i)
{
  const FlSceneLoad *load = &scene->loads[i];
  const FlLock *lock = articulation_lock (load->machine);
  gboolean usable = lock != NULL && lock->on_machine != FL_IS_NOT;

  if (!load->machine->articulated)
    return;
  if (usable && lock->fitted == FL_IS)
    fl_say (scene, findings, &(FlSaying) {
      .rule = "articulation", .standing = fl_heavy_standing (load), .verdict = FL_MET, .subject = load->subject, .load = i + 1,
      .message = N_("Engage the {lock} before moving: pin and keeper in place."),
      .facts = { FL_FACT_TEXT ("lock", fl_name_or_id (lock->name, lock->id)) } });
  else if (usable && lock->fitted == FL_NOT_LOOKED)
    fl_say (scene, findings, &(FlSaying) {
      .rule = "articulation", .standing = fl_heavy_standing (load), .verdict = FL_UNKNOWN, .subject = load->subject, .load = i + 1,
      .message = N_("Nobody recorded whether the {lock} is there and usable: look, and enter it (fitted)."),
      .facts = { FL_FACT_TEXT ("lock", fl_name_or_id (lock->name, lock->id)) } });
  else
    check_free_joint (scene, findings, i);
}

void
fl_check_articulation (const FlScene *scene, FlFindings *findings)
{
  for (guint i = 0; i < scene->n_loads; i++)
    check_articulation_of (scene, findings, i);
}

static void
check_lock (const FlScene *scene, FlFindings *findings, guint i, const FlLock *lock)
{
  gboolean missing = lock->on_machine == FL_IS_NOT || lock->fitted == FL_IS_NOT, ready = !missing && lock->fitted == FL_IS;

  fl_say (scene, findings, &(FlSaying) {
    .rule = "locks", .standing = FL_BY_PRACTICE, .verdict = ready ? FL_MET : FL_CAUTION, .subject = scene->loads[i].subject, .load = i + 1,
    .message = ready ? N_("Engage the {lock} before moving.")
               : missing ? N_("The {lock} is missing or not fitted: a competent person must see that this part cannot move.")
                         : N_("Nobody recorded whether the {lock} is there and usable: look before loading."),
    .facts = { FL_FACT_TEXT ("lock", fl_name_or_id (lock->name, lock->id)) } });
}

void
fl_check_locks (const FlScene *scene, FlFindings *findings)
{
  for (guint i = 0; i < scene->n_loads; i++)
    for (gsize k = 0; k < scene->loads[i].machine->n_locks; k++)
      if (scene->loads[i].machine->locks[k].kind != FL_LOCK_ARTICULATION)
        check_lock (scene, findings, i, &scene->loads[i].machine->locks[k]);
}
