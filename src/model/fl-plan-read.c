/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading the plan document. It never stops at the first problem; results are skipped, for they are computed again. */
#include "fl-plan-document.h"

#include <math.h>
#include <string.h>

#include "fl-json.h"
#include "fl-reader.h"

/* Bounds of the document. */
enum { MAX_NO = 999, MAX_TIE_DOWNS = 32 };
#define MIN_REAR_IN (-600.0)
#define MAX_REAR_IN 1200.0
#define MAX_LEFT_IN 120.0       /* half of any road */
#define MAX_MU 2.0              /* no mat grips better */

/* Where a bad element of a list stands: "anchors[1]". */
static void
problem_at (FlReader *reader, const char *key, gsize index, const char *expected)
{
  g_autofree char *place = g_strdup_printf ("%s[%" G_GSIZE_FORMAT "]", key, index);

  fl_reader_problem (reader, FL_SEVERITY_ERROR, place, "%s", expected);
}

/* The ids of a list, bad ones left out and told; NULL where there is none. */
static const char *const *
read_ids (FlReader *reader, const char *key, gboolean required)
{
  const gsize n = fl_reader_list (reader, key, required);
  const char **ids = fl_arena_new0 (fl_reader_arena (reader), const char *, n + 1);
  gsize kept = 0;

  for (gsize i = 0; i < n; i++)
    {
      const char *id = fl_reader_item_text (reader, key, i);

      if (id != NULL && *id == '\0')
        problem_at (reader, key, i, "an id that is not empty");
      else if (id != NULL)
        ids[kept++] = id;
    }
  return n > 0 ? ids : NULL;
}

/* An id: a text that is not empty. */
static const char *
read_id (FlReader *reader, const char *key, gboolean required)
{
  const char *id = fl_reader_text (reader, key, required);

  if (id == NULL || *id != '\0')
    return id;
  fl_reader_problem (reader, FL_SEVERITY_ERROR, key, "an id that is not empty; leave the key out where there is none");
  return NULL;
}

/* One id, or a list of at least one; NULL where there is neither. */
static const char *const *
read_id_or_ids (FlReader *reader, const char *key)
{
  const char *id, **ids;

  if (fl_reader_is_list (reader, key))
    {
      if (fl_reader_list (reader, key, TRUE) == 0)
        fl_reader_problem (reader, FL_SEVERITY_ERROR, key, "at least one id in the list");
      return read_ids (reader, key, TRUE);
    }
  id = read_id (reader, key, FALSE);
  if (id == NULL)
    return NULL;
  ids = fl_arena_new0 (fl_reader_arena (reader), const char *, 2);
  ids[0] = id;
  return ids;
}

static guint32
pin_of (const char *name, guint32 allowed)
{
  for (gsize i = 0; i < G_N_ELEMENTS (fl_pin_names); i++)
    if ((fl_pin_names[i].pin & allowed) != 0 && g_str_equal (fl_pin_names[i].name, name))
      return fl_pin_names[i].pin;
  return 0;
}

static char *
pins_allowed (guint32 allowed)
{
  g_autoptr(GString) text = g_string_new ("a key that can be pinned here:");

  for (gsize i = 0; i < G_N_ELEMENTS (fl_pin_names); i++)
    if ((fl_pin_names[i].pin & allowed) != 0)
      g_string_append_printf (text, " %s", fl_pin_names[i].name);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static guint32
read_pins (FlReader *reader, guint32 allowed)
{
  const gsize n = fl_reader_list (reader, "pinned", FALSE);
  guint32 pins = 0;

  for (gsize i = 0; i < n; i++)
    {
      const char *name = fl_reader_item_text (reader, "pinned", i);
      const guint32 pin = name != NULL ? pin_of (name, allowed) : 0;
      g_autofree char *expected = pin == 0 ? pins_allowed (allowed) : NULL;

      if (name != NULL && pin == 0)
        problem_at (reader, "pinned", i, expected);
      pins |= pin;
    }
  return pins;
}

/* The index of a load; `loads` is at least one, so that a plan without loads is told once and not for each tie-down. */
static guint
read_load_index (FlReader *reader, gsize n_loads)
{
  return (guint) fl_reader_int (reader, "load", 0, (gint) MAX (n_loads, 1) - 1, 0);
}

static void
read_mat (FlReader *reader, FlPlanLoad *load)
{
  FlReader *mat = NULL;

  load->mat_mu = NAN;
  if (!fl_reader_is_null (reader, "mat"))
    mat = fl_reader_object (reader, "mat", FALSE);
  if (mat == NULL)
    return;
  load->mat = read_id (mat, "kind", TRUE);
  if (!fl_reader_is_null (mat, "mu"))
    load->mat_mu = fl_reader_number (mat, "mu", 0.0, MAX_MU, NAN);
}

static void
read_load_id (FlReader *reader, FlPlanLoad *load)
{
  const gboolean machine = fl_reader_has (reader, "machine");

  load->article = !machine && fl_reader_has (reader, "article");
  if (machine && fl_reader_has (reader, "article"))
    fl_reader_problem (reader, FL_SEVERITY_ERROR, "article", "either machine or article, not both");
  load->id = read_id (reader, load->article ? "article" : "machine", TRUE);
}

static void
read_load (FlReader *reader, FlPlanLoad *load)
{
  read_load_id (reader, load);
  load->position = read_id (reader, "position", FALSE);
  load->facing = (FlFacing) fl_reader_choice (reader, "facing", fl_facing_names, TRUE, FL_FORWARD);
  load->rear = fl_reader_quantity (reader, "rear", FL_DIM_LENGTH, TRUE, MIN_REAR_IN, MAX_REAR_IN);
  load->left = fl_reader_quantity (reader, "left", FL_DIM_LENGTH, FALSE, -MAX_LEFT_IN, MAX_LEFT_IN);
  load->blocked_forward = fl_reader_bool (reader, "blocked_forward", FALSE);
  load->chocked = fl_reader_bool (reader, "chocked", FALSE);
  read_mat (reader, load);
  load->pinned = read_pins (reader, FL_PIN_PLACE);
}

static void
check_loads (FlReader *reader, const FlPlanLoad *loads, gsize n)
{
  for (gsize i = 0; i < n; i++)
    for (gsize k = 0; k < i; k++)
      if (loads[i].id != NULL && g_strcmp0 (loads[i].id, loads[k].id) == 0 && loads[i].article == loads[k].article)
        problem_at (reader, "loads", i, "each load of the move once");
}

static void
read_loads (FlReader *reader, FlPlanChoices *choices)
{
  const gsize n = fl_reader_list (reader, "loads", TRUE);
  FlPlanLoad *loads = fl_arena_new0 (fl_reader_arena (reader), FlPlanLoad, n);

  if (n == 0 && fl_reader_is_list (reader, "loads"))
    fl_reader_problem (reader, FL_SEVERITY_ERROR, "loads", "at least one load, a machine or an article");
  for (gsize i = 0; i < n; i++)
    {
      FlReader *item = fl_reader_item (reader, "loads", i);

      if (item != NULL)
        read_load (item, &loads[i]);
    }
  check_loads (reader, loads, n);
  choices->loads = loads;
  choices->n_loads = n;
}

static void
read_purpose (FlReader *reader, FlTieDown *tie)
{
  const char *purpose = fl_reader_text (reader, "purpose", TRUE);

  if (purpose == NULL || g_str_equal (purpose, "machine"))
    return;
  if (!g_str_has_prefix (purpose, "implement:") || purpose[strlen ("implement:")] == '\0')
    {
      fl_reader_problem (reader, FL_SEVERITY_ERROR, "purpose", "machine, or implement: and the implement's id");
      return;
    }
  tie->purpose = FL_FOR_IMPLEMENT;
  tie->implement = purpose + strlen ("implement:");
}

static void
read_anchors (FlReader *reader, FlTieDown *tie)
{
  const gsize listed = fl_reader_list (reader, "anchors", TRUE), wanted = tie->over ? 2 : 1;
  const char *const *anchors;

  if (listed != wanted)
    {
      if (fl_reader_is_list (reader, "anchors"))
        fl_reader_problem (reader, FL_SEVERITY_ERROR, "anchors", "%s",
                           tie->over ? "two anchors for kind over" : "one anchor for kind direct");
      return;
    }
  anchors = read_ids (reader, "anchors", TRUE);
  for (gsize i = 0; i < wanted && anchors[i] != NULL; i++)
    tie->anchors[i] = anchors[i];
}

/* `through` is a list of machine points, or one text: an over-path's id or the only point. */
static void
read_through (FlReader *reader, FlTieDown *tie)
{
  if (!fl_reader_has (reader, "through") || fl_reader_is_null (reader, "through"))
    fl_reader_problem (reader, FL_SEVERITY_ERROR, "through",
                       "for kind over: the machine points that it passes, or an over-path's id");
  tie->through = read_id_or_ids (reader, "through");
}

static void
read_ends (FlReader *reader, FlTieDown *tie)
{
  const char *other = tie->over ? "machine_point" : "through";

  read_anchors (reader, tie);
  if (tie->over)
    read_through (reader, tie);
  else
    tie->point = read_id (reader, "machine_point", TRUE);
  if (fl_reader_has (reader, other))
    fl_reader_problem (reader, FL_SEVERITY_ERROR, other, "%s",
                       tie->over ? "no machine_point for kind over: list it in through"
                                 : "no through for kind direct: use machine_point, or kind over");
}

static void
read_connectors (FlReader *reader, FlTieDown *tie)
{
  gsize n = fl_reader_list (reader, "connectors", FALSE);

  if (n > FL_MAX_CONNECTORS)
    {
      fl_reader_problem (reader, FL_SEVERITY_ERROR, "connectors", "at most %d connectors on one tie-down",
                         FL_MAX_CONNECTORS);
      n = FL_MAX_CONNECTORS;
    }
  for (gsize i = 0; i < n; i++)
    {
      FlReader *item = fl_reader_item (reader, "connectors", i);
      FlConnectorUse *use = &tie->connectors[i];

      if (item == NULL)
        continue;
      use->id = read_id (item, "id", TRUE);
      use->at_anchor = fl_reader_choice (item, "at", fl_connector_at_names, TRUE, 0) == 1;
    }
  tie->n_connectors = (guint) n;
}

static void
read_gear (FlReader *reader, FlTieDown *tie)
{
  tie->chain = read_id (reader, "chain", FALSE);
  tie->strap = read_id (reader, "strap", FALSE);
  tie->binder = read_id (reader, "binder", FALSE);
  if (tie->chain != NULL && tie->strap != NULL)
    fl_reader_problem (reader, FL_SEVERITY_ERROR, "strap", "either chain or strap, not both");
  read_connectors (reader, tie);
}

static void
read_tie_down (FlReader *reader, FlTieDown *tie, gsize n_loads)
{
  if (!fl_reader_has (reader, "no"))
    fl_reader_problem (reader, FL_SEVERITY_ERROR, "no", "a number of its own, 1 to %d", MAX_NO);
  tie->no = (guint) fl_reader_int (reader, "no", 1, MAX_NO, 0);
  tie->load = read_load_index (reader, n_loads);
  read_purpose (reader, tie);
  tie->over = fl_reader_choice (reader, "kind", fl_tie_kind_names, TRUE, 0) == 1;
  read_ends (reader, tie);
  read_gear (reader, tie);
  tie->edge_protected = fl_reader_bool (reader, "edge_protected", FALSE);
  tie->pinned = read_pins (reader, FL_PIN_TIE_DOWN);
}

static void
check_no (FlReader *item, const FlTieDown *ties, gsize index)
{
  for (gsize k = 0; k < index; k++)
    if (ties[index].no != 0 && ties[k].no == ties[index].no)
      {
        fl_reader_problem (item, FL_SEVERITY_ERROR, "no",
                           "a number of its own: tie_downs[%" G_GSIZE_FORMAT "] has it too", k);
        return;
      }
}

static void
read_tie_downs (FlReader *reader, FlPlanChoices *choices)
{
  const gsize listed = fl_reader_list (reader, "tie_downs", TRUE);
  const gsize n = MIN (listed, (gsize) MAX_TIE_DOWNS);
  FlTieDown *ties = fl_arena_new0 (fl_reader_arena (reader), FlTieDown, n);

  if (listed > n)
    fl_reader_problem (reader, FL_SEVERITY_ERROR, "tie_downs", "at most %d tie-downs in a plan", MAX_TIE_DOWNS);
  for (gsize i = 0; i < n; i++)
    {
      FlReader *item = fl_reader_item (reader, "tie_downs", i);

      if (item == NULL)
        continue;
      read_tie_down (item, &ties[i], choices->n_loads);
      check_no (item, ties, i);
    }
  choices->tie_downs = ties;
  choices->n_tie_downs = n;
}

static void
read_set_aside (FlReader *reader, FlPlanChoices *choices)
{
  FlReader *aside = fl_reader_object (reader, "set_aside", FALSE);
  FlLoadPoint *points;

  if (aside == NULL)
    return;
  choices->aside_gear = read_ids (aside, "gear", FALSE);
  choices->aside_anchors = read_ids (aside, "anchors", FALSE);
  choices->n_aside_points = fl_reader_list (aside, "points", FALSE);
  points = fl_arena_new0 (fl_reader_arena (reader), FlLoadPoint, choices->n_aside_points);
  for (gsize i = 0; i < choices->n_aside_points; i++)
    {
      FlReader *item = fl_reader_item (aside, "points", i);

      if (item == NULL)
        continue;
      points[i].load = read_load_index (item, choices->n_loads);
      points[i].point = read_id (item, "point", TRUE);
    }
  choices->aside_points = points;
}

/* One entry stands for as many reasons as it lists subjects; none where it speaks of all. */
static void
read_reason (FlReader *reader, gboolean exception, GArray *reasons)
{
  FlReason reason = { .rule = read_id (reader, "rule", TRUE), .reason = fl_reader_text (reader, "reason", TRUE) };
  const char *const *subjects = read_id_or_ids (reader, "subject");

  if (exception)
    reason.by = read_id (reader, "by", FALSE);
  if (subjects == NULL)
    g_array_append_val (reasons, reason);
  for (gsize i = 0; subjects != NULL && subjects[i] != NULL; i++)
    {
      reason.subject = subjects[i];
      g_array_append_val (reasons, reason);
    }
}

static const FlReason *
read_reasons (FlReader *reader, const char *key, gboolean exceptions, gsize *n)
{
  const gsize listed = fl_reader_list (reader, key, FALSE);
  g_autoptr(GArray) reasons = g_array_new (FALSE, FALSE, sizeof (FlReason));

  for (gsize i = 0; i < listed; i++)
    {
      FlReader *item = fl_reader_item (reader, key, i);

      if (item != NULL)
        read_reason (item, exceptions, reasons);
    }
  *n = reasons->len;
  if (reasons->len == 0)
    return NULL;
  return fl_arena_copy (fl_reader_arena (reader), reasons->data, reasons->len * sizeof (FlReason));
}

/* FALSE if the document says that it is something else: then nothing more is read of it. */
static gboolean
read_format (FlReader *reader)
{
  const char *format = fl_reader_text (reader, "format", TRUE);

  if (format == NULL || g_str_equal (format, FL_PLAN_FORMAT))
    return TRUE;
  fl_reader_problem (reader, FL_SEVERITY_ERROR, "format", "%s, the plan document that this program reads",
                     FL_PLAN_FORMAT);
  fl_reader_ignore_rest (reader);
  return FALSE;
}

static void
read_choices (FlReader *reader, FlPlanChoices *choices)
{
  if (!read_format (reader))
    return;
  fl_reader_has (reader, "uid");        /* known keys, whatever they hold */
  choices->fleet = fl_reader_text (reader, "fleet", FALSE);
  choices->move = read_id (reader, "move", TRUE);
  choices->trailer = read_id (reader, "trailer", TRUE);
  choices->truck = read_id (reader, "truck", FALSE);
  read_loads (reader, choices);
  read_set_aside (reader, choices);
  choices->acknowledged = read_reasons (reader, "acknowledged", FALSE, &choices->n_acknowledged);
  choices->exceptions = read_reasons (reader, "exceptions", TRUE, &choices->n_exceptions);
  read_tie_downs (reader, choices);
  fl_reader_has (reader, "results");
}

/* The plan as read, even where it is bad: the problems say whether it may be kept. */
static FlPlan *
plan_of_reader (FlReader *reader, FlProblems *problems)
{
  const guint before = fl_problems_errors (problems);
  FlPlanChoices choices = { 0 };

  read_choices (reader, &choices);
  return fl_problems_errors (problems) == before ? fl_plan_new (&choices) : NULL;
}

FlPlan *
fl_plan_new_from_json (GBytes *text, FlProblems *problems)
{
  g_autoptr(FlProblems) own = problems == NULL ? fl_problems_new () : NULL;
  FlProblems *found = problems != NULL ? problems : own;
  g_autoptr(JsonNode) root = fl_json_parse (text, found);
  g_autoptr(FlArena) arena = fl_arena_new ();
  g_autoptr(FlReader) reader = NULL;
  gsize length;
  const char *data = g_bytes_get_data (text, &length);

  if (root == NULL)
    return NULL;
  reader = fl_reader_new (data, length, root, "", 1, arena, found);
  return reader != NULL ? plan_of_reader (reader, found) : NULL;
}

/* {"plans": [...]}: what propose writes for a day, with the moves that have no plan beside it. */
static GPtrArray *
plans_of_reader (FlReader *reader, FlProblems *problems)
{
  const guint before = fl_problems_errors (problems);
  const gsize n = fl_reader_list (reader, "plans", TRUE);
  g_autoptr(GPtrArray) plans = g_ptr_array_new_with_free_func ((GDestroyNotify) fl_plan_unref);

  fl_reader_has (reader, "unplanned");  /* the moves without a plan: known, and not ours to read */
  for (gsize i = 0; i < n; i++)
    {
      FlReader *item = fl_reader_item (reader, "plans", i);
      FlPlan *plan = item != NULL ? plan_of_reader (item, problems) : NULL;

      if (plan != NULL)
        g_ptr_array_add (plans, plan);
    }
  return fl_problems_errors (problems) == before ? g_steal_pointer (&plans) : NULL;
}

GPtrArray *
fl_plans_new_from_json (GBytes *text, FlProblems *problems)
{
  g_autoptr(FlProblems) own = problems == NULL ? fl_problems_new () : NULL;
  FlProblems *found = problems != NULL ? problems : own;
  g_autoptr(JsonNode) root = fl_json_parse (text, found);
  g_autoptr(FlArena) arena = fl_arena_new ();
  g_autoptr(FlReader) reader = NULL;
  g_autoptr(FlPlan) plan = NULL;
  GPtrArray *plans = NULL;
  gsize length;
  const char *data = g_bytes_get_data (text, &length);

  if (root == NULL || (reader = fl_reader_new (data, length, root, "", 1, arena, found)) == NULL)
    return NULL;
  if (fl_reader_has (reader, "plans"))
    return plans_of_reader (reader, found);
  plan = plan_of_reader (reader, found);
  if (plan == NULL)
    return NULL;
  plans = g_ptr_array_new_with_free_func ((GDestroyNotify) fl_plan_unref);
  g_ptr_array_add (plans, g_steal_pointer (&plan));
  return plans;
}
