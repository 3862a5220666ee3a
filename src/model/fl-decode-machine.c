/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Machines and articles: size, weight, what stands on the deck, and the positions in which a machine can travel. The parts that a
 * chain or a person's hand meets (points, locks, implements) are in fl-decode-points.c. */
#include "fl-decode-points.h"

#include <math.h>

/* A point may stand this far outside the machine's own box before it is called a slip: a hook on a hose guard, a folded mirror. */
#define OUTSIDE_IN 12.0
/* An extent may differ this much from the length it belongs to. */
#define EXTENT_SLACK_IN 1.0

static gboolean
is_track (FlRunningGear gear)
{
  return gear == FL_RUBBER_TRACKS || gear == FL_STEEL_TRACKS;
}

static FlContactPatch
decode_contact (FlReader *reader, FlRunningGear machine_gear)
{
  FlContactPatch patch = { 0 };

  patch.x = fl_decode_quantity (reader, "x", FL_BOUND_X, TRUE);
  patch.y = fl_decode_quantity (reader, "y", FL_BOUND_Y, TRUE);
  patch.length = fl_decode_quantity (reader, "length", FL_BOUND_PATCH, FALSE);
  patch.width = fl_decode_quantity (reader, "width", FL_BOUND_PATCH, FALSE);
  patch.gear = (FlRunningGear) (fl_reader_choice (reader, "running_gear", FL_RUNNING_GEARS, FALSE, (gint) machine_gear - 1) + 1);
  patch.braked = fl_decode_seen (reader, "braked");
  if (patch.braked == FL_NOT_LOOKED && is_track (patch.gear))
    patch.braked = FL_IS;       /* a parked track does not roll */
  patch.section = fl_reader_text (reader, "section", FALSE);
  return patch;
}

static void
decode_contacts (FlReader *reader, FlMachine *machine)
{
  gsize given = fl_reader_list (reader, "contacts", FALSE);
  FlContactPatch *contacts = fl_arena_new0 (fl_reader_arena (reader), FlContactPatch, given);

  machine->contacts = contacts;
  machine->n_contacts = 0;
  for (gsize i = 0; i < given; i++)
    {
      FlReader *item = fl_reader_item (reader, "contacts", i);

      if (item != NULL)
        contacts[machine->n_contacts++] = decode_contact (item, machine->running_gear);
    }
}

static void
decode_joint (FlReader *reader, FlMachine *machine)
{
  FlReader *joint;

  machine->articulated = FALSE;
  machine->joint_x = machine->joint_z = FL_NOT_MEASURED;
  if (fl_reader_is_null (reader, "articulation"))
    return;
  joint = fl_reader_object (reader, "articulation", FALSE);
  if (joint == NULL)
    return;
  machine->articulated = TRUE;
  machine->joint_x = fl_decode_quantity (joint, "x", FL_BOUND_X, FALSE);
  machine->joint_z = fl_decode_quantity (joint, "z", FL_BOUND_Z, FALSE);
  machine->joint_rolls = fl_reader_bool (joint, "rolls", FALSE);
}

static void
decode_facings (FlReader *reader, FlMachine *machine)
{
  static const char *const names[] = { "forward", "rearward" };  /* bits of FL_MAY_FACE_* in order */
  const char *const *given = fl_reader_texts (reader, "facings", FALSE);
  guint facings = 0;

  for (gsize i = 0; given != NULL && given[i] != NULL; i++)
    if (g_str_equal (given[i], names[0]))
      facings |= FL_MAY_FACE_FORWARD;
    else if (g_str_equal (given[i], names[1]))
      facings |= FL_MAY_FACE_REARWARD;
    else
      fl_reader_problem (reader, FL_SEVERITY_ERROR, fl_arena_printf (fl_reader_arena (reader), "facings[%" G_GSIZE_FORMAT "]", i),
                         "forward or rearward");
  if (given != NULL && given[0] == NULL)
    fl_reader_problem (reader, FL_SEVERITY_ERROR, "facings", "at least one of forward and rearward; left out, both are allowed");
  if (facings != 0)
    machine->facings = facings;
}

static void
decode_sizes (FlReader *reader, FlMachine *machine, gboolean required)
{
  gboolean article = machine->article;

  fl_decode_take (reader, "weight", article ? FL_BOUND_ARTICLE_WEIGHT : FL_BOUND_MACHINE_WEIGHT, required, &machine->weight);
  fl_decode_take (reader, "length", article ? FL_BOUND_ARTICLE_LENGTH : FL_BOUND_MACHINE_LENGTH, required, &machine->length);
  fl_decode_take (reader, "width", article ? FL_BOUND_ARTICLE_WIDTH : FL_BOUND_MACHINE_WIDTH, required, &machine->width);
  fl_decode_take (reader, "height", article ? FL_BOUND_ARTICLE_HEIGHT : FL_BOUND_MACHINE_HEIGHT, required, &machine->height);
}

/* Whatever geometry and weight the object has takes the place of what `machine` holds; the rest stays. */
static void
decode_geometry (FlReader *reader, FlMachine *machine, gboolean required)
{
  decode_sizes (reader, machine, required);
  if (fl_reader_has (reader, "center_of_gravity"))
    machine->cg = fl_decode_place (fl_reader_object (reader, "center_of_gravity", FALSE), FALSE);
  if (fl_reader_has (reader, "contacts"))
    decode_contacts (reader, machine);
  if (fl_reader_has (reader, "tie_points"))
    machine->tie_points = fl_decode_tie_points (reader, &machine->n_tie_points);
  if (fl_reader_has (reader, "solids"))
    machine->solids = fl_decode_solids (reader, "solids", &machine->n_solids);
  if (fl_reader_has (reader, "keep_clear"))
    machine->keep_clear = fl_decode_solids (reader, "keep_clear", &machine->n_keep_clear);
  if (fl_reader_has (reader, "facings"))
    decode_facings (reader, machine);
}

/* The keys of a machine that an article does not have. */
static void
decode_working_parts (FlReader *reader, FlMachine *machine)
{
  gint gear = fl_reader_choice (reader, "running_gear", FL_RUNNING_GEARS, FALSE, (gint) machine->running_gear - 1);

  machine->running_gear = (FlRunningGear) (gear + 1);
  if (fl_reader_has (reader, "articulation"))
    decode_joint (reader, machine);
  if (fl_reader_has (reader, "locks"))
    machine->locks = fl_decode_locks (reader, &machine->n_locks);
  if (fl_reader_has (reader, "implements"))
    machine->implements = fl_decode_implements (reader, &machine->n_implements);
  fl_decode_take (reader, "max_ramp", FL_BOUND_RAMP, FALSE, &machine->max_ramp);
}

static double
inches (FlQuantity q)
{
  return fl_quantity_in (q, FL_UNIT_IN);
}

/* Where one end of the extent is not given it follows from the other and the length, and both from the length alone. */
static void
fill_extent (FlMachine *machine)
{
  FlQuantity length = machine->length;
  gboolean has_min = fl_quantity_known (machine->x_min), has_max = fl_quantity_known (machine->x_max);

  if (!fl_quantity_known (length) || (has_min && has_max))
    return;
  if (has_max)
    machine->x_min = (FlQuantity) { fl_quantity_in (machine->x_max, length.unit) - length.value, length.unit };
  else if (has_min)
    machine->x_max = (FlQuantity) { fl_quantity_in (machine->x_min, length.unit) + length.value, length.unit };
  else
    {
      machine->x_min = (FlQuantity) { 0.0, length.unit };
      machine->x_max = length;
    }
}

static void
check_extent (FlReader *reader, const FlMachine *machine)
{
  double extent = inches (machine->x_max) - inches (machine->x_min);
  char number[G_ASCII_DTOSTR_BUF_SIZE];

  if (!(extent > 0.0) && fl_quantity_known (machine->x_min) && fl_quantity_known (machine->x_max))
    fl_reader_problem (reader, FL_SEVERITY_ERROR, "", "an x_max in front of x_min");
  else if (fabs (extent - inches (machine->length)) > EXTENT_SLACK_IN)
    fl_reader_problem (reader, FL_SEVERITY_WARNING, "", "x_max less x_min the same as the length, %s in",
                       fl_number_text (inches (machine->length), number));
}

static void
warn_outside (FlReader *reader, const FlMachine *machine)
{
  for (gsize i = 0; i < machine->n_tie_points; i++)
    {
      const FlTiePoint *point = &machine->tie_points[i];
      gboolean out = inches (point->x) < inches (machine->x_min) - OUTSIDE_IN || inches (point->x) > inches (machine->x_max) + OUTSIDE_IN
        || fabs (inches (point->y)) > inches (machine->width) / 2 + OUTSIDE_IN || inches (point->z) > inches (machine->height) + OUTSIDE_IN;

      if (out)
        fl_reader_problem (reader, FL_SEVERITY_WARNING,
                           fl_arena_printf (fl_reader_arena (reader), "tie_points[%" G_GSIZE_FORMAT "].id", i),
                           "a point on the machine; this one lies more than %d in outside its length, width or height", (gint) OUTSIDE_IN);
    }
}

static FlBases
joined_bases (FlArena *arena, FlBases first, FlBases second)
{
  FlBasis *items = fl_arena_new0 (arena, FlBasis, first.n + second.n);

  for (gsize i = 0; i < first.n; i++)
    items[i] = first.items[i];
  for (gsize i = 0; i < second.n; i++)
    items[first.n + i] = second.items[i];
  return (FlBases) { items, first.n + second.n };
}

static const FlMachine *
decode_position (FlReader *reader, const FlMachine *normal, GHashTable *seen)
{
  FlArena *arena = fl_reader_arena (reader);
  FlMachine *machine = fl_arena_copy (arena, normal, sizeof *normal);

  machine->position = fl_decode_id (reader);
  fl_decode_unique (reader, seen, machine->position, "position");
  machine->position_name = fl_reader_text (reader, "name", FALSE);
  machine->positions = NULL;
  machine->n_positions = 0;
  decode_working_parts (reader, machine);
  decode_geometry (reader, machine, FALSE);
  machine->x_min = fl_decode_quantity (reader, "x_min", FL_BOUND_EXTENT, FALSE);
  machine->x_max = fl_decode_quantity (reader, "x_max", FL_BOUND_EXTENT, FALSE);
  fill_extent (machine);
  check_extent (reader, machine);
  machine->basis = joined_bases (arena, fl_decode_bases (reader), normal->basis);
  fl_decode_check_implements (reader, machine);
  if (fl_reader_has (reader, "tie_points"))
    warn_outside (reader, machine);
  return machine;
}

static void
decode_positions (FlReader *reader, FlMachine *machine)
{
  g_autoptr(GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  gsize given = fl_reader_list (reader, "positions", FALSE);
  const FlMachine **positions = fl_arena_new0 (fl_reader_arena (reader), const FlMachine *, given);
  gsize n = 0;

  for (gsize i = 0; i < given; i++)
    {
      FlReader *item = fl_reader_item (reader, "positions", i);

      if (item != NULL)
        positions[n++] = decode_position (item, machine, seen);
    }
  machine->positions = positions;
  machine->n_positions = n;
}

static FlMachine *
decode_load (FlReader *reader, gboolean article)
{
  FlMachine *machine = fl_arena_new0 (fl_reader_arena (reader), FlMachine, 1);

  machine->article = article;
  machine->facings = FL_MAY_FACE_FORWARD | FL_MAY_FACE_REARWARD;
  machine->id = fl_decode_id (reader);
  machine->name = fl_reader_text (reader, "name", FALSE);
  machine->yard = fl_reader_text (reader, "yard", FALSE);
  machine->notes = fl_reader_text (reader, "notes", FALSE);
  machine->basis = fl_decode_bases (reader);
  if (!article)
    decode_working_parts (reader, machine);
  decode_geometry (reader, machine, TRUE);
  fill_extent (machine);
  fl_decode_check_implements (reader, machine);
  warn_outside (reader, machine);
  return machine;
}

gconstpointer
fl_decode_machine (FlReader *reader)
{
  FlMachine *machine = decode_load (reader, FALSE);

  machine->kind = fl_reader_text (reader, "kind", TRUE);
  decode_positions (reader, machine);
  if (machine->n_tie_points == 0 && !fl_reader_has (reader, "tie_points"))
    fl_reader_problem (reader, FL_SEVERITY_WARNING, "tie_points", "the points of the machine to which a chain can be hooked");
  return machine;
}

gconstpointer
fl_decode_article (FlReader *reader)
{
  return decode_load (reader, TRUE);
}
