/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "cli/cli.h"
#include "drawing/page.h"

/* Writes pages to `to`, or to standard output when it is NULL or "-". A PDF holds all of them; of the other formats each page is a
 * file (FILE-1, FILE-2 …), so that only one page can go to standard output. Says what went wrong. SW_CLI_GOOD or SW_CLI_FAILED. */
int sw_cli_put_pages (const SwSheetPage *pages, guint n, SwPageFormat format, const char *to);
