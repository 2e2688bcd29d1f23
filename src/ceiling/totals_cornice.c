/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/totals_parts.h"
#include <math.h>

/* Cornice goes along every edge of the boards that is a wall, column or beam: not along seams between parts, not round hatches.
 * A mitre stands at each corner between two such edges. */

#define MITRE 0.0871557427 /* sine of 5°: flatter corners are butted */

static gboolean
is_seam (const SwCeiling *ceiling, guint self, SwPoint outside)
{
  const SwFrame *frame = &g_array_index (ceiling->parts, SwCeilingPart, self).frame;
  SwPoint world = sw_frame_from (frame, outside);
  for (guint i = 0; i < ceiling->parts->len; i++)
    {
      const SwCeilingPart *part = &g_array_index (ceiling->parts, SwCeilingPart, i);
      if (i != self && sw_rings_holds (part->area, sw_frame_to (&part->frame, world)))
        return TRUE;
    }
  return FALSE;
}

static gboolean
is_hatch (const SwCeiling *ceiling, guint self, const SwPoint *ring, guint n)
{
  const SwRecord *record;
  const SwFrame *frame = &g_array_index (ceiling->parts, SwCeilingPart, self).frame;
  for (SwJobIter i = sw_job_iter (sw_deck_job (ceiling->deck), SW_TABLE_HATCH); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwHatch *hatch = (const SwHatch *) record;
      double area = fabs (sw_outline_area (ring, n));
      if (fabs (area - hatch->length * hatch->width) < 1 && sw_outline_holds (ring, n, sw_frame_to (frame, hatch->at)))
        return TRUE;
    }
  return FALSE;
}

static void
follow_ring (const SwCeiling *ceiling, guint index, const SwPoint *ring, guint n, double *metres, guint *mitres)
{
  const SwCeilingPart *part = &g_array_index (ceiling->parts, SwCeilingPart, index);
  g_autofree gboolean *wall = g_new (gboolean, n);
  for (guint i = 0; i < n; i++)
    {
      SwPoint a = ring[i], b = ring[(i + 1) % n], along = sw_point_sub (b, a);
      SwPoint left = sw_point_scale ((SwPoint){ -along.y, along.x }, 1 / sw_point_length (along));
      SwPoint middle = sw_point_lerp (a, b, 0.5), aside = sw_point_add (middle, left);
      gboolean inside = sw_rings_holds (part->area, aside);
      wall[i] = !is_seam (ceiling, index, inside ? sw_point_sub (middle, left) : aside);
      if (wall[i])
        *metres += sw_point_length (along) / 1e3;
    }
  for (guint i = 0; i < n; i++)
    {
      SwPoint before = sw_point_sub (ring[(i + 1) % n], ring[i]), after = sw_point_sub (ring[(i + 2) % n], ring[(i + 1) % n]);
      double turn = fabs (sw_point_cross (before, after)) / sw_point_length (before) / sw_point_length (after);
      *mitres += wall[i] && wall[(i + 1) % n] && turn > MITRE;
    }
}

guint
sw_totals_cornice_lengths (const SwRules *rules, double metres)
{
  double bought = metres * sw_rules_value (rules, "board.takeoff", "cornice_factor").value;
  return (guint) ceil (bought * 1e3 / sw_rules_value (rules, "board.takeoff", "cornice_length_mm").value - 1e-9);
}

void
sw_totals_cornice (SwTotals *totals, const SwCeiling *ceiling)
{
  double metres = 0;
  guint mitres = 0;
  if (ceiling->room->edge != SW_EDGE_CORNICE)
    return;
  for (guint i = 0; i < ceiling->parts->len; i++)
    {
      const SwRings *area = g_array_index (ceiling->parts, SwCeilingPart, i).area;
      for (guint r = 0; r < sw_rings_n (area); r++)
        {
          guint n;
          const SwPoint *ring = sw_rings_get (area, r, &n);
          if (!is_hatch (ceiling, i, ring, n))
            follow_ring (ceiling, i, ring, n, &metres, &mitres);
        }
    }
  double length = sw_rules_value (ceiling->rules, "board.takeoff", "cornice_length_mm").value;
  double adhesive = sw_rules_value (ceiling->rules, "board.takeoff", "cornice_adhesive_kg_m").value;
  sw_totals_add (totals, SW_TOTAL_CORNICE, 0, 0, 0, metres);
  sw_totals_add (totals, SW_TOTAL_CORNICE_LENGTHS, 0, 0, length, sw_totals_cornice_lengths (ceiling->rules, metres));
  sw_totals_add (totals, SW_TOTAL_MITRES, 0, 0, 0, mitres);
  sw_totals_add (totals, SW_TOTAL_ADHESIVE, 0, 0, 0, metres * adhesive);
}
