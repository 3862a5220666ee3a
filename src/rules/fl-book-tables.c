/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-book-tables.c: reads the tables of a rule book: chain, webbing and its damage, breaking factors, friction, load cases. */
#include "fl-book-private.h"

#include <math.h>
#include <string.h>

/* A nominal size larger than the one before it; NaN after a problem. */
static double
load_size (FlReader *row, double before, const char **text)
{
  double size = NAN;

  *text = fl_book_load_text (row, "size_in");
  if (**text == '\0')
    return NAN;
  if (!fl_size_parse (*text, &size))
    {
      fl_reader_problem (row, FL_SEVERITY_ERROR, "size_in", "a nominal size in inches, as 3/8");
      return NAN;
    }
  if (size <= before)
    fl_reader_problem (row, FL_SEVERITY_ERROR, "size_in", "rows by ascending size");
  return size;
}

/* ── chain ── */

static void
load_grades (FlBookLoad *load, FlReader *block)
{
  gsize n = fl_book_load_list (block, "grades");
  FlBookGrade *grades = fl_arena_new0 (load->arena, FlBookGrade, FL_BOOK_MAX_GRADES);
  g_autoptr(GHashTable) names = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr(GHashTable) marks = g_hash_table_new (g_str_hash, g_str_equal);

  load->data->grades = grades;
  if (n > FL_BOOK_MAX_GRADES)
    {
      fl_reader_problem (block, FL_SEVERITY_ERROR, "grades", "at most %d grades", FL_BOOK_MAX_GRADES);
      n = FL_BOOK_MAX_GRADES;
    }
  for (gsize i = 0; i < n; i++)
    {
      FlReader *item = fl_reader_item (block, "grades", i);
      FlBookGrade *grade = &grades[load->data->n_grades];

      if (item == NULL)
        continue;
      grade->grade = fl_book_load_text (item, "grade");
      grade->marks = fl_book_load_texts (item, "marks");
      grade->breaking_factor = NAN;
      load->data->n_grades++;
      if (!g_hash_table_add (names, (gpointer) grade->grade))
        fl_reader_problem (item, FL_SEVERITY_ERROR, "grade", "each grade once");
      for (gsize j = 0; grade->marks[j] != NULL; j++)
        if (!g_hash_table_add (marks, (gpointer) grade->marks[j]))
          fl_reader_problem (item, FL_SEVERITY_ERROR, "marks", "each mark for one grade only: \"%s\" stands twice", grade->marks[j]);
    }
}

/* Index of a grade by its name; -1 if the book has none of it. */
static gint
grade_named (const FlBookData *data, const char *name)
{
  for (gsize i = 0; i < data->n_grades; i++)
    if (strcmp (data->grades[i].grade, name) == 0)
      return (gint) i;
  return -1;
}

static void
load_chain_cells (FlBookLoad *load, FlReader *row, const FlBookChainRow *before, FlBookChainRow *into)
{
  g_autofree char *key = g_strconcat ("wll_", fl_unit_suffix (load->data->unit), NULL);
  FlReader *cells = fl_reader_object (row, key, TRUE);
  g_autoptr(GPtrArray) names = cells == NULL ? NULL : fl_reader_keys (cells);

  for (gsize i = 0; i < FL_BOOK_MAX_GRADES; i++)
    into->wll[i] = NAN;
  for (guint i = 0; names != NULL && i < names->len; i++)
    {
      const char *name = names->pdata[i];
      gint grade = grade_named (load->data, name);
      double value = fl_book_load_positive (cells, name);

      if (grade < 0)
        {
          fl_reader_problem (cells, FL_SEVERITY_ERROR, name, "a grade of this book");
          continue;
        }
      into->wll[grade] = value;
      if (before != NULL && value <= before->wll[grade])
        fl_reader_problem (cells, FL_SEVERITY_ERROR, name, "more than the next smaller size");
    }
}

static void
load_chain_rows (FlBookLoad *load, FlReader *block)
{
  FlBookData *data = load->data;
  gsize n = fl_book_load_list (block, "rows");
  FlBookChainRow *rows = fl_arena_new0 (load->arena, FlBookChainRow, n);

  data->chain = rows;
  for (gsize i = 0; i < n; i++)
    {
      FlReader *item = fl_reader_item (block, "rows", i);
      const FlBookChainRow *before = data->n_chain == 0 ? NULL : &rows[data->n_chain - 1];
      FlBookChainRow *row = &rows[data->n_chain];

      if (item == NULL)
        continue;
      row->size_in = load_size (item, before == NULL ? 0.0 : before->size_in, &row->size_text);
      row->size_mm = fl_book_load_positive (item, "size_mm");
      if (before != NULL && row->size_mm <= before->size_mm)
        fl_reader_problem (item, FL_SEVERITY_ERROR, "size_mm", "rows by ascending size");
      load_chain_cells (load, item, before, row);
      data->n_chain++;
    }
}

static void
load_chain (FlBookLoad *load)
{
  FlReader *block = fl_book_load_block (load, load->root, "chain");
  const char *unmarked;
  gint grade;

  if (block == NULL)
    return;
  load_grades (load, block);
  load_chain_rows (load, block);
  unmarked = fl_book_load_text (block, "unmarked_grade");
  grade = grade_named (load->data, unmarked);
  if (grade < 0 && *unmarked != '\0')
    fl_reader_problem (block, FL_SEVERITY_ERROR, "unmarked_grade", "a grade of this book");
  load->data->unmarked_grade = (gsize) MAX (grade, 0);
}

/* ── webbing ── */

static void
load_webbing (FlBookLoad *load)
{
  FlBookData *data = load->data;
  FlReader *block = fl_book_load_block (load, load->root, "webbing");
  gsize n = block == NULL ? 0 : fl_book_load_list (block, "rows");
  FlBookWebRow *rows = fl_arena_new0 (load->arena, FlBookWebRow, n);

  data->webbing = rows;
  for (gsize i = 0; i < n; i++)
    {
      FlReader *item = fl_reader_item (block, "rows", i);
      double before = data->n_webbing == 0 ? 0.0 : rows[data->n_webbing - 1].width_in;
      FlBookWebRow *row = &rows[data->n_webbing];

      if (item == NULL)
        continue;
      row->width_in = load_size (item, before, &row->size_text);
      row->width_mm = fl_book_load_positive (item, "size_mm");
      row->wll = fl_book_load_quantity (item, "wll", data->unit);
      row->damage_over_in = NAN;
      data->n_webbing++;
    }
}

static void
load_webbing_damage (FlBookLoad *load)
{
  FlBookData *data = load->data;
  FlBookWebRow *rows = (FlBookWebRow *) data->webbing;   /* filled in while the book is still being made */
  FlReader *block = fl_book_load_block (load, load->root, "webbing_damage");
  gsize n = block == NULL ? 0 : fl_book_load_list (block, "rows");
  double size = 0.0;

  for (gsize i = 0; i < n; i++)
    {
      FlReader *item = fl_reader_item (block, "rows", i);
      gboolean known = FALSE;
      const char *text;
      double over;

      if (item == NULL)
        continue;
      size = load_size (item, size, &text);
      over = fl_book_load_quantity (item, "over", FL_UNIT_IN);
      for (gsize j = 0; j < data->n_webbing; j++)
        if (fl_size_equal (rows[j].width_in, size))
          {
            rows[j].damage_over_in = over;
            known = TRUE;
          }
      if (!known && !isnan (size))
        fl_reader_problem (item, FL_SEVERITY_ERROR, "size_in", "a width that the table of webbing has");
    }
  if (block != NULL)
    data->strap_summed = fl_book_load_texts (block, "summed");
}

/* ── breaking factors ── */

static void
load_chain_factors (FlBookLoad *load, FlReader *breaking)
{
  FlReader *block = fl_book_load_block (load, breaking, "chain");
  FlReader *factors = block == NULL ? NULL : fl_reader_object (block, "factors", TRUE);
  FlBookGrade *grades = (FlBookGrade *) load->data->grades;   /* filled in while the book is still being made */
  g_autoptr(GPtrArray) names = factors == NULL ? NULL : fl_reader_keys (factors);

  if (factors == NULL)
    return;
  for (gsize i = 0; i < load->data->n_grades; i++)
    grades[i].breaking_factor = fl_book_load_number (factors, grades[i].grade, 1.0, 20.0);
  for (guint i = 0; i < names->len; i++)
    if (grade_named (load->data, names->pdata[i]) < 0)
      fl_reader_problem (factors, FL_SEVERITY_ERROR, names->pdata[i], "a grade of this book");
}

static void
load_breaking (FlBookLoad *load)
{
  FlBookData *data = load->data;
  FlReader *breaking = fl_reader_object (load->root, "breaking", TRUE);
  struct { const char *key; double *factor; } const parts[] = {
    { "webbing", &data->webbing_breaking_factor },
    { "binder", &data->binder_breaking_factor },
    { "connector", &data->connector_breaking_factor },
  };

  if (breaking == NULL)
    return;
  load_chain_factors (load, breaking);
  for (gsize i = 0; i < G_N_ELEMENTS (parts); i++)
    {
      FlReader *block = fl_book_load_block (load, breaking, parts[i].key);

      if (block != NULL)
        *parts[i].factor = fl_book_load_number (block, "factor", 1.0, 20.0);
    }
}

/* ── friction ── */

static const char *const running_gears[] = { "rubber_tires", "rubber_tracks", "steel_tracks", "steel_drum", NULL };
static const char *const surfaces[] = { "wood", "steel", "aluminum", "rubber_mat", NULL };
static const char *const states[] = { "dry", "wet", "frost", NULL };

static void
load_friction_row (FlBookLoad *load, FlReader *item, FlBookFriction *cells)
{
  FlBookData *data = load->data;
  gint gear = fl_reader_choice (item, "running_gear", running_gears, TRUE, -1);
  gint surface = fl_reader_choice (item, "surface", surfaces, TRUE, -1);

  for (gsize s = 0; states[s] != NULL; s++)
    {
      double mu = fl_reader_has (item, states[s]) ? fl_book_load_number (item, states[s], 0.0, 1.0) : NAN;

      if (gear < 0 || surface < 0 || isnan (mu))
        continue;
      for (gsize i = 0; i < data->n_friction; i++)
        if (cells[i].gear == running_gears[gear] && cells[i].surface == surfaces[surface] && cells[i].state == states[s])
          fl_reader_problem (item, FL_SEVERITY_ERROR, "surface", "each pair of running gear and surface once");
      cells[data->n_friction++] = (FlBookFriction) { running_gears[gear], surfaces[surface], states[s], mu };
    }
}

static void
load_friction (FlBookLoad *load)
{
  FlReader *block = fl_book_load_block (load, load->root, "friction");
  gsize n = block == NULL ? 0 : fl_book_load_list (block, "rows");
  FlBookFriction *cells = fl_arena_new0 (load->arena, FlBookFriction, n * (G_N_ELEMENTS (states) - 1));

  load->data->friction = cells;
  for (gsize i = 0; i < n; i++)
    {
      FlReader *item = fl_reader_item (block, "rows", i);

      if (item != NULL)
        load_friction_row (load, item, cells);
    }
  /* A cell that is missing takes the lowest of its row; so each running gear must have something in each state. */
  for (gsize g = 0; n > 0 && running_gears[g] != NULL; g++)
    for (gsize s = 0; states[s] != NULL; s++)
      {
        gboolean found = FALSE;

        for (gsize i = 0; i < load->data->n_friction && !found; i++)
          found = cells[i].gear == running_gears[g] && cells[i].state == states[s];
        if (!found)
          fl_reader_problem (block, FL_SEVERITY_ERROR, "rows", "a value for %s on at least one %s surface", running_gears[g], states[s]);
      }
}

/* ── load cases ── */

static void
load_case (FlReader *item, FlBookCase *into)
{
  FlVec *d = &into->direction;

  into->id = fl_book_load_text (item, "id");
  if (fl_reader_list (item, "direction", TRUE) == 3)
    *d = (FlVec) { fl_reader_item_number (item, "direction", 0), fl_reader_item_number (item, "direction", 1),
                   fl_reader_item_number (item, "direction", 2) };
  if (!(fabs (d->x * d->x + d->y * d->y - 1.0) < 1e-9) || d->z != 0.0)
    fl_reader_problem (item, FL_SEVERITY_ERROR, "direction", "x, y, z of a level direction of length 1");
  into->working = fl_book_load_number (item, "working_g", 0.0, 10.0);
  into->breaking = fl_book_load_number (item, "breaking_g", 0.0, 10.0);
  if (into->breaking < into->working)
    fl_reader_problem (item, FL_SEVERITY_ERROR, "breaking_g", "at least working_g");
}

static void
load_cases (FlBookLoad *load)
{
  static const char *const ids[] = { "forward", "rearward", "left", "right" };
  FlReader *block = fl_book_load_block (load, load->root, "load_cases");
  gsize n = block == NULL ? 0 : fl_book_load_list (block, "cases");
  FlBookCase *cases = fl_arena_new0 (load->arena, FlBookCase, n);

  load->data->cases = cases;
  for (gsize i = 0; i < n; i++)
    {
      FlReader *item = fl_reader_item (block, "cases", i);

      if (item != NULL)
        load_case (item, &cases[load->data->n_cases++]);
    }
  for (gsize i = 0; n > 0 && i < G_N_ELEMENTS (ids); i++)
    {
      gsize times = 0;

      for (gsize j = 0; j < load->data->n_cases; j++)
        times += strcmp (cases[j].id, ids[i]) == 0;
      if (times != 1)
        fl_reader_problem (block, FL_SEVERITY_ERROR, "cases", "the case \"%s\" once", ids[i]);
    }
}

void
fl_book_load_tables (FlBookLoad *load)
{
  load_chain (load);
  load_webbing (load);
  load_webbing_damage (load);
  load_breaking (load);
  load_friction (load);
  load_cases (load);
}
