/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/inspector_row.h"
#include "rules/rules.h"
#include "sheets/plan.h"
#include "sheets/words.h"
#include "window/compat.h"
#include "window/wording.h"
#include <string.h>

/* Of the words of a choice; longer ones are cut short in the button, and whole in its list. */
#define MOST_WORD_CHARS 18

static void
show_fault (SwInspectorRow *row, GError *error)
{
  gtk_label_set_text (GTK_LABEL (row->fault), error != NULL ? error->message : "");
  gtk_widget_set_visible (row->fault, error != NULL);
  if (error != NULL)
    gtk_widget_add_css_class (row->control, "faulty");
  else
    gtk_widget_remove_css_class (row->control, "faulty");
  gtk_accessible_update_state (GTK_ACCESSIBLE (row->control), GTK_ACCESSIBLE_STATE_INVALID,
                               error != NULL ? GTK_ACCESSIBLE_INVALID_TRUE : GTK_ACCESSIBLE_INVALID_FALSE, -1);
  g_clear_error (&error);
}

/* The edit may rebuild the inspector and free the row with its control: nothing is touched after a success. */
static void
commit (SwInspectorRow *row, const char *text)
{
  GError *error = NULL;
  g_autoptr (GtkWidget) control = g_object_ref (row->control);
  if (!sw_board_set_value (row->board, &row->path, text, &error))
    show_fault (row, error);
  else if (g_object_get_data (G_OBJECT (control), "row") == row)
    show_fault (row, NULL);
}

static void
commit_entry (SwInspectorRow *row)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (row->control));
  if (row->filling || g_strcmp0 (text, row->shown) == 0)
    return;
  g_autofree char *copy = g_strdup (text);
  g_free (row->shown);
  row->shown = g_strdup (text);
  commit (row, copy);
}

static void
on_activate (GtkEntry *entry, SwInspectorRow *row)
{
  commit_entry (row);
}

static void
on_focus_left (GtkEventControllerFocus *focus, SwInspectorRow *row)
{
  commit_entry (row);
}

static gboolean
on_entry_key (GtkEventControllerKey *key, guint keyval, guint code, GdkModifierType state, SwInspectorRow *row)
{
  if (keyval != GDK_KEY_Escape || g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (row->control)), row->shown) == 0)
    return FALSE;
  gtk_editable_set_text (GTK_EDITABLE (row->control), row->shown != NULL ? row->shown : "");
  show_fault (row, NULL);
  return TRUE;
}

static void
on_toggled (GtkCheckButton *check, SwInspectorRow *row)
{
  if (!row->filling)
    commit (row, gtk_check_button_get_active (check) ? "yes" : "no");
}

static void
on_selected (GtkDropDown *choice, GParamSpec *spec, SwInspectorRow *row)
{
  guint selected = gtk_drop_down_get_selected (choice);
  const SwField *leaf = sw_path_leaf (&row->path);
  if (row->filling || selected == GTK_INVALID_LIST_POSITION)
    return;
  if (leaf->kind == SW_FIELD_ENUM)
    {
      commit (row, leaf->words[selected].key);
      return;
    }
  if (leaf->flags & SW_FLAG_RULE_SET)
    {
      commit (row, row->sets[selected]);
      return;
    }
  GError *error = NULL;
  if (selected < row->refs->len && !sw_board_set_ref (row->board, &row->path, g_array_index (row->refs, SwId, selected), &error))
    show_fault (row, error);
}

static GtkWidget *
entry_new (SwInspectorRow *row)
{
  GtkWidget *entry = gtk_entry_new ();
  GtkEventController *focus = gtk_event_controller_focus_new (), *key = gtk_event_controller_key_new ();
  const SwField *leaf = sw_path_leaf (&row->path);
  gtk_editable_set_width_chars (GTK_EDITABLE (entry), row->path.item >= 0 ? 6 : 8);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (entry), row->path.item >= 0 ? 8 : 12);
  if (leaf->kind == SW_FIELD_NUMBER || leaf->kind == SW_FIELD_INT || leaf->kind == SW_FIELD_MONEY)
    gtk_editable_set_alignment (GTK_EDITABLE (entry), 1);
  g_signal_connect (entry, "activate", G_CALLBACK (on_activate), row);
  g_signal_connect (focus, "leave", G_CALLBACK (on_focus_left), row);
  g_signal_connect (key, "key-pressed", G_CALLBACK (on_entry_key), row);
  gtk_event_controller_set_propagation_phase (key, GTK_PHASE_CAPTURE);
  gtk_widget_add_controller (entry, focus);
  gtk_widget_add_controller (entry, key);
  return entry;
}

static GtkWidget *
words_new (SwInspectorRow *row)
{
  GtkWidget *choice = gtk_drop_down_new (NULL, NULL);
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  long longest = 0;
  for (const SwWord *word = sw_path_leaf (&row->path)->words; word->key != NULL; word++)
    {
      gtk_string_list_append (names, sw_word (word->label));
      longest = MAX (longest, g_utf8_strlen (sw_word (word->label), -1));
    }
  gtk_drop_down_set_model (GTK_DROP_DOWN (choice), G_LIST_MODEL (names));
  sw_compat_shorten_drop_down (GTK_DROP_DOWN (choice), (int) MIN (longest, MOST_WORD_CHARS));
  g_signal_connect (choice, "notify::selected", G_CALLBACK (on_selected), row);
  return choice;
}

static GtkWidget *
refs_new (SwInspectorRow *row)
{
  GtkWidget *choice = gtk_drop_down_new (NULL, NULL);
  GtkExpression *expression = gtk_property_expression_new (GTK_TYPE_STRING_OBJECT, NULL, "string");
  gtk_drop_down_set_expression (GTK_DROP_DOWN (choice), expression);
  gtk_expression_unref (expression);
  gtk_drop_down_set_enable_search (GTK_DROP_DOWN (choice), TRUE);
  sw_compat_shorten_drop_down (GTK_DROP_DOWN (choice), 12);
  row->refs = g_array_new (FALSE, FALSE, sizeof (SwId));
  g_signal_connect (choice, "notify::selected", G_CALLBACK (on_selected), row);
  return choice;
}

/* The rule sets that there are; filling adds the job's own, should it be another. */
static GtkWidget *
sets_new (SwInspectorRow *row)
{
  GtkWidget *choice = gtk_drop_down_new (NULL, NULL);
  sw_compat_shorten_drop_down (GTK_DROP_DOWN (choice), 12);
  g_signal_connect (choice, "notify::selected", G_CALLBACK (on_selected), row);
  return choice;
}

static void
row_free (gpointer data)
{
  SwInspectorRow *row = data;
  g_clear_pointer (&row->refs, g_array_unref);
  g_clear_pointer (&row->sets, g_strfreev);
  g_free (row->shown);
  g_free (row);
}

static GtkWidget *
control_new (SwInspectorRow *row)
{
  if (sw_path_leaf (&row->path)->flags & SW_FLAG_RULE_SET)
    return sets_new (row);
  switch (sw_path_leaf (&row->path)->kind)
    {
    case SW_FIELD_BOOL:
      {
        GtkWidget *check = gtk_check_button_new ();
        g_signal_connect (check, "toggled", G_CALLBACK (on_toggled), row);
        return check;
      }
    case SW_FIELD_ENUM:
      return words_new (row);
    case SW_FIELD_REF:
      return refs_new (row);
    default:
      return entry_new (row);
    }
}

SwInspectorRow *
sw_inspector_row_new (SwBoard *board, const SwPath *path, const char *name)
{
  SwInspectorRow *row = g_new0 (SwInspectorRow, 1);
  row->board = board;
  row->path = *path;
  row->control = control_new (row);
  row->fault = gtk_label_new (NULL);
  gtk_label_set_wrap (GTK_LABEL (row->fault), TRUE);
  gtk_label_set_xalign (GTK_LABEL (row->fault), 0);
  gtk_widget_add_css_class (row->fault, "error");
  gtk_widget_set_visible (row->fault, FALSE);
  if (GTK_IS_DROP_DOWN (row->control))
    sw_compat_name_drop_down (GTK_DROP_DOWN (row->control), name);
  gtk_accessible_update_property (GTK_ACCESSIBLE (row->control), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_object_set_data_full (G_OBJECT (row->control), "row", row, row_free);
  return row;
}

char *
sw_inspector_row_label (const SwPath *path, SwLengths lengths)
{
  const SwField *leaf = sw_path_leaf (path);
  const char *unit = leaf->unit == SW_UNIT_MM ? sw_lengths_symbol (lengths) : sw_unit_symbol (leaf->unit);
  if (path->axis >= 0 && path->item < 0)
    return g_strdup_printf ("%s %s (%s)", sw_word (path->outer->label), sw_word (leaf->label), unit);
  return *unit != 0 ? g_strdup_printf ("%s (%s)", sw_word (leaf->label), unit) : g_strdup (sw_word (leaf->label));
}

/* ---- Filling ---- */

static void
fill_entry (SwInspectorRow *row, const GPtrArray *records)
{
  SwLengths lengths = sw_job_lengths (sw_board_job (row->board));
  g_autofree char *text = sw_path_write (records->pdata[0], &row->path, lengths);
  gboolean mixed = FALSE;
  for (guint i = 1; i < records->len && !mixed; i++)
    {
      g_autofree char *other = sw_path_write (records->pdata[i], &row->path, lengths);
      mixed = !g_str_equal (text, other);
    }
  gboolean typing = gtk_widget_has_focus (row->control) || gtk_widget_get_focus_child (row->control) != NULL;
  if (typing && g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (row->control)), row->shown) != 0)
    return;
  g_free (row->shown);
  row->shown = g_strdup (mixed ? "" : text);
  gtk_entry_set_placeholder_text (GTK_ENTRY (row->control), mixed ? _("several values") : NULL);
  if (g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (row->control)), row->shown) != 0)
    gtk_editable_set_text (GTK_EDITABLE (row->control), row->shown);
}

/* The int that all have, or −1. */
static int
common_int (SwInspectorRow *row, const GPtrArray *records)
{
  const SwField *leaf = sw_path_leaf (&row->path);
  int value = -1;
  for (guint i = 0; i < records->len; i++)
    {
      gpointer base = sw_path_base (records->pdata[i], &row->path);
      int one = base != NULL ? SW_AT (base, leaf, int) : -1;
      if (i > 0 && one != value)
        return -1;
      value = one;
    }
  return value;
}

static void
fill_check (SwInspectorRow *row, const GPtrArray *records)
{
  int value = common_int (row, records);
  gtk_check_button_set_inconsistent (GTK_CHECK_BUTTON (row->control), value < 0);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (row->control), value > 0);
}

static void
fill_refs (SwInspectorRow *row, const GPtrArray *records)
{
  const SwField *leaf = sw_path_leaf (&row->path);
  SwJob *job = sw_board_job (row->board);
  g_autoptr (GtkStringList) names = gtk_string_list_new (NULL);
  SwId none = 0, wanted = SW_AT (sw_path_base (records->pdata[0], &row->path), leaf, SwId);
  guint selected = GTK_INVALID_LIST_POSITION;
  gboolean mixed = FALSE;
  for (guint i = 1; i < records->len; i++)
    mixed = mixed || SW_AT (sw_path_base (records->pdata[i], &row->path), leaf, SwId) != wanted;
  g_array_set_size (row->refs, 0);
  if ((leaf->flags & SW_FLAG_OWNER) == 0)
    {
      gtk_string_list_append (names, _("none"));
      g_array_append_val (row->refs, none);
    }
  for (SwTable table = 0; table < SW_N_TABLES; table++)
    {
      const SwRecord *record;
      if ((leaf->refs & (1u << table)) == 0)
        continue;
      for (SwJobIter i = sw_job_iter (job, table); (record = sw_job_iter_next (&i)) != NULL;)
        {
          g_autofree char *title = sw_plan_title (record, sw_job_lengths (job));
          gtk_string_list_append (names, title);
          g_array_append_val (row->refs, record->id);
        }
    }
  for (guint i = 0; i < row->refs->len && !mixed; i++)
    if (g_array_index (row->refs, SwId, i) == wanted)
      selected = i;
  gtk_drop_down_set_model (GTK_DROP_DOWN (row->control), G_LIST_MODEL (names));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (row->control), selected);
}

/* A name that is no rule set stays in the list while the job has it: what is wrong with it stands over the plan. */
static void
fill_sets (SwInspectorRow *row, const GPtrArray *records)
{
  g_autofree char *own = sw_path_write (records->pdata[0], &row->path, sw_job_lengths (sw_board_job (row->board)));
  g_auto (GStrv) there = sw_rules_list (NULL);
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  g_autoptr (GtkStringList) titles = gtk_string_list_new (NULL);
  guint selected = 0, n = there != NULL ? g_strv_length (there) : 0;
  for (; selected < n && strcmp (there[selected], own) != 0;)
    selected++;
  for (guint i = 0; i < n; i++)
    {
      g_strv_builder_add (builder, there[i]);
      gtk_string_list_take (titles, sw_rule_set_title (there[i]));
    }
  if (selected == n)
    {
      g_strv_builder_add (builder, own);
      gtk_string_list_append (titles, own);
    }
  GStrv before = row->sets, now = g_strv_builder_end (builder);
  row->sets = now;
  if (before == NULL || !g_strv_equal ((const char *const *) before, (const char *const *) now))
    gtk_drop_down_set_model (GTK_DROP_DOWN (row->control), G_LIST_MODEL (titles));
  g_strfreev (before);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (row->control), selected);
}

void
sw_inspector_row_fill (SwInspectorRow *row, const GPtrArray *records)
{
  int word;
  row->filling = TRUE;
  if (sw_path_leaf (&row->path)->flags & SW_FLAG_RULE_SET)
    {
      fill_sets (row, records);
      row->filling = FALSE;
      return;
    }
  switch (sw_path_leaf (&row->path)->kind)
    {
    case SW_FIELD_BOOL:
      fill_check (row, records);
      break;
    case SW_FIELD_ENUM:
      word = common_int (row, records);
      gtk_drop_down_set_selected (GTK_DROP_DOWN (row->control), word >= 0 ? (guint) word : GTK_INVALID_LIST_POSITION);
      break;
    case SW_FIELD_REF:
      fill_refs (row, records);
      break;
    default:
      fill_entry (row, records);
    }
  row->filling = FALSE;
}
