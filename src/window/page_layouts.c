/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The cards come from a thread: what the job has and a first alternative at once, all of them when the search is through. Any change
 * of the job asks again; until then the cards are grey and cannot be taken. */
#include "window/page_layouts.h"
#include "sheets/context.h"
#include "sheets/words.h"
#include "base/number.h"
#include "ceiling/layout.h"
#include "window/compat.h"
#include "window/layout_picture.h"
#include "window/record_choice.h"
#include "window/tools/layouts.h"

struct _SwPageLayouts
{
  GtkWindow parent_instance;
  GtkLabel *job_label, *message_label, *locked_label;
  GtkDropDown *room_drop_down;
  GtkCheckButton *direction_check;
  GtkSpinner *busy_spinner;
  GtkFlowBox *cards_box;
  GtkWidget *locked_box;
  SwDocument *document;
  GSignalGroup *signals;
  SwLayouts *layouts;
  SwRecordChoice choice; /* of the room */
  SwId room;
  guint64 asked;
};

G_DEFINE_FINAL_TYPE (SwPageLayouts, sw_page_layouts, GTK_TYPE_WINDOW)

static void
say (SwPageLayouts *page, const char *text)
{
  gtk_label_set_text (page->message_label, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (page->message_label), text != NULL);
}

/* ---- Cards ---- */

static char *
mm_text (double mm, SwLengths in)
{
  char text[SW_LENGTH_BUF];
  return g_strdup (sw_length_write (mm, in, SW_LENGTH_UNIT, 0, text));
}

static char *
metres_text (double m, SwLengths in)
{
  char text[SW_LENGTH_BUF];
  return g_strdup (sw_length_write_sum (m * 1e3, in, 2, text));
}

static void
add_figure (GtkGrid *grid, int row, const char *name, char *figure, const char *style)
{
  GtkWidget *left = gtk_label_new (name), *right = gtk_label_new (figure);
  gtk_label_set_xalign (GTK_LABEL (left), 0);
  gtk_label_set_xalign (GTK_LABEL (right), 1);
  gtk_label_set_wrap (GTK_LABEL (right), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (right), 24);
  gtk_widget_set_hexpand (left, TRUE);
  gtk_widget_set_valign (left, GTK_ALIGN_START);
  gtk_widget_add_css_class (right, style != NULL ? style : "figure");
  gtk_grid_attach (grid, left, 0, row, 1, 1);
  gtk_grid_attach (grid, right, 1, row, 1, 1);
  g_free (figure);
}

static char *
cost_text (SwPageLayouts *page, const SwLayoutCard *card)
{
  char money[SW_MONEY_BUF];
  const char *currency = sw_job_info (sw_document_job (page->document))->currency;
  return card->priced ? g_strdup_printf ("%s %s", currency, sw_money_write (card->cost, money)) : g_strdup (_("no prices"));
}

static GtkWidget *
figures_of (SwPageLayouts *page, const SwLayoutCard *card)
{
  GtkGrid *grid = GTK_GRID (gtk_grid_new ());
  SwLengths in = sw_job_lengths (sw_document_job (page->document));
  char waste[SW_LENGTH_BUF], percent[SW_NUMBER_BUF];
  int row = 0;
  gtk_grid_set_column_spacing (grid, 12);
  gtk_widget_add_css_class (GTK_WIDGET (grid), "totals");
  add_figure (grid, row++, _("Boards, battens, joints"), cost_text (page, card), NULL);
  add_figure (grid, row++, _("Sheets"), g_strdup_printf ("%u", card->n_sheets), NULL);
  add_figure (grid, row++, "", g_strdup (card->sheets), "dim-label");
  add_figure (grid, row++, _("Joints"), metres_text (card->joint_m, in), NULL);
  add_figure (grid, row++, _("Waste"), g_strdup_printf (_("%s (%s %%)"), sw_area_write (card->waste_m2 * 1e6, in, 2, waste),
                                                        sw_number_write_fixed (card->waste_percent, 1, percent)), NULL);
  add_figure (grid, row++, _("Battens"), metres_text (card->batten_m, in), NULL);
  add_figure (grid, row++, _("Smallest piece"), mm_text (card->smallest_mm, in), NULL);
  add_figure (grid, row++, _("Long side"), g_strdup (card->turned ? _("along the battens") : _("across the battens")), NULL);
  add_figure (grid, row++, _("Battens run"), g_strdup (card->along ? _("along the ribs") : _("across the ribs")), NULL);
  if (card->shift_mm > 0)
    add_figure (grid, row++, _("Battens shifted"), mm_text (card->shift_mm, in), NULL);
  if (card->cuts > 0)
    add_figure (grid, row++, _("Lights over battens"), g_strdup_printf ("%u", card->cuts), "snag-stop");
  if (card->faults > 0)
    add_figure (grid, row++, _("End joints off battens or too close"), g_strdup_printf ("%u", card->faults), "snag-fix");
  if (card->slivers > 0)
    add_figure (grid, row++, _("Slivers"), g_strdup_printf ("%u", card->slivers), "snag-fix");
  return GTK_WIDGET (grid);
}

static void
on_take (GtkButton *button, SwPageLayouts *page)
{
  const SwLayoutCard *card = g_object_get_data (G_OBJECT (button), "card");
  if (page->asked != sw_desk_generation (sw_document_desk (page->document)) + 1)
    return; /* the job has changed: new cards are on their way */
  if (!sw_document_do (page->document, sw_edit_ref (card->edit)))
    say (page, sw_document_fault (page->document));
}

static GtkWidget *
take_button (SwPageLayouts *page, SwLayoutCard *card, const char *title)
{
  GtkWidget *button = gtk_button_new_with_label (_("Use this"));
  g_autofree char *name = g_strdup_printf (_("Use this: %s"), title);
  gtk_accessible_update_property (GTK_ACCESSIBLE (button), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  gtk_widget_set_halign (button, GTK_ALIGN_END);
  gtk_widget_set_sensitive (button, !sw_document_is_read_only (page->document));
  g_atomic_ref_count_inc (&card->refs);
  g_object_set_data_full (G_OBJECT (button), "card", card, (GDestroyNotify) sw_layout_card_unref);
  g_signal_connect_object (button, "clicked", G_CALLBACK (on_take), page, 0);
  return button;
}

static GtkWidget *
card_widget (SwPageLayouts *page, const SwLayoutsNews *news, guint i)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6), *label, *picture, *spring = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  SwLayoutCard *card = news->cards->pdata[i];
  g_autofree char *title = i >= news->n_own         ? g_strdup_printf (_("Alternative %u"), card->number)
                           : news->own_number > 0 ? g_strdup_printf (_("As the job has it: alternative %u"), news->own_number)
                                                  : g_strdup (_("As the job has it"));
  g_autofree char *name = g_strdup_printf (_("Boards: %s"), title);
  label = gtk_label_new (title);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (label, "heading");
  picture = sw_layout_picture_new (card->display, card->box, name);
  gtk_box_append (GTK_BOX (box), label);
  gtk_box_append (GTK_BOX (box), picture);
  gtk_box_append (GTK_BOX (box), figures_of (page, card));
  gtk_widget_set_vexpand (spring, TRUE);
  gtk_box_append (GTK_BOX (box), spring);
  if (card->edit != NULL && !sw_edit_is_empty (card->edit))
    gtk_box_append (GTK_BOX (box), take_button (page, card, title));
  gtk_widget_add_css_class (box, "layout-card");
  return box;
}

static void
clear_cards (SwPageLayouts *page)
{
  GtkWidget *child, *focus = gtk_window_get_focus (GTK_WINDOW (page));
  if (focus != NULL && gtk_widget_is_ancestor (focus, GTK_WIDGET (page->cards_box)))
    gtk_widget_grab_focus (GTK_WIDGET (page->room_drop_down)); /* without a focus the page would hear no keys */
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (page->cards_box))) != NULL)
    gtk_flow_box_remove (page->cards_box, child);
}

static void
fill_cards (SwPageLayouts *page, const SwLayoutsNews *news)
{
  clear_cards (page);
  for (guint i = 0; i < news->cards->len; i++)
    {
      GtkWidget *child = gtk_flow_box_child_new ();
      gtk_flow_box_child_set_child (GTK_FLOW_BOX_CHILD (child), card_widget (page, news, i));
      gtk_widget_set_focusable (child, FALSE);
      gtk_flow_box_append (page->cards_box, child);
    }
  gtk_widget_remove_css_class (GTK_WIDGET (page->cards_box), "stale");
}

static void
show_locked (SwPageLayouts *page, guint n)
{
  g_autofree char *text = g_strdup_printf (_("Pieces that stay where they are: %u"), n);
  gtk_label_set_text (page->locked_label, text);
  gtk_widget_set_visible (page->locked_box, n > 0);
}

static void
on_news (const SwLayoutsNews *news, gpointer data)
{
  SwPageLayouts *page = data;
  say (page, news->fault != NULL ? news->fault->message : NULL);
  show_locked (page, news->n_locked);
  fill_cards (page, news);
  gtk_spinner_set_spinning (page->busy_spinner, !news->done);
}

/* ---- Asking ---- */

static void
ask (SwPageLayouts *page)
{
  page->asked = sw_desk_generation (sw_document_desk (page->document)) + 1;
  if (page->room == 0)
    {
      clear_cards (page);
      say (page, _("No room here has a closed ceiling: choose its finish first."));
      return;
    }
  gtk_widget_add_css_class (GTK_WIDGET (page->cards_box), "stale");
  gtk_spinner_set_spinning (page->busy_spinner, TRUE);
  sw_layouts_ask (page->layouts, sw_document_job (page->document), page->asked, page->room, !gtk_check_button_get_active (page->direction_check));
}

static gboolean
is_closed (const SwRecord *record)
{
  return ((const SwRoom *) record)->finish == SW_FINISH_CLOSED;
}

/* The shown room stays when it is among those with a closed ceiling. */
static void
fill_rooms (SwPageLayouts *page, SwId wanted)
{
  static const SwTable tables[] = { SW_TABLE_ROOM, SW_N_TABLES };
  sw_record_choice_fill (&page->choice, sw_document_job (page->document), tables, is_closed, wanted);
  page->room = sw_record_choice_now (&page->choice);
}

static void
on_room (SwPageLayouts *page)
{
  if (page->choice.filling || sw_record_choice_now (&page->choice) == 0)
    return;
  page->room = sw_record_choice_now (&page->choice);
  clear_cards (page);
  ask (page);
}

static void
on_direction (GtkCheckButton *check, SwPageLayouts *page)
{
  if (page->document != NULL)
    ask (page);
}

void
sw_page_layouts_show (SwPageLayouts *page, SwId room)
{
  fill_rooms (page, room != 0 ? room : page->room);
  ask (page);
}

/* ---- Actions ---- */

static void
on_release (GtkButton *button, SwPageLayouts *page)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwEdit) edit = sw_edit_new (_("Let all sheets go"));
  if (!sw_lay_lock (sw_document_job (page->document), page->room, NULL, 0, FALSE, edit, &error))
    say (page, error->message);
  else
    sw_document_do (page->document, g_steal_pointer (&edit));
}

static void
act_undo (GtkWidget *widget, const char *name, GVariant *parameter)
{
  sw_document_undo (SW_PAGE_LAYOUTS (widget)->document);
}

static void
act_redo (GtkWidget *widget, const char *name, GVariant *parameter)
{
  sw_document_redo (SW_PAGE_LAYOUTS (widget)->document);
}

static void
update_actions (SwPageLayouts *page)
{
  SwDesk *desk = sw_document_desk (page->document);
  gtk_widget_action_set_enabled (GTK_WIDGET (page), "layouts.undo", sw_desk_can_undo (desk));
  gtk_widget_action_set_enabled (GTK_WIDGET (page), "layouts.redo", sw_desk_can_redo (desk));
  gtk_widget_set_sensitive (page->locked_box, !sw_document_is_read_only (page->document));
}

static void
on_changed (SwPageLayouts *page)
{
  update_actions (page);
  sw_page_layouts_show (page, 0);
}

static void
on_title (SwPageLayouts *page)
{
  g_autofree char *title = NULL;
  g_object_get (page->document, "title", &title, NULL);
  gtk_label_set_text (page->job_label, title);
}

/* ---- Page ---- */

SwPageLayouts *
sw_page_layouts_new (GtkWindow *parent, SwDocument *document)
{
  SwPageLayouts *page = g_object_new (SW_TYPE_PAGE_LAYOUTS, "transient-for", parent, NULL);
  page->document = g_object_ref (document);
  page->signals = g_signal_group_new (SW_TYPE_DOCUMENT);
  g_signal_group_connect_swapped (page->signals, "changed", G_CALLBACK (on_changed), page);
  g_signal_group_connect_swapped (page->signals, "notify::title", G_CALLBACK (on_title), page);
  g_signal_group_set_target (page->signals, document);
  on_title (page);
  update_actions (page);
  return page;
}

static void
sw_page_layouts_init (SwPageLayouts *page)
{
  gtk_widget_init_template (GTK_WIDGET (page));
  sw_record_choice_init (&page->choice, page->room_drop_down, _("Room"));
  page->layouts = sw_layouts_new (on_news, page);
  g_signal_connect_swapped (page->room_drop_down, "notify::selected", G_CALLBACK (on_room), page);
}

static void
page_layouts_dispose (GObject *object)
{
  SwPageLayouts *page = SW_PAGE_LAYOUTS (object);
  g_clear_pointer (&page->layouts, sw_layouts_free);
  sw_record_choice_clear (&page->choice);
  g_clear_object (&page->signals);
  g_clear_object (&page->document);
  G_OBJECT_CLASS (sw_page_layouts_parent_class)->dispose (object);
}

#define BIND(member) gtk_widget_class_bind_template_child (widget_class, SwPageLayouts, member)

static void
sw_page_layouts_class_init (SwPageLayoutsClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  G_OBJECT_CLASS (class)->dispose = page_layouts_dispose;
  gtk_widget_class_set_template_from_resource (widget_class, "/org/soffitwright/Soffitwright/page-layouts.ui");
  BIND (job_label);
  BIND (message_label);
  BIND (locked_label);
  BIND (room_drop_down);
  BIND (direction_check);
  BIND (busy_spinner);
  BIND (cards_box);
  BIND (locked_box);
  gtk_widget_class_bind_template_callback (widget_class, on_direction);
  gtk_widget_class_bind_template_callback (widget_class, on_release);
  gtk_widget_class_install_action (widget_class, "layouts.undo", NULL, act_undo);
  gtk_widget_class_install_action (widget_class, "layouts.redo", NULL, act_redo);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_z, GDK_CONTROL_MASK, "layouts.undo", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_z, GDK_CONTROL_MASK | GDK_SHIFT_MASK, "layouts.redo", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_y, GDK_CONTROL_MASK, "layouts.redo", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_Escape, 0, "window.close", NULL);
  gtk_widget_class_add_binding_action (widget_class, GDK_KEY_w, GDK_CONTROL_MASK, "window.close", NULL);
}
