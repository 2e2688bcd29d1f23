/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "sheets/context.h"
#include <gio/gio.h>

/* All that sheets and schedules of a job are made from, worked out once: window and command print the same. Rooms whose
 * ceiling was never laid out, or has changed since, are laid out here; the job itself stays as it is, and so do its snags. */
typedef struct _SwPapers SwPapers;

/* Long work: not for the main thread. SW_ERROR_CANCELLED, or what the space's bodies need and the rule set lacks. A room
 * that cannot be laid out stays without a layout. `invented_prices`: the job's prices are none of its own, which is said. */
SwPapers *sw_papers_new (SwJob *job, SwRules *rules, gboolean invented_prices, GCancellable *cancellable, GError **error);
void sw_papers_free (SwPapers *papers);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwPapers, sw_papers_free)

/* Borrowed; without date and options, for the caller to copy and fill in. */
const SwSheetContext *sw_papers_context (const SwPapers *papers);
