/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "drawing/display.h"

/* The display's insides, for this layer only. All coordinates are the display's: scopes' transforms are already in. */

typedef enum { SW_VERB_MOVE, SW_VERB_LINE, SW_VERB_CURVE, SW_VERB_CLOSE } SwVerb; /* 1, 1, 3 and 0 points */
typedef enum { SW_SCOPE_GROUP, SW_SCOPE_TRANSFORM, SW_SCOPE_CLIP } SwScopeKind;
#define SW_NO_SCOPE G_MAXUINT32

typedef struct
{
  SwScopeKind kind;
  guint32 parent; /* index, always lower than its own, or SW_NO_SCOPE */
  guint32 group;  /* number among the groups (SW_SCOPE_GROUP) */
  guint32 first_point, n_points; /* the ring (SW_SCOPE_CLIP) */
  SwDisplayKey key;
  const char *id, *class_name, *title, *description;
  SwBox box; /* of the items inside */
  guint32 first_item, end_item; /* they follow each other; equal when there are none */
} SwScope;

typedef struct
{
  gboolean has_fill, has_stroke; /* neither: a text */
  SwFill fill;
  SwStroke stroke;
  SwTextStyle text; /* turn is in the item */
} SwItemStyle;

typedef struct
{
  SwBox box; /* of the geometry, and its width when that is in SW_SIZE_WORLD */
  double reach_world, reach_paper, reach_px; /* how far letters, or a width in other units, go beyond it */
  double least_detail, most_detail; /* px per mm of the display */
  guint32 scope;
  guint32 style;
  guint32 first_verb, n_verbs;
  guint32 first_point, n_points; /* a text: place and unit direction */
  const char *text;              /* NULL for a path */
  guint8 layer;
  guint8 mirrored; /* a text whose up is to the right of its direction */
} SwItem;

typedef struct
{
  SwBox box;
  double reach_world, reach_paper, reach_px, least_detail, most_detail;
  guint64 layers;
} SwIndexNode;

struct _SwDisplay
{
  gatomicrefcount references;
  gboolean sealed;
  GArray *items;  /* SwItem */
  GArray *scopes; /* SwScope */
  GArray *styles; /* SwItemStyle, each once */
  GArray *points; /* SwPoint */
  GByteArray *verbs;
  GStringChunk *strings;
  GArray *groups; /* guint32: scope of each group */
  SwBox box;
  guint n_left_out;
  /* Lookup, made by sealing: nodes by level, leaves first; a leaf holds SW_INDEX_FAN of `order`. */
  guint32 *order;
  SwIndexNode *nodes;
  guint n_levels, level_start[17];
  struct _SwDisplayBuilder *builder; /* freed by sealing */
};

static inline const SwItem *sw_display_item (const SwDisplay *d, guint i) { return &g_array_index (d->items, SwItem, i); }
static inline const SwScope *sw_display_scope (const SwDisplay *d, guint i) { return &g_array_index (d->scopes, SwScope, i); }
static inline const SwItemStyle *sw_display_style (const SwDisplay *d, guint i) { return &g_array_index (d->styles, SwItemStyle, i); }
static inline const SwPoint *sw_display_points (const SwDisplay *d, guint i) { return &g_array_index (d->points, SwPoint, i); }

/* UTF-8 that XML 1.0 can hold on one line: what is not is replaced. Free with g_free. */
char *sw_display_clean_text (const char *text);
/* For sw_display_append: an item of a display that is being filled, at the scope in use. */
void sw_display_add_verbs (SwDisplay *display, const guint8 *verbs, guint n_verbs, const SwPoint *points, guint n_points);
void sw_display_add_text_item (SwDisplay *display, const SwItem *like, SwPoint at, SwPoint direction, const SwTextStyle *style);
void sw_display_set_item_state (SwDisplay *display, const SwItem *like);

/* The innermost scope that holds both, or SW_NO_SCOPE. */
guint32 sw_display_scope_shared (const SwDisplay *display, guint32 a, guint32 b);

#define SW_INDEX_FAN 16
void sw_display_index_build (SwDisplay *display);

typedef struct
{
  SwBox box;
  double paper, px; /* mm of the display for a mm on paper and for a px */
  double detail;    /* px per mm of the display */
  guint64 layers;   /* only these */
} SwDisplayQuery;

/* Sets the bit of each item that the query may show; `bits` has sw_display_n_words words. Painting order is bit order. */
void sw_display_query (const SwDisplay *display, const SwDisplayQuery *query, guint64 *bits);
static inline gsize sw_display_n_words (const SwDisplay *display) { return (display->items->len + 63) / 64; }
