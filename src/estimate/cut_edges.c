/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A sheet, or a part of it between cuts across its whole width, that is cut into strips along its length may have these in any
 * order: two of them can lie at the sheet's own edges. All pairs are tried for these two places; the others keep their order, with
 * what is left over before the last. Strips squared a part. Within its strip each piece stays where it is. */
#include "estimate/cut_edges.h"
#include "base/tolerance.h"
#include "geometry/point.h"

#define LEAST_JOINT_MM 20.0 /* what is shorter is a notch's */

/* ---- what is wanted */

/* Whether the joint runs along the piece's outline, and on which side of it the piece lies: −1, 1; 0: it does not. */
static int
side_of_joint (const SwLayout *layout, int piece, const SwJoint *joint)
{
  SwPoint way = sw_point_sub (joint->to, joint->from), sum = { 0 };
  double length = sw_point_length (way), shared = 0;
  guint n = 0;
  if (joint->kind != SW_JOINT_LONG || length < LEAST_JOINT_MM)
    return 0;
  way = sw_point_scale (way, (way.x < -SW_TOUCH_MM || (fabs (way.x) <= SW_TOUCH_MM && way.y < 0) ? -1 : 1) / length);
  for (guint i = 0; i < layout->corners.n; i++)
    {
      const SwCorner *corner = &SW_LIST_AT (layout->corners, SwCorner, i);
      if (corner->piece != piece)
        continue;
      gboolean more = i + 1 < layout->corners.n && SW_LIST_AT (layout->corners, SwCorner, i + 1).piece == piece;
      SwPoint a = corner->at, b = more ? SW_LIST_AT (layout->corners, SwCorner, i + 1).at : SW_LIST_AT (layout->corners, SwCorner, i - n).at;
      sum = sw_point_add (sum, a);
      n++;
      SwPoint from_a = sw_point_sub (a, joint->from), from_b = sw_point_sub (b, joint->from), end = sw_point_sub (joint->to, joint->from);
      if (fabs (sw_point_cross (way, from_a)) > 1 || fabs (sw_point_cross (way, from_b)) > 1)
        continue;
      double s = sw_point_dot (way, from_a), t = sw_point_dot (way, from_b), u = sw_point_dot (way, end);
      shared = fmax (shared, fmin (fmax (s, t), fmax (u, 0)) - fmax (fmin (s, t), fmin (u, 0)));
    }
  if (shared < LEAST_JOINT_MM)
    return 0;
  return sw_point_cross (way, sw_point_sub (sw_point_scale (sum, 1.0 / n), joint->from)) > 0 ? 1 : -1;
}

int
sw_cut_edges_wanted (const SwLayout *layout, int piece)
{
  gboolean left = FALSE, right = FALSE;
  for (guint i = 0; i < layout->joints.n; i++)
    {
      int side = side_of_joint (layout, piece, &SW_LIST_AT (layout->joints, SwJoint, i));
      left |= side > 0;
      right |= side < 0;
    }
  return left + right;
}

/* ---- what there is */

int
sw_cut_edges_of (const SwCutPlan *plan, const SwCutWay *way, const SwCutPiece *piece)
{
  const SwCutStock *stock = &g_array_index (plan->task->stock, SwCutStock, way->stock);
  return piece->turned ? 0 : (piece->y == 0) + (piece->y + piece->width == stock->width);
}

static int
wanted_by (const SwCutPlan *plan, const SwCutPiece *piece)
{
  return g_array_index (plan->task->items, SwCutItem, piece->item).edges;
}

guint
sw_cut_edges_missing (const SwCutPlan *plan)
{
  guint missing = 0;
  for (guint i = 0; i < plan->ways->len; i++)
    {
      const SwCutWay *way = &g_array_index (plan->ways, SwCutWay, i);
      for (guint k = way->first; k < way->first + way->n; k++)
        {
          const SwCutPiece *piece = &g_array_index (plan->pieces, SwCutPiece, k);
          missing += wanted_by (plan, piece) > sw_cut_edges_of (plan, way, piece) ? way->times : 0;
        }
    }
  return missing;
}

/* ---- strips */

typedef struct
{
  gint64 low, high;   /* as it lies now */
  int at_low, at_high; /* pieces that want an edge and touch these sides */
  gint64 to;          /* where its low side goes */
} Strip;

/* A part of the sheet over its whole width, along it. */
typedef struct { gint64 from, to; } Column;

static gboolean
is_full (const SwCutLine *line, Column column)
{
  return !line->upright && line->from == column.from && line->to == column.to;
}

static gboolean
is_within (const SwCutLine *line, Column column)
{
  return line->upright ? line->at > column.from && line->at < column.to : line->from >= column.from && line->to <= column.to;
}

/* Columns lie between the cuts across the sheet's whole width. */
static Column
column_from (const SwCutPlan *plan, const SwCutWay *way, gint64 from)
{
  const SwCutStock *stock = &g_array_index (plan->task->stock, SwCutStock, way->stock);
  Column column = { from, stock->length - stock->end };
  for (guint k = way->first_line; k < way->first_line + way->n_lines; k++)
    {
      const SwCutLine *line = &g_array_index (plan->lines, SwCutLine, k);
      if (line->upright && line->from == stock->low && line->to == stock->width - stock->high && line->at > from && line->at < column.to)
        column.to = line->at;
    }
  return column;
}

static gboolean
holds (Column column, const Strip *strip, const SwCutPiece *piece)
{
  return piece->x >= column.from && piece->x < column.to && piece->y >= strip->low && piece->y < strip->high;
}

static void
count_touching (const SwCutPlan *plan, const SwCutWay *way, Column column, Strip *strip, guint *n)
{
  for (guint k = way->first; k < way->first + way->n; k++)
    {
      const SwCutPiece *piece = &g_array_index (plan->pieces, SwCutPiece, k);
      if (!holds (column, strip, piece))
        continue;
      ++*n;
      if (piece->turned || wanted_by (plan, piece) == 0)
        continue;
      strip->at_low += piece->y == strip->low;
      strip->at_high += piece->y + piece->width == strip->high;
    }
}

/* The strips with pieces in them, from the sheet's low side on. */
static GArray *
strips_of (const SwCutPlan *plan, const SwCutWay *way, Column column)
{
  const SwCutStock *stock = &g_array_index (plan->task->stock, SwCutStock, way->stock);
  GArray *strips = g_array_new (FALSE, FALSE, sizeof (Strip));
  gint64 low = stock->low, top = stock->width - stock->high;
  while (low < top)
    {
      Strip strip = { .low = low, .high = top };
      guint n = 0;
      for (guint k = way->first_line; k < way->first_line + way->n_lines; k++)
        {
          const SwCutLine *line = &g_array_index (plan->lines, SwCutLine, k);
          if (is_full (line, column) && line->at > low && line->at < strip.high)
            strip.high = line->at;
        }
      count_touching (plan, way, column, &strip, &n);
      if (n > 0)
        g_array_append_val (strips, strip);
      low = strip.high + plan->task->kerf;
    }
  return strips;
}

/* Which strip goes to the low edge, and which to the high one, for most edges; FALSE when they lie as well already. */
static gboolean
choose (const GArray *strips, const SwCutStock *stock, guint *bottom, guint *top)
{
  const Strip *first = &g_array_index (strips, Strip, 0), *last = &g_array_index (strips, Strip, strips->len - 1);
  gboolean own_low = stock->low == 0, own_high = stock->high == 0;
  int now = (own_low && first->low == 0 ? first->at_low : 0) + (own_high && last->high == stock->width ? last->at_high : 0), most = now;
  for (guint a = 0; a < strips->len; a++)
    for (guint b = 0; b < strips->len; b++)
      {
        int found = (own_low ? g_array_index (strips, Strip, a).at_low : 0) + (own_high ? g_array_index (strips, Strip, b).at_high : 0);
        if (a == b || found <= most)
          continue;
        most = found;
        *bottom = a;
        *top = b;
      }
  return most > now;
}

/* FALSE when what is left over is too narrow for a cut on both of its sides. */
static gboolean
place (GArray *strips, const SwCutStock *stock, gint64 kerf, guint bottom, guint top, gint64 *stacked)
{
  gint64 at = stock->low, end = stock->width - stock->high;
  for (guint round = 0; round <= strips->len; round++)
    {
      guint i = round == 0 ? bottom : round - 1;
      Strip *strip = &g_array_index (strips, Strip, i);
      if (i == top || (round > 0 && i == bottom))
        continue;
      strip->to = at;
      at += strip->high - strip->low + kerf;
    }
  Strip *last = &g_array_index (strips, Strip, top);
  last->to = end - (last->high - last->low);
  *stacked = at;
  return last->to == at || last->to - kerf > at;
}

static gint64
moved (const Strip *strip, gint64 y)
{
  return strip->to + y - strip->low;
}

static void
move_pieces (SwCutPlan *plan, const SwCutWay *way, Column column, const GArray *strips)
{
  for (guint k = way->first; k < way->first + way->n; k++)
    {
      SwCutPiece *piece = &g_array_index (plan->pieces, SwCutPiece, k);
      for (guint i = 0; i < strips->len; i++)
        {
          const Strip *strip = &g_array_index (strips, Strip, i);
          if (!holds (column, strip, piece))
            continue;
          piece->y = moved (strip, piece->y);
          break;
        }
    }
}

/* The full cuts of the column, from the low side on. */
static void
add_full_lines (GArray *lines, Column column, const SwCutStock *stock, gint64 kerf, const GArray *strips, guint top, gint64 stacked)
{
  SwCutLine full = { FALSE, 0, column.from, column.to };
  gint64 last = g_array_index (strips, Strip, top).to;
  for (gint64 at = stock->low; at < stacked;)
    for (guint i = 0; i < strips->len; i++)
      {
        const Strip *strip = &g_array_index (strips, Strip, i);
        if (i == top || strip->to != at)
          continue;
        full.at = at + strip->high - strip->low;
        g_array_append_val (lines, full);
        at = full.at + kerf;
      }
  full.at = last - kerf;
  if (last > stacked)
    g_array_append_val (lines, full);
}

static SwCutLine
moved_line (SwCutLine line, const GArray *strips)
{
  gint64 low = line.upright ? line.from : line.at, size = line.to - line.from;
  for (guint i = 0; i < strips->len; i++)
    {
      const Strip *strip = &g_array_index (strips, Strip, i);
      if (low < strip->low || low >= strip->high)
        continue;
      gint64 to = moved (strip, low);
      return line.upright ? (SwCutLine){ TRUE, line.at, to, to + size } : (SwCutLine){ FALSE, to, line.from, line.to };
    }
  return line;
}

/* Those of other columns as they are, then the column's full cuts, then those within its strips as they were made. */
static void
move_lines (SwCutPlan *plan, SwCutWay *way, Column column, const GArray *strips, guint top, gint64 stacked)
{
  const SwCutStock *stock = &g_array_index (plan->task->stock, SwCutStock, way->stock);
  g_autoptr (GArray) lines = g_array_new (FALSE, FALSE, sizeof (SwCutLine)), inner = g_array_new (FALSE, FALSE, sizeof (SwCutLine));
  for (guint k = way->first_line; k < way->first_line + way->n_lines; k++)
    {
      SwCutLine line = g_array_index (plan->lines, SwCutLine, k);
      if (is_full (&line, column))
        continue;
      gboolean within = is_within (&line, column);
      line = within ? moved_line (line, strips) : line;
      g_array_append_val (within ? inner : lines, line);
    }
  add_full_lines (lines, column, stock, plan->task->kerf, strips, top, stacked);
  g_array_append_vals (lines, inner->data, inner->len);
  way->first_line = plan->lines->len;
  way->n_lines = lines->len;
  g_array_append_vals (plan->lines, lines->data, lines->len);
}

static void
arrange_column (SwCutPlan *plan, SwCutWay *way, Column column)
{
  const SwCutStock *stock = &g_array_index (plan->task->stock, SwCutStock, way->stock);
  g_autoptr (GArray) strips = strips_of (plan, way, column);
  guint bottom = 0, top = 0;
  gint64 stacked = 0;
  if (strips->len < 2 || !choose (strips, stock, &bottom, &top) || !place (strips, stock, plan->task->kerf, bottom, top, &stacked))
    return;
  move_lines (plan, way, column, strips, top, stacked);
  move_pieces (plan, way, column, strips);
}

void
sw_cut_edges_arrange (SwCutPlan *plan)
{
  for (guint w = 0; plan->task->flat && w < plan->ways->len; w++)
    {
      SwCutWay *way = &g_array_index (plan->ways, SwCutWay, w);
      const SwCutStock *stock = &g_array_index (plan->task->stock, SwCutStock, way->stock);
      for (gint64 from = stock->start; from < stock->length - stock->end;)
        {
          Column column = column_from (plan, way, from);
          arrange_column (plan, way, column);
          from = column.to + plan->task->kerf;
        }
    }
}
