/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/random.h"
#include "sheets/page_fields.h"
#include "support.h"
#include <math.h>

#define AT(array, i) g_array_index (array, double, i)

static GArray *
spans (const SwSpan *from, guint n)
{
  GArray *rooms = g_array_new (FALSE, FALSE, sizeof (SwSpan));
  g_array_append_vals (rooms, from, n);
  return rooms;
}

static guint
cut_by (const GArray *rooms, const GArray *fields)
{
  guint n = 0;
  for (guint i = 1; i + 1 < fields->len; i++)
    for (guint k = 0; k < rooms->len; k++)
      n += g_array_index (rooms, SwSpan, k).low < AT (fields, i) - 1 && g_array_index (rooms, SwSpan, k).high > AT (fields, i) + 1;
  return n;
}

static void
test_without_rooms (void)
{
  g_autoptr (GArray) none = spans (NULL, 0), one = sw_page_fields ((SwSpan){ 0, 9000 }, 9000, none);
  g_autoptr (GArray) three = sw_page_fields ((SwSpan){ -1000, 26000 }, 9000.5, none);
  g_assert_cmpuint (one->len, ==, 2);
  g_assert_cmpuint (three->len, ==, 4);
  for (guint i = 0; i < 4; i++)
    g_assert_cmpfloat_with_epsilon (AT (three, i), -1000 + i * 9000.0, 1e-9);
}

/* Eighteen rooms of 4 m with walls of 100 between them on pages of 15 m: three to a page, parted in the middle of a wall. */
static void
test_in_walls (void)
{
  g_autoptr (GArray) rooms = spans (NULL, 0);
  for (guint i = 0; i < 18; i++)
    {
      SwSpan room = { i * 4000 + 50, i * 4000 + 3950 };
      g_array_append_val (rooms, room);
    }
  g_autoptr (GArray) fields = sw_page_fields ((SwSpan){ 0, 72000 }, 15000, rooms);
  g_assert_cmpuint (fields->len, ==, 7);
  for (guint i = 0; i < 7; i++)
    g_assert_cmpfloat_with_epsilon (AT (fields, i), i * 12000.0, 1e-9);
}

/* A hall that no page holds is cut; the rooms beside it are not. */
static void
test_long_room (void)
{
  const SwSpan two[] = { { 0, 20000 }, { 20100, 27000 } };
  g_autoptr (GArray) rooms = spans (two, 2), fields = sw_page_fields ((SwSpan){ 0, 27000 }, 10000, rooms);
  g_assert_cmpuint (fields->len, ==, 4);
  g_assert_cmpfloat_with_epsilon (AT (fields, 2), 20000, 100);
  g_assert_cmpuint (cut_by (rooms, fields), ==, 1);
}

static void
test_random (void)
{
  SwRandom random = { 7 };
  guint saved = 0;
  for (guint round = 0; round < 300; round++)
    {
      double high = 5000 + sw_random_int (&random, 0, 60000), most = 6000 + sw_random_int (&random, 0, 9000);
      g_autoptr (GArray) rooms = spans (NULL, 0), none = spans (NULL, 0);
      for (guint i = 0; i < 12; i++)
        {
          double low = sw_random_int (&random, 0, (int) high);
          SwSpan room = { low, low + 500 + sw_random_int (&random, 0, 5000) };
          g_array_append_val (rooms, room);
        }
      g_autoptr (GArray) fields = sw_page_fields ((SwSpan){ 0, high }, most, rooms), even = sw_page_fields ((SwSpan){ 0, high }, most, none);
      g_assert_cmpuint (fields->len, >=, even->len);
      g_assert_cmpuint (fields->len, <=, even->len + 1);
      g_assert_cmpfloat (AT (fields, 0), ==, 0);
      g_assert_cmpfloat (AT (fields, fields->len - 1), ==, high);
      for (guint i = 0; i + 1 < fields->len; i++)
        {
          g_assert_cmpfloat (AT (fields, i + 1), >, AT (fields, i));
          g_assert_cmpfloat (AT (fields, i + 1) - AT (fields, i), <=, most + 0.01);
        }
      g_assert_cmpuint (cut_by (rooms, fields), <=, cut_by (rooms, even));
      saved += cut_by (rooms, even) - cut_by (rooms, fields);
    }
  g_assert_cmpuint (saved, >, 300);
}

/* A hundred pages in a row are enough: then they hold more than there is room for, and the plan is cut off at their edges. */
static void
test_most (void)
{
  g_autoptr (GArray) none = spans (NULL, 0), fields = sw_page_fields ((SwSpan){ 0, 1e6 }, 1000, none);
  g_assert_cmpuint (fields->len, ==, 101);
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/page-fields/without-rooms", test_without_rooms);
  g_test_add_func ("/page-fields/in-walls", test_in_walls);
  g_test_add_func ("/page-fields/long-room", test_long_room);
  g_test_add_func ("/page-fields/random", test_random);
  g_test_add_func ("/page-fields/most", test_most);
  return g_test_run ();
}
