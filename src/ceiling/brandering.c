/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/held.h"
#include "base/error.h"
#include "ceiling/cancel.h"
#include "base/tolerance.h"
#include "ceiling/setout.h"

/* Lays the battens of one room. The room is split where the batten direction changes (parts.c); each part gets one layer
 * of battens across the ribs, or primaries across and battens along them. In a layer the lines come first (setout.c); then
 * ledgers, wall battens and trimmers are put in, each taking its place from the lines; what is left of the lines are the
 * battens; noggins fill up along the walls. Battens are cut square and lie wholly in the room. Cost: members times sides
 * and members. It is one pass, so it ends; it does not look for the cheapest direction or offset. */

/* ---- a layer ---- */

/* The lines between the wall battens; those come from the walls themselves, which need not be square. */
static void
take_lines (SwLayer *layer, const SwSetout *setout, double low)
{
  SwSetoutLines found = sw_setout_lines (setout);
  layer->lines = g_array_new (FALSE, FALSE, sizeof (double));
  layer->centres = found.centres;
  for (guint i = 0; i < found.lines->len; i++)
    {
      double line = g_array_index (found.lines, double, i), far = setout->length - line;
      gboolean at_wall = fabs (line - setout->first) < SW_TOUCH_MM || fabs (far - setout->last) < SW_TOUCH_MM;
      line += low;
      if (!at_wall)
        g_array_append_val (layer->lines, line);
    }
  g_array_unref (found.lines);
}

/* Along a slanting wall a batten's end may lie far past its last rib: the wall's own batten does for it there. */
static void
shorten_ends (const SwLayer *layer, double at, SwInterval *part)
{
  double reach = layer->lay->cantilever;
  g_autoptr (GArray) places = sw_layer_holds (layer, (SwPoint){ at, part->low }, (SwPoint){ at, part->high });
  if (places->len == 0)
    return;
  double first = part->low + g_array_index (places, double, 0);
  double last = part->low + g_array_index (places, double, places->len - 1);
  if (first - part->low > reach + SW_LAY_SLACK_MM && sw_layer_slants_at (layer, (SwPoint){ at, part->low }))
    part->low = first - reach;
  if (part->high - last > reach + SW_LAY_SLACK_MM && sw_layer_slants_at (layer, (SwPoint){ at, part->high }))
    part->high = last + reach;
}

static void
lay_lines (SwLayer *layer)
{
  for (guint i = 0; i < layer->lines->len; i++)
    {
      double at = g_array_index (layer->lines, double, i);
      g_autoptr (GArray) battens = g_array_new (FALSE, FALSE, sizeof (SwInterval));
      sw_layer_free_at (layer, at, layer->width, battens);
      for (guint k = 0; k < battens->len; k++)
        {
          SwInterval part = g_array_index (battens, SwInterval, k);
          shorten_ends (layer, at, &part);
          sw_layer_reach_over (layer, at, &part);
          if (part.high - part.low >= layer->width)
            sw_layer_add (layer, layer->kind, (SwPoint){ at, part.low }, (SwPoint){ at, part.high }, layer->width);
        }
    }
}

static void
layer_clear (SwLayer *layer)
{
  sw_rings_free (layer->clear);
  g_array_unref (layer->lines);
  g_array_unref (layer->quads);
}

/* ---- the two layers of a part ---- */

/* Whether sheets end inside the part, so that the grid has to divide them: `sheet` is their size across the battens. */
static gboolean
has_joints (const SwCeilingPart *part, double sheet)
{
  SwBox box = sw_rings_box (part->area);
  return box.high.x - box.low.x > sheet + SW_TOUCH_MM;
}

/* How far a part begins behind the first that has its battens the same way at the same level: behind a movement joint a shifted grid goes
 * on as it came, so that one tape from the wall finds all battens. */
static double
behind_first (const SwLay *lay, guint index)
{
  const SwCeilingPart *part = &g_array_index (lay->ceiling->parts, SwCeilingPart, index);
  for (guint i = 0; i < index; i++)
    {
      const SwCeilingPart *first = &g_array_index (lay->ceiling->parts, SwCeilingPart, i);
      if (first->bulkhead == part->bulkhead && sw_point_distance ((SwPoint){ first->frame.cosine, first->frame.sine },
                                                                  (SwPoint){ part->frame.cosine, part->frame.sine }) < 1e-9)
        return sw_frame_to (&first->frame, part->frame.origin).x;
    }
  return 0;
}

/* How far the middle of the batten at the part's end at x stands off that end. */
static double
edge_line (const SwLayer *layer, double x)
{
  const SwCeilingPart *part = &g_array_index (layer->lay->ceiling->parts, SwCeilingPart, layer->part);
  double face = layer->lay->wall_face;
  if (part->bulkhead != 0)
    face = layer->kind == SW_MEMBER_PRIMARY ? face : fmin (face, layer->lay->ceiling->room->board_thickness);
  else if (sw_layer_seam_at (layer, x))
    face = 0;
  return face + layer->width / 2;
}

static void
lay_battens (SwLay *lay, guint index)
{
  SwCeilingPart *part = &g_array_index (lay->ceiling->parts, SwCeilingPart, index);
  const SwRoom *room = lay->ceiling->room;
  double sheet = room->boards_turned ? room->board_width : room->board_length;
  SwLayer layer = { .lay = lay, .part = index, .frame = part->frame, .kind = SW_MEMBER_BATTEN,
                    .width = room->batten_width, .depth = room->batten_depth, .top = lay->ceiling->top - part->drop };
  SwFrame same = { { 0, 0 }, 1, 0 };
  layer.clear = sw_rings_to (part->clear, &same);
  layer.quads = g_array_new (FALSE, FALSE, sizeof (SwQuad));
  layer.first_member = lay->ceiling->members->len;
  SwBox box = sw_rings_box (part->area);
  part->gridded = has_joints (part, sheet);
  SwSetout setout = { .length = box.high.x - box.low.x, .limit = part->limit, .edge_limit = lay->edge_limit,
                      .first = edge_line (&layer, box.low.x), .last = edge_line (&layer, box.high.x), .width = layer.width, .sheet = part->gridded ? sheet : 0 };
  double behind = behind_first (lay, index);
  if (part->gridded)
    {
      double centres = sw_setout_dividing_centres (sheet, part->limit), shift = room->batten_shift > 0 ? room->batten_shift - behind : 0;
      setout.start = part->shift = sw_grid_round (shift - floor (shift / centres) * centres);
    }
  if (lay->options.centres > 0)
    setout.sheet = setout.limit = lay->options.centres; /* a grid of just these */
  take_lines (&layer, &setout, box.low.x);
  if (part->gridded)
    sw_layer_advise_shift (&layer, box.low.x, setout.start, behind);
  sw_layer_face_plates (&layer);
  sw_layer_ledgers (&layer);
  sw_layer_hatches (&layer);
  sw_layer_lights (&layer);
  lay_lines (&layer);
  sw_layer_walls (&layer);
  sw_layer_noggins (&layer, lay->perimeter);
  sw_layer_catch (&layer);
  part->centres = layer.centres;
  part->lines = g_array_ref (layer.lines);
  layer_clear (&layer);
}

static void
lay_primaries (SwLay *lay, guint index)
{
  const SwCeilingPart *part = &g_array_index (lay->ceiling->parts, SwCeilingPart, index);
  const SwRoom *room = lay->ceiling->room;
  SwFrame turn = { { 0, 0 }, 0, -1 }; /* x along the voids again: the battens' y, backwards */
  SwFrame frame = { part->frame.origin, part->frame.sine, -part->frame.cosine };
  SwLayer layer = { .lay = lay, .part = index, .frame = frame, .kind = SW_MEMBER_PRIMARY, .width = room->batten_width,
                    .depth = room->primary_depth, .top = lay->ceiling->primary_top - part->drop };
  layer.clear = sw_rings_to (part->clear, &turn);
  layer.quads = g_array_new (FALSE, FALSE, sizeof (SwQuad));
  SwBox box = sw_rings_box (layer.clear);
  double most = sw_rules_value (lay->ceiling->rules, "brandering.setout", "primary_most_mm").value, span;
  if (sw_ceiling_published_span (lay->ceiling->rules, room, room->batten_width, room->batten_depth, &span, NULL))
    most = fmin (most, span); /* what the battens below can span */
  SwSetout setout = { .length = box.high.x - box.low.x, .limit = room->primary_centres > 0 ? room->primary_centres : most,
                      .first = edge_line (&layer, box.low.x), .last = edge_line (&layer, box.high.x), .width = layer.width };
  take_lines (&layer, &setout, box.low.x);
  sw_layer_ledgers (&layer);
  lay_lines (&layer);
  sw_layer_walls (&layer);
  layer_clear (&layer);
}

/* ---- the room ---- */

static gboolean
read_rules (SwLay *lay, GError **error)
{
  SwRules *rules = lay->ceiling->rules;
  SwRuleValue rule, perimeter;
  const char *row = sw_ceiling_board_row (rules, "brandering.centres", lay->ceiling->room, error);
  if (row == NULL
      || !sw_ceiling_centres_limit (rules, sw_deck_job (lay->ceiling->deck), lay->ceiling->room, &lay->limit, &lay->edge_limit, &rule, error)
      || !sw_rules_lookup (rules, "brandering.centres", row, "perimeter", &perimeter, error))
    return FALSE;
  lay->perimeter = perimeter.value != 0 || lay->ceiling->room->edge == SW_EDGE_CORNICE;
  lay->wall_face = sw_rules_value (rules, "brandering.setout", "wall_face_mm").value;
  lay->cantilever = sw_rules_value (rules, "brandering.setout", "cantilever_mm").value;
  return TRUE;
}

static gboolean
lay_all (SwLay *lay, GError **error)
{
  SwCeiling *ceiling = lay->ceiling;
  const SwRoom *room = ceiling->room;
  for (guint i = 0; i < ceiling->parts->len; i++)
    {
      if (sw_ceiling_is_cancelled (lay->cancellable, error))
        return FALSE;
      SwCeilingPart *part = &g_array_index (ceiling->parts, SwCeilingPart, i);
      part->limit = lay->limit;
      SwBox box = sw_rings_box (part->area);
      if ((box.high.x - box.low.x) / lay->limit > SW_CEILING_MOST)
        {
          g_set_error (error, SW_ERROR, SW_ERROR_LIMIT, "room \"%s\" would need more than %d battens: split the room",
                       room->record.tag, SW_CEILING_MOST);
          return FALSE;
        }
      if (part->layered)
        lay_primaries (lay, i);
      lay_battens (lay, i);
    }
  sw_lay_faces (lay);
  SwRuleValue least = sw_ceiling_joint_width (ceiling->rules, room);
  if (room->batten_width < least.value)
    {
      SwPoint at = sw_outline_label_point (room->outline.items, room->outline.n);
      SwCeilingMark mark = { SW_CEILING_NARROW_BATTEN, room->record.id, at, room->batten_width, least.value, least.rule_id };
      g_array_append_val (ceiling->marks, mark);
    }
  return sw_lay_supports (lay, error);
}

SwCeiling *
sw_ceiling_lay (SwDeck *deck, SwRules *rules, const SwRoom *room, const SwCeilingOptions *options,
                GCancellable *cancellable, GError **error)
{
  if (room->finish != SW_FINISH_CLOSED)
    {
      g_set_error (error, SW_ERROR, SW_ERROR_INVALID, "room \"%s\" has no closed ceiling: choose the closed finish first",
                   room->record.tag);
      return NULL;
    }
  g_autoptr (SwCeiling) ceiling = sw_ceiling_new (deck, rules, room);
  SwLay lay = { .ceiling = ceiling, .cancellable = cancellable };
  if (options)
    lay.options = *options;
  ceiling->primary_top = ceiling->top = sw_deck_lowest_soffit (deck, room) - room->packing;
  if (room->direction == SW_DIRECTION_ALONG)
    ceiling->top -= room->primary_depth;
  ceiling->turned = room->boards_turned;
  ceiling->sheet_length = room->board_length;
  ceiling->sheet_width = room->board_width;
  if (!read_rules (&lay, error) || !sw_lay_parts (&lay, error) || !lay_all (&lay, error))
    return NULL;
  return g_steal_pointer (&ceiling);
}
