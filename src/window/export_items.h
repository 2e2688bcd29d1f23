/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/tools/picture.h"
#include "drawing/page.h"
#include "sheets/schedule.h"

/* What can be exported from a picture: every sheet and every schedule, by the same functions as the command. Any thread. */

guint sw_export_n (void);
gboolean sw_export_is_sheet (guint i); /* else a schedule */
/* In the user's language. */
const char *sw_export_title (guint i);
/* "sheet-electrician", "schedule-conduits": start of its file's name. Free with g_free. */
char *sw_export_stem (guint i);

/* A sheet's display (sealed, the caller's) and its page; NULL for a schedule or without rules. */
SwDisplay *sw_export_draw (const SwPicture *picture, guint i, SwPage *page);
/* NULL for a sheet or without rules; the caller's. */
SwSchedule *sw_export_schedule (const SwPicture *picture, guint i);
/* Writes it to a file: a sheet in the format of its ending, a schedule as CSV. */
gboolean sw_export_write (const SwPicture *picture, guint i, gboolean mono, const char *path, GError **error);
/* All of them into a folder, sheets as `ending` ("svg", "pdf", "png"). Number of files, −1 on an error. */
int sw_export_write_all (const SwPicture *picture, const char *folder, const char *ending, gboolean mono, GCancellable *cancellable,
                         GError **error);
