/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sample.h"
#include "store/text_form.h"

void
sw_sheet_sample_open (SwSheetSample *sample, gconstpointer unused)
{
  GError *error = NULL;
  sample->context = (SwSheetContext){ NULL };
  g_autofree char *path = sw_test_source_path ("tests/sheets/small-job.json");
  g_autoptr (SwJob) job = sw_text_form_load (path, &error);
  g_assert_no_error (error);
  sample->context.rules = sw_test_rules (sw_job_info (job)->rule_set);
  sample->context.deck = sw_deck_new (job);
}

void
sw_sheet_sample_close (SwSheetSample *sample, gconstpointer unused)
{
  sw_deck_unref (sample->context.deck);
  sw_rules_unref (sample->context.rules);
}
