/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "job/job.h"

/* Pieces of JSON appended to a text. */

/* In quotes; only what must be escaped is. */
void sw_json_write_text (GString *out, const char *text);
/* A line feed and two spaces a step. */
void sw_json_write_line (GString *out, guint steps);

/* How a record's values are written. */
typedef struct
{
  const SwJob *job;     /* gives the marks that references are written as; NULL: by their numbers */
  gboolean with_defaults; /* else what has its default, and need not be given, is left out */
} SwJsonStyle;

/* One field's value on one line. */
void sw_json_write_field (GString *out, const SwJsonStyle *style, const SwField *field, gconstpointer base);
/* All fields of a struct on one line, as an object or, when it is compact, as a list of values. */
void sw_json_write_struct (GString *out, const SwJsonStyle *style, const SwStruct *kind, gconstpointer base);
/* Whether the style leaves this field out. */
gboolean sw_json_leaves_out (const SwJsonStyle *style, const SwField *field, gconstpointer base);
