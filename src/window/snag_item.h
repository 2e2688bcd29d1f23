/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/tools/picture.h"
#include <glib-object.h>
#include <gio/gio.h>

/* A row of the list of snags: one snag, or the plates of one bay that wait for the engineer as one row with rows below it. */
#define SW_TYPE_SNAG_ITEM (sw_snag_item_get_type ())
G_DECLARE_FINAL_TYPE (SwSnagItem, sw_snag_item, SW, SNAG_ITEM, GObject)

struct _SwSnagItem
{
  GObject parent_instance;
  SwSnags *snags;
  guint index;         /* among all; of a group its first one */
  char *mark;          /* "S3", as on the plan; "6 ×" of a group */
  SwSnagText *text;    /* NULL until it is asked for: a long list shows few of its rows */
  GListStore *members; /* SwSnagItem of a group; NULL for one snag */
};

SwSnagItem *sw_snag_item_new (SwSnags *snags, guint index, guint number);
/* Rows for those that `passes`, sorted as the snags are, a group where its first one stands. GPtrArray of SwSnagItem that
 * holds them. */
GPtrArray *sw_snag_item_rows (SwSnags *snags, const guint *numbers, gboolean (*passes) (const SwSnag *snag, gpointer data), gpointer data);
const SwSnagText *sw_snag_item_text (SwSnagItem *item);
/* The same for the same row of a later job. Free with g_free. */
char *sw_snag_item_key (SwSnagItem *item);
/* The plates of it that wait for a release: GArray of SwPlateRef, empty when it is about none. */
GArray *sw_snag_item_plates (SwSnagItem *item);
static inline const SwSnag *sw_snag_item_snag (SwSnagItem *item) { return sw_snags_get (item->snags, item->index); }
