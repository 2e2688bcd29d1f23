/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "sheets/context.h"

/* Schedules: lists of one kind of thing with typed columns. The window shows them, files and sheets are written from them.
 * Rows stand in the order of their marks; numbers are written with a point whatever the locale; titles and words are in the
 * user's language. */

typedef enum
{
  SW_CELL_TEXT,
  SW_CELL_NUMBER,
  SW_CELL_DATE /* YYYY-MM-DD */
} SwCellKind;

typedef struct
{
  const char *key;   /* the same in all languages: "length_m" */
  const char *title; /* English, to be translated: "Length" */
  const char *unit;  /* "mm", "m", "m²", "°" …; "" for none */
  SwCellKind kind;
  int decimals;      /* of numbers */
} SwScheduleColumn;

typedef struct
{
  const char *id; /* "conduits": also the name of its file */
  const char *title, *description; /* English, to be translated */
  guint n_columns;
  const SwScheduleColumn *columns;
} SwScheduleInfo;

guint sw_schedules_n (void);
const SwScheduleInfo *sw_schedules_get (guint i);
/* NULL where there is none. */
const SwScheduleInfo *sw_schedules_find (const char *id);

/* Immutable once made. */
typedef struct _SwSchedule SwSchedule;

SwSchedule *sw_schedule_new (const SwSheetContext *context, const SwScheduleInfo *info);
void sw_schedule_free (SwSchedule *schedule);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwSchedule, sw_schedule_free)

const SwScheduleInfo *sw_schedule_info (const SwSchedule *schedule);
guint sw_schedule_n_rows (const SwSchedule *schedule);
/* The record that a row is about; 0 for none. */
SwId sw_schedule_record (const SwSchedule *schedule, guint row);
/* As shown; "" where nothing applies or is known. Borrowed. */
const char *sw_schedule_text (const SwSchedule *schedule, guint row, guint column);
/* FALSE for an empty cell or one that holds no number. Rounded as shown. */
gboolean sw_schedule_number (const SwSchedule *schedule, guint row, guint column, double *number);
/* "Length (m)", in the user's language. Free with g_free. */
char *sw_schedule_heading (const SwScheduleInfo *info, guint column);
/* The same for lists that people read: columns of mm, m and m² in feet and inches, feet and square feet where `lengths` says so.
 * Files keep mm, m and m² under the same keys. Free with g_free. */
char *sw_schedule_heading_in (const SwScheduleInfo *info, guint column, SwLengths lengths);
char *sw_schedule_text_in (const SwSchedule *schedule, guint row, guint column, SwLengths lengths);

/* Headings, then the rows; see base/csv.h. Free with g_free. */
char *sw_schedule_csv (const SwSchedule *schedule);
