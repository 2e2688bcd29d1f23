/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A group of cutting and the needs that come from it: the same code, or for timber any member of the section. Groups times needs. */
#include "estimate/cut_share.h"
#include <string.h>

#define ALIKE 0.01              /* share by which net amounts may differ: lengths are rounded up to a mm before they are cut */
#define ALIKE_LEAST (SW_QUANTITY_ONE / 10)

static gboolean
is_of (const SwCutGroup *group, const SwNeed *need)
{
  gboolean timber = !group->flat && group->trim == 0;
  if (!timber)
    return strcmp (group->code, need->code) == 0;
  return sw_price_is_timber (need->kind) && strcmp (sw_price_size (need->code), sw_price_size (group->code)) == 0;
}

/* Sheets, or m. */
static SwQuantity
bought_of (const SwCutGroup *group)
{
  return group->flat ? sw_cut_group_n (group) * SW_QUANTITY_ONE : group->plan->bought; /* mm: thousandths of a metre */
}

static gboolean
holds_all (const SwCutGroup *group, SwQuantity net)
{
  SwQuantity cut = group->flat ? group->n_by_rooms * SW_QUANTITY_ONE : group->plan->used;
  SwQuantity apart = net > cut ? net - cut : cut - net;
  return group->flat ? apart == 0 : apart <= MAX (ALIKE_LEAST, (SwQuantity) (ALIKE * (double) cut));
}

static void
share (const SwCutGroup *group, const GPtrArray *needs)
{
  SwQuantity net = 0, passed = 0, given = 0, bought = bought_of (group);
  for (guint i = 0; i < needs->len; i++)
    net += is_of (group, needs->pdata[i]) ? ((const SwNeed *) needs->pdata[i])->quantity : 0;
  for (guint i = 0; net > 0 && holds_all (group, net) && i < needs->len; i++)
    {
      SwNeed *need = needs->pdata[i];
      if (!is_of (group, need))
        continue;
      passed += need->quantity;
      need->bought = sw_divide_round ((__int128) bought * passed, net) - given;
      given += need->bought;
    }
}

void
sw_cut_job_share (const SwCutJob *cut, const GPtrArray *needs)
{
  for (guint i = 0; i < cut->groups->len; i++)
    {
      const SwCutGroup *group = cut->groups->pdata[i];
      if (group->flat || group->plan != NULL)
        share (group, needs);
    }
}
