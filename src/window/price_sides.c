/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/price_sides.h"
#include "checks/snag_text.h"
#include "sheets/words.h"
#include "window/compat.h"
#include <string.h>

#define N_SIDES 3
#define HEAD_CHARS 11
#define NAME_CHARS 26
#define RULE_COLUMN (N_SIDES + 1)
#define FAULT_LINE 1 /* below the heads; figures follow */

struct _SwPriceSides
{
  GtkWidget parent_instance;
  GtkGrid *grid;
  GtkCheckButton *heads[N_SIDES];
  GtkLabel *faults[N_SIDES];
  GtkLabel **names;          /* one a row */
  GtkLabel *(*cells)[N_SIDES];
  GtkButton **rules;
  gboolean grid_shown, filling;
};

G_DEFINE_FINAL_TYPE (SwPriceSides, sw_price_sides, GTK_TYPE_WIDGET)

enum { SIGNAL_FINISH, SIGNAL_RULE, N_SIGNALS };
static guint signals[N_SIGNALS];

/* As a choice has them. */
static const SwFinish finishes[N_SIDES] = { SW_FINISH_CLOSED, SW_FINISH_EXPOSED, SW_FINISH_GRID };

/* Headings stand before these rows. */
static const struct { const char *key, *title; } groups[] = {
  { "possible", N_("The ceiling") },      { "material", N_("Price") },    { "height_mm", N_("Height by the rule set") },
  { "steel_m2", N_("Paint") },        { "days_low", N_("Work and carbon") }, { "reflectance", N_("Light and sound") },
};

static GtkLabel *
add_label (SwPriceSides *sides, int column, int line, const char *class)
{
  GtkWidget *label = gtk_label_new (NULL);
  gtk_label_set_xalign (GTK_LABEL (label), column == 0 ? 0 : 1);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_widget_add_css_class (label, class);
  gtk_grid_attach (sides->grid, label, column, line, 1, 1);
  return GTK_LABEL (label);
}

/* ---- Heads ---- */

static void
on_head (GtkCheckButton *head, SwPriceSides *sides)
{
  if (sides->filling || !gtk_check_button_get_active (head))
    return;
  for (int i = 0; i < N_SIDES; i++)
    if (sides->heads[i] == head)
      g_signal_emit (sides, signals[SIGNAL_FINISH], 0, (int) finishes[i]);
}

static void
add_heads (SwPriceSides *sides)
{
  for (int i = 0; i < N_SIDES; i++)
    {
      GtkWidget *head = gtk_check_button_new (), *label = gtk_label_new (sw_word (sw_choice_side_text (finishes[i])));
      g_autofree char *name = g_strdup_printf (_("Finish the room so: %s"), sw_word (sw_choice_side_text (finishes[i])));
      sides->heads[i] = GTK_CHECK_BUTTON (head);
      gtk_label_set_wrap (GTK_LABEL (label), TRUE);
      gtk_label_set_width_chars (GTK_LABEL (label), HEAD_CHARS);
      gtk_label_set_max_width_chars (GTK_LABEL (label), HEAD_CHARS);
      gtk_label_set_xalign (GTK_LABEL (label), 0);
      gtk_check_button_set_child (GTK_CHECK_BUTTON (head), label);
      if (i > 0)
        gtk_check_button_set_group (GTK_CHECK_BUTTON (head), sides->heads[0]);
      gtk_widget_set_halign (head, GTK_ALIGN_END);
      gtk_widget_set_tooltip_text (head, name);
      gtk_accessible_update_property (GTK_ACCESSIBLE (head), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
      gtk_grid_attach (sides->grid, head, i + 1, 0, 1, 1);
      g_signal_connect (head, "toggled", G_CALLBACK (on_head), sides);
      sides->faults[i] = add_label (sides, i + 1, FAULT_LINE, "snag-stop");
    }
}

/* ---- Rows ---- */

static void
on_rule (GtkButton *button, SwPriceSides *sides)
{
  const char *rule = g_object_get_data (G_OBJECT (button), "rule");
  if (rule != NULL)
    g_signal_emit (sides, signals[SIGNAL_RULE], 0, rule);
}

static int
add_group (SwPriceSides *sides, int line, const char *key)
{
  for (gsize i = 0; i < G_N_ELEMENTS (groups); i++)
    if (strcmp (groups[i].key, key) == 0)
      {
        GtkLabel *label = add_label (sides, 0, line, "group-title");
        gtk_label_set_text (label, sw_word (groups[i].title));
        return line + 1;
      }
  return line;
}

static void
add_rows (SwPriceSides *sides)
{
  guint n = sw_choice_n_rows ();
  int line = FAULT_LINE + 1;
  sides->names = g_new0 (GtkLabel *, n);
  sides->cells = g_malloc0_n (n, sizeof *sides->cells);
  sides->rules = g_new0 (GtkButton *, n);
  for (guint row = 0; row < n; row++, line++)
    {
      line = add_group (sides, line, sw_choice_row (row)->key);
      sides->names[row] = add_label (sides, 0, line, "figure-name");
      gtk_widget_set_hexpand (GTK_WIDGET (sides->names[row]), TRUE);
      gtk_label_set_width_chars (sides->names[row], NAME_CHARS);
      for (int i = 0; i < N_SIDES; i++)
        sides->cells[row][i] = add_label (sides, i + 1, line, "numeric");
      sides->rules[row] = GTK_BUTTON (gtk_button_new ());
      gtk_button_set_has_frame (sides->rules[row], FALSE);
      gtk_widget_add_css_class (GTK_WIDGET (sides->rules[row]), "rule-link");
      gtk_widget_set_halign (GTK_WIDGET (sides->rules[row]), GTK_ALIGN_START);
      g_signal_connect (sides->rules[row], "clicked", G_CALLBACK (on_rule), sides);
      gtk_grid_attach (sides->grid, GTK_WIDGET (sides->rules[row]), RULE_COLUMN, line, 1, 1);
    }
}

/* ---- Filling ---- */

/* The least certain rule behind a row. */
static gboolean
row_rule (const SwChoice *choice, guint row, SwRuleValue *rule)
{
  rule->rule_id = NULL;
  for (guint side = 0; side < choice->n; side++)
    {
      SwFigure figure = sw_choice_figure (choice, side, row);
      if (figure.rule.rule_id != NULL && (rule->rule_id == NULL || figure.rule.confidence > rule->confidence))
        *rule = figure.rule;
    }
  return rule->rule_id != NULL;
}

static void
show_rule (SwPriceSides *sides, const SwRoomPrice *price, guint row)
{
  GtkButton *button = sides->rules[row];
  SwRuleValue rule;
  gboolean has = price != NULL && row_rule (price->choice, row, &rule);
  gtk_widget_set_visible (GTK_WIDGET (button), has);
  g_object_set_data_full (G_OBJECT (button), "rule", has ? g_strdup (rule.rule_id) : NULL, g_free);
  if (!has)
    return;
  g_autofree char *tip = g_strdup_printf ("%s\n%s", rule.rule_id, rule.source);
  g_autofree char *name = g_strdup_printf (_("Show the rule behind %s: %s"), sw_word (sw_choice_row (row)->label), sw_word (sw_confidence_label (rule.confidence)));
  gtk_button_set_label (button, sw_word (sw_confidence_label (rule.confidence)));
  gtk_widget_set_tooltip_text (GTK_WIDGET (button), tip);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
}

static void
show_name (SwPriceSides *sides, guint row, const char *currency)
{
  const SwFigureInfo *info = sw_choice_row (row);
  const char *unit = info->kind == SW_FIGURE_MONEY ? currency : info->unit;
  g_autofree char *name = *unit != 0 ? g_strdup_printf ("%s, %s", sw_word (info->label), unit) : g_strdup (sw_word (info->label));
  gtk_label_set_text (sides->names[row], name);
}

/* Words that warn: a finish that cannot be, a room that is too low. */
static gboolean
is_bad (const SwFigureInfo *info, const SwFigure *figure)
{
  return info->kind == SW_FIGURE_WORD && g_strcmp0 (figure->word, "no") == 0;
}

static void
show_cell (SwPriceSides *sides, const SwRoomPrice *price, guint row, guint side)
{
  const SwFigureInfo *info = sw_choice_row (row);
  GtkLabel *label = sides->cells[row][side];
  SwFigure figure = price != NULL && side < price->choice->n ? sw_choice_figure (price->choice, side, row) : (SwFigure){ 0 };
  g_autofree char *text = price != NULL && side < price->choice->n ? sw_figure_write (info, &figure) : g_strdup (price == NULL ? "…" : "");
  sw_compat_set_figure (label, info->kind == SW_FIGURE_WORD ? sw_word (text) : text);
  if (price != NULL && is_bad (info, &figure))
    gtk_widget_add_css_class (GTK_WIDGET (label), "snag-stop");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (label), "snag-stop");
}

static void
show_heads (SwPriceSides *sides, const SwRoom *room, const SwRoomPrice *price)
{
  sides->filling = TRUE;
  for (guint i = 0; i < N_SIDES; i++)
    {
      const char *fault = price != NULL && i < price->choice->n ? price->choice->sides[i].fault : NULL;
      gtk_check_button_set_active (sides->heads[i], room != NULL && room->finish == (int) finishes[i]);
      gtk_label_set_text (sides->faults[i], fault != NULL ? sw_word (fault) : "");
      gtk_widget_set_visible (GTK_WIDGET (sides->faults[i]), fault != NULL);
    }
  sides->filling = FALSE;
}

static void
show_grid_column (SwPriceSides *sides, gboolean shown)
{
  const int side = N_SIDES - 1;
  gtk_widget_set_visible (GTK_WIDGET (sides->heads[side]), shown);
  if (!shown)
    gtk_widget_set_visible (GTK_WIDGET (sides->faults[side]), FALSE);
  for (guint row = 0; row < sw_choice_n_rows (); row++)
    gtk_widget_set_visible (GTK_WIDGET (sides->cells[row][side]), shown);
}

void
sw_price_sides_show (SwPriceSides *sides, const SwRoom *room, const SwRoomPrice *price, gboolean stale)
{
  const char *currency = price != NULL ? sw_job_info (sw_deck_job (price->base->deck))->currency : "";
  gtk_widget_set_visible (GTK_WIDGET (sides->grid), room != NULL);
  if (room == NULL)
    return;
  show_heads (sides, room, price);
  for (guint row = 0; row < sw_choice_n_rows (); row++)
    {
      show_name (sides, row, currency);
      show_rule (sides, price, row);
      for (guint side = 0; side < N_SIDES; side++)
        show_cell (sides, price, row, side);
    }
  show_grid_column (sides, sides->grid_shown || room->finish == SW_FINISH_GRID);
  if (stale)
    gtk_widget_add_css_class (GTK_WIDGET (sides), "stale");
  else
    gtk_widget_remove_css_class (GTK_WIDGET (sides), "stale");
}

void
sw_price_sides_set_grid (SwPriceSides *sides, gboolean shown)
{
  sides->grid_shown = shown;
  show_grid_column (sides, shown || gtk_check_button_get_active (sides->heads[N_SIDES - 1]));
}

void
sw_price_sides_set_writable (SwPriceSides *sides, gboolean writable)
{
  for (int i = 0; i < N_SIDES; i++)
    gtk_widget_set_sensitive (GTK_WIDGET (sides->heads[i]), writable);
}

static void
sw_price_sides_init (SwPriceSides *sides)
{
  sides->grid = GTK_GRID (gtk_grid_new ());
  gtk_grid_set_column_spacing (sides->grid, 18);
  gtk_grid_set_row_spacing (sides->grid, 2);
  gtk_widget_add_css_class (GTK_WIDGET (sides->grid), "sides");
  gtk_accessible_update_property (GTK_ACCESSIBLE (sides->grid), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Finishes side by side"), -1);
  gtk_widget_set_parent (GTK_WIDGET (sides->grid), GTK_WIDGET (sides));
  add_heads (sides);
  add_rows (sides);
  gtk_widget_set_visible (GTK_WIDGET (sides->grid), FALSE);
}

static void
price_sides_dispose (GObject *object)
{
  SwPriceSides *sides = SW_PRICE_SIDES (object);
  g_clear_pointer ((GtkWidget **) &sides->grid, gtk_widget_unparent);
  G_OBJECT_CLASS (sw_price_sides_parent_class)->dispose (object);
}

static void
price_sides_finalize (GObject *object)
{
  SwPriceSides *sides = SW_PRICE_SIDES (object);
  g_free (sides->names);
  g_free (sides->cells);
  g_free (sides->rules);
  G_OBJECT_CLASS (sw_price_sides_parent_class)->finalize (object);
}

static void
sw_price_sides_class_init (SwPriceSidesClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  G_OBJECT_CLASS (class)->dispose = price_sides_dispose;
  G_OBJECT_CLASS (class)->finalize = price_sides_finalize;
  gtk_widget_class_set_layout_manager_type (widget_class, GTK_TYPE_BIN_LAYOUT);
  signals[SIGNAL_FINISH] = g_signal_new ("finish", SW_TYPE_PRICE_SIDES, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_INT);
  signals[SIGNAL_RULE] = g_signal_new ("rule", SW_TYPE_PRICE_SIDES, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
}
