/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/thing_item.h"
#include "sheets/words.h"
#include "window/tools/shape.h"

G_DEFINE_FINAL_TYPE (SwThingItem, sw_thing_item, G_TYPE_OBJECT)

static const char *
translate (const char *english)
{
  return sw_word (english);
}

SwThingItem *
sw_thing_item_new (const SwPicture *picture, const SwRecord *record, SwSeverity worst)
{
  SwThingItem *item = g_object_new (SW_TYPE_THING_ITEM, NULL);
  SwLengths lengths = sw_job_lengths (sw_picture_job (picture));
  SwPoint at;
  item->id = record->id;
  item->title = sw_plan_title (record, lengths);
  if (sw_shape_place (sw_picture_job (picture), picture->deck, record, &at))
    {
      SwAddress address = sw_deck_address (picture->deck, at);
      item->place = sw_snag_where (&address, lengths, translate);
    }
  else
    item->place = g_strdup ("");
  item->state = g_strdup (worst < SW_N_SEVERITIES ? sw_word (sw_severity_label (worst)) : "");
  item->folded = g_utf8_casefold (item->title, -1);
  return item;
}

static void
sw_thing_item_init (SwThingItem *item)
{
}

static void
thing_item_finalize (GObject *object)
{
  SwThingItem *item = SW_THING_ITEM (object);
  g_free (item->title);
  g_free (item->place);
  g_free (item->state);
  g_free (item->folded);
  G_OBJECT_CLASS (sw_thing_item_parent_class)->finalize (object);
}

static void
sw_thing_item_class_init (SwThingItemClass *class)
{
  G_OBJECT_CLASS (class)->finalize = thing_item_finalize;
}
