/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A tie-down as an assembly: the weakest part (393.108(a), as read), whether its parts go together, how much chain it takes, and
 * whether the house allows it. */
#include "fl-house.h"
#include "fl-test-judge.h"

/* Everything that an assembly may have, each set or left NULL by a test; `run` in inches. */
typedef struct
{
  FlBook *book;
  FlRated chain, binder, strap, connector;
  FlTiePoint point;
  FlAnchor anchor;
  FlAssemblyParts parts;
} Rig;

static FlRated
rated (const FlBook *book, FlKind kind, const char *json)
{
  const FlRecord *record = test_record (kind, json);

  return (FlRated) { record, fl_record_id (record), kind, fl_rate_record (book, record) };
}

static void
rig_init (Rig *r)
{
  r->book = test_book ();
  r->chain = rated (r->book, FL_KIND_CHAIN, "{'id': 'C', 'kept_at': 'Y', 'size_in': '3/8', 'mark': '70', 'length_ft': 16, 'hook': 'grab', "
                                            "'hook_needs_in': 2.4, 'hook_wll_lb': 6600}");
  r->binder = rated (r->book, FL_KIND_BINDER, "{'id': 'B', 'kept_at': 'Y', 'kind': 'ratchet', 'wll_lb': 6700, 'chain_sizes': ['3/8'], 'take_up_in': 8, "
                                              "'needs_run_in': 30}");
  r->point = (FlTiePoint) { .id = "P", .opening = FL_IN (3), .bar = FL_IN (1), .rated = FL_LB (9000), .takes = 1 };
  r->anchor = (FlAnchor) { .id = "A", .opening = FL_IN (3), .bar = FL_IN (1), .rated = FL_LB (8000), .takes = 1 };
  r->parts = (FlAssemblyParts) { .chain = &r->chain, .binder = &r->binder, .point = &r->point, .anchors = { &r->anchor, NULL }, .run_in = 60 };
}

static void
rig_clear (Rig *r)
{
  fl_book_unref (r->book);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Rig, rig_clear)

static FlAssembly
assembled (const Rig *r)
{
  FlAssembly a;

  fl_assemble (&a, r->book, &r->parts);
  return a;
}

/* ── the weakest part ── */

static void
test_weakest (void)
{
  static const struct { double chain, binder, point, anchor, wll; const char *what; } cases[] = {
    { 6600, 6700, 9000, 8000, 6600, "chain C" }, { 6600, 5400, 9000, 8000, 5400, "binder B" }, { 6600, 6700, 3000, 8000, 3000, "point P" },
    { 6600, 6700, 9000, 5000, 5000, "anchor A" }, { 6600, 6600, 6600, 6600, 6600, "chain C" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto(Rig) r = { 0 };
      g_autoptr(FlArena) arena = fl_arena_new ();
      FlAssembly a;

      rig_init (&r);
      r.chain.rating.wll = FL_LB (cases[i].chain);
      r.binder.rating.wll = FL_LB (cases[i].binder);
      r.point.rated = FL_LB (cases[i].point);
      r.anchor.rated = FL_LB (cases[i].anchor);
      a = assembled (&r);
      g_assert_cmpfloat (a.wll, ==, cases[i].wll);
      g_assert_cmpstr (fl_assembly_limit_text (&a, arena), ==, cases[i].what);
      g_assert_cmpuint (a.flags, ==, 0);
    }
}

/* Ratings are compared in one unit: 3,000 kg are 6,613.9 lb, more than the chain; 2,900 kg 6,393.4, less. */
static void
test_units (void)
{
  g_auto(Rig) r = { 0 };

  rig_init (&r);
  r.point.rated = FL_KG (3000);
  g_assert_cmpfloat (assembled (&r).wll, ==, 6600);
  r.point.rated = FL_KG (2900);
  g_assert_cmpfloat_with_epsilon (assembled (&r).wll, 2900 / 0.45359237, 1e-6);
}

static void
test_unrated_and_unknown (void)
{
  g_auto(Rig) r = { 0 };
  g_autoptr(FlArena) arena = fl_arena_new ();
  FlAssembly a;

  rig_init (&r);
  r.point.rated = r.anchor.rated = FL_NOT_MEASURED;     /* joins no minimum, and is told */
  a = assembled (&r);
  g_assert_cmpfloat (a.wll, ==, 6600);
  g_assert_cmpuint (a.flags, ==, FL_ASM_UNRATED_ANCHOR | FL_ASM_UNRATED_POINT);
  r.chain.rating.wll = FL_NOT_MEASURED;
  a = assembled (&r);
  g_assert_cmpuint (a.flags & FL_ASM_WLL_UNKNOWN, !=, 0);
  g_assert_true (a.bad == &r.chain);
  r.binder.rating.wll = FL_NOT_MEASURED;
  a = assembled (&r);
  g_assert_true (isnan (a.wll));
  g_assert_null (fl_assembly_limit_text (&a, arena));
}

/* Out of use is worth nothing, whatever else is known. */
static void
test_out_of_use (void)
{
  g_auto(Rig) r = { 0 };
  g_autoptr(FlArena) arena = fl_arena_new ();
  FlAssembly a;

  rig_init (&r);
  r.binder = rated (r.book, FL_KIND_BINDER, "{'id': 'B', 'kept_at': 'Y', 'kind': 'ratchet', 'wll_lb': 6700, 'chain_sizes': ['3/8'], "
                                            "'inspections': [{'date': '2026-11-02', 'findings': [{'kind': 'cracked'}]}]}");
  a = assembled (&r);
  g_assert_cmpuint (a.flags & FL_ASM_OUT_OF_USE, !=, 0);
  g_assert_cmpfloat (a.wll, ==, 0);
  g_assert_cmpstr (fl_assembly_limit_text (&a, arena), ==, "binder B");
  g_assert_true (a.bad == &r.binder);
}

/* Least of the known parts' breaking values: grade 70 chain at 4, its hooks at 3, the binder at 2.1 (the book's factors, the lowest
 * read in makers' tables). */
static void
test_breaking (void)
{
  g_auto(Rig) r = { 0 };

  rig_init (&r);
  g_assert_cmpfloat_with_epsilon (r.chain.rating.breaking, 3 * 6600, 1e-6);
  g_assert_cmpfloat_with_epsilon (r.binder.rating.breaking, 2.1 * 6700, 1e-6);
  g_assert_cmpfloat_with_epsilon (assembled (&r).breaking, 2.1 * 6700, 1e-6);
}

/* ── what goes together ── */

static void
test_gear (void)
{
  g_auto(Rig) r = { 0 };

  rig_init (&r);
  r.strap = rated (r.book, FL_KIND_STRAP, "{'id': 'S', 'kept_at': 'Y', 'width_in': 4, 'length_ft': 27, 'tensioner': 'ratchet'}");
  r.parts.strap = &r.strap;
  g_assert_cmpuint (assembled (&r).flags & FL_ASM_NO_GEAR, !=, 0);     /* both */
  r.parts.chain = NULL;
  g_assert_cmpuint (assembled (&r).flags & FL_ASM_FORBIDS, ==, 0);
  r.parts.binder = NULL;
  g_assert_cmpuint (assembled (&r).flags & FL_ASM_FORBIDS, ==, 0);      /* its own ratchet */
  r.parts.strap = NULL;
  g_assert_cmpuint (assembled (&r).flags & FL_ASM_NO_GEAR, !=, 0);      /* neither */
  r.parts.chain = &r.chain;
  g_assert_cmpuint (assembled (&r).flags & FL_ASM_FORBIDS, ==, FL_ASM_NO_TENSIONER);
  r.parts.binder = &r.binder;
  r.binder = rated (r.book, FL_KIND_BINDER, "{'id': 'B', 'kept_at': 'Y', 'kind': 'ratchet', 'wll_lb': 6700, 'chain_sizes': ['1/2']}");
  g_assert_cmpuint (assembled (&r).flags & FL_ASM_FORBIDS, ==, FL_ASM_BINDER_SIZE);
}

static void
test_lengths (void)
{
  g_auto(Rig) r = { 0 };
  FlAssembly a;

  rig_init (&r);
  a = assembled (&r);
  g_assert_cmpfloat (a.needs_in, ==, 60 + 24 + 8 + 12);
  g_assert_cmpfloat (a.have_in, ==, 192);
  g_assert_cmpfloat (a.binder_run_in, ==, 30);
  r.parts.run_in = 148;         /* 148 + 44 = 192 */
  g_assert_cmpuint (assembled (&r).flags, ==, 0);
  r.parts.run_in = 148.001;
  g_assert_cmpuint (assembled (&r).flags, ==, FL_ASM_TOO_SHORT);
  r.parts.run_in = 30;
  g_assert_cmpuint (assembled (&r).flags, ==, 0);
  r.parts.run_in = 29.999;
  g_assert_cmpuint (assembled (&r).flags, ==, FL_ASM_RUN_SHORT);
  r.parts.run_in = NAN;
  a = assembled (&r);
  g_assert_cmpuint (a.flags, ==, FL_ASM_NO_LENGTH);
  g_assert_true (isnan (a.needs_in));
}

/* ── ends ── */

/* The ends differ: the way round that fits is taken. */
static void
test_way_round (void)
{
  static const struct { double point, anchor; guint flags; } cases[] = {
    { 3, 1, 0 }, { 1, 3, 0 }, { 1, 1, FL_ASM_HOOK_ANCHOR }, { 0.5, 3, FL_ASM_HOOK_POINT }, { 0.5, 0.5, FL_ASM_HOOK_POINT | FL_ASM_HOOK_ANCHOR },
    { 3, 3, 0 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto(Rig) r = { 0 };
      guint flags;

      rig_init (&r);
      r.chain = rated (r.book, FL_KIND_CHAIN, "{'id': 'C', 'kept_at': 'Y', 'size_in': '3/8', 'mark': '70', 'length_ft': 16, "
                                              "'ends': [{'hook': 'grab', 'needs_in': 2.4, 'wll_lb': 6600}, {'hook': 'slip', 'needs_in': 0.9, 'wll_lb': 6600}]}");
      r.point.opening = FL_IN (cases[i].point);
      r.anchor.opening = FL_IN (cases[i].anchor);
      flags = assembled (&r).flags & (FL_ASM_HOOK_POINT | FL_ASM_HOOK_ANCHOR);
      if (cases[i].point == 1 && cases[i].anchor == 1)          /* one end goes into either: which is told does not matter */
        g_assert_true (flags == FL_ASM_HOOK_POINT || flags == FL_ASM_HOOK_ANCHOR);
      else
        g_assert_cmpuint (flags, ==, cases[i].flags);
      g_assert_cmpfloat (assembled (&r).needs_in, ==, 60 + 12 + 8 + 12);        /* one grab hook only */
    }
}

static void
test_connectors (void)
{
  g_auto(Rig) r = { 0 };

  rig_init (&r);
  r.connector = rated (r.book, FL_KIND_CONNECTOR, "{'id': 'SH', 'kept_at': 'Y', 'kind': 'shackle', 'wll_lb': 4000, 'opening_in': 2.7, 'jaw_in': 1.4, 'pin_in': 1.1}");
  r.parts.connectors[0] = &r.connector;
  r.parts.n_connectors = 1;
  r.point.opening = FL_IN (1.2);
  g_assert_cmpuint (assembled (&r).flags, ==, 0);
  g_assert_cmpfloat (assembled (&r).wll, ==, 4000);     /* and it is the weakest part */
  g_assert_cmpstr (assembled (&r).limited_what, ==, "shackle");
  r.parts.connector_at_anchor[0] = TRUE;
  g_assert_cmpuint (assembled (&r).flags, ==, FL_ASM_HOOK_POINT);
}

static void
test_unmeasured (void)
{
  g_auto(Rig) r = { 0 };

  rig_init (&r);
  r.point.opening = FL_NOT_MEASURED;
  g_assert_cmpuint (assembled (&r).flags, ==, FL_ASM_UNMEASURED_POINT);
  r.anchor.opening = FL_NOT_MEASURED;
  g_assert_cmpuint (assembled (&r).flags, ==, FL_ASM_UNMEASURED_POINT | FL_ASM_UNMEASURED_ANCHOR);
}

/* ── looked up ── */

static void
test_find (void)
{
  g_autoptr(Case) c = case_new ();
  FlRated out;

  g_assert_true (case_read (c));
  g_assert_true (fl_rated_find (&out, c->book, c->fleet, "C-041"));
  g_assert_cmpint (out.kind, ==, FL_KIND_CHAIN);
  test_worth (out.rating, 6600);
  g_assert_true (fl_rated_find (&out, c->book, c->fleet, "C-3/8-20 #6"));
  test_worth (out.rating, 2650);
  g_assert_false (fl_rated_find (&out, c->book, c->fleet, "C-3/8-20 #7"));
  g_assert_false (fl_rated_find (&out, c->book, c->fleet, "C-3/8-20"));
  g_assert_false (fl_rated_find (&out, c->book, c->fleet, "R-03"));     /* no gear */
}

/* ── the house ── */

static void
test_house (void)
{
  static const struct { const char *rules; double wll; gboolean own, article, strap, allowed; } cases[] = {
    { "[]", 100, TRUE, FALSE, FALSE, TRUE },
    { "[{'rule': 'min_wll_each', 'wll_lb': 5000}]", 5000, TRUE, FALSE, FALSE, TRUE },
    { "[{'rule': 'min_wll_each', 'wll_lb': 5000}]", 4999, TRUE, FALSE, FALSE, FALSE },
    { "[{'rule': 'min_wll_each', 'wll_lb': 5000}]", 4999, FALSE, FALSE, FALSE, TRUE },  /* an implement's */
    { "[{'rule': 'min_chain', 'size_in': '1/2', 'grade': '30'}]", 9000, TRUE, FALSE, FALSE, FALSE },
    { "[{'rule': 'min_chain', 'size_in': '3/8', 'grade': '80'}]", 9000, TRUE, FALSE, FALSE, FALSE },
    { "[{'rule': 'min_chain', 'size_in': '3/8', 'grade': '70'}]", 9000, TRUE, FALSE, FALSE, TRUE },
    { "[{'rule': 'no_straps_on_machines'}]", 5400, TRUE, FALSE, TRUE, FALSE },
    { "[{'rule': 'no_straps_on_machines'}]", 5400, TRUE, TRUE, TRUE, TRUE },
    { "[{'rule': 'no_straps_on_machines'}]", 5400, TRUE, FALSE, FALSE, TRUE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_auto(Rig) r = { 0 };
      g_autoptr(Case) c = case_new ();
      FlAssembly a;

      rig_init (&r);
      fleet_set (c, "house_rules", cases[i].rules);
      g_assert_true (case_read (c));
      if (cases[i].strap)
        {
          r.strap = rated (r.book, FL_KIND_STRAP, "{'id': 'S', 'kept_at': 'Y', 'width_in': 4, 'length_ft': 27, 'tensioner': 'ratchet'}");
          r.parts.strap = &r.strap;
          r.parts.chain = NULL;
        }
      a = assembled (&r);
      a.wll = cases[i].wll;
      g_assert_true (fl_house_allows (c->book, &r.parts, &a, cases[i].own, cases[i].article) == cases[i].allowed);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/assembly/weakest/part", test_weakest);
  g_test_add_func ("/assembly/weakest/units", test_units);
  g_test_add_func ("/assembly/weakest/unknown", test_unrated_and_unknown);
  g_test_add_func ("/assembly/weakest/out-of-use", test_out_of_use);
  g_test_add_func ("/assembly/weakest/breaking", test_breaking);
  g_test_add_func ("/assembly/gear", test_gear);
  g_test_add_func ("/assembly/lengths", test_lengths);
  g_test_add_func ("/assembly/ends/way-round", test_way_round);
  g_test_add_func ("/assembly/ends/connectors", test_connectors);
  g_test_add_func ("/assembly/ends/unmeasured", test_unmeasured);
  g_test_add_func ("/assembly/find", test_find);
  g_test_add_func ("/assembly/house", test_house);
  return test_done (g_test_run ());
}
