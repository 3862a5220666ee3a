/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Widths of columns in terms of the text. */
#include "fl-columns.h"

#include <math.h>

#define USUAL_RESOLUTION 96.0   /* dots an inch for which templates are drawn */
#define KEY_WIDTH "fl-width"

typedef struct { double points, factor; } Text;

/* Asked of the style: a text context made before the list has its style would keep another font. */
static double
text_factor (GtkWidget *widget, double points)
{
  GtkStyleContext *style = gtk_widget_get_style_context (widget);
  const double asked = gdk_screen_get_resolution (gtk_widget_get_screen (widget));
  const double resolution = asked > 0.0 ? asked : USUAL_RESOLUTION;
  PangoFontDescription *font = NULL;
  double size, pixels;

  gtk_style_context_get (style, gtk_style_context_get_state (style), GTK_STYLE_PROPERTY_FONT, &font, NULL);
  size = pango_font_description_get_size (font) / (double) PANGO_SCALE;
  pixels = pango_font_description_get_size_is_absolute (font) ? size : size * resolution / 72.0;
  pango_font_description_free (font);
  return fmax (1.0, pixels / (points * USUAL_RESOLUTION / 72.0));
}

static void
on_style_updated (GtkTreeView *tree, Text *text)
{
  const double factor = text_factor (GTK_WIDGET (tree), text->points);
  g_autoptr(GList) columns = NULL;

  if (fabs (factor - text->factor) < 0.01)
    return;
  text->factor = factor;
  columns = gtk_tree_view_get_columns (tree);
  for (GList *link = columns; link != NULL; link = link->next)
    {
      const gint width = GPOINTER_TO_INT (g_object_get_data (link->data, KEY_WIDTH));

      gtk_tree_view_column_set_fixed_width (link->data, (gint) (factor * width + 0.5));
    }
}

void
fl_columns_follow_text (GtkTreeView *tree, double points)
{
  Text *text = g_new (Text, 1);
  g_autoptr(GList) columns = gtk_tree_view_get_columns (tree);

  for (GList *link = columns; link != NULL; link = link->next)
    g_object_set_data (link->data, KEY_WIDTH, GINT_TO_POINTER (gtk_tree_view_column_get_fixed_width (link->data)));
  text->points = points;
  text->factor = 1.0;
  g_signal_connect_data (tree, "style-updated", G_CALLBACK (on_style_updated), text, (GClosureNotify) (void (*) (void)) g_free, 0);
}
