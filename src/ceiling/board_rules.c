/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/board_rules.h"
#include "base/error.h"
#include "base/tolerance.h"
#include <string.h>

/* What rules and price list ask of a room's boards and battens. */

const char *
sw_ceiling_board_row (const SwRules *rules, const char *table, const SwRoom *room, GError **error)
{
  const char *prefix = room->board_kind == SW_BOARD_FIBRE_CEMENT ? "fibre-cement-" : "gypsum-", *best = NULL;
  double thickest = 0;
  for (guint i = 0; i < sw_rules_n_rows (rules, table); i++)
    {
      const char *key = sw_rules_row_key (rules, table, i);
      char *end = NULL;
      if (!g_str_has_prefix (key, prefix))
        continue;
      double thickness = g_ascii_strtod (key + strlen (prefix), &end);
      if (*end == '\0' && thickness > thickest && thickness <= room->board_thickness + SW_TOUCH_MM)
        {
          best = key;
          thickest = thickness;
        }
    }
  if (best == NULL)
    g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND,
                 "room \"%s\": table %s has no row for a board of %g mm: add one to the rule set or choose another board",
                 room->record.tag, table, room->board_thickness);
  return best;
}

/* "gypsum" …, as rules and price lists name the room's board. */
static const char *
kind_of (const SwRoom *room)
{
  return sw_struct_field (&sw_type_get (SW_TABLE_ROOM)->body, "board")->words[room->board_kind].key;
}

char *
sw_ceiling_board_code (const SwRoom *room, gboolean with_size)
{
  char thickness[G_ASCII_DTOSTR_BUF_SIZE], length[G_ASCII_DTOSTR_BUF_SIZE] = "", width[G_ASCII_DTOSTR_BUF_SIZE] = "";
  g_ascii_formatd (thickness, sizeof thickness, "%g", room->board_thickness);
  if (with_size)
    {
      g_ascii_formatd (length, sizeof length, "%g", room->board_length);
      g_ascii_formatd (width, sizeof width, "%g", room->board_width);
    }
  return g_strdup_printf ("board-%s-%s-%s%s%s", kind_of (room), thickness, length, with_size ? "x" : "", width);
}

const SwPrice *
sw_ceiling_board_price (const SwJob *job, const SwRoom *room)
{
  g_autofree char *code = sw_ceiling_board_code (room, TRUE);
  const SwRecord *record = sw_job_find (job, code);
  return record != NULL && sw_record_table (record) == SW_TABLE_PRICE ? (const SwPrice *) record : NULL;
}

/* The number of the price list's row in place of the rule's. */
static void
set_by_price (SwRuleValue *value, double number)
{
  value->value = number;
  value->source = "the board's row in the price list";
  value->note = "";
  value->overridden = TRUE;
}

gboolean
sw_ceiling_centres_limit (const SwRules *rules, const SwJob *job, const SwRoom *room, double *limit, double *edge_limit, SwRuleValue *rule,
                          GError **error)
{
  const char *row = sw_ceiling_board_row (rules, "brandering.centres", room, error);
  const char *column = room->boards_turned ? "along_mm" : "across_mm";
  SwRuleValue edge;
  if (row == NULL || !sw_rules_lookup (rules, "brandering.centres", row, column, rule, error))
    return FALSE;
  const SwPrice *price = sw_ceiling_board_price (job, room);
  if (price != NULL && price->centres > 0)
    set_by_price (rule, price->centres);
  *limit = room->batten_centres > 0 ? room->batten_centres : rule->value;
  *edge_limit = sw_rules_lookup (rules, "brandering.centres", row, "edge_mm", &edge, NULL) ? edge.value : 0;
  if (price != NULL && price->centres > 0)
    *edge_limit = fmin (*edge_limit, price->centres);
  return TRUE;
}

static gboolean
rule_limit (const SwRules *rules, const SwRoom *room, const char *column, SwRuleValue *value)
{
  char thickness[G_ASCII_DTOSTR_BUF_SIZE];
  g_autofree char *row = g_strdup_printf ("%s-%s", kind_of (room), g_ascii_formatd (thickness, sizeof thickness, "%g", room->board_thickness));
  return sw_rules_lookup (rules, "board.limits", row, column, value, NULL) || sw_rules_lookup (rules, "board.limits", kind_of (room), column, value, NULL);
}

gboolean
sw_ceiling_board_limit (const SwRules *rules, const SwJob *job, const SwRoom *room, const char *column, SwRuleValue *value)
{
  const SwPrice *price = sw_ceiling_board_price (job, room);
  gboolean known = rule_limit (rules, room, column, value);
  if (price == NULL)
    return known;
  const struct { const char *column; gboolean said; double number; } limits[] = {
    { "field_m", price->field > 0, price->field / 1e3 },
    { "wet", price->wet != SW_WET_AS_KIND, price->wet == SW_WET_YES },
    { "fire_min", price->fire_minutes > 0, price->fire_minutes },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (limits); i++)
    {
      if (strcmp (limits[i].column, column) != 0 || !limits[i].said)
        continue;
      if (!known)
        *value = (SwRuleValue){ .unit = "", .rule_id = "board.limits", .rule_set = "", .confidence = SW_CONFIDENCE_COMMON_PRACTICE };
      set_by_price (value, limits[i].number);
      known = TRUE;
    }
  return known;
}

double
sw_ceiling_longest_field (const SwRules *rules, const SwJob *job, const SwRoom *room, SwRuleValue *rule)
{
  SwRuleValue board, length = sw_rules_value (rules, "board.movement", room->edge == SW_EDGE_SHADOW ? "relief_m" : "plain_m");
  const SwPrice *price = sw_ceiling_board_price (job, room);
  gboolean own = price != NULL && price->field > 0; /* wins, whichever is the longer */
  if (sw_ceiling_board_limit (rules, job, room, "field_m", &board) && (own || board.value < length.value))
    length = board;
  if (rule)
    *rule = length;
  return length.value;
}
