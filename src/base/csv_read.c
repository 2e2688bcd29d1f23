/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One pass over the bytes, cell by cell; texts go into one pool, so a file costs its size and a few words a cell. Lines are
 * counted at LF, inside quotes too, so that a place is what an editor shows. */
#include "base/csv_read.h"
#include "base/csv.h"
#include "base/error.h"
#include <string.h>

typedef struct
{
  gsize text; /* offset in the pool */
  guint line, character;
} Cell;

struct _SwCsvFile
{
  GString *pool;
  GArray *cells; /* Cell, row by row */
  guint n_columns;
  char parting;
};

typedef struct
{
  const char *at, *end, *line_start;
  guint line;
  SwCsvFile *file;
} Reader;

static guint
character_of (const Reader *reader, const char *at)
{
  return (guint) g_utf8_pointer_to_offset (reader->line_start, at) + 1;
}

static gboolean refuse (const Reader *reader, GError **error, const char *format, ...) G_GNUC_PRINTF (3, 4);

static gboolean
refuse (const Reader *reader, GError **error, const char *format, ...)
{
  va_list args;
  va_start (args, format);
  g_autofree char *what = g_strdup_vprintf (format, args);
  va_end (args);
  g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "line %u, character %u: %s", reader->line, character_of (reader, reader->at), what);
  return FALSE;
}

static const char *
parting_word (const Reader *reader)
{
  return reader->file->parting == ';' ? "a semicolon" : reader->file->parting == '\t' ? "a tab" : "a comma";
}

static gboolean
at_line_end (const Reader *reader)
{
  return *reader->at == '\n' || (*reader->at == '\r' && reader->at + 1 < reader->end && reader->at[1] == '\n');
}

static void
pass_line_end (Reader *reader)
{
  reader->at += *reader->at == '\r' ? 2 : 1;
  reader->line_start = reader->at;
  reader->line++;
}

/* After the opening quote, up to past the closing one. */
static gboolean
read_quoted (Reader *reader, GError **error)
{
  Reader opening = *reader;
  reader->at++;
  while (reader->at < reader->end)
    {
      if (*reader->at == '"' && (reader->at + 1 == reader->end || reader->at[1] != '"'))
        {
          reader->at++;
          if (reader->at == reader->end || *reader->at == reader->file->parting || at_line_end (reader))
            return TRUE;
          return refuse (reader, error, "after a closing quote only %s or the line's end may follow; double the quotes inside a cell", parting_word (reader));
        }
      reader->at += *reader->at == '"';
      g_string_append_c (reader->file->pool, *reader->at);
      if (*reader->at++ == '\n')
        {
          reader->line_start = reader->at;
          reader->line++;
        }
    }
  return refuse (&opening, error, "this quote is never closed");
}

static gboolean
read_bare (Reader *reader, GError **error)
{
  for (; reader->at < reader->end && *reader->at != reader->file->parting && !at_line_end (reader); reader->at++)
    {
      if (*reader->at == '"')
        return refuse (reader, error, "a quote inside a cell; put the whole cell between quotes and double those inside");
      if (*reader->at == '\r')
        return refuse (reader, error, "a carriage return without a line feed");
      g_string_append_c (reader->file->pool, *reader->at);
    }
  return TRUE;
}

static gboolean
read_cell (Reader *reader, GError **error)
{
  Cell cell = { reader->file->pool->len, reader->line, character_of (reader, reader->at) };
  gboolean quoted = reader->at < reader->end && *reader->at == '"';
  if (!(quoted ? read_quoted (reader, error) : read_bare (reader, error)))
    return FALSE;
  g_string_append_c (reader->file->pool, '\0');
  g_array_append_val (reader->file->cells, cell);
  if (reader->file->cells->len <= SW_CSV_MOST)
    return TRUE;
  g_set_error (error, SW_ERROR, SW_ERROR_LIMIT, "line %u: more than %d cells", reader->line, SW_CSV_MOST);
  return FALSE;
}

static gboolean
read_row (Reader *reader, GError **error)
{
  guint first = reader->file->cells->len, line = reader->line;
  while (TRUE)
    {
      if (!read_cell (reader, error))
        return FALSE;
      if (reader->at == reader->end || *reader->at != reader->file->parting)
        break;
      reader->at++;
    }
  guint n = reader->file->cells->len - first;
  if (first == 0)
    reader->file->n_columns = n;
  if (n != reader->file->n_columns)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "line %u: %u cells, where the first line has %u", line, n, reader->file->n_columns);
      return FALSE;
    }
  if (reader->at < reader->end)
    pass_line_end (reader);
  return TRUE;
}

static gboolean
check_text (const char *text, gsize length, GError **error)
{
  const char *bad;
  if (g_utf8_validate_len (text, length, &bad))
    return TRUE;
  guint line = 1;
  for (const char *p = text; p < bad; p++)
    line += *p == '\n';
  g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "line %u: not UTF-8 text; save the file as UTF-8", line);
  return FALSE;
}

/* What stands between quotes parts nothing. */
static char
parting_of (const char *at, const char *end)
{
  char parting = ',';
  gboolean quoted = FALSE;
  for (; at < end && (quoted || *at != '\n'); at++)
    if (quoted || *at == '"')
      quoted ^= *at == '"';
    else if (*at == ',')
      return ',';
    else if (*at == ';' || (*at == '\t' && parting == ','))
      parting = *at;
  return parting;
}

SwCsvFile *
sw_csv_read (const char *text, gssize length, GError **error)
{
  gsize size = length < 0 ? strlen (text) : (gsize) length;
  if (!check_text (text, size, error))
    return NULL;
  g_autoptr (SwCsvFile) file = g_new0 (SwCsvFile, 1);
  file->pool = g_string_new (NULL);
  file->cells = g_array_new (FALSE, FALSE, sizeof (Cell));
  gsize mark = size >= 3 && memcmp (text, "\xef\xbb\xbf", 3) == 0 ? 3 : 0;
  file->parting = parting_of (text + mark, text + size);
  Reader reader = { text + mark, text + size, text + mark, 1, file };
  while (reader.at < reader.end)
    if (!read_row (&reader, error))
      return NULL;
  if (file->n_columns > 0)
    return g_steal_pointer (&file);
  g_set_error_literal (error, SW_ERROR, SW_ERROR_INVALID, "line 1: the names of the columns are missing");
  return NULL;
}

void
sw_csv_file_free (SwCsvFile *file)
{
  g_string_free (file->pool, TRUE);
  g_array_unref (file->cells);
  g_free (file);
}

guint
sw_csv_file_n_columns (const SwCsvFile *file)
{
  return file->n_columns;
}

guint
sw_csv_file_n_rows (const SwCsvFile *file)
{
  return file->cells->len / file->n_columns;
}

static const Cell *
cell_at (const SwCsvFile *file, guint row, guint column)
{
  g_assert (column < file->n_columns && row < sw_csv_file_n_rows (file));
  return &g_array_index (file->cells, Cell, row * file->n_columns + column);
}

const char *
sw_csv_file_cell (const SwCsvFile *file, guint row, guint column)
{
  return file->pool->str + cell_at (file, row, column)->text;
}

const char *
sw_csv_file_number (const SwCsvFile *file, const char *cell, char buf[SW_CSV_NUMBER_BUF])
{
  char *comma;
  if (file->parting == ',' || strchr (cell, ',') == NULL || strlen (cell) >= SW_CSV_NUMBER_BUF)
    return cell;
  g_strlcpy (buf, cell, SW_CSV_NUMBER_BUF);
  comma = strchr (buf, ',');
  *comma = '.';
  return buf;
}

void
sw_csv_file_place (const SwCsvFile *file, guint row, guint column, guint *line, guint *character)
{
  const Cell *cell = cell_at (file, row, column);
  *line = cell->line;
  *character = cell->character;
}

const char *
sw_csv_plain (const char *cell)
{
  return *cell == '\'' && sw_csv_is_formula (cell) ? cell + 1 : cell;
}
