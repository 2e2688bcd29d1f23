/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "job/edit.h"
#include "job/records.h"

/* What a measured value is of; `at` counts for levels only, corners of a diagonal in either order. */
typedef struct
{
  SwId of; /* bay or room */
  SwMeasureKind kind;
  int number, second;
  SwPoint at;
} SwMeasureKey;

SwMeasureKey sw_measure_key (const SwMeasure *measure);
gboolean sw_measure_key_equal (const SwMeasureKey *a, const SwMeasureKey *b);

/* The value that counts, the last one entered; NULL when it was not measured. Borrowed. */
const SwMeasure *sw_job_measure (const SwJob *job, const SwMeasureKey *key);

/* An edit that enters it, in mm, instead of what was entered before; NAN takes that out. Empty when nothing changes. Texts may be
 * NULL: who and when (a date, 2026-01-31) stay as they were. SW_ERROR_INVALID names what cannot be. The caller's. */
SwEdit *sw_job_enter_measure (const SwJob *job, const SwMeasureKey *key, double value, const char *by, const char *on, GError **error);
