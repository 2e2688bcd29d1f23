/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "job/edit.h"

/* Where finished edits go before the job changes in memory. The job file implements it; the one in memory serves
 * tests and the command. `position` edits stand applied; those from position to length can be redone. */
typedef struct _SwJournal SwJournal;
struct _SwJournal
{
  /* Drops what could be redone, writes the edit as applied: length = ++position. All or nothing. */
  gboolean (*append) (SwJournal *journal, const SwEdit *edit, GError **error);
  /* Undo (!forward) of edit position − 1, or redo of edit position; `edit` is that one. */
  gboolean (*step) (SwJournal *journal, const SwEdit *edit, gboolean forward, GError **error);
  /* Edit number i < length; the caller's. */
  SwEdit *(*fetch) (SwJournal *journal, guint i, GError **error);
  /* Its name alone; free with g_free. NULL when it cannot be read. */
  char *(*name) (SwJournal *journal, guint i);
  /* Drops the history, keeps the records: length = position = 0. */
  gboolean (*forget) (SwJournal *journal, GError **error);
  void (*free) (SwJournal *journal);
  guint length, position;
  gboolean read_only;
};

SwJournal *sw_journal_memory_new (void);
void sw_journal_free (SwJournal *journal);
