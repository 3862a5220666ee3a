/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The typed views of a fleet's records: plain structs, decoded once, owned by their record, never changed.
 * The keys and their meaning are docs/formats.md; here is only how they look in C. An absent text is NULL, an absent quantity
 * FL_UNIT_NONE, a null one FL_UNIT_NULL. Lists are pointer and length. */
#ifndef FL_RECORDS_H
#define FL_RECORDS_H

#include "fl-facing.h"
#include "fl-quantity.h"

G_BEGIN_DECLS

typedef enum
{
  FL_KIND_YARD, FL_KIND_PERSON, FL_KIND_TRUCK, FL_KIND_MACHINE, FL_KIND_ARTICLE, FL_KIND_TRAILER, FL_KIND_CHAIN, FL_KIND_BINDER,
  FL_KIND_STRAP, FL_KIND_CONNECTOR, FL_KIND_MOVE, FL_KIND_PLAN, FL_KIND_POLICY, FL_N_KINDS
} FlKind;

/* "machines" for FL_KIND_MACHINE: the list's key in the fleet document. Static text. */
const char *fl_kind_list (FlKind kind);
/* "machine" for FL_KIND_MACHINE: one of them, for messages. Static text. */
const char *fl_kind_name (FlKind kind);

/* Three answers of someone who was asked to look. */
typedef enum { FL_NOT_LOOKED, FL_IS_NOT, FL_IS } FlSeen;

/* How well a figure is known; the first word of its basis text. No basis counts as typical. */
typedef enum { FL_BASIS_TYPICAL, FL_BASIS_TAPE, FL_BASIS_MANUAL, FL_BASIS_PLATE, FL_BASIS_SCALE } FlBasisKind;
typedef struct { const char *key, *text; FlBasisKind kind; } FlBasis;
typedef struct { const FlBasis *items; gsize n; } FlBases;
/* The basis given for "weight", "height", ...; kind typical and text "typical" where none is. */
FlBasis fl_basis_of (const FlBases *bases, const char *key);

typedef struct { FlQuantity x, y, z; } FlPlace;          /* a place in the machine's or the trailer's frame */
typedef struct { const char *name; FlPlace min, max; } FlSolid;

typedef struct { const char *id, *name, *uid; } FlYard;

enum { FL_ROLE_DISPATCHER = 1, FL_ROLE_FLEET_LEAD = 2, FL_ROLE_DRIVER = 4, FL_ROLE_READER = 8 };
typedef struct { const char *id, *name, *language; guint roles; } FlPerson;

typedef struct
{
  FlQuantity x, tare, rated;
  gboolean steer;
  gint group;                   /* 0: a group of its own */
  double share;                 /* of its group; NaN: equal shares */
} FlAxle;

typedef struct
{
  gboolean present;
  const char *kind;             /* pintle, ball, lunette, ... : the pairs stand in the book */
  FlQuantity x, tare, rated_vertical, rated_trailed;
  double share_lo, share_hi;    /* percent of the trailer's gross; NaN where not given */
} FlCoupling;

typedef struct
{
  const char *id, *name, *yard;
  FlQuantity gvwr, gcwr, front_x;
  FlCoupling coupling;
  const FlAxle *axles; gsize n_axles;
  FlBases basis;
} FlTruck;

typedef enum { FL_GEAR_UNKNOWN, FL_RUBBER_TIRES, FL_RUBBER_TRACKS, FL_STEEL_TRACKS, FL_STEEL_DRUM } FlRunningGear;
const char *fl_running_gear_id (FlRunningGear gear);     /* "rubber_tires"; NULL for unknown */

typedef struct
{
  FlQuantity x, y, length, width;   /* the middle of the patch on the ground and its size */
  FlRunningGear gear;
  FlSeen braked;
  const char *section;
} FlContactPatch;

typedef struct
{
  const char *id, *name;
  const char *fitting;          /* lug, loop, eye, hook, slot, drawbar, axle, frame, track; NULL unknown */
  const char *section;          /* front, rear, implement or its own; NULL: not said */
  FlQuantity x, y, z, rated, opening, bar;
  gboolean rated_each;          /* FALSE: the rating is shared by all that hang on the point */
  gboolean maker_provided;
  gint takes;                   /* tie-downs it can take */
  double pull_deck_lo, pull_deck_hi, pull_plan_lo, pull_plan_hi;  /* degrees; NaN: no window */
  FlQuantity pull_run_lo, pull_run_hi;
  const char *caution;
} FlTiePoint;

typedef enum
{
  FL_LOCK_ARTICULATION, FL_LOCK_SWING, FL_LOCK_BOOM, FL_LOCK_TURNTABLE, FL_LOCK_OSCILLATION, FL_LOCK_SCREED, FL_LOCK_MAST,
  FL_LOCK_BOWL, FL_LOCK_ARM, FL_LOCK_OTHER, FL_N_LOCKS
} FlLockKind;
typedef struct { const char *id, *name, *stowed_at; FlLockKind kind; FlSeen on_machine, fitted; } FlLock;

typedef struct { const char *id, *name; const FlPlace *points; gsize n_points; gboolean edge; } FlOverPath;

typedef struct
{
  const char *id, *name, *lock;
  FlQuantity width;             /* its own, which may be more than the machine's tracks; NONE: not measured */
  gboolean can_lower;
  gint min_tie_downs;
  const char *const *tie_points;   /* NULL-terminated ids; NULL: none given */
  const FlOverPath *over_paths; gsize n_over_paths;
} FlImplement;

enum { FL_MAY_FACE_FORWARD = 1, FL_MAY_FACE_REARWARD = 2 };

/* A machine, or an article of cargo that does not run on wheels or tracks (`article`). */
typedef struct _FlMachine FlMachine;
struct _FlMachine
{
  const char *id, *name, *kind, *yard, *notes;
  gboolean article;
  FlQuantity weight, length, width, height;
  FlRunningGear running_gear;
  const FlContactPatch *contacts; gsize n_contacts;
  FlPlace cg;
  const FlTiePoint *tie_points; gsize n_tie_points;
  gboolean articulated;
  FlQuantity joint_x, joint_z;
  gboolean joint_rolls;
  const FlLock *locks; gsize n_locks;
  const FlImplement *implements; gsize n_implements;
  const FlSolid *solids; gsize n_solids;
  const FlSolid *keep_clear; gsize n_keep_clear;
  guint facings;                /* FL_MAY_FACE_*; both unless the record says otherwise */
  FlQuantity x_min, x_max;      /* extent in the machine frame; absent: 0 and length */
  FlQuantity max_ramp;          /* degrees */
  FlBases basis;
  const char *position;         /* NULL: the normal transport position */
  const char *position_name;
  const FlMachine *const *positions; gsize n_positions;   /* each the whole machine with that position's members in place */
};
/* The machine in one of its positions; `machine` itself for NULL; NULL if there is no such position. */
const FlMachine *fl_machine_in_position (const FlMachine *machine, const char *position);
const FlTiePoint *fl_machine_point (const FlMachine *machine, const char *id);           /* NULL if there is none */
const FlImplement *fl_machine_implement (const FlMachine *machine, const char *id);      /* NULL if there is none */
const FlOverPath *fl_implement_over_path (const FlImplement *implement, const char *id);

typedef struct
{
  const char *id;
  FlQuantity x0, x1, z, block_rated;
  double slope;                 /* degrees; positive rises toward the front */
  gboolean carries, blocks_forward;
  const char *surface;          /* NULL: the deck's */
} FlZone;

typedef struct
{
  const char *id, *fitting;     /* d_ring, stake_pocket, rub_rail, chain_slot, lashing_ring, bracket */
  FlQuantity x, y, z, rated, opening, bar;
  gint takes;
  char side;                    /* 'L', 'R' or 'C': the sign of y */
  guint row_number;             /* counted from the rear in its row, 0 where it stands alone */
} FlAnchor;

typedef struct { FlQuantity span, capacity; } FlSpan;

typedef struct
{
  const char *id, *name, *yard, *kind;
  FlQuantity deck_length, deck_width, deck_height;
  const char *surface;          /* wood, steel, aluminum, rubber_mat; NULL unknown */
  const FlZone *zones; gsize n_zones;   /* as given; where none carries at the main deck, one flat main zone is added first */
  gboolean has_front_stop;
  FlQuantity front_stop_x, front_stop_rated;
  FlQuantity tare, gvwr, capacity, hinge_x, clear_width, load_angle;
  const FlSpan *concentrated; gsize n_concentrated;
  FlCoupling coupling;          /* not present: a rollback, which has all its axles itself */
  const FlAxle *axles; gsize n_axles;
  const FlAnchor *anchors; gsize n_anchors;   /* rows expanded; rear to front, left before right, then by id */
  const FlSolid *solids; gsize n_solids;
  FlBases basis;
} FlTrailer;
const FlAnchor *fl_trailer_anchor (const FlTrailer *trailer, const char *id);            /* NULL if there is none */

/* ── gear ── */

typedef struct { const char *kind, *repair_link, *note; FlQuantity size, wll; } FlDamage;
typedef struct { const char *date, *by; const FlDamage *findings; gsize n_findings; } FlInspection;

typedef enum { FL_HOOK_UNKNOWN, FL_HOOK_GRAB, FL_HOOK_SLIP, FL_HOOK_CLEVIS_GRAB, FL_HOOK_CLEVIS_SLIP, FL_HOOK_NONE } FlHookKind;
/* TRUE for the kinds that go through the eye and back onto their own chain (so 12 in more of it are needed). */
gboolean fl_hook_is_grab (FlHookKind kind);
typedef struct { FlHookKind hook; FlQuantity needs, wll; } FlEnd;

/* What chains, binders, straps and connectors have in common. */
typedef struct
{
  const char *id, *kept_at;
  gint count;                   /* 1: one piece with its own number */
  const FlInspection *newest;   /* NULL: never inspected */
  const FlInspection *inspections; gsize n_inspections;
} FlPiece;

typedef struct
{
  FlPiece piece;
  const char *size_text;        /* "3/8", or "10 mm" where size_mm was given */
  double size_in;               /* nominal, inches */
  gboolean size_metric;
  const char *mark; FlSeen mark_seen;   /* FL_IS: mark is its text; FL_IS_NOT: unmarked; FL_NOT_LOOKED */
  FlQuantity tag_wll; FlSeen tag_legible;
  FlQuantity length;
  FlEnd ends[2];
} FlChain;

typedef enum { FL_BINDER_UNKNOWN, FL_BINDER_RATCHET, FL_BINDER_LEVER } FlBinderKind;
typedef struct
{
  FlPiece piece;
  FlBinderKind kind;
  FlQuantity wll, take_up, needs_run;
  const double *sizes_in; gsize n_sizes;
  const char *const *size_texts;
} FlBinder;

typedef enum { FL_TENSIONER_NONE, FL_TENSIONER_RATCHET, FL_TENSIONER_WINCH, FL_TENSIONER_UNKNOWN } FlTensioner;
typedef struct
{
  FlPiece piece;
  FlQuantity width, tag_wll, length; FlSeen tag_legible;
  const char *width_text;
  FlTensioner tensioner;
  FlEnd ends[2];
} FlStrap;

typedef enum { FL_CONNECTOR_UNKNOWN, FL_CONNECTOR_SHACKLE, FL_CONNECTOR_CLEVIS_LINK, FL_CONNECTOR_SOFT_LOOP } FlConnectorKind;
typedef struct { FlPiece piece; FlConnectorKind kind; FlQuantity wll, opening, jaw, pin; } FlConnector;

/* ── moves and the house's policy ── */

typedef struct { const char *id; gboolean article; } FlMoveLoad;
typedef struct
{
  const char *id, *date, *trailer, *truck, *driver, *from, *to, *gear_yard, *deck_state, *notes;
  const FlMoveLoad *loads; gsize n_loads;      /* from the front */
  const char *depart_text, *back_text;
  gint depart, back;            /* minutes after midnight of `date`; back may be over 1440; -1 not given */
  gint priority;                /* 1 first; 1000 where not given */
  double miles;                 /* NaN where not given */
  FlQuantity height_limit;
  const char *const *attachments;
} FlMove;
/* The minutes (counted from 1970-01-01 in the move's own local time) in which it holds its machine, trailer, truck, driver and gear:
 * depart to back plus turnaround. A missing time widens to the whole day. */
void fl_move_busy (const FlMove *move, gint turnaround_min, gint64 *from, gint64 *to);
gboolean fl_moves_clash (const FlMove *a, const FlMove *b, gint turnaround_min);

typedef enum
{
  FL_HOUSE_MIN_WLL_EACH, FL_HOUSE_MIN_CHAIN, FL_HOUSE_NO_STRAPS_ON_MACHINES, FL_HOUSE_FOUR_BELOW_THRESHOLD, FL_HOUSE_LENGTH_COUNT_TOO,
  FL_HOUSE_RATCHET_ONLY, FL_HOUSE_INBOARD_OF_RUB_RAIL, FL_HOUSE_DECK_ANGLE_BAND, FL_HOUSE_STAND_IN_RATING, FL_HOUSE_OVER_WIDE_BLADE_REAR,
  FL_HOUSE_EXTRA_AGGREGATE_PCT, FL_HOUSE_CHAIN_ALLOWANCE, FL_HOUSE_WEIGHT_MARGIN_PCT, FL_HOUSE_IMPLEMENT_LOCK_SUFFICES,
  FL_HOUSE_HEIGHT_MARGIN, FL_N_HOUSE_RULES
} FlHouseRuleId;
const char *fl_house_rule_name (FlHouseRuleId id);       /* "min_wll_each" */
typedef struct
{
  FlHouseRuleId rule;
  FlQuantity wll, length, width;     /* what the rule takes of these */
  const char *size_text, *grade, *fitting;
  double size_in, pct, lo_deg, hi_deg;
} FlHouseRule;
typedef struct { const FlHouseRule *rules; gsize n_rules; } FlPolicy;
const FlHouseRule *fl_policy_rule (const FlPolicy *policy, FlHouseRuleId id);            /* the first; NULL if not asked for */

G_END_DECLS
#endif
