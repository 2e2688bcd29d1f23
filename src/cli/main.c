/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/verbs.h"
#include "base/paths.h"
#include "store/nearest.h"
#include <glib/gi18n.h>
#include <locale.h>
#include <stdlib.h>
#include <string.h>

#define VERB(name, operands, summary) { #name, operands, summary, sw_cli_##name },
static const SwCliVerb verbs[] = { VERBS };
#undef VERB

static void
set_locale (void)
{
  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, sw_locale_folder ());
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
}

static int
help (void)
{
  g_autoptr (GString) text = g_string_new (_(
      "Usage: soffit VERB …\n\nPlans what hangs in, under or instead of a ceiling below a voided deck.\n\nVerbs:\n"));
  for (gsize i = 0; i < G_N_ELEMENTS (verbs); i++)
    g_string_append_printf (text, "  %-10s %s\n", verbs[i].name, _(verbs[i].summary));
  g_string_append (text, _("\n\"soffit VERB --help\" says more. Exit codes: 0 good, 1 the job has stops, 2 wrong use, "
                            "3 cannot be read or written.\n"));
  return sw_cli_put (NULL, text->str, -1);
}

static int
unknown_verb (const char *name)
{
  SwNearest nearest = sw_nearest_new (name);
  for (gsize i = 0; i < G_N_ELEMENTS (verbs); i++)
    sw_nearest_offer (&nearest, verbs[i].name);
  g_autofree char *hint = sw_nearest_hint (&nearest);
  g_printerr (_("soffit: there is no verb \"%s\"%s\nTry \"soffit --help\".\n"), name, hint);
  return SW_CLI_USAGE;
}

int
main (int argc, char **argv)
{
  set_locale ();
  const char *name = argc > 1 ? argv[1] : "";
  for (gsize i = 0; i < G_N_ELEMENTS (verbs); i++)
    if (strcmp (name, verbs[i].name) == 0)
      return verbs[i].run (&verbs[i], argc - 1, argv + 1);
  if (strcmp (name, "--help") == 0 || strcmp (name, "-h") == 0 || strcmp (name, "help") == 0)
    return help ();
  if (strcmp (name, "--version") == 0)
    return sw_cli_put (NULL, "soffit " SW_VERSION "\n", -1);
  if (*name != '\0')
    return unknown_verb (name);
  g_printerr ("%s\n", _("soffit: a verb is missing; try \"soffit --help\"."));
  return SW_CLI_USAGE;
}
