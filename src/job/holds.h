/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "job/edit.h"
#include "job/records.h"

/* Hold points of a room: each kind has one record that counts, the last one entered. */

/* NULL when nothing was entered. Borrowed. */
const SwHoldPoint *sw_job_hold_point (const SwJob *job, SwId room, SwHoldKind kind);

/* What is entered: texts may be NULL for none. */
typedef struct
{
  SwResult result;
  const char *by, *on, *note; /* `on` is a date, 2026-01-31 */
} SwHoldEntry;

/* An edit that enters it, empty when nothing changes; SW_ERROR_INVALID for a date that is none. The caller's. */
SwEdit *sw_job_enter_hold (const SwJob *job, SwId room, SwHoldKind kind, const SwHoldEntry *entry, GError **error);
