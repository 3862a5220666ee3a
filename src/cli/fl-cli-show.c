/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A judged plan as text for people: shortfalls first, then cautions, sums, tie-downs. */
#include "fl-cli-show.h"

#include <math.h>

#include "fl-words.h"

/* ── the headline ── */

static void
add_loads (const FlPlanChoices *choices, GString *out)
{
  for (gsize i = 0; i < choices->n_loads; i++)
    g_string_append_printf (out, "%s%s", i == 0 ? "" : " and ", choices->loads[i].id);
}

static void
add_headline (const FlAssessment *assessment, GString *out)
{
  const FlPlanChoices *choices = fl_plan_choices (fl_assessment_plan (assessment));

  g_string_append_printf (out, "%s: ", choices->move);
  add_loads (choices, out);
  g_string_append_printf (out, " on %s", choices->trailer);
  if (choices->truck != NULL)
    g_string_append_printf (out, " behind %s", choices->truck);
}

static const char *
verdict_words (const FlAssessment *assessment)
{
  switch (fl_assessment_verdict (assessment))
    {
    case FL_COMPLIANT:
      return fl_assessment_house (assessment) == FL_HOUSE_SHORT ? "short of a house rule" : "compliant";
    case FL_INCOMPLETE:
      return "incomplete: a measurement is missing";
    default:
      return "NOT COMPLIANT";
    }
}

static guint
count_cautions (const FlAssessment *assessment)
{
  gsize n;
  const FlFinding *findings = fl_assessment_findings (assessment, &n);
  guint cautions = 0;

  for (gsize i = 0; i < n; i++)
    cautions += findings[i].verdict >= FL_CAUTION && !fl_finding_stands_against (&findings[i]) ? 1 : 0;
  return cautions;
}

void
fl_cli_show_line (const FlAssessment *assessment, GString *out)
{
  const gsize ties = fl_assessment_parts (assessment)->n_ties;
  const guint cautions = count_cautions (assessment);

  add_headline (assessment, out);
  g_string_append_printf (out, ": %s, %" G_GSIZE_FORMAT " tie-down%s", verdict_words (assessment), ties, ties == 1 ? "" : "s");
  if (cautions > 0)
    g_string_append_printf (out, ", %u caution%s", cautions, cautions == 1 ? "" : "s");
  g_string_append_c (out, '\n');
}

/* ── findings ── */

/* Which findings a list holds, and whether with how their figures come about. */
typedef enum { AGAINST, CAUTIONS, NOTES, MET } Part;

static gboolean
belongs (const FlFinding *finding, Part part)
{
  switch (part)
    {
    case AGAINST:
      return finding->verdict >= FL_CAUTION && fl_finding_stands_against (finding);
    case CAUTIONS:
      return finding->verdict >= FL_CAUTION && !fl_finding_stands_against (finding);
    case NOTES:
      return finding->verdict == FL_NOTE;
    default:
      return finding->verdict == FL_MET;
    }
}

static void
add_need_and_have (const FlFinding *finding, gboolean metric, GString *out)
{
  g_autofree char *need = fl_quantity_format (finding->need, metric, TRUE, FL_ROUND_NEAREST);
  g_autofree char *have = fl_quantity_format (finding->have, metric, TRUE, FL_ROUND_NEAREST);

  if (!fl_quantity_known (finding->need) || (finding->verdict == FL_MET && !fl_quantity_known (finding->have)))
    return;
  g_string_append_printf (out, "      need %s, have %s%s%s\n", need, have, finding->basis != NULL ? "; known from: " : "",
                          finding->basis != NULL ? finding->basis : "");
}

static void
add_steps (const FlFinding *finding, gboolean metric, GString *out)
{
  for (gsize i = 0; i < finding->n_steps; i++)
    {
      const FlMessage *step = &finding->steps[i];
      g_autofree char *text = fl_words_message (NULL, step->message, step->facts, step->n_facts, metric);

      g_string_append_printf (out, "        - %s\n", text);
    }
}

static void
add_finding (const FlFinding *finding, gboolean steps, gboolean metric, GString *out)
{
  g_autofree char *text = fl_words_finding (NULL, finding, metric);

  g_string_append_printf (out, "  %s  %s", fl_words_verdict (NULL, finding->verdict), finding->subject != NULL ? finding->subject : finding->rule);
  g_string_append_printf (out, "  (%s: %s", fl_words_standing (NULL, finding->standing), finding->rule);
  if (finding->citation != NULL && g_strcmp0 (finding->citation, fl_words_standing (NULL, finding->standing)) != 0)
    g_string_append_printf (out, ", %s", finding->citation);
  g_string_append_printf (out, ")\n      %s\n", text);
  add_need_and_have (finding, metric, out);
  if (steps)
    add_steps (finding, metric, out);
}

static void
add_findings (const FlAssessment *assessment, Part part, gboolean steps, const char *heading, GString *out)
{
  gsize n;
  const FlFinding *findings = fl_assessment_findings (assessment, &n);
  gboolean begun = FALSE;

  for (gsize i = 0; i < n; i++)
    {
      if (!belongs (&findings[i], part))
        continue;
      if (!begun)
        g_string_append_printf (out, "%s\n", heading);
      begun = TRUE;
      add_finding (&findings[i], steps, fl_assessment_parts (assessment)->metric, out);
    }
}

void
fl_cli_show_against (const FlAssessment *assessment, GString *out)
{
  add_findings (assessment, AGAINST, FALSE, "Stands against it", out);
}

static void
add_tally (const FlAssessment *assessment, GString *out)
{
  gsize n;
  const FlFinding *findings = fl_assessment_findings (assessment, &n);
  guint met = 0, notes = 0;

  for (gsize i = 0; i < n; i++)
    {
      met += findings[i].verdict == FL_MET ? 1 : 0;
      notes += findings[i].verdict == FL_NOTE ? 1 : 0;
    }
  g_string_append_printf (out, "Also: %u met, %u note%s (without --brief they stand here)\n", met, notes, notes == 1 ? "" : "s");
}

/* ── places and sums ── */

static void
add_place (const FlLoadResult *load, gboolean metric, GString *out)
{
  g_autofree char *rear = fl_quantity_format (FL_M (fabs (load->rear)), metric, TRUE, FL_ROUND_NEAREST);

  g_string_append_printf (out, "  %s %s", load->id, load->kind != NULL ? load->kind : "");
  if (load->position != NULL)
    g_string_append_printf (out, " (%s)", load->position);
  if (load->placed)
    g_string_append_printf (out, ", facing %s, its rearward end %s %s the rear edge of the deck", load->facing == FL_FORWARD ? "forward" : "rearward",
                            rear, load->rear < 0.0 ? "behind" : "ahead of");
  g_string_append_c (out, '\n');
}

static void
add_sum (const FlLoadResult *load, gboolean metric, GString *out)
{
  g_autofree char *weight = fl_quantity_format (load->weight, metric, FALSE, FL_ROUND_UP);
  g_autofree char *need = fl_quantity_format (load->need, metric, FALSE, FL_ROUND_UP);
  g_autofree char *have = fl_quantity_format (load->have, metric, FALSE, FL_ROUND_DOWN);

  g_string_append_printf (out, "  %s weighs %s: need %s of working load limit, have %s", load->id, weight, need, have);
  if (load->weakest != NULL)
    g_string_append_printf (out, "; weakest part %s", load->weakest);
  g_string_append_c (out, '\n');
}

static void
add_sizes (const FlSizes *sizes, gboolean metric, GString *out)
{
  const struct { const char *name; FlQuantity value; } rows[] = {
    { "height", sizes->height }, { "width", sizes->width }, { "length", sizes->length }, { "gross", sizes->gross },
  };
  const char *before = "Loaded: ";

  for (gsize i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *text = fl_quantity_format (rows[i].value, metric, TRUE, FL_ROUND_UP);

      if (!fl_quantity_known (rows[i].value))
        continue;
      g_string_append_printf (out, "%s%s %s", before, rows[i].name, text);
      before = ", ";
    }
  if (*before == ',')
    g_string_append (out, sizes->height_measured ? "\n" : " (computed: measure the height)\n");
}

/* ── the table of tie-downs ── */

static char *
from_text (const FlTieDown *tie)
{
  g_autofree char *through = tie->through != NULL ? g_strjoinv (", ", (char **) tie->through) : NULL;

  return tie->over ? g_strdup_printf ("over %s", through != NULL ? through : "(nothing)") : g_strdup (tie->point);
}

static char *
gear_text (const FlTieDown *tie, const FlTieResult *result)
{
  GString *text = g_string_new (tie->chain != NULL ? tie->chain : tie->strap != NULL ? tie->strap : "(no gear)");

  if (result->gear_text != NULL)
    g_string_append_printf (text, " (%s)", result->gear_text);
  for (guint c = 0; c < tie->n_connectors; c++)
    g_string_append_printf (text, " + %s", tie->connectors[c].id);
  if (tie->edge_protected)
    g_string_append (text, " + edge protector");
  return g_string_free (text, FALSE);
}

static void
add_tie_row (FlCliTable *table, const FlTieDown *tie, const FlTieResult *result, gboolean metric)
{
  fl_cli_table_take (table, g_strdup_printf ("%u", tie->no));
  fl_cli_table_add (table, tie->purpose == FL_FOR_IMPLEMENT ? tie->implement : "machine");
  fl_cli_table_take (table, from_text (tie));
  fl_cli_table_take (table, tie->anchors[1] != NULL ? g_strdup_printf ("%s, %s", tie->anchors[0], tie->anchors[1]) : g_strdup (tie->anchors[0]));
  fl_cli_table_take (table, gear_text (tie, result));
  fl_cli_table_add (table, tie->binder);
  fl_cli_table_take (table, fl_quantity_format (result->run, metric, FALSE, FL_ROUND_NEAREST));
  fl_cli_table_take (table, fl_quantity_format (result->needs, metric, FALSE, FL_ROUND_NEAREST));
  fl_cli_table_take (table, fl_quantity_format (result->deck_angle, metric, FALSE, FL_ROUND_NEAREST));
  fl_cli_table_take (table, fl_quantity_format (result->plan_angle, metric, FALSE, FL_ROUND_NEAREST));
  fl_cli_table_take (table, fl_quantity_format (result->wll, metric, FALSE, FL_ROUND_DOWN));
  fl_cli_table_take (table, fl_quantity_format (result->counts, metric, FALSE, FL_ROUND_DOWN));
  fl_cli_table_add (table, result->limited_by);
}

static void
add_ties (const FlAssessment *assessment, GString *out)
{
  static const char *const heads[] = {
    "no", "holds", "from", "to anchor", "gear", "binder", "run", "takes", "deck", "plan", "limit", "counts", "weakest part",
  };
  const FlPlanChoices *choices = fl_plan_choices (fl_assessment_plan (assessment));
  const FlAssessmentParts *parts = fl_assessment_parts (assessment);
  g_autoptr(FlCliTable) table = fl_cli_table_new ("rlllllrrrrrrl");

  for (gsize i = 0; i < G_N_ELEMENTS (heads); i++)
    fl_cli_table_add (table, heads[i]);
  for (gsize i = 0; i < choices->n_tie_downs && i < parts->n_ties; i++)
    add_tie_row (table, &choices->tie_downs[i], &parts->ties[i], parts->metric);
  g_string_append (out, choices->n_tie_downs > 0 ? "Tie-downs (angles to the deck and to the trailer's length)\n" : "Tie-downs: none\n");
  if (choices->n_tie_downs > 0)
    fl_cli_table_print (table, 2, out);
}

/* ── the whole ── */

static void
add_loads_and_ties (const FlAssessment *assessment, GString *out)
{
  const FlAssessmentParts *parts = fl_assessment_parts (assessment);

  g_string_append (out, "Loads\n");
  for (gsize i = 0; i < parts->n_loads; i++)
    add_place (&parts->loads[i], parts->metric, out);
  g_string_append (out, "Sums\n");
  for (gsize i = 0; i < parts->n_loads; i++)
    add_sum (&parts->loads[i], parts->metric, out);
  add_ties (assessment, out);
  add_sizes (&parts->sizes, parts->metric, out);
}

void
fl_cli_show_assessment (const FlAssessment *assessment, gboolean brief, GString *out)
{
  const FlBookStamp *book = &fl_assessment_parts (assessment)->book;

  add_headline (assessment, out);
  g_string_append_printf (out, "\n%s; house rules %s. Judged by %s, %s.\n", verdict_words (assessment),
                          fl_house_verdict_id (fl_assessment_house (assessment)), book->id, book->edition);
  add_findings (assessment, AGAINST, !brief, "Stands against it", out);
  add_findings (assessment, CAUTIONS, !brief, "Cautions: a competent person must look", out);
  add_loads_and_ties (assessment, out);
  if (brief)
    add_tally (assessment, out);
  else
    {
      fl_cli_show_forces (assessment, out);
      add_findings (assessment, NOTES, TRUE, "Notes", out);
      add_findings (assessment, MET, TRUE, "Met", out);
    }
}

void
fl_cli_show_none (const FlProposal *proposal, gboolean metric, GString *out)
{
  g_string_append_printf (out, "%s: no plan", proposal->move);
  if (proposal->trailer != NULL)
    g_string_append_printf (out, " on %s", proposal->trailer);
  g_string_append_c (out, '\n');
  for (gsize i = 0; i < proposal->n_because; i++)
    {
      const FlMessage *why = &proposal->because[i];
      g_autofree char *text = fl_words_message (NULL, why->message, why->facts, why->n_facts, metric);

      g_string_append_printf (out, "  because: %s\n", text);
    }
  for (gsize i = 0; i < proposal->n_cures; i++)
    {
      const FlCure *cure = &proposal->cures[i];
      g_autofree char *text = fl_words_message (NULL, cure->message, cure->facts, cure->n_facts, metric);

      g_string_append_printf (out, "  cure: %s\n", text);
    }
}
