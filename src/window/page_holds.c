/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/page_holds.h"
#include "job/holds.h"
#include "sheets/context.h"
#include "sheets/words.h"
#include "window/compat.h"
#include "window/record_choice.h"

#define N_KINDS (SW_HOLD_SECOND_FIX + 1)

typedef struct
{
  SwPageHolds *page;
  SwHoldKind kind;
  GtkDropDown *result;
  GtkEditable *by, *on, *note;
} Row;

struct _SwPageHolds
{
  GtkWindow parent_instance;
  SwDocument *document;
  SwRecordChoice room; /* of the job that is shown */
  GtkLabel *close_label, *fault_label;
  GtkWidget *grid;
  Row rows[N_KINDS];
  gboolean filling;
};

G_DEFINE_FINAL_TYPE (SwPageHolds, sw_page_holds, GTK_TYPE_WINDOW)

/* The points before the permission that have not passed, by name. */
static char *
open_points (const SwPageHolds *page, SwId room)
{
  GString *text = g_string_new (NULL);
  for (int i = 0; i < SW_HOLD_CLOSE; i++)
    {
      const SwHoldPoint *hold = sw_job_hold_point (sw_document_job (page->document), room, (SwHoldKind) i);
      if (hold == NULL || hold->result != SW_RESULT_PASSED)
        g_string_append_printf (text, "%s%s", text->len > 0 ? ", " : "", sw_sheet_word (SW_TABLE_HOLD_POINT, "kind", i));
    }
  return g_string_free (text, FALSE);
}

static void
say_closing (SwPageHolds *page, SwId room)
{
  if (room == 0)
    {
      gtk_label_set_text (page->close_label, _("The job has no room yet: draw one first."));
      return;
    }
  g_autofree char *open = open_points (page, room);
  const SwHoldPoint *permission = sw_job_hold_point (sw_document_job (page->document), room, SW_HOLD_CLOSE);
  gboolean permitted = permission != NULL && permission->result == SW_RESULT_PASSED;
  g_autofree char *text = *open == '\0' ? g_strdup (permitted ? _("Closed with permission.") : _("All has passed: the permission to close may be given."))
                                        : g_strdup_printf (permitted ? _("Closed with permission, though still open: %s.") : _("Not to be closed yet. Still open: %s."), open);
  gtk_label_set_text (page->close_label, text);
}

/* What is being typed stays: it is entered when the field is left. */
static void
set_text (SwPageHolds *page, GtkEditable *field, const char *text)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (page));
  gboolean typed_in = focus != NULL && (focus == GTK_WIDGET (field) || gtk_widget_is_ancestor (focus, GTK_WIDGET (field)));
  if (!typed_in && g_strcmp0 (gtk_editable_get_text (field), text) != 0)
    gtk_editable_set_text (field, text);
}

static void
fill_rows (SwPageHolds *page)
{
  SwId room = sw_record_choice_now (&page->room);
  page->filling = TRUE;
  for (int i = 0; i < N_KINDS; i++)
    {
      const SwHoldPoint *hold = sw_job_hold_point (sw_document_job (page->document), room, (SwHoldKind) i);
      gtk_drop_down_set_selected (page->rows[i].result, hold != NULL ? (guint) hold->result : SW_RESULT_OPEN);
      set_text (page, page->rows[i].by, hold != NULL ? hold->by : "");
      set_text (page, page->rows[i].on, hold != NULL ? hold->on : "");
      set_text (page, page->rows[i].note, hold != NULL ? hold->note : "");
    }
  say_closing (page, room);
  page->filling = FALSE;
}

static void
enter (Row *row)
{
  SwPageHolds *page = row->page;
  SwId room = sw_record_choice_now (&page->room);
  g_autoptr (GError) error = NULL;
  if (page->filling || page->document == NULL || room == 0)
    return;
  SwHoldEntry entry = { (SwResult) gtk_drop_down_get_selected (row->result), gtk_editable_get_text (row->by), gtk_editable_get_text (row->on),
                        gtk_editable_get_text (row->note) };
  SwEdit *edit = sw_job_enter_hold (sw_document_job (page->document), room, row->kind, &entry, &error);
  gtk_label_set_text (page->fault_label, error != NULL ? error->message : "");
  if (edit == NULL)
    return;
  if (sw_edit_is_empty (edit))
    sw_edit_unref (edit);
  else
    sw_document_do (page->document, edit);
}

static void
act_step (GtkWidget *widget, const char *name, GVariant *parameter)
{
  SwPageHolds *page = SW_PAGE_HOLDS (widget);
  if (page->document != NULL && g_str_equal (name, "holds.undo"))
    sw_document_undo (page->document);
  else if (page->document != NULL)
    sw_document_redo (page->document);
}

static void
on_leave (GtkEventControllerFocus *focus, Row *row)
{
  enter (row);
}

/* ---- making the page ---- */

static GtkEditable *
add_entry (SwPageHolds *page, GtkGrid *grid, Row *row, int column, const char *what, int width)
{
  GtkWidget *entry = gtk_entry_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();
  g_autofree char *name = g_strdup_printf ("%s: %s", sw_sheet_word (SW_TABLE_HOLD_POINT, "kind", (int) row->kind), what);
  gtk_editable_set_width_chars (GTK_EDITABLE (entry), width);
  gtk_accessible_update_property (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_signal_connect (focus, "leave", G_CALLBACK (on_leave), row);
  gtk_widget_add_controller (entry, focus);
  g_signal_connect_swapped (entry, "activate", G_CALLBACK (enter), row);
  gtk_grid_attach (grid, entry, column, (int) row->kind + 1, 1, 1);
  return GTK_EDITABLE (entry);
}

static GtkDropDown *
add_result (GtkGrid *grid, Row *row)
{
  g_autoptr (GtkStringList) words = gtk_string_list_new (NULL);
  for (int i = SW_RESULT_OPEN; i <= SW_RESULT_FAILED; i++)
    gtk_string_list_append (words, sw_sheet_word (SW_TABLE_HOLD_POINT, "result", i));
  GtkWidget *choice = gtk_drop_down_new (G_LIST_MODEL (g_steal_pointer (&words)), NULL);
  sw_compat_name_drop_down (GTK_DROP_DOWN (choice), sw_sheet_word (SW_TABLE_HOLD_POINT, "kind", (int) row->kind));
  g_signal_connect_swapped (choice, "notify::selected", G_CALLBACK (enter), row);
  gtk_grid_attach (grid, choice, 1, (int) row->kind + 1, 1, 1);
  return GTK_DROP_DOWN (choice);
}

static GtkWidget *
text_label (const char *text)
{
  GtkWidget *label = gtk_label_new (text);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  return label;
}

static void
add_rows (SwPageHolds *page, GtkGrid *grid)
{
  const char *const heads[] = { _("Hold point"), _("Result"), _("Name"), _("Date"), _("Note") };
  for (guint i = 0; i < G_N_ELEMENTS (heads); i++)
    {
      GtkWidget *head = text_label (heads[i]);
      gtk_widget_add_css_class (head, "heading");
      gtk_grid_attach (grid, head, (int) i, 0, 1, 1);
    }
  for (int i = 0; i < N_KINDS; i++)
    {
      Row *row = &page->rows[i];
      row->page = page;
      row->kind = (SwHoldKind) i;
      gtk_grid_attach (grid, text_label (sw_sheet_word (SW_TABLE_HOLD_POINT, "kind", i)), 0, i + 1, 1, 1);
      row->result = add_result (grid, row);
      row->by = add_entry (page, grid, row, 2, _("Name"), 18);
      row->on = add_entry (page, grid, row, 3, _("Date"), 11);
      row->note = add_entry (page, grid, row, 4, _("Note"), 24);
      gtk_entry_set_placeholder_text (GTK_ENTRY (row->on), "2026-01-31");
    }
}

static void
fill_rooms (SwPageHolds *page)
{
  static const SwTable tables[] = { SW_TABLE_ROOM, SW_N_TABLES };
  sw_record_choice_fill (&page->room, sw_document_job (page->document), tables, NULL, sw_record_choice_now (&page->room));
  gtk_widget_set_sensitive (GTK_WIDGET (page->grid), sw_record_choice_now (&page->room) != 0);
  fill_rows (page);
}

static void
on_room (SwPageHolds *page)
{
  if (!page->room.filling)
    fill_rows (page);
}

void
sw_page_holds_show (SwPageHolds *page, SwId room)
{
  sw_record_choice_set (&page->room, room);
}

SwPageHolds *
sw_page_holds_new (GtkWindow *parent, SwDocument *document)
{
  SwPageHolds *page = g_object_new (SW_TYPE_PAGE_HOLDS, "transient-for", parent, NULL);
  page->document = g_object_ref (document);
  fill_rooms (page);
  g_signal_connect_object (document, "picture", G_CALLBACK (fill_rooms), page, G_CONNECT_SWAPPED);
  return page;
}

static void
sw_page_holds_init (SwPageHolds *page)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8), *grid = gtk_grid_new (), *scroller = gtk_scrolled_window_new ();
  gtk_window_set_title (GTK_WINDOW (page), _("Hold points"));
  gtk_window_set_titlebar (GTK_WINDOW (page), gtk_header_bar_new ());
  gtk_window_set_default_size (GTK_WINDOW (page), 880, 620);
  sw_record_choice_init (&page->room, GTK_DROP_DOWN (gtk_drop_down_new (NULL, NULL)), _("Room"));
  g_signal_connect_swapped (page->room.drop_down, "notify::selected", G_CALLBACK (on_room), page);
  page->close_label = GTK_LABEL (text_label (""));
  page->fault_label = GTK_LABEL (text_label (""));
  gtk_widget_add_css_class (GTK_WIDGET (page->close_label), "heading");
  gtk_widget_add_css_class (GTK_WIDGET (page->fault_label), "snag-stop");
  gtk_grid_set_column_spacing (GTK_GRID (grid), 8);
  gtk_grid_set_row_spacing (GTK_GRID (grid), 6);
  page->grid = grid;
  add_rows (page, GTK_GRID (grid));
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (page->room.drop_down));
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (page->close_label));
  gtk_box_append (GTK_BOX (box), grid);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (page->fault_label));
  gtk_widget_set_margin_start (box, 18);
  gtk_widget_set_margin_end (box, 18);
  gtk_widget_set_margin_top (box, 12);
  gtk_widget_set_margin_bottom (box, 12);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), box);
  gtk_window_set_child (GTK_WINDOW (page), scroller);
}

static void
page_holds_dispose (GObject *object)
{
  SwPageHolds *page = SW_PAGE_HOLDS (object);
  page->filling = TRUE; /* fields that lose the focus now enter nothing */
  g_clear_object (&page->document);
  sw_record_choice_clear (&page->room);
  G_OBJECT_CLASS (sw_page_holds_parent_class)->dispose (object);
}

static void
sw_page_holds_class_init (SwPageHoldsClass *class)
{
  G_OBJECT_CLASS (class)->dispose = page_holds_dispose;
  gtk_widget_class_install_action (GTK_WIDGET_CLASS (class), "holds.undo", NULL, act_step);
  gtk_widget_class_install_action (GTK_WIDGET_CLASS (class), "holds.redo", NULL, act_step);
  gtk_widget_class_add_binding_action (GTK_WIDGET_CLASS (class), GDK_KEY_z, GDK_CONTROL_MASK, "holds.undo", NULL);
  gtk_widget_class_add_binding_action (GTK_WIDGET_CLASS (class), GDK_KEY_z, GDK_CONTROL_MASK | GDK_SHIFT_MASK, "holds.redo", NULL);
  gtk_widget_class_add_binding_action (GTK_WIDGET_CLASS (class), GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_add_binding_action (GTK_WIDGET_CLASS (class), GDK_KEY_w, GDK_CONTROL_MASK, "window.close", NULL);
}
