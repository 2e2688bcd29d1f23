/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/sheet_fill.h"

/* A sheet is a set of free rectangles. A piece goes to the lower left corner of the one that it fits best; two cuts free it
 * and leave a rectangle above and one to the right, one of them with the whole side: which, the manner of splitting
 * says. Every layout made so can be cut straight through. Not all guillotine layouts arise from one order, but each arises from
 * some order and manner, which is what the search above it varies. */

typedef struct
{
  guint sheet;
  int x, y, width, height;
} Rest;

void
sw_sheet_fill_init (SwSheetFill *fill, const SwSheetStock *stock, guint n_stock, const SwSheetOptions *options)
{
  *fill = (SwSheetFill){ .stock = stock, .n_stock = n_stock, .options = options };
  fill->rests = g_array_new (FALSE, FALSE, sizeof (Rest));
  fill->places = g_array_new (FALSE, FALSE, sizeof (SwSheetPlace));
  fill->cuts = g_array_new (FALSE, FALSE, sizeof (SwSheetCut));
  fill->sheets = g_array_new (FALSE, FALSE, sizeof (guint));
  fill->reaches = g_array_new (FALSE, FALSE, sizeof (SwSheetReach));
}

void
sw_sheet_fill_clear (SwSheetFill *fill)
{
  g_clear_pointer (&fill->rests, g_array_unref);
  g_clear_pointer (&fill->places, g_array_unref);
  g_clear_pointer (&fill->cuts, g_array_unref);
  g_clear_pointer (&fill->sheets, g_array_unref);
  g_clear_pointer (&fill->reaches, g_array_unref);
}

void
sw_sheet_fill_reset (SwSheetFill *fill)
{
  g_array_set_size (fill->rests, 0);
  g_array_set_size (fill->places, 0);
  g_array_set_size (fill->cuts, 0);
  g_array_set_size (fill->sheets, 0);
  g_array_set_size (fill->reaches, 0);
  fill->least = 0;
}

gint64
sw_sheet_stock_cost (const SwSheetStock *stock)
{
  return stock->cost > 0 ? stock->cost : (gint64) stock->width * stock->height;
}

gboolean
sw_sheet_fits (const SwSheetStock *stock, const SwSheetOptions *options, const SwSheetUnit *unit)
{
  int width = stock->width - options->left - options->right, height = stock->height - options->bottom - options->top;
  return (unit->width <= width && unit->height <= height)
         || (unit->may_turn && unit->height <= width && unit->width <= height);
}

static gboolean
may_open (const SwSheetFill *fill, guint stock, const SwSheetUnit *unit)
{
  int used = 0;
  for (guint i = 0; fill->stock[stock].copies > 0 && i < fill->sheets->len; i++)
    used += g_array_index (fill->sheets, guint, i) == stock;
  return (fill->stock[stock].copies == 0 || used < fill->stock[stock].copies)
         && sw_sheet_fits (&fill->stock[stock], fill->options, unit);
}

gboolean
sw_sheet_fill_open (SwSheetFill *fill, const SwSheetUnit *unit)
{
  const SwSheetOptions *o = fill->options;
  guint chosen = fill->prefer;
  if (!may_open (fill, chosen, unit))
    for (chosen = 0; chosen < fill->n_stock && !may_open (fill, chosen, unit);)
      chosen++;
  if (chosen == fill->n_stock)
    return FALSE;
  const SwSheetStock *stock = &fill->stock[chosen];
  Rest whole = { fill->sheets->len, o->left, o->bottom, stock->width - o->left - o->right,
                 stock->height - o->bottom - o->top };
  g_array_append_val (fill->rests, whole);
  g_array_append_val (fill->sheets, chosen);
  SwSheetReach none = { 0, 0, 0 };
  if (fill->most > 0)
    g_array_append_val (fill->reaches, none);
  return TRUE;
}

/* Cost of the cheapest size that holds what reaches so far; that of the size at hand when no other does. */
static gint64
least_cost (const SwSheetFill *fill, guint stock, int right, int top)
{
  const SwSheetOptions *o = fill->options;
  gint64 least = sw_sheet_stock_cost (&fill->stock[stock]);
  for (guint s = 0; s < fill->n_stock; s++)
    if (right + o->right <= fill->stock[s].width && top + o->top <= fill->stock[s].height)
      least = MIN (least, sw_sheet_stock_cost (&fill->stock[s]));
  return least;
}

static void
note_reach (SwSheetFill *fill, guint sheet, int right, int top)
{
  SwSheetReach *reach = &g_array_index (fill->reaches, SwSheetReach, sheet);
  if (right <= reach->right && top <= reach->top)
    return;
  reach->right = MAX (reach->right, right);
  reach->top = MAX (reach->top, top);
  gint64 cost = least_cost (fill, g_array_index (fill->sheets, guint, sheet), reach->right, reach->top);
  fill->least += cost - reach->cost;
  reach->cost = cost;
}

static gint64
fit_score (const Rest *rest, int width, int height, SwSheetFit fit)
{
  gint64 dx = rest->width - width, dy = rest->height - height;
  switch (fit)
    {
    case SW_FIT_AREA:
      return (gint64) rest->width * rest->height - (gint64) width * height;
    case SW_FIT_SHORT:
      return MIN (dx, dy) * SW_SHEET_MOST + MAX (dx, dy);
    case SW_FIT_LONG:
      return MAX (dx, dy) * SW_SHEET_MOST + MIN (dx, dy);
    default:
      return 0;
    }
}

/* Whether the cut beside the piece goes up the whole rest. */
static gboolean
splits_upright (const Rest *rest, int width, int height, SwSheetSplit split)
{
  gint64 dx = rest->width - width, dy = rest->height - height;
  switch (split)
    {
    case SW_SPLIT_SHORT: /* the narrower rest gets the short side */
      return dx >= dy;
    case SW_SPLIT_LONG:
      return dx < dy;
    case SW_SPLIT_LARGE: /* the larger single rectangle */
      return MAX (dx * rest->height, dy * width) >= MAX (dy * rest->width, dx * height);
    default:
      return split == SW_SPLIT_UPRIGHT;
    }
}

static void
keep_rest (SwSheetFill *fill, Rest rest)
{
  if (rest.width > 0 && rest.height > 0)
    g_array_append_val (fill->rests, rest);
}

static void
cut (SwSheetFill *fill, const Rest *part, gboolean upright, int at)
{
  SwSheetCut made = { part->sheet, upright, at, part->x, part->y, part->width, part->height };
  if (upright ? at < part->x + part->width : at < part->y + part->height)
    g_array_append_val (fill->cuts, made);
}

static void
place (SwSheetFill *fill, guint index, const SwSheetUnit *unit, gboolean turned, SwSheetSplit split)
{
  Rest rest = g_array_index (fill->rests, Rest, index);
  int width = turned ? unit->height : unit->width, height = turned ? unit->width : unit->height;
  int kerf = fill->options->kerf;
  Rest right = { rest.sheet, rest.x + width + kerf, rest.y, rest.width - width - kerf, rest.height };
  Rest above = { rest.sheet, rest.x, rest.y + height + kerf, rest.width, rest.height - height - kerf };
  g_array_remove_index (fill->rests, index);
  if (splits_upright (&rest, width, height, split))
    {
      Rest column = { rest.sheet, rest.x, rest.y, width, rest.height };
      cut (fill, &rest, TRUE, rest.x + width);
      cut (fill, &column, FALSE, rest.y + height);
      above.width = width;
    }
  else
    {
      Rest row = { rest.sheet, rest.x, rest.y, rest.width, height };
      cut (fill, &rest, FALSE, rest.y + height);
      cut (fill, &row, TRUE, rest.x + width);
      right.height = height;
    }
  SwSheetPlace placed = { rest.sheet, unit->item, rest.x, rest.y, width, height, turned };
  g_array_append_val (fill->places, placed);
  if (fill->most > 0)
    note_reach (fill, placed.sheet, placed.x + width, placed.y + height);
  keep_rest (fill, right);
  keep_rest (fill, above);
}

gboolean
sw_sheet_fill_put (SwSheetFill *fill, const SwSheetUnit *unit, SwSheetManner manner)
{
  gint64 best = G_MAXINT64;
  guint at = 0;
  gboolean turned = FALSE;
  gboolean both = unit->may_turn && unit->width != unit->height;
  for (guint i = 0; i < fill->rests->len; i++)
    {
      const Rest *rest = &g_array_index (fill->rests, Rest, i);
      for (int turn = 0; turn <= both; turn++)
        {
          int width = turn ? unit->height : unit->width, height = turn ? unit->width : unit->height;
          if (width > rest->width || height > rest->height)
            continue;
          gint64 score = fit_score (rest, width, height, manner.fit);
          if (score >= best)
            continue;
          best = score;
          at = i;
          turned = turn;
        }
    }
  if (best == G_MAXINT64)
    return FALSE;
  place (fill, at, unit, turned, manner.split);
  return TRUE;
}

gboolean
sw_sheet_fill_all (SwSheetFill *fill, const SwSheetUnit *units, const guint *order, guint n, SwSheetManner manner,
                   guint *failed)
{
  for (guint i = 0; i < n; i++)
    {
      const SwSheetUnit *unit = &units[order ? order[i] : i];
      gboolean dear = fill->most > 0 && fill->least >= fill->most;
      if (!dear && sw_sheet_fill_put (fill, unit, manner))
        continue;
      gboolean full = dear || (fill->limit > 0 && fill->sheets->len >= fill->limit);
      if (full || !sw_sheet_fill_open (fill, unit) || !sw_sheet_fill_put (fill, unit, manner))
        {
          if (failed)
            *failed = i;
          return FALSE;
        }
    }
  return TRUE;
}
