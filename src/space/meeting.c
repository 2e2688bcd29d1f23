/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which bodies are nearer to each other than they should be. The tree gives candidates by their boxes; each pair is asked for
 * what it needs before any distance is worked out, since most are allowed to touch. */
#include "space/bodies.h"
#include <stdlib.h>

typedef struct
{
  const SwSpace *space;
  SwSpaceNeeded needed;
  gpointer data;
  GArray *candidates; /* guint */
} Search;

static gboolean
take_candidate (guint i, gpointer data)
{
  Search *search = data;
  g_array_append_val (search->candidates, i);
  return TRUE;
}

static int
by_index (gconstpointer a, gconstpointer b)
{
  guint i = *(const guint *) a, k = *(const guint *) b;
  return (i > k) - (i < k);
}

static void
search_box (Search *search, SwBox3 box)
{
  g_array_set_size (search->candidates, 0);
  sw_index_query (sw_space_index (search->space), box, take_candidate, search);
  g_array_sort (search->candidates, by_index);
}

static void
measure_pair (Search *search, const SwBody *a, const SwBody *b, guint first, guint second, GArray *meetings)
{
  SwMeeting meeting = { .first = first, .second = second };
  if (a->owner == b->owner)
    return;
  meeting.needed = search->needed (a, b, search->data);
  if (meeting.needed < 0 || !sw_box3_meets (sw_box3_grow (a->box, meeting.needed), b->box))
    return;
  if (sw_solid_clearance (&a->solid, &b->solid, NULL) >= meeting.needed)
    return;
  sw_solid_clearance (&a->solid, &b->solid, &meeting.clearance);
  g_array_append_val (meetings, meeting);
}

/* Everything after `i`, or before it too. */
static void
meet_body (Search *search, guint i, double reach, gboolean after_only, GArray *meetings)
{
  const SwBody *body = sw_space_body (search->space, i);
  search_box (search, sw_box3_grow (body->box, body->margin + reach));
  for (guint k = 0; k < search->candidates->len; k++)
    {
      guint other = g_array_index (search->candidates, guint, k);
      if (other > i)
        measure_pair (search, body, sw_space_body (search->space, other), i, other, meetings);
      else if (other < i && !after_only)
        measure_pair (search, sw_space_body (search->space, other), body, other, i, meetings);
    }
}

static int
by_pair (gconstpointer a, gconstpointer b)
{
  const SwMeeting *p = a, *q = b;
  if (p->first != q->first)
    return p->first < q->first ? -1 : 1;
  return (p->second > q->second) - (p->second < q->second);
}

GArray *
sw_space_meetings (const SwSpace *space, double reach, SwSpaceNeeded needed, gpointer data, GCancellable *cancellable)
{
  g_autoptr (GArray) meetings = g_array_new (FALSE, FALSE, sizeof (SwMeeting));
  g_autoptr (GArray) candidates = g_array_new (FALSE, FALSE, sizeof (guint));
  Search search = { space, needed, data, candidates };
  for (guint i = 0; i < sw_space_n_bodies (space); i++)
    {
      if (i % 256 == 0 && g_cancellable_is_cancelled (cancellable))
        return NULL;
      meet_body (&search, i, reach, TRUE, meetings);
    }
  return g_steal_pointer (&meetings);
}

GArray *
sw_space_meetings_of (const SwSpace *space, const SwId *owners, guint n_owners, double reach, SwSpaceNeeded needed, gpointer data)
{
  GArray *meetings = g_array_new (FALSE, FALSE, sizeof (SwMeeting));
  g_autoptr (GArray) candidates = g_array_new (FALSE, FALSE, sizeof (guint));
  Search search = { space, needed, data, candidates };
  for (guint o = 0; o < n_owners; o++)
    {
      guint first, n;
      sw_space_bodies_of (space, owners[o], &first, &n);
      for (guint i = first; i < first + n; i++)
        meet_body (&search, i, reach, FALSE, meetings);
    }
  g_array_sort (meetings, by_pair);
  guint kept = 0; /* two owners that meet each other were found from both sides */
  for (guint i = 0; i < meetings->len; i++)
    if (i == 0 || by_pair (&g_array_index (meetings, SwMeeting, i), &g_array_index (meetings, SwMeeting, kept - 1)) != 0)
      g_array_index (meetings, SwMeeting, kept++) = g_array_index (meetings, SwMeeting, i);
  g_array_set_size (meetings, kept);
  return meetings;
}

GArray *
sw_space_meetings_with (const SwSpace *space, const GArray *drafts, SwId without, double reach, SwSpaceNeeded needed, gpointer data)
{
  GArray *meetings = g_array_new (FALSE, FALSE, sizeof (SwMeeting));
  g_autoptr (GArray) candidates = g_array_new (FALSE, FALSE, sizeof (guint));
  Search search = { space, needed, data, candidates };
  for (guint i = 0; i < drafts->len; i++)
    {
      const SwBody *draft = &g_array_index (drafts, SwBody, i);
      search_box (&search, sw_box3_grow (draft->box, draft->margin + reach));
      for (guint k = 0; k < candidates->len; k++)
        {
          guint other = g_array_index (candidates, guint, k);
          const SwBody *body = sw_space_body (space, other);
          if (body->owner != without)
            measure_pair (&search, draft, body, i, other, meetings);
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
query_one (guint i, gpointer data)
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
  sw_index_query (sw_space_index (space), box, query_one, &query);
}
