/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sheets/calculations.h"
#include "support.h"
#include <string.h>

/* Each can be found by its id, which no other has, and says what it wants; those of every trade are there. */
static void
test_list (void)
{
  static const char *const ids[] = { "drill-strip", "fall-run", "conduit-size", "batten-span", "batten-fixing" };
  for (guint i = 0; i < sw_calculations_n (); i++)
    {
      const SwQuestion *question = sw_calculations_get (i);
      g_assert_true (sw_calculations_find (question->id) == question);
      g_assert_cmpuint (question->n_inputs, >, 0);
      g_assert_true (*question->title != '\0' && *question->description != '\0');
      for (guint other = 0; other < i; other++)
        g_assert_true (sw_calculations_get (other) != question);
      for (guint k = 0; k < question->n_inputs; k++)
        for (guint other = 0; other < k; other++)
          g_assert_cmpstr (question->inputs[k].key, !=, question->inputs[other].key);
    }
  for (gsize i = 0; i < G_N_ELEMENTS (ids); i++)
    g_assert_nonnull (sw_calculations_find (ids[i]));
  g_assert_null (sw_calculations_find ("no-such"));
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/sheets/calculations/list", test_list);
  return g_test_run ();
}
