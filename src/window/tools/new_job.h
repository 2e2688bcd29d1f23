/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "job/edit.h"

/* The first minute: a deck, its room and grid lines from a length, a width and a profile. */

/* A job without a deck that holds the catalogue's profiles. `catalogue` is a job of profiles only. */
SwJob *sw_new_job_empty (SwJob *catalogue, GError **error);
/* One edit that adds bay, room and four grid lines; voids run along the length, spread evenly. SW_ERROR_INVALID when not
 * even one void fits. The caller's. */
SwEdit *sw_new_job_rectangle (SwJob *job, double length_mm, double width_mm, SwId profile, GError **error);
