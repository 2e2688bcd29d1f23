/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bays against each other. */
#include "checks/entries.h"
#include "base/tolerance.h"
#include "geometry/region.h"

#define LEAST_WIDTH_MM 1.0 /* outlines that are drawn to each other by hand may overlap so much */

/* The part of most area; what both cover. */
static SwRegion *
common_part (const SwBay *a, const SwBay *b, double *area)
{
  g_autoptr (SwRegion) first = sw_region_new_outline (a->outline.items, a->outline.n, NULL);
  g_autoptr (SwRegion) second = sw_region_new_outline (b->outline.items, b->outline.n, NULL);
  g_autoptr (SwRegion) both = first != NULL && second != NULL ? sw_region_intersect (first, second, NULL) : NULL;
  g_autoptr (GPtrArray) parts = both != NULL ? sw_region_parts (both) : NULL;
  SwRegion *most = NULL;
  *area = 0;
  for (guint i = 0; parts != NULL && i < parts->len; i++)
    {
      SwRegion *part = parts->pdata[i];
      if (2 * sw_region_area (part) / sw_region_perimeter (part) < LEAST_WIDTH_MM)
        continue;
      *area += sw_region_area (part);
      if (most == NULL || sw_region_area (part) > sw_region_area (most))
        most = part;
    }
  return most != NULL ? sw_region_ref (most) : NULL;
}

/* Twice the area over the perimeter is at most the width of a box around: bays side by side need no more than their boxes. */
static gboolean
may_overlap (const SwBay *a, const SwBay *b)
{
  SwBox p = sw_record_box (&a->record), q = sw_record_box (&b->record);
  return fmin (p.high.x, q.high.x) - fmax (p.low.x, q.low.x) >= LEAST_WIDTH_MM && fmin (p.high.y, q.high.y) - fmax (p.low.y, q.low.y) >= LEAST_WIDTH_MM;
}

static void
add_over (SwCheckRun *run, const SwBay *bay, const SwBay *earlier)
{
  double area;
  if (!may_overlap (bay, earlier))
    return;
  g_autoptr (SwRegion) part = common_part (bay, earlier, &area);
  if (part == NULL)
    return;
  SwRing ring = sw_region_ring (part, 0);
  SwBox box = sw_region_box (part);
  SwPoint middle = sw_outline_label_point (ring.points, ring.n);
  double z = sw_deck_soffit_at (run->deck, middle);
  SwSnag *snag = sw_check_add (run, "over", SW_SEVERITY_STOP, bay->record.id, (SwPoint3){ middle.x, middle.y, z });
  sw_check_set_other (snag, earlier->record.id, SW_N_BODIES, -1);
  sw_check_set_extent (snag, (SwPoint3){ box.low.x, box.low.y, z }, (SwPoint3){ box.high.x, box.high.y, z });
  sw_check_set_param (snag, "area", area / 1e6, SW_UNIT_M2);
  sw_check_set_param (snag, "length", box.high.x - box.low.x, SW_UNIT_MM);
  sw_check_set_param (snag, "breadth", box.high.y - box.low.y, SW_UNIT_MM);
}

/* Each pair once: the later record lies over the earlier one. */
void
sw_check_bay_over_record (SwCheckRun *run, const SwRecord *record)
{
  g_autoptr (GPtrArray) near = sw_check_lookup_near (run->lookup, SW_TABLE_BAY, sw_record_box (record));
  for (guint i = 0; i < near->len; i++)
    if (((const SwRecord *) near->pdata[i])->id < record->id)
      add_over (run, (const SwBay *) record, near->pdata[i]);
}
