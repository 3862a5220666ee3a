/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The deck drawing, laid out without a Cairo context: places are checked against the dimensions in example-fleet.json. */
#include <math.h>

#include "fl-card-font.h"
#include "fl-deck-private.h"
#include "sample.h"

#define IN 0.0254
static const FlDeckLayout page = { .width = 540, .height = 240, .text_size = 7.5, .zoom = 1, .selected = -1, .side_above = TRUE };

static PangoContext *
font_context (void)
{
  g_autoptr(FlCardFont) font = sample_font ();

  return fl_card_font_context (font);
}

static FlDeckDrawing *
draw (const Sample *sample, FlDeckLayout layout)
{
  g_autoptr(FlAssessment) assessment = sample_assessment (sample);
  PangoContext *context = font_context ();
  FlDeckDrawing *drawing;

  layout.text = context;
  drawing = fl_deck_drawing_new (assessment, &layout, NULL);
  g_object_unref (context);
  return drawing;
}

/* The middle of the first region that answers with a hit of this kind and id. */
static void
region_of (const FlDeckDrawing *d, FlHitKind kind, const char *id, double *x, double *y)
{
  for (guint i = 0; i < d->regions->len; i++)
    {
      const FlRegion *r = &g_array_index (d->regions, FlRegion, i);

      if (r->hit.kind == kind && g_strcmp0 (r->hit.id, id) == 0)
        {
          *x = 0.5 * (r->x0 + r->x1);
          *y = 0.5 * (r->y0 + r->y1);
          return;
        }
    }
  g_error ("nothing answers with %s", id);
}

/* Anchors P1L and P12L are 264 in apart, P1L and P1R 100 in: one scale for both axes. */
static void
test_one_scale (void)
{
  g_autoptr(FlDeckDrawing) d = draw (&(Sample) { 0 }, page);
  const double scale = fl_deck_drawing_scale (d);
  double x1, y1, x12, y12, xr, yr;

  g_assert_cmpfloat (scale, >, 0);
  region_of (d, FL_HIT_ANCHOR, "P1L", &x1, &y1);
  region_of (d, FL_HIT_ANCHOR, "P12L", &x12, &y12);
  region_of (d, FL_HIT_ANCHOR, "P1R", &xr, &yr);
  g_assert_cmpfloat_with_epsilon (x12 - x1, 264 * IN * scale, 1e-6);
  g_assert_cmpfloat_with_epsilon (yr - y1, 100 * IN * scale, 1e-6);   /* left is up */
  g_assert_cmpfloat_with_epsilon (y12, y1, 1e-9);
  for (FlView view = FL_VIEW_PLAN; view <= FL_VIEW_SIDE; view++)
    g_assert_cmpfloat_with_epsilon (fl_deck_up (d, view, 0) - fl_deck_up (d, view, 1), fl_deck_x (d, 1) - fl_deck_x (d, 0), 1e-9);
}

static void
assert_inside (const FlDeckDrawing *d)
{
  for (guint i = 0; i < d->regions->len; i++)
    {
      const FlRegion *r = &g_array_index (d->regions, FlRegion, i);

      g_assert_cmpfloat (fmin (r->x0, r->x1), >=, 0);
      g_assert_cmpfloat (fmax (r->x0, r->x1), <=, page.width);
      g_assert_cmpfloat (fmin (r->y0, r->y1), >=, 0);
      g_assert_cmpfloat (fmax (r->y0, r->y1), <=, page.height);
    }
}

/* Looks at every third unit of the area: each tie-down answers somewhere, and nothing answers with one that is not there. */
static void
assert_all_answer (const FlDeckDrawing *d, guint n)
{
  g_autofree gboolean *seen = g_new0 (gboolean, n + 1);

  for (double y = 0; y < page.height; y += 2)
    for (double x = 0; x < page.width; x += 2)
      {
        FlHit hit;

        if (fl_deck_drawing_hit (d, x, y, &hit) && hit.kind == FL_HIT_TIE_DOWN)
          {
            g_assert_cmpint (hit.tie_down, >=, 0);
            g_assert_cmpint (hit.tie_down, <, (gint) n);
            seen[hit.tie_down] = TRUE;
          }
      }
  for (guint i = 0; i < n; i++)
    g_assert_true (seen[i]);
}

static void
assert_labels_apart (const FlDeckDrawing *d)
{
  const gsize n = fl_labels_count (d->labels);

  g_assert_cmpuint (n, >, 0);
  for (gsize i = 0; i < n; i++)
    for (gsize k = 0; k < i; k++)
      {
        const FlSpot a = fl_labels_at (d->labels, i), b = fl_labels_at (d->labels, k);

        g_assert_true (a.x + a.width <= b.x || b.x + b.width <= a.x || a.y + a.height <= b.y || b.y + b.height <= a.y);
      }
}

static void
test_plans (void)
{
  static const struct { Sample sample; guint ties; } plans[] = {
    { { 0 }, 5 }, { { .articles = 1 }, 5 }, { { .tie_downs = 12 }, 12 }, { { .tie_downs = 32 }, 32 }, { { .tie_downs = -1 }, 0 },
    { { .unplaced = TRUE }, 5 }, { { .no_trailer = TRUE }, 5 }, { { .no_trailer = TRUE, .unplaced = TRUE }, 5 }, { { .metric = TRUE }, 5 },
  };

  for (gsize i = 0; i < G_N_ELEMENTS (plans); i++)
    {
      g_autoptr(FlDeckDrawing) d = draw (&plans[i].sample, page);

      assert_inside (d);
      assert_labels_apart (d);
      assert_all_answer (d, plans[i].ties);
    }
}

/* Every tie-down has a number of its own in the plan view, tie-down 5 an own place in the side elevation too. */
static void
test_numbers (void)
{
  g_autoptr(FlDeckDrawing) d = draw (&(Sample) { 0 }, page);
  guint boxes[5] = { 0 };

  for (guint i = 0; i < d->regions->len; i++)
    {
      const FlRegion *r = &g_array_index (d->regions, FlRegion, i);

      if (r->hit.kind == FL_HIT_TIE_DOWN && !r->segment)
        boxes[r->hit.tie_down]++;
    }
  g_assert_cmpuint (boxes[0], ==, 2);         /* 1 and 2 share one below the deck, told by the first */
  g_assert_cmpuint (boxes[1], ==, 1);
  g_assert_cmpuint (boxes[2], ==, 2);
  g_assert_cmpuint (boxes[3], ==, 1);
  g_assert_cmpuint (boxes[4], ==, 2);
}

static void
test_hits (void)
{
  g_autoptr(FlDeckDrawing) d = draw (&(Sample) { 0 }, page);
  const double x = fl_deck_x (d, 10 * IN + 234 * IN - 14 * IN), y = fl_deck_up (d, FL_VIEW_PLAN, -26 * IN);   /* point RL, see formats.md, Axes */
  const double ax = fl_deck_x (d, 252 * IN), ay = fl_deck_up (d, FL_VIEW_PLAN, -50 * IN);
  FlHit hit;

  g_assert_true (fl_deck_drawing_hit (d, 0.5 * (x + ax), 0.5 * (y + ay), &hit));
  g_assert_cmpint (hit.kind, ==, FL_HIT_TIE_DOWN);
  g_assert_cmpint (hit.tie_down, ==, 0);
  g_assert_true (fl_deck_drawing_hit (d, fl_deck_x (d, 150 * IN), fl_deck_up (d, FL_VIEW_PLAN, 20 * IN), &hit));
  g_assert_cmpint (hit.kind, ==, FL_HIT_LOAD);
  g_assert_cmpint (hit.load, ==, 0);
  g_assert_cmpstr (hit.id, ==, "R-03");
  g_assert_true (fl_deck_drawing_hit (d, fl_deck_x (d, -40 * IN), fl_deck_up (d, FL_VIEW_PLAN, 0), &hit));
  g_assert_cmpint (hit.kind, ==, FL_HIT_TRAILER);
  g_assert_true (fl_deck_drawing_hit (d, fl_deck_x (d, 156 * IN), fl_deck_up (d, FL_VIEW_PLAN, 50 * IN), &hit));
  g_assert_cmpint (hit.kind, ==, FL_HIT_ANCHOR);
  g_assert_cmpstr (hit.id, ==, "P7L");
  g_assert_false (fl_deck_drawing_hit (d, 1, 1, &hit));
  g_assert_cmpint (hit.kind, ==, FL_HIT_NOTHING);
  g_assert_cmpint (hit.tie_down, ==, -1);
}

/* Zoom doubles the scale about the middle; pan moves by metres, right and up. */
static void
test_zoom_and_pan (void)
{
  FlDeckLayout near = page, aside = page;
  g_autoptr(FlDeckDrawing) d = draw (&(Sample) { 0 }, page);
  g_autoptr(FlDeckDrawing) zoomed = NULL, panned = NULL;
  const double x = fl_deck_x (d, 3), y = fl_deck_up (d, FL_VIEW_PLAN, 0.5), scale = fl_deck_drawing_scale (d);

  near.zoom = 2;
  aside.pan_x = 1;
  aside.pan_y = 0.5;
  zoomed = draw (&(Sample) { 0 }, near);
  panned = draw (&(Sample) { 0 }, aside);
  g_assert_cmpfloat_with_epsilon (fl_deck_drawing_scale (zoomed), 2 * scale, 1e-9);
  g_assert_cmpfloat_with_epsilon (fl_deck_x (zoomed, 3) - 270, 2 * (x - 270), 1e-9);
  g_assert_cmpfloat_with_epsilon (fl_deck_up (zoomed, FL_VIEW_PLAN, 0.5) - 120, 2 * (y - 120), 1e-9);
  g_assert_cmpfloat_with_epsilon (fl_deck_x (panned, 3), x + scale, 1e-9);
  g_assert_cmpfloat_with_epsilon (fl_deck_up (panned, FL_VIEW_PLAN, 0.5), y - 0.5 * scale, 1e-9);
}

static void
test_views_swap (void)
{
  FlDeckLayout below = page;
  g_autoptr(FlDeckDrawing) above = draw (&(Sample) { 0 }, page);
  g_autoptr(FlDeckDrawing) swapped = NULL;

  below.side_above = FALSE;
  swapped = draw (&(Sample) { 0 }, below);
  g_assert_cmpfloat (fl_deck_up (above, FL_VIEW_SIDE, 0), <, fl_deck_up (above, FL_VIEW_PLAN, 0));
  g_assert_cmpfloat (fl_deck_up (swapped, FL_VIEW_SIDE, 0), >, fl_deck_up (swapped, FL_VIEW_PLAN, 0));
  assert_inside (swapped);
  assert_labels_apart (swapped);
}

static cairo_surface_t *
painted (const FlDeckDrawing *d, const FlInk *ink)
{
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 540, 240);
  cairo_t *cr = cairo_create (surface);

  cairo_set_source_rgb (cr, ink->paper[0], ink->paper[1], ink->paper[2]);
  cairo_paint (cr);
  fl_deck_drawing_draw (d, cr, ink);
  g_assert_cmpint (cairo_status (cr), ==, CAIRO_STATUS_SUCCESS);
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

/* On a dark screen the same drawing is the negative: nothing in it depends on a color. In print all of it is grey. */
static void
test_inks (void)
{
  g_autoptr(FlDeckDrawing) d = draw (&(Sample) { 0 }, page);
  FlInk dark = { 0 };
  cairo_surface_t *light, *black;
  guint inked = 0;

  for (guint i = 0; i < 3; i++)
    {
      dark.ink[i] = 1.0 - fl_ink_print.ink[i];
      dark.paper[i] = 1.0 - fl_ink_print.paper[i];
      dark.faint[i] = 1.0 - fl_ink_print.faint[i];
      dark.accent[i] = 1.0 - fl_ink_print.accent[i];
    }
  light = painted (d, &fl_ink_print);
  black = painted (d, &dark);
  for (gint y = 0; y < 240; y++)
    for (gint x = 0; x < 540; x++)
      {
        const guchar *a = cairo_image_surface_get_data (light) + y * cairo_image_surface_get_stride (light) + 4 * x;
        const guchar *b = cairo_image_surface_get_data (black) + y * cairo_image_surface_get_stride (black) + 4 * x;

        g_assert_cmpint (a[0], ==, a[1]);
        g_assert_cmpint (a[1], ==, a[2]);
        g_assert_cmpint (ABS (255 - a[0] - b[0]), <=, 3);   /* rounding of each blend */
        inked += a[0] < 128 ? 1 : 0;
      }
  g_assert_cmpuint (inked, >, 1000);
  cairo_surface_destroy (light);
  cairo_surface_destroy (black);
}

/* A chosen tie-down is heavier: more ink in the same drawing. */
static void
test_selected (void)
{
  FlDeckLayout chosen = page;
  g_autoptr(FlDeckDrawing) plain = draw (&(Sample) { 0 }, page);
  g_autoptr(FlDeckDrawing) heavy = NULL;
  cairo_surface_t *surfaces[2];
  gsize darkness[2] = { 0 };

  chosen.selected = 2;
  heavy = draw (&(Sample) { 0 }, chosen);
  surfaces[0] = painted (plain, &fl_ink_print);
  surfaces[1] = painted (heavy, &fl_ink_print);
  for (guint k = 0; k < 2; k++)
    {
      const guchar *data = cairo_image_surface_get_data (surfaces[k]);

      for (gint i = 0; i < 240 * cairo_image_surface_get_stride (surfaces[k]); i += 4)
        darkness[k] += 255u - data[i];
      cairo_surface_destroy (surfaces[k]);
    }
  g_assert_cmpuint (darkness[1], >, darkness[0] + 1000);
}

static void
test_tiny_areas (void)
{
  const double sides[] = { 0, 1, 20, 60 };

  for (gsize i = 0; i < G_N_ELEMENTS (sides); i++)
    {
      FlDeckLayout layout = page;
      g_autoptr(FlDeckDrawing) d = NULL;
      cairo_surface_t *surface;

      layout.width = sides[i];
      layout.height = sides[i];
      d = draw (&(Sample) { 0 }, layout);
      g_assert_cmpfloat (fl_deck_drawing_scale (d), >, 0);
      surface = painted (d, &fl_ink_print);
      cairo_surface_destroy (surface);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/deck-drawing/one-scale", test_one_scale);
  g_test_add_func ("/deck-drawing/plans", test_plans);
  g_test_add_func ("/deck-drawing/numbers", test_numbers);
  g_test_add_func ("/deck-drawing/hits", test_hits);
  g_test_add_func ("/deck-drawing/zoom-and-pan", test_zoom_and_pan);
  g_test_add_func ("/deck-drawing/views-swap", test_views_swap);
  g_test_add_func ("/deck-drawing/inks", test_inks);
  g_test_add_func ("/deck-drawing/selected", test_selected);
  g_test_add_func ("/deck-drawing/tiny-areas", test_tiny_areas);
  return g_test_run ();
}
