/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/price_rooms.h"
#include "base/number.h"
#include "sheets/context.h"
#include "sheets/words.h"
#include "window/columns.h"
#include "window/compat.h"
#include <math.h>

struct _SwPriceRooms
{
  GtkWidget parent_instance;
  GtkColumnView *column_view;
  GtkGrid *sums_grid;
  SwDocument *document;
  SwPriceDesk *desk;
  GListStore *store; /* SwRowItem of Row */
  GtkSingleSelection *selection;
  SwId chosen;
  gboolean filling;
};

G_DEFINE_FINAL_TYPE (SwPriceRooms, sw_price_rooms, GTK_TYPE_WIDGET)

static guint chosen_signal;

/* What a row of the list stands for; prices are looked up when it is drawn. */
typedef struct
{
  SwPriceRooms *rooms;
  SwId id;
} Row;

static const SwRoom *
room_of (const Row *row)
{
  return (const SwRoom *) sw_job_get (sw_document_job (row->rooms->document), row->id);
}

static SwLengths
lengths_of (const Row *row)
{
  return sw_job_lengths (sw_document_job (row->rooms->document));
}

static const SwChoiceSide *
side_of (const Row *row, SwFinish finish)
{
  const SwRoomPrice *price = sw_price_desk_room (row->rooms->desk, row->id);
  int side = price != NULL ? sw_room_price_side (price, finish) : -1;
  return side >= 0 ? &price->choice->sides[side] : NULL;
}

/* ---- Columns ---- */

static char *
name_text (gconstpointer value, gpointer data)
{
  const SwRoom *room = room_of (value);
  return room == NULL ? g_strdup ("") : *room->name ? g_strdup_printf ("%s %s", room->record.tag, room->name) : g_strdup (room->record.tag);
}

static char *
finish_text (gconstpointer value, gpointer data)
{
  const SwRoom *room = room_of (value);
  return g_strdup (room != NULL ? sw_sheet_word (SW_TABLE_ROOM, "finish", room->finish) : "");
}

static char *
area_text (gconstpointer value, gpointer data)
{
  const Row *row = value;
  const SwRoomPrice *price = sw_price_desk_room (row->rooms->desk, row->id);
  char text[SW_LENGTH_BUF];
  return g_strdup (price != NULL ? sw_area_write (price->choice->plan_m2 * 1e6, lengths_of (row), 2, text) : "…");
}

/* A star says that lines without a price are missing in it. */
static char *
price_text (const Row *row, SwFinish finish)
{
  const SwChoiceSide *side = side_of (row, finish);
  char money[SW_MONEY_BUF];
  if (side == NULL)
    return g_strdup ("…");
  if (side->fault != NULL)
    return g_strdup (_("cannot be"));
  return g_strdup_printf ("%s%s", sw_money_write (side->quote->price, money), side->quote->unpriced > 0 ? " *" : "");
}

static const char *
price_mark (const Row *row, SwFinish finish)
{
  const SwChoiceSide *side = side_of (row, finish);
  if (side != NULL && (side->fault != NULL || side->quote->unpriced > 0))
    return "snag-fix";
  return sw_price_desk_room_is_stale (row->rooms->desk, row->id) ? "stale" : NULL;
}

static char *
closed_text (gconstpointer value, gpointer data)
{
  return price_text (value, SW_FINISH_CLOSED);
}

static char *
open_text (gconstpointer value, gpointer data)
{
  return price_text (value, SW_FINISH_EXPOSED);
}

static const char *
closed_mark (gconstpointer value, gpointer data)
{
  return price_mark (value, SW_FINISH_CLOSED);
}

static const char *
open_mark (gconstpointer value, gpointer data)
{
  return price_mark (value, SW_FINISH_EXPOSED);
}

static char *
saving_text (gconstpointer value, gpointer data)
{
  const SwChoiceSide *closed = side_of (value, SW_FINISH_CLOSED), *open = side_of (value, SW_FINISH_EXPOSED);
  char money[SW_MONEY_BUF];
  if (closed == NULL || open == NULL || closed->fault != NULL || open->fault != NULL)
    return g_strdup ("");
  return g_strdup (sw_money_write (closed->quote->price - open->quote->price, money));
}

static char *
height_text (const Row *row, SwFinish finish)
{
  const SwChoiceSide *side = side_of (row, finish);
  char number[SW_LENGTH_BUF];
  if (side == NULL)
    return g_strdup ("…");
  sw_length_write (side->head.height, lengths_of (row), SW_LENGTH_UNIT, 0, number);
  return side->head.known && !side->head.enough ? g_strdup_printf (_("%s low"), number) : g_strdup (number);
}

static const char *
height_mark (const Row *row, SwFinish finish)
{
  const SwChoiceSide *side = side_of (row, finish);
  return side != NULL && side->head.known && !side->head.enough ? "snag-stop" : NULL;
}

static char *
closed_height_text (gconstpointer value, gpointer data)
{
  return height_text (value, SW_FINISH_CLOSED);
}

static const char *
closed_height_mark (gconstpointer value, gpointer data)
{
  return height_mark (value, SW_FINISH_CLOSED);
}

static char *
open_height_text (gconstpointer value, gpointer data)
{
  return height_text (value, SW_FINISH_EXPOSED);
}

static const char *
open_height_mark (gconstpointer value, gpointer data)
{
  return height_mark (value, SW_FINISH_EXPOSED);
}

static const char *
stale_mark (gconstpointer value, gpointer data)
{
  const Row *row = value;
  return sw_price_desk_room_is_stale (row->rooms->desk, row->id) ? "stale" : NULL;
}

static const SwTextColumn columns[] = {
  { N_("Room"), FALSE, -13, name_text, NULL },
  { N_("Finish"), FALSE, 8, finish_text, NULL },
  { N_("Closed"), TRUE, 8, closed_text, closed_mark },
  { N_("Open"), TRUE, 8, open_text, open_mark },
  { N_("Saved"), TRUE, 8, saving_text, stale_mark },
  { N_("Height closed"), TRUE, 9, closed_height_text, closed_height_mark },
  { N_("Height open"), TRUE, 9, open_height_text, open_height_mark },
  { N_("Area"), TRUE, 8, area_text, stale_mark },
};

/* ---- Sums ---- */

typedef struct
{
  SwPriceSum chosen, closed, open;
  guint waiting; /* rooms without a price so far */
} Sums;

static Sums
find_sums (SwPriceRooms *rooms)
{
  Sums sums = { 0 };
  for (guint i = 0; i < g_list_model_get_n_items (G_LIST_MODEL (rooms->store)); i++)
    {
      g_autoptr (SwRowItem) item = g_list_model_get_item (G_LIST_MODEL (rooms->store), i);
      const Row *row = item->value;
      const SwRoom *room = room_of (row);
      const SwRoomPrice *price = sw_price_desk_room (rooms->desk, row->id);
      if (room == NULL || price == NULL)
        {
          sums.waiting++;
          continue;
        }
      sw_price_sum_add (&sums.chosen, price, (SwFinish) room->finish);
      sw_price_sum_add (&sums.closed, price, SW_FINISH_CLOSED);
      sw_price_sum_add (&sums.open, price, SW_FINISH_EXPOSED);
    }
  return sums;
}

static void
put_text (SwPriceRooms *rooms, int column, int line, const char *text, gboolean heading)
{
  GtkWidget *label = gtk_grid_get_child_at (rooms->sums_grid, column, line);
  if (label == NULL)
    {
      label = gtk_label_new (NULL);
      gtk_label_set_xalign (GTK_LABEL (label), column > 0 ? 1 : 0);
      gtk_label_set_wrap (GTK_LABEL (label), column == 0);
      gtk_widget_set_hexpand (label, column == 0);
      gtk_widget_add_css_class (label, heading ? "heading" : "numeric");
      gtk_grid_attach (rooms->sums_grid, label, column, line, 1, 1);
    }
  sw_compat_set_figure (GTK_LABEL (label), text);
}

static void
put_line (SwPriceRooms *rooms, int line, const char *title, const char *const *texts)
{
  put_text (rooms, 0, line, title, FALSE);
  for (int i = 0; i < 3; i++)
    put_text (rooms, i + 1, line, texts[i] != NULL ? texts[i] : "", FALSE);
}

typedef char *(*SumText) (const SwPriceSum *sum);

static char *
sum_price (const SwPriceSum *sum)
{
  char money[SW_MONEY_BUF];
  return g_strdup (sw_money_write (sum->price, money));
}

static char *
sum_total (const SwPriceSum *sum)
{
  char money[SW_MONEY_BUF];
  return g_strdup (sw_money_write (sum->total, money));
}

static char *
sum_priced (const SwPriceSum *sum)
{
  return g_strdup_printf (_("%u of %u"), sum->priced, sum->rooms);
}

static char *
sum_unpriced (const SwPriceSum *sum)
{
  return g_strdup_printf ("%u", sum->unpriced);
}

static char *
sum_high (const SwPriceSum *sum)
{
  return g_strdup_printf (_("%u of %u"), sum->high_enough, sum->judged);
}

static char *
sum_carbon (const SwPriceSum *sum)
{
  char number[SW_NUMBER_BUF];
  return g_strdup (sum->weighed > 0 ? sw_number_write_fixed (sum->carbon_kg, 1, number) : "");
}

static const struct
{
  const char *title; /* untranslated; %s: the currency */
  SumText text;
} sum_lines[] = {
  { N_("Ceilings, before tax, %s"), sum_price },   { N_("Ceilings, with tax, %s"), sum_total }, { N_("Rooms that can be so"), sum_priced },
  { N_("Lines without a price *"), sum_unpriced }, { N_("Rooms that are high enough"), sum_high }, { N_("Embodied carbon, kg"), sum_carbon },
};

/* Everything that the job takes, which only the finishes as chosen have. */
static void
show_whole (SwPriceRooms *rooms, int line, const char *currency)
{
  const SwJobPrice *job = sw_price_desk_job (rooms->desk);
  char price[SW_MONEY_BUF], total[SW_MONEY_BUF];
  g_autofree char *before = g_strdup_printf (_("Whole job with services, before tax, %s"), currency);
  g_autofree char *after = g_strdup_printf (_("Whole job with services, with tax, %s"), currency);
  if (job != NULL)
    {
      sw_money_write (job->whole->quote->price, price);
      sw_money_write (job->whole->quote->total, total);
    }
  put_line (rooms, line, before, (const char *[3]){ job != NULL ? price : "…" });
  put_line (rooms, line + 1, after, (const char *[3]){ job != NULL ? total : "…" });
}

static void
show_sums (SwPriceRooms *rooms)
{
  static const char *const heads[] = { "", N_("As chosen"), N_("All closed"), N_("All open") };
  const char *currency = sw_job_info (sw_document_job (rooms->document))->currency;
  Sums sums = find_sums (rooms);
  for (int i = 0; i < 4; i++)
    put_text (rooms, i, 0, sw_word (heads[i]), TRUE);
  for (gsize i = 0; i < G_N_ELEMENTS (sum_lines); i++)
    {
      g_autofree char *title = g_strdup_printf (sw_word (sum_lines[i].title), currency);
      g_autofree char *chosen = sum_lines[i].text (&sums.chosen), *closed = sum_lines[i].text (&sums.closed), *open = sum_lines[i].text (&sums.open);
      put_line (rooms, (int) i + 1, title, sums.waiting == 0 ? (const char *[3]){ chosen, closed, open } : (const char *[3]){ "…", "…", "…" });
    }
  show_whole (rooms, (int) G_N_ELEMENTS (sum_lines) + 1, currency);
}

/* ---- Filling ---- */

static void
refresh_rows (SwPriceRooms *rooms)
{
  for (guint i = 0; i < g_list_model_get_n_items (G_LIST_MODEL (rooms->store)); i++)
    {
      g_autoptr (SwRowItem) item = g_list_model_get_item (G_LIST_MODEL (rooms->store), i);
      sw_row_item_changed (item);
    }
}

static gboolean
same_rooms (SwPriceRooms *rooms, const GPtrArray *records)
{
  guint n = g_list_model_get_n_items (G_LIST_MODEL (rooms->store));
  for (guint i = 0; i < n && n == records->len; i++)
    {
      g_autoptr (SwRowItem) item = g_list_model_get_item (G_LIST_MODEL (rooms->store), i);
      if (((const Row *) item->value)->id != ((const SwRecord *) records->pdata[i])->id)
        return FALSE;
    }
  return n == records->len;
}

/* The room that was chosen stays so; without one the first is. */
static void
fill_store (SwPriceRooms *rooms, const GPtrArray *records)
{
  g_autoptr (GPtrArray) items = g_ptr_array_new_with_free_func (g_object_unref);
  guint selected = 0;
  for (guint i = 0; i < records->len; i++)
    {
      Row *row = g_new0 (Row, 1);
      row->rooms = rooms;
      row->id = ((const SwRecord *) records->pdata[i])->id;
      g_ptr_array_add (items, sw_row_item_new (row, g_free));
      if (row->id == rooms->chosen)
        selected = i;
    }
  rooms->filling = TRUE;
  g_list_store_splice (rooms->store, 0, g_list_model_get_n_items (G_LIST_MODEL (rooms->store)), items->pdata, items->len);
  gtk_single_selection_set_selected (rooms->selection, selected);
  rooms->filling = FALSE;
}

static void
on_selected (SwPriceRooms *rooms)
{
  SwRowItem *item = gtk_single_selection_get_selected_item (rooms->selection);
  SwId id = item != NULL ? ((const Row *) item->value)->id : 0;
  if (rooms->filling || id == rooms->chosen)
    return;
  rooms->chosen = id;
  sw_price_desk_look_at (rooms->desk, id);
  g_signal_emit (rooms, chosen_signal, 0, id);
}

static void
on_asked (SwPriceRooms *rooms)
{
  g_autoptr (GPtrArray) records = sw_sheet_records (sw_document_job (rooms->document), SW_TABLE_ROOM);
  if (same_rooms (rooms, records))
    refresh_rows (rooms);
  else
    fill_store (rooms, records);
  on_selected (rooms);
  show_sums (rooms);
}

static void
on_room (SwPriceRooms *rooms, gint64 room)
{
  for (guint i = 0; i < g_list_model_get_n_items (G_LIST_MODEL (rooms->store)); i++)
    {
      g_autoptr (SwRowItem) item = g_list_model_get_item (G_LIST_MODEL (rooms->store), i);
      if (((const Row *) item->value)->id == room)
        sw_row_item_changed (item);
    }
}

void
sw_price_rooms_set_document (SwPriceRooms *rooms, SwDocument *document)
{
  rooms->document = g_object_ref (document);
  rooms->desk = sw_price_desk_of (document);
  g_signal_connect_object (rooms->desk, "asked", G_CALLBACK (on_asked), rooms, G_CONNECT_SWAPPED);
  g_signal_connect_object (rooms->desk, "room", G_CALLBACK (on_room), rooms, G_CONNECT_SWAPPED);
  g_signal_connect_object (rooms->desk, "job", G_CALLBACK (show_sums), rooms, G_CONNECT_SWAPPED);
  on_asked (rooms);
}

SwId
sw_price_rooms_chosen (SwPriceRooms *rooms)
{
  return rooms->chosen;
}

static void
sw_price_rooms_init (SwPriceRooms *rooms)
{
  gtk_widget_init_template (GTK_WIDGET (rooms));
  rooms->store = g_list_store_new (SW_TYPE_ROW_ITEM);
  rooms->selection = gtk_single_selection_new (G_LIST_MODEL (g_object_ref (rooms->store)));
  sw_columns_name (rooms->column_view, _("Rooms and what each finish costs"));
  sw_columns_add (rooms->column_view, columns, G_N_ELEMENTS (columns), rooms);
  gtk_column_view_set_model (rooms->column_view, GTK_SELECTION_MODEL (rooms->selection));
  g_signal_connect_swapped (rooms->selection, "notify::selected-item", G_CALLBACK (on_selected), rooms);
}

static void
price_rooms_dispose (GObject *object)
{
  SwPriceRooms *rooms = SW_PRICE_ROOMS (object);
  GtkWidget *child;
  if (rooms->selection != NULL)
    g_signal_handlers_disconnect_by_data (rooms->selection, rooms);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (rooms))) != NULL)
    gtk_widget_unparent (child);
  g_clear_object (&rooms->selection);
  g_clear_object (&rooms->store);
  g_clear_object (&rooms->document);
  G_OBJECT_CLASS (sw_price_rooms_parent_class)->dispose (object);
}

static void
sw_price_rooms_class_init (SwPriceRoomsClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  G_OBJECT_CLASS (class)->dispose = price_rooms_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/soffitwright/Soffitwright/price-rooms.ui");
  gtk_widget_class_bind_template_child (widget_class, SwPriceRooms, column_view);
  gtk_widget_class_bind_template_child (widget_class, SwPriceRooms, sums_grid);
  chosen_signal = g_signal_new ("chosen", SW_TYPE_PRICE_ROOMS, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_INT64);
}
