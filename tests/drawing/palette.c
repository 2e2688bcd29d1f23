/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/pattern.h"
#include "support.h"
#include <string.h>

static SwColour
grey (int level)
{
  return (SwColour){ level / 255.0, level / 255.0, level / 255.0 };
}

/* Source: WCAG 2.1: black on white is 21:1; #767676 is the lightest grey that passes 4.5:1 on white (4.54), #777777
 * fails (4.48); red #FF0000 on white is 4.00 (widely published worked examples). */
static void
test_contrast_formula (void)
{
  sw_assert_near (sw_colour_contrast (grey (0), grey (255)), 21, 1e-9);
  sw_assert_near (sw_colour_contrast (grey (255), grey (255)), 1, 1e-9);
  sw_assert_near (sw_colour_contrast (grey (0x76), grey (255)), 4.54, 0.005);
  sw_assert_near (sw_colour_contrast (grey (255), grey (0x77)), 4.48, 0.005);
  sw_assert_near (sw_colour_contrast ((SwColour){ 1, 0, 0 }, grey (255)), 4.00, 0.005);
}

static void
test_text_contrast (void)
{
  for (int theme = 0; theme < SW_N_THEMES; theme++)
    for (int role = 0; role < SW_N_ROLES; role++)
      {
        SwColour letters = sw_palette_text_colour (theme, role, SW_ROLE_PAPER);
        for (int ground = 0; ground < SW_N_ROLES; ground++)
          {
            SwColour on = sw_palette_colour (theme, ground);
            if (sw_role_is_ground (ground))
              g_assert_cmpfloat (sw_colour_contrast (letters, on), >=, 4.5);
            g_assert_cmpfloat (sw_colour_contrast (sw_palette_text_colour (theme, role, ground), on), >=, 4.5);
          }
      }
}

/* Ink that can already be read is not touched. */
static void
test_text_keeps_ink (void)
{
  SwColour ink = sw_palette_colour (SW_THEME_LIGHT, SW_ROLE_INK);
  SwColour letters = sw_palette_text_colour (SW_THEME_LIGHT, SW_ROLE_INK, SW_ROLE_PAPER);
  g_assert_true (memcmp (&ink, &letters, sizeof ink) == 0);
}

static void
assert_hex (SwColourRole role, int r, int g, int b)
{
  SwColour c = sw_palette_colour (SW_THEME_LIGHT, role);
  sw_assert_near (c.r * 255, r, 0.01);
  sw_assert_near (c.g * 255, g, 0.01);
  sw_assert_near (c.b * 255, b, 0.01);
}

/* Source: Okabe and Ito, Color Universal Design (2008), table of eight colours in RGB 0–255. */
static void
test_published_set (void)
{
  assert_hex (SW_ROLE_POWER, 230, 159, 0);
  assert_hex (SW_ROLE_RAINWATER, 86, 180, 233);
  assert_hex (SW_ROLE_DATA, 0, 158, 115);
  assert_hex (SW_ROLE_LIGHT, 240, 228, 66);
  assert_hex (SW_ROLE_COLD_WATER, 0, 114, 178);
  assert_hex (SW_ROLE_STOP, 213, 94, 0);
  assert_hex (SW_ROLE_WASTE, 204, 121, 167);
  assert_hex (SW_ROLE_DUCT, 0, 0, 0);
}

static void
test_rows_are_whole (void)
{
  g_autoptr (GHashTable) names = g_hash_table_new (g_str_hash, g_str_equal);
  for (int role = 0; role < SW_N_ROLES; role++)
    {
      g_assert_nonnull (sw_role_name (role));
      g_assert_true (g_hash_table_add (names, (gpointer) sw_role_name (role)));
      SwColour mono = sw_palette_colour (SW_THEME_MONO, role);
      g_assert_true (mono.r == mono.g && mono.g == mono.b);
    }
  g_assert_cmpint (sw_service_line_role (SW_N_SERVICE_LINES - 1), ==, SW_N_ROLES - 1);
  g_assert_cmpint (sw_service_line_dash (SW_N_SERVICE_LINES - 1), ==, SW_N_DASHES - 1);
}

/* On a black-and-white print the pattern and the letters alone must tell services apart. */
static void
test_services_differ (void)
{
  for (int a = 0; a < SW_N_SERVICE_LINES; a++)
    {
      int na = 0;
      const double *pa = sw_dash_pattern (sw_service_line_dash (a), &na);
      g_assert_true (na >= 2 && na % 2 == 0);
      g_assert_cmpint (strlen (sw_service_line_code (a)), >=, 1);
      g_assert_cmpint (strlen (sw_service_line_code (a)), <=, 2);
      g_assert_cmpstr (sw_dash_name (sw_service_line_dash (a)), ==, sw_role_name (sw_service_line_role (a)));
      for (int b = 0; b < a; b++)
        {
          int nb = 0;
          const double *pb = sw_dash_pattern (sw_service_line_dash (b), &nb);
          double apart = na != nb ? 1 : 0;
          for (int i = 0; i < MIN (na, nb); i++)
            apart = MAX (apart, ABS (pa[i] - pb[i]));
          g_assert_cmpfloat (apart, >=, 0.5);
          g_assert_cmpstr (sw_service_line_code (a), !=, sw_service_line_code (b));
        }
    }
}

static void
test_hatchings (void)
{
  g_assert_null (sw_hatching_lines (SW_HATCHING_NONE));
  for (int h = 1; h < SW_N_HATCHINGS; h++)
    {
      const SwHatchingLines *lines = sw_hatching_lines (h);
      g_assert_nonnull (lines->name);
      g_assert_cmpfloat (lines->width, <, lines->spacing / 2);
      g_assert_cmpfloat (lines->on, <, lines->spacing);
    }
  /* Rooms whose tints all print white must differ by hatching. */
  for (int a = SW_ROLE_ROOM_1; a <= SW_ROLE_ROOM_6; a++)
    for (int b = SW_ROLE_ROOM_1; b < a; b++)
      g_assert_cmpint (sw_role_mono_hatching (a), !=, sw_role_mono_hatching (b));
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/drawing/palette/contrast-formula", test_contrast_formula);
  g_test_add_func ("/drawing/palette/text-contrast", test_text_contrast);
  g_test_add_func ("/drawing/palette/text-keeps-ink", test_text_keeps_ink);
  g_test_add_func ("/drawing/palette/published-set", test_published_set);
  g_test_add_func ("/drawing/palette/rows-are-whole", test_rows_are_whole);
  g_test_add_func ("/drawing/palette/services-differ", test_services_differ);
  g_test_add_func ("/drawing/palette/hatchings", test_hatchings);
  return g_test_run ();
}
