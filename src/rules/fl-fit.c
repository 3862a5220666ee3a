/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-fit.c: do hook, connector and binder go together with what they are put on; lengths that a run takes; shares and counts.
 * Openings, pins and jaws are compared as measured: practice, no standard sets them for tie-downs. */
#include "fl-rating.h"

#include <math.h>
#include <string.h>

static FlFit
fit_answer (FlFitAnswer answer, const char *message)
{
  FlFit fit;

  memset (&fit, 0, sizeof fit);
  fit.answer = answer;
  fit.message = message;
  return fit;
}

static void
fit_fact (FlFit *fit, const char *key, FlQuantity quantity)
{
  if (fit->n_facts < FL_FIT_MAX_FACTS)
    fit->facts[fit->n_facts++] = FL_FACT_QUANTITY (key, quantity);
}

/* `small` goes through or into `large`: `not` with both sizes where it does not. */
static FlFit
goes_into (FlQuantity small, FlQuantity large, const char *fits, const char *not, const char *unmeasured)
{
  FlFit fit;

  if (!fl_quantity_known (small) || !fl_quantity_known (large))
    return fit_answer (FL_FIT_UNMEASURED, unmeasured);
  fit = fl_quantity_reaches (large, small) ? fit_answer (FL_FITS, fits) : fit_answer (FL_FIT_NOT, not);
  fit_fact (&fit, "needs", small);
  fit_fact (&fit, "opening", large);
  return fit;
}

/* Of several answers the worst; of alike ones the first. */
static FlFit
worst_fit (const FlFit *fits, gsize n)
{
  gsize worst = 0;

  for (gsize i = 1; i < n; i++)
    if (fits[i].answer > fits[worst].answer)
      worst = i;
  return fits[worst];
}

FlFit
fl_fit_end (const FlEnd *end, FlQuantity opening, FlQuantity bar, const FlConnector *connector)
{
  FlFit fits[3];
  gsize n = 0;

  if (connector == NULL && end->hook == FL_HOOK_NONE)
    return fit_answer (FL_FIT_NOT, N_("no hook on this end: a shackle or link is needed"));
  if (connector == NULL)
    return goes_into (end->needs, opening, N_("hook needs {needs}, opening {opening}"),
                      N_("hook does not go through: it needs {needs}, the opening is {opening}"),
                      N_("hook or opening not measured: try it at the truck"));
  fits[n++] = goes_into (end->needs, connector->opening, N_("hook needs {needs}, connector {opening}"),
                         N_("hook does not go into the connector: it needs {needs}, the connector has {opening}"),
                         N_("hook or connector not measured: try it at the truck"));
  if (connector->kind != FL_CONNECTOR_SOFT_LOOP)
    {
      fits[n++] = goes_into (connector->pin, opening, N_("pin {needs}, opening {opening}"),
                             N_("connector's pin does not go through: it is {needs}, the opening {opening}"),
                             N_("connector's pin or opening not measured: try it at the truck"));
      fits[n++] = goes_into (bar, connector->jaw, N_("bar {needs}, connector's jaw {opening}"),
                             N_("connector does not span the bar: the bar is {needs}, its jaw {opening}"),
                             N_("bar or connector's jaw not measured: try it at the truck"));
    }
  return worst_fit (fits, n);
}

/* The inch name under which a size of chain goes. Metric sizes up to 16 mm are named after the nearest sixteenth of an inch (10 mm: 3/8),
 * which is how 393.108 sets them side by side. */
static double
inch_name (double size_in, gboolean metric)
{
  return metric ? round (size_in * 16.0) / 16.0 : size_in;
}

/* TRUE if one of the sizes for which the binder is made is the chain's, in its own or the other system. */
static gboolean
made_for (const FlBinder *binder, gsize index, const FlChain *chain)
{
  gboolean metric = binder->size_texts != NULL && g_str_has_suffix (binder->size_texts[index], "mm");

  if (fl_size_equal (binder->sizes_in[index], chain->size_in))
    return TRUE;
  return metric != chain->size_metric
         && fl_size_equal (inch_name (binder->sizes_in[index], metric), inch_name (chain->size_in, chain->size_metric));
}

FlFit
fl_fit_binder (const FlBinder *binder, const FlChain *chain)
{
  FlFit fit;

  if (binder->n_sizes == 0)
    return fit_answer (FL_FIT_UNMEASURED, N_("nobody noted which chain this binder is made for"));
  fit = fit_answer (FL_FIT_NOT, N_("binder is not made for {size} chain"));
  for (gsize i = 0; i < binder->n_sizes; i++)
    if (made_for (binder, i, chain))
      fit = fit_answer (FL_FITS, N_("binder is made for {size} chain"));
  fit.facts[fit.n_facts++] = FL_FACT_TEXT ("size", chain->size_text);
  return fit;
}

/* ── lengths ── */

static double
binder_take_up (const FlBook *book, const FlBinder *binder)
{
  const FlBookData *data = fl_book_data (book);

  if (fl_quantity_known (binder->take_up))
    return fl_quantity_in (binder->take_up, FL_UNIT_IN);
  switch (binder->kind)
    {
    case FL_BINDER_RATCHET:
      return data->ratchet_take_up;
    case FL_BINDER_LEVER:
      return data->lever_take_up;
    default:
      return MAX (data->ratchet_take_up, data->lever_take_up);
    }
}

FlChainNeeds
fl_chain_needs_of (const FlBook *book, double run_in, const FlEnd ends[2], const FlBinder *binder)
{
  const FlBookData *data = fl_book_data (book);
  const FlHouseRule *allowance = fl_policy_rule (fl_book_policy (book), FL_HOUSE_CHAIN_ALLOWANCE);
  FlChainNeeds needs = { .run = run_in, .tail = data->tail };

  for (gsize i = 0; i < 2 && ends != NULL; i++)
    if (ends[i].hook == FL_HOOK_UNKNOWN || fl_hook_is_grab (ends[i].hook))
      needs.hooks += data->hook_back;
  if (ends != NULL && binder != NULL)
    needs.take_up = binder_take_up (book, binder);
  if (ends != NULL && allowance != NULL)
    needs.allowance = fl_quantity_in (allowance->length, FL_UNIT_IN);
  needs.total = needs.run + needs.hooks + needs.take_up + needs.tail + needs.allowance;
  return needs;
}

double
fl_chain_needs (const FlBook *book, double run_in, const FlEnd ends[2], const FlBinder *binder)
{
  return fl_chain_needs_of (book, run_in, ends, binder).total;
}

double
fl_binder_run (const FlBook *book, const FlBinder *binder)
{
  const FlBookData *data = fl_book_data (book);

  if (fl_quantity_known (binder->needs_run))
    return fl_quantity_in (binder->needs_run, FL_UNIT_IN);
  switch (binder->kind)
    {
    case FL_BINDER_RATCHET:
      return data->ratchet_run;
    case FL_BINDER_LEVER:
      return data->lever_run;
    default:
      return MAX (data->ratchet_run, data->lever_run);
    }
}

/* ── 393.106(d) and 393.110 ── */

double
fl_book_share (const FlBook *book, gboolean over, char side_a, char side_b)
{
  const FlBookData *data = fl_book_data (book);
  gboolean crosses = (side_a == 'L' && side_b == 'R') || (side_a == 'R' && side_b == 'L');

  if (!over)
    return data->share_direct;
  return crosses ? data->share_other_side : data->share_same_side;
}

void
fl_book_band (const FlBook *book, const FlTrailer *trailer, double *lo, double *hi)
{
  const FlBookData *data = fl_book_data (book);

  *lo = trailer->coupling.share_lo;
  *hi = trailer->coupling.share_hi;
  for (gsize i = 0; i < data->n_bands && isnan (*lo); i++)
    if (g_strcmp0 (data->bands[i].kind, trailer->coupling.kind) == 0)
      {
        *lo = data->bands[i].lo;
        *hi = data->bands[i].hi;
      }
}

gboolean
fl_book_heavy (const FlBook *book, const FlMachine *machine, double weight)
{
  return !machine->article && fl_reaches (weight, fl_book_data (book)->heavy_weight);
}

/* Whole steps in a length, a part of one counted as one; what the conversion of a unit adds to a whole number of them is not a part. */
static gint
steps_in (double length, double step)
{
  return (gint) CLAMP (ceil (length / step * (1.0 - FL_TOLERANCE)), 0.0, 1e6);
}

gint
fl_book_count (const FlBook *book, double length_ft, double weight, gboolean blocked_forward)
{
  const FlBookData *data = fl_book_data (book);

  if (isnan (length_ft))
    return G_MAXINT;
  if (blocked_forward)
    return MAX (1, steps_in (length_ft, data->count_step));
  if (fl_reaches (data->count_short_length, length_ft))
    return fl_reaches (data->count_short_weight, weight) ? 1 : 2;
  if (fl_reaches (data->count_mid_length, length_ft))
    return 2;
  return 2 + steps_in (length_ft - data->count_mid_length, data->count_step);
}
