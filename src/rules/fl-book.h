/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A rule book: every number that a rule, a standard or the house's designers set, read from data/rules/<id>.json. No rule's number
 * stands in C. Each block of the file names its source and whether it was read in a public copy ("seen") or is from memory; what is
 * ours says so and why. Immutable, atomically reference-counted. Weights are in the book's unit (`unit`), lengths in inches,
 * angles in degrees, accelerations in g. */
#ifndef FL_BOOK_H
#define FL_BOOK_H

#include "fl-assessment.h"
#include "fl-fleet.h"

G_BEGIN_DECLS

typedef struct _FlBook FlBook;

/* Where a value comes from. `source` "ours" is followed by the reason in `why`. */
typedef struct { const char *source, *why; gboolean seen; } FlSource;

enum { FL_BOOK_MAX_GRADES = 8 };
/* size_mm: the metric name of the same size, which is no conversion ("3/8" is called 10 mm). wll NaN: no value in the table. */
typedef struct { const char *size_text; double size_in, size_mm; double wll[FL_BOOK_MAX_GRADES]; } FlBookChainRow;
typedef struct { const char *grade; const char *const *marks; double breaking_factor; } FlBookGrade;      /* in the order of wll[] */
typedef struct { const char *size_text; double width_in, width_mm, wll, damage_over_in; } FlBookWebRow;    /* damage NaN: no limit known */

typedef struct { const char *id; FlVec direction; double working, breaking; } FlBookCase;  /* forward, rearward, left, right; `up` apart */
typedef struct { const char *gear, *surface, *state; double mu; } FlBookFriction;
/* N/m of one contact (a wheel, an end of a drum, a corner of a track): upright, and sideways before it slips. */
typedef struct { const char *gear; double up, sideways; } FlBookContact;
typedef struct { const char *truck, *trailer; } FlBookPair;
typedef struct { const char *kind; double lo, hi; } FlBookBand;          /* percent of gross on the coupling, by the trailer's kind of coupling */
typedef struct { const char *rule, *citation; FlSource source; } FlBookCitation;
typedef struct { const char *id, *text; FlSource source; } FlBookText;   /* text is a message id, to print */
/* Axle groups by their spread in inches: up to single_within they are one axle, up to tandem_within a tandem; then below formula_from what
 * between_two and between_more allow; from there W = factor (L N / (N - 1) + per_axle N + constant), L the spread in steps of spread_step,
 * W to the nearest `round`, both with halves down. Two tandems with tandem_pair_from between their outer axles have twice a tandem's. */
typedef struct
{
  double single_within, tandem_within, formula_from, between_two, between_more;
  double factor, per_axle, constant, spread_step, round, tandem_pair_from;
} FlBookBridge;
typedef struct { const char *path; FlSource source; } FlBookBlock;       /* where the numbers of a block of the file come from: "breaking.chain" */

typedef struct
{
  const char *id, *title, *edition, *date;
  char sha256[65];              /* of the file's bytes */
  FlUnit unit;                  /* in which weights are summed and compared */
  double g;                     /* m/s2 */

  const FlBookGrade *grades; gsize n_grades;
  gsize unmarked_grade;         /* index into grades */
  const FlBookChainRow *chain; gsize n_chain;
  const FlBookWebRow *webbing; gsize n_webbing;
  double webbing_breaking_factor, binder_breaking_factor, connector_breaking_factor;

  const char *const *chain_out, *const *strap_out, *const *binder_out, *const *connector_out;  /* kinds of finding */
  const char *const *repairs_accepted, *const *repairs_refused;            /* anything else is refused too, but the survey asks about it */
  const char *const *strap_summed;      /* kinds whose sizes add up across the width */

  double share_direct, share_same_side, share_other_side, aggregate_share;
  double heavy_weight; gint heavy_count, section_count;                    /* 10,000 lb; four; four per free section */
  /* 393.110: one tie-down up to short_length and short_weight; two up to mid_length; then two and one for each further step or part of it;
   * blocked forward: one for each step or part. Feet and the book's unit. */
  double count_short_length, count_short_weight, count_mid_length, count_step;

  const FlBookCase *cases; gsize n_cases;
  double up_share;              /* 0.2: the downward force asked for, as a share of weight */
  const FlBookFriction *friction; gsize n_friction;
  double friction_rolling, mat_default_mu;

  double deck_lo, deck_hi, deck_best_lo, deck_best_hi, plan_min, plan_best;   /* degrees: 20, 60, 30, 45, 6, 45 */
  double apart, hook_back, tail, ratchet_run, lever_run;                       /* inches: 2, 12, 12, 30, 24 */
  double ratchet_take_up, lever_take_up;                                       /* inches; where a binder's record gives none */
  double all_directions_floor;  /* 0.10 g */
  double near_share;            /* front and rear third */

  const FlBookPair *pairs; gsize n_pairs;
  const FlBookBand *bands; gsize n_bands;
  double coupling_floor_pct;    /* 5 */
  double legal_width, legal_single, legal_tandem, legal_gross;
  double height_warn;           /* in; where a move gives no limit */

  FlRecheck recheck;
  const FlBookText *cautions; gsize n_cautions;
  const FlBookText *walk_round; gsize n_walk_round;   /* lines of the walk-around that hold for every load */
  const FlBookCitation *citations; gsize n_citations;
  /* Force answers: the deck's state where a move gives none; steps of the load sharing. Stiffness: chain_modulus Pa over both legs of a
   * link; webbing_strain: force at full strain over the working load limit; the parts' own, N/m. */
  const char *state_when_not_given; gint force_steps;
  double chain_modulus, webbing_strain, binder_stiffness, connector_stiffness, anchor_stiffness, point_stiffness, stop_stiffness;
  const FlBookContact *contact_stiffness; gsize n_contact_stiffness;
  double margin_pct[FL_BASIS_SCALE + 1];        /* of a weight, by how it is known */
  double off_lengthwise, off_sideways;    /* inches: how far off its place a load may be set down */

  const FlBookBlock *blocks; gsize n_blocks;          /* the source of every block of the file */

  FlBookBridge bridge;
  double flag_side, flag_rear;  /* inches beyond the vehicle's side and rear from which a load is flagged */
  double steer_least_pct;       /* of what the truck weighs on its wheels, on a steering axle that its load makes lighter */
} FlBookData;

/* Reads and checks a rule book. NULL and problems (path, line, value, expected) if anything is wrong or missing. (transfer full) */
FlBook *fl_book_new_from_json (GBytes *text, FlProblems *problems);
FlBook *fl_book_ref (const FlBook *book);
void fl_book_unref (FlBook *book);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (FlBook, fl_book_unref)

const FlBookData *fl_book_data (const FlBook *book);
FlBookStamp fl_book_stamp (const FlBook *book);          /* borrowed texts */

/* The book with the house's policy on top. A rule that would loosen the book (below its own floor) or that it cannot understand is a problem with its
 * path, and NULL. (transfer full) */
FlBook *fl_book_tighten (const FlBook *book, const FlPolicy *policy, FlProblems *problems);
/* The policy in force; never NULL. Its records must outlive the book: fl_book_tighten keeps a deep copy. */
const FlPolicy *fl_book_policy (const FlBook *book);

/* The citation of a requirement or other id: "49 CFR 393.106(d)"; "ours" where the book names none. Static with the book. */
const char *fl_book_citation (const FlBook *book, const char *rule);

/* What only the book can see wrong in a fleet: marks, sizes, grades and findings of damage it does not know (errors for a mark that no
 * grade has or a size of chain with no row and no tag: warnings where the record can still be used as unmarked or by tag). */
void fl_book_survey (const FlBook *book, const FlFleet *fleet, FlProblems *problems);

/* Index of a mark's grade ("70", "7", "700"); -1 if no grade has it. */
gint fl_book_grade (const FlBook *book, const char *mark);
/* The row of a nominal size of chain, by its inch or its metric name (10 mm / 25.4 finds the row of 3/8); NULL if there is none. */
const FlBookChainRow *fl_book_chain_row (const FlBook *book, double size_in);
/* The row of a strap's width, likewise. */
const FlBookWebRow *fl_book_web_row (const FlBook *book, double width_in);
/* Table value for a nominal chain size and grade index, in the book's unit; NaN where the table has none. */
double fl_book_chain_wll (const FlBook *book, double size_in, gint grade);
/* Friction of running gear on a surface in a deck state ("dry", "wet", "frost"); a missing cell takes the lowest of its row; unknown running gear or
 * surface the lowest there is for the state; a state that is NULL or unknown the lowest of all states. */
double fl_book_friction (const FlBook *book, const char *gear, const char *surface, const char *state);
/* Stiffness of a contact of this running gear; the softest of all for one that the book does not know. */
FlBookContact fl_book_contact (const FlBook *book, const char *gear);

G_END_DECLS
#endif
