/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <gio/gio.h>

/* Drawings that lie under the plan: SVG, PNG or JPEG. An SVG file can take any time and memory and cannot be stopped from inside, so it is
 * drawn by a helper process with limits on both; nothing outside the file is opened for it. */
typedef struct
{
  double width, height; /* of the drawing, in its units (pixels of 1/96 inch) */
  int columns, rows;    /* the longer one is as asked */
  guint8 *pixels;       /* rows × columns × 4 bytes without gaps: premultiplied ARGB in the machine's byte order, as cairo's ARGB32 */
  char *sha256;         /* of the file, 64 figures */
} SwUnderlayImage;

/* Draws the file with `longest` (1 to 4096) pixels on its longer side. Takes up to 10 s: call it from a thread. SW_ERROR_IO
 * when the file cannot be read, SW_ERROR_INVALID when it is no drawing, SW_ERROR_LIMIT when it is larger than 20 MB or takes
 * too much time or memory, SW_ERROR_CANCELLED; each begins with the name of the file. */
SwUnderlayImage *sw_underlay_draw (const char *path, int longest, GCancellable *cancellable, GError **error);
void sw_underlay_image_free (SwUnderlayImage *image);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwUnderlayImage, sw_underlay_image_free)
