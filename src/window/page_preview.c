/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/page_preview.h"
#include "sheets/words.h"

#define MARGIN_PX 16

struct _SwPagePreview
{
  GtkWidget parent_instance;
  SwDisplay *display;
  SwPage page;
};

G_DEFINE_FINAL_TYPE (SwPagePreview, sw_page_preview, GTK_TYPE_WIDGET)

static void
page_preview_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  SwPagePreview *preview = SW_PAGE_PREVIEW (widget);
  if (preview->display == NULL)
    return;
  SwPoint size = sw_page_size (&preview->page);
  double width = gtk_widget_get_width (widget) - 2 * MARGIN_PX, height = gtk_widget_get_height (widget) - 2 * MARGIN_PX;
  double scale = MIN (width / size.x, height / size.y);
  if (scale <= 0)
    return;
  graphene_rect_t box = GRAPHENE_RECT_INIT ((float) (MARGIN_PX + (width - size.x * scale) / 2), (float) (MARGIN_PX + (height - size.y * scale) / 2),
                                            (float) (size.x * scale), (float) (size.y * scale));
  GskRoundedRect outline;
  gsk_rounded_rect_init_from_rect (&outline, &box, 0);
  gtk_snapshot_append_outset_shadow (snapshot, &outline, &(GdkRGBA){ 0, 0, 0, 0.4f }, 0, 1, 0, 6);
  cairo_t *cr = gtk_snapshot_append_cairo (snapshot, &box);
  cairo_translate (cr, box.origin.x, box.origin.y);
  sw_page_paint (cr, preview->display, &preview->page, scale);
  cairo_destroy (cr);
}

void
sw_page_preview_set_page (SwPagePreview *preview, SwDisplay *display, const SwPage *page)
{
  if (display != NULL)
    sw_display_ref (display);
  g_clear_pointer (&preview->display, sw_display_unref);
  preview->display = display;
  if (page != NULL)
    preview->page = *page;
  gtk_widget_queue_draw (GTK_WIDGET (preview));
}

static void
sw_page_preview_init (SwPagePreview *preview)
{
  gtk_widget_set_hexpand (GTK_WIDGET (preview), TRUE);
  gtk_widget_set_vexpand (GTK_WIDGET (preview), TRUE);
  gtk_accessible_update_property (GTK_ACCESSIBLE (preview), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Preview of the page"), -1);
}

static void
page_preview_finalize (GObject *object)
{
  g_clear_pointer (&SW_PAGE_PREVIEW (object)->display, sw_display_unref);
  G_OBJECT_CLASS (sw_page_preview_parent_class)->finalize (object);
}

static void
sw_page_preview_class_init (SwPagePreviewClass *class)
{
  G_OBJECT_CLASS (class)->finalize = page_preview_finalize;
  GTK_WIDGET_CLASS (class)->snapshot = page_preview_snapshot;
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (class), GTK_ACCESSIBLE_ROLE_IMG);
}
