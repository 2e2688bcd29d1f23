/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "base/tolerance.h"
#include "ceiling/boarding.h"
#include "ceiling/sheet_parts.h"

/* Writes laid rows into the ceiling, and reads a stored layout back onto battens that were laid again. What is stored is what was
 * chosen: pieces, sheets and joints; what follows from it (places in the sheets, noggins below joints, marks) is worked
 * out again by the functions that made it, so that a ceiling that was read back is the one that was stored. One pass
 * over pieces and joints, and one cutting plan. */

static SwPoint
to_plan (const SwBoardField *field, SwPoint p)
{
  return sw_frame_from (&field->part->frame, field->turned ? (SwPoint){ p.y, p.x } : p);
}

/* ---- writing ---- */

static void
write_piece (SwCeiling *ceiling, const SwBoardField *field, const SwRings *polygon, SwPoint size, gboolean cut, gboolean locked)
{
  SwBox box = sw_rings_box (polygon);
  g_autoptr (GArray) ring = sw_rings_slit (polygon);
  SwCeilingPiece piece = { .part = field->index, .first = ceiling->corners->len, .n = ring->len };
  piece.piece = (SwPiece){ ceiling->pieces->len + 1, 0, size.x, size.y, TRUE, locked };
  piece.area = sw_rings_area (polygon);
  piece.low = field->turned ? (SwPoint){ box.low.y, box.low.x } : box.low;
  piece.high = field->turned ? (SwPoint){ box.high.y, box.high.x } : box.high;
  double full = (box.high.x - box.low.x) * (box.high.y - box.low.y);
  piece.piece.cut = cut || fabs (piece.area - full) > 1;
  for (guint i = 0; i < ring->len; i++)
    {
      SwPoint corner = to_plan (field, g_array_index (ring, SwPoint, field->turned ? ring->len - 1 - i : i));
      g_array_append_val (ceiling->corners, corner);
    }
  g_array_append_val (ceiling->pieces, piece);
}

static void
note_size (const SwBoarding *boarding, int number, guint stock)
{
  const SwSheetStock *size = &g_array_index (boarding->stock, SwSheetStock, stock);
  SwOddSheet odd = { number, (double) size->width / SW_BOARD_UNITS, (double) size->height / SW_BOARD_UNITS };
  if (stock > 0)
    g_array_append_val (boarding->ceiling->sheets, odd);
}

/* Where a piece is told its sheet and its place there: boards first, then faces. */
typedef struct
{
  int *sheet;
  double *x, *y;
} Slot;

static Slot
slot_of (const SwCeiling *ceiling, guint i)
{
  if (i < ceiling->pieces->len)
    {
      SwCeilingPiece *piece = &g_array_index (ceiling->pieces, SwCeilingPiece, i);
      return (Slot){ &piece->piece.sheet, &piece->x, &piece->y };
    }
  SwCeilingFacePiece *face = &g_array_index (ceiling->face_pieces, SwCeilingFacePiece, i - ceiling->pieces->len);
  return (Slot){ &face->piece.sheet, &face->x, &face->y };
}

static guint
n_slots (const SwCeiling *ceiling)
{
  return ceiling->pieces->len + ceiling->face_pieces->len;
}

static SwPoint
size_of (const SwCeiling *ceiling, guint i)
{
  if (i < ceiling->pieces->len)
    {
      const SwPiece *piece = &g_array_index (ceiling->pieces, SwCeilingPiece, i).piece;
      return (SwPoint){ piece->length, piece->width };
    }
  const SwFacePiece *face = &g_array_index (ceiling->face_pieces, SwCeilingFacePiece, i - ceiling->pieces->len).piece;
  return (SwPoint){ face->length, face->width };
}

void
sw_boarding_number (SwBoarding *boarding, const SwBoardCut *cut)
{
  SwCeiling *ceiling = boarding->ceiling;
  const SwSheetPlan *plan = cut->plan;
  g_autofree int *numbers = g_new0 (int, plan->sheets->len + 1);
  g_autofree const SwSheetPlace **places = g_new0 (const SwSheetPlace *, cut->which->len + 1);
  int next = 1;
  guint at = 0;
  for (guint i = 0; i < plan->places->len; i++)
    places[g_array_index (plan->places, SwSheetPlace, i).item] = &g_array_index (plan->places, SwSheetPlace, i);
  for (guint i = 0; i < n_slots (ceiling); i++)
    {
      Slot slot = slot_of (ceiling, i);
      if (at >= cut->which->len || g_array_index (cut->which, guint, at) != i)
        {
          *slot.sheet = next++;
          continue;
        }
      const SwSheetPlace *place = places[at++];
      if (numbers[place->sheet] == 0)
        {
          numbers[place->sheet] = next++;
          note_size (boarding, numbers[place->sheet], g_array_index (plan->sheets, guint, place->sheet));
        }
      *slot.sheet = numbers[place->sheet];
      *slot.x = (double) place->x / SW_BOARD_UNITS;
      *slot.y = (double) place->y / SW_BOARD_UNITS;
    }
  ceiling->n_sheets = cut->sheets;
  ceiling->cost = cut->cost;
}

void
sw_boarding_write (SwBoarding *boarding, const GPtrArray *laid, const SwBoardCut *cut)
{
  SwCeiling *ceiling = boarding->ceiling;
  g_autofree gboolean *is_cut = g_new0 (gboolean, cut->sizes->len + 1);
  for (guint i = 0; i < cut->which->len; i++)
    is_cut[g_array_index (cut->which, guint, i)] = TRUE;
  for (guint i = 0, n = 0; i < laid->len; i++)
    {
      const SwRows *rows = laid->pdata[i];
      const SwBoardField *field = boarding->fields->pdata[i];
      for (guint k = 0; k < rows->pieces->len; k++, n++)
        write_piece (ceiling, field, rows->pieces->pdata[k], g_array_index (cut->sizes, SwPoint, n), is_cut[n], k < field->locked->len);
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
  for (guint i = 0; i < ceiling->face_pieces->len; i++)
    {
      SwFacePiece *face = &g_array_index (ceiling->face_pieces, SwCeilingFacePiece, i).piece;
      face->piece = (int) (ceiling->pieces->len + i + 1);
      face->cut = is_cut[ceiling->pieces->len + i];
    }
  sw_boarding_number (boarding, cut);
}

/* ---- reading back ---- */

static gboolean
mismatch (const SwCeiling *ceiling, GError **error)
{
  g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, "room \"%s\": the stored boards do not fit its battens: lay it out anew",
               ceiling->room->record.tag);
  return FALSE;
}

/* The part that holds a place in the plan, `first` or a later one; G_MAXUINT for none. */
static guint
part_at (const SwCeiling *ceiling, guint first, SwPoint place)
{
  for (guint i = first; i < ceiling->parts->len; i++)
    {
      const SwCeilingPart *part = &g_array_index (ceiling->parts, SwCeilingPart, i);
      if (sw_rings_holds (part->area, sw_frame_to (&part->frame, place)))
        return i;
    }
  return G_MAXUINT;
}

static gboolean
recall_piece (SwCeiling *ceiling, const SwLayout *layout, const SwPiece *stored, guint *at, guint *part)
{
  SwCeilingPiece piece = { .piece = *stored, .first = ceiling->corners->len };
  for (; *at < layout->corners.n && SW_LIST_AT (layout->corners, SwCorner, *at).piece == stored->piece; ++*at, piece.n++)
    g_array_append_val (ceiling->corners, SW_LIST_AT (layout->corners, SwCorner, *at).at);
  if (piece.n < 3)
    return FALSE;
  const SwPoint *corners = &g_array_index (ceiling->corners, SwPoint, piece.first);
  *part = part_at (ceiling, *part, sw_outline_label_point (corners, piece.n));
  if (*part == G_MAXUINT)
    return FALSE;
  const SwFrame *frame = &g_array_index (ceiling->parts, SwCeilingPart, *part).frame;
  SwBox box = SW_BOX_EMPTY;
  for (guint i = 0; i < piece.n; i++)
    box = sw_box_add (box, sw_frame_to (frame, corners[i]));
  piece.part = *part;
  piece.low = box.low;
  piece.high = box.high;
  piece.area = fabs (sw_outline_area (corners, piece.n));
  g_array_append_val (ceiling->pieces, piece);
  return TRUE;
}

/* Joints stand part by part; movement joints follow from the parts. */
static gboolean
recall_joints (SwCeiling *ceiling, const SwLayout *layout)
{
  guint part = 0;
  for (guint i = 0; i < layout->joints.n; i++)
    {
      SwJoint joint = SW_LIST_AT (layout->joints, SwJoint, i);
      if (joint.kind == SW_JOINT_MOVEMENT)
        continue;
      guint at = part_at (ceiling, part, sw_point_lerp (joint.from, joint.to, 0.5));
      if (at == G_MAXUINT)
        return FALSE;
      SwCeilingPart *holder = &g_array_index (ceiling->parts, SwCeilingPart, at);
      if (at > part || holder->n_joints == 0)
        holder->first_joint = ceiling->joints->len;
      holder->n_joints++;
      part = at;
      g_array_append_val (ceiling->joints, joint);
    }
  return TRUE;
}

/* Places of the pieces in their sheet. */
static gboolean
place_by_sheet (const SwBoarding *boarding, const SwLayout *layout, int sheet)
{
  SwCeiling *ceiling = boarding->ceiling;
  SwSheetStock stock = g_array_index (boarding->stock, SwSheetStock, 0);
  g_autoptr (GArray) pieces = g_array_new (FALSE, FALSE, sizeof (guint));
  g_autoptr (GArray) items = g_array_new (FALSE, FALSE, sizeof (SwSheetItem));
  SwSheetOptions options = boarding->cutting;
  options.effort = boarding->last;
  for (guint i = 0; i < layout->sheets.n; i++)
    {
      const SwOddSheet *odd = &SW_LIST_AT (layout->sheets, SwOddSheet, i);
      if (odd->sheet == sheet)
        stock = (SwSheetStock){ (int) lround (odd->length * SW_BOARD_UNITS), (int) lround (odd->width * SW_BOARD_UNITS), 0, 0 };
    }
  for (guint i = 0; i < n_slots (ceiling); i++)
    {
      SwPoint size = size_of (ceiling, i);
      SwSheetItem item = { (int) floor (size.x * SW_BOARD_UNITS + 0.05), (int) floor (size.y * SW_BOARD_UNITS + 0.05), 1, FALSE };
      item.width = CLAMP (item.width, 1, stock.width);
      item.height = CLAMP (item.height, 1, stock.height);
      if (*slot_of (ceiling, i).sheet != sheet)
        continue;
      g_array_append_val (pieces, i);
      g_array_append_val (items, item);
    }
  g_autoptr (SwSheetPlan) plan = sw_sheet_cut ((SwSheetItem *) items->data, items->len, &stock, 1, &options, NULL, NULL);
  if (plan == NULL || plan->sheets->len > 1)
    return FALSE;
  for (guint i = 0; i < plan->places->len; i++)
    {
      const SwSheetPlace *place = &g_array_index (plan->places, SwSheetPlace, i);
      Slot slot = slot_of (ceiling, g_array_index (pieces, guint, place->item));
      *slot.x = (double) place->x / SW_BOARD_UNITS;
      *slot.y = (double) place->y / SW_BOARD_UNITS;
    }
  return TRUE;
}

/* Cuts the pieces as they were cut when they were laid; FALSE when they then come from other sheets than the stored ones. */
static gboolean
place_alike (SwBoarding *boarding)
{
  SwCeiling *ceiling = boarding->ceiling;
  SwBoardCut cut;
  guint n = n_slots (ceiling);
  g_autofree int *stored = g_new (int, n + 1);
  sw_board_cut_init (&cut);
  for (guint i = 0; i < n; i++)
    {
      SwPoint size = size_of (ceiling, i);
      stored[i] = *slot_of (ceiling, i).sheet;
      g_array_append_val (cut.sizes, size);
    }
  gboolean alike = sw_board_cut_run (&cut, boarding, boarding->last, NULL);
  if (alike)
    sw_boarding_number (boarding, &cut);
  for (guint i = 0; i < n; i++)
    {
      Slot slot = slot_of (ceiling, i);
      alike = alike && *slot.sheet == stored[i];
      *slot.sheet = stored[i];
    }
  sw_board_cut_clear (&cut);
  return alike;
}

/* Faces follow from the bulkheads; the sheets of their pieces were chosen. */
static gboolean
recall_faces (SwCeiling *ceiling, const SwLayout *layout)
{
  if (layout->faces.n != ceiling->face_pieces->len)
    return FALSE;
  for (guint i = 0; i < layout->faces.n; i++)
    g_array_index (ceiling->face_pieces, SwCeilingFacePiece, i).piece = SW_LIST_AT (layout->faces, SwFacePiece, i);
  return TRUE;
}

static gint64
cost_of_sheets (const SwBoarding *boarding)
{
  const SwCeiling *ceiling = boarding->ceiling;
  gint64 cost = (gint64) (ceiling->n_sheets - ceiling->sheets->len) * sw_sheet_stock_cost (&g_array_index (boarding->stock, SwSheetStock, 0));
  for (guint i = 0; i < ceiling->sheets->len; i++)
    {
      const SwOddSheet *odd = &g_array_index (ceiling->sheets, SwOddSheet, i);
      cost += (gint64) lround (odd->length * SW_BOARD_UNITS) * lround (odd->width * SW_BOARD_UNITS);
    }
  return cost;
}

static gboolean
recall_sheets (SwBoarding *boarding, const SwLayout *layout, GError **error)
{
  SwCeiling *ceiling = boarding->ceiling;
  int greatest = 0;
  for (guint i = 0; i < n_slots (ceiling); i++)
    greatest = MAX (greatest, *slot_of (ceiling, i).sheet);
  gboolean placed = layout->sheets.n == 0 && place_alike (boarding);
  for (int sheet = 1; !placed && sheet <= greatest; sheet++)
    if (!place_by_sheet (boarding, layout, sheet))
      return mismatch (ceiling, error);
  ceiling->n_sheets = (guint) greatest;
  g_array_append_vals (ceiling->sheets, layout->sheets.items, layout->sheets.n);
  ceiling->cost = cost_of_sheets (boarding);
  return TRUE;
}

gboolean
sw_ceiling_board_recall (SwCeiling *ceiling, const SwLayout *layout, GError **error)
{
  SwBoarding boarding;
  guint at = 0, part = 0;
  gboolean done = sw_boarding_init (&boarding, ceiling, NULL, error) && sw_boarding_measure (&boarding, error);
  for (guint i = 0; done && i < layout->pieces.n; i++)
    done = recall_piece (ceiling, layout, &SW_LIST_AT (layout->pieces, SwPiece, i), &at, &part) || mismatch (ceiling, error);
  done = done && (recall_faces (ceiling, layout) || mismatch (ceiling, error));
  done = done && (recall_joints (ceiling, layout) || mismatch (ceiling, error)) && recall_sheets (&boarding, layout, error);
  if (done)
    sw_ceiling_finish_boards (ceiling, boarding.fields);
  if (done && (ceiling->members->len != layout->members.n || ceiling->joints->len != layout->joints.n))
    done = mismatch (ceiling, error);
  sw_boarding_clear (&boarding);
  return done;
}
