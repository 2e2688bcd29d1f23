/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "tiny.h"
#include "checks/snag_text.h"
#include "store/text_form.h"
#include <string.h>

static const char profiles[] = "'profiles': [{'id': 'p', 'tendons': 'no', 'plate_spacing_mm': 0}],";
static const char bays[] = "'bays': [{'id': 'B', 'profile': 'p', 'outline': [[0,0],[6000,0],[6000,4800],[0,4800]]}],";

SwJob *
tiny_job (const char *records)
{
  GError *error = NULL;
  g_autofree char *text = g_strdup_printf ("{'format': 'soffit-job', 'version': 1, %s %s %s}",
                                           strstr (records, "'profiles'") != NULL ? "" : profiles,
                                           strstr (records, "'bays'") != NULL ? "" : bays, records);
  SwJob *job = sw_text_form_read (g_strdelimit (text, "'", '"'), -1, &error);
  g_assert_no_error (error);
  return job;
}

SwJob *
tiny_example (void)
{
  GError *error = NULL;
  g_autofree char *path = sw_test_source_path ("examples/community-hall.json");
  SwJob *job = sw_text_form_load (path, &error);
  g_assert_no_error (error);
  return job;
}

SwSpace *
tiny_space (SwJob *job)
{
  GError *error = NULL;
  g_autoptr (SwRules) rules = sw_test_rules ("south-africa");
  g_autoptr (SwDeck) deck = sw_deck_new (job);
  SwSpace *space = sw_space_new (deck, rules, &error);
  g_assert_no_error (error);
  return space;
}

SwSnags *
tiny_check (const char *records, const char *only)
{
  GError *error = NULL;
  SwCheckOptions options = { .only = only };
  g_autoptr (SwJob) job = tiny_job (records);
  g_autoptr (SwSpace) space = tiny_space (job);
  SwSnags *snags = sw_checks_run (space, &options, NULL, NULL, NULL, &error);
  g_assert_no_error (error);
  return snags;
}

static void
assert_words (const SwSnags *snags, const SwSnag *snag)
{
  g_autoptr (SwSnagText) text = sw_snag_text (snags, snag, NULL);
  g_assert_null (strchr (text->sentence, '{'));
  g_assert_null (strstr (text->sentence, "–"));
  g_assert_cmpstr (text->title, !=, "");
  g_assert_cmpstr (text->rule, !=, ""); /* every snag names its rule and source */
  g_test_message ("%s: %s [%s]", sw_severity_word (snag->severity), text->sentence, text->rule);
}

static void
run_case (gconstpointer data)
{
  const TinyCase *tiny = data;
  g_autoptr (SwSnags) snags = tiny_check (tiny->records, tiny->rule);
  for (guint i = 0; i < sw_snags_n (snags); i++)
    assert_words (snags, sw_snags_get (snags, i));
  g_assert_cmpuint (sw_snags_n (snags), ==, tiny->n);
  if (sw_snags_n (snags) == 0 || tiny->variant == NULL)
    return;
  const SwSnag *first = sw_snags_get (snags, 0);
  g_assert_cmpstr (first->rule, ==, tiny->rule);
  g_assert_cmpstr (first->variant, ==, tiny->variant);
  g_assert_cmpstr (sw_severity_word (first->severity), ==, sw_severity_word (tiny->severity));
  if (!isnan (tiny->missing))
    sw_assert_near (first->missing_mm, tiny->missing, 0.02);
}

void
tiny_add_cases (const char *path, const TinyCase *cases, gsize n)
{
  for (gsize i = 0; i < n; i++)
    {
      g_assert_nonnull (sw_checks_find (cases[i].rule));
      g_autofree char *name = g_strdup_printf ("%s/%s/%s", path, cases[i].rule, cases[i].name);
      g_test_add_data_func (name, &cases[i], run_case);
    }
}
