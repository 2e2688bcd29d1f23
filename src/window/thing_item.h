/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/tools/picture.h"
#include <glib-object.h>

/* A record as an object for list models: what a row shows, made once. */
#define SW_TYPE_THING_ITEM (sw_thing_item_get_type ())
G_DECLARE_FINAL_TYPE (SwThingItem, sw_thing_item, SW, THING_ITEM, GObject)

struct _SwThingItem
{
  GObject parent_instance;
  SwId id;
  char *title, *place, *state; /* state "" when nothing is wrong */
  char *folded;                /* title for searching */
};

/* `worst`: severity of its worst snag, SW_N_SEVERITIES for none. */
SwThingItem *sw_thing_item_new (const SwPicture *picture, const SwRecord *record, SwSeverity worst);
