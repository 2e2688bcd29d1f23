/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "sheets/schedule.h"
#include "sheets/words.h"
#include "space/route.h"

/* Inside the schedules: how one is filled. A row is begun, then each of its columns is put in order. */

void sw_schedule_begin_row (SwSchedule *schedule, SwId record);
void sw_schedule_put (SwSchedule *schedule, const char *text); /* texts and dates; NULL is an empty cell of any kind */
void sw_schedule_put_number (SwSchedule *schedule, double number); /* NAN is an empty cell */
void sw_schedule_put_count (SwSchedule *schedule, guint n);
void sw_schedule_put_take (SwSchedule *schedule, char *text); /* takes the text over */
void sw_schedule_put_yes (SwSchedule *schedule, gboolean yes);
void sw_schedule_put_nothing (SwSchedule *schedule, guint n_cells);

typedef struct
{
  SwScheduleInfo info;
  void (*fill) (SwSchedule *schedule, const SwSheetContext *context);
} SwScheduleKind;

/* Rows of a column table. */
#define SW_COLUMN_TEXT(key, title) { key, title, "", SW_CELL_TEXT, 0 }
#define SW_COLUMN_DATE(key, title) { key, title, "", SW_CELL_DATE, 0 }
#define SW_COLUMN_COUNT(key, title) { key, title, "", SW_CELL_NUMBER, 0 }
#define SW_COLUMN_MM(key, title) { key, title, "mm", SW_CELL_NUMBER, 0 }
#define SW_COLUMN_M(key, title) { key, title, "m", SW_CELL_NUMBER, 2 }
#define SW_COLUMN_NUMBER(key, title, unit, decimals) { key, title, unit, SW_CELL_NUMBER, decimals }
#define SW_SCHEDULE(id, title, description, columns, fill) { { id, title, description, G_N_ELEMENTS (columns), columns }, fill }

extern const SwScheduleKind sw_schedule_conduits, sw_schedule_pipes, sw_schedule_lights, sw_schedule_drop_ins, sw_schedule_sleeves,
  sw_schedule_plates, sw_schedule_fillers, sw_schedule_circuits, sw_schedule_measures, sw_schedule_rooms, sw_schedule_bulkheads, sw_schedule_hold_points,
  sw_schedule_takeoff, sw_schedule_choice, sw_schedule_snags, sw_schedule_cutting, sw_schedule_board_rooms, sw_schedule_order, sw_schedule_sequence, sw_schedule_labour,
  sw_schedule_levels, sw_schedule_hangers, sw_schedule_draws, sw_schedule_flows,
  sw_schedule_stopping, sw_schedule_cables, sw_schedule_bonding, sw_schedule_set_out, sw_schedule_loads, sw_schedule_brandering,
  sw_schedule_packers, sw_schedule_timber, sw_schedule_light_places;

/* What the electrician is asked about a metal run; "" for others. In the user's language, static. */
const char *sw_schedule_bonding_words (const SwJob *job, const SwRun *run);
/* Between the draw points of a conduit: GArray of SwDrawStretch, the caller's. O(fittings of the job). */
GArray *sw_schedule_stretches (const SwSheetContext *context, const SwRoute *route);
/* A room's walls beside and below a place: name, distance, name, distance. */
void sw_schedule_put_walls (SwSchedule *schedule, const SwSheetContext *context, const SwRoom *room, SwPoint p);

/* Columns that several schedules share, and the cells for them. */
#define SW_COLUMNS_GRID \
  SW_COLUMN_TEXT ("grid_x", N_("Grid line beside")), SW_COLUMN_MM ("from_grid_x_mm", N_("to the right of it")), \
  SW_COLUMN_TEXT ("grid_y", N_("Grid line below")), SW_COLUMN_MM ("from_grid_y_mm", N_("above it"))
#define SW_COLUMNS_WALLS \
  SW_COLUMN_TEXT ("wall_x", N_("Wall beside")), SW_COLUMN_MM ("from_wall_x_mm", N_("from it")), \
  SW_COLUMN_TEXT ("wall_y", N_("Wall below")), SW_COLUMN_MM ("from_wall_y_mm", N_("from it"))
#define SW_COLUMNS_ADDRESS \
  SW_COLUMN_TEXT ("bay", N_("Bay")), SW_COLUMN_COUNT ("void", N_("Void")), SW_COLUMN_TEXT ("over", N_("Under")), \
  SW_COLUMN_COUNT ("plate", N_("Past plate")), SW_COLUMN_MM ("past_plate_mm", N_("by"))
void sw_schedule_put_grid (SwSchedule *schedule, const SwSheetContext *context, SwPoint p);
/* Empty outside all bays. Without a plate before the place the distance counts from the void's start closure. */
void sw_schedule_put_address (SwSchedule *schedule, const SwSheetContext *context, SwPoint p);
/* z above the job's level line. */
double sw_schedule_from_line (const SwSheetContext *context, double z);
