/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/cut_write.h"
#include "cli/pages.h"
#include "cli/verbs.h"
#include <glib/gi18n.h>
#include <string.h>

#define MOST_EFFORT 1000

typedef struct
{
  char *format, *to, *title, *paper;
  int effort;
  gboolean mono;
} CutArgs;

static void
args_clear (CutArgs *args)
{
  char *texts[] = { args->format, args->to, args->title, args->paper };
  for (gsize i = 0; i < G_N_ELEMENTS (texts); i++)
    g_free (texts[i]);
}
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (CutArgs, args_clear)

/* By --format, else by the ending of --to, else text. */
static const char *
format_of (const CutArgs *args)
{
  const char *ending = args->to != NULL ? strrchr (args->to, '.') : NULL;
  if (args->format != NULL || ending == NULL)
    return args->format != NULL ? args->format : "text";
  return strcmp (ending, ".txt") == 0 ? "text" : ending + 1;
}

static gboolean
is_format (const char *format)
{
  static const char *const formats[] = { "text", "csv", "json", "svg", "pdf", "png", NULL };
  return g_strv_contains (formats, format);
}

static SwCutTask *
read_task (const char *items, const char *stock, GError **error)
{
  g_autofree char *wanted = NULL, *have = NULL, *items_name = g_filename_display_name (items),
                  *stock_name = g_filename_display_name (stock);
  gsize n_wanted, n_have;
  if (!sw_cli_read (items, &wanted, &n_wanted, error) || !sw_cli_read (stock, &have, &n_have, error))
    return NULL;
  return sw_cut_task_read (&(SwCutSource){ wanted, (gssize) n_wanted, items_name },
                           &(SwCutSource){ have, (gssize) n_have, stock_name }, error);
}

static int
cut (const CutArgs *args, const SwPage *page, const char *items, const char *stock)
{
  GError *error = NULL;
  g_autoptr (SwCutTask) task = read_task (items, stock, &error);
  if (task != NULL)
    task->effort = (guint) args->effort;
  g_autoptr (SwCutPlan) plan = task != NULL ? sw_cut_plan_new (task, NULL, &error) : NULL;
  if (plan == NULL)
    return sw_cli_fail (error);
  const char *format = format_of (args);
  SwPageFormat drawing;
  g_autofree char *ending = g_strconcat (".", format, NULL);
  if (sw_page_format_find (ending, &drawing, NULL))
    {
      g_autoptr (SwCutPages) pages
          = sw_cut_pages_new (plan, args->title != NULL ? args->title : _("Cutting list"), page);
      guint n;
      const SwSheetPage *first = sw_cut_pages_get (pages, &n);
      return sw_cli_put_pages (first, n, drawing, args->to);
    }
  g_autofree char *text = sw_cli_cut_write (plan, format);
  return sw_cli_put (args->to, text, -1);
}

int
sw_cli_cut (const SwCliVerb *verb, int argc, char **argv)
{
  g_auto (CutArgs) args = { .effort = 1 };
  SwPage page = { .paper = SW_PAPER_A4 };
  const GOptionEntry options[] = {
    { "format", 'f', 0, G_OPTION_ARG_STRING, &args.format,
      N_ ("text, csv, json, svg, pdf or png; else by the ending of FILE, else text"), N_ ("FORMAT") },
    { "to", 't', 0, G_OPTION_ARG_FILENAME, &args.to,
      N_ ("write into FILE instead of standard output; of several pages FILE-1, FILE-2 …"), N_ ("FILE") },
    { "effort", 'e', 0, G_OPTION_ARG_INT, &args.effort,
      N_ ("search N times as long for the least and its proof; 1 to 1000"), N_ ("N") },
    { "title", 0, 0, G_OPTION_ARG_STRING, &args.title, N_ ("the heading of drawings"), N_ ("TEXT") },
    { "paper", 0, 0, G_OPTION_ARG_STRING, &args.paper, N_ ("of drawings: A4 (the default), A3, A2 or A1"),
      N_ ("PAPER") },
    { "mono", 'm', 0, G_OPTION_ARG_NONE, &args.mono, N_ ("drawings for black-and-white print"), NULL },
    { NULL },
  };
  if (!sw_cli_parse (verb, options, &argc, &argv, 2, 2))
    return SW_CLI_USAGE;
  if (!is_format (format_of (&args)))
    return sw_cli_misuse (verb, _("there is no format \"%s\": text, csv, json, svg, pdf or png"),
                          format_of (&args));
  if (args.paper != NULL && !sw_paper_find (args.paper, &page.paper))
    return sw_cli_misuse (verb, _("there is no paper \"%s\": A4, A3, A2 or A1"), args.paper);
  if (args.effort < 1 || args.effort > MOST_EFFORT)
    return sw_cli_misuse (verb, "%s", _("--effort is a number from 1 to 1000"));
  if (strcmp (argv[1], "-") == 0 && strcmp (argv[2], "-") == 0)
    return sw_cli_misuse (verb, "%s", _("only one of the lists can come from standard input"));
  page.theme = args.mono ? SW_THEME_MONO : SW_THEME_LIGHT;
  return cut (&args, &page, argv[1], argv[2]);
}
