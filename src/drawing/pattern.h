/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "drawing/palette.h"

/* Line patterns, hatchings, and the pattern, colour and letters of each service. */

/* Line patterns; lengths in mm on paper. */
typedef enum
{
  SW_DASH_SOLID,
  SW_DASH_HIDDEN,
  SW_DASH_CENTRE,
  SW_DASH_DOTTED,
  SW_DASH_BREAK,
  SW_DASH_SERVICE, /* first of the services' own, in the order of SwServiceLine */
  SW_N_DASHES = SW_DASH_SERVICE + 13
} SwDash;

/* The pattern as on, off, on, off …; n is even, 0 for a solid line. Static. */
const double *sw_dash_pattern (SwDash dash, int *n);
const char *sw_dash_name (SwDash dash);

/* Hatchings: one or two families of parallel lines, mm on paper. */
typedef enum
{
  SW_HATCHING_NONE, /* the area in the plain colour */
  SW_HATCHING_LINES,
  SW_HATCHING_BACK,
  SW_HATCHING_CROSS,
  SW_HATCHING_GRID,
  SW_HATCHING_LEVEL,
  SW_HATCHING_UPRIGHT,
  SW_HATCHING_DENSE,
  SW_HATCHING_WIDE,
  SW_HATCHING_DASHES,
  SW_HATCHING_DOTS,
  SW_N_HATCHINGS
} SwHatching;

typedef struct
{
  const char *name;
  double angle;   /* degrees counter-clockwise of the lines */
  double spacing; /* mm between lines */
  double width;   /* mm of a line */
  double on;      /* length of a dash, repeated every `spacing`; 0 = unbroken */
  gboolean cross; /* a second family at right angles */
} SwHatchingLines;

/* Static; NULL for SW_HATCHING_NONE. */
const SwHatchingLines *sw_hatching_lines (SwHatching hatching);
/* What a plain area of this role is hatched with in black-and-white. */
SwHatching sw_role_mono_hatching (SwColourRole role);

typedef enum
{
  SW_SERVICE_LINE_WASTE,
  SW_SERVICE_LINE_COLD_WATER,
  SW_SERVICE_LINE_HOT_WATER,
  SW_SERVICE_LINE_POWER,
  SW_SERVICE_LINE_LIGHTING,
  SW_SERVICE_LINE_DATA,
  SW_SERVICE_LINE_FIRE_ALARM,
  SW_SERVICE_LINE_GAS,
  SW_SERVICE_LINE_CONDENSATE,
  SW_SERVICE_LINE_REFRIGERANT,
  SW_SERVICE_LINE_RAINWATER,
  SW_SERVICE_LINE_DUCT,
  SW_SERVICE_LINE_SPRINKLER,
  SW_N_SERVICE_LINES
} SwServiceLine;

/* A colour, a line pattern that no other service has, and one or two letters. */
static inline SwColourRole sw_service_line_role (SwServiceLine line) { return (SwColourRole) (SW_ROLE_WASTE + (int) line); }
static inline SwDash sw_service_line_dash (SwServiceLine line) { return (SwDash) (SW_DASH_SERVICE + (int) line); }
const char *sw_service_line_code (SwServiceLine line);
