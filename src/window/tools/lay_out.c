/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/tools/lay_out.h"
#include "base/error.h"
#include "ceiling/boards.h"
#include "ceiling/layout.h"
#include "sheets/words.h"

typedef struct
{
  const SwPicture *picture;
  SwEdit *edit;
  GString *left_out;
  guint n_done;
  GCancellable *cancellable;
} LayOut;

/* FALSE only when it was cancelled. */
static gboolean
lay_room (LayOut *out, const SwRoom *room)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwCeiling) ceiling = sw_ceiling_plan (out->picture->deck, out->picture->rules, room, NULL, out->cancellable, &error);
  if (ceiling != NULL && sw_ceiling_store (ceiling, out->edit, sw_picture_job (out->picture), &error))
    {
      out->n_done++;
      return TRUE;
    }
  if (g_cancellable_is_cancelled (out->cancellable))
    return FALSE;
  g_string_append_printf (out->left_out, "%s%s: %s", out->left_out->len > 0 ? "; " : "", *room->name ? room->name : room->record.tag, error->message);
  return TRUE;
}

static gboolean
lay_all (LayOut *out)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_picture_job (out->picture), SW_TABLE_ROOM); (record = sw_job_iter_next (&i)) != NULL;)
    if (((const SwRoom *) record)->finish == SW_FINISH_CLOSED && !lay_room (out, (const SwRoom *) record))
      return FALSE;
  return TRUE;
}

static gboolean
lay_given (LayOut *out, const SwId *rooms, guint n)
{
  for (guint i = 0; i < n; i++)
    {
      const SwRecord *record = sw_job_get (sw_picture_job (out->picture), rooms[i]);
      if (record != NULL && sw_record_table (record) == SW_TABLE_ROOM && !lay_room (out, (const SwRoom *) record))
        return FALSE;
    }
  return TRUE;
}

SwEdit *
sw_lay_out (const SwPicture *picture, const SwId *rooms, guint n, char **left_out, GCancellable *cancellable, GError **error)
{
  g_autoptr (SwEdit) edit = sw_edit_new (_("Lay out ceilings"));
  g_autoptr (GString) words = g_string_new (NULL);
  LayOut out = { picture, edit, words, 0, cancellable };
  *left_out = NULL;
  if (picture->rules == NULL)
    {
      g_propagate_error (error, picture->fault != NULL ? g_error_copy (picture->fault) : g_error_new_literal (SW_ERROR, SW_ERROR_INTERNAL, "no rules"));
      return NULL;
    }
  if (!(n > 0 ? lay_given (&out, rooms, n) : lay_all (&out)))
    {
      g_set_error_literal (error, SW_ERROR, SW_ERROR_CANCELLED, _("Laying out was stopped."));
      return NULL;
    }
  if (out.n_done == 0)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "%s", words->len > 0 ? words->str : _("No room here has a closed ceiling: choose its finish first."));
      return NULL;
    }
  if (words->len > 0)
    *left_out = g_strdup (words->str);
  return g_steal_pointer (&edit);
}
