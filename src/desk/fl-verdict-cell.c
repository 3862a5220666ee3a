/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A text cell with a symbol before its first line. */
#include "fl-verdict-cell.h"

#define ICON_SIZE 16
#define ICON_GAP 6

struct _FlVerdictCell
{
  GtkCellRendererText parent_instance;
  char *icon_name;
};

G_DEFINE_FINAL_TYPE (FlVerdictCell, fl_verdict_cell, GTK_TYPE_CELL_RENDERER_TEXT)

enum { PROP_ICON_NAME = 1 };

/* In the colors of its meaning; on a selected row in those of the text, which is what stands out there. */
static GdkPixbuf *
load_icon (GtkWidget *widget, const char *name, gboolean selected)
{
  GtkStyleContext *style = gtk_widget_get_style_context (widget);
  g_autoptr(GtkIconInfo) info = gtk_icon_theme_lookup_icon_for_scale (gtk_icon_theme_get_default (), name, ICON_SIZE,
                                                                      gtk_widget_get_scale_factor (widget), GTK_ICON_LOOKUP_FORCE_SIZE);
  GdkRGBA color;

  if (info == NULL)
    return NULL;
  if (!selected)
    return gtk_icon_info_load_symbolic_for_context (info, style, NULL, NULL);
  gtk_style_context_get_color (style, gtk_style_context_get_state (style), &color);
  return gtk_icon_info_load_symbolic (info, &color, &color, &color, &color, NULL, NULL);
}

static void
draw_icon (FlVerdictCell *cell, cairo_t *cr, GtkWidget *widget, const GdkRectangle *area, gboolean selected)
{
  const gint scale = gtk_widget_get_scale_factor (widget);
  const gboolean rtl = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;
  g_autoptr(GdkPixbuf) icon = load_icon (widget, cell->icon_name, selected);
  cairo_surface_t *surface;
  gint xpad, ypad, height;
  gfloat yalign;

  if (icon == NULL)
    return;
  gtk_cell_renderer_get_padding (GTK_CELL_RENDERER (cell), &xpad, &ypad);
  gtk_cell_renderer_get_alignment (GTK_CELL_RENDERER (cell), NULL, &yalign);
  gtk_cell_renderer_get_preferred_height (GTK_CELL_RENDERER (cell), widget, NULL, &height);
  surface = gdk_cairo_surface_create_from_pixbuf (icon, scale, gtk_widget_get_window (widget));
  gtk_render_icon_surface (gtk_widget_get_style_context (widget), cr, surface,
                           rtl ? area->x + area->width - xpad - ICON_SIZE : area->x + xpad,
                           area->y + (gint) (yalign * (gfloat) MAX (0, area->height - height)) + ypad + 1);
  cairo_surface_destroy (surface);
}

static void
fl_verdict_cell_render (GtkCellRenderer *renderer, cairo_t *cr, GtkWidget *widget, const GdkRectangle *background, const GdkRectangle *area,
                        GtkCellRendererState flags)
{
  FlVerdictCell *cell = FL_VERDICT_CELL (renderer);
  const gboolean rtl = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;
  GdkRectangle rest = *area;

  if (cell->icon_name != NULL)
    draw_icon (cell, cr, widget, area, (flags & GTK_CELL_RENDERER_SELECTED) != 0);
  rest.width = MAX (1, rest.width - ICON_SIZE - ICON_GAP);
  if (!rtl)
    rest.x += ICON_SIZE + ICON_GAP;
  GTK_CELL_RENDERER_CLASS (fl_verdict_cell_parent_class)->render (renderer, cr, widget, background, &rest, flags);
}

static void
fl_verdict_cell_get_preferred_width (GtkCellRenderer *renderer, GtkWidget *widget, gint *minimum, gint *natural)
{
  GTK_CELL_RENDERER_CLASS (fl_verdict_cell_parent_class)->get_preferred_width (renderer, widget, minimum, natural);
  if (minimum != NULL)
    *minimum += ICON_SIZE + ICON_GAP;
  if (natural != NULL)
    *natural += ICON_SIZE + ICON_GAP;
}

static void
fl_verdict_cell_set_property (GObject *object, guint id, const GValue *value, GParamSpec *spec)
{
  FlVerdictCell *cell = FL_VERDICT_CELL (object);

  if (id != PROP_ICON_NAME)
    {
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
      return;
    }
  g_free (cell->icon_name);
  cell->icon_name = g_value_dup_string (value);
}

static void
fl_verdict_cell_get_property (GObject *object, guint id, GValue *value, GParamSpec *spec)
{
  if (id == PROP_ICON_NAME)
    g_value_set_string (value, FL_VERDICT_CELL (object)->icon_name);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, spec);
}

static void
fl_verdict_cell_finalize (GObject *object)
{
  g_free (FL_VERDICT_CELL (object)->icon_name);
  G_OBJECT_CLASS (fl_verdict_cell_parent_class)->finalize (object);
}

static void
fl_verdict_cell_class_init (FlVerdictCellClass *klass)
{
  GObjectClass *object = G_OBJECT_CLASS (klass);
  GtkCellRendererClass *renderer = GTK_CELL_RENDERER_CLASS (klass);

  object->set_property = fl_verdict_cell_set_property;
  object->get_property = fl_verdict_cell_get_property;
  object->finalize = fl_verdict_cell_finalize;
  renderer->render = fl_verdict_cell_render;
  renderer->get_preferred_width = fl_verdict_cell_get_preferred_width;
  g_object_class_install_property (object, PROP_ICON_NAME, g_param_spec_string ("icon-name", NULL, NULL, NULL, G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS));
}

static void
fl_verdict_cell_init (FlVerdictCell *cell)
{
  (void) cell;
}
