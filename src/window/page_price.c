/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The page shows what the document's price desk has; it works nothing out itself. Reading and writing a list run in a thread on
 * the job as it was then: an edit made meanwhile has the list read again. */
#include "window/page_price.h"
#include "base/error.h"
#include "sheets/words.h"
#include "store/price_list.h"
#include "window/compat.h"
#include "window/price_bill.h"
#include "window/price_desk.h"
#include "window/price_rooms.h"
#include "window/price_sides.h"

struct _SwPagePrice
{
  GtkWindow parent_instance;
  GtkLabel *job_label, *room_label, *message_label, *invented_label;
  GtkRevealer *message_revealer;
  GtkSpinner *busy_spinner;
  GtkCheckButton *grid_check;
  SwPriceRooms *rooms;
  SwPriceSides *sides;
  SwPriceBill *bill;
  SwDocument *document;
  SwPriceDesk *desk;
  GSignalGroup *signals; /* of the document */
};

G_DEFINE_FINAL_TYPE (SwPagePrice, sw_page_price, GTK_TYPE_WINDOW)

static guint rule_signal;

static void
say (SwPagePrice *page, const char *text)
{
  if (text != NULL)
    gtk_label_set_text (page->message_label, text);
  gtk_revealer_set_reveal_child (page->message_revealer, text != NULL);
}

/* ---- What is shown ---- */

static void
show_busy (SwPagePrice *page)
{
  const SwJobPrice *job = sw_price_desk_job (page->desk);
  gtk_spinner_set_spinning (page->busy_spinner, sw_price_desk_is_busy (page->desk));
  gtk_widget_set_visible (GTK_WIDGET (page->invented_label), job != NULL && job->base->invented);
}

static void
show_room (SwPagePrice *page)
{
  SwId id = sw_price_rooms_chosen (page->rooms);
  const SwRoom *room = (const SwRoom *) sw_job_get (sw_document_job (page->document), id);
  g_autofree char *title = room != NULL ? g_strdup_printf ("%s %s", room->record.tag, room->name) : g_strdup (_("The job has no room"));
  gtk_label_set_text (page->room_label, title);
  sw_price_sides_show (page->sides, room, sw_price_desk_room (page->desk, id), sw_price_desk_room_is_stale (page->desk, id));
}

static void
on_chosen (SwPagePrice *page, gint64 room)
{
  show_room (page);
  sw_price_bill_set_room (page->bill, room);
}

static void
on_room (SwPagePrice *page, gint64 room)
{
  if (room == sw_price_rooms_chosen (page->rooms))
    show_room (page);
}

static void
on_asked (SwPagePrice *page)
{
  show_busy (page);
  show_room (page);
}

static void
on_job (SwPagePrice *page)
{
  show_busy (page);
  if (sw_price_desk_fault (page->desk) != NULL)
    say (page, sw_price_desk_fault (page->desk));
}

static void
on_fault (SwPagePrice *page)
{
  say (page, sw_document_fault (page->document));
}

static void
on_title (SwPagePrice *page)
{
  g_autofree char *title = NULL;
  g_object_get (page->document, "title", &title, NULL);
  gtk_label_set_text (page->job_label, title);
}

static void
on_dismiss (GtkButton *button, SwPagePrice *page)
{
  say (page, NULL);
}

static void
on_grid (GtkCheckButton *check, SwPagePrice *page)
{
  sw_price_sides_set_grid (page->sides, gtk_check_button_get_active (check));
}

static void
on_rule (SwPagePrice *page, const char *rule)
{
  g_signal_emit (page, rule_signal, 0, rule);
}

/* ---- Choosing ---- */

static void
on_finish (SwPagePrice *page, int finish)
{
  SwId room = sw_price_rooms_chosen (page->rooms);
  g_autoptr (GError) error = NULL;
  SwEdit *edit = sw_finish_edit (sw_document_job (page->document), &room, 1, (SwFinish) finish, &error);
  if (edit == NULL)
    say (page, error->message);
  else
    sw_document_do (page->document, edit);
  show_room (page); /* what was refused goes back */
}

static void
act_undo (GtkWidget *widget, const char *name, GVariant *parameter)
{
  sw_document_undo (SW_PAGE_PRICE (widget)->document);
}

static void
act_redo (GtkWidget *widget, const char *name, GVariant *parameter)
{
  sw_document_redo (SW_PAGE_PRICE (widget)->document);
}

static void
on_changed (SwPagePrice *page)
{
  SwDesk *desk = sw_document_desk (page->document);
  gboolean writable = !sw_document_is_read_only (page->document);
  gtk_widget_action_set_enabled (GTK_WIDGET (page), "price.undo", sw_desk_can_undo (desk));
  gtk_widget_action_set_enabled (GTK_WIDGET (page), "price.redo", sw_desk_can_redo (desk));
  gtk_widget_action_set_enabled (GTK_WIDGET (page), "price.read", writable);
  sw_price_sides_set_writable (page->sides, writable);
}

/* ---- Price lists ---- */

typedef struct
{
  SwJob *job;
  char *path;
} Order;

static Order *
order_new (SwPagePrice *page, GFile *file)
{
  Order *order = g_new0 (Order, 1);
  order->job = sw_job_ref (sw_document_job (page->document));
  order->path = g_file_get_path (file);
  return order;
}

static void
order_free (Order *order)
{
  sw_job_unref (order->job);
  g_free (order->path);
  g_free (order);
}

static void
start (SwPagePrice *page, Order *order, GTaskThreadFunc work, GAsyncReadyCallback done)
{
  if (order->path == NULL)
    {
      say (page, _("Only places on this computer can be read and written."));
      order_free (order);
      return;
    }
  g_autoptr (GTask) task = g_task_new (page, NULL, done, NULL);
  g_task_set_task_data (task, order, (GDestroyNotify) order_free);
  g_task_run_in_thread (task, work);
}

static void
read_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  const Order *order = data;
  GError *error = NULL;
  SwEdit *edit = sw_price_list_load (order->job, order->path, &error);
  if (edit != NULL)
    g_task_return_pointer (task, edit, (GDestroyNotify) sw_edit_unref);
  else
    g_task_return_error (task, error);
}

static void
on_list_read (GObject *source, GAsyncResult *result, gpointer data)
{
  SwPagePrice *page = SW_PAGE_PRICE (source);
  const Order *order = g_task_get_task_data (G_TASK (result));
  g_autoptr (GError) error = NULL;
  g_autoptr (SwEdit) edit = g_task_propagate_pointer (G_TASK (result), &error);
  if (edit == NULL)
    {
      say (page, error->message);
      return;
    }
  if (page->document == NULL)
    return;
  if (order->job != sw_document_job (page->document))
    {
      g_autoptr (GFile) file = g_file_new_for_path (order->path);
      sw_page_price_read_list (page, file);
      return;
    }
  guint n = edit->changes->len;
  g_autofree char *text = n > 0 ? g_strdup_printf (_("New or changed prices: %u, from %s"), n, order->path)
                                : g_strdup_printf (_("The job has all of these prices already: %s"), order->path);
  if (sw_document_do (page->document, g_steal_pointer (&edit)))
    say (page, text);
}

static void
write_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  const Order *order = data;
  GError *error = NULL;
  g_autoptr (SwJob) priced = sw_price_list_or_default (order->job, &error);
  g_autofree char *text = priced != NULL ? sw_price_list_write (priced) : NULL;
  if (text != NULL && g_file_set_contents (order->path, text, -1, &error))
    g_task_return_boolean (task, TRUE);
  else
    g_task_return_error (task, error);
}

static void
on_list_written (GObject *source, GAsyncResult *result, gpointer data)
{
  const Order *order = g_task_get_task_data (G_TASK (result));
  g_autoptr (GError) error = NULL;
  gboolean written = g_task_propagate_boolean (G_TASK (result), &error);
  g_autofree char *text = written ? g_strdup_printf (_("Written: %s"), order->path) : g_strdup (error->message);
  say (SW_PAGE_PRICE (source), text);
}

void
sw_page_price_read_list (SwPagePrice *page, GFile *file)
{
  start (page, order_new (page, file), read_thread, on_list_read);
}

void
sw_page_price_write_list (SwPagePrice *page, GFile *file)
{
  start (page, order_new (page, file), write_thread, on_list_written);
}

static void
read_chosen (GFile *file, gpointer owner)
{
  sw_page_price_read_list (owner, file);
}

static void
write_chosen (GFile *file, gpointer owner)
{
  sw_page_price_write_list (owner, file);
}

static void
act_read (GtkWidget *widget, const char *name, GVariant *parameter)
{
  sw_compat_choose (GTK_WINDOW (widget), SW_CHOOSE_LIST, NULL, NULL, read_chosen);
}

static void
act_write (GtkWidget *widget, const char *name, GVariant *parameter)
{
  sw_compat_choose (GTK_WINDOW (widget), SW_CHOOSE_SAVE_ANY, "prices.csv", NULL, write_chosen);
}

/* ---- Page ---- */

static void
connect_document (SwPagePrice *page, SwDocument *document)
{
  page->document = g_object_ref (document);
  page->desk = sw_price_desk_of (document);
  g_signal_connect_object (page->desk, "asked", G_CALLBACK (on_asked), page, G_CONNECT_SWAPPED);
  g_signal_connect_object (page->desk, "room", G_CALLBACK (on_room), page, G_CONNECT_SWAPPED);
  g_signal_connect_object (page->desk, "job", G_CALLBACK (on_job), page, G_CONNECT_SWAPPED);
  page->signals = g_signal_group_new (SW_TYPE_DOCUMENT);
  g_signal_group_connect_swapped (page->signals, "changed", G_CALLBACK (on_changed), page);
  g_signal_group_connect_swapped (page->signals, "notify::fault", G_CALLBACK (on_fault), page);
  g_signal_group_connect_swapped (page->signals, "notify::title", G_CALLBACK (on_title), page);
  g_signal_group_set_target (page->signals, document);
}

SwPagePrice *
sw_page_price_new (GtkWindow *parent, SwDocument *document)
{
  SwPagePrice *page = g_object_new (SW_TYPE_PAGE_PRICE, "transient-for", parent, NULL);
  connect_document (page, document);
  sw_price_bill_set_document (page->bill, document);
  sw_price_rooms_set_document (page->rooms, document);
  on_title (page);
  on_changed (page);
  sw_price_desk_refresh (page->desk);
  on_asked (page);
  if (sw_price_desk_fault (page->desk) != NULL)
    say (page, sw_price_desk_fault (page->desk));
  return page;
}

static void
sw_page_price_init (SwPagePrice *page)
{
  g_type_ensure (SW_TYPE_PRICE_ROOMS);
  g_type_ensure (SW_TYPE_PRICE_SIDES);
  g_type_ensure (SW_TYPE_PRICE_BILL);
  gtk_widget_init_template (GTK_WIDGET (page));
  g_signal_connect_swapped (page->rooms, "chosen", G_CALLBACK (on_chosen), page);
  g_signal_connect_swapped (page->sides, "finish", G_CALLBACK (on_finish), page);
  g_signal_connect_swapped (page->sides, "rule", G_CALLBACK (on_rule), page);
}

static void
page_price_dispose (GObject *object)
{
  SwPagePrice *page = SW_PAGE_PRICE (object);
  g_clear_object (&page->signals);
  g_clear_object (&page->document);
  G_OBJECT_CLASS (sw_page_price_parent_class)->dispose (object);
}

#define BIND(member) gtk_widget_class_bind_template_child (widget_class, SwPagePrice, member)

static void
bind_template (GtkWidgetClass *widget_class)
{
  gtk_widget_class_set_template_from_resource (widget_class, "/org/soffitwright/Soffitwright/page-price.ui");
  BIND (job_label);
  BIND (room_label);
  BIND (message_label);
  BIND (invented_label);
  BIND (message_revealer);
  BIND (busy_spinner);
  BIND (grid_check);
  BIND (rooms);
  BIND (sides);
  BIND (bill);
  gtk_widget_class_bind_template_callback (widget_class, on_dismiss);
  gtk_widget_class_bind_template_callback (widget_class, on_grid);
}

static void
sw_page_price_class_init (SwPagePriceClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  G_OBJECT_CLASS (class)->dispose = page_price_dispose;
  bind_template (widget_class);
  gtk_widget_class_install_action (widget_class, "price.undo", NULL, act_undo);
  gtk_widget_class_install_action (widget_class, "price.redo", NULL, act_redo);
  gtk_widget_class_install_action (widget_class, "price.read", NULL, act_read);
  gtk_widget_class_install_action (widget_class, "price.write", NULL, act_write);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_z, GDK_CONTROL_MASK, "price.undo", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_z, GDK_CONTROL_MASK | GDK_SHIFT_MASK, "price.redo", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_y, GDK_CONTROL_MASK, "price.redo", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_o, GDK_CONTROL_MASK, "price.read", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_s, GDK_CONTROL_MASK, "price.write", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_w, GDK_CONTROL_MASK, "window.close", NULL);
  rule_signal = g_signal_new ("rule", SW_TYPE_PAGE_PRICE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
}
