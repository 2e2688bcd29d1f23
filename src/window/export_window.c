/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Drawn from the document's last picture, which cannot change under it; long work runs in a thread on the same picture. */
#include "window/export_window.h"
#include "sheets/schedule_rules.h"
#include "sheets/words.h"
#include "window/compat.h"
#include "window/export_items.h"
#include "window/page_preview.h"

#define MOST_ROWS 300 /* of a schedule's preview */

struct _SwExportWindow
{
  GtkWindow parent_instance;
  GtkListBox *list_box;
  GtkStack *stack;
  SwPagePreview *preview;
  GtkGrid *table_grid;
  GtkCheckButton *mono_check;
  GtkDropDown *format_drop_down;
  GtkLabel *result_label;
  GtkWidget *export_button, *export_all_button, *print_button;
  GtkWidget *page_box, *back_button, *forward_button;
  GtkLabel *page_label;
  SwExports *exports; /* NULL until they are worked out */
  guint item;
  SwSheet *sheet;     /* the one that is shown; NULL for a schedule */
  guint page;
};

G_DEFINE_FINAL_TYPE (SwExportWindow, sw_export_window, GTK_TYPE_WINDOW)

static guint rule_signal;

static const char *const endings[] = { "svg", "pdf", "png" };

static const char *
ending_of (SwExportWindow *window)
{
  return endings[MIN (gtk_drop_down_get_selected (window->format_drop_down), G_N_ELEMENTS (endings) - 1)];
}

static void
say (SwExportWindow *window, const char *text)
{
  gtk_label_set_text (window->result_label, text);
  gtk_widget_set_tooltip_text (GTK_WIDGET (window->result_label), text);
}

/* ---- Preview ---- */

static void
clear_table (SwExportWindow *window)
{
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (window->table_grid))) != NULL)
    gtk_grid_remove (window->table_grid, child);
}

static void
add_cell (SwExportWindow *window, int column, int row, const char *text, gboolean heading, gboolean number)
{
  GtkWidget *label = gtk_label_new (text);
  gtk_label_set_xalign (GTK_LABEL (label), number ? 1 : 0);
  gtk_widget_add_css_class (label, heading ? "heading" : "numeric");
  gtk_grid_attach (window->table_grid, label, column, row, 1, 1);
}

static void
on_rule (GtkButton *button, SwExportWindow *window)
{
  g_signal_emit (window, rule_signal, 0, (const char *) g_object_get_data (G_OBJECT (button), "rule"));
}

static GtkWidget *
rule_button (SwExportWindow *window, const char *text, const char *rule_id)
{
  GtkWidget *button = gtk_button_new_with_label (text), *label = gtk_button_get_child (GTK_BUTTON (button));
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_button_set_has_frame (GTK_BUTTON (button), FALSE);
  gtk_widget_set_tooltip_text (button, _("Show this number among the rules"));
  g_object_set_data_full (G_OBJECT (button), "rule", g_strdup (rule_id), g_free);
  g_signal_connect (button, "clicked", G_CALLBACK (on_rule), window);
  return button;
}

/* Below the table: each number that its figures rest on, which leads to the page of rules. */
static void
add_rules (SwExportWindow *window, const SwScheduleInfo *info, int row)
{
  g_autoptr (GPtrArray) rules = sw_schedule_rules (info, G_MAXUINT, sw_exports_rules (window->exports));
  int span = (int) info->n_columns;
  if (rules->len == 0)
    return;
  GtkWidget *head = gtk_label_new (_("Rests on"));
  gtk_label_set_xalign (GTK_LABEL (head), 0);
  gtk_widget_add_css_class (head, "heading");
  gtk_widget_set_margin_top (head, 12);
  gtk_grid_attach (window->table_grid, head, 0, row, span, 1);
  for (guint i = 0; i < rules->len; i++)
    {
      const SwScheduleRule *rule = rules->pdata[i];
      g_autofree char *text = sw_schedule_rule_text (info, rule, SW_LENGTHS_MM);
      gtk_grid_attach (window->table_grid, rule_button (window, text, rule->rule_id), 0, row + 1 + (int) i, span, 1);
    }
}

/* The first rule of a column stands behind its heading too. */
static void
add_heading (SwExportWindow *window, const SwScheduleInfo *info, guint column)
{
  g_autofree char *heading = sw_schedule_heading (info, column);
  g_autoptr (GPtrArray) rules = sw_schedule_rules (info, column, sw_exports_rules (window->exports));
  if (rules->len == 0)
    {
      add_cell (window, (int) column, 0, heading, TRUE, info->columns[column].kind == SW_CELL_NUMBER);
      return;
    }
  GtkWidget *button = rule_button (window, heading, ((const SwScheduleRule *) rules->pdata[0])->rule_id);
  gtk_widget_add_css_class (gtk_button_get_child (GTK_BUTTON (button)), "heading");
  gtk_grid_attach (window->table_grid, button, (int) column, 0, 1, 1);
}

static void
show_schedule (SwExportWindow *window)
{
  g_autoptr (SwSchedule) schedule = sw_exports_schedule (window->exports, window->item);
  const SwScheduleInfo *info = sw_schedule_info (schedule);
  clear_table (window);
  gtk_stack_set_visible_child_name (window->stack, "schedule");
  for (guint c = 0; c < info->n_columns; c++)
    {
      gboolean number = info->columns[c].kind == SW_CELL_NUMBER;
      add_heading (window, info, c);
      for (guint r = 0; r < MIN (sw_schedule_n_rows (schedule), MOST_ROWS); r++)
        add_cell (window, (int) c, (int) r + 1, sw_schedule_text (schedule, r, c), FALSE, number);
    }
  add_rules (window, info, (int) MIN (sw_schedule_n_rows (schedule), MOST_ROWS) + 1);
}

static void
show_page (SwExportWindow *window)
{
  guint n = sw_sheet_n_pages (window->sheet);
  const SwSheetPage *page = &sw_sheet_pages (window->sheet)[window->page];
  g_autofree char *text = g_strdup_printf (_("Page %u of %u"), window->page + 1, n);
  gtk_label_set_text (window->page_label, text);
  gtk_widget_set_sensitive (window->back_button, window->page > 0);
  gtk_widget_set_sensitive (window->forward_button, window->page + 1 < n);
  sw_page_preview_set_page (window->preview, (SwDisplay *) page->display, &page->page);
}

static void
show_sheet (SwExportWindow *window)
{
  g_autoptr (GError) error = NULL;
  window->sheet = sw_exports_draw (window->exports, window->item, gtk_check_button_get_active (window->mono_check), &error);
  gtk_stack_set_visible_child_name (window->stack, "sheet");
  if (window->sheet == NULL)
    {
      sw_page_preview_set_page (window->preview, NULL, NULL);
      say (window, error->message);
      return;
    }
  window->page = MIN (window->page, sw_sheet_n_pages (window->sheet) - 1);
  show_page (window);
}

static void
show_item (SwExportWindow *window)
{
  gboolean is_sheet = sw_exports_item (window->exports, window->item)->sheet != NULL;
  g_clear_pointer (&window->sheet, sw_sheet_free);
  if (is_sheet)
    show_sheet (window);
  else
    show_schedule (window);
  gtk_widget_set_sensitive (window->print_button, window->sheet != NULL);
  gtk_widget_set_visible (window->page_box, window->sheet != NULL && sw_sheet_n_pages (window->sheet) > 1);
}

static void
on_row (GtkListBox *list, GtkListBoxRow *row, SwExportWindow *window)
{
  if (row == NULL || window->exports == NULL)
    return;
  window->item = (guint) gtk_list_box_row_get_index (row);
  window->page = 0;
  show_item (window);
}

static void
on_mono (GtkCheckButton *check, SwExportWindow *window)
{
  if (window->exports != NULL)
    show_item (window);
}

static void
on_back (GtkButton *button, SwExportWindow *window)
{
  if (window->sheet == NULL || window->page == 0)
    return;
  window->page--;
  show_page (window);
}

static void
on_forward (GtkButton *button, SwExportWindow *window)
{
  if (window->sheet == NULL || window->page + 1 >= sw_sheet_n_pages (window->sheet))
    return;
  window->page++;
  show_page (window);
}

/* ---- Export ---- */

static void
export_chosen (GFile *file, gpointer owner)
{
  SwExportWindow *window = owner;
  GError *error = NULL;
  g_autofree char *path = g_file_get_path (file);
  if (path != NULL && sw_exports_write (window->exports, window->item, gtk_check_button_get_active (window->mono_check), path, &error))
    {
      g_autofree char *text = sw_sheets_written_text (path, window->sheet != NULL ? sw_sheet_n_pages (window->sheet) : 1);
      say (window, text);
    }
  else
    say (window, error != NULL ? error->message : _("Only places on this computer can be written to."));
  g_clear_error (&error);
}

static void
on_export (GtkButton *button, SwExportWindow *window)
{
  if (window->exports == NULL)
    return;
  const SwReportItem *item = sw_exports_item (window->exports, window->item);
  g_autofree char *name = g_strdup_printf ("%s.%s", item->stem, item->sheet != NULL ? ending_of (window) : "csv");
  sw_compat_choose (GTK_WINDOW (window), SW_CHOOSE_SAVE_ANY, name, NULL, export_chosen);
}

typedef struct
{
  SwExports *exports;
  char *folder;
  const char *ending;
  gboolean mono;
} Order;

static void
order_free (Order *order)
{
  sw_exports_unref (order->exports);
  g_free (order->folder);
  g_free (order);
}

static void
export_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Order *order = data;
  GError *error = NULL;
  int n = sw_exports_write_all (order->exports, order->folder, order->ending, order->mono, cancellable, &error);
  if (n < 0)
    g_task_return_error (task, error);
  else
    g_task_return_int (task, n);
}

static void
on_exported (GObject *source, GAsyncResult *result, gpointer data)
{
  SwExportWindow *window = SW_EXPORT_WINDOW (source);
  const Order *order = g_task_get_task_data (G_TASK (result));
  g_autoptr (GError) error = NULL;
  gssize n = g_task_propagate_int (G_TASK (result), &error);
  g_autofree char *text = n < 0 ? g_strdup (error->message) : g_strdup_printf (_("%d files written to %s"), (int) n, order->folder);
  gtk_widget_set_sensitive (window->export_all_button, TRUE);
  say (window, text);
}

void
sw_export_window_export_all (SwExportWindow *window, GFile *folder)
{
  if (window->exports == NULL)
    return;
  Order *order = g_new0 (Order, 1);
  order->exports = sw_exports_ref (window->exports);
  order->folder = g_file_get_path (folder);
  order->ending = ending_of (window);
  order->mono = gtk_check_button_get_active (window->mono_check);
  gtk_widget_set_sensitive (window->export_all_button, FALSE);
  say (window, _("Writing …"));
  g_autoptr (GTask) task = g_task_new (window, NULL, on_exported, NULL);
  g_task_set_task_data (task, order, (GDestroyNotify) order_free);
  g_task_run_in_thread (task, export_thread);
}

static void
folder_chosen (GFile *file, gpointer owner)
{
  sw_export_window_export_all (owner, file);
}

static void
on_export_all (GtkButton *button, SwExportWindow *window)
{
  sw_compat_choose (GTK_WINDOW (window), SW_CHOOSE_FOLDER, NULL, NULL, folder_chosen);
}

/* ---- Print ---- */

static void
on_draw_page (GtkPrintOperation *print, GtkPrintContext *context, int number, SwExportWindow *window)
{
  if (window->sheet == NULL || number < 0 || (guint) number >= sw_sheet_n_pages (window->sheet))
    return;
  const SwSheetPage *sheet = &sw_sheet_pages (window->sheet)[number];
  SwPoint size = sw_page_size (&sheet->page);
  /* True size when the printer has the paper, else as large as it lets it be. */
  double scale = MIN (gtk_print_context_get_width (context) / size.x, gtk_print_context_get_height (context) / size.y);
  sw_page_paint (gtk_print_context_get_cairo_context (context), sheet->display, &sheet->page, MIN (scale, 72 / 25.4));
}

static void
on_print (GtkButton *button, SwExportWindow *window)
{
  if (window->sheet == NULL)
    return;
  SwPage page = sw_sheet_pages (window->sheet)->page;
  SwPoint size = sw_page_size (&page);
  g_autoptr (GtkPrintOperation) print = gtk_print_operation_new ();
  g_autoptr (GtkPageSetup) setup = gtk_page_setup_new ();
  GtkPaperSize *paper = gtk_paper_size_new_custom (sw_paper_name (page.paper), sw_paper_name (page.paper), MIN (size.x, size.y), MAX (size.x, size.y), GTK_UNIT_MM);
  gtk_page_setup_set_paper_size (setup, paper);
  gtk_page_setup_set_orientation (setup, size.x > size.y ? GTK_PAGE_ORIENTATION_LANDSCAPE : GTK_PAGE_ORIENTATION_PORTRAIT);
  gtk_paper_size_free (paper);
  gtk_print_operation_set_default_page_setup (print, setup);
  gtk_print_operation_set_use_full_page (print, TRUE);
  gtk_print_operation_set_unit (print, GTK_UNIT_POINTS);
  gtk_print_operation_set_n_pages (print, (int) sw_sheet_n_pages (window->sheet));
  gtk_print_operation_set_job_name (print, sw_sheet_title (window->sheet));
  g_signal_connect (print, "draw-page", G_CALLBACK (on_draw_page), window);
  g_autoptr (GError) error = NULL;
  if (gtk_print_operation_run (print, GTK_PRINT_OPERATION_ACTION_PRINT_DIALOG, GTK_WINDOW (window), &error) == GTK_PRINT_OPERATION_RESULT_ERROR)
    say (window, error->message);
}

/* ---- Window ---- */

static void
fill_list (SwExportWindow *window)
{
  for (guint i = 0; i < sw_exports_n (window->exports); i++)
    {
      const char *title = sw_exports_item (window->exports, i)->title;
      GtkWidget *label = gtk_label_new (title), *row = gtk_list_box_row_new ();
      gtk_label_set_xalign (GTK_LABEL (label), 0);
      gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
      gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), label);
      gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, title, -1);
      gtk_list_box_append (window->list_box, row);
    }
}

/* A line between sheets and schedules. */
static void
list_header (GtkListBoxRow *row, GtkListBoxRow *before, gpointer data)
{
  SwExportWindow *window = data;
  gboolean edge = before != NULL && sw_exports_item (window->exports, (guint) gtk_list_box_row_get_index (before))->sheet != NULL
                  && sw_exports_item (window->exports, (guint) gtk_list_box_row_get_index (row))->sheet == NULL;
  gtk_list_box_row_set_header (row, edge ? gtk_separator_new (GTK_ORIENTATION_HORIZONTAL) : NULL);
}

static void
set_ready (SwExportWindow *window, gboolean ready)
{
  gtk_widget_set_sensitive (window->export_button, ready);
  gtk_widget_set_sensitive (window->export_all_button, ready);
}

static void
exports_thread (GTask *task, gpointer source, gpointer picture, GCancellable *cancellable)
{
  GError *error = NULL;
  SwExports *exports = sw_exports_new (picture, cancellable, &error);
  if (exports == NULL)
    g_task_return_error (task, error);
  else
    g_task_return_pointer (task, exports, (GDestroyNotify) sw_exports_unref);
}

static void
on_exports (GObject *source, GAsyncResult *result, gpointer data)
{
  SwExportWindow *window = SW_EXPORT_WINDOW (source);
  g_autoptr (GError) error = NULL;
  window->exports = g_task_propagate_pointer (G_TASK (result), &error);
  say (window, error != NULL ? error->message : "");
  if (window->exports == NULL)
    return;
  fill_list (window);
  set_ready (window, TRUE);
  gtk_list_box_select_row (window->list_box, gtk_list_box_get_row_at_index (window->list_box, 0));
}

SwExportWindow *
sw_export_window_new (GtkWindow *parent, SwDocument *document)
{
  SwExportWindow *window = g_object_new (SW_TYPE_EXPORT_WINDOW, "transient-for", parent, NULL);
  set_ready (window, FALSE);
  gtk_widget_set_sensitive (window->print_button, FALSE);
  gtk_widget_set_visible (window->page_box, FALSE);
  say (window, _("Working out what is on the sheets …"));
  g_autoptr (GTask) task = g_task_new (window, NULL, on_exports, NULL);
  g_task_set_task_data (task, sw_picture_ref ((SwPicture *) sw_document_picture (document)), (GDestroyNotify) sw_picture_unref);
  g_task_run_in_thread (task, exports_thread);
  return window;
}

static void
sw_export_window_init (SwExportWindow *window)
{
  g_type_ensure (SW_TYPE_PAGE_PREVIEW);
  gtk_widget_init_template (GTK_WIDGET (window));
  sw_compat_name_drop_down (window->format_drop_down, _("Sheets as"));
  gtk_list_box_set_header_func (window->list_box, list_header, window, NULL);
}

static void
export_window_finalize (GObject *object)
{
  g_clear_pointer (&SW_EXPORT_WINDOW (object)->sheet, sw_sheet_free);
  g_clear_pointer (&SW_EXPORT_WINDOW (object)->exports, sw_exports_unref);
  G_OBJECT_CLASS (sw_export_window_parent_class)->finalize (object);
}

#define BIND(member) gtk_widget_class_bind_template_child (widget_class, SwExportWindow, member)

static void
sw_export_window_class_init (SwExportWindowClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  G_OBJECT_CLASS (class)->finalize = export_window_finalize;
  /* The id of a rule that is to be shown. */
  rule_signal = g_signal_new ("rule", SW_TYPE_EXPORT_WINDOW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/soffitwright/Soffitwright/export-window.ui");
  BIND (list_box);
  BIND (stack);
  BIND (preview);
  BIND (table_grid);
  BIND (mono_check);
  BIND (format_drop_down);
  BIND (result_label);
  BIND (export_button);
  BIND (export_all_button);
  BIND (print_button);
  BIND (page_box);
  BIND (back_button);
  BIND (forward_button);
  BIND (page_label);
  gtk_widget_class_bind_template_callback (widget_class, on_row);
  gtk_widget_class_bind_template_callback (widget_class, on_mono);
  gtk_widget_class_bind_template_callback (widget_class, on_back);
  gtk_widget_class_bind_template_callback (widget_class, on_forward);
  gtk_widget_class_bind_template_callback (widget_class, on_export);
  gtk_widget_class_bind_template_callback (widget_class, on_export_all);
  gtk_widget_class_bind_template_callback (widget_class, on_print);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_w, GDK_CONTROL_MASK, "window.close", NULL);
}
