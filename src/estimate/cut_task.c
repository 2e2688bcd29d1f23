/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Both lists are read by one table of columns. Sizes are first kept in hundredths of a millimetre; the
 * coarsest unit in which all of them are whole is then taken, since cutting is the faster for it and nothing
 * is rounded. */
#include "estimate/cut_task.h"
#include "base/csv_read.h"
#include "base/error.h"
#include "base/number.h"
#include <math.h>
#include <string.h>

#define FINEST 100 /* units to a mm */

typedef enum
{
  COLUMN_LENGTH,
  COLUMN_WIDTH,
  COLUMN_COPIES,
  COLUMN_MARK,
  COLUMN_TURN,
  COLUMN_COST,
  COLUMN_KERF,
  COLUMN_TRIM,
  COLUMN_START,
  COLUMN_END,
  COLUMN_LOW,
  COLUMN_HIGH,
  COLUMN_OFFCUT,
  N_COLUMNS
} Column;

typedef enum
{
  CELL_SIZE,
  CELL_COUNT,
  CELL_TEXT,
  CELL_YES,
  CELL_MONEY
} CellKind;

static const struct
{
  const char *key;
  CellKind kind;
  gboolean of_items; /* the stock has all */
} columns[N_COLUMNS] = {
  [COLUMN_LENGTH] = { "length_mm", CELL_SIZE, TRUE },
  [COLUMN_WIDTH] = { "width_mm", CELL_SIZE, TRUE },
  [COLUMN_COPIES] = { "copies", CELL_COUNT, TRUE },
  [COLUMN_MARK] = { "mark", CELL_TEXT, TRUE },
  [COLUMN_TURN] = { "turn", CELL_YES, TRUE },
  [COLUMN_COST] = { "cost", CELL_MONEY, FALSE },
  [COLUMN_KERF] = { "kerf_mm", CELL_SIZE, FALSE },
  [COLUMN_TRIM] = { "trim_mm", CELL_SIZE, FALSE },
  [COLUMN_START] = { "trim_start_mm", CELL_SIZE, FALSE },
  [COLUMN_END] = { "trim_end_mm", CELL_SIZE, FALSE },
  [COLUMN_LOW] = { "trim_low_mm", CELL_SIZE, FALSE },
  [COLUMN_HIGH] = { "trim_high_mm", CELL_SIZE, FALSE },
  [COLUMN_OFFCUT] = { "offcut_mm", CELL_SIZE, FALSE },
};

typedef struct
{
  const SwCsvFile *file;
  const char *name;
  guint added; /* lines at the head that are not counted */
  gboolean of_items;
  int at[N_COLUMNS]; /* where each column stands; -1: nowhere */
} List;

typedef struct
{
  gboolean given;
  gint64 value; /* size in hundredths of a mm, count, 0 or 1, money */
  const char *text;
} Cell;

static void
clear_item (gpointer data)
{
  g_free (((SwCutItem *) data)->mark);
}

static void
clear_stock (gpointer data)
{
  g_free (((SwCutStock *) data)->mark);
}

SwCutTask *
sw_cut_task_new (gboolean flat, int per_mm)
{
  SwCutTask *task = g_new0 (SwCutTask, 1);
  task->flat = flat;
  task->per_mm = per_mm;
  task->effort = 1;
  task->items = g_array_new (FALSE, TRUE, sizeof (SwCutItem));
  task->stock = g_array_new (FALSE, TRUE, sizeof (SwCutStock));
  g_array_set_clear_func (task->items, clear_item);
  g_array_set_clear_func (task->stock, clear_stock);
  return task;
}

void
sw_cut_task_free (SwCutTask *task)
{
  g_array_unref (task->items);
  g_array_unref (task->stock);
  g_free (task->items_name);
  g_free (task);
}

void
sw_cut_task_add_item (SwCutTask *task, const char *mark, gint64 length, gint64 width, int copies,
                      gboolean may_turn)
{
  SwCutItem item
      = { .mark = g_strdup (mark), .length = length, .width = width, .copies = copies, .may_turn = may_turn };
  g_array_append_val (task->items, item);
}

void
sw_cut_task_add_stock (SwCutTask *task, const char *mark, gint64 length, gint64 width, SwMoney cost)
{
  SwCutStock stock
      = { .mark = g_strdup (mark), .length = length, .width = width, .cost = cost, .may_turn = TRUE };
  g_array_append_val (task->stock, stock);
}

static gboolean refuse (const List *list, guint row, guint column, GError **error, const char *format, ...)
    G_GNUC_PRINTF (5, 6);

static gboolean
refuse (const List *list, guint row, guint column, GError **error, const char *format, ...)
{
  guint line, character;
  va_list args;
  va_start (args, format);
  g_autofree char *what = g_strdup_vprintf (format, args);
  va_end (args);
  sw_csv_file_place (list->file, row, column, &line, &character);
  line -= MIN (line, list->added);
  g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "%s: line %u, character %u: %s", list->name, line,
               character, what);
  return FALSE;
}

static gboolean
refuse_column (const List *list, guint column, const char *name, GError **error)
{
  g_autoptr (GString) names = g_string_new (NULL);
  for (guint k = 0; k < N_COLUMNS; k++)
    if (columns[k].of_items || !list->of_items)
      g_string_append_printf (names, "%s%s", names->len > 0 ? ", " : "", columns[k].key);
  return refuse (list, 0, column, error, "there is no column \"%s\"; columns are %s", name, names->str);
}

static gboolean
find_columns (List *list, GError **error)
{
  for (guint k = 0; k < N_COLUMNS; k++)
    list->at[k] = -1;
  for (guint i = 0; i < sw_csv_file_n_columns (list->file); i++)
    {
      const char *name = sw_csv_file_cell (list->file, 0, i);
      guint k = 0;
      while (k < N_COLUMNS
             && (strcmp (name, columns[k].key) != 0 || (list->of_items && !columns[k].of_items)))
        k++;
      if (k == N_COLUMNS)
        return refuse_column (list, i, name, error);
      if (list->at[k] >= 0)
        return refuse (list, 0, i, error, "the column \"%s\" stands twice", name);
      list->at[k] = (int) i;
    }
  return list->at[COLUMN_LENGTH] >= 0 || refuse (list, 0, 0, error, "the column \"length_mm\" is missing");
}

static gboolean
read_size (const char *text, gint64 *value)
{
  double mm;
  if (!sw_number_read (text, &mm, NULL) || mm < 0 || mm > SW_CUT_TASK_MOST_MM)
    return FALSE;
  *value = llround (mm * FINEST);
  return fabs (mm * FINEST - (double) *value) < 1e-6 * FINEST;
}

static gboolean
read_yes (const char *text, gint64 *value)
{
  *value = strcmp (text, "yes") == 0;
  return *value || strcmp (text, "no") == 0;
}

static gboolean
read_cell (const List *list, guint row, Column column, Cell *cell, GError **error)
{
  static const char *const wanted[] = {
    [CELL_SIZE]
    = "is no size: write millimetres with at most two decimals, such as 2350 or 2350.5, up to 100000",
    [CELL_COUNT] = "is no number of copies: write a whole number from 0 to 100000",
    [CELL_YES] = "is neither yes nor no",
    [CELL_MONEY] = "is no cost: write an amount above 0 with at most four decimals, such as 189.95",
  };
  *cell = (Cell){ FALSE, 0, "" };
  if (list->at[column] < 0)
    return TRUE;
  cell->text = sw_csv_plain (sw_csv_file_cell (list->file, row, (guint) list->at[column]));
  cell->given = *cell->text != '\0';
  if (!cell->given || columns[column].kind == CELL_TEXT)
    return TRUE;
  char buf[SW_CSV_NUMBER_BUF];
  const char *number = sw_csv_file_number (list->file, cell->text, buf);
  gboolean good = columns[column].kind == CELL_SIZE ? read_size (number, &cell->value)
                  : columns[column].kind == CELL_COUNT
                      ? sw_number_read_int (number, &cell->value, NULL) && cell->value >= 0
                            && cell->value <= SW_CUT_TASK_MOST_COPIES
                  : columns[column].kind == CELL_YES
                      ? read_yes (cell->text, &cell->value)
                      : sw_money_read (number, &cell->value, NULL) && cell->value > 0;
  return good
         || refuse (list, row, (guint) list->at[column], error, "%s: \"%s\" %s", columns[column].key,
                    cell->text, wanted[columns[column].kind]);
}

/* All cells of a row; a length above 0, and a width where and only where there are rectangles. */
static gboolean
read_row (const List *list, guint row, gboolean flat, Cell *cells, GError **error)
{
  for (guint k = 0; k < N_COLUMNS; k++)
    if (!read_cell (list, row, (Column) k, &cells[k], error))
      return FALSE;
  if (cells[COLUMN_LENGTH].value == 0)
    return refuse (list, row, (guint) list->at[COLUMN_LENGTH], error,
                   "length_mm: a length above 0 is missing");
  guint width_at = (guint) MAX (list->at[COLUMN_WIDTH], 0);
  if (flat && cells[COLUMN_WIDTH].value == 0)
    return refuse (list, row, width_at, error,
                   list->of_items
                       ? "width_mm: a width above 0 is missing"
                       : "width_mm: the pieces are rectangles, so each sheet needs a width above 0");
  if (!flat && cells[COLUMN_WIDTH].given)
    return refuse (list, row, width_at, error, "width_mm: the pieces have no width, so their stock has none");
  return TRUE;
}

static guint
line_of (const List *list, guint row)
{
  guint line, character;
  sw_csv_file_place (list->file, row, 0, &line, &character);
  return line - MIN (line, list->added);
}

static gboolean
read_items (SwCutTask *task, const List *list, GError **error)
{
  Cell cells[N_COLUMNS];
  for (guint row = 1; row < sw_csv_file_n_rows (list->file); row++)
    {
      if (!read_row (list, row, task->flat, cells, error))
        return FALSE;
      gint64 copies = cells[COLUMN_COPIES].given ? cells[COLUMN_COPIES].value : 1;
      if (copies == 0)
        continue;
      sw_cut_task_add_item (task, cells[COLUMN_MARK].text, cells[COLUMN_LENGTH].value,
                            cells[COLUMN_WIDTH].value, (int) copies,
                            !cells[COLUMN_TURN].given || cells[COLUMN_TURN].value);
      g_array_index (task->items, SwCutItem, task->items->len - 1).line = line_of (list, row);
    }
  return task->items->len > 0
         || refuse (list, 0, 0, error, "there is nothing to cut: add a row below the names of the columns");
}

static gboolean
check_stock_row (const SwCutTask *task, const List *list, guint row, const Cell *cells, GError **error)
{
  if (cells[COLUMN_COPIES].given && cells[COLUMN_COPIES].value == 0)
    return refuse (list, row, (guint) list->at[COLUMN_COPIES], error,
                   "copies: none at hand: take the row out, or leave the cell empty for as many as wanted");
  if (row > 1 && cells[COLUMN_COST].given != task->priced)
    return refuse (list, row, (guint) MAX (list->at[COLUMN_COST], 0), error,
                   "cost: give every row a cost, or none");
  if (!task->flat && (cells[COLUMN_LOW].given || cells[COLUMN_HIGH].given))
    return refuse (list, row, (guint) list->at[cells[COLUMN_LOW].given ? COLUMN_LOW : COLUMN_HIGH], error,
                   "only sheets are trimmed along their sides");
  return TRUE;
}

/* What is one for all rows that name it. */
static gboolean
read_common (const List *list, guint row, Column column, const Cell *cells, gint64 *value, gboolean *known, GError **error)
{
  const Cell *cell = &cells[column];
  if (!cell->given)
    return TRUE;
  if (*known && cell->value != *value)
    return refuse (list, row, (guint) list->at[column], error,
                   column == COLUMN_KERF ? "kerf_mm: one saw cuts all of it: another row names another kerf"
                                         : "offcut_mm: one least offcut for all: another row names another");
  *value = cell->value;
  *known = TRUE;
  return TRUE;
}

static gboolean
read_stock (SwCutTask *task, const List *list, GError **error)
{
  Cell cells[N_COLUMNS];
  gboolean kerf_known = FALSE, keep_known = FALSE;
  for (guint row = 1; row < sw_csv_file_n_rows (list->file); row++)
    {
      if (!read_row (list, row, task->flat, cells, error) || !check_stock_row (task, list, row, cells, error)
          || !read_common (list, row, COLUMN_KERF, cells, &task->kerf, &kerf_known, error)
          || !read_common (list, row, COLUMN_OFFCUT, cells, &task->keep, &keep_known, error))
        return FALSE;
      task->priced = cells[COLUMN_COST].given;
      sw_cut_task_add_stock (task, cells[COLUMN_MARK].text, cells[COLUMN_LENGTH].value,
                             cells[COLUMN_WIDTH].value, cells[COLUMN_COST].value);
      SwCutStock *stock = &g_array_index (task->stock, SwCutStock, task->stock->len - 1);
      gint64 *const trims[] = { &stock->start, &stock->end, &stock->low, &stock->high };
      for (guint k = 0; k < G_N_ELEMENTS (trims); k++)
        if (k < 2 || task->flat)
          *trims[k]
              = cells[COLUMN_START + k].given ? cells[COLUMN_START + k].value : cells[COLUMN_TRIM].value;
      stock->copies = (int) cells[COLUMN_COPIES].value;
      stock->may_turn = !cells[COLUMN_TURN].given || cells[COLUMN_TURN].value;
      stock->line = line_of (list, row);
      if (stock->length - stock->start - stock->end <= 0
          || (task->flat && stock->width - stock->low - stock->high <= 0))
        return refuse (list, row, (guint) list->at[COLUMN_LENGTH], error, "the trims leave nothing of it");
    }
  return task->stock->len > 0
         || refuse (list, 0, 0, error,
                    "there is no stock to cut from: add a row below the names of the columns");
}

/* ---- the unit ---- */

/* Every size of the task. */
static void
each_size (SwCutTask *task, void (*visit) (gint64 *size, gpointer data), gpointer data)
{
  visit (&task->kerf, data);
  visit (&task->keep, data);
  for (guint i = 0; i < task->items->len; i++)
    {
      SwCutItem *item = &g_array_index (task->items, SwCutItem, i);
      visit (&item->length, data);
      visit (&item->width, data);
    }
  for (guint i = 0; i < task->stock->len; i++)
    {
      SwCutStock *stock = &g_array_index (task->stock, SwCutStock, i);
      gint64 *const sizes[]
          = { &stock->length, &stock->width, &stock->start, &stock->end, &stock->low, &stock->high };
      for (guint k = 0; k < G_N_ELEMENTS (sizes); k++)
        visit (sizes[k], data);
    }
}

static void
lessen_unit (gint64 *size, gpointer data)
{
  int *unit = data;
  while (*size % *unit != 0)
    *unit /= 10;
}

static void
divide_by (gint64 *size, gpointer data)
{
  *size /= *(const int *) data;
}

static SwCutTask *
read_both (const SwCsvFile *items, const SwCutSource *items_source, const SwCsvFile *stock, const SwCutSource *stock_source,
           GError **error)
{
  List wanted = { items, items_source->name, items_source->added, TRUE, { 0 } };
  List have = { stock, stock_source->name, stock_source->added, FALSE, { 0 } };
  if (!find_columns (&wanted, error) || !find_columns (&have, error))
    return NULL;
  g_autoptr (SwCutTask) task = sw_cut_task_new (wanted.at[COLUMN_WIDTH] >= 0, FINEST);
  int unit = FINEST;
  task->items_name = g_strdup (items_source->name);
  if (!read_items (task, &wanted, error) || !read_stock (task, &have, error))
    return NULL;
  each_size (task, lessen_unit, &unit);
  each_size (task, divide_by, &unit);
  task->per_mm = FINEST / unit;
  return g_steal_pointer (&task);
}

SwCutTask *
sw_cut_task_read (const SwCutSource *items, const SwCutSource *stock, GError **error)
{
  g_autoptr (SwCsvFile) wanted = sw_csv_read (items->text, items->length, error);
  if (wanted == NULL)
    {
      g_prefix_error (error, "%s: ", items->name);
      return NULL;
    }
  g_autoptr (SwCsvFile) have = sw_csv_read (stock->text, stock->length, error);
  if (have == NULL)
    {
      g_prefix_error (error, "%s: ", stock->name);
      return NULL;
    }
  return read_both (wanted, items, have, stock, error);
}

const char *
sw_cut_task_mm (const SwCutTask *task, gint64 size, char buf[SW_MONEY_BUF])
{
  return sw_quantity_write (size * SW_QUANTITY_ONE / task->per_mm, buf);
}

char *
sw_cut_task_size (const SwCutTask *task, gint64 length, gint64 width)
{
  char first[SW_MONEY_BUF], second[SW_MONEY_BUF];
  if (!task->flat)
    return g_strdup (sw_cut_task_mm (task, length, first));
  return g_strdup_printf ("%s × %s", sw_cut_task_mm (task, length, first),
                          sw_cut_task_mm (task, width, second));
}
