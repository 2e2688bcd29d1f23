/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/tools/picture.h"
#include "job/edit.h"

/* Battens and boards for rooms: one edit that stores the layouts. Takes seconds for large rooms: call it from a thread.
 * `rooms` 0: every room whose ceiling is closed. A room that cannot be laid out is left and named in *left_out (a sentence,
 * the caller's; NULL when there is none). NULL and an error when none could be, or it was cancelled. */
SwEdit *sw_lay_out (const SwPicture *picture, const SwId *rooms, guint n, char **left_out, GCancellable *cancellable, GError **error);
