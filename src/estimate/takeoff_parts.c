/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "estimate/takeoff_parts.h"
#include "base/error.h"
#include "base/number.h"

void
sw_takeoff_note (const SwTakeoffWork *work, SwTakeoffNoteKind kind, SwId owner, const char *detail)
{
  SwTakeoffNote note = { kind, owner, g_strdup (detail) };
  if (work->notes != NULL)
    g_array_append_val (work->notes, note);
  else
    g_free (note.detail);
}

char *
sw_takeoff_number (double a)
{
  char text[SW_NUMBER_BUF];
  return g_strdup (sw_number_write (a, text));
}

char *
sw_takeoff_pair (double a, double b)
{
  char first[SW_NUMBER_BUF], second[SW_NUMBER_BUF];
  return g_strdup_printf ("%sx%s", sw_number_write (a, first), sw_number_write (b, second));
}

char *
sw_takeoff_run_size (const SwRun *run)
{
  char od[SW_NUMBER_BUF];
  const SwField *field = sw_struct_field (&sw_type_get (SW_TABLE_RUN)->body, "material");
  return g_strdup_printf ("%s-%s", field->words[run->material].key, sw_number_write (run->od, od));
}

gboolean
sw_takeoff_is_given_up (const SwTakeoffWork *work, GError **error)
{
  if (!g_cancellable_is_cancelled (work->cancellable))
    return FALSE;
  g_set_error_literal (error, SW_ERROR, SW_ERROR_CANCELLED, "the take-off was cancelled");
  return TRUE;
}
