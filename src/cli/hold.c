/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Enters what was seen at a hold point of a room. Without a kind, what has been entered is listed. */
#include "base/error.h"
#include "cli/verbs.h"
#include "job/holds.h"
#include <glib/gi18n.h>
#include <string.h>

typedef struct
{
  const char *room, *kind;
  char *result, *by, *on, *note;
} HoldArgs;

/* Place of a word of a choice; −1 when it is none. */
static int
word_of (const char *field, const char *text)
{
  const SwWord *words = sw_struct_field (&sw_type_get (SW_TABLE_HOLD_POINT)->body, field)->words;
  for (int i = 0; words[i].key != NULL; i++)
    if (strcmp (words[i].key, text) == 0)
      return i;
  return -1;
}

static char *
words_text (const char *field)
{
  const SwWord *words = sw_struct_field (&sw_type_get (SW_TABLE_HOLD_POINT)->body, field)->words;
  GString *text = g_string_new (NULL);
  for (int i = 0; words[i].key != NULL; i++)
    g_string_append_printf (text, "%s%s", i > 0 ? ", " : "", words[i].key);
  return g_string_free (text, FALSE);
}

static SwEdit *
enter (SwJob *job, gpointer data, GError **error)
{
  const HoldArgs *args = data;
  const SwRoom *room = sw_cli_find_room (job, args->room, error);
  int kind = word_of ("kind", args->kind), result = word_of ("result", args->result != NULL ? args->result : "passed");
  g_autofree char *kinds = words_text ("kind"), *results = words_text ("result");
  if (room == NULL)
    return NULL;
  if (kind < 0 || result < 0)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INVALID, _("there is no \"%s\": one of %s"), kind < 0 ? args->kind : args->result, kind < 0 ? kinds : results);
      return NULL;
    }
  SwHoldEntry entry = { (SwResult) result, args->by, args->on, args->note };
  return sw_job_enter_hold (job, room->record.id, (SwHoldKind) kind, &entry, error);
}

static int
list_holds (const char *path, const char *name)
{
  GError *error = NULL;
  g_autoptr (SwJob) job = sw_cli_open_job (path);
  const SwRoom *room = job != NULL ? sw_cli_find_room (job, name, &error) : NULL;
  g_autoptr (GString) text = g_string_new (NULL);
  const SwType *type = sw_type_get (SW_TABLE_HOLD_POINT);
  const SwWord *kinds = sw_struct_field (&type->body, "kind")->words, *results = sw_struct_field (&type->body, "result")->words;
  if (job == NULL)
    return SW_CLI_FAILED;
  if (room == NULL)
    return sw_cli_fail (error);
  for (int i = 0; kinds[i].key != NULL; i++)
    {
      const SwHoldPoint *hold = sw_job_hold_point (job, room->record.id, (SwHoldKind) i);
      g_string_append_printf (text, "%-12s %-34s %-8s %s %s %s\n", kinds[i].key, _(kinds[i].label), hold != NULL ? _(results[hold->result].label) : "",
                              hold != NULL ? hold->on : "", hold != NULL ? hold->by : "", hold != NULL ? hold->note : "");
    }
  return sw_cli_put (NULL, text->str, -1);
}

int
sw_cli_hold (const SwCliVerb *verb, int argc, char **argv)
{
  HoldArgs args = { NULL };
  const GOptionEntry options[] = {
    { "result", 'r', 0, G_OPTION_ARG_STRING, &args.result, N_("passed (the default), failed or open"), N_("WORD") },
    { "by", 'b', 0, G_OPTION_ARG_STRING, &args.by, N_("who saw it"), N_("NAME") },
    { "on", 'o', 0, G_OPTION_ARG_STRING, &args.on, N_("the day, as 2026-01-31"), N_("DATE") },
    { "note", 'n', 0, G_OPTION_ARG_STRING, &args.note, N_("what else is to be kept"), N_("TEXT") },
    { NULL },
  };
  int code = SW_CLI_USAGE;
  if (sw_cli_parse (verb, options, &argc, &argv, 2, 3))
    {
      args.room = argv[2];
      args.kind = argc > 3 ? argv[3] : NULL;
      code = args.kind != NULL ? sw_cli_change_job (argv[1], enter, &args) : list_holds (argv[1], args.room);
    }
  g_free (args.result);
  g_free (args.by);
  g_free (args.on);
  g_free (args.note);
  return code;
}
