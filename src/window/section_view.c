/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/section_view.h"
#include "sheets/words.h"
#include "window/tools/section_tool.h"
#include "window/tools/shape.h"

#define EXAGGERATION 5
#define REACH_PX 6

struct _SwSectionView
{
  SwCanvas parent_instance;
  SwDocument *document;
  gulong picture_handler;
  SwSectionTool tool;
  SwId held; /* what is picked: the cut stays there */
  gboolean own_view; /* the user zoomed or panned: no more fitting */
};

G_DEFINE_FINAL_TYPE (SwSectionView, sw_section_view, SW_TYPE_CANVAS)

static guint title_signal;

static void
refit (SwSectionView *view)
{
  SwBox box = sw_section_tool_box (&view->tool);
  SwViewport viewport = *sw_canvas_view (SW_CANVAS (view));
  if (sw_box_is_empty (box) || viewport.width < 2)
    return;
  if (view->own_view)
    viewport.centre = (SwPoint){ (box.low.x + box.high.x) / 2, viewport.centre.y };
  else
    sw_viewport_fit (&viewport, box, 6);
  sw_canvas_set_view (SW_CANVAS (view), &viewport);
}

static void
changed (SwSectionView *view, gboolean fit)
{
  if (fit)
    refit (view);
  sw_canvas_live_changed (SW_CANVAS (view));
  g_signal_emit (view, title_signal, 0);
}

static void
on_picture (SwDocument *document, SwSectionView *view)
{
  gboolean first = !view->tool.has_cut;
  sw_section_tool_renew (&view->tool);
  changed (view, first);
}

/* What is picked is cut where the pointer picked it, else at its middle. */
static void
follow_picked (SwSectionView *view)
{
  SwBoard *board = view->tool.board;
  SwId id = sw_board_n_picked (board) == 1 ? sw_board_picked (board, 0) : 0;
  SwPoint at;
  if (id == view->held)
    return;
  view->held = id;
  const SwRecord *record = id != 0 ? sw_job_get (sw_board_job (board), id) : NULL;
  if (record == NULL || gtk_widget_has_focus (GTK_WIDGET (view)))
    {
      changed (view, view->tool.along);
      return;
    }
  const SwPicture *picture = sw_board_picture (board);
  if ((SW_ID_TABLE (id) == SW_TABLE_RUN && sw_board_has_cursor (board, &at))
      || sw_shape_place (sw_board_job (board), picture != NULL ? picture->deck : NULL, record, &at))
    sw_section_tool_set_place (&view->tool, at);
  changed (view, TRUE);
}

static void
on_board (SwBoard *board, guint changes, gpointer data)
{
  if ((changes & SW_BOARD_PICKED) != 0)
    follow_picked (data);
  if ((changes & SW_BOARD_LIVE) != 0)
    sw_canvas_live_changed (data);
}

static void
drop_document (SwSectionView *view)
{
  if (view->document == NULL)
    return;
  g_clear_signal_handler (&view->picture_handler, view->document);
  sw_board_unwatch (view->tool.board, on_board, view);
  view->tool = (SwSectionTool){ .exaggeration = EXAGGERATION };
  view->held = 0;
  g_clear_object (&view->document);
}

void
sw_section_view_set_document (SwSectionView *view, SwDocument *document)
{
  drop_document (view);
  view->own_view = FALSE;
  if (document != NULL)
    {
      view->document = g_object_ref (document);
      view->tool.board = sw_document_board (document);
      view->picture_handler = g_signal_connect (document, "picture", G_CALLBACK (on_picture), view);
      sw_board_watch (view->tool.board, on_board, view);
      if (sw_document_picture (document) != NULL)
        on_picture (document, view);
    }
  sw_canvas_live_changed (SW_CANVAS (view));
}

void
sw_section_view_set_theme (SwSectionView *view, SwTheme theme)
{
  SwLook look = *sw_canvas_look (SW_CANVAS (view));
  look.theme = theme;
  sw_canvas_set_look (SW_CANVAS (view), &look);
}

void
sw_section_view_follow (SwSectionView *view, SwPoint world)
{
  if (view->document == NULL || view->held != 0)
    return;
  if (sw_section_tool_set_place (&view->tool, world))
    changed (view, TRUE);
}

void
sw_section_view_show (SwSectionView *view, SwPoint world)
{
  if (view->document == NULL)
    return;
  view->tool.along = FALSE;
  sw_section_tool_set_place (&view->tool, world);
  changed (view, TRUE);
}

void
sw_section_view_set_along (SwSectionView *view, gboolean along)
{
  view->tool.along = along;
  view->own_view = FALSE;
  changed (view, TRUE);
}

gboolean
sw_section_view_can_show_along (SwSectionView *view)
{
  return view->document != NULL && sw_section_tool_run (&view->tool) != 0;
}

char *
sw_section_view_title (SwSectionView *view)
{
  return view->document != NULL ? sw_section_tool_title (&view->tool) : g_strdup ("");
}

/* ---- Canvas ---- */

static double
reach_of (SwCanvas *canvas)
{
  return sw_viewport_px_to_mm (sw_canvas_view (canvas), REACH_PX);
}

static void
section_press (SwCanvas *canvas, const SwCanvasPoint *at)
{
  SwSectionView *view = SW_SECTION_VIEW (canvas);
  if (view->document != NULL && !sw_document_is_read_only (view->document))
    sw_section_tool_press (&view->tool, at->world, reach_of (canvas), at->shift);
}

static void
section_motion (SwCanvas *canvas, const SwCanvasPoint *at)
{
  if (SW_SECTION_VIEW (canvas)->document != NULL)
    sw_section_tool_motion (&SW_SECTION_VIEW (canvas)->tool, at->world, reach_of (canvas));
}

static void
section_release (SwCanvas *canvas, const SwCanvasPoint *at)
{
  if (SW_SECTION_VIEW (canvas)->document != NULL)
    sw_section_tool_release (&SW_SECTION_VIEW (canvas)->tool, at->world);
}

static void
section_cancel (SwCanvas *canvas)
{
  if (SW_SECTION_VIEW (canvas)->document != NULL)
    sw_section_tool_cancel (&SW_SECTION_VIEW (canvas)->tool);
}

static SwDisplay *
section_live (SwCanvas *canvas)
{
  return SW_SECTION_VIEW (canvas)->document != NULL ? sw_section_tool_draw (&SW_SECTION_VIEW (canvas)->tool) : NULL;
}

static SwBox
section_extent (SwCanvas *canvas)
{
  return SW_SECTION_VIEW (canvas)->document != NULL ? sw_section_tool_box (&SW_SECTION_VIEW (canvas)->tool) : SW_BOX_EMPTY;
}

static void
section_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  GTK_WIDGET_CLASS (sw_section_view_parent_class)->size_allocate (widget, width, height, baseline);
  if (SW_SECTION_VIEW (widget)->document != NULL)
    refit (SW_SECTION_VIEW (widget));
}

static gboolean
on_scroll (GtkEventControllerScroll *scroll, double dx, double dy, SwSectionView *view)
{
  view->own_view = TRUE;
  return FALSE;
}

static gboolean
on_key (GtkEventControllerKey *key, guint keyval, guint code, GdkModifierType state, SwSectionView *view)
{
  if (keyval == GDK_KEY_Escape)
    sw_section_tool_cancel (&view->tool);
  else if (keyval == GDK_KEY_0 || keyval == GDK_KEY_Home)
    {
      view->own_view = FALSE;
      refit (view);
    }
  else if (keyval == GDK_KEY_plus || keyval == GDK_KEY_equal || keyval == GDK_KEY_minus)
    {
      view->own_view = TRUE;
      sw_canvas_zoom_by (SW_CANVAS (view), keyval == GDK_KEY_minus ? 1 / 1.2 : 1.2);
    }
  else
    return FALSE;
  return TRUE;
}

static void
sw_section_view_init (SwSectionView *view)
{
  GtkEventController *scroll = gtk_event_controller_scroll_new (GTK_EVENT_CONTROLLER_SCROLL_BOTH_AXES), *key = gtk_event_controller_key_new ();
  view->tool.exaggeration = EXAGGERATION;
  g_signal_connect (scroll, "scroll", G_CALLBACK (on_scroll), view);
  g_signal_connect (key, "key-pressed", G_CALLBACK (on_key), view);
  gtk_widget_add_controller (GTK_WIDGET (view), scroll);
  gtk_widget_add_controller (GTK_WIDGET (view), key);
  gtk_accessible_update_property (GTK_ACCESSIBLE (view), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Section"), -1);
}

static void
section_view_dispose (GObject *object)
{
  drop_document (SW_SECTION_VIEW (object));
  G_OBJECT_CLASS (sw_section_view_parent_class)->dispose (object);
}

static void
sw_section_view_class_init (SwSectionViewClass *class)
{
  SwCanvasClass *canvas_class = SW_CANVAS_CLASS (class);
  G_OBJECT_CLASS (class)->dispose = section_view_dispose;
  GTK_WIDGET_CLASS (class)->size_allocate = section_size_allocate;
  canvas_class->press = section_press;
  canvas_class->motion = section_motion;
  canvas_class->release = section_release;
  canvas_class->cancel = section_cancel;
  canvas_class->live = section_live;
  canvas_class->extent = section_extent;
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (class), GTK_ACCESSIBLE_ROLE_IMG);
  title_signal = g_signal_new ("title", SW_TYPE_SECTION_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}
