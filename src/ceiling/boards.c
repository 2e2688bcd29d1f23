/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/boards.h"
#include "base/error.h"
#include "ceiling/cancel.h"
#include "base/tolerance.h"
#include "ceiling/brandering.h"
#include "ceiling/rows.h"
#include "ceiling/sheet_cut.h"

/* Tries a handful of manners of laying each part (rows.c), counts the sheets that each needs by cutting its pieces out of
 * sheets (sheet_cut.c), and keeps the best: fewest faults, then fewest narrow pieces, then fewest sheets, then joints that keep off
 * lights and hatches, then fewest metres of joint, then the largest smallest piece; but never one that needs more sheets
 * than plain rows from the corner. Manners times pieces; no manner outside the list is found. */

#define UNITS_MM 10 /* sheets are cut in tenths of a millimetre: what is lost to that stays below the joint's width */
#define TRIAL_EFFORT 40
#define CUT_EFFORT 2000

typedef struct
{
  SwCeiling *ceiling;
  GPtrArray *fields; /* SwBoardField, one a part */
  SwSheetOptions cutting;
  SwSheetStock stock;
} Boarding;

static int
in_units (double mm)
{
  return MAX (1, (int) floor (mm * UNITS_MM + 0.05));
}

/* ---- counting sheets ---- */

static gboolean
is_whole (const Boarding *boarding, SwBox box)
{
  return in_units (box.high.x - box.low.x) >= boarding->stock.width && in_units (box.high.y - box.low.y) >= boarding->stock.height;
}

/* The pieces that are cut, as items one each; `pieces` of them are numbered in `which`. */
static GArray *
cut_items (const Boarding *boarding, const GPtrArray *pieces, GArray *which)
{
  GArray *items = g_array_new (FALSE, FALSE, sizeof (SwSheetItem));
  for (guint i = 0; i < pieces->len; i++)
    {
      SwBox box = sw_rings_box (pieces->pdata[i]);
      SwSheetItem item = { in_units (box.high.x - box.low.x), in_units (box.high.y - box.low.y), 1, FALSE };
      item.width = MIN (item.width, boarding->stock.width);
      item.height = MIN (item.height, boarding->stock.height);
      if (is_whole (boarding, box))
        continue;
      g_array_append_val (items, item);
      if (which)
        g_array_append_val (which, i);
    }
  return items;
}

static gboolean
count_sheets (const Boarding *boarding, SwRows *rows, GError **error)
{
  g_autoptr (GArray) items = cut_items (boarding, rows->pieces, NULL);
  g_autoptr (SwSheetPlan) plan = sw_sheet_cut ((SwSheetItem *) items->data, items->len, &boarding->stock, 1,
                                               &boarding->cutting, NULL, error);
  if (plan == NULL)
    return FALSE;
  rows->sheets = rows->pieces->len - items->len + plan->sheets->len;
  return TRUE;
}

static gboolean
is_better (const SwRows *a, const SwRows *b)
{
  const guint keys[][2] = { { a->faults, b->faults }, { a->slivers, b->slivers }, { a->sheets, b->sheets },
                            { a->close_calls, b->close_calls } };
  for (gsize i = 0; i < G_N_ELEMENTS (keys); i++)
    if (keys[i][0] != keys[i][1])
      return keys[i][0] < keys[i][1];
  if (fabs (a->joint_length - b->joint_length) > 1)
    return a->joint_length < b->joint_length;
  return a->smallest > b->smallest + SW_TOUCH_MM;
}

/* The plain layout of a part and the best one. */
static gboolean
lay_part (Boarding *boarding, guint index, SwRows **plain, SwRows **best, GCancellable *cancellable, GError **error)
{
  const SwBoardField *field = boarding->fields->pdata[index];
  g_autoptr (GArray) manners = sw_rows_manners (field);
  for (guint i = 0; i < manners->len; i++)
    {
      g_autoptr (SwRows) rows = sw_rows_lay (field, g_array_index (manners, SwRowsManner, i));
      if (sw_ceiling_is_cancelled (cancellable, error) || !count_sheets (boarding, rows, error))
        return FALSE;
      if (i == 0)
        *plain = g_steal_pointer (&rows);
      else if (rows->sheets <= (*plain)->sheets && (*best == NULL || is_better (rows, *best)))
        {
          sw_rows_free (*best);
          *best = g_steal_pointer (&rows);
        }
    }
  return TRUE;
}

/* ---- cutting all parts together ---- */

static SwSheetPlan *
cut_all (const Boarding *boarding, const GPtrArray *laid, GPtrArray *pieces, GArray *which, GError **error)
{
  for (guint i = 0; i < laid->len; i++)
    {
      const SwRows *rows = laid->pdata[i];
      for (guint k = 0; k < rows->pieces->len; k++)
        g_ptr_array_add (pieces, rows->pieces->pdata[k]);
    }
  g_autoptr (GArray) items = cut_items (boarding, pieces, which);
  SwSheetOptions options = boarding->cutting;
  options.effort = CUT_EFFORT;
  return sw_sheet_cut ((SwSheetItem *) items->data, items->len, &boarding->stock, 1, &options, NULL, error);
}

static guint
sheets_in (const GPtrArray *pieces, const GArray *which, const SwSheetPlan *plan)
{
  return pieces->len - which->len + plan->sheets->len;
}

/* ---- writing down ---- */

static SwPoint
to_plan (const SwBoardField *field, SwPoint p)
{
  return sw_frame_from (&field->part->frame, field->turned ? (SwPoint){ p.y, p.x } : p);
}

static void
write_piece (SwCeiling *ceiling, const SwBoardField *field, const SwRings *polygon, gboolean whole)
{
  SwBox box = sw_rings_box (polygon);
  g_autoptr (GArray) ring = sw_rings_slit (polygon);
  SwCeilingPiece piece = { .part = field->index, .first = ceiling->corners->len, .n = ring->len };
  piece.piece = (SwPiece){ ceiling->pieces->len + 1, 0, sw_grid_round (box.high.x - box.low.x),
                           sw_grid_round (box.high.y - box.low.y), TRUE };
  piece.area = sw_rings_area (polygon);
  piece.low = field->turned ? (SwPoint){ box.low.y, box.low.x } : box.low;
  piece.high = field->turned ? (SwPoint){ box.high.y, box.high.x } : box.high;
  double full = (box.high.x - box.low.x) * (box.high.y - box.low.y);
  piece.piece.cut = !whole || fabs (piece.area - full) > 1;
  for (guint i = 0; i < ring->len; i++)
    {
      SwPoint corner = to_plan (field, g_array_index (ring, SwPoint, field->turned ? ring->len - 1 - i : i));
      g_array_append_val (ceiling->corners, corner);
    }
  g_array_append_val (ceiling->pieces, piece);
}

/* Sheets are numbered in the order in which laying needs them. */
static void
number_sheets (SwCeiling *ceiling, const GArray *which, const SwSheetPlan *plan)
{
  g_autofree int *numbers = g_new0 (int, plan->sheets->len + 1);
  g_autofree const SwSheetPlace **places = g_new0 (const SwSheetPlace *, which->len + 1);
  int next = 1;
  guint cut = 0;
  for (guint i = 0; i < plan->places->len; i++)
    places[g_array_index (plan->places, SwSheetPlace, i).item] = &g_array_index (plan->places, SwSheetPlace, i);
  for (guint i = 0; i < ceiling->pieces->len; i++)
    {
      SwCeilingPiece *piece = &g_array_index (ceiling->pieces, SwCeilingPiece, i);
      if (cut >= which->len || g_array_index (which, guint, cut) != i)
        {
          piece->piece.sheet = next++;
          continue;
        }
      const SwSheetPlace *place = places[cut++];
      if (numbers[place->sheet] == 0)
        numbers[place->sheet] = next++;
      piece->piece.sheet = numbers[place->sheet];
      piece->x = (double) place->x / UNITS_MM;
      piece->y = (double) place->y / UNITS_MM;
    }
}

static void
write_rows (SwCeiling *ceiling, const Boarding *boarding, const GPtrArray *laid, const GArray *which, const SwSheetPlan *plan)
{
  for (guint i = 0; i < laid->len; i++)
    {
      const SwRows *rows = laid->pdata[i];
      const SwBoardField *field = boarding->fields->pdata[i];
      for (guint k = 0; k < rows->pieces->len; k++)
        write_piece (ceiling, field, rows->pieces->pdata[k], is_whole (boarding, sw_rings_box (rows->pieces->pdata[k])));
      SwCeilingPart *part = &g_array_index (ceiling->parts, SwCeilingPart, i);
      part->first_joint = ceiling->joints->len;
      part->n_joints = rows->joints->len;
      for (guint k = 0; k < rows->joints->len; k++)
        {
          SwJoint joint = g_array_index (rows->joints, SwJoint, k);
          joint.from = to_plan (field, joint.from);
          joint.to = to_plan (field, joint.to);
          g_array_append_val (ceiling->joints, joint);
        }
    }
  number_sheets (ceiling, which, plan);
}

/* ---- the room ---- */

static gboolean
check_sheet (const SwCeiling *ceiling, GError **error)
{
  double area = 0, sheet = ceiling->sheet_length * ceiling->sheet_width;
  for (guint i = 0; i < ceiling->parts->len; i++)
    area += sw_rings_area (g_array_index (ceiling->parts, SwCeilingPart, i).area);
  if (ceiling->sheet_length * UNITS_MM > SW_SHEET_MOST || ceiling->sheet_width > ceiling->sheet_length)
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
lay_parts (Boarding *boarding, GPtrArray *plain, GPtrArray *chosen, GCancellable *cancellable, GError **error)
{
  for (guint i = 0; i < boarding->ceiling->parts->len; i++)
    {
      g_ptr_array_add (boarding->fields, sw_board_field_new (boarding->ceiling, i));
      SwRows *corner = NULL, *best = NULL;
      gboolean done = lay_part (boarding, i, &corner, &best, cancellable, error);
      g_ptr_array_add (plain, corner);
      g_ptr_array_add (chosen, best);
      if (!done)
        return FALSE;
    }
  return TRUE;
}

/* Cuts both ways and writes the better down. */
static gboolean
settle (Boarding *boarding, GPtrArray *plain, GPtrArray *chosen, GError **error)
{
  SwCeiling *ceiling = boarding->ceiling;
  g_autoptr (GPtrArray) plain_pieces = g_ptr_array_new (), pieces = g_ptr_array_new ();
  g_autoptr (GArray) plain_which = g_array_new (FALSE, FALSE, sizeof (guint));
  g_autoptr (GArray) which = g_array_new (FALSE, FALSE, sizeof (guint));
  for (guint i = 0; i < chosen->len; i++)
    if (chosen->pdata[i] == NULL)
      chosen->pdata[i] = plain->pdata[i];
  g_autoptr (SwSheetPlan) plain_plan = cut_all (boarding, plain, plain_pieces, plain_which, error);
  g_autoptr (SwSheetPlan) plan = plain_plan ? cut_all (boarding, chosen, pieces, which, error) : NULL;
  if (plan == NULL)
    return FALSE;
  double area = 0, sheet = ceiling->sheet_length * ceiling->sheet_width;
  for (guint i = 0; i < ceiling->parts->len; i++)
    area += sw_rings_area (g_array_index (ceiling->parts, SwCeilingPart, i).area);
  ceiling->n_sheets_plain = sheets_in (plain_pieces, plain_which, plain_plan);
  ceiling->n_sheets = MIN (sheets_in (pieces, which, plan), ceiling->n_sheets_plain);
  ceiling->n_sheets_bound = (guint) ceil (area / sheet - 1e-6);
  if (sheets_in (pieces, which, plan) <= ceiling->n_sheets_plain)
    write_rows (ceiling, boarding, chosen, which, plan);
  else
    write_rows (ceiling, boarding, plain, plain_which, plain_plan);
  return TRUE;
}

static void
free_laid (GPtrArray *plain, GPtrArray *chosen)
{
  for (guint i = 0; i < chosen->len; i++)
    if (chosen->pdata[i] != plain->pdata[i])
      sw_rows_free (chosen->pdata[i]);
  for (guint i = 0; i < plain->len; i++)
    sw_rows_free (plain->pdata[i]);
}

gboolean
sw_ceiling_board (SwCeiling *ceiling, GCancellable *cancellable, GError **error)
{
  if (!check_sheet (ceiling, error))
    return FALSE;
  Boarding boarding = { .ceiling = ceiling };
  double kerf = sw_rules_value (ceiling->rules, "board.layout", "kerf_mm").value;
  double joint = sw_rules_value (ceiling->rules, "board.layout", "joint_mm").value;
  /* Pieces are counted from joint to joint: the cut disappears in the joint's width. */
  boarding.cutting.kerf = (int) ceil (fmax (0, kerf - joint) * UNITS_MM);
  boarding.cutting.effort = TRIAL_EFFORT;
  boarding.stock = (SwSheetStock){ (int) lround (ceiling->sheet_length * UNITS_MM),
                                   (int) lround (ceiling->sheet_width * UNITS_MM), 0, 0 };
  boarding.fields = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_board_field_free);
  g_autoptr (GPtrArray) plain = g_ptr_array_new (), chosen = g_ptr_array_new ();
  gboolean done = lay_parts (&boarding, plain, chosen, cancellable, error) && settle (&boarding, plain, chosen, error);
  if (done)
    sw_ceiling_finish_boards (ceiling, boarding.fields);
  free_laid (plain, chosen);
  g_ptr_array_unref (boarding.fields);
  return done;
}

SwCeiling *
sw_ceiling_plan (SwDeck *deck, SwRules *rules, const SwRoom *room, const SwCeilingOptions *options,
                 GCancellable *cancellable, GError **error)
{
  g_autoptr (SwCeiling) ceiling = sw_ceiling_lay (deck, rules, room, options, cancellable, error);
  if (ceiling == NULL || !sw_ceiling_board (ceiling, cancellable, error))
    return NULL;
  return g_steal_pointer (&ceiling);
}
