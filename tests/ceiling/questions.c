/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The ceiling's calculations by themselves, against worked examples. */
#include "ceiling/questions.h"
#include "support.h"
#include <math.h>
#include <string.h>

static const SwQuestion *
find (const char *id)
{
  for (guint i = 0; i < sw_ceiling_n_questions; i++)
    if (strcmp (sw_ceiling_questions[i].id, id) == 0)
      return &sw_ceiling_questions[i];
  return NULL;
}

/* "span=900 load=5" */
static SwWorking *
ask (const char *id, const char *given, GError **error)
{
  g_autoptr (SwRules) rules = sw_rules_load ("south-africa", NULL, error);
  g_autoptr (GHashTable) table = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  g_auto (GStrv) parts = g_strsplit (given, " ", -1);
  for (char **part = parts; *part != NULL; part++)
    {
      g_auto (GStrv) pair = g_strsplit (*part, "=", 2);
      g_hash_table_insert (table, g_strdup (pair[0]), g_strdup (pair[1]));
    }
  return sw_question_ask (find (id), rules, table, error);
}

static const struct
{
  const char *id, *given, *symbol;
  double value, tolerance;
  SwVerdict verdict;
} examples[] = {
  /* by hand: 38 × 38 softwood, E 7800, 480 kg/m3, 5 kg/m2 at 400: w .026420 N/mm; 900 long: 5wL⁴/384EI .1665
     mm, M 2675, .292 N/mm2 */
  { "batten-span", "span=900 load=5", "w", 0.026420, 5e-7, SW_VERDICT_GOOD },
  { "batten-span", "span=900 load=5", "δ", 0.1665, 5e-5, SW_VERDICT_GOOD },
  { "batten-span", "span=900 load=5", "M", 2675, 0.5, SW_VERDICT_GOOD },
  { "batten-span", "span=900 load=5", "σ", 0.292, 1e-3, SW_VERDICT_GOOD },
  /* 1200 long: .5263 mm; by sag L/360 gives 2220, but a South African general specification has 1000: the
     lesser holds */
  { "batten-span", "span=1200 load=5", "δ", 0.5263, 5e-5, SW_VERDICT_BAD },
  { "batten-span", "span=1200 load=5 face=skimmed", "L₁", 2220, 1, SW_VERDICT_BAD },
  { "batten-span", "span=1000 load=5", "Lmax", 1000, 0, SW_VERDICT_GOOD },
  { "batten-span", "span=1500 load=5 depth=50 table=fibre-cement", "Lmax", 1500, 0, SW_VERDICT_GOOD },
  /* by hand: a hat of 38 x 22 of .5 mm steel, .471 kg/m; I 5000 mm4 as entered, E 200000: w (5 .4 + .471) .00981 .02424 N/mm; 1000 long:
     5wL⁴/384EI .3156 mm; stress at most M 22/I 13.33 N/mm2, of 140/1.67 allowed; clips of furring at most 1200 apart */
  { "batten-span", "span=1000 load=5 depth=22 grade=steel inertia=5000", "m", 0.471, 1e-6, SW_VERDICT_GOOD },
  { "batten-span", "span=1000 load=5 depth=22 grade=steel inertia=5000", "w", 0.024241, 1e-6, SW_VERDICT_GOOD },
  { "batten-span", "span=1000 load=5 depth=22 grade=steel inertia=5000", "δ", 0.31563, 1e-4, SW_VERDICT_GOOD },
  { "batten-span", "span=1000 load=5 depth=22 grade=steel inertia=5000", "σ", 13.332, 1e-3, SW_VERDICT_GOOD },
  { "batten-span", "span=1000 load=5 depth=22 grade=steel inertia=5000", "f₁", 83.832, 1e-3, SW_VERDICT_GOOD },
  { "batten-span", "span=1300 load=5 depth=22 grade=steel inertia=5000", "Lmax", 1200, 0, SW_VERDICT_BAD },
  /* by hand: 10 kg/m2 at 400 on ribs of 600: 23.54 N, and a push of 100; designed for 150 (trade practice)
     with fourfold safety */
  { "batten-fixing", "load=10", "G", 23.54, 5e-3, SW_VERDICT_NONE },
  { "batten-fixing", "load=10", "N", 150, 0, SW_VERDICT_NONE },
  { "batten-fixing", "load=10", "F₀", 600, 0, SW_VERDICT_NONE },
  { "batten-fixing", "load=40", "N", 194.18, 5e-3, SW_VERDICT_NONE },
  /* EN 1995-1-1: screw 6 mm, 40 of thread, 350 kg/m3: 2866 N; smooth nail 3.1 mm, 30 deep: 228 N, too weak
     overhead */
  { "batten-fixing", "fixing=screw", "F", 2866, 1, SW_VERDICT_GOOD },
  { "batten-fixing", "fixing=nail diameter=3.1 length=30", "F", 228, 1, SW_VERDICT_BAD },
  { "batten-fixing", "hold=600", "F₁", 150, 0, SW_VERDICT_GOOD },
};

static void
test_examples (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (examples); i++)
    {
      GError *error = NULL;
      g_autoptr (SwWorking) working = ask (examples[i].id, examples[i].given, &error);
      g_assert_no_error (error);
      const SwWorkingLine *line = sw_working_find (working, examples[i].symbol);
      g_assert_nonnull (line);
      sw_assert_near (line->value, examples[i].value, examples[i].tolerance);
      g_assert_cmpint (working->verdict, ==, examples[i].verdict);
      g_assert_nonnull (sw_working_nth_answer (working, 0));
    }
}

static void
test_refused (void)
{
  GError *error = NULL;
  g_assert_null (ask ("batten-span", "load=5", &error));
  sw_assert_error (error, SW_ERROR_INVALID, "span");
  g_assert_null (ask ("batten-span", "span=900 grade=oak", &error));
  sw_assert_error (error, SW_ERROR_INVALID, "grade");
  g_assert_null (ask ("batten-span", "span=900 grade=steel", &error));
  sw_assert_error (error, SW_ERROR_INVALID, "second moment of area of the steel profile is not known");
  g_assert_null (ask ("batten-fixing", "fixing=screw diameter=4", &error));
  sw_assert_error (error, SW_ERROR_INVALID, "outside the formula");
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/ceiling/questions/examples", test_examples);
  g_test_add_func ("/ceiling/questions/refused", test_refused);
  return g_test_run ();
}
