/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What could not be worked out, and what was signed too early. */
#include "checks/entries.h"
#include "base/tolerance.h"
#include "space/survey.h"

/* ---- faults of the space: those of runs come with their run, the others with the job */

static SwPoint3
record_place (const SwCheckRun *run, SwId owner)
{
  const SwRecord *record = owner != 0 ? sw_job_get (run->job, owner) : NULL;
  SwBox box = record != NULL ? sw_record_box (record) : SW_BOX_EMPTY;
  if (sw_box_is_empty (box))
    return (SwPoint3){ 0 };
  return (SwPoint3){ (box.low.x + box.high.x) / 2, (box.low.y + box.high.y) / 2, 0 };
}

void
sw_check_fault_record (SwCheckRun *run, const SwRecord *record)
{
  const GPtrArray *faults = sw_space_faults (run->space);
  gboolean job = sw_record_table (record) == SW_TABLE_JOB;
  for (guint i = 0; i < faults->len; i++)
    {
      const SwSpaceFault *fault = faults->pdata[i];
      if (job ? SW_ID_TABLE (fault->owner) == SW_TABLE_RUN : fault->owner != record->id)
        continue;
      SwSnag *snag = sw_check_add (run, "fault", SW_SEVERITY_STOP, fault->owner, record_place (run, fault->owner));
      snag->detail = g_strdup (fault->message);
    }
}

/* ---- hold points */

/* A room that is signed as closed, or whose boards are up. */
static gboolean
is_closing (const SwHoldPoint *point)
{
  return (point->kind == SW_HOLD_CLOSE || point->kind == SW_HOLD_BOARDS) && point->result == SW_RESULT_PASSED;
}

static gboolean
is_open_test (const SwHoldPoint *point)
{
  return (point->kind == SW_HOLD_SOIL_TEST || point->kind == SW_HOLD_WATER_TEST) && point->result != SW_RESULT_PASSED;
}

/* How many of the points that come before closing have no entry that passed: none was made, or it is no test and still open. */
static guint
count_skipped (const GPtrArray *points)
{
  guint skipped = 0;
  for (int kind = SW_HOLD_SURVEY; kind < SW_HOLD_CLOSE; kind++)
    {
      gboolean there = FALSE;
      for (guint i = 0; i < points->len; i++)
        {
          const SwHoldPoint *point = points->pdata[i];
          there |= point->kind == kind && (point->result == SW_RESULT_PASSED || is_open_test (point));
        }
      skipped += !there;
    }
  return skipped;
}

static void
say_skipped (SwCheckRun *run, const SwRoom *room, SwPoint at, const GPtrArray *points)
{
  guint skipped = count_skipped (points);
  if (skipped == 0)
    return;
  SwSnag *snag = sw_check_add (run, "skipped", SW_SEVERITY_FIX, room->record.id, (SwPoint3){ at.x, at.y, sw_deck_ceiling_face (run->deck, room) });
  snag->room = room->record.id;
  snag->trade = SW_TRADE_ARCHITECT;
  sw_check_set_numbers (snag, 0, skipped, SW_UNIT_NONE, NULL);
}

void
sw_check_hold_record (SwCheckRun *run, const SwRecord *record)
{
  const SwRoom *room = (const SwRoom *) record;
  const GPtrArray *points = sw_check_lookup_owned (run->lookup, SW_OWNED_HOLDS, record->id);
  gboolean closed = FALSE;
  for (guint i = 0; points != NULL && i < points->len; i++)
    closed |= is_closing (points->pdata[i]);
  if (!closed)
    return;
  SwPoint at = sw_outline_label_point (room->outline.items, room->outline.n);
  say_skipped (run, room, at, points);
  for (guint i = 0; i < points->len; i++)
    {
      const SwHoldPoint *point = points->pdata[i];
      if (!is_open_test (point))
        continue;
      SwSnag *snag = sw_check_add (run, point->result == SW_RESULT_FAILED ? "failed" : "open", SW_SEVERITY_FIX, record->id,
                                   (SwPoint3){ at.x, at.y, sw_deck_ceiling_face (run->deck, room) });
      snag->room = record->id;
      snag->trade = SW_TRADE_PLUMBER;
      sw_check_set_other (snag, point->record.id, SW_N_BODIES, -1);
    }
}

/* ---- rooms as measured */

/* Only what closes is held against the drawing. */
void
sw_check_closing_record (SwCheckRun *run, const SwRecord *record)
{
  const SwRoom *room = (const SwRoom *) record;
  g_autoptr (SwSurveyRoom) survey = sw_survey_room (run->job, room);
  SwRuleValue most = sw_rules_value (run->rules, "deck.as_built", "misclosure_mm"), off = sw_rules_value (run->rules, "deck.as_built", "corner_mm");
  if (survey == NULL)
    return;
  gboolean open = survey->misclosure > most.value + SW_TOUCH_MM;
  if (!open && survey->shift <= off.value + SW_TOUCH_MM)
    return;
  SwPoint at = open ? sw_outline_label_point (room->outline.items, room->outline.n) : survey->corners[survey->moved];
  SwSnag *snag = sw_check_add (run, open ? "closure" : "moved", SW_SEVERITY_FIX, record->id, (SwPoint3){ at.x, at.y, sw_deck_ceiling_face (run->deck, room) });
  snag->room = record->id;
  if (open)
    sw_check_set_other (snag, g_array_index (survey->distances, SwSurveyDistance, survey->worst).measure->record.id, SW_N_BODIES, -1);
  sw_check_set_numbers (snag, open ? most.value : off.value, open ? survey->misclosure : survey->shift, SW_UNIT_MM, open ? &most : &off);
}
