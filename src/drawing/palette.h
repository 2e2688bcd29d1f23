/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <glib.h>

/* The one table of colours. Drawings name roles; a theme turns roles into colours. Patterns stand in pattern.h. */

typedef enum
{
  SW_THEME_LIGHT,
  SW_THEME_DARK,
  SW_THEME_MONO, /* black-and-white print: greys, and a hatching where a colour told things apart */
  SW_N_THEMES
} SwTheme;

typedef enum
{
  SW_ROLE_INK, /* first, so that a style of zeros draws in ink */
  SW_ROLE_FAINT_INK,
  SW_ROLE_DIMENSION,
  SW_ROLE_GRID,
  /* Grounds: areas on which text may stand. */
  SW_ROLE_PAPER,
  SW_ROLE_CONCRETE,
  SW_ROLE_VOID,
  SW_ROLE_BOARD,
  SW_ROLE_SOLID_ZONE,
  SW_ROLE_ROOM_1,
  SW_ROLE_ROOM_2,
  SW_ROLE_ROOM_3,
  SW_ROLE_ROOM_4,
  SW_ROLE_ROOM_5,
  SW_ROLE_ROOM_6,
  /* Building and ceiling. */
  SW_ROLE_CONCRETE_EDGE,
  SW_ROLE_STEEL,
  SW_ROLE_PLATE,
  SW_ROLE_CLOSURE,
  SW_ROLE_OPENING,
  SW_ROLE_DOWNSTAND,
  SW_ROLE_WALL,
  SW_ROLE_SEPARATING_WALL,
  SW_ROLE_BATTEN,
  SW_ROLE_BOARD_EDGE,
  SW_ROLE_INSULATION,
  SW_ROLE_LIGHT,
  SW_ROLE_HATCH,
  SW_ROLE_SLEEVE,
  SW_ROLE_FITTING,
  SW_ROLE_UNDERLAY,
  /* States. */
  SW_ROLE_STOP,
  SW_ROLE_FIX,
  SW_ROLE_NOTE,
  SW_ROLE_GOOD,
  SW_ROLE_BAD,
  SW_ROLE_SELECTION,
  SW_ROLE_HOVER,
  SW_ROLE_DRAFT,
  SW_ROLE_SNAP,
  /* Services, in the order of SwServiceLine. */
  SW_ROLE_WASTE,
  SW_ROLE_COLD_WATER,
  SW_ROLE_HOT_WATER,
  SW_ROLE_POWER,
  SW_ROLE_LIGHTING,
  SW_ROLE_DATA,
  SW_ROLE_FIRE_ALARM,
  SW_ROLE_GAS,
  SW_ROLE_CONDENSATE,
  SW_ROLE_REFRIGERANT,
  SW_ROLE_RAINWATER,
  SW_ROLE_DUCT,
  SW_ROLE_SPRINKLER,
  SW_N_ROLES
} SwColourRole;

/* Red, green, blue from 0 to 1 (sRGB). */
typedef struct { double r, g, b; } SwColour;

/* "cold-water": also the class in SVG. Static. */
const char *sw_role_name (SwColourRole role);
/* Areas on which text may stand; every text keeps its contrast on all of them. */
gboolean sw_role_is_ground (SwColourRole role);
SwColour sw_palette_colour (SwTheme theme, SwColourRole role);
/* The role's colour for letters: moved towards black or white until its contrast on `on` is at least
 * SW_TEXT_CONTRAST, or on all grounds when `on` is SW_ROLE_PAPER. */
SwColour sw_palette_text_colour (SwTheme theme, SwColourRole role, SwColourRole on);
/* a + (b − a)·t, channel by channel. */
SwColour sw_colour_mix (SwColour a, SwColour b, double t);
/* Contrast ratio 1–21. Source: WCAG 2.1, definitions of relative luminance and contrast ratio. */
double sw_colour_contrast (SwColour a, SwColour b);
#define SW_TEXT_CONTRAST 4.5 /* WCAG 2.1, success criterion 1.4.3, level AA */
