/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/viewport.h"

SwViewport
sw_viewport_new (double width, double height)
{
  return (SwViewport){ .zoom = 0.1, .width = width, .height = height, .device_scale = 1 };
}

SwTransform
sw_viewport_transform (const SwViewport *view)
{
  SwTransform up = sw_transform_view (view->centre, (SwPoint){ 0, 0 }, view->zoom, view->turn, view->mirror);
  SwTransform flip = { 1, 0, 0, -1, view->width / 2, view->height / 2 };
  return sw_transform_join (flip, up);
}

SwPoint
sw_viewport_to_widget (const SwViewport *view, SwPoint world)
{
  return sw_transform_point (sw_viewport_transform (view), world);
}

/* World step for a widget step. */
static SwPoint
world_step (const SwViewport *view, SwPoint step)
{
  SwPoint back = sw_point_turn ((SwPoint){ step.x, -step.y }, cos (view->turn), -sin (view->turn));
  return (SwPoint){ (view->mirror ? -back.x : back.x) / view->zoom, back.y / view->zoom };
}

SwPoint
sw_viewport_to_world (const SwViewport *view, SwPoint widget)
{
  /* Relative to the centre, which keeps all digits when the job lies far from the origin. */
  SwPoint step = { widget.x - view->width / 2, widget.y - view->height / 2 };
  return sw_point_add (view->centre, world_step (view, step));
}

SwBox
sw_viewport_visible (const SwViewport *view)
{
  SwBox box = SW_BOX_EMPTY;
  for (int corner = 0; corner < 4; corner++)
    box = sw_box_add (box, sw_viewport_to_world (view, (SwPoint){ corner & 1 ? view->width : 0, corner & 2 ? view->height : 0 }));
  return box;
}

double
sw_viewport_px_to_mm (const SwViewport *view, double px)
{
  return px / view->zoom;
}

void
sw_viewport_pin (SwViewport *view, SwPoint world, SwPoint widget)
{
  SwPoint step = world_step (view, (SwPoint){ widget.x - view->width / 2, widget.y - view->height / 2 });
  SwPoint centre = sw_point_sub (world, step);
  if (isfinite (centre.x) && isfinite (centre.y))
    view->centre = centre;
}

void
sw_viewport_zoom_about (SwViewport *view, SwPoint widget, double factor)
{
  SwPoint world = sw_viewport_to_world (view, widget);
  double zoom = view->zoom * factor;
  if (!(factor > 0) || !(zoom > 0) || !isfinite (zoom))
    return;
  view->zoom = zoom;
  sw_viewport_pin (view, world, widget);
}

void
sw_viewport_turn_about (SwViewport *view, SwPoint widget, double radians)
{
  SwPoint world = sw_viewport_to_world (view, widget);
  if (!isfinite (radians))
    return;
  view->turn = remainder (view->turn + radians, 2 * G_PI);
  sw_viewport_pin (view, world, widget);
}

void
sw_viewport_mirror_about (SwViewport *view, SwPoint widget)
{
  SwPoint world = sw_viewport_to_world (view, widget);
  view->mirror = !view->mirror;
  sw_viewport_pin (view, world, widget);
}

void
sw_viewport_pan (SwViewport *view, double dx, double dy)
{
  SwPoint middle = { view->width / 2, view->height / 2 };
  sw_viewport_pin (view, view->centre, (SwPoint){ middle.x + dx, middle.y + dy });
}

void
sw_viewport_resize (SwViewport *view, double width, double height, double device_scale)
{
  if (width >= 0 && height >= 0 && device_scale > 0)
    {
      view->width = width;
      view->height = height;
      view->device_scale = device_scale;
    }
}

void
sw_viewport_fit (SwViewport *view, SwBox box, double margin)
{
  if (sw_box_is_empty (box))
    return;
  SwViewport plain = *view;
  plain.zoom = 1;
  SwBox seen = sw_transform_box (sw_viewport_transform (&plain), box);
  double room_x = MAX (view->width - 2 * margin, 1), room_y = MAX (view->height - 2 * margin, 1);
  double wide = seen.high.x - seen.low.x, high = seen.high.y - seen.low.y;
  double zoom = MIN (wide > 0 ? room_x / wide : INFINITY, high > 0 ? room_y / high : INFINITY);
  if (isfinite (zoom) && zoom > 0)
    view->zoom = zoom;
  SwPoint middle = sw_point_lerp (box.low, box.high, 0.5);
  if (isfinite (middle.x) && isfinite (middle.y))
    view->centre = middle;
}

gboolean
sw_viewport_clamp (SwViewport *view, const SwViewportLimits *limits)
{
  SwViewport before = *view;
  view->zoom = CLAMP (view->zoom, limits->least_zoom, limits->most_zoom);
  if (!sw_box_is_empty (limits->world))
    {
      view->centre.x = CLAMP (view->centre.x, limits->world.low.x, limits->world.high.x);
      view->centre.y = CLAMP (view->centre.y, limits->world.low.y, limits->world.high.y);
    }
  return before.zoom != view->zoom || before.centre.x != view->centre.x || before.centre.y != view->centre.y;
}

/* World → plane: device pixels from the world's origin, y down. */
static SwTransform
plane_transform (const SwViewport *view)
{
  SwPoint origin = { 0, 0 };
  SwTransform up = sw_transform_view (origin, origin, view->zoom * view->device_scale, view->turn, view->mirror);
  return sw_transform_join ((SwTransform){ 1, 0, 0, -1, 0, 0 }, up);
}

/* Where the plane's origin lies in the widget, in whole device pixels. */
static SwPoint
plane_offset (const SwViewport *view)
{
  SwPoint centre = sw_transform_point (plane_transform (view), view->centre);
  return (SwPoint){ round (view->width * view->device_scale / 2 - centre.x),
                    round (view->height * view->device_scale / 2 - centre.y) };
}

SwTransform
sw_viewport_tile_transform (const SwViewport *view, int i, int j, int size)
{
  SwTransform t = plane_transform (view);
  t.x0 -= (double) i * size;
  t.y0 -= (double) j * size;
  return t;
}

static int
tile_index (double px, int size)
{
  return (int) CLAMP (floor (px / size), G_MININT / 2, G_MAXINT / 2);
}

void
sw_viewport_tiles (const SwViewport *view, int size, int *i0, int *j0, int *i1, int *j1)
{
  SwPoint offset = plane_offset (view);
  *i0 = tile_index (-offset.x, size);
  *j0 = tile_index (-offset.y, size);
  *i1 = tile_index (ceil (view->width * view->device_scale) - 1 - offset.x, size);
  *j1 = tile_index (ceil (view->height * view->device_scale) - 1 - offset.y, size);
}

SwPoint
sw_viewport_tile_place (const SwViewport *view, int i, int j, int size)
{
  return sw_point_add (plane_offset (view), (SwPoint){ (double) i * size, (double) j * size });
}
