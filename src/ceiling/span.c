/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/span.h"
#include <math.h>

/* Battens are checked as single bays: a batten over several ribs sags less, but any of them may be the one that was
 * joined there, so nothing is gained from it. Constant time each. */

double
sw_span_inertia (double width, double depth)
{
  return width * depth * depth * depth / 12;
}

double
sw_span_load (const SwBattenTimber *timber, double mass_kg_m2, double centres)
{
  double kg_per_m = mass_kg_m2 * centres / 1e3 + timber->density * timber->width * timber->depth / 1e6;
  return kg_per_m * SW_CEILING_GRAVITY / 1e3;
}

static SwSpanCheck
check_of (const SwBattenTimber *timber, double load, double span, double sag, double moment)
{
  SwSpanCheck check = { .load = load, .moment = moment };
  check.deflection = sag / (timber->e * sw_span_inertia (timber->width, timber->depth));
  check.stress = moment / (timber->width * timber->depth * timber->depth / 6);
  check.ratio = check.deflection > 0 ? span / check.deflection : INFINITY;
  return check;
}

SwSpanCheck
sw_span_check (const SwBattenTimber *timber, double load, double span)
{
  return check_of (timber, load, span, 5 * load * pow (span, 4) / 384, load * span * span / 8);
}

SwSpanCheck
sw_span_check_cantilever (const SwBattenTimber *timber, double load, double reach)
{
  return check_of (timber, load, reach, load * pow (reach, 4) / 8, load * reach * reach / 2);
}

double
sw_span_greatest (const SwBattenTimber *timber, double load, double divisor)
{
  return cbrt (384 * timber->e * sw_span_inertia (timber->width, timber->depth) / (5 * load * divisor));
}
