/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sheets/schedule_parts.h"
#include "base/csv.h"
#include "base/number.h"
#include <math.h>
#include <string.h>

static const SwScheduleKind *const kinds[] = {
  &sw_schedule_conduits, &sw_schedule_pipes,    &sw_schedule_lights,   &sw_schedule_drop_ins, &sw_schedule_sleeves, &sw_schedule_plates,
  &sw_schedule_fillers,  &sw_schedule_circuits, &sw_schedule_measures, &sw_schedule_rooms, &sw_schedule_bulkheads,    &sw_schedule_hold_points,
  &sw_schedule_takeoff,  &sw_schedule_choice,   &sw_schedule_snags,
  &sw_schedule_cutting,  &sw_schedule_board_rooms, &sw_schedule_order, &sw_schedule_sequence, &sw_schedule_labour,
  &sw_schedule_draws,    &sw_schedule_levels,   &sw_schedule_flows,    &sw_schedule_hangers,
  &sw_schedule_stopping, &sw_schedule_cables,   &sw_schedule_bonding,  &sw_schedule_set_out,
  &sw_schedule_loads,    &sw_schedule_brandering, &sw_schedule_packers, &sw_schedule_timber, &sw_schedule_light_places,
};

struct _SwSchedule
{
  const SwScheduleInfo *info;
  GArray *records;  /* SwId, one a row */
  GPtrArray *cells; /* char *, row by row */
};

guint
sw_schedules_n (void)
{
  return G_N_ELEMENTS (kinds);
}

const SwScheduleInfo *
sw_schedules_get (guint i)
{
  g_assert (i < G_N_ELEMENTS (kinds));
  return &kinds[i]->info;
}

const SwScheduleInfo *
sw_schedules_find (const char *id)
{
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    if (strcmp (kinds[i]->info.id, id) == 0)
      return &kinds[i]->info;
  return NULL;
}

SwSchedule *
sw_schedule_new (const SwSheetContext *context, const SwScheduleInfo *info)
{
  SwSchedule *schedule = g_new0 (SwSchedule, 1);
  schedule->info = info;
  schedule->records = g_array_new (FALSE, FALSE, sizeof (SwId));
  schedule->cells = g_ptr_array_new_with_free_func (g_free);
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    if (&kinds[i]->info == info)
      kinds[i]->fill (schedule, context);
  g_assert (schedule->cells->len == schedule->records->len * info->n_columns);
  return schedule;
}

void
sw_schedule_free (SwSchedule *schedule)
{
  g_array_unref (schedule->records);
  g_ptr_array_unref (schedule->cells);
  g_free (schedule);
}

const SwScheduleInfo *
sw_schedule_info (const SwSchedule *schedule)
{
  return schedule->info;
}

guint
sw_schedule_n_rows (const SwSchedule *schedule)
{
  return schedule->records->len;
}

SwId
sw_schedule_record (const SwSchedule *schedule, guint row)
{
  return g_array_index (schedule->records, SwId, row);
}

const char *
sw_schedule_text (const SwSchedule *schedule, guint row, guint column)
{
  g_assert (column < schedule->info->n_columns);
  return g_ptr_array_index (schedule->cells, row * schedule->info->n_columns + column);
}

gboolean
sw_schedule_number (const SwSchedule *schedule, guint row, guint column, double *number)
{
  return schedule->info->columns[column].kind == SW_CELL_NUMBER && sw_number_read (sw_schedule_text (schedule, row, column), number, NULL);
}

char *
sw_schedule_heading (const SwScheduleInfo *info, guint column)
{
  const SwScheduleColumn *of = &info->columns[column];
  return *of->unit == '\0' ? g_strdup (_(of->title)) : g_strdup_printf ("%s (%s)", _(of->title), of->unit);
}

/* What a column of lengths or areas is shown in; metres to the millimetre are levels, others sums. */
typedef enum { AS_IT_IS, AS_LENGTH, AS_LEVEL, AS_SUM, AS_AREA } Shown;

static Shown
shown_as (const SwScheduleColumn *column, SwLengths lengths)
{
  if (lengths == SW_LENGTHS_MM || column->kind != SW_CELL_NUMBER)
    return AS_IT_IS;
  if (strcmp (column->unit, "m") == 0)
    return column->decimals >= 3 ? AS_LEVEL : AS_SUM;
  return strcmp (column->unit, "mm") == 0 ? AS_LENGTH : strcmp (column->unit, "m²") == 0 ? AS_AREA : AS_IT_IS;
}

char *
sw_schedule_heading_in (const SwScheduleInfo *info, guint column, SwLengths lengths)
{
  Shown shown = shown_as (&info->columns[column], lengths);
  if (shown == AS_IT_IS)
    return sw_schedule_heading (info, column);
  return g_strdup_printf ("%s (%s)", _(info->columns[column].title),
                          shown == AS_SUM ? sw_lengths_sum_symbol (lengths) : shown == AS_AREA ? sw_lengths_area_symbol (lengths) : sw_lengths_symbol (lengths));
}

char *
sw_schedule_text_in (const SwSchedule *schedule, guint row, guint column, SwLengths lengths)
{
  const SwScheduleColumn *of = &schedule->info->columns[column];
  Shown shown = shown_as (of, lengths);
  char text[SW_LENGTH_BUF], digits[SW_NUMBER_BUF];
  double number;
  if (shown == AS_IT_IS || !sw_schedule_number (schedule, row, column, &number))
    return g_strdup (sw_schedule_text (schedule, row, column));
  if (shown == AS_SUM)
    return g_strdup (sw_number_write_fixed (number * 1000 / SW_MM_PER_FOOT, 1, digits));
  if (shown == AS_AREA)
    return g_strdup (sw_number_write_fixed (number * 1e6 / (SW_MM_PER_FOOT * SW_MM_PER_FOOT), 1, digits));
  return g_strdup (sw_length_write (shown == AS_LEVEL ? number * 1000 : number, lengths, SW_LENGTH_BARE, 0, text));
}

/* The column that the next cell belongs to. */
static const SwScheduleColumn *
next_column (const SwSchedule *schedule)
{
  g_assert (schedule->cells->len < schedule->records->len * schedule->info->n_columns);
  return &schedule->info->columns[schedule->cells->len % schedule->info->n_columns];
}

void
sw_schedule_begin_row (SwSchedule *schedule, SwId record)
{
  g_assert (schedule->cells->len == schedule->records->len * schedule->info->n_columns);
  g_array_append_val (schedule->records, record);
}

void
sw_schedule_put_take (SwSchedule *schedule, char *text)
{
  g_assert (next_column (schedule)->kind != SW_CELL_NUMBER || *text == '\0');
  g_ptr_array_add (schedule->cells, text);
}

void
sw_schedule_put (SwSchedule *schedule, const char *text)
{
  sw_schedule_put_take (schedule, g_strdup (text != NULL ? text : ""));
}

void
sw_schedule_put_number (SwSchedule *schedule, double number)
{
  const SwScheduleColumn *column = next_column (schedule);
  char digits[SW_NUMBER_BUF];
  g_assert (column->kind == SW_CELL_NUMBER);
  g_ptr_array_add (schedule->cells, g_strdup (isfinite (number) ? sw_number_write_fixed (number, column->decimals, digits) : ""));
}

void
sw_schedule_put_count (SwSchedule *schedule, guint n)
{
  sw_schedule_put_number (schedule, n);
}

void
sw_schedule_put_yes (SwSchedule *schedule, gboolean yes)
{
  sw_schedule_put (schedule, yes ? _("yes") : _("no"));
}

void
sw_schedule_put_nothing (SwSchedule *schedule, guint n_cells)
{
  for (guint i = 0; i < n_cells; i++)
    sw_schedule_put (schedule, NULL);
}

char *
sw_schedule_csv (const SwSchedule *schedule)
{
  const SwScheduleInfo *info = schedule->info;
  g_autoptr (SwCsv) csv = sw_csv_new ();
  for (guint column = 0; column < info->n_columns; column++)
    {
      g_autofree char *heading = sw_schedule_heading (info, column);
      sw_csv_add_text (csv, heading);
    }
  sw_csv_end_row (csv);
  for (guint row = 0; row < schedule->records->len; row++)
    {
      for (guint column = 0; column < info->n_columns; column++)
        {
          const char *text = sw_schedule_text (schedule, row, column);
          if (info->columns[column].kind == SW_CELL_NUMBER && *text != '\0')
            sw_csv_add_number (csv, text);
          else
            sw_csv_add_text (csv, text);
        }
      sw_csv_end_row (csv);
    }
  return sw_csv_text (csv);
}
