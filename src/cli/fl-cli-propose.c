/* SPDX-License-Identifier: GPL-3.0-or-later */
/* propose: the best plan for a move, or plans for a day's moves against the shared gear; reasons and cures where there is none. */
#include "fl-cli-show.h"

#include "fl-words.h"

/* ── JSON ── */

static void
write_plan (FlJsonWriter *writer, const FlAssessment *assessment)
{
  fl_json_writer_begin_object (writer, NULL);
  fl_assessment_build_json (assessment, writer, FALSE);
  fl_json_writer_end_object (writer);
}

static void
write_plans (FlJsonWriter *writer, const GPtrArray *proposals)
{
  fl_json_writer_begin_list (writer, "plans");
  for (guint i = 0; i < proposals->len; i++)
    {
      const FlProposal *proposal = g_ptr_array_index (proposals, i);

      if (proposal->best != NULL)
        write_plan (writer, proposal->best);
    }
  fl_json_writer_end_list (writer);
}

/* One sentence for the reasons of a move without a plan. */
static char *
because_text (const FlProposal *proposal, gboolean metric)
{
  GString *text = g_string_new (NULL);

  for (gsize i = 0; i < proposal->n_because; i++)
    {
      const FlMessage *why = &proposal->because[i];
      g_autofree char *part = fl_words_message (NULL, why->message, why->facts, why->n_facts, metric);

      g_string_append_printf (text, "%s%s", i == 0 ? "" : " ", part);
    }
  if (text->len == 0)
    g_string_append (text, "No plan was found, and no single reason.");
  return g_string_free (text, FALSE);
}

static void
write_unplanned (FlJsonWriter *writer, const FlProposal *proposal, gboolean metric)
{
  g_autofree char *because = because_text (proposal, metric);

  fl_json_writer_begin_object (writer, NULL);
  fl_json_writer_text (writer, "move", proposal->move);
  fl_json_writer_text (writer, "because", because);
  fl_json_writer_begin_list (writer, "cures");
  for (gsize i = 0; i < proposal->n_cures; i++)
    {
      const FlCure *cure = &proposal->cures[i];
      g_autofree char *text = fl_words_message (NULL, cure->message, cure->facts, cure->n_facts, metric);

      fl_json_writer_text (writer, NULL, text);
    }
  fl_json_writer_end_list (writer);
  fl_json_writer_end_object (writer);
}

/* {"plans": [...]}, with the moves that have none where `unplanned`. */
static GBytes *
day_json (const GPtrArray *proposals, gboolean unplanned, gboolean metric)
{
  g_autoptr(FlJsonWriter) writer = fl_json_writer_new ();

  fl_json_writer_begin_object (writer, NULL);
  write_plans (writer, proposals);
  if (unplanned)
    fl_json_writer_begin_list (writer, "unplanned");
  for (guint i = 0; unplanned && i < proposals->len; i++)
    {
      const FlProposal *proposal = g_ptr_array_index (proposals, i);

      if (proposal->best == NULL)
        write_unplanned (writer, proposal, metric);
    }
  if (unplanned)
    fl_json_writer_end_list (writer);
  fl_json_writer_end_object (writer);
  return fl_json_writer_end (writer);
}

/* ── for people ── */

static void
show_day (const GPtrArray *proposals, gboolean metric, GString *out)
{
  guint planned = 0;

  for (guint i = 0; i < proposals->len; i++)
    {
      const FlProposal *proposal = g_ptr_array_index (proposals, i);

      if (proposal->best == NULL)
        fl_cli_show_none (proposal, metric, out);
      else
        {
          fl_cli_show_line (proposal->best, out);
          fl_cli_show_against (proposal->best, out);
          planned++;
        }
    }
  g_string_append_printf (out, "%u of %u moves planned\n", planned, proposals->len);
}

static void
show_move (const FlProposal *proposal, gboolean brief, gboolean metric, GString *out)
{
  if (proposal->best != NULL)
    fl_cli_show_assessment (proposal->best, brief, out);
  else
    fl_cli_show_none (proposal, metric, out);
  if (proposal->best == NULL && proposal->nearest != NULL)
    {
      g_string_append (out, "What comes nearest\n");
      fl_cli_show_assessment (proposal->nearest, brief, out);
    }
}

/* ── the answer ── */

static gboolean
all_stand (const GPtrArray *proposals)
{
  for (guint i = 0; i < proposals->len; i++)
    {
      const FlProposal *proposal = g_ptr_array_index (proposals, i);

      if (proposal->best == NULL || !fl_assessment_stands (proposal->best))
        return FALSE;
    }
  return TRUE;
}

/* Writes -o; for a move without a plan nothing is written, and what was there stays. */
static gboolean
write_out (const FlCliArgs *args, const GPtrArray *proposals, GString *out, GError **error)
{
  const FlProposal *first = g_ptr_array_index (proposals, 0);
  g_autoptr(GBytes) json = NULL;

  if (args->out == NULL)
    return TRUE;
  if (args->move != NULL && first->best == NULL)
    {
      g_string_append_printf (out, "Not written: %s\n", args->out);
      return TRUE;
    }
  json = args->move != NULL ? fl_assessment_to_json (first->best, FALSE) : day_json (proposals, FALSE, FALSE);
  if (!fl_office_write_file (args->out, json, error))
    return FALSE;
  g_string_append_printf (out, "Written: %s\n", args->out);
  return TRUE;
}

static int
answer (const FlCliArgs *args, const FlOffice *office, const GPtrArray *proposals)
{
  const gboolean metric = fl_fleet_metric (fl_office_fleet (office));
  const int status = all_stand (proposals) ? FL_CLI_GOOD : FL_CLI_AGAINST;
  g_autoptr(GString) out = g_string_new (NULL);
  g_autoptr(GError) error = NULL;
  g_autoptr(GBytes) json = NULL;

  if (!args->json && args->date != NULL)
    show_day (proposals, metric, out);
  else if (!args->json)
    show_move (g_ptr_array_index (proposals, 0), args->brief, metric, out);
  if (!write_out (args, proposals, out, &error))
    {
      fl_cli_complain (error->message);
      return FL_CLI_BAD;
    }
  if (!args->json)
    return fl_cli_answer (out, status);
  json = day_json (proposals, TRUE, metric);
  return fl_cli_answer_json (json, status);
}

/* ── planning ── */

static GPtrArray *
propose_move (const FlOffice *office, const char *move, GError **error)
{
  g_autoptr(FlPlan) start = fl_office_start (office, move, error);
  FlProposal *proposal = start != NULL ? fl_office_plan_move (office, start, NULL, error) : NULL;
  GPtrArray *proposals;

  if (proposal == NULL)
    return NULL;
  proposals = g_ptr_array_new_with_free_func ((GDestroyNotify) fl_proposal_free);
  g_ptr_array_add (proposals, proposal);
  return proposals;
}

static gboolean
check_date (const FlOffice *office, const char *date, GError **error)
{
  g_autoptr(GPtrArray) dates = fl_fleet_dates (fl_office_fleet (office));
  g_autoptr(GString) there = g_string_new (NULL);

  for (guint i = 0; i < dates->len; i++)
    {
      const char *other = g_ptr_array_index (dates, i);

      if (g_str_equal (other, date))
        return TRUE;
      if (i < 6)
        g_string_append_printf (there, "%s%s", i == 0 ? "" : ", ", other);
    }
  g_set_error (error, FL_OFFICE_ERROR, FL_OFFICE_ERROR_NO_MOVE, "%s: moves: --date %s: a day on which the fleet has a move%s%s%s",
               fl_office_path (office), date, dates->len > 0 ? ": " : "; it has none", there->str, dates->len > 6 ? ", ..." : "");
  return FALSE;
}

static GPtrArray *
propose_day (const FlOffice *office, const char *date, GError **error)
{
  g_autoptr(FlDayPlan) day = check_date (office, date, error) ? fl_office_plan_day (office, date, NULL, error) : NULL;

  return day != NULL ? g_ptr_array_ref (day->proposals) : NULL;
}

int
fl_cli_propose (const FlCliArgs *args)
{
  g_autoptr(FlOffice) office = NULL;
  g_autoptr(GPtrArray) proposals = NULL;
  g_autoptr(GError) error = NULL;

  /* Before minutes of planning, not after. */
  if (args->out != NULL && !fl_office_may_write (args->out, &error))
    return fl_cli_complain_all (args->out, NULL, error);
  office = fl_cli_open (args->words[0]);
  if (office == NULL)
    return FL_CLI_BAD;
  proposals = args->move != NULL ? propose_move (office, args->move, &error) : propose_day (office, args->date, &error);
  return proposals != NULL ? answer (args, office, proposals) : fl_cli_complain_all (args->words[0], NULL, error);
}
