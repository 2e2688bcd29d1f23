/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/desk.h"
#include "base/error.h"
#include "base/text.h"

typedef struct
{
  guint handle;
  SwDeskWatch watch;
  gpointer data;
} Watcher;

struct _SwDesk
{
  SwJob *job, *opening;
  SwJournal *journal;
  GArray *watchers;
  guint64 generation;
  guint last_handle;
};

SwDesk *
sw_desk_new (SwJob *job, SwJournal *journal)
{
  SwDesk *desk = g_new0 (SwDesk, 1);
  desk->job = sw_job_ref (job);
  desk->opening = sw_job_ref (job);
  desk->journal = journal ? journal : sw_journal_memory_new ();
  desk->watchers = g_array_new (FALSE, FALSE, sizeof (Watcher));
  return desk;
}

void
sw_desk_free (SwDesk *desk)
{
  sw_job_unref (desk->job);
  sw_job_unref (desk->opening);
  sw_journal_free (desk->journal);
  g_array_unref (desk->watchers);
  g_free (desk);
}

SwJob *
sw_desk_job (SwDesk *desk)
{
  return desk->job;
}

guint64
sw_desk_generation (SwDesk *desk)
{
  return desk->generation;
}

gboolean
sw_desk_is_read_only (SwDesk *desk)
{
  return desk->journal->read_only;
}

static void
desk_settle (SwDesk *desk, SwJob *next, const SwEdit *edit, gboolean forward)
{
  sw_job_unref (desk->job);
  desk->job = next;
  desk->generation++;
  SwNotice notice = { edit, forward, sw_edit_box (edit), 0 };
  for (guint i = 0; i < edit->changes->len; i++)
    notice.tables |= 1u << SW_ID_TABLE (g_array_index (edit->changes, SwChange, i).id);
  /* A copy: watchers may come and go while they are told. */
  g_autoptr (GArray) told = g_array_copy (desk->watchers);
  for (guint i = 0; i < told->len; i++)
    g_array_index (told, Watcher, i).watch (desk, &notice, g_array_index (told, Watcher, i).data);
}

static gboolean
desk_may_write (SwDesk *desk, GError **error)
{
  if (!desk->journal->read_only)
    return TRUE;
  g_set_error_literal (error, SW_ERROR, SW_ERROR_READ_ONLY, "this job is open for reading only: save a copy to change it");
  return FALSE;
}

gboolean
sw_desk_do (SwDesk *desk, SwEdit *edit, GError **error)
{
  if (sw_edit_is_empty (edit))
    return TRUE;
  if (!desk_may_write (desk, error))
    return FALSE;
  SwJob *next = sw_job_apply (desk->job, edit, TRUE, error);
  if (next == NULL)
    return FALSE;
  if (!desk->journal->append (desk->journal, edit, error))
    {
      sw_job_unref (next);
      return FALSE;
    }
  desk_settle (desk, next, edit, TRUE);
  return TRUE;
}

static gboolean
desk_step (SwDesk *desk, gboolean forward, GError **error)
{
  if (!desk_may_write (desk, error))
    return FALSE;
  if (forward ? !sw_desk_can_redo (desk) : !sw_desk_can_undo (desk))
    {
      g_set_error_literal (error, SW_ERROR, SW_ERROR_NOT_FOUND, forward ? "there is nothing to redo" : "there is nothing to undo");
      return FALSE;
    }
  guint at = desk->journal->position - (forward ? 0 : 1);
  g_autoptr (SwEdit) edit = desk->journal->fetch (desk->journal, at, error);
  if (edit == NULL)
    return FALSE;
  SwJob *next = sw_job_apply (desk->job, edit, forward, error);
  if (next == NULL)
    return FALSE;
  if (!desk->journal->step (desk->journal, edit, forward, error))
    {
      sw_job_unref (next);
      return FALSE;
    }
  desk_settle (desk, next, edit, forward);
  return TRUE;
}

gboolean
sw_desk_undo (SwDesk *desk, GError **error)
{
  return desk_step (desk, FALSE, error);
}

gboolean
sw_desk_redo (SwDesk *desk, GError **error)
{
  return desk_step (desk, TRUE, error);
}

gboolean
sw_desk_can_undo (SwDesk *desk)
{
  return desk->journal->position > 0;
}

gboolean
sw_desk_can_redo (SwDesk *desk)
{
  return desk->journal->position < desk->journal->length;
}

char *
sw_desk_undo_name (SwDesk *desk)
{
  return sw_desk_can_undo (desk) ? desk->journal->name (desk->journal, desk->journal->position - 1) : NULL;
}

char *
sw_desk_redo_name (SwDesk *desk)
{
  return sw_desk_can_redo (desk) ? desk->journal->name (desk->journal, desk->journal->position) : NULL;
}

guint
sw_desk_history_length (SwDesk *desk)
{
  return desk->journal->length;
}

gboolean
sw_desk_forget_history (SwDesk *desk, GError **error)
{
  return desk_may_write (desk, error) && desk->journal->forget (desk->journal, error);
}

gboolean
sw_desk_revert (SwDesk *desk, GError **error)
{
  g_autoptr (SwEdit) edit = sw_edit_between (N_("Revert to opening"), desk->job, desk->opening);
  return sw_desk_do (desk, edit, error);
}

guint
sw_desk_watch (SwDesk *desk, SwDeskWatch watch, gpointer data)
{
  Watcher watcher = { ++desk->last_handle, watch, data };
  g_array_append_val (desk->watchers, watcher);
  return watcher.handle;
}

void
sw_desk_unwatch (SwDesk *desk, guint handle)
{
  for (guint i = 0; i < desk->watchers->len; i++)
    if (g_array_index (desk->watchers, Watcher, i).handle == handle)
      {
        g_array_remove_index (desk->watchers, i);
        return;
      }
}
