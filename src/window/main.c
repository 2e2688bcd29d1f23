/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/application.h"
#include "base/paths.h"
#include <glib/gi18n-lib.h>
#include <locale.h>

int
main (int argc, char **argv)
{
  setlocale (LC_ALL, "");
  bindtextdomain (GETTEXT_PACKAGE, sw_locale_folder ());
  bind_textdomain_codeset (GETTEXT_PACKAGE, "UTF-8");
  textdomain (GETTEXT_PACKAGE);
  g_set_prgname ("org.soffitwright.Soffitwright");
  g_autoptr (SwApplication) application = sw_application_new ();
  return g_application_run (G_APPLICATION (application), argc, argv);
}
