/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/inspector.h"
#include "window/plan_view.h"
#include "window/price_desk.h"
#include "window/section_view.h"
#include "window/snag_panel.h"
#include "window/start_page.h"
#include "window/thing_list.h"
#include "window/underlays.h"
#include "window/window.h"

/* The window's insides, shared by its files: state, actions, tools. */
struct _SwWindow
{
  GtkApplicationWindow parent_instance;
  GSettings *settings;
  SwAppearance *appearance;
  SwDocument *document;
  GBindingGroup *bindings;
  GSignalGroup *signals;
  GMenu *menu;
  SwJob *catalogue;
  SwSite site;
  SwUnderlays *underlays;
  GCancellable *laying_out; /* while it goes on */
  SwPriceDesk *price_desk;  /* while the price is looked at */
  gulong price_watch;

  GtkLabel *title_label, *subtitle_label, *fault_label, *read_only_label, *hint_label, *place_label, *scale_label;
  GtkMenuButton *menu_button, *open_button;
  GtkWidget *undo_button, *redo_button;
  GMenu *recent_section;
  GtkSpinner *busy_spinner;
  GtkRevealer *fault_revealer, *read_only_revealer;
  GtkStack *stack;
  SwStartPage *start_page;
  GtkListBox *site_list;
  GtkGrid *totals_grid;
  GtkPaned *left_paned, *right_paned, *strip_paned, *side_paned;
  GtkBox *tool_box, *typed_box;
  GtkWidget *looking_up_button;
  GtkWidget *corners_check; /* in the tool box, which is filled anew with each step */
  SwPlanView *plan_view;
  SwSectionView *section_view;
  GtkLabel *section_label;
  GtkToggleButton *along_button;
  GtkStack *side_stack;
  SwInspector *inspector;
  SwThingList *thing_list;
  SwSnagPanel *snag_panel;
};

/* Order of the site: label, the layers that come to the front, and those that do not fade beside them. */
typedef struct
{
  const char *id, *label; /* untranslated label */
  guint64 front, beside;
} SwSiteRow;
const SwSiteRow *sw_site_row (SwSite site);

/* Lays out the picked rooms, or all closed ones; asked again while it goes on, stops. */
void sw_window_lay_out (SwWindow *window);
/* Puts a drawing under the plan; in an empty window it starts a job. */
void sw_window_put_underlay (SwWindow *window, GFile *file);
/* The jobs opened lately, in the menu. */
void sw_window_fill_recent (SwWindow *window);
void sw_window_remember_job (SwWindow *window);

void sw_window_class_add_actions (GtkWidgetClass *class);
void sw_window_init_actions (SwWindow *window);
/* Undo's and redo's names in their tooltips; what can be done now. */
void sw_window_update_actions (SwWindow *window);

/* The menu under the second button on the plan. */
void sw_window_init_plan_menu (SwWindow *window);

void sw_window_init_tools (SwWindow *window);
void sw_window_fill_tools (SwWindow *window);
void sw_window_set_site (SwWindow *window, SwSite site);
/* Goes to a step that has the tool in hand, when the present one has it not. */
void sw_window_follow_tool (SwWindow *window);
void sw_window_update_tools (SwWindow *window);  /* which one is in hand, what is typed */
void sw_window_update_status (SwWindow *window); /* hint, place, scale */
void sw_window_update_totals (SwWindow *window);
