/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two surfaces, crown and both sides together, and the open mouth between them and the room; all matt. View factors from crossed
 * strings and reciprocity, then two linear equations. Exact for such surfaces when the trough is long; plates across it
 * and services in it are left out. */
#include "lighting/trough_light.h"
#include <math.h>

double
sw_trough_crown_share (double mouth, double crown, double depth)
{
  double side = hypot ((mouth - crown) / 2, depth), diagonal = hypot ((mouth + crown) / 2, depth);
  return (diagonal - side) / mouth;
}

double
sw_trough_reflectance (double mouth, double crown, double depth, double reflectance)
{
  double sides = 2 * hypot ((mouth - crown) / 2, depth), mouth_crown = sw_trough_crown_share (mouth, crown, depth);
  double mouth_sides = 1 - mouth_crown, crown_mouth = mouth_crown * mouth / crown, crown_sides = 1 - crown_mouth;
  double sides_mouth = mouth_sides * mouth / sides, sides_crown = crown_sides * crown / sides, sides_sides = 1 - sides_mouth - sides_crown;
  /* crown = r (crown_mouth + crown_sides · side), side = r (sides_mouth + sides_crown · crown + sides_sides · side) */
  double r = reflectance;
  double side = r * (sides_mouth + sides_crown * r * crown_mouth) / (1 - r * sides_sides - r * r * sides_crown * crown_sides);
  return mouth_crown * r * (crown_mouth + crown_sides * side) + mouth_sides * side;
}
