/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A card: its pages, laid out once, drawn as often as asked. */
#include "fl-card-font.h"
#include "fl-card-private.h"

struct _FlCard
{
  gatomicrefcount references;
  FlAssessment *assessment;
  FlCardFont *font;
  double width, height;         /* of the sheet */
  GPtrArray *pages;             /* FlMarks; the unit is the point, the origin the sheet's corner */
};

static void
free_marks (gpointer data)
{
  fl_marks_free (data);
}

static void
read_pen (FlPen *pen, const FlAssessment *assessment, const FlCard *card, const FlCardOptions *options)
{
  pen->assessment = assessment;
  pen->parts = fl_assessment_parts (assessment);
  pen->choices = fl_plan_choices (fl_assessment_plan (assessment));
  pen->trailer = fl_assessment_trailer (assessment);
  pen->move = fl_assessment_move (assessment);
  pen->words = options->words;
  pen->second = options->second;
  pen->bilingual = options->second != NULL;
  pen->signature = options->signature;
  pen->metric = pen->parts->metric;
  pen->width = card->width - 2.0 * FL_MARGIN_X;
  pen->height = card->height - 2.0 * FL_MARGIN_Y;
  pen->context = fl_card_font_context (card->font);
}

FlCard *
fl_card_new (const FlAssessment *assessment, FlCardFont *font, const FlCardOptions *options)
{
  FlCard *card = g_new0 (FlCard, 1);
  FlPen pen = { 0 };

  g_atomic_ref_count_init (&card->references);
  card->assessment = fl_assessment_ref (assessment);
  card->font = fl_card_font_ref (font);
  card->width = options->paper == FL_PAPER_A4 ? 210.0 / 25.4 * 72.0 : 8.5 * 72.0;
  card->height = options->paper == FL_PAPER_A4 ? 297.0 / 25.4 * 72.0 : 11.0 * 72.0;
  card->pages = g_ptr_array_new_with_free_func (free_marks);
  read_pen (&pen, card->assessment, card, options);
  fl_card_lay_out (&pen, card->pages);
  g_object_unref (pen.context);
  return card;
}

FlCard *
fl_card_ref (FlCard *card)
{
  g_atomic_ref_count_inc (&card->references);
  return card;
}

void
fl_card_unref (FlCard *card)
{
  if (card == NULL || !g_atomic_ref_count_dec (&card->references))
    return;
  g_ptr_array_unref (card->pages);
  fl_card_font_unref (card->font);
  fl_assessment_unref (card->assessment);
  g_free (card);
}

guint
fl_card_pages (const FlCard *card)
{
  return card->pages->len;
}

void
fl_card_page_size (const FlCard *card, double *width, double *height)
{
  *width = card->width;
  *height = card->height;
}

void
fl_card_draw_page (const FlCard *card, guint page, cairo_t *cr)
{
  g_return_if_fail (page < card->pages->len);
  fl_marks_paint (g_ptr_array_index (card->pages, page), cr, &fl_ink_print);
}

const FlAssessment *
fl_card_assessment (const FlCard *card)
{
  return card->assessment;
}
