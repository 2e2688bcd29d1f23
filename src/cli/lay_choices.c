/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/lay_choices.h"
#include "base/error.h"
#include "base/number.h"
#include "ceiling/layout.h"
#include "store/price_list.h"
#include <glib/gi18n.h>
#include <string.h>

static const SwCliColumn columns[] = {
  { "number", N_ ("No."), TRUE },
  { "sheet", NULL, FALSE },
  { "of", N_ ("Sheets"), FALSE },
  { "long_side", N_ ("Long side"), FALSE },
  { "battens", N_ ("Battens"), FALSE },
  { "cost", N_ ("Cost"), TRUE },
  { "sheets", N_ ("In all"), TRUE },
  { "joint_m", N_ ("Joints m"), TRUE },
  { "waste_m2", N_ ("Waste m²"), TRUE },
  { "batten_m", N_ ("Battens m"), TRUE },
  { "smallest_mm", N_ ("Smallest mm"), TRUE },
  { "faults", N_ ("Faults"), TRUE },
  { "slivers", N_ ("Slivers"), TRUE },
  { "lights_cut", N_ ("Lights over battens"), TRUE },
  { "shift_mm", N_ ("Shift mm"), TRUE },
};

gboolean
sw_cli_lay_choices_wanted (const SwCliLayChoices *wanted)
{
  return wanted->list || wanted->choose != 0 || wanted->keep != NULL || wanted->release != NULL;
}

/* ---- alternatives ---- */

static SwLayChoices *
choices_new (const SwCliLayChoices *wanted, SwDeck *deck, SwJob *job, SwId room, GError **error)
{
  g_autoptr (SwRules) rules = sw_cli_rules_of (job, error);
  if (rules == NULL)
    return NULL;
  const SwLayChoicesWanted options = { wanted->keep_direction, 0 };
  const SwRoom *record = (const SwRoom *) sw_job_get (sw_deck_job (deck), room);
  return sw_lay_choices_new (deck, rules, record, &options, NULL, NULL, NULL, error);
}

SwLayChoices *
sw_cli_lay_choices_new (const SwCliLayChoices *wanted, SwJob *job, const SwRoom *room, SwDeck **deck, GError **error)
{
  g_autoptr (SwJob) priced = sw_price_list_or_default (job, error);
  if (priced == NULL)
    return NULL;
  g_autoptr (SwDeck) mine = sw_deck_new (priced);
  SwLayChoices *choices = choices_new (wanted, mine, job, room->record.id, error);
  *deck = choices != NULL ? g_steal_pointer (&mine) : NULL;
  return choices;
}

const SwCeilingChoice *
sw_cli_lay_chosen (const SwCliLayChoices *wanted, const SwLayChoices *choices, GError **error)
{
  if (wanted->choose >= 1 && wanted->choose <= (int) choices->choices->len)
    return choices->choices->pdata[wanted->choose - 1];
  g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, _("there is no alternative %d: the room has 1 to %u, see --alternatives"),
               wanted->choose, choices->choices->len);
  return NULL;
}

static void
put_number (SwCliTable *table, double value, int decimals)
{
  char text[SW_NUMBER_BUF];
  sw_cli_table_put (table, sw_number_write_fixed (value, decimals, text));
}

static void
put_choice (SwCliTable *table, const SwLayChoices *choices, guint i, gboolean words)
{
  const SwCeilingChoice *choice = choices->choices->pdata[i];
  const SwRoom *room = choice->room;
  char money[SW_MONEY_BUF];
  g_autofree char *sheet = g_strdup_printf ("%gx%g", room->board_length, room->board_width), *others = sw_lay_sheets_text (choice);
  const char *side = room->boards_turned ? N_ ("along the battens") : N_ ("across the battens");
  const char *battens = room->direction == SW_DIRECTION_ALONG ? N_ ("along the ribs") : N_ ("across the ribs");
  put_number (table, i + 1, 0);
  sw_cli_table_put (table, sheet);
  sw_cli_table_put (table, others);
  sw_cli_table_put (table, words ? _(side) : room->boards_turned ? "along" : "across");
  sw_cli_table_put (table, words ? _(battens) : room->direction == SW_DIRECTION_ALONG ? "along" : "across");
  sw_cli_table_put (table, choices->priced ? sw_money_write (sw_money_cents (choice->cost), money) : NULL);
  put_number (table, choice->sheets, 0);
  put_number (table, choice->joint_m, 2);
  put_number (table, choice->waste_m2, 2);
  put_number (table, choice->batten_m, 2);
  put_number (table, choice->smallest_mm, 0);
  put_number (table, choice->faults, 0);
  put_number (table, choice->slivers, 0);
  put_number (table, choice->cuts, 0);
  put_number (table, room->batten_shift, 0);
}

int
sw_cli_lay_choices_list (const SwCliLayChoices *wanted, SwJob *job, const char *room, const char *format, const char *to)
{
  GError *error = NULL;
  g_autoptr (SwDeck) deck = NULL;
  const SwRoom *record = sw_cli_find_room (job, room, &error);
  g_autoptr (SwLayChoices) choices = record != NULL ? sw_cli_lay_choices_new (wanted, job, record, &deck, &error) : NULL;
  if (choices == NULL)
    return sw_cli_fail (error);
  g_auto (SwCliTable) table = sw_cli_table (columns, G_N_ELEMENTS (columns));
  gboolean words = format == NULL || strcmp (format, "text") == 0;
  for (guint i = 0; i < choices->choices->len; i++)
    put_choice (&table, choices, i, words);
  if (!choices->priced)
    g_printerr ("soffit: %s\n", _("the price list lacks this room's sheet or a price of its board: compared by the area of the sheets"));
  guint kept = sw_lay_n_locked (sw_ceiling_layout_of (job, record->record.id));
  if (kept > 0)
    g_printerr (_("soffit: pieces that stay where they are: %u\n"), kept);
  g_autofree char *text = sw_cli_table_write (&table, format);
  return sw_cli_put (to, text, -1);
}

/* ---- locks ---- */

static GArray *
read_numbers (const char *text, GError **error)
{
  g_autoptr (GArray) numbers = g_array_new (FALSE, FALSE, sizeof (int));
  g_auto (GStrv) words = g_strsplit (text, ",", -1);
  if (strcmp (text, "all") == 0)
    return g_steal_pointer (&numbers);
  for (guint i = 0; words[i] != NULL; i++)
    {
      guint64 number;
      if (!g_ascii_string_to_unsigned (g_strstrip (words[i]), 10, 1, G_MAXINT, &number, NULL))
        {
          g_set_error (error, SW_ERROR, SW_ERROR_INVALID, _("\"%s\" is no number of a piece: give them like 3,5,12, or all"), words[i]);
          return NULL;
        }
      int piece = (int) number;
      g_array_append_val (numbers, piece);
    }
  return g_steal_pointer (&numbers);
}

static gboolean
lock (const char *text, gboolean locked, const SwJob *job, SwId room, SwEdit *edit, GError **error)
{
  g_autoptr (GArray) numbers = read_numbers (text, error);
  return numbers != NULL && sw_lay_lock (job, room, (const int *) (gpointer) numbers->data, numbers->len, locked, edit, error);
}

SwJob *
sw_cli_lay_lock (const SwCliLayChoices *wanted, SwJob *job, SwId room, GError **error)
{
  g_autoptr (SwJob) now = sw_job_ref (job);
  const struct { const char *text; gboolean locked; } steps[] = { { wanted->release, FALSE }, { wanted->keep, TRUE } };
  for (gsize i = 0; i < G_N_ELEMENTS (steps); i++)
    {
      g_autoptr (SwEdit) edit = sw_edit_new ("");
      if (steps[i].text == NULL)
        continue;
      if (!lock (steps[i].text, steps[i].locked, now, room, edit, error))
        return NULL;
      SwJob *next = sw_job_apply (now, edit, TRUE, error);
      if (next == NULL)
        return NULL;
      sw_job_unref (now);
      now = next;
    }
  return g_steal_pointer (&now);
}
