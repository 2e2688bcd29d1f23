/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/length.h"
#include "base/random.h"
#include "support.h"
#include <math.h>
#include <string.h>

/* Worked by hand from 1 in = 25.4 mm and 1 ft = 304.8 mm exactly (international yard and pound agreement, 1959; NIST Handbook 44,
 * appendix C). 1234 mm = 48.5827 in = 4 ft + 0.5827 in, and 0.5827 · 16 = 9.32. Dressed timber of nominal 2 × 4 in is 38 × 89 mm. */
static void
test_write (void)
{
  static const struct { double mm; const char *unit_mm, *feet, *dim; } cases[] = {
    { 1234, "1234 mm", "4' 0 9/16\"", "4'-0 9/16\"" }, { -1234, "-1234 mm", "-4' 0 9/16\"", "-4'-0 9/16\"" },
    { 0, "0 mm", "0\"", "0\"" },                       { 0.4, "0 mm", "0\"", "0\"" },
    { -0.4, "0 mm", "0\"", "0\"" },                    { 25.4, "25 mm", "1\"", "1\"" },
    { 12.7, "13 mm", "1/2\"", "1/2\"" },               { 38, "38 mm", "1 1/2\"", "1 1/2\"" },
    { 89, "89 mm", "3 1/2\"", "3 1/2\"" },             { 304.8, "305 mm", "1' 0\"", "1'-0\"" },
    { 304.2, "304 mm", "1' 0\"", "1'-0\"" },           { 303.9, "304 mm", "11 15/16\"", "11 15/16\"" },
    { 609.2, "609 mm", "2' 0\"", "2'-0\"" },           { 2438.4, "2438 mm", "8' 0\"", "8'-0\"" },
    { 1219.2 + 19.05, "1238 mm", "4' 0 3/4\"", "4'-0 3/4\"" }, { 1e7, "10000000 mm", "32808' 4 13/16\"", "32808'-4 13/16\"" },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      char buf[SW_LENGTH_BUF];
      g_assert_cmpstr (sw_length_write (cases[i].mm, SW_LENGTHS_MM, SW_LENGTH_UNIT, 0, buf), ==, cases[i].unit_mm);
      g_assert_cmpstr (sw_length_write (cases[i].mm, SW_LENGTHS_FT_IN, SW_LENGTH_UNIT, 0, buf), ==, cases[i].feet);
      g_assert_cmpstr (sw_length_write (cases[i].mm, SW_LENGTHS_FT_IN, SW_LENGTH_BARE, 2, buf), ==, cases[i].feet);
      g_assert_cmpstr (sw_length_write (cases[i].mm, SW_LENGTHS_FT_IN, SW_LENGTH_DIM, 0, buf), ==, cases[i].dim);
    }
  char buf[SW_LENGTH_BUF];
  g_assert_cmpstr (sw_length_write (1234.56, SW_LENGTHS_MM, SW_LENGTH_BARE, 1, buf), ==, "1234.6");
  g_assert_cmpstr (sw_length_write (1234.56, SW_LENGTHS_MM, SW_LENGTH_DIM, 0, buf), ==, "1235");
}

/* A square foot is 0.09290304 m²; 100 ft are 30.48 m. */
static void
test_sums (void)
{
  char buf[SW_LENGTH_BUF];
  g_assert_cmpstr (sw_length_write_sum (30480, SW_LENGTHS_MM, 1, buf), ==, "30.5 m");
  g_assert_cmpstr (sw_length_write_sum (30480, SW_LENGTHS_FT_IN, 1, buf), ==, "100.0 ft");
  g_assert_cmpstr (sw_area_write (9290304, SW_LENGTHS_MM, 2, buf), ==, "9.29 m²");
  g_assert_cmpstr (sw_area_write (9290304, SW_LENGTHS_FT_IN, 2, buf), ==, "100.0 ft²");
  g_assert_cmpstr (sw_length_write_far (1840, SW_LENGTHS_MM, 2, buf), ==, "1.84 m");
  g_assert_cmpstr (sw_length_write_far (1840, SW_LENGTHS_FT_IN, 2, buf), ==, "6' 0 7/16\"");
  g_assert_cmpstr (sw_length_write_fine (9.6, SW_LENGTHS_MM, buf), ==, "9.6 mm");
  g_assert_cmpstr (sw_length_write_fine (10, SW_LENGTHS_MM, buf), ==, "10 mm");
  g_assert_cmpstr (sw_length_write_fine (9.6, SW_LENGTHS_FT_IN, buf), ==, "0.378\"");
  sw_assert_near (sw_length_up (12.1, SW_LENGTHS_MM), 13, 1e-9);
  sw_assert_near (sw_length_up (12.01, SW_LENGTHS_MM), 12, 1e-9);
  sw_assert_near (sw_length_up (12, SW_LENGTHS_FT_IN), 12.7, 1e-9); /* 7.56 sixteenths: half an inch */
  sw_assert_near (sw_length_up (12.71, SW_LENGTHS_FT_IN), 12.7, 1e-9);
  sw_assert_near (sw_length_up (-3, SW_LENGTHS_MM), -3, 1e-9);
  sw_assert_near (sw_length_down (622.9, SW_LENGTHS_MM), 622, 1e-9);
  sw_assert_near (sw_length_down (621.99, SW_LENGTHS_MM), 622, 1e-9);
  sw_assert_near (sw_length_down (622, SW_LENGTHS_FT_IN), 391 * 25.4 / 16, 1e-9); /* 391.8 sixteenths */
  sw_assert_near (sw_length_down (1219.19, SW_LENGTHS_FT_IN), 1219.2, 1e-9);
}

static void
test_read (void)
{
  static const struct { const char *text; double mm, in; } good[] = {
    { "1200+450/2", 1425, 1425 * 25.4 },      { "1.2 m + 3 cm", 1230, 1230 },         { "(600 - 38) * 2", 1124, 1124 * 25.4 },
    { "1,5m", 1500, 1500 },                   { "-20", -20, -508 },                   { "3' + 2\"", 965.2, 965.2 },
    { " 12 in", 304.8, 304.8 },               { "3' 4 1/2\"", 1028.7, 1028.7 },       { "40 1/2\"", 1028.7, 1028.7 },
    { "3'4\"+2\"", 1066.8, 1066.8 },          { "1.2 m", 1200, 1200 },                { "40 1/2", 40.5, 1028.7 },
    { "40", 40, 1016 },                       { "3'4", 1016, 1016 },                  { "4'-0 9/16\"", 1233.4875, 1233.4875 },
    { "4'-6\"", 1371.6, 1371.6 },             { "4' - 6\"", 1066.8, 1066.8 },         { "-4'-6\"", -1371.6, -1371.6 },
    { "9/16\"", 14.2875, 14.2875 },           { "3 ft 4 1/2 in", 1028.7, 1028.7 },    { "3' * 2", 1828.8, 1828.8 },
    { "2*3'", 1828.8, 1828.8 },               { "3'/2", 457.2, 457.2 },               { "10' / 2' * 3\"", 381, 381 },
    { "3' + 6", 920.4, 1066.8 },              { "6 - 1/2\"", 6 - 12.7, 139.7 },       { "450/2 mm", 225, 225 },
    { "4' 0 9/16\"", 1233.4875, 1233.4875 },  { "3′ 4″", 1016, 1016 },                { "3’ 4”", 1016, 1016 },
    { "1' 0\" - 38 mm", 266.8, 266.8 },       { "50-30/2", 35, 889 },                 { "6-1/2", 5.5, NAN },
    { "(4'+2\")*2", 2540, 2540 },             { "(3 + 1)'", 1219.2, 1219.2 },         { "0\"", 0, 0 },
    { "4'1/2\"", 1231.9, 1231.9 },            { "4' + 1' 6\"", 1676.4, 1676.4 },      { "4' 6 - 2", 1369.6, 1320.8 },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (good); i++)
    for (SwLengths in = SW_LENGTHS_MM; in < SW_N_LENGTHS; in++)
      {
        double mm = 0, wanted = in == SW_LENGTHS_MM ? good[i].mm : good[i].in;
        GError *error = NULL;
        gboolean read = sw_length_read (good[i].text, in, &mm, &error);
        if (isnan (wanted))
          {
            g_assert_false (read);
            sw_assert_error (error, SW_ERROR_INVALID, "two ways");
            continue;
          }
        g_assert_no_error (error);
        if (fabs (mm - wanted) > 1e-9)
          g_error ("%s: %g, not %g", good[i].text, mm, wanted);
      }
}

static void
test_refuse (void)
{
  static const struct { const char *text, *what; } bad[] = {
    { "", "missing" },          { "12 +", "missing" },     { "(3", "bracket" },        { "1/0", "zero" },           { "abc", "missing" },
    { "1..2", "missing" },      { "--", "missing" },       { "1e5", "follows" },       { "))", "missing" },         { "1200 mmm", "follows" },
    { "2 ft 1", "follows" },    { "6-1/2\"", "two ways" }, { "4'-6-1/2\"", "two ways" }, { "3' * 2'", "times" },    { "2 / (3')", "divided" },
    { "1/0\"", "zero" },        { "3' 1/0\"", "zero" },    { "4 1/2 1/2\"", "follows" }, { "3'4 mm", "follows" },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++)
    for (SwLengths in = SW_LENGTHS_MM; in < SW_N_LENGTHS; in++)
      {
        double mm = 0;
        GError *error = NULL;
        if (sw_length_read (bad[i].text, in, &mm, &error))
          g_error ("%s was read as %g", bad[i].text, mm);
        sw_assert_error (error, SW_ERROR_INVALID, bad[i].what);
      }
  char deep[400];
  memset (deep, '(', sizeof deep - 1);
  deep[sizeof deep - 1] = '\0';
  double mm;
  g_assert_false (sw_length_read (deep, SW_LENGTHS_MM, &mm, NULL));
  memset (deep, '\'', sizeof deep - 1);
  g_assert_false (sw_length_read (deep, SW_LENGTHS_MM, &mm, NULL));
}

/* What is written reads back in every style, to half a sixteenth. */
static void
test_back (void)
{
  SwRandom random = { 11 };
  for (int i = 0; i < sw_test_rounds (20000); i++)
    {
      double mm = sw_random_double (&random, -1, 1) * pow (10, sw_random_int (&random, 0, 7)), back;
      for (SwLengthStyle style = SW_LENGTH_UNIT; style <= SW_LENGTH_DIM; style++)
        {
          char buf[SW_LENGTH_BUF];
          g_assert_true (sw_length_read (sw_length_write (mm, SW_LENGTHS_FT_IN, style, 0, buf), SW_LENGTHS_FT_IN, &back, NULL));
          sw_assert_near (back, mm, 25.4 / 32 + 1e-6);
          g_assert_true (sw_length_read (sw_length_write (mm, SW_LENGTHS_MM, style, 2, buf), SW_LENGTHS_MM, &back, NULL));
          sw_assert_near (back, mm, 0.005 + 1e-6);
        }
    }
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/base/length/write", test_write);
  g_test_add_func ("/base/length/sums", test_sums);
  g_test_add_func ("/base/length/read", test_read);
  g_test_add_func ("/base/length/refuse", test_refuse);
  g_test_add_func ("/base/length/back", test_back);
  return g_test_run ();
}
