/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "drawing/page.h"
#include "sheets/context.h"

/* Plans on paper: the job's plan to a round scale on A1, with frame, title block, scale bar and cautions. */
typedef struct
{
  const char *id;    /* "electrician": also the name of its file */
  const char *title; /* English, to be translated */
  guint64 layers;    /* of sheets/plan.h */
  gboolean down;     /* looking down, as drop-ins are set out; else looking up */
} SwPlanSheetInfo;

guint sw_plan_sheets_n (void);
const SwPlanSheetInfo *sw_plan_sheets_get (guint i);

/* Sealed; the caller's. *page is filled in, its title borrowed from static text. */
SwDisplay *sw_plan_sheet_draw (const SwSheetContext *context, const SwPlanSheetInfo *info, SwPage *page);
