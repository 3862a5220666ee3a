/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A fleet document as a whole: the example read member by member, written back byte for byte, what is on hand, dates and moves.
 * What is checked against is the format's own description and its example; the machine and its gear are invented. */
#include <math.h>

#include "fl-test-example.h"

#include "fl-plan.h"

static void
test_head (void)
{
  g_autoptr(FlFleet) fleet = example_fleet ();
  const FlPolicy *policy = fl_fleet_policy (fleet);
  static const gsize counts[FL_N_KINDS] = {
    [FL_KIND_YARD] = 1, [FL_KIND_PERSON] = 2, [FL_KIND_TRUCK] = 1, [FL_KIND_MACHINE] = 1, [FL_KIND_ARTICLE] = 1, [FL_KIND_TRAILER] = 1,
    [FL_KIND_CHAIN] = 6, [FL_KIND_BINDER] = 5, [FL_KIND_STRAP] = 1, [FL_KIND_CONNECTOR] = 1, [FL_KIND_MOVE] = 1, [FL_KIND_PLAN] = 0,
    [FL_KIND_POLICY] = 1,
  };

  g_assert_cmpstr (fl_fleet_name (fleet), ==, "Larkfield Drainage District");
  g_assert_false (fl_fleet_metric (fleet));
  g_assert_cmpstr (fl_fleet_rule_book (fleet), ==, "us-49cfr393");
  g_assert_cmpint (fl_fleet_turnaround (fleet), ==, 30);
  g_assert_cmpuint (policy->n_rules, ==, 1);
  g_assert_cmpint (policy->rules[0].rule, ==, FL_HOUSE_MIN_WLL_EACH);
  assert_quantity (fl_policy_rule (policy, FL_HOUSE_MIN_WLL_EACH)->wll, 5000, FL_UNIT_LB);
  g_assert_null (fl_policy_rule (policy, FL_HOUSE_MIN_CHAIN));
  for (guint kind = 0; kind < FL_N_KINDS; kind++)
    g_assert_cmpuint (fl_fleet_count (fleet, (FlKind) kind), ==, counts[kind]);
}

static void
test_defaults (void)
{
  g_autoptr(FlFleet) fleet = good_fleet ("{\"format\": \"fairlead-fleet/1\", \"name\": \"Bare\", \"units\": \"metric\"}");

  g_assert_true (fl_fleet_metric (fleet));
  g_assert_cmpstr (fl_fleet_rule_book (fleet), ==, "us-49cfr393");
  g_assert_cmpint (fl_fleet_turnaround (fleet), ==, 30);
  g_assert_nonnull (fl_fleet_policy (fleet));
  g_assert_cmpuint (fl_fleet_policy (fleet)->n_rules, ==, 0);
  g_assert_null (fl_fleet_at (fleet, FL_KIND_CHAIN, 0));
  g_assert_null (fl_fleet_find (fleet, FL_KIND_CHAIN, "C-041"));
  g_assert_null (fl_fleet_find (fleet, FL_KIND_CHAIN, NULL));
}

static void
test_people_and_trucks (void)
{
  g_autoptr(FlFleet) fleet = example_fleet ();
  const FlPerson *person = fl_record_person (fl_fleet_find (fleet, FL_KIND_PERSON, "P-01"));
  const FlTruck *truck = fl_record_truck (fl_fleet_find (fleet, FL_KIND_TRUCK, "K-2"));

  g_assert_cmpstr (fl_record_yard (fl_fleet_at (fleet, FL_KIND_YARD, 0))->name, ==, "North yard");
  g_assert_cmpuint (person->roles, ==, FL_ROLE_DISPATCHER | FL_ROLE_FLEET_LEAD);
  g_assert_cmpstr (person->language, ==, "en");
  g_assert_cmpstr (person->name, ==, "A. Dispatcher");
  g_assert_cmpstr (truck->yard, ==, "NORTH");
  g_assert_cmpstr (truck->name, ==, "Tandem dump truck");
  assert_quantity (truck->gvwr, 46000, FL_UNIT_LB);
  assert_quantity (truck->gcwr, 80000, FL_UNIT_LB);
  assert_quantity (truck->front_x, 228, FL_UNIT_IN);
  g_assert_true (truck->coupling.present);
  g_assert_cmpstr (truck->coupling.kind, ==, "pintle");
  assert_quantity (truck->coupling.x, -62, FL_UNIT_IN);
  assert_quantity (truck->coupling.rated_vertical, 10000, FL_UNIT_LB);
  assert_quantity (truck->coupling.rated_trailed, 50000, FL_UNIT_LB);
  g_assert_true (isnan (truck->coupling.share_lo));
  g_assert_cmpuint (truck->n_axles, ==, 3);
  g_assert_true (truck->axles[0].steer);
  g_assert_cmpint (truck->axles[0].group, ==, 1);
  assert_quantity (truck->axles[0].tare, 11000, FL_UNIT_LB);
  assert_quantity (truck->axles[2].x, 0, FL_UNIT_IN);
  assert_quantity (truck->axles[2].rated, 20000, FL_UNIT_LB);
  g_assert_false (truck->axles[2].steer);
  g_assert_true (isnan (truck->axles[2].share));
}

static void
test_machine (void)
{
  g_autoptr(FlFleet) fleet = example_fleet ();
  const FlMachine *machine = fl_record_machine (fl_fleet_find (fleet, FL_KIND_MACHINE, "R-03"));

  g_assert_cmpstr (machine->kind, ==, "single_drum_roller");
  g_assert_cmpstr (machine->name, ==, "Soil compactor, 84 in drum");
  g_assert_cmpstr (machine->yard, ==, "NORTH");
  g_assert_cmpstr (machine->notes, ==, "Water tank empty in transport.");
  g_assert_false (machine->article);
  assert_quantity (machine->weight, 22000, FL_UNIT_LB);
  assert_quantity (machine->length, 234, FL_UNIT_IN);
  assert_quantity (machine->width, 93, FL_UNIT_IN);
  assert_quantity (machine->height, 120, FL_UNIT_IN);
  assert_quantity (machine->max_ramp, 20, FL_UNIT_DEG);
  assert_quantity (machine->cg.x, 127, FL_UNIT_IN);
  assert_quantity (machine->cg.y, 0, FL_UNIT_IN);
  assert_quantity (machine->cg.z, 42, FL_UNIT_IN);
  assert_quantity (machine->x_min, 0, FL_UNIT_IN);
  assert_quantity (machine->x_max, 234, FL_UNIT_IN);
  g_assert_cmpuint (machine->facings, ==, FL_MAY_FACE_FORWARD | FL_MAY_FACE_REARWARD);
  g_assert_cmpint (fl_basis_of (&machine->basis, "weight").kind, ==, FL_BASIS_SCALE);
  g_assert_cmpstr (fl_basis_of (&machine->basis, "weight").text, ==, "scale ticket 2026-03-02");
  g_assert_cmpint (fl_basis_of (&machine->basis, "height").kind, ==, FL_BASIS_TAPE);
  g_assert_cmpint (fl_basis_of (&machine->basis, "width").kind, ==, FL_BASIS_TYPICAL);
  g_assert_cmpuint (machine->n_contacts, ==, 3);
  g_assert_cmpint (machine->contacts[0].gear, ==, FL_STEEL_DRUM);
  g_assert_cmpint (machine->contacts[0].braked, ==, FL_IS_NOT);
  g_assert_cmpint (machine->contacts[1].braked, ==, FL_IS);
  g_assert_cmpstr (machine->contacts[2].section, ==, "rear");
  assert_quantity (machine->contacts[2].y, -36, FL_UNIT_IN);
  assert_quantity (machine->contacts[0].width, 84, FL_UNIT_IN);
  g_assert_true (machine->articulated);
  g_assert_true (machine->joint_rolls);
  assert_quantity (machine->joint_x, 120, FL_UNIT_IN);
  assert_quantity (machine->joint_z, 34, FL_UNIT_IN);
}

static void
test_machine_parts (void)
{
  g_autoptr(FlFleet) fleet = example_fleet ();
  const FlMachine *machine = fl_record_machine (fl_fleet_find (fleet, FL_KIND_MACHINE, "R-03"));
  const FlTiePoint *point = fl_machine_point (machine, "BR");
  const FlImplement *blade = fl_machine_implement (machine, "BLD");

  g_assert_cmpuint (machine->n_tie_points, ==, 6);
  assert_quantity (point->x, 226, FL_UNIT_IN);
  assert_quantity (point->y, -30, FL_UNIT_IN);
  assert_quantity (point->z, 10, FL_UNIT_IN);
  assert_quantity (point->opening, 3.0, FL_UNIT_IN);
  assert_quantity (point->bar, 1.0, FL_UNIT_IN);
  g_assert_cmpstr (point->fitting, ==, "lug");
  g_assert_cmpstr (point->section, ==, "implement");
  g_assert_cmpint (point->rated.unit, ==, FL_UNIT_NONE);
  g_assert_cmpint (point->takes, ==, 1);
  g_assert_true (point->maker_provided);
  g_assert_false (point->rated_each);
  g_assert_true (isnan (point->pull_deck_lo));
  g_assert_null (fl_machine_point (machine, "XX"));
  g_assert_cmpuint (machine->n_locks, ==, 1);
  g_assert_cmpint (machine->locks[0].kind, ==, FL_LOCK_ARTICULATION);
  g_assert_cmpint (machine->locks[0].fitted, ==, FL_IS);
  g_assert_cmpint (machine->locks[0].on_machine, ==, FL_IS);
  g_assert_true (blade->can_lower);
  g_assert_cmpint (blade->min_tie_downs, ==, 1);
  g_assert_cmpstr (blade->tie_points[1], ==, "BR");
  g_assert_null (blade->tie_points[2]);
  g_assert_cmpuint (machine->n_solids, ==, 1);
  assert_quantity (machine->solids[0].max.x, 100, FL_UNIT_IN);
  g_assert_cmpstr (machine->keep_clear[0].name, ==, "hoses at the joint");
  assert_quantity (machine->keep_clear[0].min.y, -14, FL_UNIT_IN);
}

static void
test_position (void)
{
  g_autoptr(FlFleet) fleet = example_fleet ();
  const FlMachine *machine = fl_record_machine (fl_fleet_find (fleet, FL_KIND_MACHINE, "R-03"));
  const FlMachine *folded = fl_machine_in_position (machine, "folded");

  g_assert_true (fl_machine_in_position (machine, NULL) == machine);
  g_assert_null (fl_machine_in_position (machine, "stretched"));
  g_assert_null (machine->position);
  g_assert_cmpstr (folded->position, ==, "folded");
  g_assert_cmpstr (folded->position_name, ==, "ROPS folded");
  assert_quantity (folded->height, 98, FL_UNIT_IN);
  assert_quantity (folded->weight, 22000, FL_UNIT_LB);
  g_assert_cmpuint (folded->n_tie_points, ==, 6);
  g_assert_cmpstr (folded->id, ==, "R-03");
  g_assert_cmpuint (folded->n_positions, ==, 0);
}

static void
test_trailer (void)
{
  g_autoptr(FlFleet) fleet = example_fleet ();
  const FlTrailer *trailer = fl_record_trailer (fl_fleet_find (fleet, FL_KIND_TRAILER, "T-3"));

  g_assert_cmpstr (trailer->kind, ==, "tag");
  assert_quantity (trailer->deck_length, 288, FL_UNIT_IN);
  assert_quantity (trailer->deck_width, 102, FL_UNIT_IN);
  assert_quantity (trailer->deck_height, 35, FL_UNIT_IN);
  g_assert_cmpstr (trailer->surface, ==, "wood");
  g_assert_cmpuint (trailer->n_zones, ==, 2);           /* the flat main zone first, then the tail */
  g_assert_cmpstr (trailer->zones[0].id, ==, "main");
  assert_quantity (trailer->zones[0].x0, 0, FL_UNIT_IN);
  assert_quantity (trailer->zones[0].x1, 288, FL_UNIT_IN);
  assert_quantity (trailer->zones[0].z, 0, FL_UNIT_IN);
  g_assert_true (trailer->zones[0].carries);
  g_assert_cmpstr (trailer->zones[1].id, ==, "tail");
  g_assert_cmpfloat (trailer->zones[1].slope, ==, 10);
  g_assert_false (trailer->zones[1].carries);
  g_assert_false (trailer->has_front_stop);
  assert_quantity (trailer->load_angle, 13, FL_UNIT_DEG);
  assert_quantity (trailer->tare, 10200, FL_UNIT_LB);
  assert_quantity (trailer->gvwr, 50000, FL_UNIT_LB);
  assert_quantity (trailer->capacity, 39800, FL_UNIT_LB);
  g_assert_cmpuint (trailer->n_concentrated, ==, 1);
  assert_quantity (trailer->concentrated[0].span, 120, FL_UNIT_IN);
  g_assert_cmpstr (trailer->coupling.kind, ==, "lunette");
  assert_quantity (trailer->coupling.tare, 1500, FL_UNIT_LB);
  g_assert_cmpfloat (trailer->coupling.share_lo, ==, 8);
  g_assert_cmpfloat (trailer->coupling.share_hi, ==, 15);
  g_assert_cmpuint (trailer->n_axles, ==, 2);
}

/* Rows expand to id + number from the rear + side; rear to front, left before right. */
static void
test_anchors (void)
{
  g_autoptr(FlFleet) fleet = example_fleet ();
  const FlTrailer *trailer = fl_record_trailer (fl_fleet_find (fleet, FL_KIND_TRAILER, "T-3"));
  const FlAnchor *front = fl_trailer_anchor (trailer, "P12R");
  static const char *const first[] = { "P1L", "D1L", "P1R", "P2L", "P2R", "P3L" };

  g_assert_cmpuint (trailer->n_anchors, ==, 25);
  for (guint i = 0; i < G_N_ELEMENTS (first); i++)
    g_assert_cmpstr (trailer->anchors[i].id, ==, first[i]);
  assert_quantity (front->x, 276, FL_UNIT_IN);          /* 12 + 11 x 24 */
  assert_quantity (front->y, -50, FL_UNIT_IN);
  assert_quantity (front->rated, 8000, FL_UNIT_LB);
  assert_quantity (front->opening, 3, FL_UNIT_IN);
  g_assert_cmpstr (front->fitting, ==, "stake_pocket");
  g_assert_cmpint (front->side, ==, 'R');
  g_assert_cmpuint (front->row_number, ==, 12);
  g_assert_cmpint (front->takes, ==, 1);
  g_assert_cmpuint (fl_trailer_anchor (trailer, "D1L")->row_number, ==, 0);
  assert_quantity (fl_trailer_anchor (trailer, "D1L")->bar, 0.75, FL_UNIT_IN);
  g_assert_null (fl_trailer_anchor (trailer, "P13L"));
  g_assert_null (fl_trailer_anchor (trailer, "P"));
}

static void
test_gear (void)
{
  g_autoptr(FlFleet) fleet = example_fleet ();
  const FlChain *chain = fl_record_chain (fl_fleet_find (fleet, FL_KIND_CHAIN, "C-041"));
  const FlChain *six = fl_record_chain (fl_fleet_find (fleet, FL_KIND_CHAIN, "C-3/8-20"));
  const FlBinder *binder = fl_record_binder (fl_fleet_find (fleet, FL_KIND_BINDER, "B-15"));
  const FlStrap *strap = fl_record_strap (fl_fleet_find (fleet, FL_KIND_STRAP, "S-04"));
  const FlConnector *shackle = fl_record_connector (fl_fleet_find (fleet, FL_KIND_CONNECTOR, "SH-01"));

  g_assert_cmpstr (chain->size_text, ==, "3/8");
  g_assert_cmpfloat (chain->size_in, ==, 0.375);
  g_assert_cmpstr (chain->mark, ==, "70");
  g_assert_cmpint (chain->mark_seen, ==, FL_IS);
  assert_quantity (chain->length, 16, FL_UNIT_FT);
  g_assert_cmpint (chain->ends[1].hook, ==, FL_HOOK_GRAB);
  assert_quantity (chain->ends[1].needs, 2.4, FL_UNIT_IN);
  g_assert_cmpint (chain->ends[0].wll.unit, ==, FL_UNIT_NONE);
  g_assert_cmpstr (chain->piece.newest->date, ==, "2026-11-02");
  g_assert_cmpstr (chain->piece.newest->by, ==, "P-01");
  g_assert_cmpint (six->mark_seen, ==, FL_IS_NOT);
  g_assert_cmpint (six->piece.count, ==, 6);
  g_assert_null (six->piece.newest);
  g_assert_cmpint (binder->kind, ==, FL_BINDER_LEVER);
  assert_quantity (binder->wll, 5400, FL_UNIT_LB);
  assert_quantity (binder->take_up, 4.5, FL_UNIT_IN);
  assert_quantity (binder->needs_run, 24, FL_UNIT_IN);
  g_assert_cmpuint (binder->n_sizes, ==, 2);
  g_assert_cmpfloat (binder->sizes_in[0], ==, 0.3125);
  g_assert_cmpstr (binder->size_texts[1], ==, "3/8");
  g_assert_cmpint (strap->tensioner, ==, FL_TENSIONER_RATCHET);
  g_assert_cmpint (strap->tag_legible, ==, FL_IS);
  assert_quantity (strap->tag_wll, 5400, FL_UNIT_LB);
  g_assert_cmpstr (strap->width_text, ==, "4 in");
  g_assert_cmpstr (strap->piece.newest->findings[0].kind, ==, "cut");
  assert_quantity (strap->piece.newest->findings[0].size, 0.25, FL_UNIT_IN);
  g_assert_cmpint (shackle->kind, ==, FL_CONNECTOR_SHACKLE);
  assert_quantity (shackle->wll, 17000, FL_UNIT_LB);
  assert_quantity (shackle->jaw, 1.4, FL_UNIT_IN);
  assert_quantity (shackle->pin, 1.13, FL_UNIT_IN);
}

static void
test_move (void)
{
  g_autoptr(FlFleet) fleet = example_fleet ();
  const FlMove *move = fl_record_move (fl_fleet_at (fleet, FL_KIND_MOVE, 0));

  g_assert_cmpstr (move->id, ==, "2026-11-25/01");
  g_assert_cmpuint (move->n_loads, ==, 1);
  g_assert_cmpstr (move->loads[0].id, ==, "R-03");
  g_assert_false (move->loads[0].article);
  g_assert_cmpint (move->depart, ==, 390);
  g_assert_cmpint (move->back, ==, 660);
  g_assert_cmpstr (move->depart_text, ==, "06:30");
  g_assert_cmpstr (move->to, ==, "Tern Lane culvert");
  g_assert_cmpstr (move->from, ==, "NORTH");
  g_assert_cmpstr (move->driver, ==, "P-02");
  g_assert_cmpfloat (move->miles, ==, 22);
  g_assert_cmpint (move->priority, ==, 2);
  g_assert_cmpstr (move->deck_state, ==, "wet");
  assert_quantity (move->height_limit, 162, FL_UNIT_IN);
  g_assert_cmpstr (fl_fleet_find_load (fleet, "A-1", TRUE) == NULL ? NULL : "found", ==, "found");
  g_assert_null (fl_fleet_find_load (fleet, "A-1", FALSE));
}

static void
test_round_trip (void)
{
  g_autofree char *text = test_data ("example-fleet.json"), *back = NULL;
  g_autoptr(FlFleet) fleet = good_fleet (text);

  back = json_of (fleet);
  g_assert_cmpstr (back, ==, text);
}

/* A byte order mark, Windows line ends and keys of others come back as they came. */
static void
test_round_trip_foreign (void)
{
  static const char text[] =
    "\xEF\xBB\xBF{\r\n\"name\":\"Foreign\" , \"format\":\"fairlead-fleet/1\",\"x_own\": {\"a\":[1.50,2e0]},\r\n"
    "\"yards\":[{\"id\":\"N\", \"color\":\"gray\"}]}\r\n";
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(FlFleet) fleet = fleet_of (text, problems);
  g_autofree char *back = NULL;

  g_assert_nonnull (fleet);
  back = json_of (fleet);
  g_assert_cmpstr (back, ==, text);
  g_assert_cmpuint (fl_problems_count (problems), ==, 2);
  g_assert_cmpuint (fl_problems_errors (problems), ==, 0);
  g_assert_cmpuint (problem_at (problems, "x_own")->line, ==, 2);
  g_assert_cmpuint (problem_at (problems, "yards[0].color")->line, ==, 3);
}

/* ── pieces and what is on hand ── */

static void
test_pieces (void)
{
  g_autoptr(FlFleet) fleet = example_fleet ();
  static const char *const none[] = { "C-3/8-20", "C-3/8-20 #7", "C-3/8-20 #0", "C-3/8-20 #01", "C-3/8-20 #", "C-3/8-20#1", "C-3/8-20 #-1",
                                      "C-041 #1", "C-999", "#1", "", "C-3/8-20 #1 #2", "C-3/8-20 #4294967297" };
  guint piece = 99;

  g_assert_cmpstr (fl_record_id (fl_fleet_find_gear (fleet, "C-041", &piece)), ==, "C-041");
  g_assert_cmpuint (piece, ==, 0);
  g_assert_cmpstr (fl_record_id (fl_fleet_find_gear (fleet, "C-3/8-20 #6", &piece)), ==, "C-3/8-20");
  g_assert_cmpuint (piece, ==, 6);
  g_assert_cmpstr (fl_record_id (fl_fleet_find_gear (fleet, "SH-01 #4", NULL)), ==, "SH-01");
  g_assert_cmpint (fl_record_kind (fl_fleet_find_gear (fleet, "B-11", NULL)), ==, FL_KIND_BINDER);
  g_assert_cmpint (fl_record_kind (fl_fleet_find_gear (fleet, "S-04", NULL)), ==, FL_KIND_STRAP);
  for (guint i = 0; i < G_N_ELEMENTS (none); i++)
    g_assert_null (fl_fleet_find_gear (fleet, none[i], &piece));
  g_assert_null (fl_fleet_find_gear (fleet, NULL, NULL));
}

static char *
on_hand (const FlFleet *fleet, const char *trailer)
{
  const FlMove *move = fl_record_move (fl_fleet_at (fleet, FL_KIND_MOVE, 0));
  g_autoptr(GPtrArray) ids = fl_fleet_on_hand (fleet, move, trailer);

  g_ptr_array_add (ids, NULL);
  return g_strjoinv (",", (char **) ids->pdata);
}

#define SIX_CHAINS "C-3/8-20 #1,C-3/8-20 #2,C-3/8-20 #3,C-3/8-20 #4,C-3/8-20 #5,C-3/8-20 #6"
#define YARD_GEAR "C-041,C-042,C-043,C-044,C-045," SIX_CHAINS

static void
test_on_hand (void)
{
  g_autoptr(FlFleet) fleet = example_fleet ();
  g_autofree char *with = on_hand (fleet, "T-3"), *without = on_hand (fleet, NULL), *unknown = on_hand (fleet, "T-9");

  g_assert_cmpstr (with, ==, YARD_GEAR ",B-11,B-12,B-13,B-14,B-15,S-04,SH-01 #1,SH-01 #2,SH-01 #3,SH-01 #4");
  g_assert_cmpstr (without, ==, YARD_GEAR ",S-04");
  g_assert_cmpstr (unknown, ==, without);
}

/* Gear is on hand by the trailer, by the trailer's yard, by `from` and by `gear_yard`; another trailer's own gear never is. */
static void
test_on_hand_places (void)
{
  static const char document[] =
    "{\"format\": \"fairlead-fleet/1\", \"name\": \"Places\",\n"
    " \"yards\": [{\"id\": \"HOME\"}, {\"id\": \"FROM\"}, {\"id\": \"GEAR\"}, {\"id\": \"ELSE\"}],\n"
    " \"articles\": [{\"id\": \"A\", \"weight_lb\": 100, \"length_in\": 20, \"width_in\": 20, \"height_in\": 20}],\n"
    " \"trailers\": [%s, %s],\n"
    " \"connectors\": [{\"id\": \"at-t1\", \"kept_at\": \"T1\", \"wll_lb\": 5000}, {\"id\": \"at-t2\", \"kept_at\": \"T2\", \"wll_lb\": 5000},\n"
    "  {\"id\": \"at-home\", \"kept_at\": \"HOME\", \"wll_lb\": 5000}, {\"id\": \"at-from\", \"kept_at\": \"FROM\", \"wll_lb\": 5000},\n"
    "  {\"id\": \"at-gear\", \"kept_at\": \"GEAR\", \"wll_lb\": 5000}, {\"id\": \"at-else\", \"kept_at\": \"ELSE\", \"wll_lb\": 5000}],\n"
    " \"moves\": [{\"id\": \"M\", \"date\": \"2026-11-25\", \"loads\": [{\"article\": \"A\"}], \"from\": \"FROM\", \"gear_yard\": \"GEAR\"}]}";
  static const char trailer[] =
    "{\"id\": \"%s\", \"yard\": \"HOME\", \"kind\": \"tag\", \"deck\": {\"length_in\": 200, \"width_in\": 90, \"height_in\": 30}, \"anchors\": [],"
    " \"axles\": [{\"x_in\": 60, \"tare_lb\": 3000}]}";
  g_autofree char *one = g_strdup_printf (trailer, "T1"), *two = g_strdup_printf (trailer, "T2");
  g_autofree char *text = g_strdup_printf (document, one, two), *with = NULL, *without = NULL;
  g_autoptr(FlFleet) fleet = good_fleet (text);

  with = on_hand (fleet, "T1");
  without = on_hand (fleet, NULL);
  g_assert_cmpstr (with, ==, "at-from,at-gear,at-home,at-t1");
  g_assert_cmpstr (without, ==, "at-from,at-gear");
}

static void
test_days (void)
{
  static const char document[] =
    "{\"format\": \"fairlead-fleet/1\", \"name\": \"Days\",\n"
    " \"articles\": [{\"id\": \"A\", \"weight_lb\": 100, \"length_in\": 20, \"width_in\": 20, \"height_in\": 20}],\n"
    " \"moves\": [{\"id\": \"e\", \"date\": \"2026-11-25\", \"loads\": [{\"article\": \"A\"}], \"depart\": \"07:00\", \"priority\": 2},\n"
    "  {\"id\": \"d\", \"date\": \"2026-11-25\", \"loads\": [{\"article\": \"A\"}], \"depart\": \"07:00\"},\n"
    "  {\"id\": \"c\", \"date\": \"2026-11-25\", \"loads\": [{\"article\": \"A\"}], \"depart\": \"07:00\", \"priority\": 1},\n"
    "  {\"id\": \"z\", \"date\": \"2026-11-25\", \"loads\": [{\"article\": \"A\"}], \"depart\": \"06:00\", \"priority\": 9},\n"
    "  {\"id\": \"b\", \"date\": \"2026-11-25\", \"loads\": [{\"article\": \"A\"}], \"depart\": \"07:00\", \"priority\": 1},\n"
    "  {\"id\": \"a\", \"date\": \"2026-02-28\", \"loads\": [{\"article\": \"A\"}]}]}";
  g_autoptr(FlFleet) fleet = good_fleet (document);
  g_autoptr(GPtrArray) moves = fl_fleet_moves_of (fleet, "2026-11-25");
  g_autoptr(GPtrArray) dates = fl_fleet_dates (fleet);
  g_autoptr(GPtrArray) none = fl_fleet_moves_of (fleet, "2026-11-26");
  static const char *const order[] = { "z", "b", "c", "e", "d" };

  g_assert_cmpuint (moves->len, ==, G_N_ELEMENTS (order));
  for (guint i = 0; i < moves->len; i++)
    g_assert_cmpstr (moves->pdata[i], ==, order[i]);
  g_assert_cmpuint (dates->len, ==, 2);
  g_assert_cmpstr (dates->pdata[0], ==, "2026-02-28");
  g_assert_cmpstr (dates->pdata[1], ==, "2026-11-25");
  g_assert_cmpuint (none->len, ==, 0);
}

/* ── plans in the fleet ── */

static char *
with_plan (void)
{
  g_autofree char *text = test_data ("example-fleet.json"), *plan = test_data ("example-plan.json"), *list = NULL;

  list = g_strdup_printf ("\"plans\": [%s],\n \"yards\"", plan);
  return with_change (text, "\"yards\"", list, NULL);
}

static void
test_plans (void)
{
  g_autofree char *text = with_plan (), *back = NULL;
  g_autoptr(FlFleet) fleet = good_fleet (text);
  const FlRecord *record = fl_fleet_find (fleet, FL_KIND_PLAN, "2026-11-25/01");

  g_assert_nonnull (record);
  g_assert_cmpuint (fl_fleet_count (fleet, FL_KIND_PLAN), ==, 1);
  g_assert_true (g_str_has_prefix (fl_record_text (record, NULL), "{"));
  back = json_of (fleet);
  g_assert_cmpstr (back, ==, text);
}

static void
test_plan_references (void)
{
  g_autofree char *text = with_plan (), *move = NULL, *gear = NULL;
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(FlProblems) warnings = fl_problems_new ();
  g_autoptr(FlFleet) none = NULL;
  g_autoptr(FlFleet) fleet = NULL;
  guint line;

  move = with_change (text, "\"move\": \"2026-11-25/01\"", "\"move\": \"2026-11-25/77\"", &line);
  none = fleet_of (move, problems);
  g_assert_null (none);
  g_assert_cmpuint (fl_problems_count (problems), ==, 1);
  g_assert_cmpuint (problem_at (problems, "plans[0].move")->line, ==, line);
  gear = with_change (text, "\"chain\": \"C-041\"", "\"chain\": \"B-11\"", &line);     /* gear, but no chain: whoever judges it says so */
  fleet = fleet_of (gear, warnings);
  g_assert_nonnull (fleet);
  g_assert_cmpuint (fl_problems_count (warnings), ==, 1);
  g_assert_cmpuint (problem_at (warnings, "plans[0].tie_downs[0].chain")->line, ==, line);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/fleet/head", test_head);
  g_test_add_func ("/fleet/defaults", test_defaults);
  g_test_add_func ("/fleet/people-and-trucks", test_people_and_trucks);
  g_test_add_func ("/fleet/machine", test_machine);
  g_test_add_func ("/fleet/machine-parts", test_machine_parts);
  g_test_add_func ("/fleet/position", test_position);
  g_test_add_func ("/fleet/trailer", test_trailer);
  g_test_add_func ("/fleet/anchors", test_anchors);
  g_test_add_func ("/fleet/gear", test_gear);
  g_test_add_func ("/fleet/move", test_move);
  g_test_add_func ("/fleet/round-trip", test_round_trip);
  g_test_add_func ("/fleet/round-trip-foreign", test_round_trip_foreign);
  g_test_add_func ("/fleet/pieces", test_pieces);
  g_test_add_func ("/fleet/on-hand", test_on_hand);
  g_test_add_func ("/fleet/on-hand-places", test_on_hand_places);
  g_test_add_func ("/fleet/days", test_days);
  g_test_add_func ("/fleet/plans", test_plans);
  g_test_add_func ("/fleet/plan-references", test_plan_references);
  return g_test_run ();
}
