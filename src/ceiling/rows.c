/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/rows.h"
#include "base/tolerance.h"

/* Sheets lie in rows at right angles to the battens (or along them). A manner fixes the height of the first row; the area is
 * cut into rows, each row into connected stretches, each stretch into pieces at end joints. Where the first end joint of a
 * stretch goes is chosen among the battens that one sheet reaches: no fault before few slivers before few pieces before a
 * wide stagger against the row before (or stagger before pieces, by the manner's aim); after it sheets are whole. Columns in
 * the middle of a piece split it: a board cannot be lifted over a column. One pass; rows do not look ahead. */

typedef struct
{
  const SwBoardField *field;
  SwRowsManner manner;
  SwRows *rows;
  GArray *before, *here; /* double: end joints of the row before and of this one */
  GArray *offcuts;       /* double: lengths left of sheets that were cut, whole in width */
  guint row;
  const GPtrArray *asked; /* SwRowsStretch: where joints are asked for; NULL: nowhere */
} Laying;

/* ---- choosing end joints ---- */

typedef struct
{
  double first;     /* of the joints; INFINITY: none */
  guint faults, slivers, close_calls, pieces, holes, sheets;
  double stagger;   /* short of what is aimed at */
} Choice;

static double
least_distance (const GArray *joints, double x)
{
  double least = INFINITY;
  for (guint i = 0; i < joints->len; i++)
    least = fmin (least, fabs (g_array_index (joints, double, i) - x));
  return least;
}

/* Holes of the polygon that no joint goes through: each will split a piece. */
static guint
unsplit_holes (const SwBoardField *field, const SwRings *polygon, double first)
{
  guint count = 0;
  for (guint i = 1; i < sw_rings_n (polygon); i++)
    {
      guint n;
      const SwPoint *points = sw_rings_get (polygon, i, &n);
      SwBox box = sw_outline_box (points, n);
      gboolean split = FALSE;
      for (double x = first; x < box.high.x; x += field->length)
        split = split || x > box.low.x;
      count += !split;
    }
  return count;
}

/* Index of the shortest offcut that gives the length, −1 for none but `taken`. */
static int
find_offcut (const Laying *laying, double length, int taken)
{
  int best = -1;
  for (int i = 0; i < (int) laying->offcuts->len; i++)
    {
      double offcut = g_array_index (laying->offcuts, double, i);
      if (i != taken && offcut >= length - SW_TOUCH_MM
          && (best < 0 || offcut < g_array_index (laying->offcuts, double, best)))
        best = i;
    }
  return best;
}

/* Sheets that a stretch needs beside the offcuts at hand for its two ends. */
static guint
new_sheets (const Laying *laying, guint pieces, double first, double last)
{
  int one = find_offcut (laying, first, -1), two = find_offcut (laying, last, one);
  return pieces - (one >= 0) - (pieces > 1 && two >= 0);
}

/* Takes an end piece from an offcut or a new sheet and keeps what is left. */
static void
take_end (Laying *laying, double length)
{
  int index = find_offcut (laying, length, -1);
  double left = (index >= 0 ? g_array_index (laying->offcuts, double, index) : laying->field->length) - length;
  if (index >= 0)
    g_array_remove_index (laying->offcuts, index);
  if (left >= laying->field->sliver)
    g_array_append_val (laying->offcuts, left);
}

static Choice
judge (const Laying *laying, const SwRings *polygon, SwBox box, double first)
{
  const SwBoardField *field = laying->field;
  Choice choice = { .first = first, .pieces = 1, .holes = unsplit_holes (field, polygon, first) };
  double last = first, distance = INFINITY;
  for (double x = first; x < box.high.x - SW_TOUCH_MM; x += field->length)
    {
      SwPoint low = { x, box.low.y }, high = { x, box.high.y };
      g_autoptr (GArray) seam = g_array_new (FALSE, FALSE, sizeof (SwInterval));
      sw_rings_seam (polygon, SW_ALONG_Y, x, field->bearing, seam);
      last = x;
      choice.pieces++;
      distance = fmin (distance, least_distance (laying->before, x));
      choice.faults += !field->turned && sw_board_field_bare (field, x, seam) > 0;
      choice.close_calls += sw_board_field_near (field, low, high) != NULL;
    }
  choice.faults += distance < field->stagger_least - SW_TOUCH_MM;
  choice.slivers = (first - box.low.x < field->sliver) + (box.high.x - last < field->sliver);
  choice.stagger = fmax (0, field->stagger_good - distance);
  choice.sheets = new_sheets (laying, choice.pieces, first - box.low.x, box.high.x - last);
  return choice;
}

static gboolean
is_better (const Choice *a, const Choice *b, SwRowsAim aim)
{
  const guint firm[][2] = { { a->faults, b->faults }, { a->slivers, b->slivers }, { a->close_calls, b->close_calls } };
  for (gsize i = 0; i < G_N_ELEMENTS (firm); i++)
    if (firm[i][0] != firm[i][1])
      return firm[i][0] < firm[i][1];
  guint pieces_a = a->pieces + a->holes, pieces_b = b->pieces + b->holes;
  gboolean same_stagger = fabs (a->stagger - b->stagger) < SW_TOUCH_MM;
  if (aim == SW_ROWS_STAGGERED && !same_stagger)
    return a->stagger < b->stagger;
  if (aim == SW_ROWS_OFFCUTS && a->sheets != b->sheets)
    return a->sheets < b->sheets;
  if (pieces_a != pieces_b)
    return pieces_a < pieces_b;
  if (!same_stagger)
    return a->stagger < b->stagger;
  return a->first > b->first + SW_TOUCH_MM; /* a long piece first */
}

/* Corner start: whole sheets from the low wall, every other row half a sheet on. */
static double
plain_first (const Laying *laying, SwBox box)
{
  const SwBoardField *field = laying->field;
  double half = floor (field->length / field->step / 2 + 1e-6) * field->step;
  double first = field->start + (laying->row % 2 ? half : 0);
  if (field->start > field->box.low.x + SW_TOUCH_MM) /* a shifted grid: the first sheet is cut to its last joint */
    first -= field->step;
  while (first <= box.low.x + SW_TOUCH_MM)
    first += field->length;
  while (first > box.low.x + field->length + SW_TOUCH_MM)
    first -= field->length;
  return first;
}

static double
first_joint (const Laying *laying, const SwRings *polygon, SwBox box)
{
  const SwBoardField *field = laying->field;
  if (box.high.x - box.low.x <= field->length + SW_TOUCH_MM)
    return INFINITY;
  if (laying->manner.aim == SW_ROWS_PLAIN)
    return plain_first (laying, box);
  Choice best = { .first = INFINITY };
  double k = floor ((box.low.x - field->start) / field->step + 1e-6) + 1;
  for (double x = field->start + k * field->step; x <= box.low.x + field->length + SW_TOUCH_MM; x += field->step)
    {
      if (!sw_board_field_has_line (field, x) || x - box.low.x < SW_TOUCH_MM)
        continue;
      Choice choice = judge (laying, polygon, box, x);
      if (isinf (best.first) || is_better (&choice, &best, laying->manner.aim))
        best = choice;
    }
  return isinf (best.first) ? box.low.x + field->length : best.first;
}

/* ---- pieces ---- */

static void
add_joint (Laying *laying, SwAlong along, double at, SwInterval part, SwJointKind kind)
{
  SwPoint from = { at, part.low }, to = { at, part.high };
  SwJoint joint = { from, to, kind };
  if (along == SW_ALONG_X)
    joint = (SwJoint){ { part.low, at }, { part.high, at }, kind };
  laying->rows->joint_length += part.high - part.low;
  laying->rows->close_calls += sw_board_field_near (laying->field, joint.from, joint.to) != NULL;
  g_array_append_val (laying->rows->joints, joint);
}

static void
note_bare (Laying *laying, double bare)
{
  laying->rows->off += bare > 0;
  laying->rows->faults += bare > 0;
  laying->rows->bare = fmax (laying->rows->bare, bare);
  laying->rows->bare_more += bare > 2 * laying->field->batten + SW_TOUCH_MM;
}

static void
add_seam (Laying *laying, const SwRings *rings, SwAlong along, double at, SwJointKind kind)
{
  g_autoptr (GArray) parts = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  sw_rings_seam (rings, along, at, laying->field->bearing, parts);
  gboolean on_batten = kind == (laying->field->turned ? SW_JOINT_LONG : SW_JOINT_END);
  note_bare (laying, on_batten ? sw_board_field_bare (laying->field, at, parts) : 0);
  for (guint i = 0; i < parts->len; i++)
    add_joint (laying, along, at, g_array_index (parts, SwInterval, i), kind);
}

static void
add_locked_seam (SwAlong along, double at, const GArray *parts, gpointer data)
{
  Laying *laying = data;
  SwJointKind kind = along == SW_ALONG_Y ? SW_JOINT_END : SW_JOINT_LONG;
  gboolean on_batten = kind == (laying->field->turned ? SW_JOINT_LONG : SW_JOINT_END);
  note_bare (laying, on_batten ? sw_board_field_bare (laying->field, at, parts) : 0);
  for (guint i = 0; i < parts->len; i++)
    add_joint (laying, along, at, g_array_index (parts, SwInterval, i), kind);
}

/* The locked pieces, with the joints round them. */
static void
lay_locked (Laying *laying)
{
  const SwBoardField *field = laying->field;
  SwFrame same = { { 0, 0 }, 1, 0 };
  for (guint i = 0; i < field->locked->len; i++)
    {
      const SwRings *piece = field->locked->pdata[i];
      SwBox box = sw_rings_box (piece);
      laying->rows->smallest = fmin (laying->rows->smallest, fmin (box.high.x - box.low.x, box.high.y - box.low.y));
      g_ptr_array_add (laying->rows->pieces, sw_rings_to (piece, &same));
    }
  sw_board_field_locked_seams (field, add_locked_seam, laying);
}

static gboolean
is_hatch_hole (const SwBoardField *field, SwBox hole)
{
  SwPoint middle = sw_point_lerp (hole.low, hole.high, 0.5);
  for (guint i = 0; i < field->keep_offs->len; i++)
    {
      const SwKeepOff *off = &g_array_index (field->keep_offs, SwKeepOff, i);
      if (off->hatch && sw_point_distance (off->at, middle) < 1)
        return TRUE;
    }
  return FALSE;
}

/* Index of a hole that splits the piece, 0 for none. */
static guint
column_hole (const SwBoardField *field, const SwRings *polygon, SwBox *box)
{
  for (guint i = 1; i < sw_rings_n (polygon); i++)
    {
      guint n;
      const SwPoint *points = sw_rings_get (polygon, i, &n);
      *box = sw_outline_box (points, n);
      if (!is_hatch_hole (field, *box))
        return i;
    }
  return 0;
}

/* The cut through a hole, which has to lie on a batten or at right angles to them: on a batten that goes through the hole, else
 * along the row through its middle; across the row when the row runs with the battens. */
static SwAlong
cut_through (const SwBoardField *field, SwBox hole, double *at)
{
  double middle = (hole.low.x + hole.high.x) / 2, best = field->turned ? middle : INFINITY;
  for (guint i = 0; field->lines && i < field->lines->len; i++)
    {
      double line = g_array_index (field->lines, double, i);
      if (line > hole.low.x + SW_TOUCH_MM && line < hole.high.x - SW_TOUCH_MM && fabs (line - middle) < fabs (best - middle))
        best = line;
    }
  *at = isfinite (best) ? best : (hole.low.y + hole.high.y) / 2;
  return isfinite (best) ? SW_ALONG_Y : SW_ALONG_X;
}

/* An end joint, for the stagger. */
static void
note_end (Laying *laying, double x)
{
  g_array_append_val (laying->here, x);
  laying->rows->faults += least_distance (laying->before, x) < laying->field->stagger_least - SW_TOUCH_MM;
}

static void keep_pieces (Laying *laying, const SwRings *rings);

static void
keep_piece (Laying *laying, SwRings *polygon)
{
  SwRows *rows = laying->rows;
  SwBox hole, box = sw_rings_box (polygon);
  if (column_hole (laying->field, polygon, &hole) > 0)
    {
      double at;
      SwAlong along = cut_through (laying->field, hole, &at);
      SwRings *low, *high;
      add_seam (laying, polygon, along, at, along == SW_ALONG_Y ? SW_JOINT_END : SW_JOINT_LONG);
      if (along == SW_ALONG_Y)
        note_end (laying, at);
      sw_rings_split (polygon, along, at, &low, &high);
      keep_pieces (laying, low);
      keep_pieces (laying, high);
      sw_rings_free (low);
      sw_rings_free (high);
      sw_rings_free (polygon);
      return;
    }
  double least = fmin (box.high.x - box.low.x, box.high.y - box.low.y);
  rows->smallest = fmin (rows->smallest, least);
  rows->slivers += least < laying->field->sliver - SW_TOUCH_MM;
  g_ptr_array_add (rows->pieces, polygon);
}

static void
keep_pieces (Laying *laying, const SwRings *rings)
{
  g_autoptr (GPtrArray) polygons = sw_rings_polygons (rings);
  g_ptr_array_set_free_func (polygons, NULL);
  for (guint i = 0; i < polygons->len; i++)
    keep_piece (laying, polygons->pdata[i]);
}

/* End joints of the stretch at hand: as asked for, else the first as it is chosen and whole sheets from there on. */
static GArray *
joints_of (const Laying *laying, const SwRings *polygon, SwBox box)
{
  guint index = laying->rows->stretches->len;
  if (laying->asked != NULL && index < laying->asked->len)
    return g_array_copy (((const SwRowsStretch *) laying->asked->pdata[index])->joints);
  GArray *joints = g_array_new (FALSE, FALSE, sizeof (double));
  for (double x = first_joint (laying, polygon, box); x < box.high.x - SW_TOUCH_MM; x += laying->field->length)
    g_array_append_val (joints, x);
  return joints;
}

static void
lay_stretch (Laying *laying, const SwRings *polygon)
{
  const SwBoardField *field = laying->field;
  SwBox box = sw_rings_box (polygon);
  double low = box.low.x;
  g_autoptr (GArray) joints = joints_of (laying, polygon, box);
  for (guint i = 0; i < joints->len; i++)
    {
      double x = g_array_index (joints, double, i);
      g_autoptr (SwRings) piece = sw_rings_between (polygon, SW_ALONG_Y, low, x);
      keep_pieces (laying, piece);
      add_seam (laying, polygon, SW_ALONG_Y, x, SW_JOINT_END);
      note_end (laying, x);
      low = x;
    }
  if (box.high.y - box.low.y > field->width / 2) /* narrower ones are ripped from other sheets */
    {
      take_end (laying, (joints->len > 0 ? g_array_index (joints, double, 0) : box.high.x) - box.low.x);
      if (joints->len > 0)
        take_end (laying, box.high.x - low);
    }
  g_autoptr (SwRings) last = sw_rings_between (polygon, SW_ALONG_Y, low, box.high.x + 1);
  keep_pieces (laying, last);
  SwRowsStretch stretch = { box.low.x, box.high.x, { box.low.y, box.high.y }, laying->row, joints };
  g_ptr_array_add (laying->rows->stretches, sw_rows_stretch_copy (&stretch));
}

/* End joints of locked pieces in the row count for the stagger. */
static void
note_locked (Laying *laying, double low, double high)
{
  const SwBoardField *field = laying->field;
  for (guint i = 0; i < field->locked->len; i++)
    {
      SwBox box = sw_rings_box (field->locked->pdata[i]);
      if (box.low.y >= high - SW_TOUCH_MM || box.high.y <= low + SW_TOUCH_MM)
        continue;
      if (box.low.x > field->box.low.x + SW_TOUCH_MM)
        g_array_append_val (laying->here, box.low.x);
      if (box.high.x < field->box.high.x - SW_TOUCH_MM)
        g_array_append_val (laying->here, box.high.x);
    }
}

static void
lay_row (Laying *laying, double low, double high)
{
  const SwBoardField *field = laying->field;
  note_locked (laying, low, high);
  g_autoptr (SwRings) strip = sw_rings_between (field->area, SW_ALONG_X, low, high);
  g_autoptr (GPtrArray) stretches = sw_rings_polygons (strip);
  for (guint i = 0; i < stretches->len; i++)
    lay_stretch (laying, stretches->pdata[i]);
  GArray *swap = laying->before;
  laying->before = laying->here;
  laying->here = swap;
  g_array_set_size (laying->here, 0);
}

static SwRows *
lay (const SwBoardField *field, SwRowsManner manner, const GPtrArray *asked)
{
  SwRows *rows = g_new0 (SwRows, 1);
  rows->pieces = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_rings_free);
  rows->joints = g_array_new (FALSE, FALSE, sizeof (SwJoint));
  rows->stretches = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_rows_stretch_free);
  rows->smallest = INFINITY;
  rows->first = manner.first;
  Laying laying = { field, manner, rows, g_array_new (FALSE, FALSE, sizeof (double)),
                    g_array_new (FALSE, FALSE, sizeof (double)), g_array_new (FALSE, FALSE, sizeof (double)), 0, asked };
  double low = field->box.low.y, high = low + manner.first;
  lay_locked (&laying);
  for (;; laying.row++)
    {
      gboolean last = high >= field->box.high.y - SW_TOUCH_MM;
      lay_row (&laying, low, last ? field->box.high.y + 1 : high);
      if (last)
        break;
      add_seam (&laying, field->area, SW_ALONG_X, high, SW_JOINT_LONG);
      low = high;
      high += field->width;
    }
  g_array_unref (laying.before);
  g_array_unref (laying.here);
  g_array_unref (laying.offcuts);
  return rows;
}

SwRowsStretch *
sw_rows_stretch_copy (const SwRowsStretch *stretch)
{
  SwRowsStretch *copy = g_new (SwRowsStretch, 1);
  *copy = *stretch;
  copy->joints = g_array_copy (stretch->joints);
  return copy;
}

void
sw_rows_stretch_free (SwRowsStretch *stretch)
{
  g_array_unref (stretch->joints);
  g_free (stretch);
}

SwRows *
sw_rows_lay (const SwBoardField *field, SwRowsManner manner)
{
  return lay (field, manner, NULL);
}

SwRows *
sw_rows_lay_as (const SwBoardField *field, double first, const GPtrArray *stretches)
{
  return lay (field, (SwRowsManner){ first, SW_ROWS_FEW }, stretches);
}

int
sw_rows_compare_faults (const SwRows *a, const SwRows *b)
{
  const guint keys[][2] = { { a->bare_more, b->bare_more }, { a->off, b->off }, { a->faults, b->faults }, { a->slivers, b->slivers } };
  for (gsize i = 0; i < G_N_ELEMENTS (keys); i++)
    if (keys[i][0] != keys[i][1])
      return keys[i][0] < keys[i][1] ? -1 : 1;
  return 0;
}

gboolean
sw_rows_is_better (const SwRows *a, const SwRows *b)
{
  int faults = sw_rows_compare_faults (a, b);
  if (faults != 0)
    return faults < 0;
  if (a->cost != b->cost)
    return a->cost < b->cost;
  if (a->close_calls != b->close_calls)
    return a->close_calls < b->close_calls;
  if (fabs (a->joint_length - b->joint_length) > 1)
    return a->joint_length < b->joint_length;
  return a->smallest > b->smallest + SW_TOUCH_MM;
}

void
sw_rows_free (SwRows *rows)
{
  if (rows == NULL)
    return;
  g_ptr_array_unref (rows->pieces);
  g_array_unref (rows->joints);
  g_ptr_array_unref (rows->stretches);
  g_free (rows);
}
