/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How long a judgement takes: a load moved and judged as it stands (a frame of the drag), and judged at rest with everything; each as a
 * share of the time there is for it. The plan is the example's. Prints; asserts no time.
 *
 *   bench-judge FLEET PLAN BOOK [TIMES] */
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>

#include "fl-judge.h"

typedef struct { FlBook *book; FlFleet *fleet; FlPlan *plan; FlScene *scene; } Bench;

static GBytes *
read_or_die (const char *path)
{
  g_autoptr(GError) error = NULL;
  g_autoptr(GFile) file = g_file_new_for_path (path);
  GBytes *bytes = g_file_load_bytes (file, NULL, NULL, &error);

  if (bytes == NULL)
    {
      g_printerr ("%s\n", error->message);
      exit (2);
    }
  return bytes;
}

static Bench
prepare (char **paths)
{
  g_autoptr(GBytes) fleet = read_or_die (paths[0]);
  g_autoptr(GBytes) plan = read_or_die (paths[1]);
  g_autoptr(GBytes) text = read_or_die (paths[2]);
  g_autoptr(FlBook) bare = fl_book_new_from_json (text, NULL);
  g_autoptr(GError) error = NULL;
  Bench b = { .fleet = fl_fleet_new_from_json (fleet, NULL), .plan = fl_plan_new_from_json (plan, NULL) };

  if (bare != NULL && b.fleet != NULL)
    b.book = fl_book_tighten (bare, fl_fleet_policy (b.fleet), NULL);
  if (b.book != NULL && b.plan != NULL)
    b.scene = fl_scene_new (b.book, b.fleet, b.plan, &error);
  if (b.scene == NULL)
    {
      g_printerr ("%s\n", error != NULL ? error->message : "a document was refused");
      exit (2);
    }
  return b;
}

/* The middle of so many times, in ms. */
static int
by_value (gconstpointer a, gconstpointer b)
{
  double x = *(const double *) a, y = *(const double *) b;

  return x < y ? -1 : x > y;
}

static double
median_ms (Bench *b, FlJudgeDepth depth, guint times)
{
  g_autofree double *taken = g_new (double, times);

  for (guint i = 0; i < times; i++)
    {
      gint64 start = g_get_monotonic_time ();   /* lint: allow calls: a benchmark asks the clock */
      g_autoptr(FlAssessment) judged = NULL;

      fl_scene_place (b->scene, 0, FL_REARWARD, 0.254 + 0.001 * (i % 7));
      judged = fl_judge_at (b->scene, depth);
      taken[i] = (double) (g_get_monotonic_time () - start) / 1000.0;   /* lint: allow calls: the same */
    }
  qsort (taken, times, sizeof *taken, by_value);
  return taken[times / 2];
}

int
main (int argc, char **argv)
{
  static const struct { const char *name; FlJudgeDepth depth; double budget; } what[] = {
    { "placed and judged as it stands", FL_JUDGE_MOVING, 3.0 }, { "judged at rest, with everything", FL_JUDGE_SETTLED, 50.0 }
  };
  Bench b;
  guint times = argc > 4 ? (guint) atoi (argv[4]) : 101;

  if (argc < 4)
    {
      g_printerr ("usage: bench-judge FLEET PLAN BOOK [TIMES]\n");
      return 2;
    }
  b = prepare (argv + 1);
  for (guint i = 0; i < G_N_ELEMENTS (what); i++)
    {
      double ms = median_ms (&b, what[i].depth, MAX (1u, times));

      printf ("%-34s %8.3f ms, %5.2f of the %g ms there are\n", what[i].name, ms, ms / what[i].budget, what[i].budget);
    }
  fl_scene_free (b.scene);
  fl_plan_unref (b.plan);
  fl_fleet_unref (b.fleet);
  fl_book_unref (b.book);
  return 0;
}
