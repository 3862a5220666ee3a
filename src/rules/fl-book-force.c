/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-book-force.c: reads what the force answers and the look at certainty need of a rule book: stiffness, margins, tolerances. */
#include "fl-book-private.h"

#include <math.h>
#include <string.h>

#define N_PER_M(kn_mm) ((kn_mm) * 1e6)

static void
load_force (FlBookLoad *load)
{
  static const char *const states[] = { "dry", "wet", "frost", NULL };
  FlReader *block = fl_book_load_block (load, load->root, "force");
  gint state;

  if (block == NULL)
    return;
  state = fl_reader_choice (block, "state_when_not_given", states, TRUE, 1);
  load->data->state_when_not_given = states[MAX (0, state)];
  load->data->force_steps = (gint) fl_book_load_number (block, "steps", 1.0, 200.0);
}

static void
load_parts (FlBookLoad *load, FlReader *stiffness)
{
  FlBookData *data = load->data;
  FlReader *block = fl_book_load_block (load, stiffness, "parts");

  if (block == NULL)
    return;
  data->binder_stiffness = N_PER_M (fl_book_load_positive (block, "binder_kn_mm"));
  data->connector_stiffness = N_PER_M (fl_book_load_positive (block, "connector_kn_mm"));
  data->anchor_stiffness = N_PER_M (fl_book_load_positive (block, "anchor_kn_mm"));
  data->point_stiffness = N_PER_M (fl_book_load_positive (block, "point_kn_mm"));
  data->stop_stiffness = N_PER_M (fl_book_load_positive (block, "stop_kn_mm"));
}

static void
load_contacts (FlBookLoad *load, FlReader *stiffness)
{
  FlReader *block = fl_book_load_block (load, stiffness, "contacts");
  gsize n = block == NULL ? 0 : fl_book_load_list (block, "rows");
  FlBookContact *rows = fl_arena_new0 (load->arena, FlBookContact, n);

  load->data->contact_stiffness = rows;
  for (gsize i = 0; i < n; i++)
    {
      FlReader *item = fl_reader_item (block, "rows", i);
      FlBookContact *row = &rows[load->data->n_contact_stiffness];

      if (item == NULL)
        continue;
      *row = (FlBookContact) { fl_book_load_text (item, "running_gear"), N_PER_M (fl_book_load_positive (item, "up_kn_mm")),
                               N_PER_M (fl_book_load_positive (item, "sideways_kn_mm")) };
      for (gsize k = 0; k < load->data->n_contact_stiffness; k++)
        if (strcmp (rows[k].gear, row->gear) == 0)
          fl_reader_problem (item, FL_SEVERITY_ERROR, "running_gear", "each running gear once");
      load->data->n_contact_stiffness++;
    }
}

static void
load_stiffness (FlBookLoad *load)
{
  FlReader *stiffness = fl_reader_object (load->root, "stiffness", TRUE), *block;

  if (stiffness == NULL)
    return;
  if ((block = fl_book_load_block (load, stiffness, "chain")) != NULL)
    load->data->chain_modulus = 1e9 * fl_book_load_positive (block, "modulus_gpa");
  if ((block = fl_book_load_block (load, stiffness, "webbing")) != NULL)
    load->data->webbing_strain = fl_book_load_positive (block, "limits_at_full_strain");
  load_parts (load, stiffness);
  load_contacts (load, stiffness);
}

static void
load_certainty (FlBookLoad *load)
{
  FlBookData *data = load->data;
  FlReader *block = fl_book_load_block (load, load->root, "certainty");

  if (block == NULL)
    return;
  data->margin_pct[FL_BASIS_SCALE] = fl_book_load_number (block, "scale_pct", 0.0, 100.0);
  data->margin_pct[FL_BASIS_PLATE] = fl_book_load_number (block, "plate_pct", 0.0, 100.0);
  data->margin_pct[FL_BASIS_MANUAL] = fl_book_load_number (block, "manual_pct", 0.0, 100.0);
  data->margin_pct[FL_BASIS_TYPICAL] = fl_book_load_number (block, "typical_pct", 0.0, 100.0);
  data->margin_pct[FL_BASIS_TAPE] = data->margin_pct[FL_BASIS_TYPICAL];   /* nobody weighs with a tape */
  data->off_lengthwise = fl_book_load_quantity (block, "lengthwise", FL_UNIT_IN);
  data->off_sideways = fl_book_load_quantity (block, "sideways", FL_UNIT_IN);
}

void
fl_book_load_force (FlBookLoad *load)
{
  load_force (load);
  load_stiffness (load);
  load_certainty (load);
}

FlBookContact
fl_book_contact (const FlBook *book, const char *gear)
{
  const FlBookData *data = fl_book_data (book);
  FlBookContact softest = { NULL, INFINITY, INFINITY };

  for (gsize i = 0; i < data->n_contact_stiffness; i++)
    {
      const FlBookContact *row = &data->contact_stiffness[i];

      if (g_strcmp0 (row->gear, gear) == 0)
        return *row;
      softest.up = fmin (softest.up, row->up);
      softest.sideways = fmin (softest.sideways, row->sideways);
    }
  return softest;
}
