/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A tie-down as a spring: see fl-spring.h. */
#include "fl-spring.h"

double
fl_spring_ea (const FlBook *book, const FlAssemblyParts *parts)
{
  const FlBookData *data = fl_book_data (book);

  if (parts->chain != NULL)
    {
      const FlChain *chain = fl_record_chain (parts->chain->record);
      const FlBookChainRow *row = fl_book_chain_row (book, chain->size_in);
      double d = row != NULL ? row->size_mm / 1000.0 : chain->size_in * FL_M_PER_IN;

      return data->chain_modulus * G_PI * d * d / 2;    /* both legs of a link */
    }
  return data->webbing_strain * fl_quantity_in (parts->strap->rating.wll, FL_UNIT_KG) * data->g;
}

double
fl_spring_give (const FlBook *book, const FlAssemblyParts *parts)
{
  const FlBookData *data = fl_book_data (book);
  guint anchors = parts->anchors[1] != NULL ? 2 : 1;

  return anchors / data->anchor_stiffness + (parts->point != NULL ? 1 / data->point_stiffness : 0.0)
         + (parts->binder != NULL ? 1 / data->binder_stiffness : 0.0) + parts->n_connectors / data->connector_stiffness;
}

double
fl_spring_yield (const FlBook *book, const FlAssemblyParts *parts)
{
  return parts->run_in * FL_M_PER_IN / fl_spring_ea (book, parts) + fl_spring_give (book, parts);
}
