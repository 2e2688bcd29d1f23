/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Candidates come from the display's lookup; each is traced in device units, where radius and boxes are what the hand
 * aims with, whatever the view's turn and mirror. Clips count by the box round them (and exactly for a point). */
#include "drawing/hit.h"
#include "drawing/text.h"
#include "drawing/trace.h"

/* Areas whose shorter side exceeds this many radii are ground that other things lie on. */
#define LARGE_RADII 6

typedef enum { AT_EXACT, AT_NEAR, AT_LARGE } Rank;

typedef struct
{
  SwHit hit;
  Rank rank;
  gboolean faded;
  guint32 item; /* painting order within a layer's turn */
} Found;

typedef struct
{
  const SwDisplay *display;
  const SwDrawView *view;
  SwTrace *trace;
  PangoLayout *layout;
} Finder;

static void
finder_clear (Finder *finder)
{
  sw_trace_free (finder->trace);
  g_clear_object (&finder->layout);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Finder, finder_clear)

/* The innermost group that can be hit, or −1. */
static int
item_group (const SwDisplay *display, const SwItem *item)
{
  for (guint32 s = item->scope; s != SW_NO_SCOPE; s = sw_display_scope (display, s)->parent)
    {
      const SwScope *scope = sw_display_scope (display, s);
      if (scope->kind == SW_SCOPE_GROUP && scope->key.table != 0)
        return (int) scope->group;
    }
  return -1;
}

/* The four corners of a text on the device; FALSE when the view leaves it out. */
static gboolean
text_corners (Finder *f, const SwItem *item, SwPoint corners[4])
{
  const SwTextStyle *style = &sw_display_style (f->display, item->style)->text;
  const SwPoint *at = sw_display_points (f->display, item->first_point);
  SwTextPlace place = sw_text_place (f->view, at[0], at[1], item->mirrored, style);
  if (place.em < f->view->least_text_px || !(place.em > 0))
    return FALSE;
  if (f->layout == NULL)
    f->layout = sw_text_layout_new ();
  /* Measured at a fixed size: letters scale evenly. */
  double width = sw_text_layout_set (f->layout, item->text, 64, style->bold) * place.em / 64;
  double start = -width * (place.align / 2.0), height = place.em / SW_TEXT_EM;
  const SwPoint local[] = { { start, 0 }, { start + width, 0 }, { start + width, -height }, { start, -height } };
  for (int i = 0; i < 4; i++)
    corners[i] = sw_point_add (place.at, sw_point_turn (local[i], place.cosine, place.sine));
  return TRUE;
}

static void
trace_text (Finder *f, const SwPoint corners[4])
{
  guint end = 5;
  gboolean closed = TRUE;
  g_array_set_size (f->trace->points, 0);
  g_array_set_size (f->trace->ends, 0);
  g_array_set_size (f->trace->closed, 0);
  g_array_append_vals (f->trace->points, corners, 4);
  g_array_append_vals (f->trace->points, corners, 1);
  g_array_append_val (f->trace->ends, end);
  g_array_append_val (f->trace->closed, closed);
}

/* Traces the item; *area: its inside counts; *width of its line on the device. FALSE when it does not show. */
static gboolean
trace_item (Finder *f, const SwItem *item, gboolean *area, double *width)
{
  const SwItemStyle *style = sw_display_style (f->display, item->style);
  SwPoint corners[4];
  *area = item->text != NULL || style->has_fill;
  *width = style->has_stroke ? sw_look_stroke (f->view, &style->stroke, item->layer).width : 0;
  if (item->text == NULL)
    sw_trace_path (f->trace, f->display, item, f->view->to_device);
  else if (text_corners (f, item, corners))
    trace_text (f, corners);
  else
    return FALSE;
  return TRUE;
}

static double
trace_distance (const SwTrace *trace, SwPoint at)
{
  double best = INFINITY;
  for (guint part = 0; part < sw_trace_n (trace); part++)
    {
      guint n;
      const SwPoint *points = sw_trace_part (trace, part, &n);
      for (guint i = 0; i < n; i++)
        best = MIN (best, sw_segment_distance (points[i], points[MIN (i + 1, n - 1)], at));
    }
  return best;
}

static GArray *
clip_ring (const Finder *f, const SwScope *clip)
{
  GArray *ring = g_array_new (FALSE, FALSE, sizeof (SwPoint));
  for (guint i = 0; i < clip->n_points; i++)
    {
      SwPoint p = sw_transform_point (f->view->to_device, *sw_display_points (f->display, clip->first_point + i));
      g_array_append_val (ring, p);
    }
  return ring;
}

static gboolean
clips_hold (const Finder *f, const SwItem *item, SwPoint at)
{
  for (guint32 s = item->scope; s != SW_NO_SCOPE; s = sw_display_scope (f->display, s)->parent)
    if (sw_display_scope (f->display, s)->kind == SW_SCOPE_CLIP)
      {
        g_autoptr (GArray) ring = clip_ring (f, sw_display_scope (f->display, s));
        if (!sw_ring_holds ((SwPoint *) ring->data, ring->len, at))
          return FALSE;
      }
  return TRUE;
}

/* Below 0 when a comes first. */
static int
compare_found (gconstpointer pa, gconstpointer pb)
{
  const Found *a = pa, *b = pb;
  if ((a->rank == AT_LARGE) != (b->rank == AT_LARGE))
    return a->rank == AT_LARGE ? 1 : -1;
  if (a->faded != b->faded)
    return a->faded ? 1 : -1;
  if (a->rank != b->rank)
    return a->rank < b->rank ? -1 : 1;
  double da = round (a->hit.distance), db = round (b->hit.distance);
  if (a->rank == AT_NEAR && da != db)
    return da < db ? -1 : 1;
  return a->item != b->item ? (a->item > b->item ? -1 : 1) : 0;
}

/* FALSE when the place is neither in nor near the traced item. */
static gboolean
find_rank (const Finder *f, const SwItem *item, gboolean area, double distance, double radius, gboolean inside, Rank *rank)
{
  SwBox box = sw_transform_box (f->view->to_device, item->box);
  double side = MIN (box.high.x - box.low.x, box.high.y - box.low.y);
  gboolean large = area && item->text == NULL && side > LARGE_RADII * radius;
  gboolean edge = !large || sw_display_style (f->display, item->style)->has_stroke;
  if (distance <= radius && edge)
    *rank = distance == 0 || (inside && !large) ? AT_EXACT : AT_NEAR;
  else
    *rank = large ? AT_LARGE : AT_EXACT;
  return inside || (distance <= radius && edge);
}

static gboolean
find_item (Finder *f, guint32 number, SwPoint at, double radius, Found *found)
{
  const SwItem *item = sw_display_item (f->display, number);
  int group = item_group (f->display, item);
  gboolean area;
  double width;
  Rank rank;
  if (group < 0 || !trace_item (f, item, &area, &width) || !clips_hold (f, item, at))
    return FALSE;
  double distance = MAX (0, trace_distance (f->trace, at) - width / 2);
  gboolean inside = area && sw_trace_holds (f->trace, at);
  if (!find_rank (f, item, area, distance, radius, inside, &rank))
    return FALSE;
  SwDisplayKey key = sw_display_group (f->display, (guint) group).key;
  *found = (Found){ { (guint) group, key, inside ? 0 : distance }, rank, (f->view->look.faded >> item->layer) & 1, number };
  return TRUE;
}

static void
keep_best (GArray *all, GHashTable *places, const Found *found)
{
  gpointer known = g_hash_table_lookup (places, GUINT_TO_POINTER (found->hit.group));
  if (known == NULL)
    {
      g_array_append_val (all, *found);
      g_hash_table_insert (places, GUINT_TO_POINTER (found->hit.group), GUINT_TO_POINTER (all->len));
      return;
    }
  Found *before = &g_array_index (all, Found, GPOINTER_TO_UINT (known) - 1);
  if (compare_found (found, before) < 0)
    *before = *found;
}

GArray *
sw_hit_point (const SwDisplay *display, const SwDrawView *view, SwPoint at, double radius)
{
  GArray *hits = g_array_new (FALSE, FALSE, sizeof (SwHit));
  g_auto (Finder) finder = { display, view, sw_trace_new (), NULL };
  g_autoptr (GArray) all = g_array_new (FALSE, FALSE, sizeof (Found));
  g_autoptr (GHashTable) places = g_hash_table_new (NULL, NULL);
  guint n = 0;
  SwBox near = sw_box_grow ((SwBox){ at, at }, radius);
  g_autofree guint32 *list = sw_draw_list (display, view, near, &n);
  for (guint i = 0; i < n; i++)
    {
      Found found;
      if (find_item (&finder, list[i], at, radius, &found))
        keep_best (all, places, &found);
    }
  g_array_sort (all, compare_found);
  for (guint i = 0; i < all->len; i++)
    g_array_append_val (hits, g_array_index (all, Found, i).hit);
  return hits;
}

/* The box cut by the boxes of the item's clips. */
static SwBox
clipped_box (const Finder *f, const SwItem *item, SwBox box)
{
  for (guint32 s = item->scope; s != SW_NO_SCOPE; s = sw_display_scope (f->display, s)->parent)
    if (sw_display_scope (f->display, s)->kind == SW_SCOPE_CLIP)
      {
        g_autoptr (GArray) ring = clip_ring (f, sw_display_scope (f->display, s));
        SwBox clip = SW_BOX_EMPTY;
        for (guint i = 0; i < ring->len; i++)
          clip = sw_box_add (clip, g_array_index (ring, SwPoint, i));
        box = (SwBox){ { MAX (box.low.x, clip.low.x), MAX (box.low.y, clip.low.y) },
                       { MIN (box.high.x, clip.high.x), MIN (box.high.y, clip.high.y) } };
      }
  return box;
}

static gboolean
item_touches (Finder *f, const SwItem *item, SwBox box)
{
  gboolean area;
  double width;
  if (sw_box_is_empty (box) || !trace_item (f, item, &area, &width))
    return FALSE;
  SwBox wide = sw_box_grow (box, width / 2);
  for (guint part = 0; part < sw_trace_n (f->trace); part++)
    {
      guint n;
      const SwPoint *points = sw_trace_part (f->trace, part, &n);
      double t0, t1;
      for (guint i = 0; i < n; i++)
        if (sw_segment_clip (points[i], points[MIN (i + 1, n - 1)], wide, &t0, &t1))
          return TRUE;
    }
  return area && sw_trace_holds (f->trace, sw_point_lerp (box.low, box.high, 0.5));
}

static gboolean
item_is_inside (Finder *f, const SwItem *item, SwBox box)
{
  double scale = sw_transform_scale (f->view->to_device), detail = f->view->detail > 0 ? f->view->detail : scale, width;
  gboolean area, shows = ((f->view->look.hidden >> item->layer) & 1) == 0 && item->least_detail <= detail && detail < item->most_detail;
  if (!shows || !trace_item (f, item, &area, &width))
    return TRUE; /* what does not show is not in the way */
  for (guint i = 0; i < f->trace->points->len; i++)
    if (!sw_box_holds (box, g_array_index (f->trace->points, SwPoint, i)))
      return FALSE;
  return TRUE;
}

static gboolean
group_is_inside (Finder *f, guint group, SwBox box)
{
  const SwScope *scope = sw_display_scope (f->display, g_array_index (f->display->groups, guint32, group));
  for (guint32 i = scope->first_item; i < scope->end_item; i++)
    if (!item_is_inside (f, sw_display_item (f->display, i), box))
      return FALSE;
  return TRUE;
}

GArray *
sw_hit_box (const SwDisplay *display, const SwDrawView *view, SwBox device, gboolean whole)
{
  GArray *hits = g_array_new (FALSE, FALSE, sizeof (SwHit));
  g_auto (Finder) finder = { display, view, sw_trace_new (), NULL };
  g_autofree guint8 *touched = g_new0 (guint8, display->groups->len + 1);
  guint n = 0;
  g_autofree guint32 *list = sw_draw_list (display, view, device, &n);
  for (guint i = 0; i < n; i++)
    {
      const SwItem *item = sw_display_item (display, list[i]);
      int group = item_group (display, item);
      if (group >= 0 && !touched[group])
        touched[group] = item_touches (&finder, item, clipped_box (&finder, item, device));
    }
  for (guint group = 0; group < display->groups->len; group++)
    if (touched[group] && (!whole || group_is_inside (&finder, group, device)))
      {
        SwHit hit = { group, sw_display_group (display, group).key, 0 };
        g_array_append_val (hits, hit);
      }
  return hits;
}
