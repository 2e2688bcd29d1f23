/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "drawing/display_data.h"

/* Paths as straight pieces in device units, and what of them lies in a box; for this layer only. */

/* Subpaths one after the other: `ends` holds the index after each one's last point; a closed one repeats its first. */
typedef struct
{
  GArray *points; /* SwPoint */
  GArray *ends;   /* guint */
  GArray *closed; /* gboolean of each */
} SwTrace;

SwTrace *sw_trace_new (void);
void sw_trace_free (SwTrace *trace);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwTrace, sw_trace_free)
static inline guint sw_trace_n (const SwTrace *trace) { return trace->ends->len; }
static inline gboolean sw_trace_closed (const SwTrace *trace, guint i) { return g_array_index (trace->closed, gboolean, i); }
const SwPoint *sw_trace_part (const SwTrace *trace, guint i, guint *n);

/* Replaces what `trace` holds. Curves become pieces within about a tenth of a device unit. */
void sw_trace_path (SwTrace *trace, const SwDisplay *display, const SwItem *item, SwTransform to_device);

/* The ring cut to the box (Sutherland and Hodgman): replaces `out`, which may end up empty. A ring that leaves the box
 * in several pieces gets edges along the box's sides, so grow the box by what must not be seen. */
void sw_ring_clip (const SwPoint *ring, guint n, SwBox box, GArray *out);

/* The part t0–t1 of a–b that lies in the box (Liang and Barsky); FALSE when none. */
gboolean sw_segment_clip (SwPoint a, SwPoint b, SwBox box, double *t0, double *t1);
/* What of the trace lies in the box, as runs of points in order; `along` is the length from the part's first point. A
 * closed part whose first point shows ends with its first corner once more, unless `dashed`. */
typedef struct
{
  guint first, n;
  double along;
} SwTraceRun;
/* Replaces both arrays (SwPoint, SwTraceRun). */
void sw_trace_cut (const SwTrace *trace, SwBox box, gboolean dashed, GArray *points, GArray *runs);
double sw_segment_distance (SwPoint a, SwPoint b, SwPoint p);
gboolean sw_ring_holds (const SwPoint *ring, guint n, SwPoint p);
/* Even-odd over all parts. */
gboolean sw_trace_holds (const SwTrace *trace, SwPoint p);
