/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/tools/cut_lists.h"
#include "base/csv.h"
#include "base/csv_read.h"
#include "base/error.h"
#include "base/number.h"
#include "sheets/words.h"
#include "window/background.h"
#include <string.h>

#define MOST_CELLS 12

/* Columns of a list without names, by `flat` and `stock`. */
static const struct
{
  const char *keys, *text, *example;
} orders[2][2] = {
  { { "length_mm,copies,mark", N_("length in mm, copies, mark"), "2350, 12, A\n1750, 8, B\n900, 10, C\n" }, { "length_mm,cost,copies,mark", N_("length in mm, cost of one, how many at hand, mark"), "6000, 105\n5400, 89.50\n" } },
  { { "length_mm,width_mm,copies,mark,turn", N_("length and width in mm, copies, mark, may it turn: yes or no"), "1190, 400, 6, shelf, yes\n1800, 595, 4, door, no\n" },
    { "length_mm,width_mm,cost,copies,mark,turn", N_("length and width in mm, cost of one, how many at hand, mark, may pieces turn: yes or no"), "2440, 1220, 389.95\n" } },
};

const char *
sw_cut_lists_columns (gboolean flat, gboolean stock)
{
  return orders[flat ? 1 : 0][stock ? 1 : 0].text;
}

const char *
sw_cut_lists_example (gboolean flat, gboolean stock)
{
  return orders[flat ? 1 : 0][stock ? 1 : 0].example;
}

/* ---- Text to a list with names ---- */

static char
parting_of (const char *text)
{
  return strchr (text, '\t') != NULL ? '\t' : strchr (text, ';') != NULL ? ';' : ',';
}

/* A row of names has one that ends in "_mm". */
static gboolean
has_names (const char *text)
{
  const char *end = strpbrk (text, "\r\n");
  g_autofree char *first = end != NULL ? g_strndup (text, (gsize) (end - text)) : g_strdup (text);
  return strstr (first, "length_mm") != NULL;
}

/* Where semicolons or tabs part the cells, a comma in a number is its decimal mark. `keys`: the columns' names. */
static void
add_row (SwCsv *csv, char **cells, char **keys, char parting)
{
  guint have = g_strv_length (cells), n = g_strv_length (keys);
  for (guint i = 0; i < MAX (n, have); i++) /* too many: the reader says so */
    {
      char *comma = i < have ? strchr (g_strstrip (cells[i]), ',') : NULL;
      if (parting != ',' && comma != NULL && i < n && !g_str_equal (keys[i], "mark"))
        *comma = '.';
      sw_csv_add_text (csv, i < have ? cells[i] : "");
    }
  sw_csv_end_row (csv);
}

/* Empty lines are left out. What stands behind the last column goes into it, for the reader to refuse. */
static char *
with_names (const char *text, const char *names)
{
  const char parting[2] = { parting_of (text), '\0' };
  g_autoptr (SwCsv) csv = sw_csv_new ();
  g_auto (GStrv) keys = g_strsplit (names, ",", -1), lines = g_strsplit (text, "\n", -1);
  guint n = g_strv_length (keys);
  add_row (csv, keys, keys, ',');
  for (guint i = 0; lines[i] != NULL; i++)
    {
      g_auto (GStrv) cells = g_strsplit (g_strstrip (lines[i]), parting, (int) n);
      if (*lines[i] != '\0')
        add_row (csv, cells, keys, *parting);
    }
  return sw_csv_text (csv);
}

/* What stands in a list as the command has it, every row filled up. */
static char *
as_csv (const char *text, gboolean flat, gboolean stock)
{
  char parting = parting_of (text);
  if (!has_names (text))
    return with_names (text, orders[flat ? 1 : 0][stock ? 1 : 0].keys);
  if (parting == ',')
    return g_strdup (text);
  const char part[2] = { parting, '\0' };
  g_autoptr (SwCsv) csv = sw_csv_new ();
  g_auto (GStrv) lines = g_strsplit (text, "\n", -1);
  g_auto (GStrv) keys = g_strsplit (g_strstrip (lines[0]), part, MOST_CELLS);
  for (guint i = 0; lines[i] != NULL; i++)
    {
      g_auto (GStrv) cells = g_strsplit (g_strstrip (lines[i]), part, MOST_CELLS);
      if (*lines[i] != '\0')
        add_row (csv, cells, keys, parting);
    }
  return sw_csv_text (csv);
}

static gboolean
is_blank (const char *text)
{
  while (g_ascii_isspace (*text))
    text++;
  return *text == '\0';
}

gboolean
sw_cut_lists_wait (const SwCutLists *lists)
{
  return is_blank (lists->items) || is_blank (lists->stock);
}

/* The stock with columns for the saw cut, the trim and the least offcut that is kept, where it has none of its own. What is no CSV stays as it is, for the
 * reader to refuse. */
static char *
with_sizes (const char *stock, const char *kerf, const char *trim, const char *keep)
{
  g_autoptr (SwCsvFile) file = sw_csv_read (stock, -1, NULL);
  /* The column that is added, what the names of columns begin with that stand in for it, and its value. */
  const struct { const char *name, *own, *value; } sizes[] = {
    { "kerf_mm", "kerf_mm", kerf }, { "trim_mm", "trim_", trim }, { "offcut_mm", "offcut_mm", keep },
  };
  gboolean wanted[G_N_ELEMENTS (sizes)], any = FALSE;
  for (gsize s = 0; s < G_N_ELEMENTS (sizes); s++)
    {
      wanted[s] = *sizes[s].value != '\0';
      for (guint i = 0; file != NULL && i < sw_csv_file_n_columns (file); i++)
        wanted[s] = wanted[s] && !g_str_has_prefix (sw_csv_file_cell (file, 0, i), sizes[s].own);
      any = any || wanted[s];
    }
  if (file == NULL || !any)
    return g_strdup (stock);
  g_autoptr (SwCsv) csv = sw_csv_new ();
  for (guint row = 0; row < sw_csv_file_n_rows (file); row++)
    {
      for (guint i = 0; i < sw_csv_file_n_columns (file); i++)
        sw_csv_add_text (csv, sw_csv_plain (sw_csv_file_cell (file, row, i)));
      for (gsize s = 0; s < G_N_ELEMENTS (sizes); s++)
        if (wanted[s])
          sw_csv_add_text (csv, row == 0 ? sizes[s].name : sizes[s].value);
      sw_csv_end_row (csv);
    }
  return sw_csv_text (csv);
}

/* One of the sizes below the lists as a number is written in them, or why not. "" stays so. */
static gboolean
read_size (const char *name, const char *text, char buf[SW_NUMBER_BUF], GError **error)
{
  double mm;
  char *comma;
  g_strlcpy (buf, text, SW_NUMBER_BUF);
  g_strstrip (buf);
  if ((comma = strchr (buf, ',')) != NULL)
    *comma = '.';
  if (*buf == '\0' || (strlen (text) < SW_NUMBER_BUF && sw_number_read (buf, &mm, NULL) && mm >= 0 && mm <= SW_CUT_TASK_MOST_MM))
    return TRUE;
  g_set_error (error, SW_ERROR, SW_ERROR_INVALID, _("%s: \"%s\" is no size in millimetres; write it like 3 or 3.2"), name, text);
  return FALSE;
}

SwCutTask *
sw_cut_lists_read (const SwCutLists *lists, GError **error)
{
  const char *const names[] = { _("Pieces"), _("Stock") };
  const char *const texts[] = { lists->items, lists->stock };
  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    if (is_blank (texts[i]))
      {
        g_set_error (error, SW_ERROR, SW_ERROR_INVALID, _("Still to be given: %s."), names[i]);
        return NULL;
      }
  g_autofree char *items = as_csv (lists->items, lists->flat, FALSE), *bare = as_csv (lists->stock, lists->flat, TRUE);
  char kerf[SW_NUMBER_BUF], trim[SW_NUMBER_BUF], keep[SW_NUMBER_BUF];
  if (!read_size (_("Saw cut"), lists->kerf, kerf, error) || !read_size (_("Trim all round"), lists->trim, trim, error)
      || !read_size (_("Keep offcuts from"), lists->keep, keep, error))
    return NULL;
  g_autofree char *stock = with_sizes (bare, kerf, trim, keep);
  SwCutTask *task = sw_cut_task_read (&(SwCutSource){ items, -1, names[0], has_names (lists->items) ? 0 : 1 },
                                      &(SwCutSource){ stock, -1, names[1], has_names (lists->stock) ? 0 : 1 }, error);
  if (task == NULL)
    return NULL;
  task->effort = MAX (1, lists->effort);
  return task;
}

/* ---- The thread ---- */

struct _SwCutter
{
  SwBackground *background;
  SwCutterDone done;
  gpointer data;
  SwCutAnswer *answer; /* the last one */
  guint asked;
  GCancellable *stop; /* of what was asked for last */
};

typedef struct
{
  SwCutLists lists; /* its texts owned */
  guint number;
  GCancellable *stop; /* the search ends with the best that it has */
} Order;

typedef struct
{
  SwCutAnswer *answer; /* NULL once it is taken */
  guint number;
} News;

static void
answer_free (SwCutAnswer *answer)
{
  g_clear_pointer (&answer->pages, sw_cut_pages_free);
  g_clear_pointer (&answer->plan, sw_cut_plan_free);
  g_clear_pointer (&answer->task, sw_cut_task_free);
  g_strfreev (answer->sentences);
  g_strfreev (answer->bought);
  g_clear_error (&answer->fault);
  g_free (answer);
}

static void
order_free (gpointer data)
{
  Order *order = data;
  const char *texts[] = { order->lists.items, order->lists.stock, order->lists.kerf, order->lists.trim, order->lists.keep };
  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    g_free ((char *) texts[i]);
  g_object_unref (order->stop);
  g_free (order);
}

static void
news_free (gpointer data)
{
  News *news = data;
  g_clear_pointer (&news->answer, answer_free);
  g_free (news);
}

static GStrv
bought_texts (const SwCutPlan *plan)
{
  g_autoptr (GArray) bought = sw_cut_plan_bought (plan);
  g_autoptr (GStrvBuilder) lines = g_strv_builder_new ();
  for (guint i = 0; i < bought->len; i++)
    if (g_array_index (bought, guint, i) > 0)
      {
        g_autofree char *line = sw_cut_bought_text (plan, i, g_array_index (bought, guint, i), SW_LENGTHS_MM);
        g_strv_builder_add (lines, line);
      }
  return g_strv_builder_end (lines);
}

static void
stop_search (GCancellable *cancellable, gpointer stop)
{
  g_cancellable_cancel (stop);
}

static void
cut (SwBackgroundWork *work, gpointer data, gpointer memory, GCancellable *cancellable)
{
  const Order *order = data;
  const SwPage page = { .paper = SW_PAPER_A4 };
  SwCutAnswer *answer = g_new0 (SwCutAnswer, 1);
  gulong handler = g_cancellable_connect (cancellable, G_CALLBACK (stop_search), g_object_ref (order->stop), g_object_unref);
  answer->task = sw_cut_lists_read (&order->lists, &answer->fault);
  answer->plan = answer->task != NULL ? sw_cut_plan_new (answer->task, order->stop, &answer->fault) : NULL;
  g_cancellable_disconnect (cancellable, handler);
  if (answer->plan != NULL)
    {
      answer->sentences = sw_cut_sentences (answer->plan, SW_LENGTHS_MM);
      answer->bought = bought_texts (answer->plan);
      answer->pages = sw_cut_pages_new (answer->plan, _("Cutting list"), &page);
    }
  if (g_cancellable_is_cancelled (cancellable))
    {
      answer_free (answer);
      return;
    }
  News *news = g_new (News, 1);
  *news = (News){ answer, order->number };
  sw_background_hand_over (work, news);
}

static void
take (gpointer data, gpointer owner)
{
  News *news = data;
  SwCutter *cutter = owner;
  if (news->number != cutter->asked)
    return;
  SwCutAnswer *before = cutter->answer;
  cutter->answer = g_steal_pointer (&news->answer);
  cutter->done (cutter->answer, cutter->data);
  g_clear_pointer (&before, answer_free);
}

SwCutter *
sw_cutter_new (SwCutterDone done, gpointer data)
{
  static const SwBackgroundKind kind = { "cutting", G_PRIORITY_HIGH_IDLE, cut, take, order_free, news_free, NULL };
  SwCutter *cutter = g_new0 (SwCutter, 1);
  cutter->done = done;
  cutter->data = data;
  cutter->background = sw_background_new (&kind, NULL, cutter);
  return cutter;
}

void
sw_cutter_free (SwCutter *cutter)
{
  if (cutter == NULL)
    return;
  sw_background_free (cutter->background);
  g_clear_pointer (&cutter->answer, answer_free);
  g_clear_object (&cutter->stop);
  g_free (cutter);
}

void
sw_cutter_ask (SwCutter *cutter, const SwCutLists *lists)
{
  Order *order = g_new0 (Order, 1);
  order->lists = *lists;
  order->lists.items = g_strdup (lists->items);
  order->lists.stock = g_strdup (lists->stock);
  order->lists.kerf = g_strdup (lists->kerf);
  order->lists.trim = g_strdup (lists->trim);
  order->lists.keep = g_strdup (lists->keep);
  order->number = ++cutter->asked;
  order->stop = g_cancellable_new ();
  g_set_object (&cutter->stop, order->stop);
  sw_background_ask (cutter->background, order);
}

void
sw_cutter_stop (SwCutter *cutter)
{
  g_cancellable_cancel (cutter->stop);
}
