/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whose the board is. A sheet that goes up whole is its room's; one that is cut is shared out among the rooms of its pieces by their areas,
 * so that what is left over of it is too. One pass over sheets and pieces, times a look through the rooms. */
#include "estimate/cut_job.h"

static SwCutRoom *
room_in (GArray *rooms, SwId id)
{
  guint at = 0;
  while (at < rooms->len && g_array_index (rooms, SwCutRoom, at).room < id)
    at++;
  SwCutRoom fresh = { id, 0, 0, 0 };
  if (at == rooms->len || g_array_index (rooms, SwCutRoom, at).room != id)
    g_array_insert_val (rooms, at, fresh);
  return &g_array_index (rooms, SwCutRoom, at);
}

static void
add_way (GArray *rooms, const SwCutGroup *group, const SwCutWay *way, double sheet)
{
  double used = 0, per_mm = group->task->per_mm;
  for (int pass = 0; pass < 2; pass++)
    for (guint k = way->first; k < way->first + way->n; k++)
      {
        const SwCutPiece *piece = &g_array_index (group->plan->pieces, SwCutPiece, k);
        double area = (double) piece->length * (double) piece->width / (per_mm * per_mm);
        SwCutRoom *room = room_in (rooms, g_array_index (group->things, SwCutThing, piece->item).room);
        if (pass == 0)
          used += area;
        else
          {
            room->pieces += way->times * area;
            room->shared += way->times * sheet * area / used;
          }
      }
}

GArray *
sw_cut_job_rooms (const SwCutJob *cut)
{
  GArray *rooms = g_array_new (FALSE, FALSE, sizeof (SwCutRoom));
  for (guint i = 0; i < cut->groups->len; i++)
    {
      const SwCutGroup *group = cut->groups->pdata[i];
      double sheet = group->length * group->width;
      for (guint k = 0; group->flat && k < group->by_rooms->len; k++)
        room_in (rooms, g_array_index (group->by_rooms, SwId, k))->alone += sheet;
      for (guint k = 0; group->flat && k < group->whole->len; k++)
        {
          SwCutRoom *room = room_in (rooms, g_array_index (group->whole, SwCutThing, k).room);
          room->pieces += sheet;
          room->shared += sheet;
        }
      for (guint w = 0; group->flat && group->plan != NULL && w < group->plan->ways->len; w++)
        add_way (rooms, group, &g_array_index (group->plan->ways, SwCutWay, w), sheet);
    }
  return rooms;
}
