/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <glib.h>

/* One table for all forms of output. */

typedef struct
{
  const char *key;   /* in CSV and JSON */
  const char *title; /* in text, untranslated; NULL: left out there */
  gboolean number;
} SwCliColumn;

typedef struct
{
  const SwCliColumn *columns;
  guint n;
  GPtrArray *cells; /* text, row by row */
} SwCliTable;

SwCliTable sw_cli_table (const SwCliColumn *columns, guint n);
void sw_cli_table_clear (SwCliTable *table);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (SwCliTable, sw_cli_table_clear)
/* The next cell; NULL is empty. Numbers as base/ writes them. */
void sw_cli_table_put (SwCliTable *table, const char *cell);
/* "csv", "json" (a list of objects, all values in quotes), else text in columns. Free with g_free. */
char *sw_cli_table_write (const SwCliTable *table, const char *format);
