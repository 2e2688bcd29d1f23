/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A sheet costs what its row of the price list says, material and labour; a metre of batten and of joint likewise, so that fewer,
 * dearer sheets are weighed against the joints that they save. Where the list lacks the room's own sheet, or a price, nothing but the
 * area of the sheets can be compared. */
#include "estimate/lay_choices.h"
#include "base/error.h"
#include "base/tolerance.h"
#include "ceiling/brandering.h"
#include "ceiling/layout.h"
#include "estimate/price_kinds.h"
#include "estimate/takeoff_parts.h"
#include "geometry/outline.h"
#include <string.h>

static SwMoney
rate_of (const SwPrice *price)
{
  return price->material + price->labour;
}

static gint64
rate_by_code (const SwJob *job, const char *code)
{
  const SwRecord *record = sw_job_find (job, code);
  return record != NULL && sw_record_table (record) == SW_TABLE_PRICE ? rate_of ((const SwPrice *) record) : 0;
}

/* ---- sheets ---- */

/* "3000x1200" as a size, the longer side first. */
static gboolean
read_size (const char *text, SwBoardSize *size)
{
  char *end;
  double a = g_ascii_strtod (text, &end), b = *end == 'x' ? g_ascii_strtod (end + 1, &end) : 0;
  if (*end != '\0' || !(a > 0 && b > 0))
    return FALSE;
  *size = (SwBoardSize){ fmax (a, b), fmin (a, b), 0 };
  return TRUE;
}

static int
compare_sizes (gconstpointer pa, gconstpointer pb)
{
  const SwBoardSize *a = pa, *b = pb;
  if (a->length != b->length)
    return a->length > b->length ? -1 : 1;
  return (a->width < b->width) - (a->width > b->width);
}

GArray *
sw_lay_board_sizes (const SwJob *job, const SwRoom *room)
{
  const SwField *field = sw_struct_field (&sw_type_get (SW_TABLE_ROOM)->body, "board");
  g_autofree char *thickness = sw_takeoff_number (room->board_thickness);
  g_autofree char *start = g_strdup_printf ("%s-%s-", field->words[room->board_kind].key, thickness);
  GArray *sizes = g_array_new (FALSE, FALSE, sizeof (SwBoardSize));
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_PRICE); (record = sw_job_iter_next (&i)) != NULL;)
    {
      SwBoardSize size;
      const char *written = sw_price_kind_of (record->tag) == SW_PRICE_BOARD ? sw_price_size (record->tag) : "";
      if (!g_str_has_prefix (written, start) || !read_size (written + strlen (start), &size))
        continue;
      size.cost = rate_of ((const SwPrice *) record);
      g_array_append_val (sizes, size);
    }
  g_array_sort (sizes, compare_sizes);
  return sizes;
}

static gboolean
same_size (const SwBoardSize *size, double length, double width)
{
  return fabs (size->length - length) < SW_TOUCH_MM && fabs (size->width - width) < SW_TOUCH_MM;
}

/* Index of a size; the number of sizes when there is none such. */
static guint
find_size (const GArray *sizes, double length, double width)
{
  guint i = 0;
  while (i < sizes->len && !same_size (&g_array_index (sizes, SwBoardSize, i), length, width))
    i++;
  return i;
}

/* Without a cost, unless it is there already. */
static void
add_size (GArray *sizes, double length, double width)
{
  SwBoardSize size = { length, width, 0 };
  if (find_size (sizes, length, width) == sizes->len)
    g_array_append_val (sizes, size);
}

GArray *
sw_lay_sizes_taken (const SwJob *job, const SwRoom *room, const SwLayout *layout)
{
  g_autoptr (GArray) known = sw_lay_board_sizes (job, room);
  GArray *taken = g_array_new (FALSE, FALSE, sizeof (SwBoardSize));
  if (layout == NULL || layout->sheets.n == 0)
    return taken;
  add_size (taken, room->board_length, room->board_width);
  for (guint i = 0; i < layout->sheets.n; i++)
    add_size (taken, SW_LIST_AT (layout->sheets, SwOddSheet, i).length, SW_LIST_AT (layout->sheets, SwOddSheet, i).width);
  for (guint i = 0; i < taken->len; i++)
    {
      SwBoardSize *size = &g_array_index (taken, SwBoardSize, i);
      guint at = find_size (known, size->length, size->width);
      size->cost = at < known->len ? g_array_index (known, SwBoardSize, at).cost : 0;
    }
  return taken;
}

/* "8 × 3600x1200 + 2 × 3600x900", the room's own first. */
char *
sw_lay_sheets_text (const SwCeilingChoice *choice)
{
  GString *text = g_string_new (NULL);
  const GArray *odd = choice->ceiling->sheets;
  if (choice->sheets > odd->len)
    g_string_append_printf (text, "%u × %gx%g", choice->sheets - odd->len, choice->room->board_length, choice->room->board_width);
  for (guint i = 0; i < odd->len; i++)
    {
      const SwOddSheet *sheet = &g_array_index (odd, SwOddSheet, i);
      guint before = 0;
      for (guint k = 0; k < i; k++)
        before += g_array_index (odd, SwOddSheet, k).length == sheet->length && g_array_index (odd, SwOddSheet, k).width == sheet->width;
      if (before == 0)
        g_string_append_printf (text, "%s%u × %gx%g", text->len > 0 ? " + " : "", sw_ceiling_choice_n_of_size (choice, sheet->length, sheet->width),
                                sheet->length, sheet->width);
    }
  return g_string_free (text, FALSE);
}

/* ---- alternatives ---- */

static gint64
batten_rate (const SwJob *job, const SwRoom *room)
{
  g_autofree char *section = sw_ceiling_section_size (room, room->batten_width, room->batten_depth);
  g_autofree char *code = g_strdup_printf ("%s-%s", sw_price_info (SW_PRICE_BATTEN)->word, section);
  return rate_by_code (job, code);
}

static gint64
joint_rate (const SwJob *job, const SwRules *rules, const SwRoom *room)
{
  if (room->joints == SW_BOARD_JOINTS_STRIP)
    return rate_by_code (job, sw_price_info (SW_PRICE_COVER_STRIP)->word);
  double tape = sw_rules_value (rules, "board.takeoff", "tape_factor").value;
  return llround (tape * (double) rate_by_code (job, sw_price_info (SW_PRICE_TAPE)->word));
}

/* The list's sheets, and the room's own, with a cost or without. */
static GArray *
sizes_for (const SwJob *job, const SwRoom *room)
{
  GArray *sizes = sw_lay_board_sizes (job, room);
  add_size (sizes, room->board_length, room->board_width);
  return sizes;
}

static void
keep_own (GArray *sizes, const SwRoom *room)
{
  for (guint i = sizes->len; i-- > 0;)
    {
      const SwBoardSize *size = &g_array_index (sizes, SwBoardSize, i);
      if (fabs (size->length - room->board_length) >= SW_TOUCH_MM || fabs (size->width - room->board_width) >= SW_TOUCH_MM)
        g_array_remove_index (sizes, i);
    }
}

static gboolean
all_priced (const GArray *sizes)
{
  gboolean priced = TRUE;
  for (guint i = 0; i < sizes->len; i++)
    priced = priced && g_array_index (sizes, SwBoardSize, i).cost > 0;
  return priced;
}

gboolean
sw_lay_is_priced (const SwJob *job, const SwRoom *room)
{
  g_autoptr (GArray) sizes = sizes_for (job, room);
  return all_priced (sizes);
}

void
sw_lay_measure (SwCeilingChoice *choice, const SwRules *rules)
{
  const SwJob *job = sw_deck_job (choice->ceiling->deck);
  g_autoptr (GArray) sizes = sizes_for (job, choice->room);
  sw_ceiling_choice_measure (choice);
  choice->cost = 0;
  if (!all_priced (sizes))
    return;
  for (guint i = 0; i < sizes->len; i++)
    {
      const SwBoardSize *size = &g_array_index (sizes, SwBoardSize, i);
      choice->cost += size->cost * sw_ceiling_choice_n_of_size (choice, size->length, size->width);
    }
  choice->cost += llround (choice->batten_m * (double) batten_rate (job, choice->room))
                  + llround (choice->joint_m * (double) joint_rate (job, rules, choice->room));
}

SwLayChoices *
sw_lay_choices_new (SwDeck *deck, SwRules *rules, const SwRoom *room, const SwLayChoicesWanted *wanted,
                    SwCeilingChoiceFound found, gpointer data, GCancellable *cancellable, GError **error)
{
  const SwJob *job = sw_deck_job (deck);
  g_autoptr (GArray) sizes = sizes_for (job, room);
  if (wanted->keep_sheet)
    keep_own (sizes, room);
  const SwCeilingChoiceOptions options = {
    .sizes = (const SwBoardSize *) (gpointer) sizes->data,
    .n_sizes = sizes->len,
    .batten_cost = batten_rate (job, room),
    .joint_cost = joint_rate (job, rules, room),
    .both_ways = !wanted->keep_turn,
    .both_directions = !wanted->keep_direction,
    .keep = sw_ceiling_layout_of (job, room->record.id),
    .most = wanted->most,
  };
  GPtrArray *list = sw_ceiling_choices (deck, rules, room, &options, found, data, cancellable, error);
  if (list == NULL)
    return NULL;
  SwLayChoices *choices = g_new (SwLayChoices, 1);
  *choices = (SwLayChoices){ list, all_priced (sizes) };
  return choices;
}

static gboolean
all_suit (const SwCeilingChoice *choice, const SwRules *rules)
{
  const SwJob *job = sw_deck_job (choice->ceiling->deck);
  const SwRoom *room = choice->room;
  const GArray *odd = choice->ceiling->sheets;
  gboolean good = choice->sheets == odd->len || sw_ceiling_sheet_suits (rules, job, room, room->board_length, room->board_width);
  for (guint i = 0; i < odd->len && good; i++)
    good = sw_ceiling_sheet_suits (rules, job, room, g_array_index (odd, SwOddSheet, i).length, g_array_index (odd, SwOddSheet, i).width);
  return good;
}

const SwCeilingChoice *
sw_lay_cheapest (const SwLayChoices *choices, const SwRules *rules, const SwRoom *room)
{
  const SwCeilingChoice *best = NULL;
  for (guint i = 0; i < choices->choices->len; i++)
    {
      const SwCeilingChoice *choice = choices->choices->pdata[i];
      if (!all_suit (choice, rules))
        continue;
      if (choice->room->batten_shift == room->batten_shift)
        return choice;
      best = best != NULL ? best : choice;
    }
  return best;
}

void
sw_lay_choices_free (SwLayChoices *choices)
{
  if (choices == NULL)
    return;
  g_ptr_array_unref (choices->choices);
  g_free (choices);
}

gboolean
sw_lay_choose (const SwCeilingChoice *choice, SwEdit *edit, const SwJob *job, GError **error)
{
  SwId id = choice->room->record.id;
  const SwRecord *now = sw_job_get (job, id);
  if (now == NULL)
    {
      g_set_error_literal (error, SW_ERROR, SW_ERROR_NOT_FOUND, "the room is gone");
      return FALSE;
    }
  if (!sw_record_equal (now, &choice->room->record) && !sw_edit_put (edit, job, sw_record_copy (&choice->room->record), error))
    return FALSE;
  return sw_ceiling_store (choice->ceiling, edit, job, error);
}

SwLayout *
sw_lay_layout_of (const SwCeiling *ceiling, const SwJob *job)
{
  g_autoptr (SwEdit) edit = sw_edit_new ("");
  if (!sw_ceiling_store (ceiling, edit, job, NULL))
    return NULL;
  for (guint i = 0; i < edit->changes->len; i++)
    {
      const SwChange *change = &g_array_index (edit->changes, SwChange, i);
      if (SW_ID_TABLE (change->id) == SW_TABLE_LAYOUT && change->after != NULL)
        return (SwLayout *) sw_record_ref (change->after);
    }
  /* The edit holds no change: the job has the very same. */
  return (SwLayout *) sw_record_ref ((SwRecord *) &sw_ceiling_layout_of (job, ceiling->room->record.id)->record);
}

/* ---- locks ---- */

static gboolean
lock_piece (SwLayout *layout, int number, gboolean locked)
{
  for (guint i = 0; i < layout->pieces.n; i++)
    {
      SwPiece *piece = &SW_LIST_AT (layout->pieces, SwPiece, i);
      if (piece->piece != number)
        continue;
      piece->locked = locked;
      return TRUE;
    }
  return FALSE;
}

gboolean
sw_lay_lock (const SwJob *job, SwId room, const int *pieces, guint n, gboolean locked, SwEdit *edit, GError **error)
{
  const SwLayout *layout = sw_ceiling_layout_of (job, room);
  const SwRecord *record = sw_job_get (job, room);
  if (layout == NULL || layout->pieces.n == 0)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, "room \"%s\" has no boards laid out: lay it out first",
                   record != NULL ? record->tag : "");
      return FALSE;
    }
  g_autoptr (SwRecord) copy = sw_record_copy (&layout->record);
  SwLayout *changed = (SwLayout *) copy;
  for (guint i = 0; n == 0 && i < changed->pieces.n; i++)
    SW_LIST_AT (changed->pieces, SwPiece, i).locked = locked;
  for (guint i = 0; i < n; i++)
    if (!lock_piece (changed, pieces[i], locked))
      {
        g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, "room \"%s\" has no piece %d: its pieces are numbered from 1 to %u",
                     record->tag, pieces[i], changed->pieces.n);
        return FALSE;
      }
  if (sw_record_equal (copy, &layout->record))
    return TRUE;
  return sw_edit_put (edit, job, g_steal_pointer (&copy), error);
}

guint
sw_lay_n_locked (const SwLayout *layout)
{
  guint n = 0;
  for (guint i = 0; layout != NULL && i < layout->pieces.n; i++)
    n += SW_LIST_AT (layout->pieces, SwPiece, i).locked;
  return n;
}

int
sw_lay_piece_at (const SwLayout *layout, SwPoint at)
{
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (SwPoint));
  for (guint i = 0; i < layout->corners.n;)
    {
      int piece = SW_LIST_AT (layout->corners, SwCorner, i).piece;
      g_array_set_size (points, 0);
      for (; i < layout->corners.n && SW_LIST_AT (layout->corners, SwCorner, i).piece == piece; i++)
        g_array_append_val (points, SW_LIST_AT (layout->corners, SwCorner, i).at);
      if (points->len > 2 && sw_outline_holds ((const SwPoint *) (gpointer) points->data, points->len, at))
        return piece;
    }
  return 0;
}
