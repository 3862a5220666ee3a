/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the house asks of a load's tie-downs on top of the book: see fl-choose-private.h. */
#include <math.h>

#include "fl-choose-private.h"
#include "fl-house.h"
#include "fl-judge.h"

typedef struct { double counts; guint n; } Fixed;

/* The load's own tie-downs that are there already. */
static Fixed
fixed_of (const FlDraft *state, const FlWanted *w)
{
  Fixed fixed = { 0.0, 0 };

  for (guint i = 0; i < state->chosen.n; i++)
    {
      const FlChosenTie *tie = &state->chosen.ties[i];

      if (tie->load != w->load || tie->implement != NULL)
        continue;
      fixed.counts += fl_chosen_counts (w->book, tie);
      fixed.n++;
    }
  return fixed;
}

FlWanted
fl_wanted_by_house (const FlWanted *book_wants, const FlDraft *state)
{
  FlWanted w = *book_wants;
  const FlMachine *machine = w.site->stand->machine;
  double base = fl_book_data (w.book)->aggregate_share * w.weight, more = fl_house_extra (w.book) * fl_house_margin (w.book);
  Fixed fixed = fixed_of (state, &w);
  gint count = fl_house_count (w.book, machine, FALSE);

  if (more > 1.0 && (w.need > 0.0 || fixed.counts > 0.0))
    w.need = fmax (0.0, (w.need > 0.0 ? w.need + fixed.counts : base) * more - fixed.counts);
  if (count < G_MAXINT)
    w.count = MAX (w.count, (guint) MAX (0, count - (gint) fixed.n));
  if (w.spread && w.implements && fl_house_as_heavy (w.book, machine) && fl_machine_joint_free (machine))
    w.section_count = MAX (w.section_count, (guint) fl_book_data (w.book)->section_count);
  return w;
}
