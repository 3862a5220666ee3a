/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A tie-down as an assembly: chain or strap, binder, connectors, and what it is hooked to. What it is worth (its weakest part,
 * 393.108(a)), whether its parts fit each other and the run, and how much chain it takes. Pure. */
#ifndef FL_ASSEMBLY_H
#define FL_ASSEMBLY_H

#include "fl-lay.h"
#include "fl-rating.h"

G_BEGIN_DECLS

/* A piece of gear with its rating, looked up and rated once. */
typedef struct
{
  const FlRecord *record;       /* borrowed from the fleet */
  const char *id;               /* unit number, "C-3/8-20 #3" for a piece of a counted record; borrowed */
  FlKind kind;
  FlRating rating;
} FlRated;

/* Looks up and rates. FALSE if the fleet has no such piece. `id` is borrowed. */
gboolean fl_rated_find (FlRated *rated, const FlBook *book, const FlFleet *fleet, const char *id);

typedef struct
{
  const FlRated *chain, *binder, *strap;    /* NULL: none */
  const FlRated *connectors[FL_MAX_CONNECTORS]; gboolean connector_at_anchor[FL_MAX_CONNECTORS]; guint n_connectors;
  const FlTiePoint *point;                   /* NULL for an `over` tie-down */
  const FlTiePoint *const *through; guint n_through;   /* the eyes that an `over` runs through; NULL entries: places that are none */
  guint through_hang[FL_LAY_MAX_PATH];       /* how many tie-downs share each eye's rating; 0 as 1 */
  const FlAnchor *anchors[2];                /* [1] NULL for direct */
  double run_in;                             /* inches; NaN: not known */
} FlAssemblyParts;

enum
{
  FL_ASM_NO_GEAR = 1 << 0,      /* neither chain nor strap, or both */
  FL_ASM_OUT_OF_USE = 1 << 1,   /* `part` names the piece */
  FL_ASM_HOOK_POINT = 1 << 2,   /* known not to fit the machine's point */
  FL_ASM_HOOK_ANCHOR = 1 << 3,
  FL_ASM_BINDER_SIZE = 1 << 4,  /* binder not made for the chain's size */
  FL_ASM_TOO_SHORT = 1 << 5,    /* chain or strap shorter than it must be */
  FL_ASM_RUN_SHORT = 1 << 6,    /* run shorter than the binder needs */
  FL_ASM_NO_TENSIONER = 1 << 7, /* cannot be tightened, 393.112 */
  FL_ASM_FORBIDS = (1 << 8) - 1,
  FL_ASM_UNMEASURED_POINT = 1 << 9,   /* opening, bar or hook at the machine's end not measured */
  FL_ASM_UNMEASURED_ANCHOR = 1 << 10,
  FL_ASM_UNRATED_ANCHOR = 1 << 11,
  FL_ASM_UNRATED_POINT = 1 << 12,
  FL_ASM_WLL_UNKNOWN = 1 << 13, /* some gear's limit cannot be known */
  FL_ASM_ASSUMED = 1 << 14,     /* a hook taken as its chain */
  FL_ASM_LENGTH_UNKNOWN = 1 << 15,
  FL_ASM_NO_LENGTH = 1 << 16,   /* run not known: length and binder run not judged */
  FL_ASM_NO_ALLOWANCE = 1 << 17 /* long enough, but not with the house's chain_allowance */
};

typedef struct
{
  double wll;                   /* of the weakest known part, in the book's unit; NaN: nothing known */
  FlKind limited_kind;          /* of a piece of gear; FL_N_KINDS: an anchor or a point, see limited_what */
  const char *limited_what;     /* "chain", "binder", "strap", "shackle", "anchor", "point" */
  const char *limited_id;
  double breaking;              /* least of the known parts' breaking values, book's unit; NaN: not known */
  double needs_in, have_in;     /* inches of chain or strap, the house's chain_allowance in what it needs; NaN: not known */
  double binder_run_in;         /* shortest run for the binder; 0 without one */
  guint flags;
  const FlRated *bad;           /* out of use, or the one whose limit is unknown */
  FlFit point_fit, anchor_fit;
} FlAssembly;

/* Both ends join the weakest part: the point and the anchor, of an `over` both anchors and the eyes it runs through. An eye is pulled by both
 * legs of what runs through it, so its rating counts by half (ours: the two legs never pull more than twice the tension). */
void fl_assemble (FlAssembly *assembly, const FlBook *book, const FlAssemblyParts *parts);

/* The part that sets an assembly's limit, "chain C-041" or "anchor P1L"; NULL where nothing is known. In the arena. */
const char *fl_assembly_limit_text (const FlAssembly *assembly, FlArena *arena);

G_END_DECLS
#endif
