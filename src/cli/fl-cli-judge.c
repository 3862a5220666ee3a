/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Reading and judging the plans of a file. */
#include "fl-cli-judge.h"

#include <string.h>

#include "fl-json.h"

/* The plans of the file and its text; NULL after its lines. */
static GPtrArray *
read_plans (const char *path, GBytes **text)
{
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(GError) error = NULL;
  GPtrArray *plans;

  *text = fl_office_read_file (path, &error);
  plans = *text != NULL ? fl_office_parse_plans (path, *text, problems, &error) : NULL;
  if (plans == NULL)
    fl_cli_complain_all (path, problems, error);
  return plans;
}

static gboolean
holds_list (GBytes *text)
{
  FlJsonSpan span;
  gsize length;
  const char *data = g_bytes_get_data (text, &length);

  return fl_json_find (data, length, "plans", &span);
}

/* At least one plan, one plan a move, and nothing named that the fleet does not have. FALSE after a line for each problem. */
static gboolean
check_plans (const char *path, const GPtrArray *plans, GBytes *text, const FlCliJudged *judged)
{
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);

  if (plans->len == 0)
    fl_problems_add (problems, FL_SEVERITY_ERROR, "plans", 0, "[]", "at least one plan");
  for (guint i = 0; i < plans->len; i++)
    {
      const FlPlan *plan = g_ptr_array_index (plans, i);
      const char *move = fl_plan_choices (plan)->move;
      g_autofree char *prefix = judged->is_list ? g_strdup_printf ("plans[%u].", i) : g_strdup ("");
      g_autofree char *place = g_strconcat (prefix, "move", NULL);

      fl_office_check_plan (judged->office, plan, text, prefix, problems);
      if (!g_hash_table_add (seen, (gpointer) move))
        fl_problems_add (problems, FL_SEVERITY_ERROR, place, 0, move, "a move that no plan before it has");
    }
  fl_cli_complain_all (path, problems, NULL);
  return fl_problems_errors (problems) == 0;
}

/* Judges each; what is still wrong then has a line as well. */
static gboolean
judge_all (const char *path, const GPtrArray *plans, FlCliJudged *judged)
{
  gboolean good = TRUE;

  for (guint i = 0; i < plans->len; i++)
    {
      const FlPlan *plan = g_ptr_array_index (plans, i);
      g_autoptr(GError) error = NULL;
      g_autofree char *line = NULL;
      FlAssessment *assessment = fl_judge_plan (fl_office_book (judged->office), fl_office_fleet (judged->office), plan, &error);

      if (assessment != NULL)
        {
          g_ptr_array_add (judged->assessments, assessment);
          fl_office_set_plan (judged->office, fl_plan_choices (plan)->move, plan);
          continue;
        }
      line = g_strdup_printf ("%s: move %s: %s", path, fl_plan_choices (plan)->move, error->message);
      fl_cli_complain (line);
      good = FALSE;
    }
  return good;
}

/* Clashes among the plans of the file; the fleet's own plans are not in question. */
static void
find_clashes (FlCliJudged *judged, const GPtrArray *plans)
{
  g_autoptr(GHashTable) told = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr(GHashTable) dates = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < plans->len; i++)
    {
      const char *date = fl_office_move (judged->office, fl_plan_choices (g_ptr_array_index (plans, i))->move)->date;
      g_autoptr(GPtrArray) clashes = NULL;

      if (!g_hash_table_add (dates, (gpointer) date))
        continue;
      clashes = fl_office_clashes (judged->office, date);
      for (guint k = 0; k < clashes->len; k++)
        if (!g_hash_table_contains (told, g_ptr_array_index (clashes, k)))
          {
            g_ptr_array_add (judged->clashes, g_strdup (g_ptr_array_index (clashes, k)));
            g_hash_table_add (told, g_ptr_array_index (judged->clashes, judged->clashes->len - 1));
          }
    }
}

static void
drop_fleet_plans (FlOffice *office)
{
  const FlFleet *fleet = fl_office_fleet (office);

  for (gsize i = 0; i < fl_fleet_count (fleet, FL_KIND_PLAN); i++)
    fl_office_set_plan (office, fl_record_id (fl_fleet_at (fleet, FL_KIND_PLAN, i)), NULL);
}

gboolean
fl_cli_judge (const FlCliArgs *args, FlCliJudged *judged)
{
  g_autoptr(GPtrArray) plans = NULL;
  g_autoptr(GBytes) text = NULL;

  memset (judged, 0, sizeof *judged);
  judged->office = fl_cli_open (args->words[0]);
  plans = read_plans (args->words[1], &text);
  if (judged->office == NULL || plans == NULL)
    return FALSE;
  judged->is_list = holds_list (text);
  if (!check_plans (args->words[1], plans, text, judged))
    return FALSE;
  judged->assessments = g_ptr_array_new_with_free_func ((GDestroyNotify) fl_assessment_unref);
  judged->clashes = g_ptr_array_new_with_free_func (g_free);
  drop_fleet_plans (judged->office);
  if (!judge_all (args->words[1], plans, judged))
    return FALSE;
  find_clashes (judged, plans);
  return TRUE;
}

void
fl_cli_judged_clear (FlCliJudged *judged)
{
  g_clear_pointer (&judged->assessments, g_ptr_array_unref);
  g_clear_pointer (&judged->clashes, g_ptr_array_unref);
  g_clear_pointer (&judged->office, fl_office_unref);
}

int
fl_cli_judged_status (const FlCliJudged *judged)
{
  for (guint i = 0; i < judged->assessments->len; i++)
    if (!fl_assessment_stands (g_ptr_array_index (judged->assessments, i)))
      return FL_CLI_AGAINST;
  return judged->clashes->len > 0 ? FL_CLI_AGAINST : FL_CLI_GOOD;
}
