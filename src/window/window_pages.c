/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/window_pages.h"
#include "sheets/words.h"
#include "window/page_ask.h"
#include "window/page_cut.h"
#include "window/page_holds.h"
#include "window/page_layouts.h"
#include "window/page_price.h"
#include "window/page_rules.h"
#include "window/page_survey.h"
#include "window/window_boards.h"

/* The page of a type that belongs to a window; NULL when it is not open. One of another job than the window's is closed. */
static GtkWindow *
find_page (SwWindow *window, GType type)
{
  GListModel *all = gtk_window_get_toplevels ();
  for (guint i = 0; i < g_list_model_get_n_items (all); i++)
    {
      g_autoptr (GtkWindow) page = g_list_model_get_item (all, i);
      if (G_OBJECT_TYPE (page) != type || gtk_window_get_transient_for (page) != GTK_WINDOW (window))
        continue;
      if (g_object_get_data (G_OBJECT (page), "job") == sw_window_document (window))
        return page;
      gtk_window_destroy (page);
      return NULL;
    }
  return NULL;
}

static void
open_page (SwWindow *window, GtkWindow *page)
{
  g_object_set_data (G_OBJECT (page), "job", sw_window_document (window));
  gtk_window_present (page);
}

/* ---- Rules ---- */

static SwPageRules *
open_rules (SwWindow *window, SwRules *rules)
{
  GtkWindow *page = find_page (window, SW_TYPE_PAGE_RULES);
  if (page == NULL && (sw_window_document (window) != NULL || rules != NULL))
    page = GTK_WINDOW (sw_page_rules_new (GTK_WINDOW (window), sw_window_document (window), rules));
  if (page != NULL)
    open_page (window, page);
  return (SwPageRules *) page;
}

void
sw_window_show_rule (SwWindow *window, const char *rule_id)
{
  SwPageRules *page = open_rules (window, NULL);
  if (page != NULL)
    sw_page_rules_show (page, rule_id);
}

static void
act_rules (GtkWidget *widget, const char *name, GVariant *parameter)
{
  open_rules (SW_WINDOW (widget), NULL);
}

/* ---- Price and choice ---- */

static void
on_price_rule (SwPagePrice *page, const char *rule_id, SwWindow *window)
{
  sw_window_show_rule (window, rule_id);
}

static void
act_price (GtkWidget *widget, const char *name, GVariant *parameter)
{
  SwWindow *window = SW_WINDOW (widget);
  GtkWindow *page = find_page (window, SW_TYPE_PAGE_PRICE);
  if (page == NULL && sw_window_document (window) != NULL)
    {
      page = GTK_WINDOW (sw_page_price_new (GTK_WINDOW (window), sw_window_document (window)));
      g_signal_connect_object (page, "rule", G_CALLBACK (on_price_rule), window, 0);
    }
  if (page != NULL)
    open_page (window, page);
}

/* ---- Boards side by side ---- */

/* Asked for again, it shows the room that is picked now. */
static void
act_layouts (GtkWidget *widget, const char *name, GVariant *parameter)
{
  SwWindow *window = SW_WINDOW (widget);
  if (sw_window_document (window) == NULL)
    return;
  GtkWindow *page = find_page (window, SW_TYPE_PAGE_LAYOUTS);
  if (page == NULL)
    page = GTK_WINDOW (sw_page_layouts_new (GTK_WINDOW (window), sw_window_document (window)));
  sw_page_layouts_show (SW_PAGE_LAYOUTS (page), sw_window_picked_room (window));
  open_page (window, page);
}

/* ---- Cutting alone ---- */

static void
act_cut (GtkWidget *widget, const char *name, GVariant *parameter)
{
  SwWindow *window = SW_WINDOW (widget);
  GtkWindow *page = find_page (window, SW_TYPE_PAGE_CUT);
  open_page (window, page != NULL ? page : GTK_WINDOW (sw_page_cut_new (GTK_WINDOW (window))));
}

/* ---- Hold points ---- */

static void
act_holds (GtkWidget *widget, const char *name, GVariant *parameter)
{
  SwWindow *window = SW_WINDOW (widget);
  if (sw_window_document (window) == NULL)
    return;
  GtkWindow *page = find_page (window, SW_TYPE_PAGE_HOLDS);
  if (page == NULL)
    page = GTK_WINDOW (sw_page_holds_new (GTK_WINDOW (window), sw_window_document (window)));
  sw_page_holds_show (SW_PAGE_HOLDS (page), sw_window_picked_room (window));
  open_page (window, page);
}

/* ---- As-built entry ---- */

/* The one bay or room that is picked; 0: none. */
static SwId
picked_subject (SwWindow *window)
{
  SwBoard *board = sw_document_board (sw_window_document (window));
  SwId picked = sw_board_n_picked (board) == 1 ? sw_board_picked (board, 0) : 0;
  return SW_ID_TABLE (picked) == SW_TABLE_BAY || SW_ID_TABLE (picked) == SW_TABLE_ROOM ? picked : 0;
}

static void
act_survey (GtkWidget *widget, const char *name, GVariant *parameter)
{
  SwWindow *window = SW_WINDOW (widget);
  if (sw_window_document (window) == NULL)
    return;
  GtkWindow *page = find_page (window, SW_TYPE_PAGE_SURVEY);
  if (page == NULL)
    page = GTK_WINDOW (sw_page_survey_new (GTK_WINDOW (window), sw_window_document (window)));
  sw_page_survey_show (SW_PAGE_SURVEY (page), picked_subject (window));
  open_page (window, page);
}

/* ---- Calculations ---- */

/* Without a job, the rules that were asked. */
static void
on_ask_rule (SwPageAsk *page, const char *rule_id, SwWindow *window)
{
  SwPageRules *rules = open_rules (window, sw_page_ask_rules (page));
  if (rules != NULL)
    sw_page_rules_show (rules, rule_id);
}

static void
act_ask (GtkWidget *widget, const char *name, GVariant *parameter)
{
  SwWindow *window = SW_WINDOW (widget);
  GtkWindow *page = find_page (window, SW_TYPE_PAGE_ASK);
  if (page == NULL)
    {
      page = GTK_WINDOW (sw_page_ask_new (GTK_WINDOW (window), sw_window_document (window)));
      g_signal_connect_object (page, "rule", G_CALLBACK (on_ask_rule), window, 0);
    }
  open_page (window, page);
}

/* ---- Window ---- */

void
sw_window_class_add_pages (GtkWidgetClass *class)
{
  gtk_widget_class_install_action (class, "win.price", NULL, act_price);
  gtk_widget_class_install_action (class, "win.ask", NULL, act_ask);
  gtk_widget_class_install_action (class, "win.layouts", NULL, act_layouts);
  gtk_widget_class_install_action (class, "win.cut", NULL, act_cut);
  gtk_widget_class_install_action (class, "win.holds", NULL, act_holds);
  gtk_widget_class_install_action (class, "win.survey", NULL, act_survey);
  gtk_widget_class_install_action (class, "win.rules", NULL, act_rules);
}

GMenuModel *
sw_window_pages_menu (void)
{
  GMenu *menu = g_menu_new ();
  g_menu_append (menu, _("_Price and choice…"), "win.price");
  g_menu_append (menu, _("_Boards side by side…"), "win.layouts");
  g_menu_append (menu, _("C_utting alone…"), "win.cut");
  g_menu_append (menu, _("_As-built entry…"), "win.survey");
  g_menu_append (menu, _("_Hold points…"), "win.holds");
  g_menu_append (menu, _("Ca_lculations…"), "win.ask");
  g_menu_append (menu, _("_Rules…"), "win.rules");
  return G_MENU_MODEL (menu);
}

void
sw_window_update_pages (SwWindow *window)
{
  gboolean has = sw_window_document (window) != NULL;
  gtk_widget_action_set_enabled (GTK_WIDGET (window), "win.price", has);
  gtk_widget_action_set_enabled (GTK_WIDGET (window), "win.layouts", has);
  gtk_widget_action_set_enabled (GTK_WIDGET (window), "win.holds", has);
  gtk_widget_action_set_enabled (GTK_WIDGET (window), "win.survey", has);
  gtk_widget_action_set_enabled (GTK_WIDGET (window), "win.rules", has);
}
