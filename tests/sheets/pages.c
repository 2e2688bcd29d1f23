/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Pages about one room, bay or wall, and the schedules of stopping and of levels. */
#include "checks/checks.h"
#include "sample.h"
#include "sheets/crossings.h"
#include "sheets/schedule.h"
#include "sheets/sheet.h"
#include <string.h>

static SwSheet *
draw (SwSheetSample *sample, const char *id)
{
  GError *error = NULL;
  SwSheet *sheet = sw_sheet_draw (&sample->context, sw_sheets_find (id), NULL, &error);
  g_assert_no_error (error);
  return sheet;
}

static char *
svg_of (const SwSheet *sheet, guint page)
{
  GError *error = NULL;
  const SwSheetPage *pages = sw_sheet_pages (sheet);
  g_autoptr (GBytes) bytes = sw_page_write (pages[page].display, &pages[page].page, SW_PAGE_SVG, &error);
  g_assert_no_error (error);
  return g_strndup (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes));
}

static void
assert_words (const SwSheet *sheet, guint page, const char *const *words)
{
  g_autofree char *svg = svg_of (sheet, page);
  for (guint i = 0; words[i] != NULL; i++)
    if (strstr (svg, words[i]) == NULL)
      {
        g_test_message ("\"%s\" is not on page %u", words[i], page + 1);
        g_test_fail ();
      }
}

static const char *
cell (const SwSchedule *schedule, guint row, const char *key)
{
  const SwScheduleInfo *info = sw_schedule_info (schedule);
  for (guint i = 0; i < info->n_columns; i++)
    if (strcmp (info->columns[i].key, key) == 0)
      return sw_schedule_text (schedule, row, i);
  g_assert_not_reached ();
}

static double
number (const SwSchedule *schedule, guint row, const char *key)
{
  double value = NAN;
  const SwScheduleInfo *info = sw_schedule_info (schedule);
  for (guint i = 0; i < info->n_columns; i++)
    if (strcmp (info->columns[i].key, key) == 0)
      sw_schedule_number (schedule, row, i, &value);
  return value;
}

/* Room 2 is the second of four: its pipes, its light 1500 from the left wall, its drop-ins; snags come from a check. */
static void
test_days (SwSheetSample *sample, gconstpointer unused)
{
  static const char *const words[] = { "room 2 Washroom", "waste 50 mm, fall 1:60", "Basin, hole 80 mm", "L10", "Crew, hours", "Signature", "water pressure test", NULL };
  g_autoptr (SwSheet) sheet = draw (sample, "day-sheets");
  g_assert_cmpuint (sw_sheet_n_pages (sheet), >=, 4);
  assert_words (sheet, 1, words);
  g_autofree char *first = svg_of (sheet, 0);
  g_assert_null (strstr (first, "Basin, hole 80 mm")); /* not in the waiting room */
}

/* The soil test of room 2 is passed, the other five before closing are not; room 1 has none. */
static void
test_holds (SwSheetSample *sample, gconstpointer unused)
{
  static const char *const first[] = { "room 1 Waiting room", "6 hold points before closing are not passed.", "Not to be closed", "may be closed", NULL };
  static const char *const second[] = { "room 2 Washroom", "5 hold points before closing are not passed.", "Plumber", "2026-03-20", "Permission given by", NULL };
  g_autoptr (SwSheet) sheet = draw (sample, "hold-points");
  g_assert_cmpuint (sw_sheet_n_pages (sheet), ==, 4);
  assert_words (sheet, 0, first);
  assert_words (sheet, 1, second);
}

/* Two bays, then four rooms. Rib 4 of bay A was drawn at 2400 and found at 2412; side 1 of room 2 is 6 short, its diagonal,
 * √(4000² + 2500²) = 4717, 5 long. */
static void
test_survey (SwSheetSample *sample, gconstpointer unused)
{
  static const char *const bay[] = { "As built: bay A West", ">2412<", ">+12<" }, *const room[] = { "As built: room 2", ">3994<", ">-6<", ">4717<", ">+5<", NULL };
  g_autoptr (SwSheet) sheet = draw (sample, "as-built-entry");
  g_assert_cmpuint (sw_sheet_n_pages (sheet), >=, 6);
  guint page = 1;
  for (; page < sw_sheet_n_pages (sheet); page++)
    {
      g_autofree char *svg = svg_of (sheet, page);
      if (strstr (svg, "As built: room 2") != NULL)
        break;
    }
  g_autofree char *first = svg_of (sheet, 0);
  g_assert_nonnull (strstr (first, bay[0]));
  assert_words (sheet, page, room);
  for (guint i = 1; i < G_N_ELEMENTS (bay); i++)
    g_assert_nonnull (strstr (first, bay[i]));
}

/* W2 separates for 60 min and leaves four voids open; the cold pipe of 22 mm with 13 mm lagging passes it 2250 from its start
 * and has no sleeve. W3 goes up to the slab: nothing is open over it. */
static void
test_stopping (SwSheetSample *sample, gconstpointer unused)
{
  static const char *const words[] = { "Wall W2: fire 60 min, sound 45 dB", "NO SLEEVE", "R5 cold water", ">2250<", "Tested system", "consultant names", NULL };
  const SwWall *wall = (const SwWall *) sw_job_find (sw_sheet_job (&sample->context), "W2");
  g_autoptr (GArray) crossings = sw_crossings_of_wall (&sample->context, wall);
  g_assert_cmpuint (crossings->len, ==, 1);
  const SwCrossing *crossing = &g_array_index (crossings, SwCrossing, 0);
  g_assert_cmpstr (crossing->run->record.tag, ==, "R5");
  sw_assert_near (crossing->along, 2250, 1e-6);
  sw_assert_near (crossing->outer, 11 + 13, 1e-9);
  g_assert_null (crossing->sleeve);
  g_autoptr (SwSheet) sheet = draw (sample, "stopping");
  assert_words (sheet, 0, words);
  g_autoptr (SwSchedule) schedule = sw_schedule_new (&sample->context, sw_schedules_find ("stopping"));
  guint fillers = 0, runs = 0;
  for (guint i = 0; i < sw_schedule_n_rows (schedule); i++)
    {
      gboolean run = *cell (schedule, i, "mark") != '\0';
      g_assert_cmpstr (cell (schedule, i, "wall"), ==, "W2");
      sw_assert_near (number (schedule, i, "fire_min"), 60, 0);
      runs += run;
      fillers += !run;
    }
  g_assert_cmpuint (fillers, ==, 4);
  g_assert_cmpuint (runs, ==, 1);
}

/* R1 falls 1:60 over 3300: 55 mm between its two vertices. */
static void
test_levels (SwSheetSample *sample, gconstpointer unused)
{
  g_autoptr (SwSchedule) schedule = sw_schedule_new (&sample->context, sw_schedules_find ("levels"));
  guint n = 0;
  for (guint i = 0; i < sw_schedule_n_rows (schedule); i++)
    {
      const SwRun *run = (const SwRun *) sw_job_get (sw_sheet_job (&sample->context), sw_schedule_record (schedule, i));
      g_assert_cmpstr (cell (schedule, i, "trade"), ==, sw_service_is_electric ((SwService) run->service) ? "electrician" : "plumber");
      n += strcmp (cell (schedule, i, "number"), "R1") == 0;
    }
  g_assert_cmpuint (n, ==, 2);
  g_assert_cmpstr (cell (schedule, 0, "number"), ==, "R1");
  sw_assert_near (number (schedule, 1, "chainage_m"), 3.3, 1e-9);
  sw_assert_near (number (schedule, 0, "fall_n"), 60, 0.05);
  sw_assert_near (number (schedule, 0, "invert_mm") - number (schedule, 1, "invert_mm"), 55, 1.01); /* both are whole */
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
#define ADD(name, function) g_test_add ("/sheets/pages/" name, SwSheetSample, NULL, sw_sheet_sample_open, function, sw_sheet_sample_close)
  ADD ("days", test_days);
  ADD ("holds", test_holds);
  ADD ("survey", test_survey);
  ADD ("stopping", test_stopping);
  ADD ("levels", test_levels);
  return g_test_run ();
}
