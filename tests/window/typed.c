/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support.h"
#include "window/tools/typed.h"

static void
type (SwTyped *typed, const char *text)
{
  for (; *text != 0; text++)
    g_assert_true (sw_typed_add (typed, (gunichar) *text));
}

static void
test_begins_with_a_number (void)
{
  SwTyped typed = { 0 };
  sw_typed_clear (&typed);
  g_assert_false (sw_typed_add (&typed, '5')); /* nothing is offered */
  sw_typed_offer (&typed, SW_TYPED_POLAR);
  g_assert_false (sw_typed_add (&typed, 'm'));
  g_assert_false (sw_typed_add (&typed, 'x'));
  type (&typed, "12 m");
  g_assert_cmpint (typed.active, ==, SW_TYPED_LENGTH);
  g_assert_false (sw_typed_add (&typed, 'x'));
  g_assert_false (sw_typed_add (&typed, 0x00e9));
}

static void
test_length_goes_towards_the_pointer (void)
{
  SwTyped typed = { 0 };
  SwPoint anchor = { 1000, 2000 };
  sw_typed_clear (&typed);
  sw_typed_offer (&typed, SW_TYPED_POLAR);
  type (&typed, "1200+450/2");
  /* A 3-4-5 triangle: the pointer lies at 3/5 and 4/5. */
  SwPoint at = sw_typed_resolve (&typed, (SwPoint){ 1000 + 30, 2000 + 40 }, &anchor);
  sw_assert_near (at.x, 1000 + 1425 * 0.6, 1e-9);
  sw_assert_near (at.y, 2000 + 1425 * 0.8, 1e-9);
  /* Without a direction it goes along x. */
  at = sw_typed_resolve (&typed, anchor, &anchor);
  sw_assert_near (at.x, 2425, 1e-9);
  sw_assert_near (at.y, 2000, 1e-9);
}

static void
test_tab_goes_on (void)
{
  SwTyped typed = { 0 };
  SwPoint anchor = { 0, 0 };
  sw_typed_clear (&typed);
  sw_typed_offer (&typed, SW_TYPED_POLAR | SW_TYPED_PLACE);
  type (&typed, "2000");
  g_assert_true (sw_typed_next (&typed, FALSE));
  g_assert_cmpint (typed.active, ==, SW_TYPED_ANGLE);
  type (&typed, "90");
  SwPoint at = sw_typed_resolve (&typed, (SwPoint){ 500, 10 }, &anchor);
  sw_assert_near (at.x, 0, 1e-9);
  sw_assert_near (at.y, 2000, 1e-9);
  sw_typed_next (&typed, FALSE);
  g_assert_cmpint (typed.active, ==, SW_TYPED_X);
  sw_typed_next (&typed, FALSE);
  sw_typed_next (&typed, FALSE);
  g_assert_cmpint (typed.active, ==, SW_TYPED_LENGTH);
  sw_typed_next (&typed, TRUE);
  g_assert_cmpint (typed.active, ==, SW_TYPED_Y);
}

static void
test_angle_alone_lets_the_pointer_choose_the_length (void)
{
  SwTyped typed = { 0 };
  SwPoint anchor = { 0, 0 };
  sw_typed_clear (&typed);
  sw_typed_offer (&typed, SW_TYPED_POLAR);
  sw_typed_next (&typed, FALSE);
  sw_typed_next (&typed, FALSE);
  type (&typed, "45");
  SwPoint at = sw_typed_resolve (&typed, (SwPoint){ 1000, 0 }, &anchor);
  sw_assert_near (at.x, 500, 1e-9);
  sw_assert_near (at.y, 500, 1e-9);
  at = sw_typed_resolve (&typed, (SwPoint){ -1000, 0 }, &anchor);
  sw_assert_near (sw_point_length (at), 0, 1e-9);
}

static void
test_sides_keep_to_the_pointers_side (void)
{
  SwTyped typed = { 0 };
  SwPoint anchor = { 1000, 1000 };
  sw_typed_clear (&typed);
  sw_typed_offer (&typed, SW_TYPED_SIDES);
  type (&typed, "4200");
  sw_typed_next (&typed, FALSE);
  type (&typed, "3 m");
  SwPoint at = sw_typed_resolve (&typed, (SwPoint){ 5, 2000 }, &anchor);
  sw_assert_near (at.x, -3200, 1e-9);
  sw_assert_near (at.y, 4000, 1e-9);
}

static void
test_erasing_and_faults (void)
{
  SwTyped typed = { 0 };
  sw_typed_clear (&typed);
  sw_typed_offer (&typed, SW_TYPED_PLACE);
  g_assert_false (sw_typed_erase (&typed));
  type (&typed, "12+");
  g_assert_cmpint (sw_typed_fault (&typed), ==, SW_TYPED_X);
  /* What cannot be read does not move the place. */
  SwPoint at = sw_typed_resolve (&typed, (SwPoint){ 7, 8 }, NULL);
  sw_assert_near (at.x, 7, 0);
  g_assert_true (sw_typed_erase (&typed));
  g_assert_cmpint (sw_typed_fault (&typed), ==, -1);
  at = sw_typed_resolve (&typed, (SwPoint){ 7, 8 }, NULL);
  sw_assert_near (at.x, 12, 0);
  sw_typed_erase (&typed);
  sw_typed_erase (&typed);
  g_assert_true (sw_typed_is_empty (&typed));
  g_assert_cmpint (typed.active, ==, -1);
  /* Another offer drops what is typed in fields that are gone. */
  type (&typed, "5");
  sw_typed_offer (&typed, SW_TYPED_POLAR);
  g_assert_true (sw_typed_is_empty (&typed));
}

static void
test_long_text_is_cut_off (void)
{
  SwTyped typed = { 0 };
  double value;
  sw_typed_clear (&typed);
  sw_typed_offer (&typed, SW_TYPED_PLACE);
  for (int i = 0; i < 500; i++)
    sw_typed_add (&typed, '1');
  g_assert_cmpuint (strlen (typed.text[SW_TYPED_X]), ==, sizeof typed.text[0] - 1);
  sw_typed_value (&typed, SW_TYPED_X, &value, NULL);
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/window/typed/begins-with-a-number", test_begins_with_a_number);
  g_test_add_func ("/window/typed/length", test_length_goes_towards_the_pointer);
  g_test_add_func ("/window/typed/tab", test_tab_goes_on);
  g_test_add_func ("/window/typed/angle-alone", test_angle_alone_lets_the_pointer_choose_the_length);
  g_test_add_func ("/window/typed/sides", test_sides_keep_to_the_pointers_side);
  g_test_add_func ("/window/typed/erasing-and-faults", test_erasing_and_faults);
  g_test_add_func ("/window/typed/long-text", test_long_text_is_cut_off);
  return g_test_run ();
}
