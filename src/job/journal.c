/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "job/journal.h"

typedef struct
{
  SwJournal base;
  GPtrArray *edits;
} MemoryJournal;

static gboolean
memory_append (SwJournal *journal, const SwEdit *edit, GError **error)
{
  MemoryJournal *memory = (MemoryJournal *) journal;
  g_ptr_array_set_size (memory->edits, (int) journal->position);
  g_ptr_array_add (memory->edits, sw_edit_ref ((SwEdit *) edit));
  journal->length = ++journal->position;
  return TRUE;
}

static gboolean
memory_step (SwJournal *journal, const SwEdit *edit, gboolean forward, GError **error)
{
  journal->position += forward ? 1 : -1;
  return TRUE;
}

static SwEdit *
memory_fetch (SwJournal *journal, guint i, GError **error)
{
  return sw_edit_ref (((MemoryJournal *) journal)->edits->pdata[i]);
}

static char *
memory_name (SwJournal *journal, guint i)
{
  return g_strdup (((SwEdit *) ((MemoryJournal *) journal)->edits->pdata[i])->name);
}

static gboolean
memory_forget (SwJournal *journal, GError **error)
{
  g_ptr_array_set_size (((MemoryJournal *) journal)->edits, 0);
  journal->length = journal->position = 0;
  return TRUE;
}

static void
memory_free (SwJournal *journal)
{
  g_ptr_array_unref (((MemoryJournal *) journal)->edits);
  g_free (journal);
}

SwJournal *
sw_journal_memory_new (void)
{
  MemoryJournal *memory = g_new0 (MemoryJournal, 1);
  memory->base = (SwJournal){ memory_append, memory_step, memory_fetch, memory_name, memory_forget, memory_free, 0, 0, FALSE };
  memory->edits = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_edit_unref);
  return &memory->base;
}

void
sw_journal_free (SwJournal *journal)
{
  journal->free (journal);
}
