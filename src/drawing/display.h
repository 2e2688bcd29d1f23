/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "drawing/style.h"
#include "drawing/transform.h"

/* A display list: what is drawn, in order, in mm, y up everywhere (a page's origin is its lower left corner).
 * One thread fills it; after sw_display_seal it never changes and any thread may read it. References are atomic. */
typedef struct _SwDisplay SwDisplay;

SwDisplay *sw_display_new (void);
SwDisplay *sw_display_ref (SwDisplay *display);
void sw_display_unref (SwDisplay *display);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwDisplay, sw_display_unref)
/* Ends what is open and builds the spatial lookup, O(n log n). Sealing twice does nothing. */
void sw_display_seal (SwDisplay *display);
gboolean sw_display_is_sealed (const SwDisplay *display);

/* What a group shows; hit testing returns groups. table 0 = nothing that can be picked. */
typedef struct
{
  int table;
  int part; /* a vertex, leg or side of the record; the caller's numbering */
  gint64 record;
} SwDisplayKey;

typedef struct
{
  SwDisplayKey key;
  const char *id; /* NULL or a name that is made a unique XML id */
  const char *class_name, *title, *description; /* may be NULL */
} SwDisplayGroup;

/* Scopes nest; each begin needs a sw_display_end. Layer and detail that are set inside end with the scope. */
void sw_display_begin_group (SwDisplay *display, const SwDisplayGroup *group);
/* What follows is in coordinates of its own; `transform` takes them to those around. Widths and texts in SW_SIZE_WORLD
 * scale along, those in other units do not. */
void sw_display_begin_transform (SwDisplay *display, SwTransform transform);
/* Shows only what lies inside the ring (n ≥ 3) and inside every clip around. */
void sw_display_begin_clip (SwDisplay *display, const SwPoint *ring, gsize n);
void sw_display_begin_clip_box (SwDisplay *display, SwBox box);
void sw_display_end (SwDisplay *display);
/* 0–63: layers can be hidden, faded or brought to the front when painted. */
void sw_display_set_layer (SwDisplay *display, int layer);
/* Items show from `least` up to below `most` px per mm (of the coordinates in use); 0 and INFINITY = always. */
void sw_display_set_detail (SwDisplay *display, double least, double most);
/* mm of the coordinates in use for a mm of the display: 50 inside a plan at 1:50 on a page. */
double sw_display_unit (const SwDisplay *display);

/* A path of one or more subpaths, then sw_display_paint. Holes: subpaths inside others (even-odd). */
void sw_display_move (SwDisplay *display, SwPoint to);
void sw_display_line (SwDisplay *display, SwPoint to);
/* An arc from angle `from` on by `sweep` radians (counter-clockwise positive, at most a full turn), joined by a line
 * to a subpath that is open. */
void sw_display_arc (SwDisplay *display, SwPoint centre, double radius, double from, double sweep);
void sw_display_close (SwDisplay *display);
/* Makes the path an item: the fill below the stroke; either may be NULL. Items with numbers that are not finite or
 * beyond ±1e9 mm are left out and counted. */
void sw_display_paint (SwDisplay *display, const SwFill *fill, const SwStroke *stroke);

void sw_display_add_line (SwDisplay *display, SwPoint a, SwPoint b, const SwStroke *stroke);
void sw_display_add_polyline (SwDisplay *display, const SwPoint *points, gsize n, const SwStroke *stroke);
void sw_display_add_polygon (SwDisplay *display, const SwPoint *points, gsize n, const SwFill *fill, const SwStroke *stroke);
void sw_display_add_box (SwDisplay *display, SwBox box, const SwFill *fill, const SwStroke *stroke);
void sw_display_add_circle (SwDisplay *display, SwPoint centre, double radius, const SwFill *fill, const SwStroke *stroke);
/* One line of text; bytes that are not UTF-8 and control characters are replaced. Empty text adds nothing. */
void sw_display_add_text (SwDisplay *display, SwPoint at, const char *text, const SwTextStyle *style);
/* Copies a sealed display with its groups, as if drawn here. */
void sw_display_append (SwDisplay *display, const SwDisplay *other);
/* The same without its texts, for those who place these themselves. */
void sw_display_append_paths (SwDisplay *display, const SwDisplay *other);
/* Copies the paths of one group of a sealed display, stroked as given and not filled: the mark of what is picked. */
void sw_display_append_outline (SwDisplay *display, const SwDisplay *other, guint group, const SwStroke *stroke);

guint sw_display_n_items (const SwDisplay *display);
guint sw_display_n_left_out (const SwDisplay *display);
/* The box round all items, without line widths and texts whose size is not in SW_SIZE_WORLD. */
SwBox sw_display_box (const SwDisplay *display);

/* Groups are numbered from 0 in the order in which they began. Sealed displays only. */
guint sw_display_n_groups (const SwDisplay *display);
/* Strings belong to the display. */
SwDisplayGroup sw_display_group (const SwDisplay *display, guint group);
SwBox sw_display_group_box (const SwDisplay *display, guint group);
/* −1 for a group that no other holds. */
int sw_display_group_parent (const SwDisplay *display, guint group);
/* First group with this table and record (any part) from `after` + 1 on (−1: from the first); −1 when there is none. */
int sw_display_find (const SwDisplay *display, int table, gint64 record, int after);

typedef struct
{
  const char *text;   /* the display's */
  SwPoint at, direction; /* direction of the baseline, of length 1 */
  SwTextStyle style;  /* with its turn */
  int layer;
  double least_detail, most_detail;
  int group;          /* the innermost round it; -1 for none */
} SwDisplayText;
/* All texts of a sealed display in painting order: GArray of SwDisplayText; free with g_array_unref. */
GArray *sw_display_texts (const SwDisplay *display);
