/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The order of plans: see fl-planner.h and fl-score.h. */
#include "fl-score.h"

#include <math.h>
#include <string.h>

#include "fl-pairing.h"

int
fl_score_compare (const FlScore *a, const FlScore *b)
{
#define COMPARE(member) if (a->member != b->member) return a->member < b->member ? -1 : 1
  COMPARE (cautions);
  COMPARE (pairs);
  COMPARE (tie_downs);
  COMPARE (unmirrored);
  COMPARE (strength_lb);
  COMPARE (angle_mdeg2);
  COMPARE (coupling_off_lb);
#undef COMPARE
  return 0;
}

static gboolean
has_mirror (const FlScored *ties, guint n, guint i)
{
  for (guint k = 0; k < n; k++)
    if (k != i && ties[k].load == ties[i].load && ties[k].own == ties[i].own && ties[k].strap == ties[i].strap
        && fl_mirror_images (ties[k].point, ties[i].point) && fl_mirror_images (ties[k].anchor, ties[i].anchor))
      return TRUE;
  return FALSE;
}

static gint32
pairs_of (const FlScored *ties, guint n, guint load)
{
  gint32 left = 0, right = 0;

  for (guint i = 0; i < n; i++)
    if (ties[i].load == load && ties[i].own)
      {
        left += ties[i].anchor.y > 0.0;
        right += ties[i].anchor.y <= 0.0;
      }
  return 2 * MAX (left, right);
}

static gint64
thousandths_squared (double degrees)
{
  gint64 m = (gint64) llround (degrees * 1000.0);

  return m * m;
}

static gint64
angle_of (const FlScored *tie, const FlBookData *data)
{
  double off = MAX (0.0, MAX (data->deck_best_lo - tie->deck, tie->deck - data->deck_best_hi));

  if (isnan (tie->deck) || isnan (tie->plan))
    return 0;
  return thousandths_squared (off) + thousandths_squared (tie->plan - data->plan_best);
}

FlScore
fl_score_sum (const FlScored *ties, guint n, const FlBookData *data)
{
  FlScore score = { .tie_downs = (gint32) n };
  double strength = 0.0;
  guint loads = 0;

  for (guint i = 0; i < n; i++)
    {
      loads = MAX (loads, ties[i].load + 1);
      score.unmirrored += ties[i].own && !has_mirror (ties, n, i);
      strength += ties[i].strength;
      score.angle_mdeg2 += angle_of (&ties[i], data);
    }
  for (guint load = 0; load < loads; load++)
    score.pairs += pairs_of (ties, n, load);
  score.strength_lb = (gint64) llround (strength);
  return score;
}

gint64
fl_score_coupling (double load_lb, double share, double lo, double hi)
{
  if (!isfinite (load_lb) || !isfinite (share) || share <= 0.0 || isnan (lo) || isnan (hi))
    return 0;
  return (gint64) llround (fabs (load_lb - load_lb / share * (lo + hi) / 2));
}

/* ── of a judged plan ── */

/* The kinds of caution that a choice can change, by the requirement that says them. */
static const char *const kinds[] = { FL_SCORE_FORCE, FL_SCORE_ALL_DIRECTIONS, "point_choice", "deck_angle", "plan_angle", "edge_protection", "chains_apart",
                                     "mixed_gear", "over_body", "coupling_share", FL_SCORE_PLACEMENT };

gboolean
fl_score_cautioned (const FlAssessment *assessment, const char *rule)
{
  gsize n;
  const FlFinding *findings = fl_assessment_findings (assessment, &n);

  for (gsize i = 0; i < n; i++)
    if (findings[i].verdict == FL_CAUTION && strcmp (findings[i].rule, rule) == 0)
      return TRUE;
  return FALSE;
}

static gint32
caution_kinds (const FlAssessment *assessment)
{
  gint32 count = 0;

  for (gsize k = 0; k < G_N_ELEMENTS (kinds); k++)
    count += fl_score_cautioned (assessment, kinds[k]);
  return count;
}

static double
limit_lb (const FlAssessment *assessment, const FlBook *book, FlKind kind, const char *id)
{
  g_autofree char *base = id != NULL ? g_strndup (id, strcspn (id, "#")) : NULL;
  const FlRecord *record;
  FlRating rating;

  if (base == NULL)
    return 0.0;
  record = fl_assessment_record (assessment, kind, g_strstrip (base));
  if (record == NULL)
    return 0.0;
  rating = fl_rate_record (book, record);
  return rating.in_use && fl_quantity_known (rating.wll) ? fl_quantity_in (rating.wll, FL_UNIT_LB) : 0.0;
}

static FlScored
scored (const FlAssessment *assessment, const FlBook *book, const FlTieDown *tie, const FlTieResult *result)
{
  FlScored s = { tie->load, tie->purpose == FL_FOR_LOAD, tie->strap != NULL, { 0, 0, 0 }, { 0, 0, 0 },
                 fl_quantity_in (result->deck_angle, FL_UNIT_DEG), fl_quantity_in (result->plan_angle, FL_UNIT_DEG), 0.0 };

  if (result->n_path >= 2)
    {
      s.point = result->path[tie->over ? 1 : 0];
      s.anchor = result->path[result->n_path - 1];
    }
  s.strength = limit_lb (assessment, book, FL_KIND_CHAIN, tie->chain) + limit_lb (assessment, book, FL_KIND_BINDER, tie->binder)
               + limit_lb (assessment, book, FL_KIND_STRAP, tie->strap);
  for (guint i = 0; i < tie->n_connectors; i++)
    s.strength += limit_lb (assessment, book, FL_KIND_CONNECTOR, tie->connectors[i].id);
  return s;
}

static gint64
coupling_off (const FlAssessment *assessment, const FlBook *book)
{
  const FlAssessmentParts *parts = fl_assessment_parts (assessment);
  const FlTrailer *trailer = fl_assessment_trailer (assessment);

  for (gsize i = 0; i < parts->n_axles && trailer != NULL; i++)
    if (strcmp (parts->axles[i].axle, "coupling") == 0)
      {
        double lo, hi;

        fl_book_band (book, trailer, &lo, &hi);
        return fl_score_coupling (fl_quantity_in (parts->axles[i].load, FL_UNIT_LB), parts->axles[i].share_pct / 100.0, lo / 100.0, hi / 100.0);
      }
  return 0;
}

FlScore
fl_score_of (const FlAssessment *assessment, const FlBook *book)
{
  const FlAssessmentParts *parts = fl_assessment_parts (assessment);
  const FlPlanChoices *choices = fl_plan_choices (parts->plan);
  g_autofree FlScored *ties = g_new0 (FlScored, parts->n_ties + 1);
  FlScore score;

  for (gsize i = 0; i < parts->n_ties; i++)
    ties[i] = scored (assessment, book, &choices->tie_downs[i], &parts->ties[i]);
  score = fl_score_sum (ties, (guint) parts->n_ties, fl_book_data (book));
  score.cautions = caution_kinds (assessment);
  score.coupling_off_lb = coupling_off (assessment, book);
  return score;
}
