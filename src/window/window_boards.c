/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Boards: alternatives of a room side by side, and sheets that are kept where they are by hand. */
#include "window/window_boards.h"
#include "ceiling/layout.h"
#include "estimate/lay_choices.h"
#include "sheets/words.h"

/* The room that is picked, or whose layout is; 0 for none. */
SwId
sw_window_picked_room (SwWindow *window)
{
  SwBoard *board = sw_document_board (sw_window_document (window));
  for (guint i = 0; i < sw_board_n_picked (board); i++)
    {
      const SwRecord *record = sw_job_get (sw_board_job (board), sw_board_picked (board, i));
      if (record != NULL && sw_record_table (record) == SW_TABLE_ROOM)
        return record->id;
      if (record != NULL && sw_record_table (record) == SW_TABLE_LAYOUT)
        return ((const SwLayout *) record)->room;
    }
  return 0;
}

/* ---- Sheets that stay ---- */

typedef struct
{
  const SwLayout *layout;
  int piece;
  gboolean locked;
} Piece;

static gboolean
find_piece (SwWindow *window, SwPoint at, Piece *found)
{
  SwJob *job = sw_document_job (sw_window_document (window));
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_LAYOUT); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwLayout *layout = (const SwLayout *) record;
      int piece = sw_lay_piece_at (layout, at);
      if (piece == 0)
        continue;
      *found = (Piece){ layout, piece, FALSE };
      for (guint k = 0; k < layout->pieces.n; k++)
        if (SW_LIST_AT (layout->pieces, SwPiece, k).piece == piece)
          found->locked = SW_LIST_AT (layout->pieces, SwPiece, k).locked;
      return TRUE;
    }
  return FALSE;
}

static void
keep_piece (SwWindow *window, SwId room, int piece, gboolean locked)
{
  SwDocument *document = sw_window_document (window);
  g_autoptr (GError) error = NULL;
  g_autoptr (SwEdit) edit = sw_edit_new (locked ? _("Keep a sheet here") : _("Let a sheet go"));
  if (!sw_lay_lock (sw_document_job (document), room, &piece, 1, locked, edit, &error))
    sw_document_set_fault (document, error->message);
  else
    sw_document_do (document, g_steal_pointer (&edit));
}

static void
act_keep_piece (GtkWidget *widget, const char *name, GVariant *parameter)
{
  gint64 room;
  int piece;
  gboolean locked;
  g_variant_get (parameter, "(xib)", &room, &piece, &locked);
  if (sw_window_document (SW_WINDOW (widget)) != NULL)
    keep_piece (SW_WINDOW (widget), room, piece, locked);
}

static void
act_keep_here (GtkWidget *widget, const char *name, GVariant *parameter)
{
  SwWindow *window = SW_WINDOW (widget);
  SwPoint at;
  Piece piece;
  if (sw_window_document (window) != NULL && sw_board_raw_cursor (sw_document_board (sw_window_document (window)), &at)
      && find_piece (window, at, &piece))
    keep_piece (window, piece.layout->room, piece.piece, !piece.locked);
}

void
sw_window_append_board_items (SwWindow *window, GMenu *menu, SwPoint at)
{
  Piece piece;
  if (!find_piece (window, at, &piece))
    return;
  g_autofree char *label = piece.locked ? g_strdup_printf (_("_Let sheet %d go"), piece.piece) : g_strdup_printf (_("_Keep sheet %d here"), piece.piece);
  g_autoptr (GMenuItem) item = g_menu_item_new (label, NULL);
  g_menu_item_set_action_and_target (item, "win.keep-piece", "(xib)", (gint64) piece.layout->room, piece.piece, !piece.locked);
  g_menu_append_item (menu, item);
  g_menu_append (menu, _("_Boards side by side…"), "win.layouts");
}

/* ---- Window ---- */

void
sw_window_class_add_boards (GtkWidgetClass *class)
{
  gtk_widget_class_install_action (class, "win.keep-piece", "(xib)", act_keep_piece);
  gtk_widget_class_install_action (class, "win.keep-here", NULL, act_keep_here);
}

void
sw_window_update_boards (SwWindow *window)
{
  SwDocument *document = sw_window_document (window);
  gboolean writable = document != NULL && !sw_document_is_read_only (document);
  gtk_widget_action_set_enabled (GTK_WIDGET (window), "win.keep-piece", writable);
  gtk_widget_action_set_enabled (GTK_WIDGET (window), "win.keep-here", writable);
}
