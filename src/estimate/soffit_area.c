/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Areas by slicing: in a bay's frame the length of room on the line v is piecewise linear between the corners of all outlines
 * and the crossings of their sides, so one slice in the middle of each step gives the area exactly. Faces in the troughs follow
 * from the open length of each void in the room. Cost: (corners + crossings)² for a room. */
#include "estimate/soffit_area.h"
#include "base/number.h"
#include "base/tolerance.h"
#include <math.h>

typedef struct
{
  const SwDeckBay *bay;
  GArray *room, *deck;     /* SwPoint, in the bay's frame */
  GPtrArray *holes;        /* GArray of SwPoint: openings, columns and shafts */
} Slice;

static GArray *
local_outline (const SwDeckBay *bay, const SwList *outline)
{
  GArray *local = g_array_sized_new (FALSE, FALSE, sizeof (SwPoint), outline->n);
  for (guint i = 0; i < outline->n; i++)
    {
      SwPoint p = sw_deck_to_bay (bay, SW_LIST_AT (*outline, SwPoint, i));
      g_array_append_val (local, p);
    }
  return local;
}

static void
cut_at (const GArray *outline, double v, GArray *out)
{
  g_array_set_size (out, 0);
  sw_outline_cut ((const SwPoint *) outline->data, outline->len, (SwPoint){ 0, v }, (SwPoint){ 1, 0 }, out);
}

/* Stretches of the line v that lie in the room, under the bay and in no hole. */
static GArray *
slice_at (const Slice *slice, double v)
{
  GArray *spans = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  g_autoptr (GArray) other = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  cut_at (slice->room, v, spans);
  cut_at (slice->deck, v, other);
  sw_intervals_intersect (spans, other);
  for (guint h = 0; h < slice->holes->len; h++)
    {
      cut_at (slice->holes->pdata[h], v, other);
      for (guint i = 0; i < other->len; i++)
        sw_intervals_subtract (spans, g_array_index (other, SwInterval, i).low, g_array_index (other, SwInterval, i).high);
    }
  return spans;
}

static double
spans_length (const GArray *spans)
{
  double sum = 0;
  for (guint i = 0; i < spans->len; i++)
    sum += g_array_index (spans, SwInterval, i).high - g_array_index (spans, SwInterval, i).low;
  return sum;
}

static void
add_holes (Slice *slice, const SwJob *job, SwTable table)
{
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, table); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwList *outline = table == SW_TABLE_OPENING ? &((const SwOpening *) record)->outline : &((const SwColumn *) record)->outline;
      g_ptr_array_add (slice->holes, local_outline (slice->bay, outline));
    }
}

static void
add_crossings (const GArray *a, const GArray *b, GArray *steps)
{
  for (guint i = 0; i < a->len; i++)
    for (guint k = 0; k < b->len; k++)
      {
        SwPoint p = g_array_index (a, SwPoint, i), q = g_array_index (b, SwPoint, k);
        SwPoint r = sw_point_sub (g_array_index (a, SwPoint, (i + 1) % a->len), p), s = sw_point_sub (g_array_index (b, SwPoint, (k + 1) % b->len), q);
        double across = sw_point_cross (r, s);
        if (fabs (across) < 1e-9)
          continue;
        double v = p.y + r.y * sw_point_cross (sw_point_sub (q, p), s) / across;
        g_array_append_val (steps, v);
      }
}

/* All v between low and high at which the sliced length can bend, both ends included, sorted. */
static GArray *
slice_steps (const Slice *slice, double low, double high)
{
  GArray *steps = g_array_new (FALSE, FALSE, sizeof (double));
  g_autoptr (GPtrArray) outlines = g_ptr_array_new ();
  g_ptr_array_add (outlines, slice->room);
  g_ptr_array_add (outlines, slice->deck);
  for (guint h = 0; h < slice->holes->len; h++)
    g_ptr_array_add (outlines, slice->holes->pdata[h]);
  for (guint o = 0; o < outlines->len; o++)
    {
      const GArray *outline = outlines->pdata[o];
      for (guint i = 0; i < outline->len; i++)
        g_array_append_val (steps, g_array_index (outline, SwPoint, i).y);
      for (guint other = o + 1; other < outlines->len; other++)
        add_crossings (outline, outlines->pdata[other], steps);
    }
  g_array_append_val (steps, low);
  g_array_append_val (steps, high);
  g_array_sort (steps, sw_compare_doubles);
  return steps;
}

/* Area of the room between v = low and v = high. */
static double
slice_area (const Slice *slice, double low, double high)
{
  double area = 0;
  g_autoptr (GArray) steps = slice_steps (slice, low, high);
  for (guint i = 0; i + 1 < steps->len; i++)
    {
      double a = fmax (g_array_index (steps, double, i), low), b = fmin (g_array_index (steps, double, i + 1), high);
      if (b - a < 1e-6)
        continue;
      g_autoptr (GArray) spans = slice_at (slice, (a + b) / 2);
      area += spans_length (spans) * (b - a);
    }
  return area;
}

static gboolean
spans_hold (const GArray *spans, double u)
{
  for (guint i = 0; i < spans->len; i++)
    if (g_array_index (spans, SwInterval, i).low <= u && u <= g_array_index (spans, SwInterval, i).high)
      return TRUE;
  return FALSE;
}

/* Faces of one void: crown and sides along its open length in the room, plates and closures that stand there. Returns the
 * area of its open mouth. */
static double
add_void_faces (const Slice *slice, guint index, SwSoffitArea *sum)
{
  const SwDeckBay *bay = slice->bay;
  const SwVoid *v = &g_array_index (bay->voids, SwVoid, index);
  double crown = sw_deck_void_width (bay, index, v->depth), mouth = v->high - v->low, open = 0;
  double side = hypot ((mouth - crown) / 2, v->depth), section = (mouth + crown) / 2 * v->depth;
  g_autoptr (GArray) spans = slice_at (slice, v->v);
  for (guint r = 0; r < v->n_reaches; r++)
    {
      const SwReach *reach = &g_array_index (bay->reaches, SwReach, v->first_reach + r);
      for (guint i = 0; i < spans->len; i++)
        {
          SwInterval span = g_array_index (spans, SwInterval, i);
          open += fmax (0, fmin (span.high, reach->high) - fmax (span.low, reach->low));
        }
      if (reach->low < reach->high)
        sum->closures += section * (spans_hold (spans, reach->low) + spans_hold (spans, reach->high));
    }
  sum->troughs += open * (crown + 2 * side);
  sum->voids += open * section;
  if (open > 0)
    for (guint i = 0; i < spans->len; i++)
      {
        SwInterval span = g_array_index (spans, SwInterval, i);
        for (int end = 0; end < 2; end++)
          {
            SwPoint world = sw_deck_from_bay (bay, (SwPoint){ end ? span.high : span.low, v->v });
            sum->crown_low = fmin (sum->crown_low, sw_deck_soffit (bay, world) + v->depth);
          }
      }
  for (guint i = 0; i < bay->plates->len; i++)
    {
      const SwDeckPlate *plate = &g_array_index (bay->plates, SwDeckPlate, i);
      if (plate->void_index == index && !plate->out && spans_hold (spans, plate->u))
        sum->plates += 2 * section;
    }
  return open * mouth;
}

static Slice
slice_of (const SwDeck *deck, const SwDeckBay *bay, const SwRoom *room)
{
  Slice slice = { bay, local_outline (bay, &room->outline), local_outline (bay, &bay->bay->outline),
                  g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref) };
  add_holes (&slice, sw_deck_job (deck), SW_TABLE_OPENING);
  add_holes (&slice, sw_deck_job (deck), SW_TABLE_COLUMN);
  return slice;
}

static void
slice_clear (Slice *slice)
{
  g_ptr_array_unref (slice->holes);
  g_array_unref (slice->room);
  g_array_unref (slice->deck);
}

static void
add_bay (const SwDeck *deck, const SwDeckBay *bay, const SwRoom *room, SwSoffitArea *sum, double *largest)
{
  if (!sw_box_meets (sw_record_box (&room->record), sw_record_box (&bay->bay->record)))
    return;
  Slice slice = slice_of (deck, bay, room);
  double plan = slice_area (&slice, 0, bay->breadth), open = 0;
  for (guint i = 0; i < bay->voids->len && plan > 0; i++)
    open += add_void_faces (&slice, i, sum);
  sum->plan += plan;
  sum->ribs += fmax (plan - open, 0);
  if (plan > *largest)
    {
      *largest = plan;
      sum->concrete_ribs = bay->profile->rib_face == SW_RIB_FACE_CONCRETE;
      sum->bay = bay;
    }
  slice_clear (&slice);
}

void
sw_soffit_spans (const SwDeck *deck, const SwDeckBay *bay, const SwRoom *room, double v, GArray *spans)
{
  Slice slice = slice_of (deck, bay, room);
  g_autoptr (GArray) found = slice_at (&slice, v);
  g_array_set_size (spans, 0);
  g_array_append_vals (spans, found->data, found->len);
  slice_clear (&slice);
}

SwSoffitArea
sw_soffit_area (const SwDeck *deck, const SwRoom *room)
{
  SwSoffitArea sum = { .crown_low = INFINITY };
  double largest = 0;
  for (guint i = 0; i < sw_deck_n_bays (deck); i++)
    add_bay (deck, sw_deck_bay (deck, i), room, &sum, &largest);
  sum.soffit_low = sw_deck_lowest_soffit (deck, room);
  sum.crown_low = isfinite (sum.crown_low) ? sum.crown_low : sum.soffit_low;
  sum.rib_share = sum.plan > 0 ? sum.ribs / sum.plan : 0;
  return sum;
}
