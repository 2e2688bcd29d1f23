/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which bodies are nearer to each other than they should be. The tree gives candidates by their boxes; those of one record and of
 * classes that reach less far go there already; each other pair is asked for what it needs before any distance is worked out,
 * since most are allowed to touch. */
#include "space/bodies.h"
#include <stdlib.h>

typedef struct
{
  const SwSpace *space;
  SwSpaceNeeded needed;
  gpointer data;
  GCancellable *cancellable;
  guint asked;
  GArray *meetings;
} Search;

static void
measure_pair (Search *search, const SwBody *a, const SwBody *b, guint first, guint second)
{
  SwMeeting meeting = { .first = first, .second = second };
  if (a->owner == b->owner)
    return;
  meeting.needed = search->needed (a, b, search->data);
  if (meeting.needed < 0 || !sw_box3_meets (sw_box3_grow (a->box, meeting.needed), b->box))
    return;
  if (sw_solid_is_clear (&a->solid, &b->solid, meeting.needed))
    return;
  sw_solid_clearance (&a->solid, &b->solid, &meeting.clearance);
  g_array_append_val (search->meetings, meeting);
}

static void
measure_in_order (Search *search, guint a, guint b)
{
  guint first = sw_space_comes_before (search->space, a, b) ? a : b, second = first == a ? b : a;
  measure_pair (search, sw_space_body (search->space, first), sw_space_body (search->space, second), first, second);
}

static int
by_pair (gconstpointer a, gconstpointer b, gpointer space)
{
  const SwMeeting *p = a, *q = b;
  if (p->first != q->first)
    return sw_space_comes_before (space, p->first, q->first) ? -1 : 1;
  if (p->second != q->second)
    return sw_space_comes_before (space, p->second, q->second) ? -1 : 1;
  return 0;
}

static gboolean
take_pair (guint32 a, guint32 b, gpointer data)
{
  Search *search = data;
  if (search->asked++ % 4096 == 0 && g_cancellable_is_cancelled (search->cancellable))
    return FALSE;
  if (sw_space_group (search->space, a) != sw_space_group (search->space, b))
    measure_in_order (search, a, b);
  return TRUE;
}

GArray *
sw_space_meetings (const SwSpace *space, double reach, SwSpaceNeeded needed, gpointer data, GCancellable *cancellable)
{
  g_autoptr (GArray) meetings = g_array_new (FALSE, FALSE, sizeof (SwMeeting));
  Search search = { space, needed, data, cancellable, 0, meetings };
  if (g_cancellable_is_cancelled (cancellable) || !sw_neighbours_each_pair (sw_space_index (space), reach, take_pair, &search))
    return NULL;
  g_array_sort_with_data (meetings, by_pair, (gpointer) space);
  return g_steal_pointer (&meetings);
}

GArray *
sw_space_meetings_by (const SwSpace *space, const SwNeighbourClasses *classes, SwSpaceNeeded needed, gpointer data, GCancellable *cancellable)
{
  g_autoptr (GArray) meetings = g_array_new (FALSE, FALSE, sizeof (SwMeeting));
  Search search = { space, needed, data, cancellable, 0, meetings };
  if (g_cancellable_is_cancelled (cancellable) || !sw_neighbours_each_pair_of (sw_space_index (space), classes, take_pair, &search))
    return NULL;
  g_array_sort_with_data (meetings, by_pair, (gpointer) space);
  return g_steal_pointer (&meetings);
}

static void
find_near (const SwSpace *space, const SwBody *body, double reach, GArray *found)
{
  g_array_set_size (found, 0);
  sw_neighbours_find (sw_space_index (space), sw_box3_grow (body->box, body->margin + reach), found);
}

GArray *
sw_space_meetings_of (const SwSpace *space, const SwId *owners, guint n_owners, double reach, SwSpaceNeeded needed, gpointer data)
{
  GArray *meetings = g_array_new (FALSE, FALSE, sizeof (SwMeeting));
  g_autoptr (GArray) found = g_array_new (FALSE, FALSE, sizeof (guint32));
  Search search = { space, needed, data, NULL, 0, meetings };
  for (guint o = 0; o < n_owners; o++)
    {
      guint first, n;
      sw_space_bodies_of (space, owners[o], &first, &n);
      for (guint i = first; i < first + n; i++)
        {
          find_near (space, sw_space_body (space, i), reach, found);
          for (guint k = 0; k < found->len; k++)
            if (g_array_index (found, guint32, k) != i)
              measure_in_order (&search, i, g_array_index (found, guint32, k));
        }
    }
  g_array_sort_with_data (meetings, by_pair, (gpointer) space);
  guint kept = 0; /* two owners that meet each other were found from both sides */
  for (guint i = 0; i < meetings->len; i++)
    if (i == 0 || by_pair (&g_array_index (meetings, SwMeeting, i), &g_array_index (meetings, SwMeeting, kept - 1), (gpointer) space) != 0)
      g_array_index (meetings, SwMeeting, kept++) = g_array_index (meetings, SwMeeting, i);
  g_array_set_size (meetings, kept);
  return meetings;
}

GArray *
sw_space_meetings_with (const SwSpace *space, const GArray *drafts, SwId without, double reach, SwSpaceNeeded needed, gpointer data)
{
  GArray *meetings = g_array_new (FALSE, FALSE, sizeof (SwMeeting));
  g_autoptr (GArray) found = g_array_new (FALSE, FALSE, sizeof (guint32));
  Search search = { space, needed, data, NULL, 0, meetings };
  for (guint i = 0; i < drafts->len; i++)
    {
      const SwBody *draft = &g_array_index (drafts, SwBody, i);
      find_near (space, draft, reach, found);
      for (guint k = 0; k < found->len; k++)
        {
          guint other = g_array_index (found, guint32, k);
          const SwBody *body = sw_space_body (space, other);
          if (body->owner != without)
            measure_pair (&search, draft, body, i, other);
        }
    }
  return meetings;
}

typedef struct
{
  const SwSpace *space;
  guint32 kinds;
  SwBox3 box;
  SwSpaceEach each;
  gpointer data;
} Query;

static gboolean
query_one (guint32 i, gpointer data)
{
  Query *query = data;
  const SwBody *body = sw_space_body (query->space, i);
  if (!(query->kinds & (1u << body->kind)) || !sw_box3_meets (body->box, query->box))
    return TRUE;
  return query->each (body, query->data);
}

void
sw_space_query (const SwSpace *space, SwBox3 box, guint32 kinds, SwSpaceEach each, gpointer data)
{
  Query query = { space, kinds, box, each, data };
  sw_neighbours_query (sw_space_index (space), box, query_one, &query);
}
