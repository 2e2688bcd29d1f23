/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "estimate/cut_job.h"
#include "estimate/needs.h"
#include "rules/rules.h"
#include "space/deck.h"
#include <gio/gio.h>

/* The take-off: all that the job needs, room by room as each is to be finished, and room 0 for what lies in no room. */

typedef enum
{
  SW_TAKEOFF_NO_ROUTE,     /* run `owner` cannot be worked out: nothing of it is counted */
  SW_TAKEOFF_NO_CABLE,     /* run `owner` of power or lighting has no circuit: its wires are not counted */
  SW_TAKEOFF_NO_SUPPORTS,  /* the rule set has no spacing for run `owner`: its supports are not counted */
  SW_TAKEOFF_NO_CEILING,   /* room `owner` cannot be boarded: its ceiling is not counted */
  SW_TAKEOFF_NEW_LAYOUT,   /* room `owner` has no layout in the job, or an old one: counted from a new one */
  SW_N_TAKEOFF_NOTES
} SwTakeoffNoteKind;

typedef struct
{
  SwTakeoffNoteKind kind;
  SwId owner;
  char *detail; /* what the engine said; NULL for none */
} SwTakeoffNote;

typedef struct
{
  GPtrArray *needs; /* SwNeed */
  GArray *notes;    /* SwTakeoffNote, by kind, then owner */
  SwCutJob *cut;    /* how the job is cut; NULL when that cannot be worked out */
} SwTakeoff;

/* Runs that exist already are left out, and supports of those that are cast in; a room's layout that is stored and up to date
 * is what the ceiling engine finds anew. What is cut takes the stock of the job's cutting plans where they hold all of it, else that of each
 * room by itself. The only error is SW_ERROR_CANCELLED. Runs times the rooms that they pass, plus the ceilings. */
SwTakeoff *sw_takeoff_new (SwDeck *deck, SwRules *rules, GCancellable *cancellable, GError **error);
void sw_takeoff_free (SwTakeoff *takeoff);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwTakeoff, sw_takeoff_free)

/* "no-route" …; and for people, untranslated. Static. */
const char *sw_takeoff_note_word (SwTakeoffNoteKind kind);
const char *sw_takeoff_note_text (SwTakeoffNoteKind kind);
