/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/wording.h"
#include <glib.h>

char *
sw_capital (const char *text)
{
  char first[8] = "";
  if (*text == 0)
    return g_strdup ("");
  g_unichar_to_utf8 (g_unichar_totitle (g_utf8_get_char (text)), first);
  return g_strconcat (first, g_utf8_next_char (text), NULL);
}

char *
sw_rule_set_title (const char *name)
{
  char *title = g_strdup (name);
  gboolean first = TRUE;
  for (char *at = title; *at != 0; at++)
    {
      if (first)
        *at = g_ascii_toupper (*at);
      first = *at == '-';
      if (first)
        *at = ' ';
    }
  return title;
}
