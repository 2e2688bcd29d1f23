/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/tolerance.h"
#include "ceiling/brandering.h"
#include "ceiling/clip.h"
#include "ceiling/lay.h"

/* Movement joints in a long ceiling: they cut through boards and brandering alike, so that each field is a part of its own. A stretch that
 * is longer than boards may run without one is shared evenly, each joint moved off lights and hatches that it would meet, with one field
 * more where there is no such place. A joint across the ribs cuts nothing that hangs from them: battens run beside it, or primaries carry
 * the battens' ends. One along the ribs ends battens (primaries, where there are any) at both of its sides, and stands only where ribs hold
 * all of these ends, neither too far from the end nor so near to it that the timber would split: under a broad rib, or between ribs that
 * are close together. Where there is no such place none is put in, and marks say that the field is too long and what was in the way. Fields times lights,
 * hatches and ribs times places. */

#define STEP_MM 10     /* joints stand on such steps from the wall that the battens begin at */
#define MORE_FIELDS 2
#define BEYOND_MM 1000 /* cutting boxes reach that far past the polygon */
#define LOOK_MM 100    /* along a joint ends are looked at that far apart, and this near to walls */
#define ASIDE_MM 1

/* What joints at x = … of a polygon are placed by. */
typedef struct
{
  const SwLay *lay;
  const SwFrame *frame;
  SwRings *local;  /* the polygon in it */
  SwRings *timber; /* where members lie that the joints end and ribs hold; NULL: they end none */
  SwBox box;
  GArray *blocks;  /* SwInterval of x */
  double end;      /* least distance of a fixing from the end of its batten */
} Places;

/* What a joint keeps off, as stretches of x. */
static void
add_blocks (Places *places)
{
  const SwCeiling *ceiling = places->lay->ceiling;
  const SwFrame *frame = places->frame;
  SwJob *job = sw_deck_job (ceiling->deck);
  double batten = ceiling->room->batten_width;
  double by_light = batten + sw_rules_value (ceiling->rules, "light.clearances", "batten_mm").value;
  double by_hatch = 2 * batten + sw_rules_value (ceiling->rules, "board.layout", "hatch_joint_mm").value;
  const SwRecord *record;
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_LIGHT); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwLight *light = (const SwLight *) record;
      SwPoint at = sw_frame_to (frame, light->at);
      double half = fmax (light->cut_out, light->body) / 2 + by_light;
      SwInterval block = { at.x - half, at.x + half };
      if (sw_rings_holds (places->local, at))
        g_array_append_val (places->blocks, block);
    }
  for (SwJobIter i = sw_job_iter (job, SW_TABLE_HATCH); (record = sw_job_iter_next (&i)) != NULL;)
    {
      const SwHatch *hatch = (const SwHatch *) record;
      SwPoint at = sw_frame_to (frame, hatch->at);
      double turn = hatch->turn * G_PI / 180 - atan2 (frame->sine, frame->cosine);
      double half = fabs (cos (turn)) * hatch->length / 2 + fabs (sin (turn)) * hatch->width / 2 + by_hatch;
      SwInterval block = { at.x - half, at.x + half };
      if (sw_rings_holds (places->local, at))
        g_array_append_val (places->blocks, block);
    }
}

/* Whether ribs hold the member that ends at the joint, coming from that side of it (1: from greater x). */
static gboolean
is_held (const Places *places, double x, double y, int side)
{
  g_autoptr (GArray) lengths = g_array_new (FALSE, FALSE, sizeof (SwInterval));
  g_autoptr (GArray) holds = g_array_new (FALSE, FALSE, sizeof (SwRibHold));
  sw_rings_cut (places->timber, SW_ALONG_X, y, lengths);
  for (guint i = 0; i < lengths->len; i++)
    {
      SwInterval length = g_array_index (lengths, SwInterval, i);
      double beside = x + side * ASIDE_MM, far = side > 0 ? length.high : length.low;
      if (beside < length.low || beside > length.high)
        continue;
      sw_lay_holds (places->lay, sw_frame_from (places->frame, (SwPoint){ x, y }), sw_frame_from (places->frame, (SwPoint){ far, y }), holds);
      double first = holds->len > 0 ? g_array_index (holds, SwRibHold, 0).along : INFINITY;
      return first >= places->end - SW_LAY_SLACK_MM && first <= places->lay->cantilever + SW_LAY_SLACK_MM;
    }
  return TRUE; /* none comes from there */
}

static gboolean
are_held (const Places *places, double x)
{
  for (int side = -1; side <= 1; side += 2)
    {
      g_autoptr (GArray) ends = g_array_new (FALSE, FALSE, sizeof (SwInterval));
      sw_rings_cut (places->timber, SW_ALONG_Y, x + side * ASIDE_MM, ends);
      for (guint i = 0; i < ends->len; i++)
        {
          SwInterval stretch = g_array_index (ends, SwInterval, i);
          double inset = fmin (LOOK_MM, stretch.high - stretch.low) / 2;
          guint n = (guint) ceil ((stretch.high - stretch.low - 2 * inset) / LOOK_MM) + 1;
          for (guint k = 0; k < n; k++)
            if (!is_held (places, x, stretch.low + inset + (n > 1 ? (stretch.high - stretch.low - 2 * inset) * k / (n - 1) : 0), side))
              return FALSE;
        }
    }
  return TRUE;
}

static gboolean
is_clear (const Places *places, double x)
{
  for (guint i = 0; i < places->blocks->len; i++)
    if (x > g_array_index (places->blocks, SwInterval, i).low && x < g_array_index (places->blocks, SwInterval, i).high)
      return FALSE;
  return places->timber == NULL || are_held (places, x);
}

/* The clear place nearest to `wanted` within the bounds, all from the wall that x begins at; NAN for none. */
static double
place_near (const Places *places, double wanted, double low, double high)
{
  double start = STEP_MM * floor (wanted / STEP_MM + 0.3);
  for (int k = 0; k * STEP_MM <= high - low; k++)
    for (int side = -1; side <= 1; side += 2)
      {
        double x = start + side * k * STEP_MM;
        if (x >= low && x <= high && is_clear (places, places->box.low.x + x))
          return x;
      }
  return NAN;
}

/* The joints between n fields; FALSE where one finds no place. */
static gboolean
place_joints (const Places *places, double length, double limit, guint n, GArray *joints)
{
  double before = 0;
  g_array_set_size (joints, 0);
  for (guint k = 1; k < n; k++)
    {
      double low = fmax (before + STEP_MM, length - (n - k) * limit), high = fmin (before + limit, length - STEP_MM);
      double x = place_near (places, length * k / n, low, high);
      if (isnan (x))
        return FALSE;
      g_array_append_val (joints, x);
      before = x;
    }
  return TRUE;
}

static SwRings *
cut_between (const SwRings *local, double low, double high, GError **error)
{
  SwBox box = sw_rings_box (local);
  const SwPoint corners[] = { { low, box.low.y - BEYOND_MM }, { high, box.low.y - BEYOND_MM }, { high, box.high.y + BEYOND_MM }, { low, box.high.y + BEYOND_MM } };
  g_autoptr (SwRings) band = sw_rings_new ();
  sw_rings_add (band, corners, G_N_ELEMENTS (corners));
  return sw_rings_combine (local, band, sw_region_intersect, error);
}

/* Adds each polygon of the field, in the plan. */
static gboolean
add_field (const SwRings *local, const SwFrame *frame, double low, double high, GPtrArray *fields, GError **error)
{
  g_autoptr (SwRings) part = cut_between (local, low, high, error);
  if (part == NULL)
    return FALSE;
  g_autoptr (GPtrArray) polygons = sw_rings_polygons (part);
  for (guint i = 0; i < polygons->len; i++)
    g_ptr_array_add (fields, sw_rings_from (polygons->pdata[i], frame));
  return TRUE;
}

/* With n fields or a few more; none where they find no place. */
static gboolean
try_joints (const Places *places, double length, double limit, guint n, GArray *joints)
{
  for (guint k = 0; k <= MORE_FIELDS; k++)
    if (place_joints (places, length, limit, n + k, joints))
      return TRUE;
  g_array_set_size (joints, 0);
  return FALSE;
}

/* Says why there is no joint: with the ribs left out of it there would be, or there would not. */
static void
mark_failure (const Places *places, double length, double limit, guint n)
{
  Places free = *places;
  g_autoptr (GArray) joints = g_array_new (FALSE, FALSE, sizeof (double));
  free.timber = NULL;
  gboolean unheld = try_joints (&free, length, limit, n, joints);
  SwPoint middle = sw_frame_from (places->frame, sw_point_lerp (places->box.low, places->box.high, 0.5));
  SwCeilingMark mark = { unheld ? SW_CEILING_FIELD_UNHELD : SW_CEILING_FIELD_BLOCKED, places->lay->ceiling->room->record.id, middle, length, limit, NULL };
  g_array_append_val (places->lay->ceiling->marks, mark);
}

/* Places of the joints from the wall that x begins at; none where the polygon is short, or, with a mark, where they find no place. */
static void
find_joints (Places *places, double limit, GArray *joints)
{
  double length = places->box.high.x - places->box.low.x;
  guint n = (guint) ceil ((length - 1) / limit);
  if (n <= 1 || n >= 1000)
    return;
  add_blocks (places);
  if (!try_joints (places, length, limit, n, joints))
    mark_failure (places, length, limit, n);
}

static gboolean
cut_fields (const Places *places, const GArray *joints, GPtrArray *fields, GError **error)
{
  double low = -BEYOND_MM, start = places->box.low.x, length = places->box.high.x - start;
  for (guint i = 0; i <= joints->len; i++)
    {
      double high = i < joints->len ? g_array_index (joints, double, i) : length + BEYOND_MM;
      if (!add_field (places->local, places->frame, start + low, start + high, fields, error))
        return FALSE;
      low = high;
    }
  return TRUE;
}

gboolean
sw_lay_fields (const SwLay *lay, const SwRings *polygon, const SwRings *timber, const SwFrame *frame, GPtrArray *fields, GError **error)
{
  double limit = 1e3 * sw_ceiling_longest_field (lay->ceiling->rules, sw_deck_job (lay->ceiling->deck), lay->ceiling->room, NULL);
  g_autoptr (SwRings) local = sw_rings_to (polygon, frame), ends = timber != NULL ? sw_rings_to (timber, frame) : NULL;
  g_autoptr (GArray) blocks = g_array_new (FALSE, FALSE, sizeof (SwInterval)), joints = g_array_new (FALSE, FALSE, sizeof (double));
  SwFrame same = { { 0, 0 }, 1, 0 };
  sw_rings_settle (local, ends);
  Places places = { lay, frame, local, ends, sw_rings_box (local), blocks, sw_rules_value (lay->ceiling->rules, "brandering.fixing", "end_mm").value };
  find_joints (&places, limit, joints);
  if (joints->len > 0)
    return cut_fields (&places, joints, fields, error);
  g_ptr_array_add (fields, sw_rings_to (polygon, &same));
  return TRUE;
}
