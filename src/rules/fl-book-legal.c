/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-book-legal.c: reads what a rule book says of axle groups, of loads that stand out, of the steering axle and of the deck's strength. */
#include "fl-book-private.h"

static void
load_bridge (FlBookLoad *load, FlReader *block)
{
  FlBookBridge *bridge = &load->data->bridge;

  bridge->single_within = fl_book_load_quantity (block, "single_within", FL_UNIT_IN);
  bridge->tandem_within = fl_book_load_quantity (block, "tandem_within", FL_UNIT_IN);
  bridge->formula_from = fl_book_load_quantity (block, "formula_from", FL_UNIT_IN);
  bridge->between_two = fl_book_load_quantity (block, "between_two", load->data->unit);
  bridge->between_more = fl_book_load_quantity (block, "between_more", load->data->unit);
  bridge->factor = fl_book_load_quantity (block, "factor", load->data->unit);
  bridge->per_axle = fl_book_load_positive (block, "per_axle");
  bridge->constant = fl_book_load_positive (block, "constant");
  bridge->spread_step = fl_book_load_quantity (block, "spread_step", FL_UNIT_IN);
  bridge->round = fl_book_load_quantity (block, "round", load->data->unit);
  bridge->tandem_pair_from = fl_book_load_quantity (block, "tandem_pair_from", FL_UNIT_IN);
  if (bridge->tandem_within < bridge->single_within)
    fl_reader_problem (block, FL_SEVERITY_ERROR, "tandem_within_in", "at least single_within_in");
  if (bridge->formula_from < bridge->tandem_within)
    fl_reader_problem (block, FL_SEVERITY_ERROR, "formula_from_in", "at least tandem_within_in");
}

void
fl_book_load_legal (FlBookLoad *load)
{
  FlBookData *data = load->data;
  FlReader *block;

  if ((block = fl_book_load_block (load, load->root, "bridge")) != NULL)
    load_bridge (load, block);
  if ((block = fl_book_load_block (load, load->root, "projecting")) != NULL)
    {
      data->flag_side = fl_book_load_quantity (block, "side", FL_UNIT_IN);
      data->flag_rear = fl_book_load_quantity (block, "rear", FL_UNIT_IN);
    }
  if ((block = fl_book_load_block (load, load->root, "steering")) != NULL)
    data->steer_least_pct = fl_book_load_number (block, "least_pct", 0.0, 100.0);
}
