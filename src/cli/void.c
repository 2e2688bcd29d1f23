/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What a job's own void has room for: what runs in it, the widest tube beside that, and whether more tubes fit. */
#include "base/error.h"
#include "base/number.h"
#include "checks/questions.h"
#include "cli/export_context.h"
#include "cli/pages.h"
#include "cli/price_job.h"
#include "cli/verbs.h"
#include "sheets/pictures.h"
#include "sheets/report.h"
#include "space/void_room.h"
#include <glib/gi18n.h>
#include <math.h>
#include <string.h>

static const SwCliColumn columns[] = {
  { "kind", N_("Kind"), FALSE }, { "mark", N_("Mark"), FALSE }, { "size_mm", N_("Size"), TRUE }, { "outside_mm", N_("Outside"), TRUE },
  { "x_mm", N_("From the middle"), TRUE }, { "z_mm", N_("Axis above the soffit"), TRUE }, { "fall_n", N_("Fall 1:n"), TRUE }, { "run_m", N_("Longest run (m)"), TRUE },
  { "wc_run_m", N_("Under a WC bend (m)"), TRUE }, { "says", N_("Says"), FALSE },
};

static void
put_number (SwCliTable *table, double value)
{
  char figure[SW_NUMBER_BUF];
  sw_cli_table_put (table, isfinite (value) ? sw_number_write_fixed (value, 1, figure) : NULL);
}

static void
put_row (SwCliTable *table, const char *kind, const char *mark, double size, const SwPackTube *tube, const char *says)
{
  sw_cli_table_put (table, kind);
  sw_cli_table_put (table, mark);
  put_number (table, size);
  put_number (table, tube != NULL ? 2 * tube->radius : NAN);
  put_number (table, tube != NULL ? tube->at.x : NAN);
  put_number (table, tube != NULL ? tube->at.y : NAN);
  for (int i = 0; i < 3; i++)
    sw_cli_table_put (table, NULL);
  sw_cli_table_put (table, says);
}

/* ---- how far pipes fall */

static SwWorking *
ask_falls (SwRules *rules, double depth, const char *start)
{
  char figure[SW_NUMBER_BUF];
  g_autoptr (GHashTable) given = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  g_hash_table_insert (given, g_strdup ("depth"), g_strdup (sw_number_write_fixed (depth, 1, figure)));
  g_hash_table_insert (given, g_strdup ("start"), g_strdup (start));
  return sw_question_ask (sw_questions_find ("fall-table"), rules, given, NULL);
}

/* Each size at each fall in the empty void, before its socket meets the soffit: both tables have the same rows. None where the rule set
 * has no sockets. */
static void
put_falls (SwCliTable *table, SwRules *rules, double depth)
{
  g_autoptr (SwWorking) socket = ask_falls (rules, depth, "socket"), bend = ask_falls (rules, depth, "wc");
  guint n = socket != NULL && bend != NULL ? MIN (sw_working_n_rows (socket), sw_working_n_rows (bend)) : 0;
  for (guint row = 0; row < n; row++)
    {
      const double *cells = &g_array_index (socket->cells, double, row * socket->n_columns), *under = &g_array_index (bend->cells, double, row * bend->n_columns);
      sw_cli_table_put (table, "fall");
      sw_cli_table_put (table, NULL);
      put_number (table, cells[0]);
      put_number (table, cells[1]);
      put_number (table, NAN);
      put_number (table, NAN);
      put_number (table, cells[2]);
      put_number (table, cells[3] / 1000);
      put_number (table, under[3] / 1000);
      sw_cli_table_put (table, cells[3] > 0 ? _("before its socket meets the soffit") : _("does not fit"));
    }
}

/* ---- which void */

static gboolean
find_void (const SwDeck *deck, const char *tag, const char *number, const SwDeckBay **bay, guint *index, GError **error)
{
  gint64 wanted;
  for (guint b = 0; b < sw_deck_n_bays (deck); b++)
    {
      *bay = sw_deck_bay (deck, b);
      if (strcmp ((*bay)->bay->record.tag, tag) != 0)
        continue;
      for (*index = 0; sw_number_read_int (number, &wanted, NULL) && *index < (*bay)->voids->len; ++*index)
        if (g_array_index ((*bay)->voids, SwVoid, *index).number == wanted)
          return TRUE;
      g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, _("bay \"%s\" has no void \"%s\""), tag, number);
      return FALSE;
    }
  g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, _("the job has no bay \"%s\""), tag);
  return FALSE;
}

/* ---- what is said of it */

static void
put_runs (SwCliTable *table, const SwJob *job, const GArray *there)
{
  SwId before = 0;
  for (guint i = 0; i < there->len; i++)
    {
      const SwVoidTube *tube = &g_array_index (there, SwVoidTube, i);
      const SwRun *run = (const SwRun *) sw_job_get (job, tube->run);
      if (tube->run != before)
        put_row (table, "run", run->record.tag, run->od, &tube->tube, NULL);
      before = tube->run;
    }
}

static void
put_tubes (SwCliTable *table, const SwPackCase *pack, SwPackTube *tubes, const double *sizes, guint n)
{
  SwPackResult result = sw_packing_find (pack, tubes, n);
  for (guint i = 0; i < n; i++)
    {
      if (result != SW_PACK_FITS)
        tubes[i].at = (SwPoint){ NAN, NAN };
      put_row (table, "tube", NULL, sizes[i], &tubes[i], _(sw_picture_packing_word (result)));
    }
}

static gboolean
fill_table (SwCliTable *table, const SwSpace *space, char **argv, GError **error)
{
  const SwDeckBay *bay;
  guint index, n = 0;
  SwPackTube tubes[SW_PACK_MOST];
  double sizes[SW_PACK_MOST];
  if (!find_void (sw_space_deck (space), argv[2], argv[3], &bay, &index, error)
      || (argv[4] != NULL && !sw_picture_read_tubes (sw_space_rules (space), argv[4], tubes, sizes, &n, error)))
    return FALSE;
  SwPackCase pack = sw_void_section (space, bay, index);
  g_autoptr (GArray) there = sw_void_tubes (space, bay, index, 0, bay->length);
  g_autofree SwPackTube *fixed = g_new (SwPackTube, MAX (there->len, 1));
  for (guint i = 0; i < there->len; i++)
    fixed[i] = g_array_index (there, SwVoidTube, i).tube;
  pack.fixed = fixed;
  pack.n_fixed = there->len;
  SwPackTube widest = { 0 };
  widest.radius = sw_packing_largest_beside (&pack, &widest.at) / 2;
  put_runs (table, sw_space_job (space), there);
  put_row (table, "widest", NULL, NAN, &widest, widest.radius > 0 ? _("widest tube from end to end") : _("nothing more fits"));
  if (n > 0)
    put_tubes (table, &pack, tubes, sizes, n);
  put_falls (table, sw_space_rules (space), pack.depth);
  return TRUE;
}

/* The sheet of the void with the tubes, as the ending of `to` says. */
static int
draw_void (char **argv, const char *to)
{
  GError *error = NULL;
  const SwDeckBay *bay;
  guint index;
  SwPageFormat format;
  g_autoptr (SwPapers) papers = sw_cli_open_papers (argv[1]);
  if (papers == NULL)
    return SW_CLI_FAILED;
  const SwSheetContext *context = sw_papers_context (papers);
  if (!sw_page_format_find (to, &format, &error) || !find_void (context->deck, argv[2], argv[3], &bay, &index, &error))
    return sw_cli_fail (error);
  SwSheetArgs about = { .record = bay->bay->record.id, .void_number = g_array_index (bay->voids, SwVoid, index).number, .along = -1, .tubes = argv[4] };
  g_autoptr (SwSheet) sheet = sw_sheet_draw (context, sw_sheets_find ("void-room"), &about, &error);
  return sheet != NULL ? sw_cli_put_pages (sw_sheet_pages (sheet), sw_sheet_n_pages (sheet), format, to) : sw_cli_fail (error);
}

static int
show_void (const SwCliPriceArgs *args, char **argv)
{
  GError *error = NULL;
  g_autoptr (SwJob) job = sw_cli_open_job (argv[1]);
  if (job == NULL)
    return SW_CLI_FAILED;
  const SwJobInfo *info = sw_job_info (job);
  g_autoptr (SwRules) rules = sw_rules_load_text (info->rule_set, *info->rule_overrides != '\0' ? info->rule_overrides : NULL, "the job's own values", &error);
  g_autoptr (SwDeck) deck = rules != NULL ? sw_deck_new (job) : NULL;
  g_autoptr (SwSpace) space = deck != NULL ? sw_space_new (deck, rules, &error) : NULL;
  g_auto (SwCliTable) table = sw_cli_table (columns, G_N_ELEMENTS (columns));
  if (space == NULL || !fill_table (&table, space, argv, &error))
    return sw_cli_fail (error);
  g_autofree char *text = sw_cli_table_write (&table, args->format);
  return sw_cli_put (args->to, text, -1);
}

int
sw_cli_void (const SwCliVerb *verb, int argc, char **argv)
{
  g_auto (SwCliPriceArgs) args = { NULL };
  g_autofree char *picture = NULL;
  const GOptionEntry options[] = {
    SW_CLI_OUTPUT_OPTIONS (args),
    { "picture", 0, 0, G_OPTION_ARG_FILENAME, &picture, N_("draw it: FILE-1 the section, FILE-2 how far pipes fall; svg, pdf or png by the ending"), N_("FILE") },
    { NULL },
  };
  if (!sw_cli_parse (verb, options, &argc, &argv, 3, 4) || !sw_cli_format_good (verb, args.format))
    return SW_CLI_USAGE;
  int drawn = picture != NULL ? draw_void (argv, picture) : SW_CLI_GOOD;
  return drawn == SW_CLI_GOOD ? show_void (&args, argv) : drawn;
}
