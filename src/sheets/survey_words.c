/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sheets/survey_words.h"
#include "base/length.h"
#include <glib/gi18n.h>

static char *
edge_name (const SwMeasureKey *key)
{
  switch ((SwRibEdge) key->second)
    {
    case SW_EDGE_LOW_START:
      return g_strdup_printf (_("rib %d, low edge at the start"), key->number);
    case SW_EDGE_HIGH_START:
      return g_strdup_printf (_("rib %d, high edge at the start"), key->number);
    case SW_EDGE_LOW_END:
      return g_strdup_printf (_("rib %d, low edge at the end"), key->number);
    case SW_EDGE_HIGH_END:
      return g_strdup_printf (_("rib %d, high edge at the end"), key->number);
    default:
      return g_strdup_printf (_("rib %d, edge"), key->number);
    }
}

/* Levels that were taken where no place is marked go by the mark of their record. */
static char *
level_name (const SwSurveySlot *slot)
{
  if (slot->key.number > 0)
    return g_strdup_printf ("P%d", slot->key.number);
  return g_strdup (slot->marked || slot->measure == NULL ? _("middle") : slot->measure->record.tag);
}

char *
sw_survey_slot_name (const SwSurveySlot *slot)
{
  const SwMeasureKey *key = &slot->key;
  switch (key->kind)
    {
    case SW_MEASURE_RIB:
      return g_strdup_printf (_("rib %d, middle"), key->number);
    case SW_MEASURE_EDGE:
      return edge_name (key);
    case SW_MEASURE_LEVEL:
      return level_name (slot);
    case SW_MEASURE_PLATE:
      return g_strdup_printf (_("void %d, plate %d"), key->number, key->second);
    case SW_MEASURE_DEPTH:
      return g_strdup_printf (_("void %d, depth"), key->number);
    case SW_MEASURE_LENGTH:
      return g_strdup_printf (_("side %u, %u to %u"), (guint) key->number, (guint) key->number, (guint) slot->to);
    default:
      return g_strdup_printf (_("diagonal %u to %u"), (guint) key->number, (guint) key->second);
    }
}

char *
sw_survey_key_name (const SwJob *job, const SwMeasureKey *key)
{
  const SwRecord *of = sw_job_get (job, key->of);
  SwSurveySlot slot = { .key = *key, .measure = sw_job_measure (job, key) };
  if (key->kind == SW_MEASURE_LENGTH && of != NULL && sw_record_table (of) == SW_TABLE_ROOM)
    slot.to = key->number % (int) ((const SwRoom *) of)->outline.n + 1;
  return sw_survey_slot_name (&slot);
}

static char *
length_text (const SwJob *job, double mm, SwLengthStyle style)
{
  char text[SW_LENGTH_BUF];
  return g_strdup (sw_length_write (mm, sw_job_lengths (job), style, 0, text));
}

char *
sw_survey_shift_text (const SwJob *job, double by)
{
  g_autofree char *text = length_text (job, by, SW_LENGTH_BARE);
  return g_strconcat (text[0] == '-' ? "" : "+", text, NULL);
}

const SwSurveyDistance *
sw_survey_distance_of (const SwSurveyRoom *survey, const SwSurveySlot *slot)
{
  for (guint i = 0; i < survey->distances->len; i++)
    {
      const SwSurveyDistance *distance = &g_array_index (survey->distances, SwSurveyDistance, i);
      if (distance->measure == slot->measure)
        return distance;
    }
  return NULL;
}

static char *
distance_name (const SwSurveyDistance *distance)
{
  SwSurveySlot slot = { .key = sw_measure_key (distance->measure), .to = (int) distance->to + 1 };
  return sw_survey_slot_name (&slot);
}

/* Whether, and how well, the measures close. */
static char *
closing (const SwJob *job, const SwSurveyRoom *survey, double most)
{
  if (survey->worst < 0)
    return g_strdup (_("Nothing is measured twice over yet: measure all sides and both diagonals, so that they check each other."));
  g_autofree char *found = length_text (job, survey->misclosure, SW_LENGTH_UNIT), *taken = length_text (job, most, SW_LENGTH_UNIT);
  g_autofree char *worst = distance_name (&g_array_index (survey->distances, SwSurveyDistance, survey->worst));
  if (survey->misclosure > most)
    return g_strdup_printf (_("Misclosure %s (%s against what the others give); up to %s is taken. Measure that one anew, then the others."), found, worst, taken);
  return g_strdup_printf (_("Misclosure %s (%s against what the others give); up to %s is taken."), found, worst, taken);
}

char *
sw_survey_closure_text (const SwJob *job, const SwRoom *room, const SwRules *rules)
{
  g_autoptr (SwSurveyRoom) survey = sw_survey_room (job, room);
  double most = sw_rules_value (rules, "deck.as_built", "misclosure_mm").value;
  if (survey == NULL)
    return g_strdup (_("Nothing of this room has been measured yet."));
  g_autofree char *closes = closing (job, survey, most), *shift = length_text (job, survey->shift, SW_LENGTH_UNIT);
  if (survey->shift < 0.5)
    return g_strdup_printf (_("%s The outline is as measured."), closes);
  return g_strdup_printf (_("%s The outline as drawn is off by up to %s, most at corner %u."), closes, shift, survey->moved + 1);
}
