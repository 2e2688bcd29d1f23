/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/tools/board.h"
#include <gio/gio.h>

/* A job in hand: its desk, its drawing board, and the pictures that a worker makes of it. The window binds to its
 * properties: title, subtitle, fault, read-only, busy, undo-name, redo-name. Main thread only. */
#define SW_TYPE_DOCUMENT (sw_document_get_type ())
G_DECLARE_FINAL_TYPE (SwDocument, sw_document, SW, DOCUMENT, GObject)

/* Signals: "picture" when there is a new picture; "changed" after each edit, undo or redo; "snags" when the snags to be
 * shown are others, with each picture and while something is dragged or drawn. */

/* The user's own folder of jobs, made when it is not there; free with g_free. */
char *sw_document_own_folder (void);
/* A job that is kept in the user's own folder of jobs until it is kept elsewhere. */
SwDocument *sw_document_new_from_job (SwJob *job, GError **error);
/* "*.soffit" is opened where it is; the text form (JSON) becomes a job of its own. */
SwDocument *sw_document_open (GFile *file, GError **error);

SwDesk *sw_document_desk (SwDocument *document);
SwBoard *sw_document_board (SwDocument *document);
SwJob *sw_document_job (SwDocument *document);
const SwPicture *sw_document_picture (SwDocument *document); /* the last good one; NULL at first */
/* Whose snags are to be shown: the picture, or one with the draft that is dragged or drawn. NULL at first. */
const SwPicture *sw_document_snags_picture (SwDocument *document);
/* Borrowed. */
GFile *sw_document_file (SwDocument *document);
gboolean sw_document_is_read_only (SwDocument *document);
/* A sentence that says why; NULL when it can be changed. */
const char *sw_document_read_only_text (SwDocument *document);

/* Each shows its error as the property "fault" and returns FALSE. */
gboolean sw_document_do (SwDocument *document, SwEdit *edit); /* takes the edit over */
gboolean sw_document_undo (SwDocument *document);
gboolean sw_document_redo (SwDocument *document);
gboolean sw_document_revert (SwDocument *document);
gboolean sw_document_save_copy (SwDocument *document, GFile *to);

const char *sw_document_fault (SwDocument *document);
void sw_document_set_fault (SwDocument *document, const char *fault); /* NULL: nothing is wrong any more */
