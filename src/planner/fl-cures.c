/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cures: what little would make a move possible, each tried out by planning with it. */
#include <math.h>
#include <string.h>

#include "fl-plan-as.h"
#include "fl-words-of.h"

enum { MAX_PIECES = 12, MAX_OTHER_TRAILERS = 2 };

typedef struct
{
  GArray *cures;
  FlArena *arena;
  const FlBook *book;
  const FlFleet *fleet;
  const FlPlan *start;
  FlSearch search;
  const FlHost *host;
} Curing;

/* plain: to see whether there is a plan at all; else the plan that the cure leads to. */
static FlAssessment *
plan_with (const Curing *c, const FlFleet *fleet, const FlPlan *start, gboolean plain)
{
  g_autoptr(FlProposal) proposal = fl_plan_move_as (c->book, fleet, start, &c->search, plain, c->host, NULL);

  return proposal != NULL && proposal->best != NULL ? fl_assessment_ref (proposal->best) : NULL;
}

static void
add_cure (Curing *c, FlPlan *plan, const char *message, const FlFact *facts, gsize n)
{
  FlMessage copy = fl_message_copy (c->arena, message, facts, n);
  FlCure cure = { copy.message, copy.facts, copy.n_facts, plan };

  g_array_append_val (c->cures, cure);
}

/* ── another fleet for the trial ── */

static FlFleet *
with_change (const FlFleet *fleet, const FlRecord *const *before, const FlRecord *const *after, gsize n)
{
  g_autoptr(FlChange) change = fl_change_new ("trial", before, after, n);

  return fl_fleet_apply (fleet, change, NULL);
}

/* ── more gear ── */

#define NEW_CHAIN "(more chain)"
#define NEW_BINDER "(more binders)"

/* length_ft 0: binders alone. */
typedef struct { const char *size; guint length_ft, binder_wll; } Kit;

static FlRecord *
new_record (FlKind kind, const char *text)
{
  return fl_record_new (kind, text, -1, "trial", 1, NULL);
}

static FlRecord *
new_chain (const char *at, const Kit *kit, guint n)
{
  g_autofree char *text = g_strdup_printf ("{\"id\":\"" NEW_CHAIN "\",\"kept_at\":\"%s\",\"size_in\":\"%s\",\"mark\":\"70\",\"length_ft\":%u,"
                                           "\"hook\":\"grab\",\"count\":%u}", at, kit->size, kit->length_ft, n);

  return new_record (FL_KIND_CHAIN, text);
}

static FlRecord *
new_binder (const char *at, const Kit *kit, guint n)
{
  g_autofree char *text = g_strdup_printf ("{\"id\":\"" NEW_BINDER "\",\"kept_at\":\"%s\",\"kind\":\"ratchet\",\"wll_lb\":%u,"
                                           "\"chain_sizes\":[\"%s\"],\"take_up_in\":8,\"count\":%u}", at, kit->binder_wll, kit->size, n);

  return new_record (FL_KIND_BINDER, text);
}

/* The fleet with n chains and n binders more, kept at the trailer. NULL if that cannot be. (transfer full) */
static FlFleet *
with_kit (const Curing *c, const char *trailer, const Kit *kit, guint n)
{
  g_autofree char *at = g_strescape (trailer, NULL);
  g_autoptr(FlRecord) binder = new_binder (at, kit, n);
  g_autoptr(FlRecord) chain = kit->length_ft > 0 ? new_chain (at, kit, n) : NULL;
  const FlRecord *before[] = { NULL, NULL }, *after[] = { binder, chain };

  if (binder == NULL || (chain == NULL && kit->length_ft > 0))
    return NULL;
  return with_change (c->fleet, before, after, chain != NULL ? 2 : 1);
}

static gboolean
is_new (const char *id, const char *new_id)
{
  return id != NULL && g_str_has_prefix (id, new_id);
}

/* How many new pieces the plan takes, of chain or of binders, whichever are more; and the longest piece of new chain that it needs, in
 * whole feet. */
static guint
pieces_of (const FlAssessment *plan, guint *feet)
{
  const FlAssessmentParts *parts = fl_assessment_parts (plan);
  const FlPlanChoices *choices = fl_plan_choices (parts->plan);
  guint chains = 0, binders = 0;
  double inches = 0.0;

  for (gsize i = 0; i < choices->n_tie_downs; i++)
    {
      binders += is_new (choices->tie_downs[i].binder, NEW_BINDER);
      if (!is_new (choices->tie_downs[i].chain, NEW_CHAIN))
        continue;
      chains++;
      inches = fmax (inches, fl_quantity_in (parts->ties[i].needs, FL_UNIT_IN));
    }
  *feet = (guint) ceil (inches / 12.0 - 1e-9);
  return MAX (chains, binders);
}

static void
say_kit (Curing *c, const Kit *kit, guint n, guint feet)
{
  const char *message = feet == 0 ? n == 1 ? N_("One more binder for {size} in chain, {wll}, kept at this trailer.")
                                           : N_("{n} more binders for {size} in chain, {wll} each, kept at this trailer.")
                        : n == 1 ? N_("One more chain with its binder: at least {size} in grade 70, {feet} ft, kept at this trailer.")
                                 : N_("{n} more chains with binders: at least {size} in grade 70, {feet} ft, kept at this trailer.");

  add_cure (c, NULL, message,
            (const FlFact[]) { FL_FACT_QUANTITY ("n", FL_COUNT (n)), FL_FACT_TEXT ("size", kit->size), FL_FACT_QUANTITY ("feet", FL_COUNT (feet)),
                               FL_FACT_QUANTITY ("wll", FL_LB (kit->binder_wll)) }, 4);
}

/* With as many as could ever help first: what a plan with them takes is enough, and fewer are tried until there is none. */
static gboolean
cure_by_kit (Curing *c, const Kit *kit)
{
  guint enough = 0, feet = 0;

  for (guint n = MAX_PIECES; n > 0; n = enough - 1)
    {
      g_autoptr(FlFleet) fleet = with_kit (c, fl_plan_choices (c->start)->trailer, kit, n);
      g_autoptr(FlAssessment) plan = fleet != NULL ? plan_with (c, fleet, c->start, TRUE) : NULL;

      if (plan == NULL)
        break;
      enough = pieces_of (plan, &feet);
      if (enough == 0)
        return FALSE;           /* it is not the gear */
    }
  if (enough > 0)
    say_kit (c, kit, enough, feet);
  return enough > 0;
}

static void
cure_by_gear (Curing *c)
{
  static const Kit kits[] = { { "3/8", 0, 6600 }, { "5/16", 20, 4700 }, { "3/8", 20, 6600 }, { "1/2", 25, 11300 } };

  for (guint i = 0; i < G_N_ELEMENTS (kits); i++)
    if (cure_by_kit (c, &kits[i]))
      return;
}

/* ── the articulation lock ── */

static FlRecord *
with_lock (const FlRecord *record)
{
  const FlMachine *machine = fl_record_machine (record);
  FlRecord *next = NULL;

  for (gsize i = 0; i < machine->n_locks && next == NULL; i++)
    if (machine->locks[i].kind == FL_LOCK_ARTICULATION)
      {
        g_autofree char *there = g_strdup_printf ("locks[%" G_GSIZE_FORMAT "].on_machine", i);
        g_autofree char *fitted = g_strdup_printf ("locks[%" G_GSIZE_FORMAT "].fitted", i);
        g_autoptr(JsonNode) yes = json_node_init_boolean (json_node_alloc (), TRUE);
        g_autoptr(FlRecord) first = fl_record_with (record, there, yes, NULL);

        next = first != NULL ? fl_record_with (first, fitted, yes, NULL) : NULL;
      }
  return next;
}

static void
cure_by_lock (Curing *c)
{
  const FlPlanChoices *choices = fl_plan_choices (c->start);

  for (gsize i = 0; i < choices->n_loads; i++)
    {
      const FlRecord *before = fl_fleet_find_load (c->fleet, choices->loads[i].id, choices->loads[i].article);
      g_autoptr(FlRecord) after = fl_machine_joint_free (fl_record_machine (before)) ? with_lock (before) : NULL;
      g_autoptr(FlFleet) fleet = after != NULL ? with_change (c->fleet, &before, (const FlRecord *const[]) { after }, 1) : NULL;
      g_autoptr(FlAssessment) plan = fleet != NULL ? plan_with (c, fleet, c->start, TRUE) : NULL;

      if (plan != NULL)
        add_cure (c, NULL, N_("Fit the articulation lock of {id}: then it can be planned."),
                  (const FlFact[]) { FL_FACT_TEXT ("id", choices->loads[i].id) }, 1);
    }
}

/* ── another trailer, fewer pins ── */

static gboolean
is_taken (const Curing *c, const char *id)
{
  return c->search.taken != NULL && g_strv_contains (c->search.taken, id);
}

static void
cure_by_trailer (Curing *c)
{
  const FlPlanChoices *choices = fl_plan_choices (c->start);
  guint found = 0;

  for (gsize i = 0; i < fl_fleet_count (c->fleet, FL_KIND_TRAILER) && found < MAX_OTHER_TRAILERS; i++)
    {
      const char *id = fl_record_id (fl_fleet_at (c->fleet, FL_KIND_TRAILER, i));
      g_autoptr(FlPlan) start = NULL;
      g_autoptr(FlAssessment) plan = NULL;
      FlPlanChoices free_ = *choices;

      if (g_strcmp0 (id, choices->trailer) == 0 || is_taken (c, id))
        continue;
      free_.trailer = id;
      free_.n_tie_downs = 0;
      start = fl_plan_new (&free_);
      plan = plan_with (c, c->fleet, start, FALSE);
      if (plan == NULL)
        continue;
      found++;
      add_cure (c, fl_plan_ref (fl_assessment_plan (plan)), N_("Trailer {id} would do."), (const FlFact[]) { FL_FACT_TEXT ("id", id) }, 1);
    }
}

static void
cure_by_unpinning (Curing *c)
{
  const FlPlanChoices *choices = fl_plan_choices (c->start);
  g_autofree FlPlanLoad *loads = g_memdup2 (choices->loads, choices->n_loads * sizeof (FlPlanLoad));
  FlPlanChoices next = *choices;
  g_autoptr(FlPlan) start = NULL;
  g_autoptr(FlAssessment) plan = NULL;
  gboolean pinned = FALSE;

  for (gsize i = 0; i < choices->n_loads; i++)
    {
      pinned = pinned || loads[i].pinned != 0;
      loads[i].pinned = 0;
    }
  for (gsize i = 0; i < choices->n_tie_downs; i++)
    pinned = pinned || choices->tie_downs[i].pinned != 0;
  if (!pinned)
    return;
  next.loads = loads;
  next.n_tie_downs = 0;
  start = fl_plan_new (&next);
  plan = plan_with (c, c->fleet, start, FALSE);
  if (plan != NULL)
    add_cure (c, fl_plan_ref (fl_assessment_plan (plan)), N_("What is pinned stands in the way: without the pins it can be planned."), NULL, 0);
}

void
fl_cures_find (GArray *cures, FlArena *arena, const FlBook *book, const FlFleet *fleet, const FlPlan *start, const FlSearch *search,
               const FlHost *host)
{
  Curing c = { cures, arena, book, fleet, start, { search->work, FALSE, search->taken }, host };

  cure_by_unpinning (&c);
  cure_by_lock (&c);
  cure_by_gear (&c);
  cure_by_trailer (&c);
}
