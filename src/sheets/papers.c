/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sheets/papers.h"
#include "base/error.h"
#include "checks/checks.h"
#include "estimate/lay_rooms.h"

struct _SwPapers
{
  SwSheetContext context; /* owns what it points to */
};

/* With layouts for closed rooms that have none or an old one; counts these. */
static SwJob *
with_layouts (SwJob *job, SwRules *rules, guint *n_laid, GCancellable *cancellable)
{
  g_autoptr (SwDeck) deck = sw_deck_new (job);
  g_autoptr (SwEdit) edit = sw_edit_new ("");
  g_autoptr (GArray) laid = sw_lay_rooms (deck, rules, &(SwLayWanted){ 0 }, edit, cancellable, NULL);
  for (guint i = 0; laid != NULL && i < laid->len; i++)
    {
      SwLaidDeed deed = g_array_index (laid, SwRoomLaid, i).deed;
      *n_laid += deed == SW_LAID_NEW || deed == SW_LAID_AGAIN;
    }
  SwJob *after = laid != NULL ? sw_job_apply (job, edit, TRUE, NULL) : NULL;
  return after != NULL ? after : sw_job_ref (job);
}

static SwSnags *
snags_of (SwJob *job, SwRules *rules, GCancellable *cancellable, GError **error)
{
  g_autoptr (SwDeck) deck = sw_deck_new (job);
  g_autoptr (SwSpace) space = sw_space_new (deck, rules, error);
  return space != NULL ? sw_checks_run (space, NULL, cancellable, NULL, NULL, error) : NULL;
}

static gboolean
fill (SwPapers *papers, SwJob *job, GCancellable *cancellable, GError **error)
{
  SwSheetContext *context = &papers->context;
  g_autoptr (SwJob) laid = with_layouts (job, context->rules, &context->n_laid_here, cancellable);
  context->deck = sw_deck_new (laid);
  context->space = sw_space_new (context->deck, context->rules, error);
  if (context->space == NULL)
    return FALSE;
  context->snags = snags_of (job, context->rules, cancellable, error);
  if (context->snags == NULL)
    return FALSE;
  if (cancellable == NULL || !g_cancellable_is_cancelled (cancellable))
    return TRUE;
  g_set_error (error, SW_ERROR, SW_ERROR_CANCELLED, "the sheets were cancelled");
  return FALSE;
}

SwPapers *
sw_papers_new (SwJob *job, SwRules *rules, gboolean invented_prices, GCancellable *cancellable, GError **error)
{
  SwPapers *papers = g_new0 (SwPapers, 1);
  papers->context.rules = sw_rules_ref (rules);
  papers->context.invented_prices = invented_prices;
  if (fill (papers, job, cancellable, error))
    return papers;
  sw_papers_free (papers);
  return NULL;
}

void
sw_papers_free (SwPapers *papers)
{
  g_clear_pointer (&papers->context.snags, sw_snags_unref);
  g_clear_pointer (&papers->context.space, sw_space_unref);
  g_clear_pointer (&papers->context.deck, sw_deck_unref);
  g_clear_pointer (&papers->context.rules, sw_rules_unref);
  g_free (papers);
}

const SwSheetContext *
sw_papers_context (const SwPapers *papers)
{
  return &papers->context;
}
