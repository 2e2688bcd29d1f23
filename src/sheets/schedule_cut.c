/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is cut from what, what to order, and in which order a room is closed. */
#include "base/number.h"
#include "estimate/cut_edges.h"
#include "estimate/labour.h"
#include "estimate/order.h"
#include "sheets/cut_parts.h"
#include "sheets/schedule_parts.h"
#include <math.h>

/* ---- the cutting list */

static const SwScheduleColumn cutting_columns[] = {
  SW_COLUMN_TEXT ("group", N_ ("Group")),
  SW_COLUMN_TEXT ("material", N_ ("Material")),
  SW_COLUMN_TEXT ("from", N_ ("Sheet or length")),
  SW_COLUMN_COUNT ("times", N_ ("Cut so")),
  SW_COLUMN_MM ("stock_length_mm", N_ ("Stock length")),
  SW_COLUMN_MM ("stock_width_mm", N_ ("Stock width")),
  SW_COLUMN_TEXT ("room", N_ ("Room")),
  SW_COLUMN_TEXT ("what", N_ ("What")),
  SW_COLUMN_COUNT ("piece", N_ ("Piece")),
  SW_COLUMN_NUMBER ("length_mm", N_ ("Length"), "mm", 1),
  SW_COLUMN_NUMBER ("width_mm", N_ ("Width"), "mm", 1),
  SW_COLUMN_COUNT ("copies", N_ ("Copies")),
  SW_COLUMN_COUNT ("edges_wanted", N_ ("Long sides at joints")),
  SW_COLUMN_COUNT ("edges", N_ ("Long sides with the sheet's own edge")),
};

typedef struct
{
  SwSchedule *schedule;
  const SwJob *job;
  const SwCutGroup *group;
  const char *letter;
  const char *material;
} CutRows;

static void
put_cut (const CutRows *rows, const SwCutThing *thing, const char *from, const SwCutWay *way, const SwCutStock *stock, const SwCutPiece *piece, guint copies)
{
  SwSchedule *schedule = rows->schedule;
  double per_mm = rows->group->task->per_mm;
  gboolean flat = rows->group->flat;
  sw_schedule_begin_row (schedule, thing->room);
  sw_schedule_put (schedule, rows->letter);
  sw_schedule_put (schedule, rows->material);
  sw_schedule_put (schedule, from);
  sw_schedule_put_count (schedule, way != NULL ? way->times : 1);
  sw_schedule_put_number (schedule, (double) stock->length / per_mm);
  sw_schedule_put_number (schedule, flat ? (double) stock->width / per_mm : NAN);
  sw_schedule_put_take (schedule, sw_cut_room_text (rows->job, thing->room));
  sw_schedule_put (schedule, sw_cut_thing_word (thing));
  sw_schedule_put_number (schedule, thing->piece > 0 ? thing->piece : NAN);
  sw_schedule_put_number (schedule, (double) (piece != NULL ? piece->length : stock->length) / per_mm);
  sw_schedule_put_number (schedule, flat ? (double) (piece != NULL ? piece->width : stock->width) / per_mm : NAN);
  sw_schedule_put_count (schedule, copies);
  if (!flat || piece == NULL)
    {
      sw_schedule_put_nothing (schedule, 2);
      return;
    }
  sw_schedule_put_number (schedule, g_array_index (rows->group->task->items, SwCutItem, piece->item).edges);
  sw_schedule_put_number (schedule, sw_cut_edges_of (rows->group->plan, way, piece));
}

static void
put_way (const CutRows *rows, guint w)
{
  const SwCutPlan *plan = rows->group->plan;
  const SwCutWay *way = &g_array_index (plan->ways, SwCutWay, w);
  const SwCutStock *stock = &g_array_index (plan->task->stock, SwCutStock, way->stock);
  g_autofree char *from = g_strdup_printf ("%s%u", rows->letter, w + 1);
  for (guint k = way->first, next; k < way->first + way->n; k = next)
    {
      const SwCutPiece *piece = &g_array_index (plan->pieces, SwCutPiece, k);
      for (next = k + 1; next < way->first + way->n && g_array_index (plan->pieces, SwCutPiece, next).item == piece->item;)
        next++;
      put_cut (rows, &g_array_index (rows->group->things, SwCutThing, piece->item), from, way, stock, piece, next - k);
    }
}

static void
fill_cutting (SwSchedule *schedule, const SwSheetContext *context)
{
  g_autoptr (SwCutJob) cut = sw_cut_job_new (context->deck, context->rules, NULL, NULL);
  for (guint i = 0; cut != NULL && i < cut->groups->len; i++)
    {
      const SwCutGroup *group = cut->groups->pdata[i];
      g_autofree char *letter = sw_cut_letter (i), *material = sw_cut_group_text (group, SW_LENGTHS_MM);
      const CutRows rows = { schedule, sw_sheet_job (context), group, letter, material };
      for (guint k = 0; k < group->whole->len; k++)
        put_cut (&rows, &g_array_index (group->whole, SwCutThing, k), _("whole sheet"), NULL, &g_array_index (group->task->stock, SwCutStock, 0), NULL, 1);
      for (guint w = 0; group->plan != NULL && w < group->plan->ways->len; w++)
        put_way (&rows, w);
    }
}

/* ---- boards by room */

static const SwScheduleColumn board_room_columns[] = {
  SW_COLUMN_TEXT ("number", N_ ("No.")),
  SW_COLUMN_TEXT ("room", N_ ("Room")),
  SW_COLUMN_NUMBER ("pieces_m2", N_ ("Pieces of board"), "m²", 2),
  SW_COLUMN_NUMBER ("alone_m2", N_ ("Sheets, cut by itself"), "m²", 2),
  SW_COLUMN_NUMBER ("alone_waste_m2", N_ ("Left over, cut by itself"), "m²", 2),
  SW_COLUMN_NUMBER ("alone_percent", N_ ("Left over, cut by itself"), "%", 1),
  SW_COLUMN_NUMBER ("shared_m2", N_ ("Share of all rooms' sheets"), "m²", 2),
  SW_COLUMN_NUMBER ("shared_waste_m2", N_ ("Left over of that share"), "m²", 2),
  SW_COLUMN_NUMBER ("shared_percent", N_ ("Left over of that share"), "%", 1),
};

static void
put_sheets (SwSchedule *schedule, double sheets, double pieces)
{
  sw_schedule_put_number (schedule, sheets / 1e6);
  sw_schedule_put_number (schedule, (sheets - pieces) / 1e6);
  sw_schedule_put_number (schedule, sheets > 0 ? 100 * (sheets - pieces) / sheets : NAN);
}

static void
put_board_room (SwSchedule *schedule, const SwCutRoom *room)
{
  sw_schedule_put_number (schedule, room->pieces / 1e6);
  put_sheets (schedule, room->alone, room->pieces);
  put_sheets (schedule, room->shared, room->pieces);
}

static void
fill_board_rooms (SwSchedule *schedule, const SwSheetContext *context)
{
  g_autoptr (SwCutJob) cut = sw_cut_job_new (context->deck, context->rules, NULL, NULL);
  g_autoptr (GArray) rooms = cut != NULL ? sw_cut_job_rooms (cut) : NULL;
  SwCutRoom sum = { 0 };
  for (guint i = 0; rooms != NULL && i < rooms->len; i++)
    {
      const SwCutRoom *room = &g_array_index (rooms, SwCutRoom, i);
      const SwRoom *record = (const SwRoom *) sw_job_get (sw_sheet_job (context), room->room);
      sw_schedule_begin_row (schedule, room->room);
      sw_schedule_put (schedule, record->record.tag);
      sw_schedule_put (schedule, record->name);
      put_board_room (schedule, room);
      sum.pieces += room->pieces;
      sum.alone += room->alone;
      sum.shared += room->shared;
    }
  if (sum.pieces == 0)
    return;
  sw_schedule_begin_row (schedule, 0);
  sw_schedule_put_nothing (schedule, 1);
  sw_schedule_put (schedule, _("Sum"));
  put_board_room (schedule, &sum);
}

/* ---- the order list */

static const SwScheduleColumn order_columns[] = {
  SW_COLUMN_TEXT ("supplier", N_ ("Supplier")),
  SW_COLUMN_TEXT ("code", N_ ("Code")),
  SW_COLUMN_TEXT ("description", N_ ("What")),
  SW_COLUMN_NUMBER ("packs", N_ ("Order"), "", 0),
  SW_COLUMN_NUMBER ("pack", N_ ("each of"), "", 3),
  SW_COLUMN_TEXT ("unit", N_ ("Unit")),
  SW_COLUMN_NUMBER ("wanted", N_ ("Wanted"), "", 3),
  SW_COLUMN_NUMBER ("rate", N_ ("Material at"), "", 4),
  SW_COLUMN_NUMBER ("cost", N_ ("Material"), "", 2),
  SW_COLUMN_NUMBER ("lead_days", N_ ("Lead time"), "d", 0),
};

static void
put_order (SwSchedule *schedule, const SwOrderLine *line)
{
  const SwPrice *price = line->price;
  const SwPriceInfo *info = sw_price_info (line->kind);
  gboolean described = price != NULL && *price->description != '\0';
  sw_schedule_begin_row (schedule, price != NULL ? price->record.id : 0);
  sw_schedule_put (schedule, price != NULL ? price->supplier : "");
  sw_schedule_put (schedule, line->code);
  if (line->group != NULL && !described)
    sw_schedule_put_take (schedule, sw_cut_group_text (line->group, SW_LENGTHS_MM));
  else
    sw_schedule_put (schedule, described ? price->description : _(info->text));
  sw_schedule_put_number (schedule, (double) line->packs);
  sw_schedule_put_number (schedule, sw_quantity_to_double (line->pack));
  sw_schedule_put (schedule, _(sw_price_unit_text (info->unit)));
  sw_schedule_put_number (schedule, sw_quantity_to_double (line->wanted));
  sw_schedule_put_number (schedule, price != NULL ? (double) price->material / SW_MONEY_ONE : NAN);
  sw_schedule_put_number (schedule, price != NULL ? (double) line->cost / SW_MONEY_ONE : NAN);
  sw_schedule_put_number (schedule, price != NULL && price->lead_days > 0 ? price->lead_days : NAN);
}

static void
fill_order (SwSchedule *schedule, const SwSheetContext *context)
{
  g_autoptr (SwTakeoff) takeoff = sw_takeoff_new (context->deck, context->rules, NULL, NULL);
  if (takeoff == NULL || takeoff->cut == NULL)
    return;
  g_autoptr (SwOrder) order = sw_order_new (context->deck, context->rules, takeoff);
  for (guint i = 0; i < order->lines->len; i++)
    put_order (schedule, order->lines->pdata[i]);
  if (order->unpriced == order->lines->len)
    return;
  sw_schedule_begin_row (schedule, 0);
  sw_schedule_put_nothing (schedule, 2);
  sw_schedule_put (schedule, _("Sum"));
  sw_schedule_put_nothing (schedule, 5);
  sw_schedule_put_number (schedule, (double) order->cost / SW_MONEY_ONE);
  sw_schedule_put_nothing (schedule, 1);
}

/* ---- the site sequence */

static const SwScheduleColumn sequence_columns[] = {
  SW_COLUMN_TEXT ("room", N_ ("Room")),
  SW_COLUMN_COUNT ("step", N_ ("Step")),
  SW_COLUMN_TEXT ("work", N_ ("Work")),
  SW_COLUMN_NUMBER ("amount", N_ ("Amount"), "", 2),
  SW_COLUMN_TEXT ("unit", N_ ("Unit")),
  SW_COLUMN_TEXT ("sheets", N_ ("Sheets")),
  SW_COLUMN_NUMBER ("days_low", N_ ("Days, from"), "", 2),
  SW_COLUMN_NUMBER ("days_high", N_ ("to"), "", 2),
  SW_COLUMN_COUNT ("crew", N_ ("Crew")),
  SW_COLUMN_NUMBER ("hours_low", N_ ("Hours of all, from"), "h", 1),
  SW_COLUMN_NUMBER ("hours_high", N_ ("to"), "h", 1),
  SW_COLUMN_TEXT ("result", N_ ("Result")),
  SW_COLUMN_DATE ("on", N_ ("On")),
  SW_COLUMN_TEXT ("by", N_ ("By")),
};

/* Hold points stop the work until they are passed; works are counted from the take-off. In the order of the site. */
typedef struct
{
  gboolean is_hold;
  guint finishes;     /* bits of SwFinish: rooms that a hold point is for; works are where the take-off counts some */
  int what;           /* SwHoldKind or SwPriceKind */
  const char *words;  /* of works; untranslated */
  const char *sheets;
} Step;

#define OVER_BOARDS (1u << SW_FINISH_CLOSED)
#define OVER_TILES (1u << SW_FINISH_GRID)
#define ALL_ROOMS (OVER_BOARDS | OVER_TILES | 1u << SW_FINISH_EXPOSED)
#define HOLD(kind, finishes) { TRUE, finishes, kind, NULL, "" }
#define WORK(kind, words, sheets) { FALSE, ALL_ROOMS, kind, words, sheets }

static const Step steps[] = {
  HOLD (SW_HOLD_SURVEY, ALL_ROOMS),
  HOLD (SW_HOLD_SOIL_TEST, ALL_ROOMS),
  HOLD (SW_HOLD_WATER_TEST, ALL_ROOMS),
  HOLD (SW_HOLD_CONDUIT, ALL_ROOMS),
  HOLD (SW_HOLD_CABLES, ALL_ROOMS),
  HOLD (SW_HOLD_PHOTOGRAPHS, ALL_ROOMS),
  WORK (SW_PRICE_CLEAN, N_ ("Clean, degrease and rinse the open soffit"), ""),
  WORK (SW_PRICE_SOFFIT_COAT, N_ ("Prime and paint the open soffit, all coats"), ""),
  HOLD (SW_HOLD_CLOSE, OVER_BOARDS | OVER_TILES),
  WORK (SW_PRICE_WALL_BATTEN, N_ ("Snap the level line, fix battens along the walls"), "C1, C4"),
  WORK (SW_PRICE_PRIMARY, N_ ("Fix primaries to the ribs, pack them to level"), "C1, C4"),
  WORK (SW_PRICE_BATTEN, N_ ("Fix battens, pack them to level"), "C1, C4"),
  WORK (SW_PRICE_STUD, N_ ("Frame bulkheads"), "C1, C4"),
  WORK (SW_PRICE_NOGGIN, N_ ("Fix noggins"), "C1, C4"),
  WORK (SW_PRICE_TRIMMER, N_ ("Fix trimmers"), "C1, C4"),
  HOLD (SW_HOLD_BATTENS, OVER_BOARDS),
  WORK (SW_PRICE_INSULATION, N_ ("Lay insulation"), ""),
  WORK (SW_PRICE_BOARD, N_ ("Put up boards in the order of their numbers"), "C2, C3, C5"),
  WORK (SW_PRICE_HATCH, N_ ("Set hatches"), "C2"),
  WORK (SW_PRICE_MOVEMENT_JOINT, N_ ("Fix strips of movement joints"), "C2"),
  WORK (SW_PRICE_BEAD, N_ ("Fix corner beads of bulkheads"), "C2"),
  HOLD (SW_HOLD_BOARDS, OVER_BOARDS),
  WORK (SW_PRICE_SKIMMING, N_ ("Tape joints and skim"), "C2"),
  WORK (SW_PRICE_JOINTING, N_ ("Tape and fill joints"), "C2"),
  WORK (SW_PRICE_COVER_STRIP, N_ ("Fix cover strips over the joints"), "C2"),
  WORK (SW_PRICE_CORNICE, N_ ("Put up cornice"), "C4"),
  WORK (SW_PRICE_SHADOW_LINE, N_ ("Fix shadow line trim"), "C4"),
  WORK (SW_PRICE_CEILING_COAT, N_ ("Paint, all coats"), ""),
  WORK (SW_PRICE_GRID_EDGE, N_ ("Fix the wall angle of the grid at its level"), ""),
  WORK (SW_PRICE_GRID, N_ ("Hang the grid from the ribs, lay in tiles"), ""),
  WORK (SW_PRICE_LIGHT, N_ ("Second fix of lights"), "E2"),
  HOLD (SW_HOLD_SECOND_FIX, ALL_ROOMS),
};

typedef struct
{
  SwSchedule *schedule;
  const SwSheetContext *context;
  const SwRoom *room;
  const GPtrArray *needs; /* of the room */
  guint n;
} Sequence;

static double
amount_of (const Sequence *sequence, SwPriceKind kind)
{
  double sum = 0;
  for (guint i = 0; i < sequence->needs->len; i++)
    {
      const SwNeed *need = sequence->needs->pdata[i];
      sum += need->kind == kind ? sw_quantity_to_double (need->quantity) : 0;
    }
  return sum;
}

static const SwHoldPoint *
hold_of (const Sequence *sequence, int kind)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_sheet_job (sequence->context), SW_TABLE_HOLD_POINT); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwHoldPoint *hold = (const SwHoldPoint *) record;
      if (hold->room == sequence->room->record.id && hold->kind == kind)
        return hold;
    }
  return NULL;
}

static void
begin_step (Sequence *sequence, SwId record)
{
  sw_schedule_begin_row (sequence->schedule, record);
  sw_schedule_put_take (sequence->schedule, sw_cut_room_text (sw_sheet_job (sequence->context), sequence->room->record.id));
  sw_schedule_put_count (sequence->schedule, ++sequence->n);
}

static void
put_hold (Sequence *sequence, const Step *step)
{
  const SwHoldPoint *hold = hold_of (sequence, step->what);
  SwSchedule *schedule = sequence->schedule;
  if ((step->finishes & 1u << sequence->room->finish) == 0)
    return;
  begin_step (sequence, hold != NULL ? hold->record.id : sequence->room->record.id);
  sw_schedule_put_take (schedule, g_strdup_printf (_("Hold point: %s"), sw_sheet_word (SW_TABLE_HOLD_POINT, "kind", step->what)));
  sw_schedule_put_nothing (schedule, 8);
  sw_schedule_put (schedule, sw_sheet_word (SW_TABLE_HOLD_POINT, "result", hold != NULL ? hold->result : SW_RESULT_OPEN));
  sw_schedule_put (schedule, hold != NULL ? hold->on : NULL);
  sw_schedule_put (schedule, hold != NULL ? hold->by : NULL);
}

/* Days of a crew by the most and the least of a day's work, and the hours of all its people. */
static void
put_days (const Sequence *sequence, const Step *step)
{
  guint work;
  SwLabour labour;
  if (!sw_labour_work_for ((SwPriceKind) step->what, &work) || !sw_labour_of (sequence->context->rules, sequence->needs, work, &labour))
    {
      sw_schedule_put_nothing (sequence->schedule, 5);
      return;
    }
  const double numbers[] = { labour.days_low, labour.days_high, labour.crew, labour.hours_low, labour.hours_high };
  for (gsize i = 0; i < G_N_ELEMENTS (numbers); i++)
    sw_schedule_put_number (sequence->schedule, numbers[i]);
}

static void
put_work (Sequence *sequence, const Step *step)
{
  SwPriceKind kind = (SwPriceKind) step->what;
  double amount = amount_of (sequence, kind);
  if (amount <= 0)
    return;
  begin_step (sequence, sequence->room->record.id);
  sw_schedule_put (sequence->schedule, _(step->words));
  sw_schedule_put_number (sequence->schedule, amount);
  sw_schedule_put (sequence->schedule, _(sw_price_unit_text (sw_price_info (kind)->unit)));
  sw_schedule_put (sequence->schedule, step->sheets);
  put_days (sequence, step);
  sw_schedule_put_nothing (sequence->schedule, 3);
}

static void
fill_sequence (SwSchedule *schedule, const SwSheetContext *context)
{
  g_autoptr (SwTakeoff) takeoff = sw_takeoff_new (context->deck, context->rules, NULL, NULL);
  g_autoptr (GPtrArray) rooms = sw_sheet_records (sw_sheet_job (context), SW_TABLE_ROOM);
  for (guint i = 0; takeoff != NULL && i < rooms->len; i++)
    {
      const SwRoom *room = rooms->pdata[i];
      g_autoptr (GPtrArray) needs = sw_needs_of (takeoff->needs, room->record.id);
      Sequence sequence = { schedule, context, room, needs, 0 };
      for (guint k = 0; k < G_N_ELEMENTS (steps); k++)
        (steps[k].is_hold ? put_hold : put_work) (&sequence, &steps[k]);
    }
}

const SwScheduleKind sw_schedule_cutting = SW_SCHEDULE ("cutting", N_ ("Cutting list"), N_ ("each piece of board and batten with the sheet or length that it is cut from"),
                                                        cutting_columns, fill_cutting);
const SwScheduleKind sw_schedule_board_rooms = SW_SCHEDULE ("boards-by-room", N_ ("Boards by room"), N_ ("what each room's boards leave over, cut by itself and with all rooms together"),
                                                            board_room_columns, fill_board_rooms);
const SwScheduleKind sw_schedule_order = SW_SCHEDULE ("order", N_ ("Order list"), N_ ("what to order for the ceilings, by supplier, in the units in which it is sold"),
                                                      order_columns, fill_order);
const SwScheduleKind sw_schedule_sequence = SW_SCHEDULE ("sequence", N_ ("Site sequence"), N_ ("the steps of each room with its hold points, in order"),
                                                         sequence_columns, fill_sequence);
