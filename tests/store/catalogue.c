/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "space/section.h"
#include "store/catalogue.h"
#include "support.h"
#include <string.h>

/* Common practice: decks of this kind save 40 to 60 % of the concrete, gross, with sheet under 1 mm; both limits stand in the
 * rule set. The deep profile takes a 110 pipe with its 128 socket (from memory, waste.sockets) anywhere up to the crown. */
static void
test_profiles (void)
{
  GError *error = NULL;
  g_autoptr (SwJob) job = sw_catalogue_load (&error);
  g_assert_no_error (error);
  g_autoptr (SwRules) rules = sw_rules_load ("south-africa", NULL, &error);
  g_assert_no_error (error);
  double low = sw_rules_value (rules, "deck.defaults", "saving_low_percent").value / 100;
  double high = sw_rules_value (rules, "deck.defaults", "saving_high_percent").value / 100;
  double thickest = sw_rules_value (rules, "deck.defaults", "sheet_thickness_max_mm").value;
  g_assert_cmpuint (sw_job_count (job, SW_TABLE_PROFILE), ==, 3);
  for (guint i = 0; i < 3; i++)
    {
      const SwProfile *profile = (const SwProfile *) sw_job_nth (job, SW_TABLE_PROFILE, i);
      SwSection section = sw_section_of (profile, rules);
      g_assert_cmpfloat (section.saving, >, low);
      g_assert_cmpfloat (section.saving, <, high);
      g_assert_cmpfloat (profile->sheet, <, thickest);
    }
  const SwProfile *deep = (const SwProfile *) sw_job_find (job, "deep");
  SwRuleValue socket;
  g_assert_true (sw_rules_lookup (rules, "waste.sockets", "110", "socket_mm", &socket, NULL));
  g_assert_cmpfloat (deep->crown, >, socket.value);
  g_assert_cmpfloat (deep->depth, >, socket.value);
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/store/catalogue/profiles", test_profiles);
  return g_test_run ();
}
