/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sheets/schedule_rules.h"
#include "job/edit.h"
#include "sample.h"
#include <math.h>
#include <string.h>

static SwSchedule *
open_schedule (SwSheetSample *sample, const char *id)
{
  const SwScheduleInfo *info = sw_schedules_find (id);
  g_assert_nonnull (info);
  return sw_schedule_new (&sample->context, info);
}

static guint
column_of (const SwSchedule *schedule, const char *key)
{
  const SwScheduleInfo *info = sw_schedule_info (schedule);
  for (guint i = 0; i < info->n_columns; i++)
    if (strcmp (info->columns[i].key, key) == 0)
      return i;
  g_error ("no column %s", key);
}

/* The row of the thing with this mark. */
static guint
row_of (SwSheetSample *sample, const SwSchedule *schedule, const char *tag)
{
  const SwRecord *record = sw_job_find (sw_sheet_job (&sample->context), tag);
  for (guint i = 0; i < sw_schedule_n_rows (schedule); i++)
    if (sw_schedule_record (schedule, i) == record->id)
      return i;
  g_error ("no row for %s", tag);
}

static double
number (SwSheetSample *sample, const SwSchedule *schedule, const char *tag, const char *key)
{
  double value = NAN;
  g_assert_true (sw_schedule_number (schedule, row_of (sample, schedule, tag), column_of (schedule, key), &value));
  return value;
}

static const char *
text (SwSheetSample *sample, const SwSchedule *schedule, const char *tag, const char *key)
{
  return sw_schedule_text (schedule, row_of (sample, schedule, tag), column_of (schedule, key));
}

static gboolean
some_set_has (const char *schedule, const char *id)
{
  GError *error = NULL;
  g_auto (GStrv) names = sw_rules_list (&error);
  g_assert_no_error (error);
  for (guint i = 0; names[i] != NULL; i++)
    {
      g_autoptr (SwRules) rules = sw_rules_load (names[i], NULL, &error);
      g_assert_no_error (error);
      g_autoptr (GPtrArray) found = sw_schedule_rules (sw_schedules_find (schedule), G_MAXUINT, rules);
      for (guint k = 0; k < found->len; k++)
        if (strcmp (((const SwScheduleRule *) found->pdata[k])->rule_id, id) == 0)
          return TRUE;
    }
  return FALSE;
}

/* What the table names is there: schedule, column, and each rule in one of the rule sets at least. */
static void
test_rules_are_there (void)
{
  const char *schedule, *column, *ids;
  for (guint i = 0; (ids = sw_schedule_rules_row (i, &schedule, &column)) != NULL; i++)
    {
      const SwScheduleInfo *info = sw_schedules_find (schedule);
      gboolean has = FALSE;
      g_assert_nonnull (info);
      for (guint c = 0; c < info->n_columns; c++)
        has |= strcmp (info->columns[c].key, column) == 0;
      if (!has)
        g_error ("%s has no column %s", schedule, column);
      g_auto (GStrv) each = g_strsplit (ids, " ", 0);
      for (guint k = 0; each[k] != NULL; k++)
        if (!some_set_has (schedule, each[k]))
          g_error ("%s.%s: no rule set has %s", schedule, column, each[k]);
    }
}

/* A velocity that keeps a pipe clean is 0.7 m/s, from memory, until the user says another; a table stands for all of its lines. */
static void
test_rules_of_a_column (void)
{
  static const char changed[] = "[drainage.flow]\nsource=the council\nconfidence=common-practice\nself_cleansing_m_s=0.6\n";
  GError *error = NULL;
  const SwScheduleInfo *info = sw_schedules_find ("flows");
  guint column = 0;
  while (strcmp (info->columns[column].key, "velocity_ms") != 0)
    column++;
  for (int i = 0; i < 2; i++)
    {
      g_autoptr (SwRules) rules = sw_rules_load_text ("south-africa", i == 0 ? NULL : changed, "here", &error);
      g_assert_no_error (error);
      g_autoptr (GPtrArray) found = sw_schedule_rules (info, column, rules);
      g_assert_cmpuint (found->len, ==, 2);
      const SwScheduleRule *rule = found->pdata[0];
      g_assert_cmpstr (rule->rule_id, ==, "drainage.flow.self_cleansing_m_s");
      g_assert_cmpstr (rule->value, ==, i == 0 ? "0.7 m/s" : "0.6 m/s");
      g_assert_cmpint (rule->confidence, ==, i == 0 ? SW_CONFIDENCE_FROM_MEMORY : SW_CONFIDENCE_COMMON_PRACTICE);
      g_assert_cmpint (rule->overridden, ==, i);
      g_autofree char *said = sw_schedule_rule_text (info, rule, SW_LENGTHS_MM);
      g_assert_true (g_str_has_prefix (said, i == 0 ? "Velocity: drainage.flow.self_cleansing_m_s = 0.7 m/s (" : "Velocity: drainage.flow.self_cleansing_m_s = 0.6 m/s (the council; common practice), changed"));
    }
  g_autoptr (SwRules) rules = sw_rules_load ("south-africa", NULL, &error);
  g_autoptr (GPtrArray) levels = sw_schedule_rules (sw_schedules_find ("levels"), G_MAXUINT, rules);
  gboolean table = FALSE;
  for (guint i = 0; i < levels->len; i++)
    table |= strcmp (((const SwScheduleRule *) levels->pdata[i])->rule_id, "drainage.gradients") == 0 && *((const SwScheduleRule *) levels->pdata[i])->value == '\0';
  g_assert_true (table);
}

/* The table is well formed, and every schedule of a job that has something of everything has rows. */
static void
test_table (SwSheetSample *sample, gconstpointer unused)
{
  for (guint i = 0; i < sw_schedules_n (); i++)
    {
      const SwScheduleInfo *info = sw_schedules_get (i);
      g_assert_true (sw_schedules_find (info->id) == info);
      g_autoptr (SwSchedule) schedule = sw_schedule_new (&sample->context, info);
      /* Snags come from a check, packers and boards from layouts: this context has been through neither. */
      g_assert_cmpuint (sw_schedule_n_rows (schedule) > 0, ==, strcmp (info->id, "snags") != 0 && strcmp (info->id, "packers") != 0
                                                                   && strcmp (info->id, "timber-set-out") != 0 && strcmp (info->id, "boards-by-room") != 0);
      for (guint column = 0; column < info->n_columns; column++)
        {
          guint filled = 0;
          for (guint row = 0; row < sw_schedule_n_rows (schedule); row++)
            {
              const char *cell = sw_schedule_text (schedule, row, column);
              double value;
              if (info->columns[column].kind == SW_CELL_NUMBER)
                g_assert_cmpint (sw_schedule_number (schedule, row, column, &value), ==, *cell != '\0');
              filled += *cell != '\0';
            }
          for (guint other = 0; other < column; other++)
            g_assert_cmpstr (info->columns[other].key, !=, info->columns[column].key);
          g_assert_cmpuint (filled, <=, sw_schedule_n_rows (schedule));
        }
    }
  g_assert_null (sw_schedules_find ("no-such"));
}

static void
test_order (void)
{
  static const char *const marks[] = { "", "2", "10", "A", "R", "R2", "R02", "R10", "R10a", "R11", "a", "\xc3\xa4" };
  for (guint i = 0; i < G_N_ELEMENTS (marks); i++)
    for (guint k = 0; k < G_N_ELEMENTS (marks); k++)
      {
        int order = sw_sheet_mark_compare (marks[i], marks[k]);
        gboolean twins = i != k && strcmp (marks[MIN (i, k)], "R2") == 0 && strcmp (marks[MAX (i, k)], "R02") == 0;
        if (!twins)
          g_assert_cmpint ((order > 0) - (order < 0), ==, ((int) i > (int) k) - ((int) i < (int) k));
        g_assert_cmpint ((order > 0) - (order < 0), ==, -((sw_sheet_mark_compare (marks[k], marks[i]) > 0) - (sw_sheet_mark_compare (marks[k], marks[i]) < 0)));
      }
}

/* Expected values: arithmetic on the job's own numbers. R3 runs 7750 along a void, 180 into the gap with a set of 56 - 14
 * … down, 240 below the rib and back up; a box parts it at 5400. */
static void
test_conduits (SwSheetSample *sample, gconstpointer unused)
{
  g_autoptr (SwSchedule) schedule = open_schedule (sample, "conduits");
  double set = hypot (180, 60 + 4 + 10);
  sw_assert_near (number (sample, schedule, "R3", "way_m"), (7750 + set + 240 + set) / 1000, 0.0051);
  sw_assert_near (number (sample, schedule, "R3", "draw_m"), (7750 + set + 240 + set - (8650 - 5400)) / 1000, 0.0051);
  sw_assert_near (number (sample, schedule, "R3", "boxes"), 1, 0);
  /* Turns: 90 degrees into the gap less nothing, as the set lies square to the void; two equal sets. */
  double angle = atan2 (74, 180) * 180 / G_PI;
  sw_assert_near (number (sample, schedule, "R3", "turns_deg"), 90 + 2 * angle, 0.51);
  sw_assert_near (number (sample, schedule, "R3", "bends"), 3, 0);
  /* Five plates stand at 1650, 3150 … 7650; one is out. Source: the deck's spacing of 1500 from the closure. */
  sw_assert_near (number (sample, schedule, "R3", "plates"), 4, 0);
  g_assert_nonnull (strstr (text (sample, schedule, "R3", "plates_at"), "void 1 plate 5"));
  g_assert_null (strstr (text (sample, schedule, "R3", "plates_at"), "plate 2"));
  g_assert_cmpstr (text (sample, schedule, "R3", "from"), ==, "distribution board F2");
  /* A socket 300 above the floor, from below the ribs: soffit 2843 as measured, less 4 and half of 25. */
  sw_assert_near (number (sample, schedule, "R4", "drops_m"), (2843 - 4 - 12.5 - 300) / 1000, 0.0051);
  /* Cast-in runs need no saddles. */
  g_assert_cmpstr (text (sample, schedule, "R6", "supports"), ==, "");
  sw_assert_near (number (sample, schedule, "R10", "supports"), 6, 0);
  sw_assert_near (number (sample, schedule, "R10", "lengths"), 2, 0);
}

/* Source: TRADE worked value: 15 mm copper, 6.0 m, every 1.2 m: ceil(6/1.2) + 1 = 6 clips (arithmetic); 22 mm copper every
 * 1.8 m by a level 2 plumbing textbook's clip table: ceil(6/1.8) + 1 = 5. */
static void
test_pipes (SwSheetSample *sample, gconstpointer unused)
{
  g_autoptr (SwSchedule) schedule = open_schedule (sample, "pipes");
  sw_assert_near (number (sample, schedule, "R5", "brackets"), 5, 0);
  sw_assert_near (number (sample, schedule, "R5", "bracket_every_mm"), 1800, 0);
  /* 3300 at 1:60 falls 55. */
  double start = number (sample, schedule, "R1", "invert_start_mm");
  sw_assert_near (start - number (sample, schedule, "R1", "invert_end_mm"), 55, 1);
  /* Soffit 2843 + axis 190 - half the bore of 44, less the level line at 1000. */
  sw_assert_near (start, 2843 + 190 - 22 - 1000, 0.51);
  sw_assert_near (number (sample, schedule, "R1", "invert_start_datum_m"), 3.4 + 2.843 + 0.19 - 0.022, 0.00051);
  /* 250 deep, axis at 190 and 135, socket 65. */
  sw_assert_near (number (sample, schedule, "R1", "over_mm"), 250 - 190 - 32.5, 0.51);
  sw_assert_near (number (sample, schedule, "R1", "under_mm"), 135 - 32.5, 0.51);
  sw_assert_near (number (sample, schedule, "R1", "plates"), 2, 0);
}

static void
test_points (SwSheetSample *sample, gconstpointer unused)
{
  g_autoptr (SwSchedule) lights = open_schedule (sample, "downlights");
  g_assert_cmpstr (text (sample, lights, "L10", "grid_y"), ==, "2");
  sw_assert_near (number (sample, lights, "L10", "from_grid_y_mm"), -2100, 0);
  g_assert_cmpstr (text (sample, lights, "L10", "wall_y"), ==, "W1");
  sw_assert_near (number (sample, lights, "L10", "from_wall_y_mm"), 400, 0);
  sw_assert_near (number (sample, lights, "L10", "beside_plate_mm"), 350, 0);
  sw_assert_near (number (sample, lights, "L10", "level_mm"), 2843 - 38 - 12.5 - 1000, 0.51);
  g_autoptr (SwSchedule) drop_ins = open_schedule (sample, "drop-ins");
  /* A 150 hole, 135 off the middle of a 400 crown: 200 - 135 - 75 = -10; moved 10 against y it just fits. */
  sw_assert_near (number (sample, drop_ins, "DI2", "clear_mm"), -10, 0);
  sw_assert_near (number (sample, drop_ins, "DI2", "move_x_mm"), 0, 0);
  sw_assert_near (number (sample, drop_ins, "DI2", "move_y_mm"), -10, 0);
  g_assert_cmpstr (text (sample, drop_ins, "DI1", "move_y_mm"), ==, "");
  g_autoptr (SwSchedule) sleeves = open_schedule (sample, "sleeves");
  g_assert_cmpstr (text (sample, sleeves, "S1", "over"), ==, "rib");
  g_assert_cmpstr (text (sample, sleeves, "S1", "answer"), ==, "asked");
}

/* Source: a separating wall that stops at the rib soffit leaves 0.1125 m² open in each trough of 500, 400 and 250
 * (arithmetic: (0.5 + 0.4) / 2 * 0.25). */
static void
test_fillers (SwSheetSample *sample, gconstpointer unused)
{
  g_autoptr (SwSchedule) schedule = open_schedule (sample, "fillers");
  g_assert_cmpuint (sw_schedule_n_rows (schedule), ==, 4);
  for (guint i = 0; i < 4; i++)
    {
      g_assert_cmpstr (sw_schedule_text (schedule, i, column_of (schedule, "wall")), ==, "W2");
      g_assert_cmpstr (sw_schedule_text (schedule, i, column_of (schedule, "area_m2")), ==, "0.1125");
    }
  g_assert_cmpstr (sw_schedule_text (schedule, 3, column_of (schedule, "runs")), ==, "R5");
}

/* Source: 14 days under props of slabs over 4.5 m (IS 456 practice): 20 February 2026 + 14 days = 6 March. */
static void
test_plates (SwSheetSample *sample, gconstpointer unused)
{
  g_autoptr (SwSchedule) schedule = open_schedule (sample, "plates");
  guint n = sw_schedule_n_rows (schedule), waiting = 0;
  for (guint i = 0; i < n; i++)
    waiting += strcmp (sw_schedule_text (schedule, i, column_of (schedule, "forecast")), "2026-03-06") == 0;
  g_assert_cmpuint (waiting, ==, n - 2);
  g_assert_cmpstr (text (sample, schedule, "PL1", "state"), ==, "released");
  g_assert_cmpstr (text (sample, schedule, "PL1", "runs"), ==, "R3");
  g_assert_cmpstr (text (sample, schedule, "PL2", "state"), ==, "taken out");
}

/* Source of the table's 29 mV/A/m: BS 7671 table 4D1B, from memory; the rest is arithmetic. */
static void
test_circuits (SwSheetSample *sample, gconstpointer unused)
{
  g_autoptr (SwSchedule) schedule = open_schedule (sample, "circuits");
  double farthest = number (sample, schedule, "K1", "farthest_m");
  sw_assert_near (farthest, number (sample, schedule, "K1", "length_m"), 0.011);
  sw_assert_near (number (sample, schedule, "K1", "drop_v"), 29 * 6 * farthest / 1000, 0.01);
  sw_assert_near (number (sample, schedule, "K1", "lights"), 4, 0);
  sw_assert_near (number (sample, schedule, "K1", "watts"), 36, 0);
}

/* By hand: five singles of 2.5 mm², 3.7 mm each, take 53.8 of the 359.7 mm² of a 25 conduit; each cable is as long as the conduit's
 * schedule says. The socket outlet stands 8650 along its wall, 300 above the floor, its chase no deeper than a third of the wall. The
 * copper pipe is metal, the plastic ones are not. */
static void
test_electric (SwSheetSample *sample, gconstpointer unused)
{
  g_autoptr (SwSchedule) conduits = open_schedule (sample, "conduits"), cables = open_schedule (sample, "cables"), bonding = open_schedule (sample, "bonding");
  g_autoptr (SwSchedule) set_out = open_schedule (sample, "set-out"), circuits = open_schedule (sample, "circuits");
  sw_assert_near (number (sample, conduits, "R4", "fill_percent"), 100 * 5 * 10.752 / 359.68, 0.051);
  sw_assert_near (number (sample, conduits, "R4", "sharing"), 1, 0);
  sw_assert_near (number (sample, conduits, "R4", "data_apart_mm"), 20, 0); /* class b, one circuit: EN 50174-2, 100 × 0.2 */
  sw_assert_near (number (sample, cables, "R4", "cables"), 5, 0);
  sw_assert_near (number (sample, cables, "R4", "each_m"), number (sample, conduits, "R4", "cable_m"), 0);
  sw_assert_near (number (sample, cables, "R4", "total_m"), 5 * number (sample, conduits, "R4", "cable_m"), 0.03);
  sw_assert_near (number (sample, circuits, "K1", "carries_a"), 10, 0); /* its breaker */
  sw_assert_near (number (sample, circuits, "K1", "rating_a"), 17.5 * 0.79, 0.051);
  sw_assert_near (number (sample, set_out, "D1", "along_mm"), 8650, 0);
  sw_assert_near (number (sample, set_out, "D1", "floor_mm"), 300, 0);
  const SwWall *wall = (const SwWall *) sw_job_find (sw_sheet_job (&sample->context), "W1");
  sw_assert_near (number (sample, set_out, "D1", "chase_most_mm"), wall->thickness / 3, 0.51);
  g_assert_cmpuint (sw_schedule_n_rows (set_out), >=, 1 + 2 + 4); /* a drop, two boxes, four lights */
  g_assert_nonnull (strstr (text (sample, bonding, "R5", "what"), "copper"));
  g_assert_cmpstr (text (sample, bonding, "bay A", "voids"), !=, "");
  for (guint row = 0; row < sw_schedule_n_rows (bonding); row++)
    g_assert_cmpstr (sw_schedule_text (bonding, row, 0), !=, "R1");
}

/* Rooms add up to no more than their bay; shares go with what is allowed. A room's ceiling weighs the same wherever it is asked. */
static void
test_loads (SwSheetSample *sample, gconstpointer unused)
{
  g_autoptr (SwSchedule) schedule = open_schedule (sample, "loads");
  guint whole = row_of (sample, schedule, "bay A"), total = column_of (schedule, "total_n");
  double bay, area, load, room, sum = 0;
  g_assert_true (sw_schedule_number (schedule, whole, total, &bay) && sw_schedule_number (schedule, whole, column_of (schedule, "area_m2"), &area)
                 && sw_schedule_number (schedule, whole, column_of (schedule, "load_kpa"), &load));
  for (guint row = 0; row < sw_schedule_n_rows (schedule); row++)
    if (row != whole && strcmp (sw_schedule_text (schedule, row, 0), "bay A") == 0 && sw_schedule_number (schedule, row, total, &room))
      sum += room;
  g_assert_cmpfloat (sum, >, 0);
  g_assert_cmpfloat (sum, <=, bay + 2);
  sw_assert_near (load, bay / area / 1000, 0.0006);
}

static guint
rows_of (const SwSchedule *schedule, SwId run)
{
  guint n = 0;
  for (guint row = 0; row < sw_schedule_n_rows (schedule); row++)
    n += sw_schedule_record (schedule, row) == run;
  return n;
}

/* Every run has a level for each of its points, and for each hanger a load; together they bear the run's weight. */
static void
test_site (SwSheetSample *sample, gconstpointer unused)
{
  g_autoptr (SwSchedule) levels = open_schedule (sample, "levels"), hangers = open_schedule (sample, "hangers"), flows = open_schedule (sample, "flows");
  const SwRun *run = (const SwRun *) sw_job_find (sw_sheet_job (&sample->context), "R5");
  double load = 0, value;
  g_assert_cmpuint (rows_of (levels, run->record.id), ==, run->vertices.n);
  for (guint row = 0; row < sw_schedule_n_rows (hangers); row++)
    if (sw_schedule_record (hangers, row) == run->record.id && sw_schedule_number (hangers, row, column_of (hangers, "load_n"), &value))
      load += value;
  g_autoptr (SwSchedule) pipes = open_schedule (sample, "pipes");
  double weight = number (sample, flows, "R5", "mass_kg_m") * number (sample, pipes, "R5", "length_m") * 9.81;
  g_assert_cmpuint (rows_of (hangers, run->record.id), >, 2);
  sw_assert_near (load, weight, 0.02 * weight + rows_of (hangers, run->record.id));
}

static void
test_measures (SwSheetSample *sample, gconstpointer unused)
{
  const struct { const char *tag; double drawn, shift; } measures[] = {
    { "M1", 2400, 12 }, { "M2", 2850, -7 }, { "M3", 4000, -6 }, { "M4", 4717, 5 }, { "M5", 3000, -15 },
  };
  g_autoptr (SwSchedule) schedule = open_schedule (sample, "as-built");
  for (gsize i = 0; i < G_N_ELEMENTS (measures); i++)
    {
      sw_assert_near (number (sample, schedule, measures[i].tag, "drawn_mm"), measures[i].drawn, 0.06);
      sw_assert_near (number (sample, schedule, measures[i].tag, "shift_mm"), measures[i].shift, 0.06);
    }
}

/* A run that cannot be worked out still has its row, and says why. */
static void
test_fault (SwSheetSample *sample, gconstpointer unused)
{
  GError *error = NULL;
  SwJob *job = sw_sheet_job (&sample->context);
  g_autoptr (SwEdit) edit = sw_edit_new ("Spoil");
  SwRun *run = (SwRun *) sw_record_copy (sw_job_find (job, "R10"));
  SW_LIST_AT (run->vertices, SwVertex, 1).at = SW_LIST_AT (run->vertices, SwVertex, 0).at;
  sw_edit_put (edit, job, &run->record, &error);
  g_assert_no_error (error);
  g_autoptr (SwJob) spoilt = sw_job_apply (job, edit, TRUE, &error);
  g_assert_no_error (error);
  g_autoptr (SwDeck) deck = sw_deck_new (spoilt);
  SwSheetContext context = { deck, sample->context.rules };
  g_autoptr (SwSchedule) schedule = sw_schedule_new (&context, sw_schedules_find ("conduits"));
  g_assert_nonnull (strstr (text (sample, schedule, "R10", "note"), "one place"));
  g_assert_cmpstr (text (sample, schedule, "R10", "way_m"), ==, "");
}

/* A job without prices has its take-off all the same. With one price, of the first drop-in, 30 + 12.50 each: price 51.00 (markup 20 %), tax
 * 7.65 (15 %), together 58.65. */
static void
test_money (SwSheetSample *sample, gconstpointer unused)
{
  SwJob *job = sw_sheet_job (&sample->context);
  g_autoptr (SwSchedule) bare = sw_schedule_new (&sample->context, sw_schedules_find ("take-off"));
  guint n = sw_schedule_n_rows (bare);
  for (guint row = 0; row < n; row++)
    g_assert_cmpstr (sw_schedule_text (bare, row, 13), ==, "");
  guint first = 0;
  while (first < n && !g_str_has_prefix (sw_schedule_text (bare, first, 1), "drop-in-"))
    first++;
  g_assert_cmpuint (first, <, n);
  GError *error = NULL;
  g_autoptr (SwEdit) edit = sw_edit_new ("Price");
  SwPrice *price = (SwPrice *) sw_edit_create (edit, job, SW_TABLE_PRICE);
  double count = 0;
  g_assert_true (sw_schedule_number (bare, first, 3, &count));
  sw_text_set (&price->record.tag, sw_schedule_text (bare, first, 1));
  price->material = 30 * SW_MONEY_ONE;
  price->labour = 125 * SW_MONEY_ONE / 10;
  g_assert_true (sw_edit_put (edit, job, &price->record, &error));
  g_autoptr (SwJob) priced = sw_job_apply (job, edit, TRUE, &error);
  g_assert_no_error (error);
  g_autoptr (SwDeck) deck = sw_deck_new (priced);
  SwSheetContext context = sample->context;
  context.deck = deck;
  g_autoptr (SwSchedule) schedule = sw_schedule_new (&context, sw_schedules_find ("take-off"));
  const double sums[] = { count * 42.5, count * 51, count * 7.65, count * 58.65 };
  g_assert_cmpuint (sw_schedule_n_rows (schedule), ==, n + 4);
  for (guint i = 0; i < 4; i++)
    {
      double sum;
      g_assert_true (sw_schedule_number (schedule, n + i, 13, &sum));
      sw_assert_near (sum, sums[i], 0.005001);
    }
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
#define ADD(name, function) g_test_add ("/sheets/schedule/" name, SwSheetSample, NULL, sw_sheet_sample_open, function, sw_sheet_sample_close)
  g_test_add_func ("/sheets/schedule/order", test_order);
  g_test_add_func ("/sheets/schedule/rules-are-there", test_rules_are_there);
  g_test_add_func ("/sheets/schedule/rules-of-a-column", test_rules_of_a_column);
  ADD ("table", test_table);
  ADD ("conduits", test_conduits);
  ADD ("pipes", test_pipes);
  ADD ("points", test_points);
  ADD ("fillers", test_fillers);
  ADD ("plates", test_plates);
  ADD ("circuits", test_circuits);
  ADD ("electric", test_electric);
  ADD ("loads", test_loads);
  ADD ("site", test_site);
  ADD ("measures", test_measures);
  ADD ("fault", test_fault);
  ADD ("money", test_money);
  return g_test_run ();
}
