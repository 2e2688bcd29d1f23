/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/tools/ceiling_draft.h"
#include "ceiling/layout.h"
#include "ceiling/boards.h"
#include "estimate/lay_choices.h"
#include "estimate/lay_rooms.h"
#include "window/background.h"

struct _SwCeilingDrafter
{
  SwBackground *background;
  SwCeilingDrafterDone done;
  gpointer data;
  guint64 asked, least; /* what comes of an older one is dropped */
};

typedef struct
{
  SwPicture *picture;
  SwRoom *room;
  guint64 serial;
} Order;

typedef struct
{
  SwCeilingDraft *draft;
  guint64 serial;
} News;

static void
order_free (gpointer data)
{
  Order *order = data;
  sw_picture_unref (order->picture);
  sw_record_unref (&order->room->record);
  g_free (order);
}

static void
news_free (gpointer data)
{
  News *news = data;
  sw_ceiling_draft_unref (news->draft);
  g_free (news);
}

SwCeilingDraft *
sw_ceiling_draft_ref (SwCeilingDraft *draft)
{
  g_atomic_ref_count_inc (&draft->refs);
  return draft;
}

void
sw_ceiling_draft_unref (SwCeilingDraft *draft)
{
  if (!g_atomic_ref_count_dec (&draft->refs))
    return;
  sw_record_unref (&draft->room->record);
  sw_record_unref (&draft->layout->record);
  g_free (draft);
}

/* Takes the room over. */
static SwCeilingDraft *
draft_of (const SwCeiling *ceiling, SwRoom *room, const SwJob *job, gboolean full)
{
  SwLaidFigures figures = sw_laid_figures (ceiling);
  SwLayout *layout = sw_lay_layout_of (ceiling, job);
  if (layout == NULL)
    {
      sw_record_unref (&room->record);
      return NULL;
    }
  SwCeilingDraft *draft = g_new0 (SwCeilingDraft, 1);
  g_atomic_ref_count_init (&draft->refs);
  draft->room = room;
  draft->layout = layout;
  draft->full = full;
  draft->n_sheets = figures.n_sheets;
  draft->joint_m = figures.joint_mm / 1e3;
  draft->waste_m2 = (figures.sheet_mm2 - figures.piece_mm2) / 1e6;
  return draft;
}

SwCeilingDraft *
sw_ceiling_draft_new (SwDeck *deck, SwRules *rules, const SwRoom *room, gboolean full, GCancellable *cancellable)
{
  SwJob *job = sw_deck_job (deck);
  SwRecord *copy = sw_record_copy (&room->record);
  const SwLayout *stored = sw_ceiling_layout_of (job, room->record.id);
  g_autoptr (GArray) sizes = sw_lay_sizes_taken (job, room, stored);
  const SwCeilingOptions options = { .keep = stored, .quick = !full, .sizes = (const SwBoardSize *) (gpointer) sizes->data, .n_sizes = sizes->len };
  g_autoptr (SwCeiling) ceiling = NULL;
  if (sw_record_settle (copy, NULL))
    ceiling = sw_ceiling_plan (deck, rules, (const SwRoom *) copy, &options, cancellable, NULL);
  if (ceiling != NULL)
    return draft_of (ceiling, (SwRoom *) copy, job, full);
  sw_record_unref (copy);
  return NULL;
}

/* ---- The thread ---- */

static gboolean
answer (SwBackgroundWork *work, const Order *order, gboolean full, GCancellable *cancellable)
{
  SwCeilingDraft *draft = sw_ceiling_draft_new (order->picture->deck, order->picture->rules, order->room, full, cancellable);
  if (draft == NULL)
    return FALSE;
  News *news = g_new (News, 1);
  *news = (News){ draft, order->serial };
  sw_background_hand_over (work, news);
  return TRUE;
}

static void
draft (SwBackgroundWork *work, gpointer data, gpointer memory, GCancellable *cancellable)
{
  const Order *order = data;
  if (answer (work, order, FALSE, NULL) && !g_cancellable_is_cancelled (cancellable))
    answer (work, order, TRUE, cancellable);
}

static void
take (gpointer data, gpointer owner)
{
  const News *news = data;
  SwCeilingDrafter *drafter = owner;
  if (news->serial >= drafter->least)
    drafter->done (news->draft, drafter->data);
}

SwCeilingDrafter *
sw_ceiling_drafter_new (SwCeilingDrafterDone done, gpointer data)
{
  static const SwBackgroundKind kind = { "ceiling", G_PRIORITY_DEFAULT, draft, take, order_free, news_free, NULL };
  SwCeilingDrafter *drafter = g_new0 (SwCeilingDrafter, 1);
  drafter->done = done;
  drafter->data = data;
  drafter->background = sw_background_new (&kind, NULL, drafter);
  return drafter;
}

void
sw_ceiling_drafter_free (SwCeilingDrafter *drafter)
{
  if (drafter == NULL)
    return;
  sw_background_free (drafter->background);
  g_free (drafter);
}

void
sw_ceiling_drafter_ask (SwCeilingDrafter *drafter, SwPicture *picture, const SwRoom *room)
{
  Order *order = g_new (Order, 1);
  *order = (Order){ sw_picture_ref (picture), (SwRoom *) sw_record_copy (&room->record), ++drafter->asked };
  sw_background_ask (drafter->background, order);
}

void
sw_ceiling_drafter_stop (SwCeilingDrafter *drafter)
{
  drafter->least = drafter->asked + 1;
  sw_background_stop (drafter->background);
}
