/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/tools/layouts.h"
#include "base/error.h"
#include "ceiling/layout.h"
#include "estimate/lay_rooms.h"
#include "sheets/plan.h"
#include "sheets/words.h"
#include "window/background.h"

struct _SwLayouts
{
  SwBackground *background;
  SwLayoutsDone done;
  gpointer data;
  guint64 asked;
};

typedef struct
{
  SwJob *job;
  guint64 generation;
  SwId room;
  gboolean keep_direction;
} Order;

static void
order_free (gpointer data)
{
  Order *order = data;
  sw_job_unref (order->job);
  g_free (order);
}

/* The thread's: what prices lean on, from the last asking. */
typedef struct { SwPriceBase *base; } Memory;

static void
memory_free (gpointer data)
{
  Memory *memory = data;
  g_clear_pointer (&memory->base, sw_price_base_unref);
  g_free (memory);
}

void
sw_layout_card_unref (SwLayoutCard *card)
{
  if (!g_atomic_ref_count_dec (&card->refs))
    return;
  g_clear_pointer (&card->edit, sw_edit_unref);
  sw_display_unref (card->display);
  g_free (card->sheets);
  g_free (card);
}

static SwLayoutCard *
card_ref (SwLayoutCard *card)
{
  g_atomic_ref_count_inc (&card->refs);
  return card;
}

static SwLayoutsNews *
news_new (guint64 generation)
{
  SwLayoutsNews *news = g_new0 (SwLayoutsNews, 1);
  news->generation = generation;
  news->cards = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_layout_card_unref);
  return news;
}

static void
news_free (gpointer data)
{
  SwLayoutsNews *news = data;
  g_ptr_array_unref (news->cards);
  g_clear_error (&news->fault);
  g_free (news);
}

/* ---- cards ---- */

static SwDisplay *
draw (const SwRoom *room, const SwLayout *layout)
{
  static const SwStroke wall = { .role = SW_ROLE_INK, .width = 0.5, .unit = SW_SIZE_PAPER };
  SwDisplay *display = sw_display_new ();
  sw_plan_draw_layout (display, room, layout, SW_LAYER_BIT (SW_LAYER_BATTENS) | SW_LAYER_BIT (SW_LAYER_BOARDS));
  sw_display_set_layer (display, SW_LAYER_ROOMS);
  sw_display_set_detail (display, 0, INFINITY);
  sw_display_add_polygon (display, room->outline.items, room->outline.n, NULL, &wall);
  sw_display_seal (display);
  return display;
}

static SwLayoutCard *
card_new (const SwCeilingChoice *choice, gboolean priced, const SwJob *job)
{
  const SwRoom *room = choice->room;
  SwLayout *layout = sw_lay_layout_of (choice->ceiling, job);
  if (layout == NULL)
    return NULL;
  SwLaidFigures figures = sw_laid_figures (choice->ceiling);
  SwLayoutCard *card = g_new0 (SwLayoutCard, 1);
  g_atomic_ref_count_init (&card->refs);
  card->display = draw (room, layout);
  card->box = sw_record_box (&room->record);
  card->sheets = sw_lay_sheets_text (choice);
  card->turned = room->boards_turned;
  card->along = room->direction == SW_DIRECTION_ALONG;
  card->priced = priced;
  card->cost = priced ? sw_money_cents (choice->cost) : 0;
  card->n_sheets = choice->sheets;
  card->faults = choice->faults;
  card->slivers = choice->slivers;
  card->cuts = choice->cuts;
  card->shift_mm = room->batten_shift;
  card->joint_m = choice->joint_m;
  card->batten_m = choice->batten_m;
  card->waste_m2 = choice->waste_m2;
  card->waste_percent = figures.sheet_mm2 > 0 ? 100 * (1 - figures.piece_mm2 / figures.sheet_mm2) : 0;
  card->smallest_mm = choice->smallest_mm;
  sw_record_unref (&layout->record);
  return card;
}

static SwLayoutCard *
card_of_choice (const SwCeilingChoice *choice, gboolean priced, const SwJob *job)
{
  SwLayoutCard *card = card_new (choice, priced, job);
  if (card == NULL)
    return NULL;
  card->edit = sw_edit_new (_("Choose boards"));
  if (sw_lay_choose (choice, card->edit, job, NULL))
    return card;
  sw_layout_card_unref (card);
  return NULL;
}

/* ---- the thread ---- */

typedef struct
{
  SwBackgroundWork *work;
  const Order *order;
  SwLayoutCard *own; /* what the job has; NULL when that is out of date */
  guint n_locked;
  gboolean priced;
} Search;

static SwLayoutsNews *
news_of (const Search *search)
{
  SwLayoutsNews *news = news_new (search->order->generation);
  news->n_locked = search->n_locked;
  news->n_own = search->own != NULL;
  if (search->own != NULL)
    g_ptr_array_add (news->cards, card_ref (search->own));
  return news;
}

/* Among the news, unless it is what the job has already: then that has its number. */
static gboolean
add_choice (SwLayoutsNews *news, const Search *search, const SwCeilingChoice *choice, guint number)
{
  SwLayoutCard *card = card_of_choice (choice, search->priced, search->order->job);
  if (card == NULL)
    return FALSE;
  card->number = number;
  if (search->own == NULL || !sw_edit_is_empty (card->edit))
    {
      g_ptr_array_add (news->cards, card);
      return TRUE;
    }
  news->own_number = number;
  sw_layout_card_unref (card);
  return FALSE;
}

static void
on_found (const SwCeilingChoice *choice, gpointer data)
{
  const Search *search = data;
  SwLayoutsNews *news = news_of (search);
  if (add_choice (news, search, choice, 1))
    sw_background_hand_over (search->work, news);
  else
    news_free (news);
}

/* The stored layout measured as the alternatives are. */
static SwLayoutCard *
own_card (const SwPriceBase *base, const SwRoom *room, const Order *order, gboolean priced)
{
  const SwLayout *layout = sw_ceiling_layout_of (order->job, room->record.id);
  SwCeilingChoice choice = { .room = (SwRoom *) room };
  if (layout == NULL || sw_ceiling_layout_is_stale (layout, base->deck, base->rules))
    return NULL;
  g_autoptr (SwCeiling) ceiling = sw_ceiling_recall (layout, base->deck, base->rules);
  if (ceiling == NULL || ceiling->pieces->len == 0)
    return NULL;
  choice.ceiling = ceiling;
  sw_lay_measure (&choice, base->rules);
  return card_new (&choice, priced, order->job);
}

static void
fail (SwBackgroundWork *work, const Order *order, GError *error, GCancellable *cancellable)
{
  if (g_cancellable_is_cancelled (cancellable))
    {
      g_clear_error (&error);
      return;
    }
  SwLayoutsNews *news = news_new (order->generation);
  news->fault = error;
  news->done = TRUE;
  sw_background_hand_over (work, news);
}

static void
search_room (SwBackgroundWork *work, const Order *order, const SwPriceBase *base, const SwRoom *room, GCancellable *cancellable)
{
  GError *error = NULL;
  Search search = { work, order, NULL, 0, sw_lay_is_priced (sw_deck_job (base->deck), room) };
  const SwLayChoicesWanted wanted = { order->keep_direction, 0 };
  search.n_locked = sw_lay_n_locked (sw_ceiling_layout_of (order->job, room->record.id));
  search.own = own_card (base, room, order, search.priced);
  g_autoptr (SwLayChoices) choices
      = sw_lay_choices_new (base->deck, base->rules, room, &wanted, on_found, &search, cancellable, &error);
  if (choices == NULL)
    fail (work, order, error, cancellable);
  else if (!g_cancellable_is_cancelled (cancellable))
    {
      SwLayoutsNews *news = news_of (&search);
      for (guint i = 0; i < choices->choices->len; i++)
        add_choice (news, &search, choices->choices->pdata[i], i + 1);
      news->done = TRUE;
      sw_background_hand_over (work, news);
    }
  g_clear_pointer (&search.own, sw_layout_card_unref);
}

static void
look (SwBackgroundWork *work, gpointer data, gpointer mine, GCancellable *cancellable)
{
  const Order *order = data;
  Memory *memory = mine;
  GError *error = NULL;
  SwPriceBase *base = sw_price_base_new (order->job, order->generation, memory->base, &error);
  if (base == NULL)
    {
      fail (work, order, error, cancellable);
      return;
    }
  g_clear_pointer (&memory->base, sw_price_base_unref);
  memory->base = base;
  const SwRecord *record = sw_job_get (sw_deck_job (base->deck), order->room);
  if (record != NULL && sw_record_table (record) == SW_TABLE_ROOM)
    search_room (work, order, base, (const SwRoom *) record, cancellable);
  else
    fail (work, order, g_error_new_literal (SW_ERROR, SW_ERROR_NOT_FOUND, _("The job has no room.")), cancellable);
}

static void
take (gpointer data, gpointer owner)
{
  const SwLayoutsNews *news = data;
  SwLayouts *layouts = owner;
  if (news->generation == layouts->asked)
    layouts->done (news, layouts->data);
}

SwLayouts *
sw_layouts_new (SwLayoutsDone done, gpointer data)
{
  static const SwBackgroundKind kind = { "layouts", G_PRIORITY_HIGH_IDLE, look, take, order_free, news_free, memory_free };
  SwLayouts *layouts = g_new0 (SwLayouts, 1);
  layouts->done = done;
  layouts->data = data;
  layouts->background = sw_background_new (&kind, g_new0 (Memory, 1), layouts);
  return layouts;
}

void
sw_layouts_free (SwLayouts *layouts)
{
  if (layouts == NULL)
    return;
  sw_background_free (layouts->background);
  g_free (layouts);
}

void
sw_layouts_ask (SwLayouts *layouts, SwJob *job, guint64 generation, SwId room, gboolean keep_direction)
{
  Order *order = g_new0 (Order, 1);
  order->job = sw_job_ref (job);
  order->generation = generation;
  order->room = room;
  order->keep_direction = keep_direction;
  layouts->asked = generation;
  sw_background_ask (layouts->background, order);
}
