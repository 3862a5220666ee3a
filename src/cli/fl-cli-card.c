/* SPDX-License-Identifier: GPL-3.0-or-later */
/* card: the securement card as PDF, one file for all plans or one a move. */
#include "fl-cli-judge.h"
#include "fl-cli-show.h"

/* Cards to write into one file each. */
typedef struct { FlCard *card; char *path; const FlAssessment *assessment; } Sheet;

static void
clear_sheet (gpointer data)
{
  Sheet *sheet = data;

  g_clear_pointer (&sheet->card, fl_card_unref);
  g_clear_pointer (&sheet->path, g_free);
}

static gboolean
is_folder (const char *out)
{
  return g_str_has_suffix (out, "/") || g_file_test (out, G_FILE_TEST_IS_DIR);
}

static char *
path_of (const char *out, const char *move)
{
  g_autofree char *name = is_folder (out) ? fl_office_card_name (move) : NULL;

  return name != NULL ? g_build_filename (out, name, NULL) : g_strdup (out);
}

static gboolean
path_is_new (const GArray *sheets, const Sheet *sheet, const char *out, const char *move, GError **error)
{
  for (guint i = 0; i < sheets->len && is_folder (out); i++)
    if (g_str_equal (g_array_index (sheets, Sheet, i).path, sheet->path))
      {
        g_set_error (error, FL_OFFICE_ERROR, FL_OFFICE_ERROR_WRITE, "%s: the cards of two moves would both have this name, one of them %s; write them "
                     "into one file, or one after the other", sheet->path, move);
        return FALSE;
      }
  return TRUE;
}

/* Every card, made before the first is written. */
static GArray *
make_sheets (const FlCliJudged *judged, const char *out, GError **error)
{
  g_autoptr(GArray) sheets = g_array_new (FALSE, FALSE, sizeof (Sheet));
  FlPaper paper = fl_fleet_metric (fl_office_fleet (judged->office)) ? FL_PAPER_A4 : FL_PAPER_LETTER;

  g_array_set_clear_func (sheets, clear_sheet);
  for (guint i = 0; i < judged->assessments->len; i++)
    {
      const FlAssessment *assessment = g_ptr_array_index (judged->assessments, i);
      const char *move = fl_plan_choices (fl_assessment_plan (assessment))->move;
      Sheet sheet = { fl_office_card (judged->office, assessment, paper, NULL, error), path_of (out, move), assessment };
      gboolean good = sheet.card != NULL && path_is_new (sheets, &sheet, out, move, error) && fl_office_may_write (sheet.path, error);

      g_array_append_val (sheets, sheet);
      if (!good)
        return NULL;
    }
  return g_steal_pointer (&sheets);
}

static gboolean
write_sheets (const GArray *sheets, const char *out, GError **error)
{
  g_autofree FlCard **cards = g_new0 (FlCard *, sheets->len + 1);

  for (guint i = 0; i < sheets->len; i++)
    {
      const Sheet *sheet = &g_array_index (sheets, Sheet, i);

      cards[i] = sheet->card;
      if (is_folder (out) && !fl_cards_write_pdf (&cards[i], 1, sheet->path, error))
        return FALSE;
    }
  return is_folder (out) || fl_cards_write_pdf (cards, sheets->len, out, error);
}

/* ── the answer ── */

static int
answer_json (const GArray *sheets, int status)
{
  g_autoptr(FlJsonWriter) writer = fl_json_writer_new ();
  g_autoptr(GBytes) json = NULL;

  fl_json_writer_begin_object (writer, NULL);
  fl_json_writer_begin_list (writer, "cards");
  for (guint i = 0; i < sheets->len; i++)
    {
      const Sheet *sheet = &g_array_index (sheets, Sheet, i);
      g_autofree char *path = g_utf8_make_valid (sheet->path, -1);

      fl_json_writer_begin_object (writer, NULL);
      fl_json_writer_text (writer, "move", fl_plan_choices (fl_assessment_plan (sheet->assessment))->move);
      fl_json_writer_text (writer, "path", path);
      fl_json_writer_text (writer, "verdict", fl_plan_verdict_id (fl_assessment_verdict (sheet->assessment)));
      fl_json_writer_text (writer, "house", fl_house_verdict_id (fl_assessment_house (sheet->assessment)));
      fl_json_writer_end_object (writer);
    }
  fl_json_writer_end_list (writer);
  fl_json_writer_end_object (writer);
  json = fl_json_writer_end (writer);
  return fl_cli_answer_json (json, status);
}

static int
answer_people (const GArray *sheets, const FlCliJudged *judged, int status)
{
  g_autoptr(GString) out = g_string_new (NULL);

  for (guint i = 0; i < sheets->len; i++)
    {
      const Sheet *sheet = &g_array_index (sheets, Sheet, i);

      fl_cli_show_line (sheet->assessment, out);
      fl_cli_show_against (sheet->assessment, out);
      if (i + 1 == sheets->len || !g_str_equal (sheet->path, g_array_index (sheets, Sheet, i + 1).path))
        g_string_append_printf (out, "Written: %s\n", sheet->path);
    }
  for (guint i = 0; i < judged->clashes->len; i++)
    g_string_append_printf (out, "Held twice at one time: %s\n", (const char *) g_ptr_array_index (judged->clashes, i));
  return fl_cli_answer (out, status);
}

int
fl_cli_card (const FlCliArgs *args)
{
  g_auto(FlCliJudged) judged = { 0 };
  g_autoptr(GArray) sheets = NULL;
  g_autoptr(GError) error = NULL;
  int status;

  if (!fl_cli_judge (args, &judged))
    return FL_CLI_BAD;
  sheets = make_sheets (&judged, args->out, &error);
  if (sheets == NULL || !write_sheets (sheets, args->out, &error))
    return fl_cli_complain_all (args->out, NULL, error);
  status = fl_cli_judged_status (&judged);
  return args->json ? answer_json (sheets, status) : answer_people (sheets, &judged, status);
}
