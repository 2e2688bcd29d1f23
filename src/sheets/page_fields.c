/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Places to part at are the rooms' edges, the middles between neighbouring edges (which lie in the walls) and the even ones. The best n − 1
 * of them are found field by field: the least cost of reaching each place with so many fields. Places × places on a page × fields. */
#include "sheets/page_fields.h"
#include "base/number.h"
#include <math.h>

#define MOST_FIELDS 100
#define EDGE_MM     1.0
#define PAGE_COST   0.5  /* one more field is worth more rooms left whole than this */
#define UNEVEN_COST 0.1  /* of a cut that is a whole field from the even place */
#define EDGE_COST   0.01 /* a cut in the middle of a wall is better than one at its face */

typedef struct
{
  double at, cost; /* of a cut there: rooms that it goes through */
} Place;

static int
rooms_cut (const GArray *rooms, double at)
{
  int n = 0;
  for (guint i = 0; i < rooms->len; i++)
    {
      const SwSpan *room = &g_array_index (rooms, SwSpan, i);
      n += room->low < at - EDGE_MM && room->high > at + EDGE_MM;
    }
  return n;
}

static void
add_place (GArray *places, SwSpan whole, const GArray *rooms, double at, double more)
{
  Place place = { at, rooms_cut (rooms, at) + more };
  if (at > whole.low + EDGE_MM && at < whole.high - EDGE_MM)
    g_array_append_val (places, place);
}

static int
by_place (gconstpointer a, gconstpointer b)
{
  return sw_compare_doubles (&((const Place *) a)->at, &((const Place *) b)->at);
}

/* Ascending, with the whole's own ends. */
static GArray *
find_places (SwSpan whole, const GArray *rooms, guint n)
{
  GArray *places = g_array_new (FALSE, FALSE, sizeof (Place));
  g_autoptr (GArray) edges = g_array_new (FALSE, FALSE, sizeof (double));
  for (guint i = 0; i < rooms->len; i++)
    g_array_append_vals (edges, &g_array_index (rooms, SwSpan, i), 2);
  g_array_sort (edges, sw_compare_doubles);
  for (guint i = 0; i < edges->len; i++)
    {
      double edge = g_array_index (edges, double, i), next = i + 1 < edges->len ? g_array_index (edges, double, i + 1) : edge;
      if (next - edge <= EDGE_MM && i + 1 < edges->len && i > 0 && edge - g_array_index (edges, double, i - 1) <= EDGE_MM)
        continue;
      add_place (places, whole, rooms, edge, EDGE_COST);
      if (next - edge > EDGE_MM)
        add_place (places, whole, rooms, (edge + next) / 2, 0);
    }
  for (guint i = 1; i < n; i++)
    add_place (places, whole, rooms, whole.low + (whole.high - whole.low) * i / n, 0);
  Place ends[] = { { whole.low, 0 }, { whole.high, 0 } };
  g_array_append_vals (places, ends, 2);
  g_array_sort (places, by_place);
  return places;
}

/* The best parting into n fields; *cost is INFINITY when there is none. */
static GArray *
part_into (SwSpan whole, double most, const GArray *rooms, guint n, double *cost)
{
  g_autoptr (GArray) places = find_places (whole, rooms, n);
  guint m = places->len;
  double even = (whole.high - whole.low) / n;
  g_autofree double *least = g_new (double, (gsize) m * (n + 1));
  g_autofree guint *from = g_new0 (guint, (gsize) m * (n + 1));
  for (gsize i = 0; i < (gsize) m * (n + 1); i++)
    least[i] = INFINITY;
  least[0] = 0;
  for (guint k = 1; k <= n; k++)
    for (guint to = 1; to < m; to++)
      {
        const Place *place = &g_array_index (places, Place, to);
        double off = (place->at - whole.low - k * even) / even, here = to + 1 == m ? 0 : place->cost + UNEVEN_COST * off * off;
        for (guint i = to; i-- > 0 && place->at - g_array_index (places, Place, i).at <= most + EDGE_MM / 1000;)
          if (least[(gsize) (k - 1) * m + i] + here < least[(gsize) k * m + to])
            {
              least[(gsize) k * m + to] = least[(gsize) (k - 1) * m + i] + here;
              from[(gsize) k * m + to] = i;
            }
      }
  GArray *cuts = g_array_new (FALSE, FALSE, sizeof (double));
  *cost = least[(gsize) n * m + m - 1];
  for (guint k = n + 1, at = m - 1; isfinite (*cost) && k-- > 0; at = from[(gsize) k * m + at])
    g_array_prepend_val (cuts, g_array_index (places, Place, at).at);
  return cuts;
}

GArray *
sw_page_fields (SwSpan whole, double most, const GArray *rooms)
{
  double wanted = ceil ((whole.high - whole.low) / most - 1e-9);
  guint n = (guint) CLAMP (wanted, 1, MOST_FIELDS);
  double least = INFINITY, page = wanted > MOST_FIELDS ? INFINITY : most;
  GArray *best = NULL;
  for (guint more = 0; more < 2 && (n > 1 || more == 0); more++)
    {
      double cost;
      GArray *cuts = part_into (whole, page, rooms, n + more, &cost);
      cost += more * PAGE_COST;
      if (best == NULL || cost < least)
        {
          g_clear_pointer (&best, g_array_unref);
          best = g_steal_pointer (&cuts);
          least = cost;
        }
      g_clear_pointer (&cuts, g_array_unref);
    }
  return best;
}
