/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "base/random.h"
#include "job/edit.h"

/* A job with `each` records in every table and a value of its own in every field, drawn from the field tables: what a
 * field added later needs is tested without a new line here. */
SwJob *sw_sample_job (guint64 seed, guint each);
/* One random good edit of a job: adds, changes or removes up to three records. */
SwEdit *sw_sample_edit (SwRandom *random, const SwJob *job);

/* Lets sw_test_folder use memory where there is some: what these tests ask of the disk, many commits, costs nothing there. */
void sw_sample_fast_folders (void);
