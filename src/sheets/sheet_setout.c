/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Set-out on plans: lights and battens as a tape reads them from a wall, what comes through the topping from grid lines. */
#include "ceiling/layout.h"
#include "base/number.h"
#include "base/tolerance.h"
#include "drawing/dimension.h"
#include "geometry/outline.h"
#include "sheets/place.h"
#include "sheets/plan_parts.h"
#include "sheets/sheet_plan.h"

#define IN_MM 16.0       /* a room's running dimensions stand that far from its wall */
#define CAST_RANK 2
#define END_RANK 1       /* after the numbers of pieces, which stay where they are; before lights, which have room all round */
#define END_OFF_MM 4.0   /* so far a line of dimensions keeps off end joints: it would pass for one */
#define LINE_OFF_MM 1.5  /* and so far other letters off it: they would pass for its own */
#define SHORT_END_RANK 5 /* of joints hardly longer than their figure: they may as well stand aside, with a line, and leave names their place */
#define SHORT_END 1.5    /* times the figure's width */
#define END_ARROW_MM 5.0
#define UPRIGHT 1e-3     /* radians: rows that near to upright begin at their lower end, however their joints were rounded */
#define HAIR_MM 0.01 /* of the job */
#define BAND_HALF_MM 250.0 /* of the job: half the length of the strip in which a hole may be */

/* Where dimensions with upright figures fit between things at `low_thing` … `high_thing` and a room's walls. */
static double
free_line (double low, double high, double low_thing, double high_thing, double unit)
{
  if (low_thing - low >= (IN_MM + 3) * unit || high - high_thing < (IN_MM + 3) * unit)
    return low + IN_MM * unit;
  return high - IN_MM * unit;
}

/* Lights of a room as a tape reads them from its lower left walls, both ways. */
static void
add_running (const SwSheetPlan *plan, const SwRoom *room, const SwPoint *points, guint n)
{
  SwBox box = sw_record_box (&room->record), things = SW_BOX_EMPTY;
  for (guint i = 0; i < n; i++)
    things = sw_box_add (things, points[i]);
  double y = free_line (box.low.y, box.high.y, things.low.y, things.high.y, plan->scale);
  double x = free_line (box.low.x, box.high.x, things.low.x, things.high.x, plan->scale);
  double up = y < things.low.y ? -IN_MM * plan->scale : IN_MM * plan->scale, aside = x < things.low.x ? -IN_MM * plan->scale : IN_MM * plan->scale;
  sw_dimension_add_running (&plan->pen, (SwDimensionLine){ { box.low.x, y }, 0 }, box.low, points, n);
  sw_dimension_add_running (&plan->pen, (SwDimensionLine){ { x, box.low.y }, G_PI / 2 }, box.low, points, n);
  sw_labels_block (plan->labels, (SwBox){ { box.low.x, fmin (y, y + up) }, { box.high.x, fmax (y, y + up) } });
  sw_labels_block (plan->labels, (SwBox){ { fmin (x, x + aside), box.low.y }, { fmax (x, x + aside), box.high.y } });
}

static void
mark_lights (const SwSheetPlan *plan)
{
  SwJob *job = sw_deck_job (plan->deck);
  const SwRecord *record, *lamp;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_ROOM); (record = sw_job_iter_next (&i)) != NULL;)
    {
      g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (SwPoint));
      for (SwJobIter k = sw_job_iter (job, SW_TABLE_LIGHT); (lamp = sw_job_iter_next (&k)) != NULL;)
        {
          SwPoint at = ((const SwLight *) lamp)->at;
          if (sw_deck_room_at (plan->deck, at) == (const SwRoom *) record)
            g_array_append_val (points, at);
        }
      if (points->len > 0)
        add_running (plan, (const SwRoom *) record, (const SwPoint *) (gpointer) points->data, points->len);
    }
}

static void
add_light_list (SwSheetMaker *maker)
{
  static const SwSheetListColumn columns[] = {
    { "number", 14 }, { "room", 20 }, { "circuit", 18 }, { "cut_out_mm", 16 }, { "grid_x", 18 }, { "from_grid_x_mm", 22 }, { "grid_y", 18 }, { "from_grid_y_mm", 20 },
    { "wall_x", 18 }, { "from_wall_x_mm", 16 }, { "wall_y", 18 }, { "from_wall_y_mm", 16 }, { "void", 12 }, { "beside_plate_mm", 22 }, { "level_mm", 22 },
  };
  sw_sheet_add_schedule_pages (maker, "downlights", columns, G_N_ELEMENTS (columns));
}

/* "B - 1660": from the nearest grid line, positive to the right or up the plan. */
static void
append_datum (GString *text, const SwDatum *datum, SwLengths lengths)
{
  char digits[SW_LENGTH_BUF];
  if (datum->name != NULL)
    g_string_append_printf (text, "%s%s %s %s", text->len > 0 ? ", " : "", datum->name, datum->mm < 0 ? "−" : "+", sw_length_write (fabs (datum->mm), lengths, SW_LENGTH_DIM, 0, digits));
}

static void
add_from_grid (const SwSheetPlan *plan, SwPoint at, const char *name, SwColourRole role)
{
  g_auto (SwSetOut) grid = sw_set_out_from_grid (sw_deck_job (plan->deck), at);
  g_autoptr (GString) text = g_string_new (NULL);
  append_datum (text, &grid.x, plan->pen.lengths);
  append_datum (text, &grid.y, plan->pen.lengths);
  SwTextStyle bold = { .role = role, .height = SW_LETTERS_LEAST_MM, .unit = SW_SIZE_PAPER, .align = SW_ALIGN_MIDDLE, .rise = SW_RISE_MIDDLE, .bold = TRUE }, plain = bold;
  plain.bold = FALSE;
  plain.role = SW_ROLE_INK;
  SwLabel label = { { name, text->len > 0 ? text->str : NULL }, { bold, plain }, at, SW_LABEL_ROUND, sw_box_grow ((SwBox){ at, at }, 2.5 * plan->scale), CAST_RANK, TRUE,
                    SW_LAYER_PIPES };
  sw_labels_add (plan->labels, &label);
}

/* The strip in which the hole's middle may stand, and the way there when it does not. */
static void
draw_allowed (const SwSheetPlan *plan, const SwDeckBay *bay, const SwDropIn *drop_in)
{
  static const SwFill good = { .role = SW_ROLE_GOOD, .hatching = SW_HATCHING_UPRIGHT };
  static const SwStroke edge = { .role = SW_ROLE_GOOD, .width = 0.18 };
  SwPoint uv = sw_deck_to_bay (bay, drop_in->at), corners[4];
  double half = (bay->profile->crown - drop_in->hole) / 2;
  int near = sw_deck_void_near (bay, uv.y);
  if (near < 0 || half <= 0)
    return;
  double v = g_array_index (bay->voids, SwVoid, near).v;
  const SwPoint frame[4] = { { uv.x - BAND_HALF_MM, v - half }, { uv.x + BAND_HALF_MM, v - half }, { uv.x + BAND_HALF_MM, v + half }, { uv.x - BAND_HALF_MM, v + half } };
  for (guint i = 0; i < 4; i++)
    corners[i] = sw_deck_from_bay (bay, frame[i]);
  sw_display_add_polygon (plan->display, corners, 4, &good, &edge);
  if (fabs (uv.y - v) > half + 0.5)
    {
      char digits[SW_LENGTH_BUF];
      SwPoint to = sw_deck_from_bay (bay, (SwPoint){ uv.x, v + (uv.y > v ? half : -half) });
      g_autofree char *text = g_strdup_printf (_("STOP: move %s"), sw_length_write (sw_length_up (sw_point_distance (to, drop_in->at), plan->pen.lengths), plan->pen.lengths, SW_LENGTH_DIM, 0, digits));
      sw_dimension_add_arrow (&plan->pen, drop_in->at, to);
      sw_sheet_plan_add_label (plan, drop_in->at, text, SW_ROLE_STOP, CAST_RANK + 1);
    }
}

static void
draw_hole (const SwSheetPlan *plan, SwPoint at, double diameter, SwColourRole role)
{
  SwStroke stroke = { .role = role, .width = 0.5 };
  double reach = diameter * 0.8;
  sw_display_add_circle (plan->display, at, diameter / 2, NULL, &stroke);
  sw_display_add_line (plan->display, (SwPoint){ at.x - reach, at.y }, (SwPoint){ at.x + reach, at.y }, &stroke);
  sw_display_add_line (plan->display, (SwPoint){ at.x, at.y - reach }, (SwPoint){ at.x, at.y + reach }, &stroke);
  sw_labels_block (plan->labels, sw_box_grow ((SwBox){ at, at }, diameter / 2));
}

static void
mark_drop_ins (const SwSheetPlan *plan)
{
  SwJob *job = sw_deck_job (plan->deck);
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_DROP_IN); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwDropIn *drop_in = (const SwDropIn *) record;
      const SwDeckBay *bay = sw_deck_bay_at (plan->deck, drop_in->at);
      g_autofree char *name = sw_sheet_end_name (job, record->id);
      sw_display_begin_group (plan->display, &(SwDisplayGroup){ { SW_TABLE_DROP_IN, 0, record->id }, "drop-in", "drop-in", name, NULL });
      if (bay != NULL)
        draw_allowed (plan, bay, drop_in);
      draw_hole (plan, drop_in->at, drop_in->hole, SW_ROLE_WASTE);
      sw_display_end (plan->display);
      add_from_grid (plan, drop_in->at, name, SW_ROLE_WASTE);
    }
}

static void
add_drop_in_list (SwSheetMaker *maker)
{
  static const SwSheetListColumn columns[] = {
    { "number", 16 }, { "fixture", 30 }, { "units", 20 }, { "hole_mm", 14 }, { "grid_x", 18 }, { "from_grid_x_mm", 24 }, { "grid_y", 18 }, { "from_grid_y_mm", 22 },
    { "bay", 18 }, { "void", 12 }, { "over", 14 }, { "clear_mm", 24 }, { "move_x_mm", 18 }, { "move_y_mm", 20 }, { "outlet_level_mm", 24 },
  };
  sw_sheet_add_schedule_pages (maker, "drop-ins", columns, G_N_ELEMENTS (columns));
}

/* Before the pour: what has to lie in the formwork. */

static void
draw_cast_run (const SwSheetPlan *plan, const SwRun *run)
{
  g_autoptr (GArray) way = g_array_new (FALSE, FALSE, sizeof (SwPoint));
  for (guint i = 0; i < run->vertices.n; i++)
    g_array_append_val (way, SW_LIST_AT (run->vertices, SwVertex, i).at);
  const SwPoint *points = (const SwPoint *) (gpointer) way->data;
  g_autofree char *name = sw_plan_title (&run->record, plan->pen.lengths);
  sw_display_begin_group (plan->display, &(SwDisplayGroup){ { SW_TABLE_RUN, 0, run->record.id }, "cast-in", "cast-in", name, NULL });
  sw_furniture_add_service_line (&plan->pen, points, way->len, sw_plan_service_line ((SwService) run->service), 0.7);
  sw_display_end (plan->display);
  add_from_grid (plan, points[0], run->record.tag, sw_service_line_role (sw_plan_service_line ((SwService) run->service)));
  add_from_grid (plan, points[way->len - 1], run->record.tag, sw_service_line_role (sw_plan_service_line ((SwService) run->service)));
}

static void
draw_cast_sleeve (const SwSheetPlan *plan, const SwSleeve *sleeve)
{
  SwStroke stroke = { .role = SW_ROLE_SLEEVE, .width = sleeve->diameter, .unit = SW_SIZE_WORLD, .transparency = 0.5 };
  SwPoint middle = sw_point_lerp (sleeve->from, sleeve->to, 0.5);
  g_autofree char *size = sw_sheet_length (plan->maker->context, sleeve->diameter, SW_LENGTH_UNIT);
  g_autofree char *name = g_strdup_printf ("%s, %s", sleeve->record.tag, size);
  sw_display_begin_group (plan->display, &(SwDisplayGroup){ { SW_TABLE_SLEEVE, 0, sleeve->record.id }, "sleeve", "sleeve", name, NULL });
  if (sw_point_distance (sleeve->from, sleeve->to) > 1)
    sw_display_add_line (plan->display, sleeve->from, sleeve->to, &stroke);
  draw_hole (plan, middle, sleeve->diameter, SW_ROLE_SLEEVE);
  sw_display_end (plan->display);
  add_from_grid (plan, middle, name, SW_ROLE_SLEEVE);
}

static void
mark_cast_in (const SwSheetPlan *plan)
{
  SwJob *job = sw_deck_job (plan->deck);
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_RUN); (record = sw_job_iter_next (&i)) != NULL;)
    if (((const SwRun *) record)->stage == SW_STAGE_CAST_IN)
      draw_cast_run (plan, (const SwRun *) record);
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_SLEEVE); (record = sw_job_iter_next (&i)) != NULL;)
    if (((const SwSleeve *) record)->cast_in || ((const SwSleeve *) record)->through != SW_THROUGH_WALL)
      draw_cast_sleeve (plan, (const SwSleeve *) record);
  mark_drop_ins (plan);
}

static void
add_sleeve_list (SwSheetMaker *maker)
{
  static const SwSheetListColumn columns[] = {
    { "number", 16 }, { "through", 22 }, { "run", 16 }, { "hole_mm", 14 }, { "length_mm", 18 }, { "cast_in", 14 }, { "grid_x", 18 }, { "from_grid_x_mm", 22 },
    { "grid_y", 18 }, { "from_grid_y_mm", 20 }, { "bay", 20 }, { "above_soffit_mm", 22 }, { "level_mm", 22 }, { "answer", 24 }, { "reference", 22 },
  };
  sw_sheet_add_schedule_pages (maker, "sleeves", columns, G_N_ELEMENTS (columns));
}

/* Battens as a tape reads them from the wall at which they begin. */

static gboolean
clear_of_lights (const SwSheetPlan *plan, const SwRoom *room, SwPoint along, double low, double high)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_deck_job (plan->deck), SW_TABLE_LIGHT); (record = sw_job_iter_next (&i)) != NULL;)
    {
      double light = sw_point_dot (((const SwLight *) record)->at, along);
      if (light >= low && light <= high && sw_deck_room_at (plan->deck, ((const SwLight *) record)->at) == room)
        return FALSE;
    }
  return TRUE;
}

static gboolean
clear_of_ends (const GArray *ends, SwPoint along, double at, double off)
{
  for (guint i = 0; ends != NULL && i < ends->len; i++)
    if (fabs (sw_point_dot (g_array_index (ends, SwPoint, i), along) - at) < off)
      return FALSE;
  return TRUE;
}

/* Where along the battens the figures stand clear of the room's lights: the first such place from the wall, beside end joints when
 * one is there; within the room, `end` being its far wall. */
static double
line_beside_lights (const SwSheetPlan *plan, const SwRoom *room, SwPoint along, double start, double end, double figures, const GArray *ends)
{
  double unit = plan->scale, beside_lights = start + figures;
  gboolean found = FALSE;
  for (int step = 0; step < 40; step++)
    {
      double at = start + figures + 3 * step * unit;
      if (at > end - unit)
        break;
      if (!clear_of_lights (plan, room, along, at - figures - unit, at + 3 * unit))
        continue;
      if (clear_of_ends (ends, along, at, END_OFF_MM * unit))
        return at;
      beside_lights = found ? beside_lights : at;
      found = TRUE;
    }
  return beside_lights;
}

/* Where the room begins and ends along a direction, and its corner that lies lowest across it. */
static double
datum_of (const SwRoom *room, SwPoint along, SwPoint *datum, double *end)
{
  SwPoint across = { -along.y, along.x };
  double start = INFINITY, low = INFINITY;
  *end = -INFINITY;
  for (guint i = 0; i < room->outline.n; i++)
    {
      SwPoint corner = SW_LIST_AT (room->outline, SwPoint, i);
      start = fmin (start, sw_point_dot (corner, along));
      *end = fmax (*end, sw_point_dot (corner, along));
      if (sw_point_dot (corner, across) < low)
        {
          low = sw_point_dot (corner, across);
          *datum = corner;
        }
    }
  return start;
}

/* Room for the longest of the running figures: in feet and inches they are half as long again. */
static double
figures_wide (const SwSheetPlan *plan, SwPoint across, SwPoint datum, const GArray *points)
{
  double wide = 0;
  for (guint i = 0; i < points->len; i++)
    {
      g_autofree char *text = sw_sheet_length (plan->maker->context, fabs (sw_point_dot (sw_point_sub (g_array_index (points, SwPoint, i), datum), across)), SW_LENGTH_DIM);
      wide = fmax (wide, sw_pen_text_width (&plan->pen, text, 0) + 3 * plan->scale);
    }
  return wide;
}

/* Keeps other letters off the line of dimensions, in short pieces since it may slant, and off each figure. */
static void
block_line (const SwSheetPlan *plan, SwPoint along, SwPoint datum, const GArray *points, double figures)
{
  SwPoint across = { -along.y, along.x }, first = g_array_index (points, SwPoint, 0), last = first;
  double off = LINE_OFF_MM * plan->scale;
  first = sw_point_add (first, sw_point_scale (across, sw_point_dot (sw_point_sub (datum, first), across)));
  for (guint i = 0; i < points->len; i++)
    {
      SwPoint p = g_array_index (points, SwPoint, i);
      sw_labels_block (plan->labels, sw_box_grow (sw_box_add ((SwBox){ p, p }, sw_point_sub (p, sw_point_scale (along, figures))), off));
      last = sw_point_distance (first, p) > sw_point_distance (first, last) ? p : last;
    }
  guint n = (guint) ceil (sw_point_distance (first, last) / (2 * off)) + 1;
  for (guint i = 0; i < n; i++)
    {
      SwPoint a = sw_point_lerp (first, last, (double) i / n), b = sw_point_lerp (first, last, (double) (i + 1) / n);
      sw_labels_block (plan->labels, sw_box_grow (sw_box_add ((SwBox){ a, a }, b), off));
    }
}

/* Running dimensions across parallel lines, each given by one point (moved to where the figures stand), from a room's wall; at least
 * `off` mm of paper from the wall at which the lines begin, and not where end joints (their middles; may be NULL) stand, when that can be. */
static void
add_line_dimensions (const SwSheetPlan *plan, const SwRoom *room, SwPoint along, GArray *points, double off, const GArray *ends)
{
  SwPoint across = { -along.y, along.x }, datum = { 0, 0 };
  if (points->len == 0)
    return;
  double end, start = datum_of (room, along, &datum, &end), figures = figures_wide (plan, across, datum, points);
  double at = line_beside_lights (plan, room, along, start + off * plan->scale, end, figures, ends);
  for (guint i = 0; i < points->len; i++)
    {
      SwPoint *p = &g_array_index (points, SwPoint, i);
      *p = sw_point_add (*p, sw_point_scale (along, at - sw_point_dot (*p, along)));
    }
  /* A hair aside, so that the figures surely stand at the side that was looked at. */
  SwDimensionLine line = { sw_point_sub (g_array_index (points, SwPoint, 0), sw_point_scale (along, HAIR_MM)), atan2 (across.y, across.x) };
  block_line (plan, along, datum, points, figures);
  sw_dimension_add_running (&plan->pen, line, datum, (const SwPoint *) (gpointer) points->data, points->len);
}

/* Adds where a line stands; the first that has a length gives the direction of all. */
static void
add_line (GArray *points, SwPoint *along, SwPoint from, SwPoint to)
{
  double length = sw_point_distance (from, to);
  if (length <= 0)
    return;
  if (points->len == 0)
    *along = sw_point_scale (sw_point_sub (to, from), 1 / length);
  g_array_append_val (points, from);
}

/* How far the room reaches from a place inside it against a direction (unit); NAN for a place outside. */
static double
back_to_wall (const SwRoom *room, SwPoint at, SwPoint direction)
{
  g_autoptr (GArray) inside = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  sw_outline_cut (room->outline.items, room->outline.n, at, direction, inside);
  for (guint i = 0; i < inside->len; i++)
    {
      SwInterval part = g_array_index (inside, SwInterval, i);
      if (part.low < 0 && part.high > -SW_TOUCH_MM)
        return -part.low;
    }
  return NAN;
}

/* The wall at which battens begin: packers along them, and what crosses them, are counted from there. It stands beside the first batten
 * that begins at the room's wall. */
static void
add_batten_arrow (const SwSheetPlan *plan, const SwLayout *layout, const SwRoom *room)
{
  SwPoint along = sw_ceiling_batten_way (layout), datum = { 0, 0 };
  double end, start = datum_of (room, along, &datum, &end);
  for (guint i = 0; i < layout->members.n; i++)
    {
      const SwMember *member = &SW_LIST_AT (layout->members, SwMember, i);
      SwPoint beside = sw_point_add (member->from, sw_point_scale ((SwPoint){ -along.y, along.x }, 2 * member->width));
      double from_wall = member->kind == SW_MEMBER_BATTEN ? back_to_wall (room, sw_point_add (beside, along), along) : NAN;
      if (!isfinite (from_wall) || fabs (sw_point_dot (beside, along) + 1 - from_wall - start) > 1)
        continue;
      SwPoint wall = sw_point_sub (sw_point_add (beside, along), sw_point_scale (along, from_wall)), tip = sw_point_add (wall, sw_point_scale (along, END_ARROW_MM * plan->scale));
      sw_dimension_add_arrow (&plan->pen, wall, tip);
      sw_labels_block (plan->labels, sw_box_grow (sw_box_add ((SwBox){ tip, tip }, wall), plan->scale));
      return;
    }
}

static void
add_batten_dimensions (const SwSheetPlan *plan, const SwLayout *layout, const SwRoom *room)
{
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (SwPoint));
  SwPoint along = { 0, 0 };
  add_batten_arrow (plan, layout, room);
  for (guint i = 0; i < layout->members.n; i++)
    if (SW_LIST_AT (layout->members, SwMember, i).kind == SW_MEMBER_BATTEN)
      add_line (points, &along, SW_LIST_AT (layout->members, SwMember, i).from, SW_LIST_AT (layout->members, SwMember, i).to);
  add_line_dimensions (plan, room, along, points, END_ARROW_MM, NULL);
}

static void
add_row_dimensions (const SwSheetPlan *plan, const SwLayout *layout, const SwRoom *room)
{
  g_autoptr (GArray) points = g_array_new (FALSE, FALSE, sizeof (SwPoint)), ends = g_array_new (FALSE, FALSE, sizeof (SwPoint));
  SwPoint along = { 0, 0 };
  for (guint i = 0; i < layout->joints.n; i++)
    {
      const SwJoint *joint = &SW_LIST_AT (layout->joints, SwJoint, i);
      SwPoint middle = sw_point_lerp (joint->from, joint->to, 0.5);
      if (joint->kind == SW_JOINT_LONG)
        add_line (points, &along, joint->from, joint->to);
      else if (joint->kind == SW_JOINT_END)
        g_array_append_val (ends, middle);
    }
  add_line_dimensions (plan, room, along, points, 0, ends);
}

/* The figure along its joint, on whichever side and wherever between the row's edges there is room. */
static void
add_end_figure (const SwSheetPlan *plan, const SwJoint *joint, double from_wall)
{
  SwPoint middle = sw_point_lerp (joint->from, joint->to, 0.5), half = sw_point_sub (joint->to, middle);
  double turn = sw_plan_text_turn (half), length = sw_point_length (half), aside = SW_LETTERS_LEAST_MM * 0.8 * plan->scale;
  g_autofree char *text = sw_sheet_length (plan->maker->context, from_wall, SW_LENGTH_DIM);
  double width = sw_pen_text_width (&plan->pen, text, 0);
  SwPoint slide = sw_point_scale (half, fmax (0, 1 - width / 2 / length));
  int rank = 2 * length < SHORT_END * width ? SHORT_END_RANK : END_RANK;
  SwTextStyle style = { .role = SW_ROLE_DIMENSION, .height = SW_LETTERS_LEAST_MM, .unit = SW_SIZE_PAPER, .align = SW_ALIGN_MIDDLE, .rise = SW_RISE_MIDDLE, .turn = turn };
  SwPoint at = sw_point_add (middle, (SwPoint){ -sin (turn) * aside, cos (turn) * aside });
  SwBox around = sw_box_add (sw_box_add (SW_BOX_EMPTY, sw_point_sub (middle, slide)), sw_point_add (middle, slide));
  sw_labels_add (plan->labels, &(SwLabel){ { text, NULL }, { style }, at, SW_LABEL_ALONG, around, rank, TRUE, SW_LAYER_GRID });
}

/* Where a row's tape is hooked: an arrow from the wall along the row, once for all joints that are measured from there. */
static void
add_row_arrow (const SwSheetPlan *plan, GArray *walls, SwPoint wall, SwPoint along)
{
  SwPoint tip = sw_point_add (wall, sw_point_scale (along, END_ARROW_MM * plan->scale));
  for (guint i = 0; i < walls->len; i++)
    if (sw_point_distance (g_array_index (walls, SwPoint, i), wall) < plan->scale)
      return;
  g_array_append_val (walls, wall);
  sw_dimension_add_arrow (&plan->pen, wall, tip);
  /* A name that stands on the wall may stay there. */
  sw_labels_block (plan->labels, sw_box_add ((SwBox){ tip, tip }, sw_point_lerp (wall, tip, 0.5)));
}

/* End joints as a tape along the middle of each reads them: from the wall that battens across the row are read from, so that both stand
 * on one tape; else from the row's left or lower end. */
static void
add_end_dimensions (const SwSheetPlan *plan, const SwLayout *layout, const SwRoom *room)
{
  SwPoint battens = sw_ceiling_batten_way (layout), read = { -battens.y, battens.x };
  g_autoptr (GArray) walls = g_array_new (FALSE, FALSE, sizeof (SwPoint));
  for (guint i = 0; i < layout->joints.n; i++)
    {
      const SwJoint *joint = &SW_LIST_AT (layout->joints, SwJoint, i);
      double length = sw_point_distance (joint->from, joint->to);
      if (joint->kind != SW_JOINT_END || length <= SW_TOUCH_MM)
        continue;
      SwPoint middle = sw_point_lerp (joint->from, joint->to, 0.5), along = { (joint->from.y - joint->to.y) / length, (joint->to.x - joint->from.x) / length };
      double same = sw_point_dot (along, read);
      if (fabs (same) > 0.5 ? same < 0 : along.x < -UPRIGHT || (along.x <= UPRIGHT && along.y < 0))
        along = sw_point_scale (along, -1);
      double from_wall = back_to_wall (room, middle, along);
      if (!isfinite (from_wall))
        continue;
      add_row_arrow (plan, walls, sw_point_sub (middle, sw_point_scale (along, from_wall)), along);
      add_end_figure (plan, joint, from_wall);
    }
}

void
sw_sheet_plan_mark_rows (const SwSheetPlan *plan)
{
  SwJob *job = sw_deck_job (plan->deck);
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_LAYOUT); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwLayout *layout = (const SwLayout *) record;
      const SwRoom *room = (const SwRoom *) sw_job_get (job, layout->room);
      add_row_dimensions (plan, layout, room);
      add_end_dimensions (plan, layout, room);
    }
}

static void
add_batten_lists (SwSheetMaker *maker)
{
  static const SwSheetListColumn columns[] = {
    { "room", 18 }, { "name", 26 }, { "battens", 24 }, { "material", 18 }, { "batten_width_mm", 16 }, { "batten_depth_mm", 18 }, { "n", 16 }, { "centres_mm", 16 }, { "off_wall_mm", 20 },
    { "primary_depth_mm", 18, TRUE }, { "primary_centres_mm", 18, TRUE }, { "underside_mm", 24 }, { "fixings", 18 }, { "packed", 16 }, { "thinnest_mm", 18 },
    { "thickest_mm", 14 }, { "long", 18 }, { "hangers", 18 },
  };
  static const SwSheetListColumn packers[] = { { "room", 36 }, { "batten", 18 }, { "from_wall_mm", 28 }, { "packers", 190 }, { "thickest_mm", 22 } };
  static const SwSheetListColumn timber[] = { { "room", 36 }, { "what", 60 }, { "n", 18 }, { "ringed_from_mm", 46 }, { "ringed_to_mm", 36 },
                                              { "arrow_from_mm", 46 }, { "arrow_to_mm", 36 } };
  sw_sheet_add_schedule_pages (maker, "brandering", columns, G_N_ELEMENTS (columns));
  sw_sheet_add_schedule_pages (maker, "timber-set-out", timber, G_N_ELEMENTS (timber));
  sw_sheet_add_schedule_pages (maker, "packers", packers, G_N_ELEMENTS (packers));
}

static void
mark_battens (const SwSheetPlan *plan)
{
  SwJob *job = sw_deck_job (plan->deck);
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_LAYOUT); (record = sw_job_iter_next (&i)) != NULL;)
    add_batten_dimensions (plan, (const SwLayout *) record, (const SwRoom *) sw_job_get (job, ((const SwLayout *) record)->room));
}

#define ROOMS SW_LAYER_BIT (SW_LAYER_ROOMS)
#define DECK SW_LAYER_BIT (SW_LAYER_DECK)
#define LIGHTS (SW_LAYER_BIT (SW_LAYER_LIGHTS) | SW_LAYER_BIT (SW_LAYER_HATCHES))

const SwSheetPlanKind sw_sheet_plan_lights = {
  .layers = ROOMS | DECK | LIGHTS,
  .working = TRUE,
  .mark = mark_lights,
  .notes = { N_("Running dimensions from the walls of each room to the middle of each light.") },
  .add_lists = add_light_list,
};
const SwSheetPlanKind sw_sheet_plan_drop_ins = {
  .layers = ROOMS | DECK | SW_PLAN_BARE,
  .working = TRUE,
  .down = TRUE,
  .mark = mark_drop_ins,
  .notes = { N_("Holes from grid lines: + to the right or up the plan, − to the left or down."),
             N_("Hatched strip: the hole's middle may stand there and misses both ribs.") },
  .add_lists = add_drop_in_list,
};
const SwSheetPlanKind sw_sheet_plan_cast_in = {
  .layers = ROOMS | DECK | SW_PLAN_BARE,
  .working = TRUE,
  .down = TRUE,
  .mark = mark_cast_in,
  .notes = { N_("Everything on this sheet lies fixed in the formwork before the pour."), N_("Holes in ribs and solid zones only as the engineer answered.") },
  .add_lists = add_sleeve_list,
};
const SwSheetPlanKind sw_sheet_plan_battens = {
  .layers = ROOMS | LIGHTS | SW_LAYER_BIT (SW_LAYER_BATTENS),
  .working = TRUE,
  .mark = mark_battens,
  .notes = { N_("Running dimensions from the ringed wall to the middle of each batten; the arrow stands at the second wall that tapes begin at."),
             N_("A fixing at every rib crossing; the lists give battens, level and packers of each room, and its noggins, trimmers and hatches from both walls.") },
  .add_lists = add_batten_lists,
};
