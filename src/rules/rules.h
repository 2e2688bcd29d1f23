/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <glib.h>

/* Numbers from standards, handbooks and trade practice, read from data/rules/ (see the head of common.ini for the
 * format). A rule set is immutable and counted by reference: any thread may ask it. Two shapes exist: a *group* of
 * named values ("checks.clearances") and a *table* of rows; the columns of a table are named, or numbers (a grid). */
typedef struct _SwRules SwRules;

typedef enum
{
  SW_CONFIDENCE_PUBLISHED,       /* read in a published source */
  SW_CONFIDENCE_COMMON_PRACTICE, /* what the trade does; no single source */
  SW_CONFIDENCE_DERIVED,         /* arithmetic on other values, named in the source */
  SW_CONFIDENCE_FROM_MEMORY,     /* not confirmed: an editable default, shown as such */
  SW_N_CONFIDENCES
} SwConfidence;

/* "published", "common-practice", "derived", "from-memory". Static. */
const char *sw_confidence_word (SwConfidence confidence);

/* One answer. The strings belong to the rule set and live as long as it does. */
typedef struct
{
  double value;     /* 1 or 0 for yes or no; 0 for text */
  const char *text; /* for a value in words; else NULL */
  const char *unit; /* "mm", "1:n", "%" …; "" for a plain number */
  const char *source;
  const char *note; /* "" when there is none */
  SwConfidence confidence;
  const char *rule_id;  /* "checks.clearances.rib_mm", "waste.sockets[110].socket_mm" */
  const char *rule_set; /* where it is written: "common", "europe", the name of the overrides … */
  gboolean overridden;  /* by the user */
  gboolean stand_in;    /* borrowed from another rule set; the note says why */
  gboolean interpolated; /* between rows or columns; all words are the less certain neighbour's */
  gboolean clamped;      /* outside the table: the nearest end was taken */
} SwRuleValue;

/* How a number finds its row or column. Beyond the table: SW_ERROR_NOT_FOUND, unless clamped or noted here. */
typedef enum
{
  SW_RULE_EXACT,
  SW_RULE_NEXT_LARGER,  /* least key ≥ the number; below the first row gives the first */
  SW_RULE_NEXT_SMALLER, /* greatest key ≤ the number; above the last row gives the last */
  SW_RULE_LINEAR,
  SW_RULE_LINEAR_CLAMPED
} SwRuleMatch;

/* Loads the rule set `name` ("south-africa"), then lays the user's overrides on it: a file, or a text (named
 * `overrides_name` in answers and messages); NULL for none. Errors say file and line. */
SwRules *sw_rules_load (const char *name, const char *overrides_path, GError **error);
SwRules *sw_rules_load_text (const char *name, const char *overrides, const char *overrides_name,
                             GError **error);
/* The same from another folder of rule sets. */
SwRules *sw_rules_load_from (const char *folder, const char *name, const char *overrides,
                             const char *overrides_name, GError **error);
SwRules *sw_rules_ref (SwRules *rules);
void sw_rules_unref (SwRules *rules);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwRules, sw_rules_unref)

/* Names of the rule sets that a job may choose, sorted; free with g_strfreev. */
GStrv sw_rules_list (GError **error);
const char *sw_rules_name (const SwRules *rules);
/* For people, such as "South Africa". */
const char *sw_rules_title (const SwRules *rules);
gboolean sw_rules_has (const SwRules *rules, const char *table);

/* A value of a group that every rule set has (marked `everywhere` in the schema): cannot fail. Asserts otherwise. */
SwRuleValue sw_rules_value (const SwRules *rules, const char *group, const char *key);

/* A value of a group; SW_ERROR_NOT_FOUND where this rule set has none, with a message that says so. */
gboolean sw_rules_number (const SwRules *rules, const char *group, const char *key, SwRuleValue *answer,
                          GError **error);
/* A list of numbers; NULL with an error where there is none. The rule set owns it; `answer` may be NULL. */
const double *sw_rules_series (const SwRules *rules, const char *group, const char *key, guint *n,
                               SwRuleValue *answer, GError **error);

/* A cell by its row's key ("wc-6l", "110") and column's name ("socket_mm", or a number in a grid), both exact. */
gboolean sw_rules_lookup (const SwRules *rules, const char *table, const char *row, const char *column,
                          SwRuleValue *answer, GError **error);
/* A cell of a table whose rows are numbers. */
gboolean sw_rules_lookup_at (const SwRules *rules, const char *table, double row, SwRuleMatch match,
                             const char *column, SwRuleValue *answer, GError **error);
/* A cell of a grid: rows in words or in numbers. */
gboolean sw_rules_grid (const SwRules *rules, const char *table, const char *row, double column,
                        SwRuleMatch column_match, SwRuleValue *answer, GError **error);
gboolean sw_rules_grid_at (const SwRules *rules, const char *table, double row, SwRuleMatch row_match,
                           double column, SwRuleMatch column_match, SwRuleValue *answer, GError **error);

/* Rows in the file's order (numbers ascend); 0 where there is no such table. The number is NaN for words. */
guint sw_rules_n_rows (const SwRules *rules, const char *table);
const char *sw_rules_row_key (const SwRules *rules, const char *table, guint row);
double sw_rules_row_number (const SwRules *rules, const char *table, guint row);
guint sw_rules_n_columns (const SwRules *rules, const char *table);
const char *sw_rules_column_name (const SwRules *rules, const char *table, guint column);
