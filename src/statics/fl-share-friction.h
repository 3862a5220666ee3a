/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-share-friction.h: return mapping onto the ellipse of a contact's friction. Inline: it is the inner loop of load sharing. */
#ifndef FL_SHARE_FRICTION_H
#define FL_SHARE_FRICTION_H

#include <glib.h>
#include <math.h>

G_BEGIN_DECLS

/* f: the friction force, N. xx, xy, yy: how it changes with the trial force (symmetric, between zero and the unit matrix). slips: it is
 * at its cap. */
typedef struct { double f[2], xx, xy, yy; gboolean slips; } FlShareGrip;

/* Semi-axes nearer to nothing than this share of the other one are nothing: the ellipse is a line. */
#define FL_SHARE_FLAT 1e-9

/* Multiplier of the nearest point on the ellipse with semi-axes a to t outside it: |(a t / (a^2 + l))| = 1. Newton on one over the norm, which
 * is concave: from a start on the left it climbs and never oversteps (Moré and Sorensen 1983, the trust region's equation). */
static inline double
fl_share_multiplier (const double t[2], const double a[2], double p[2])
{
  double l = MAX (0.0, MAX (a[0] * (fabs (t[0]) - a[0]), a[1] * (fabs (t[1]) - a[1])));

  for (guint i = 0; i < 40; i++)
    {
      double dx = a[0] * a[0] + l, dy = a[1] * a[1] + l, square, norm;

      p[0] = a[0] * t[0] / dx;
      p[1] = a[1] * t[1] / dy;
      square = p[0] * p[0] + p[1] * p[1];
      norm = sqrt (square);
      if (norm - 1.0 < 1e-13)
        break;
      l += square / (p[0] * p[0] / dx + p[1] * p[1] / dy) * (norm - 1.0);
    }
  return l;
}

/* On the ellipse itself, both semi-axes of some size. */
static inline FlShareGrip
fl_share_on_ellipse (const double t[2], const double a[2])
{
  double p[2], l = fl_share_multiplier (t, a, p), norm = sqrt (p[0] * p[0] + p[1] * p[1]);
  double dx = a[0] * a[0] + l, dy = a[1] * a[1] + l;
  double vx = a[0] * p[0] / dx, vy = a[1] * p[1] / dy, s = p[0] * p[0] / dx + p[1] * p[1] / dy;

  return (FlShareGrip) { { a[0] * p[0] / norm, a[1] * p[1] / norm },
                         a[0] * a[0] / dx - vx * vx / s, -vx * vy / s, a[1] * a[1] / dy - vy * vy / s, TRUE };
}

static inline FlShareGrip
fl_share_on_circle (const double t[2], double a, double square)
{
  double c = a / sqrt (square);

  return (FlShareGrip) { { c * t[0], c * t[1] },
                         c * (1 - t[0] * t[0] / square), -c * t[0] * t[1] / square, c * (1 - t[1] * t[1] / square), TRUE };
}

/* The point of the ellipse (x / a0)^2 + (y / a1)^2 <= 1 nearest to t: the force of an elastic-perfectly plastic contact of one stiffness all round whose elastic
 * trial is t, with associated flow. It is the gradient of a convex function of t. */
static inline FlShareGrip
fl_share_grip (const double t[2], const double a[2])
{
  double x = t[0] * a[1], y = t[1] * a[0], ab = a[0] * a[1];

  if (x * x + y * y <= ab * ab && ab > 0)
    return (FlShareGrip) { { t[0], t[1] }, 1, 0, 1, FALSE };
  if (a[0] <= FL_SHARE_FLAT * a[1] || a[1] <= FL_SHARE_FLAT * a[0])
    {
      gboolean wide = a[0] > a[1];
      double most = MAX (a[0], a[1]), along = wide ? t[0] : t[1], f = CLAMP (along, -most, most), held = fabs (along) < most;

      return wide ? (FlShareGrip) { { f, 0 }, held, 0, 0, TRUE } : (FlShareGrip) { { 0, f }, 0, 0, held, TRUE };
    }
  if (a[0] == a[1])
    return fl_share_on_circle (t, a[0], t[0] * t[0] + t[1] * t[1]);
  return fl_share_on_ellipse (t, a);
}

G_END_DECLS

#endif
