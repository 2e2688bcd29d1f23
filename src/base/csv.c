/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/csv.h"
#include <string.h>

struct _SwCsv
{
  GString *text;
  gboolean in_row;
};

SwCsv *
sw_csv_new (void)
{
  SwCsv *csv = g_new0 (SwCsv, 1);
  csv->text = g_string_new (NULL);
  return csv;
}

void
sw_csv_free (SwCsv *csv)
{
  g_string_free (csv->text, TRUE);
  g_free (csv);
}

static void
next_cell (SwCsv *csv)
{
  if (csv->in_row)
    g_string_append_c (csv->text, ',');
  csv->in_row = TRUE;
}

/* Source of the list: OWASP, "CSV injection". */
gboolean
sw_csv_is_formula (const char *text)
{
  static const char *const starts[] = { "=", "+", "-", "@", "\t", "\r", "\n", "\xef\xbc\x9d", "\xef\xbc\x8b", "\xef\xbc\x8d", "\xef\xbc\xa0" };
  text += strspn (text, "'");
  for (gsize i = 0; i < G_N_ELEMENTS (starts); i++)
    if (g_str_has_prefix (text, starts[i]))
      return TRUE;
  return FALSE;
}

static gboolean
needs_quotes (const char *text)
{
  gsize length = strlen (text);
  return strpbrk (text, ",\";\t\r\n") != NULL || (length > 0 && (text[0] == ' ' || text[length - 1] == ' '));
}

void
sw_csv_add_text (SwCsv *csv, const char *text)
{
  g_autofree char *valid = g_utf8_make_valid (text != NULL ? text : "", -1);
  g_autofree char *safe = g_strconcat (sw_csv_is_formula (valid) ? "'" : "", valid, NULL);
  next_cell (csv);
  if (!needs_quotes (safe))
    {
      g_string_append (csv->text, safe);
      return;
    }
  g_string_append_c (csv->text, '"');
  for (const char *at = safe; *at != '\0'; at++)
    {
      if (*at == '"')
        g_string_append_c (csv->text, '"');
      g_string_append_c (csv->text, *at);
    }
  g_string_append_c (csv->text, '"');
}

void
sw_csv_add_number (SwCsv *csv, const char *digits)
{
  const char *first = digits + (*digits == '-');
  gsize whole = strspn (first, "0123456789"), n = whole;
  if (first[n] == '.')
    n += 1 + strspn (first + n + 1, "0123456789");
  g_assert (whole > 0 && first[n] == '\0');
  next_cell (csv);
  g_string_append (csv->text, digits);
}

void
sw_csv_end_row (SwCsv *csv)
{
  g_string_append (csv->text, "\r\n");
  csv->in_row = FALSE;
}

char *
sw_csv_text (const SwCsv *csv)
{
  return g_strdup (csv->text->str);
}
