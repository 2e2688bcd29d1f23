/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <glib.h>

/* What "soffit-underlay LONGEST-SIDE" writes to its standard output: this, then rows × columns pixels of four bytes,
 * premultiplied ARGB in the machine's byte order. The drawing comes on standard input. When it cannot, it writes one
 * line on standard error and exits with 1. */
#define SW_UNDERLAY_MAGIC "SWunder1"
#define SW_UNDERLAY_LONGEST 4096 /* pixels a side */

typedef struct
{
  char magic[8];
  gint32 columns, rows;
  double width, height; /* of the drawing, in its units */
} SwUnderlayHead;
