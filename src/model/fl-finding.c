/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Findings: their names in the document, copies, and the list that the judge fills. */
#include "fl-finding.h"

/* In the order of the enums. */
static const char *const verdict_ids[FL_N_VERDICTS] = { "met", "note", "caution", "unknown", "short" };
static const char *const standing_ids[FL_N_STANDINGS] = { "law", "rating", "practice", "house", "advice" };

struct _FlFindings
{
  FlArena *arena;
  GPtrArray *items;             /* FlFinding in the arena */
  gboolean brief;
};

const char *
fl_verdict_id (FlVerdict verdict)
{
  g_return_val_if_fail ((guint) verdict < FL_N_VERDICTS, NULL);
  return verdict_ids[verdict];
}

const char *
fl_standing_id (FlStanding standing)
{
  g_return_val_if_fail ((guint) standing < FL_N_STANDINGS, NULL);
  return standing_ids[standing];
}

static gboolean
index_of (const char *const *ids, guint n, const char *id, guint *index)
{
  for (guint i = 0; id != NULL && i < n; i++)
    if (g_str_equal (ids[i], id))
      {
        *index = i;
        return TRUE;
      }
  return FALSE;
}

gboolean
fl_verdict_from_id (const char *id, FlVerdict *verdict)
{
  guint index;

  if (!index_of (verdict_ids, FL_N_VERDICTS, id, &index))
    return FALSE;
  *verdict = (FlVerdict) index;
  return TRUE;
}

gboolean
fl_standing_from_id (const char *id, FlStanding *standing)
{
  guint index;

  if (!index_of (standing_ids, FL_N_STANDINGS, id, &index))
    return FALSE;
  *standing = (FlStanding) index;
  return TRUE;
}

const FlFact *
fl_facts_copy (const FlFact *facts, gsize n, FlArena *arena)
{
  FlFact *copy;

  if (n == 0)
    return NULL;
  copy = fl_arena_copy (arena, facts, n * sizeof *facts);
  for (gsize i = 0; i < n; i++)
    {
      copy[i].key = fl_arena_text (arena, facts[i].key);
      copy[i].text = fl_arena_text (arena, facts[i].text);
    }
  return copy;
}

const FlMessage *
fl_messages_copy (const FlMessage *messages, gsize n, FlArena *arena)
{
  FlMessage *copy;

  if (n == 0)
    return NULL;
  copy = fl_arena_copy (arena, messages, n * sizeof *messages);
  for (gsize i = 0; i < n; i++)
    {
      copy[i].message = fl_arena_text (arena, messages[i].message);
      copy[i].facts = fl_facts_copy (messages[i].facts, messages[i].n_facts, arena);
    }
  return copy;
}

FlFinding
fl_finding_copy (const FlFinding *finding, FlArena *arena)
{
  FlFinding copy = *finding;

  copy.rule = fl_arena_text (arena, finding->rule);
  copy.citation = fl_arena_text (arena, finding->citation);
  copy.subject = fl_arena_text (arena, finding->subject);
  copy.basis = fl_arena_text (arena, finding->basis);
  copy.message = fl_arena_text (arena, finding->message);
  copy.facts = fl_facts_copy (finding->facts, finding->n_facts, arena);
  copy.steps = fl_messages_copy (finding->steps, finding->n_steps, arena);
  return copy;
}

FlFindings *
fl_findings_new (void)
{
  FlFindings *findings = g_new0 (FlFindings, 1);

  findings->arena = fl_arena_new ();
  findings->items = g_ptr_array_new ();
  return findings;
}

FlFindings *
fl_findings_new_brief (void)
{
  FlFindings *findings = fl_findings_new ();

  findings->brief = TRUE;
  return findings;
}

gboolean
fl_findings_brief (const FlFindings *findings)
{
  return findings->brief;
}

void
fl_findings_free (FlFindings *findings)
{
  if (findings == NULL)
    return;
  g_ptr_array_unref (findings->items);
  fl_arena_free (findings->arena);
  g_free (findings);
}

void
fl_findings_add (FlFindings *findings, const FlFinding *finding)
{
  FlFinding *kept;

  g_return_if_fail ((guint) finding->verdict < FL_N_VERDICTS && (guint) finding->standing < FL_N_STANDINGS);
  kept = fl_arena_new0 (findings->arena, FlFinding, 1);
  *kept = *finding;
  if (findings->brief)
    {
      kept->steps = NULL;
      kept->n_steps = 0;
    }
  *kept = fl_finding_copy (kept, findings->arena);
  g_ptr_array_add (findings->items, kept);
}

gsize
fl_findings_count (const FlFindings *findings)
{
  return findings->items->len;
}

const FlFinding *
fl_findings_at (const FlFindings *findings, gsize index)
{
  g_return_val_if_fail (index < findings->items->len, NULL);
  return g_ptr_array_index (findings->items, index);
}

FlArena *
fl_findings_arena (FlFindings *findings)
{
  return findings->arena;
}
