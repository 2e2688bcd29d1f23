/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pieces of board count from joint to joint, so that a saw cut disappears in the joint's width; they keep the
 * direction that they were laid in. Members longer than any stock length are jointed over the last rib or
 * primary that a stock length reaches: where the layout has a fixing on them, or a primary above them. Each
 * group is then one cutting task. */
#include "ceiling/totals.h"
#include "base/number.h"
#include "estimate/cut_edges.h"
#include "estimate/cut_groups.h"
#include "base/error.h"
#include "ceiling/batten_rules.h"
#include "estimate/takeoff_parts.h"
#include <math.h>

#define N_MATERIALS (SW_BATTENS_STEEL + 1)

/* Lengths that battens of a material are sold in, ascending, mm. */
typedef struct
{
  const double *lengths;
  guint n;
} Stock;

typedef struct
{
  const SwDeck *deck;
  const SwRules *rules;
  SwCutJob *cut;
  Stock stock[N_MATERIALS];
  double board_kerf, timber_kerf, board_offcut, timber_offcut; /* mm */
} Gathering;

/* ---- boards ---- */

static gint64
board_units (double mm)
{
  return MAX (1, (gint64) floor (mm * SW_CUT_BOARD_UNITS + 0.05));
}

static SwCutGroup *
board_group (const Gathering *gathering, const SwRoom *room, const SwOddSheet *size)
{
  const SwCutGroup wanted = { .flat = TRUE,
                              .board_kind = room->board_kind,
                              .thickness = room->board_thickness,
                              .length = size->length,
                              .width = size->width };
  SwCutGroup *group = sw_cut_group_for (gathering->cut, &wanted);
  if (group->code != NULL)
    return group;
  const SwField *field = sw_struct_field (&sw_type_get (SW_TABLE_ROOM)->body, "board");
  g_autofree char *sheet = sw_takeoff_pair (size->length, size->width);
  g_autofree char *thickness = sw_takeoff_number (room->board_thickness);
  group->code = g_strdup_printf ("%s-%s-%s-%s", sw_price_info (SW_PRICE_BOARD)->word,
                                 field->words[room->board_kind].key, thickness, sheet);
  group->task->kerf = (gint64) ceil (gathering->board_kerf * SW_CUT_BOARD_UNITS);
  group->task->keep = (gint64) ceil (gathering->board_offcut * SW_CUT_BOARD_UNITS);
  sw_cut_task_add_stock (group->task, "", board_units (size->length), board_units (size->width), 0);
  return group;
}

/* A sheet of a layout: of the room's size unless it is listed with another. */
static SwOddSheet
size_of_sheet (const SwLayout *layout, const SwRoom *room, int sheet)
{
  for (guint i = 0; i < layout->sheets.n; i++)
    if (SW_LIST_AT (layout->sheets, SwOddSheet, i).sheet == sheet)
      return SW_LIST_AT (layout->sheets, SwOddSheet, i);
  return (SwOddSheet){ sheet, room->board_length, room->board_width };
}

static void
add_board (SwCutGroup *group, const SwPiece *piece, SwId room, int edges)
{
  const SwCutStock *sheet = &g_array_index (group->task->stock, SwCutStock, 0);
  SwCutThing thing = { room, -1, piece->piece };
  gint64 length = MIN (board_units (piece->length), sheet->length);
  gint64 width = MIN (board_units (piece->width), sheet->width);
  if (length == sheet->length && width == sheet->width)
    {
      g_array_append_val (group->whole, thing);
      group->n_whole++;
      return;
    }
  sw_cut_task_add_item (group->task, "", length, width, 1, FALSE);
  g_array_index (group->task->items, SwCutItem, group->task->items->len - 1).edges = edges;
  g_array_append_val (group->things, thing);
}

static void
add_boards (const Gathering *gathering, const SwLayout *layout, const SwRoom *room)
{
  int sheets = 0;
  for (guint i = 0; i < layout->pieces.n; i++)
    {
      const SwPiece *piece = &SW_LIST_AT (layout->pieces, SwPiece, i);
      SwOddSheet size = size_of_sheet (layout, room, piece->sheet);
      add_board (board_group (gathering, room, &size), piece, room->record.id, sw_cut_edges_wanted (layout, piece->piece));
      sheets = MAX (sheets, piece->sheet);
    }
  for (guint i = 0; i < layout->faces.n; i++)
    {
      const SwFacePiece *face = &SW_LIST_AT (layout->faces, SwFacePiece, i);
      const SwPiece piece = { face->piece, face->sheet, face->length, face->width, face->cut, FALSE };
      SwOddSheet size = size_of_sheet (layout, room, face->sheet);
      add_board (board_group (gathering, room, &size), &piece, room->record.id, 0);
      sheets = MAX (sheets, face->sheet);
    }
  for (int sheet = 1; sheet <= sheets; sheet++)
    {
      SwOddSheet size = size_of_sheet (layout, room, sheet);
      SwCutGroup *group = board_group (gathering, room, &size);
      group->n_by_rooms++;
      g_array_append_val (group->by_rooms, room->record.id);
    }
}

/* ---- members ---- */

static SwCutGroup *
section_group (const Gathering *gathering, const SwRoom *room, const SwMember *member, double width, double depth)
{
  const SwCutGroup wanted = { .length = width, .width = depth, .material = room->material };
  SwCutGroup *group = sw_cut_group_for (gathering->cut, &wanted);
  if (group->code != NULL)
    return group;
  const Stock *stock = &gathering->stock[room->material];
  g_autofree char *section = sw_ceiling_section_size (room, width, depth);
  group->code = g_strdup_printf (
      "%s-%s", sw_price_info (member->kind == SW_MEMBER_PRIMARY ? SW_PRICE_PRIMARY : SW_PRICE_BATTEN)->word,
      section);
  group->task->kerf = (gint64) ceil (gathering->timber_kerf);
  group->task->keep = (gint64) ceil (gathering->timber_offcut);
  for (guint i = 0; i < stock->n; i++)
    sw_cut_task_add_stock (group->task, "", (gint64) stock->lengths[i], 0, 0);
  return group;
}

/* Where a member is held, by the distance from its start, ascending: fixings on it, primaries across it. */
static GArray *
holds_of (const SwLayout *layout, const SwMember *member)
{
  GArray *holds = g_array_new (FALSE, FALSE, sizeof (double));
  double length = sw_point_distance (member->from, member->to);
  SwPoint along = sw_point_scale (sw_point_sub (member->to, member->from), 1 / length);
  for (guint i = 0; i < layout->fixings.n; i++)
    {
      SwPoint from = sw_point_sub (SW_LIST_AT (layout->fixings, SwFixing, i).at, member->from);
      double at = sw_point_dot (along, from);
      if (at > 0 && at < length && fabs (sw_point_cross (along, from)) <= member->width / 2)
        g_array_append_val (holds, at);
    }
  for (guint i = 0; i < layout->members.n; i++)
    {
      const SwMember *other = &SW_LIST_AT (layout->members, SwMember, i);
      SwPoint from = sw_point_sub (other->from, member->from), to = sw_point_sub (other->to, member->from);
      double a = sw_point_cross (along, from), b = sw_point_cross (along, to);
      if (member->kind == SW_MEMBER_PRIMARY || other->kind != SW_MEMBER_PRIMARY || a * b > 0 || a == b)
        continue;
      double at = sw_point_dot (along, sw_point_lerp (from, to, a / (a - b)));
      if (at > 0 && at < length)
        g_array_append_val (holds, at);
    }
  g_array_sort (holds, sw_compare_doubles);
  return holds;
}

/* The furthest hold within `reach` of `from`; where there is none, the reach. */
static double
next_joint (const GArray *holds, double from, double reach)
{
  double to = from + reach;
  for (guint i = holds->len; i-- > 0;)
    {
      double hold = g_array_index (holds, double, i);
      if (hold > from + 1 && hold <= from + reach)
        return hold;
    }
  return to;
}

static void
add_member (const Gathering *gathering, const SwLayout *layout, const SwRoom *room, const SwMember *member)
{
  double width, depth, length = sw_totals_section (room, member, &width, &depth);
  SwCutGroup *group = section_group (gathering, room, member, width, depth);
  const Stock *stock = &gathering->stock[room->material];
  double longest = stock->lengths[stock->n - 1], from = 0;
  g_autoptr (GArray) holds = length > longest ? holds_of (layout, member) : NULL;
  while (length - from > longest)
    {
      double to = next_joint (holds, from, longest);
      sw_cut_group_want (group, room->record.id, member->kind, to - from);
      from = to;
    }
  sw_cut_group_want (group, room->record.id, member->kind, length - from);
}

/* ---- all ---- */

static int
compare_groups (gconstpointer pa, gconstpointer pb)
{
  const SwCutGroup *a = *(const SwCutGroup *const *) pa, *b = *(const SwCutGroup *const *) pb;
  const double keys[][2] = { { !a->flat, !b->flat },
                             { a->trim, b->trim },
                             { a->board_kind, b->board_kind },
                             { a->thickness, b->thickness },
                             { a->length, b->length },
                             { a->width, b->width },
                             { a->material, b->material } };
  for (gsize i = 0; i < G_N_ELEMENTS (keys); i++)
    if (keys[i][0] != keys[i][1])
      return keys[i][0] < keys[i][1] ? -1 : 1;
  return g_strcmp0 (a->code, b->code);
}

static gboolean
read_rules (Gathering *gathering, GError **error)
{
  double kerf = sw_rules_value (gathering->rules, "board.layout", "kerf_mm").value;
  gathering->board_kerf
      = fmax (0, kerf - sw_rules_value (gathering->rules, "board.layout", "joint_mm").value);
  gathering->timber_kerf = sw_rules_value (gathering->rules, "brandering.setout", "kerf_mm").value;
  gathering->board_offcut = sw_rules_value (gathering->rules, "board.layout", "offcut_mm").value;
  gathering->timber_offcut = sw_rules_value (gathering->rules, "brandering.setout", "offcut_mm").value;
  for (int material = 0; material < N_MATERIALS; material++)
    {
      const SwRoom room = { .material = material };
      Stock *stock = &gathering->stock[material];
      stock->lengths = sw_ceiling_stock (gathering->rules, &room, &stock->n, error);
      if (stock->lengths == NULL)
        return FALSE;
    }
  return TRUE;
}

static void
gather (const Gathering *gathering)
{
  const SwJob *job = sw_deck_job (gathering->deck);
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_LAYOUT); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwLayout *layout = (const SwLayout *) record;
      const SwRoom *room = (const SwRoom *) sw_job_get (job, layout->room);
      if (room == NULL || room->finish != SW_FINISH_CLOSED)
        continue;
      if (layout->pieces.n + layout->faces.n > 0)
        add_boards (gathering, layout, room);
      for (guint k = 0; k < layout->members.n; k++)
        add_member (gathering, layout, room, &SW_LIST_AT (layout->members, SwMember, k));
    }
}

SwCutJob *
sw_cut_job_new (const SwDeck *deck, const SwRules *rules, GCancellable *cancellable, GError **error)
{
  g_autoptr (SwCutJob) cut = g_new0 (SwCutJob, 1);
  Gathering gathering = { .deck = deck, .rules = rules, .cut = cut };
  cut->groups = g_ptr_array_new_with_free_func (sw_cut_group_free);
  if (!read_rules (&gathering, error))
    return NULL;
  gather (&gathering);
  sw_cut_trims (deck, rules, cut);
  g_ptr_array_sort (cut->groups, compare_groups);
  for (guint i = 0; i < cut->groups->len; i++)
    {
      SwCutGroup *group = cut->groups->pdata[i];
      if (group->task->items->len == 0)
        continue;
      group->plan = sw_cut_plan_new (group->task, cancellable, error);
      if (group->plan == NULL)
        return NULL;
    }
  return g_steal_pointer (&cut);
}

void
sw_cut_job_free (SwCutJob *cut)
{
  g_ptr_array_unref (cut->groups);
  g_free (cut);
}

guint
sw_cut_group_n (const SwCutGroup *group)
{
  return group->n_whole + (group->plan != NULL ? group->plan->n : 0);
}
