/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A picture is made from the one before: rules are kept while their name and the job's changes to them stay, solids of
 * records that did not change are taken over, and a part of the plan whose tables were not touched keeps its display. */
#include "window/tools/picture.h"
#include "ceiling/layout.h"
#include "job/edit.h"
#include "window/tools/badges.h"

#define BIT(table) (1u << (table))
/* Tables from which a deck is worked out: all drawings lean on it but for those that only show records. */
#define DECK_TABLES (BIT (SW_TABLE_JOB) | BIT (SW_TABLE_PROFILE) | BIT (SW_TABLE_BAY) | BIT (SW_TABLE_PLATE) | BIT (SW_TABLE_OPENING) \
                     | BIT (SW_TABLE_SOLID) | BIT (SW_TABLE_BEAM) | BIT (SW_TABLE_COLUMN) | BIT (SW_TABLE_MEASURE))

static const struct
{
  guint64 layers;
  guint32 tables; /* a change elsewhere leaves the part as it is */
} parts[SW_PART_SNAGS] = {
  [SW_PART_GROUND] = { SW_LAYER_BIT (SW_LAYER_DECK), DECK_TABLES },
  [SW_PART_CEILING] = { SW_LAYER_BIT (SW_LAYER_BATTENS) | SW_LAYER_BIT (SW_LAYER_BOARDS), BIT (SW_TABLE_LAYOUT) },
  [SW_PART_THINGS] = { SW_LAYERS_ALL & ~(SW_LAYER_BIT (SW_LAYER_DECK) | SW_LAYER_BIT (SW_LAYER_BATTENS) | SW_LAYER_BIT (SW_LAYER_BOARDS)
                                         | SW_LAYER_BIT (SW_LAYER_SNAGS)),
                       ~BIT (SW_TABLE_LAYOUT) },
};

static guint32
edit_tables (const SwEdit *edit)
{
  guint32 tables = 0;
  for (guint i = 0; i < edit->changes->len; i++)
    tables |= BIT (SW_ID_TABLE (g_array_index (edit->changes, SwChange, i).id));
  return tables;
}

static gboolean
same_rules (const SwJobInfo *a, const SwJobInfo *b)
{
  return g_str_equal (a->rule_set, b->rule_set) && g_str_equal (a->rule_overrides, b->rule_overrides);
}

static void
take_rules (SwPicture *picture, const SwPicture *before)
{
  const SwJobInfo *info = sw_job_info (sw_picture_job (picture));
  if (before != NULL && before->rules != NULL && same_rules (info, sw_job_info (sw_picture_job (before))))
    picture->rules = sw_rules_ref (before->rules);
  else
    picture->rules = sw_rules_load_text (info->rule_set, *info->rule_overrides ? info->rule_overrides : NULL, "the job's own values",
                                         &picture->fault);
}

static void
take_space (SwPicture *picture, const SwPicture *before, const SwEdit *edit)
{
  if (picture->rules == NULL)
    return;
  if (before != NULL && before->space != NULL && before->rules == picture->rules && edit != NULL)
    picture->space = sw_space_update (before->space, picture->deck, edit, &picture->fault);
  else
    picture->space = sw_space_new (picture->deck, picture->rules, &picture->fault);
}

static void
draw_parts (SwPicture *picture, const SwPicture *before, guint32 tables)
{
  for (int i = 0; i < SW_PART_SNAGS; i++)
    {
      if (before != NULL && (tables & parts[i].tables) == 0)
        {
          picture->parts[i] = sw_display_ref (before->parts[i]);
          continue;
        }
      picture->parts[i] = sw_display_new ();
      sw_plan_draw (picture->parts[i], picture->deck, parts[i].layers);
      sw_display_seal (picture->parts[i]);
    }
}

/* Until new ones are found the old ones stay, as long as they stand for the same job. */
static void
keep_snags (SwPicture *picture, const SwPicture *before)
{
  if (before != NULL && before->snags != NULL)
    {
      picture->snags = sw_snags_ref (before->snags);
      picture->numbers = g_memdup2 (before->numbers, MAX (sw_snags_n (before->snags), 1) * sizeof *before->numbers);
      picture->parts[SW_PART_SNAGS] = sw_display_ref (before->parts[SW_PART_SNAGS]);
      return;
    }
  picture->parts[SW_PART_SNAGS] = sw_display_new ();
  sw_display_seal (picture->parts[SW_PART_SNAGS]);
}

SwPicture *
sw_picture_new (SwJob *job, guint64 generation, const SwPicture *before, GCancellable *cancellable)
{
  g_autoptr (SwPicture) picture = g_new0 (SwPicture, 1);
  g_autoptr (SwEdit) edit = before != NULL ? sw_edit_between ("", sw_picture_job (before), job) : NULL;
  guint32 tables = edit != NULL ? edit_tables (edit) : ~0u;
  g_atomic_ref_count_init (&picture->refs);
  picture->generation = generation;
  picture->changed = edit != NULL ? sw_edit_box (edit) : SW_BOX_EMPTY;
  picture->deck = before != NULL ? sw_deck_update (before->deck, job, edit) : sw_deck_new (job);
  draw_parts (picture, before, tables);
  if (g_cancellable_is_cancelled (cancellable))
    return NULL;
  take_rules (picture, before);
  take_space (picture, before, edit);
  keep_snags (picture, before);
  return g_cancellable_is_cancelled (cancellable) ? NULL : g_steal_pointer (&picture);
}

const SwCheckOptions sw_picture_check_options = { .layout_is_current = sw_ceiling_layout_is_current };

/* Old snags were found with the same options: what did not change since is not looked at again. */
static SwSnags *
find_snags (SwSpace *space, const SwSnags *before, GCancellable *cancellable)
{
  if (before == NULL)
    return sw_checks_run (space, &sw_picture_check_options, cancellable, NULL, NULL, NULL);
  g_autoptr (SwEdit) edit = sw_edit_between ("", sw_space_job (sw_snags_space (before)), sw_space_job (space));
  return sw_checks_update (before, space, edit, &sw_picture_check_options, cancellable, NULL);
}

/* With another space and its snags, without their drawing; all of the other arguments are taken over. */
static SwPicture *
picture_with (const SwPicture *picture, SwDeck *deck, SwSpace *space, SwSnags *snags, guint *numbers)
{
  SwPicture *later = g_new0 (SwPicture, 1);
  g_atomic_ref_count_init (&later->refs);
  later->generation = picture->generation;
  later->deck = deck;
  later->rules = sw_rules_ref (picture->rules);
  later->space = space;
  later->snags = snags;
  later->numbers = numbers;
  later->changed = sw_badges_changed (picture->snags, picture->numbers, snags, numbers);
  later->checked = TRUE;
  for (int i = 0; i < SW_PART_SNAGS; i++)
    later->parts[i] = sw_display_ref (picture->parts[i]);
  later->parts[SW_PART_SNAGS] = sw_badges_draw (snags, numbers);
  return later;
}

SwPicture *
sw_picture_check (SwPicture *picture, GCancellable *cancellable)
{
  SwSnags *snags = picture->space != NULL ? find_snags (picture->space, picture->snags, cancellable) : NULL;
  if (snags == NULL)
    return NULL;
  return picture_with (picture, sw_deck_ref (picture->deck), sw_space_ref (picture->space), snags, sw_badges_number (snags));
}

/* The job with the records in it; NULL when they cannot stand there. */
static SwJob *
draft_job (SwJob *job, SwRecord *const *records, guint n)
{
  g_autoptr (SwEdit) edit = sw_edit_new ("");
  for (guint i = 0; i < n; i++)
    if (!sw_edit_put (edit, job, sw_record_copy (records[i]), NULL))
      return NULL;
  return sw_job_apply (job, edit, TRUE, NULL);
}

SwPicture *
sw_picture_draft (const SwPicture *picture, SwRecord *const *records, guint n, GCancellable *cancellable)
{
  g_return_val_if_fail (picture->checked && picture->space != NULL, NULL);
  g_autoptr (SwJob) job = draft_job (sw_picture_job (picture), records, n);
  if (job == NULL)
    return NULL;
  g_autoptr (SwEdit) edit = sw_edit_between ("", sw_picture_job (picture), job);
  g_autoptr (SwDeck) deck = sw_deck_update (picture->deck, job, edit);
  g_autoptr (SwSpace) space = sw_space_update (picture->space, deck, edit, NULL);
  SwSnags *snags = space != NULL && !g_cancellable_is_cancelled (cancellable) ? find_snags (space, picture->snags, cancellable) : NULL;
  if (snags == NULL)
    return NULL;
  guint *numbers = sw_badges_keep (picture->snags, picture->numbers, snags);
  SwPicture *draft = picture_with (picture, g_steal_pointer (&deck), g_steal_pointer (&space), snags, numbers);
  draft->draft = TRUE;
  return draft;
}

SwPicture *
sw_picture_ref (SwPicture *picture)
{
  g_atomic_ref_count_inc (&picture->refs);
  return picture;
}

void
sw_picture_unref (SwPicture *picture)
{
  if (!g_atomic_ref_count_dec (&picture->refs))
    return;
  for (int i = 0; i < SW_N_PARTS; i++)
    g_clear_pointer (&picture->parts[i], sw_display_unref);
  g_clear_pointer (&picture->snags, sw_snags_unref);
  g_clear_pointer (&picture->space, sw_space_unref);
  g_clear_pointer (&picture->rules, sw_rules_unref);
  g_clear_pointer (&picture->deck, sw_deck_unref);
  g_clear_error (&picture->fault);
  g_free (picture->numbers);
  g_free (picture);
}
