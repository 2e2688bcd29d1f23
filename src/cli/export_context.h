/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "cli/cli.h"
#include "sheets/papers.h"

/* A job opened for sheets and schedules, with all that they are made from. NULL when the job or its rule set cannot be
 * read: it has been said. The caller's. */
SwPapers *sw_cli_open_papers (const char *path);
