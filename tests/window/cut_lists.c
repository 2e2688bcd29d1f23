/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/tools/cut_lists.h"
#include "base/error.h"
#include "support.h"

/* Lists as they are typed against the lists that the command reads. */

static SwCutTask *
read_lists (gboolean flat, const char *items, const char *stock, const char *kerf, const char *trim, GError **error)
{
  const SwCutLists lists = { flat, items, stock, kerf, trim, "1500", 1 };
  return sw_cut_lists_read (&lists, error);
}

/* Typed with commas, semicolons or tabs, or with names: all the same task. */
static void
test_forms (void)
{
  static const char *const items[] = { "2350, 12, long\n\n1750,8,short\n", "2350;12;long\r\n1750;8;short", "2350\t12\tlong\n1750\t8\tshort\n",
                                       "mark,copies,length_mm\nlong,12,2350\nshort,8,1750\n", "mark;copies;length_mm\nlong;12;2350\nshort;8;1750\n" };
  for (gsize i = 0; i < G_N_ELEMENTS (items); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (SwCutTask) task = read_lists (FALSE, items[i], "6000", "3", "", &error);
      g_assert_no_error (error);
      g_assert_cmpuint (task->items->len, ==, 2);
      const SwCutItem *first = &g_array_index (task->items, SwCutItem, 0);
      g_assert_cmpint (first->length, ==, 2350 * task->per_mm);
      g_assert_cmpint (first->copies, ==, 12);
      g_assert_cmpstr (first->mark, ==, "long");
      g_assert_cmpint (task->kerf, ==, 3 * task->per_mm);
    }
}

/* As spreadsheets write where the comma is the decimal mark; a mark keeps its comma. */
static void
test_decimal_commas (void)
{
  static const char *const items[] = { "2350,5;12;a,b\n", "2350,5\t12\ta,b\n", "mark;length_mm;copies\na,b;2350,5;12\n" };
  for (gsize i = 0; i < G_N_ELEMENTS (items); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (SwCutTask) task = read_lists (FALSE, items[i], "6000;89,95\n", "", "", &error);
      g_assert_no_error (error);
      const SwCutItem *item = &g_array_index (task->items, SwCutItem, 0);
      g_assert_cmpint (item->length * 10, ==, 23505 * task->per_mm);
      g_assert_cmpstr (item->mark, ==, "a,b");
      g_assert_cmpint (g_array_index (task->stock, SwCutStock, 0).cost, ==, 899500);
    }
}

/* Kerf and trim count for a list that says nothing of its own. */
static void
test_kerf_and_trim (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwCutTask) task = read_lists (TRUE, "1190,400,6,shelf,yes\n", "2440,1220,389.95\n2400,1200,350\n", "3.2", "10", &error);
  g_assert_no_error (error);
  g_assert_true (task->flat && task->priced);
  for (guint i = 0; i < 2; i++)
    {
      const SwCutStock *stock = &g_array_index (task->stock, SwCutStock, i);
      g_assert_cmpint (stock->start, ==, 10 * task->per_mm);
      g_assert_cmpint (stock->high, ==, 10 * task->per_mm);
    }
  g_assert_cmpint (task->kerf * 10, ==, 32 * task->per_mm);
  g_assert_cmpint (task->keep, ==, 1500 * task->per_mm);
  g_autoptr (SwCutTask) own = read_lists (FALSE, "1190", "length_mm,kerf_mm,trim_start_mm\n6000,4,25\n", "3.2", "10", &error);
  g_assert_no_error (error);
  g_assert_cmpint (own->kerf, ==, 4 * own->per_mm);
  g_assert_cmpint (g_array_index (own->stock, SwCutStock, 0).start, ==, 25 * own->per_mm);
  g_assert_cmpint (g_array_index (own->stock, SwCutStock, 0).end, ==, 0);
}

/* Lines are counted as they were typed. */
static void
test_faults_name_the_line (void)
{
  static const struct { const char *items, *stock, *kerf, *part; } cases[] = {
    { "2350,12\n17x0,8\n", "6000", "", "line 2" }, { "2350", "60 00", "", "line 1" }, { "", "6000", "", "Pieces" },
    { "2350", " \n", "", "Stock" },                { "2350", "6000", "x", "Saw cut: \"x\"" }, { "2350", "6000", "-3", "Saw cut" }, { "length_mm\n23y\n", "6000", "", "line 2" },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      g_assert_null (read_lists (FALSE, cases[i].items, cases[i].stock, cases[i].kerf, "", &error));
      g_assert_error (error, SW_ERROR, SW_ERROR_INVALID);
      g_assert_nonnull (strstr (error->message, cases[i].part));
    }
}

typedef struct
{
  GMainLoop *loop;
  guint n, lengths;
  gboolean proven, cancelled;
} Heard;

static void
on_answer (const SwCutAnswer *answer, gpointer data)
{
  Heard *heard = data;
  heard->n++;
  heard->lengths = answer->plan != NULL ? answer->plan->n : 0;
  heard->cancelled = g_error_matches (answer->fault, SW_ERROR, SW_ERROR_CANCELLED);
  heard->proven = answer->plan != NULL && answer->plan->proven;
  g_main_loop_quit (heard->loop);
}

static gboolean
on_too_late (gpointer data)
{
  g_error ("no plan within a minute");
  return G_SOURCE_REMOVE;
}

/* Of two askings the later one is answered, with the least: 6 × 1750 and 3 × 2350 from 6000 with 3 mm cuts. Two lengths of 2350 + 2350
 * + ... leave no room for a third; the greatest that a length takes is 3 of 1750 (5256), or 2350 + 2 × 1750 (5856). All six of 1750 in
 * three lengths with one 2350 each: three, and their sum of 17,550 mm proves that two (12,000) cannot do. */
static void
test_the_last_asking_is_answered (void)
{
  Heard heard = { .loop = g_main_loop_new (NULL, FALSE) };
  SwCutter *cutter = sw_cutter_new (on_answer, &heard);
  const SwCutLists first = { FALSE, "1000,1", "6000", "3", "", "", 1 }, second = { FALSE, "1750,6\n2350,3", "6000", "3", "", "", 1 };
  guint late = g_timeout_add_seconds (60, on_too_late, NULL);
  sw_cutter_ask (cutter, &first);
  sw_cutter_ask (cutter, &second);
  g_main_loop_run (heard.loop);
  g_assert_cmpuint (heard.n, ==, 1);
  g_assert_cmpuint (heard.lengths, ==, 3);
  g_assert_true (heard.proven);
  g_source_remove (late);
  sw_cutter_free (cutter);
  g_main_loop_unref (heard.loop);
}

/* Stopped, it is answered all the same: with the best so far, or with why there is none. Three hundred lengths take seconds. */
static void
test_a_stopped_search_is_answered (void)
{
  Heard heard = { .loop = g_main_loop_new (NULL, FALSE) };
  SwCutter *cutter = sw_cutter_new (on_answer, &heard);
  g_autoptr (GString) items = g_string_new (NULL);
  for (int i = 0; i < 300; i++)
    g_string_append_printf (items, "%d,2\n", 300 + (i * 7919) % 2600);
  const SwCutLists lists = { FALSE, items->str, "3000,43.5\n3600,52.2\n6000,90,4\n", "3", "", "", 1 };
  guint late = g_timeout_add_seconds (60, on_too_late, NULL);
  sw_cutter_ask (cutter, &lists);
  sw_cutter_stop (cutter);
  g_main_loop_run (heard.loop);
  g_assert_cmpuint (heard.n, ==, 1);
  g_assert_false (heard.proven);
  g_assert_true (heard.lengths > 0 || heard.cancelled);
  g_source_remove (late);
  sw_cutter_free (cutter);
  g_main_loop_unref (heard.loop);
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/window/cut-lists/forms", test_forms);
  g_test_add_func ("/window/cut-lists/decimal-commas", test_decimal_commas);
  g_test_add_func ("/window/cut-lists/kerf-and-trim", test_kerf_and_trim);
  g_test_add_func ("/window/cut-lists/faults-name-the-line", test_faults_name_the_line);
  g_test_add_func ("/window/cut-lists/the-last-asking-is-answered", test_the_last_asking_is_answered);
  g_test_add_func ("/window/cut-lists/a-stopped-search-is-answered", test_a_stopped_search_is_answered);
  return g_test_run ();
}
