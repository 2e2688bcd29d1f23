/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <gtk/gtk.h>

/* Tables of text: a column says how a row's value reads, an item holds the value and tells its cells when it reads otherwise. */
#define SW_TYPE_ROW_ITEM (sw_row_item_get_type ())
G_DECLARE_FINAL_TYPE (SwRowItem, sw_row_item, SW, ROW_ITEM, GObject)

struct _SwRowItem
{
  GObject parent_instance;
  gpointer value;
  GDestroyNotify free;
};

/* Takes `value` over. */
SwRowItem *sw_row_item_new (gpointer value, GDestroyNotify free);
/* The value was changed in place: cells are filled again. */
void sw_row_item_changed (SwRowItem *item);

typedef struct
{
  const char *title; /* untranslated; "" for none */
  gboolean number;   /* stands at the right */
  int chars;         /* least width; negative: it takes what is left, too */
  char *(*text) (gconstpointer value, gpointer data);       /* the caller's */
  const char *(*mark) (gconstpointer value, gpointer data); /* CSS class; NULL for none; may itself be NULL */
  gboolean both_ends; /* where it is cut short, that is in its middle: goods are named with their size at the end */
} SwTextColumn;

/* The focus goes to a list inside the view, which has no name of its own: `name` is given to both. */
void sw_columns_name (GtkColumnView *view, const char *name);
/* `columns` is static; `data` must live as long as the view. */
void sw_columns_add (GtkColumnView *view, const SwTextColumn *columns, guint n, gpointer data);
