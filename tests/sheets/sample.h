/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "sheets/context.h"
#include "support.h"

/* tests/sheets/small-job.json with its deck and the South African rules. */
typedef struct
{
  SwSheetContext context;
} SwSheetSample;

void sw_sheet_sample_open (SwSheetSample *sample, gconstpointer unused);
void sw_sheet_sample_close (SwSheetSample *sample, gconstpointer unused);
