/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "job/job.h"
#include <gio/gio.h>

/* A job as JSON and back, without its history. The document is one object:
 *
 *   {"format": "soffit-job", "version": 1, "job": {…}, "profiles": [{"id": "deep", …}], "bays": […], …}
 *
 * with one list a table, in the order of SwTable, records in id order. "id" is the record's mark; a reference is the
 * mark of what it names, which may stand anywhere in the document. Fields that have their default are left out. Points
 * are [x, y], money is a text ("12.50"), choices are words. data/job.schema.json describes it.
 *
 * Reading numbers the records of each table from 1 in the order of the document, so that write(read(text)) is stable,
 * and read(write(job)) equals the job up to gaps in its ids. Records without "id" get an automatic mark. */

#define SW_TEXT_FORM_VERSION 1

/* UTF-8 with a final line feed; the same bytes in every locale. Free with g_free. */
char *sw_text_form_write (const SwJob *job);
/* `length` in bytes, -1: up to the NUL. SW_ERROR_INVALID names line and column, or the path in the document:
 * "rooms[2].outline: needs at least 3 points". SW_ERROR_TOO_NEW for a later version, SW_ERROR_LIMIT for nesting. */
SwJob *sw_text_form_read (const char *text, gssize length, GError **error);

/* The same from and to a file, errors with its name. Reading takes at most 256 MB. Saving replaces the file at once. */
SwJob *sw_text_form_load (const char *path, GError **error);
gboolean sw_text_form_save (const SwJob *job, const char *path, GError **error);

/* JSON Schema (draft 2020-12) of the text form, from the same field tables: data/job.schema.json. Free with g_free. */
char *sw_text_form_schema (void);
