/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sheets/context.h"
#include "sheets/words.h"
#include <string.h>

/* Length of the figures at the start, and where they begin after zeros. */
static gsize
figures (const char *text, const char **first)
{
  gsize n = 0, zeros = 0;
  while (g_ascii_isdigit (text[n]))
    n++;
  while (zeros + 1 < n && text[zeros] == '0')
    zeros++;
  *first = text + zeros;
  return n;
}

int
sw_sheet_mark_compare (const char *a, const char *b)
{
  const char *start_a = a, *start_b = b;
  while (*a != '\0' && *b != '\0')
    {
      const char *first_a, *first_b;
      gsize n = figures (a, &first_a), m = figures (b, &first_b);
      if (n > 0 && m > 0)
        {
          gsize left = (gsize) (a + n - first_a), right = (gsize) (b + m - first_b);
          int order = left != right ? (left < right ? -1 : 1) : memcmp (first_a, first_b, left);
          if (order != 0)
            return order;
          a += n;
          b += m;
          continue;
        }
      if (*a != *b)
        return (guchar) *a < (guchar) *b ? -1 : 1;
      a++;
      b++;
    }
  if (*a != *b)
    return *a == '\0' ? -1 : 1;
  return strcmp (start_a, start_b);
}

static int
record_compare (gconstpointer a, gconstpointer b)
{
  const SwRecord *first = *(const SwRecord *const *) a, *second = *(const SwRecord *const *) b;
  int order = sw_sheet_mark_compare (first->tag, second->tag);
  return order != 0 ? order : first->id < second->id ? -1 : first->id > second->id;
}

GPtrArray *
sw_sheet_records (const SwJob *job, SwTable table)
{
  GPtrArray *records = g_ptr_array_new ();
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, table); (record = sw_job_iter_next (&i)) != NULL;)
    g_ptr_array_add (records, (gpointer) record);
  g_ptr_array_sort (records, record_compare);
  return records;
}

const char *
sw_sheet_word (SwTable table, const char *field, int value)
{
  const SwField *kind = sw_struct_field (&sw_type_get (table)->body, field);
  g_assert (kind != NULL && kind->kind == SW_FIELD_ENUM);
  return sw_word (kind->words[value].label);
}

char *
sw_sheet_end_name (const SwJob *job, SwId id)
{
  const SwRecord *record = sw_job_get (job, id);
  if (record == NULL)
    return g_strdup ("");
  switch (sw_record_table (record))
    {
    case SW_TABLE_FITTING:
      return g_strdup_printf ("%s %s", sw_sheet_word (SW_TABLE_FITTING, "kind", ((const SwFitting *) record)->kind), record->tag);
    case SW_TABLE_DROP:
      return g_strdup_printf ("%s %s", sw_sheet_word (SW_TABLE_DROP, "kind", ((const SwDrop *) record)->kind), record->tag);
    case SW_TABLE_DROP_IN:
      if (*((const SwDropIn *) record)->fixture != '\0')
        return g_strdup_printf ("%s %s", ((const SwDropIn *) record)->fixture, record->tag);
      break;
    default:
      break;
    }
  return g_strdup_printf ("%s %s", sw_word (sw_record_type (record)->label), record->tag);
}
