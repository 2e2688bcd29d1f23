/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sheets/sheet.h"
#include "checks/checks.h"
#include "sample.h"
#include "sheets/papers.h"
#include <string.h>

static SwSheet *
draw (SwSheetSample *sample, const char *id, const char *about)
{
  GError *error = NULL;
  SwSheetArgs args = { .along = -1 };
  if (about != NULL)
    args.record = sw_job_find (sw_sheet_job (&sample->context), about)->id;
  SwSheet *sheet = sw_sheet_draw (&sample->context, sw_sheets_find (id), &args, &error);
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
assert_has (const char *svg, const char *words)
{
  if (strstr (svg, words) != NULL)
    return;
  g_test_message ("\"%s\" is not on the sheet", words);
  g_test_fail ();
}

/* Page and group of a record's drawing. */
static int
find_group (const SwSheet *sheet, SwTable table, SwId record, guint page)
{
  return sw_display_find (sw_sheet_pages (sheet)[page].display, (int) table, record, -1);
}

/* No letter below 2.5 mm (ISO 3098 size; what can be read on site on an A3 print). */
static void
assert_letters (const SwDisplay *display, const char *sheet)
{
  g_autoptr (GArray) texts = sw_display_texts (display);
  g_assert_cmpuint (texts->len, >, 15);
  for (guint i = 0; i < texts->len; i++)
    {
      const SwDisplayText *text = &g_array_index (texts, SwDisplayText, i);
      g_assert_cmpint (text->style.unit, !=, SW_SIZE_PX);
      if (text->style.height >= 2.5 - 1e-9)
        continue;
      g_test_message ("%s: \"%s\" is %.2f mm high", sheet, text->text, text->style.height);
      g_test_fail ();
    }
}

/* Every sheet about the job has pages with more than frame and title block, in colour and in black-and-white. */
static void
test_all (SwSheetSample *sample, gconstpointer unused)
{
  for (int mono = 0; mono < sw_test_rounds (2); mono++)
    for (guint i = 0; i < sw_sheets_n (); i++)
      {
        const SwSheetInfo *info = sw_sheets_get (i);
        g_assert_true (sw_sheets_find (info->id) == info);
        if (info->about == SW_SHEET_ABOUT_VOID || !sw_sheet_has_subject (&sample->context, info))
          continue;
        sample->context.options.theme = mono ? SW_THEME_MONO : SW_THEME_LIGHT;
        g_autoptr (SwSheet) sheet = draw (sample, info->id, info->about == SW_SHEET_ABOUT_RUN ? "R1" : NULL);
        g_assert_cmpuint (sw_sheet_n_pages (sheet), >, 0);
        for (guint page = 0; page < sw_sheet_n_pages (sheet); page++)
          {
            const SwDisplay *display = sw_sheet_pages (sheet)[page].display;
            g_assert_cmpuint (sw_display_n_left_out (display), ==, 0);
            g_assert_cmpuint (sw_display_n_items (display), >, 60);
            g_assert_cmpint (sw_sheet_pages (sheet)[page].page.theme, ==, sample->context.options.theme);
            assert_letters (display, info->id);
          }
      }
}

/* The bay of 9000 by 6000 is 180 by 120 mm at 1:50, and the tick of the grid's chain reads 9000. */
static void
test_scale (SwSheetSample *sample, gconstpointer unused)
{
  const SwId bay = sw_job_find (sw_sheet_job (&sample->context), "bay A")->id;
  const struct { double asked; double scale; guint pages; } cases[] = { { 0, 50, 1 }, { 100, 100, 1 }, { 20, 20, 6 } };
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      sample->context.options.scale = cases[i].asked;
      g_autoptr (SwSheet) sheet = draw (sample, "soffit-plan", NULL);
      int group = find_group (sheet, SW_TABLE_BAY, bay, 0);
      g_assert_cmpint (group, >=, 0);
      SwBox box = sw_display_group_box (sw_sheet_pages (sheet)[0].display, (guint) group);
      sw_assert_near (box.high.x - box.low.x, 9000 / cases[i].scale, 0.02);
      g_autofree char *svg = svg_of (sheet, 0), *words = g_strdup_printf ("1:%.0f", cases[i].scale);
      g_assert_nonnull (strstr (svg, words));
      g_assert_cmpuint (sw_sheet_n_pages (sheet), >=, cases[i].pages);
    }
}

/* Looking up the plan is mirrored, its letters are not; looking down it is not. */
static void
test_looking (SwSheetSample *sample, gconstpointer unused)
{
  SwId west = sw_job_find (sw_sheet_job (&sample->context), "bay A")->id, east = sw_job_find (sw_sheet_job (&sample->context), "bay B")->id;
  for (int down = 0; down < 2; down++)
    {
      sample->context.options.looking = down ? SW_LOOKING_DOWN : SW_LOOKING_UP;
      g_autoptr (SwSheet) sheet = draw (sample, "soffit-plan", NULL);
      const SwDisplay *display = sw_sheet_pages (sheet)[0].display;
      SwBox a = sw_display_group_box (display, (guint) find_group (sheet, SW_TABLE_BAY, west, 0));
      SwBox b = sw_display_group_box (display, (guint) find_group (sheet, SW_TABLE_BAY, east, 0));
      g_assert_cmpint (a.low.x < b.low.x, ==, down);
      g_autofree char *svg = svg_of (sheet, 0);
      g_assert_nonnull (strstr (svg, down ? "looking down" : "looking up"));
    }
}

/* What every sheet says: job, revision, level line, rule set, that others decide; only services that are there. */
static void
test_words (SwSheetSample *sample, gconstpointer unused)
{
  g_autoptr (SwSheet) sheet = draw (sample, "electrician-plan", NULL);
  g_autofree char *svg = svg_of (sheet, 0);
  static const char *const words[] = { "Small clinic", "C-1", "Drawing office", "Electrician", "E1", "line 1000 above", "Site peg 1", "South Africa", "no values changed",
                                       "licensed", "lighting", "power", "data", "Signature", "separating wall" };
  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    assert_has (svg, words[i]);
  g_assert_null (strstr (svg, "fire alarm"));
  g_assert_null (strstr (svg, "cold water"));
  sample->context.date = "2026-04-01";
  g_autoptr (SwSheet) dated = draw (sample, "electrician-plan", NULL);
  g_autofree char *with_date = svg_of (dated, 0);
  g_assert_nonnull (strstr (with_date, "2026-04-01"));
}

static void
test_changed_rules (SwSheetSample *sample, gconstpointer unused)
{
  GError *error = NULL;
  g_autoptr (SwRules) own = sw_rules_load_text ("south-africa", "[checks.clearances]\nsource=site\nconfidence=common-practice\nrib_mm=15\n", "own", &error);
  g_assert_no_error (error);
  SwRules *kept = sample->context.rules;
  sample->context.rules = own;
  g_autoptr (SwSheet) sheet = draw (sample, "soffit-plan", NULL);
  g_autofree char *svg = svg_of (sheet, 0);
  sample->context.rules = kept;
  g_assert_nonnull (strstr (svg, "CHANGED"));
  g_assert_nonnull (strstr (svg, "checks.clearances.rib_mm"));
}

/* Inverts of R1: 2011 and 1956 above the line (see schedule.c); 3300 at 1:60; plates 2 and 1 of void 8. */
static void
test_long_section (SwSheetSample *sample, gconstpointer unused)
{
  g_autoptr (SwSheet) sheet = draw (sample, "long-section", "R1");
  g_autofree char *svg = svg_of (sheet, 0);
  static const char *const words[] = { "Long section of R1", "+2011", "+1956", "1:60", "3.300", "plate 2", "plate 1", "from Basin DI1", "to stack F1", "void 8" };
  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    assert_has (svg, words[i]);
  GError *error = NULL;
  g_assert_null (sw_sheet_draw (&sample->context, sw_sheets_find ("long-section"), NULL, &error));
  sw_assert_error (error, SW_ERROR_NOT_FOUND, "needs a run");
}

static SwSpace *
space_of (SwSheetSample *sample)
{
  GError *error = NULL;
  SwSpace *space = sw_space_new (sample->context.deck, sample->context.rules, &error);
  g_assert_no_error (error);
  return space;
}

/* Void 1 of bay A: soffit 2843 as measured, crown 250 above, topping 75 more; less the level line at 1000. */
static void
test_void_section (SwSheetSample *sample, gconstpointer unused)
{
  GError *error = NULL;
  g_autoptr (SwSpace) space = space_of (sample);
  SwSheetContext context = sample->context;
  const SwSheetInfo *info = sw_sheets_find ("void-section");
  SwSheetArgs args = { .record = sw_job_find (sw_sheet_job (&context), "bay A")->id, .void_number = 1, .along = 2000 };
  g_assert_null (sw_sheet_draw (&context, info, &args, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "bodies");
  context.space = space;
  g_autoptr (SwSheet) sheet = sw_sheet_draw (&context, info, &args, &error);
  g_assert_no_error (error);
  g_autofree char *svg = svg_of (sheet, 0);
  static const char *const words[] = { "+1843 soffit", "+2093 crown", "+2168 top of slab", "void 1", "R3", "plate 1 + 500" };
  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    assert_has (svg, words[i]);
  const SwSheetArgs wrong[] = { { .record = args.record, .void_number = 99, .along = -1 }, { .record = args.record, .void_number = 1, .along = 99000 }, { .void_number = 1, .along = -1 } };
  for (guint i = 0; i < G_N_ELEMENTS (wrong); i++)
    {
      g_assert_null (sw_sheet_draw (&context, info, &wrong[i], &error));
      sw_assert_error (error, SW_ERROR_NOT_FOUND, "needs a void");
    }
}

/* Void 1 of bay A is 250 deep, R3 hangs in it. A 110 pipe with its socket of 128 and 20 over that runs 6.1 m at 1:60, under a WC's
 * bend (axis 130 below the crown) 3.4 m. Source: SITE.md 12, derived. Of 1 the side wants 10, of 1 and the run 25. */
static void
test_void_room (SwSheetSample *sample, gconstpointer unused)
{
  GError *error = NULL;
  g_autoptr (SwSpace) space = space_of (sample);
  SwSheetContext context = sample->context;
  const SwSheetInfo *info = sw_sheets_find ("void-room");
  SwSheetArgs args = { .record = sw_job_find (sw_sheet_job (&context), "bay A")->id, .void_number = 1, .along = -1, .tubes = "110, 2x25" };
  context.space = space;
  g_autoptr (SwSheet) sheet = sw_sheet_draw (&context, info, &args, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (sw_sheet_n_pages (sheet), ==, 2);
  g_autofree char *section = svg_of (sheet, 0), *falls = svg_of (sheet, 1);
  static const char *const words[] = { ">R3<", ">1: ⌀110<", ">10<", ">25<", ">500<", ">400<", ">250<", ": fits" }, *const runs[] = { ">6.1<", ">3.4<", ">1:60<", "110, socket 128: 102 mm" };
  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    assert_has (section, words[i]);
  for (guint i = 0; i < G_N_ELEMENTS (runs); i++)
    assert_has (falls, runs[i]);
  args.tubes = NULL;
  g_autoptr (SwSheet) widest = sw_sheet_draw (&context, info, &args, &error);
  g_assert_no_error (error);
  g_autofree char *first = svg_of (widest, 0);
  assert_has (first, "Widest tube");
  args.tubes = "3x0";
  g_assert_null (sw_sheet_draw (&context, info, &args, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "3x0");
  args.void_number = 99;
  g_assert_null (sw_sheet_draw (&context, info, &args, &error));
  sw_assert_error (error, SW_ERROR_NOT_FOUND, "needs a void");
}

/* Two sleeves, a page each; S1 is asked, S2 allowed with a reference. The rib of 100 keeps 2 mm free of bars (100 - 2 (25 +
 * 8 + 16)); a hole of a quarter of 325 is what is often asked. */
static void
test_sleeves (SwSheetSample *sample, gconstpointer unused)
{
  GError *error = NULL;
  g_autoptr (SwSpace) space = space_of (sample);
  SwSheetContext context = sample->context;
  context.space = space;
  const SwSheetInfo *info = sw_sheets_find ("sleeve-questions");
  g_autoptr (SwSheet) all = sw_sheet_draw (&context, info, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (sw_sheet_n_pages (all), ==, 2);
  g_autofree char *first = svg_of (all, 0), *second = svg_of (all, 1);
  static const char *const words[] = { "S1", "2 mm", "81 mm", "650 mm", "2026-01-12", "allowed with conditions", "Signature", "no permission" };
  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    assert_has (first, words[i]);
  assert_has (second, "E-9");
  SwSheetArgs args = { .record = sw_job_find (sw_sheet_job (&context), "S2")->id, .along = -1 }, wrong = { .record = sw_job_find (sw_sheet_job (&context), "R1")->id, .along = -1 };
  g_autoptr (SwSheet) one = sw_sheet_draw (&context, info, &args, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (sw_sheet_n_pages (one), ==, 1);
  g_assert_null (sw_sheet_draw (&context, info, &wrong, &error));
  sw_assert_error (error, SW_ERROR_NOT_FOUND, "needs a sleeve");
}

/* A page a room with both sides; the papers' own job has a ceiling for every closed room. */
static void
test_papers (SwSheetSample *sample, gconstpointer unused)
{
  GError *error = NULL;
  SwJob *job = sw_sheet_job (&sample->context);
  g_autoptr (SwPapers) papers = sw_papers_new (job, sample->context.rules, TRUE, NULL, &error);
  g_assert_no_error (error);
  const SwSheetContext *context = sw_papers_context (papers);
  g_assert_cmpuint (sw_job_count (job, SW_TABLE_LAYOUT), ==, 0);
  g_assert_cmpuint (context->n_laid_here, ==, 3);
  g_assert_cmpuint (sw_job_count (sw_sheet_job (context), SW_TABLE_LAYOUT), ==, 3);
  g_assert_nonnull (context->snags);
  g_autoptr (SwSheet) pairs = sw_sheet_draw (context, sw_sheets_find ("finish-pairs"), NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (sw_sheet_n_pages (pairs), ==, 4);
  g_autofree char *pair = svg_of (pairs, 0);
  assert_has (pair, "INVENTED");
  assert_has (pair, "Boards on brandering, 1:10");
  g_autoptr (SwSheet) battens = sw_sheet_draw (context, sw_sheets_find ("brandering-plan"), NULL, &error);
  g_assert_no_error (error);
  g_autofree char *plan = svg_of (battens, 0);
  assert_has (plan, "3 ceilings were laid out for this print");
  g_autoptr (SwSheet) boards = sw_sheet_draw (context, sw_sheets_find ("board-plan"), NULL, &error);
  g_assert_no_error (error);
  g_autofree char *list = svg_of (boards, sw_sheet_n_pages (boards) - 1);
  assert_has (list, "Pieces");
  assert_has (list, "Consulting room");
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_cancellable_cancel (cancellable);
  g_assert_null (sw_papers_new (job, sample->context.rules, FALSE, cancellable, &error));
  sw_assert_error (error, SW_ERROR_CANCELLED, "");
}

/* The way back along a row (unit, to its wall) from a place in a rectangle: what each pair of sides lets through. */
static double
back_in_box (SwBox room, SwPoint at, SwPoint row)
{
  double x = row.x > 1e-9 ? (at.x - room.low.x) / row.x : row.x < -1e-9 ? (at.x - room.high.x) / row.x : INFINITY;
  double y = row.y > 1e-9 ? (at.y - room.low.y) / row.y : row.y < -1e-9 ? (at.y - room.high.y) / row.y : INFINITY;
  return fmin (x, y);
}

/* The way in which the brandering plan reads the room's battens: to the left of the way in which they run. */
static SwPoint
batten_reading (const SwLayout *layout)
{
  for (guint i = 0; i < layout->members.n; i++)
    {
      const SwMember *member = &SW_LIST_AT (layout->members, SwMember, i);
      double length = sw_point_distance (member->from, member->to);
      if (member->kind == SW_MEMBER_BATTEN && length > 0)
        return (SwPoint){ (member->from.y - member->to.y) / length, (member->to.x - member->from.x) / length };
    }
  return (SwPoint){ 0, 0 };
}

/* Whether the words stand within a joint's length of it on a page, along it. */
static gboolean
stands_along (const SwDisplay *page, SwPoint from, SwPoint to, const char *words)
{
  g_autoptr (GArray) texts = sw_display_texts (page);
  double length = sw_point_distance (from, to);
  for (guint i = 0; i < texts->len; i++)
    {
      const SwDisplayText *text = &g_array_index (texts, SwDisplayText, i);
      if (strcmp (text->text, words) == 0 && fabs (sw_point_dot (text->direction, sw_point_sub (to, from))) > 0.99 * length
          && sw_point_distance (text->at, sw_point_lerp (from, to, 0.5)) < length / 2 + 8)
        return TRUE;
    }
  return FALSE;
}

/* Every end joint of a rectangular room: how many there are. `page` is seen looking up at 1:50. */
static guint
assert_ends (const SwJob *job, const SwSheet *sheet, const SwLayout *layout)
{
  const SwRoom *room = (const SwRoom *) sw_job_get (job, layout->room);
  const SwDisplay *page = sw_sheet_pages (sheet)[0].display;
  SwBox box = sw_record_box (&room->record), laid = SW_BOX_EMPTY, drawn = sw_display_group_box (page, (guint) find_group (sheet, SW_TABLE_LAYOUT, layout->record.id, 0));
  guint n = 0;
  g_assert_cmpuint (room->outline.n, ==, 4);
  for (guint i = 0; i < layout->corners.n; i++)
    laid = sw_box_add (laid, SW_LIST_AT (layout->corners, SwCorner, i).at);
  for (guint i = 0; i < layout->joints.n; i++)
    {
      const SwJoint *joint = &SW_LIST_AT (layout->joints, SwJoint, i);
      SwPoint ends[2] = { joint->from, joint->to }, way = sw_point_sub (joint->to, joint->from), row = { way.y, -way.x };
      if (joint->kind != SW_JOINT_END)
        continue;
      row = sw_point_scale (row, (fabs (row.x) > 1 ? row.x < 0 : row.y < 0) ? -1 / sw_point_length (way) : 1 / sw_point_length (way));
      if (sw_point_dot (row, batten_reading (layout)) < -0.5) /* both on one tape */
        row = sw_point_scale (row, -1);
      for (guint k = 0; k < 2; k++)
        ends[k] = (SwPoint){ drawn.high.x - (ends[k].x - laid.low.x) / 50, drawn.low.y + (ends[k].y - laid.low.y) / 50 };
      char words[SW_LENGTH_BUF];
      sw_length_write (back_in_box (box, sw_point_lerp (joint->from, joint->to, 0.5), row), sw_job_lengths (job), SW_LENGTH_DIM, 0, words);
      n++;
      if (stands_along (page, ends[0], ends[1], words))
        continue;
      g_test_message ("%s: \"%s\" does not stand beside its joint at %.0f, %.0f", room->record.tag, words, joint->from.x, joint->from.y);
      g_test_fail ();
    }
  return n;
}

/* Expected: each joint's place in its room's rectangle, as a tape from the wall that battens are read from does it. Rows run along x in bay A, in the turned
 * bay B along y; then, in feet, also those of a room whose boards are turned, and slanting ones. */
static void
test_board_ends (SwSheetSample *sample, gconstpointer unused)
{
  SwJob *job = sw_sheet_job (&sample->context);
  static const double directions[] = { 90, 90, 60, 120 };
  for (guint round = 0; round < G_N_ELEMENTS (directions); round++)
    {
      GError *error = NULL;
      ((SwJobInfo *) sw_job_info (job))->units = round == 1 ? SW_LENGTHS_FT_IN : SW_LENGTHS_MM;
      ((SwRoom *) sw_job_find (job, "room 3"))->boards_turned = round == 1;
      ((SwBay *) sw_job_find (job, "bay B"))->direction = directions[round];
      g_autoptr (SwPapers) papers = sw_papers_new (job, sample->context.rules, FALSE, NULL, &error);
      g_assert_no_error (error);
      const SwSheetContext *context = sw_papers_context (papers);
      g_autoptr (SwSheet) sheet = sw_sheet_draw (context, sw_sheets_find ("board-plan"), NULL, &error);
      g_assert_no_error (error);
      const SwRecord *record;
      guint n = 0, layouts = 0;
      for (SwJobIter i = sw_job_iter (sw_sheet_job (context), SW_TABLE_LAYOUT); (record = sw_job_iter_next (&i)) != NULL; layouts++)
        n += assert_ends (sw_sheet_job (context), sheet, (const SwLayout *) record);
      g_assert_cmpuint (layouts, ==, 3);
      g_assert_cmpuint (n, >=, 6);
      g_autofree char *svg = svg_of (sheet, 0);
      assert_has (svg, "beside end joints");
    }
}

static void
test_drop_ins (SwSheetSample *sample, gconstpointer unused)
{
  g_autoptr (SwSheet) sheet = draw (sample, "drop-in-plan", NULL);
  g_autofree char *svg = svg_of (sheet, 0);
  g_assert_nonnull (strstr (svg, "STOP: move 10"));
  g_assert_nonnull (strstr (svg, "A + 3000"));
}

static void
test_snags (SwSheetSample *sample, gconstpointer unused)
{
  GError *error = NULL;
  SwSheetContext context = sample->context;
  context.space = sw_space_new (context.deck, context.rules, &error);
  g_assert_no_error (error);
  context.snags = sw_checks_run (context.space, NULL, NULL, NULL, NULL, &error);
  g_assert_no_error (error);
  g_autoptr (SwSheet) sheet = sw_sheet_draw (&context, sw_sheets_find ("snag-plan"), NULL, &error);
  g_assert_no_error (error);
  g_autoptr (GString) all = g_string_new (NULL);
  for (guint page = 0; page < sw_sheet_n_pages (sheet); page++)
    {
      g_autofree char *svg = svg_of (sheet, page);
      g_string_append (all, svg);
    }
  static const char letters[] = "SFN";
  for (guint i = 0; i < sw_snags_n (context.snags); i++)
    {
      g_autofree char *number = g_strdup_printf (">%c%u<", letters[sw_snags_get (context.snags, i)->severity], i + 1);
      const char *first = strstr (all->str, number);
      g_assert_nonnull (first); /* on the plan … */
      g_assert_true (first == NULL || strstr (first + 1, number) != NULL); /* … and in the list */
    }
  sw_snags_unref (context.snags);
  sw_space_unref (context.space);
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
#define ADD(name, function) g_test_add ("/sheets/sheet/" name, SwSheetSample, NULL, sw_sheet_sample_open, function, sw_sheet_sample_close)
  ADD ("all", test_all);
  ADD ("scale", test_scale);
  ADD ("looking", test_looking);
  ADD ("words", test_words);
  ADD ("changed-rules", test_changed_rules);
  ADD ("long-section", test_long_section);
  ADD ("void-section", test_void_section);
  ADD ("void-room", test_void_room);
  ADD ("sleeves", test_sleeves);
  ADD ("papers", test_papers);
  ADD ("board-ends", test_board_ends);
  ADD ("drop-ins", test_drop_ins);
  ADD ("snags", test_snags);
  return g_test_run ();
}
