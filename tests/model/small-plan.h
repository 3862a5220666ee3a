/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A plan of one tie-down and assessments of it, for the tests of assessments. */
#ifndef SMALL_PLAN_H
#define SMALL_PLAN_H

#include <math.h>

#include "fl-assessment.h"

static inline FlPlan *
small_plan (const FlReason *exceptions, gsize n)
{
  const FlPlanLoad loads[] = {
    { .id = "R-03", .facing = FL_REARWARD, .rear = FL_IN (10), .left = FL_NOT_MEASURED, .mat_mu = NAN },
  };
  const FlTieDown ties[] = {
    { .no = 1, .point = "RL", .anchors = { "P11R", NULL }, .chain = "C-041", .binder = "B-11" },
  };
  const FlPlanChoices choices = {
    .fleet = "Larkfield Drainage District", .move = "2026-11-25/01", .trailer = "T-3", .loads = loads, .n_loads = 1,
    .tie_downs = ties, .n_tie_downs = 1, .exceptions = exceptions, .n_exceptions = n,
  };

  return fl_plan_new (&choices);
}

static inline FlAssessment *
assess (FlFindings *findings, const FlReason *exceptions, gsize n)
{
  g_autoptr(FlPlan) plan = small_plan (exceptions, n);
  const FlAssessmentParts parts = { .plan = plan, .findings = findings };

  return fl_assessment_new (&parts);
}

static inline char *
text_of (const FlAssessment *assessment, gboolean records)
{
  g_autoptr(GBytes) bytes = fl_assessment_to_json (assessment, records);
  gsize length;
  const char *data = g_bytes_get_data (bytes, &length);

  return g_strndup (data, length);
}

#endif
