/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a plan names and the fleet does not have: all of it, each with its place in the plan's document. */
#include "fl-office-private.h"

#include "fl-json.h"

typedef struct
{
  const FlFleet *fleet;
  const char *text, *prefix;    /* the document; the path of the plan in it, "" or "plans[3]." */
  gsize length;
  FlProblems *problems;
} Check;

static void say (const Check *check, const char *value, const char *expected, const char *path, ...) G_GNUC_PRINTF (4, 5);

static void
say (const Check *check, const char *value, const char *expected, const char *path, ...)
{
  g_autofree char *own = NULL, *whole = NULL, *quoted = g_strdup_printf ("\"%s\"", value);
  FlJsonSpan span = { 0, 0, 0 };
  va_list args;

  va_start (args, path);
  own = g_strdup_vprintf (path, args);
  va_end (args);
  whole = g_strconcat (check->prefix, own, NULL);
  fl_json_find (check->text, check->length, whole, &span);
  fl_problems_add (check->problems, FL_SEVERITY_ERROR, whole, span.line, quoted, "%s", expected);
}

static gboolean
has (const Check *check, FlKind kind, const char *id)
{
  return id == NULL || fl_fleet_find (check->fleet, kind, id) != NULL;
}

static gboolean
has_gear (const Check *check, FlKind kind, const char *id)
{
  const FlRecord *record = id != NULL ? fl_fleet_find_gear (check->fleet, id, NULL) : NULL;

  return id == NULL || (record != NULL && fl_record_kind (record) == kind);
}

/* ── gear ── */

static const char gear_expected[] = "a piece of this kind in the fleet; one of several alike with its number, \"C-3/8-20 #2\"";

static void
check_gear (const Check *check, const FlTieDown *tie, gsize i)
{
  if (!has_gear (check, FL_KIND_CHAIN, tie->chain))
    say (check, tie->chain, gear_expected, "tie_downs[%" G_GSIZE_FORMAT "].chain", i);
  if (!has_gear (check, FL_KIND_STRAP, tie->strap))
    say (check, tie->strap, gear_expected, "tie_downs[%" G_GSIZE_FORMAT "].strap", i);
  if (!has_gear (check, FL_KIND_BINDER, tie->binder))
    say (check, tie->binder, gear_expected, "tie_downs[%" G_GSIZE_FORMAT "].binder", i);
  for (guint c = 0; c < tie->n_connectors; c++)
    if (!has_gear (check, FL_KIND_CONNECTOR, tie->connectors[c].id))
      say (check, tie->connectors[c].id, gear_expected, "tie_downs[%" G_GSIZE_FORMAT "].connectors[%u].id", i, c);
}

/* ── anchors and points ── */

/* Some names to choose from: "a tie point of R-03: FL, FR, RL". (transfer full) */
static char *
choice_of (const char *what, const char *owner, const char *const *names, gsize n)
{
  enum { SHOWN = 12 };
  GString *text = g_string_new (what);

  g_string_append_printf (text, " of %s%s", owner, n == 0 ? ", which has none" : ": ");
  for (gsize i = 0; i < MIN (n, (gsize) SHOWN); i++)
    g_string_append_printf (text, "%s%s", i == 0 ? "" : ", ", names[i]);
  if (n > SHOWN)
    g_string_append (text, ", ...");
  return g_string_free (text, FALSE);
}

static void
check_anchors (const Check *check, const FlTrailer *trailer, const FlTieDown *tie, gsize i)
{
  g_autofree const char **names = g_new (const char *, trailer->n_anchors + 1);
  g_autofree char *expected = NULL;

  for (gsize a = 0; a < trailer->n_anchors; a++)
    names[a] = trailer->anchors[a].id;
  expected = choice_of ("an anchor", trailer->id, names, trailer->n_anchors);
  for (guint a = 0; a < 2; a++)
    if (tie->anchors[a] != NULL && fl_trailer_anchor (trailer, tie->anchors[a]) == NULL)
      say (check, tie->anchors[a], expected, "tie_downs[%" G_GSIZE_FORMAT "].anchors[%u]", i, a);
}

static gboolean
is_over_path (const FlMachine *machine, const char *id)
{
  for (gsize i = 0; i < machine->n_implements; i++)
    if (fl_implement_over_path (&machine->implements[i], id) != NULL)
      return TRUE;
  return FALSE;
}

static void
check_points (const Check *check, const FlMachine *machine, const FlTieDown *tie, gsize i)
{
  g_autofree const char **names = g_new (const char *, machine->n_tie_points + 1);
  g_autofree char *expected = NULL;

  for (gsize p = 0; p < machine->n_tie_points; p++)
    names[p] = machine->tie_points[p].id;
  expected = choice_of ("a tie point", machine->id, names, machine->n_tie_points);
  if (!tie->over && tie->point != NULL && fl_machine_point (machine, tie->point) == NULL)
    say (check, tie->point, expected, "tie_downs[%" G_GSIZE_FORMAT "].machine_point", i);
  for (gsize t = 0; tie->over && tie->through != NULL && tie->through[t] != NULL; t++)
    if (fl_machine_point (machine, tie->through[t]) == NULL && !is_over_path (machine, tie->through[t]))
      say (check, tie->through[t], expected, "tie_downs[%" G_GSIZE_FORMAT "].through", i);
  if (tie->purpose == FL_FOR_IMPLEMENT && tie->implement != NULL && fl_machine_implement (machine, tie->implement) == NULL)
    say (check, tie->implement, "an implement of the machine", "tie_downs[%" G_GSIZE_FORMAT "].purpose", i);
}

/* ── the plan ── */

/* The machine of a load in its position; NULL where there is none. */
static const FlMachine *
machine_of (const Check *check, const FlPlanChoices *c, gsize load)
{
  const FlRecord *record = load < c->n_loads ? fl_fleet_find_load (check->fleet, c->loads[load].id, c->loads[load].article) : NULL;

  return record != NULL ? fl_machine_in_position (fl_record_machine (record), c->loads[load].position) : NULL;
}

static void
check_loads (const Check *check, const FlPlanChoices *c)
{
  for (gsize i = 0; i < c->n_loads; i++)
    {
      const FlPlanLoad *load = &c->loads[i];
      const char *what = load->article ? "article" : "machine";

      if (fl_fleet_find_load (check->fleet, load->id, load->article) == NULL)
        say (check, load->id, load->article ? "an article of the fleet" : "a machine of the fleet", "loads[%" G_GSIZE_FORMAT "].%s", i, what);
      else if (machine_of (check, c, i) == NULL)
        say (check, load->position, "a position of this machine; none for its normal transport position", "loads[%" G_GSIZE_FORMAT "].position", i);
    }
}

static void
check_records (const Check *check, const FlPlanChoices *c)
{
  if (!has (check, FL_KIND_MOVE, c->move))
    say (check, c->move, "a move of the fleet", "move");
  if (!has (check, FL_KIND_TRAILER, c->trailer))
    say (check, c->trailer, "a trailer of the fleet", "trailer");
  if (!has (check, FL_KIND_TRUCK, c->truck))
    say (check, c->truck, "a truck of the fleet", "truck");
}

void
fl_office_check_plan (const FlOffice *office, const FlPlan *plan, GBytes *text, const char *prefix, FlProblems *problems)
{
  const FlPlanChoices *c = fl_plan_choices (plan);
  const FlRecord *trailer = c->trailer != NULL ? fl_fleet_find (office->fleet, FL_KIND_TRAILER, c->trailer) : NULL;
  Check check = { office->fleet, NULL, prefix, 0, problems };

  check.text = g_bytes_get_data (text, &check.length);
  check_records (&check, c);
  check_loads (&check, c);
  for (gsize i = 0; i < c->n_tie_downs; i++)
    {
      const FlTieDown *tie = &c->tie_downs[i];
      const FlMachine *machine = machine_of (&check, c, tie->load);

      check_gear (&check, tie, i);
      if (trailer != NULL)
        check_anchors (&check, fl_record_trailer (trailer), tie, i);
      if (machine != NULL)
        check_points (&check, machine, tie, i);
    }
}
