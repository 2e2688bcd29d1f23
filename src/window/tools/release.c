/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/tools/release.h"
#include "base/error.h"
#include "sheets/words.h"
#include <string.h>

gboolean
sw_release_is_wanted (const SwSnags *snags, const SwSnag *snag, SwPlateRef *plate)
{
  SwDeck *deck = sw_space_deck (sw_snags_space (snags));
  if (strcmp (snag->rule, "plate") != 0 || strcmp (snag->variant, "hit") != 0 || snag->kinds[1] != SW_BODY_PLATE)
    return FALSE;
  const SwDeckBay *bay = sw_deck_bay_of (deck, snag->owners[1]);
  if (bay == NULL || snag->parts[1] < 0 || (guint) snag->parts[1] >= bay->plates->len)
    return FALSE;
  const SwDeckPlate *found = &g_array_index (bay->plates, SwDeckPlate, snag->parts[1]);
  if (plate != NULL)
    *plate = (SwPlateRef){ bay->bay->record.id, g_array_index (bay->voids, SwVoid, found->void_index).number, found->number };
  return TRUE;
}

void
sw_release_add (GArray *plates, const SwPlateRef *plate)
{
  for (guint i = 0; i < plates->len; i++)
    {
      const SwPlateRef *known = &g_array_index (plates, SwPlateRef, i);
      if (known->bay == plate->bay && known->void_number == plate->void_number && known->plate_number == plate->plate_number)
        return;
    }
  g_array_append_val (plates, *plate);
}

/* The record of a plate; NULL while nothing is known of it. */
static const SwPlate *
plate_record (const SwJob *job, const SwPlateRef *plate)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_PLATE); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwPlate *known = (const SwPlate *) record;
      if (known->bay == plate->bay && known->void_number == plate->void_number && known->plate_number == plate->plate_number)
        return known;
    }
  return NULL;
}

GArray *
sw_release_wanted_for (const SwSnags *snags, SwId thing)
{
  GArray *plates = g_array_new (FALSE, FALSE, sizeof (SwPlateRef));
  for (guint i = 0; i < sw_snags_n (snags); i++)
    {
      const SwSnag *snag = sw_snags_get (snags, i);
      SwPlateRef plate;
      if (!sw_release_is_wanted (snags, snag, &plate))
        continue;
      const SwPlate *record = SW_ID_TABLE (thing) == SW_TABLE_PLATE ? plate_record (sw_space_job (sw_snags_space (snags)), &plate) : NULL;
      if (thing == 0 || sw_snag_concerns (snag, thing) || (record != NULL && record->record.id == thing))
        sw_release_add (plates, &plate);
    }
  return plates;
}

static gboolean
check_given (const char *text, const char *missing, GError **error)
{
  g_autofree char *bare = g_strstrip (g_strdup (text));
  if (*bare != '\0')
    return TRUE;
  g_set_error_literal (error, SW_ERROR, SW_ERROR_INVALID, missing);
  return FALSE;
}

static gboolean
put_release (SwEdit *edit, SwJob *job, const SwPlateRef *ref, const char *by, const char *on, const char *reference, GError **error)
{
  const SwPlate *known = plate_record (job, ref);
  SwPlate *plate = known != NULL ? (SwPlate *) sw_record_copy (&known->record) : (SwPlate *) sw_edit_create (edit, job, SW_TABLE_PLATE);
  plate->bay = ref->bay;
  plate->void_number = ref->void_number;
  plate->plate_number = ref->plate_number;
  sw_text_set (&plate->released_by, by);
  sw_text_set (&plate->released_on, on);
  sw_text_set (&plate->reference, reference);
  return sw_edit_put (edit, job, &plate->record, error);
}

SwEdit *
sw_release_edit (SwJob *job, const GArray *plates, const char *by, const char *on, const char *reference, GError **error)
{
  g_autofree char *name = g_strdup_printf (g_dngettext (GETTEXT_PACKAGE, "Enter the release of %u plate", "Enter the release of %u plates", plates->len), plates->len);
  g_autoptr (SwEdit) edit = sw_edit_new (name);
  if (!check_given (by, _("Who released it? The engineer's name is needed."), error)
      || !check_given (on, _("When was it released? The date is needed, such as 2026-03-14."), error)
      || !check_given (reference, _("Where is it written? The letter, mail or drawing is needed."), error))
    return NULL;
  for (guint i = 0; i < plates->len; i++)
    if (!put_release (edit, job, &g_array_index (plates, SwPlateRef, i), by, on, reference, error))
      return NULL;
  return g_steal_pointer (&edit);
}
