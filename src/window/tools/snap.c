/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One walk over what lies near the pointer gathers the best place and the two best lines that are not parallel; the answer
 * is the place, else the lines' crossing when that is near too, else the foot on the best line. Cost: each record's places
 * once (a box test first), and the voids of one bay. It does not look for the nearest of many equal places: the first in the
 * order of tables wins, so the answer is the same every time. */
#include "window/tools/snap.h"
#include "window/tools/parts.h"
#include "base/text.h"

typedef struct
{
  SwSnapKind kind;
  SwPoint a, b;
  SwId record;
  double distance;
} Line;

typedef struct
{
  const SwSnapQuery *query;
  SwPoint raw;
  SwSnap place;
  double place_distance;
  Line lines[2];
  guint n_lines;
} Search;

static const char *const labels[SW_N_SNAPS] = {
  [SW_SNAP_NONE] = "", [SW_SNAP_END] = N_("end"), [SW_SNAP_CORNER] = N_("corner"), [SW_SNAP_CROSSING] = N_("crossing"),
  [SW_SNAP_CENTRE] = N_("middle of the void"), [SW_SNAP_LANE] = N_("lane beside the rib"), [SW_SNAP_GRID] = N_("grid line"),
  [SW_SNAP_WALL] = N_("wall"), [SW_SNAP_RUN] = N_("on the run"), [SW_SNAP_STRAIGHT] = N_("straight on"), [SW_SNAP_ALLOWED] = N_("allowed place"),
};

const char *
sw_snap_label (SwSnapKind kind)
{
  return labels[kind];
}

static gboolean
wants (const Search *search, SwSnapKind kind)
{
  return (search->query->kinds & SW_SNAP_BIT (kind)) != 0;
}

static void
offer_place (Search *search, SwSnapKind kind, SwPoint at, SwId record, int part)
{
  double distance = sw_point_distance (at, search->raw);
  if (!wants (search, kind) || distance > search->query->tolerance || distance >= search->place_distance - 1e-9)
    return;
  search->place = (SwSnap){ kind, at, record, part, 0, { { { 0, 0 } } } };
  search->place_distance = distance;
}

static gboolean
are_parallel (const Line *a, const Line *b)
{
  SwPoint u = sw_point_sub (a->b, a->a), v = sw_point_sub (b->b, b->a);
  return fabs (sw_point_cross (u, v)) < 0.02 * sw_point_length (u) * sw_point_length (v);
}

static SwPoint
foot_on (const Line *line, SwPoint p, double *t)
{
  SwPoint way = sw_point_sub (line->b, line->a);
  double square = sw_point_dot (way, way);
  *t = square > 0 ? sw_point_dot (sw_point_sub (p, line->a), way) / square : 0;
  return sw_point_lerp (line->a, line->b, *t);
}

/* `endless`: the line goes on beyond its ends. */
static void
offer_line (Search *search, SwSnapKind kind, SwPoint a, SwPoint b, SwId record, gboolean endless)
{
  double t;
  Line line = { kind, a, b, record, 0 };
  if (!wants (search, kind) || sw_point_distance (a, b) <= 0)
    return;
  SwPoint foot = foot_on (&line, search->raw, &t);
  line.distance = sw_point_distance (foot, search->raw);
  if (line.distance > search->query->tolerance || (!endless && (t < 0 || t > 1)))
    return;
  if (search->n_lines == 0 || line.distance < search->lines[0].distance - 1e-9)
    {
      if (search->n_lines > 0 && !are_parallel (&line, &search->lines[0]))
        {
          search->lines[1] = search->lines[0];
          search->n_lines = 2;
        }
      else if (search->n_lines == 2 && are_parallel (&line, &search->lines[1]))
        search->n_lines = 1;
      search->lines[0] = line;
      search->n_lines = MAX (search->n_lines, 1);
    }
  else if (!are_parallel (&line, &search->lines[0]) && (search->n_lines < 2 || line.distance < search->lines[1].distance - 1e-9))
    {
      search->lines[1] = line;
      search->n_lines = 2;
    }
}

static void
search_places (Search *search, const SwRecord *record, SwSnapKind kind)
{
  guint n = sw_parts_count (record);
  for (guint i = 0; i < n; i++)
    offer_place (search, kind, sw_parts_get (record, i), record->id, (int) i + 1);
}

static void
search_sides (Search *search, const SwRecord *record, SwSnapKind kind)
{
  guint n = sw_parts_count (record);
  SwPartsForm form = sw_parts_form (record);
  for (guint i = 0; i + 1 < n + (form == SW_PARTS_RING); i++)
    offer_line (search, kind, sw_parts_get (record, i), sw_parts_get (record, (i + 1) % n), record->id, FALSE);
}

typedef struct
{
  SwTable table;
  SwSnapKind places, sides; /* SW_SNAP_NONE: not at all */
} TableRow;

static const TableRow rows[] = {
  { SW_TABLE_DROP_IN, SW_SNAP_END, SW_SNAP_NONE },   { SW_TABLE_FITTING, SW_SNAP_END, SW_SNAP_NONE },
  { SW_TABLE_RUN, SW_SNAP_END, SW_SNAP_RUN },        { SW_TABLE_LIGHT, SW_SNAP_END, SW_SNAP_NONE },
  { SW_TABLE_SLEEVE, SW_SNAP_END, SW_SNAP_NONE },    { SW_TABLE_WALL, SW_SNAP_CORNER, SW_SNAP_WALL },
  { SW_TABLE_ROOM, SW_SNAP_CORNER, SW_SNAP_WALL },   { SW_TABLE_COLUMN, SW_SNAP_CORNER, SW_SNAP_WALL },
  { SW_TABLE_OPENING, SW_SNAP_CORNER, SW_SNAP_WALL }, { SW_TABLE_BEAM, SW_SNAP_CORNER, SW_SNAP_WALL },
  { SW_TABLE_BULKHEAD, SW_SNAP_CORNER, SW_SNAP_WALL },
  { SW_TABLE_BAY, SW_SNAP_CORNER, SW_SNAP_WALL },    { SW_TABLE_GRIDLINE, SW_SNAP_NONE, SW_SNAP_GRID },
};

static void
search_records (Search *search)
{
  SwJob *job = sw_deck_job (search->query->deck);
  SwBox near = sw_box_grow ((SwBox){ search->raw, search->raw }, search->query->tolerance);
  const SwRecord *record;
  for (gsize r = 0; r < G_N_ELEMENTS (rows); r++)
    for (SwJobIter i = sw_job_iter (job, rows[r].table); (record = sw_job_iter_next (&i)) != NULL;)
      {
        if (record->id == search->query->leave_out || !sw_box_meets (near, sw_record_box (record)))
          continue;
        if (rows[r].places != SW_SNAP_NONE)
          search_places (search, record, rows[r].places);
        if (rows[r].sides != SW_SNAP_NONE)
          search_sides (search, record, rows[r].sides);
      }
}

/* The middle of the nearest void and the lanes a quarter of its mouth to both sides. */
static void
search_voids (Search *search, const SwDeckBay *bay)
{
  SwPoint uv = sw_deck_to_bay (bay, search->raw);
  int index = sw_deck_void_near (bay, uv.y);
  if (index < 0)
    return;
  const SwVoid *hollow = &g_array_index (bay->voids, SwVoid, index);
  double quarter = (hollow->high - hollow->low) / 4;
  const struct { SwSnapKind kind; double v; } lanes[] = {
    { SW_SNAP_CENTRE, hollow->v }, { SW_SNAP_LANE, hollow->v - quarter }, { SW_SNAP_LANE, hollow->v + quarter },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (lanes); i++)
    offer_line (search, lanes[i].kind, sw_deck_from_bay (bay, (SwPoint){ 0, lanes[i].v }),
                sw_deck_from_bay (bay, (SwPoint){ bay->length, lanes[i].v }), 0, FALSE);
}

/* Along and across the voids where there are any, else along x and y. */
static void
search_straight (Search *search, const SwDeckBay *bay)
{
  SwPoint along = bay != NULL ? (SwPoint){ bay->cosine, bay->sine } : (SwPoint){ 1, 0 };
  SwPoint across = { -along.y, along.x };
  SwPoint from = *search->query->anchor;
  offer_line (search, SW_SNAP_STRAIGHT, from, sw_point_add (from, sw_point_scale (along, 1000)), 0, TRUE);
  offer_line (search, SW_SNAP_STRAIGHT, from, sw_point_add (from, sw_point_scale (across, 1000)), 0, TRUE);
}

static SwSnap
snap_to_lines (const Search *search)
{
  const Line *first = &search->lines[0], *second = &search->lines[1];
  SwSnap snap = { SW_SNAP_NONE, search->raw, 0, 0, 0, { { { 0, 0 } } } };
  double t;
  if (search->n_lines == 0)
    return snap;
  snap.kind = first->kind;
  snap.record = first->record;
  snap.at = foot_on (first, search->raw, &t);
  if (search->n_lines == 2)
    {
      SwPoint u = sw_point_sub (first->b, first->a), v = sw_point_sub (second->b, second->a);
      double s = sw_point_cross (sw_point_sub (second->a, first->a), v) / sw_point_cross (u, v);
      SwPoint crossing = sw_point_lerp (first->a, first->b, s);
      if (sw_point_distance (crossing, search->raw) <= 1.5 * search->query->tolerance)
        {
          snap.kind = SW_SNAP_CROSSING;
          snap.at = crossing;
          snap.n_guides = 1;
          snap.guides[0][0] = second->a;
          snap.guides[0][1] = second->kind == SW_SNAP_STRAIGHT ? crossing : second->b;
        }
    }
  snap.guides[snap.n_guides][0] = first->a;
  snap.guides[snap.n_guides][1] = first->kind == SW_SNAP_STRAIGHT ? snap.at : first->b;
  snap.n_guides++;
  return snap;
}

SwSnap
sw_snap_find (const SwSnapQuery *query, SwPoint raw)
{
  Search search = { .query = query, .raw = raw, .place_distance = INFINITY };
  const SwDeckBay *bay = query->deck != NULL ? sw_deck_bay_at (query->deck, raw) : NULL;
  if (query->deck != NULL)
    search_records (&search);
  if (search.place_distance < INFINITY)
    return search.place;
  if (bay != NULL)
    search_voids (&search, bay);
  if (query->anchor != NULL)
    search_straight (&search, bay);
  return snap_to_lines (&search);
}
