/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "checks/snag.h"
#include "job/edit.h"

/* Plates that wait for the engineer's release, and the release entered for many of them at once. */
typedef struct
{
  SwId bay;
  int void_number, plate_number; /* as written */
} SwPlateRef;

/* Whether a snag is a plate in the way that has no release yet; `plate` may be NULL. */
gboolean sw_release_is_wanted (const SwSnags *snags, const SwSnag *snag, SwPlateRef *plate);
/* Those that the snags name for one thing (a run, a bay, a plate; 0: for all), each once. GArray of SwPlateRef, the caller's. */
GArray *sw_release_wanted_for (const SwSnags *snags, SwId thing);
/* Adds a plate that is not there yet. */
void sw_release_add (GArray *plates, const SwPlateRef *plate);
/* One edit that enters for all of them who released them, when (YYYY-MM-DD), and under which reference: what the engineer
 * wrote. NULL and SW_ERROR_INVALID, saying what is missing, when any of the three is. */
SwEdit *sw_release_edit (SwJob *job, const GArray *plates, const char *by, const char *on, const char *reference, GError **error);
