/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The loads in the deck drawing: extent, bodies, ground contact, tie points, centre of gravity, joint, and which end is the front. */
#include "fl-deck-private.h"

#include <math.h>
#include <string.h>

#define SKETCH_HEIGHT 0.42      /* of a load's height */
#define SAME_ROUND 1.35         /* a wheel's box may be this far from square */

static const FlStroke extent = { .stroke = FL_TONE_FAINT, .fill = FL_TONE_NONE, .width = 0.6, .dash = FL_DASH_DASHED };
static const FlStroke body = { .stroke = FL_TONE_INK, .fill = FL_TONE_PAPER, .width = 0.9 };

/* ── bodies ── */

typedef enum { FORM_BOX, FORM_ROUND, FORM_TRACK } Form;

/* Bodies are boxes with a free name; those that are called wheels, drums or tracks are drawn as such, since that is what a driver recognizes. */
static Form
form_of (const char *name)
{
  g_autofree char *low = name != NULL ? g_utf8_strdown (name, -1) : g_strdup ("");

  if (strstr (low, "wheel") != NULL || strstr (low, "drum") != NULL || strstr (low, "tire") != NULL || strstr (low, "roller") != NULL)
    return FORM_ROUND;
  return strstr (low, "track") != NULL || strstr (low, "crawler") != NULL ? FORM_TRACK : FORM_BOX;
}

static void
draw_body (FlDeckDrawing *d, FlView view, const FlPlacedBox *solid)
{
  const FlSpot s = fl_deck_box_spot (d, view, &solid->box);
  const Form form = form_of (solid->name);
  const gboolean square = s.width < SAME_ROUND * s.height && s.height < SAME_ROUND * s.width;

  if (form == FORM_ROUND && view == FL_VIEW_SIDE && square)
    {
      const double r = 0.5 * fmin (s.width, s.height), x = s.x + 0.5 * s.width, y = s.y + s.height - r;

      fl_marks_circle (d->marks, x, y, r, body);
      fl_marks_circle (d->marks, x, y, 0.3 * r, (FlStroke) { FL_TONE_FAINT, FL_TONE_NONE, 0.5, FL_DASH_SOLID });
    }
  else if (form == FORM_TRACK && view == FL_VIEW_SIDE)
    fl_marks_round_rect (d->marks, s.x, s.y, s.width, s.height, 0.5 * s.height, body);
  else
    fl_marks_round_rect (d->marks, s.x, s.y, s.width, s.height, form == FORM_ROUND ? 0.15 * fmin (s.width, s.height) : 0.0, body);
}

/* How near a body is to the eye: from above its top, from the right its right flank. */
static double
nearness (FlView view, const FlPlacedBox *solid)
{
  return view == FL_VIEW_PLAN ? solid->box.max.z : -solid->box.min.y;
}

/* Far ones first, so that near ones cover them. */
static void
draw_bodies (FlDeckDrawing *d, FlView view, const FlLoadResult *load)
{
  g_autofree guint *order = g_new (guint, load->n_solids + 1);

  for (guint i = 0; i < load->n_solids; i++)
    {
      guint k = i;

      for (; k > 0 && nearness (view, &load->solids[order[k - 1]]) > nearness (view, &load->solids[i]); k--)
        order[k] = order[k - 1];
      order[k] = i;
    }
  for (guint i = 0; i < load->n_solids; i++)
    draw_body (d, view, &load->solids[order[i]]);
}

static gboolean
stands_on_body (const FlLoadResult *load, const FlBox *contact)
{
  for (gsize i = 0; i < load->n_solids; i++)
    {
      const FlBox *box = &load->solids[i].box;

      if (form_of (load->solids[i].name) != FORM_BOX && box->min.x <= contact->max.x && box->max.x >= contact->min.x)
        return TRUE;
    }
  return FALSE;
}

/* Where only the patch on the ground is on record, what stands on it is sketched light: its size is not known. */
static void
sketch_running_gear (FlDeckDrawing *d, const FlLoadResult *load, const FlPlacedBox *contact)
{
  const FlStroke style = { FL_TONE_FAINT, FL_TONE_NONE, 0.6, FL_DASH_SOLID };
  const double high = SKETCH_HEIGHT * (load->outline.max.z - load->outline.min.z), z = contact->box.min.z;
  const double x0 = fl_deck_x (d, contact->box.min.x), x1 = fl_deck_x (d, contact->box.max.x), r = 0.5 * high * d->scale;

  if (contact->name == NULL || stands_on_body (load, &contact->box))
    return;
  if (strstr (contact->name, "tracks") != NULL)
    fl_marks_round_rect (d->marks, x0 - 0.6 * r, fl_deck_up (d, FL_VIEW_SIDE, z) - 1.4 * r, x1 - x0 + 1.2 * r, 1.4 * r, r, style);
  else
    fl_marks_circle (d->marks, 0.5 * (x0 + x1), fl_deck_up (d, FL_VIEW_SIDE, z) - r, r, style);
}

static void
draw_contacts (FlDeckDrawing *d, const FlLoadResult *load)
{
  for (gsize i = 0; i < load->n_contacts; i++)
    sketch_running_gear (d, load, &load->contacts[i]);
  for (gsize i = 0; i < load->n_contacts; i++)
    {
      const FlBox *box = &load->contacts[i].box;
      const double x0 = fl_deck_x (d, box->min.x), x1 = fl_deck_x (d, box->max.x), z = fl_deck_up (d, FL_VIEW_SIDE, box->min.z);

      fl_deck_box (d, FL_VIEW_PLAN, box, (FlStroke) { FL_TONE_INK, FL_TONE_NONE, 0.6, FL_DASH_DOTTED });
      fl_marks_line (d->marks, x0, z, x1, z, FL_LINE (FL_TONE_INK, 2.6));
    }
}

/* ── symbols ── */

/* The centre of gravity: a circle with two of its quarters black. */
static void
draw_cg (FlDeckDrawing *d, double x, double y)
{
  enum { STEPS = 6 };
  const double r = 0.42 * d->em;

  fl_marks_circle (d->marks, x, y, r, (FlStroke) { FL_TONE_INK, FL_TONE_PAPER, 0.8, FL_DASH_SOLID });
  for (guint quarter = 0; quarter < 4; quarter += 2)
    {
      double xy[2 * (STEPS + 2)] = { x, y };

      for (guint i = 0; i <= STEPS; i++)
        {
          const double angle = 0.5 * G_PI * (quarter + (double) i / STEPS);

          xy[2 * i + 2] = x + r * cos (angle);
          xy[2 * i + 3] = y + r * sin (angle);
        }
      fl_marks_polygon (d->marks, xy, STEPS + 2, TRUE, FL_FILLED (FL_TONE_INK));
    }
}

static void
draw_joint (FlDeckDrawing *d, FlView view, const FlLoadResult *load)
{
  const double x = fl_deck_x (d, load->joint_x), low = fl_deck_up (d, view, fl_view_up (view, load->outline.min));
  const double high = fl_deck_up (d, view, fl_view_up (view, load->outline.max)), r = 0.22 * d->em;
  const double y = view == FL_VIEW_PLAN ? 0.5 * (low + high) : low - 0.3 * (low - high);

  fl_marks_line (d->marks, x, low, x, high, (FlStroke) { FL_TONE_INK, FL_TONE_NONE, 0.6, FL_DASH_CENTER });
  fl_marks_circle (d->marks, x, y, r, (FlStroke) { FL_TONE_INK, FL_TONE_PAPER, 0.8, FL_DASH_SOLID });
}

static void
draw_points (FlDeckDrawing *d, guint index, const FlLoadResult *load)
{
  const double r = fmax (1.2, 0.13 * d->em);

  for (gsize i = 0; i < load->n_points; i++)
    for (FlView view = FL_VIEW_PLAN; view <= FL_VIEW_SIDE; view++)
      {
        const double x = fl_deck_x (d, load->points[i].at.x), y = fl_deck_up (d, view, fl_view_up (view, load->points[i].at));

        fl_marks_circle (d->marks, x, y, r, (FlStroke) { FL_TONE_INK, FL_TONE_PAPER, 0.7, FL_DASH_SOLID });
        fl_deck_add_segment (d, (FlHit) { FL_HIT_POINT, load->points[i].id, -1, (gint) index }, x, y, x, y, 1.0);
      }
}

/* A black arrowhead at the machine's own front end, pointing out of it; named in the plan. */
static void
draw_front (FlDeckDrawing *d, FlView view, const FlLoadResult *load)
{
  const gboolean forward = load->facing == FL_FORWARD;
  const double way = forward ? 1.0 : -1.0, size = 0.62 * d->em;
  const double x = fl_deck_x (d, forward ? load->outline.max.x : load->outline.min.x);
  const double low = fl_view_up (view, load->outline.min), high = fl_view_up (view, load->outline.max);
  const double y = fl_deck_up (d, view, view == FL_VIEW_PLAN ? 0.5 * (low + high) : low + 0.6 * (high - low));
  const double xy[] = { x + way * (size + 1.0), y, x + way, y - 0.62 * size, x + way, y + 0.62 * size };
  const FlSpot taken = fl_spot_about (x + way * (0.5 * size + 1.0), y, size, 1.24 * size);

  fl_marks_polygon (d->marks, xy, 3, TRUE, FL_FILLED (FL_TONE_INK));
  fl_labels_take (d->labels, taken, FALSE);
  if (view == FL_VIEW_PLAN)
    fl_deck_name (d, fl_deck_text (d, fl_words_text (d->words, N_("front of machine")), 0.85, FALSE), x + way * (0.5 * size + 1.0), y,
                  0.75 * size, FL_TONE_INK);
}

/* ── one load ── */

/* Its unit number in the plan, near the middle, on paper. */
static void
name_load (FlDeckDrawing *d, guint index, const FlLoadResult *load)
{
  const FlSpot s = fl_deck_box_spot (d, FL_VIEW_PLAN, &load->outline);
  PangoLayout *text = fl_deck_text (d, load->id, 1.15, TRUE);
  FlSpot candidates[9], taken;
  double w, h;

  fl_text_size (text, &w, &h);
  for (guint i = 0; i < G_N_ELEMENTS (candidates); i++)
    candidates[i] = fl_spot_about (s.x + s.width * (0.5 + (i % 2 == 0 ? 0.05 : -0.05) * ((i + 1) / 2)), s.y + 0.5 * s.height, w + 4.0, h);
  if (fl_labels_place (d->labels, candidates, G_N_ELEMENTS (candidates), &taken))
    fl_deck_put (d, text, taken, TRUE, FL_TONE_INK);
  else
    g_object_unref (text);
  fl_deck_add_box (d, (FlHit) { FL_HIT_LOAD, load->id, -1, (gint) index }, s);
}

static void
draw_load (FlDeckDrawing *d, guint index, const FlLoadResult *load)
{
  fl_deck_add_box (d, (FlHit) { FL_HIT_LOAD, load->id, -1, (gint) index }, fl_deck_box_spot (d, FL_VIEW_SIDE, &load->outline));
  draw_contacts (d, load);
  for (FlView view = FL_VIEW_PLAN; view <= FL_VIEW_SIDE; view++)
    {
      fl_deck_box (d, view, &load->outline, extent);
      draw_bodies (d, view, load);
      if (load->has_joint)
        draw_joint (d, view, load);
      if (load->has_cg)
        draw_cg (d, fl_deck_x (d, load->cg.x), fl_deck_up (d, view, fl_view_up (view, load->cg)));
      if (!load->article)
        draw_front (d, view, load);
    }
  if (load->has_cg)
    fl_labels_take (d->labels, fl_spot_about (fl_deck_x (d, load->cg.x), fl_deck_up (d, FL_VIEW_PLAN, load->cg.y), d->em, d->em), FALSE);
  draw_points (d, index, load);
  name_load (d, index, load);
}

/* A load without a place is named in words where it would stand. */
static void
name_unplaced (FlDeckDrawing *d, guint index, const FlLoadResult *load)
{
  g_autofree char *said = fl_card_say (d->words, N_("{load}: no place on the deck yet"), "load", load->id, NULL, NULL);
  PangoLayout *text = fl_deck_text (d, said, 1.0, TRUE);
  FlSpot taken;
  double w, h;

  fl_text_size (text, &w, &h);
  if (fl_labels_near (d->labels, 0.5 * d->layout.width, fl_deck_up (d, FL_VIEW_PLAN, 0.5 * (d->span.y0 + d->span.y1)), w + 6.0, h + 2.0, &taken))
    {
      fl_deck_put (d, text, taken, TRUE, FL_TONE_INK);
      fl_deck_add_box (d, (FlHit) { FL_HIT_LOAD, load->id, -1, (gint) index }, taken);
    }
  else
    g_object_unref (text);
}

void
fl_deck_lay_loads (FlDeckDrawing *d)
{
  const FlAssessmentParts *parts = fl_assessment_parts (d->assessment);

  for (guint i = 0; i < parts->n_loads; i++)
    if (parts->loads[i].placed)
      draw_load (d, i, &parts->loads[i]);
    else
      name_unplaced (d, i, &parts->loads[i]);
}
