/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/ask_form.h"
#include "checks/questions.h"
#include "checks/working_text.h"
#include "sheets/words.h"
#include "window/compat.h"
#include "window/wording.h"
#include <string.h>

#define FIELD_CHARS 18
#define LABEL_CHARS 50

struct _SwAskForm
{
  GtkWidget parent_instance;
  GtkGrid *grid;
  const SwQuestion *question;
  GtkWidget **fields; /* one an input: entry or drop-down */
  GHashTable *given;  /* of this question: key → text */
  GHashTable *kept;   /* question id → its `given` */
  gboolean filling;
};

G_DEFINE_FINAL_TYPE (SwAskForm, sw_ask_form, GTK_TYPE_WIDGET)

static guint changed_signal;

static const SwAskInput *
input_of (SwAskForm *form, GtkWidget *field)
{
  for (guint i = 0; i < form->question->n_inputs; i++)
    if (form->fields[i] == field)
      return &form->question->inputs[i];
  return NULL;
}

static void
take (SwAskForm *form, GtkWidget *field, const char *text)
{
  const SwAskInput *input = input_of (form, field);
  if (form->filling || input == NULL)
    return;
  g_hash_table_replace (form->given, g_strdup (input->key), g_strdup (text));
  g_signal_emit (form, changed_signal, 0);
}

static void
on_typed (GtkEditable *entry, SwAskForm *form)
{
  g_autofree char *text = g_strstrip (g_strdup (gtk_editable_get_text (entry)));
  take (form, GTK_WIDGET (entry), text);
}

static void
on_chosen (GtkDropDown *drop_down, GParamSpec *spec, SwAskForm *form)
{
  GtkStringList *words = g_object_get_data (G_OBJECT (drop_down), "words");
  const char *word = gtk_string_list_get_string (words, gtk_drop_down_get_selected (drop_down));
  if (word != NULL)
    take (form, GTK_WIDGET (drop_down), word);
}

/* ---- Fields ---- */

static GtkWidget *
entry_new (SwAskForm *form, const SwAskInput *input, const char *text)
{
  GtkWidget *entry = gtk_entry_new ();
  gtk_editable_set_text (GTK_EDITABLE (entry), text);
  gtk_editable_set_width_chars (GTK_EDITABLE (entry), FIELD_CHARS);
  gtk_entry_set_placeholder_text (GTK_ENTRY (entry), input->kind == SW_ASK_LIST ? _("such as 3x25 32") : NULL);
  gtk_widget_add_css_class (entry, "numeric");
  g_signal_connect (entry, "changed", G_CALLBACK (on_typed), form);
  return entry;
}

static GtkWidget *
drop_down_new (SwAskForm *form, const SwAskInput *input, const char *text)
{
  g_auto (GStrv) words = g_strsplit (input->words, "|", -1);
  GtkStringList *shown = gtk_string_list_new (NULL);
  for (guint i = 0; words[i] != NULL; i++)
    {
      const char *label = sw_question_word (words[i]);
      gtk_string_list_append (shown, label != NULL ? sw_word (label) : words[i]);
    }
  GtkWidget *drop_down = gtk_drop_down_new (G_LIST_MODEL (shown), NULL);
  g_object_set_data_full (G_OBJECT (drop_down), "words", gtk_string_list_new ((const char *const *) words), g_object_unref);
  for (guint i = 0; words[i] != NULL; i++)
    if (strcmp (words[i], text) == 0)
      gtk_drop_down_set_selected (GTK_DROP_DOWN (drop_down), i);
  g_signal_connect (drop_down, "notify::selected", G_CALLBACK (on_chosen), form);
  return drop_down;
}

static void
add_field (SwAskForm *form, guint i)
{
  const SwAskInput *input = &form->question->inputs[i];
  const char *text = g_hash_table_lookup (form->given, input->key), *shown = text != NULL ? text : input->start_text;
  g_autofree char *title = sw_capital (sw_word (input->label));
  g_autofree char *symbol = sw_unit_text (input->unit);
  GtkWidget *label = gtk_label_new (title), *unit = gtk_label_new (symbol);
  GtkWidget *field = input->kind == SW_ASK_WORD ? drop_down_new (form, input, shown) : entry_new (form, input, shown);
  g_autofree char *about = sw_ask_input_text (input, sw_word);
  g_autofree char *name = *input->unit != 0 ? g_strdup_printf ("%s, %s", title, symbol) : g_strdup (title);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (label), LABEL_CHARS);
  gtk_label_set_xalign (GTK_LABEL (unit), 0);
  gtk_label_set_width_chars (GTK_LABEL (unit), 4);
  gtk_widget_set_tooltip_text (field, about);
  gtk_accessible_update_property (GTK_ACCESSIBLE (field), GTK_ACCESSIBLE_PROPERTY_LABEL, name, GTK_ACCESSIBLE_PROPERTY_DESCRIPTION, about, -1);
  if (GTK_IS_DROP_DOWN (field))
    sw_compat_name_drop_down (GTK_DROP_DOWN (field), name);
  form->fields[i] = field;
  gtk_grid_attach (form->grid, label, 0, (int) i, 1, 1);
  gtk_grid_attach (form->grid, field, 1, (int) i, 1, 1);
  gtk_grid_attach (form->grid, unit, 2, (int) i, 1, 1);
}

static void
clear (SwAskForm *form)
{
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (form->grid))) != NULL)
    gtk_grid_remove (form->grid, child);
  g_clear_pointer (&form->fields, g_free);
}

void
sw_ask_form_set_question (SwAskForm *form, const SwQuestion *question)
{
  GHashTable *before = g_hash_table_lookup (form->kept, question->id);
  clear (form);
  if (before == NULL)
    {
      before = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
      g_hash_table_insert (form->kept, (gpointer) question->id, before);
    }
  form->question = question;
  form->given = before;
  form->fields = g_new0 (GtkWidget *, question->n_inputs);
  form->filling = TRUE;
  for (guint i = 0; i < question->n_inputs; i++)
    add_field (form, i);
  form->filling = FALSE;
}

/* ---- What was given ---- */

static gboolean
copy_text (gpointer key, gpointer text, gpointer to)
{
  if (*(const char *) text != 0)
    g_hash_table_insert (to, g_strdup (key), g_strdup (text));
  return FALSE;
}

GHashTable *
sw_ask_form_given (SwAskForm *form)
{
  GHashTable *copy = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  g_hash_table_find (form->given, copy_text, copy);
  return copy;
}

char *
sw_ask_form_missing (SwAskForm *form)
{
  GString *names = g_string_new (NULL);
  for (guint i = 0; i < form->question->n_inputs; i++)
    {
      const SwAskInput *input = &form->question->inputs[i];
      const char *text = g_hash_table_lookup (form->given, input->key);
      if (*input->start_text == 0 && (text == NULL || *text == 0))
        g_string_append_printf (names, "%s%s", names->len > 0 ? ", " : "", sw_word (input->label));
    }
  return g_string_free (names, names->len == 0);
}

char *
sw_ask_form_show_fault (SwAskForm *form, const char *message)
{
  char *shown = g_strdup (message != NULL ? message : "");
  for (guint i = 0; i < form->question->n_inputs; i++)
    {
      const SwAskInput *input = &form->question->inputs[i];
      gsize length = strlen (input->key);
      gboolean wrong = message != NULL && strncmp (message, input->key, length) == 0 && message[length] == ':';
      if (wrong)
        {
          g_free (shown);
          g_autofree char *title = sw_capital (sw_word (input->label));
          shown = g_strdup_printf ("%s%s", title, message + length);
          gtk_widget_add_css_class (form->fields[i], "faulty");
        }
      else
        gtk_widget_remove_css_class (form->fields[i], "faulty");
      gtk_accessible_update_state (GTK_ACCESSIBLE (form->fields[i]), GTK_ACCESSIBLE_STATE_INVALID,
                                   wrong ? GTK_ACCESSIBLE_INVALID_TRUE : GTK_ACCESSIBLE_INVALID_FALSE, -1);
    }
  return shown;
}

/* ---- Class ---- */

static void
sw_ask_form_init (SwAskForm *form)
{
  form->kept = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, (GDestroyNotify) g_hash_table_unref);
  form->grid = GTK_GRID (gtk_grid_new ());
  gtk_grid_set_column_spacing (form->grid, 12);
  gtk_grid_set_row_spacing (form->grid, 6);
  gtk_widget_set_parent (GTK_WIDGET (form->grid), GTK_WIDGET (form));
}

static void
ask_form_dispose (GObject *object)
{
  SwAskForm *form = SW_ASK_FORM (object);
  if (form->grid != NULL)
    gtk_widget_unparent (GTK_WIDGET (form->grid));
  form->grid = NULL;
  G_OBJECT_CLASS (sw_ask_form_parent_class)->dispose (object);
}

static void
ask_form_finalize (GObject *object)
{
  SwAskForm *form = SW_ASK_FORM (object);
  g_free (form->fields);
  g_hash_table_unref (form->kept);
  G_OBJECT_CLASS (sw_ask_form_parent_class)->finalize (object);
}

static void
sw_ask_form_class_init (SwAskFormClass *class)
{
  G_OBJECT_CLASS (class)->dispose = ask_form_dispose;
  G_OBJECT_CLASS (class)->finalize = ask_form_finalize;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (class), GTK_TYPE_BIN_LAYOUT);
  changed_signal = g_signal_new ("changed", SW_TYPE_ASK_FORM, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}
