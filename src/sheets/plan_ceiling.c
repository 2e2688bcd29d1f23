/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Downlights, hatches, battens and boards, and the badges of snags. */
#include "sheets/plan_parts.h"
#include "sheets/words.h"
#include "base/number.h"
#include "base/tolerance.h"
#include "ceiling/layout.h"
#include "geometry/outline.h"

#define FIXING_RADIUS_MM 7
#define FIXING_STEP_MM 20 /* between fixings side by side */

static void
draw_light (SwDisplay *display, const SwLight *light)
{
  static const SwFill fill = { .role = SW_ROLE_LIGHT };
  static const SwStroke ring = { .role = SW_ROLE_INK, .width = 0.25, .unit = SW_SIZE_PAPER };
  static const SwStroke heat = { .role = SW_ROLE_FIX, .width = 0.18, .unit = SW_SIZE_PAPER, .dash = SW_DASH_HIDDEN };
  SwPoint at = light->at;
  double r = light->cut_out / 2;
  sw_plan_begin (display, &light->record, 0, "light");
  sw_display_set_detail (display, 0, INFINITY);
  sw_display_add_circle (display, at, r, &fill, &ring);
  sw_display_add_line (display, (SwPoint){ at.x - 1.6 * r, at.y }, (SwPoint){ at.x + 1.6 * r, at.y }, &ring);
  sw_display_add_line (display, (SwPoint){ at.x, at.y - 1.6 * r }, (SwPoint){ at.x, at.y + 1.6 * r }, &ring);
  sw_display_set_detail (display, 0.05, INFINITY);
  if (light->side_clearance > 0)
    sw_display_add_circle (display, at, light->body / 2 + light->side_clearance, NULL, &heat);
  sw_plan_label (display, (SwPoint){ at.x + 2 * r, at.y + 2 * r }, light->record.tag, SW_ROLE_INK, 2.0, 0);
  sw_display_end (display);
}

void
sw_plan_draw_lights (SwDisplay *display, const SwDeck *deck)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_deck_job (deck), SW_TABLE_LIGHT); (record = sw_job_iter_next (&i)) != NULL;)
    draw_light (display, (const SwLight *) record);
}

void
sw_plan_draw_hatches (SwDisplay *display, const SwDeck *deck)
{
  static const SwStroke stroke = { .role = SW_ROLE_HATCH, .width = 0.35, .unit = SW_SIZE_PAPER };
  static const SwStroke thin = { .role = SW_ROLE_HATCH, .width = 0.18, .unit = SW_SIZE_PAPER, .dash = SW_DASH_HIDDEN };
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_deck_job (deck), SW_TABLE_HATCH); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwHatch *hatch = (const SwHatch *) record;
      SwPoint corners[4];
      sw_plan_box_points (hatch->at, hatch->length, hatch->width, hatch->turn, corners);
      sw_plan_begin (display, record, 0, "hatch");
      sw_display_set_detail (display, 0, INFINITY);
      sw_display_add_polygon (display, corners, 4, NULL, &stroke);
      sw_display_add_line (display, corners[0], corners[2], &thin);
      sw_display_add_line (display, corners[1], corners[3], &thin);
      sw_display_set_detail (display, 0.04, INFINITY);
      sw_plan_label (display, hatch->at, record->tag, SW_ROLE_HATCH, 2.2, 0);
      sw_display_end (display);
    }
}

static void
draw_members (SwDisplay *display, const SwLayout *layout, SwColourRole role)
{
  for (guint i = 0; i < layout->members.n; i++)
    {
      const SwMember *member = &SW_LIST_AT (layout->members, SwMember, i);
      SwStroke body = { .role = role, .width = member->width, .unit = SW_SIZE_WORLD,
                        .transparency = member->kind == SW_MEMBER_BATTEN ? 0.25 : 0.5 };
      SwStroke line = { .role = role, .width = 0.18, .unit = SW_SIZE_PAPER };
      sw_display_set_detail (display, 1.2 / member->width, INFINITY);
      sw_display_add_line (display, member->from, member->to, &body);
      sw_display_set_detail (display, 0.01, 1.2 / member->width);
      sw_display_add_line (display, member->from, member->to, &line);
    }
}

/* One dot a fixing, side by side across the plan where there are more, with their number. */
static void
draw_fixing (SwDisplay *display, SwPoint at, guint count)
{
  static const SwFill dot = { .role = SW_ROLE_NOTE };
  double first = -(double) (count - 1) / 2 * FIXING_STEP_MM;
  for (guint k = 0; k < count; k++)
    {
      double aside = (first + k * FIXING_STEP_MM) * M_SQRT1_2; /* on the slant: clear of each other whichever way the batten runs */
      sw_display_add_circle (display, (SwPoint){ at.x + aside, at.y + aside }, FIXING_RADIUS_MM, &dot, NULL);
    }
  g_autofree char *text = g_strdup_printf ("%u×", count);
  if (count > 1)
    sw_plan_label (display, (SwPoint){ at.x + 4 * FIXING_STEP_MM, at.y - 4 * FIXING_STEP_MM }, text, SW_ROLE_INK, 2.5, 0);
}

static void
draw_battens (SwDisplay *display, const SwRoom *room, const SwLayout *layout)
{
  g_autoptr (GArray) counts = sw_ceiling_fixing_counts (layout);
  sw_plan_begin (display, &layout->record, 0, "battens");
  draw_members (display, layout, room != NULL && room->material == SW_BATTENS_STEEL ? SW_ROLE_STEEL : SW_ROLE_BATTEN);
  for (guint j = 0; j < layout->fixings.n; j++)
    {
      guint count = g_array_index (counts, guint, j);
      sw_display_set_detail (display, count > 1 ? 0.01 : 0.1, INFINITY);
      draw_fixing (display, SW_LIST_AT (layout->fixings, SwFixing, j).at, count);
    }
  sw_display_end (display);
}

void
sw_plan_draw_battens (SwDisplay *display, const SwDeck *deck)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_deck_job (deck), SW_TABLE_LAYOUT); (record = sw_job_iter_next (&i)) != NULL;)
    draw_battens (display, (const SwRoom *) sw_job_get (sw_deck_job (deck), ((const SwLayout *) record)->room), (const SwLayout *) record);
}

/* The corners of one piece stand together; gives their number from `first` on. */
static guint
piece_corners (const SwLayout *layout, guint first, GArray *points)
{
  int piece = SW_LIST_AT (layout->corners, SwCorner, first).piece;
  guint i = first;
  g_array_set_size (points, 0);
  for (; i < layout->corners.n && SW_LIST_AT (layout->corners, SwCorner, i).piece == piece; i++)
    g_array_append_val (points, SW_LIST_AT (layout->corners, SwCorner, i).at);
  return i - first;
}

/* Pieces are numbered as they stand. */
static gboolean
is_locked (const SwLayout *layout, int piece)
{
  return piece >= 1 && piece <= (int) layout->pieces.n && SW_LIST_AT (layout->pieces, SwPiece, piece - 1).piece == piece
         && SW_LIST_AT (layout->pieces, SwPiece, piece - 1).locked;
}

/* A side that the outline goes along both ways is the slit to a hatch: nobody cuts there. */
static gboolean
is_slit (const SwPoint *corners, guint n, guint side)
{
  SwPoint a = corners[side], b = corners[(side + 1) % n];
  for (guint i = 0; i < n; i++)
    if (sw_point_distance (corners[i], b) < SW_TOUCH_MM && sw_point_distance (corners[(i + 1) % n], a) < SW_TOUCH_MM)
      return TRUE;
  return FALSE;
}

static void
draw_piece (SwDisplay *display, const SwPoint *corners, guint n, const SwFill *fill, const SwStroke *stroke)
{
  gboolean whole = TRUE;
  for (guint i = 0; i < n; i++)
    whole = whole && !is_slit (corners, n, i);
  sw_display_add_polygon (display, corners, n, fill, whole ? stroke : NULL);
  for (guint i = 0; i < n && !whole; i++)
    if (!is_slit (corners, n, i))
      sw_display_add_line (display, corners[i], corners[(i + 1) % n], stroke);
}

static void
draw_pieces (SwDisplay *display, const SwLayout *layout)
{
  static const SwFill fill = { .role = SW_ROLE_BOARD, .transparency = 0.35 };
  static const SwStroke stroke = { .role = SW_ROLE_BOARD_EDGE, .width = 0.25, .unit = SW_SIZE_PAPER };
  static const SwStroke kept = { .role = SW_ROLE_BOARD_EDGE, .width = 0.9, .unit = SW_SIZE_PAPER };
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (SwPoint));
  guint n;
  for (guint i = 0; i < layout->corners.n; i += n)
    {
      n = piece_corners (layout, i, points);
      if (n < 3)
        continue;
      int piece = SW_LIST_AT (layout->corners, SwCorner, i).piece;
      gboolean locked = is_locked (layout, piece);
      g_autofree char *number = locked ? g_strdup_printf (_("%d stays"), piece) : g_strdup_printf ("%d", piece);
      SwPoint *corners = (SwPoint *) (gpointer) points->data;
      sw_display_set_detail (display, 0, INFINITY);
      draw_piece (display, corners, n, &fill, locked ? &kept : &stroke);
      sw_display_set_detail (display, 0.03, INFINITY);
      sw_plan_label (display, sw_outline_label_point (corners, n), number, SW_ROLE_BOARD_EDGE, 2.2, 0);
    }
}

static void
draw_joints (SwDisplay *display, const SwLayout *layout)
{
  static const SwStroke strokes[] = {
    [SW_JOINT_LONG] = { .role = SW_ROLE_BOARD_EDGE, .width = 0.25, .unit = SW_SIZE_PAPER },
    [SW_JOINT_END] = { .role = SW_ROLE_BOARD_EDGE, .width = 0.5, .unit = SW_SIZE_PAPER },
    [SW_JOINT_MOVEMENT] = { .role = SW_ROLE_INK, .width = 0.7, .unit = SW_SIZE_PAPER, .dash = SW_DASH_CENTRE },
  };
  for (guint i = 0; i < layout->joints.n; i++)
    {
      const SwJoint *joint = &SW_LIST_AT (layout->joints, SwJoint, i);
      sw_display_add_line (display, joint->from, joint->to, &strokes[joint->kind]);
    }
}

static void
draw_strips (SwDisplay *display, const SwLayout *layout)
{
  static const SwFill fill = { .role = SW_ROLE_STOP, .hatching = SW_HATCHING_LINES };
  for (guint i = 0; i < layout->strips.n; i++)
    {
      const SwStrip *strip = &SW_LIST_AT (layout->strips, SwStrip, i);
      SwPoint way = sw_point_sub (strip->to, strip->from), corners[4];
      sw_plan_box_points (sw_point_lerp (strip->from, strip->to, 0.5), sw_point_length (way), strip->width,
                          atan2 (way.y, way.x) * 180 / G_PI, corners);
      sw_display_add_polygon (display, corners, 4, &fill, NULL);
    }
}

static void
draw_boards (SwDisplay *display, const SwLayout *layout)
{
  sw_plan_begin (display, &layout->record, 1, "boards");
  draw_pieces (display, layout);
  sw_display_set_detail (display, 0, INFINITY);
  draw_joints (display, layout);
  sw_display_set_detail (display, 0.03, INFINITY);
  draw_strips (display, layout);
  sw_display_end (display);
}

void
sw_plan_draw_boards (SwDisplay *display, const SwDeck *deck)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_deck_job (deck), SW_TABLE_LAYOUT); (record = sw_job_iter_next (&i)) != NULL;)
    draw_boards (display, (const SwLayout *) record);
}

void
sw_plan_draw_layout (SwDisplay *display, const SwRoom *room, const SwLayout *layout, guint64 layers)
{
  if ((layers & SW_LAYER_BIT (SW_LAYER_BATTENS)) != 0)
    {
      sw_display_set_layer (display, SW_LAYER_BATTENS);
      draw_battens (display, room, layout);
    }
  if ((layers & SW_LAYER_BIT (SW_LAYER_BOARDS)) != 0)
    {
      sw_display_set_layer (display, SW_LAYER_BOARDS);
      draw_boards (display, layout);
    }
}

#define BADGE_DETAIL 0.055 /* px per mm from which badges are large enough to be told apart */

/* A letter and the shape tell severity apart without colour: stop a ringed disc, fix a disc, note a ring. */
static void
draw_badge (SwDisplay *display, SwPoint at, SwColourRole role, const double *widths, int n)
{
  SwPoint a = { at.x - 0.5, at.y }, b = { at.x + 0.5, at.y };
  for (int i = 0; i < n; i++)
    {
      SwStroke disc = { .role = (n - i) % 2 ? role : SW_ROLE_PAPER, .width = widths[i], .unit = SW_SIZE_PX, .round = TRUE };
      sw_display_add_line (display, a, b, &disc);
    }
}

static void
draw_snag (SwDisplay *display, const SwPlanSnag *snag, guint index)
{
  static const struct
  {
    SwColourRole role, ground;
    const char *letter, *class_name;
    double widths[4]; /* of the discs from the outermost, the last in the role's colour */
    int n;
  } looks[] = {
    { SW_ROLE_STOP, SW_ROLE_STOP, "S", "stop", { 26, 24, 20.5, 18 }, 4 },
    { SW_ROLE_FIX, SW_ROLE_FIX, "F", "fix", { 21, 18.5 }, 2 },
    { SW_ROLE_NOTE, SW_ROLE_PAPER, "N", "note", { 21, 18.5 }, 2 },
  };
  int severity = CLAMP (snag->severity, 0, 2);
  SwStroke inside = { .role = SW_ROLE_PAPER, .width = 15, .unit = SW_SIZE_PX, .round = TRUE };
  g_autofree char *text = g_strdup_printf ("%s%d", looks[severity].letter, snag->number);
  SwTextStyle style = { .role = SW_ROLE_INK, .height = 5.8, .unit = SW_SIZE_PX, .align = SW_ALIGN_MIDDLE,
                        .rise = SW_RISE_MIDDLE, .bold = TRUE, .on = looks[severity].ground };
  SwDisplayKey key = { SW_PLAN_SNAG_TABLE, severity, index };
  sw_display_begin_group (display, &(SwDisplayGroup){ key, NULL, looks[severity].class_name, snag->title, NULL });
  sw_display_set_detail (display, 0, BADGE_DETAIL);
  draw_badge (display, snag->at, looks[severity].role, (const double[]){ 11, 9 }, 2);
  if (severity == 2)
    draw_badge (display, snag->at, SW_ROLE_PAPER, (const double[]){ 6, 5 }, 2);
  sw_display_set_detail (display, BADGE_DETAIL, INFINITY);
  draw_badge (display, snag->at, looks[severity].role, looks[severity].widths, looks[severity].n);
  if (severity == 2)
    sw_display_add_line (display, (SwPoint){ snag->at.x - 0.5, snag->at.y }, (SwPoint){ snag->at.x + 0.5, snag->at.y }, &inside);
  sw_display_add_text (display, snag->at, text, &style);
  sw_display_end (display);
}

void
sw_plan_draw_snags (SwDisplay *display, const SwPlanSnag *snags, guint n)
{
  sw_display_set_layer (display, SW_LAYER_SNAGS);
  sw_display_set_detail (display, 0, INFINITY);
  for (guint i = n; i-- > 0;)
    draw_snag (display, &snags[i], i);
}
