/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A tie-down as a spring: its chain or strap, and what binder, connectors, anchors and machine point yield in series with it (statics.md 3;
 * the book's values and their provenance: its "stiffness"). Pure. */
#ifndef FL_SPRING_H
#define FL_SPRING_H

#include "fl-assembly.h"

G_BEGIN_DECLS

/* N at 100 percent strain. Chain: the book's modulus over the section of both legs of a link; strap: a multiple of its working load limit. The parts
 * have one or the other. */
double fl_spring_ea (const FlBook *book, const FlAssemblyParts *parts);

/* m/N of all but the chain or strap itself; nothing for a part that is not there. */
double fl_spring_give (const FlBook *book, const FlAssemblyParts *parts);

/* m/N of the whole over its run (parts->run_in); NaN where that is not known. */
double fl_spring_yield (const FlBook *book, const FlAssemblyParts *parts);

G_END_DECLS
#endif
