/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cures: where a move cannot be planned, each of them, put into the fleet or the plan as it says, makes it possible, and less of it does
 * not. */
#include "fl-test-plan.h"

static const FlFact *
fact_of (const FlCure *cure, const char *key)
{
  for (gsize i = 0; i < cure->n_facts; i++)
    if (strcmp (cure->facts[i].key, key) == 0)
      return &cure->facts[i];
  return NULL;
}

static guint
number_of (const FlCure *cure, const char *key)
{
  const FlFact *fact = fact_of (cure, key);

  g_assert_nonnull (fact);
  return (guint) fact->quantity.value;
}

/* The first cure whose message has the words; NULL. */
static const FlCure *
cure_with (const FlProposal *p, const char *words)
{
  for (gsize i = 0; i < p->n_cures; i++)
    if (strstr (p->cures[i].message, words) != NULL)
      return &p->cures[i];
  return NULL;
}

static FlProposal *
ask_cures (Case *c)
{
  FlProposal *p;

  g_assert_true (case_read (c));
  p = plan_from (c, c->plan, &(FlSearch) { 0, TRUE, NULL });
  assert_none (p);
  return p;
}

static gboolean
can_be_planned (Case *c)
{
  g_autoptr(FlProposal) p = NULL;

  g_assert_true (case_read (c));
  p = plan_from (c, c->plan, NULL);
  if (p->best != NULL)
    assert_stands (c, p);
  return p->best != NULL;
}

static void
append_to (Case *c, const char *list, const char *json)
{
  g_autofree char *path = g_strdup_printf ("%s[%u]", list, json_array_get_length (json_node_get_array (tree_at (c->fleet_json, list))));

  fleet_set (c, path, json);
}

/* n binders, and n chains of so many feet, as the cure says; a binder for grade 70 is worth what the chain is (393.108). */
static void
add_kit (Case *c, const FlCure *cure, guint n)
{
  const char *size = fact_of (cure, "size")->text;
  guint feet = number_of (cure, "feet"), wll = strcmp (size, "5/16") == 0 ? 4700 : strcmp (size, "3/8") == 0 ? 6600 : 11300;
  g_autofree char *binder = g_strdup_printf ("{'id': 'NB', 'kept_at': 'T-3', 'kind': 'ratchet', 'wll_lb': %u, 'chain_sizes': ['%s'], 'take_up_in': 8, 'count': %u}",
                                             wll, size, n);
  g_autofree char *chain = g_strdup_printf ("{'id': 'NC', 'kept_at': 'T-3', 'size_in': '%s', 'mark': '70', 'length_ft': %u, 'hook': 'grab', 'count': %u}", size,
                                            feet, n);

  if (n == 0)
    return;
  append_to (c, "binders", binder);
  if (feet > 0)
    append_to (c, "chains", chain);
}

static void
check_kit (void (*spoil) (Case *c), const char *words, guint n)
{
  g_autoptr(Case) bad = case_new ();
  g_autoptr(Case) cured = case_new ();
  g_autoptr(Case) less = case_new ();
  g_autoptr(FlProposal) p = NULL;
  const FlCure *cure;

  spoil (bad);
  spoil (cured);
  spoil (less);
  p = ask_cures (bad);
  cure = cure_with (p, words);
  g_assert_nonnull (cure);
  g_assert_cmpuint (number_of (cure, "n"), ==, n);
  add_kit (cured, cure, n);
  g_assert_true (can_be_planned (cured));
  add_kit (less, cure, n - 1);
  g_assert_false (can_be_planned (less));
}

static void
one_binder (Case *c)
{
  fleet_drop (c, "binders[4]");
}

static void
two_binders (Case *c)
{
  fleet_drop (c, "binders[4]");
  fleet_drop (c, "binders[3]");
}

/* Four marked chains for four corners, none for the blade. */
static void
one_chain (Case *c)
{
  fleet_drop (c, "chains[5]");
  fleet_drop (c, "chains[0]");
  plan_set (c, "tie_downs", "[]");
}

static void
test_binder (void)
{
  check_kit (one_binder, "One more binder", 1);
}

static void
test_binders (void)
{
  check_kit (two_binders, "more binders", 2);
}

static void
test_chain (void)
{
  check_kit (one_chain, "One more chain", 1);
}

static void
test_lock (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(FlProposal) p = NULL;

  fleet_set (c, "machines[0].locks[0].fitted", "false");
  p = ask_cures (c);
  g_assert_nonnull (cure_with (p, "Fit the articulation lock"));
  g_assert_cmpstr (fact_of (cure_with (p, "Fit the articulation lock"), "id")->text, ==, "R-03");
  fleet_set (c, "machines[0].locks[0].fitted", "true");
  g_assert_true (can_be_planned (c));
}

static void
test_pins (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(FlProposal) p = NULL;
  const FlCure *cure;
  g_autoptr(FlAssessment) judged = NULL;

  plan_set (c, "loads[0].rear_in", "-60");
  plan_set (c, "loads[0].pinned", "['rear']");
  p = ask_cures (c);
  cure = cure_with (p, "without the pins");
  g_assert_nonnull (cure);
  g_assert_nonnull (cure->plan);        /* the plan it leads to, which stands */
  judged = fl_judge_plan (c->book, c->fleet, cure->plan, NULL);
  g_assert_true (fl_assessment_stands (judged));
  plan_drop (c, "loads[0].pinned");
  g_assert_true (can_be_planned (c));
}

/* Another trailer that would do: this one is too weak for the load. */
static void
test_trailer (void)
{
  g_autoptr(Case) c = case_new ();
  g_autoptr(FlProposal) p = NULL;
  const FlCure *cure;
  JsonNode *other = tree_copy (tree_at (c->fleet_json, "trailers[0]"));
  g_autofree char *json = NULL;

  json_object_set_string_member (json_node_get_object (other), "id", "T-4");
  json = json_to_string (other, FALSE);
  json_node_unref (other);
  fleet_set (c, "trailers[1]", json);
  fleet_set (c, "trailers[0].capacity_lb", "20000");
  for (guint i = 0; i < 5; i++)         /* the binders are the yard's */
    {
      g_autofree char *path = g_strdup_printf ("binders[%u].kept_at", i);

      fleet_set (c, path, "'NORTH'");
    }
  p = ask_cures (c);
  cure = cure_with (p, "would do");
  g_assert_nonnull (cure);
  g_assert_cmpstr (fact_of (cure, "id")->text, ==, "T-4");
  g_assert_nonnull (cure->plan);
  plan_set (c, "trailer", "'T-4'");
  g_assert_true (can_be_planned (c));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/cures/binder", test_binder);
  g_test_add_func ("/cures/binders", test_binders);
  g_test_add_func ("/cures/chain", test_chain);
  g_test_add_func ("/cures/lock", test_lock);
  g_test_add_func ("/cures/pins", test_pins);
  g_test_add_func ("/cures/trailer", test_trailer);
  return test_done (g_test_run ());
}
