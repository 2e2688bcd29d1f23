/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <glib.h>

/* Where the program's own data lies: $SOFFITWRIGHT_DATA, else the installed folder, else the source tree's.
 * `name` is below data/, such as "rules/south-africa.ini". Free with g_free. Never NULL. */
char *sw_data_path (const char *name);
