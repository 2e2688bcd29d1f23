/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "sheets/cut_draw.h"

/* Cutting alone: two lists as they are typed or pasted, made into a task and cut in the background. */

typedef struct
{
  gboolean flat;             /* rectangles from sheets; else lengths */
  const char *items, *stock; /* as typed */
  const char *kerf, *trim, *keep; /* mm (keep: the least offcut that is kept for later), for a stock list without such columns of its own; "" for none */
  guint effort;
} SwCutLists;

/* A list whose first row names columns is taken as `soffit cut` takes its files; else its cells stand in the order of
 * sw_cut_lists_columns. Cells are parted by tabs, else semicolons, else commas. The same reader as the command's. SW_ERROR_INVALID says
 * list, line, character and what is wrong, or that a list is empty. */
SwCutTask *sw_cut_lists_read (const SwCutLists *lists, GError **error);
/* "length, copies, mark": for people, untranslated. */
const char *sw_cut_lists_columns (gboolean flat, gboolean stock);
/* A list to begin with, untranslated; `flat` and `stock` as above. */
const char *sw_cut_lists_example (gboolean flat, gboolean stock);
/* One of the lists has still to be given. */
gboolean sw_cut_lists_wait (const SwCutLists *lists);

typedef struct
{
  SwCutTask *task; /* of the plan */
  SwCutPlan *plan; /* NULL: `fault` says why */
  GStrv sentences, bought; /* what it takes and whether that is the least; "4 × 6000" */
  SwCutPages *pages;       /* drawn */
  GError *fault;
} SwCutAnswer;

typedef struct _SwCutter SwCutter;
/* On the main thread, only for what was asked for last; the answer is the cutter's until the next one. */
typedef void (*SwCutterDone) (const SwCutAnswer *answer, gpointer data);
SwCutter *sw_cutter_new (SwCutterDone done, gpointer data);
/* Returns at once; nothing is handed over any more. */
void sw_cutter_free (SwCutter *cutter);
/* The lists are copied. */
void sw_cutter_ask (SwCutter *cutter, const SwCutLists *lists);
/* The answer to what was asked for last comes at once, with the best plan so far; with SW_ERROR_CANCELLED where there is none yet. */
void sw_cutter_stop (SwCutter *cutter);
