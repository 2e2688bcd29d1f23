/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "cli/cli.h"
#include "sheets/context.h"

/* A job opened for sheets and schedules, with all that they are made from. */
typedef struct
{
  SwSheetContext context;
} SwCliExport;

/* FALSE when the job or its rule set cannot be read: it has been said. */
gboolean sw_cli_export_open (SwCliExport *given, const char *path);
void sw_cli_export_clear (SwCliExport *given);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (SwCliExport, sw_cli_export_clear)
