/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Each gesture pins the world point that was under the pointer when it began, instead of adding up small steps, so nothing
 * drifts. A frame draws textures and one small cairo node for the live layer: a pointer move never repaints the plan. */
#include "window/canvas.h"
#include "drawing/cairo_painter.h"

#define REST_MS 80          /* after the last step of a zoom, sharp tiles are asked for */
#define FIT_MARGIN 32
#define SCREEN_PAPER_PX 3.3 /* letters of 2.5 mm come out as large as the desktop's small text */
#define LIVE_REACH_PX 240   /* how far letters of the live layer may go beyond what they are about */

typedef struct
{
  SwViewport view;
  SwTiles *tiles;
  SwLook look;
  gboolean resting, fit_pending, dirty;
  guint rest_timer;
  double pointer_x, pointer_y;
  gboolean has_pointer, space_held, panning;
  SwPoint pan_pin, zoom_pin;
  double zoom_start;
  SwDisplay *live;
  GtkGesture *click, *pan, *zoom;
} SwCanvasPrivate;

G_DEFINE_ABSTRACT_TYPE_WITH_PRIVATE (SwCanvas, sw_canvas, GTK_TYPE_WIDGET)

static SwCanvasPrivate *
get (SwCanvas *canvas)
{
  return sw_canvas_get_instance_private (canvas);
}

static void
tiles_ready (gpointer data)
{
  gtk_widget_queue_draw (data);
}

/* ---- View ---- */

static void
view_changed (SwCanvas *canvas)
{
  SwCanvasPrivate *self = get (canvas);
  sw_viewport_clamp (&self->view, &SW_VIEWPORT_LIMITS);
  if (SW_CANVAS_GET_CLASS (canvas)->view_changed != NULL)
    SW_CANVAS_GET_CLASS (canvas)->view_changed (canvas);
  gtk_widget_queue_draw (GTK_WIDGET (canvas));
}

static gboolean
rest_over (gpointer data)
{
  SwCanvasPrivate *self = get (data);
  self->rest_timer = 0;
  self->resting = TRUE;
  gtk_widget_queue_draw (data);
  return G_SOURCE_REMOVE;
}

static void
zoom_changed (SwCanvas *canvas)
{
  SwCanvasPrivate *self = get (canvas);
  self->resting = FALSE;
  self->fit_pending = FALSE;
  g_clear_handle_id (&self->rest_timer, g_source_remove);
  self->rest_timer = g_timeout_add (REST_MS, rest_over, canvas);
  view_changed (canvas);
}

const SwViewport *
sw_canvas_view (SwCanvas *canvas)
{
  return &get (canvas)->view;
}

void
sw_canvas_set_view (SwCanvas *canvas, const SwViewport *view)
{
  SwCanvasPrivate *self = get (canvas);
  SwViewport old = self->view;
  self->view = *view;
  self->view.width = old.width;
  self->view.height = old.height;
  self->view.device_scale = old.device_scale;
  self->fit_pending = FALSE;
  view_changed (canvas);
}

SwTiles *
sw_canvas_tiles (SwCanvas *canvas)
{
  return get (canvas)->tiles;
}

void
sw_canvas_set_look (SwCanvas *canvas, const SwLook *look)
{
  SwCanvasPrivate *self = get (canvas);
  self->look = *look;
  sw_tiles_set_look (self->tiles, look, SCREEN_PAPER_PX);
  gtk_widget_queue_draw (GTK_WIDGET (canvas));
}

const SwLook *
sw_canvas_look (SwCanvas *canvas)
{
  return &get (canvas)->look;
}

void
sw_canvas_set_mirror (SwCanvas *canvas, gboolean mirror)
{
  SwCanvasPrivate *self = get (canvas);
  if (self->view.mirror == mirror)
    return;
  sw_viewport_mirror_about (&self->view, (SwPoint){ self->view.width / 2, self->view.height / 2 });
  view_changed (canvas);
}

void
sw_canvas_fit (SwCanvas *canvas)
{
  SwCanvasPrivate *self = get (canvas);
  SwBox box = SW_CANVAS_GET_CLASS (canvas)->extent != NULL ? SW_CANVAS_GET_CLASS (canvas)->extent (canvas) : SW_BOX_EMPTY;
  if (sw_box_is_empty (box))
    return;
  sw_viewport_fit (&self->view, box, FIT_MARGIN);
  view_changed (canvas);
}

void
sw_canvas_fit_when_sized (SwCanvas *canvas)
{
  SwCanvasPrivate *self = get (canvas);
  self->fit_pending = TRUE;
  if (self->view.width > 1)
    sw_canvas_fit (canvas);
}

static SwPoint
zoom_middle (SwCanvasPrivate *self)
{
  return self->has_pointer ? (SwPoint){ self->pointer_x, self->pointer_y } : (SwPoint){ self->view.width / 2, self->view.height / 2 };
}

void
sw_canvas_zoom_by (SwCanvas *canvas, double factor)
{
  SwCanvasPrivate *self = get (canvas);
  sw_viewport_zoom_about (&self->view, zoom_middle (self), factor);
  zoom_changed (canvas);
}

void
sw_canvas_pan_by (SwCanvas *canvas, double dx, double dy)
{
  SwCanvasPrivate *self = get (canvas);
  sw_viewport_pan (&self->view, dx, dy);
  self->fit_pending = FALSE;
  view_changed (canvas);
}

void
sw_canvas_show (SwCanvas *canvas, SwPoint at, double size_mm)
{
  SwCanvasPrivate *self = get (canvas);
  double least = MIN (self->view.width, self->view.height) / (3 * MAX (size_mm, 1));
  self->view.centre = at;
  if (self->view.zoom < least)
    self->view.zoom = least;
  self->fit_pending = FALSE;
  view_changed (canvas);
}

void
sw_canvas_keep_visible (SwCanvas *canvas, SwPoint at)
{
  SwCanvasPrivate *self = get (canvas);
  SwPoint place = sw_viewport_to_widget (&self->view, at);
  SwPoint inside = { CLAMP (place.x, 40, MAX (self->view.width - 40, 40)), CLAMP (place.y, 40, MAX (self->view.height - 40, 40)) };
  if (inside.x == place.x && inside.y == place.y)
    return;
  sw_viewport_pin (&self->view, at, inside);
  self->fit_pending = FALSE;
  view_changed (canvas);
}

void
sw_canvas_live_changed (SwCanvas *canvas)
{
  SwCanvasPrivate *self = get (canvas);
  self->dirty = TRUE;
  gtk_widget_queue_draw (GTK_WIDGET (canvas));
}

gboolean
sw_canvas_pointer (SwCanvas *canvas, SwPoint *at)
{
  SwCanvasPrivate *self = get (canvas);
  if (self->has_pointer)
    *at = sw_viewport_to_world (&self->view, (SwPoint){ self->pointer_x, self->pointer_y });
  return self->has_pointer;
}

gboolean
sw_canvas_is_settled (SwCanvas *canvas)
{
  SwCanvasPrivate *self = get (canvas);
  return self->resting && sw_tiles_is_complete (self->tiles);
}

/* ---- Drawing ---- */

static void
snapshot_live (SwCanvas *canvas, GtkSnapshot *snapshot)
{
  SwCanvasPrivate *self = get (canvas);
  if (self->dirty && SW_CANVAS_GET_CLASS (canvas)->live != NULL)
    {
      g_clear_pointer (&self->live, sw_display_unref);
      self->live = SW_CANVAS_GET_CLASS (canvas)->live (canvas);
      self->dirty = FALSE;
    }
  if (self->live == NULL || sw_display_n_items (self->live) == 0)
    return;
  SwBox box = sw_transform_box (sw_viewport_transform (&self->view), sw_display_box (self->live));
  box = sw_box_grow (box, LIVE_REACH_PX);
  double x0 = floor (MAX (box.low.x, 0)), y0 = floor (MAX (box.low.y, 0));
  double x1 = ceil (MIN (box.high.x, self->view.width)), y1 = ceil (MIN (box.high.y, self->view.height));
  if (x1 <= x0 || y1 <= y0)
    return;
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &GRAPHENE_RECT_INIT ((float) x0, (float) y0, (float) (x1 - x0), (float) (y1 - y0)));
  SwDrawView view = sw_draw_view_new (sw_viewport_transform (&self->view), 1, SCREEN_PAPER_PX, &self->look);
  view.look.hidden = view.look.faded = 0;
  sw_cairo_paint (cr, self->live, &view, (SwBox){ { x0, y0 }, { x1, y1 } }, NULL);
  cairo_destroy (cr);
}

static void
snapshot_focus (SwCanvasPrivate *self, GtkSnapshot *snapshot, const graphene_rect_t *all)
{
  SwColour ring = sw_palette_colour (self->look.theme, SW_ROLE_SELECTION);
  GdkRGBA colour = { (float) ring.r, (float) ring.g, (float) ring.b, 0.8f };
  GskRoundedRect outline;
  gsk_rounded_rect_init_from_rect (&outline, all, 0);
  gtk_snapshot_append_border (snapshot, &outline, (const float[4]){ 2, 2, 2, 2 }, (const GdkRGBA[4]){ colour, colour, colour, colour });
}

static void
canvas_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  SwCanvas *canvas = SW_CANVAS (widget);
  SwCanvasPrivate *self = get (canvas);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  SwColour paper = sw_palette_colour (self->look.theme, SW_ROLE_PAPER);
  GdkRGBA colour = { (float) paper.r, (float) paper.g, (float) paper.b, 1 };
  graphene_rect_t all = GRAPHENE_RECT_INIT (0, 0, (float) width, (float) height);
  gtk_snapshot_push_clip (snapshot, &all);
  gtk_snapshot_append_color (snapshot, &colour, &all);
  sw_tiles_snapshot (self->tiles, snapshot, &self->view, self->resting);
  snapshot_live (canvas, snapshot);
  gtk_snapshot_pop (snapshot);
  if (gtk_widget_has_visible_focus (widget))
    snapshot_focus (self, snapshot, &all);
}

static void
canvas_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  SwCanvas *canvas = SW_CANVAS (widget);
  SwCanvasPrivate *self = get (canvas);
  sw_viewport_resize (&self->view, width, height, gtk_widget_get_scale_factor (widget));
  if (self->fit_pending)
    sw_canvas_fit (canvas);
  else
    view_changed (canvas);
  /* A menu over the canvas is measured anew, as its parent has to see to: else it stays as it was before its styles were known. */
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child != NULL; child = gtk_widget_get_next_sibling (child))
    if (GTK_IS_POPOVER (child))
      gtk_popover_present (GTK_POPOVER (child));
}

static void
scale_changed (GtkWidget *widget, GParamSpec *spec, gpointer data)
{
  SwCanvasPrivate *self = get (SW_CANVAS (widget));
  sw_viewport_resize (&self->view, self->view.width, self->view.height, gtk_widget_get_scale_factor (widget));
  gtk_widget_queue_draw (widget);
}

/* ---- Pointer ---- */

static SwCanvasPoint
point_at (SwCanvas *canvas, double x, double y, GdkModifierType state, guint clicks)
{
  SwCanvasPrivate *self = get (canvas);
  return (SwCanvasPoint){ sw_viewport_to_world (&self->view, (SwPoint){ x, y }), (state & GDK_SHIFT_MASK) != 0,
                          (state & GDK_CONTROL_MASK) != 0, (state & GDK_ALT_MASK) != 0, clicks };
}

static GdkModifierType
state_of (gpointer controller)
{
  return gtk_event_controller_get_current_event_state (GTK_EVENT_CONTROLLER (controller));
}

static void
on_motion (GtkEventControllerMotion *motion, double x, double y, SwCanvas *canvas)
{
  SwCanvasPrivate *self = get (canvas);
  SwCanvasPoint at = point_at (canvas, x, y, state_of (motion), 1);
  /* GTK repeats the last motion when anything is laid out anew: that is no move. */
  if (self->has_pointer && self->pointer_x == x && self->pointer_y == y)
    return;
  self->pointer_x = x;
  self->pointer_y = y;
  self->has_pointer = TRUE;
  if (!self->panning && SW_CANVAS_GET_CLASS (canvas)->motion != NULL)
    SW_CANVAS_GET_CLASS (canvas)->motion (canvas, &at);
}

static void
on_leave (GtkEventControllerMotion *motion, SwCanvas *canvas)
{
  get (canvas)->has_pointer = FALSE;
  if (SW_CANVAS_GET_CLASS (canvas)->leave != NULL)
    SW_CANVAS_GET_CLASS (canvas)->leave (canvas);
}

static void
on_pressed (GtkGestureClick *click, int n, double x, double y, SwCanvas *canvas)
{
  SwCanvasPrivate *self = get (canvas);
  SwCanvasPoint at = point_at (canvas, x, y, state_of (click), (guint) n);
  guint button = gtk_gesture_single_get_current_button (GTK_GESTURE_SINGLE (click));
  gtk_widget_grab_focus (GTK_WIDGET (canvas));
  if (button == GDK_BUTTON_SECONDARY)
    {
      gtk_gesture_set_state (GTK_GESTURE (click), GTK_EVENT_SEQUENCE_CLAIMED);
      if (SW_CANVAS_GET_CLASS (canvas)->menu != NULL)
        SW_CANVAS_GET_CLASS (canvas)->menu (canvas, &at, x, y);
      return;
    }
  if (button != GDK_BUTTON_PRIMARY || self->space_held)
    {
      gtk_gesture_set_state (GTK_GESTURE (click), GTK_EVENT_SEQUENCE_DENIED);
      return;
    }
  if (SW_CANVAS_GET_CLASS (canvas)->press != NULL)
    SW_CANVAS_GET_CLASS (canvas)->press (canvas, &at);
}

static void
on_released (GtkGestureClick *click, int n, double x, double y, SwCanvas *canvas)
{
  SwCanvasPoint at = point_at (canvas, x, y, state_of (click), (guint) n);
  if (gtk_gesture_single_get_current_button (GTK_GESTURE_SINGLE (click)) == GDK_BUTTON_PRIMARY
      && SW_CANVAS_GET_CLASS (canvas)->release != NULL)
    SW_CANVAS_GET_CLASS (canvas)->release (canvas, &at);
}

static void
on_cancel (GtkGesture *gesture, GdkEventSequence *sequence, SwCanvas *canvas)
{
  if (SW_CANVAS_GET_CLASS (canvas)->cancel != NULL)
    SW_CANVAS_GET_CLASS (canvas)->cancel (canvas);
}

/* Middle button, or the first one with space held. */
static void
on_pan_begin (GtkGestureDrag *drag, double x, double y, SwCanvas *canvas)
{
  SwCanvasPrivate *self = get (canvas);
  guint button = gtk_gesture_single_get_current_button (GTK_GESTURE_SINGLE (drag));
  if (button != GDK_BUTTON_MIDDLE && !(button == GDK_BUTTON_PRIMARY && self->space_held))
    {
      gtk_gesture_set_state (GTK_GESTURE (drag), GTK_EVENT_SEQUENCE_DENIED);
      return;
    }
  self->panning = TRUE;
  self->pan_pin = sw_viewport_to_world (&self->view, (SwPoint){ x, y });
  gtk_widget_set_cursor_from_name (GTK_WIDGET (canvas), "grabbing");
}

static void
on_pan_update (GtkGestureDrag *drag, double dx, double dy, SwCanvas *canvas)
{
  SwCanvasPrivate *self = get (canvas);
  double x, y;
  if (!self->panning || !gtk_gesture_drag_get_start_point (drag, &x, &y))
    return;
  sw_viewport_pin (&self->view, self->pan_pin, (SwPoint){ x + dx, y + dy });
  self->fit_pending = FALSE;
  view_changed (canvas);
}

static void
on_pan_end (GtkGestureDrag *drag, double dx, double dy, SwCanvas *canvas)
{
  get (canvas)->panning = FALSE;
  gtk_widget_set_cursor (GTK_WIDGET (canvas), NULL);
}

/* Wheels zoom; touchpads, which scroll in two directions by pixels, pan, and zoom with Control. */
static gboolean
on_scroll (GtkEventControllerScroll *scroll, double dx, double dy, SwCanvas *canvas)
{
  SwCanvasPrivate *self = get (canvas);
  GdkModifierType state = state_of (scroll);
  gboolean fine = gtk_event_controller_scroll_get_unit (scroll) == GDK_SCROLL_UNIT_SURFACE;
  if ((state & GDK_SHIFT_MASK) != 0 && !fine)
    sw_canvas_pan_by (canvas, -60 * (dx + dy), 0);
  else if (!fine || (state & GDK_CONTROL_MASK) != 0)
    {
      sw_viewport_zoom_about (&self->view, zoom_middle (self), pow (1.2, fine ? -dy / 20 : -dy));
      zoom_changed (canvas);
    }
  else
    sw_canvas_pan_by (canvas, -dx, -dy);
  return TRUE;
}

static void
on_zoom_begin (GtkGesture *gesture, GdkEventSequence *sequence, SwCanvas *canvas)
{
  SwCanvasPrivate *self = get (canvas);
  double x, y;
  gtk_gesture_get_bounding_box_center (gesture, &x, &y);
  self->zoom_pin = sw_viewport_to_world (&self->view, (SwPoint){ x, y });
  self->zoom_start = self->view.zoom;
}

static void
on_zoom_scale (GtkGestureZoom *zoom, double scale, SwCanvas *canvas)
{
  SwCanvasPrivate *self = get (canvas);
  double x, y;
  gtk_gesture_get_bounding_box_center (GTK_GESTURE (zoom), &x, &y);
  self->view.zoom = self->zoom_start * scale;
  sw_viewport_pin (&self->view, self->zoom_pin, (SwPoint){ x, y });
  zoom_changed (canvas);
}

static gboolean
on_key (GtkEventControllerKey *key, guint keyval, guint code, GdkModifierType state, SwCanvas *canvas)
{
  SwCanvasPrivate *self = get (canvas);
  if (keyval == GDK_KEY_space && (state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) == 0)
    {
      self->space_held = TRUE;
      if (!self->panning)
        gtk_widget_set_cursor_from_name (GTK_WIDGET (canvas), "grab");
      return TRUE;
    }
  return FALSE;
}

static void
on_key_released (GtkEventControllerKey *key, guint keyval, guint code, GdkModifierType state, SwCanvas *canvas)
{
  SwCanvasPrivate *self = get (canvas);
  if (keyval != GDK_KEY_space)
    return;
  self->space_held = FALSE;
  if (!self->panning)
    gtk_widget_set_cursor (GTK_WIDGET (canvas), NULL);
}

static void
add_controllers (SwCanvas *canvas)
{
  SwCanvasPrivate *self = get (canvas);
  GtkWidget *widget = GTK_WIDGET (canvas);
  GtkEventController *motion = gtk_event_controller_motion_new (), *key = gtk_event_controller_key_new ();
  GtkEventController *scroll = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_BOTH_AXES);
  self->click = gtk_gesture_click_new ();
  self->pan = gtk_gesture_drag_new ();
  self->zoom = gtk_gesture_zoom_new ();
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (self->click), 0);
  gtk_gesture_single_set_button (GTK_GESTURE_SINGLE (self->pan), 0);
  g_signal_connect (motion, "motion", G_CALLBACK (on_motion), canvas);
  g_signal_connect (motion, "enter", G_CALLBACK (on_motion), canvas);
  g_signal_connect (motion, "leave", G_CALLBACK (on_leave), canvas);
  g_signal_connect (self->click, "pressed", G_CALLBACK (on_pressed), canvas);
  g_signal_connect (self->click, "released", G_CALLBACK (on_released), canvas);
  g_signal_connect (self->click, "cancel", G_CALLBACK (on_cancel), canvas);
  g_signal_connect (self->pan, "drag-begin", G_CALLBACK (on_pan_begin), canvas);
  g_signal_connect (self->pan, "drag-update", G_CALLBACK (on_pan_update), canvas);
  g_signal_connect (self->pan, "drag-end", G_CALLBACK (on_pan_end), canvas);
  g_signal_connect (self->zoom, "begin", G_CALLBACK (on_zoom_begin), canvas);
  g_signal_connect (self->zoom, "scale-changed", G_CALLBACK (on_zoom_scale), canvas);
  g_signal_connect (scroll, "scroll", G_CALLBACK (on_scroll), canvas);
  g_signal_connect (key, "key-pressed", G_CALLBACK (on_key), canvas);
  g_signal_connect (key, "key-released", G_CALLBACK (on_key_released), canvas);
  gtk_widget_add_controller (widget, motion);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (self->click));
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (self->pan));
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (self->zoom));
  gtk_widget_add_controller (widget, scroll);
  gtk_widget_add_controller (widget, key);
}

static void
sw_canvas_init (SwCanvas *canvas)
{
  SwCanvasPrivate *self = get (canvas);
  self->view = sw_viewport_new (1, 1);
  self->tiles = sw_tiles_new (tiles_ready, canvas);
  self->resting = TRUE;
  self->dirty = TRUE;
  sw_tiles_set_look (self->tiles, &self->look, SCREEN_PAPER_PX);
  gtk_widget_set_focusable (GTK_WIDGET (canvas), TRUE);
  gtk_widget_set_hexpand (GTK_WIDGET (canvas), TRUE);
  gtk_widget_set_vexpand (GTK_WIDGET (canvas), TRUE);
  g_signal_connect (canvas, "notify::scale-factor", G_CALLBACK (scale_changed), NULL);
  add_controllers (canvas);
}

static void
canvas_finalize (GObject *object)
{
  SwCanvasPrivate *self = get (SW_CANVAS (object));
  g_clear_handle_id (&self->rest_timer, g_source_remove);
  g_clear_pointer (&self->tiles, sw_tiles_free);
  g_clear_pointer (&self->live, sw_display_unref);
  G_OBJECT_CLASS (sw_canvas_parent_class)->finalize (object);
}

static void
sw_canvas_class_init (SwCanvasClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  G_OBJECT_CLASS (class)->finalize = canvas_finalize;
  widget_class->snapshot = canvas_snapshot;
  widget_class->size_allocate = canvas_size_allocate;
  gtk_widget_class_set_css_name (widget_class, "canvas");
}
