/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Runs in their service's colour and pattern, with true diameter once that is wide enough to see; what stands at their
 * ends and on them. */
#include "sheets/plan_parts.h"
#include "sheets/words.h"
#include "base/number.h"

#define BODY_PX 2.5 /* px that a tube must be wide before it is drawn as a body */

static const SwStroke fitting_stroke = { .role = SW_ROLE_FITTING, .width = 0.25, .unit = SW_SIZE_PAPER };

/* Where the label stands: the middle of the longest leg. */
static guint
longest_leg (const SwRun *run)
{
  guint best = 0;
  double longest = -1;
  for (guint i = 0; i + 1 < run->vertices.n; i++)
    {
      double length = sw_point_distance (SW_LIST_AT (run->vertices, SwVertex, i).at, SW_LIST_AT (run->vertices, SwVertex, i + 1).at);
      if (length > longest + 1e-6)
        {
          longest = length;
          best = i;
        }
    }
  return best;
}

static char *
run_label (const SwRun *run, SwLengths lengths)
{
  char od[SW_LENGTH_BUF], fall[SW_NUMBER_BUF];
  g_autoptr (GString) text = g_string_new (run->record.tag);
  g_string_append_printf (text, " %s %s", sw_service_line_code (sw_plan_service_line (run->service)),
                          sw_length_write (run->od, lengths, SW_LENGTH_BARE, run->od == floor (run->od) ? 0 : 1, od));
  if (run->fall > 0)
    g_string_append_printf (text, " 1:%s", sw_number_write_fixed (run->fall, 0, fall));
  return g_strdup (text->str);
}

/* An open arrow along the fall. */
static void
draw_fall (SwDisplay *display, SwPoint a, SwPoint b, double size, const SwStroke *stroke)
{
  SwPoint way = sw_point_sub (b, a);
  double length = sw_point_length (way);
  if (length < 6 * size)
    return;
  SwPoint along = sw_point_scale (way, size / length), across = { -along.y * 0.6, along.x * 0.6 };
  SwPoint tip = sw_point_add (sw_point_lerp (a, b, 0.72), along);
  SwPoint wings[3] = { sw_point_add (sw_point_sub (tip, along), across), tip, sw_point_sub (sw_point_sub (tip, along), across) };
  sw_display_add_polyline (display, wings, 3, stroke);
}

static void
draw_leg (SwDisplay *display, const SwRun *run, guint i, SwColourRole role, SwDash dash)
{
  const SwVertex *a = &SW_LIST_AT (run->vertices, SwVertex, i), *b = a + 1;
  gboolean hidden = a->level == SW_LEVEL_TOPPING || b->level == SW_LEVEL_TOPPING;
  gboolean below = a->level == SW_LEVEL_BELOW && b->level == SW_LEVEL_BELOW;
  double outer = run->od + 2 * run->insulation;
  SwStroke body = { .role = role, .width = run->od, .unit = SW_SIZE_WORLD, .round = TRUE, .transparency = hidden ? 0.75 : 0.5 };
  SwStroke lagging = { .role = role, .width = outer, .unit = SW_SIZE_WORLD, .round = TRUE, .transparency = 0.8 };
  SwStroke line = { .role = role, .width = below ? 0.7 : 0.5, .unit = SW_SIZE_PAPER, .dash = dash };
  SwStroke thin = { .role = role, .width = 0.25, .unit = SW_SIZE_PAPER };
  sw_display_set_detail (display, BODY_PX / run->od, INFINITY);
  if (outer > run->od)
    sw_display_add_line (display, a->at, b->at, &lagging);
  sw_display_add_line (display, a->at, b->at, &body);
  sw_display_set_detail (display, 0, INFINITY);
  sw_display_add_line (display, a->at, b->at, &line);
  if (run->fall > 0)
    {
      sw_display_set_detail (display, 0.04, INFINITY);
      draw_fall (display, a->at, b->at, MAX (run->od, 60), &thin);
    }
}

/* Ends of the part that runs below the ribs, where the tube dips out of the void. */
static void
draw_dip (SwDisplay *display, const SwRun *run, guint i, SwColourRole role)
{
  const SwVertex *v = &SW_LIST_AT (run->vertices, SwVertex, i);
  SwStroke ring = { .role = role, .width = 0.35, .unit = SW_SIZE_PAPER };
  if (v->level != SW_LEVEL_BELOW)
    return;
  sw_display_set_detail (display, BODY_PX / run->od, INFINITY);
  sw_display_add_circle (display, v->at, run->od * 0.8, NULL, &ring);
}

static void
draw_run (SwDisplay *display, const SwRun *run, SwLengths lengths)
{
  SwServiceLine line = sw_plan_service_line (run->service);
  SwColourRole role = sw_service_line_role (line);
  guint best = longest_leg (run);
  SwPoint a = SW_LIST_AT (run->vertices, SwVertex, best).at, b = SW_LIST_AT (run->vertices, SwVertex, best + 1).at;
  g_autofree char *text = run_label (run, lengths);
  sw_plan_begin_run (display, run, lengths, sw_role_name (role));
  for (guint i = 0; i + 1 < run->vertices.n; i++)
    draw_leg (display, run, i, role, sw_service_line_dash (line));
  for (guint i = 0; i < run->vertices.n; i++)
    draw_dip (display, run, i, role);
  double length = sw_point_distance (a, b);
  sw_display_set_detail (display, MAX (0.025, 60 / MAX (length, 1)), INFINITY);
  sw_plan_label (display, sw_point_lerp (a, b, 0.5), text, role, SW_LETTERS_MM, sw_plan_text_turn (sw_point_sub (b, a)));
  sw_display_end (display);
}

static void
draw_fitting (SwDisplay *display, const SwFitting *fitting)
{
  static const char *const letters[] = {
    [SW_FITTING_BOX] = "", [SW_FITTING_BOARD] = "DB", [SW_FITTING_STACK] = "S", [SW_FITTING_GULLY] = "G", [SW_FITTING_EXIT] = "X",
    [SW_FITTING_TEE] = "", [SW_FITTING_BEND] = "", [SW_FITTING_SOCKET] = "", [SW_FITTING_EYE] = "CE", [SW_FITTING_VALVE] = "V",
    [SW_FITTING_HANGER] = "", [SW_FITTING_DRIVER] = "DR", [SW_FITTING_OTHER] = "",
  };
  static const SwFill fill = { .role = SW_ROLE_PAPER, .transparency = 0.2 };
  SwPoint corners[4];
  g_autofree char *text = g_strdup_printf ("%s %s", fitting->record.tag, letters[fitting->kind]);
  sw_plan_begin (display, &fitting->record, 0, "fitting");
  sw_display_set_detail (display, 3 / MAX (fitting->length, 1), INFINITY);
  if (fitting->width == 0)
    sw_display_add_circle (display, fitting->at, fitting->length / 2, &fill, &fitting_stroke);
  else
    {
      sw_plan_box_points (fitting->at, fitting->length, fitting->width, fitting->turn, corners);
      sw_display_add_polygon (display, corners, 4, &fill, &fitting_stroke);
      if (fitting->kind == SW_FITTING_BOX || fitting->kind == SW_FITTING_BOARD)
        sw_display_add_line (display, corners[0], corners[2], &fitting_stroke);
    }
  sw_display_set_detail (display, 0.07, INFINITY);
  sw_plan_label (display, (SwPoint){ fitting->at.x, fitting->at.y - MAX (fitting->length, fitting->width) / 2 - 70 }, g_strstrip (text),
                 SW_ROLE_FITTING, 2.2, 0);
  sw_display_end (display);
}

static void
draw_drop_in (SwDisplay *display, const SwDropIn *drop_in)
{
  static const SwStroke stroke = { .role = SW_ROLE_WASTE, .width = 0.35, .unit = SW_SIZE_PAPER };
  static const SwFill fill = { .role = SW_ROLE_PAPER, .transparency = 0.3 };
  double reach = drop_in->hole * 0.8;
  SwPoint at = drop_in->at;
  g_autofree char *text = g_strdup_printf ("%s %s", drop_in->record.tag, drop_in->fixture);
  sw_plan_begin (display, &drop_in->record, 0, "drop-in");
  sw_display_set_detail (display, 0, INFINITY);
  sw_display_add_circle (display, at, drop_in->hole / 2, &fill, &stroke);
  sw_display_add_line (display, (SwPoint){ at.x - reach, at.y }, (SwPoint){ at.x + reach, at.y }, &stroke);
  sw_display_add_line (display, (SwPoint){ at.x, at.y - reach }, (SwPoint){ at.x, at.y + reach }, &stroke);
  sw_display_set_detail (display, 0.04, INFINITY);
  sw_plan_label (display, (SwPoint){ at.x, at.y + reach + 60 }, text, SW_ROLE_WASTE, 2.2, 0);
  sw_display_end (display);
}

static void
draw_sleeve (SwDisplay *display, const SwSleeve *sleeve)
{
  static const SwStroke stroke = { .role = SW_ROLE_SLEEVE, .width = 0.35, .unit = SW_SIZE_PAPER };
  static const SwStroke asked = { .role = SW_ROLE_SLEEVE, .width = 0.35, .unit = SW_SIZE_PAPER, .dash = SW_DASH_HIDDEN };
  SwPoint way = sw_point_sub (sleeve->to, sleeve->from), corners[4], middle = sw_point_lerp (sleeve->from, sleeve->to, 0.5);
  gboolean sure = sleeve->cast_in || sleeve->answer == SW_ANSWER_ALLOWED;
  sw_plan_begin (display, &sleeve->record, 0, "sleeve");
  sw_display_set_detail (display, 0, INFINITY);
  if (sw_point_length (way) < 1)
    sw_display_add_circle (display, sleeve->from, sleeve->diameter / 2, NULL, sure ? &stroke : &asked);
  else
    {
      sw_plan_box_points (middle, sw_point_length (way), sleeve->diameter, atan2 (way.y, way.x) * 180 / G_PI, corners);
      sw_display_add_line (display, corners[0], corners[1], sure ? &stroke : &asked);
      sw_display_add_line (display, corners[2], corners[3], sure ? &stroke : &asked);
    }
  sw_display_set_detail (display, 0.07, INFINITY);
  sw_plan_label (display, (SwPoint){ middle.x, middle.y + sleeve->diameter / 2 + 60 }, sleeve->record.tag, SW_ROLE_SLEEVE, 2.2, 0);
  sw_display_end (display);
}

/* A half circle on the wall's face. */
static void
draw_drop (SwDisplay *display, const SwJob *job, const SwDrop *drop)
{
  static const SwStroke stroke = { .role = SW_ROLE_POWER, .width = 0.35, .unit = SW_SIZE_PAPER };
  static const SwFill fill = { .role = SW_ROLE_PAPER };
  static const char *const letters[] = { "S", "O", "B", "T", "" };
  const SwWall *wall = (const SwWall *) sw_job_get (job, drop->wall);
  if (wall == NULL || sw_point_distance (wall->from, wall->to) <= 0)
    return;
  SwPoint way = sw_point_scale (sw_point_sub (wall->to, wall->from), 1 / sw_point_distance (wall->from, wall->to));
  SwPoint at = sw_point_add (wall->from, sw_point_scale (way, drop->along)), side = { -way.y, way.x };
  SwPoint face = sw_point_add (at, sw_point_scale (side, wall->thickness / 2));
  g_autofree char *text = g_strdup_printf ("%s%s", letters[drop->kind], drop->record.tag);
  sw_plan_begin (display, &drop->record, 0, "drop");
  sw_display_set_detail (display, 0.01, INFINITY);
  sw_display_arc (display, face, 80, atan2 (way.y, way.x), G_PI);
  sw_display_close (display);
  sw_display_paint (display, &fill, &stroke);
  sw_display_set_detail (display, 0.06, INFINITY);
  sw_plan_label (display, sw_point_add (face, sw_point_scale (side, 170)), text, SW_ROLE_POWER, 2.0, 0);
  sw_display_end (display);
}

static void
draw_layer (SwDisplay *display, const SwDeck *deck, SwLayer layer)
{
  static const SwTable tables[] = { SW_TABLE_SLEEVE, SW_TABLE_RUN, SW_TABLE_FITTING, SW_TABLE_DROP_IN, SW_TABLE_DROP };
  SwJob *job = sw_deck_job (deck);
  const SwRecord *record;
  for (gsize t = 0; t < G_N_ELEMENTS (tables); t++)
    for (SwJobIter i = sw_job_iter (job, tables[t]); (record = sw_job_iter_next (&i)) != NULL;)
      {
        if (sw_plan_layer_of (job, record) != layer)
          continue;
        if (tables[t] == SW_TABLE_SLEEVE)
          draw_sleeve (display, (const SwSleeve *) record);
        else if (tables[t] == SW_TABLE_RUN)
          draw_run (display, (const SwRun *) record, sw_job_lengths (job));
        else if (tables[t] == SW_TABLE_FITTING)
          draw_fitting (display, (const SwFitting *) record);
        else if (tables[t] == SW_TABLE_DROP_IN)
          draw_drop_in (display, (const SwDropIn *) record);
        else
          draw_drop (display, job, (const SwDrop *) record);
      }
}

void
sw_plan_draw_pipes (SwDisplay *display, const SwDeck *deck)
{
  draw_layer (display, deck, SW_LAYER_PIPES);
}

void
sw_plan_draw_conduits (SwDisplay *display, const SwDeck *deck)
{
  draw_layer (display, deck, SW_LAYER_CONDUITS);
}
