/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "job/job.h"

/* A job with n run segments and n / 5 lights, at some 2.5 segments on a square metre, in closed rooms. Runs lie in lanes as a
 * planner would lay them; one in twenty is out of its lane and clashes. The same for the same n. */
SwJob *sw_made_job (guint n);
