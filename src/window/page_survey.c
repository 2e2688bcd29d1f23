/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The fields are made anew when another bay or room is shown or when there is more or less to measure of it; else they are filled. */
#include "window/page_survey.h"
#include "base/length.h"
#include "sheets/context.h"
#include "sheets/survey_words.h"
#include "sheets/words.h"
#include "window/compat.h"
#include "window/record_choice.h"

#define FIELD_CHARS 9
#define FAR_MM 50.0 /* farther off what is drawn, it is asked whether the field is the right one */

/* Parts of the page, each with lines of its own. */
typedef enum { PART_RIBS, PART_LEVELS, PART_VOIDS, PART_DISTANCES, N_PARTS } Part;

typedef struct
{
  SwPageSurvey *page; /* NULL when it is shown no more */
  SwMeasureKey key;
  double less; /* than the model's value: levels are read from the level line */
  GtkEditable *field;
  GtkLabel *shift; /* of the line; borrowed */
} Cell;

struct _SwPageSurvey
{
  GtkWindow parent_instance;
  SwDocument *document;
  SwRecordChoice subject; /* bays, then rooms, of the job that is shown */
  GtkEditable *by, *on;
  GtkLabel *closure_label, *fault_label;
  GtkWidget *over_button, *lines_box;
  GPtrArray *cells; /* Cell, one a slot, in the slots' order; the fields' own, as a field may hear that it lost the focus after it was taken away */
  SwId shown;
  gboolean filling, stepped; /* stepped: undone or redone, so that the field in focus is filled too */
};

G_DEFINE_FINAL_TYPE (SwPageSurvey, sw_page_survey, GTK_TYPE_WINDOW)

static const SwPicture *
picture_of (const SwPageSurvey *page)
{
  return page->document != NULL ? sw_document_picture (page->document) : NULL;
}

static SwLengths
lengths_of (const SwPageSurvey *page)
{
  return sw_job_lengths (sw_document_job (page->document));
}

static Part
part_of (const SwSurveySlot *slot)
{
  switch (slot->key.kind)
    {
    case SW_MEASURE_RIB:
    case SW_MEASURE_EDGE:
      return PART_RIBS;
    case SW_MEASURE_LEVEL:
      return PART_LEVELS;
    case SW_MEASURE_DEPTH:
    case SW_MEASURE_PLATE:
      return PART_VOIDS;
    default:
      return PART_DISTANCES;
    }
}

/* "" for what is drawn nowhere. */
static char *
number_text (const SwPageSurvey *page, double mm)
{
  char text[SW_LENGTH_BUF];
  if (!isfinite (mm))
    return g_strdup ("");
  return g_strdup (sw_length_write (mm, lengths_of (page), SW_LENGTH_BARE, 0, text));
}

/* ---- entering */

static void
say (SwPageSurvey *page, const char *fault)
{
  gtk_label_set_text (page->fault_label, fault != NULL ? fault : "");
}

/* What a field holds, in the model's mm; NAN when it is empty. */
static gboolean
read_field (const Cell *cell, double *value, GError **error)
{
  const char *text = gtk_editable_get_text (cell->field);
  *value = NAN;
  if (*text == '\0')
    return TRUE;
  if (!sw_length_read (text, lengths_of (cell->page), value, error))
    return FALSE;
  *value += cell->less;
  return TRUE;
}

/* Entered all the same: it may be true. */
static void
doubt (SwPageSurvey *page, const SwMeasureKey *key, double value)
{
  const SwPicture *picture = picture_of (page);
  double drawn = picture != NULL ? sw_survey_drawn (picture->deck, key) : NAN;
  if (!isfinite (value) || !isfinite (drawn) || fabs (value - drawn) <= FAR_MM)
    return;
  g_autofree char *name = sw_survey_key_name (sw_document_job (page->document), key);
  g_autofree char *shift = sw_survey_shift_text (sw_document_job (page->document), value - drawn);
  g_autofree char *text = g_strdup_printf (_("%s is %s off what is drawn. It was entered; is it in the right field?"), name, shift);
  say (page, text);
}

/* FALSE when it could not be: it has been said why. */
static gboolean
enter (Cell *cell)
{
  SwPageSurvey *page = cell->page;
  g_autoptr (GError) error = NULL;
  double value;
  if (page == NULL || page->filling || page->document == NULL)
    return TRUE;
  const SwMeasureKey key = cell->key; /* an edit may take the field away */
  SwJob *job = sw_document_job (page->document);
  const SwMeasure *before = sw_job_measure (job, &cell->key);
  g_autofree char *was = before != NULL ? number_text (page, before->value - cell->less) : g_strdup ("");
  if (g_strcmp0 (was, gtk_editable_get_text (cell->field)) == 0)
    return TRUE;
  const char *by = gtk_editable_get_text (page->by), *on = gtk_editable_get_text (page->on);
  SwEdit *edit = read_field (cell, &value, &error) ? sw_job_enter_measure (job, &cell->key, value, *by != '\0' ? by : NULL, *on != '\0' ? on : NULL, &error) : NULL;
  say (page, error != NULL ? error->message : NULL);
  if (edit == NULL)
    return FALSE;
  if (sw_edit_is_empty (edit))
    {
      sw_edit_unref (edit);
      return TRUE;
    }
  gboolean done = sw_document_do (page->document, edit);
  if (done)
    doubt (page, &key, value);
  else
    say (page, sw_document_fault (page->document));
  return done;
}

static void
on_leave (GtkEventControllerFocus *focus, Cell *cell)
{
  enter (cell);
}

/* Enter goes on to the next field, so that a column can be typed from the sheet. */
static void
on_activate (Cell *cell)
{
  SwPageSurvey *page = cell->page;
  if (page == NULL)
    return;
  enter (cell);
  gtk_widget_child_focus (GTK_WIDGET (page), GTK_DIR_TAB_FORWARD);
}

static void
on_take_over (SwPageSurvey *page)
{
  g_autoptr (GError) error = NULL;
  const SwPicture *picture = picture_of (page);
  SwJob *job = page->document != NULL ? sw_document_job (page->document) : NULL;
  const SwRecord *room = job != NULL ? sw_job_get (job, page->shown) : NULL;
  if (room == NULL || picture == NULL || picture->rules == NULL || sw_record_table (room) != SW_TABLE_ROOM)
    return;
  double most = sw_rules_value (picture->rules, "deck.as_built", "misclosure_mm").value;
  SwEdit *edit = sw_survey_take_over (job, (const SwRoom *) room, most, &error);
  say (page, error != NULL ? error->message : NULL);
  if (edit != NULL && !sw_document_do (page->document, edit))
    say (page, sw_document_fault (page->document));
}

static void
act_step (GtkWidget *widget, const char *name, GVariant *parameter)
{
  SwPageSurvey *page = SW_PAGE_SURVEY (widget);
  say (page, NULL);
  page->stepped = TRUE;
  if (page->document != NULL && g_str_equal (name, "survey.undo"))
    sw_document_undo (page->document);
  else if (page->document != NULL)
    sw_document_redo (page->document);
}

/* What is typed but not entered yet is entered when the page is closed; it stays open when that cannot be. */
static gboolean
on_close (SwPageSurvey *page)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (page));
  for (guint i = 0; focus != NULL && i < page->cells->len; i++)
    {
      Cell *cell = page->cells->pdata[i];
      if (focus == GTK_WIDGET (cell->field) || gtk_widget_is_ancestor (focus, GTK_WIDGET (cell->field)))
        return !enter (cell);
    }
  return FALSE;
}

/* Escape drops it instead. */
static void
act_drop (GtkWidget *widget, const char *name, GVariant *parameter)
{
  SW_PAGE_SURVEY (widget)->filling = TRUE;
  gtk_window_close (GTK_WINDOW (widget));
}

/* Whether the field in focus holds something that has not been entered yet: it then takes back what is typed itself. */
static gboolean
is_typing (SwPageSurvey *page)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (page));
  for (guint i = 0; focus != NULL && i < page->cells->len; i++)
    {
      const Cell *cell = page->cells->pdata[i];
      if (focus != GTK_WIDGET (cell->field) && !gtk_widget_is_ancestor (focus, GTK_WIDGET (cell->field)))
        continue;
      const SwMeasure *measure = sw_job_measure (sw_document_job (page->document), &cell->key);
      g_autofree char *entered = measure != NULL ? number_text (page, measure->value - cell->less) : g_strdup ("");
      return g_strcmp0 (entered, gtk_editable_get_text (cell->field)) != 0;
    }
  return focus != NULL && (gtk_widget_is_ancestor (focus, GTK_WIDGET (page->by)) || gtk_widget_is_ancestor (focus, GTK_WIDGET (page->on)));
}

/* Before the field in focus, which would take the keys for itself though it has nothing to take back. */
static gboolean
on_key (SwPageSurvey *page, guint keyval, guint keycode, GdkModifierType state)
{
  gboolean undo = keyval == GDK_KEY_z || keyval == GDK_KEY_Z;
  if (!undo || !(state & GDK_CONTROL_MASK) || page->document == NULL || is_typing (page))
    return FALSE;
  gtk_widget_activate_action (GTK_WIDGET (page), state & GDK_SHIFT_MASK ? "survey.redo" : "survey.undo", NULL);
  return TRUE;
}

/* ---- filling */

/* What is being typed stays: it is entered when the field is left. */
static void
set_text (SwPageSurvey *page, GtkEditable *field, const char *text)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (page));
  gboolean typed_in = !page->stepped && focus != NULL && (focus == GTK_WIDGET (field) || gtk_widget_is_ancestor (focus, GTK_WIDGET (field)));
  if (!typed_in && g_strcmp0 (gtk_editable_get_text (field), text) != 0)
    gtk_editable_set_text (field, text);
}

/* "+8" of a line with one value, "1: +8, 3: −2" of one with several. */
static void
add_shift (const SwPageSurvey *page, GString *text, const SwSurveySlot *slot)
{
  g_autofree char *by = sw_survey_shift_text (sw_document_job (page->document), slot->measure->value - slot->drawn);
  if (text->len > 0)
    g_string_append (text, ", ");
  if (slot->key.kind == SW_MEASURE_PLATE)
    g_string_append_printf (text, "%d: ", slot->key.second);
  g_string_append (text, by);
}

static void
fill_distance (const SwPageSurvey *page, GString *text, const SwSurveyRoom *survey, const SwSurveySlot *slot)
{
  const SwSurveyDistance *distance = survey != NULL ? sw_survey_distance_of (survey, slot) : NULL;
  if (distance == NULL || isnan (distance->off))
    return;
  g_autofree char *off = sw_survey_shift_text (sw_document_job (page->document), distance->off);
  g_string_append_printf (text, "  ");
  g_string_append_printf (text, _("(off %s)"), off);
}

static void
fill_cells (SwPageSurvey *page, const GArray *slots, const SwSurveyRoom *survey)
{
  g_autoptr (GString) text = g_string_new (NULL);
  page->filling = TRUE;
  for (guint i = 0; i < slots->len; i++)
    {
      const SwSurveySlot *slot = &g_array_index (slots, SwSurveySlot, i);
      const Cell *cell = page->cells->pdata[i];
      g_autofree char *value = slot->measure != NULL ? number_text (page, slot->measure->value - cell->less) : g_strdup ("");
      set_text (page, cell->field, value);
      if (slot->measure != NULL && isfinite (slot->drawn))
        add_shift (page, text, slot);
      if (slot->measure != NULL && part_of (slot) == PART_DISTANCES)
        fill_distance (page, text, survey, slot);
      if (i + 1 < slots->len && ((Cell *) page->cells->pdata[i + 1])->shift == cell->shift)
        continue;
      gtk_label_set_text (cell->shift, text->str);
      g_string_truncate (text, 0);
    }
  page->filling = page->stepped = FALSE;
}

static void
fill_closure (SwPageSurvey *page, const SwPicture *picture, const SwSurveyRoom *survey)
{
  const SwRecord *record = sw_job_get (sw_picture_job (picture), page->shown);
  gboolean room = record != NULL && sw_record_table (record) == SW_TABLE_ROOM && picture->rules != NULL;
  gboolean may = room && survey != NULL && survey->shift >= 0.5
                 && survey->misclosure <= sw_rules_value (picture->rules, "deck.as_built", "misclosure_mm").value;
  g_autofree char *text = room ? sw_survey_closure_text (sw_picture_job (picture), (const SwRoom *) record, picture->rules) : NULL;
  gtk_label_set_text (page->closure_label, text != NULL ? text : "");
  gtk_widget_set_visible (GTK_WIDGET (page->closure_label), room);
  gtk_widget_set_visible (page->over_button, room);
  gtk_widget_set_sensitive (page->over_button, may);
}

/* ---- making the fields */

static GtkWidget *
text_label (const char *text)
{
  GtkWidget *label = gtk_label_new (text);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  return label;
}

static void
add_head (GtkGrid *grid, int column, const char *text)
{
  GtkWidget *label = text_label (text);
  gtk_widget_add_css_class (label, "dim-label");
  gtk_grid_attach (grid, label, column, 0, 1, 1);
}

static GtkEditable *
add_field (GtkGrid *grid, Cell *cell, const SwSurveySlot *slot, int column, int line)
{
  GtkWidget *entry = gtk_entry_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();
  g_autofree char *name = sw_survey_slot_name (slot), *drawn = number_text (cell->page, slot->drawn - cell->less);
  g_autofree char *tip = g_strdup_printf (_("%s: drawn %s"), name, drawn);
  gtk_editable_set_width_chars (GTK_EDITABLE (entry), FIELD_CHARS);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (entry), FIELD_CHARS);
  gtk_entry_set_placeholder_text (GTK_ENTRY (entry), drawn);
  gtk_widget_set_tooltip_text (entry, tip);
  gtk_accessible_update_property (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_object_set_data_full (G_OBJECT (entry), "cell", cell, g_free);
  g_signal_connect (focus, "leave", G_CALLBACK (on_leave), cell);
  gtk_widget_add_controller (entry, focus);
  g_signal_connect_swapped (entry, "activate", G_CALLBACK (on_activate), cell);
  gtk_grid_attach (grid, entry, column, line, 1, 1);
  return GTK_EDITABLE (entry);
}

/* The column of a field; the first is the line's name, the last its shift. */
static int
column_of (const SwSurveySlot *slot, int first_plate)
{
  if (slot->key.kind == SW_MEASURE_EDGE)
    return slot->key.second;
  if (slot->key.kind == SW_MEASURE_RIB)
    return 5;
  return slot->key.kind == SW_MEASURE_PLATE ? 2 + slot->key.second - first_plate : 1;
}

static void
add_heads (GtkGrid *grid, Part part, int last, int first_plate)
{
  const char *const ribs[] = { _("Rib"), _("Low edge, start"), _("High edge, start"), _("Low edge, end"), _("High edge, end"), _("Middle"), _("Shift of the middle or edges") };
  const char *const one[N_PARTS] = { NULL, _("Place"), _("Void"), _("Distance") };
  if (part == PART_RIBS)
    {
      for (int i = 0; i < (int) G_N_ELEMENTS (ribs); i++)
        add_head (grid, i, ribs[i]);
      return;
    }
  add_head (grid, 0, one[part]);
  add_head (grid, 1, part == PART_VOIDS ? _("Depth") : _("Measured"));
  for (int i = 2; i < last; i++)
    {
      g_autofree char *plate = g_strdup_printf (_("Plate %d"), first_plate + i - 2);
      add_head (grid, i, plate);
    }
  add_head (grid, last, _("Shift"));
}

static char *
line_name (const SwSurveySlot *slot)
{
  Part part = part_of (slot);
  return part == PART_RIBS || part == PART_VOIDS ? g_strdup_printf ("%d", slot->key.number) : sw_survey_slot_name (slot);
}

static GtkGrid *
begin_part (SwPageSurvey *page, Part part)
{
  const char *const titles[N_PARTS] = { _("Ribs: from the bay's lowest side across the voids"), _("Soffit levels: above the level line"),
                                        _("Voids and plates: depth; plates from the start closure"), _("Sides and diagonals, at the height of the ceiling") };
  GtkWidget *grid = gtk_grid_new (), *title = text_label (titles[part]);
  gtk_widget_add_css_class (title, "heading");
  gtk_widget_set_margin_top (title, 10);
  gtk_grid_set_column_spacing (GTK_GRID (grid), 8);
  gtk_grid_set_row_spacing (GTK_GRID (grid), 4);
  gtk_box_append (GTK_BOX (page->lines_box), title);
  gtk_box_append (GTK_BOX (page->lines_box), grid);
  return GTK_GRID (grid);
}

static void
plate_numbers (const GArray *slots, int *first, int *last)
{
  *first = G_MAXINT;
  *last = G_MININT;
  for (guint i = 0; i < slots->len; i++)
    {
      const SwMeasureKey *key = &g_array_index (slots, SwSurveySlot, i).key;
      if (key->kind != SW_MEASURE_PLATE)
        continue;
      *first = MIN (*first, key->second);
      *last = MAX (*last, key->second);
    }
}

static gboolean
same_line (const SwSurveySlot *a, const SwSurveySlot *b)
{
  Part part = part_of (a);
  return part == part_of (b) && (part == PART_RIBS || part == PART_VOIDS) && a->key.number == b->key.number;
}

static void
make_cells (SwPageSurvey *page, const GArray *slots)
{
  int first_plate, last_plate, line = 0, last = 0;
  double level_line = sw_job_info (sw_document_job (page->document))->level_line;
  GtkGrid *grid = NULL;
  GtkLabel *shift = NULL;
  plate_numbers (slots, &first_plate, &last_plate);
  for (guint i = 0; i < slots->len; i++)
    {
      const SwSurveySlot *slot = &g_array_index (slots, SwSurveySlot, i), *before = i > 0 ? slot - 1 : NULL;
      Part part = part_of (slot);
      if (before == NULL || part_of (before) != part)
        {
          last = part == PART_RIBS ? 6 : part == PART_VOIDS && last_plate >= first_plate ? 3 + last_plate - first_plate : 2;
          grid = begin_part (page, part);
          add_heads (grid, part, last, first_plate);
          line = 0;
        }
      if (before == NULL || !same_line (before, slot))
        {
          g_autofree char *name = line_name (slot);
          shift = GTK_LABEL (text_label (""));
          gtk_grid_attach (grid, text_label (name), 0, ++line, 1, 1);
          gtk_grid_attach (grid, GTK_WIDGET (shift), last, line, 1, 1);
        }
      Cell *cell = g_new0 (Cell, 1);
      *cell = (Cell){ page, slot->key, slot->key.kind == SW_MEASURE_LEVEL ? level_line : 0, NULL, shift };
      cell->field = add_field (grid, cell, slot, column_of (slot, first_plate), line);
      g_ptr_array_add (page->cells, cell);
    }
}

static gboolean
fits (const SwPageSurvey *page, const GArray *slots)
{
  if (page->cells->len != slots->len)
    return FALSE;
  for (guint i = 0; i < slots->len; i++)
    if (!sw_measure_key_equal (&((const Cell *) page->cells->pdata[i])->key, &g_array_index (slots, SwSurveySlot, i).key))
      return FALSE;
  return TRUE;
}

static void
clear_cells (SwPageSurvey *page)
{
  GtkWidget *child;
  page->filling = TRUE;
  for (guint i = 0; i < page->cells->len; i++)
    ((Cell *) page->cells->pdata[i])->page = NULL;
  g_ptr_array_set_size (page->cells, 0);
  while ((child = gtk_widget_get_first_child (page->lines_box)) != NULL)
    gtk_box_remove (GTK_BOX (page->lines_box), child);
  page->filling = FALSE;
}

static void
show_subject (SwPageSurvey *page)
{
  const SwPicture *picture = picture_of (page);
  SwId of = sw_record_choice_now (&page->subject);
  if (picture == NULL)
    return;
  g_autoptr (GArray) slots = sw_survey_slots (picture->deck, of);
  if (of != page->shown || !fits (page, slots))
    {
      clear_cells (page);
      page->shown = of;
      make_cells (page, slots);
    }
  const SwRecord *record = sw_job_get (sw_picture_job (picture), of);
  gboolean room = record != NULL && sw_record_table (record) == SW_TABLE_ROOM;
  g_autoptr (SwSurveyRoom) survey = room ? sw_survey_room (sw_picture_job (picture), (const SwRoom *) record) : NULL;
  fill_cells (page, slots, survey);
  fill_closure (page, picture, survey);
}

/* ---- bays and rooms */

static void
fill_subjects (SwPageSurvey *page)
{
  static const SwTable tables[] = { SW_TABLE_BAY, SW_TABLE_ROOM, SW_N_TABLES };
  const SwPicture *picture = picture_of (page);
  if (picture == NULL)
    return;
  sw_record_choice_fill (&page->subject, sw_picture_job (picture), tables, NULL, page->shown);
  show_subject (page);
}

static void
on_subject (SwPageSurvey *page)
{
  if (!page->subject.filling)
    show_subject (page);
}

void
sw_page_survey_show (SwPageSurvey *page, SwId of)
{
  sw_record_choice_set (&page->subject, of);
}

SwPageSurvey *
sw_page_survey_new (GtkWindow *parent, SwDocument *document)
{
  SwPageSurvey *page = g_object_new (SW_TYPE_PAGE_SURVEY, "transient-for", parent, NULL);
  page->document = g_object_ref (document);
  fill_subjects (page);
  g_signal_connect_object (document, "picture", G_CALLBACK (fill_subjects), page, G_CONNECT_SWAPPED);
  return page;
}

static GtkEditable *
add_who (GtkBox *box, const char *label, int chars)
{
  GtkWidget *entry = gtk_entry_new ();
  gtk_editable_set_width_chars (GTK_EDITABLE (entry), chars);
  gtk_accessible_update_property (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_PROPERTY_LABEL, label, -1);
  gtk_box_append (box, text_label (label));
  gtk_box_append (box, entry);
  return GTK_EDITABLE (entry);
}

static void
add_top (SwPageSurvey *page, GtkBox *box)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  g_autoptr (GDateTime) now = g_date_time_new_now_local ();
  g_autofree char *today = g_date_time_format (now, "%Y-%m-%d");
  sw_record_choice_init (&page->subject, GTK_DROP_DOWN (gtk_drop_down_new (NULL, NULL)), _("Bay or room"));
  g_signal_connect_swapped (page->subject.drop_down, "notify::selected", G_CALLBACK (on_subject), page);
  gtk_box_append (GTK_BOX (row), GTK_WIDGET (page->subject.drop_down));
  page->by = add_who (GTK_BOX (row), _("Measured by"), 16);
  page->on = add_who (GTK_BOX (row), _("Date"), 11);
  gtk_editable_set_text (page->on, today);
  gtk_box_append (box, row);
}

static void
sw_page_survey_init (SwPageSurvey *page)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 8), *scroller = gtk_scrolled_window_new ();
  gtk_window_set_title (GTK_WINDOW (page), _("As-built entry"));
  gtk_window_set_titlebar (GTK_WINDOW (page), gtk_header_bar_new ());
  gtk_window_set_default_size (GTK_WINDOW (page), 940, 680);
  g_signal_connect (page, "close-request", G_CALLBACK (on_close), NULL);
  GtkEventController *keys = gtk_event_controller_key_new ();
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect_swapped (keys, "key-pressed", G_CALLBACK (on_key), page);
  gtk_widget_add_controller (GTK_WIDGET (page), keys);
  page->cells = g_ptr_array_new ();
  add_top (page, GTK_BOX (box));
  page->closure_label = GTK_LABEL (text_label (""));
  page->fault_label = GTK_LABEL (text_label (""));
  gtk_label_set_wrap (page->closure_label, TRUE);
  gtk_label_set_wrap (page->fault_label, TRUE);
  gtk_widget_add_css_class (GTK_WIDGET (page->closure_label), "heading");
  gtk_widget_add_css_class (GTK_WIDGET (page->fault_label), "snag-stop");
  page->over_button = gtk_button_new_with_label (_("Take over the measured outline"));
  gtk_widget_set_tooltip_text (page->over_button, _("The room's outline becomes the measured one, and walls that lie along it for half of their length or more move with it"));
  gtk_widget_set_halign (page->over_button, GTK_ALIGN_START);
  g_signal_connect_swapped (page->over_button, "clicked", G_CALLBACK (on_take_over), page);
  page->lines_box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  gtk_widget_set_vexpand (scroller, TRUE);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), page->lines_box);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (page->closure_label));
  gtk_box_append (GTK_BOX (box), page->over_button);
  gtk_box_append (GTK_BOX (box), GTK_WIDGET (page->fault_label));
  gtk_box_append (GTK_BOX (box), scroller);
  gtk_widget_set_margin_start (box, 18);
  gtk_widget_set_margin_end (box, 18);
  gtk_widget_set_margin_top (box, 12);
  gtk_widget_set_margin_bottom (box, 12);
  gtk_window_set_child (GTK_WINDOW (page), box);
}

static void
page_survey_dispose (GObject *object)
{
  SwPageSurvey *page = SW_PAGE_SURVEY (object);
  page->filling = TRUE; /* fields that lose the focus now enter nothing */
  for (guint i = 0; i < page->cells->len; i++)
    ((Cell *) page->cells->pdata[i])->page = NULL;
  g_ptr_array_set_size (page->cells, 0);
  g_clear_object (&page->document);
  sw_record_choice_clear (&page->subject);
  G_OBJECT_CLASS (sw_page_survey_parent_class)->dispose (object);
}

static void
page_survey_finalize (GObject *object)
{
  g_ptr_array_unref (SW_PAGE_SURVEY (object)->cells);
  G_OBJECT_CLASS (sw_page_survey_parent_class)->finalize (object);
}

static void
sw_page_survey_class_init (SwPageSurveyClass *class)
{
  G_OBJECT_CLASS (class)->dispose = page_survey_dispose;
  G_OBJECT_CLASS (class)->finalize = page_survey_finalize;
  gtk_widget_class_install_action (GTK_WIDGET_CLASS (class), "survey.undo", NULL, act_step);
  gtk_widget_class_install_action (GTK_WIDGET_CLASS (class), "survey.redo", NULL, act_step);
  gtk_widget_class_install_action (GTK_WIDGET_CLASS (class), "survey.drop", NULL, act_drop);
  gtk_widget_class_add_binding_action (GTK_WIDGET_CLASS (class), GDK_KEY_z, GDK_CONTROL_MASK, "survey.undo", NULL);
  gtk_widget_class_add_binding_action (GTK_WIDGET_CLASS (class), GDK_KEY_z, GDK_CONTROL_MASK | GDK_SHIFT_MASK, "survey.redo", NULL);
  gtk_widget_class_add_binding_action (GTK_WIDGET_CLASS (class), GDK_KEY_Escape, 0, "survey.drop", NULL);
  gtk_widget_class_add_binding_action (GTK_WIDGET_CLASS (class), GDK_KEY_w, GDK_CONTROL_MASK, "window.close", NULL);
}
