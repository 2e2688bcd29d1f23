/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/ask_answer.h"
#include "checks/working_text.h"
#include "sheets/pictures.h"
#include "sheets/words.h"
#include "window/page_preview.h"
#include "window/wording.h"

#define MOST_ROWS 200 /* of a table that are shown */
#define PICTURE_PX 420 /* height at least */

struct _SwAskAnswer
{
  GtkWidget parent_instance;
  GtkBox *box;
};

G_DEFINE_FINAL_TYPE (SwAskAnswer, sw_ask_answer, GTK_TYPE_WIDGET)

static guint rule_signal;

static GtkWidget *
label_new (const char *text, const char *class)
{
  GtkWidget *label = gtk_label_new (text);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_selectable (GTK_LABEL (label), TRUE);
  gtk_widget_add_css_class (label, class);
  return label;
}

static GtkGrid *
add_grid (SwAskAnswer *answer, const char *title)
{
  GtkWidget *grid = gtk_grid_new ();
  gtk_box_append (answer->box, label_new (title, "group-title"));
  gtk_grid_set_column_spacing (GTK_GRID (grid), 12);
  gtk_grid_set_row_spacing (GTK_GRID (grid), 4);
  gtk_accessible_update_property (GTK_ACCESSIBLE (grid), GTK_ACCESSIBLE_PROPERTY_LABEL, title, -1);
  gtk_box_append (answer->box, grid);
  return GTK_GRID (grid);
}

/* ---- Answers ---- */

static void
add_answers (SwAskAnswer *answer, const SwWorking *working)
{
  static const char *const classes[] = { [SW_VERDICT_NONE] = "dim-label", [SW_VERDICT_GOOD] = "verdict-good", [SW_VERDICT_BAD] = "snag-stop" };
  const SwWorkingLine *line;
  for (guint i = 0; (line = sw_working_nth_answer (working, i)) != NULL; i++)
    {
      g_autofree char *value = sw_working_value_text (working, line);
      g_autofree char *what = sw_capital (sw_word (line->what));
      g_autofree char *text = g_strdup_printf ("%s: %s", what, value);
      gtk_box_append (answer->box, label_new (text, i == 0 ? "answer" : "answer-more"));
    }
  if (working->said != NULL)
    gtk_box_append (answer->box, label_new (sw_word (working->said), classes[working->verdict]));
}

/* ---- Lines ---- */

static void
on_rule (GtkButton *button, SwAskAnswer *answer)
{
  g_signal_emit (answer, rule_signal, 0, (const char *) g_object_get_data (G_OBJECT (button), "rule"));
}

static void
add_rule (SwAskAnswer *answer, GtkGrid *grid, int row, const SwWorkingLine *line)
{
  g_autofree char *text = sw_working_rule_text (line, sw_word);
  g_autofree char *name = g_strdup_printf (_("Show the rule %s"), line->rule.rule_id);
  GtkWidget *label = label_new (text, "dim-label"), *button = gtk_button_new_with_label (_("Show the rule"));
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_widget_add_css_class (label, "caption");
  gtk_button_set_has_frame (GTK_BUTTON (button), FALSE);
  gtk_widget_add_css_class (button, "rule-link");
  gtk_widget_set_valign (button, GTK_ALIGN_START);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_object_set_data_full (G_OBJECT (button), "rule", g_strdup (line->rule.rule_id), g_free);
  g_signal_connect (button, "clicked", G_CALLBACK (on_rule), answer);
  gtk_grid_attach (grid, label, 1, row, 2, 1);
  gtk_grid_attach (grid, button, 3, row, 1, 1);
}

static int
add_line (SwAskAnswer *answer, GtkGrid *grid, int row, const SwWorking *working, const SwWorkingLine *line)
{
  g_autofree char *value = sw_working_value_text (working, line);
  g_autofree char *formula = line->formula != NULL && *line->formula != 0 ? g_strdup_printf ("= %s", line->formula) : NULL;
  GtkWidget *what = label_new (sw_word (line->what), "line-what"), *figure = label_new (value, line->kind == SW_LINE_ANSWER ? "heading" : "numeric");
  gtk_widget_set_hexpand (what, TRUE);
  gtk_label_set_xalign (GTK_LABEL (figure), 1);
  gtk_grid_attach (grid, label_new (line->symbol, "symbol"), 0, row, 1, 1);
  gtk_grid_attach (grid, what, 1, row, 1, 1);
  if (formula != NULL)
    gtk_grid_attach (grid, label_new (formula, "numeric"), 2, row, 1, 1);
  gtk_grid_attach (grid, figure, 3, row, 1, 1);
  if (line->rule.rule_id != NULL)
    add_rule (answer, grid, ++row, line);
  return row + 1;
}

static void
add_lines (SwAskAnswer *answer, const SwWorking *working)
{
  GtkGrid *grid = add_grid (answer, _("Working, line by line"));
  int row = 0;
  for (guint i = 0; i < working->lines->len; i++)
    row = add_line (answer, grid, row, working, &g_array_index (working->lines, SwWorkingLine, i));
}

/* ---- Table ---- */

static void
add_table (SwAskAnswer *answer, const SwWorking *working)
{
  GtkGrid *grid = add_grid (answer, _("Table"));
  for (guint c = 0; c < working->n_columns; c++)
    {
      GtkWidget *head = label_new (sw_word (working->columns[c].what), "heading");
      gtk_label_set_xalign (GTK_LABEL (head), 1);
      gtk_grid_attach (grid, head, (int) c, 0, 1, 1);
      for (guint row = 0; row < MIN (sw_working_n_rows (working), MOST_ROWS); row++)
        {
          g_autofree char *text = sw_working_cell_text (working, row, c);
          GtkWidget *cell = label_new (text, "numeric");
          gtk_label_set_xalign (GTK_LABEL (cell), 1);
          gtk_grid_attach (grid, cell, (int) c, (int) row + 1, 1, 1);
        }
    }
}

/* ---- Picture ---- */

static void
add_picture (SwAskAnswer *answer, const SwQuestion *question, const SwWorking *working)
{
  SwPage page;
  g_autoptr (SwDisplay) display = sw_picture_of_answer (question, working, &page);
  if (display == NULL)
    return;
  GtkWidget *preview = g_object_new (SW_TYPE_PAGE_PREVIEW, "height-request", PICTURE_PX, "vexpand", FALSE, NULL);
  sw_page_preview_set_page (SW_PAGE_PREVIEW (preview), display, &page);
  gtk_accessible_update_property (GTK_ACCESSIBLE (preview), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Picture of the answer"), -1);
  gtk_box_append (answer->box, preview);
}

void
sw_ask_answer_show (SwAskAnswer *answer, const SwQuestion *question, const SwWorking *working)
{
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (answer->box))) != NULL)
    gtk_box_remove (answer->box, child);
  if (working == NULL)
    return;
  add_answers (answer, working);
  add_picture (answer, question, working);
  if (working->columns != NULL)
    add_table (answer, working);
  add_lines (answer, working);
}

static void
sw_ask_answer_init (SwAskAnswer *answer)
{
  answer->box = GTK_BOX (gtk_box_new (GTK_ORIENTATION_VERTICAL, 4));
  gtk_widget_set_parent (GTK_WIDGET (answer->box), GTK_WIDGET (answer));
}

static void
ask_answer_dispose (GObject *object)
{
  SwAskAnswer *answer = SW_ASK_ANSWER (object);
  if (answer->box != NULL)
    gtk_widget_unparent (GTK_WIDGET (answer->box));
  answer->box = NULL;
  G_OBJECT_CLASS (sw_ask_answer_parent_class)->dispose (object);
}

static void
sw_ask_answer_class_init (SwAskAnswerClass *class)
{
  G_OBJECT_CLASS (class)->dispose = ask_answer_dispose;
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (class), GTK_TYPE_BIN_LAYOUT);
  rule_signal = g_signal_new ("rule", SW_TYPE_ASK_ANSWER, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
}
