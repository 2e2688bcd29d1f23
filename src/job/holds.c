/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/holds.h"
#include "base/text.h"

const SwHoldPoint *
sw_job_hold_point (const SwJob *job, SwId room, SwHoldKind kind)
{
  const SwHoldPoint *found = NULL;
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_HOLD_POINT); (record = sw_job_iter_next (&i)) != NULL;)
    if (((const SwHoldPoint *) record)->room == room && ((const SwHoldPoint *) record)->kind == (int) kind)
      found = (const SwHoldPoint *) record;
  return found;
}

SwEdit *
sw_job_enter_hold (const SwJob *job, SwId room, SwHoldKind kind, const SwHoldEntry *entry, GError **error)
{
  g_autoptr (SwEdit) edit = sw_edit_new (N_ ("Enter a hold point"));
  const SwHoldPoint *before = sw_job_hold_point (job, room, kind);
  SwRecord *record = before != NULL ? sw_record_copy (&before->record) : sw_edit_create (edit, job, SW_TABLE_HOLD_POINT);
  SwHoldPoint *hold = (SwHoldPoint *) record;
  hold->room = room;
  hold->kind = (int) kind;
  hold->result = (int) entry->result;
  sw_text_set (&hold->by, entry->by);
  sw_text_set (&hold->on, entry->on);
  sw_text_set (&hold->note, entry->note);
  if (before != NULL && sw_record_equal (&before->record, record))
    {
      sw_record_unref (record);
      return g_steal_pointer (&edit);
    }
  return sw_edit_put (edit, job, record, error) ? g_steal_pointer (&edit) : NULL;
}
