/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "rules/question.h"
#include "base/error.h"
#include "base/measure.h"
#include "base/number.h"
#include <string.h>

#define MANY_MOST 1000 /* numbers in a list */

typedef struct
{
  double number;
  char *word;
  GArray *list;   /* double */
  GArray *quoted; /* SwRuleValue that the list names, each once */
} Value;

struct _SwAsked
{
  const SwQuestion *question;
  SwRules *rules;
  Value *values; /* one an input */
};

static const Value *
value_of (const SwAsked *asked, const char *key)
{
  for (guint i = 0; i < asked->question->n_inputs; i++)
    if (strcmp (asked->question->inputs[i].key, key) == 0)
      return &asked->values[i];
  g_assert_not_reached ();
}

double
sw_asked_number (const SwAsked *asked, const char *key)
{
  return value_of (asked, key)->number;
}

const char *
sw_asked_word (const SwAsked *asked, const char *key)
{
  return value_of (asked, key)->word;
}

const double *
sw_asked_list (const SwAsked *asked, const char *key, guint *n)
{
  const GArray *list = value_of (asked, key)->list;
  *n = list->len;
  return (const double *) list->data;
}

double
sw_asked_sum (const SwAsked *asked, const char *key)
{
  const GArray *list = value_of (asked, key)->list;
  double sum = 0;
  for (guint i = 0; i < list->len; i++)
    sum += g_array_index (list, double, i);
  return sum;
}

double
sw_asked_quote (const SwAsked *asked, const char *key, SwWorking *working, const char *symbol, const char *what)
{
  const GArray *quoted = value_of (asked, key)->quoted;
  for (guint i = 0; i < quoted->len; i++)
    sw_working_rule (working, symbol, what, &g_array_index (quoted, SwRuleValue, i));
  return sw_asked_sum (asked, key);
}

SwRules *
sw_asked_rules (const SwAsked *asked)
{
  return asked->rules;
}

/* ---- reading */

static gboolean
read_number (const SwAskInput *input, const char *text, double *number, GError **error)
{
  GError *wrong = NULL;
  if (!sw_measure_read (text, input->unit, number, &wrong))
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "%s: %s", input->key, wrong->message);
      g_error_free (wrong);
      return FALSE;
    }
  if (*number >= input->low && *number <= input->high)
    return TRUE;
  char low[SW_NUMBER_BUF], high[SW_NUMBER_BUF];
  g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "%s: \"%s\" is not from %s to %s%s%s", input->key, text,
               sw_number_write (input->low, low), sw_number_write (input->high, high), *input->unit != '\0' ? " " : "", input->unit);
  return FALSE;
}

static gboolean
read_word (const SwAskInput *input, const char *text, Value *value, GError **error)
{
  g_auto (GStrv) words = g_strsplit (input->words, "|", -1);
  if (g_strv_contains ((const char *const *) words, text))
    {
      value->word = g_strdup (text);
      return TRUE;
    }
  g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "%s: \"%s\" is none of %s", input->key, text, input->words);
  return FALSE;
}

static void
quote_once (GArray *quoted, const SwRuleValue *rule)
{
  for (guint i = 0; i < quoted->len; i++)
    if (g_array_index (quoted, SwRuleValue, i).rule_id == rule->rule_id)
      return;
  g_array_append_val (quoted, *rule);
}

/* A number, or the key of a row that stands for one. */
static gboolean
read_thing (const SwAskInput *input, SwRules *rules, const char *text, Value *value, double *number, GError **error)
{
  SwRuleValue rule;
  GError *wrong = NULL;
  if (input->table != NULL && sw_rules_lookup (rules, input->table, text, input->column, &rule, NULL))
    {
      quote_once (value->quoted, &rule);
      *number = rule.value;
      return TRUE;
    }
  if (read_number (input, text, number, &wrong))
    return TRUE;
  if (input->table != NULL && !g_ascii_isdigit (*text))
    g_set_error (error, SW_ERROR, SW_ERROR_NOT_FOUND, "%s: \"%s\" is no row of %s, and no number", input->key, text, input->table);
  else
    g_propagate_error (error, g_steal_pointer (&wrong));
  g_clear_error (&wrong);
  return FALSE;
}

/* "3x0.5": how often, and what. */
static gboolean
read_item (const SwAskInput *input, SwRules *rules, const char *text, Value *value, GError **error)
{
  gsize digits = strspn (text, "0123456789");
  gboolean many = digits > 0 && text[digits] == 'x';
  gint64 n = 1;
  double number;
  g_autofree char *count = many ? g_strndup (text, digits) : NULL;
  if (many && (!sw_number_read_int (count, &n, NULL) || n < 1 || n > MANY_MOST))
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "%s: \"%s\" should be a number, or how often and a number, as in 3x0.5", input->key, text);
      return FALSE;
    }
  if (!read_thing (input, rules, many ? text + digits + 1 : text, value, &number, error))
    return FALSE;
  for (gint64 i = 0; i < n; i++)
    g_array_append_val (value->list, number);
  return TRUE;
}

static gboolean
read_list (const SwAskInput *input, SwRules *rules, const char *text, Value *value, GError **error)
{
  g_auto (GStrv) items = g_strsplit_set (text, ", ;", -1);
  value->list = g_array_new (FALSE, FALSE, sizeof (double));
  value->quoted = g_array_new (FALSE, FALSE, sizeof (SwRuleValue));
  for (char **item = items; *item != NULL; item++)
    if (**item != '\0' && !read_item (input, rules, *item, value, error))
      return FALSE;
  if (value->list->len > 0 && value->list->len <= MANY_MOST)
    return TRUE;
  g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "%s: needs 1 to %d numbers", input->key, MANY_MOST);
  return FALSE;
}

static gboolean
read_value (const SwAskInput *input, SwRules *rules, const char *text, Value *value, GError **error)
{
  if (text == NULL || *text == '\0')
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "%s: has to be given", input->key);
      return FALSE;
    }
  if (input->kind == SW_ASK_WORD)
    return read_word (input, text, value, error);
  return input->kind == SW_ASK_LIST ? read_list (input, rules, text, value, error) : read_number (input, text, &value->number, error);
}

static gboolean
knows_keys (const SwQuestion *question, GHashTable *given, GError **error)
{
  GHashTableIter iter;
  gpointer key;
  g_hash_table_iter_init (&iter, given);
  while (g_hash_table_iter_next (&iter, &key, NULL))
    {
      gboolean known = FALSE;
      for (guint i = 0; i < question->n_inputs; i++)
        known |= strcmp (question->inputs[i].key, key) == 0;
      if (known)
        continue;
      g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "%s: %s does not ask for it", (const char *) key, question->id);
      return FALSE;
    }
  return TRUE;
}

static gboolean
read_all (SwAsked *asked, GHashTable *given, GError **error)
{
  for (guint i = 0; i < asked->question->n_inputs; i++)
    {
      const SwAskInput *input = &asked->question->inputs[i];
      const char *text = g_hash_table_lookup (given, input->key);
      if (!read_value (input, asked->rules, text != NULL ? text : input->start_text, &asked->values[i], error))
        return FALSE;
    }
  return TRUE;
}

SwWorking *
sw_question_ask (const SwQuestion *question, SwRules *rules, GHashTable *given, GError **error)
{
  SwAsked asked = { question, rules, g_new0 (Value, question->n_inputs) };
  g_autoptr (SwWorking) working = sw_working_new (rules);
  gboolean good = knows_keys (question, given, error) && read_all (&asked, given, error) && question->answer (&asked, working, error);
  for (guint i = 0; i < question->n_inputs; i++)
    {
      g_free (asked.values[i].word);
      g_clear_pointer (&asked.values[i].list, g_array_unref);
      g_clear_pointer (&asked.values[i].quoted, g_array_unref);
    }
  g_free (asked.values);
  return good ? g_steal_pointer (&working) : NULL;
}
