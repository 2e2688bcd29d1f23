/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "job/records.h"

/* A job is an immutable picture of all records, cheap to share between threads: applying an edit makes a new one
 * that shares all chunks (up to 256 records) which the edit does not touch. */
typedef struct _SwJob SwJob;
typedef struct _SwEdit SwEdit;

/* With its one SW_TABLE_JOB record and nothing else. */
SwJob *sw_job_new (void);
SwJob *sw_job_ref (SwJob *job);
void sw_job_unref (SwJob *job);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwJob, sw_job_unref)

const SwJobInfo *sw_job_info (const SwJob *job);
/* How its lengths are shown to people and what a bare number means that they type. */
SwLengths sw_job_lengths (const SwJob *job);
/* NULL where there is none. Borrowed, as long as the job is held. */
const SwRecord *sw_job_get (const SwJob *job, SwId id);
/* By its mark; O(n). NULL where there is none. */
const SwRecord *sw_job_find (const SwJob *job, const char *tag);
guint sw_job_count (const SwJob *job, SwTable table);
/* In id order, i < count; O(n / 256). */
const SwRecord *sw_job_nth (const SwJob *job, SwTable table, guint i);

/* Walks a table in id order: for (SwJobIter i = sw_job_iter (job, t); (r = sw_job_iter_next (&i)) != NULL;) */
typedef struct
{
  const SwJob *job;
  SwTable table;
  guint chunk, at;
} SwJobIter;
SwJobIter sw_job_iter (const SwJob *job, SwTable table);
const SwRecord *sw_job_iter_next (SwJobIter *iter);

/* The next free id of a table in this job; adding `ahead` gives further ones. */
SwId sw_job_next_id (const SwJob *job, SwTable table, guint ahead);
/* A mark that nothing in the job has: prefix + lowest number from count + 1 on, skipping `ahead` free ones. Free with g_free. */
char *sw_job_free_tag (const SwJob *job, SwTable table, guint ahead);

/* The job after an edit, or before it when !forward. SW_ERROR_CONFLICT when the job is not what the edit starts from,
 * SW_ERROR_INVALID when a mark would stand twice or a reference lead nowhere: the message names both. */
SwJob *sw_job_apply (SwJob *job, const SwEdit *edit, gboolean forward, GError **error);

/* Where a drop stands in its wall. FALSE while it has none. */
gboolean sw_job_drop_place (const SwJob *job, const SwDrop *drop, SwPoint *at);

gboolean sw_job_equal (const SwJob *a, const SwJob *b);
