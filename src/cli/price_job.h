/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "cli/cli.h"
#include "cli/table.h"
#include "rules/rules.h"
#include "space/deck.h"

/* What the verbs about money have in common: their options, a job with prices. */
typedef struct
{
  char *room, *list, *format, *to;
  gboolean grid;
} SwCliPriceArgs;

void sw_cli_price_args_clear (SwCliPriceArgs *args);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (SwCliPriceArgs, sw_cli_price_args_clear)
/* Whether --format is text, csv or json, or not given; says so when it is not. */
gboolean sw_cli_format_good (const SwCliVerb *verb, const char *format);

#define SW_CLI_OUTPUT_OPTIONS(args) \
  { "format", 'f', 0, G_OPTION_ARG_STRING, &(args).format, N_("text (the default), csv or json"), N_("WORD") }, \
  { "to", 't', 0, G_OPTION_ARG_FILENAME, &(args).to, N_("write into FILE instead of standard output"), N_("FILE") }
#define SW_CLI_PRICE_OPTIONS(args) \
  { "room", 'r', 0, G_OPTION_ARG_STRING, &(args).room, N_("one room only, by its mark or name"), N_("ROOM") }, \
  { "list", 'l', 0, G_OPTION_ARG_FILENAME, &(args).list, N_("take prices from FILE, a CSV, over those of the job"), N_("FILE") }, \
  SW_CLI_OUTPUT_OPTIONS (args)

typedef struct
{
  SwDeck *deck; /* of the job with its prices */
  SwRules *rules;
  const SwRoom *room; /* asked for; NULL for all */
  gboolean invented;  /* the job had no prices and no list was given */
} SwCliPriceJob;

/* FALSE when something cannot be read or there is no such room: it has been said. Nothing is changed in the job's file. */
gboolean sw_cli_price_job_open (SwCliPriceJob *job, const SwCliPriceArgs *args, const char *path);
void sw_cli_price_job_clear (SwCliPriceJob *job);
G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (SwCliPriceJob, sw_cli_price_job_clear)
