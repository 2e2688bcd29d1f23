/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "checks/snag_text.h"
#include "job/edit.h"

/* A change that mends a snag, tried on the whole job before it is offered. A leg that moves takes along the fittings on it and the
 * ends of other runs that hang on those. Then every segment, bend and socket of every run that changes is checked, with all that
 * refers to what changes or lies near it before or after, as far as any rule looks: for the rest of the job nothing can differ
 * (recheck.c). It holds when the snag is gone; when each stop and fix that is left was there before, one for one and no smaller,
 * this snag itself not counted; when, for a note, no more snags of any kind are left than there were; when no run gets a corner
 * without room for its bend, or a leg too short for its sockets; and when no fitting comes off its run and no end off what it hangs on.
 * The way from the old place to the new is not tried: this is a plan, nobody slides a pipe through concrete, and to change sides
 * with a neighbour is often the answer. */
typedef struct
{
  SwEdit *edit;       /* to be given to the desk; named for the menu */
  const char *words;  /* English, to be translated, with {move} or {number} in it */
  SwPoint3 direction; /* of {move} */
  double distance, number;
  SwUnit number_unit; /* of {number}: a length, or a plain number */
  GArray *along;      /* double: lengths from the run's start that {places} lists; NULL: none */
  double cost;        /* mm moved, or a like measure; small is better */
  guint notes;        /* that what it touches has afterwards */
} SwAdvice;

void sw_advice_free (SwAdvice *advice);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwAdvice, sw_advice_free)

/* Up to `most` changes, the smallest first; empty when none works. GPtrArray of SwAdvice, the caller's. Options as for
 * the check. Each change that is tried costs an update of the space: for a worker thread. */
GPtrArray *sw_advice_find (const SwSnags *snags, const SwSnag *snag, const SwCheckOptions *options, guint most,
                           GCancellable *cancellable);

/* "Move this leg 16 mm north." Free with g_free. */
char *sw_advice_text (const SwAdvice *advice, SwLengths lengths, SwTranslate translate);
/* What to say when there is none: English, to be translated. Static. */
const char *sw_advice_none (void);
