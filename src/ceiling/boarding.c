/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "base/tolerance.h"
#include "ceiling/boarding.h"
#include "ceiling/brandering.h"
#include "ceiling/sheet_parts.h"

/* What all ways of laying boards start from: the sheets that pieces may come out of, and what pieces cost by cutting them out of these. */

#define TRIAL_EFFORT 40
#define LAST_EFFORT 2000
#define QUICK_EFFORT 20

static int
in_units (double mm)
{
  return MAX (1, (int) floor (mm * SW_BOARD_UNITS + 0.05));
}

/* ---- the sheets ---- */

static gboolean
check_sheet (const SwCeiling *ceiling, GError **error)
{
  double area = 0, sheet = ceiling->sheet_length * ceiling->sheet_width;
  for (guint i = 0; i < ceiling->parts->len; i++)
    area += sw_rings_area (g_array_index (ceiling->parts, SwCeilingPart, i).area);
  if (ceiling->sheet_length * SW_BOARD_UNITS > SW_SHEET_MOST || ceiling->sheet_width > ceiling->sheet_length)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "room \"%s\": a sheet of %g × %g mm cannot be laid: give the longer side as length",
                   ceiling->room->record.tag, ceiling->sheet_length, ceiling->sheet_width);
      return FALSE;
    }
  if (area / sheet > SW_CEILING_MOST)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_LIMIT, "room \"%s\" would need more than %d sheets: split the room",
                   ceiling->room->record.tag, SW_CEILING_MOST);
      return FALSE;
    }
  return TRUE;
}

static gboolean
mixes (const SwCeiling *ceiling, const SwBoardSize *size)
{
  return sw_ceiling_sheet_mixes (ceiling->rules, sw_deck_job (ceiling->deck), ceiling->room, size->length, size->width);
}

static void
take_sizes (SwBoarding *boarding, const SwCeilingOptions *options)
{
  const SwCeiling *ceiling = boarding->ceiling;
  SwSheetStock own = { (int) lround (ceiling->sheet_length * SW_BOARD_UNITS), (int) lround (ceiling->sheet_width * SW_BOARD_UNITS), 0, 0 };
  gboolean priced = TRUE;
  for (guint i = 0; options && i < options->n_sizes; i++)
    priced = priced && options->sizes[i].cost > 0;
  g_array_append_val (boarding->stock, own);
  for (guint i = 0; options && i < options->n_sizes; i++)
    {
      const SwBoardSize *size = &options->sizes[i];
      SwSheetStock other = { (int) lround (size->length * SW_BOARD_UNITS), (int) lround (size->width * SW_BOARD_UNITS),
                             priced ? size->cost : 0, 0 };
      if (other.width == own.width && other.height == own.height)
        g_array_index (boarding->stock, SwSheetStock, 0).cost = other.cost;
      else if (other.width > 0 && other.height > 0 && MAX (other.width, other.height) <= SW_SHEET_MOST && mixes (ceiling, size))
        g_array_append_val (boarding->stock, other);
    }
  if (g_array_index (boarding->stock, SwSheetStock, 0).cost == 0) /* its cost is not known: areas for all */
    for (guint i = 0; i < boarding->stock->len; i++)
      g_array_index (boarding->stock, SwSheetStock, i).cost = 0;
  boarding->n_stock = boarding->stock->len;
  if (options && g_array_index (boarding->stock, SwSheetStock, 0).cost > 0)
    boarding->joint_cost = options->joint_cost;
}

gboolean
sw_boarding_init (SwBoarding *boarding, SwCeiling *ceiling, const SwCeilingOptions *options, GError **error)
{
  gboolean quick = options != NULL && options->quick;
  *boarding = (SwBoarding){ .ceiling = ceiling, .trial = quick ? 0 : TRIAL_EFFORT, .last = quick ? QUICK_EFFORT : LAST_EFFORT };
  boarding->fields = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_board_field_free);
  boarding->stock = g_array_new (FALSE, FALSE, sizeof (SwSheetStock));
  if (!check_sheet (ceiling, error))
    return FALSE;
  take_sizes (boarding, options);
  double kerf = sw_rules_value (ceiling->rules, "board.layout", "kerf_mm").value;
  double joint = sw_rules_value (ceiling->rules, "board.layout", "joint_mm").value;
  /* Pieces are counted from joint to joint: the cut disappears in the joint's width. */
  boarding->cutting.kerf = (int) ceil (fmax (0, kerf - joint) * SW_BOARD_UNITS);
  for (guint i = 0; i < ceiling->parts->len; i++)
    {
      SwBoardField *field = sw_board_field_new (ceiling, i);
      g_ptr_array_add (boarding->fields, field);
      if (!sw_board_field_lock (field, ceiling, error))
        return FALSE;
    }
  return TRUE;
}

void
sw_boarding_clear (SwBoarding *boarding)
{
  g_clear_pointer (&boarding->fields, g_ptr_array_unref);
  g_clear_pointer (&boarding->stock, g_array_unref);
}

/* ---- cutting ---- */

void
sw_board_cut_init (SwBoardCut *cut)
{
  *cut = (SwBoardCut){ g_array_new (FALSE, FALSE, sizeof (SwPoint)), g_array_new (FALSE, FALSE, sizeof (guint)), NULL, 0, 0, 0 };
}

void
sw_board_cut_clear (SwBoardCut *cut)
{
  g_clear_pointer (&cut->sizes, g_array_unref);
  g_clear_pointer (&cut->which, g_array_unref);
  g_clear_pointer (&cut->plan, sw_sheet_plan_free);
}

void
sw_board_cut_add (SwBoardCut *cut, const SwRings *piece)
{
  SwBox box = sw_rings_box (piece);
  /* On the grid, as it is stored, so that a stored layout is cut alike. */
  SwPoint size = { sw_grid_round (box.high.x - box.low.x), sw_grid_round (box.high.y - box.low.y) };
  g_array_append_val (cut->sizes, size);
}

gboolean
sw_board_cut_run (SwBoardCut *cut, const SwBoarding *boarding, guint effort, GError **error)
{
  const SwSheetStock *own = &g_array_index (boarding->stock, SwSheetStock, 0);
  g_autoptr (GArray) items = g_array_new (FALSE, FALSE, sizeof (SwSheetItem));
  SwSheetOptions options = boarding->cutting;
  options.effort = effort;
  g_array_set_size (cut->which, 0);
  for (guint i = 0; i < cut->sizes->len; i++)
    {
      SwPoint size = g_array_index (cut->sizes, SwPoint, i);
      SwSheetItem item = { in_units (size.x), in_units (size.y), 1, FALSE };
      if (item.width >= own->width && item.height >= own->height)
        continue;
      item.width = MIN (item.width, own->width);
      item.height = MIN (item.height, own->height);
      g_array_append_val (items, item);
      g_array_append_val (cut->which, i);
    }
  guint whole = cut->sizes->len - items->len;
  gint64 uncut = whole * sw_sheet_stock_cost (own);
  g_clear_pointer (&cut->plan, sw_sheet_plan_free);
  if (cut->most > 0) /* nothing to cut costs nothing */
    options.most = MAX (cut->most - uncut, 1);
  cut->plan = sw_sheet_cut ((SwSheetItem *) items->data, items->len, own, boarding->n_stock, &options, boarding->cancellable, error);
  if (cut->plan == NULL)
    return FALSE;
  if (boarding->n_stock > 1 && effort == boarding->last) /* of one size more is known */
    {
      SwSheetPlan *alone = sw_sheet_cut ((SwSheetItem *) items->data, items->len, own, 1, &options, boarding->cancellable, NULL);
      if (alone != NULL)
        sw_sheet_plan_keep (&cut->plan, alone);
    }
  cut->sheets = whole + cut->plan->sheets->len;
  cut->cost = uncut + cut->plan->cost;
  return TRUE;
}

void
sw_board_cut_add_faces (SwBoardCut *cut, const SwCeiling *ceiling)
{
  for (guint i = 0; i < ceiling->face_pieces->len; i++)
    {
      const SwFacePiece *piece = &g_array_index (ceiling->face_pieces, SwCeilingFacePiece, i).piece;
      SwPoint size = { piece->length, piece->width };
      g_array_append_val (cut->sizes, size);
    }
}

/* Of what each sheet gives, in shares of the sheet. */
static double
squares_of (const SwBoardCut *cut, const SwSheetStock *own)
{
  double sum = 0, area = (double) own->width * own->height;
  g_autofree double *used = g_new0 (double, cut->plan->sheets->len + 1);
  for (guint i = 0; i < cut->plan->places->len; i++)
    {
      const SwSheetPlace *place = &g_array_index (cut->plan->places, SwSheetPlace, i);
      used[place->sheet] += (double) place->width * place->height / area;
    }
  for (guint i = 0; i < cut->plan->sheets->len; i++)
    sum += used[i] * used[i];
  return sum;
}

gboolean
sw_boarding_count (const SwBoarding *boarding, SwRows *rows, guint effort, gint64 most, double *squares, GError **error)
{
  SwBoardCut cut;
  sw_board_cut_init (&cut);
  cut.most = most;
  for (guint i = 0; i < rows->pieces->len; i++)
    sw_board_cut_add (&cut, rows->pieces->pdata[i]);
  gboolean done = sw_board_cut_run (&cut, boarding, effort, error);
  rows->cost = cut.cost;
  if (done && squares)
    *squares = squares_of (&cut, &g_array_index (boarding->stock, SwSheetStock, 0));
  sw_board_cut_clear (&cut);
  return done;
}

gboolean
sw_boarding_cut (const SwBoarding *boarding, const GPtrArray *laid, SwBoardCut *cut, GError **error)
{
  for (guint i = 0; i < laid->len; i++)
    {
      const SwRows *rows = laid->pdata[i];
      for (guint k = 0; k < rows->pieces->len; k++)
        sw_board_cut_add (cut, rows->pieces->pdata[k]);
    }
  sw_board_cut_add_faces (cut, boarding->ceiling);
  return sw_board_cut_run (cut, boarding, boarding->last, error);
}

GPtrArray *
sw_boarding_lay_plain (const SwBoarding *boarding)
{
  GPtrArray *laid = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_rows_free);
  for (guint i = 0; i < boarding->fields->len; i++)
    {
      const SwBoardField *field = boarding->fields->pdata[i];
      g_autoptr (GArray) manners = sw_rows_manners (field);
      g_ptr_array_add (laid, sw_rows_lay (field, g_array_index (manners, SwRowsManner, 0)));
    }
  return laid;
}
