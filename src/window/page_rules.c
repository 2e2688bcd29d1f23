/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One list of all values, narrowed by table, by words and by "changed only". A change is written as the job's overrides by a
 * thread, which loads the rule set with it as a trial, and becomes one edit; it is refused when the job has changed meanwhile. */
#include "window/page_rules.h"
#include "checks/snag_text.h"
#include "job/edit.h"
#include "rules/listing.h"
#include "sheets/words.h"
#include "window/columns.h"
#include "window/compat.h"
#include "window/wording.h"
#include "window/rule_detail.h"
#include <string.h>

#define MOST_NAMED 6 /* snags named at a value */

struct _SwPageRules
{
  GtkWindow parent_instance;
  GtkLabel *set_label, *count_label, *message_label;
  GtkEditable *search_entry;
  GtkCheckButton *changed_check;
  GtkListBox *table_list;
  GtkColumnView *column_view;
  SwRuleDetail *detail;
  SwDocument *document; /* NULL without a job */
  SwRules *rules;       /* that are shown */
  GPtrArray *entries;   /* SwRuleEntry, of them */
  GListStore *store;    /* SwRowItem of SwRuleEntry */
  GtkCustomFilter *filter;
  GtkSingleSelection *selection;
  const char *table;    /* chosen; NULL: all. A schema's name: static */
  char *wanted, *chosen; /* folded search text; rule id */
  gboolean filling;
};

G_DEFINE_FINAL_TYPE (SwPageRules, sw_page_rules, GTK_TYPE_WINDOW)

/* ---- Columns ---- */

static char *
row_text (gconstpointer value, gpointer data)
{
  const SwRuleEntry *entry = value;
  const SwPageRules *page = data;
  g_autofree char *column = sw_capital (*entry->what ? sw_word (entry->what) : entry->column);
  g_autofree char *name = *entry->row ? g_strdup_printf ("%s: %s", entry->row, column) : g_strdup (column);
  return page->table == NULL ? g_strdup_printf ("%s · %s", name, entry->table) : g_steal_pointer (&name);
}

static char *
figure_text (gconstpointer value, gpointer data)
{
  const SwRuleEntry *entry = value;
  if (g_str_equal (entry->answer.unit, "1:n"))
    return g_strdup_printf ("1:%s", entry->text);
  return g_strdup_printf ("%s%s%s", entry->text, *entry->answer.unit ? " " : "", entry->answer.unit);
}

static char *
state_text (gconstpointer value, gpointer data)
{
  const SwRuleEntry *entry = value;
  if (entry->was != NULL)
    return g_strdup (_("changed"));
  return g_strdup (entry->answer.stand_in ? _("stands in") : "");
}

static const char *
state_mark (gconstpointer value, gpointer data)
{
  return ((const SwRuleEntry *) value)->was != NULL ? "snag-fix" : NULL;
}

static char *
confidence_text (gconstpointer value, gpointer data)
{
  return g_strdup (sw_word (sw_confidence_label (((const SwRuleEntry *) value)->answer.confidence)));
}

static char *
source_text (gconstpointer value, gpointer data)
{
  return g_strdup (((const SwRuleEntry *) value)->answer.source);
}

static const SwTextColumn columns[] = {
  { N_("Value"), FALSE, -24, row_text, NULL },
  { N_("Is"), TRUE, 10, figure_text, NULL },
  { N_("State"), FALSE, 8, state_text, state_mark },
  { N_("How sure"), FALSE, 14, confidence_text, NULL },
  { N_("Source"), FALSE, -24, source_text, NULL },
};

/* ---- Narrowing ---- */

static gboolean
has_words (const SwPageRules *page, const SwRuleEntry *entry)
{
  g_autofree char *all = g_strjoin ("\n", entry->answer.rule_id, sw_word (entry->table_what), sw_word (entry->what), entry->answer.source, NULL);
  g_autofree char *folded = g_utf8_casefold (all, -1);
  return strstr (folded, page->wanted) != NULL;
}

static gboolean
passes (gpointer item, gpointer data)
{
  SwPageRules *page = data;
  const SwRuleEntry *entry = SW_ROW_ITEM (item)->value;
  if (page->table != NULL && strcmp (page->table, entry->table) != 0)
    return FALSE;
  if (gtk_check_button_get_active (page->changed_check) && entry->was == NULL)
    return FALSE;
  return page->wanted == NULL || has_words (page, entry);
}

static void
show_count (SwPageRules *page)
{
  g_autofree char *text = g_strdup_printf (_("%u values"), g_list_model_get_n_items (G_LIST_MODEL (page->selection)));
  gtk_label_set_text (page->count_label, text);
}

static void on_selected (SwPageRules *page);

static void
narrow (SwPageRules *page)
{
  page->filling = TRUE;
  gtk_filter_changed (GTK_FILTER (page->filter), GTK_FILTER_CHANGE_DIFFERENT);
  page->filling = FALSE;
  show_count (page);
  on_selected (page);
}

/* Escape in the search, which takes it for itself: it drops the words first, then closes the page. */
static void
on_search_stop (SwPageRules *page)
{
  if (*gtk_editable_get_text (page->search_entry) != 0)
    gtk_editable_set_text (page->search_entry, "");
  else
    gtk_window_close (GTK_WINDOW (page));
}

/* Before the widget in focus, which may be one that has just been hidden and hears nothing. */
static gboolean
on_key (SwPageRules *page, guint keyval)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (page));
  if (keyval != GDK_KEY_Escape || (focus != NULL && gtk_widget_get_ancestor (focus, GTK_TYPE_POPOVER) != NULL))
    return FALSE;
  on_search_stop (page);
  return TRUE;
}

static void
on_search (GtkSearchEntry *entry, SwPageRules *page)
{
  const char *text = gtk_editable_get_text (page->search_entry);
  g_free (page->wanted);
  page->wanted = *text != 0 ? g_utf8_casefold (text, -1) : NULL;
  narrow (page);
}

static void
on_changed_only (GtkCheckButton *check, SwPageRules *page)
{
  narrow (page);
}

/* Rows say their table when all are shown. */
static void
set_table (SwPageRules *page, const char *table)
{
  page->table = table;
  for (guint i = 0; i < g_list_model_get_n_items (G_LIST_MODEL (page->store)); i++)
    {
      g_autoptr (SwRowItem) item = g_list_model_get_item (G_LIST_MODEL (page->store), i);
      sw_row_item_changed (item);
    }
}

static void
on_table (GtkListBox *list, GtkListBoxRow *row, SwPageRules *page)
{
  if (row == NULL || page->filling)
    return;
  set_table (page, g_object_get_data (G_OBJECT (row), "table"));
  narrow (page);
}

/* ---- The chosen value ---- */

static char *
used_text (SwPageRules *page, const char *rule_id)
{
  const SwPicture *picture = page->document != NULL ? sw_document_picture (page->document) : NULL;
  GString *names = g_string_new (NULL);
  guint n = 0;
  for (guint i = 0; picture != NULL && picture->snags != NULL && i < sw_snags_n (picture->snags); i++)
    {
      const SwSnag *snag = sw_snags_get (picture->snags, i);
      if (g_strcmp0 (snag->value.rule_id, rule_id) != 0 || n++ >= MOST_NAMED)
        continue;
      SwSnagText *text = sw_snag_text (picture->snags, snag, sw_word);
      g_string_append_printf (names, "\n%s", text->what);
      sw_snag_text_free (text);
    }
  if (n > 0)
    {
      g_autofree char *head = g_strdup_printf (_("Snags of this job that rest on it: %u"), n);
      g_string_prepend (names, head);
    }
  return g_string_free (names, FALSE);
}

static void
on_selected (SwPageRules *page)
{
  SwRowItem *item = gtk_single_selection_get_selected_item (page->selection);
  const SwRuleEntry *entry = item != NULL ? item->value : NULL;
  if (page->filling)
    return;
  g_autofree char *used = entry != NULL ? used_text (page, entry->answer.rule_id) : NULL;
  g_free (page->chosen);
  page->chosen = entry != NULL ? g_strdup (entry->answer.rule_id) : NULL;
  sw_rule_detail_show (page->detail, entry, used);
}

static gboolean
choose (SwPageRules *page, const char *rule_id)
{
  guint n = g_list_model_get_n_items (G_LIST_MODEL (page->selection));
  for (guint i = 0; i < n; i++)
    {
      g_autoptr (SwRowItem) item = g_list_model_get_item (G_LIST_MODEL (page->selection), i);
      if (strcmp (((const SwRuleEntry *) item->value)->answer.rule_id, rule_id) != 0)
        continue;
      gtk_single_selection_set_selected (page->selection, i);
      sw_compat_scroll_to (GTK_WIDGET (page->column_view), i, n);
      return TRUE;
    }
  return FALSE;
}

/* ---- Filling ---- */

static void
add_table_row (SwPageRules *page, const SwRuleEntry *entry, guint changed)
{
  g_autofree char *name = entry != NULL ? sw_capital (sw_word (entry->table_what)) : g_strdup (_("All tables"));
  g_autofree char *text = changed > 0 ? g_strdup_printf (_("%s (%u changed)"), name, changed) : g_strdup (name);
  GtkWidget *label = gtk_label_new (text), *row = gtk_list_box_row_new ();
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  if (changed > 0)
    gtk_widget_add_css_class (label, "snag-fix");
  gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), label);
  gtk_widget_set_tooltip_text (row, entry != NULL ? entry->table : NULL);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, text, -1);
  g_object_set_data (G_OBJECT (row), "table", (gpointer) (entry != NULL ? entry->table : NULL));
  gtk_list_box_append (page->table_list, row);
  if (g_strcmp0 (page->table, entry != NULL ? entry->table : NULL) == 0)
    gtk_list_box_select_row (page->table_list, GTK_LIST_BOX_ROW (row));
}

/* The entries stand table by table. */
static void
fill_tables (SwPageRules *page)
{
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (page->table_list))) != NULL)
    gtk_list_box_remove (page->table_list, child);
  add_table_row (page, NULL, 0);
  for (guint i = 0, end; i < page->entries->len; i = end)
    {
      const SwRuleEntry *first = page->entries->pdata[i];
      guint changed = 0;
      for (end = i; end < page->entries->len && ((const SwRuleEntry *) page->entries->pdata[end])->table == first->table; end++)
        changed += ((const SwRuleEntry *) page->entries->pdata[end])->was != NULL;
      add_table_row (page, first, changed);
    }
}

static void
fill_store (SwPageRules *page)
{
  g_autoptr (GPtrArray) items = g_ptr_array_new_with_free_func (g_object_unref);
  for (guint i = 0; i < page->entries->len; i++)
    g_ptr_array_add (items, sw_row_item_new (page->entries->pdata[i], NULL));
  g_list_store_splice (page->store, 0, g_list_model_get_n_items (G_LIST_MODEL (page->store)), items->pdata, items->len);
}

/* The value and the table that were chosen stay so. */
static void
show_rules (SwPageRules *page, SwRules *rules)
{
  SwRules *before = page->rules;
  GPtrArray *entries_before = page->entries;
  g_autofree char *chosen = g_strdup (page->chosen);
  g_autofree char *title = g_strdup_printf (_("Rule set: %s"), sw_rules_title (rules));
  page->rules = sw_rules_ref (rules);
  page->entries = sw_rules_entries (rules, FALSE);
  page->filling = TRUE;
  fill_store (page);
  fill_tables (page);
  gtk_single_selection_set_selected (page->selection, GTK_INVALID_LIST_POSITION);
  page->filling = FALSE;
  g_clear_pointer (&entries_before, g_ptr_array_unref);
  g_clear_pointer (&before, sw_rules_unref);
  gtk_label_set_text (page->set_label, title);
  show_count (page);
  if (chosen == NULL || !choose (page, chosen))
    on_selected (page);
}

static void
on_picture (SwPageRules *page)
{
  const SwPicture *picture = sw_document_picture (page->document);
  if (picture != NULL && picture->rules != NULL && picture->rules != page->rules)
    show_rules (page, picture->rules);
  else if (picture != NULL && picture->checked)
    on_selected (page);
}

static void
select_table (SwPageRules *page, const char *table)
{
  GtkListBoxRow *row;
  for (int i = 0; (row = gtk_list_box_get_row_at_index (page->table_list, i)) != NULL; i++)
    if (g_strcmp0 (g_object_get_data (G_OBJECT (row), "table"), table) == 0)
      gtk_list_box_select_row (page->table_list, row);
}

void
sw_page_rules_show (SwPageRules *page, const char *rule_id)
{
  gtk_editable_set_text (page->search_entry, "");
  g_clear_pointer (&page->wanted, g_free);
  gtk_check_button_set_active (page->changed_check, FALSE);
  gsize longest = 0;
  const char *table = NULL;
  for (guint i = 0; page->entries != NULL && i < page->entries->len; i++)
    {
      const char *name = ((const SwRuleEntry *) page->entries->pdata[i])->table;
      if (g_str_has_prefix (rule_id, name) && strlen (name) > longest)
        {
          longest = strlen (name);
          table = name;
        }
    }
  select_table (page, table);
  set_table (page, table);
  narrow (page);
  if (!choose (page, rule_id))
    gtk_single_selection_set_selected (page->selection, 0);
}

/* ---- Changing ---- */

typedef struct
{
  SwRules *rules;
  char *id, *value, *source;
  SwConfidence confidence;
} Order;

static void
order_free (Order *order)
{
  sw_rules_unref (order->rules);
  g_free (order->id);
  g_free (order->value);
  g_free (order->source);
  g_free (order);
}

static void
say (SwPageRules *page, const char *text)
{
  gtk_label_set_text (page->message_label, text);
  gtk_widget_set_visible (GTK_WIDGET (page->message_label), *text != 0);
}

static void
change_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  const Order *order = data;
  GError *error = NULL;
  char *text = sw_rules_override (order->rules, order->id, order->value, order->source, order->confidence, &error);
  if (text != NULL)
    g_task_return_pointer (task, text, g_free);
  else
    g_task_return_error (task, error);
}

static SwEdit *
overrides_edit (const SwJob *job, const char *text, GError **error)
{
  g_autoptr (SwEdit) edit = sw_edit_new (_("Change a rule"));
  SwRecord *copy = sw_record_copy (&sw_job_info (job)->record);
  g_free (((SwJobInfo *) copy)->rule_overrides);
  ((SwJobInfo *) copy)->rule_overrides = g_strdup (text);
  return sw_edit_put (edit, job, copy, error) ? g_steal_pointer (&edit) : NULL;
}

static void
on_written (GObject *source, GAsyncResult *result, gpointer data)
{
  SwPageRules *page = SW_PAGE_RULES (source);
  const Order *order = g_task_get_task_data (G_TASK (result));
  g_autoptr (GError) error = NULL;
  g_autofree char *text = g_task_propagate_pointer (G_TASK (result), &error);
  if (page->document == NULL)
    return;
  if (text != NULL && order->rules != page->rules)
    {
      say (page, _("The rules were changed meanwhile: try it again."));
      return;
    }
  SwEdit *edit = text != NULL ? overrides_edit (sw_document_job (page->document), text, &error) : NULL;
  gboolean done = edit != NULL && sw_document_do (page->document, edit);
  say (page, error != NULL ? error->message : done ? "" : sw_document_fault (page->document));
}

static void
on_change (SwPageRules *page, const char *id, const char *value, const char *source, int confidence)
{
  if (value != NULL && (*value == 0 || *source == 0))
    {
      say (page, _("Give the value, and say who it is from: it will stand on every sheet."));
      return;
    }
  Order *order = g_new0 (Order, 1);
  order->rules = sw_rules_ref (page->rules);
  order->id = g_strdup (id);
  order->value = g_strdup (value);
  order->source = g_strdup (source);
  order->confidence = (SwConfidence) confidence;
  g_autoptr (GTask) task = g_task_new (page, NULL, on_written, NULL);
  g_task_set_task_data (task, order, (GDestroyNotify) order_free);
  g_task_run_in_thread (task, change_thread);
}

static void
act_step (GtkWidget *widget, const char *name, GVariant *parameter)
{
  SwPageRules *page = SW_PAGE_RULES (widget);
  if (page->document != NULL && g_str_equal (name, "rules.undo"))
    sw_document_undo (page->document);
  else if (page->document != NULL)
    sw_document_redo (page->document);
}

/* ---- Page ---- */

SwPageRules *
sw_page_rules_new (GtkWindow *parent, SwDocument *document, SwRules *rules)
{
  SwPageRules *page = g_object_new (SW_TYPE_PAGE_RULES, "transient-for", parent, NULL);
  page->document = document != NULL ? g_object_ref (document) : NULL;
  sw_rule_detail_set_writable (page->detail, document != NULL && !sw_document_is_read_only (document));
  if (document != NULL)
    g_signal_connect_object (document, "picture", G_CALLBACK (on_picture), page, G_CONNECT_SWAPPED);
  if (document != NULL && sw_document_picture (document) != NULL)
    on_picture (page);
  else if (rules != NULL)
    show_rules (page, rules);
  return page;
}

static void
sw_page_rules_init (SwPageRules *page)
{
  g_type_ensure (SW_TYPE_RULE_DETAIL);
  gtk_widget_init_template (GTK_WIDGET (page));
  page->store = g_list_store_new (SW_TYPE_ROW_ITEM);
  page->filter = gtk_custom_filter_new (passes, page, NULL);
  GtkFilterListModel *filtered = gtk_filter_list_model_new (G_LIST_MODEL (g_object_ref (page->store)), GTK_FILTER (g_object_ref (page->filter)));
  page->selection = gtk_single_selection_new (G_LIST_MODEL (filtered));
  gtk_single_selection_set_autoselect (page->selection, FALSE);
  gtk_single_selection_set_can_unselect (page->selection, TRUE);
  sw_columns_name (page->column_view, _("Values of the rules"));
  sw_columns_add (page->column_view, columns, G_N_ELEMENTS (columns), page);
  gtk_column_view_set_model (page->column_view, GTK_SELECTION_MODEL (page->selection));
  g_signal_connect_swapped (page->selection, "notify::selected-item", G_CALLBACK (on_selected), page);
  g_signal_connect_swapped (page->detail, "change", G_CALLBACK (on_change), page);
  GtkEventController *keys = gtk_event_controller_key_new ();
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (on_key), page);
  gtk_widget_add_controller (GTK_WIDGET (page), keys);
}

static void
page_rules_dispose (GObject *object)
{
  SwPageRules *page = SW_PAGE_RULES (object);
  if (page->selection != NULL)
    g_signal_handlers_disconnect_by_data (page->selection, page);
  page->filling = TRUE;
  g_clear_object (&page->document);
  G_OBJECT_CLASS (sw_page_rules_parent_class)->dispose (object);
  g_clear_object (&page->selection);
  g_clear_object (&page->filter);
  g_clear_object (&page->store);
  g_clear_pointer (&page->entries, g_ptr_array_unref);
  g_clear_pointer (&page->rules, sw_rules_unref);
  g_clear_pointer (&page->wanted, g_free);
  g_clear_pointer (&page->chosen, g_free);
}

#define BIND(member) gtk_widget_class_bind_template_child (widget_class, SwPageRules, member)

static void
sw_page_rules_class_init (SwPageRulesClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  G_OBJECT_CLASS (class)->dispose = page_rules_dispose;
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_w, GDK_CONTROL_MASK, "window.close", NULL);
  gtk_widget_class_set_template_from_resource (widget_class, "/org/soffitwright/Soffitwright/page-rules.ui");
  BIND (set_label);
  BIND (count_label);
  BIND (message_label);
  BIND (search_entry);
  BIND (changed_check);
  BIND (table_list);
  BIND (column_view);
  BIND (detail);
  gtk_widget_class_bind_template_callback (widget_class, on_search);
  gtk_widget_class_bind_template_callback (widget_class, on_search_stop);
  gtk_widget_class_bind_template_callback (widget_class, on_changed_only);
  gtk_widget_class_bind_template_callback (widget_class, on_table);
  gtk_widget_class_install_action (widget_class, "rules.undo", NULL, act_step);
  gtk_widget_class_install_action (widget_class, "rules.redo", NULL, act_step);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_z, GDK_CONTROL_MASK, "rules.undo", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_z, GDK_CONTROL_MASK | GDK_SHIFT_MASK, "rules.redo", NULL);
}
