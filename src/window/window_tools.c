/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The list of the site's steps, the tools of the step, what is typed, and the line under the plan. */
#include "window/window_private.h"
#include "base/number.h"
#include "geometry/outline.h"
#include "sheets/words.h"
#include <string.h>

#define FRONT(layer) SW_LAYER_BIT (SW_LAYER_##layer)

static const SwSiteRow sites[SW_N_SITES] = {
  [SW_SITE_MEASURE] = { "measure", N_("Measure"), FRONT (ROOMS) | FRONT (MEASURES) | FRONT (DECK) },
  [SW_SITE_DECK] = { "deck", N_("Deck"), FRONT (DECK) },
  [SW_SITE_PIPES] = { "pipes", N_("Pipes"), FRONT (PIPES) },
  [SW_SITE_CONDUITS] = { "conduits", N_("Conduits"), FRONT (CONDUITS) },
  [SW_SITE_LIGHTS] = { "lights", N_("Lights"), FRONT (LIGHTS) },
  [SW_SITE_BRANDERING] = { "brandering", N_("Brandering"), FRONT (BATTENS), FRONT (ROOMS) },
  [SW_SITE_BOARDS] = { "boards", N_("Boards"), FRONT (BOARDS), FRONT (ROOMS) },
  [SW_SITE_PRICE] = { "price", N_("Price"), FRONT (ROOMS) },
};
/* Never faded. */
#define ALWAYS (FRONT (SNAGS) | FRONT (GRID) | FRONT (HATCHES))

const SwSiteRow *
sw_site_row (SwSite site)
{
  return &sites[site];
}

static SwBoard *
board_of (SwWindow *window)
{
  return window->document != NULL ? sw_document_board (window->document) : NULL;
}

/* ---- Site ---- */

static void
on_site_selected (GtkListBox *list, GtkListBoxRow *row, SwWindow *window)
{
  if (row != NULL)
    sw_window_set_site (window, (SwSite) gtk_list_box_row_get_index (row));
}

static void
fill_site_list (SwWindow *window)
{
  for (int i = 0; i < SW_N_SITES; i++)
    {
      GtkWidget *label = gtk_label_new (sw_word (sites[i].label)), *row = gtk_list_box_row_new ();
      g_autofree char *tip = g_strdup_printf (_("Control and %d"), i + 1);
      gtk_label_set_xalign (GTK_LABEL (label), 0);
      gtk_list_box_row_set_child (GTK_LIST_BOX_ROW (row), label);
      gtk_widget_set_tooltip_text (row, tip);
      gtk_accessible_update_property (GTK_ACCESSIBLE (row), GTK_ACCESSIBLE_PROPERTY_LABEL, sw_word (sites[i].label), -1);
      gtk_list_box_append (window->site_list, row);
    }
}

static void
clear_box (GtkBox *box)
{
  GtkWidget *child;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (box))) != NULL)
    gtk_box_remove (box, child);
}

static void
add_tool (SwWindow *window, const SwToolRow *row, GtkWidget **group)
{
  GtkWidget *button = gtk_toggle_button_new_with_label (sw_word (row->label));
  g_autofree char *tip = row->key != 0 ? g_strdup_printf (g_ascii_isupper (row->key) ? "%s (Shift %c)" : "%s (%c)", sw_word (row->hint), g_ascii_toupper (row->key)) : g_strdup (sw_word (row->hint));
  gtk_widget_set_tooltip_text (button, tip);
  gtk_button_set_has_frame (GTK_BUTTON (button), FALSE);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "win.tool");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "s", row->id);
  gtk_widget_set_focus_on_click (button, FALSE);
  g_object_set_data (G_OBJECT (button), "tool", (gpointer) row);
  if (*group != NULL)
    gtk_toggle_button_set_group (GTK_TOGGLE_BUTTON (button), GTK_TOGGLE_BUTTON (*group));
  else
    *group = button;
  gtk_box_append (window->tool_box, button);
}

/* How outlines are drawn; shown while a tool that draws them is in hand. */
static void
add_corners_check (SwWindow *window)
{
  window->corners_check = gtk_check_button_new_with_label (_("Corners one by one"));
  gtk_widget_set_tooltip_text (window->corners_check, _("For outlines that are no rectangles: click each corner, then the first one again (Shift O)"));
  gtk_actionable_set_action_name (GTK_ACTIONABLE (window->corners_check), "win.polygons");
  gtk_widget_set_focus_on_click (window->corners_check, FALSE);
  gtk_widget_set_visible (window->corners_check, FALSE);
  gtk_box_append (window->tool_box, window->corners_check);
}

/* Buttons of a step that do something at once. */
static void
add_step_action (SwWindow *window, const char *label, const char *tip, const char *action)
{
  GtkWidget *button = gtk_button_new_with_label (label);
  gtk_widget_set_tooltip_text (button, tip);
  gtk_button_set_has_frame (GTK_BUTTON (button), FALSE);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), action);
  gtk_widget_set_focus_on_click (button, FALSE);
  gtk_box_append (window->tool_box, button);
}

static void
add_step_actions (SwWindow *window)
{
  if (window->site == SW_SITE_BRANDERING || window->site == SW_SITE_BOARDS)
    add_step_action (window, window->laying_out != NULL ? _("Stop laying out") : _("Lay out"),
                     _("Battens and boards for the picked rooms, or for every room with a closed ceiling"), "win.lay-out");
  if (window->site == SW_SITE_BOARDS)
    add_step_action (window, _("Side by side…"), _("Ways of boarding a room with cost, sheets, joints and waste, to take one (Control and B)"), "win.layouts");
  if (window->site == SW_SITE_PRICE)
    add_step_action (window, _("Price and choice…"), _("What each room costs closed and open, quantities, price lists"), "win.price");
  add_step_action (window, _("Calculations…"), _("One question, its answer and its working"), "win.ask");
  if (window->site == SW_SITE_PRICE)
    add_step_action (window, _("Rules…"), _("Every number behind checks and prices, its source, and what this job changed"), "win.rules");
  if (window->site == SW_SITE_PRICE)
    add_step_action (window, _("Sheets and schedules…"), _("See, export and print them"), "win.export");
}

void
sw_window_fill_tools (SwWindow *window)
{
  GtkWidget *group = NULL;
  clear_box (window->tool_box);
  for (guint i = 0; i < sw_board_n_tools (); i++)
    if ((sw_board_tool_row (i)->sites & SW_SITE_BIT (window->site)) != 0)
      add_tool (window, sw_board_tool_row (i), &group);
  add_corners_check (window);
  add_step_actions (window);
}

static gboolean
tool_is_offered (SwWindow *window)
{
  SwBoard *board = board_of (window);
  return board == NULL || (sw_board_tool (board)->sites & SW_SITE_BIT (window->site)) != 0;
}

/* The job is priced after each edit only while somebody looks. */
static void
watch_price (SwWindow *window)
{
  SwPriceDesk *desk = window->site == SW_SITE_PRICE && window->document != NULL ? sw_price_desk_of (window->document) : NULL;
  if (desk == window->price_desk)
    return;
  if (window->price_desk != NULL)
    g_signal_handler_disconnect (window->price_desk, window->price_watch);
  g_set_object (&window->price_desk, desk);
  if (desk == NULL)
    return;
  window->price_watch = g_signal_connect_swapped (desk, "job", G_CALLBACK (sw_window_update_totals), window);
  sw_price_desk_refresh (desk);
}

void
sw_window_set_site (SwWindow *window, SwSite site)
{
  window->site = CLAMP (site, 0, SW_N_SITES - 1);
  sw_plan_view_set_layers (window->plan_view, 0, SW_LAYERS_ALL & ~(sites[window->site].front | sites[window->site].beside | ALWAYS));
  sw_window_fill_tools (window);
  if (!tool_is_offered (window))
    sw_board_use (board_of (window), "pick");
  gtk_list_box_select_row (window->site_list, gtk_list_box_get_row_at_index (window->site_list, (int) window->site));
  watch_price (window);
  sw_window_update_tools (window);
  sw_window_update_totals (window);
}

void
sw_window_follow_tool (SwWindow *window)
{
  if (tool_is_offered (window))
    return;
  guint steps = sw_board_tool (board_of (window))->sites;
  for (int i = 0; i < SW_N_SITES; i++)
    if ((steps & SW_SITE_BIT (i)) != 0)
      {
        sw_window_set_site (window, i);
        return;
      }
}

/* ---- Typed ---- */

static void
add_typed (SwWindow *window, const SwTyped *typed, int field)
{
  GtkWidget *label = gtk_label_new (NULL);
  g_autofree char *text = g_strdup_printf ("%s %s%s", sw_word (sw_typed_label (field)), typed->text[field], typed->active == field ? "▏" : "");
  gtk_label_set_text (GTK_LABEL (label), text);
  gtk_widget_add_css_class (label, "numeric");
  if (typed->active == field)
    gtk_widget_add_css_class (label, "active");
  gtk_box_append (window->typed_box, label);
}

static void
show_typed (SwWindow *window)
{
  const SwTyped *typed = board_of (window) != NULL ? sw_board_typed (board_of (window)) : NULL;
  gboolean shown = typed != NULL && typed->active >= 0;
  clear_box (window->typed_box);
  for (int i = 0; shown && i < SW_N_TYPED; i++)
    if ((typed->offered & SW_TYPED_BIT (i)) != 0)
      add_typed (window, typed, i);
  gtk_widget_set_visible (GTK_WIDGET (window->typed_box), shown);
}

void
sw_window_update_tools (SwWindow *window)
{
  SwBoard *board = board_of (window);
  const SwToolRow *tool = board != NULL ? sw_board_tool (board) : NULL;
  for (GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (window->tool_box)); child != NULL; child = gtk_widget_get_next_sibling (child))
    if (GTK_IS_TOGGLE_BUTTON (child))
      gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (child), g_object_get_data (G_OBJECT (child), "tool") == tool);
  gtk_widget_set_visible (window->corners_check, tool != NULL && tool->outlines);
  show_typed (window);
  sw_window_update_status (window);
}

/* ---- Status ---- */

static char *
address_words (const SwDeck *deck, SwPoint at, SwLengths lengths)
{
  SwAddress address = sw_deck_address (deck, at);
  g_autoptr (GString) text = g_string_new (NULL);
  char number[SW_LENGTH_BUF];
  if (address.bay == NULL)
    return g_strdup (_("outside the deck"));
  const SwBay *bay = address.bay->bay;
  g_string_append (text, *bay->name ? bay->name : bay->record.tag);
  if (address.over_void)
    g_string_append_printf (text, _(", void %d"), address.void_number);
  else
    g_string_append_printf (text, _(", rib %d"), address.rib_number);
  if (address.over_void && address.has_plate)
    g_string_append_printf (text, _(", %s past plate %d"), sw_length_write (address.past_plate, lengths, SW_LENGTH_BARE, 0, number), address.plate_number);
  if (address.grid != NULL)
    g_string_append_printf (text, _(", %s from %s"), sw_length_write_far (address.from_grid, lengths, 2, number), address.grid->record.tag);
  return g_strdup (text->str);
}

static char *
place_words (SwWindow *window)
{
  SwBoard *board = board_of (window);
  const SwPicture *picture = board != NULL ? sw_board_picture (board) : NULL;
  SwPoint at;
  char x[SW_LENGTH_BUF], y[SW_LENGTH_BUF];
  if (picture == NULL || !sw_board_has_cursor (board, &at))
    return g_strdup ("");
  g_autofree char *address = address_words (picture->deck, at, sw_job_lengths (sw_board_job (board)));
  return g_strdup_printf ("%s   x %s  y %s", address, sw_board_length (board, at.x, SW_LENGTH_BARE, x), sw_board_length (board, at.y, SW_LENGTH_BARE, y));
}

void
sw_window_update_status (SwWindow *window)
{
  SwBoard *board = board_of (window);
  const char *says = board != NULL ? sw_board_says (board) : NULL;
  g_autofree char *place = place_words (window);
  g_autofree char *scale = g_strdup_printf ("1:%.0f", SW_SCREEN_PX_PER_MM / sw_canvas_view (SW_CANVAS (window->plan_view))->zoom);
  gtk_label_set_text (window->hint_label, says != NULL ? says : board != NULL ? sw_word (sw_board_tool (board)->hint) : "");
  gtk_label_set_text (window->place_label, place);
  gtk_label_set_text (window->scale_label, scale);
}

/* ---- Totals ---- */

static void
add_total (SwWindow *window, int row, const char *name, char *figure)
{
  GtkWidget *left = gtk_label_new (name), *right = gtk_label_new (figure);
  gtk_label_set_xalign (GTK_LABEL (left), 0);
  gtk_label_set_xalign (GTK_LABEL (right), 1);
  gtk_label_set_yalign (GTK_LABEL (right), 0);
  gtk_label_set_wrap (GTK_LABEL (left), TRUE);
  gtk_widget_set_hexpand (left, TRUE);
  gtk_widget_add_css_class (right, "figure");
  gtk_grid_attach (window->totals_grid, left, 0, row, 1, 1);
  gtk_grid_attach (window->totals_grid, right, 1, row, 1, 1);
  g_free (figure);
}

static char *
count_text (SwJob *job, SwTable table)
{
  return g_strdup_printf ("%u", sw_job_count (job, table));
}

static char *
area_text (SwJob *job, SwTable table)
{
  const SwField *field = sw_struct_field (&sw_type_get (table)->body, "outline");
  const SwRecord *record;
  char text[SW_LENGTH_BUF];
  double sum = 0;
  for (SwJobIter i = sw_job_iter (job, table); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwList *outline = &SW_AT (record, field, SwList);
      sum += fabs (sw_outline_area (outline->items, outline->n));
    }
  return g_strdup (sw_area_write (sum, sw_job_lengths (job), 1, text));
}

/* mm of runs of one service, as drawn in plan. */
static double
service_mm (SwJob *job, int service)
{
  const SwRecord *record;
  double sum = 0;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_RUN); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwRun *run = (const SwRun *) record;
      for (guint v = 0; run->service == service && v + 1 < run->vertices.n; v++)
        sum += sw_point_distance (SW_LIST_AT (run->vertices, SwVertex, v).at, SW_LIST_AT (run->vertices, SwVertex, v + 1).at);
    }
  return sum;
}

static char *
sum_text (SwJob *job, double mm)
{
  char text[SW_LENGTH_BUF];
  return g_strdup (sw_length_write_sum (mm, sw_job_lengths (job), 1, text));
}

static int
add_services (SwWindow *window, SwJob *job, SwLayer layer, int row)
{
  const SwField *field = sw_struct_field (&sw_type_get (SW_TABLE_RUN)->body, "service");
  for (int s = 0; s < SW_N_SERVICES; s++)
    {
      SwRun probe = { .record = { .id = SW_ID (SW_TABLE_RUN, 1) }, .service = s };
      double mm = service_mm (job, s);
      if (mm > 0 && sw_plan_layer_of (job, &probe.record) == layer)
        add_total (window, row++, sw_word (field->words[s].label), sum_text (job, mm));
    }
  return row;
}

/* Rooms whose layout the job has left behind. */
static guint
n_stale (SwWindow *window)
{
  const SwPicture *picture = sw_document_picture (window->document);
  guint n = 0;
  for (guint i = 0; picture != NULL && picture->snags != NULL && i < sw_snags_n (picture->snags); i++)
    {
      const SwSnag *snag = sw_snags_get (picture->snags, i);
      n += strcmp (snag->rule, "ceiling-layout") == 0 && strcmp (snag->variant, "stale") == 0;
    }
  return n;
}

static int
add_layout_totals (SwWindow *window, SwJob *job, int row)
{
  const SwRecord *record;
  double battens = 0;
  guint pieces = 0;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_LAYOUT); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwLayout *layout = (const SwLayout *) record;
      for (guint m = 0; m < layout->members.n; m++)
        battens += sw_point_distance (SW_LIST_AT (layout->members, SwMember, m).from, SW_LIST_AT (layout->members, SwMember, m).to);
      pieces += layout->pieces.n + layout->faces.n;
    }
  guint stale = n_stale (window);
  add_total (window, row++, _("Rooms laid out"), count_text (job, SW_TABLE_LAYOUT));
  if (stale > 0)
    add_total (window, row++, _("To lay out again"), g_strdup_printf ("%u", stale));
  add_total (window, row++, _("Battens"), sum_text (job, battens));
  add_total (window, row++, _("Board pieces"), g_strdup_printf ("%u", pieces));
  return row;
}

/* As the page of prices has them. */
static int
add_price_totals (SwWindow *window, int row)
{
  const SwJobPrice *job = sw_price_desk_job (window->price_desk);
  const SwQuote *quote = job != NULL ? job->whole->quote : NULL;
  const struct { const char *name; SwMoney money; } sums[] = {
    { _("Material"), quote != NULL ? quote->material : 0 },
    { _("Labour"), quote != NULL ? quote->labour : 0 },
    { _("With markup"), quote != NULL ? quote->price : 0 },
    { _("With tax"), quote != NULL ? quote->total : 0 },
  };
  char money[SW_MONEY_BUF];
  for (gsize i = 0; i < G_N_ELEMENTS (sums); i++)
    add_total (window, row++, sums[i].name, g_strdup (quote != NULL ? sw_money_write (sums[i].money, money) : "…"));
  if (quote != NULL && quote->unpriced > 0)
    add_total (window, row++, _("Lines without a price"), g_strdup_printf ("%u", quote->unpriced));
  return row;
}

void
sw_window_update_totals (SwWindow *window)
{
  GtkWidget *child;
  int row = 0;
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (window->totals_grid))) != NULL)
    gtk_grid_remove (window->totals_grid, child);
  if (window->document == NULL)
    return;
  SwJob *job = sw_document_job (window->document);
  switch (window->site)
    {
    case SW_SITE_MEASURE:
      add_total (window, row++, _("Rooms"), count_text (job, SW_TABLE_ROOM));
      add_total (window, row++, _("Room area"), area_text (job, SW_TABLE_ROOM));
      add_total (window, row++, _("Measured values"), count_text (job, SW_TABLE_MEASURE));
      break;
    case SW_SITE_DECK:
      add_total (window, row++, _("Bays"), count_text (job, SW_TABLE_BAY));
      add_total (window, row++, _("Deck area"), area_text (job, SW_TABLE_BAY));
      break;
    case SW_SITE_PIPES:
      row = add_services (window, job, SW_LAYER_PIPES, row);
      add_total (window, row++, _("Drop-ins"), count_text (job, SW_TABLE_DROP_IN));
      break;
    case SW_SITE_CONDUITS:
      row = add_services (window, job, SW_LAYER_CONDUITS, row);
      add_total (window, row++, _("Drops"), count_text (job, SW_TABLE_DROP));
      break;
    case SW_SITE_LIGHTS:
      add_total (window, row++, _("Downlights"), count_text (job, SW_TABLE_LIGHT));
      break;
    case SW_SITE_PRICE:
      row = window->price_desk != NULL ? add_price_totals (window, row) : row;
      break;
    default:
      add_layout_totals (window, job, row);
      break;
    }
}

void
sw_window_init_tools (SwWindow *window)
{
  fill_site_list (window);
  g_signal_connect (window->site_list, "row-selected", G_CALLBACK (on_site_selected), window);
}
