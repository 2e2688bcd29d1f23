/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/tools/picture.h"

/* A room's ceiling while the room is dragged or drawn: a first answer soon, a better one when the drag rests. */

typedef struct
{
  gatomicrefcount refs;
  SwRoom *room;     /* what it was found for: a copy, rounded as a job's */
  SwLayout *layout; /* as it would be stored */
  gboolean full;    /* all of the search, as laying out does it; else the first answer */
  guint n_sheets;
  double joint_m, waste_m2;
} SwCeilingDraft;

/* Immutable once made, any thread. `deck` is of the job, in which the room may be another or not be at all; pieces of its layout that
 * are locked stay, and its sheets are taken again. NULL when the room cannot be laid out, or it was cancelled. */
SwCeilingDraft *sw_ceiling_draft_new (SwDeck *deck, SwRules *rules, const SwRoom *room, gboolean full, GCancellable *cancellable);
SwCeilingDraft *sw_ceiling_draft_ref (SwCeilingDraft *draft);
void sw_ceiling_draft_unref (SwCeilingDraft *draft);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwCeilingDraft, sw_ceiling_draft_unref)

/* The thread that does it. A first answer that is under way is finished, so that something comes while the pointer keeps moving;
 * the search after it is cancelled by the next asking. */
typedef struct _SwCeilingDrafter SwCeilingDrafter;
/* On the main thread; borrowed. */
typedef void (*SwCeilingDrafterDone) (SwCeilingDraft *draft, gpointer data);

SwCeilingDrafter *sw_ceiling_drafter_new (SwCeilingDrafterDone done, gpointer data);
/* Returns at once; nothing is handed over any more. */
void sw_ceiling_drafter_free (SwCeilingDrafter *drafter);
/* `picture` lends deck and rules; the room is copied. */
void sw_ceiling_drafter_ask (SwCeilingDrafter *drafter, SwPicture *picture, const SwRoom *room);
/* What was asked for is not wanted any more. */
void sw_ceiling_drafter_stop (SwCeilingDrafter *drafter);
