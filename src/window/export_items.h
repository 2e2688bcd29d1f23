/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/tools/picture.h"
#include "sheets/report.h"

/* What can be exported from a picture: every sheet and every schedule, by the same functions as the command. Immutable, counted
 * by reference, any thread. */
typedef struct _SwExports SwExports;

/* Works out what the papers need beyond the picture: not for the main thread. */
SwExports *sw_exports_new (const SwPicture *picture, GCancellable *cancellable, GError **error);
SwExports *sw_exports_ref (SwExports *exports);
void sw_exports_unref (SwExports *exports);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwExports, sw_exports_unref)

guint sw_exports_n (const SwExports *exports);
const SwReportItem *sw_exports_item (const SwExports *exports, guint i);

/* Of the picture. Borrowed. */
const SwRules *sw_exports_rules (const SwExports *exports);

/* The caller's; NULL with an error, and for a schedule. */
SwSheet *sw_exports_draw (const SwExports *exports, guint i, gboolean mono, GError **error);
/* The caller's; NULL for a sheet. */
SwSchedule *sw_exports_schedule (const SwExports *exports, guint i);
/* Writes it to a file: a sheet in the format of its ending, of several pages "name-1", "name-2" …; a schedule as CSV. */
gboolean sw_exports_write (const SwExports *exports, guint i, gboolean mono, const char *path, GError **error);
/* All of them into a folder, sheets as `ending` ("svg", "pdf", "png"). Number of files, −1 on an error. */
int sw_exports_write_all (const SwExports *exports, const char *folder, const char *ending, gboolean mono, GCancellable *cancellable,
                          GError **error);
