/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "sheets/cut_draw.h"

/* A cutting plan as "text", "csv" (a row a piece, then a row a sum) or "json". Free with g_free. */
char *sw_cli_cut_write (const SwCutPlan *plan, const char *format);
