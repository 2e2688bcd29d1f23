/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "job/job.h"
#include "job/edit.h"

/* Records that stand nowhere on the plan and so have no tool: profiles, circuits, hold points. */
gboolean sw_add_record_can (SwTable table);
/* The edit that adds one, and its id. `picked` (may be NULL) is what it is made after: a profile copies the picked one, or the
 * picked bay's; a hold point is the picked room's, else the first room's. SW_ERROR_INVALID when there is nothing to make it for. */
SwEdit *sw_add_record_edit (SwJob *job, SwTable table, const SwRecord *picked, SwId *id, GError **error);
