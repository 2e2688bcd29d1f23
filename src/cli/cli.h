/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "job/edit.h"
#include "rules/rules.h"
#include <gio/gio.h>

/* The command `soffit`: one sub-command, or verb, a file.
 *
 * To add a verb "count", which says how many rooms a job has:
 *   1. src/cli/count.c:
 *        int
 *        sw_cli_count (const SwCliVerb *verb, int argc, char **argv)
 *        {
 *          g_autoptr (SwJob) job = NULL;
 *          if (!sw_cli_parse (verb, NULL, &argc, &argv, 1, 1))
 *            return SW_CLI_USAGE;
 *          if ((job = sw_cli_open_job (argv[1])) == NULL)
 *            return SW_CLI_FAILED;
 *          g_autofree char *text = g_strdup_printf (_("%u rooms\n"), sw_job_count (job, SW_TABLE_ROOM));
 *          return sw_cli_put (NULL, text, -1);
 *        }
 *   2. a line in VERBS of verbs.h:  VERB (count, "JOB", N_("say how many rooms a job has"))
 *   3. the file in src/cli/meson.build and, for its _(), in po/POTFILES.in; a test in tests/cli/.
 *
 * What a verb finds goes to standard output or to the file of --to; everything else goes to standard error. */

typedef enum
{
  SW_CLI_GOOD = 0,
  SW_CLI_STOPS = 1,  /* the job has snags that must be mended ("check"), or rooms that cannot be laid out ("lay") */
  SW_CLI_USAGE = 2,
  SW_CLI_FAILED = 3  /* something cannot be read or written */
} SwCliExit;

typedef struct _SwCliVerb SwCliVerb;
struct _SwCliVerb
{
  const char *name, *operands, *summary; /* summary untranslated */
  int (*run) (const SwCliVerb *verb, int argc, char **argv); /* argv[0] is the verb; returns an SwCliExit */
};

/* Reads a verb's options (NULL: only --help); then argv[1 … argc − 1] are the operands, of which there must be `least` to
 * `most`. FALSE when that is not so: it has been said, and the verb returns SW_CLI_USAGE. --help prints and exits. */
gboolean sw_cli_parse (const SwCliVerb *verb, const GOptionEntry *options, int *argc, char ***argv, int least, int most);

/* All of a file, or of standard input for "-". SW_ERROR_IO. */
gboolean sw_cli_read (const char *path, char **text, gsize *length, GError **error);

/* A job from a job file or, when the name ends in .json or is "-" (standard input), from its text form. NULL when it cannot be
 * read: it has been said. The caller's. */
SwJob *sw_cli_open_job (const char *path);

/* Writes a job into a job file, or in its text form when the name ends in .json. A file that is there is only replaced when
 * `replace`. Says what went wrong. SW_CLI_GOOD or SW_CLI_FAILED. */
int sw_cli_save_job (SwJob *job, const char *path, gboolean replace);

/* Changes a job where it is: a job file by one edit, which can be undone in the window; a text form is written again unless
 * nothing changed. Says what went wrong. SW_CLI_GOOD or SW_CLI_FAILED. */
typedef SwEdit *(*SwCliChange) (SwJob *job, gpointer data, GError **error);
int sw_cli_change_job (const char *path, SwCliChange change, gpointer data);

/* A room by its mark or name; SW_ERROR_NOT_FOUND. Borrowed. */
const SwRoom *sw_cli_find_room (const SwJob *job, const char *name, GError **error);
/* The job's rule set with the job's own values. */
SwRules *sw_cli_rules_of (const SwJob *job, GError **error);

/* Writes `length` bytes (-1: up to the NUL) to the file `to`, or to standard output when it is NULL or "-". Says what
 * went wrong. SW_CLI_GOOD or SW_CLI_FAILED. */
int sw_cli_put (const char *to, const char *bytes, gssize length);

/* Says an error on standard error and frees it: SW_CLI_FAILED, for `return sw_cli_fail (error)`. */
int sw_cli_fail (GError *error);
/* The same for a wrong use, with where to find help: SW_CLI_USAGE. */
int sw_cli_misuse (const SwCliVerb *verb, const char *format, ...) G_GNUC_PRINTF (2, 3);
