/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/tools/board_edit.h"
#include <gtk/gtk.h>

/* One value as a control: an entry, a check, a choice of words or of marks. Freed with its control. */
typedef struct
{
  SwBoard *board;
  SwPath path;
  GtkWidget *control;
  GtkWidget *fault;  /* label that shows what is wrong */
  GArray *refs;      /* SwId for each entry of a choice of marks */
  GStrv sets;        /* name of each entry of a choice of rule sets */
  char *shown;       /* text of an entry as it was filled */
  gboolean filling;
} SwInspectorRow;

/* `name` is the control's accessible name. The fault label is left to the caller to place. */
SwInspectorRow *sw_inspector_row_new (SwBoard *board, const SwPath *path, const char *name);
/* Shows the value that all records have, or that they differ. An entry that is being typed in is left alone. */
void sw_inspector_row_fill (SwInspectorRow *row, const GPtrArray *records);
/* "Length (mm)", "Length (ft-in)". Free with g_free. */
char *sw_inspector_row_label (const SwPath *path, SwLengths lengths);
