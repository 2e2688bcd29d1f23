/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/window_pages.h"
#include "window/window_private.h"
#include "window/wrap_layout.h"
#include "sheets/words.h"
#include "store/catalogue.h"
#include "window/tools/new_job.h"
#include "window/tools/shape.h"

G_DEFINE_FINAL_TYPE (SwWindow, sw_window, GTK_TYPE_APPLICATION_WINDOW)

SwDocument *
sw_window_document (SwWindow *window)
{
  return window->document;
}

static void
on_fault (SwWindow *window)
{
  const char *fault = window->document != NULL ? sw_document_fault (window->document) : NULL;
  if (fault != NULL)
    gtk_label_set_text (window->fault_label, fault);
  gtk_revealer_set_reveal_child (window->fault_revealer, fault != NULL);
}

void
sw_window_show_fault (SwWindow *window, const char *fault)
{
  if (window->document != NULL)
    {
      sw_document_set_fault (window->document, fault);
      return;
    }
  gtk_label_set_text (window->fault_label, fault != NULL ? fault : "");
  gtk_revealer_set_reveal_child (window->fault_revealer, fault != NULL);
}

static void
on_read_only (SwWindow *window)
{
  const char *text = window->document != NULL ? sw_document_read_only_text (window->document) : NULL;
  gtk_label_set_text (window->read_only_label, text != NULL ? text : "");
  gtk_revealer_set_reveal_child (window->read_only_revealer, text != NULL);
}

static void
on_title (SwWindow *window)
{
  g_autofree char *title = NULL;
  if (window->document != NULL)
    g_object_get (window->document, "title", &title, NULL);
  gtk_label_set_text (window->title_label, title != NULL ? title : _("Soffitwright"));
  gtk_window_set_title (GTK_WINDOW (window), title != NULL ? title : _("Soffitwright"));
}

static void
on_picture (SwDocument *document, SwWindow *window)
{
  sw_window_update_totals (window);
  sw_window_update_status (window);
}

static void
on_changed (SwDocument *document, SwWindow *window)
{
  sw_window_update_actions (window);
  sw_underlays_update (window->underlays, document);
}

static void
on_board (SwBoard *board, guint changes, gpointer data)
{
  if ((changes & SW_BOARD_TOOL) != 0)
    sw_window_update_tools (data);
  if ((changes & (SW_BOARD_TOOL | SW_BOARD_SAYS)) != 0)
    sw_window_update_status (data);
  if ((changes & SW_BOARD_PICKED) != 0)
    sw_window_update_actions (data);
}

static void
on_busy (SwWindow *window)
{
  gboolean busy = FALSE;
  if (window->document != NULL)
    g_object_get (window->document, "busy", &busy, NULL);
  gtk_spinner_set_spinning (window->busy_spinner, busy);
}

static void
set_views_document (SwWindow *window, SwDocument *document)
{
  sw_plan_view_set_document (window->plan_view, document);
  sw_section_view_set_document (window->section_view, document);
  sw_inspector_set_document (window->inspector, document);
  sw_thing_list_set_document (window->thing_list, document);
  sw_snag_panel_set_document (window->snag_panel, document);
}

void
sw_window_set_document (SwWindow *window, SwDocument *document)
{
  if (window->document != NULL)
    sw_board_unwatch (sw_document_board (window->document), on_board, window);
  g_set_object (&window->document, document);
  g_signal_group_set_target (window->signals, document);
  g_binding_group_set_source (window->bindings, document);
  set_views_document (window, document);
  if (document != NULL)
    sw_board_watch (sw_document_board (document), on_board, window);
  gtk_stack_set_visible_child_name (window->stack, document != NULL ? "desk" : "start");
  on_fault (window);
  on_read_only (window);
  on_title (window);
  on_busy (window);
  if (document == NULL)
    gtk_label_set_text (window->subtitle_label, "");
  gtk_widget_set_visible (GTK_WIDGET (window->subtitle_label), document != NULL);
  g_cancellable_cancel (window->laying_out);
  sw_underlays_update (window->underlays, document);
  sw_window_set_site (window, window->site);
  sw_window_update_actions (window);
  sw_window_update_tools (window);
  sw_window_update_status (window);
  sw_window_update_totals (window);
  sw_window_remember_job (window);
  if (document != NULL)
    gtk_widget_grab_focus (GTK_WIDGET (window->plan_view));
}

void
sw_window_open (SwWindow *window, GFile *file)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwDocument) document = sw_document_open (file, &error);
  if (document == NULL)
    {
      sw_window_show_fault (window, error->message);
      return;
    }
  if (window->document != NULL)
    {
      window = sw_window_new (gtk_window_get_application (GTK_WINDOW (window)), window->settings, window->appearance);
      gtk_window_present (GTK_WINDOW (window));
    }
  sw_window_set_document (window, document);
}

static void
on_start (SwStartPage *page, double length, double width, guint profile, SwWindow *window)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwJob) job = window->catalogue != NULL ? sw_new_job_empty (window->catalogue, &error) : NULL;
  const SwRecord *record = job != NULL ? sw_job_nth (job, SW_TABLE_PROFILE, profile) : NULL;
  g_autoptr (SwEdit) edit = record != NULL ? sw_new_job_rectangle (job, length, width, record->id, &error) : NULL;
  g_autoptr (SwDocument) document = edit != NULL ? sw_document_new_from_job (job, &error) : NULL;
  if (document == NULL || !sw_document_do (document, g_steal_pointer (&edit)))
    {
      sw_window_show_fault (window, error != NULL ? error->message : _("The catalogue of profiles cannot be read."));
      return;
    }
  sw_window_set_document (window, document);
}

static void
load_catalogue (SwWindow *window)
{
  g_autoptr (GError) error = NULL;
  window->catalogue = sw_catalogue_load (&error);
  if (window->catalogue != NULL)
    sw_start_page_set_catalogue (window->start_page, window->catalogue);
  else
    sw_window_show_fault (window, error->message);
}

/* ---- What one view tells the others ---- */

#define SHOW_MM 1200 /* about a place that is shown */

static void
on_pointer (SwWindow *window)
{
  SwPoint at;
  sw_window_update_status (window);
  if (window->document != NULL && sw_board_has_cursor (sw_document_board (window->document), &at))
    sw_section_view_follow (window->section_view, at);
}

static void
on_section_title (SwWindow *window)
{
  g_autofree char *title = sw_section_view_title (window->section_view);
  gtk_label_set_text (window->section_label, title);
  gtk_widget_set_sensitive (GTK_WIDGET (window->along_button), sw_section_view_can_show_along (window->section_view));
}

static void
on_along (SwWindow *window)
{
  sw_section_view_set_along (window->section_view, gtk_toggle_button_get_active (window->along_button));
}

static void
show_place (SwWindow *window, SwPoint at)
{
  gtk_toggle_button_set_active (window->along_button, FALSE);
  sw_canvas_show (SW_CANVAS (window->plan_view), at, SHOW_MM);
  sw_section_view_show (window->section_view, at);
}

static void
on_show_snag (SwSnagPanel *panel, double x, double y, gint64 record, SwWindow *window)
{
  if (sw_job_get (sw_document_job (window->document), record) != NULL) /* what is being drawn is not there yet */
    sw_board_pick (sw_document_board (window->document), record, FALSE);
  show_place (window, (SwPoint){ x, y });
}

static void
on_show_rule (SwSnagPanel *panel, const char *rule_id, SwWindow *window)
{
  sw_window_show_rule (window, rule_id);
}

static void
on_show_thing (SwThingList *list, gint64 id, SwWindow *window)
{
  const SwPicture *picture = sw_document_picture (window->document);
  const SwRecord *record = sw_job_get (sw_document_job (window->document), id);
  SwPoint at;
  if (record != NULL && sw_shape_place (sw_document_job (window->document), picture != NULL ? picture->deck : NULL, record, &at))
    show_place (window, at);
  gtk_stack_set_visible_child_name (window->side_stack, "inspector");
  gtk_widget_child_focus (GTK_WIDGET (window->inspector), GTK_DIR_TAB_FORWARD);
}

static void
connect_views (SwWindow *window)
{
  g_signal_connect_swapped (window->plan_view, "pointer", G_CALLBACK (on_pointer), window);
  g_signal_connect_swapped (window->section_view, "title", G_CALLBACK (on_section_title), window);
  g_signal_connect_swapped (window->along_button, "toggled", G_CALLBACK (on_along), window);
  g_signal_connect (window->snag_panel, "show-place", G_CALLBACK (on_show_snag), window);
  g_signal_connect (window->snag_panel, "show-rule", G_CALLBACK (on_show_rule), window);
  g_signal_connect (window->thing_list, "show-thing", G_CALLBACK (on_show_thing), window);
}

static void
on_appearance (SwWindow *window)
{
  SwTheme theme = sw_appearance_theme (window->appearance);
  sw_plan_view_set_theme (window->plan_view, theme);
  sw_section_view_set_theme (window->section_view, theme);
  if (theme == SW_THEME_DARK)
    gtk_widget_add_css_class (GTK_WIDGET (window), "dark");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (window), "dark");
}

SwWindow *
sw_window_new (GtkApplication *application, GSettings *settings, SwAppearance *appearance)
{
  SwWindow *window = g_object_new (SW_TYPE_WINDOW, "application", application, NULL);
  int width, height;
  window->settings = g_object_ref (settings);
  window->appearance = g_object_ref (appearance);
  g_signal_connect_object (appearance, "changed", G_CALLBACK (on_appearance), window, G_CONNECT_SWAPPED);
  g_settings_get (settings, "window-size", "(ii)", &width, &height);
  gtk_window_set_default_size (GTK_WINDOW (window), width, height);
  if (g_settings_get_boolean (settings, "window-maximised"))
    gtk_window_maximize (GTK_WINDOW (window));
  sw_window_init_actions (window);
  sw_window_fill_recent (window);
  on_appearance (window);
  load_catalogue (window);
  sw_window_set_document (window, NULL);
  return window;
}

static void
remember_size (SwWindow *window)
{
  int width, height;
  gtk_window_get_default_size (GTK_WINDOW (window), &width, &height);
  g_settings_set_boolean (window->settings, "window-maximised", gtk_window_is_maximized (GTK_WINDOW (window)));
  if (width > 0 && height > 0)
    g_settings_set (window->settings, "window-size", "(ii)", width, height);
}

static gboolean
window_close_request (GtkWindow *window)
{
  remember_size (SW_WINDOW (window));
  return GTK_WINDOW_CLASS (sw_window_parent_class)->close_request (window);
}

static void
init_bindings (SwWindow *window)
{
  window->bindings = g_binding_group_new ();
  g_binding_group_bind (window->bindings, "subtitle", window->subtitle_label, "label", G_BINDING_SYNC_CREATE);
  window->signals = g_signal_group_new (SW_TYPE_DOCUMENT);
  g_signal_group_connect_swapped (window->signals, "notify::fault", G_CALLBACK (on_fault), window);
  g_signal_group_connect_swapped (window->signals, "notify::read-only-text", G_CALLBACK (on_read_only), window);
  g_signal_group_connect_swapped (window->signals, "notify::title", G_CALLBACK (on_title), window);
  g_signal_group_connect_swapped (window->signals, "notify::busy", G_CALLBACK (on_busy), window);
  g_signal_group_connect (window->signals, "picture", G_CALLBACK (on_picture), window);
  g_signal_group_connect (window->signals, "changed", G_CALLBACK (on_changed), window);
}

/* Letters that what has the focus has no use for start tools, as on the plan. */
static gboolean
on_letter (GtkEventControllerKey *key, guint keyval, guint code, GdkModifierType state, SwWindow *window)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (window));
  return (state & (GDK_CONTROL_MASK | GDK_ALT_MASK | GDK_SUPER_MASK)) == 0
         && (focus == NULL || gtk_widget_get_native (focus) == GTK_NATIVE (window))
         && sw_plan_view_use_tool_of_key (window->plan_view, gdk_keyval_to_unicode (keyval));
}

static void
init_keys (SwWindow *window)
{
  GtkEventController *key = gtk_event_controller_key_new ();
  g_signal_connect (key, "key-pressed", G_CALLBACK (on_letter), window);
  gtk_widget_add_controller (GTK_WIDGET (window), key);
}

static void
sw_window_init (SwWindow *window)
{
  g_type_ensure (SW_TYPE_PLAN_VIEW);
  g_type_ensure (SW_TYPE_WRAP_LAYOUT);
  g_type_ensure (SW_TYPE_START_PAGE);
  g_type_ensure (SW_TYPE_SECTION_VIEW);
  g_type_ensure (SW_TYPE_INSPECTOR);
  g_type_ensure (SW_TYPE_THING_LIST);
  g_type_ensure (SW_TYPE_SNAG_PANEL);
  gtk_widget_init_template (GTK_WIDGET (window));
  window->site = SW_SITE_DECK;
  init_bindings (window);
  init_keys (window);
  window->underlays = sw_underlays_new (sw_canvas_tiles (SW_CANVAS (window->plan_view)));
  sw_window_init_tools (window);
  g_signal_connect (window->start_page, "start", G_CALLBACK (on_start), window);
  connect_views (window);
  sw_window_init_plan_menu (window);
}

static void
window_dispose (GObject *object)
{
  SwWindow *window = SW_WINDOW (object);
  if (window->document != NULL)
    {
      sw_board_unwatch (sw_document_board (window->document), on_board, window);
      set_views_document (window, NULL);
    }
  if (window->price_desk != NULL)
    g_clear_signal_handler (&window->price_watch, window->price_desk);
  g_clear_object (&window->price_desk);
  g_cancellable_cancel (window->laying_out);
  g_clear_object (&window->laying_out);
  g_clear_pointer (&window->underlays, sw_underlays_free);
  g_clear_object (&window->bindings);
  g_clear_object (&window->signals);
  g_clear_object (&window->document);
  g_clear_object (&window->settings);
  g_clear_object (&window->appearance);
  g_clear_object (&window->menu);
  g_clear_pointer (&window->catalogue, sw_job_unref);
  G_OBJECT_CLASS (sw_window_parent_class)->dispose (object);
}

#define BIND(member) gtk_widget_class_bind_template_child (widget_class, SwWindow, member)

static void
bind_children (GtkWidgetClass *widget_class)
{
  BIND (title_label);
  BIND (subtitle_label);
  BIND (fault_label);
  BIND (read_only_label);
  BIND (hint_label);
  BIND (place_label);
  BIND (scale_label);
  BIND (menu_button);
  BIND (open_button);
  BIND (undo_button);
  BIND (looking_up_button);
  BIND (redo_button);
  BIND (recent_section);
  BIND (busy_spinner);
  BIND (fault_revealer);
  BIND (read_only_revealer);
  BIND (stack);
  BIND (start_page);
  BIND (site_list);
  BIND (totals_grid);
  BIND (left_paned);
  BIND (right_paned);
  BIND (strip_paned);
  BIND (tool_box);
  BIND (typed_box);
  BIND (side_paned);
  BIND (side_stack);
  BIND (section_view);
  BIND (section_label);
  BIND (along_button);
  BIND (inspector);
  BIND (thing_list);
  BIND (snag_panel);
  BIND (plan_view);
}

static void
sw_window_class_init (SwWindowClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  G_OBJECT_CLASS (class)->dispose = window_dispose;
  GTK_WINDOW_CLASS (class)->close_request = window_close_request;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/soffitwright/Soffitwright/window.ui");
  bind_children (widget_class);
  sw_window_class_add_actions (widget_class);
}
