/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A bay from its outline: rib lines every pitch (measured ones in their true place), voids between them, and in each void
 * the reaches that closures leave open. A void goes only where its whole mouth lies inside the outline; the outline is
 * cut along the mouth's edges, its centre line and through every corner that lies in the mouth, so that notches are seen.
 * Openings and solid zones take from the reaches what their widest extent in the mouth covers. Cost: voids × corners. */
#include "space/bay.h"
#include <math.h>

#define LEAST_REACH_MM 1.0

static SwPoint
bay_turn_in (const SwDeckBay *bay, SwPoint world)
{
  return sw_point_turn (world, bay->cosine, -bay->sine);
}

static void
bay_set_frame (SwDeckBay *bay)
{
  double angle = fmod (bay->bay->direction, 360) * G_PI / 180;
  bay->cosine = cos (angle);
  bay->sine = sin (angle);
  /* Right angles exactly, so that a bay along x has its ribs where the numbers say. */
  if (fmod (bay->bay->direction, 90) == 0)
    {
      bay->cosine = round (bay->cosine);
      bay->sine = round (bay->sine);
    }
  SwBox box = SW_BOX_EMPTY, world = SW_BOX_EMPTY;
  for (guint i = 0; i < bay->bay->outline.n; i++)
    {
      SwPoint corner = SW_LIST_AT (bay->bay->outline, SwPoint, i);
      box = sw_box_add (box, bay_turn_in (bay, corner));
      world = sw_box_add (world, corner);
    }
  bay->u_zero = box.low.x;
  bay->v_zero = box.low.y;
  bay->length = box.high.x - box.low.x;
  bay->breadth = box.high.y - box.low.y;
  bay->level_x = world.low.x;
  bay->level_y = world.low.y;
}

double
sw_deck_even_first_rib (const SwBay *bay, const SwProfile *profile)
{
  SwDeckBay frame = { .bay = bay };
  double rib = profile->pitch - profile->mouth;
  bay_set_frame (&frame);
  double n = fmax (floor ((frame.breadth - rib) / profile->pitch + 1e-9), 0);
  return (frame.breadth - n * profile->pitch) / 2;
}

/* A measured value of the bay; FALSE when there is none. The last one entered wins. */
static gboolean
bay_measured (const SwJob *job, const SwBay *bay, int kind, int number, int second, double *value)
{
  const SwRecord *record;
  gboolean found = FALSE;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_MEASURE); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwMeasure *measure = (const SwMeasure *) record;
      if (measure->of == bay->record.id && measure->kind == kind && measure->number == number
          && ((kind != SW_MEASURE_PLATE && kind != SW_MEASURE_EDGE) || measure->second == second))
        {
          *value = measure->value;
          found = TRUE;
        }
    }
  return found;
}

/* The lower or upper edge of a rib that was measured at one end or at both: the one farther out, since a rib that lies askew
 * stands in the way over all that its two ends reach. NAN when it was not measured. */
static double
measured_edge (const SwDeckBay *bay, const SwJob *job, int rib, gboolean upper)
{
  double start = NAN, end = NAN;
  bay_measured (job, bay->bay, SW_MEASURE_EDGE, rib, upper ? SW_EDGE_HIGH_START : SW_EDGE_LOW_START, &start);
  bay_measured (job, bay->bay, SW_MEASURE_EDGE, rib, upper ? SW_EDGE_HIGH_END : SW_EDGE_LOW_END, &end);
  return upper ? fmax (start, end) : fmin (start, end);
}

/* Measured edges win over a measured centre line; of a rib with one measured edge the other is as far as drawn. */
static void
set_rib (SwRib *rib, const SwDeckBay *bay, const SwJob *job, int k)
{
  double half = (bay->profile->pitch - bay->profile->mouth) / 2;
  double low = measured_edge (bay, job, k, FALSE), high = measured_edge (bay, job, k, TRUE);
  rib->measured = bay_measured (job, bay->bay, SW_MEASURE_RIB, k, 0, &rib->v) || !isnan (low) || !isnan (high);
  rib->low = !isnan (low) ? low : !isnan (high) ? high - 2 * half : rib->v - half;
  rib->high = !isnan (high) ? high : !isnan (low) ? low + 2 * half : rib->v + half;
  if (!isnan (low) || !isnan (high))
    rib->v = (rib->low + rib->high) / 2;
}

static void
bay_add_ribs (SwDeckBay *bay, const SwJob *job)
{
  const SwProfile *profile = bay->profile;
  for (int k = 0; k < 20000; k++)
    {
      SwRib rib = { bay->bay->first_rib + k * profile->pitch, 0, 0, 0, bay->length, FALSE };
      set_rib (&rib, bay, job, k);
      /* A void needs a whole mouth: the rib beyond it may lie partly outside. */
      if (k > 0 && rib.low > bay->breadth + 0.05)
        break;
      g_array_append_val (bay->ribs, rib);
    }
  if (bay->ribs->len > 0)
    {
      SwRib *first = &g_array_index (bay->ribs, SwRib, 0), *last = &g_array_index (bay->ribs, SwRib, bay->ribs->len - 1);
      first->low = MIN (0, first->high);
      last->high = MAX (bay->breadth, last->low);
    }
}

/* Intersects `spans` with the outline's cut along v. */
static void
keep_inside (GArray *spans, const GArray *outline, double v)
{
  g_autoptr (GArray) cut = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  sw_outline_cut ((const SwPoint *) outline->data, outline->len, (SwPoint){ 0, v }, (SwPoint){ 1, 0 }, cut);
  sw_intervals_intersect (spans, cut);
}

static GArray *
outline_in_bay (const SwDeckBay *bay, const SwList *outline)
{
  GArray *local = g_array_sized_new (FALSE, FALSE, sizeof (SwPoint), outline->n);
  for (guint i = 0; i < outline->n; i++)
    {
      SwPoint corner = sw_deck_to_bay (bay, SW_LIST_AT (*outline, SwPoint, i));
      g_array_append_val (local, corner);
    }
  return local;
}

/* Where the mouth low…high lies wholly inside the outline. The edges are taken a hair inside: a mouth may touch a side. */
static GArray *
mouth_spans (const GArray *outline, double low, double high)
{
  GArray *spans = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  SwInterval all = { -1e9, 1e9 };
  g_array_append_val (spans, all);
  keep_inside (spans, outline, low + 0.02);
  keep_inside (spans, outline, high - 0.02);
  keep_inside (spans, outline, (low + high) / 2);
  for (guint i = 0; i < outline->len; i++)
    {
      double v = g_array_index (outline, SwPoint, i).y;
      if (v > low + 0.1 && v < high - 0.1)
        {
          keep_inside (spans, outline, v - 0.05);
          keep_inside (spans, outline, v + 0.05);
        }
    }
  return spans;
}

/* Extent along u of the part of a polygon that lies between v = low and v = high; FALSE when nothing does. */
static gboolean
extent_in_mouth (const GArray *polygon, double low, double high, SwInterval *extent)
{
  *extent = (SwInterval){ INFINITY, -INFINITY };
  for (guint i = 0; i < polygon->len; i++)
    {
      SwPoint a = g_array_index (polygon, SwPoint, i), b = g_array_index (polygon, SwPoint, (i + 1) % polygon->len);
      if (fmax (a.y, b.y) <= low || fmin (a.y, b.y) >= high)
        continue;
      double t0 = 0, t1 = 1;
      if (a.y != b.y)
        {
          double tl = (low - a.y) / (b.y - a.y), th = (high - a.y) / (b.y - a.y);
          t0 = CLAMP (fmin (tl, th), 0, 1);
          t1 = CLAMP (fmax (tl, th), 0, 1);
        }
      double u0 = a.x + (b.x - a.x) * t0, u1 = a.x + (b.x - a.x) * t1;
      extent->low = fmin (extent->low, fmin (u0, u1));
      extent->high = fmax (extent->high, fmax (u0, u1));
    }
  return extent->low < extent->high;
}

static void
add_reach (SwDeckBay *bay, SwVoid *v, SwReach reach)
{
  if (reach.solid_high - reach.solid_low < LEAST_REACH_MM)
    return;
  if (reach.high - reach.low < LEAST_REACH_MM) /* no opening is left: all is concrete */
    reach.low = reach.high = CLAMP ((reach.low + reach.high) / 2, reach.solid_low, reach.solid_high);
  g_array_append_val (bay->reaches, reach);
  v->n_reaches++;
}

/* Cuts what `taken` covers out of the void's reaches; beyond it the concrete goes on for `setback` before a closure. */
static void
take_from_reaches (SwDeckBay *bay, SwVoid *v, SwInterval taken, gboolean opening)
{
  g_autoptr (GArray) old = g_array_new (FALSE, FALSE, sizeof (SwReach));
  for (guint i = 0; i < v->n_reaches; i++)
    g_array_append_val (old, g_array_index (bay->reaches, SwReach, v->first_reach + i));
  g_array_set_size (bay->reaches, v->first_reach);
  v->n_reaches = 0;
  double before = opening ? bay->bay->closure_end : 0, after = opening ? bay->bay->closure_start : 0;
  double middle = (taken.low + taken.high) / 2;
  for (guint i = 0; i < old->len; i++)
    {
      SwReach reach = g_array_index (old, SwReach, i), low = reach, high = reach;
      if (taken.high <= reach.solid_low || taken.low >= reach.solid_high)
        {
          add_reach (bay, v, reach);
          continue;
        }
      low.solid_high = opening ? taken.low : MAX (MIN (middle, reach.solid_high), taken.low);
      low.high = MIN (reach.high, taken.low - before);
      high.solid_low = opening ? taken.high : low.solid_high;
      high.low = MAX (reach.low, taken.high + after);
      add_reach (bay, v, low);
      add_reach (bay, v, high);
    }
}

static void
take_zones (SwDeckBay *bay, SwVoid *v, const SwJob *job, SwTable table)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, table); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwList *outline = table == SW_TABLE_OPENING ? &((const SwOpening *) record)->outline : &((const SwSolidZone *) record)->outline;
      g_autoptr (GArray) local = outline_in_bay (bay, outline);
      SwInterval taken;
      if (extent_in_mouth (local, v->low, v->high, &taken))
        take_from_reaches (bay, v, taken, table == SW_TABLE_OPENING);
    }
}

static void
bay_add_voids (SwDeckBay *bay, const SwJob *job)
{
  g_autoptr (GArray) outline = outline_in_bay (bay, &bay->bay->outline);
  for (guint k = 0; k + 1 < bay->ribs->len; k++)
    {
      SwRib *left = &g_array_index (bay->ribs, SwRib, k), *right = &g_array_index (bay->ribs, SwRib, k + 1);
      SwVoid v = { .low = left->high, .high = right->low, .depth = bay->profile->depth, .first_reach = bay->reaches->len };
      v.v = (v.low + v.high) / 2;
      v.number = bay->bay->first_void + (bay->bay->backwards ? -(int) k : (int) k);
      v.measured = left->measured || right->measured;
      bay_measured (job, bay->bay, SW_MEASURE_DEPTH, v.number, 0, &v.depth);
      g_autoptr (GArray) spans = mouth_spans (outline, v.low, v.high);
      for (guint i = 0; i < spans->len; i++)
        {
          SwInterval span = g_array_index (spans, SwInterval, i);
          add_reach (bay, &v, (SwReach){ span.low + bay->bay->closure_start, span.high - bay->bay->closure_end, span.low, span.high });
        }
      take_zones (bay, &v, job, SW_TABLE_OPENING);
      take_zones (bay, &v, job, SW_TABLE_SOLID);
      g_array_append_val (bay->voids, v);
    }
}

static const SwPlate *
plate_record (const SwJob *job, const SwBay *bay, int void_number, int plate_number)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_PLATE); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwPlate *plate = (const SwPlate *) record;
      if (plate->bay == bay->record.id && plate->void_number == void_number && plate->plate_number == plate_number)
        return plate;
    }
  return NULL;
}

static void
bay_add_plates (SwDeckBay *bay, const SwJob *job)
{
  double spacing = bay->bay->plate_spacing > 0 ? bay->bay->plate_spacing : bay->profile->plate_spacing;
  for (guint k = 0; k < bay->voids->len && spacing > 0; k++)
    {
      const SwVoid *v = &g_array_index (bay->voids, SwVoid, k);
      if (v->n_reaches == 0)
        continue;
      const SwReach *first = &g_array_index (bay->reaches, SwReach, v->first_reach), *last = first + v->n_reaches - 1;
      int number = bay->bay->first_plate;
      for (double along = bay->bay->plate_first; first->low + along < last->high; along += spacing, number++)
        {
          SwDeckPlate plate = { k, number, first->low + along, plate_record (job, bay->bay, v->number, number), FALSE, FALSE, FALSE };
          double measured;
          plate.measured = bay_measured (job, bay->bay, SW_MEASURE_PLATE, v->number, number, &measured);
          if (plate.measured)
            plate.u = first->low + measured;
          if (sw_deck_reach_at (bay, k, plate.u) == NULL)
            continue;
          plate.released = plate.record != NULL && *plate.record->released_by != '\0' && *plate.record->released_on != '\0'
                           && *plate.record->reference != '\0';
          plate.out = plate.released && *plate.record->out_on != '\0';
          g_array_append_val (bay->plates, plate);
        }
    }
}

/* Solves the normal equations of level = a + b x + c y; FALSE when the places lie on a line. */
static gboolean
fit_plane (const GArray *places, double plane[3])
{
  double n = places->len, sx = 0, sy = 0, sz = 0, sxx = 0, sxy = 0, syy = 0, sxz = 0, syz = 0;
  for (guint i = 0; i < places->len; i++)
    {
      SwPoint3 p = g_array_index (places, SwPoint3, i);
      sx += p.x; sy += p.y; sz += p.z;
    }
  double mx = sx / n, my = sy / n, mz = sz / n;
  for (guint i = 0; i < places->len; i++)
    {
      SwPoint3 p = g_array_index (places, SwPoint3, i);
      double x = p.x - mx, y = p.y - my, z = p.z - mz;
      sxx += x * x; sxy += x * y; syy += y * y; sxz += x * z; syz += y * z;
    }
  double determinant = sxx * syy - sxy * sxy;
  if (places->len < 3 || determinant < 1e-6 * (sxx + syy) * (sxx + syy))
    return FALSE;
  plane[1] = (sxz * syy - syz * sxy) / determinant;
  plane[2] = (syz * sxx - sxz * sxy) / determinant;
  plane[0] = mz - plane[1] * mx - plane[2] * my;
  return TRUE;
}

/* Measured levels: a plane through three and more that do not lie on a line, else the drawn plane shifted by the mean. */
static void
bay_set_level (SwDeckBay *bay, const SwJob *job)
{
  bay->level = bay->bay->level;
  bay->slope_x = bay->bay->slope_x / 1000;
  bay->slope_y = bay->bay->slope_y / 1000;
  g_autoptr (GArray) places = g_array_new (FALSE, FALSE, sizeof (SwPoint3));
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_MEASURE); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwMeasure *measure = (const SwMeasure *) record;
      if (measure->of != bay->bay->record.id || measure->kind != SW_MEASURE_LEVEL)
        continue;
      SwPoint3 place = { measure->at.x - bay->level_x, measure->at.y - bay->level_y, measure->value - sw_job_info (job)->soffit_level };
      g_array_append_val (places, place);
    }
  double plane[3], shift = 0;
  bay->level_measured = places->len > 0;
  if (fit_plane (places, plane))
    {
      bay->level = plane[0];
      bay->slope_x = plane[1];
      bay->slope_y = plane[2];
      return;
    }
  for (guint i = 0; i < places->len; i++)
    {
      SwPoint3 p = g_array_index (places, SwPoint3, i);
      shift += (p.z - (bay->level + bay->slope_x * p.x + bay->slope_y * p.y)) / places->len;
    }
  bay->level += shift;
}

SwDeckBay *
sw_deck_bay_new (const SwJob *job, const SwBay *record)
{
  SwDeckBay *bay = g_new0 (SwDeckBay, 1);
  bay->bay = record;
  bay->profile = (const SwProfile *) sw_job_get (job, record->profile);
  bay->ribs = g_array_new (FALSE, FALSE, sizeof (SwRib));
  bay->voids = g_array_new (FALSE, FALSE, sizeof (SwVoid));
  bay->reaches = g_array_new (FALSE, FALSE, sizeof (SwReach));
  bay->plates = g_array_new (FALSE, FALSE, sizeof (SwDeckPlate));
  bay_set_frame (bay);
  bay_set_level (bay, job);
  bay_add_ribs (bay, job);
  bay_add_voids (bay, job);
  bay_add_plates (bay, job);
  return bay;
}

void
sw_deck_bay_free (SwDeckBay *bay)
{
  g_array_unref (bay->ribs);
  g_array_unref (bay->voids);
  g_array_unref (bay->reaches);
  g_array_unref (bay->plates);
  g_free (bay);
}
