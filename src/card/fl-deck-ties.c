/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tie-downs in the deck drawing: runs, the anchors they use, and their numbers in circles. In the plan each has its own circle outside of
 * the deck; in the side elevation those that lie on each other share one below it. */
#include "fl-deck-private.h"

#include <math.h>

#define OWN_WIDTH 2.2
#define IMPLEMENT_WIDTH 3.2
#define IMPLEMENT_CORE 1.5
#define CHOSEN_FACTOR 1.7
#define SAME_RUN 3.0            /* units: nearer ends count as one run in the side elevation */
#define NAME_FACTOR 0.85

typedef struct { double x, y; } Spot2;

/* One tie-down on its way into the drawing. */
typedef struct
{
  const FlTieDown *choice;
  const FlTieResult *result;
  FlHit hit;
  gboolean runs;                /* its path is known */
} Tie;

static Tie
tie_at (const FlDeckDrawing *d, guint index)
{
  const FlPlanChoices *choices = fl_plan_choices (fl_assessment_plan (d->assessment));
  const FlAssessmentParts *parts = fl_assessment_parts (d->assessment);
  Tie tie = { .choice = &choices->tie_downs[index], .result = index < parts->n_ties ? &parts->ties[index] : NULL };

  tie.hit = (FlHit) { FL_HIT_TIE_DOWN, NULL, (gint) index, (gint) tie.choice->load };
  tie.runs = tie.result != NULL && tie.result->n_path >= 2;
  return tie;
}

static guint
n_ties (const FlDeckDrawing *d)
{
  return (guint) fl_plan_choices (fl_assessment_plan (d->assessment))->n_tie_downs;
}

static Spot2
in_view (const FlDeckDrawing *d, FlView view, FlVec at)
{
  return (Spot2) { fl_deck_x (d, at.x), fl_deck_up (d, view, fl_view_up (view, at)) };
}

/* ── runs ── */

/* A load's own tie-down is one heavy line; an implement's is a dashed double line. */
static void
draw_run (FlDeckDrawing *d, FlView view, const Tie *tie)
{
  const gsize n = tie->result->n_path;
  const gboolean chosen = tie->hit.tie_down == d->layout.selected, own = tie->choice->purpose == FL_FOR_LOAD;
  const double factor = chosen ? CHOSEN_FACTOR : 1.0, ends = 1.1 * factor;
  const FlTone tone = chosen ? FL_TONE_ACCENT : FL_TONE_INK;
  g_autofree double *xy = g_new (double, 2 * n);

  for (gsize i = 0; i < n; i++)
    {
      const Spot2 at = in_view (d, view, tie->result->path[i]);

      xy[2 * i] = at.x;
      xy[2 * i + 1] = at.y;
      fl_marks_circle (d->marks, at.x, at.y, ends, FL_FILLED (tone));
      if (i > 0)
        fl_deck_add_segment (d, tie->hit, xy[2 * i - 2], xy[2 * i - 1], at.x, at.y, 0.0);
      if (i > 0)
        fl_labels_spare (d->labels, xy[2 * i - 2], xy[2 * i - 1], at.x, at.y);
    }
  if (own)
    fl_marks_polygon (d->marks, xy, n, FALSE, FL_LINE (tone, OWN_WIDTH * factor));
  else
    {
      fl_marks_polygon (d->marks, xy, n, FALSE, (FlStroke) { tone, FL_TONE_NONE, IMPLEMENT_WIDTH * factor, FL_DASH_DASHED });
      fl_marks_polygon (d->marks, xy, n, FALSE, FL_LINE (FL_TONE_PAPER, IMPLEMENT_CORE * factor));
    }
}

/* ── numbers ── */

static void
draw_balloon (FlDeckDrawing *d, const Tie *tie, const char *number, FlSpot spot, const Spot2 *from)
{
  const gboolean chosen = tie->hit.tie_down == d->layout.selected;
  const double x = spot.x + 0.5 * spot.width, y = spot.y + 0.5 * spot.height;

  if (from != NULL && hypot (from->x - x, from->y - y) > 0.5 * spot.height)
    fl_marks_line (d->marks, from->x, from->y, x, y, FL_LINE (FL_TONE_INK, 0.6));
  fl_marks_round_rect (d->marks, spot.x, spot.y, spot.width, spot.height, 0.5 * spot.height,
                       (FlStroke) { chosen ? FL_TONE_ACCENT : FL_TONE_INK, chosen ? FL_TONE_ACCENT : FL_TONE_PAPER, 1.1, FL_DASH_SOLID });
  fl_deck_put (d, fl_deck_text (d, number, 0.95, TRUE), spot, FALSE, chosen ? FL_TONE_PAPER : FL_TONE_INK);
  fl_deck_add_box (d, tie->hit, spot);
}

/* The edge of what is drawn on a side of the plan: the deck's, or an anchor's beyond it. */
static double
outer_edge (const FlDeckDrawing *d, gboolean upward, double y)
{
  const double half = d->trailer != NULL ? 0.5 * fl_metres (d->trailer->deck_width) : NAN;
  const double edge = fl_deck_up (d, FL_VIEW_PLAN, upward ? half : -half);

  return upward ? fmin (edge, y) : fmax (edge, y);
}

enum { STEPS_OUT = 9, STEPS_ON = 5 };

static void
plan_balloon (FlDeckDrawing *d, const Tie *tie, Spot2 anchor, const Spot2 *other)
{
  static const double along[STEPS_ON] = { 0.5, 0.4, 0.6, 0.3, 0.7 };
  const double side = 2.0 * FL_BALLOON_EM * d->em;
  const gboolean upward = anchor.y < fl_deck_up (d, FL_VIEW_PLAN, 0.0);
  const double y = outer_edge (d, upward, anchor.y) + (upward ? -1.0 : 1.0) * (0.5 * side + 2.5);
  g_autofree char *number = g_strdup_printf ("%u", tie->choice->no);
  FlSpot candidates[STEPS_OUT + STEPS_ON], spot;
  gsize n = 0;

  for (gint k = 0; k < STEPS_OUT; k++)
    candidates[n++] = fl_spot_about (anchor.x + (k % 2 == 0 ? 1 : -1) * ((k + 1) / 2) * 0.6 * side, y, side, side);
  for (gint k = 0; other != NULL && k < STEPS_ON; k++)
    candidates[n++] = fl_spot_about (anchor.x + along[k] * (other->x - anchor.x), anchor.y + along[k] * (other->y - anchor.y), side, side);
  if (fl_labels_place (d->labels, candidates, n, &spot) || fl_labels_near (d->labels, anchor.x, anchor.y, side, side, &spot))
    draw_balloon (d, tie, number, spot, &anchor);
}

/* Where a tie-down without a known run is numbered: at its anchor, its machine point, or at the corner of the plan. */
static Spot2
lost_place (const FlDeckDrawing *d, const Tie *tie)
{
  const FlAssessmentParts *parts = fl_assessment_parts (d->assessment);
  const FlAnchor *anchor = d->trailer != NULL && tie->choice->anchors[0] != NULL ? fl_trailer_anchor (d->trailer, tie->choice->anchors[0]) : NULL;
  const FlLoadResult *load = tie->choice->load < parts->n_loads ? &parts->loads[tie->choice->load] : NULL;

  if (anchor != NULL && isfinite (fl_metres (anchor->x)) && isfinite (fl_metres (anchor->y)))
    return in_view (d, FL_VIEW_PLAN, (FlVec) { fl_metres (anchor->x), fl_metres (anchor->y), 0.0 });
  for (gsize i = 0; load != NULL && load->placed && i < load->n_points; i++)
    if (g_strcmp0 (load->points[i].id, tie->choice->point) == 0)
      return in_view (d, FL_VIEW_PLAN, load->points[i].at);
  return in_view (d, FL_VIEW_PLAN, (FlVec) { d->span.x0, d->span.y0, 0.0 });
}

/* ── anchors in use ── */

static void
name_anchor (FlDeckDrawing *d, const char *id, GHashTable *named)
{
  const FlAnchor *anchor = d->trailer != NULL && id != NULL ? fl_trailer_anchor (d->trailer, id) : NULL;
  const double beside = 2.0 * FL_BALLOON_EM * d->em;
  PangoLayout *text;
  FlSpot taken;
  double w, h, x, y;
  gboolean upward;

  if (anchor == NULL || !g_hash_table_add (named, (gpointer) id))
    return;
  text = fl_deck_text (d, id, NAME_FACTOR, FALSE);
  fl_text_size (text, &w, &h);
  x = fl_deck_x (d, fl_metres (anchor->x));
  y = fl_deck_up (d, FL_VIEW_PLAN, fl_metres (anchor->y));
  upward = y < fl_deck_up (d, FL_VIEW_PLAN, 0.0);
  y = outer_edge (d, upward, y) + (upward ? -1.0 : 1.0) * (0.5 * beside + 2.5);
  {
    const double dx = 0.5 * beside + 2.0 + 0.5 * w, inward = (upward ? 1.0 : -1.0) * (beside + 2.0);
    const FlSpot candidates[] = {
      fl_spot_about (x + dx, y, w, h), fl_spot_about (x - dx, y, w, h), fl_spot_about (x, y, w, h),
      fl_spot_about (x + dx, y + inward, w, h), fl_spot_about (x - dx, y + inward, w, h), fl_spot_about (x, y + inward, w, h),
      fl_spot_about (x - 1.7 * dx, y, w, h), fl_spot_about (x + 1.7 * dx, y, w, h),
    };

    if (fl_labels_place (d->labels, candidates, G_N_ELEMENTS (candidates), &taken))
      fl_deck_put (d, text, taken, FALSE, FL_TONE_INK);
    else
      g_object_unref (text);    /* the table under the drawing names it */
  }
}

static void
mark_anchor (FlDeckDrawing *d, const char *id)
{
  const FlAnchor *anchor = d->trailer != NULL && id != NULL ? fl_trailer_anchor (d->trailer, id) : NULL;

  if (anchor != NULL)
    fl_deck_anchor_symbol (d, anchor, TRUE);
}

/* ── the side elevation's shared numbers ── */

static gboolean
near_by (Spot2 a, Spot2 b)
{
  return hypot (a.x - b.x, a.y - b.y) < SAME_RUN;
}

static gboolean
same_run (const FlDeckDrawing *d, const Tie *a, const Tie *b)
{
  const FlVec *pa = a->result->path, *pb = b->result->path;

  return near_by (in_view (d, FL_VIEW_SIDE, pa[0]), in_view (d, FL_VIEW_SIDE, pb[0]))
         && near_by (in_view (d, FL_VIEW_SIDE, pa[a->result->n_path - 1]), in_view (d, FL_VIEW_SIDE, pb[b->result->n_path - 1]));
}

/* The numbers of all later tie-downs that lie on this one in the side elevation; they are marked as told. */
static char *
shared_number (const FlDeckDrawing *d, guint index, const Tie *tie, gboolean *told)
{
  GString *number = g_string_new (NULL);

  g_string_append_printf (number, "%u", tie->choice->no);
  for (guint k = index + 1; k < n_ties (d); k++)
    {
      const Tie other = tie_at (d, k);

      if (!told[k] && other.runs && same_run (d, tie, &other))
        {
          told[k] = TRUE;
          g_string_append_printf (number, " %u", other.choice->no);
        }
    }
  return g_string_free (number, FALSE);
}

static void
side_balloon (FlDeckDrawing *d, const Tie *tie, const char *number)
{
  const FlVec *path = tie->result->path;
  const gsize n = tie->result->n_path;
  const Spot2 anchor = in_view (d, FL_VIEW_SIDE, path[n - 1]), other = in_view (d, FL_VIEW_SIDE, path[n - 2]);
  PangoLayout *text = fl_deck_text (d, number, 0.95, TRUE);
  const double h = 2.0 * FL_BALLOON_EM * d->em, below = fl_deck_up (d, FL_VIEW_SIDE, -0.2) + 0.5 * h + 1.5;
  FlSpot candidates[STEPS_OUT + STEPS_ON], spot;
  double w;
  gsize count = 0;

  fl_text_size (text, &w, NULL);
  g_object_unref (text);
  w = fmax (h, w + 0.7 * h);
  for (gint k = 0; k < STEPS_OUT; k++)
    candidates[count++] = fl_spot_about (anchor.x + (k % 2 == 0 ? 1 : -1) * ((k + 1) / 2) * 0.5 * w, below, w, h);
  for (gint k = 1; k <= STEPS_ON; k++)
    {
      const double t = (double) k / (STEPS_ON + 1);

      candidates[count++] = fl_spot_about (anchor.x + t * (other.x - anchor.x), anchor.y + t * (other.y - anchor.y), w, h);
    }
  if (fl_labels_place (d->labels, candidates, count, &spot) || fl_labels_near (d->labels, anchor.x, anchor.y, w, h, &spot))
    draw_balloon (d, tie, number, spot, &anchor);
}

static void
number_side (FlDeckDrawing *d)
{
  g_autofree gboolean *told = g_new0 (gboolean, n_ties (d) + 1);

  for (guint i = 0; i < n_ties (d); i++)
    {
      const Tie tie = tie_at (d, i);

      if (tie.runs && !told[i])
        {
          g_autofree char *number = shared_number (d, i, &tie, told);

          side_balloon (d, &tie, number);
        }
    }
}

static void
number_plan (FlDeckDrawing *d)
{
  for (guint i = 0; i < n_ties (d); i++)
    {
      const Tie tie = tie_at (d, i);

      if (tie.runs)
        {
          const gsize n = tie.result->n_path;
          const Spot2 anchor = in_view (d, FL_VIEW_PLAN, tie.result->path[n - 1]), other = in_view (d, FL_VIEW_PLAN, tie.result->path[n - 2]);

          plan_balloon (d, &tie, anchor, &other);
        }
      else
        plan_balloon (d, &tie, lost_place (d, &tie), NULL);
    }
}

void
fl_deck_lay_ties (FlDeckDrawing *d)
{
  g_autoptr(GHashTable) named = g_hash_table_new (g_str_hash, g_str_equal);

  for (FlPurpose purpose = FL_FOR_IMPLEMENT + 1; purpose-- > FL_FOR_LOAD;)     /* an implement's below the load's own */
    for (guint i = 0; i < n_ties (d); i++)
      {
        const Tie tie = tie_at (d, i);

        for (FlView view = FL_VIEW_PLAN; tie.runs && tie.choice->purpose == purpose && view <= FL_VIEW_SIDE; view++)
          draw_run (d, view, &tie);
      }
  for (guint i = 0; i < n_ties (d); i++)
    for (guint k = 0; k < 2; k++)
      mark_anchor (d, tie_at (d, i).choice->anchors[k]);
  number_plan (d);
  number_side (d);
  for (guint i = 0; i < n_ties (d); i++)
    for (guint k = 0; k < 2; k++)
      name_anchor (d, tie_at (d, i).choice->anchors[k], named);
}
