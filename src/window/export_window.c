/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Drawn from the document's last picture, which cannot change under it; long work runs in a thread on the same picture. */
#include "window/export_window.h"
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
  SwPicture *picture;
  guint item;
};

G_DEFINE_FINAL_TYPE (SwExportWindow, sw_export_window, GTK_TYPE_WINDOW)

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
show_schedule (SwExportWindow *window)
{
  g_autoptr (SwSchedule) schedule = sw_export_schedule (window->picture, window->item);
  clear_table (window);
  gtk_stack_set_visible_child_name (window->stack, "schedule");
  if (schedule == NULL)
    return;
  const SwScheduleInfo *info = sw_schedule_info (schedule);
  for (guint c = 0; c < info->n_columns; c++)
    {
      g_autofree char *heading = sw_schedule_heading (info, c);
      gboolean number = info->columns[c].kind == SW_CELL_NUMBER;
      add_cell (window, (int) c, 0, heading, TRUE, number);
      for (guint r = 0; r < MIN (sw_schedule_n_rows (schedule), MOST_ROWS); r++)
        add_cell (window, (int) c, (int) r + 1, sw_schedule_text (schedule, r, c), FALSE, number);
    }
}

static void
show_sheet (SwExportWindow *window)
{
  SwPage page;
  g_autoptr (SwDisplay) display = sw_export_draw (window->picture, window->item, &page);
  if (display != NULL && gtk_check_button_get_active (window->mono_check))
    page.theme = SW_THEME_MONO;
  gtk_stack_set_visible_child_name (window->stack, "sheet");
  sw_page_preview_set_page (window->preview, display, display != NULL ? &page : NULL);
}

static void
show_item (SwExportWindow *window)
{
  gboolean sheet = sw_export_is_sheet (window->item);
  gtk_widget_set_sensitive (window->print_button, sheet && window->picture->rules != NULL);
  if (sheet)
    show_sheet (window);
  else
    show_schedule (window);
}

static void
on_row (GtkListBox *list, GtkListBoxRow *row, SwExportWindow *window)
{
  if (row == NULL || window->picture == NULL)
    return;
  window->item = (guint) gtk_list_box_row_get_index (row);
  show_item (window);
}

static void
on_mono (GtkCheckButton *check, SwExportWindow *window)
{
  if (window->picture != NULL)
    show_item (window);
}

/* ---- Export ---- */

static void
export_chosen (GFile *file, gpointer owner)
{
  SwExportWindow *window = owner;
  GError *error = NULL;
  g_autofree char *path = g_file_get_path (file);
  if (path != NULL && sw_export_write (window->picture, window->item, gtk_check_button_get_active (window->mono_check), path, &error))
    {
      g_autofree char *text = g_strdup_printf (_("Written: %s"), path);
      say (window, text);
    }
  else
    say (window, error != NULL ? error->message : _("Only places on this computer can be written to."));
  g_clear_error (&error);
}

static void
on_export (GtkButton *button, SwExportWindow *window)
{
  g_autofree char *stem = sw_export_stem (window->item);
  g_autofree char *name = g_strdup_printf ("%s.%s", stem, sw_export_is_sheet (window->item) ? ending_of (window) : "csv");
  sw_compat_choose (GTK_WINDOW (window), SW_CHOOSE_SAVE_ANY, name, NULL, export_chosen);
}

typedef struct
{
  SwPicture *picture;
  char *folder;
  const char *ending;
  gboolean mono;
} Order;

static void
order_free (Order *order)
{
  sw_picture_unref (order->picture);
  g_free (order->folder);
  g_free (order);
}

static void
export_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Order *order = data;
  GError *error = NULL;
  int n = sw_export_write_all (order->picture, order->folder, order->ending, order->mono, cancellable, &error);
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
  Order *order = g_new0 (Order, 1);
  order->picture = sw_picture_ref (window->picture);
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
  SwPage page;
  g_autoptr (SwDisplay) display = sw_export_draw (window->picture, window->item, &page);
  if (display == NULL)
    return;
  if (gtk_check_button_get_active (window->mono_check))
    page.theme = SW_THEME_MONO;
  SwPoint size = sw_page_size (&page);
  /* True size when the printer has the paper, else as large as it lets it be. */
  double scale = MIN (gtk_print_context_get_width (context) / size.x, gtk_print_context_get_height (context) / size.y);
  sw_page_paint (gtk_print_context_get_cairo_context (context), display, &page, MIN (scale, 72 / 25.4));
}

static void
on_print (GtkButton *button, SwExportWindow *window)
{
  SwPage page;
  g_autoptr (SwDisplay) display = sw_export_draw (window->picture, window->item, &page);
  if (display == NULL)
    return;
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
  gtk_print_operation_set_n_pages (print, 1);
  gtk_print_operation_set_job_name (print, sw_export_title (window->item));
  g_signal_connect (print, "draw-page", G_CALLBACK (on_draw_page), window);
  g_autoptr (GError) error = NULL;
  if (gtk_print_operation_run (print, GTK_PRINT_OPERATION_ACTION_PRINT_DIALOG, GTK_WINDOW (window), &error) == GTK_PRINT_OPERATION_RESULT_ERROR)
    say (window, error->message);
}

/* ---- Window ---- */

static void
fill_list (SwExportWindow *window)
{
  for (guint i = 0; i < sw_export_n (); i++)
    {
      GtkWidget *label = gtk_label_new (sw_export_title (i)), *row = gtk_list_box_row_new ();
      gtk_label_set_xalign (GTK_LABEL (label), 0);
      gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
      gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), label);
      gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, sw_export_title (i), -1);
      gtk_list_box_append (window->list_box, row);
    }
}

/* A line between sheets and schedules. */
static void
list_header (GtkListBoxRow *row, GtkListBoxRow *before, gpointer data)
{
  gboolean edge = before != NULL && sw_export_is_sheet ((guint) gtk_list_box_row_get_index (before))
                  && !sw_export_is_sheet ((guint) gtk_list_box_row_get_index (row));
  gtk_list_box_row_set_header (row, edge ? gtk_separator_new (GTK_ORIENTATION_HORIZONTAL) : NULL);
}

SwExportWindow *
sw_export_window_new (GtkWindow *parent, SwDocument *document)
{
  SwExportWindow *window = g_object_new (SW_TYPE_EXPORT_WINDOW, "transient-for", parent, NULL);
  window->picture = sw_picture_ref ((SwPicture *) sw_document_picture (document));
  gtk_list_box_select_row (window->list_box, gtk_list_box_get_row_at_index (window->list_box, 0));
  return window;
}

static void
sw_export_window_init (SwExportWindow *window)
{
  g_type_ensure (SW_TYPE_PAGE_PREVIEW);
  gtk_widget_init_template (GTK_WIDGET (window));
  gtk_list_box_set_header_func (window->list_box, list_header, NULL, NULL);
  fill_list (window);
}

static void
export_window_finalize (GObject *object)
{
  g_clear_pointer (&SW_EXPORT_WINDOW (object)->picture, sw_picture_unref);
  G_OBJECT_CLASS (sw_export_window_parent_class)->finalize (object);
}

#define BIND(member) gtk_widget_class_bind_template_child (widget_class, SwExportWindow, member)

static void
sw_export_window_class_init (SwExportWindowClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  G_OBJECT_CLASS (class)->finalize = export_window_finalize;
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
  gtk_widget_class_bind_template_callback (widget_class, on_row);
  gtk_widget_class_bind_template_callback (widget_class, on_mono);
  gtk_widget_class_bind_template_callback (widget_class, on_export);
  gtk_widget_class_bind_template_callback (widget_class, on_export_all);
  gtk_widget_class_bind_template_callback (widget_class, on_print);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
}
