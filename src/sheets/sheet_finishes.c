/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A page for each room: its figures closed and with the soffit left open, and a section of each. The section of the finish
 * that the room does not have is drawn from a copy of the job in which it has. */
#include "ceiling/layout.h"
#include "estimate/choice.h"
#include "sheets/section.h"
#include "sheets/sheet_plan.h"
#include "base/error.h"
#include "base/number.h"
#include "geometry/outline.h"
#include <string.h>

#define PAD 4.0
#define SECTION_SCALE 10.0
#define SECTION_MM 72.0 /* height of a section's view */

static const char *
unit_text (const SwFigureInfo *info, SwLengths lengths)
{
  return strcmp (info->unit, "mm") == 0 ? sw_lengths_symbol (lengths) : strcmp (info->unit, "m²") == 0 ? sw_lengths_area_symbol (lengths) : info->unit;
}

/* A figure with its word in the user's language; "" when it is not known or the side was not looked at. */
static char *
figure_text (const SwChoice *choice, guint side, guint row, SwLengths lengths)
{
  const SwFigureInfo *info = sw_choice_row (row);
  if (side >= choice->n)
    return g_strdup ("");
  SwFigure figure = sw_choice_figure (choice, side, row);
  char length[SW_LENGTH_BUF], digits[SW_NUMBER_BUF];
  gboolean other = lengths != SW_LENGTHS_MM && info->kind == SW_FIGURE_NUMBER && sw_figure_is_known (info, &figure);
  if (other && strcmp (info->unit, "mm") == 0)
    return g_strdup (sw_length_write (figure.number, lengths, SW_LENGTH_BARE, 0, length));
  if (other && strcmp (info->unit, "m²") == 0)
    return g_strdup (sw_number_write_fixed (figure.number * 1e6 / (SW_MM_PER_FOOT * SW_MM_PER_FOOT), 1, digits));
  char *text = sw_figure_write (info, &figure);
  if (info->kind != SW_FIGURE_WORD || *text == '\0')
    return text;
  char *word = g_strdup (_(text));
  g_free (text);
  return word;
}

/* The least certain rule behind a row; rule_id NULL for none. */
static SwRuleValue
rule_of (const SwChoice *choice, guint row)
{
  SwRuleValue worst = { .rule_id = NULL };
  for (guint side = 0; side < choice->n; side++)
    {
      SwFigure figure = sw_choice_figure (choice, side, row);
      if (figure.rule.rule_id != NULL && (worst.rule_id == NULL || figure.rule.confidence > worst.confidence))
        worst = figure.rule;
    }
  return worst;
}

/* The job with one room finished otherwise, its ceiling laid. */
static SwJob *
with_finish (SwJob *job, SwRules *rules, const SwRoom *room, SwFinish finish)
{
  g_autoptr (SwEdit) edit = sw_edit_new ("");
  SwRoom *other = (SwRoom *) sw_record_copy (&room->record);
  other->finish = (int) finish;
  if (!sw_edit_put (edit, job, &other->record, NULL))
    return NULL;
  const SwLayout *layout = sw_ceiling_layout_of (job, room->record.id);
  if (finish != SW_FINISH_CLOSED && layout != NULL)
    sw_edit_remove (edit, job, layout->record.id);
  SwJob *changed = sw_job_apply (job, edit, TRUE, NULL);
  if (changed == NULL || finish != SW_FINISH_CLOSED || room->finish == SW_FINISH_CLOSED)
    return changed;
  g_autoptr (SwJob) bare = changed;
  g_autoptr (SwDeck) deck = sw_deck_new (bare);
  g_autoptr (SwEdit) lay = sw_edit_new ("");
  g_autoptr (SwCeiling) ceiling = sw_ceiling_of_room (deck, rules, (const SwRoom *) sw_job_get (bare, room->record.id), NULL, NULL);
  if (ceiling != NULL)
    sw_ceiling_store (ceiling, lay, bare, NULL);
  return sw_job_apply (bare, lay, TRUE, NULL);
}

static void
add_section (const SwSheetMaker *maker, const SwSheetDraft *draft, SwBox box, const SwRoom *room, SwFinish finish)
{
  SwPoint at = sw_outline_label_point (room->outline.items, room->outline.n);
  SwRules *rules = maker->context->rules;
  SwSectionCut cut;
  g_autoptr (SwJob) job = with_finish (sw_sheet_job (maker->context), rules, room, finish);
  g_autoptr (SwDeck) deck = job != NULL ? sw_deck_new (job) : NULL;
  g_autoptr (SwSpace) space = deck != NULL ? sw_space_new (deck, rules, NULL) : NULL;
  g_autofree char *heading = g_strdup_printf ("%s, 1:%.0f", _(sw_choice_side_text (finish)), SECTION_SCALE);
  double y = sw_paragraph_add_heading (&draft->pen, (SwPoint){ box.low.x, box.high.y }, box.high.x - box.low.x, heading);
  if (space == NULL || !sw_section_cut_at (deck, at, &cut))
    return;
  g_autoptr (SwDisplay) drawn = sw_display_new ();
  sw_section_draw_across (drawn, space, &cut);
  sw_display_seal (drawn);
  SwBox shown = sw_section_box_across (deck, &cut);
  sw_sheet_add_view (maker, draft, drawn, (SwBox){ box.low, { box.high.x, y } }, (SwPoint){ cut.v, (shown.low.y + shown.high.y) / 2 }, SECTION_SCALE, FALSE, NULL, NULL);
}

static const SwStroke concrete_edge = { .role = SW_ROLE_CONCRETE_EDGE, .width = 0.35 }, steel = { .role = SW_ROLE_STEEL, .width = 0.5 };
static const SwStroke batten_edge = { .role = SW_ROLE_BATTEN, .width = 0.25 }, board_edge = { .role = SW_ROLE_BOARD_EDGE, .width = 0.25 };
static const SwFill concrete = { .role = SW_ROLE_CONCRETE }, batten = { .role = SW_ROLE_BATTEN, .transparency = 0.25 }, board = { .role = SW_ROLE_BOARD };

static GPtrArray *
row_texts (const SwSheetMaker *maker, const SwChoice *choice)
{
  GPtrArray *texts = g_ptr_array_new_with_free_func (g_free);
  SwLengths lengths = sw_job_lengths (sw_sheet_job (maker->context));
  const char *currency = sw_job_info (sw_sheet_job (maker->context))->currency;
  for (guint row = 0; row < sw_choice_n_rows (); row++)
    {
      const SwFigureInfo *info = sw_choice_row (row);
      SwRuleValue rule = rule_of (choice, row);
      g_ptr_array_add (texts, g_strdup (_(info->label)));
      g_ptr_array_add (texts, g_strdup (info->kind == SW_FIGURE_MONEY ? currency : unit_text (info, lengths)));
      for (guint side = 0; side < choice->n; side++)
        g_ptr_array_add (texts, figure_text (choice, side, row, lengths));
      g_ptr_array_add (texts, g_strdup (rule.rule_id != NULL ? _(sw_confidence_label (rule.confidence)) : ""));
    }
  return texts;
}

static double
add_figures (const SwSheetMaker *maker, const SwSheetDraft *draft, SwBox area, const SwChoice *choice)
{
  SwListColumn columns[6] = { { _("What"), 120, SW_ALIGN_LEFT }, { _("Unit"), 16, SW_ALIGN_LEFT } };
  guint n = 2;
  for (guint side = 0; side < choice->n; side++)
    columns[n++] = (SwListColumn){ _(sw_choice_side_text (choice->sides[side].finish)), choice->n > 2 ? 38 : 54, SW_ALIGN_RIGHT };
  columns[n++] = (SwListColumn){ _("Rests on"), 34, SW_ALIGN_LEFT };
  g_autoptr (GPtrArray) texts = row_texts (maker, choice);
  SwTextList list = { columns, n, (const char *const *) texts->pdata, texts->len / n };
  double y;
  sw_paragraph_add_list (&draft->pen, (SwPoint){ area.low.x, area.high.y }, area.low.y, &list, 0, &y);
  for (guint side = 0; side < choice->n; side++)
    if (choice->sides[side].fault != NULL)
      y = sw_paragraph_add (&draft->pen, (SwPoint){ area.low.x, y - 2 }, area.high.x - area.low.x, choice->sides[side].fault);
  return y;
}

static void
draw_room (SwSheetMaker *maker, const SwRoom *room, const SwChoice *choice)
{
  SwSheetDraft *draft = sw_sheet_begin_page (maker, 0);
  SwBox area = sw_box_grow (sw_sheet_area (&maker->page), -PAD);
  const char *notes[] = { _("Prices are those of the job's list, before and after tax as named. A comparison, not an offer."),
                          maker->context->invented_prices ? _("The job has no prices: the INVENTED ones that come with the program were taken.") : NULL, NULL };
  g_autofree char *heading = g_strdup_printf ("%s %s", room->record.tag, room->name);
  const SwLegendEntry legend[] = { { &concrete_edge, &concrete, NULL, _("concrete") }, { &steel, NULL, NULL, _("sheet steel") }, { &batten_edge, &batten, NULL, _("batten") },
                                   { &board_edge, &board, NULL, _("board") } };
  SwSheetColumn column = { .legend = legend, .n_legend = G_N_ELEMENTS (legend), .notes = notes, .here = sw_record_box (&room->record) };
  double top = sw_paragraph_add_heading (&draft->pen, (SwPoint){ area.low.x, area.high.y }, area.high.x - area.low.x, heading) - 1;
  double middle = (area.low.x + area.high.x) / 2, y = add_figures (maker, draft, (SwBox){ area.low, { area.high.x, top } }, choice) - PAD;
  y = fmin (y, area.low.y + SECTION_MM);
  sw_sheet_add_column (maker, draft, &column);
  if (y - area.low.y < SECTION_MM / 2)
    return;
  add_section (maker, draft, (SwBox){ area.low, { middle - PAD / 2, y } }, room, SW_FINISH_CLOSED);
  add_section (maker, draft, (SwBox){ { middle + PAD / 2, area.low.y }, { area.high.x, y } }, room, SW_FINISH_EXPOSED);
}

gboolean
sw_sheet_draw_finishes (SwSheetMaker *maker, GError **error)
{
  g_autoptr (GPtrArray) rooms = sw_sheet_records (sw_sheet_job (maker->context), SW_TABLE_ROOM);
  for (guint i = 0; i < rooms->len; i++)
    {
      const SwRoom *room = g_ptr_array_index (rooms, i);
      g_autoptr (SwChoice) choice = sw_choice_new (maker->context->deck, maker->context->rules, room, FALSE, NULL, error);
      if (choice == NULL)
        return FALSE;
      draw_room (maker, room, choice);
    }
  if (rooms->len > 0)
    return TRUE;
  g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, "the job has no rooms to compare finishes for");
  return FALSE;
}
