/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Each calculation by itself: answers against worked examples, the working's shape, and what is refused. */
#include "checks/questions.h"
#include "support.h"
#include <math.h>
#include <string.h>

static SwRules *
load (const char *name)
{
  GError *error = NULL;
  SwRules *rules = sw_rules_load (name, NULL, &error);
  g_assert_no_error (error);
  return rules;
}

/* "depth=255 od=110" */
static SwWorking *
ask (const char *rule_set, const char *id, const char *given, GError **error)
{
  g_autoptr (SwRules) rules = load (rule_set);
  g_autoptr (GHashTable) table = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, g_free);
  g_auto (GStrv) parts = g_strsplit (given, " ", -1);
  for (char **part = parts; *part != NULL; part++)
    {
      g_auto (GStrv) pair = g_strsplit (*part, "=", 2);
      if (**part != '\0')
        g_hash_table_insert (table, g_strdup (pair[0]), g_strdup (pair[1]));
    }
  return sw_question_ask (sw_questions_find (id), rules, table, error);
}

typedef struct
{
  const char *id, *given, *symbol;
  double value, tolerance;
  SwVerdict verdict;
  const char *rule_set; /* NULL: South Africa */
} Example;

static const Example examples[] = {
  /* by hand: void 255 deep, 110 pipe, socket 128, 20 over it, 1:60 */
  { "fall-run", "depth=255 od=110", "L", 6420, 0.01, SW_VERDICT_NONE },
  { "fall-run", "depth=255 od=110 start=pipe", "L", 6960, 0.01, SW_VERDICT_NONE },
  { "fall-run", "depth=255 od=110 start=pipe", "L₀", 7500, 0.01, SW_VERDICT_NONE },
  { "fall-run", "depth=255 od=110 start=pipe fall=1:40", "L", 4640, 0.01, SW_VERDICT_NONE },
  { "fall-run", "depth=250 start=wc", "L", 3360, 0.01, SW_VERDICT_NONE },
  { "fall-run", "depth=150 od=50", "L", 2600, 0.01, SW_VERDICT_NONE },
  { "fall-run", "depth=120 od=110", "L", 0, 0, SW_VERDICT_BAD },
  /* Manning: T = 1:60, 103.6 bore, by hand; a table of EN 12056-2 annex B as remembered */
  { "part-full-flow", "bore=103.6 fall=60 formula=manning", "Q", 4.330, 1e-3, SW_VERDICT_GOOD },
  { "part-full-flow", "bore=96 fall=100 filling=0.7", "Q", 4.2, 0.05, SW_VERDICT_GOOD },
  { "part-full-flow", "bore=96 fall=200", "V", 0.5, 0.05, SW_VERDICT_BAD },
  { "part-full-depth", "bore=103.6 fall=60 flow=2 formula=manning", "h", 33.9, 0.05, SW_VERDICT_GOOD },
  { "part-full-depth", "bore=103.6 fall=60 flow=20", "h/d", NAN, 0, SW_VERDICT_BAD },
  /* published design sheets: 26.1 units → 2.55 l/s; a flat by hand */
  { "waste-flow", "units=26.1", "Qww", 2.55, 0.005, SW_VERDICT_NONE },
  { "waste-flow", "units=0.5,0.8,2.0,2x0.8", "Qww", 1.107, 5e-4, SW_VERDICT_NONE },
  { "waste-flow", "units=0.5,0.8,2.0,2x0.8", "Q", 2.0, 1e-9, SW_VERDICT_NONE },
  { "waste-flow", "units=6x2.0,4x0.5,2x0.8 use=frequent", "Qww", 2.765, 5e-4, SW_VERDICT_NONE },
  /* dew point page: 26 °C, 60 % → 17.6 °C; thickness by hand */
  { "sweating", "humidity=60", "Td", 17.6, 0.05, SW_VERDICT_BAD },
  { "sweating", "od=22 water=10 where=room", "s", 6.51, 0.03, SW_VERDICT_BAD },
  { "sweating", "od=22 water=10 where=room", "s'", 9, 0, SW_VERDICT_BAD },
  { "sweating", "od=22 water=25", "s", 0, 0, SW_VERDICT_GOOD },
  /* six 3.5 mm cables in a bore of 16.9: 25.7 %; three of 5.7 jam there */
  { "conduit-size", "cables=6x3.5", "size", 20, 0, SW_VERDICT_NONE },
  { "conduit-size", "cables=6x3.5", "fill", 25.74, 0.01, SW_VERDICT_NONE },
  { "conduit-size", "cables=3x5.7", "J", 3.113, 5e-4, SW_VERDICT_BAD },
  { "conduit-size", "cables=15x3.5", "size", 32, 0, SW_VERDICT_NONE },
  /* NEC annex C.1 */
  { "conduit-count", "bore-area=0.864 wire-area=0.1562", "N", 1, 0, SW_VERDICT_NONE, "north-america" },
  { "conduit-count", "bore-area=0.304 wire-area=0.0507", "N", 2, 0, SW_VERDICT_NONE, "north-america" },
  { "conduit-count", "bore-area=1.496 wire-area=0.0133", "N", 45, 0, SW_VERDICT_NONE, "north-america" },
  /* on-site guide, appendix E: six 4 mm² stranded, 3 m straight → 348, 20 mm */
  { "conduit-units", "cables=6x4 length=3", "Σc", 348, 0, SW_VERDICT_NONE, "britain" },
  { "conduit-units", "cables=6x4 length=3", "size", 20, 0, SW_VERDICT_NONE, "britain" },
  { "conduit-units", "cables=6x4 length=5 bends=2", "C", 358, 0, SW_VERDICT_NONE, "britain" },
  /* derived: 2 mm on a rib of 100, 52 on 150; a 50 pipe in 300 may be asked for, a 110 may not */
  { "drill-strip", "rib=100", "w", 2, 0, SW_VERDICT_BAD },
  { "drill-strip", "rib=150", "w", 52, 0, SW_VERDICT_GOOD },
  { "rib-hole", "depth=300 pipe=50", "d", 70, 0, SW_VERDICT_GOOD },
  { "rib-hole", "depth=300 pipe=55", "a₁", 112.5, 0, SW_VERDICT_GOOD },
  { "rib-hole", "depth=300 pipe=50", "a₂", 200, 1e-6, SW_VERDICT_GOOD },
  { "rib-hole", "depth=300 pipe=110", "d", 130, 0, SW_VERDICT_BAD },
  /* published bending charts and geometry */
  { "offset-bend", "height=113", "m", 226, 1e-9, SW_VERDICT_NONE },
  { "offset-bend", "height=113", "p", 195.7, 0.05, SW_VERDICT_NONE },
  { "offset-bend", "height=113", "s", 30.28, 0.005, SW_VERDICT_NONE },
  { "bend-arc", "radius=60", "b", 94.25, 0.005, SW_VERDICT_NONE },
  { "bend-arc", "radius=60", "g", 25.75, 0.005, SW_VERDICT_NONE },
  /* 18 mV: 20 A, 25 m → 9.00 V, 3.91 % */
  { "volt-drop", "amps=20 length=25", "ΔU", 9, 1e-9, SW_VERDICT_GOOD },
  { "volt-drop", "amps=20 length=25", "ΔU%", 3.913, 5e-4, SW_VERDICT_GOOD },
  { "volt-drop", "amps=20 length=35", "ΔU%", 5.478, 5e-4, SW_VERDICT_BAD },
  { "volt-drop", "mm2=4 amps=25 length=40 phases=3", "ΔU", 9.5, 1e-9, SW_VERDICT_GOOD },
  /* IEC 60364-5-52: 24 A × 0.65 × 0.94 */
  { "rating", "amps=24 circuits=4", "Iz", 15.6, 1e-9, SW_VERDICT_NONE },
  { "rating", "amps=24 circuits=4 air=35", "Iz", 14.664, 1e-9, SW_VERDICT_NONE },
  /* 36 lb round a quarter bend → 79 lb, any unit of force */
  { "pull", "before=36 weight=0 length=0", "T₃", 79, 0.05, SW_VERDICT_NONE },
  /* NEC 352.44 */
  { "growth", "length=10", "ΔL", 12.17, 0.005, SW_VERDICT_BAD },
  { "growth", "length=4", "Lmax", 4.93, 0.005, SW_VERDICT_GOOD },
  { "growth", "length=1 range=25", "ΔL", 1.52, 0.002, SW_VERDICT_GOOD },
};

static void
run_example (gconstpointer data)
{
  const Example *example = data;
  GError *error = NULL;
  g_autoptr (SwWorking) working = ask (example->rule_set != NULL ? example->rule_set : "south-africa", example->id, example->given, &error);
  g_assert_no_error (error);
  if (working == NULL)
    return;
  const SwWorkingLine *line = sw_working_find (working, example->symbol);
  g_assert_nonnull (line);
  if (isnan (example->value))
    g_assert_true (isnan (line->value));
  else
    sw_assert_near (line->value, example->value, example->tolerance);
  g_assert_cmpint (working->verdict, ==, example->verdict);
  g_assert_true ((working->said != NULL) == (working->verdict != SW_VERDICT_NONE));
}

/* Each line says what it is and where its number comes from; there is an answer. */
static void
test_shape (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (examples); i++)
    {
      g_autoptr (SwWorking) working = ask (examples[i].rule_set != NULL ? examples[i].rule_set : "south-africa", examples[i].id, examples[i].given, NULL);
      g_assert_nonnull (sw_working_nth_answer (working, 0));
      for (guint k = 0; k < working->lines->len; k++)
        {
          const SwWorkingLine *line = &g_array_index (working->lines, SwWorkingLine, k);
          g_assert_cmpstr (line->what, !=, "");
          g_assert_true ((line->kind == SW_LINE_RULE) == (line->rule.rule_id != NULL));
          if (line->kind == SW_LINE_RULE)
            g_assert_cmpstr (line->rule.source, !=, "");
          if (line->kind == SW_LINE_STEP)
            g_assert_nonnull (line->formula);
        }
    }
}

static void
test_refused (void)
{
  static const struct { const char *id, *given, *part; SwErrorCode code; } wrong[] = {
    { "fall-run", "", "depth: has to be given", SW_ERROR_INVALID },
    { "fall-run", "depth=five", "depth: ", SW_ERROR_INVALID },
    { "fall-run", "depth=5", "depth: \"5\" is not from 20 to 2000", SW_ERROR_INVALID },
    { "fall-run", "depth=250 width=3", "width: fall-run does not ask for it", SW_ERROR_INVALID },
    { "fall-run", "depth=250 start=roof", "start: \"roof\" is none of", SW_ERROR_INVALID },
    { "fall-run", "depth=250 od=400", "400", SW_ERROR_NOT_FOUND },
    { "waste-flow", "units=0.5,,x", "units: ", SW_ERROR_INVALID },
    { "waste-flow", "units=0x2", "units: \"0x2\"", SW_ERROR_INVALID },
    { "waste-flow", "units=,", "units: needs 1 to", SW_ERROR_INVALID },
    { "conduit-count", "bore-area=1 wire-area=0.1", "conduit.fill_count", SW_ERROR_NOT_FOUND },
    { "conduit-size", "cables=1000x20", "use two", SW_ERROR_NOT_FOUND },
    { "conduit-units", "cables=4 length=5 bends=5", "draw box", SW_ERROR_NOT_FOUND },
    { "conduit-units", "cables=4 length=50", "50", SW_ERROR_NOT_FOUND },
    { "conduit-units", "cables=7 length=5", "7", SW_ERROR_NOT_FOUND },
    { "volt-drop", "amps=10 length=20 mm2=3", "3", SW_ERROR_NOT_FOUND },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (wrong); i++)
    {
      GError *error = NULL;
      g_autoptr (SwWorking) working = ask ("south-africa", wrong[i].id, wrong[i].given, &error);
      g_assert_null (working);
      g_assert_error (error, SW_ERROR, (int) wrong[i].code);
      if (error != NULL && strstr (error->message, wrong[i].part) == NULL)
        g_assertion_message_cmpstr (G_LOG_DOMAIN, __FILE__, __LINE__, G_STRFUNC, wrong[i].given, error->message, "~", wrong[i].part);
      g_clear_error (&error);
    }
}

/* Keys are what the command and files hold; no two questions have one id. */
static void
test_tables (void)
{
  g_autoptr (GHashTable) ids = g_hash_table_new (g_str_hash, g_str_equal);
  g_assert_null (sw_questions_find ("no-such-question"));
  for (guint i = 0; i < sw_questions_n (); i++)
    {
      const SwQuestion *question = sw_questions_get (i);
      g_assert_true (sw_questions_find (question->id) == question);
      g_assert_true (g_hash_table_add (ids, (gpointer) question->id));
      for (guint k = 0; k < question->n_inputs; k++)
        {
          g_assert_cmpuint (strspn (question->inputs[k].key, "abcdefghijklmnopqrstuvwxyz0123456789-"), ==, strlen (question->inputs[k].key));
          g_assert_true ((question->inputs[k].kind == SW_ASK_WORD) == (question->inputs[k].words != NULL));
        }
    }
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  for (gsize i = 0; i < G_N_ELEMENTS (examples); i++)
    {
      g_autofree char *name = g_strdup_printf ("/questions/%s/%" G_GSIZE_FORMAT, examples[i].id, i);
      g_test_add_data_func (name, &examples[i], run_example);
    }
  g_test_add_func ("/questions/shape", test_shape);
  g_test_add_func ("/questions/refused", test_refused);
  g_test_add_func ("/questions/tables", test_tables);
  return g_test_run ();
}
