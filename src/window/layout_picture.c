/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/layout_picture.h"
#include "drawing/cairo_painter.h"
#include "drawing/viewport.h"

#define LEAST_WIDTH 240
#define LEAST_HEIGHT 170
#define MARGIN_PX 10
#define PAPER_PX 2.6

struct _SwLayoutPicture
{
  GtkWidget parent_instance;
  SwDisplay *display;
  SwBox box;
};

G_DEFINE_FINAL_TYPE (SwLayoutPicture, sw_layout_picture, GTK_TYPE_WIDGET)

SwTheme
sw_layout_picture_theme (GtkWidget *widget)
{
  gboolean dark = FALSE;
  g_object_get (gtk_widget_get_settings (widget), "gtk-application-prefer-dark-theme", &dark, NULL);
  return dark ? SW_THEME_DARK : SW_THEME_LIGHT;
}

static void
layout_picture_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  SwLayoutPicture *picture = SW_LAYOUT_PICTURE (widget);
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  if (picture->display == NULL || width < 1 || height < 1)
    return;
  SwLook look = { .theme = sw_layout_picture_theme (widget) };
  SwViewport viewport = sw_viewport_new (width, height);
  sw_viewport_fit (&viewport, picture->box, MARGIN_PX);
  SwDrawView view = sw_draw_view_new (sw_viewport_transform (&viewport), 1, PAPER_PX, &look);
  graphene_rect_t bounds = GRAPHENE_RECT_INIT (0, 0, (float) width, (float) height);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &bounds);
  cairo_rectangle (cr, 0, 0, width, height);
  cairo_clip (cr);
  sw_cairo_paint_paper (cr, look.theme);
  sw_cairo_paint (cr, picture->display, &view, (SwBox){ { 0, 0 }, { width, height } }, NULL);
  cairo_destroy (cr);
}

static void
layout_picture_measure (GtkWidget *widget, GtkOrientation orientation, int for_size, int *least, int *natural, int *least_baseline, int *baseline)
{
  *least = *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? LEAST_WIDTH : LEAST_HEIGHT;
}

static void
layout_picture_root (GtkWidget *widget)
{
  GTK_WIDGET_CLASS (sw_layout_picture_parent_class)->root (widget);
  g_signal_connect_object (gtk_widget_get_settings (widget), "notify::gtk-application-prefer-dark-theme", G_CALLBACK (gtk_widget_queue_draw),
                           widget, G_CONNECT_SWAPPED);
}

GtkWidget *
sw_layout_picture_new (SwDisplay *display, SwBox box, const char *name)
{
  SwLayoutPicture *picture = g_object_new (SW_TYPE_LAYOUT_PICTURE, NULL);
  picture->display = sw_display_ref (display);
  picture->box = box;
  gtk_accessible_update_property (GTK_ACCESSIBLE (picture), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  return GTK_WIDGET (picture);
}

static void
sw_layout_picture_init (SwLayoutPicture *picture)
{
}

static void
layout_picture_finalize (GObject *object)
{
  g_clear_pointer (&SW_LAYOUT_PICTURE (object)->display, sw_display_unref);
  G_OBJECT_CLASS (sw_layout_picture_parent_class)->finalize (object);
}

static void
sw_layout_picture_class_init (SwLayoutPictureClass *class)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (class);
  G_OBJECT_CLASS (class)->finalize = layout_picture_finalize;
  widget_class->snapshot = layout_picture_snapshot;
  widget_class->measure = layout_picture_measure;
  widget_class->root = layout_picture_root;
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}
