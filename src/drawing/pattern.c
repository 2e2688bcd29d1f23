/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Patterns make a black-and-white print readable: no two services share one. All lengths are mm on paper, so that a
 * pattern looks the same at every scale. */
#include "drawing/pattern.h"

#define MOST_DASHES 8

typedef struct
{
  const char *name;
  double lengths[MOST_DASHES];
} DashRow;

static const DashRow dashes[SW_N_DASHES] = {
  [SW_DASH_SOLID] = { "solid", { 0 } },
  [SW_DASH_HIDDEN] = { "hidden", { 2, 1 } },
  [SW_DASH_CENTRE] = { "centre", { 8, 1.5, 1, 1.5 } },
  [SW_DASH_DOTTED] = { "dotted", { 0.35, 1 } },
  [SW_DASH_BREAK] = { "break", { 12, 2, 2, 2 } },
  [SW_DASH_SERVICE + SW_SERVICE_LINE_WASTE] = { "waste", { 16, 1.2 } },
  [SW_DASH_SERVICE + SW_SERVICE_LINE_COLD_WATER] = { "cold-water", { 6, 1.5 } },
  [SW_DASH_SERVICE + SW_SERVICE_LINE_HOT_WATER] = { "hot-water", { 6, 1.2, 1.2, 1.2 } },
  [SW_DASH_SERVICE + SW_SERVICE_LINE_POWER] = { "power", { 3, 1.2 } },
  [SW_DASH_SERVICE + SW_SERVICE_LINE_LIGHTING] = { "lighting", { 1.2, 1.2 } },
  [SW_DASH_SERVICE + SW_SERVICE_LINE_DATA] = { "data", { 0.4, 0.8 } },
  [SW_DASH_SERVICE + SW_SERVICE_LINE_FIRE_ALARM] = { "fire-alarm", { 4, 1, 0.4, 1, 0.4, 1 } },
  [SW_DASH_SERVICE + SW_SERVICE_LINE_GAS] = { "gas", { 9, 1.2, 3, 1.2 } },
  [SW_DASH_SERVICE + SW_SERVICE_LINE_CONDENSATE] = { "condensate", { 3, 1, 0.4, 1 } },
  [SW_DASH_SERVICE + SW_SERVICE_LINE_REFRIGERANT] = { "refrigerant", { 3, 1, 3, 1, 0.4, 1 } },
  [SW_DASH_SERVICE + SW_SERVICE_LINE_RAINWATER] = { "rainwater", { 12, 1.2, 1.2, 1.2, 1.2, 1.2 } },
  [SW_DASH_SERVICE + SW_SERVICE_LINE_DUCT] = { "duct", { 9, 1.2, 0.4, 0.8, 0.4, 0.8, 0.4, 1.2 } },
  [SW_DASH_SERVICE + SW_SERVICE_LINE_SPRINKLER] = { "sprinkler", { 2, 0.8, 2, 0.8, 2, 2.4 } },
};

static const SwHatchingLines hatchings[SW_N_HATCHINGS] = {
  [SW_HATCHING_LINES] = { "lines", 45, 2, 0.18, 0, FALSE },
  [SW_HATCHING_BACK] = { "back", 135, 2, 0.18, 0, FALSE },
  [SW_HATCHING_CROSS] = { "cross", 45, 2.5, 0.18, 0, TRUE },
  [SW_HATCHING_GRID] = { "grid", 0, 3, 0.18, 0, TRUE },
  [SW_HATCHING_LEVEL] = { "level", 0, 2, 0.18, 0, FALSE },
  [SW_HATCHING_UPRIGHT] = { "upright", 90, 2, 0.18, 0, FALSE },
  [SW_HATCHING_DENSE] = { "dense", 45, 1, 0.25, 0, FALSE },
  [SW_HATCHING_WIDE] = { "wide", 45, 4, 0.18, 0, FALSE },
  [SW_HATCHING_DASHES] = { "dashes", 0, 2.5, 0.18, 1.5, FALSE },
  [SW_HATCHING_DOTS] = { "dots", 45, 1.8, 0.4, 0.4, FALSE },
};

/* Roles that are not listed stay plain: their greys differ enough, or they are lines. */
static const struct { SwColourRole role; SwHatching hatching; } mono_hatchings[] = {
  { SW_ROLE_SOLID_ZONE, SW_HATCHING_WIDE },     { SW_ROLE_DOWNSTAND, SW_HATCHING_CROSS },
  { SW_ROLE_ROOM_2, SW_HATCHING_DOTS },         { SW_ROLE_ROOM_3, SW_HATCHING_WIDE },
  { SW_ROLE_ROOM_4, SW_HATCHING_DASHES },       { SW_ROLE_ROOM_5, SW_HATCHING_GRID },
  { SW_ROLE_ROOM_6, SW_HATCHING_BACK },         { SW_ROLE_SEPARATING_WALL, SW_HATCHING_DENSE },
  { SW_ROLE_INSULATION, SW_HATCHING_CROSS },    { SW_ROLE_BATTEN, SW_HATCHING_LINES },
  { SW_ROLE_FIX, SW_HATCHING_DENSE },           { SW_ROLE_NOTE, SW_HATCHING_DOTS },
  { SW_ROLE_GOOD, SW_HATCHING_UPRIGHT },        { SW_ROLE_SELECTION, SW_HATCHING_DENSE },
};

static const char *const codes[SW_N_SERVICE_LINES] = {
  [SW_SERVICE_LINE_WASTE] = "W",        [SW_SERVICE_LINE_COLD_WATER] = "CW", [SW_SERVICE_LINE_HOT_WATER] = "HW",
  [SW_SERVICE_LINE_POWER] = "P",        [SW_SERVICE_LINE_LIGHTING] = "L",    [SW_SERVICE_LINE_DATA] = "D",
  [SW_SERVICE_LINE_FIRE_ALARM] = "FA",  [SW_SERVICE_LINE_GAS] = "G",         [SW_SERVICE_LINE_CONDENSATE] = "CD",
  [SW_SERVICE_LINE_REFRIGERANT] = "RF", [SW_SERVICE_LINE_RAINWATER] = "RW",  [SW_SERVICE_LINE_DUCT] = "AD",
  [SW_SERVICE_LINE_SPRINKLER] = "SP",
};

const double *
sw_dash_pattern (SwDash dash, int *n)
{
  const double *lengths = dashes[dash < SW_N_DASHES ? dash : SW_DASH_SOLID].lengths;
  int count = 0;
  while (count < MOST_DASHES && lengths[count] > 0)
    count++;
  *n = count;
  return lengths;
}

const char *
sw_dash_name (SwDash dash)
{
  return dashes[dash < SW_N_DASHES ? dash : SW_DASH_SOLID].name;
}

const SwHatchingLines *
sw_hatching_lines (SwHatching hatching)
{
  return hatching > SW_HATCHING_NONE && hatching < SW_N_HATCHINGS ? &hatchings[hatching] : NULL;
}

SwHatching
sw_role_mono_hatching (SwColourRole role)
{
  for (gsize i = 0; i < G_N_ELEMENTS (mono_hatchings); i++)
    if (mono_hatchings[i].role == role)
      return mono_hatchings[i].hatching;
  return SW_HATCHING_NONE;
}

const char *
sw_service_line_code (SwServiceLine line)
{
  g_return_val_if_fail (line < SW_N_SERVICE_LINES, "");
  return codes[line];
}
