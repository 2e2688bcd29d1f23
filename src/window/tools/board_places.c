/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where the light in hand may be: found by a thread for the room under it, kept until room, kind of light or job change, and drawn under
 * the draft. While something else is looked for, the last answer stays. */
#include "window/tools/board_data.h"
#include "checks/places.h"
#include "sheets/words.h"
#include "window/background.h"
#include <math.h>

/* What the answer depends on; the space is held. */
typedef struct
{
  SwSpace *space;
  SwId room, light; /* light: 0 when it is not in the job */
  double numbers[5];
} Key;

typedef struct
{
  Key key;
  SwPicture *picture;
  SwRecord *light;
  guint64 serial;
} Order;

typedef struct
{
  SwLightPlaces *places;
  guint64 serial;
} News;

struct _SwBoardPlaces
{
  SwBoard *board;
  SwBackground *background;
  Key asked;
  guint64 serial;
  gboolean shown;
  SwLightPlaces *found; /* NULL at first */
  SwDisplay *drawn;
};

static void
order_free (gpointer data)
{
  Order *order = data;
  sw_picture_unref (order->picture);
  sw_record_unref (order->light);
  g_free (order);
}

static void
news_free (gpointer data)
{
  News *news = data;
  sw_light_places_unref (news->places);
  g_free (news);
}

/* ---- the thread */

static void
look (SwBackgroundWork *work, gpointer data, gpointer memory, GCancellable *cancellable)
{
  const Order *order = data;
  const SwRecord *room = sw_job_get (sw_space_job (order->picture->space), order->key.room);
  SwLightPlaces *places = sw_check_light_places (order->picture->space, (const SwRoom *) room, (const SwLight *) order->light, cancellable, NULL);
  if (places == NULL)
    return;
  News *news = g_new (News, 1);
  *news = (News){ places, order->serial };
  sw_background_hand_over (work, news);
}

/* ---- what is drawn */

static SwDisplay *
draw_region (const SwRegion *region)
{
  static const SwFill fill = { .role = SW_ROLE_GOOD, .hatching = SW_HATCHING_LINES, .transparency = 0.35 };
  static const SwStroke edge = { .role = SW_ROLE_GOOD, .width = 1, .unit = SW_SIZE_PX, .transparency = 0.35 };
  SwDisplay *display = sw_display_new ();
  guint n = sw_region_n_rings (region);
  for (guint i = 0; i < n; i++)
    {
      SwRing ring = sw_region_ring (region, i);
      sw_display_move (display, ring.points[0]);
      for (guint k = 1; k < ring.n; k++)
        sw_display_line (display, ring.points[k]);
      sw_display_close (display);
      if (i + 1 == n || !sw_region_ring (region, i + 1).hole)
        sw_display_paint (display, &fill, &edge);
    }
  sw_display_seal (display);
  return display;
}

static void
take (gpointer data, gpointer owner)
{
  const News *news = data;
  SwBoardPlaces *places = owner;
  if (news->serial != places->serial)
    return;
  g_clear_pointer (&places->found, sw_light_places_unref);
  g_clear_pointer (&places->drawn, sw_display_unref);
  places->found = sw_light_places_ref (news->places);
  places->drawn = draw_region (sw_light_places_region (places->found));
  if (places->board->tool->class == &sw_tool_light)
    sw_board_say (places->board, sw_board_place_words (places->board));
  sw_board_tell (places->board, SW_BOARD_LIVE | SW_BOARD_SAYS);
}

/* ---- asking */

/* The light that is dragged or about to be put down. */
static const SwLight *
light_in_hand (SwBoard *board)
{
  for (guint i = 0; i < board->drafts->len; i++)
    if (sw_record_table (board->drafts->pdata[i]) == SW_TABLE_LIGHT)
      return board->drafts->pdata[i];
  return NULL;
}

static Key
key_of (const SwPicture *picture, const SwRoom *room, const SwLight *light)
{
  return (Key){ picture->space, room->record.id, sw_job_get (sw_picture_job (picture), light->record.id) != NULL ? light->record.id : 0,
                { light->cut_out, light->body, light->recess, light->side_clearance, light->top_clearance } };
}

static gboolean
same_key (const Key *a, const Key *b)
{
  for (gsize i = 0; i < G_N_ELEMENTS (a->numbers); i++)
    if (a->numbers[i] != b->numbers[i])
      return FALSE;
  return a->space == b->space && a->room == b->room && a->light == b->light;
}

static SwBoardPlaces *
places_new (SwBoard *board)
{
  static const SwBackgroundKind kind = { "places", G_PRIORITY_DEFAULT, look, take, order_free, news_free, NULL };
  SwBoardPlaces *places = g_new0 (SwBoardPlaces, 1);
  places->board = board;
  places->background = sw_background_new (&kind, NULL, places);
  return places;
}

static void
ask (SwBoardPlaces *places, const Key *key, const SwLight *light)
{
  Order *order = g_new (Order, 1);
  g_clear_pointer (&places->asked.space, sw_space_unref);
  places->asked = *key;
  places->asked.space = sw_space_ref (key->space);
  *order = (Order){ *key, sw_picture_ref (places->board->picture), sw_record_copy (&light->record), ++places->serial };
  sw_background_ask (places->background, order);
}

void
sw_board_follow_places (SwBoard *board)
{
  const SwPicture *picture = board->picture;
  const SwLight *light = picture != NULL && picture->space != NULL ? light_in_hand (board) : NULL;
  const SwRoom *room = light != NULL ? sw_deck_room_at (picture->deck, light->at) : NULL;
  if (light == NULL)
    {
      if (board->places != NULL)
        board->places->shown = FALSE;
      return;
    }
  if (board->places == NULL)
    board->places = places_new (board);
  board->places->shown = TRUE;
  Key key = room != NULL ? key_of (picture, room, light) : board->places->asked;
  if (!same_key (&key, &board->places->asked))
    ask (board->places, &key, light);
}

void
sw_board_clear_places (SwBoard *board)
{
  if (board->places == NULL)
    return;
  sw_background_free (board->places->background);
  g_clear_pointer (&board->places->asked.space, sw_space_unref);
  g_clear_pointer (&board->places->found, sw_light_places_unref);
  g_clear_pointer (&board->places->drawn, sw_display_unref);
  g_clear_pointer (&board->places, g_free);
}

void
sw_board_draw_places (SwBoard *board, SwDisplay *live)
{
  if (board->places != NULL && board->places->shown && board->places->drawn != NULL)
    sw_display_append (live, board->places->drawn);
}

/* ---- places */

gboolean
sw_board_allowed_place (SwBoard *board, SwPoint at, SwPoint *allowed)
{
  const SwLightPlaces *found = board->places != NULL && board->places->shown ? board->places->found : NULL;
  SwLightPlace place = found != NULL ? sw_light_places_ask (found, at) : (SwLightPlace){ .mm = -INFINITY };
  *allowed = isfinite (place.mm) ? sw_point_add (at, place.move) : at;
  return isfinite (place.mm);
}

static char *
words_of (SwBoard *board)
{
  const SwLight *light = light_in_hand (board);
  const SwLightPlaces *found = board->places != NULL && board->places->shown ? board->places->found : NULL;
  char figure[SW_LENGTH_BUF];
  if (light == NULL || found == NULL)
    return NULL;
  SwLightPlace place = sw_light_places_ask (found, light->at);
  if (!isfinite (place.mm))
    return g_strdup (_("No place in this room is allowed for this light"));
  if (place.mm >= 0)
    return g_strdup_printf (_("Allowed: %s to the edge"), sw_board_length (board, place.mm, SW_LENGTH_UNIT, figure));
  return g_strdup_printf (_("%s in the way: %s to an allowed place, Shift takes it"), sw_word (sw_light_bar_text (place.bar)),
                          sw_board_length (board, -place.mm, SW_LENGTH_UNIT, figure));
}

char *
sw_board_place_words (SwBoard *board)
{
  g_autofree char *words = words_of (board);
  if (words == NULL || !sw_light_places_assumed (board->places->found))
    return g_steal_pointer (&words);
  return g_strdup_printf ("%s · %s", words, _("battens taken at even centres"));
}
