/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "space/survey.h"

#define CORNER_SHARE 0.08 /* levels are taken that far from a corner towards the middle, where the soffit can be seen */

typedef struct
{
  const SwDeck *deck;
  SwId of;
  GArray *slots;
} Survey;

static void
add_slot (Survey *survey, SwMeasureKind kind, int number, int second, SwPoint place)
{
  SwSurveySlot slot = { .key = { survey->of, kind, number, second, { 0, 0 } }, .place = place };
  const SwRecord *of = sw_job_get (sw_deck_job (survey->deck), survey->of);
  if (kind == SW_MEASURE_LEVEL)
    slot.key.at = place;
  if (kind == SW_MEASURE_LENGTH)
    slot.to = number % (int) ((const SwRoom *) of)->outline.n + 1;
  slot.drawn = sw_survey_drawn (survey->deck, &slot.key);
  slot.measure = sw_job_measure (sw_deck_job (survey->deck), &slot.key);
  g_array_append_val (survey->slots, slot);
}

/* ---- bays */

/* The outermost edges are the bay's own sides: no void ends there. */
static void
add_ribs (Survey *survey, const SwDeckBay *bay)
{
  for (guint i = 0; i < bay->ribs->len; i++)
    {
      const SwRib *rib = &g_array_index (bay->ribs, SwRib, i);
      SwPoint middle = sw_deck_from_bay (bay, (SwPoint){ bay->length / 2, rib->v });
      add_slot (survey, SW_MEASURE_RIB, (int) i, 0, middle);
      for (int edge = SW_EDGE_LOW_START; edge <= SW_EDGE_HIGH_END; edge++)
        {
          gboolean high = edge == SW_EDGE_HIGH_START || edge == SW_EDGE_HIGH_END;
          double u = edge <= SW_EDGE_HIGH_START ? 0 : bay->length;
          if (high ? i + 1 < bay->ribs->len : i > 0)
            add_slot (survey, SW_MEASURE_EDGE, (int) i, edge, sw_deck_from_bay (bay, (SwPoint){ u, high ? rib->high : rib->low }));
        }
    }
}

static void
add_levels (Survey *survey, const SwDeckBay *bay)
{
  const SwList *outline = &bay->bay->outline;
  SwBox box = sw_record_box (&bay->bay->record);
  SwPoint middle = sw_point_lerp (box.low, box.high, 0.5);
  guint first = survey->slots->len;
  for (guint i = 0; i < outline->n; i++)
    {
      SwPoint corner = sw_point_lerp (SW_LIST_AT (*outline, SwPoint, i), middle, CORNER_SHARE);
      add_slot (survey, SW_MEASURE_LEVEL, (int) i + 1, 0, (SwPoint){ round (corner.x), round (corner.y) });
    }
  add_slot (survey, SW_MEASURE_LEVEL, 0, 0, (SwPoint){ round (middle.x), round (middle.y) });
  for (guint i = first; i < survey->slots->len; i++)
    g_array_index (survey->slots, SwSurveySlot, i).marked = TRUE;
  const SwRecord *record;
  for (SwJobIter k = sw_job_iter (sw_deck_job (survey->deck), SW_TABLE_MEASURE); (record = sw_job_iter_next (&k)) != NULL;)
    {
      SwMeasureKey key = sw_measure_key ((const SwMeasure *) record);
      gboolean there = key.of != survey->of || key.kind != SW_MEASURE_LEVEL;
      for (guint i = first; i < survey->slots->len && !there; i++)
        there = sw_measure_key_equal (&g_array_index (survey->slots, SwSurveySlot, i).key, &key);
      if (!there)
        add_slot (survey, SW_MEASURE_LEVEL, 0, 0, key.at);
    }
}

static void
add_voids (Survey *survey, const SwDeckBay *bay)
{
  for (guint i = 0; i < bay->voids->len; i++)
    {
      const SwVoid *over = &g_array_index (bay->voids, SwVoid, i);
      add_slot (survey, SW_MEASURE_DEPTH, over->number, 0, sw_deck_from_bay (bay, (SwPoint){ bay->length / 2, over->v }));
      for (guint k = 0; k < bay->plates->len; k++)
        {
          const SwDeckPlate *plate = &g_array_index (bay->plates, SwDeckPlate, k);
          if (plate->void_index == i)
            add_slot (survey, SW_MEASURE_PLATE, over->number, plate->number, sw_deck_from_bay (bay, (SwPoint){ plate->u, over->v }));
        }
    }
}

/* ---- rooms */

/* All sides, then the diagonals from the first two corners: enough to fix the outline's shape, and one more. */
static void
add_distances (Survey *survey, const SwRoom *room)
{
  guint n = room->outline.n;
  for (guint i = 0; i < n; i++)
    add_slot (survey, SW_MEASURE_LENGTH, (int) i + 1, 0,
              sw_point_lerp (SW_LIST_AT (room->outline, SwPoint, i), SW_LIST_AT (room->outline, SwPoint, (i + 1) % n), 0.5));
  for (guint i = 0; i < 2; i++)
    for (guint k = i + 2; k < n; k++)
      if (!(i == 0 && k == n - 1))
        add_slot (survey, SW_MEASURE_DIAGONAL, (int) i + 1, (int) k + 1,
                  sw_point_lerp (SW_LIST_AT (room->outline, SwPoint, i), SW_LIST_AT (room->outline, SwPoint, k), 0.35));
}

GArray *
sw_survey_slots (const SwDeck *deck, SwId of)
{
  Survey survey = { deck, of, g_array_new (FALSE, FALSE, sizeof (SwSurveySlot)) };
  const SwDeckBay *bay = sw_deck_bay_of (deck, of);
  const SwRecord *record = sw_job_get (sw_deck_job (deck), of);
  if (bay != NULL)
    {
      add_ribs (&survey, bay);
      add_levels (&survey, bay);
      add_voids (&survey, bay);
    }
  else if (record != NULL && sw_record_table (record) == SW_TABLE_ROOM)
    add_distances (&survey, (const SwRoom *) record);
  return survey.slots;
}

double
sw_survey_across (const SwDeckBay *bay, const SwSurveySlot *slot, SwPoint at)
{
  SwPoint p = sw_deck_to_bay (bay, at), q = sw_deck_to_bay (bay, slot->place);
  if (slot->key.kind == SW_MEASURE_EDGE || slot->key.kind == SW_MEASURE_PLATE)
    return sw_point_distance (p, q);
  return fabs (p.y - q.y);
}

/* ---- what is drawn */

static double
drawn_rib (const SwDeckBay *bay, const SwMeasureKey *key)
{
  double half = (bay->profile->pitch - bay->profile->mouth) / 2, middle = bay->bay->first_rib + key->number * bay->profile->pitch;
  if (key->number < 0 || key->number >= (int) bay->ribs->len)
    return NAN;
  if (key->kind == SW_MEASURE_RIB)
    return middle;
  return key->second == SW_EDGE_LOW_START || key->second == SW_EDGE_LOW_END ? middle - half : middle + half;
}

static double
drawn_plate (const SwDeckBay *bay, const SwMeasureKey *key)
{
  double spacing = bay->bay->plate_spacing > 0 ? bay->bay->plate_spacing : bay->profile->plate_spacing;
  return key->second >= bay->bay->first_plate && spacing > 0 ? bay->bay->plate_first + (key->second - bay->bay->first_plate) * spacing : NAN;
}

static double
drawn_in_bay (const SwDeck *deck, const SwDeckBay *bay, const SwMeasureKey *key)
{
  const SwBay *of = bay->bay;
  gboolean is_void = FALSE;
  for (guint i = 0; i < bay->voids->len; i++)
    is_void |= g_array_index (bay->voids, SwVoid, i).number == key->number;
  switch (key->kind)
    {
    case SW_MEASURE_RIB:
    case SW_MEASURE_EDGE:
      return drawn_rib (bay, key);
    case SW_MEASURE_LEVEL:
      return sw_deck_z_to_floor (deck, of->level + of->slope_x / 1000 * (key->at.x - bay->level_x) + of->slope_y / 1000 * (key->at.y - bay->level_y));
    case SW_MEASURE_PLATE:
      return is_void ? drawn_plate (bay, key) : NAN;
    case SW_MEASURE_DEPTH:
      return is_void ? bay->profile->depth : NAN;
    default:
      return NAN;
    }
}

double
sw_survey_drawn (const SwDeck *deck, const SwMeasureKey *key)
{
  const SwDeckBay *bay = sw_deck_bay_of (deck, key->of);
  const SwRecord *record = sw_job_get (sw_deck_job (deck), key->of);
  if (bay != NULL)
    return drawn_in_bay (deck, bay, key);
  if (record == NULL || sw_record_table (record) != SW_TABLE_ROOM || (key->kind != SW_MEASURE_LENGTH && key->kind != SW_MEASURE_DIAGONAL))
    return NAN;
  const SwList *outline = &((const SwRoom *) record)->outline;
  int n = (int) outline->n, first = key->number - 1, second = key->kind == SW_MEASURE_LENGTH ? (first + 1) % n : key->second - 1;
  if (first < 0 || first >= n || second < 0 || second >= n || first == second)
    return NAN;
  return sw_point_distance (SW_LIST_AT (*outline, SwPoint, first), SW_LIST_AT (*outline, SwPoint, second));
}
