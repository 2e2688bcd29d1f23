/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "job/job.h"

/* A job with n run segments and n / 5 lights, at some 2.5 segments on a square metre, in closed rooms: thin runs 0.5 to 6 m long,
 * six lanes in a void, or cubes: pieces 50 to 400 mm long and of the largest pipe size that is no thicker and fits a deep void,
 * one lane. Runs and lights lie as a planner would lay them; one in twenty is astray and may clash. The same for the same n. */
SwJob *sw_made_job (guint n, gboolean cubes);
