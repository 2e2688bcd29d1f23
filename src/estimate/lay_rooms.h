/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "ceiling/ceiling.h"
#include "job/edit.h"

/* Laying out rooms of a job: battens and boards found by the ceiling engine and stored by one edit. Window, command and papers all
 * go this way. */

typedef enum
{
  SW_LAID_NOT,   /* it cannot be laid: `fault` says why */
  SW_LAID_KEPT,  /* its layout is what would be found anew */
  SW_LAID_NEW,   /* it had none */
  SW_LAID_AGAIN, /* it had one that was out of date, or was asked for anew */
  SW_N_LAID
} SwLaidDeed;

/* What a layout comes to. */
typedef struct
{
  guint n_members[SW_MEMBER_STUD + 1]; /* by SwMemberKind */
  double member_mm[SW_MEMBER_STUD + 1];
  guint n_sheets, n_pieces;
  double sheet_mm2, piece_mm2; /* of all sheets, of the pieces */
  double joint_mm;             /* movement joints too */
} SwLaidFigures;

typedef struct
{
  const SwRoom *room;      /* of the deck's job */
  SwLaidDeed deed;
  GError *fault;           /* NULL unless SW_LAID_NOT */
  SwLaidFigures figures;   /* zeros when SW_LAID_NOT */
  guint n_marks[SW_N_CEILING_MARKS]; /* of what was laid just now */
  double shift_mm;         /* of the battens, where that would clear more lights and crossings: `cleared` */
  guint cleared;
} SwRoomLaid;

typedef struct
{
  const SwId *rooms; /* only these, in this order; ids of other things are passed over */
  guint n;           /* 0: every room whose ceiling is closed */
  gboolean again;    /* those too whose layout is up to date */
} SwLayWanted;

/* Puts the new layouts into the edit. GArray of SwRoomLaid, the caller's. Takes seconds for large rooms: not for the main
 * thread. The only error is SW_ERROR_CANCELLED; the edit is then of no use. */
GArray *sw_lay_rooms (SwDeck *deck, SwRules *rules, const SwLayWanted *wanted, SwEdit *edit, GCancellable *cancellable, GError **error);

SwLaidFigures sw_laid_figures (const SwCeiling *ceiling);
/* Counts what the ceiling says into n_marks and the shift. */
void sw_laid_marks (const SwCeiling *ceiling, SwRoomLaid *laid);
/* "laid out" …: for people, untranslated; "new" … for files. Static. */
const char *sw_laid_text (SwLaidDeed deed);
const char *sw_laid_word (SwLaidDeed deed);
