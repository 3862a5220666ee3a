/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What somebody has to look at: cautions and permits with who accepted them and why, exceptions from house rules, notes. */
#include "fl-card-private.h"

#include <string.h>

static FlBlock *
with_heading (const FlPen *pen, const char *message)
{
  FlBlock *block = fl_block_new (pen, pen->width);

  if (message != NULL)
    fl_block_heading (block, message);
  return block;
}

static const FlReason *
acknowledged (const FlPen *pen, const FlFinding *finding)
{
  for (gsize i = 0; i < pen->choices->n_acknowledged; i++)
    {
      const FlReason *reason = &pen->choices->acknowledged[i];

      if (g_strcmp0 (reason->rule, finding->rule) == 0 && (reason->subject == NULL || g_strcmp0 (reason->subject, finding->subject) == 0))
        return reason;
    }
  return NULL;
}

/* The sentence, led by what it speaks of unless it says so itself. */
static char *
sentence (const FlPen *pen, const FlWords *words, const FlFinding *finding)
{
  g_autofree char *said = fl_words_finding (words, finding, pen->metric);

  if (finding->subject == NULL || strstr (said, finding->subject) != NULL)
    return fl_capital (g_steal_pointer (&said));
  return fl_capital (g_strdup_printf ("%s: %s", finding->subject, said));
}

/* A caution: a box to tick for whoever has looked, the sentence, and the reason for which it was accepted. */
static void
add_caution (FlBlock *block, const FlFinding *finding)
{
  const FlPen *pen = block->pen;
  g_autofree char *said = sentence (pen, pen->words, finding), *second = pen->bilingual ? sentence (pen, pen->second, finding) : NULL;
  const FlReason *reason = acknowledged (pen, finding);
  g_autofree char *why = reason != NULL ? fl_card_say (pen->words, N_("Acknowledged: {reason}"), "reason", reason->reason, NULL, NULL) : NULL;
  g_autofree char *whole = why != NULL ? g_strdup_printf ("%s  %s", said, why) : g_strdup (said);

  block->height += fl_block_tick (block, whole, g_strcmp0 (said, second) != 0 ? second : NULL, 0.0, block->height, block->width) + 1.5;
}

static void
add_cautions (const FlPen *pen, GPtrArray *blocks)
{
  const char *title = N_("Look at before you drive");
  gsize n;
  const FlFinding *findings = fl_assessment_findings (pen->assessment, &n);

  for (gsize i = 0; i < n; i++)
    if (findings[i].verdict == FL_CAUTION)
      {
        FlBlock *block = with_heading (pen, title);

        add_caution (block, &findings[i]);
        g_ptr_array_add (blocks, block);
        title = NULL;
      }
}

static void
add_exceptions (const FlPen *pen, GPtrArray *blocks)
{
  const char *title = N_("Excepted from the house's own rules");

  for (gsize i = 0; i < pen->choices->n_exceptions; i++)
    {
      const FlReason *reason = &pen->choices->exceptions[i];
      const FlFact facts[] = { FL_FACT_TEXT ("rule", reason->rule != NULL ? reason->rule : "?"), FL_FACT_TEXT ("subject", reason->subject != NULL ? reason->subject : ""),
                               FL_FACT_TEXT ("reason", reason->reason != NULL ? reason->reason : "?"), FL_FACT_TEXT ("by", reason->by != NULL ? reason->by : "?") };
      g_autofree char *said = fl_words_message (pen->words, reason->subject != NULL ? N_("{rule}, {subject}: {reason} ({by})") : N_("{rule}: {reason} ({by})"), facts,
                                                G_N_ELEMENTS (facts), pen->metric);
      FlBlock *block = with_heading (pen, title);

      fl_block_add (block, FL_TYPE_BODY, said, 0.0);
      g_ptr_array_add (blocks, block);
      title = NULL;
    }
}

static void
add_notes (const FlPen *pen, GPtrArray *blocks)
{
  const char *title = N_("Notes");
  gsize n;
  const FlFinding *findings = fl_assessment_findings (pen->assessment, &n);

  for (gsize i = 0; i < n; i++)
    if (findings[i].verdict == FL_NOTE && g_strcmp0 (findings[i].rule, "recheck") != 0)     /* which stands over the log */
      {
        g_autofree char *said = sentence (pen, pen->words, &findings[i]);
        FlBlock *block = with_heading (pen, title);

        fl_block_add (block, FL_TYPE_SMALL, said, 0.0);
        g_ptr_array_add (blocks, block);
        title = NULL;
      }
}

static void
add_move_notes (const FlPen *pen, GPtrArray *blocks)
{
  FlBlock *block;

  if (pen->move == NULL || pen->move->notes == NULL || *pen->move->notes == '\0')
    return;
  block = with_heading (pen, N_("From the dispatcher"));
  fl_block_add (block, FL_TYPE_BODY, pen->move->notes, 0.0);
  g_ptr_array_add (blocks, block);
}

GPtrArray *
fl_card_notes (const FlPen *pen)
{
  GPtrArray *blocks = g_ptr_array_new ();

  add_cautions (pen, blocks);
  add_exceptions (pen, blocks);
  add_move_notes (pen, blocks);
  add_notes (pen, blocks);
  return blocks;
}
