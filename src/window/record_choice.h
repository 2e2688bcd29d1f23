/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "job/job.h"
#include <gtk/gtk.h>

/* A drop-down that lists records of a job by mark and name, such as its rooms. Part of the page that shows it. */
typedef struct
{
  GtkDropDown *drop_down;
  GArray *ids;      /* SwId, as listed */
  GStrv names;
  gboolean filling; /* while it is filled: a change of what is selected is no choice then */
} SwRecordChoice;

/* Borrows the drop-down; `name` is what a screen reader calls it. */
void sw_record_choice_init (SwRecordChoice *choice, GtkDropDown *drop_down, const char *name);
void sw_record_choice_clear (SwRecordChoice *choice);

typedef gboolean (*SwRecordTakes) (const SwRecord *record);
/* Lists the records of the tables (SW_N_TABLES ends them) that `takes` takes (NULL: all), in the order of their marks. `shown` stays
 * chosen when it is among them, else the first is. The list stays as it is while its names do: it may be open. */
void sw_record_choice_fill (SwRecordChoice *choice, SwJob *job, const SwTable *tables, SwRecordTakes takes, SwId shown);
/* 0 for none. */
SwId sw_record_choice_now (const SwRecordChoice *choice);
/* As if it were chosen by hand; nothing for one that is not listed. */
void sw_record_choice_set (SwRecordChoice *choice, SwId id);
