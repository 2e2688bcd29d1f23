/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/price_bill.h"
#include "sheets/words.h"
#include "store/price_list.h"
#include "window/columns.h"
#include "window/compat.h"
#include "estimate/labour.h"
#include "window/price_row.h"

typedef enum { SCOPE_ROOM, SCOPE_WHOLE, SCOPE_NOWHERE } Scope;

struct _SwPriceBill
{
  GtkWidget parent_instance;
  GtkDropDown *scope_drop_down;
  GtkLabel *sum_label, *notes_label, *counted_label;
  GtkWidget *notes_expander, *row_button;
  GtkColumnView *column_view;
  SwDocument *document;
  SwPriceDesk *desk;
  SwJobPrice *job;      /* whose lines are shown */
  SwPriceLines *lines;  /* of a room; NULL for the whole */
  SwId room;
  GListStore *store;    /* SwRowItem of SwQuoteLine, borrowed from `lines` or `job` */
  GtkSingleSelection *selection;
  char *chosen;         /* code of the chosen line, kept over changes */
  gboolean filling;
};

G_DEFINE_FINAL_TYPE (SwPriceBill, sw_price_bill, GTK_TYPE_WIDGET)

/* ---- Columns ---- */

static char *
money_text (SwMoney money)
{
  char text[SW_MONEY_BUF];
  return g_strdup (sw_money_write (money, text));
}

static char *
quantity_text (SwQuantity quantity)
{
  char text[SW_MONEY_BUF];
  return g_strdup (sw_quantity_write (quantity, text));
}

static char *
what_text (gconstpointer value, gpointer data)
{
  const SwQuoteLine *line = value;
  gboolean described = line->price != NULL && *line->price->description != 0;
  return g_strdup (described ? line->price->description : sw_word (line->need->description));
}

static char *
trade_text (gconstpointer value, gpointer data)
{
  const SwQuoteLine *line = value;
  return g_strdup (line->need->kind < SW_N_PRICES ? sw_word (sw_bill_text (sw_price_info (line->need->kind)->bill)) : "");
}

static char *
net_text (gconstpointer value, gpointer data)
{
  return quantity_text (((const SwQuoteLine *) value)->need->quantity);
}

static char *
gross_text (gconstpointer value, gpointer data)
{
  return quantity_text (((const SwQuoteLine *) value)->gross);
}

static char *
unit_text (gconstpointer value, gpointer data)
{
  return g_strdup (sw_price_unit_text (((const SwQuoteLine *) value)->need->unit));
}

static char *
lengths_text (gconstpointer value, gpointer data)
{
  const SwQuoteLine *line = value;
  return line->lengths > 0 ? g_strdup_printf ("%u", line->lengths) : g_strdup ("");
}

static char *
material_rate_text (gconstpointer value, gpointer data)
{
  const SwQuoteLine *line = value;
  return line->price != NULL ? money_text (line->price->material) : g_strdup ("");
}

static char *
labour_rate_text (gconstpointer value, gpointer data)
{
  const SwQuoteLine *line = value;
  return line->price != NULL ? money_text (line->price->labour) : g_strdup ("");
}

static char *
sum_text (gconstpointer value, gpointer data)
{
  const SwQuoteLine *line = value;
  if (line->price != NULL)
    return money_text (line->material + line->labour);
  return g_strdup (line->other_unit ? _("other unit") : _("no price"));
}

static const char *
sum_mark (gconstpointer value, gpointer data)
{
  return ((const SwQuoteLine *) value)->price == NULL ? "snag-stop" : NULL;
}

static const SwTextColumn columns[] = {
  { N_("What"), FALSE, -20, what_text, NULL, TRUE },
  { N_("Net"), TRUE, 7, net_text, NULL },
  { N_("Waste in"), TRUE, 7, gross_text, NULL },
  { N_("Unit"), FALSE, 3, unit_text, NULL },
  { N_("Sum"), TRUE, 9, sum_text, sum_mark },
  { N_("Material at"), TRUE, 8, material_rate_text, NULL },
  { N_("Labour at"), TRUE, 8, labour_rate_text, NULL },
  { N_("Lengths"), TRUE, 5, lengths_text, NULL },
  { N_("Trade"), FALSE, 9, trade_text, NULL },
};

/* ---- Filling ---- */

static Scope
scope_of (SwPriceBill *view)
{
  return (Scope) MIN (gtk_drop_down_get_selected (view->scope_drop_down), SCOPE_NOWHERE);
}

static void
show_sums (SwPriceBill *view, const SwPriceLines *lines)
{
  double low, high;
  const SwQuote *quote = lines->quote;
  sw_labour_hours (view->job->base->rules, lines->needs, &low, &high);
  char material[SW_MONEY_BUF], labour[SW_MONEY_BUF], price[SW_MONEY_BUF], vat[SW_MONEY_BUF], total[SW_MONEY_BUF];
  const char *currency = sw_job_info (sw_deck_job (view->job->base->deck))->currency;
  g_autofree char *text = g_strdup_printf (_("Material %s · labour %s (%.0f to %.0f h) · price with markup %s · tax %s · with tax %s %s"), sw_money_write (quote->material, material),
                                           sw_money_write (quote->labour, labour), low, high, sw_money_write (quote->price, price), sw_money_write (quote->vat, vat),
                                           currency, sw_money_write (quote->total, total));
  gtk_label_set_text (view->sum_label, text);
}

static void
show_notes (SwPriceBill *view)
{
  const SwTakeoff *takeoff = view->job->takeoff;
  SwJob *job = sw_deck_job (view->job->base->deck);
  g_autoptr (GString) text = g_string_new (NULL);
  guint n = 0;
  for (guint i = 0; i < takeoff->notes->len; i++)
    {
      const SwTakeoffNote *note = &g_array_index (takeoff->notes, SwTakeoffNote, i);
      const SwRecord *owner = sw_job_get (job, note->owner);
      if (scope_of (view) == SCOPE_ROOM && note->owner != view->room)
        continue;
      g_string_append_printf (text, "%s%s: %s%s%s", n++ > 0 ? "\n" : "", owner != NULL ? owner->tag : "", sw_word (sw_takeoff_note_text (note->kind)),
                              note->detail != NULL ? ": " : "", note->detail != NULL ? note->detail : "");
    }
  g_autofree char *title = g_strdup_printf (_("Notes of the take-off: %u"), n);
  gtk_expander_set_label (GTK_EXPANDER (view->notes_expander), title);
  gtk_label_set_text (view->notes_label, text->str);
  gtk_widget_set_visible (view->notes_expander, n > 0);
}

/* The line that was chosen stays so. */
static void
fill_store (SwPriceBill *view, const SwQuote *quote)
{
  g_autoptr (GPtrArray) items = g_ptr_array_new_with_free_func (g_object_unref);
  guint selected = GTK_INVALID_LIST_POSITION;
  for (guint i = 0; i < quote->lines->len; i++)
    {
      SwQuoteLine *line = &g_array_index (quote->lines, SwQuoteLine, i);
      g_ptr_array_add (items, sw_row_item_new (line, NULL));
      if (view->chosen != NULL && g_str_equal (line->need->code, view->chosen))
        selected = i;
    }
  view->filling = TRUE;
  g_list_store_splice (view->store, 0, g_list_model_get_n_items (G_LIST_MODEL (view->store)), items->pdata, items->len);
  gtk_single_selection_set_selected (view->selection, selected);
  view->filling = FALSE;
}

static void
show_job (SwPriceBill *view)
{
  const SwJobPrice *job = sw_price_desk_job (view->desk);
  gtk_widget_set_sensitive (GTK_WIDGET (view->column_view), job != NULL);
  if (job == NULL)
    return;
  Scope scope = scope_of (view);
  SwJobPrice *before = view->job;
  SwPriceLines *lines_before = view->lines;
  view->job = sw_job_price_ref ((SwJobPrice *) job);
  view->lines = scope == SCOPE_WHOLE ? NULL : sw_job_price_lines (job, scope == SCOPE_ROOM ? view->room : 0);
  const SwPriceLines *lines = view->lines != NULL ? view->lines : job->whole;
  fill_store (view, lines->quote);
  g_clear_pointer (&lines_before, sw_price_lines_free);
  g_clear_pointer (&before, sw_job_price_unref);
  show_sums (view, lines);
  show_notes (view);
}

static void
on_asked (SwPriceBill *view)
{
  gtk_widget_add_css_class (GTK_WIDGET (view->column_view), "stale");
}

static void
on_job (SwPriceBill *view)
{
  gtk_widget_remove_css_class (GTK_WIDGET (view->column_view), "stale");
  show_job (view);
}

void
sw_price_bill_set_room (SwPriceBill *view, SwId room)
{
  view->room = room;
  if (scope_of (view) == SCOPE_ROOM)
    show_job (view);
}

/* ---- What a line counts ---- */

static void
on_selected (SwPriceBill *view)
{
  SwRowItem *item = gtk_single_selection_get_selected_item (view->selection);
  if (view->filling || item == NULL)
    return;
  const SwNeed *need = ((const SwQuoteLine *) item->value)->need;
  g_free (view->chosen);
  view->chosen = g_strdup (need->code);
  guint lit = sw_board_light (sw_document_board (view->document), need->kind, sw_price_size (need->code), (const SwId *) (gpointer) need->things->data,
                              need->things->len);
  guint n = need->things->len;
  g_autofree char *text = lit == 1 ? g_strdup (_("The piece counted by this line is lit on the plan."))
                          : lit > 0 ? g_strdup_printf (_("%u pieces counted by this line are lit on the plan."), lit)
                          : n == 1  ? g_strdup (_("What is counted by this line is picked on the plan."))
                          : n > 0   ? g_strdup_printf (_("%u things counted by this line are picked on the plan."), n)
                                    : g_strdup (_("This line counts nothing that stands on the plan."));
  gtk_label_set_text (view->counted_label, text);
  gtk_widget_set_sensitive (view->row_button, TRUE);
}

/* ---- A line's row of the price list ---- */

static SwId
row_of (SwJob *job, const char *code)
{
  const SwRecord *record = sw_job_find (job, code);
  return record != NULL && sw_record_table (record) == SW_TABLE_PRICE ? record->id : 0;
}

/* Takes over the invented list where the job has no prices, or adds an empty row for a code that its list lacks. */
static gboolean
add_row (SwPriceBill *view, const char *code, GError **error)
{
  SwJob *job = sw_document_job (view->document);
  g_autoptr (SwJob) priced = sw_price_list_or_default (job, error);
  gboolean known = priced != NULL && row_of (priced, code) != 0;
  g_autofree char *text = known ? sw_price_list_write (priced) : g_strdup_printf ("code,unit\n%s,%s\n", code, sw_price_info (sw_price_kind_of (code))->unit);
  SwEdit *edit = priced != NULL ? sw_price_list_read (job, text, -1, code, error) : NULL;
  return edit != NULL && sw_document_do (view->document, edit);
}

static void
on_row_button (SwPriceBill *view)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *code = g_strdup (view->chosen);
  if (code == NULL)
    return;
  if (row_of (sw_document_job (view->document), code) == 0 && !add_row (view, code, &error))
    {
      if (error != NULL)
        sw_document_set_fault (view->document, error->message);
      return;
    }
  sw_price_row_open (view->row_button, view->document, row_of (sw_document_job (view->document), code));
}

void
sw_price_bill_set_document (SwPriceBill *view, SwDocument *document)
{
  view->document = g_object_ref (document);
  view->desk = sw_price_desk_of (document);
  g_signal_connect_object (view->desk, "asked", G_CALLBACK (on_asked), view, G_CONNECT_SWAPPED);
  g_signal_connect_object (view->desk, "job", G_CALLBACK (on_job), view, G_CONNECT_SWAPPED);
  show_job (view);
}

static void
sw_price_bill_init (SwPriceBill *view)
{
  gtk_widget_init_template (GTK_WIDGET (view));
  view->store = g_list_store_new (SW_TYPE_ROW_ITEM);
  view->selection = gtk_single_selection_new (G_LIST_MODEL (g_object_ref (view->store)));
  gtk_single_selection_set_autoselect (view->selection, FALSE);
  gtk_single_selection_set_can_unselect (view->selection, TRUE);
  sw_compat_name_drop_down (view->scope_drop_down, _("Quantities of"));
  sw_columns_name (view->column_view, _("Quantities and prices"));
  sw_columns_add (view->column_view, columns, G_N_ELEMENTS (columns), view);
  gtk_column_view_set_model (view->column_view, GTK_SELECTION_MODEL (view->selection));
  g_signal_connect_swapped (view->selection, "notify::selected-item", G_CALLBACK (on_selected), view);
  g_signal_connect_swapped (view->row_button, "clicked", G_CALLBACK (on_row_button), view);
  g_signal_connect_swapped (view->scope_drop_down, "notify::selected", G_CALLBACK (show_job), view);
}

static void
price_bill_dispose (GObject *object)
{
  SwPriceBill *view = SW_PRICE_BILL (object);
  GtkWidget *child;
  if (view->selection != NULL)
    g_signal_handlers_disconnect_by_data (view->selection, view);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (view))) != NULL)
    gtk_widget_unparent (child);
  g_clear_object (&view->selection);
  g_clear_object (&view->store);
  g_clear_pointer (&view->lines, sw_price_lines_free);
  g_clear_pointer (&view->job, sw_job_price_unref);
  g_clear_pointer (&view->chosen, g_free);
  g_clear_object (&view->document);
  G_OBJECT_CLASS (sw_price_bill_parent_class)->dispose (object);
}

#define BIND(member) gtk_widget_class_bind_template_child (widget_class, SwPriceBill, member)

static void
sw_price_bill_class_init (SwPriceBillClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  G_OBJECT_CLASS (class)->dispose = price_bill_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/soffitwright/Soffitwright/price-bill.ui");
  BIND (scope_drop_down);
  BIND (sum_label);
  BIND (notes_label);
  BIND (notes_expander);
  BIND (row_button);
  BIND (counted_label);
  BIND (column_view);
}
