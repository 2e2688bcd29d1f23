/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The menu under the second button: what can be done with what is picked, and all things that lie under the pointer, so that
 * one below others can be picked by its name. */
#include "window/window_private.h"
#include "sheets/words.h"
#include "window/window_boards.h"

#define MOST_UNDER 8

static void
append_things (GMenu *menu, SwBoard *board, SwPoint at)
{
  SwId ids[MOST_UNDER];
  guint n = sw_board_things_at (board, at, ids, MOST_UNDER);
  for (guint i = 0; i < n; i++)
    {
      g_autofree char *title = sw_plan_title (sw_job_get (sw_board_job (board), ids[i]), sw_job_lengths (sw_board_job (board)));
      g_autofree char *label = g_strdup_printf (_("Pick %s"), title);
      g_autoptr (GMenuItem) item = g_menu_item_new (label, NULL);
      g_menu_item_set_action_and_target (item, "win.pick-thing", "x", (gint64) ids[i]);
      g_menu_append_item (menu, item);
    }
}

static gboolean
drop_popover (gpointer popover)
{
  gtk_widget_unparent (popover);
  return G_SOURCE_REMOVE;
}

/* Its item's action still runs after it has closed. */
static void
on_closed (GtkPopover *popover)
{
  g_idle_add (drop_popover, popover);
}

static void
on_menu (SwPlanView *view, double x, double y, SwWindow *window)
{
  g_autoptr (GMenu) menu = g_menu_new (), edit = g_menu_new (), under = g_menu_new ();
  SwPoint at = sw_viewport_to_world (sw_canvas_view (SW_CANVAS (view)), (SwPoint){ x, y });
  g_menu_append (edit, _("_Copy what is picked"), "win.copy");
  g_menu_append (edit, _("_Delete what is picked"), "win.delete");
  g_menu_append (edit, _("Cross _here"), "win.cross-here");
  sw_window_append_board_items (window, edit, at);
  append_things (under, sw_document_board (window->document), at);
  g_menu_append_section (menu, NULL, G_MENU_MODEL (edit));
  if (g_menu_model_get_n_items (G_MENU_MODEL (under)) > 0)
    g_menu_append_section (menu, _("Under the pointer"), G_MENU_MODEL (under));
  GtkWidget *popover = gtk_popover_menu_new_from_model (G_MENU_MODEL (menu));
  gtk_widget_set_parent (popover, GTK_WIDGET (view));
  gtk_popover_set_pointing_to (GTK_POPOVER (popover), &(GdkRectangle){ (int) x, (int) y, 1, 1 });
  gtk_popover_set_has_arrow (GTK_POPOVER (popover), FALSE);
  gtk_widget_set_halign (popover, GTK_ALIGN_START);
  g_signal_connect (popover, "closed", G_CALLBACK (on_closed), NULL);
  gtk_popover_popup (GTK_POPOVER (popover));
}

void
sw_window_init_plan_menu (SwWindow *window)
{
  g_signal_connect (window->plan_view, "menu", G_CALLBACK (on_menu), window);
}
