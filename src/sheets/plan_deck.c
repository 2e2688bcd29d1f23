/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bays with their ribs, voids, plates and closures; solid zones, openings and downstand beams. */
#include "sheets/plan_parts.h"
#include "sheets/words.h"
#include "base/number.h"
#include "geometry/outline.h"

/* px that a void must be wide before it is drawn apart, shows its crown, and its number. */
#define VOID_PX 2.5
#define CROWN_PX 60
#define NUMBER_PX 13
#define PLATE_NUMBER_PX 40

static const SwFill concrete_fill = { .role = SW_ROLE_CONCRETE };
static const SwFill void_fill = { .role = SW_ROLE_VOID };
static const SwStroke edge_stroke = { .role = SW_ROLE_CONCRETE_EDGE, .width = 0.35, .unit = SW_SIZE_PAPER };
static const SwStroke steel_stroke = { .role = SW_ROLE_STEEL, .width = 0.13, .unit = SW_SIZE_PAPER };
static const SwStroke crown_stroke = { .role = SW_ROLE_STEEL, .width = 0.13, .unit = SW_SIZE_PAPER, .dash = SW_DASH_HIDDEN };
static const SwStroke closure_stroke = { .role = SW_ROLE_CLOSURE, .width = 0.35, .unit = SW_SIZE_PAPER };
static const SwStroke plate_stroke = { .role = SW_ROLE_PLATE, .width = 0.35, .unit = SW_SIZE_PAPER };
static const SwStroke released_stroke = { .role = SW_ROLE_PLATE, .width = 0.25, .unit = SW_SIZE_PAPER, .dash = SW_DASH_HIDDEN };
static const SwStroke ring_stroke = { .role = SW_ROLE_PLATE, .width = 0.18, .unit = SW_SIZE_PAPER };
static const SwStroke out_stroke = { .role = SW_ROLE_PLATE, .width = 0.18, .unit = SW_SIZE_PAPER, .dash = SW_DASH_DOTTED };

static void
draw_uv_line (SwDisplay *display, const SwDeckBay *bay, SwPoint a, SwPoint b, const SwStroke *stroke)
{
  sw_display_add_line (display, sw_deck_from_bay (bay, a), sw_deck_from_bay (bay, b), stroke);
}

static void
draw_reach (SwDisplay *display, const SwDeckBay *bay, const SwVoid *hollow, const SwReach *reach)
{
  SwPoint corners[4] = { { reach->low, hollow->low }, { reach->high, hollow->low },
                         { reach->high, hollow->high }, { reach->low, hollow->high } };
  double pitch = bay->profile->pitch, side = (bay->profile->mouth - bay->profile->crown) / 2;
  for (int i = 0; i < 4; i++)
    corners[i] = sw_deck_from_bay (bay, corners[i]);
  sw_display_set_detail (display, VOID_PX / pitch, INFINITY);
  sw_display_add_polygon (display, corners, 4, &void_fill, &steel_stroke);
  sw_display_add_line (display, corners[0], corners[3], &closure_stroke);
  sw_display_add_line (display, corners[1], corners[2], &closure_stroke);
  sw_display_set_detail (display, CROWN_PX / pitch, INFINITY);
  draw_uv_line (display, bay, (SwPoint){ reach->low, hollow->low + side }, (SwPoint){ reach->high, hollow->low + side }, &crown_stroke);
  draw_uv_line (display, bay, (SwPoint){ reach->low, hollow->high - side }, (SwPoint){ reach->high, hollow->high - side }, &crown_stroke);
}

/* Numbers stand at both ends of a long void, so that one is near whatever is looked at. */
static void
draw_void_number (SwDisplay *display, const SwDeckBay *bay, const SwVoid *hollow, const SwReach *reach)
{
  double step = bay->profile->pitch * 0.6, turn = sw_plan_text_turn ((SwPoint){ bay->cosine, bay->sine });
  g_autofree char *text = g_strdup_printf (hollow->measured ? "%d *" : "%d", hollow->number);
  sw_display_set_detail (display, NUMBER_PX / bay->profile->pitch, INFINITY);
  sw_plan_label (display, sw_deck_from_bay (bay, (SwPoint){ reach->low + step, hollow->v }), text, SW_ROLE_DIMENSION, SW_LETTERS_MM, turn);
  if (reach->high - reach->low > 8 * step)
    sw_plan_label (display, sw_deck_from_bay (bay, (SwPoint){ reach->high - step, hollow->v }), text, SW_ROLE_DIMENSION, SW_LETTERS_MM, turn);
}

static void
draw_plate (SwDisplay *display, const SwDeckBay *bay, guint index, const SwDeckPlate *plate)
{
  const SwVoid *hollow = &g_array_index (bay->voids, SwVoid, plate->void_index);
  const SwStroke *stroke = plate->out ? &out_stroke : plate->released ? &released_stroke : &plate_stroke;
  SwPoint low = sw_deck_from_bay (bay, (SwPoint){ plate->u, hollow->low });
  SwPoint high = sw_deck_from_bay (bay, (SwPoint){ plate->u, hollow->high });
  g_autofree char *title = g_strdup_printf (_("plate %d in void %d"), plate->number, hollow->number);
  g_autofree char *number = g_strdup_printf ("%d", plate->number);
  SwDisplayKey key = { SW_TABLE_BAY, (int) index + 1, bay->bay->record.id };
  if (plate->record != NULL)
    key = (SwDisplayKey){ SW_TABLE_PLATE, 0, plate->record->record.id };
  sw_display_begin_group (display, &(SwDisplayGroup){ key, NULL, "plate", title, NULL });
  sw_display_set_detail (display, NUMBER_PX / bay->profile->pitch, INFINITY);
  sw_display_add_line (display, low, high, stroke);
  if (plate->out)
    sw_display_add_circle (display, sw_point_lerp (low, high, 0.5), hollow->high - hollow->low < 1 ? 1 : 30, NULL, &ring_stroke);
  sw_display_set_detail (display, PLATE_NUMBER_PX / bay->profile->pitch, INFINITY);
  sw_plan_label (display, sw_point_lerp (low, high, 0.82), number, SW_ROLE_FAINT_INK, 2.0, sw_plan_text_turn ((SwPoint){ bay->cosine, bay->sine }));
  sw_display_end (display);
}

static void
draw_bay_label (SwDisplay *display, const SwDeckBay *bay, SwLengths lengths)
{
  const SwBay *record = bay->bay;
  const SwPoint *points = record->outline.items;
  SwBox box = sw_outline_box (points, record->outline.n);
  char pitch[SW_LENGTH_BUF], depth[SW_LENGTH_BUF];
  g_autofree char *text = g_strdup_printf ("%s  %s × %s", *record->name ? record->name : record->record.tag,
                                           sw_length_write (bay->profile->pitch, lengths, SW_LENGTH_BARE, 0, pitch),
                                           sw_length_write (bay->profile->depth, lengths, SW_LENGTH_BARE, 0, depth));
  SwTextStyle style = { .role = SW_ROLE_FAINT_INK, .height = SW_LETTERS_MM, .unit = SW_SIZE_PAPER, .rise = SW_RISE_TOP, .halo = TRUE };
  sw_display_set_detail (display, 0, INFINITY);
  sw_display_add_text (display, (SwPoint){ box.low.x, box.low.y - 150 }, text, &style);
}

static void
draw_bay (SwDisplay *display, const SwDeckBay *bay, SwLengths lengths)
{
  const SwList *outline = &bay->bay->outline;
  sw_display_set_detail (display, 0, INFINITY);
  sw_display_add_polygon (display, outline->items, outline->n, &concrete_fill, NULL);
  sw_plan_begin (display, &bay->bay->record, 0, "bay");
  sw_display_add_polygon (display, outline->items, outline->n, NULL, &edge_stroke);
  draw_bay_label (display, bay, lengths);
  sw_display_end (display);
  sw_display_begin_clip (display, outline->items, outline->n);
  for (guint i = 0; i < bay->voids->len; i++)
    {
      const SwVoid *hollow = &g_array_index (bay->voids, SwVoid, i);
      for (guint j = 0; j < hollow->n_reaches; j++)
        {
          const SwReach *reach = &g_array_index (bay->reaches, SwReach, hollow->first_reach + j);
          draw_reach (display, bay, hollow, reach);
          draw_void_number (display, bay, hollow, reach);
        }
    }
  for (guint i = 0; i < bay->plates->len; i++)
    draw_plate (display, bay, i, &g_array_index (bay->plates, SwDeckPlate, i));
  sw_display_end (display);
}

void
sw_plan_draw_bays (SwDisplay *display, const SwDeck *deck)
{
  for (guint i = 0; i < sw_deck_n_bays (deck); i++)
    draw_bay (display, sw_deck_bay (deck, i), sw_job_lengths (sw_deck_job (deck)));
}

static void
draw_zone (SwDisplay *display, const SwSolidZone *zone)
{
  static const SwFill ground = { .role = SW_ROLE_SOLID_ZONE };
  static const SwFill lines = { .role = SW_ROLE_CONCRETE_EDGE, .hatching = SW_HATCHING_LINES, .transparency = 0.5 };
  sw_display_add_polygon (display, zone->outline.items, zone->outline.n, &ground, NULL);
  sw_plan_begin (display, &zone->record, 0, "solid-zone");
  sw_display_add_polygon (display, zone->outline.items, zone->outline.n, &lines, &edge_stroke);
  sw_display_end (display);
}

static void
draw_opening (SwDisplay *display, const SwOpening *opening)
{
  static const SwFill paper = { .role = SW_ROLE_PAPER };
  static const SwStroke stroke = { .role = SW_ROLE_OPENING, .width = 0.35, .unit = SW_SIZE_PAPER };
  static const SwStroke cross = { .role = SW_ROLE_OPENING, .width = 0.13, .unit = SW_SIZE_PAPER };
  const SwPoint *points = opening->outline.items;
  sw_plan_begin (display, &opening->record, 0, "opening");
  sw_display_add_polygon (display, points, opening->outline.n, &paper, &stroke);
  for (guint i = 0; opening->outline.n == 4 && i < 2; i++)
    sw_display_add_line (display, points[i], points[i + 2], &cross);
  sw_display_end (display);
}

static void
draw_beam (SwDisplay *display, const SwBeam *beam, SwLengths lengths)
{
  static const SwFill fill = { .role = SW_ROLE_DOWNSTAND, .transparency = 0.55 };
  static const SwStroke stroke = { .role = SW_ROLE_CONCRETE_EDGE, .width = 0.35, .unit = SW_SIZE_PAPER };
  SwPoint way = sw_point_sub (beam->to, beam->from), corners[4];
  char drop[SW_LENGTH_BUF];
  double length = sw_point_length (way);
  if (length <= 0)
    return;
  g_autofree char *text = g_strdup_printf ("%s ↓%s", beam->record.tag, sw_length_write (beam->drop, lengths, SW_LENGTH_BARE, 0, drop));
  sw_plan_box_points (sw_point_lerp (beam->from, beam->to, 0.5), length, beam->width, atan2 (way.y, way.x) * 180 / G_PI, corners);
  sw_plan_begin (display, &beam->record, 0, "beam");
  sw_display_add_polygon (display, corners, 4, &fill, &stroke);
  sw_display_set_detail (display, 0.02, INFINITY);
  sw_plan_label (display, sw_point_lerp (beam->from, beam->to, 0.3), text, SW_ROLE_INK, SW_LETTERS_MM, sw_plan_text_turn (way));
  sw_display_end (display);
}

void
sw_plan_draw_structure (SwDisplay *display, const SwDeck *deck)
{
  SwJob *job = sw_deck_job (deck);
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_SOLID); (record = sw_job_iter_next (&i)) != NULL;)
    draw_zone (display, (const SwSolidZone *) record);
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_OPENING); (record = sw_job_iter_next (&i)) != NULL;)
    draw_opening (display, (const SwOpening *) record);
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_BEAM); (record = sw_job_iter_next (&i)) != NULL;)
    draw_beam (display, (const SwBeam *) record, sw_job_lengths (sw_deck_job (deck)));
}
