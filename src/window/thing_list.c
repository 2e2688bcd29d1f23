/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/thing_list.h"
#include "sheets/words.h"
#include "window/compat.h"
#include "window/thing_item.h"
#include <string.h>

struct _SwThingList
{
  GtkWidget parent_instance;
  GtkEditable *search_entry;
  GtkListView *list_view;
  SwDocument *document;
  gulong picture_handler;
  GListStore *store;
  GtkCustomFilter *filter;
  GtkSingleSelection *selection;
  char *wanted; /* folded search text */
  gboolean filling, stale;
};

G_DEFINE_FINAL_TYPE (SwThingList, sw_thing_list, GTK_TYPE_WIDGET)

static guint show_signal;

/* As a reader wants them: what was put there before what is given, what stands nowhere on the plan last. */
static const SwTable tables[] = {
  SW_TABLE_RUN, SW_TABLE_LIGHT, SW_TABLE_FITTING, SW_TABLE_DROP_IN, SW_TABLE_DROP, SW_TABLE_SLEEVE, SW_TABLE_HATCH, SW_TABLE_BULKHEAD, SW_TABLE_ROOM,
  SW_TABLE_WALL, SW_TABLE_BAY, SW_TABLE_BEAM, SW_TABLE_COLUMN, SW_TABLE_OPENING, SW_TABLE_SOLID, SW_TABLE_GRIDLINE, SW_TABLE_MEASURE,
  SW_TABLE_UNDERLAY, SW_TABLE_CIRCUIT, SW_TABLE_HOLD_POINT, SW_TABLE_PLATE, SW_TABLE_PROFILE,
};

static SwBoard *
board_of (SwThingList *list)
{
  return list->document != NULL ? sw_document_board (list->document) : NULL;
}

static gboolean
passes (gpointer object, gpointer data)
{
  SwThingList *list = data;
  return list->wanted == NULL || strstr (SW_THING_ITEM (object)->folded, list->wanted) != NULL;
}

static void
on_search (SwThingList *list)
{
  const char *text = gtk_editable_get_text (list->search_entry);
  g_free (list->wanted);
  list->wanted = *text != 0 ? g_utf8_casefold (text, -1) : NULL;
  gtk_filter_changed (GTK_FILTER (list->filter), GTK_FILTER_CHANGE_DIFFERENT);
}

static void
on_selected (SwThingList *list)
{
  SwThingItem *item = gtk_single_selection_get_selected_item (list->selection);
  if (!list->filling && item != NULL && board_of (list) != NULL && !sw_board_is_picked (board_of (list), item->id))
    sw_board_pick (board_of (list), item->id, FALSE);
}

static void
on_activate (GtkListView *view, guint position, SwThingList *list)
{
  g_autoptr (SwThingItem) item = g_list_model_get_item (G_LIST_MODEL (list->selection), position);
  if (item != NULL)
    g_signal_emit (list, show_signal, 0, item->id);
}

static void
setup_row (GtkSignalListItemFactory *factory, GtkListItem *list_item, gpointer data)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8), *title = gtk_label_new (NULL), *state = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (title), 0);
  gtk_label_set_ellipsize (GTK_LABEL (title), PANGO_ELLIPSIZE_END);
  gtk_widget_set_hexpand (title, TRUE);
  gtk_widget_add_css_class (state, "dim-label");
  gtk_box_append (GTK_BOX (box), title);
  gtk_box_append (GTK_BOX (box), state);
  gtk_list_item_set_child (list_item, box);
}

static void
bind_row (GtkSignalListItemFactory *factory, GtkListItem *list_item, gpointer data)
{
  SwThingItem *item = gtk_list_item_get_item (list_item);
  GtkWidget *box = gtk_list_item_get_child (list_item);
  g_autofree char *name = g_strjoin (", ", item->title, *item->place ? item->place : item->state, *item->place && *item->state ? item->state : NULL, NULL);
  gtk_label_set_text (GTK_LABEL (gtk_widget_get_first_child (box)), item->title);
  gtk_label_set_text (GTK_LABEL (gtk_widget_get_last_child (box)), item->state);
  gtk_widget_set_tooltip_text (box, item->place);
  sw_compat_name_row (list_item, name);
}

/* The one picked thing is the chosen row. */
static void
choose_picked (SwThingList *list)
{
  SwBoard *board = board_of (list);
  guint n = g_list_model_get_n_items (G_LIST_MODEL (list->selection)), found = GTK_INVALID_LIST_POSITION;
  SwId id = board != NULL && sw_board_n_picked (board) == 1 ? sw_board_picked (board, 0) : 0;
  for (guint i = 0; i < n && id != 0 && found == GTK_INVALID_LIST_POSITION; i++)
    {
      g_autoptr (SwThingItem) item = g_list_model_get_item (G_LIST_MODEL (list->selection), i);
      if (item->id == id)
        found = i;
    }
  list->filling = TRUE;
  gtk_single_selection_set_selected (list->selection, found);
  list->filling = FALSE;
  if (found != GTK_INVALID_LIST_POSITION)
    sw_compat_scroll_to (GTK_WIDGET (list->list_view), found, n);
}

/* Worst severity by record. */
static GHashTable *
worst_states (const SwSnags *snags)
{
  GHashTable *worst = g_hash_table_new (g_int64_hash, g_int64_equal);
  for (guint i = 0; snags != NULL && i < sw_snags_n (snags); i++)
    {
      const SwSnag *snag = sw_snags_get (snags, i);
      for (int o = 0; o < 2; o++)
        if (snag->owners[o] != 0 && !g_hash_table_contains (worst, &snag->owners[o]))
          g_hash_table_insert (worst, (gpointer) &snag->owners[o], GINT_TO_POINTER ((int) snag->severity + 1));
    }
  return worst;
}

static void
refill (SwThingList *list)
{
  const SwPicture *picture = list->document != NULL ? sw_document_picture (list->document) : NULL;
  g_autoptr (GPtrArray) items = g_ptr_array_new_with_free_func (g_object_unref);
  g_autoptr (GHashTable) worst = worst_states (picture != NULL ? picture->snags : NULL);
  list->stale = FALSE;
  for (gsize t = 0; picture != NULL && t < G_N_ELEMENTS (tables); t++)
    {
      const SwRecord *record;
      for (SwJobIter i = sw_job_iter (sw_picture_job (picture), tables[t]); (record = sw_job_iter_next (&i)) != NULL;)
        {
          int state = GPOINTER_TO_INT (g_hash_table_lookup (worst, &record->id));
          g_ptr_array_add (items, sw_thing_item_new (picture, record, state > 0 ? (SwSeverity) (state - 1) : SW_N_SEVERITIES));
        }
    }
  list->filling = TRUE;
  g_list_store_splice (list->store, 0, g_list_model_get_n_items (G_LIST_MODEL (list->store)), items->pdata, items->len);
  list->filling = FALSE;
  choose_picked (list);
}

/* Filled only while it shows: a large job has many rows. */
static void
on_picture (SwDocument *document, SwThingList *list)
{
  if (gtk_widget_get_mapped (GTK_WIDGET (list)))
    refill (list);
  else
    list->stale = TRUE;
}

static void
on_board (SwBoard *board, guint changes, gpointer data)
{
  if ((changes & SW_BOARD_PICKED) != 0 && gtk_widget_get_mapped (data))
    choose_picked (data);
}

static void
thing_list_map (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (sw_thing_list_parent_class)->map (widget);
  if (SW_THING_LIST (widget)->stale)
    refill (SW_THING_LIST (widget));
  else
    choose_picked (SW_THING_LIST (widget));
}

static void
drop_document (SwThingList *list)
{
  if (list->document == NULL)
    return;
  g_clear_signal_handler (&list->picture_handler, list->document);
  sw_board_unwatch (board_of (list), on_board, list);
  g_clear_object (&list->document);
}

void
sw_thing_list_set_document (SwThingList *list, SwDocument *document)
{
  drop_document (list);
  g_list_store_remove_all (list->store);
  list->stale = TRUE;
  if (document == NULL)
    return;
  list->document = g_object_ref (document);
  list->picture_handler = g_signal_connect (document, "picture", G_CALLBACK (on_picture), list);
  sw_board_watch (board_of (list), on_board, list);
  if (sw_document_picture (document) != NULL)
    on_picture (document, list);
}

static void
sw_thing_list_init (SwThingList *list)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  gtk_widget_init_template (GTK_WIDGET (list));
  list->store = g_list_store_new (SW_TYPE_THING_ITEM);
  list->filter = gtk_custom_filter_new (passes, list, NULL);
  list->selection = gtk_single_selection_new (
      G_LIST_MODEL (gtk_filter_list_model_new (G_LIST_MODEL (g_object_ref (list->store)), GTK_FILTER (g_object_ref (list->filter)))));
  gtk_single_selection_set_autoselect (list->selection, FALSE);
  gtk_single_selection_set_can_unselect (list->selection, TRUE);
  g_signal_connect (factory, "setup", G_CALLBACK (setup_row), NULL);
  g_signal_connect (factory, "bind", G_CALLBACK (bind_row), NULL);
  gtk_list_view_set_factory (list->list_view, factory);
  g_object_unref (factory);
  gtk_list_view_set_model (list->list_view, GTK_SELECTION_MODEL (list->selection));
  g_signal_connect_swapped (list->selection, "notify::selected-item", G_CALLBACK (on_selected), list);
  g_signal_connect_swapped (list->search_entry, "search-changed", G_CALLBACK (on_search), list);
}

static void
thing_list_dispose (GObject *object)
{
  SwThingList *list = SW_THING_LIST (object);
  GtkWidget *child;
  drop_document (list);
  if (list->selection != NULL)
    g_signal_handlers_disconnect_by_data (list->selection, list);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (list))) != NULL)
    gtk_widget_unparent (child);
  g_clear_object (&list->selection);
  g_clear_object (&list->filter);
  g_clear_object (&list->store);
  g_clear_pointer (&list->wanted, g_free);
  G_OBJECT_CLASS (sw_thing_list_parent_class)->dispose (object);
}

static void
sw_thing_list_class_init (SwThingListClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  G_OBJECT_CLASS (class)->dispose = thing_list_dispose;
  widget_class->map = thing_list_map;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/soffitwright/Soffitwright/thing-list.ui");
  gtk_widget_class_bind_template_child (widget_class, SwThingList, search_entry);
  gtk_widget_class_bind_template_child (widget_class, SwThingList, list_view);
  gtk_widget_class_bind_template_callback (widget_class, on_activate);
  show_signal = g_signal_new ("show-thing", SW_TYPE_THING_LIST, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_INT64);
}
