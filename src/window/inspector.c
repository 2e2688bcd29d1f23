/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rows are built when other things are picked or a list changes its length, and only filled anew otherwise, so that the
 * focus stays where it is while values change. */
#include "window/inspector.h"
#include "sheets/plan.h"
#include "sheets/words.h"
#include "window/inspector_row.h"
#include "window/release_button.h"
#include "window/tools/parts.h"
#include "window/tools/release.h"

struct _SwInspector
{
  GtkWidget parent_instance;
  GtkLabel *title_label, *list_label, *empty_label;
  GtkGrid *grid, *list_grid;
  GtkScrolledWindow *scrolled;
  GtkBox *more_box;
  GtkWidget *centre_button, *release_button;
  SwDocument *document;
  gulong changed_handler, picture_handler;
  GPtrArray *rows; /* SwInspectorRow, owned by their controls */
  GtkWidget *tag_entry, *tag_fault;
  char *built_for; /* what the rows were built for */
  guint idle;
  gboolean filling;
};

G_DEFINE_FINAL_TYPE (SwInspector, sw_inspector, GTK_TYPE_WIDGET)

static SwBoard *
board_of (SwInspector *inspector)
{
  return inspector->document != NULL ? sw_document_board (inspector->document) : NULL;
}

static void
clear_grid (GtkGrid *grid)
{
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (grid))) != NULL)
    gtk_grid_remove (grid, child);
}

#define LABEL_CHARS 14 /* at least: long choices beside them do not squeeze them to single words */

static GtkWidget *
label_new (const char *text)
{
  GtkWidget *label = gtk_label_new (text);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_width_chars (GTK_LABEL (label), LABEL_CHARS);
  gtk_widget_set_hexpand (label, TRUE);
  return label;
}

/* ---- The mark ---- */

static void
commit_tag (SwInspector *inspector)
{
  GError *error = NULL;
  const char *text = gtk_editable_get_text (GTK_EDITABLE (inspector->tag_entry));
  SwBoard *board = board_of (inspector);
  g_autoptr (GPtrArray) records = board != NULL ? sw_board_shown (board) : g_ptr_array_new ();
  const SwRecord *record = records->len == 1 ? records->pdata[0] : NULL;
  if (inspector->filling || record == NULL || g_str_equal (record->tag, text))
    return;
  gboolean good = sw_board_set_tag (board, text, &error);
  gtk_label_set_text (GTK_LABEL (inspector->tag_fault), good ? "" : error->message);
  gtk_widget_set_visible (inspector->tag_fault, !good);
  g_clear_error (&error);
}

static void
on_tag_activate (GtkEntry *entry, SwInspector *inspector)
{
  commit_tag (inspector);
}

static void
on_tag_left (GtkEventControllerFocus *focus, SwInspector *inspector)
{
  commit_tag (inspector);
}

static int
add_tag (SwInspector *inspector, int line)
{
  GtkEventController *focus = gtk_event_controller_focus_new ();
  inspector->tag_entry = gtk_entry_new ();
  inspector->tag_fault = gtk_label_new (NULL);
  gtk_editable_set_width_chars (GTK_EDITABLE (inspector->tag_entry), 10);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (inspector->tag_entry), 14);
  gtk_label_set_wrap (GTK_LABEL (inspector->tag_fault), TRUE);
  gtk_label_set_xalign (GTK_LABEL (inspector->tag_fault), 0);
  gtk_widget_add_css_class (inspector->tag_fault, "error");
  gtk_widget_set_visible (inspector->tag_fault, FALSE);
  g_signal_connect (inspector->tag_entry, "activate", G_CALLBACK (on_tag_activate), inspector);
  g_signal_connect (focus, "leave", G_CALLBACK (on_tag_left), inspector);
  gtk_widget_add_controller (inspector->tag_entry, focus);
  gtk_accessible_update_property (GTK_ACCESSIBLE (inspector->tag_entry), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Mark"), -1);
  gtk_grid_attach (inspector->grid, label_new (_("Mark")), 0, line, 1, 1);
  gtk_grid_attach (inspector->grid, inspector->tag_entry, 1, line, 1, 1);
  gtk_grid_attach (inspector->grid, inspector->tag_fault, 0, line + 1, 2, 1);
  return line + 2;
}

/* ---- Rows ---- */

static int
add_row (SwInspector *inspector, const SwPath *path, int line)
{
  g_autofree char *text = sw_inspector_row_label (path, sw_job_lengths (sw_board_job (board_of (inspector))));
  SwInspectorRow *row = sw_inspector_row_new (board_of (inspector), path, text);
  gtk_widget_set_hexpand (row->control, FALSE);
  gtk_widget_set_halign (row->control, GTK_ALIGN_FILL);
  gtk_grid_attach (inspector->grid, label_new (text), 0, line, 1, 1);
  gtk_grid_attach (inspector->grid, row->control, 1, line, 1, 1);
  gtk_grid_attach (inspector->grid, row->fault, 0, line + 1, 2, 1);
  g_ptr_array_add (inspector->rows, row);
  return line + 2;
}

static void
show_error (SwInspector *inspector, GError *error)
{
  if (error != NULL)
    sw_document_set_fault (inspector->document, error->message);
  g_clear_error (&error);
}

static void
on_insert (GtkButton *button, SwInspector *inspector)
{
  GError *error = NULL;
  sw_board_insert_place (board_of (inspector), GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "item")), &error);
  show_error (inspector, error);
}

static void
on_remove (GtkButton *button, SwInspector *inspector)
{
  GError *error = NULL;
  sw_board_remove_place (board_of (inspector), GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "item")), &error);
  show_error (inspector, error);
}

static void
add_place_button (SwInspector *inspector, const char *icon, const char *name, GCallback callback, guint item, int column, int line)
{
  GtkWidget *button = gtk_button_new_from_icon_name (icon);
  g_autofree char *label = g_strdup_printf (name, item + 1);
  gtk_button_set_has_frame (GTK_BUTTON (button), FALSE);
  gtk_widget_set_tooltip_text (button, label);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  g_object_set_data (G_OBJECT (button), "item", GUINT_TO_POINTER (item));
  g_signal_connect (button, "clicked", callback, inspector);
  gtk_grid_attach (inspector->list_grid, button, column, line, 1, 1);
}

/* A place of a list takes two lines: x, y and the buttons; below them a vertex's level. */
static void
add_list_row (SwInspector *inspector, const SwPath *path, int *column)
{
  g_autofree char *label = sw_inspector_row_label (path, sw_job_lengths (sw_board_job (board_of (inspector))));
  g_autofree char *name = g_strdup_printf (_("%s of place %d"), label, path->item + 1);
  SwInspectorRow *row = sw_inspector_row_new (board_of (inspector), path, name);
  int line = path->item * 3;
  if (path->axis == 0)
    {
      g_autofree char *number = g_strdup_printf ("%d", path->item + 1);
      GtkWidget *count = gtk_label_new (number);
      gtk_widget_add_css_class (count, "dim-label");
      gtk_grid_attach (inspector->list_grid, count, 0, line, 1, 1);
      add_place_button (inspector, "list-add-symbolic", _("New place after place %u"), G_CALLBACK (on_insert), (guint) path->item, 3, line);
      add_place_button (inspector, "list-remove-symbolic", _("Take out place %u"), G_CALLBACK (on_remove), (guint) path->item, 4, line);
      *column = 1;
    }
  if (path->axis < 0 && sw_path_leaf (path)->kind == SW_FIELD_ENUM)
    *column = 1;
  gtk_widget_set_tooltip_text (row->control, label);
  gtk_grid_attach (inspector->list_grid, row->control, (*column)++, line + (path->axis < 0), 1, 1);
  if (path->axis >= 0)
    gtk_grid_attach (inspector->list_grid, row->fault, 1, line + 2, 4, 1);
  else
    g_object_ref_sink (row->fault), g_object_set_data_full (G_OBJECT (row->control), "fault", row->fault, g_object_unref);
  g_ptr_array_add (inspector->rows, row);
}

/* A new bay's first rib follows from its outline, a bulkhead's room from its place. */
static gboolean
is_decided_by_drawing (SwInspector *inspector, const SwRecord *record, const SwPath *path)
{
  const char *key = sw_record_table (record) == SW_TABLE_BULKHEAD ? "room" : "first_rib_mm";
  return sw_board_shows_template (board_of (inspector)) && path->inner == NULL && g_str_equal (path->outer->key, key);
}

static void
build (SwInspector *inspector, const GPtrArray *records)
{
  gboolean single = records->len == 1 && !sw_board_shows_template (board_of (inspector));
  g_autoptr (GArray) paths = NULL;
  int line = 0, column = 0;
  /* An entry that is taken away loses the focus: that must not enter its text into what is picked now. */
  for (guint i = 0; i < inspector->rows->len; i++)
    ((SwInspectorRow *) inspector->rows->pdata[i])->filling = TRUE;
  clear_grid (inspector->grid);
  clear_grid (inspector->list_grid);
  g_ptr_array_set_size (inspector->rows, 0);
  inspector->tag_entry = inspector->tag_fault = NULL;
  gtk_label_set_text (inspector->list_label, "");
  if (records->len == 0)
    return;
  if (single && SW_ID_TABLE (((const SwRecord *) records->pdata[0])->id) != SW_TABLE_JOB)
    line = add_tag (inspector, line);
  paths = sw_path_list (records->pdata[0], TRUE);
  for (guint i = 0; i < paths->len; i++)
    {
      const SwPath *path = &g_array_index (paths, SwPath, i);
      /* The template's one vertex holds the level of the next one. */
      if (path->item >= 0 && !single)
        {
          if (sw_board_shows_template (board_of (inspector)) && path->axis < 0)
            line = add_row (inspector, path, line);
        }
      else if (path->item >= 0)
        {
          gtk_label_set_text (inspector->list_label, sw_word (path->outer->label));
          add_list_row (inspector, path, &column);
        }
      else if ((single || path->axis < 0) && !is_decided_by_drawing (inspector, records->pdata[0], path))
        line = add_row (inspector, path, line);
    }
  gtk_widget_set_visible (GTK_WIDGET (inspector->list_label), *gtk_label_get_text (inspector->list_label) != 0);
}

/* ---- What can be done at once ---- */

static void
on_centre (GtkButton *button, SwInspector *inspector)
{
  GError *error = NULL;
  sw_board_centre_voids (board_of (inspector), &error);
  show_error (inspector, error);
}

/* The plates that wait for a release at the picked runs, bays and plates. */
static GArray *
plates_waiting (SwInspector *inspector)
{
  const SwPicture *picture = sw_document_picture (inspector->document);
  SwBoard *board = board_of (inspector);
  GArray *all = g_array_new (FALSE, FALSE, sizeof (SwPlateRef));
  for (guint i = 0; picture != NULL && picture->snags != NULL && i < sw_board_n_picked (board); i++)
    {
      g_autoptr (GArray) plates = sw_release_wanted_for (picture->snags, sw_board_picked (board, i));
      for (guint k = 0; k < plates->len; k++)
        sw_release_add (all, &g_array_index (plates, SwPlateRef, k));
    }
  return all;
}

static void
offer_more (SwInspector *inspector)
{
  SwBoard *board = board_of (inspector);
  gboolean writable = inspector->document != NULL && !sw_document_is_read_only (inspector->document);
  g_autoptr (GArray) plates = writable ? plates_waiting (inspector) : NULL;
  sw_release_button_set_plates (inspector->release_button, inspector->document, plates);
  gtk_widget_set_visible (inspector->centre_button, writable && sw_board_voids_are_off_centre (board));
}

static char *
title_for (SwInspector *inspector, const GPtrArray *records)
{
  SwBoard *board = board_of (inspector);
  if (sw_board_shows_template (board))
    return g_strdup_printf (_("Next: %s"), sw_word (sw_board_tool (board)->label));
  if (records->len == 1)
    return sw_plan_title (records->pdata[0], sw_job_lengths (sw_board_job (board)));
  if (records->len > 1)
    return g_strdup_printf (_("%u × %s"), records->len, sw_word (sw_record_type (records->pdata[0])->label));
  if (sw_board_n_picked (board) > 1)
    return g_strdup_printf (_("%u things of several kinds"), sw_board_n_picked (board));
  return g_strdup (_("Nothing picked"));
}

/* A text that is another when the rows have to be others. */
static char *
shape_of (SwInspector *inspector, const GPtrArray *records)
{
  g_autoptr (GString) text = g_string_new (sw_lengths_symbol (sw_job_lengths (sw_board_job (board_of (inspector)))));
  for (guint i = 0; i < records->len; i++)
    g_string_append_printf (text, " %" G_GINT64_FORMAT " ", ((const SwRecord *) records->pdata[i])->id);
  if (records->len > 0 && sw_parts_list (records->pdata[0]) != NULL)
    g_string_append_printf (text, "places %u ", sw_parts_count (records->pdata[0]));
  if (sw_board_shows_template (board_of (inspector)))
    g_string_append (text, sw_board_tool (board_of (inspector))->id);
  return g_strdup (text->str);
}

static void
fill (SwInspector *inspector)
{
  SwBoard *board = board_of (inspector);
  g_autoptr (GPtrArray) records = board != NULL ? sw_board_shown (board) : g_ptr_array_new ();
  g_autofree char *shape = board != NULL ? shape_of (inspector, records) : g_strdup ("");
  g_autofree char *title = board != NULL ? title_for (inspector, records) : g_strdup ("");
  inspector->filling = TRUE;
  if (g_strcmp0 (shape, inspector->built_for) != 0)
    {
      build (inspector, records);
      g_free (inspector->built_for);
      inspector->built_for = g_steal_pointer (&shape);
    }
  gtk_label_set_text (inspector->title_label, title);
  gtk_widget_set_visible (GTK_WIDGET (inspector->empty_label), records->len == 0 && (board == NULL || sw_board_n_picked (board) == 0));
  for (guint i = 0; i < inspector->rows->len && records->len > 0; i++)
    sw_inspector_row_fill (inspector->rows->pdata[i], records);
  if (inspector->tag_entry != NULL && records->len == 1)
    gtk_editable_set_text (GTK_EDITABLE (inspector->tag_entry), ((const SwRecord *) records->pdata[0])->tag);
  offer_more (inspector);
  /* It keeps its width, so that the panel does not jump when something is picked. */
  gtk_widget_set_opacity (gtk_scrolled_window_get_vscrollbar (inspector->scrolled), records->len > 0 ? 1 : 0);
  gtk_widget_set_sensitive (GTK_WIDGET (inspector->scrolled), inspector->document != NULL && !sw_document_is_read_only (inspector->document));
  inspector->filling = FALSE;
}

/* Later, so that a control may cause the change that rebuilds it. */
static gboolean
fill_later (gpointer data)
{
  SwInspector *inspector = data;
  inspector->idle = 0;
  fill (inspector);
  return G_SOURCE_REMOVE;
}

static void
queue (SwInspector *inspector)
{
  if (inspector->idle == 0)
    inspector->idle = g_idle_add_full (GDK_PRIORITY_REDRAW - 10, fill_later, inspector, NULL);
}

static void
on_changed (SwDocument *document, SwInspector *inspector)
{
  queue (inspector);
}

static void
on_board (SwBoard *board, guint changes, gpointer data)
{
  if ((changes & (SW_BOARD_PICKED | SW_BOARD_TOOL)) != 0)
    queue (data);
}

static void
drop_document (SwInspector *inspector)
{
  if (inspector->document == NULL)
    return;
  g_clear_signal_handler (&inspector->changed_handler, inspector->document);
  g_clear_signal_handler (&inspector->picture_handler, inspector->document);
  sw_release_button_set_plates (inspector->release_button, NULL, NULL);
  sw_board_unwatch (board_of (inspector), on_board, inspector);
  g_clear_object (&inspector->document);
}

void
sw_inspector_set_document (SwInspector *inspector, SwDocument *document)
{
  g_autoptr (GPtrArray) none = g_ptr_array_new ();
  if (inspector->document != NULL)
    build (inspector, none); /* rows hold the old board */
  drop_document (inspector);
  g_clear_pointer (&inspector->built_for, g_free);
  if (document != NULL)
    {
      inspector->document = g_object_ref (document);
      inspector->changed_handler = g_signal_connect (document, "changed", G_CALLBACK (on_changed), inspector);
      inspector->picture_handler = g_signal_connect (document, "picture", G_CALLBACK (on_changed), inspector);
      sw_board_watch (board_of (inspector), on_board, inspector);
    }
  fill (inspector);
}

static void
sw_inspector_init (SwInspector *inspector)
{
  gtk_widget_init_template (GTK_WIDGET (inspector));
  inspector->rows = g_ptr_array_new ();
  inspector->release_button = sw_release_button_new ();
  gtk_box_append (inspector->more_box, inspector->release_button);
}

static void
inspector_dispose (GObject *object)
{
  SwInspector *inspector = SW_INSPECTOR (object);
  GtkWidget *child;
  g_clear_handle_id (&inspector->idle, g_source_remove);
  drop_document (inspector);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (inspector))) != NULL)
    gtk_widget_unparent (child);
  g_clear_pointer (&inspector->rows, g_ptr_array_unref);
  g_clear_pointer (&inspector->built_for, g_free);
  G_OBJECT_CLASS (sw_inspector_parent_class)->dispose (object);
}

static void
sw_inspector_class_init (SwInspectorClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  G_OBJECT_CLASS (class)->dispose = inspector_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/soffitwright/Soffitwright/inspector.ui");
  gtk_widget_class_bind_template_child (widget_class, SwInspector, title_label);
  gtk_widget_class_bind_template_child (widget_class, SwInspector, list_label);
  gtk_widget_class_bind_template_child (widget_class, SwInspector, empty_label);
  gtk_widget_class_bind_template_child (widget_class, SwInspector, grid);
  gtk_widget_class_bind_template_child (widget_class, SwInspector, list_grid);
  gtk_widget_class_bind_template_child (widget_class, SwInspector, scrolled);
  gtk_widget_class_bind_template_child (widget_class, SwInspector, more_box);
  gtk_widget_class_bind_template_child (widget_class, SwInspector, centre_button);
  gtk_widget_class_bind_template_callback (widget_class, on_centre);
}
