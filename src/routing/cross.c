/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A crossing is two offsets and a straight: in the middle of its void the tube turns across, dips below the soffit before
 * it meets the rib's edge, and comes up again behind the last rib. The gap is the free interval of u nearest to what was
 * asked, between the battens of the layout there; cost: the members of the layouts once and a sort. It looks neither for
 * plates nor for other services: those are the checks' affair and show while the crossing is drawn. */
#include "routing/cross.h"
#include "base/error.h"

/* Outer diameters between a rib and the corner below it: bend radius (3 of them) times tan 22.5° for a turn of 45°, half a
 * socket's width make 1.8; the rest is clearance. */
#define BEND_ROOM 2.5
#define AIR_MM 3 /* beside a batten, so that the tube can be threaded */

static int
compare_intervals (gconstpointer a, gconstpointer b)
{
  const SwInterval *x = a, *y = b;
  return x->low < y->low ? -1 : x->low > y->low ? 1 : x->high < y->high ? -1 : x->high > y->high;
}

/* What the members of one layout take of u, within the strip. */
static void
gather (const SwDeckBay *bay, const SwLayout *layout, double v_low, double v_high, double grow, GArray *taken)
{
  for (guint i = 0; i < layout->members.n; i++)
    {
      const SwMember *member = &SW_LIST_AT (layout->members, SwMember, i);
      SwPoint a = sw_deck_to_bay (bay, member->from), b = sw_deck_to_bay (bay, member->to);
      if (fabs (a.x - b.x) > fabs (a.y - b.y) || MAX (a.y, b.y) < v_low || MIN (a.y, b.y) > v_high)
        continue;
      SwInterval interval = { MIN (a.x, b.x) - member->width / 2 - grow, MAX (a.x, b.x) + member->width / 2 + grow };
      g_array_append_val (taken, interval);
    }
}

double
sw_cross_gap (const SwDeck *deck, const SwDeckBay *bay, double u, double v_low, double v_high, double od)
{
  g_autoptr (GArray) taken = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  const SwRecord *record;
  double below = u, above = u;
  for (SwJobIter i = sw_job_iter (sw_deck_job (deck), SW_TABLE_LAYOUT); (record = sw_job_iter_next (&i)) != NULL;)
    gather (bay, (const SwLayout *) record, v_low, v_high, od / 2 + AIR_MM, taken);
  g_array_sort (taken, compare_intervals);
  for (guint i = 0; i < taken->len; i++)
    {
      const SwInterval *interval = &g_array_index (taken, SwInterval, i);
      if (above > interval->low && above < interval->high)
        above = interval->high;
    }
  /* Downwards the other way round: an interval that ends later may begin earlier, so go until nothing holds the place. */
  for (gboolean moved = TRUE; moved;)
    {
      moved = FALSE;
      for (guint i = 0; i < taken->len; i++)
        {
          const SwInterval *interval = &g_array_index (taken, SwInterval, i);
          if (below > interval->low && below < interval->high)
            {
              below = interval->low;
              moved = TRUE;
            }
        }
    }
  return u - below <= above - u ? below : above;
}

static void
add (GArray *vertices, const SwDeckBay *bay, double u, double v, int level, double z)
{
  SwVertex vertex = { sw_deck_from_bay (bay, (SwPoint){ u, v }), level, z };
  const SwVertex *last = vertices->len > 0 ? &g_array_index (vertices, SwVertex, vertices->len - 1) : NULL;
  if (last == NULL || sw_point_distance (last->at, vertex.at) > 1)
    g_array_append_val (vertices, vertex);
}

gboolean
sw_cross_vertices (const SwDeck *deck, const SwRun *run, const SwVertex *from, SwPoint to, double below, GArray *vertices, GError **error)
{
  const SwDeckBay *bay = sw_deck_bay_at (deck, from->at);
  if (run->fall > 0)
    {
      g_set_error_literal (error, SW_ERROR, SW_ERROR_INVALID,
                           "a falling pipe cannot dip under ribs and come up again: take it down, or through a sleeve");
      return FALSE;
    }
  if (bay == NULL || sw_deck_bay_at (deck, to) != bay)
    {
      g_set_error_literal (error, SW_ERROR, SW_ERROR_INVALID, "a crossing begins and ends in one bay: point at a void of the same bay");
      return FALSE;
    }
  SwPoint a = sw_deck_to_bay (bay, from->at), b = sw_deck_to_bay (bay, to);
  int first = sw_deck_void_near (bay, a.y), last = sw_deck_void_near (bay, b.y);
  if (first < 0 || first == last)
    {
      g_set_error_literal (error, SW_ERROR, SW_ERROR_INVALID, "there is no rib to cross between here and there: point at another void");
      return FALSE;
    }
  const SwVoid *here = &g_array_index (bay->voids, SwVoid, first), *there = &g_array_index (bay->voids, SwVoid, last);
  double outer = run->od + 2 * run->insulation, side = last > first ? 1 : -1;
  double u = sw_cross_gap (deck, bay, b.x, MIN (a.y, there->v), MAX (a.y, there->v), outer);
  double height = from->level == SW_LEVEL_VOID ? from->z : 60;
  add (vertices, bay, u, a.y, SW_LEVEL_VOID, height);
  add (vertices, bay, u, (side > 0 ? here->high : here->low) - side * BEND_ROOM * outer, SW_LEVEL_BELOW, below);
  add (vertices, bay, u, (side > 0 ? there->low : there->high) + side * BEND_ROOM * outer, SW_LEVEL_BELOW, below);
  add (vertices, bay, u, there->v, SW_LEVEL_VOID, height);
  return TRUE;
}

double
sw_cross_saddle_mm (const SwRules *rules)
{
  SwRuleValue gap;
  return rules != NULL && sw_rules_number (rules, "crossing.rules", "saddle_gap_mm", &gap, NULL) ? gap.value : 0;
}

static guint
nearest_leg (const SwRun *run, SwPoint at)
{
  guint best = 0;
  double nearest = INFINITY;
  for (guint i = 0; i + 1 < run->vertices.n; i++)
    {
      SwPoint a = SW_LIST_AT (run->vertices, SwVertex, i).at, b = SW_LIST_AT (run->vertices, SwVertex, i + 1).at;
      SwPoint way = sw_point_sub (b, a);
      double square = sw_point_dot (way, way);
      double t = square > 0 ? CLAMP (sw_point_dot (sw_point_sub (at, a), way) / square, 0, 1) : 0;
      double distance = sw_point_distance (sw_point_lerp (a, b, t), at);
      if (distance < nearest - 1e-9)
        {
          nearest = distance;
          best = i;
        }
    }
  return best;
}

SwRun *
sw_cross_run (const SwDeck *deck, const SwRun *run, SwPoint at, double below, GError **error)
{
  guint leg = nearest_leg (run, at);
  const SwVertex *old = run->vertices.items;
  const SwDeckBay *bay = sw_deck_bay_at (deck, old[leg + 1].at);
  g_autoptr (GArray) vertices = g_array_new (FALSE, FALSE, sizeof (SwVertex));
  SwPoint to = old[leg + 1].at;
  if (bay != NULL)
    to = sw_deck_from_bay (bay, (SwPoint){ sw_deck_to_bay (bay, at).x, sw_deck_to_bay (bay, to).y });
  g_array_append_vals (vertices, old, leg + 1);
  if (!sw_cross_vertices (deck, run, &old[leg], to, below, vertices, error))
    return NULL;
  for (guint i = leg + 1; i < run->vertices.n; i++)
    if (sw_point_distance (g_array_index (vertices, SwVertex, vertices->len - 1).at, old[i].at) > 1)
      g_array_append_val (vertices, old[i]);
  SwRun *changed = (SwRun *) sw_record_copy (&run->record);
  SwVertex *into = sw_list_resize (&changed->vertices, &sw_struct_vertex, vertices->len);
  memcpy (into, vertices->data, vertices->len * sizeof (SwVertex));
  return changed;
}
