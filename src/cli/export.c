/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/export_context.h"
#include "cli/verbs.h"
#include "sheets/report.h"
#include <glib/gi18n.h>
#include <string.h>

/* "svg,csv": which of the words stand in the list; FALSE for one that is none. */
static gboolean
read_formats (const char *text, SwReportFormats *formats)
{
  static const struct { const char *word; SwReportFormats format; } words[] = {
    { "svg", SW_REPORT_SVG }, { "pdf", SW_REPORT_PDF }, { "png", SW_REPORT_PNG }, { "set", SW_REPORT_SET }, { "csv", SW_REPORT_CSV },
  };
  g_auto (GStrv) parts = g_strsplit (text, ",", -1);
  *formats = 0;
  for (guint i = 0; parts[i] != NULL; i++)
    {
      SwReportFormats before = *formats;
      for (gsize k = 0; k < G_N_ELEMENTS (words); k++)
        if (strcmp (parts[i], words[k].word) == 0)
          *formats |= words[k].format;
      if (*formats == before)
        return FALSE;
    }
  return TRUE;
}

static int
export_all (const char *path, const char *to, SwReportFormats formats, gboolean mono, const char *date)
{
  GError *error = NULL;
  g_autoptr (SwPapers) papers = sw_cli_open_papers (path);
  if (papers == NULL)
    return SW_CLI_FAILED;
  SwSheetContext context = *sw_papers_context (papers);
  context.date = date;
  context.options.theme = mono ? SW_THEME_MONO : SW_THEME_LIGHT;
  g_auto (GStrv) written = sw_sheets_export_all (&context, to, formats, NULL, NULL, NULL, &error);
  if (written == NULL)
    return sw_cli_fail (error);
  g_autofree char *list = g_strjoinv ("\n", written), *text = g_strconcat (list, "\n", NULL);
  return sw_cli_put (NULL, text, -1);
}

int
sw_cli_export (const SwCliVerb *verb, int argc, char **argv)
{
  g_autofree char *to = NULL, *format = NULL, *date = NULL;
  SwReportFormats formats = SW_REPORT_SVG | SW_REPORT_CSV;
  gboolean all = FALSE, mono = FALSE;
  const GOptionEntry options[] = {
    { "all", 'a', 0, G_OPTION_ARG_NONE, &all, N_("every sheet and every schedule"), NULL },
    { "to", 't', 0, G_OPTION_ARG_FILENAME, &to, N_("write into this folder"), N_("FOLDER") },
    { "format", 'f', 0, G_OPTION_ARG_STRING, &format, N_("of svg, pdf, png, set (one PDF of all sheets), csv: those wanted, with commas; else svg,csv"), N_("FORMATS") },
    { "mono", 'm', 0, G_OPTION_ARG_NONE, &mono, N_("for black-and-white print"), NULL },
    { "date", 0, 0, G_OPTION_ARG_STRING, &date, N_("the date to write on the sheets; else room is left for one"), N_("DATE") },
    { NULL },
  };
  if (!sw_cli_parse (verb, options, &argc, &argv, 1, 1))
    return SW_CLI_USAGE;
  if (!all || to == NULL)
    return sw_cli_misuse (verb, "%s", _("say --all and, with --to, a folder"));
  if (format != NULL && !read_formats (format, &formats))
    return sw_cli_misuse (verb, _("\"%s\" names no formats: svg, pdf, png, set and csv, with commas between them"), format);
  return export_all (argv[1], to, formats, mono, date);
}
