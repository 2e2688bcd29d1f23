/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Two levels are kept: the one that is wanted (zoom, turn, mirror, scale, look) and the last one that was complete, which
 * shows through, scaled, until the wanted tiles are there. Workers get a tile's place, the displays and the view; they share
 * nothing else, and a tile whose level is gone is not painted. Memory: at most MOST_TILES of 1 MB. Nothing is found out
 * about text that crosses a tile: each tile paints its part of the same layout, so the halves meet. */
#include "window/tiles.h"
#include "drawing/cairo_painter.h"
#include "drawing/declutter.h"

#define MOST_TILES 200

typedef struct
{
  int i, j;
  GdkTexture *texture; /* NULL until it was painted once */
  gboolean stale;
  guint64 asked; /* serial of the content it was asked with + 1; 0: not asked */
  guint64 used;
} Tile;

typedef struct
{
  guint64 id;
  SwViewport view; /* zoom, turn, mirror, device scale */
  GHashTable *tiles; /* (i, j) → Tile */
} Level;

/* What workers share: referenced by each job, so that a closed window does not wait for them. */
typedef struct
{
  gatomicrefcount refs;
  GMutex lock;
  SwTiles *owner; /* NULL once freed; read on the main thread only */
  guint64 live_level, live_content; /* under the lock */
} Shared;

/* Which labels stay at a zoom: found by the first worker that paints a tile of it. */
typedef struct
{
  SwViewport view;
  SwDeclutter *declutter;
} Labels;

typedef struct
{
  gatomicrefcount refs;
  GMutex lock;
  GArray *labels; /* Labels, under the lock; their declutters stay as long as the content */
  guint64 serial;
  guint n;
  SwDisplay **displays;
  SwLook look;
  double paper_px;
  GBytes *pixels;
  int width, height, stride;
  SwTransform to_world;
  double opacity;
} Content;

struct _SwTiles
{
  void (*ready) (gpointer data);
  gpointer data;
  Shared *shared;
  GThreadPool *pool;
  Content *content;
  Level *wanted, *shown; /* shown: what fills the gaps; may be NULL */
  guint64 clock, next_level;
  gboolean complete;
  guint n_painted;
};

typedef struct
{
  Shared *shared;
  Content *content;
  guint64 level;
  SwViewport view;
  int i, j;
  double rank; /* distance from the middle of the view */
  cairo_surface_t *surface;
} Job;

static void
shared_unref (Shared *shared)
{
  if (!g_atomic_ref_count_dec (&shared->refs))
    return;
  g_mutex_clear (&shared->lock);
  g_free (shared);
}

static void
content_unref (Content *content)
{
  if (content == NULL || !g_atomic_ref_count_dec (&content->refs))
    return;
  for (guint i = 0; i < content->n; i++)
    sw_display_unref (content->displays[i]);
  g_free (content->displays);
  g_clear_pointer (&content->pixels, g_bytes_unref);
  g_array_unref (content->labels);
  g_mutex_clear (&content->lock);
  g_free (content);
}

static void
labels_clear (gpointer data)
{
  sw_declutter_free (((Labels *) data)->declutter);
}

static void
content_begin (Content *content)
{
  g_atomic_ref_count_init (&content->refs);
  g_mutex_init (&content->lock);
  content->labels = g_array_new (FALSE, FALSE, sizeof (Labels));
  g_array_set_clear_func (content->labels, labels_clear);
}

static void
job_free (Job *job)
{
  g_clear_pointer (&job->surface, cairo_surface_destroy);
  content_unref (job->content);
  shared_unref (job->shared);
  g_free (job);
}

static void
tile_free (gpointer data)
{
  Tile *tile = data;
  g_clear_object (&tile->texture);
  g_free (tile);
}

static guint
tile_hash (gconstpointer key)
{
  const Tile *tile = key;
  return (guint) tile->i * 73856093u ^ (guint) tile->j * 19349663u;
}

static gboolean
tile_equal (gconstpointer a, gconstpointer b)
{
  const Tile *x = a, *y = b;
  return x->i == y->i && x->j == y->j;
}

static Level *
level_new (SwTiles *tiles, const SwViewport *view)
{
  Level *level = g_new0 (Level, 1);
  level->id = ++tiles->next_level;
  level->view = *view;
  level->tiles = g_hash_table_new_full (tile_hash, tile_equal, tile_free, NULL);
  return level;
}

static void
level_free (Level *level)
{
  if (level == NULL)
    return;
  g_hash_table_unref (level->tiles);
  g_free (level);
}

/* ---- Workers ---- */

/* Over the ground, which would hide it, and under what is drawn on that: its dark lines darken the ground, its white leaves it as it
 * is. In the dark look the picture is turned round, so that its lines lighten. */
static void
paint_underlay (cairo_t *cr, const Content *content, const SwDrawView *view)
{
  gboolean dark = content->look.theme == SW_THEME_DARK;
  gsize size;
  const guchar *pixels = g_bytes_get_data (content->pixels, &size);
  SwTransform place = sw_transform_join (view->to_device, content->to_world);
  cairo_matrix_t matrix = { place.xx, place.yx, place.xy, place.yy, place.x0, place.y0 };
  /* A surface of its own for each thread; the pixels are only read. */
  cairo_surface_t *image = cairo_image_surface_create_for_data ((guchar *) pixels, CAIRO_FORMAT_ARGB32, content->width,
                                                                content->height, content->stride);
  cairo_save (cr);
  cairo_transform (cr, &matrix);
  cairo_rectangle (cr, 0, 0, content->width, content->height);
  cairo_clip (cr);
  cairo_push_group (cr);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_set_source_surface (cr, image, 0, 0);
  cairo_pattern_set_filter (cairo_get_source (cr), CAIRO_FILTER_GOOD);
  cairo_paint (cr);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_set_operator (cr, CAIRO_OPERATOR_DIFFERENCE);
  if (dark)
    cairo_paint (cr);
  cairo_pop_group_to_source (cr);
  cairo_set_operator (cr, dark ? CAIRO_OPERATOR_SCREEN : CAIRO_OPERATOR_MULTIPLY);
  cairo_paint_with_alpha (cr, content->opacity);
  cairo_restore (cr);
  cairo_surface_destroy (image);
}

static gboolean
same_level (const SwViewport *a, const SwViewport *b)
{
  return a->zoom == b->zoom && a->turn == b->turn && a->mirror == b->mirror && a->device_scale == b->device_scale;
}

/* The content's; the same for all tiles of a level. */
static const SwDeclutter *
labels_at (Content *content, const SwViewport *view)
{
  const SwDeclutter *found = NULL;
  g_mutex_lock (&content->lock);
  for (guint i = 0; i < content->labels->len && found == NULL; i++)
    if (same_level (&g_array_index (content->labels, Labels, i).view, view))
      found = g_array_index (content->labels, Labels, i).declutter;
  if (found == NULL)
    {
      SwDrawView draw = sw_draw_view_new (sw_viewport_tile_transform (view, 0, 0, SW_TILE), view->device_scale,
                                          content->paper_px * view->device_scale, &content->look);
      Labels labels = { *view, sw_declutter_new (content->displays, content->n, &draw) };
      g_array_append_val (content->labels, labels);
      found = labels.declutter;
    }
  g_mutex_unlock (&content->lock);
  return found;
}

/* The first display is the ground on which all stands. Of the others all faded layers come first, then those in front, so
 * that "in front" holds across displays. */
static void
paint_displays (cairo_t *cr, const Content *content, SwDrawView *view, const SwDeclutter *labels)
{
  SwBox box = { { 0, 0 }, { SW_TILE, SW_TILE } };
  SwLook look = content->look;
  if (content->n > 0)
    {
      view->left_out = sw_declutter_left_out (labels, 0);
      sw_cairo_paint (cr, content->displays[0], view, box, NULL);
    }
  if (content->pixels != NULL)
    paint_underlay (cr, content, view);
  for (int pass = look.faded != 0 ? 0 : 1; pass < 2; pass++)
    for (guint i = 1; i < content->n; i++)
      {
        view->look.hidden = look.hidden | (pass == 0 ? ~look.faded : look.faded);
        view->left_out = sw_declutter_left_out (labels, i);
        sw_cairo_paint (cr, content->displays[i], view, box, NULL);
      }
}

static cairo_surface_t *
paint_tile (const Job *job)
{
  Content *content = job->content;
  double scale = job->view.device_scale;
  SwDrawView view = sw_draw_view_new (sw_viewport_tile_transform (&job->view, job->i, job->j, SW_TILE), scale,
                                      content->paper_px * scale, &content->look);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, SW_TILE, SW_TILE);
  cairo_t *cr = cairo_create (surface);
  sw_cairo_paint_paper (cr, content->look.theme);
  paint_displays (cr, content, &view, labels_at (content, &job->view));
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

static GdkTexture *
texture_from (cairo_surface_t *surface)
{
  int stride = cairo_image_surface_get_stride (surface);
  g_autoptr (GBytes) bytes = g_bytes_new_with_free_func (cairo_image_surface_get_data (surface), (gsize) stride * SW_TILE,
                                                         (GDestroyNotify) cairo_surface_destroy, cairo_surface_reference (surface));
  return gdk_memory_texture_new (SW_TILE, SW_TILE, GDK_MEMORY_DEFAULT, bytes, stride);
}

static Level *
level_of (SwTiles *tiles, guint64 id)
{
  if (tiles->wanted != NULL && tiles->wanted->id == id)
    return tiles->wanted;
  return tiles->shown != NULL && tiles->shown->id == id ? tiles->shown : NULL;
}

static gboolean
take_result (gpointer data)
{
  Job *job = data;
  SwTiles *tiles = job->shared->owner;
  Level *level = tiles != NULL ? level_of (tiles, job->level) : NULL;
  Tile key = { .i = job->i, .j = job->j };
  Tile *tile = level != NULL ? g_hash_table_lookup (level->tiles, &key) : NULL;
  if (tile != NULL)
    {
      if (tile->asked == job->content->serial + 1)
        tile->asked = 0;
      if (job->surface != NULL)
        {
          g_clear_object (&tile->texture);
          tile->texture = texture_from (job->surface);
          tile->stale = job->content->serial != tiles->content->serial && tile->stale;
          tiles->n_painted++;
        }
      tiles->ready (tiles->data);
    }
  job_free (job);
  return G_SOURCE_REMOVE;
}

static void
work (gpointer data, gpointer user_data)
{
  Job *job = data;
  g_mutex_lock (&job->shared->lock);
  gboolean live = job->shared->live_level == job->level && job->shared->live_content == job->content->serial;
  g_mutex_unlock (&job->shared->lock);
  if (live)
    job->surface = paint_tile (job);
  g_idle_add_full (GDK_PRIORITY_REDRAW - 5, take_result, job, NULL);
}

static int
compare_jobs (gconstpointer a, gconstpointer b, gpointer data)
{
  const Job *x = a, *y = b;
  if (x->level != y->level)
    return x->level > y->level ? -1 : 1;
  return (x->rank > y->rank) - (x->rank < y->rank);
}

/* ---- Main thread ---- */

SwTiles *
sw_tiles_new (void (*ready) (gpointer data), gpointer data)
{
  SwTiles *tiles = g_new0 (SwTiles, 1);
  tiles->ready = ready;
  tiles->data = data;
  tiles->shared = g_new0 (Shared, 1);
  g_atomic_ref_count_init (&tiles->shared->refs);
  g_mutex_init (&tiles->shared->lock);
  tiles->shared->owner = tiles;
  tiles->pool = g_thread_pool_new (work, NULL, CLAMP ((int) g_get_num_processors () - 1, 1, 4), FALSE, NULL);
  g_thread_pool_set_sort_function (tiles->pool, compare_jobs, NULL);
  tiles->content = g_new0 (Content, 1);
  content_begin (tiles->content);
  tiles->content->paper_px = SW_SCREEN_PX_PER_MM;
  return tiles;
}

static void
publish (SwTiles *tiles)
{
  g_mutex_lock (&tiles->shared->lock);
  tiles->shared->live_level = tiles->wanted != NULL ? tiles->wanted->id : 0;
  tiles->shared->live_content = tiles->content->serial;
  g_mutex_unlock (&tiles->shared->lock);
}

void
sw_tiles_free (SwTiles *tiles)
{
  if (tiles == NULL)
    return;
  tiles->shared->owner = NULL;
  g_clear_pointer (&tiles->wanted, level_free);
  publish (tiles);
  g_thread_pool_free (tiles->pool, FALSE, FALSE);
  g_clear_pointer (&tiles->shown, level_free);
  content_unref (tiles->content);
  shared_unref (tiles->shared);
  g_free (tiles);
}

/* The content again with everything but its serial; workers keep the old one as long as they need it. */
static Content *
content_renew (SwTiles *tiles)
{
  Content *old = tiles->content, *content = g_new0 (Content, 1);
  *content = *old;
  content_begin (content);
  content->serial = old->serial + 1;
  content->displays = g_new (SwDisplay *, MAX (old->n, 1));
  for (guint i = 0; i < old->n; i++)
    content->displays[i] = sw_display_ref (old->displays[i]);
  if (content->pixels != NULL)
    g_bytes_ref (content->pixels);
  content_unref (old);
  return tiles->content = content;
}

/* World box of a tile of a level. */
static SwBox
tile_box (const Level *level, const Tile *tile)
{
  SwTransform place = sw_transform_invert (sw_viewport_tile_transform (&level->view, tile->i, tile->j, SW_TILE));
  return sw_transform_box (place, (SwBox){ { 0, 0 }, { SW_TILE, SW_TILE } });
}

static void
make_stale (SwTiles *tiles, const SwBox *changed)
{
  Level *levels[2] = { tiles->wanted, tiles->shown };
  for (int l = 0; l < 2; l++)
    {
      GHashTableIter iter;
      gpointer key;
      if (levels[l] == NULL)
        continue;
      /* Labels and badges reach beyond what they stand on. */
      double reach = 160 / MAX (levels[l]->view.zoom, 1e-6);
      g_hash_table_iter_init (&iter, levels[l]->tiles);
      while (g_hash_table_iter_next (&iter, &key, NULL))
        {
          Tile *tile = key;
          if (changed == NULL || sw_box_meets (tile_box (levels[l], tile), sw_box_grow (*changed, reach)))
            tile->stale = TRUE;
          tile->asked = 0;
        }
    }
}

void
sw_tiles_set_content (SwTiles *tiles, SwDisplay *const *displays, guint n, const SwBox *changed)
{
  Content *content = content_renew (tiles);
  SwDisplay **fresh = g_new (SwDisplay *, MAX (n, 1));
  for (guint i = 0; i < n; i++)
    fresh[i] = sw_display_ref (displays[i]);
  for (guint i = 0; i < content->n; i++)
    sw_display_unref (content->displays[i]);
  g_free (content->displays);
  content->displays = fresh;
  content->n = n;
  make_stale (tiles, changed);
  publish (tiles);
  tiles->ready (tiles->data);
}

void
sw_tiles_set_look (SwTiles *tiles, const SwLook *look, double paper_px)
{
  const SwLook *now = &tiles->content->look;
  if (now->theme == look->theme && now->hidden == look->hidden && now->faded == look->faded && tiles->content->paper_px == paper_px)
    return;
  Content *content = content_renew (tiles);
  /* Another theme shines through too brightly: start from bare paper. */
  if (content->look.theme != look->theme)
    {
      g_clear_pointer (&tiles->shown, level_free);
      g_clear_pointer (&tiles->wanted, level_free);
    }
  content->look = *look;
  content->paper_px = paper_px;
  make_stale (tiles, NULL);
  publish (tiles);
  tiles->ready (tiles->data);
}

void
sw_tiles_set_underlay (SwTiles *tiles, GBytes *pixels, int width, int height, int stride, SwTransform to_world, double opacity)
{
  Content *content = content_renew (tiles);
  g_clear_pointer (&content->pixels, g_bytes_unref);
  content->pixels = pixels != NULL ? g_bytes_ref (pixels) : NULL;
  content->width = width;
  content->height = height;
  content->stride = stride;
  content->to_world = to_world;
  content->opacity = opacity;
  make_stale (tiles, NULL);
  publish (tiles);
  tiles->ready (tiles->data);
}

static void
want_level (SwTiles *tiles, const SwViewport *view)
{
  if (tiles->wanted != NULL && same_level (&tiles->wanted->view, view))
    return;
  /* The level that goes becomes the one that shows through, unless it is emptier than the one before it. */
  if (tiles->wanted != NULL && (tiles->complete || tiles->shown == NULL))
    {
      g_clear_pointer (&tiles->shown, level_free);
      tiles->shown = g_steal_pointer (&tiles->wanted);
    }
  g_clear_pointer (&tiles->wanted, level_free);
  if (tiles->shown != NULL && (tiles->shown->view.mirror != view->mirror || tiles->shown->view.turn != view->turn))
    g_clear_pointer (&tiles->shown, level_free);
  tiles->wanted = level_new (tiles, view);
  tiles->complete = FALSE;
  publish (tiles);
}

static void
ask (SwTiles *tiles, Level *level, Tile *tile, double rank)
{
  Job *job = g_new0 (Job, 1);
  job->shared = tiles->shared;
  g_atomic_ref_count_inc (&tiles->shared->refs);
  job->content = tiles->content;
  g_atomic_ref_count_inc (&tiles->content->refs);
  job->level = level->id;
  job->view = level->view;
  job->i = tile->i;
  job->j = tile->j;
  job->rank = rank;
  tile->asked = tiles->content->serial + 1;
  g_thread_pool_push (tiles->pool, job, NULL);
}

/* Least recently used first; the number of tiles is small, so a walk does. */
static void
forget_oldest (Level *level, guint64 now)
{
  while (g_hash_table_size (level->tiles) > MOST_TILES)
    {
      GHashTableIter iter;
      gpointer key;
      Tile *oldest = NULL;
      g_hash_table_iter_init (&iter, level->tiles);
      while (g_hash_table_iter_next (&iter, &key, NULL))
        if (oldest == NULL || ((Tile *) key)->used < oldest->used)
          oldest = key;
      if (oldest == NULL || oldest->used == now)
        return;
      g_hash_table_remove (level->tiles, oldest);
    }
}

/* Draws a level that is not at the view's zoom: each texture scaled to where it belongs now. */
static void
draw_scaled (Level *level, GtkSnapshot *snapshot, const SwViewport *view)
{
  double size = SW_TILE * view->zoom / level->view.zoom / level->view.device_scale;
  GHashTableIter iter;
  gpointer key;
  g_hash_table_iter_init (&iter, level->tiles);
  while (g_hash_table_iter_next (&iter, &key, NULL))
    {
      Tile *tile = key;
      SwTransform place = sw_transform_invert (sw_viewport_tile_transform (&level->view, tile->i, tile->j, SW_TILE));
      SwPoint corner = sw_viewport_to_widget (view, sw_transform_point (place, (SwPoint){ 0, 0 }));
      if (tile->texture == NULL || corner.x > view->width || corner.y > view->height || corner.x + size < 0 || corner.y + size < 0)
        continue;
      gtk_snapshot_append_texture (snapshot, tile->texture, &GRAPHENE_RECT_INIT ((float) corner.x, (float) corner.y, (float) size, (float) size));
    }
}

/* Draws the wanted level at its own zoom, asks for what is missing. TRUE when nothing is. */
static gboolean
draw_sharp (SwTiles *tiles, GtkSnapshot *snapshot, const SwViewport *view)
{
  Level *level = tiles->wanted;
  int i0, j0, i1, j1;
  gboolean complete = TRUE;
  double scale = view->device_scale, size = SW_TILE / scale;
  sw_viewport_tiles (view, SW_TILE, &i0, &j0, &i1, &j1);
  for (int j = j0; j <= j1; j++)
    for (int i = i0; i <= i1; i++)
      {
        Tile key = { .i = i, .j = j };
        Tile *tile = g_hash_table_lookup (level->tiles, &key);
        if (tile == NULL)
          {
            tile = g_new0 (Tile, 1);
            tile->i = i;
            tile->j = j;
            tile->stale = TRUE;
            g_hash_table_add (level->tiles, tile);
          }
        tile->used = tiles->clock;
        if (tile->stale && tile->asked == 0)
          ask (tiles, level, tile, hypot (i - (i0 + i1) / 2.0, j - (j0 + j1) / 2.0));
        complete = complete && !tile->stale;
        if (tile->texture == NULL)
          continue;
        SwPoint place = sw_viewport_tile_place (view, i, j, SW_TILE);
        gtk_snapshot_append_texture (snapshot, tile->texture,
                                     &GRAPHENE_RECT_INIT ((float) (place.x / scale), (float) (place.y / scale), (float) size, (float) size));
      }
  return complete;
}

void
sw_tiles_snapshot (SwTiles *tiles, GtkSnapshot *snapshot, const SwViewport *view, gboolean resting)
{
  tiles->clock++;
  if (tiles->wanted == NULL || resting)
    want_level (tiles, view);
  if (tiles->shown != NULL && !(tiles->complete && same_level (&tiles->wanted->view, view)))
    draw_scaled (tiles->shown, snapshot, view);
  if (!same_level (&tiles->wanted->view, view))
    {
      draw_scaled (tiles->wanted, snapshot, view);
      return;
    }
  tiles->complete = draw_sharp (tiles, snapshot, view);
  if (tiles->complete)
    g_clear_pointer (&tiles->shown, level_free);
  forget_oldest (tiles->wanted, tiles->clock);
}

gboolean
sw_tiles_is_complete (SwTiles *tiles)
{
  return tiles->complete;
}

guint
sw_tiles_n_painted (SwTiles *tiles)
{
  return tiles->n_painted;
}
