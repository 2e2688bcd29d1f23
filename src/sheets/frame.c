/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The frame of a page, its title block and the column of legend, key plan and notes. The column is filled from both ends:
 * what would not fit between them any more (first the key plan, then the tail of the legend) is left out, so that nothing
 * ever overlaps. */
#include "base/number.h"
#include "drawing/table.h"
#include "rules/listing.h"
#include "sheets/schedule_rules.h"
#include "sheets/sheet_parts.h"
#include <string.h>

#define PAD 3.0
#define SIGN_MM 15.0   /* to tick and sign by hand */
#define KEY_MM 38.0    /* greatest height of the key plan, and its least */
#define KEY_LEAST_MM 12.0
#define BAR_MM 14.0    /* height of the scale bar with its words */
#define LOOKING_MM 28.0 /* width of the mark that says from where one looks */
#define LIST_LEAST_MM  45.0 /* what a list needs to begin below another: its heads and some rows */
#define LISTS_APART_MM 6.0
#define MOST_CHANGES 4 /* changed rule values that are named */

static SwBox
column_box (const SwPage *page)
{
  SwBox frame = sw_page_frame (page);
  return (SwBox){ { frame.high.x - SW_SHEET_COLUMN_MM, frame.low.y }, frame.high };
}

SwBox
sw_sheet_area (const SwPage *page)
{
  SwBox frame = sw_page_frame (page);
  return (SwBox){ frame.low, { frame.high.x - SW_SHEET_COLUMN_MM, frame.high.y } };
}

char *
sw_sheet_level_text (const SwSheetContext *context, double z)
{
  double level = sw_deck_z_to_floor (context->deck, z) - sw_job_info (sw_sheet_job (context))->level_line;
  g_autofree char *text = sw_sheet_length (context, level, SW_LENGTH_DIM), *none = sw_sheet_length (context, 0, SW_LENGTH_DIM);
  return g_strconcat (text[0] == '-' || strcmp (text, none) == 0 ? "" : "+", text, NULL);
}

SwPen
sw_sheet_pen (const SwSheetMaker *maker, SwDisplay *display, double unit)
{
  SwPen pen = sw_pen_new (display, maker->meter, unit);
  pen.lengths = sw_job_lengths (sw_sheet_job (maker->context));
  return pen;
}

char *
sw_sheet_length (const SwSheetContext *context, double mm, SwLengthStyle style)
{
  char text[SW_LENGTH_BUF];
  return g_strdup (isfinite (mm) ? sw_length_write (mm, sw_job_lengths (sw_sheet_job (context)), style, 0, text) : "");
}

const char *
sw_sheet_units_word (const SwSheetContext *context)
{
  return sw_job_lengths (sw_sheet_job (context)) == SW_LENGTHS_FT_IN ? _("feet and inches") : _("mm");
}

char *
sw_sheet_length_head (const SwSheetContext *context, const char *title)
{
  return g_strdup_printf ("%s (%s)", title, sw_lengths_symbol (sw_job_lengths (sw_sheet_job (context))));
}

static void
draft_free (gpointer data)
{
  SwSheetDraft *draft = data;
  sw_display_unref (draft->display);
  g_free (draft);
}

SwSheetDraft *
sw_sheet_begin_page (SwSheetMaker *maker, double scale)
{
  SwSheetDraft *draft = g_new0 (SwSheetDraft, 1);
  draft->display = sw_display_new ();
  draft->pen = sw_sheet_pen (maker, draft->display, 1);
  draft->scale = scale;
  if (!maker->kind->bare)
    sw_page_add_frame (draft->display, &maker->page);
  if (maker->pages == NULL)
    maker->pages = g_ptr_array_new_with_free_func (draft_free);
  g_ptr_array_add (maker->pages, draft);
  return draft;
}

/* The title block. */

typedef struct
{
  char *scale, *page;
} TitleTexts;

static TitleTexts
title_texts (const SwSheetMaker *maker, const SwSheetDraft *draft, guint number)
{
  char digits[SW_NUMBER_BUF];
  TitleTexts texts = { draft->scale > 0 ? g_strdup_printf ("1:%s", sw_number_write (draft->scale, digits)) : g_strdup (_("not to scale")),
                       g_strdup_printf (_("%u of %u"), number, maker->pages->len) };
  return texts;
}

static SwBox
add_title_block (const SwSheetMaker *maker, const SwSheetDraft *draft, guint number)
{
  const SwJobInfo *info = sw_job_info (sw_sheet_job (maker->context));
  TitleTexts texts = title_texts (maker, draft, number);
  const SwCell job[] = { { _("Job"), info->name, 3 }, { _("No."), info->number, 1 } };
  const SwCell title[] = { { _("Drawing"), maker->title, 1 } };
  const SwCell numbers[] = { { _("Sheet no."), maker->info->code, 1 }, { _("Page"), texts.page, 1 }, { _("Revision"), info->revision, 1 } };
  const SwCell scale[] = { { _("Scale"), texts.scale, 1.2 }, { _("Paper"), sw_paper_name (maker->page.paper), 0.7 }, { _("Date"), maker->context->date, 1.1 } };
  const SwCell people[] = { { _("Prepared by"), info->prepared_by, 1 }, { _("Rule set"), sw_rules_title (maker->context->rules), 1 } };
  const SwCell sign[] = { { _("Checked on site"), NULL, 1 }, { _("Signature, date"), NULL, 1.6 } };
  const SwCellRow rows[] = { { job, 2 }, { title, 1 }, { numbers, 3 }, { scale, 3 }, { people, 2 }, { sign, 2, SIGN_MM } };
  SwBox frame = sw_page_frame (&maker->page);
  sw_display_begin_group (draft->display, &(SwDisplayGroup){ .id = "title-block", .class_name = "title-block" });
  SwBox box = sw_table_add_title_block (&draft->pen, (SwPoint){ frame.high.x, frame.low.y }, SW_SHEET_COLUMN_MM, rows, G_N_ELEMENTS (rows));
  /* The box to tick. */
  SwStroke line = sw_pen_stroke (&draft->pen, 0.35, SW_DASH_SOLID);
  SwPoint tick = { box.low.x + 4, box.low.y + 3 };
  sw_display_add_box (draft->display, (SwBox){ tick, { tick.x + 6, tick.y + 6 } }, NULL, &line);
  sw_display_end (draft->display);
  g_free (texts.scale);
  g_free (texts.page);
  return box;
}

/* Where the title block begins: its rows are as high as the drawing layer makes them. */
static double
title_block_top (const SwSheetMaker *maker)
{
  g_autoptr (SwDisplay) scratch = sw_display_new ();
  SwSheetDraft draft = { scratch, sw_sheet_pen (maker, scratch, 1), 0 };
  return add_title_block (maker, &draft, 1).high.y;
}

void
sw_sheet_finish (SwSheetMaker *maker)
{
  for (guint i = 0; i < maker->pages->len; i++)
    {
      SwSheetDraft *draft = g_ptr_array_index (maker->pages, i);
      if (!maker->kind->bare)
        add_title_block (maker, draft, i + 1);
      sw_display_seal (draft->display);
    }
}

/* Notes that every sheet carries. */

static char *
level_note (const SwSheetContext *context)
{
  const SwJobInfo *info = sw_job_info (sw_sheet_job (context));
  SwLengths lengths = sw_job_lengths (sw_sheet_job (context));
  char line[SW_LENGTH_BUF], floor[SW_LENGTH_BUF];
  g_autofree char *datum = NULL;
  sw_length_write (info->level_line, lengths, SW_LENGTH_BARE, 0, line);
  sw_length_write_far (info->floor_level, lengths, 3, floor);
  if (*info->datum_name != '\0')
    datum = g_strdup_printf (_(" Finished floor is %s above %s."), floor, info->datum_name);
  return g_strdup_printf (_("Levels in %s from the line %s above finished floor.%s"), sw_sheet_units_word (context), line, datum != NULL ? datum : "");
}

static char *
rules_note (const SwSheetContext *context)
{
  g_autoptr (GPtrArray) changed = sw_rules_entries (context->rules, TRUE);
  if (changed->len == 0)
    return g_strdup_printf (_("Rule set: %s, no values changed."), sw_rules_title (context->rules));
  g_autoptr (GString) text = g_string_new (NULL);
  g_string_printf (text, g_dngettext (GETTEXT_PACKAGE, "Rule set: %s, %u value CHANGED by the user:", "Rule set: %s, %u values CHANGED by the user:", changed->len),
                   sw_rules_title (context->rules), changed->len);
  for (guint i = 0; i < changed->len && i < MOST_CHANGES; i++)
    {
      const SwRuleEntry *entry = g_ptr_array_index (changed, i);
      g_string_append_printf (text, " %s = %s;", entry->answer.rule_id, entry->text);
    }
  if (changed->len > MOST_CHANGES)
    g_string_append (text, " …");
  return g_string_free (g_steal_pointer (&text), FALSE);
}

/* All notes as one list of paragraphs. */
static GStrv
all_notes (const SwSheetMaker *maker, const char *const *own)
{
  GPtrArray *notes = g_ptr_array_new ();
  for (guint i = 0; own != NULL && own[i] != NULL; i++)
    g_ptr_array_add (notes, g_strdup (own[i]));
  g_ptr_array_add (notes, level_note (maker->context));
  g_ptr_array_add (notes, rules_note (maker->context));
  g_ptr_array_add (notes, g_strdup (_("Figures are limits, not advice. Local codes, the structural engineer and the licensed trades decide. Measure on site before cutting.")));
  g_ptr_array_add (notes, NULL);
  return (GStrv) g_ptr_array_free (notes, FALSE);
}

static double
notes_height (const SwPen *pen, const GStrv notes, double width)
{
  double height = 0;
  g_autoptr (SwDisplay) scratch = sw_display_new ();
  SwPen dry = sw_pen_new (scratch, pen->meter, 1);
  for (guint i = 0; notes[i] != NULL; i++)
    height += 1.2 - sw_paragraph_add (&dry, (SwPoint){ 0, 0 }, width, notes[i]);
  return height;
}

/* The key plan: outlines of bays and rooms, and what this page shows. */

static void
add_outline (const SwSheetDraft *draft, const SwList *outline, SwTransform to_page, const SwStroke *stroke)
{
  for (guint i = 0; i < outline->n; i++)
    sw_display_add_line (draft->display, sw_transform_point (to_page, SW_LIST_AT (*outline, SwPoint, i)),
                         sw_transform_point (to_page, SW_LIST_AT (*outline, SwPoint, (i + 1) % outline->n)), stroke);
}

static SwBox
deck_box (const SwJob *job)
{
  static const SwTable tables[] = { SW_TABLE_BAY, SW_TABLE_ROOM };
  SwBox box = SW_BOX_EMPTY;
  const SwRecord *record;
  for (guint t = 0; t < G_N_ELEMENTS (tables); t++)
    for (SwJobIter i = sw_job_iter (job, tables[t]); (record = sw_job_iter_next (&i)) != NULL;)
      box = sw_box_union (box, sw_record_box (record));
  return box;
}

static void
add_key_plan (const SwSheetMaker *maker, const SwSheetDraft *draft, SwBox space, const SwSheetColumn *column)
{
  static const SwStroke bay = { .role = SW_ROLE_INK, .width = 0.35 }, room = { .role = SW_ROLE_INK, .width = 0.13 };
  static const SwStroke edge = { .role = SW_ROLE_INK, .width = 0.7 };
  static const SwFill here = { .role = SW_ROLE_INK, .hatching = SW_HATCHING_LINES };
  SwJob *job = sw_sheet_job (maker->context);
  SwBox box = deck_box (job);
  const SwRecord *record;
  if (sw_box_is_empty (box))
    return;
  double scale = fmin ((space.high.x - space.low.x) / fmax (box.high.x - box.low.x, 1), (space.high.y - space.low.y) / fmax (box.high.y - box.low.y, 1));
  SwTransform to_page = sw_transform_view (sw_point_lerp (box.low, box.high, 0.5), sw_point_lerp (space.low, space.high, 0.5), scale, 0, column->mirrored);
  SwBox shown = { { fmax (column->here.low.x, box.low.x), fmax (column->here.low.y, box.low.y) },
                  { fmin (column->here.high.x, box.high.x), fmin (column->here.high.y, box.high.y) } };
  sw_display_begin_group (draft->display, &(SwDisplayGroup){ .id = "key-plan", .class_name = "key-plan" });
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_ROOM); (record = sw_job_iter_next (&i)) != NULL;)
    add_outline (draft, &((const SwRoom *) record)->outline, to_page, &room);
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_BAY); (record = sw_job_iter_next (&i)) != NULL;)
    add_outline (draft, &((const SwBay *) record)->outline, to_page, &bay);
  if (!sw_box_is_empty (shown))
    sw_display_add_box (draft->display, sw_transform_box (to_page, shown), &here, &edge);
  sw_display_end (draft->display);
}

/* How many legend entries fit above `bottom`, by the height that they take. */
static guint
legend_that_fits (const SwSheetMaker *maker, const SwSheetColumn *column, double height)
{
  guint n = column->n_legend;
  for (; n > 0; n--)
    {
      g_autoptr (SwDisplay) scratch = sw_display_new ();
      SwPen pen = sw_sheet_pen (maker, scratch, 1);
      SwBox box = sw_furniture_add_legend (&pen, (SwPoint){ 0, 0 }, _("Legend"), column->legend, n);
      if (box.high.y - box.low.y <= height)
        break;
    }
  return n;
}

static double
add_legend (const SwSheetMaker *maker, const SwSheetDraft *draft, SwBox box, const SwSheetColumn *column)
{
  guint n = legend_that_fits (maker, column, box.high.y - box.low.y);
  if (n == 0)
    return box.high.y;
  sw_display_begin_group (draft->display, &(SwDisplayGroup){ .id = "legend", .class_name = "legend" });
  SwBox used = sw_furniture_add_legend (&draft->pen, (SwPoint){ box.low.x, box.high.y }, _("Legend"), column->legend, n);
  sw_display_end (draft->display);
  return used.low.y - PAD;
}

static double
add_notes (const SwSheetDraft *draft, SwBox box, double bottom, const GStrv notes)
{
  double width = box.high.x - box.low.x, top = bottom + notes_height (&draft->pen, notes, width), y = top;
  sw_display_begin_group (draft->display, &(SwDisplayGroup){ .id = "notes", .class_name = "notes" });
  for (guint i = 0; notes[i] != NULL; i++)
    y = sw_paragraph_add (&draft->pen, (SwPoint){ box.low.x, y }, width, notes[i]) - 1.2;
  sw_display_end (draft->display);
  return top + PAD;
}

/* Scale bar and the mark that says from where one looks, side by side. */
static double
add_marks (const SwSheetDraft *draft, SwBox box, double bottom, const SwSheetColumn *column)
{
  const SwPen *pen = &draft->pen;
  if (draft->scale > 0)
    {
      g_autofree char *words = g_strdup_printf (_("Scale 1:%.0f"), draft->scale);
      sw_furniture_add_scale_bar (pen, (SwPoint){ box.low.x + 2, bottom + 5 }, draft->scale, 50, words);
    }
  if (column->has_looking)
    sw_furniture_add_looking (pen, (SwPoint){ box.high.x - 14, bottom + 12 }, column->up, column->up ? _("looking up") : _("looking down"));
  return bottom + (column->has_looking ? 22 : draft->scale > 0 ? BAR_MM : 0);
}

void
sw_sheet_add_column (const SwSheetMaker *maker, SwSheetDraft *draft, const SwSheetColumn *column)
{
  SwBox box = column_box (&maker->page);
  SwStroke line = sw_pen_stroke (&draft->pen, 0.35, SW_DASH_SOLID);
  g_auto (GStrv) notes = all_notes (maker, column->notes);
  sw_display_add_line (draft->display, box.low, (SwPoint){ box.low.x, box.high.y }, &line);
  box.low.x += PAD;
  box.high.x -= PAD;
  double bottom = title_block_top (maker) + PAD;
  double foot = add_notes (draft, box, bottom, notes);
  bottom = add_marks (draft, box, foot, column);
  double top = add_legend (maker, draft, (SwBox){ { box.low.x, bottom }, { box.high.x, box.high.y - PAD } }, column), right = box.high.x;
  if (column->has_looking && top - bottom < KEY_LEAST_MM) /* beside the mark there is more height, over the scale bar */
    {
      bottom = foot + BAR_MM;
      right -= LOOKING_MM;
    }
  if (!sw_box_is_empty (column->here) && top - bottom >= KEY_LEAST_MM)
    add_key_plan (maker, draft, (SwBox){ { box.low.x, bottom + 2 }, { right, fmin (top - 2, bottom + KEY_MM) } }, column);
}

static double
widest_word (const SwPen *pen, const char *text, gboolean bold)
{
  g_auto (GStrv) words = g_strsplit_set (text, " \n", -1);
  double widest = 0;
  for (guint i = 0; words[i] != NULL; i++)
    widest = fmax (widest, sw_text_meter_width (pen->meter, words[i], sw_pen_letters (pen), bold));
  return widest;
}

/* The longest words of headings are broken where all would be too wide: no column is wider than `cap`, but for what its cells need. */
static double
capped (double least, double cells, double cap)
{
  return fmax (cells, fmin (least, cap));
}

static double
cap_for (const double *least, const double *cells, guint n, double available)
{
  double low = 0, high = available;
  for (int step = 0; step < 40; step++)
    {
      double middle = (low + high) / 2, total = 0;
      for (guint c = 0; c < n; c++)
        total += capped (least[c], cells[c], middle);
      *(total > available ? &high : &low) = middle;
    }
  return low;
}

/* Widens columns to their widest words, at the cost of those that have room to spare. */
static void
fit_columns (const SwPen *pen, const SwTextList *list, SwListColumn *columns, double available)
{
  g_autofree double *cells = g_new0 (double, list->n_columns), *least = g_new0 (double, list->n_columns);
  double total = 0, spare = 0;
  for (guint c = 0; c < list->n_columns; c++)
    {
      for (guint row = 0; row < list->n_rows; row++)
        cells[c] = fmax (cells[c], widest_word (pen, list->texts[row * list->n_columns + c], FALSE));
      least[c] = fmin (fmax (cells[c], widest_word (pen, columns[c].heading, TRUE)) + 2.2, available / 4);
      cells[c] = fmin (cells[c] + 2.2, available / 4);
    }
  double cap = cap_for (least, cells, list->n_columns, available);
  for (guint c = 0; c < list->n_columns; c++)
    {
      least[c] = capped (least[c], cells[c], cap);
      columns[c].width = fmax (columns[c].width, least[c]);
      total += columns[c].width;
      spare += columns[c].width - least[c];
    }
  for (guint c = 0; c < list->n_columns && spare > 0; c++)
    columns[c].width += (columns[c].width - least[c]) * fmax ((available - total) / spare, -1);
}

/* The last page, when it holds lists and has room for one more, or a new one. */
static SwSheetDraft *
list_page (SwSheetMaker *maker, SwBox area)
{
  const SwSheetColumn column = { .here = SW_BOX_EMPTY };
  SwSheetDraft *last = maker->pages != NULL && maker->pages->len > 0 ? g_ptr_array_index (maker->pages, maker->pages->len - 1) : NULL;
  if (last != NULL && last->n_lists > 0 && last->list_y - area.low.y >= LIST_LEAST_MM)
    return last;
  SwSheetDraft *draft = sw_sheet_begin_page (maker, 0);
  sw_sheet_add_column (maker, draft, &column);
  draft->list_y = area.high.y;
  return draft;
}

/* Below the list, and where there is no room left on a page of its own. */
static void
add_foot (SwSheetMaker *maker, SwSheetDraft *draft, SwBox area, const char *foot)
{
  const SwSheetColumn column = { .here = SW_BOX_EMPTY };
  double width = area.high.x - area.low.x;
  g_autoptr (SwDisplay) scratch = sw_display_new ();
  SwPen trial = sw_sheet_pen (maker, scratch, 1);
  double high = area.high.y - sw_paragraph_add (&trial, (SwPoint){ area.low.x, area.high.y }, width, foot);
  if (draft->list_y - high < area.low.y)
    {
      draft = sw_sheet_begin_page (maker, 0);
      sw_sheet_add_column (maker, draft, &column);
      draft->list_y = area.high.y;
      draft->n_lists = 1;
    }
  g_autofree char *id = draft->n_lists <= 1 ? g_strdup ("rests-on") : g_strdup_printf ("rests-on-%u", draft->n_lists);
  sw_display_begin_group (draft->display, &(SwDisplayGroup){ .id = id, .class_name = "notes" });
  draft->list_y = sw_paragraph_add (&draft->pen, (SwPoint){ area.low.x, draft->list_y }, width, foot) - LISTS_APART_MM;
  sw_display_end (draft->display);
}

void
sw_sheet_add_list_pages (SwSheetMaker *maker, const char *heading, const SwTextList *list, const char *foot)
{
  SwBox area = sw_box_grow (sw_sheet_area (&maker->page), -PAD);
  g_autoptr (SwDisplay) scratch = sw_display_new ();
  SwPen pen = sw_sheet_pen (maker, scratch, 1);
  g_autofree SwListColumn *columns = g_memdup2 (list->columns, list->n_columns * sizeof *columns);
  SwTextList fitted = { columns, list->n_columns, list->texts, list->n_rows };
  fit_columns (&pen, list, columns, area.high.x - area.low.x);
  for (guint first = 0; first < list->n_rows;)
    {
      SwSheetDraft *draft = list_page (maker, area);
      g_autofree char *id = draft->n_lists == 0 ? g_strdup ("list") : g_strdup_printf ("list-%u", draft->n_lists + 1);
      double y = sw_paragraph_add_heading (&draft->pen, (SwPoint){ area.low.x, draft->list_y }, area.high.x - area.low.x, heading) - 1;
      sw_display_begin_group (draft->display, &(SwDisplayGroup){ .id = id, .class_name = "list" });
      first += sw_paragraph_add_list (&draft->pen, (SwPoint){ area.low.x, y }, area.low.y, &fitted, first, &draft->list_y);
      sw_display_end (draft->display);
      draft->n_lists++;
      draft->list_y -= LISTS_APART_MM;
      if (first >= list->n_rows && foot != NULL && *foot != '\0')
        add_foot (maker, draft, area, foot);
    }
}

/* The texts of a schedule's chosen columns, row by row: lengths and areas as the job shows them. */
static GPtrArray *
chosen_texts (const SwSchedule *schedule, guint n, const guint *indexes, const SwJob *job, SwSheetRowTest passes)
{
  GPtrArray *texts = g_ptr_array_new_with_free_func (g_free);
  SwLengths lengths = sw_job_lengths (job);
  for (guint row = 0; row < sw_schedule_n_rows (schedule); row++)
    for (guint i = 0; i < n && (passes == NULL || passes (job, sw_schedule_record (schedule, row))); i++)
      g_ptr_array_add (texts, sw_schedule_text_in (schedule, row, indexes[i], lengths));
  return texts;
}

static guint
column_index (const SwScheduleInfo *info, const char *key)
{
  guint i = 0;
  while (i < info->n_columns && strcmp (info->columns[i].key, key) != 0)
    i++;
  g_assert (i < info->n_columns);
  return i;
}

/* What the shown columns rest on, each number once: "Rests on: …; …". */
static char *
rests_on (const SwScheduleInfo *info, guint n, const guint *indexes, const SwRules *rules, SwLengths lengths)
{
  g_autoptr (GPtrArray) all = sw_schedule_rules (info, G_MAXUINT, rules);
  g_autoptr (GHashTable) said = g_hash_table_new (g_str_hash, g_str_equal);
  GString *text = g_string_new (NULL);
  for (guint i = 0; i < all->len; i++)
    {
      const SwScheduleRule *rule = all->pdata[i];
      gboolean shown = FALSE;
      for (guint c = 0; c < n; c++)
        shown |= indexes[c] == rule->column;
      if (!shown || !g_hash_table_add (said, (gpointer) rule->rule_id))
        continue;
      g_autofree char *line = sw_schedule_rule_text (info, rule, lengths);
      g_string_append_printf (text, "%s%s", text->len > 0 ? "; " : "", line);
    }
  if (text->len > 0)
    {
      g_autofree char *list = g_string_free (text, FALSE);
      return g_strdup_printf (_("Rests on: %s."), list);
    }
  return g_string_free (text, FALSE);
}

static gboolean
is_empty (const SwSchedule *schedule, guint column)
{
  for (guint row = 0; row < sw_schedule_n_rows (schedule); row++)
    {
      g_autofree char *text = sw_schedule_text_in (schedule, row, column, SW_LENGTHS_MM);
      if (text != NULL && *text != '\0')
        return FALSE;
    }
  return TRUE;
}

/* Places of the columns in the schedule and their widths; how many there are. */
static guint
choose_columns (const SwSchedule *schedule, const SwScheduleInfo *info, const SwSheetListColumn *columns, guint n, guint *indexes, double *widths)
{
  guint kept = 0;
  for (guint i = 0; i < n; i++)
    {
      indexes[kept] = column_index (info, columns[i].key);
      widths[kept] = columns[i].width;
      kept += !columns[i].if_any || !is_empty (schedule, indexes[kept]);
    }
  return kept;
}

static void
add_pages (SwSheetMaker *maker, const char *id, const char *heading, const SwSheetListColumn *columns, guint n, SwSheetRowTest passes)
{
  const SwScheduleInfo *info = sw_schedules_find (id);
  g_autoptr (SwSchedule) schedule = sw_schedule_new (maker->context, info);
  g_autofree guint *indexes = g_new0 (guint, n);
  g_autofree SwListColumn *shown = g_new0 (SwListColumn, n);
  g_autofree double *widths = g_new0 (double, n);
  n = choose_columns (schedule, info, columns, n, indexes, widths);
  for (guint i = 0; i < n; i++)
    {
      shown[i] = (SwListColumn){ sw_schedule_heading_in (info, indexes[i], sw_job_lengths (sw_sheet_job (maker->context))), widths[i],
                                 info->columns[indexes[i]].kind == SW_CELL_NUMBER ? SW_ALIGN_RIGHT : SW_ALIGN_LEFT };
    }
  g_autoptr (GPtrArray) texts = chosen_texts (schedule, n, indexes, sw_sheet_job (maker->context), passes);
  SwTextList list = { shown, n, (const char *const *) texts->pdata, texts->len / n };
  g_autofree char *foot = rests_on (info, n, indexes, maker->context->rules, sw_job_lengths (sw_sheet_job (maker->context)));
  sw_sheet_add_list_pages (maker, heading != NULL ? heading : _(info->title), &list, foot);
  for (guint i = 0; i < n; i++)
    g_free ((char *) shown[i].heading);
}

void
sw_sheet_add_schedule_pages (SwSheetMaker *maker, const char *id, const SwSheetListColumn *columns, guint n)
{
  add_pages (maker, id, NULL, columns, n, NULL);
}

void
sw_sheet_add_schedule_part_pages (SwSheetMaker *maker, const char *id, const char *heading, const SwSheetListColumn *columns, guint n)
{
  add_pages (maker, id, heading, columns, n, NULL);
}

void
sw_sheet_add_some_schedule_pages (SwSheetMaker *maker, const char *id, const SwSheetListColumn *columns, guint n, SwSheetRowTest passes)
{
  add_pages (maker, id, NULL, columns, n, passes);
}
