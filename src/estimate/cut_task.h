/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "base/money.h"

/* What is to be cut, and from what: lengths from stock lengths, or rectangles from sheets. Put together by the caller or read from
 * two lists in CSV. */

typedef struct
{
  char *mark;           /* "" for none */
  gint64 length, width; /* in the task's unit; width 0 for a length */
  int copies;
  gboolean may_turn;    /* rectangles: length across the sheet's length */
  int edges;            /* long sides, 0 to 2, that want an edge of the sheet (cut_edges.h) */
  guint line;           /* of the file; 0: none */
} SwCutItem;

typedef struct
{
  char *mark;
  gint64 length, width;            /* as bought */
  gint64 start, end, low, high;    /* trimmed off its ends, and off its long sides */
  SwMoney cost;                    /* of one, when the task is priced */
  int copies;                      /* at hand; 0: as many as wanted */
  gboolean may_turn;               /* FALSE: what is cut from it keeps its direction (grain, pattern) */
  guint line;
} SwCutStock;

typedef struct
{
  gboolean flat;   /* rectangles */
  gboolean priced; /* the stock has costs; else its length or area counts */
  gboolean on_site; /* pieces go between walls: people read the whole mm (or sixteenth of an inch) below, files the size itself */
  int per_mm;      /* units to a mm: 1, 10 or 100 */
  gint64 kerf;     /* what a cut takes */
  gint64 keep;     /* an offcut of that length, and width, is kept for later; 0: none is */
  guint effort;    /* how long the least and its proof are searched for; 1 to begin with */
  GArray *items, *stock; /* SwCutItem, SwCutStock */
  char *items_name; /* of the list that the items were read from, for messages; NULL: none */
} SwCutTask;

SwCutTask *sw_cut_task_new (gboolean flat, int per_mm);
void sw_cut_task_free (SwCutTask *task);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwCutTask, sw_cut_task_free)
/* The mark is copied. */
void sw_cut_task_add_item (SwCutTask *task, const char *mark, gint64 length, gint64 width, int copies, gboolean may_turn);
void sw_cut_task_add_stock (SwCutTask *task, const char *mark, gint64 length, gint64 width, SwMoney cost);

/* A list as text with the name of its file, for messages. */
typedef struct
{
  const char *text;
  gssize length; /* -1: up to the NUL */
  const char *name;
  guint added;   /* lines at its head that stand in no file: they are not counted */
} SwCutSource;

/* Columns in any order, millimetres with at most two decimals:
 *   items  length_mm; width_mm for rectangles; copies (1), mark, turn (yes)
 *   stock  length_mm; width_mm for sheets; cost, copies (as many as wanted), mark, turn (yes), kerf_mm, trim_mm (off all ends
 *          and sides) or trim_start_mm, trim_end_mm, trim_low_mm, trim_high_mm; offcut_mm: the least that is kept for later
 * Empty cells are as if the column were not there. Kerf and least offcut are one for all: the rows that name them agree. SW_ERROR_INVALID says file,
 * line, character, column and what is wrong. */
SwCutTask *sw_cut_task_read (const SwCutSource *items, const SwCutSource *stock, GError **error);

#define SW_CUT_TASK_MOST_MM 100000   /* longest thing */
#define SW_CUT_TASK_MOST_COPIES 100000

/* "2350", "2350.5": a size in mm. Returns `buf`. */
const char *sw_cut_task_mm (const SwCutTask *task, gint64 size, char buf[SW_MONEY_BUF]);
/* "2350" or "2400 × 1200". Free with g_free. */
char *sw_cut_task_size (const SwCutTask *task, gint64 length, gint64 width);
