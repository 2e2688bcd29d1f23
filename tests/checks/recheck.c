/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/random.h"
#include "checks/checks.h"
#include "job/edit.h"
#include "store/text_form.h"
#include "tiny.h"
#include <math.h>

/* The example building is changed at random again and again; after each edit the list that was brought up to date is the one
 * that a whole check finds, snag for snag and number for number. */

#define EDITS 150

static char *
snag_line (const SwSnag *snag)
{
  return g_strdup_printf ("%d %s/%s %d %ld %ld %ld %d %d %d %d (%a %a %a) [%a %a %a] room %ld missing %a needed %a found %a along (%a %a %a) %a %s",
                          snag->severity, snag->rule, snag->variant, snag->trade, (long) snag->subject, (long) snag->owners[0], (long) snag->owners[1],
                          snag->kinds[0], snag->kinds[1], snag->parts[0], snag->parts[1], snag->place.x, snag->place.y, snag->place.z, snag->box.low.x,
                          snag->box.low.y, snag->box.high.z, (long) snag->room, snag->missing_mm, snag->needed, snag->found, snag->direction.x,
                          snag->direction.y, snag->direction.z, snag->distance, snag->detail != NULL ? snag->detail : "");
}

static void
assert_same (const SwSnags *updated, const SwSnags *whole, const char *what)
{
  guint n = MIN (sw_snags_n (updated), sw_snags_n (whole));
  for (guint i = 0; i < n; i++)
    {
      const SwSnag *a = sw_snags_get (updated, i), *b = sw_snags_get (whole, i);
      g_autofree char *p = snag_line (a), *q = snag_line (b), *at_p = sw_address_text (&a->address), *at_q = sw_address_text (&b->address);
      if (!g_str_equal (p, q) || !g_str_equal (at_p, at_q))
        {
          g_test_message ("after %s: %s, %s\n  and not %s, %s", what, p, at_p, q, at_q);
          g_test_fail ();
          return;
        }
    }
  if (sw_snags_n (updated) != sw_snags_n (whole))
    g_test_message ("after %s: %u snags and not %u", what, sw_snags_n (updated), sw_snags_n (whole));
  g_assert_cmpuint (sw_snags_n (updated), ==, sw_snags_n (whole));
}

static const SwTable tables[] = { SW_TABLE_RUN,    SW_TABLE_RUN,   SW_TABLE_RUN,     SW_TABLE_LIGHT,   SW_TABLE_FITTING, SW_TABLE_FITTING, SW_TABLE_DROP_IN,
                                  SW_TABLE_SLEEVE, SW_TABLE_HATCH, SW_TABLE_WALL,    SW_TABLE_COLUMN,  SW_TABLE_BEAM,    SW_TABLE_DROP,    SW_TABLE_LAYOUT,
                                  SW_TABLE_HOLD_POINT };

static double
shift (SwRandom *random)
{
  return sw_random_int (random, 0, 3) == 0 ? sw_random_double (random, -4000, 4000) : sw_random_double (random, -60, 60);
}

/* What is particular to runs and fittings: one vertex up or down or aside, or another end or run. */
static void
change_links (SwRandom *random, SwRecord *record, const SwJob *job)
{
  const SwRecord *fitting = sw_job_nth (job, SW_TABLE_FITTING, (guint) sw_random_int (random, 0, (int) sw_job_count (job, SW_TABLE_FITTING) - 1));
  if (sw_record_table (record) == SW_TABLE_RUN)
    {
      SwRun *run = (SwRun *) record;
      SwVertex *vertex = &SW_LIST_AT (run->vertices, SwVertex, sw_random_int (random, 0, (int) run->vertices.n - 1));
      vertex->at.x += shift (random);
      vertex->z += vertex->level == SW_LEVEL_FALL ? 0 : sw_random_double (random, -30, 30);
      if (sw_random_int (random, 0, 3) == 0)
        *(sw_random_int (random, 0, 1) ? &run->start : &run->end) = fitting->id;
    }
  else if (sw_record_table (record) == SW_TABLE_FITTING && sw_random_int (random, 0, 2) == 0)
    ((SwFitting *) record)->run = sw_job_nth (job, SW_TABLE_RUN, (guint) sw_random_int (random, 0, (int) sw_job_count (job, SW_TABLE_RUN) - 1))->id;
}

/* NULL where nothing can be changed so. */
static SwEdit *
random_edit (SwRandom *random, const SwJob *job)
{
  SwTable table = tables[sw_random_int (random, 0, G_N_ELEMENTS (tables) - 1)];
  guint count = sw_job_count (job, table);
  if (count == 0 || sw_job_count (job, SW_TABLE_FITTING) == 0)
    return NULL;
  g_autoptr (SwEdit) edit = sw_edit_new (sw_type_get (table)->label);
  const SwRecord *old = sw_job_nth (job, table, (guint) sw_random_int (random, 0, (int) count - 1));
  if (sw_random_int (random, 0, 9) == 0)
    {
      sw_edit_remove (edit, job, old->id);
      return g_steal_pointer (&edit);
    }
  SwRecord *changed = sw_record_copy (old);
  sw_record_move (changed, (SwPoint){ shift (random), shift (random) });
  if (sw_random_int (random, 0, 1) == 0)
    change_links (random, changed, job);
  return sw_edit_put (edit, job, changed, NULL) ? g_steal_pointer (&edit) : NULL;
}

typedef struct
{
  SwJob *job;
  SwSpace *space;
  SwSnags *snags;
} State;

/* One edit on; FALSE when the job does not take it. */
static gboolean
go_on (State *state, const SwEdit *edit)
{
  GError *error = NULL;
  SwJob *job = sw_job_apply (state->job, edit, TRUE, NULL);
  if (job == NULL)
    return FALSE;
  g_autoptr (SwDeck) deck = sw_deck_update (sw_space_deck (state->space), job, edit), fresh = sw_deck_new (job);
  SwSpace *space = sw_space_update (state->space, deck, edit, &error);
  SwSnags *snags = sw_checks_update (state->snags, space, edit, NULL, NULL, &error);
  g_autoptr (SwSpace) anew = sw_space_new (fresh, sw_space_rules (space), &error);
  g_autoptr (SwSnags) whole = sw_checks_run (anew, NULL, NULL, NULL, NULL, &error), again = sw_checks_run (space, NULL, NULL, NULL, NULL, &error);
  g_assert_no_error (error);
  assert_same (snags, whole, edit->name);
  assert_same (again, whole, edit->name);
  sw_snags_unref (state->snags);
  sw_space_unref (state->space);
  sw_job_unref (state->job);
  *state = (State){ job, space, snags };
  return TRUE;
}

static void
test_random_edits (gconstpointer data)
{
  GError *error = NULL;
  SwRandom random = { (guint64) GPOINTER_TO_INT (data) };
  State state = { .job = tiny_example () };
  g_autoptr (SwRules) rules = sw_test_rules ("south-africa");
  g_autoptr (SwDeck) deck = sw_deck_new (state.job);
  state.space = sw_space_new (deck, rules, &error);
  state.snags = sw_checks_run (state.space, NULL, NULL, NULL, NULL, &error);
  int done = 0, tried = 0;
  for (; done < sw_test_rounds (EDITS) && tried < 4 * EDITS && !g_test_failed (); tried++)
    {
      g_autoptr (SwEdit) edit = random_edit (&random, state.job);
      done += edit != NULL && go_on (&state, edit);
    }
  g_test_message ("%d edits of %d tried; %u snags in the end", done, tried, sw_snags_n (state.snags));
  g_assert_cmpint (done, >=, sw_test_rounds (EDITS));
  sw_snags_unref (state.snags);
  sw_space_unref (state.space);
  sw_job_unref (state.job);
}

/* Conduits in a row are one group: the third alters what the first one's cable carries, though it lies beyond any rule's reach
 * (20 conduits, 40 between them, 63 ones 126). It moves away, comes back, and then its circuit changes. */
static SwJob *
row_job (void)
{
  GError *error = NULL;
  GString *text = g_string_new ("{\"format\": \"soffit-job\", \"version\": 1, \"profiles\": [{\"id\": \"p\", \"mouth_mm\": 2900, \"crown_mm\": 2800, \"pitch_mm\": 3000}],"
                                "\"bays\": [{\"id\": \"B\", \"profile\": \"p\", \"outline\": [[0,0],[6000,0],[6000,6000],[0,6000]]}], \"circuits\": [");
  for (int i = 1; i <= 12; i++)
    g_string_append_printf (text, "%s{\"id\": \"C%d\", \"amps\": %g, \"cable_mm2\": 2.5, \"cores\": 3}", i > 1 ? "," : "", i, i == 1 ? 8.9 : 3.0);
  g_string_append (text, "], \"runs\": [");
  for (int i = 1; i <= 12; i++)
    g_string_append_printf (text, "%s{\"id\": \"R%d\", \"service\": \"power\", \"od_mm\": 20, \"circuit\": \"C%d\", \"contents\": \"3 x 2.5 mm2\", \"vertices\": [{\"at\": [500,%d], \"z\": 120}, {\"at\": [5000,%d], \"z\": 120}]}",
                            i > 1 ? "," : "", i, i, 300 + 60 * i, 300 + 60 * i);
  g_string_append (text, "]}");
  SwJob *job = sw_text_form_read (text->str, (gssize) text->len, &error);
  g_assert_no_error (error);
  g_string_free (text, TRUE);
  return job;
}

static guint
count_of (const SwSnags *snags, const char *rule, const char *variant)
{
  guint n = 0;
  for (guint i = 0; i < sw_snags_n (snags); i++)
    n += strcmp (sw_snags_get (snags, i)->rule, rule) == 0 && strcmp (sw_snags_get (snags, i)->variant, variant) == 0;
  return n;
}

/* 24 × 0.79 with twelve circuits × 0.45 = 8.53 A, with eleven the next row, the same; with ten 0.45 too, with nine 0.50 = 9.48 (BS 7671
 * table 4C1): eight away from twelve and the first is rid of it. The others carry more than 30 % of that, so that they count. */
static void
test_row (void)
{
  GError *error = NULL;
  State state = { .job = row_job () };
  g_autoptr (SwRules) rules = sw_test_rules ("south-africa");
  g_autoptr (SwDeck) deck = sw_deck_new (state.job);
  state.space = sw_space_new (deck, rules, &error);
  state.snags = sw_checks_run (state.space, NULL, NULL, NULL, NULL, &error);
  g_assert_cmpuint (count_of (state.snags, "cable-rating", "bunched"), ==, 1);
  for (int step = 0; step < 2; step++)
    {
      g_autoptr (SwEdit) edit = sw_edit_new ("Move conduit");
      SwRecord *moved = sw_record_copy (sw_job_nth (state.job, SW_TABLE_RUN, 9)); /* parts the last two as well */
      sw_record_move (moved, (SwPoint){ 0, step == 0 ? 1200 : -1200 });
      g_assert_true (sw_edit_put (edit, state.job, moved, &error) && go_on (&state, edit));
      g_assert_cmpuint (count_of (state.snags, "cable-rating", "bunched"), ==, step);
    }
  g_autoptr (SwEdit) edit = sw_edit_new ("Change circuit");
  SwCircuit *wider = (SwCircuit *) sw_record_copy (sw_job_nth (state.job, SW_TABLE_CIRCUIT, 11));
  wider->cores = 1; /* its three singles are three circuits then */
  g_assert_true (sw_edit_put (edit, state.job, &wider->record, &error) && go_on (&state, edit));
  g_assert_cmpuint (count_of (state.snags, "cable-rating", "bunched"), ==, 1);
  sw_snags_unref (state.snags);
  sw_space_unref (state.space);
  sw_job_unref (state.job);
}

/* A lighting circuit behind two conduits of others: the first of them grows longer, and its drop with it. 1.5 mm² at 29 mV: 10 A over 39 m
 * are 4.92 % of 230 V, over 41 m 5.17 %; the limit is 5 % (SANS 10142-1). */
static void
test_chain (void)
{
  GError *error = NULL;
  static const char text[] = "{\"format\": \"soffit-job\", \"version\": 1, \"circuits\": [{\"id\": \"C1\", \"amps\": 10, \"cable_mm2\": 1.5}, {\"id\": \"C2\", \"amps\": 1, \"cable_mm2\": 2.5}],"
    "\"fittings\": [{\"id\": \"DB\", \"kind\": \"board\", \"at\": [0,0]}, {\"id\": \"J1\", \"at\": [15000,0]}, {\"id\": \"J2\", \"at\": [30000,0]}],"
    "\"runs\": [{\"id\": \"R1\", \"circuit\": \"C2\", \"start\": \"DB\", \"end\": \"J1\", \"vertices\": [{\"at\": [0,0], \"z\": 60}, {\"at\": [15000,0], \"z\": 60}]},"
    "{\"id\": \"R2\", \"circuit\": \"C2\", \"start\": \"J1\", \"end\": \"J2\", \"vertices\": [{\"at\": [15000,0], \"z\": 60}, {\"at\": [30000,0], \"z\": 60}]},"
    "{\"id\": \"R3\", \"service\": \"lighting\", \"circuit\": \"C1\", \"start\": \"J2\", \"vertices\": [{\"at\": [30000,0], \"z\": 60}, {\"at\": [39000,0], \"z\": 60}]}]}";
  State state = { .job = sw_text_form_read (text, -1, &error) };
  g_assert_no_error (error);
  g_autoptr (SwRules) rules = sw_test_rules ("south-africa");
  g_autoptr (SwDeck) deck = sw_deck_new (state.job);
  state.space = sw_space_new (deck, rules, &error);
  state.snags = sw_checks_run (state.space, NULL, NULL, NULL, NULL, &error);
  guint before = sw_snags_n (state.snags), drops = 0;
  g_autoptr (SwEdit) edit = sw_edit_new ("Move start");
  SwRun *longer = (SwRun *) sw_record_copy (sw_job_nth (state.job, SW_TABLE_RUN, 0));
  SW_LIST_AT (longer->vertices, SwVertex, 0).at.x -= 2000;
  g_assert_true (sw_edit_put (edit, state.job, &longer->record, &error) && go_on (&state, edit));
  for (guint i = 0; i < sw_snags_n (state.snags); i++)
    drops += strcmp (sw_snags_get (state.snags, i)->rule, "volt-drop") == 0;
  g_test_message ("%u snags before, %u after", before, sw_snags_n (state.snags));
  g_assert_cmpuint (drops, ==, 1);
  sw_snags_unref (state.snags);
  sw_space_unref (state.space);
  sw_job_unref (state.job);
}

/* A pipe that leads through another into a third: what falls in above makes all three too small, and what no longer leads there does
 * not. */
static void
test_upstream (void)
{
  GError *error = NULL;
#define PIPE(id, more, y) "{\"id\": \"" id "\", \"service\": \"waste\", \"od_mm\": 50, \"fall\": 60, " more "\"vertices\": [{\"at\": [0," y "], \"z\": 170}, {\"at\": [3000," y "], \"level\": \"fall\"}]}"
  static const char text[] = "{\"format\": \"soffit-job\", \"version\": 1, \"drop_ins\": [{\"id\": \"BA\", \"at\": [0,0], \"units\": 0.2}],"
    "\"fittings\": [{\"id\": \"T2\", \"kind\": \"tee\", \"run\": \"P2\", \"at\": [3000,0]}, {\"id\": \"T3\", \"kind\": \"tee\", \"run\": \"P3\", \"at\": [3000,20000]}],"
    "\"runs\": [" PIPE ("P1", "\"start\": \"BA\", \"end\": \"T2\", ", "0") "," PIPE ("P2", "\"end\": \"T3\", ", "20000") "," PIPE ("P3", "", "40000") "]}";
  State state = { .job = sw_text_form_read (text, -1, &error) };
  g_assert_no_error (error);
  g_autoptr (SwRules) rules = sw_test_rules ("south-africa");
  g_autoptr (SwDeck) deck = sw_deck_new (state.job);
  state.space = sw_space_new (deck, rules, &error);
  state.snags = sw_checks_run (state.space, NULL, NULL, NULL, NULL, &error);
  g_assert_cmpuint (count_of (state.snags, "pipe-flow", "small"), ==, 0);
  g_autoptr (SwEdit) more = sw_edit_new ("Change units"), part = sw_edit_new ("Change tee");
  SwDropIn *fixture = (SwDropIn *) sw_record_copy (sw_job_nth (state.job, SW_TABLE_DROP_IN, 0));
  fixture->units = 40;
  g_assert_true (sw_edit_put (more, state.job, &fixture->record, &error) && go_on (&state, more));
  g_assert_cmpuint (count_of (state.snags, "pipe-flow", "small"), ==, 3);
  SwFitting *tee = (SwFitting *) sw_record_copy (sw_job_nth (state.job, SW_TABLE_FITTING, 0));
  tee->run = 0;
  g_assert_true (sw_edit_put (part, state.job, &tee->record, &error) && go_on (&state, part));
  g_assert_cmpuint (count_of (state.snags, "pipe-flow", "small"), ==, 1);
  sw_snags_unref (state.snags);
  sw_space_unref (state.space);
  sw_job_unref (state.job);
}

/* A row of the price list says what a board may do, and whether there is a cheapest one. */
static void
test_prices (void)
{
  GError *error = NULL;
  static const char text[] = "{\"format\": \"soffit-job\", \"version\": 1, \"rooms\": [{\"sheet\": \"cheapest\", \"wet\": true, \"outline\": [[0,0],[6000,0],[6000,4000]]}]}";
  State state = { .job = sw_text_form_read (text, -1, &error) };
  g_assert_no_error (error);
  g_autoptr (SwRules) rules = sw_test_rules ("south-africa");
  g_autoptr (SwDeck) deck = sw_deck_new (state.job);
  state.space = sw_space_new (deck, rules, &error);
  state.snags = sw_checks_run (state.space, NULL, NULL, NULL, NULL, &error);
  g_assert_cmpuint (count_of (state.snags, "board-limits", "unpriced"), ==, 1);
  g_assert_cmpuint (count_of (state.snags, "board-limits", "wet"), ==, 1);
  g_autoptr (SwEdit) edit = sw_edit_new ("Read prices");
  SwPrice *price = (SwPrice *) sw_edit_create (edit, state.job, SW_TABLE_PRICE);
  sw_text_set (&price->record.tag, "board-gypsum-9.5-3000x1200");
  price->wet = SW_WET_YES;
  g_assert_true (sw_edit_put (edit, state.job, &price->record, &error) && go_on (&state, edit));
  g_assert_cmpuint (count_of (state.snags, "board-limits", "unpriced"), ==, 0);
  g_assert_cmpuint (count_of (state.snags, "board-limits", "wet"), ==, 0);
  sw_snags_unref (state.snags);
  sw_space_unref (state.space);
  sw_job_unref (state.job);
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  for (int seed = 1; seed <= 3; seed++)
    {
      g_autofree char *path = g_strdup_printf ("/checks/recheck/random-edits-%d", seed);
      g_test_add_data_func (path, GINT_TO_POINTER (seed), test_random_edits);
    }
  g_test_add_func ("/checks/recheck/row-of-conduits", test_row);
  g_test_add_func ("/checks/recheck/through-others", test_chain);
  g_test_add_func ("/checks/recheck/upstream", test_upstream);
  g_test_add_func ("/checks/recheck/prices", test_prices);
  return g_test_run ();
}
