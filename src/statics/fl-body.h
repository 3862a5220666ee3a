/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fl-body.h: a load as the force answers see it: a rigid mass that stands on points. SI, trailer frame. */
#ifndef FL_BODY_H
#define FL_BODY_H

#include "fl-vec-ops.h"

G_BEGIN_DECLS

/* A machine has no more: eight patches of four corners. */
enum { FL_MAX_CONTACTS = 32 };

/* Where it touches the deck, m; the deck pushes up there and never pulls. A wheel is one contact, a drum two (its ends), a track
 * four (the corners of its rectangle). mu_along, mu_across: Coulomb friction along and across the trailer; the friction force lies
 * within the ellipse (fx / mu_along)^2 + (fy / mu_across)^2 <= N^2, the exact cone where both are alike. mu_along small and mu_across not:
 * a wheel that may roll. stiffness: N/m, of tire or pad and deck in series, upright; shear: N/m, sideways, before it slips. The upper
 * bound uses neither. */
typedef struct { FlVec at; double mu_along, mu_across, stiffness, shear; } FlContact;

/* mass: kg; g: m/s2; cg: centre of gravity. contacts: borrowed. */
typedef struct { double mass, g; FlVec cg; const FlContact *contacts; gsize n_contacts; } FlBody;

G_END_DECLS

#endif
