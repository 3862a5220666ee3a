/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The card's font through a font map of its own: nothing of the system's fonts or its fontconfig files is looked at. */
#include "fl-card-font.h"

#include <fontconfig/fontconfig.h>
#include <pango/pangocairo.h>
#include <pango/pangofc-fontmap.h>

#define POINTS_PER_INCH 72.0

struct _FlCardFont
{
  gatomicrefcount references;
  PangoFontMap *map;
  char *family;                 /* of the first font file in byte order */
};

G_DEFINE_QUARK (fl-card-error-quark, fl_card_error)

static gint
by_name (gconstpointer a, gconstpointer b)
{
  return g_strcmp0 (*(const char *const *) a, *(const char *const *) b);
}

/* The font files of a folder in byte order; empty and an error where there are none. */
static GPtrArray *
font_files (const char *folder, GError **error)
{
  g_autoptr(GPtrArray) files = g_ptr_array_new_with_free_func (g_free);
  g_autoptr(GError) cause = NULL;
  g_autoptr(GDir) dir = g_dir_open (folder, 0, &cause);
  const char *name;

  if (dir == NULL)
    {
      g_set_error (error, FL_CARD_ERROR, FL_CARD_ERROR_FONT, "%s: cannot be read (%s); it must hold the card's font files", folder, cause->message);
      return NULL;
    }
  while ((name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".otf") || g_str_has_suffix (name, ".ttf"))
      g_ptr_array_add (files, g_build_filename (folder, name, NULL));
  g_ptr_array_sort (files, by_name);
  if (files->len > 0)
    return g_steal_pointer (&files);
  g_set_error (error, FL_CARD_ERROR, FL_CARD_ERROR_FONT, "%s: no font file (.otf, .ttf) in it; install the program's data folder whole", folder);
  return NULL;
}

/* Reads the files into a fontconfig of their own; the family of the first. */
static FcConfig *
read_fonts (GPtrArray *files, char **family, GError **error)
{
  FcConfig *config = FcConfigCreate ();
  FcChar8 *found;

  for (guint i = 0; i < files->len; i++)
    if (!FcConfigAppFontAddFile (config, g_ptr_array_index (files, i)))
      {
        g_set_error (error, FL_CARD_ERROR, FL_CARD_ERROR_FONT, "%s: cannot be read as a font; put the file of the release in its place",
                     (const char *) g_ptr_array_index (files, i));
        FcConfigDestroy (config);
        return NULL;
      }
  if (FcConfigGetFonts (config, FcSetApplication) == NULL || FcConfigGetFonts (config, FcSetApplication)->nfont == 0
      || FcPatternGetString (FcConfigGetFonts (config, FcSetApplication)->fonts[0], FC_FAMILY, 0, &found) != FcResultMatch)
    {
      g_set_error (error, FL_CARD_ERROR, FL_CARD_ERROR_FONT, "%s: holds no font; put the file of the release in its place",
                   (const char *) g_ptr_array_index (files, 0));
      FcConfigDestroy (config);
      return NULL;
    }
  *family = g_strdup ((const char *) found);
  return config;
}

FlCardFont *
fl_card_font_load (const char *folder, GError **error)
{
  g_autoptr(GPtrArray) files = font_files (folder, error);
  g_autofree char *family = NULL;
  FcConfig *config = files != NULL ? read_fonts (files, &family, error) : NULL;
  FlCardFont *font;

  if (config == NULL)
    return NULL;
  font = g_new0 (FlCardFont, 1);
  g_atomic_ref_count_init (&font->references);
  font->map = pango_cairo_font_map_new_for_font_type (CAIRO_FONT_TYPE_FT);
  pango_fc_font_map_set_config (PANGO_FC_FONT_MAP (font->map), config);
  pango_cairo_font_map_set_resolution (PANGO_CAIRO_FONT_MAP (font->map), POINTS_PER_INCH);
  FcConfigDestroy (config);     /* the map holds it */
  font->family = g_steal_pointer (&family);
  return font;
}

FlCardFont *
fl_card_font_ref (FlCardFont *font)
{
  g_atomic_ref_count_inc (&font->references);
  return font;
}

void
fl_card_font_unref (FlCardFont *font)
{
  if (font == NULL || !g_atomic_ref_count_dec (&font->references))
    return;
  g_object_unref (font->map);
  g_free (font->family);
  g_free (font);
}

PangoContext *
fl_card_font_context (const FlCardFont *font)
{
  PangoContext *context = pango_font_map_create_context (font->map);
  PangoFontDescription *description = pango_font_description_new ();
  cairo_font_options_t *options = cairo_font_options_create ();

  cairo_font_options_set_hint_style (options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics (options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias (options, CAIRO_ANTIALIAS_GRAY);
  pango_cairo_context_set_font_options (context, options);
  cairo_font_options_destroy (options);
  pango_font_description_set_family (description, font->family);
  pango_font_description_set_size (description, 11 * PANGO_SCALE);
  pango_context_set_font_description (context, description);
  pango_font_description_free (description);
  pango_context_set_language (context, pango_language_from_string ("en"));
  pango_context_set_base_dir (context, PANGO_DIRECTION_LTR);
  pango_context_set_round_glyph_positions (context, FALSE);
  return context;
}
