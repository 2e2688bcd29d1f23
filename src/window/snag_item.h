/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/tools/picture.h"
#include <glib-object.h>

/* One snag as an object for list models. */
#define SW_TYPE_SNAG_ITEM (sw_snag_item_get_type ())
G_DECLARE_FINAL_TYPE (SwSnagItem, sw_snag_item, SW, SNAG_ITEM, GObject)

struct _SwSnagItem
{
  GObject parent_instance;
  SwSnags *snags;
  guint index;  /* among all */
  char *mark;   /* "S3", as on the plan */
  SwSnagText *text; /* NULL until it is asked for: a long list shows few of its rows */
};

SwSnagItem *sw_snag_item_new (SwSnags *snags, guint index, guint number);
const SwSnagText *sw_snag_item_text (SwSnagItem *item);
static inline const SwSnag *sw_snag_item_snag (SwSnagItem *item) { return sw_snags_get (item->snags, item->index); }
