/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/lay.h"
#include "base/tolerance.h"

/* Hatches and lights against battens. A hatch between two battens needs a trimmer at each end; one that cuts battens gets
 * trimmers along its sides, on to the next rib (or primary) both ways, unless a batten stands there, and between them
 * headers that carry the cut ends. Battens beside it stay as they are. Hatches times lines. */

typedef struct
{
  SwBox box;         /* local */
  double left, right; /* inner faces of the next whole battens, or of what ends the room there */
  guint cut;         /* battens that it cuts */
} Place;

static SwBox
turned_box (const SwFrame *frame, SwPoint at, double length, double width, double turn)
{
  SwBox box = SW_BOX_EMPTY;
  double cosine = cos (turn * G_PI / 180), sine = sin (turn * G_PI / 180);
  for (int i = 0; i < 4; i++)
    {
      SwPoint corner = { (i & 1 ? 0.5 : -0.5) * length, (i & 2 ? 0.5 : -0.5) * width };
      box = sw_box_add (box, sw_frame_to (frame, sw_point_add (at, sw_point_turn (corner, cosine, sine))));
    }
  return box;
}

static Place
place_among_lines (const SwLayer *layer, SwBox box)
{
  SwBox room = sw_rings_box (layer->clear);
  Place place = { box, room.low.x, room.high.x, 0 };
  for (guint i = 0; i < layer->lines->len; i++)
    {
      double at = g_array_index (layer->lines, double, i), low = at - layer->width / 2, high = at + layer->width / 2;
      if (high <= box.low.x + SW_TOUCH_MM)
        place.left = fmax (place.left, high);
      else if (low >= box.high.x - SW_TOUCH_MM)
        place.right = fmin (place.right, low);
      else
        place.cut++;
    }
  return place;
}

/* Keeps the lines out of the box and of the headers at its ends. */
static void
block (SwLayer *layer, SwBox box, double header)
{
  SwQuad quad = { { { box.low.x, box.low.y - header }, { box.high.x, box.low.y - header },
                    { box.high.x, box.high.y + header }, { box.low.x, box.high.y + header } } };
  g_array_append_val (layer->quads, quad);
}

/* Clips to the room before it is added. */
static void
add_header (SwLayer *layer, double left, double right, double y)
{
  SwFrame across = { { 0, y }, 0, 1 }; /* x of this frame is the layer's y, y is −x */
  g_autoptr (SwRings) turned = sw_rings_to (layer->clear, &across);
  g_autoptr (GArray) free_parts = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  g_autoptr (GArray) wanted = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  SwInterval whole = { -right, -left };
  g_array_append_val (wanted, whole);
  sw_rings_band (turned, -layer->width / 2, layer->width / 2, free_parts);
  sw_intervals_intersect (wanted, free_parts);
  for (guint i = 0; i < wanted->len; i++)
    {
      SwInterval part = g_array_index (wanted, SwInterval, i);
      sw_layer_add (layer, SW_MEMBER_TRIMMER, (SwPoint){ -part.high, y }, (SwPoint){ -part.low, y }, layer->width);
    }
}

/* Beside the opening and on to where it is held on both sides. */
static void
add_side (SwLayer *layer, const Place *place, double x)
{
  SwInterval wanted = { place->box.low.y - layer->width, place->box.high.y + layer->width };
  if (sw_layer_reach_holds (layer, x, &wanted))
    sw_layer_add (layer, SW_MEMBER_TRIMMER, (SwPoint){ x, wanted.low }, (SwPoint){ x, wanted.high }, layer->width);
}

static void
trim (SwLayer *layer, Place place)
{
  double half = layer->width / 2;
  if (place.cut > 0 && place.box.low.x - place.left >= layer->width)
    {
      add_side (layer, &place, place.box.low.x - half);
      place.left = place.box.low.x;
    }
  if (place.cut > 0 && place.right - place.box.high.x >= layer->width)
    {
      add_side (layer, &place, place.box.high.x + half);
      place.right = place.box.high.x;
    }
  block (layer, place.box, layer->width);
  add_header (layer, place.left, place.right, place.box.low.y - half);
  add_header (layer, place.left, place.right, place.box.high.y + half);
}

static gboolean
lies_in_part (const SwLayer *layer, SwBox box)
{
  return sw_rings_holds (layer->clear, sw_point_lerp (box.low, box.high, 0.5));
}

void
sw_layer_hatches (SwLayer *layer)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (sw_deck_job (layer->lay->ceiling->deck), SW_TABLE_HATCH);
       (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwHatch *hatch = (const SwHatch *) record;
      SwBox box = turned_box (&layer->frame, hatch->at, hatch->length, hatch->width, hatch->turn);
      if (!lies_in_part (layer, box))
        continue;
      Place place = place_among_lines (layer, box);
      trim (layer, place);
      if (place.cut > 0)
        sw_layer_mark (layer, SW_CEILING_HATCH_CUTS, record->id, sw_point_lerp (box.low, box.high, 0.5), place.cut, 0, NULL);
    }
}

/* Keeps trimmers as far from the hole as a light should be from a batten. */
static SwBox
trimmed_box (const SwLayer *layer, const SwLight *light, SwPoint at)
{
  double keep = sw_rules_value (layer->lay->ceiling->rules, "light.clearances", "batten_mm").value;
  double half = fmax (light->cut_out / 2 + keep, light->body / 2);
  return (SwBox){ { at.x - half, at.y - half }, { at.x + half, at.y + half } };
}

/* By how much the light would have to move across the battens to clear them all; the lesser of the two ways. */
static double
way_out (const SwLayer *layer, const Place *place, double x, double half)
{
  double gap = place->right - place->left, low = place->left + half - x, high = place->right - half - x;
  double shift = INFINITY;
  for (guint i = 0; i < layer->lines->len; i++)
    {
      double at = g_array_index (layer->lines, double, i);
      double ways[] = { at - layer->width / 2 - half - x, at + layer->width / 2 + half - x };
      for (int k = 0; k < 2; k++)
        {
          Place there = place_among_lines (layer, (SwBox){ { x + ways[k] - half, 0 }, { x + ways[k] + half, 0 } });
          if (there.cut == 0 && fabs (ways[k]) < fabs (shift))
            shift = ways[k];
        }
    }
  if (!isfinite (shift) && gap >= 2 * half)
    shift = fabs (low) < fabs (high) ? low : high;
  return shift;
}

void
sw_layer_lights (SwLayer *layer)
{
  const SwRecord *record;
  double burns = sw_rules_value (layer->lay->ceiling->rules, "light.clearances", "combustible_mm").value;
  for (SwJobIter i = sw_job_iter (sw_deck_job (layer->lay->ceiling->deck), SW_TABLE_LIGHT);
       (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwLight *light = (const SwLight *) record;
      double half = fmax (light->cut_out, light->body) / 2;
      SwPoint at = sw_frame_to (&layer->frame, light->at);
      SwBox box = { { at.x - half, at.y - half }, { at.x + half, at.y + half } };
      if (!lies_in_part (layer, box))
        continue;
      gboolean trims = layer->lay->ceiling->room->lights == SW_LIGHTS_TRIM || light->trims;
      Place place = place_among_lines (layer, trims ? sw_box_grow (box, burns) : box);
      if (place.cut == 0)
        continue;
      if (!trims)
        {
          sw_layer_mark (layer, SW_CEILING_LIGHT_CUTS, record->id, at, way_out (layer, &place, at.x, half), 0, NULL);
          continue;
        }
      Place around = place_among_lines (layer, trimmed_box (layer, light, at));
      trim (layer, around);
      sw_layer_mark (layer, SW_CEILING_LIGHT_TRIMMED, record->id, at, around.cut, 0, NULL);
    }
}
