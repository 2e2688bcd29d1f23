/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Columns are the fields of the price table, so a new field is a new column. All rows go into one edit, which is only given out
 * when the last of them was good. */
#include "store/price_list.h"
#include "base/csv.h"
#include "base/csv_read.h"
#include "base/error.h"
#include "base/number.h"
#include "base/paths.h"
#include "base/text.h"
#include "store/nearest.h"
#include <string.h>

#define CODE "code"

static const SwStruct *
price_fields (void)
{
  return &sw_type_get (SW_TABLE_PRICE)->body;
}

typedef struct
{
  const SwJob *job;
  const SwCsvFile *file;
  const char *name;
  const SwField **fields; /* one a column; NULL for the code's */
  guint code;             /* its column */
  GHashTable *rows;       /* code → SwPrice of the job */
  GHashTable *marks;      /* of all else in the job */
  GHashTable *seen;       /* codes of the file */
  SwEdit *edit;
  guint n_new;
} Reading;

static gboolean refuse (const Reading *reading, guint row, guint column, GError **error, const char *format, ...) G_GNUC_PRINTF (5, 6);

static gboolean
refuse (const Reading *reading, guint row, guint column, GError **error, const char *format, ...)
{
  guint line, character;
  va_list args;
  va_start (args, format);
  g_autofree char *what = g_strdup_vprintf (format, args);
  va_end (args);
  sw_csv_file_place (reading->file, row, column, &line, &character);
  g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "%s: line %u, character %u: %s", reading->name, line, character, what);
  return FALSE;
}

static gboolean
refuse_column (const Reading *reading, guint column, GError **error)
{
  const char *name = sw_csv_file_cell (reading->file, 0, column);
  SwNearest nearest = sw_nearest_new (name);
  g_autoptr (GString) names = g_string_new (CODE);
  sw_nearest_offer (&nearest, CODE);
  for (guint i = 0; i < price_fields ()->n_fields; i++)
    {
      sw_nearest_offer (&nearest, price_fields ()->fields[i].key);
      g_string_append_printf (names, ", %s", price_fields ()->fields[i].key);
    }
  g_autofree char *hint = sw_nearest_hint (&nearest);
  return refuse (reading, 0, column, error, "there is no column \"%s\"%s (columns are %s, parted by commas, semicolons or tabs)", name, hint, names->str);
}

static gboolean
read_columns (Reading *reading, GError **error)
{
  guint n = sw_csv_file_n_columns (reading->file);
  reading->code = n;
  for (guint i = 0; i < n; i++)
    {
      const char *name = sw_csv_file_cell (reading->file, 0, i);
      reading->fields[i] = sw_struct_field (price_fields (), name);
      for (guint k = 0; k < i; k++)
        if (strcmp (name, sw_csv_file_cell (reading->file, 0, k)) == 0)
          return refuse (reading, 0, i, error, "the column \"%s\" stands twice", name);
      if (strcmp (name, CODE) == 0)
        reading->code = i;
      else if (reading->fields[i] == NULL)
        return refuse_column (reading, i, error);
    }
  return reading->code < n || refuse (reading, 0, 0, error, "the column \"" CODE "\" is missing");
}

/* An empty cell is the first word. */
static gboolean
read_word (const SwField *field, const char *cell, int *word, GError **error)
{
  g_autoptr (GString) words = g_string_new (NULL);
  *word = 0;
  for (int i = 0; field->words[i].key != NULL; i++)
    {
      if (strcmp (field->words[i].key, cell) == 0)
        *word = i;
      g_string_append_printf (words, "%s%s", i > 0 ? ", " : "", field->words[i].key);
    }
  if (*cell == '\0' || strcmp (field->words[*word].key, cell) == 0)
    return TRUE;
  g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "\"%s\" is none of %s", cell, words->str);
  return FALSE;
}

static gboolean
read_cell (const Reading *reading, guint row, guint column, SwRecord *record, GError **error)
{
  const SwField *field = reading->fields[column];
  const char *cell = sw_csv_file_cell (reading->file, row, column);
  g_autoptr (GError) fault = NULL;
  gboolean good = TRUE;
  char buf[SW_CSV_NUMBER_BUF];
  const char *number = *cell != '\0' ? sw_csv_file_number (reading->file, cell, buf) : "0";
  if (field->kind == SW_FIELD_TEXT)
    sw_text_set (&SW_AT (record, field, char *), sw_csv_plain (cell));
  else if (field->kind == SW_FIELD_MONEY)
    good = sw_money_read (number, &SW_AT (record, field, SwMoney), &fault);
  else if (field->kind == SW_FIELD_ENUM)
    good = read_word (field, cell, &SW_AT (record, field, int), &fault);
  else
    good = sw_number_read (number, &SW_AT (record, field, double), &fault);
  return good || refuse (reading, row, column, error, "%s: %s", field->key, fault->message);
}

/* The row's record: a copy of the job's, or a new one. NULL when its code cannot be. */
static SwRecord *
record_for (Reading *reading, guint row, GError **error)
{
  const char *code = sw_csv_plain (sw_csv_file_cell (reading->file, row, reading->code));
  const SwRecord *old = g_hash_table_lookup (reading->rows, code);
  gboolean good = TRUE;
  if (*code == '\0')
    good = refuse (reading, row, reading->code, error, "the code is missing");
  else if (!g_hash_table_add (reading->seen, (gpointer) code))
    good = refuse (reading, row, reading->code, error, "the code \"%s\" stands twice", code);
  else if (g_hash_table_contains (reading->marks, code))
    good = refuse (reading, row, reading->code, error, "\"%s\" is the mark of something else in the job; give the price another code", code);
  if (!good)
    return NULL;
  return old != NULL ? sw_record_copy (old) : sw_record_new (sw_job_next_id (reading->job, SW_TABLE_PRICE, reading->n_new++), code);
}

static gboolean
read_row (Reading *reading, guint row, GError **error)
{
  g_autoptr (SwRecord) record = record_for (reading, row, error);
  g_autoptr (GError) fault = NULL;
  if (record == NULL)
    return FALSE;
  for (guint i = 0; i < sw_csv_file_n_columns (reading->file); i++)
    if (i != reading->code && !read_cell (reading, row, i, record, error))
      return FALSE;
  const SwRecord *old = g_hash_table_lookup (reading->rows, record->tag);
  if (old != NULL && sw_record_equal (old, record))
    return TRUE;
  return sw_edit_put (reading->edit, reading->job, g_steal_pointer (&record), &fault)
         || refuse (reading, row, reading->code, error, "%s", fault->message);
}

static void
gather_marks (Reading *reading)
{
  const SwRecord *record;
  for (guint table = 0; table < SW_N_TABLES; table++)
    for (SwJobIter i = sw_job_iter (reading->job, (SwTable) table); (record = sw_job_iter_next (&i)) != NULL;)
      if (table == SW_TABLE_PRICE)
        g_hash_table_insert (reading->rows, record->tag, (gpointer) record);
      else
        g_hash_table_add (reading->marks, record->tag);
}

SwEdit *
sw_price_list_read (const SwJob *job, const char *text, gssize length, const char *name, GError **error)
{
  g_autoptr (SwCsvFile) file = sw_csv_read (text, length, error);
  if (file == NULL)
    {
      g_prefix_error (error, "%s: ", name);
      return NULL;
    }
  g_autofree const SwField **fields = g_new0 (const SwField *, sw_csv_file_n_columns (file));
  g_autoptr (GHashTable) rows = g_hash_table_new (g_str_hash, g_str_equal), marks = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);
  g_autoptr (SwEdit) edit = sw_edit_new (N_("Read price list"));
  Reading reading = { job, file, name, fields, 0, rows, marks, seen, edit, 0 };
  gather_marks (&reading);
  if (!read_columns (&reading, error))
    return NULL;
  for (guint row = 1; row < sw_csv_file_n_rows (file); row++)
    if (!read_row (&reading, row, error))
      return NULL;
  return g_steal_pointer (&edit);
}

SwEdit *
sw_price_list_load (const SwJob *job, const char *path, GError **error)
{
  g_autofree char *text = NULL, *name = g_filename_display_name (path);
  g_autoptr (GError) fault = NULL;
  gsize length;
  if (g_file_get_contents (path, &text, &length, &fault))
    return sw_price_list_read (job, text, (gssize) length, name, error);
  g_set_error (error, SW_ERROR, SW_ERROR_IO, "%s", fault->message);
  return NULL;
}

/* Plain figures, never a power of ten. */
static const char *
write_number (double value, char buf[SW_NUMBER_BUF])
{
  return strchr (sw_number_write (value, buf), 'e') != NULL ? sw_number_write_fixed (value, 9, buf) : buf;
}

static void
write_cell (SwCsv *csv, const SwField *field, const SwRecord *record)
{
  char number[SW_NUMBER_BUF], money[SW_MONEY_BUF];
  if (field->kind == SW_FIELD_TEXT)
    sw_csv_add_text (csv, SW_AT (record, field, char *));
  else if (field->kind == SW_FIELD_MONEY)
    sw_csv_add_number (csv, sw_money_write (SW_AT (record, field, SwMoney), money));
  else if (field->kind == SW_FIELD_ENUM)
    sw_csv_add_text (csv, SW_AT (record, field, int) > 0 ? field->words[SW_AT (record, field, int)].key : "");
  else
    sw_csv_add_number (csv, write_number (SW_AT (record, field, double), number));
}

char *
sw_price_list_write (const SwJob *job)
{
  g_autoptr (SwCsv) csv = sw_csv_new ();
  const SwStruct *kind = price_fields ();
  const SwRecord *record;
  sw_csv_add_text (csv, CODE);
  for (guint i = 0; i < kind->n_fields; i++)
    sw_csv_add_text (csv, kind->fields[i].key);
  sw_csv_end_row (csv);
  for (SwJobIter iter = sw_job_iter (job, SW_TABLE_PRICE); (record = sw_job_iter_next (&iter)) != NULL;)
    {
      sw_csv_add_text (csv, record->tag);
      for (guint i = 0; i < kind->n_fields; i++)
        write_cell (csv, &kind->fields[i], record);
      sw_csv_end_row (csv);
    }
  return sw_csv_text (csv);
}

SwJob *
sw_price_list_or_default (SwJob *job, GError **error)
{
  if (sw_job_count (job, SW_TABLE_PRICE) > 0)
    return sw_job_ref (job);
  g_autofree char *path = sw_data_path ("prices.csv");
  g_autoptr (SwEdit) edit = sw_price_list_load (job, path, error);
  return edit != NULL ? sw_job_apply (job, edit, TRUE, error) : NULL;
}
