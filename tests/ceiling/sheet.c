/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/sheet_cut.h"
#include "base/random.h"
#include "support.h"
#include <stdlib.h>
#include <string.h>

static SwSheetPlan *
cut (const SwSheetItem *items, guint n, const SwSheetStock *stock, guint n_stock, const SwSheetOptions *options)
{
  GError *error = NULL;
  SwSheetPlan *plan = sw_sheet_cut (items, n, stock, n_stock, options, NULL, &error);
  g_assert_no_error (error);
  g_assert_nonnull (plan);
  sw_sheet_plan_check (plan, items, n, stock, n_stock, options, &error);
  g_assert_no_error (error);
  return plan;
}

/* By hand: two strips of 400 × 3,000 and two of 1,500 × 400 come from one sheet of 3,000 × 1,200. */
static void
test_strips (void)
{
  SwSheetItem items[] = { { 3000, 400, 2, FALSE }, { 1500, 400, 2, FALSE } };
  SwSheetStock stock = { 3000, 1200, 0, 0 };
  g_autoptr (SwSheetPlan) plan = cut (items, 2, &stock, 1, NULL);
  g_assert_cmpuint (plan->sheets->len, ==, 1);
  g_assert_true (plan->proven);
  g_assert_cmpint (plan->used, ==, 3000 * 1200);
  g_assert_cmpuint (plan->cuts->len, ==, 3); /* two strips off, one of the last in halves */
}

/* A kerf of 1 no longer leaves three strips of 400 in 1,200; trims take their part of the sheet. */
static void
test_kerf_and_trim (void)
{
  SwSheetItem item = { 3000, 400, 3, FALSE }, smaller = { 2980, 380, 3, FALSE };
  SwSheetStock stock = { 3000, 1200, 0, 0 };
  SwSheetOptions kerf = { .kerf = 1 }, trims = { .kerf = 10, .left = 10, .right = 10, .bottom = 20, .top = 20 };
  g_autoptr (SwSheetPlan) sawn = cut (&item, 1, &stock, 1, &kerf);
  g_autoptr (SwSheetPlan) trimmed = cut (&smaller, 1, &stock, 1, &trims);
  g_assert_cmpuint (sawn->sheets->len, ==, 2);
  g_assert_cmpuint (trimmed->sheets->len, ==, 1); /* 3 × 380 + 2 × 10 = 1,160 */
  trims.top = 21;
  g_autoptr (SwSheetPlan) too_much = cut (&smaller, 1, &stock, 1, &trims);
  g_assert_cmpuint (too_much->sheets->len, ==, 2);
}

static void
test_turning (void)
{
  SwSheetItem item = { 1200, 3000, 1, FALSE };
  SwSheetStock stock = { 3000, 1200, 0, 0 };
  GError *error = NULL;
  g_assert_null (sw_sheet_cut (&item, 1, &stock, 1, NULL, NULL, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "piece 1 of 1200 × 3000 fits on no sheet");
  item.may_turn = TRUE;
  g_autoptr (SwSheetPlan) plan = cut (&item, 1, &stock, 1, NULL);
  g_assert_cmpuint (plan->sheets->len, ==, 1);
  g_assert_true (g_array_index (plan->places, SwSheetPlace, 0).turned);
}

/* Of two sizes the cheaper plan is taken, and a sheet that would do smaller becomes the smaller. */
static void
test_sizes (void)
{
  SwSheetItem items[] = { { 2400, 1200, 3, FALSE }, { 900, 900, 1, FALSE } };
  SwSheetStock stock[] = { { 2400, 1200, 0, 0 }, { 1200, 1200, 0, 0 } };
  g_autoptr (SwSheetPlan) plan = cut (items, 2, stock, 2, NULL);
  g_assert_cmpint (plan->cost, ==, 3 * 2400 * 1200 + 1200 * 1200);
  SwSheetStock few[] = { { 2400, 1200, 0, 3 } };
  GError *error = NULL;
  g_assert_null (sw_sheet_cut (items, 2, few, 1, NULL, NULL, &error));
  sw_assert_error (error, SW_ERROR_LIMIT, "add sheets");
  SwSheetItem bad = { 0, 10, 1, FALSE };
  g_assert_null (sw_sheet_cut (&bad, 1, few, 1, NULL, NULL, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "piece 1 is 0 × 10");
}

/* What the check is for: plans that were tampered with do not pass. */
static void
test_check (void)
{
  SwSheetItem items[] = { { 60, 40, 4, FALSE }, { 30, 30, 5, FALSE } };
  SwSheetStock stock = { 100, 100, 0, 0 };
  for (int harm = 0; harm < 5; harm++)
    {
      GError *error = NULL;
      g_autoptr (SwSheetPlan) plan = cut (items, 2, &stock, 1, NULL);
      SwSheetPlace *place = &g_array_index (plan->places, SwSheetPlace, 1);
      switch (harm)
        {
        case 0: place->x++; break;
        case 1: place->item = 1 - place->item; break;
        case 2: g_array_set_size (plan->places, plan->places->len - 1); break;
        case 3: g_array_index (plan->cuts, SwSheetCut, 0).at++; break;
        default: plan->cost--; break;
        }
      g_assert_false (sw_sheet_plan_check (plan, items, 2, &stock, 1, NULL, &error));
      sw_assert_error (error, SW_ERROR_INTERNAL, "cutting plan");
    }
}

/* Sheets cut up at random by straight cuts come together again: the bound never says more than they were, and effort finds
 * mostly the same number; never fewer than the bound. */
static void
test_random (void)
{
  SwRandom random = { 3 };
  guint ours = 0, made = 0;
  for (int round = 0; round < sw_test_rounds (60); round++)
    {
      SwSheetItem items[80];
      guint n = 0, sheets = sw_random_int (&random, 2, 6);
      SwSheetStock stock = { 300, 200, 0, 0 };
      SwSheetOptions options = { .effort = 2000, .seed = 7 };
      for (guint s = 0; s < sheets; s++)
        {
          guint first = n;
          items[n++] = (SwSheetItem){ 300, 200, 1, round % 2 };
          for (int c = sw_random_int (&random, 2, 9); c > 0; c--)
            {
              SwSheetItem *part = &items[sw_random_int (&random, first, n - 1)];
              gboolean upright = part->width > part->height;
              int size = upright ? part->width : part->height, at = sw_random_int (&random, size / 4, size / 2);
              if (size < 20)
                continue;
              items[n] = *part;
              *(upright ? &part->width : &part->height) = at;
              *(upright ? &items[n].width : &items[n].height) = size - at;
              n++;
            }
        }
      g_autoptr (SwSheetPlan) plan = cut (items, n, &stock, 1, &options);
      g_assert_cmpuint (plan->bound, ==, sheets); /* they fill whole sheets */
      g_assert_cmpuint (plan->sheets->len, >=, sheets);
      g_assert_cmpuint (plan->sheets->len, <=, sheets + 1);
      ours += plan->sheets->len;
      made += sheets;
      g_autoptr (SwSheetPlan) again = cut (items, n, &stock, 1, &options);
      g_assert_cmpmem (plan->places->data, plan->places->len * sizeof (SwSheetPlace), again->places->data,
                       again->places->len * sizeof (SwSheetPlace));
    }
  g_test_message ("%u sheets for %u", ours, made);
  if (sw_test_rounds (60) == 60) /* of a few rounds one sheet more is a larger share */
    g_assert_cmpuint (ours * 100, <=, made * 115);
}

static void
test_cancelled (void)
{
  GError *error = NULL;
  SwSheetItem item = { 70, 60, 9, TRUE };
  SwSheetStock stock = { 100, 100, 0, 0 };
  SwSheetOptions options = { .effort = 1000000000 };
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_cancellable_cancel (cancellable);
  g_autoptr (SwSheetPlan) plan = sw_sheet_cut (&item, 1, &stock, 1, &options, cancellable, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (plan->sheets->len, ==, 9);
  g_assert_true (plan->proven); /* more than half of the sheet both ways */
}

/* ---- public instances ---- */

/* Best known sheets of 2-D bin packing classes 1–10 (Berkey and Wang 1987, Martello and Vigo 1998) without guillotine rule: the
 * bound may not say more, and straight cuts need no fewer. Every tenth here; the benchmark takes all. */
static void
test_classes (void)
{
  g_autofree char *folder = sw_test_reference_path ("cutting2d");
  if (folder == NULL)
    return;
  for (int class = 1; class <= 10; class++)
    {
      g_autofree char *path = g_strdup_printf ("%s/class%02d.csv", folder, class), *text = NULL;
      g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
      g_auto (GStrv) lines = g_strsplit (text, "\n", -1);
      for (guint i = 1; lines[i] != NULL && *lines[i] != '\0'; i += 10)
        {
          g_auto (GStrv) fields = g_strsplit (lines[i], ",", -1), sizes = g_strsplit (fields[8], " ", -1);
          guint n = g_strv_length (sizes), best = MIN (atoi (fields[4]), atoi (fields[6]));
          g_autofree SwSheetItem *items = g_new0 (SwSheetItem, n);
          for (guint k = 0; k < n; k++)
            items[k] = (SwSheetItem){ atoi (sizes[k]), atoi (strchr (sizes[k], 'x') + 1), 1, FALSE };
          SwSheetStock stock = { atoi (fields[1]), atoi (fields[2]), 0, 0 };
          SwSheetOptions options = { .effort = 300 };
          g_autoptr (SwSheetPlan) plan = cut (items, n, &stock, 1, &options);
          g_assert_cmpuint (plan->bound, <=, best);
          g_assert_cmpuint (plan->sheets->len, >=, plan->bound);
          g_assert_cmpuint (plan->sheets->len, <=, best + 1 + best / 15);
        }
    }
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/ceiling/sheet/strips", test_strips);
  g_test_add_func ("/ceiling/sheet/kerf-and-trim", test_kerf_and_trim);
  g_test_add_func ("/ceiling/sheet/turning", test_turning);
  g_test_add_func ("/ceiling/sheet/sizes", test_sizes);
  g_test_add_func ("/ceiling/sheet/check", test_check);
  g_test_add_func ("/ceiling/sheet/random", test_random);
  g_test_add_func ("/ceiling/sheet/cancelled", test_cancelled);
  g_test_add_func ("/ceiling/sheet/classes", test_classes);
  return g_test_run ();
}
