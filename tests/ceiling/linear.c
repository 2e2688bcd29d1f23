/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/linear_cut.h"
#include "base/random.h"
#include "ceiling/glpk_lp.h"
#include "support.h"
#include <math.h>
#include <string.h>

static SwLinearPlan *
cut (const SwLinearItem *items, guint n, const SwLinearStock *stock, guint n_stock, const SwLinearOptions *options)
{
  GError *error = NULL;
  SwLinearPlan *plan = sw_linear_cut (items, n, stock, n_stock, options, NULL, &error);
  g_assert_no_error (error);
  g_assert_nonnull (plan);
  sw_linear_plan_check (plan, items, n, stock, n_stock, options, &error);
  g_assert_no_error (error);
  return plan;
}

/* Derived by hand: 12 of 2,350 and 8 of 1,750 from 6,000 with a 3 mm kerf: 8 bars, and 42,200 / 6,000 needs 8. */
static void
test_example (void)
{
  SwLinearItem items[] = { { 2350, 12 }, { 1750, 8 } };
  SwLinearStock stock = { 6000, 1, 0 };
  SwLinearOptions options = { .kerf = 3 };
  g_autoptr (SwLinearPlan) plan = cut (items, 2, &stock, 1, &options);
  g_assert_cmpint (plan->n_bars, ==, 8);
  g_assert_cmpint (plan->bound, ==, 8);
  g_assert_true (plan->proven);
}

/* 1,500 + 1,500 fill 3,000 only when a cut takes nothing. */
static void
test_kerf_and_trim (void)
{
  SwLinearItem item = { 1500, 10 };
  SwLinearStock stock = { 3000, 1, 0 };
  SwLinearOptions none = { 0 }, kerf = { .kerf = 1 }, trim = { .trim = 1 };
  g_autoptr (SwLinearPlan) tight = cut (&item, 1, &stock, 1, &none);
  g_autoptr (SwLinearPlan) sawn = cut (&item, 1, &stock, 1, &kerf);
  g_autoptr (SwLinearPlan) trimmed = cut (&item, 1, &stock, 1, &trim);
  g_assert_cmpint (tight->n_bars, ==, 5);
  g_assert_cmpint (sawn->n_bars, ==, 10);
  g_assert_cmpint (trimmed->n_bars, ==, 10);
}

static void
test_errors (void)
{
  GError *error = NULL;
  SwLinearItem items[] = { { 2000, 3 }, { 6100, 1 } };
  SwLinearStock stock = { 6000, 0, 0 }, one = { 6000, 0, 1 }, bad = { -1, 0, 0 };
  g_assert_null (sw_linear_cut (items, 2, &stock, 1, NULL, NULL, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "piece 2 of 6100");
  items[0].copies = 4;
  g_assert_null (sw_linear_cut (items, 1, &one, 1, NULL, NULL, &error));
  sw_assert_error (error, SW_ERROR_LIMIT, "add stock");
  g_assert_null (sw_linear_cut (items, 1, &bad, 1, NULL, NULL, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "stock length 1");
  g_autoptr (SwLinearPlan) empty = cut (NULL, 0, &stock, 1, NULL);
  g_assert_cmpint (empty->n_bars, ==, 0);
  g_assert_true (empty->proven);
}

static void
test_cancelled (void)
{
  GError *error = NULL;
  SwLinearItem items[] = { { 2350, 12 }, { 1750, 8 } };
  SwLinearStock stock = { 6000, 1, 0 };
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_cancellable_cancel (cancellable);
  /* The greedy plan is there before the first look at the cancellable. */
  g_autoptr (SwLinearPlan) plan = sw_linear_cut (items, 2, &stock, 1, NULL, cancellable, &error);
  g_assert_no_error (error);
  g_assert_nonnull (plan);
  sw_linear_plan_check (plan, items, 2, &stock, 1, NULL, &error);
  g_assert_no_error (error);
}

/* ---- against an exhaustive search ---- */

typedef struct
{
  gint64 length[12];
  guint n;
  const SwLinearStock *stock;
  guint n_stock;
  gint64 kerf, best;
} Brute;

/* Puts piece i into each open bar, or opens each size: every way there is. */
static void
brute (Brute *b, guint i, gint64 *rest, guint *size, guint bars, gint64 cost)
{
  if (cost >= b->best)
    return;
  if (i == b->n)
    {
      b->best = cost;
      return;
    }
  for (guint k = 0; k < bars; k++)
    if (rest[k] >= b->length[i] + b->kerf)
      {
        rest[k] -= b->length[i] + b->kerf;
        brute (b, i + 1, rest, size, bars, cost);
        rest[k] += b->length[i] + b->kerf;
      }
  for (guint s = 0; s < b->n_stock; s++)
    {
      int used = 0;
      for (guint k = 0; k < bars; k++)
        used += size[k] == s;
      if (b->length[i] > b->stock[s].length || (b->stock[s].copies > 0 && used >= b->stock[s].copies))
        continue;
      rest[bars] = b->stock[s].length + b->kerf - b->length[i] - b->kerf;
      size[bars] = s;
      brute (b, i + 1, rest, size, bars + 1, cost + b->stock[s].cost);
    }
}

static void
test_against_brute (void)
{
  SwRandom random = { 11 };
  for (int round = 0; round < sw_test_rounds (300); round++)
    {
      SwLinearItem items[8];
      SwLinearStock stock[3];
      guint n_items = 0, n_stock = sw_random_int (&random, 1, 3);
      Brute b = { .stock = stock, .n_stock = n_stock, .kerf = sw_random_int (&random, 0, 2), .best = G_MAXINT64 };
      for (guint s = 0; s < n_stock; s++)
        stock[s] = (SwLinearStock){ sw_random_int (&random, 15, 40), sw_random_int (&random, 8, 30),
                                    s > 0 && round % 3 == 0 ? sw_random_int (&random, 1, 2) : 0 };
      while (b.n < 7)
        {
          SwLinearItem item = { sw_random_int (&random, 3, 15), sw_random_int (&random, 1, 3) };
          for (int k = 0; k < item.copies; k++)
            b.length[b.n++] = item.length;
          items[n_items++] = item;
        }
      gint64 rest[12];
      guint size[12];
      brute (&b, 0, rest, size, 0, 0);
      SwLinearOptions options = { .kerf = b.kerf };
      g_autoptr (SwLinearPlan) plan = cut (items, n_items, stock, n_stock, &options);
      g_assert_cmpint (plan->cost, ==, b.best);
      g_assert_cmpint (plan->bound, <=, b.best);
      g_assert_true (plan->proven);
    }
}

/* 25.94 m are cut. What 160 and 210 add up to between 840 and 900 is 850 (25.2 m), 840 (24 m) and 800 (24 m), all too short:
 * 900 is the least, proven by the sums. */
static void
test_costs_that_add_up (void)
{
  static const SwLinearItem items[] = { { 2350, 8 }, { 1190, 6 } };
  static const SwLinearStock stock[] = { { 6000, 210, 0 }, { 4800, 160, 0 } };
  g_autoptr (SwLinearPlan) plan = cut (items, G_N_ELEMENTS (items), stock, G_N_ELEMENTS (stock), NULL);
  g_assert_cmpint (plan->cost, ==, 900);
  g_assert_cmpint (plan->bound, ==, 900);
  g_assert_true (plan->proven);
}

/* ---- public instances ---- */

typedef struct
{
  char *name;
  gint64 capacity;
  GArray *items; /* SwLinearItem */
  int best;
} Instance;

static void
clear_instance (gpointer data)
{
  g_free (((Instance *) data)->name);
  g_array_unref (((Instance *) data)->items);
}

static GArray *
read_packing (const char *path)
{
  g_autofree char *text = NULL;
  GArray *instances = g_array_new (FALSE, FALSE, sizeof (Instance));
  g_array_set_clear_func (instances, clear_instance);
  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  g_auto (GStrv) words = g_strsplit_set (text, " \n\r\t", -1);
  g_autoptr (GPtrArray) w = g_ptr_array_new ();
  for (char **word = words; *word; word++)
    if (**word)
      g_ptr_array_add (w, *word);
  int count = atoi (w->pdata[0]);
  for (guint at = 1; count-- > 0;)
    {
      Instance instance = { g_strdup (w->pdata[at]), atoi (w->pdata[at + 1]),
                            g_array_new (FALSE, FALSE, sizeof (SwLinearItem)), atoi (w->pdata[at + 3]) };
      int n = atoi (w->pdata[at + 2]);
      at += 4;
      for (int i = 0; i < n; i++)
        {
          SwLinearItem item = { atoi (w->pdata[at++]), 1 };
          g_array_append_val (instance.items, item);
        }
      g_array_append_val (instances, instance);
    }
  return instances;
}

/* Four values of these files are one too high (proven elsewhere by two independent ways, and here again). */
static int
true_best (const Instance *instance)
{
  static const char *high[] = { "u120_08", "u120_19", "u250_07", "u250_12" };
  for (gsize i = 0; i < G_N_ELEMENTS (high); i++)
    if (strcmp (instance->name, high[i]) == 0)
      return instance->best - 1;
  return instance->best;
}

static void
solve_file (const char *path, guint every)
{
  g_autoptr (GArray) instances = read_packing (path);
  for (guint i = 0; i < (guint) sw_test_rounds ((int) instances->len); i += every)
    {
      const Instance *instance = &g_array_index (instances, Instance, i);
      SwLinearStock stock = { instance->capacity, 1, 0 };
      g_autoptr (SwLinearPlan) plan = cut ((SwLinearItem *) instance->items->data, instance->items->len, &stock, 1, NULL);
      g_assert_cmpint (plan->n_bars, ==, true_best (instance));
      g_assert_true (plan->proven);
    }
}

/* The published bin-packing sets u120, u250, u500 (uniform). Every fifth here; all of them in the benchmark. */
static void
test_public (void)
{
  static const char *files[] = { "cutting1d/binpack1.txt", "cutting1d/binpack2.txt", "cutting1d/binpack3.txt" };
  for (gsize f = 0; f < G_N_ELEMENTS (files); f++)
    {
      g_autofree char *path = sw_test_reference_path (files[f]);
      if (path == NULL)
        return;
      solve_file (path, 5);
    }
}

/* Random triplets without waste, as the published t120: n/3 bars by construction, hard for greedy rules. */
static void
test_triplets (void)
{
  SwRandom random = { 5 };
  for (int round = 0; round < sw_test_rounds (5); round++)
    {
      SwLinearItem items[120];
      SwLinearStock stock = { 1000, 1, 0 };
      for (guint i = 0; i < 120; i += 3)
        {
          int a = sw_random_int (&random, 380, 490), b = sw_random_int (&random, 250, (1000 - a) / 2);
          items[i] = (SwLinearItem){ a, 1 };
          items[i + 1] = (SwLinearItem){ b, 1 };
          items[i + 2] = (SwLinearItem){ 1000 - a - b, 1 };
        }
      g_autoptr (SwLinearPlan) plan = cut (items, 120, &stock, 1, NULL);
      g_assert_cmpint (plan->n_bars, ==, 40);
      g_assert_true (plan->proven);
    }
}


/* The same input gives the same plan, byte for byte. */
static void
test_same_twice (void)
{
  SwLinearItem items[] = { { 2411, 7 }, { 1787, 9 }, { 1213, 11 }, { 811, 5 }, { 457, 13 } };
  SwLinearStock stock[] = { { 6000, 0, 0 }, { 4800, 0, 0 }, { 3300, 0, 4 } };
  SwLinearOptions options = { .kerf = 3 };
  g_autoptr (SwLinearPlan) first = cut (items, 5, stock, 3, &options);
  g_autoptr (SwLinearPlan) second = cut (items, 5, stock, 3, &options);
  g_assert_cmpuint (first->parts->len, ==, second->parts->len);
  g_assert_cmpmem (first->bars->data, first->bars->len * sizeof (SwLinearBar), second->bars->data,
                   second->bars->len * sizeof (SwLinearBar));
  g_assert_cmpmem (first->parts->data, first->parts->len * sizeof (SwLinearPart), second->parts->data,
                   second->parts->len * sizeof (SwLinearPart));
}

/* ---- the wrapper ---- */

/* What GLPK would take for a solution, or abort the program for, is an error here. */
static void
test_wrapper (void)
{
  GError *error = NULL;
  double good[] = { 1, 2 }, bad[] = { 1, NAN };
  SwLp *lp = sw_lp_new (2, 2, &error);
  g_assert_no_error (error);
  g_assert_false (sw_lp_add_column (lp, 1, bad, &error));
  sw_assert_error (error, SW_ERROR_INTERNAL, "not a number");
  g_assert_true (sw_lp_add_column (lp, 1, good, &error));
  g_assert_true (sw_lp_set_row (lp, 0, 3, &error));
  g_assert_true (sw_lp_set_row (lp, 1, 4, &error));
  g_assert_true (sw_lp_solve (lp, &error));
  sw_assert_near (sw_lp_value (lp), 3, 1e-9);
  sw_assert_near (sw_lp_dual (lp, 0), 1, 1e-9);
  g_assert_false (sw_lp_open_column (lp, 99, FALSE, &error)); /* no such column: the solver aborts */
  sw_assert_error (error, SW_ERROR_INTERNAL, "gave up");
  g_assert_false (sw_lp_solve (lp, &error));
  sw_assert_error (error, SW_ERROR_INTERNAL, "failed before");
  sw_lp_free (lp);
  g_autoptr (SwLp) next = sw_lp_new (1, 1, &error);
  g_assert_no_error (error);
  g_assert_true (sw_lp_set_row (next, 0, 1, &error));
  g_assert_false (sw_lp_solve (next, &error)); /* no column covers the row */
  sw_assert_error (error, SW_ERROR_NOT_FOUND, "nothing fits");
}

static gpointer
solve_in_thread (gpointer data)
{
  SwLinearItem items[] = { { 2350, 12 }, { 1750, 8 }, { 911, 17 } };
  SwLinearStock stock = { 6000, 1, 0 };
  int bars = 0;
  for (int i = 0; i < 20; i++)
    {
      g_autoptr (SwLinearPlan) plan = cut (items, 3, &stock, 1, NULL);
      bars += plan->n_bars;
    }
  return GINT_TO_POINTER (bars);
}

static void
test_threads (void)
{
  GThread *threads[4];
  for (int i = 0; i < 4; i++)
    threads[i] = g_thread_new ("cut", solve_in_thread, NULL);
  int bars = GPOINTER_TO_INT (g_thread_join (threads[0]));
  for (int i = 1; i < 4; i++)
    g_assert_cmpint (GPOINTER_TO_INT (g_thread_join (threads[i])), ==, bars);
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/ceiling/linear/example", test_example);
  g_test_add_func ("/ceiling/linear/kerf-and-trim", test_kerf_and_trim);
  g_test_add_func ("/ceiling/linear/errors", test_errors);
  g_test_add_func ("/ceiling/linear/cancelled", test_cancelled);
  g_test_add_func ("/ceiling/linear/against-brute", test_against_brute);
  g_test_add_func ("/ceiling/linear/costs-that-add-up", test_costs_that_add_up);
  g_test_add_func ("/ceiling/linear/public", test_public);
  g_test_add_func ("/ceiling/linear/triplets", test_triplets);
  g_test_add_func ("/ceiling/linear/same-twice", test_same_twice);
  g_test_add_func ("/ceiling/linear/wrapper", test_wrapper);
  g_test_add_func ("/ceiling/linear/threads", test_threads);
  return g_test_run ();
}
