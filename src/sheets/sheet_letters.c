/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The plan's own letters become labels: what each stands for says how far it may move. */
#include "sheets/sheet_plan.h"

#define SYMBOL_MM 14.0 /* larger things may be written over */
#define SHARE 0.2      /* bays and rooms of which less is seen are named on another page */

typedef struct
{
  int table;
  SwLabelWay way;
  int rank;
  gboolean needed;
  double least_seen;
} Manner;

/* What has no group are the voids' numbers. */
static const Manner free_manner = { -1, SW_LABEL_FIXED, 0, FALSE, 0 };
static const Manner plate_manner = { SW_TABLE_PLATE, SW_LABEL_FIXED, 8, FALSE, 0 };
static const Manner other_manner = { -1, SW_LABEL_ROUND, 5, TRUE, 0 };
static const Manner manners[] = {
  { SW_TABLE_LAYOUT, SW_LABEL_FIXED, 1, TRUE, 0 },  { SW_TABLE_LIGHT, SW_LABEL_ROUND, 2, TRUE, 0 },  { SW_TABLE_FITTING, SW_LABEL_ROUND, 2, TRUE, 0 },
  { SW_TABLE_DROP_IN, SW_LABEL_ROUND, 2, TRUE, 0 }, { SW_TABLE_SLEEVE, SW_LABEL_ROUND, 2, TRUE, 0 }, { SW_TABLE_DROP, SW_LABEL_ROUND, 2, TRUE, 0 },
  { SW_TABLE_HATCH, SW_LABEL_ROUND, 2, TRUE, 0 },   { SW_TABLE_RUN, SW_LABEL_ALONG, 4, TRUE, 0 },    { SW_TABLE_ROOM, SW_LABEL_INSIDE, 6, TRUE, SHARE },
  { SW_TABLE_WALL, SW_LABEL_ALONG, 5, TRUE, 0 },    { SW_TABLE_BEAM, SW_LABEL_ALONG, 5, TRUE, 0 },   { SW_TABLE_BAY, SW_LABEL_ALONG, 7, TRUE, SHARE },
  { SW_TABLE_BULKHEAD, SW_LABEL_INSIDE, 5, TRUE, 0 },
  { SW_TABLE_MEASURE, SW_LABEL_ROUND, 7, TRUE, 0 },
};

static const Manner *
manner_of (const SwDisplay *drawn, const SwDisplayText *text)
{
  if (text->group < 0)
    return &free_manner;
  SwDisplayKey key = sw_display_group (drawn, (guint) text->group).key;
  if (key.table == SW_TABLE_PLATE || (key.table == SW_TABLE_BAY && key.part > 0))
    return &plate_manner;
  for (guint i = 0; i < G_N_ELEMENTS (manners); i++)
    if (manners[i].table == key.table)
      return &manners[i];
  return &other_manner;
}

static void
block_symbols (const SwSheetPlan *plan, const SwDisplay *drawn)
{
  static const guint32 tables = 1u << SW_TABLE_LIGHT | 1u << SW_TABLE_FITTING | 1u << SW_TABLE_DROP_IN | 1u << SW_TABLE_SLEEVE | 1u << SW_TABLE_DROP
                                | 1u << SW_TABLE_HATCH | 1u << SW_TABLE_COLUMN;
  for (guint i = 0; i < sw_display_n_groups (drawn); i++)
    {
      SwDisplayKey key = sw_display_group (drawn, i).key;
      SwBox box = sw_display_group_box (drawn, i);
      if (key.table > 0 && key.table < SW_N_TABLES && (tables & 1u << key.table) && !sw_box_is_empty (box)
          && fmax (box.high.x - box.low.x, box.high.y - box.low.y) <= SYMBOL_MM * plan->scale)
        sw_labels_block (plan->labels, box);
    }
}

static gboolean
shows (const SwDisplayText *text, double detail)
{
  return detail >= text->least_detail && detail < text->most_detail;
}

void
sw_sheet_plan_take_labels (const SwSheetPlan *plan, const SwDisplay *drawn)
{
  g_autoptr (GArray) texts = sw_display_texts (drawn);
  double detail = SW_PAGE_DETAIL / plan->scale;
  block_symbols (plan, drawn);
  for (guint i = 0; i < texts->len; i++)
    {
      const SwDisplayText *text = &g_array_index (texts, SwDisplayText, i), *next = i + 1 < texts->len ? text + 1 : NULL;
      const Manner *manner = manner_of (drawn, text);
      if (!shows (text, detail))
        continue;
      SwLabel label = { { text->text, NULL }, { text->style }, text->at, manner->way, SW_BOX_EMPTY, manner->rank, manner->needed, text->layer };
      label.least_seen = text->group >= 0 ? manner->least_seen : 0;
      if (text->group >= 0)
        label.around = sw_display_group_box (drawn, (guint) text->group);
      /* A room's name and what stands below it go together. */
      if (manner->table == SW_TABLE_ROOM && next != NULL && next->group == text->group && shows (next, detail))
        {
          label.lines[1] = next->text;
          label.styles[1] = next->style;
          i++;
        }
      sw_labels_add (plan->labels, &label);
    }
}

void
sw_sheet_plan_add_label (const SwSheetPlan *plan, SwPoint at, const char *text, SwColourRole role, int rank)
{
  SwTextStyle style = { .role = role, .height = SW_LETTERS_LEAST_MM, .unit = SW_SIZE_PAPER, .align = SW_ALIGN_MIDDLE, .rise = SW_RISE_MIDDLE };
  SwLabel label = { { text, NULL }, { style }, at, SW_LABEL_ROUND, sw_box_grow ((SwBox){ at, at }, 1.0 * plan->scale), rank, TRUE, SW_LAYER_GRID };
  sw_labels_add (plan->labels, &label);
}

void
sw_sheet_add_view (const SwSheetMaker *maker, const SwSheetDraft *draft, const SwDisplay *drawn, SwBox box, SwPoint centre, double scale,
                   gboolean mirrored, SwSheetViewMark mark, gconstpointer data)
{
  SwTransform to_page = sw_transform_view (centre, sw_point_lerp (box.low, box.high, 0.5), 1 / scale, 0, mirrored);
  SwPen pen = sw_sheet_pen (maker, draft->display, scale);
  SwBox visible = sw_transform_box (sw_transform_invert (to_page), box);
  g_autoptr (SwLabels) labels = sw_labels_new (&pen, visible);
  SwSheetPlan plan = { (SwSheetMaker *) maker, maker->context->deck, draft->display, pen, scale, mirrored, visible, labels };
  sw_display_begin_clip_box (draft->display, box);
  sw_display_begin_transform (draft->display, to_page);
  sw_display_append_paths (draft->display, drawn);
  sw_sheet_plan_take_labels (&plan, drawn);
  if (mark != NULL)
    mark (&plan, data);
  sw_labels_draw (labels);
  sw_display_end (draft->display);
  sw_display_end (draft->display);
}
