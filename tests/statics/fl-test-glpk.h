/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-test-glpk.h: the upper bound of a rig by GLPK, with friction cones of 64 sides. It shares with the solver under test the statement
 * of the problem in fl-equilibrium.h and nothing else: moments about the origin of the trailer frame, in newtons and metres. */
#ifndef FL_TEST_GLPK_H
#define FL_TEST_GLPK_H

#include <glpk.h>

#include "fl-test-rigs.h"

enum { CONE_SIDES = 64 };

/* A polygon of n corners on an ellipse lies within it; with all of it over cos (pi / n) larger it lies around it, for the middle of a
 * side of the regular polygon in the unit circle is cos (pi / n) from the center and an ellipse is the circle's affine image. So
 * the true answer lies between those with widen = 1 and widen = CONE_AROUND. */
#define CONE_AROUND (1.0 / cos (G_PI / CONE_SIDES))

/* The six rows of force f at r: divided by weight, so that all numbers are of order one. */
static inline void
lp_wrench (glp_prob *lp, int column, FlVec r, FlVec f, int shared_row, double legs)
{
  FlVec m = fl_vec_cross (r, f);
  int rows[] = { 0, 1, 2, 3, 4, 5, 6, shared_row };
  double values[] = { 0.0, f.x, f.y, f.z, m.x, m.y, m.z, legs };

  glp_set_mat_col (lp, column, shared_row > 0 ? 7 : 6, rows, values);
}

static inline int
lp_column (glp_prob *lp, double most)
{
  int column = glp_add_cols (lp, 1);

  glp_set_col_bnds (lp, column, isfinite (most) ? (most > 0.0 ? GLP_DB : GLP_FX) : GLP_LO, 0.0, most);
  return column;
}

static inline int
lp_row (glp_prob *lp, int kind, double value)
{
  int row = glp_add_rows (lp, 1);

  glp_set_row_bnds (lp, row, kind, value, value);
  return row;
}

/* Legs of one tie have one tension: their difference is nothing. */
static inline void
lp_ties (glp_prob *lp, const TestRig *rig)
{
  for (gsize i = 0; i < rig->held.n; i++)
    for (gsize k = i + 1; k < rig->held.n; k++)
      if (rig->pulls[i].tie > 0 && rig->pulls[k].tie == rig->pulls[i].tie)
        {
          int columns[] = { 0, (int) i + 1, (int) k + 1 };
          double values[] = { 0.0, 1.0, -1.0 };

          glp_set_mat_row (lp, lp_row (lp, GLP_FX, 0.0), 2, columns, values);
        }
}

static inline void
lp_pulls (glp_prob *lp, const TestRig *rig, double weight)
{
  for (gsize s = 0; s < rig->held.n_shared; s++)
    lp_row (lp, GLP_UP, rig->shared[s].limit / weight);
  for (gsize i = 0; i < rig->held.n; i++)
    {
      int row = 0;

      for (gsize s = 0; s < rig->held.n_shared; s++)
        if (rig->shared[s].legs >> i & 1)
          row = (int) s + 7;
      lp_wrench (lp, lp_column (lp, rig->pulls[i].limit / weight), rig->pulls[i].at, rig->pulls[i].along, row, 1.0);
    }
  lp_ties (lp, rig);
}

/* The program; its last column is c. most_c: its bound, 0 asks only whether the load stands. */
static inline glp_prob *
lp_of_rig (const TestRig *rig, double widen, double most_c)
{
  glp_prob *lp = glp_create_prob ();
  double weight = rig->body.mass * rig->body.g;
  FlVec cg = rig->body.cg;
  const double right[] = { 0.0, 0.0, 1.0, cg.y, -cg.x, 0.0 };
  int c;

  glp_set_obj_dir (lp, GLP_MAX);
  for (guint i = 0; i < G_N_ELEMENTS (right); i++)
    lp_row (lp, GLP_FX, right[i]);
  lp_pulls (lp, rig, weight);
  for (gsize j = 0; j < rig->body.n_contacts; j++)
    for (guint k = 0; k < CONE_SIDES; k++)
      {
        double angle = 2.0 * G_PI * k / CONE_SIDES;
        FlVec f = { rig->contacts[j].mu_along * widen * cos (angle), rig->contacts[j].mu_across * widen * sin (angle), 1.0 };

        lp_wrench (lp, lp_column (lp, INFINITY), rig->contacts[j].at, f, 0, 0.0);
      }
  c = lp_column (lp, most_c);
  lp_wrench (lp, c, cg, rig->direction, 0, 0.0);
  glp_set_obj_coef (lp, c, 1.0);
  return lp;
}

static inline gboolean
lp_solve (glp_prob *lp)
{
  glp_smcp how;

  glp_init_smcp (&how);
  how.msg_lev = GLP_MSG_OFF;
  how.tol_bnd = how.tol_dj = 1e-9;
  return glp_simplex (lp, &how) == 0 && glp_get_status (lp) == GLP_OPT;
}

/* g; -1 where no state at rest is found. */
static inline double
glpk_capacity (const TestRig *rig, double widen)
{
  double g = -1.0;
  glp_prob *rest = lp_of_rig (rig, widen, 0.0), *most;

  if (lp_solve (rest))
    {
      most = lp_of_rig (rig, widen, 1000.0);
      g_assert_true (lp_solve (most));
      g = glp_get_obj_val (most);
      glp_delete_prob (most);
    }
  glp_delete_prob (rest);
  return g;
}

#endif
