/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-equilibrium.c: the upper bound: what may be counted, the program in pure numbers, and the mechanism in words. */
#include "fl-equilibrium.h"

#include <string.h>

#include "fl-cone.h"
#include "fl-simplex.h"

/* In place of a pull's tie in the program: it has none. */
enum { NONE = G_MAXUINT8 };

typedef struct
{
  const FlBody *body;
  const FlPulls *pulls;
  gsize  n_pulls, n_contacts, n_shared;
  double weight, reach;
  guint8 member[FL_MAX_PULLS];           /* the program's tie of pull i */
  guint8 standing[FL_MAX_CONTACTS];      /* body's number of the program's contact j */
  guint64 legs[FL_MAX_PULLS];            /* pulls of the program's tie */
  guint64 left_out;
  guint  skipped;
  FlSimplexProblem program;
} Rig;

const char *
fl_mode_id (FlMode mode)
{
  static const char *const ids[FL_N_MODES] = {
    [FL_SLIDES] = "slides", [FL_TIPS] = "tips", [FL_YAWS] = "yaws", [FL_LIFTS] = "lifts",
    [FL_UNSTABLE_AT_REST] = "unstable_at_rest", [FL_NOT_JUDGED] = "not_judged",
  };

  return (guint) mode < FL_N_MODES ? ids[mode] : ids[FL_NOT_JUDGED];
}

static gboolean
is_unit (FlVec v)
{
  return fabs (fl_vec_norm (v) - 1.0) < FL_STATICS_UNIT;
}

static gboolean
can_judge (const FlBody *body, FlVec direction)
{
  double weight = body->mass * body->g;

  return body->mass > 0.0 && body->g > 0.0 && isnormal (weight) && fl_vec_is_place (body->cg) && is_unit (direction);
}

static gboolean
can_stand_on (const FlContact *contact)
{
  return fl_vec_is_place (contact->at) && contact->mu_along >= 0.0 && contact->mu_across >= 0.0
         && isfinite (contact->mu_along) && isfinite (contact->mu_across);
}

static gboolean
can_pull (const FlPull *pull)
{
  return fl_vec_is_place (pull->at) && is_unit (pull->along) && pull->limit >= 0.0;
}

static inline guint64
bit (gsize i)
{
  return G_GUINT64_CONSTANT (1) << i;
}

static guint
count_bits (guint64 bits)
{
  return (guint) __builtin_popcountll (bits);
}

/* All pulls that are one tie-down with pull i, i with them. */
static guint64
legs_of (const Rig *rig, gsize i)
{
  guint64 legs = bit (i);

  if (rig->pulls->pulls[i].tie > 0)
    for (gsize k = i + 1; k < rig->n_pulls; k++)
      if (rig->pulls->pulls[k].tie == rig->pulls->pulls[i].tie)
        legs |= bit (k);
  return legs;
}

/* Pulls that hold nothing, since something of them, of their tie-down or of what they hang on is not known. */
static void
leave_out (Rig *rig)
{
  guint64 bad = 0;

  for (gsize i = 0; i < rig->n_pulls; i++)
    if (!can_pull (&rig->pulls->pulls[i]))
      bad |= bit (i);
  for (gsize s = 0; s < rig->n_shared; s++)
    if (!(rig->pulls->shared[s].limit >= 0.0))
      bad |= rig->pulls->shared[s].legs;
  if (rig->n_pulls < 64)
    bad &= bit (rig->n_pulls) - 1;
  for (gsize i = 0; bad != 0 && i < rig->n_pulls; i++)
    {
      guint64 legs = legs_of (rig, i);

      if (legs & bad)
        bad |= legs;
    }
  rig->left_out = bad;
  rig->skipped += count_bits (bad);
}

static void
find_contacts (Rig *rig)
{
  for (gsize j = 0; j < rig->n_contacts; j++)
    if (can_stand_on (&rig->body->contacts[j]))
      rig->standing[rig->program.n_contacts++] = (guint8) j;
    else
      rig->skipped++;
}

/* The furthest of all that pushes or pulls from the center of gravity, m; 1 where all is in it. */
static void
find_reach (Rig *rig)
{
  double square = 0.0;

  for (guint j = 0; j < rig->program.n_contacts; j++)
    {
      FlVec r = fl_vec_sub (rig->body->contacts[rig->standing[j]].at, rig->body->cg);

      square = MAX (square, fl_vec_dot (r, r));
    }
  for (gsize i = 0; i < rig->n_pulls; i++)
    if (!(rig->left_out & bit (i)))
      {
        FlVec r = fl_vec_sub (rig->pulls->pulls[i].at, rig->body->cg);

        square = MAX (square, fl_vec_dot (r, r));
      }
  rig->reach = square > FL_STATICS_POINT * FL_STATICS_POINT ? sqrt (square) : 1.0;
}

static void
place_contacts (Rig *rig)
{
  FlSimplexProblem *p = &rig->program;

  for (guint j = 0; j < p->n_contacts; j++)
    {
      const FlContact *contact = &rig->body->contacts[rig->standing[j]];

      p->at[j] = fl_vec_scale (fl_vec_sub (contact->at, rig->body->cg), 1.0 / rig->reach);
      p->mu[j][0] = MIN (contact->mu_along, FL_STATICS_GRIP);
      p->mu[j][1] = MIN (contact->mu_across, FL_STATICS_GRIP);
    }
}

static void
add_leg (Rig *rig, guint tie, gsize i)
{
  const FlPull *pull = &rig->pulls->pulls[i];
  FlVec arm = fl_vec_scale (fl_vec_sub (pull->at, rig->body->cg), 1.0 / rig->reach);
  FlVec turn = fl_vec_cross (arm, pull->along);
  double *column = rig->program.tie[tie];

  column[0] += pull->along.x;
  column[1] += pull->along.y;
  column[2] += pull->along.z;
  column[3] += turn.x;
  column[4] += turn.y;
  column[5] += turn.z;
  rig->program.most[tie] = MIN (rig->program.most[tie], pull->limit / rig->weight);
  rig->member[i] = (guint8) tie;
}

/* Tie-downs that can hold something: each a column, over-all legs of one tension. */
static void
place_ties (Rig *rig)
{
  FlSimplexProblem *p = &rig->program;
  guint64 done = rig->left_out;

  memset (rig->member, NONE, sizeof rig->member);
  for (gsize i = 0; i < rig->n_pulls; i++)
    {
      guint64 legs;

      if (done & bit (i))
        continue;
      legs = legs_of (rig, i);
      done |= legs;
      memset (p->tie[p->n_ties], 0, sizeof p->tie[p->n_ties]);
      p->most[p->n_ties] = FL_STATICS_ENDLESS;
      rig->legs[p->n_ties] = legs;
      for (gsize k = i; k < rig->n_pulls; k++)
        if (legs & bit (k))
          add_leg (rig, p->n_ties, k);
      p->n_ties++;
    }
}

/* A limit on several tie-downs is a row; one on a single tie-down is its bound; one that all of them together do not reach is nothing. */
static void
place_shared (Rig *rig)
{
  FlSimplexProblem *p = &rig->program;

  for (gsize s = 0; s < rig->n_shared; s++)
    {
      double limit = rig->pulls->shared[s].limit / rig->weight, all = 0.0, *share = p->share[p->n_shared];
      guint ties = 0, last = 0;

      for (guint k = 0; k < p->n_ties; k++)
        {
          share[k] = count_bits (rig->legs[k] & rig->pulls->shared[s].legs);
          all += share[k] * p->most[k];
          if (share[k] > 0.0)
            {
              last = k;
              ties++;
            }
        }
      if (ties == 0 || all <= limit)
        continue;
      if (ties == 1)
        p->most[last] = limit / share[last];
      else
        p->shared[p->n_shared++] = limit;
    }
}

static void
make_program (Rig *rig, FlVec direction)
{
  rig->program.n_ties = rig->program.n_contacts = rig->program.n_shared = 0;
  rig->program.direction = direction;
  rig->program.cap = FL_STATICS_ENDLESS;
  leave_out (rig);
  find_contacts (rig);
  find_reach (rig);
  place_contacts (rig);
  place_ties (rig);
  place_shared (rig);
}

/* Prices of the shared limits that go with the motion y: each in turn takes the rates of its tie-downs down as far as its limit pays (the
 * best there is where no tie-down hangs on two limits; else a valid choice). */
static void
price_shared (const FlSimplexProblem *p, const double *y, double *y_shared)
{
  double rate[FL_MAX_PULLS];

  for (guint k = 0; k < p->n_ties && p->n_shared > 0; k++)
    {
      rate[k] = 0.0;
      for (guint i = 0; i < FL_SIMPLEX_BALANCE; i++)
        rate[k] -= y[i] * p->tie[k][i];
    }
  for (guint s = 0; s < p->n_shared; s++)
    {
      const double *share = p->share[s];

      y_shared[s] = 0.0;
      for (guint k = 0; k < p->n_ties; k++)
        {
          double price = share[k] > 0.0 ? rate[k] / share[k] : 0.0, asked = 0.0;

          for (guint i = 0; i < p->n_ties; i++)
            if (share[i] > 0.0 && rate[i] / share[i] >= price)
              asked += share[i] * p->most[i];
          if (price > y_shared[s] && asked > p->shared[s])
            y_shared[s] = price;
        }
      for (guint k = 0; k < p->n_ties; k++)
        rate[k] -= share[k] * y_shared[s];
    }
}

/* Takes the motion y for the answer's where it proves the bound as well. */
static gboolean
serves (const FlSimplexProblem *p, double *y, FlSimplexAnswer *answer)
{
  double y_shared[FL_MAX_SHARED], bound;

  price_shared (p, y, y_shared);
  bound = fl_simplex_proves (p, y, y_shared);
  if (!(bound <= answer->bound + FL_STATICS_GAP / 2.0))
    return FALSE;
  answer->bound = MIN (answer->bound, bound);
  memcpy (answer->y, y, sizeof answer->y);
  memcpy (answer->y_shared, y_shared, p->n_shared * sizeof *y_shared);
  return TRUE;
}

/* Often several motions prove the same bound, and the program's is any corner of them. The plainest is told: straight along the direction
 * without turning; then in the upright plane through it (where a symmetric load has one, that is among them); then without turning
 * about the upright axis; else the program's own. */
static void
choose_motion (const FlSimplexProblem *p, FlSimplexAnswer *answer)
{
  FlVec d = p->direction, side = fl_vec_unit ((FlVec) { -d.y, d.x, 0.0 });
  const double *own = answer->y;
  double across = own[0] * side.x + own[1] * side.y, about = own[3] * side.x + own[4] * side.y;
  double straight[FL_SIMPLEX_BALANCE] = { d.x, d.y, d.z };
  double plane[FL_SIMPLEX_BALANCE] = { own[0] - across * side.x, own[1] - across * side.y, own[2], about * side.x, about * side.y };
  double level[FL_SIMPLEX_BALANCE] = { own[0], own[1], own[2], own[3], own[4] };

  if (!serves (p, straight, answer) && !serves (p, plane, answer))
    serves (p, level, answer);
}

/* Height of the center of gravity over the middle of its contacts, over the reach. */
static double
height (const FlSimplexProblem *p)
{
  double sum = 0.0;

  for (guint j = 0; j < p->n_contacts; j++)
    sum -= p->at[j].z;
  return p->n_contacts > 0 ? sum / p->n_contacts : 0.0;
}

/* How far, at the least, a contact rises over what its friction makes it rise; without contacts the center of gravity's own. */
static double
clearance (const FlSimplexProblem *p, const double *y)
{
  double least = INFINITY;

  for (guint j = 0; j < p->n_contacts; j++)
    least = MIN (least, -fl_cone_rate (p->mu[j], fl_cone_velocity (y, p->at[j])));
  return least < INFINITY ? least : fabs (y[2]);
}

static FlMode
mode_of (const FlSimplexProblem *p, const double *y)
{
  double h = height (p);
  FlVec foot = fl_cone_velocity (y, (FlVec) { 0.0, 0.0, -h });
  const double measures[] = {
    [FL_SLIDES] = hypot (foot.x, foot.y),
    [FL_TIPS] = hypot (y[3], y[4]) * fabs (h),
    [FL_YAWS] = fabs (y[5]) / 2.0,
    [FL_LIFTS] = clearance (p, y),
  };
  FlMode mode = FL_SLIDES;

  for (guint m = FL_TIPS; m < G_N_ELEMENTS (measures); m++)
    if (measures[m] > measures[mode] + FL_STATICS_COSINE)
      mode = (FlMode) m;
  return mode;
}

/* Work that the motion has from one unit more of tie k, its shared limits' prices not taken off. */
static double
tie_rate (const FlSimplexProblem *p, const double *y, guint k)
{
  double rate = 0.0;

  for (guint i = 0; i < FL_SIMPLEX_BALANCE; i++)
    rate -= y[i] * p->tie[k][i];
  return rate;
}

/* TRUE if shared limit i is reached, and more of it would help. */
static gboolean
is_short (const FlSimplexProblem *p, const FlSimplexAnswer *answer, guint i)
{
  double sum = 0.0;

  for (guint k = 0; k < p->n_ties; k++)
    sum += p->share[i][k] * answer->tension[k];
  return answer->y_shared[i] > FL_STATICS_HELPS && sum >= p->shared[i] * (1.0 - FL_STATICS_REACHED);
}

static guint64
at_limit (const Rig *rig, const FlSimplexAnswer *answer)
{
  const FlSimplexProblem *p = &rig->program;
  guint64 found = 0, short_of = 0;

  for (guint i = 0; i < p->n_shared; i++)
    if (is_short (p, answer, i))
      short_of |= bit (i);
  for (guint k = 0; k < p->n_ties; k++)
    {
      double rate = tie_rate (p, answer->y, k), prices = 0.0;
      gboolean short_together = FALSE;

      for (guint i = 0; i < p->n_shared; i++)
        {
          prices += answer->y_shared[i] * p->share[i][k];
          short_together |= p->share[i][k] > 0.0 && short_of >> i & 1;
        }
      if (rate - prices > FL_STATICS_HELPS && answer->tension[k] >= p->most[k] * (1.0 - FL_STATICS_REACHED))
        found |= rig->legs[k];
      if (short_together && rate > FL_STATICS_HELPS && answer->tension[k] > 0.0)
        found |= rig->legs[k];
    }
  return found;
}

static void
report_state (const Rig *rig, const FlSimplexAnswer *answer, FlCapacity *capacity)
{
  capacity->g = answer->c;
  for (gsize i = 0; i < rig->n_pulls; i++)
    if (rig->member[i] != NONE)
      capacity->tension[i] = MIN (answer->tension[rig->member[i]] * rig->weight, rig->pulls->pulls[i].limit);
  for (guint j = 0; j < rig->program.n_contacts; j++)
    capacity->force[rig->standing[j]] = fl_vec_scale (answer->force[j], rig->weight);
}

static void
report_proof (const Rig *rig, const FlSimplexAnswer *answer, FlCapacity *capacity)
{
  const double *y = answer->y;

  capacity->bound = MAX (answer->bound, answer->c);
  capacity->mode = answer->capped ? FL_SLIDES : mode_of (&rig->program, y);
  capacity->moves = (FlVec) { y[0], y[1], y[2] };
  capacity->turns = (FlVec) { y[3] / rig->reach, y[4] / rig->reach, y[5] / rig->reach };
  capacity->at_limit = answer->capped ? 0 : at_limit (rig, answer);
}

/* From the forces that are given out, in newtons and metres. */
static double
residual (const Rig *rig, const FlCapacity *capacity, FlVec direction)
{
  FlVec c = fl_vec_scale (direction, capacity->g), force = fl_vec_scale (fl_vec_sub (c, (FlVec) { 0.0, 0.0, 1.0 }), rig->weight);
  FlVec moment = { 0.0, 0.0, 0.0 };

  for (gsize i = 0; i < rig->n_pulls; i++)
    if (rig->member[i] != NONE)
      {
        const FlPull *pull = &rig->pulls->pulls[i];
        FlVec f = fl_vec_scale (pull->along, capacity->tension[i]);

        force = fl_vec_add (force, f);
        moment = fl_vec_add (moment, fl_vec_cross (fl_vec_sub (pull->at, rig->body->cg), f));
      }
  for (guint j = 0; j < rig->program.n_contacts; j++)
    {
      guint at = rig->standing[j];

      force = fl_vec_add (force, capacity->force[at]);
      moment = fl_vec_add (moment, fl_vec_cross (fl_vec_sub (rig->body->contacts[at].at, rig->body->cg), capacity->force[at]));
    }
  force = fl_vec_scale (force, 1.0 / rig->weight);
  moment = fl_vec_scale (moment, 1.0 / (rig->weight * rig->reach));
  return MAX (MAX (MAX (fabs (force.x), fabs (force.y)), MAX (fabs (force.z), fabs (moment.x))), MAX (fabs (moment.y), fabs (moment.z)));
}

FlCapacity
fl_equilibrium_capacity (const FlBody *body, const FlPulls *pulls, FlVec direction)
{
  FlCapacity capacity = { .mode = FL_NOT_JUDGED };
  FlSimplexAnswer answer;
  Rig rig;

  if (!can_judge (body, direction))
    return capacity;
  rig.body = body;
  rig.pulls = pulls;
  rig.n_pulls = MIN (pulls->n, FL_MAX_PULLS);
  rig.n_shared = MIN (pulls->n_shared, FL_MAX_SHARED);
  rig.n_contacts = MIN (body->n_contacts, FL_MAX_CONTACTS);
  rig.weight = body->mass * body->g;
  rig.skipped = 0;
  make_program (&rig, direction);
  fl_simplex_solve (&rig.program, &answer);
  capacity.skipped = rig.skipped;
  capacity.iterations = answer.iterations;
  if (!answer.stands)
    {
      capacity.mode = FL_UNSTABLE_AT_REST;
      return capacity;
    }
  if (!answer.capped)
    choose_motion (&rig.program, &answer);
  report_state (&rig, &answer, &capacity);
  report_proof (&rig, &answer, &capacity);
  capacity.residual = residual (&rig, &capacity, direction);
  return capacity;
}
