/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/clip.h"
#include "ceiling/lay.h"
#include "ceiling/totals_parts.h"
#include <math.h>

/* Cornice goes along every edge of the boards that is a wall, column or beam, and along the foot of the wall that a bulkhead's face makes
 * for the higher ceiling: not along seams between parts of one level, not along a face's lower edge, not round hatches. A mitre stands at
 * each corner between two such edges. */

#define MITRE 0.0871557427 /* sine of 5°: flatter corners are butted */

/* A side of a part and where cornice goes along it. */
typedef struct
{
  SwPoint along;
  SwPoint from, to;  /* in the plan */
  GArray *stretches; /* SwInterval from its start */
  gboolean starts, ends;
} Side;

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

static Side
side_of (const SwCeiling *ceiling, guint index, SwPoint a, SwPoint b)
{
  const SwFrame *frame = &g_array_index (ceiling->parts, SwCeilingPart, index).frame;
  SwPoint from = sw_frame_from (frame, a), to = sw_frame_from (frame, b);
  double length = sw_point_distance (from, to);
  Side side = { sw_point_scale (sw_point_sub (b, a), 1 / length), from, to, g_array_new (FALSE, FALSE, sizeof (SwInterval)), FALSE, FALSE };
  SwInterval whole = { 0, length };
  g_array_append_val (side.stretches, whole);
  for (int level = 0; level <= 1; level++) /* beside it a part of the same level, or a higher one */
    {
      g_autoptr (GArray) beside = sw_lay_beside (ceiling, index, from, to, level);
      for (guint i = 0; i < beside->len; i++)
        sw_intervals_subtract (side.stretches, g_array_index (beside, SwInterval, i).low, g_array_index (beside, SwInterval, i).high);
    }
  for (guint i = side.stretches->len; i-- > 0;)
    if (g_array_index (side.stretches, SwInterval, i).high - g_array_index (side.stretches, SwInterval, i).low < 1)
      g_array_remove_index (side.stretches, i);
  for (guint i = 0; i < side.stretches->len; i++)
    {
      side.starts = side.starts || g_array_index (side.stretches, SwInterval, i).low < 1;
      side.ends = side.ends || g_array_index (side.stretches, SwInterval, i).high > length - 1;
    }
  return side;
}

static void
follow_ring (const SwCeiling *ceiling, guint index, const SwPoint *ring, guint n, SwCornice *cornice)
{
  g_autofree Side *sides = g_new (Side, n);
  for (guint i = 0; i < n; i++)
    {
      sides[i] = side_of (ceiling, index, ring[i], ring[(i + 1) % n]);
      for (guint k = 0; k < sides[i].stretches->len; k++)
        {
          SwInterval stretch = g_array_index (sides[i].stretches, SwInterval, k);
          double length = sw_point_distance (sides[i].from, sides[i].to);
          SwCorniceRun run = { sw_point_lerp (sides[i].from, sides[i].to, stretch.low / length), sw_point_lerp (sides[i].from, sides[i].to, stretch.high / length),
                               stretch.high - stretch.low };
          g_array_append_val (cornice->runs, run);
        }
    }
  for (guint i = 0; i < n; i++)
    {
      const Side *next = &sides[(i + 1) % n];
      if (sides[i].ends && next->starts && fabs (sw_point_cross (sides[i].along, next->along)) > MITRE)
        g_array_append_val (cornice->mitres, sides[i].to);
    }
  for (guint i = 0; i < n; i++)
    g_array_unref (sides[i].stretches);
}

SwCornice *
sw_cornice_new (const SwCeiling *ceiling)
{
  SwCornice *cornice = g_new (SwCornice, 1);
  *cornice = (SwCornice){ g_array_new (FALSE, FALSE, sizeof (SwCorniceRun)), g_array_new (FALSE, FALSE, sizeof (SwPoint)) };
  for (guint i = 0; i < ceiling->parts->len; i++)
    {
      const SwRings *area = g_array_index (ceiling->parts, SwCeilingPart, i).area;
      for (guint r = 0; r < sw_rings_n (area); r++)
        {
          guint n;
          const SwPoint *ring = sw_rings_get (area, r, &n);
          if (!is_hatch (ceiling, i, ring, n))
            follow_ring (ceiling, i, ring, n, cornice);
        }
    }
  return cornice;
}

void
sw_cornice_free (SwCornice *cornice)
{
  g_array_unref (cornice->runs);
  g_array_unref (cornice->mitres);
  g_free (cornice);
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
  if (ceiling->room->edge != SW_EDGE_CORNICE)
    return;
  g_autoptr (SwCornice) cornice = sw_cornice_new (ceiling);
  for (guint i = 0; i < cornice->runs->len; i++)
    metres += g_array_index (cornice->runs, SwCorniceRun, i).length / 1e3;
  double length = sw_rules_value (ceiling->rules, "board.takeoff", "cornice_length_mm").value;
  double adhesive = sw_rules_value (ceiling->rules, "board.takeoff", "cornice_adhesive_kg_m").value;
  sw_totals_add (totals, SW_TOTAL_CORNICE, 0, 0, 0, metres);
  sw_totals_add (totals, SW_TOTAL_CORNICE_LENGTHS, 0, 0, length, sw_totals_cornice_lengths (ceiling->rules, metres));
  sw_totals_add (totals, SW_TOTAL_MITRES, 0, 0, 0, cornice->mitres->len);
  sw_totals_add (totals, SW_TOTAL_ADHESIVE, 0, 0, 0, metres * adhesive);
}
