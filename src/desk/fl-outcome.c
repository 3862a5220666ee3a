/* SPDX-License-Identifier: GPL-3.0-or-later */
/* From a judgement to the word and the symbol under which a move is listed. */
#include <glib/gi18n.h>

#include "fl-outcome.h"

FlOutcome *
fl_outcome_new_empty (void)
{
  return g_new0 (FlOutcome, 1);
}

static FlState
state_of (const FlAssessment *assessment, guint n_attention)
{
  if (fl_assessment_stands (assessment))
    return n_attention > 0 ? FL_STATE_LOOK : FL_STATE_STANDS;
  if (fl_assessment_verdict (assessment) == FL_NOT_COMPLIANT || fl_assessment_house (assessment) == FL_HOUSE_SHORT)
    return FL_STATE_SHORT;
  return FL_STATE_NOT_KNOWN;
}

FlOutcome *
fl_outcome_new_judged (FlAssessment *assessment)
{
  FlOutcome *outcome = g_new0 (FlOutcome, 1);
  gsize n;
  const FlFinding *findings = fl_assessment_findings (assessment, &n);

  for (gsize i = 0; i < n; i++)
    {
      outcome->n_look += findings[i].verdict == FL_CAUTION;
      outcome->n_unknown += findings[i].verdict == FL_UNKNOWN;
      outcome->n_short += findings[i].verdict == FL_SHORT;
    }
  outcome->assessment = assessment;
  outcome->state = state_of (assessment, outcome->n_look + outcome->n_unknown + outcome->n_short);
  return outcome;
}

FlOutcome *
fl_outcome_new_refused (FlProposal *proposal)
{
  FlOutcome *outcome = g_new0 (FlOutcome, 1);

  outcome->state = FL_STATE_CANNOT;
  outcome->proposal = proposal;
  return outcome;
}

FlOutcome *
fl_outcome_new_misfit (const char *why)
{
  FlOutcome *outcome = g_new0 (FlOutcome, 1);

  outcome->state = FL_STATE_MISFIT;
  outcome->misfit = g_strdup (why);
  return outcome;
}

void
fl_outcome_free (FlOutcome *outcome)
{
  if (outcome == NULL)
    return;
  g_clear_pointer (&outcome->assessment, fl_assessment_unref);
  g_clear_pointer (&outcome->proposal, fl_proposal_free);
  g_free (outcome->misfit);
  g_free (outcome);
}

const FlAssessment *
fl_outcome_shown (const FlOutcome *outcome)
{
  if (outcome->assessment != NULL)
    return outcome->assessment;
  return outcome->proposal != NULL ? outcome->proposal->nearest : NULL;
}

char *
fl_outcome_words (const FlOutcome *outcome)
{
  const guint attention = outcome->n_look + outcome->n_unknown + outcome->n_short;

  switch (outcome->state)
    {
    case FL_STATE_STANDS:
      return g_strdup (_("Stands"));
    case FL_STATE_LOOK:
      return g_strdup_printf (ngettext ("Stands, look at %u", "Stands, look at %u", attention), attention);
    case FL_STATE_NOT_KNOWN:
      return g_strdup (_("Something not known"));
    case FL_STATE_SHORT:
      return g_strdup (_("Falls short"));
    case FL_STATE_CANNOT:
      return g_strdup (_("Cannot be planned"));
    case FL_STATE_MISFIT:
      return g_strdup (_("Plan does not fit"));
    case FL_STATE_NO_PLAN:
    case FL_N_STATES:
    default:
      return g_strdup (_("No plan yet"));
    }
}

const char *
fl_outcome_icon (const FlOutcome *outcome)
{
  static const char *const icons[FL_N_STATES] = {
    "fl-no-plan-symbolic", "fl-stands-symbolic", "fl-look-symbolic", "fl-not-known-symbolic", "fl-short-symbolic", "fl-cannot-symbolic",
    "fl-cannot-symbolic",
  };

  return icons[outcome->state];
}

gboolean
fl_finding_wants_attention (const FlFinding *finding)
{
  return finding->verdict >= FL_CAUTION;
}

const char *
fl_verdict_icon (FlVerdict verdict)
{
  static const char *const icons[FL_N_VERDICTS] = {
    "fl-stands-symbolic", "fl-note-symbolic", "fl-look-symbolic", "fl-not-known-symbolic", "fl-short-symbolic",
  };

  return icons[verdict];
}
