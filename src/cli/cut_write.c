/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/cut_write.h"
#include "base/number.h"
#include "cli/table.h"
#include <glib/gi18n.h>
#include <json-glib/json-glib.h>
#include <string.h>

/* What a plan comes to, in one order for all forms; numbers as text. */
typedef struct
{
  const char *key;
  char value[SW_NUMBER_BUF];
} Sum;

#define MOST_SUMS 12

static void
add_sum (Sum *sums, guint *n, const char *key, const char *value)
{
  sums[*n].key = key;
  g_strlcpy (sums[*n].value, value, sizeof sums[*n].value);
  ++*n;
}

static guint
count_pieces (const SwCutPlan *plan)
{
  guint n = 0;
  for (guint i = 0; i < plan->ways->len; i++)
    n += g_array_index (plan->ways, SwCutWay, i).times * g_array_index (plan->ways, SwCutWay, i).n;
  return n;
}

static const char *
cost_digits (const SwCutPlan *plan, gint64 cost, char buf[SW_MONEY_BUF])
{
  return plan->task->priced ? sw_money_write (cost, buf) : sw_cut_plan_metres (plan->task, cost, buf);
}

static guint
sums_of (const SwCutPlan *plan, Sum sums[MOST_SUMS])
{
  const SwCutTask *task = plan->task;
  char digits[SW_NUMBER_BUF];
  guint n = 0;
  add_sum (sums, &n, "pieces", sw_number_write (count_pieces (plan), digits));
  add_sum (sums, &n, task->flat ? "sheets" : "lengths", sw_number_write (plan->n, digits));
  add_sum (sums, &n, task->flat ? "bought_m2" : "bought_m", sw_cut_plan_metres (task, plan->bought, digits));
  add_sum (sums, &n, task->flat ? "used_m2" : "used_m", sw_cut_plan_metres (task, plan->used, digits));
  add_sum (sums, &n, task->flat ? "waste_m2" : "waste_m",
           sw_cut_plan_metres (task, sw_cut_plan_waste (plan), digits));
  add_sum (sums, &n, "waste_percent", sw_number_write_fixed (sw_cut_plan_waste_percent (plan), 1, digits));
  if (task->keep > 0)
    {
      add_sum (sums, &n, "offcuts", sw_number_write (plan->n_kept, digits));
      add_sum (sums, &n, task->flat ? "kept_m2" : "kept_m", sw_cut_plan_metres (task, plan->kept, digits));
    }
  if (task->priced)
    add_sum (sums, &n, "cost", sw_money_write (plan->cost, digits));
  if (plan->cost_bound >= 0)
    add_sum (sums, &n, task->priced ? "cost_bound" : "bought_bound_m",
             cost_digits (plan, plan->cost_bound, digits));
  add_sum (sums, &n, task->flat ? "sheets_bound" : "lengths_bound", sw_number_write (plan->n_bound, digits));
  return n;
}

/* ---- text ---- */

/* "3 × 2350 A + 1750 B" */
static char *
pieces_text (const SwCutPlan *plan, const SwCutWay *way)
{
  GString *text = g_string_new (NULL);
  for (guint k = way->first, next; k < way->first + way->n; k = next)
    {
      const SwCutPiece *piece = &g_array_index (plan->pieces, SwCutPiece, k);
      const SwCutItem *item = &g_array_index (plan->task->items, SwCutItem, piece->item);
      g_autofree char *size = sw_cut_task_size (plan->task, piece->length, piece->width);
      for (next = k + 1; next < way->first + way->n; next++)
        {
          const SwCutPiece *other = &g_array_index (plan->pieces, SwCutPiece, next);
          if (other->item != piece->item || other->turned != piece->turned)
            break;
        }
      g_string_append (text, k > way->first ? " + " : "");
      if (next - k > 1)
        g_string_append_printf (text, "%u × ", next - k);
      g_string_append (text, size);
      if (*item->mark != '\0')
        g_string_append_printf (text, " %s", item->mark);
    }
  return g_string_free (text, FALSE);
}

static char *
write_ways (const SwCutPlan *plan)
{
  const SwCliColumn columns[] = {
    { "way", N_ ("No."), TRUE },        { "times", N_ ("Times"), TRUE },
    { "stock", N_ ("Stock"), FALSE },   { "rest", plan->task->flat ? N_ ("Waste m²") : N_ ("Rest mm"), TRUE },
    { "pieces", N_ ("Pieces"), FALSE },
  };
  g_auto (SwCliTable) table = sw_cli_table (columns, G_N_ELEMENTS (columns));
  for (guint i = 0; i < plan->ways->len; i++)
    {
      const SwCutWay *way = &g_array_index (plan->ways, SwCutWay, i);
      const SwCutStock *stock = &g_array_index (plan->task->stock, SwCutStock, way->stock);
      char digits[SW_NUMBER_BUF];
      gint64 rest = plan->task->flat ? sw_cut_plan_way_waste (plan, i) : sw_cut_plan_rest (plan, way);
      g_autofree char *pieces = pieces_text (plan, way),
                      *size = sw_cut_task_size (plan->task, stock->length, stock->width);
      g_autofree char *named
          = *stock->mark != '\0' ? g_strdup_printf ("%s %s", size, stock->mark) : g_strdup (size);
      sw_cli_table_put (&table, sw_number_write (i + 1, digits));
      sw_cli_table_put (&table, sw_number_write (way->times, digits));
      sw_cli_table_put (&table, named);
      sw_cli_table_put (&table, plan->task->flat ? sw_cut_plan_metres (plan->task, rest, digits)
                                                 : sw_cut_task_mm (plan->task, rest, digits));
      sw_cli_table_put (&table, pieces);
    }
  return sw_cli_table_write (&table, "text");
}

static char *
write_text (const SwCutPlan *plan)
{
  g_auto (GStrv) sentences = sw_cut_sentences (plan, SW_LENGTHS_MM);
  g_autoptr (GArray) bought = sw_cut_plan_bought (plan);
  g_autofree char *ways = write_ways (plan), *head = g_strjoinv ("\n", sentences);
  GString *text = g_string_new (NULL);
  g_string_append_printf (text, "%s\n\n%s\n", head, _("To buy:"));
  for (guint i = 0; i < bought->len; i++)
    if (g_array_index (bought, guint, i) > 0)
      {
        g_autofree char *line = sw_cut_bought_text (plan, i, g_array_index (bought, guint, i), SW_LENGTHS_MM);
        g_string_append_printf (text, "  %s\n", line);
      }
  g_string_append_printf (text, "\n%s", ways);
  return g_string_free (text, FALSE);
}

/* ---- CSV ---- */

static const SwCliColumn columns[] = {
  { "row", NULL, FALSE },
  { "way", NULL, TRUE },
  { "times", NULL, TRUE },
  { "stock", NULL, FALSE },
  { "stock_length_mm", NULL, TRUE },
  { "stock_width_mm", NULL, TRUE },
  { "piece", NULL, TRUE },
  { "mark", NULL, FALSE },
  { "x_mm", NULL, TRUE },
  { "y_mm", NULL, TRUE },
  { "length_mm", NULL, TRUE },
  { "width_mm", NULL, TRUE },
  { "turned", NULL, FALSE },
  { "value", NULL, FALSE },
};

static void
put_size (SwCliTable *table, const SwCutTask *task, gint64 size, gboolean there)
{
  char digits[SW_MONEY_BUF];
  sw_cli_table_put (table, there ? sw_cut_task_mm (task, size, digits) : NULL);
}

static void
put_piece (SwCliTable *table, const SwCutPlan *plan, guint i, guint k)
{
  const SwCutTask *task = plan->task;
  const SwCutWay *way = &g_array_index (plan->ways, SwCutWay, i);
  const SwCutPiece *piece = &g_array_index (plan->pieces, SwCutPiece, way->first + k);
  const SwCutStock *stock = &g_array_index (task->stock, SwCutStock, way->stock);
  char digits[SW_NUMBER_BUF];
  sw_cli_table_put (table, "piece");
  sw_cli_table_put (table, sw_number_write (i + 1, digits));
  sw_cli_table_put (table, sw_number_write (way->times, digits));
  sw_cli_table_put (table, stock->mark);
  put_size (table, task, stock->length, TRUE);
  put_size (table, task, stock->width, task->flat);
  sw_cli_table_put (table, sw_number_write (k + 1, digits));
  sw_cli_table_put (table, g_array_index (task->items, SwCutItem, piece->item).mark);
  put_size (table, task, piece->x, TRUE);
  put_size (table, task, piece->y, task->flat);
  put_size (table, task, piece->length, TRUE);
  put_size (table, task, piece->width, task->flat);
  sw_cli_table_put (table, !task->flat ? NULL : piece->turned ? "yes" : "no");
  sw_cli_table_put (table, NULL);
}

static void
put_offcut (SwCliTable *table, const SwCutPlan *plan, const SwCutOffcut *offcut)
{
  const SwCutTask *task = plan->task;
  const SwCutWay *way = &g_array_index (plan->ways, SwCutWay, offcut->way);
  const SwCutStock *stock = &g_array_index (task->stock, SwCutStock, way->stock);
  char digits[SW_NUMBER_BUF];
  sw_cli_table_put (table, "offcut");
  sw_cli_table_put (table, sw_number_write (offcut->way + 1, digits));
  sw_cli_table_put (table, sw_number_write (way->times, digits));
  sw_cli_table_put (table, stock->mark);
  put_size (table, task, stock->length, TRUE);
  put_size (table, task, stock->width, task->flat);
  sw_cli_table_put (table, NULL);
  sw_cli_table_put (table, NULL);
  put_size (table, task, offcut->x, TRUE);
  put_size (table, task, offcut->y, task->flat);
  put_size (table, task, offcut->length, TRUE);
  put_size (table, task, offcut->width, task->flat);
  sw_cli_table_put (table, NULL);
  sw_cli_table_put (table, NULL);
}

static void
put_sum (SwCliTable *table, const char *key, const char *value)
{
  sw_cli_table_put (table, "sum");
  for (guint i = 1; i < table->n - 1; i++)
    sw_cli_table_put (table, strcmp (columns[i].key, "mark") == 0 ? key : NULL);
  sw_cli_table_put (table, value);
}

static char *
write_csv (const SwCutPlan *plan)
{
  g_auto (SwCliTable) table = sw_cli_table (columns, G_N_ELEMENTS (columns));
  Sum sums[MOST_SUMS];
  guint n = sums_of (plan, sums);
  for (guint i = 0; i < plan->ways->len; i++)
    for (guint k = 0; k < g_array_index (plan->ways, SwCutWay, i).n; k++)
      put_piece (&table, plan, i, k);
  for (guint i = 0; i < plan->offcuts->len; i++)
    put_offcut (&table, plan, &g_array_index (plan->offcuts, SwCutOffcut, i));
  for (guint i = 0; i < n; i++)
    put_sum (&table, sums[i].key, sums[i].value);
  put_sum (&table, "proven", plan->proven ? "yes" : "no");
  return sw_cli_table_write (&table, "csv");
}

/* ---- JSON ---- */

/* A number as it is written elsewhere, but as a number. */
static void
add_number (JsonBuilder *json, const char *key, const char *digits)
{
  double value = 0;
  sw_number_read (digits, &value, NULL);
  json_builder_set_member_name (json, key);
  if (strchr (digits, '.') == NULL)
    json_builder_add_int_value (json, (gint64) value);
  else
    json_builder_add_double_value (json, value);
}

static void
add_size (JsonBuilder *json, const char *key, const SwCutTask *task, gint64 size)
{
  char digits[SW_MONEY_BUF];
  add_number (json, key, sw_cut_task_mm (task, size, digits));
}

static void
add_text (JsonBuilder *json, const char *key, const char *text)
{
  json_builder_set_member_name (json, key);
  json_builder_add_string_value (json, text);
}

static void
add_piece (JsonBuilder *json, const SwCutTask *task, const SwCutPiece *piece)
{
  json_builder_begin_object (json);
  add_text (json, "mark", g_array_index (task->items, SwCutItem, piece->item).mark);
  add_size (json, "x_mm", task, piece->x);
  add_size (json, "length_mm", task, piece->length);
  if (task->flat)
    {
      add_size (json, "y_mm", task, piece->y);
      add_size (json, "width_mm", task, piece->width);
      json_builder_set_member_name (json, "turned");
      json_builder_add_boolean_value (json, piece->turned);
    }
  json_builder_end_object (json);
}

static void
add_line (JsonBuilder *json, const SwCutTask *task, const SwCutLine *line)
{
  json_builder_begin_object (json);
  add_size (json, line->upright ? "x_mm" : "y_mm", task, line->at);
  add_size (json, "from_mm", task, line->from);
  add_size (json, "to_mm", task, line->to);
  json_builder_end_object (json);
}

static void
add_offcuts (JsonBuilder *json, const SwCutPlan *plan, guint way)
{
  json_builder_set_member_name (json, "offcuts");
  json_builder_begin_array (json);
  for (guint i = 0; i < plan->offcuts->len; i++)
    {
      const SwCutOffcut *offcut = &g_array_index (plan->offcuts, SwCutOffcut, i);
      if (offcut->way != way)
        continue;
      json_builder_begin_object (json);
      add_size (json, "x_mm", plan->task, offcut->x);
      add_size (json, "length_mm", plan->task, offcut->length);
      if (plan->task->flat)
        {
          add_size (json, "y_mm", plan->task, offcut->y);
          add_size (json, "width_mm", plan->task, offcut->width);
        }
      json_builder_end_object (json);
    }
  json_builder_end_array (json);
}

static void
add_way (JsonBuilder *json, const SwCutPlan *plan, guint index)
{
  const SwCutWay *way = &g_array_index (plan->ways, SwCutWay, index);
  const SwCutTask *task = plan->task;
  const SwCutStock *stock = &g_array_index (task->stock, SwCutStock, way->stock);
  json_builder_begin_object (json);
  json_builder_set_member_name (json, "times");
  json_builder_add_int_value (json, way->times);
  add_text (json, "stock", stock->mark);
  add_size (json, "length_mm", task, stock->length);
  if (task->flat)
    add_size (json, "width_mm", task, stock->width);
  json_builder_set_member_name (json, "pieces");
  json_builder_begin_array (json);
  for (guint k = 0; k < way->n; k++)
    add_piece (json, task, &g_array_index (plan->pieces, SwCutPiece, way->first + k));
  json_builder_end_array (json);
  if (task->flat)
    {
      json_builder_set_member_name (json, "cuts");
      json_builder_begin_array (json);
      for (guint k = 0; k < way->n_lines; k++)
        add_line (json, task, &g_array_index (plan->lines, SwCutLine, way->first_line + k));
      json_builder_end_array (json);
    }
  if (task->keep > 0)
    add_offcuts (json, plan, index);
  json_builder_end_object (json);
}

static char *
write_json (const SwCutPlan *plan)
{
  g_autoptr (JsonBuilder) json = json_builder_new ();
  Sum sums[MOST_SUMS];
  guint n = sums_of (plan, sums);
  json_builder_begin_object (json);
  for (guint i = 0; i < n; i++)
    if (g_str_has_prefix (sums[i].key, "cost"))
      add_text (json, sums[i].key, sums[i].value);
    else
      add_number (json, sums[i].key, sums[i].value);
  json_builder_set_member_name (json, "proven");
  json_builder_add_boolean_value (json, plan->proven);
  json_builder_set_member_name (json, "ways");
  json_builder_begin_array (json);
  for (guint i = 0; i < plan->ways->len; i++)
    add_way (json, plan, i);
  json_builder_end_array (json);
  json_builder_end_object (json);
  g_autoptr (JsonNode) root = json_builder_get_root (json);
  g_autofree char *text = json_to_string (root, TRUE);
  return g_strconcat (text, "\n", NULL);
}

char *
sw_cli_cut_write (const SwCutPlan *plan, const char *format)
{
  if (strcmp (format, "csv") == 0)
    return write_csv (plan);
  return strcmp (format, "json") == 0 ? write_json (plan) : write_text (plan);
}
