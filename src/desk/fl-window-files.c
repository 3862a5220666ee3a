/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Files that the window reads and writes: fleets, plans, cards. */
#include <glib/gi18n.h>

#include "fl-window-private.h"

#include "fl-problems-dialog.h"

/* What is done with the file that a person chose. */
typedef struct { void (*take) (FlWindow *window, const char *path); } Chosen;

static void
on_chosen (GtkNativeDialog *chooser, gint response, FlWindow *window)
{
  const Chosen *chosen = g_object_get_data (G_OBJECT (chooser), "chosen");
  void (*take) (FlWindow *, const char *) = chosen->take;
  g_autofree char *path = response == GTK_RESPONSE_ACCEPT ? gtk_file_chooser_get_filename (GTK_FILE_CHOOSER (chooser)) : NULL;

  gtk_native_dialog_hide (chooser);
  g_clear_object (&window->chooser);
  if (path != NULL)
    take (window, path);
  else
    window->after = FL_AFTER_NOTHING;
}

static void
add_filter (GtkFileChooser *chooser, const char *name, const char *pattern)
{
  GtkFileFilter *filter = gtk_file_filter_new ();
  GtkFileFilter *all = gtk_file_filter_new ();

  gtk_file_filter_set_name (filter, name);
  gtk_file_filter_add_pattern (filter, pattern);
  gtk_file_chooser_add_filter (chooser, filter);
  gtk_file_filter_set_name (all, _("All files"));
  gtk_file_filter_add_pattern (all, "*");
  gtk_file_chooser_add_filter (chooser, all);
}

/* One chooser at a time; in the folder of the fleet that is open. NULL where one is open already. */
static GtkFileChooser *
new_chooser (FlWindow *window, const char *title, GtkFileChooserAction action, const char *accept,
             void (*take) (FlWindow *window, const char *path))
{
  FlOffice *office = fl_desk_office (window->desk);
  g_autofree Chosen *chosen = g_new (Chosen, 1);
  GtkFileChooserNative *chooser;

  if (window->chooser != NULL)
    return NULL;
  chooser = gtk_file_chooser_native_new (title, GTK_WINDOW (window), action, accept, _("_Cancel"));
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (chooser), TRUE);
  if (office != NULL)
    {
      g_autofree char *folder = g_path_get_dirname (fl_office_path (office));

      gtk_file_chooser_set_current_folder (GTK_FILE_CHOOSER (chooser), folder);
    }
  chosen->take = take;
  g_object_set_data_full (G_OBJECT (chooser), "chosen", g_steal_pointer (&chosen), g_free);
  g_signal_connect (chooser, "response", G_CALLBACK (on_chosen), window);
  window->chooser = GTK_NATIVE_DIALOG (chooser);
  return GTK_FILE_CHOOSER (chooser);
}

static void
tell_written (FlWindow *window, char *text)
{
  g_autofree char *owned = text;

  fl_window_tell (window, GTK_MESSAGE_INFO, owned, NULL);
}

static void
tell_error (FlWindow *window, const GError *error)
{
  fl_window_tell (window, GTK_MESSAGE_ERROR, error->message, NULL);
}

/* ── fleets ── */

void
fl_window_choose_fleet (FlWindow *window)
{
  GtkFileChooser *chooser = new_chooser (window, _("Open a Fleet"), GTK_FILE_CHOOSER_ACTION_OPEN, _("_Open"), fl_window_open);

  if (chooser == NULL)
    return;
  add_filter (chooser, _("Fleet documents (*.json)"), "*.json");
  gtk_native_dialog_show (window->chooser);
}

/* ── plans ── */

static void
read_plans (FlWindow *window, const char *path)
{
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(GError) error = NULL;
  const guint n = fl_desk_read_plans (window->desk, _("Read Plans"), path, problems, &error);

  if (n == G_MAXUINT)
    gtk_window_present (GTK_WINDOW (fl_problems_dialog_new (GTK_WINDOW (window), path, problems, error->message, TRUE)));
  else
    tell_written (window, n == 0 ? g_strdup_printf (_("%s has no plan for a move of this fleet."), path)
                                 : g_strdup_printf (ngettext ("%u plan was read and judged.", "%u plans were read and judged.", n), n));
}

void
fl_window_choose_plans (FlWindow *window)
{
  GtkFileChooser *chooser = new_chooser (window, _("Read Plans"), GTK_FILE_CHOOSER_ACTION_OPEN, _("_Read"), read_plans);

  if (chooser == NULL)
    return;
  add_filter (chooser, _("Plan documents (*.json)"), "*.json");
  gtk_native_dialog_show (window->chooser);
}

static void
write_plans (FlWindow *window, const char *path)
{
  g_autoptr(GError) error = NULL;

  if (!fl_desk_write_plans (window->desk, path, &error))
    {
      window->after = FL_AFTER_NOTHING;
      tell_error (window, error);
      return;
    }
  tell_written (window, g_strdup_printf (_("The plans are in %s."), path));
  fl_window_go_on (window);
}

void
fl_window_save_plans (FlWindow *window)
{
  GtkFileChooser *chooser = new_chooser (window, _("Save Plans As"), GTK_FILE_CHOOSER_ACTION_SAVE, _("_Save"), write_plans);
  g_autofree char *name = NULL;

  if (chooser == NULL)
    return;
  name = g_strdup_printf ("plans-%s.json", fl_desk_day (window->desk));
  add_filter (chooser, _("Plan documents (*.json)"), "*.json");
  gtk_file_chooser_set_current_name (chooser, name);
  gtk_file_chooser_set_do_overwrite_confirmation (chooser, TRUE);
  gtk_native_dialog_show (window->chooser);
}

/* ── cards ── */

static gboolean
add_card (FlWindow *window, GPtrArray *cards, const FlAssessment *assessment, FlPaper paper, GError **error)
{
  FlCard *card = fl_office_card (fl_desk_office (window->desk), assessment, paper, NULL, error);

  if (card == NULL)
    return FALSE;
  g_ptr_array_add (cards, card);
  return TRUE;
}

GPtrArray *
fl_window_card_of_move (FlWindow *window, FlPaper paper, GError **error)
{
  const FlOutcome *outcome = fl_desk_selected_outcome (window->desk);
  g_autoptr(GPtrArray) cards = g_ptr_array_new_with_free_func ((GDestroyNotify) fl_card_unref);

  if (outcome == NULL || outcome->assessment == NULL)
    {
      g_set_error_literal (error, FL_OFFICE_ERROR, FL_OFFICE_ERROR_NO_MOVE, _("The move has no plan: plan it first."));
      return NULL;
    }
  return add_card (window, cards, outcome->assessment, paper, error) ? g_steal_pointer (&cards) : NULL;
}

GPtrArray *
fl_window_cards_of_day (FlWindow *window, FlPaper paper, GError **error)
{
  g_autoptr(GPtrArray) cards = g_ptr_array_new_with_free_func ((GDestroyNotify) fl_card_unref);

  for (guint i = 0; i < fl_desk_n_moves (window->desk); i++)
    {
      const FlOutcome *outcome = fl_desk_outcome (window->desk, fl_desk_move_at (window->desk, i)->id);

      if (outcome->assessment != NULL && !add_card (window, cards, outcome->assessment, paper, error))
        return NULL;
    }
  if (cards->len > 0)
    return g_steal_pointer (&cards);
  g_set_error_literal (error, FL_OFFICE_ERROR, FL_OFFICE_ERROR_NO_MOVE, _("No move of this day has a plan: plan the day first."));
  return NULL;
}

static void
write_card (FlWindow *window, const char *path)
{
  g_autoptr(GError) error = NULL;
  g_autoptr(GPtrArray) cards = fl_window_card_of_move (window, fl_window_paper (window), &error);

  if (cards == NULL || !fl_cards_write_pdf ((FlCard *const *) cards->pdata, cards->len, path, &error))
    tell_error (window, error);
  else
    tell_written (window, g_strdup_printf (_("The card is in %s."), path));
}

void
fl_window_export_card (FlWindow *window)
{
  const FlMove *move = fl_desk_move (window->desk);
  GtkFileChooser *chooser = new_chooser (window, _("Export the Card as PDF"), GTK_FILE_CHOOSER_ACTION_SAVE, _("_Export"), write_card);
  g_autofree char *name = NULL;

  if (chooser == NULL)
    return;
  name = fl_office_card_name (move->id);
  add_filter (chooser, _("PDF documents (*.pdf)"), "*.pdf");
  gtk_file_chooser_set_current_name (chooser, name);
  gtk_file_chooser_set_do_overwrite_confirmation (chooser, TRUE);
  gtk_native_dialog_show (window->chooser);
}

/* The files that the day's cards go to. (transfer full) array of char* */
static GPtrArray *
day_paths (FlWindow *window, const char *folder)
{
  GPtrArray *paths = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; i < fl_desk_n_moves (window->desk); i++)
    {
      const char *move = fl_desk_move_at (window->desk, i)->id;
      g_autofree char *name = fl_office_card_name (move);

      if (fl_desk_outcome (window->desk, move)->assessment != NULL)
        g_ptr_array_add (paths, g_build_filename (folder, name, NULL));
    }
  return paths;
}

static void
write_day (FlWindow *window, const char *folder)
{
  g_autoptr(GError) error = NULL;
  g_autoptr(GPtrArray) cards = fl_window_cards_of_day (window, fl_window_paper (window), &error);
  g_autoptr(GPtrArray) paths = day_paths (window, folder);

  for (guint i = 0; cards != NULL && error == NULL && i < cards->len; i++)
    {
      FlCard *card = g_ptr_array_index (cards, i);

      fl_cards_write_pdf (&card, 1, g_ptr_array_index (paths, i), &error);
    }
  if (error != NULL)
    tell_error (window, error);
  else
    tell_written (window, g_strdup_printf (ngettext ("%u card is in %s.", "%u cards are in %s.", cards->len), cards->len, folder));
}

static void
on_replace_response (GtkDialog *dialog, gint response, FlWindow *window)
{
  g_autofree char *folder = g_strdup (g_object_get_data (G_OBJECT (dialog), "folder"));

  gtk_widget_destroy (GTK_WIDGET (dialog));
  window->dialog = NULL;
  if (response == GTK_RESPONSE_ACCEPT)
    write_day (window, folder);
}

static void
ask_replace (FlWindow *window, const char *folder, guint n)
{
  if (window->dialog != NULL)
    return;
  window->dialog = gtk_message_dialog_new (GTK_WINDOW (window), GTK_DIALOG_MODAL, GTK_MESSAGE_QUESTION, GTK_BUTTONS_NONE,
                                           ngettext ("Replace %u card that is there already?", "Replace %u cards that are there already?", n), n);
  gtk_message_dialog_format_secondary_text (GTK_MESSAGE_DIALOG (window->dialog), "%s", folder);
  gtk_dialog_add_buttons (GTK_DIALOG (window->dialog), _("_Cancel"), GTK_RESPONSE_CANCEL, _("_Replace"), GTK_RESPONSE_ACCEPT, NULL);
  g_object_set_data_full (G_OBJECT (window->dialog), "folder", g_strdup (folder), g_free);
  g_signal_connect (window->dialog, "response", G_CALLBACK (on_replace_response), window);
  gtk_window_present (GTK_WINDOW (window->dialog));
}

static void
export_day_to (FlWindow *window, const char *folder)
{
  g_autoptr(GPtrArray) paths = day_paths (window, folder);
  guint there = 0;

  for (guint i = 0; i < paths->len; i++)
    there += g_file_test (g_ptr_array_index (paths, i), G_FILE_TEST_EXISTS);
  if (there > 0)
    ask_replace (window, folder, there);
  else
    write_day (window, folder);
}

void
fl_window_export_day (FlWindow *window)
{
  if (new_chooser (window, _("Folder for the Day’s Cards"), GTK_FILE_CHOOSER_ACTION_SELECT_FOLDER, _("_Export Here"), export_day_to) != NULL)
    gtk_native_dialog_show (window->chooser);
}
