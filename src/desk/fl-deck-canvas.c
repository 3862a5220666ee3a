/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The deck drawing on the screen: laid out when something changes, then only stroked. */
#include <glib/gi18n.h>

#include "fl-deck-canvas.h"

#include <math.h>

#include "fl-phrases.h"

#define MARGIN 8.0              /* pixels around the drawing */
#define ZOOM_STEP 1.25
#define MAX_ZOOM 6.0
#define PAN_STEP 40.0           /* pixels */
#define LEAST_CONTRAST 4.5

struct _FlDeckCanvas
{
  GtkDrawingArea parent_instance;
  FlDesk *desk;
  FlDeckDrawing *drawing;       /* NULL: to be laid out */
  double zoom, pan_x, pan_y;
  double grab_x, grab_y;        /* where a drag began, and the pan then */
  double grab_pan_x, grab_pan_y;
  gboolean grabbed, moved;
};

G_DEFINE_FINAL_TYPE (FlDeckCanvas, fl_deck_canvas, GTK_TYPE_DRAWING_AREA)

static const FlAssessment *
shown (FlDeckCanvas *canvas)
{
  const FlOutcome *outcome = canvas->desk != NULL ? fl_desk_selected_outcome (canvas->desk) : NULL;

  return outcome != NULL ? fl_outcome_shown (outcome) : NULL;
}

/* ── laying out and drawing ── */

static double
text_points (GtkWidget *widget)
{
  PangoContext *context = gtk_widget_get_pango_context (widget);
  const PangoFontDescription *font = pango_context_get_font_description (context);
  const double size = pango_font_description_get_size (font) / (double) PANGO_SCALE;

  if (pango_font_description_get_size_is_absolute (font))
    return 0.9 * size * 72.0 / pango_cairo_context_get_resolution (context);
  return 0.9 * size;
}

static FlDeckDrawing *
layout_drawing (FlDeckCanvas *canvas, const FlAssessment *assessment)
{
  GtkWidget *widget = GTK_WIDGET (canvas);
  const FlDeckLayout layout = {
    .width = gtk_widget_get_allocated_width (widget) - 2.0 * MARGIN,
    .height = gtk_widget_get_allocated_height (widget) - 2.0 * MARGIN,
    .text = gtk_widget_get_pango_context (widget),
    .text_size = text_points (widget),
    .zoom = canvas->zoom,
    .pan_x = canvas->pan_x,
    .pan_y = canvas->pan_y,
    .selected = fl_desk_tie (canvas->desk),
    .other_units = fl_desk_metric (canvas->desk) != fl_assessment_parts (assessment)->metric,
    .side_above = TRUE,
  };

  return fl_deck_drawing_new (assessment, &layout, fl_desk_words (canvas->desk));
}

static void
forget_drawing (FlDeckCanvas *canvas)
{
  g_clear_pointer (&canvas->drawing, fl_deck_drawing_free);
  gtk_widget_queue_draw (GTK_WIDGET (canvas));
}

static void
take_color (double channel[3], const GdkRGBA *color)
{
  channel[0] = color->red;
  channel[1] = color->green;
  channel[2] = color->blue;
}

/* How bright a color looks (WCAG 2.1, relative luminance). */
static double
luminance (const double color[3])
{
  static const double weights[3] = { 0.2126, 0.7152, 0.0722 };
  double sum = 0.0;

  for (guint i = 0; i < 3; i++)
    sum += weights[i] * (color[i] <= 0.03928 ? color[i] / 12.92 : pow ((color[i] + 0.055) / 1.055, 2.4));
  return sum;
}

/* Mixes ink into a color until it stands out from the paper as text must (WCAG 2.1, success criterion 1.4.3: 4.5 to 1). */
static void
make_legible (double color[3], const FlInk *ink)
{
  for (guint step = 0; step < 10; step++)
    {
      const double a = luminance (color), b = luminance (ink->paper);

      if ((MAX (a, b) + 0.05) / (MIN (a, b) + 0.05) >= LEAST_CONTRAST)
        return;
      for (guint i = 0; i < 3; i++)
        color[i] = 0.85 * color[i] + 0.15 * ink->ink[i];
    }
}

/* The theme's own colors; what is faint lies between ink and paper. */
static FlInk
theme_ink (GtkWidget *widget)
{
  GtkStyleContext *style = gtk_widget_get_style_context (widget);
  GdkRGBA ink, paper, accent;
  FlInk colors;

  gtk_style_context_get_color (style, gtk_style_context_get_state (style), &ink);
  if (!gtk_style_context_lookup_color (style, "theme_base_color", &paper))
    paper = (GdkRGBA) { 1.0, 1.0, 1.0, 1.0 };
  if (!gtk_style_context_lookup_color (style, "theme_selected_bg_color", &accent))
    accent = ink;
  take_color (colors.ink, &ink);
  take_color (colors.paper, &paper);
  take_color (colors.accent, &accent);
  for (guint i = 0; i < 3; i++)
    colors.faint[i] = 0.55 * colors.paper[i] + 0.45 * colors.ink[i];
  make_legible (colors.accent, &colors);
  return colors;
}

static gboolean
fl_deck_canvas_draw (GtkWidget *widget, cairo_t *cr)
{
  FlDeckCanvas *canvas = FL_DECK_CANVAS (widget);
  GtkStyleContext *style = gtk_widget_get_style_context (widget);
  const double width = gtk_widget_get_allocated_width (widget), height = gtk_widget_get_allocated_height (widget);
  const FlAssessment *assessment = shown (canvas);
  const FlInk ink = theme_ink (widget);

  cairo_set_source_rgb (cr, ink.paper[0], ink.paper[1], ink.paper[2]);
  cairo_paint (cr);
  if (assessment != NULL && width > 4.0 * MARGIN && height > 4.0 * MARGIN)
    {
      if (canvas->drawing == NULL)
        canvas->drawing = layout_drawing (canvas, assessment);
      cairo_save (cr);
      cairo_rectangle (cr, 0.0, 0.0, width, height);
      cairo_clip (cr);
      cairo_translate (cr, MARGIN, MARGIN);
      fl_deck_drawing_draw (canvas->drawing, cr, &ink);
      cairo_restore (cr);
    }
  if (gtk_widget_has_visible_focus (widget))
    gtk_render_focus (style, cr, 1.0, 1.0, width - 2.0, height - 2.0);
  return GDK_EVENT_STOP;
}

/* ── words for those who do not see it ── */

static void
describe (FlDeckCanvas *canvas)
{
  AtkObject *accessible = gtk_widget_get_accessible (GTK_WIDGET (canvas));
  const FlAssessment *assessment = shown (canvas);
  const gint tie = canvas->desk != NULL ? fl_desk_tie (canvas->desk) : -1;
  g_autofree char *text = NULL;

  if (assessment == NULL)
    text = g_strdup (_("Nothing is drawn: the move has no plan yet."));
  else if (tie >= 0)
    text = fl_phrase_tie (assessment, (gsize) tie, fl_desk_metric (canvas->desk));
  else
    {
      g_autofree char *count = fl_phrase_tie_count (fl_assessment_parts (assessment)->n_ties);

      text = g_strdup_printf (_("Side elevation and plan view with %s. Left and Right go from one to the next."), count);
    }
  atk_object_set_description (accessible, text);
}

static void
show_anew (FlDeckCanvas *canvas)
{
  forget_drawing (canvas);
  describe (canvas);
}

static void
show_other (FlDeckCanvas *canvas)
{
  canvas->zoom = 1.0;
  canvas->pan_x = canvas->pan_y = 0.0;
  show_anew (canvas);
}

static void
show_outcome (FlDeckCanvas *canvas, const char *move)
{
  const FlMove *selected = fl_desk_move (canvas->desk);

  if (selected != NULL && g_strcmp0 (selected->id, move) == 0)
    show_other (canvas);
}

/* ── zoom and pan ── */

/* Pan in metres, so that what is seen stays when the zoom changes. */
static void
pan_by (FlDeckCanvas *canvas, double dx, double dy)
{
  const double scale = canvas->drawing != NULL ? fl_deck_drawing_scale (canvas->drawing) : 0.0;

  if (scale <= 0.0 || canvas->zoom <= 1.0)
    return;
  canvas->pan_x += dx / scale;
  canvas->pan_y += dy / scale;
  forget_drawing (canvas);
}

void
fl_deck_canvas_zoom (FlDeckCanvas *canvas, gint step)
{
  if (step == 0)
    canvas->zoom = 1.0;
  else
    canvas->zoom = CLAMP (canvas->zoom * (step > 0 ? ZOOM_STEP : 1.0 / ZOOM_STEP), 1.0, MAX_ZOOM);
  if (canvas->zoom <= 1.0)
    canvas->pan_x = canvas->pan_y = 0.0;
  forget_drawing (canvas);
}

/* ── what the person does ── */

static gboolean
fl_deck_canvas_key_press (GtkWidget *widget, GdkEventKey *event)
{
  FlDeckCanvas *canvas = FL_DECK_CANVAS (widget);
  const GdkModifierType state = event->state & gtk_accelerator_get_default_mod_mask ();
  const gboolean pan = state == GDK_SHIFT_MASK;

  if (state != 0 && !pan)
    return GTK_WIDGET_CLASS (fl_deck_canvas_parent_class)->key_press_event (widget, event);
  switch (event->keyval)
    {
    case GDK_KEY_Right: case GDK_KEY_KP_Right:
      pan ? pan_by (canvas, -PAN_STEP, 0.0) : fl_desk_step_tie (canvas->desk, 1);
      return GDK_EVENT_STOP;
    case GDK_KEY_Left: case GDK_KEY_KP_Left:
      pan ? pan_by (canvas, PAN_STEP, 0.0) : fl_desk_step_tie (canvas->desk, -1);
      return GDK_EVENT_STOP;
    case GDK_KEY_Down: case GDK_KEY_KP_Down:
      pan ? pan_by (canvas, 0.0, -PAN_STEP) : fl_desk_step_tie (canvas->desk, 1);
      return GDK_EVENT_STOP;
    case GDK_KEY_Up: case GDK_KEY_KP_Up:
      pan ? pan_by (canvas, 0.0, PAN_STEP) : fl_desk_step_tie (canvas->desk, -1);
      return GDK_EVENT_STOP;
    case GDK_KEY_Home: case GDK_KEY_KP_Home:
      fl_desk_choose_tie (canvas->desk, 0);
      return GDK_EVENT_STOP;
    case GDK_KEY_End: case GDK_KEY_KP_End:
      fl_desk_choose_tie (canvas->desk, (gint) fl_desk_n_ties (canvas->desk) - 1);
      return GDK_EVENT_STOP;
    default:
      return GTK_WIDGET_CLASS (fl_deck_canvas_parent_class)->key_press_event (widget, event);
    }
}

static gboolean
fl_deck_canvas_button_press (GtkWidget *widget, GdkEventButton *event)
{
  FlDeckCanvas *canvas = FL_DECK_CANVAS (widget);

  if (event->button != GDK_BUTTON_PRIMARY)
    return GDK_EVENT_PROPAGATE;
  gtk_widget_grab_focus (widget);
  canvas->grabbed = TRUE;
  canvas->moved = FALSE;
  canvas->grab_x = event->x;
  canvas->grab_y = event->y;
  canvas->grab_pan_x = canvas->pan_x;
  canvas->grab_pan_y = canvas->pan_y;
  return GDK_EVENT_STOP;
}

static gboolean
fl_deck_canvas_motion (GtkWidget *widget, GdkEventMotion *event)
{
  FlDeckCanvas *canvas = FL_DECK_CANVAS (widget);
  const double dx = event->x - canvas->grab_x, dy = event->y - canvas->grab_y;

  if (!canvas->grabbed || canvas->zoom <= 1.0)
    return GDK_EVENT_PROPAGATE;
  if (!canvas->moved && !gtk_drag_check_threshold (widget, (gint) canvas->grab_x, (gint) canvas->grab_y, (gint) event->x, (gint) event->y))
    return GDK_EVENT_STOP;
  canvas->moved = TRUE;
  canvas->pan_x = canvas->grab_pan_x;
  canvas->pan_y = canvas->grab_pan_y;
  if (canvas->drawing == NULL && shown (canvas) != NULL)
    canvas->drawing = layout_drawing (canvas, shown (canvas));
  pan_by (canvas, dx, dy);
  return GDK_EVENT_STOP;
}

static gboolean
fl_deck_canvas_button_release (GtkWidget *widget, GdkEventButton *event)
{
  FlDeckCanvas *canvas = FL_DECK_CANVAS (widget);
  const gboolean clicked = canvas->grabbed && !canvas->moved;
  FlHit hit;

  canvas->grabbed = canvas->moved = FALSE;
  if (!clicked || event->button != GDK_BUTTON_PRIMARY || canvas->drawing == NULL)
    return GDK_EVENT_PROPAGATE;
  if (fl_deck_drawing_hit (canvas->drawing, event->x - MARGIN, event->y - MARGIN, &hit) && hit.kind == FL_HIT_TIE_DOWN)
    fl_desk_choose_tie (canvas->desk, hit.tie_down);
  else
    fl_desk_choose_tie (canvas->desk, -1);
  return GDK_EVENT_STOP;
}

static gboolean
fl_deck_canvas_scroll (GtkWidget *widget, GdkEventScroll *event)
{
  gdouble dx = 0.0, dy = 0.0;

  if ((event->state & GDK_CONTROL_MASK) == 0)
    return GDK_EVENT_PROPAGATE;
  if (event->direction == GDK_SCROLL_UP)
    dy = -1.0;
  else if (event->direction == GDK_SCROLL_DOWN)
    dy = 1.0;
  else
    gdk_event_get_scroll_deltas ((GdkEvent *) event, &dx, &dy);
  if (dy < 0.0 || dy > 0.0)
    fl_deck_canvas_zoom (FL_DECK_CANVAS (widget), dy < 0.0 ? 1 : -1);
  return GDK_EVENT_STOP;
}

/* What lies under the pointer, in words. */
static gboolean
fl_deck_canvas_query_tooltip (GtkWidget *widget, gint x, gint y, gboolean keyboard, GtkTooltip *tooltip)
{
  FlDeckCanvas *canvas = FL_DECK_CANVAS (widget);
  const FlAssessment *assessment = shown (canvas);
  g_autofree char *text = NULL;
  FlHit hit;

  if (keyboard || canvas->drawing == NULL || assessment == NULL || !fl_deck_drawing_hit (canvas->drawing, x - MARGIN, y - MARGIN, &hit))
    return FALSE;
  if (hit.kind == FL_HIT_TIE_DOWN)
    text = fl_phrase_tie (assessment, (gsize) hit.tie_down, fl_desk_metric (canvas->desk));
  else if (hit.kind == FL_HIT_ANCHOR)
    text = g_strdup_printf (_("Anchor %s"), hit.id);
  else if (hit.kind == FL_HIT_POINT)
    text = fl_phrase_point (assessment, (guint) MAX (hit.load, 0), hit.id);
  if (text == NULL)
    return FALSE;
  gtk_tooltip_set_text (tooltip, text);
  return TRUE;
}

static void
fl_deck_canvas_size_allocate (GtkWidget *widget, GtkAllocation *allocation)
{
  GTK_WIDGET_CLASS (fl_deck_canvas_parent_class)->size_allocate (widget, allocation);
  g_clear_pointer (&FL_DECK_CANVAS (widget)->drawing, fl_deck_drawing_free);
}

static void
fl_deck_canvas_style_updated (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (fl_deck_canvas_parent_class)->style_updated (widget);
  forget_drawing (FL_DECK_CANVAS (widget));
}

void
fl_deck_canvas_show (FlDeckCanvas *canvas, FlDesk *desk)
{
  canvas->desk = g_object_ref (desk);
  g_signal_connect_object (desk, "day", G_CALLBACK (show_other), canvas, G_CONNECT_SWAPPED);
  g_signal_connect_object (desk, "move", G_CALLBACK (show_other), canvas, G_CONNECT_SWAPPED);
  g_signal_connect_object (desk, "outcome", G_CALLBACK (show_outcome), canvas, G_CONNECT_SWAPPED);
  g_signal_connect_object (desk, "tie", G_CALLBACK (show_anew), canvas, G_CONNECT_SWAPPED);
  g_signal_connect_object (desk, "units", G_CALLBACK (show_anew), canvas, G_CONNECT_SWAPPED);
  describe (canvas);
}

static void
fl_deck_canvas_dispose (GObject *object)
{
  FlDeckCanvas *canvas = FL_DECK_CANVAS (object);

  g_clear_pointer (&canvas->drawing, fl_deck_drawing_free);
  g_clear_object (&canvas->desk);
  G_OBJECT_CLASS (fl_deck_canvas_parent_class)->dispose (object);
}

static void
fl_deck_canvas_class_init (FlDeckCanvasClass *klass)
{
  GtkWidgetClass *widget = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = fl_deck_canvas_dispose;
  widget->draw = fl_deck_canvas_draw;
  widget->key_press_event = fl_deck_canvas_key_press;
  widget->button_press_event = fl_deck_canvas_button_press;
  widget->motion_notify_event = fl_deck_canvas_motion;
  widget->button_release_event = fl_deck_canvas_button_release;
  widget->scroll_event = fl_deck_canvas_scroll;
  widget->query_tooltip = fl_deck_canvas_query_tooltip;
  widget->size_allocate = fl_deck_canvas_size_allocate;
  widget->style_updated = fl_deck_canvas_style_updated;
  gtk_widget_class_set_css_name (widget, "fl-deck-canvas");
  gtk_widget_class_set_accessible_role (widget, ATK_ROLE_DRAWING_AREA);
}

static void
fl_deck_canvas_init (FlDeckCanvas *canvas)
{
  GtkWidget *widget = GTK_WIDGET (canvas);

  canvas->zoom = 1.0;
  gtk_widget_set_can_focus (widget, TRUE);
  gtk_widget_set_has_tooltip (widget, TRUE);
  gtk_widget_add_events (widget, GDK_BUTTON_PRESS_MASK | GDK_BUTTON_RELEASE_MASK | GDK_BUTTON1_MOTION_MASK | GDK_SCROLL_MASK
                                   | GDK_SMOOTH_SCROLL_MASK | GDK_KEY_PRESS_MASK);
  atk_object_set_name (gtk_widget_get_accessible (widget), _("Drawing of the load on its trailer"));
}
