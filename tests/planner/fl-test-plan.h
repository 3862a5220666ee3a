/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-test-plan.h: for the tests of the planner: the demo's fleet, a move planned, and what every plan must keep to. Header only. */
#ifndef FL_TEST_PLAN_H
#define FL_TEST_PLAN_H

#include "fl-planner.h"
#include "fl-test-judge.h"

/* The demo fleet; its plan is a start for the first move and nothing more. */
static inline Case *
case_demo (void)
{
  g_autofree char *path = g_build_filename (g_getenv ("FAIRLEAD_DATA"), "demo", "fleet.json", NULL);
  Case *c = case_new ();

  json_node_unref (c->fleet_json);
  c->fleet_json = tree_of_file (path);
  return c;
}

static inline const FlMove *
move_of (const FlFleet *fleet, const char *id)
{
  const FlRecord *record = fl_fleet_find (fleet, FL_KIND_MOVE, id);

  g_assert_nonnull (record);
  return fl_record_move (record);
}

/* Plans from a start; the answer must be an answer. (transfer full) */
static inline FlProposal *
plan_from (const Case *c, const FlPlan *start, const FlSearch *search)
{
  g_autoptr(GError) error = NULL;
  FlProposal *p = fl_plan_move (c->book, c->fleet, start, search, NULL, &error);

  g_assert_no_error (error);
  g_assert_nonnull (p);
  return p;
}

/* Plans the move of the case's plan from nothing. (transfer full) */
static inline FlProposal *
plan_anew (const Case *c, const FlSearch *search)
{
  const FlPlanChoices *own = fl_plan_choices (c->plan);
  g_autoptr(FlPlan) start = fl_plan_for_move (c->fleet, move_of (c->fleet, own->move), own->trailer, own->truck);

  return plan_from (c, start, search);
}

static inline void
print_assessment (const FlAssessment *judged)
{
  Case c = { .judged = (FlAssessment *) judged };

  print_findings (&c);
}

/* What a plan that is returned must be: it stands by the judge, judged anew it is the same, and its score is the judged plan's. */
static inline void
assert_stands (const Case *c, const FlProposal *p)
{
  g_autoptr(GError) error = NULL;
  g_autoptr(FlAssessment) again = NULL;
  g_autofree char *first = NULL, *second = NULL;
  FlScore score;

  g_assert_nonnull (p->best);
  if (!fl_assessment_stands (p->best))
    print_assessment (p->best);
  g_assert_true (fl_assessment_stands (p->best));
  g_assert_null (p->nearest);
  again = fl_judge_plan (c->book, c->fleet, fl_assessment_plan (p->best), &error);
  g_assert_no_error (error);
  first = result_text (p->best);
  second = result_text (again);
  g_assert_cmpstr (first, ==, second);
  score = fl_score_of (p->best, c->book);
  g_assert_cmpint (fl_score_compare (&score, &p->score), ==, 0);
}

/* The words of a reason or a cure. (transfer full) */
static inline char *
message_text (const char *message, const FlFact *facts, gsize n)
{
  char *text = fl_words_message (NULL, message, facts, n, FALSE);

  g_assert_null (strchr (text, '{'));
  g_assert_cmpuint (strlen (text), >, 10);
  return text;
}

static inline void
print_reasons (const FlProposal *p)
{
  for (gsize i = 0; i < p->n_because; i++)
    {
      g_autofree char *text = message_text (p->because[i].message, p->because[i].facts, p->because[i].n_facts);

      g_test_message ("because: %s", text);
    }
  for (gsize i = 0; i < p->n_cures; i++)
    {
      g_autofree char *text = message_text (p->cures[i].message, p->cures[i].facts, p->cures[i].n_facts);

      g_test_message ("cure: %s", text);
    }
}

/* There is none, and it says why. */
static inline void
assert_none (const FlProposal *p)
{
  g_assert_null (p->best);
  g_assert_cmpuint (p->n_because, >, 0);
  print_reasons (p);
}

/* The tie-downs of a plan that hold the load itself. */
static inline guint
own_ties (const FlPlanChoices *c)
{
  guint n = 0;

  for (gsize i = 0; i < c->n_tie_downs; i++)
    n += c->tie_downs[i].purpose == FL_FOR_LOAD;
  return n;
}

static inline gboolean
uses (const FlPlanChoices *c, const char *gear)
{
  for (gsize i = 0; i < c->n_tie_downs; i++)
    {
      const FlTieDown *t = &c->tie_downs[i];

      if (g_strcmp0 (t->chain, gear) == 0 || g_strcmp0 (t->binder, gear) == 0 || g_strcmp0 (t->strap, gear) == 0)
        return TRUE;
      for (guint k = 0; k < t->n_connectors; k++)
        if (strcmp (t->connectors[k].id, gear) == 0)
          return TRUE;
    }
  return FALSE;
}

static inline gboolean
hooks_to (const FlPlanChoices *c, const char *anchor_or_point)
{
  for (gsize i = 0; i < c->n_tie_downs; i++)
    if (g_strcmp0 (c->tie_downs[i].anchors[0], anchor_or_point) == 0 || g_strcmp0 (c->tie_downs[i].anchors[1], anchor_or_point) == 0
        || g_strcmp0 (c->tie_downs[i].point, anchor_or_point) == 0)
      return TRUE;
  return FALSE;
}

#endif
