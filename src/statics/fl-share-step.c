/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-share-step.c: Newton's method on six unknowns, for a body on springs that only pull and contacts that only push and slip.
 *
 * First the whole at once: caps of friction move with the push under them (a Jacobian that is not symmetric, and converges in three or four
 * iterations). Where that does not bring the residual down, caps are held as they are: the gradient of a convex function, whose Newton
 * direction with a line search goes downhill always. */
#include "fl-share-step.h"

#include <string.h>

#include "fl-share-friction.h"

enum { N = FL_SHARE_N, MOST_STEPS = 60, MOST_TRIALS = 40, MOST_CAPS = 80, MOST_INNER = 40 };

/* g: the gradient, what is out of balance, N. j: its Jacobian by rows. */
typedef struct { double g[N], j[N][N]; } Balance;

static inline double
stretch (const FlShareSpring *spring, const double *q)
{
  const double *b = spring->b;

  return b[0] * q[0] + b[1] * q[1] + b[2] * q[2] + b[3] * q[3] + b[4] * q[4] + b[5] * q[5];
}

double
fl_share_stretch (const FlShareSpring *spring, const double q[N])
{
  return stretch (spring, q);
}

double
fl_share_tension (const FlShareSpring *spring, const double q[N])
{
  return MAX (0.0, spring->pull + spring->k * stretch (spring, q));
}

/* Displacement of the foot: u + turn x r. */
static inline void
moved (const double *r, const double *q, double w[3])
{
  w[0] = q[0] + q[4] * r[2] - q[5] * r[1];
  w[1] = q[1] + q[5] * r[0] - q[3] * r[2];
  w[2] = q[2] + q[3] * r[1] - q[4] * r[0];
}

static inline double
pushed (const FlShareFoot *foot, const double w[3])
{
  return MAX (0.0, -foot->normal * w[2]);
}

/* trial: what the contact would hold if it never slipped. */
static inline FlShareGrip
gripped (const FlShareFoot *foot, const double w[3], double cap, double trial[2])
{
  const double a[2] = { foot->mu[0] * cap, foot->mu[1] * cap };

  trial[0] = -foot->shear * (w[0] - foot->slip[0]);
  trial[1] = -foot->shear * (w[1] - foot->slip[1]);
  return fl_share_grip (trial, a);
}

FlVec
fl_share_push (const FlShareFoot *foot, const double q[N])
{
  double w[3], trial[2], push;
  FlShareGrip grip;

  moved (foot->r, q, w);
  push = pushed (foot, w);
  grip = gripped (foot, w, push, trial);
  return (FlVec) { grip.f[0], grip.f[1], push };
}

/* ── one balance ── */

/* to += by * row. Rows are six long everywhere: the compiler makes three pairs of it. */
static inline void
add_row (double *restrict to, double by, const double *restrict row)
{
  for (guint k = 0; k < N; k++)
    to[k] += by * row[k];
}

static inline void
add_spring (const FlShareSpring *spring, const double *q, Balance *out, gboolean jacobian)
{
  const double *b = spring->b;
  double t = spring->pull + spring->k * stretch (spring, q);

  if (t < 0)
    return;
  add_row (out->g, t, b);
  if (!jacobian)
    return;
  for (guint i = 0; i < N; i++)
    add_row (out->j[i], spring->k * b[i], b);
}

/* c: minus the derivative of the foot's force by its displacement (an upright push leaves the other two alone: xx, xy, yy, xz, yz, zz), spread over
 * the six unknowns: G' c G with G = [1, -[r]x]. */
typedef struct { double xx, xy, yy, xz, yz, zz; } Stiffness;

static inline void
spread (const double *r, const Stiffness *c, Balance *out)
{
  const double x[N] = { c->xx, c->xy, c->xz, r[1] * c->xz - r[2] * c->xy, r[2] * c->xx - r[0] * c->xz, r[0] * c->xy - r[1] * c->xx };
  const double y[N] = { c->xy, c->yy, c->yz, r[1] * c->yz - r[2] * c->yy, r[2] * c->xy - r[0] * c->yz, r[0] * c->yy - r[1] * c->xy };
  const double z[N] = { 0, 0, c->zz, r[1] * c->zz, -r[0] * c->zz, 0 };

  add_row (out->j[0], 1, x);
  add_row (out->j[1], 1, y);
  add_row (out->j[2], 1, z);
  add_row (out->j[3], r[1], z);
  add_row (out->j[3], -r[2], y);
  add_row (out->j[4], r[2], x);
  add_row (out->j[4], -r[0], z);
  add_row (out->j[5], r[0], y);
  add_row (out->j[5], -r[1], x);
}

static inline void
add_force (const double *r, const double f[3], Balance *out)
{
  out->g[0] -= f[0];
  out->g[1] -= f[1];
  out->g[2] -= f[2];
  out->g[3] -= r[1] * f[2] - r[2] * f[1];
  out->g[4] -= r[2] * f[0] - r[0] * f[2];
  out->g[5] -= r[0] * f[1] - r[1] * f[0];
}

/* cap: of friction over mu, held; NULL: the push itself, and it moves with it. */
static inline void
add_foot (const FlShareFoot *foot, const double *q, const double *cap, Balance *out, gboolean jacobian)
{
  double w[3], trial[2], push;
  FlShareGrip grip;
  Stiffness c;

  moved (foot->r, q, w);
  push = pushed (foot, w);
  if (w[2] > 0 && (cap == NULL || *cap <= 0))
    return;
  grip = gripped (foot, w, cap != NULL ? *cap : push, trial);
  add_force (foot->r, (const double[3]) { grip.f[0], grip.f[1], push }, out);
  if (!jacobian)
    return;
  c = (Stiffness) { foot->shear * grip.xx, foot->shear * grip.xy, foot->shear * grip.yy, 0, 0, w[2] <= 0 ? foot->normal : 0 };
  if (cap == NULL && push > 0 && grip.slips)    /* the force is homogeneous in trial and cap: Euler gives its derivative by the cap */
    {
      c.xz = foot->normal * (grip.f[0] - grip.xx * trial[0] - grip.xy * trial[1]) / push;
      c.yz = foot->normal * (grip.f[1] - grip.xy * trial[0] - grip.yy * trial[1]) / push;
    }
  spread (foot->r, &c, out);
}

static void
weigh (const FlShareRig *rig, const double *q, const double *caps, gboolean jacobian, Balance *out)
{
  memset (out, 0, jacobian ? sizeof *out : sizeof out->g);
  for (guint i = 0; i < N; i++)
    {
      out->g[i] = rig->rest * (q[i] - rig->from[i]) - rig->force[i];
      if (jacobian)
        out->j[i][i] = rig->rest;
    }
  for (gsize i = 0; i < rig->n_springs; i++)
    add_spring (&rig->springs[i], q, out, jacobian);
  for (gsize i = 0; i < rig->n_feet; i++)
    add_foot (&rig->feet[i], q, caps != NULL ? &caps[i] : NULL, out, jacobian);
}

static double
dot (const double *a, const double *b)
{
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2] + a[3] * b[3] + a[4] * b[4] + a[5] * b[5];
}

static double
size (const Balance *balance)
{
  return sqrt (dot (balance->g, balance->g));
}

/* ── Newton ── */

/* d = -j^-1 g by elimination with partial pivoting; spoils j. FALSE: j is singular in doubles. */
static gboolean
newton_direction (const Balance *balance, double d[N])
{
  double a[N][N + 1];

  for (guint i = 0; i < N; i++)
    {
      memcpy (a[i], balance->j[i], sizeof balance->j[i]);
      a[i][N] = -balance->g[i];
    }
  for (guint k = 0; k < N; k++)
    {
      guint best = k;

      for (guint i = k + 1; i < N; i++)
        if (fabs (a[i][k]) > fabs (a[best][k]))
          best = i;
      if (!(fabs (a[best][k]) > 0))
        return FALSE;
      if (best != k)
        for (guint c = k; c <= N; c++)
          {
            double t = a[k][c];

            a[k][c] = a[best][c];
            a[best][c] = t;
          }
      for (guint i = k + 1; i < N; i++)
        {
          double m = a[i][k] / a[k][k];

          if (m != 0)
            for (guint c = k + 1; c <= N; c++)
              a[i][c] -= m * a[k][c];
        }
    }
  for (guint k = N; k-- > 0;)
    {
      d[k] = a[k][N];
      for (guint c = k + 1; c < N; c++)
        d[k] -= a[k][c] * d[c];
      d[k] /= a[k][k];
    }
  return TRUE;
}

static void
step_to (const double *q, const double *d, double by, double *out)
{
  for (guint i = 0; i < N; i++)
    out[i] = q[i] + by * d[i];
}

/* Slope of the convex function along d at q + by d. */
static double
slope_at (const FlShareRig *rig, const double *q, const double *d, double by, const double *caps)
{
  double there[N];
  Balance balance;

  step_to (q, d, by, there);
  weigh (rig, there, caps, FALSE, &balance);
  return dot (balance.g, d);
}

/* How far to go along d: the whole way while it still goes down there, or about to the bottom before it (the slope rises all the way:
 * false position, halved as in the Illinois rule). */
static double
line_search (const FlShareRig *rig, const double *q, const double *d, double slope, const double *caps)
{
  double low = 0, high = 1, at_low = slope, at_high = slope_at (rig, q, d, 1, caps), enough = 0.1 * fabs (slope), by = 1, at = at_high;
  int side = 0;

  for (guint i = 0; i < MOST_TRIALS && at > enough; i++)
    {
      by = (low * at_high - high * at_low) / (at_high - at_low);
      if (!(by > low && by < high))
        by = 0.5 * (low + high);
      at = slope_at (rig, q, d, by, caps);
      if (at > 0)
        {
          high = by;
          at_high = at;
          at_low *= side > 0 ? 0.5 : 1;
          side = 1;
        }
      else if (at < -enough)
        {
          low = by;
          at_low = at;
          at_high *= side < 0 ? 0.5 : 1;
          side = -1;
          at = G_MAXDOUBLE;
        }
    }
  return by;
}

/* One step downhill with caps held. */
static gboolean
go_down (const FlShareRig *rig, double *q, const double *caps, const Balance *balance)
{
  double d[N], slope;

  if (!newton_direction (balance, d))
    return FALSE;
  slope = dot (balance->g, d);
  if (!(slope < 0))
    return FALSE;
  step_to (q, d, line_search (rig, q, d, slope, caps), q);
  return TRUE;
}

static void
pushes_at (const FlShareRig *rig, const double *q, double caps[FL_MAX_CONTACTS])
{
  for (gsize i = 0; i < rig->n_feet; i++)
    {
      double w[3];

      moved (rig->feet[i].r, q, w);
      caps[i] = pushed (&rig->feet[i], w);
    }
}

/* Where the way of the last step leads to, if that is nearer to balance than where it ended. */
static void
look_ahead (const FlShareRig *rig, double *q, Balance *now)
{
  double ahead[N];
  Balance there;

  weigh (rig, q, NULL, TRUE, now);
  if (size (now) <= rig->enough || dot (rig->way, rig->way) == 0)
    return;
  step_to (q, rig->way, 1, ahead);
  weigh (rig, ahead, NULL, TRUE, &there);
  if (size (&there) >= size (now))
    return;
  memcpy (q, ahead, sizeof ahead);
  *now = there;
}

/* The whole Newton step, if it halves what is out of balance. */
static gboolean
go_at_once (const FlShareRig *rig, double *q, Balance *now)
{
  double d[N], there[N];
  Balance then;

  if (!newton_direction (now, d))
    return FALSE;
  step_to (q, d, 1, there);
  weigh (rig, there, NULL, TRUE, &then);
  if (!(size (&then) <= 0.5 * size (now)))
    return FALSE;
  memcpy (q, there, sizeof there);
  *now = then;
  return TRUE;
}

/* Everything at once; a step that does not halve what is out of balance is taken downhill with its caps held instead. */
static gboolean
settle_at_once (FlShareRig *rig, double *q)
{
  Balance now, held;
  double caps[FL_MAX_CONTACTS];

  look_ahead (rig, q, &now);
  for (guint i = 0; i < MOST_STEPS && rig->iterations < rig->most && size (&now) > rig->enough; i++)
    {
      rig->iterations++;
      if (go_at_once (rig, q, &now))
        continue;
      pushes_at (rig, q, caps);
      weigh (rig, q, caps, TRUE, &held);
      if (!go_down (rig, q, caps, &held))
        return FALSE;
      weigh (rig, q, NULL, TRUE, &now);
    }
  return size (&now) <= rig->enough;
}

/* The bottom with caps held. */
static gboolean
settle_held (FlShareRig *rig, double *q, const double *caps)
{
  Balance balance;

  for (guint i = 0; i < MOST_INNER && rig->iterations < rig->most; i++)
    {
      weigh (rig, q, caps, TRUE, &balance);
      if (size (&balance) <= 0.1 * rig->enough)
        return TRUE;
      rig->iterations++;
      if (!go_down (rig, q, caps, &balance))
        return FALSE;
    }
  return FALSE;
}

/* Caps held, to the bottom, and halfway to the pushes found there, until they agree. Slow and sure. */
static gboolean
settle_by_caps (FlShareRig *rig, double *q)
{
  double caps[FL_MAX_CONTACTS], found[FL_MAX_CONTACTS];
  Balance balance;

  pushes_at (rig, q, caps);
  for (guint i = 0; i < MOST_CAPS; i++)
    {
      if (!settle_held (rig, q, caps))
        return FALSE;
      weigh (rig, q, NULL, FALSE, &balance);
      if (size (&balance) <= rig->enough)
        return TRUE;
      pushes_at (rig, q, found);
      for (gsize k = 0; k < rig->n_feet; k++)
        caps[k] += 0.5 * (found[k] - caps[k]);
    }
  return FALSE;
}

gboolean
fl_share_settle (FlShareRig *rig, double q[N])
{
  memcpy (rig->from, q, sizeof rig->from);
  if (!settle_at_once (rig, q))
    {
      memcpy (q, rig->from, sizeof rig->from);
      if (!settle_by_caps (rig, q))
        return FALSE;
    }
  for (guint i = 0; i < N; i++)
    rig->way[i] = q[i] - rig->from[i];
  return TRUE;
}

double
fl_share_residual (const FlShareRig *rig, const double q[N])
{
  Balance balance;
  double most = 0;

  weigh (rig, q, NULL, FALSE, &balance);
  for (guint i = 0; i < N; i++)
    most = MAX (most, fabs (balance.g[i] - rig->rest * (q[i] - rig->from[i])));
  return most;
}

void
fl_share_keep_slip (FlShareRig *rig, const double q[N])
{
  for (gsize i = 0; i < rig->n_feet; i++)
    {
      FlShareFoot *foot = &rig->feet[i];
      FlVec force = fl_share_push (foot, q);
      double w[3];

      moved (foot->r, q, w);
      foot->slip[0] = w[0] + (foot->shear > 0 ? force.x / foot->shear : 0);
      foot->slip[1] = w[1] + (foot->shear > 0 ? force.y / foot->shear : 0);
    }
}
