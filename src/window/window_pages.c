/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/window_pages.h"
#include "sheets/words.h"
#include "window/page_price.h"

/* The page of a type that belongs to a window; NULL when it is not open. */
static GtkWindow *
find_page (SwWindow *window, GType type)
{
  GListModel *all = gtk_window_get_toplevels ();
  for (guint i = 0; i < g_list_model_get_n_items (all); i++)
    {
      g_autoptr (GtkWindow) page = g_list_model_get_item (all, i);
      if (G_OBJECT_TYPE (page) == type && gtk_window_get_transient_for (page) == GTK_WINDOW (window))
        return page;
    }
  return NULL;
}

static void
act_price (GtkWidget *widget, const char *name, GVariant *parameter)
{
  SwWindow *window = SW_WINDOW (widget);
  GtkWindow *page = find_page (window, SW_TYPE_PAGE_PRICE);
  if (page == NULL && sw_window_document (window) != NULL)
    page = GTK_WINDOW (sw_page_price_new (GTK_WINDOW (window), sw_window_document (window)));
  if (page != NULL)
    gtk_window_present (page);
}

void
sw_window_class_add_pages (GtkWidgetClass *class)
{
  gtk_widget_class_install_action (class, "win.price", NULL, act_price);
}

GMenuModel *
sw_window_pages_menu (void)
{
  GMenu *menu = g_menu_new ();
  g_menu_append (menu, _("_Price and choice…"), "win.price");
  return G_MENU_MODEL (menu);
}

void
sw_window_update_pages (SwWindow *window)
{
  gtk_widget_action_set_enabled (GTK_WIDGET (window), "win.price", sw_window_document (window) != NULL);
}
