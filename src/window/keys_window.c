/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/keys_window.h"
#include "sheets/words.h"
#include "window/tools/board.h"

typedef struct { const char *keys, *what; } KeyRow;

static const KeyRow plan_rows[] = {
  { N_("Arrows"), N_("Move the crosshair; with Shift by 1 mm") },
  { N_("Control and arrows"), N_("Move the view") },
  { N_("Alt and arrows"), N_("Move what is picked") },
  { N_("Enter"), N_("Click at the crosshair; end what is drawn") },
  { N_("Escape"), N_("Drop what is typed, the draft, the tool, the pick: one each time") },
  { N_("Digits"), N_("Type a length while drawing, such as 1200+450/2 or 1.2 m") },
  { N_("Tab"), N_("To angle, coordinates and level while typing") },
  { N_("Backspace"), N_("Take the last place back") },
  { N_("Delete"), N_("Delete what is picked") },
  { N_("Shift and K"), N_("Keep the sheet at the crosshair where it is, or let it go") },
  { N_("Menu, or Shift and F10"), N_("What can be done at the crosshair, and all that lies there") },
  { N_("+  −  Home"), N_("Zoom in, out, fit") },
  { N_("Space and drag"), N_("Move the view") },
  { N_("Control while drawing"), N_("Catch on nothing") },
  { N_("Shift with a downlight"), N_("To the nearest allowed place, while placing or moving it") },
  { N_("Shift and O"), N_("Draw outlines corner by corner, or as rectangles") },
};
static const KeyRow window_rows[] = {
  { "Ctrl Z", N_("Undo") },
  { "Ctrl Shift Z", N_("Redo") },
  { "Ctrl D", N_("Copy what is picked") },
  { "Ctrl A", N_("Pick all of this step") },
  { "Ctrl 1 … 8", N_("Steps of the site") },
  { "Ctrl U", N_("Looking up or down") },
  { "Ctrl + − 0", N_("Zoom in, out, fit") },
  { "Ctrl L", N_("Lay out ceilings") },
  { "Ctrl B", N_("Boards side by side") },
  { "Ctrl E", N_("Sheets and schedules") },
  { "Ctrl Shift P", N_("Price and choice") },
  { "Ctrl Shift C", N_("Calculations") },
  { "Ctrl Shift X", N_("Cutting alone") },
  { "Ctrl Shift M", N_("As-built entry") },
  { "Ctrl Shift H", N_("Hold points") },
  { "Ctrl Shift R", N_("Rules") },
  { "Ctrl O", N_("Open a job") },
  { "Ctrl N", N_("New window") },
  { "Ctrl Shift S", N_("Save a copy") },
  { "Ctrl W", N_("Close the window or page") },
  { "Ctrl Q", N_("Close all windows") },
  { "F10", N_("Main menu") },
  { "F1", N_("These keys") },
};

static int
add_line (GtkGrid *grid, int line, const char *keys, const char *what)
{
  GtkWidget *left = gtk_label_new (keys), *right = gtk_label_new (what);
  gtk_label_set_xalign (GTK_LABEL (left), 0);
  gtk_label_set_xalign (GTK_LABEL (right), 0);
  gtk_label_set_wrap (GTK_LABEL (right), TRUE);
  gtk_widget_add_css_class (left, "heading");
  gtk_grid_attach (grid, left, 0, line, 1, 1);
  gtk_grid_attach (grid, right, 1, line, 1, 1);
  return line + 1;
}

static int
add_title (GtkGrid *grid, int line, const char *title)
{
  GtkWidget *label = gtk_label_new (title);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "group-title");
  gtk_grid_attach (grid, label, 0, line, 2, 1);
  return line + 1;
}

static int
add_rows (GtkGrid *grid, int line, const KeyRow *rows, gsize n)
{
  for (gsize i = 0; i < n; i++)
    line = add_line (grid, line, sw_word (rows[i].keys), sw_word (rows[i].what));
  return line;
}

static int
add_tools (GtkGrid *grid, int line)
{
  for (guint i = 0; i < sw_board_n_tools (); i++)
    {
      const SwToolRow *row = sw_board_tool_row (i);
      g_autofree char *key = g_strdup_printf (g_ascii_isupper (row->key) ? "Shift %c" : "%c", g_ascii_toupper (row->key));
      if (row->key != 0)
        line = add_line (grid, line, key, sw_word (row->label));
    }
  return line;
}

static void
add_closing_keys (GtkWidget *window)
{
  GtkEventController *controller = gtk_shortcut_controller_new ();
  static const char *const triggers[] = { "Escape", "<Control>w" };
  for (gsize i = 0; i < G_N_ELEMENTS (triggers); i++)
    gtk_shortcut_controller_add_shortcut (GTK_SHORTCUT_CONTROLLER (controller),
                                          gtk_shortcut_new (gtk_shortcut_trigger_parse_string (triggers[i]), gtk_named_action_new ("window.close")));
  gtk_widget_add_controller (window, controller);
}

GtkWidget *
sw_keys_window_new (GtkWindow *parent)
{
  GtkWidget *window = gtk_window_new (), *scrolled = gtk_scrolled_window_new (), *grid = gtk_grid_new ();
  int line = 0;
  gtk_grid_set_column_spacing (GTK_GRID (grid), 24);
  gtk_grid_set_row_spacing (GTK_GRID (grid), 4);
  gtk_widget_set_margin_start (grid, 18);
  gtk_widget_set_margin_end (grid, 18);
  gtk_widget_set_margin_bottom (grid, 18);
  line = add_title (GTK_GRID (grid), line, _("On the plan"));
  line = add_rows (GTK_GRID (grid), line, plan_rows, G_N_ELEMENTS (plan_rows));
  line = add_title (GTK_GRID (grid), line, _("Tools, while no field is typed in"));
  line = add_tools (GTK_GRID (grid), line);
  line = add_title (GTK_GRID (grid), line, _("Everywhere"));
  add_rows (GTK_GRID (grid), line, window_rows, G_N_ELEMENTS (window_rows));
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scrolled), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scrolled), grid);
  gtk_window_set_child (GTK_WINDOW (window), scrolled);
  gtk_window_set_title (GTK_WINDOW (window), _("Keys"));
  gtk_window_set_transient_for (GTK_WINDOW (window), parent);
  gtk_window_set_default_size (GTK_WINDOW (window), 520, 640);
  add_closing_keys (window);
  return window;
}
