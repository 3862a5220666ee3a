/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A number with the unit in which it was entered. It is converted where it is used, never where it is kept. */
#ifndef FL_QUANTITY_H
#define FL_QUANTITY_H

#include <glib.h>

G_BEGIN_DECLS

typedef enum
{
  FL_UNIT_NONE,                 /* absent: not looked at, not measured */
  FL_UNIT_NULL,                 /* looked at, and there is none (JSON null): an unmarked hook, for instance */
  FL_UNIT_LB,
  FL_UNIT_KG,
  FL_UNIT_DAN,                  /* 10 N; as a weight 10/9.80665 kg */
  FL_UNIT_IN,
  FL_UNIT_FT,
  FL_UNIT_MM,
  FL_UNIT_M,
  FL_UNIT_MI,
  FL_UNIT_KM,
  FL_UNIT_DEG,
  FL_UNIT_G,                    /* acceleration as a share of g */
  FL_UNIT_COUNT,
  FL_UNIT_SHARE,                /* 0..1 */
  FL_UNIT_PCT,
  FL_UNIT_MIN,
  FL_UNIT_H,
  FL_N_UNITS
} FlUnit;

typedef enum
{
  FL_DIM_NONE,
  FL_DIM_WEIGHT,                /* lb, kg, daN: a weight or the load a part may carry */
  FL_DIM_LENGTH,                /* in, ft, mm, m, mi, km */
  FL_DIM_ANGLE,
  FL_DIM_ACCELERATION,
  FL_DIM_COUNT,
  FL_DIM_SHARE,                 /* share, pct */
  FL_DIM_TIME                   /* min, h */
} FlDimension;

typedef struct
{
  double value;
  FlUnit unit;
} FlQuantity;

#define FL_NOT_MEASURED ((FlQuantity) { 0.0, FL_UNIT_NONE })
#define FL_LB(v) ((FlQuantity) { (v), FL_UNIT_LB })
#define FL_IN(v) ((FlQuantity) { (v), FL_UNIT_IN })
#define FL_M(v) ((FlQuantity) { (v), FL_UNIT_M })
#define FL_KG(v) ((FlQuantity) { (v), FL_UNIT_KG })
#define FL_DEG(v) ((FlQuantity) { (v), FL_UNIT_DEG })
#define FL_COUNT(v) ((FlQuantity) { (v), FL_UNIT_COUNT })
#define FL_GEES(v) ((FlQuantity) { (v), FL_UNIT_G })
#define FL_PCT(v) ((FlQuantity) { (v), FL_UNIT_PCT })

/* The one tolerance of comparisons, relative to the need: it absorbs the rounding of unit conversions and nothing else. */
#define FL_TOLERANCE 1e-9

/* The exact factors: 1 lb = 0.45359237 kg and 1 in = 25.4 mm (international yard and pound agreement, 1959). */
#define FL_KG_PER_LB 0.45359237
#define FL_M_PER_IN 0.0254

/* Which way to round for people: heights, widths and weights up, ratings down. */
typedef enum { FL_ROUND_NEAREST, FL_ROUND_UP, FL_ROUND_DOWN } FlRounding;

/* TRUE if q holds a number (neither absent nor null). */
gboolean fl_quantity_known (FlQuantity q);

/* TRUE if q was looked at and there is none (JSON null). */
gboolean fl_quantity_is_none (FlQuantity q);

/* The dimension of a unit; FL_DIM_NONE for FL_UNIT_NONE and FL_UNIT_NULL. */
FlDimension fl_unit_dimension (FlUnit unit);

/* The suffix of the unit in JSON keys: "lb", "in", "deg", ...; "" where there is none. Static text. */
const char *fl_unit_suffix (FlUnit unit);

/* The unit of a JSON key suffix, within a dimension; FL_UNIT_NONE if unknown. "lc_dan" is handled by the reader. */
FlUnit fl_unit_from_suffix (const char *suffix);

/* q in `unit`: q.value itself where the units are equal, else by the exact factor. NaN for an unknown q or another dimension. */
double fl_quantity_in (FlQuantity q, FlUnit unit);

/* The same quantity in another unit; unknown stays unknown. */
FlQuantity fl_quantity_as (FlQuantity q, FlUnit unit);

/* TRUE if have is at least need, allowing FL_TOLERANCE of need: the one comparison of the house. FALSE if either is unknown. */
gboolean fl_quantity_reaches (FlQuantity have, FlQuantity need);

/* The same comparison for two numbers of one unit. */
gboolean fl_reaches (double have, double need);

/* q in the house's unit for JSON output and screens (us: lb, in; metric: kg, mm; miles and kilometres mi or km; others
 * unchanged), rounded to formats.md's
 * steps (0.1 lb, 1 kg, 0.1 in, 1 mm, 0.1 deg, 0.001 g; others 0.001) in the given direction; FL_TOLERANCE keeps 16750.0000001
 * from being rounded up to 16750.1. Unknown stays unknown. */
FlQuantity fl_quantity_rounded (FlQuantity q, gboolean metric, FlRounding rounding);

/* The unit of a dimension in the house's system: weights lb or kg, lengths in or mm. */
FlUnit fl_unit_house (FlDimension dimension, gboolean metric);

/* Text for people: "16,750 lb", "12 ft 11 in", "44.3 in", "3 940 mm", "42.7°", "0.435 g", "50 %". Lengths of 72 in and over are written
 * in feet and inches when `feet` is TRUE ("12 ft" for whole feet). Weights are rounded to whole lb or kg, lengths to 0.1 in (whole inches when
 * rounding up or down) or 1 mm. Unknown or NaN: "not measured"; none: "none". Never uses the locale. (transfer full) */
char *fl_quantity_format (FlQuantity q, gboolean metric, gboolean feet, FlRounding rounding);

/* Reads what people type, without the locale. Lengths: 5'6", 5' 6 1/2", 10-6, 10 ft 6, 66 in, 1.68 m, 168 cm, 1680 mm, 3/8, 12 1/2; weights:
 * 44,500#, 44.5k, 22 T or 22 tons (short tons of 2000 lb; refused where `bare` is metric, because it may mean either), 20 t (tonnes), kg, daN,
 * kN; also degrees, %, g, counts, min and h. Typographic quotes, primes, fractions and minus too; groups of three by comma, space, narrow
 * space or apostrophe. `bare` is the unit of a number alone and gives the dimension that is accepted. Feet with inches come out as inches,
 * cm as mm, tons as lb, tonnes as kg, kN as daN. Negative only lengths and angles; nothing over 1e9. On failure FALSE, *out untouched, and
 * one line that says what was understood and what was expected (FL_QUANTITY_ERROR). */
gboolean fl_quantity_parse (const char *text, FlUnit bare, FlQuantity *out, GError **error);

/* Reads a nominal size: "3/8", "1-3/4", "1 3/4", "0.375", "2", with or without an inch mark; over 0 to 100. Inches in *inches. FALSE (and
 * *inches untouched) if it is none. */
gboolean fl_size_parse (const char *text, double *inches);

/* TRUE if two nominal sizes are the same: within 1/1000 in. */
gboolean fl_size_equal (double inches_a, double inches_b);

/* The shortest decimal text that reads back as the same double (tries 15, 16, 17 digits); integers up to 2^53 without a point.
 * Locale-free; "null" for NaN and infinity, which JSON does not have. `buffer` must hold G_ASCII_DTOSTR_BUF_SIZE. Returns buffer. */
char *fl_number_text (double value, char *buffer);

#define FL_QUANTITY_ERROR (fl_quantity_error_quark ())
typedef enum { FL_QUANTITY_ERROR_NOT_A_NUMBER, FL_QUANTITY_ERROR_WRONG_UNIT, FL_QUANTITY_ERROR_RANGE } FlQuantityError;
GQuark fl_quantity_error_quark (void);

G_END_DECLS
#endif
