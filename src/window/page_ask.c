/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Each change of a value asks again in a thread; only the last asking is shown, and the answer before it stays until then. */
#include "window/page_ask.h"
#include "window/wording.h"
#include "base/error.h"
#include "checks/questions.h"
#include "checks/working_text.h"
#include "sheets/words.h"
#include "window/ask_answer.h"
#include "window/ask_form.h"
#include "window/compat.h"
#include <string.h>

struct _SwPageAsk
{
  GtkWindow parent_instance;
  GtkEditable *search_entry;
  GtkListBox *list_box;
  GtkLabel *title_label, *description_label, *message_label;
  GtkDropDown *rules_drop_down;
  GtkWidget *copy_button;
  SwAskForm *form;
  SwAskAnswer *answer;
  SwDocument *document; /* NULL without a job */
  GStrv rule_sets;      /* names, as in the drop-down behind the job's own */
  SwRules *rules;       /* loaded for `rules_name`, kept between askings */
  char *rules_name;
  const SwQuestion *question;
  guint asked;
  char *text; /* of the answer, to be copied; NULL without */
  char *wanted; /* folded search text */
};

G_DEFINE_FINAL_TYPE (SwPageAsk, sw_page_ask, GTK_TYPE_WINDOW)

static guint rule_signal;

/* ---- Asking ---- */

typedef struct
{
  const SwQuestion *question;
  SwRules *rules; /* NULL: to be loaded by name */
  char *name;
  GHashTable *given;
  guint number;
} Order;

static void
order_free (Order *order)
{
  g_clear_pointer (&order->rules, sw_rules_unref);
  g_hash_table_unref (order->given);
  g_free (order->name);
  g_free (order);
}

static void
ask_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  Order *order = data;
  GError *error = NULL;
  if (order->rules == NULL)
    order->rules = sw_rules_load (order->name, NULL, &error);
  SwWorking *working = order->rules != NULL ? sw_question_ask (order->question, order->rules, order->given, &error) : NULL;
  if (working != NULL)
    g_task_return_pointer (task, working, (GDestroyNotify) sw_working_free);
  else
    g_task_return_error (task, error);
}

/* What is still to be given is no fault. */
static void
say (SwPageAsk *page, const char *text, gboolean fault)
{
  gtk_widget_remove_css_class (GTK_WIDGET (page->message_label), fault ? "dim-label" : "snag-fix");
  gtk_widget_add_css_class (GTK_WIDGET (page->message_label), fault ? "snag-fix" : "dim-label");
  gtk_label_set_text (page->message_label, text);
  gtk_widget_set_visible (GTK_WIDGET (page->message_label), *text != 0);
}

static void
show_working (SwPageAsk *page, const SwWorking *working)
{
  g_autofree char *text = working != NULL ? sw_working_text (working, sw_word) : NULL;
  g_clear_pointer (&page->text, g_free);
  if (text != NULL)
    page->text = g_strdup_printf ("%s\n%s", sw_word (page->question->title), text);
  gtk_widget_set_sensitive (page->copy_button, page->text != NULL);
  gtk_button_set_label (GTK_BUTTON (page->copy_button), _("Copy"));
  sw_ask_answer_show (page->answer, page->question, working);
}

static void
on_answer (GObject *source, GAsyncResult *result, gpointer data)
{
  SwPageAsk *page = SW_PAGE_ASK (source);
  Order *order = g_task_get_task_data (G_TASK (result));
  g_autoptr (GError) error = NULL;
  g_autoptr (SwWorking) working = g_task_propagate_pointer (G_TASK (result), &error);
  if (order->number != page->asked || page->form == NULL)
    return;
  if (working != NULL && page->document != NULL)
    working->lengths = sw_job_lengths (sw_document_job (page->document));
  if (order->rules != NULL && g_strcmp0 (order->name, page->rules_name) == 0 && page->rules == NULL)
    page->rules = sw_rules_ref (order->rules);
  g_autofree char *fault = sw_ask_form_show_fault (page->form, error != NULL ? error->message : NULL);
  say (page, fault, TRUE);
  show_working (page, working);
}

/* The job's own rules, or those of the set that was chosen; NULL: to be loaded. */
static SwRules *
rules_now (SwPageAsk *page)
{
  const SwPicture *picture = page->document != NULL ? sw_document_picture (page->document) : NULL;
  guint own = page->document != NULL, chosen = gtk_drop_down_get_selected (page->rules_drop_down);
  if (own && chosen == 0 && picture != NULL && picture->rules != NULL)
    return sw_rules_ref (picture->rules);
  const char *name = "south-africa";
  if (own && chosen == 0)
    name = sw_job_info (sw_document_job (page->document))->rule_set;
  else if (chosen >= own && chosen - own < g_strv_length (page->rule_sets))
    name = page->rule_sets[chosen - own];
  if (g_strcmp0 (name, page->rules_name) != 0)
    {
      g_clear_pointer (&page->rules, sw_rules_unref);
      g_free (page->rules_name);
      page->rules_name = g_strdup (name);
    }
  return page->rules != NULL ? sw_rules_ref (page->rules) : NULL;
}

static void
ask (SwPageAsk *page)
{
  g_autofree char *missing = page->question != NULL ? sw_ask_form_missing (page->form) : NULL;
  page->asked++;
  if (page->question == NULL)
    return;
  if (missing != NULL)
    {
      g_autofree char *text = g_strdup_printf (_("Still to be given: %s."), missing);
      g_free (sw_ask_form_show_fault (page->form, NULL)); /* takes the marks away */
      say (page, text, FALSE);
      show_working (page, NULL);
      return;
    }
  Order *order = g_new0 (Order, 1);
  order->question = page->question;
  order->rules = rules_now (page);
  order->name = g_strdup (page->rules_name);
  order->given = sw_ask_form_given (page->form);
  order->number = page->asked;
  g_autoptr (GTask) task = g_task_new (page, NULL, on_answer, NULL);
  g_task_set_task_data (task, order, (GDestroyNotify) order_free);
  g_task_run_in_thread (task, ask_thread);
}

static void
on_copy (GtkButton *button, SwPageAsk *page)
{
  if (page->text == NULL)
    return;
  gdk_clipboard_set_text (gtk_widget_get_clipboard (GTK_WIDGET (page)), page->text);
  gtk_button_set_label (button, _("Copied")); /* until there is another answer */
}

static void
on_rule (SwPageAsk *page, const char *rule)
{
  g_signal_emit (page, rule_signal, 0, rule);
}

/* ---- Questions ---- */

static const SwQuestion *
question_of (GtkListBoxRow *row)
{
  return row != NULL ? sw_questions_get ((guint) gtk_list_box_row_get_index (row)) : NULL;
}

static void
on_question (GtkListBox *list, GtkListBoxRow *row, SwPageAsk *page)
{
  const SwQuestion *question = question_of (row);
  if (question == NULL || question == page->question)
    return;
  page->question = question;
  gtk_label_set_text (page->title_label, sw_word (question->title));
  gtk_label_set_text (page->description_label, sw_word (question->description));
  sw_ask_form_set_question (page->form, question);
  show_working (page, NULL);
  ask (page);
}

/* Enter on a question goes to its first value. */
static void
on_question_enter (GtkListBox *list, GtkListBoxRow *row, SwPageAsk *page)
{
  gtk_widget_child_focus (GTK_WIDGET (page->form), GTK_DIR_TAB_FORWARD);
}

static gboolean
passes (GtkListBoxRow *row, gpointer data)
{
  SwPageAsk *page = data;
  const char *folded = g_object_get_data (G_OBJECT (row), "folded");
  return page->wanted == NULL || strstr (folded, page->wanted) != NULL;
}

/* Escape in the search, which takes it for itself: it drops the words first, then closes the page. */
static void
on_search_stop (SwPageAsk *page)
{
  if (*gtk_editable_get_text (page->search_entry) != 0)
    gtk_editable_set_text (page->search_entry, "");
  else
    gtk_window_close (GTK_WINDOW (page));
}

static void
on_search (GtkSearchEntry *entry, SwPageAsk *page)
{
  const char *text = gtk_editable_get_text (page->search_entry);
  g_free (page->wanted);
  page->wanted = *text != 0 ? g_utf8_casefold (text, -1) : NULL;
  gtk_list_box_invalidate_filter (page->list_box);
}

/* Enter in the search takes the first that is found. */
static void
on_search_enter (GtkSearchEntry *entry, SwPageAsk *page)
{
  GtkListBoxRow *row;
  on_search (entry, page); /* the entry tells it only a moment after the last key */
  for (int i = 0; (row = gtk_list_box_get_row_at_index (page->list_box, i)) != NULL; i++)
    if (passes (row, page))
      {
        gtk_list_box_select_row (page->list_box, row);
        on_question_enter (page->list_box, row, page);
        return;
      }
}

/* The subject stands over its first question that is found. */
static void
put_header (GtkListBoxRow *row, GtkListBoxRow *before, gpointer data)
{
  const char *subject = question_of (row)->subject;
  GtkWidget *label;
  if (before != NULL && g_strcmp0 (question_of (before)->subject, subject) == 0)
    {
      gtk_list_box_row_set_header (row, NULL);
      return;
    }
  label = gtk_label_new (sw_word (subject));
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "section-title");
  gtk_list_box_row_set_header (row, label);
}

static void
fill_list (SwPageAsk *page)
{
  for (guint i = 0; i < sw_questions_n (); i++)
    {
      const SwQuestion *question = sw_questions_get (i);
      GtkWidget *label = gtk_label_new (sw_word (question->title)), *row = gtk_list_box_row_new ();
      g_autofree char *all = g_strjoin ("\n", question->id, sw_word (question->title), sw_word (question->description), sw_word (question->subject), NULL);
      gtk_label_set_xalign (GTK_LABEL (label), 0);
      gtk_label_set_wrap (GTK_LABEL (label), TRUE);
      gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), label);
      gtk_widget_set_tooltip_text (row, sw_word (question->description));
      gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, sw_word (question->title), -1);
      g_object_set_data_full (G_OBJECT (row), "folded", g_utf8_casefold (all, -1), g_free);
      gtk_list_box_append (page->list_box, row);
    }
}

/* ---- Rules ---- */

static void
fill_rules (SwPageAsk *page)
{
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  guint start = 0;
  page->rule_sets = sw_rules_list (NULL);
  if (page->rule_sets == NULL)
    page->rule_sets = g_new0 (char *, 1);
  if (page->document != NULL)
    gtk_string_list_append (names, _("Rules of this job"));
  for (guint i = 0; page->rule_sets[i] != NULL; i++)
    {
      gtk_string_list_take (names, sw_rule_set_title (page->rule_sets[i]));
      if (page->document == NULL && strcmp (page->rule_sets[i], "south-africa") == 0)
        start = i;
    }
  gtk_drop_down_set_model (page->rules_drop_down, G_LIST_MODEL (names));
  gtk_drop_down_set_selected (page->rules_drop_down, start);
}

/* ---- Page ---- */

SwRules *
sw_page_ask_rules (SwPageAsk *page)
{
  return page->rules;
}

SwPageAsk *
sw_page_ask_new (GtkWindow *parent, SwDocument *document)
{
  SwPageAsk *page = g_object_new (SW_TYPE_PAGE_ASK, "transient-for", parent, NULL);
  page->document = document != NULL ? g_object_ref (document) : NULL;
  fill_rules (page);
  g_signal_connect_swapped (page->rules_drop_down, "notify::selected", G_CALLBACK (ask), page);
  if (document != NULL)
    g_signal_connect_object (document, "picture", G_CALLBACK (ask), page, G_CONNECT_SWAPPED);
  gtk_list_box_select_row (page->list_box, gtk_list_box_get_row_at_index (page->list_box, 0));
  return page;
}

static void
sw_page_ask_init (SwPageAsk *page)
{
  g_type_ensure (SW_TYPE_ASK_FORM);
  g_type_ensure (SW_TYPE_ASK_ANSWER);
  gtk_widget_init_template (GTK_WIDGET (page));
  sw_compat_name_drop_down (page->rules_drop_down, _("Rule set"));
  gtk_list_box_set_filter_func (page->list_box, passes, page, NULL);
  gtk_list_box_set_header_func (page->list_box, put_header, NULL, NULL);
  GtkWidget *nothing = gtk_label_new (_("No calculation is found."));
  gtk_widget_add_css_class (nothing, "dim-label");
  gtk_list_box_set_placeholder (page->list_box, nothing);
  fill_list (page);
  g_signal_connect_swapped (page->form, "changed", G_CALLBACK (ask), page);
  g_signal_connect_swapped (page->answer, "rule", G_CALLBACK (on_rule), page);
}

static void
page_ask_dispose (GObject *object)
{
  SwPageAsk *page = SW_PAGE_ASK (object);
  page->asked++; /* what is under way is not shown any more */
  g_clear_object (&page->document);
  g_clear_pointer (&page->rules, sw_rules_unref);
  g_clear_pointer (&page->rule_sets, g_strfreev);
  g_clear_pointer (&page->rules_name, g_free);
  g_clear_pointer (&page->text, g_free);
  g_clear_pointer (&page->wanted, g_free);
  G_OBJECT_CLASS (sw_page_ask_parent_class)->dispose (object);
}

#define BIND(member) gtk_widget_class_bind_template_child (widget_class, SwPageAsk, member)

static void
sw_page_ask_class_init (SwPageAskClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  G_OBJECT_CLASS (class)->dispose = page_ask_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/soffitwright/Soffitwright/page-ask.ui");
  BIND (search_entry);
  BIND (list_box);
  BIND (title_label);
  BIND (description_label);
  BIND (message_label);
  BIND (rules_drop_down);
  BIND (copy_button);
  BIND (form);
  BIND (answer);
  gtk_widget_class_bind_template_callback (widget_class, on_search);
  gtk_widget_class_bind_template_callback (widget_class, on_search_stop);
  gtk_widget_class_bind_template_callback (widget_class, on_search_enter);
  gtk_widget_class_bind_template_callback (widget_class, on_question);
  gtk_widget_class_bind_template_callback (widget_class, on_question_enter);
  gtk_widget_class_bind_template_callback (widget_class, on_copy);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_w, GDK_CONTROL_MASK, "window.close", NULL);
  rule_signal = g_signal_new ("rule", SW_TYPE_PAGE_ASK, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
}
