/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The force answers of a judged plan as text for people: a table of the answers of all methods, and what each tie-down carries. */
#include "fl-cli-show.h"

#include "fl-force-table.h"

static const char *
load_id (const FlAssessmentParts *parts, guint load)
{
  return load < parts->n_loads ? parts->loads[load].id : NULL;
}

static void
add_force_table (const FlAssessmentParts *parts, const GArray *rows, GString *out)
{
  g_autoptr(FlCliTable) table = fl_cli_table_new ("llllrrrrllll");

  for (guint column = 0; column < FL_FORCE_N_COLUMNS; column++)
    fl_cli_table_add (table, fl_force_head (NULL, column));
  for (guint i = 0; i < rows->len; i++)
    for (guint column = 0; column < FL_FORCE_N_COLUMNS; column++)
      {
        const FlForceRow *row = &g_array_index (rows, FlForceRow, i);

        fl_cli_table_take (table, fl_force_cell (NULL, row, load_id (parts, row->load), column, parts->metric));
      }
  fl_cli_table_print (table, 2, out);
}

static void
add_tension_head (FlCliTable *table, const GPtrArray *cases)
{
  const FlForceColumn before[] = { FL_FORCE_LOAD, FL_FORCE_LEVEL, FL_FORCE_FRICTION };

  for (gsize i = 0; i < G_N_ELEMENTS (before); i++)
    fl_cli_table_add (table, fl_force_head (NULL, before[i]));
  fl_cli_table_add (table, "No");
  for (guint k = 0; k < cases->len; k++)
    fl_cli_table_add (table, fl_force_case_word (NULL, g_ptr_array_index (cases, k)));
}

static void
add_tension_table (const FlAssessmentParts *parts, GString *out)
{
  g_autoptr(GPtrArray) cases = fl_force_cases (parts);
  g_autoptr(GArray) rows = fl_tension_rows (parts);
  g_autofree char *extra = g_strnfill (cases->len, 'r');
  g_autofree char *columns = g_strconcat ("lllr", extra, NULL);
  g_autoptr(FlCliTable) table = fl_cli_table_new (columns);

  if (rows->len == 0)
    return;
  add_tension_head (table, cases);
  for (guint i = 0; i < rows->len; i++)
    {
      const FlTensionRow *row = &g_array_index (rows, FlTensionRow, i);

      fl_cli_table_add (table, load_id (parts, row->load));
      fl_cli_table_add (table, fl_force_level_word (NULL, row->level));
      fl_cli_table_add (table, fl_force_friction_word (NULL, row->friction));
      fl_cli_table_take (table, g_strdup_printf ("%u", row->no));
      for (guint k = 0; k < cases->len; k++)
        fl_cli_table_take (table, fl_tension_cell (row->of[k], parts->metric));
    }
  g_string_append (out, "Tensions by load sharing at what is wanted, and the share of the tie-down's limit\n");
  fl_cli_table_print (table, 2, out);
}

void
fl_cli_show_forces (const FlAssessment *assessment, GString *out)
{
  const FlAssessmentParts *parts = fl_assessment_parts (assessment);
  g_autoptr(GArray) rows = fl_force_rows (parts);

  if (rows->len == 0)
    return;
  g_string_append_printf (out, "Forces, in g of the load's weight\n  %s\n", fl_force_advice (NULL));
  g_string_append (out, "  Component sum: each limit times its direction cosine. Upper bound: all that can at their limit together, in balance. Load sharing: as they\n"
                        "  stretch, to the first limit; the tie-down that carries most of its limit at what is wanted, and how far the load moves then.\n");
  add_force_table (parts, rows, out);
  add_tension_table (parts, out);
}
