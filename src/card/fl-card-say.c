/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Phrases: lengths, weights, anchors, points. */
#include "fl-card-say.h"

#include <math.h>
#include <string.h>

#define STEP_SLACK 1e-6         /* of a step: what unit conversions leave over is not rounded up to another inch */

static gint64
whole (double steps, FlRounding rounding)
{
  switch (rounding)
    {
    case FL_ROUND_UP:
      return (gint64) ceil (steps - STEP_SLACK);
    case FL_ROUND_DOWN:
      return (gint64) floor (steps + STEP_SLACK);
    case FL_ROUND_NEAREST:
      break;
    }
  return (gint64) floor (steps + 0.5 + STEP_SLACK);
}

char *
fl_say_length (double metres, gboolean metric, FlRounding rounding)
{
  const char *sign;
  gint64 n;

  if (!(fabs (metres) < 1e6))
    return g_strdup ("?");
  n = whole (metric ? metres * 100.0 : metres / FL_M_PER_IN, rounding);
  sign = n < 0 ? "-" : "";
  n = n < 0 ? -n : n;
  if (metric)
    return g_strdup_printf ("%s%" G_GINT64_FORMAT ".%02d m", sign, n / 100, (int) (n % 100));
  if (n < 12)
    return g_strdup_printf ("%s%d in", sign, (int) n);
  return g_strdup_printf ("%s%" G_GINT64_FORMAT " ft %d in", sign, n / 12, (int) (n % 12));
}

char *
fl_say_size (const FlWords *words, FlQuantity size, gboolean metric, FlRounding rounding)
{
  if (!fl_quantity_known (size))
    return g_strdup (fl_words_text (words, N_("not measured")));
  return fl_say_length (fl_quantity_in (size, FL_UNIT_M), metric, rounding);
}

char *
fl_say_weight (const FlWords *words, FlQuantity weight, gboolean metric, FlRounding rounding)
{
  if (!fl_quantity_known (weight))
    return g_strdup (fl_words_text (words, N_("not known")));
  return fl_quantity_format (weight, metric, FALSE, rounding);
}

char *
fl_say_bare (FlQuantity weight, gboolean metric, FlRounding rounding)
{
  char *text, *unit;

  if (!fl_quantity_known (weight))
    return g_strdup ("?");
  text = fl_quantity_format (weight, metric, FALSE, rounding);
  unit = strrchr (text, ' ');
  if (unit != NULL)
    *unit = '\0';
  return text;
}

char *
fl_card_say (const FlWords *words, const char *message, const char *key, const char *text, const char *key2, const char *text2)
{
  const FlFact facts[] = { FL_FACT_TEXT (key, text != NULL ? text : ""), FL_FACT_TEXT (key2 != NULL ? key2 : "-", text2 != NULL ? text2 : "") };

  return fl_words_message (words, message, facts, G_N_ELEMENTS (facts), FALSE);
}

/* ── anchors ── */

typedef struct { const char *fitting, *counted, *alone; } FittingWords;

static const FittingWords anchor_words[] = {
  { "stake_pocket", N_("pocket {n} from the rear, {side}"), N_("pocket, {side}") },
  { "d_ring", N_("D-ring {n} from the rear, {side}"), N_("D-ring, {side}") },
  { "rub_rail", N_("rub rail {n} from the rear, {side}"), N_("rub rail, {side}") },
  { "chain_slot", N_("chain slot {n} from the rear, {side}"), N_("chain slot, {side}") },
  { "lashing_ring", N_("lashing ring {n} from the rear, {side}"), N_("lashing ring, {side}") },
  { "bracket", N_("bracket {n} from the rear, {side}"), N_("bracket, {side}") },
};
static const FittingWords any_anchor = { "", N_("anchor {n} from the rear, {side}"), N_("anchor, {side}") };

static const char *
side_word (const FlWords *words, char side)
{
  return fl_words_text (words, side == 'L' ? N_("left") : side == 'R' ? N_("right") : N_("center"));
}

static gboolean
same_line (const FlAnchor *a, const FlAnchor *b)
{
  return a->side == b->side && g_strcmp0 (a->fitting, b->fitting) == 0;
}

char *
fl_say_anchor (const FlWords *words, const FlTrailer *trailer, const char *id)
{
  const FlAnchor *anchor = trailer != NULL && id != NULL ? fl_trailer_anchor (trailer, id) : NULL;
  const FittingWords *said = &any_anchor;
  g_autofree char *number = NULL;
  guint behind = 0, all = 0;

  if (anchor == NULL)
    return g_strdup (id != NULL ? id : "?");
  for (gsize i = 0; i < G_N_ELEMENTS (anchor_words); i++)
    if (g_strcmp0 (anchor->fitting, anchor_words[i].fitting) == 0)
      said = &anchor_words[i];
  for (gsize i = 0; i < trailer->n_anchors; i++)
    if (same_line (&trailer->anchors[i], anchor))
      {
        all++;
        behind += fl_quantity_in (trailer->anchors[i].x, FL_UNIT_M) < fl_quantity_in (anchor->x, FL_UNIT_M) ? 1 : 0;
      }
  number = g_strdup_printf ("%u", behind + 1);
  return fl_card_say (words, all > 1 ? said->counted : said->alone, "n", number, "side", side_word (words, anchor->side));
}

/* ── points of a machine ── */

char *
fl_say_where (const FlWords *words, const FlLoadResult *load, const char *point)
{
  static const char *const places[3][3] = {
    { N_("rear end, right"), N_("rear end, center"), N_("rear end, left") },
    { N_("middle, right"), N_("middle"), N_("middle, left") },
    { N_("truck end, right"), N_("truck end, center"), N_("truck end, left") },
  };
  const double near_middle = 0.05;

  for (gsize i = 0; load != NULL && load->placed && i < load->n_points; i++)
    if (g_strcmp0 (load->points[i].id, point) == 0)
      {
        const FlBox *box = &load->outline;
        const double length = box->max.x - box->min.x, y = load->points[i].at.y - 0.5 * (box->min.y + box->max.y);
        const double along = length > 0.0 ? (load->points[i].at.x - box->min.x) / length : 0.5;

        return g_strdup (fl_words_text (words, places[along < 1.0 / 3.0 ? 0 : along <= 2.0 / 3.0 ? 1 : 2][y < -near_middle ? 0 : y <= near_middle ? 1 : 2]));
      }
  return g_strdup ("");
}

static const struct { const char *fitting, *word; } point_words[] = {
  { "lug", N_("lug") }, { "loop", N_("loop") }, { "eye", N_("eye") }, { "hook", N_("hook") }, { "slot", N_("slot") },
  { "drawbar", N_("drawbar") }, { "axle", N_("axle") }, { "frame", N_("frame") }, { "track", N_("track") },
};

char *
fl_say_point (const FlWords *words, const FlMachine *machine, const char *id)
{
  const FlTiePoint *point = machine != NULL && id != NULL ? fl_machine_point (machine, id) : NULL;

  if (point == NULL)
    return g_strdup (id != NULL ? id : "?");
  if (point->name != NULL)
    return g_strdup (point->name);
  for (gsize i = 0; i < G_N_ELEMENTS (point_words); i++)
    if (g_strcmp0 (point->fitting, point_words[i].fitting) == 0)
      return g_strdup_printf ("%s %s", fl_words_text (words, point_words[i].word), id);
  return g_strdup (id);
}

const FlMachine *
fl_load_machine (const FlAssessment *assessment, guint load)
{
  const FlPlanChoices *choices = fl_plan_choices (fl_assessment_plan (assessment));
  const FlPlanLoad *chosen = load < choices->n_loads ? &choices->loads[load] : NULL;
  const FlRecord *record;
  const FlMachine *machine, *placed;

  if (chosen == NULL)
    return NULL;
  record = fl_assessment_record (assessment, chosen->article ? FL_KIND_ARTICLE : FL_KIND_MACHINE, chosen->id);
  machine = record != NULL ? fl_record_machine (record) : NULL;
  placed = machine != NULL ? fl_machine_in_position (machine, chosen->position) : NULL;
  return placed != NULL ? placed : machine;
}
