/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once

/* A text as a label begins it: its first letter large. Free with g_free. */
char *sw_capital (const char *text);
/* "South Africa" of "south-africa". Free with g_free. */
char *sw_rule_set_title (const char *name);
