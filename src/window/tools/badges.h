/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "checks/snag.h"
#include "drawing/display.h"

/* Marks of snags, "S3", as they stand on the plan and in the list: one number a snag, counted by severity. */

/* Free with g_free. */
guint *sw_badges_number (const SwSnags *snags);
/* Snags that are as before (severity, rule, things) keep their numbers; others count on behind the last. Free with g_free. */
guint *sw_badges_keep (const SwSnags *before, const guint *numbers_before, const SwSnags *snags);
/* Sealed; the caller's. */
SwDisplay *sw_badges_draw (const SwSnags *snags, const guint *numbers);
/* Places of badges that are not the same in both, number and all; `a` may be NULL. */
SwBox sw_badges_changed (const SwSnags *a, const guint *numbers_a, const SwSnags *b, const guint *numbers_b);
