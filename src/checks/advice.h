/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "checks/snag_text.h"
#include "job/edit.h"

/* A change that mends a snag, tried on the whole job before it is offered: the snag is gone, and no stop or fix is new or
 * larger than before among all that the change touches. */
typedef struct
{
  SwEdit *edit;       /* to be given to the desk; named for the menu */
  const char *words;  /* English, to be translated, with {move} or {number} in it */
  SwPoint3 direction; /* of {move} */
  double distance, number;
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
char *sw_advice_text (const SwAdvice *advice, SwTranslate translate);
/* What to say when there is none: English, to be translated. Static. */
const char *sw_advice_none (void);
