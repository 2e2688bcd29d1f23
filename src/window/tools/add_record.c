/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/tools/add_record.h"
#include "base/error.h"
#include "job/records.h"
#include "sheets/words.h"

static const SwRecord *
first_of (SwJob *job, SwTable table)
{
  return sw_job_count (job, table) > 0 ? sw_job_nth (job, table, 0) : NULL;
}

static SwRecord *
add_profile (SwJob *job, SwRecord *fresh, const SwRecord *picked, GError **error)
{
  SwId like = picked == NULL ? 0 : sw_record_table (picked) == SW_TABLE_BAY ? ((const SwBay *) picked)->profile : picked->id;
  const SwRecord *model = SW_ID_TABLE (like) == SW_TABLE_PROFILE ? sw_job_get (job, like) : first_of (job, SW_TABLE_PROFILE);
  if (model == NULL)
    return fresh;
  SwRecord *copy = sw_record_copy (model);
  copy->id = fresh->id;
  sw_text_set (&copy->tag, fresh->tag);
  sw_text_set (&((SwProfile *) copy)->name, _("Profile of this job"));
  sw_record_unref (fresh);
  return copy;
}

static SwRecord *
add_circuit (SwJob *job, SwRecord *fresh, const SwRecord *picked, GError **error)
{
  return fresh;
}

static SwRecord *
add_hold_point (SwJob *job, SwRecord *fresh, const SwRecord *picked, GError **error)
{
  const SwRecord *room = picked != NULL && sw_record_table (picked) == SW_TABLE_ROOM ? picked : first_of (job, SW_TABLE_ROOM);
  if (room == NULL)
    {
      g_set_error_literal (error, SW_ERROR, SW_ERROR_INVALID, _("A hold point belongs to a room: draw one first."));
      sw_record_unref (fresh);
      return NULL;
    }
  ((SwHoldPoint *) fresh)->room = room->id;
  return fresh;
}

static const struct
{
  SwTable table;
  const char *name;
  SwRecord *(*make) (SwJob *job, SwRecord *fresh, const SwRecord *picked, GError **error); /* takes `fresh` */
} kinds[] = {
  { SW_TABLE_PROFILE, N_ ("Add profile"), add_profile },
  { SW_TABLE_CIRCUIT, N_ ("Add circuit"), add_circuit },
  { SW_TABLE_HOLD_POINT, N_ ("Add hold point"), add_hold_point },
};

gboolean
sw_add_record_can (SwTable table)
{
  for (gsize i = 0; i < G_N_ELEMENTS (kinds); i++)
    if (kinds[i].table == table)
      return TRUE;
  return FALSE;
}

SwEdit *
sw_add_record_edit (SwJob *job, SwTable table, const SwRecord *picked, SwId *id, GError **error)
{
  gsize i = 0;
  g_assert (sw_add_record_can (table));
  while (kinds[i].table != table)
    i++;
  g_autoptr (SwEdit) edit = sw_edit_new (sw_word (kinds[i].name));
  SwRecord *record = kinds[i].make (job, sw_edit_create (edit, job, table), picked, error);
  if (record == NULL)
    return NULL;
  *id = record->id;
  return sw_edit_put (edit, job, record, error) ? g_steal_pointer (&edit) : NULL;
}
