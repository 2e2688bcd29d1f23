/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "cli/price_job.h"
#include "estimate/lay_choices.h"

/* What "lay" can do with one room beside laying it out: list alternatives, take one, keep pieces where they are. */
typedef struct
{
  gboolean list, keep_direction;
  int choose;          /* from 1; 0: none */
  char *keep, *release; /* numbers of pieces with commas between; "all" */
} SwCliLayChoices;

/* Whether any of it is asked for; it is about one room then. */
gboolean sw_cli_lay_choices_wanted (const SwCliLayChoices *wanted);
/* Lists them as "text", "csv" or "json". Returns an SwCliExit. */
int sw_cli_lay_choices_list (const SwCliLayChoices *wanted, SwJob *job, const char *room, const char *format, const char *to);
/* The alternatives of a room of `job`, and the deck that they lean on. */
SwLayChoices *sw_cli_lay_choices_new (const SwCliLayChoices *wanted, SwJob *job, const SwRoom *room, SwDeck **deck, GError **error);
/* The one that was asked for; SW_ERROR_NOT_FOUND. Borrowed. */
const SwCeilingChoice *sw_cli_lay_chosen (const SwCliLayChoices *wanted, const SwLayChoices *choices, GError **error);
/* The job with the pieces kept or let go as asked. The caller's. */
SwJob *sw_cli_lay_lock (const SwCliLayChoices *wanted, SwJob *job, SwId room, GError **error);
