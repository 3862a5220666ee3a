/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The demo's day: all of its moves but the one that cannot be are planned, every plan stands, nobody and nothing is in two places at once
 * (by times read from the document and reckoned here), and the move that cannot be planned says why, with cures that work. The day is planned once
 * for all tests. */
#include "fl-test-plan.h"

#define DATE "2026-11-25"
#define NOT_TO_BE_HAD "2026-11-25/10"

static Case *demo;
static FlDayPlan *planned;

static const FlDayPlan *
the_day (void)
{
  g_autoptr(GError) error = NULL;
  FlSearch search = { 0, TRUE, NULL };

  if (planned != NULL)
    return planned;
  demo = case_demo ();
  g_assert_true (case_read (demo));
  planned = fl_plan_day (demo->book, demo->fleet, DATE, NULL, 0, &search, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpint (planned->state, ==, FL_RUN_DONE);
  return planned;
}

static const FlProposal *
proposal (guint i)
{
  return g_ptr_array_index (the_day ()->proposals, i);
}

static const FlProposal *
proposal_of (const char *move)
{
  for (guint i = 0; i < the_day ()->proposals->len; i++)
    if (strcmp (proposal (i)->move, move) == 0)
      return proposal (i);
  return NULL;
}

static const FlPlanChoices *
choices_of (const FlProposal *p)
{
  return p->best != NULL ? fl_plan_choices (fl_assessment_plan (p->best)) : NULL;
}

/* The move's object in the document. */
static JsonObject *
move_json (const char *id)
{
  JsonArray *moves = json_node_get_array (tree_at (demo->fleet_json, "moves"));

  for (guint i = 0; i < json_array_get_length (moves); i++)
    if (strcmp (json_object_get_string_member (json_array_get_object_element (moves, i), "id"), id) == 0)
      return json_array_get_object_element (moves, i);
  g_assert_not_reached ();
}

/* Minutes after midnight. */
static gint
minutes (JsonObject *move, const char *key)
{
  const char *text = json_object_get_string_member (move, key);

  return (gint) (60 * strtol (text, NULL, 10) + strtol (strchr (text, ':') + 1, NULL, 10));
}

/* Both are away at some minute: from departure to return and the turnaround after it (30 minutes in the demo). */
static gboolean
overlap (const char *a, const char *b)
{
  JsonObject *x = move_json (a), *y = move_json (b);

  return minutes (x, "depart") < minutes (y, "back") + 30 && minutes (y, "depart") < minutes (x, "back") + 30;
}

/* ── all of them ── */

static void
test_thirteen (void)
{
  guint best = 0;

  g_assert_cmpuint (the_day ()->proposals->len, ==, 14);
  for (guint i = 0; i < 14; i++)
    {
      const FlProposal *p = proposal (i);

      g_test_message ("%s on %s: %s", p->move, p->trailer, p->best != NULL ? "planned" : "not planned");
      best += p->best != NULL;
      g_assert_true ((p->best == NULL) == (strcmp (p->move, NOT_TO_BE_HAD) == 0));
    }
  g_assert_cmpuint (best, ==, 13);
}

static void
test_all_stand (void)
{
  for (guint i = 0; i < the_day ()->proposals->len; i++)
    if (proposal (i)->best != NULL)
      {
        assert_stands (demo, proposal (i));
        g_assert_cmpint (fl_assessment_verdict (proposal (i)->best), ==, FL_COMPLIANT);
        g_assert_cmpstr (choices_of (proposal (i))->move, ==, proposal (i)->move);
      }
}

/* What the demo's gear can clear is cleared: no plan of the day has a caution of force, of all directions or of the place. */
static void
test_cleared (void)
{
  static const char *const rules[] = { "force", "all_directions", "placement" };

  for (guint i = 0; i < the_day ()->proposals->len; i++)
    for (guint k = 0; k < G_N_ELEMENTS (rules) && proposal (i)->best != NULL; k++)
      {
        Case c = { .judged = proposal (i)->best };

        if (count_of (&c, rules[k], FL_CAUTION) > 0)
          g_error ("%s: a caution of %s", proposal (i)->move, rules[k]);
      }
}

/* In the order in which they leave. */
static void
test_order (void)
{
  for (guint i = 1; i < the_day ()->proposals->len; i++)
    g_assert_cmpint (minutes (move_json (proposal (i - 1)->move), "depart"), <=, minutes (move_json (proposal (i)->move), "depart"));
}

/* What a move asks for it gets. */
static void
test_as_asked (void)
{
  for (guint i = 0; i < the_day ()->proposals->len; i++)
    {
      JsonObject *move = move_json (proposal (i)->move);
      const FlPlanChoices *c = choices_of (proposal (i));

      if (c != NULL && json_object_has_member (move, "trailer"))
        g_assert_cmpstr (c->trailer, ==, json_object_get_string_member (move, "trailer"));
      if (c != NULL && json_object_has_member (move, "truck"))
        g_assert_cmpstr (c->truck, ==, json_object_get_string_member (move, "truck"));
    }
}

/* ── in two places at once ── */

static void
assert_not_both (const char *what, const char *a, const char *b, const FlProposal *x, const FlProposal *y)
{
  if (a != NULL && g_strcmp0 (a, b) == 0)
    g_error ("%s %s is with %s and with %s", what, a, x->move, y->move);
}

static void
assert_no_gear_shared (const FlProposal *x, const FlProposal *y)
{
  const FlPlanChoices *c = choices_of (x);

  for (gsize i = 0; i < c->n_tie_downs; i++)
    {
      const FlTieDown *t = &c->tie_downs[i];
      const char *pieces[3 + FL_MAX_CONNECTORS] = { t->chain, t->binder, t->strap };

      for (guint k = 0; k < t->n_connectors; k++)
        pieces[3 + k] = t->connectors[k].id;
      for (guint k = 0; k < G_N_ELEMENTS (pieces); k++)
        if (pieces[k] != NULL && uses (choices_of (y), pieces[k]))
          g_error ("%s is with %s and with %s", pieces[k], x->move, y->move);
    }
}

static void
assert_apart (const FlProposal *x, const FlProposal *y)
{
  const FlPlanChoices *a = choices_of (x), *b = choices_of (y);
  JsonObject *p = move_json (x->move), *q = move_json (y->move);

  assert_not_both ("trailer", a->trailer, b->trailer, x, y);
  assert_not_both ("truck", a->truck, b->truck, x, y);
  assert_not_both ("driver", json_object_get_string_member_with_default (p, "driver", NULL),
                   json_object_get_string_member_with_default (q, "driver", NULL), x, y);
  for (gsize i = 0; i < a->n_loads; i++)
    for (gsize k = 0; k < b->n_loads; k++)
      assert_not_both ("load", a->loads[i].id, b->loads[k].id, x, y);
  assert_no_gear_shared (x, y);
}

static void
test_apart (void)
{
  guint pairs = 0;

  for (guint i = 0; i < the_day ()->proposals->len; i++)
    for (guint k = i + 1; k < the_day ()->proposals->len; k++)
      if (choices_of (proposal (i)) != NULL && choices_of (proposal (k)) != NULL && overlap (proposal (i)->move, proposal (k)->move))
        {
          assert_apart (proposal (i), proposal (k));
          pairs++;
        }
  g_assert_cmpuint (pairs, >, 10);
}

/* ── the one that cannot be ── */

/* What the others hold while it is away. */
static GPtrArray *
held_by_others (const char *move)
{
  GPtrArray *held = g_ptr_array_new ();

  for (guint i = 0; i < the_day ()->proposals->len; i++)
    {
      const FlPlanChoices *c = choices_of (proposal (i));

      if (c == NULL || strcmp (proposal (i)->move, move) == 0 || !overlap (proposal (i)->move, move))
        continue;
      g_ptr_array_add (held, (gpointer) c->trailer);
      for (gsize k = 0; k < c->n_tie_downs; k++)
        {
          g_ptr_array_add (held, (gpointer) c->tie_downs[k].chain);
          g_ptr_array_add (held, (gpointer) c->tie_downs[k].binder);
        }
    }
  while (g_ptr_array_remove (held, NULL))
    ;
  g_ptr_array_add (held, NULL);
  return held;
}

static gboolean
planned_with (Case *c, const char *trailer)
{
  g_autoptr(GPtrArray) held = held_by_others (NOT_TO_BE_HAD);
  g_autoptr(FlPlan) start = NULL;
  g_autoptr(FlProposal) p = NULL;

  g_assert_true (case_read (c));
  start = fl_plan_for_move (c->fleet, move_of (c->fleet, NOT_TO_BE_HAD), trailer, NULL);
  p = plan_from (c, start, &(FlSearch) { 0, FALSE, (const char *const *) held->pdata });
  return p->best != NULL;
}

static void
append_to (Case *c, const char *list, const char *json)
{
  g_autofree char *path = g_strdup_printf ("%s[%u]", list, json_array_get_length (json_node_get_array (tree_at (c->fleet_json, list))));

  fleet_set (c, path, json);
}

static void
apply_cure (Case *c, const FlCure *cure, const char **trailer)
{
  const char *size = NULL, *id = NULL;
  double n = 0, feet = 0;

  for (gsize i = 0; i < cure->n_facts; i++)
    {
      const FlFact *f = &cure->facts[i];

      size = strcmp (f->key, "size") == 0 ? f->text : size;
      id = strcmp (f->key, "id") == 0 ? f->text : id;
      n = strcmp (f->key, "n") == 0 ? f->quantity.value : n;
      feet = strcmp (f->key, "feet") == 0 ? f->quantity.value : feet;
    }
  if (size != NULL)
    {
      g_autofree char *binder = g_strdup_printf ("{'id': 'NB', 'kept_at': 'T-03', 'kind': 'ratchet', 'wll_lb': %d, 'chain_sizes': ['%s'], 'take_up_in': 8, "
                                                 "'count': %.0f}", strcmp (size, "5/16") == 0 ? 4700 : 6600, size, n);
      g_autofree char *chain = g_strdup_printf ("{'id': 'NC', 'kept_at': 'T-03', 'size_in': '%s', 'mark': '70', 'length_ft': %.0f, 'hook': 'grab', "
                                                "'count': %.0f}", size, feet, n);

      append_to (c, "binders", binder);
      if (feet > 0)
        append_to (c, "chains", chain);
    }
  else if (strstr (cure->message, "lock") != NULL)
    for (guint i = 0; i < json_array_get_length (json_node_get_array (tree_at (c->fleet_json, "machines"))); i++)
      {
        g_autofree char *at = g_strdup_printf ("machines[%u].id", i), *locks = g_strdup_printf ("machines[%u].locks", i);

        if (strcmp (json_node_get_string (tree_at (c->fleet_json, at)), id) == 0)
          fleet_set (c, locks, "[{'id': 'ART', 'kind': 'articulation', 'on_machine': true, 'fitted': true}]");
      }
  else
    *trailer = id;
}

static void
test_not_to_be_had (void)
{
  const FlProposal *p;
  gboolean lock = FALSE;

  the_day ();
  p = proposal_of (NOT_TO_BE_HAD);
  assert_none (p);
  for (gsize i = 0; i < p->n_because; i++)
    lock = lock || strstr (p->because[i].message, "articulation lock") != NULL;
  g_assert_true (lock);
  g_assert_cmpuint (p->n_cures, >=, 2);
  g_assert_nonnull (p->nearest);
  g_assert_false (fl_assessment_stands (p->nearest));
}

/* Without a cure it cannot be planned; with each of them it can. */
static void
test_cures (void)
{
  const FlProposal *p;

  the_day ();
  p = proposal_of (NOT_TO_BE_HAD);
  g_assert_false (planned_with (demo, NULL));
  for (gsize i = 0; i < p->n_cures; i++)
    {
      g_autoptr(Case) c = case_demo ();
      g_autofree char *text = message_text (p->cures[i].message, p->cures[i].facts, p->cures[i].n_facts);
      const char *trailer = NULL;

      g_test_message ("%s", text);
      apply_cure (c, &p->cures[i], &trailer);
      g_assert_true (planned_with (c, trailer));
    }
}

/* ── plans that are kept, cancelling ── */

/* Two moves of the day after at the same hour: the kept one stays byte for byte, and what it holds the other does not take. */
static void
test_kept_plan (void)
{
  g_autoptr(Case) c = case_demo ();
  g_autoptr(FlDayPlan) first = NULL;
  g_autoptr(FlDayPlan) second = NULL;
  g_autoptr(GError) error = NULL;
  g_autofree char *before = NULL, *after = NULL;
  const FlPlan *kept[1];
  const FlProposal *one, *two;

  append_to (c, "moves", "{'id': '2026-11-26/02', 'date': '2026-11-26', 'depart': '08:00', 'back': '10:00', 'machine': 'EX-10', 'trailer': 'T-02', "
                         "'truck': 'K-2', 'driver': 'P-07', 'from': 'OUTFALL', 'gear_yard': 'OUTFALL', 'priority': 1, 'height_limit_in': 162}");
  g_assert_true (case_read (c));
  first = fl_plan_day (c->book, c->fleet, "2026-11-26", NULL, 0, NULL, NULL, &error);
  g_assert_no_error (error);
  one = g_ptr_array_index (first->proposals, 0);
  g_assert_cmpstr (one->move, ==, "2026-11-26/01");
  g_assert_nonnull (one->best);
  kept[0] = fl_assessment_plan (one->best);
  before = result_text (one->best);
  second = fl_plan_day (c->book, c->fleet, "2026-11-26", kept, 1, NULL, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (second->proposals->len, ==, 2);
  one = g_ptr_array_index (second->proposals, 0);
  two = g_ptr_array_index (second->proposals, 1);
  after = result_text (one->best);
  g_assert_cmpstr (after, ==, before);
  g_assert_nonnull (two->best);
  assert_no_gear_shared (one, two);
}

/* The machine of an earlier plan, asked for again at the same hour, is away: said by name. */
static void
test_away (void)
{
  static const struct { const char *machine, *trailer, *truck, *driver, *what; } cases[] = {
    { "EX-04", "T-02", "K-2", "P-07", "EX-04" }, { "EX-10", "T-01", "K-2", "P-07", "T-01" }, { "EX-10", "T-02", "K-1", "P-07", "K-1" },
    { "EX-10", "T-02", "K-2", "P-05", "P-05" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr(Case) c = case_demo ();
      g_autoptr(FlDayPlan) day = NULL;
      g_autofree char *text = NULL;
      g_autofree char *json = g_strdup_printf ("{'id': '2026-11-26/02', 'date': '2026-11-26', 'depart': '08:00', 'back': '10:00', 'machine': '%s', "
                                               "'trailer': '%s', 'truck': '%s', 'driver': '%s', 'from': 'OUTFALL', 'gear_yard': 'OUTFALL', 'priority': 9}",
                                               cases[i].machine, cases[i].trailer, cases[i].truck, cases[i].driver);
      const FlProposal *p;

      append_to (c, "moves", json);
      g_assert_true (case_read (c));
      day = fl_plan_day (c->book, c->fleet, "2026-11-26", NULL, 0, NULL, NULL, NULL);
      p = g_ptr_array_index (day->proposals, 1);
      g_assert_null (p->best);
      g_assert_cmpuint (p->n_because, ==, 1);
      text = message_text (p->because[0].message, p->because[0].facts, p->because[0].n_facts);
      g_assert_nonnull (strstr (text, cases[i].what));
      g_assert_nonnull (strstr (text, "2026-11-26/01"));
    }
}

typedef struct { GCancellable *cancel; guint calls; double last; } Watch;

/* Fractions rise from 0 to 1; after the second message it is enough. */
static void
watch (gpointer self, double fraction, const char *message, const FlFact *facts, gsize n)
{
  Watch *w = self;
  g_autofree char *text = fl_words_message (NULL, message, facts, n, FALSE);

  g_assert_cmpfloat (fraction, >=, w->last);
  g_assert_cmpfloat (fraction, <=, 1);
  g_assert_null (strchr (text, '{'));
  w->last = fraction;
  if (++w->calls == 2)
    g_cancellable_cancel (w->cancel);
}

static void
test_cancel (void)
{
  g_autoptr(Case) c = case_demo ();
  g_autoptr(GCancellable) cancel = g_cancellable_new ();
  g_autoptr(FlDayPlan) day = NULL;
  g_autoptr(GError) error = NULL;
  Watch w = { cancel, 0, 0 };
  FlHost host = { watch, &w, cancel };

  g_assert_true (case_read (c));
  day = fl_plan_day (c->book, c->fleet, DATE, NULL, 0, NULL, &host, &error);
  g_assert_no_error (error);
  g_assert_cmpint (day->state, ==, FL_RUN_CANCELLED);
  g_assert_cmpuint (w.calls, ==, 2);
  g_assert_cmpuint (day->proposals->len, <=, 2);
  g_assert_cmpuint (day->proposals->len, >=, 1);        /* the best so far is kept */
}

static void
test_empty_day (void)
{
  g_autoptr(Case) c = case_demo ();
  g_autoptr(FlDayPlan) day = NULL;

  g_assert_true (case_read (c));
  day = fl_plan_day (c->book, c->fleet, "2027-01-01", NULL, 0, NULL, NULL, NULL);
  g_assert_cmpuint (day->proposals->len, ==, 0);
  g_assert_cmpint (day->state, ==, FL_RUN_DONE);
}

int
main (int argc, char **argv)
{
  gint status;

  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/day/thirteen", test_thirteen);
  g_test_add_func ("/day/all-stand", test_all_stand);
  g_test_add_func ("/day/cleared", test_cleared);
  g_test_add_func ("/day/order", test_order);
  g_test_add_func ("/day/as-asked", test_as_asked);
  g_test_add_func ("/day/apart", test_apart);
  g_test_add_func ("/day/not-to-be-had", test_not_to_be_had);
  g_test_add_func ("/day/cures", test_cures);
  g_test_add_func ("/day/kept", test_kept_plan);
  g_test_add_func ("/day/away", test_away);
  g_test_add_func ("/day/cancel", test_cancel);
  g_test_add_func ("/day/empty", test_empty_day);
  status = test_done (g_test_run ());
  g_clear_pointer (&planned, fl_day_plan_free);
  g_clear_pointer (&demo, case_free);
  return status;
}
