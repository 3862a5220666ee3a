/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Assessments by hand. Places follow docs/formats.md, "Axes": a machine that faces the rear stands at (rear + x_max - x, left - y, z). */
#include "sample.h"

#include <glib/gstdio.h>
#include <math.h>
#include <json-glib/json-glib.h>
#include <stdlib.h>
#include <string.h>

#define IN 0.0254
enum { MAX_TIES = 32 };

typedef struct
{
  FlArena *arena;
  FlFleet *fleet;
  FlPlan *plan;
  JsonObject *results;
  const FlMachine *machine;
  const FlTrailer *trailer;
} Making;

static GBytes *
read_data (const char *name)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "data", name, NULL);
  g_autoptr(GError) error = NULL;
  char *text;
  gsize length;

  g_file_get_contents (path, &text, &length, &error);
  g_assert_no_error (error);
  return g_bytes_new_take (text, length);
}

/* ── the plan ── */

static FlPlan *
widened (const FlPlan *plan, const Sample *sample, FlArena *arena)
{
  static const char *const anchors[] = { "P12R", "P12L", "P10R", "P10L", "P9R", "P9L", "P8R", "P8L", "P3R", "P3L", "P4R", "P4L" };
  FlPlanChoices c = *fl_plan_choices (plan);
  FlTieDown *ties = fl_arena_new0 (arena, FlTieDown, MAX_TIES);
  FlPlanLoad *loads = fl_arena_new0 (arena, FlPlanLoad, 1 + sample->articles);
  FlReason *reasons = fl_arena_new0 (arena, FlReason, sample->acknowledged);
  gsize n = sample->tie_downs < 0 ? 0 : sample->tie_downs > 0 ? (gsize) sample->tie_downs : c.n_tie_downs;

  g_assert_cmpuint (n, <=, MAX_TIES);
  for (gsize i = 0; i < n; i++)
    {
      ties[i] = c.tie_downs[i % c.n_tie_downs];
      ties[i].no = (guint) i + 1;
      if (i >= c.n_tie_downs)
        {
          ties[i].anchors[0] = anchors[i % G_N_ELEMENTS (anchors)];
          ties[i].chain = fl_arena_printf (arena, "C-%03u", 100 + (guint) i);
          ties[i].binder = fl_arena_printf (arena, "B-%03u", 100 + (guint) i);
        }
    }
  if (sample->counted_chain && n > 0)
    ties[0].chain = "C-3/8-20 #2";
  c.tie_downs = ties;
  c.n_tie_downs = n;
  loads[0] = c.loads[0];
  for (guint i = 1; i <= sample->articles; i++)
    loads[i] = (FlPlanLoad) { .id = "A-1", .article = TRUE, .facing = FL_FORWARD, .rear = FL_IN (-60.0 * i), .mat_mu = 0.0 };
  if (sample->unplaced)
    loads[0].rear = FL_NOT_MEASURED;
  c.loads = loads;
  c.n_loads = 1 + sample->articles;
  if (sample->no_trailer)
    c.trailer = "T-99";
  c.acknowledged = reasons;
  c.n_acknowledged = sample->acknowledged;
  for (guint i = 0; i < sample->acknowledged; i++)
    reasons[i] = (FlReason) { "unmeasured", fl_arena_printf (arena, "anchor row %u", i + 1), "looked at in the yard, all hooks seat", NULL };
  return fl_plan_new (&c);
}

/* ── geometry ── */

static double
metres (FlQuantity q)
{
  return fl_quantity_in (q, FL_UNIT_M);
}

/* The machine faces the rear with its rear end at `rear`. */
static FlVec
stand (const Making *m, double rear, FlPlace p)
{
  return (FlVec) { rear + metres (m->machine->length) - metres (p.x), -metres (p.y), metres (p.z) };
}

static FlBox
stand_box (const Making *m, double rear, FlPlace low, FlPlace high)
{
  const FlVec a = stand (m, rear, low), b = stand (m, rear, high);

  return (FlBox) { { MIN (a.x, b.x), MIN (a.y, b.y), MIN (a.z, b.z) }, { MAX (a.x, b.x), MAX (a.y, b.y), MAX (a.z, b.z) } };
}

static const FlPlacedBox *
stand_solids (const Making *m, double rear, const FlSolid *solids, gsize n)
{
  FlPlacedBox *out = fl_arena_new0 (m->arena, FlPlacedBox, n);

  for (gsize i = 0; i < n; i++)
    out[i] = (FlPlacedBox) { solids[i].name, stand_box (m, rear, solids[i].min, solids[i].max) };
  return out;
}

static void
place_machine (const Making *m, FlLoadResult *load)
{
  const FlMachine *machine = m->machine;
  const double rear = 10 * IN, half = 0.5 * metres (machine->width);
  FlPlacedBox *contacts = fl_arena_new0 (m->arena, FlPlacedBox, machine->n_contacts);
  FlPlacedPoint *points = fl_arena_new0 (m->arena, FlPlacedPoint, machine->n_tie_points);

  load->placed = TRUE;
  load->rear = rear;
  load->outline = (FlBox) { { rear, -half, 0 }, { rear + metres (machine->length), half, metres (machine->height) } };
  for (gsize i = 0; i < machine->n_contacts; i++)
    {
      const FlContactPatch *c = &machine->contacts[i];
      const FlVec at = stand (m, rear, (FlPlace) { c->x, c->y, FL_IN (0) });
      const double dx = 0.5 * metres (c->length), dy = 0.5 * metres (c->width);

      contacts[i] = (FlPlacedBox) { fl_running_gear_id (c->gear), { { at.x - dx, at.y - dy, 0 }, { at.x + dx, at.y + dy, 0 } } };
    }
  for (gsize i = 0; i < machine->n_tie_points; i++)
    {
      const FlTiePoint *p = &machine->tie_points[i];

      points[i] = (FlPlacedPoint) { p->id, p->name, stand (m, rear, (FlPlace) { p->x, p->y, p->z }) };
    }
  load->contacts = contacts;
  load->n_contacts = machine->n_contacts;
  load->points = points;
  load->n_points = machine->n_tie_points;
  load->solids = stand_solids (m, rear, machine->solids, machine->n_solids);
  load->n_solids = machine->n_solids;
  load->keep_clear = stand_solids (m, rear, machine->keep_clear, machine->n_keep_clear);
  load->n_keep_clear = machine->n_keep_clear;
  load->has_cg = TRUE;
  load->cg = stand (m, rear, machine->cg);
  load->has_joint = machine->articulated;
  load->joint_x = stand (m, rear, (FlPlace) { machine->joint_x, FL_IN (0), FL_IN (0) }).x;
}

/* ── results ── */

static double
figure (JsonObject *object, const char *name)
{
  g_assert_true (json_object_has_member (object, name));
  return json_object_get_double_member (object, name);
}

static const FlLoadResult *
load_results (const Making *m, const Sample *sample)
{
  FlLoadResult *loads = fl_arena_new0 (m->arena, FlLoadResult, 1 + sample->articles);
  JsonObject *sums = json_array_get_object_element (json_object_get_array_member (m->results, "sums"), 0);

  loads[0] = (FlLoadResult) {
    .id = "R-03", .name = m->machine->name, .kind = m->machine->kind, .facing = FL_REARWARD, .weight = FL_LB (figure (sums, "weight_lb")),
    .weight_basis = "scale ticket 2026-03-02", .need = FL_LB (figure (sums, "need_lb")), .have = FL_LB (figure (sums, "have_lb")),
    .weakest = json_object_get_string_member (sums, "weakest"), .own_tie_downs = 4 };
  if (!sample->unplaced)
    place_machine (m, &loads[0]);
  for (guint i = 1; i <= sample->articles; i++)
    loads[i] = (FlLoadResult) {
    .id = "A-1", .name = "spare ditching bucket", .article = TRUE, .placed = TRUE, .rear = -60.0 * i * IN,
    .outline = { { -60.0 * i * IN, -20 * IN, 0 }, { -60.0 * (i - 1) * IN, 20 * IN, 38 * IN } }, .weight = FL_LB (1400), .weight_basis = "typical", .need = FL_LB (700),
    .have = FL_LB (0) };
  return loads;
}

static const FlPlacedPoint *
placed_point (const FlLoadResult *load, const char *id)
{
  for (gsize i = 0; i < load->n_points; i++)
    if (g_strcmp0 (load->points[i].id, id) == 0)
      return &load->points[i];
  return NULL;
}

static const FlTieResult *
tie_results (const Making *m, const FlPlan *plan, const FlLoadResult *load)
{
  const FlPlanChoices *c = fl_plan_choices (plan);
  FlTieResult *out = fl_arena_new0 (m->arena, FlTieResult, c->n_tie_downs);
  JsonArray *given = json_object_get_array_member (m->results, "tie_downs");

  for (gsize i = 0; i < c->n_tie_downs; i++)
    {
      JsonObject *g = json_array_get_object_element (given, (guint) i % json_array_get_length (given));
      const FlPlacedPoint *point = placed_point (load, c->tie_downs[i].point);
      const FlAnchor *anchor = m->trailer != NULL ? fl_trailer_anchor (m->trailer, c->tie_downs[i].anchors[0]) : NULL;
      FlVec *path = fl_arena_new0 (m->arena, FlVec, 2);

      out[i] = (FlTieResult) { .no = c->tie_downs[i].no, .run = FL_IN (figure (g, "run_in")), .needs = FL_IN (figure (g, "needs_in")),
                               .deck_angle = FL_DEG (figure (g, "deck_angle_deg")), .plan_angle = FL_DEG (figure (g, "plan_angle_deg")),
                               .wll = FL_LB (figure (g, "wll_lb")), .counts = FL_LB (figure (g, "counts_lb")),
                               .limited_by = json_object_get_string_member (g, "limited_by"), .gear_text = "3/8 grade 70, 16 ft" };
      if (point == NULL || anchor == NULL)
        continue;
      path[0] = point->at;
      path[1] = (FlVec) { metres (anchor->x), metres (anchor->y), metres (anchor->z) };
      out[i].path = path;
      out[i].n_path = 2;
    }
  return out;
}

static const FlAxleResult *
axle_results (const Making *m, gsize *n)
{
  JsonArray *given = json_object_get_array_member (m->results, "axles");
  FlAxleResult *out = fl_arena_new0 (m->arena, FlAxleResult, json_array_get_length (given));

  *n = json_array_get_length (given);
  for (guint i = 0; i < *n; i++)
    {
      JsonObject *g = json_array_get_object_element (given, i);

      out[i] = (FlAxleResult) { .axle = json_object_get_string_member (g, "axle"), .load = FL_LB (figure (g, "load_lb")),
                                .rated = FL_LB (figure (g, "rated_lb")), .share_pct = json_object_has_member (g, "share_pct") ? figure (g, "share_pct") : NAN };
    }
  return out;
}

static void
find (FlFindings *findings, const char *rule, const char *subject, FlStanding standing, FlVerdict verdict, const char *message)
{
  const FlFinding finding = { .rule = rule, .citation = "49 CFR 393.106(d)", .subject = subject, .tie_down = -1, .load = 0, .standing = standing,
                              .verdict = verdict, .need = FL_LB (11000), .have = FL_LB (9900), .message = message };

  fl_findings_add (findings, &finding);
}

static FlFindings *
sample_findings (const Sample *sample)
{
  FlFindings *findings = fl_findings_new ();

  find (findings, "aggregate_wll", "load R-03", FL_BY_LAW, FL_MET, "Four direct tie-downs count half each.");
  for (guint i = 0; i < sample->shortfalls; i++)
    {
      g_autofree char *message = g_strdup_printf ("Shortfall %u: {need} are needed for {subject}, there are {have}.", i + 1);

      find (findings, "aggregate_wll", "load R-03", FL_BY_LAW, FL_SHORT, message);
    }
  for (guint i = 0; i < sample->cautions; i++)
    {
      g_autofree char *subject = g_strdup_printf ("anchor row %u", i + 1);

      find (findings, "unmeasured", subject, FL_BY_PRACTICE, FL_CAUTION,
            "Rating or opening not on record for these anchors: {subject}. Look that they are sound and that the hooks seat.");
    }
  if (sample->unknown)
    find (findings, "axle_rating", "trailer", FL_BY_RATING, FL_UNKNOWN, "The axle loads are not known: a weight or a place is missing.");
  if (sample->house_short)
    find (findings, "min_wll_each", "tie-down 5", FL_BY_HOUSE, FL_SHORT, "The house asks for more than tie-down 5 has.");
  return findings;
}

/* ── all of it ── */

static const FlMessage walk_lines[] = {
  { "Deck swept of rock, mud and ice", NULL, 0 },
  { "Machine's parking brake set, transmission as its manual says, engine off, key out", NULL, 0 },
  { "Every hook seated and unable to fall out when its chain goes slack", NULL, 0 },
  { "Every chain and strap tight, none twisted or knotted", NULL, 0 },
  { "Binder handles turned down to the deck and tied", NULL, 0 },
  { "Loose chain wrapped and tied", NULL, 0 },
  { "No chain over hoses, brake lines, cylinder rods or tires", NULL, 0 },
  { "Edges padded where a chain or strap bears on them", NULL, 0 },
  { "Nothing loose on machine or deck: tools, spare gear, doors, attachments", NULL, 0 },
  { "Ramps up and latched, tilt bed locked", NULL, 0 },
  { "Coupling closed and pinned, safety chains, brake line and lights connected", NULL, 0 },
  { "Height measured at the highest point", NULL, 0 },
};
static const FlMessage caution_lines[] = {
  { "State and local rules, permits and the route come first; this sheet does not replace them.", NULL, 0 },
  { "Follow the manuals of the machine, trailer, truck and gear where they ask for more or forbid something.", NULL, 0 },
  { "A competent person at the truck decides, and stops the move when in doubt.", NULL, 0 },
  { "Void when anything on it is changed but for like or stronger gear written in and initialed.", NULL, 0 },
  { "Ratings are for gear in good order: look at every link, hook, binder and anchor before use.", NULL, 0 },
  { "Level ground, brakes set, nobody in the path or on the ramps while loading and unloading.", NULL, 0 },
  { "No pipe on a binder handle; keep out of its swing.", NULL, 0 },
};

static void
gather_records (const Making *m, GPtrArray *records)
{
  static const FlKind kinds[] = { FL_KIND_MACHINE, FL_KIND_ARTICLE, FL_KIND_TRAILER, FL_KIND_TRUCK, FL_KIND_PERSON, FL_KIND_YARD, FL_KIND_CHAIN,
                                  FL_KIND_BINDER, FL_KIND_STRAP, FL_KIND_CONNECTOR, FL_KIND_MOVE };

  for (gsize k = 0; k < G_N_ELEMENTS (kinds); k++)
    for (gsize i = 0; i < fl_fleet_count (m->fleet, kinds[k]); i++)
      g_ptr_array_add (records, (gpointer) fl_fleet_at (m->fleet, kinds[k], i));
}

static FlAssessment *
assess (const Making *m, const FlPlan *plan, const Sample *sample)
{
  g_autoptr(FlFindings) findings = sample_findings (sample);
  g_autoptr(GPtrArray) records = g_ptr_array_new ();
  JsonObject *sizes = json_object_get_object_member (m->results, "sizes");
  FlAssessmentParts parts = {
    .plan = plan, .fleet_name = fl_fleet_name (m->fleet), .metric = sample->metric,
    .book = { "us-49cfr393", "US federal cargo securement, 49 CFR part 393 subpart I", "2026-10", "0f1e2d3c" },
    .n_ties = fl_plan_choices (plan)->n_tie_downs, .n_loads = fl_plan_choices (plan)->n_loads,
    .findings = findings, .cautions = caution_lines, .n_cautions = G_N_ELEMENTS (caution_lines),
    .walk_round = walk_lines, .n_walk_round = G_N_ELEMENTS (walk_lines),
    .recheck = { { 50, FL_UNIT_MI }, { 3, FL_UNIT_H }, { 150, FL_UNIT_MI }, TRUE },
  };

  gather_records (m, records);
  parts.records = (const FlRecord *const *) records->pdata;
  parts.n_records = records->len;
  parts.loads = load_results (m, sample);
  parts.ties = tie_results (m, plan, &parts.loads[0]);
  parts.axles = axle_results (m, &parts.n_axles);
  parts.sizes = (FlSizes) { FL_IN (figure (sizes, "height_in")), FL_IN (figure (sizes, "width_in")), FL_IN (figure (sizes, "length_in")),
                            FL_LB (figure (sizes, "gross_lb")), sample->measured };
  return fl_assessment_new (&parts);
}

FlAssessment *
sample_assessment (const Sample *sample)
{
  g_autoptr(GBytes) fleet_text = read_data ("example-fleet.json"), plan_text = read_data ("example-plan.json");
  g_autoptr(FlProblems) problems = fl_problems_new ();
  g_autoptr(FlFleet) fleet = fl_fleet_new_from_json (fleet_text, problems);
  g_autoptr(FlPlan) plan = fl_plan_new_from_json (plan_text, problems);
  g_autoptr(JsonParser) parser = json_parser_new ();
  g_autoptr(FlArena) arena = fl_arena_new ();
  g_autoptr(FlPlan) wide = NULL;
  Making m;

  g_assert_cmpuint (fl_problems_errors (problems), ==, 0);
  g_assert_true (json_parser_load_from_data (parser, g_bytes_get_data (plan_text, NULL), (gssize) g_bytes_get_size (plan_text), NULL));
  m = (Making) { arena, fleet, plan, json_object_get_object_member (json_node_get_object (json_parser_get_root (parser)), "results"),
                 fl_record_machine (fl_fleet_find (fleet, FL_KIND_MACHINE, "R-03")), NULL };
  if (!sample->no_trailer)
    m.trailer = fl_record_trailer (fl_fleet_find (fleet, FL_KIND_TRAILER, "T-3"));
  wide = widened (plan, sample, arena);
  return assess (&m, wide, sample);
}

FlCardFont *
sample_font (void)
{
  g_autofree char *folder = g_build_filename (g_getenv ("FAIRLEAD_DATA"), "fonts", NULL);
  g_autoptr(GError) error = NULL;
  FlCardFont *font = fl_card_font_load (folder, &error);

  g_assert_no_error (error);
  return font;
}

static char *run_folder = NULL;

static void
remove_tree (const char *path)
{
  GDir *dir = g_dir_open (path, 0, NULL);
  const char *name;

  while (dir != NULL && (name = g_dir_read_name (dir)) != NULL)
    {
      g_autofree char *inside = g_build_filename (path, name, NULL);

      remove_tree (inside);
    }
  if (dir != NULL)
    g_dir_close (dir);
  g_remove (path);
}

static void
remove_run_folder (void)
{
  remove_tree (run_folder);
  g_free (run_folder);
}

char *
sample_path (const char *name)
{
  if (run_folder == NULL)
    {
      run_folder = g_dir_make_tmp ("fairlead-card-XXXXXX", NULL);
      g_assert_nonnull (run_folder);
      g_assert_cmpint (atexit (remove_run_folder), ==, 0);
    }
  return g_build_filename (run_folder, name, NULL);
}

/* A .mo file: header of seven words, the table of ids, the table of translations, the texts; ids ascending (GNU gettext manual, "MO Files"). */
FlWords *
sample_words (const char *const *pairs, gsize n)
{
  g_autofree char *path = sample_path ("es.mo");
  g_autoptr(GByteArray) file = g_byte_array_new ();
  const guint32 count = (guint32) n, header[7] = { 0x950412de, 0, count, 28, 28 + 8 * count, 0, 28 + 16 * count };
  guint32 at = 28 + 16 * count;
  g_autoptr(GError) error = NULL;
  FlWords *words;

  g_byte_array_append (file, (const guint8 *) header, sizeof header);
  for (guint side = 0; side < 2; side++)
    for (gsize i = 0; i < n; i++)
      {
        const guint32 entry[2] = { (guint32) strlen (pairs[2 * i + side]), at };

        g_byte_array_append (file, (const guint8 *) entry, sizeof entry);
        at += entry[0] + 1;
      }
  for (guint side = 0; side < 2; side++)
    for (gsize i = 0; i < n; i++)
      g_byte_array_append (file, (const guint8 *) pairs[2 * i + side], (guint) strlen (pairs[2 * i + side]) + 1);
  g_assert_true (g_file_set_contents (path, (const char *) file->data, file->len, NULL));
  words = fl_words_load (path, "es", &error);
  g_assert_no_error (error);
  return words;
}
