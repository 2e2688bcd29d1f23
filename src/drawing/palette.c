/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Colours stand in one table, a line a role. The saturated ones are the eight of the colour-blind-safe set by
 * Okabe and Ito, "Color Universal Design" (2008); neutrals and tints are our own. Letters never use a role's colour
 * as it is: they are moved towards black or white in small steps until they can be read, so no pairing of role and
 * ground can fall below the limit (it ends because black or white reaches 4.58 on any grey). */
#include "drawing/palette.h"
#include <math.h>

#define OI_BLACK       0x000000
#define OI_ORANGE      0xE69F00
#define OI_SKY         0x56B4E9
#define OI_GREEN       0x009E73
#define OI_YELLOW      0xF0E442
#define OI_BLUE        0x0072B2
#define OI_VERMILLION  0xD55E00
#define OI_PURPLE      0xCC79A7
#define LIGHT_INK      0xF2F2F2

typedef struct
{
  const char *name;
  guint32 colours[SW_N_THEMES]; /* light, dark, mono */
  gboolean ground;
} RoleRow;

static const RoleRow roles[SW_N_ROLES] = {
  [SW_ROLE_INK] = { "ink", { 0x1A1A1A, LIGHT_INK, OI_BLACK } },
  [SW_ROLE_FAINT_INK] = { "faint-ink", { 0x8A8A8A, 0x8C8C8C, 0x808080 } },
  [SW_ROLE_DIMENSION] = { "dimension", { 0x404040, 0xC8C8C8, 0x202020 } },
  [SW_ROLE_GRID] = { "grid", { 0xA8A8A8, 0x5E5E5E, 0x909090 } },
  [SW_ROLE_PAPER] = { "paper", { 0xFFFFFF, 0x1E1E1E, 0xFFFFFF }, TRUE },
  [SW_ROLE_CONCRETE] = { "concrete", { 0xDCDCD8, 0x3A3A38, 0xDCDCDC }, TRUE },
  [SW_ROLE_VOID] = { "void", { 0xF3F5F7, 0x24272B, 0xF6F6F6 }, TRUE },
  [SW_ROLE_BOARD] = { "board", { 0xF7F1E6, 0x332E26, 0xFFFFFF }, TRUE },
  [SW_ROLE_SOLID_ZONE] = { "solid-zone", { 0xCACAC4, 0x484844, 0xC8C8C8 }, TRUE },
  [SW_ROLE_ROOM_1] = { "room-1", { 0xEAF4FB, 0x1F2D36, 0xFFFFFF }, TRUE },
  [SW_ROLE_ROOM_2] = { "room-2", { 0xFDF3DF, 0x362C1A, 0xFFFFFF }, TRUE },
  [SW_ROLE_ROOM_3] = { "room-3", { 0xE3F4EE, 0x1A3129, 0xFFFFFF }, TRUE },
  [SW_ROLE_ROOM_4] = { "room-4", { 0xFBEFF6, 0x33242D, 0xFFFFFF }, TRUE },
  [SW_ROLE_ROOM_5] = { "room-5", { 0xFBF9DC, 0x33311A, 0xFFFFFF }, TRUE },
  [SW_ROLE_ROOM_6] = { "room-6", { 0xFBE9DF, 0x36231A, 0xFFFFFF }, TRUE },
  [SW_ROLE_CONCRETE_EDGE] = { "concrete-edge", { 0x6B6B6B, 0x9A9A9A, 0x404040 } },
  [SW_ROLE_STEEL] = { "steel", { 0x5B6B7A, 0x9FB2C4, 0x303030 } },
  [SW_ROLE_PLATE] = { "plate", { 0x46586A, 0xB4C4D2, 0x202020 } },
  [SW_ROLE_CLOSURE] = { "closure", { 0x4A4A4A, 0xB0B0B0, 0x202020 } },
  [SW_ROLE_OPENING] = { "opening", { 0x8A8A8A, 0x8A8A8A, 0x606060 } },
  [SW_ROLE_DOWNSTAND] = { "downstand", { 0x8C8C86, 0x70706C, 0x909090 } },
  [SW_ROLE_WALL] = { "wall", { 0x3A3A3A, 0xCFCFCF, 0x000000 } },
  [SW_ROLE_SEPARATING_WALL] = { "separating-wall", { OI_VERMILLION, OI_VERMILLION, 0x000000 } },
  [SW_ROLE_BATTEN] = { "batten", { 0xB08D57, 0xB9976A, 0xA0A0A0 } },
  [SW_ROLE_BOARD_EDGE] = { "board-edge", { 0x8F7D5E, 0xA99570, 0x505050 } },
  [SW_ROLE_INSULATION] = { "insulation", { OI_YELLOW, 0xB5AB32, 0xB0B0B0 } },
  [SW_ROLE_LIGHT] = { "light", { OI_YELLOW, OI_YELLOW, 0xFFFFFF } },
  [SW_ROLE_HATCH] = { "hatch", { OI_BLUE, OI_SKY, 0x202020 } },
  [SW_ROLE_SLEEVE] = { "sleeve", { OI_GREEN, OI_GREEN, 0x202020 } },
  [SW_ROLE_FITTING] = { "fitting", { 0x333333, 0xD0D0D0, 0x000000 } },
  [SW_ROLE_UNDERLAY] = { "underlay", { 0xB5B5B5, 0x5A5A5A, 0xB0B0B0 } },
  [SW_ROLE_STOP] = { "stop", { OI_VERMILLION, OI_VERMILLION, 0x000000 } },
  [SW_ROLE_FIX] = { "fix", { OI_ORANGE, OI_ORANGE, 0x404040 } },
  [SW_ROLE_NOTE] = { "note", { OI_SKY, OI_SKY, 0x808080 } },
  [SW_ROLE_GOOD] = { "good", { OI_GREEN, OI_GREEN, 0x606060 } },
  [SW_ROLE_BAD] = { "bad", { OI_VERMILLION, OI_VERMILLION, 0x000000 } },
  [SW_ROLE_SELECTION] = { "selection", { OI_BLUE, OI_SKY, 0x000000 } },
  [SW_ROLE_HOVER] = { "hover", { OI_SKY, OI_BLUE, 0x606060 } },
  [SW_ROLE_DRAFT] = { "draft", { OI_PURPLE, OI_PURPLE, 0x404040 } },
  [SW_ROLE_SNAP] = { "snap", { OI_GREEN, OI_GREEN, 0x404040 } },
  [SW_ROLE_WASTE] = { "waste", { OI_PURPLE, OI_PURPLE, 0x000000 } },
  [SW_ROLE_COLD_WATER] = { "cold-water", { OI_BLUE, 0x2C8FCB, 0x000000 } },
  [SW_ROLE_HOT_WATER] = { "hot-water", { OI_VERMILLION, OI_VERMILLION, 0x000000 } },
  [SW_ROLE_POWER] = { "power", { OI_ORANGE, OI_ORANGE, 0x000000 } },
  [SW_ROLE_LIGHTING] = { "lighting", { OI_ORANGE, OI_ORANGE, 0x000000 } },
  [SW_ROLE_DATA] = { "data", { OI_GREEN, OI_GREEN, 0x000000 } },
  [SW_ROLE_FIRE_ALARM] = { "fire-alarm", { OI_VERMILLION, OI_VERMILLION, 0x000000 } },
  [SW_ROLE_GAS] = { "gas", { OI_BLACK, OI_YELLOW, 0x000000 } },
  [SW_ROLE_CONDENSATE] = { "condensate", { OI_SKY, OI_SKY, 0x000000 } },
  [SW_ROLE_REFRIGERANT] = { "refrigerant", { OI_GREEN, OI_GREEN, 0x000000 } },
  [SW_ROLE_RAINWATER] = { "rainwater", { OI_SKY, OI_SKY, 0x000000 } },
  [SW_ROLE_DUCT] = { "duct", { OI_BLACK, LIGHT_INK, 0x000000 } },
  [SW_ROLE_SPRINKLER] = { "sprinkler", { OI_BLUE, 0x2C8FCB, 0x000000 } },
};

static SwColour
colour_from_hex (guint32 hex)
{
  return (SwColour){ ((hex >> 16) & 255) / 255.0, ((hex >> 8) & 255) / 255.0, (hex & 255) / 255.0 };
}

const char *
sw_role_name (SwColourRole role)
{
  g_return_val_if_fail (role < SW_N_ROLES, "ink");
  return roles[role].name;
}

gboolean
sw_role_is_ground (SwColourRole role)
{
  return role < SW_N_ROLES && roles[role].ground;
}

SwColour
sw_palette_colour (SwTheme theme, SwColourRole role)
{
  g_return_val_if_fail (theme < SW_N_THEMES && role < SW_N_ROLES, ((SwColour){ 0, 0, 0 }));
  return colour_from_hex (roles[role].colours[theme]);
}

SwColour
sw_colour_mix (SwColour a, SwColour b, double t)
{
  return (SwColour){ a.r + (b.r - a.r) * t, a.g + (b.g - a.g) * t, a.b + (b.b - a.b) * t };
}

static double
channel_light (double v)
{
  return v <= 0.04045 ? v / 12.92 : pow ((v + 0.055) / 1.055, 2.4);
}

static double
luminance (SwColour c)
{
  return 0.2126 * channel_light (c.r) + 0.7152 * channel_light (c.g) + 0.0722 * channel_light (c.b);
}

static double
luminance_contrast (double a, double b)
{
  return (MAX (a, b) + 0.05) / (MIN (a, b) + 0.05);
}

double
sw_colour_contrast (SwColour a, SwColour b)
{
  return luminance_contrast (luminance (a), luminance (b));
}

/* The range of luminance of what the letters may stand on. */
static void
ground_luminance (SwTheme theme, SwColourRole on, double *low, double *high)
{
  *low = *high = luminance (sw_palette_colour (theme, on));
  for (guint role = 0; on == SW_ROLE_PAPER && role < SW_N_ROLES; role++)
    if (roles[role].ground)
      {
        double light = luminance (sw_palette_colour (theme, role));
        *low = MIN (*low, light);
        *high = MAX (*high, light);
      }
}

SwColour
sw_palette_text_colour (SwTheme theme, SwColourRole role, SwColourRole on)
{
  double low, high;
  ground_luminance (theme, on, &low, &high);
  SwColour colour = sw_palette_colour (theme, role), white = { 1, 1, 1 }, black = { 0, 0, 0 };
  gboolean lighter = luminance_contrast (1, high) > luminance_contrast (0, low);
  SwColour letters = colour;
  for (int step = 0; step <= 32; step++)
    {
      letters = sw_colour_mix (colour, lighter ? white : black, step / 32.0);
      double light = luminance (letters);
      gboolean outside = lighter ? light >= high : light <= low;
      if (outside && luminance_contrast (light, lighter ? high : low) >= SW_TEXT_CONTRAST)
        break;
    }
  return letters;
}
