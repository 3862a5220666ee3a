/* SPDX-License-Identifier: GPL-3.0-or-later */
/* check: judges a plan, or all plans of a file, made or edited elsewhere. */
#include "fl-cli-judge.h"
#include "fl-cli-show.h"

static GBytes *
list_json (const FlCliJudged *judged)
{
  g_autoptr(FlJsonWriter) writer = fl_json_writer_new ();

  fl_json_writer_begin_object (writer, NULL);
  fl_json_writer_begin_list (writer, "plans");
  for (guint i = 0; i < judged->assessments->len; i++)
    {
      fl_json_writer_begin_object (writer, NULL);
      fl_assessment_build_json (g_ptr_array_index (judged->assessments, i), writer, FALSE);
      fl_json_writer_end_object (writer);
    }
  fl_json_writer_end_list (writer);
  fl_json_writer_begin_list (writer, "clashes");
  for (guint i = 0; i < judged->clashes->len; i++)
    fl_json_writer_text (writer, NULL, g_ptr_array_index (judged->clashes, i));
  fl_json_writer_end_list (writer);
  fl_json_writer_end_object (writer);
  return fl_json_writer_end (writer);
}

static int
answer_people (const FlCliJudged *judged, gboolean brief, int status)
{
  g_autoptr(GString) out = g_string_new (NULL);

  for (guint i = 0; i < judged->assessments->len; i++)
    {
      g_string_append (out, i > 0 ? "\n" : "");
      fl_cli_show_assessment (g_ptr_array_index (judged->assessments, i), brief, out);
    }
  if (judged->clashes->len > 0)
    g_string_append (out, "\nHeld twice at one time\n");
  for (guint i = 0; i < judged->clashes->len; i++)
    g_string_append_printf (out, "  %s\n", (const char *) g_ptr_array_index (judged->clashes, i));
  return fl_cli_answer (out, status);
}

int
fl_cli_check (const FlCliArgs *args)
{
  g_auto(FlCliJudged) judged = { 0 };
  g_autoptr(GBytes) json = NULL;

  if (!fl_cli_judge (args, &judged))
    return FL_CLI_BAD;
  if (!args->json)
    return answer_people (&judged, args->brief, fl_cli_judged_status (&judged));
  json = judged.is_list ? list_json (&judged) : fl_assessment_to_json (g_ptr_array_index (judged.assessments, 0), FALSE);
  return fl_cli_answer_json (json, fl_cli_judged_status (&judged));
}
