/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long the upper bound takes on random rigs, ours against GLPK's simplex, and how many times the one goes into the other. GLPK
 * gets the same problem with cones of 64 sides, already built, and does not ask whether the load stands at rest; ours does
 * everything. Prints one line of numbers for the program that starts it: ours, GLPK's (microseconds each), rigs.
 *
 *   bench-equilibrium [FIRST [COUNT]] */
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "fl-test-glpk.h"

enum { ROUNDS = 20 };

static double
now (void)
{
  struct timespec t;

  clock_gettime (CLOCK_PROCESS_CPUTIME_ID, &t);
  return (double) t.tv_sec * 1e6 + (double) t.tv_nsec / 1e3;
}

static double
time_ours (const TestRig *rigs, guint count)
{
  double best = INFINITY;

  for (guint round = 0; round < ROUNDS; round++)
    {
      double start = now (), sum = 0.0, each;

      for (guint i = 0; i < count; i++)
        sum += test_rig_capacity (&rigs[i]).g;
      each = (now () - start) / count;
      best = isfinite (sum) ? MIN (best, each) : NAN;
    }
  return best;
}

static double
time_glpk (const TestRig *rigs, guint count)
{
  double spent = 0.0;

  for (guint i = 0; i < count; i++)
    {
      glp_prob *lp = lp_of_rig (&rigs[i], 1.0, 1000.0);
      double start = now ();

      lp_solve (lp);
      spent += now () - start;
      glp_delete_prob (lp);
    }
  return spent / count;
}

int
main (int argc, char **argv)
{
  guint first = argc > 1 ? (guint) strtoul (argv[1], NULL, 10) : 0, count = argc > 2 ? (guint) strtoul (argv[2], NULL, 10) : 1000;
  g_autofree TestRig *rigs = g_new (TestRig, MAX (count, 1));

  for (guint i = 0; i < count; i++)
    test_rig (first + i, &rigs[i]);
  if (count > 0)
    printf ("%.3f %.3f %u\n", time_ours (rigs, count), time_glpk (rigs, count), count);
  glp_free_env ();
  return 0;
}
