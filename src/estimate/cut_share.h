/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "estimate/cut_job.h"
#include "estimate/needs.h"

/* Shares the stock that the job's cutting plans take out among the needs (SwNeed, of all rooms) that are cut from it, by their net amounts:
 * their `bought` add up to the stock, exactly. Needs of which the plans hold less or more, as of a room that is not laid out, stay as they are. */
void sw_cut_job_share (const SwCutJob *cut, const GPtrArray *needs);
