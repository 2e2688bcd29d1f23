/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "rules/rules.h"
#include "space/deck.h"

/* What sheets and schedules are made from. All borrowed; nothing is changed, nothing is read from the clock or the disk. */
typedef struct
{
  SwDeck *deck; /* with its job */
  SwRules *rules;
} SwSheetContext;

static inline SwJob *sw_sheet_job (const SwSheetContext *context) { return sw_deck_job (context->deck); }

/* The records of a table in the order in which people look for them: by mark, figures in it by value ("R2" before "R10"),
 * then by id. Borrowed records; free the array with g_ptr_array_unref. */
GPtrArray *sw_sheet_records (const SwJob *job, SwTable table);
/* The order of two marks; does not depend on the locale. */
int sw_sheet_mark_compare (const char *a, const char *b);
/* "draw box F3", "W.C. DI1", "switch D4": what a run starts or ends at; "" for 0. Free with g_free. */
char *sw_sheet_end_name (const SwJob *job, SwId id);
/* The word of a choice, in the user's language. Static. */
const char *sw_sheet_word (SwTable table, const char *field, int value);
