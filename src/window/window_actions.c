/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Thin actions: each calls one function of the document, the board or the view. */
#include "window/compat.h"
#include "window/export_window.h"
#include "window/window_boards.h"
#include "window/window_pages.h"
#include "window/window_private.h"
#include "window/tools/add_record.h"
#include "base/paths.h"
#include "sheets/words.h"

static SwBoard *
board_of (SwWindow *window)
{
  return window->document != NULL ? sw_document_board (window->document) : NULL;
}

static GFile *
last_folder (SwWindow *window)
{
  g_autofree char *uri = g_settings_get_string (window->settings, "last-folder");
  return *uri != 0 ? g_file_new_for_uri (uri) : NULL;
}

static void
remember_folder (SwWindow *window, GFile *file)
{
  g_autoptr (GFile) folder = g_file_get_parent (file);
  g_autofree char *uri = folder != NULL ? g_file_get_uri (folder) : NULL;
  if (uri != NULL)
    g_settings_set_string (window->settings, "last-folder", uri);
}

static void
open_chosen (GFile *file, gpointer owner)
{
  remember_folder (owner, file);
  sw_window_open (owner, file);
}

static void
act_open (GtkWidget *widget, const char *name, GVariant *parameter)
{
  g_autofree char *own = sw_document_own_folder ();
  g_autoptr (GFile) last = last_folder (SW_WINDOW (widget)), folder = last != NULL ? g_object_ref (last) : g_file_new_for_path (own);
  sw_compat_choose (GTK_WINDOW (widget), SW_CHOOSE_JOB, NULL, folder, open_chosen);
}

/* Installed beside the data, in the source tree beside its folder. */
static GFile *
example_file (void)
{
  static const char *const places[] = { "examples/community-hall.json", "../examples/community-hall.json" };
  for (gsize i = 0; i < G_N_ELEMENTS (places); i++)
    {
      g_autofree char *path = sw_data_path (places[i]);
      if (g_file_test (path, G_FILE_TEST_EXISTS))
        return g_file_new_for_path (path);
    }
  return NULL;
}

static void
act_open_example (GtkWidget *widget, const char *name, GVariant *parameter)
{
  g_autoptr (GFile) file = example_file ();
  if (file != NULL)
    sw_window_open (SW_WINDOW (widget), file);
  else
    sw_window_show_fault (SW_WINDOW (widget), _("The example is not installed with this program."));
}

static void
act_open_recent (GtkWidget *widget, const char *name, GVariant *parameter)
{
  g_autoptr (GFile) file = g_file_new_for_uri (g_variant_get_string (parameter, NULL));
  sw_window_open (SW_WINDOW (widget), file);
}

static void
copy_chosen (GFile *file, gpointer owner)
{
  remember_folder (owner, file);
  if (sw_window_document (owner) != NULL)
    sw_document_save_copy (sw_window_document (owner), file);
}

static void
act_save_copy (GtkWidget *widget, const char *name, GVariant *parameter)
{
  SwWindow *window = SW_WINDOW (widget);
  g_autoptr (GFile) folder = last_folder (window);
  g_autofree char *title = NULL, *proposed = NULL;
  if (window->document == NULL)
    return;
  g_object_get (window->document, "title", &title, NULL);
  proposed = g_strdup_printf ("%s.soffit", title);
  g_strdelimit (proposed, "/\\:", '-');
  sw_compat_choose (GTK_WINDOW (widget), SW_CHOOSE_SAVE_JOB, proposed, folder, copy_chosen);
}

static void
act_undo (GtkWidget *widget, const char *name, GVariant *parameter)
{
  if (SW_WINDOW (widget)->document != NULL)
    sw_document_undo (SW_WINDOW (widget)->document);
}

static void
act_redo (GtkWidget *widget, const char *name, GVariant *parameter)
{
  if (SW_WINDOW (widget)->document != NULL)
    sw_document_redo (SW_WINDOW (widget)->document);
}

static void
act_revert (GtkWidget *widget, const char *name, GVariant *parameter)
{
  if (SW_WINDOW (widget)->document != NULL)
    sw_document_revert (SW_WINDOW (widget)->document);
}

static void
act_dismiss (GtkWidget *widget, const char *name, GVariant *parameter)
{
  sw_window_show_fault (SW_WINDOW (widget), NULL);
}

static void
act_zoom (GtkWidget *widget, const char *name, GVariant *parameter)
{
  SwCanvas *canvas = SW_CANVAS (SW_WINDOW (widget)->plan_view);
  double factor = g_variant_get_double (parameter);
  if (factor > 0)
    sw_canvas_zoom_by (canvas, factor);
  else
    sw_canvas_fit (canvas);
}

static void
act_tool (GtkWidget *widget, const char *name, GVariant *parameter)
{
  SwWindow *window = SW_WINDOW (widget);
  if (window->document == NULL)
    return;
  sw_board_use (board_of (window), g_variant_get_string (parameter, NULL));
  sw_window_follow_tool (window);
  gtk_widget_grab_focus (GTK_WIDGET (window->plan_view));
}

static void
act_site (GtkWidget *widget, const char *name, GVariant *parameter)
{
  sw_window_set_site (SW_WINDOW (widget), (SwSite) g_variant_get_int32 (parameter));
}

static void
act_delete (GtkWidget *widget, const char *name, GVariant *parameter)
{
  if (SW_WINDOW (widget)->document != NULL)
    sw_board_delete (board_of (SW_WINDOW (widget)));
}

static void
act_copy (GtkWidget *widget, const char *name, GVariant *parameter)
{
  if (SW_WINDOW (widget)->document != NULL)
    sw_board_copy (board_of (SW_WINDOW (widget)), (SwPoint){ 300, -300 });
}

static void
act_cross (GtkWidget *widget, const char *name, GVariant *parameter)
{
  if (SW_WINDOW (widget)->document != NULL)
    sw_board_cross_here (board_of (SW_WINDOW (widget)));
}

static void
act_lay_out (GtkWidget *widget, const char *name, GVariant *parameter)
{
  sw_window_lay_out (SW_WINDOW (widget));
}

static void
on_export_rule (SwExportWindow *exports, const char *rule_id, SwWindow *window)
{
  sw_window_show_rule (window, rule_id);
}

static void
act_export (GtkWidget *widget, const char *name, GVariant *parameter)
{
  SwWindow *window = SW_WINDOW (widget);
  if (window->document == NULL || sw_document_picture (window->document) == NULL)
    return;
  SwExportWindow *exports = sw_export_window_new (GTK_WINDOW (window), window->document);
  g_signal_connect_object (exports, "rule", G_CALLBACK (on_export_rule), window, 0);
  gtk_window_present (GTK_WINDOW (exports));
}

static void
underlay_chosen (GFile *file, gpointer owner)
{
  sw_window_put_underlay (owner, file);
}

static void
act_underlay (GtkWidget *widget, const char *name, GVariant *parameter)
{
  g_autoptr (GFile) folder = last_folder (SW_WINDOW (widget));
  sw_compat_choose (GTK_WINDOW (widget), SW_CHOOSE_PICTURE, NULL, folder, underlay_chosen);
}

static void
act_select_all (GtkWidget *widget, const char *name, GVariant *parameter)
{
  /* The window's keys come before those of a field: there the key means the field's text. */
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (widget));
  if (GTK_IS_EDITABLE (focus))
    gtk_editable_select_region (GTK_EDITABLE (focus), 0, -1);
  else if (SW_WINDOW (widget)->document != NULL)
    sw_board_pick_layers (board_of (SW_WINDOW (widget)), sw_site_row (SW_WINDOW (widget)->site)->front);
}

static void
act_pick_thing (GtkWidget *widget, const char *name, GVariant *parameter)
{
  if (SW_WINDOW (widget)->document != NULL)
    sw_board_pick (board_of (SW_WINDOW (widget)), g_variant_get_int64 (parameter), FALSE);
}

static void
act_add_record (GtkWidget *widget, const char *name, GVariant *parameter)
{
  SwWindow *window = SW_WINDOW (widget);
  SwTable table = sw_table_from_key (g_variant_get_string (parameter, NULL));
  g_autoptr (GError) error = NULL;
  SwId id;
  if (window->document == NULL || table == SW_N_TABLES || !sw_add_record_can (table))
    return;
  SwJob *job = sw_document_job (window->document);
  const SwRecord *picked = sw_board_n_picked (board_of (window)) == 1 ? sw_job_get (job, sw_board_picked (board_of (window), 0)) : NULL;
  SwEdit *edit = sw_add_record_edit (job, table, picked, &id, &error);
  if (edit == NULL)
    {
      sw_document_set_fault (window->document, error->message);
      return;
    }
  if (!sw_document_do (window->document, edit))
    return;
  sw_board_pick (board_of (window), id, FALSE);
  gtk_stack_set_visible_child_name (window->side_stack, "inspector");
  gtk_widget_child_focus (GTK_WIDGET (window->inspector), GTK_DIR_TAB_FORWARD);
}

static void
act_job (GtkWidget *widget, const char *name, GVariant *parameter)
{
  SwWindow *window = SW_WINDOW (widget);
  if (window->document == NULL)
    return;
  sw_board_pick (board_of (window), sw_job_info (sw_document_job (window->document))->record.id, FALSE);
  gtk_stack_set_visible_child_name (window->side_stack, "inspector");
}

void
sw_window_class_add_actions (GtkWidgetClass *class)
{
  static const struct
  {
    const char *name, *type;
    GtkWidgetActionActivateFunc activate;
  } actions[] = {
    { "win.open", NULL, act_open },           { "win.open-example", NULL, act_open_example }, { "win.open-recent", "s", act_open_recent },
    { "win.save-copy", NULL, act_save_copy }, { "win.undo", NULL, act_undo },                 { "win.redo", NULL, act_redo },
    { "win.revert", NULL, act_revert },       { "win.dismiss", NULL, act_dismiss },           { "win.zoom", "d", act_zoom },
    { "win.tool", "s", act_tool },            { "win.site", "i", act_site },                  { "win.delete", NULL, act_delete },
    { "win.copy", NULL, act_copy },           { "win.cross-here", NULL, act_cross },
    { "win.lay-out", NULL, act_lay_out },     { "win.export", NULL, act_export },             { "win.underlay", NULL, act_underlay },
    { "win.select-all", NULL, act_select_all }, { "win.job", NULL, act_job },
    { "win.pick-thing", "x", act_pick_thing }, { "win.add-record", "s", act_add_record },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (actions); i++)
    gtk_widget_class_install_action (class, actions[i].name, actions[i].type, actions[i].activate);
  sw_window_class_add_pages (class);
  sw_window_class_add_boards (class);
}

/* ---- Switches that keep their state ---- */

static void
on_looking_up (GSettings *settings, const char *key, SwWindow *window)
{
  sw_plan_view_set_looking_up (window->plan_view, g_settings_get_boolean (settings, "looking-up"));
}

static void
on_snap (GSettings *settings, const char *key, SwWindow *window)
{
  if (window->document != NULL)
    sw_board_set_snaps (board_of (window), g_settings_get_boolean (settings, "snap"));
}

static void
change_polygons (GSimpleAction *action, GVariant *state, gpointer data)
{
  SwWindow *window = data;
  g_simple_action_set_state (action, state);
  if (window->document != NULL)
    sw_board_set_polygons (board_of (window), g_variant_get_boolean (state));
}

static void
build_menu (SwWindow *window)
{
  g_autoptr (GMenu) edit = g_menu_new (), view = g_menu_new (), file = g_menu_new (), about = g_menu_new ();
  g_autoptr (GMenuModel) pages = sw_window_pages_menu ();
  window->menu = g_menu_new ();
  g_menu_append (edit, _("Pick _all of this step"), "win.select-all");
  g_menu_append (edit, _("_Copy what is picked"), "win.copy");
  g_menu_append (edit, _("_Delete what is picked"), "win.delete");
  g_menu_append (edit, _("Go _back to the job as it was opened"), "win.revert");
  g_menu_append (view, _("_Looking up"), "win.looking-up");
  g_menu_append (view, _("_Catch while drawing"), "win.snap");
  g_menu_append (view, _("Corners _one by one"), "win.polygons");
  g_menu_append (view, _("_Fit the plan"), "win.zoom(0.0)");
  g_menu_append (file, _("Values of the _job"), "win.job");
  g_menu_append (file, _("_Put a plan picture under it…"), "win.underlay");
  g_menu_append (file, _("Sheets and s_chedules…"), "win.export");
  g_menu_append (file, _("_Save a copy…"), "win.save-copy");
  g_menu_append (about, _("_Dark look"), "app.dark");
  g_menu_append (about, _("_Keys"), "app.keys");
  g_menu_append (about, _("_About Soffitwright"), "app.about");
  g_menu_append_section (window->menu, NULL, G_MENU_MODEL (edit));
  g_menu_append_section (window->menu, NULL, G_MENU_MODEL (view));
  g_menu_append_section (window->menu, NULL, pages);
  g_menu_append_section (window->menu, NULL, G_MENU_MODEL (file));
  g_menu_append_section (window->menu, NULL, G_MENU_MODEL (about));
  gtk_menu_button_set_menu_model (window->menu_button, G_MENU_MODEL (window->menu));
}

void
sw_window_init_actions (SwWindow *window)
{
  g_autoptr (GAction) up = g_settings_create_action (window->settings, "looking-up");
  g_autoptr (GAction) snap = g_settings_create_action (window->settings, "snap");
  g_autoptr (GSimpleAction) polygons = g_simple_action_new_stateful ("polygons", NULL, g_variant_new_boolean (FALSE));
  g_action_map_add_action (G_ACTION_MAP (window), up);
  g_action_map_add_action (G_ACTION_MAP (window), snap);
  g_signal_connect (polygons, "change-state", G_CALLBACK (change_polygons), window);
  g_action_map_add_action (G_ACTION_MAP (window), G_ACTION (polygons));
  g_signal_connect_object (window->settings, "changed::looking-up", G_CALLBACK (on_looking_up), window, 0);
  g_signal_connect_object (window->settings, "changed::snap", G_CALLBACK (on_snap), window, 0);
  on_looking_up (window->settings, NULL, window);
  build_menu (window);
}

static void
set_step (SwWindow *window, GtkWidget *button, const char *prop, const char *action, const char *plain, const char *named)
{
  g_autofree char *name = NULL, *label = NULL;
  if (window->document != NULL)
    g_object_get (window->document, prop, &name, NULL);
  label = name != NULL ? g_strdup_printf (named, name) : g_strdup (plain);
  gtk_widget_action_set_enabled (GTK_WIDGET (window), action, name != NULL);
  gtk_widget_set_tooltip_text (button, label);
}

void
sw_window_update_actions (SwWindow *window)
{
  GtkWidget *widget = GTK_WIDGET (window);
  gboolean has = window->document != NULL;
  gboolean writable = has && !sw_document_is_read_only (window->document);
  gboolean picked = has && sw_board_n_picked (board_of (window)) > 0;
  set_step (window, window->undo_button, "undo-name", "win.undo", _("Undo"), _("Undo %s"));
  set_step (window, window->redo_button, "redo-name", "win.redo", _("Redo"), _("Redo %s"));
  gtk_widget_set_visible (window->looking_up_button, has);
  gtk_widget_action_set_enabled (widget, "win.delete", picked && writable);
  gtk_widget_action_set_enabled (widget, "win.copy", picked && writable);
  gtk_widget_action_set_enabled (widget, "win.revert", writable && sw_desk_can_undo (sw_document_desk (window->document)));
  gtk_widget_action_set_enabled (widget, "win.save-copy", has);
  gtk_widget_action_set_enabled (widget, "win.export", has);
  gtk_widget_action_set_enabled (widget, "win.job", has);
  gtk_widget_action_set_enabled (widget, "win.select-all", has);
  gtk_widget_action_set_enabled (widget, "win.lay-out", writable);
  gtk_widget_action_set_enabled (widget, "win.underlay", !has || writable);
  gtk_widget_action_set_enabled (widget, "win.add-record", has && writable);
  gtk_widget_action_set_enabled (widget, "win.cross-here", writable);
  sw_window_update_pages (window);
  sw_window_update_boards (window);
}
