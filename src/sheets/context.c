/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sheets/context.h"
#include "job/holds.h"
#include "base/natural.h"
#include "job/edit.h"
#include "sheets/words.h"
#include <string.h>

int
sw_sheet_mark_compare (const char *a, const char *b)
{
  return sw_natural_compare (a, b);
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
      return sw_record_call (record, sw_sheet_word (SW_TABLE_FITTING, "kind", ((const SwFitting *) record)->kind));
    case SW_TABLE_DROP:
      return sw_record_call (record, sw_sheet_word (SW_TABLE_DROP, "kind", ((const SwDrop *) record)->kind));
    case SW_TABLE_DROP_IN:
      if (*((const SwDropIn *) record)->fixture != '\0')
        return sw_record_call (record, ((const SwDropIn *) record)->fixture);
      break;
    default:
      break;
    }
  return sw_record_call (record, sw_word (sw_record_type (record)->label));
}

char *
sw_sheet_snag_number (const SwSnags *snags, guint i)
{
  static const char *const letters[SW_N_SEVERITIES] = { "S", "F", "N" };
  return g_strdup_printf ("%s%u", letters[sw_snags_get (snags, i)->severity], i + 1);
}

const SwHoldPoint *
sw_sheet_hold_point (const SwJob *job, SwId room, int kind)
{
  return sw_job_hold_point (job, room, (SwHoldKind) kind);
}
