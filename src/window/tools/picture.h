/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "sheets/plan.h"
#include "checks/snag_text.h"
#include "space/space.h"
#include <gio/gio.h>

/* What is worked out from one state of the job: its deck, its solids and its drawings. Immutable once made, shared between
 * threads. */

/* The plan in parts, painted in this order, so that an edit renews only what it touches. */
typedef enum { SW_PART_GROUND, SW_PART_CEILING, SW_PART_THINGS, SW_PART_SNAGS, SW_N_PARTS } SwPicturePart;

typedef struct
{
  gatomicrefcount refs;
  guint64 generation;
  SwDeck *deck;
  SwRules *rules;   /* NULL when the job's rule set cannot be read: `fault` says why */
  SwSpace *space;   /* NULL without rules */
  GError *fault;
  SwSnags *snags;   /* NULL at first; those of an earlier state until `checked` */
  guint *numbers;   /* one a snag: 3 in its mark "S3" */
  gboolean checked, draft;
  SwDisplay *parts[SW_N_PARTS]; /* sealed */
  SwBox changed;    /* against the picture that it was made after */
} SwPicture;

/* `before` (may be NULL) lends what cannot have changed. NULL when cancelled. */
SwPicture *sw_picture_new (SwJob *job, guint64 generation, const SwPicture *before, GCancellable *cancellable);
/* The same picture with its own snags: takes longer, so the plain one is shown first. NULL when cancelled or without rules. */
SwPicture *sw_picture_check (SwPicture *picture, GCancellable *cancellable);
/* The snags as they would be with these records in the job of a checked picture, which lends all else. Snags that stay keep
 * their numbers; new ones count on behind them. `changed` is against `picture`. NULL when cancelled, or when the records
 * cannot stand in the job. */
SwPicture *sw_picture_draft (const SwPicture *picture, SwRecord *const *records, guint n, GCancellable *cancellable);
/* The options that its check has: for advice on its snags. */
extern const SwCheckOptions sw_picture_check_options;
SwPicture *sw_picture_ref (SwPicture *picture);
void sw_picture_unref (SwPicture *picture);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwPicture, sw_picture_unref)

static inline SwJob *sw_picture_job (const SwPicture *picture) { return sw_deck_job (picture->deck); }
