/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/tools/new_job.h"
#include "base/error.h"
#include "sheets/words.h"
#include "space/deck.h"

#define GRID_OVERHANG_MM 900

SwJob *
sw_new_job_empty (SwJob *catalogue, GError **error)
{
  g_autoptr (SwEdit) edit = sw_edit_new ("");
  SwJobInfo *info = (SwJobInfo *) sw_record_copy (&sw_job_info (catalogue)->record);
  sw_text_set (&info->name, _("New job"));
  sw_text_set (&info->note, "");
  if (!sw_edit_put (edit, catalogue, &info->record, error))
    return NULL;
  return sw_job_apply (catalogue, edit, TRUE, error);
}

static gboolean
put_gridline (SwEdit *edit, SwJob *job, const char *name, SwPoint from, SwPoint to, GError **error)
{
  SwGridline *line = (SwGridline *) sw_edit_create (edit, job, SW_TABLE_GRIDLINE);
  sw_text_set (&line->record.tag, name);
  line->from = from;
  line->to = to;
  return sw_edit_put (edit, job, &line->record, error);
}

static gboolean
put_grid (SwEdit *edit, SwJob *job, double length, double width, GError **error)
{
  double over = GRID_OVERHANG_MM;
  return put_gridline (edit, job, "1", (SwPoint){ 0, width + over }, (SwPoint){ 0, -over }, error)
         && put_gridline (edit, job, "2", (SwPoint){ length, width + over }, (SwPoint){ length, -over }, error)
         && put_gridline (edit, job, "A", (SwPoint){ -over, 0 }, (SwPoint){ length + over, 0 }, error)
         && put_gridline (edit, job, "B", (SwPoint){ -over, width }, (SwPoint){ length + over, width }, error);
}

static gboolean
put_bay (SwEdit *edit, SwJob *job, const SwProfile *profile, const SwPoint corners[4], GError **error)
{
  SwBay *bay = (SwBay *) sw_edit_create (edit, job, SW_TABLE_BAY);
  sw_text_set (&bay->name, _("Bay A"));
  sw_list_set_points (&bay->outline, corners, 4);
  bay->profile = profile->record.id;
  bay->first_rib = sw_deck_even_first_rib (bay, profile);
  return sw_edit_put (edit, job, &bay->record, error);
}

static gboolean
put_room (SwEdit *edit, SwJob *job, const SwPoint corners[4], GError **error)
{
  SwRoom *room = (SwRoom *) sw_edit_create (edit, job, SW_TABLE_ROOM);
  sw_text_set (&room->name, _("Room 1"));
  sw_list_set_points (&room->outline, corners, 4);
  return sw_edit_put (edit, job, &room->record, error);
}

SwEdit *
sw_new_job_rectangle (SwJob *job, double length, double width, SwId profile_id, GError **error)
{
  const SwProfile *profile = (const SwProfile *) sw_job_get (job, profile_id);
  g_autoptr (SwEdit) edit = sw_edit_new (_("Start from a rectangle"));
  SwPoint corners[4] = { { 0, 0 }, { length, 0 }, { length, width }, { 0, width } };
  char least[SW_LENGTH_BUF], wide[SW_LENGTH_BUF];
  SwLengths lengths = sw_job_lengths (job);
  g_return_val_if_fail (profile != NULL, NULL);
  if (!(length >= 1000 && width >= 2 * profile->pitch - profile->mouth))
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INVALID, _("Not one void of this profile fits: the length must be %s or more, the width %s or more."),
                   sw_length_write (1000, lengths, SW_LENGTH_UNIT, 0, least), sw_length_write (2 * profile->pitch - profile->mouth, lengths, SW_LENGTH_UNIT, 0, wide));
      return NULL;
    }
  if (!put_bay (edit, job, profile, corners, error) || !put_room (edit, job, corners, error) || !put_grid (edit, job, length, width, error))
    return NULL;
  return g_steal_pointer (&edit);
}
