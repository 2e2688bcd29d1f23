/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a line of the take-off counts of the picked layouts: a kind of member, sheets of one size, joints, fixings, the walls. The pieces
 * are found in the layouts as they are now, so that an edit never leaves old ones lit. */
#include "window/tools/board_data.h"
#include "base/tolerance.h"
#include "ceiling/batten_rules.h"
#include "ceiling/layout.h"
#include "ceiling/totals.h"
#include "estimate/takeoff_parts.h"

/* Draws, or counts when `live` is NULL. */
typedef struct
{
  SwBoard *board;
  const SwLayout *layout;
  const SwRoom *room;
  SwDisplay *live;
  guint n;
} Lamp;

static void
light_line (Lamp *lamp, SwPoint from, SwPoint to, double width)
{
  SwStroke stroke = { .role = SW_ROLE_SELECTION, .width = fmax (width, 4 * lamp->board->mm_per_px), .unit = SW_SIZE_WORLD };
  lamp->n++;
  if (lamp->live != NULL)
    sw_display_add_line (lamp->live, from, to, &stroke);
}

static void
light_members (Lamp *lamp, SwMemberKind kind)
{
  for (guint i = 0; i < lamp->layout->members.n; i++)
    {
      const SwMember *member = &SW_LIST_AT (lamp->layout->members, SwMember, i);
      g_autofree char *section = sw_ceiling_section_size (lamp->room, member->width, member->depth);
      if (member->kind == (int) kind && g_str_equal (section, lamp->board->lit_size))
        light_line (lamp, member->from, member->to, member->width);
    }
}

/* Size of the sheet that a piece is cut from, as price codes end. */
static char *
sheet_of (const Lamp *lamp, const SwPiece *piece)
{
  for (guint i = 0; i < lamp->layout->sheets.n; i++)
    {
      const SwOddSheet *sheet = &SW_LIST_AT (lamp->layout->sheets, SwOddSheet, i);
      if (sheet->sheet == piece->sheet)
        return sw_takeoff_pair (sheet->length, sheet->width);
    }
  return sw_takeoff_pair (lamp->room->board_length, lamp->room->board_width);
}

static gboolean
is_wanted (const Lamp *lamp, int number)
{
  const SwPiece *piece = number >= 1 && number <= (int) lamp->layout->pieces.n ? &SW_LIST_AT (lamp->layout->pieces, SwPiece, number - 1) : NULL;
  if (lamp->board->lit_kind != SW_PRICE_BOARD || piece == NULL)
    return TRUE;
  g_autofree char *sheet = sheet_of (lamp, piece);
  return g_str_has_suffix (lamp->board->lit_size, sheet);
}

static void
light_pieces (Lamp *lamp)
{
  static const SwFill fill = { .role = SW_ROLE_SELECTION, .transparency = 0.6 };
  static const SwStroke edge = { .role = SW_ROLE_SELECTION, .width = 1.5, .unit = SW_SIZE_PX };
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (SwPoint));
  for (guint i = 0; i < lamp->layout->corners.n;)
    {
      int number = SW_LIST_AT (lamp->layout->corners, SwCorner, i).piece;
      g_array_set_size (points, 0);
      for (; i < lamp->layout->corners.n && SW_LIST_AT (lamp->layout->corners, SwCorner, i).piece == number; i++)
        g_array_append_val (points, SW_LIST_AT (lamp->layout->corners, SwCorner, i).at);
      if (!is_wanted (lamp, number))
        continue;
      lamp->n++;
      if (lamp->live != NULL && points->len > 2)
        sw_display_add_polygon (lamp->live, (const SwPoint *) (gpointer) points->data, points->len, &fill, &edge);
    }
}

static void
light_joints (Lamp *lamp, gboolean movement)
{
  for (guint i = 0; i < lamp->layout->joints.n; i++)
    {
      const SwJoint *joint = &SW_LIST_AT (lamp->layout->joints, SwJoint, i);
      if ((joint->kind == SW_JOINT_MOVEMENT) == movement)
        light_line (lamp, joint->from, joint->to, 0);
    }
}

/* Fixings of one length, by their packing. */
static void
light_fixings (Lamp *lamp)
{
  static const SwFill fill = { .role = SW_ROLE_SELECTION };
  const SwRules *rules = lamp->board->picture != NULL ? lamp->board->picture->rules : NULL;
  double longer = rules != NULL ? sw_rules_value (rules, "brandering.setout", "packer_mm").value : INFINITY;
  double hanging = rules != NULL ? sw_rules_value (rules, "brandering.setout", "hanger_mm").value : INFINITY;
  for (guint i = 0; i < lamp->layout->fixings.n; i++)
    {
      const SwFixing *fixing = &SW_LIST_AT (lamp->layout->fixings, SwFixing, i);
      SwPriceKind kind = fixing->packer > hanging ? SW_PRICE_HANGER : fixing->packer > longer ? SW_PRICE_LONG_FIXING : SW_PRICE_FIXING;
      gboolean packed = lamp->board->lit_kind == SW_PRICE_PACKER;
      gboolean wanted = packed ? fixing->packer >= 1 : kind == lamp->board->lit_kind || lamp->board->lit_kind == SW_PRICE_CLIP;
      if (!wanted)
        continue;
      lamp->n++;
      if (lamp->live != NULL)
        sw_display_add_circle (lamp->live, fixing->at, fmax (20, 4 * lamp->board->mm_per_px), &fill, NULL);
    }
}

/* The cornice of a layout, reckoned once for as long as a line is lit: laying the battens anew takes longer than a frame may. NULL where
 * the layout is out of date, or nothing has been drawn yet. */
static const SwCornice *
cornice_of (Lamp *lamp)
{
  SwBoard *board = lamp->board;
  if (board->lit_cornices == NULL)
    board->lit_cornices = g_hash_table_new_full (NULL, NULL, (GDestroyNotify) sw_record_unref, (GDestroyNotify) sw_cornice_free);
  SwCornice *cornice = g_hash_table_lookup (board->lit_cornices, lamp->layout);
  if (cornice != NULL || board->picture == NULL || board->picture->rules == NULL)
    return cornice;
  g_autoptr (SwCeiling) ceiling = sw_ceiling_recall (lamp->layout, board->picture->deck, board->picture->rules);
  if (ceiling == NULL || ceiling->parts->len == 0)
    return NULL;
  cornice = sw_cornice_new (ceiling);
  g_hash_table_insert (board->lit_cornices, sw_record_ref ((SwRecord *) &lamp->layout->record), cornice);
  return cornice;
}

static void
light_walls (Lamp *lamp)
{
  const SwCornice *cornice = cornice_of (lamp);
  const SwList *outline = &lamp->room->outline;
  for (guint i = 0; cornice != NULL && i < cornice->runs->len; i++)
    light_line (lamp, g_array_index (cornice->runs, SwCorniceRun, i).from, g_array_index (cornice->runs, SwCorniceRun, i).to, 0);
  for (guint i = 0; cornice == NULL && i < outline->n; i++)
    light_line (lamp, SW_LIST_AT (*outline, SwPoint, i), SW_LIST_AT (*outline, SwPoint, (i + 1) % outline->n), 0);
}

static void
light_mitres (Lamp *lamp)
{
  static const SwFill fill = { .role = SW_ROLE_SELECTION };
  const SwCornice *cornice = cornice_of (lamp);
  for (guint i = 0; cornice != NULL && i < cornice->mitres->len; i++)
    {
      lamp->n++;
      if (lamp->live != NULL)
        sw_display_add_circle (lamp->live, g_array_index (cornice->mitres, SwPoint, i), fmax (40, 5 * lamp->board->mm_per_px), &fill, NULL);
    }
}

static void
light_faces (Lamp *lamp)
{
  for (guint i = 0; i < lamp->layout->faces.n; i++)
    light_line (lamp, SW_LIST_AT (lamp->layout->faces, SwFacePiece, i).from, SW_LIST_AT (lamp->layout->faces, SwFacePiece, i).to, 0);
}

static void
light_layout (Lamp *lamp)
{
  switch (lamp->board->lit_kind)
    {
    case SW_PRICE_BATTEN:
      light_members (lamp, SW_MEMBER_BATTEN);
      break;
    case SW_PRICE_PRIMARY:
      light_members (lamp, SW_MEMBER_PRIMARY);
      break;
    case SW_PRICE_NOGGIN:
      light_members (lamp, SW_MEMBER_NOGGIN);
      break;
    case SW_PRICE_TRIMMER:
      light_members (lamp, SW_MEMBER_TRIMMER);
      break;
    case SW_PRICE_WALL_BATTEN:
      light_members (lamp, SW_MEMBER_PERIMETER);
      break;
    case SW_PRICE_STUD:
      light_members (lamp, SW_MEMBER_STUD);
      break;
    case SW_PRICE_TAPE:
    case SW_PRICE_COVER_STRIP:
      light_joints (lamp, FALSE);
      break;
    case SW_PRICE_MOVEMENT_JOINT:
      light_joints (lamp, TRUE);
      break;
    case SW_PRICE_FIXING:
    case SW_PRICE_LONG_FIXING:
    case SW_PRICE_HANGER:
    case SW_PRICE_PACKER:
    case SW_PRICE_CLIP:
      light_fixings (lamp);
      break;
    case SW_PRICE_CORNICE:
    case SW_PRICE_ADHESIVE:
    case SW_PRICE_SHADOW_LINE:
      light_walls (lamp);
      break;
    case SW_PRICE_MITRE:
      light_mitres (lamp);
      break;
    case SW_PRICE_BEAD:
      light_faces (lamp);
      break;
    default: /* sheets, and what goes by their area */
      light_pieces (lamp);
      light_faces (lamp);
      break;
    }
}

static guint
light_all (SwBoard *board, SwDisplay *live)
{
  SwJob *job = sw_board_job (board);
  guint n = 0;
  for (guint i = 0; i < board->picked->len; i++)
    {
      const SwRecord *record = sw_job_get (job, g_array_index (board->picked, SwId, i));
      if (record == NULL || sw_record_table (record) != SW_TABLE_LAYOUT)
        continue;
      const SwLayout *layout = (const SwLayout *) record;
      Lamp lamp = { board, layout, (const SwRoom *) sw_job_get (job, layout->room), live, 0 };
      if (lamp.room != NULL)
        light_layout (&lamp);
      n += lamp.n;
    }
  return n;
}

/* A circuit stands nowhere on the plan; what its wires are counted along are its runs. */
static GArray *
things_of (SwBoard *board, const SwId *ids, guint n)
{
  GArray *things = g_array_new (FALSE, FALSE, sizeof (SwId));
  SwJob *job = sw_board_job (board);
  const SwRecord *record;
  for (guint i = 0; i < n; i++)
    {
      if (SW_ID_TABLE (ids[i]) != SW_TABLE_CIRCUIT)
        {
          g_array_append_val (things, ids[i]);
          continue;
        }
      for (SwJobIter k = sw_job_iter (job, SW_TABLE_RUN); (record = sw_job_iter_next (&k)) != NULL;)
        if (((const SwRun *) record)->circuit == ids[i])
          g_array_append_val (things, record->id);
    }
  return things;
}

guint
sw_board_light (SwBoard *board, SwPriceKind kind, const char *size, const SwId *ids, guint n)
{
  g_autoptr (GArray) things = things_of (board, ids, n);
  sw_board_pick_many (board, (const SwId *) (gpointer) things->data, things->len);
  g_clear_pointer (&board->lit_cornices, g_hash_table_unref);
  board->lit_kind = kind;
  g_free (board->lit_size);
  board->lit_size = g_strdup (size);
  sw_board_tell (board, SW_BOARD_LIVE);
  return kind < SW_N_PRICES ? light_all (board, NULL) : 0;
}

gboolean
sw_board_is_lit (SwBoard *board)
{
  return board->lit_kind < SW_N_PRICES;
}

void
sw_board_draw_lit (SwBoard *board, SwDisplay *live)
{
  if (sw_board_is_lit (board))
    light_all (board, live);
}
