/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/number.h"
#include "cli/export_context.h"
#include "cli/pages.h"
#include "cli/verbs.h"
#include "sheets/report.h"
#include <glib/gi18n.h>
#include <string.h>

typedef struct
{
  char *id, *of, *over, *tubes, *format, *to, *paper, *date, *scale;
  gboolean list, mono, up, down;
} SheetArgs;

static void
args_clear (SheetArgs *args)
{
  char *texts[] = { args->id, args->of, args->over, args->tubes, args->format, args->to, args->paper, args->date, args->scale };
  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    g_free (texts[i]);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (SheetArgs, args_clear)

static int
list_sheets (const char *to)
{
  static const char *const about[] = { "", N_("--run MARK"), N_("--void BAY:NUMBER[:ALONG]"), N_("[--sleeve MARK]") };
  g_autoptr (GString) text = g_string_new (NULL);
  for (guint i = 0; i < sw_sheets_n (); i++)
    {
      const SwSheetInfo *info = sw_sheets_get (i);
      g_string_append_printf (text, "%-18s %s %s\n", info->id, _(info->description), *about[info->about] != '\0' ? _(about[info->about]) : "");
    }
  return sw_cli_put (to, text->str, -1);
}

/* "bay A:7" or "bay A:7:3400": the mark of a bay, a void's number, mm along it. */
static gboolean
read_void (const char *text, const SwJob *job, SwSheetArgs *args)
{
  g_auto (GStrv) parts = g_strsplit (text, ":", -1);
  gint64 number;
  const SwRecord *bay = parts[0] != NULL ? sw_job_find (job, parts[0]) : NULL;
  guint n = g_strv_length (parts);
  if (bay == NULL || sw_record_table (bay) != SW_TABLE_BAY || n < 2 || n > 3 || !sw_number_read_int (parts[1], &number, NULL))
    return FALSE;
  if (n == 3 && (!sw_length_read (parts[2], SW_LENGTHS_MM, &args->along, NULL) || args->along < 0))
    return FALSE;
  args->record = bay->id;
  args->void_number = (int) CLAMP (number, G_MININT, G_MAXINT);
  return TRUE;
}

static gboolean
read_about (const SwCliVerb *verb, const SheetArgs *args, const SwJob *job, SwSheetArgs *about)
{
  if (args->of != NULL)
    {
      const SwRecord *record = sw_job_find (job, args->of);
      if (record == NULL)
        {
          sw_cli_misuse (verb, _("the job has nothing marked \"%s\""), args->of);
          return FALSE;
        }
      about->record = record->id;
    }
  if (args->over != NULL && !read_void (args->over, job, about))
    {
      sw_cli_misuse (verb, _("\"%s\" names no void: write the bay's mark, a colon and the void's number, such as \"bay A:7\""), args->over);
      return FALSE;
    }
  return TRUE;
}

static gboolean
read_options (const SwCliVerb *verb, const SheetArgs *args, SwSheetOptions *options)
{
  double scale = 0;
  options->has_paper = args->paper != NULL;
  if (options->has_paper && !sw_paper_find (args->paper, &options->paper))
    {
      sw_cli_misuse (verb, _("there is no paper \"%s\": A4, A3, A2 or A1"), args->paper);
      return FALSE;
    }
  if (args->scale != NULL && !(sw_number_read (g_str_has_prefix (args->scale, "1:") ? args->scale + 2 : args->scale, &scale, NULL) && scale >= 1))
    {
      sw_cli_misuse (verb, _("\"%s\" is no scale: write 50 or 1:50"), args->scale);
      return FALSE;
    }
  options->scale = scale;
  options->theme = args->mono ? SW_THEME_MONO : SW_THEME_LIGHT;
  options->looking = args->up ? SW_LOOKING_UP : args->down ? SW_LOOKING_DOWN : SW_LOOKING_AS_SHEET;
  return TRUE;
}

/* By --format, else by the ending of --to, else SVG. */
static gboolean
read_format (const SwCliVerb *verb, const SheetArgs *args, SwPageFormat *format)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *name = args->format != NULL ? g_strconcat (".", args->format, NULL) : g_strdup (args->to);
  *format = SW_PAGE_SVG;
  if (name == NULL || strcmp (name, "-") == 0 || sw_page_format_find (name, format, &error))
    return TRUE;
  sw_cli_misuse (verb, args->format != NULL ? _("there is no format \"%s\": svg, pdf or png") : _("say with --format how to write \"%s\": svg, pdf or png"),
                 args->format != NULL ? args->format : args->to);
  return FALSE;
}

static int
run_sheet (const SwCliVerb *verb, const SheetArgs *args, const char *path)
{
  GError *error = NULL;
  SwPageFormat format;
  SwSheetOptions options = { 0 };
  SwSheetArgs about = { .along = -1, .tubes = args->tubes };
  const SwSheetInfo *info = sw_sheets_find (args->id);
  if (info == NULL)
    return sw_cli_misuse (verb, _("there is no sheet \"%s\"; --list says which there are"), args->id);
  if (!read_format (verb, args, &format) || !read_options (verb, args, &options))
    return SW_CLI_USAGE;
  g_autoptr (SwPapers) papers = sw_cli_open_papers (path);
  if (papers == NULL)
    return SW_CLI_FAILED;
  SwSheetContext context = *sw_papers_context (papers);
  context.options = options;
  context.date = args->date;
  if (!read_about (verb, args, sw_sheet_job (&context), &about))
    return SW_CLI_USAGE;
  g_autoptr (SwSheet) sheet = sw_sheet_draw (&context, info, &about, &error);
  return sheet != NULL ? sw_cli_put_pages (sw_sheet_pages (sheet), sw_sheet_n_pages (sheet), format, args->to) : sw_cli_fail (error);
}

int
sw_cli_sheet (const SwCliVerb *verb, int argc, char **argv)
{
  g_auto (SheetArgs) args = { 0 };
  const GOptionEntry options[] = {
    { "list", 'l', 0, G_OPTION_ARG_NONE, &args.list, N_("say which sheets there are"), NULL },
    { "sheet", 's', 0, G_OPTION_ARG_STRING, &args.id, N_("draw this sheet"), N_("ID") },
    { "run", 0, 0, G_OPTION_ARG_STRING, &args.of, N_("the run that it is about"), N_("MARK") },
    { "sleeve", 0, 0, G_OPTION_ARG_STRING, &args.of, N_("the sleeve that it is about"), N_("MARK") },
    { "void", 0, 0, G_OPTION_ARG_STRING, &args.over, N_("the void that it is about, and how far along it to cut"), N_("BAY:NUMBER[:ALONG]") },
    { "tubes", 0, 0, G_OPTION_ARG_STRING, &args.tubes, N_("tubes that are to find room in the void, as in 110,2x25"), N_("TUBES") },
    { "format", 'f', 0, G_OPTION_ARG_STRING, &args.format, N_("svg, pdf or png; else by the ending of FILE"), N_("FORMAT") },
    { "to", 't', 0, G_OPTION_ARG_FILENAME, &args.to, N_("write into FILE instead of standard output; of several pages FILE-1, FILE-2 …"), N_("FILE") },
    { "paper", 0, 0, G_OPTION_ARG_STRING, &args.paper, N_("A4, A3, A2 or A1 in the place of the sheet's own"), N_("PAPER") },
    { "scale", 0, 0, G_OPTION_ARG_STRING, &args.scale, N_("this scale, on as many pages as it needs"), N_("1:N") },
    { "mono", 'm', 0, G_OPTION_ARG_NONE, &args.mono, N_("for black-and-white print"), NULL },
    { "up", 0, 0, G_OPTION_ARG_NONE, &args.up, N_("plans as seen looking up"), NULL },
    { "down", 0, 0, G_OPTION_ARG_NONE, &args.down, N_("plans as seen looking down"), NULL },
    { "date", 0, 0, G_OPTION_ARG_STRING, &args.date, N_("the date to write on it; else room is left for one"), N_("DATE") },
    { NULL },
  };
  if (!sw_cli_parse (verb, options, &argc, &argv, 0, 1))
    return SW_CLI_USAGE;
  if (args.list)
    return list_sheets (args.to);
  if (argc < 2 || args.id == NULL)
    return sw_cli_misuse (verb, "%s", _("name a job and, with --sheet, a sheet; --list says which there are"));
  return run_sheet (verb, &args, argv[1]);
}
