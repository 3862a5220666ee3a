/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The plan as a whole: does it carry what the move asks for, how well are its figures known, when is it to be looked at again. */
#include "fl-say.h"

#include <math.h>

/* ── the move's loads ── */

static gboolean
carries (const FlScene *scene, const FlMoveLoad *asked)
{
  const FlPlanChoices *c = scene->choices;

  for (gsize i = 0; i < c->n_loads; i++)
    if (c->loads[i].article == asked->article && strcmp (c->loads[i].id, asked->id) == 0)
      return TRUE;
  return FALSE;
}

static gboolean
asked_for (const FlMove *move, const FlPlanLoad *load)
{
  for (gsize i = 0; i < move->n_loads; i++)
    if (move->loads[i].article == load->article && strcmp (move->loads[i].id, load->id) == 0)
      return TRUE;
  return FALSE;
}

static void
say_move (const FlScene *scene, FlFindings *findings, FlVerdict verdict, const char *message, const char *name)
{
  fl_say (scene, findings, &(FlSaying) { .rule = "move", .standing = FL_BY_PRACTICE, .verdict = verdict, .subject = "move",
                                         .message = message, .facts = { FL_FACT_TEXT ("name", name != NULL ? name : "-") } });
}

void
fl_check_move (const FlScene *scene, FlFindings *findings)
{
  const FlMove *move = scene->move;

  for (gsize i = 0; i < move->n_loads; i++)
    if (!carries (scene, &move->loads[i]))
      say_move (scene, findings, FL_SHORT, N_("The move asks for {name}, which is not on this plan."), move->loads[i].id);
  for (gsize i = 0; i < scene->choices->n_loads; i++)
    if (!asked_for (move, &scene->choices->loads[i]))
      say_move (scene, findings, FL_SHORT, N_("{name} is on this plan, but the move does not ask for it."), scene->choices->loads[i].id);
  if (move->trailer != NULL && g_strcmp0 (move->trailer, scene->choices->trailer) != 0)
    say_move (scene, findings, FL_NOTE, N_("Another trailer than the {name} that was asked for."), move->trailer);
  if (move->truck != NULL && g_strcmp0 (move->truck, scene->choices->truck) != 0)
    say_move (scene, findings, FL_NOTE, N_("Another truck than the {name} that was asked for."), move->truck);
}

/* ── how well the weight is known ── */

void
fl_check_weight_basis (const FlScene *scene, FlFindings *findings)
{
  for (guint i = 0; i < scene->n_loads; i++)
    {
      const FlSceneLoad *load = &scene->loads[i];
      FlBasis basis = fl_basis_of (&load->machine->basis, "weight");

      fl_say (scene, findings, &(FlSaying) {
        .rule = "weight_basis", .standing = FL_BY_ADVICE, .verdict = basis.kind == FL_BASIS_TYPICAL ? FL_CAUTION : FL_MET,
        .subject = load->subject, .load = i + 1, .have = load->machine->weight, .basis = basis.text,
        .message = basis.kind == FL_BASIS_TYPICAL
                     ? N_("Its weight of {have} is typical of its class, not its own: weigh it, with its tool and mud.")
                     : N_("Its weight of {have} is known from: {basis}.") });
    }
}

/* ── what was not measured: one caution for the trailer, one for each machine ── */

static void
gather (FlNames *names, GHashTable *seen, const char *id)
{
  if (id != NULL && g_hash_table_add (seen, (gpointer) id))
    fl_names_add (names, id);
}

static void
unmeasured_anchors (const FlScene *scene, FlFindings *findings)
{
  g_auto(FlNames) names = { NULL, 0 };
  g_autoptr(GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < scene->n_ties; i++)
    {
      const FlSceneTie *tie = &scene->ties[i];
      gboolean opening = (tie->assembly.flags & FL_ASM_UNMEASURED_ANCHOR) != 0;

      for (guint k = 0; k < 2; k++)
        if (tie->anchors[k] != NULL && (opening || !fl_quantity_known (tie->anchors[k]->rated)))
          gather (&names, seen, tie->anchors[k]->id);
    }
  if (names.n > 0)
    fl_say (scene, findings, &(FlSaying) {
      .rule = "unmeasured", .standing = FL_BY_PRACTICE, .verdict = FL_CAUTION,
      .subject = fl_arena_printf (fl_findings_arena (findings), "trailer %s", scene->trailer->id),
      .message = N_("Rating or opening not on record for these anchors: {names}. Look that they are sound and that the hooks seat."),
      .facts = { FL_FACT_TEXT ("names", fl_names_text (&names)) } });
}

static void
unmeasured_openings (const FlScene *scene, FlFindings *findings, guint load)
{
  g_auto(FlNames) names = { NULL, 0 };
  g_autoptr(GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < scene->n_ties; i++)
    if (scene->ties[i].load == load && scene->ties[i].point != NULL && (scene->ties[i].assembly.flags & FL_ASM_UNMEASURED_POINT) != 0)
      gather (&names, seen, scene->ties[i].point->id);
  if (names.n > 0)
    fl_say (scene, findings, &(FlSaying) {
      .rule = "unmeasured", .standing = FL_BY_PRACTICE, .verdict = FL_CAUTION, .subject = scene->loads[load].subject, .load = load + 1,
      .message = N_("Opening or hook not measured at these points: {names}. Look that the hooks seat."),
      .facts = { FL_FACT_TEXT ("names", fl_names_text (&names)) } });
}

static void
unrated_points (const FlScene *scene, FlFindings *findings, guint load)
{
  g_auto(FlNames) provided = { NULL, 0 }, other = { NULL, 0 };
  g_autoptr(GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < scene->n_ties; i++)
    {
      const FlTiePoint *point = scene->ties[i].point;

      if (scene->ties[i].load != load || point == NULL || fl_quantity_known (point->rated))
        continue;
      gather (point->maker_provided ? &provided : &other, seen, point->id);
    }
  if (provided.n > 0)
    fl_say (scene, findings, &(FlSaying) {
      .rule = "unmeasured", .standing = FL_BY_PRACTICE, .verdict = FL_NOTE, .subject = scene->loads[load].subject, .load = load + 1,
      .message = N_("The maker gives these points for tying down, without a rating: {names}."),
      .facts = { FL_FACT_TEXT ("names", fl_names_text (&provided)) } });
  if (other.n > 0)
    fl_say (scene, findings, &(FlSaying) {
      .rule = "unmeasured", .standing = FL_BY_PRACTICE, .verdict = FL_CAUTION, .subject = scene->loads[load].subject, .load = load + 1,
      .message = N_("Nobody rated these points, and the maker does not provide them: {names}."),
      .facts = { FL_FACT_TEXT ("names", fl_names_text (&other)) } });
}

void
fl_check_unmeasured (const FlScene *scene, FlFindings *findings)
{
  unmeasured_anchors (scene, findings);
  for (guint i = 0; i < scene->n_loads; i++)
    {
      unmeasured_openings (scene, findings, i);
      unrated_points (scene, findings, i);
    }
}

/* ── re-check ── */

void
fl_check_recheck (const FlScene *scene, FlFindings *findings)
{
  const FlRecheck *r = &fl_book_data (scene->book)->recheck;

  fl_say (scene, findings, &(FlSaying) {
    .rule = "recheck", .standing = FL_BY_LAW, .verdict = FL_NOTE, .subject = "driver",
    .message = r->duty_change ? N_("Look at the load again within {within}, then at each change of duty, every {time} or {distance}, whichever comes first.")
                              : N_("Look at the load again within {within}, then every {time} or {distance}, whichever comes first."),
    .facts = { FL_FACT_QUANTITY ("within", r->within), FL_FACT_QUANTITY ("time", r->then_time),
               FL_FACT_QUANTITY ("distance", r->then_distance) } });
}
