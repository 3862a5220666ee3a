/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How a requirement speaks, and sums that several of them need. */
#include "fl-say.h"

#include <math.h>

void
fl_say (const FlScene *scene, FlFindings *findings, const FlSaying *saying)
{
  gsize n = 0;

  while (n < FL_SAY_MAX_FACTS && saying->facts[n].key != NULL)
    n++;
  fl_findings_add (findings, &(FlFinding) {
    .rule = saying->rule, .citation = fl_book_citation (scene->book, saying->rule), .subject = saying->subject,
    .tie_down = (gint) saying->tie - 1, .load = (gint) saying->load - 1, .standing = saying->standing, .verdict = saying->verdict,
    .need = saying->need, .have = saying->have, .basis = saying->basis, .message = saying->message,
    .facts = saying->facts, .n_facts = n, .steps = saying->steps != NULL ? saying->steps->lines : NULL,
    .n_steps = saying->steps != NULL ? saying->steps->n : 0 });
}

void
fl_steps_add (FlSteps *steps, const char *message, const FlFact *facts, gsize n_facts)
{
  if (!steps->brief && steps->n < FL_SAY_MAX_STEPS)
    steps->lines[steps->n++] = (FlMessage) { message, fl_facts_copy (facts, n_facts, steps->arena), n_facts };
}

void
fl_say_met (const FlScene *scene, FlFindings *findings, const char *rule, FlStanding standing, const char *subject, guint load,
            const char *message)
{
  fl_say (scene, findings, &(FlSaying) { .rule = rule, .standing = standing, .verdict = FL_MET, .subject = subject, .load = load,
                                         .message = message });
}

void
fl_names_add (FlNames *names, const char *name)
{
  if (names->text == NULL)
    names->text = g_string_new (NULL);
  if (names->n++ > 0)
    g_string_append (names->text, ", ");
  g_string_append (names->text, name);
}

void
fl_names_clear (FlNames *names)
{
  if (names->text != NULL)
    g_string_free (names->text, TRUE);
  *names = (FlNames) { NULL, 0 };
}

const char *
fl_names_text (const FlNames *names)
{
  return names->text != NULL ? names->text->str : "";
}

FlStanding
fl_heavy_standing (const FlSceneLoad *load)
{
  return load->heavy ? FL_BY_LAW : FL_BY_ADVICE;
}

FlVerdict
fl_heavy_short (const FlSceneLoad *load)
{
  return load->heavy ? FL_SHORT : FL_CAUTION;
}

FlQuantity
fl_weight (const FlScene *scene, double value)
{
  return isnan (value) ? FL_NOT_MEASURED : (FlQuantity) { value, fl_book_data (scene->book)->unit };
}

FlQuantity
fl_inches (double m)
{
  return isfinite (m) ? FL_IN (m / FL_M_PER_IN) : FL_NOT_MEASURED;
}

const char *
fl_name_or_id (const char *name, const char *id)
{
  return name != NULL ? name : id;
}

double
fl_tie_counts (const FlSceneTie *tie)
{
  const guint useless = FL_ASM_OUT_OF_USE | FL_ASM_NO_GEAR | FL_ASM_WLL_UNKNOWN;

  if (!fl_scene_own (tie) || (tie->assembly.flags & useless) != 0 || isnan (tie->assembly.wll))
    return 0.0;
  return tie->share * tie->assembly.wll;
}

FlSums
fl_scene_sums (const FlScene *scene, guint load)
{
  FlPull pulls[FL_SCENE_MAX_TIES];
  gsize n = 0;

  for (guint i = 0; i < scene->n_ties; i++)
    {
      const FlSceneTie *tie = &scene->ties[i];

      /* A limit that nobody knows still holds: it is there, and adds nothing to count on. */
      double limit = isnan (tie->assembly.wll) ? G_MINDOUBLE : tie->assembly.wll;

      if (tie->load != load || !fl_scene_own (tie) || !fl_scene_holds (tie))
        continue;
      /* One tension on both legs of an `over`: what one leg pulls to the left the other may take back. pull_b is zero for a direct one. */
      pulls[n++] = (FlPull) { .along = fl_vec_add (tie->lay.pull, tie->lay.pull_b), .limit = limit };
    }
  return fl_sums_component (pulls, n, scene->loads[load].weight);
}

/* Against it means within reach of a block of timber: half a foot. */
static gboolean
against (const FlSceneLoad *load, FlQuantity stop)
{
  return fl_reaches (FL_LAY_LEAVES + FL_STATICS_POINT, fabs (fl_quantity_in (stop, FL_UNIT_M) - load->stand.outline.max.x));
}

/* A zone in front of the load that it is set against. */
static gboolean
zone_blocks (const FlScene *scene, const FlSceneLoad *load, double *rated)
{
  for (gsize i = 0; i < scene->trailer->n_zones; i++)
    {
      const FlZone *zone = &scene->trailer->zones[i];

      if (!zone->blocks_forward || !against (load, zone->x0))
        continue;
      *rated = fl_quantity_in (zone->block_rated, fl_book_data (scene->book)->unit);
      return TRUE;
    }
  return FALSE;
}

/* Against both a stop and a blocking zone: nobody knows which of them it touches first, so the lesser rating counts, and none where one has none. */
gboolean
fl_scene_blocked (const FlScene *scene, guint load, double *rated)
{
  const FlSceneLoad *l = &scene->loads[load];
  double stop = NAN, zone = NAN;
  gboolean by_stop, by_zone;

  *rated = NAN;
  if (!scene->choices->loads[load].blocked_forward || !l->stand.placed)
    return FALSE;
  by_stop = scene->trailer->has_front_stop && against (l, scene->trailer->front_stop_x);
  by_zone = zone_blocks (scene, l, &zone);
  if (by_stop)
    stop = fl_quantity_in (scene->trailer->front_stop_rated, fl_book_data (scene->book)->unit);
  if (by_stop && by_zone)
    *rated = isnan (stop) || isnan (zone) ? NAN : fmin (stop, zone);
  else
    *rated = by_stop ? stop : zone;
  return by_stop || by_zone;
}
