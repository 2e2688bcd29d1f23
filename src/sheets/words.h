/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "base/text.h"
#include <glib.h>

/* Text for people, in the user's language: only the edge (sheets, command, window) translates. */
#define _(text) g_dgettext (GETTEXT_PACKAGE, text)
#define C_(context, text) g_dpgettext2 (GETTEXT_PACKAGE, context, text)
/* A word that a record's table gave; empty text stays empty (gettext would answer with the catalogue's head). */
static inline const char *
sw_word (const char *text)
{
  return text == NULL || *text == 0 ? "" : g_dgettext (GETTEXT_PACKAGE, text);
}
