/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "geometry/point.h"

/* What fits side by side and above each other in the section of one void. Millimetres; x across from the void's centre line,
 * y up from the soffit. */

typedef struct
{
  double radius; /* outside, with socket and insulation */
  SwPoint at;    /* of the axis: set by sw_packing_find */
} SwPackTube;

typedef struct
{
  double mouth, crown, depth;  /* of the void */
  double side, top, bottom;    /* clearance to its sides, its crown, and the plane of the soffit */
  double between;              /* clearance between two tubes */
  const SwPackTube *fixed;     /* what hangs there already, wherever it hangs; NULL for nothing */
  guint n_fixed;
} SwPackCase;

typedef enum
{
  SW_PACK_FITS,
  SW_PACK_TOO_WIDE, /* one tube does not fit even alone: proved */
  SW_PACK_TOO_MUCH, /* their areas with half the clearances are more than there is: proved */
  SW_PACK_NOT_FOUND /* no way was found; for one or two tubes that is a proof */
} SwPackResult;

/* Finds places for n tubes, at most SW_PACK_MOST; keeps their order in `tubes`. */
#define SW_PACK_MOST 24
SwPackResult sw_packing_find (const SwPackCase *pack, SwPackTube *tubes, guint n);

/* Diameter of the widest single tube in the empty void, 0 when none fits, and where its axis lies. */
double sw_packing_largest (const SwPackCase *pack, SwPoint *at);
/* The same beside what hangs there already, to 0.1 mm. */
double sw_packing_largest_beside (const SwPackCase *pack, SwPoint *at);
/* Width of the void at a height. */
double sw_packing_width (const SwPackCase *pack, double height);
/* How many tubes of one diameter lie side by side at a height of their axes. */
guint sw_packing_row (const SwPackCase *pack, double diameter, double height);
