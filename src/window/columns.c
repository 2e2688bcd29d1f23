/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/columns.h"
#include "sheets/words.h"
#include "window/compat.h"

G_DEFINE_FINAL_TYPE (SwRowItem, sw_row_item, G_TYPE_OBJECT)

static guint changed_signal;

static void
sw_row_item_init (SwRowItem *item)
{
}

static void
row_item_finalize (GObject *object)
{
  SwRowItem *item = SW_ROW_ITEM (object);
  if (item->free != NULL)
    item->free (item->value);
  G_OBJECT_CLASS (sw_row_item_parent_class)->finalize (object);
}

static void
sw_row_item_class_init (SwRowItemClass *class)
{
  G_OBJECT_CLASS (class)->finalize = row_item_finalize;
  changed_signal = g_signal_new ("changed", SW_TYPE_ROW_ITEM, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

SwRowItem *
sw_row_item_new (gpointer value, GDestroyNotify free)
{
  SwRowItem *item = g_object_new (SW_TYPE_ROW_ITEM, NULL);
  item->value = value;
  item->free = free;
  return item;
}

void
sw_row_item_changed (SwRowItem *item)
{
  g_signal_emit (item, changed_signal, 0);
}

/* ---- Cells ---- */

typedef struct
{
  const SwTextColumn *column;
  gpointer data;
} Cells;

static const char *
mark_of (const Cells *cells, SwRowItem *item)
{
  return cells->column->mark != NULL ? cells->column->mark (item->value, cells->data) : NULL;
}

static void
fill_cell (SwRowItem *item, GtkWidget *label)
{
  const Cells *cells = g_object_get_data (G_OBJECT (label), "cells");
  const char *before = g_object_get_data (G_OBJECT (label), "mark"), *mark = mark_of (cells, item);
  g_autofree char *text = cells->column->text (item->value, cells->data);
  sw_compat_set_figure (GTK_LABEL (label), text);
  gtk_widget_set_tooltip_text (label, cells->column->chars < 0 ? text : NULL);
  if (before != NULL)
    gtk_widget_remove_css_class (label, before);
  if (mark != NULL)
    gtk_widget_add_css_class (label, mark);
  g_object_set_data (G_OBJECT (label), "mark", (gpointer) mark);
}

static void
setup_cell (GtkSignalListItemFactory *factory, GtkListItem *list_item, Cells *cells)
{
  GtkWidget *label = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (label), cells->column->number ? 1 : 0);
  gtk_label_set_single_line_mode (GTK_LABEL (label), TRUE);
  gtk_label_set_ellipsize (GTK_LABEL (label), cells->column->both_ends ? PANGO_ELLIPSIZE_MIDDLE : PANGO_ELLIPSIZE_END);
  gtk_label_set_width_chars (GTK_LABEL (label), ABS (cells->column->chars));
  gtk_widget_add_css_class (label, "numeric");
  g_object_set_data (G_OBJECT (label), "cells", cells);
  gtk_list_item_set_child (list_item, label);
}

static void
bind_cell (GtkSignalListItemFactory *factory, GtkListItem *list_item, Cells *cells)
{
  SwRowItem *item = gtk_list_item_get_item (list_item);
  GtkWidget *label = gtk_list_item_get_child (list_item);
  g_signal_connect_object (item, "changed", G_CALLBACK (fill_cell), label, 0);
  fill_cell (item, label);
}

static void
unbind_cell (GtkSignalListItemFactory *factory, GtkListItem *list_item, Cells *cells)
{
  g_signal_handlers_disconnect_by_data (gtk_list_item_get_item (list_item), gtk_list_item_get_child (list_item));
}

void
sw_columns_name (GtkColumnView *view, const char *name)
{
  gtk_accessible_update_property (GTK_ACCESSIBLE (view), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  for (GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (view)); child != NULL; child = gtk_widget_get_next_sibling (child))
    if (GTK_IS_LIST_VIEW (child))
      gtk_accessible_update_property (GTK_ACCESSIBLE (child), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

void
sw_columns_add (GtkColumnView *view, const SwTextColumn *columns, guint n, gpointer data)
{
  sw_compat_begin_at_start (view);
  for (guint i = 0; i < n; i++)
    {
      GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
      Cells *cells = g_new0 (Cells, 1);
      cells->column = &columns[i];
      cells->data = data;
      g_object_set_data_full (G_OBJECT (factory), "cells", cells, g_free);
      g_signal_connect (factory, "setup", G_CALLBACK (setup_cell), cells);
      g_signal_connect (factory, "bind", G_CALLBACK (bind_cell), cells);
      g_signal_connect (factory, "unbind", G_CALLBACK (unbind_cell), cells);
      GtkColumnViewColumn *column = gtk_column_view_column_new (sw_word (columns[i].title), factory);
      gtk_column_view_column_set_resizable (column, TRUE);
      gtk_column_view_column_set_expand (column, columns[i].chars < 0);
      gtk_column_view_append_column (view, column);
      g_object_unref (column);
    }
}
