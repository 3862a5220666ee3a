/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What was read of a piece of gear and what follows from it, for people who check a rating by hand. */
#include "fl-rate-steps.h"

#include <math.h>

#include "fl-say.h"

/* ── what the book says ── */

/* Where a block of the book comes from. */
static const char *
source_of (const FlBook *book, const char *path)
{
  const FlBookData *data = fl_book_data (book);

  for (gsize i = 0; i < data->n_blocks; i++)
    if (g_strcmp0 (data->blocks[i].path, path) == 0)
      return data->blocks[i].source.source;
  return data->id;
}

static FlQuantity
in_book_unit (const FlBook *book, double value)
{
  return isnan (value) ? FL_NOT_MEASURED : (FlQuantity) { value, fl_book_data (book)->unit };
}

static const char *
unmarked_grade (const FlBook *book)
{
  const FlBookData *data = fl_book_data (book);

  return data->grades[data->unmarked_grade].grade;
}

/* ── what was found ── */

static void
step_damage (FlSteps *steps, const FlBook *book, const FlInspection *inspection, const FlDamage *damage)
{
  const FlFact date = FL_FACT_TEXT ("date", inspection->date), kind = FL_FACT_TEXT ("kind", damage->kind != NULL ? damage->kind : "?");

  if (g_strcmp0 (damage->kind, "repair") == 0)
    {
      const gboolean accepted = damage->repair_link != NULL && g_strv_contains (fl_book_data (book)->repairs_accepted, damage->repair_link);

      fl_step (steps, accepted ? N_("Inspection of {date}: repair link \"{link}\", which the book accepts.")
                               : N_("Inspection of {date}: repair link \"{link}\", which the book does not accept."),
               date, FL_FACT_TEXT ("link", damage->repair_link != NULL ? damage->repair_link : "?"));
    }
  else if (fl_quantity_known (damage->size))
    {
      char size[G_ASCII_DTOSTR_BUF_SIZE];

      /* To a thousandth: limits are eighths of an inch, which quantities, rounded to a tenth for people, would hide. */
      fl_number_text (round (fl_quantity_in (damage->size, FL_UNIT_IN) * 1000.0) / 1000.0, size);
      fl_step (steps, N_("Inspection of {date}: \"{kind}\", {size} in."), date, kind, FL_FACT_TEXT ("size", size));
    }
  else
    fl_step (steps, N_("Inspection of {date}: \"{kind}\"."), date, kind);
}

static void
step_inspection (FlSteps *steps, const FlBook *book, const FlPiece *piece)
{
  const FlInspection *newest = piece->newest;

  if (newest == NULL)
    fl_step (steps, N_("Damage: no inspection on record, nothing is held against it."), FL_FACT_TEXT ("-", ""));
  else if (newest->n_findings == 0)
    fl_step (steps, N_("Damage: none found by the inspection of {date}."), FL_FACT_TEXT ("date", newest->date));
  for (gsize i = 0; newest != NULL && i < newest->n_findings; i++)
    step_damage (steps, book, newest, &newest->findings[i]);
}

/* TRUE if the tag gives the value. */
static gboolean
step_tag (FlSteps *steps, const FlBook *book, FlSeen legible, FlQuantity wll)
{
  const FlFact value = FL_FACT_QUANTITY ("wll", wll), citation = FL_FACT_TEXT ("citation", fl_book_citation (book, "gear_marking"));

  if (legible == FL_IS && fl_quantity_known (wll))
    {
      fl_step (steps, N_("Tag: legible, {wll}; a legible tag counts before anything else ({citation})."), value, citation);
      return TRUE;
    }
  if (legible == FL_IS_NOT)
    fl_step (steps, N_("Tag: not legible, so it does not count."), citation);
  else if (fl_quantity_known (wll))
    fl_step (steps, N_("Tag: {wll}, but nobody says that it can be read; it does not count."), value);
  else
    fl_step (steps, N_("Tag: none on record."), citation);
  return FALSE;
}

/* ── chain ── */

/* The grade that counts; -1: in no table. */
static gint
step_mark (FlSteps *steps, const FlBook *book, const FlChain *chain)
{
  const FlFact citation = FL_FACT_TEXT ("citation", fl_book_citation (book, chain->mark_seen == FL_IS ? "gear_marking" : "gear_unmarked"));
  const gint grade = chain->mark_seen == FL_IS ? fl_book_grade (book, chain->mark) : (gint) fl_book_data (book)->unmarked_grade;
  const FlFact named = FL_FACT_TEXT ("grade", grade >= 0 ? fl_book_data (book)->grades[grade].grade : "?");

  if (chain->mark_seen == FL_IS && grade >= 0)
    fl_step (steps, N_("Mark on its links: \"{mark}\", that is grade {grade} ({citation})."), FL_FACT_TEXT ("mark", chain->mark), named, citation);
  else if (chain->mark_seen == FL_IS)
    fl_step (steps, N_("Mark on its links: \"{mark}\", a grade that the table does not have."), FL_FACT_TEXT ("mark", chain->mark));
  else if (chain->mark_seen == FL_IS_NOT)
    fl_step (steps, N_("Mark on its links: looked for, none; it counts as grade {grade} ({citation})."), named, citation);
  else
    fl_step (steps, N_("Mark on its links: nobody has looked; until then it counts as grade {grade} ({citation})."), named, citation);
  return grade;
}

static void
step_cell (FlSteps *steps, const FlBook *book, const FlChain *chain, gint grade)
{
  const double wll = fl_book_chain_wll (book, chain->size_in, grade);
  const FlFact size = FL_FACT_TEXT ("size", chain->size_text), table = FL_FACT_TEXT ("table", source_of (book, "chain"));
  const FlFact named = FL_FACT_TEXT ("grade", grade >= 0 ? fl_book_data (book)->grades[grade].grade : "?");

  if (fl_book_chain_row (book, chain->size_in) == NULL)
    fl_step (steps, N_("Table ({table}): no row for size {size}."), table, size);
  else if (isnan (wll))
    fl_step (steps, N_("Table ({table}): row {size}, nothing in the column of grade {grade}."), table, size, named);
  else
    fl_step (steps, N_("Table ({table}): row {size}, column grade {grade}: {wll}."), table, size, named,
             FL_FACT_QUANTITY ("wll", in_book_unit (book, wll)));
}

static gboolean
end_is_there (const FlEnd *end)
{
  return end->hook != FL_HOOK_NONE || fl_quantity_known (end->wll);
}

static void
step_chain_hook (FlSteps *steps, const FlBook *book, const FlChain *chain, const FlEnd *end)
{
  const gint grade = (gint) fl_book_data (book)->unmarked_grade;
  const double unmarked = fl_book_chain_wll (book, chain->size_in, grade);

  if (fl_quantity_known (end->wll))
    fl_step (steps, N_("Hook: rated {wll}."), FL_FACT_QUANTITY ("wll", end->wll));
  else if (fl_quantity_is_none (end->wll))
    fl_step (steps, N_("Hook: looked at, no mark; it counts as grade {grade} of size {size}: {wll}."), FL_FACT_TEXT ("grade", unmarked_grade (book)),
             FL_FACT_TEXT ("size", chain->size_text), FL_FACT_QUANTITY ("wll", in_book_unit (book, unmarked)));
  else
    fl_step (steps, N_("Hook: its mark is not on record; taken as good as the chain."), FL_FACT_TEXT ("-", ""));
}

static gboolean
same_ends (const FlEnd *a, const FlEnd *b)
{
  return end_is_there (a) == end_is_there (b) && a->wll.unit == b->wll.unit && !(a->wll.value < b->wll.value) && !(b->wll.value < a->wll.value);
}

/* Hooks that are alike have one line. */
static void
step_chain_hooks (FlSteps *steps, const FlBook *book, const FlChain *chain)
{
  if (end_is_there (&chain->ends[0]))
    step_chain_hook (steps, book, chain, &chain->ends[0]);
  if (end_is_there (&chain->ends[1]) && !same_ends (&chain->ends[0], &chain->ends[1]))
    step_chain_hook (steps, book, chain, &chain->ends[1]);
  if (!end_is_there (&chain->ends[0]) && !end_is_there (&chain->ends[1]))
    fl_step (steps, N_("Hooks: none."), FL_FACT_TEXT ("-", ""));
}

static void
step_repair_links (FlSteps *steps, const FlInspection *newest)
{
  for (gsize i = 0; newest != NULL && i < newest->n_findings; i++)
    if (g_strcmp0 (newest->findings[i].kind, "repair") == 0 && fl_quantity_known (newest->findings[i].wll))
      fl_step (steps, N_("Repair link \"{link}\": rated {wll}."), FL_FACT_TEXT ("link", newest->findings[i].repair_link != NULL ? newest->findings[i].repair_link : "?"),
               FL_FACT_QUANTITY ("wll", newest->findings[i].wll));
}

static void
explain_chain (FlSteps *steps, const FlBook *book, const FlChain *chain)
{
  step_inspection (steps, book, &chain->piece);
  if (!step_tag (steps, book, chain->tag_legible, chain->tag_wll))
    step_cell (steps, book, chain, step_mark (steps, book, chain));
  step_chain_hooks (steps, book, chain);
  step_repair_links (steps, chain->piece.newest);
}

/* ── the other kinds ── */

static void
explain_binder (FlSteps *steps, const FlBook *book, const FlBinder *binder)
{
  const FlBookData *data = fl_book_data (book);
  gsize smallest = 0;

  step_inspection (steps, book, &binder->piece);
  if (fl_quantity_known (binder->wll))
    fl_step (steps, N_("Mark: {wll} ({citation})."), FL_FACT_QUANTITY ("wll", binder->wll), FL_FACT_TEXT ("citation", fl_book_citation (book, "gear_marking")));
  else if (!fl_quantity_is_none (binder->wll))
    fl_step (steps, N_("Mark: nobody has looked."), FL_FACT_TEXT ("-", ""));
  if (!fl_quantity_is_none (binder->wll))
    return;
  for (gsize i = 1; i < binder->n_sizes; i++)
    smallest = binder->sizes_in[i] < binder->sizes_in[smallest] ? i : smallest;
  fl_step (steps, N_("Mark: looked for, none; it counts as grade {grade} of the smallest chain it fits ({citation})."),
           FL_FACT_TEXT ("grade", unmarked_grade (book)), FL_FACT_TEXT ("citation", fl_book_citation (book, "gear_unmarked")));
  if (binder->n_sizes > 0)
    fl_step (steps, N_("Table ({table}): row {size}, column grade {grade}: {wll}."), FL_FACT_TEXT ("table", source_of (book, "chain")),
             FL_FACT_TEXT ("size", binder->size_texts[smallest]), FL_FACT_TEXT ("grade", unmarked_grade (book)),
             FL_FACT_QUANTITY ("wll", in_book_unit (book, fl_book_chain_wll (book, binder->sizes_in[smallest], (gint) data->unmarked_grade))));
}

/* What of its width a strap may lose. */
static void
step_width_lost (FlSteps *steps, const FlBook *book, const FlInspection *newest, const FlBookWebRow *row)
{
  double sum = 0.0;

  for (gsize i = 0; newest != NULL && i < newest->n_findings; i++)
    sum += fl_quantity_known (newest->findings[i].size) ? fl_quantity_in (newest->findings[i].size, FL_UNIT_IN) : 0.0;
  if (sum > 0.0 && row != NULL && !isnan (row->damage_over_in))
    {
      char a[G_ASCII_DTOSTR_BUF_SIZE], b[G_ASCII_DTOSTR_BUF_SIZE];

      fl_step (steps, N_("Cuts, wear and burns add up to {sum} in across its width; more than {limit} in puts it out of use ({citation})."),
               FL_FACT_TEXT ("sum", fl_number_text (round (sum * 1000.0) / 1000.0, a)),
               FL_FACT_TEXT ("limit", fl_number_text (round (row->damage_over_in * 1000.0) / 1000.0, b)),
               FL_FACT_TEXT ("citation", source_of (book, "webbing_damage")));
    }
}

static void
explain_strap (FlSteps *steps, const FlBook *book, const FlStrap *strap)
{
  const FlBookWebRow *row = fl_book_web_row (book, fl_quantity_in (strap->width, FL_UNIT_IN));
  const FlFact width = FL_FACT_QUANTITY ("width", strap->width), table = FL_FACT_TEXT ("table", source_of (book, "webbing"));

  step_inspection (steps, book, &strap->piece);
  step_width_lost (steps, book, strap->piece.newest, row);
  if (!step_tag (steps, book, strap->tag_legible, strap->tag_wll))
    {
      if (row == NULL)
        fl_step (steps, N_("Table ({table}): no row for a width of {width}."), table, width);
      else
        fl_step (steps, N_("Table ({table}): row {width}: {wll}."), table, width, FL_FACT_QUANTITY ("wll", in_book_unit (book, row->wll)));
    }
  for (gsize i = 0; i < 2; i++)
    if (fl_quantity_known (strap->ends[i].wll) && (i == 0 || !same_ends (&strap->ends[0], &strap->ends[1])))
      fl_step (steps, N_("Hook: rated {wll}."), FL_FACT_QUANTITY ("wll", strap->ends[i].wll));
}

static void
explain_connector (FlSteps *steps, const FlBook *book, const FlConnector *connector)
{
  step_inspection (steps, book, &connector->piece);
  if (fl_quantity_known (connector->wll))
    fl_step (steps, N_("Mark: {wll} ({citation})."), FL_FACT_QUANTITY ("wll", connector->wll),
             FL_FACT_TEXT ("citation", fl_book_citation (book, "gear_marking")));
  else
    fl_step (steps, fl_quantity_is_none (connector->wll) ? N_("Mark: looked for, none, and no table has it.") : N_("Mark: nobody has looked."),
             FL_FACT_TEXT ("-", ""));
}

/* ── the result ── */

/* The sentence of the rating where it is out of use or not known; else the weakest part. */
static void
step_result (FlSteps *steps, const FlBook *book, const FlRating *rating)
{
  if (rating->in_use && fl_quantity_known (rating->wll))
    fl_step (steps, N_("The weakest of these counts ({citation}): {part_word}, {wll}."),
             FL_FACT_TEXT ("citation", fl_book_citation (book, "weakest_part")), FL_FACT_QUANTITY ("wll", rating->wll),
             FL_FACT_TEXT ("part_word", rating->limited_by != NULL ? rating->limited_by : N_("mark")));
  else
    fl_steps_add (steps, rating->message, rating->facts, rating->n_facts);
}

const FlMessage *
fl_rate_steps (const FlBook *book, const FlRecord *gear, FlArena *arena, gsize *n)
{
  const FlRating rating = fl_rate_record (book, gear);
  FlSteps steps = { .n = 0, .arena = arena };

  if (fl_record_chain (gear) != NULL)
    explain_chain (&steps, book, fl_record_chain (gear));
  else if (fl_record_binder (gear) != NULL)
    explain_binder (&steps, book, fl_record_binder (gear));
  else if (fl_record_strap (gear) != NULL)
    explain_strap (&steps, book, fl_record_strap (gear));
  else if (fl_record_connector (gear) != NULL)
    explain_connector (&steps, book, fl_record_connector (gear));
  /* However many inspections' findings there are, the result keeps its place. */
  steps.n = MIN (steps.n, (gsize) FL_SAY_MAX_STEPS - 1);
  step_result (&steps, book, &rating);
  *n = steps.n;
  return fl_messages_copy (steps.lines, steps.n, arena);
}
