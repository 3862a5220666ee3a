/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Words and cards: which languages there are, and whose a card needs. */
#include "fl-office-private.h"

#include <string.h>

#include "fl-places.h"

/* A language names a folder: nothing in it may climb out of it. */
static gboolean
is_language (const char *text)
{
  if (!g_ascii_isalpha (*text))
    return FALSE;
  for (; *text != '\0'; text++)
    if (!g_ascii_isalnum (*text) && strchr ("_@", *text) == NULL)
      return FALSE;
  return TRUE;
}

/* "es-MX" as the catalogs are named, then the language alone. */
static FlWords *
load_words (const char *language)
{
  g_autofree char *name = g_strdelimit (g_strdup (language), "-", '_');
  g_autofree char *file = NULL;
  FlWords *words;
  char *land;

  if (!is_language (name))
    return NULL;
  file = fl_places_words_file (name);
  words = fl_words_load (file, language, NULL);
  land = strchr (name, '_');
  if (words != NULL || land == NULL)
    return words;
  *land = '\0';
  g_free (file);
  file = fl_places_words_file (name);
  return fl_words_load (file, language, NULL);
}

const FlWords *
fl_office_words (FlOffice *office, const char *language)
{
  gpointer words;

  if (language == NULL || strcmp (language, "en") == 0 || g_str_has_prefix (language, "en-") || g_str_has_prefix (language, "en_"))
    return NULL;
  if (!g_hash_table_lookup_extended (office->words, language, NULL, &words))
    {
      words = load_words (language);
      g_hash_table_insert (office->words, g_strdup (language), words);
    }
  return words;
}

/* The language of the driver of an assessment's move, as it was when judged. */
static const char *
driver_language (const FlAssessment *assessment)
{
  const FlMove *move = fl_assessment_move (assessment);
  const FlRecord *driver = move != NULL && move->driver != NULL ? fl_assessment_record (assessment, FL_KIND_PERSON, move->driver) : NULL;

  return driver != NULL ? fl_record_person (driver)->language : NULL;
}

FlCard *
fl_office_card (FlOffice *office, const FlAssessment *assessment, FlPaper paper, const FlSignature *signature, GError **error)
{
  const FlCardOptions options = { paper, NULL, fl_office_words (office, driver_language (assessment)), signature };

  if (office->font == NULL)
    {
      g_autofree char *folder = fl_places_file ("fonts", NULL);

      office->font = fl_card_font_load (folder, error);
    }
  return office->font != NULL ? fl_card_new (assessment, office->font, &options) : NULL;
}

char *
fl_office_card_name (const char *move)
{
  GString *name = g_string_new (NULL);

  for (const char *at = move; *at != '\0'; at++)
    {
      gboolean plain = g_ascii_isalnum (*at) || strchr ("_-", *at) != NULL || (*at == '.' && at != move) || (guchar) *at >= 0x80;

      g_string_append_c (name, plain ? *at : '-');
    }
  g_string_append (name, ".pdf");
  return g_string_free (name, FALSE);
}
