/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Work that takes a while: ceilings in a thread, drawings under the plan, and the list of jobs opened lately. */
#include "window/window_private.h"
#include "sheets/words.h"
#include "window/tools/lay_out.h"
#include "window/tools/new_job.h"

#define MOST_RECENT 8
#define FIRST_WIDTH_MM 20000 /* of a drawing until it is scaled */

typedef struct
{
  SwPicture *picture;
  GArray *rooms;
  char *left_out;
} Order;

static void
order_free (Order *order)
{
  sw_picture_unref (order->picture);
  g_array_unref (order->rooms);
  g_free (order->left_out);
  g_free (order);
}

static void
lay_out_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Order *order = data;
  GError *error = NULL;
  SwEdit *edit = sw_lay_out (order->picture, (const SwId *) (gpointer) order->rooms->data, order->rooms->len, &order->left_out, cancellable, &error);
  if (edit != NULL)
    g_task_return_pointer (task, edit, (GDestroyNotify) sw_edit_unref);
  else
    g_task_return_error (task, error);
}

/* The job may have changed meanwhile: the edit is then refused by the desk, with words. */
static void
on_laid_out (GObject *source, GAsyncResult *result, gpointer data)
{
  SwWindow *window = SW_WINDOW (source);
  Order *order = g_task_get_task_data (G_TASK (result));
  g_autoptr (GError) error = NULL;
  SwEdit *edit = g_task_propagate_pointer (G_TASK (result), &error);
  gboolean stopped = g_cancellable_is_cancelled (g_task_get_cancellable (G_TASK (result)));
  if (window->laying_out == g_task_get_cancellable (G_TASK (result)))
    g_clear_object (&window->laying_out);
  gtk_spinner_set_spinning (window->busy_spinner, FALSE);
  if (edit != NULL && !stopped && window->document != NULL)
    {
      if (sw_document_do (window->document, edit) && order->left_out != NULL)
        sw_window_show_fault (window, order->left_out);
    }
  else
    {
      g_clear_pointer (&edit, sw_edit_unref);
      if (!stopped)
        sw_window_show_fault (window, error != NULL ? error->message : NULL);
    }
  sw_window_fill_tools (window);
  sw_window_update_tools (window);
}

/* Rooms, and those whose layout is picked: a click on laid boards picks these. */
static GArray *
picked_rooms (SwWindow *window)
{
  SwBoard *board = sw_document_board (window->document);
  GArray *rooms = g_array_new (FALSE, FALSE, sizeof (SwId));
  for (guint i = 0; i < sw_board_n_picked (board); i++)
    {
      SwId id = sw_board_picked (board, i);
      const SwRecord *record = sw_job_get (sw_board_job (board), id);
      if (record != NULL && sw_record_table (record) == SW_TABLE_LAYOUT)
        id = ((const SwLayout *) record)->room;
      if (SW_ID_TABLE (id) == SW_TABLE_ROOM)
        g_array_append_val (rooms, id);
    }
  return rooms;
}

void
sw_window_lay_out (SwWindow *window)
{
  if (window->laying_out != NULL)
    {
      g_cancellable_cancel (window->laying_out);
      return;
    }
  if (window->document == NULL || sw_document_picture (window->document) == NULL)
    return;
  Order *order = g_new0 (Order, 1);
  order->picture = sw_picture_ref ((SwPicture *) sw_document_picture (window->document));
  order->rooms = picked_rooms (window);
  window->laying_out = g_cancellable_new ();
  gtk_spinner_set_spinning (window->busy_spinner, TRUE);
  g_autoptr (GTask) task = g_task_new (window, window->laying_out, on_laid_out, NULL);
  g_task_set_task_data (task, order, (GDestroyNotify) order_free);
  g_task_run_in_thread (task, lay_out_thread);
  sw_window_fill_tools (window);
  sw_window_update_tools (window);
}

void
sw_window_put_underlay (SwWindow *window, GFile *file)
{
  if (window->document == NULL)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (SwJob) job = window->catalogue != NULL ? sw_new_job_empty (window->catalogue, &error) : NULL;
      g_autoptr (SwDocument) document = job != NULL ? sw_document_new_from_job (job, &error) : NULL;
      if (document == NULL)
        {
          sw_window_show_fault (window, error != NULL ? error->message : _("The catalogue of profiles cannot be read."));
          return;
        }
      sw_window_set_document (window, document);
      sw_window_set_site (window, SW_SITE_MEASURE);
    }
  sw_underlays_add (window->document, file, FIRST_WIDTH_MM);
}

/* ---- Recent ---- */

void
sw_window_fill_recent (SwWindow *window)
{
  g_auto (GStrv) uris = g_settings_get_strv (window->settings, "recent-jobs");
  g_menu_remove_all (window->recent_section);
  sw_start_page_set_recent (window->start_page, (const char *const *) uris);
  for (guint i = 0; uris[i] != NULL; i++)
    {
      g_autoptr (GFile) file = g_file_new_for_uri (uris[i]);
      g_autofree char *name = g_file_get_basename (file);
      g_autoptr (GMenuItem) item = g_menu_item_new (name, NULL);
      g_menu_item_set_action_and_target (item, "win.open-recent", "s", uris[i]);
      g_menu_append_item (window->recent_section, item);
    }
}

void
sw_window_remember_job (SwWindow *window)
{
  g_auto (GStrv) uris = g_settings_get_strv (window->settings, "recent-jobs");
  g_autoptr (GPtrArray) kept = g_ptr_array_new_with_free_func (g_free);
  GFile *file = window->document != NULL ? sw_document_file (window->document) : NULL;
  if (file == NULL)
    return;
  g_ptr_array_add (kept, g_file_get_uri (file));
  for (guint i = 0; uris[i] != NULL && kept->len < MOST_RECENT; i++)
    if (!g_str_equal (uris[i], kept->pdata[0]))
      g_ptr_array_add (kept, g_strdup (uris[i]));
  g_ptr_array_add (kept, NULL);
  g_settings_set_strv (window->settings, "recent-jobs", (const char *const *) kept->pdata);
  sw_window_fill_recent (window);
}
