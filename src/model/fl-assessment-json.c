/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The plan document with its results: rounded numbers, findings in English. Same input, same bytes. */
#include "fl-assessment.h"

#include <math.h>

#include "fl-json.h"
#include "fl-words.h"

/* A result: in the house's unit and rounded to the nearest step. */
static void
write_rounded (FlJsonWriter *writer, const char *key, FlQuantity quantity, gboolean metric)
{
  fl_json_writer_quantity (writer, key, fl_quantity_rounded (quantity, metric, FL_ROUND_NEAREST));
}

static void
write_book (FlJsonWriter *writer, const FlBookStamp *book)
{
  fl_json_writer_begin_object (writer, "rule_book");
  fl_json_writer_optional (writer, "id", book->id);
  fl_json_writer_optional (writer, "edition", book->edition);
  fl_json_writer_optional (writer, "sha256", book->sha256);
  fl_json_writer_end_object (writer);
}

static void
write_tie_downs (FlJsonWriter *writer, const FlAssessmentParts *parts)
{
  fl_json_writer_begin_list (writer, "tie_downs");
  for (gsize i = 0; i < parts->n_ties; i++)
    {
      const FlTieResult *tie = &parts->ties[i];

      fl_json_writer_begin_object (writer, NULL);
      fl_json_writer_number (writer, "no", tie->no);
      write_rounded (writer, "wll", tie->wll, parts->metric);
      fl_json_writer_optional (writer, "limited_by", tie->limited_by);
      write_rounded (writer, "counts", tie->counts, parts->metric);
      write_rounded (writer, "run", tie->run, parts->metric);
      write_rounded (writer, "needs", tie->needs, parts->metric);
      write_rounded (writer, "deck_angle", tie->deck_angle, parts->metric);
      write_rounded (writer, "plan_angle", tie->plan_angle, parts->metric);
      fl_json_writer_end_object (writer);
    }
  fl_json_writer_end_list (writer);
}

static void
write_sums (FlJsonWriter *writer, const FlAssessmentParts *parts)
{
  fl_json_writer_begin_list (writer, "sums");
  for (gsize i = 0; i < parts->n_loads; i++)
    {
      const FlLoadResult *load = &parts->loads[i];

      fl_json_writer_begin_object (writer, NULL);
      fl_json_writer_number (writer, "load", (double) i);
      write_rounded (writer, "weight", load->weight, parts->metric);
      write_rounded (writer, "need", load->need, parts->metric);
      write_rounded (writer, "have", load->have, parts->metric);
      fl_json_writer_optional (writer, "weakest", load->weakest);
      fl_json_writer_end_object (writer);
    }
  fl_json_writer_end_list (writer);
}

static void
write_at_limit (FlJsonWriter *writer, const FlForceResult *force)
{
  if (force->n_at_limit == 0)
    return;
  fl_json_writer_begin_list (writer, "at_limit");
  for (gsize i = 0; i < force->n_at_limit; i++)
    fl_json_writer_number (writer, NULL, force->at_limit[i]);
  fl_json_writer_end_list (writer);
}

static void
write_force (FlJsonWriter *writer, const FlAssessmentParts *parts)
{
  if (parts->n_forces == 0)
    return;
  fl_json_writer_begin_list (writer, "force");
  for (gsize i = 0; i < parts->n_forces; i++)
    {
      const FlForceResult *force = &parts->forces[i];

      fl_json_writer_begin_object (writer, NULL);
      fl_json_writer_number (writer, "load", force->load);
      fl_json_writer_optional (writer, "case", force->case_id);
      fl_json_writer_optional (writer, "level", force->level);
      fl_json_writer_optional (writer, "friction", force->friction);
      fl_json_writer_optional (writer, "method", force->method);
      write_rounded (writer, "demand", force->demand, parts->metric);
      write_rounded (writer, "capacity", force->capacity, parts->metric);
      fl_json_writer_optional (writer, "mode", force->mode);
      write_at_limit (writer, force);
      write_rounded (writer, "moved", force->moved, parts->metric);
      write_rounded (writer, "turned", force->turned, parts->metric);
      fl_json_writer_end_object (writer);
    }
  fl_json_writer_end_list (writer);
}

static void
write_tensions (FlJsonWriter *writer, const FlAssessmentParts *parts)
{
  if (parts->n_tensions == 0)
    return;
  fl_json_writer_begin_list (writer, "tensions");
  for (gsize i = 0; i < parts->n_tensions; i++)
    {
      const FlTensionResult *tension = &parts->tensions[i];

      fl_json_writer_begin_object (writer, NULL);
      fl_json_writer_number (writer, "load", tension->load);
      fl_json_writer_optional (writer, "case", tension->case_id);
      fl_json_writer_optional (writer, "level", tension->level);
      fl_json_writer_optional (writer, "friction", tension->friction);
      fl_json_writer_number (writer, "no", tension->no);
      write_rounded (writer, "tension", tension->tension, parts->metric);
      if (isfinite (tension->use))      /* to a thousandth, as accelerations are */
        fl_json_writer_number (writer, "use", round (tension->use * 1000.0) / 1000.0);
      fl_json_writer_end_object (writer);
    }
  fl_json_writer_end_list (writer);
}

static void
write_axles (FlJsonWriter *writer, const FlAssessmentParts *parts)
{
  if (parts->n_axles == 0)
    return;
  fl_json_writer_begin_list (writer, "axles");
  for (gsize i = 0; i < parts->n_axles; i++)
    {
      const FlAxleResult *axle = &parts->axles[i];

      fl_json_writer_begin_object (writer, NULL);
      fl_json_writer_optional (writer, "axle", axle->axle);
      write_rounded (writer, "load", axle->load, parts->metric);
      write_rounded (writer, "rated", axle->rated, parts->metric);
      if (!isnan (axle->share_pct))     /* to a tenth, as in the document's example */
        fl_json_writer_number (writer, "share_pct", round (axle->share_pct * 10.0) / 10.0);
      fl_json_writer_end_object (writer);
    }
  fl_json_writer_end_list (writer);
}

static void
write_sizes (FlJsonWriter *writer, const FlAssessmentParts *parts)
{
  const FlSizes *sizes = &parts->sizes;

  if (!fl_quantity_known (sizes->height) && !fl_quantity_known (sizes->width) && !fl_quantity_known (sizes->length)
      && !fl_quantity_known (sizes->gross))
    return;
  fl_json_writer_begin_object (writer, "sizes");
  write_rounded (writer, "height", sizes->height, parts->metric);
  write_rounded (writer, "width", sizes->width, parts->metric);
  write_rounded (writer, "length", sizes->length, parts->metric);
  write_rounded (writer, "gross", sizes->gross, parts->metric);
  fl_json_writer_end_object (writer);
}

/* ── findings ── */

/* The unit's name where it stands as a value; what is counted has no suffix in a key but still a name here. */
static const char *
unit_name (FlUnit unit)
{
  const char *suffix = fl_unit_suffix (unit);

  if (*suffix != '\0')
    return suffix;
  return unit == FL_UNIT_COUNT ? "count" : unit == FL_UNIT_SHARE ? "share" : NULL;
}

/* A need or have in the one unit of the finding; null where it was looked at and there is none, nothing where nobody
 * looked. */
static void
write_side (FlJsonWriter *writer, const char *key, FlQuantity quantity, FlUnit unit)
{
  const double value = fl_quantity_in (quantity, unit);

  if (fl_quantity_is_none (quantity))
    fl_json_writer_null (writer, key);
  else if (isfinite (value))
    fl_json_writer_number (writer, key, value);
}

static void
write_need_and_have (FlJsonWriter *writer, const FlFinding *finding, gboolean metric)
{
  const FlQuantity need = fl_quantity_rounded (finding->need, metric, FL_ROUND_NEAREST);
  const FlQuantity have = fl_quantity_rounded (finding->have, metric, FL_ROUND_NEAREST);
  const FlUnit unit = fl_quantity_known (need) ? need.unit : have.unit;
  const char *name = fl_quantity_known (need) || fl_quantity_known (have) ? unit_name (unit) : NULL;

  write_side (writer, "need", need, unit);
  write_side (writer, "have", have, unit);
  fl_json_writer_optional (writer, "unit", name);
}

/* How its figures come about, a line each. */
static void
write_steps (FlJsonWriter *writer, const FlFinding *finding, gboolean metric)
{
  if (finding->n_steps == 0)
    return;
  fl_json_writer_begin_list (writer, "steps");
  for (gsize i = 0; i < finding->n_steps; i++)
    {
      const FlMessage *step = &finding->steps[i];
      g_autofree char *text = fl_words_message (NULL, step->message, step->facts, step->n_facts, metric);

      fl_json_writer_text (writer, NULL, text);
    }
  fl_json_writer_end_list (writer);
}

static void
write_finding (FlJsonWriter *writer, const FlFinding *finding, gboolean metric)
{
  g_autofree char *text = fl_words_finding (NULL, finding, metric);

  fl_json_writer_begin_object (writer, NULL);
  fl_json_writer_text (writer, "rule", finding->rule);
  fl_json_writer_text (writer, "standing", fl_standing_id (finding->standing));
  fl_json_writer_optional (writer, "citation", finding->citation);
  fl_json_writer_optional (writer, "subject", finding->subject);
  write_need_and_have (writer, finding, metric);
  fl_json_writer_text (writer, "verdict", fl_verdict_id (finding->verdict));
  fl_json_writer_optional (writer, "basis", finding->basis);
  fl_json_writer_text (writer, "text", text);
  write_steps (writer, finding, metric);
  fl_json_writer_end_object (writer);
}

static void
write_findings (FlJsonWriter *writer, const FlAssessment *assessment, gboolean metric)
{
  gsize n;
  const FlFinding *findings = fl_assessment_findings (assessment, &n);

  fl_json_writer_begin_list (writer, "findings");
  for (gsize i = 0; i < n; i++)
    write_finding (writer, &findings[i], metric);
  fl_json_writer_end_list (writer);
}

/* ── what is said besides ── */

/* Distances and times as the book has them: a schedule in miles is not made better by inches. */
static void
write_recheck (FlJsonWriter *writer, const FlRecheck *recheck)
{
  if (!fl_quantity_known (recheck->within) && !fl_quantity_known (recheck->then_time)
      && !fl_quantity_known (recheck->then_distance) && !recheck->duty_change)
    return;
  fl_json_writer_begin_object (writer, "recheck");
  fl_json_writer_quantity (writer, "within", recheck->within);
  fl_json_writer_quantity (writer, "then_time", recheck->then_time);
  fl_json_writer_quantity (writer, "then_distance", recheck->then_distance);
  fl_json_writer_flag (writer, "duty_change", recheck->duty_change);
  fl_json_writer_end_object (writer);
}

static void
write_cautions (FlJsonWriter *writer, const FlAssessmentParts *parts)
{
  if (parts->n_cautions == 0)
    return;
  fl_json_writer_begin_list (writer, "cautions");
  for (gsize i = 0; i < parts->n_cautions; i++)
    {
      const FlMessage *caution = &parts->cautions[i];
      g_autofree char *text = NULL;

      text = fl_words_message (NULL, caution->message, caution->facts, caution->n_facts, parts->metric);
      fl_json_writer_text (writer, NULL, text);
    }
  fl_json_writer_end_list (writer);
}

/* The records of one kind, under their list's name and byte for byte. */
static void
write_records_of (FlJsonWriter *writer, const FlAssessmentParts *parts, FlKind kind)
{
  gboolean open = FALSE;

  for (gsize i = 0; i < parts->n_records; i++)
    {
      gsize length;
      const char *text;

      if (fl_record_kind (parts->records[i]) != kind)
        continue;
      if (!open)
        fl_json_writer_begin_list (writer, fl_kind_list (kind));
      open = TRUE;
      text = fl_record_text (parts->records[i], &length);
      fl_json_writer_raw (writer, NULL, text, length);
    }
  if (open)
    fl_json_writer_end_list (writer);
}

/* The house's policy is no list of records but one list of rules, as in the fleet document. */
static void
write_policy (FlJsonWriter *writer, const FlAssessmentParts *parts)
{
  for (gsize i = 0; i < parts->n_records; i++)
    {
      gsize length;
      const char *text = fl_record_text (parts->records[i], &length);
      FlJsonSpan span;

      if (fl_record_kind (parts->records[i]) != FL_KIND_POLICY || !fl_json_find (text, length, "house_rules", &span))
        continue;
      fl_json_writer_raw (writer, "house_rules", text + span.offset, span.length);
      return;
    }
}

static void
write_records (FlJsonWriter *writer, const FlAssessmentParts *parts)
{
  fl_json_writer_begin_object (writer, "records");
  write_policy (writer, parts);
  for (gint kind = 0; kind < FL_N_KINDS; kind++)
    if (kind != FL_KIND_POLICY)
      write_records_of (writer, parts, (FlKind) kind);
  fl_json_writer_end_object (writer);
}

void
fl_assessment_build_json (const FlAssessment *assessment, FlJsonWriter *writer, gboolean records)
{
  const FlAssessmentParts *parts = fl_assessment_parts (assessment);

  fl_plan_build_json (parts->plan, writer);
  fl_json_writer_begin_object (writer, "results");
  write_book (writer, &parts->book);
  write_tie_downs (writer, parts);
  write_sums (writer, parts);
  write_force (writer, parts);
  write_tensions (writer, parts);
  write_axles (writer, parts);
  write_sizes (writer, parts);
  write_findings (writer, assessment, parts->metric);
  write_recheck (writer, &parts->recheck);
  write_cautions (writer, parts);
  if (records)
    write_records (writer, parts);
  fl_json_writer_text (writer, "verdict", fl_plan_verdict_id (fl_assessment_verdict (assessment)));
  fl_json_writer_text (writer, "house", fl_house_verdict_id (fl_assessment_house (assessment)));
  fl_json_writer_end_object (writer);
}

GBytes *
fl_assessment_to_json (const FlAssessment *assessment, gboolean records)
{
  g_autoptr(FlJsonWriter) writer = fl_json_writer_new ();

  fl_json_writer_begin_object (writer, NULL);
  fl_assessment_build_json (assessment, writer, records);
  fl_json_writer_end_object (writer);
  return fl_json_writer_end (writer);
}
