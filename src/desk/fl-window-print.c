/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Cards on paper: the pages are those of the PDF, drawn by the same function. */
#include <glib/gi18n.h>

#include "fl-window-private.h"

#include <math.h>
#include <string.h>

#include "fl-settings.h"

/* ── paper ── */

static gboolean
is_a4 (GtkPageSetup *setup)
{
  return g_str_has_prefix (gtk_paper_size_get_name (gtk_page_setup_get_paper_size (setup)), GTK_PAPER_NAME_A4);
}

static GtkPageSetup *
page_setup (FlWindow *window)
{
  g_autofree char *paper = fl_settings_text (fl_settings_get (), "paper");

  if (window->page_setup == NULL)
    {
      GtkPaperSize *size = gtk_paper_size_new (g_strcmp0 (paper, "a4") == 0 ? GTK_PAPER_NAME_A4 : GTK_PAPER_NAME_LETTER);

      window->page_setup = gtk_page_setup_new ();
      gtk_page_setup_set_paper_size_and_default_margins (window->page_setup, size);
      gtk_paper_size_free (size);
    }
  return window->page_setup;
}

FlPaper
fl_window_paper (FlWindow *window)
{
  return is_a4 (page_setup (window)) ? FL_PAPER_A4 : FL_PAPER_LETTER;
}

static void
keep_page_setup (FlWindow *window, GtkPageSetup *setup)
{
  if (setup == NULL)
    return;
  g_set_object (&window->page_setup, setup);
  fl_settings_keep (fl_settings_get (), "paper", g_variant_new_string (is_a4 (setup) ? "a4" : "letter"));
}

static void
on_page_setup (GtkPageSetup *setup, gpointer data)
{
  g_autoptr(FlWindow) window = data;

  keep_page_setup (window, setup);
}

void
fl_window_page_setup (FlWindow *window)
{
  gtk_print_run_page_setup_dialog_async (GTK_WINDOW (window), page_setup (window), NULL, on_page_setup, g_object_ref (window));
}

/* ── printing ── */

typedef struct { FlWindow *window; gboolean day; GPtrArray *cards; GError *error; } PrintJob;

static void
print_job_free (gpointer data)
{
  PrintJob *job = data;

  g_object_unref (job->window);
  g_clear_pointer (&job->cards, g_ptr_array_unref);
  g_clear_error (&job->error);
  g_free (job);
}

static guint
page_count (const GPtrArray *cards)
{
  guint n = 0;

  for (guint i = 0; i < cards->len; i++)
    n += fl_card_pages (g_ptr_array_index (cards, i));
  return n;
}

/* The cards are laid out here, when the paper is known. */
static void
on_begin_print (GtkPrintOperation *operation, GtkPrintContext *context, PrintJob *job)
{
  const FlPaper paper = is_a4 (gtk_print_context_get_page_setup (context)) ? FL_PAPER_A4 : FL_PAPER_LETTER;

  g_clear_pointer (&job->cards, g_ptr_array_unref);
  job->cards = job->day ? fl_window_cards_of_day (job->window, paper, &job->error) : fl_window_card_of_move (job->window, paper, &job->error);
  if (job->cards == NULL)
    gtk_print_operation_cancel (operation);
  gtk_print_operation_set_n_pages (operation, job->cards != NULL ? (gint) page_count (job->cards) : 1);
}

static void
on_draw_page (GtkPrintOperation *operation, GtkPrintContext *context, gint number, PrintJob *job)
{
  cairo_t *cr = gtk_print_context_get_cairo_context (context);
  guint page = (guint) number, i = 0;
  double width, height, scale;

  (void) operation;
  while (job->cards != NULL && i < job->cards->len && page >= fl_card_pages (g_ptr_array_index (job->cards, i)))
    page -= fl_card_pages (g_ptr_array_index (job->cards, i++));
  if (job->cards == NULL || i >= job->cards->len)
    return;
  fl_card_page_size (g_ptr_array_index (job->cards, i), &width, &height);
  /* Another paper than the card's: as large as fits, in the middle. */
  scale = fmin (gtk_print_context_get_width (context) / width, gtk_print_context_get_height (context) / height);
  if (fabs (scale - 1.0) < 0.01)
    scale = 1.0;
  cairo_translate (cr, 0.5 * (gtk_print_context_get_width (context) - scale * width),
                   0.5 * (gtk_print_context_get_height (context) - scale * height));
  cairo_scale (cr, scale, scale);
  fl_card_draw_page (g_ptr_array_index (job->cards, i), page, cr);
}

static void
on_print_done (GtkPrintOperation *operation, GtkPrintOperationResult result, PrintJob *job)
{
  g_autoptr(GError) error = NULL;

  if (result == GTK_PRINT_OPERATION_RESULT_ERROR)
    gtk_print_operation_get_error (operation, &error);
  if (job->error != NULL || error != NULL)
    fl_window_tell (job->window, GTK_MESSAGE_ERROR, job->error != NULL ? job->error->message : error->message, NULL);
  else if (result == GTK_PRINT_OPERATION_RESULT_APPLY)
    keep_page_setup (job->window, gtk_print_operation_get_default_page_setup (operation));
}

static void
print (FlWindow *window, gboolean day)
{
  g_autoptr(GtkPrintOperation) operation = gtk_print_operation_new ();
  PrintJob *job = g_new0 (PrintJob, 1);
  const FlMove *move = fl_desk_move (window->desk);
  g_autofree char *name = fl_office_card_name (day ? fl_desk_day (window->desk) : move->id);

  job->window = g_object_ref (window);
  job->day = day;
  if (g_str_has_suffix (name, ".pdf"))
    name[strlen (name) - 4] = '\0';
  gtk_print_operation_set_default_page_setup (operation, page_setup (window));
  gtk_print_operation_set_unit (operation, GTK_UNIT_POINTS);
  gtk_print_operation_set_use_full_page (operation, TRUE);
  gtk_print_operation_set_embed_page_setup (operation, TRUE);
  gtk_print_operation_set_allow_async (operation, TRUE);
  gtk_print_operation_set_job_name (operation, name);
  g_signal_connect (operation, "begin-print", G_CALLBACK (on_begin_print), job);
  g_signal_connect (operation, "draw-page", G_CALLBACK (on_draw_page), job);
  g_signal_connect (operation, "done", G_CALLBACK (on_print_done), job);
  g_object_set_data_full (G_OBJECT (operation), "job", job, print_job_free);
  gtk_print_operation_run (operation, GTK_PRINT_OPERATION_ACTION_PRINT_DIALOG, GTK_WINDOW (window), NULL);
}

void
fl_window_print_card (FlWindow *window)
{
  print (window, FALSE);
}

void
fl_window_print_day (FlWindow *window)
{
  print (window, TRUE);
}
