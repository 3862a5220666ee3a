/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Assessments in memory: a deep copy of all that the judge found, the findings in order and the verdicts from them. */
#include "fl-assessment.h"

#include <string.h>

struct _FlAssessment
{
  gatomicrefcount references;
  FlArena *arena;
  FlAssessmentParts parts;      /* findings NULL */
  const FlFinding *findings; gsize n_findings;
  FlPlanVerdict verdict;
  FlHouseVerdict house;
};

const char *
fl_plan_verdict_id (FlPlanVerdict verdict)
{
  static const char *const ids[] = { "compliant", "incomplete", "not_compliant" };

  g_return_val_if_fail ((guint) verdict < G_N_ELEMENTS (ids), NULL);
  return ids[verdict];
}

const char *
fl_house_verdict_id (FlHouseVerdict verdict)
{
  static const char *const ids[] = { "met", "excepted", "short" };

  g_return_val_if_fail ((guint) verdict < G_N_ELEMENTS (ids), NULL);
  return ids[verdict];
}

/* ── deep copies ── */

static const FlTieResult *
copy_ties (FlArena *arena, const FlTieResult *ties, gsize n)
{
  FlTieResult *copy = fl_arena_new0 (arena, FlTieResult, n);

  for (gsize i = 0; i < n; i++)
    {
      copy[i] = ties[i];
      copy[i].path = ties[i].n_path > 0 ? fl_arena_copy (arena, ties[i].path, ties[i].n_path * sizeof (FlVec)) : NULL;
      copy[i].limited_by = fl_arena_text (arena, ties[i].limited_by);
      copy[i].gear_text = fl_arena_text (arena, ties[i].gear_text);
    }
  return copy;
}

static const FlPlacedBox *
copy_boxes (FlArena *arena, const FlPlacedBox *boxes, gsize n)
{
  FlPlacedBox *copy = fl_arena_new0 (arena, FlPlacedBox, n);

  for (gsize i = 0; i < n; i++)
    copy[i] = (FlPlacedBox) { fl_arena_text (arena, boxes[i].name), boxes[i].box };
  return copy;
}

static const FlPlacedPoint *
copy_points (FlArena *arena, const FlPlacedPoint *points, gsize n)
{
  FlPlacedPoint *copy = fl_arena_new0 (arena, FlPlacedPoint, n);

  for (gsize i = 0; i < n; i++)
    {
      copy[i] = points[i];
      copy[i].id = fl_arena_text (arena, points[i].id);
      copy[i].name = fl_arena_text (arena, points[i].name);
    }
  return copy;
}

static const FlLoadResult *
copy_loads (FlArena *arena, const FlLoadResult *loads, gsize n)
{
  FlLoadResult *copy = fl_arena_new0 (arena, FlLoadResult, n);

  for (gsize i = 0; i < n; i++)
    {
      copy[i] = loads[i];
      copy[i].id = fl_arena_text (arena, loads[i].id);
      copy[i].name = fl_arena_text (arena, loads[i].name);
      copy[i].kind = fl_arena_text (arena, loads[i].kind);
      copy[i].position = fl_arena_text (arena, loads[i].position);
      copy[i].weight_basis = fl_arena_text (arena, loads[i].weight_basis);
      copy[i].weakest = fl_arena_text (arena, loads[i].weakest);
      copy[i].contacts = copy_boxes (arena, loads[i].contacts, loads[i].n_contacts);
      copy[i].solids = copy_boxes (arena, loads[i].solids, loads[i].n_solids);
      copy[i].keep_clear = copy_boxes (arena, loads[i].keep_clear, loads[i].n_keep_clear);
      copy[i].points = copy_points (arena, loads[i].points, loads[i].n_points);
    }
  return copy;
}

static const FlForceResult *
copy_forces (FlArena *arena, const FlForceResult *forces, gsize n)
{
  FlForceResult *copy = fl_arena_new0 (arena, FlForceResult, n);

  for (gsize i = 0; i < n; i++)
    {
      copy[i] = forces[i];
      copy[i].case_id = fl_arena_text (arena, forces[i].case_id);
      copy[i].level = fl_arena_text (arena, forces[i].level);
      copy[i].friction = fl_arena_text (arena, forces[i].friction);
      copy[i].method = fl_arena_text (arena, forces[i].method);
      copy[i].mode = fl_arena_text (arena, forces[i].mode);
      copy[i].at_limit = forces[i].n_at_limit > 0 ? fl_arena_copy (arena, forces[i].at_limit, forces[i].n_at_limit * sizeof (guint)) : NULL;
    }
  return copy;
}

static const FlTensionResult *
copy_tensions (FlArena *arena, const FlTensionResult *tensions, gsize n)
{
  FlTensionResult *copy = fl_arena_new0 (arena, FlTensionResult, n);

  for (gsize i = 0; i < n; i++)
    {
      copy[i] = tensions[i];
      copy[i].case_id = fl_arena_text (arena, tensions[i].case_id);
      copy[i].level = fl_arena_text (arena, tensions[i].level);
      copy[i].friction = fl_arena_text (arena, tensions[i].friction);
    }
  return copy;
}

static const FlAxleResult *
copy_axles (FlArena *arena, const FlAxleResult *axles, gsize n)
{
  FlAxleResult *copy = fl_arena_new0 (arena, FlAxleResult, n);

  for (gsize i = 0; i < n; i++)
    {
      copy[i] = axles[i];
      copy[i].axle = fl_arena_text (arena, axles[i].axle);
    }
  return copy;
}

static const FlRecord *const *
copy_records (FlArena *arena, const FlRecord *const *records, gsize n)
{
  const FlRecord **copy = fl_arena_new0 (arena, const FlRecord *, n);

  for (gsize i = 0; i < n; i++)
    copy[i] = fl_record_ref (records[i]);
  return copy;
}

static void
copy_parts (FlArena *arena, FlAssessmentParts *copy, const FlAssessmentParts *parts)
{
  *copy = *parts;
  copy->plan = fl_plan_ref (parts->plan);
  copy->fleet_name = fl_arena_text (arena, parts->fleet_name);
  copy->book.id = fl_arena_text (arena, parts->book.id);
  copy->book.title = fl_arena_text (arena, parts->book.title);
  copy->book.edition = fl_arena_text (arena, parts->book.edition);
  copy->book.sha256 = fl_arena_text (arena, parts->book.sha256);
  copy->ties = copy_ties (arena, parts->ties, parts->n_ties);
  copy->loads = copy_loads (arena, parts->loads, parts->n_loads);
  copy->forces = copy_forces (arena, parts->forces, parts->n_forces);
  copy->tensions = copy_tensions (arena, parts->tensions, parts->n_tensions);
  copy->axles = copy_axles (arena, parts->axles, parts->n_axles);
  copy->cautions = fl_messages_copy (parts->cautions, parts->n_cautions, arena);
  copy->walk_round = fl_messages_copy (parts->walk_round, parts->n_walk_round, arena);
  copy->records = copy_records (arena, parts->records, parts->n_records);
  copy->findings = NULL;
}

/* ── findings and verdicts ── */

/* Worst verdict first, then by standing, then as found: one pass for each pair keeps the last without a stable sort. */
static void
sort_findings (FlAssessment *assessment, const FlFindings *findings)
{
  const gsize n = findings != NULL ? fl_findings_count (findings) : 0;
  FlFinding *sorted = fl_arena_new0 (assessment->arena, FlFinding, n);
  gsize filled = 0;

  for (gint verdict = FL_N_VERDICTS - 1; verdict >= 0; verdict--)
    for (gint standing = 0; standing < FL_N_STANDINGS; standing++)
      for (gsize i = 0; i < n && filled < n; i++)
        {
          const FlFinding *finding = fl_findings_at (findings, i);

          if ((gint) finding->verdict == verdict && (gint) finding->standing == standing)
            sorted[filled++] = fl_finding_copy (finding, assessment->arena);
        }
  assessment->findings = sorted;
  assessment->n_findings = filled;
}

/* TRUE if the finding keeps a requirement from being met: too little, or nobody knows. */
static gboolean
stands_against (const FlFinding *finding)
{
  return finding->verdict == FL_SHORT || finding->verdict == FL_UNKNOWN;
}

static gboolean
of_the_road (FlStanding standing)
{
  return standing == FL_BY_LAW || standing == FL_BY_RATING || standing == FL_BY_PRACTICE;
}

static FlPlanVerdict
draw_verdict (const FlAssessment *assessment)
{
  FlPlanVerdict verdict = FL_COMPLIANT;

  for (gsize i = 0; i < assessment->n_findings; i++)
    {
      const FlFinding *finding = &assessment->findings[i];

      if (!of_the_road (finding->standing) || !stands_against (finding))
        continue;
      verdict = MAX (verdict, finding->verdict == FL_SHORT ? FL_NOT_COMPLIANT : FL_INCOMPLETE);
    }
  return verdict;
}

/* An exception covers its rule: on every subject where it names none. */
static gboolean
excepted (const FlPlanChoices *choices, const FlFinding *finding)
{
  for (gsize i = 0; i < choices->n_exceptions; i++)
    {
      const FlReason *exception = &choices->exceptions[i];

      if (g_strcmp0 (exception->rule, finding->rule) == 0
          && (exception->subject == NULL || *exception->subject == '\0'
              || g_strcmp0 (exception->subject, finding->subject) == 0))
        return TRUE;
    }
  return FALSE;
}

static FlHouseVerdict
draw_house (const FlAssessment *assessment)
{
  const FlPlanChoices *choices = fl_plan_choices (assessment->parts.plan);
  FlHouseVerdict house = FL_HOUSE_MET;

  for (gsize i = 0; i < assessment->n_findings; i++)
    {
      const FlFinding *finding = &assessment->findings[i];

      if (finding->standing == FL_BY_HOUSE && stands_against (finding))
        house = MAX (house, excepted (choices, finding) ? FL_HOUSE_EXCEPTED : FL_HOUSE_SHORT);
    }
  return house;
}

/* ── life ── */

FlAssessment *
fl_assessment_new (const FlAssessmentParts *parts)
{
  FlAssessment *assessment = g_new0 (FlAssessment, 1);

  g_atomic_ref_count_init (&assessment->references);
  assessment->arena = fl_arena_new ();
  copy_parts (assessment->arena, &assessment->parts, parts);
  sort_findings (assessment, parts->findings);
  assessment->verdict = draw_verdict (assessment);
  assessment->house = draw_house (assessment);
  return assessment;
}

FlAssessment *
fl_assessment_ref (const FlAssessment *assessment)
{
  FlAssessment *self = (FlAssessment *) assessment;

  g_atomic_ref_count_inc (&self->references);
  return self;
}

void
fl_assessment_unref (FlAssessment *assessment)
{
  if (assessment == NULL || !g_atomic_ref_count_dec (&assessment->references))
    return;
  for (gsize i = 0; i < assessment->parts.n_records; i++)
    fl_record_unref ((FlRecord *) assessment->parts.records[i]);
  fl_plan_unref ((FlPlan *) assessment->parts.plan);
  fl_arena_free (assessment->arena);
  g_free (assessment);
}

/* ── what it holds ── */

const FlAssessmentParts *
fl_assessment_parts (const FlAssessment *assessment)
{
  return &assessment->parts;
}

const FlPlan *
fl_assessment_plan (const FlAssessment *assessment)
{
  return assessment->parts.plan;
}

const FlFinding *
fl_assessment_findings (const FlAssessment *assessment, gsize *n)
{
  *n = assessment->n_findings;
  return assessment->findings;
}

FlVerdict
fl_assessment_worst (const FlAssessment *assessment, FlStanding standing)
{
  for (gsize i = 0; i < assessment->n_findings; i++)
    if (assessment->findings[i].standing == standing)
      return assessment->findings[i].verdict;   /* the worst comes first */
  return FL_MET;
}

FlPlanVerdict
fl_assessment_verdict (const FlAssessment *assessment)
{
  return assessment->verdict;
}

FlHouseVerdict
fl_assessment_house (const FlAssessment *assessment)
{
  return assessment->house;
}

gboolean
fl_assessment_stands (const FlAssessment *assessment)
{
  return assessment->verdict == FL_COMPLIANT && assessment->house != FL_HOUSE_SHORT;
}

/* The length of an id without the number of one piece: "C-3/8-20 #3" is a piece of "C-3/8-20". */
static gsize
record_id_length (const char *id)
{
  const char *mark = strstr (id, " #");

  return mark != NULL ? (gsize) (mark - id) : strlen (id);
}

const FlRecord *
fl_assessment_record (const FlAssessment *assessment, FlKind kind, const char *id)
{
  const gsize length = record_id_length (id);

  for (gsize i = 0; i < assessment->parts.n_records; i++)
    {
      const FlRecord *record = assessment->parts.records[i];
      const char *its = fl_record_id (record);

      if (fl_record_kind (record) == kind && strlen (its) == length && strncmp (its, id, length) == 0)
        return record;
    }
  return NULL;
}

const FlMove *
fl_assessment_move (const FlAssessment *assessment)
{
  const char *id = fl_plan_choices (assessment->parts.plan)->move;
  const FlRecord *record = id != NULL ? fl_assessment_record (assessment, FL_KIND_MOVE, id) : NULL;

  return record != NULL ? fl_record_move (record) : NULL;
}

const FlTrailer *
fl_assessment_trailer (const FlAssessment *assessment)
{
  const char *id = fl_plan_choices (assessment->parts.plan)->trailer;
  const FlRecord *record = id != NULL ? fl_assessment_record (assessment, FL_KIND_TRAILER, id) : NULL;

  return record != NULL ? fl_record_trailer (record) : NULL;
}
