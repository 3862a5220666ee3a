/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Writing the plan document. */
#include "fl-plan-document.h"

#include <math.h>

static void
write_pins (FlJsonWriter *writer, guint32 pins)
{
  if (pins == 0)
    return;
  fl_json_writer_begin_list (writer, "pinned");
  for (gsize i = 0; i < G_N_ELEMENTS (fl_pin_names); i++)
    if ((pins & fl_pin_names[i].pin) != 0)
      fl_json_writer_text (writer, NULL, fl_pin_names[i].name);
  fl_json_writer_end_list (writer);
}

static void
write_mat (FlJsonWriter *writer, const FlPlanLoad *load)
{
  if (load->mat == NULL)
    return;
  fl_json_writer_begin_object (writer, "mat");
  fl_json_writer_text (writer, "kind", load->mat);
  if (!isnan (load->mat_mu))
    fl_json_writer_number (writer, "mu", load->mat_mu);
  fl_json_writer_end_object (writer);
}

static void
write_load (FlJsonWriter *writer, const FlPlanLoad *load)
{
  fl_json_writer_begin_object (writer, NULL);
  fl_json_writer_text (writer, load->article ? "article" : "machine", load->id);
  fl_json_writer_optional (writer, "position", load->position);
  fl_json_writer_text (writer, "facing", fl_facing_names[load->facing]);
  fl_json_writer_quantity (writer, "rear", load->rear);
  fl_json_writer_quantity (writer, "left", load->left);
  fl_json_writer_flag (writer, "blocked_forward", load->blocked_forward);
  fl_json_writer_flag (writer, "chocked", load->chocked);
  write_mat (writer, load);
  write_pins (writer, load->pinned);
  fl_json_writer_end_object (writer);
}

static void
write_set_aside (FlJsonWriter *writer, const FlPlanChoices *choices)
{
  if (choices->aside_gear == NULL && choices->aside_anchors == NULL && choices->n_aside_points == 0)
    return;
  fl_json_writer_begin_object (writer, "set_aside");
  fl_json_writer_texts (writer, "gear", choices->aside_gear);
  fl_json_writer_texts (writer, "anchors", choices->aside_anchors);
  if (choices->n_aside_points > 0)
    fl_json_writer_begin_list (writer, "points");
  for (gsize i = 0; i < choices->n_aside_points; i++)
    {
      fl_json_writer_begin_object (writer, NULL);
      fl_json_writer_number (writer, "load", choices->aside_points[i].load);
      fl_json_writer_text (writer, "point", choices->aside_points[i].point);
      fl_json_writer_end_object (writer);
    }
  if (choices->n_aside_points > 0)
    fl_json_writer_end_list (writer);
  fl_json_writer_end_object (writer);
}

/* How many reasons from the first on are one entry that lists its subjects. */
static gsize
same_reasons (const FlReason *first, gsize n)
{
  gsize count = 1;

  while (count < n && first->subject != NULL && first[count].subject != NULL
         && g_strcmp0 (first[count].rule, first->rule) == 0 && g_strcmp0 (first[count].reason, first->reason) == 0
         && g_strcmp0 (first[count].by, first->by) == 0)
    count++;
  return count;
}

static void
write_reason (FlJsonWriter *writer, const FlReason *reasons, gsize count)
{
  fl_json_writer_begin_object (writer, NULL);
  fl_json_writer_text (writer, "rule", reasons->rule);
  if (count > 1)
    {
      fl_json_writer_begin_list (writer, "subject");
      for (gsize i = 0; i < count; i++)
        fl_json_writer_text (writer, NULL, reasons[i].subject);
      fl_json_writer_end_list (writer);
    }
  else
    fl_json_writer_optional (writer, "subject", reasons->subject);
  fl_json_writer_text (writer, "reason", reasons->reason);
  fl_json_writer_optional (writer, "by", reasons->by);
  fl_json_writer_end_object (writer);
}

static void
write_reasons (FlJsonWriter *writer, const char *key, const FlReason *reasons, gsize n)
{
  if (n == 0)
    return;
  fl_json_writer_begin_list (writer, key);
  for (gsize i = 0, count; i < n; i += count)
    {
      count = same_reasons (&reasons[i], n - i);
      write_reason (writer, &reasons[i], count);
    }
  fl_json_writer_end_list (writer);
}

static void
write_through (FlJsonWriter *writer, const char *const *through)
{
  if (through != NULL && through[0] != NULL && through[1] == NULL)
    fl_json_writer_text (writer, "through", through[0]);
  else
    fl_json_writer_texts (writer, "through", through);
}

static void
write_ends (FlJsonWriter *writer, const FlTieDown *tie)
{
  fl_json_writer_optional (writer, "machine_point", tie->point);
  fl_json_writer_begin_list (writer, "anchors");
  for (guint i = 0; i < G_N_ELEMENTS (tie->anchors); i++)
    if (tie->anchors[i] != NULL)
      fl_json_writer_text (writer, NULL, tie->anchors[i]);
  fl_json_writer_end_list (writer);
  write_through (writer, tie->through);
}

static void
write_connectors (FlJsonWriter *writer, const FlTieDown *tie)
{
  if (tie->n_connectors == 0)
    return;
  fl_json_writer_begin_list (writer, "connectors");
  for (guint i = 0; i < tie->n_connectors; i++)
    {
      fl_json_writer_begin_object (writer, NULL);
      fl_json_writer_text (writer, "id", tie->connectors[i].id);
      fl_json_writer_text (writer, "at", fl_connector_at_names[tie->connectors[i].at_anchor ? 1 : 0]);
      fl_json_writer_end_object (writer);
    }
  fl_json_writer_end_list (writer);
}

static void
write_tie_down (FlJsonWriter *writer, const FlTieDown *tie)
{
  g_autofree char *implement = NULL;

  if (tie->purpose == FL_FOR_IMPLEMENT)
    implement = g_strconcat ("implement:", tie->implement, NULL);
  fl_json_writer_begin_object (writer, NULL);
  fl_json_writer_number (writer, "no", tie->no);
  fl_json_writer_number (writer, "load", tie->load);
  fl_json_writer_text (writer, "purpose", implement != NULL ? implement : "machine");
  fl_json_writer_text (writer, "kind", fl_tie_kind_names[tie->over ? 1 : 0]);
  write_ends (writer, tie);
  fl_json_writer_optional (writer, "chain", tie->chain);
  fl_json_writer_optional (writer, "strap", tie->strap);
  fl_json_writer_optional (writer, "binder", tie->binder);
  write_connectors (writer, tie);
  fl_json_writer_flag (writer, "edge_protected", tie->edge_protected);
  write_pins (writer, tie->pinned);
  fl_json_writer_end_object (writer);
}

void
fl_plan_build_json (const FlPlan *plan, FlJsonWriter *writer)
{
  const FlPlanChoices *choices = fl_plan_choices (plan);

  fl_json_writer_text (writer, "format", FL_PLAN_FORMAT);
  fl_json_writer_optional (writer, "fleet", choices->fleet);
  fl_json_writer_text (writer, "move", choices->move);
  fl_json_writer_optional (writer, "trailer", choices->trailer);
  fl_json_writer_optional (writer, "truck", choices->truck);
  fl_json_writer_begin_list (writer, "loads");
  for (gsize i = 0; i < choices->n_loads; i++)
    write_load (writer, &choices->loads[i]);
  fl_json_writer_end_list (writer);
  write_set_aside (writer, choices);
  write_reasons (writer, "acknowledged", choices->acknowledged, choices->n_acknowledged);
  write_reasons (writer, "exceptions", choices->exceptions, choices->n_exceptions);
  fl_json_writer_begin_list (writer, "tie_downs");
  for (gsize i = 0; i < choices->n_tie_downs; i++)
    write_tie_down (writer, &choices->tie_downs[i]);
  fl_json_writer_end_list (writer);
}

GBytes *
fl_plan_to_json (const FlPlan *plan)
{
  g_autoptr(FlJsonWriter) writer = fl_json_writer_new ();

  fl_json_writer_begin_object (writer, NULL);
  fl_plan_build_json (plan, writer);
  fl_json_writer_end_object (writer);
  return fl_json_writer_end (writer);
}
