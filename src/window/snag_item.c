/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/snag_item.h"
#include "sheets/words.h"

G_DEFINE_FINAL_TYPE (SwSnagItem, sw_snag_item, G_TYPE_OBJECT)

static const char *
translate (const char *english)
{
  return sw_word (english);
}

SwSnagItem *
sw_snag_item_new (SwSnags *snags, guint index, guint number)
{
  static const char letters[] = "SFN";
  SwSnagItem *item = g_object_new (SW_TYPE_SNAG_ITEM, NULL);
  const SwSnag *snag = sw_snags_get (snags, index);
  item->snags = sw_snags_ref (snags);
  item->index = index;
  item->mark = g_strdup_printf ("%c%u", letters[snag->severity], number);
  return item;
}

const SwSnagText *
sw_snag_item_text (SwSnagItem *item)
{
  if (item->text == NULL)
    item->text = sw_snag_text (item->snags, sw_snag_item_snag (item), translate);
  return item->text;
}

static void
sw_snag_item_init (SwSnagItem *item)
{
}

static void
snag_item_finalize (GObject *object)
{
  SwSnagItem *item = SW_SNAG_ITEM (object);
  g_clear_pointer (&item->snags, sw_snags_unref);
  g_clear_pointer (&item->text, sw_snag_text_free);
  g_free (item->mark);
  G_OBJECT_CLASS (sw_snag_item_parent_class)->finalize (object);
}

static void
sw_snag_item_class_init (SwSnagItemClass *class)
{
  G_OBJECT_CLASS (class)->finalize = snag_item_finalize;
}
