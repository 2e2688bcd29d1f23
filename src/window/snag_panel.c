/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/snag_panel.h"
#include "checks/advice.h"
#include "sheets/words.h"
#include "window/compat.h"
#include "window/release_button.h"
#include "window/snag_item.h"
#include <string.h>

#define MOST_ADVICE 3

struct _SwSnagPanel
{
  GtkWidget parent_instance;
  GtkLabel *title_label, *count_label, *empty_label, *what_label, *where_label, *todo_label, *rule_label;
  GtkDropDown *severity_drop_down, *trade_drop_down, *room_drop_down;
  GtkListView *list_view;
  GtkBox *detail_box, *mend_box;
  GtkWidget *rule_button;

  SwDocument *document;
  gulong snags_handler;
  GListStore *store; /* SwSnagItem that pass the filters */
  GtkSingleSelection *selection; /* over their tree: GtkTreeListRow */
  gboolean has_groups;
  GtkWidget *release_button;
  GArray *rooms; /* SwId, as in the drop-down from its second entry on */
  SwSnags *shown; /* whose items are in the store */
  guint *numbers;   /* theirs */
  char *chosen;  /* key of the chosen row, kept over changes */
  gboolean filling;
  GCancellable *asking; /* for advice */
};

G_DEFINE_FINAL_TYPE (SwSnagPanel, sw_snag_panel, GTK_TYPE_WIDGET)

static guint show_signal, rule_signal;

static const char *
translate (const char *english)
{
  return sw_word (english);
}

/* ---- Filters ---- */

static gboolean
passes (const SwSnag *snag, gpointer data)
{
  SwSnagPanel *panel = data;
  guint severity = gtk_drop_down_get_selected (panel->severity_drop_down), trade = gtk_drop_down_get_selected (panel->trade_drop_down);
  guint room = gtk_drop_down_get_selected (panel->room_drop_down);
  if (severity > 0 && severity != GTK_INVALID_LIST_POSITION && snag->severity != severity - 1)
    return FALSE;
  if (trade > 0 && trade != GTK_INVALID_LIST_POSITION && snag->trade != trade - 1)
    return FALSE;
  return room == 0 || room > panel->rooms->len || snag->room == g_array_index (panel->rooms, SwId, room - 1);
}

static void
fill_fixed_filters (SwSnagPanel *panel)
{
  g_autoptr (GtkStringList) severities = gtk_string_list_new ((const char *[]){ _("All"), NULL });
  g_autoptr (GtkStringList) trades = gtk_string_list_new ((const char *[]){ _("All trades"), NULL });
  for (int i = 0; i < SW_N_SEVERITIES; i++)
    gtk_string_list_append (severities, sw_word (sw_severity_label (i)));
  for (int i = 0; i < SW_N_TRADES; i++)
    gtk_string_list_append (trades, sw_word (sw_trade_label (i)));
  gtk_drop_down_set_model (panel->severity_drop_down, G_LIST_MODEL (severities));
  gtk_drop_down_set_model (panel->trade_drop_down, G_LIST_MODEL (trades));
}

/* The rooms of the job; the one that was chosen stays so. */
static void
fill_rooms (SwSnagPanel *panel, SwJob *job)
{
  g_autoptr (GtkStringList) names = gtk_string_list_new ((const char *[]){ _("All rooms"), NULL });
  guint selected = gtk_drop_down_get_selected (panel->room_drop_down), again = 0;
  SwId before = selected > 0 && selected <= panel->rooms->len ? g_array_index (panel->rooms, SwId, selected - 1) : 0;
  const SwRecord *record;
  g_array_set_size (panel->rooms, 0);
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_ROOM); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwRoom *room = (const SwRoom *) record;
      gtk_string_list_append (names, *room->name ? room->name : record->tag);
      g_array_append_val (panel->rooms, record->id);
      if (record->id == before)
        again = panel->rooms->len;
    }
  gtk_drop_down_set_model (panel->room_drop_down, G_LIST_MODEL (names));
  gtk_drop_down_set_selected (panel->room_drop_down, again);
}

/* ---- Advice ---- */

typedef struct
{
  SwSnags *snags;
  guint index;
} Question;

static void
question_free (Question *question)
{
  sw_snags_unref (question->snags);
  g_free (question);
}

static void
clear_mends (SwSnagPanel *panel)
{
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (panel->mend_box))) != NULL)
    gtk_box_remove (panel->mend_box, child);
}

static void
find_advice (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Question *question = data;
  GPtrArray *found = sw_advice_find (question->snags, sw_snags_get (question->snags, question->index), &sw_picture_check_options, MOST_ADVICE, cancellable);
  g_task_return_pointer (task, found, (GDestroyNotify) g_ptr_array_unref);
}

static void
on_mend (GtkButton *button, SwSnagPanel *panel)
{
  SwEdit *edit = g_object_get_data (G_OBJECT (button), "edit");
  if (panel->document == NULL)
    return;
  gtk_widget_grab_focus (GTK_WIDGET (panel->list_view)); /* the button goes: without a focus the window would hear no keys */
  sw_document_do (panel->document, sw_edit_ref (edit));
}

static GtkWidget *
add_button (SwSnagPanel *panel, const char *words)
{
  GtkWidget *button = gtk_button_new (), *label = gtk_label_new (words);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_button_set_child (GTK_BUTTON (button), label);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, words, -1);
  gtk_box_append (panel->mend_box, button);
  return button;
}

static void
add_mend (SwSnagPanel *panel, const SwAdvice *advice)
{
  g_autofree char *words = sw_advice_text (advice, sw_job_lengths (sw_document_job (panel->document)), translate);
  GtkWidget *button = add_button (panel, words);
  gtk_widget_set_tooltip_text (button, _("Tried on the whole job: it leaves nothing worse"));
  g_object_set_data_full (G_OBJECT (button), "edit", sw_edit_ref (advice->edit), (GDestroyNotify) sw_edit_unref);
  g_signal_connect (button, "clicked", G_CALLBACK (on_mend), panel);
}

static void
on_lay_out (GtkButton *button, SwSnagPanel *panel)
{
  const gint64 *room = g_object_get_data (G_OBJECT (button), "room");
  if (panel->document == NULL)
    return;
  gtk_widget_grab_focus (GTK_WIDGET (panel->list_view)); /* as above */
  sw_board_pick (sw_document_board (panel->document), *room, FALSE);
  gtk_widget_activate_action (GTK_WIDGET (panel), "win.lay-out", NULL);
}

/* A ceiling that was not laid out, or before something changed: no advice but the one. */
static void
offer_layout (SwSnagPanel *panel, const SwSnag *snag)
{
  if (strcmp (snag->rule, "ceiling-layout") == 0)
    {
      GtkWidget *button = add_button (panel, _("Lay the ceiling of this room out"));
      g_object_set_data_full (G_OBJECT (button), "room", g_memdup2 (&snag->owners[0], sizeof snag->owners[0]), g_free);
      g_signal_connect (button, "clicked", G_CALLBACK (on_lay_out), panel);
    }
}

static void
on_advice (GObject *source, GAsyncResult *result, gpointer data)
{
  SwSnagPanel *panel = SW_SNAG_PANEL (source);
  const Question *question = g_task_get_task_data (G_TASK (result));
  const SwSnag *snag = sw_snags_get (question->snags, question->index);
  g_autoptr (GPtrArray) found = g_task_propagate_pointer (G_TASK (result), NULL);
  if (g_cancellable_is_cancelled (g_task_get_cancellable (G_TASK (result))))
    return;
  clear_mends (panel);
  offer_layout (panel, snag);
  for (guint i = 0; found != NULL && i < found->len; i++)
    add_mend (panel, found->pdata[i]);
  if (found != NULL && found->len == 0 && snag->severity != SW_SEVERITY_NOTE)
    {
      GtkWidget *label = gtk_label_new (sw_word (sw_advice_none ()));
      gtk_label_set_wrap (GTK_LABEL (label), TRUE);
      gtk_label_set_xalign (GTK_LABEL (label), 0);
      gtk_widget_add_css_class (label, "dim-label");
      gtk_box_append (panel->mend_box, label);
    }
}

static void
ask_advice (SwSnagPanel *panel, SwSnagItem *item)
{
  g_cancellable_cancel (panel->asking);
  g_clear_object (&panel->asking);
  clear_mends (panel);
  if (panel->document == NULL || sw_document_is_read_only (panel->document) || sw_document_snags_picture (panel->document)->draft || item->members != NULL)
    return;
  panel->asking = g_cancellable_new ();
  g_autoptr (GTask) task = g_task_new (panel, panel->asking, on_advice, NULL);
  Question *question = g_new0 (Question, 1);
  question->snags = sw_snags_ref (item->snags);
  question->index = item->index;
  g_task_set_task_data (task, question, (GDestroyNotify) question_free);
  g_task_run_in_thread (task, find_advice);
}

/* ---- The chosen one ---- */

static void
set_text (GtkLabel *label, const char *text)
{
  gtk_label_set_text (label, text);
  gtk_widget_set_visible (GTK_WIDGET (label), *text != 0);
}

static void
show_item (SwSnagPanel *panel, SwSnagItem *item)
{
  if (item == NULL)
    return;
  const SwSnag *snag = sw_snag_item_snag (item);
  g_signal_emit (panel, show_signal, 0, snag->place.x, snag->place.y, snag->owners[0]);
}

static SwSnagItem *
chosen_item (SwSnagPanel *panel)
{
  GtkTreeListRow *row = gtk_single_selection_get_selected_item (panel->selection);
  return row != NULL ? g_object_ref (SW_SNAG_ITEM (gtk_tree_list_row_get_item (row))) : NULL;
}

static void
offer_release (SwSnagPanel *panel, SwSnagItem *item)
{
  g_autoptr (GArray) plates = item != NULL && panel->document != NULL ? sw_snag_item_plates (item) : NULL;
  sw_release_button_set_plates (panel->release_button, panel->document, plates);
}

/* A snag that is still there after an edit is chosen again without moving the plan. */
static void
on_selected (SwSnagPanel *panel)
{
  g_autofree char *before = NULL;
  if (panel->filling)
    return;
  g_autoptr (SwSnagItem) item = chosen_item (panel);
  gtk_widget_set_visible (GTK_WIDGET (panel->detail_box), item != NULL);
  before = g_steal_pointer (&panel->chosen);
  offer_release (panel, item);
  if (item == NULL)
    return;
  panel->chosen = sw_snag_item_key (item);
  if (g_strcmp0 (panel->chosen, before) != 0)
    show_item (panel, item);
  const SwSnagText *text = sw_snag_item_text (item);
  set_text (panel->what_label, text->what);
  set_text (panel->where_label, text->where);
  set_text (panel->todo_label, text->todo);
  set_text (panel->rule_label, text->rule);
  gtk_widget_set_visible (panel->rule_button, sw_snag_item_snag (item)->value.rule_id != NULL);
  ask_advice (panel, item);
}

static void
on_show (GtkButton *button, SwSnagPanel *panel)
{
  g_autoptr (SwSnagItem) item = chosen_item (panel);
  show_item (panel, item);
}

static void
on_show_rule (GtkButton *button, SwSnagPanel *panel)
{
  g_autoptr (SwSnagItem) item = chosen_item (panel);
  const char *rule = item != NULL ? sw_snag_item_snag (item)->value.rule_id : NULL;
  if (rule != NULL)
    g_signal_emit (panel, rule_signal, 0, rule);
}

/* Of a group Enter and a double click open and close it. */
static void
on_activate (GtkListView *list, guint position, SwSnagPanel *panel)
{
  g_autoptr (GtkTreeListRow) row = g_list_model_get_item (G_LIST_MODEL (panel->selection), position);
  g_autoptr (SwSnagItem) item = gtk_tree_list_row_get_item (row);
  if (item->members != NULL)
    gtk_tree_list_row_set_expanded (row, !gtk_tree_list_row_get_expanded (row));
  else
    show_item (panel, item);
}

/* ---- Finding a row again ---- */

typedef gboolean (*RowIs) (GtkTreeListRow *row, SwSnagItem *item, gconstpointer data);

/* Its place; the number of rows when there is none. */
static guint
find_row (SwSnagPanel *panel, RowIs is, gconstpointer data)
{
  guint n = g_list_model_get_n_items (G_LIST_MODEL (panel->selection));
  for (guint i = 0; i < n; i++)
    {
      g_autoptr (GtkTreeListRow) row = g_list_model_get_item (G_LIST_MODEL (panel->selection), i);
      g_autoptr (SwSnagItem) item = gtk_tree_list_row_get_item (row);
      if (is (row, item, data))
        return i;
    }
  return n;
}

static gboolean
is_snag (GtkTreeListRow *row, SwSnagItem *item, gconstpointer data)
{
  return item->members == NULL && item->index == *(const guint *) data;
}

static gboolean
is_group_of (GtkTreeListRow *row, SwSnagItem *item, gconstpointer data)
{
  for (guint i = 0; item->members != NULL && i < g_list_model_get_n_items (G_LIST_MODEL (item->members)); i++)
    {
      g_autoptr (SwSnagItem) member = g_list_model_get_item (G_LIST_MODEL (item->members), i);
      if (member->index == *(const guint *) data)
        {
          gtk_tree_list_row_set_expanded (row, TRUE);
          return TRUE;
        }
    }
  return FALSE;
}

static gboolean
is_group (GtkTreeListRow *row, SwSnagItem *item, gconstpointer data)
{
  g_autofree char *key = item->members != NULL ? sw_snag_item_key (item) : NULL;
  return key != NULL && g_str_equal (key, data);
}

/* The group with this key, or the snag that it is of or that is most like it; FALSE when it is not in the list. */
static gboolean
choose (SwSnagPanel *panel, const char *key)
{
  guint found = find_row (panel, is_group, key);
  int index = sw_snags_find (panel->shown, key);
  if (index >= 0)
    {
      guint snag = (guint) index;
      found = find_row (panel, is_snag, &snag);
      if (found == g_list_model_get_n_items (G_LIST_MODEL (panel->selection)) && find_row (panel, is_group_of, &snag) < found)
        found = find_row (panel, is_snag, &snag);
    }
  guint n = g_list_model_get_n_items (G_LIST_MODEL (panel->selection));
  if (found >= n)
    return FALSE;
  gtk_single_selection_set_selected (panel->selection, found);
  sw_compat_scroll_to (GTK_WIDGET (panel->list_view), found, n);
  return TRUE;
}

/* ---- Rows ---- */

static void
setup_row (GtkSignalListItemFactory *factory, GtkListItem *list_item, gpointer data)
{
  GtkWidget *expander = gtk_tree_expander_new (), *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8), *mark = gtk_label_new (NULL), *what = gtk_label_new (NULL);
  gtk_label_set_width_chars (GTK_LABEL (mark), 4);
  gtk_label_set_xalign (GTK_LABEL (mark), 0);
  gtk_widget_set_valign (mark, GTK_ALIGN_START);
  gtk_widget_add_css_class (mark, "numeric");
  gtk_label_set_xalign (GTK_LABEL (what), 0);
  gtk_label_set_ellipsize (GTK_LABEL (what), PANGO_ELLIPSIZE_END);
  gtk_widget_set_hexpand (what, TRUE);
  gtk_box_append (GTK_BOX (box), mark);
  gtk_box_append (GTK_BOX (box), what);
  gtk_tree_expander_set_child (GTK_TREE_EXPANDER (expander), box);
  gtk_list_item_set_child (list_item, expander);
}

static void
bind_row (GtkSignalListItemFactory *factory, GtkListItem *list_item, gpointer data)
{
  static const char *const classes[] = { "snag-stop", "snag-fix", "snag-note" };
  SwSnagPanel *panel = data;
  GtkTreeListRow *row = gtk_list_item_get_item (list_item);
  g_autoptr (SwSnagItem) item = gtk_tree_list_row_get_item (row);
  GtkTreeExpander *expander = GTK_TREE_EXPANDER (gtk_list_item_get_child (list_item));
  GtkWidget *box = gtk_tree_expander_get_child (expander), *mark = gtk_widget_get_first_child (box), *what = gtk_widget_get_last_child (box);
  SwSeverity severity = sw_snag_item_snag (item)->severity;
  g_autofree char *name = g_strdup_printf ("%s %s: %s", sw_word (sw_severity_label (severity)), item->mark, sw_snag_item_text (item)->sentence);
  gtk_tree_expander_set_indent_for_icon (expander, panel->has_groups);
  gtk_tree_expander_set_list_row (expander, row);
  for (gsize i = 0; i < G_N_ELEMENTS (classes); i++)
    if (i == severity)
      gtk_widget_add_css_class (mark, classes[i]);
    else
      gtk_widget_remove_css_class (mark, classes[i]);
  gtk_label_set_text (GTK_LABEL (mark), item->mark);
  gtk_label_set_text (GTK_LABEL (what), sw_snag_item_text (item)->what);
  gtk_widget_set_tooltip_text (box, sw_snag_item_text (item)->sentence);
  sw_compat_name_row (list_item, name);
}

/* ---- Filling ---- */

static void
set_stale (GtkWidget *widget, gboolean stale)
{
  if (stale)
    gtk_widget_add_css_class (widget, "stale");
  else
    gtk_widget_remove_css_class (widget, "stale");
}

static void
show_counts (SwSnagPanel *panel, const SwSnags *snags, gboolean stale)
{
  g_autofree char *text = snags == NULL ? g_strdup (_("not checked yet"))
                                        : g_strdup_printf (_("%u stop · %u fix · %u note"), sw_snags_count (snags, SW_SEVERITY_STOP),
                                                           sw_snags_count (snags, SW_SEVERITY_FIX), sw_snags_count (snags, SW_SEVERITY_NOTE));
  gtk_label_set_text (panel->count_label, text);
  set_stale (GTK_WIDGET (panel->list_view), stale);
}

static GHashTable *
expanded_groups (SwSnagPanel *panel)
{
  GHashTable *keys = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  for (guint i = 0; panel->has_groups && i < g_list_model_get_n_items (G_LIST_MODEL (panel->selection)); i++)
    {
      g_autoptr (GtkTreeListRow) row = g_list_model_get_item (G_LIST_MODEL (panel->selection), i);
      g_autoptr (SwSnagItem) item = gtk_tree_list_row_get_item (row);
      if (gtk_tree_list_row_get_expanded (row))
        g_hash_table_add (keys, sw_snag_item_key (item));
    }
  return keys;
}

static void
show_empty (SwSnagPanel *panel, gboolean empty)
{
  guint all = 0;
  for (int i = 0; i < SW_N_SEVERITIES; i++)
    all += sw_snags_count (panel->shown, i);
  gtk_label_set_text (panel->empty_label, all > 0 ? _("No snag passes these filters.") : _("Nothing is in the way of anything."));
  gtk_widget_set_visible (GTK_WIDGET (panel->empty_label), empty);
}

/* What passes the filters; nothing is chosen then. */
static void
fill_store (SwSnagPanel *panel)
{
  g_autoptr (GHashTable) expanded = expanded_groups (panel);
  g_autoptr (GPtrArray) rows = sw_snag_item_rows (panel->shown, panel->numbers, passes, panel);
  panel->has_groups = FALSE;
  show_empty (panel, rows->len == 0);
  for (guint i = 0; i < rows->len; i++)
    panel->has_groups |= SW_SNAG_ITEM (rows->pdata[i])->members != NULL;
  panel->filling = TRUE;
  g_list_store_splice (panel->store, 0, g_list_model_get_n_items (G_LIST_MODEL (panel->store)), rows->pdata, rows->len);
  gtk_single_selection_set_selected (panel->selection, GTK_INVALID_LIST_POSITION);
  for (guint i = 0; panel->has_groups && i < g_list_model_get_n_items (G_LIST_MODEL (panel->selection)); i++)
    {
      g_autoptr (GtkTreeListRow) row = g_list_model_get_item (G_LIST_MODEL (panel->selection), i);
      g_autoptr (SwSnagItem) item = gtk_tree_list_row_get_item (row);
      g_autofree char *key = item->members != NULL ? sw_snag_item_key (item) : NULL;
      if (key != NULL && g_hash_table_contains (expanded, key))
        gtk_tree_list_row_set_expanded (row, TRUE);
    }
  panel->filling = FALSE;
}

static void
on_filter (SwSnagPanel *panel)
{
  g_autofree char *chosen = g_strdup (panel->chosen);
  if (panel->filling || panel->shown == NULL)
    return;
  fill_store (panel);
  if (chosen != NULL)
    choose (panel, chosen);
  on_selected (panel);
}

/* What is dragged or drawn is not asked advice for, and what was chosen before it is remembered through it. */
static void
show_draft (SwSnagPanel *panel)
{
  panel->filling = TRUE;
  if (panel->chosen != NULL)
    choose (panel, panel->chosen);
  panel->filling = FALSE;
  g_cancellable_cancel (panel->asking);
  clear_mends (panel);
  offer_release (panel, NULL);
  set_stale (GTK_WIDGET (panel->detail_box), TRUE);
}

static const char *
title_for (SwDocument *document, const SwPicture *picture)
{
  if (!picture->draft)
    return _("Snags");
  return sw_board_tool (sw_document_board (document))->table == SW_N_TABLES ? _("Snags while moving") : _("Snags while drawing");
}

static void
on_snags (SwDocument *document, SwSnagPanel *panel)
{
  const SwPicture *picture = sw_document_snags_picture (document);
  show_counts (panel, picture->snags, !picture->checked && picture->space != NULL);
  gtk_label_set_text (panel->title_label, title_for (document, picture));
  if (picture->snags == NULL || picture->snags == panel->shown)
    return;
  panel->filling = TRUE;
  if (!picture->draft)
    fill_rooms (panel, sw_picture_job (picture));
  panel->filling = FALSE;
  g_clear_pointer (&panel->shown, sw_snags_unref);
  panel->shown = sw_snags_ref (picture->snags);
  g_free (panel->numbers);
  panel->numbers = g_memdup2 (picture->numbers, MAX (sw_snags_n (picture->snags), 1) * sizeof *picture->numbers);
  fill_store (panel);
  if (picture->draft)
    {
      show_draft (panel);
      return;
    }
  g_autofree char *chosen = g_strdup (panel->chosen);
  set_stale (GTK_WIDGET (panel->detail_box), FALSE);
  if (chosen != NULL)
    choose (panel, chosen);
  on_selected (panel);
}

static void
drop_document (SwSnagPanel *panel)
{
  if (panel->document != NULL)
    g_clear_signal_handler (&panel->snags_handler, panel->document);
  g_clear_object (&panel->document);
  sw_release_button_set_plates (panel->release_button, NULL, NULL);
  g_clear_pointer (&panel->shown, sw_snags_unref);
  g_clear_pointer (&panel->numbers, g_free);
  g_clear_pointer (&panel->chosen, g_free);
  g_cancellable_cancel (panel->asking);
  g_clear_object (&panel->asking);
}

void
sw_snag_panel_set_document (SwSnagPanel *panel, SwDocument *document)
{
  drop_document (panel);
  g_list_store_remove_all (panel->store);
  show_counts (panel, NULL, FALSE);
  if (document == NULL)
    return;
  panel->document = g_object_ref (document);
  panel->snags_handler = g_signal_connect (document, "snags", G_CALLBACK (on_snags), panel);
  if (sw_document_picture (document) != NULL)
    on_snags (document, panel);
}

static GListModel *
members_of (gpointer item, gpointer data)
{
  return SW_SNAG_ITEM (item)->members != NULL ? G_LIST_MODEL (g_object_ref (SW_SNAG_ITEM (item)->members)) : NULL;
}

static void
sw_snag_panel_init (SwSnagPanel *panel)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  gtk_widget_init_template (GTK_WIDGET (panel));
  panel->rooms = g_array_new (FALSE, FALSE, sizeof (SwId));
  panel->store = g_list_store_new (SW_TYPE_SNAG_ITEM);
  panel->selection = gtk_single_selection_new (G_LIST_MODEL (
      gtk_tree_list_model_new (G_LIST_MODEL (g_object_ref (panel->store)), FALSE, FALSE, members_of, NULL, NULL)));
  panel->release_button = sw_release_button_new ();
  gtk_box_insert_child_after (panel->detail_box, panel->release_button, GTK_WIDGET (panel->todo_label));
  gtk_single_selection_set_autoselect (panel->selection, FALSE);
  gtk_single_selection_set_can_unselect (panel->selection, TRUE);
  g_signal_connect (factory, "setup", G_CALLBACK (setup_row), NULL);
  g_signal_connect (factory, "bind", G_CALLBACK (bind_row), panel);
  gtk_list_view_set_factory (panel->list_view, factory);
  g_object_unref (factory);
  gtk_list_view_set_model (panel->list_view, GTK_SELECTION_MODEL (panel->selection));
  fill_fixed_filters (panel);
  sw_compat_shorten_drop_down (panel->severity_drop_down, 4);
  sw_compat_shorten_drop_down (panel->trade_drop_down, 8);
  sw_compat_shorten_drop_down (panel->room_drop_down, 10);
  sw_compat_name_drop_down (panel->severity_drop_down, _("Show snags of this severity"));
  sw_compat_name_drop_down (panel->trade_drop_down, _("Show snags of this trade"));
  sw_compat_name_drop_down (panel->room_drop_down, _("Show snags of this room"));
  g_signal_connect_swapped (panel->selection, "notify::selected-item", G_CALLBACK (on_selected), panel);
  g_signal_connect_swapped (panel->severity_drop_down, "notify::selected", G_CALLBACK (on_filter), panel);
  g_signal_connect_swapped (panel->trade_drop_down, "notify::selected", G_CALLBACK (on_filter), panel);
  g_signal_connect_swapped (panel->room_drop_down, "notify::selected", G_CALLBACK (on_filter), panel);
}

static void
snag_panel_dispose (GObject *object)
{
  SwSnagPanel *panel = SW_SNAG_PANEL (object);
  GtkWidget *child;
  if (panel->store != NULL)
    drop_document (panel);
  if (panel->selection != NULL)
    g_signal_handlers_disconnect_by_data (panel->selection, panel);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (panel))) != NULL)
    gtk_widget_unparent (child);
  g_clear_object (&panel->selection);
  g_clear_object (&panel->store);
  g_clear_pointer (&panel->rooms, g_array_unref);
  G_OBJECT_CLASS (sw_snag_panel_parent_class)->dispose (object);
}

#define BIND(member) gtk_widget_class_bind_template_child (widget_class, SwSnagPanel, member)

static void
sw_snag_panel_class_init (SwSnagPanelClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  G_OBJECT_CLASS (class)->dispose = snag_panel_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/soffitwright/Soffitwright/snag-panel.ui");
  BIND (title_label);
  BIND (count_label);
  BIND (empty_label);
  BIND (what_label);
  BIND (where_label);
  BIND (todo_label);
  BIND (rule_label);
  BIND (severity_drop_down);
  BIND (trade_drop_down);
  BIND (room_drop_down);
  BIND (list_view);
  BIND (detail_box);
  BIND (mend_box);
  BIND (rule_button);
  gtk_widget_class_bind_template_callback (widget_class, on_activate);
  gtk_widget_class_bind_template_callback (widget_class, on_show);
  gtk_widget_class_bind_template_callback (widget_class, on_show_rule);
  show_signal = g_signal_new ("show-place", SW_TYPE_SNAG_PANEL, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 3, G_TYPE_DOUBLE, G_TYPE_DOUBLE,
                              G_TYPE_INT64);
  rule_signal = g_signal_new ("show-rule", SW_TYPE_SNAG_PANEL, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
}
