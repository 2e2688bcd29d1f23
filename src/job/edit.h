/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "job/job.h"

/* An edit is a list of changes, each a record before and after (NULL: not there). The same shape gives undo, the
 * journal's row, the notice of change and the difference of two jobs. */
typedef struct
{
  SwId id;
  SwRecord *before, *after; /* owned; at most one NULL */
} SwChange;

struct _SwEdit
{
  gatomicrefcount refs;
  char *name;         /* "Move downlight", shown after Undo and Redo */
  GArray *changes;    /* SwChange, one per id, in the order of the first touch */
  GHashTable *places; /* SwId → index + 1 */
};

SwEdit *sw_edit_new (const char *name);
SwEdit *sw_edit_ref (SwEdit *edit);
void sw_edit_unref (SwEdit *edit);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwEdit, sw_edit_unref)

/* Puts a record that is new or a changed copy (takes it over). It is settled: FALSE and SW_ERROR_INVALID with table, mark
 * and field when it cannot be. `job` gives what was there before; further changes of one id fall together. */
gboolean sw_edit_put (SwEdit *edit, const SwJob *job, SwRecord *record, GError **error);
/* Takes a record out, with the records that cannot be without it, and clears other references to it. */
void sw_edit_remove (SwEdit *edit, const SwJob *job, SwId id);
/* As `id` stands after the edit so far; NULL when it is gone or never was. Borrowed. */
const SwRecord *sw_edit_peek (const SwEdit *edit, const SwJob *job, SwId id);
/* A new record with a free id and mark, counted past those that the edit holds. The caller's. */
SwRecord *sw_edit_create (const SwEdit *edit, const SwJob *job, SwTable table);

/* All that leads from one job to another. */
SwEdit *sw_edit_between (const char *name, const SwJob *from, const SwJob *to);
gboolean sw_edit_is_empty (const SwEdit *edit);
/* Box in plan of all that it touches, before and after. */
SwBox sw_edit_box (const SwEdit *edit);
