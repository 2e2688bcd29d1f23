/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/number.h"
#include "cli/price_job.h"
#include "cli/verbs.h"
#include "estimate/lay_rooms.h"
#include <glib/gi18n.h>
#include <string.h>

typedef struct
{
  char *format, *to, *output;
  gboolean again, replace;
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
  { "timber_m", N_ ("Timber m"), TRUE },
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
      = { SW_MEMBER_BATTEN, SW_MEMBER_PRIMARY, SW_MEMBER_NOGGIN, SW_MEMBER_TRIMMER, SW_MEMBER_PERIMETER };
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
    if (laid->n_marks[kind] > 0)
      g_string_append_printf (text, "; %s: %u", _(sw_ceiling_mark_text ((SwCeilingMarkKind) kind)),
                              laid->n_marks[kind]);
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

/* A SwCliChange. */
static SwEdit *
lay_out (SwJob *job, gpointer data, GError **error)
{
  Lay *lay = data;
  g_autoptr (SwEdit) edit = sw_edit_new (_("Lay out ceilings"));
  g_autoptr (GArray) rooms = read_rooms (lay, job, error);
  g_autoptr (SwRules) rules = rooms != NULL ? sw_cli_rules_of (job, error) : NULL;
  if (rules == NULL)
    return NULL;
  g_autoptr (SwDeck) deck = sw_deck_new (job);
  const SwLayWanted wanted = { (const SwId *) (gpointer) rooms->data, rooms->len, lay->again };
  g_autoptr (GArray) laid = sw_lay_rooms (deck, rules, &wanted, edit, NULL, error);
  for (guint i = 0; laid != NULL && i < laid->len; i++)
    put_room (lay, &g_array_index (laid, SwRoomLaid, i));
  return laid != NULL ? g_steal_pointer (&edit) : NULL;
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

int
sw_cli_lay (const SwCliVerb *verb, int argc, char **argv)
{
  g_auto (Lay) lay = { .table = sw_cli_table (columns, G_N_ELEMENTS (columns)) };
  const GOptionEntry options[] = {
    { "again", 'a', 0, G_OPTION_ARG_NONE, &lay.again, N_ ("those rooms too whose layout is up to date"),
      NULL },
    { "output", 'o', 0, G_OPTION_ARG_FILENAME, &lay.output,
      N_ ("write the job into FILE and leave JOB as it is"), N_ ("FILE") },
    { "replace", 'r', 0, G_OPTION_ARG_NONE, &lay.replace, N_ ("replace a FILE that is there"), NULL },
    SW_CLI_OUTPUT_OPTIONS (lay),
    { NULL },
  };
  if (!sw_cli_parse (verb, options, &argc, &argv, 1, G_MAXINT) || !sw_cli_format_good (verb, lay.format))
    return SW_CLI_USAGE;
  if (strcmp (argv[1], "-") == 0 && lay.output == NULL)
    return sw_cli_misuse (verb, "%s", _("a job from standard input needs --output"));
  lay.rooms = argv + 2;
  int result = lay.output != NULL ? lay_into (&lay, argv[1]) : sw_cli_change_job (argv[1], lay_out, &lay);
  return result == SW_CLI_GOOD ? report (&lay) : result;
}
