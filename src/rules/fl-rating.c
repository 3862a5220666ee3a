/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-rating.c: what a piece of gear is worth today, and why: 49 CFR 393.104(b), .108 and the damage lists of the book. */
#include "fl-rating.h"

#include <math.h>
#include <string.h>

/* ── making an answer ── */

static void
add_fact (FlRating *rating, FlFact fact)
{
  if (rating->n_facts < FL_RATING_MAX_FACTS)
    rating->facts[rating->n_facts++] = fact;
}

static FlRating
rating_new (const FlBook *book, const char *rule, const char *message)
{
  FlRating rating;

  memset (&rating, 0, sizeof rating);
  rating.in_use = TRUE;
  rating.wll = FL_NOT_MEASURED;
  rating.breaking = NAN;
  rating.message = message;
  rating.citation = fl_book_citation (book, rule);
  return rating;
}

static void
limited_by (FlRating *rating, const char *what)
{
  rating->limited_by = what;
  rating->limit_word = FL_FACT_TEXT ("limit_word", what);
}

/* The value of a piece and the part of it that sets the value; {wll} joins the facts. */
static void
set_value (FlRating *rating, FlUnit unit, FlQuantity wll, double factor, const char *part)
{
  rating->wll = wll;
  rating->breaking = fl_quantity_in (wll, unit) * factor;
  limited_by (rating, part);
  add_fact (rating, FL_FACT_QUANTITY ("wll", wll));
}

/* ── out of use ── */

typedef struct { const char *kind, *message; } Words;

static const Words damage_words[] = {
  { "cracked", N_("cracked (inspection of {date}): out of use") },
  { "bent", N_("bent (inspection of {date}): out of use") },
  { "twisted", N_("twisted (inspection of {date}): out of use") },
  { "stretched", N_("stretched (inspection of {date}): out of use") },
  { "worn", N_("worn (inspection of {date}): out of use") },
  { "welded", N_("welded (inspection of {date}): out of use") },
  { "knotted", N_("knotted (inspection of {date}): out of use") },
  { "stitching", N_("stitching damaged (inspection of {date}): out of use") },
  { "fitting", N_("end fitting damaged (inspection of {date}): out of use") },
  { "handle", N_("handle damaged (inspection of {date}): out of use") },
  { "hook_spread", N_("hook spread open (inspection of {date}): out of use") },
};

static const Words chain_words[] = {
  { "cracked", N_("cracked link (inspection of {date}): out of use") },
  { "bent", N_("bent link (inspection of {date}): out of use") },
  { "twisted", N_("twisted link (inspection of {date}): out of use") },
  { "stretched", N_("stretched link (inspection of {date}): out of use") },
  { "worn", N_("worn link (inspection of {date}): out of use") },
  { "welded", N_("welded link (inspection of {date}): out of use") },
};

static const Words repair_words[] = {
  { "clevis_pin_missing", N_("clevis link without its pin or cotter (inspection of {date}): out of use") },
  { "half_clevis", N_("half a clevis link (inspection of {date}): out of use") },
  { "bolt", N_("bolt in place of a link (inspection of {date}): out of use") },
  { "lap_link", N_("lap link (inspection of {date}): out of use") },
  { "cold_shut", N_("cold shut (inspection of {date}): out of use") },
  { "quick_link", N_("quick link (inspection of {date}): out of use") },
};

static const char *
words_for (const Words *words, gsize n, const char *kind)
{
  for (gsize i = 0; i < n; i++)
    if (g_strcmp0 (words[i].kind, kind) == 0)
      return words[i].message;
  return NULL;
}

static FlRating
out_of_use (const FlBook *book, const char *rule, const FlInspection *inspection, const char *kind, const char *message)
{
  FlRating rating = rating_new (book, rule, message != NULL ? message : N_("\"{finding}\" (inspection of {date}): out of use until cleared"));

  rating.in_use = FALSE;
  add_fact (&rating, FL_FACT_TEXT ("date", inspection->date));
  add_fact (&rating, FL_FACT_TEXT ("finding", kind));
  return rating;
}

/* A finding that takes the piece out; one that the book does not know takes it out too, until someone has cleared it. */
static FlRating
damaged (const FlBook *book, const FlInspection *inspection, const FlDamage *damage, gboolean chain)
{
  const char *message = chain ? words_for (chain_words, G_N_ELEMENTS (chain_words), damage->kind) : NULL;

  if (message == NULL)
    message = words_for (damage_words, G_N_ELEMENTS (damage_words), damage->kind);
  return out_of_use (book, "gear_damage", inspection, damage->kind, message);
}

/* The newest inspection's findings of a piece for which every finding is out. FALSE: none. */
static gboolean
any_damage (const FlBook *book, const FlPiece *piece, FlRating *out)
{
  if (piece->newest == NULL || piece->newest->n_findings == 0)
    return FALSE;
  *out = damaged (book, piece->newest, &piece->newest->findings[0], FALSE);
  return TRUE;
}

static FlRating
repair_refused (const FlBook *book, const FlInspection *inspection, const FlDamage *damage)
{
  const char *message = words_for (repair_words, G_N_ELEMENTS (repair_words), damage->repair_link);

  if (damage->repair_link == NULL)
    return out_of_use (book, "gear_repair", inspection, "repair", N_("repair nobody named (inspection of {date}): out of use"));
  return out_of_use (book, "gear_repair", inspection, damage->repair_link,
                     message != NULL ? message : N_("repair \"{finding}\" (inspection of {date}): not accepted, out of use"));
}

/* ── chain ── */

/* TRUE if the chain is out of use; else the weakest accepted repair link that has a wll is in *link. */
static gboolean
chain_out (const FlBook *book, const FlChain *chain, FlRating *out, FlQuantity *link)
{
  const FlBookData *data = fl_book_data (book);
  const FlInspection *newest = chain->piece.newest;

  *link = FL_NOT_MEASURED;
  for (gsize i = 0; newest != NULL && i < newest->n_findings; i++)
    {
      const FlDamage *damage = &newest->findings[i];

      if (g_strcmp0 (damage->kind, "repair") != 0)
        {
          *out = damaged (book, newest, damage, TRUE);
          return TRUE;
        }
      if (damage->repair_link == NULL || !g_strv_contains (data->repairs_accepted, damage->repair_link))
        {
          *out = repair_refused (book, newest, damage);
          return TRUE;
        }
      if (fl_quantity_known (damage->wll)
          && (!fl_quantity_known (*link) || fl_quantity_in (damage->wll, data->unit) < fl_quantity_in (*link, data->unit)))
        *link = damage->wll;
    }
  return FALSE;
}

/* By a legible tag, 393.108(b). What it breaks at is known where the mark names its grade. */
static FlRating
chain_by_tag (const FlBook *book, const FlChain *chain)
{
  FlRating rating = rating_new (book, "gear_marking", N_("tag: {wll}"));
  gint grade = chain->mark_seen == FL_IS ? fl_book_grade (book, chain->mark) : -1;
  double factor = grade < 0 ? NAN : fl_book_data (book)->grades[grade].breaking_factor;

  set_value (&rating, fl_book_data (book)->unit, chain->tag_wll, factor, N_("tag"));
  return rating;
}

static FlRating
needs_a_tag (const FlBook *book, const FlChain *chain, const char *grade, const char *message)
{
  FlRating rating = rating_new (book, "gear_rating", message);

  add_fact (&rating, FL_FACT_TEXT ("size", chain->size_text));
  if (chain->mark_seen == FL_IS)
    add_fact (&rating, FL_FACT_TEXT ("mark", chain->mark));
  if (grade != NULL)
    add_fact (&rating, FL_FACT_TEXT ("grade", grade));
  return rating;
}

/* The sentence for a value from the table: whether a tag is there but cannot be read, and whether the mark was. */
static const char *
table_message (const FlChain *chain)
{
  gboolean tag = fl_quantity_known (chain->tag_wll) || chain->tag_legible == FL_IS_NOT;

  switch (chain->mark_seen)
    {
    case FL_IS:
      return tag ? N_("tag not legible: by mark {mark}, grade {grade}, {wll}") : N_("mark {mark}: grade {grade}, {wll}");
    case FL_IS_NOT:
      return tag ? N_("tag not legible, no mark: counts as grade {grade}, {wll}") : N_("no mark: counts as grade {grade}, {wll}");
    default:
      return N_("mark not looked at: counts as grade {grade}, {wll}, until somebody reads it");
    }
}

/* By mark and size from the table; without a mark grade 30 of its size, 393.108(d). */
static FlRating
chain_by_table (const FlBook *book, const FlChain *chain)
{
  const FlBookData *data = fl_book_data (book);
  gint grade = chain->mark_seen == FL_IS ? fl_book_grade (book, chain->mark) : (gint) data->unmarked_grade;
  double wll = fl_book_chain_wll (book, chain->size_in, grade);
  FlRating rating;

  if (grade < 0)
    return needs_a_tag (book, chain, NULL, N_("mark \"{mark}\" is in no table: a legible tag is needed"));
  if (fl_book_chain_row (book, chain->size_in) == NULL)
    return needs_a_tag (book, chain, NULL, N_("size {size} is in no table: a legible tag is needed"));
  if (isnan (wll))
    return needs_a_tag (book, chain, data->grades[grade].grade,
                        N_("the table has no {size} of grade {grade}: a legible tag is needed"));
  rating = rating_new (book, chain->mark_seen == FL_IS ? "gear_marking" : "gear_unmarked", table_message (chain));
  rating.grade = data->grades[grade].grade;
  rating.assumed = chain->mark_seen == FL_NOT_LOOKED;
  set_value (&rating, data->unit, (FlQuantity) { wll, data->unit }, data->grades[grade].breaking_factor,
             chain->mark_seen == FL_IS ? N_("mark") : N_("chain"));
  add_fact (&rating, FL_FACT_TEXT ("grade", rating.grade));
  if (chain->mark_seen == FL_IS)
    add_fact (&rating, FL_FACT_TEXT ("mark", chain->mark));
  return rating;
}

/* A weaker part inside the piece takes over, 393.108(a); the value of the whole stays in the facts as {chain_wll}. */
static void
weaken (FlRating *rating, const FlBook *book, FlQuantity wll, double factor, const char *part, const char *message)
{
  FlUnit unit = fl_book_data (book)->unit;
  double value = fl_quantity_in (wll, unit), breaking = value * factor;
  FlQuantity before = rating->wll;

  if (!fl_quantity_known (rating->wll) || isnan (value))
    return;
  if (breaking < rating->breaking)
    rating->breaking = breaking;
  if (value >= fl_quantity_in (rating->wll, unit))
    return;
  rating->wll = wll;
  rating->message = message;
  rating->n_facts = 0;
  rating->citation = fl_book_citation (book, "weakest_part");
  limited_by (rating, part);
  add_fact (rating, FL_FACT_QUANTITY ("wll", wll));
  add_fact (rating, FL_FACT_QUANTITY ("chain_wll", before));
}

/* One hook of a chain. Absent: as the chain, a note; null: looked at and unmarked, grade 30 of the chain's size. */
static void
weigh_hook (FlRating *rating, const FlBook *book, const FlChain *chain, const FlEnd *end)
{
  const FlBookData *data = fl_book_data (book);
  double factor = data->connector_breaking_factor;

  if (end->hook == FL_HOOK_NONE && !fl_quantity_known (end->wll))
    return;
  if (fl_quantity_known (end->wll))
    weaken (rating, book, end->wll, factor, N_("hook"), N_("its hook: {wll}; the chain alone {chain_wll}"));
  else if (fl_quantity_is_none (end->wll))
    {
      double unmarked = fl_book_chain_wll (book, chain->size_in, (gint) data->unmarked_grade);

      if (isnan (unmarked))
        {
          *rating = needs_a_tag (book, chain, NULL, N_("hook without a mark, and size {size} is in no table"));
          return;
        }
      weaken (rating, book, (FlQuantity) { unmarked, data->unit }, factor, N_("hook"),
              N_("hook without a mark: counts as grade {grade}, {wll}; the chain alone {chain_wll}"));
      add_fact (rating, FL_FACT_TEXT ("grade", data->grades[data->unmarked_grade].grade));
    }
  else
    rating->assumed = TRUE;
}

FlRating
fl_rate_chain (const FlBook *book, const FlChain *chain)
{
  FlQuantity link;
  FlRating rating;

  if (chain_out (book, chain, &rating, &link))
    return rating;
  if (chain->tag_legible == FL_IS && fl_quantity_known (chain->tag_wll))
    rating = chain_by_tag (book, chain);
  else
    rating = chain_by_table (book, chain);
  for (gsize i = 0; i < 2; i++)
    weigh_hook (&rating, book, chain, &chain->ends[i]);
  if (fl_quantity_known (link))
    weaken (&rating, book, link, fl_book_data (book)->connector_breaking_factor, N_("repair link"),
            N_("its repair link: {wll}; the chain alone {chain_wll}"));
  return rating;
}

/* ── binder ── */

/* The smallest size the binder fits; NaN where nobody noted one. */
static double
smallest_size (const FlBinder *binder)
{
  double smallest = NAN;

  for (gsize i = 0; i < binder->n_sizes; i++)
    if (isnan (smallest) || binder->sizes_in[i] < smallest)
      smallest = binder->sizes_in[i];
  return smallest;
}

FlRating
fl_rate_binder (const FlBook *book, const FlBinder *binder)
{
  const FlBookData *data = fl_book_data (book);
  double unmarked;
  FlRating rating;

  if (any_damage (book, &binder->piece, &rating))
    return rating;
  if (fl_quantity_known (binder->wll))
    {
      rating = rating_new (book, "gear_marking", N_("its mark: {wll}"));
      set_value (&rating, data->unit, binder->wll, data->binder_breaking_factor, N_("mark"));
      return rating;
    }
  if (!fl_quantity_is_none (binder->wll))
    return rating_new (book, "gear_rating", N_("working load limit not looked at"));
  unmarked = fl_book_chain_wll (book, smallest_size (binder), (gint) data->unmarked_grade);
  if (isnan (unmarked))
    return rating_new (book, "gear_rating", N_("no mark, and no size of chain of the table noted for it"));
  rating = rating_new (book, "gear_unmarked", N_("no mark: counts as grade {grade} of the smallest chain it fits, {wll}"));
  set_value (&rating, data->unit, (FlQuantity) { unmarked, data->unit }, data->binder_breaking_factor, N_("binder"));
  add_fact (&rating, FL_FACT_TEXT ("grade", data->grades[data->unmarked_grade].grade));
  return rating;
}

/* ── strap ── */

/* What takes a strap out at once: a finding that is not measured across the width, or one that should have been and was not. */
static const FlDamage *
strap_plain_damage (const FlBook *book, const FlInspection *inspection)
{
  for (gsize i = 0; i < inspection->n_findings; i++)
    if (inspection->findings[i].kind == NULL || !g_strv_contains (fl_book_data (book)->strap_summed, inspection->findings[i].kind)
        || !fl_quantity_known (inspection->findings[i].size))
      return &inspection->findings[i];
  return NULL;
}

/* To a thousandth: limits are eighths of an inch, which quantities, rounded to a tenth for people, would hide. Interned, as ratings own
 * no texts; there are few different ones. */
static const char *
inches_text (double inches)
{
  char buffer[G_ASCII_DTOSTR_BUF_SIZE];

  return g_intern_string (fl_number_text (round (inches * 1000.0) / 1000.0, buffer));
}

/* TRUE if the strap is out of use. Cuts, wear and burns are summed across the width; at the limit it is still in use. */
static gboolean
strap_out (const FlBook *book, const FlStrap *strap, FlRating *out)
{
  const FlInspection *newest = strap->piece.newest;
  const FlBookWebRow *row = fl_book_web_row (book, fl_quantity_in (strap->width, FL_UNIT_IN));
  const FlDamage *damage = newest == NULL ? NULL : strap_plain_damage (book, newest);
  double sum = 0.0, limit = row == NULL || isnan (row->damage_over_in) ? 0.0 : row->damage_over_in;

  if (newest == NULL || newest->n_findings == 0)
    return FALSE;
  if (damage != NULL && damage->kind != NULL && g_strv_contains (fl_book_data (book)->strap_summed, damage->kind))
    *out = out_of_use (book, "gear_damage", newest, damage->kind, N_("damage nobody measured (inspection of {date}): out of use"));
  else if (damage != NULL)
    *out = damaged (book, newest, damage, FALSE);
  if (damage != NULL)
    return TRUE;
  for (gsize i = 0; i < newest->n_findings; i++)
    sum += fl_quantity_in (newest->findings[i].size, FL_UNIT_IN);
  if (fl_reaches (limit, sum))
    return FALSE;
  *out = out_of_use (book, "gear_damage", newest, newest->findings[0].kind,
                     N_("{damage} in of cuts, wear and burns (inspection of {date}), more than {limit} in: out of use"));
  add_fact (out, FL_FACT_TEXT ("damage", inches_text (sum)));
  add_fact (out, FL_FACT_TEXT ("limit", inches_text (limit)));
  return TRUE;
}

static FlRating
strap_by_width (const FlBook *book, const FlStrap *strap)
{
  const FlBookData *data = fl_book_data (book);
  const FlBookWebRow *row = fl_book_web_row (book, fl_quantity_in (strap->width, FL_UNIT_IN));
  gboolean tag = fl_quantity_known (strap->tag_wll) || strap->tag_legible == FL_IS_NOT;
  FlRating rating;

  if (row == NULL)
    {
      rating = rating_new (book, "gear_rating", N_("width {width} is in no table: a legible tag is needed"));
      add_fact (&rating, FL_FACT_QUANTITY ("width", strap->width));
      return rating;
    }
  rating = rating_new (book, "gear_rating", tag ? N_("tag not legible: counts by its width of {width}, {wll}")
                                                : N_("no tag: counts by its width of {width}, {wll}"));
  set_value (&rating, data->unit, (FlQuantity) { row->wll, data->unit }, data->webbing_breaking_factor, N_("width"));
  add_fact (&rating, FL_FACT_QUANTITY ("width", strap->width));
  return rating;
}

FlRating
fl_rate_strap (const FlBook *book, const FlStrap *strap)
{
  const FlBookData *data = fl_book_data (book);
  FlRating rating;

  if (strap_out (book, strap, &rating))
    return rating;
  if (strap->tag_legible == FL_IS && fl_quantity_known (strap->tag_wll))
    {
      rating = rating_new (book, "gear_marking", N_("tag: {wll}"));
      set_value (&rating, data->unit, strap->tag_wll, data->webbing_breaking_factor, N_("tag"));
    }
  else
    rating = strap_by_width (book, strap);
  for (gsize i = 0; i < 2; i++)
    if (fl_quantity_known (strap->ends[i].wll))
      weaken (&rating, book, strap->ends[i].wll, data->connector_breaking_factor, N_("hook"),
              N_("its hook: {wll}; the strap alone {chain_wll}"));
    else if (fl_quantity_is_none (strap->ends[i].wll))
      rating.assumed = TRUE;   /* looked at and unmarked: the strap's own value covers its hooks, a note */
  return rating;
}

/* ── connector, and whichever ── */

FlRating
fl_rate_connector (const FlBook *book, const FlConnector *connector)
{
  const FlBookData *data = fl_book_data (book);
  FlRating rating;

  if (any_damage (book, &connector->piece, &rating))
    return rating;
  if (!fl_quantity_known (connector->wll))
    return rating_new (book, "gear_rating", fl_quantity_is_none (connector->wll)
                                              ? N_("no mark, and no table for it: working load limit not known")
                                              : N_("working load limit not looked at"));
  rating = rating_new (book, "gear_marking", N_("its mark: {wll}"));
  set_value (&rating, data->unit, connector->wll, data->connector_breaking_factor, N_("mark"));
  return rating;
}

FlRating
fl_rate_record (const FlBook *book, const FlRecord *gear)
{
  switch (fl_record_kind (gear))
    {
    case FL_KIND_CHAIN:
      return fl_rate_chain (book, fl_record_chain (gear));
    case FL_KIND_BINDER:
      return fl_rate_binder (book, fl_record_binder (gear));
    case FL_KIND_STRAP:
      return fl_rate_strap (book, fl_record_strap (gear));
    case FL_KIND_CONNECTOR:
      return fl_rate_connector (book, fl_record_connector (gear));
    default:
      g_return_val_if_reached (rating_new (book, "gear_rating", N_("not a piece of gear")));
    }
}
