/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where lights may be: for each room, and each kind of light in it, the widths of the widest place and what they come to. */
#include "checks/places.h"
#include "sheets/schedule_parts.h"
#include <math.h>

static const SwScheduleColumn columns[] = {
  SW_COLUMN_TEXT ("room", N_("Room")),
  SW_COLUMN_TEXT ("name", N_("Name of the room")),
  SW_COLUMN_COUNT ("lights", N_("Downlights")),
  SW_COLUMN_MM ("cut_out_mm", N_("Cut-out")),
  SW_COLUMN_MM ("body_mm", N_("Body")),
  SW_COLUMN_MM ("recess_mm", N_("Recess")),
  SW_COLUMN_MM ("across_mm", N_("Allowed band across the voids")),
  SW_COLUMN_MM ("along_mm", N_("Allowed length between battens")),
  SW_COLUMN_COUNT ("places", N_("Places")),
  SW_COLUMN_NUMBER ("area_m2", N_("Area for middles"), "m²", 3),
  SW_COLUMN_TEXT ("below_ribs", N_("Below ribs too")),
  SW_COLUMN_TEXT ("battens", N_("Battens")),
};

static gboolean
is_like (const SwLight *a, const SwLight *b)
{
  return a->cut_out == b->cut_out && a->body == b->body && a->recess == b->recess && a->side_clearance == b->side_clearance
         && a->top_clearance == b->top_clearance;
}

/* How many of the room's lights are like this one; 0 when one before it is. */
static guint
count_like (const GPtrArray *lights, guint first)
{
  guint n = 0;
  for (guint i = 0; i < lights->len; i++)
    if (is_like (lights->pdata[i], lights->pdata[first]))
      {
        if (i < first)
          return 0;
        n++;
      }
  return n;
}

static void
put_kind (SwSchedule *schedule, SwSpace *space, const SwRoom *room, const SwLight *light, guint count)
{
  g_autoptr (SwLightPlaces) places = sw_check_light_places (space, room, light, NULL, NULL);
  g_autoptr (GArray) strips = places != NULL ? sw_light_places_strips (places) : NULL;
  double across = 0, along = 0;
  gboolean below = FALSE;
  for (guint i = 0; strips != NULL && i < strips->len; i++)
    {
      const SwLightStrip *strip = &g_array_index (strips, SwLightStrip, i);
      across = fmax (across, strip->box.high.y - strip->box.low.y);
      along = fmax (along, strip->box.high.x - strip->box.low.x);
      below |= strip->over_rib;
    }
  sw_schedule_begin_row (schedule, room->record.id);
  sw_schedule_put (schedule, room->record.tag);
  sw_schedule_put (schedule, room->name);
  sw_schedule_put_count (schedule, count);
  sw_schedule_put_number (schedule, light->cut_out);
  sw_schedule_put_number (schedule, light->body);
  sw_schedule_put_number (schedule, light->recess);
  sw_schedule_put_number (schedule, across);
  sw_schedule_put_number (schedule, along);
  sw_schedule_put_count (schedule, strips != NULL ? strips->len : 0);
  sw_schedule_put_number (schedule, places != NULL ? sw_region_area (sw_light_places_region (places)) / 1e6 : NAN);
  sw_schedule_put_yes (schedule, below);
  sw_schedule_put (schedule, places != NULL ? sw_word (sw_check_light_battens (space, room, places)) : NULL);
}

static void
fill_places (SwSchedule *schedule, const SwSheetContext *context)
{
  SwJob *job = sw_sheet_job (context);
  g_autoptr (GPtrArray) rooms = sw_sheet_records (job, SW_TABLE_ROOM), all = sw_sheet_records (job, SW_TABLE_LIGHT);
  g_autoptr (SwSpace) space = context->space != NULL ? sw_space_ref (context->space) : sw_space_new (context->deck, context->rules, NULL);
  for (guint r = 0; r < rooms->len && space != NULL; r++)
    {
      g_autoptr (GPtrArray) lights = g_ptr_array_new ();
      for (guint i = 0; i < all->len; i++)
        if (sw_deck_room_at (context->deck, ((const SwLight *) all->pdata[i])->at) == rooms->pdata[r])
          g_ptr_array_add (lights, all->pdata[i]);
      for (guint i = 0; i < lights->len; i++)
        if (count_like (lights, i) > 0)
          put_kind (schedule, space, rooms->pdata[r], lights->pdata[i], count_like (lights, i));
    }
}

const SwScheduleKind sw_schedule_light_places
    = SW_SCHEDULE ("light-places", N_("Places of lights"), N_("Where the middles of downlights may be: band across the voids and length between battens, room by room"), columns, fill_places);
