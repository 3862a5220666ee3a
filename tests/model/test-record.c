/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One record: the keys that the example does not have, defaults, absent against null, edits that leave every other byte, and the typed view
 * that threads share. What is checked against is the format's own description; factors of units are exact by definition. */
#include <math.h>

#include "fl-test-example.h"

/* ── machines ── */

static const char EXCAVATOR[] =
  "{\"id\": \"E-1\", \"uid\": \"u-1\", \"kind\": \"excavator\", \"weight_kg\": 22000, \"length_m\": 9.5, \"width_mm\": 2990, \"height_ft\": 10.5,\n"
  " \"running_gear\": \"steel_tracks\", \"facings\": [\"rearward\"],\n"
  " \"contacts\": [{\"x_m\": 2, \"y_m\": 1.2, \"length_m\": 3.6, \"width_mm\": 600}, {\"x_m\": 2, \"y_m\": -1.2, \"braked\": false},\n"
  "  {\"x_m\": 6, \"y_m\": 0, \"running_gear\": \"rubber_tires\"}],\n"
  " \"tie_points\": [\n"
  "  {\"id\": \"L\", \"x_m\": 1, \"y_m\": 1.2, \"z_m\": 0.5, \"rated_wll_lb\": 9000, \"rating_is\": \"each\", \"takes\": 2, \"opening_in\": null,\n"
  "   \"pull\": {\"deck_angle_deg\": [10, 60], \"plan_angle_deg\": [-30, 30.5], \"run_ft\": [2, 12]}, \"caution\": \"keep off the hose\"},\n"
  "  {\"id\": \"R\", \"x_m\": 1, \"y_m\": -1.2, \"z_m\": 0.5, \"rated_lc_dan\": 4000, \"maker_provided\": false, \"fitting\": \"axle\"},\n"
  "  {\"id\": \"B\", \"x_m\": 8, \"y_m\": 0, \"z_m\": 0.4, \"rated_wll_lb\": null}],\n"
  " \"locks\": [{\"id\": \"SW\", \"kind\": \"swing\", \"fitted\": null}, {\"id\": \"BM\", \"kind\": \"boom\", \"on_machine\": true, \"stowed_at\": \"cab\"}],\n"
  " \"implements\": [{\"id\": \"BKT\", \"lock\": \"BM\", \"tie_points\": [\"B\"], \"min_tie_downs\": 2, \"can_lower\": false,\n"
  "  \"over_paths\": [{\"id\": \"OVER\", \"name\": \"over the bucket\", \"edge\": true, \"points\": [{\"x_m\": 8, \"y_m\": 0.4, \"z_m\": 0.9},\n"
  "   {\"x_m\": 8, \"y_m\": -0.4, \"z_m\": 0.9}]}]}],\n"
  " \"basis\": {\"weight\": \"plate\", \"width\": \"Manual, page 7\"},\n"
  " \"positions\": [{\"id\": \"tucked\", \"length_in\": 330, \"x_max_in\": 340, \"height_mm\": 3000, \"weight_lb\": 48000, \"basis\": {\"height\": \"tape\"},\n"
  "   \"articulation\": {\"x_m\": 2}},\n"
  "  {\"id\": \"other\", \"tie_points\": [{\"id\": \"B\", \"x_m\": 7, \"y_m\": 0, \"z_m\": 1}], \"center_of_gravity\": {\"x_m\": 3}}]}";

static void
test_machine (void)
{
  g_autoptr(FlRecord) record = good_record (FL_KIND_MACHINE, EXCAVATOR);
  const FlMachine *machine = fl_record_machine (record);
  const FlTiePoint *left = fl_machine_point (machine, "L");

  g_assert_cmpstr (fl_record_id (record), ==, "E-1");
  g_assert_cmpstr (fl_record_uid (record), ==, "u-1");
  g_assert_cmpuint (machine->facings, ==, FL_MAY_FACE_REARWARD);
  assert_quantity (machine->weight, 22000, FL_UNIT_KG);
  assert_quantity (machine->length, 9.5, FL_UNIT_M);
  assert_quantity (machine->x_max, 9.5, FL_UNIT_M);
  assert_quantity (machine->height, 10.5, FL_UNIT_FT);
  g_assert_cmpint (machine->cg.x.unit, ==, FL_UNIT_NONE);
  g_assert_cmpint (machine->max_ramp.unit, ==, FL_UNIT_NONE);
  g_assert_false (machine->articulated);
  g_assert_cmpint (machine->contacts[0].gear, ==, FL_STEEL_TRACKS);    /* the machine's own */
  g_assert_cmpint (machine->contacts[0].braked, ==, FL_IS);            /* true for tracks, else unknown */
  g_assert_cmpint (machine->contacts[1].braked, ==, FL_IS_NOT);
  g_assert_cmpint (machine->contacts[2].braked, ==, FL_NOT_LOOKED);
  g_assert_cmpint (machine->contacts[1].length.unit, ==, FL_UNIT_NONE);
  g_assert_true (left->rated_each);
  g_assert_cmpint (left->takes, ==, 2);
  g_assert_cmpint (left->opening.unit, ==, FL_UNIT_NULL);
  g_assert_cmpint (left->bar.unit, ==, FL_UNIT_NONE);
  g_assert_cmpfloat (left->pull_deck_hi, ==, 60);
  g_assert_cmpfloat (left->pull_plan_lo, ==, -30);
  g_assert_cmpfloat (left->pull_plan_hi, ==, 30.5);
  assert_quantity (left->pull_run_lo, 2, FL_UNIT_FT);
  assert_quantity (left->pull_run_hi, 12, FL_UNIT_FT);
  g_assert_cmpstr (left->caution, ==, "keep off the hose");
  assert_quantity (fl_machine_point (machine, "R")->rated, 4000, FL_UNIT_DAN);
  g_assert_false (fl_machine_point (machine, "R")->maker_provided);
  g_assert_cmpint (fl_machine_point (machine, "B")->rated.unit, ==, FL_UNIT_NULL);
  g_assert_cmpint (fl_basis_of (&machine->basis, "width").kind, ==, FL_BASIS_MANUAL);
  g_assert_cmpint (fl_basis_of (&machine->basis, "weight").kind, ==, FL_BASIS_PLATE);
}

static void
test_implement (void)
{
  g_autoptr(FlRecord) record = good_record (FL_KIND_MACHINE, EXCAVATOR);
  const FlMachine *machine = fl_record_machine (record);
  const FlImplement *bucket = fl_machine_implement (machine, "BKT");
  const FlOverPath *path = fl_implement_over_path (bucket, "OVER");

  g_assert_cmpint (machine->locks[0].kind, ==, FL_LOCK_SWING);
  g_assert_cmpint (machine->locks[0].fitted, ==, FL_IS_NOT);
  g_assert_cmpint (machine->locks[0].on_machine, ==, FL_NOT_LOOKED);
  g_assert_cmpint (machine->locks[1].on_machine, ==, FL_IS);
  g_assert_cmpint (machine->locks[1].fitted, ==, FL_NOT_LOOKED);
  g_assert_cmpstr (machine->locks[1].stowed_at, ==, "cab");
  g_assert_cmpstr (bucket->lock, ==, "BM");
  g_assert_false (bucket->can_lower);
  g_assert_cmpint (bucket->min_tie_downs, ==, 2);
  g_assert_true (path->edge);
  g_assert_cmpuint (path->n_points, ==, 2);
  assert_quantity (path->points[1].y, -0.4, FL_UNIT_M);
  g_assert_null (fl_implement_over_path (bucket, "UNDER"));
  g_assert_null (fl_machine_implement (machine, NULL));
}

/* A position is the whole machine with that position's members in place, in whatever unit they come. */
static void
test_positions (void)
{
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(FlRecord) record = fl_record_new (FL_KIND_MACHINE, EXCAVATOR, -1, "machines[4]", 100, problems);
  const FlMachine *machine = fl_record_machine (record), *tucked = fl_machine_in_position (machine, "tucked");
  const FlMachine *other = fl_machine_in_position (machine, "other");

  g_assert_cmpuint (machine->n_positions, ==, 2);
  assert_quantity (tucked->length, 330, FL_UNIT_IN);
  assert_quantity (tucked->x_max, 340, FL_UNIT_IN);
  assert_quantity (tucked->x_min, 10, FL_UNIT_IN);             /* what is not given follows from the length */
  assert_quantity (tucked->weight, 48000, FL_UNIT_LB);
  assert_quantity (tucked->height, 3000, FL_UNIT_MM);
  assert_quantity (tucked->width, 2990, FL_UNIT_MM);
  g_assert_true (tucked->articulated);
  g_assert_cmpuint (tucked->facings, ==, FL_MAY_FACE_REARWARD);
  g_assert_cmpint (fl_basis_of (&tucked->basis, "height").kind, ==, FL_BASIS_TAPE);
  g_assert_cmpint (fl_basis_of (&tucked->basis, "weight").kind, ==, FL_BASIS_PLATE);
  g_assert_cmpuint (other->n_tie_points, ==, 1);
  assert_quantity (fl_machine_point (other, "B")->x, 7, FL_UNIT_M);
  g_assert_cmpuint (machine->n_tie_points, ==, 3);
  assert_quantity (other->cg.x, 3, FL_UNIT_M);
  assert_quantity (other->x_max, 9.5, FL_UNIT_M);
  g_assert_false (other->articulated);
}

static void
one_problem (FlKind kind, const char *text, const char *path, FlSeverity severity)
{
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(FlRecord) record = fl_record_new (kind, text, -1, "r", 10, problems);

  for (guint i = 0; i < fl_problems_count (problems); i++)
    g_test_message ("%s: %s", fl_problems_at (problems, i)->path, fl_problems_at (problems, i)->expected);
  g_assert_cmpuint (fl_problems_count (problems), ==, 1);
  g_assert_cmpstr (fl_problems_at (problems, 0)->path, ==, path);
  g_assert_cmpint (fl_problems_at (problems, 0)->severity, ==, severity);
  g_assert_true ((record == NULL) == (severity == FL_SEVERITY_ERROR));
}

static void
machine_slip (const char *from, const char *to, const char *path, FlSeverity severity)
{
  g_autofree char *text = with_change (EXCAVATOR, from, to, NULL);

  one_problem (FL_KIND_MACHINE, text, path, severity);
}

static void
test_machine_slips (void)
{
  const FlSeverity error = FL_SEVERITY_ERROR, warning = FL_SEVERITY_WARNING;

  machine_slip ("[10, 60]", "[60, 10]", "r.tie_points[0].pull.deck_angle_deg", error);
  machine_slip ("[10, 60]", "[10]", "r.tie_points[0].pull.deck_angle_deg", error);
  machine_slip ("[10, 60]", "[10, \"60\"]", "r.tie_points[0].pull.deck_angle_deg[1]", error);
  machine_slip ("\"run_ft\": [2, 12]", "\"run_ft\": [2, 12000]", "r.tie_points[0].pull.run_ft", error);
  machine_slip ("\"run_ft\": [2, 12]", "\"run_ft\": [2, 12], \"run_in\": [24, 144]", "r.tie_points[0].pull.run_ft", error);
  machine_slip ("\"lock\": \"BM\"", "\"lock\": \"BK\"", "r.implements[0].lock", error);
  machine_slip ("\"id\": \"OVER\"", "\"id\": \"L\"", "r.implements[0].over_paths[0].id", error);
  machine_slip ("\"id\": \"SW\"", "\"id\": \"BM\"", "r.locks[1].id", error);
  machine_slip ("\"id\": \"other\"", "\"id\": \"tucked\"", "r.positions[1].id", error);
  machine_slip ("\"x_max_in\": 340", "\"x_max_in\": 340, \"x_min_in\": 350", "r.positions[0]", error);
  machine_slip ("\"x_max_in\": 340", "\"x_max_in\": 340, \"x_min_in\": 5", "r.positions[0]", warning);
  machine_slip ("[\"rearward\"]", "[]", "r.facings", error);
  machine_slip ("\"rating_is\": \"each\"", "\"rating_is\": \"all\"", "r.tie_points[0].rating_is", error);
  machine_slip ("\"takes\": 2", "\"takes\": 0", "r.tie_points[0].takes", error);
  machine_slip ("\"height_mm\": 3000", "\"height_mm\": null", "r.positions[0].height_mm", error);
  machine_slip ("\"plate\"", "7", "r.basis.weight", error);
}

static void
test_article (void)
{
  g_autoptr(FlRecord) record = good_record (FL_KIND_ARTICLE, "{\"id\": \"A\", \"weight_lb\": 900, \"length_in\": 48, \"width_in\": 40, \"height_in\": 30,"
                                            " \"tie_points\": [{\"id\": \"1\", \"x_in\": 1, \"y_in\": 2, \"z_in\": 3}], \"yard\": \"N\", \"notes\": \"x\"}");
  const FlMachine *article = fl_record_machine (record);

  g_assert_true (article->article);
  g_assert_cmpuint (article->n_tie_points, ==, 1);
  g_assert_null (article->kind);
  g_assert_cmpint (article->running_gear, ==, FL_GEAR_UNKNOWN);
  g_assert_null (fl_record_trailer (record));
  g_assert_null (fl_record_piece (record));
}

/* ── trailers ── */

static const char LOWBOY[] =
  "{\"id\": \"T\", \"yard\": \"N\", \"kind\": \"lowboy\", \"deck\": {\"length_ft\": 24, \"width_in\": 102, \"height_in\": 22, \"surface\": \"steel\",\n"
  "  \"zones\": [{\"id\": \"well\", \"x0_ft\": 0, \"x1_ft\": 24, \"surface\": \"wood\"},\n"
  "   {\"id\": \"neck\", \"x0_ft\": 24, \"x1_ft\": 34, \"z_in\": 22, \"blocks_forward\": true, \"block_rated_lb\": 20000}],\n"
  "  \"front_stop\": {\"x_ft\": 24}},\n"
  " \"axles\": [{\"x_in\": -40, \"tare_lb\": 4000, \"group\": 1, \"share\": 0.4}, {\"x_in\": -90, \"tare_lb\": 4000, \"group\": 1, \"share\": 0.6}],\n"
  " \"hinge_x_in\": 30, \"clear_width_in\": 96, \"solids\": [{\"min\": {\"x_in\": 1, \"y_in\": 1, \"z_in\": 1}, \"max\": {\"x_in\": 2, \"y_in\": 2, \"z_in\": 2}}],\n"
  " \"anchors\": [{\"id\": \"C9\", \"x_ft\": 1, \"y_in\": 0, \"z_in\": 0, \"rated_wll_lb\": null, \"takes\": 2}],\n"
  " \"anchor_rows\": [{\"id\": \"RA\", \"sides\": [\"right\"], \"first_x_ft\": 1, \"spacing_in\": 18, \"count\": 2, \"y_in\": 51, \"z_in\": -1, \"fitting\": \"rub_rail\"},\n"
  "  {\"id\": \"LB\", \"sides\": [\"left\"], \"first_x_mm\": 304.8, \"spacing_ft\": 1, \"count\": 1, \"y_in\": 51, \"z_in\": 0}]}";

static void
test_trailer (void)
{
  g_autoptr(FlRecord) record = good_record (FL_KIND_TRAILER, LOWBOY);
  const FlTrailer *trailer = fl_record_trailer (record);
  static const char *const order[] = { "LB1L", "C9", "RA1R", "RA2R" };

  g_assert_cmpuint (trailer->n_zones, ==, 2);           /* the well carries at the main deck: nothing is added */
  g_assert_cmpstr (trailer->zones[0].id, ==, "well");
  g_assert_cmpstr (trailer->zones[0].surface, ==, "wood");
  assert_quantity (trailer->zones[0].z, 0, FL_UNIT_IN);
  g_assert_true (trailer->zones[1].carries);
  g_assert_true (trailer->zones[1].blocks_forward);
  assert_quantity (trailer->zones[1].block_rated, 20000, FL_UNIT_LB);
  g_assert_true (trailer->has_front_stop);
  assert_quantity (trailer->front_stop_x, 24, FL_UNIT_FT);
  g_assert_cmpint (trailer->front_stop_rated.unit, ==, FL_UNIT_NONE);
  g_assert_false (trailer->coupling.present);           /* a rollback has none */
  g_assert_cmpfloat (trailer->axles[1].share, ==, 0.6);
  assert_quantity (trailer->hinge_x, 30, FL_UNIT_IN);
  g_assert_cmpuint (trailer->n_solids, ==, 1);
  g_assert_cmpuint (trailer->n_anchors, ==, 4);
  for (guint i = 0; i < G_N_ELEMENTS (order); i++)
    g_assert_cmpstr (trailer->anchors[i].id, ==, order[i]);
  g_assert_cmpint (trailer->anchors[1].side, ==, 'C');
  g_assert_cmpint (trailer->anchors[1].rated.unit, ==, FL_UNIT_NULL);
  g_assert_cmpint (trailer->anchors[1].takes, ==, 2);
  assert_quantity (trailer->anchors[3].x, 2.5, FL_UNIT_FT);    /* 1 ft + 18 in */
  assert_quantity (trailer->anchors[3].y, -51, FL_UNIT_IN);
  g_assert_cmpstr (trailer->anchors[3].fitting, ==, "rub_rail");
}

/* A flat main zone stands first where no zone carries at the main deck, under an id that is free. */
static void
test_main_zone (void)
{
  static const char *const zones[][2] = {
    { "", "main" },
    { "{\"id\": \"neck\", \"x0_in\": 200, \"x1_in\": 300, \"z_in\": 40}", "main" },
    { "{\"id\": \"main\", \"x0_in\": -60, \"x1_in\": 0, \"slope_deg\": 8}", "main deck" },
    { "{\"id\": \"x\", \"x0_in\": 0, \"x1_in\": 200, \"carries\": false}", "main" },
    { "{\"id\": \"half\", \"x0_in\": 0, \"x1_in\": 100}", "half" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (zones); i++)
    {
      g_autofree char *text = g_strdup_printf ("{\"id\": \"T\", \"yard\": \"N\", \"kind\": \"k\", \"deck\": {\"length_in\": 200, \"width_in\": 90, \"height_in\": 30,"
                                               " \"zones\": [%s]}, \"anchors\": [], \"axles\": [{\"x_in\": 9, \"tare_lb\": 9}]}", zones[i][0]);
      g_autoptr(FlRecord) record = good_record (FL_KIND_TRAILER, text);
      const FlTrailer *trailer = fl_record_trailer (record);

      g_assert_cmpstr (trailer->zones[0].id, ==, zones[i][1]);
      g_assert_cmpuint (trailer->n_zones, ==, (*zones[i][0] == '\0' || i == 4) ? 1 : 2);
    }
}

static void
trailer_slip (const char *from, const char *to, const char *path)
{
  g_autofree char *text = with_change (LOWBOY, from, to, NULL);

  one_problem (FL_KIND_TRAILER, text, path, FL_SEVERITY_ERROR);
}

static void
test_trailer_slips (void)
{
  trailer_slip ("\"x0_ft\": 24", "\"x0_ft\": 20", "r.deck.zones[1]");          /* over the well, and both carry */
  trailer_slip ("\"id\": \"neck\"", "\"id\": \"well\"", "r.deck.zones[1].id");
  trailer_slip ("\"share\": 0.6", "\"share\": 0.7", "r.axles");
  trailer_slip (", \"share\": 0.6", "", "r.axles");
  trailer_slip ("\"RA\"", "\"R1\"", "r.anchor_rows[0].id");
  trailer_slip ("\"C9\"", "\"RA2R\"", "r.anchor_rows[0].id");
  trailer_slip ("[\"right\"]", "[]", "r.anchor_rows[0].sides");
  trailer_slip ("\"count\": 2, ", "", "r.anchor_rows[0].count");
  trailer_slip ("{\"x_ft\": 24}", "{}", "r.deck.front_stop.x");
  trailer_slip ("\"hinge_x_in\": 30", "\"tare_lb\": 9000, \"gvwr_lb\": 8000", "r");
  trailer_slip ("\"axles\": [{\"x_in\": -40, \"tare_lb\": 4000, \"group\": 1, \"share\": 0.4}, {\"x_in\": -90, \"tare_lb\": 4000, \"group\": 1, \"share\": 0.6}]",
                "\"axles\": []", "r.axles");
}

/* ── gear ── */

static void
test_chain (void)
{
  g_autoptr(FlRecord) record = good_record (
    FL_KIND_CHAIN, "{\"id\": \"C\", \"kept_at\": \"N\", \"size_mm\": 10, \"length_m\": 4, \"tag_wll_lb\": null, \"tag_legible\": false, \"hook\": \"clevis_grab\","
    " \"hook_needs_mm\": 50, \"hook_wll_lb\": null, \"ends\": [{\"hook\": \"slip\", \"needs_in\": 1.2}, {}], \"inspections\": ["
    "  {\"date\": \"2026-05-01\", \"findings\": [{\"kind\": \"repair\", \"repair_link\": \"lap_link\"}]},"
    "  {\"date\": \"2026-10-01\", \"by\": \"someone\", \"findings\": [{\"kind\": \"repair\", \"repair_link\": \"clevis\", \"wll_lb\": 6600, \"note\": \"ok\"}]},"
    "  {\"date\": \"2025-12-31\"}]}");
  const FlChain *chain = fl_record_chain (record);

  g_assert_cmpstr (chain->size_text, ==, "10 mm");
  g_assert_true (chain->size_metric);
  g_assert_cmpfloat_with_epsilon (chain->size_in, 10 / 25.4, 1e-12);
  g_assert_cmpint (chain->mark_seen, ==, FL_NOT_LOOKED);
  g_assert_null (chain->mark);
  g_assert_cmpint (chain->tag_wll.unit, ==, FL_UNIT_NULL);
  g_assert_cmpint (chain->tag_legible, ==, FL_IS_NOT);
  g_assert_cmpint (chain->ends[0].hook, ==, FL_HOOK_SLIP);             /* `ends` over what both have in common */
  assert_quantity (chain->ends[0].needs, 1.2, FL_UNIT_IN);
  g_assert_cmpint (chain->ends[0].wll.unit, ==, FL_UNIT_NULL);
  g_assert_cmpint (chain->ends[1].hook, ==, FL_HOOK_CLEVIS_GRAB);
  assert_quantity (chain->ends[1].needs, 50, FL_UNIT_MM);
  g_assert_cmpint (chain->piece.count, ==, 1);
  g_assert_cmpuint (chain->piece.n_inspections, ==, 3);
  g_assert_cmpstr (chain->piece.newest->date, ==, "2026-10-01");       /* the newest counts, wherever it stands */
  g_assert_cmpstr (chain->piece.newest->findings[0].repair_link, ==, "clevis");
  assert_quantity (chain->piece.newest->findings[0].wll, 6600, FL_UNIT_LB);
  g_assert_true (fl_record_piece (record) == &chain->piece);
  g_assert_true (fl_hook_is_grab (FL_HOOK_CLEVIS_GRAB) && fl_hook_is_grab (FL_HOOK_GRAB));
  g_assert_false (fl_hook_is_grab (FL_HOOK_SLIP) || fl_hook_is_grab (FL_HOOK_UNKNOWN) || fl_hook_is_grab (FL_HOOK_NONE));
}

static void
test_other_gear (void)
{
  g_autoptr(FlRecord) binder = good_record (FL_KIND_BINDER, "{\"id\": \"B\", \"kept_at\": \"N\", \"chain_sizes\": [\"10 mm\", \"1-1/4\"], \"wll_lb\": null}");
  g_autoptr(FlRecord) strap = good_record (FL_KIND_STRAP, "{\"id\": \"S\", \"kept_at\": \"N\", \"width_mm\": 100, \"length_ft\": 30, \"tag_lc_dan\": 2500,"
                                           " \"tag_legible\": null, \"ends\": [{\"hook\": \"none\"}, {\"needs_in\": 2}]}");
  g_autoptr(FlRecord) link = good_record (FL_KIND_CONNECTOR, "{\"id\": \"L\", \"kept_at\": \"N\", \"wll_lb\": null, \"count\": 999}");
  const FlBinder *b = fl_record_binder (binder);
  const FlStrap *s = fl_record_strap (strap);

  g_assert_cmpint (b->kind, ==, FL_BINDER_UNKNOWN);
  g_assert_cmpint (b->wll.unit, ==, FL_UNIT_NULL);
  g_assert_cmpfloat_with_epsilon (b->sizes_in[0], 10 / 25.4, 1e-12);
  g_assert_cmpfloat (b->sizes_in[1], ==, 1.25);
  g_assert_cmpstr (s->width_text, ==, "100 mm");
  assert_quantity (s->tag_wll, 2500, FL_UNIT_DAN);
  g_assert_cmpint (s->tag_legible, ==, FL_IS_NOT);
  g_assert_cmpint (s->tensioner, ==, FL_TENSIONER_UNKNOWN);
  g_assert_cmpint (s->ends[0].hook, ==, FL_HOOK_NONE);
  g_assert_cmpint (s->ends[1].hook, ==, FL_HOOK_UNKNOWN);
  g_assert_cmpint (fl_record_connector (link)->wll.unit, ==, FL_UNIT_NULL);
  g_assert_cmpint (fl_record_connector (link)->kind, ==, FL_CONNECTOR_UNKNOWN);
  one_problem (FL_KIND_BINDER, "{\"id\": \"B\", \"kept_at\": \"N\"}", "r.chain_sizes", FL_SEVERITY_ERROR);
  one_problem (FL_KIND_BINDER, "{\"id\": \"B\", \"kept_at\": \"N\", \"chain_sizes\": []}", "r.chain_sizes", FL_SEVERITY_ERROR);
  one_problem (FL_KIND_CONNECTOR, "{\"id\": \"L\", \"kept_at\": \"N\"}", "r.wll", FL_SEVERITY_ERROR);
}

/* ── moves and the policy ── */

static FlRecord *
move_of (const char *members)
{
  g_autofree char *text = g_strdup_printf ("{\"id\": \"M\", \"date\": \"%s}", members);

  return good_record (FL_KIND_MOVE, text);
}

static void
test_move (void)
{
  g_autoptr(FlRecord) record = move_of ("2026-11-25\", \"loads\": [{\"machine\": \"X\"}, {\"article\": \"X\"}], \"depart\": \"22:00\", \"back\": \"01:30\","
                                        " \"attachments\": [\"forks\", \"bucket\"]");
  g_autoptr(FlRecord) bare = move_of ("1970-01-02\", \"machine\": \"X\"");
  const FlMove *move = fl_record_move (record);

  g_assert_cmpuint (move->n_loads, ==, 2);
  g_assert_false (move->loads[0].article);
  g_assert_true (move->loads[1].article);
  g_assert_cmpint (move->depart, ==, 22 * 60);
  g_assert_cmpint (move->back, ==, 25 * 60 + 30);               /* earlier than depart: the next day */
  g_assert_cmpstr (move->attachments[1], ==, "bucket");
  g_assert_cmpint (move->priority, ==, 1000);
  g_assert_true (isnan (move->miles));
  g_assert_null (move->trailer);
  g_assert_cmpint (fl_record_move (bare)->depart, ==, -1);
  g_assert_cmpint (fl_record_move (bare)->back, ==, -1);
  g_assert_cmpint (fl_record_move (bare)->height_limit.unit, ==, FL_UNIT_NONE);
}

/* Busy from depart to back plus turnaround; a missing time widens to the whole day. Days by the Gregorian calendar: 2026-11-25 is day
 * 20782 from 1970-01-01 (56 years with 14 leap days, then 328 days). */
static void
test_busy (void)
{
  g_autoptr(FlRecord) late = move_of ("2026-11-25\", \"machine\": \"X\", \"depart\": \"22:00\", \"back\": \"01:30\"");
  g_autoptr(FlRecord) early = move_of ("2026-11-26\", \"machine\": \"X\", \"depart\": \"02:00\", \"back\": \"03:00\"");
  g_autoptr(FlRecord) open = move_of ("2026-11-25\", \"machine\": \"X\", \"back\": \"05:00\"");
  g_autoptr(FlRecord) whole = move_of ("1970-01-02\", \"machine\": \"X\"");
  const gint64 day = (G_GINT64_CONSTANT (56) * 365 + 14 + 328) * 1440;
  gint64 from, to;

  fl_move_busy (fl_record_move (late), 30, &from, &to);
  g_assert_cmpint (from, ==, day + 22 * 60);
  g_assert_cmpint (to, ==, day + 26 * 60);
  fl_move_busy (fl_record_move (open), 30, &from, &to);
  g_assert_cmpint (from, ==, day);
  g_assert_cmpint (to, ==, day + 330);
  fl_move_busy (fl_record_move (whole), 0, &from, &to);
  g_assert_cmpint (from, ==, 1440);
  g_assert_cmpint (to, ==, 2880);
  g_assert_false (fl_moves_clash (fl_record_move (late), fl_record_move (early), 30));         /* 02:00 is just free again */
  g_assert_true (fl_moves_clash (fl_record_move (late), fl_record_move (early), 31));
  g_assert_true (fl_moves_clash (fl_record_move (early), fl_record_move (late), 31));
  g_assert_false (fl_moves_clash (fl_record_move (open), fl_record_move (late), 30));
  g_assert_true (fl_moves_clash (fl_record_move (late), fl_record_move (late), 0));
}

static void
test_policy (void)
{
  g_autoptr(FlRecord) record = good_record (
    FL_KIND_POLICY, "{\"house_rules\": [{\"rule\": \"min_wll_each\", \"wll_kg\": 2500}, {\"rule\": \"min_chain\", \"size_in\": \"3/8\", \"grade\": \"70\"},"
    " {\"rule\": \"no_straps_on_machines\"}, {\"rule\": \"four_below_threshold\"}, {\"rule\": \"length_count_too\"}, {\"rule\": \"ratchet_only\"},"
    " {\"rule\": \"inboard_of_rub_rail\"}, {\"rule\": \"deck_angle_band\", \"lo_deg\": 30, \"hi_deg\": 50},"
    " {\"rule\": \"stand_in_rating\", \"fitting\": \"d_ring\", \"wll_lb\": 5000}, {\"rule\": \"stand_in_rating\", \"fitting\": \"loop\", \"wll_lb\": 6000},"
    " {\"rule\": \"over_wide_blade_rear\", \"over_in\": 102}, {\"rule\": \"extra_aggregate_pct\", \"pct\": 10}, {\"rule\": \"chain_allowance\", \"length_in\": 18},"
    " {\"rule\": \"weight_margin_pct\", \"pct\": 5.5}, {\"rule\": \"implement_lock_suffices\"}, {\"rule\": \"height_margin\", \"length_mm\": 100}]}");
  const FlPolicy *policy = fl_record_policy (record);

  g_assert_cmpstr (fl_record_id (record), ==, "policy");
  g_assert_cmpuint (policy->n_rules, ==, 16);
  for (guint rule = 0; rule < FL_N_HOUSE_RULES; rule++)
    g_assert_cmpint (fl_policy_rule (policy, (FlHouseRuleId) rule)->rule, ==, rule);
  assert_quantity (fl_policy_rule (policy, FL_HOUSE_MIN_WLL_EACH)->wll, 2500, FL_UNIT_KG);
  g_assert_cmpstr (fl_policy_rule (policy, FL_HOUSE_MIN_CHAIN)->grade, ==, "70");
  g_assert_cmpfloat (fl_policy_rule (policy, FL_HOUSE_MIN_CHAIN)->size_in, ==, 0.375);
  g_assert_cmpfloat (fl_policy_rule (policy, FL_HOUSE_DECK_ANGLE_BAND)->hi_deg, ==, 50);
  g_assert_cmpstr (fl_policy_rule (policy, FL_HOUSE_STAND_IN_RATING)->fitting, ==, "d_ring");
  assert_quantity (fl_policy_rule (policy, FL_HOUSE_OVER_WIDE_BLADE_REAR)->width, 102, FL_UNIT_IN);
  g_assert_cmpfloat (fl_policy_rule (policy, FL_HOUSE_WEIGHT_MARGIN_PCT)->pct, ==, 5.5);
  assert_quantity (fl_policy_rule (policy, FL_HOUSE_HEIGHT_MARGIN)->length, 100, FL_UNIT_MM);
  g_assert_null (fl_policy_rule (NULL, FL_HOUSE_MIN_CHAIN));
  one_problem (FL_KIND_POLICY, "{\"house_rules\": [{\"rule\": \"extra_aggregate_pct\"}]}", "r.house_rules[0].pct", FL_SEVERITY_ERROR);
  one_problem (FL_KIND_POLICY, "{\"house_rules\": [{\"rule\": \"be_nice\", \"to\": 1}]}", "r.house_rules[0].rule", FL_SEVERITY_ERROR);
  one_problem (FL_KIND_POLICY, "{\"house_rules\": [{\"rule\": \"deck_angle_band\", \"lo_deg\": 50, \"hi_deg\": 30}]}", "r.house_rules[0].hi_deg",
               FL_SEVERITY_ERROR);
}

static void
test_names (void)
{
  for (guint kind = 0; kind < FL_N_KINDS; kind++)
    {
      g_assert_cmpuint (strlen (fl_kind_list ((FlKind) kind)), >, 0);
      g_assert_cmpuint (strlen (fl_kind_name ((FlKind) kind)), >, 0);
    }
  g_assert_cmpstr (fl_kind_list (FL_KIND_PERSON), ==, "people");
  g_assert_cmpstr (fl_kind_name (FL_KIND_PERSON), ==, "person");
  g_assert_cmpstr (fl_running_gear_id (FL_STEEL_DRUM), ==, "steel_drum");
  g_assert_cmpstr (fl_running_gear_id (FL_RUBBER_TRACKS), ==, "rubber_tracks");
  g_assert_null (fl_running_gear_id (FL_GEAR_UNKNOWN));
  g_assert_cmpstr (fl_basis_of (NULL, "weight").text, ==, "typical");
}

/* ── text ── */

static void
test_bad_text (void)
{
  static const char *const bad[] = { "", "{", "[]", "7", "{\"id\": \"N\"} x", "{\"id\": \"N\", \"id\": \"N\"}", "{\"id\": 1e999}" };

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autoptr(FlProblems) problems = fl_problems_new ();

      g_assert_null (fl_record_new (FL_KIND_YARD, bad[i], -1, "yards[2]", 7, problems));
      g_assert_cmpuint (fl_problems_errors (problems), >=, 1);
      g_assert_true (g_str_has_prefix (fl_problems_at (problems, 0)->path, "yards[2]"));
      g_assert_cmpuint (fl_problems_at (problems, 0)->line, ==, 7);
    }
  g_assert_null (fl_record_new (FL_KIND_YARD, "{}", -1, "", 1, NULL));
}

static void
test_equal (void)
{
  g_autoptr(FlRecord) one = good_record (FL_KIND_YARD, "{\"id\": \"N\"}");
  g_autoptr(FlRecord) same = good_record (FL_KIND_YARD, "{\"id\": \"N\"}");
  g_autoptr(FlRecord) spaced = good_record (FL_KIND_YARD, "{\"id\":  \"N\"}");
  g_autoptr(FlRecord) person = good_record (FL_KIND_PERSON, "{\"id\": \"N\"}");
  gsize length;

  g_assert_true (fl_record_equal (one, same));
  g_assert_false (fl_record_equal (one, spaced));
  g_assert_false (fl_record_equal (one, person));
  g_assert_cmpstr (fl_record_text (one, &length), ==, "{\"id\": \"N\"}");
  g_assert_cmpuint (length, ==, 11);
  g_assert_null (fl_record_uid (one));
}

typedef struct { const char *path, *value, *from, *to; } Edit;

/* What the text is after the edit: `from` replaced by `to`, and not one byte more. */
static void
check_edit (FlKind kind, const char *text, const Edit *edit)
{
  g_autoptr(FlRecord) record = good_record (kind, text);
  g_autoptr(GError) error = NULL;
  g_autoptr(JsonNode) value = edit->value == NULL ? NULL : json_from_string (edit->value, NULL);
  g_autoptr(FlRecord) changed = fl_record_with (record, edit->path, value, &error);
  g_autofree char *expected = with_change (text, edit->from, edit->to, NULL);

  g_assert_no_error (error);
  g_assert_cmpstr (fl_record_text (changed, NULL), ==, expected);
  g_assert_cmpstr (fl_record_text (record, NULL), ==, text);
}

static void
test_with (void)
{
  static const char chain[] =
    "{\n  \"id\" : \"C\", \"kept_at\":\"N\",\n  \"size_in\": \"3/8\",\n  \"x_own\": [1.50, {\"a\":2e0}],\n"
    "  \"length_ft\": 20,\n  \"ends\": [{\"hook\": \"grab\"}, {}]\n}";
  static const Edit edits[] = {
    { "length_ft", "44.3", "20", "44.3" },                                     /* the shortest number that reads back */
    { "length_ft", "25", "20", "25" },
    { "kept_at", "\"So\\\"uth\"", "\"N\"", "\"So\\\"uth\"" },
    { "mark", "null", "{}]\n", "{}],\n  \"mark\": null\n" },                   /* added in the style of what stands there */
    { "inspections", "[{\"date\": \"2026-11-02\", \"findings\": []}]", "{}]\n",
      "{}],\n  \"inspections\": [\n   {\n    \"date\": \"2026-11-02\",\n    \"findings\": []\n   }\n  ]\n" },
    { "ends[1].hook", "\"slip\"", "{}]", "{\"hook\": \"slip\"}]" },
    { "ends[0].needs_in", "2.4", "\"grab\"}", "\"grab\", \"needs_in\": 2.4}" },
    { "ends[0].hook", NULL, "{\"hook\": \"grab\"}", "{}" },
    { "ends", NULL, ",\n  \"ends\": [{\"hook\": \"grab\"}, {}]", "" },
    { "x_own", NULL, "\n  \"x_own\": [1.50, {\"a\":2e0}],", "" },
    { "x_own[0]", NULL, "1.50, ", "" },
    { "x_own[2]", "\"new\"", "2e0}]", "2e0}, \"new\"]" },
  };
  g_autoptr(FlProblems) problems = fl_problems_new ();

  for (guint i = 0; i < G_N_ELEMENTS (edits); i++)
    {
      g_autoptr(FlRecord) record = fl_record_new (FL_KIND_CHAIN, chain, -1, "", 1, problems);   /* x_own is a warning */
      g_autoptr(GError) error = NULL;
      g_autoptr(JsonNode) value = edits[i].value == NULL ? NULL : json_from_string (edits[i].value, NULL);
      g_autoptr(FlRecord) changed = fl_record_with (record, edits[i].path, value, &error);
      g_autofree char *expected = with_change (chain, edits[i].from, edits[i].to, NULL);

      g_assert_no_error (error);
      g_assert_cmpstr (fl_record_text (changed, NULL), ==, expected);
    }
}

static void
test_with_example (void)
{
  g_autofree char *text = test_data ("example-fleet.json");
  g_autoptr(FlFleet) fleet = good_fleet (text);
  const FlRecord *record = fl_fleet_find (fleet, FL_KIND_MACHINE, "R-03");
  const Edit edits[] = {
    { "tie_points[2].x_in", "206.5", "205", "206.5" },
    { "positions[0].height_in", "99", "98", "99" },
    { "basis.height", NULL, "\n    \"height\": \"tape\",", "" },
    { "locks[0].stowed_at", "\"behind the seat\"", "\"fitted\": true", "\"fitted\": true,\n     \"stowed_at\": \"behind the seat\"" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (edits); i++)
    check_edit (FL_KIND_MACHINE, fl_record_text (record, NULL), &edits[i]);
}

static void
test_with_errors (void)
{
  g_autoptr(FlRecord) record = good_record (FL_KIND_CHAIN, "{\"id\": \"C\", \"kept_at\": \"N\", \"size_in\": \"3/8\", \"length_ft\": 20}");
  g_autoptr(JsonNode) value = json_from_string ("-3", NULL);
  static const char *const nowhere[] = { "ends[0].hook", "inspections[0]", "length_ft.x", "id[0]", "" };
  g_autoptr(GError) error = NULL;

  for (guint i = 0; i < G_N_ELEMENTS (nowhere); i++)
    {
      g_assert_null (fl_record_with (record, nowhere[i], value, &error));
      g_assert_error (error, FL_RECORD_ERROR, FL_RECORD_ERROR_NO_MEMBER);
      g_clear_error (&error);
    }
  g_assert_null (fl_record_with (record, "mark", NULL, &error));
  g_assert_error (error, FL_RECORD_ERROR, FL_RECORD_ERROR_NO_MEMBER);
  g_clear_error (&error);
  g_assert_null (fl_record_with (record, "length_ft", value, &error));
  g_assert_error (error, FL_RECORD_ERROR, FL_RECORD_ERROR_BAD_VALUE);
  g_assert_cmpstr (error->message, ==, "chain \"C\": length_ft: -3: expected a number between 1 and 200 ft");
  g_clear_error (&error);
  g_assert_null (fl_record_with (record, "id", NULL, &error));
  g_assert_error (error, FL_RECORD_ERROR, FL_RECORD_ERROR_BAD_VALUE);
}

/* ── threads ── */

static gpointer
ask_for_view (gpointer record)
{
  return (gpointer) fl_record_machine (record);
}

/* Whoever asks first decodes; all get the same view. */
static void
test_threads (void)
{
  for (guint round = 0; round < 20; round++)
    {
      g_autoptr(FlRecord) record = fl_record_new_kept (FL_KIND_MACHINE, "E-1", "u-1", EXCAVATOR, -1);
      GThread *threads[4];
      gpointer views[4];

      g_assert_cmpstr (fl_record_id (record), ==, "E-1");
      for (guint i = 0; i < 4; i++)
        threads[i] = g_thread_new ("view", ask_for_view, record);
      for (guint i = 0; i < 4; i++)
        views[i] = g_thread_join (threads[i]);
      g_assert_nonnull (views[0]);
      for (guint i = 1; i < 4; i++)
        g_assert_true (views[i] == views[0]);
      g_assert_cmpstr (fl_record_machine (record)->kind, ==, "excavator");
    }
}

static void
test_kept_spoilt (void)
{
  g_autoptr(FlRecord) record = fl_record_new_kept (FL_KIND_YARD, "N", NULL, "{\"id\":", -1);

  g_assert_null (fl_record_yard (record));
  g_assert_null (fl_record_machine (record));
  g_assert_cmpstr (fl_record_id (record), ==, "N");
}

/* ── at random ── */

static void
test_random (void)
{
  static const struct { FlKind kind; const char *text; } texts[] = { { FL_KIND_MACHINE, EXCAVATOR }, { FL_KIND_TRAILER, LOWBOY } };
  static const char signs[] = "{}[]\",:0123456789.-eE\\ntfu #";
  GRand *rand = g_rand_new_with_seed (8);
  guint taken = 0;

  for (guint i = 0; i < (g_test_slow () ? 20000 : 400); i++)
    {
      g_autofree char *text = g_strdup (texts[i % 2].text);
      g_autoptr(FlProblems) problems = fl_problems_new ();
      g_autoptr(FlRecord) record = NULL;

      for (gint n = g_rand_int_range (rand, 1, 4); n > 0; n--)
        text[g_rand_int_range (rand, 0, (gint32) strlen (text))] = signs[g_rand_int_range (rand, 0, (gint32) sizeof signs - 1)];
      record = fl_record_new (texts[i % 2].kind, text, -1, "", 1, problems);
      g_assert_true ((record == NULL) == (fl_problems_errors (problems) > 0));
      taken += record != NULL;
    }
  g_assert_cmpuint (taken, >, 0);       /* a changed figure is often a figure still */
  g_rand_free (rand);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/record/machine", test_machine);
  g_test_add_func ("/record/implement", test_implement);
  g_test_add_func ("/record/positions", test_positions);
  g_test_add_func ("/record/machine-slips", test_machine_slips);
  g_test_add_func ("/record/article", test_article);
  g_test_add_func ("/record/trailer", test_trailer);
  g_test_add_func ("/record/main-zone", test_main_zone);
  g_test_add_func ("/record/trailer-slips", test_trailer_slips);
  g_test_add_func ("/record/chain", test_chain);
  g_test_add_func ("/record/other-gear", test_other_gear);
  g_test_add_func ("/record/move", test_move);
  g_test_add_func ("/record/busy", test_busy);
  g_test_add_func ("/record/policy", test_policy);
  g_test_add_func ("/record/names", test_names);
  g_test_add_func ("/record/bad-text", test_bad_text);
  g_test_add_func ("/record/equal", test_equal);
  g_test_add_func ("/record/with", test_with);
  g_test_add_func ("/record/with-example", test_with_example);
  g_test_add_func ("/record/with-errors", test_with_errors);
  g_test_add_func ("/record/threads", test_threads);
  g_test_add_func ("/record/kept-spoilt", test_kept_spoilt);
  g_test_add_func ("/record/random", test_random);
  return g_test_run ();
}
