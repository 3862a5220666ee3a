/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The example plan's assessment, put together by hand from tests/data/example-fleet.json and the figures of example-plan.json, so that drawing
 * and card are tested without the judge. */
#ifndef SAMPLE_H
#define SAMPLE_H

#include "fl-card.h"

typedef struct
{
  gboolean unplaced;            /* the machine has no place yet */
  gboolean no_trailer;          /* the plan names a trailer that nobody knows */
  guint articles;               /* as many loose buckets stand behind the machine */
  gboolean counted_chain;       /* tie-down 1 uses a piece of the record of six alike */
  gint tie_downs;               /* -1: none, 0: those of the plan, else as many, made from those of the plan */
  guint shortfalls, cautions;   /* findings of that kind */
  gboolean unknown;             /* one finding is not known */
  gboolean house_short;
  gboolean measured;            /* the loaded height */
  gboolean metric;
  guint acknowledged;           /* of the cautions */
} Sample;

/* (transfer full) */
FlAssessment *sample_assessment (const Sample *sample);
/* The project's font. (transfer full) */
FlCardFont *sample_font (void);
/* A Spanish catalog made for the test: a .mo file with `n` pairs of texts. (transfer full) */
FlWords *sample_words (const char *const *pairs, gsize n);
/* A path in a folder of this test run. (transfer full) */
char *sample_path (const char *name);

#endif
