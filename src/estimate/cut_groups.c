/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What of a job is cut from one kind of sheet or length: a group is found again by what it is cut from. */
#include "estimate/cut_groups.h"
#include <math.h>

#define LENGTH_SLACK 0.05

void
sw_cut_group_free (gpointer data)
{
  SwCutGroup *group = data;
  g_free (group->code);
  g_clear_pointer (&group->plan, sw_cut_plan_free);
  sw_cut_task_free (group->task);
  g_array_unref (group->things);
  g_array_unref (group->whole);
  g_array_unref (group->by_rooms);
  g_free (group);
}

SwCutGroup *
sw_cut_group_for (SwCutJob *cut, const SwCutGroup *wanted)
{
  for (guint i = 0; i < cut->groups->len; i++)
    {
      SwCutGroup *group = cut->groups->pdata[i];
      if (group->flat == wanted->flat && group->trim == wanted->trim
          && (wanted->code == NULL || g_strcmp0 (group->code, wanted->code) == 0) && group->board_kind == wanted->board_kind
          && group->thickness == wanted->thickness && group->length == wanted->length
          && group->width == wanted->width && group->material == wanted->material)
        return group;
    }
  SwCutGroup *group = g_memdup2 (wanted, sizeof *wanted);
  group->code = g_strdup (wanted->code);
  group->task = sw_cut_task_new (wanted->flat, wanted->flat ? SW_CUT_BOARD_UNITS : 1);
  group->task->on_site = wanted->flat;
  group->things = g_array_new (FALSE, FALSE, sizeof (SwCutThing));
  group->whole = g_array_new (FALSE, FALSE, sizeof (SwCutThing));
  group->by_rooms = g_array_new (FALSE, FALSE, sizeof (SwId));
  g_ptr_array_add (cut->groups, group);
  return group;
}

void
sw_cut_group_want (SwCutGroup *group, SwId owner, int kind, double mm)
{
  gint64 length = (gint64) ceil (mm - LENGTH_SLACK);
  SwCutThing thing = { owner, kind, 0 };
  for (guint i = 0; i < group->things->len; i++)
    {
      const SwCutThing *other = &g_array_index (group->things, SwCutThing, i);
      SwCutItem *item = &g_array_index (group->task->items, SwCutItem, i);
      if (other->room == thing.room && other->member == kind && item->length == length)
        {
          item->copies++;
          return;
        }
    }
  if (length <= 0)
    return;
  sw_cut_task_add_item (group->task, "", length, 0, 1, FALSE);
  g_array_append_val (group->things, thing);
}
