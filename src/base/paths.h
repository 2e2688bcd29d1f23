/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <glib.h>

/* Where the program finds what belongs to it. Each path is to be freed with g_free and never NULL: where the thing lies in
 * none of the folders it is the installed one, for the message. */

/* $SOFFITWRIGHT_DATA, else the installed folder, else the source tree's. `name` is below data/, such as
 * "rules/south-africa.ini". */
char *sw_data_path (const char *name);
/* A program that this one starts: $SOFFITWRIGHT_HELPERS, else the installed folder, else the build tree's. */
char *sw_helper_path (const char *name);
/* The folder of the translations: $SOFFITWRIGHT_LOCALE, else the installed one. Static, or the environment's. */
const char *sw_locale_folder (void);
