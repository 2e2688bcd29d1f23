/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/tools/lay_out.h"
#include "base/error.h"
#include "estimate/lay_rooms.h"
#include "sheets/words.h"

/* What was left, with why, and how many were not. */
static char *
left_out_text (const GArray *laid, guint *n_done)
{
  g_autoptr (GString) text = g_string_new (NULL);
  *n_done = 0;
  for (guint i = 0; i < laid->len; i++)
    {
      const SwRoomLaid *room = &g_array_index (laid, SwRoomLaid, i);
      *n_done += room->deed != SW_LAID_NOT;
      if (room->deed == SW_LAID_NOT)
        g_string_append_printf (text, "%s%s: %s", text->len > 0 ? "; " : "",
                                *room->room->name ? room->room->name : room->room->record.tag,
                                room->fault->message);
    }
  return text->len > 0 ? g_string_free (g_steal_pointer (&text), FALSE) : NULL;
}

SwEdit *
sw_lay_out (const SwPicture *picture, const SwId *rooms, guint n, char **left_out, GCancellable *cancellable,
            GError **error)
{
  g_autoptr (SwEdit) edit = sw_edit_new (_("Lay out ceilings"));
  const SwLayWanted wanted = { rooms, n, TRUE };
  guint n_done;
  *left_out = NULL;
  if (picture->rules == NULL)
    {
      g_propagate_error (error, picture->fault != NULL
                                    ? g_error_copy (picture->fault)
                                    : g_error_new_literal (SW_ERROR, SW_ERROR_INTERNAL, "no rules"));
      return NULL;
    }
  g_autoptr (GArray) laid = sw_lay_rooms (picture->deck, picture->rules, &wanted, edit, cancellable, NULL);
  if (laid == NULL)
    {
      g_set_error_literal (error, SW_ERROR, SW_ERROR_CANCELLED, _("Laying out was stopped."));
      return NULL;
    }
  g_autofree char *words = left_out_text (laid, &n_done);
  if (n_done == 0)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "%s",
                   words != NULL ? words : _("No room here has a closed ceiling: choose its finish first."));
      return NULL;
    }
  *left_out = g_steal_pointer (&words);
  return g_steal_pointer (&edit);
}
