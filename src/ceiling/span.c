/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/span.h"
#include <math.h>

/* Battens are checked as single bays: a batten over several ribs sags less, but any of them may be the one that was
 * joined there, so nothing is gained from it. Constant time each. */

SwBattenSection
sw_span_rectangle (double width, double depth, double e, double mass)
{
  return (SwBattenSection){ e, width * depth * depth * depth / 12, width * depth * depth / 6, mass };
}

SwBattenSection
sw_span_profile (double depth, double inertia, double e, double mass)
{
  return (SwBattenSection){ e, inertia, inertia / depth, mass };
}

double
sw_span_load (const SwBattenSection *section, double mass_kg_m2, double centres)
{
  return (mass_kg_m2 * centres / 1e3 + section->mass) * SW_CEILING_GRAVITY / 1e3;
}

static SwSpanCheck
check_of (const SwBattenSection *section, double load, double span, double sag, double moment)
{
  SwSpanCheck check = { .load = load, .moment = moment };
  check.deflection = sag / (section->e * section->inertia);
  check.stress = moment / section->modulus;
  check.ratio = check.deflection > 0 ? span / check.deflection : INFINITY;
  return check;
}

SwSpanCheck
sw_span_check (const SwBattenSection *section, double load, double span)
{
  return check_of (section, load, span, 5 * load * pow (span, 4) / 384, load * span * span / 8);
}

SwSpanCheck
sw_span_check_cantilever (const SwBattenSection *section, double load, double reach)
{
  return check_of (section, load, reach, load * pow (reach, 4) / 8, load * reach * reach / 2);
}

double
sw_span_greatest (const SwBattenSection *section, double load, double divisor)
{
  return cbrt (384 * section->e * section->inertia / (5 * load * divisor));
}
