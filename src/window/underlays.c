/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/underlays.h"
#include "sheets/words.h"
#include "store/underlay.h"

#define LONGEST_PX 4096

struct _SwUnderlays
{
  SwTiles *tiles;
  char *file, *failed;     /* what is shown; what could not be drawn (not tried again) */
  SwUnderlayImage *image;
  GBytes *pixels;
  GCancellable *loading;
};

SwUnderlays *
sw_underlays_new (SwTiles *tiles)
{
  SwUnderlays *underlays = g_new0 (SwUnderlays, 1);
  underlays->tiles = tiles;
  return underlays;
}

static void
drop_image (SwUnderlays *underlays)
{
  g_cancellable_cancel (underlays->loading);
  g_clear_object (&underlays->loading);
  g_clear_pointer (&underlays->pixels, g_bytes_unref);
  g_clear_pointer (&underlays->file, g_free);
  underlays->image = NULL;
}

void
sw_underlays_free (SwUnderlays *underlays)
{
  if (underlays == NULL)
    return;
  drop_image (underlays);
  g_free (underlays->failed);
  g_free (underlays);
}

static const SwUnderlay *
shown_underlay (SwDocument *document)
{
  const SwRecord *record;
  if (document == NULL)
    return NULL;
  for (SwJobIter i = sw_job_iter (sw_document_job (document), SW_TABLE_UNDERLAY); (record = sw_job_iter_next (&i)) != NULL;)
    if (((const SwUnderlay *) record)->shown)
      return (const SwUnderlay *) record;
  return NULL;
}

/* Pixels → units of the drawing → turned, scaled, y up → world. */
static SwTransform
place_of (const SwUnderlay *underlay, const SwUnderlayImage *image)
{
  double kx = image->width / image->columns * underlay->scale, ky = image->height / image->rows * underlay->scale;
  double c = cos (underlay->turn * G_PI / 180), s = sin (underlay->turn * G_PI / 180);
  return (SwTransform){ c * kx, s * ky, s * kx, -c * ky, underlay->origin.x, underlay->origin.y };
}

static void
show (SwUnderlays *underlays, const SwUnderlay *underlay)
{
  const SwUnderlayImage *image = underlays->image;
  sw_tiles_set_underlay (underlays->tiles, underlays->pixels, image->columns, image->rows, image->columns * 4, place_of (underlay, image),
                         underlay->opacity / 100);
}

static void
draw_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  GError *error = NULL;
  SwUnderlayImage *image = sw_underlay_draw (data, LONGEST_PX, cancellable, &error);
  if (image != NULL)
    g_task_return_pointer (task, image, (GDestroyNotify) sw_underlay_image_free);
  else
    g_task_return_error (task, error);
}

static void
on_drawn (GObject *source, GAsyncResult *result, gpointer data)
{
  SwDocument *document = SW_DOCUMENT (source);
  SwUnderlays *underlays = data;
  g_autoptr (GError) error = NULL;
  SwUnderlayImage *image = g_task_propagate_pointer (G_TASK (result), &error);
  /* Cancelled means that the owner may be gone. */
  if (g_cancellable_is_cancelled (g_task_get_cancellable (G_TASK (result))))
    {
      g_clear_pointer (&image, sw_underlay_image_free);
      return;
    }
  g_clear_object (&underlays->loading);
  if (image == NULL)
    {
      g_free (underlays->failed);
      underlays->failed = g_strdup (underlays->file);
      sw_document_set_fault (document, error->message);
      return;
    }
  underlays->image = image;
  underlays->pixels = g_bytes_new_with_free_func (image->pixels, (gsize) image->columns * image->rows * 4, (GDestroyNotify) sw_underlay_image_free, image);
  sw_underlays_update (underlays, document);
}

static void
load (SwUnderlays *underlays, SwDocument *document, const char *file)
{
  drop_image (underlays);
  sw_tiles_set_underlay (underlays->tiles, NULL, 0, 0, 0, SW_TRANSFORM_IDENTITY, 0);
  underlays->file = g_strdup (file);
  underlays->loading = g_cancellable_new ();
  g_autoptr (GTask) task = g_task_new (document, underlays->loading, on_drawn, underlays);
  g_task_set_task_data (task, g_strdup (file), g_free);
  g_task_run_in_thread (task, draw_thread);
}

void
sw_underlays_update (SwUnderlays *underlays, SwDocument *document)
{
  const SwUnderlay *underlay = shown_underlay (document);
  if (underlay == NULL)
    {
      if (underlays->file != NULL)
        sw_tiles_set_underlay (underlays->tiles, NULL, 0, 0, 0, SW_TRANSFORM_IDENTITY, 0);
      drop_image (underlays);
      return;
    }
  if (g_strcmp0 (underlays->file, underlay->file) != 0)
    {
      if (g_strcmp0 (underlays->failed, underlay->file) != 0)
        load (underlays, document, underlay->file);
      return;
    }
  if (underlays->image != NULL)
    show (underlays, underlay);
}

typedef struct
{
  char *path;
  double width_mm;
} Addition;

static void
addition_free (Addition *addition)
{
  g_free (addition->path);
  g_free (addition);
}

static void
add_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancellable)
{
  draw_thread (task, source, ((Addition *) data)->path, cancellable);
}

static void
on_added (GObject *source, GAsyncResult *result, gpointer data)
{
  SwDocument *document = SW_DOCUMENT (source);
  const Addition *addition = g_task_get_task_data (G_TASK (result));
  GError *error = NULL;
  g_autoptr (SwUnderlayImage) image = g_task_propagate_pointer (G_TASK (result), &error);
  g_autoptr (SwEdit) edit = sw_edit_new (_("Put a plan picture under it"));
  if (image != NULL)
    {
      SwUnderlay *underlay = (SwUnderlay *) sw_edit_create (edit, sw_document_job (document), SW_TABLE_UNDERLAY);
      sw_text_set (&underlay->file, addition->path);
      sw_text_set (&underlay->sha256, image->sha256);
      underlay->scale = addition->width_mm / image->width;
      underlay->origin = (SwPoint){ 0, image->height * underlay->scale };
      if (sw_edit_put (edit, sw_document_job (document), &underlay->record, &error))
        sw_document_do (document, g_steal_pointer (&edit));
      if (error == NULL)
        sw_board_use (sw_document_board (document), "scale");
    }
  if (error != NULL)
    sw_document_set_fault (document, error->message);
  g_clear_error (&error);
}

void
sw_underlays_add (SwDocument *document, GFile *file, double width_mm)
{
  g_autofree char *path = g_file_get_path (file);
  if (path == NULL)
    {
      sw_document_set_fault (document, _("Only drawings on this computer can be put under a plan."));
      return;
    }
  Addition *addition = g_new0 (Addition, 1);
  addition->path = g_steal_pointer (&path);
  addition->width_mm = width_mm;
  g_autoptr (GTask) task = g_task_new (document, NULL, on_added, NULL);
  g_task_set_task_data (task, addition, (GDestroyNotify) addition_free);
  g_task_run_in_thread (task, add_thread);
}
