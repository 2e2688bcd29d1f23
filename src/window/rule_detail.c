/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/rule_detail.h"
#include "checks/snag_text.h"
#include "sheets/words.h"
#include "window/compat.h"
#include "window/wording.h"

struct _SwRuleDetail
{
  GtkWidget parent_instance;
  GtkWidget *box, *change_box, *back_button;
  GtkLabel *what_label, *value_label, *source_label, *note_label, *used_label;
  GtkEditable *value_entry, *source_entry;
  GtkDropDown *confidence_drop_down;
  char *id; /* of what is shown; NULL for nothing */
};

G_DEFINE_FINAL_TYPE (SwRuleDetail, sw_rule_detail, GTK_TYPE_WIDGET)

static guint change_signal;

static void
set_text (GtkLabel *label, const char *text)
{
  gtk_label_set_text (label, text);
  gtk_widget_set_visible (GTK_WIDGET (label), *text != 0);
}

static char *
value_text (const SwRuleEntry *entry)
{
  const SwRuleValue *answer = &entry->answer;
  g_autofree char *value = g_str_equal (answer->unit, "1:n") ? g_strdup_printf ("1:%s", entry->text)
                                                             : g_strdup_printf ("%s %s", entry->text, answer->unit);
  if (entry->was == NULL)
    return g_strdup_printf ("%s = %s", answer->rule_id, value);
  if (*entry->was == 0)
    return g_strdup_printf (_("%s = %s, added in this job"), answer->rule_id, value);
  return g_strdup_printf (_("%s = %s, changed in this job; it was %s"), answer->rule_id, value, entry->was);
}

void
sw_rule_detail_show (SwRuleDetail *detail, const SwRuleEntry *entry, const char *used)
{
  gtk_widget_set_visible (detail->box, entry != NULL);
  g_clear_pointer (&detail->id, g_free);
  if (entry == NULL)
    return;
  const SwRuleValue *answer = &entry->answer;
  g_autofree char *table = sw_capital (sw_word (entry->table_what));
  g_autofree char *what = g_strdup_printf ("%s: %s%s%s", table, entry->row, *entry->row ? ", " : "", sw_word (entry->what));
  g_autofree char *value = value_text (entry);
  g_autofree char *source = g_strdup_printf (entry->was != NULL ? _("Source: %s (%s; %s)%s") : _("Source: %s (%s; rule set %s)%s"), answer->source, sw_word (sw_confidence_label (answer->confidence)), answer->rule_set,
                                             answer->stand_in ? _(", stands in from another rule set") : "");
  detail->id = g_strdup (answer->rule_id);
  set_text (detail->what_label, what);
  set_text (detail->value_label, value);
  set_text (detail->source_label, source);
  set_text (detail->note_label, answer->note);
  set_text (detail->used_label, used);
  gtk_editable_set_text (detail->value_entry, entry->text);
  gtk_editable_set_text (detail->source_entry, entry->was != NULL ? answer->source : "");
  gtk_drop_down_set_selected (detail->confidence_drop_down, entry->was != NULL ? answer->confidence : SW_CONFIDENCE_FROM_MEMORY);
  if (entry->was == NULL && gtk_widget_has_focus (detail->back_button))
    gtk_widget_grab_focus (GTK_WIDGET (detail->value_entry)); /* a hidden button would keep the keys */
  gtk_widget_set_visible (detail->back_button, entry->was != NULL);
}

void
sw_rule_detail_set_writable (SwRuleDetail *detail, gboolean writable)
{
  gtk_widget_set_visible (detail->change_box, writable);
}

static void
on_change (SwRuleDetail *detail)
{
  if (detail->id != NULL)
    g_signal_emit (detail, change_signal, 0, detail->id, gtk_editable_get_text (detail->value_entry), gtk_editable_get_text (detail->source_entry),
                   (int) gtk_drop_down_get_selected (detail->confidence_drop_down));
}

static void
on_back (SwRuleDetail *detail)
{
  if (detail->id != NULL)
    g_signal_emit (detail, change_signal, 0, detail->id, NULL, "", 0);
}

static void
sw_rule_detail_init (SwRuleDetail *detail)
{
  g_autoptr (GtkStringList) words = gtk_string_list_new (NULL);
  gtk_widget_init_template (GTK_WIDGET (detail));
  sw_compat_name_drop_down (detail->confidence_drop_down, _("How sure it is"));
  for (int i = 0; i < SW_N_CONFIDENCES; i++)
    gtk_string_list_append (words, sw_word (sw_confidence_label (i)));
  gtk_drop_down_set_model (detail->confidence_drop_down, G_LIST_MODEL (words));
  gtk_widget_set_visible (detail->box, FALSE);
}

static void
rule_detail_dispose (GObject *object)
{
  SwRuleDetail *detail = SW_RULE_DETAIL (object);
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (detail))) != NULL)
    gtk_widget_unparent (child);
  g_clear_pointer (&detail->id, g_free);
  G_OBJECT_CLASS (sw_rule_detail_parent_class)->dispose (object);
}

#define BIND(member) gtk_widget_class_bind_template_child (widget_class, SwRuleDetail, member)

static void
sw_rule_detail_class_init (SwRuleDetailClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  G_OBJECT_CLASS (class)->dispose = rule_detail_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/soffitwright/Soffitwright/rule-detail.ui");
  BIND (box);
  BIND (change_box);
  BIND (back_button);
  BIND (what_label);
  BIND (value_label);
  BIND (source_label);
  BIND (note_label);
  BIND (used_label);
  BIND (value_entry);
  BIND (source_entry);
  BIND (confidence_drop_down);
  gtk_widget_class_bind_template_callback (widget_class, on_change);
  gtk_widget_class_bind_template_callback (widget_class, on_back);
  change_signal = g_signal_new ("change", SW_TYPE_RULE_DETAIL, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 4, G_TYPE_STRING, G_TYPE_STRING,
                                G_TYPE_STRING, G_TYPE_INT);
}
