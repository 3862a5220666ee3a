/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cards as PDF: made whole in memory, then put in place at once. The date in it is the first move's, so that the same cards are the same bytes. */
#include "fl-card-private.h"

#include <cairo-pdf.h>
#include <string.h>

static cairo_status_t
append (void *closure, const unsigned char *data, unsigned int length)
{
  g_byte_array_append (closure, data, length);
  return CAIRO_STATUS_SUCCESS;
}

/* A date in ISO 8601 for the file's creation: the move's day and its departure; a fixed day where there is none. */
static char *
creation_date (const FlCard *card)
{
  const FlMove *move = fl_assessment_move (fl_card_assessment (card));
  const gboolean good = move != NULL && move->date != NULL && strlen (move->date) == 10;
  const gint minutes = good && move->depart >= 0 && move->depart < 24 * 60 ? move->depart : 0;

  return g_strdup_printf ("%sT%02d:%02d:00", good ? move->date : "2000-01-01", minutes / 60, minutes % 60);
}

static void
set_metadata (cairo_surface_t *surface, FlCard *const *cards, gsize n)
{
  g_autofree char *date = creation_date (cards[0]);
  g_autoptr(GString) title = g_string_new ("Securement card");

  for (gsize i = 0; i < n; i++)
    {
      const char *move = fl_plan_choices (fl_assessment_plan (fl_card_assessment (cards[i])))->move;

      g_string_append_printf (title, "%s %s", i > 0 ? "," : "", move != NULL ? move : "?");
    }
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_TITLE, title->str);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATOR, "Fairlead");
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_CREATE_DATE, date);
  cairo_pdf_surface_set_metadata (surface, CAIRO_PDF_METADATA_MOD_DATE, date);
}

static void
draw_card (cairo_surface_t *surface, cairo_t *cr, const FlCard *card)
{
  double width, height;

  fl_card_page_size (card, &width, &height);
  cairo_pdf_surface_set_size (surface, width, height);
  for (guint page = 0; page < fl_card_pages (card); page++)
    {
      fl_card_draw_page (card, page, cr);
      cairo_show_page (cr);
    }
}

/* All cards in one PDF; what went wrong in Cairo's words. */
static cairo_status_t
draw_all (FlCard *const *cards, gsize n, GByteArray *bytes)
{
  double width, height;
  cairo_surface_t *surface;
  cairo_t *cr;
  cairo_status_t status;

  fl_card_page_size (cards[0], &width, &height);
  surface = cairo_pdf_surface_create_for_stream (append, bytes, width, height);
  set_metadata (surface, cards, n);
  cr = cairo_create (surface);
  for (gsize i = 0; i < n; i++)
    draw_card (surface, cr, cards[i]);
  status = cairo_status (cr);
  cairo_destroy (cr);
  cairo_surface_finish (surface);
  if (status == CAIRO_STATUS_SUCCESS)
    status = cairo_surface_status (surface);
  cairo_surface_destroy (surface);
  return status;
}

gboolean
fl_cards_write_pdf (FlCard *const *cards, gsize n, const char *path, GError **error)
{
  g_autoptr(GByteArray) bytes = g_byte_array_new ();
  g_autoptr(GError) cause = NULL;
  cairo_status_t status;

  g_return_val_if_fail (n > 0, FALSE);
  status = draw_all (cards, n, bytes);
  if (status != CAIRO_STATUS_SUCCESS)
    {
      g_set_error (error, FL_CARD_ERROR, FL_CARD_ERROR_WRITE, "%s: cannot be drawn (%s)", path, cairo_status_to_string (status));
      return FALSE;
    }
  if (g_file_set_contents_full (path, (const char *) bytes->data, bytes->len, G_FILE_SET_CONTENTS_CONSISTENT, 0666, &cause))
    return TRUE;
  g_set_error (error, FL_CARD_ERROR, FL_CARD_ERROR_WRITE, "%s: cannot be written (%s); choose another place", path, cause->message);
  return FALSE;
}
