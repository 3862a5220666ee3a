/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Short phrases that several views share. */
#include <glib/gi18n.h>

#include "fl-phrases.h"

#include <math.h>

char *
fl_phrase_day (const char *date)
{
  g_autoptr(GTimeZone) zone = g_time_zone_new_utc ();
  g_autofree char *noon = date != NULL ? g_strconcat (date, "T12:00:00", NULL) : NULL;
  g_autoptr(GDateTime) day = noon != NULL ? g_date_time_new_from_iso8601 (noon, zone) : NULL;

  /* Translators: a date in full, in strftime's signs. */
  return day != NULL ? g_date_time_format (day, _("%a, %B %-d, %Y")) : g_strdup (date);
}

char *
fl_phrase_load_ids (const FlMove *move)
{
  g_autoptr(GString) text = g_string_new (NULL);

  for (gsize i = 0; i < move->n_loads; i++)
    g_string_append_printf (text, "%s%s", i > 0 ? " + " : "", move->loads[i].id);
  return g_string_free (g_steal_pointer (&text), FALSE);
}

char *
fl_phrase_load_names (const FlFleet *fleet, const FlMove *move)
{
  g_autoptr(GString) text = g_string_new (NULL);

  for (gsize i = 0; i < move->n_loads; i++)
    {
      const FlRecord *record = fl_fleet_find_load (fleet, move->loads[i].id, move->loads[i].article);
      const FlMachine *machine = record != NULL ? fl_record_machine (record) : NULL;

      if (machine != NULL && machine->name != NULL)
        g_string_append_printf (text, "%s%s", text->len > 0 ? "; " : "", machine->name);
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

static const char *
driver_name (const FlFleet *fleet, const FlMove *move)
{
  const FlRecord *record = move->driver != NULL ? fl_fleet_find (fleet, FL_KIND_PERSON, move->driver) : NULL;
  const FlPerson *person = record != NULL ? fl_record_person (record) : NULL;

  return person != NULL && person->name != NULL ? person->name : move->driver;
}

/* A trailer that has all its axles and no coupling moves by itself. */
static gboolean
needs_truck (const FlFleet *fleet, const char *trailer)
{
  const FlRecord *record = trailer != NULL ? fl_fleet_find (fleet, FL_KIND_TRAILER, trailer) : NULL;
  const FlTrailer *view = record != NULL ? fl_record_trailer (record) : NULL;

  return view == NULL || view->coupling.present;
}

char *
fl_phrase_rig (const FlFleet *fleet, const FlMove *move, const FlPlan *plan)
{
  const FlPlanChoices *choices = plan != NULL ? fl_plan_choices (plan) : NULL;
  const char *trailer = choices != NULL && choices->trailer != NULL ? choices->trailer : move->trailer;
  const char *truck = choices != NULL && choices->truck != NULL ? choices->truck : move->truck;
  const char *driver = driver_name (fleet, move);
  g_autoptr(GPtrArray) parts = g_ptr_array_new ();

  g_ptr_array_add (parts, (gpointer) (trailer != NULL ? trailer : _("trailer open")));
  if (needs_truck (fleet, trailer))
    g_ptr_array_add (parts, (gpointer) (truck != NULL ? truck : _("truck open")));
  g_ptr_array_add (parts, (gpointer) (driver != NULL ? driver : _("driver open")));
  g_ptr_array_add (parts, NULL);
  return g_strjoinv (" · ", (char **) parts->pdata);
}

char *
fl_phrase_journey (const FlMove *move, gboolean metric)
{
  g_autoptr(GString) text = g_string_new (NULL);

  if (move->to != NULL)
    g_string_append_printf (text, _("to %s"), move->to);
  if (move->miles > 0.0)
    {
      g_autofree char *way = metric ? g_strdup_printf (_("%.0f km"), fl_quantity_in ((FlQuantity) { move->miles, FL_UNIT_MI }, FL_UNIT_KM))
                                    : g_strdup_printf (_("%.0f mi"), move->miles);

      g_string_append_printf (text, "%s%s", text->len > 0 ? " · " : "", way);
    }
  if (move->back_text != NULL)
    {
      g_string_append (text, text->len > 0 ? " · " : "");
      g_string_append_printf (text, _("back %s"), move->back_text);
    }
  return g_string_free (g_steal_pointer (&text), FALSE);
}

char *
fl_phrase_open (const FlMove *move)
{
  if (move->trailer == NULL && move->truck == NULL)
    return g_strdup (_("Trailer and truck to be chosen"));
  if (move->trailer == NULL)
    return g_strdup (_("Trailer to be chosen"));
  if (move->driver == NULL)
    return g_strdup (_("Driver to be named"));
  return NULL;
}

char *
fl_phrase_weight (FlQuantity weight, gboolean metric, FlRounding rounding)
{
  if (!fl_quantity_known (weight))
    return g_strdup (_("not known"));
  return fl_quantity_format (weight, metric, FALSE, rounding);
}

char *
fl_phrase_length (FlQuantity length, gboolean metric, FlRounding rounding)
{
  if (!fl_quantity_known (length))
    return g_strdup (_("not known"));
  return fl_quantity_format (length, metric, TRUE, rounding);
}

char *
fl_phrase_tape (FlQuantity length, gboolean metric, FlRounding rounding)
{
  const double inches = fl_quantity_in (length, FL_UNIT_IN);
  gint whole = 0;

  /* A length of whole inches that was entered in metres is not an inch more. */
  if (fl_quantity_known (length))
    whole = (gint) (rounding == FL_ROUND_UP     ? ceil (inches * (1.0 - FL_TOLERANCE))
                    : rounding == FL_ROUND_DOWN ? floor (inches * (1.0 + FL_TOLERANCE))
                                                : floor (inches + 0.5));
  if (metric || whole < 12)
    return fl_phrase_length (length, metric, rounding);
  return g_strdup_printf (_("%d ft %d in"), whole / 12, whole % 12);
}

/* The machine of a load as the assessment holds it, in its chosen position. */
static const FlMachine *
machine_of (const FlAssessment *assessment, guint load)
{
  const FlPlanChoices *choices = fl_plan_choices (fl_assessment_plan (assessment));
  const FlPlanLoad *placed = load < choices->n_loads ? &choices->loads[load] : NULL;
  const FlRecord *record;

  if (placed == NULL)
    return NULL;
  record = fl_assessment_record (assessment, placed->article ? FL_KIND_ARTICLE : FL_KIND_MACHINE, placed->id);
  return record != NULL ? fl_machine_in_position (fl_record_machine (record), placed->position) : NULL;
}

char *
fl_phrase_point (const FlAssessment *assessment, guint load, const char *point)
{
  const FlMachine *machine = machine_of (assessment, load);
  const FlTiePoint *found = machine != NULL ? fl_machine_point (machine, point) : NULL;

  if (found != NULL && found->name != NULL)
    return g_strdup (found->name);
  return g_strdup (point);
}

char *
fl_phrase_from (const FlAssessment *assessment, const FlTieDown *tie)
{
  g_autofree char *first = NULL;

  if (!tie->over)
    return fl_phrase_point (assessment, tie->load, tie->point);
  if (tie->through == NULL || tie->through[0] == NULL)
    return g_strdup (_("over the load"));
  first = fl_phrase_point (assessment, tie->load, tie->through[0]);
  return g_strdup_printf (_("over %s"), first);
}

char *
fl_phrase_to (const FlTieDown *tie)
{
  if (tie->anchors[1] != NULL)
    return g_strdup_printf (_("%s and %s"), tie->anchors[0], tie->anchors[1]);
  return g_strdup (tie->anchors[0] != NULL ? tie->anchors[0] : "");
}

char *
fl_phrase_tie (const FlAssessment *assessment, gsize index, gboolean metric)
{
  const FlTieDown *tie = &fl_plan_choices (fl_assessment_plan (assessment))->tie_downs[index];
  const FlTieResult *result = &fl_assessment_parts (assessment)->ties[index];
  g_autofree char *from = fl_phrase_from (assessment, tie);
  g_autofree char *to = fl_phrase_to (tie);
  g_autofree char *limit = fl_phrase_weight (result->wll, metric, FL_ROUND_DOWN);

  return g_strdup_printf (_("Tie-down %u, %s to %s, limit %s"), tie->no, from, to, limit);
}

/* Takes the text. */
static char *
begun_with_capital (char *text)
{
  g_autofree char *owned = text;
  char first[7] = { 0 };

  g_unichar_to_utf8 (g_unichar_toupper (g_utf8_get_char (owned)), first);
  return *owned != '\0' ? g_strconcat (first, g_utf8_next_char (owned), NULL) : g_steal_pointer (&owned);
}

char *
fl_phrase_finding (const FlWords *words, const FlFinding *finding, gboolean metric)
{
  return begun_with_capital (fl_words_finding (words, finding, metric));
}

char *
fl_phrase_message (const FlWords *words, const FlMessage *message, gboolean metric)
{
  return begun_with_capital (fl_words_message (words, message->message, message->facts, message->n_facts, metric));
}

const char *
fl_phrase_citation (const FlFinding *finding)
{
  if (finding->citation == NULL || g_str_has_prefix (finding->citation, "ours"))
    return _("own reasoning");
  return finding->citation;
}

static char *
quantity_text (FlQuantity q, gboolean metric)
{
  const gboolean feet = fl_quantity_in (q, FL_UNIT_IN) >= 72.0;

  return fl_quantity_format (q, metric, feet, FL_ROUND_NEAREST);
}

char *
fl_phrase_need_have (const FlFinding *finding, gboolean metric)
{
  g_autofree char *need = NULL;
  g_autofree char *have = NULL;

  if (!fl_quantity_known (finding->need) || (finding->verdict == FL_MET && !fl_quantity_known (finding->have)))
    return NULL;
  need = quantity_text (finding->need, metric);
  have = quantity_text (finding->have, metric);
  return g_strdup_printf (_("need %s, have %s"), need, have);
}

char *
fl_phrase_tie_count (gsize n)
{
  return g_strdup_printf (ngettext ("%u tie-down", "%u tie-downs", (gulong) n), (guint) n);
}
