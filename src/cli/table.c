/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/table.h"
#include "base/csv.h"
#include <glib/gi18n.h>
#include <json-glib/json-glib.h>

SwCliTable
sw_cli_table (const SwCliColumn *columns, guint n)
{
  return (SwCliTable){ columns, n, g_ptr_array_new_with_free_func (g_free) };
}

void
sw_cli_table_clear (SwCliTable *table)
{
  g_clear_pointer (&table->cells, g_ptr_array_unref);
}

void
sw_cli_table_put (SwCliTable *table, const char *cell)
{
  g_ptr_array_add (table->cells, g_strdup (cell != NULL ? cell : ""));
}

static const char *
cell_at (const SwCliTable *table, guint row, guint column)
{
  return table->cells->pdata[row * table->n + column];
}

static char *
write_csv (const SwCliTable *table)
{
  g_autoptr (SwCsv) csv = sw_csv_new ();
  for (guint i = 0; i < table->n; i++)
    sw_csv_add_text (csv, table->columns[i].key);
  sw_csv_end_row (csv);
  for (guint row = 0; row < table->cells->len / table->n; row++)
    {
      for (guint i = 0; i < table->n; i++)
        if (table->columns[i].number && *cell_at (table, row, i) != '\0')
          sw_csv_add_number (csv, cell_at (table, row, i));
        else
          sw_csv_add_text (csv, cell_at (table, row, i));
      sw_csv_end_row (csv);
    }
  return sw_csv_text (csv);
}

static char *
write_json (const SwCliTable *table)
{
  g_autoptr (JsonBuilder) json = json_builder_new ();
  json_builder_begin_array (json);
  for (guint row = 0; row < table->cells->len / table->n; row++)
    {
      json_builder_begin_object (json);
      for (guint i = 0; i < table->n; i++)
        {
          json_builder_set_member_name (json, table->columns[i].key);
          json_builder_add_string_value (json, cell_at (table, row, i));
        }
      json_builder_end_object (json);
    }
  json_builder_end_array (json);
  g_autoptr (JsonNode) root = json_builder_get_root (json);
  g_autofree char *text = json_to_string (root, TRUE);
  return g_strconcat (text, "\n", NULL);
}

static void
put_padded (GString *line, const char *text, glong width, gboolean right)
{
  glong gap = MAX (0, width - g_utf8_strlen (text, -1));
  if (!right)
    g_string_append (line, text);
  g_string_append_printf (line, "%*s", (int) gap, "");
  if (right)
    g_string_append (line, text);
  g_string_append (line, "  ");
}

static void
put_line (const SwCliTable *table, const glong *widths, guint row, gboolean heading, GString *out)
{
  g_autoptr (GString) line = g_string_new (NULL);
  for (guint i = 0; i < table->n; i++)
    if (table->columns[i].title != NULL)
      put_padded (line, heading ? _(table->columns[i].title) : cell_at (table, row, i), widths[i], table->columns[i].number);
  g_string_append_printf (out, "%s\n", g_strchomp (line->str));
}

static char *
write_text (const SwCliTable *table)
{
  GString *out = g_string_new (NULL);
  g_autofree glong *widths = g_new0 (glong, table->n);
  guint n_rows = table->cells->len / table->n;
  for (guint i = 0; i < table->n; i++)
    {
      widths[i] = table->columns[i].title != NULL ? g_utf8_strlen (_(table->columns[i].title), -1) : 0;
      for (guint row = 0; row < n_rows; row++)
        widths[i] = MAX (widths[i], g_utf8_strlen (cell_at (table, row, i), -1));
    }
  put_line (table, widths, 0, TRUE, out);
  for (guint row = 0; row < n_rows; row++)
    put_line (table, widths, row, FALSE, out);
  return g_string_free (out, FALSE);
}

char *
sw_cli_table_write (const SwCliTable *table, const char *format)
{
  if (g_strcmp0 (format, "csv") == 0)
    return write_csv (table);
  return g_strcmp0 (format, "json") == 0 ? write_json (table) : write_text (table);
}
