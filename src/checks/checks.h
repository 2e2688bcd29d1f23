/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "checks/snag.h"
#include "job/edit.h"

/* Every rule that can find a snag, in the order in which snags of one severity are listed. */
typedef struct
{
  const char *id;          /* "rib-clearance" */
  SwTrade trade;           /* whose work it is unless the owner says otherwise */
  const char *title;       /* English, to be translated */
  const char *description; /* what it looks at, likewise */
} SwCheck;

guint sw_checks_n (void);
const SwCheck *sw_checks_get (guint i);
/* NULL where there is none. */
const SwCheck *sw_checks_find (const char *id);

typedef struct
{
  const char *only;  /* one rule's id; NULL: all */
  gboolean no_notes; /* stops and fixes only */
  /* Whether a room's stored layout still is what its inputs give; NULL: taken as current. */
  gboolean (*layout_is_current) (const SwSpace *space, const SwRoom *room, const SwLayout *layout, gpointer data);
  gpointer layout_data;
} SwCheckOptions;

/* Called now and then from the thread that checks, with 0…1. */
typedef void (*SwCheckProgress) (double done, gpointer data);

/* The whole job. Options may be NULL. NULL with SW_ERROR_CANCELLED when cancelled. Cost: neighbour search over all
 * bodies, exact distances of near pairs, and for records a look at their neighbours. */
SwSnags *sw_checks_run (SwSpace *space, const SwCheckOptions *options, GCancellable *cancellable,
                        SwCheckProgress progress, gpointer data, GError **error);
/* What concerns the given records: their own checks and all pairs in which they take part. For a drag, give the space of
 * the job with the draft applied (sw_space_update). */
SwSnags *sw_checks_of (SwSpace *space, const SwCheckOptions *options, const SwId *owners, guint n);
/* The list of a later job from the one before: what sw_checks_run gives, at the cost of what lies near the changes or refers
 * to them. `space` is the later job's (sw_space_update), `edit` all that leads there, options as they were for `before`. */
SwSnags *sw_checks_update (const SwSnags *before, SwSpace *space, const SwEdit *edit, const SwCheckOptions *options,
                           GCancellable *cancellable, GError **error);
