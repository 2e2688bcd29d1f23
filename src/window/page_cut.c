/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What is typed is cut a moment after the last key, in a thread; the answer before it stays, greyed, until then. The lists are read by
 * the command's reader, the plan is written by its writers. */
#include "window/page_cut.h"
#include "base/error.h"
#include "cli/cut_write.h"
#include "sheets/report.h"
#include "sheets/words.h"
#include "window/compat.h"
#include "window/page_preview.h"
#include "window/tools/cut_lists.h"
#include <string.h>

#define REST_MS 250
#define LONG_MS 700 /* after which it is said that it takes a while */
#define LONGER 20 /* times the effort that is spent at first */

struct _SwPageCut
{
  GtkWindow parent_instance;
  GtkDropDown *kind_drop_down;
  GtkLabel *items_label, *stock_label, *answer_label, *message_label, *page_label;
  GtkWidget *empty_box;
  GtkTextView *items_view, *stock_view;
  GtkEditable *kerf_entry, *trim_entry, *keep_entry;
  GtkWidget *save_button, *longer_button, *stop_box, *page_box, *back_button, *forward_button;
  GtkSpinner *busy_spinner;
  SwPagePreview *preview;
  SwCutter *cutter;
  const SwCutAnswer *answer; /* the cutter's; NULL without a plan */
  guint timer, long_timer, page, effort;
  gboolean waiting; /* a list has still to be given */
  gboolean flat;
  char *kept[2];    /* pieces and stock of the other kind, until that is chosen again; NULL: none yet */
};

G_DEFINE_FINAL_TYPE (SwPageCut, sw_page_cut, GTK_TYPE_WINDOW)

static void
say (SwPageCut *page, const char *text)
{
  gtk_widget_add_css_class (GTK_WIDGET (page->message_label), "snag-fix");
  gtk_label_set_text (page->message_label, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (page->message_label), text != NULL);
}

static char *
text_in (GtkTextView *view)
{
  GtkTextIter start, end;
  GtkTextBuffer *buffer = gtk_text_view_get_buffer (view);
  gtk_text_buffer_get_bounds (buffer, &start, &end);
  return gtk_text_buffer_get_text (buffer, &start, &end, FALSE);
}

/* ---- The answer ---- */

static void
show_page (SwPageCut *page)
{
  guint n = 0;
  const SwSheetPage *pages = page->answer != NULL ? sw_cut_pages_get (page->answer->pages, &n) : NULL;
  page->page = MIN (page->page, n > 0 ? n - 1 : 0);
  if (n == 0)
    sw_page_preview_set_page (page->preview, NULL, NULL);
  else
    sw_page_preview_set_page (page->preview, (SwDisplay *) pages[page->page].display, &pages[page->page].page);
  g_autofree char *text = g_strdup_printf (_("Page %u of %u"), page->page + 1, n);
  gtk_label_set_text (page->page_label, text);
  gtk_widget_set_visible (page->page_box, n > 1);
  gtk_widget_set_sensitive (page->back_button, page->page > 0);
  gtk_widget_set_sensitive (page->forward_button, page->page + 1 < n);
}

static void
show_plan (SwPageCut *page, const SwCutAnswer *answer)
{
  g_autofree char *said = g_strjoinv ("\n", answer->sentences), *bought = g_strjoinv ("   ", answer->bought);
  g_autofree char *text = g_strdup_printf ("%s\n%s %s", said, _("To buy:"), bought);
  gtk_label_set_text (page->answer_label, text);
  gtk_widget_set_visible (GTK_WIDGET (page->answer_label), TRUE);
  gtk_widget_set_visible (page->longer_button, !answer->plan->proven);
  gtk_widget_set_sensitive (page->longer_button, page->effort == 1);
}

static void
on_answer (const SwCutAnswer *answer, gpointer data)
{
  SwPageCut *page = data;
  page->answer = answer->plan != NULL ? answer : NULL;
  say (page, answer->fault != NULL && !page->waiting ? answer->fault->message : NULL);
  gtk_widget_set_visible (page->empty_box, page->waiting);
  g_clear_handle_id (&page->long_timer, g_source_remove);
  gtk_widget_set_visible (page->stop_box, FALSE);
  gtk_spinner_set_spinning (page->busy_spinner, FALSE);
  gtk_widget_remove_css_class (GTK_WIDGET (page->answer_label), "stale");
  gtk_widget_set_sensitive (page->save_button, answer->plan != NULL);
  if (answer->plan != NULL)
    show_plan (page, answer);
  else
    {
      gtk_widget_set_visible (GTK_WIDGET (page->answer_label), FALSE);
      gtk_widget_set_visible (page->longer_button, FALSE);
    }
  show_page (page);
}

/* ---- Asking ---- */

static gboolean
say_long (gpointer data)
{
  SwPageCut *page = data;
  page->long_timer = 0;
  gtk_widget_set_visible (page->stop_box, TRUE);
  gtk_widget_set_visible (page->empty_box, FALSE);
  return G_SOURCE_REMOVE;
}

static void
on_stop (GtkButton *button, SwPageCut *page)
{
  sw_cutter_stop (page->cutter);
}

static gboolean
ask (gpointer data)
{
  SwPageCut *page = data;
  g_autofree char *items = text_in (page->items_view), *stock = text_in (page->stock_view);
  const SwCutLists lists = { gtk_drop_down_get_selected (page->kind_drop_down) == 1, items, stock, gtk_editable_get_text (page->kerf_entry),
                             gtk_editable_get_text (page->trim_entry), gtk_editable_get_text (page->keep_entry), page->effort };
  page->timer = 0;
  page->waiting = sw_cut_lists_wait (&lists);
  gtk_spinner_set_spinning (page->busy_spinner, TRUE);
  gtk_widget_add_css_class (GTK_WIDGET (page->answer_label), "stale");
  say (page, NULL); /* what was wrong with the list before */
  g_clear_handle_id (&page->long_timer, g_source_remove);
  page->long_timer = g_timeout_add (LONG_MS, say_long, page);
  sw_cutter_ask (page->cutter, &lists);
  return G_SOURCE_REMOVE;
}

static void
on_typed (SwPageCut *page)
{
  page->effort = 1;
  g_clear_handle_id (&page->timer, g_source_remove);
  page->timer = g_timeout_add (REST_MS, ask, page);
}

static void
on_longer (GtkButton *button, SwPageCut *page)
{
  page->effort = LONGER;
  gtk_widget_set_sensitive (page->longer_button, FALSE);
  g_clear_handle_id (&page->timer, g_source_remove);
  ask (page);
}

/* Each kind has lists of its own. */
static void
swap_lists (SwPageCut *page)
{
  GtkTextView *const views[] = { page->items_view, page->stock_view };
  for (gsize i = 0; i < G_N_ELEMENTS (views); i++)
    {
      g_autofree char *other = g_steal_pointer (&page->kept[i]);
      page->kept[i] = text_in (views[i]);
      gtk_text_buffer_set_text (gtk_text_view_get_buffer (views[i]), other != NULL ? other : "", -1);
    }
}

static void
on_kind (SwPageCut *page)
{
  gboolean flat = gtk_drop_down_get_selected (page->kind_drop_down) == 1;
  if (flat != page->flat)
    swap_lists (page);
  page->flat = flat;
  g_autofree char *items = g_strdup_printf (_("Pieces, one in a line: %s"), sw_word (sw_cut_lists_columns (flat, FALSE)));
  g_autofree char *stock = g_strdup_printf (_("Stock, one in a line: %s"), sw_word (sw_cut_lists_columns (flat, TRUE)));
  gtk_label_set_text (page->items_label, items);
  gtk_label_set_text (page->stock_label, stock);
  on_typed (page);
}

static void
on_example (GtkButton *button, SwPageCut *page)
{
  gboolean flat = gtk_drop_down_get_selected (page->kind_drop_down) == 1;
  gtk_widget_grab_focus (GTK_WIDGET (page->items_view)); /* the button goes */
  gtk_text_buffer_set_text (gtk_text_view_get_buffer (page->items_view), sw_cut_lists_example (flat, FALSE), -1);
  gtk_text_buffer_set_text (gtk_text_view_get_buffer (page->stock_view), sw_cut_lists_example (flat, TRUE), -1);
}

static void
turn_page (SwPageCut *page, int by)
{
  page->page = (guint) MAX (0, (int) page->page + by);
  show_page (page);
}

static void
on_back (GtkButton *button, SwPageCut *page)
{
  turn_page (page, -1);
}

static void
on_forward (GtkButton *button, SwPageCut *page)
{
  turn_page (page, 1);
}

/* ---- Files ---- */

/* A first row that names a width says that they are rectangles. */
static gboolean
names_width (const char *text)
{
  const char *end = strpbrk (text, "\r\n"), *width = strstr (text, "width_mm");
  return width != NULL && (end == NULL || width < end);
}

void
sw_page_cut_read (SwPageCut *page, GFile *file, gboolean stock)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *text = NULL;
  gsize length;
  if (!g_file_load_contents (file, NULL, &text, &length, NULL, &error) || !g_utf8_validate (text, (gssize) length, NULL))
    {
      say (page, error != NULL ? error->message : _("The file is no text in UTF-8."));
      return;
    }
  GtkTextView *view = stock ? page->stock_view : page->items_view;
  if (names_width (text))
    gtk_drop_down_set_selected (page->kind_drop_down, 1);
  gtk_text_buffer_set_text (gtk_text_view_get_buffer (view), text, (int) length);
}

static gboolean
write_pages (const SwCutAnswer *answer, SwPageFormat format, const char *path, GError **error)
{
  guint n;
  const SwSheetPage *pages = sw_cut_pages_get (answer->pages, &n);
  if (format == SW_PAGE_PDF)
    return sw_page_export_pdf (pages, n, path, error);
  for (guint i = 0; i < n; i++)
    {
      g_autofree char *one = sw_sheets_page_path (path, i, n);
      if (!sw_page_export (pages[i].display, &pages[i].page, format, one, error))
        return FALSE;
    }
  return TRUE;
}

static gboolean
write_plan (const SwCutAnswer *answer, const char *path, GError **error)
{
  SwPageFormat format;
  if (sw_page_format_find (path, &format, NULL))
    return write_pages (answer, format, path, error);
  const char *form = g_str_has_suffix (path, ".csv") ? "csv" : g_str_has_suffix (path, ".json") ? "json" : g_str_has_suffix (path, ".txt") ? "text" : NULL;
  if (form == NULL)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INVALID, _("%s: end the name in .csv, .json, .txt, .svg, .pdf or .png"), path);
      return FALSE;
    }
  g_autofree char *text = sw_cli_cut_write (answer->plan, form);
  return g_file_set_contents (path, text, -1, error);
}

void
sw_page_cut_write (SwPageCut *page, GFile *file)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *path = g_file_get_path (file), *text = NULL;
  if (page->answer == NULL || path == NULL)
    return;
  guint n = 0;
  sw_cut_pages_get (page->answer->pages, &n);
  if (write_plan (page->answer, path, &error))
    text = sw_sheets_written_text (path, n);
  say (page, error != NULL ? error->message : text);
  if (error == NULL)
    gtk_widget_remove_css_class (GTK_WIDGET (page->message_label), "snag-fix");
}

static void
read_items (GFile *file, gpointer owner)
{
  sw_page_cut_read (owner, file, FALSE);
}

static void
read_stock (GFile *file, gpointer owner)
{
  sw_page_cut_read (owner, file, TRUE);
}

static void
write_chosen (GFile *file, gpointer owner)
{
  sw_page_cut_write (owner, file);
}

static void
on_read_items (GtkButton *button, SwPageCut *page)
{
  sw_compat_choose (GTK_WINDOW (page), SW_CHOOSE_CSV, NULL, NULL, read_items);
}

static void
on_read_stock (GtkButton *button, SwPageCut *page)
{
  sw_compat_choose (GTK_WINDOW (page), SW_CHOOSE_CSV, NULL, NULL, read_stock);
}

static void
on_save (GtkButton *button, SwPageCut *page)
{
  sw_compat_choose (GTK_WINDOW (page), SW_CHOOSE_SAVE_ANY, "cutting.pdf", NULL, write_chosen);
}

/* ---- Page ---- */

SwPageCut *
sw_page_cut_new (GtkWindow *parent)
{
  return g_object_new (SW_TYPE_PAGE_CUT, "transient-for", parent, NULL);
}

/* Tab leaves the lists, as it leaves entries. */
static void
watch_list (SwPageCut *page, GtkTextView *view, const char *name)
{
  gtk_text_view_set_accepts_tab (view, FALSE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (view), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_signal_connect_swapped (gtk_text_view_get_buffer (view), "changed", G_CALLBACK (on_typed), page);
}

static void
sw_page_cut_init (SwPageCut *page)
{
  const char *const kinds[] = { _("Lengths"), _("Rectangles"), NULL };
  g_type_ensure (SW_TYPE_PAGE_PREVIEW);
  gtk_widget_init_template (GTK_WIDGET (page));
  page->effort = 1;
  page->cutter = sw_cutter_new (on_answer, page);
  g_autoptr (GtkStringList) names = gtk_string_list_new (kinds);
  gtk_drop_down_set_model (page->kind_drop_down, G_LIST_MODEL (names));
  sw_compat_name_drop_down (page->kind_drop_down, _("What is cut"));
  watch_list (page, page->items_view, _("Pieces"));
  watch_list (page, page->stock_view, _("Stock"));
  g_signal_connect_swapped (page->kerf_entry, "changed", G_CALLBACK (on_typed), page);
  g_signal_connect_swapped (page->trim_entry, "changed", G_CALLBACK (on_typed), page);
  g_signal_connect_swapped (page->keep_entry, "changed", G_CALLBACK (on_typed), page);
  g_signal_connect_swapped (page->kind_drop_down, "notify::selected", G_CALLBACK (on_kind), page);
  on_kind (page);
  gtk_widget_grab_focus (GTK_WIDGET (page->items_view));
}

static void
page_cut_finalize (GObject *object)
{
  SwPageCut *page = SW_PAGE_CUT (object);
  g_free (page->kept[0]);
  g_free (page->kept[1]);
  G_OBJECT_CLASS (sw_page_cut_parent_class)->finalize (object);
}

static void
page_cut_dispose (GObject *object)
{
  SwPageCut *page = SW_PAGE_CUT (object);
  g_clear_handle_id (&page->timer, g_source_remove);
  g_clear_handle_id (&page->long_timer, g_source_remove);
  page->answer = NULL;
  g_clear_pointer (&page->cutter, sw_cutter_free);
  G_OBJECT_CLASS (sw_page_cut_parent_class)->dispose (object);
}

#define BIND(member) gtk_widget_class_bind_template_child (widget_class, SwPageCut, member)

static void
bind_template (GtkWidgetClass *widget_class)
{
  gtk_widget_class_set_template_from_resource (widget_class, "/org/soffitwright/Soffitwright/page-cut.ui");
  BIND (kind_drop_down);
  BIND (items_label);
  BIND (stock_label);
  BIND (answer_label);
  BIND (message_label);
  BIND (page_label);
  BIND (items_view);
  BIND (stock_view);
  BIND (kerf_entry);
  BIND (trim_entry);
  BIND (keep_entry);
  BIND (save_button);
  BIND (longer_button);
  BIND (stop_box);
  BIND (empty_box);
  BIND (page_box);
  BIND (back_button);
  BIND (forward_button);
  BIND (busy_spinner);
  BIND (preview);
}

static void
sw_page_cut_class_init (SwPageCutClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  G_OBJECT_CLASS (class)->dispose = page_cut_dispose;
  G_OBJECT_CLASS (class)->finalize = page_cut_finalize;
  bind_template (widget_class);
  gtk_widget_class_bind_template_callback (widget_class, on_longer);
  gtk_widget_class_bind_template_callback (widget_class, on_stop);
  gtk_widget_class_bind_template_callback (widget_class, on_example);
  gtk_widget_class_bind_template_callback (widget_class, on_back);
  gtk_widget_class_bind_template_callback (widget_class, on_forward);
  gtk_widget_class_bind_template_callback (widget_class, on_read_items);
  gtk_widget_class_bind_template_callback (widget_class, on_read_stock);
  gtk_widget_class_bind_template_callback (widget_class, on_save);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_w, GDK_CONTROL_MASK, "window.close", NULL);
}
