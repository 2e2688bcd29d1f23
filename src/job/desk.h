/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "job/journal.h"

/* The desk owns the job that is worked on: the current picture, its journal and those who want to know of changes.
 * One thread only (the main one); others get pictures from sw_desk_job. */
typedef struct _SwDesk SwDesk;

typedef struct
{
  const SwEdit *edit;
  gboolean forward; /* FALSE: it was undone */
  SwBox box;        /* of all that changed */
  guint32 tables;   /* bits */
} SwNotice;

typedef void (*SwDeskWatch) (SwDesk *desk, const SwNotice *notice, gpointer data);

/* Takes the journal over (NULL: one in memory) and a reference to the job. */
SwDesk *sw_desk_new (SwJob *job, SwJournal *journal);
void sw_desk_free (SwDesk *desk);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwDesk, sw_desk_free)

SwJob *sw_desk_job (SwDesk *desk); /* borrowed until the next change */
guint64 sw_desk_generation (SwDesk *desk); /* grows with every change */
gboolean sw_desk_is_read_only (SwDesk *desk);

/* Journal first, then memory, then the notice. An empty edit does nothing and succeeds. On failure nothing changed. */
gboolean sw_desk_do (SwDesk *desk, SwEdit *edit, GError **error);
gboolean sw_desk_undo (SwDesk *desk, GError **error);
gboolean sw_desk_redo (SwDesk *desk, GError **error);
gboolean sw_desk_can_undo (SwDesk *desk);
gboolean sw_desk_can_redo (SwDesk *desk);
/* Name of the edit that undo or redo would take; NULL for none. Free with g_free. */
char *sw_desk_undo_name (SwDesk *desk);
char *sw_desk_redo_name (SwDesk *desk);
guint sw_desk_history_length (SwDesk *desk);
gboolean sw_desk_forget_history (SwDesk *desk, GError **error);
/* One edit that leads back to the job as it was when the desk was made. */
gboolean sw_desk_revert (SwDesk *desk, GError **error);

/* Returns a handle > 0. */
guint sw_desk_watch (SwDesk *desk, SwDeskWatch watch, gpointer data);
void sw_desk_unwatch (SwDesk *desk, guint handle);
