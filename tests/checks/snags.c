/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The list of snags, their words, and the two ways to ask for them. */
#include "checks/messages.h"
#include "checks/snag_text.h"
#include "tiny.h"
#include <string.h>

#define V(x, y, z) "{'at': [" #x "," #y "], 'z': " #z "}"
#define OUTLINE "'outline': [[0,0],[6000,0],[6000,4800],[0,4800]]"

/* Stops, fixes and notes of several trades. */
static const char busy[] =
  "'grid_lines': [{'id': 'A', 'from': [0,0], 'to': [0,4800]}, {'id': '1', 'from': [0,2000], 'to': [6000,2000]}],"
  "'rooms': [{'id': 'hall', " OUTLINE "}],"
  "'runs': [{'id': 'R1', 'service': 'soil', 'od_mm': 110, 'fall': 60, 'vertices': [" V (1000, 300, 150) ", {'at': [5800,300], 'level': 'fall'}]},"
  "{'id': 'R2', 'service': 'power', 'vertices': [" V (1000, 320, 60) "," V (4000, 320, 60) "," V (4000, 1500, 60) "]},"
  "{'id': 'R3', 'service': 'cold', 'material': 'copper', 'od_mm': 22, 'vertices': [" V (1000, 890, 100) "," V (4000, 890, 100) "]}],"
  "'lights': [{'id': 'L1', 'at': [2000,300]}, {'id': 'L2', 'at': [2000,600]}],"
  "'drop_ins': [{'id': 'DI1', 'at': [1000,520]}]";

static int
compare_snags (const SwSnag *a, const SwSnag *b)
{
  if (a->severity != b->severity)
    return a->severity < b->severity ? -1 : 1;
  if (a->order != b->order)
    return a->order < b->order ? -1 : 1;
  return a->place.x < b->place.x ? -1 : a->place.x > b->place.x;
}

static void
test_sorted (void)
{
  g_autoptr (SwSnags) snags = tiny_check (busy, NULL);
  guint n = sw_snags_n (snags);
  g_assert_cmpuint (n, >, 8);
  g_assert_cmpuint (n, ==, sw_snags_count (snags, SW_SEVERITY_STOP) + sw_snags_count (snags, SW_SEVERITY_FIX) + sw_snags_count (snags, SW_SEVERITY_NOTE));
  for (int severity = 0; severity < SW_N_SEVERITIES; severity++)
    g_assert_cmpuint (sw_snags_count (snags, severity), >, 0);
  for (guint i = 0; i + 1 < n; i++)
    g_assert_cmpint (compare_snags (sw_snags_get (snags, i), sw_snags_get (snags, i + 1)), <=, 0);
}

/* The same job gives the same list, whatever was asked before. */
static void
test_same_twice (void)
{
  g_autoptr (SwSnags) a = tiny_check (busy, NULL), b = tiny_check (busy, NULL);
  g_assert_cmpuint (sw_snags_n (a), ==, sw_snags_n (b));
  for (guint i = 0; i < sw_snags_n (a); i++)
    {
      g_autoptr (SwSnagText) s = sw_snag_text (a, sw_snags_get (a, i), NULL), t = sw_snag_text (b, sw_snags_get (b, i), NULL);
      g_assert_cmpstr (s->sentence, ==, t->sentence);
    }
}

static void
test_keys (void)
{
  g_autoptr (SwSnags) snags = tiny_check (busy, NULL);
  for (guint i = 0; i < sw_snags_n (snags); i++)
    {
      g_autofree char *key = sw_snag_key (sw_snags_get (snags, i));
      int found = sw_snags_find (snags, key);
      g_assert_cmpint (found, >=, 0);
      g_autofree char *again = sw_snag_key (sw_snags_get (snags, found));
      g_assert_cmpstr (again, ==, key);
    }
  const SwSnag *first = sw_snags_get (snags, 0);
  g_autofree char *moved = g_strdup_printf ("%s:%" G_GINT64_FORMAT ":%" G_GINT64_FORMAT ":77:99", first->rule, first->owners[0], first->owners[1]);
  g_assert_cmpint (sw_snags_find (snags, moved), >=, 0);
  g_assert_cmpint (sw_snags_find (snags, "rib-clearance:1:2:3:4"), ==, -1);
  g_assert_cmpint (sw_snags_find (snags, "x"), ==, -1);
  g_assert_cmpint (sw_snags_find (snags, ""), ==, -1);
}

/* Asking for a record gives exactly those snags of the whole list that it is part of and that its own checks find. */
static void
test_of_some (void)
{
  GError *error = NULL;
  g_autoptr (SwJob) job = tiny_job (busy);
  g_autoptr (SwSpace) space = tiny_space (job);
  g_autoptr (SwSnags) all = sw_checks_run (space, NULL, NULL, NULL, NULL, &error);
  g_assert_no_error (error);
  static const char *const tags[] = { "R1", "R2", "R3", "L1", "L2", "DI1", "hall" };
  for (gsize t = 0; t < G_N_ELEMENTS (tags); t++)
    {
      SwId owner = sw_job_find (job, tags[t])->id;
      g_autoptr (SwSnags) some = sw_checks_of (space, NULL, &owner, 1);
      guint expected = 0;
      for (guint i = 0; i < sw_snags_n (all); i++)
        expected += sw_snag_concerns (sw_snags_get (all, i), owner);
      for (guint i = 0; i < sw_snags_n (some); i++)
        g_assert_true (sw_snag_concerns (sw_snags_get (some, i), owner));
      if (owner != sw_job_find (job, "hall")->id) /* what hangs too low in a room is the run's own snag */
        g_assert_cmpuint (sw_snags_n (some), ==, expected);
    }
}

static void
note_progress (double done, gpointer data)
{
  double *last = data;
  g_assert_cmpfloat (done, >=, *last);
  *last = done;
}

static void
test_progress_and_cancel (void)
{
  GError *error = NULL;
  double last = 0;
  g_autoptr (SwJob) job = tiny_job (busy);
  g_autoptr (SwSpace) space = tiny_space (job);
  G_GNUC_UNUSED g_autoptr (SwSnags) snags = sw_checks_run (space, NULL, NULL, note_progress, &last, &error);
  g_assert_no_error (error);
  sw_assert_near (last, 1, 1e-12);
  g_autoptr (GCancellable) cancellable = g_cancellable_new ();
  g_cancellable_cancel (cancellable);
  g_assert_null (sw_checks_run (space, NULL, cancellable, NULL, NULL, &error));
  sw_assert_error (error, SW_ERROR_CANCELLED, "cancelled");
}

static void
test_options (void)
{
  g_autoptr (SwJob) job = tiny_job (busy);
  g_autoptr (SwSpace) space = tiny_space (job);
  SwCheckOptions quiet = { .no_notes = TRUE }, one = { .only = "light-rib" };
  g_autoptr (SwSnags) loud = sw_checks_run (space, NULL, NULL, NULL, NULL, NULL);
  g_autoptr (SwSnags) snags = sw_checks_run (space, &quiet, NULL, NULL, NULL, NULL);
  g_autoptr (SwSnags) only = sw_checks_run (space, &one, NULL, NULL, NULL, NULL);
  g_assert_cmpuint (sw_snags_count (snags, SW_SEVERITY_NOTE), ==, 0);
  g_assert_cmpuint (sw_snags_n (snags), ==, sw_snags_n (loud) - sw_snags_count (loud, SW_SEVERITY_NOTE));
  g_assert_cmpuint (sw_snags_n (only), ==, 1);
}

/* Each rule has a message, each message a rule; ids are what files and links may hold. */
static void
test_table (void)
{
  for (guint i = 0; i < sw_checks_n (); i++)
    {
      const SwCheck *check = sw_checks_get (i);
      guint messages = 0;
      for (unsigned k = 0; k < sw_snag_n_messages; k++)
        messages += strcmp (sw_snag_messages[k].rule, check->id) == 0;
      g_assert_cmpuint (messages, >, 0);
      g_assert_true (sw_checks_find (check->id) == check);
      g_assert_cmpuint (strspn (check->id, "abcdefghijklmnopqrstuvwxyz-"), ==, strlen (check->id));
    }
  for (unsigned k = 0; k < sw_snag_n_messages; k++)
    {
      g_assert_nonnull (sw_checks_find (sw_snag_messages[k].rule));
      g_assert_true (sw_snag_message (sw_snag_messages[k].rule, sw_snag_messages[k].variant) == &sw_snag_messages[k]);
    }
  g_assert_null (sw_checks_find ("no-such-rule"));
}

static const SwSnag *
find_rule (const SwSnags *snags, const char *rule)
{
  for (guint i = 0; i < sw_snags_n (snags); i++)
    if (strcmp (sw_snags_get (snags, i)->rule, rule) == 0)
      return sw_snags_get (snags, i);
  g_assert_not_reached ();
}

static void
test_sentence (void)
{
  g_autoptr (SwSnags) snags = tiny_check (busy, NULL);
  g_autoptr (SwSnagText) text = sw_snag_text (snags, find_rule (snags, "drop-in"), NULL);
  g_assert_cmpstr (text->title, ==, "Drop-in over a rib");
  g_assert_cmpstr (text->where, ==, "bay B, void 1, 850 from the closure, 1.00 m from grid A");
  g_assert_cmpstr (text->todo, ==, "Move it 95 mm south.");
  g_assert_cmpstr (text->sentence, ==, "The hole of drop-in DI1 (150 mm) lies 95 mm over the rib: bay B, void 1, 850 from the closure, "
                                       "1.00 m from grid A. Move it 95 mm south.");
  g_autoptr (SwSnagText) light = sw_snag_text (snags, find_rule (snags, "light-rib"), NULL);
  g_assert_true (g_str_has_prefix (light->rule, "checks.clearances.light_rib_mm = 10 mm ("));
  g_assert_true (g_str_has_suffix (light->rule, "from memory)"));
}

/* 5 m of PVC conduit change by more than 6 mm (NEC 352.44): a coupling in the middle, 2850 from the closure at 150. */
static void
test_where_couplings_go (void)
{
  g_autoptr (SwSnags) snags = tiny_check ("'runs': [{'id': 'R1', 'service': 'power', 'vertices': [{'at': [500,300], 'z': 120}, {'at': [5500,300], 'z': 120}]}]", "expansion");
  g_autoptr (SwSnagText) text = sw_snag_text (snags, find_rule (snags, "expansion"), NULL);
  g_assert_cmpstr (text->todo, ==, "Put 1 in: 2.50 m from its start (bay B, void 1, 2850 from the closure); draw each as a socket on the run.");
}

/* A language in which every text is in brackets: nothing is said that was not given to be translated. */
static const char *
in_brackets (const char *english)
{
  static GHashTable *known;
  if (known == NULL)
    known = g_hash_table_new_full (g_str_hash, g_str_equal, NULL, g_free);
  char *text = g_hash_table_lookup (known, english);
  if (text == NULL)
    {
      text = g_strdup_printf ("[%s]", english);
      g_hash_table_insert (known, (gpointer) english, text);
    }
  return text;
}

static void
test_translated (void)
{
  g_autoptr (SwSnags) snags = tiny_check (busy, NULL);
  g_autoptr (SwSnagText) text = sw_snag_text (snags, find_rule (snags, "drop-in"), in_brackets);
  g_assert_cmpstr (text->title, ==, "[Drop-in over a rib]");
  g_assert_cmpstr (text->what, ==, "[The hole of [drop-in] DI1 (150 mm) lies 95 mm over the rib.]");
  g_assert_cmpstr (text->todo, ==, "[Move it 95 mm [south].]");
  g_assert_cmpstr (text->where, ==, "[bay] B, [void 1], [850 from the closure], [1.00 m from grid A]");
}

static void
test_moves (void)
{
  static const struct { SwPoint3 way; double mm; const char *text; } moves[] = {
    { { 0, 1, 0 }, 12.2, "13 mm north" },       { { 0, 0, -1 }, 4, "4 mm down" },
    { { -1, 0, 0 }, 5.001, "5 mm west" },       { { 0.6, 0, 0.8 }, 10, "6 mm east and 8 mm up" },
    { { 0.7071, 0.7071, 0 }, 10, "10 mm north-east" }, { { 0, -0.98, -0.196 }, 15.39, "16 mm south" },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (moves); i++)
    {
      g_autofree char *text = sw_snag_move (moves[i].way, moves[i].mm, SW_LENGTHS_MM, NULL);
      g_assert_cmpstr (text, ==, moves[i].text);
    }
  /* 12.2 mm is 7.69 sixteenths of an inch; 310 mm is 1 ft 3.28 sixteenths: a move is rounded up. */
  g_autofree char *inch = sw_snag_move ((SwPoint3){ 0, 1, 0 }, 12.2, SW_LENGTHS_FT_IN, NULL);
  g_autofree char *foot = sw_snag_move ((SwPoint3){ 0, 0, 1 }, 310, SW_LENGTHS_FT_IN, NULL);
  g_assert_cmpstr (inch, ==, "1/2\" north");
  g_assert_cmpstr (foot, ==, "1' 0 1/4\" up");
}

/* Each check names what it rests on, with a source, for snags that no number decides; and no row is of a check that is gone. */
static void
test_basis (void)
{
  GError *error = NULL;
  g_autoptr (SwRules) rules = sw_test_rules ("south-africa");
  SwRuleValue basis;
  g_assert_no_error (error);
  for (guint i = 0; i < sw_checks_n (); i++)
    if (!sw_rules_lookup (rules, "checks.basis", sw_checks_get (i)->id, "basis", &basis, NULL) || *basis.source == '\0')
      g_error ("no basis for %s", sw_checks_get (i)->id);
  for (guint i = 0; i < sw_rules_n_rows (rules, "checks.basis"); i++)
    g_assert_nonnull (sw_checks_find (sw_rules_row_key (rules, "checks.basis", i)));
  g_autoptr (SwSnags) snags = tiny_check ("'fittings': [{'id': 'F1', 'kind': 'box', 'at': [2000,300]}], 'runs': [{'id': 'R1', 'service': 'power', 'vertices': ["
                                          V (1000, 300, 120) "," V (4000, 300, 120) "]}]", "run-start");
  g_assert_cmpuint (sw_snags_n (snags), ==, 1);
  g_autoptr (SwSnagText) text = sw_snag_text (snags, sw_snags_get (snags, 0), NULL);
  g_assert_cmpstr (text->rule, ==, "checks.basis[run-start].basis = trade (trade practice: a run starts at a thing that has a name; common practice)");
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/checks/snags/sorted", test_sorted);
  g_test_add_func ("/checks/snags/same-twice", test_same_twice);
  g_test_add_func ("/checks/snags/keys", test_keys);
  g_test_add_func ("/checks/snags/of-some", test_of_some);
  g_test_add_func ("/checks/snags/progress-and-cancel", test_progress_and_cancel);
  g_test_add_func ("/checks/snags/options", test_options);
  g_test_add_func ("/checks/snags/table", test_table);
  g_test_add_func ("/checks/snags/sentence", test_sentence);
  g_test_add_func ("/checks/snags/where-couplings-go", test_where_couplings_go);
  g_test_add_func ("/checks/snags/translated", test_translated);
  g_test_add_func ("/checks/snags/moves", test_moves);
  g_test_add_func ("/checks/snags/basis", test_basis);
  return g_test_run ();
}
