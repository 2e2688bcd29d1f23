/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "drawing/palette.h"
#include <gtk/gtk.h>

/* Light or dark: what the user set here, else what the desktop says through the settings portal. One for the program. */
#define SW_TYPE_APPEARANCE (sw_appearance_get_type ())
G_DECLARE_FINAL_TYPE (SwAppearance, sw_appearance, SW, APPEARANCE, GObject)

/* Follows `settings` (key "theme") and the portal on the session bus, when there is one. Signal "changed". */
SwAppearance *sw_appearance_new (GSettings *settings);
SwTheme sw_appearance_theme (SwAppearance *appearance);
