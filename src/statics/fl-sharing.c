/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-sharing.c: load sharing: what comes in made ready, the march through the steps, the limits watched. The steps themselves are
 * fl-share-step.c. */
#include "fl-sharing.h"

#include <string.h>

#include "fl-share-step.h"

enum { NO_SPRING = G_MAXUINT8, MOST_PARTS = 16 };

/* Iterations before it gives up: so many, and more for each step. Random rigs take four a step; a load at the edge of going away, hundreds. */
enum { SPARE = 2000, A_STEP = 20 };

/* N/m over the weight. Nothing is stiffer: under its own weight a load sinks a micrometre into it (FL_STATICS_POINT). */
#define STIFFEST (1.0 / FL_STATICS_POINT)

/* N/m over the weight: the spring that stands in for what nothing holds. What it bears when the load has gone is a ten-millionth of it. */
#define WEAKEST 1e-7

/* Of the weight: a step whose six equations are balanced so far has settled. */
#define ENOUGH 1e-10

/* Of the length of a unit vector. */
#define UNIT 1e-6

/* What is watched: a sum of tensions and its limit. legs: of the pulls. */
typedef struct { guint64 legs; double limit, before; } Watch;

typedef struct
{
  const FlPulls *pulls;
  const FlBody *body;
  FlVec direction;
  FlShareRig rig;
  guint8 spring_of[FL_MAX_PULLS], foot_of[FL_MAX_CONTACTS];
  gsize n_pulls, n_contacts, n_watches;
  Watch watches[FL_MAX_PULLS + FL_MAX_SHARED];
  double weight, reach, q[FL_SHARE_N], at_rest[FL_SHARE_N];
  guint skipped;
} March;

/* ── what comes in ── */

static gboolean
is_unit (FlVec v)
{
  return fl_vec_is_finite (v) && fabs (fl_vec_norm (v) - 1.0) < UNIT;
}

/* m/N: what one leg yields; NAN where that is nothing to reckon with. A stop has no length, and its ea does not matter. */
static double
yields (const FlPull *pull)
{
  double run = pull->length == 0 ? 0 : pull->length > 0 && pull->ea > 0 ? pull->length / pull->ea : NAN;
  double sum = run + pull->give;

  return pull->give >= 0 && isfinite (sum) && sum > 0 ? sum : NAN;
}

static gboolean
pull_is_sound (const FlPull *pull)
{
  return fl_vec_is_place (pull->at) && is_unit (pull->along) && pull->limit >= 0 && isfinite (pull->pretension)
         && isfinite (yields (pull));
}

static gboolean
contact_is_sound (const FlContact *contact)
{
  return fl_vec_is_place (contact->at) && contact->mu_along >= 0 && isfinite (contact->mu_along) && contact->mu_across >= 0
         && isfinite (contact->mu_across) && contact->stiffness > 0 && isfinite (contact->stiffness) && contact->shear >= 0
         && isfinite (contact->shear);
}

/* The legs of the tie of pull i, as bits. */
static guint64
legs_of (const March *march, gsize i)
{
  guint tie = march->pulls->pulls[i].tie;
  guint64 legs = 0;

  if (tie == 0)
    return G_GUINT64_CONSTANT (1) << i;
  for (gsize k = 0; k < march->n_pulls; k++)
    if (march->pulls->pulls[k].tie == tie)
      legs |= G_GUINT64_CONSTANT (1) << k;
  return legs;
}

static inline gboolean
has (guint64 legs, gsize i)
{
  return legs >> i & 1;
}

static gboolean
legs_are_sound (const March *march, guint64 legs)
{
  for (gsize i = 0; i < march->n_pulls; i++)
    if (has (legs, i) && !pull_is_sound (&march->pulls->pulls[i]))
      return FALSE;
  return TRUE;
}

static void
reach_to (March *march, FlVec at)
{
  march->reach = MAX (march->reach, fl_vec_norm (fl_vec_sub (at, march->body->cg)));
}

/* The greatest distance from the center of gravity of anything that bears. */
static void
find_reach (March *march)
{
  for (gsize i = 0; i < march->n_pulls; i++)
    if (legs_are_sound (march, legs_of (march, i)))
      reach_to (march, march->pulls->pulls[i].at);
  for (gsize i = 0; i < march->n_contacts; i++)
    if (contact_is_sound (&march->body->contacts[i]))
      reach_to (march, march->body->contacts[i].at);
  if (march->reach < FL_STATICS_POINT)
    march->reach = 1.0;
}

/* The stretch of one leg by the six unknowns, added. */
static void
add_leg (const March *march, const FlPull *pull, double b[FL_SHARE_N])
{
  FlVec turn = fl_vec_scale (fl_vec_cross (fl_vec_sub (pull->at, march->body->cg), pull->along), 1.0 / march->reach);

  b[0] -= pull->along.x;
  b[1] -= pull->along.y;
  b[2] -= pull->along.z;
  b[3] -= turn.x;
  b[4] -= turn.y;
  b[5] -= turn.z;
}

static void
add_spring (March *march, guint64 legs)
{
  FlShareSpring *spring = &march->rig.springs[march->rig.n_springs];
  double limit = INFINITY, yield = 0;
  gsize first = FL_MAX_PULLS;

  *spring = (FlShareSpring) { .pull = INFINITY };
  for (gsize i = 0; i < march->n_pulls; i++)
    if (has (legs, i))
      {
        const FlPull *pull = &march->pulls->pulls[i];

        first = MIN (first, i);
        march->spring_of[i] = (guint8) march->rig.n_springs;
        limit = MIN (limit, pull->limit);
        yield += yields (pull);
        spring->pull = MIN (spring->pull, pull->pretension);
        add_leg (march, pull, spring->b);
      }
  spring->k = MIN (1.0 / yield, STIFFEST * march->weight);
  march->rig.n_springs++;
  if (isfinite (limit))
    march->watches[march->n_watches++] = (Watch) { G_GUINT64_CONSTANT (1) << first, limit, 0 };
}

static void
take_pulls (March *march)
{
  memset (march->spring_of, NO_SPRING, sizeof march->spring_of);
  for (gsize i = 0; i < march->n_pulls; i++)
    {
      guint64 legs = legs_of (march, i);

      if (!legs_are_sound (march, legs))
        march->skipped++;
      else if (march->spring_of[i] == NO_SPRING)
        add_spring (march, legs);
    }
}

static void
take_shared (March *march)
{
  gsize n = MIN (march->pulls->n_shared, (gsize) FL_MAX_SHARED);

  for (gsize i = 0; i < n; i++)
    {
      const FlSharedLimit *shared = &march->pulls->shared[i];

      if (!(shared->limit >= 0))
        march->skipped++;
      else if (isfinite (shared->limit))
        march->watches[march->n_watches++] = (Watch) { shared->legs, shared->limit, 0 };
    }
  march->skipped += (guint) MIN (march->pulls->n_shared - n, (gsize) G_MAXINT16);
}

static void
take_contacts (March *march)
{
  memset (march->foot_of, NO_SPRING, sizeof march->foot_of);
  for (gsize i = 0; i < march->n_contacts; i++)
    {
      const FlContact *contact = &march->body->contacts[i];
      FlVec r = fl_vec_scale (fl_vec_sub (contact->at, march->body->cg), 1.0 / march->reach);
      double most = STIFFEST * march->weight;

      if (!contact_is_sound (contact))
        {
          march->skipped++;
          continue;
        }
      march->foot_of[i] = (guint8) march->rig.n_feet;
      march->rig.feet[march->rig.n_feet++] = (FlShareFoot) {
        { r.x, r.y, r.z }, MIN (contact->stiffness, most), MIN (contact->shear, most), { contact->mu_along, contact->mu_across }, { 0, 0 },
      };
    }
}

/* FALSE: there is nothing to reckon with. */
static gboolean
prepare (March *march)
{
  const FlBody *body = march->body;

  march->weight = body->mass * body->g;
  march->n_pulls = MIN (march->pulls->n, (gsize) FL_MAX_PULLS);
  march->n_contacts = MIN (body->n_contacts, (gsize) FL_MAX_CONTACTS);
  march->skipped = (guint) MIN (march->pulls->n - march->n_pulls + body->n_contacts - march->n_contacts, (gsize) G_MAXINT16);
  if (!(body->mass > 0) || !(body->g > 0) || !isfinite (march->weight) || !fl_vec_is_place (body->cg))
    return FALSE;
  find_reach (march);
  take_pulls (march);
  take_shared (march);
  take_contacts (march);
  march->rig.rest = WEAKEST * march->weight;
  march->rig.enough = ENOUGH * march->weight;
  return march->rig.n_feet > 0;
}

/* ── the march ── */

static void
load_at (March *march, double g)
{
  FlVec d = march->direction;

  march->rig.force[0] = march->weight * g * d.x;
  march->rig.force[1] = march->weight * g * d.y;
  march->rig.force[2] = march->weight * (g * d.z - 1.0);
}

static FlVec
first_three (const double *q, const double *from, double over)
{
  return (FlVec) { (q[0] - from[0]) / over, (q[1] - from[1]) / over, (q[2] - from[2]) / over };
}

/* Further than small displacements go, the center of gravity or what is furthest from it. */
static gboolean
has_gone (const March *march)
{
  const double *q = march->q, *from = march->at_rest;

  return !(fl_vec_norm (first_three (q, from, 1)) <= FL_STATICS_GONE)
         || !(fl_vec_norm (first_three (q + 3, from + 3, 1)) <= FL_STATICS_GONE);
}

static gboolean
settle_part (March *march, double g)
{
  load_at (march, g);
  if (!fl_share_settle (&march->rig, march->q) || has_gone (march))
    return FALSE;
  fl_share_keep_slip (&march->rig, march->q);
  return TRUE;
}

static gboolean
settle_parts (March *march, double from, double to, guint parts)
{
  for (guint i = 1; i <= parts; i++)
    if (!settle_part (march, i == parts ? to : from + (to - from) * i / parts))
      return FALSE;
  return TRUE;
}

/* A settled step to come back to. */
typedef struct { double q[FL_SHARE_N], way[FL_SHARE_N], slip[FL_MAX_CONTACTS][2]; } Mark;

static void
set_mark (const March *march, Mark *mark)
{
  memcpy (mark->q, march->q, sizeof mark->q);
  memcpy (mark->way, march->rig.way, sizeof mark->way);
  for (gsize i = 0; i < march->rig.n_feet; i++)
    memcpy (mark->slip[i], march->rig.feet[i].slip, sizeof mark->slip[i]);
}

static void
go_back (March *march, const Mark *mark)
{
  memcpy (march->q, mark->q, sizeof mark->q);
  memcpy (march->rig.way, mark->way, sizeof mark->way);
  for (gsize i = 0; i < march->rig.n_feet; i++)
    memcpy (march->rig.feet[i].slip, mark->slip[i], sizeof mark->slip[i]);
}

/* From one settled step to the next; a step that does not settle is tried again in parts. FALSE: all is as it was. */
static gboolean
advance (March *march, double from, double to)
{
  Mark mark;

  set_mark (march, &mark);
  for (guint parts = 1; parts <= MOST_PARTS; parts *= 4)
    {
      gboolean gone;

      if (settle_parts (march, from, to, parts))
        return TRUE;
      gone = has_gone (march);
      go_back (march, &mark);
      if (gone)
        break;
    }
  return FALSE;
}

/* A first guess: sunk by the weight over all contacts. */
static void
guess (March *march)
{
  double sum = 0;

  for (gsize i = 0; i < march->rig.n_feet; i++)
    sum += march->rig.feet[i].normal;
  memset (march->q, 0, sizeof march->q);
  march->q[2] = -march->weight / sum;
}

/* Tie-downs are laid on a load that stands: their stretch is nothing where its weight alone brings it. One that cannot stand without them
 * leans on them from the start. */
static void
stand_alone (March *march)
{
  gsize n = march->rig.n_springs;

  guess (march);
  march->rig.most = SPARE;
  march->rig.n_springs = 0;
  if (settle_part (march, 0))
    for (gsize i = 0; i < n; i++)
      march->rig.springs[i].pull -= march->rig.springs[i].k * fl_share_stretch (&march->rig.springs[i], march->q);
  else
    guess (march);
  march->rig.n_springs = n;
}

/* Step zero: the weight, then the pretension too. */
static gboolean
stand (March *march)
{
  stand_alone (march);
  march->rig.most = march->rig.iterations + SPARE;
  if (!settle_part (march, 0))
    return FALSE;
  memcpy (march->at_rest, march->q, sizeof march->q);
  return TRUE;
}

/* ── limits ── */

static double
tension_of (const March *march, gsize i)
{
  guint8 spring = march->spring_of[i];

  return spring == NO_SPRING ? 0 : fl_share_tension (&march->rig.springs[spring], march->q);
}

static double
sum_of (const March *march, guint64 legs)
{
  double sum = 0;

  for (gsize i = 0; i < march->n_pulls; i++)
    if (has (legs, i))
      sum += tension_of (march, i);
  return sum;
}

/* Tension that is more than what a settled step leaves open. */
static gboolean
is_pulled (const March *march, double sum)
{
  return sum > ENOUGH * march->weight;
}

/* The first g between the two at which a limit is reached, INFINITY for none. Remembers what it saw. */
static double
watch (March *march, double from, double to)
{
  double first = INFINITY;

  for (gsize i = 0; i < march->n_watches; i++)
    {
      Watch *watched = &march->watches[i];
      double sum = sum_of (march, watched->legs), rise = sum - watched->before;

      if (is_pulled (march, sum) && sum >= watched->limit)
        first = MIN (first, rise > 0 ? from + (to - from) * CLAMP ((watched->limit - watched->before) / rise, 0, 1) : from);
      watched->before = sum;
    }
  return first;
}

/* ── what comes out ── */

static guint
most_pulled (const FlSharing *sharing, const March *march, guint64 legs)
{
  guint most = 0;
  gboolean any = FALSE;

  for (guint i = 0; i < march->n_pulls; i++)
    if (has (legs, i) && (!any || sharing->tension[i] > sharing->tension[most]))
      {
        most = i;
        any = TRUE;
      }
  return most;
}

static void
fill_use (FlSharing *sharing, const March *march)
{
  for (gsize i = 0; i < march->n_watches; i++)
    {
      const Watch *watched = &march->watches[i];
      double sum = sum_of (march, watched->legs), use = is_pulled (march, sum) ? sum / watched->limit : 0;

      if (use > sharing->use)
        {
          sharing->use = use;
          sharing->worst = most_pulled (sharing, march, watched->legs);
        }
    }
}

static void
fill (FlSharing *sharing, March *march, double g)
{
  load_at (march, g);
  sharing->reached = g;
  for (gsize i = 0; i < march->n_pulls; i++)
    sharing->tension[i] = tension_of (march, i);
  for (gsize i = 0; i < march->n_contacts; i++)
    if (march->foot_of[i] != NO_SPRING)
      sharing->force[i] = fl_share_push (&march->rig.feet[march->foot_of[i]], march->q);
  sharing->moved = first_three (march->q, march->at_rest, 1);
  sharing->turned = first_three (march->q + 3, march->at_rest + 3, march->reach);
  sharing->residual = fl_share_residual (&march->rig, march->q) / march->weight;
  fill_use (sharing, march);
}

/* Up to the demand. */
static void
march_to (FlSharing *sharing, March *march, double demand, guint n_steps)
{
  double at = 0;

  march->rig.most = SPARE + A_STEP * n_steps;
  sharing->holds = watch (march, 0, 0);
  while (sharing->steps < n_steps)
    {
      double next = sharing->steps + 1 == n_steps ? demand : demand * (sharing->steps + 1) / n_steps;

      if (next > at && !advance (march, at, next))
        break;
      if (isinf (sharing->holds))
        sharing->holds = watch (march, at, next);
      at = next;
      sharing->steps++;
    }
  sharing->converged = sharing->steps == n_steps;
  fill (sharing, march, at);
  if (!sharing->converged)
    sharing->holds = MIN (sharing->holds, at);
}

/* On to the first limit. A load that goes away first holds no more than its last step. */
static void
march_on (FlSharing *sharing, March *march, double demand, double upto, guint n_steps)
{
  double at = demand, step = (demand > 0 ? demand : upto) / n_steps;

  march->rig.most = march->rig.iterations + SPARE + A_STEP * n_steps;
  for (guint i = 0; isinf (sharing->holds) && at < upto && i < FL_SHARING_MOST_STEPS; i++)
    {
      double next = MIN (at + step, upto);

      sharing->holds = advance (march, at, next) ? watch (march, at, next) : at;
      at = next;
    }
}

FlSharing
fl_sharing_solve (const FlBody *body, const FlPulls *pulls, FlVec direction, double demand, double upto, guint n_steps)
{
  FlSharing sharing = { 0 };
  March march = { .pulls = pulls, .body = body, .direction = direction };

  n_steps = CLAMP (n_steps, 1, FL_SHARING_MOST_STEPS);
  if (!is_unit (direction) || !(demand >= 0) || !isfinite (demand) || !prepare (&march))
    return (FlSharing) { .skipped = march.skipped };
  if (stand (&march))
    {
      march_to (&sharing, &march, demand, n_steps);
      if (sharing.converged)
        march_on (&sharing, &march, demand, upto, n_steps);
    }
  sharing.iterations = march.rig.iterations;
  sharing.skipped = march.skipped;
  return sharing;
}
