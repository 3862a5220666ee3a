/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-simplex.c: bounded revised simplex whose columns over the friction cones are made when they are wanted. */
#include "fl-simplex.h"

#include <string.h>

#include "fl-cone.h"
#include "fl-inverse.h"

/* A rate (work of a column in the motion) under this is none; nor is one that is rounding of the motion's greatest part. */
#define RATE 1e-10
#define ROUNDING 1e-13

/* Grid of a cone's columns (fl-cone.h): at first, and where that leaves a gap. */
#define GRID 4096.0
#define FINE_GRID 65536.0

/* Weights. What a basic force may go under its bound while the simplex runs, so that a degenerate step is still a step: the
 * tolerance grows by SLIP with each pivot and no pivot comes back (Gill, Murray, Saunders and Wright, "A practical anti-cycling procedure
 * for linearly constrained optimization", Mathematical Programming 45, 1989). */
#define LOOSE 1e-11
#define SLIP 2e-13

/* Weights. What a force may be over its bound after the tolerance is taken back. */
#define SETTLED 1e-9

/* Times that the simplex goes on with a new inverse, where the old one let it stop too early. */
#define ROUNDS 3

/* Least pivot element. */
#define PIVOT 1e-8

/* Weights. Less than this that nothing carries is carried. */
#define CARRIED 1e-7

/* g. Gap at which the simplex stops: a tenth of what is promised. */
#define ENOUGH (FL_STATICS_GAP / 10.0)

/* What a column is. RESERVE: stands in for a row until something else takes it, always zero but for the weight that nothing carries yet. */
typedef enum { RESERVE, TIE, CONTACT, ACCELERATION, SLACK } Kind;

typedef struct
{
  Kind   kind;
  guint  index;
  double column[FL_SIMPLEX_BALANCE];
  double value, upper;
} Basic;

typedef struct
{
  const FlSimplexProblem *problem;
  guint   m;
  double  inverse[FL_SIMPLEX_MOST_ROWS * FL_SIMPLEX_MOST_ROWS]; /* row i of it at i * m, belongs to basic[i] */
  Basic   basic[FL_SIMPLEX_MOST_ROWS];
  guint64 tie_basic, tie_full, slack_basic;
  guint   goal;         /* the basic that is made small (phase 1: the weight not carried) or great (phase 2: c) */
  double  sign;         /* of the prices: -1 in phase 1, 1 in phase 2 */
  double  y[FL_SIMPLEX_MOST_ROWS];
  double  least_rate;   /* what counts as a rate with these prices */
  double  grid;
  double  gap;          /* how far c is from proven to be the most */
  guint   iterations, inverted_at, rounds;
} Simplex;

/* A column on its way in. from_full: it comes down from its upper bound. */
typedef struct { Basic basic; double rate; gboolean from_full; } Entering;

static inline double
work (const double *y, const double *column)
{
  return y[0] * column[0] + y[1] * column[1] + y[2] * column[2] + y[3] * column[3] + y[4] * column[4] + y[5] * column[5];
}

/* Shared prices times the tie's legs on them. */
static inline double
shared_work (const FlSimplexProblem *p, const double *y_shared, guint tie)
{
  double sum = 0.0;

  for (guint s = 0; s < p->n_shared; s++)
    sum += y_shared[s] * p->share[s][tie];
  return sum;
}

static void
price_ties (Simplex *s, Entering *best)
{
  const FlSimplexProblem *p = s->problem;

  for (guint k = 0; k < p->n_ties; k++)
    {
      gboolean full = s->tie_full >> k & 1;
      double rate;

      if (s->tie_basic >> k & 1)
        continue;
      rate = -work (s->y, p->tie[k]) - shared_work (p, s->y + FL_SIMPLEX_BALANCE, k);
      if (full)
        rate = -rate;
      if (rate <= 0.0)
        continue;
      s->gap += rate * p->most[k];
      if (rate > best->rate)
        {
          best->rate = rate;
          best->from_full = full;
          best->basic.kind = TIE;
          best->basic.index = k;
        }
    }
}

static void
price_slacks (Simplex *s, Entering *best)
{
  const FlSimplexProblem *p = s->problem;

  for (guint i = 0; i < p->n_shared; i++)
    {
      double rate = -s->y[FL_SIMPLEX_BALANCE + i];

      if (s->slack_basic >> i & 1 || rate <= 0.0)
        continue;
      s->gap += rate * p->shared[i];
      if (rate > best->rate)
        {
          best->rate = rate;
          best->from_full = FALSE;
          best->basic.kind = SLACK;
          best->basic.index = i;
        }
    }
}

static double
price_contacts (const FlSimplexProblem *p, const double *y, guint *worst)
{
  double most = 0.0;

  for (guint j = 0; j < p->n_contacts; j++)
    {
      double rate = fl_cone_rate (p->mu[j], fl_cone_velocity (y, p->at[j]));

      if (rate > most)
        {
          most = rate;
          *worst = j;
        }
    }
  return most;
}

/* The prices are a row of the inverse: one basic alone has a worth. */
static void
set_prices (Simplex *s)
{
  double most = 0.0;

  for (guint i = 0; i < s->m; i++)
    {
      s->y[i] = s->sign * s->inverse[s->goal * s->m + i];
      most = MAX (most, fabs (s->y[i]));
    }
  s->least_rate = MAX (RATE, ROUNDING * most);
}

/* More than all contacts together could push up at an acceleration not over c. */
static double
most_upward (const FlSimplexProblem *p, double c)
{
  double sum = 1.0 + c;

  for (guint k = 0; k < p->n_ties; k++)
    sum += p->most[k] * MAX (0.0, -p->tie[k][2]);
  return sum;
}

/* Contact j's column of the grid, if that helps more than the best so far. */
static gboolean
try_contact (const Simplex *s, guint j, Entering *best)
{
  const FlSimplexProblem *p = s->problem;
  double column[FL_SIMPLEX_BALANCE], rate;

  fl_cone_column (p->mu[j], p->at[j], fl_cone_velocity (s->y, p->at[j]), s->grid, column);
  rate = -work (s->y, column);
  if (rate <= best->rate)
    return FALSE;
  best->rate = rate;
  best->from_full = FALSE;
  best->basic.kind = CONTACT;
  best->basic.index = j;
  memcpy (best->basic.column, column, sizeof column);
  return TRUE;
}

/* The column that helps most, and the gap. */
static Entering
price (Simplex *s)
{
  Entering best = { .rate = 0.0 };
  double rate;
  guint worst = 0;

  set_prices (s);
  best.rate = s->least_rate;
  s->gap = 0.0;
  price_ties (s, &best);
  price_slacks (s, &best);
  rate = price_contacts (s->problem, s->y, &worst);
  if (rate > 0.0)
    s->gap += rate * most_upward (s->problem, s->basic[s->goal].value);
  if (rate > best.rate && !try_contact (s, worst, &best) && s->gap > ENOUGH)
    for (guint j = 0; j < s->problem->n_contacts; j++)
      try_contact (s, j, &best);
  return best;
}

static void
make_column (const FlSimplexProblem *p, Basic *basic)
{
  basic->upper = INFINITY;
  switch (basic->kind)
    {
    case TIE:
      memcpy (basic->column, p->tie[basic->index], sizeof basic->column);
      basic->upper = p->most[basic->index];
      break;
    case CONTACT:        /* has been made when it was priced */
      break;
    case ACCELERATION:
      memset (basic->column, 0, sizeof basic->column);
      basic->column[0] = p->direction.x;
      basic->column[1] = p->direction.y;
      basic->column[2] = p->direction.z;
      basic->upper = p->cap;
      break;
    case SLACK:
    case RESERVE:
      memset (basic->column, 0, sizeof basic->column);
      break;
    }
}

/* Element of a column in the row of shared limit i. */
static inline double
below (const FlSimplexProblem *p, const Basic *basic, guint i)
{
  if (basic->kind == TIE)
    return p->share[i][basic->index];
  return basic->kind == SLACK && basic->index == i ? 1.0 : 0.0;
}

/* alpha = inverse times column. */
static void
transform (const Simplex *s, const Basic *basic, double *alpha)
{
  for (guint i = 0; i < s->m; i++)
    {
      const double *row = s->inverse + i * s->m;

      alpha[i] = work (row, basic->column);
      for (guint k = FL_SIMPLEX_BALANCE; k < s->m; k++)
        alpha[i] += row[k] * below (s->problem, basic, k - FL_SIMPLEX_BALANCE);
    }
}

/* How far basic i lies from the bound that it moves towards, tolerance added; INFINITY where it moves towards none. a: its fall for
 * each unit of the entering one. */
static inline double
room (const Basic *basic, double a, double loose)
{
  if (a > PIVOT)
    return (basic->value + loose) / a;
  if (a < -PIVOT)
    return (basic->value - basic->upper - loose) / a;
  return INFINITY;
}

/* Which basic leaves, and the step: among those that stop the entering one within the tolerance that with the greatest pivot. m: none. */
static guint
choose_leaving (const Simplex *s, const double *alpha, double way, double *step)
{
  double loose = LOOSE + SLIP * s->iterations, least = INFINITY, pivot = 0.0;
  guint leaving = s->m;

  for (guint i = 0; i < s->m; i++)
    least = MIN (least, room (&s->basic[i], way * alpha[i], loose));
  if (least == INFINITY)
    return leaving;
  for (guint i = 0; i < s->m; i++)
    if (fabs (alpha[i]) > pivot && room (&s->basic[i], way * alpha[i], 0.0) <= least)
      {
        pivot = fabs (alpha[i]);
        leaving = i;
      }
  *step = MAX (room (&s->basic[leaving], way * alpha[leaving], 0.0), SLIP / pivot);
  return leaving;
}

static void
note_leaving (Simplex *s, const Basic *basic, gboolean at_upper)
{
  if (basic->kind == TIE)
    {
      s->tie_basic &= ~(G_GUINT64_CONSTANT (1) << basic->index);
      if (at_upper)
        s->tie_full |= G_GUINT64_CONSTANT (1) << basic->index;
    }
  else if (basic->kind == SLACK)
    s->slack_basic &= ~(G_GUINT64_CONSTANT (1) << basic->index);
}

static void
note_entering (Simplex *s, const Basic *basic)
{
  if (basic->kind == TIE)
    {
      s->tie_basic |= G_GUINT64_CONSTANT (1) << basic->index;
      s->tie_full &= ~(G_GUINT64_CONSTANT (1) << basic->index);
    }
  else if (basic->kind == SLACK)
    s->slack_basic |= G_GUINT64_CONSTANT (1) << basic->index;
}

/* Takes the column in. FALSE where nothing stops it, which no rig does but for rounding. */
static gboolean
pivot (Simplex *s, Entering *entering)
{
  double alpha[FL_SIMPLEX_MOST_ROWS], way = entering->from_full ? -1.0 : 1.0, step = INFINITY;
  Basic *in = &entering->basic;
  guint r;

  make_column (s->problem, in);
  transform (s, in, alpha);
  r = choose_leaving (s, alpha, way, &step);
  if (r == s->m && in->upper == INFINITY)
    return FALSE;
  s->iterations++;
  step = MIN (step, in->upper);
  for (guint i = 0; i < s->m; i++)
    s->basic[i].value -= way * step * alpha[i];
  if (r == s->m || step == in->upper)    /* from bound to bound: a tie, the acceleration to its cap */
    {
      if (in->kind == TIE)
        s->tie_full ^= G_GUINT64_CONSTANT (1) << in->index;
      return in->kind == TIE;
    }
  note_leaving (s, &s->basic[r], way * alpha[r] < 0.0);
  in->value = entering->from_full ? in->upper - step : step;
  note_entering (s, in);
  fl_inverse_update (s->inverse, s->m, alpha, r);
  s->basic[r] = *in;
  return TRUE;
}

static void
start (Simplex *s, const FlSimplexProblem *p)
{
  s->problem = p;
  s->m = FL_SIMPLEX_BALANCE + p->n_shared;
  memset (s->inverse, 0, s->m * s->m * sizeof *s->inverse);
  for (guint i = 0; i < s->m; i++)
    {
      Basic *basic = &s->basic[i];

      s->inverse[i * s->m + i] = 1.0;
      *basic = (Basic) { .kind = RESERVE, .index = i };
      if (i < FL_SIMPLEX_BALANCE)
        basic->column[i] = 1.0;
      else
        *basic = (Basic) { .kind = SLACK, .index = i - FL_SIMPLEX_BALANCE, .value = p->shared[i - FL_SIMPLEX_BALANCE], .upper = INFINITY };
    }
  s->basic[2].value = s->basic[2].upper = 1.0;
  s->tie_basic = s->tie_full = 0;
  s->slack_basic = p->n_shared < 64 ? (G_GUINT64_CONSTANT (1) << p->n_shared) - 1 : G_MAXUINT64;
  s->grid = GRID;
  s->iterations = s->inverted_at = s->rounds = 0;
}

/* Row `row` of what the simplex started from, for basic b. */
static double
element (const Simplex *s, guint row, guint b)
{
  return row < FL_SIMPLEX_BALANCE ? s->basic[b].column[row] : below (s->problem, &s->basic[b], row - FL_SIMPLEX_BALANCE);
}

/* The inverse anew; as it was where the basis is singular. */
static void
invert (Simplex *s)
{
  double a[FL_SIMPLEX_MOST_ROWS * FL_SIMPLEX_MOST_ROWS], inverse[FL_SIMPLEX_MOST_ROWS * FL_SIMPLEX_MOST_ROWS];

  for (guint i = 0; i < s->m; i++)
    for (guint k = 0; k < s->m; k++)
      a[i * s->m + k] = element (s, i, k);
  if (fl_inverse_of (a, inverse, s->m))
    memcpy (s->inverse, inverse, s->m * s->m * sizeof *inverse);
}

/* A new inverse and a finer grid. FALSE: that is what it had, or there were enough rounds. */
static gboolean
once_more (Simplex *s)
{
  if ((s->iterations == s->inverted_at && s->grid == FINE_GRID) || s->rounds >= ROUNDS)
    return FALSE;
  s->rounds++;
  s->inverted_at = s->iterations;
  s->grid = FINE_GRID;
  invert (s);
  return TRUE;
}

/* Phase 1: how much of the weight can be carried where the load stands, without acceleration. TRUE: all of it. */
static gboolean
stand (Simplex *s)
{
  s->goal = 2;
  s->sign = -1.0;
  while (s->basic[2].kind == RESERVE && s->basic[2].value > LOOSE && s->iterations < FL_STATICS_ITERATIONS)
    {
      Entering entering = price (s);

      if ((entering.rate <= s->least_rate || !pivot (s, &entering)) && !once_more (s))
        break;
    }
  if (s->basic[2].kind != RESERVE)
    return TRUE;
  if (s->basic[2].value > CARRIED)
    return FALSE;
  s->basic[2].upper = 0.0;
  return TRUE;
}

/* Brings c in. FALSE: it went straight to its cap. */
static gboolean
accelerate (Simplex *s)
{
  Entering c = { .basic = { .kind = ACCELERATION }, .rate = 1.0 };

  if (!pivot (s, &c))
    return FALSE;
  for (guint i = 0; i < s->m; i++)
    if (s->basic[i].kind == ACCELERATION)
      s->goal = i;
  s->sign = 1.0;
  return TRUE;
}

/* Phase 2: as great a c as there is. FALSE: it reached its cap. */
static gboolean
maximize (Simplex *s)
{
  while (s->iterations < FL_STATICS_ITERATIONS)
    {
      Entering entering = price (s);

      if (s->gap <= ENOUGH)
        return TRUE;
      if ((entering.rate <= s->least_rate || !pivot (s, &entering)) && !once_more (s))
        return TRUE;
      if (s->basic[s->goal].kind != ACCELERATION)
        return FALSE;
    }
  set_prices (s);
  return TRUE;
}

/* left = what the forces of the state leave unbalanced in each row. */
static void
unbalanced (const Simplex *s, gboolean capped, double *left)
{
  const FlSimplexProblem *p = s->problem;

  for (guint i = 0; i < s->m; i++)
    left[i] = i < FL_SIMPLEX_BALANCE ? (i == 2) : p->shared[i - FL_SIMPLEX_BALANCE];
  if (capped)
    {
      left[0] -= p->cap * p->direction.x;
      left[1] -= p->cap * p->direction.y;
      left[2] -= p->cap * p->direction.z;
    }
  for (guint k = 0; k < p->n_ties; k++)
    if (s->tie_full >> k & 1)
      {
        for (guint i = 0; i < FL_SIMPLEX_BALANCE; i++)
          left[i] -= p->most[k] * p->tie[k][i];
        for (guint i = 0; i < p->n_shared; i++)
          left[FL_SIMPLEX_BALANCE + i] -= p->most[k] * p->share[i][k];
      }
  for (guint b = 0; b < s->m; b++)
    {
      for (guint i = 0; i < FL_SIMPLEX_BALANCE; i++)
        left[i] -= s->basic[b].value * s->basic[b].column[i];
      for (guint i = 0; i < p->n_shared; i++)
        left[FL_SIMPLEX_BALANCE + i] -= s->basic[b].value * below (p, &s->basic[b], i);
    }
}

static gboolean
is_within (const Basic *basic, double value)
{
  return value >= -SETTLED && value <= basic->upper + SETTLED;
}

/* The basic forces once more from the true right side, without what the tolerance let slip; twice, for the rounding. Where the basis is so
 * skew that this throws one over its bound, they stay as they were: within their bounds, and out of balance by what slipped. */
static void
settle (Simplex *s, gboolean capped)
{
  double left[FL_SIMPLEX_MOST_ROWS], was[FL_SIMPLEX_MOST_ROWS];
  gboolean within = TRUE;

  for (guint i = 0; i < s->m; i++)
    was[i] = s->basic[i].value;
  for (guint pass = 0; pass < 2; pass++)
    {
      unbalanced (s, capped, left);
      for (guint i = 0; i < s->m; i++)
        for (guint k = 0; k < s->m; k++)
          s->basic[i].value += s->inverse[i * s->m + k] * left[k];
    }
  for (guint i = 0; i < s->m; i++)
    within = within && is_within (&s->basic[i], s->basic[i].value);
  for (guint i = 0; i < s->m && !within; i++)
    s->basic[i].value = was[i];
}

static void
read_basic (const Basic *basic, FlSimplexAnswer *answer)
{
  if (basic->kind == TIE)
    answer->tension[basic->index] = CLAMP (basic->value, 0.0, basic->upper);
  else if (basic->kind == ACCELERATION)
    answer->c = MAX (basic->value, 0.0);
  else if (basic->kind == CONTACT)
    {
      FlVec f = { basic->column[0], basic->column[1], basic->column[2] }, *sum = &answer->force[basic->index];

      *sum = fl_vec_add (*sum, fl_vec_scale (f, basic->value));
    }
}

/* Two columns of one cone lie close together near the end, and the true right side may leave one a hair under zero while their sum is sound: so
 * what is clipped to the cone is the sum. */
static void
read_state (const Simplex *s, gboolean capped, FlSimplexAnswer *answer)
{
  const FlSimplexProblem *p = s->problem;

  for (guint k = 0; k < p->n_ties; k++)
    answer->tension[k] = s->tie_full >> k & 1 ? p->most[k] : 0.0;
  for (guint j = 0; j < p->n_contacts; j++)
    answer->force[j] = (FlVec) { 0.0, 0.0, 0.0 };
  answer->c = capped ? p->cap : 0.0;
  for (guint i = 0; i < s->m; i++)
    read_basic (&s->basic[i], answer);
  for (guint j = 0; j < p->n_contacts; j++)
    answer->force[j] = fl_cone_clip (p->mu[j], answer->force[j]);
}

double
fl_simplex_proves (const FlSimplexProblem *problem, double y[FL_SIMPLEX_BALANCE], double *y_shared)
{
  guint worst = 0;
  double along, bound = 0.0;

  y[2] += price_contacts (problem, y, &worst);
  along = y[0] * problem->direction.x + y[1] * problem->direction.y + y[2] * problem->direction.z;
  if (!(along > FL_STATICS_COSINE))
    return INFINITY;
  for (guint i = 0; i < problem->n_shared; i++)
    bound += y_shared[i] * problem->shared[i];
  for (guint k = 0; k < problem->n_ties; k++)
    bound += problem->most[k] * MAX (0.0, -work (y, problem->tie[k]) - shared_work (problem, y_shared, k));
  bound = (bound + y[2]) / along;
  for (guint i = 0; i < FL_SIMPLEX_BALANCE; i++)
    y[i] /= along;
  for (guint i = 0; i < problem->n_shared; i++)
    y_shared[i] /= along;
  return bound;
}

static void
read_proof (const Simplex *s, FlSimplexAnswer *answer)
{
  const FlSimplexProblem *p = s->problem;

  memcpy (answer->y, s->y, sizeof answer->y);
  for (guint i = 0; i < p->n_shared; i++)
    answer->y_shared[i] = MAX (0.0, s->y[FL_SIMPLEX_BALANCE + i]);
  answer->bound = fl_simplex_proves (p, answer->y, answer->y_shared);
}

void
fl_simplex_solve (const FlSimplexProblem *problem, FlSimplexAnswer *answer)
{
  Simplex s;

  start (&s, problem);
  memset (answer->y, 0, sizeof answer->y);
  answer->capped = FALSE;
  answer->c = answer->bound = 0.0;
  answer->stands = stand (&s);
  if (answer->stands)
    {
      answer->capped = !accelerate (&s) || !maximize (&s);
      settle (&s, answer->capped);
      read_state (&s, answer->capped, answer);
      if (answer->capped)
        answer->bound = problem->cap;
      else
        read_proof (&s, answer);
    }
  answer->iterations = s.iterations;
}
