/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "window/plan_view.h"
#include "sheets/words.h"

struct _SwPlanView
{
  SwCanvas parent_instance;
  SwDocument *document;
  gulong snags_handler;
  const SwPicture *shown; /* compared only: whose plan the tiles show */
  SwBox draft_box;        /* where they show badges of a draft */
  gboolean fitted;
};

G_DEFINE_FINAL_TYPE (SwPlanView, sw_plan_view, SW_TYPE_CANVAS)

enum { SIGNAL_POINTER, SIGNAL_MENU, N_SIGNALS };
static guint signals[N_SIGNALS];

static SwBoard *
board_of (gpointer view)
{
  SwDocument *document = SW_PLAN_VIEW (view)->document;
  return document != NULL ? sw_document_board (document) : NULL;
}

static void
tell_board_of_view (SwPlanView *view)
{
  const SwViewport *viewport = sw_canvas_view (SW_CANVAS (view));
  const SwLook *look = sw_canvas_look (SW_CANVAS (view));
  if (view->document != NULL)
    sw_board_set_view (board_of (view), 1 / viewport->zoom, look->hidden, look->faded);
}

/* What is dragged or drawn changes the badges alone. An edit without a place may have changed anything. */
static void
on_snags (SwDocument *document, SwPlanView *view)
{
  const SwPicture *picture = sw_document_picture (document), *snags = sw_document_snags_picture (document);
  SwDisplay *parts[SW_N_PARTS];
  gboolean first = !view->fitted, fresh = view->shown != picture;
  SwBox draft_box = snags->draft ? snags->changed : SW_BOX_EMPTY, changed = sw_box_union (view->draft_box, draft_box);
  gboolean all = first || (fresh && !picture->checked && sw_box_is_empty (picture->changed));
  memcpy (parts, picture->parts, sizeof parts);
  parts[SW_PART_SNAGS] = snags->parts[SW_PART_SNAGS];
  if (fresh)
    changed = sw_box_union (changed, picture->changed);
  view->shown = picture;
  view->draft_box = draft_box;
  view->fitted = TRUE;
  sw_tiles_set_content (sw_canvas_tiles (SW_CANVAS (view)), parts, SW_N_PARTS, all ? NULL : &changed);
  if (first)
    sw_canvas_fit_when_sized (SW_CANVAS (view));
}

static void
on_board (SwBoard *board, guint changes, gpointer data)
{
  if ((changes & SW_BOARD_LIVE) != 0)
    sw_canvas_live_changed (data);
  if ((changes & SW_BOARD_SAYS) != 0)
    g_signal_emit (data, signals[SIGNAL_POINTER], 0);
}

static void
drop_document (SwPlanView *view)
{
  if (view->document == NULL)
    return;
  g_clear_signal_handler (&view->snags_handler, view->document);
  sw_board_unwatch (board_of (view), on_board, view);
  g_clear_object (&view->document);
}

void
sw_plan_view_set_document (SwPlanView *view, SwDocument *document)
{
  drop_document (view);
  view->shown = NULL;
  view->draft_box = SW_BOX_EMPTY;
  view->fitted = FALSE;
  sw_tiles_set_content (sw_canvas_tiles (SW_CANVAS (view)), NULL, 0, NULL);
  if (document == NULL)
    return;
  view->document = g_object_ref (document);
  view->snags_handler = g_signal_connect (document, "snags", G_CALLBACK (on_snags), view);
  sw_board_watch (board_of (view), on_board, view);
  tell_board_of_view (view);
  if (sw_document_picture (document) != NULL)
    on_snags (document, view);
  sw_canvas_live_changed (SW_CANVAS (view));
}

void
sw_plan_view_set_layers (SwPlanView *view, guint64 hidden, guint64 faded)
{
  SwLook look = *sw_canvas_look (SW_CANVAS (view));
  look.hidden = hidden;
  look.faded = faded;
  sw_canvas_set_look (SW_CANVAS (view), &look);
  tell_board_of_view (view);
}

void
sw_plan_view_set_theme (SwPlanView *view, SwTheme theme)
{
  SwLook look = *sw_canvas_look (SW_CANVAS (view));
  look.theme = theme;
  sw_canvas_set_look (SW_CANVAS (view), &look);
}

void
sw_plan_view_set_looking_up (SwPlanView *view, gboolean up)
{
  sw_canvas_set_mirror (SW_CANVAS (view), up);
}

/* ---- Canvas ---- */

static SwBoardMods
mods_of (const SwCanvasPoint *at)
{
  return (SwBoardMods){ at->shift, at->control, at->clicks };
}

static void
plan_press (SwCanvas *canvas, const SwCanvasPoint *at)
{
  if (board_of (canvas) != NULL)
    sw_board_press (board_of (canvas), at->world, mods_of (at));
}

static void
plan_motion (SwCanvas *canvas, const SwCanvasPoint *at)
{
  if (board_of (canvas) != NULL)
    sw_board_motion (board_of (canvas), at->world, mods_of (at));
}

static void
plan_release (SwCanvas *canvas, const SwCanvasPoint *at)
{
  if (board_of (canvas) != NULL)
    sw_board_release (board_of (canvas), at->world, mods_of (at));
}

static void
plan_leave (SwCanvas *canvas)
{
  if (board_of (canvas) != NULL)
    sw_board_leave (board_of (canvas));
}

static void
plan_cancel (SwCanvas *canvas)
{
  if (board_of (canvas) != NULL)
    sw_board_cancel (board_of (canvas));
}

static void
plan_menu (SwCanvas *canvas, const SwCanvasPoint *at, double x, double y)
{
  SwBoard *board = board_of (canvas);
  SwId id;
  if (board == NULL)
    return;
  if (sw_board_things_at (board, at->world, &id, 1) == 1 && !sw_board_is_picked (board, id))
    sw_board_pick (board, id, FALSE);
  g_signal_emit (canvas, signals[SIGNAL_MENU], 0, x, y);
}

static SwDisplay *
plan_live (SwCanvas *canvas)
{
  return board_of (canvas) != NULL ? sw_board_live (board_of (canvas)) : NULL;
}

static void
plan_view_changed (SwCanvas *canvas)
{
  tell_board_of_view (SW_PLAN_VIEW (canvas));
  sw_canvas_live_changed (canvas);
  g_signal_emit (canvas, signals[SIGNAL_POINTER], 0);
}

static SwBox
plan_extent (SwCanvas *canvas)
{
  SwDocument *document = SW_PLAN_VIEW (canvas)->document;
  SwBox box = document != NULL ? sw_plan_box (sw_document_job (document)) : SW_BOX_EMPTY;
  return sw_box_is_empty (box) ? (SwBox){ { -1000, -1000 }, { 11000, 7000 } } : sw_box_grow (box, 500);
}

/* ---- Keys ---- */

/* A round step of about 10 px. */
static double
step_mm (SwCanvas *canvas)
{
  static const double steps[] = { 1, 5, 10, 50, 100, 500, 1000 };
  double wanted = sw_viewport_px_to_mm (sw_canvas_view (canvas), 10);
  gsize i = 0;
  while (i + 1 < G_N_ELEMENTS (steps) && steps[i] < wanted)
    i++;
  return steps[i];
}

static gboolean
arrow (SwCanvas *canvas, int right, int up, GdkModifierType state)
{
  SwBoard *board = board_of (canvas);
  int side = sw_canvas_view (canvas)->mirror ? -right : right;
  double step = (state & GDK_SHIFT_MASK) != 0 ? 1 : step_mm (canvas);
  SwPoint at;
  if ((state & GDK_CONTROL_MASK) != 0)
    {
      sw_canvas_pan_by (canvas, -60 * right, 60 * up);
      return TRUE;
    }
  if ((state & GDK_ALT_MASK) != 0)
    return sw_board_move (board, (SwPoint){ side * step, up * step });
  if (!sw_board_has_cursor (board, NULL))
    sw_board_motion (board, sw_canvas_view (canvas)->centre, (SwBoardMods){ .clicks = 1 });
  sw_board_nudge (board, side, up, step);
  if (sw_board_has_cursor (board, &at))
    sw_canvas_keep_visible (canvas, at);
  return TRUE;
}

/* At the crosshair, else in the middle. */
static gboolean
menu_by_key (SwCanvas *canvas)
{
  const SwViewport *view = sw_canvas_view (canvas);
  SwPoint at;
  if (!sw_board_raw_cursor (board_of (canvas), &at))
    at = view->centre;
  SwPoint on = sw_viewport_to_widget (view, at);
  SwCanvasPoint point = { .world = at };
  plan_menu (canvas, &point, CLAMP (on.x, 0, view->width), CLAMP (on.y, 0, view->height));
  return TRUE;
}

static gboolean
special_key (SwCanvas *canvas, guint keyval, GdkModifierType state)
{
  SwBoard *board = board_of (canvas);
  switch (keyval)
    {
    case GDK_KEY_Left:
      return arrow (canvas, -1, 0, state);
    case GDK_KEY_Right:
      return arrow (canvas, 1, 0, state);
    case GDK_KEY_Up:
      return arrow (canvas, 0, 1, state);
    case GDK_KEY_Down:
      return arrow (canvas, 0, -1, state);
    case GDK_KEY_Return:
    case GDK_KEY_KP_Enter:
      sw_board_enter (board);
      return TRUE;
    case GDK_KEY_Escape:
      sw_board_escape (board);
      return TRUE;
    case GDK_KEY_BackSpace:
      return sw_board_backspace (board);
    case GDK_KEY_Menu:
      return menu_by_key (canvas);
    case GDK_KEY_F10:
      return (state & GDK_SHIFT_MASK) != 0 && menu_by_key (canvas);
    case GDK_KEY_Delete:
    case GDK_KEY_KP_Delete:
      return sw_board_delete (board);
    case GDK_KEY_Tab:
    case GDK_KEY_ISO_Left_Tab:
      /* Only while drawing; else Tab goes on to the next control. */
      return sw_board_is_drawing (board) && sw_board_tab (board, keyval == GDK_KEY_ISO_Left_Tab || (state & GDK_SHIFT_MASK) != 0);
    default:
      return FALSE;
    }
}

/* Through the window's action, which also brings the step of the site to which the tool belongs. A capital that is no tool's
 * own is its small letter. */
static gboolean
use_tool_of_key (SwCanvas *canvas, gunichar character)
{
  const gunichar letters[] = { character, g_unichar_tolower (character) };
  for (gsize k = 0; k < G_N_ELEMENTS (letters); k++)
    for (guint i = 0; i < sw_board_n_tools (); i++)
      {
        const SwToolRow *row = sw_board_tool_row (i);
        if (row->key != 0 && (gunichar) row->key == letters[k])
          return gtk_widget_activate_action (GTK_WIDGET (canvas), "win.tool", "s", row->id);
      }
  return FALSE;
}

static gboolean
on_key (GtkEventControllerKey *key, guint keyval, guint code, GdkModifierType state, SwCanvas *canvas)
{
  SwBoard *board = board_of (canvas);
  if (board == NULL)
    return FALSE;
  if (special_key (canvas, keyval, state))
    return TRUE;
  if ((state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) != 0)
    return FALSE;
  gunichar character = gdk_keyval_to_unicode (keyval);
  if (character != ' ' && character != 0 && sw_board_type (board, character))
    return TRUE;
  if (character == 'x' || character == 'X')
    return sw_board_cross_here (board), TRUE;
  if (character == 'K')
    return gtk_widget_activate_action (GTK_WIDGET (canvas), "win.keep-here", NULL);
  if (character == 'O')
    return gtk_widget_activate_action (GTK_WIDGET (canvas), "win.polygons", NULL);
  if (use_tool_of_key (canvas, character))
    return TRUE;
  if (keyval == GDK_KEY_plus || keyval == GDK_KEY_equal || keyval == GDK_KEY_KP_Add)
    sw_canvas_zoom_by (canvas, 1.2);
  else if (keyval == GDK_KEY_minus || keyval == GDK_KEY_KP_Subtract)
    sw_canvas_zoom_by (canvas, 1 / 1.2);
  else if (keyval == GDK_KEY_0 || keyval == GDK_KEY_KP_0 || keyval == GDK_KEY_Home)
    sw_canvas_fit (canvas);
  else
    return FALSE;
  return TRUE;
}

gboolean
sw_plan_view_use_tool_of_key (SwPlanView *view, gunichar character)
{
  return g_unichar_isalpha (character) && board_of (SW_CANVAS (view)) != NULL && use_tool_of_key (SW_CANVAS (view), character)
         && gtk_widget_grab_focus (GTK_WIDGET (view));
}

static void
sw_plan_view_init (SwPlanView *view)
{
  GtkEventController *key = gtk_event_controller_key_new ();
  g_signal_connect (key, "key-pressed", G_CALLBACK (on_key), view);
  gtk_widget_add_controller (GTK_WIDGET (view), key);
  gtk_accessible_update_property (GTK_ACCESSIBLE (view), GTK_ACCESSIBLE_PROPERTY_LABEL, _("Plan"), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  _("Arrow keys move the crosshair, Enter clicks; the same things stand in the list Things"), -1);
}

static void
plan_view_dispose (GObject *object)
{
  drop_document (SW_PLAN_VIEW (object));
  G_OBJECT_CLASS (sw_plan_view_parent_class)->dispose (object);
}

static void
sw_plan_view_class_init (SwPlanViewClass *class)
{
  SwCanvasClass *canvas_class = SW_CANVAS_CLASS (class);
  G_OBJECT_CLASS (class)->dispose = plan_view_dispose;
  canvas_class->press = plan_press;
  canvas_class->motion = plan_motion;
  canvas_class->release = plan_release;
  canvas_class->leave = plan_leave;
  canvas_class->cancel = plan_cancel;
  canvas_class->menu = plan_menu;
  canvas_class->live = plan_live;
  canvas_class->view_changed = plan_view_changed;
  canvas_class->extent = plan_extent;
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (class), GTK_ACCESSIBLE_ROLE_IMG);
  signals[SIGNAL_POINTER] = g_signal_new ("pointer", SW_TYPE_PLAN_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
  signals[SIGNAL_MENU] = g_signal_new ("menu", SW_TYPE_PLAN_VIEW, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 2, G_TYPE_DOUBLE, G_TYPE_DOUBLE);
}
