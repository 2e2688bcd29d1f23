/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is left over and large enough to be kept. Of a length it is the rest behind the last piece and its cut. Of a sheet the
 * saw's cuts are followed in their order; parts that are no piece in the end are rests, kept when both of their sides
 * reach the least. Smaller rests are never joined, since no cut would leave them whole. Cuts times parts of each sheet. */
#include "estimate/cut_plan.h"

typedef struct
{
  gint64 x, y, length, width;
} Part;

static void
split (GArray *parts, const SwCutLine *line, gint64 kerf)
{
  for (guint i = 0; i < parts->len; i++)
    {
      Part low = g_array_index (parts, Part, i), high = low;
      gint64 start = line->upright ? low.x : low.y, size = line->upright ? low.length : low.width;
      gint64 from = line->upright ? low.y : low.x, to = from + (line->upright ? low.width : low.length);
      if (from != line->from || to != line->to || line->at <= start || line->at >= start + size)
        continue;
      gint64 rest = start + size - line->at - kerf;
      *(line->upright ? &low.length : &low.width) = line->at - start;
      *(line->upright ? &high.x : &high.y) = line->at + kerf;
      *(line->upright ? &high.length : &high.width) = rest;
      g_array_index (parts, Part, i) = low;
      if (rest > 0)
        g_array_append_val (parts, high);
      return;
    }
}

static gboolean
is_piece (const SwCutPlan *plan, const SwCutWay *way, const Part *part)
{
  for (guint k = way->first; k < way->first + way->n; k++)
    {
      const SwCutPiece *piece = &g_array_index (plan->pieces, SwCutPiece, k);
      if (piece->x == part->x && piece->y == part->y && piece->length == part->length && piece->width == part->width)
        return TRUE;
    }
  return FALSE;
}

/* The rests of a way, one after the other. */
static GArray *
rests_of (const SwCutPlan *plan, const SwCutWay *way)
{
  const SwCutStock *stock = &g_array_index (plan->task->stock, SwCutStock, way->stock);
  GArray *parts = g_array_new (FALSE, FALSE, sizeof (Part));
  Part whole = { stock->start, stock->low, stock->length - stock->start - stock->end, stock->width - stock->low - stock->high };
  if (!plan->task->flat)
    {
      gint64 rest = sw_cut_plan_rest (plan, way);
      whole = (Part){ stock->length - stock->end - rest, 0, rest, 0 };
    }
  g_array_append_val (parts, whole);
  for (guint k = way->first_line; k < way->first_line + way->n_lines; k++)
    split (parts, &g_array_index (plan->lines, SwCutLine, k), plan->task->kerf);
  return parts;
}

void
sw_cut_plan_keep_offcuts (SwCutPlan *plan)
{
  gint64 keep = plan->task->keep;
  for (guint i = 0; keep > 0 && i < plan->ways->len; i++)
    {
      const SwCutWay *way = &g_array_index (plan->ways, SwCutWay, i);
      g_autoptr (GArray) parts = rests_of (plan, way);
      for (guint k = 0; k < parts->len; k++)
        {
          const Part *part = &g_array_index (parts, Part, k);
          SwCutOffcut offcut = { i, part->x, part->y, part->length, part->width };
          if (part->length < keep || (plan->task->flat && (part->width < keep || is_piece (plan, way, part))))
            continue;
          g_array_append_val (plan->offcuts, offcut);
          plan->n_kept += way->times;
          plan->kept += way->times * (plan->task->flat ? part->length * part->width : part->length);
        }
    }
}
