/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/price_row.h"
#include "sheets/plan.h"
#include "window/inspector_row.h"

typedef struct
{
  SwDocument *document;
  SwId price;
  GPtrArray *rows; /* SwInspectorRow, owned by their controls */
} PriceRow;

static const SwRecord *
record_of (const PriceRow *of)
{
  return sw_job_get (sw_document_job (of->document), of->price);
}

static void
free_row (gpointer data)
{
  PriceRow *of = data;
  g_ptr_array_unref (of->rows);
  g_object_unref (of->document);
  g_free (of);
}

static void
fill (PriceRow *of)
{
  g_autoptr (GPtrArray) records = g_ptr_array_new ();
  if (record_of (of) == NULL)
    return;
  g_ptr_array_add (records, (gpointer) record_of (of));
  for (guint i = 0; i < of->rows->len; i++)
    sw_inspector_row_fill (of->rows->pdata[i], records);
}

/* Undone, the row may be gone. */
static void
on_changed (SwDocument *document, GtkPopover *popover)
{
  PriceRow *of = g_object_get_data (G_OBJECT (popover), "row");
  if (record_of (of) == NULL)
    gtk_popover_popdown (popover);
  fill (of);
}

static gboolean
drop (gpointer popover)
{
  gtk_widget_unparent (popover);
  return G_SOURCE_REMOVE;
}

/* An entry that is taken away loses the focus: that must not enter its text into what is picked then. */
static void
on_closed (GtkPopover *popover)
{
  PriceRow *of = g_object_get_data (G_OBJECT (popover), "row");
  for (guint i = 0; i < of->rows->len; i++)
    ((SwInspectorRow *) of->rows->pdata[i])->filling = TRUE;
  g_idle_add (drop, popover);
}

static GtkWidget *
label_new (const char *text)
{
  GtkWidget *label = gtk_label_new (text);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  return label;
}

static GtkWidget *
grid_new (PriceRow *of)
{
  GtkGrid *grid = GTK_GRID (gtk_grid_new ());
  SwBoard *board = sw_document_board (of->document);
  SwLengths lengths = sw_job_lengths (sw_document_job (of->document));
  g_autofree char *title = sw_plan_title (record_of (of), lengths);
  GtkWidget *heading = label_new (title);
  g_autoptr (GArray) paths = sw_path_list (record_of (of), FALSE);
  gtk_grid_set_row_spacing (grid, 4);
  gtk_grid_set_column_spacing (grid, 12);
  gtk_widget_add_css_class (heading, "heading");
  gtk_grid_attach (grid, heading, 0, 0, 2, 1);
  for (guint i = 0; i < paths->len; i++)
    {
      const SwPath *path = &g_array_index (paths, SwPath, i);
      g_autofree char *text = sw_inspector_row_label (path, lengths);
      SwInspectorRow *row = sw_inspector_row_new (board, path, text);
      int line = 1 + 2 * (int) i;
      gtk_widget_set_hexpand (row->control, TRUE);
      gtk_grid_attach (grid, label_new (text), 0, line, 1, 1);
      gtk_grid_attach (grid, row->control, 1, line, 1, 1);
      gtk_grid_attach (grid, row->fault, 0, line + 1, 2, 1);
      g_ptr_array_add (of->rows, row);
    }
  gtk_widget_set_sensitive (GTK_WIDGET (grid), !sw_document_is_read_only (of->document));
  return GTK_WIDGET (grid);
}

void
sw_price_row_open (GtkWidget *parent, SwDocument *document, SwId price)
{
  PriceRow *of = g_new (PriceRow, 1);
  *of = (PriceRow){ g_object_ref (document), price, g_ptr_array_new () };
  if (record_of (of) == NULL)
    {
      free_row (of);
      return;
    }
  sw_board_pick (sw_document_board (document), price, FALSE);
  GtkWidget *popover = gtk_popover_new ();
  gtk_widget_set_parent (popover, parent);
  g_object_set_data_full (G_OBJECT (popover), "row", of, free_row);
  gtk_popover_set_child (GTK_POPOVER (popover), grid_new (of));
  fill (of);
  g_signal_connect (popover, "closed", G_CALLBACK (on_closed), NULL);
  g_signal_connect_object (document, "changed", G_CALLBACK (on_changed), popover, 0);
  gtk_popover_popup (GTK_POPOVER (popover));
}
