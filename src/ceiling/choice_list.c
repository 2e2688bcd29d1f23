/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/choice_list.h"
#include "base/tolerance.h"
#include "ceiling/totals.h"

/* What alternatives come to, which of two is the better and which two are one: sorted, then each compared with those kept. Lists are
 * short: choices squared. */

void
sw_ceiling_choice_free (gpointer data)
{
  SwCeilingChoice *choice = data;
  sw_ceiling_free (choice->ceiling);
  sw_record_unref (&choice->room->record);
  g_free (choice);
}

static void
measure_boards (const SwCeiling *ceiling, SwCeilingChoice *choice)
{
  double area = 0, bought = ceiling->sheet_length * ceiling->sheet_width * (ceiling->n_sheets - ceiling->sheets->len);
  choice->smallest_mm = INFINITY;
  for (guint i = 0; i < ceiling->pieces->len; i++)
    {
      const SwCeilingPiece *piece = &g_array_index (ceiling->pieces, SwCeilingPiece, i);
      area += piece->area;
      choice->smallest_mm = fmin (choice->smallest_mm, fmin (piece->piece.length, piece->piece.width));
    }
  for (guint i = 0; i < ceiling->sheets->len; i++)
    bought += g_array_index (ceiling->sheets, SwOddSheet, i).length * g_array_index (ceiling->sheets, SwOddSheet, i).width;
  for (guint i = 0; i < ceiling->face_pieces->len; i++)
    {
      const SwFacePiece *piece = &g_array_index (ceiling->face_pieces, SwCeilingFacePiece, i).piece;
      area += piece->length * piece->width;
    }
  choice->sheets = ceiling->n_sheets;
  choice->waste_m2 = (bought - area) / 1e6;
}

void
sw_ceiling_choice_measure (SwCeilingChoice *choice)
{
  const SwCeiling *ceiling = choice->ceiling;
  measure_boards (ceiling, choice);
  for (guint i = 0; i < ceiling->joints->len; i++)
    {
      const SwJoint *joint = &g_array_index (ceiling->joints, SwJoint, i);
      choice->joint_m += sw_point_distance (joint->from, joint->to) / 1e3;
    }
  for (guint i = 0; i < ceiling->members->len; i++)
    {
      const SwMember *member = &g_array_index (ceiling->members, SwCeilingMember, i).member;
      double width, depth;
      choice->batten_m += sw_totals_section (ceiling->room, member, &width, &depth) / 1e3;
    }
  for (guint i = 0; i < ceiling->marks->len; i++)
    {
      SwCeilingMarkKind kind = g_array_index (ceiling->marks, SwCeilingMark, i).kind;
      choice->faults += kind == SW_CEILING_JOINT_OFF_BATTEN || kind == SW_CEILING_STAGGER;
      choice->slivers += kind == SW_CEILING_SLIVER;
      choice->cuts += kind == SW_CEILING_LIGHT_CUTS;
    }
}

int
sw_ceiling_choice_compare (gconstpointer pa, gconstpointer pb)
{
  const SwCeilingChoice *a = *(SwCeilingChoice *const *) pa, *b = *(SwCeilingChoice *const *) pb;
  const double keys[][2] = {
    { a->faults, b->faults },
    { a->slivers, b->slivers },
    { a->cuts, b->cuts },
    { (double) a->cost, (double) b->cost },
    { sw_grid_round (a->batten_m), sw_grid_round (b->batten_m) }, /* costs without prices are those of sheets alone */
    { sw_grid_round (a->joint_m), sw_grid_round (b->joint_m) },
    { -a->smallest_mm, -b->smallest_mm },
    { a->room->board_length, b->room->board_length },
    { a->room->board_width, b->room->board_width },
    { a->room->boards_turned, b->room->boards_turned },
    { a->room->direction, b->room->direction },
    { a->ceiling->sheets->len, b->ceiling->sheets->len },
    { a->room->batten_shift, b->room->batten_shift },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (keys); i++)
    if (keys[i][0] != keys[i][1])
      return keys[i][0] < keys[i][1] ? -1 : 1;
  return 0;
}

guint
sw_ceiling_choice_n_of_size (const SwCeilingChoice *choice, double length, double width)
{
  const GArray *odd = choice->ceiling->sheets;
  gboolean own = fabs (choice->room->board_length - length) < SW_TOUCH_MM && fabs (choice->room->board_width - width) < SW_TOUCH_MM;
  guint n = own ? choice->sheets - odd->len : 0;
  for (guint i = 0; i < odd->len; i++)
    {
      const SwOddSheet *sheet = &g_array_index (odd, SwOddSheet, i);
      n += fabs (sheet->length - length) < SW_TOUCH_MM && fabs (sheet->width - width) < SW_TOUCH_MM;
    }
  return n;
}

/* Whether b takes as many sheets of each size that a takes. */
static gboolean
takes_alike (const SwCeilingChoice *a, const SwCeilingChoice *b)
{
  const GArray *odd = a->ceiling->sheets;
  double length = a->room->board_length, width = a->room->board_width;
  gboolean same = a->sheets == b->sheets && sw_ceiling_choice_n_of_size (a, length, width) == sw_ceiling_choice_n_of_size (b, length, width);
  for (guint i = 0; same && i < odd->len; i++)
    {
      const SwOddSheet *sheet = &g_array_index (odd, SwOddSheet, i);
      same = sw_ceiling_choice_n_of_size (a, sheet->length, sheet->width) == sw_ceiling_choice_n_of_size (b, sheet->length, sheet->width);
    }
  return same;
}

/* Another way to the same: a mixture that takes no sheet of the room's own, say. */
static gboolean
is_same (const SwCeilingChoice *a, const SwCeilingChoice *b)
{
  const double figures[][2] = { { (double) a->cost, (double) b->cost }, { a->joint_m, b->joint_m },         { a->batten_m, b->batten_m },
                                { a->waste_m2, b->waste_m2 },           { a->smallest_mm, b->smallest_mm }, { a->faults, b->faults },
                                { a->slivers, b->slivers },             { a->cuts, b->cuts } };
  gboolean same = a->room->direction == b->room->direction && a->room->boards_turned == b->room->boards_turned;
  for (gsize i = 0; i < G_N_ELEMENTS (figures); i++)
    same = same && fabs (figures[i][0] - figures[i][1]) < 1e-6;
  return same && takes_alike (a, b);
}

static guint
n_lost (const SwCeilingChoice *choice)
{
  guint n = 0;
  for (guint i = 0; i < choice->ceiling->marks->len; i++)
    n += g_array_index (choice->ceiling->marks, SwCeilingMark, i).kind == SW_CEILING_LOCK_LOST;
  return n;
}

/* Pieces that are locked stay where that can be: what would lay them anew is no alternative then. */
static void
drop_lost (GPtrArray *choices)
{
  guint least = G_MAXUINT;
  for (guint i = 0; i < choices->len; i++)
    least = MIN (least, n_lost (choices->pdata[i]));
  for (guint i = choices->len; i-- > 0;)
    if (n_lost (choices->pdata[i]) > least)
      g_ptr_array_remove_index (choices, i);
}

void
sw_ceiling_choices_settle (GPtrArray *choices, guint most)
{
  drop_lost (choices);
  g_ptr_array_sort (choices, sw_ceiling_choice_compare);
  for (guint i = 0; i < choices->len; i++)
    for (guint k = choices->len; k-- > i + 1;)
      if (is_same (choices->pdata[i], choices->pdata[k]))
        g_ptr_array_remove_index (choices, k);
  if (choices->len > most)
    g_ptr_array_set_size (choices, (int) most);
}
