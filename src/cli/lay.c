/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/error.h"
#include "base/number.h"
#include "cli/lay_choices.h"
#include "ceiling/layout.h"
#include "cli/verbs.h"
#include "estimate/lay_rooms.h"
#include <glib/gi18n.h>
#include <string.h>

typedef struct
{
  char *format, *to, *output;
  gboolean again, replace;
  SwCliLayChoices choices;
  char **rooms; /* marks or names; NULL-ended, borrowed */
  SwCliTable table;
  guint n_laid, n_left;
} Lay;

static void
lay_clear (Lay *lay)
{
  g_free (lay->format);
  g_free (lay->to);
  g_free (lay->output);
  g_free (lay->choices.keep);
  g_free (lay->choices.release);
  sw_cli_table_clear (&lay->table);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Lay, lay_clear)

static const SwCliColumn columns[] = {
  { "room", N_ ("Room"), FALSE },
  { "name", N_ ("Name"), FALSE },
  { "did", NULL, FALSE },
  { "battens", N_ ("Battens"), TRUE },
  { "batten_m", N_ ("m"), TRUE },
  { "primaries", NULL, TRUE },
  { "primary_m", NULL, TRUE },
  { "noggins", NULL, TRUE },
  { "noggin_m", NULL, TRUE },
  { "trimmers", NULL, TRUE },
  { "trimmer_m", NULL, TRUE },
  { "wall_battens", NULL, TRUE },
  { "wall_batten_m", NULL, TRUE },
  { "studs", NULL, TRUE },
  { "stud_m", NULL, TRUE },
  { "timber_m", N_ ("Framing m"), TRUE },
  { "boards", N_ ("Boards"), TRUE },
  { "pieces", N_ ("Pieces"), TRUE },
  { "board_m2", N_ ("m²"), TRUE },
  { "waste_m2", N_ ("Waste m²"), TRUE },
  { "waste_percent", N_ ("Waste %"), TRUE },
  { "joint_m", N_ ("Joints m"), TRUE },
  { "remarks", N_ ("What was done"), FALSE },
};

static void
put_fixed (SwCliTable *table, double value, int decimals)
{
  char text[SW_NUMBER_BUF];
  sw_cli_table_put (table, sw_number_write_fixed (value, decimals, text));
}

static void
put_timber (SwCliTable *table, const SwLaidFigures *figures)
{
  static const SwMemberKind order[]
      = { SW_MEMBER_BATTEN, SW_MEMBER_PRIMARY, SW_MEMBER_NOGGIN, SW_MEMBER_TRIMMER, SW_MEMBER_PERIMETER, SW_MEMBER_STUD };
  double sum = 0;
  for (gsize i = 0; i < G_N_ELEMENTS (order); i++)
    {
      put_fixed (table, figures->n_members[order[i]], 0);
      put_fixed (table, figures->member_mm[order[i]] / 1e3, 2);
      sum += figures->member_mm[order[i]];
    }
  put_fixed (table, sum / 1e3, 2);
}

static void
put_boards (SwCliTable *table, const SwLaidFigures *figures)
{
  double waste = figures->sheet_mm2 - figures->piece_mm2;
  put_fixed (table, figures->n_sheets, 0);
  put_fixed (table, figures->n_pieces, 0);
  put_fixed (table, figures->piece_mm2 / 1e6, 2);
  put_fixed (table, waste / 1e6, 2);
  put_fixed (table, figures->sheet_mm2 > 0 ? 100 * waste / figures->sheet_mm2 : 0, 1);
  put_fixed (table, figures->joint_mm / 1e3, 2);
}

/* "laid out; light would cut a batten: 2" */
static char *
remarks_of (const SwRoomLaid *laid)
{
  GString *text = g_string_new (_(sw_laid_text (laid->deed)));
  if (laid->fault != NULL)
    g_string_append_printf (text, ": %s", laid->fault->message);
  for (guint kind = 0; kind < SW_N_CEILING_MARKS; kind++)
    if (laid->n_marks[kind] > 0 && kind != SW_CEILING_SHIFT)
      g_string_append_printf (text, "; %s: %u", _(sw_ceiling_mark_text ((SwCeilingMarkKind) kind)),
                              laid->n_marks[kind]);
  if (laid->cleared > 0)
    g_string_append_printf (text, _("; battens shifted to %.0f mm would clear lights and crossings: %u"), laid->shift_mm, laid->cleared);
  return g_string_free (text, FALSE);
}

static void
put_room (Lay *lay, const SwRoomLaid *laid)
{
  g_autofree char *remarks = remarks_of (laid);
  SwCliTable *table = &lay->table;
  sw_cli_table_put (table, laid->room->record.tag);
  sw_cli_table_put (table, laid->room->name);
  sw_cli_table_put (table, sw_laid_word (laid->deed));
  if (laid->deed != SW_LAID_NOT)
    {
      put_timber (table, &laid->figures);
      put_boards (table, &laid->figures);
    }
  while (table->cells->len % table->n != table->n - 1)
    sw_cli_table_put (table, NULL);
  sw_cli_table_put (table, remarks);
  lay->n_left += laid->deed == SW_LAID_NOT;
  lay->n_laid += laid->deed != SW_LAID_NOT;
}

/* The rooms named, each once. */
static GArray *
read_rooms (const Lay *lay, const SwJob *job, GError **error)
{
  g_autoptr (GArray) rooms = g_array_new (FALSE, FALSE, sizeof (SwId));
  for (guint i = 0; lay->rooms[i] != NULL; i++)
    {
      const SwRoom *room = sw_cli_find_room (job, lay->rooms[i], error);
      gboolean twice = FALSE;
      if (room == NULL)
        return NULL;
      for (guint k = 0; k < rooms->len; k++)
        twice = twice || g_array_index (rooms, SwId, k) == room->record.id;
      if (!twice)
        g_array_append_val (rooms, room->record.id);
    }
  return g_steal_pointer (&rooms);
}

static gboolean
lay_rooms (Lay *lay, SwJob *job, const GArray *rooms, SwEdit *edit, GError **error)
{
  g_autoptr (SwRules) rules = sw_cli_rules_of (job, error);
  if (rules == NULL)
    return FALSE;
  g_autoptr (SwDeck) deck = sw_deck_new (job);
  const SwLayWanted wanted = { (const SwId *) (gpointer) rooms->data, rooms->len, lay->again };
  g_autoptr (GArray) laid = sw_lay_rooms (deck, rules, &wanted, edit, NULL, error);
  for (guint i = 0; laid != NULL && i < laid->len; i++)
    put_room (lay, &g_array_index (laid, SwRoomLaid, i));
  return laid != NULL;
}

/* The alternative that was asked for. */
static gboolean
take_choice (Lay *lay, SwJob *job, SwId room, SwEdit *edit, GError **error)
{
  const SwRoom *record = (const SwRoom *) sw_job_get (job, room);
  g_autoptr (SwDeck) deck = NULL;
  g_autoptr (SwLayChoices) choices = sw_cli_lay_choices_new (&lay->choices, job, record, &deck, error);
  const SwCeilingChoice *choice = choices != NULL ? sw_cli_lay_chosen (&lay->choices, choices, error) : NULL;
  if (choice == NULL || !sw_lay_choose (choice, edit, job, error))
    return FALSE;
  SwRoomLaid laid = { .room = choice->room, .figures = sw_laid_figures (choice->ceiling) };
  laid.deed = sw_ceiling_layout_of (job, room) == NULL ? SW_LAID_NEW : SW_LAID_AGAIN;
  sw_laid_marks (choice->ceiling, &laid);
  put_room (lay, &laid);
  return TRUE;
}

/* A SwCliChange. */
static SwEdit *
lay_out (SwJob *job, gpointer data, GError **error)
{
  Lay *lay = data;
  g_autoptr (SwEdit) edit = sw_edit_new (lay->choices.choose > 0 ? _("Choose boards") : _("Lay out ceilings"));
  g_autoptr (GArray) rooms = read_rooms (lay, job, error);
  if (rooms == NULL)
    return NULL;
  SwId first = rooms->len > 0 ? g_array_index (rooms, SwId, 0) : 0;
  g_autoptr (SwJob) locked = sw_cli_lay_lock (&lay->choices, job, first, error);
  if (locked == NULL)
    return NULL;
  if (!(lay->choices.choose > 0 ? take_choice (lay, locked, first, edit, error) : lay_rooms (lay, locked, rooms, edit, error)))
    return NULL;
  if (locked == job)
    return g_steal_pointer (&edit);
  g_autoptr (SwJob) next = sw_job_apply (locked, edit, TRUE, error);
  return next != NULL ? sw_edit_between (edit->name, job, next) : NULL;
}

/* The job with its layouts goes into another file. */
static int
lay_into (Lay *lay, const char *path)
{
  GError *error = NULL;
  g_autoptr (SwJob) job = sw_cli_open_job (path);
  if (job == NULL)
    return SW_CLI_FAILED;
  g_autoptr (SwEdit) edit = lay_out (job, lay, &error);
  g_autoptr (SwJob) next = edit != NULL ? sw_job_apply (job, edit, TRUE, &error) : NULL;
  return next != NULL ? sw_cli_save_job (next, lay->output, lay->replace) : sw_cli_fail (error);
}

static int
report (const Lay *lay)
{
  g_autofree char *text = sw_cli_table_write (&lay->table, lay->format);
  int result = sw_cli_put (lay->to, text, -1);
  if (lay->n_laid + lay->n_left == 0)
    g_printerr ("soffit: %s\n", _("no room of the job has a closed ceiling"));
  return result != SW_CLI_GOOD || lay->n_left == 0 ? result : SW_CLI_STOPS;
}

/* Nothing is changed in the file, whatever pieces are to be kept in the list. */
static int
list_choices (const Lay *lay, const char *path)
{
  GError *error = NULL;
  g_autoptr (SwJob) job = sw_cli_open_job (path);
  if (job == NULL)
    return SW_CLI_FAILED;
  g_autoptr (GArray) rooms = read_rooms (lay, job, &error);
  g_autoptr (SwJob) locked = rooms != NULL ? sw_cli_lay_lock (&lay->choices, job, g_array_index (rooms, SwId, 0), &error) : NULL;
  return locked != NULL ? sw_cli_lay_choices_list (&lay->choices, locked, lay->rooms[0], lay->format, lay->to) : sw_cli_fail (error);
}

int
sw_cli_lay (const SwCliVerb *verb, int argc, char **argv)
{
  g_auto (Lay) lay = { .table = sw_cli_table (columns, G_N_ELEMENTS (columns)) };
  const GOptionEntry options[] = {
    { "again", 'a', 0, G_OPTION_ARG_NONE, &lay.again, N_ ("those rooms too whose layout is up to date"),
      NULL },
    { "alternatives", 0, 0, G_OPTION_ARG_NONE, &lay.choices.list,
      N_ ("list other ways of laying the boards of one ROOM, with cost, sheets, joints and waste, and change nothing"), NULL },
    { "choose", 0, 0, G_OPTION_ARG_INT, &lay.choices.choose, N_ ("lay the ROOM as alternative N of that list"), N_ ("N") },
    { "keep-direction", 0, 0, G_OPTION_ARG_NONE, &lay.choices.keep_direction,
      N_ ("only alternatives whose battens run as they do now"), NULL },
    { "keep", 0, 0, G_OPTION_ARG_STRING, &lay.choices.keep,
      N_ ("keep these pieces of the ROOM where they are: their numbers with commas between, or all"), N_ ("PIECES") },
    { "free", 0, 0, G_OPTION_ARG_STRING, &lay.choices.release, N_ ("let these pieces go again"), N_ ("PIECES") },
    { "output", 'o', 0, G_OPTION_ARG_FILENAME, &lay.output,
      N_ ("write the job into FILE and leave JOB as it is"), N_ ("FILE") },
    { "replace", 'r', 0, G_OPTION_ARG_NONE, &lay.replace, N_ ("replace a FILE that is there"), NULL },
    SW_CLI_OUTPUT_OPTIONS (lay),
    { NULL },
  };
  if (!sw_cli_parse (verb, options, &argc, &argv, 1, G_MAXINT) || !sw_cli_format_good (verb, lay.format))
    return SW_CLI_USAGE;
  lay.rooms = argv + 2;
  if (lay.choices.choose < 0)
    return sw_cli_misuse (verb, "%s", _("--choose is the number of an alternative, from 1"));
  if (sw_cli_lay_choices_wanted (&lay.choices) && argc != 3)
    return sw_cli_misuse (verb, "%s", _("alternatives and pieces that stay are of one room: name it"));
  if (lay.choices.list)
    return list_choices (&lay, argv[1]);
  if (strcmp (argv[1], "-") == 0 && lay.output == NULL)
    return sw_cli_misuse (verb, "%s", _("a job from standard input needs --output"));
  int result = lay.output != NULL ? lay_into (&lay, argv[1]) : sw_cli_change_job (argv[1], lay_out, &lay);
  return result == SW_CLI_GOOD ? report (&lay) : result;
}
