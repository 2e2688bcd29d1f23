/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "base/error.h"
#include <gio/gio.h>

/* TRUE with SW_ERROR_CANCELLED once it is cancelled; a cancellable of NULL never is. */
static inline gboolean
sw_ceiling_is_cancelled (GCancellable *cancellable, GError **error)
{
  if (!g_cancellable_is_cancelled (cancellable))
    return FALSE;
  g_set_error_literal (error, SW_ERROR, SW_ERROR_CANCELLED, "laying out the ceiling was cancelled");
  return TRUE;
}
